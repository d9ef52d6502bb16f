//! What most commands begin with: the shoot that is asked for, and its answer.

use super::failure::Failure;
use crate::files;
use sheet::Voice;
use shoot::{DEMO, DEMO_NAME, Shoot};
use std::path::Path;

/// One set-up of a file, or of the built-in example: the named one, or the first.
///
/// # Errors
/// Everything that is wrong with the file, or that it has no such set-up.
pub fn load(path: Option<&Path>, set_up: Option<&str>) -> Result<Shoot, Failure> {
    Ok(match (path, set_up) {
        (Some(path), set_up) => files::read(path, set_up)?,
        (None, Some(called)) => shoot::parse_called(DEMO_NAME, DEMO, called)?,
        (None, None) => shoot::parse(DEMO_NAME, DEMO)?,
    })
}

/// Answers a shoot; a voice says why it cannot be answered.
///
/// # Errors
/// A place that cannot be lit.
pub(super) fn solve(shoot: &Shoot, voice: Voice) -> Result<answer::Answer, Failure> {
    server::answering::answer(shoot).map_err(Failure::lighting(voice))
}

/// Answers a shoot and keeps the place that was solved for it.
///
/// # Errors
/// A place that cannot be lit.
pub(super) fn solve_with_place(shoot: &Shoot, voice: Voice) -> Result<solver::Solved, Failure> {
    server::answering::answer_with_place(shoot).map_err(Failure::lighting(voice))
}
