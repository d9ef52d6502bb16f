//! Gels against the check data, and the reading of measured curves against whatever is thrown at it.

use colour::{SpectralCurve, cct_duv};
use light::Gel;
use proptest::prelude::*;
use serde_json::Value;
use units::Kelvin;

fn all_cases() -> Vec<Value> {
    let path = format!("{}/../../checks/gels.json", env!("CARGO_MANIFEST_DIR"));
    let text = std::fs::read_to_string(&path).unwrap_or_else(|error| panic!("{path}: {error}"));
    let data: Value = serde_json::from_str(&text).expect("the check data are JSON");
    data["cases"].as_array().expect("a list of cases").clone()
}

fn cases(group: &str) -> Vec<Value> {
    let all = all_cases().into_iter();
    let of_group: Vec<Value> = all.filter(|case| case["group"] == group).collect();
    assert!(!of_group.is_empty(), "no case of {group}");
    of_group
}

fn number(case: &Value, key: &str) -> f64 {
    case[key]
        .as_f64()
        .unwrap_or_else(|| panic!("{} has no {key}", case["id"]))
}

fn kelvin(value: f64) -> Kelvin {
    Kelvin::new(value).expect("a colour temperature")
}

fn close(case: &Value, what: &str, found: f64, tolerance: f64) {
    let expected = number(case, what);
    assert!(
        (found - expected).abs() <= tolerance,
        "{} {what}: {found}, expected {expected} ± {tolerance}",
        case["id"]
    );
}

#[test]
fn no_group_is_left_out() {
    let mut count = 0;
    for group in [
        "least_loss_planck_filter",
        "ideal_cc_block_filter_on_D55",
        "filter_on_other_source",
    ] {
        count += cases(group).len();
    }
    assert_eq!((count, all_cases().len()), (12, 12));
}

#[test]
fn ideal_filters_lose_the_least() {
    for case in cases("least_loss_planck_filter") {
        let [from, to] = ["source_cct_k", "target_cct_k"].map(|key| kelvin(number(&case, key)));
        let gel = Gel::between_radiators(from, to);
        let effect = gel.under(&colour::planck_curve(from)).expect("white");
        let tolerance = number(&case, "tol_rel");
        close(
            &case,
            "luminous_transmittance",
            gel.passes(&colour::planck_curve(from)),
            tolerance * number(&case, "luminous_transmittance"),
        );
        close(
            &case,
            "loss_ev",
            effect.loss.value(),
            tolerance * number(&case, "loss_ev"),
        );
        close(
            &case,
            "shift_mired",
            effect.shift.value(),
            tolerance * number(&case, "shift_mired").abs(),
        );
    }
}

#[test]
fn a_filter_shifts_another_source_by_nearly_as_much() {
    for case in cases("filter_on_other_source") {
        let design = ["filter_designed_from_k", "filter_designed_to_k"].map(|key| kelvin(number(&case, key)));
        let gel = Gel::between_radiators(design[0], design[1]);
        let source = colour::planck_curve(kelvin(number(&case, "source_planck_k")));
        let effect = gel.under(&source).expect("white");
        close(
            &case,
            "actual_cct_k",
            effect.kelvin.value(),
            number(&case, "tol_rel_cct") * number(&case, "actual_cct_k"),
        );
        close(&case, "duv", effect.duv.value(), number(&case, "tol_abs_duv"));
        // The shift is printed to a tenth of a mired.
        close(&case, "actual_shift_mired", effect.shift.value(), 0.15);
    }
}

/// A block that absorbs a density within its pass band (magenta) or outside it (green).
#[test]
fn ideal_block_filters_on_daylight() {
    let d55 = colour::illuminant_curve("D55").expect("built in");
    for case in cases("ideal_cc_block_filter_on_D55") {
        let absorbed = 10f64.powf(-number(&case, "density"));
        let band: Vec<f64> = case["passband_nm"]
            .as_array()
            .expect("a band")
            .iter()
            .map(|nm| nm.as_f64().expect("nm"))
            .collect();
        let (inside, outside) = match case["colour"].as_str() {
            Some("magenta") => (absorbed, 1.0),
            Some("green") => (1.0, absorbed),
            other => panic!("unknown colour {other:?}"),
        };
        let (from, to) = (band[0], band[1]);
        // The edge falls on a row of the tables, which then counts half.
        let curve = SpectralCurve::new(
            vec![360.0, from - 0.5, from + 0.5, to - 0.5, to + 0.5, 830.0],
            vec![outside, outside, inside, inside, outside, outside],
        );
        let gel = Gel::from_curve("block", curve.expect("a curve")).expect("a gel");
        let behind = gel.filter(d55).expect("light").light_xyz();
        let (found, duv) = behind.chromaticity().and_then(cct_duv).expect("near white");
        close(
            &case,
            "cct_k",
            found.value(),
            number(&case, "tol_rel_cct") * number(&case, "cct_k"),
        );
        close(&case, "duv", duv.value(), number(&case, "tol_abs_duv"));
        // The case states no tolerance for the light that passes; this one is ours.
        close(&case, "luminous_transmittance", gel.passes(d55), 0.005);
    }
}

proptest! {
    /// Whatever a file holds, the reader either makes a gel that makes no light, or names a line of the file.
    #[test]
    fn any_text_is_read_or_refused(text in "([0-9]{1,4}[,;\t ]-?[0-9.]{1,4}\n|[a-z#\n,;0-9.e-]{0,12}\n?){0,60}") {
        check(&text);
    }

    #[test]
    fn any_bytes_are_read_or_refused(text in ".*") {
        check(&text);
    }

    #[test]
    fn any_table_is_read_or_refused(
        first in 340.0..420.0f64,
        steps in prop::collection::vec((-2.0..30.0f64, -0.05..1.05f64), 0..80),
    ) {
        let mut nm = first;
        let mut text = String::from("nm,transmittance\n");
        for (step, value) in steps {
            text += &format!("{nm},{value}\n");
            nm += step;
        }
        check(&text);
    }

    /// A good table always makes a gel.
    #[test]
    fn a_good_table_is_always_read(
        step in 1.0..20.0f64,
        values in prop::collection::vec(0.0..1.0f64, 450),
    ) {
        let rows = values.iter().enumerate().map(|(k, value)| format!("{}\t{value}", 380.0 + step * k as f64));
        let text = rows.take_while(|row| !row.starts_with("9")).collect::<Vec<_>>().join("\r\n");
        prop_assume!(380.0 + step * 449.0 > 720.0);
        let gel = Gel::from_table("mine", &text);
        prop_assert!(gel.is_ok(), "{gel:?}");
    }
}

fn check(text: &str) {
    match Gel::from_table("mine", text) {
        Ok(gel) => {
            assert!(
                gel.transmittance()
                    .values()
                    .iter()
                    .all(|t| (0.0..=1.0).contains(t))
            );
            let d65 = colour::illuminant_curve("D65").expect("built in");
            assert!((0.0..=1.0).contains(&gel.passes(d65)));
        }
        Err(error) => {
            assert!((1..=text.lines().count().max(1)).contains(&error.line), "{error}");
            assert!(!error.fault.to_string().is_empty() && !error.fault.remedy().is_empty());
        }
    }
}
