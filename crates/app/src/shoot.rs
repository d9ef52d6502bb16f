//! The shoot file: what a photographer writes about one job, read into a [`solver::Job`].
//!
//! Reading never stops at the first mistake. Every key is checked by itself, then the parts against one
//! another, and all that was found comes back at once with its line, the reason and what to do. Nothing is
//! guessed silently: what was not said and matters is listed as a warning. `SHOOT_FILE.md` explains every key;
//! a test holds it against [`parts`].
//!
//! ```
//! let text = r#"
//! [place]
//! room = "5.5 x 4.4 x 2.6 m"
//! [camera]
//! from_left = "2.0 m"
//! from_behind = "2.0 m"
//! [[sitter]]
//! from_left = "2.0 m"
//! from_behind = "4.0 m"
//! "#;
//! let shoot = app::shoot::parse("kitchen.toml", text).expect("a complete file");
//! assert_eq!(shoot.job.title, "kitchen");
//! assert_eq!(shoot.job.place.room.size.x, 4.4);
//!
//! let wrong = app::shoot::parse("kitchen.toml", &text.replace("room", "rom")).expect_err("a misspelt key");
//! assert_eq!(wrong.list()[1].remedy(), Some("Did you mean \"room\"?"));
//! ```

mod ambient;
mod ask;
mod bag;
mod camera;
mod checks;
mod nearest;
pub mod parts;
mod place;
mod problem;
mod section;
mod sitters;
mod surface;
mod text;
mod written;

pub use nearest::nearest;
pub use problem::{Problem, Problems, Span};
pub use section::Part;
pub use text::MOST_BYTES;

use ask::AskRead;
use bag::BagRead;
use camera::CameraRead;
use glam::Vec3;
use place::{Clock, PlaceRead};
use scene::{Panel, Place, Sitter, Viewpoint};
use section::{Log, Said, Section};
use solver::{Ambient, Job};
use std::path::Path;

/// The layout that this program reads; a later one that means something else gets another number.
const FORMAT: f64 = 1.0;

/// More people than this are a crowd that one small flash cannot light (ours).
const MOST_SITTERS: usize = 40;

/// A shoot file that could be read.
#[derive(Clone, Debug)]
pub struct Shoot {
    /// What it asks.
    pub job: Job,
    /// What was assumed or looks odd, with the line where it matters.
    pub warnings: Vec<String>,
    /// Whether its lengths are in feet; answers follow it.
    pub uses_feet: bool,
}

/// Reads a shoot file from the disk.
///
/// # Errors
/// Everything that is wrong with it.
pub fn read(path: &Path) -> Result<Shoot, Box<Problems>> {
    let name = path.file_name().unwrap_or(path.as_os_str()).to_string_lossy();
    let text = text::from_disk(path).map_err(|problem| Box::new(Problems::of_file(&name, problem)))?;
    parse(&name, &text)
}

/// Reads the text of a shoot file; `name` is shown in messages.
///
/// # Errors
/// Everything that is wrong with it.
pub fn parse(name: &str, text: &str) -> Result<Shoot, Box<Problems>> {
    let text = text.strip_prefix('\u{feff}').unwrap_or(text);
    let document = text::parse(name, text)?;
    let log = Log::default();
    let root = Section::new(&parts::ROOT, document.get_ref(), 0..0, &log);
    let job = read_parts(&root, name);
    let uses_feet = log.uses_feet();
    let (problems, warnings) = log.finish();
    match job {
        Some(job) if problems.is_empty() => Ok(Shoot { job, warnings: with_lines(text, warnings), uses_feet }),
        _ if problems.is_empty() => {
            let ours = Problem::new("this file could not be read, and that is a fault of this program")
                .help("Please report it together with the file.");
            Err(Box::new(Problems::of_file(name, ours)))
        }
        _ => Err(Box::new(Problems::in_text(name, text::presentable(text), problems))),
    }
}

