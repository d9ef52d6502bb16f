//! A useful no: what an answer lacks, and the changes that would help.

use crate::published;
use crate::{Bag, Board, FlashStand, Job, Judgement, Settings, Side, Softness, WayId};
use colour::surfaces;
use glam::{Vec2, Vec3};
use light::{HeadDress, SoftFront};
use scene::Material;
use schemars::JsonSchema;
use serde::Serialize;
use units::{FNumber, Iso, MiredShift, PowerFraction, Ratio, Stops};

/// What an answer lacks against the ask, and what would help.
#[derive(Clone, Debug, Serialize, JsonSchema)]
#[schemars(deny_unknown_fields)]
pub struct Shortfall {
    /// Whether a must is not kept, so that the picture cannot be had as it was asked.
    pub impossible: bool,
    /// The wishes that the answer lacks, those that must be kept before the others, the worst first.
    pub missed: Vec<Judgement>,
    /// The smallest changes of each kind after which nothing is lacking, each solved again; the least first.
    pub changes: Vec<Offer>,
    /// The furthest change of each kind that was tried and does not help.
    pub tried: Vec<Change>,
}

/// A change after which nothing is lacking, with where it leads.
#[derive(Clone, Debug, Serialize, JsonSchema)]
#[schemars(deny_unknown_fields)]
pub struct Offer {
    /// The change.
    pub change: Change,
    /// How much it asks of the photographer and the picture, in points like those of the faults (ours).
    pub effort: f64,
    /// The answer that it leads to.
    pub then: Then,
    /// The job with the change made.
    #[serde(skip)]
    pub job: Box<Job>,
}

/// The answer that a change leads to, in short.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
#[schemars(deny_unknown_fields)]
pub struct Then {
    /// The way.
    pub way: WayId,
    /// Camera line.
    #[serde(rename = "camera")]
    pub settings: Settings,
    /// Power of the flash.
    #[serde(rename = "stops_below_full")]
    pub power: PowerFraction,
    /// Zoom of the head in millimetres.
    pub zoom_mm: f64,
    /// What is left in hand.
    #[serde(rename = "in_hand_stops")]
    pub in_hand: Stops,
}

/// A change to the ask, the bag or the place.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
#[serde(tag = "change", rename_all = "snake_case")]
#[schemars(deny_unknown_fields)]
pub enum Change {
    /// A higher speed than the one insisted on.
    RaiseSpeed {
        /// Now.
        from: Iso,
        /// Then.
        to: Iso,
    },
    /// A higher speed than the camera's owner would use.
    AllowSpeeds {
        /// Now.
        from: Iso,
        /// Then.
        to: Iso,
    },
    /// A lower speed than the one insisted on.
    LowerSpeed {
        /// Now.
        from: Iso,
        /// Then.
        to: Iso,
    },
    /// A wider aperture.
    OpenUp {
        /// Now.
        from: FNumber,
        /// Then.
        to: FNumber,
        /// Metres that are sharp now and then; `None` where one is without end.
        sharp_m: Option<[f64; 2]>,
    },
    /// A smaller aperture.
    StopDown {
        /// Now.
        from: FNumber,
        /// Then.
        to: FNumber,
        /// Metres that are sharp now and then; `None` where one is without end.
        sharp_m: Option<[f64; 2]>,
    },
    /// Less in hand.
    KeepInHand {
        /// Now.
        from: Stops,
        /// Then.
        to: Stops,
        /// Seconds until the flash is ready, now and then.
        ready_s: [f64; 2],
    },
    /// A longer wait between frames.
    WaitLonger {
        /// Now.
        from_s: f64,
        /// Then.
        to_s: f64,
    },
    /// Less of the light that is there.
    DimAmbient {
        /// By so much, positive.
        stops: Stops,
    },
    /// A larger cast on skin.
    AllowCast {
        /// Now.
        from: MiredShift,
        /// Then.
        to: MiredShift,
    },
    /// Skin in the colour of the surface.
    AnySkin,
    /// A key further off its angle.
    AllowAngle {
        /// Now.
        from_deg: f64,
        /// Then.
        to_deg: f64,
    },
    /// The key from the other side too.
    OtherSide {
        /// The side that comes in.
        side: Side,
    },
    /// The key from another height.
    KeyHeight {
        /// Now.
        from_deg: f64,
        /// Then.
        to_deg: f64,
    },
    /// Shadows of any edge.
    AnySoftness {
        /// What was asked.
        asked: Softness,
    },
    /// Another ratio.
    SettleRatio {
        /// Now.
        from: Ratio,
        /// Then.
        to: Ratio,
    },
    /// Faces less alike.
    FacesDiffer {
        /// Now.
        from: Stops,
        /// Then.
        to: Stops,
    },
    /// Another background.
    SettleBackground {
        /// Now.
        from: Stops,
        /// Then.
        to: Stops,
    },
    /// Somebody who holds a board of the bag.
    HoldBoard {
        /// Name of the board.
        board: String,
    },
    /// The flash off the camera, to where it serves best.
    FlashOffCamera {
        /// Whether a stand must come along, because nobody is there to hold it.
        bring_stand: bool,
    },
    /// Something brought along that is not in the bag.
    Bring {
        /// What it is.
        thing: Brought,
    },
    /// Two of these together, where neither is enough alone.
    Both {
        /// One of them.
        first: Box<Change>,
        /// The other.
        second: Box<Change>,
    },
    /// The flash, which stands off the camera already, to where it serves best.
    FlashElsewhere {
        /// Whether a stand must come along, because nobody is there to hold it.
        bring_stand: bool,
    },
    /// The sitters elsewhere.
    MoveSitter {
        /// The step in the place.
        #[serde(rename = "by_m", serialize_with = "published::three")]
        #[schemars(with = "[f64; 3]")]
        by: Vec3,
        /// Metres to the camera's right; negative to its left.
        right_m: f32,
        /// Metres further from the camera; negative nearer.
        away_m: f32,
    },
}

