//! Changes to the text of a shoot file: what is asked for is there afterwards, and everything else as it was.

use proptest::prelude::*;
use serde_json::{Map, Value, json};
use shoot::edit::{AsWritten, Edit, EditError, PartKind, Step, edit, make_own};

const BAND_ROOM: &str = include_str!("../../../examples/band-room.toml");

fn path(steps: &Value) -> Vec<Step> {
    serde_json::from_value(steps.clone()).expect("a path")
}

fn change(text: &str, set_up: usize, steps: Value, value: Value) -> Result<String, EditError> {
    let edits = [Edit {
        path: path(&steps),
        value: Some(value).filter(|value| !value.is_null()),
    }];
    edit(text, set_up, &edits)
}

fn form(text: &str, set_up: usize) -> Map<String, Value> {
    AsWritten::open(text)
        .unwrap_or_else(|| panic!("no TOML:\n{text}"))
        .form(set_up)
}

/// A small file with remarks everywhere.
const SMALL: &str = "# of the file\nshoot = \"Mill\" # title\n\n# of the place\n[place]\nroom = \"6 x 4 x 2.5 m\" # paced\n\n\
                     # of Kim\n[[sitter]]\nname = \"Kim\"\nfrom_left = \"2 m\"   # from the window\n\n# of the ask\n[ask]\n\
                     aperture = \"f/4\"\nkey = { azimuth = \"40 deg\" } # told from the nose\n\n# the end\n";

#[test]
fn a_change_touches_nothing_but_its_place() {
    let check = |steps: Value, value: Value, old: &str, new: &str| {
        assert!(old.is_empty() || SMALL.contains(old), "{old}");
        let expected = SMALL.replacen(old, new, 1);
        assert_eq!(
            change(SMALL, 0, steps.clone(), value).as_ref(),
            Ok(&expected),
            "{steps}"
        );
    };
    check(json!(["ask", "aperture"]), json!("f/5.6"), "\"f/4\"", "\"f/5.6\"");
    check(json!(["shoot"]), json!("Weir"), "\"Mill\"", "\"Weir\"");
    check(
        json!(["sitter", 0, "from_left"]),
        json!("2.2 m"),
        "\"2 m\"   #",
        "\"2.2 m\"   #",
    );
    check(
        json!(["sitter", 0, "age"]),
        json!(40),
        "# from the window\n",
        "# from the window\nage = 40\n",
    );
    check(
        json!(["ask", "key", "azimuth"]),
        json!("50 deg"),
        "40 deg",
        "50 deg",
    );
    check(
        json!(["ask", "key", "elevation"]),
        json!("20 deg"),
        "azimuth = \"40 deg\" }",
        "azimuth = \"40 deg\", elevation = \"20 deg\" }",
    );
    check(
        json!(["ask", "key"]),
        json!("loop"),
        "{ azimuth = \"40 deg\" }",
        "\"loop\"",
    );
    check(
        json!(["ask", "aperture"]),
        Value::Null,
        "aperture = \"f/4\"\n",
        "",
    );
    // Nothing is left of a table in one line without its keys.
    check(
        json!(["ask", "key", "azimuth"]),
        Value::Null,
        "key = { azimuth = \"40 deg\" } # told from the nose\n",
        "",
    );
    // What is not there can be removed again.
    check(json!(["ask", "iso"]), Value::Null, "", "");
    check(json!(["bag", "flash", "name"]), Value::Null, "", "");
    check(
        json!(["sitter", 1]),
        json!({ "from_left": "3 m" }),
        "# from the window\n",
        "# from the window\n\n[[sitter]]\nfrom_left = \"3 m\"\n",
    );
    check(
        json!(["sitter", 0]),
        Value::Null,
        "\n# of Kim\n[[sitter]]\nname = \"Kim\"\nfrom_left = \"2 m\"   # from the window\n",
        "",
    );
    check(
        json!(["place", "opening", 0]),
        json!({ "wall": "left", "kind": "window" }),
        "# paced\n",
        "# paced\n\n[[place.opening]]\nwall = \"left\"\nkind = \"window\"\n",
    );
    check(
        json!(["bag", "flash", "kind"]),
        json!("small"),
        "# told from the nose\n",
        "# told from the nose\n\n[bag]\n\n[bag.flash]\nkind = \"small\"\n",
    );
    check(
        json!(["place", "left"]),
        json!({ "name": "shed", "rgb": [0.4, 0.3, 0.2] }),
        "# paced\n",
        "# paced\nleft = { name = \"shed\", rgb = [0.4, 0.3, 0.2] }\n",
    );
    check(
        json!(["bag", "assistant"]),
        json!(true),
        "# told from the nose\n",
        "# told from the nose\n\n[bag]\nassistant = true\n",
    );
    // A whole part keeps what it can of how it was written.
    check(
        json!(["ask"]),
        json!({ "aperture": "f/8", "key": { "azimuth": "40 deg" }, "iso": "ISO 400" }),
        "aperture = \"f/4\"\nkey = { azimuth = \"40 deg\" } # told from the nose\n",
        "aperture = \"f/8\"\nkey = { azimuth = \"40 deg\" } # told from the nose\niso = \"ISO 400\"\n",
    );
}

