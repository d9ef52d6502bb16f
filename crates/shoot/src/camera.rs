//! `[camera]`: where it stands, its lens and its limits.

use super::place::{distance, height, inline_point};
use super::problem::{Problem, Span};
use super::quoting::shown;
use super::section::{Entry, Log, Said, Section};
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
            "no portrait is made with this lens",
            "from 8 mm to 800 mm can be used",
            "Give the focal length for a 36 x 24 mm frame, such as \"85 mm\".",
        );
        return None;
    }
    Some(said.value.value() as f32)
}

fn sync(entry: &Entry<'_>) -> Option<Said<ShutterTime>> {
    let said = entry.quantity::<ShutterTime>()?;
    if !(SYNC_SECONDS.0..=SYNC_SECONDS.1).contains(&said.value.value()) {
        entry.refuse(
            "no camera has this sync speed",
            "from 1/15 to 1/4000 can be used",
            "It is the fastest shutter that gives a clean frame with flash, most often \"1/200\".",
        );
        return None;
    }
    Some(said)
}

/// `"100 to 6400"`, with or without ISO before the numbers.
fn iso_range(entry: &Entry<'_>) -> Option<Said<(Iso, Iso)>> {
    let text = entry.text("a range in quotes", "\"100 to 6400\"")?;
    let read = |part: &str| -> Option<Iso> {
        let part = part.trim();
        part.parse().or_else(|_| format!("ISO {part}").parse()).ok()
    };
    let range = text.split_once(" to ").or_else(|| text.split_once(['-', '–']));
    let Some((least, most)) = range.and_then(|(least, most)| Some((read(least)?, read(most)?))) else {
        entry.refuse(
            &format!("{} is not a range of ISO", shown(text)),
            "two numbers with \"to\" between them",
            "Write the lowest and the highest that you use:  iso = \"100 to 6400\"",
        );
        return None;
    };
    if least.value() > most.value() {
        entry.refuse(
            "the range of ISO is the wrong way round",
            "the lower number comes first",
            &format!("Write:  iso = \"{} to {}\"", most.value(), least.value()),
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
            Problem::new(format!("the lens does not open to {}", said.value.1))
                .at(said.span.clone(), "the smallest that is asked for")
                .at(here(&camera.widest), format!("opens to {} at most", body.widest))
                .help("Ask for a range that the lens has, or correct \"widest\" under [camera]."),
        );
    }
    if let Some(said) = aperture.filter(|said| said.value.value() < body.widest.value() * 0.98) {
        log.problem(
            Problem::new(format!("the lens does not open to {}", said.value))
                .at(said.span.clone(), "asked for here")
                .at(here(&camera.widest), format!("opens to {} at most", body.widest))
                .help(format!(
                    "Ask for {} or smaller, or correct \"widest\" under [camera].",
                    body.widest
                )),
        );
    }
    if let Some(said) = shutter.filter(|said| !camera::within_sync(said.value, body.sync)) {
        log.problem(
            Problem::new(format!(
                "{} is faster than the sync speed, so part of the frame would get no flash",
                said.value
            ))
            .at(said.span.clone(), "asked for here")
            .at(here(&camera.sync), format!("syncs at {} or slower", body.sync))
            .help(format!("Ask for {} or slower, or leave the line out.", body.sync)),
        );
    }
    let range = body.least_iso.value()..=body.most_iso.value();
    if let Some(said) = iso.filter(|said| !range.contains(&said.value.value())) {
        log.problem(
            Problem::new(format!("{} is outside the range of the camera", said.value))
                .at(said.span.clone(), "asked for here")
                .at(
                    here(&camera.iso),
                    format!("from {} to {}", body.least_iso, body.most_iso),
                )
                .help("Ask for one within the range, or widen \"iso\" under [camera]."),
        );
    }
}
