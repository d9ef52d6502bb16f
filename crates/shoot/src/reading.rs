//! From the text of a shoot file to its jobs, or to everything that is wrong with it.

use crate::ask::AskRead;
use crate::bag::BagRead;
use crate::beside::Beside;
use crate::camera::CameraRead;
use crate::edit::PartKind;
use crate::parts::Part;
use crate::place::{Clock, PlaceRead};
use crate::problem::{Problem, Problems};
use crate::section::{Log, Said, Section, Seen};
use crate::set_ups::{SetUp, Wanted};
use crate::sitters::SitterRead;
use crate::sky::SkyRead;
use crate::words::Words;
use crate::{
    ambient, ask, bag, both, camera, checks, outdoors, parts, place, quoting, section, set_ups, sitters, sky,
    text, zones,
};
use answer::{Ambient, Job, Later, Zone};
use glam::Vec3;
use scene::figure::FaceShape;
use scene::{Panel, Place, Sitter, Viewpoint};

/// The layout that this program reads; a later one that means something else gets another number.
const FORMAT: f64 = 1.0;

/// More people than this are a crowd that one small flash cannot light (ours).
const MOST_SITTERS: usize = 40;

/// One set-up of a shoot file that could be read; the whole file if it has no `[[setup]]`.
#[derive(Clone, Debug)]
pub struct Shoot {
    /// What it asks.
    pub job: Job,
    /// Name of the set-up; `None` if the file has no `[[setup]]`.
    pub set_up: Option<String>,
    /// What was assumed or looks odd, with the line where it matters.
    pub warnings: Vec<Words>,
    /// Whether its lengths are in feet; answers follow it.
    pub uses_feet: bool,
    /// Where on Earth and when, if it says so.
    pub sky: Option<SkyRead>,
}

/// A whole shoot file that could be read.
#[derive(Clone, Debug)]
pub struct ShootFile {
    /// What the shoot is called.
    pub title: String,
    /// Its set-ups in the order of the file, at least one.
    pub set_ups: Vec<Shoot>,
}

impl ShootFile {
    /// Its first set-up.
    ///
    /// # Errors
    /// A file without any, which is a fault of this program.
    pub fn first(self) -> Result<Shoot, Box<Problems>> {
        let first = self.set_ups.into_iter().next();
        first.ok_or_else(|| Box::new(Problems::of_file(&self.title, our_fault())))
    }
}

/// Reads every set-up of the text of a shoot file; `name` is shown in messages.
///
/// # Errors
/// Everything that is wrong with it, each thing once.
pub fn parse_file(name: &str, text: &str) -> Result<ShootFile, Box<Problems>> {
    parse_in(name, text, None, Wanted::All)
}

/// Reads the first set-up of the text of a shoot file; mistakes in the others do not matter.
///
/// # Errors
/// Everything that is wrong with it.
pub fn parse(name: &str, text: &str) -> Result<Shoot, Box<Problems>> {
    parse_set_up(name, text, 0)
}

/// Reads one set-up of the text of a shoot file, counted from 0; mistakes in the others do not matter.
///
/// # Errors
/// Everything that is wrong with it, or that there is no such set-up.
pub fn parse_set_up(name: &str, text: &str, index: usize) -> Result<Shoot, Box<Problems>> {
    parse_in(name, text, None, Wanted::At(index))?.first()
}

/// Reads one set-up of the text of a shoot file, by its name or its number from 1; mistakes in the others do not
/// matter.
///
/// # Errors
/// Everything that is wrong with it, or that there is no such set-up.
pub fn parse_called(name: &str, text: &str, called: &str) -> Result<Shoot, Box<Problems>> {
    parse_in(name, text, None, Wanted::Called(called))?.first()
}

/// Reads the wanted set-ups of the text of a shoot file that lies beside others, where its curves are looked for.
///
/// # Errors
/// Everything that is wrong with it, each thing once.
pub fn parse_beside(
    name: &str,
    text: &str,
    beside: &dyn Beside,
    wanted: Wanted<'_>,
) -> Result<ShootFile, Box<Problems>> {
    parse_in(name, text, Some(beside), wanted)
}

