//! Where answering starts, for a command and for a request alike.

use answer::{Answer, Failure};
use shoot::Shoot;
use solver::Solved;

/// Seed of everything that is computed: the same shoot always gives the same answer and the same picture.
pub const SEED: u64 = 1;

/// Answers a shoot.
///
/// # Errors
/// A place that cannot be lit.
pub fn answer(shoot: &Shoot) -> Result<Answer, Failure> {
    solver::answer(&shoot.job, SEED)
}

/// Answers a shoot, and hands on the place that was solved for it, so that a picture need not solve it again.
///
/// # Errors
/// A place that cannot be lit.
pub fn answer_with_place(shoot: &Shoot) -> Result<Solved, Failure> {
    solver::answer_with_place(&shoot.job, SEED, &|_| true)
}
