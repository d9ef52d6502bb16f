//! The skin: subdivided head, neck and chest, its soft masks, and the places on it that have names.

use glam::{Vec2, Vec3};

use super::draft::Draft;
use super::eyes::Eye;
use super::noise::{smooth, step};
use super::parts::{Landmark, Landmarks, Part};
use super::people::{Group, People, Shape};
use super::surface::{CHANNELS, Layers, Point, Surface};

pub(super) const LIPS: usize = 0;
pub(super) const EAR: usize = 1;
pub(super) const LID: usize = 2;
pub(super) const MOUTH: usize = 3;
pub(super) const NECK: usize = 4;
pub(super) const HEAD: usize = 5;
pub(super) const SHOULDER: usize = 6;
pub(super) const RIGHT: usize = 7;

/// The stored quads of some groups as a surface, with masks and shares as soft channels.
pub(super) fn patch(shape: &Shape, people: &People, wanted: &[Group]) -> Surface {
    let mut surface = Surface::default();
    for (v, (&at, (mask, share))) in shape
        .positions
        .iter()
        .zip(people.masks.iter().zip(&people.shares))
        .enumerate()
    {
        let mut soft = [0.0; CHANNELS];
        soft[LIPS] = mask.lips;
        soft[EAR] = mask.ear;
        soft[LID] = mask.lid;
        soft[MOUTH] = mask.mouth;
        soft[NECK] = share.neck;
        soft[HEAD] = share.head;
        soft[SHOULDER] = share.shoulder;
        soft[RIGHT] = if people.is_right(v) { 1.0 } else { 0.0 };
        surface.points.push(Point { at, soft });
    }
    for (quad, group) in people.quads.iter().zip(&people.groups) {
        if wanted.contains(group) {
            surface.quads.push(*quad);
            surface.tags.push(*group as u8);
        }
    }
    surface.retain(|_, _| true);
    surface
}

/// The face seen straight from the front as a grid of depths.
pub(super) struct FrontMap {
    low: Vec2,
    cell: f32,
    side: usize,
    depth: Vec<Option<f32>>,
    normal: Vec<Vec3>,
}

impl FrontMap {
    fn new(surface: &Surface, normals: &[Vec3], centre: Vec3) -> Self {
        let (side, cell) = (220_usize, 0.001);
        let low = Vec2::new(centre.x, centre.z) - Vec2::splat(side as f32 * cell / 2.0);
        let mut map = Self {
            low,
            cell,
            side,
            depth: vec![None; side * side],
            normal: vec![-Vec3::Y; side * side],
        };
        for quad in &surface.quads {
            for corners in [[quad[0], quad[1], quad[2]], [quad[0], quad[2], quad[3]]] {
                map.lay(
                    corners.map(|v| surface.points[v as usize].at),
                    corners.map(|v| normals[v as usize]),
                );
            }
        }
        map
    }

    fn lay(&mut self, corner: [Vec3; 3], normal: [Vec3; 3]) {
        let flat = corner.map(|p| (Vec2::new(p.x, p.z) - self.low) / self.cell);
        let (low, high) = (
            flat[0].min(flat[1]).min(flat[2]),
            flat[0].max(flat[1]).max(flat[2]),
        );
        let area = (flat[1] - flat[0]).perp_dot(flat[2] - flat[0]);
        if area.abs() < 1e-9 || high.min_element() < 0.0 || low.max_element() > (self.side - 1) as f32 {
            return;
        }
        let limit = (self.side - 1) as f32;
        for j in low.y.ceil().max(0.0) as usize..=high.y.floor().clamp(0.0, limit) as usize {
            for i in low.x.ceil().max(0.0) as usize..=high.x.floor().clamp(0.0, limit) as usize {
                let q = Vec2::new(i as f32, j as f32);
                let b = (q - flat[0]).perp_dot(flat[2] - flat[0]) / area;
                let c = (flat[1] - flat[0]).perp_dot(q - flat[0]) / area;
                if b < -1e-4 || c < -1e-4 || b + c > 1.0001 {
                    continue;
                }
                let a = 1.0 - b - c;
                let y = corner[0].y * a + corner[1].y * b + corner[2].y * c;
                let k = j * self.side + i;
                if self.depth[k].is_none_or(|nearest| y < nearest) {
                    self.depth[k] = Some(y);
                    self.normal[k] = normal[0] * a + normal[1] * b + normal[2] * c;
                }
            }
        }
    }

