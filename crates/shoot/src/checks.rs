//! What can only be seen when the parts are put together: things in one another, and wishes that contradict.

use super::ask::AskRead;
use super::bag::BagRead;
use super::camera::CameraRead;
use super::nearest::plain;
use super::place::PlaceRead;
use super::problem::{Problem, Span};
use super::section::{Log, Said};
use super::sitters::SitterRead;
use super::words::{Words, fixed, stops_to_tenths};
use crate::both;
use answer::{Ambient, AmbientLevel, AmbientWish, FlashStand, MeterFacing};
use glam::{Vec2, Vec3};
use scene::figure::Posture;
use scene::{Block, Panel, Sitter};
use units::{Ev, PowerFraction, Stops};

/// Nearest that two people's heads can be, in metres; the same as where the scene is put together.
const HEADS_APART: f32 = 0.3;
/// Half a head and a little hair, in metres (ours).
const HEAD_ROOM: f32 = 0.15;
/// Nearest working distance of a portrait, in metres (ours).
const NEAREST: f32 = 0.3;

/// Names that the answer uses to tell things apart.
pub(crate) fn names<'n>(log: &Log, what: &Words, names: impl IntoIterator<Item = &'n Said<String>>) {
    let names: Vec<&Said<String>> = names.into_iter().collect();
    for (index, this) in names.iter().enumerate() {
        if let Some(other) = names[..index]
            .iter()
            .find(|other| plain(&other.value) == plain(&this.value))
        {
            log.problem(
                Problem::new(both!("there are two {} with the name \"{}\"", what, this.value; "es gibt zwei {} mit dem Namen \"{}\""))
                    .at(this.span.clone(), both!("the second one"; "das zweite Mal"))
                    .at(other.span.clone(), both!("the first one"; "das erste Mal"))
                    .help(both!(
                        "Give each its own name; the answer speaks of them by name.";
                        "Jedem einen eigenen Namen geben; die Antwort nennt sie beim Namen."
                    )),
            );
        }
    }
}

/// Camera, sitters and flash among the furniture and the walls.
pub(crate) fn positions(
    log: &Log,
    place: &PlaceRead,
    camera: &CameraRead,
    lens: Vec3,
    sitters: &[SitterRead],
    ask: Option<&AskRead>,
) {
    if let Some(block) = place.blocks.iter().find(|block| holds(&block.value, lens)) {
        log.problem(
            Problem::new(both!(
                "the camera is inside the furniture \"{}\"", block.value.name;
                "die Kamera steckt im Möbelstück \"{}\""
            ))
                .at(camera.left.clone(), both!("the camera"; "die Kamera"))
                .at(block.span.clone(), both!("the furniture"; "das Möbelstück"))
                .help(both!(
                    "Move one of them. The distances of furniture are to its nearest corner, those of the camera to its lens.";
                    "Eins davon verrücken. Die Abstände von Möbeln gehen zu ihrer nächsten Ecke, die der Kamera zu ihrem Objektiv."
                )),
        );
    }
    for (index, sitter) in sitters.iter().enumerate() {
        sitter_alone(log, place, camera, sitter);
        for other in &sitters[..index] {
            if flat(other.value.stand).distance(flat(sitter.value.stand)) < HEADS_APART {
                log.problem(
                    Problem::new(both!(
                        "\"{}\" and \"{}\" are in the same place", other.value.name, sitter.value.name;
                        "\"{}\" und \"{}\" sind am selben Platz"
                    ))
                    .at(sitter.left.clone(), both!("this sitter"; "diese Person"))
                    .at(other.left.clone(), both!("and this one"; "und diese"))
                    .help(both!(
                        "Set them at least {} apart.", log.length(HEADS_APART.into());
                        "Sie mindestens {} auseinander setzen."
                    )),
                );
            }
        }
    }
    if let Some(AskRead {
        ask,
        stand: Some(span),
        ..
    }) = ask
        && let FlashStand::At(flash) = ask.stand
        && let Some(block) = place.blocks.iter().find(|block| holds(&block.value, flash))
    {
        log.problem(
            Problem::new(both!(
                "the flash is inside the furniture \"{}\"", block.value.name;
                "der Blitz steckt im Möbelstück \"{}\""
            ))
            .at(span.clone(), both!("the flash"; "der Blitz"))
            .at(block.span.clone(), both!("the furniture"; "das Möbelstück"))
            .help(both!(
                "Move one of them, or raise the flash above it.";
                "Eins davon verrücken, oder den Blitz darüber heben."
            )),
        );
    }
}

