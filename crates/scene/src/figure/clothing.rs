//! Clothes: the loose suit of the stored people, smoothed, folded, cut at the neck and given a collar.

use std::collections::{BTreeMap, HashMap};
use std::f32::consts::TAU;

use glam::{Vec2, Vec3};

use super::draft::Draft;
use super::head::{HEAD, LIPS, NECK, RIGHT, SHOULDER, patch};
use super::noise::{smooth, step};
use super::parts::Part;
use super::people::{Group, Joint, People, Shape};
use super::recipe::Garment;
use super::surface::{Layers, Surface};

/// Where the top ends at the neck: skin above it shows.
#[derive(Clone, Copy, Debug)]
pub(super) struct Neckline {
    garment: Garment,
    front: Vec3,
    back: Vec3,
    /// Size of this person against an adult.
    scale: f32,
}

impl Neckline {
    pub fn new(shape: &Shape, garment: Garment) -> Self {
        let neck = shape.joint(Joint::Neck);
        let notch = shape.joint(Joint::Clavicle);
        let scale = (shape.joint(Joint::Head).z - notch.z) / 0.17;
        let rise = match garment {
            Garment::Crew => 0.020,
            Garment::VNeck => 0.010,
            Garment::Tunic => 0.032,
        };
        let front = Vec3::new(0.0, notch.y - 0.055 * scale, notch.z + rise * scale);
        let back = Vec3::new(0.0, neck.y + 0.070 * scale, neck.z + 0.030 * scale);
        Self {
            garment,
            front,
            back,
            scale,
        }
    }

    /// Height above the neckline in metres, along z.
    pub fn above(&self, p: Vec3) -> f32 {
        let t = (p.y - self.front.y) / (self.back.y - self.front.y);
        let mut height = self.front.z + (self.back.z - self.front.z) * t.clamp(-0.4, 1.3);
        // A neckline is a saddle: it climbs over the shoulders.
        height += 0.032 * self.scale * (p.x / (0.072 * self.scale)).powi(2);
        if self.garment == Garment::VNeck {
            let side = 1.0 - (p.x.abs() / (0.066 * self.scale)).min(1.0);
            height -= 0.062 * self.scale * side * step(0.75, 0.15, t);
        }
        p.z - height
    }

    fn axis(&self) -> Vec3 {
        (self.front + self.back) / 2.0
    }
}

/// Puts top, trousers and shoes into the draft; `rest` is the shape before it took its posture.
pub(super) fn dress(draft: &mut Draft, shape: &Shape, rest: &Shape, people: &People, neckline: &Neckline) {
    let mut suit = patch(shape, people, &[Group::Suit]);
    for (point, at_rest) in suit
        .points
        .iter_mut()
        .zip(patch(rest, people, &[Group::Suit]).points)
    {
        point.soft[REST] = at_rest.at.z;
    }
    let heights = Heights::new(rest);
    let mut layers = Layers::new(suit, |surface| loosen(surface, shape, &heights, neckline));
    fold(layers.finest_mut(), shape, neckline);
    let fine = layers.finest();
    let normals = fine.normals();
    let notch = shape.joint(Joint::Clavicle);
    let mut shell = Shell {
        points: fine.points.iter().map(|p| p.at).collect(),
        normals,
        follow: fine.points.iter().map(|p| [p.soft[NECK], p.soft[HEAD]]).collect(),
        rest: fine.points.iter().map(|p| p.soft[REST]).collect(),
        triangles: Vec::new(),
    };
    // Finer where a portrait looks.
    let longest = |quad: &[u32; 4], _| {
        let z = quad.iter().map(|v| fine.points[*v as usize].at.z).sum::<f32>() / 4.0;
        Some(if z > notch.z - 0.28 * neckline.scale {
            0.017
        } else {
            0.028
        })
    };
    shell.triangles = layers
        .triangles(longest)
        .into_iter()
        .map(|(t, _)| (t, Part::Top))
        .collect();
    let cut = shell.cut(neckline);
    cuffs(&mut shell);
    shell.hem(heights.hem, Part::Trousers, 0.006 * neckline.scale);
    shell.hem(heights.ankle, Part::Shoes, 0.003 * neckline.scale);
    let base = draft.positions.len() as u32;
    for ((&p, &n), f) in shell.points.iter().zip(&shell.normals).zip(&shell.follow) {
        draft.vertex_with(p, n, [0.0; 3], f[0], f[1]);
    }
    for (t, part) in &shell.triangles {
        draft.triangle(t.map(|v| base + v), *part);
    }
    collar(draft, &cut, neckline);
    if neckline.garment == Garment::Tunic {
        front_of_tunic(draft, &shell, neckline, shape);
    }
}

