//! Power, and how the exposure at the face adds up.

use crate::place::ambient::{AmbientThere, all_lx};
use crate::practice::{CLICK, DEEPEST_APERTURE, PLAIN_APERTURE, SLOWEST_HAND_HELD_S, SLOWEST_S};
use crate::ways::way::Way;
use answer::{Exposure, Failure, FlashSetting, Job, LightLevel, Note, Settings};
use camera::{
    CIRCLE_OF_CONFUSION_MM, DepthLimits, Focus, add_exposures, ambient_exposure, aperture_for_depth,
    flash_exposure,
};
use units::{
    FNumber, Illuminance, Iso, LuminousExposure, Metres, Millimetres, PowerFraction, ShutterTime, Stops,
    UnitError,
};

/// The aperture that is insisted on, that holds the depth, or the plain one.
pub(crate) fn plain_aperture(job: &Job) -> Result<FNumber, Failure> {
    if let Some(aperture) = job.ask.aperture {
        return Ok(aperture);
    }
    match aperture_for_asked_depth(job) {
        None => Ok(FNumber::new(PLAIN_APERTURE)?),
        Some(Ok(aperture)) => Ok(aperture.nearest_third()),
        Some(Err(_)) => Ok(FNumber::new(DEEPEST_APERTURE)?),
    }
}

/// A depth that no aperture gives.
pub(crate) fn depth_is_out_of_reach(job: &Job) -> Option<Note> {
    match (aperture_for_asked_depth(job), job.ask.depth) {
        (Some(Err(_)), Some(depth_m)) if job.ask.aperture.is_none() => {
            Some(Note::DepthCannotBeHad { depth_m })
        }
        _ => None,
    }
}

fn aperture_for_asked_depth(job: &Job) -> Option<Result<FNumber, UnitError>> {
    let depth = job.ask.depth?;
    let focal = Millimetres::new(f64::from(job.viewpoint.focal_mm)).ok()?;
    let distance = Metres::new(to_first_face_m(job)).ok()?;
    Some(aperture_for_depth(focal, distance, depth))
}

/// From where to where it is sharp at an aperture, with the usual circle of confusion and the first face in focus.
pub(crate) fn sharp(job: &Job, aperture: FNumber) -> Option<DepthLimits> {
    let focus = Focus {
        focal: Millimetres::new(f64::from(job.viewpoint.focal_mm)).ok()?,
        aperture,
        distance: Metres::new(to_first_face_m(job)).ok()?,
    };
    Some(focus.limits(CIRCLE_OF_CONFUSION_MM))
}

/// Metres from the camera to the first face.
fn to_first_face_m(job: &Job) -> f64 {
    f64::from((job.sitters[0].face() - job.viewpoint.position).length())
}

/// Whether the photographer uses this speed.
pub(crate) fn allowed(job: &Job, iso: Iso) -> bool {
    (job.body.least_iso.value() - 0.5..=job.body.most_iso.value() + 0.5).contains(&iso.value())
}

/// The speed that is insisted on, or all that the photographer uses, the lowest first.
pub(crate) fn speeds(job: &Job) -> Vec<Iso> {
    match job.ask.iso {
        Some(iso) => vec![iso],
        None => Iso::series().filter(|iso| allowed(job, *iso)).collect(),
    }
}

/// The shutter times of a camera that are worth trying and not faster than the fastest clean one.
pub(crate) fn shutters(clean: ShutterTime) -> impl Iterator<Item = ShutterTime> {
    ShutterTime::series().filter(move |t| t.value() <= SLOWEST_S && t.value() >= clean.value() - 1e-9)
}

/// Whether a posed person is sharp at this shutter without a support.
pub(crate) fn hand_held(shutter: ShutterTime) -> bool {
    shutter.value() <= SLOWEST_HAND_HELD_S
}

/// A shutter that is too slow to hold.
pub(crate) fn slow_for_a_person(shutter: ShutterTime) -> Option<Note> {
    (!hand_held(shutter)).then_some(Note::SlowForAPerson { shutter })
}

/// What settings make of flash and ambient light at the face.
pub(crate) struct Levels<'a> {
    /// Full power of the flash against an exact exposure, in stops.
    pub full: f64,
    /// Exact power in stops below 1/1 for flash and ambient together.
    pub power: f64,
    /// Ambient light against an exact exposure, in stops.
    pub ambient: f64,
    pub settings: &'a Settings,
}

