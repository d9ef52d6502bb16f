//! The answer as JSON, for programs and for the scenario tests.
//!
//! The shapes here are saved and read by others, so they are kept apart from the domain types: a field renamed inside
//! never changes a report. Whoever changes a shape raises [`REPORT_VERSION`] and writes the schema anew.
//!
//! Units are in the names: `_m` metres, `_mm` millimetres, `_deg` degrees, `_stops` stops, `_k` kelvin, `_s` seconds.
//! Where there is no finite number (no ambient light at all, no spill) the value is `null`; JSON knows no infinity.

mod balance;
mod colouring;

pub use balance::{BalanceReport, ControlReport, LaterReport, LaterWayReport, ReachReport, ZoneReport};
pub use colouring::{ColourReport, ColourZoneReport, GelReport, SourceReport};

use glam::{Vec2, Vec3};
use light::HeadDress;
use schemars::{JsonSchema, Schema, schema_for};
use serde::{Deserialize, Serialize};
use sheet::answer_lines;
use solver::{
    Aim, Alternative, Answer, Cast, Change, ChartKind, ChartLine, Confirmation, Evenness, Exposure,
    FlashSetting, Job, KeyReading, Limit, LimitKind, MapCell, RoomMap, Route, Sensitivity, Settings,
    Shortfall, SurfaceVerdict, Uncertainty, Verdict,
};

/// Version of the report's shape.
pub const REPORT_VERSION: u32 = 3;

/// A number, or nothing where there is no finite one.
type Number = Option<f64>;

/// To a billionth: more is noise of the calculation, and shorter numbers are read back exactly.
fn number(value: f64) -> Number {
    value.is_finite().then(|| (value * 1e9).round() / 1e9)
}

/// A length from single precision, to a tenth of a millimetre.
fn metres(value: f32) -> Number {
    number((f64::from(value) * 1e4).round() / 1e4)
}

/// The answer to one set-up.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct AnswerReport {
    /// Version of this shape.
    pub version: u32,
    /// What the photographer calls the set-up.
    pub title: String,
    /// The answer as it is read aloud, lengths in metres.
    pub lines: LinesReport,
    /// Settings of the camera.
    pub camera: CameraReport,
    /// Settings of the flash.
    pub flash: FlashReport,
    /// Where the flash points and what carries the light.
    pub chosen: ChosenReport,
    /// Where the first sitter stands instead, in metres, when that was allowed and serves better; else null.
    pub moved_to_m: Option<PointReport>,
    /// What was insisted on, met or not.
    pub limits: Vec<LimitReport>,
    /// What is short when something insisted on is missed, and what would help; null when all is met.
    pub shortfall: Option<ShortfallReport>,
    /// Other answers that are truly different, the better first.
    pub alternatives: Vec<AlternativeReport>,
    /// What the light does to the face of the first sitter.
    pub key: KeyReport,
    /// The gel on the flash, and how the colours of the picture lie against the balance.
    pub colour: ColourReport,
    /// How the exposure at that face adds up.
    pub exposure: ExposureReport,
    /// Flash against the light that is there: zones, reach, controls, and settings for later.
    pub balance: BalanceReport,
    /// Where the stops go, in order; gains and losses add up to each result below them.
    pub chart: Vec<ChartLineReport>,
    /// How evenly several sitters are lit; null for one sitter.
    pub evenness: Option<EvennessReport>,
    /// How far the first frame may be off, and why.
    pub uncertainty: UncertaintyReport,
    /// How the answer moves when one thing is a little different and nothing else is changed.
    pub sensitivities: Vec<SensitivityReport>,
    /// Every way of lighting that was considered, the chosen one included.
    pub surfaces: Vec<SurfaceReport>,
    /// Every aim at the room's surfaces from the flash's place.
    pub map: MapReport,
    /// What the unbiased path tracer says.
    pub referee: RefereeReport,
    /// What to do or to know, the important things first.
    pub notes: Vec<String>,
    /// Cautions where something could hurt.
    pub cautions: Vec<String>,
}

