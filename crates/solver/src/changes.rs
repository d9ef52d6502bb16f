//! A useful no: what is short, and the smallest changes that would make the ask possible.
//!
//! Every kind of change is a ladder of growing amounts. A ladder is climbed until the whole search, run
//! again on the changed job, meets everything that is insisted on. The first rung that does is the
//! smallest change of its kind; changes are then sorted by how much they ask of the photographer and the
//! picture. How much that is, in points like those of the score, is ours.

use crate::exposing::{settable_power, settings_for};
use crate::limits::weight;
use crate::search::{self, Judged, Swept};
use crate::survey::Survey;
use crate::watch::{Watch, begin};
use crate::ways::Beams;
use answer::{
    AmbientWish, Change, Failure, FlashStand, Job, Limit, LimitKind, Offer, Route, Shortfall, Side, Step,
    Then,
};
use glam::Vec3;
use light::HeadDress;
use transport::Fineness;
use units::{FNumber, Iso, Metres, Millimetres, MiredShift, Ratio, Stops};

/// Steps in which a sitter is moved, in metres, and the furthest.
const MOVE_STEP_M: f32 = 0.25;
const MOST_MOVED_M: f32 = 1.5;
/// Ways whose misses are considered.
const CONSIDERED: usize = 6;
/// A sketch that misses no more than this, in points, is worth solving in full.
const NEARLY: f64 = 1.0;
/// Speeds from which noise shows (common practice).
const GRAINY_ISO: f64 = 1600.0;
/// Beyond f/22 every lens is dull with diffraction (common practice).
const SMALLEST_APERTURE: f64 = 22.5;
/// Clicks of the speed that are tried.
const MOST_CLICKS: usize = 12;
/// What a way of the sweep may miss, in points, and still be slid into place.
const OUT_OF_REACH: f64 = 1.5;
/// No more changes than this are offered.
const MOST_OFFERED: usize = 4;

/// A kind of change with its growing amounts, the least first.
struct Ladder {
    rungs: Vec<Change>,
    /// Whether the place must be solved again, because something in it moves.
    new_place: bool,
    /// Whether every rung allows all that the one below allows, so that the lowest that helps can be found
    /// by halving.
    nested: bool,
}

impl Ladder {
    /// Rungs of which each must be looked at by itself, for it may spoil what the one below allowed.
    fn each(rungs: Vec<Change>) -> Self {
        Ladder {
            rungs,
            new_place: false,
            nested: false,
        }
    }

    /// Rungs of which each allows all that the one below allows.
    fn nested(rungs: Vec<Change>) -> Self {
        Ladder {
            nested: true,
            ..Ladder::each(rungs)
        }
    }

    /// Rungs that change the place itself.
    fn elsewhere(rungs: Vec<Change>) -> Self {
        Ladder {
            new_place: true,
            ..Ladder::each(rungs)
        }
    }
}

/// What is there to judge a changed job by.
pub(crate) struct Ground<'a> {
    pub job: &'a Job,
    pub survey: &'a mut Survey,
    pub beams: &'a Beams,
    pub swept: &'a Swept,
    pub seed: u64,
    pub watch: &'a Watch<'a>,
}

/// The shortfall of an ask that none of these ways meets, with the changes that would help.
///
/// `best` holds the best way of each kind, the answer among them. What is said to be short is what the way
/// with the fewest misses misses: that one is nearest to being possible. Changes are sought for whatever any
/// of the better ways misses.
pub(crate) fn shortfall(ground: &mut Ground, best: &[&Judged]) -> Result<Shortfall, Failure> {
    let mut nearest: Vec<&Judged> = best.to_vec();
    nearest.sort_by(|a, b| {
        let misses = |judged: &Judged| judged.limits.iter().filter(|l| !l.met).count();
        misses(a).cmp(&misses(b)).then(a.missed().total_cmp(&b.missed()))
    });
    nearest.truncate(CONSIDERED);
    let Some(first) = nearest.first() else {
        return Err(Failure::NoLight {
            sitter: ground.job.sitters[0].name.clone(),
        });
    };
    let mut binding: Vec<Limit> = first.limits.iter().filter(|l| !l.met).cloned().collect();
    binding.sort_by(|a, b| weight(b).total_cmp(&weight(a)));
    let mut changes = Vec::new();
    let mut tried = Vec::new();
    for ladder in ladders(ground.job, &nearest) {
        match climb(ground, &ladder)? {
            Some(offer) => changes.push(offer),
            None => tried.extend(ladder.rungs.last().cloned()),
        }
    }
    changes.sort_by(|a, b| a.effort.total_cmp(&b.effort));
    changes.truncate(MOST_OFFERED);
    Ok(Shortfall {
        nearest: first.way.id(),
        binding,
        changes,
        tried,
    })
}

