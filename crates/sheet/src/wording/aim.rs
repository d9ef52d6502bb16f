//! Where the flash stands and where to point it: the third line of an answer.

use super::nouns::{face, named};
use crate::voice::{Language, Voice, said};
use answer::{Aim, BeamMiddle, Holder, Route};
use scene::Face;

/// Nearer than this to the camera is beside it or above it, in metres (ours).
const LEVEL_M: f64 = 0.15;

/// The third line: an arrow, where a flash off the camera is, what it is pointed at, and how the head is turned.
pub(crate) fn line(voice: Voice, aim: &Aim) -> String {
    format!("{} {}", arrow(aim.turn_deg, aim.tilt_deg), words(voice, aim))
}

/// The third line without its arrow.
pub(crate) fn words(voice: Voice, aim: &Aim) -> String {
    let place = place(voice, aim).map_or_else(String::new, |place| place + "; ");
    let flag = if aim.flagged {
        voice.pick("; flag the head", "; decke ihn zur Person hin ab")
    } else {
        ""
    };
    format!("{place}{}{flag}", pointed(voice, aim))
}

/// Where a flash off the camera is and what holds it: "on a stand at half past 7 (camera left), 1.4 m from the face, 2.1 m
/// high". `None` for one on the camera.
fn place(voice: Voice, aim: &Aim) -> Option<String> {
    let held = match aim.holder {
        Holder::Camera => return None,
        Holder::Stand => voice.pick("on a stand", "auf einem Stativ"),
        Holder::Helper => voice.pick("in the assistant's hand", "in der Hand der Assistenz"),
        Holder::Placed => voice.pick("flash", "Blitz"),
    };
    let clock = voice.clock(aim.flash_at_clock);
    let side = voice
        .side_of_clock(aim.flash_at_clock)
        .map_or_else(String::new, |side| format!(" ({side})"));
    let far = voice.about(aim.flash_from_face_m);
    let high = voice.about(f64::from(aim.flash.z));
    Some(said!(
        voice;
        "{held} at {clock}{side}, {far} from the face, {high} high";
        "{held} auf {clock}{side}, {far} vom Gesicht, {high} hoch"
    ))
}

/// What the flash is pointed at, and how its head is turned.
fn pointed(voice: Voice, aim: &Aim) -> String {
    let head = head(voice, aim);
    match &aim.route {
        Route::Direct => straight(voice, aim),
        Route::Open => said!(voice; "into the open, {head}"; "ins Freie, Blitzkopf {head}"),
        Route::Standing { name } => {
            let name = named(voice, name).bare;
            said!(voice; "bounce off {name}, {head}"; "über {name}, Blitzkopf {head}")
        }
        Route::HeldBoard { name, to_face_m, .. } => {
            let name = named(voice, name).bare;
            let (clock, far) = (voice.clock(aim.light_from_clock), voice.about(*to_face_m));
            let height = against_eyes(voice, aim.target_above_eyes_m);
            said!(
                voice;
                "at {name}, held at {clock} and {far} from the face, middle {height}; head {head}";
                "auf {name}, gehalten auf {clock}, {far} vom Gesicht, Mitte {height}; Blitzkopf {head}"
            )
        }
        Route::Bounce { face, corner_with } => {
            let spot = spot(voice, aim, *face, *corner_with);
            said!(voice; "bounce {spot}: head {head}"; "über {spot}: Blitzkopf {head}")
        }
    }
}

/// A head that lights the faces itself. What stands off the camera finds the face without any turn.
fn straight(voice: Voice, aim: &Aim) -> String {
    let head = match (aim.holder, aim.middle) {
        (Holder::Camera, _) | (_, BeamMiddle::Past { .. }) => head(voice, aim),
        _ => tilted(voice, aim.tilt_deg),
    };
    match aim.middle {
        BeamMiddle::Face => said!(
            voice;
            "straight at the face, {head}";
            "gerade auf das Gesicht, Blitzkopf {head}"
        ),
        BeamMiddle::MiddleOfFaces => said!(
            voice;
            "straight at the middle of the faces, {head}";
            "gerade auf die Mitte der Gesichter, Blitzkopf {head}"
        ),
        BeamMiddle::Past { off_deg } => {
            let off = voice.plain(to_five(off_deg), 0);
            said!(
                voice;
                "{off}° past the face, {head}";
                "{off}° am Gesicht vorbei, Blitzkopf {head}"
            )
        }
    }
}

