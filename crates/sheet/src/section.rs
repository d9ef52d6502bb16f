//! The light's way from the side.
//!
//! The drawing plane follows the light: it stands upright through flash and lit patch, and is folded at the patch
//! towards the face, so that both parts of the way, their heights and their angles appear in true size.

use crate::label::{Area, Hand, Labels};
use crate::path::{LightPath, Surface};
use crate::svg::{Svg, ink, num};
use crate::swatch::{self, surface_words};
use crate::symbols::{BEAM, LIT, OPEN_SIDE, arc, arrow, dimension, draw_break, draw_flash, scale_bar};
use crate::voice::Voice;
use crate::wording::{aim, nouns, on_drawings};
use answer::{Answer, Job};
use glam::{Vec2, Vec3};
use scene::{Face, Panel};

/// Space around the air: left, right, above, below.
const AROUND: [f32; 4] = [34.0, 30.0, 38.0, 66.0];
const WALL: f32 = 12.0;
/// A side view is not drawn larger than this, in pixels per metre.
const MOST_SCALE: f32 = 150.0;

/// How the side view is laid on the sheet.
pub(crate) struct View {
    inner: Area,
    pub(crate) outer: Area,
    scale: f32,
    /// Left end of what is shown, in metres along the plane; the lit patch is at 0.
    left: f32,
    spots: Spots,
}

/// Where things stand along the plane, in metres from the lit patch (or from the flash that lights directly).
#[derive(Clone, Copy, Debug)]
struct Spots {
    flash: f32,
    face: f32,
    /// Whether a wall closes the drawing at 0.
    wall: Option<Face>,
}

impl Spots {
    fn new(job: &Job, path: Option<&LightPath>) -> Self {
        let Some(path) = path else {
            let apart = job.sitters.first().map_or(2.0, |sitter| {
                (sitter.face() - job.viewpoint.position).truncate().length()
            });
            return Self {
                flash: 0.0,
                face: apart,
                wall: None,
            };
        };
        let flat = |point: Vec3| point.truncate();
        let Some(source) = (!matches!(path.surface, Surface::Nothing)).then(|| flat(path.source())) else {
            return Self {
                flash: 0.0,
                face: (flat(path.face) - flat(path.flash)).length(),
                wall: None,
            };
        };
        let (to_flash, to_face) = (flat(path.flash) - source, flat(path.face) - source);
        let wall = match path.surface {
            Surface::Room(face) if !matches!(face, Face::Ceiling | Face::Floor) => Some(face),
            _ => None,
        };
        // Off a ceiling or floor the light may go on the way it came; off a wall or board it comes back.
        let goes_on =
            matches!(path.surface, Surface::Room(Face::Ceiling | Face::Floor)) && to_flash.dot(to_face) < 0.0;
        let flash = to_flash.length() * if goes_on { -1.0 } else { 1.0 };
        Self {
            flash,
            face: to_face.length(),
            wall,
        }
    }
}

impl View {
    pub(crate) fn new(job: &Job, path: Option<&LightPath>, area: Area) -> Self {
        let spots = Spots::new(job, path);
        let left = if spots.wall.is_some() {
            0.0
        } else {
            spots.flash.min(spots.face).min(0.0) - 0.75
        };
        let right = spots.flash.max(spots.face).max(0.0) + 0.95;
        let height = job.place.room.size.z.max(0.1);
        let most = area.size() - Vec2::new(AROUND[0] + AROUND[1], AROUND[2] + AROUND[3]);
        let scale = (most / Vec2::new((right - left).max(0.1), height))
            .min_element()
            .min(MOST_SCALE);
        let corner = area.min + Vec2::new(AROUND[0], AROUND[2]);
        let inner = Area::new(corner, corner + Vec2::new(right - left, height) * scale);
        let outer = Area::new(area.min, inner.max + Vec2::new(AROUND[1], AROUND[3]));
        Self {
            inner,
            outer,
            scale,
            left,
            spots,
        }
    }

