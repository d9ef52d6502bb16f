//! What is marked on the map: openings, what stands on the floor, and the aims.

use super::net::Net;
use crate::label::{Area, Hand, Labels};
use crate::path::{LightPath, Surface};
use crate::svg::{Svg, ink};
use crate::voice::Voice;
use crate::wording::on_map;
use crate::{plan, symbols};
use answer::{Aim, Answer, Job, Route};
use glam::{Vec2, Vec3};
use scene::{Face, Opening, OpeningKind};

const WINDOW: [(&str, &str); 3] = [("fill", "none"), ("stroke", ink::INK), ("stroke-width", "2")];
const DOORWAY: [(&str, &str); 4] = [
    ("fill", "none"),
    ("stroke", ink::INK),
    ("stroke-width", "2"),
    ("stroke-dasharray", "6 4"),
];

pub(super) fn draw_opening(svg: &mut Svg, net: &Net, opening: &Opening) {
    outline_opening(
        svg,
        net.rectangle(opening.face, opening.from, opening.size),
        opening.kind,
    );
}

/// A window has a cross of bars; a doorway is an open outline.
pub(super) fn outline_opening(svg: &mut Svg, area: Area, kind: OpeningKind) {
    // A dark line around the light one keeps it visible on the lightest shades.
    let around = [("fill", "none"), ("stroke", ink::SHEET), ("stroke-width", "5")];
    svg.rectangle(area.min, area.size(), &around);
    match kind {
        OpeningKind::Window | OpeningKind::NetCurtain => {
            let centre = area.centre();
            let bar = [("stroke", ink::INK), ("stroke-width", "1")];
            svg.line(
                Vec2::new(centre.x, area.min.y),
                Vec2::new(centre.x, area.max.y),
                &bar,
            );
            svg.line(
                Vec2::new(area.min.x, centre.y),
                Vec2::new(area.max.x, centre.y),
                &bar,
            );
            svg.rectangle(area.min, area.size(), &WINDOW);
        }
        OpeningKind::Doorway | OpeningKind::Open => svg.rectangle(area.min, area.size(), &DOORWAY),
    }
}

/// Who and what stands on the floor, from above.
pub(super) fn draw_floor(
    svg: &mut Svg,
    net: &Net,
    job: &Job,
    answer: &Answer,
    voice: Voice,
    labels: &mut Labels,
) {
    let view = plan::View::whole(net.area(Face::Floor), net.scale, net.room.size.truncate());
    for block in &job.place.blocks {
        plan::draw_block(svg, &view, block);
    }
    for panel in &job.place.panels {
        plan::draw_board(svg, &view, panel);
    }
    plan::draw_camera(svg, &view, job, labels);
    plan::draw_sitters(svg, &view, job, labels);
    if let Some(Surface::Board(board)) = LightPath::new(job, answer).map(|path| path.surface) {
        plan::draw_board(svg, &view, &board);
        let words = on_map::board(voice, &board.name, board.centre.z);
        labels.near(view.at(board.centre), 12.0, &words, Hand::PLAIN);
    }
    draw_flashes(svg, &view, job, answer, voice, labels);
    plan::name_people(&view, job, labels);
}

/// Where the answer's flash is, when that is not where the flash of the map is.
pub(super) fn flash_elsewhere(answer: &Answer) -> Option<Vec3> {
    let flash = answer.aim.flash;
    (flash.is_finite() && flash.distance(answer.map.flash) > 0.05).then_some(flash)
}

/// The flash from which the map is seen, the answer's if that stands elsewhere, and the camera's name.
fn draw_flashes(
    svg: &mut Svg,
    view: &plan::View,
    job: &Job,
    answer: &Answer,
    voice: Voice,
    labels: &mut Labels,
) {
    let flash = answer.map.flash;
    let camera = job.viewpoint.position;
    if flash.is_finite() {
        symbols::draw_flash(svg, view.at(flash));
        labels.take(Area::around(view.at(flash), Vec2::splat(18.0)));
    }
    let on_camera = job.is_on_camera(flash);
    let wordings = on_map::camera(voice, on_camera.then_some(flash.z));
    labels.near_first_that_fits(view.at(camera), 17.0, &wordings, Hand::PLAIN);
    if !on_camera {
        let wordings = on_map::flash(voice, flash.z, false);
        labels.near_first_that_fits(view.at(flash), 11.0, &wordings, Hand::LIGHT);
    }
    if let Some(other) = flash_elsewhere(answer) {
        draw_open_flash(svg, view.at(other));
        labels.take(Area::around(view.at(other), Vec2::splat(18.0)));
        let wordings = on_map::flash(voice, other.z, true);
        labels.near_first_that_fits(view.at(other), 11.0, &wordings, Hand::LIGHT);
    }
}

/// A diamond that is not filled: a flash from which the map is not seen.
pub(super) fn draw_open_flash(svg: &mut Svg, at: Vec2) {
    let points = [Vec2::NEG_Y * 8.0, Vec2::X * 6.5, Vec2::Y * 8.0, Vec2::NEG_X * 6.5].map(|p| at + p);
    let style = [("fill", ink::SHEET), ("stroke", ink::GLOW), ("stroke-width", "2")];
    svg.path(&points, true, &style);
}

/// The face of the room that an aim is at, where it is at one.
pub(super) fn face_of(aim: &Aim) -> Option<Face> {
    match aim.route {
        Route::Bounce { face, .. } if aim.target.is_finite() => Some(face),
        _ => None,
    }
}

/// The aims of the answer and of its alternatives, where they are on a face of the room.
pub(super) fn draw_aims(svg: &mut Svg, net: &Net, answer: &Answer) {
    for (index, other) in answer.alternatives.iter().enumerate() {
        if let Some(face) = face_of(&other.aim) {
            draw_other_aim(svg, net.at(face, other.aim.target), index);
        }
    }
    if let Some(face) = face_of(&answer.aim) {
        draw_aim(svg, net.at(face, answer.aim.target));
    }
}

/// The answer's aim: two rings and four strokes, light on dark, larger than any mark.
pub(super) fn draw_aim(svg: &mut Svg, at: Vec2) {
    for (colour, wide) in [(ink::SHEET, "7"), (ink::INK, "2.6")] {
        let style = [("fill", "none"), ("stroke", colour), ("stroke-width", wide)];
        svg.circle(at, 13.0, &style);
        for way in [Vec2::X, Vec2::Y, Vec2::NEG_X, Vec2::NEG_Y] {
            svg.line(at + way * 9.0, at + way * 20.0, &style);
        }
    }
    svg.circle(
        at,
        3.4,
        &[("fill", ink::INK), ("stroke", ink::SHEET), ("stroke-width", "2")],
    );
}

/// Another answer's aim: a numbered disc.
pub(super) fn draw_other_aim(svg: &mut Svg, at: Vec2, index: usize) {
    svg.circle(
        at,
        9.0,
        &[
            ("fill", ink::SHEET),
            ("stroke", ink::INK),
            ("stroke-width", "1.6"),
        ],
    );
    svg.text(
        at + Vec2::new(0.0, 4.3),
        &(index + 1).to_string(),
        &[
            ("fill", ink::INK),
            ("font-size", "12"),
            ("font-weight", "600"),
            ("text-anchor", "middle"),
        ],
    );
}