/// Soft channel of the suit: height before the posture was taken.
const REST: usize = LIPS;

/// Heights on the upright body at which one garment ends and the next begins.
struct Heights {
    hem: f32,
    knee: f32,
    ankle: f32,
}

impl Heights {
    fn new(rest: &Shape) -> Self {
        let (hip, knee, ankle) = (
            rest.joint(Joint::Hip).z,
            rest.joint(Joint::Knee).z,
            rest.joint(Joint::Ankle).z,
        );
        Self {
            hem: hip - 0.035 * (hip - knee) / 0.42,
            knee,
            ankle: ankle + 0.01,
        }
    }
}

/// Lets the suit hang clear of the body: its hollows are bridged, never its rises cut.
fn loosen(surface: &mut Surface, shape: &Shape, heights: &Heights, neckline: &Neckline) {
    let normals = surface.normals();
    let body: Vec<Vec3> = surface.points.iter().map(|p| p.at).collect();
    let rest: Vec<f32> = surface.points.iter().map(|p| p.soft[REST]).collect();
    let notch = shape.joint(Joint::Clavicle).z;
    let of_top: Vec<f32> = rest
        .iter()
        .map(|z| step(heights.hem - 0.01, heights.hem, *z))
        .collect();
    let of_shoe: Vec<f32> = rest
        .iter()
        .map(|z| step(heights.ankle, heights.ankle - 0.01, *z))
        .collect();
    let scale = neckline.scale;
    let ease = |v: usize| {
        let p = body[v];
        // Close at the neck, looser further down.
        let down = step(notch + 0.06 * scale, notch - 0.16 * scale, p.z);
        let top = (0.004 + 0.011 * down) * scale;
        // Trousers widen from the knee down.
        let leg = (0.010 + 0.016 * step(heights.knee + 0.08, heights.ankle + 0.05, rest[v])) * scale;
        let below = leg + (0.004 - leg) * of_shoe[v];
        below + (top - below) * of_top[v]
    };
    for (v, point) in surface.points.iter_mut().enumerate() {
        point.at += normals[v] * ease(v);
    }
    surface.relax(24, |v, p| {
        let near_neck = step(notch + 0.075 * scale, notch + 0.02 * scale, p.at.z);
        0.5 * near_neck.max(0.1) * (1.0 - 0.9 * of_shoe[v])
    });
    for (v, point) in surface.points.iter_mut().enumerate() {
        let clear = (point.at - body[v]).dot(normals[v]);
        // Under a top no skin is drawn, so that cloth may bridge the chest with a smooth sweep.
        let bridge = of_top[v] * step(notch - 0.05 * scale, notch - 0.11 * scale, body[v].z);
        let least = ease(v) * 0.75 - 0.016 * scale * bridge;
        if clear < least {
            point.at += normals[v] * (least - clear);
        }
    }
    surface.relax(3, |v, _| 0.4 * (1.0 - 0.9 * of_shoe[v]));
}

