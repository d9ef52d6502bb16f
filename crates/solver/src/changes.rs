//! A useful no: what is short, and the smallest changes that would make the ask possible.
//!
//! Every kind of change is a ladder of growing amounts. A ladder is climbed until the changed job, by what was computed
//! already or by a sketch of the changed place, lacks nothing; from there on each rung is answered as if it had been written
//! so, and the first that lacks nothing is the smallest change of its kind. Changes are then sorted by how much they ask of
//! the photographer and the picture. How much that is, in points like those of a wish, is ours.

pub(crate) mod effort;
pub(crate) mod ladders;

use crate::changes::effort::effort_of;
use crate::changes::ladders::{Ladder, Reach, ladders, to_bring};
use crate::choose::kind::{Kind, kind_of};
use crate::choose::search::{Swept, best_of, judge_all, sweep};
use crate::decide::{Known, anew};
use crate::judge::exposure::{hand_held, in_hand, settable_power};
use crate::judge::judged::{Judged, judge_in_passing};
use crate::place::fine::FinePlace;
use crate::place::survey::Survey;
use crate::watch::{Watch, begin};
use crate::ways::scout::Scout;
use crate::ways::way::Way;
use answer::{Brought, Change, Failure, FlashStand, Job, Judgement, Offer, Shortfall, Step, Then, WishKind};
use std::sync::Arc;
use transport::Fineness;
use units::Stops;

/// Other ways whose misses are considered.
const CONSIDERED: usize = 5;
/// A sketch of a changed place that lacks no more than this, in points, is worth an answer of its own.
const NEARLY: f64 = 6.0;
/// What a way of the sweep may lack, in points, and still be slid into place.
const OUT_OF_REACH: f64 = 12.0;
/// Ways of each kind that are looked at again where only settings change, by their look and by their brightness each.
const LISTED: usize = 40;
/// No more changes than this are offered.
const MOST_OFFERED: usize = 3;
/// Rungs of a ladder that are answered anew before it is given up.
const MOST_ANEW: usize = 6;
/// Pairs that are looked at by what was computed already, the least first.
const MOST_PAIRS_TRIED: usize = 40;
/// Pairs that are answered anew.
const MOST_PAIRS: usize = 1;
/// No more changes than this are told to have been tried in vain.
const MOST_TRIED: usize = 3;

/// What is there to judge a changed job by.
pub(crate) struct Ground<'a> {
    /// The job as it was written.
    pub asked: &'a Job,
    /// The place, with the people where they stand and the gel on the flash.
    pub scout: Scout<'a>,
    /// The finely solved place with nothing brought into it.
    pub plain: Option<Arc<FinePlace>>,
    /// Every way that was computed in the place as it is.
    pub swept: &'a Swept,
    /// What each of them came to before anything was changed.
    pub judged: &'a [Judged],
    pub watch: &'a Watch<'a>,
}

/// What an answer lacks, with the changes that would help.
///
/// Changes are sought for whatever the answer lacks, and for what keeps the best of the other ways from being it.
pub(crate) fn shortfall(
    ground: &Ground<'_>,
    answered: &Judged,
    others: &[Judged],
) -> Result<Shortfall, Failure> {
    let mut missed: Vec<Judgement> = answered
        .wishes
        .iter()
        .filter(|wish| wish.lacks())
        .cloned()
        .collect();
    missed.sort_by(|a, b| {
        let forbids = |wish: &Judgement| wish.forbids();
        forbids(b).cmp(&forbids(a)).then(b.points.total_cmp(&a.points))
    });
    let nearest: Vec<&Judged> = std::iter::once(answered)
        .chain(others.iter().take(CONSIDERED))
        .collect();
    let shortlist = shortlist(ground.judged);
    let ladders = ladders(ground.scout.job, &nearest);
    let mut hopes = Vec::new();
    let mut tried = Vec::new();
    for ladder in &ladders {
        match climb(ground, &shortlist, ladder, answered)? {
            Some(rung) => hopes.push(ladder.rungs[rung..].to_vec()),
            None => tried.extend(ladder.rungs.last().cloned()),
        }
    }
    let mut changes = kept(ground, hopes, answered, &mut tried)?;
    if changes.is_empty() {
        let pairs = pairs(ground, &shortlist, &ladders, answered)?;
        changes = kept(ground, vec![pairs], answered, &mut tried)?;
    }
    if changes.is_empty() {
        changes = kept(ground, to_bring(ground.scout.job), answered, &mut tried)?;
    }
    changes.sort_by(|a, b| a.effort.total_cmp(&b.effort));
    tried.truncate(MOST_TRIED);
    Ok(Shortfall {
        impossible: !answered.possible(),
        missed,
        changes,
        tried,
    })
}

