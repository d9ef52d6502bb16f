//! What is read of the light: at the face, of its colour, over several faces.

use crate::LightName;
use crate::published;
use scene::figure::LandmarkName;
use schemars::JsonSchema;
use serde::Serialize;
use units::{Duv, Kelvin, MiredShift, Stops};

/// A colour cast against the flash as it leaves the head, its gel included.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, JsonSchema)]
#[schemars(deny_unknown_fields)]
pub struct Cast {
    /// Shift in mired, positive warmer.
    #[serde(rename = "mired")]
    pub shift: MiredShift,
    /// Green (+) or magenta (−) against the flash.
    pub duv: Duv,
    /// Colour temperature of the light at the face.
    #[serde(rename = "temperature_k")]
    pub kelvin: Kelvin,
}

/// The level at a landmark of the face.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, JsonSchema)]
#[schemars(deny_unknown_fields)]
pub struct LandmarkLevel {
    /// The landmark.
    #[serde(rename = "name", serialize_with = "published::landmark")]
    #[schemars(with = "String")]
    pub at: LandmarkName,
    /// Against the dome reading.
    #[serde(rename = "stops")]
    pub level: Stops,
}

/// What the flash's light does to a face.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
#[schemars(deny_unknown_fields)]
pub struct KeyReading {
    /// Direction weighted by light, from the nose, in degrees; positive is the camera's right.
    pub azimuth_deg: f64,
    /// Height above the eyes, in degrees.
    pub elevation_deg: f64,
    /// Aperture that full power gives at ISO 100, dome towards the camera.
    pub full_power_aperture: f64,
    /// Near cheek against the dome reading, in stops.
    #[serde(rename = "near_cheek_stops")]
    pub near_cheek: Stops,
    /// Far cheek against the dome reading, in stops.
    #[serde(rename = "far_cheek_stops")]
    pub far_cheek: Stops,
    /// Near cheek over far cheek.
    pub ratio: f64,
    /// Eye sockets against the forehead, in stops; below −1 they go dark.
    #[serde(rename = "sockets_stops")]
    pub sockets: Stops,
    /// Cast of all the flash's light at the face, later bounces included.
    pub cast: Cast,
    /// Cast of one bounce off the surface that carries the light, by its own colour alone; no cast for
    /// light that comes straight from the head.
    pub first_bounce_cast: Cast,
    /// Width of the lit patch over its distance to the face.
    pub softness: f64,
    /// Direct spill of the head on the face against the bounce, in stops; `None` when there is none.
    #[serde(rename = "spill_stops")]
    pub spill: Option<Stops>,
    /// Every landmark of the first sitter against the dome reading, in stops.
    pub landmarks: Vec<LandmarkLevel>,
}

/// The level of one of the lights that are there.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
#[schemars(deny_unknown_fields)]
pub struct LightLevel {
    /// The light.
    pub light: LightName,
    /// Against the settings, as it was metered or computed.
    #[serde(rename = "stops")]
    pub level: Stops,
}

/// How the exposure at the face adds up, in stops from an exact incident reading.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
#[schemars(deny_unknown_fields)]
pub struct Exposure {
    /// Flash alone at the power in the flash line.
    #[serde(rename = "flash_alone_stops")]
    pub flash_alone: Stops,
    /// Ambient alone, dome towards the camera; `None` in darkness.
    #[serde(rename = "ambient_alone_stops")]
    pub ambient_alone: Option<Stops>,
    /// Each ambient light by name: as metered by the photographer, against the settings.
    pub ambient_as_metered: Vec<LightLevel>,
    /// Flash and ambient together.
    #[serde(rename = "total_stops")]
    pub total: Stops,
    /// Exact power in stops below 1/1 for which the flash alone gives 0.
    #[serde(rename = "power_for_flash_alone_stops")]
    pub power_for_flash_alone: f64,
    /// Exact power in stops below 1/1 for which flash and ambient together give 0.
    #[serde(rename = "power_for_total_stops")]
    pub power_for_total: f64,
}

/// A sitter's level.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
#[schemars(deny_unknown_fields)]
pub struct SitterLevel {
    /// Name of the sitter.
    pub name: String,
    /// Against the first sitter.
    #[serde(rename = "stops")]
    pub level: Stops,
}

/// How evenly several sitters are lit.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
#[schemars(deny_unknown_fields)]
pub struct Evenness {
    /// Brightest minus darkest face, flash alone.
    #[serde(rename = "spread_stops")]
    pub spread: Stops,
    /// Name of the brightest.
    pub brightest: String,
    /// Name of the darkest.
    pub darkest: String,
    /// Each sitter against the first, in stops.
    pub each: Vec<SitterLevel>,
}