fn sitter_alone(log: &Log, place: &PlaceRead, camera: &CameraRead, said: &SitterRead) {
    let sitter = &said.value;
    let (at, size) = (flat(sitter.stand), place.room.size);
    let (across, along) = (at.x.min(size.x - at.x), at.y.min(size.y - at.y));
    let (to_wall, line) = if across < along {
        (across, &said.left)
    } else {
        (along, &said.behind)
    };
    if (0.0..HEAD_ROOM).contains(&to_wall) {
        log.problem(
            Problem::new(both!("the head of \"{}\" is in the wall", sitter.name; "der Kopf von \"{}\" steckt in der Wand"))
                .at(line.clone(), both!("{} from it", log.length(to_wall.into()); "{} von ihr"))
                .help(both!(
                    "Distances are to the middle of the head: set it at least {} from the wall.", log.length(HEAD_ROOM.into());
                    "Abstände gehen zur Mitte des Kopfs: ihn mindestens {} von der Wand entfernt setzen."
                )),
        );
    }
    if sitter.face_height <= size.z && sitter.face_height + 0.1 > size.z {
        log.problem(
            Problem::new(both!(
                "the head of \"{}\" is in the ceiling", sitter.name;
                "der Kopf von \"{}\" steckt in der Decke"
            ))
                .at(
                    said.name.clone(),
                    both!("face at {}", log.length(sitter.face_height.into()); "Gesicht auf {}"),
                )
                .help(both!(
                    "The ceiling is at {}; check face_height and the size of the room.", log.length(size.z.into());
                    "Die Decke ist auf {}; face_height und die Maße des Raums prüfen."
                )),
        );
    }
    if let Some(block) = place
        .blocks
        .iter()
        .find(|block| body_inside(&block.value, sitter))
    {
        log.problem(
            Problem::new(both!(
                "\"{}\" is inside the furniture \"{}\"", sitter.name, block.value.name;
                "\"{}\" steckt im Möbelstück \"{}\""
            ))
            .at(said.left.clone(), both!("the sitter"; "die Person"))
            .at(block.span.clone(), both!("the furniture"; "das Möbelstück"))
            .help(both!(
                "Move one of them, or say posture = \"sitting\" for someone on a seat.";
                "Eins davon verrücken, oder posture = \"sitting\" für jemanden auf einem Sitz schreiben."
            )),
        );
    }
    let apart = camera.at - at;
    if apart.length() < NEAREST {
        log.problem(
            Problem::new(both!("the camera is too near to \"{}\"", sitter.name; "die Kamera ist zu nah an \"{}\""))
                .at(
                    said.behind.clone(),
                    both!("{} away", log.length(apart.length().into()); "{} entfernt"),
                )
                .at(camera.behind.clone(), both!("the camera"; "die Kamera"))
                .help(both!(
                    "Both distances are from the same two walls; a portrait is made from 1 to 3 m away.";
                    "Beide Abstände gehen von denselben zwei Wänden aus; ein Porträt entsteht aus 1 bis 3 m Entfernung."
                )),
        );
    } else if at.y <= camera.at.y {
        log.problem(
            Problem::new(both!("\"{}\" is not in front of the camera", sitter.name; "\"{}\" ist nicht vor der Kamera"))
                .at(said.behind.clone(), both!(
                    "{} from the wall behind the camera", log.length(at.y.into());
                    "{} von der Wand hinter der Kamera"
                ))
                .at(camera.behind.clone(), both!("the camera is {} from it", log.length(camera.at.y.into()); "die Kamera ist {} von ihr"))
                .help(both!(
                    "The camera looks away from the wall behind it, so the sitter's from_behind is the larger one.";
                    "Die Kamera blickt von der Wand hinter ihr weg, darum ist from_behind der Person das größere."
                )),
        );
    } else if apart.x.abs() > (at.y - camera.at.y) * 1.2 {
        let text = both!(
            "\"{}\" is far to the side of the camera; the walls are named as if it looked straight along the room", sitter.name;
            "\"{}\" ist weit seitlich der Kamera; die Wände heißen so, als blickte sie gerade den Raum entlang"
        );
        log.warn(&said.left, text);
    }
}

fn flat(point: Vec3) -> Vec2 {
    point.truncate()
}

fn holds(block: &Block, point: Vec3) -> bool {
    (point.cmpgt(block.min) & point.cmplt(block.max)).all()
}

/// Whether furniture stands where the body is; a seat under someone sitting is no contradiction.
fn body_inside(block: &Block, sitter: &Sitter) -> bool {
    let seat = if sitter.recipe.posture == Posture::Sitting {
        0.65
    } else {
        0.25
    };
    let at = sitter.stand.with_z(0.5 * (block.min.z + block.max.z));
    holds(block, at) && block.max.z > seat && block.min.z < sitter.face_height + 0.2
}

