//! The place from above.

use crate::label::{Area, Hand, Labels};
use crate::path::{Carrier, LightPath, hull, on_camera};
use crate::svg::{Svg, fit, ink, num, text_width};
use crate::words::{Lengths, plain, shorten, signed};
use crate::{drawing, swatch};
use glam::{Vec2, Vec3};
use scene::{Block, Face, Opening, OpeningKind, Panel, Sitter};
use solver::{Answer, Job, Route};

/// Space around the room for its walls, their names and the dimension lines: left, right, above, below.
const AROUND: [f32; 4] = [62.0, 38.0, 38.0, 84.0];
/// Thickness of a drawn wall.
const WALL: f32 = 12.0;
/// A plan smaller than this, in pixels per metre, is cut instead (ours: a head is then 10 pixels wide).
const LEAST_SCALE: f32 = 48.0;
/// A plan is not drawn larger than this, in pixels per metre.
const MOST_SCALE: f32 = 170.0;

pub(crate) const BEAM: [(&str, &str); 5] = [
    ("fill", ink::GLOW),
    ("fill-opacity", "0.1"),
    ("stroke", ink::GLOW),
    ("stroke-opacity", "0.7"),
    ("stroke-dasharray", "7 4"),
];
pub(crate) const LIT: [(&str, &str); 3] = [
    ("fill", "url(#lit)"),
    ("stroke", ink::GLOW),
    ("stroke-width", "1.4"),
];
pub(crate) const FALLOFF: [(&str, &str); 5] = [
    ("fill", "none"),
    ("stroke", ink::SOFT),
    ("stroke-width", "1.3"),
    ("stroke-dasharray", "1.5 5"),
    ("stroke-linecap", "round"),
];

/// How the room is laid on the sheet.
pub(crate) struct View {
    /// The floor.
    pub(crate) inner: Area,
    /// The floor with walls, names and dimensions.
    pub(crate) outer: Area,
    /// Pixels per metre.
    pub(crate) scale: f32,
    /// What is shown of the room, in metres.
    shown: Area,
    room: Vec2,
}

impl View {
    pub(crate) fn new(job: &Job, path: Option<&LightPath>, area: Area) -> Self {
        let room = job.place.room.size.truncate().max(Vec2::splat(0.1));
        let most = area.size() - Vec2::new(AROUND[0] + AROUND[1], AROUND[2] + AROUND[3]);
        let action = action(job, path, room);
        let mut shown = Area::new(Vec2::ZERO, room);
        let allowed = most / LEAST_SCALE;
        for axis in 0..2 {
            if room[axis] > allowed[axis] {
                let (from, to) = cut(room[axis], action.min[axis], action.max[axis], allowed[axis]);
                (shown.min[axis], shown.max[axis]) = (from, to);
            }
        }
        let scale = (most / shown.size()).min_element().min(MOST_SCALE);
        let corner = area.min + Vec2::new(AROUND[0], AROUND[2]);
        let inner = Area::new(corner, corner + shown.size() * scale);
        let outer = Area::new(area.min, inner.max + Vec2::new(AROUND[1], AROUND[3]));
        Self {
            inner,
            outer,
            scale,
            shown,
            room,
        }
    }

    /// The whole floor of a room with its lower left corner, seen from above, at a place of the sheet.
    pub(crate) fn whole(inner: Area, scale: f32, room: Vec2) -> Self {
        Self {
            inner,
            outer: inner,
            scale,
            shown: Area::new(Vec2::ZERO, room),
            room,
        }
    }

    /// A point of the room on the sheet; the sitter's end of the room is up.
    pub(crate) fn at(&self, point: Vec3) -> Vec2 {
        self.flat(point.truncate())
    }

    fn flat(&self, point: Vec2) -> Vec2 {
        let x = self.inner.min.x + (point.x - self.shown.min.x) * self.scale;
        let y = self.inner.max.y - (point.y - self.shown.min.y) * self.scale;
        Vec2::new(x, y)
    }

    /// Whether this wall is shown, or cut away.
    fn shows(&self, face: Face) -> bool {
        match face {
            Face::Left => self.shown.min.x == 0.0,
            Face::Right => self.shown.max.x == self.room.x,
            Face::BehindCamera => self.shown.min.y == 0.0,
            Face::BehindSitter => self.shown.max.y == self.room.y,
            Face::Ceiling | Face::Floor => false,
        }
    }