    /// The frontmost skin at a place seen from the front, if there is any.
    pub fn at(&self, x: f32, z: f32) -> Option<Landmark> {
        let q = (Vec2::new(x, z) - self.low) / self.cell;
        if q.min_element() < 0.0 || q.max_element() > (self.side - 2) as f32 {
            return None;
        }
        let (i, j) = (q.x as usize, q.y as usize);
        let f = q - Vec2::new(i as f32, j as f32);
        let mut y = 0.0;
        let mut normal = Vec3::ZERO;
        for (k, w) in [
            (j * self.side + i, (1.0 - f.x) * (1.0 - f.y)),
            (j * self.side + i + 1, f.x * (1.0 - f.y)),
            ((j + 1) * self.side + i, (1.0 - f.x) * f.y),
            ((j + 1) * self.side + i + 1, f.x * f.y),
        ] {
            y += self.depth[k]? * w;
            normal += self.normal[k] * w;
        }
        Some(Landmark {
            position: Vec3::new(x, y, z),
            normal: normal.normalize_or(-Vec3::Y),
        })
    }
}

/// Head, neck and chest, twice subdivided.
pub(super) struct Head {
    layers: Layers,
    pub normals: Vec<Vec3>,
    pub front: FrontMap,
    pub eye: Eye,
    pub landmarks: Landmarks,
    /// The chin's lowest point.
    pub menton: Vec3,
}

impl Head {
    pub fn new(shape: &Shape, people: &People) -> Self {
        let layers = Layers::new(patch(shape, people, &[Group::Skin]), |_| {});
        let normals = layers.finest().normals();
        let eye = Eye::left(shape, people);
        let centre = Vec3::new(0.0, eye.centre.y, eye.centre.z - 0.01);
        let front = FrontMap::new(layers.finest(), &normals, centre);
        let (landmarks, menton) = find(layers.finest(), &normals, &front, &eye);
        Self {
            layers,
            normals,
            front,
            eye,
            landmarks,
            menton,
        }
    }

    /// All points of the finest surface.
    pub fn points(&self) -> &[Point] {
        &self.layers.finest().points
    }

    /// Puts the skin into the draft: finely where the face is intricate, leaving out what `covered` says is under cloth.
    pub fn build(
        &self,
        draft: &mut Draft,
        covered: impl Fn(Vec3) -> bool,
        overlay: impl Fn(Vec3, &Point) -> [f32; 3],
    ) {
        let fine = self.layers.finest();
        let triangles = self.layers.triangles(|quad, _| {
            let corner = quad.map(|v| &fine.points[v as usize]);
            if corner.iter().all(|p| covered(p.at)) {
                None
            } else {
                self.longest(corner)
            }
        });
        let mut place = vec![u32::MAX; fine.points.len()];
        for (t, _) in triangles {
            let t = t.map(|v| {
                let slot = &mut place[v as usize];
                if *slot == u32::MAX {
                    let point = &fine.points[v as usize];
                    let normal = self.normals[v as usize];
                    *slot = draft.vertex_with(
                        point.at,
                        normal,
                        overlay(point.at, point),
                        point.soft[NECK],
                        point.soft[HEAD],
                    );
                }
                *slot
            });
            draft.triangle(t, Part::Skin);
        }
    }

    /// How long edges may be around a quad; nothing where it can never be seen.
    fn longest(&self, corner: [&Point; 4]) -> Option<f32> {
        let mut middle = Point::ZERO;
        for p in corner {
            middle.add(p, 0.25);
        }
        let p = middle.at;
        let eye = self.eye.centre;
        let from_eye = Vec3::new(p.x.abs() - eye.x, p.y - eye.y, p.z - eye.z);
        let behind_eye = from_eye / self.eye.radii;
        if behind_eye.length() < 0.87 {
            return None;
        }
        if middle.soft[MOUTH] > 0.5 && middle.soft[LIPS] < 0.05 {
            // The pocket of the mouth: seen, if at all, as a dark gap.
            return Some(0.006);
        }
        let face = p.y < eye.y + 0.03 && p.z > self.menton.z;
        let brow = face && p.z > eye.z && p.z < eye.z + 0.034 && p.x.abs() < eye.x + 0.034;
        let nose = p.distance(self.landmarks.nose_tip.position) < 0.024;
        Some(
            if middle.soft[LIPS] > 0.02 || brow || nose || from_eye.length() < 0.02 {
                0.0024
            } else if face || middle.soft[EAR] > 0.3 {
                0.0047
            } else if middle.soft[HEAD] > 0.5 {
                0.0085
            } else {
                0.011
            },
        )
    }
}

/// Points nearer to the plane of symmetry than this, in metres, lie in it.
const IN_MIDDLE: f32 = 1e-4;

/// The face as seen from the front, where named places are looked for by their shape.
struct Profile<'a> {
    front: &'a FrontMap,
    /// Middle of the left eye.
    eye: Vec3,
}