    fn at(&self, along: f32, height: f32) -> Vec2 {
        Vec2::new(
            self.inner.min.x + (along - self.left) * self.scale,
            self.inner.max.y - height * self.scale,
        )
    }
}

/// Draws the side view; returns the names that found no place.
pub(crate) fn draw(
    svg: &mut Svg,
    view: &View,
    job: &Job,
    answer: Option<&Answer>,
    path: Option<&LightPath>,
    voice: Voice,
) -> Vec<String> {
    let mut labels = Labels::new(view.inner);
    svg.rectangle(view.inner.min, view.inner.size(), &[("fill", ink::FLOOR)]);
    if let Some(path) = path {
        draw_beam(svg, view, job, path);
    }
    let mut left_over = draw_room(svg, view, job, voice);
    let face_height = job.sitters.first().map_or(1.6, |sitter| sitter.face_height);
    let face = view.at(view.spots.face, face_height);
    let flash = view.at(
        view.spots.flash,
        path.map_or(job.viewpoint.position.z, |path| path.flash.z),
    );
    let source = path.map_or(flash, |path| match path.surface {
        Surface::Nothing => flash,
        Surface::Board(_) => view.at(0.0, path.source().z),
        _ => view.at(0.0, path.target.z),
    });
    if !job.sitters.is_empty() {
        draw_person(svg, view, face, source, &mut labels);
    }
    draw_stand(svg, view, job, path, [flash, face], &mut labels);
    if let (Some(answer), Some(path)) = (answer, path) {
        draw_light(svg, view, path, [flash, face, source], &mut labels);
        draw_angles(svg, answer, path, [flash, face, source], view, voice, &mut labels);
        name_lengths(answer, path, [flash, face, source], voice, &mut labels);
    }
    name_heights(view, job, path, [flash, face], voice, &mut labels);
    labels.draw(svg);
    let bar = Vec2::new(view.inner.max.x, view.outer.max.y - 14.0);
    scale_bar(svg, bar, view.scale, voice);
    left_over.extend_from_slice(labels.left_over());
    left_over
}

/// Floor and ceiling with their colours, and the wall that the light meets; returns what was not named in full.
fn draw_room(svg: &mut Svg, view: &View, job: &Job, voice: Voice) -> Vec<String> {
    let Area { min, max } = view.inner;
    let width = max.x - min.x;
    draw_band(
        svg,
        view,
        job,
        Face::Ceiling,
        min - Vec2::new(0.0, WALL),
        Vec2::new(width, WALL),
    );
    draw_band(
        svg,
        view,
        job,
        Face::Floor,
        Vec2::new(min.x, max.y),
        Vec2::new(width, WALL),
    );
    let mut outside = Labels::new(view.outer);
    match view.spots.wall {
        Some(face) => {
            let size = Vec2::new(WALL, max.y - min.y + 2.0 * WALL);
            draw_band(svg, view, job, face, min - Vec2::splat(WALL), size);
            let middle = Vec2::new(min.x - WALL - 11.0, 0.5 * (min.y + max.y));
            outside.at(middle, &nouns::face(voice, face).bare, Hand::PLAIN, true);
        }
        None => draw_break(svg, Vec2::new(min.x, max.y), min),
    }
    draw_break(svg, Vec2::new(max.x, min.y), max);
    let x = max.x + 17.0;
    let height = voice.exact(f64::from(job.place.room.size.z));
    dimension(
        svg,
        Vec2::new(x, max.y),
        Vec2::new(x, min.y),
        &height,
        &mut outside,
    );
    let middle = 0.5 * (min.x + max.x);
    for (face, y) in [
        (Face::Ceiling, min.y - WALL - 12.0),
        (Face::Floor, max.y + WALL + 12.0),
    ] {
        let full = surface_words(voice, job, face);
        if !outside.at(Vec2::new(middle, y), &full, Hand::PLAIN, false) {
            outside.at(
                Vec2::new(middle, y),
                &nouns::face(voice, face).bare,
                Hand::PLAIN,
                false,
            );
            outside.leave_over(&full);
        }
    }
    outside.draw(svg);
    outside.left_over().to_vec()
}

