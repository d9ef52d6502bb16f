//! A way of lighting with the reading of its finished picture, and what that picture comes to against the ask.

use crate::judge::colours::{balanced, colour_wishes, sides_apart_points};
use crate::judge::exposure::{Levels, plain_aperture};
use crate::judge::handling::{cast_unusable, handling, tasteful};
use crate::judge::mix::Mix;
use crate::judge::settings::{by_levels, by_the_picture, levels_at, picture_at};
use crate::judge::unmet::unmet;
use crate::judge::wishes::{Outcome, wishes};
use crate::practice::{HOPELESS_STOPS, POOR_POINTS, fault};
use crate::ways::scout::Scout;
use crate::ways::way::{Way, own_reflectance};
use answer::{
    Failure, Fault, FaultPoints, Job, Judgement, KeyReading, Note, Settings, Side, Verdict, WishKind,
};
use rayon::prelude::*;
use std::cmp::Ordering;
use std::collections::BTreeMap;

/// A way, what its picture comes to, and what it takes.
#[derive(Clone, Debug)]
pub(crate) struct Judged {
    pub way: Way,
    pub key: KeyReading,
    /// What the camera is set to.
    pub settings: Settings,
    /// Stops of full power over an exact exposure, flash alone.
    pub full: f64,
    /// Exact power for flash and ambient together, in stops below 1/1.
    pub power: f64,
    /// Every wish, and what came of it.
    pub wishes: Vec<Judgement>,
    /// The points of every wish that is off, and of what the way takes.
    pub faults: Vec<FaultPoints>,
    /// Their sum.
    pub points: f64,
    /// What the camera settings could not meet.
    pub notes: Vec<Note>,
    /// The points that the surveyed place gives it, once its light was read in a finely solved one.
    pub coarsely: Option<f64>,
}

impl Judged {
    /// Whether nothing is lacking: no wish is missed, and every must is kept.
    pub fn met(&self) -> bool {
        !self.wishes.iter().any(Judgement::lacks)
    }

    /// Whether every must is kept.
    pub fn possible(&self) -> bool {
        !self.wishes.iter().any(Judgement::forbids)
    }

    /// What the face comes to against an exact exposure, in stops.
    pub fn total(&self) -> f64 {
        let mut exposed = self.wishes.iter().filter(|wish| wish.kind == WishKind::Exposure);
        exposed.next().map_or(0.0, |wish| wish.found)
    }

    /// Points of the wishes that are lacking.
    pub fn missed(&self) -> f64 {
        let lacking = self.wishes.iter().filter(|wish| wish.lacks());
        lacking.map(|wish| wish.points).sum()
    }

    /// Ways whose picture can be had come first, then the least sum.
    pub fn rank(&self) -> (bool, f64) {
        (!self.possible(), self.points)
    }

    /// Whether its light was read in a finely solved place.
    pub fn finely(&self) -> bool {
        self.coarsely.is_some()
    }

    pub fn before(&self, other: &Judged) -> bool {
        self.rank() < other.rank()
    }

    /// The same order, for sorting.
    pub fn by_rank(&self, other: &Judged) -> Ordering {
        let ((class, points), (other_class, other_points)) = (self.rank(), other.rank());
        class.cmp(&other_class).then(points.total_cmp(&other_points))
    }
}

/// How carefully a way is judged.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Care {
    /// Without its colours: for ten thousand ways.
    InPassing,
    /// Balanced for its own light.
    Full,
}

/// What a photographer would say of a way against this ask.
pub(crate) fn judge(scout: &Scout<'_>, way: Way) -> Result<Judged, Failure> {
    let levels = by_levels(scout, way.light.dose())?;
    let settings = by_the_picture(scout, &way, levels)?;
    judge_at(scout, way, settings, Care::Full)
}

/// The same of many ways in passing: with settings by their levels alone, which hang on nothing but the dose, and without
/// their colours.
pub(crate) fn judge_in_passing(scout: &Scout<'_>, ways: &[&Way]) -> Result<Vec<Judged>, Failure> {
    let step = |way: &Way| (way.light.dose().max(1e-9).log2() * STEPS_PER_STOP).round() as i32;
    let mut steps: Vec<i32> = ways.iter().map(|way| step(way)).collect();
    steps.sort_unstable();
    steps.dedup();
    let settings: BTreeMap<i32, Settings> = steps
        .into_par_iter()
        .map(|step| Ok((step, by_levels(scout, (f64::from(step) / STEPS_PER_STOP).exp2())?)))
        .collect::<Result<_, Failure>>()?;
    ways.par_iter()
        .map(|way| judge_at(scout, (*way).clone(), settings[&step(way)], Care::InPassing))
        .collect()
}

