//! A useful no: what is short, and the smallest changes that would make the ask possible.
//!
//! Every kind of change is a ladder of growing amounts. A ladder is climbed until the whole search, run
//! again on the changed job, meets everything that is insisted on. The first rung that does is the
//! smallest change of its kind; changes are then sorted by how much they ask of the photographer and the
//! picture. How much that is, in points like those of the score, is ours.

pub(crate) mod effort;
pub(crate) mod ladders;

use crate::changes::effort::effort;
use crate::changes::ladders::{Ladder, ladders};
use crate::choose::search::{Swept, best_of, judge_all, sweep};
use crate::judge::exposure::settable_power;
use crate::judge::judged::Judged;
use crate::judge::limits::weight;
use crate::judge::settings::settings_for;
use crate::place::survey::Survey;
use crate::watch::{Watch, begin};
use crate::ways::beams::Beams;
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
    let judged = judge_all(job, ground.survey, ground.swept);
    let best = judged.and_then(|all| {
        // A compass search slides an aim about; it does not make up for much.
        if all.iter().all(|judged| judged.missed() > OUT_OF_REACH) {
            return Ok(Vec::new());
        }
        best_of(job, ground.survey, ground.beams, all)
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
        let swept = sweep(job, &survey, ground.beams);
        let judged = judge_all(job, &survey, &swept)?;
        Ok(best_of(job, &survey, ground.beams, judged)?.into_iter().next())
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
