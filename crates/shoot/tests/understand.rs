//! What is understood of a text while it is being written, the words that it may use, and a shoot begun from fill-ins.

use proptest::prelude::*;
use schemars::schema_for;
use serde_json::{Value, json};
use shoot::Language;
use shoot::Shoot;
use shoot::edit::{Edit, PartKind, edit};
use shoot::understand::{Mistake, StartForm, Understood, UnderstoodPart, WallName, begin, understand_part};
use shoot::vocabulary::{GelFigure, vocabulary};
use units::Metres;

const GOOD: &str = include_str!("bad/good.toml");
const BAND_ROOM: &str = include_str!("../../../examples/band-room.toml");
const NOON_SUN: &str = include_str!("../../../examples/noon-sun.toml");
const REFERENCE: &str = include_str!("../../../SHOOT_FILE.md");

fn metres(text: &Value) -> f64 {
    let text = text.as_str().expect("a length in quotes");
    text.parse::<Metres>().expect("a length").value()
}

fn understand(text: &str, set_up: usize) -> Understood {
    shoot::understand::understand(text, set_up, Language::English, |shoot| {
        sheet::drawing_svg(&shoot.job, None, sheet::Voice::default())
    })
}

fn read(text: &str) -> Shoot {
    shoot::parse("test.toml", text)
        .unwrap_or_else(|problems| panic!("{}\n{text}", problems.render(Language::English, 100, false)))
}

#[test]
fn a_good_text_is_drawn_and_told() {
    let found = understand(BAND_ROOM, 0);
    assert!(found.ok && found.problems.is_empty(), "{:?}", found.problems);
    assert_eq!(found.set_ups.len(), 1);
    assert_eq!(found.set_ups[0].name, "Band room");
    assert_eq!(found.text, BAND_ROOM);
    assert!(
        found.summary[0].starts_with("Room      7.5 m long"),
        "{:?}",
        found.summary
    );
    assert_eq!(found.form["ask"]["aperture"], "f/4");
    assert_eq!(found.form["sitter"][0]["age"], 46);
    assert!(found.owned.is_empty() && found.warnings.is_empty());
    assert!(
        found
            .drawing
            .is_some_and(|svg| svg.starts_with("<svg") && svg.contains("cornet player"))
    );
}

/// What is dragged is found in the plain form at the same position.
#[test]
fn the_geometry_is_that_of_the_form() {
    let check = |found: f64, said: &Value| assert!((found - metres(said)).abs() < 1e-9, "{found} {said}");
    for text in [BAND_ROOM, GOOD] {
        let found = understand(text, 0);
        let (form, geometry) = (&found.form, found.geometry.expect("a good text"));
        assert_eq!(
            geometry.furniture.len(),
            form["place"]["furniture"].as_array().map_or(0, Vec::len)
        );
        for (at, said) in geometry
            .furniture
            .iter()
            .zip(form["place"]["furniture"].as_array().into_iter().flatten())
        {
            assert_eq!(said["name"], at.name);
            check(at.x, &said["from_left"]);
            check(at.y, &said["from_behind"]);
        }
        for (at, said) in geometry
            .openings
            .iter()
            .zip(form["place"]["opening"].as_array().into_iter().flatten())
        {
            assert_eq!(said["name"], at.name);
            assert_eq!(said["wall"], serde_json::to_value(at.wall).expect("a word"));
            assert_eq!(said["kind"], at.kind);
            check(at.from_left_end, &said["from_left_end"]);
        }
        for (at, said) in geometry
            .sitters
            .iter()
            .zip(form["sitter"].as_array().into_iter().flatten())
        {
            check(at.x, &said["from_left"]);
            check(at.y, &said["from_behind"]);
            check(at.face_height, &said["face_height"]);
        }
        check(geometry.camera.x, &form["camera"]["from_left"]);
        check(geometry.camera.z, &form["camera"]["height"]);
    }
    let good = understand(GOOD, 0).geometry.expect("a good text");
    assert_eq!(
        (good.room.width, good.room.length, good.room.height),
        (4.0, 6.0, 2.5)
    );
    assert_eq!(
        (good.boards[0].x, good.boards[0].z, good.boards[0].height),
        (3.0, 0.8, 1.6)
    );
    assert_eq!(good.openings[0].wall, WallName::Right);
    // Out of doors the sides are open, but nothing is set into them; the flash stands where it was said.
    let noon = understand(NOON_SUN, 0).geometry.expect("a good text");
    assert!(noon.openings.is_empty());
    assert_eq!(noon.flash.map(|at| (at.x, at.y, at.z)), Some((4.72, 5.22, 2.45)));
    let turned = GOOD.replacen("faces = \"camera\"", "faces = \"5\"", 1);
    let turned = understand(&turned, 0).geometry.expect("a good text");
    assert_eq!(turned.sitters[0].facing_deg, 30.0);
    let lamp = GOOD.replacen(
        "colour = \"2700 K\"",
        "from = { from_left = \"1 m\", from_behind = \"3 m\", height = \"2 m\" }\ncolour = \"2700 K\"",
        1,
    );
    let lamps = understand(&lamp, 0).geometry.expect("a good text").lamps;
    assert_eq!(
        (lamps[0].name.as_str(), lamps[0].x, lamps[0].y, lamps[0].z),
        ("lamps", 1.0, 3.0, 2.0)
    );
}