fn our_fault() -> Problem {
    Problem::new(both!(
        "this file could not be read, and that is a fault of this program";
        "diese Datei war nicht zu lesen, und das ist ein Fehler dieses Programms"
    ))
    .help(both!("Please report it together with the file."; "Bitte zusammen mit der Datei melden."))
}

fn parse_in(
    name: &str,
    text: &str,
    beside: Option<&dyn Beside>,
    wanted: Wanted<'_>,
) -> Result<ShootFile, Box<Problems>> {
    let text = text.strip_prefix('\u{feff}').unwrap_or(text);
    let document = text::parse(name, text)?;
    let log = Log::beside(beside);
    let root = Section::new(&parts::ROOT, document.get_ref(), 0..0, &log);
    root.close(parts::ALL);
    check_format(&root);
    let title = title(&root, name);
    let read = read_set_ups(&root, &title, wanted);
    let uses_feet = log.uses_feet();
    let (problems, untold) = log.finish();
    if !problems.is_empty() {
        let shown = quoting::presentable(text);
        return Err(Box::new(Problems::in_text(name, shown, problems, untold)));
    }
    let finished = |read: SetUpRead| {
        Some(Shoot {
            job: read.job?,
            set_up: read.name,
            warnings: with_lines(text, read.warnings),
            uses_feet,
            sky: read.sky,
        })
    };
    let set_ups: Option<Vec<Shoot>> = read.into_iter().map(finished).collect();
    match set_ups {
        Some(set_ups) if !set_ups.is_empty() => Ok(ShootFile { title, set_ups }),
        _ => Err(Box::new(Problems::of_file(name, our_fault()))),
    }
}

/// Checks the text of a part that is kept by itself, a `[bag]` or a `[place]`, and gives what was assumed of it.
///
/// Where boards face, and what else only shows beside a camera and sitters, is checked when the part is in a shoot.
///
/// # Errors
/// Everything that is wrong with it.
pub fn parse_part(name: &str, text: &str, kind: PartKind) -> Result<Vec<Words>, Box<Problems>> {
    let text = text.strip_prefix('\u{feff}').unwrap_or(text);
    let document = text::parse(name, text)?;
    let log = Log::default();
    let file = match kind {
        PartKind::Bag => &BAG_ALONE,
        PartKind::Place => &PLACE_ALONE,
    };
    let root = Section::new(file, document.get_ref(), 0..0, &log);
    // The other parts have no home here, so no message says where they belong.
    root.close(&[]);
    let example = match kind {
        PartKind::Bag => "assistant = true",
        PartKind::Place => "room = \"5.5 x 4.4 x 2.6 m\"",
    };
    match kind {
        PartKind::Bag => {
            let bag = needed_part(&root, "bag", &parts::BAG, example);
            let bag = bag.and_then(|part| bag::read(Some(&part)));
            let boards = bag.map_or_else(Vec::new, |bag| bag.boards);
            checks::names(&log, &both!("things"; "Dinge"), &boards);
        }
        PartKind::Place => {
            let part = needed_part(&root, "place", &parts::PLACE, example);
            let place = part.as_ref().and_then(place::read);
            if let Some(part) = &part {
                place::boards(part, place.as_ref().map(|place| &place.room), None);
            }
            let blocks = place.as_ref().map_or(&[][..], |place| &place.blocks);
            checks::names(
                &log,
                &both!("things"; "Dinge"),
                &names_of(blocks, |block| &block.name),
            );
            let openings = place.as_ref().map_or(&[][..], |place| &place.openings);
            let openings = names_of(openings, |opening| &opening.name);
            checks::names(&log, &both!("openings"; "Öffnungen"), &openings);
        }
    }
    let warnings = with_lines(text, log.take_warnings());
    let (problems, untold) = log.finish();
    if problems.is_empty() {
        return Ok(warnings);
    }
    let shown = quoting::presentable(text);
    Err(Box::new(Problems::in_text(name, shown, problems, untold)))
}

/// A text with a bag alone.
static BAG_ALONE: Part = Part::new("a bag that is kept by itself", "eine Tasche für sich", &["bag"]);

/// A text with a place alone.
static PLACE_ALONE: Part = Part::new("a place that is kept by itself", "ein Ort für sich", &["place"]);

