//! The room unrolled: how good it is to aim at every piece of its six faces.

mod grade;
mod key;
mod marks;
mod net;

use crate::drawing::wrap;
use crate::label::{Area, Labels};
use crate::svg::{Svg, ink};
use crate::words::{Lengths, clean, plain, shorten};
use glam::{Vec2, Vec3};
use grade::{Worth, definitions, draw_piece, points_of_answer};
use key::draw_key;
use marks::{draw_aims, draw_floor, draw_opening};
use net::{NAME_GAP, Net, draw_faces, name_faces};
use scene::{BoxRoom, Face};
use solver::{Answer, Job, MapCell, Route};

/// Width of the sheet in pixels: narrow, so that words stay readable where the sheet is looked at on a phone.
const WIDTH: f32 = 800.0;
const MARGIN: f32 = 32.0;
/// Lines kept free for what a touched piece has to say, and their distance.
const READING: (usize, f32) = (4, 22.0);
/// Shows what a touched piece has to say, for fingers that get no tooltip; no script and nothing from outside.
const STYLE: &str = ".cell:hover .tip{visibility:visible}.cell:hover .piece{stroke:#f4f2ee;stroke-width:3}";

/// The six faces of the room folded flat, with how good it is to aim the flash at each piece of them.
///
/// The faces lie as someone sees them who stands at the camera, looks at the sitter and then up and back: under one
/// another the wall behind the camera, the ceiling, the wall behind the sitter and the floor, and beside the ceiling
/// the walls on the camera's left and right. Every piece has its shade by points, a mark for what that means, and its
/// reason in words for whoever points at it or touches it. Lengths are in metres or in feet.
pub fn room_map_svg(job: &Job, answer: &Answer, feet: bool) -> String {
    let job = &job.as_answered(answer);
    let lengths = Lengths::new(feet);
    let head = Head::new(job, answer, lengths);
    let net = Net::new(&job.place.room, head.bottom + NAME_GAP);
    let best = points_of_answer(answer);
    let mut body = Svg::part();
    draw_faces(&mut body, &net);
    draw_cells(&mut body, &net, answer, best, lengths, head.reading);
    // A finger means the piece under it, not what is marked on top.
    body.start("g", &[("pointer-events", "none")]);
    for face in Face::ALL {
        draw_outline(&mut body, &net, answer, best, face);
    }
    for opening in &job.place.openings {
        draw_opening(&mut body, &net, opening);
    }
    let mut floor = Labels::new(net.area(Face::Floor));
    draw_floor(&mut body, &net, job, answer, lengths, &mut floor);
    draw_aims(&mut body, &net, answer);
    name_faces(&mut body, &net);
    floor.draw(&mut body);
    body.end();
    let key_bottom = draw_key(&mut body, &net, job, answer, best, floor.left_over());
    let height = net.bottom().max(key_bottom) + MARGIN;

    let mut svg = Svg::new(
        Vec2::new(WIDTH, height),
        &head.title,
        &description(job, answer, best),
    );
    svg.worded("style", &[], STYLE);
    definitions(&mut svg);
    svg.rectangle(Vec2::ZERO, Vec2::new(WIDTH, height), &[("fill", ink::SHEET)]);
    head.draw(&mut svg);
    svg.append(body);
    svg.finish()
}

/// The words above the map.
struct Head {
    title: String,
    aim: Vec<String>,
    /// Top of the lines in which a touched piece says its reason.
    reading: f32,
    bottom: f32,
}

impl Head {
    fn new(job: &Job, answer: &Answer, lengths: Lengths) -> Self {
        let name = shorten(&job.title, 60);
        let title = match name.as_str() {
            "" => "Where to point the flash".to_owned(),
            name => format!("{name}: where to point the flash"),
        };
        let aim = wrap(
            &clean(&lengths.reword(&answer.aim.words)),
            17.0,
            WIDTH - 2.0 * MARGIN,
            3,
        );
        let reading = 82.0 + 24.0 * aim.len() as f32 + 8.0;
        Self {
            title,
            aim,
            reading,
            bottom: reading + READING.1 * READING.0 as f32,
        }
    }

    fn draw(&self, svg: &mut Svg) {
        let title = wrap(&self.title, 23.0, WIDTH - 2.0 * MARGIN, 1);
        svg.text(
            Vec2::new(MARGIN, 54.0),
            &title[0],
            &[("fill", ink::INK), ("font-size", "23"), ("font-weight", "600")],
        );
        for (index, line) in self.aim.iter().enumerate() {
            svg.text(
                Vec2::new(MARGIN, 84.0 + 24.0 * index as f32),
                line,
                &[("fill", ink::GLOW), ("font-size", "17")],
            );
        }
        let lines = [
            "The room unrolled as seen from the camera: look at the sitter, then up, and lean back.",
            "Point at a square, or touch it, to read what aiming there would do.",
        ];
        for (index, line) in lines.into_iter().enumerate() {
            svg.text(
                Vec2::new(MARGIN, self.reading + 16.0 + READING.1 * index as f32),
                line,
                &[("fill", ink::SOFT), ("font-size", "15")],
            );
        }
    }
}

fn draw_cells(svg: &mut Svg, net: &Net, answer: &Answer, best: f64, lengths: Lengths, reading: f32) {
    let style = [("fill", "none"), ("stroke", ink::SHEET), ("stroke-width", "1.2")];
    svg.start("g", &style);
    for cell in &answer.map.cells {
        let area = net.rectangle(cell.face, cell.from, cell.size);
        let worth = Worth::of(cell, best);
        svg.start("g", &[("class", "cell")]);
        let reason = reason(net.room, cell, worth, lengths);
        svg.worded("title", &[], &reason);
        draw_piece(svg, area, cell.points, worth);
        draw_tip(svg, &reason, reading);
        svg.end();
    }
    svg.end();
}

