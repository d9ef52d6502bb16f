//! Where answering starts, for a command and for a request alike.

use shoot::Shoot;
use solver::{Answer, SolverError};

/// Seed of everything that is computed: the same shoot always gives the same answer and the same picture.
pub const SEED: u64 = 1;

/// Answers a shoot.
///
/// # Errors
/// A place that cannot be lit.
pub fn answer(shoot: &Shoot) -> Result<Answer, SolverError> {
    solver::answer(&shoot.job, SEED)
}
