//! The published report: it keeps to its schema, its names stay, and every sentence stands beside its data.

mod fixture;

use fixture::Case;
use serde_json::Value;
use sheet::{Language, Report, Told, Voice};

const SCHEMA_FILE: &str = concat!(env!("CARGO_MANIFEST_DIR"), "/../../schema/answer.schema.json");

fn schema_text() -> String {
    serde_json::to_string_pretty(&Report::schema()).expect("a schema is JSON") + "\n"
}

fn report(case: &Case, language: Language) -> Value {
    let told = Told::new(&case.job, &case.answer, Voice::new(language, false));
    let report = Report::new(&case.job.title, case.answer.clone(), told);
    serde_json::to_value(report).expect("a report is JSON")
}

/// Run this once with `RUSHLIGHT_WRITE_SCHEMA=1` after a change of the report, raise the version when a name has gone, and
/// commit the file.
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
        for language in Language::ALL {
            let faults: Vec<String> = validator
                .iter_errors(&report(&case, language))
                .map(|error| format!("{}: {error}", error.instance_path()))
                .collect();
            assert!(faults.is_empty(), "{}: {faults:?}", case.name);
        }
    }
}

#[test]
fn the_schema_refuses_what_is_no_report() {
    let schema: Value = serde_json::from_str(&schema_text()).expect("a schema is JSON");
    let validator = jsonschema::validator_for(&schema).expect("the schema is a schema");
    let good = report(&fixture::bounce_left(), Language::English);
    assert!(validator.is_valid(&good));
    let check = |spoil: &dyn Fn(&mut Value)| {
        let mut bad = good.clone();
        spoil(&mut bad);
        assert!(!validator.is_valid(&bad), "{bad}");
    };
    check(&|bad| bad["flash"]["stops_below_full"] = Value::from("1/8"));
    check(&|bad| bad["key"]["azimuth_deg"] = Value::from("left"));
    check(&|bad| bad["chosen"]["unknown"] = Value::from(1));
    check(&|bad| bad["chosen"]["route"]["by"] = Value::from("magic"));
    check(&|bad| bad["surfaces"][0]["verdict"] = Value::from("splendid"));
    check(&|bad| bad["told"]["language"] = Value::from("fr"));
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

/// Checks fields by their paths; numbers to nine decimals.
fn has_fields(report: &Value, expected: &[(&str, Value)]) {
    for (path, expected) in expected {
        let found = field(report, path);
        match (found.as_f64(), expected.as_f64()) {
            (Some(found), Some(expected)) => assert!((found - expected).abs() <= 1e-9, "{path} is {found}"),
            _ => assert_eq!(found, expected, "{path}"),
        }
    }
}

#[test]
fn fields_keep_their_names_and_meanings() {
    let report = report(&fixture::bounce_left(), Language::English);
    has_fields(
        &report,
        &[
            ("version", 4.into()),
            ("title", "Cornet, band room".into()),
            ("told.language", "en".into()),
            ("told.engraved.aperture", "f/4".into()),
            ("told.engraved.shutter", "1/160".into()),
            ("told.engraved.power", "1/8 +0.7".into()),
            ("told.engraved.tint_steps", 0.into()),
            ("camera.f_number", 4.0.into()),
            ("camera.iso", 400.0.into()),
            ("camera.nd_stops", 0.0.into()),
            ("flash.stops_below_full", (7.0 / 3.0).into()),
            ("flash.exact_stops_below_full", 2.47.into()),
            ("flash.dress", "bare".into()),
            ("chosen.route.by", "bounce".into()),
            ("chosen.route.face", "left".into()),
            ("chosen.route.corner_with", "ceiling".into()),
            ("chosen.aim_m.from_left", 0.0.into()),
            ("chosen.aim_m.from_behind", 2.0.into()),
            ("chosen.aim_m.height", 2.25.into()),
            ("chosen.flagged", true.into()),
            ("colour.gel", Value::Null),
            ("colour.zones.3.part.is", "light_alone".into()),
            ("colour.zones.3.part.light.name", "lamps".into()),
            ("colour.zones.3.mired", 154.0.into()),
            ("colour.sources.1.share", 0.05.into()),
            ("key.full_power_aperture", 4.71.into()),
            ("key.cast.mired", 12.4.into()),
            ("key.cast.duv", 0.0011.into()),
            ("key.first_bounce_cast.mired", 0.3.into()),
            ("key.spill_stops", Value::Null),
            ("exposure.power_for_flash_alone_stops", 2.47.into()),
            ("exposure.ambient_as_metered.0.light.name", "lamps".into()),
            ("exposure.ambient_as_metered.0.stops", (-4.31).into()),
            ("surfaces.1.way.face", "right".into()),
            ("surfaces.1.verdict", "unusable".into()),
            ("surfaces.1.key.elevation_deg", 12.0.into()),
            ("surfaces.1.zoom_gain_stops", 0.04.into()),
            ("surfaces.1.against_ambient.0.mired", (-160.0).into()),
            ("surfaces.4.key", Value::Null),
            ("chart.0.kind", "start".into()),
            ("uncertainty.within_stops", 0.64.into()),
            ("referee.difference_stops", 0.03.into()),
            ("evenness", Value::Null),
            ("shortfall", Value::Null),
            ("moved_to_m", Value::Null),
            ("map.room_m.2", 2.6.into()),
            ("map.flash_m.height", 1.77.into()),
            ("map.cells.0.face", "left".into()),
            ("map.cells.0.zoom_mm", 50.0.into()),
            ("map.cells.1.from_m.0", 0.5.into()),
            ("map.cells.1.size_m.1", 0.52.into()),
            ("map.cells.1.target_m.from_behind", 0.75.into()),
        ],
    );
}

#[test]
fn a_missed_ask_is_told_with_what_would_help() {
    let report = report(&fixture::short(), Language::English);
    has_fields(
        &report,
        &[
            ("moved_to_m.from_left", 1.5.into()),
            ("moved_to_m.from_behind", 3.7.into()),
            ("wishes.0.kind", "exposure".into()),
            ("wishes.0.asked.wish", "exposed".into()),
            ("wishes.0.found", (-0.62).into()),
            ("wishes.0.off", 0.62.into()),
            ("wishes.0.state", "nearly".into()),
            ("wishes.0.must", true.into()),
            ("wishes.1.asked.stops", 1.0.into()),
            ("wishes.1.state", "missed".into()),
            ("wishes.4.kind", "green_magenta".into()),
            ("wishes.4.state", "kept".into()),
            ("shortfall.impossible", true.into()),
            ("shortfall.missed.2.kind", "recycle".into()),
            ("shortfall.changes.0.change.change", "raise_speed".into()),
            ("shortfall.changes.0.change.to", 1600.0.into()),
            ("shortfall.changes.0.effort", 0.6.into()),
            ("alternatives.0.way.face", "ceiling".into()),
            ("alternatives.0.camera.f_number", 4.0.into()),
            ("alternatives.0.key.elevation_deg", 41.0.into()),
            ("alternatives.1.points", 3.4.into()),
            ("sensitivities.0.what.is", "darker".into()),
            ("sensitivities.0.exposure_stops", (-0.41).into()),
            ("sensitivities.0.azimuth_deg", 3.2.into()),
            ("sensitivities.0.cast_mired", 2.0.into()),
        ],
    );
}

/// The sentences of each list, and the data they belong to.
const BESIDE: &[(&str, &str)] = &[
    ("told.wishes", "wishes"),
    ("told.alternatives", "alternatives"),
    ("told.notes", "notes"),
    ("told.cautions", "cautions"),
    ("told.chart", "chart"),
    ("told.surfaces", "surfaces"),
    ("told.colour.zones", "colour.zones"),
    ("told.colour.sources", "colour.sources"),
    ("told.ambient_as_metered", "exposure.ambient_as_metered"),
    ("told.controls", "balance.controls"),
    ("told.reach", "balance.reach"),
    ("told.later", "balance.later"),
    ("told.uncertainty", "uncertainty.parts"),
    ("told.sensitivities", "sensitivities"),
    ("told.shortfall.changes", "shortfall.changes"),
    ("told.shortfall.tried", "shortfall.tried"),
];

#[test]
fn every_sentence_stands_beside_its_data() {
    for case in fixture::cases() {
        for language in Language::ALL {
            let report = report(&case, language);
            for (told, data) in BESIDE {
                let count = |path: &str| field(&report, path).as_array().map(Vec::len);
                assert_eq!(count(told), count(data), "{}: {told}", case.name);
            }
        }
    }
}

#[test]
fn only_the_words_depend_on_the_language() {
    for case in fixture::cases() {
        let [mut english, mut german] = Language::ALL.map(|language| report(&case, language));
        let told = |report: &mut Value| report.as_object_mut().expect("an object").remove("told");
        assert_ne!(told(&mut english), told(&mut german), "{}", case.name);
        assert_eq!(english, german, "{}", case.name);
    }
}

#[test]
fn every_piece_of_the_map_is_in_the_report() {
    for case in fixture::cases() {
        let report = report(&case, Language::English);
        let cells = report["map"]["cells"].as_array().expect("cells");
        assert_eq!(cells.len(), case.answer.map.cells.len(), "{}", case.name);
    }
}

#[test]
fn a_held_board_says_where_it_is() {
    let report = report(&fixture::held_board(), Language::English);
    has_fields(
        &report,
        &[
            ("chosen.route.by", "held_board".into()),
            ("chosen.route.name", "white board".into()),
            ("chosen.route.centre_m.height", 1.62.into()),
            ("told.way", "white board, held".into()),
        ],
    );
}

#[test]
fn what_is_not_a_number_becomes_null() {
    let report = report(&fixture::hostile_names(), Language::English);
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
        "wishes.0.found",
        "sensitivities.0.azimuth_deg",
        "sensitivities.1.exposure_stops",
        "alternatives.0.chosen.aim_m.height",
    ] {
        assert_eq!(field(&report, path), &Value::Null, "{path}");
    }
}