impl Profile<'_> {
    /// The places along the middle of the face between two heights.
    fn along(&self, low: f32, high: f32) -> impl Iterator<Item = Landmark> + '_ {
        let steps = ((high - low) / 0.0005).max(1.0) as usize;
        (0..=steps).filter_map(move |k| self.front.at(0.0, low + (high - low) * k as f32 / steps as f32))
    }

    /// Where nothing is seen: a place as far back as the eye that looks forwards.
    fn unseen(&self, x: f32, z: f32) -> Landmark {
        Landmark {
            position: Vec3::new(x, self.eye.y, z),
            normal: -Vec3::Y,
        }
    }

    fn foremost(&self, low: f32, high: f32) -> Landmark {
        self.along(low, high)
            .min_by(|a, b| a.position.y.total_cmp(&b.position.y))
            .unwrap_or(self.unseen(0.0, (low + high) / 2.0))
    }

    fn deepest(&self, low: f32, high: f32) -> Landmark {
        self.along(low, high)
            .max_by(|a, b| a.position.y.total_cmp(&b.position.y))
            .unwrap_or(self.unseen(0.0, (low + high) / 2.0))
    }

    fn at(&self, x: f32, z: f32) -> Landmark {
        self.front.at(x, z).unwrap_or(self.unseen(x, z))
    }
}

/// Lowest and highest point of the lips in the middle of the face.
fn lips_in_middle(fine: &Surface) -> (f32, f32) {
    fine.points
        .iter()
        .filter(|point| point.at.x.abs() < IN_MIDDLE && point.soft[LIPS] > 0.5 && point.soft[MOUTH] < 0.5)
        .fold((f32::MAX, f32::MIN), |(low, high), point| {
            (low.min(point.at.z), high.max(point.at.z))
        })
}

/// The lowest point of the chin in the middle of the face, below the lips and not far behind them.
fn menton_below(fine: &Surface, lip_lower: Vec3) -> Vec3 {
    let mut menton = Vec3::new(0.0, 0.0, f32::MAX);
    for point in &fine.points {
        if point.at.x.abs() < IN_MIDDLE
            && point.soft[HEAD] > 0.5
            && point.at.z < menton.z
            && point.at.y < lip_lower.y + 0.028
            && point.at.z < lip_lower.z
        {
            menton = point.at;
        }
    }
    menton
}

/// The first of the points that lies farthest by a measure, among those that count.
fn farthest(
    fine: &Surface,
    normals: &[Vec3],
    counts: impl Fn(&Point) -> bool,
    measure: impl Fn(Vec3) -> f32,
    otherwise: Vec3,
) -> Landmark {
    let mut found = Landmark {
        position: Vec3::NEG_INFINITY,
        normal: otherwise,
    };
    for (point, normal) in fine.points.iter().zip(normals) {
        if counts(point) && measure(point.at) > measure(found.position) {
            found = Landmark {
                position: point.at,
                normal: *normal,
            };
        }
    }
    found
}

/// A place of the left side and its mirror image.
fn on_both_sides(left: Landmark) -> (Landmark, Landmark) {
    let flip = |v: Vec3| Vec3::new(-v.x, v.y, v.z);
    (
        left,
        Landmark {
            position: flip(left.position),
            normal: flip(left.normal),
        },
    )
}

/// Finds the named places by their shape, and the lowest point of the chin.
fn find(fine: &Surface, normals: &[Vec3], front: &FrontMap, eye: &Eye) -> (Landmarks, Vec3) {
    let at = eye.centre;
    let face = Profile { front, eye: at };
    let (low, high) = lips_in_middle(fine);
    // Where the lips meet, the profile goes in.
    let tall = high - low;
    let seam = face.deepest(low + 0.25 * tall, high - 0.25 * tall).position.z;
    let nose_tip = face.foremost(high + 0.003, at.z - 0.004);
    let tip = nose_tip.position.z;
    let sellion = face.deepest(at.z - 0.012, at.z + 0.022);
    let root = sellion.position.z;
    let (lip_upper, lip_lower) = (face.foremost(seam, high), face.foremost(low, seam));
    let menton = menton_below(fine, lip_lower.position);
    let below = lip_lower.position.z - menton.z;
    let forwards = |position: Vec3| Landmark {
        position,
        normal: -Vec3::Y,
    };
    let is_left_ear = |point: &Point| point.soft[EAR] > 0.5 && point.soft[RIGHT] < 0.5;
    let (cheek_upper_left, cheek_upper_right) =
        on_both_sides(face.at(at.x + 0.008, (at.z + tip) / 2.0 - 0.004));
    let (nose_side_left, nose_side_right) = on_both_sides(face.at(0.0105, (root + tip) / 2.0));
    let (eye_socket_left, eye_socket_right) = on_both_sides(face.at(at.x - 0.013, at.z + 0.010));
    let (ear_left, ear_right) = on_both_sides(farthest(fine, normals, is_left_ear, |p| p.x, Vec3::X));
    let (eye_left, eye_right) = on_both_sides(forwards(eye.pupil()));
    let landmarks = Landmarks {
        nose_tip,
        under_nose: face.deepest(lip_upper.position.z + 0.003, tip - 0.004),
        cheek_upper_left,
        cheek_upper_right,
        nose_side_left,
        nose_side_right,
        brow: face.at(0.0, root + 0.019),
        eye_socket_left,
        eye_socket_right,
        lip_upper,
        lip_lower,
        chin: face.foremost(menton.z + 0.15 * below, menton.z + 0.55 * below),
        ear_left,
        ear_right,
        forehead: face.at(0.0, at.z + 0.058),
        eye_left,
        eye_right,
        vertex: farthest(fine, normals, |_| true, |p| p.z, Vec3::Z),
        face_centre: forwards(sellion.position),
    };
    (landmarks, menton)
}

