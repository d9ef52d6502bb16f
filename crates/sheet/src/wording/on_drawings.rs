//! What stands on the drawings: titles, labels, keys, and what a person is told who does not see them.

use super::nouns;
use crate::fitting::shorten;
use crate::voice::{Voice, said};
use answer::Job;
use scene::Face;

/// Title of a set-up without a name.
pub(crate) fn untitled(voice: Voice) -> &'static str {
    voice.pick("Untitled set-up", "Bild ohne Namen")
}

/// Below the title where there is no answer yet.
pub(crate) fn as_described(voice: Voice) -> &'static str {
    voice.pick("The place as it was described", "Der Ort, wie er beschrieben ist")
}

/// Over the plan.
pub(crate) fn from_above(voice: Voice) -> &'static str {
    voice.pick("From above", "Von oben")
}

/// Over the side view.
pub(crate) fn from_the_side(voice: Voice, along_the_light: bool) -> &'static str {
    if along_the_light {
        voice.pick(
            "From the side, along the light",
            "Von der Seite, entlang des Lichts",
        )
    } else {
        voice.pick("From the side", "Von der Seite")
    }
}

/// What the side view shows, for a person who does not see it.
pub(crate) fn side_described(voice: Voice) -> &'static str {
    voice.pick(
        "The light’s way from flash to face, with its heights and angles in true size.",
        "Der Weg des Lichts vom Blitz zum Gesicht, Höhen und Winkel in wahrer Größe.",
    )
}

/// "4.4 m in all", for a room that is cut.
pub(crate) fn in_all(voice: Voice, length: &str) -> String {
    said!(voice; "{length} in all"; "{length} insgesamt")
}

/// A surface with its material and the light it sends back: "left wall · white paint 0.80".
pub(crate) fn surface(voice: Voice, face: Face, material: &str, reflectance: &str) -> String {
    let wall = nouns::face(voice, face).bare;
    let material = shorten(material, 40);
    if material.is_empty() || material == face.words() {
        format!("{wall} · {reflectance}")
    } else {
        format!("{wall} · {material} {reflectance}")
    }
}

/// A face of the place without wall or roof.
pub(crate) fn open_side(voice: Voice, face: Face) -> &'static str {
    match face {
        Face::Left => voice.pick("open on the left", "links offen"),
        Face::Right => voice.pick("open on the right", "rechts offen"),
        Face::BehindCamera => voice.pick("open behind the camera", "hinter der Kamera offen"),
        Face::BehindSitter => voice.pick("open behind the sitter", "hinter der Person offen"),
        Face::Ceiling => voice.pick("open sky", "freier Himmel"),
        Face::Floor => voice.pick("open below", "nach unten offen"),
    }
}

/// The camera, with or without the flash on it.
pub(crate) fn camera(voice: Voice, height_m: f32, with_flash: bool) -> String {
    if with_flash {
        return voice.pick("camera with the flash", "Kamera mit Blitz").to_owned();
    }
    let up = voice.exact(f64::from(height_m));
    said!(voice; "camera, {up} up"; "Kamera, {up} hoch")
}

/// The flash with its height, as the third line says it.
pub(crate) fn flash(voice: Voice, height_m: f32) -> String {
    let up = voice.about(f64::from(height_m));
    said!(voice; "flash, {up} up"; "Blitz, {up} hoch")
}

/// A board in somebody's hands, with the height of its middle.
pub(crate) fn held(voice: Voice, name: &str, height_m: f32) -> String {
    let (name, up) = (shorten(name, 22), voice.exact(f64::from(height_m)));
    said!(voice; "{name}, held {up} up"; "{name}, {up} hoch gehalten")
}

/// A board with the height of its middle.
pub(crate) fn middle_of(voice: Voice, name: &str, height_m: f32) -> String {
    let (name, up) = (shorten(name, 20), voice.exact(f64::from(height_m)));
    said!(voice; "{name}, middle {up} up"; "{name}, Mitte {up} hoch")
}

/// At a point of ceiling or floor.
pub(crate) fn aim_here(voice: Voice) -> &'static str {
    voice.pick("aim here", "Ziel")
}

/// At a point of a wall.
pub(crate) fn aim_up(voice: Voice, height_m: f32) -> String {
    let up = voice.about(f64::from(height_m));
    said!(voice; "aim {up} up"; "Ziel {up} hoch")
}

/// A card that keeps light off.
pub(crate) fn flag(voice: Voice) -> &'static str {
    voice.pick("flag", "schwarze Karte")
}

/// A piece of furniture with its height.
pub(crate) fn tall(voice: Voice, name: &str, height_m: f32) -> String {
    let up = voice.exact(f64::from(height_m));
    said!(voice; "{name}, {up} high"; "{name}, {up} hoch")
}

/// Sun or moon with its height: "sun, 21° up".
pub(crate) fn in_the_sky(voice: Voice, light: &answer::LightName, degrees: &str) -> String {
    let name = nouns::light(voice, light).bare;
    said!(voice; "{name}, {degrees} up"; "{name}, {degrees} hoch")
}

