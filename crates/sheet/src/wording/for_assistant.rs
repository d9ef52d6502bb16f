//! Five lines for the person who helps: where to stand, how high, where to point, what to hold, what to watch.

use super::aim::{beside, to_five};
use super::nouns;
use crate::fitting::{capitalised, clean, shorten};
use crate::voice::{Language, Voice, said};
use answer::{Aim, Holder, Route};
use light::HeadDress;
use scene::Face;

/// One pace of a person who does not count them, in metres (common practice).
const PACE_M: f64 = 0.75;
/// A hand held flat, in metres (common practice).
const HAND_M: f64 = 0.1;

/// One line: a word for the eye to find, and what it says.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct Line {
    /// The word.
    pub head: &'static str,
    /// A sentence.
    pub words: String,
}

/// What the assistant works with.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Work<'a> {
    /// What the assistant looks after.
    pub duty: Duty,
    /// Names of the sitters, the metered one first.
    pub sitters: &'a [scene::Sitter],
    /// Where the flash stands and points.
    pub aim: &'a Aim,
    /// Zoom of the head.
    pub zoom_mm: f64,
    /// What sits on the head.
    pub dress: HeadDress,
    /// Name of the gel that the flash wears.
    pub gel: Option<&'a str>,
}

/// What the assistant looks after.
#[derive(Clone, Copy, Debug)]
pub(crate) enum Duty {
    /// A board in their hands.
    Board {
        /// Where its middle is.
        at: Spot,
        /// Width and height in metres, where the bag says them.
        size_m: Option<[f64; 2]>,
        /// From the board to the face.
        to_face_m: f64,
    },
    /// The flash off the camera.
    Flash {
        /// Where it is.
        at: Spot,
        /// What holds it.
        holder: Holder,
    },
    /// Nothing to hold: the flash is on the camera.
    Way,
}

/// A place, told from the metered sitter.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Spot {
    /// Hour of the clock with the camera at 6.
    pub hour: f64,
    /// Metres from the face over the floor.
    pub far_m: f64,
    /// Metres over the floor.
    pub up_m: f64,
    /// Metres over the eyes, negative below them.
    pub above_eyes_m: f64,
}

/// The five lines.
pub(crate) fn lines(voice: Voice, work: &Work) -> [Line; 5] {
    let words = match work.duty {
        Duty::Board {
            at,
            size_m,
            to_face_m,
        } => with_a_board(voice, work, at, size_m, to_face_m),
        Duty::Flash { at, holder } => with_the_flash(voice, work, at, holder),
        Duty::Way => beside_the_camera(voice, work),
    };
    let heads = match voice.language {
        Language::English => ["Stand", "Height", "Point", "Hold", "Watch"],
        Language::German => ["Platz", "Höhe", "Ziel", "Halten", "Achtung"],
    };
    let mut words = words.into_iter();
    heads.map(|head| Line {
        head,
        // A name may have brought no capital.
        words: capitalised(&clean(&words.next().unwrap_or_default())),
    })
}

fn with_a_board(
    voice: Voice,
    work: &Work,
    at: Spot,
    size_m: Option<[f64; 2]>,
    to_face_m: f64,
) -> [String; 5] {
    let (spot, height, to_face) = (
        spot(voice, work, at),
        height(voice, work, at),
        voice.about(to_face_m),
    );
    let name = surface_name(voice, &work.aim.route);
    let size = size_m.map_or_else(String::new, |size| {
        let [wide, high] = size.map(|side| voice.about(side));
        said!(voice; ", {wide} wide and {high} high"; ", {wide} breit und {high} hoch")
    });
    [
        said!(voice; "Behind the board, which is {spot}."; "Hinter der Tafel, {spot} entfernt."),
        said!(voice; "Middle of the board {height}."; "Mitte der Tafel {height}."),
        said!(
            voice;
            "Turn the board half way between the flash and the face; {to_face} from board to face.";
            "Drehe die Tafel halb zum Blitz und halb zum Gesicht; {to_face} von der Tafel zum Gesicht."
        ),
        said!(
            voice;
            "{name}{size}: hands and sleeves behind its edge.";
            "{name}{size}: Hände und Ärmel bleiben hinter dem Rand."
        ),
        watch(
            voice,
            work,
            voice.pick(
                "Keep the board out of the picture and the distance to the face as it is.",
                "Die Tafel bleibt aus dem Bild und der Abstand zum Gesicht, wie er ist.",
            ),
        ),
    ]
}

