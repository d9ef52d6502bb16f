//! What is answered, with its reasons.

use crate::balance::Balance;
use glam::{Vec2, Vec3};
use light::{Gel, HeadDress};
use scene::Face;
use units::{Duv, FNumber, Iso, Kelvin, MiredShift, PowerFraction, ShutterTime, Stops};

/// The answer to a job.
#[derive(Clone, Debug)]
pub struct Answer {
    /// Camera line.
    pub settings: Settings,
    /// Flash line.
    pub flash: FlashSetting,
    /// Where the flash points and what carries the light.
    pub aim: Aim,
    /// What the light does to the first sitter's face.
    pub key: KeyReading,
    /// The gel on the flash, and how the colours of the picture lie against the balance.
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
    pub moved: Option<Vec3>,
    /// What was insisted on, with what the answer makes of it.
    pub limits: Vec<Limit>,
    /// When something insisted on is missed: by how much, and the smallest changes that would help.
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
    pub notes: Vec<String>,
    /// Cautions where something could hurt.
    pub cautions: Vec<String>,
}

/// Settings of the camera.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Settings {
    /// Aperture.
    pub aperture: FNumber,
    /// Shutter, within sync.
    pub shutter: ShutterTime,
    /// Speed.
    pub iso: Iso,
    /// Neutral density filter on the lens, in stops; 0 is none.
    pub nd: Stops,
    /// White balance.
    pub white_balance: Kelvin,
    /// Green (+) or magenta (−) of the light that the balance makes neutral.
    pub tint: Duv,
}

impl Settings {
    /// The part that exposes: what is left without the balance. A filter on the lens takes from flash and
    /// ambient light alike, as a lower speed would, so it is in the speed here.
    pub fn exposing(&self) -> camera::Settings {
        camera::Settings {
            aperture: self.aperture,
            shutter: self.shutter,
            iso: self.speed(),
        }
    }

    /// The speed that is left behind the filter on the lens.
    pub fn speed(&self) -> Iso {
        Iso::new(self.iso.value() * (-self.nd.value()).exp2()).unwrap_or(self.iso)
    }
}

/// Settings of the flash.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct FlashSetting {
    /// Nearest settable power.
    pub power: PowerFraction,
    /// Exact power in stops below 1/1; negative when the flash falls short.
    pub exact_stops_below_full: f64,
    /// Zoom of the head in millimetres.
    pub zoom_mm: f64,
    /// What sits on the head.
    pub dress: HeadDress,
    /// Stops between the power used and full power; negative when the flash falls short.
    pub in_hand: Stops,
}

/// How the light goes from the flash to the face.
#[derive(Clone, Debug, PartialEq)]
pub enum Route {
    /// Off faces of the room; the second is the other half of a corner.
    Bounce {
        /// The face that carries most of the light.
        face: Face,
        /// The face that carries much of the rest, for an aim into a corner.
        corner_with: Option<Face>,
    },
    /// Off a block of furniture or a board that stands in the place.
    Standing {
        /// Its name.
        name: String,
    },
    /// Off a board held by the assistant.
    HeldBoard {
        /// Position of the board in the bag.
        board: usize,
        /// Its name.
        name: String,
        /// Its centre.
        centre: Vec3,
        /// Unit normal of its front.
        normal: Vec3,
        /// Distance from its centre to the face in metres.
        to_face_m: f64,
    },
    /// Straight at the face.
    Direct,
}

/// Where the flash is, where it points, and the words for it.
#[derive(Clone, Debug)]
pub struct Aim {
    /// The route of the light.
    pub route: Route,
    /// Position of the flash's window in the world.
    pub flash: Vec3,
    /// The point that the middle of the beam meets.
    pub target: Vec3,
    /// Clock hour seen from above, sitter in the middle and camera at 6, from which the light comes.
    pub light_from_clock: f64,
    /// Turn of the head from the line to the sitter, in degrees, positive to the camera's right.
    pub turn_deg: f64,
    /// Tilt of the head above level, in degrees.
    pub tilt_deg: f64,
    /// Path from flash to surface and from surface to face, in metres; the second is zero for direct.
    pub legs_m: [f64; 2],
    /// Whether the head is flagged on the sitter's side, with a black card between it and the face.
    pub flagged: bool,
    /// The third line of the answer, in words.
    pub words: String,
}

