//! The third line against the drawings: where the flash stands, from where the light comes, and how the head is turned and
//! tilted are read off the plan and the side view with a ruler, and must be what the sentences say.

mod fixture;

use answer::{Holder, Route};
use fixture::{Case, cases};
use roxmltree::{Document, Node};
use sheet::{Language, Told, Voice, drawing_svg};

/// A point of a drawing, x to the right and y down, in pixels.
type Spot = [f64; 2];

/// Half of the step in which hours are told, and a little for coordinates that are drawn to a tenth of a pixel.
const HALF_A_STEP_H: f64 = 0.25 + 0.05;
/// The same for degrees.
const HALF_A_STEP_DEG: f64 = 2.5 + 1.5;

/// The set-ups of which plan and side view can be measured.
fn drawn() -> impl Iterator<Item = Case> {
    cases().into_iter().filter(|case| case.name != "hostile-names")
}

/// The third line of an answer in metres.
fn third_line(case: &Case, language: Language) -> String {
    Told::new(&case.job, &case.answer, Voice::new(language, false))
        .lines
        .aim
}

/// Everything in a drawing that shows one thing.
fn shown<'a>(document: &'a Document, what: &str) -> Vec<Node<'a, 'a>> {
    let nodes = document.descendants();
    nodes
        .filter(|node| node.attribute("data-what") == Some(what))
        .collect()
}

/// The corners of a path of straight lines.
fn corners(path: Node) -> Vec<Spot> {
    let d = path.attribute("d").expect("a path");
    let numbers: Vec<f64> = d
        .split(|c: char| !(c.is_ascii_digit() || c == '.' || c == '-'))
        .filter_map(|number| number.parse().ok())
        .collect();
    numbers.chunks_exact(2).map(|pair| [pair[0], pair[1]]).collect()
}

fn middle(spots: &[Spot]) -> Spot {
    let sum = spots
        .iter()
        .fold([0.0, 0.0], |[x, y], spot| [x + spot[0], y + spot[1]]);
    sum.map(|part| part / spots.len() as f64)
}

/// Both ends of a line.
fn ends(line: Node) -> [Spot; 2] {
    let number = |name: &str| {
        let value = line.attribute(name).and_then(|value| value.parse::<f64>().ok());
        value.expect("a coordinate")
    };
    [[number("x1"), number("y1")], [number("x2"), number("y2")]]
}

/// Angle of the way from one spot to another, in degrees and clockwise as it looks on the sheet.
fn angle(from: Spot, to: Spot) -> f64 {
    (to[1] - from[1]).atan2(to[0] - from[0]).to_degrees()
}

/// An angle as it differs from none, -180 to 180.
fn wrapped(degrees: f64) -> f64 {
    (degrees + 180.0).rem_euclid(360.0) - 180.0
}

/// What a ruler finds in the drawing of an answer.
struct Ruled {
    /// Hour at which the flash is drawn, the camera at 6 and the metered sitter in the middle.
    flash: f64,
    /// Hour at which the light is drawn to come from.
    light: f64,
    /// Distance from the middle of the clock to the metered sitter, in pixels.
    clock_off: f64,
    /// Turn of the drawn beam from the drawn lens, clockwise.
    turn: f64,
    /// How steeply the beam leaves the flash in the side view, upwards.
    tilt: f64,
    /// All words in the drawing.
    words: Vec<String>,
}