/// Common parts, and two set-ups of which the second has sitters and an ask of its own.
const TWO: &str = "[place]\nroom = \"6 x 4 x 2.5 m\"\n\n[[sitter]]\nname = \"Kim\"\n\n[[later]]\nname = \"dusk\"\n\n\
                   # asked of all\n[ask]\n# wide\naperture = \"f/4\"\n\n# ---- one\n[[setup]]\nname = \"one\"\n\n\
                   # ---- two\n[[setup]]\nname = \"two\"\n\n[[setup.sitter]]\nname = \"Sam\"\n\n[setup.ask]\naperture = \"f/8\"\n";

#[test]
fn a_change_lands_where_the_part_is_written() {
    let check = |set_up: usize, steps: Value, value: Value, old: &str, new: &str| {
        assert!(TWO.contains(old), "{old}");
        let expected = TWO.replacen(old, new, 1);
        assert_eq!(
            change(TWO, set_up, steps.clone(), value).as_ref(),
            Ok(&expected),
            "{set_up} {steps}"
        );
    };
    check(1, json!(["ask", "aperture"]), json!("f/5.6"), "f/8", "f/5.6");
    check(0, json!(["sitter", 0, "name"]), json!("Jo"), "Kim", "Jo");
    check(1, json!(["sitter", 0, "name"]), json!("Jo"), "Sam", "Jo");
    check(
        1,
        json!(["place", "left"]),
        json!("brick"),
        "2.5 m\"\n",
        "2.5 m\"\nleft = \"brick\"\n",
    );
    // An ask is always the set-up's own, and what was asked of all is still asked of it.
    check(
        0,
        json!(["ask", "iso"]),
        json!("ISO 400"),
        "name = \"one\"\n",
        "name = \"one\"\n\n[setup.ask]\n# wide\naperture = \"f/4\"\niso = \"ISO 400\"\n",
    );
    check(
        0,
        json!(["ask"]),
        json!({ "key": "flat" }),
        "name = \"one\"\n",
        "name = \"one\"\n\n[setup.ask]\nkey = \"flat\"\n",
    );
    // New common parts stand above the set-ups, new parts of a set-up below all that is its own.
    check(
        0,
        json!(["bag", "stand"]),
        json!(true),
        "\n# ---- one",
        "\n[bag]\nstand = true\n\n# ---- one",
    );
    check(
        1,
        json!(["sitter", 1]),
        json!({ "name": "Jo" }),
        "name = \"Sam\"\n",
        "name = \"Sam\"\n\n[[setup.sitter]]\nname = \"Jo\"\n",
    );
    check(
        0,
        json!(["setup", 0, "camera"]),
        json!({ "from_left": "2 m" }),
        "name = \"one\"\n",
        "name = \"one\"\n\n[setup.camera]\nfrom_left = \"2 m\"\n",
    );
    check(
        1,
        json!(["setup", 1, "name"]),
        json!("pair"),
        "\"two\"",
        "\"pair\"",
    );
    check(
        0,
        json!(["setup", 2]),
        json!({ "name": "three", "ask": { "key": "flat" } }),
        "aperture = \"f/8\"\n",
        "aperture = \"f/8\"\n\n[[setup]]\nname = \"three\"\n\n[setup.ask]\nkey = \"flat\"\n",
    );
    check(
        0,
        json!(["setup", 0]),
        Value::Null,
        "\n# ---- one\n[[setup]]\nname = \"one\"\n",
        "",
    );
    // Without its own ask the set-up has the common one again.
    check(
        1,
        json!(["ask"]),
        Value::Null,
        "\n[setup.ask]\naperture = \"f/8\"\n",
        "",
    );
    // An ask from which the last wish went still stands in the place of the common one.
    check(
        1,
        json!(["ask", "aperture"]),
        Value::Null,
        "aperture = \"f/8\"\n",
        "",
    );
}