/// The gel on the flash, and how the colours of the picture lie against the balance.
#[derive(Clone, Debug)]
pub struct Colouring {
    /// The gel that the flash wears.
    pub gel: Option<GelWorn>,
    /// Zones of the picture against the balance: the lit and the shadow side of the face, the background, and
    /// each light that is there by itself.
    pub zones: Vec<ColourZone>,
    /// The flash and each light that is there.
    pub sources: Vec<SourceColour>,
    /// What was wished of the colour, with what came of it.
    pub limits: Vec<Limit>,
    /// What there is to say of mixed light, in sentences.
    pub told: Vec<String>,
}

impl Colouring {
    /// How far apart the two sides of the face are; `None` when one has no colour temperature.
    pub fn sides_apart(&self) -> Option<MiredShift> {
        let side = |name: &str| self.zones.iter().find(|zone| zone.name == name)?.shift;
        Some((side(LIT_SIDE)? - side(SHADOW_SIDE)?).abs())
    }
}

/// Names of the sides of the face among the zones.
pub(crate) const LIT_SIDE: &str = "face, lit side";
pub(crate) const SHADOW_SIDE: &str = "face, shadow side";

/// A gel on the flash, with what it does there.
#[derive(Clone, Debug)]
pub struct GelWorn {
    /// The gel, or the stack.
    pub gel: Gel,
    /// Shift of the flash's light; `None` for a colour too deep to have a temperature, as below.
    pub shift: Option<MiredShift>,
    /// Change of its Duv, positive greener.
    pub duv: Option<Duv>,
    /// Colour temperature behind the gel.
    pub kelvin: Option<Kelvin>,
    /// Light lost, in stops, positive.
    pub loss: Stops,
}

/// Part of the picture, with its light against the balance.
#[derive(Clone, Debug, PartialEq)]
pub struct ColourZone {
    /// What it is: "face, lit side".
    pub name: String,
    /// Positive is warmer than the balance makes neutral; `None` for a colour without a temperature.
    pub shift: Option<MiredShift>,
    /// Positive is greener than neutral.
    pub duv: Option<Duv>,
}

/// One of the lights that meet at the face.
#[derive(Clone, Debug, PartialEq)]
pub struct SourceColour {
    /// "flash", or the name of the light.
    pub name: String,
    /// Colour temperature as it arrives at the face.
    pub kelvin: Option<Kelvin>,
    /// Duv as it arrives.
    pub duv: Option<Duv>,
    /// Part of the light at the face, dome towards the camera.
    pub share: f64,
}

/// A colour cast against the flash as it leaves the head, its gel included.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Cast {
    /// Shift in mired, positive warmer.
    pub shift: MiredShift,
    /// Green (+) or magenta (−) against the flash.
    pub duv: Duv,
    /// Colour temperature of the light at the face.
    pub kelvin: Kelvin,
}

/// What the flash's light does to a face.
#[derive(Clone, Debug)]
pub struct KeyReading {
    /// Direction weighted by light, from the nose, in degrees; positive is the camera's right.
    pub azimuth_deg: f64,
    /// Height above the eyes, in degrees.
    pub elevation_deg: f64,
    /// Aperture that full power gives at ISO 100, dome towards the camera.
    pub full_power_aperture: f64,
    /// Near cheek against the dome reading, in stops.
    pub near_cheek: Stops,
    /// Far cheek against the dome reading, in stops.
    pub far_cheek: Stops,
    /// Near cheek over far cheek.
    pub ratio: f64,
    /// Eye sockets against the forehead, in stops; below −1 they go dark.
    pub sockets: Stops,
    /// Cast of all the flash's light at the face, later bounces included.
    pub cast: Cast,
    /// Cast of one bounce off the surface that carries the light, by its own colour alone; no cast for
    /// light that comes straight from the head.
    pub first_bounce_cast: Cast,
    /// Width of the lit patch over its distance to the face.
    pub softness: f64,
    /// Direct spill of the head on the face against the bounce, in stops; `None` when there is none.
    pub spill: Option<Stops>,
    /// Every landmark of the first sitter against the dome reading, in stops.
    pub landmarks: Vec<(String, Stops)>,
}