/// A face of the room as a band of its colour, or as a line of dots where that side is open.
fn draw_band(svg: &mut Svg, view: &View, job: &Job, face: Face, corner: Vec2, size: Vec2) {
    let Area { min, max } = view.inner;
    if job.place.is_open(face) {
        let near = match face {
            Face::Ceiling => [min, Vec2::new(max.x, min.y)],
            _ => [min, Vec2::new(min.x, max.y)],
        };
        svg.line(near[0], near[1], &OPEN_SIDE);
        return;
    }
    let fill = swatch::colour(&job.place.room.material(face).reflectance);
    svg.rectangle(
        corner,
        size,
        &[("fill", &fill), ("stroke", ink::SOFT), ("stroke-width", "1.2")],
    );
}

/// Rounded limbs: from, to and width, in metres ahead of and below the eyes.
fn limbs(eyes: f32) -> Vec<[f32; 5]> {
    // Below this height of the eyes an adult sits (ours); whoever is smaller is drawn sitting as well.
    if eyes < 1.38 {
        let seat = 0.74f32.min(0.6 * eyes);
        vec![
            [0.40, seat + 0.02, 0.40, eyes - 0.065, 0.12],
            [0.42, eyes - 0.04, 0.54, eyes - 0.04, 0.07],
            [0.0, seat, 0.40, seat + 0.02, 0.16],
            [0.0, 0.3, 0.0, seat - 0.03, 0.22],
            [0.0, 0.08, 0.0, 0.24, 0.1],
        ]
    } else {
        let hip = 0.5 * eyes;
        vec![
            [0.0, hip, 0.0, eyes - 0.075, 0.14],
            [0.02, eyes - 0.04, 0.14, eyes - 0.04, 0.07],
            [0.0, 0.3, 0.0, hip, 0.22],
            [0.0, 0.08, 0.0, 0.24, 0.1],
        ]
    }
}

/// A person from the side, facing the light.
fn draw_person(svg: &mut Svg, view: &View, face: Vec2, source: Vec2, labels: &mut Labels) {
    let s = view.scale;
    let looks = if source.x <= face.x { -1.0 } else { 1.0 };
    let at = |ahead: f32, below: f32| face + Vec2::new(ahead * looks, below) * s;
    let eyes = (view.inner.max.y - face.y) / s;
    if eyes < 1.38 {
        // What the sitter sits on.
        let seat = 0.74f32.min(0.6 * eyes) + 0.09;
        let (a, b) = (at(-0.17, seat), at(0.2, eyes));
        svg.rectangle(
            a.min(b),
            (a - b).abs(),
            &[("fill", "none"), ("stroke", ink::LINE), ("stroke-width", "1.2")],
        );
    }
    let limbs = limbs(eyes);
    // First a rim around all limbs, then the limbs: together they have one outline.
    for (rim, stroke) in [(2.8, ink::SOFT), (0.0, ink::BODY)] {
        for [x0, y0, x1, y1, width] in &limbs {
            let width = num(width * s + rim);
            let style = [
                ("stroke", stroke),
                ("stroke-width", width.as_str()),
                ("stroke-linecap", "round"),
            ];
            svg.line(at(*x0, *y0), at(*x1, *y1), &style);
        }
    }
    for [x0, y0, x1, y1, width] in limbs {
        let (a, b) = (at(x0, y0), at(x1, y1));
        labels.take(Area::new(a.min(b) - 0.5 * width * s, a.max(b) + 0.5 * width * s));
    }
    let nose = [at(0.15, 0.045), at(0.09, -0.02), at(0.08, 0.06)];
    svg.path(&nose, true, &[("fill", ink::SOFT)]);
    svg.circle(face, HEAD * s, &[("fill", ink::SOFT)]);
    labels.take(Area::around(face, Vec2::splat(2.2 * HEAD * s)));
}

/// Half the height of a drawn head in metres.
const HEAD: f32 = 0.115;

