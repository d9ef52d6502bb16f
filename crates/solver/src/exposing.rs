//! Aperture, shutter and speed, and the power that goes with them.

use crate::survey::{AmbientThere, Survey};
use answer::{AmbientWish, Exposure, Failure, Job, LightLevel, Note, Settings};
use camera::{add_exposures, ambient_exposure, aperture_for_depth, fastest_clean_shutter, flash_exposure};
use units::{
    Duv, FNumber, Illuminance, Iso, LuminousExposure, Metres, Millimetres, PowerFraction, ShutterTime, Stops,
};

/// The aperture when nothing is asked: one row of faces is sharp at f/4 (common practice).
const PLAIN_APERTURE: f64 = 4.0;
/// The ambient level that counts as out of the picture, in stops (common practice: −3).
pub(crate) const OUT_OF_THE_PICTURE: f64 = -3.0;

/// The slowest shutter for a posed person without a support: the engraved 1/60, which is 1/64 s (common practice).
pub(crate) const SLOWEST_HAND_HELD_S: f64 = 1.0 / 64.0 + 1e-9;

/// Camera settings for a way that gives this dose at full power (dome, lx s), with what could not be met.
pub(crate) fn settings_for(job: &Job, survey: &Survey, dose: f64) -> Result<(Settings, Vec<Note>), Failure> {
    if crate::levels::wanted(job) {
        return crate::levels::settings_for(job, survey, dose);
    }
    let mut notes = Vec::new();
    let aperture = aperture(job, &mut notes)?;
    let ambient = survey.ambient_lx();
    let candidates: Vec<Iso> = match job.ask.iso {
        Some(iso) => vec![iso],
        None => Iso::series().filter(|iso| allowed(job, *iso)).collect(),
    };
    let fallback = job.ask.iso.unwrap_or(job.body.most_iso);
    let in_hand = |iso: Iso| {
        let settings = camera_settings(aperture, job.body.sync, iso);
        let flash = flash_exposure(LuminousExposure(dose), aperture, iso).value();
        let ambient = ambient_exposure(Illuminance(ambient.max(1e-9)), &settings).value();
        power_for_total(flash, ambient) >= job.ask.in_hand.value()
    };
    let hand_held =
        |iso: Iso| shutter(job, aperture, iso, ambient, &mut Vec::new()).value() <= SLOWEST_HAND_HELD_S;
    // The lowest speed that leaves the asked stops in hand and a shutter that can be held.
    let iso = candidates
        .iter()
        .copied()
        .find(|&iso| in_hand(iso) && hand_held(iso))
        .or_else(|| candidates.iter().copied().find(|&iso| in_hand(iso)))
        .unwrap_or(fallback);
    let shutter = shutter(job, aperture, iso, ambient, &mut notes);
    let settings = Settings {
        aperture,
        shutter,
        iso,
        nd: Stops(0.0),
        white_balance: job.bag.flash.colour_temperature(),
        tint: Duv(0.0),
    };
    Ok((settings, notes))
}

/// Settings that are being tried.
fn camera_settings(aperture: FNumber, shutter: ShutterTime, iso: Iso) -> camera::Settings {
    camera::Settings {
        aperture,
        shutter,
        iso,
    }
}

pub(crate) fn allowed(job: &Job, iso: Iso) -> bool {
    (job.body.least_iso.value() - 0.5..=job.body.most_iso.value() + 0.5).contains(&iso.value())
}

/// The aperture that is insisted on, that holds the depth, or the plain one.
pub(crate) fn aperture(job: &Job, notes: &mut Vec<Note>) -> Result<FNumber, Failure> {
    if let Some(aperture) = job.ask.aperture {
        return Ok(aperture);
    }
    let Some(depth) = job.ask.depth else {
        return Ok(FNumber::new(PLAIN_APERTURE)?);
    };
    let distance = f64::from((job.sitters[0].face() - job.viewpoint.position).length());
    let focal = Millimetres::new(f64::from(job.viewpoint.focal_mm))?;
    match aperture_for_depth(focal, Metres::new(distance)?, depth) {
        Ok(aperture) => Ok(aperture.nearest_third()),
        Err(_) => {
            notes.push(Note::DepthCannotBeHad { depth_m: depth });
            Ok(FNumber::new(16.0)?)
        }
    }
}

fn shutter(job: &Job, aperture: FNumber, iso: Iso, ambient_lx: f64, notes: &mut Vec<Note>) -> ShutterTime {
    let clean = fastest_clean_shutter(job.body.sync);
    if let Some(shutter) = job.ask.shutter {
        return shutter;
    }
    let level = |shutter| {
        ambient_exposure(
            Illuminance(ambient_lx.max(1e-9)),
            &camera_settings(aperture, shutter, iso),
        )
        .value()
    };
    match job.ask.ambient {
        AmbientWish::Any => clean,
        AmbientWish::Out => {
            if level(clean) > OUT_OF_THE_PICTURE {
                notes.push(Note::AmbientStays {
                    under: Stops(-level(clean)),
                    shutter: clean,
                });
            }
            clean
        }
        AmbientWish::Offset(wish) => {
            // A third of a stop is one click; the nearest click to the wish that the sync allows.
            let allowed =
                ShutterTime::series().filter(|t| t.value() <= 2.0 && t.value() >= clean.value() - 1e-9);
            let best = allowed
                .min_by(|a, b| {
                    (level(*a) - wish.value())
                        .abs()
                        .total_cmp(&(level(*b) - wish.value()).abs())
                })
                .unwrap_or(clean);
            let off = level(best) - wish.value();
            if off.abs() > 0.34 {
                notes.push(Note::AmbientOff { off: Stops(off) });
            }
            notes.extend(slow_for_a_person(best));
            best
        }
    }
}

/// A shutter that one can hardly hold.
pub(crate) fn slow_for_a_person(shutter: ShutterTime) -> Option<Note> {
    (shutter.value() > SLOWEST_HAND_HELD_S).then_some(Note::SlowForAPerson { shutter })
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

/// The power that the flash can be set to nearest to an exact one, in stops below 1/1.
pub(crate) fn settable_power(job: &Job, exact: f64) -> Result<PowerFraction, Failure> {
    let least = job.bag.flash.least_power_stops();
    Ok(PowerFraction::from_stops_below_full(exact.clamp(0.0, least))?.nearest_third())
}

/// How the exposure at the face adds up once the power is set to the nearest third.
pub(crate) fn exposure(
    job: &Job,
    there: &[AmbientThere],
    settings: &Settings,
    dose: f64,
) -> Result<(Exposure, PowerFraction, f64), Failure> {
    let at = settings.exposing();
    let full = flash_exposure(
        LuminousExposure(dose.max(1e-12)),
        settings.aperture,
        settings.speed(),
    )
    .value();
    let dome_lx: f64 = there.iter().map(|light| light.dome_lx).sum();
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
    Ok((exposure, power, for_total))
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