/// Where on the room the light is thrown: "LEFT WALL where it meets the ceiling 2.3 m up, level with the camera".
fn spot(voice: Voice, aim: &Aim, of: Face, corner_with: Option<Face>) -> String {
    let name = match voice.language {
        Language::English => face(voice, of).bare.to_uppercase(),
        Language::German => match of {
            Face::Left => "die LINKE WAND".to_owned(),
            Face::Right => "die RECHTE WAND".to_owned(),
            Face::BehindCamera => "die WAND HINTER DER KAMERA".to_owned(),
            Face::BehindSitter => "die WAND HINTER DER PERSON".to_owned(),
            Face::Ceiling => "die DECKE".to_owned(),
            Face::Floor => "den BODEN".to_owned(),
        },
    };
    let corner = corner_with.map_or_else(String::new, |other| {
        let other = face(voice, other);
        let (the, to) = (other.the, other.to);
        said!(voice; " where it meets {the}"; " an der Kante {to}")
    });
    let high = match of {
        Face::Ceiling | Face::Floor => String::new(),
        Face::Left | Face::Right | Face::BehindCamera | Face::BehindSitter => {
            let up = voice.about(f64::from(aim.target.z));
            said!(voice; " {up} up"; ", {up} hoch")
        }
    };
    format!("{name}{corner}{high}{}", beside(voice, aim, of))
}

/// How far along a surface, seen from the camera. A head on the camera says by its turn how far aside; for one that stands
/// elsewhere the words must.
pub(crate) fn beside(voice: Voice, aim: &Aim, of: Face) -> String {
    let [right, ahead] = aim.target_from_camera_m;
    let along = match of {
        Face::BehindCamera | Face::BehindSitter => None,
        Face::Floor if aim.holder == Holder::Camera => None,
        _ => along(voice, ahead),
    };
    let aside = match of {
        Face::Left | Face::Right => None,
        // "Above the camera" must not stand for a spot that is far aside.
        Face::Ceiling if along.is_none() => aside(voice, right),
        _ if aim.holder == Holder::Camera => None,
        _ => aside(voice, right),
    };
    let parts = match (along, aside) {
        (None, None) => [at_the_camera(voice, of).map(str::to_owned), None],
        (along, aside) => [along, aside],
    };
    parts
        .into_iter()
        .flatten()
        .map(|part| format!(", {part}"))
        .collect()
}

/// "0.9 m behind the camera"; `None` where it is beside it.
fn along(voice: Voice, ahead_m: f64) -> Option<String> {
    let far = voice.about(ahead_m.abs());
    match ahead_m {
        level if level.abs() < LEVEL_M => None,
        behind if behind < 0.0 => Some(said!(voice; "{far} behind the camera"; "{far} hinter der Kamera")),
        _ => Some(said!(voice; "{far} ahead of the camera"; "{far} vor der Kamera")),
    }
}

/// "1.2 m to camera left"; `None` where it is in the camera's line.
fn aside(voice: Voice, right_m: f64) -> Option<String> {
    let (far, side) = (voice.about(right_m.abs()), voice.side(right_m));
    (right_m.abs() >= LEVEL_M).then(|| said!(voice; "{far} to {side}"; "{far} nach {side}"))
}

/// A spot that lies neither ahead nor aside of the camera; `None` where nothing need be said.
fn at_the_camera(voice: Voice, of: Face) -> Option<&'static str> {
    match of {
        Face::Ceiling => Some(voice.pick("above the camera", "über der Kamera")),
        Face::Left | Face::Right => Some(voice.pick("level with the camera", "neben der Kamera")),
        Face::BehindCamera | Face::BehindSitter | Face::Floor => None,
    }
}

fn arrow(turn_deg: f64, tilt_deg: f64) -> &'static str {
    let up = tilt_deg > 35.0;
    match turn_deg {
        turn if turn.abs() > 150.0 && up => "⤒",
        turn if turn.abs() > 150.0 => "↓",
        turn if turn < -20.0 && up => "↖",
        turn if turn < -20.0 => "←",
        turn if turn > 20.0 && up => "↗",
        turn if turn > 20.0 => "→",
        _ => "↑",
    }
}