/// The first rung that makes the ask possible.
fn climb(ground: &mut Ground, ladder: &Ladder) -> Result<Option<Offer>, Failure> {
    let mut first: Option<(usize, Judged)> = None;
    if ladder.nested {
        // The highest rung says whether there is anything to look for.
        let (mut low, mut high) = (0, ladder.rungs.len());
        let mut at = high - 1;
        while low < high {
            match met_on(ground, ladder, at)? {
                Some(found) => {
                    first = Some((at, found));
                    high = at;
                }
                None => low = at + 1,
            }
            at = (low + high) / 2;
        }
    } else {
        for index in 0..ladder.rungs.len() {
            if let Some(found) = met_on(ground, ladder, index)? {
                first = Some((index, found));
                break;
            }
        }
    }
    let Some((index, found)) = first else {
        return Ok(None);
    };
    let change = ladder.rungs[index].clone();
    let job = change.apply(ground.job);
    Ok(Some(Offer {
        effort: effort(&change),
        then: then(&job, ground.survey, &found)?,
        change,
        job: Box::new(job),
    }))
}

/// The best way on a rung, if it meets everything.
fn met_on(ground: &mut Ground, ladder: &Ladder, index: usize) -> Result<Option<Judged>, Failure> {
    begin(ground.watch, Step::Changing)?;
    let job = ladder.rungs[index].apply(ground.job);
    let found = if ladder.new_place {
        best_in_new_place(&job, ground)?
    } else {
        best_here(&job, ground)?
    };
    Ok(found.filter(Judged::met))
}

/// The best way of a changed job in the same place.
fn best_here(job: &Job, ground: &mut Ground) -> Result<Option<Judged>, Failure> {
    let dimmed = dimming(ground.job, job);
    ground.survey.scale_ambient(dimmed);
    let judged = search::judge_all(job, ground.survey, ground.swept);
    let best = judged.and_then(|all| {
        // A compass search slides an aim about; it does not make up for much.
        if all.iter().all(|judged| judged.missed() > OUT_OF_REACH) {
            return Ok(Vec::new());
        }
        search::best_of(job, ground.survey, ground.beams, all)
    });
    ground.survey.scale_ambient(1.0 / dimmed);
    Ok(best?.into_iter().next())
}

/// The factor by which a changed job's ambient is weaker.
fn dimming(before: &Job, after: &Job) -> f64 {
    match (before.ambients.first(), after.ambients.first()) {
        (Some(a), Some(b)) => b.reading.stops_over(a.reading).exp2(),
        _ => 1.0,
    }
}

/// The best way where something in the place has changed: tried on a sketch first, then solved in full.
fn best_in_new_place(job: &Job, ground: &Ground) -> Result<Option<Judged>, Failure> {
    let solve = |fineness: Fineness| -> Result<Option<Judged>, Failure> {
        let Ok(survey) = Survey::new(job, fineness, ground.seed) else {
            // A place where people cannot stand is no change worth offering.
            return Ok(None);
        };
        let swept = search::sweep(job, &survey, ground.beams);
        let judged = search::judge_all(job, &survey, &swept)?;
        Ok(search::best_of(job, &survey, ground.beams, judged)?
            .into_iter()
            .next())
    };
    if solve(Fineness::SKETCH)?.is_some_and(|sketch| sketch.missed() < NEARLY) {
        solve(Fineness::operator_in(job.place.room.area()))
    } else {
        Ok(None)
    }
}

/// Where a change leads, in short.
fn then(job: &Job, survey: &Survey, found: &Judged) -> Result<Then, Failure> {
    let dose = found.way.light.dose(job.bag.flash.colour());
    let (settings, _) = settings_for(job, survey, dose)?;
    Ok(Then {
        way: found.way.id(),
        settings,
        power: settable_power(job, found.power)?,
        zoom_mm: found.way.zoom_mm,
        in_hand: Stops(found.power.max(0.0)),
    })
}

