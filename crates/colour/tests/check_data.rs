//! Every case of the check data that colour alone can answer, with the tolerance each case states.

use colour::{
    ChromaticTransform, Chromaticity, Lab, LightColour, LinearSrgb, SkinTone, SpectralCurve, Uv, Xyz,
    cct_duv, daylight_chromaticity, daylight_factors, delta_e_2000, illuminant_curve, observer_curves,
    planck_curve, planckian_chromaticity, skin,
};
use serde_json::Value;
use units::{Kelvin, MiredShift};

fn data(name: &str) -> Value {
    let path = format!("{}/../../checks/{name}.json", env!("CARGO_MANIFEST_DIR"));
    let text = std::fs::read_to_string(&path).unwrap_or_else(|error| panic!("{path}: {error}"));
    serde_json::from_str(&text).expect("the check data are JSON")
}

/// Runs a check on every case of a group, and insists that there are some.
fn each(file: &str, group: &str, check: impl Fn(&Value)) {
    let data = data(file);
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

fn numbers(value: &Value) -> Vec<f64> {
    value
        .as_array()
        .expect("a list")
        .iter()
        .map(|item| item.as_f64().expect("a number"))
        .collect()
}

fn three(case: &Value, key: &str) -> [f64; 3] {
    numbers(&case[key]).try_into().expect("three numbers")
}

fn close(case: &Value, what: &str, found: f64, expected: f64, tolerance: f64) {
    assert!(
        (found - expected).abs() <= tolerance,
        "{} {what}: {found}, expected {expected} ± {tolerance}",
        case["id"]
    );
}

fn kelvin(value: f64) -> Kelvin {
    Kelvin::new(value).expect("a colour temperature")
}

/// The same illuminant twice: summed row by row, and through the sixteen bands.
fn chromaticities(case: &Value) -> [Chromaticity; 2] {
    let name = case["illuminant"].as_str().expect("a name");
    let curve = illuminant_curve(name).unwrap_or_else(|| panic!("{name} is not built in"));
    let rows = curve.light_xyz().chromaticity().expect("light");
    [rows, LightColour::illuminant(name).expect("light").chromaticity()]
}

/// Groups that nothing in the project computes, and why.
const NOT_YET: &[(&str, &str)] = &[
    ("colour_rendering", "the program does not compute this yet"),
    (
        "population_reflectance",
        "statistics of a hundred subjects, who are not built in; their classes are compared",
    ),
];

#[test]
fn no_group_is_forgotten() {
    let tested = include_str!("check_data.rs");
    for file in ["colour", "deltae2000", "skin"] {
        for case in data(file)["cases"].as_array().expect("a list of cases") {
            let group = case["group"].as_str().expect("a group");
            assert!(
                NOT_YET.iter().any(|(known, _)| *known == group)
                    || tested.contains(&format!("each(\"{file}\", \"{group}\"")),
                "{file}: {group}"
            );
        }
    }
}

#[test]
fn illuminants_have_their_chromaticity_temperature_and_duv() {
    each("colour", "illuminant_chromaticity", |case| {
        for xy in chromaticities(case) {
            close(case, "x", xy.x, number(case, "x"), number(case, "tol_abs_xy"));
            close(case, "y", xy.y, number(case, "y"), number(case, "tol_abs_xy"));
            let (cct, duv) = cct_duv(xy).expect("near white");
            let expected = number(case, "cct_k");
            close(
                case,
                "cct",
                cct.value(),
                expected,
                expected * number(case, "tol_rel_cct"),
            );
            close(
                case,
                "duv",
                duv.value(),
                number(case, "duv"),
                number(case, "tol_abs_duv"),
            );
        }
    });
}

#[test]
fn illuminants_agree_with_their_published_chromaticity() {
    each("colour", "illuminant_published_xy", |case| {
        for xy in chromaticities(case) {
            close(case, "x", xy.x, number(case, "x"), number(case, "tol_abs_xy"));
            close(case, "y", xy.y, number(case, "y"), number(case, "tol_abs_xy"));
        }
    });
}

#[test]
fn planckian_locus() {
    each("colour", "planckian_locus", |case| {
        let temperature = kelvin(number(case, "temperature_k"));
        for xy in [
            planckian_chromaticity(temperature),
            LightColour::planck(temperature).chromaticity(),
        ] {
            close(case, "x", xy.x, number(case, "x"), number(case, "tol_abs"));
            close(case, "y", xy.y, number(case, "y"), number(case, "tol_abs"));
        }
    });
}

#[test]
fn daylight_series() {
    each("colour", "d_series", |case| {
        let xy = daylight_chromaticity(kelvin(number(case, "cct_k"))).expect("within the series");
        let (m1, m2) = daylight_factors(xy);
        for (what, found) in [("x", xy.x), ("y", xy.y), ("M1", m1), ("M2", m2)] {
            close(case, what, found, number(case, what), number(case, "tol_abs"));
        }
    });
}

#[test]
fn temperature_and_duv_of_a_chromaticity() {
    each("colour", "cct_duv", |case| {
        let xy = Chromaticity::new(number(case, "x"), number(case, "y"));
        let uv = xy.uv();
        close(case, "u", uv.u, number(case, "u"), 1e-6);
        close(case, "v", uv.v, number(case, "v"), 1e-6);
        check_temperature(case, xy);
    });
    each("colour", "cct_duv_published", |case| {
        check_temperature(case, Uv::new(number(case, "u"), number(case, "v")).chromaticity());
    });
}

fn check_temperature(case: &Value, xy: Chromaticity) {
    let (cct, duv) = cct_duv(xy).expect("near white");
    let expected = number(case, "cct_k");
    close(
        case,
        "cct",
        cct.value(),
        expected,
        expected * number(case, "tol_rel_cct"),
    );
    close(
        case,
        "duv",
        duv.value(),
        number(case, "duv"),
        number(case, "tol_abs_duv"),
    );
}

#[test]
fn chromatic_adaptation() {
    each("colour", "chromatic_adaptation", |case| {
        let transform = match case["transform"].as_str().expect("a name") {
            "Bradford" => ChromaticTransform::Bradford,
            "CAT02" => ChromaticTransform::Cat02,
            "CAT16" => ChromaticTransform::Cat16,
            "Von Kries" => ChromaticTransform::VonKries,
            other => panic!("unknown transform {other}"),
        };
        let [from, to, colour] =
            ["white_in", "white_out", "XYZ_in"].map(|key| Xyz::from_array(three(case, key)));
        let adapted = transform.adaptation(from, to).apply(colour).to_array();
        for (found, expected) in adapted.into_iter().zip(three(case, "XYZ_out")) {
            close(case, "XYZ", found, expected, number(case, "tol_abs"));
        }
    });
}

#[test]
fn lab_and_display_values() {
    each("colour", "lab_srgb", |case| {
        let colour = Xyz::from_array(three(case, "XYZ"));
        let lab = colour.to_lab(Xyz::from_array(three(case, "white")));
        for (what, found) in [("L", lab.l), ("a", lab.a), ("b", lab.b)] {
            close(case, what, found, number(case, what), number(case, "tol_abs_lab"));
        }
        let linear = LinearSrgb::from_xyz(colour);
        for (k, encoded) in linear.encode().into_iter().enumerate() {
            close(
                case,
                "linear",
                linear.0[k],
                three(case, "srgb_linear")[k],
                number(case, "tol_abs_srgb"),
            );
            close(
                case,
                "encoded",
                encoded,
                three(case, "srgb_encoded")[k],
                number(case, "tol_abs_srgb"),
            );
        }
    });
}

#[test]
fn mired_shifts() {
    each("colour", "mired_shift", |case| {
        let source = kelvin(number(case, "source_cct_k")).mired();
        let result = (source + MiredShift(number(case, "shift_mired")))
            .kelvin()
            .expect("a temperature");
        let expected = number(case, "result_cct_k");
        // The expected values are printed to ten digits.
        close(
            case,
            "kelvin",
            result.value(),
            expected,
            expected * number(case, "tol_rel"),
        );
    });
    each("colour", "mired_needed", |case| {
        let shift =
            kelvin(number(case, "target_cct_k")).mired() - kelvin(number(case, "source_cct_k")).mired();
        let expected = number(case, "shift_mired");
        close(
            case,
            "mired",
            shift.value(),
            expected,
            expected.abs() * number(case, "tol_rel"),
        );
    });
}

#[test]
fn luminous_efficacy() {
    each("colour", "luminous_efficacy_380_780", |case| {
        let curve = illuminant_curve(case["illuminant"].as_str().expect("a name")).expect("built in");
        let expected = number(case, "ler_lm_per_w");
        close(
            case,
            "lm/W",
            curve.luminous_efficacy(),
            expected,
            expected * number(case, "tol_rel"),
        );
    });
}

#[test]
fn luminous_efficacy_of_a_radiator() {
    each("colour", "planck_efficacy", |case| {
        let t = number(case, "temperature_k");
        let curve = planck_curve(kelvin(t));
        // The expected value was summed at 1 nm.
        let visible: Vec<f64> = (380..=780).map(|nm| curve.at(f64::from(nm))).collect();
        let visible = SpectralCurve::regular(380.0, 1.0, visible).expect("a curve");
        let expected = number(case, "ler_380_780_lm_per_w");
        close(
            case,
            "within 380 to 780",
            visible.luminous_efficacy(),
            expected,
            expected * number(case, "tol_rel"),
        );

        // All the power of a radiator that is 1 at 560 nm: the integral of Planck's law over every wavelength.
        let c2 = 1.4388e-2;
        let at_560 = 560e-9f64.powi(-5) / (c2 / (560e-9 * t)).exp_m1();
        let all_power = std::f64::consts::PI.powi(4) / 15.0 * (t / c2).powi(4) / at_560;
        let efficacy = 683.002 * curve.light_xyz().y * 5e-9 / all_power;
        let expected = number(case, "ler_total_lm_per_w");
        close(
            case,
            "total",
            efficacy,
            expected,
            expected * number(case, "tol_rel"),
        );
    });
}

#[test]
fn colour_differences() {
    each("deltae2000", "sharma2005", |case| {
        let [first, second] = ["lab1", "lab2"]
            .map(|key| three(case, key))
            .map(|[l, a, b]| Lab::new(l, a, b));
        for difference in [delta_e_2000(first, second), delta_e_2000(second, first)] {
            close(
                case,
                "difference",
                difference,
                number(case, "delta_e00"),
                number(case, "tol_abs"),
            );
        }
        assert_eq!(delta_e_2000(first, first), 0.0);
    });
}

#[test]
fn built_in_tables_are_the_tables() {
    let tables = &data("tables_cie")["tables"];
    let wavelengths = numbers(&tables["wavelength_nm"]);
    let mut compared = 0;
    for (name, values) in tables.as_object().expect("tables by name") {
        let [x, y, z] = observer_curves();
        let curve = match name.as_str() {
            "wavelength_nm" | "S0" | "S1" | "S2" => continue,
            "x_bar" => x,
            "y_bar" => y,
            "z_bar" => z,
            illuminant => {
                illuminant_curve(illuminant).unwrap_or_else(|| panic!("{illuminant} is not built in"))
            }
        };
        for (&nm, expected) in wavelengths.iter().zip(numbers(values)) {
            assert!((curve.at(nm) - expected).abs() < 2e-6, "{name} at {nm} nm");
        }
        compared += 1;
    }
    assert_eq!(compared, 18);
}

#[test]
fn computed_daylight_is_tabulated_daylight() {
    let tables = &data("tables_cie")["tables"];
    // The tables are of the nominal temperatures times 1.4388/1.4380; computed values are rounded in the standard.
    for (name, nominal) in [("D50", 5000.0), ("D55", 5500.0), ("D65", 6500.0)] {
        let computed = colour::daylight_curve(kelvin(nominal * 1.4388 / 1.4380)).expect("within the series");
        for (&nm, tabulated) in numbers(&tables["wavelength_nm"])
            .iter()
            .zip(numbers(&tables[name]))
        {
            assert!(
                (computed.at(nm) - tabulated).abs() < 0.15,
                "{name} at {nm}: {} {tabulated}",
                computed.at(nm)
            );
        }
    }
}

#[test]
fn mean_skin_colours() {
    each("skin", "class_mean_colour", |case| {
        let tone: SkinTone = case["ita_class"]
            .as_str()
            .expect("a class")
            .parse()
            .expect("a skin tone");
        let lab = skin::lab_under_d65(&tone.curve());
        check_lab(case, lab);
        // The cases state no tolerance for the angle and the luminous reflectance; these are ours.
        close(
            case,
            "ita",
            skin::typology_angle_degrees(lab),
            number(case, "ita_deg"),
            1.0,
        );
        assert_eq!(SkinTone::of(lab), tone, "{}", case["id"]);

        // Through the bands as well.
        let light = LightColour::illuminant("D65").expect("built in");
        let seen = light.xyz(tone.reflectance().spectrum());
        check_lab(case, seen.to_lab(light.white()));
        close(
            case,
            "luminous",
            seen.y,
            number(case, "luminous_reflectance_d65"),
            0.003,
        );
        let shown = LinearSrgb::from_xyz(seen).to_srgb8();
        for (found, expected) in shown.into_iter().zip(three(case, "srgb_8bit")) {
            close(
                case,
                "sRGB",
                f64::from(found),
                expected,
                number(case, "tol_abs_srgb"),
            );
        }
    });
}

#[test]
fn measured_subjects() {
    each("skin", "subject_colour", |case| {
        let curve =
            SpectralCurve::regular(380.0, 10.0, numbers(&case["reflectance_10nm_380_780"])).expect("a curve");
        check_lab(case, skin::lab_under_d65(&curve));
    });
}

fn check_lab(case: &Value, lab: Lab) {
    for (what, found) in [("L", lab.l), ("a", lab.a), ("b", lab.b)] {
        close(case, what, found, number(case, what), number(case, "tol_abs_lab"));
    }
}

#[test]
fn typology_angles() {
    each("skin", "ita_formula", |case| {
        let lab = Lab::new(number(case, "L"), 10.0, number(case, "b"));
        close(
            case,
            "ita",
            skin::typology_angle_degrees(lab),
            number(case, "ita_deg"),
            number(case, "tol_abs"),
        );
        let class = SkinTone::of(lab).name().replace(' ', "_");
        assert_eq!(case["ita_class"], class.as_str(), "{}", case["id"]);
    });
}