/// How the head is turned and tilted: "turned 90° left, tilt 15 up". A head that points straight up or down has no turn.
fn head(voice: Voice, aim: &Aim) -> String {
    let tilt = tilted(voice, aim.tilt_deg);
    if to_five(aim.tilt_deg) >= 90.0 {
        return tilt;
    }
    let turn = match aim.holder {
        Holder::Camera => turned(voice, aim.turn_deg),
        Holder::Stand | Holder::Helper | Holder::Placed => turned_from_lens(voice, aim.turn_deg),
    };
    format!("{turn}, {tilt}")
}

/// Angles of a head are set to the nearest five degrees, as well as a hand can.
pub(crate) fn to_five(degrees: f64) -> f64 {
    (degrees.abs() / 5.0).round() * 5.0
}

/// The turn of a head on the camera, where the photographer sees it against the lens.
fn turned(voice: Voice, turn_deg: f64) -> String {
    let about = to_five(turn_deg);
    let degrees = voice.plain(about, 0);
    if about < 5.0 {
        voice.pick("straight ahead", "geradeaus").to_owned()
    } else if about > 172.0 {
        voice.pick("turned right round", "ganz herumgedreht").to_owned()
    } else if turn_deg < 0.0 {
        said!(voice; "turned {degrees}° left"; "{degrees}° nach links")
    } else {
        said!(voice; "turned {degrees}° right"; "{degrees}° nach rechts")
    }
}

/// The same turn of a head that stands elsewhere, which has to name what it is measured from.
fn turned_from_lens(voice: Voice, turn_deg: f64) -> String {
    let about = to_five(turn_deg);
    let degrees = voice.plain(about, 0);
    if about < 5.0 {
        voice
            .pick("along the lens axis", "längs der Objektivachse")
            .to_owned()
    } else if about > 172.0 {
        voice
            .pick("against the lens axis", "gegen die Objektivachse")
            .to_owned()
    } else if turn_deg < 0.0 {
        said!(voice; "turned {degrees}° left of the lens axis"; "{degrees}° links der Objektivachse")
    } else {
        said!(voice; "turned {degrees}° right of the lens axis"; "{degrees}° rechts der Objektivachse")
    }
}

/// The tilt of a head: "tilt 15 up", "level", "straight up".
pub(crate) fn tilted(voice: Voice, tilt_deg: f64) -> String {
    let about = to_five(tilt_deg);
    let degrees = voice.plain(about, 0);
    match (about, tilt_deg > 0.0) {
        (level, _) if level < 5.0 => voice.pick("level", "waagerecht").to_owned(),
        (steep, true) if steep >= 90.0 => voice.pick("straight up", "senkrecht nach oben").to_owned(),
        (steep, false) if steep >= 90.0 => voice.pick("straight down", "senkrecht nach unten").to_owned(),
        (_, true) => said!(voice; "tilt {degrees} up"; "{degrees}° nach oben"),
        (_, false) => said!(voice; "tilt {degrees} down"; "{degrees}° nach unten"),
    }
}

