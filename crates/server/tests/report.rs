//! The JSON form of the answer: it keeps to its published schema, and no number in it is anything but a number.

#[path = "../../sheet/tests/fixture/mod.rs"]
mod fixture;

use serde_json::Value;
use server::report::{AnswerReport, REPORT_VERSION};

const SCHEMA_FILE: &str = concat!(env!("CARGO_MANIFEST_DIR"), "/../../schema/answer.schema.json");

fn schema_text() -> String {
    serde_json::to_string_pretty(&AnswerReport::schema()).expect("a schema is JSON") + "\n"
}

/// Whoever changes the report runs this once with `RUSHLIGHT_WRITE_SCHEMA=1` and commits the file.
#[test]
fn the_committed_schema_is_current() {
    if std::env::var_os("RUSHLIGHT_WRITE_SCHEMA").is_some() {
        std::fs::write(SCHEMA_FILE, schema_text()).expect("the schema can be written");
    }
    let committed = std::fs::read_to_string(SCHEMA_FILE).expect("the schema is committed");
    assert_eq!(
        committed,
        schema_text(),
        "run this test with RUSHLIGHT_WRITE_SCHEMA=1 and commit the schema"
    );
}

#[test]
fn every_report_keeps_to_the_schema() {
    let schema: Value = serde_json::from_str(&schema_text()).expect("a schema is JSON");
    let validator = jsonschema::validator_for(&schema).expect("the schema is a schema");
    for case in fixture::cases() {
        let json = AnswerReport::new(&case.job, &case.answer)
            .to_json()
            .expect("a report is JSON");
        let value: Value = serde_json::from_str(&json).expect("a report is JSON");
        let faults: Vec<String> = validator
            .iter_errors(&value)
            .map(|error| format!("{}: {error}", error.instance_path()))
            .collect();
        assert!(faults.is_empty(), "{}: {faults:?}", case.name);
        let read: AnswerReport = serde_json::from_str(&json).expect("a report can be read again");
        assert_eq!(read.version, REPORT_VERSION);
        assert!(
            read.to_json().expect("a report is JSON") == json,
            "{} is the same when written again",
            case.name
        );
    }
}

#[test]
fn the_schema_refuses_what_is_no_report() {
    let schema: Value = serde_json::from_str(&schema_text()).expect("a schema is JSON");
    let validator = jsonschema::validator_for(&schema).expect("the schema is a schema");
    let case = fixture::bounce_left();
    let good = serde_json::to_value(AnswerReport::new(&case.job, &case.answer)).expect("a report is JSON");
    assert!(validator.is_valid(&good));
    let check = |spoil: &dyn Fn(&mut Value)| {
        let mut bad = good.clone();
        spoil(&mut bad);
        assert!(!validator.is_valid(&bad), "{bad}");
    };
    check(&|bad| bad["flash"]["power"] = Value::from(3));
    check(&|bad| bad["key"]["azimuth_deg"] = Value::from("left"));
    check(&|bad| bad["chosen"]["unknown"] = Value::from(1));
    check(&|bad| bad["surfaces"][0]["verdict"] = Value::from("splendid"));
    check(&|bad| drop(bad.as_object_mut().expect("an object").remove("exposure")));
}

/// A field of the report by its path, such as "key.cast.mired".
fn field<'a>(report: &'a Value, path: &str) -> &'a Value {
    path.split('.')
        .fold(report, |value, part| match part.parse::<usize>() {
            Ok(index) => &value[index],
            Err(_) => &value[part],
        })
}

#[test]
fn fields_keep_their_names_and_meanings() {
    let case = fixture::bounce_left();
    let report = serde_json::to_value(AnswerReport::new(&case.job, &case.answer)).expect("a report is JSON");
    let check = |path: &str, expected: Value| {
        let found = field(&report, path);
        match (found.as_f64(), expected.as_f64()) {
            (Some(found), Some(expected)) => assert!((found - expected).abs() <= 1e-9, "{path} is {found}"),
            _ => assert_eq!(found, &expected, "{path}"),
        }
    };
    check("version", Value::from(3));
    check("camera.tint_steps", Value::from(0));
    check("colour.gel", Value::Null);
    check("colour.zones.3.name", Value::from("lamps alone"));
    check("colour.zones.3.mired", Value::from(154.0));
    check("colour.sources.1.share", Value::from(0.05));
    check("title", Value::from("Cornet, band room"));
    check("lines.camera", Value::from("f/4 · 1/160 · ISO 400 · 5250 K"));
    check("camera.aperture", Value::from("f/4"));
    check("camera.f_number", Value::from(4.0));
    check("camera.shutter", Value::from("1/160"));
    check("camera.iso", Value::from(400.0));
    check("flash.power", Value::from("1/8 +0.7"));
    check("flash.stops_below_full", Value::from(7.0 / 3.0));
    check("flash.exact_stops_below_full", Value::from(2.47));
    check("flash.dress", Value::from("bare"));
    check("chosen.route", Value::from("bounce"));
    check("chosen.surface", Value::from("left wall"));
    check("chosen.corner_with", Value::from("ceiling"));
    check("chosen.aim_m.from_left", Value::from(0.0));
    check("chosen.aim_m.from_behind", Value::from(2.0));
    check("chosen.aim_m.height", Value::from(2.25));
    check("chosen.flagged", Value::from(true));
    check("chosen.board", Value::Null);
    check("key.full_power_aperture", Value::from(4.71));
    check("key.cast.mired", Value::from(12.4));
    check("key.cast.duv", Value::from(0.0011));
    check("key.first_bounce_cast.mired", Value::from(0.3));
    check("key.spill_stops", Value::Null);
    check("exposure.power_for_flash_alone_stops", Value::from(2.47));
    check("exposure.ambient_as_metered.0.name", Value::from("lamps"));
    check("exposure.ambient_as_metered.0.stops", Value::from(-4.31));
    check("surfaces.1.name", Value::from("right wall"));
    check("surfaces.1.verdict", Value::from("unusable"));
    check("surfaces.1.why", Value::from("115 mired warm, 1.4 stops weaker"));
    check("surfaces.1.key.elevation_deg", Value::from(12.0));
    check("surfaces.1.zoom_gain_stops", Value::from(0.04));
    check("surfaces.1.against_ambient.0.mired", Value::from(-160.0));
    check("surfaces.4.key", Value::Null);
    check("chart.0.kind", Value::from("start"));
    check("uncertainty.within_stops", Value::from(0.64));
    check("referee.difference_stops", Value::from(0.03));
    check("evenness", Value::Null);
    check("shortfall", Value::Null);
    check("moved_to_m", Value::Null);
    check("map.room_m.2", Value::from(2.6));
    check("map.flash_m.height", Value::from(1.77));
    check("map.cells.0.face", Value::from("left wall"));
    check("map.cells.0.zoom_mm", Value::from(50.0));
    // A wall of 5.5 m is cut into eleven pieces, one of 2.6 m height into five.
    check("map.cells.1.from_m.0", Value::from(0.5));
    check("map.cells.1.from_m.1", Value::from(0.0));
    check("map.cells.1.size_m.0", Value::from(0.5));
    check("map.cells.1.size_m.1", Value::from(0.52));
    check("map.cells.1.target_m.from_behind", Value::from(0.75));
    check("map.cells.1.target_m.height", Value::from(0.26));
}