/// Things that stand between the lens and a face are allowed, but seldom meant.
pub(crate) fn sight(
    log: &Log,
    place: &PlaceRead,
    lens: Vec3,
    sitters: &[SitterRead],
    panels: &[Said<Panel>],
) {
    for sitter in sitters {
        let face = sitter.value.face();
        let furniture = place
            .blocks
            .iter()
            .filter(|block| crosses_block(&block.value, lens, face));
        let boards = panels
            .iter()
            .filter(|panel| crosses_panel(&panel.value, lens, face));
        let names = furniture
            .map(|block| &block.value.name)
            .chain(boards.map(|panel| &panel.value.name));
        for name in names {
            log.warn(
                &sitter.left,
                both!(
                    "\"{name}\" hides the face of \"{}\" from the camera", sitter.value.name;
                    "\"{name}\" verdeckt der Kamera das Gesicht von \"{}\""
                ),
            );
        }
    }
}

/// The slab test of a line from `from` to `to` against a box.
fn crosses_block(block: &Block, from: Vec3, to: Vec3) -> bool {
    let along = to - from;
    let (mut enter, mut leave) = (0.0f32, 1.0f32);
    for axis in 0..3 {
        if along[axis].abs() < 1e-6 {
            if from[axis] < block.min[axis] || from[axis] > block.max[axis] {
                return false;
            }
            continue;
        }
        let (a, b) = (
            (block.min[axis] - from[axis]) / along[axis],
            (block.max[axis] - from[axis]) / along[axis],
        );
        enter = enter.max(a.min(b));
        leave = leave.min(a.max(b));
    }
    enter < leave
}

fn crosses_panel(panel: &Panel, from: Vec3, to: Vec3) -> bool {
    let normal = panel.normal.normalize_or_zero();
    let (before, after) = ((from - panel.centre).dot(normal), (to - panel.centre).dot(normal));
    if before * after >= 0.0 {
        return false;
    }
    let hit = from.lerp(to, before / (before - after));
    let (corner, a, b) = panel.frame();
    let within = |edge: Vec3| (0.0..=edge.length_squared()).contains(&(hit - corner).dot(edge));
    within(a) && within(b)
}

/// What to do about a wish for light that nobody described.
fn describe_the_light() -> Words {
    both!(
        "Add a part [[ambient]] with its reading, such as reading = \"EV 5\", or leave this line out.";
        "Einen Teil [[ambient]] mit Messwert hinzufügen, etwa reading = \"EV 5\", oder diese Zeile weglassen."
    )
}

/// A flash that is asked to fill needs light that it fills.
fn check_fill(log: &Log, ask: &AskRead, span: &Span, dark: bool) {
    let problem = |words| Problem::new(words).at(span.clone(), both!("asked for here"; "hier verlangt"));
    if dark {
        log.problem(
            problem(both!(
                "the flash is to fill, but no light that is there is described";
                "der Blitz soll aufhellen, aber kein vorhandenes Licht ist beschrieben"
            ))
            .help(describe_the_light()),
        );
    } else if ask.ask.ambient == AmbientWish::Out {
        log.problem(
            problem(both!(
                "the flash cannot fill light that is kept out of the picture";
                "der Blitz kann kein Licht aufhellen, das nicht im Bild sein soll"
            ))
            .help(both!(
                "Leave out fill, or  ambient = \"out\".";
                "fill weglassen, oder  ambient = \"out\"."
            )),
        );
    }
}

