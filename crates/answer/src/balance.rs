//! Flash against the light that is there: shares, zones, reach, what each control does, and settings for later.

use crate::Settings;
use camera::DepthLimits;
use schemars::JsonSchema;
use serde::{Serialize, Serializer};
use units::{Ev, Kelvin, PowerFraction, Stops};

/// Flash against the light that is there.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
#[schemars(deny_unknown_fields)]
pub struct Balance {
    /// The light level for which the settings are right, the filter on the lens included.
    pub settings_ev: Ev,
    /// The flash's share of the light on the face, 0 to 1.
    pub flash_share: f64,
    /// Each zone at these settings.
    pub zones: Vec<ZoneLevel>,
    /// How far from the face the flash may be; empty unless it shines straight at the face.
    pub reach: Vec<Reach>,
    /// What one step of each control does.
    pub controls: Vec<ControlLevel>,
    /// Settings for each later time.
    pub later: Vec<LaterSettings>,
    /// From where to where it is sharp, with the usual circle of confusion.
    #[serde(serialize_with = "sharp")]
    #[schemars(with = "Option<Sharp>")]
    pub sharp: Option<DepthLimits>,
}

/// From where to where it is sharp.
#[derive(Serialize, JsonSchema)]
#[schemars(deny_unknown_fields)]
struct Sharp {
    /// Metres from the lens to the nearest sharp distance.
    near_m: f64,
    /// Metres to the farthest; null when everything beyond is sharp.
    far_m: Option<f64>,
}

fn sharp<S: Serializer>(limits: &Option<DepthLimits>, serializer: S) -> Result<S::Ok, S::Error> {
    let limits = limits.map(|limits| Sharp {
        near_m: limits.near_m,
        far_m: limits.far_m.is_finite().then_some(limits.far_m),
    });
    limits.serialize(serializer)
}

/// Where a zone comes out.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
#[schemars(deny_unknown_fields)]
pub struct ZoneLevel {
    /// Its name.
    pub name: String,
    /// Stops from normal.
    #[serde(rename = "level_stops")]
    pub level: Stops,
    /// Where it was wished.
    #[serde(rename = "wish_stops")]
    pub wish: Option<Stops>,
    /// Its colour temperature, where the shoot says it.
    #[serde(rename = "temperature_k")]
    pub kelvin: Option<Kelvin>,
}

/// The level, or the change, of a zone.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
#[schemars(deny_unknown_fields)]
pub struct ZoneStops {
    /// Its name.
    pub name: String,
    /// Stops.
    pub stops: Stops,
}

/// The largest distance from flash to face at which the flash alone exposes the face, by the inverse square of
/// the distance and with nothing sent back by the surroundings.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, JsonSchema)]
#[schemars(deny_unknown_fields)]
pub struct Reach {
    /// Zoom of the head in millimetres.
    pub zoom_mm: f64,
    /// Power.
    #[serde(rename = "stops_below_full")]
    pub power: PowerFraction,
    /// Distance in metres.
    #[serde(rename = "distance_m")]
    pub metres: f64,
}

/// A control of camera or flash, moved by one step.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, JsonSchema)]
#[serde(tag = "is", rename_all = "snake_case")]
#[schemars(deny_unknown_fields)]
pub enum Control {
    /// The shutter, a third of a stop slower.
    Shutter,
    /// The aperture, a third of a stop wider.
    Aperture,
    /// The speed, a third of a stop up.
    Iso,
    /// The power, a third of a stop up.
    Power,
    /// The distance of the flash, 11 % nearer: a third of a stop by the inverse square.
    FlashDistance,
    /// A gel, for each third of a stop that it loses.
    Gel,
    /// A filter onto the lens.
    Filter {
        /// What it takes.
        #[serde(rename = "nd_stops")]
        nd: Stops,
    },
}

/// What one step of a control does, in stops.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
#[schemars(deny_unknown_fields)]
pub struct ControlLevel {
    /// The control and its step.
    pub control: Control,
    /// To the flash's part.
    #[serde(rename = "flash_stops")]
    pub flash: Stops,
    /// To the ambient part.
    #[serde(rename = "ambient_stops")]
    pub ambient: Stops,
    /// To all light on the face, with the parts added as amounts.
    #[serde(rename = "face_stops")]
    pub face: Stops,
    /// To each zone.
    pub zones: Vec<ZoneStops>,
}

/// Settings for a later time, changed as little as possible.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
#[schemars(deny_unknown_fields)]
pub struct LaterSettings {
    /// When, in the photographer's words.
    pub name: String,
    /// The change of everything but the flash.
    #[serde(rename = "change_stops")]
    pub change: Stops,
    /// The fewest changes.
    pub then: LaterWay,
    /// With a shutter that can be held, when the first cannot.
    pub instead: Option<LaterWay>,
}

/// One way to meet another light.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
#[schemars(deny_unknown_fields)]
pub struct LaterWay {
    /// Camera line.
    #[serde(rename = "camera")]
    pub settings: Settings,
    /// Power of the flash.
    #[serde(rename = "stops_below_full")]
    pub power: PowerFraction,
    /// Ambient on the face then; `None` in darkness.
    #[serde(rename = "ambient_stops")]
    pub ambient: Option<Stops>,
    /// Flash on the face then.
    #[serde(rename = "flash_stops")]
    pub flash: Stops,
    /// Each zone then.
    pub zones: Vec<ZoneStops>,
}