/// What the flash is on: the camera, or a stand. Without an answer only the camera.
fn draw_stand(
    svg: &mut Svg,
    view: &View,
    job: &Job,
    path: Option<&LightPath>,
    [flash, face]: [Vec2; 2],
    labels: &mut Labels,
) {
    let camera = job.viewpoint.position;
    let looks = if face.x >= flash.x { 1.0 } else { -1.0 };
    let floor = Vec2::new(flash.x, view.inner.max.y);
    match path {
        Some(path) if !job.is_on_camera(path.flash) => {
            svg.line(flash, floor, &[("stroke", ink::LINE), ("stroke-width", "1.6")]);
            let foot = Vec2::new(14.0, 0.0);
            svg.line(
                floor - foot,
                floor + foot,
                &[("stroke", ink::LINE), ("stroke-width", "2.4")],
            );
            labels.keep_off(flash, floor);
        }
        Some(_) => {
            let at = Vec2::new(flash.x, view.at(0.0, camera.z).y.max(flash.y + 15.0));
            // Folded onto one plane, camera and head can meet; then the head is what matters.
            if (at - face).abs().max_element() > HEAD * view.scale + 16.0 {
                draw_camera(svg, at, looks, labels);
            }
        }
        None => draw_camera(svg, flash, looks, labels),
    }
}

fn draw_camera(svg: &mut Svg, at: Vec2, looks: f32, labels: &mut Labels) {
    svg.rectangle(
        at - Vec2::new(9.0, 7.0),
        Vec2::new(18.0, 14.0),
        &[("fill", ink::INK), ("rx", "2"), ("stroke", ink::SHEET)],
    );
    let lens = at + Vec2::new(if looks > 0.0 { 9.0 } else { -17.0 }, -4.5);
    svg.rectangle(
        lens,
        Vec2::new(8.0, 9.0),
        &[("fill", ink::INK), ("stroke", ink::SHEET)],
    );
    labels.take(Area::around(
        at + Vec2::new(looks * 4.0, 0.0),
        Vec2::new(28.0, 16.0),
    ));
}

/// Direction on the sheet of the beam's middle, turned by so much upward.
fn beam_way(view: &View, path: &LightPath, turn: f32) -> Vec2 {
    let level = (path.target - path.flash).truncate().length();
    let heading = if path_heads_left(view, path) { -1.0 } else { 1.0 };
    let tilt = (path.target.z - path.flash.z).atan2(level) + turn;
    Vec2::new(heading * tilt.cos(), -tilt.sin())
}

/// Whether the light leaves the flash towards the left of the drawing.
fn path_heads_left(view: &View, path: &LightPath) -> bool {
    match path.surface {
        Surface::Nothing => view.spots.face < view.spots.flash,
        _ => view.spots.flash > 0.0,
    }
}

/// Where a ray ends: at the ceiling, the floor, the wall, or the edge of the drawing.
fn end(view: &View, from: Vec2, way: Vec2) -> Vec2 {
    let Area { min, max } = view.inner;
    let reach = |limit: [f32; 2], from: f32, way: f32| {
        if way.abs() < 1e-6 {
            f32::INFINITY
        } else {
            ((if way > 0.0 { limit[1] } else { limit[0] }) - from) / way
        }
    };
    let t = reach([min.x, max.x], from.x, way.x)
        .min(reach([min.y, max.y], from.y, way.y))
        .max(0.0);
    from + way * if t.is_finite() { t } else { 0.0 }
}