/// The names of some things, each where it was said.
fn names_of<T>(things: &[Said<T>], name: impl Fn(&T) -> &String) -> Vec<Said<String>> {
    let said = |thing: &Said<T>| Said {
        value: name(&thing.value).clone(),
        span: thing.span.clone(),
    };
    things.iter().map(said).collect()
}

/// What was read of one set-up.
struct SetUpRead {
    name: Option<String>,
    job: Option<Job>,
    sky: Option<SkyRead>,
    warnings: Vec<(usize, Words)>,
}

/// The wanted set-ups; a file without `[[setup]]` is a single one.
fn read_set_ups(root: &Section<'_>, title: &str, wanted: Wanted<'_>) -> Vec<SetUpRead> {
    let log = root.log;
    let read = |root: &Section<'_>, name: Option<&str>| {
        let sky = root.part("sky", &parts::SKY).and_then(|part| sky::read(&part));
        let title = name.map_or_else(
            || title.to_owned(),
            |name| quoting::shorten(&format!("{title}: {name}")),
        );
        SetUpRead {
            name: name.map(str::to_owned),
            job: read_parts(root, title, sky.as_ref()),
            sky,
            warnings: log.take_warnings(),
        }
    };
    let all = set_ups::find(root);
    if all.is_empty() {
        let is_the_only_one = match wanted {
            Wanted::All | Wanted::At(0) => true,
            Wanted::At(_) => false,
            Wanted::Called(number) => number.trim() == "1",
        };
        // A set-up that is written in a way that cannot be read is refused for that alone, not for what else may be missing.
        if root.entry("setup").is_some() && log.has_problems() {
            return Vec::new();
        }
        if !is_the_only_one {
            set_ups::refuse(root, &wanted.words(), &all);
            return Vec::new();
        }
        return vec![read(root, None)];
    }
    set_ups::warn_of_unread(root, &all);
    let common = log.take_warnings();
    let chosen = set_ups::chosen(root, all, wanted);
    let lacked_by_all = set_ups::lacked_by_all(root, &chosen);
    let read = chosen.iter().map(|SetUp { section, name }| {
        let seen = Seen {
            name: &name.value,
            section,
            lacked_by_all: &lacked_by_all,
        };
        let mut set_up = read(&root.seen_by(&seen), Some(&name.value));
        set_up.warnings.extend(common.iter().cloned());
        set_up
    });
    read.collect()
}

/// What was read of each part.
struct Parts {
    place: Option<PlaceRead>,
    camera: Option<CameraRead>,
    sitters: Vec<SitterRead>,
    panels: Vec<Said<Panel>>,
    bag: Option<BagRead>,
    ambients: Vec<Said<Ambient>>,
    /// Whether there is a sky.
    has_sky: bool,
    zones: Vec<Said<Zone>>,
    later: Vec<Said<Later>>,
    ask: Option<AskRead>,
}

