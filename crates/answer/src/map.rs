//! The room unrolled, each piece with the best that aiming there can do.

use crate::published::{self, FaceName, Point};
use crate::{Verdict, Why};
use glam::{Vec2, Vec3};
use scene::Face;
use schemars::JsonSchema;
use serde::Serialize;

/// Every aim at the room's surfaces from one place of the flash.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
#[schemars(deny_unknown_fields)]
pub struct RoomMap {
    /// The place of the flash.
    #[serde(rename = "flash_m", serialize_with = "published::point")]
    #[schemars(with = "Point")]
    pub flash: Vec3,
    /// Width, length and height of the room in metres.
    #[serde(rename = "room_m", serialize_with = "published::three")]
    #[schemars(with = "[f64; 3]")]
    pub room: Vec3,
    /// The cells, face by face; what cannot be aimed at from there is left out.
    pub cells: Vec<MapCell>,
}

/// The best that can be made of aiming at one piece of a face of the room.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
#[schemars(deny_unknown_fields)]
pub struct MapCell {
    /// The face.
    #[serde(serialize_with = "published::face")]
    #[schemars(with = "FaceName")]
    pub face: Face,
    /// Lower corner along the face's two edges, in metres ([`scene::BoxRoom::face_frame`]).
    #[serde(rename = "from_m", serialize_with = "published::two")]
    #[schemars(with = "[f64; 2]")]
    pub from: Vec2,
    /// Extent along the two edges, in metres.
    #[serde(rename = "size_m", serialize_with = "published::two")]
    #[schemars(with = "[f64; 2]")]
    pub size: Vec2,
    /// Its middle in the world: the point aimed at.
    #[serde(rename = "target_m", serialize_with = "published::point")]
    #[schemars(with = "Point")]
    pub target: Vec3,
    /// Angle of all the flash's light from the nose, in degrees; positive is the camera's right.
    pub azimuth_deg: f64,
    /// Height of all the flash's light above the eyes, in degrees.
    pub elevation_deg: f64,
    /// Zoom of the head that does best there, in millimetres.
    pub zoom_mm: f64,
    /// Points against the ask: 0 is what was asked for, above about 2.5 the look is spoilt.
    pub points: f64,
    /// Whether it serves.
    pub verdict: Verdict,
    /// Why, or why not.
    pub why: Why,
}
