//! Good shoot files: what is read from them, what is assumed, and that damage never ends in a panic.

use answer::{AmbientFrom, AmbientLevel, AmbientWish, FlashStand, LightName, MeterFacing, Side, Softness};
use glam::Vec3;
use proptest::prelude::*;
use scene::Face;
use shoot::Language;
use shoot::{Shoot, parts};
use std::fs;
use std::path::PathBuf;
use units::Ev;

const GOOD: &str = include_str!("bad/good.toml");
const SITTING_ROOM: &str = include_str!("../../../examples/sitting-room.toml");
const DINING_ROOM: &str = include_str!("../../../examples/dining-room.toml");
const REFERENCE: &str = include_str!("../../../SHOOT_FILE.md");

fn read(text: &str) -> Shoot {
    shoot::parse("test.toml", text)
        .unwrap_or_else(|problems| panic!("{}", problems.render(Language::English, 100, false)))
}

fn read_all(text: &str) -> Vec<Shoot> {
    let file = shoot::parse_file("test.toml", text);
    file.unwrap_or_else(|problems| panic!("{}", problems.render(Language::English, 100, false)))
        .set_ups
}

fn good_with(old: &str, new: &str) -> Shoot {
    assert!(GOOD.contains(old), "{old} is not in the good file");
    read(&GOOD.replacen(old, new, 1))
}

fn near(a: Vec3, b: [f32; 3]) -> bool {
    (a - Vec3::from(b)).length() < 1e-5
}

#[test]
fn every_example_is_a_good_file() {
    let folder = PathBuf::from(concat!(env!("CARGO_MANIFEST_DIR"), "/../../examples"));
    let mut count = 0;
    for entry in fs::read_dir(folder).expect("the examples").flatten() {
        if entry
            .path()
            .extension()
            .is_some_and(|extension| extension == "toml")
        {
            let text = fs::read_to_string(entry.path()).expect("a text");
            let file = shoot::parse_file("example.toml", &text)
                .unwrap_or_else(|problems| panic!("{}", problems.render(Language::English, 100, false)));
            for shoot in &file.set_ups {
                assert!(
                    shoot.warnings.is_empty(),
                    "{}: {:?}",
                    entry.path().display(),
                    shoot.warnings
                );
            }
            count += 1;
        }
    }
    assert!(count >= 3);
}

#[test]
fn a_place_is_read_with_its_axes() {
    let job = read(SITTING_ROOM).job;
    // Written as length x width x ceiling, stored as width, length, height.
    assert!(near(job.place.room.size, [4.4, 5.5, 2.6]));
    assert!(near(job.viewpoint.position, [2.0, 2.0, 1.65]));
    assert!(near(job.sitters[0].face(), [2.0, 4.0, 1.55]));
    // The eyes are a tenth of the frame above the middle: 0.1 x 36 mm / 85 mm x 2.0025 m = 0.0848 m.
    assert!((job.viewpoint.look_at - Vec3::new(2.0, 4.0, 1.55 - 0.0848)).length() < 1e-4);
    assert!(near(job.sitters[0].face_direction(), [0.0, -1.0, 0.0]));
    let red = job.place.room.material(Face::Right).reflectance;
    let rgb = colour::upsample::linear_srgb_of(&red);
    for (found, said) in rgb.iter().zip([0.45, 0.16, 0.12]) {
        assert!((found - said).abs() < 1e-4, "{rgb:?}");
    }
    assert_eq!(job.ask.ambient, AmbientWish::Out);
    assert_eq!(job.ask.key.side, None);
    assert_eq!(
        (job.ask.key.azimuth_deg, job.ask.key.azimuth_tolerance_deg),
        (45.0, 15.0)
    );
    assert_eq!(job.ask.softness, Softness::Soft);
    assert!(job.ask.neutral_skin);
    assert_eq!(job.ambients[0].from, AmbientFrom::AllRound);
    assert!((job.bag.flash.total_light() - 1750.0).abs() < 1e-9);
    assert!((job.bag.flash.guide_number_m(105.0).expect("within the zoom") - 50.0).abs() < 1e-9);
}

