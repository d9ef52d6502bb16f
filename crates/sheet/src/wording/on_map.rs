//! What stands on the room map: its head, its key, and what a touched piece says.

use super::{nouns, why};
use crate::fitting::{capitalised, shorten};
use crate::voice::{Voice, said};
use answer::{MapCell, Route, WayId};
use glam::Vec3;
use light::HeadDress;
use scene::{BoxRoom, Face, OpeningKind};

/// What a piece of the map is good for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Worth {
    /// As good as the answer.
    AsGood,
    /// Good enough.
    WouldDo,
    /// Not what was asked for.
    Spoils,
    /// Not to be used.
    Nothing,
}

/// Title of the map.
pub(crate) fn title(voice: Voice, set_up: &str) -> String {
    let where_to = voice.pick("where to point the flash", "wohin der Blitz zielen kann");
    match shorten(set_up, 60) {
        name if name.is_empty() => sentence(where_to),
        name => format!("{name}: {where_to}"),
    }
}

/// How the map is read, in two lines.
pub(crate) fn how_to_read(voice: Voice) -> [&'static str; 2] {
    [
        voice.pick(
            "The room unrolled as seen from the camera: look at the sitter, then up, and lean back.",
            "Der Raum aufgeklappt, von der Kamera aus: Sieh zur Person, dann nach oben, und lehne dich zurück.",
        ),
        voice.pick(
            "Point at a square, or touch it, to read what aiming there would do.",
            "Zeige auf ein Feld oder tippe es an, um zu lesen, was das Zielen dorthin brächte.",
        ),
    ]
}

/// What a piece is good for, in words.
pub(crate) fn worth(voice: Voice, worth: Worth) -> &'static str {
    match worth {
        Worth::AsGood => voice.pick("as good as the answer", "so gut wie die Antwort"),
        Worth::WouldDo => voice.pick("would do", "ginge"),
        Worth::Spoils => voice.pick("spoils the look", "verdirbt das Bild"),
        Worth::Nothing => voice.pick("no use", "nutzlos"),
    }
}

/// The same where no piece is worth that.
pub(crate) fn nowhere(voice: Voice, of: Worth) -> String {
    let words = worth(voice, of);
    said!(voice; "{words}: nowhere"; "{words}: nirgends")
}

/// Where a piece is, what it is good for and why, with its points and the zoom that does best.
pub(crate) fn reason(voice: Voice, room: &BoxRoom, cell: &MapCell, of: Worth) -> String {
    let place = spot(voice, room, cell.face, cell.target);
    let (worth, why) = (worth(voice, of), sentence(&why::sentence(voice, &cell.why, None)));
    let zoom = voice.plain(cell.zoom_mm, 0);
    let then = if cell.points.is_finite() {
        let points = voice.plain(cell.points, 1);
        said!(
            voice;
            "{points} points off the ask, zoom {zoom}";
            "{points} Punkte neben dem Wunsch, Zoom {zoom}"
        )
    } else {
        said!(voice; "zoom {zoom}"; "Zoom {zoom}")
    };
    format!("{place}: {worth}. {why}. {}.", sentence(&then))
}

/// "left wall, 2.2 m up, 1.4 m from the wall behind the camera".
fn spot(voice: Voice, room: &BoxRoom, face: Face, point: Vec3) -> String {
    let about = |metres: f32| voice.about(f64::from(metres.max(0.0)));
    let wall = nouns::face(voice, face).bare;
    let sideways = sideways(voice, room, point);
    let (behind, up) = (about(point.y), about(point.z));
    let along = said!(
        voice;
        "{behind} from the wall behind the camera";
        "{behind} von der Wand hinter der Kamera"
    );
    match face {
        Face::Ceiling | Face::Floor => format!("{wall}, {sideways}, {along}"),
        Face::BehindCamera | Face::BehindSitter => {
            said!(voice; "{wall}, {up} up, {sideways}"; "{wall}, {up} hoch, {sideways}")
        }
        Face::Left | Face::Right => said!(voice; "{wall}, {up} up, {along}"; "{wall}, {up} hoch, {along}"),
    }
}

