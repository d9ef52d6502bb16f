//! Sitters, the camera, and the clock around them, from above.

use super::view::View;
use crate::fitting::shorten;
use crate::label::{Area, Hand, Labels};
use crate::svg::{Svg, ink};
use crate::symbols::{clock_face, hour_direction};
use answer::Job;
use glam::Vec2;
use scene::Sitter;

/// More than three sitters get numbers, and their names stand below.
pub(crate) fn numbered(job: &Job) -> bool {
    job.sitters.len() > 3
}

/// Radius of the clock in metres (ours: just outside the shoulders).
const CLOCK_M: f32 = 0.62;

/// Middle and radius of the clock, and the direction of its six. In a group as well its middle is the first sitter, from whom
/// the hours of an answer are told.
fn clock(view: &View, job: &Job) -> Option<(Vec2, f32, Vec2)> {
    let centre = view.at(job.sitters.first()?.stand);
    let radius = (CLOCK_M * view.scale).max(body_radius(view) + 14.0);
    Some((
        centre,
        radius,
        (view.at(job.viewpoint.position) - centre).try_normalize()?,
    ))
}

pub(super) fn draw_clock(svg: &mut Svg, view: &View, job: &Job) {
    let Some((centre, radius, to_camera)) = clock(view, job) else {
        return;
    };
    svg.start("g", &[("clip-path", "url(#room)"), ("data-what", "clock")]);
    clock_face(svg, centre, radius, to_camera);
    svg.end();
}

pub(super) fn name_clock(view: &View, job: &Job, labels: &mut Labels) {
    let Some((centre, radius, to_camera)) = clock(view, job) else {
        return;
    };
    for hour in [3, 6, 9, 12] {
        let at = centre + hour_direction(to_camera, hour as f32) * (radius + 13.0);
        labels.at(
            at,
            &hour.to_string(),
            Hand {
                size: 11.0,
                ..Hand::SMALL
            },
            false,
        );
    }
}

/// All sitters, the first one on top.
pub(crate) fn draw_sitters(svg: &mut Svg, view: &View, job: &Job, labels: &mut Labels) {
    for (index, sitter) in job.sitters.iter().enumerate().rev() {
        draw_sitter(svg, view, sitter, index, numbered(job));
        let size = Vec2::splat(2.0 * body_radius(view));
        labels.take(Area::around(view.at(sitter.stand), size));
    }
}

/// Radius of a person from above in pixels.
pub(super) fn body_radius(view: &View) -> f32 {
    (0.23 * view.scale).max(15.0)
}

fn draw_sitter(svg: &mut Svg, view: &View, sitter: &Sitter, index: usize, numbered: bool) {
    let centre = view.at(sitter.stand);
    let nose = sitter.face_direction();
    let ahead = Vec2::new(nose.x, -nose.y);
    let across = Vec2::new(-ahead.y, ahead.x);
    let radius = body_radius(view);
    let oval = |along: f32, wide: f32| -> Vec<Vec2> {
        (0..36)
            .map(|step| Vec2::from_angle(step as f32 * std::f32::consts::TAU / 36.0))
            .map(|unit| centre + ahead * unit.x * along * radius + across * unit.y * wide * radius)
            .collect()
    };
    let first = index == 0;
    let body = [
        ("fill", ink::BODY),
        ("stroke", ink::SOFT),
        ("stroke-width", "1.4"),
    ];
    svg.path(&oval(0.52, 1.0), true, &body);
    let head_fill = if first { ink::SOFT } else { ink::BODY };
    let head = [
        ("fill", head_fill),
        ("stroke", ink::SOFT),
        ("stroke-width", "1.6"),
        ("stroke-linejoin", "round"),
    ];
    let tip = centre + ahead * radius * 0.86;
    let base = centre + ahead * radius * 0.4;
    svg.path(
        &[tip, base + across * radius * 0.17, base - across * radius * 0.17],
        true,
        &[("fill", ink::SOFT)],
    );
    svg.start("g", &[("data-what", if first { "metered" } else { "sitter" })]);
    svg.path(&oval(0.5, 0.42), true, &head);
    svg.end();
    if numbered {
        let fill = if first { ink::SHEET } else { ink::INK };
        let at = centre + Vec2::new(0.0, 4.2);
        let style = [
            ("fill", fill),
            ("font-size", "12"),
            ("font-weight", "600"),
            ("text-anchor", "middle"),
        ];
        svg.text(at, &(index + 1).to_string(), &style);
    }
}

pub(crate) fn draw_camera(svg: &mut Svg, view: &View, job: &Job, labels: &mut Labels) {
    let at = view.at(job.viewpoint.position);
    let (_, _, forward) = job.viewpoint.axes();
    let ahead = Vec2::new(forward.x, -forward.y)
        .try_normalize()
        .unwrap_or(Vec2::NEG_Y);
    let across = Vec2::new(-ahead.y, ahead.x);
    // Two short lines open with the angle of the lens.
    let frame = job.viewpoint.frame_mm();
    let half = (frame.x / (2.0 * job.viewpoint.focal_mm)).atan();
    for side in [-half, half] {
        let way = Vec2::from_angle(side).rotate(ahead);
        let line = [
            ("stroke", ink::SOFT),
            ("stroke-width", "1"),
            ("stroke-dasharray", "2 3"),
        ];
        svg.line(at + way * 12.0, at + way * 58.0, &line);
    }
    let body = [
        at - across * 12.0,
        at + across * 12.0,
        at + across * 12.0 - ahead * 13.0,
        at - across * 12.0 - ahead * 13.0,
    ];
    let lens = [
        at - across * 5.5,
        at + across * 5.5,
        at + across * 6.5 + ahead * 8.0,
        at - across * 6.5 + ahead * 8.0,
    ];
    // From the body's front to that of the lens is the lens axis.
    svg.start("g", &[("data-what", "camera")]);
    for shape in [body, lens] {
        svg.path(
            &shape,
            true,
            &[("fill", ink::INK), ("stroke", ink::SHEET), ("stroke-width", "1")],
        );
    }
    svg.end();
    labels.take(Area::around(at - ahead * 3.0, Vec2::new(28.0, 26.0)));
}

/// Names beside the sitters, where these have no numbers.
pub(crate) fn name_people(view: &View, job: &Job, labels: &mut Labels) {
    if numbered(job) {
        return;
    }
    for (index, sitter) in job.sitters.iter().enumerate() {
        let hand = if index == 0 { Hand::STRONG } else { Hand::PLAIN };
        labels.near(
            view.at(sitter.stand),
            body_radius(view) + 4.0,
            &shorten(&sitter.name, 24),
            hand,
        );
    }
}