#[test]
fn a_mistake_comes_with_its_place_and_a_remedy() {
    let text = GOOD.replacen("aperture = \"f/4\"", "aperture = \"4\"", 1);
    let found = understand(&text, 0);
    let line = 1 + text[..text.find("aperture").expect("there")]
        .matches('\n')
        .count();
    assert_eq!(
        found.problems,
        [Mistake {
            line: Some(line),
            column: Some(12),
            message: "\"4\" is not an f-number".to_owned(),
            why: Some("it must begin with f/".to_owned()),
            remedy: Some("Did you mean:  aperture = \"f/4\"".to_owned()),
        }]
    );
    assert!(!found.ok && found.drawing.is_none() && found.geometry.is_none() && found.summary.is_empty());
    // The form is still there, so that it can be put right in it.
    assert_eq!(found.form["ask"]["aperture"], "4");
    // A letter of several bytes is one letter.
    let accents = understand("shoot = \"é\" # é\né = 1\n", 0);
    let places: Vec<_> = accents.problems.iter().map(|p| (p.line, p.column)).collect();
    assert!(places.contains(&(Some(2), Some(1))), "{places:?}");
    let broken = understand("[ask\n", 0);
    assert!(!broken.ok && broken.form.is_empty() && broken.set_ups.len() == 1);
    assert_eq!(broken.problems[0].line, Some(1));
    let none = understand(GOOD, 3);
    assert!(!none.ok && none.problems[0].line.is_none(), "{:?}", none.problems);
}

#[test]
fn a_set_up_is_understood_as_it_sees_the_file() {
    let text = edit(
        GOOD,
        0,
        &[
            Edit {
                path: vec!["setup".into(), 0.into()],
                value: Some(json!({ "name": "one" })),
            },
            Edit {
                path: vec!["setup".into(), 1.into()],
                value: Some(json!({ "name": "two", "ask": { "aperture": "f/8" } })),
            },
        ],
    )
    .expect("two set-ups");
    let second = understand(&text, 1);
    let names: Vec<&str> = second.set_ups.iter().map(|set_up| set_up.name.as_str()).collect();
    assert_eq!(names, ["one", "two"]);
    assert_eq!(
        (second.owned, second.form["ask"].clone()),
        (vec!["ask".to_owned()], json!({ "aperture": "f/8" }))
    );
    assert!(second.ok, "{:?}", second.problems);
    let first = understand(&text, 0);
    assert!(first.owned.is_empty() && first.form["ask"]["aperture"] == "f/4");
}

