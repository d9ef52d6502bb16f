//! `[camera]`: where it stands, its lens and its limits.

use super::place::{distance, height, inline_point};
use super::problem::{Problem, Span};
use super::quoting::shown;
use super::section::{Entry, Log, Said, Section};
use crate::both;
use answer::CameraBody;
use glam::{Vec2, Vec3};
use scene::BoxRoom;
use units::{FNumber, Iso, Millimetres, ShutterTime};

/// The camera as the file says it; what follows from the sitters is filled in later.
pub(crate) struct CameraRead {
    pub at: Vec2,
    /// `None`: level with the first sitter's face.
    pub height: Option<f32>,
    pub aim: Option<Vec3>,
    pub focal_mm: f32,
    pub landscape: bool,
    pub body: CameraBody,
    pub left: Span,
    pub behind: Span,
    /// The heading, for limits that were not said.
    pub span: Span,
    pub sync: Option<Span>,
    pub iso: Option<Span>,
    pub widest: Option<Span>,
}

/// Slowest and fastest sync that cameras have, in seconds (common practice: cloth shutters to leaf shutters).
const SYNC_SECONDS: (f64, f64) = (1.0 / 4000.0, 1.0 / 15.0);

pub(crate) fn read(section: &Section<'_>, room: Option<&BoxRoom>) -> Option<CameraRead> {
    section.close(super::parts::ALL);
    let left = distance(section, "from_left", room, 0);
    let behind = distance(section, "from_behind", room, 1);
    let up = section.entry("height").map(|entry| height(&entry, room));
    let lens = section.entry("lens").map(|entry| lens(&entry));
    let landscape = section
        .entry("landscape")
        .map_or(Some(false), |entry| entry.yes_or_no());
    let aim = section.entry("aim").map(|entry| inline_point(&entry, room));
    let sync = section.entry("sync").map(|entry| sync(&entry));
    let iso = section.entry("iso").map(|entry| iso_range(&entry));
    let widest = section.entry("widest").map(|entry| entry.quantity::<FNumber>());
    // Each of these was refused with a reason when it is inside but empty.
    let (sync, iso, widest) = (inner(sync)?, inner(iso)?, inner(widest)?);
    let body = CameraBody {
        sync: sync.as_ref().map_or("1/200".parse().ok()?, |said| said.value),
        least_iso: iso.as_ref().map_or(Iso::new(100.0).ok()?, |said| said.value.0),
        most_iso: iso.as_ref().map_or(Iso::new(6400.0).ok()?, |said| said.value.1),
        widest: widest.as_ref().map_or("f/2.8".parse().ok()?, |said| said.value),
    };
    let line = |key| {
        section
            .entry(key)
            .map_or(section.span.clone(), |entry| entry.span)
    };
    Some(CameraRead {
        at: Vec2::new(left?, behind?),
        height: inner(up)?,
        aim: inner(aim)?.map(|said| said.value),
        focal_mm: inner(lens)?.unwrap_or(85.0),
        landscape: landscape?,
        body,
        left: line("from_left"),
        behind: line("from_behind"),
        span: section.span.clone(),
        sync: sync.map(|said| said.span),
        iso: iso.map(|said| said.span),
        widest: widest.map(|said| said.span),
    })
}

/// "Not said" stays `Some(None)`; "said but refused" becomes `None`.
pub(crate) fn inner<T>(value: Option<Option<T>>) -> Option<Option<T>> {
    match value {
        None => Some(None),
        Some(None) => None,
        Some(value) => Some(value),
    }
}

fn lens(entry: &Entry<'_>) -> Option<f32> {
    let said = entry.quantity::<Millimetres>()?;
    if !(8.0..=800.0).contains(&said.value.value()) {
        entry.refuse(
            both!("no portrait is made with this lens"; "mit diesem Objektiv macht man kein Porträt"),
            both!("from 8 mm to 800 mm can be used"; "möglich: von 8 mm bis 800 mm"),
            both!(
                "Give the focal length for a 36 x 24 mm frame, such as \"85 mm\".";
                "Die Brennweite für das Format 36 x 24 mm angeben, etwa \"85 mm\"."
            ),
        );
        return None;
    }
    Some(said.value.value() as f32)
}

fn sync(entry: &Entry<'_>) -> Option<Said<ShutterTime>> {
    let said = entry.quantity::<ShutterTime>()?;
    if !(SYNC_SECONDS.0..=SYNC_SECONDS.1).contains(&said.value.value()) {
        entry.refuse(
            both!("no camera has this sync speed"; "keine Kamera hat diese Synchronzeit"),
            both!("from 1/15 to 1/4000 can be used"; "möglich: von 1/15 bis 1/4000"),
            both!(
                "It is the fastest shutter that gives a clean frame with flash, most often \"1/200\".";
                "Gemeint ist die kürzeste Zeit, die mit Blitz ein sauberes Bild gibt, meist \"1/200\"."
            ),
        );
        return None;
    }
    Some(said)
}

