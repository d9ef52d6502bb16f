//! What it takes to say what a way of lighting does in a place.

use crate::place::survey::{AmbientLx, Survey};
use crate::ways::beams::Beams;
use answer::Job;

/// A job in its surveyed place, with the beams of its flash: all that it takes to try ways of lighting there.
#[derive(Clone, Copy)]
pub(crate) struct Scout<'a> {
    pub job: &'a Job,
    pub survey: &'a Survey,
    pub beams: &'a Beams,
    /// The light that is there without the flash.
    pub ambient: AmbientLx,
    pub seed: u64,
}

impl<'a> Scout<'a> {
    /// A scout in a place as it was surveyed.
    pub fn new(job: &'a Job, survey: &'a Survey, beams: &'a Beams, seed: u64) -> Self {
        Scout {
            job,
            survey,
            beams,
            ambient: survey.ambient,
            seed,
        }
    }
}