#[test]
fn a_missed_ask_is_told_with_what_would_help() {
    let case = fixture::short();
    let report = serde_json::to_value(AnswerReport::new(&case.job, &case.answer)).expect("a report is JSON");
    let check = |path: &str, expected: Value| assert_eq!(field(&report, path), &expected, "{path}");
    check("moved_to_m.from_left", Value::from(1.5));
    check("moved_to_m.from_behind", Value::from(3.7));
    check("limits.0.kind", Value::from("power"));
    check("limits.0.asked", Value::from("1 stop in hand"));
    check("limits.0.found", Value::from(-0.62));
    check("limits.0.short", Value::from(1.45));
    check("limits.0.met", Value::from(false));
    check("limits.3.kind", Value::from("green_magenta"));
    check("limits.3.met", Value::from(true));
    check("shortfall.binding.1.kind", Value::from("recycle"));
    check("shortfall.changes.0.what", Value::from("raise the ISO to 1600"));
    check("shortfall.changes.0.amount", Value::from(2.0));
    check("shortfall.changes.0.unit", Value::from("stops"));
    check("shortfall.changes.0.effort", Value::from(0.6));
    check("shortfall.changes.2.unit", Value::from("helpers"));
    check(
        "shortfall.tried.0",
        Value::from("a stronger zoom: 105 mm gives 0.1 stop"),
    );
    check("alternatives.0.name", Value::from("ceiling"));
    check("alternatives.0.chosen.surface", Value::from("ceiling"));
    check("alternatives.0.camera.aperture", Value::from("f/4"));
    check("alternatives.0.key.elevation_deg", Value::from(41.0));
    check("alternatives.1.points", Value::from(3.4));
    check("sensitivities.0.what", Value::from("left wall a third darker"));
    check("sensitivities.0.exposure_stops", Value::from(-0.41));
    check("sensitivities.0.azimuth_deg", Value::from(3.2));
    check("sensitivities.0.cast_mired", Value::from(2.0));
}

#[test]
fn every_piece_of_the_map_is_in_the_report() {
    for case in fixture::cases() {
        let report = AnswerReport::new(&case.job, &case.answer);
        assert_eq!(
            report.map.cells.len(),
            case.answer.map.cells.len(),
            "{}",
            case.name
        );
        let faces: std::collections::BTreeSet<&str> =
            report.map.cells.iter().map(|cell| cell.face.as_str()).collect();
        assert!(faces.len() >= 5, "{}: {faces:?}", case.name);
    }
}

#[test]
fn a_held_board_says_where_it_is() {
    let case = fixture::held_board();
    let report = AnswerReport::new(&case.job, &case.answer);
    let board = report.chosen.board.expect("a board is held");
    assert_eq!(board.name, "white board");
    assert_eq!(board.centre_m.height, Some(1.62));
    assert_eq!(report.chosen.surface, "white board");
}

#[test]
fn what_is_not_a_number_becomes_null() {
    let case = fixture::hostile_names();
    let report = serde_json::to_value(AnswerReport::new(&case.job, &case.answer)).expect("a report is JSON");
    for path in [
        "key.ratio",
        "key.azimuth_deg",
        "key.spill_stops",
        "exposure.ambient_alone_stops",
        "chart.2.stops",
        "uncertainty.within_stops",
        "map.cells.3.points",
        "map.cells.5.azimuth_deg",
        "moved_to_m.height",
        "limits.0.found",
        "sensitivities.0.azimuth_deg",
        "sensitivities.1.exposure_stops",
        "alternatives.0.chosen.aim_m.height",
    ] {
        assert_eq!(field(&report, path), &Value::Null, "{path}");
    }
}