    /// The two ends of a wall on the sheet, and the direction that leads out of the room.
    fn wall(&self, face: Face) -> (Vec2, Vec2, Vec2) {
        let Area { min, max } = self.inner;
        match face {
            Face::Left => (Vec2::new(min.x, max.y), min, Vec2::NEG_X),
            Face::Right => (Vec2::new(max.x, min.y), max, Vec2::X),
            Face::BehindCamera => (max, Vec2::new(min.x, max.y), Vec2::Y),
            _ => (min, Vec2::new(max.x, min.y), Vec2::NEG_Y),
        }
    }
}

/// What must be seen: camera, people, flash and what it lights, with a little floor around.
fn action(job: &Job, path: Option<&LightPath>, room: Vec2) -> Area {
    let mut points: Vec<Vec2> = job.sitters.iter().map(|sitter| sitter.stand.truncate()).collect();
    points.push(job.viewpoint.position.truncate());
    if let Some(path) = path {
        points.extend([path.flash.truncate(), path.source().truncate()]);
    }
    points.retain(|point| point.is_finite());
    let low = points.iter().copied().reduce(Vec2::min).unwrap_or(Vec2::ZERO);
    let high = points.iter().copied().reduce(Vec2::max).unwrap_or(room);
    Area::new((low - 1.2).max(Vec2::ZERO), (high + 1.2).min(room))
}

/// A part of a long side: at least from `low` to `high`, else as much as is allowed, around the middle of that.
fn cut(whole: f32, low: f32, high: f32, allowed: f32) -> (f32, f32) {
    let length = allowed.max(high - low).min(whole);
    let from = (0.5 * (low + high - length)).clamp(0.0, whole - length);
    // A wall that is nearly reached is shown rather than cut away.
    let from = if from < 0.4 { 0.0 } else { from };
    let to = from + length;
    (from, if whole - to < 0.4 { whole } else { to })
}

/// More than three sitters get numbers, and their names stand below.
pub(crate) fn numbered(job: &Job) -> bool {
    job.sitters.len() > 3
}

/// What a face of the room is called: "left wall · white paint 0.80".
pub(crate) fn surface_words(job: &Job, face: Face) -> String {
    let side = job.place.openings.iter().find(|opening| opening.face == face);
    if let Some(side) = side.filter(|side| job.place.is_open(face) && side.fills(&job.place.room)) {
        return side.name.clone();
    }
    let material = job.place.room.material(face);
    let name = shorten(&material.name, 40);
    let reflectance = swatch::reflectance(material);
    if name.is_empty() || name == face.words() {
        format!("{} · {reflectance}", face.words())
    } else {
        format!("{} · {name} {reflectance}", face.words())
    }
}

/// Draws the plan; returns the names that found no place.
pub(crate) fn draw(
    svg: &mut Svg,
    view: &View,
    job: &Job,
    answer: Option<&Answer>,
    path: Option<&LightPath>,
    lengths: Lengths,
) -> Vec<String> {
    let mut labels = Labels::new(view.inner);
    svg.rectangle(view.inner.min, view.inner.size(), &[("fill", ink::FLOOR)]);
    svg.start("g", &[("clip-path", "url(#room)")]);
    if let Some(path) = path {
        draw_falloff(svg, view, path);
        draw_beam(svg, view, job, path);
    }
    for block in &job.place.blocks {
        draw_block(svg, view, block);
    }
    svg.end();
    draw_walls(svg, view, job);
    for panel in &job.place.panels {
        draw_board(svg, view, panel);
    }
    if let Some(path) = path {
        draw_patch(svg, view, job, path);
        draw_path(svg, view, path, &mut labels);
    }
    draw_clock(svg, view, job);
    draw_sun(svg, view, job, &mut labels);
    draw_camera(svg, view, job, &mut labels);
    for (index, sitter) in job.sitters.iter().enumerate().rev() {
        draw_sitter(svg, view, sitter, index, numbered(job));
        labels.take(Area::around(
            view.at(sitter.stand),
            Vec2::splat(2.0 * body_radius(view)),
        ));
    }
    if let Some(path) = path {
        let flash = view.at(path.flash);
        if path.flagged {
            draw_flag(svg, flash, view.at(path.face), &mut labels);
        }
        draw_flash(svg, flash);
        labels.take(Area::around(flash, Vec2::splat(18.0)));
    }
    name_clock(view, job, &mut labels);
    name_people(view, job, &mut labels);
    name_light(view, job, answer, path, lengths, &mut labels);
    name_things(view, job, lengths, &mut labels);
    if let Some(path) = path {
        name_falloff(view, job, path, &mut labels);
    }
    let mut outside = Labels::new(view.outer);
    name_walls(view, job, &mut outside);
    draw_dimensions(svg, view, lengths, &mut outside);
    labels.draw(svg);
    outside.draw(svg);
    let bar = Vec2::new(view.inner.max.x, view.outer.max.y - 14.0);
    drawing::scale_bar(svg, bar, view.scale, lengths);
    let mut left_over = labels.left_over().to_vec();
    left_over.extend_from_slice(outside.left_over());
    left_over
}