/// The answer in words.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct LinesReport {
    /// Such as "f/4 · 1/160 · ISO 400 · 5000 K".
    pub camera: String,
    /// Such as "1/8 +0.7 · zoom 50 · no gel · 2.3 stops in hand".
    pub flash: String,
    /// Where to point the flash.
    pub aim: String,
    /// How sure this is, and what to measure to be surer.
    pub about: String,
}

/// Settings of the camera.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct CameraReport {
    /// Aperture as engraved, such as "f/5.6".
    pub aperture: String,
    /// True f-number, such as 5.657 for f/5.6.
    pub f_number: Number,
    /// Shutter as engraved, such as "1/160".
    pub shutter: String,
    /// Shutter time in seconds.
    pub shutter_s: Number,
    /// Speed on the ISO scale.
    pub iso: Number,
    /// Neutral density filter on the lens; 0 when there is none.
    pub nd_stops: Number,
    /// White balance in kelvin.
    pub white_balance_k: Number,
    /// Tint of the white balance as Duv: positive for light that is green.
    pub tint_duv: Number,
    /// The same in steps of the camera's scale, 0.002 Duv each: positive towards magenta, which green light needs.
    pub tint_steps: i32,
}

/// Settings of the flash.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct FlashReport {
    /// Nearest power that can be set, such as "1/8 +0.7".
    pub power: String,
    /// That power in stops below 1/1.
    pub stops_below_full: Number,
    /// Exact power in stops below 1/1; negative when the flash falls short.
    pub exact_stops_below_full: Number,
    /// Zoom of the head in millimetres.
    pub zoom_mm: Number,
    /// What sits on the head.
    pub dress: DressReport,
    /// Stops between the power used and full power; negative when the flash falls short.
    pub in_hand_stops: Number,
}

/// What sits on the head of the flash.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum DressReport {
    /// Nothing.
    Bare,
    /// A white dome.
    Dome,
    /// A small white card.
    BounceCard,
    /// A white umbrella that the flash shines through.
    Umbrella,
    /// A small softbox.
    Softbox,
}

/// A point in the place.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct PointReport {
    /// Metres from the left wall, as seen from the camera.
    pub from_left: Number,
    /// Metres from the wall behind the camera.
    pub from_behind: Number,
    /// Metres above the floor.
    pub height: Number,
}

impl PointReport {
    fn new(point: Vec3) -> Self {
        Self {
            from_left: metres(point.x),
            from_behind: metres(point.y),
            height: metres(point.z),
        }
    }
}

/// How the light goes from the flash to the face.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum RouteReport {
    /// Off a face of the room.
    Bounce,
    /// Off furniture or a board that stands in the place.
    Standing,
    /// Off a board that the assistant holds.
    HeldBoard,
    /// Straight at the face.
    Direct,
}

/// Where the flash points and what carries the light.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct ChosenReport {
    /// The kind of way.
    pub route: RouteReport,
    /// What carries the light: "left wall", the name of a board or of furniture; "the face itself" for a direct flash.
    pub surface: String,
    /// The other face of the room for an aim into a corner; else null.
    pub corner_with: Option<String>,
    /// The point that the middle of the beam meets, in metres.
    pub aim_m: PointReport,
    /// Where the flash is, in metres.
    pub flash_m: PointReport,
    /// Turn of the head from the line to the sitter, positive to the camera's right.
    pub turn_deg: Number,
    /// Tilt of the head above level.
    pub tilt_deg: Number,
    /// Whether a black card on the sitter's side of the head keeps its direct light off the face.
    pub flagged: bool,
    /// Clock hour from which the light comes, seen from above, with the sitter in the middle and the camera at 6.
    pub light_from_clock: Number,
    /// Way from the flash to what it lights first; to the face for a direct flash.
    pub flash_to_surface_m: Number,
    /// Way from there to the face; 0 for a direct flash.
    pub surface_to_face_m: Number,
    /// How the board is held; null when none is.
    pub board: Option<BoardReport>,
    /// The aim in words.
    pub words: String,
}

