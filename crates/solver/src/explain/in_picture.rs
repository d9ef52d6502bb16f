//! Light at any point of the finished picture.

use crate::place::ambient::ZONE_RAYS;
use crate::place::amounts::Finished;
use crate::ways::fine::Fine;
use answer::Job;
use camera::MID_GREY;
use colour::{LightColour, Spectrum};
use glam::Vec3;
use transport::{Meter, Receptor, SolvedLight, Source, read_light};
use units::Stops;

/// A finished picture in its finely solved place.
#[derive(Clone, Copy)]
pub(crate) struct InPicture<'a> {
    pub job: &'a Job,
    pub fine: &'a Fine,
    pub finished: Finished<'a>,
    /// How far the face lies over an exact exposure.
    pub total: Stops,
}

impl InPicture<'_> {
    /// Light on a surface, in lx s.
    fn light(&self, meter: &Meter) -> f64 {
        let room = &self.fine.place.room;
        let read = |source: &Source, light: &SolvedLight, colour: &LightColour| {
            read_light(room, source, light, meter, ZONE_RAYS).dot(&colour.luminous_weights())
        };
        let flash = read(&self.fine.source, &self.fine.light, self.job.bag.flash.colour());
        let lights = self.fine.place.ambients.iter();
        let ambient = lights.map(|there| there.scale * read(&there.source, &there.light, &there.colour));
        f64::from(self.finished.sum(flash, ambient.sum()))
    }

    /// Tone of a matt surface against mid-grey, in stops: a surface that gets as much light as the face and is exposed as exactly
    /// as it lies above mid-grey by its reflectance alone.
    pub fn tone(&self, at: Vec3, normal: Vec3, reflectance: f64) -> f64 {
        let meter = Meter {
            position: at,
            receptor: Receptor::Flat(normal),
        };
        self.tone_of(self.light(&meter), reflectance)
    }

    /// The same of a surface that gets this much light, in lx s.
    pub fn tone_of(&self, light: f64, reflectance: f64) -> f64 {
        let as_the_face = (light.max(1e-9) / self.finished.dome()).log2();
        (reflectance.max(1e-4) / MID_GREY).log2() + self.total.value() + as_the_face
    }

    /// How light a reflectance looks: the flash shows that as well as any other white light.
    pub fn lightness(&self, reflectance: &Spectrum) -> f64 {
        let weights = self.job.bag.flash.colour().luminous_weights();
        let white: f32 = weights.0.iter().sum();
        f64::from(reflectance.dot(&weights) / white)
    }
}
