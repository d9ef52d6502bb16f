//! `[place]`: the room, what its walls are made of, and what stands in it.

use super::nearest::plain;
use super::parts::{FURNITURE, OPENING, POINT, STANDING_BOARD};
use super::problem::{Problem, Span};
use super::section::{Entry, Said, Section};
use super::surface;
use super::words::{Noun, Words, write_it_like};
use crate::both;
use colour::Spectrum;
use glam::{Vec2, Vec3};
use scene::{Block, BoxRoom, Face, Material, Opening, OpeningKind, Panel};
use std::f32::consts::PI;
use toml::de::DeValue;
use units::Degrees;

/// The sides of a room that can be computed, in metres (ours): a cupboard to a sports hall.
const ROOM_SIDES: (f64, f64) = (1.0, 60.0);

/// Everything of the place except the boards, which need to know where the sitter is.
pub(crate) struct PlaceRead {
    pub room: BoxRoom,
    pub openings: Vec<Said<Opening>>,
    pub blocks: Vec<Said<Block>>,
}

/// What an opening can be.
pub(crate) const OPENING_KINDS: &[(&str, OpeningKind)] = &[
    ("window", OpeningKind::Window),
    ("doorway", OpeningKind::Doorway),
    ("door", OpeningKind::Doorway),
    ("open", OpeningKind::Open),
    ("open door", OpeningKind::Open),
    ("open window", OpeningKind::Open),
    ("net curtain", OpeningKind::NetCurtain),
    ("window with net curtain", OpeningKind::NetCurtain),
];

/// Words for the walls, for openings.
pub(crate) const WALLS: &[(&str, Face)] = &[
    ("left", Face::Left),
    ("right", Face::Right),
    ("behind camera", Face::BehindCamera),
    ("behind sitter", Face::BehindSitter),
];

pub(crate) fn read(section: &Section<'_>) -> Option<PlaceRead> {
    section.close(super::parts::ALL);
    let size = section.need("room", "\"5.5 x 4.4 x 2.6 m\"").and_then(|entry| {
        let order = &both!(
            "length (camera towards sitter) x width x ceiling";
            "Länge (von der Kamera zur Person) x Breite x Deckenhöhe"
        );
        entry.size::<3>(order, "5.5 x 4.4 x 2.6 m", ROOM_SIDES.0, ROOM_SIDES.1)
    });
    let (materials, open) = faces(section);
    let room = size.map(
        |Said {
             value: [length, width, height],
             ..
         }| BoxRoom {
            size: Vec3::new(width, length, height),
            materials,
        },
    );
    let known = room.as_ref();
    let mut openings: Vec<_> = section
        .parts("opening", &OPENING)
        .iter()
        .filter_map(|part| opening(part, known))
        .collect();
    if let Some(room) = known {
        openings.extend(open.iter().map(|side| Said {
            value: Opening::whole(room, side.value),
            span: side.span.clone(),
        }));
    }
    let blocks = section
        .parts("furniture", &FURNITURE)
        .iter()
        .filter_map(|part| furniture(part, known))
        .collect();
    let room = room?;
    check_openings(section, &openings);
    Some(PlaceRead {
        room,
        openings,
        blocks,
    })
}

/// A side without a wall.
const OPEN: &str = "open";