/// Soft folds: drag lines from the shoulders and gathers on the sleeves.
fn fold(surface: &mut Surface, shape: &Shape, neckline: &Neckline) {
    let normals = surface.normals();
    let notch = shape.joint(Joint::Clavicle);
    let elbow = shape.joint(Joint::Elbow);
    let shoulder = shape.joint(Joint::Shoulder);
    let scale = neckline.scale;
    for (point, normal) in surface.points.iter_mut().zip(&normals) {
        let p = point.at;
        let sleeve = point.soft[SHOULDER];
        let side = if point.soft[RIGHT] > 0.5 { -1.0 } else { 1.0 };
        // Unlike on both sides: cloth is not symmetrical.
        let from = Vec3::new(p.x, p.y, p.z) / scale;
        let sag = Vec3::new(from.x + from.z * 0.9, from.y * 0.6, from.z * 0.35) * 17.0;
        let ridge = |n: f32| 1.0 - 2.2 * n.abs();
        let broad = ridge(smooth(sag)) * 0.55 + smooth(sag * 2.1 + Vec3::splat(3.3)) * 0.45;
        let down = step(notch.z + 0.01 * scale, notch.z - 0.12 * scale, p.z);
        let mut out = broad * 0.0120 * down * (1.0 - sleeve);
        // Gathers run around the arm and crowd towards the elbow.
        let along = (shoulder.z - p.z) / (shoulder.z - elbow.z);
        let around = Vec3::new(from.x * 9.0, from.y * 9.0, from.z * 34.0) + Vec3::splat(side * 2.9);
        out += smooth(around) * 0.0085 * sleeve * step(0.15, 0.7, along);
        point.at += *normal * out * scale;
        // Soles lie flat on the floor.
        point.at.z = point.at.z.max(0.0);
    }
}

struct Shell {
    points: Vec<Vec3>,
    normals: Vec<Vec3>,
    follow: Vec<[f32; 2]>,
    /// Height before the posture was taken.
    rest: Vec<f32>,
    triangles: Vec<([u32; 3], Part)>,
}

/// The two sides of a cut, and its edges.
struct Cut {
    below: Vec<([u32; 3], Part)>,
    above: Vec<([u32; 3], Part)>,
    rim: Vec<(u32, u32)>,
}

impl Shell {
    /// The foremost cloth of the upper body at a place seen from the front, if there is any.
    fn foremost_cloth(&self, x: f32, z: f32) -> Option<Vec3> {
        let mut best: Option<Vec3> = None;
        for (t, part) in &self.triangles {
            if *part != Part::Top {
                continue;
            }
            let [a, b, c] = t.map(|v| self.points[v as usize]);
            let (fa, fb, fc) = (Vec2::new(a.x, a.z), Vec2::new(b.x, b.z), Vec2::new(c.x, c.z));
            let q = Vec2::new(x, z);
            let area = (fb - fa).perp_dot(fc - fa);
            if area.abs() < 1e-12 {
                continue;
            }
            let v = (q - fa).perp_dot(fc - fa) / area;
            let w = (fb - fa).perp_dot(q - fa) / area;
            if v < 0.0 || w < 0.0 || v + w > 1.0 {
                continue;
            }
            let y = a.y + (b.y - a.y) * v + (c.y - a.y) * w;
            if best.is_none_or(|p| y < p.y) {
                best = Some(Vec3::new(x, y, z));
            }
        }
        best
    }

    /// A new point between two others.
    fn between(&mut self, a: u32, b: u32, t: f32) -> u32 {
        let (a, b) = (a as usize, b as usize);
        let mix = |x: f32, y: f32| x + (y - x) * t;
        self.points.push(self.points[a].lerp(self.points[b], t));
        self.normals
            .push(self.normals[a].lerp(self.normals[b], t).normalize_or(Vec3::Z));
        let (x, y) = (self.follow[a], self.follow[b]);
        self.follow.push([mix(x[0], y[0]), mix(x[1], y[1])]);
        self.rest.push(mix(self.rest[a], self.rest[b]));
        (self.points.len() - 1) as u32
    }

