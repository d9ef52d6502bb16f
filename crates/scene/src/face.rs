//! The faces of the box room by name.

use glam::Vec3;

/// A face of the box room, named from the camera.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Face {
    /// The wall on the camera's left, x = 0.
    Left,
    /// The wall on the camera's right.
    Right,
    /// The wall behind the camera, y = 0.
    BehindCamera,
    /// The wall behind the sitter.
    BehindSitter,
    /// The ceiling.
    Ceiling,
    /// The floor, z = 0.
    Floor,
}

impl Face {
    /// All faces, in the order in which a room lists them.
    pub const ALL: [Face; 6] = [
        Face::Left,
        Face::Right,
        Face::BehindCamera,
        Face::BehindSitter,
        Face::Ceiling,
        Face::Floor,
    ];

    /// Position in [`Face::ALL`].
    pub fn index(self) -> usize {
        self as usize
    }

    /// The photographer's words.
    pub fn words(self) -> &'static str {
        match self {
            Face::Left => "left wall",
            Face::Right => "right wall",
            Face::BehindCamera => "wall behind the camera",
            Face::BehindSitter => "wall behind the sitter",
            Face::Ceiling => "ceiling",
            Face::Floor => "floor",
        }
    }

    /// Unit normal pointing into the room.
    pub fn inward(self) -> Vec3 {
        match self {
            Face::Left => Vec3::X,
            Face::Right => -Vec3::X,
            Face::BehindCamera => Vec3::Y,
            Face::BehindSitter => -Vec3::Y,
            Face::Ceiling => -Vec3::Z,
            Face::Floor => Vec3::Z,
        }
    }
}
