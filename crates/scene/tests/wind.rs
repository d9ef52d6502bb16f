//! Wind and stands against `checks/rigging_patterns.json`.

use scene::wind::{AIR_KG_M3, Sail, Stand, beaufort_m_s};
use serde_json::Value;

const FILE: &str = include_str!(concat!(
    env!("CARGO_MANIFEST_DIR"),
    "/../../checks/rigging_patterns.json"
));

/// Groups of the file that are not compared here, and why.
const ELSEWHERE: &[(&str, &str)] = &[
    (
        "pattern_typical",
        "patterns of the key are words of a shoot file, and compared where they are read",
    ),
    ("broad_short", "the program does not compute this yet"),
    ("face_view", "the program does not compute this yet"),
];

fn number(case: &Value, key: &str) -> f64 {
    case[key]
        .as_f64()
        .unwrap_or_else(|| panic!("{} has no {key}", case["id"]))
}

/// The case's own relative tolerance; the file gives ten digits.
fn close(case: &Value, key: &str, found: f64) {
    let expected = number(case, key);
    assert!(
        (found / expected - 1.0).abs() <= number(case, "tol_rel") + 5e-10,
        "{} {key}: {found}, expected {expected}",
        case["id"]
    );
}

fn sail(case: &Value, height_m: f64) -> Sail {
    Sail {
        area_m2: number(case, "area_m2"),
        drag: number(case, "drag_coefficient"),
        height_m,
    }
}

fn tipping(case: &Value) {
    let wind = number(case, "wind_speed_m_s");
    let sail = sail(case, number(case, "area_centre_height_m"));
    let stand = Stand {
        mass_kg: ["head_mass_kg", "stand_mass_kg", "ballast_kg"]
            .map(|key| number(case, key))
            .iter()
            .sum(),
        feet_radius_m: number(case, "foot_circle_radius_m"),
    };
    close(case, "overturning_moment_n_m", sail.overturning_n_m(wind));
    close(case, "least_restoring_moment_n_m", stand.restoring_n_m());
    close(case, "critical_wind_m_s", stand.tips_at_m_s(&sail));
    assert_eq!(
        Some(wind > stand.tips_at_m_s(&sail)),
        case["tips"].as_bool(),
        "{}",
        case["id"]
    );
}

#[test]
fn wind_pushes_and_stands_tip() {
    let file: Value = serde_json::from_str(FILE).expect("the check data are JSON");
    let cases = file["cases"].as_array().expect("a list of cases");
    let mut left_out = 0;
    for case in cases {
        match case["group"].as_str().expect("a group") {
            "beaufort_wmo" => close(case, "wind_speed_m_s", beaufort_m_s(number(case, "beaufort"))),
            "wind_force" => {
                assert_eq!(number(case, "air_density_kg_m3"), AIR_KG_M3);
                close(
                    case,
                    "force_n",
                    sail(case, 1.0).force_n(number(case, "wind_speed_m_s")),
                );
            }
            "tripod_tipping" => tipping(case),
            group => {
                assert!(
                    ELSEWHERE.iter().any(|(known, _)| *known == group),
                    "no test for {group}"
                );
                left_out += 1;
            }
        }
    }
    assert_eq!((cases.len(), left_out), (32, 20));
}