    /// Takes all triangles and cuts them where `height`, given at every point, is zero.
    fn split(&mut self, mut height: Vec<f32>) -> Cut {
        for value in &mut height {
            // A point right on the cut would leave slivers.
            if value.abs() < 2e-4 {
                *value = -2e-4;
            }
        }
        let mut cut = Cut {
            below: Vec::new(),
            above: Vec::new(),
            rim: Vec::new(),
        };
        let mut on_edge: HashMap<(u32, u32), u32> = HashMap::new();
        for (t, part) in std::mem::take(&mut self.triangles) {
            let up = t.map(|v| height[v as usize] > 0.0);
            let ups = up.iter().filter(|u| **u).count();
            if ups == 0 || ups == 3 {
                let side = if ups == 0 { &mut cut.below } else { &mut cut.above };
                side.push((t, part));
                continue;
            }
            let mut crossing = |a: u32, b: u32| {
                let (a, b) = (a.min(b), a.max(b));
                *on_edge.entry((a, b)).or_insert_with(|| {
                    let (fa, fb) = (height[a as usize], height[b as usize]);
                    self.between(a, b, fa / (fa - fb))
                })
            };
            // Turn the triangle until its odd corner comes first.
            let odd_up = ups == 1;
            let first = up.iter().position(|u| *u == odd_up).unwrap_or(0);
            let [a, b, c] = [t[first], t[(first + 1) % 3], t[(first + 2) % 3]];
            let (ab, ca) = (crossing(a, b), crossing(c, a));
            let (odd, even) = if odd_up {
                (&mut cut.above, &mut cut.below)
            } else {
                (&mut cut.below, &mut cut.above)
            };
            odd.push(([a, ab, ca], part));
            even.push(([ab, b, c], part));
            even.push(([ab, c, ca], part));
            cut.rim.push(if odd_up { (ca, ab) } else { (ab, ca) });
        }
        cut
    }

    /// Cuts away what lies above the neckline and returns the cut edge in order around the neck.
    fn cut(&mut self, neckline: &Neckline) -> Vec<Vec3> {
        let cut = self.split(self.points.iter().map(|p| neckline.above(*p)).collect());
        self.triangles = cut.below;
        // In order of direction from the middle of the neck; the loop winds around it once.
        let axis = neckline.axis();
        let mut rim: Vec<u32> = cut.rim.iter().flat_map(|e| [e.0, e.1]).collect();
        rim.sort_unstable();
        rim.dedup();
        let mut line: Vec<(f32, Vec3)> = rim
            .into_iter()
            .map(|v| self.points[v as usize])
            .map(|p| ((p.x - axis.x).atan2(-(p.y - axis.y)), p))
            .collect();
        line.sort_by(|a, b| a.0.total_cmp(&b.0));
        even_loop(&line.into_iter().map(|(_, p)| p).collect::<Vec<_>>(), 96)
    }

    /// Ends the garment at a height of the upright body: below it is `lower`, and the upper one stands out by `thick`.
    fn hem(&mut self, at: f32, lower: Part, thick: f32) {
        let cut = self.split(self.rest.iter().map(|z| z - at).collect());
        let mut outer: HashMap<u32, u32> = HashMap::new();
        let mut stand_out = |shell: &mut Self, v: u32| {
            *outer.entry(v).or_insert_with(|| {
                let copy = shell.between(v, v, 0.0);
                shell.points[copy as usize] += shell.normals[v as usize] * thick;
                copy
            })
        };
        let lips: Vec<([u32; 4], Part)> = cut
            .rim
            .iter()
            .map(|&(a, b)| {
                let (oa, ob) = (stand_out(self, a), stand_out(self, b));
                // The lip faces down; its own points keep its edge sharp.
                ([a, b, ob, oa].map(|v| self.between(v, v, 0.0)), lower)
            })
            .collect();
        self.triangles = cut.below.into_iter().map(|(t, _)| (t, lower)).collect();
        self.triangles.extend(
            cut.above
                .into_iter()
                .map(|(t, part)| (t.map(|v| outer.get(&v).copied().unwrap_or(v)), part)),
        );
        for ([a, b, c, d], part) in lips {
            let face = (self.points[b as usize] - self.points[a as usize])
                .cross(self.points[c as usize] - self.points[a as usize])
                .normalize_or(Vec3::NEG_Z);
            for v in [a, b, c, d] {
                self.normals[v as usize] = face;
            }
            self.triangles.push(([a, b, c], part));
            self.triangles.push(([a, c, d], part));
        }
    }
}