/// A way that was judged in passing with its colours as well, at the settings that it was judged with.
pub(crate) fn with_colours(scout: &Scout<'_>, judged: &Judged) -> Result<Judged, Failure> {
    judge_at(scout, judged.way.clone(), judged.settings, Care::Full)
}

/// Doses this near to one another get the same settings in passing: a quarter of a click.
const STEPS_PER_STOP: f64 = 12.0;

/// What a photographer would say of a way at settings.
fn judge_at(scout: &Scout<'_>, way: Way, mut settings: Settings, care: Care) -> Result<Judged, Failure> {
    let job = scout.job;
    let colour = job.bag.flash.colour();
    let facing = scout.survey.stage.sitters[0].facing;
    let levels = levels_at(scout, way.light.dose(), &settings);
    let picture = picture_at(scout, &way, &levels);
    let from = picture.direction(facing);
    let outcome = Outcome {
        from,
        levels,
        softness: f64::from(way.light.softness),
        picture,
    };
    let mut wishes = wishes(job, &outcome);
    let Levels { full, power, .. } = outcome.levels;
    let key = picture.reading(&way.light, colour, &own_reflectance(job, &way.route), facing);
    let mut apart = 0.0;
    if care == Care::Full {
        let mix = Mix::of(scout, &way.light.zones, &picture);
        let balance = balanced(job, &mix);
        wishes.extend(colour_wishes(job, &mix, balance));
        balance.set(&mut settings);
        apart = if job.ask.neutral_skin {
            sides_apart_points(&mix)
        } else {
            0.0
        };
    }
    let mut faults: Vec<FaultPoints> = wishes.iter().map(|wish| fault_of(job, wish)).collect();
    faults.extend(handling(job, &way, &key, power));
    faults.push(FaultPoints {
        fault: Fault::Cast,
        points: apart,
    });
    faults.extend(tasteful(job, plain_aperture(job)?, &settings));
    let notes = unmet(job, &wishes, &settings);
    let points = faults.iter().map(|fault| fault.points).sum();
    let faults = by_kind(faults);
    Ok(Judged {
        key,
        settings,
        full,
        power,
        wishes,
        points,
        faults,
        notes,
        way,
        coarsely: None,
    })
}

/// One entry for each fault that counts at all.
fn by_kind(faults: Vec<FaultPoints>) -> Vec<FaultPoints> {
    let mut sums: Vec<FaultPoints> = Vec::new();
    for found in faults {
        match sums.iter_mut().find(|held| held.fault == found.fault) {
            Some(held) => held.points += found.points,
            None => sums.push(found),
        }
    }
    sums.retain(|fault| fault.points > fault::NONE);
    sums
}

/// What a wish that is off is called among the faults.
fn fault_of(job: &Job, wish: &Judgement) -> FaultPoints {
    let wrong_side = match job.ask.key.side {
        Some(Side::Left) => wish.found > 0.0,
        Some(Side::Right) => wish.found < 0.0,
        None => false,
    };
    let fault = match wish.kind {
        WishKind::Exposure => Fault::Exposure,
        WishKind::Power => Fault::Power,
        WishKind::Recycle => Fault::Recycle,
        WishKind::Cast => Fault::Cast,
        WishKind::GreenMagenta => Fault::GreenMagenta,
        WishKind::Direction if wrong_side => Fault::Side,
        WishKind::Direction => Fault::Direction,
        WishKind::Height => Fault::Height,
        WishKind::Eyes => Fault::HollowEyes,
        WishKind::Softness if job.ask.softness == answer::Softness::Hard => Fault::Softness,
        WishKind::Softness => Fault::Hardness,
        WishKind::Ratio => Fault::Ratio,
        WishKind::Evenness => Fault::Evenness,
        WishKind::Background => Fault::Background,
        WishKind::Ambient => Fault::Ambient,
        WishKind::Fill => Fault::Fill,
        WishKind::SkinColour | WishKind::RoomColour => Fault::Colour,
        WishKind::Zone => Fault::Zone,
    };
    FaultPoints {
        fault,
        points: wish.points,
    }
}

/// Whether a way serves beside the answer.
pub(crate) fn verdict_of(job: &Job, judged: &Judged, chosen: &Judged) -> Verdict {
    if cast_unusable(job, &judged.key) || judged.full <= -HOPELESS_STOPS {
        Verdict::Unusable
    } else if judged.points > chosen.points + POOR_POINTS {
        Verdict::Poor
    } else {
        Verdict::Possible
    }
}