/// How a board is held.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct BoardReport {
    /// Its name.
    pub name: String,
    /// Its middle, in metres.
    pub centre_m: PointReport,
    /// Unit vector out of its front: to the camera's right, away from the wall behind the camera, up.
    pub normal: [Number; 3],
    /// From its middle to the face.
    pub to_face_m: Number,
}

/// A colour cast against the bare flash.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct CastReport {
    /// Shift in mired, positive warmer.
    pub mired: Number,
    /// Green (positive) or magenta (negative), in CIE 1960 uv.
    pub duv: Number,
    /// Colour temperature of the light at the face.
    pub temperature_k: Number,
}

impl CastReport {
    fn new(cast: &Cast) -> Self {
        Self {
            mired: number(cast.shift.value()),
            duv: number(cast.duv.value()),
            temperature_k: number(cast.kelvin.value()),
        }
    }
}

/// A name with an amount of stops.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct NamedStops {
    /// What it is.
    pub name: String,
    /// Stops; null where there is no light at all.
    pub stops: Number,
}

impl NamedStops {
    fn list(items: &[(String, units::Stops)]) -> Vec<Self> {
        items
            .iter()
            .map(|(name, stops)| Self {
                name: name.clone(),
                stops: number(stops.value()),
            })
            .collect()
    }
}

/// What the flash's light does to a face.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct KeyReport {
    /// Direction weighted by light, from the nose; positive is the camera's right.
    pub azimuth_deg: Number,
    /// Height above the eyes.
    pub elevation_deg: Number,
    /// Aperture (f-number) that full power gives at ISO 100, dome towards the camera.
    pub full_power_aperture: Number,
    /// Near cheek against the dome reading.
    pub near_cheek_stops: Number,
    /// Far cheek against the dome reading.
    pub far_cheek_stops: Number,
    /// Near cheek over far cheek, to one; null when the far cheek gets nothing.
    pub ratio: Number,
    /// Eye sockets against the forehead; below -1 they go dark.
    pub sockets_stops: Number,
    /// Cast of all the flash's light at the face.
    pub cast: CastReport,
    /// Cast of the first bounce alone.
    pub first_bounce_cast: CastReport,
    /// Width of the lit patch over its distance to the face.
    pub softness: Number,
    /// Direct spill of the head on the face against the bounce; null when there is none.
    pub spill_stops: Number,
    /// Landmarks of the face against the dome reading.
    pub landmarks: Vec<NamedStops>,
}

impl KeyReport {
    fn new(key: &KeyReading) -> Self {
        Self {
            azimuth_deg: number(key.azimuth_deg),
            elevation_deg: number(key.elevation_deg),
            full_power_aperture: number(key.full_power_aperture),
            near_cheek_stops: number(key.near_cheek.value()),
            far_cheek_stops: number(key.far_cheek.value()),
            ratio: number(key.ratio),
            sockets_stops: number(key.sockets.value()),
            cast: CastReport::new(&key.cast),
            first_bounce_cast: CastReport::new(&key.first_bounce_cast),
            softness: number(key.softness),
            spill_stops: key.spill.and_then(|spill| number(spill.value())),
            landmarks: NamedStops::list(&key.landmarks),
        }
    }
}

/// How the exposure at the face adds up, in stops from an exact incident reading.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct ExposureReport {
    /// Flash alone at the power in the flash line.
    pub flash_alone_stops: Number,
    /// Ambient alone, dome towards the camera; null in darkness.
    pub ambient_alone_stops: Number,
    /// Each ambient light as the photographer metered it, against the settings.
    pub ambient_as_metered: Vec<NamedStops>,
    /// Flash and ambient together.
    pub total_stops: Number,
    /// Exact power in stops below 1/1 for which the flash alone gives 0; negative when it falls short.
    pub power_for_flash_alone_stops: Number,
    /// Exact power in stops below 1/1 for which flash and ambient together give 0; negative when it falls short.
    pub power_for_total_stops: Number,
}