/// Every part in turn, even when an earlier one was refused, so that all mistakes are told at once.
fn read_parts(root: &Section<'_>, title: String, sky: Option<&SkyRead>) -> Option<Job> {
    let log = root.log;
    let place_part = needed_part(root, "place", &parts::PLACE, "room = \"5.5 x 4.4 x 2.6 m\"");
    let place = place_part.as_ref().and_then(place::read);
    let room = place.as_ref().map(|place| &place.room);
    let position = "from_left = \"2.0 m\" and from_behind = \"2.0 m\"";
    let camera =
        needed_part(root, "camera", &parts::CAMERA, position).and_then(|part| camera::read(&part, room));
    let sitters = read_sitters(root, room, camera.as_ref());
    let clock = camera
        .as_ref()
        .zip(sitters.first())
        .map(|(camera, first)| clock(camera, &first.value));
    let panels = place_part.map_or_else(Vec::new, |part| place::boards(&part, room, clock.as_ref()));
    let bag = bag::read(root.part("bag", &parts::BAG).as_ref());
    let ambients = root.parts("ambient", &parts::AMBIENT);
    let has_sky = root.entry("sky").is_some();
    let other_light = !ambients.is_empty() || has_sky;
    let (daylight, ambients): (Vec<_>, Vec<_>) = ambients
        .into_iter()
        .partition(|part| outdoors::is_daylight(part, place.as_ref(), has_sky));
    let daylight: Vec<_> = daylight
        .iter()
        .filter_map(|part| outdoors::reading(part, has_sky))
        .collect();
    let ambients = ambients
        .iter()
        .filter_map(|part| ambient::read(part, place.as_ref(), clock.as_ref()))
        .collect();
    let zones = root.parts("zone", &parts::ZONE);
    let zones: Vec<_> = zones.iter().filter_map(zones::zone).collect();
    let later = root.parts("later", &parts::LATER);
    let later = later.iter().filter_map(zones::later).collect();
    let mut ask = match root.part("ask", &parts::ASK) {
        Some(part) => ask::read(&part, room, bag.as_ref(), other_light),
        None => ask::read(&empty_ask(log), room, bag.as_ref(), other_light),
    };
    if let Some(ask) = &mut ask {
        ask.ask.zones = zones::resolve(log, &ask.zones, &zones);
    }
    let parts = Parts {
        place,
        camera,
        sitters,
        panels,
        bag,
        ambients,
        has_sky,
        zones,
        later,
        ask,
    };
    check_names(log, &parts);
    check_together(log, &parts);
    outdoors::check(log, parts.place.as_ref(), &daylight, has_sky);
    if log.has_problems() {
        return None;
    }
    let mut job = job(title, parts)?;
    if let Some(sky) = sky {
        outdoors::under_the_sky(&mut job, sky, daylight.first().map(|said| &said.value));
    }
    Some(job)
}

/// The finished job; `None` only when a part is missing that was not complained about.
fn job(title: String, parts: Parts) -> Option<Job> {
    let (place, camera, ask, bag) = (parts.place?, parts.camera?, parts.ask?, parts.bag?);
    let position = lens(&camera, &parts.sitters.first()?.value);
    let viewpoint = viewpoint(&camera, position, &parts.sitters);
    Some(Job {
        title,
        place: assembled(place, parts.panels),
        sitters: told_apart(parts.sitters),
        viewpoint,
        body: camera.body,
        bag: bag.bag,
        ambients: parts.ambients.into_iter().map(|ambient| ambient.value).collect(),
        outdoors: None,
        zones: parts.zones.into_iter().map(|zone| zone.value).collect(),
        later: parts.later.into_iter().map(|later| later.value).collect(),
        ask: ask.ask,
    })
}

fn check_format(root: &Section<'_>) {
    let Some(entry) = root.entry("format") else { return };
    match section::number_of(entry.value) {
        Some(FORMAT) => {}
        Some(later) if later > FORMAT => entry.refuse(
            both!(
                "this shoot file was written for a later version of this program";
                "diese Datei wurde für eine spätere Fassung dieses Programms geschrieben"
            ),
            both!("format {FORMAT} is understood"; "verstanden wird Format {FORMAT}"),
            both!(
                "Use that version, or leave the line out if the file has nothing new in it.";
                "Jene Fassung verwenden, oder die Zeile weglassen, wenn in der Datei nichts Neues steht."
            ),
        ),
        _ => entry.refuse(
            both!("format is the number of the file's layout"; "format ist die Nummer des Dateiaufbaus"),
            both!("not a layout"; "kein Aufbau"),
            both!(
                "Write  format = 1, or leave the line out.";
                "format = 1 schreiben, oder die Zeile weglassen."
            ),
        ),
    }
}

fn title(root: &Section<'_>, name: &str) -> String {
    let stem = || {
        let stem = quoting::presentable(name.strip_suffix(".toml").unwrap_or(name)).replace(['-', '_'], " ");
        quoting::shorten(&stem.split_whitespace().collect::<Vec<_>>().join(" "))
    };
    let Some(entry) = root.entry("shoot") else {
        return stem();
    };
    match entry.text(
        both!("a title in quotes"; "ein Titel in Anführungszeichen"),
        "\"Sitting room\"",
    ) {
        Some(text) if !text.trim().is_empty() => quoting::shorten(text),
        _ => stem(),
    }
}