/// How the exposure at the face adds up, in stops from an exact incident reading.
#[derive(Clone, Debug, PartialEq)]
pub struct Exposure {
    /// Flash alone at the power in the flash line.
    pub flash_alone: Stops,
    /// Ambient alone, dome towards the camera; `None` in darkness.
    pub ambient_alone: Option<Stops>,
    /// Each ambient light by name: as metered by the photographer, against the settings.
    pub ambient_as_metered: Vec<(String, Stops)>,
    /// Flash and ambient together.
    pub total: Stops,
    /// Exact power in stops below 1/1 for which the flash alone gives 0.
    pub power_for_flash_alone: f64,
    /// Exact power in stops below 1/1 for which flash and ambient together give 0.
    pub power_for_total: f64,
}

/// What a line of the stops chart is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
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

/// A line of the stops chart.
#[derive(Clone, Debug, PartialEq)]
pub struct ChartLine {
    /// What it is, in the photographer's words.
    pub label: String,
    /// Stops.
    pub stops: f64,
    /// Start, gain, loss or result.
    pub kind: ChartKind,
}

/// How evenly several sitters are lit.
#[derive(Clone, Debug, PartialEq)]
pub struct Evenness {
    /// Brightest minus darkest face, flash alone.
    pub spread: Stops,
    /// Name of the brightest.
    pub brightest: String,
    /// Name of the darkest.
    pub darkest: String,
    /// Each sitter against the first, in stops.
    pub each: Vec<(String, Stops)>,
}

/// How far the first frame may be off, and why.
#[derive(Clone, Debug, PartialEq)]
pub struct Uncertainty {
    /// About nine frames in ten fall within this many stops.
    pub stops: f64,
    /// What it is made of, largest first.
    pub parts: Vec<UncertaintyPart>,
}

/// One guess and what it does to the exposure.
#[derive(Clone, Debug, PartialEq)]
pub struct UncertaintyPart {
    /// The input, in words.
    pub input: String,
    /// What is assumed of it.
    pub spread: String,
    /// One standard deviation of the exposure from it, in stops.
    pub stops: f64,
}

/// Whether a way of lighting serves.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
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

/// One surface, board or the bare flash: its best aim and what is wrong with it.
#[derive(Clone, Debug)]
pub struct SurfaceVerdict {
    /// In the photographer's words.
    pub name: String,
    /// The route.
    pub route: Route,
    /// Whether it serves.
    pub verdict: Verdict,
    /// One line: why, or why not.
    pub why: String,
    /// The point aimed at.
    pub target: Vec3,
    /// Zoom of the head.
    pub zoom_mm: f64,
    /// What it would do to the face; `None` where no light could get there.
    pub key: Option<KeyReading>,
    /// Exact power in stops below 1/1 for flash alone at 0 with the answer's camera settings; negative
    /// when it falls short.
    pub power_for_flash_alone: Option<f64>,
    /// Stops gained on this route by zooming from 50 to 105 mm.
    pub zoom_gain: Option<f64>,
    /// Difference in mired between this light and each ambient light.
    pub against_ambient: Vec<(String, MiredShift)>,
    /// What was lost in the score, in words and points; the sum ranks the ways.
    pub score: Vec<(String, f64)>,
}

/// What the unbiased path tracer says about the chosen aim.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Confirmation {
    /// Referee minus solved room at the face, in stops.
    pub difference: Stops,
    /// Standard error of the referee's own reading, in stops.
    pub standard_error: f64,
    /// Azimuth that the referee finds, in degrees.
    pub azimuth_deg: f64,
    /// Elevation that the referee finds, in degrees.
    pub elevation_deg: f64,
}

/// What the photographer can insist on.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum LimitKind {
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
    /// A zone against normal, in stops.
    Zone,
}

