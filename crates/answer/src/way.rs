//! Ways of lighting: what the light goes by, and what such a way is.

use crate::published::{self, FaceName, Point};
use glam::Vec3;
use light::HeadDress;
use scene::Face;
use schemars::JsonSchema;
use serde::Serialize;

/// How the light goes from the flash to the face.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
#[serde(tag = "by", rename_all = "snake_case")]
#[schemars(deny_unknown_fields)]
pub enum Route {
    /// Off faces of the room; the second is the other half of a corner.
    Bounce {
        /// The face that carries most of the light.
        #[serde(serialize_with = "published::face")]
        #[schemars(with = "FaceName")]
        face: Face,
        /// The face that carries much of the rest, for an aim into a corner.
        #[serde(serialize_with = "published::optional_face")]
        #[schemars(with = "Option<FaceName>")]
        corner_with: Option<Face>,
    },
    /// Off a block of furniture or a board that stands in the place.
    Standing {
        /// Its name.
        name: String,
    },
    /// Off a board held by the assistant.
    HeldBoard {
        /// Position of the board in the bag.
        board: usize,
        /// Its name.
        name: String,
        /// Its centre.
        #[serde(rename = "centre_m", serialize_with = "published::point")]
        #[schemars(with = "Point")]
        centre: Vec3,
        /// Unit normal of its front.
        #[serde(serialize_with = "published::three")]
        #[schemars(with = "[f64; 3]")]
        normal: Vec3,
        /// Distance from its centre to the face in metres.
        to_face_m: f64,
    },
    /// Out of the place through an open side, where nothing sends light back.
    Open,
    /// Straight at the face.
    Direct,
}

/// What a way of lighting is, whatever it is called: the surface, the board, or the front that makes the light.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, JsonSchema)]
#[serde(tag = "is", rename_all = "snake_case")]
#[schemars(deny_unknown_fields)]
pub enum WayId {
    /// A plastic dome on a head that is turned up.
    Dome,
    /// A bounce card on a head that is turned up.
    BounceCard,
    /// Through an umbrella.
    Umbrella,
    /// From a softbox.
    Softbox,
    /// The bare head straight at the face.
    Direct,
    /// Off one face of the room.
    Face {
        /// The face.
        #[serde(serialize_with = "published::face")]
        #[schemars(with = "FaceName")]
        face: Face,
    },
    /// Off a face of the room where it meets another.
    Corner {
        /// The face that carries most of the light.
        #[serde(serialize_with = "published::face")]
        #[schemars(with = "FaceName")]
        face: Face,
        /// The face that carries much of the rest.
        #[serde(serialize_with = "published::face")]
        #[schemars(with = "FaceName")]
        with: Face,
    },
    /// Off furniture or a board that stands in the place.
    Standing {
        /// Its name.
        name: String,
    },
    /// Off a board that is held.
    HeldBoard {
        /// Its name.
        name: String,
    },
    /// Out of an open side.
    Open,
}

impl WayId {
    /// What a route with this head dress is.
    pub fn of(route: &Route, dress: HeadDress) -> Self {
        match (route, dress) {
            (_, HeadDress::Dome) => WayId::Dome,
            (_, HeadDress::BounceCard) => WayId::BounceCard,
            (Route::Direct, HeadDress::Umbrella(_)) => WayId::Umbrella,
            (Route::Direct, HeadDress::Softbox(_)) => WayId::Softbox,
            (Route::Direct, HeadDress::Bare) => WayId::Direct,
            (
                Route::Bounce {
                    face,
                    corner_with: Some(with),
                },
                _,
            ) => WayId::Corner {
                face: *face,
                with: *with,
            },
            (Route::Bounce { face, .. }, _) => WayId::Face { face: *face },
            (Route::Standing { name }, _) => WayId::Standing { name: name.clone() },
            (Route::HeldBoard { name, .. }, _) => WayId::HeldBoard { name: name.clone() },
            (Route::Open, _) => WayId::Open,
        }
    }
}

/// A surface by what it is: a face of the room, or something with a name.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, JsonSchema)]
#[serde(tag = "is", rename_all = "snake_case")]
#[schemars(deny_unknown_fields)]
pub enum Carrier {
    /// A face of the room.
    Face {
        /// The face.
        #[serde(serialize_with = "published::face")]
        #[schemars(with = "FaceName")]
        face: Face,
    },
    /// Furniture, a board or a lamp, by the photographer's name for it.
    Named {
        /// The name.
        name: String,
    },
}

