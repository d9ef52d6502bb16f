//! A way of lighting with its reading, its faults and what it misses.

use crate::judge::exposure::{full_power, power_for_total};
use crate::judge::limits::{limits, weight};
use crate::judge::outcome::Outcome;
use crate::judge::score::{cast_unusable, faults, spread, sum_of};
use crate::judge::settings::settings_for;
use crate::place::survey::AmbientLx;
use crate::practice::{HOPELESS_STOPS, POOR_POINTS};
use crate::ways::light::angles;
use crate::ways::scout::Scout;
use crate::ways::way::{Way, own_reflectance};
use answer::{Failure, FaultPoints, Job, KeyReading, Limit, Note, Settings, Verdict};
use units::Illuminance;

/// A way with its reading, its faults and what it misses.
#[derive(Clone, Debug)]
pub(crate) struct Judged {
    pub way: Way,
    pub key: KeyReading,
    /// What the camera is set to.
    pub settings: Settings,
    /// Stops of full power over an exact exposure, flash alone.
    pub full: f64,
    /// Exact power for flash and ambient together, in stops below 1/1.
    pub power: f64,
    pub faults: Vec<FaultPoints>,
    pub points: f64,
    pub limits: Vec<Limit>,
    /// What the camera settings could not meet.
    pub notes: Vec<Note>,
}

impl Judged {
    /// Whether everything insisted on is met.
    pub fn met(&self) -> bool {
        self.limits.iter().all(|limit| limit.met)
    }

    /// What it misses, in points.
    pub fn missed(&self) -> f64 {
        self.limits.iter().map(weight).sum()
    }

    /// Ways that meet the ask come first, then the least faulty; what is missed counts as a fault twice.
    pub fn rank(&self) -> (bool, f64) {
        (!self.met(), self.points + self.missed())
    }

    pub fn before(&self, other: &Judged) -> bool {
        self.rank() < other.rank()
    }
}

/// What a photographer would say of a way against this ask.
pub(crate) fn judge(scout: &Scout<'_>, way: Way) -> Result<Judged, Failure> {
    let Scout { job, survey, .. } = *scout;
    let colour = job.bag.flash.colour();
    let facing = survey.stage.sitters[0].facing;
    let dose = way.light.dose(colour);
    let own = own_reflectance(job, &way.route);
    let key = way.light.reading(colour, &own, facing);
    let (settings, notes) = settings_for(job, scout.ambient.face, dose)?;
    let full = full_power(dose, settings.aperture, settings.speed());
    let exposing = settings.exposing();
    let ambient_lx = scout.ambient.face.max(1e-9);
    let ambient = camera::ambient_exposure(Illuminance(ambient_lx), &exposing).value();
    let power = power_for_total(full, ambient);
    let from = angles(way.light.key_direction, facing);
    let spread = spread(&way, dose);
    let outcome = Outcome {
        key: &key,
        from,
        power,
        spread,
        background: background(scout.ambient, &way, dose, power, settings.shutter.value()),
        ambient,
        settings: &settings,
    };
    let limits = limits(job, &outcome);
    let faults = faults(job, &way, &outcome);
    let points = sum_of(&faults);
    Ok(Judged {
        way,
        key,
        settings,
        full,
        power,
        faults,
        points,
        limits,
        notes,
    })
}

/// Light on the background against the face, in stops, with flash at a power and ambient for a time.
pub(crate) fn background(ambient: AmbientLx, way: &Way, dose: f64, power: f64, shutter_s: f64) -> f64 {
    let flash = (-power.max(0.0)).exp2();
    let there = f64::from(way.light.background) * flash + ambient.background * shutter_s;
    let face = dose * flash + ambient.face * shutter_s;
    (there.max(1e-12) / face.max(1e-12)).log2()
}

/// Whether a way can be the answer at all.
pub(crate) fn usable(job: &Job, judged: &Judged) -> bool {
    !cast_unusable(job, &judged.key) && judged.full > -HOPELESS_STOPS
}

/// Whether a way serves beside the answer.
pub(crate) fn verdict_of(job: &Job, judged: &Judged, chosen: &Judged) -> Verdict {
    if !usable(job, judged) {
        Verdict::Unusable
    } else if judged.points > chosen.points + POOR_POINTS {
        Verdict::Poor
    } else {
        Verdict::Possible
    }
}