/// `"100 to 6400"`, with or without ISO before the numbers.
fn iso_range(entry: &Entry<'_>) -> Option<Said<(Iso, Iso)>> {
    let text = entry.text(
        both!("a range in quotes"; "ein Bereich in Anführungszeichen"),
        "\"100 to 6400\"",
    )?;
    let read = |part: &str| -> Option<Iso> {
        let part = part.trim();
        part.parse().or_else(|_| format!("ISO {part}").parse()).ok()
    };
    let range = text.split_once(" to ").or_else(|| text.split_once(['-', '–']));
    let Some((least, most)) = range.and_then(|(least, most)| Some((read(least)?, read(most)?))) else {
        entry.refuse(
            both!("{} is not a range of ISO", shown(text); "{} ist kein ISO-Bereich"),
            both!("two numbers with \"to\" between them"; "zwei Zahlen mit \"to\" dazwischen"),
            both!(
                "Write the lowest and the highest that you use:  iso = \"100 to 6400\"";
                "Den niedrigsten und den höchsten Wert schreiben:  iso = \"100 to 6400\""
            ),
        );
        return None;
    };
    if least.value() > most.value() {
        let (least, most) = (least.value(), most.value());
        entry.refuse(
            both!("the range of ISO is the wrong way round"; "der ISO-Bereich steht verkehrt herum"),
            both!("the lower number comes first"; "die kleinere Zahl steht vorn"),
            both!("Write:  iso = \"{most} to {least}\""; "Schreiben:  iso = \"{most} to {least}\""),
        );
        return None;
    }
    Some(Said {
        value: (least, most),
        span: entry.span.clone(),
    })
}

/// Settings that the body or the lens cannot make.
pub(crate) fn check_settings(
    log: &Log,
    camera: &CameraRead,
    aperture: Option<&Said<FNumber>>,
    apertures: Option<&Said<(FNumber, FNumber)>>,
    shutter: Option<&Said<ShutterTime>>,
    iso: Option<&Said<Iso>>,
) {
    let body = &camera.body;
    let here = |span: &Option<Span>| span.clone().unwrap_or_else(|| camera.span.clone());
    // Engraved numbers are rounded, so a hair's breadth is no contradiction.
    if let Some(said) = apertures.filter(|said| said.value.1.value() < body.widest.value() * 0.98) {
        log.problem(
            Problem::new(
                both!("the lens does not open to {}", said.value.1; "das Objektiv öffnet nicht bis {}"),
            )
            .at(
                said.span.clone(),
                both!("the smallest that is asked for"; "die kleinste, die verlangt ist"),
            )
            .at(
                here(&camera.widest),
                both!("opens to {} at most", body.widest; "öffnet höchstens bis {}"),
            )
            .help(both!(
                "Ask for a range that the lens has, or correct \"widest\" under [camera].";
                "Einen Bereich verlangen, den das Objektiv hat, oder \"widest\" unter [camera] berichtigen."
            )),
        );
    }
    if let Some(said) = aperture.filter(|said| said.value.value() < body.widest.value() * 0.98) {
        log.problem(
            Problem::new(
                both!("the lens does not open to {}", said.value; "das Objektiv öffnet nicht bis {}"),
            )
            .at(said.span.clone(), both!("asked for here"; "hier verlangt"))
            .at(
                here(&camera.widest),
                both!("opens to {} at most", body.widest; "öffnet höchstens bis {}"),
            )
            .help(both!(
                "Ask for {} or smaller, or correct \"widest\" under [camera].", body.widest;
                "{} oder kleiner verlangen, oder \"widest\" unter [camera] berichtigen."
            )),
        );
    }
    if let Some(said) = shutter.filter(|said| !camera::within_sync(said.value, body.sync)) {
        log.problem(
            Problem::new(both!(
                "{} is faster than the sync speed, so part of the frame would get no flash", said.value;
                "{} ist kürzer als die Synchronzeit, ein Teil des Bilds bekäme keinen Blitz"
            ))
            .at(said.span.clone(), both!("asked for here"; "hier verlangt"))
            .at(
                here(&camera.sync),
                both!("syncs at {} or slower", body.sync; "synchronisiert bei {} oder länger"),
            )
            .help(both!(
                "Ask for {} or slower, or leave the line out.", body.sync;
                "{} oder länger verlangen, oder die Zeile weglassen."
            )),
        );
    }
    let range = body.least_iso.value()..=body.most_iso.value();
    if let Some(said) = iso.filter(|said| !range.contains(&said.value.value())) {
        log.problem(
            Problem::new(both!(
                "{} is outside the range of the camera", said.value;
                "{} liegt außerhalb des Bereichs der Kamera"
            ))
            .at(said.span.clone(), both!("asked for here"; "hier verlangt"))
            .at(
                here(&camera.iso),
                both!("from {} to {}", body.least_iso, body.most_iso; "von {} bis {}"),
            )
            .help(both!(
                "Ask for one within the range, or widen \"iso\" under [camera].";
                "Einen Wert im Bereich verlangen, oder \"iso\" unter [camera] erweitern."
            )),
        );
    }
}