/// The falloff lines that are drawn, in stops against the face.
const FALLOFF_STOPS: [f32; 4] = [1.0, 0.0, -1.0, -2.0];

fn draw_falloff(svg: &mut Svg, view: &View, path: &LightPath) {
    let centre = view.at(path.source());
    for radius in FALLOFF_STOPS
        .into_iter()
        .filter_map(|stops| path.falloff_radius(stops))
    {
        svg.circle(centre, radius * view.scale, &FALLOFF);
    }
}

fn draw_beam(svg: &mut Svg, view: &View, job: &Job, path: &LightPath) {
    let mut points: Vec<Vec2> = path.rim.iter().map(|&point| view.at(point)).collect();
    points.push(view.at(path.flash));
    svg.path(&hull(&points), true, &BEAM);
    // A patch on ceiling or floor has an outline seen from above; one on a wall is drawn with the wall.
    if let Carrier::Room(Face::Ceiling | Face::Floor) = path.carrier {
        let outline: Vec<Vec2> = path
            .patch(&job.place.room)
            .into_iter()
            .map(|point| view.at(point))
            .collect();
        svg.path(&hull(&outline), true, &LIT);
    }
}

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

/// A side without a wall.
pub(crate) const OPEN_SIDE: [(&str, &str); 3] = [
    ("stroke", ink::SOFT),
    ("stroke-width", "1.2"),
    ("stroke-dasharray", "2 5"),
];