/// Of each kind of way those that look best and those that are brightest among the good ones: where only settings change,
/// one of these is the answer.
fn shortlist(judged: &[Judged]) -> Vec<&Way> {
    let mut kinds: Vec<(Kind, Vec<(f64, &Judged)>)> = Vec::new();
    for judged in judged {
        let kind = kind_of(&judged.way);
        let entry = (look_points(judged), judged);
        match kinds.iter_mut().find(|(known, _)| *known == kind) {
            Some((_, all)) => all.push(entry),
            None => kinds.push((kind, vec![entry])),
        }
    }
    let mut list = Vec::new();
    for (_, mut all) in kinds {
        all.sort_by(|a, b| a.0.total_cmp(&b.0));
        let good = all[0].0 + OUT_OF_REACH;
        let (best, rest) = all.split_at(all.len().min(LISTED));
        let mut bright: Vec<_> = rest.iter().filter(|(points, _)| *points < good).collect();
        bright.sort_by(|a, b| b.1.full.total_cmp(&a.1.full));
        let bright = bright.into_iter().take(LISTED);
        list.extend(best.iter().chain(bright).map(|(_, judged)| &judged.way));
    }
    list
}

/// Points of what a way looks like, whatever its settings.
fn look_points(judged: &Judged) -> f64 {
    let look = |wish: &&Judgement| {
        !matches!(
            wish.kind,
            WishKind::Exposure
                | WishKind::Power
                | WishKind::Recycle
                | WishKind::Ambient
                | WishKind::Fill
                | WishKind::Zone
        )
    };
    judged.wishes.iter().filter(look).map(|wish| wish.points).sum()
}

/// The least pairs of changes of settings after which, as far as the shortlist says, nothing is lacking.
fn pairs(
    ground: &Ground<'_>,
    shortlist: &[&Way],
    ladders: &[Ladder],
    answered: &Judged,
) -> Result<Vec<Change>, Failure> {
    let ladders: Vec<&Ladder> = ladders
        .iter()
        .filter(|ladder| ladder.reach == Reach::Settings)
        .collect();
    let mut pairs: Vec<(f64, Change)> = Vec::new();
    for (index, one) in ladders.iter().enumerate() {
        for other in &ladders[index + 1..] {
            // Whole stops: between two such changes a third of one is no matter.
            for first in one.rungs.iter().skip(2).step_by(3) {
                for second in other.rungs.iter().skip(2).step_by(3) {
                    let both = Change::Both {
                        first: Box::new(first.clone()),
                        second: Box::new(second.clone()),
                    };
                    pairs.push((effort_of(&both), both));
                }
            }
        }
    }
    pairs.sort_by(|a, b| a.0.total_cmp(&b.0));
    let mut hopeful = Vec::new();
    for (_, both) in pairs.into_iter().take(MOST_PAIRS_TRIED) {
        begin(ground.watch, Step::Changing)?;
        let job = both.apply(ground.scout.job);
        let found = best_listed(&job, ground, shortlist)?;
        if found.is_some_and(|found| helps(&found, answered)) {
            hopeful.push(both);
        }
        if hopeful.len() == MOST_PAIRS {
            break;
        }
    }
    Ok(hopeful)
}

/// Of each ladder the first of these rungs after which the job, answered as if it had been written so, lacks nothing; the
/// least first. Where none of them helps, the last that was looked at goes to `tried`.
fn kept(
    ground: &Ground<'_>,
    mut hopes: Vec<Vec<Change>>,
    answered: &Judged,
    tried: &mut Vec<Change>,
) -> Result<Vec<Offer>, Failure> {
    hopes.retain(|rungs| !rungs.is_empty());
    hopes.sort_by(|a, b| effort_of(&a[0]).total_cmp(&effort_of(&b[0])));
    let mut offers = Vec::new();
    for rungs in hopes {
        let mut in_vain = None;
        for change in rungs.into_iter().take(MOST_ANEW) {
            let job = change.apply(ground.asked);
            // People who cannot stand there are no change worth offering.
            let known = || Known {
                scout: &ground.scout,
                plain: ground.plain.clone(),
            };
            let place = keeps_the_place(ground.asked, &change).then(known);
            let found = match anew(&job, place, ground.scout.seed, ground.watch) {
                Err(Failure::Stopped) => return Err(Failure::Stopped),
                found => found.ok(),
            };
            if let Some(found) = found.filter(|found| helps(found, answered)) {
                offers.push(offered(change, job, &found)?);
                in_vain = None;
                break;
            }
            in_vain = Some(change);
        }
        tried.extend(in_vain);
        if offers.len() == MOST_OFFERED {
            break;
        }
    }
    Ok(offers)
}

/// Whether a changed answer lacks nothing, and is no harder to hold still.
fn helps(found: &Judged, answered: &Judged) -> bool {
    found.met() && (hand_held(found.settings.shutter) || !hand_held(answered.settings.shutter))
}

