//! The cases of the check data that are pure arithmetic of units. All others belong to the crates that know the physics.

use serde_json::Value;
use units::{FNumber, Kelvin, MiredShift, PowerFraction, ShutterTime};

/// Runs a check on every case of a group, and insists that there are some.
fn each(file: &str, group: &str, check: impl Fn(&Value)) {
    let path = format!("{}/../../checks/{file}.json", env!("CARGO_MANIFEST_DIR"));
    let text = std::fs::read_to_string(&path).unwrap_or_else(|error| panic!("{path}: {error}"));
    let data: Value = serde_json::from_str(&text).expect("the check data are JSON");
    let cases = data["cases"].as_array().expect("a list of cases");
    let of_group: Vec<&Value> = cases.iter().filter(|case| case["group"] == group).collect();
    assert!(!of_group.is_empty(), "{file} has no case of {group}");
    of_group.into_iter().for_each(check);
}

fn number(case: &Value, key: &str) -> f64 {
    case[key]
        .as_f64()
        .unwrap_or_else(|| panic!("{} has no {key}", case["id"]))
}

fn close(case: &Value, found: f64, key: &str) {
    let expected = number(case, key);
    let tolerance = expected.abs() * number(case, "tol_rel");
    // The files give ten significant digits: the expected number is known to half a unit of the tenth.
    let tenth_digit = 10f64.powf(expected.abs().max(1e-300).log10().floor() - 9.0);
    assert!(
        (found - expected).abs() <= tolerance + 0.5 * tenth_digit,
        "{} {key}: {found}, expected {expected}",
        case["id"]
    );
}

#[test]
fn power_fractions() {
    each("exposure", "power_fraction", |case| {
        let power = PowerFraction::from_fraction(number(case, "power_fraction")).expect("a power");
        close(case, -power.stops_below_full(), "ev");
        // Guide numbers go with the square root of power.
        close(case, power.fraction().sqrt(), "guide_number_factor");
    });
}

#[test]
fn mired_shifts() {
    let mired = |case: &Value, key: &str| Kelvin::new(number(case, key)).expect("a temperature").mired();
    each("colour", "mired_shift", |case| {
        let result = mired(case, "source_cct_k") + MiredShift(number(case, "shift_mired"));
        close(
            case,
            result.kelvin().expect("a temperature").value(),
            "result_cct_k",
        );
    });
    each("colour", "mired_needed", |case| {
        close(
            case,
            (mired(case, "target_cct_k") - mired(case, "source_cct_k")).value(),
            "shift_mired",
        );
    });
}

#[test]
fn f_number_scale() {
    each("dof", "f_number_scale", |case| {
        let written = format!("f/{}", case["marked"]);
        let aperture: FNumber = written.parse().expect("an f-number");
        close(case, aperture.value(), "exact");
        assert_eq!(aperture.to_string(), written);
    });
}

#[test]
fn shutter_scale() {
    each("dof", "shutter_scale", |case| {
        let written = case["marked"].as_str().expect("a shutter time");
        let time: ShutterTime = written.parse().expect("a shutter time");
        close(case, time.value(), "exact_s");
        assert_eq!(time.to_string(), written);
    });
}

/// ISO 516 by its rule, 2^(n/3) s; the last three are what half stops are engraved as, which are no thirds.
#[test]
fn written_shutter_times_are_what_the_camera_does() {
    for (written, seconds) in [
        ("1/8000", 2f64.powi(-13)),
        ("1/160", 2f64.powf(-22.0 / 3.0)),
        ("0.00625 s", 2f64.powf(-22.0 / 3.0)),
        ("1/30", 1.0 / 32.0),
        ("1/15", 1.0 / 16.0),
        ("0.3 s", 2f64.powf(-5.0 / 3.0)),
        ("0.6 s", 2f64.powf(-2.0 / 3.0)),
        ("2 s", 2.0),
        ("30 s", 32.0),
        ("1/45", 1.0 / 45.0),
        ("1/90", 1.0 / 90.0),
        ("1/180", 1.0 / 180.0),
    ] {
        let time: ShutterTime = written.parse().expect("a shutter time");
        assert_eq!(time.value(), seconds, "{written}");
    }
}
