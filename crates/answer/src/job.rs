//! What is asked: place, people, bag, the light that is there, and the look that is wanted.

use crate::{DaylightHere, MeterFacing, Side, WishKind};
use colour::LightColour;
use glam::{Vec2, Vec3};
use light::{FlashUnit, Gel, GelFamily, HeadDress, LampFacing};
use scene::{Material, Place, Sitter, Viewpoint};
use schemars::JsonSchema;
use serde::Serialize;
use units::{Duv, Ev, FNumber, Iso, Kelvin, Metres, MiredShift, Ratio, ShutterTime, Stops};

/// A flash whose window is within this of the lens sits on the camera, in metres: a head on the shoe reaches no further,
/// however it is turned (ours).
const ON_CAMERA_M: f32 = 0.35;

/// One set-up to be answered.
#[derive(Clone, Debug)]
pub struct Job {
    /// What the photographer calls it.
    pub title: String,
    /// The place.
    pub place: Place,
    /// The people; the first is the one that is metered.
    pub sitters: Vec<Sitter>,
    /// Camera position and lens.
    pub viewpoint: Viewpoint,
    /// Limits of the camera body.
    pub body: CameraBody,
    /// What can be used.
    pub bag: Bag,
    /// Light that is there without the flash.
    pub ambients: Vec<Ambient>,
    /// Daylight, where the place and the time are known; it comes in by the openings of the place.
    pub outdoors: Option<DaylightHere>,
    /// Pieces of the picture that were read through the camera, such as the sky.
    pub zones: Vec<Zone>,
    /// Times at which the light will be another, in the order of the file.
    pub later: Vec<Later>,
    /// The wish.
    pub ask: Ask,
}

impl Job {
    /// Whether a flash that is here sits on the camera.
    pub fn is_on_camera(&self, flash: Vec3) -> bool {
        flash.distance(self.viewpoint.position) < ON_CAMERA_M
    }

    /// Moves everyone, and what the camera looks at, by a step in the place. They look where they looked as the camera sees it:
    /// somebody who looked into it still does.
    pub fn move_everyone(&mut self, by: Vec3) {
        let camera = self.viewpoint.position;
        // The angle that a face has when it looks into the camera.
        let into_camera = |stand: Vec3| {
            let to_camera = camera - stand;
            to_camera.x.atan2(-to_camera.y)
        };
        for sitter in &mut self.sitters {
            let before = into_camera(sitter.stand);
            sitter.stand += by;
            sitter.facing += into_camera(sitter.stand) - before;
        }
        self.viewpoint.look_at += by;
    }
}

/// Limits of the camera body.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct CameraBody {
    /// Fastest shutter with a clean flash frame.
    pub sync: ShutterTime,
    /// Lowest speed.
    pub least_iso: Iso,
    /// Highest speed that the photographer will use.
    pub most_iso: Iso,
    /// Widest aperture of the lens.
    pub widest: FNumber,
}

/// What the photographer owns and who can help.
#[derive(Clone, Debug)]
pub struct Bag {
    /// The one flash.
    pub flash: FlashUnit,
    /// Neutral density filters for the lens, each in stops; one is used at a time.
    pub nd: Vec<Stops>,
    /// Head dresses that may be used, the bare head included if it may.
    pub dresses: Vec<HeadDress>,
    /// Boards that can be held or stood up.
    pub boards: Vec<Board>,
    /// People who can hold a board or the flash.
    pub helpers: u32,
    /// Whether there is a stand for the flash.
    pub stand: bool,
    /// Gels that fit the flash; two at most are worn on top of one another.
    pub gels: Vec<Gel>,
    /// The family that gels are spoken of in.
    pub gel_family: GelFamily,
}

/// A white (or other) board that can be placed freely.
#[derive(Clone, Debug)]
pub struct Board {
    /// What the photographer calls it.
    pub name: String,
    /// Width and height in metres.
    pub size: Vec2,
    /// Its surface.
    pub material: Material,
}

/// Ambient light.
#[derive(Clone, Debug)]
pub struct Ambient {
    /// What the photographer calls it: "window", "lamps".
    pub name: String,
    /// How strong it is.
    pub reading: AmbientLevel,
    /// Which way the meter faced, when there was one.
    pub facing: MeterFacing,
    /// Colour of the light.
    pub colour: LightColour,
    /// Its colour temperature, as it was described.
    pub kelvin: Kelvin,
    /// Where it comes from.
    pub from: AmbientFrom,
    /// Size and facing of the lamp, for light from a lamp.
    pub lamp: LampShape,
}

/// How strong an ambient light is.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum AmbientLevel {
    /// Incident reading at the face of the first sitter.
    Reading(Ev),
    /// Luminous flux of a lamp at a known place, in lm; what it brings to the face is computed.
    Lumens(f64),
}

impl AmbientLevel {
    /// The same light this many stops weaker.
    pub fn dimmed(self, stops: f64) -> Self {
        match self {
            AmbientLevel::Reading(level) => AmbientLevel::Reading(Ev(level.value() - stops)),
            AmbientLevel::Lumens(lumens) => AmbientLevel::Lumens(lumens * (-stops).exp2()),
        }
    }

    /// Stops by which this is stronger than another level of the same light.
    pub fn stops_over(self, other: Self) -> f64 {
        match (self, other) {
            (AmbientLevel::Reading(a), AmbientLevel::Reading(b)) => a.value() - b.value(),
            (AmbientLevel::Lumens(a), AmbientLevel::Lumens(b)) => (a / b).log2(),
            _ => 0.0,
        }
    }
}

/// Size and facing of a lamp: a square that shines evenly from its front.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct LampShape {
    /// Edge in metres.
    pub edge_m: f32,
    /// Which way it shines.
    pub facing: LampFacing,
}

