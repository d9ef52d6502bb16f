//! How types of other crates stand in the published shape.

use glam::{Vec2, Vec3};
use light::{Gel, HeadDress};
use scene::Face;
use scene::figure::LandmarkName;
use schemars::JsonSchema;
use serde::{Serialize, Serializer};

/// A length from single precision, to a tenth of a millimetre: more is noise of the calculation.
fn metres(value: f32) -> f64 {
    (f64::from(value) * 1e4).round() / 1e4
}

/// A point in the place.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, JsonSchema)]
pub struct Point {
    /// Metres from the left wall, as seen from the camera.
    pub from_left: f64,
    /// Metres from the wall behind the camera.
    pub from_behind: f64,
    /// Metres above the floor.
    pub height: f64,
}

impl From<Vec3> for Point {
    fn from(point: Vec3) -> Self {
        Point {
            from_left: metres(point.x),
            from_behind: metres(point.y),
            height: metres(point.z),
        }
    }
}

/// A place, as a [`Point`].
pub(crate) fn point<S: Serializer>(value: &Vec3, serializer: S) -> Result<S::Ok, S::Error> {
    Point::from(*value).serialize(serializer)
}

/// A place that need not be there.
pub(crate) fn optional_point<S: Serializer>(value: &Option<Vec3>, serializer: S) -> Result<S::Ok, S::Error> {
    value.map(Point::from).serialize(serializer)
}

/// Three lengths, or the parts of a direction: to the camera's right, away from the wall behind the camera, up.
pub(crate) fn three<S: Serializer>(value: &Vec3, serializer: S) -> Result<S::Ok, S::Error> {
    value.to_array().map(metres).serialize(serializer)
}

/// Two lengths.
pub(crate) fn two<S: Serializer>(value: &Vec2, serializer: S) -> Result<S::Ok, S::Error> {
    value.to_array().map(metres).serialize(serializer)
}

/// A face of the room: `left`, `right`, `behind_camera`, `behind_sitter`, `ceiling`, `floor`.
pub(crate) fn face<S: Serializer>(value: &Face, serializer: S) -> Result<S::Ok, S::Error> {
    FaceName::from(*value).serialize(serializer)
}

/// A face that need not be there.
pub(crate) fn optional_face<S: Serializer>(value: &Option<Face>, serializer: S) -> Result<S::Ok, S::Error> {
    value.map(FaceName::from).serialize(serializer)
}

/// The faces of the room by their published names.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub(crate) enum FaceName {
    /// The wall on the camera's left.
    Left,
    /// The wall on the camera's right.
    Right,
    /// The wall behind the camera.
    BehindCamera,
    /// The wall behind the sitter.
    BehindSitter,
    /// The ceiling.
    Ceiling,
    /// The floor.
    Floor,
}

impl From<Face> for FaceName {
    fn from(face: Face) -> Self {
        match face {
            Face::Left => FaceName::Left,
            Face::Right => FaceName::Right,
            Face::BehindCamera => FaceName::BehindCamera,
            Face::BehindSitter => FaceName::BehindSitter,
            Face::Ceiling => FaceName::Ceiling,
            Face::Floor => FaceName::Floor,
        }
    }
}

/// What sits on the head, by its published name.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub(crate) enum DressName {
    /// Nothing.
    Bare,
    /// A white dome.
    Dome,
    /// A small white card.
    BounceCard,
    /// A white umbrella that the flash shines through.
    Umbrella,
    /// A small softbox.
    Softbox,
}

/// What sits on the head.
pub(crate) fn dress<S: Serializer>(value: &HeadDress, serializer: S) -> Result<S::Ok, S::Error> {
    match value {
        HeadDress::Bare => DressName::Bare,
        HeadDress::Dome => DressName::Dome,
        HeadDress::BounceCard => DressName::BounceCard,
        HeadDress::Umbrella(_) => DressName::Umbrella,
        HeadDress::Softbox(_) => DressName::Softbox,
    }
    .serialize(serializer)
}

/// A gel by its name.
pub(crate) fn gel<S: Serializer>(value: &Gel, serializer: S) -> Result<S::Ok, S::Error> {
    value.name().serialize(serializer)
}

/// A landmark of the face by its name, such as `nose_tip`.
pub(crate) fn landmark<S: Serializer>(value: &LandmarkName, serializer: S) -> Result<S::Ok, S::Error> {
    value.identifier().serialize(serializer)
}