#[test]
fn the_shapes_have_schemas_that_hold() {
    let schema = serde_json::to_value(schema_for!(Understood)).expect("a schema");
    let validator = jsonschema::validator_for(&schema).expect("a schema");
    for text in [BAND_ROOM, GOOD, "[ask\n", ""] {
        let value = serde_json::to_value(understand(text, 0)).expect("JSON");
        let faults: Vec<String> = validator
            .iter_errors(&value)
            .map(|error| error.to_string())
            .collect();
        assert!(faults.is_empty(), "{faults:?}");
        let back: Understood = serde_json::from_value(value).expect("the same shape");
        assert_eq!(back, understand(text, 0));
    }
    let schema = serde_json::to_value(schema_for!(UnderstoodPart)).expect("a schema");
    let part =
        serde_json::to_value(understand_part(PartKind::Bag, "[bag]\n", Language::English)).expect("JSON");
    assert!(
        jsonschema::validator_for(&schema)
            .expect("a schema")
            .is_valid(&part)
    );
    assert!(serde_json::to_value(schema_for!(Edit)).is_ok());
}

#[test]
fn a_part_that_is_kept_by_itself_is_checked_alone() {
    let check = |kind: PartKind, text: &str, words: &str, line: Option<usize>| {
        let found = understand_part(kind, text, Language::English);
        let said = format!("{:?}", found.problems);
        assert_eq!(found.ok, words.is_empty(), "{text}: {said}");
        assert!(said.contains(words), "{text}: {said}");
        if !words.is_empty() {
            assert_eq!(found.problems[0].line, line, "{text}: {said}");
            assert!(found.problems[0].remedy.is_some(), "{text}");
        }
    };
    let (place, bag) = (PartKind::Place.give(GOOD, 0), PartKind::Bag.give(GOOD, 0));
    let (place, bag) = (place.expect("a place"), bag.expect("a bag"));
    check(PartKind::Place, &place, "", None);
    check(PartKind::Bag, &bag, "", None);
    check(PartKind::Bag, "[bag]\n", "", None);
    check(PartKind::Place, &bag, "the part [place] is missing", None);
    check(PartKind::Bag, "", "this file is empty", None);
    check(
        PartKind::Bag,
        "[bag]\nstand = 3\n",
        "either true or false",
        Some(2),
    );
    check(
        PartKind::Bag,
        "[bag]\n[camera]\n",
        "no key \\\"camera\\\"",
        Some(2),
    );
    check(
        PartKind::Place,
        "[place]\nroom = \"5 m\"\n",
        "three numbers",
        Some(2),
    );
    let spoilt = |old: &str, new: &str, words: &str| {
        let text = place.replacen(old, new, 1);
        let at = text.find(words).unwrap_or_else(|| panic!("{words} is not there"));
        (1 + text[..at].matches('\n').count(), text)
    };
    let (line, text) = spoilt("faces = \"sitter\"", "faces = \"siter\"", "siter");
    check(PartKind::Place, &text, "not known as a direction", Some(line));
    let (line, text) = spoilt("name = \"bench\"", "name = \"bench\"\nsise = \"1 m\"", "sise");
    check(PartKind::Place, &text, "has no key", Some(line));
    let twice = "[bag]\n[[bag.board]]\nsize = \"1 x 1 m\"\nname = \"a\"\n[[bag.board]]\nsize = \"1 x 1 m\"\nname = \"A\"\n";
    check(PartKind::Bag, twice, "with the name", Some(7));
    let untold = understand_part(
        PartKind::Place,
        "[place]\nroom = \"5 x 4 x 2.5 m\"\n",
        Language::English,
    );
    assert_eq!(untold.warnings.len(), 1, "{:?}", untold.warnings);
    assert_eq!(untold.form["place"]["room"], "5 x 4 x 2.5 m");
}