#[test]
fn window_light_comes_through_its_opening() {
    let job = read(DINING_ROOM).job;
    // Under a sky what comes in by a window is daylight, as it was metered.
    let daylight = job.outdoors.expect("a sky");
    assert!(job.ambients.is_empty() && daylight.disc.is_none());
    assert_eq!(daylight.reading, Some((Ev(8.0), MeterFacing::Source)));
    assert_eq!(
        (daylight.sky.name, daylight.sky.kelvin.value()),
        (
            LightName::Given {
                name: "window".to_owned()
            },
            6000.0
        )
    );
    let sky = DINING_ROOM.find("[sky]").expect("a sky");
    let camera = DINING_ROOM.find("[camera]").expect("a camera");
    let without = format!("{}{}", &DINING_ROOM[..sky], &DINING_ROOM[camera..]);
    let window = &read(&without).job.ambients[0];
    assert_eq!(window.from, AmbientFrom::Opening(0));
    assert_eq!(window.facing, MeterFacing::Source);
    assert_eq!(
        (window.reading, window.kelvin.value()),
        (AmbientLevel::Reading(Ev(8.0)), 6000.0)
    );
    assert_eq!(job.place.openings[0].face, Face::Right);
    assert_eq!(job.ask.key.side, Some(Side::Left));
    assert_eq!(
        job.ask.shutter.map(|shutter| shutter.to_string()).as_deref(),
        Some("1/160")
    );
    assert_eq!(job.bag.helpers, 1);
    assert_eq!(job.bag.boards.len(), 1);
}

#[test]
fn what_is_not_said_is_assumed_and_told() {
    let text = "[place]\nroom = \"5 x 4 x 2.5 m\"\n[camera]\nfrom_left = \"2 m\"\nfrom_behind = \"1 m\"\n[[sitter]]\n\
                from_left = \"2 m\"\nfrom_behind = \"3 m\"\n[[ambient]]\nreading = \"EV 5\"\n";
    let shoot = read(text);
    assert_eq!(shoot.warnings.len(), 2, "{:?}", shoot.warnings);
    assert!(
        shoot.warnings[0]
            .in_language(Language::English)
            .starts_with("line 1: not said")
            && shoot.warnings[0]
                .in_language(Language::English)
                .contains("left as light grey paint")
    );
    assert!(
        shoot.warnings[1]
            .in_language(Language::English)
            .starts_with("line 9: colour not said"),
        "{:?}",
        shoot.warnings
    );
    let job = shoot.job;
    assert_eq!(job.title, "test");
    assert_eq!(job.body.sync.to_string(), "1/200");
    assert_eq!(
        (job.body.least_iso.value(), job.body.most_iso.value()),
        (100.0, 6400.0)
    );
    assert_eq!(job.body.widest.to_string(), "f/2.8");
    assert_eq!(job.viewpoint.focal_mm, 85.0);
    assert_eq!(job.viewpoint.position.z, job.sitters[0].face_height);
    assert!((1.5..1.7).contains(&job.sitters[0].face_height));
    assert_eq!(job.bag.flash.name(), "medium");
    assert_eq!(job.ask.ambient, AmbientWish::Any);
    assert_eq!(job.ask.in_hand.value(), 1.0);
    assert_eq!(job.ask.stand, FlashStand::OnCamera);
    assert_eq!((job.bag.helpers, job.bag.stand), (0, false));
    // Common practice: about 3 s on fresh cells, and two lights 40 mired apart are rejected on one face.
    assert_eq!(job.bag.flash.recycle_s(0.0), 3.0);
    assert_eq!((job.ask.neutral_skin, job.ask.cast_limit.value()), (true, 40.0));
    assert!(job.ask.ratio.is_none() && job.ask.evenness.is_none() && job.ask.background.is_none());
    assert!(job.ask.recycle_s.is_none() && job.ask.may_move_m == 0.0);
    assert_eq!((job.ask.key.azimuth_deg, job.ask.key.elevation_deg), (35.0, 32.5));
}

#[test]
fn feet_are_read_and_remembered() {
    let text = "[place]\nroom = \"18 x 14 x 8 ft\"\n[camera]\nfrom_left = \"7 ft\"\nfrom_behind = \"5'6\\\"\"\n\
                [[sitter]]\nfrom_left = \"7 ft\"\nfrom_behind = \"12 ft\"\nface_height = \"5 ft 2 in\"\n\
                [bag.flash]\nguide_numbers = [\"GN 118 ft at zoom 50 (claimed)\"]\n";
    let shoot = read(text);
    assert!(shoot.uses_feet);
    assert!(near(shoot.job.place.room.size, [4.2672, 5.4864, 2.4384]));
    assert!(near(shoot.job.viewpoint.position, [2.1336, 1.6764, 1.5748]));
    assert!(!read(SITTING_ROOM).uses_feet);
    let wrong = shoot::parse(
        "test.toml",
        &text.replace(
            "from_left = \"7 ft\"\nfrom_behind = \"12 ft\"",
            "from_behind = \"12 ft\"",
        ),
    )
    .expect_err("a missing distance");
    assert!(
        wrong.list()[0]
            .remedy(Language::English)
            .expect("a remedy")
            .contains("6 ft 7 in"),
        "{:?}",
        wrong.list()[0].remedy(Language::English)
    );
}