impl ExposureReport {
    fn new(exposure: &Exposure) -> Self {
        Self {
            flash_alone_stops: number(exposure.flash_alone.value()),
            ambient_alone_stops: exposure.ambient_alone.and_then(|stops| number(stops.value())),
            ambient_as_metered: NamedStops::list(&exposure.ambient_as_metered),
            total_stops: number(exposure.total.value()),
            power_for_flash_alone_stops: number(exposure.power_for_flash_alone),
            power_for_total_stops: number(exposure.power_for_total),
        }
    }
}

/// What a line of the stops chart is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum ChartKindReport {
    /// What the flash can do before anything takes from it.
    Start,
    /// More light.
    Gain,
    /// Less light.
    Loss,
    /// The sum of all lines above.
    Result,
}

/// A line of the stops chart.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct ChartLineReport {
    /// What it is.
    pub label: String,
    /// Stops, not rounded for printing.
    pub stops: Number,
    /// What kind of line.
    pub kind: ChartKindReport,
}

impl ChartLineReport {
    fn new(line: &ChartLine) -> Self {
        let kind = match line.kind {
            ChartKind::Start => ChartKindReport::Start,
            ChartKind::Gain => ChartKindReport::Gain,
            ChartKind::Loss => ChartKindReport::Loss,
            ChartKind::Result => ChartKindReport::Result,
        };
        Self {
            label: line.label.clone(),
            stops: number(line.stops),
            kind,
        }
    }
}

/// How evenly several sitters are lit.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct EvennessReport {
    /// Brightest minus darkest face, flash alone.
    pub spread_stops: Number,
    /// Name of the brightest.
    pub brightest: String,
    /// Name of the darkest.
    pub darkest: String,
    /// Each sitter against the first.
    pub each: Vec<NamedStops>,
}

impl EvennessReport {
    fn new(evenness: &Evenness) -> Self {
        Self {
            spread_stops: number(evenness.spread.value()),
            brightest: evenness.brightest.clone(),
            darkest: evenness.darkest.clone(),
            each: NamedStops::list(&evenness.each),
        }
    }
}

/// How far the first frame may be off, and why.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct UncertaintyReport {
    /// About nine frames in ten fall within this many stops.
    pub within_stops: Number,
    /// What it is made of, largest first.
    pub parts: Vec<UncertaintyPartReport>,
}

/// One guess and what it does to the exposure.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct UncertaintyPartReport {
    /// The input, in words.
    pub input: String,
    /// What is assumed of it.
    pub spread: String,
    /// One standard deviation of the exposure from it.
    pub standard_deviation_stops: Number,
}

impl UncertaintyReport {
    fn new(uncertainty: &Uncertainty) -> Self {
        let parts = uncertainty.parts.iter().map(|part| UncertaintyPartReport {
            input: part.input.clone(),
            spread: part.spread.clone(),
            standard_deviation_stops: number(part.stops),
        });
        Self {
            within_stops: number(uncertainty.stops),
            parts: parts.collect(),
        }
    }
}

/// Whether a way of lighting serves.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum VerdictReport {
    /// This is the answer.
    Chosen,
    /// It would do, but something else does better.
    Possible,
    /// It would spoil the look.
    Poor,
    /// It cannot be used for this ask.
    Unusable,
}

impl VerdictReport {
    fn new(verdict: Verdict) -> Self {
        match verdict {
            Verdict::Chosen => VerdictReport::Chosen,
            Verdict::Possible => VerdictReport::Possible,
            Verdict::Poor => VerdictReport::Poor,
            Verdict::Unusable => VerdictReport::Unusable,
        }
    }
}

