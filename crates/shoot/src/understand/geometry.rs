//! Where everything stands in metres, for a drawing whose things can be dragged.

use crate::Shoot;
use answer::{AmbientFrom, FlashStand};
use glam::Vec3;
use scene::{Face, OpeningKind};
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

/// Where everything stands. Metres: x from the left wall, y from the wall behind the camera, z from the floor. Lists are
/// in the order of the file, so that their positions are those of the plain form.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Geometry {
    /// Whether the file's lengths are in feet.
    pub feet: bool,
    /// The room.
    pub room: RoomSize,
    /// The lens.
    pub camera: Point,
    /// The sitters.
    pub sitters: Vec<SitterAt>,
    /// The furniture.
    pub furniture: Vec<FurnitureAt>,
    /// Boards that stand in the place.
    pub boards: Vec<BoardAt>,
    /// Windows and doorways; sides without a wall are not among them.
    pub openings: Vec<OpeningAt>,
    /// Lamps that have a place.
    pub lamps: Vec<LampAt>,
    /// The flash, if it was said where it stands.
    pub flash: Option<Point>,
}

/// Width from left to right, length away from the camera, and height.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct RoomSize {
    /// From the left wall to the right one, in metres.
    pub width: f64,
    /// From the wall behind the camera to the one behind the sitter, in metres.
    pub length: f64,
    /// Up to the ceiling, in metres.
    pub height: f64,
}

/// A point in metres.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Point {
    /// From the left wall.
    pub x: f64,
    /// From the wall behind the camera.
    pub y: f64,
    /// From the floor.
    pub z: f64,
}

/// A sitter.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct SitterAt {
    /// What they are called.
    pub name: String,
    /// Middle of the head from the left wall, in metres.
    pub x: f64,
    /// Middle of the head from the wall behind the camera, in metres.
    pub y: f64,
    /// Between the eyes from the floor, in metres.
    pub face_height: f64,
    /// Where they look, in degrees: 0 straight at the wall behind the camera, positive to the camera's right.
    pub facing_deg: f64,
}

/// A box that stands square to the walls.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct FurnitureAt {
    /// What it is called.
    pub name: String,
    /// Nearest corner from the left wall, in metres.
    pub x: f64,
    /// Nearest corner from the wall behind the camera, in metres.
    pub y: f64,
    /// Underside from the floor, in metres.
    pub z: f64,
    /// From left to right, in metres.
    pub width: f64,
    /// Away from the camera, in metres.
    pub depth: f64,
    /// Up, in metres.
    pub height: f64,
}

/// A board that stands in the place.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct BoardAt {
    /// What it is called.
    pub name: String,
    /// Its middle from the left wall, in metres.
    pub x: f64,
    /// Its middle from the wall behind the camera, in metres.
    pub y: f64,
    /// Its middle from the floor, in metres.
    pub z: f64,
    /// Its width, in metres.
    pub width: f64,
    /// Its height, in metres.
    pub height: f64,
}

/// A wall, as it is written in a shoot file.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
pub enum WallName {
    /// On the camera's left.
    #[serde(rename = "left")]
    Left,
    /// On the camera's right.
    #[serde(rename = "right")]
    Right,
    /// Behind the camera.
    #[serde(rename = "behind camera")]
    BehindCamera,
    /// Behind the sitter.
    #[serde(rename = "behind sitter")]
    BehindSitter,
}

/// A window or doorway.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct OpeningAt {
    /// What it is called.
    pub name: String,
    /// The wall that it is in.
    pub wall: WallName,
    /// From the left end of that wall, as seen from inside the room, in metres.
    pub from_left_end: f64,
    /// Lower edge from the floor, in metres.
    pub from_floor: f64,
    /// Its width, in metres.
    pub width: f64,
    /// Its height, in metres.
    pub height: f64,
    /// "window", "doorway", "open" or "net curtain".
    pub kind: String,
}

