//! Trials of the whole solver on rooms and asks made at random: is anything better overlooked, does a no
//! help, and is the truth as often within the error bars as they say?
//!
//! They are tests of the inside, because they must judge by the solver's own documented score.

mod brute_force;
mod coverage;
pub(crate) mod made_up;
mod placement;
mod useful_no;

use answer::{AmbientWish, Ask, Bag, Board, CameraBody, FlashStand, GelWish, Job, KeyWish, Side, Softness};
use colour::{person, surfaces};
use glam::{Vec2, Vec3};
use light::{FlashUnit, GelFamily, HeadDress};
use rand_pcg::Pcg32;
use rand_pcg::rand_core::Rng as _;
use scene::figure::{FigureRecipe, KeptFigure};
use scene::{BoxRoom, Face, Material, Place, Sitter, SitterColours, Viewpoint};
use units::{FNumber, Iso, MiredShift, Stops};

/// Rooms of every trial.
pub(crate) const ROOMS: usize = 10;

/// Random numbers fixed by a seed.
pub(crate) struct Dice(Pcg32);

impl Dice {
    pub fn new(seed: u64) -> Self {
        Dice(Pcg32::new(0x5eed_0000 + seed, 11 + 2 * seed))
    }

    pub fn unit(&mut self) -> f64 {
        f64::from(self.0.next_u32() >> 8) / 16_777_216.0
    }

    pub fn within(&mut self, low: f64, high: f64) -> f64 {
        low + (high - low) * self.unit()
    }

    pub fn pick<T: Copy>(&mut self, from: &[T]) -> T {
        from[((self.unit() * from.len() as f64) as usize).min(from.len() - 1)]
    }

    /// A normal number of mean 0 and standard deviation 1 (Box & Muller 1958).
    pub fn normal(&mut self) -> f64 {
        let (u, v) = (self.unit().max(1e-9), self.unit());
        (-2.0 * u.ln()).sqrt() * (std::f64::consts::TAU * v).cos()
    }
}

/// A room with one sitter, a camera with the flash on it, and nothing asked yet but f/4, ISO 400.
pub(crate) fn random_job(room: usize) -> Job {
    let mut dice = Dice::new(room as u64);
    let size = Vec3::new(
        dice.within(3.2, 6.5) as f32,
        dice.within(4.4, 8.0) as f32,
        dice.within(2.35, 3.6) as f32,
    );
    let walls = [
        "white paint",
        "white paint",
        "cream",
        "pale yellow",
        "mint",
        "pale blue",
        "red wall",
        "brick",
        "plaster",
        "light grey",
        "bookshelf",
        "dark wood",
    ];
    let mut faces = BoxRoom::uniform(size.into(), surface("oak"));
    for face in [Face::Left, Face::Right, Face::BehindCamera, Face::BehindSitter] {
        faces.materials[face.index()] = surface(dice.pick(&walls));
    }
    faces.materials[Face::Ceiling.index()] =
        surface(dice.pick(&["white paint", "white paint", "pine", "plaster"]));
    faces.materials[Face::Floor.index()] = surface(dice.pick(&["oak", "carpet grey", "linoleum"]));
    let stand = Vec3::new(
        size.x * dice.within(0.35, 0.65) as f32,
        size.y * dice.within(0.62, 0.74) as f32,
        0.0,
    );
    let camera = Vec3::new(
        stand.x + dice.within(-0.3, 0.3) as f32,
        (stand.y - dice.within(1.6, 2.4) as f32).max(0.5),
        1.6,
    );
    let sitter = sitter(
        "sitter",
        stand,
        dice.within(-0.35, 0.35) as f32,
        dice.within(1.2, 1.7) as f32,
    );
    let look_at = sitter.face();
    Job {
        title: format!("trial {room}"),
        place: Place::new(faces),
        sitters: vec![sitter],
        viewpoint: Viewpoint {
            position: camera,
            look_at,
            focal_mm: 70.0,
            landscape: false,
        },
        body: CameraBody {
            sync: "1/200".parse().unwrap(),
            least_iso: Iso::new(100.0).unwrap(),
            most_iso: Iso::new(3200.0).unwrap(),
            widest: "f/1.8".parse().unwrap(),
        },
        bag: Bag {
            flash: FlashUnit::medium(),
            nd: Vec::new(),
            dresses: vec![HeadDress::Bare],
            boards: Vec::new(),
            helpers: 0,
            stand: false,
            gels: Vec::new(),
            gel_family: GelFamily::Straw,
        },
        ambients: Vec::new(),
        outdoors: None,
        zones: Vec::new(),
        later: Vec::new(),
        ask: plain_ask(),
    }
}

