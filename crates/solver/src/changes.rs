//! A useful no: what is short, and the smallest changes that would make the ask possible.
//!
//! Every kind of change is a ladder of growing amounts. A ladder is climbed until the whole search, run
//! again on the changed job, lacks nothing. The first rung that does is the
//! smallest change of its kind; changes are then sorted by how much they ask of the photographer and the
//! picture. How much that is, in points like those of the score, is ours.

pub(crate) mod effort;
pub(crate) mod ladders;

use crate::changes::effort::effort_of;
use crate::changes::ladders::{Ladder, ladders};
use crate::choose::search::{Swept, best_of, judge_all, sweep};
use crate::judge::exposure::settable_power;
use crate::judge::judged::Judged;
use crate::place::survey::Survey;
use crate::watch::{Watch, begin};
use crate::ways::scout::Scout;
use answer::{Failure, Job, Judgement, Offer, Shortfall, Step, Then};
use transport::Fineness;
use units::Stops;

/// Other ways whose misses are considered.
const CONSIDERED: usize = 5;
/// A sketch that lacks no more than this, in points, is worth solving in full.
const NEARLY: f64 = 6.0;
/// What a way of the sweep may lack, in points, and still be slid into place.
const OUT_OF_REACH: f64 = 12.0;
/// No more changes than this are offered.
const MOST_OFFERED: usize = 4;
/// No more changes than this are told to have been tried in vain.
const MOST_TRIED: usize = 3;

/// What is there to judge a changed job by.
pub(crate) struct Ground<'a> {
    pub scout: Scout<'a>,
    /// Every way that was computed in the place as it is.
    pub swept: &'a Swept,
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
    let mut missed: Vec<Judgement> = answered.wishes.iter().filter(|wish| wish.lacks()).cloned().collect();
    missed.sort_by(|a, b| {
        let forbids = |wish: &Judgement| wish.forbids();
        forbids(b).cmp(&forbids(a)).then(b.points.total_cmp(&a.points))
    });
    let nearest: Vec<&Judged> = std::iter::once(answered)
        .chain(others.iter().take(CONSIDERED))
        .collect();
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
    tried.truncate(MOST_TRIED);
    Ok(Shortfall {
        impossible: !answered.possible(),
        missed,
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
        dimmed: dimming(ground.scout.job, job),
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