#[test]
fn sitters_look_where_the_clock_says() {
    // With the camera straight in front, seven is 30 degrees towards the camera's left.
    for (said, expected) in [
        ("\"camera\"", 0.0f32),
        ("\"6 o'clock\"", 0.0),
        ("7", -30.0),
        ("\"7:30\"", -45.0),
        ("\"9 o'clock\"", -90.0),
        ("\"left\"", -90.0),
        ("\"5\"", 30.0),
        ("\"3\"", 90.0),
    ] {
        let job = good_with("faces = \"camera\"", &format!("faces = {said}")).job;
        assert!(
            (job.sitters[0].facing.to_degrees() - expected).abs() < 1e-3,
            "{said}: {}",
            job.sitters[0].facing.to_degrees()
        );
    }
}

#[test]
fn boards_face_the_sitter_unless_told_otherwise() {
    let board = |new: &str| good_with("faces = \"sitter\"", new).job.place.panels[0].clone();
    // The board stands at 3.0, 4.6 and the sitter at 2.0, 3.6: a standing board stays upright.
    let diagonal = std::f32::consts::FRAC_1_SQRT_2;
    assert!(near(
        board("faces = \"sitter\"").normal,
        [-diagonal, -diagonal, 0.0]
    ));
    assert!(near(board("faces = \"9 o'clock\"").normal, [-1.0, 0.0, 0.0]));
    assert!(near(board("faces = 6").normal, [0.0, -1.0, 0.0]));
    assert!(near(
        board("faces = \"6\"\ntilt = \"30 deg\"").normal,
        [0.0, -(3f32.sqrt()) / 2.0, 0.5]
    ));
    assert_eq!(board("").centre.z, 0.8);
    let held = board("held = true\nheight = \"1.2 m\"");
    assert!(held.held && held.normal.z > 0.1);
}

#[test]
fn patterns_are_told_from_the_nose() {
    for (word, azimuth, elevation, tolerance) in [
        ("loop", 35.0, 32.5, 10.0),
        ("Rembrandt", 55.0, 45.0, 10.0),
        ("split", 90.0, 15.0, 10.0),
        ("butterfly", 5.0, 37.5, 5.0),
        ("flat", 7.5, 10.0, 7.5),
        ("side", 45.0, 17.5, 15.0),
        ("rembrandt from left", 55.0, 45.0, 10.0),
    ] {
        let key = good_with("key = \"loop\"", &format!("key = \"{word}\""))
            .job
            .ask
            .key;
        assert_eq!(
            (key.azimuth_deg, key.elevation_deg, key.azimuth_tolerance_deg),
            (azimuth, elevation, tolerance)
        );
        assert_eq!(key.side, Some(Side::Left), "{word}");
    }
    let key = good_with(
        "key = \"loop\"",
        "key = { azimuth = \"50 deg\", elevation = \"10 deg\" }",
    )
    .job
    .ask
    .key;
    assert_eq!(
        (key.azimuth_deg, key.elevation_deg, key.azimuth_tolerance_deg),
        (50.0, 10.0, 15.0)
    );
}

#[test]
fn ambient_wishes_are_read_as_they_are_said() {
    for (said, expected) in [
        ("out", AmbientWish::Out),
        ("any", AmbientWish::Any),
        ("-2 stops", AmbientWish::Offset(units::Stops(-2.0))),
        ("2 stops under", AmbientWish::Offset(units::Stops(-2.0))),
        ("-1.3 stops", AmbientWish::Offset(units::Stops(-4.0 / 3.0))),
        ("1/3 stop darker", AmbientWish::Offset(units::Stops(-1.0 / 3.0))),
        ("1 stop over", AmbientWish::Offset(units::Stops(1.0))),
        ("+1 stop", AmbientWish::Offset(units::Stops(1.0))),
    ] {
        assert_eq!(
            good_with("\"out\"", &format!("\"{said}\"")).job.ask.ambient,
            expected,
            "{said}"
        );
    }
}

/// The good file with one more line under `[ask]`.
fn asked(line: &str) -> Shoot {
    good_with("in_hand = \"1 stop\"", &format!("in_hand = \"1 stop\"\n{line}"))
}

/// The good file with every limit that can be asked for.
fn full() -> String {
    let limits = "ratio = \"3:1\"\nevenness = \"1/3 stop\"\nbackground = \"1 stop down\"\nrecycle = \"1 s\"\n\
                  sitter_may_move = \"0.5 m\"\nflash = \"anywhere\"\nskin = \"within 25 mired\"\nin_hand";
    GOOD.replacen("assistant = true", "helpers = 2\nstand = true", 1)
        .replacen("least_power", "recycle = \"2.6 s\"\nleast_power", 1)
        .replacen("in_hand", limits, 1)
}

