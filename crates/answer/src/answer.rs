//! What is answered, with its reasons.

use crate::published::{self, Point};
use crate::{
    Aim, Balance, BehindReading, Caution, ChartLine, Colouring, Evenness, Exposure, FlashSetting, Job,
    Judgement, KeyReading, Note, RoomMap, Sensitivity, Settings, Shortfall, SurfaceVerdict, Uncertainty,
    WayId,
};
use glam::Vec3;
use schemars::JsonSchema;
use serde::Serialize;
use units::{MiredShift, Stops};

/// The answer to a job.
#[derive(Clone, Debug, Serialize, JsonSchema)]
pub struct Answer {
    /// Camera line.
    #[serde(rename = "camera")]
    pub settings: Settings,
    /// Flash line.
    pub flash: FlashSetting,
    /// Where the flash points and what carries the light.
    #[serde(rename = "chosen")]
    pub aim: Aim,
    /// What all the light of the finished picture does to the first sitter's face.
    pub key: KeyReading,
    /// What is seen behind everyone, in the finished picture.
    pub behind: BehindReading,
    /// The gel on the flash, and how the colours of the picture lie against the balance.
    #[serde(rename = "colour")]
    pub colouring: Colouring,
    /// How the exposure at the face adds up.
    pub exposure: Exposure,
    /// Flash against what is there: zones, reach, what each control does, and the settings for later.
    pub balance: Balance,
    /// Where the stops go: gains and losses that add up exactly to `exposure.total`.
    pub chart: Vec<ChartLine>,
    /// How evenly several sitters are lit.
    pub evenness: Option<Evenness>,
    /// How far the answer may be off.
    pub uncertainty: Uncertainty,
    /// Where the first sitter must stand instead, when that was allowed and serves better.
    #[serde(rename = "moved_to_m", serialize_with = "published::optional_point")]
    #[schemars(with = "Option<Point>")]
    pub moved: Option<Vec3>,
    /// Every wish, with what the answer makes of it.
    pub wishes: Vec<Judgement>,
    /// What the wishes and what it takes to carry the answer out add up to: the sum that the search has made least.
    pub points: f64,
    /// When a wish is missed, or a must is not kept: by how much, and the smallest changes that would help.
    pub shortfall: Option<Shortfall>,
    /// Other answers that are truly different, at most two, the better first.
    pub alternatives: Vec<Alternative>,
    /// How the answer moves when the place is a little different from its description.
    pub sensitivities: Vec<Sensitivity>,
    /// Every aim at the room's surfaces from the flash's place.
    pub map: RoomMap,
    /// Every surface, board and the bare flash, with what it would do and why it was not chosen.
    pub surfaces: Vec<SurfaceVerdict>,
    /// What the referee found for the chosen aim.
    pub referee: Confirmation,
    /// What the photographer should do or know, the important things first.
    pub notes: Vec<Note>,
    /// Cautions where something could hurt.
    pub cautions: Vec<Caution>,
}

impl Answer {
    /// What the chosen way is.
    pub fn way(&self) -> WayId {
        WayId::of(&self.aim.route, self.flash.dress)
    }
}

impl Job {
    /// The job as its answer has it: with the people where the answer wants them to stand and its gel on the flash. Everything that
    /// draws or renders an answer starts from this.
    pub fn as_answered(&self, answer: &Answer) -> Job {
        let mut job = self.clone();
        if let (Some(stand), Some(first)) = (answer.moved, self.sitters.first()) {
            job.move_everyone(stand - first.stand);
        }
        let gel = answer.colouring.gel.as_ref().map(|worn| worn.gel.clone());
        if let Ok(flash) = job.bag.flash.clone().with_gel(gel) {
            job.bag.flash = flash;
        }
        job
    }
}

/// What the unbiased path tracer says about the chosen aim.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, JsonSchema)]
#[schemars(deny_unknown_fields)]
pub struct Confirmation {
    /// Referee minus solved room at the face, in stops.
    #[serde(rename = "difference_stops")]
    pub difference: Stops,
    /// Standard error of the referee's own reading, in stops.
    #[serde(rename = "standard_error_stops")]
    pub standard_error: f64,
    /// Azimuth that the referee finds, in degrees.
    pub azimuth_deg: f64,
    /// Elevation that the referee finds, in degrees.
    pub elevation_deg: f64,
}

/// Another answer that is truly different.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
#[schemars(deny_unknown_fields)]
pub struct Alternative {
    /// The surface, the board, the bare flash.
    pub way: WayId,
    /// Where the flash points.
    #[serde(rename = "chosen")]
    pub aim: Aim,
    /// Camera line.
    #[serde(rename = "camera")]
    pub settings: Settings,
    /// Flash line.
    pub flash: FlashSetting,
    /// What all the light of the finished picture does to the first sitter's face.
    pub key: KeyReading,
    /// Points against the ask; the answer's own are the sum of its verdict's score.
    pub points: f64,
    /// The one reason to prefer it to the answer.
    pub prefer: Preference,
}

/// The one reason to prefer another answer.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, JsonSchema)]
#[serde(tag = "reason", rename_all = "snake_case")]
#[schemars(deny_unknown_fields)]
pub enum Preference {
    /// More in hand.
    MoreInHand {
        /// So many stops more.
        stops: Stops,
    },
    /// Softer light.
    Softer {
        /// The light is so many times as wide.
        times: f64,
    },
    /// Cleaner skin.
    CleanerSkin {
        /// So much less cast.
        less: MiredShift,
    },
    /// Nearer to the angle that was asked.
    NearerAngle {
        /// By so many degrees.
        degrees: f64,
    },
    /// A gentler ratio.
    Gentler {
        /// Near cheek over far cheek.
        ratio: f64,
        /// The answer's.
        instead_of: f64,
    },
    /// A stronger ratio.
    MoreDrama {
        /// Near cheek over far cheek.
        ratio: f64,
        /// The answer's.
        instead_of: f64,
    },
    /// No hands needed.
    NoHands,
    /// No flag needed.
    NoFlag,
}