/// A part without which nothing can be worked out.
fn needed_part<'a>(
    root: &Section<'a>,
    key: &'static str,
    part: &'static Part,
    example: &str,
) -> Option<Section<'a>> {
    if root.entry(key).is_none() {
        missing_part(root, key, part.title, example);
    }
    root.part(key, part)
}

fn missing_part(root: &Section<'_>, key: &'static str, title: &str, example: &str) {
    if root.is_misspelt(key) {
        return;
    }
    let alone = root
        .set_up()
        .filter(|set_up| !set_up.lacked_by_all.contains(&key));
    let problem = match alone {
        None => Problem::new(both!("the part {title} is missing"; "der Teil {title} fehlt")).help(both!(
            "Add a line that says {title}, and below it at least {example}.";
            "Eine Zeile {title} hinzufügen, und darunter mindestens {example}."
        )),
        Some(set_up) => {
            let own = title.replace(key, &format!("setup.{key}"));
            Problem::new(both!(
                "the set-up {} has no part {own}, and there is no common one", quoting::shown(set_up.name);
                "das Bild {} hat keinen Teil {own}, und einen gemeinsamen gibt es nicht"
            ))
            .at(set_up.section.span.clone(), both!("missing here"; "fehlt hier"))
            .help(both!(
                "Add a line that says {own} below it, or {title} above the first set-up, with at least {example}.";
                "Darunter eine Zeile {own} hinzufügen, oder {title} über dem ersten Bild, mit mindestens {example}."
            ))
        }
    };
    root.log.problem(problem);
}

fn empty_ask<'a>(log: &'a Log<'a>) -> Section<'a> {
    static NOTHING: std::sync::LazyLock<toml::de::DeTable<'static>> =
        std::sync::LazyLock::new(Default::default);
    Section::new(&parts::ASK, &NOTHING, 0..0, log)
}

/// The sitters with faces of their own: the first has the mean face of its age, sex and build.
fn told_apart(sitters: Vec<SitterRead>) -> Vec<Sitter> {
    let mut people: Vec<Sitter> = sitters.into_iter().map(|sitter| sitter.value).collect();
    for (number, sitter) in people.iter_mut().enumerate().skip(1) {
        sitter.recipe.face = FaceShape::numbered(number as u32);
    }
    people
}

/// Where somebody could stand.
const SITTER_EXAMPLE: &str = "from_left = \"2.0 m\" and from_behind = \"4.0 m\"";

/// The sitters that could be read.
fn read_sitters(
    root: &Section<'_>,
    room: Option<&scene::BoxRoom>,
    camera: Option<&CameraRead>,
) -> Vec<SitterRead> {
    let nobody = |entry: section::Entry<'_>| entry.value.as_array().is_some_and(|list| list.is_empty());
    if root.entry("sitter").is_none_or(nobody) {
        missing_part(root, "sitter", "[[sitter]]", SITTER_EXAMPLE);
        return Vec::new();
    }
    let sections = root.parts("sitter", &parts::SITTER);
    if let Some(extra) = sections.get(MOST_SITTERS) {
        root.log.problem(
            Problem::new(both!("more than {MOST_SITTERS} sitters"; "mehr als {MOST_SITTERS} Personen"))
                .at(extra.span.clone(), both!("one too many"; "eine zu viel"))
                .help(both!(
                    "One small flash cannot light a crowd; describe those whose light matters.";
                    "Ein kleiner Blitz kann keine Menge beleuchten; die beschreiben, deren Licht zählt."
                )),
        );
        return Vec::new();
    }
    sections
        .iter()
        .filter_map(|section| sitters::read(section, room, camera))
        .collect()
}

/// The clock around the first sitter.
fn clock(camera: &CameraRead, first: &Sitter) -> Clock {
    let middle = first.face();
    Clock {
        middle,
        to_camera: lens(camera, first) - middle,
    }
}

/// The lens, level with the first sitter's face when no height was said.
fn lens(camera: &CameraRead, first: &Sitter) -> Vec3 {
    camera.at.extend(camera.height.unwrap_or(first.face_height))
}

/// How far above the middle of the picture the eyes stand, as a share of its height.
const EYES_ABOVE_MIDDLE: f32 = 0.1;