/// One way of lighting: its best aim, what it would do and what is wrong with it.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct SurfaceReport {
    /// In the photographer's words.
    pub name: String,
    /// The kind of way.
    pub route: RouteReport,
    /// What carries the light.
    pub surface: String,
    /// The other face of the room for an aim into a corner; else null.
    pub corner_with: Option<String>,
    /// Whether it serves.
    pub verdict: VerdictReport,
    /// Why, or why not.
    pub why: String,
    /// The point aimed at, in metres.
    pub aim_m: PointReport,
    /// Zoom of the head in millimetres.
    pub zoom_mm: Number,
    /// What it would do to the face; null where no light could get there.
    pub key: Option<KeyReport>,
    /// Exact power in stops below 1/1 for flash alone at 0 with the answer's camera settings; negative when it falls
    /// short.
    pub power_for_flash_alone_stops: Number,
    /// Stops gained on this way by zooming from 50 to 105 mm.
    pub zoom_gain_stops: Number,
    /// Difference between this light and each ambient light.
    pub against_ambient: Vec<NamedMired>,
    /// What was lost in the score, in points; the sum ranks the ways.
    pub score: Vec<ScoreReport>,
}

/// A name with a difference in mired.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct NamedMired {
    /// The ambient light.
    pub name: String,
    /// This light minus the ambient light, in mired, positive warmer.
    pub mired: Number,
}

/// A fault and its points.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct ScoreReport {
    /// The fault.
    pub fault: String,
    /// Its points.
    pub points: Number,
}

impl SurfaceReport {
    fn new(surface: &SurfaceVerdict) -> Self {
        let (route, carrier, corner_with) = route(&surface.route);
        let against = surface.against_ambient.iter();
        let score = surface.score.iter();
        Self {
            name: surface.name.clone(),
            route,
            surface: carrier,
            corner_with,
            verdict: VerdictReport::new(surface.verdict),
            why: surface.why.clone(),
            aim_m: PointReport::new(surface.target),
            zoom_mm: number(surface.zoom_mm),
            key: surface.key.as_ref().map(KeyReport::new),
            power_for_flash_alone_stops: surface.power_for_flash_alone.and_then(number),
            zoom_gain_stops: surface.zoom_gain.and_then(number),
            against_ambient: against
                .map(|(name, shift)| NamedMired {
                    name: name.clone(),
                    mired: number(shift.value()),
                })
                .collect(),
            score: score
                .map(|(fault, points)| ScoreReport {
                    fault: fault.clone(),
                    points: number(*points),
                })
                .collect(),
        }
    }
}

/// What can be insisted on.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum LimitKindReport {
    /// Stops in hand below full power, in stops.
    Power,
    /// Too much light even at the least power, in stops.
    LeastPower,
    /// Wait between two frames, in seconds.
    Recycle,
    /// Cast on skin, in mired.
    Cast,
    /// Green or magenta on skin, in Duv.
    GreenMagenta,
    /// Angle of the key from the nose, in degrees.
    Direction,
    /// Height of the key over the eyes, in degrees.
    Height,
    /// Width of the light over its distance.
    Softness,
    /// Near side of the face over the far side, in stops between asked and found.
    Ratio,
    /// Spread over the faces, in stops.
    Evenness,
    /// Background against the face, in stops.
    Background,
    /// Ambient against an exact exposure, in stops.
    Ambient,
    /// Light on skin against the balance, in mired.
    SkinColour,
    /// Light on the background against the balance, in mired.
    RoomColour,
    /// A zone of the picture against normal, in stops.
    Zone,
}

/// Something insisted on, with what the answer makes of it.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct LimitReport {
    /// What it is about; this says the unit of `found` and `short` too.
    pub kind: LimitKindReport,
    /// In words, with what was asked.
    pub asked: String,
    /// What the answer makes of it.
    pub found: Number,
    /// By how much it is missed beyond its tolerance; 0 when it is met.
    pub short: Number,
    /// Whether it is met.
    pub met: bool,
}

