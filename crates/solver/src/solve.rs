//! From the job to the answer, step by step.

use crate::changes::{Ground, shortfall};
use crate::choose::confirm::{in_fine_place, with_alternatives};
use crate::choose::gel::wearing;
use crate::choose::stand::{moved, where_to_stand};
use crate::decide::{Decision, decided};
use crate::explain::explain;
use crate::explain::map::map_cells;
use crate::explain::sensitivity::moves;
use crate::place::fine::FinePlace;
use crate::watch::{Watch, begin};
use crate::ways::beams::Beams;
use answer::{Answer, Failure, Job, Step};
use glam::Vec3;
use std::sync::Arc;
use transport::Source;

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
    let mut solved = answer_standing(job, &standing, &beams, seed, watch)?;
    solved.answer.moved = (by != Vec3::ZERO).then(|| standing.sitters[0].stand);
    Ok(solved)
}

/// Answers a job whose people stay where they are and whose flash is bare; `asked` is the job as it was written.
fn answer_standing(
    asked: &Job,
    job: &Job,
    beams: &Beams,
    seed: u64,
    watch: &Watch,
) -> Result<Solved, Failure> {
    decided(job, beams, seed, watch, |decision| {
        let Decision {
            scout,
            mut found,
            finished,
            fine,
            mut plain,
            to_buy,
        } = decision;
        let (finished, fine) = with_alternatives(&scout, (finished, fine), &mut found.best, &mut plain)?;
        let there = in_fine_place(&scout, &fine);

        // Doubt: see how the answer moves where the place is a little different.
        begin(watch, Step::Doubting)?;
        let moves = moves(&scout, &finished.way);

        // Explain what was chosen, and what was not.
        let mut answer = explain(&there, &finished, &found.best, &fine, moves)?;
        answer.map.cells = map_cells(&scout, &found.swept, &found.judged, &finished, &found.best)?;
        answer.notes.extend(to_buy);

        // Where something is lacking, look for the smallest changes that would help.
        if !finished.met() {
            let ground = Ground {
                asked,
                scout,
                plain,
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
    })
}