#[test]
fn the_last_of_an_own_list_does_not_bring_back_the_common_one() {
    let own = change(TWO, 0, json!(["setup", 0, "later"]), json!([{ "name": "night" }])).expect("a change");
    assert_eq!(form(&own, 0)["later"], json!([{ "name": "night" }]));
    let none = change(&own, 0, json!(["later", 0]), Value::Null).expect("a change");
    assert_eq!(form(&none, 0)["later"], json!([]));
    assert_eq!(form(&none, 1)["later"], json!([{ "name": "dusk" }]));
    let again = change(&none, 0, json!(["later", 0]), json!({ "name": "dawn" })).expect("a change");
    assert!(again.contains("[[setup.later]]\nname = \"dawn\""), "{again}");
    let common = change(&again, 0, json!(["later"]), Value::Null).expect("a change");
    assert_eq!(form(&common, 0)["later"], json!([{ "name": "dusk" }]));
}

/// A part of which only a lower heading is written is there although it has no heading; it must not go with what is in it.
#[test]
fn an_own_part_stays_when_it_becomes_empty() {
    let text = "[bag]\nstand = true\n\n[[setup]]\nname = \"one\"\n\n[setup.bag.flash]\nkind = \"small\"\n";
    let dotted = "[bag]\nstand = true\n\n[[setup]]\nname = \"one\"\nbag.flash.kind = \"small\"\n";
    let in_line =
        "[bag]\nstand = true\n\n[[setup]]\nname = \"one\"\nbag = { flash = { kind = \"small\" } }\n";
    for text in [text, dotted, in_line] {
        for (steps, value) in [
            (json!(["bag"]), json!({})),
            (json!(["bag", "flash"]), Value::Null),
            (json!(["bag", "flash", "kind"]), Value::Null),
        ] {
            let changed = change(text, 0, steps.clone(), value).expect("a change");
            assert!(
                form(&changed, 0)["bag"].get("stand").is_none(),
                "{steps}:\n{changed}"
            );
        }
    }
    // Without set-ups nothing of it is left.
    let alone = change(
        "[bag.flash]\nkind = \"small\"\n",
        0,
        json!(["bag", "flash"]),
        Value::Null,
    );
    assert_eq!(alone.as_deref(), Ok(""));
}

#[test]
fn headings_never_wander_into_another_set_up() {
    // The parts of a set-up may stand in any order, so what is last in the text is not what is last in its table.
    let text = "[[setup]]\n[[setup.sitter]]\nname = \"A\"\n[setup.ask]\n[[setup.sitter]]\nname = \"B\"\n[bag]\n[[setup]]\n\
                [setup.camera]\n";
    let edits = [
        Edit::set(
            [Step::from("setup"), 2.into()],
            json!({ "name": "C", "bag": { "flash": { "kind": "small" } } }),
        ),
        Edit::set(
            [
                Step::from("setup"),
                0.into(),
                "place".into(),
                "opening".into(),
                0.into(),
            ],
            json!({ "wall": "left" }),
        ),
        Edit::set(["place", "room"], "5 x 4 x 2.5 m"),
        Edit::set(
            ["setup"]
                .into_iter()
                .map(Step::from)
                .chain([1.into(), "ask".into(), "key".into()]),
            "flat",
        ),
    ];
    let changed = edit(text, 0, &edits).expect("a change");
    let whole = AsWritten::open(&changed).expect("TOML").whole();
    let expected = json!([
        { "sitter": [{ "name": "A" }, { "name": "B" }], "ask": {}, "place": { "opening": [{ "wall": "left" }], "room": "5 x 4 x 2.5 m" } },
        { "camera": {}, "ask": { "key": "flat" } },
        { "name": "C", "bag": { "flash": { "kind": "small" } } },
    ]);
    assert_eq!(whole["setup"], expected, "{changed}");
}

