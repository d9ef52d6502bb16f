//! Where answering starts, for a command and for a request alike.

use answer::{Answer, Failure};
use shoot::Shoot;

/// Seed of everything that is computed: the same shoot always gives the same answer and the same picture.
pub const SEED: u64 = 1;

/// Answers a shoot.
///
/// # Errors
/// A place that cannot be lit.
pub fn answer(shoot: &Shoot) -> Result<Answer, Failure> {
    solver::answer(&shoot.job, SEED)
}
