//! Where the stops go, from the flash at one metre to the exposure at the face.

use crate::{LightName, WayId};
use schemars::JsonSchema;
use serde::Serialize;
use units::{FNumber, Iso, PowerFraction, Stops};

/// What a line of the stops chart is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum ChartKind {
    /// What the flash can do before anything takes from it.
    Start,
    /// More light.
    Gain,
    /// Less light.
    Loss,
    /// The sum of all lines above.
    Result,
}

/// What a line of the stops chart counts.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
#[serde(tag = "is", rename_all = "snake_case")]
#[schemars(deny_unknown_fields)]
pub enum ChartItem {
    /// The full flash one metre away.
    FullFlash {
        /// Zoom of the head.
        zoom_mm: f64,
        /// Aperture.
        #[serde(rename = "f_number")]
        aperture: FNumber,
        /// Speed.
        iso: Iso,
    },
    /// The umbrella or the softbox.
    Front {
        /// Which of them.
        way: WayId,
    },
    /// The filter on the lens.
    Filter {
        /// What it takes.
        #[serde(rename = "nd_stops")]
        nd: Stops,
    },
    /// The gel on the flash.
    Gel {
        /// Its name.
        name: String,
    },
    /// The way of the light.
    Travel {
        /// Metres from the flash to the face.
        metres: f64,
    },
    /// The face's place in the beam, and its angle to the camera.
    PlaceInBeam,
    /// What the room sends back of a direct flash.
    RoomSendsBack,
    /// What the surface keeps of the light.
    Keeps {
        /// What carries the light.
        way: WayId,
        /// Part of the light that goes on.
        share: f64,
    },
    /// A matt surface scatters the light all ways.
    Scatter,
    /// Later bounces of the room.
    LaterBounces,
    /// Direct spill of the head.
    Spill,
    /// The power.
    Power {
        /// The nearest that can be set.
        #[serde(rename = "stops_below_full")]
        power: PowerFraction,
    },
    /// One of the lights that are there.
    Ambient {
        /// The light.
        light: LightName,
    },
    /// What arrives, against an exact reading.
    AtTheFace,
}

/// A line of the stops chart.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
#[schemars(deny_unknown_fields)]
pub struct ChartLine {
    /// What it counts.
    pub item: ChartItem,
    /// Stops, not rounded for printing.
    pub stops: f64,
    /// Start, gain, loss or result.
    pub kind: ChartKind,
}