/// The six faces, and those that are open; what is not said is taken as an ordinary painted room, under an
/// open sky as a lawn without walls, and said in a warning.
fn faces(section: &Section<'_>) -> ([Material; 6], Vec<Said<Face>>) {
    let is_open = |entry: &Entry<'_>| matches!(entry.value, DeValue::String(text) if plain(text) == OPEN);
    let outdoors = section.entry("ceiling").is_some_and(|entry| is_open(&entry));
    let (wall, floor) = if outdoors {
        (OPEN, "grass")
    } else {
        ("light grey paint", "wood floor")
    };
    let faces = [
        (Face::Left, "left", wall),
        (Face::Right, "right", wall),
        (Face::BehindCamera, "behind_camera", wall),
        (Face::BehindSitter, "behind_sitter", wall),
        (Face::Ceiling, "ceiling", "white paint"),
        (Face::Floor, "floor", floor),
    ];
    let mut unsaid = Vec::new();
    let mut open = Vec::new();
    let nothing = || Material::matt(OPEN, Spectrum::ZERO);
    let materials = faces.map(|(face, key, otherwise)| match section.entry(key) {
        Some(entry) if is_open(&entry) && face == Face::Floor => {
            entry.refuse(
                both!("there must be something to stand on"; "auf irgendetwas muss man stehen"),
                both!("not open"; "nicht offen"),
                both!(
                    "Name the ground, such as  floor = \"grass\"";
                    "Den Boden nennen, etwa  floor = \"grass\""
                ),
            );
            surface::known(floor)
        }
        Some(entry) if is_open(&entry) => {
            open.push(Said {
                value: face,
                span: entry.span.clone(),
            });
            nothing()
        }
        Some(entry) => surface::read(&entry)
            .or_else(|| surface::find(otherwise))
            .unwrap_or_else(nothing),
        None => {
            unsaid.push(both!("{key} as {otherwise}"; "{key} als {otherwise}"));
            if otherwise == OPEN {
                open.push(Said {
                    value: face,
                    span: section.span.clone(),
                });
            }
            surface::find(otherwise).unwrap_or_else(nothing)
        }
    });
    if !unsaid.is_empty() {
        section.log.warn(
            &section.span,
            both!(
                "not said, so taken as usual: {}", Words::joined(&unsaid, ", ");
                "nicht genannt, darum wie üblich angenommen: {}"
            ),
        );
    }
    (materials, open)
}

fn opening(section: &Section<'_>, room: Option<&BoxRoom>) -> Option<Said<Opening>> {
    section.close(super::parts::ALL);
    let name = section.name("opening");
    let face = section
        .need("wall", "\"right\"")
        .and_then(|entry| entry.word(Noun::eine("a wall", "Wand"), WALLS));
    let along = section
        .need("from_left_end", "\"0.5 m\"")
        .and_then(|entry| entry.length(Noun::ein("this distance", "Abstand vom Wandende"), 0.0, 60.0));
    let up = match section.entry("from_floor") {
        Some(entry) => {
            entry
                .length(Noun::eine("this height", "Höhe über dem Boden"), 0.0, 60.0)?
                .value
        }
        None => 0.0,
    };
    let size = section.need("size", "\"1.2 x 1.4 m\"").and_then(|entry| {
        entry.size::<2>(
            &both!("width x height"; "Breite x Höhe"),
            "1.2 x 1.4 m",
            0.05,
            60.0,
        )
    });
    let kind = section
        .need("kind", "\"window\"")
        .and_then(|entry| entry.word(Noun::eine("a kind of opening", "Art von Öffnung"), OPENING_KINDS));
    let (face, along, size, kind) = (face?, along?, size?, kind?);
    let opening = Opening {
        name: name.value,
        face: face.value,
        from: Vec2::new(along.value, up),
        size: Vec2::from(size.value),
        kind: kind.value,
    };
    if let Some(room) = room {
        check_opening_fits(section, room, &opening, &size.span);
    }
    Some(Said {
        value: opening,
        span: name.span,
    })
}

fn check_opening_fits(section: &Section<'_>, room: &BoxRoom, opening: &Opening, size: &Span) {
    let (_, along, up) = room.face_frame(opening.face);
    let log = section.log;
    let wall = side_words(opening.face);
    let ends = [
        (
            opening.from.x + opening.size.x,
            along.length(),
            both!("along the {}", wall; "an der Wand entlang ({})"),
            both!("long"; "lang"),
            "from_left_end",
        ),
        (
            opening.from.y + opening.size.y,
            up.length(),
            both!("up the {}", wall; "an der Wand hinauf ({})"),
            both!("high"; "hoch"),
            "from_floor",
        ),
    ];
    for (end, limit, direction, extent, key) in ends {
        if end > limit + 1e-3 {
            let (end, limit) = (f64::from(end), f64::from(limit));
            let over = log.length(end - limit);
            log.problem(
                Problem::new(both!(
                    "the opening \"{}\" is larger than its wall", opening.name;
                    "die Öffnung \"{}\" ist größer als ihre Wand"
                ))
                .at(
                    size.clone(),
                    both!("reaches {} {}", log.length(end), direction; "reicht {} {}"),
                )
                .help(both!(
                    "The {} is {} {}: make the opening {} smaller, or {key} less.", wall, log.length(limit), extent, over;
                    "Die {} ist {} {}: die Öffnung um {} kleiner machen, oder {key} verringern."
                )),
            );
        }
    }
}

