//! Wishes that exclude each other, whatever the place and the bag.

use crate::Side;
use schemars::JsonSchema;
use serde::Serialize;
use units::Ratio;

/// Two wishes of which one must give way, and which.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
#[schemars(deny_unknown_fields)]
pub struct Clash {
    /// Why they exclude each other.
    pub because: Exclusion,
    /// The wish that gives way.
    pub gives_way: Yielding,
}

/// What gives way to the other wish.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum Yielding {
    /// How far the sides of the face are apart.
    Ratio,
    /// Where the key comes from.
    Direction,
    /// The side that it comes from.
    Side,
    /// Skin that is neutral.
    NeutralSkin,
    /// Light that is soft.
    Softness,
}

/// Why two wishes exclude each other.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
#[serde(tag = "why", rename_all = "snake_case")]
#[schemars(deny_unknown_fields)]
pub enum Exclusion {
    /// A key from the side leaves the other side of the face in shade, and an even face was asked for.
    EvenFromTheSide {
        /// Degrees from the nose.
        azimuth_deg: f64,
        /// To one.
        ratio: Ratio,
    },
    /// A key in front lights both sides of the face, and a difference was asked for.
    UnevenFromTheFront {
        /// Degrees from the nose.
        azimuth_deg: f64,
        /// To one.
        ratio: Ratio,
    },
    /// A key above the nose comes from no side.
    SideOfTheMiddle {
        /// The side that was asked for.
        side: Side,
    },
    /// A gel of a deep colour on skin that should be neutral.
    DeepGelOnNeutralSkin {
        /// The gel's name.
        gel: String,
    },
    /// Soft light where nothing but a small head at this distance can light the face.
    SoftFromAHead {
        /// Metres from the flash to the face.
        metres: f64,
    },
}