/// Every part in turn, even when an earlier one was refused, so that all mistakes are told at once.
fn read_parts(root: &Section<'_>, name: &str) -> Option<Job> {
    let log = root.log;
    let all = parts::ALL;
    root.close(all);
    check_format(root);
    let title = title(root, name);
    let place_part = root.part("place", &parts::PLACE);
    if root.entry("place").is_none() {
        missing_part(root, "[place]", "room = \"5.5 x 4.4 x 2.6 m\"");
    }
    close_with(&place_part, &[("opening", &parts::OPENING), ("furniture", &parts::FURNITURE), ("board", &parts::STANDING_BOARD)]);
    let place = place_part.as_ref().and_then(place::read);
    let room = place.as_ref().map(|place| &place.room);
    let camera = root.part("camera", &parts::CAMERA);
    if root.entry("camera").is_none() {
        missing_part(root, "[camera]", "from_left = \"2.0 m\" and from_behind = \"2.0 m\"");
    }
    close_with(&camera, &[]);
    let camera = camera.and_then(|part| camera::read(&part, room));
    let (sitters, all_sitters_good) = read_sitters(root, room, camera.as_ref());
    let clock = clock(camera.as_ref(), &sitters);
    let panels = match &place_part {
        Some(part) => place::boards(part, room, clock.as_ref()),
        None => Vec::new(),
    };
    let bag_part = root.part("bag", &parts::BAG);
    close_with(&bag_part, &[]);
    let bag = bag::read(bag_part.as_ref());
    let ambients = read_ambients(root, place.as_ref());
    let ask_part = root.part("ask", &parts::ASK);
    close_with(&ask_part, &[]);
    let ask = match &ask_part {
        Some(part) => ask::read(part, room),
        None => ask::read(&empty_ask(log), room),
    };
    check_names(log, place.as_ref(), &panels, &sitters, bag.as_ref(), &ambients, root);
    let eye = camera.as_ref().zip(sitters.first()).map(|(camera, first)| lens(camera, &first.value));
    check_together(log, place.as_ref(), camera.as_ref(), eye, &sitters, &panels, bag.as_ref(), ask.as_ref(), &ambients);
    if log.has_problems() || !all_sitters_good {
        return None;
    }
    let (camera, place, ask, bag) = (camera?, place?, ask?, bag?);
    let viewpoint = viewpoint(&camera, eye?, &sitters);
    Some(Job {
        title,
        place: assembled(place, panels),
        sitters: sitters.into_iter().map(|sitter| sitter.value).collect(),
        viewpoint,
        body: camera.body,
        bag: bag.bag,
        ambients: ambients.into_iter().map(|ambient| ambient.value).collect(),
        ask: ask.ask,
    })
}

/// Refuses unknown keys in a part and in the lists inside it.
fn close_with(part: &Option<Section<'_>>, lists: &[(&'static str, &'static Part)]) {
    let Some(part) = part else { return };
    part.close(parts::ALL);
    for (key, inside) in lists {
        // A list of the wrong kind is refused where it is read.
        if part.entry(key).is_some_and(|entry| entry.value.is_array()) {
            for section in part.parts(key, inside) {
                section.close(parts::ALL);
            }
        }
    }
}

fn check_format(root: &Section<'_>) {
    let Some(entry) = root.entry("format") else { return };
    match section::number_of(entry.value) {
        Some(FORMAT) => {}
        Some(later) if later > FORMAT => entry.refuse(
            "this shoot file was written for a later version of this program",
            &format!("format {FORMAT} is understood"),
            "Use that version, or leave the line out if the file has nothing new in it.",
        ),
        _ => entry.refuse("format is the number of the file's layout", "not a layout", "Write  format = 1, or leave the line out."),
    }
}

fn title(root: &Section<'_>, name: &str) -> String {
    let stem = || {
        let stem = name.strip_suffix(".toml").unwrap_or(name);
        section::shorten(&stem.replace(['-', '_'], " "))
    };
    let Some(entry) = root.entry("shoot") else { return stem() };
    match entry.text("a title in quotes", "\"Sitting room\"") {
        Some(text) if !text.trim().is_empty() => section::shorten(text),
        _ => stem(),
    }
}

fn missing_part(root: &Section<'_>, title: &str, example: &str) {
    root.log.problem(
        Problem::new(format!("the part {title} is missing"))
            .help(format!("Add a line that says {title}, and below it at least {example}.")),
    );
}

fn empty_ask(log: &Log) -> Section<'_> {
    static NOTHING: std::sync::LazyLock<toml::de::DeTable<'static>> = std::sync::LazyLock::new(Default::default);
    Section::new(&parts::ASK, &NOTHING, 0..0, log)
}

/// The sitters that could be read, and whether that is all of them.
fn read_sitters(
    root: &Section<'_>,
    room: Option<&scene::BoxRoom>,
    camera: Option<&CameraRead>,
) -> (Vec<Said<Sitter>>, bool) {
    if root.entry("sitter").is_none() {
        missing_part(root, "[[sitter]]", "from_left = \"2.0 m\" and from_behind = \"4.0 m\"");
        return (Vec::new(), false);
    }
    let mut sections = root.parts("sitter", &parts::SITTER);
    if let Some(extra) = sections.get(MOST_SITTERS) {
        root.log.problem(
            Problem::new(format!("more than {MOST_SITTERS} sitters"))
                .at(extra.span.clone(), "one too many")
                .help("One small flash cannot light a crowd; describe those whose light matters."),
        );
        sections.truncate(MOST_SITTERS);
    }
    for section in &sections {
        section.close(parts::ALL);
    }
    let read: Vec<_> = sections.iter().map(|section| sitters::read(section, room, camera)).collect();
    let complete = !read.is_empty() && read.iter().all(Option::is_some);
    (read.into_iter().flatten().collect(), complete)
}