/// f/4, ISO 400, a loop from either side, soft, neutral, a stop in hand.
pub(crate) fn plain_ask() -> Ask {
    Ask {
        aperture: Some(FNumber::new(4.0).unwrap()),
        apertures: None,
        depth: None,
        shutter: None,
        iso: Some(Iso::new(400.0).unwrap()),
        ambient: AmbientWish::Any,
        zones: Vec::new(),
        key: KeyWish {
            side: None,
            azimuth_deg: 40.0,
            elevation_deg: 28.0,
            azimuth_tolerance_deg: 20.0,
        },
        softness: Softness::Soft,
        neutral_skin: true,
        cast_limit: MiredShift(40.0),
        ratio: None,
        evenness: None,
        background: None,
        fill: None,
        in_hand: Stops(1.0),
        recycle_s: None,
        may_move_m: 0.0,
        white_balance: None,
        tint: None,
        colour: None,
        gel: GelWish::Any,
        stand: FlashStand::OnCamera,
        musts: Vec::new(),
    }
}

/// An ask at random: direction, side, softness, ratio, aperture, stops in hand, background.
pub(crate) fn random_ask(dice: &mut Dice) -> Ask {
    let mut ask = plain_ask();
    ask.key = KeyWish {
        side: dice.pick(&[None, Some(Side::Left), Some(Side::Right)]),
        azimuth_deg: dice.within(5.0, 85.0),
        elevation_deg: dice.within(10.0, 50.0),
        azimuth_tolerance_deg: dice.within(10.0, 20.0),
    };
    ask.softness = dice.pick(&[Softness::Soft, Softness::Soft, Softness::Any]);
    ask.neutral_skin = dice.unit() < 0.7;
    ask.aperture = FNumber::new(dice.pick(&[2.8, 4.0, 5.6])).ok();
    ask.in_hand = Stops(dice.pick(&[0.0, 1.0, 2.0]));
    if dice.unit() < 0.3 {
        ask.ratio = format!("{:.0}:1", dice.within(2.0, 6.0)).parse().ok();
    }
    if dice.unit() < 0.3 {
        ask.background = Some(Stops(dice.within(-2.0, 0.0)));
    }
    ask
}

/// A white board of 0.7 × 1.0 m.
pub(crate) fn white_board() -> Board {
    Board {
        name: "white board".to_owned(),
        size: Vec2::new(0.7, 1.0),
        material: surface("white card"),
    }
}

pub(crate) fn surface(name: &str) -> Material {
    Material::matt(name, *surfaces::named(name).unwrap().spectrum())
}

pub(crate) fn sitter(name: &str, stand: Vec3, facing: f32, face_height: f32) -> Sitter {
    let skin = colour::SkinTone::Light;
    Sitter {
        name: name.to_owned(),
        stand,
        face_height,
        facing,
        recipe: FigureRecipe::default(),
        colours: SitterColours {
            skin: *skin.reflectance().spectrum(),
            lips: *person::lips(skin).spectrum(),
            hair: *person::HairTone::Brown.reflectance().spectrum(),
            iris: *person::IrisTone::Blue.reflectance().spectrum(),
            top: *person::ClothTone::Burgundy.reflectance().spectrum(),
            trousers: *person::ClothTone::Charcoal.reflectance().spectrum(),
            cap: *person::ClothTone::Navy.reflectance().spectrum(),
        },
        figure: KeptFigure::default(),
    }
}