/// A side of the room, without its article.
pub(crate) fn side_words(side: Face) -> Words {
    match side {
        Face::Left => both!("left wall"; "linke Wand"),
        Face::Right => both!("right wall"; "rechte Wand"),
        Face::BehindCamera => both!("wall behind the camera"; "Wand hinter der Kamera"),
        Face::BehindSitter => both!("wall behind the sitter"; "Wand hinter der Person"),
        Face::Ceiling => both!("ceiling"; "Decke"),
        Face::Floor => both!("floor"; "Boden"),
    }
}

/// A side of the room that something goes through.
fn through(side: Face) -> Words {
    match side {
        Face::Floor => both!("through the floor"; "durch den Boden"),
        side => both!("through the {}", side_words(side); "durch die {}"),
    }
}

/// Openings must lie beside one another.
fn check_openings(section: &Section<'_>, openings: &[Said<Opening>]) {
    for (index, this) in openings.iter().enumerate() {
        for other in &openings[..index] {
            let (a, b) = (&this.value, &other.value);
            let apart = |axis: usize| {
                a.from[axis] + a.size[axis] <= b.from[axis] + 1e-3
                    || b.from[axis] + b.size[axis] <= a.from[axis] + 1e-3
            };
            if a.face == b.face && !apart(0) && !apart(1) {
                section.log.problem(
                    Problem::new(both!(
                        "the openings \"{}\" and \"{}\" lie over one another", b.name, a.name;
                        "die Öffnungen \"{}\" und \"{}\" liegen übereinander"
                    ))
                    .at(this.span.clone(), both!("this one"; "diese"))
                    .at(other.span.clone(), both!("and this one"; "und diese"))
                    .help(both!(
                        "Move one of them along the wall, or describe both as one opening.";
                        "Eine davon an der Wand verschieben, oder beide als eine Öffnung beschreiben."
                    )),
                );
            }
        }
    }
}

fn furniture(section: &Section<'_>, room: Option<&BoxRoom>) -> Option<Said<Block>> {
    section.close(super::parts::ALL);
    let name = section.name("furniture");
    let size = section.need("size", "\"1.2 x 0.5 x 1.9 m\"").and_then(|entry| {
        entry.size::<3>(
            &both!("width x depth x height"; "Breite x Tiefe x Höhe"),
            "1.2 x 0.5 x 1.9 m",
            0.01,
            60.0,
        )
    });
    let left = distance(section, "from_left", room, 0);
    let behind = distance(section, "from_behind", room, 1);
    let floor = match section.entry("from_floor") {
        Some(entry) => height(&entry, room)?,
        None => 0.0,
    };
    let material = surface::said_or(section, "surface", "furniture")?;
    let (size, left, behind) = (size?, left?, behind?);
    let min = Vec3::new(left, behind, floor);
    let block = Block {
        name: name.value,
        min,
        max: min + Vec3::from(size.value),
        material,
    };
    if let Some(room) = room {
        let beyond = [
            (both!("right"; "nach rechts"), Face::Right),
            (
                both!("towards the wall behind the sitter"; "zur Wand hinter der Person"),
                Face::BehindSitter,
            ),
            (both!("up"; "nach oben"), Face::Ceiling),
        ];
        for (axis, (way, side)) in beyond.into_iter().enumerate() {
            let over = block.max[axis] - room.size[axis];
            if over > 1e-3 {
                section.log.problem(
                    Problem::new(both!(
                        "the furniture \"{}\" does not fit into the room", block.name;
                        "das Möbelstück \"{}\" passt nicht in den Raum"
                    ))
                    .at(
                        size.span.clone(),
                        both!("{} too far {}", section.log.length(over.into()), way; "{} zu weit {}"),
                    )
                    .help(both!(
                        "It would go {}. Its size is width x depth x height, and its distances are measured to its nearest corner.",
                        through(side);
                        "Es ginge {}. Seine Größe ist Breite x Tiefe x Höhe, und seine Abstände gehen zu seiner nächsten Ecke."
                    )),
                );
            }
        }
    }
    Some(Said {
        value: block,
        span: name.span,
    })
}