fn draw_walls(svg: &mut Svg, view: &View, job: &Job) {
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

/// The zigzag of a drawing that goes on beyond its edge.
pub(crate) fn draw_break(svg: &mut Svg, from: Vec2, to: Vec2) {
    let along = (to - from).normalize_or_zero();
    let across = Vec2::new(-along.y, along.x) * 7.0;
    let middle = from.lerp(to, 0.5);
    let points = [
        from,
        middle - along * 12.0,
        middle - along * 4.0 + across,
        middle + along * 4.0 - across,
        middle + along * 12.0,
        to,
    ];
    svg.path(
        &points,
        false,
        &[("fill", "none"), ("stroke", ink::SOFT), ("stroke-width", "1.2")],
    );
}

/// Ends of an opening on the sheet, on the inner face of its wall and inside what is shown.
fn opening_ends(view: &View, job: &Job, opening: &Opening) -> (Vec2, Vec2) {
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

fn draw_patch(svg: &mut Svg, view: &View, job: &Job, path: &LightPath) {
    match &path.carrier {
        Carrier::Board(board) => draw_board(svg, view, board),
        Carrier::Room(face) if view.shows(*face) => {
            let (_, _, out) = view.wall(*face);
            let along = Vec2::new(-out.y, out.x);
            let patch = path.patch(&job.place.room);
            let ends = patch.iter().map(|&point| view.at(point).dot(along));
            let (low, high) = ends.fold((f32::INFINITY, f32::NEG_INFINITY), |(l, h), v| {
                (l.min(v), h.max(v))
            });
            if low > high {
                return;
            }
            // The patch lies on the wall's inner face: a hatched strip, with the wall's own colour kept beside it.
            let base = view.wall(*face).0.dot(out);
            let point = |along_part: f32, out_part: f32| along * along_part + out * (base + out_part);
            let (a, b) = (point(low, 1.0), point(high, -7.0));
            let (corner, far) = (
                a.min(b).max(view.inner.min - WALL),
                a.max(b).min(view.inner.max + WALL),
            );
            svg.rectangle(corner, far - corner, &[("fill", ink::SHEET)]);
            svg.rectangle(corner, far - corner, &LIT);
        }
        _ => {}
    }
}

fn draw_path(svg: &mut Svg, view: &View, path: &LightPath, labels: &mut Labels) {
    let (flash, face) = (view.at(path.flash), view.at(path.face));
    let short = (face - view.at(path.source())).normalize_or_zero() * (body_radius(view) + 3.0);
    match path.carrier {
        Carrier::Nothing => {
            arrow(svg, flash, face - short);
            labels.keep_off(flash, face);
        }
        _ => {
            let target = view.at(path.target);
            svg.line(flash, target, &[("stroke", ink::GLOW), ("stroke-width", "1.8")]);
            arrow(svg, target, face - short);
            labels.keep_off(flash, target);
            labels.keep_off(target, face);
        }
    }
}

/// A line of light with a head.
pub(crate) fn arrow(svg: &mut Svg, from: Vec2, to: Vec2) {
    let along = (to - from).normalize_or_zero();
    let across = Vec2::new(-along.y, along.x);
    let neck = to - along * 11.0;
    svg.line(from, neck, &[("stroke", ink::GLOW), ("stroke-width", "2.6")]);
    svg.path(
        &[to, neck + across * 5.0, neck - across * 5.0],
        true,
        &[("fill", ink::GLOW)],
    );
}

/// Direction on the sheet in which a clock hour lies, the camera being at 6.
fn hour_direction(to_camera: Vec2, hour: f32) -> Vec2 {
    // On the sheet y runs down, so a turn from x towards y looks clockwise, as a clock runs.
    Vec2::from_angle((hour - 6.0) * std::f32::consts::TAU / 12.0).rotate(to_camera)
}

/// Middle and radius of the clock: around a small group, else around the first sitter.
fn clock_place(view: &View, job: &Job) -> Option<(Vec2, f32)> {
    let first = job.sitters.first()?.stand;
    let low = job
        .sitters
        .iter()
        .map(|sitter| sitter.stand)
        .fold(first, Vec3::min);
    let high = job
        .sitters
        .iter()
        .map(|sitter| sitter.stand)
        .fold(first, Vec3::max);
    let reach = 0.5 * (high - low).truncate().length();
    let (middle, metres) = if reach < 2.2 {
        (0.5 * (low + high), reach + 0.62)
    } else {
        (first, 0.62)
    };
    Some((
        view.at(middle),
        (metres * view.scale).max(body_radius(view) + 14.0),
    ))
}

/// Middle and radius of the clock, and the direction of its six.
fn clock(view: &View, job: &Job) -> Option<(Vec2, f32, Vec2)> {
    let (centre, radius) = clock_place(view, job)?;
    Some((
        centre,
        radius,
        (view.at(job.viewpoint.position) - centre).try_normalize()?,
    ))
}

fn draw_clock(svg: &mut Svg, view: &View, job: &Job) {
    let Some((centre, radius, to_camera)) = clock(view, job) else {
        return;
    };
    svg.start("g", &[("clip-path", "url(#room)")]);
    clock_face(svg, centre, radius, to_camera);
    svg.end();
}

/// Where the sun or the moon stands, at the edge of what is shown, with a line towards the first sitter.
fn draw_sun(svg: &mut Svg, view: &View, job: &Job, labels: &mut Labels) {
    const EDGE: f32 = 30.0;
    let disc = job.outdoors.as_ref().and_then(|outdoors| outdoors.disc.as_ref());
    let (Some(disc), Some(first)) = (disc, job.sitters.first()) else {
        return;
    };
    let centre = view.at(first.stand);
    let ahead = view.at(first.stand + disc.towards.with_z(0.0)) - centre;
    let Some(towards) = ahead.try_normalize() else {
        return;
    };
    let inside = Area::new(
        view.inner.min + Vec2::splat(EDGE),
        view.inner.max - Vec2::splat(EDGE),
    );
    // How far one can go from the sitter before the nearest edge that lies ahead.
    let reach = |from: f32, step: f32, low: f32, high: f32| match step {
        step if step > 1e-4 => (high - from) / step,
        step if step < -1e-4 => (low - from) / step,
        _ => f32::MAX,
    };
    let far = reach(centre.x, towards.x, inside.min.x, inside.max.x).min(reach(
        centre.y,
        towards.y,
        inside.min.y,
        inside.max.y,
    ));
    if far < 2.0 * EDGE {
        return;
    }
    let at = centre + towards * far;
    let line = [
        ("stroke", ink::GLOW),
        ("stroke-width", "1.4"),
        ("stroke-dasharray", "7 5"),
    ];
    svg.line(
        at - towards * 20.0,
        at - towards * (0.5 * far).clamp(40.0, 110.0),
        &line,
    );
    svg.circle(at, 7.0, &[("fill", ink::GLOW)]);
    for ray in 0..8 {
        let direction = Vec2::from_angle(std::f32::consts::FRAC_PI_4 * ray as f32);
        svg.line(
            at + direction * 10.0,
            at + direction * 15.0,
            &[("stroke", ink::GLOW), ("stroke-width", "1.6")],
        );
    }
    labels.take(Area::around(at, Vec2::splat(32.0)));
    let height = f64::from(disc.towards.z.clamp(-1.0, 1.0).asin()).to_degrees();
    let words = format!("{}, {} up", disc.light.name, degrees(height));
    labels.near(at, 18.0, &words, Hand::PLAIN);
}

fn name_clock(view: &View, job: &Job, labels: &mut Labels) {
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

/// A ring with a stroke for every hour.
pub(crate) fn clock_face(svg: &mut Svg, centre: Vec2, radius: f32, to_camera: Vec2) {
    svg.circle(
        centre,
        radius,
        &[
            ("fill", "none"),
            ("stroke", ink::LINE),
            ("stroke-width", "1"),
            ("stroke-opacity", "0.7"),
        ],
    );
    // A small face has room for the quarters only.
    for hour in (1..=12).filter(|hour| hour % 3 == 0 || radius > 20.0) {
        let direction = hour_direction(to_camera, hour as f32);
        let inward = (if hour % 3 == 0 { 0.14 } else { 0.07 } * radius).clamp(3.0, 8.0);
        let ends = (
            centre + direction * radius,
            centre + direction * (radius - inward),
        );
        svg.line(ends.0, ends.1, &[("stroke", ink::SOFT), ("stroke-width", "1.3")]);
    }
}

/// Radius of a person from above in pixels.
pub(crate) fn body_radius(view: &View) -> f32 {
    (0.23 * view.scale).max(15.0)
}

pub(crate) fn draw_sitter(svg: &mut Svg, view: &View, sitter: &Sitter, index: usize, numbered: bool) {
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
    svg.path(&oval(0.5, 0.42), true, &head);
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
    for shape in [body, lens] {
        svg.path(
            &shape,
            true,
            &[("fill", ink::INK), ("stroke", ink::SHEET), ("stroke-width", "1")],
        );
    }
    labels.take(Area::around(at - ahead * 3.0, Vec2::new(28.0, 26.0)));
}

/// The flash: a diamond, so that it cannot be taken for a person or the camera.
pub(crate) fn draw_flash(svg: &mut Svg, at: Vec2) {
    let points = [
        Vec2::new(0.0, -8.0),
        Vec2::new(6.5, 0.0),
        Vec2::new(0.0, 8.0),
        Vec2::new(-6.5, 0.0),
    ]
    .map(|p| at + p);
    svg.path(
        &points,
        true,
        &[("fill", ink::GLOW), ("stroke", ink::SHEET), ("stroke-width", "2")],
    );
}

/// A flag: a black card between head and face.
fn draw_flag(svg: &mut Svg, flash: Vec2, face: Vec2, labels: &mut Labels) {
    let way = (face - flash).normalize_or(Vec2::NEG_Y);
    let (middle, across) = (flash + way * 15.0, Vec2::new(-way.y, way.x) * 11.0);
    svg.line(
        middle - across,
        middle + across,
        &[("stroke", ink::INK), ("stroke-width", "6")],
    );
    svg.line(
        middle - across * 0.88,
        middle + across * 0.88,
        &[("stroke", "#000000"), ("stroke-width", "3.6")],
    );
    labels.take(Area::around(middle, across.abs() * 2.0 + 6.0));
    labels.near(middle + across, 5.0, "flag", Hand::SMALL);
}

fn name_people(view: &View, job: &Job, labels: &mut Labels) {
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

fn name_light(
    view: &View,
    job: &Job,
    answer: Option<&Answer>,
    path: Option<&LightPath>,
    lengths: Lengths,
    labels: &mut Labels,
) {
    let camera = job.viewpoint.position;
    let up = |height: f32| lengths.exact(f64::from(height));
    let on_camera = path.is_some_and(|path| on_camera(path.flash, camera));
    let words = if on_camera {
        "camera with the flash".to_owned()
    } else {
        format!("camera, {} up", up(camera.z))
    };
    labels.near(view.at(camera), 17.0, &words, Hand::PLAIN);
    let (Some(answer), Some(path)) = (answer, path) else {
        return;
    };
    if !on_camera {
        labels.near(
            view.at(path.flash),
            11.0,
            &format!("flash, {} up", up(path.flash.z)),
            Hand::LIGHT,
        );
    }
    let legs = answer.aim.legs_m;
    let (flash, face, target) = (view.at(path.flash), view.at(path.face), view.at(path.target));
    if matches!(path.carrier, Carrier::Nothing) {
        labels.along(flash, face, &lengths.about(legs[0]), Hand::LIGHT);
        return;
    }
    labels.along(target, face, &lengths.about(legs[1]), Hand::LIGHT);
    if (target - flash).length() > 30.0 {
        labels.along(flash, target, &lengths.about(legs[0]), Hand::LIGHT);
    }
    let height = lengths.about(f64::from(path.target.z));
    match &answer.aim.route {
        Route::HeldBoard { name, centre, .. } => {
            let words = format!("{}, held {} up", shorten(name, 22), up(centre.z));
            labels.near(view.at(*centre), 12.0, &words, Hand::PLAIN);
        }
        Route::Bounce {
            face: Face::Ceiling | Face::Floor,
            ..
        } => {
            labels.near(target, 8.0, "aim here", Hand::LIGHT);
        }
        _ => {
            labels.near(target, 12.0, &format!("aim {height} up"), Hand::LIGHT);
        }
    }
}

fn name_things(view: &View, job: &Job, lengths: Lengths, labels: &mut Labels) {
    for panel in &job.place.panels {
        labels.near(
            view.at(panel.centre),
            10.0,
            &shorten(&panel.name, 24),
            Hand::SMALL,
        );
    }
    for block in &job.place.blocks {
        name_block(view, block, lengths, labels);
    }
}

/// A block's name stands in it, level or turned, with its height if there is space; else beside it.
fn name_block(view: &View, block: &Block, lengths: Lengths, labels: &mut Labels) {
    let clip = |point: Vec3| view.at(point).clamp(view.inner.min, view.inner.max);
    let (a, b) = (clip(block.min), clip(block.max));
    let (centre, size) = (0.5 * (a + b), (a - b).abs());
    let name = shorten(&block.name, 24);
    let tall = format!("{name}, {} high", lengths.exact(f64::from(block.max.z)));
    for words in [&tall, &name] {
        let needed = Vec2::new(text_width(words, Hand::SMALL.size), Hand::SMALL.size * 1.5);
        for turned in [false, true] {
            let space = if turned { Vec2::new(size.y, size.x) } else { size };
            if needed.cmple(space - 6.0).all() && labels.at(centre, words, Hand::SMALL, turned) {
                return;
            }
        }
    }
    labels.take(Area::around(centre, size));
    labels.near(centre, 0.5 * size.min_element() + 4.0, &name, Hand::SMALL);
}

fn name_falloff(view: &View, job: &Job, path: &LightPath, labels: &mut Labels) {
    let centre = view.at(path.source());
    for stops in FALLOFF_STOPS {
        let Some(radius) = path.falloff_radius(stops) else {
            continue;
        };
        let words = if stops == 0.0 {
            "±0".to_owned()
        } else {
            signed(f64::from(stops), 0)
        };
        // Anywhere on the circle will do; the first free place is taken, from the sitter's side on.
        let start = (view.at(path.face) - centre).to_angle();
        for step in 1..30 {
            let turn = (step as f32 * 0.5).ceil() * if step % 2 == 0 { 0.2 } else { -0.2 };
            let point = centre + Vec2::from_angle(start + turn) * radius * view.scale;
            let covered = job.place.blocks.iter().any(|block| {
                let (a, b) = (view.at(block.min), view.at(block.max));
                Area::new(a.min(b), a.max(b)).grown(8.0).has(point)
            });
            if view.inner.has(point) && !covered && labels.at(point, &words, Hand::SMALL, false) {
                break;
            }
        }
    }
}

fn name_walls(view: &View, job: &Job, labels: &mut Labels) {
    for opening in job
        .place
        .openings
        .iter()
        .filter(|opening| view.shows(opening.face) && !opening.fills(&job.place.room))
    {
        let (from, to) = opening_ends(view, job, opening);
        let (_, _, out) = view.wall(opening.face);
        if (to - from).length() > 4.0 {
            let words = fit(&opening.name, 12.0, (to - from).length().max(130.0));
            let middle = from.lerp(to, 0.5) + out * (WALL + 11.0);
            if !labels.at(middle, &words, Hand::SMALL, out.x != 0.0) {
                labels.near(middle, 2.0, &words, Hand::SMALL);
            }
        }
    }
    for face in [Face::Left, Face::Right, Face::BehindCamera, Face::BehindSitter] {
        let full = surface_words(job, face);
        if !view.shows(face) {
            labels.leave_over(&full);
            continue;
        }
        let (from, to, out) = view.wall(face);
        let mut place = |words: &str| {
            [0.5, 0.35, 0.65, 0.25, 0.75, 0.18, 0.82].into_iter().any(|t| {
                labels.at(
                    from.lerp(to, t) + out * (WALL + 12.0),
                    words,
                    Hand::PLAIN,
                    out.x != 0.0,
                )
            })
        };
        if !place(&full) {
            place(face.words());
            labels.leave_over(&full);
        }
    }
}

/// Dimension lines for width and length of the room.
fn draw_dimensions(svg: &mut Svg, view: &View, lengths: Lengths, labels: &mut Labels) {
    let Area { min, max } = view.inner;
    let whole = |shown: f32, room: f32| {
        let words = lengths.exact(f64::from(room));
        if shown < room {
            format!("{words} in all")
        } else {
            words
        }
    };
    let shown = view.shown.size();
    let y = max.y + WALL + 34.0;
    dimension(
        svg,
        Vec2::new(min.x, y),
        Vec2::new(max.x, y),
        &whole(shown.x, view.room.x),
        labels,
    );
    let x = min.x - WALL - 34.0;
    dimension(
        svg,
        Vec2::new(x, max.y),
        Vec2::new(x, min.y),
        &whole(shown.y, view.room.y),
        labels,
    );
}

/// A level or upright line with a short stroke at either end, broken by its words.
pub(crate) fn dimension(svg: &mut Svg, from: Vec2, to: Vec2, words: &str, labels: &mut Labels) {
    let along = (to - from).normalize_or_zero();
    let tick = Vec2::new(-along.y, along.x) * 4.0 + along * 4.0;
    let middle = 0.5 * (from + to);
    let gap = along * (0.5 * text_width(words, Hand::SMALL.size) + 3.0);
    let turned = along.y.abs() > along.x.abs();
    let broken = labels.at(middle, words, Hand::SMALL, turned);
    let ends = if broken {
        vec![(from, middle - gap), (middle + gap, to)]
    } else {
        vec![(from, to)]
    };
    for (a, b) in ends {
        svg.line(a, b, &[("stroke", ink::LINE), ("stroke-width", "1")]);
    }
    for end in [from, to] {
        svg.line(
            end - tick,
            end + tick,
            &[("stroke", ink::SOFT), ("stroke-width", "1.2")],
        );
    }
}

/// An arc between two directions around a point, as SVG writes it.
pub(crate) fn arc(centre: Vec2, radius: f32, from: Vec2, to: Vec2) -> String {
    let (a, b) = (centre + from * radius, centre + to * radius);
    let sweep = u8::from(from.perp_dot(to) > 0.0);
    let r = num(radius);
    format!(
        "M{} {}A{r} {r} 0 0 {sweep} {} {}",
        num(a.x),
        num(a.y),
        num(b.x),
        num(b.y)
    )
}

/// Degrees as they stand beside an arc.
pub(crate) fn degrees(value: f64) -> String {
    format!("{}°", plain(value.abs(), 0))
}