fn draw_beam(svg: &mut Svg, view: &View, job: &Job, path: &LightPath) {
    let flash = view.at(view.spots.flash, path.flash.z);
    let ways = [path.half_height, -path.half_height].map(|turn| beam_way(view, path, turn));
    if let Surface::Board(board) = &path.surface {
        let (a, b) = board_ends(view, board);
        let mut outline = vec![flash];
        outline.extend(ways.iter().map(|&way| meet(flash, way, a, b)));
        svg.path(&outline, true, &BEAM);
        return;
    }
    let ends = ways.map(|way| end(view, flash, way));
    let mut outline = vec![flash, ends[0]];
    // Where the two edges meet different surfaces, the corner between them is lit as well.
    let Area { min, max } = view.inner;
    for corner in [min, Vec2::new(min.x, max.y), Vec2::new(max.x, min.y), max] {
        let way = corner - flash;
        if ways[0].perp_dot(way) * ways[1].perp_dot(way) < 0.0 && way.dot(ways[0] + ways[1]) > 0.0 {
            outline.push(corner);
        }
    }
    outline.push(ends[1]);
    svg.path(&outline, true, &BEAM);
    draw_patch(svg, view, job, path, ends);
}

/// The lit patch as a hatched strip on the wall or ceiling.
fn draw_patch(svg: &mut Svg, view: &View, job: &Job, path: &LightPath, ends: [Vec2; 2]) {
    let Area { min, max } = view.inner;
    let Surface::Room(face) = path.surface else { return };
    let heights: Vec<f32> = path.patch(&job.place.room).iter().map(|point| point.z).collect();
    let (corner, size) = match face {
        Face::Ceiling | Face::Floor => {
            let y = if face == Face::Ceiling {
                min.y - 1.0
            } else {
                max.y - 7.0
            };
            let on_it = |point: Vec2| {
                if face == Face::Ceiling {
                    point.y <= min.y + 0.5
                } else {
                    point.y >= max.y - 0.5
                }
            };
            // An edge that misses the ceiling meets the end of the drawing, which bounds the strip as well.
            let x = ends.map(|point| {
                if on_it(point) {
                    point.x
                } else {
                    point.x.clamp(min.x, max.x)
                }
            });
            (Vec2::new(x[0].min(x[1]), y), Vec2::new((x[0] - x[1]).abs(), 8.0))
        }
        _ => {
            let low = heights.iter().copied().fold(f32::INFINITY, f32::min);
            let high = heights.iter().copied().fold(f32::NEG_INFINITY, f32::max);
            if low > high {
                return;
            }
            let top = view.at(0.0, high).y.max(min.y);
            (
                Vec2::new(min.x - 1.0, top),
                Vec2::new(8.0, view.at(0.0, low).y.min(max.y) - top),
            )
        }
    };
    svg.rectangle(corner, size, &[("fill", ink::SHEET)]);
    svg.rectangle(corner, size, &LIT);
}

/// The two ends of a board seen from the side.
fn board_ends(view: &View, board: &Panel) -> (Vec2, Vec2) {
    let level = board.normal.truncate().length();
    let along = Vec2::new(-board.normal.z, level).normalize_or(Vec2::Y) * board.size.y * 0.5;
    (
        view.at(-along.x, board.centre.z - along.y),
        view.at(along.x, board.centre.z + along.y),
    )
}

/// Where a ray meets the line through two points, or the nearer end where it passes beside it.
fn meet(from: Vec2, way: Vec2, a: Vec2, b: Vec2) -> Vec2 {
    let line = b - a;
    let t = (from - a).perp_dot(way) / line.perp_dot(way);
    a + line * if t.is_finite() { t.clamp(0.0, 1.0) } else { 0.5 }
}

fn draw_light(
    svg: &mut Svg,
    view: &View,
    path: &LightPath,
    [flash, face, source]: [Vec2; 3],
    labels: &mut Labels,
) {
    if let Surface::Board(board) = &path.surface {
        let (a, b) = board_ends(view, board);
        let fill = swatch::colour(&board.front.reflectance);
        svg.line(a, b, &[("stroke", ink::INK), ("stroke-width", "7")]);
        svg.line(a, b, &[("stroke", &fill), ("stroke-width", "4")]);
        labels.keep_off(a, b);
    }
    svg.start("g", &[("data-what", "light-beside")]);
    if !matches!(path.surface, Surface::Nothing) {
        svg.line(flash, source, &[("stroke", ink::GLOW), ("stroke-width", "1.8")]);
        labels.keep_off(flash, source);
    }
    let stop = face - (face - source).normalize_or_zero() * (HEAD * view.scale + 3.0);
    arrow(svg, source, stop);
    svg.end();
    labels.keep_off(source, stop);
    draw_flash(svg, flash);
    labels.take(Area::around(flash, Vec2::splat(18.0)));
}