/// A distance from the left wall (axis 0) or from the wall behind the camera (axis 1), inside the room.
pub(crate) fn distance(
    section: &Section<'_>,
    key: &'static str,
    room: Option<&BoxRoom>,
    axis: usize,
) -> Option<f32> {
    let example = format!("\"{}\"", section.log.written_length(2.0));
    let entry = section.need(key, &example)?;
    let said = entry.length(
        Noun::ein("a distance in a room", "Abstand im Raum"),
        0.0,
        ROOM_SIDES.1,
    )?;
    is_within(&entry, said.value, room, axis).then_some(said.value)
}

/// A height above the floor, inside the room.
pub(crate) fn height(entry: &Entry<'_>, room: Option<&BoxRoom>) -> Option<f32> {
    let said = entry.length(
        Noun::eine("a height in a room", "Höhe im Raum"),
        0.0,
        ROOM_SIDES.1,
    )?;
    is_within(entry, said.value, room, 2).then_some(said.value)
}

/// Whether a coordinate is inside the room; says so when it is not.
fn is_within(entry: &Entry<'_>, value: f32, room: Option<&BoxRoom>, axis: usize) -> bool {
    let Some(room) = room else { return true };
    let limit = room.size[axis];
    if value <= limit + 1e-4 {
        return true;
    }
    let limit = entry.log.length(limit.into());
    let (extent, help) = [
        (
            both!("the room is {} wide", limit; "der Raum ist {} breit"),
            both!(
                "from_left is measured from the left wall.";
                "from_left wird von der linken Wand aus gemessen."
            ),
        ),
        (
            both!("the room is {} long", limit; "der Raum ist {} lang"),
            both!(
                "from_behind is measured from the wall behind the camera.";
                "from_behind wird von der Wand hinter der Kamera aus gemessen."
            ),
        ),
        (
            both!("the ceiling is at {}", limit; "die Decke ist auf {}"),
            both!("Heights are measured from the floor."; "Höhen werden vom Boden aus gemessen."),
        ),
    ][axis]
        .clone();
    entry.refuse(
        both!("this is outside the room"; "das liegt außerhalb des Raums"),
        extent,
        both!("{} Check this line and the size of the room.", help; "{} Diese Zeile und die Maße des Raums prüfen."),
    );
    false
}

/// A point in the room.
pub(crate) fn point(section: &Section<'_>, room: Option<&BoxRoom>) -> Option<Said<Vec3>> {
    let left = distance(section, "from_left", room, 0);
    let behind = distance(section, "from_behind", room, 1);
    let example = format!("\"{}\"", section.log.written_length(2.2));
    let up = section
        .need("height", &example)
        .and_then(|entry| height(&entry, room));
    Some(Said {
        value: Vec3::new(left?, behind?, up?),
        span: section.span.clone(),
    })
}

/// A point written as a table in one line; anything else is refused with an example.
pub(crate) fn inline_point(entry: &Entry<'_>, room: Option<&BoxRoom>) -> Option<Said<Vec3>> {
    let Some(section) = Section::inline(entry, &POINT) else {
        let (near, far, high) = (
            entry.log.written_length(1.0),
            entry.log.written_length(2.0),
            entry.log.written_length(2.2),
        );
        entry.refuse(
            both!("\"{}\" needs a point in the room", entry.key; "zu \"{}\" gehört ein Punkt im Raum"),
            both!("not a point"; "kein Punkt"),
            write_it_like(&format!(
                "{} = {{ from_left = \"{near}\", from_behind = \"{far}\", height = \"{high}\" }}",
                entry.key
            )),
        );
        return None;
    };
    section.close(super::parts::ALL);
    point(&section, room)
}

/// Where the clock of the first sitter lies: its middle, and the direction of six o'clock.
pub(crate) struct Clock {
    pub middle: Vec3,
    pub to_camera: Vec3,
}