#[test]
fn lists_in_one_line_keep_their_layout() {
    let text = "[bag]\ngels = [\"1/2 CTO\"]\n\n[bag.flash]\nguide_numbers = [\n  \"GN 24 m at zoom 24\", # wide\n  \
                \"GN 30 m at zoom 35\",\n]\n";
    let check = |steps: Value, value: Value, old: &str, new: &str| {
        assert!(text.contains(old), "{old}");
        assert_eq!(
            change(text, 0, steps, value).as_ref(),
            Ok(&text.replacen(old, new, 1))
        );
    };
    check(
        json!(["bag", "gels", 1]),
        json!("full CTB"),
        "[\"1/2 CTO\"]",
        "[\"1/2 CTO\", \"full CTB\"]",
    );
    check(json!(["bag", "gels", 0]), json!("1/4 CTO"), "1/2 CTO", "1/4 CTO");
    check(
        json!(["bag", "gels", 0]),
        Value::Null,
        "gels = [\"1/2 CTO\"]\n",
        "",
    );
    check(
        json!(["bag", "flash", "guide_numbers", 2]),
        json!("GN 36 m at zoom 50"),
        "zoom 35\",\n",
        "zoom 35\",\n  \"GN 36 m at zoom 50\",\n",
    );
    check(
        json!(["bag", "flash", "guide_numbers", 0]),
        json!("GN 25 m at zoom 24"),
        "GN 24 m",
        "GN 25 m",
    );
}

#[test]
fn line_ends_and_byte_order_marks_stay() {
    let text = format!("\u{feff}{}", SMALL.replace('\n', "\r\n"));
    let changed = change(&text, 0, json!(["ask", "iso"]), json!("ISO 200")).expect("a change");
    assert!(changed.starts_with('\u{feff}'));
    assert!(changed.contains("\r\niso = \"ISO 200\"\r\n"), "{changed:?}");
    assert_eq!(
        changed.replace("\r\n", "").matches('\n').count(),
        0,
        "{changed:?}"
    );
}

