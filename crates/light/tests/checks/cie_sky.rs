//! Every case of `checks/cie_sky.json`: ISO 15469:2004 and the IES's daylight of 1984.

use crate::cases::{Case, cases, groups};
use light::solar::direction;
use light::{CieSky, IesDaylight, SkyKind, Weather};
use units::Degrees;

const FILE: &str = include_str!(concat!(env!("CARGO_MANIFEST_DIR"), "/../../checks/cie_sky.json"));

#[test]
fn no_group_is_forgotten() {
    assert_eq!(
        groups(FILE),
        [
            "horizontal_illuminance_over_zenith_luminance",
            "ies1984_clear",
            "ies1984_cloudy",
            "ies1984_partly_cloudy",
            "overcast_plane_illuminance",
            "relative_luminance_type_clear",
            "relative_luminance_type_overcast",
            "relative_luminance_type_partly",
            "traditional_overcast_1_3"
        ]
    );
}

const SUN_BEARING: f64 = 140.0;

fn sky(case: &Case) -> CieSky {
    let kind = SkyKind::standard(case.number("cie_type") as u8).expect("a standard sky");
    let sun = direction(SUN_BEARING, case.number("sun_elevation_deg"));
    CieSky::new(kind, sun.as_vec3())
}

#[test]
fn luminances() {
    for kind in ["overcast", "partly", "clear"] {
        for case in cases(FILE, &format!("relative_luminance_type_{kind}")) {
            let zenith = case.number("zenith_angle_deg");
            let towards = direction(SUN_BEARING + case.number("azimuth_from_sun_deg"), 90.0 - zenith);
            let sun = direction(SUN_BEARING, case.number("sun_elevation_deg"));
            let from_sun = towards.dot(sun).clamp(-1.0, 1.0).acos();
            let sky = sky(&case);
            // The direction of the sun is kept in the single precision of scenes: 1e-7 radians, which the steep corona of
            // a sky multiplies.
            case.check_within(
                "luminance_over_zenith",
                sky.relative_at(zenith.to_radians(), from_sun),
                case.number("luminance_over_zenith") * (case.number("tol_rel") + 1e-7),
            );
            case.check_within(
                "luminance_over_zenith",
                f64::from(sky.relative(towards.as_vec3())),
                case.number("luminance_over_zenith") * (case.number("tol_rel") + 1e-7),
            );
        }
    }
}

#[test]
fn traditional_overcast() {
    let sky = CieSky::new(SkyKind::TRADITIONAL_OVERCAST, glam::Vec3::Z);
    for case in cases(FILE, "traditional_overcast_1_3") {
        let zenith = (90.0 - case.number("elevation_deg")).to_radians();
        case.check_relative("luminance_over_zenith", sky.relative_at(zenith, zenith));
    }
    for case in cases(FILE, "overcast_plane_illuminance") {
        let facing = direction(77.0, 90.0 - case.number("plane_tilt_deg")).as_vec3();
        case.check_relative(
            "illuminance_over_zenith_luminance_sr",
            f64::from(sky.plane_over_zenith(facing)),
        );
        if case.has("vertical_over_horizontal") {
            let ratio = sky.plane_over_zenith(facing) / sky.horizontal_over_zenith();
            case.check_relative("vertical_over_horizontal", f64::from(ratio));
        }
    }
}

#[test]
fn ground_under_the_sky() {
    for case in cases(FILE, "horizontal_illuminance_over_zenith_luminance") {
        case.check_relative("dv_over_lz_sr", f64::from(sky(&case).horizontal_over_zenith()));
    }
}

#[test]
fn design_days() {
    for (group, weather) in [
        ("ies1984_clear", Weather::Clear),
        ("ies1984_partly_cloudy", Weather::PartlyCloudy),
        ("ies1984_cloudy", Weather::BrightOvercast),
    ] {
        for case in cases(FILE, group) {
            let altitude = Degrees::new(case.number("sun_altitude_deg")).expect("an altitude");
            let day = IesDaylight::at(weather, altitude, Some(case.number("day_of_year") as u16))
                .expect("the sun is high enough");
            case.check_relative("sky_horizontal_klx", day.sky_horizontal.value() / 1000.0);
            if case.has("direct_normal_klx") {
                case.check_relative("direct_normal_klx", day.direct_normal.value() / 1000.0);
                let on_the_ground = day.horizontal.value() - day.sky_horizontal.value();
                case.check_within(
                    "direct_horizontal_klx",
                    on_the_ground / 1000.0,
                    case.number("direct_horizontal_klx") * 1e-6 + 1e-9,
                );
            } else {
                assert_eq!(day.direct_normal.value(), 0.0);
            }
        }
    }
}

#[test]
fn nothing_shines_from_below() {
    for number in 1..=16 {
        let kind = SkyKind::standard(number).expect("a standard sky");
        for elevation in [-30.0, 0.0, 30.0, 90.0] {
            let sky = CieSky::new(kind, direction(10.0, elevation).as_vec3());
            assert_eq!(sky.relative(direction(10.0, -1.0).as_vec3()), 0.0);
            for look in 0..=90 {
                let seen = sky.relative(direction(f64::from(look) * 4.0, f64::from(look)).as_vec3());
                assert!(seen.is_finite() && seen >= 0.0, "kind {number}: {seen}");
            }
            assert!((sky.relative(glam::Vec3::Z) - 1.0).abs() < 1e-6);
        }
    }
}
