//! What can be wrong with a described place.

use crate::Face;
use crate::figure::FigureError;
use std::fmt;
use thiserror::Error;

/// A description that cannot stand.
///
/// The words for a photographer are made where all words are made; what stands here is for a developer.
#[derive(Clone, Debug, Error, PartialEq)]
pub enum SceneError {
    /// Something lies outside the room.
    #[error(
        "{what} is outside the room: {coordinate} = {value:.2} m, but the room reaches from 0 to {limit:.2} m there"
    )]
    OutsideRoom {
        /// The thing that is outside.
        what: Placed,
        /// Which coordinate.
        coordinate: Coordinate,
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
        reason: OpeningMisfit,
    },
    /// The body of a sitter could not be made.
    #[error("sitter \"{name}\": {reason}")]
    Figure {
        /// Name of the sitter.
        name: String,
        /// What the figure says.
        reason: FigureError,
    },
    /// Two sitters stand in the same place.
    #[error(
        "sitters \"{first}\" and \"{second}\" are in the same place; move one of them at least {least:.1} m away"
    )]
    Overlap {
        /// Name of one sitter.
        first: String,
        /// Name of the other.
        second: String,
        /// Least distance in metres.
        least: f64,
    },
}

/// Something that must be inside the room, with the name that the photographer gave it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Placed {
    /// A block of furniture.
    Furniture(String),
    /// A corner of a board.
    BoardCorner(String),
    /// The face of a sitter.
    SitterFace(String),
}

impl fmt::Display for Placed {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Placed::Furniture(name) => write!(f, "the furniture \"{name}\""),
            Placed::BoardCorner(name) => write!(f, "a corner of the board \"{name}\""),
            Placed::SitterFace(name) => write!(f, "the face of sitter \"{name}\""),
        }
    }
}

/// One of the three coordinates in a room.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Coordinate {
    /// x, from the left wall.
    FromLeft,
    /// y, from the wall behind the camera.
    FromBehindCamera,
    /// z, from the floor.
    Height,
}

impl Coordinate {
    /// All three, in the order x, y, z.
    pub const ALL: [Coordinate; 3] = [
        Coordinate::FromLeft,
        Coordinate::FromBehindCamera,
        Coordinate::Height,
    ];
}

impl fmt::Display for Coordinate {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Coordinate::FromLeft => "x",
            Coordinate::FromBehindCamera => "y",
            Coordinate::Height => "z",
        })
    }
}

/// Why an opening does not fit its wall. All lengths are in metres.
#[derive(Clone, Copy, Debug, Error, PartialEq)]
pub enum OpeningMisfit {
    /// It is in the floor, or in a ceiling that is not open.
    #[error("openings are in walls, not in {0:?}")]
    NotInAWall(Face),
    /// It reaches beyond an end of its wall.
    #[error("it reaches from {from:.2} to {to:.2} m along a wall that is {length:.2} m long")]
    BeyondTheEnd {
        /// Where it begins, from the left end of the wall.
        from: f64,
        /// Where it ends.
        to: f64,
        /// Length of the wall.
        length: f64,
    },
    /// It reaches below the floor or above the top of its wall.
    #[error("it reaches from {from:.2} to {to:.2} m up a wall that is {height:.2} m high")]
    BeyondTheTop {
        /// Its lower edge, from the floor.
        from: f64,
        /// Its upper edge.
        to: f64,
        /// Height of the wall.
        height: f64,
    },
}