/// Something cheap that is brought along.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, JsonSchema)]
#[serde(tag = "is", rename_all = "snake_case")]
#[schemars(deny_unknown_fields)]
pub enum Brought {
    /// A neutral density filter for the lens.
    Filter {
        /// What it takes, in stops.
        stops: Stops,
    },
    /// A white umbrella to shine through, and a stand for it.
    Umbrella {
        /// What it costs on the axis against the bare head at zoom 35, in stops.
        #[serde(rename = "loss_stops")]
        loss: Stops,
        /// Its width in metres.
        width_m: f64,
    },
    /// A white card that somebody holds.
    Card {
        /// Its width in metres.
        width_m: f32,
        /// Its height in metres.
        height_m: f32,
    },
}

impl Brought {
    /// What a white card that is brought along is called in the bag.
    pub const CARD: &str = surfaces::WHITE_CARD;

    /// A bag with the thing in it; a card comes with somebody who holds it.
    fn put_into(self, bag: &mut Bag) {
        match self {
            Brought::Filter { stops } => {
                bag.nd.push(stops);
                bag.nd.sort_by(|a, b| a.value().total_cmp(&b.value()));
            }
            Brought::Umbrella { loss, width_m } => {
                let front = SoftFront::new(loss.value(), width_m);
                bag.dresses.push(HeadDress::Umbrella(front));
                bag.stand = true;
            }
            Brought::Card { width_m, height_m } => {
                let white = surfaces::named(Brought::CARD);
                bag.boards.extend(white.map(|white| Board {
                    name: Brought::CARD.to_owned(),
                    size: Vec2::new(width_m, height_m),
                    material: Material::matt(Brought::CARD, *white.spectrum()),
                }));
                bag.helpers = bag.helpers.max(1);
            }
        }
    }
}

impl Change {
    /// A job with the change made.
    pub fn apply(&self, job: &Job) -> Job {
        let mut job = job.clone();
        match self {
            Change::RaiseSpeed { to, .. } => {
                job.ask.iso = Some(*to);
                job.body.most_iso = faster(job.body.most_iso, *to);
            }
            Change::AllowSpeeds { to, .. } => job.body.most_iso = faster(job.body.most_iso, *to),
            Change::LowerSpeed { to, .. } => job.ask.iso = Some(*to),
            Change::OpenUp { to, .. } | Change::StopDown { to, .. } => job.ask.aperture = Some(*to),
            Change::KeepInHand { to, .. } => job.ask.in_hand = *to,
            Change::WaitLonger { to_s, .. } => job.ask.recycle_s = Some(*to_s),
            Change::DimAmbient { stops } => {
                for ambient in &mut job.ambients {
                    ambient.reading = ambient.reading.dimmed(stops.value());
                }
            }
            Change::AllowCast { to, .. } => job.ask.cast_limit = *to,
            Change::AnySkin => job.ask.neutral_skin = false,
            Change::AllowAngle { to_deg, .. } => job.ask.key.azimuth_tolerance_deg = *to_deg,
            Change::OtherSide { .. } => job.ask.key.side = None,
            Change::KeyHeight { to_deg, .. } => job.ask.key.elevation_deg = *to_deg,
            Change::AnySoftness { .. } => job.ask.softness = Softness::Any,
            Change::SettleRatio { to, .. } => job.ask.ratio = Some(*to),
            Change::FacesDiffer { to, .. } => job.ask.evenness = Some(*to),
            Change::SettleBackground { to, .. } => job.ask.background = Some(*to),
            Change::HoldBoard { .. } => job.bag.helpers = job.bag.helpers.max(1),
            Change::FlashOffCamera { bring_stand } | Change::FlashElsewhere { bring_stand } => {
                job.ask.stand = FlashStand::Anywhere;
                job.bag.stand |= bring_stand;
            }
            Change::Bring { thing } => {
                thing.put_into(&mut job.bag);
                if matches!(thing, Brought::Umbrella { .. }) {
                    job.ask.stand = FlashStand::Anywhere;
                }
            }
            Change::Both { first, second } => return second.apply(&first.apply(&job)),
            Change::MoveSitter { by, .. } => job.move_everyone(*by),
        }
        job
    }
}

fn faster(one: Iso, other: Iso) -> Iso {
    if other.value() > one.value() { other } else { one }
}