/// Every word of the vocabulary is read where it belongs.
#[test]
fn every_word_is_known_to_the_reader() {
    let words = vocabulary();
    let good = |old: &str, new: &str| {
        assert!(GOOD.contains(old), "{old}");
        read(&GOOD.replacen(old, new, 1));
    };
    let sitter = |key: &str, list: &[String]| {
        assert!(list.len() >= 3, "{key}: {list:?}");
        list.iter()
            .for_each(|word| good("skin = \"tan\"", &format!("{key} = \"{word}\"")));
    };
    sitter("skin", &words.skins);
    sitter("hair", &words.hairs);
    sitter("hair_colour", &words.hair_colours);
    sitter("eyes", &words.eyes);
    sitter("top", &words.cloths);
    sitter("clothes", &words.clothes);
    sitter("build", &words.builds);
    let figure = |word: &String| good("figure = \"woman\"\nage = 40", &format!("figure = \"{word}\""));
    words.figures.iter().for_each(figure);
    for word in &words.surfaces {
        good("\"cream\"", &format!("\"{}\"", word.name));
    }
    for word in &words.usual_lights {
        good("reading = \"EV 5\"", &format!("reading = \"{}\"", word.name));
        good("reading = \"EV 5\"", &format!("reading = \"{}\"", word.reading));
        good("colour = \"2700 K\"", &format!("colour = \"{}\"", word.colour));
    }
    for word in &words.patterns {
        good("key = \"loop\"", &format!("key = \"{}\"", word.name));
    }
    for word in &words.looks {
        good("ambient = \"out\"", &format!("ambient = \"{}\"", word.name));
    }
    for word in &words.gels {
        for (family, has) in [("straw", &word.straw), ("amber", &word.amber)] {
            let text = format!("gels = [\"{}\"]\ngel_family = \"{family}\"", word.name);
            let text = GOOD.replacen("assistant = true", &text, 1);
            assert_eq!(
                shoot::parse("test.toml", &text).is_ok(),
                has.is_some(),
                "{family} {}",
                word.name
            );
        }
    }
    for word in &words.illuminants {
        // Some are no white, so no temperature can be told of them.
        let text = GOOD.replacen("colour = \"2700 K\"", &format!("illuminant = \"{word}\""), 1);
        assert!(shoot::parse("test.toml", &text).is_ok(), "{word}");
    }
    for word in &words.lamps {
        let lamp = format!("lamp = \"{}\"\nfrom = \"9 o'clock\"", word.name);
        good(
            "reading = \"EV 5\"\nmetered = \"towards the camera\"\ncolour = \"2700 K\"",
            &lamp,
        );
    }
    for word in &words.opening_kinds {
        good("kind = \"window\"", &format!("kind = \"{word}\""));
    }
    for word in &words.weathers {
        good("weather = \"clear\"", &format!("weather = \"{word}\""));
    }
    let numbers = "guide_numbers = [\"GN 24 m at zoom 24 (measured)\", \"GN 50 m at zoom 105 (measured)\"]";
    for word in &words.flash_kinds {
        good(numbers, &format!("kind = \"{word}\""));
    }
}

/// The reference tells the same figures.
#[test]
fn the_words_are_those_of_the_reference() {
    let words = vocabulary();
    for word in &words.surfaces {
        let row = format!("| {} | {:.2} | {} |", word.name, word.reflectance, word.meaning);
        assert!(REFERENCE.contains(&row), "{row}");
    }
    let warmth = |mired, loss_stops| Some(GelFigure::Warmth { mired, loss_stops });
    let tint = |duv, loss_stops| Some(GelFigure::Tint { duv, loss_stops });
    let check = |name: &str, straw: Option<GelFigure>, amber: Option<GelFigure>| {
        let gel = words
            .gels
            .iter()
            .find(|gel| gel.name == name)
            .unwrap_or_else(|| panic!("no {name}"));
        assert_eq!((gel.straw, gel.amber), (straw, amber), "{name}");
    };
    check("full CTO", warmth(167.0, 1.1), warmth(159.0, 0.85));
    check("3/4 CTO", warmth(131.0, 0.8), None);
    check("1/2 plus green", tint(0.017, 0.25), tint(0.017, 0.25));
    check("red", Some(GelFigure::Deep), Some(GelFigure::Deep));
    let names: std::collections::BTreeSet<&str> = words.gels.iter().map(|gel| gel.name.as_str()).collect();
    assert_eq!(names.len(), words.gels.len(), "each name once");
    assert_eq!(
        (words.patterns[0].azimuth, words.patterns[0].elevation),
        ([25.0, 45.0], [20.0, 45.0])
    );
}