#[test]
fn helpers_and_a_stand_are_counted() {
    for (said, helpers, stand) in [
        ("", 0, false),
        ("assistant = true", 1, false),
        ("assistant = false", 0, false),
        ("helpers = 0", 0, false),
        ("helpers = 2", 2, false),
        ("helpers = 4", 4, false),
        ("stand = true", 0, true),
        ("helpers = 3\nstand = false", 3, false),
        ("assistant = true\nstand = true", 1, true),
    ] {
        let bag = good_with("assistant = true", said).job.bag;
        assert_eq!((bag.helpers, bag.stand), (helpers, stand), "{said}");
    }
}

#[test]
fn recycling_is_read_at_full_power_and_scales_with_the_charge() {
    let flash = |said: &str| {
        let line = format!("least_power = \"1/128\"\nrecycle = \"{said}\"");
        good_with("least_power = \"1/128\"", &line).job.bag.flash
    };
    for (said, full) in [("2.6 s", 2.6), ("0.1 s", 0.1), ("30 seconds", 30.0)] {
        assert_eq!(flash(said).recycle_s(0.0), full, "{said}");
    }
    // A quarter of the charge takes a quarter of the time.
    assert!((flash("2.6 s").recycle_s(2.0) - 0.65).abs() < 1e-12);
    assert_eq!(flash("2.6 s").least_power_stops(), 7.0);
}

#[test]
fn limits_are_read_as_they_are_said() {
    for (said, expected) in [
        ("3:1", 3.0),
        ("3 to 1", 3.0),
        ("1:1", 1.0),
        ("5:2", 2.5),
        ("32:1", 32.0),
    ] {
        let ratio = asked(&format!("ratio = \"{said}\"")).job.ask.ratio;
        assert_eq!(ratio.map(units::Ratio::value), Some(expected), "{said}");
    }
    for (said, expected) in [
        ("1/3 stop", 1.0 / 3.0),
        ("0.3 stops", 1.0 / 3.0),
        ("within 1/2 stop", 0.5),
        ("0.1 stops", 0.1),
        ("3 stops", 3.0),
    ] {
        let evenness = asked(&format!("evenness = \"{said}\"")).job.ask.evenness;
        assert_eq!(evenness.map(units::Stops::value), Some(expected), "{said}");
    }
    for (said, expected) in [
        ("-1 stop", -1.0),
        ("1 stop down", -1.0),
        ("2 stops under", -2.0),
        ("-2 stops under", -2.0),
        ("1/3 stop darker", -1.0 / 3.0),
        ("same", 0.0),
        ("0 stops", 0.0),
        ("as the face", 0.0),
        ("+1/2 stop", 0.5),
        ("1 stop brighter", 1.0),
        ("-6 stops", -6.0),
        ("3 stops up", 3.0),
    ] {
        let background = asked(&format!("background = \"{said}\"")).job.ask.background;
        assert_eq!(background.map(units::Stops::value), Some(expected), "{said}");
    }
    // How far the flash stays under what is there; the sign says on which side.
    for (said, expected) in [
        ("1.5 stops down", 1.5),
        ("-1 stop", 1.0),
        ("same", 0.0),
        ("-5 stops", 5.0),
    ] {
        let under = good_with("\"out\"", &format!("\"any\"\nfill = \"{said}\""))
            .job
            .ask
            .fill;
        let off = under.map(|under| (under.value() - expected).abs());
        assert!(off.is_some_and(|off| off < 1e-9), "{said}: {under:?}");
    }
    for (said, expected) in [("1 s", 1.0), ("0.05 s", 0.05), ("30 s", 30.0)] {
        let recycle = asked(&format!("recycle = \"{said}\"")).job.ask.recycle_s;
        assert_eq!(recycle, Some(expected), "{said}");
    }
    for (said, expected) in [("0.5 m", 0.5), ("50 cm", 0.5), ("0 m", 0.0), ("3 m", 3.0)] {
        let may_move = asked(&format!("sitter_may_move = \"{said}\"")).job.ask.may_move_m;
        assert_eq!(may_move, expected, "{said}");
    }
    for (said, neutral, cast) in [
        ("neutral", true, 40.0),
        ("any", false, 40.0),
        ("within 25 mired", true, 25.0),
        ("Within 12.5 Mired", true, 12.5),
        ("within 200 mired", true, 200.0),
        ("within 5 mired", true, 5.0),
    ] {
        let ask = asked(&format!("skin = \"{said}\"")).job.ask;
        assert_eq!(
            (ask.neutral_skin, ask.cast_limit.value()),
            (neutral, cast),
            "{said}"
        );
    }
}

#[test]
fn a_move_in_feet_is_a_move_in_feet() {
    let text = "[place]\nroom = \"18 x 14 x 8 ft\"\n[camera]\nfrom_left = \"7 ft\"\nfrom_behind = \"5 ft\"\n\
                [[sitter]]\nfrom_left = \"7 ft\"\nfrom_behind = \"12 ft\"\n[ask]\nsitter_may_move = \"1 ft 6 in\"\n";
    let shoot = read(text);
    // 18 in of 25.4 mm.
    assert!((shoot.job.ask.may_move_m - 0.4572).abs() < 1e-6);
    let summary = shoot::summary::summary(&shoot, Language::English);
    assert!(summary.contains("the sitter may move 1 ft 6 in"), "{summary}");
}

