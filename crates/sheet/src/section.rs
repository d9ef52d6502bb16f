//! The light's way from the side.
//!
//! The drawing plane follows the light: it stands upright through flash and lit patch, and is folded at the patch
//! towards the face, so that both parts of the way, their heights and their angles appear in true size.

use crate::label::{Area, Hand, Labels};
use crate::path::{Carrier, LightPath};
use crate::plan::{BEAM, LIT, arc, arrow, degrees, dimension, draw_flash};
use crate::svg::{Svg, ink};
use crate::words::{Lengths, elevation, shorten};
use crate::{drawing, swatch};
use glam::{Vec2, Vec3};
use scene::{Face, Panel};
use solver::{Answer, Job};

/// Space around the air: left, right, above, below.
const AROUND: [f32; 4] = [26.0, 26.0, 30.0, 62.0];
const WALL: f32 = 12.0;

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
            let apart = job.sitters.first().map_or(2.0, |sitter| (sitter.face() - job.viewpoint.position).truncate().length());
            return Self { flash: 0.0, face: apart, wall: None };
        };
        let flat = |point: Vec3| point.truncate();
        let Some(source) = (!matches!(path.carrier, Carrier::Nothing)).then(|| flat(path.source())) else {
            return Self { flash: 0.0, face: (flat(path.face) - flat(path.flash)).length(), wall: None };
        };
        let (to_flash, to_face) = (flat(path.flash) - source, flat(path.face) - source);
        let wall = match path.carrier {
            Carrier::Room(face) if !matches!(face, Face::Ceiling | Face::Floor) => Some(face),
            _ => None,
        };
        // Off a ceiling or floor the light may go on the way it came; off a wall or board it comes back.
        let goes_on = matches!(path.carrier, Carrier::Room(Face::Ceiling | Face::Floor)) && to_flash.dot(to_face) < 0.0;
        let flash = to_flash.length() * if goes_on { -1.0 } else { 1.0 };
        Self { flash, face: to_face.length(), wall }
    }
}

impl View {
    pub(crate) fn new(job: &Job, path: Option<&LightPath>, area: Area, most_scale: f32) -> Self {
        let spots = Spots::new(job, path);
        let left = if spots.wall.is_some() { 0.0 } else { spots.flash.min(spots.face).min(0.0) - 0.75 };
        let right = spots.flash.max(spots.face).max(0.0) + 0.95;
        let height = job.place.room.size.z.max(0.1);
        let most = area.size() - Vec2::new(AROUND[0] + AROUND[1], AROUND[2] + AROUND[3]);
        let scale = (most / Vec2::new((right - left).max(0.1), height)).min_element().min(most_scale);
        let corner = area.min + Vec2::new(AROUND[0], AROUND[2]);
        // The air always fills the width, so that both drawings end at the sheet's margins.
        let inner = Area::new(corner, corner + Vec2::new(most.x, height * scale));
        let spare = most.x / scale - (right - left);
        let left = if spots.wall.is_some() { 0.0 } else { left - 0.5 * spare };
        let outer = Area::new(area.min, Vec2::new(area.max.x, inner.max.y + AROUND[3]));
        Self { inner, outer, scale, left, spots }
    }

    fn at(&self, along: f32, height: f32) -> Vec2 {
        Vec2::new(self.inner.min.x + (along - self.left) * self.scale, self.inner.max.y - height * self.scale)
    }
}

/// Draws the side view; returns the names that found no place.
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
    if let Some(path) = path {
        draw_beam(svg, view, job, path);
    }
    draw_room(svg, view, job, lengths);
    let face_height = job.sitters.first().map_or(1.6, |sitter| sitter.face_height);
    let face = view.at(view.spots.face, face_height);
    let flash_height = path.map_or(job.viewpoint.position.z, |path| path.flash.z);
    let flash = view.at(view.spots.flash, flash_height);
    draw_person(svg, view, face, (flash.x - face.x).signum(), &mut labels);
    draw_stand(svg, view, job, path, flash);
    match (answer, path) {
        (Some(answer), Some(path)) => draw_light(svg, view, answer, path, [flash, face], lengths, &mut labels),
        _ => draw_camera(svg, flash, (face.x - flash.x).signum()),
    }
    name_heights(view, job, path, [flash, face], lengths, &mut labels);
    labels.draw(svg);
    let bar = Vec2::new(view.inner.max.x, view.outer.max.y - 20.0);
    drawing::scale_bar(svg, bar, view.scale, lengths);
    labels.left_over().to_vec()
}