/// The distance from the nearer side wall.
fn sideways(voice: Voice, room: &BoxRoom, point: Vec3) -> String {
    let left = point.x <= 0.5 * room.size.x;
    let metres = if left { point.x } else { room.size.x - point.x };
    let far = voice.about(f64::from(metres.max(0.0)));
    let wall = nouns::face(voice, if left { Face::Left } else { Face::Right }).dat;
    said!(voice; "{far} from {wall}"; "{far} von {wall}")
}

/// Words with a capital first and no full stop.
fn sentence(words: &str) -> String {
    capitalised(words.trim().trim_end_matches('.'))
}

/// What an aim is at.
fn aimed_at(voice: Voice, route: &Route) -> String {
    let way = WayId::of(route, HeadDress::Bare);
    nouns::way(voice, &way).bare
}

/// Name of a face, and which way is up on it.
pub(crate) fn face(voice: Voice, face: Face) -> (String, String) {
    let up = match face {
        Face::Left => said!(voice; "up is →"; "oben ist →"),
        Face::Right => said!(voice; "up is ←"; "oben ist ←"),
        Face::BehindCamera => said!(voice; "up is ↓"; "oben ist ↓"),
        Face::BehindSitter => said!(voice; "up is ↑"; "oben ist ↑"),
        Face::Ceiling => said!(voice; "from below"; "von unten"),
        Face::Floor => said!(voice; "from above"; "von oben"),
    };
    (nouns::face(voice, face).bare, up)
}

/// Head of the key's first part.
pub(crate) fn aiming_there(voice: Voice) -> &'static str {
    voice.pick("Aiming there", "Dorthin zielen")
}

/// Head of the key's second part.
pub(crate) fn in_the_room(voice: Voice) -> &'static str {
    voice.pick("In the room", "Im Raum")
}

/// Key: the line around good pieces.
pub(crate) fn around(voice: Voice) -> &'static str {
    voice.pick("around all that would do", "um alles, was ginge")
}

/// Key, and for a person who does not see the map: what cannot be aimed at.
pub(crate) fn not_from_here(voice: Voice) -> &'static str {
    voice.pick("not from here", "nicht von hier aus")
}

/// Key: the shades.
pub(crate) fn points(voice: Voice) -> &'static str {
    voice.pick(
        "points off the ask: 0 is what was asked for, 1 is about one clear fault",
        "Punkte neben dem Wunsch: 0 ist genau gewünscht, 1 etwa ein deutlicher Fehler",
    )
}

/// Key: the answer's aim.
pub(crate) fn answer_aims(voice: Voice) -> &'static str {
    voice.pick("the answer aims here", "hierhin zielt die Antwort")
}

/// Key: an answer that aims at no face.
pub(crate) fn answer_aims_elsewhere(voice: Voice, route: &Route) -> String {
    let way = aimed_at(voice, route);
    said!(
        voice;
        "The answer aims at no face of the room: {way}.";
        "Die Antwort zielt auf keine Fläche des Raums: {way}."
    )
}

/// Key: another answer's aim.
pub(crate) fn other_answer(voice: Voice, way: &WayId) -> String {
    let name = shorten(&nouns::way(voice, way).bare, 60);
    said!(voice; "another answer: {name}"; "eine andere Antwort: {name}")
}

/// Key: another answer that aims at no face.
pub(crate) fn other_answer_elsewhere(voice: Voice, way: &WayId) -> String {
    let name = shorten(&nouns::way(voice, way).bare, 60);
    said!(
        voice;
        "Another answer, at no face of the room: {name}.";
        "Eine andere Antwort, auf keine Fläche des Raums: {name}."
    )
}

/// Key: the flash from which the map is seen, alone or beside the answer's.
pub(crate) fn map_flash(voice: Voice, alone: bool) -> &'static str {
    if alone {
        voice.pick("the flash, seen from above", "der Blitz, von oben gesehen")
    } else {
        voice.pick(
            "the flash of this map, seen from above",
            "der Blitz dieser Karte, von oben gesehen",
        )
    }
}