/// Exact power in stops below 1/1 for which flash and ambient together are exactly exposed, from what
/// full power gives and what the ambient gives, both in stops.
pub(crate) fn power_for_total(full: f64, ambient: f64) -> f64 {
    let missing = 1.0 - ambient.exp2();
    if missing <= 1e-3 {
        // The ambient alone exposes the face; the flash can only be a breath on top.
        return full + 10.0;
    }
    full - missing.log2()
}

/// What the face comes to against an exact exposure, in stops, at the power that is set.
pub(crate) fn total_at(job: &Job, levels: &Levels<'_>) -> f64 {
    let power = set_power(job, levels.power);
    ((levels.full - power).exp2() + levels.ambient.exp2()).log2()
}

/// The power that the flash is set to for an exact one, in stops below 1/1: the nearest click within its range.
pub(crate) fn set_power(job: &Job, exact: f64) -> f64 {
    let least = job.bag.flash.least_power_stops();
    ((exact.clamp(0.0, least) / CLICK).round() * CLICK).min(least)
}

/// The power that the flash can be set to nearest to an exact one, in stops below 1/1.
pub(crate) fn settable_power(job: &Job, exact: f64) -> Result<PowerFraction, Failure> {
    let least = job.bag.flash.least_power_stops();
    Ok(PowerFraction::from_stops_below_full(exact.clamp(0.0, least))?.nearest_third())
}

/// The flash of a way at an exact power in stops below 1/1, and at the power nearest to it that can be set; `total` is what
/// the face comes to against an exact exposure, in stops.
pub(crate) fn flash_setting(way: &Way, exact: f64, power: PowerFraction, total: f64) -> FlashSetting {
    FlashSetting {
        power,
        exact_stops_below_full: exact,
        zoom_mm: way.zoom_mm,
        dress: way.dress,
        in_hand: Stops(in_hand(exact, power.stops_below_full(), total)),
    }
}

/// What the flash has in hand at the power that is set, in stops like all it is made of; below nothing where an exact exposure
/// would want more than all of it.
pub(crate) fn in_hand(exact: f64, set: f64, total: f64) -> f64 {
    match exact < 0.0 {
        // What a weak flash lacks is what the face lacks: the light that is there makes up for some of it.
        true => total.min(0.0),
        false => set,
    }
}

/// How the exposure at the face adds up once the power is set to the nearest third.
pub(crate) fn exposure(
    job: &Job,
    there: &[AmbientThere],
    settings: &Settings,
    dose: f64,
) -> Result<(Exposure, PowerFraction), Failure> {
    let at = settings.exposing();
    let full = full_power(dose, settings.aperture, settings.speed());
    let dome_lx = all_lx(there);
    let ambient = (dome_lx > 0.0).then(|| ambient_exposure(Illuminance(dome_lx), &at));
    let for_total = power_for_total(full, ambient.map_or(f64::NEG_INFINITY, |a| a.value()));
    let power = settable_power(job, for_total)?;
    let flash_alone = Stops(full - power.stops_below_full());
    let parts: Vec<Stops> = ambient.into_iter().chain([flash_alone]).collect();
    let total = add_exposures(&parts).unwrap_or(flash_alone);
    let exposure = Exposure {
        flash_alone,
        ambient_alone: ambient,
        ambient_as_metered: there
            .iter()
            .map(|light| LightLevel {
                light: light.name.clone(),
                level: ambient_exposure(Illuminance(light.metered_lx.max(1e-9)), &at),
            })
            .collect(),
        total,
        power_for_flash_alone: full,
        power_for_total: for_total,
    };
    Ok((exposure, power))
}

/// Stops of flash at full power for these settings.
pub(crate) fn full_power(dose: f64, aperture: FNumber, iso: Iso) -> f64 {
    flash_exposure(LuminousExposure(dose.max(1e-12)), aperture, iso).value()
}

#[cfg(test)]
mod tests {
    use super::power_for_total;

    #[test]
    fn ambient_light_saves_flash_as_an_amount() {
        let check = |full: f64, ambient: f64, expected: f64| {
            assert!((power_for_total(full, ambient) - expected).abs() < 1e-9);
        };
        check(2.0, f64::NEG_INFINITY, 2.0);
        // Ambient one stop under is half of what is needed: one stop less flash.
        check(2.0, -1.0, 3.0);
        // A quarter of the exposure is there already: 0.415 stop less.
        check(2.0, -2.0, 2.0 + 0.415_037_499_278_844);
    }
}