impl Default for LampShape {
    /// About half a metre, shining down.
    fn default() -> Self {
        LampShape {
            edge_m: 0.5,
            facing: LampFacing::Down,
        }
    }
}

/// A piece of the picture that the flash does not reach, read through the camera.
#[derive(Clone, Debug, PartialEq)]
pub struct Zone {
    /// What the photographer calls it: "sky", "street".
    pub name: String,
    /// The settings, as an exposure value at ISO 100, at which it comes out normal (reflected, K = 12.5).
    pub normal: Ev,
    /// Its colour temperature, if the shoot says it.
    pub kelvin: Option<Kelvin>,
}

/// A wish for a zone.
#[derive(Clone, Debug, PartialEq)]
pub struct ZoneWish {
    /// Name of the zone.
    pub name: String,
    /// How far from normal it should be; negative is darker.
    pub at: Stops,
}

/// A time at which ambient light and zones will have changed alike.
#[derive(Clone, Debug, PartialEq)]
pub struct Later {
    /// What the photographer calls it: "15 minutes later".
    pub name: String,
    /// The change of everything but the flash; negative is darker.
    pub ambient: Stops,
}

/// Where ambient light comes from.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum AmbientFrom {
    /// Evenly from every surface of the room: lamps somewhere, curtains shut.
    AllRound,
    /// Through an opening, by its position in the place's list.
    Opening(usize),
    /// From a lamp at this point; its shape is [`Ambient::lamp`].
    Lamp(Vec3),
}

/// The wish.
#[derive(Clone, Debug)]
pub struct Ask {
    /// Aperture, when the photographer insists on one.
    pub aperture: Option<FNumber>,
    /// Widest and smallest aperture that will do, when a range is given instead of one.
    pub apertures: Option<(FNumber, FNumber)>,
    /// Depth that must be sharp, when no aperture is insisted on.
    pub depth: Option<Metres>,
    /// Shutter, when the photographer insists on one.
    pub shutter: Option<ShutterTime>,
    /// Speed, when the photographer insists on one.
    pub iso: Option<Iso>,
    /// What should become of the ambient light.
    pub ambient: AmbientWish,
    /// How far the flash should stay under the light that is there, in stops, 0 or more, when it is asked to fill.
    pub fill: Option<Stops>,
    /// Where each zone should be.
    pub zones: Vec<ZoneWish>,
    /// Where the key should come from.
    pub key: KeyWish,
    /// How soft the key should be.
    pub softness: Softness,
    /// Whether skin must stay neutral.
    pub neutral_skin: bool,
    /// The largest difference from the balance that skin bears when it must stay neutral.
    pub cast_limit: MiredShift,
    /// Near side of the face over the far side, as (key + fill) : fill, when it is asked for.
    pub ratio: Option<Ratio>,
    /// The largest spread over the faces, in stops, when it is asked for.
    pub evenness: Option<Stops>,
    /// Light on the background against the face, in stops, when it is asked for.
    pub background: Option<Stops>,
    /// Stops that must be left in hand below full power.
    pub in_hand: Stops,
    /// The longest wait between two frames, in seconds, when it is asked for.
    pub recycle_s: Option<f64>,
    /// How far the first sitter may be moved from where they stand, in metres; 0 keeps them there.
    pub may_move_m: f32,
    /// White balance, when the photographer insists on one.
    pub white_balance: Option<Kelvin>,
    /// Tint of the balance as Duv of the light that it makes neutral, when the photographer insists on one.
    pub tint: Option<Duv>,
    /// How warm skin and room should look, when that is asked for.
    pub colour: Option<ColourWish>,
    /// Which gel the flash wears.
    pub gel: GelWish,
    /// Where the flash may be.
    pub stand: FlashStand,
    /// The wishes that must be kept, by what they are about.
    pub musts: Vec<WishKind>,
}

/// How warm the picture should look, against neutral.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct ColourWish {
    /// Light on the skin against the balance, positive warmer.
    pub skin: MiredShift,
    /// Light on the background against the balance, when it matters.
    pub room: Option<MiredShift>,
    /// Whether flash and lamps should be alike above all.
    pub match_lamps: bool,
}

/// Which gel the flash wears.
#[derive(Clone, Debug, Default, PartialEq)]
pub enum GelWish {
    /// Whatever of the bag serves best, or none.
    #[default]
    Any,
    /// None at all.
    None,
    /// This one.
    This(Gel),
}

/// What should become of the ambient light.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum AmbientWish {
    /// Out of the picture: at least three stops under.
    Out,
    /// This far from a normal exposure (negative is darker).
    Offset(Stops),
    /// Whatever the other settings make of it.
    Any,
}

/// Where the key should come from, told from the nose.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct KeyWish {
    /// The side, if it matters.
    pub side: Option<Side>,
    /// Angle from the nose, in degrees, 0 to 180.
    pub azimuth_deg: f64,
    /// Height above the eyes, in degrees.
    pub elevation_deg: f64,
    /// How far the azimuth may be off before it stops being the look, in degrees.
    pub azimuth_tolerance_deg: f64,
}

/// How soft the key should be.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum Softness {
    /// A source at least about half as wide as its distance.
    Soft,
    /// A small source with crisp shadows.
    Hard,
    /// No matter.
    Any,
}

/// Where the flash may be.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum FlashStand {
    /// On the camera's shoe, about 12 cm above the lens.
    OnCamera,
    /// At a fixed point, on a stand or in a hand.
    At(Vec3),
    /// Wherever serves best out of the picture, on a stand or in a helper's hand; on the camera where there
    /// is neither.
    Anywhere,
}
