//! Line three against geometry: the target on its surface, turn, tilt, clock and legs worked out again, and the same in
//! the words of the line.

use crate::findings::Findings;
use crate::geometry::{bearing_deg, between_deg, distance, dot, length, minus, wrapped_deg};
use crate::lines::first_number;
use crate::parts::{Aim, Caution, Note, Route};
use crate::said::Said;
use crate::shoot::{FACES, Point, Shoot};

/// Lengths in JSON are rounded to a tenth of a millimetre, and come from single precision.
const METRES: f64 = 0.01;
const DEGREES: f64 = 0.5;
/// An aim into a corner is no further from the second face than this, in metres (ours: a beam at zoom 24 from 3 m away).
const INTO_CORNER_M: f64 = 1.5;
/// A flash further from the lens is off the camera, in metres.
const ON_CAMERA_M: f64 = 0.35;
/// A head is set to five degrees by hand: what points further past a face does not point straight at it.
const PAST_DEG: f64 = 8.0;
/// Below this a face is looked at from above, and no line of clock or turn is steady, in metres.
const OVERHEAD_M: f64 = 0.15;

/// Line three of the answer.
pub fn check(shoot: &Shoot, said: &Said, findings: &mut Findings) {
    let face = face_of(shoot, said);
    let aim = said.aim();
    geometry(shoot, face, &aim, findings);
    words(shoot, face, &aim, &said.lines()[2], findings);
    cautions(said, face, &aim, findings);
}

/// The first face where the answer wants it.
pub fn face_of(shoot: &Shoot, said: &Said) -> Point {
    let face = shoot.face(0);
    said.moved_to().map_or(face, |to| [to[0], to[1], face[2]])
}

/// Everything that the data says of an aim, from the points alone.
pub fn geometry(shoot: &Shoot, face: Point, aim: &Aim, findings: &mut Findings) {
    surface(shoot, face, aim, findings);
    let (axis, to_face) = (minus(aim.target, aim.flash), minus(face, aim.flash));
    let lens = minus(looked_at(shoot, face), shoot.camera.at);
    if axis[0].hypot(axis[1]) > OVERHEAD_M && lens[0].hypot(lens[1]) > OVERHEAD_M {
        let turn = wrapped_deg(bearing_deg(axis) - bearing_deg(lens));
        let off = wrapped_deg(aim.turn_deg - turn);
        findings.same("pointing: turn", "degrees off", off, 0.0, DEGREES);
    }
    let tilt = (axis[2] / length(axis)).asin().to_degrees();
    findings.same("pointing: tilt", "degrees", aim.tilt_deg, tilt, DEGREES);
    let legs = match aim.route {
        Route::Direct => [length(to_face), 0.0],
        _ => [length(axis), distance(aim.target, face)],
    };
    findings.same("pointing: first leg", "metres", aim.legs[0], legs[0], METRES);
    findings.same("pointing: second leg", "metres", aim.legs[1], legs[1], METRES);
    findings.same(
        "pointing: height over the eyes",
        "metres",
        aim.above_eyes,
        aim.target[2] - face[2],
        METRES,
    );
    let from = match aim.route {
        Route::Direct => minus(aim.flash, face),
        _ => minus(aim.target, face),
    };
    let to_camera = minus(shoot.camera.at, face);
    if from[0].hypot(from[1]) > OVERHEAD_M {
        let hour = 6.0 + (bearing_deg(from) - bearing_deg(to_camera)) / 30.0;
        let off = wrapped_deg(30.0 * (aim.clock - hour));
        findings.same("pointing: clock", "degrees off", off, 0.0, 1.0);
    }
}

/// What the lens looks at, with the first face here.
fn looked_at(shoot: &Shoot, face: Point) -> Point {
    if shoot.camera.on_first_face {
        return face;
    }
    middle_of_faces(shoot, face)
}

/// The middle of all faces, with the first of them here.
fn middle_of_faces(shoot: &Shoot, face: Point) -> Point {
    let (from, count) = (shoot.face(0), shoot.sitters.len() as f64);
    [0, 1, 2].map(|axis| {
        let sum: f64 = (0..shoot.sitters.len())
            .map(|sitter| shoot.face(sitter)[axis])
            .sum();
        sum / count + face[axis] - from[axis]
    })
}

