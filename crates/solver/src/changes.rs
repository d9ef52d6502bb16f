//! A useful no: what is short, and the smallest changes that would make the ask possible.
//!
//! Every kind of change is a ladder of growing amounts. A ladder is climbed until the whole search, run
//! again on the changed job, meets everything that is insisted on. The first rung that does is the
//! smallest change of its kind; changes are then sorted by how much they ask of the photographer and the
//! picture. How much that is, in points like those of the score, is ours.

pub(crate) mod effort;
pub(crate) mod ladders;

use crate::changes::effort::effort_of;
use crate::changes::ladders::{Ladder, ladders};
use crate::choose::search::{Swept, best_of, judge_all, sweep};
use crate::judge::exposure::settable_power;
use crate::judge::judged::Judged;
use crate::judge::limits::weight;
use crate::place::survey::Survey;
use crate::watch::{Watch, begin};
use crate::ways::scout::Scout;
use answer::{Failure, Job, Limit, Offer, Shortfall, Step, Then};
use transport::Fineness;
use units::Stops;

/// Ways whose misses are considered.
const CONSIDERED: usize = 6;
/// A sketch that misses no more than this, in points, is worth solving in full.
const NEARLY: f64 = 1.0;
/// What a way of the sweep may miss, in points, and still be slid into place.
const OUT_OF_REACH: f64 = 1.5;
/// No more changes than this are offered.
const MOST_OFFERED: usize = 4;

/// What is there to judge a changed job by.
pub(crate) struct Ground<'a> {
    pub scout: Scout<'a>,
    /// Every way that was computed in the place as it is.
    pub swept: &'a Swept,
    pub watch: &'a Watch<'a>,
}

/// The shortfall of an ask that none of these ways meets, with the changes that would help.
///
/// `best` holds the best way of each kind, the answer among them, so it is never empty. What is said to be short is what
/// the way with the fewest misses misses: that one is nearest to being possible. Changes are sought for whatever any
/// of the better ways misses.
pub(crate) fn shortfall(ground: &Ground<'_>, best: &[&Judged]) -> Result<Shortfall, Failure> {
    let mut nearest: Vec<&Judged> = best.to_vec();
    nearest.sort_by(|a, b| {
        let misses = |judged: &Judged| judged.limits.iter().filter(|l| !l.met).count();
        misses(a).cmp(&misses(b)).then(a.missed().total_cmp(&b.missed()))
    });
    nearest.truncate(CONSIDERED);
    let first = nearest[0];
    let mut binding: Vec<Limit> = first.limits.iter().filter(|l| !l.met).cloned().collect();
    binding.sort_by(|a, b| weight(b).total_cmp(&weight(a)));
    let mut changes = Vec::new();
    let mut tried = Vec::new();
    for ladder in ladders(ground.scout.job, &nearest) {
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
fn climb(ground: &Ground<'_>, ladder: &Ladder) -> Result<Option<Offer>, Failure> {
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
    let job = change.apply(ground.scout.job);
    Ok(Some(Offer {
        effort: effort_of(&change),
        then: then(&job, &found)?,
        change,
        job: Box::new(job),
    }))
}

/// The best way on a rung, if it meets everything.
fn met_on(ground: &Ground<'_>, ladder: &Ladder, index: usize) -> Result<Option<Judged>, Failure> {
    begin(ground.watch, Step::Changing)?;
    let job = ladder.rungs[index].apply(ground.scout.job);
    let found = if ladder.new_place {
        best_in_new_place(&job, ground)?
    } else {
        best_here(&job, ground)?
    };
    Ok(found.filter(Judged::met))
}

/// The best way of a changed job in the same place.
fn best_here(job: &Job, ground: &Ground<'_>) -> Result<Option<Judged>, Failure> {
    let scout = &Scout {
        job,
        ambient: ground.scout.ambient.times(dimming(ground.scout.job, job)),
        ..ground.scout
    };
    let all = judge_all(scout, ground.swept)?;
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

/// The best way where something in the place has changed: tried on a sketch first, then solved in full.
fn best_in_new_place(job: &Job, ground: &Ground<'_>) -> Result<Option<Judged>, Failure> {
    let solve = |fineness: Fineness| -> Result<Option<Judged>, Failure> {
        let Ok(survey) = Survey::new(job, fineness, ground.scout.seed) else {
            // A place where people cannot stand is no change worth offering.
            return Ok(None);
        };
        let scout = &Scout::new(job, &survey, ground.scout.beams, ground.scout.seed);
        let judged = judge_all(scout, &sweep(scout))?;
        Ok(best_of(scout, judged)?.into_iter().next())
    };
    if solve(Fineness::SKETCH)?.is_some_and(|sketch| sketch.missed() < NEARLY) {
        solve(Fineness::operator_in(job.place.room.area()))
    } else {
        Ok(None)
    }
}

/// Where a change leads, in short.
fn then(job: &Job, found: &Judged) -> Result<Then, Failure> {
    Ok(Then {
        way: found.way.id(),
        settings: found.settings,
        power: settable_power(job, found.power)?,
        zoom_mm: found.way.zoom_mm,
        in_hand: Stops(found.power.max(0.0)),
    })
}
