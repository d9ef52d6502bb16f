//! The parts of an answer as the auditor holds them.

use crate::shoot::Point;

/// The camera line.
#[derive(Clone, Copy, Debug)]
pub struct Camera {
    pub f_number: f64,
    pub shutter_s: f64,
    pub iso: f64,
    pub nd: f64,
    pub kelvin: f64,
    pub tint_duv: f64,
}

impl Camera {
    /// The light for which these settings are right, as an exposure value at ISO 100.
    pub fn ev(&self) -> f64 {
        2.0 * self.f_number.log2() - self.shutter_s.log2() - (self.iso / 100.0).log2() + self.nd
    }
}

/// The flash line.
#[derive(Clone, Debug)]
pub struct Flash {
    /// As set.
    pub below_full: f64,
    /// Before it was rounded to what can be set; negative where full power is too little.
    pub exact: f64,
    pub zoom_mm: f64,
    pub dress: String,
    pub in_hand: f64,
}

/// Where the flash is and where it points.
#[derive(Clone, Debug)]
pub struct Aim {
    pub flash: Point,
    pub target: Point,
    pub above_eyes: f64,
    pub clock: f64,
    pub turn_deg: f64,
    pub tilt_deg: f64,
    pub legs: [f64; 2],
    pub flagged: bool,
    pub route: Route,
}

/// By what the light goes.
#[derive(Clone, Debug)]
pub enum Route {
    /// Positions in [`FACES`].
    Bounce {
        face: usize,
        corner_with: Option<usize>,
    },
    Standing {
        name: String,
    },
    HeldBoard {
        name: String,
        normal: Point,
        to_face: f64,
    },
    Open,
    Direct,
}

/// A reading of the light on the first face.
#[derive(Clone, Debug)]
pub struct Reading {
    pub azimuth: f64,
    pub elevation: f64,
    pub full_power_f_number: f64,
    pub near_cheek: f64,
    pub far_cheek: f64,
    pub ratio: f64,
    pub sockets: f64,
    pub lit_socket: f64,
    pub cast_mired: f64,
    pub softness: f64,
    /// The lit part of the skin that is seen, NaN where hardly any is.
    pub lit_skin: f64,
    pub landmarks: Vec<(String, f64)>,
}

impl Reading {
    /// The level at a landmark against the dome reading.
    pub fn at(&self, name: &str) -> f64 {
        let known = self.landmarks.iter().find(|mark| mark.0 == name);
        known.map_or(f64::NAN, |mark| mark.1)
    }
}

/// How a wish came out.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum State {
    Kept,
    Nearly,
    Missed,
}

/// What a wish is about. Where one amount belongs to it, `asked` of the [`Wish`] is that amount.
#[derive(Clone, Debug, PartialEq)]
pub enum About {
    Exposed,
    InHand,
    Recycle,
    SkinCast,
    SkinGreen,
    /// With the side, if it matters, and the tolerance in degrees.
    Direction(Option<String>, f64),
    Height,
    /// Whether the eye on the lit side decides.
    OpenEyes(bool),
    Soft,
    Hard,
    Ratio,
    Evenness,
    Background,
    AmbientOut,
    AmbientAt,
    FlashUnder,
    Zone(String),
    SkinColour,
    RoomColour,
    /// A wish that the auditor does not know.
    Other(String),
}

/// One thing that was asked, with what came of it.
#[derive(Clone, Debug)]
pub struct Wish {
    pub about: About,
    pub asked: f64,
    /// In the unit of what was asked.
    pub found: f64,
    /// How far that is from what was asked; of a ratio in stops, of an edge in doublings of the width.
    pub off: f64,
    /// How far off is still kept.
    pub tolerance: f64,
    pub points: f64,
    pub state: State,
    pub must: bool,
}

/// A line of the stops chart.
#[derive(Clone, Debug)]
pub struct ChartLine {
    pub item: String,
    pub kind: String,
    pub stops: f64,
}

/// How several faces are lit.
#[derive(Clone, Debug)]
pub struct Faces {
    /// Brightest minus darkest.
    pub spread: f64,
    pub brightest: String,
    pub darkest: String,
    /// Every face with its level against the first.
    pub each: Vec<(String, f64)>,
}

/// What the program tells to do or to know, where it tells a number or a state that stands elsewhere too.
#[derive(Clone, Debug)]
pub enum Note {
    FallsShort(f64),
    LeastPowerTooMuch(f64),
    ThereTooMuch(f64),
    LittleInHand { left: f64, fewer: f64 },
    NearFullPower { wait_s: f64, iso: f64 },
    SlowForAPerson(f64),
    FilterTakesBoth(f64),
    AmbientStays(f64),
    GelWorn(String),
    FlagHead(f64),
    SpillStaysUnder(f64),
    SpillMissesFace(f64),
    DeepSetEyes,
    Other,
}

/// What the program warns of.
#[derive(Clone, Debug)]
pub enum Caution {
    Dazzles { metres: f64, keep_m: f64 },
    HotFlash,
    Other,
}

/// A way that was considered.
#[derive(Clone, Debug)]
pub struct Considered {
    pub way: String,
    pub chosen: bool,
    /// The sum of its faults.
    pub points: f64,
    pub reading: Option<Reading>,
    /// Against the answer's light; NaN where the program leaves it out.
    pub against_answer: f64,
}

/// Another answer.
#[derive(Clone, Debug)]
pub struct Alternative {
    pub way: String,
    pub camera: Camera,
    pub flash: Flash,
    pub aim: Aim,
    pub reading: Reading,
    pub prefer: Prefer,
}

/// The one reason to prefer another answer.
#[derive(Clone, Copy, Debug)]
pub enum Prefer {
    /// So many stops more.
    MoreInHand(f64),
    /// So many times as wide.
    Softer(f64),
    /// So many mired less.
    CleanerSkin(f64),
    /// Its ratio, and the answer's.
    Ratio(f64, f64),
    /// By so many degrees.
    NearerAngle(f64),
    /// A reason without a number.
    Plain,
}

/// A change of a shoot.
#[derive(Clone, Debug)]
pub enum Change {
    Speed(f64),
    AllowSpeeds(f64),
    Aperture(f64),
    KeepInHand(f64),
    WaitLonger(f64),
    DimAmbient(f64),
    AllowCast(f64),
    AnySkin,
    AllowAngle(f64),
    OtherSide,
    KeyHeight(f64),
    AnySoftness,
    Ratio(f64),
    FacesDiffer(f64),
    Background(f64),
    HoldBoard,
    /// Whether a stand is brought along.
    FlashOffCamera(bool),
    /// A filter of so many stops.
    BringFilter(f64),
    BringUmbrella,
    /// A white card of this width and height, and a helper.
    BringCard([f64; 2]),
    /// Two changes, one after the other.
    Both(Box<[Change; 2]>),
    /// To the camera's right, away from it, up.
    MoveSitters(Point),
    /// A change that the auditor does not know.
    Other(String),
}

/// A change that is offered, and where it leads.
#[derive(Clone, Debug)]
pub struct Offer {
    pub change: Change,
    pub then: Then,
}

/// Where a change leads, and, of any answer, the same few things.
#[derive(Clone, Debug)]
pub struct Then {
    pub way: String,
    pub camera: Camera,
    pub below_full: f64,
    pub zoom_mm: f64,
    pub in_hand: f64,
}