#[test]
fn what_cannot_be_changed_is_refused_with_a_reason() {
    let check = |text: &str, set_up: usize, steps: Value, value: Value, words: &str| {
        let error = change(text, set_up, steps.clone(), value)
            .expect_err("no change")
            .to_string();
        assert!(error.contains(words), "{steps}: {error}");
    };
    let long = "x".repeat(401);
    check(SMALL, 0, json!([]), json!(1), "the path is empty");
    check(SMALL, 0, json!([0]), json!(1), "begins with the name of a part");
    check(
        SMALL,
        0,
        json!(["asks", "key"]),
        json!("flat"),
        "no part of a shoot file; there are place",
    );
    check(
        SMALL,
        0,
        json!(["name"]),
        json!("flat"),
        "no part of a shoot file",
    );
    check(
        SMALL,
        1,
        json!(["ask", "key"]),
        json!("flat"),
        "there is no set-up 2; this file has 1",
    );
    check(
        TWO,
        2,
        json!(["ask", "key"]),
        json!("flat"),
        "there is no set-up 3; this file has 2",
    );
    check(
        SMALL,
        0,
        json!(["sitter", 2, "age"]),
        json!(3),
        "the list has only 1",
    );
    check(
        SMALL,
        0,
        json!(["sitter", 1]),
        json!("Sam"),
        "only a part with keys",
    );
    check(
        SMALL,
        0,
        json!(["sitter", "name"]),
        json!("Sam"),
        "counted from 0",
    );
    check(SMALL, 0, json!(["ask", 0]), json!("Sam"), "not a list");
    check(
        SMALL,
        0,
        json!(["ask", "aperture", "x"]),
        json!("Sam"),
        "nothing inside",
    );
    check(SMALL, 0, json!(["sitter", 3]), Value::Null, "the list has only 1");
    check(
        SMALL,
        0,
        json!(["place", "opening", 1, "wall"]),
        json!("left"),
        "the list has only 0",
    );
    check(
        SMALL,
        0,
        json!(["ask", "a", "b", "c", "d", "e", "f", "g", "h"]),
        json!(1),
        "more than 8 steps",
    );
    check(
        SMALL,
        0,
        json!(["ask", "x"]),
        json!([[[[[[[[1]]]]]]]]),
        "deeper than any",
    );
    check(SMALL, 0, json!(["ask", "x"]), json!([null]), "a null in it");
    check(SMALL, 0, json!(["ask", "x"]), json!(u64::MAX), "too large");
    check(SMALL, 0, json!(["ask", "x"]), json!("a\nb"), "line break");
    check(SMALL, 0, json!(["ask", "x"]), json!("a\u{202e}b"), "invisible");
    check(
        SMALL,
        0,
        json!(["ask", "a\nb"]),
        json!("x"),
        "no key of a shoot file",
    );
    check(SMALL, 0, json!(["ask", "x"]), json!(long), "longer than 400");
    check(
        SMALL,
        0,
        json!(["ask", "x"]),
        json!(vec![0; 600]),
        "longer than 1000 letters",
    );
    check(
        "[ask\n",
        0,
        json!(["ask", "x"]),
        json!(1),
        "put right by hand first",
    );
    check("[ask]\nx = f/4\n", 0, json!(["ask", "x"]), json!(1), "(line 2)");
    check(
        &"#".repeat(1 << 21),
        0,
        json!(["ask", "x"]),
        json!(1),
        "larger than 1 MB",
    );
    let many = vec![Edit::remove(["ask", "x"]); 201];
    assert_eq!(edit(SMALL, 0, &many), Err(EditError::TooMany { count: 201 }));
    // All of them or none.
    let edits = [Edit::set(["ask", "iso"], "ISO 400"), Edit::set(["asks"], "x")];
    assert!(edit(SMALL, 0, &edits).is_err());
}

#[test]
fn a_common_part_becomes_the_set_ups_own_with_its_remarks() {
    let own = make_own(TWO, 0, "ask").expect("a change");
    assert!(
        own.contains("name = \"one\"\n\n[setup.ask]\n# wide\naperture = \"f/4\"\n\n# ---- two"),
        "{own}"
    );
    assert_eq!(make_own(&own, 0, "ask").as_ref(), Ok(&own));
    assert_eq!(AsWritten::open(&own).expect("TOML").owned(0), ["ask"]);
    assert_eq!(AsWritten::open(&own).expect("TOML").owned(1), ["sitter", "ask"]);
    assert!(
        make_own(TWO, 0, "bag").is_err()
            && make_own(TWO, 2, "ask").is_err()
            && make_own(SMALL, 0, "ask").is_err()
    );
    assert!(make_own(TWO, 0, "name").is_err());
}

