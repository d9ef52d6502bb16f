//! What stands in the place and closes it, from above: furniture, boards, walls and openings.

use super::view::{View, WALL};
use crate::path::hull;
use crate::svg::{Svg, ink};
use crate::swatch;
use crate::symbols::{OPEN_SIDE, draw_break};
use answer::Job;
use glam::{Vec2, Vec3};
use scene::{Block, Face, Opening, OpeningKind, Panel};

pub(crate) fn draw_block(svg: &mut Svg, view: &View, block: &Block) {
    let (a, b) = (view.at(block.min), view.at(block.max));
    let fill = swatch::colour(&block.material.reflectance);
    svg.rectangle(
        a.min(b),
        (a - b).abs(),
        &[
            ("fill", ink::BODY),
            ("stroke", ink::SOFT),
            ("stroke-width", "1.2"),
        ],
    );
    // A small chip shows the colour, since the body stays dark for the labels.
    let chip = Vec2::new(14.0, 5.0).min((a - b).abs() - 4.0);
    if chip.min_element() > 2.0 {
        svg.rectangle(
            a.min(b) + 3.0,
            chip,
            &[("fill", &fill), ("stroke", ink::LINE), ("stroke-width", "0.6")],
        );
    }
}

pub(super) fn draw_walls(svg: &mut Svg, view: &View, job: &Job) {
    for face in [Face::Left, Face::Right, Face::BehindCamera, Face::BehindSitter] {
        let (from, to, out) = view.wall(face);
        if !view.shows(face) {
            draw_break(svg, from, to);
            continue;
        }
        if job.place.is_open(face) {
            svg.line(from, to, &OPEN_SIDE);
            continue;
        }
        let fill = swatch::colour(&job.place.room.material(face).reflectance);
        let corner = from.min(to) + (out * WALL).min(Vec2::ZERO);
        let size = (to - from).abs() + out.abs() * WALL;
        svg.rectangle(corner, size, &[("fill", &fill)]);
        svg.rectangle(
            corner,
            size,
            &[("fill", "none"), ("stroke", ink::SOFT), ("stroke-width", "1.2")],
        );
    }
    for opening in &job.place.openings {
        let whole = opening.fills(&job.place.room);
        if opening.face != Face::Ceiling && !whole && view.shows(opening.face) {
            draw_opening(svg, view, job, opening);
        }
    }
}

/// Ends of an opening on the sheet, on the inner face of its wall and inside what is shown.
pub(super) fn opening_ends(view: &View, job: &Job, opening: &Opening) -> (Vec2, Vec2) {
    let (start, along, _) = opening.frame(&job.place.room);
    let clip = |point: Vec3| view.at(point).clamp(view.inner.min, view.inner.max);
    (clip(start), clip(start + along))
}

fn draw_opening(svg: &mut Svg, view: &View, job: &Job, opening: &Opening) {
    let (from, to) = opening_ends(view, job, opening);
    let (_, _, out) = view.wall(opening.face);
    let corner = from.min(to) + (out * WALL).min(Vec2::ZERO);
    let size = (to - from).abs() + out.abs() * WALL;
    match opening.kind {
        OpeningKind::Window | OpeningKind::NetCurtain => {
            svg.rectangle(
                corner,
                size,
                &[
                    ("fill", ink::SHEET),
                    ("stroke", ink::INK),
                    ("stroke-width", "1.4"),
                ],
            );
            for part in [0.36, 0.64] {
                let glass = [("stroke", ink::INK), ("stroke-width", "1")];
                svg.line(from + out * WALL * part, to + out * WALL * part, &glass);
            }
        }
        OpeningKind::Doorway | OpeningKind::Open => {
            svg.rectangle(corner, size, &[("fill", ink::SHEET)]);
            for end in [from, to] {
                svg.line(
                    end,
                    end + out * WALL,
                    &[("stroke", ink::INK), ("stroke-width", "2")],
                );
            }
            let (a, b) = (from + out * WALL * 0.5, to + out * WALL * 0.5);
            svg.line(
                a,
                b,
                &[
                    ("stroke", ink::INK),
                    ("stroke-width", "1"),
                    ("stroke-dasharray", "4 3"),
                ],
            );
        }
    }
}

/// A board from above: cut at the height of its middle, with the outline of a tilted one around the cut.
pub(crate) fn draw_board(svg: &mut Svg, view: &View, panel: &Panel) {
    let (corner, a, b) = panel.frame();
    let outline = hull(&[corner, corner + a, corner + a + b, corner + b].map(|point| view.at(point)));
    svg.path(
        &outline,
        true,
        &[
            ("fill", "none"),
            ("stroke", ink::SOFT),
            ("stroke-width", "1"),
            ("stroke-dasharray", "3 3"),
        ],
    );
    let (from, to) = (view.at(corner + 0.5 * b), view.at(corner + a + 0.5 * b));
    let fill = swatch::colour(&panel.front.reflectance);
    svg.line(from, to, &[("stroke", ink::INK), ("stroke-width", "7")]);
    svg.line(from, to, &[("stroke", &fill), ("stroke-width", "4")]);
}
