//! What can be wrong with a described place.

use thiserror::Error;

/// A description that cannot stand.
#[derive(Clone, Debug, Error, PartialEq)]
pub enum SceneError {
    /// Something lies outside the room.
    #[error(
        "{what} is outside the room: {coordinate} = {value:.2} m, but the room reaches from 0 to {limit:.2} m there"
    )]
    OutsideRoom {
        /// The thing that is outside.
        what: String,
        /// Which coordinate, in words.
        coordinate: &'static str,
        /// Its value in metres.
        value: f64,
        /// The room's extent in metres.
        limit: f64,
    },
    /// An opening does not fit its wall.
    #[error("the opening \"{name}\" does not fit its wall: {reason}")]
    OpeningDoesNotFit {
        /// Name of the opening.
        name: String,
        /// Why it does not fit.
        reason: String,
    },
    /// The body of a sitter could not be made.
    #[error("sitter \"{name}\": {reason}")]
    Figure {
        /// Name of the sitter.
        name: String,
        /// What the figure says.
        reason: String,
    },
    /// Two things stand in the same place.
    #[error("{first} and {second} are in the same place; move one of them at least {least:.1} m away")]
    Overlap {
        /// One thing.
        first: String,
        /// The other.
        second: String,
        /// Least distance in metres.
        least: f64,
    },
}