#[test]
fn a_shoot_is_begun_from_any_of_the_words() {
    let words = vocabulary();
    let check = |change: &dyn Fn(&mut StartForm)| {
        let mut form = StartForm::default();
        change(&mut form);
        let text = begin(&form);
        let found = understand(&text, 0);
        assert!(found.ok, "{:?}\n{text}", found.problems);
        assert!(found.warnings.is_empty(), "{:?}\n{text}", found.warnings);
        found
    };
    let plain = check(&|_| {});
    assert_eq!(plain.set_ups[0].name, "My shoot");
    let geometry = plain.geometry.expect("a good text");
    assert_eq!(
        (geometry.camera.y, geometry.sitters[0].y, geometry.sitters[0].x),
        (1.75, 3.75, 2.2)
    );
    for surface in &words.surfaces {
        check(&|form| form.wall.clone_from(&surface.name));
        check(&|form| form.ceiling_surface.clone_from(&surface.name));
    }
    for light in words
        .usual_lights
        .iter()
        .map(|light| &light.name)
        .chain([&"dark".to_owned()])
    {
        check(&|form| form.light.clone_from(light));
    }
    for look in &words.patterns {
        check(&|form| form.look.clone_from(&look.name));
    }
    for skin in &words.skins {
        check(&|form| form.skin.clone_from(skin));
    }
    let feet = check(&|form| {
        (form.length, form.width) = ("18 ft".to_owned(), "14 ft".to_owned());
        (form.ceiling, form.sitter_distance) = ("8 ft 6 in".to_owned(), "6'6\"".to_owned());
    });
    assert!(feet.geometry.expect("a good text").feet);
    let small = check(&|form| {
        (form.length, form.width) = ("3 m".to_owned(), "2 m".to_owned());
        form.sitter_distance = "1.5 m".to_owned();
    });
    assert!(small.geometry.expect("a good text").sitters[0].y < 2.8);
    // What is filled in wrongly is told where it stands.
    for (length, distance, words) in [
        ("long", "2 m", "room"),
        ("5 m", "8 m", "outside the room"),
        ("-3 m", "2 m", "room"),
    ] {
        let form = StartForm {
            length: length.to_owned(),
            sitter_distance: distance.to_owned(),
            ..StartForm::default()
        };
        let found = understand(&begin(&form), 0);
        assert!(
            !found.ok && format!("{:?}", found.problems).contains(words),
            "{length}: {:?}",
            found.problems
        );
    }
}

/// What is begun can be lit: by every pattern, in a light room and in a dark one.
#[test]
fn a_shoot_that_was_begun_answers_well() {
    for (wall, light, look) in [
        ("white paint", "living room evening", "loop"),
        ("cream", "dark", "Rembrandt"),
        ("light grey", "living room evening", "side"),
    ] {
        let form = StartForm {
            wall: wall.to_owned(),
            light: light.to_owned(),
            look: look.to_owned(),
            ..StartForm::default()
        };
        let answer = solver::answer(&read(&begin(&form)).job, 1).expect("a place that can be lit");
        assert!(
            answer.shortfall.is_none(),
            "{wall}, {light}, {look}: {:?}",
            answer.shortfall
        );
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 500, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn a_begun_text_is_toml_whatever_is_filled_in(words in prop::collection::vec("\\PC{0,30}|[0-9]{1,3}(\\.[0-9])? ?(m|ft|cm)", 10)) {
        let form = StartForm {
            title: words[0].clone(), length: words[1].clone(), width: words[2].clone(), ceiling: words[3].clone(),
            wall: words[4].clone(), ceiling_surface: words[5].clone(), sitter_distance: words[6].clone(),
            skin: words[7].clone(), light: words[8].clone(), look: words[9].clone(),
        };
        let text = begin(&form);
        prop_assert!(text.parse::<toml::Table>().is_ok(), "{text}");
        let found = understand(&text, 0);
        prop_assert_eq!(found.ok, found.problems.is_empty());
    }

    #[test]
    fn any_text_is_understood_or_refused(text in "\\PC{0,200}", set_up in any::<usize>()) {
        let found = understand(&text, set_up);
        prop_assert_eq!(found.ok, found.problems.is_empty());
        prop_assert_eq!(found.ok, found.drawing.is_some());
        prop_assert!(!found.set_ups.is_empty());
        let part = understand_part(PartKind::Place, &text, Language::English);
        prop_assert_eq!(part.ok, part.problems.is_empty());
    }
}
