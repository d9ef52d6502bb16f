//! From the job to the answer, step by step.

use crate::changes::{Ground, shortfall};
use crate::choose::confirm::confirmed;
use crate::choose::gel::{choose_gel, wearing};
use crate::choose::search::{first_usable, searched, zoom_gains};
use crate::choose::stand::{moved, where_to_stand};
use crate::explain::map::map_cells;
use crate::explain::sensitivity::moves;
use crate::explain::{explain, finished, in_fine_place};
use crate::place::fine::FinePlace;
use crate::place::survey::Survey;
use crate::watch::{Watch, begin};
use crate::ways::beams::Beams;
use crate::ways::scout::Scout;
use answer::{Answer, Failure, Job, Step};
use glam::Vec3;
use light::Gel;
use std::sync::Arc;
use transport::{Fineness, Source};

/// An answer, with the place in which its light was read: solved as finely as a picture needs it.
pub struct Solved {
    /// The answer.
    pub answer: Answer,
    /// The place [as answered](Job::as_answered), with the boards that the answer brings into it.
    pub place: Arc<FinePlace>,
    /// The flash, placed and aimed.
    pub flash: Source,
}

/// Answers a job. The same job and seed always give the same answer.
///
/// # Errors
/// A place that cannot be built, no sitter in it, or no light that reaches the face. An ask that falls short
/// is answered: the answer says by how much, and what would help.
pub fn answer(job: &Job, seed: u64) -> Result<Answer, Failure> {
    answer_watched(job, seed, &|_| true)
}

/// [`answer()`] for a person who waits: `watch` hears of every step and may stop the work by returning false.
///
/// # Errors
/// Those of [`answer()`], and [`Failure::Stopped`].
pub fn answer_watched(job: &Job, seed: u64, watch: &Watch) -> Result<Answer, Failure> {
    Ok(answer_with_place(job, seed, watch)?.answer)
}

/// [`answer_watched`] with the place that it has solved finely, so that a picture of the answer need not solve it again.
///
/// # Errors
/// Those of [`answer_watched`].
pub fn answer_with_place(job: &Job, seed: u64, watch: &Watch) -> Result<Solved, Failure> {
    let bare = wearing(job, None)?;
    let beams = Beams::of(&bare)?;
    let by = where_to_stand(&bare, &beams, seed, watch)?;
    let standing = moved(&bare, by);
    let mut solved = answer_standing(&standing, &beams, seed, watch)?;
    solved.answer.moved = (by != Vec3::ZERO).then(|| standing.sitters[0].stand);
    Ok(solved)
}

/// Answers a job whose people stay where they are and whose flash is bare.
fn answer_standing(job: &Job, beams: &Beams, seed: u64, watch: &Watch) -> Result<Solved, Failure> {
    // Survey the place.
    begin(watch, Step::Solving)?;
    let survey = Survey::new(job, Fineness::operator_in(job.place.room.area()), seed)?;
    let bare = Scout::new(job, &survey, beams, seed);

    // Sweep every way of lighting it, judge each, and improve the best of each kind.
    begin(watch, Step::Sweeping)?;
    let mut found = searched(&bare)?;

    // Choose the gel on the best way with the bare flash; then weigh every way anew with it.
    let gel = choose_gel(&bare, &first_usable(job, &found.best).way)?;
    let gelled = gel.worn.map(|worn| gelled(job, worn)).transpose()?;
    let scout = match &gelled {
        Some((job, beams)) => Scout { job, beams, ..bare },
        None => bare,
    };
    if gelled.is_some() {
        begin(watch, Step::Gelling)?;
        found = searched(&scout)?;
    }
    zoom_gains(&scout, &mut found.best);

    // Confirm: let the referee choose among those that are too close to call.
    begin(watch, Step::Confirming)?;
    let (at, fine) = confirmed(&scout, &found.best)?;
    let chosen = found.best.remove(at);
    let finished = finished(&scout, &chosen.way, &fine)?;
    let there = in_fine_place(&scout, &fine);

    // Doubt: see how the answer moves where the place is a little different.
    begin(watch, Step::Doubting)?;
    let moves = moves(&scout, &chosen.way);

    // Explain what was chosen, and what was not.
    let mut answer = explain(&there, &finished, &found.best, &fine, moves)?;
    answer.map.cells = map_cells(scout.job, &found.swept, &found.judged, &finished);
    answer.notes.extend(gel.to_buy);

    // Where something is lacking, look for the smallest changes that would help.
    if !finished.met() {
        let ground = Ground {
            scout,
            swept: &found.swept,
            judged: &found.judged,
            watch,
        };
        answer.shortfall = Some(shortfall(&ground, &finished, &found.best)?);
    }
    Ok(Solved {
        answer,
        place: fine.place,
        flash: fine.source,
    })
}

/// The job with this gel on its flash, and the beams behind it.
fn gelled(job: &Job, gel: Gel) -> Result<(Job, Beams), Failure> {
    let job = wearing(job, Some(gel))?;
    let beams = Beams::of(&job)?;
    Ok((job, beams))
}