/// A line around everything on a face that serves or would do.
fn draw_outline(svg: &mut Svg, net: &Net, answer: &Answer, best: f64, face: Face) {
    let good: Vec<Area> = answer
        .map
        .cells
        .iter()
        .filter(|cell| cell.face == face && matches!(Worth::of(cell, best), Worth::AsGood | Worth::WouldDo))
        .map(|cell| net.rectangle(face, cell.from, cell.size))
        .collect();
    for area in &good {
        let Area { min, max } = *area;
        let corners = [min, Vec2::new(max.x, min.y), max, Vec2::new(min.x, max.y)];
        for (index, from) in corners.into_iter().enumerate() {
            let to = corners[(index + 1) % 4];
            let middle = 0.5 * (from + to);
            let beyond = middle + (middle - area.centre()).normalize_or_zero() * 2.0;
            if !good.iter().any(|other| other.has(beyond)) {
                svg.line(from, to, &EDGE);
            }
        }
    }
}

const EDGE: [(&str, &str); 3] = [
    ("stroke", ink::INK),
    ("stroke-width", "2.4"),
    ("stroke-linecap", "square"),
];

/// What a piece says when it is touched, in the lines kept free for that.
fn draw_tip(svg: &mut Svg, reason: &str, top: f32) {
    let hidden = [
        ("class", "tip"),
        ("visibility", "hidden"),
        ("pointer-events", "none"),
        ("stroke", "none"),
        ("font-size", "15"),
    ];
    svg.start("g", &hidden);
    let size = Vec2::new(WIDTH - 2.0 * MARGIN, READING.1 * READING.0 as f32);
    svg.rectangle(Vec2::new(MARGIN, top), size, &[("fill", ink::SHEET)]);
    for (index, line) in wrap(reason, 15.0, size.x, READING.0).iter().enumerate() {
        let at = Vec2::new(MARGIN, top + 16.0 + READING.1 * index as f32);
        svg.text(at, line, &[("fill", ink::INK)]);
    }
    svg.end();
}

/// Where a piece is, what it is good for and why, with its points and the zoom that does best.
fn reason(room: &BoxRoom, cell: &MapCell, worth: Worth, lengths: Lengths) -> String {
    let points = if cell.points.is_finite() {
        format!("{} points off the ask, ", plain(cell.points, 1))
    } else {
        String::new()
    };
    format!(
        "{}: {}. {}. {points}zoom {}.",
        place_words(room, cell.face, cell.target, lengths),
        worth.words(),
        sentence(&clean(&lengths.reword(&cell.why))),
        plain(cell.zoom_mm, 0)
    )
}

/// Words with a capital first and no full stop.
fn sentence(words: &str) -> String {
    let words = words.trim().trim_end_matches('.');
    let mut letters = words.chars();
    letters
        .next()
        .map(|first| first.to_uppercase().chain(letters).collect())
        .unwrap_or_default()
}

/// "left wall, 2.2 m up, 1.4 m from the wall behind the camera".
fn place_words(room: &BoxRoom, face: Face, point: Vec3, lengths: Lengths) -> String {
    let about = |metres: f32| lengths.about(f64::from(metres.max(0.0)));
    let along = match face {
        Face::BehindCamera | Face::BehindSitter => sideways(room, point, lengths),
        _ => format!("{} from the wall behind the camera", about(point.y)),
    };
    match face {
        Face::Ceiling | Face::Floor => {
            format!("{}, {}, {along}", face.words(), sideways(room, point, lengths))
        }
        _ => format!("{}, {} up, {along}", face.words(), about(point.z)),
    }
}

/// The distance from the nearer side wall.
fn sideways(room: &BoxRoom, point: Vec3, lengths: Lengths) -> String {
    let (metres, side) = if point.x <= 0.5 * room.size.x {
        (point.x, "left")
    } else {
        (room.size.x - point.x, "right")
    };
    format!(
        "{} from the {side} wall",
        lengths.about(f64::from(metres.max(0.0)))
    )
}

/// What is aimed at that is no face of the room.
fn way_words(route: &Route) -> String {
    match route {
        Route::Bounce { face, .. } => face.words().to_owned(),
        Route::Standing { name } => shorten(name, 40),
        Route::HeldBoard { name, .. } => format!("{}, held", shorten(name, 40)),
        Route::Direct => "straight at the face".to_owned(),
    }
}

/// What someone who does not see the map is told: for each face how many pieces are good for what, and the best.
fn description(job: &Job, answer: &Answer, best: f64) -> String {
    let mut words =
        String::from("The six faces of the room folded flat, each piece with how good it is to aim there.");
    for face in Face::ALL {
        let cells: Vec<&MapCell> = answer.map.cells.iter().filter(|cell| cell.face == face).collect();
        let counts: Vec<String> = Worth::ALL
            .into_iter()
            .filter_map(|worth| {
                let count = cells.iter().filter(|cell| Worth::of(cell, best) == worth).count();
                (count > 0).then(|| format!("{count} {}", worth.words()))
            })
            .collect();
        let counts = if counts.is_empty() {
            "not from here".to_owned()
        } else {
            counts.join(", ")
        };
        words.push_str(&format!(" {}: {counts}.", sentence(face.words())));
    }
    words.push_str(&format!(
        " The answer aims at: {}. {} on the floor.",
        way_words(&answer.aim.route),
        match job.sitters.len() {
            1 => "Camera and sitter are marked".to_owned(),
            more => format!("Camera and {more} sitters are marked"),
        }
    ));
    words
}
