//! What it takes to say what a way of lighting does in a place.

use crate::place::ambient::AmbientThere;
use crate::place::amounts::Amounts;
use crate::place::survey::Survey;
use crate::ways::beams::Beams;
use answer::Job;

/// A job in its surveyed place, with the beams of its flash: all that it takes to try ways of lighting there.
#[derive(Clone, Copy)]
pub(crate) struct Scout<'a> {
    pub job: &'a Job,
    pub survey: &'a Survey,
    pub beams: &'a Beams,
    /// The light that is there without the flash: each of it, and all of it at the meters, in lx.
    pub lights: &'a [AmbientThere],
    pub ambient: &'a Amounts,
    /// How many times as strong the light that is there is as it was surveyed.
    pub dimmed: f64,
    pub seed: u64,
}

impl<'a> Scout<'a> {
    /// The light that is there without the flash at the first face, dome towards the camera, in lx.
    pub fn ambient_lx(&self) -> f64 {
        f64::from(self.ambient.dome) * self.dimmed
    }

    /// A scout in a place as it was surveyed.
    pub fn new(job: &'a Job, survey: &'a Survey, beams: &'a Beams, seed: u64) -> Self {
        Scout {
            job,
            survey,
            beams,
            lights: &survey.ambients,
            ambient: &survey.ambient,
            dimmed: 1.0,
            seed,
        }
    }
}
