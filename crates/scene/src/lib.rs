//! What stands where: the room and its openings, furniture, boards, sitters and the viewpoint.
//!
//! This crate turns a description in metres into one triangle geometry with a material on every
//! triangle. It never computes light and never chooses anything.
//!
//! World axes: x to the camera's right, measured from the left wall; y from the wall behind the camera
//! towards the sitter; z up from the floor. Lengths in metres.
//!
//! ```
//! use colour::Spectrum;
//! use scene::{BoxRoom, Face, Material, Place};
//! let white = Material::matt("white paint", Spectrum::splat(0.8));
//! let place = Place::new(BoxRoom::uniform([4.4, 5.5, 2.6], white));
//! assert_eq!(place.room.face_centre(Face::Ceiling).z, 2.6);
//! ```

mod assemble;
mod error;
mod face;
pub mod figure;
mod geometry;
mod material;
mod place;
pub mod scan;
mod sitter;
mod surroundings;
mod viewpoint;
pub mod wind;

pub use assemble::{SitterObject, Stage, assemble};
pub use error::{Coordinate, OpeningMisfit, Placed, SceneError};
pub use face::Face;
pub use geometry::{Geometry, Object, ObjectKind};
pub use material::{Coat, Material};
pub use place::{Block, BoxRoom, Opening, OpeningKind, Panel, Passage, Place};
pub use sitter::{Sitter, SitterColours};
pub use surroundings::{Obstacle, Surroundings, bearing_of, direction_of};
pub use viewpoint::Viewpoint;
