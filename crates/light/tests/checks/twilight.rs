//! Every case of `checks/twilight.json`: the fits of the Explanatory Supplement, USNO Circular 171, the AMS Glossary.

use crate::cases::{Case, cases, groups};
use light::{Daylight, Moon, Sun, Weather, clear_horizontal_lx};

const FILE: &str = include_str!(concat!(env!("CARGO_MANIFEST_DIR"), "/../../checks/twilight.json"));

#[test]
fn no_group_is_forgotten() {
    assert_eq!(
        groups(FILE),
        [
            "ams_glossary",
            "day",
            "low_sun",
            "moonlight",
            "twilight_below_horizon",
            "usno171_certification"
        ]
    );
}

fn daylight_lx(sun_altitude_deg: f64) -> f64 {
    let sun = Sun::somewhere(250.0, sun_altitude_deg);
    Daylight::new(&sun, None, Weather::Clear, None)
        .horizontal()
        .value()
}

fn check_model(case: &Case) {
    let altitude = case.number("sun_altitude_deg");
    let expected = case.number("illuminance_horizontal_lx");
    let factor = case.number("tol_factor_same_model");
    let found = clear_horizontal_lx(altitude);
    assert!(
        (found / expected).ln().abs() <= f64::ln(factor),
        "{}: {found} lx, expected {expected}",
        case.name()
    );
    let stops = (daylight_lx(altitude) / expected).log2();
    assert!(
        stops.abs() <= case.number("tol_ev_any_clear_sky_model"),
        "{}: {stops} stops",
        case.name()
    );
}

#[test]
fn sun_from_zenith_to_night() {
    for group in ["twilight_below_horizon", "low_sun", "day"] {
        cases(FILE, group).iter().for_each(check_model);
    }
}

#[test]
fn moonlight() {
    for case in cases(FILE, "moonlight") {
        let parallax = case.number("horizontal_parallax_deg").to_radians();
        let moon = Moon {
            azimuth_deg: 180.0,
            elevation_deg: case.number("moon_altitude_deg"),
            distance_km: 6378.137 / parallax.sin(),
            elongation_deg: case.number("moon_elongation_deg"),
            illuminated_fraction: 1.0,
            waxing: true,
        };
        let found = moon.horizontal().value();
        let expected = case.number("illuminance_horizontal_lx");
        assert!(
            (found / expected).ln().abs() <= f64::ln(case.number("tol_factor_same_model")),
            "{}: {found} lx, expected {expected}",
            case.name()
        );
        // Beam and sky of the whole model add up to it, stars on top.
        let night = Daylight::new(&Sun::somewhere(0.0, -40.0), Some(&moon), Weather::Clear, None);
        let whole = night.horizontal().value() - light::NIGHT_FLOOR_LX;
        assert!((whole / expected).log2().abs() < 0.02, "{}: {whole}", case.name());
    }
}

#[test]
fn glossary_and_certification() {
    for (group, key, tolerance) in [
        (
            "ams_glossary",
            "illuminance_horizontal_lx",
            "tol_ev_any_clear_sky_model",
        ),
        ("usno171_certification", "sun_illuminance_lx", "tol_ev"),
    ] {
        for case in cases(FILE, group) {
            let stops = (daylight_lx(case.number("sun_altitude_deg")) / case.number(key)).log2();
            assert!(
                stops.abs() <= case.number(tolerance),
                "{}: {stops} stops",
                case.name()
            );
        }
    }
}