impl Carrier {
    /// What carries the light of a route; `None` for light that comes straight, and for light that leaves the place.
    pub fn of(route: &Route) -> Option<Self> {
        match route {
            Route::Bounce { face, .. } => Some(Carrier::Face { face: *face }),
            Route::Standing { name } | Route::HeldBoard { name, .. } => {
                Some(Carrier::Named { name: name.clone() })
            }
            Route::Direct | Route::Open => None,
        }
    }
}

/// A light that is there, by its name.
#[derive(Clone, Debug, PartialEq, Eq, Hash, Serialize, JsonSchema)]
#[serde(tag = "is", rename_all = "snake_case")]
#[schemars(deny_unknown_fields)]
pub enum LightName {
    /// The sky.
    Sky,
    /// The sun.
    Sun,
    /// The moon.
    Moon,
    /// A light that the photographer has named.
    Given {
        /// The name.
        name: String,
    },
}

/// What holds the flash.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum Holder {
    /// The camera's shoe.
    Camera,
    /// A light stand.
    Stand,
    /// The hand of a helper.
    Helper,
    /// Something of the photographer's own, who said where the flash is: the bag has no stand, and no hand is free.
    Placed,
}

/// How the middle of the beam lies to the faces.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, JsonSchema)]
#[serde(tag = "is", rename_all = "snake_case")]
#[schemars(deny_unknown_fields)]
pub enum BeamMiddle {
    /// On the one face that there is.
    Face,
    /// On the middle of several faces.
    MiddleOfFaces,
    /// Elsewhere.
    Past {
        /// Angle at the flash between the beam's middle and the face, or the middle of the faces, in degrees, 0 to 180.
        off_deg: f64,
    },
}

/// Where the flash is and where it points.
///
/// Turn and tilt are those of the flash head against the lens axis. For a camera that looks along y, a head that points
/// along (−1, 1, √2) is turned by −45 degrees and tilted by 45.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
#[schemars(deny_unknown_fields)]
pub struct Aim {
    /// The route of the light.
    pub route: Route,
    /// What holds the flash.
    pub holder: Holder,
    /// Position of the flash's window in the world.
    #[serde(rename = "flash_m", serialize_with = "published::point")]
    #[schemars(with = "Point")]
    pub flash: Vec3,
    /// Clock hour seen from above, metered sitter in the middle and camera at 6, at which the flash is.
    pub flash_at_clock: f64,
    /// From the flash's window straight to the metered sitter's face, in metres.
    pub flash_from_face_m: f64,
    /// The point that the middle of the beam meets.
    #[serde(rename = "aim_m", serialize_with = "published::point")]
    #[schemars(with = "Point")]
    pub target: Vec3,
    /// Height of the target above the metered sitter's eyes, in metres; negative below them.
    pub target_above_eyes_m: f64,
    /// How far the target lies to the camera's right, and ahead of the camera along the lens axis, both level and in metres;
    /// negative to the left and behind.
    pub target_from_camera_m: [f64; 2],
    /// Clock hour seen from above, metered sitter in the middle and camera at 6, from which the light comes.
    pub light_from_clock: f64,
    /// Turn of the flash head, in degrees from the lens axis, both seen from above; positive to the camera's right.
    pub turn_deg: f64,
    /// Tilt of the flash head, in degrees above level; negative below.
    pub tilt_deg: f64,
    /// How the middle of the beam lies to the faces.
    pub middle: BeamMiddle,
    /// Path from flash to surface and from surface to face, in metres; the second is zero for direct.
    pub legs_m: [f64; 2],
    /// Whether the head is flagged on the sitter's side, with a black card between it and the face.
    pub flagged: bool,
}

#[cfg(test)]
mod tests {
    use super::*;
    use light::SoftFront;

    #[test]
    fn a_way_is_what_makes_the_light() {
        let check = |route: Route, dress: HeadDress, expected: WayId| {
            assert_eq!(WayId::of(&route, dress), expected);
        };
        let bounce = |corner_with| Route::Bounce {
            face: Face::Ceiling,
            corner_with,
        };
        // Furniture may be called like a face of the room; it is another way all the same.
        let furniture = || Route::Standing {
            name: "ceiling".to_owned(),
        };
        check(bounce(None), HeadDress::Bare, WayId::Face { face: Face::Ceiling });
        check(bounce(None), HeadDress::Dome, WayId::Dome);
        let corner = WayId::Corner {
            face: Face::Ceiling,
            with: Face::Left,
        };
        check(bounce(Some(Face::Left)), HeadDress::Bare, corner);
        let named = WayId::Standing {
            name: "ceiling".to_owned(),
        };
        check(furniture(), HeadDress::Bare, named);
        check(Route::Direct, HeadDress::Bare, WayId::Direct);
        let umbrella = HeadDress::Umbrella(SoftFront::new(2.0, 1.0));
        check(Route::Direct, umbrella, WayId::Umbrella);
    }
}
