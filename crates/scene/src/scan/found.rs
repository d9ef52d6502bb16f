//! What a scan holds: the room, its openings and its furniture.

use crate::Face;
use crate::place::Opening;
use glam::Vec3;

/// A thing in the room, as a box that stands square to the walls.
#[derive(Clone, Debug, PartialEq)]
pub struct ScannedThing {
    /// What the scan calls it, or "furniture".
    pub name: String,
    /// Lowest corner in metres, in the world of [`crate::Place`].
    pub min: Vec3,
    /// Highest corner.
    pub max: Vec3,
    /// Mean linear base colour, 0 to 1, as a guess of its reflectance; none if the scan gives none.
    pub colour: Option<[f32; 3]>,
}

/// What was found in a scan.
#[derive(Clone, Debug)]
pub struct Scan {
    /// Width (x), length (y) and height (z) in metres, each 1 to 60.
    pub room: Vec3,
    /// Mean linear base colour of each face, 0 to 1, in the order of [`Face::ALL`], as a guess of its
    /// reflectance; none if the scan gives none.
    pub faces: [Option<[f32; 3]>; 6],
    /// Windows and doors, none over another, each within its wall.
    pub openings: Vec<Opening>,
    /// Furniture, the largest first, all within the room.
    pub furniture: Vec<ScannedThing>,
    /// What was guessed, turned or left out, in sentences.
    pub told: Vec<String>,
}

impl Scan {
    /// The same place seen the other way: turned anticlockwise, seen from above, by so many quarters. The walls
    /// change their names, nothing else.
    pub fn turned(mut self, quarters: u8) -> Self {
        for _ in 0..quarters % 4 {
            self = self.turned_once();
        }
        self
    }

    fn turned_once(mut self) -> Self {
        let length = self.room.y;
        self.room = Vec3::new(self.room.y, self.room.x, self.room.z);
        let before = self.faces;
        for face in Face::ALL {
            self.faces[turned_face(face).index()] = before[face.index()];
        }
        for opening in &mut self.openings {
            // Where it begins from the left end of its wall stays the same as seen from within the room.
            opening.face = turned_face(opening.face);
        }
        for thing in &mut self.furniture {
            let (min, max) = (thing.min, thing.max);
            thing.min = Vec3::new(length - max.y, min.x, min.z);
            thing.max = Vec3::new(length - min.y, max.x, max.z);
        }
        self
    }
}

/// Where a wall is after a quarter turn anticlockwise.
fn turned_face(face: Face) -> Face {
    match face {
        Face::Left => Face::BehindCamera,
        Face::BehindCamera => Face::Right,
        Face::Right => Face::BehindSitter,
        Face::BehindSitter => Face::Left,
        level => level,
    }
}