#[test]
fn a_key_from_below_is_told_without_a_minus() {
    let said = |elevation: &str| {
        let key =
            format!("key = {{ from = \"left\", azimuth = \"40 deg\", elevation = \"{elevation} deg\" }}");
        let shoot = good_with("key = \"loop\"", &key);
        Language::ALL.map(|language| shoot::summary::summary(&shoot, language))
    };
    for (elevation, english, german) in [
        (
            "-20",
            "40° from the nose and 20° below the eyes,",
            "40° von der Nase und 20° unter den Augen,",
        ),
        (
            "0",
            "40° from the nose and level with the eyes,",
            "40° von der Nase und in Augenhöhe,",
        ),
        (
            "25",
            "40° from the nose and 25° up,",
            "40° von der Nase und 25° hoch,",
        ),
    ] {
        let [in_english, in_german] = said(elevation);
        assert!(in_english.contains(english), "{in_english}");
        assert!(in_german.contains(german), "{in_german}");
    }
}

#[test]
fn a_flash_may_stand_anywhere_where_something_holds_it() {
    for holder in ["assistant = true", "helpers = 2", "stand = true"] {
        let text = GOOD.replacen("assistant = true", holder, 1).replacen(
            "in_hand = \"1 stop\"",
            "flash = \"anywhere\"",
            1,
        );
        assert_eq!(read(&text).job.ask.stand, FlashStand::Anywhere, "{holder}");
    }
    let point = "flash = { from_left = \"1 m\", from_behind = \"2 m\", height = \"2 m\" }";
    assert_eq!(
        asked(point).job.ask.stand,
        FlashStand::At(Vec3::new(1.0, 2.0, 2.0))
    );
    assert_eq!(asked("flash = \"on camera\"").job.ask.stand, FlashStand::OnCamera);
}

#[test]
fn limits_that_rest_on_something_unsaid_come_with_a_note() {
    let alone = asked("evenness = \"1/3 stop\"").warnings;
    assert_eq!(alone.len(), 1, "{alone:?}");
    assert!(
        alone[0]
            .in_language(Language::English)
            .contains("there is only one"),
        "{alone:?}"
    );
    let line = 1 + GOOD[..GOOD.find("in_hand").expect("the line")]
        .matches('\n')
        .count();
    assert!(
        alone[0]
            .in_language(Language::English)
            .starts_with(&format!("line {}:", line + 1)),
        "{alone:?}"
    );
    let second = "[[sitter]]\nfrom_left = \"2.6 m\"\nfrom_behind = \"3.6 m\"\n[bag]\n";
    let two = GOOD
        .replacen("[bag]\n", second, 1)
        .replacen("in_hand", "evenness = \"1/3 stop\"\nin_hand", 1);
    assert!(read(&two).warnings.is_empty(), "{:?}", read(&two).warnings);

    let unsaid = asked("recycle = \"1 s\"").warnings;
    assert_eq!(unsaid.len(), 1, "{unsaid:?}");
    assert!(
        unsaid[0]
            .in_language(Language::English)
            .contains("taken as 3.0 s after full power"),
        "{unsaid:?}"
    );
    let said = GOOD
        .replacen("least_power", "recycle = \"2.6 s\"\nleast_power", 1)
        .replacen("in_hand", "recycle = \"1 s\"\nin_hand", 1);
    assert!(read(&said).warnings.is_empty(), "{:?}", read(&said).warnings);
}

#[test]
fn the_summary_repeats_every_limit() {
    let summary = shoot::summary::summary(&read(&full()), Language::English);
    for words in [
        "2.6 s to recycle",
        "a stand",
        "2 people to help",
        "ratio 3:1",
        "faces within 0.3 stop",
        "background -1 stop against the face",
        "1 s between frames at most",
        "the sitter may move 0.5 m",
        "flash wherever serves best",
        "skin neutral within 25 mired",
    ] {
        assert!(summary.contains(words), "no \"{words}\" in:\n{summary}");
    }
    let plain = shoot::summary::summary(&read(GOOD), Language::English);
    for words in [
        "ratio",
        "faces within",
        "background",
        "between frames",
        "may move",
        "a stand",
    ] {
        assert!(!plain.contains(words), "\"{words}\" in:\n{plain}");
    }
}