fn with_the_flash(voice: Voice, work: &Work, at: Spot, holder: Holder) -> [String; 5] {
    let (spot, height, lit) = (spot(voice, work, at), height(voice, work, at), lit(voice, work));
    let (dress, zoom) = (dress(voice, work), voice.plain(work.zoom_mm, 0));
    let direct = matches!(work.aim.route, Route::Direct);
    let away = voice.about(work.aim.legs_m[0]);
    [
        match holder {
            Holder::Stand => said!(voice; "The light stand is {spot}."; "Das Stativ steht {spot}."),
            Holder::Helper => said!(voice; "You stand {spot}."; "Du stehst {spot}."),
            Holder::Camera | Holder::Placed => said!(voice; "The flash is {spot}."; "Der Blitz ist {spot}."),
        },
        said!(voice; "Flash {height}."; "Blitz {height}."),
        match direct {
            true => said!(voice; "At {lit}, {away} away."; "Auf {lit}, {away} entfernt."),
            false => said!(voice; "At {lit}; never at a face."; "Auf {lit}; nie auf ein Gesicht."),
        },
        match holder {
            Holder::Stand => said!(
                voice;
                "The flash on its stand{dress}, zoom {zoom}.";
                "Der Blitz auf dem Stativ{dress}, Zoom {zoom}."
            ),
            Holder::Helper => said!(
                voice;
                "The flash in your hand{dress}, zoom {zoom}.";
                "Den Blitz in der Hand{dress}, Zoom {zoom}."
            ),
            Holder::Camera | Holder::Placed => said!(
                voice;
                "The flash where it is{dress}, zoom {zoom}.";
                "Der Blitz bleibt, wo er ist{dress}, Zoom {zoom}."
            ),
        },
        match direct {
            true => watch(
                voice,
                work,
                voice.pick(
                    "When the sitter moves, move with them: the distance stays.",
                    "Bewegt sich die Person, geh mit: Der Abstand bleibt.",
                ),
            ),
            false => watch(voice, work, nobody_between(voice)),
        },
    ]
}

fn beside_the_camera(voice: Voice, work: &Work) -> [String; 5] {
    let lit = lit(voice, work);
    // What is put between two commas needs the second as well.
    let dress = match dress(voice, work) {
        none if none.is_empty() => none,
        worn => worn + ",",
    };
    let point = said!(
        voice;
        "The flash on the camera{dress} goes to {lit}.";
        "Der Blitz auf der Kamera{dress} zielt auf {lit}."
    );
    let hold = match work.aim.flagged {
        true => voice.pick(
            "A black card beside the head of the flash, on the sitter’s side.",
            "Eine schwarze Karte neben dem Blitzkopf, auf der Seite der Person.",
        ),
        false => voice.pick(
            "White paper before the face for the first frame, then away.",
            "Weißes Papier vor dem Gesicht beim ersten Bild, danach weg.",
        ),
    };
    let [stand, height, otherwise] = match work.aim.route {
        Route::Direct => behind_the_lens(voice),
        _ => out_of_the_beam(voice, work),
    };
    [
        stand,
        height,
        point,
        hold.to_owned(),
        watch(voice, work, &otherwise),
    ]
}

/// Where to stand, what to keep clear of and what to watch beside a flash that shines straight at the face.
fn behind_the_lens(voice: Voice) -> [String; 3] {
    [
        voice.pick(
            "Beside the photographer, behind the lens.",
            "Neben der Kamera, hinter dem Objektiv.",
        ),
        voice.pick(
            "Nothing of yours in front of the flash.",
            "Nichts von dir vor dem Blitz.",
        ),
        voice.pick(
            "Wait for the ready light before you give the sign.",
            "Warte auf die Bereitschaftslampe und gib erst dann das Zeichen.",
        ),
    ]
    .map(str::to_owned)
}