fn surface(shoot: &Shoot, face: Point, aim: &Aim, findings: &mut Findings) {
    let target = aim.target;
    let from_face = |index: usize| plane_distance(shoot, index, target);
    match &aim.route {
        Route::Bounce { face, corner_with } => {
            let name = FACES[*face];
            findings.same(
                "pointing: target on its face",
                name,
                from_face(*face),
                0.0,
                METRES,
            );
            findings.holds(
                "pointing: bounce off an open side",
                shoot.room.surfaces[*face] != "open",
                || name.to_owned(),
            );
            if let Some(other) = corner_with {
                findings.holds(
                    "pointing: corner far from its other face",
                    from_face(*other) < INTO_CORNER_M,
                    || {
                        format!(
                            "{name} with {}: {:.2} m away from it",
                            FACES[*other],
                            from_face(*other)
                        )
                    },
                );
            }
        }
        Route::HeldBoard { normal, to_face, .. } => {
            findings.same(
                "pointing: board's distance",
                "metres",
                *to_face,
                distance(target, face),
                0.02,
            );
            let lit = dot(*normal, minus(aim.flash, target)) > 0.0 && dot(*normal, minus(face, target)) > 0.0;
            findings.holds("pointing: board turned away", lit, || {
                format!("normal {normal:?}")
            });
            let within = (0..3).all(|axis| (0.0..=shoot.room.size[axis]).contains(&target[axis]));
            findings.holds("pointing: board outside the place", within, || {
                format!("{target:?}")
            });
        }
        Route::Standing { name } => {
            let block = shoot.room.furniture.as_ref().filter(|block| block.name == name);
            let off = block.map_or(f64::NAN, |block| {
                let corner = [block.corner[0], block.corner[1], 0.0];
                let outside = (0..3).map(|axis| {
                    let beyond = target[axis] - (corner[axis] + block.size[axis]);
                    (corner[axis] - target[axis]).max(beyond)
                });
                outside.fold(f64::NEG_INFINITY, f64::max)
            });
            findings.same("pointing: target on its block", name, off, 0.0, 0.02);
        }
        Route::Direct => {
            let axis = minus(target, aim.flash);
            let mut aims: Vec<Point> = (0..shoot.sitters.len())
                .map(|sitter| shoot.face(sitter))
                .collect();
            aims.push(middle_of_faces(shoot, face));
            aims.push(face);
            let off = aims
                .iter()
                .map(|aim_at| between_deg(axis, minus(*aim_at, aim.flash)));
            let nearest = off.fold(f64::INFINITY, f64::min);
            findings.holds(
                "pointing: straight at the face and past it",
                nearest < PAST_DEG,
                || format!("{nearest:.1} degrees beside the nearest face and the middle of all"),
            );
        }
        Route::Open => {}
    }
}

/// How far a point lies from one of the six faces of the place, in metres.
fn plane_distance(shoot: &Shoot, face: usize, point: Point) -> f64 {
    let [width, length, height] = shoot.room.size;
    match FACES[face] {
        "left" => point[0].abs(),
        "right" => (width - point[0]).abs(),
        "behind_camera" => point[1].abs(),
        "behind_sitter" => (length - point[1]).abs(),
        "ceiling" => (height - point[2]).abs(),
        _ => point[2].abs(),
    }
}