/// A lamp.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct LampAt {
    /// What it is called.
    pub name: String,
    /// From the left wall, in metres.
    pub x: f64,
    /// From the wall behind the camera, in metres.
    pub y: f64,
    /// From the floor, in metres.
    pub z: f64,
}

impl Geometry {
    /// Of a shoot.
    pub fn of(shoot: &Shoot) -> Self {
        let job = &shoot.job;
        let place = &job.place;
        let size = place.room.size;
        Geometry {
            feet: shoot.uses_feet,
            room: RoomSize {
                width: metres(size.x),
                length: metres(size.y),
                height: metres(size.z),
            },
            camera: point(job.viewpoint.position),
            sitters: job.sitters.iter().map(sitter).collect(),
            furniture: place.blocks.iter().map(furniture).collect(),
            boards: place.panels.iter().map(board).collect(),
            openings: place
                .openings
                .iter()
                .filter(|opening| !opening.fills(&place.room))
                .filter_map(opening)
                .collect(),
            lamps: job.ambients.iter().filter_map(lamp).collect(),
            flash: match job.ask.stand {
                FlashStand::At(at) => Some(point(at)),
                FlashStand::OnCamera | FlashStand::Anywhere => None,
            },
        }
    }
}

/// To the millimetre: the decimals of the file come back, not those of a 32-bit number.
fn metres(value: f32) -> f64 {
    (f64::from(value) * 1000.0).round() / 1000.0
}

fn point(at: Vec3) -> Point {
    Point {
        x: metres(at.x),
        y: metres(at.y),
        z: metres(at.z),
    }
}

fn sitter(sitter: &scene::Sitter) -> SitterAt {
    SitterAt {
        name: sitter.name.clone(),
        x: metres(sitter.stand.x),
        y: metres(sitter.stand.y),
        face_height: metres(sitter.face_height),
        facing_deg: (f64::from(sitter.facing).to_degrees() * 10.0).round() / 10.0,
    }
}

fn furniture(block: &scene::Block) -> FurnitureAt {
    let size = block.max - block.min;
    FurnitureAt {
        name: block.name.clone(),
        x: metres(block.min.x),
        y: metres(block.min.y),
        z: metres(block.min.z),
        width: metres(size.x),
        depth: metres(size.y),
        height: metres(size.z),
    }
}

fn board(panel: &scene::Panel) -> BoardAt {
    BoardAt {
        name: panel.name.clone(),
        x: metres(panel.centre.x),
        y: metres(panel.centre.y),
        z: metres(panel.centre.z),
        width: metres(panel.size.x),
        height: metres(panel.size.y),
    }
}

/// An opening in a wall; one in the ceiling or the floor cannot be written.
fn opening(opening: &scene::Opening) -> Option<OpeningAt> {
    let wall = match opening.face {
        Face::Left => WallName::Left,
        Face::Right => WallName::Right,
        Face::BehindCamera => WallName::BehindCamera,
        Face::BehindSitter => WallName::BehindSitter,
        Face::Ceiling | Face::Floor => return None,
    };
    let kind = match opening.kind {
        OpeningKind::Window => "window",
        OpeningKind::NetCurtain => "net curtain",
        OpeningKind::Open => "open",
        OpeningKind::Doorway => "doorway",
    };
    Some(OpeningAt {
        name: opening.name.clone(),
        wall,
        from_left_end: metres(opening.from.x),
        from_floor: metres(opening.from.y),
        width: metres(opening.size.x),
        height: metres(opening.size.y),
        kind: kind.to_owned(),
    })
}

fn lamp(ambient: &answer::Ambient) -> Option<LampAt> {
    let AmbientFrom::Lamp(at) = ambient.from else {
        return None;
    };
    Some(LampAt {
        name: ambient.name.clone(),
        x: metres(at.x),
        y: metres(at.y),
        z: metres(at.z),
    })
}