/// Key: the answer's flash, where it stands elsewhere.
pub(crate) fn answer_flash_key(voice: Voice) -> &'static str {
    voice.pick(
        "the answer's flash: from there the map is another",
        "der Blitz der Antwort: von dort aus ist die Karte eine andere",
    )
}

/// Key: an opening.
pub(crate) fn opening(voice: Voice, kind: OpeningKind) -> &'static str {
    match kind {
        OpeningKind::Window => voice.pick("window", "Fenster"),
        OpeningKind::NetCurtain => voice.pick("window with a net curtain", "Fenster mit Gardine"),
        OpeningKind::Doorway => voice.pick("doorway", "Türöffnung"),
        OpeningKind::Open => voice.pick("open", "offen"),
    }
}

/// Key: names that found no place on the floor.
pub(crate) fn not_named(voice: Voice, names: &str) -> String {
    said!(voice; "Not named for want of space: {names}."; "Aus Platzmangel ohne Namen: {names}.")
}

/// The camera on the floor, with the height of a flash on it where there is room; the longer words first.
pub(crate) fn camera(voice: Voice, flash_height_m: Option<f32>) -> Vec<String> {
    let alone = voice.pick("camera", "Kamera").to_owned();
    let with_flash = flash_height_m.map(|height| {
        let up = voice.about(f64::from(height));
        said!(voice; "camera, flash {up} up"; "Kamera, Blitz {up} hoch")
    });
    with_flash.into_iter().chain([alone]).collect()
}

/// A flash on the floor, the longer words first.
pub(crate) fn flash(voice: Voice, height_m: f32, of_the_answer: bool) -> [String; 2] {
    let up = voice.about(f64::from(height_m));
    let name = if of_the_answer {
        voice.pick("the answer's flash", "Blitz der Antwort")
    } else {
        voice.pick("flash", "Blitz")
    };
    [
        said!(voice; "{name}, {up} up"; "{name}, {up} hoch"),
        name.to_owned(),
    ]
}

/// A board with the height of its middle.
pub(crate) fn board(voice: Voice, name: &str, height_m: f32) -> String {
    let (name, up) = (shorten(name, 22), voice.exact(f64::from(height_m)));
    said!(voice; "{name}, {up} up"; "{name}, {up} hoch")
}

/// The whole map for a person who does not see it: how many pieces of each face are worth what, and where the answer aims.
pub(crate) fn described(
    voice: Voice,
    counts: &[(Face, Vec<(usize, Worth)>)],
    route: &Route,
    sitters: usize,
) -> String {
    let mut words = vec![
        voice
            .pick(
                "The six faces of the room folded flat, each piece with how good it is to aim there.",
                "Die sechs Flächen des Raums aufgeklappt; bei jedem Feld, wie gut es wäre, dorthin zu zielen.",
            )
            .to_owned(),
    ];
    for (face, counts) in counts {
        let counts: Vec<String> = counts
            .iter()
            .map(|(count, of)| format!("{count} {}", worth(voice, *of)))
            .collect();
        let counts = match &counts[..] {
            [] => not_from_here(voice).to_owned(),
            some => some.join(", "),
        };
        words.push(format!(
            "{}: {counts}.",
            sentence(&nouns::face(voice, *face).bare)
        ));
    }
    let way = aimed_at(voice, route);
    words.push(said!(voice; "The answer aims at: {way}."; "Die Antwort zielt auf: {way}."));
    words.push(match sitters {
        1 => said!(
            voice;
            "Camera and sitter are marked on the floor.";
            "Auf dem Boden sind Kamera und Person eingezeichnet."
        ),
        more => said!(
            voice;
            "Camera and {more} sitters are marked on the floor.";
            "Auf dem Boden sind die Kamera und {more} Personen eingezeichnet."
        ),
    });
    words.join(" ")
}
