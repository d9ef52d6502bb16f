//! The room unrolled: how good it is to aim at every piece of its six faces.

mod grade;
mod key;
mod marks;
mod net;

use crate::label::{Area, Labels};
use crate::svg::{Svg, ink, wrap};
use crate::voice::Voice;
use crate::wording::aim;
use crate::wording::on_map::{self, Worth};
use answer::{Answer, Job};
use glam::Vec2;
use grade::{EDGE, WORTHS, definitions, draw_piece, points_of_answer, worth_of};
use key::draw_key;
use marks::{draw_aims, draw_floor, draw_opening};
use net::{MARGIN, NAME_GAP, Net, WIDTH, draw_faces, name_faces};
use scene::Face;

/// Lines kept free for what a touched piece has to say, and their distance.
const READING: (usize, f32) = (4, 22.0);
/// Shows what a touched piece has to say, for fingers that get no tooltip; no script and nothing from outside.
const STYLE: &str = ".cell:hover .tip{visibility:visible}.cell:hover .piece{stroke:#f4f2ee;stroke-width:3}";

/// The six faces of the room folded flat, with how good it is to aim the flash at each piece of them.
///
/// The faces lie as someone sees them who stands at the camera, looks at the sitter and then up and back: under one
/// another the wall behind the camera, the ceiling, the wall behind the sitter and the floor, and beside the ceiling
/// the walls on the camera's left and right. Every piece has its shade by points, a mark for what that means, and its
/// reason in words for a person who points at it or touches it.
pub fn room_map_svg(job: &Job, answer: &Answer, voice: Voice) -> String {
    let job = &job.as_answered(answer);
    let head = Head::new(job, answer, voice);
    let net = Net::new(&job.place.room, head.bottom + NAME_GAP);
    let best = points_of_answer(answer);
    let mut body = Svg::part();
    draw_faces(&mut body, &net);
    draw_cells(&mut body, &net, answer, best, voice, head.reading);
    // A finger means the piece under it, not what is marked on top.
    body.start("g", &[("pointer-events", "none")]);
    for face in Face::ALL {
        draw_outline(&mut body, &net, answer, best, face);
    }
    for opening in &job.place.openings {
        draw_opening(&mut body, &net, opening);
    }
    let mut floor = Labels::new(net.area(Face::Floor));
    draw_floor(&mut body, &net, job, answer, voice, &mut floor);
    draw_aims(&mut body, &net, answer);
    name_faces(&mut body, &net, voice);
    floor.draw(&mut body);
    body.end();
    let key_bottom = draw_key(&mut body, &net, job, answer, best, voice, floor.left_over());
    let height = net.bottom().max(key_bottom) + MARGIN;

    let mut svg = Svg::new(
        Vec2::new(WIDTH, height),
        &head.title,
        &description(job, answer, best, voice),
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
    voice: Voice,
}

impl Head {
    fn new(job: &Job, answer: &Answer, voice: Voice) -> Self {
        let aim = wrap(&aim::line(voice, &answer.aim), 17.0, WIDTH - 2.0 * MARGIN, 3);
        let reading = 82.0 + 24.0 * aim.len() as f32 + 8.0;
        Self {
            title: on_map::title(voice, &job.title),
            aim,
            voice,
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
        for (index, line) in on_map::how_to_read(self.voice).into_iter().enumerate() {
            svg.text(
                Vec2::new(MARGIN, self.reading + 16.0 + READING.1 * index as f32),
                line,
                &[("fill", ink::SOFT), ("font-size", "15")],
            );
        }
    }
}

fn draw_cells(svg: &mut Svg, net: &Net, answer: &Answer, best: f64, voice: Voice, reading: f32) {
    let style = [("fill", "none"), ("stroke", ink::SHEET), ("stroke-width", "1.2")];
    svg.start("g", &style);
    for cell in &answer.map.cells {
        let area = net.rectangle(cell.face, cell.from, cell.size);
        let worth = worth_of(cell, best);
        svg.start("g", &[("class", "cell")]);
        let reason = on_map::reason(voice, net.room, cell, worth);
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
        .filter(|cell| cell.face == face && matches!(worth_of(cell, best), Worth::AsGood | Worth::WouldDo))
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

/// What a person learns who does not see the map: for each face how many pieces are good for what, and the best.
fn description(job: &Job, answer: &Answer, best: f64, voice: Voice) -> String {
    let counts: Vec<(Face, Vec<(usize, Worth)>)> = Face::ALL
        .into_iter()
        .map(|face| {
            let cells = || answer.map.cells.iter().filter(move |cell| cell.face == face);
            let count = |worth| cells().filter(|cell| worth_of(cell, best) == worth).count();
            let counts = WORTHS.map(|worth| (count(worth), worth));
            (face, counts.into_iter().filter(|(count, _)| *count > 0).collect())
        })
        .collect();
    on_map::described(voice, &counts, &answer.aim.route, job.sitters.len())
}