fn ruled(case: &Case, language: Language) -> Ruled {
    let there = case.job.as_answered(&case.answer);
    let svg = drawing_svg(&there, Some(&case.answer), Voice::new(language, false));
    let document = Document::parse(&svg).expect("well-formed");
    let paths = |node: Node| -> Vec<Vec<Spot>> {
        let paths = node.descendants().filter(|node| node.has_tag_name("path"));
        paths.map(corners).collect()
    };
    let lines = |node: Node| -> Vec<[Spot; 2]> {
        let lines = node.descendants().filter(|node| node.has_tag_name("line"));
        lines.map(ends).collect()
    };
    // The plan comes first, the side view after it.
    let flash = middle(&corners(shown(&document, "flash")[0]));
    let sitter = middle(&paths(shown(&document, "metered")[0])[0]);
    let lens = &paths(shown(&document, "camera")[0])[1];
    let (camera, front) = (middle(&lens[..2]), middle(&lens[2..]));
    let way = lines(shown(&document, "light")[0]);
    let source = way.last().expect("light that arrives")[0];
    let ring = shown(&document, "clock")[0];
    let ring = ring
        .descendants()
        .find(|node| node.has_tag_name("circle"))
        .expect("a ring");
    let at = |name: &str| {
        ring.attribute(name)
            .and_then(|at| at.parse::<f64>().ok())
            .expect("a place")
    };
    let hour =
        |spot: Spot| (6.0 + wrapped(angle(sitter, spot) - angle(sitter, camera)) / 30.0).rem_euclid(12.0);
    let leaves = way[0];
    let beside = lines(shown(&document, "light-beside")[0])[0];
    let (run, rise) = ((beside[1][0] - beside[0][0]).abs(), beside[0][1] - beside[1][1]);
    Ruled {
        flash: hour(flash),
        light: hour(source),
        clock_off: (at("cx") - sitter[0]).hypot(at("cy") - sitter[1]),
        turn: wrapped(angle(leaves[0], leaves[1]) - angle(camera, front)),
        tilt: rise.atan2(run).to_degrees(),
        words: document
            .descendants()
            .filter(|node| node.has_tag_name("text"))
            .filter_map(|node| node.text().map(str::to_owned))
            .collect(),
    }
}

/// The first number of a text that begins with one.
fn number(text: &str) -> f64 {
    let end = text
        .find(|c: char| !(c.is_ascii_digit() || c == '.' || c == ','))
        .unwrap_or(text.len());
    let digits = text[..end].trim_end_matches([',', '.']).replace(',', ".");
    digits
        .parse()
        .unwrap_or_else(|_| panic!("a number begins: {text}"))
}

/// The hour that follows some words: "half past 7", "9 o'clock"; "halb 8", "9 Uhr".
fn hour_after(line: &str, words: &str) -> Option<f64> {
    let rest = line.split_once(words)?.1;
    Some(
        match (rest.strip_prefix("half past "), rest.strip_prefix("halb ")) {
            (Some(past), _) => number(past) + 0.5,
            (_, Some(before)) => number(before) - 0.5,
            _ => number(rest),
        },
    )
}

fn assert_near_hour(told: f64, ruled: f64, of: &str) {
    let off = (told - ruled + 6.0).rem_euclid(12.0) - 6.0;
    assert!(
        off.abs() < HALF_A_STEP_H,
        "{of}: told as {told}, drawn at {ruled:.2}"
    );
}

