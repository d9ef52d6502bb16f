//! On the day: what to set when the light or a distance is another than planned.

use crate::Settings;
use schemars::JsonSchema;
use serde::Serialize;
use units::{FNumber, PowerFraction, ShutterTime, Stops};

/// Settings after something has changed.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
#[schemars(deny_unknown_fields)]
pub struct Adjusted {
    /// Camera line.
    #[serde(rename = "camera")]
    pub settings: Settings,
    /// Power of the flash.
    #[serde(rename = "stops_below_full")]
    pub power: PowerFraction,
    /// Stops between the power used and full power; negative when the flash falls short.
    #[serde(rename = "in_hand_stops")]
    pub in_hand: Stops,
    /// Ambient on the face then; `None` in darkness.
    #[serde(rename = "ambient_stops")]
    pub ambient: Option<Stops>,
    /// Flash on the face then.
    #[serde(rename = "flash_stops")]
    pub flash: Stops,
    /// Flash and ambient together.
    #[serde(rename = "total_stops")]
    pub total: Stops,
}

/// What to set when the light that is there has become brighter or darker.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
#[schemars(deny_unknown_fields)]
pub struct LightChange {
    /// The change of everything but the flash; negative is darker.
    #[serde(rename = "by_stops")]
    pub by: Stops,
    /// The fewest changes.
    pub then: Adjusted,
    /// With a shutter that can be held, when the first cannot.
    pub instead: Option<Adjusted>,
    /// What is not as it was planned any more; empty when the picture is kept.
    pub lost: Vec<Loss>,
}

/// Something that other settings cannot keep.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, JsonSchema)]
#[serde(tag = "loss", rename_all = "snake_case")]
#[schemars(deny_unknown_fields)]
pub enum Loss {
    /// The light that is there comes out brighter, with the flash at its most.
    AmbientBrighter {
        /// By so much.
        stops: Stops,
    },
    /// The light that is there comes out darker.
    AmbientDarker {
        /// By so much, positive.
        stops: Stops,
    },
    /// Full power is too little.
    FlashShort {
        /// By so much, positive.
        stops: Stops,
    },
    /// The face comes out too bright.
    FaceTooBright {
        /// By so much.
        stops: Stops,
    },
    /// Another aperture than the one insisted on.
    OtherAperture {
        /// The new one.
        #[serde(rename = "f_number")]
        aperture: FNumber,
        /// The one insisted on.
        #[serde(rename = "instead_of_f_number")]
        instead_of: FNumber,
    },
    /// A shutter too slow to hold.
    SlowForAPerson {
        /// The shutter.
        #[serde(rename = "shutter_s")]
        shutter: ShutterTime,
    },
}

/// Everything that a card says of another light and other distances.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
#[schemars(deny_unknown_fields)]
pub struct Variations {
    /// From four stops darker to four stops brighter in thirds, the planned light in the middle.
    pub lights: Vec<LightChange>,
    /// Distances that may turn out otherwise: none, one or two.
    pub distances: Vec<DistanceChange>,
}

impl Variations {
    /// Position of the planned light.
    pub fn planned_light(&self) -> usize {
        self.lights.len() / 2
    }
}

/// What a distance is measured between.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum Between {
    /// The flash, or its umbrella or softbox, and the face it shines at.
    FlashAndFace,
    /// The board in the assistant's hands and the face.
    BoardAndFace,
    /// The flash and the spot that it lights.
    FlashAndSpot,
    /// The lit spot and the face: the sitters move.
    SpotAndFace,
}

/// A distance that may turn out otherwise, with what each value does to the flash's light on the face.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
#[schemars(deny_unknown_fields)]
pub struct DistanceChange {
    /// What it is measured between.
    pub between: Between,
    /// Values from the nearest to the furthest, the planned one among them with a change of 0.
    pub steps: Vec<DistanceStep>,
    /// Position of the planned value.
    pub planned: usize,
}

/// One value of a distance.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, JsonSchema)]
#[schemars(deny_unknown_fields)]
pub struct DistanceStep {
    /// The distance in metres.
    pub metres: f64,
    /// The flash's light on the face against what was planned.
    #[serde(rename = "flash_stops")]
    pub flash: Stops,
}