/// Whether a change leaves the place, its light, and where people and flash may be as they were.
fn keeps_the_place(asked: &Job, change: &Change) -> bool {
    let keeps = match change {
        Change::RaiseSpeed { .. }
        | Change::AllowSpeeds { .. }
        | Change::LowerSpeed { .. }
        | Change::OpenUp { .. }
        | Change::StopDown { .. }
        | Change::KeepInHand { .. }
        | Change::WaitLonger { .. }
        | Change::AllowCast { .. }
        | Change::AnySkin
        | Change::AnySoftness { .. }
        | Change::SettleRatio { .. }
        | Change::FacesDiffer { .. }
        | Change::SettleBackground { .. } => true,
        Change::Bring { thing } => matches!(thing, Brought::Filter { .. }),
        Change::Both { first, second } => {
            return keeps_the_place(asked, first) && keeps_the_place(asked, second);
        }
        // Another key may send a free flash to other places.
        Change::AllowAngle { .. } | Change::OtherSide { .. } | Change::KeyHeight { .. } => {
            asked.ask.stand != FlashStand::Anywhere
        }
        Change::DimAmbient { .. }
        | Change::HoldBoard { .. }
        | Change::FlashOffCamera { .. }
        | Change::FlashElsewhere { .. }
        | Change::MoveSitter { .. } => false,
    };
    keeps && asked.ask.may_move_m <= 0.0
}

fn offered(change: Change, job: Job, found: &Judged) -> Result<Offer, Failure> {
    Ok(Offer {
        effort: effort_of(&change),
        then: then(&job, found)?,
        change,
        job: Box::new(job),
    })
}

/// The first rung after which, as far as what was computed already says, nothing is lacking.
fn climb(
    ground: &Ground<'_>,
    shortlist: &[&Way],
    ladder: &Ladder,
    answered: &Judged,
) -> Result<Option<usize>, Failure> {
    let met_on = |index: usize| -> Result<bool, Failure> {
        begin(ground.watch, Step::Changing)?;
        let job = ladder.rungs[index].apply(ground.scout.job);
        let found = match ladder.reach {
            Reach::Settings => best_listed(&job, ground, shortlist)?,
            Reach::Look => best_here(&job, ground)?,
            Reach::Place => return hopeful_in_new_place(&job, ground),
        };
        Ok(found.is_some_and(|found| helps(&found, answered)))
    };
    let mut first = None;
    if ladder.nested {
        // The highest rung says whether there is anything to look for.
        let (mut low, mut high) = (0, ladder.rungs.len());
        let mut at = high - 1;
        while low < high {
            match met_on(at)? {
                true => {
                    first = Some(at);
                    high = at;
                }
                false => low = at + 1,
            }
            at = (low + high) / 2;
        }
    } else {
        for index in 0..ladder.rungs.len() {
            if met_on(index)? {
                first = Some(index);
                break;
            }
        }
    }
    Ok(first)
}

/// The scout of a changed job in the same place.
fn changed<'a>(job: &'a Job, ground: &Ground<'a>) -> Scout<'a> {
    Scout {
        job,
        dimmed: dimming(ground.scout.job, job),
        ..ground.scout
    }
}

/// The best way of a changed job in the same place, of those on the shortlist.
fn best_listed(job: &Job, ground: &Ground<'_>, shortlist: &[&Way]) -> Result<Option<Judged>, Failure> {
    let scout = &changed(job, ground);
    best_if_near(scout, judge_in_passing(scout, shortlist)?)
}

/// The best way of a changed job in the same place.
fn best_here(job: &Job, ground: &Ground<'_>) -> Result<Option<Judged>, Failure> {
    let scout = &changed(job, ground);
    best_if_near(scout, judge_all(scout, ground.swept)?)
}

/// The best of these, slid into place, unless all of them are hopeless.
fn best_if_near(scout: &Scout<'_>, all: Vec<Judged>) -> Result<Option<Judged>, Failure> {
    // A compass search slides an aim about; it does not make up for much.
    if all.iter().all(|judged| judged.missed() > OUT_OF_REACH) {
        return Ok(None);
    }
    Ok(best_of(scout, all)?.into_iter().next())
}

/// The factor by which a changed job's ambient is weaker.
fn dimming(before: &Job, after: &Job) -> f64 {
    match (before.ambients.first(), after.ambients.first()) {
        (Some(a), Some(b)) => b.reading.stops_over(a.reading).exp2(),
        _ => 1.0,
    }
}

/// Whether a sketch of the changed place is good enough for an answer of its own.
fn hopeful_in_new_place(job: &Job, ground: &Ground<'_>) -> Result<bool, Failure> {
    let Ok(survey) = Survey::new(job, Fineness::SKETCH, ground.scout.seed) else {
        // A place where people cannot stand is no change worth offering.
        return Ok(false);
    };
    let scout = &Scout::new(job, &survey, ground.scout.beams, ground.scout.seed);
    let best = best_of(scout, judge_all(scout, &sweep(scout))?)?;
    Ok(best.first().is_some_and(|sketch| sketch.missed() < NEARLY))
}

/// Where a change leads, in short.
fn then(job: &Job, found: &Judged) -> Result<Then, Failure> {
    let power = settable_power(job, found.power)?;
    Ok(Then {
        way: found.way.id(),
        settings: found.settings,
        power,
        zoom_mm: found.way.zoom_mm,
        in_hand: Stops(in_hand(found.power, power.stops_below_full(), found.total())),
    })
}