/// What a change asks of the photographer and the picture, in points like those of the score (ours).
fn effort(change: &Change) -> f64 {
    match change {
        Change::RaiseSpeed { from, to } | Change::AllowSpeeds { from, to } => {
            let stops = to.stops_faster_than(*from).value();
            let grainy = (to.value() / GRAINY_ISO).log2().clamp(0.0, stops);
            0.3 * stops + 0.5 * grainy
        }
        Change::LowerSpeed { from, to } => 0.2 * from.stops_faster_than(*to).value(),
        Change::OpenUp { from, to, .. } => 0.5 * from.stops_darker_than(*to).value(),
        Change::StopDown { from, to, .. } => 0.35 * to.stops_darker_than(*from).value(),
        Change::KeepInHand { from, to, .. } => 0.6 * (*from - *to).value(),
        Change::WaitLonger { from_s, to_s } => 0.4 * (to_s / from_s).log2(),
        Change::DimAmbient { stops } => 0.3 + 0.15 * stops.value(),
        Change::AllowCast { from, to } => (to.value() - from.value()) / 20.0,
        Change::AnySkin => 3.0,
        Change::AllowAngle { from_deg, to_deg } => (to_deg - from_deg) / 12.0,
        Change::OtherSide { .. } => 1.2,
        Change::KeyHeight { from_deg, to_deg } => (to_deg - from_deg).abs() / 12.0,
        Change::AnySoftness { .. } => 1.5,
        Change::SettleRatio { from, to } => (to.value() / from.value()).log2().abs() / 0.7,
        Change::FacesDiffer { from, to } => (*to - *from).value() / 0.5,
        Change::SettleBackground { from, to } => (*to - *from).value().abs() / 0.7,
        Change::HoldBoard { .. } => 0.7,
        Change::FlashOffCamera { bring_stand: false } => 0.5,
        Change::FlashOffCamera { bring_stand: true } => 0.8,
        Change::MoveSitter { by, .. } => 0.5 + 0.6 * f64::from(by.length()),
    }
}

/// The ladders that can help with what these ways miss, the nearest way first.
fn ladders(job: &Job, nearest: &[&Judged]) -> Vec<Ladder> {
    let missed: Vec<&Limit> = nearest
        .iter()
        .flat_map(|judged| judged.limits.iter().filter(|limit| !limit.met))
        .collect();
    let chosen = nearest[0];
    let binds = |kind: LimitKind| missed.iter().any(|limit| limit.kind == kind);
    let mut ladders = Vec::new();
    if binds(LimitKind::Power) || binds(LimitKind::Recycle) {
        ladders.push(Ladder::each(faster(job)));
        ladders.push(Ladder::each(wider(job)));
        ladders.push(Ladder::nested(less_in_hand(job)));
        ladders.push(Ladder::nested(longer_wait(job)));
    }
    if binds(LimitKind::LeastPower) || (binds(LimitKind::Ambient) && wants_less_ambient(job)) {
        ladders.push(Ladder::each(narrower(job)));
        ladders.push(Ladder::each(slower(job)));
    }
    if binds(LimitKind::Ambient) {
        ladders.push(Ladder::each(dimmer(job)));
    }
    if binds(LimitKind::Cast) {
        ladders.push(Ladder::nested(warmer_skin(job)));
    }
    if binds(LimitKind::GreenMagenta) {
        ladders.push(Ladder::nested(vec![Change::AnySkin]));
    }
    if binds(LimitKind::Direction) {
        ladders.push(Ladder::nested(wider_angle(job)));
        ladders.push(Ladder::nested(either_side(job)));
    }
    if binds(LimitKind::Height) {
        ladders.push(Ladder::each(other_height(job, chosen)));
    }
    if binds(LimitKind::Softness) {
        let asked = job.ask.softness;
        ladders.push(Ladder::nested(vec![Change::AnySoftness { asked }]));
    }
    if binds(LimitKind::Ratio) {
        ladders.push(Ladder::each(other_ratio(job, &missed)));
    }
    if binds(LimitKind::Evenness) {
        ladders.push(Ladder::nested(less_even(job)));
    }
    if binds(LimitKind::Background) {
        ladders.push(Ladder::each(other_background(job, &missed)));
    }
    ladders.push(Ladder::elsewhere(helpers(job)));
    ladders.push(Ladder::elsewhere(off_camera(job)));
    ladders.push(Ladder::elsewhere(moved_sitter(job, chosen)));
    ladders.retain(|ladder| !ladder.rungs.is_empty());
    ladders
}