/// Floor, ceiling with their colours, and the wall that the light meets.
fn draw_room(svg: &mut Svg, view: &View, job: &Job, lengths: Lengths) {
    let Area { min, max } = view.inner;
    let room = &job.place.room;
    let band = |svg: &mut Svg, face: Face, corner: Vec2, size: Vec2| {
        let fill = swatch::colour(&room.material(face).reflectance);
        svg.rectangle(corner, size, &[("fill", &fill), ("stroke", ink::SOFT), ("stroke-width", "1.2")]);
    };
    let width = max.x - min.x;
    band(svg, Face::Ceiling, min - Vec2::new(0.0, WALL), Vec2::new(width, WALL));
    band(svg, Face::Floor, Vec2::new(min.x, max.y), Vec2::new(width, WALL));
    if let Some(face) = view.spots.wall {
        let size = Vec2::new(WALL, max.y - min.y + 2.0 * WALL);
        band(svg, face, min - Vec2::splat(WALL), size);
    }
    let x = max.x + 13.0;
    dimension(svg, Vec2::new(x, max.y), Vec2::new(x, min.y));
    let mut outside = Labels::new(view.outer);
    outside.at(Vec2::new(x, 0.5 * (min.y + max.y)), &lengths.exact(f64::from(room.size.z)), Hand::SMALL, true);
    outside.at(Vec2::new(0.5 * (min.x + max.x), min.y - WALL - 10.0), "ceiling", Hand::SMALL, false);
    outside.at(Vec2::new(0.5 * (min.x + max.x), max.y + WALL + 11.0), "floor", Hand::SMALL, false);
    if let Some(face) = view.spots.wall {
        let middle = Vec2::new(min.x - WALL - 8.0, 0.5 * (min.y + max.y));
        outside.at(middle, face.words(), Hand::SMALL, true);
    }
    outside.draw(svg);
}

/// A person from the side: a head with a nose, a body down to the floor.
fn draw_person(svg: &mut Svg, view: &View, face: Vec2, looks: f32, labels: &mut Labels) {
    let s = view.scale;
    let floor = view.inner.max.y;
    let looks = if looks == 0.0 { -1.0 } else { looks };
    // The eyes are at the front of the head, about 0.09 m ahead of its middle.
    let head = face + Vec2::new(-looks * 0.0 * s, -0.01 * s);
    let (neck, hip) = (head.y + 0.15 * s, (head.y + 0.85 * s).min(floor - 0.05 * s));
    let body = [
        Vec2::new(head.x - 0.06 * s, neck),
        Vec2::new(head.x + 0.06 * s, neck),
        Vec2::new(head.x + 0.13 * s, neck + 0.12 * s),
        Vec2::new(head.x + 0.13 * s, hip),
        Vec2::new(head.x + 0.09 * s, floor),
        Vec2::new(head.x - 0.09 * s, floor),
        Vec2::new(head.x - 0.13 * s, hip),
        Vec2::new(head.x - 0.13 * s, neck + 0.12 * s),
    ];
    svg.path(&body, true, &[("fill", ink::BODY), ("stroke", ink::SOFT), ("stroke-width", "1.4"), ("stroke-linejoin", "round")]);
    let tip = head + Vec2::new(looks * 0.155 * s, 0.035 * s);
    let nose = [tip, head + Vec2::new(looks * 0.09 * s, -0.03 * s), head + Vec2::new(looks * 0.08 * s, 0.05 * s)];
    svg.path(&nose, true, &[("fill", ink::SOFT)]);
    svg.circle(head, 0.115 * s, &[("fill", ink::SOFT)]);
    labels.take(Area::around(head, Vec2::splat(0.27 * s)));
    labels.take(Area::new(Vec2::new(head.x - 0.14 * s, neck), Vec2::new(head.x + 0.14 * s, floor)));
}

