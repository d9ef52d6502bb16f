//! The cases of the check data that are pure arithmetic of units. All others belong to the crates that know the physics.

use serde_json::Value;
use units::{Kelvin, MiredShift, PowerFraction};

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
    assert!(
        (found - expected).abs() <= tolerance,
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