#[test]
fn a_bag_and_a_place_go_from_shoot_to_shoot() {
    let place = PartKind::Place.give(BAND_ROOM, 0).expect("a place");
    assert!(
        place.starts_with("[place]\nroom = \"7.5 x 5.5 x 2.4 m\"      # length"),
        "{place}"
    );
    assert!(place.contains("[[place.furniture]]\nname = \"low cupboard\"") && !place.contains("[camera]"));
    let bag = PartKind::Bag.give(BAND_ROOM, 0).expect("a bag");
    assert_eq!(
        bag,
        "[bag]\nassistant = true\n\n[bag.flash]\nkind = \"medium\"\nbounce_card = true\n\n[[bag.board]]\nname = \"white board\"\n\
         size = \"0.7 x 1.0 m\"\nsurface = \"white board\"\n"
    );
    // What was taken out and put back is what it was.
    assert_eq!(
        PartKind::Place.take(BAND_ROOM, 0, &place).as_deref(),
        Ok(BAND_ROOM)
    );
    assert_eq!(PartKind::Bag.take(BAND_ROOM, 0, &bag).as_deref(), Ok(BAND_ROOM));
    // It lands where the set-up has its own, else in the common part.
    let own = change(
        TWO,
        1,
        json!(["setup", 1, "place"]),
        json!({ "room": "3 x 3 x 3 m" }),
    )
    .expect("a change");
    let taken = PartKind::Place.take(&own, 1, &place).expect("a change");
    assert_eq!(form(&taken, 0), form(TWO, 0));
    assert_eq!(form(&taken, 1)["place"], form(BAND_ROOM, 0)["place"]);
    let common = PartKind::Place.take(&own, 0, &place).expect("a change");
    assert_eq!(form(&common, 0)["place"], form(BAND_ROOM, 0)["place"]);
    assert_eq!(form(&common, 1), form(&own, 1));
    assert_eq!(
        PartKind::Bag
            .take(TWO, 0, &bag)
            .map(|text| form(&text, 1)["bag"].clone()),
        Ok(form(&bag, 0)["bag"].clone())
    );
    assert!(PartKind::Bag.give(TWO, 0).is_err() && PartKind::Bag.take(TWO, 0, &place).is_err());
    assert!(PartKind::Place.give(TWO, 5).is_err() && PartKind::Place.take(TWO, 5, &place).is_err());
}

/// What a change makes of the plain form, by the rules that the module tells: written without a line of its code.
fn changed_form(form: &Map<String, Value>, steps: &[Step], value: Option<&Value>) -> Value {
    let mut whole = Value::Object(form.clone());
    match value {
        Some(value) => set(&mut whole, steps, value),
        None => drop(remove(&mut whole, steps, true)),
    }
    whole
}

fn set(at: &mut Value, steps: &[Step], value: &Value) {
    let Some((step, rest)) = steps.split_first() else {
        *at = without_nulls(value);
        return;
    };
    match step {
        Step::Key(key) => {
            if !at.is_object() {
                *at = json!({});
            }
            set(&mut at[key.as_str()], rest, value);
        }
        Step::At(index) => {
            if !at.is_array() {
                *at = json!([]);
            }
            let list = at.as_array_mut().expect("just made");
            if *index == list.len() {
                list.push(Value::Null);
            }
            set(&mut list[*index], rest, value);
        }
    }
}

fn without_nulls(value: &Value) -> Value {
    match value {
        Value::Object(keys) => {
            let kept = keys.iter().filter(|(_, value)| !value.is_null());
            Value::Object(
                kept.map(|(key, value)| (key.clone(), without_nulls(value)))
                    .collect(),
            )
        }
        Value::Array(list) => Value::Array(list.iter().map(without_nulls).collect()),
        other => other.clone(),
    }
}

/// Removes, and says whether nothing is left.
fn remove(at: &mut Value, steps: &[Step], is_file: bool) -> bool {
    let Some((step, rest)) = steps.split_first() else {
        return true;
    };
    let gone = match step {
        Step::Key(key) => at
            .get_mut(key.as_str())
            .is_some_and(|inner| remove(inner, rest, false)),
        // A part in a list stays without its keys.
        Step::At(index) => at.get_mut(*index).is_some_and(|inner| {
            let stays = inner.is_object() && !rest.is_empty();
            remove(inner, rest, false) && !stays
        }),
    };
    if gone {
        match step {
            Step::Key(key) => drop(at.as_object_mut().and_then(|keys| keys.remove(key))),
            Step::At(index) => drop(at.as_array_mut().map(|list| list.remove(*index))),
        }
    }
    let is_empty = at.as_object().is_some_and(Map::is_empty) || at.as_array().is_some_and(Vec::is_empty);
    gone && is_empty && !is_file
}

