//! A shoot as the auditor holds it: what a file says, in numbers, and the file.

use std::fmt::{Display, Write};

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
    pub size: &'static str,
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

    /// The file.
    pub fn text(&self) -> String {
        let mut file = File::default();
        file.line("shoot", quoted(&self.title));
        self.room.write(&mut file);
        if let Some(sky) = &self.sky {
            sky.write(&mut file);
        }
        self.write_camera(&mut file);
        for sitter in &self.sitters {
            sitter.write(&mut file);
        }
        self.bag.write(&mut file);
        for light in &self.lights {
            light.write(&mut file);
        }
        for zone in &self.zones {
            file.part("[[zone]]");
            file.line("name", quoted(zone.name));
            file.line("reading", format!("\"EV {}\"", zone.ev));
        }
        self.write_ask(&mut file);
        file.0
    }

    fn write_camera(&self, file: &mut File) {
        let camera = &self.camera;
        file.part("[camera]");
        file.at(camera.at);
        file.line("lens", format!("\"{} mm\"", camera.lens_mm));
        file.line("sync", quoted(camera.sync));
        file.line("iso", format!("\"{} to {}\"", camera.iso[0], camera.iso[1]));
        file.line("widest", quoted(APERTURES[camera.widest]));
        if camera.on_first_face {
            file.line("aim", inline(self.face(0)));
        }
    }

    fn write_ask(&self, file: &mut File) {
        let ask = &self.ask;
        file.part("[ask]");
        file.perhaps("aperture", ask.aperture.map(|third| quoted(APERTURES[third])));
        file.perhaps("shutter", ask.shutter.map(quoted));
        file.perhaps("iso", ask.iso.map(|iso| format!("\"ISO {iso}\"")));
        file.perhaps(
            "ambient",
            ask.ambient.map(|wish| match wish {
                AmbientWish::Out => quoted("out"),
                AmbientWish::At(level) => signed_stops(level),
            }),
        );
        if let (Some(zone), Some(level)) = (self.zones.first(), ask.zone) {
            let (name, at) = (quoted(zone.name), signed_stops(level));
            file.line("zone", format!("{{ name = {name}, at = {at} }}"));
        }
        let from = quoted(ask.side.unwrap_or("either"));
        match ask.key {
            Key::Pattern(name) => {
                file.line("key", quoted(name));
                file.line("from", from);
            }
            Key::Angles {
                azimuth,
                elevation,
                tolerance,
            } => file.line(
                "key",
                format!(
                    "{{ from = {from}, azimuth = \"{azimuth} deg\", elevation = \"{elevation} deg\", \
                     tolerance = \"{tolerance} deg\" }}"
                ),
            ),
        }
        file.line("softness", quoted(ask.softness));
        file.perhaps("ratio", ask.ratio.map(|ratio| format!("\"{ratio}:1\"")));
        file.line(
            "skin",
            match ask.skin {
                Skin::Neutral => quoted("neutral"),
                Skin::Within(mired) => format!("\"within {mired} mired\""),
                Skin::Any => quoted("any"),
            },
        );
        file.perhaps("evenness", ask.evenness.map(|stops| format!("\"{stops} stops\"")));
        file.perhaps("background", ask.background.map(signed_stops));
        file.line("in_hand", format!("\"{} stops\"", ask.in_hand));
        file.perhaps("recycle", ask.recycle_s.map(|seconds| format!("\"{seconds} s\"")));
        file.perhaps(
            "white_balance",
            ask.white_balance.map(|kelvin| format!("\"{kelvin} K\"")),
        );
        file.perhaps("colour", ask.colour.map(quoted));
        file.perhaps("gel", ask.gel.map(quoted));
        match ask.flash {
            FlashPlace::OnCamera => {}
            FlashPlace::At(point) => file.line("flash", inline(point)),
            FlashPlace::Anywhere => file.line("flash", quoted("anywhere")),
        }
        file.perhaps(
            "sitter_may_move",
            ask.may_move_m.map(|far| format!("\"{far} m\"")),
        );
    }
}

impl Room {
    fn write(&self, file: &mut File) {
        let [width, length, height] = self.size;
        file.part("[place]");
        file.line("room", format!("\"{length} x {width} x {height} m\""));
        for (face, surface) in FACES.iter().zip(self.surfaces) {
            file.line(face, quoted(surface));
        }
        if let Some(window) = &self.window {
            let [wide, high] = window.size;
            file.part("[[place.opening]]");
            file.line("name", quoted("window"));
            file.line("wall", quoted(&window.wall.replace('_', " ")));
            file.line("from_left_end", metres(window.from_left_end));
            file.line("from_floor", metres(window.from_floor));
            file.line("size", format!("\"{wide} x {high} m\""));
            file.line("kind", quoted(window.kind));
        }
        if let Some(block) = &self.furniture {
            let [wide, deep, high] = block.size;
            file.part("[[place.furniture]]");
            file.line("name", quoted(block.name));
            file.line("size", format!("\"{wide} x {deep} x {high} m\""));
            file.line("from_left", metres(block.corner[0]));
            file.line("from_behind", metres(block.corner[1]));
            file.line("surface", quoted(block.surface));
        }
    }
}