impl LimitReport {
    fn new(limit: &Limit) -> Self {
        let kind = match limit.kind {
            LimitKind::Power => LimitKindReport::Power,
            LimitKind::LeastPower => LimitKindReport::LeastPower,
            LimitKind::Recycle => LimitKindReport::Recycle,
            LimitKind::Cast => LimitKindReport::Cast,
            LimitKind::GreenMagenta => LimitKindReport::GreenMagenta,
            LimitKind::Direction => LimitKindReport::Direction,
            LimitKind::Height => LimitKindReport::Height,
            LimitKind::Softness => LimitKindReport::Softness,
            LimitKind::Ratio => LimitKindReport::Ratio,
            LimitKind::Evenness => LimitKindReport::Evenness,
            LimitKind::Background => LimitKindReport::Background,
            LimitKind::Ambient => LimitKindReport::Ambient,
            LimitKind::SkinColour => LimitKindReport::SkinColour,
            LimitKind::RoomColour => LimitKindReport::RoomColour,
            LimitKind::Zone => LimitKindReport::Zone,
        };
        Self {
            kind,
            asked: limit.asked.clone(),
            found: number(limit.found),
            short: number(limit.short),
            met: limit.met(),
        }
    }
}

/// An ask that cannot be met as it stands.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct ShortfallReport {
    /// What is short and by how much, in one sentence.
    pub words: String,
    /// The limits that are missed, the worst first.
    pub binding: Vec<LimitReport>,
    /// The smallest changes that make the ask possible, the least first.
    pub changes: Vec<ChangeReport>,
    /// Changes that were tried and do not help, in words.
    pub tried: Vec<String>,
}

/// One change to the ask, the bag or the place that makes the ask possible.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct ChangeReport {
    /// What to do.
    pub what: String,
    /// How large the change is.
    pub amount: Number,
    /// Unit of the amount: "stops", "m", "mired", "degrees", "helpers".
    pub unit: String,
    /// How much it asks of the photographer and the picture, in points.
    pub effort: Number,
    /// What it costs the look.
    pub cost: String,
    /// The answer that it leads to, in one line.
    pub then: String,
}

impl ShortfallReport {
    fn new(shortfall: &Shortfall) -> Self {
        let change = |change: &Change| ChangeReport {
            what: change.what.clone(),
            amount: number(change.amount),
            unit: change.unit.to_owned(),
            effort: number(change.effort),
            cost: change.cost.clone(),
            then: change.then.clone(),
        };
        Self {
            words: shortfall.words.clone(),
            binding: shortfall.binding.iter().map(LimitReport::new).collect(),
            changes: shortfall.changes.iter().map(change).collect(),
            tried: shortfall.tried.clone(),
        }
    }
}

/// Another answer that is truly different.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct AlternativeReport {
    /// The surface, the board, the bare flash.
    pub name: String,
    /// Settings of the camera.
    pub camera: CameraReport,
    /// Settings of the flash.
    pub flash: FlashReport,
    /// Where the flash points and what carries the light.
    pub chosen: ChosenReport,
    /// What the light does to the face of the first sitter.
    pub key: KeyReport,
    /// Points against the ask.
    pub points: Number,
    /// The one reason to prefer it to the answer.
    pub prefer: String,
}

impl AlternativeReport {
    fn new(other: &Alternative) -> Self {
        Self {
            name: other.name.clone(),
            camera: camera(&other.settings),
            flash: flash(&other.flash),
            chosen: chosen(&other.aim),
            key: KeyReport::new(&other.key),
            points: number(other.points),
            prefer: other.prefer.clone(),
        }
    }
}

/// How the answer moves when one thing is different.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct SensitivityReport {
    /// The difference, in words.
    pub what: String,
    /// Change of the exposure at the face.
    pub exposure_stops: Number,
    /// Change of the key's angle from the nose, positive to the camera's right.
    pub azimuth_deg: Number,
    /// Change of the key's height.
    pub elevation_deg: Number,
    /// Change of the cast, positive warmer.
    pub cast_mired: Number,
}

impl SensitivityReport {
    fn new(change: &Sensitivity) -> Self {
        Self {
            what: change.what.clone(),
            exposure_stops: number(change.exposure.value()),
            azimuth_deg: number(change.azimuth_deg),
            elevation_deg: number(change.elevation_deg),
            cast_mired: number(change.cast.value()),
        }
    }
}