impl Clock {
    /// Level unit direction of an hour, seen from above with the camera at 6.
    pub fn direction(&self, hour: f32) -> Vec3 {
        let flat = self.to_camera.truncate().try_normalize().unwrap_or(Vec2::NEG_Y);
        // From six to seven the hand turns towards the camera's left.
        let turn = (hour - 6.0) * PI / 6.0;
        let (sin, cos) = (-turn).sin_cos();
        Vec3::new(flat.x * cos - flat.y * sin, flat.x * sin + flat.y * cos, 0.0)
    }
}

/// Reads a clock hour: `7`, `"7"`, `"7 o'clock"`, `"7:30"`.
pub(crate) fn hour(text: &str) -> Option<f32> {
    let text = text.trim().to_lowercase();
    let text = text
        .strip_suffix("o'clock")
        .or(text.strip_suffix("o’clock"))
        .unwrap_or(&text)
        .trim();
    let hour = match text.split_once(':') {
        Some((hour, minutes)) => {
            let (hour, minutes): (u32, u32) = (hour.parse().ok()?, minutes.parse().ok()?);
            if minutes >= 60 {
                return None;
            }
            hour as f32 + minutes as f32 / 60.0
        }
        None => text.parse::<f32>().ok()?,
    };
    (0.0..=12.99).contains(&hour).then_some(hour)
}

/// The boards that stand in the room or are held there.
pub(crate) fn boards(
    section: &Section<'_>,
    room: Option<&BoxRoom>,
    clock: Option<&Clock>,
) -> Vec<Said<Panel>> {
    section
        .parts("board", &STANDING_BOARD)
        .iter()
        .filter_map(|part| board(part, room, clock))
        .collect()
}

/// The size of a board, one that stands in the room or one from the bag.
pub(crate) fn board_size(section: &Section<'_>) -> Option<Said<[f32; 2]>> {
    section.need("size", "\"0.7 x 1.0 m\"")?.size(
        &both!("width x height"; "Breite x Höhe"),
        "0.7 x 1.0 m",
        0.05,
        20.0,
    )
}

fn board(section: &Section<'_>, room: Option<&BoxRoom>, clock: Option<&Clock>) -> Option<Said<Panel>> {
    section.close(super::parts::ALL);
    let name = section.name("board");
    let size = board_size(section);
    let left = distance(section, "from_left", room, 0);
    let behind = distance(section, "from_behind", room, 1);
    let up = section.entry("height").map(|entry| height(&entry, room));
    let held = section
        .entry("held")
        .map_or(Some(false), |entry| entry.yes_or_no());
    let front = surface::said_or(section, "surface", "white board");
    let back = section.entry("back").map(|entry| surface::read(&entry));
    let tilt = section.entry("tilt").map(|entry| tilt(&entry));
    let facing = section.entry("faces");
    let (size, left, behind, held) = (size?, left?, behind?, held?);
    let size_span = size.span.clone();
    let size = Vec2::from(size.value);
    let centre = Vec3::new(
        left,
        behind,
        match up {
            Some(up) => up?,
            None => 0.5 * size.y,
        },
    );
    let Some(clock) = clock else {
        // Where it faces is not known before camera and sitter are, but whether that was said in known words is.
        if let Some(entry) = facing {
            let anywhere = Clock {
                middle: centre + Vec3::Y,
                to_camera: Vec3::NEG_Y,
            };
            board_facing(&entry, centre, &anywhere);
        }
        return None;
    };
    let mut normal = match facing {
        Some(entry) => board_facing(&entry, centre, clock)?,
        None => clock.middle - centre,
    };
    // A standing board stands upright; a held one is leaned towards the face.
    if !held || tilt.is_some() {
        normal.z = 0.0;
    }
    let mut normal = normal.try_normalize().unwrap_or(Vec3::NEG_Y);
    if let Some(tilt) = tilt {
        let (sin, cos) = tilt?.sin_cos();
        normal = normal * cos + Vec3::Z * sin;
    }
    let front = front?;
    let back = match back {
        Some(back) => Some(back?),
        None => None,
    };
    let panel = Panel {
        name: name.value,
        centre,
        normal,
        up: Vec3::Z,
        size,
        front,
        back,
        held,
    };
    if let Some(room) = room {
        check_board_fits(section, room, &panel, &size_span);
    }
    Some(Said {
        value: panel,
        span: name.span,
    })
}

