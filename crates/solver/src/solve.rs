//! From the job to the answer.

use crate::changes::{Ground, shortfall};
use crate::choose::confirm::confirmed;
use crate::choose::gel::{choose_gel, wearing};
use crate::choose::search::{Searched, first_usable, searched, zoom_gains};
use crate::choose::stand::{moved, where_to_stand};
use crate::explain::explain;
use crate::explain::map::map_cells;
use crate::explain::sensitivity::moves;
use crate::judge::judged::Judged;
use crate::place::survey::Survey;
use crate::watch::{Watch, begin};
use crate::ways::beams::Beams;
use answer::{Answer, Failure, Job, Step};
use glam::Vec3;
use transport::Fineness;

/// Answers a job. The same job and seed always give the same answer.
///
/// # Errors
/// A place that cannot be built, no sitter in it, or no light that reaches the face. An ask that falls short
/// is answered: the answer says by how much, and what would help.
pub fn answer(job: &Job, seed: u64) -> Result<Answer, Failure> {
    answer_watched(job, seed, &|_| true)
}

/// [`answer`] for a person who waits: `watch` hears of every step and may stop the work by returning false.
///
/// # Errors
/// Those of [`answer`], and [`Failure::Stopped`].
pub fn answer_watched(job: &Job, seed: u64, watch: &Watch) -> Result<Answer, Failure> {
    let job = &wearing(job, None)?;
    let beams = Beams::of(job)?;
    let by = where_to_stand(job, &beams, seed, watch)?;
    if by != Vec3::ZERO {
        let moved = moved(job, by);
        let mut answer = answer_here(&moved, &beams, seed, watch)?;
        answer.moved = Some(moved.sitters[0].stand);
        return Ok(answer);
    }
    answer_here(job, &beams, seed, watch)
}

/// Answers a job whose people stay where they are.
fn answer_here(job: &Job, beams: &Beams, seed: u64, watch: &Watch) -> Result<Answer, Failure> {
    begin(watch, Step::Solving)?;
    let mut survey = Survey::new(job, Fineness::operator_in(job.place.room.area()), seed)?;
    begin(watch, Step::Sweeping)?;
    let mut searched = searched(job, &survey, beams)?;
    // The gel is chosen on the best way with the bare flash; then every way is weighed anew with it.
    let bare_light = &first_usable(job, &searched.best).way.light;
    let gel = choose_gel(job, &survey, bare_light)?;
    let (gelled, gelled_beams);
    let (mut job, mut beams) = (job, beams);
    if gel.worn.is_some() {
        begin(watch, Step::Gelling)?;
        gelled = wearing(job, gel.worn)?;
        gelled_beams = Beams::of(&gelled)?;
        (job, beams) = (&gelled, &gelled_beams);
        searched = self::searched(job, &survey, beams)?;
    }
    let Searched {
        swept,
        judged,
        mut best,
    } = searched;
    zoom_gains(job, &survey, beams, &mut best);
    begin(watch, Step::Confirming)?;
    let (chosen_at, fine) = confirmed(job, &survey, &best, seed)?;
    let chosen = best.remove(chosen_at);
    let cells = map_cells(job, &swept, &judged, &chosen);
    begin(watch, Step::Doubting)?;
    let moves = moves(job, beams, &chosen.way, seed)?;
    let mut answer = explain(job, &survey, &chosen, &best, fine, moves, seed)?;
    answer.map.cells = cells;
    answer.notes.extend(gel.to_buy);
    if !chosen.met() {
        let mut ground = Ground {
            job,
            survey: &mut survey,
            beams,
            swept: &swept,
            seed,
            watch,
        };
        let all: Vec<&Judged> = [&chosen].into_iter().chain(&best).collect();
        answer.shortfall = Some(shortfall(&mut ground, &all)?);
    }
    Ok(answer)
}
