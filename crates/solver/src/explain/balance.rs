//! Flash against the light that is there: shares, zones, reach, what each control does, and settings for later.
//!
//! Everything here is arithmetic on settings that are already chosen. Amounts of light add, stops do not.

use crate::explain::following::{Now, later_settings};
use crate::judge::exposure::sharp;
use crate::judge::zones::{zone_level, zone_stops};
use crate::practice::{CLICK, COMPARED_ZOOMS_MM};
use crate::ways::beams::nearest_zoom;
use answer::{
    Aim, Balance, Control, ControlLevel, Exposure, FlashSetting, Job, Reach, Route, Settings, ZoneLevel,
};
use glam::Vec3;
use units::{PowerFraction, Stops};

/// Works out the balance for chosen settings.
pub(crate) fn balance(
    job: &Job,
    aim: &Aim,
    flash: &FlashSetting,
    settings: &Settings,
    exposure: &Exposure,
) -> Balance {
    let parts = [
        exposure.flash_alone.factor(),
        exposure.ambient_alone.map_or(0.0, Stops::factor),
    ];
    Balance {
        settings_ev: settings.exposing().ev(),
        flash_share: parts[0] / (parts[0] + parts[1]).max(f64::MIN_POSITIVE),
        zones: zones(job, settings),
        reach: match aim.route {
            Route::Direct => reach(job, flash, settings),
            _ => Vec::new(),
        },
        controls: controls(job, aim, parts),
        later: job
            .later
            .iter()
            .filter_map(|later| {
                let now = Now {
                    settings,
                    power: flash.power,
                    exposure,
                };
                later_settings(job, &now, &later.name, later.ambient)
            })
            .collect(),
        sharp: sharp(job, settings.aperture),
    }
}

fn zones(job: &Job, settings: &Settings) -> Vec<ZoneLevel> {
    let wish = |name: &str| job.ask.zones.iter().find(|wish| wish.name == name);
    job.zones
        .iter()
        .map(|zone| ZoneLevel {
            name: zone.name.clone(),
            level: zone_level(zone.normal, settings),
            wish: wish(&zone.name).map(|wish| wish.at),
            kelvin: zone.kelvin,
        })
        .collect()
}

/// Reach at full and at quarter power, at the zoom used and at zooms 50 and 105.
fn reach(job: &Job, flash: &FlashSetting, settings: &Settings) -> Vec<Reach> {
    let mut zooms = vec![flash.zoom_mm];
    // Behind a large front the zoom makes no difference.
    let others = match flash.dress.soft_front() {
        Some(_) => Vec::new(),
        None => COMPARED_ZOOMS_MM.to_vec(),
    };
    for zoom in others.into_iter().map(|zoom| nearest_zoom(job, zoom)) {
        if !zooms.contains(&zoom) {
            zooms.push(zoom);
        }
    }
    let mut reach = Vec::new();
    for zoom_mm in zooms {
        let Ok(beam) = job.bag.flash.beam(zoom_mm, flash.dress) else {
            continue;
        };
        let axis = f64::from(beam.intensity(Vec3::Z));
        for thirds in [0, 6] {
            let Ok(power) = PowerFraction::from_thirds_below_full(thirds) else {
                continue;
            };
            let dose = axis * power.fraction() * settings.speed().value() / light::INCIDENT_CONSTANT;
            reach.push(Reach {
                zoom_mm,
                power,
                metres: dose.sqrt() / settings.aperture.value(),
            });
        }
    }
    reach
}

/// One step of every control, for the two parts of the light on the face.
fn controls(job: &Job, aim: &Aim, [flash, ambient]: [f64; 2]) -> Vec<ControlLevel> {
    let all = flash + ambient;
    let level = |control: Control, on_flash: f64, on_ambient: f64| ControlLevel {
        control,
        flash: Stops(on_flash),
        ambient: Stops(on_ambient),
        face: Stops(((flash * on_flash.exp2() + ambient * on_ambient.exp2()) / all.max(1e-12)).log2()),
        zones: zone_stops(job, |_| Stops(on_ambient)),
    };
    let mut controls = vec![
        level(Control::Shutter, 0.0, CLICK),
        level(Control::Aperture, CLICK, CLICK),
        level(Control::Iso, CLICK, CLICK),
        level(Control::Power, CLICK, 0.0),
    ];
    if matches!(aim.route, Route::Direct) {
        // The inverse square: 2^(1/6) nearer is a third of a stop.
        controls.push(level(Control::FlashDistance, CLICK, 0.0));
    }
    controls.push(level(Control::Gel, -CLICK, 0.0));
    for &nd in &job.bag.nd {
        controls.push(level(Control::Filter { nd }, -nd.value(), -nd.value()));
    }
    controls
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::trials::{made_up, random_job};
    use answer::Zone;
    use units::Ev;

    #[test]
    fn the_shutter_moves_only_the_ambient_and_the_power_only_the_flash() {
        let mut job = random_job(1);
        job.zones = vec![Zone {
            name: "sky".to_owned(),
            normal: Ev(11.644),
            kelvin: None,
        }];
        job.bag.nd = vec![Stops(3.0)];
        let aim = Aim {
            route: Route::Direct,
            legs_m: [1.5, 0.0],
            ..made_up::aim(&job)
        };
        // 8 % ambient: a third of a stop of it is 0.03 stop of the face, as amounts.
        let all = controls(&job, &aim, [0.92, 0.08]);
        let of = |control: Control| all.iter().find(|level| level.control == control).unwrap();
        let shutter = of(Control::Shutter);
        assert_eq!((shutter.flash.value(), shutter.ambient.value()), (0.0, CLICK));
        assert!((shutter.face.value() - (0.92 + 0.08 * CLICK.exp2()).log2()).abs() < 1e-12);
        assert_eq!(shutter.zones[0].stops.value(), CLICK);
        let power = of(Control::Power);
        assert_eq!((power.flash.value(), power.ambient.value()), (CLICK, 0.0));
        assert_eq!(power.zones[0].stops.value(), 0.0);
        let nd = of(Control::Filter { nd: Stops(3.0) });
        assert_eq!(
            (nd.flash.value(), nd.ambient.value(), nd.face.value()),
            (-3.0, -3.0, -3.0)
        );
        for control in [Control::Aperture, Control::Iso] {
            assert_eq!(of(control).flash, of(control).ambient);
        }
    }
}