/// Empty parts mean what no part means where a heading may stay or go.
fn without_empty(value: &Value) -> Value {
    let is_empty = |value: &Value| *value == json!({}) || *value == json!([]);
    match value {
        Value::Object(keys) => {
            let kept = keys
                .iter()
                .map(|(key, value)| (key.clone(), without_empty(value)));
            Value::Object(kept.filter(|(_, value)| !is_empty(value)).collect())
        }
        Value::Array(list) => Value::Array(list.iter().map(without_empty).collect()),
        other => other.clone(),
    }
}

fn key() -> impl Strategy<Value = Step> {
    let known = [
        "place", "sitter", "bag", "flash", "board", "ask", "key", "aperture", "opening", "name", "azimuth",
        "later", "camera", "gels", "setup", "shoot", "left", "rgb", "sky", "skyline", "format", "ambient",
    ];
    prop_oneof![
        8 => prop::sample::select(known.to_vec()).prop_map(Step::from),
        1 => "[a-zA-Z .\"'=#\\[\\]é_-]{0,12}".prop_map(Step::Key),
    ]
}

fn steps() -> impl Strategy<Value = Vec<Step>> {
    prop::collection::vec(prop_oneof![3 => key(), 2 => (0usize..4).prop_map(Step::At)], 0..6)
}

fn value() -> impl Strategy<Value = Value> {
    let leaf = prop_oneof![
        Just(Value::Null),
        any::<bool>().prop_map(Value::from),
        any::<i32>().prop_map(Value::from),
        (-1e9f64..1e9).prop_map(Value::from),
        "\\PC{0,20}".prop_map(Value::from),
        "[a-z0-9 ./\"'#\\\\]{0,12}".prop_map(Value::from),
    ];
    leaf.prop_recursive(3, 12, 4, |inner| {
        let keys = prop::sample::select(vec![
            "name", "flash", "opening", "key", "sitter", "ask", "x y", "board", "rgb",
        ]);
        prop_oneof![
            prop::collection::vec(inner.clone(), 0..4).prop_map(Value::Array),
            prop::collection::vec((keys, inner), 0..4).prop_map(|pairs| Value::Object(
                pairs
                    .into_iter()
                    .map(|(key, value)| (key.to_owned(), value))
                    .collect()
            )),
        ]
    })
}