/// A closed line of `count` evenly spaced points through the given ones, smoothed a little.
fn even_loop(line: &[Vec3], count: usize) -> Vec<Vec3> {
    if line.len() < 3 {
        return Vec::new();
    }
    let n = line.len();
    let mut length = vec![0.0];
    for k in 0..n {
        length.push(length[k] + line[k].distance(line[(k + 1) % n]));
    }
    let total = length[n];
    let mut even: Vec<Vec3> = (0..count)
        .map(|i| {
            let at = total * i as f32 / count as f32;
            let k = length.partition_point(|l| *l <= at).clamp(1, n) - 1;
            let t = (at - length[k]) / (length[k + 1] - length[k]).max(1e-9);
            line[k].lerp(line[(k + 1) % n], t)
        })
        .collect();
    for _ in 0..6 {
        let before = even.clone();
        for i in 0..count {
            even[i] = before[i] * 0.5 + (before[(i + 1) % count] + before[(i + count - 1) % count]) * 0.25;
        }
    }
    even
}

/// Turns the ends of sleeves inwards, so that they have a thickness.
fn cuffs(shell: &mut Shell) {
    let mut open: BTreeMap<(u32, u32), u32> = BTreeMap::new();
    for (t, _) in &shell.triangles {
        for c in 0..3 {
            let (a, b) = (t[c], t[(c + 1) % 3]);
            *open.entry((a.min(b), a.max(b))).or_insert(0) += if a < b { 1 } else { 4 };
        }
    }
    for side in [1.0_f32, -1.0] {
        // Besides the neck, only the wrists are open.
        let ends: Vec<(u32, u32)> = open
            .iter()
            .filter(|(edge, uses)| {
                (**uses == 1 || **uses == 4) && shell.points[edge.0 as usize].x * side > 0.12
            })
            .map(|(edge, uses)| if *uses == 1 { *edge } else { (edge.1, edge.0) })
            .collect();
        let middle = ends.iter().map(|e| shell.points[e.0 as usize]).sum::<Vec3>() / ends.len().max(1) as f32;
        let mut inner: BTreeMap<u32, u32> = BTreeMap::new();
        for (a, b) in ends {
            let [ia, ib] = [a, b].map(|v| {
                *inner.entry(v).or_insert_with(|| {
                    let copy = shell.between(v, v, 0.0);
                    let p = shell.points[v as usize];
                    shell.points[copy as usize] = p.lerp(middle, 0.35) + Vec3::Z * 0.004;
                    shell.normals[copy as usize] = (middle - p).normalize_or(Vec3::NEG_Z);
                    copy
                })
            });
            shell.triangles.push(([b, a, ia], Part::Top));
            shell.triangles.push(([b, ia, ib], Part::Top));
        }
    }
}

/// Profile of a rolled edge, from the buried outer foot over the top to the buried inner foot: (outwards, upwards).
fn rolled(height: f32, thick: f32, lean: f32) -> Vec<Vec2> {
    let mut profile = vec![Vec2::new(0.0005, -0.006), Vec2::new(thick * 0.8, -0.001)];
    for k in 0..=8 {
        let t = k as f32 / 8.0;
        profile.push(Vec2::new(thick * 0.9 + lean * t, 0.002 + (height - 0.002) * t));
    }
    for k in 1..=6 {
        let a = k as f32 / 7.0 * std::f32::consts::PI;
        profile.push(Vec2::new(
            lean + thick * (0.45 + 0.45 * a.cos()),
            height + thick * 0.45 * a.sin(),
        ));
    }
    for k in 0..=3 {
        let t = 1.0 - k as f32 / 3.0;
        profile.push(Vec2::new(lean * t, -0.008 + (height + 0.008) * t));
    }
    profile
}

