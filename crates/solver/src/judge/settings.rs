//! Aperture, shutter and speed for a way.

use crate::judge::exposure::{aperture, hand_held, power_for_total, shutters, slow_for_a_person, speeds};
use crate::judge::levels::{settings_at_levels, wanted};
use crate::practice::{HARDLY_THERE, WITHIN_A_CLICK};
use answer::{AmbientWish, Failure, Job, Note, Settings};
use camera::{ambient_exposure, fastest_clean_shutter, flash_exposure};
use units::{Duv, FNumber, Illuminance, Iso, LuminousExposure, ShutterTime, Stops};

/// Camera settings for a way that gives this dose at full power (dome, lx s), with what could not be met.
/// `ambient` is the light that is there at the face, in lx.
pub(crate) fn settings_for(job: &Job, ambient: f64, dose: f64) -> Result<(Settings, Vec<Note>), Failure> {
    if wanted(job) {
        return settings_at_levels(job, ambient, dose);
    }
    let mut notes = Vec::new();
    let aperture = aperture(job, &mut notes)?;
    let candidates = speeds(job);
    let fallback = job.ask.iso.unwrap_or(job.body.most_iso);
    let in_hand = |iso: Iso| {
        let settings = camera_settings(aperture, job.body.sync, iso);
        let flash = flash_exposure(LuminousExposure(dose), aperture, iso).value();
        let ambient = ambient_exposure(Illuminance(ambient.max(1e-9)), &settings).value();
        power_for_total(flash, ambient) >= job.ask.in_hand.value()
    };
    let held_at = |iso: Iso| hand_held(shutter(job, aperture, iso, ambient, &mut Vec::new()));
    // The lowest speed that leaves the asked stops in hand and a shutter that can be held.
    let iso = candidates
        .iter()
        .copied()
        .find(|&iso| in_hand(iso) && held_at(iso))
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
            if level(clean) > HARDLY_THERE {
                notes.push(Note::AmbientStays {
                    under: Stops(-level(clean)),
                    shutter: clean,
                });
            }
            clean
        }
        AmbientWish::Offset(wish) => {
            // A third of a stop is one click; the nearest click to the wish that the sync allows.
            let best = shutters(clean)
                .min_by(|a, b| {
                    (level(*a) - wish.value())
                        .abs()
                        .total_cmp(&(level(*b) - wish.value()).abs())
                })
                .unwrap_or(clean);
            let off = level(best) - wish.value();
            if off.abs() > WITHIN_A_CLICK {
                notes.push(Note::AmbientOff { off: Stops(off) });
            }
            notes.extend(slow_for_a_person(best));
            best
        }
    }
}
