//! Why there is no answer.

use thiserror::Error;

/// A job that cannot be answered at all. An ask that falls short is not among these: it gets an answer
/// that says by how much.
#[derive(Clone, Debug, Error, PartialEq)]
pub enum SolverError {
    /// The place cannot be built.
    #[error(transparent)]
    Scene(#[from] scene::SceneError),
    /// The flash cannot be built.
    #[error(transparent)]
    Light(#[from] light::LightError),
    /// A number left the range of its unit.
    #[error(transparent)]
    Unit(#[from] units::UnitError),
    /// Nobody to light.
    #[error("there is no sitter, so there is no face to light; add at least one [[sitter]]")]
    NobodyThere,
    /// The flash stands outside the room or inside something.
    #[error("the flash would be outside the room; move it, or the camera it sits on, inside the walls")]
    FlashOutside,
    /// No way of lighting brings any light to the face.
    #[error(
        "no light of this flash can reach the face of {sitter}; check where the camera and the furniture stand"
    )]
    NoLight {
        /// Who stays dark.
        sitter: String,
    },
    /// Whoever asked does not want to know any more.
    #[error("the work was stopped before there was an answer")]
    Stopped,
}