/// Overlay weights of the bare skin: lips, brow shade, redness.
pub(super) fn overlay(
    head: &Head,
    masculinity: f32,
    age: f32,
    roots: impl Fn(Vec3) -> f32,
) -> impl Fn(Vec3, &Point) -> [f32; 3] {
    let marks = head.landmarks;
    let eye = head.eye.centre;
    let near = move |p: Vec3, at: Vec3, size: Vec3| {
        let d = (p - at) / size;
        (-d.length_squared()).exp()
    };
    let stubble = masculinity * step(15.0, 22.0, age);
    move |p: Vec3, point: &Point| {
        let left = Vec3::new(p.x.abs(), p.y, p.z);
        let front = step(eye.y + 0.07, eye.y + 0.03, p.y);
        let lips = point.soft[LIPS] * (1.0 - 0.4 * point.soft[MOUTH]);
        let shade = brow_weight(Vec2::new(left.x - eye.x, p.z - eye.z), p) * front;
        let beard = step(
            marks.nose_tip.position.z - 0.002,
            marks.lip_upper.position.z + 0.004,
            p.z,
        ) * step(marks.chin.position.z - 0.06, marks.chin.position.z - 0.015, p.z)
            * step(0.105, 0.06, p.y - marks.lip_upper.position.y)
            * (1.0 - point.soft[LIPS])
            * 0.16
            * stubble;
        let cheek = near(
            left,
            marks.cheek_upper_left.position - Vec3::Z * 0.008,
            Vec3::new(0.02, 0.03, 0.016),
        ) * 0.55;
        let nose = near(p, marks.nose_tip.position, Vec3::new(0.014, 0.016, 0.012)) * 0.4;
        let chin = near(p, marks.chin.position, Vec3::new(0.02, 0.02, 0.012)) * 0.2;
        let ear = point.soft[EAR] * 0.35;
        let lid = point.soft[LID] * 0.25;
        let blush = (cheek + nose + chin + ear + lid) * (1.0 + 0.35 * smooth(p * 90.0));
        let roots = if point.soft[HEAD] > 0.1 && point.soft[EAR] < 0.3 {
            roots(p)
        } else {
            0.0
        };
        [
            lips.clamp(0.0, 1.0),
            shade.max(beard).max(roots).clamp(0.0, 1.0),
            blush.clamp(0.0, 1.0),
        ]
    }
}

/// The line of the left brow: offsets from the eye's centre, from the nose outwards, and half its breadth there.
pub(super) const BROW: [(Vec2, f32); 5] = [
    (Vec2::new(-0.0180, 0.0175), 0.0026),
    (Vec2::new(-0.0080, 0.0205), 0.0037),
    (Vec2::new(0.0050, 0.0235), 0.0033),
    (Vec2::new(0.0155, 0.0222), 0.0022),
    (Vec2::new(0.0250, 0.0172), 0.0009),
];

/// Place on the brow's line and its half breadth; `t` from 0 (nose) to 1 (temple).
pub(super) fn brow_at(t: f32) -> (Vec2, f32) {
    let s = t.clamp(0.0, 1.0) * (BROW.len() - 1) as f32;
    let k = (s as usize).min(BROW.len() - 2);
    let (a, b) = (BROW[k], BROW[k + 1]);
    let f = s - k as f32;
    (a.0.lerp(b.0, f), a.1 + (b.1 - a.1) * f)
}

/// Shade of the brow on the skin at an offset from the eye's centre.
fn brow_weight(offset: Vec2, p: Vec3) -> f32 {
    let mut best = 0.0_f32;
    for k in 0..=32 {
        let (at, half) = brow_at(k as f32 / 32.0);
        let d = (offset - at).length() / (half + 0.0012);
        best = best.max((1.0 - d * d).max(0.0));
    }
    best * 0.5 * (1.0 + 0.25 * smooth(p * 700.0))
}
