//! Worked jobs that an expert would accept, by running the program on the files of `examples/`.
//!
//! The expected values and limits stand in `data/scenarios.json`; nothing here knows any of them.

#![allow(
    clippy::print_stdout,
    reason = "a failed scenario is easier to judge beside its neighbours"
)]

use serde_json::Value;
use std::process::Command;

fn root(path: &str) -> String {
    format!("{}/../../{path}", env!("CARGO_MANIFEST_DIR"))
}

/// The answer of the program to an example, as JSON.
fn answer(file: &str) -> Value {
    let path = root(&format!("examples/{file}"));
    let output = Command::new(env!("CARGO_BIN_EXE_rushlight"))
        .args(["answer", "--json", &path])
        .output()
        .unwrap();
    assert!(
        output.status.success(),
        "{file}: {}",
        String::from_utf8_lossy(&output.stderr)
    );
    serde_json::from_slice(&output.stdout).unwrap()
}

/// The piece of a face in the room map whose middle is nearest to a point, given as `ceiling 2.0 2.5 2.6`.
fn piece_at<'a>(report: &'a Value, words: &str) -> &'a Value {
    let words: Vec<&str> = words.rsplitn(4, ' ').collect();
    let [z, y, x, face] = words[..] else {
        panic!("a face and three metres are needed, not {words:?}");
    };
    let wanted = [x, y, z].map(|n| n.parse::<f64>().unwrap());
    let distance = |cell: &Value| -> f64 {
        ["from_left", "from_behind", "height"]
            .iter()
            .zip(wanted)
            .map(|(axis, w)| (cell["target_m"][axis].as_f64().unwrap() - w).powi(2))
            .sum()
    };
    let cells = report["map"]["cells"].as_array().unwrap();
    let on_face = cells.iter().filter(|cell| cell["face"] == face);
    on_face
        .min_by(|a, b| distance(a).total_cmp(&distance(b)))
        .unwrap_or(&Value::Null)
}

/// The value at a path such as `surfaces[left wall].key.cast.mired`: a name in brackets picks the entry
/// of a list that has exactly this name, or else the first whose name begins with it. A path that begins
/// with `aim[…].` goes on from a piece of the room map.
fn at<'a>(report: &'a Value, path: &str) -> &'a Value {
    if let Some((words, key)) = path.strip_prefix("aim[").and_then(|rest| rest.split_once("].")) {
        return &piece_at(report, words)[key];
    }
    let mut value = report;
    let mut lists: Vec<&str> = Vec::new();
    for step in path.split('.') {
        let (key, name) = match step.split_once('[') {
            Some((key, rest)) => (key, Some(rest.trim_end_matches(']'))),
            None => (step, None),
        };
        value = &value[key];
        lists.push(key);
        if let Some(name) = name {
            let list = value
                .as_array()
                .unwrap_or_else(|| panic!("{path}: {key} is no list"));
            let here = lists.join(".");
            let called = |index: usize| name_in(report, &here, index, &list[index]);
            let all = || 0..list.len();
            let named = all().find(|&index| called(index) == Some(name));
            let begins = || all().find(|&index| called(index).is_some_and(|n| n.starts_with(name)));
            value = named.or_else(begins).map_or(&Value::Null, |index| &list[index]);
        }
    }
    value
}

/// What an entry of a list is called: by its own name, by that of its light, or in the words that stand beside the list.
fn name_in<'a>(report: &'a Value, list: &str, index: usize, entry: &'a Value) -> Option<&'a str> {
    let told = &report["told"];
    let words = match list {
        "surfaces" => &told["surfaces"][index]["name"],
        "colour.zones" => &told["colour"]["zones"][index],
        "colour.sources" => &told["colour"]["sources"][index],
        "exposure.ambient_as_metered" => &told["ambient_as_metered"][index],
        "balance.reach" => &told["reach"][index],
        _ if entry["light"].is_object() => &entry["light"]["name"],
        _ => &entry["name"],
    };
    words.as_str()
}

/// What is wrong with one expected item, if anything.
fn fault(report: &Value, item: &Value) -> Option<String> {
    let path = item["at"].as_str().unwrap();
    let value = at(report, path);
    if let Some(expected) = item.get("equals") {
        return (value != expected).then(|| format!("{value} instead of {expected}"));
    }
    if let Some(words) = item.get("contains") {
        let text = value.as_str().unwrap_or_default();
        let missing = words
            .as_array()
            .unwrap()
            .iter()
            .find(|w| !text.contains(w.as_str().unwrap()));
        return missing.map(|word| format!("{text:?} does not say {word}"));
    }
    let Some(number) = value.as_f64() else {
        return Some(format!("no number at {path}: {value}"));
    };
    let base = item
        .get("minus")
        .map_or(0.0, |path| at(report, path.as_str().unwrap()).as_f64().unwrap());
    let (low, high) = (item["low"].as_f64().unwrap(), item["high"].as_f64().unwrap());
    let number = number - base;
    println!(
        "    {}: {number:.3} in {low} .. {high}",
        item["quantity"].as_str().unwrap()
    );
    // Places come from single precision: what stands right on an edge is inside.
    let edge = 1e-6;
    (!(low - edge..=high + edge).contains(&number))
        .then(|| format!("{number:.3} lies outside {low} .. {high}"))
}

#[test]
fn every_must_of_every_scenario_holds() {
    let data: Value = serde_json::from_str(include_str!("data/scenarios.json")).unwrap();
    let mut faults = Vec::new();
    let mut wanted = (0, 0);
    for scenario in data["scenarios"].as_array().unwrap() {
        let file = scenario["file"].as_str().unwrap();
        println!("{file}: {}", scenario["title"]);
        let report = answer(file);
        for item in scenario["expected"].as_array().unwrap() {
            let must = item["must"].as_bool().unwrap_or(true);
            let found = fault(&report, item);
            if !must {
                wanted.0 += usize::from(found.is_none());
                wanted.1 += 1;
            } else if let Some(fault) = found {
                faults.push(format!("{file}, {}: {fault}", item["quantity"]));
            }
        }
        let said = [
            report["told"]["notes"].to_string(),
            report["told"]["surfaces"].to_string(),
            report["told"]["lines"].to_string(),
        ]
        .join("\n");
        for point in scenario["must_say"].as_array().unwrap() {
            for words in point.as_array().unwrap() {
                if !said.contains(words.as_str().unwrap()) {
                    faults.push(format!("{file} does not say {words}"));
                }
            }
        }
        for words in scenario["must_not_say"].as_array().unwrap() {
            if said.contains(words.as_str().unwrap()) {
                faults.push(format!("{file} says {words}"));
            }
        }
        for surface in scenario["must_not_choose"].as_array().unwrap() {
            if report["told"]["way"] == *surface {
                faults.push(format!("{file} chooses the {surface}"));
            }
        }
        let sum: f64 = report["chart"]
            .as_array()
            .unwrap()
            .iter()
            .rev()
            .skip(1)
            .map(|l| l["stops"].as_f64().unwrap())
            .sum();
        let total = report["exposure"]["total_stops"].as_f64().unwrap();
        assert!(
            (sum - total).abs() < 1e-6,
            "{file}: the chart adds up to {sum}, not {total}"
        );
        let referee = report["referee"]["difference_stops"].as_f64().unwrap();
        assert!(
            referee.abs() < 0.1,
            "{file}: the referee differs by {referee} stops"
        );
    }
    println!("wanted but not required: {} of {}", wanted.0, wanted.1);
    assert!(faults.is_empty(), "{}", faults.join("\n"));
}