/// Height of the eyes, with and without the sitter's name.
pub(crate) fn eyes(voice: Voice, name: &str, height_m: f32) -> [String; 2] {
    let (name, up) = (shorten(name, 18), voice.exact(f64::from(height_m)));
    let alone = said!(voice; "eyes {up} up"; "Augen {up} hoch");
    [format!("{name}, {alone}"), alone]
}

/// Key: the light's way with its legs.
pub(crate) fn key_way(voice: Voice, legs_m: &[f64]) -> String {
    let legs: Vec<String> = legs_m.iter().map(|leg| voice.about(*leg)).collect();
    let legs = voice.list(&legs);
    said!(voice; "the light's way: {legs}"; "der Weg des Lichts: {legs}")
}

/// Key: the beam.
pub(crate) fn key_beam(voice: Voice, zoom_mm: f64) -> String {
    let zoom = voice.plain(zoom_mm, 0);
    said!(
        voice;
        "the beam at zoom {zoom}; at its edge about one stop down";
        "der Strahl bei Zoom {zoom}; am Rand etwa eine Blende dunkler"
    )
}

/// Key: the lit patch.
pub(crate) fn key_patch(voice: Voice) -> &'static str {
    voice.pick("what the beam lights first", "was der Strahl zuerst trifft")
}

/// Key: the lines of equal falloff.
pub(crate) fn key_falloff(voice: Voice) -> &'static str {
    voice.pick(
        "equal falloff: stops against the face, by distance alone",
        "gleicher Lichtabfall: Blenden gegen das Gesicht, nur nach Abstand",
    )
}

/// Key: the clock.
pub(crate) fn key_clock(voice: Voice, hour: f64) -> String {
    let clock = voice.clock(hour);
    said!(
        voice;
        "light from about {clock}, with the camera at 6";
        "Licht von etwa {clock}; die Kamera steht auf 6"
    )
}

/// A sitter with a number, of several: "1 Wilhelmina (metered)".
pub(crate) fn numbered(voice: Voice, index: usize, name: &str) -> String {
    let (number, name) = (index + 1, shorten(name, 28));
    match index {
        0 => said!(voice; "{number} {name} (metered)"; "{number} {name} (gemessen)"),
        _ => format!("{number} {name}"),
    }
}

/// Names that found no place in the drawing.
pub(crate) fn left_over(voice: Voice, names: &str) -> String {
    said!(
        voice;
        "For want of space not in the drawing: {names}.";
        "Aus Platzmangel nicht in der Zeichnung: {names}."
    )
}

/// Sitters that are told one by one to a person who does not see the drawing (ours).
const TOLD_ONE_BY_ONE: usize = 12;

/// The place and who stands where, for a person who does not see the drawing.
pub(crate) fn place_described(voice: Voice, job: &Job) -> String {
    let side = |value: f32| voice.exact(f64::from(value));
    let [wide, long, high] = job.place.room.size.to_array().map(side);
    let mut sentences = vec![said!(
        voice;
        "A room {wide} wide, {long} long and {high} high.";
        "Ein Raum, {wide} breit, {long} lang und {high} hoch."
    )];
    for sitter in job.sitters.iter().take(TOLD_ONE_BY_ONE) {
        let name = shorten(&sitter.name, 60);
        let [left, behind, eyes] = [sitter.stand.x, sitter.stand.y, sitter.face_height].map(side);
        sentences.push(said!(
            voice;
            "{name} {left} from the left wall and {behind} from the wall behind the camera, eyes {eyes} up.";
            "{name}: {left} von der linken Wand und {behind} von der Wand hinter der Kamera, Augen {eyes} hoch."
        ));
    }
    if job.sitters.len() > TOLD_ONE_BY_ONE {
        sentences.push(voice.pick("And others.", "Und weitere Personen.").to_owned());
    }
    let [left, behind, up] = job.viewpoint.position.to_array().map(side);
    sentences.push(said!(
        voice;
        "Camera {left} from the left wall and {behind} from the wall behind it, {up} up.";
        "Die Kamera: {left} von der linken Wand und {behind} von der Wand hinter ihr, {up} hoch."
    ));
    sentences.join(" ")
}

/// From where the light comes, for a person who does not see the drawing.
pub(crate) fn light_described(voice: Voice, hour: f64, elevation_deg: f64) -> String {
    let (clock, height) = (voice.clock(hour), voice.elevation(elevation_deg));
    said!(
        voice;
        "The light reaches the face from about {clock}, {height}.";
        "Das Licht trifft das Gesicht von etwa {clock}, {height}."
    )
}

/// Title of the stops chart.
pub(crate) fn chart_title(voice: Voice) -> &'static str {
    voice.pick("Where the stops go", "Wo die Blenden bleiben")
}

/// A line of the stops chart for what its other lines leave open.
pub(crate) fn not_accounted_for(voice: Voice) -> &'static str {
    voice.pick("not accounted for", "nicht zugeordnet")
}

/// The lines of the stops chart, for a person who does not see it.
pub(crate) fn chart_described(voice: Voice, lines: &str) -> String {
    said!(voice; "Stops, line by line. {lines}."; "Blenden, Zeile für Zeile. {lines}.")
}