/// The collar: a profile swept around the cut edge.
fn collar(draft: &mut Draft, line: &[Vec3], neckline: &Neckline) {
    if line.is_empty() {
        return;
    }
    let s = neckline.scale;
    let profile = match neckline.garment {
        Garment::Crew => rolled(0.016 * s, 0.0052 * s, -0.004 * s),
        Garment::VNeck => rolled(0.0095 * s, 0.0050 * s, -0.0015 * s),
        Garment::Tunic => rolled(0.036 * s, 0.0044 * s, -0.003 * s),
    };
    let axis = neckline.axis();
    let n = line.len();
    let middle = line.iter().sum::<Vec3>() / n as f32;
    let base = draft.positions.len() as u32;
    for (i, &p) in line.iter().enumerate() {
        let tangent = (line[(i + 1) % n] - line[(i + n - 1) % n]).normalize_or(Vec3::X);
        let radial = Vec3::new(p.x - middle.x, p.y - middle.y, 0.0).normalize_or(Vec3::X);
        let out = (radial - tangent * radial.dot(tangent)).normalize_or(radial);
        let mut up = tangent.cross(out).normalize_or(Vec3::Z);
        if up.z < 0.0 {
            up = -up;
        }
        // The neck leans forwards, and a band follows it inwards.
        let up = (up * 0.6 + (Vec3::Z + Vec3::new(0.0, -0.18, 0.0)) * 0.6).normalize_or(Vec3::Z);
        // A tunic's collar parts at the throat.
        let angle = (p.x - axis.x).atan2(-(p.y - axis.y)).abs();
        let part = if neckline.garment == Garment::Tunic {
            step(0.0, 0.30, angle) * 0.35 + 0.65
        } else {
            1.0
        };
        for q in &profile {
            let height = if q.y > 0.0 { q.y * part } else { q.y };
            draft.vertex(
                p + out * q.x + up * height,
                [0.0; 3],
                0.30 * step(0.0, 0.02, q.y),
                0.0,
            );
        }
    }
    let m = profile.len() as u32;
    for i in 0..n as u32 {
        let next = (i + 1) % n as u32;
        for k in 0..m - 1 {
            let (a, b) = (base + i * m + k, base + next * m + k);
            draft.quad([a, b, b + 1, a + 1], Part::Top);
        }
    }
}

/// The overlap down the middle of a tunic and its buttons.
fn front_of_tunic(draft: &mut Draft, shell: &Shell, neckline: &Neckline, shape: &Shape) {
    let s = neckline.scale;
    let hip = shape.joint(Joint::Hip).z;
    let at = |x: f32, z: f32| shell.foremost_cloth(x, z);
    let top = neckline.front.z - 0.004 * s;
    let bottom = hip + 0.02;
    let rows = 44_u32;
    let half = 0.016 * s;
    let columns: [(f32, f32); 6] = [
        (-half, 0.0002),
        (-half + 0.0006, 0.0026),
        (-half * 0.4, 0.0031),
        (half * 0.4, 0.0031),
        (half - 0.0006, 0.0026),
        (half, 0.0002),
    ];
    let base = draft.positions.len() as u32;
    let mut spine = Vec::new();
    for r in 0..=rows {
        let z = top + (bottom - top) * r as f32 / rows as f32;
        let Some(middle) = at(0.0, z) else { continue };
        for (x, out) in columns {
            let p = at(x, z).unwrap_or(Vec3::new(x, middle.y, z));
            draft.vertex(p - Vec3::Y * out * s, [0.0; 3], 0.0, 0.0);
        }
        spine.push(middle);
    }
    let m = columns.len() as u32;
    for r in 0..(spine.len() as u32).saturating_sub(1) {
        for k in 0..m - 1 {
            let a = base + r * m + k;
            draft.quad([a, a + m, a + m + 1, a + 1], Part::Top);
        }
    }
    let gap = 0.075 * s;
    let mut z = top - 0.022 * s;
    while z > bottom + 0.02 {
        if let Some(p) = at(0.0, z) {
            button(draft, p - Vec3::Y * 0.0033 * s, 0.0085 * s);
        }
        z -= gap;
    }
}

/// A domed button facing forwards.
fn button(draft: &mut Draft, at: Vec3, radius: f32) {
    const SECTORS: u32 = 16;
    let rings = [(0.0, 0.42), (0.45, 0.37), (0.8, 0.22), (0.97, 0.06), (1.0, -0.1)];
    let base = draft.positions.len() as u32;
    for (r, out) in rings {
        for s in 0..SECTORS {
            let d = Vec2::from_angle(s as f32 / SECTORS as f32 * TAU) * r * radius;
            draft.vertex(at + Vec3::new(d.x, -out * radius, d.y), [0.0; 3], 0.0, 0.0);
        }
    }
    for k in 0..rings.len() as u32 - 1 {
        for s in 0..SECTORS {
            let next = (s + 1) % SECTORS;
            let (a, b) = (base + k * SECTORS + s, base + k * SECTORS + next);
            draft.quad([a, b, b + SECTORS, a + SECTORS], Part::Trim);
        }
    }
}
