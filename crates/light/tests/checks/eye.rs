//! Every case of `checks/photobio.json`: ICNIRP 2013, IEC 62471:2006, IEC TR 62778:2014, WCAG 2.2.

use crate::cases::{Case, cases, groups};
use colour::SpectralCurve;
use light::eye::{
    ThermalLimit, blue_light_dose, blue_light_efficacy, blue_light_limit, blue_light_limit_of_a_point,
    blue_light_weight, flashes_are_few, flashes_may_provoke_seizures, source_angle_mrad,
};
use units::{IntensityTime, Kelvin};

const FILE: &str = include_str!(concat!(env!("CARGO_MANIFEST_DIR"), "/../../checks/photobio.json"));

#[test]
fn no_group_is_forgotten() {
    assert_eq!(
        groups(FILE),
        [
            "blue_light_efficacy",
            "blue_light_extended",
            "blue_light_small_source",
            "flash_blue_light_dose",
            "flash_rate",
            "icnirp2013_retinal_thermal",
            "iec62471_2006_retinal_thermal",
            "source_angle"
        ]
    );
}

#[test]
fn weights() {
    let file: serde_json::Value = serde_json::from_str(FILE).expect("JSON");
    let table = file["reference"]["B_lambda_380_500_5nm"]
        .as_object()
        .expect("a table");
    assert_eq!(table.len(), 25);
    for (nm, weight) in table {
        let found = blue_light_weight(nm.parse().expect("nm"));
        assert!(
            (found - weight.as_f64().expect("a weight")).abs() < 1e-12,
            "{nm} nm: {found}"
        );
    }
    assert_eq!(blue_light_weight(550.0), 0.01);
    assert_eq!(blue_light_weight(650.0), 0.001);
    assert_eq!((blue_light_weight(379.0), blue_light_weight(701.0)), (0.0, 0.0));
}

#[test]
fn heat() {
    for (group, limit) in [
        ("icnirp2013_retinal_thermal", ThermalLimit::Icnirp2013),
        ("iec62471_2006_retinal_thermal", ThermalLimit::Iec2006),
    ] {
        for case in cases(FILE, group) {
            let (angle, time) = (case.number("source_angle_mrad"), case.number("exposure_s"));
            case.check_relative("alpha_used_mrad", limit.effective_angle_mrad(angle, time));
            let radiance = limit.radiance(angle, time);
            case.check_relative("limit_radiance_w_m2_sr", radiance);
            case.check_relative("limit_radiance_dose_j_m2_sr", radiance * time);
        }
    }
}

#[test]
fn blue_light() {
    for case in cases(FILE, "blue_light_extended") {
        case.check_relative("limit_LB_w_m2_sr", blue_light_limit(case.number("exposure_s")));
    }
    for case in cases(FILE, "blue_light_small_source") {
        let limit = blue_light_limit_of_a_point(case.number("exposure_s"));
        case.check_relative("limit_EB_w_m2", limit);
    }
    for case in cases(FILE, "blue_light_efficacy") {
        let light = if case.has("illuminant") {
            colour::illuminant_curve(case.text("illuminant"))
                .expect("built in")
                .clone()
        } else {
            radiator(case.number("planck_k"))
        };
        case.check_relative("KBv_w_per_lm", blue_light_efficacy(&light));
    }
}

fn radiator(kelvin: f64) -> SpectralCurve {
    colour::planck_curve(Kelvin::new(kelvin).expect("a temperature"))
}

#[test]
fn one_flash() {
    let check = |case: &Case| {
        assert_eq!(case.text("spectrum"), "Planck 6000 K");
        let window = case.number("window_width_m") * case.number("window_height_m");
        let intensity = IntensityTime::new(case.number("intensity_time_cd_s")).expect("a flash");
        case.check_relative("luminance_time_cd_s_m2", intensity.value() / window);
        let dose = blue_light_dose(intensity, window, &radiator(6000.0));
        case.check_relative("LB_dose_j_m2_sr", dose);
        case.check_relative("flashes_to_reach_1e6", blue_light_limit(1.0) / dose);
    };
    cases(FILE, "flash_blue_light_dose").iter().for_each(check);
}

#[test]
fn angles_and_rates() {
    for case in cases(FILE, "source_angle") {
        let sides = [case.number("width_m"), case.number("height_m")];
        case.check_relative("alpha_mrad", source_angle_mrad(sides, case.number("distance_m")));
    }
    for case in cases(FILE, "flash_rate") {
        let rate = case.number("flashes_per_s");
        assert_eq!(
            Some(flashes_are_few(rate)),
            case.0["wcag_2_3_1_ok_by_count"].as_bool()
        );
        let range = case.0["photosensitive_range_3_30_hz"].as_bool();
        assert_eq!(Some(flashes_may_provoke_seizures(rate)), range, "{}", case.name());
    }
}
