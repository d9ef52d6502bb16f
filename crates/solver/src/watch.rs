//! The person who waits: hears of every step, and may stop the work.

use answer::{Failure, Step};

/// Hears of every step before it begins, and may stop the work by returning false.
pub type Watch<'a> = dyn Fn(Step) -> bool + 'a;

/// Announces a step.
pub(crate) fn begin(watch: &Watch, step: Step) -> Result<(), Failure> {
    if watch(step) {
        Ok(())
    } else {
        Err(Failure::Stopped)
    }
}