/// A higher speed: the one insisted on, or the highest that the photographer will use.
fn faster(job: &Job) -> Vec<Change> {
    let insisted = job.ask.iso.is_some();
    let from = job.ask.iso.unwrap_or(job.body.most_iso);
    Iso::series()
        .filter(|iso| iso.stops_faster_than(from).value() > 0.1)
        .take(MOST_CLICKS)
        .map(|to| match insisted {
            true => Change::RaiseSpeed { from, to },
            false => Change::AllowSpeeds { from, to },
        })
        .collect()
}

/// A lower speed, for too much light.
fn slower(job: &Job) -> Vec<Change> {
    let Some(from) = job.ask.iso else {
        return Vec::new();
    };
    let mut lower: Vec<Iso> = Iso::series()
        .filter(|iso| {
            iso.stops_faster_than(from).value() < -0.1 && iso.value() >= job.body.least_iso.value() - 0.5
        })
        .collect();
    lower.sort_by(|a, b| b.value().total_cmp(&a.value()));
    let rungs = lower.into_iter().take(MOST_CLICKS);
    rungs.map(|to| Change::LowerSpeed { from, to }).collect()
}

fn wider(job: &Job) -> Vec<Change> {
    let Some(from) = job.ask.aperture else {
        return Vec::new();
    };
    let mut wider: Vec<FNumber> = FNumber::series()
        .filter(|f| f.stops_darker_than(from).value() < -0.1 && f.value() >= job.body.widest.value() - 0.01)
        .collect();
    wider.sort_by(|a, b| b.value().total_cmp(&a.value()));
    let open = |to| Change::OpenUp {
        from,
        to,
        sharp_m: sharp_m(job, from, to),
    };
    wider.into_iter().map(open).collect()
}

fn narrower(job: &Job) -> Vec<Change> {
    let Some(from) = job.ask.aperture else {
        return Vec::new();
    };
    FNumber::series()
        .filter(|f| f.stops_darker_than(from).value() > 0.1 && f.value() <= SMALLEST_APERTURE)
        .map(|to| Change::StopDown {
            from,
            to,
            sharp_m: sharp_m(job, from, to),
        })
        .collect()
}

/// Metres that are sharp at one aperture and at another; `None` where one of them has no end.
fn sharp_m(job: &Job, from: FNumber, to: FNumber) -> Option<[f64; 2]> {
    let distance = f64::from((job.sitters[0].face() - job.viewpoint.position).length());
    let depth = |aperture: FNumber| -> Option<f64> {
        let setting = camera::Focus {
            focal: Millimetres::new(f64::from(job.viewpoint.focal_mm)).ok()?,
            aperture,
            distance: Metres::new(distance).ok()?,
        };
        let depth = setting.limits(camera::CIRCLE_OF_CONFUSION_MM).depth_m();
        depth.is_finite().then_some(depth)
    };
    Some([depth(from)?, depth(to)?])
}

fn less_in_hand(job: &Job) -> Vec<Change> {
    let from = job.ask.in_hand;
    let thirds = (from.value() * 3.0).ceil() as i32;
    let ready = |left: Stops| job.bag.flash.recycle_s(left.value());
    (1..=thirds)
        .map(|third| {
            let to = Stops((from.value() - f64::from(third) / 3.0).max(0.0));
            let ready_s = [ready(from), ready(to)];
            Change::KeepInHand { from, to, ready_s }
        })
        .collect()
}

fn longer_wait(job: &Job) -> Vec<Change> {
    let Some(from_s) = job.ask.recycle_s else {
        return Vec::new();
    };
    (1..=36)
        .map(|sixth| Change::WaitLonger {
            from_s,
            to_s: from_s * (f64::from(sixth) / 6.0).exp2(),
        })
        .collect()
}

fn wants_less_ambient(job: &Job) -> bool {
    !matches!(job.ask.ambient, AmbientWish::Any)
}

fn dimmer(job: &Job) -> Vec<Change> {
    // The sky cannot be turned down.
    if job.ambients.is_empty() || job.outdoors.is_some() {
        return Vec::new();
    }
    (1..=18)
        .map(|third| Change::DimAmbient {
            stops: Stops(f64::from(third) / 3.0),
        })
        .collect()
}

fn warmer_skin(job: &Job) -> Vec<Change> {
    let from = job.ask.cast_limit;
    (1..=24)
        .map(|step| Change::AllowCast {
            from,
            to: MiredShift(from.value() + 5.0 * f64::from(step)),
        })
        .collect()
}

