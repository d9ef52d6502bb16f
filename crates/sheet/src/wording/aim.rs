//! Where to point the flash: the third line of an answer.

use super::nouns::{face, named};
use crate::voice::{Language, Voice, said};
use answer::{Aim, Route};
use scene::Face;

/// The third line: an arrow, what the flash is pointed at, and how the head is turned.
pub(crate) fn line(voice: Voice, aim: &Aim) -> String {
    format!("{} {}", arrow(aim.turn_deg, aim.tilt_deg), words(voice, aim))
}

/// The third line without its arrow.
pub(crate) fn words(voice: Voice, aim: &Aim) -> String {
    let head = head(voice, aim);
    let flag = if aim.flagged {
        voice.pick("; flag the head", "; decke ihn zur Person hin ab")
    } else {
        ""
    };
    let line = match &aim.route {
        Route::Direct => said!(
            voice;
            "straight at the face, {head}";
            "gerade auf das Gesicht, Blitzkopf {head}"
        ),
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
    };
    line + flag
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

/// How far along a side wall or the ceiling, seen from the camera.
fn beside(voice: Voice, aim: &Aim, of: Face) -> String {
    /// Nearer than this to the camera's line across the room is beside it, in metres (ours).
    const LEVEL_M: f64 = 0.15;
    let along = f64::from(aim.target.y - aim.flash.y);
    let far = voice.about(along.abs());
    match of {
        Face::BehindCamera | Face::BehindSitter | Face::Floor => String::new(),
        Face::Ceiling if along.abs() < LEVEL_M => {
            said!(voice; ", above the camera"; ", über der Kamera")
        }
        Face::Left | Face::Right if along.abs() < LEVEL_M => {
            said!(voice; ", level with the camera"; ", neben der Kamera")
        }
        Face::Left | Face::Right | Face::Ceiling if along < 0.0 => {
            said!(voice; ", {far} behind the camera"; ", {far} hinter der Kamera")
        }
        Face::Left | Face::Right | Face::Ceiling => {
            said!(voice; ", {far} ahead of the camera"; ", {far} vor der Kamera")
        }
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

/// How the head is turned and tilted: "turned 90° left, tilt 15 up".
fn head(voice: Voice, aim: &Aim) -> String {
    format!("{}, {}", turned(voice, aim.turn_deg), tilted(voice, aim.tilt_deg))
}

/// Angles of a head are set to the nearest five degrees, as well as a hand can.
pub(crate) fn to_five(degrees: f64) -> f64 {
    (degrees.abs() / 5.0).round() * 5.0
}

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

fn tilted(voice: Voice, tilt_deg: f64) -> String {
    let about = to_five(tilt_deg);
    let degrees = voice.plain(about, 0);
    if about < 5.0 {
        voice.pick("level", "waagerecht").to_owned()
    } else if tilt_deg > 0.0 {
        said!(voice; "tilt {degrees} up"; "{degrees}° nach oben")
    } else {
        said!(voice; "tilt {degrees} down"; "{degrees}° nach unten")
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
            flash: Vec3::new(2.0, 2.0, 1.77),
            target: Vec3::new(0.0, 2.05, 2.25),
            target_above_eyes_m: 0.4,
            light_from_clock: 7.6,
            turn_deg: -88.0,
            tilt_deg: 14.0,
            legs_m: [2.0, 2.8],
            flagged: false,
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
