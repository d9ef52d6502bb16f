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

/// What the light of the finished picture does to a face: the flash at its power and all the light that is there, through
/// the same shutter.
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
    /// Near cheek over far cheek, of all light: (key + fill) : fill.
    pub ratio: f64,
    /// The darker eye socket against the cheek below it, in stops.
    #[serde(rename = "sockets_stops")]
    pub sockets: Stops,
    /// The eye socket on the lit side against the cheek below it, in stops.
    #[serde(rename = "lit_socket_stops")]
    pub lit_socket: Stops,
    /// The pattern that this light makes on the face.
    pub pattern: PatternRead,
    /// What the flash alone does.
    pub flash: FlashReading,
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
    /// The skin that the camera sees; `None` where hardly any is seen.
    pub skin: Option<SkinReading>,
    /// Every landmark of the first sitter that the camera sees against the dome reading, in stops.
    pub landmarks: Vec<LandmarkLevel>,
}

/// The skin of the first face that the camera sees, read point by point, past whatever stands before it.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, JsonSchema)]
#[schemars(deny_unknown_fields)]
pub struct SkinReading {
    /// Points that were read.
    pub points: usize,
    /// The lit part: what the brightest quarter of it lies above, against the dome reading.
    #[serde(rename = "lit_stops")]
    pub lit: Stops,
    /// The darkest part: what a tenth of it lies below, against the dome reading.
    #[serde(rename = "darkest_stops")]
    pub darkest: Stops,
    /// Where the light comes from by its shading, from the nose, in degrees; positive is the camera's right.
    pub azimuth_deg: f64,
    /// The same above the eyes, in degrees.
    pub elevation_deg: f64,
}

/// What is seen behind everyone, and how the first sitter stands off against it.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize, JsonSchema)]
#[schemars(deny_unknown_fields)]
pub struct BehindReading {
    /// Light on it against the light on the face: the level that half of it lies above. `None` where hardly any surface is seen
    /// there, but sky or windows.
    #[serde(rename = "light_stops")]
    pub light: Option<Stops>,
    /// Its tone against mid-grey, with how light it is itself: the level that half of it lies above.
    #[serde(rename = "tone_stops")]
    pub tone: Option<Stops>,
    /// The edge of the hair against what is seen beside it; positive is lighter. `None` where there is no such edge.
    #[serde(rename = "hair_stops")]
    pub hair: Option<Stops>,
    /// The same of the clothes on the shoulders.
    #[serde(rename = "shoulders_stops")]
    pub shoulders: Option<Stops>,
}

/// What the flash alone does to a face, without the light that is there.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, JsonSchema)]
#[schemars(deny_unknown_fields)]
pub struct FlashReading {
    /// Direction weighted by light, from the nose, in degrees; positive is the camera's right.
    pub azimuth_deg: f64,
    /// Height above the eyes, in degrees.
    pub elevation_deg: f64,
    /// Near cheek over far cheek.
    pub ratio: f64,
    /// Share of the light at the face, 0 to 1.
    pub share: f64,
}

/// A lighting pattern by the direction of its light from the nose (common practice; where one ends and the next begins
/// is ours, halfway between what each is described as).
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum Pattern {
    /// From along the nose, about level.
    Flat,
    /// From above the nose: a shadow straight under it.
    Butterfly,
    /// From beside and above: a small shadow beside the nose.
    Loop,
    /// From further round and above: the shadow of the nose meets that of the cheek.
    Rembrandt,
    /// From the side: half of the face.
    Split,
    /// From behind: a bright edge.
    Rim,
    /// From below the eyes.
    Under,
    /// From overhead.
    Top,
}

/// A pattern, and how near the light is to making another one.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, JsonSchema)]
#[schemars(deny_unknown_fields)]
pub struct PatternRead {
    /// What it is.
    pub is: Pattern,
    /// What it would be next.
    pub next: Pattern,
    /// How many degrees further round or up that begins.
    pub next_deg: f64,
}

impl PatternRead {
    /// The pattern of light from an azimuth (either side) and a height, both in degrees.
    ///
    /// ```
    /// # use answer::{Pattern, PatternRead};
    /// let read = PatternRead::of(-40.0, 30.0);
    /// assert_eq!((read.is, read.next, read.next_deg), (Pattern::Loop, Pattern::Rembrandt, 5.0));
    /// ```
    pub fn of(azimuth_deg: f64, elevation_deg: f64) -> Self {
        let (round, up) = (azimuth_deg.abs(), elevation_deg);
        let is = pattern_at(round, up);
        // The nearest edge, straight round or straight up.
        let steps = [
            |edge: f64, _: f64, up: f64| (edge, up),
            |edge: f64, round: f64, _: f64| (round, edge),
        ];
        let mut next = PatternRead {
            is,
            next: is,
            next_deg: f64::INFINITY,
        };
        for (edges, step) in [&ROUND[..], &UP[..]].into_iter().zip(steps) {
            for &edge in edges {
                for beyond in [edge - 1e-6, edge + 1e-6] {
                    let (at_round, at_up) = step(beyond, round, up);
                    let away = (at_round - round).abs() + (at_up - up).abs();
                    let found = pattern_at(at_round, at_up);
                    if found != is && away < next.next_deg {
                        next.next = found;
                        next.next_deg = away;
                    }
                }
            }
        }
        next.next_deg = (next.next_deg * 1e3).round() / 1e3;
        next
    }
}

/// Where patterns end beside the nose, in degrees.
const ROUND: [f64; 4] = [15.0, 45.0, 70.0, 110.0];
/// Where patterns end above the eyes, in degrees.
const UP: [f64; 3] = [-5.0, 20.0, 65.0];

fn pattern_at(round: f64, up: f64) -> Pattern {
    let [flat, small, wide, side] = ROUND;
    let [low, raised, overhead] = UP;
    match (round, up) {
        (_, up) if up < low => Pattern::Under,
        (_, up) if up > overhead => Pattern::Top,
        (round, up) if round < flat && up < raised => Pattern::Flat,
        (round, _) if round < flat => Pattern::Butterfly,
        (round, _) if round < small => Pattern::Loop,
        // From low down the shadow of the nose passes under that of the cheek.
        (round, up) if round < wide && up < raised => Pattern::Loop,
        (round, _) if round < wide => Pattern::Rembrandt,
        (round, _) if round < side => Pattern::Split,
        _ => Pattern::Rim,
    }
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