fn wider_angle(job: &Job) -> Vec<Change> {
    let from_deg = job.ask.key.azimuth_tolerance_deg;
    (1..=18)
        .map(|step| Change::AllowAngle {
            from_deg,
            to_deg: from_deg + 5.0 * f64::from(step),
        })
        .collect()
}

fn either_side(job: &Job) -> Vec<Change> {
    let other = job.ask.key.side.map(|side| match side {
        Side::Left => Side::Right,
        Side::Right => Side::Left,
    });
    other.map(|side| Change::OtherSide { side }).into_iter().collect()
}

fn other_height(job: &Job, chosen: &Judged) -> Vec<Change> {
    let from_deg = job.ask.key.elevation_deg;
    let found = chosen.limits.iter().find(|l| l.kind == LimitKind::Height);
    let towards = found.map_or(1.0, |l| (l.found - from_deg).signum());
    (1..=12)
        .map(|step| Change::KeyHeight {
            from_deg,
            to_deg: from_deg + towards * 5.0 * f64::from(step),
        })
        .collect()
}

/// Ratios towards the one found, down to no difference at all.
fn other_ratio(job: &Job, missed: &[&Limit]) -> Vec<Change> {
    let (Some(from), Some(limit)) = (job.ask.ratio, of_kind(missed, LimitKind::Ratio)) else {
        return Vec::new();
    };
    let towards = limit.found.signum();
    let mut rungs: Vec<Change> = (1..=18)
        .map(|step| from.value() * (towards * f64::from(step) / 6.0).exp2())
        .filter_map(|value| Ratio::new(value.max(1.0)).ok())
        .map(|to| Change::SettleRatio { from, to })
        .collect();
    rungs.dedup();
    rungs
}

fn less_even(job: &Job) -> Vec<Change> {
    let Some(from) = job.ask.evenness else {
        return Vec::new();
    };
    (1..=18)
        .map(|step| Change::FacesDiffer {
            from,
            to: from + Stops(f64::from(step) / 6.0),
        })
        .collect()
}

fn other_background(job: &Job, missed: &[&Limit]) -> Vec<Change> {
    let (Some(from), Some(limit)) = (job.ask.background, of_kind(missed, LimitKind::Background)) else {
        return Vec::new();
    };
    let towards = (limit.found - from.value()).signum();
    (1..=30)
        .map(|step| Change::SettleBackground {
            from,
            to: from + Stops(towards * f64::from(step) / 6.0),
        })
        .collect()
}

/// The first missed limit of a kind.
fn of_kind<'a>(missed: &[&'a Limit], kind: LimitKind) -> Option<&'a Limit> {
    missed.iter().copied().find(|limit| limit.kind == kind)
}

/// A helper who holds a board that is in the bag.
fn helpers(job: &Job) -> Vec<Change> {
    if job.bag.helpers > 0 || !job.bag.dresses.contains(&HeadDress::Bare) {
        return Vec::new();
    }
    let board = job.bag.boards.first();
    board
        .map(|board| Change::HoldBoard {
            board: board.name.clone(),
        })
        .into_iter()
        .collect()
}

/// The flash off the camera.
fn off_camera(job: &Job) -> Vec<Change> {
    if job.ask.stand == FlashStand::Anywhere {
        return Vec::new();
    }
    let bring_stand = !job.bag.stand && job.bag.helpers == 0;
    vec![Change::FlashOffCamera { bring_stand }]
}

/// The sitter nearer to what carries the light.
fn moved_sitter(job: &Job, chosen: &Judged) -> Vec<Change> {
    let face = job.sitters[0].face();
    let towards = (chosen.way.target - face).with_z(0.0).try_normalize();
    let (false, Some(towards), 1) = (
        matches!(chosen.way.route, Route::Direct),
        towards,
        job.sitters.len(),
    ) else {
        return Vec::new();
    };
    let (right, _, forward) = job.viewpoint.axes();
    let away = forward.with_z(0.0).normalize_or_zero();
    let steps = (MOST_MOVED_M / MOVE_STEP_M) as usize;
    (1..=steps)
        .map(|step| {
            let by = towards * (step as f32 * MOVE_STEP_M);
            Change::MoveSitter {
                by,
                right_m: by.dot(right),
                away_m: by.dot(away),
            }
        })
        .collect()
}

/// A job with everyone, and what the camera looks at, moved.
pub(crate) fn moved(job: &Job, by: Vec3) -> Job {
    let mut moved = job.clone();
    moved.move_everyone(by);
    moved
}
