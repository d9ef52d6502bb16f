//! How far an answer may be off, and how it moves when something is a little different.

use crate::{Carrier, WayId};
use schemars::JsonSchema;
use serde::Serialize;
use units::{MiredShift, Stops};

/// How far the first frame may be off, and why.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
#[schemars(deny_unknown_fields)]
pub struct Uncertainty {
    /// About nine frames in ten fall within this many stops.
    #[serde(rename = "within_stops")]
    pub stops: f64,
    /// What it is made of, largest first.
    pub parts: Vec<UncertaintyPart>,
}

/// One guess and what it does to the exposure.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
#[schemars(deny_unknown_fields)]
pub struct UncertaintyPart {
    /// The input.
    pub input: Guess,
    /// What is assumed of it.
    pub assumed: Assumed,
    /// One standard deviation of the exposure from it, in stops.
    #[serde(rename = "standard_deviation_stops")]
    pub stops: f64,
}

/// An input that is not known exactly.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, JsonSchema)]
#[serde(tag = "is", rename_all = "snake_case")]
#[schemars(deny_unknown_fields)]
pub enum Guess {
    /// Strength of the flash.
    FlashStrength,
    /// The paint of a surface, judged by eye.
    Paint {
        /// The surface.
        of: Carrier,
    },
    /// Distance from the flash to the face, paced.
    DistanceToFace,
    /// Distance from a held board to the face.
    BoardToFace {
        /// Name of the board.
        board: String,
    },
    /// How a held board leans.
    BoardLean {
        /// Name of the board.
        board: String,
    },
    /// Distance from the flash to a held board, paced.
    FlashToBoard,
    /// Width of the room, paced.
    RoomWidth,
    /// Length of the room, paced.
    RoomLength,
    /// Height of the ceiling, paced.
    CeilingHeight,
    /// Furniture and people that the description leaves out.
    NotDescribed,
}

/// What is assumed of an input: how it was found, and how far that may be off, as one standard deviation.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, JsonSchema)]
#[serde(tag = "is", rename_all = "snake_case")]
#[schemars(deny_unknown_fields)]
pub enum Assumed {
    /// A guide number that its owner has measured.
    MeasuredGuide,
    /// A guide number as its maker prints it.
    ClaimedGuide,
    /// Judged by eye.
    ByEye {
        /// As a share.
        share: f64,
    },
    /// Paced or guessed.
    Paced {
        /// As a share.
        share: f64,
    },
    /// Held by hand at a distance.
    HeldAt {
        /// Either way.
        metres: f64,
    },
    /// Held by hand at an angle.
    HeldLeaning {
        /// Either way.
        degrees: f64,
    },
    /// An ordinary furnished room.
    OrdinaryRoom,
}

/// How the answer moves when one thing is different.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
#[schemars(deny_unknown_fields)]
pub struct Sensitivity {
    /// The difference.
    pub what: Difference,
    /// Change of the exposure at the face with everything else left as it is.
    #[serde(rename = "exposure_stops")]
    pub exposure: Stops,
    /// Change of the key's angle from the nose, in degrees, positive to the camera's right.
    pub azimuth_deg: f64,
    /// Change of the key's height, in degrees.
    pub elevation_deg: f64,
    /// Change of the cast.
    #[serde(rename = "cast_mired")]
    pub cast: MiredShift,
}

/// One thing that may be different from the description.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
#[serde(tag = "is", rename_all = "snake_case")]
#[schemars(deny_unknown_fields)]
pub enum Difference {
    /// What carries the light is a third darker.
    Darker {
        /// The surface.
        carrier: Carrier,
    },
    /// The sitter is nearer to what the light comes from.
    SitterNearer {
        /// What the light comes from.
        to: WayId,
        /// By so much.
        metres: f64,
    },
    /// The ceiling is lower.
    CeilingLower {
        /// By so much.
        metres: f64,
    },
}