fn read_ambients(root: &Section<'_>, place: Option<&PlaceRead>) -> Vec<Said<Ambient>> {
    let sections = root.parts("ambient", &parts::AMBIENT);
    let read = |section: &Section<'_>| {
        section.close(parts::ALL);
        ambient::read(section, place)
    };
    sections.iter().filter_map(read).collect()
}

/// The clock around the first sitter.
fn clock(camera: Option<&CameraRead>, sitters: &[Said<Sitter>]) -> Option<Clock> {
    let (camera, first) = (camera?, sitters.first()?);
    let middle = first.value.face();
    let to_camera = lens(camera, &first.value) - middle;
    Some(Clock { middle, to_camera })
}

/// The lens, level with the first sitter's face when no height was said.
fn lens(camera: &CameraRead, first: &Sitter) -> Vec3 {
    camera.at.extend(camera.height.unwrap_or(first.face_height))
}

fn viewpoint(camera: &CameraRead, position: Vec3, sitters: &[Said<Sitter>]) -> Viewpoint {
    let faces = sitters.iter().map(|sitter| sitter.value.face());
    let middle = faces.sum::<Vec3>() / sitters.len().max(1) as f32;
    Viewpoint {
        position,
        look_at: camera.aim.unwrap_or(middle),
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
    }
}

fn check_names(
    log: &Log,
    place: Option<&PlaceRead>,
    panels: &[Said<Panel>],
    sitters: &[Said<Sitter>],
    bag: Option<&BagRead>,
    ambients: &[Said<Ambient>],
    root: &Section<'_>,
) {
    let said = |name: &str, span: &Span| Said { value: name.to_owned(), span: span.clone() };
    let mut standing: Vec<Said<String>> = Vec::new();
    if let Some(place) = place {
        let openings: Vec<_> = place.openings.iter().map(|o| said(&o.value.name, &o.span)).collect();
        checks::names(log, "openings", &openings);
        standing.extend(place.blocks.iter().map(|block| said(&block.value.name, &block.span)));
    }
    standing.extend(panels.iter().map(|panel| said(&panel.value.name, &panel.span)));
    standing.extend(bag.into_iter().flat_map(|bag| bag.boards.clone()));
    checks::names(log, "things", &standing);
    let people: Vec<_> = sitters.iter().map(|sitter| said(&sitter.value.name, &sitter.span)).collect();
    checks::names(log, "sitters", &people);
    let lights: Vec<_> = root
        .parts("ambient", &parts::AMBIENT)
        .iter()
        .zip(ambients)
        .filter(|_| root.parts("ambient", &parts::AMBIENT).len() == ambients.len())
        .map(|(section, ambient)| said(&ambient.value.name, &section.name("ambient").span))
        .collect();
    checks::names(log, "ambient lights", &lights);
}

#[allow(clippy::too_many_arguments)]
fn check_together(
    log: &Log,
    place: Option<&PlaceRead>,
    camera: Option<&CameraRead>,
    lens: Option<Vec3>,
    sitters: &[Said<Sitter>],
    panels: &[Said<Panel>],
    bag: Option<&BagRead>,
    ask: Option<&AskRead>,
    ambients: &[Said<Ambient>],
) {
    if let (Some(place), Some(camera), Some(lens)) = (place, camera, lens) {
        checks::positions(log, place, camera, lens, sitters, ask);
        checks::sight(log, place, lens, sitters, panels);
    }
    let Some(ask) = ask else { return };
    if let Some(camera) = camera {
        camera::check_settings(log, camera, ask.aperture.as_ref(), ask.shutter.as_ref(), ask.iso.as_ref());
    }
    if let Some(bag) = bag {
        bag::check_in_hand(log, bag, ask.in_hand.as_ref());
    }
    checks::wishes(log, ask, ambients);
}

/// Warnings in the order of the file, each with its line.
fn with_lines(text: &str, mut warnings: Vec<(usize, String)>) -> Vec<String> {
    warnings.sort_by_key(|(position, _)| *position);
    let line = |position: usize| 1 + text.bytes().take(position).filter(|byte| *byte == b'\n').count();
    warnings.into_iter().map(|(position, warning)| format!("line {}: {warning}", line(position))).collect()
}