impl Sky {
    fn write(&self, file: &mut File) {
        file.part("[sky]");
        file.line("latitude", quoted("52.1 N"));
        file.line("longitude", quoted("5.1 E"));
        file.line("date", quoted("2026-09-12"));
        file.line("time", quoted(&self.time));
        file.line("camera_looks", quoted(self.looks));
        file.line("weather", quoted(self.weather));
        file.line("ground", quoted(self.ground));
    }
}

impl Sitter {
    fn write(&self, file: &mut File) {
        file.part("[[sitter]]");
        file.line("name", quoted(self.name));
        file.line("from_left", metres(self.stand[0]));
        file.line("from_behind", metres(self.stand[1]));
        file.line("face_height", metres(self.face_height));
        file.perhaps("faces", self.faces.map(quoted));
        file.line("figure", quoted(self.figure));
        file.line("age", self.age);
        file.line("skin", quoted(self.skin));
        file.perhaps("cap", self.cap.map(quoted));
    }
}

impl Bag {
    fn write(&self, file: &mut File) {
        file.part("[bag]");
        file.line("helpers", self.helpers);
        file.line("stand", self.stand);
        if !self.gels.is_empty() {
            file.line("gels", list(self.gels.iter().map(|gel| quoted(gel))));
            file.line("gel_family", quoted(self.gel_family));
        }
        if !self.nd.is_empty() {
            file.line(
                "nd",
                list(self.nd.iter().map(|stops| format!("\"{stops} stops\""))),
            );
        }
        file.part("[bag.flash]");
        match self.flash {
            FlashKind::Named(kind) => file.line("kind", quoted(kind)),
            FlashKind::GuideNumbers(numbers) => {
                file.line("guide_numbers", list(numbers.iter().map(|number| quoted(number))));
            }
        }
        file.line("least_power", format!("\"1/{}\"", 1u32 << self.least_power));
        file.line("recycle", format!("\"{} s\"", self.recycle_s));
        file.line("dome", self.dome);
        file.line("bounce_card", self.bounce_card);
        file.perhaps("umbrella", self.umbrella.map(quoted));
        file.perhaps("softbox", self.softbox.map(quoted));
        if let Some(board) = &self.board {
            file.part("[[bag.board]]");
            file.line("name", quoted(board.name));
            file.line("size", quoted(board.size));
            file.line("surface", quoted(board.surface));
        }
    }
}

impl Light {
    fn write(&self, file: &mut File) {
        file.part("[[ambient]]");
        file.line("name", quoted(self.name));
        match self.level {
            Level::Ev(ev) => file.line("reading", format!("\"EV {ev}\"")),
            Level::Lumen(lumen) => file.line("lumen", lumen),
        }
        file.line("colour", format!("\"{} K\"", self.kelvin));
        match &self.from {
            Some(from) if from.starts_with('{') => file.line("from", from),
            from => file.perhaps("from", from.as_deref().map(quoted)),
        }
    }
}

/// A file while it is written.
#[derive(Default)]
struct File(String);

impl File {
    fn part(&mut self, heading: &str) {
        self.0 += &format!("\n{heading}\n");
    }

    fn line(&mut self, key: &str, value: impl Display) {
        writeln!(self.0, "{key} = {value}").expect("a text takes every line");
    }

    fn perhaps(&mut self, key: &str, value: Option<String>) {
        if let Some(value) = value {
            self.line(key, value);
        }
    }

    fn at(&mut self, [left, behind, height]: Point) {
        self.line("from_left", metres(left));
        self.line("from_behind", metres(behind));
        self.line("height", metres(height));
    }
}

fn quoted(text: &str) -> String {
    format!("\"{text}\"")
}

fn metres(value: f64) -> String {
    format!("\"{value:.4} m\"")
}

fn signed_stops(value: f64) -> String {
    format!("\"{value:+.3} stops\"")
}

fn list(items: impl Iterator<Item = String>) -> String {
    format!("[{}]", items.collect::<Vec<_>>().join(", "))
}

/// A point in one line.
pub fn inline([left, behind, height]: Point) -> String {
    let (left, behind, height) = (metres(left), metres(behind), metres(height));
    format!("{{ from_left = {left}, from_behind = {behind}, height = {height} }}")
}