#[test]
fn lamps_have_places_and_colours() {
    let lamp = "from = { from_left = \"1 m\", from_behind = \"3 m\", height = \"2 m\" }";
    let job = good_with(
        "colour = \"2700 K\"",
        &format!("colour = \"4000 K\"\nduv = \"Duv +0.010\"\n{lamp}"),
    )
    .job;
    assert_eq!(job.ambients[0].from, AmbientFrom::Lamp(Vec3::new(1.0, 3.0, 2.0)));
    let (kelvin, duv) = job.ambients[0].colour.cct_duv().expect("near white");
    assert!(
        (kelvin.value() - 4000.0).abs() < 30.0 && (duv.value() - 0.010).abs() < 0.001,
        "{kelvin} {duv}"
    );
    let job = good_with("colour = \"2700 K\"", "illuminant = \"fl2\"").job;
    assert!(
        (job.ambients[0].kelvin.value() - 4225.0).abs() < 40.0,
        "{}",
        job.ambients[0].kelvin
    );
}

#[test]
fn a_hidden_face_is_only_a_warning() {
    let shoot = good_with(
        "from_left = \"3.0 m\"\nfrom_behind = \"4.6 m\"",
        "from_left = \"2.0 m\"\nfrom_behind = \"2.5 m\"\nheight = \"1.5 m\"",
    );
    assert!(
        shoot.warnings.iter().any(|warning| warning
            .in_language(Language::English)
            .contains("\"screen\" hides the face of \"Kim\"")),
        "{:?}",
        shoot.warnings
    );
    assert!(read(GOOD).warnings.is_empty());
}

#[test]
fn the_same_text_with_other_line_ends_means_the_same() {
    let plain = format!("{:?}", read(GOOD).job);
    assert_eq!(format!("{:?}", read(&GOOD.replace('\n', "\r\n")).job), plain);
    assert_eq!(format!("{:?}", read(&format!("\u{feff}{GOOD}")).job), plain);
}

/// The reference explains every key of every part, under that part's heading, and its examples are good files.
#[test]
fn the_reference_is_complete_and_true() {
    for part in parts::ALL {
        let heading = format!("## `{}`", part.title);
        let heading = if part.title.starts_with('[') {
            heading
        } else {
            format!("## {}", capital(part.title))
        };
        let start = REFERENCE
            .find(&heading)
            .unwrap_or_else(|| panic!("SHOOT_FILE.md has no heading {heading}"));
        let section = &REFERENCE[start + heading.len()..];
        let section = &section[..section.find("\n## ").unwrap_or(section.len())];
        for key in part.keys {
            assert!(
                section.contains(&format!("| `{key}` |")),
                "SHOOT_FILE.md does not explain {key} under {heading}"
            );
        }
        for row in section.lines().filter(|line| line.starts_with("| `")) {
            let key = row.split('`').nth(1).unwrap_or_default();
            assert!(
                part.keys.contains(&key),
                "SHOOT_FILE.md explains {key} under {heading}, but it does not exist"
            );
        }
    }
    let mut examples = 0;
    for block in REFERENCE.split("```toml\n").skip(1) {
        let text = block.split("```").next().unwrap_or_default();
        if text.contains("[place]") {
            read_all(text);
            examples += 1;
        } else if text.contains("[ask]") {
            // A wish alone is a good file once it is in a place with two people.
            let sitters = "[[sitter]]\nfrom_left = \"2 m\"\nfrom_behind = \"4 m\"\n\
                           [[sitter]]\nfrom_left = \"2.6 m\"\nfrom_behind = \"4 m\"\n";
            let place =
                "[place]\nroom = \"6 x 4 x 2.5 m\"\n[camera]\nfrom_left = \"2 m\"\nfrom_behind = \"2 m\"\n";
            read(&format!("{place}{sitters}{text}"));
            examples += 1;
        }
    }
    assert!(
        examples >= 2,
        "the reference shows no complete file, or no full wish"
    );
}

fn capital(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map_or(String::new(), |first| {
        first.to_uppercase().chain(letters).collect()
    })
}

/// What the reference lists of words and surfaces is what is known.
#[test]
fn the_reference_names_every_known_surface_and_colour() {
    use colour::person::{ClothTone, HairTone, IrisTone};
    let names = colour::surfaces::NAMES
        .into_iter()
        .chain(ClothTone::ALL.iter().map(|tone| tone.name()))
        .chain(HairTone::ALL.iter().map(|tone| tone.name()))
        .chain(IrisTone::ALL.iter().map(|tone| tone.name()))
        .chain(colour::SkinTone::ALL.iter().map(|tone| tone.name()));
    for name in names {
        assert!(REFERENCE.contains(name), "SHOOT_FILE.md does not name {name}");
    }
}

/// A generic flash instead, because proving the beams of a described one takes longer than the reading.
fn generic(text: &str) -> String {
    let described = "guide_numbers = [\"GN 24 m at zoom 24 (measured)\", \"GN 50 m at zoom 105 (measured)\"]";
    text.replace(described, "kind = \"large\"")
}