/// What the flash is on: the camera, or a stand.
fn draw_stand(svg: &mut Svg, view: &View, job: &Job, path: Option<&LightPath>, flash: Vec2) {
    let Some(path) = path else { return };
    let camera = job.viewpoint.position;
    let floor = Vec2::new(flash.x, view.inner.max.y);
    if path.flash.distance(camera) < 0.4 {
        let at = Vec2::new(flash.x, view.at(0.0, camera.z).y.max(flash.y + 12.0));
        svg.line(flash, at, &[("stroke", ink::SOFT), ("stroke-width", "1.6")]);
        draw_camera(svg, at, (view.at(view.spots.face, 0.0).x - flash.x).signum());
    } else {
        svg.line(flash, floor, &[("stroke", ink::LINE), ("stroke-width", "1.6")]);
        svg.line(floor - Vec2::new(14.0, 0.0), floor + Vec2::new(14.0, 0.0), &[("stroke", ink::LINE), ("stroke-width", "2.4")]);
    }
}

fn draw_camera(svg: &mut Svg, at: Vec2, looks: f32) {
    let looks = if looks == 0.0 { 1.0 } else { looks };
    svg.rectangle(at - Vec2::new(10.0, 8.0), Vec2::new(20.0, 16.0), &[("fill", ink::INK), ("rx", "2"), ("stroke", ink::SHEET)]);
    let lens = at + Vec2::new(if looks > 0.0 { 10.0 } else { -18.0 }, -5.5);
    svg.rectangle(lens, Vec2::new(8.0, 11.0), &[("fill", ink::INK), ("stroke", ink::SHEET)]);
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
    match path.carrier {
        Carrier::Nothing => view.spots.face < view.spots.flash,
        _ => view.spots.flash > 0.0,
    }
}

/// Where a ray ends: at the ceiling, the floor, the wall, or the edge of the drawing.
fn end(view: &View, from: Vec2, way: Vec2) -> Vec2 {
    let Area { min, max } = view.inner;
    let reach = |limit: [f32; 2], from: f32, way: f32| {
        if way.abs() < 1e-6 { f32::INFINITY } else { ((if way > 0.0 { limit[1] } else { limit[0] }) - from) / way }
    };
    let t = reach([min.x, max.x], from.x, way.x).min(reach([min.y, max.y], from.y, way.y)).max(0.0);
    from + way * if t.is_finite() { t } else { 0.0 }
}