/// Every aim at the room's surfaces from one place of the flash.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct MapReport {
    /// The place of the flash, in metres.
    pub flash_m: PointReport,
    /// Width, length and height of the room, in metres.
    pub room_m: [Number; 3],
    /// The pieces, face by face; what cannot be aimed at from there is left out.
    pub cells: Vec<MapCellReport>,
}

/// The best that can be made of aiming at one piece of a face of the room.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct MapCellReport {
    /// The face: "left wall", "right wall", "wall behind the camera", "wall behind the sitter", "ceiling", "floor".
    pub face: String,
    /// Its middle, the point aimed at, in metres.
    pub target_m: PointReport,
    /// Its lower corner along two edges of the face, in metres: on a wall from the left end, seen from inside, and up;
    /// on the ceiling from the wall behind the camera and from the left wall; on the floor from the left wall and from
    /// the wall behind the camera.
    pub from_m: [Number; 2],
    /// Its extent along the same two edges, in metres.
    pub size_m: [Number; 2],
    /// Zoom of the head that does best there, in millimetres.
    pub zoom_mm: Number,
    /// Points against the ask: 0 is what was asked for.
    pub points: Number,
    /// Whether it serves.
    pub verdict: VerdictReport,
    /// Why, or why not.
    pub why: String,
    /// Angle of all the flash's light from the nose, positive to the camera's right.
    pub azimuth_deg: Number,
    /// Height of all the flash's light above the eyes.
    pub elevation_deg: Number,
}

impl MapReport {
    fn new(map: &RoomMap) -> Self {
        Self {
            flash_m: PointReport::new(map.flash),
            room_m: map.room.to_array().map(metres),
            cells: map.cells.iter().map(MapCellReport::new).collect(),
        }
    }
}

impl MapCellReport {
    fn new(cell: &MapCell) -> Self {
        let pair = |lengths: Vec2| lengths.to_array().map(metres);
        Self {
            face: cell.face.words().to_owned(),
            target_m: PointReport::new(cell.target),
            from_m: pair(cell.from),
            size_m: pair(cell.size),
            zoom_mm: number(cell.zoom_mm),
            points: number(cell.points),
            verdict: VerdictReport::new(cell.verdict),
            why: cell.why.clone(),
            azimuth_deg: number(cell.azimuth_deg),
            elevation_deg: number(cell.elevation_deg),
        }
    }
}

/// What the unbiased path tracer says about the chosen aim.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct RefereeReport {
    /// Referee minus solved room at the face.
    pub difference_stops: Number,
    /// Standard error of the referee's own reading.
    pub standard_error_stops: Number,
    /// Direction of the key as the referee finds it, from the nose; positive is the camera's right.
    pub azimuth_deg: Number,
    /// Height above the eyes as the referee finds it.
    pub elevation_deg: Number,
}

impl RefereeReport {
    fn new(referee: &Confirmation) -> Self {
        Self {
            difference_stops: number(referee.difference.value()),
            standard_error_stops: number(referee.standard_error),
            azimuth_deg: number(referee.azimuth_deg),
            elevation_deg: number(referee.elevation_deg),
        }
    }
}

impl AnswerReport {
    /// The report of an answer to a job.
    pub fn new(job: &Job, answer: &Answer) -> Self {
        let lines = answer_lines(answer, false);
        Self {
            version: REPORT_VERSION,
            title: job.title.clone(),
            lines: LinesReport {
                camera: lines.camera,
                flash: lines.flash,
                aim: lines.aim,
                about: lines.about,
            },
            camera: camera(&answer.settings),
            flash: flash(&answer.flash),
            chosen: chosen(&answer.aim),
            moved_to_m: answer.moved.map(PointReport::new),
            limits: answer.limits.iter().map(LimitReport::new).collect(),
            shortfall: answer.shortfall.as_ref().map(ShortfallReport::new),
            alternatives: answer.alternatives.iter().map(AlternativeReport::new).collect(),
            key: KeyReport::new(&answer.key),
            colour: ColourReport::new(&answer.colouring),
            exposure: ExposureReport::new(&answer.exposure),
            balance: BalanceReport::new(&answer.balance),
            chart: answer.chart.iter().map(ChartLineReport::new).collect(),
            evenness: answer.evenness.as_ref().map(EvennessReport::new),
            uncertainty: UncertaintyReport::new(&answer.uncertainty),
            sensitivities: answer.sensitivities.iter().map(SensitivityReport::new).collect(),
            surfaces: answer.surfaces.iter().map(SurfaceReport::new).collect(),
            map: MapReport::new(&answer.map),
            referee: RefereeReport::new(&answer.referee),
            notes: answer.notes.clone(),
            cautions: answer.cautions.clone(),
        }
    }