#[test]
fn a_flash_off_the_camera_stands_where_the_plan_has_it() {
    let mut off_camera = 0;
    for case in drawn() {
        let aim = &case.answer.aim;
        for (language, words, sides) in [
            (Language::English, " at ", ["camera left", "camera right"]),
            (Language::German, " auf ", ["kameralinks", "kamerarechts"]),
        ] {
            let (line, ruled) = (third_line(&case, language), ruled(&case, language));
            let place = line.split(';').next().unwrap_or_default();
            if aim.holder == Holder::Camera {
                assert!(
                    !sides.iter().any(|side| line.contains(&format!("({side})"))),
                    "{line}"
                );
                continue;
            }
            off_camera += 1;
            // German has "auf" before the stand as well.
            let told = place
                .replace("auf einem Stativ", "")
                .replace("→ ", "")
                .replace("← ", "");
            let hour = hour_after(&format!(" {told}"), words).expect("an hour");
            assert_near_hour(hour, ruled.flash, case.name);
            // What lies between 6 and 12 is on the camera's left.
            let side = sides[usize::from(ruled.flash < 6.0)];
            assert!(place.contains(side), "{}: {side} in {place}", case.name);
            // Distance and height are those beside the drawn flash.
            let [far, high] = match language {
                Language::English => [" from the face", " high"],
                Language::German => [" vom Gesicht", " hoch"],
            }
            .map(|behind| place.split(behind).next().unwrap_or_default())
            .map(|before| before.rsplit(", ").next().unwrap_or_default().to_owned());
            let says = |part: &str| ruled.words.iter().any(|words| words.contains(part));
            if matches!(aim.route, Route::Direct) {
                assert!(
                    ruled.words.contains(&far),
                    "{}: {far} in {:?}",
                    case.name,
                    ruled.words
                );
            }
            let label = match language {
                Language::English => format!("flash, {high} up"),
                Language::German => format!("Blitz, {high} hoch"),
            };
            assert!(says(&label), "{}: {label} in {:?}", case.name, ruled.words);
        }
    }
    assert!(off_camera >= 6, "{off_camera} lines say where the flash stands");
}

#[test]
fn hours_of_the_light_are_those_of_the_plan() {
    for case in drawn() {
        for (language, words) in [
            (Language::English, "light from about "),
            (Language::German, "Licht von etwa "),
        ] {
            let ruled = ruled(&case, language);
            assert!(
                ruled.clock_off < 0.2,
                "{}: the clock is {} px off",
                case.name,
                ruled.clock_off
            );
            let told = ruled
                .words
                .iter()
                .find_map(|said| hour_after(&format!(" {said}"), words));
            assert_near_hour(told.expect("the key tells the hour"), ruled.light, case.name);
            // The same hour is told of a board.
            if let Route::HeldBoard { .. } = case.answer.aim.route {
                let words = match language {
                    Language::English => "held at ",
                    Language::German => "gehalten auf ",
                };
                let told = hour_after(&third_line(&case, language), words);
                assert_near_hour(told.expect("the hour of a board"), ruled.light, case.name);
            }
        }
    }
}

#[test]
fn turns_and_tilts_are_those_between_the_drawn_beam_and_the_drawn_lens() {
    let (mut turns, mut tilts) = (0, 0);
    for case in drawn() {
        let (line, ruled) = (
            third_line(&case, Language::English),
            ruled(&case, Language::English),
        );
        if let Some(rest) = line.split_once("turned ").map(|parts| parts.1) {
            let told = match rest.starts_with("right round") {
                true => 180.0,
                false
                    if rest
                        .split_once("° ")
                        .is_some_and(|parts| parts.1.starts_with("left")) =>
                {
                    -number(rest)
                }
                false => number(rest),
            };
            let off = wrapped(told - ruled.turn);
            assert!(
                off.abs() < HALF_A_STEP_DEG,
                "{}: {told} drawn as {:.1}",
                case.name,
                ruled.turn
            );
            turns += 1;
        }
        let told = match line.split_once("tilt ").map(|parts| parts.1) {
            Some(rest) if rest.contains(" down") => -number(rest),
            Some(rest) => number(rest),
            None => 0.0,
        };
        let off = told - ruled.tilt;
        assert!(
            off.abs() < HALF_A_STEP_DEG,
            "{}: {told} drawn as {:.1}",
            case.name,
            ruled.tilt
        );
        // The same number stands beside the arc of the side view.
        if told != 0.0 {
            let label = format!("tilt {} {}", told.abs(), if told > 0.0 { "up" } else { "down" });
            assert!(
                ruled.words.contains(&label),
                "{}: {label} in {:?}",
                case.name,
                ruled.words
            );
            tilts += 1;
        }
    }
    assert!(
        turns >= 6 && tilts >= 6,
        "{turns} turns and {tilts} tilts were told"
    );
}
