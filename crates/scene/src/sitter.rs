//! A person to be lit: where they are, which way they face, what they look like.

use crate::figure::{FigureRecipe, KeptFigure};
use colour::Spectrum;
use glam::{Mat3, Vec3};

/// Diffuse reflectances of a person's parts.
#[derive(Clone, Debug)]
pub struct SitterColours {
    /// Skin, as measured with its surface reflection.
    pub skin: Spectrum,
    /// Lips.
    pub lips: Spectrum,
    /// Hair and brows.
    pub hair: Spectrum,
    /// Iris of the eye.
    pub iris: Spectrum,
    /// Jacket, jersey or shirt.
    pub top: Spectrum,
    /// Trousers or skirt.
    pub trousers: Spectrum,
    /// Cap, where one is worn.
    pub cap: Spectrum,
}

/// A sitter.
#[derive(Clone, Debug)]
pub struct Sitter {
    /// What the photographer calls them.
    pub name: String,
    /// Position of the head's centre seen from above, in metres; z is not used.
    pub stand: Vec3,
    /// Height of the face (between the eyes) above the floor in metres.
    pub face_height: f32,
    /// Where the face turns, in radians from −y (towards the wall behind the camera), positive towards
    /// the camera's right (+x).
    pub facing: f32,
    /// The figure.
    pub recipe: FigureRecipe,
    /// Colours.
    pub colours: SitterColours,
    /// What the recipe made, kept from scene to scene.
    pub figure: KeptFigure,
}

impl Sitter {
    /// Unit direction of the face, level.
    pub fn face_direction(&self) -> Vec3 {
        Vec3::new(self.facing.sin(), -self.facing.cos(), 0.0)
    }

    /// Rotation from the figure's own axes (facing −y) to the world.
    pub fn turn(&self) -> Mat3 {
        Mat3::from_rotation_z(self.facing)
    }

    /// The middle of the face in the world.
    pub fn face(&self) -> Vec3 {
        Vec3::new(self.stand.x, self.stand.y, self.face_height)
    }
}