/// Height of a board against the eyes: "40 cm above the eyes".
fn against_eyes(voice: Voice, above_m: f64) -> String {
    /// Less than this is eye height, in metres (ours: the width of a hand).
    const LEVEL_M: f64 = 0.08;
    let far = voice.short(above_m.abs());
    if above_m.abs() < LEVEL_M {
        voice.pick("at eye height", "in Augenhöhe").to_owned()
    } else if above_m > 0.0 {
        said!(voice; "{far} above the eyes"; "{far} über den Augen")
    } else {
        said!(voice; "{far} below the eyes"; "{far} unter den Augen")
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::wording::tests::{check, check_in_feet};
    use glam::Vec3;

    fn aim(route: Route) -> Aim {
        Aim {
            route,
            holder: Holder::Camera,
            flash: Vec3::new(2.0, 2.0, 1.77),
            flash_at_clock: 6.0,
            flash_from_face_m: 2.0,
            target: Vec3::new(0.0, 2.05, 2.25),
            target_above_eyes_m: 0.4,
            target_from_camera_m: [-2.0, 0.05],
            light_from_clock: 7.6,
            turn_deg: -88.0,
            tilt_deg: 14.0,
            middle: BeamMiddle::Face,
            legs_m: [2.0, 2.8],
            flagged: false,
        }
    }

    /// The same from beside the sitter: at half past seven, 1.4 m away and 2.1 m high.
    fn beside_the_sitter(route: Route, holder: Holder) -> Aim {
        Aim {
            holder,
            flash: Vec3::new(1.0, 3.0, 2.1),
            flash_at_clock: 7.4,
            flash_from_face_m: 1.42,
            ..aim(route)
        }
    }

    #[test]
    fn a_bounce_says_where_on_the_wall() {
        let corner = Route::Bounce {
            face: Face::Left,
            corner_with: Some(Face::Ceiling),
        };
        let flagged = Aim {
            flagged: true,
            ..aim(corner)
        };
        check(
            |voice| line(voice, &flagged),
            "← bounce LEFT WALL where it meets the ceiling 2.2 m up, level with the camera: head turned 90° left, tilt 15 up; \
             flag the head",
            "← über die LINKE WAND an der Kante zur Decke, 2,2 m hoch, neben der Kamera: Blitzkopf 90° nach links, 15° nach \
             oben; decke ihn zur Person hin ab",
        );
        let ceiling = Aim {
            target: Vec3::new(2.0, 1.1, 2.6),
            target_from_camera_m: [0.0, -0.9],
            turn_deg: 2.0,
            tilt_deg: 70.0,
            ..aim(Route::Bounce {
                face: Face::Ceiling,
                corner_with: None,
            })
        };
        check(
            |voice| line(voice, &ceiling),
            "↑ bounce CEILING, 0.9 m behind the camera: head straight ahead, tilt 70 up",
            "↑ über die DECKE, 0,9 m hinter der Kamera: Blitzkopf geradeaus, 70° nach oben",
        );
        let back = Aim {
            turn_deg: 178.0,
            tilt_deg: -1.0,
            ..aim(Route::Bounce {
                face: Face::BehindCamera,
                corner_with: None,
            })
        };
        check(
            |voice| line(voice, &back),
            "↓ bounce WALL BEHIND THE CAMERA 2.2 m up: head turned right round, level",
            "↓ über die WAND HINTER DER KAMERA, 2,2 m hoch: Blitzkopf ganz herumgedreht, waagerecht",
        );
        // Straight up there is no turn, and a spot far aside is not above the camera.
        let up = Aim {
            target_from_camera_m: [-1.2, 0.05],
            turn_deg: -88.0,
            tilt_deg: 88.0,
            ..ceiling
        };
        check(
            |voice| words(voice, &up),
            "bounce CEILING, 1.2 m to camera left: head straight up",
            "über die DECKE, 1,2 m nach kameralinks: Blitzkopf senkrecht nach oben",
        );
    }

    #[test]
    fn a_flash_off_the_camera_is_told_by_its_place() {
        let direct = Aim {
            turn_deg: 46.0,
            tilt_deg: -24.0,
            ..beside_the_sitter(Route::Direct, Holder::Stand)
        };
        check(
            |voice| line(voice, &direct),
            "→ on a stand at half past 7 (camera left), 1.4 m from the face, 2.1 m high; straight at the face, tilt 25 down",
            "→ auf einem Stativ auf halb 8 (kameralinks), 1,4 m vom Gesicht, 2,1 m hoch; gerade auf das Gesicht, Blitzkopf 25° \
             nach unten",
        );
        check_in_feet(
            |voice| line(voice, &direct),
            &["4 ft 8 in", "6 ft 11 in"],
            &[" m ", " cm "],
        );
        let helper = Aim {
            holder: Holder::Helper,
            flash_at_clock: 4.0,
            middle: BeamMiddle::MiddleOfFaces,
            ..direct.clone()
        };
        check(
            |voice| words(voice, &helper),
            "in the assistant's hand at 4 o'clock (camera right), 1.4 m from the face, 2.1 m high; straight at the middle of \
             the faces, tilt 25 down",
            "in der Hand der Assistenz auf 4 Uhr (kamerarechts), 1,4 m vom Gesicht, 2,1 m hoch; gerade auf die Mitte der \
             Gesichter, Blitzkopf 25° nach unten",
        );
        // Behind the sitter is neither left nor right; what is not pointed at the face needs its turn.
        let feathered = Aim {
            holder: Holder::Placed,
            flash_at_clock: 11.9,
            middle: BeamMiddle::Past { off_deg: 16.0 },
            ..direct
        };
        check(
            |voice| words(voice, &feathered),
            "flash at 12 o'clock, 1.4 m from the face, 2.1 m high; 15° past the face, turned 45° right of the lens axis, tilt \
             25 down",
            "Blitz auf 12 Uhr, 1,4 m vom Gesicht, 2,1 m hoch; 15° am Gesicht vorbei, Blitzkopf 45° rechts der Objektivachse, \
             25° nach unten",
        );
    }

    #[test]
    fn a_bounce_from_off_the_camera_says_what_is_pointed_at() {
        let bounce = |face, from_camera, turn_deg| {
            let corner_with = None;
            Aim {
                target_from_camera_m: from_camera,
                turn_deg,
                ..beside_the_sitter(Route::Bounce { face, corner_with }, Holder::Stand)
            }
        };
        check(
            |voice| pointed(voice, &bounce(Face::Left, [-1.5, 1.2], -88.0)),
            "bounce LEFT WALL 2.2 m up, 1.2 m ahead of the camera: head turned 90° left of the lens axis, tilt 15 up",
            "über die LINKE WAND, 2,2 m hoch, 1,2 m vor der Kamera: Blitzkopf 90° links der Objektivachse, 15° nach oben",
        );
        check(
            |voice| pointed(voice, &bounce(Face::Ceiling, [-1.5, 1.2], 2.0)),
            "bounce CEILING, 1.2 m ahead of the camera, 1.5 m to camera left: head along the lens axis, tilt 15 up",
            "über die DECKE, 1,2 m vor der Kamera, 1,5 m nach kameralinks: Blitzkopf längs der Objektivachse, 15° nach oben",
        );
        check(
            |voice| pointed(voice, &bounce(Face::BehindCamera, [0.8, -1.0], 176.0)),
            "bounce WALL BEHIND THE CAMERA 2.2 m up, 0.8 m to camera right: head against the lens axis, tilt 15 up",
            "über die WAND HINTER DER KAMERA, 2,2 m hoch, 0,8 m nach kamerarechts: Blitzkopf gegen die Objektivachse, 15° nach \
             oben",
        );
    }

    #[test]
    fn a_board_is_held_and_everything_else_is_aimed_at() {
        let board = aim(Route::HeldBoard {
            board: 0,
            name: "white board".to_owned(),
            centre: Vec3::ZERO,
            normal: Vec3::X,
            to_face_m: 1.23,
        });
        check(
            |voice| line(voice, &board),
            "← at white board, held at half past 7 and 1.2 m from the face, middle 40 cm above the eyes; head turned 90° \
             left, tilt 15 up",
            "← auf „white board“, gehalten auf halb 8, 1,2 m vom Gesicht, Mitte 40 cm über den Augen; Blitzkopf 90° nach \
             links, 15° nach oben",
        );
        check_in_feet(|voice| line(voice, &board), &["ft"], &[" m ", " cm "]);
        check(
            |voice| line(voice, &aim(Route::Direct)),
            "← straight at the face, turned 90° left, tilt 15 up",
            "← gerade auf das Gesicht, Blitzkopf 90° nach links, 15° nach oben",
        );
        check(
            |voice| line(voice, &aim(Route::Open)),
            "← into the open, turned 90° left, tilt 15 up",
            "← ins Freie, Blitzkopf 90° nach links, 15° nach oben",
        );
        check(
            |voice| {
                line(
                    voice,
                    &aim(Route::Standing {
                        name: "piano".to_owned(),
                    }),
                )
            },
            "← bounce off piano, turned 90° left, tilt 15 up",
            "← über „piano“, Blitzkopf 90° nach links, 15° nach oben",
        );
    }
}