/// What the English line says of the head, the height on the wall and the place of the flash.
fn words(shoot: &Shoot, face: Point, aim: &Aim, line: &str, findings: &mut Findings) {
    // What is aimed at may be "level with the camera", and a target some metres "down" the room.
    let head = line.rsplit_once("head ").map_or(line, |(_, head)| head);
    let turn = if head.contains("straight ahead") {
        Some(0.0)
    } else if head.contains("against the lens axis") {
        Some(180.0)
    } else {
        before(head, "° left")
            .map(|degrees| -degrees)
            .or(before(head, "° right"))
    };
    let tilt = if head.contains(", level") || head.contains("level;") {
        Some(0.0)
    } else {
        after(head, "tilt ").map(|degrees| if head.contains(" down") { -degrees } else { degrees })
    };
    // A hand sets a head to five degrees.
    let rounded = 2.6;
    findings.holds(
        "line three: no turn or no tilt",
        (turn.is_some() && tilt.is_some())
            || matches!(aim.route, Route::Direct) && line.contains("straight at"),
        || line.to_owned(),
    );
    if let (Some(turn), Some(tilt)) = (turn, tilt) {
        let off = wrapped_deg(turn - aim.turn_deg);
        // "Right round" is said of the last few degrees.
        findings.same(
            "line three: turn",
            line,
            off,
            0.0,
            if turn == 180.0 { 8.0 } else { rounded },
        );
        findings.same("line three: tilt", line, tilt, aim.tilt_deg, rounded);
    }
    if let Route::Bounce { face: wall, .. } = aim.route {
        let name = FACES[wall].replace('_', " ").to_uppercase();
        findings.holds(
            "line three: another surface",
            line.contains(&name.replace("BEHIND", "BEHIND THE")),
            || format!("{name}: {line}"),
        );
        if let Some(up) = before(line, " m up") {
            findings.same("line three: height on the wall", line, up, aim.target[2], 0.051);
        }
        for (words, sign) in [(" m ahead of the camera", 1.0), (" m behind the camera", -1.0)] {
            if let Some(far) = before(line, words) {
                let lens = minus(looked_at(shoot, face), shoot.camera.at);
                let level = [lens[0], lens[1], 0.0];
                let along = dot(minus(aim.target, shoot.camera.at), level) / length(level);
                findings.same(
                    "line three: distance along from the camera",
                    line,
                    sign * far,
                    along,
                    0.051,
                );
            }
        }
    }
    if distance(aim.flash, shoot.camera.at) > ON_CAMERA_M {
        let stands = ["stand", "held at", "in a hand", "hand at", "flash at", "holds"];
        findings.holds(
            "line three: not where the flash stands",
            stands.iter().any(|word| line.contains(word)),
            || format!("flash at {:?}: {line}", aim.flash),
        );
    }
}

/// Notes and cautions that tell geometry.
fn cautions(said: &Said, face: Point, aim: &Aim, findings: &mut Findings) {
    let away = between_deg(minus(aim.target, aim.flash), minus(face, aim.flash));
    for note in said.notes() {
        let told = match note {
            Note::FlagHead(told) | Note::SpillStaysUnder(told) | Note::SpillMissesFace(told) => told,
            _ => continue,
        };
        findings.same("note: angle between head and face", "degrees", told, away, 1.5);
        let flags = matches!(note, Note::FlagHead(_));
        findings.holds("note: flagged, or not", flags == aim.flagged, || {
            format!("{note:?}")
        });
    }
    for caution in said.cautions() {
        if let Caution::Dazzles { metres, keep_m } = caution {
            let far = distance(aim.flash, face);
            findings.same("caution: distance to the eyes", "metres", metres, far, METRES);
            findings.holds("caution: dazzles from far away", far < keep_m, || {
                format!("{far:.2} m")
            });
        }
    }
}

/// The number right before some words.
fn before(text: &str, words: &str) -> Option<f64> {
    let (head, _) = text.split_once(words)?;
    let digits = head.rsplit(|c: char| !c.is_ascii_digit() && c != '.').next()?;
    digits.parse().ok()
}

/// The number right after some words.
fn after(text: &str, words: &str) -> Option<f64> {
    let (_, tail) = text.split_once(words)?;
    first_number(tail)
}

#[test]
fn numbers_are_read_out_of_a_line() {
    let line = "← bounce LEFT WALL 2.2 m up, level with the camera: head turned 90° left, tilt 15 up";
    assert_eq!(before(line, "° left"), Some(90.0));
    assert_eq!(before(line, " m up"), Some(2.2));
    assert_eq!(after(line, "tilt "), Some(15.0));
    assert_eq!(before(line, "° right"), None);
}
