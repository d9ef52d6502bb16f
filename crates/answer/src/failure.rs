//! Why there is no answer.

use thiserror::Error;

/// A job that cannot be answered at all. An ask that falls short is not among these: it gets an answer
/// that says by how much.
///
/// The words for a photographer are made where all words are made; what stands here is for a developer.
#[derive(Clone, Debug, Error, PartialEq)]
pub enum Failure {
    /// The place cannot be built.
    #[error(transparent)]
    Scene(#[from] scene::SceneError),
    /// The flash cannot be built.
    #[error(transparent)]
    Light(#[from] light::LightError),
    /// A number left the range of its unit.
    #[error(transparent)]
    Unit(#[from] units::UnitError),
    /// No sitter to light.
    #[error("NoSitter")]
    NoSitter,
    /// The flash stands outside the room or inside something.
    #[error("FlashOutside")]
    FlashOutside,
    /// No way of lighting brings any light to the face.
    #[error("NoLight({sitter})")]
    NoLight {
        /// Who stays dark.
        sitter: String,
    },
    /// The person who asked has stopped the work.
    #[error("Stopped")]
    Stopped,
}