fn tilt(entry: &Entry<'_>) -> Option<f32> {
    let said = entry.quantity::<Degrees>()?;
    if said.value.value().abs() > 80.0 {
        entry.refuse(
            both!("a board that is tilted this far lies flat"; "eine so weit gekippte Tafel liegt flach"),
            both!("from -80° to 80° can be used"; "möglich: von -80° bis 80°"),
            both!(
                "0 deg is upright; positive leans its front towards the ceiling.";
                "0 deg ist aufrecht; positiv lehnt die Vorderseite zur Decke."
            ),
        );
        return None;
    }
    Some(said.value.radians() as f32)
}

/// Level or slanted direction of a board's front.
fn board_facing(entry: &Entry<'_>, centre: Vec3, clock: &Clock) -> Option<Vec3> {
    let text = match super::section::number_of(entry.value) {
        Some(number) => number.to_string(),
        None => entry
            .text(
                both!(
                    "\"sitter\", \"camera\" or a clock hour";
                    "\"sitter\", \"camera\" oder eine Uhrzeigerrichtung"
                ),
                "\"sitter\"",
            )?
            .to_owned(),
    };
    match plain(&text).as_str() {
        "sitter" | "the sitter" => Some(clock.middle - centre),
        "camera" | "the camera" => Some(clock.middle + clock.to_camera - centre),
        _ => match hour(&text) {
            Some(hour) => Some(clock.direction(hour)),
            None => {
                entry.unknown_word(
                    &text,
                    Noun::eine("a direction", "Richtung"),
                    ["sitter", "camera", "3 o'clock", "9 o'clock"],
                );
                None
            }
        },
    }
}

fn check_board_fits(section: &Section<'_>, room: &BoxRoom, panel: &Panel, size: &Span) {
    let (corner, a, b) = panel.frame();
    let corners = [corner, corner + a, corner + b, corner + a + b];
    let low = corners.iter().fold(Vec3::INFINITY, |low, p| low.min(*p));
    let high = corners.iter().fold(Vec3::NEG_INFINITY, |high, p| high.max(*p)) - room.size;
    let beyond = [
        (-low.x, Face::Left),
        (high.x, Face::Right),
        (-low.y, Face::BehindCamera),
        (high.y, Face::BehindSitter),
        (-low.z, Face::Floor),
        (high.z, Face::Ceiling),
    ];
    if let Some((over, side)) = beyond.into_iter().find(|(over, _)| *over > 0.005) {
        section.log.problem(
            Problem::new(both!(
                "the board \"{}\" goes {}", panel.name, through(side);
                "die Tafel \"{}\" geht {}"
            ))
            .at(
                size.clone(),
                both!("{} too far", section.log.length(over.into()); "{} zu weit"),
            )
            .help(both!(
                "from_left, from_behind and height say where its middle is. Move it into the room, or turn it.";
                "from_left, from_behind und height sagen, wo die Mitte ist. Die Tafel in den Raum rücken oder drehen."
            )),
        );
    }
}

#[cfg(test)]
mod tests {
    use super::{Clock, hour};
    use glam::Vec3;

    #[test]
    fn hours_are_read_as_photographers_say_them() {
        for (text, expected) in [
            ("7", Some(7.0)),
            ("7 o'clock", Some(7.0)),
            ("7:30", Some(7.5)),
            ("12", Some(12.0)),
            ("13", None),
            ("-1", None),
            ("7:99", None),
            ("seven", None),
            ("nan", None),
        ] {
            assert_eq!(hour(text), expected, "{text}");
        }
    }

    #[test]
    fn the_clock_has_the_camera_at_six_and_its_left_at_nine() {
        let clock = Clock {
            middle: Vec3::ZERO,
            to_camera: Vec3::new(0.0, -2.0, 0.3),
        };
        for (hour, expected) in [
            (6.0, Vec3::NEG_Y),
            (9.0, Vec3::NEG_X),
            (3.0, Vec3::X),
            (12.0, Vec3::Y),
            (0.0, Vec3::Y),
        ] {
            assert!(
                (clock.direction(hour) - expected).length() < 1e-6,
                "{hour}: {}",
                clock.direction(hour)
            );
        }
    }
}