fn draw_beam(svg: &mut Svg, view: &View, job: &Job, path: &LightPath) {
    let flash = view.at(view.spots.flash, path.flash.z);
    let ways = [path.half_height, -path.half_height].map(|turn| beam_way(view, path, turn));
    if let Carrier::Board(board) = &path.carrier {
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
    let Carrier::Room(face) = path.carrier else { return };
    let heights: Vec<f32> = path.patch(&job.place.room).iter().map(|point| point.z).collect();
    let (corner, size) = match face {
        Face::Ceiling | Face::Floor => {
            let y = if face == Face::Ceiling { min.y - 1.0 } else { max.y - 7.0 };
            let on_it = |point: Vec2| if face == Face::Ceiling { point.y <= min.y + 0.5 } else { point.y >= max.y - 0.5 };
            // An edge that misses the ceiling meets the end of the drawing, which bounds the strip as well.
            let x = ends.map(|point| if on_it(point) { point.x } else { point.x.clamp(min.x, max.x) });
            (Vec2::new(x[0].min(x[1]), y), Vec2::new((x[0] - x[1]).abs(), 8.0))
        }
        _ => {
            let low = heights.iter().copied().fold(f32::INFINITY, f32::min);
            let high = heights.iter().copied().fold(f32::NEG_INFINITY, f32::max);
            if low > high {
                return;
            }
            let top = view.at(0.0, high).y.max(min.y);
            (Vec2::new(min.x - 1.0, top), Vec2::new(8.0, view.at(0.0, low).y.min(max.y) - top))
        }
    };
    svg.rectangle(corner, size, &[("fill", ink::SHEET)]);
    svg.rectangle(corner, size, &LIT);
}

/// The two ends of a board seen from the side.
fn board_ends(view: &View, board: &Panel) -> (Vec2, Vec2) {
    let level = board.normal.truncate().length();
    let along = Vec2::new(-board.normal.z, level).normalize_or(Vec2::Y) * board.size.y * 0.5;
    (view.at(-along.x, board.centre.z - along.y), view.at(along.x, board.centre.z + along.y))
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
    answer: &Answer,
    path: &LightPath,
    [flash, face]: [Vec2; 2],
    lengths: Lengths,
    labels: &mut Labels,
) {
    let direct = matches!(path.carrier, Carrier::Nothing);
    let target = if direct { face } else { view.at(0.0, path.target.z) };
    if let Carrier::Board(board) = &path.carrier {
        let (a, b) = board_ends(view, board);
        svg.line(a, b, &[("stroke", ink::INK), ("stroke-width", "6"), ("stroke-linecap", "round")]);
        labels.keep_off(a, b);
    }
    let source = if direct { flash } else { target };
    let stop = face - (face - source).normalize_or_zero() * (0.115 * view.scale + 3.0);
    draw_angles(svg, answer, path, [flash, face, source], beam_way(view, path, 0.0), view, labels);
    if !direct {
        svg.line(flash, target, &[("stroke", ink::GLOW), ("stroke-width", "1.8")]);
        labels.keep_off(flash, target);
    }
    arrow(svg, source, stop);
    labels.keep_off(source, stop);
    draw_flash(svg, flash);
    labels.take(Area::around(flash, Vec2::splat(18.0)));
    let legs = answer.aim.legs_m;
    if direct {
        labels.along(flash, face, &lengths.about(legs[0]), Hand::LIGHT);
    } else {
        labels.along(target, stop, &lengths.about(legs[1]), Hand::LIGHT);
        labels.along(flash, target, &lengths.about(legs[0]), Hand::LIGHT);
    }
}

/// Tilt of the head and height of the light above the eyes, each as an arc from the level.
fn draw_angles(
    svg: &mut Svg,
    answer: &Answer,
    path: &LightPath,
    [flash, face, source]: [Vec2; 3],
    way: Vec2,
    view: &View,
    labels: &mut Labels,
) {
    let level = [("stroke", ink::SOFT), ("stroke-width", "1"), ("stroke-dasharray", "3 4")];
    let line = [("fill", "none"), ("stroke", ink::SOFT), ("stroke-width", "1.3")];
    let heading = if path_heads_left(view, path) { -Vec2::X } else { Vec2::X };
    let tilt = answer.aim.tilt_deg;
    if tilt.abs() >= 3.0 {
        svg.line(flash, flash + heading * 78.0, &level);
        svg.drawn(&arc(flash, 58.0, heading, way), &line);
        let words = format!("tilt {} {}", degrees(tilt), if tilt < 0.0 { "down" } else { "up" });
        let middle = (heading + way).normalize_or(heading);
        labels.near(flash + middle * 60.0, 8.0, &words, Hand::PLAIN);
    }
    let to_light = (source - face).normalize_or_zero();
    let toward = Vec2::new(if to_light.x < 0.0 { -1.0 } else { 1.0 }, 0.0);
    if answer.key.elevation_deg.abs() >= 0.5 {
        let reach = 0.115 * view.scale;
        svg.line(face + toward * reach, face + toward * (reach + 80.0), &level);
        svg.drawn(&arc(face, reach + 52.0, toward, to_light), &line);
        let middle = (toward + to_light).normalize_or(toward);
        labels.near(face + middle * (reach + 54.0), 8.0, &elevation(answer.key.elevation_deg), Hand::PLAIN);
    }
}

fn name_heights(view: &View, job: &Job, path: Option<&LightPath>, [flash, face]: [Vec2; 2], lengths: Lengths, labels: &mut Labels) {
    let up = |height: f32| lengths.exact(f64::from(height));
    let name = job.sitters.first().map_or(String::new(), |sitter| shorten(&sitter.name, 18));
    if let Some(sitter) = job.sitters.first() {
        let words = format!("{name}, eyes {} up", up(sitter.face_height));
        labels.near(face, 0.135 * view.scale + 4.0, &words, Hand::STRONG);
    }
    let Some(path) = path else {
        labels.near(flash, 16.0, &format!("camera {} up", up(job.viewpoint.position.z)), Hand::PLAIN);
        return;
    };
    labels.near(flash, 13.0, &format!("flash {} up", up(path.flash.z)), Hand::PLAIN);
    match &path.carrier {
        Carrier::Nothing | Carrier::Room(Face::Ceiling | Face::Floor) => {}
        Carrier::Board(board) => {
            let words = format!("{}, middle {} up", shorten(&board.name, 20), up(board.centre.z));
            labels.near(view.at(0.0, board.centre.z), 14.0, &words, Hand::PLAIN);
        }
        _ => {
            labels.near(view.at(0.0, path.target.z), 12.0, &format!("aim {} up", up(path.target.z)), Hand::LIGHT);
        }
    }
}
