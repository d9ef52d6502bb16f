//! From what is there to the way that is the answer: search, gel, and the reading of finely solved places.

use crate::choose::confirm::confirmed;
use crate::choose::gel::{choose_gel, wearing};
use crate::choose::search::{Searched, searched, zoom_gains};
use crate::choose::stand::{moved, where_to_stand};
use crate::judge::judged::Judged;
use crate::place::fine::FinePlace;
use crate::place::survey::Survey;
use crate::watch::{Watch, begin};
use crate::ways::beams::Beams;
use crate::ways::fine::Fine;
use crate::ways::scout::Scout;
use answer::{Failure, Job, Note, Step};
use light::Gel;
use std::sync::Arc;
use transport::Fineness;

/// What was decided.
pub(crate) struct Decision<'a> {
    /// The place and the job with the chosen gel on its flash.
    pub scout: Scout<'a>,
    /// Every way that was computed, and the best of each kind but the chosen one.
    pub found: Searched,
    /// The chosen way as its finely solved place reads it.
    pub finished: Judged,
    pub fine: Fine,
    /// The finely solved place with nothing brought into it.
    pub plain: Option<Arc<FinePlace>>,
    /// A gel that would serve and is not in the bag.
    pub to_buy: Option<Note>,
}

/// A place that was surveyed and finely solved already.
pub(crate) struct Known<'a> {
    pub scout: &'a Scout<'a>,
    pub plain: Option<Arc<FinePlace>>,
}

/// Decides for people who stay where they are and a flash that is bare, and goes on with what was decided.
pub(crate) fn decided<T>(
    job: &Job,
    beams: &Beams,
    seed: u64,
    watch: &Watch,
    then: impl FnOnce(Decision<'_>) -> Result<T, Failure>,
) -> Result<T, Failure> {
    // Survey the place.
    begin(watch, Step::Solving)?;
    let survey = Survey::new(job, Fineness::operator_in(job.place.room.area()), seed)?;
    decided_in(&Scout::new(job, &survey, beams, seed), None, watch, then)
}

/// The same in a place that was surveyed already.
fn decided_in<T>(
    bare: &Scout<'_>,
    plain: Option<Arc<FinePlace>>,
    watch: &Watch,
    then: impl FnOnce(Decision<'_>) -> Result<T, Failure>,
) -> Result<T, Failure> {
    // Sweep every way of lighting it, judge each, and improve the best of each kind.
    let job = bare.job;
    begin(watch, Step::Sweeping)?;
    let (found, mut plain) = match plain {
        Some(plain) => (searched(bare), Some(plain)),
        // Most of both hangs on one core, so the place is solved finely beside the search.
        None => {
            let (found, plain) = rayon::join(|| searched(bare), || FinePlace::new(job, &[], bare.seed));
            (found, plain.ok().map(Arc::new))
        }
    };
    let mut found = found?;

    // Choose the gel on the best way with the bare flash; then weigh every way anew with it.
    let gel = choose_gel(bare, &found.best[0].way)?;
    let gelled = gel.worn.map(|worn| gelled(job, worn)).transpose()?;
    let scout = match &gelled {
        Some((job, beams)) => Scout { job, beams, ..*bare },
        None => *bare,
    };
    if gelled.is_some() {
        begin(watch, Step::Gelling)?;
        found = searched(&scout)?;
    }

    zoom_gains(&scout, &mut found.best);

    // Confirm: let finely solved places choose among those that are too close to call.
    begin(watch, Step::Confirming)?;
    let (finished, fine) = confirmed(&scout, &mut found.best, &mut plain)?;
    then(Decision {
        scout,
        found,
        finished,
        fine,
        plain,
        to_buy: gel.to_buy,
    })
}

/// What a changed job comes to, answered as if it had been written so. `place` is where it was surveyed already, if what has
/// changed leaves the place, its light and the places of the flash as they were.
pub(crate) fn anew(job: &Job, place: Option<Known<'_>>, seed: u64, watch: &Watch) -> Result<Judged, Failure> {
    let quietly = |_: Step| watch(Step::Changing);
    let bare = wearing(job, None)?;
    let beams = Beams::of(&bare)?;
    if let Some(place) = place {
        let scout = Scout {
            job: &bare,
            beams: &beams,
            ..*place.scout
        };
        return decided_in(&scout, place.plain, &quietly, |decision| Ok(decision.finished));
    }
    let by = where_to_stand(&bare, &beams, seed, &quietly)?;
    decided(&moved(&bare, by), &beams, seed, &quietly, |decision| {
        Ok(decision.finished)
    })
}

/// The job with this gel on its flash, and the beams behind it.
fn gelled(job: &Job, gel: Gel) -> Result<(Job, Beams), Failure> {
    let job = wearing(job, Some(gel))?;
    let beams = Beams::of(&job)?;
    Ok((job, beams))
}