/// The same beside a flash that shines at something else.
fn out_of_the_beam(voice: Voice, work: &Work) -> [String; 3] {
    [
        clear_of_the_beam(voice, work.aim.turn_deg),
        match to_five(work.aim.tilt_deg) {
            level if level < 5.0 => voice
                .pick(
                    "The beam is level: keep head and arms out of it.",
                    "Der Strahl geht waagerecht: Kopf und Arme bleiben draußen.",
                )
                .to_owned(),
            degrees => {
                let (degrees, up) = (voice.plain(degrees, 0), work.aim.tilt_deg > 0.0);
                let way = match up {
                    true => voice.pick("up", "oben"),
                    false => voice.pick("down", "unten"),
                };
                said!(
                    voice;
                    "The beam goes {degrees}° {way}: keep head and arms out of it.";
                    "Der Strahl geht {degrees}° nach {way}: Kopf und Arme bleiben draußen."
                )
            }
        },
        nobody_between(voice).to_owned(),
    ]
}

/// Where to stand beside a camera whose flash is turned so: on the side from which the beam is turned away, and beside the
/// photographer where it goes straight on or straight back.
fn clear_of_the_beam(voice: Voice, turn_deg: f64) -> String {
    let about = to_five(turn_deg);
    if !(5.0..=172.0).contains(&about) {
        return voice
            .pick(
                "Beside the photographer, clear of the beam.",
                "Neben der Kamera, außerhalb des Strahls.",
            )
            .to_owned();
    }
    let side = match turn_deg < 0.0 {
        true => voice.pick("right", "rechten"),
        false => voice.pick("left", "linken"),
    };
    said!(
        voice;
        "Behind the photographer’s {side} shoulder: the flash goes the other way.";
        "Hinter der Kamera, auf ihrer {side} Seite: Der Blitz zielt zur anderen."
    )
}

fn nobody_between(voice: Voice) -> &'static str {
    voice.pick(
        "Nobody between flash, lit spot and sitter.",
        "Niemand steht zwischen Blitz, Lichtfleck und Person.",
    )
}

/// What goes wrong first: spill on the face, where there is a flag against it.
fn watch(voice: Voice, work: &Work, otherwise: &str) -> String {
    match work.aim.flagged {
        true => voice.pick(
            "No light straight from the flash on the face: the black card stays between them.",
            "Kein Licht geradewegs vom Blitz ins Gesicht: Die schwarze Karte bleibt dazwischen.",
        ),
        false => otherwise,
    }
    .to_owned()
}

/// The metered sitter, behind "from" and "of".
fn who(voice: Voice, work: &Work) -> String {
    match work.sitters.first() {
        Some(first) => shorten(&first.name, 30),
        None => voice.pick("the sitter", "der Person").to_owned(),
    }
}

/// "at 9 o'clock, 1.4 m (2 paces) from the sitter".
fn spot(voice: Voice, work: &Work, at: Spot) -> String {
    let (hour, far, paces, who) = (
        voice.clock(at.hour),
        voice.about(at.far_m),
        paces(voice, at.far_m),
        who(voice, work),
    );
    said!(voice; "at {hour}, {far}{paces} from {who}"; "auf {hour}, {far}{paces} von {who}")
}

/// "1.9 m up, 4 hands above the eyes of Wilhelmina".
fn height(voice: Voice, work: &Work, at: Spot) -> String {
    let (up, who) = (voice.about(at.up_m), who(voice, work));
    let side = match at.above_eyes_m < 0.0 {
        true => voice.pick("below", "unter"),
        false => voice.pick("above", "über"),
    };
    match (at.above_eyes_m.abs() / HAND_M).round() {
        0.0 => said!(voice; "{up} up, level with the eyes of {who}"; "{up} hoch, in Augenhöhe von {who}"),
        1.0 => said!(
            voice;
            "{up} up, a hand {side} the eyes of {who}";
            "{up} hoch, eine Handbreit {side} den Augen von {who}"
        ),
        hands => said!(
            voice;
            "{up} up, {hands:.0} hands {side} the eyes of {who}";
            "{up} hoch, {hands:.0} Handbreit {side} den Augen von {who}"
        ),
    }
}