/// Pieces that break parsers: open strings and brackets, numbers at the edge, letters of several bytes.
const PIECES: &[&str] = &[
    "\"",
    "'",
    "\"\"\"",
    "[",
    "]",
    "[[",
    "]]",
    "{",
    "}",
    "=",
    "#",
    "\n",
    "\r",
    "\0",
    "\u{1b}",
    ",",
    ".",
    "\\",
    "\\u",
    "ä",
    "“",
    "\u{1F3BA}",
    "\u{202e}",
    "nan",
    "inf",
    "-",
    "1e999",
    "0x",
    "9999999999999999999999",
    " x ",
    " m",
    " ft",
    "true",
    "1979-05-27",
    "\u{feff}",
    "-0 m",
    "1/0",
    "f/0",
    "0/0",
    "GN",
    "Duv",
    "o'clock",
    ":",
    "\u{85}",
    "name = \"\"",
];

/// One change to a text.
#[derive(Clone, Debug)]
enum Damage {
    Insert(usize, usize),
    Delete(usize, usize),
    Repeat(usize, usize),
    Swap(usize, usize),
}

fn damaged(text: &str, damages: &[Damage]) -> String {
    let mut letters: Vec<char> = text.chars().collect();
    for damage in damages {
        let length = letters.len().max(1);
        match *damage {
            Damage::Insert(at, piece) => {
                let at = at % length;
                letters.splice(at..at, PIECES[piece % PIECES.len()].chars());
            }
            Damage::Delete(at, count) => {
                let at = at % length;
                letters.drain(at.min(letters.len())..(at + count).min(letters.len()));
            }
            Damage::Repeat(at, count) => {
                let at = at % length;
                let copy: Vec<char> =
                    letters[at.min(letters.len())..(at + count).min(letters.len())].to_vec();
                letters.splice(at..at, copy);
            }
            Damage::Swap(a, b) => {
                let mut lines: Vec<String> = letters
                    .iter()
                    .collect::<String>()
                    .lines()
                    .map(str::to_owned)
                    .collect();
                let count = lines.len().max(1);
                if lines.len() > 1 {
                    lines.swap(a % count, b % count);
                }
                letters = lines.join("\n").chars().collect();
            }
        }
    }
    letters.into_iter().collect()
}

fn damage() -> impl Strategy<Value = Damage> {
    prop_oneof![
        (any::<usize>(), any::<usize>()).prop_map(|(at, piece)| Damage::Insert(at, piece)),
        (any::<usize>(), 1usize..40).prop_map(|(at, count)| Damage::Delete(at, count)),
        (any::<usize>(), 1usize..60).prop_map(|(at, count)| Damage::Repeat(at, count)),
        (any::<usize>(), any::<usize>()).prop_map(|(a, b)| Damage::Swap(a, b)),
    ]
}

/// Whatever is given, it is either read or refused with at least one sentence that can be printed.
fn is_answered(text: &str) -> Result<(), TestCaseError> {
    if let Err(problems) = shoot::parse("fuzz.toml", text) {
        prop_assert!(!problems.list().is_empty());
        for problem in problems.list() {
            prop_assert!(!problem.message(Language::English).is_empty());
            prop_assert!(
                problem.remedy(Language::English).is_some(),
                "no remedy: {}",
                problem.message(Language::English)
            );
        }
        let shown = problems.render(Language::English, 100, false);
        let commands_a_terminal = shown.contains('\u{1b}');
        prop_assert!(!commands_a_terminal);
    }
    Ok(())
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 3000, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn damaged_files_never_panic(damages in prop::collection::vec(damage(), 1..6), which in 0usize..3) {
        let text = generic([shoot::DEMO, GOOD, &full()][which]);
        is_answered(&damaged(&text, &damages))?;
    }

    #[test]
    fn values_of_any_kind_never_panic(line in 0usize..90, value in ".{0,30}", quoted in any::<bool>()) {
        let lines: Vec<String> = generic(&full()).lines().enumerate().map(|(index, text)| match text.split_once('=') {
            Some((key, _)) if index == line => {
                if quoted { format!("{key}= \"{}\"", value.replace(['"', '\\'], "")) } else { format!("{key}= {value}") }
            }
            _ => text.to_owned(),
        }).collect();
        is_answered(&lines.join("\n"))?;
    }

    #[test]
    fn text_of_any_kind_never_panics(text in "\\PC{0,400}") {
        is_answered(&text)?;
    }
}