/// Wishes that contradict the light that is there. How strong daylight is shows only when it is computed, so
/// under it only what is too bright without it is a contradiction.
pub(crate) fn wishes(log: &Log, ask: &AskRead, ambients: &[Said<Ambient>], daylight: bool, filters: bool) {
    if let Some(span) = &ask.fill {
        check_fill(log, ask, span, ambients.is_empty() && !daylight);
    }
    let Some(span) = &ask.ambient else { return };
    if ambients.is_empty() {
        if daylight {
            return;
        }
        if let AmbientWish::Offset(stops) = ask.ask.ambient {
            log.problem(
                Problem::new(both!("ambient light at {} is asked for, but none is described", stops; "vorhandenes Licht bei {} ist verlangt, aber keins ist beschrieben"))
                    .at(span.clone(), both!("asked for here"; "hier verlangt"))
                    .help(describe_the_light()),
            );
        }
        return;
    }
    let (Some(aperture), Some(shutter), Some(iso)) = (&ask.aperture, &ask.shutter, &ask.iso) else {
        return;
    };
    let readings: Option<Vec<Ev>> = ambients
        .iter()
        .map(|ambient| match ambient.value.reading {
            AmbientLevel::Reading(level) => Some(level),
            // What a lamp brings to the face is not known before the room is solved.
            AmbientLevel::Lumens(_) => None,
        })
        .collect();
    let Some(readings) = readings else { return };
    // A reading towards the light is more than what a dome towards the camera gets, so it proves nothing here.
    // A filter on the lens can still bring it down.
    if filters {
        return;
    }
    if ambients
        .iter()
        .any(|ambient| ambient.value.facing != MeterFacing::Camera)
    {
        return;
    }
    let set = 2.0 * aperture.value.value().log2()
        - shutter.value.value().log2()
        - (iso.value.value() / 100.0).log2();
    let light: f64 = readings.iter().map(|level| (level.value() - set).exp2()).sum();
    let got = Stops::from_factor(light);
    let (contradicts, asked) = match ask.ask.ambient {
        AmbientWish::Out => (
            got.value() > -2.67,
            both!("out of the picture, so at least 3 stops under"; "nicht im Bild, also mindestens 3 Blenden darunter"),
        ),
        AmbientWish::Offset(wanted) => {
            let off = (got - wanted).value();
            (
                off > 0.5 || (off < -0.5 && !daylight),
                both!("at {}", wanted; "bei {}"),
            )
        }
        AmbientWish::Any => (false, Words::default()),
    };
    if contradicts {
        log.problem(
            Problem::new(both!(
                "aperture, shutter and ISO are all fixed, and put the ambient light at {}", stops_to_tenths(got);
                "Blende, Verschlusszeit und ISO stehen alle fest und bringen das vorhandene Licht auf {}"
            ))
            .at(span.clone(), both!("asked for {}", asked; "verlangt {}"))
            .at(shutter.span.clone(), both!("fixed here, with aperture and ISO"; "hier festgelegt, mit Blende und ISO"))
            .help(both!(
                "Leave out one of aperture, shutter and iso, or write  ambient = \"any\"";
                "Eins von aperture, shutter und iso weglassen, oder  ambient = \"any\"  schreiben."
            )),
        );
    }
}

/// Limits against the bag and the people.
pub(crate) fn limits(log: &Log, ask: &AskRead, bag: Option<&BagRead>, sitters: &[SitterRead]) {
    if let Some(span) = &ask.evenness
        && sitters.len() == 1
    {
        log.warn(
            span,
            both!(
                "evenness compares faces, and there is only one";
                "evenness vergleicht Gesichter, und es gibt nur eins"
            ),
        );
    }
    let Some(bag) = bag else { return };
    check_recycle(log, ask, bag);
    let nobody = bag.bag.helpers == 0 && !bag.bag.stand;
    if let Some(span) = &ask.stand
        && ask.ask.stand == FlashStand::Anywhere
        && nobody
    {
        log.problem(
            Problem::new(both!(
                "the flash may be anywhere, but nothing and nobody is there to hold it";
                "der Blitz darf überall stehen, aber nichts und niemand ist da, ihn zu halten"
            ))
                .at(span.clone(), both!("off the camera"; "nicht auf der Kamera"))
                .help(both!(
                    "Add  stand = true  or  helpers = 1  under [bag], or write  flash = \"on camera\"";
                    "stand = true  oder  helpers = 1  unter [bag] hinzufügen, oder  flash = \"on camera\"  schreiben."
                )),
        );
    }
}

/// The wait that is asked for, against the shortest that the flash has.
fn check_recycle(log: &Log, ask: &AskRead, bag: &BagRead) {
    let Some(asked) = &ask.recycle else { return };
    let flash = &bag.bag.flash;
    let least = flash.least_power_stops();
    let shortest = flash.recycle_s(least);
    if asked.value < shortest {
        let power = PowerFraction::from_stops_below_full(least)
            .map_or_else(|_| Words::default(), |power| both!(" at {}", power; " bei {}"));
        let mut problem = Problem::new(both!(
            "the flash is never ready after {} s", asked.value;
            "der Blitz ist nach {} s nie bereit"
        ))
        .at(
            asked.span.clone(),
            both!("even{} it takes {} s", power, fixed(shortest, 2); "selbst{} braucht er {} s"),
        );
        if let Some(span) = &bag.recycle {
            problem = problem.at(
                span.clone(),
                both!("its time after a full flash"; "seine Zeit nach voller Leistung"),
            );
        }
        log.problem(problem.help(both!(
            "Allow a longer wait, or check \"recycle\" and \"least_power\" under [bag.flash].";
            "Eine längere Pause erlauben, oder \"recycle\" und \"least_power\" unter [bag.flash] prüfen."
        )));
    } else if bag.recycle.is_none() {
        log.warn(
            &asked.span,
            both!(
                "recycle of the flash not said, so taken as {} s after full power", fixed(flash.recycle_s(0.0), 1);
                "recycle des Blitzes nicht genannt, darum als {} s nach voller Leistung angenommen"
            ),
        );
    }
}
