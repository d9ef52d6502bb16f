//! Whether a way of lighting serves, what it lacks, and why.

use crate::published::{self, Point};
use crate::{Cast, KeyReading, LightName, Route, WayId};
use glam::Vec3;
use schemars::JsonSchema;
use serde::Serialize;
use units::{MiredShift, Stops};

/// Whether a way of lighting serves.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum Verdict {
    /// This is the answer.
    Chosen,
    /// It would do, but something else does better.
    Possible,
    /// It would spoil the look.
    Poor,
    /// It cannot be used for this ask.
    Unusable,
}

/// What a way of lighting can lack against the ask.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum Fault {
    /// The key comes from another angle beside the nose.
    Direction,
    /// The key comes from the other side.
    Side,
    /// The key comes from another height.
    Height,
    /// The light does not reach the eyes.
    HollowEyes,
    /// Warm or cold light on skin that should stay neutral.
    Cast,
    /// Green or magenta light on skin that should stay neutral.
    GreenMagenta,
    /// Crisp shadows where soft ones are asked.
    Hardness,
    /// Soft shadows where crisp ones are asked.
    Softness,
    /// A card must keep the head's own light off the face.
    NeedsFlag,
    /// The face is too dark at full power, or too bright at the least.
    Exposure,
    /// Power beyond what is asked in hand.
    Power,
    /// Faces unlike in brightness.
    Evenness,
    /// Another ratio of the sides of the face.
    Ratio,
    /// Another level of the background.
    Background,
    /// Another level of the light that is there.
    Ambient,
    /// The flash fills more or less than asked.
    Fill,
    /// A zone at another level.
    Zone,
    /// Skin or room in another colour than wished.
    Colour,
    /// A longer wait between frames.
    Recycle,
    /// A shutter too slow to hold, or slower than it need be.
    SlowShutter,
    /// A speed at which noise shows, or higher than it need be.
    HighSpeed,
    /// An aperture away from the plain one.
    OddAperture,
    /// A filter on the lens.
    Filter,
    /// Hands must hold the flash.
    NeedsHandForFlash,
    /// A stand must hold the flash.
    NeedsStand,
    /// Hands must hold a board.
    NeedsHands,
    /// The beam is tighter than the board and must be aimed exactly.
    TightBeam,
    /// The board is so near that it crowds the sitter.
    CrowdsSitter,
}

/// A fault and its points.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, JsonSchema)]
#[schemars(deny_unknown_fields)]
pub struct FaultPoints {
    /// The fault.
    pub fault: Fault,
    /// Its points; one is about one clear fault.
    pub points: f64,
}

/// One reason against a way of lighting.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, JsonSchema)]
#[serde(tag = "reason", rename_all = "snake_case")]
#[schemars(deny_unknown_fields)]
pub enum Reason {
    /// A cast that skin which should stay neutral does not bear.
    UnusableCast {
        /// The cast.
        cast: Cast,
    },
    /// A cast.
    Cast {
        /// The cast.
        cast: Cast,
    },
    /// Flat light from nearly along the nose.
    Flat {
        /// Degrees beside the nose, without a side.
        azimuth_deg: f64,
        /// Near cheek over far cheek.
        ratio: f64,
    },
    /// Light from behind.
    FromBehind {
        /// Degrees from the nose, without a side.
        azimuth_deg: f64,
    },
    /// Light from another angle beside the nose.
    Beside {
        /// Degrees from the nose, without a side.
        azimuth_deg: f64,
    },
    /// Light on the other side of the face.
    OtherSide {
        /// Degrees from the nose, positive to the camera's right.
        azimuth_deg: f64,
    },
    /// Light from below the eyes.
    FromBelow {
        /// Degrees below the eyes, positive.
        below_deg: f64,
    },
    /// Steep light that shades the eye sockets.
    Steep {
        /// Degrees above the eyes.
        elevation_deg: f64,
    },
    /// Light from another height.
    Above {
        /// Degrees above the eyes.
        elevation_deg: f64,
    },
    /// Eyes that the light does not reach.
    HollowEyes {
        /// The darker socket against the cheek below it.
        sockets: Stops,
    },
    /// A small source with a crisp nose shadow.
    SmallAndHard,
    /// A source too large for the crisp shadow asked.
    TooSoft,
    /// Less in hand than asked.
    Short {
        /// Stops short of what is asked in hand.
        #[serde(rename = "stops")]
        by: Stops,
    },
    /// Faces unlike in brightness.
    Uneven,
    /// As good, but somebody must hold it.
    AsGoodButHeld,
    /// Nearly as good.
    NearlyAsGood,
}

/// Why a way of lighting is the answer, or is not.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
#[serde(tag = "is", rename_all = "snake_case")]
#[schemars(deny_unknown_fields)]
pub enum Why {
    /// It is the answer; its reading says why.
    Chosen {
        /// Whether the notes say more of it.
        noted: bool,
    },
    /// It is not, for up to three reasons, the worst first.
    Not {
        /// The reasons.
        reasons: Vec<Reason>,
        /// Its light against the answer's, positive stronger; `None` where both are about alike.
        #[serde(rename = "against_answer_stops")]
        against_answer: Option<Stops>,
        /// Aperture that full power gives at ISO 100.
        full_power_aperture: f64,
    },
}

/// The colour of a way's light against one of the lights that are there.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
#[schemars(deny_unknown_fields)]
pub struct AgainstLight {
    /// The light that is there.
    pub light: LightName,
    /// The way's light minus that light, positive warmer.
    #[serde(rename = "mired")]
    pub apart: MiredShift,
}

/// One surface, board or the bare flash: its best aim and what is wrong with it.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
#[schemars(deny_unknown_fields)]
pub struct SurfaceVerdict {
    /// What it is.
    pub way: WayId,
    /// The route.
    pub route: Route,
    /// Whether it serves.
    pub verdict: Verdict,
    /// Why, or why not.
    pub why: Why,
    /// The point aimed at.
    #[serde(rename = "aim_m", serialize_with = "published::point")]
    #[schemars(with = "Point")]
    pub target: Vec3,
    /// Zoom of the head.
    pub zoom_mm: f64,
    /// What it would do to the face; `None` where no light could get there.
    pub key: Option<KeyReading>,
    /// Exact power in stops below 1/1 for flash alone at 0 with the answer's camera settings; negative
    /// when it falls short.
    #[serde(rename = "power_for_flash_alone_stops")]
    pub power_for_flash_alone: Option<f64>,
    /// Stops gained on this route by zooming from 50 to 105 mm.
    #[serde(rename = "zoom_gain_stops")]
    pub zoom_gain: Option<f64>,
    /// Difference in mired between this light and each ambient light.
    pub against_ambient: Vec<AgainstLight>,
    /// What it lacks and what it takes, in points; the sum ranks the ways.
    pub score: Vec<FaultPoints>,
}
