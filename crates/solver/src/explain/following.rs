//! Settings that follow another light with as few changes as possible.

use crate::judge::exposure::{allowed, hand_held};
use crate::judge::zones::{zone_level, zone_stops};
use crate::practice::{CLICK, HALF_A_CLICK};
use answer::{Exposure, Job, LaterSettings, LaterWay, Settings};
use units::{Iso, PowerFraction, ShutterTime, Stops};

/// What is set now.
pub(crate) struct Now<'a> {
    pub settings: &'a Settings,
    pub power: PowerFraction,
    pub exposure: &'a Exposure,
}

/// The settings for another light: the shutter follows it, because it alone leaves the flash as it is.
pub(crate) fn later_settings(job: &Job, now: &Now<'_>, name: &str, change: Stops) -> Option<LaterSettings> {
    let then = follow(job, now, change, 0.0)?;
    let slow = !hand_held(then.settings.shutter) && hand_held(now.settings.shutter);
    // Whole stops of speed until the shutter can be held; the power goes down with each.
    let instead = (1..=6)
        .filter(|_| slow)
        .filter_map(|stops| follow(job, now, change, f64::from(stops)))
        .find(|way| hand_held(way.settings.shutter));
    Some(LaterSettings {
        name: name.to_owned(),
        change,
        then,
        instead,
    })
}

/// Camera settings that keep the picture when the light changes, with the speed raised by so many stops.
pub(crate) fn followed(job: &Job, now: &Settings, change: Stops, faster: f64) -> Option<Settings> {
    // A shutter that is set already is known to be clean.
    let clean = camera::fastest_clean_shutter(job.body.sync).value();
    let sync = clean.min(now.shutter.value());
    let wanted = now.shutter.value() * (-change.value() - faster).exp2();
    let shutter = ShutterTime::new(wanted.clamp(sync, 30.0)).ok()?.nearest_third();
    let shutter = if shutter.value() < sync - 1e-9 {
        now.shutter
    } else {
        shutter
    };
    // Light that the sync speed keeps in is shut out by a lower speed, then by the aperture.
    let too_much = (sync / wanted).log2().max(0.0);
    let speed = |stops: f64| Iso::new(now.iso.value() * stops.exp2()).map(Iso::nearest_third);
    let lower = (1..=30)
        .rev()
        .map(|thirds| f64::from(thirds) * CLICK)
        .filter(|stops| *stops <= too_much + HALF_A_CLICK)
        .find(|stops| speed(-stops).is_ok_and(|iso| allowed(job, iso) && iso.value() < now.iso.value()))
        .unwrap_or(0.0);
    let closing = ((too_much - lower) / CLICK).round() * CLICK;
    let iso = if faster > 0.0 {
        speed(faster)
    } else {
        speed(-lower)
    }
    .ok()?;
    if !allowed(job, iso) && iso.value() > now.iso.value() {
        return None;
    }
    let aperture = now
        .aperture
        .stopped_down(Stops(closing.max(0.0)))
        .ok()?
        .nearest_third();
    let iso = if faster > 0.0 || lower > 0.0 { iso } else { now.iso };
    Some(Settings {
        shutter,
        iso,
        aperture: if closing > 0.0 { aperture } else { now.aperture },
        ..*now
    })
}

/// The same with the power that keeps the flash where it is.
fn follow(job: &Job, now: &Now<'_>, change: Stops, faster: f64) -> Option<LaterWay> {
    let settings = followed(job, now.settings, change, faster)?;
    let on_flash = settings.iso.stops_faster_than(now.settings.iso)
        - settings.aperture.stops_darker_than(now.settings.aperture);
    let power = now.power.brighter_by(-on_flash).ok()?.nearest_third();
    if power.stops_below_full() > job.bag.flash.least_power_stops() + 1e-9 {
        return None;
    }
    let against = now.settings.exposing().ev() - settings.exposing().ev();
    let by_power = Stops(now.power.stops_below_full() - power.stops_below_full());
    Some(LaterWay {
        power,
        ambient: now.exposure.ambient_alone.map(|stops| stops + change + against),
        flash: now.exposure.flash_alone + on_flash + by_power,
        zones: zone_stops(job, |zone| zone_level(zone.normal, &settings) + change),
        settings,
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::trials::made_up;
    use units::FNumber;

    fn settings(aperture: &str, shutter: &str) -> Settings {
        Settings {
            aperture: aperture.parse().unwrap(),
            shutter: shutter.parse().unwrap(),
            iso: Iso::new(100.0).unwrap(),
            ..made_up::settings()
        }
    }

    fn dusk() -> Exposure {
        Exposure {
            flash_alone: Stops(-0.12),
            ambient_alone: Some(Stops(-3.64)),
            ambient_as_metered: Vec::new(),
            total: Stops(0.0),
            power_for_flash_alone: 1.44,
            power_for_total: 1.56,
        }
    }

    #[test]
    fn a_falling_sky_is_followed_by_the_shutter_alone() {
        let (job, exposure) = (made_up::job(), dusk());
        let settings = settings("f/5.6", "1/200");
        let power = PowerFraction::from_thirds_below_full(5).unwrap();
        let now = Now {
            settings: &settings,
            power,
            exposure: &exposure,
        };
        let later = later_settings(&job, &now, "later", Stops(-2.0)).unwrap();
        assert_eq!(later.then.settings.shutter.to_string(), "1/50");
        assert_eq!(later.then.settings.aperture, settings.aperture);
        assert_eq!(later.then.settings.iso, settings.iso);
        assert_eq!(later.then.power, power);
        assert!((later.then.ambient.unwrap().value() + 3.64).abs() < 1e-9);
        // Too slow to hold: one stop of speed, one stop less power.
        let instead = later.instead.unwrap();
        assert_eq!(instead.settings.shutter.to_string(), "1/100");
        assert_eq!(instead.settings.iso.value(), 200.0);
        assert!((instead.power.stops_below_full() - power.stops_below_full() - 1.0).abs() < 1e-9);
        assert!((instead.flash - exposure.flash_alone).value().abs() < 1e-9);
        assert!((instead.ambient.unwrap().value() + 3.64).abs() < 1e-9);
    }

    #[test]
    fn a_rising_sky_closes_the_aperture_and_never_leaves_sync() {
        let (job, exposure) = (made_up::job(), dusk());
        let settings = settings("f/4", "1/200");
        let power = PowerFraction::from_thirds_below_full(6).unwrap();
        let now = Now {
            settings: &settings,
            power,
            exposure: &exposure,
        };
        let then = later_settings(&job, &now, "later", Stops(1.0)).unwrap().then;
        assert_eq!(then.settings.shutter, settings.shutter);
        assert_eq!(then.settings.aperture, FNumber::new(32f64.sqrt()).unwrap());
        assert!((then.flash - exposure.flash_alone).value().abs() < 1e-9);
        assert!(
            (then.ambient.unwrap() - exposure.ambient_alone.unwrap())
                .value()
                .abs()
                < 1e-9
        );
    }
}