/// Tilt of the head and height of the light above the eyes, each as an arc from the level.
fn draw_angles(
    svg: &mut Svg,
    answer: &Answer,
    path: &LightPath,
    [flash, face, source]: [Vec2; 3],
    view: &View,
    voice: Voice,
    labels: &mut Labels,
) {
    let mut angle = |corner: Vec2, level: Vec2, way: Vec2, radius: f32, words: &str| {
        let end = corner + level * (radius + 24.0);
        svg.line(
            corner,
            end,
            &[
                ("stroke", ink::SOFT),
                ("stroke-width", "1"),
                ("stroke-dasharray", "3 4"),
            ],
        );
        let line = [("fill", "none"), ("stroke", ink::SOFT), ("stroke-width", "1.3")];
        svg.drawn(&arc(corner, radius, level, way), &line);
        labels.keep_off(corner, end);
        labels.keep_off(corner + level * radius, corner + way * radius);
        let middle = corner + (level + way).normalize_or(level) * radius;
        labels.near(middle, 6.0, words, Hand::PLAIN);
    };
    let tilt = answer.aim.tilt_deg;
    let heading = if path_heads_left(view, path) {
        Vec2::NEG_X
    } else {
        Vec2::X
    };
    if aim::to_five(tilt) >= 5.0 {
        let words = aim::tilted(voice, tilt);
        angle(flash, heading, beam_way(view, path, 0.0), 58.0, &words);
    }
    let height = answer.key.elevation_deg;
    if height.abs() >= 0.5 {
        let to_light = (source - face).normalize_or_zero();
        let level = Vec2::new(if to_light.x < 0.0 { -1.0 } else { 1.0 }, 0.0);
        angle(
            face,
            level,
            to_light,
            HEAD * view.scale + 50.0,
            &voice.elevation(height),
        );
    }
}

fn name_lengths(
    answer: &Answer,
    path: &LightPath,
    [flash, face, source]: [Vec2; 3],
    voice: Voice,
    labels: &mut Labels,
) {
    let legs = answer.aim.legs_m;
    if matches!(path.surface, Surface::Nothing) {
        labels.along(flash, face, &voice.about(legs[0]), Hand::LIGHT);
    } else {
        labels.along(source, face, &voice.about(legs[1]), Hand::LIGHT);
        labels.along(flash, source, &voice.about(legs[0]), Hand::LIGHT);
    }
}

fn name_heights(
    view: &View,
    job: &Job,
    path: Option<&LightPath>,
    [flash, face]: [Vec2; 2],
    voice: Voice,
    labels: &mut Labels,
) {
    if let Some(sitter) = job.sitters.first() {
        let wordings = on_drawings::eyes(voice, &sitter.name, sitter.face_height);
        labels.near_first_that_fits(face, HEAD * view.scale + 6.0, &wordings, Hand::STRONG);
    }
    let Some(path) = path else {
        let words = on_drawings::camera(voice, job.viewpoint.position.z, false);
        labels.near(flash, 16.0, &words, Hand::PLAIN);
        return;
    };
    labels.near(flash, 13.0, &on_drawings::flash(voice, path.flash.z), Hand::PLAIN);
    match &path.surface {
        Surface::Nothing | Surface::Room(Face::Ceiling | Face::Floor) => {}
        Surface::Board(board) => {
            let words = on_drawings::middle_of(voice, &board.name, board.centre.z);
            labels.near(view.at(0.0, board.centre.z), 14.0, &words, Hand::PLAIN);
        }
        _ => {
            let words = on_drawings::aim_up(voice, path.target.z);
            labels.near(view.at(0.0, path.target.z), 14.0, &words, Hand::LIGHT);
        }
    }
}