fn viewpoint(camera: &CameraRead, position: Vec3, sitters: &[SitterRead]) -> Viewpoint {
    let faces = sitters.iter().map(|sitter| sitter.value.face());
    let middle = faces.sum::<Vec3>() / sitters.len().max(1) as f32;
    // Eyes stand above the middle of a portrait, with the shoulders below them (common practice).
    let height_mm = if camera.landscape { 24.0 } else { 36.0 };
    let eyes_above_middle = EYES_ABOVE_MIDDLE * height_mm / camera.focal_mm * middle.distance(position);
    Viewpoint {
        position,
        look_at: camera.aim.unwrap_or(middle - Vec3::Z * eyes_above_middle),
        focal_mm: camera.focal_mm,
        landscape: camera.landscape,
    }
}

fn assembled(place: PlaceRead, panels: Vec<Said<Panel>>) -> Place {
    Place {
        room: place.room,
        openings: place.openings.into_iter().map(|opening| opening.value).collect(),
        blocks: place.blocks.into_iter().map(|block| block.value).collect(),
        panels: panels.into_iter().map(|panel| panel.value).collect(),
        surroundings: None,
    }
}

/// Names must tell things of a kind apart.
fn check_names(log: &Log, parts: &Parts) {
    let check = |what: Words, names: &[Said<String>]| checks::names(log, &what, names);
    let mut things: Vec<Said<String>> = Vec::new();
    if let Some(place) = &parts.place {
        let openings = names_of(&place.openings, |opening| &opening.name);
        check(both!("openings"; "Öffnungen"), &openings);
        things = names_of(&place.blocks, |block| &block.name);
    }
    things.extend(names_of(&parts.panels, |panel| &panel.name));
    things.extend(parts.bag.iter().flat_map(|bag| bag.boards.clone()));
    check(both!("things"; "Dinge"), &things);
    let people = parts.sitters.iter().map(|sitter| Said {
        value: sitter.value.name.clone(),
        span: sitter.name.clone(),
    });
    check(both!("sitters"; "Personen"), &people.collect::<Vec<_>>());
    let lights = names_of(&parts.ambients, |light| &light.name);
    check(both!("ambient lights"; "vorhandene Lichter"), &lights);
    check(
        both!("zones"; "Zonen"),
        &names_of(&parts.zones, |zone| &zone.name),
    );
    let times = names_of(&parts.later, |later| &later.name);
    check(both!("later times"; "spätere Zeiten"), &times);
}

/// What only shows when two parts are held against each other.
fn check_together(log: &Log, parts: &Parts) {
    let Parts {
        place,
        camera,
        sitters,
        panels,
        bag,
        ambients,
        has_sky,
        ask,
        ..
    } = parts;
    if let (Some(place), Some(camera), Some(first)) = (place, camera, sitters.first()) {
        let lens = lens(camera, &first.value);
        checks::positions(log, place, camera, lens, sitters, ask.as_ref());
        checks::sight(log, place, lens, sitters, panels);
    }
    let Some(ask) = ask else { return };
    if let Some(camera) = camera {
        camera::check_settings(
            log,
            camera,
            ask.aperture.as_ref(),
            ask.apertures.as_ref(),
            ask.shutter.as_ref(),
            ask.iso.as_ref(),
        );
    }
    if let Some(bag) = bag {
        bag::check_in_hand(log, bag, ask.in_hand.as_ref());
    }
    checks::limits(log, ask, bag.as_ref(), sitters);
    let filters = bag.as_ref().is_some_and(|bag| !bag.bag.nd.is_empty());
    let daylight = *has_sky && place.as_ref().is_none_or(outdoors::lets_daylight_in);
    checks::wishes(log, ask, ambients, daylight, filters);
}

/// Warnings in the order of the file, each with its line.
fn with_lines(text: &str, mut warnings: Vec<(usize, Words)>) -> Vec<Words> {
    warnings.sort_by_key(|(position, _)| *position);
    let line = |position: usize| 1 + text.bytes().take(position).filter(|byte| *byte == b'\n').count();
    warnings
        .into_iter()
        .map(|(position, warning)| both!("line {}: {}", line(position), warning; "Zeile {}: {}"))
        .collect()
}