/// Something insisted on.
#[derive(Clone, Debug, PartialEq)]
pub struct Limit {
    /// What it is about.
    pub kind: LimitKind,
    /// In words, with what was asked: "1 stop in hand".
    pub asked: String,
    /// What the answer makes of it, in the unit of the kind.
    pub found: f64,
    /// By how much it is missed, in the unit of the kind; 0 when it is met.
    pub short: f64,
}

impl Limit {
    /// Whether the ask is met.
    pub fn met(&self) -> bool {
        self.short <= 0.0
    }
}

/// An ask that cannot be met as it stands.
#[derive(Clone, Debug)]
pub struct Shortfall {
    /// One sentence: what is short and by how much.
    pub words: String,
    /// The limits that bind, the worst first.
    pub binding: Vec<Limit>,
    /// The smallest changes of each kind that make the ask possible, each solved again; the least first.
    pub changes: Vec<Change>,
    /// When no single change helps: the ones tried, in words.
    pub tried: Vec<String>,
}

/// One change to the ask, the bag or the place.
#[derive(Clone, Debug)]
pub struct Change {
    /// What to do: "raise the ISO to 800".
    pub what: String,
    /// How large the change is, in `unit`.
    pub amount: f64,
    /// Unit of the amount: "stops", "m", "mired", "degrees", "helpers".
    pub unit: &'static str,
    /// How much it asks of the photographer and the picture, in points like those of the score (ours).
    pub effort: f64,
    /// What it costs the look, in words.
    pub cost: String,
    /// The answer that it leads to, in one line.
    pub then: String,
    /// The job with the change made.
    pub job: Box<crate::Job>,
}

/// Another answer that is truly different.
#[derive(Clone, Debug)]
pub struct Alternative {
    /// What it would be called: the surface, the board, the bare flash.
    pub name: String,
    /// Where the flash points.
    pub aim: Aim,
    /// Camera line.
    pub settings: Settings,
    /// Flash line.
    pub flash: FlashSetting,
    /// What the light does to the first sitter's face.
    pub key: KeyReading,
    /// Points against the ask; the answer's own are the sum of its verdict's score.
    pub points: f64,
    /// The one reason to prefer it to the answer.
    pub prefer: String,
}

/// How the answer moves when one thing is different.
#[derive(Clone, Debug, PartialEq)]
pub struct Sensitivity {
    /// The difference: "left wall a third darker".
    pub what: String,
    /// Change of the exposure at the face with everything else left as it is.
    pub exposure: Stops,
    /// Change of the key's angle from the nose, in degrees.
    pub azimuth_deg: f64,
    /// Change of the key's height, in degrees.
    pub elevation_deg: f64,
    /// Change of the cast.
    pub cast: MiredShift,
}

/// Every aim at the room's surfaces from one place of the flash.
#[derive(Clone, Debug)]
pub struct RoomMap {
    /// The place of the flash.
    pub flash: Vec3,
    /// Size of the room in metres.
    pub room: Vec3,
    /// The cells, face by face.
    pub cells: Vec<MapCell>,
}

/// The best that can be made of aiming at one piece of a face of the room.
#[derive(Clone, Debug)]
pub struct MapCell {
    /// The face.
    pub face: Face,
    /// Lower corner along the face's two edges, in metres ([`scene::BoxRoom::face_frame`]).
    pub from: Vec2,
    /// Extent along the two edges, in metres.
    pub size: Vec2,
    /// Its middle in the world: the point aimed at.
    pub target: Vec3,
    /// Angle of all the flash's light from the nose, in degrees; positive is the camera's right.
    pub azimuth_deg: f64,
    /// Height of all the flash's light above the eyes, in degrees.
    pub elevation_deg: f64,
    /// Zoom of the head that does best there, in millimetres.
    pub zoom_mm: f64,
    /// Points against the ask: 0 is what was asked for, above about 2.5 the look is spoilt.
    pub points: f64,
    /// Whether it serves.
    pub verdict: Verdict,
    /// Why, or why not, in one line.
    pub why: String,
}
