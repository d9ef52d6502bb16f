//! A shoot as the auditor holds it: what a file says, in numbers.

/// A place: to the camera's right, away from the wall behind the camera, up; in metres.
pub type Point = [f64; 3];

/// The six faces of a place by their names in the file.
pub const FACES: [&str; 6] = [
    "left",
    "right",
    "behind_camera",
    "behind_sitter",
    "ceiling",
    "floor",
];

/// One shoot.
#[derive(Clone, Debug)]
pub struct Shoot {
    pub title: String,
    pub room: Room,
    pub sky: Option<Sky>,
    pub camera: Camera,
    /// The first is the one that is metered.
    pub sitters: Vec<Sitter>,
    pub bag: Bag,
    pub lights: Vec<Light>,
    pub zones: Vec<Zone>,
    pub ask: Ask,
}

#[derive(Clone, Debug)]
pub struct Room {
    /// Width, length and height.
    pub size: Point,
    /// The surface of each of [`FACES`].
    pub surfaces: [&'static str; 6],
    pub window: Option<Window>,
    pub furniture: Option<Block>,
}

#[derive(Clone, Debug)]
pub struct Window {
    pub wall: &'static str,
    pub from_left_end: f64,
    pub from_floor: f64,
    pub size: [f64; 2],
    pub kind: &'static str,
}

/// Furniture: a box by its nearest corner on the floor.
#[derive(Clone, Debug)]
pub struct Block {
    pub name: &'static str,
    pub corner: [f64; 2],
    /// Width, depth and height.
    pub size: Point,
    pub surface: &'static str,
}

#[derive(Clone, Debug)]
pub struct Sky {
    pub time: String,
    pub looks: &'static str,
    pub weather: &'static str,
    pub ground: &'static str,
}

#[derive(Clone, Debug)]
pub struct Camera {
    pub at: Point,
    pub lens_mm: f64,
    pub sync: &'static str,
    /// The lowest and the highest speed.
    pub iso: [f64; 2],
    /// Position in [`APERTURES`].
    pub widest: usize,
    /// Looks at the first face, and not at the middle of all.
    pub on_first_face: bool,
}

#[derive(Clone, Debug)]
pub struct Sitter {
    pub name: &'static str,
    /// Of the middle of the head.
    pub stand: [f64; 2],
    pub face_height: f64,
    pub faces: Option<&'static str>,
    pub figure: &'static str,
    pub age: f64,
    pub skin: &'static str,
    pub cap: Option<&'static str>,
}

#[derive(Clone, Debug)]
pub struct Bag {
    /// A kind, or guide numbers.
    pub flash: FlashKind,
    /// Stops of the least power below full.
    pub least_power: u32,
    pub recycle_s: f64,
    pub dome: bool,
    pub bounce_card: bool,
    pub umbrella: Option<&'static str>,
    pub softbox: Option<&'static str>,
    pub board: Option<Board>,
    pub gels: Vec<&'static str>,
    pub gel_family: &'static str,
    pub nd: Vec<f64>,
    pub helpers: u32,
    pub stand: bool,
}

#[derive(Clone, Debug)]
pub enum FlashKind {
    Named(&'static str),
    GuideNumbers(&'static [&'static str]),
}

#[derive(Clone, Debug)]
pub struct Board {
    pub name: &'static str,
    pub size: String,
    pub surface: &'static str,
}

/// A light that is there.
#[derive(Clone, Debug)]
pub struct Light {
    pub name: &'static str,
    pub level: Level,
    pub kelvin: f64,
    pub from: Option<String>,
}

#[derive(Clone, Copy, Debug)]
pub enum Level {
    /// Exposure value at the first face, dome towards the camera.
    Ev(f64),
    Lumen(f64),
}

#[derive(Clone, Debug)]
pub struct Zone {
    pub name: &'static str,
    pub ev: f64,
}

#[derive(Clone, Debug)]
pub struct Ask {
    /// Position in [`APERTURES`].
    pub aperture: Option<usize>,
    pub shutter: Option<&'static str>,
    pub iso: Option<f64>,
    pub ambient: Option<AmbientWish>,
    /// How far the flash stays under the light that is there.
    pub fill: Option<f64>,
    /// Level of the first zone.
    pub zone: Option<f64>,
    pub key: Key,
    pub side: Option<&'static str>,
    pub softness: &'static str,
    pub ratio: Option<f64>,
    pub skin: Skin,
    pub evenness: Option<f64>,
    pub background: Option<f64>,
    pub in_hand: f64,
    pub recycle_s: Option<f64>,
    pub white_balance: Option<f64>,
    pub colour: Option<&'static str>,
    pub gel: Option<&'static str>,
    pub flash: FlashPlace,
    pub may_move_m: Option<f64>,
}

#[derive(Clone, Copy, Debug, PartialEq)]
pub enum AmbientWish {
    Out,
    At(f64),
}

/// Where the key should come from.
#[derive(Clone, Copy, Debug)]
pub enum Key {
    Pattern(&'static str),
    Angles {
        azimuth: f64,
        elevation: f64,
        tolerance: f64,
    },
}

/// The patterns: from and to beside the nose, from and to above the eyes, in degrees (SHOOT_FILE.md).
const PATTERNS: [(&str, [f64; 2], [f64; 2]); 6] = [
    ("flat", [0.0, 15.0], [0.0, 20.0]),
    ("butterfly", [0.0, 10.0], [25.0, 50.0]),
    ("loop", [25.0, 45.0], [20.0, 45.0]),
    ("Rembrandt", [45.0, 65.0], [35.0, 55.0]),
    ("side", [30.0, 60.0], [15.0, 20.0]),
    ("split", [80.0, 100.0], [0.0, 30.0]),
];

impl Key {
    /// Azimuth, tolerance and elevation in degrees: of a pattern the middles of what SHOOT_FILE.md says.
    pub fn angles(self) -> [f64; 3] {
        let middle = |range: [f64; 2]| 0.5 * (range[0] + range[1]);
        match self {
            Key::Angles {
                azimuth,
                elevation,
                tolerance,
            } => [azimuth, tolerance, elevation],
            Key::Pattern(name) => {
                let known = PATTERNS.iter().find(|pattern| pattern.0 == name);
                let (_, beside, above) = known.expect("only patterns of the table are drawn");
                [middle(*beside), 0.5 * (beside[1] - beside[0]), middle(*above)]
            }
        }
    }
}

#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Skin {
    Neutral,
    Within(f64),
    Any,
}

#[derive(Clone, Copy, Debug, PartialEq)]
pub enum FlashPlace {
    OnCamera,
    At(Point),
    Anywhere,
}

/// Apertures as engraved, in thirds from f/1.
pub const APERTURES: [&str; 28] = [
    "f/1", "f/1.1", "f/1.2", "f/1.4", "f/1.6", "f/1.8", "f/2", "f/2.2", "f/2.5", "f/2.8", "f/3.2", "f/3.5",
    "f/4", "f/4.5", "f/5", "f/5.6", "f/6.3", "f/7.1", "f/8", "f/9", "f/10", "f/11", "f/13", "f/14", "f/16",
    "f/18", "f/20", "f/22",
];

/// The exact f-number of an engraved one: thirds of a stop from f/1.
pub fn f_number(third: usize) -> f64 {
    (third as f64 / 6.0).exp2()
}

/// The engraved aperture that is nearest to an f-number.
pub fn nearest_aperture(number: f64) -> usize {
    let third = (6.0 * number.log2()).round().max(0.0) as usize;
    third.min(APERTURES.len() - 1)
}

impl Shoot {
    /// Between the eyes of a sitter, at the middle of the head.
    pub fn face(&self, sitter: usize) -> Point {
        let sitter = &self.sitters[sitter];
        [sitter.stand[0], sitter.stand[1], sitter.face_height]
    }
}