/// Files in every way of writing: headings, dots, tables in one line, parts out of order.
fn file() -> impl Strategy<Value = String> {
    let pieces = [
        "shoot = \"x\"\n",
        "bag.assistant = true\n",
        "bag = { flash = { kind = \"small\" }, gels = [\"a\", \"b\"] }\n",
        "sitter = [{ name = \"A\" }, { name = \"B\", key = { azimuth = 1 } }]\n",
        "setup = [{ name = \"x\", ask = { aperture = 1 } }, {}]\n",
        "setup = 3\n",
        "later = []\n",
        "place.left.rgb = [1, 2]\n",
        "# remark\n[place]\nroom = \"x\" # so\n",
        "\n[[place.opening]]\nname = \"o\"\n\n[[place.opening]]\n",
        "[bag.flash]\nkind = \"small\"\n",
        "[bag]\n# in it\n",
        "\n\n[[sitter]]\nname = \"A\"\nkey = { azimuth = 1 }\n",
        "[[sitter]]\n[ask]\naperture = \"f/4\"\nkey.azimuth = 3\n",
        "[ask]\nkey = [\n 1, # one\n 2,\n]\n",
        "[ask.key]\nazimuth = 3\n",
        "# of one\n[[setup]]\nname = \"one\"\n[[setup.sitter]]\n[setup.ask]\naperture = 1\n[[setup.sitter]]\n",
        "[[setup]]\n[setup.bag.flash]\n[[setup.place.opening]]\nsetup = 3\n",
        "[[setup]]\nask.key = 3\nlater = []\n",
        "[sky]\ntime = 07:32:00\nx = nan\n# end\n",
        "# end\n",
        "[[later]]\nname = \"l\"\n",
    ];
    prop::collection::vec(prop::sample::select(pieces.to_vec()), 0..8).prop_map(|pieces| pieces.concat())
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 20_000, failure_persistence: None, ..ProptestConfig::default() })]

    /// A change is there afterwards, everything else is as it was, and the other set-ups see no more of it than they must.
    #[test]
    fn a_change_is_made_and_nothing_else(text in file(), set_up in 0usize..3, steps in steps(), value in value()) {
        let value = Some(value).filter(|value| !value.is_null());
        let made = edit(&text, set_up, &[Edit { path: steps.clone(), value: value.clone() }]);
        let Some(before) = AsWritten::open(&text) else {
            prop_assert!(made.is_err());
            return Ok(());
        };
        let Ok(changed) = made else { return Ok(()) };
        prop_assert!(changed.parse::<toml::Table>().is_ok(), "no TOML:\n{changed}");
        let after = AsWritten::open(&changed);
        prop_assert!(after.is_some(), "no TOML:\n{changed}");
        let after = after.expect("just looked at");
        let of_set_ups = steps.first() == Some(&Step::from("setup"));
        let (found, expected) = if of_set_ups {
            (after.whole(), changed_form(&before.whole(), &steps, value.as_ref()))
        } else if steps.len() == 1 && value.is_none() {
            // Without its own part a set-up has the common one again.
            let mut expected = before.form(set_up);
            let part = match &steps[0] { Step::Key(key) => key.clone(), Step::At(_) => String::new() };
            expected.remove(&part);
            let mut found = after.form(set_up);
            found.remove(&part);
            (found, Value::Object(expected))
        } else {
            (after.form(set_up), changed_form(&before.form(set_up), &steps, value.as_ref()))
        };
        let (found, expected) = (without_empty(&Value::Object(found)), without_empty(&expected));
        prop_assert_eq!(found, expected, "{} from:\n{}\nto:\n{}", json!(steps), text, changed);
        if !of_set_ups {
            prop_assert_eq!(after.set_ups(), before.set_ups());
            let part = match steps.first() { Some(Step::Key(part)) => part.clone(), _ => String::new() };
            for other in (0..before.set_ups().len()).filter(|other| *other != set_up) {
                let (mut was, mut is) = (before.form(other), after.form(other));
                if !before.owned(other).contains(&part) && part != "ask" {
                    was.remove(&part);
                    is.remove(&part);
                }
                prop_assert_eq!(is, was, "set-up {} from:\n{}\nto:\n{}", other, text, changed);
            }
        }
        // Every remark that does not belong to what went is still there.
        if steps.len() > 1 && !of_set_ups && value.is_some() && !value.as_ref().is_some_and(|value| value.is_object() || value.is_array()) {
            let remarks = |text: &str| text.matches("# ").count();
            prop_assert!(remarks(&changed) + 1 >= remarks(&text), "from:\n{text}\nto:\n{changed}");
        }
    }

    #[test]
    fn changes_to_any_text_never_panic(text in "\\PC{0,200}", set_up in any::<usize>(), steps in steps(), value in value()) {
        let edits = [Edit { path: steps, value: Some(value) }];
        if let Ok(changed) = edit(&text, set_up, &edits) {
            prop_assert!(changed.parse::<toml::Table>().is_ok(), "no TOML:\n{changed}");
        }
        let _ = make_own(&text, set_up, "ask");
        let _ = PartKind::Bag.give(&text, set_up);
        let _ = PartKind::Place.take(&text, set_up, &text);
    }

    #[test]
    fn several_changes_are_as_good_as_one_after_another(text in file(), set_up in 0usize..2, edits in prop::collection::vec((steps(), value()), 1..5)) {
        let edits: Vec<Edit> = edits.into_iter().map(|(path, value)| Edit { path, value: Some(value).filter(|value| !value.is_null()) }).collect();
        let at_once = edit(&text, set_up, &edits);
        let mut one_by_one = Ok(text);
        for each in &edits {
            one_by_one = one_by_one.and_then(|text| edit(&text, set_up, std::slice::from_ref(each)));
        }
        match (at_once, one_by_one) {
            (Ok(a), Ok(b)) => {
                let (a, b) = (AsWritten::open(&a).expect("TOML"), AsWritten::open(&b).expect("TOML"));
                prop_assert_eq!(a.whole(), b.whole());
            }
            (a, b) => prop_assert_eq!(a.is_ok(), b.is_ok()),
        }
    }
}