/// What the flash points at: "the left wall, 1.9 m up".
fn lit(voice: Voice, work: &Work) -> String {
    let up = voice.about(f64::from(work.aim.target.z));
    match &work.aim.route {
        Route::Bounce { face, corner_with } => {
            let wall = nouns::face(voice, *face).acc;
            let corner = corner_with.map_or_else(String::new, |other| {
                let other = nouns::face(voice, other);
                let (the, to) = (other.the, other.to);
                said!(voice; " where it meets {the}"; " an der Kante {to}")
            });
            // Beside the camera the head shows where it points; a head in the hand must be told.
            let beside = match work.aim.holder {
                Holder::Camera => String::new(),
                Holder::Stand | Holder::Helper | Holder::Placed => beside(voice, work.aim, *face),
            };
            match face {
                Face::Ceiling | Face::Floor => format!("{wall}{corner}{beside}"),
                _ => said!(voice; "{wall}{corner}, {up} up{beside}"; "{wall}{corner}, {up} hoch{beside}"),
            }
        }
        Route::Standing { .. } | Route::HeldBoard { .. } | Route::Open => {
            surface_name(voice, &work.aim.route)
        }
        Route::Direct if work.sitters.len() > 1 => voice
            .pick("the middle of the faces", "die Mitte der Gesichter")
            .to_owned(),
        Route::Direct => {
            let who = who(voice, work);
            said!(voice; "the face of {who}"; "das Gesicht von {who}")
        }
    }
}

/// What stands or is held, by its name.
fn surface_name(voice: Voice, route: &Route) -> String {
    match (route, voice.language) {
        (Route::Standing { name } | Route::HeldBoard { name, .. }, Language::English) => shorten(name, 40),
        (Route::Standing { name } | Route::HeldBoard { name, .. }, Language::German) => {
            nouns::quote(&shorten(name, 40))
        }
        _ => nouns::way(voice, &answer::WayId::of(route, HeadDress::Bare)).acc,
    }
}

/// ", the gel full CTO on it and the umbrella before it".
fn dress(voice: Voice, work: &Work) -> String {
    let gel = work.gel.map(|name| {
        let name = shorten(name, 30);
        said!(voice; "the gel {name} on it"; "mit der Folie {name}")
    });
    let dress = match work.dress {
        HeadDress::Bare => None,
        HeadDress::Dome => Some(voice.pick("the dome on it", "mit der weißen Kuppel")),
        HeadDress::BounceCard => Some(voice.pick("its card up", "mit ausgezogener Karte")),
        HeadDress::Umbrella(_) => Some(voice.pick("the umbrella before it", "mit dem Schirm davor")),
        HeadDress::Softbox(_) => Some(voice.pick("the softbox before it", "mit der Softbox davor")),
    };
    let parts: Vec<String> = gel.into_iter().chain(dress.map(str::to_owned)).collect();
    match parts.is_empty() {
        true => String::new(),
        false => format!(", {}", voice.list(&parts)),
    }
}

/// " (2 paces)", to half a pace; nothing for less than one.
fn paces(voice: Voice, metres: f64) -> String {
    let halves = (2.0 * metres / PACE_M).round() as u64;
    match (halves / 2, halves % 2) {
        (0, _) => String::new(),
        (1, 0) => voice.pick(" (a pace)", " (ein Schritt)").to_owned(),
        (whole, 0) => said!(voice; " ({whole} paces)"; " ({whole} Schritte)"),
        (whole, _) => said!(voice; " ({whole}½ paces)"; " ({whole}½ Schritte)"),
    }
}

#[cfg(test)]
mod tests {
    use super::paces;
    use crate::voice::{Language, Voice};

    #[test]
    fn distances_are_paced_to_the_half() {
        let check = |metres: f64, english: &str, german: &str| {
            assert_eq!(paces(Voice::new(Language::English, false), metres), english);
            assert_eq!(paces(Voice::new(Language::German, false), metres), german);
        };
        check(0.3, "", "");
        check(0.75, " (a pace)", " (ein Schritt)");
        check(1.2, " (1½ paces)", " (1½ Schritte)");
        check(1.5, " (2 paces)", " (2 Schritte)");
        check(4.6, " (6 paces)", " (6 Schritte)");
    }
}