    /// The report as indented JSON.
    ///
    /// # Errors
    /// None is known; a failure would be a bug in this program.
    pub fn to_json(&self) -> serde_json::Result<String> {
        serde_json::to_string_pretty(self)
    }

    /// The published schema of the report (JSON Schema, draft 2020-12).
    pub fn schema() -> Schema {
        schema_for!(Self)
    }
}

fn camera(settings: &Settings) -> CameraReport {
    CameraReport {
        aperture: settings.aperture.nearest_third().to_string(),
        f_number: number(settings.aperture.value()),
        shutter: settings.shutter.to_string(),
        shutter_s: number(settings.shutter.value()),
        iso: number(settings.iso.value()),
        nd_stops: number(settings.nd.value()),
        white_balance_k: number(settings.white_balance.value()),
        tint_duv: number(settings.tint.value()),
        tint_steps: colour::WhiteBalance::tint_steps(settings.tint),
    }
}

fn flash(flash: &FlashSetting) -> FlashReport {
    FlashReport {
        power: flash.power.nearest_third().to_string(),
        stops_below_full: number(flash.power.stops_below_full()),
        exact_stops_below_full: number(flash.exact_stops_below_full),
        zoom_mm: number(flash.zoom_mm),
        dress: match flash.dress {
            HeadDress::Bare => DressReport::Bare,
            HeadDress::Dome => DressReport::Dome,
            HeadDress::BounceCard => DressReport::BounceCard,
            HeadDress::Umbrella(_) => DressReport::Umbrella,
            HeadDress::Softbox(_) => DressReport::Softbox,
        },
        in_hand_stops: number(flash.in_hand.value()),
    }
}

fn chosen(aim: &Aim) -> ChosenReport {
    let (route, surface, corner_with) = route(&aim.route);
    ChosenReport {
        route,
        surface,
        corner_with,
        aim_m: PointReport::new(aim.target),
        flash_m: PointReport::new(aim.flash),
        turn_deg: number(aim.turn_deg),
        tilt_deg: number(aim.tilt_deg),
        flagged: aim.flagged,
        light_from_clock: number(aim.light_from_clock),
        flash_to_surface_m: number(aim.legs_m[0]),
        surface_to_face_m: number(aim.legs_m[1]),
        board: board(&aim.route),
        words: aim.words.clone(),
    }
}

fn board(route: &Route) -> Option<BoardReport> {
    let Route::HeldBoard {
        name,
        centre,
        normal,
        to_face_m,
        ..
    } = route
    else {
        return None;
    };
    Some(BoardReport {
        name: name.clone(),
        centre_m: PointReport::new(*centre),
        normal: normal.to_array().map(|part| number(f64::from(part))),
        to_face_m: number(*to_face_m),
    })
}

/// The kind of way, what carries the light, and the other half of a corner.
fn route(route: &Route) -> (RouteReport, String, Option<String>) {
    match route {
        Route::Bounce { face, corner_with } => (
            RouteReport::Bounce,
            face.words().to_owned(),
            corner_with.map(|other| other.words().to_owned()),
        ),
        Route::Standing { name } => (RouteReport::Standing, name.clone(), None),
        Route::HeldBoard { name, .. } => (RouteReport::HeldBoard, name.clone(), None),
        Route::Direct => (RouteReport::Direct, "the face itself".to_owned(), None),
    }
}