/// A lamp by its box, over there; a named level with its colour; gels of a family and a wish for the colour.
#[test]
fn lamps_levels_gels_and_colour() {
    let shoot = good_with(
        "reading = \"EV 5\"",
        "lamp = \"60 W bulb\"\nfrom = \"9 o'clock\"\nheight = \"1.9 m\"",
    );
    let lamp = &shoot.job.ambients.last().expect("a lamp");
    assert_eq!(lamp.reading, AmbientLevel::Lumens(806.0));
    let AmbientFrom::Lamp(at) = lamp.from else {
        panic!("{:?}", lamp.from)
    };
    // Nine is the camera's left: near the left wall, level with the sitter.
    let face = shoot.job.sitters[0].face();
    assert!(
        (at.x - 0.3).abs() < 1e-3 && (at.y - face.y).abs() < 1e-3 && (at.z - 1.9).abs() < 1e-6,
        "{at}"
    );

    let shoot = good_with(
        "reading = \"EV 5\"\nmetered = \"towards the camera\"\ncolour = \"2700 K\"",
        "reading = \"living room evening\"",
    );
    let room = shoot.job.ambients.last().expect("a light");
    assert_eq!(
        (room.reading, room.kelvin.value()),
        (AmbientLevel::Reading(Ev(5.5)), 2850.0)
    );

    let shoot = good_with(
        "assistant = true",
        "gels = [\"half CTO\", \"full CTB\"]\ngel_family = \"amber\"",
    );
    let names: Vec<&str> = shoot.job.bag.gels.iter().map(light::Gel::name).collect();
    assert_eq!(names, ["1/2 CTO", "full CTB"]);

    let shoot = good_with(
        "in_hand = \"1 stop\"",
        "colour = \"room blue by 60 mired\"\ntint = \"M2\"",
    );
    let wish = shoot.job.ask.colour.expect("a wish");
    assert_eq!(
        (wish.skin.value(), wish.room.map(|room| room.value())),
        (0.0, Some(-60.0))
    );
    assert_eq!(shoot.job.ask.tint.map(|tint| tint.value()), Some(0.004));
}

/// Height and bearing of the sun by the ephemeris DE421 (Skyfield 1.55), with its refraction.
#[test]
fn the_summary_says_where_and_when_and_where_the_sun_is() {
    let summary = shoot::summary::summary(&read(GOOD), Language::English);
    let line = summary.lines().find(|line| line.starts_with("Sky "));
    assert_eq!(
        line,
        Some(
            "Sky       52.10 N, 5.12 E; 2026-03-29 16:40, Europe/Amsterdam; clear sky; camera looks SW; \
             sun 29.4° above the horizon at 233° (SW)"
        )
    );
}

/// Sunset there is at 20:08 on that day (DE421): what stands on the horizon hides the sun only until then.
#[test]
fn a_sun_that_has_set_is_behind_nothing() {
    let check = |time: &str, hidden: bool| {
        let evening = GOOD
            .replacen(
                "from = \"200 deg\"\nto = \"215 deg\"",
                "from = \"265 deg\"\nto = \"290 deg\"",
                1,
            )
            .replacen("time = \"16:40\"", &format!("time = \"{time}\""), 1);
        let summary = shoot::summary::summary(&read(&evening), Language::English);
        assert_eq!(summary.contains("behind \"church\""), hidden, "{summary}");
    };
    check("19:30", true);
    check("20:30", false);
}

/// The moment by universal time, the zone of the place, and the clock around the sitter.
#[test]
fn a_sky_is_read_by_the_local_clock() {
    let sky = |text: &str| read(text).sky.expect("a sky");
    let utc = |hour, minute| light::Moment::utc(2026, 3, 29, hour, minute, 0.0).expect("a moment");
    let summer = sky(GOOD);
    assert_eq!(summer.moment, utc(14, 40));
    assert_eq!(summer.clock_text(summer.moment), "16:40");
    // The day on which clocks are put forward has 23 hours.
    let (from, until) = summer.day();
    assert_eq!(until.since(from), 23.0 * 3600.0);
    // Without a zone that of the place is taken; an offset is taken as it stands.
    let zone = "zone = \"Europe/Amsterdam\"\n";
    let found = sky(&GOOD.replacen(zone, "", 1));
    assert_eq!(
        (found.zone.as_str(), found.moment),
        ("Europe/Amsterdam", utc(14, 40))
    );
    assert_eq!(
        sky(&GOOD.replacen(zone, "zone = \"+01:00\"\n", 1)).moment,
        utc(15, 40)
    );
    // The camera looks south-west: the north-west is on its right.
    assert!((summer.hour_of(315.0) - 3.0).abs() < 1e-9);
    // 30 m at 90 m.
    let church = summer.skyline[0].where_it_stands;
    assert!((church.height_deg - 18.435).abs() < 1e-3);
    let again = "date = \"2026-10-25\"\ntime = \"02:30\"\nfold = ";
    let twice = |which: &str| {
        let old = "date = \"2026-03-29\"\ntime = \"16:40\"";
        sky(&GOOD.replacen(old, &format!("{again}\"{which}\""), 1)).moment
    };
    assert_eq!(twice("second").since(twice("first")), 3600.0);
}
