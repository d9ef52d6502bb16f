//! Hair and caps, grown over the scalp.

use std::f32::consts::{PI, TAU};

use glam::{Vec2, Vec3};

use super::draft::Draft;
use super::eyes::along;
use super::head::{EAR, HEAD, Head, brow_at};
use super::noise::{hash, smooth, step};
use super::parts::Part;
use super::recipe::HairStyle;

const AROUND: usize = 120;
const DOWN: usize = 72;

/// The head without ears, as a distance from a middle point in every direction.
pub(super) struct Scalp {
    pub centre: Vec3,
    radius: Vec<f32>,
    eye_z: f32,
    /// Height of this head against an adult's.
    scale: f32,
    masculinity: f32,
    /// How far the front hairline has gone back, 0 to 1.
    receded: f32,
}

impl Scalp {
    /// Whether hair covers a place for certain, well inside the hairline.
    pub fn is_deep(&self, p: Vec3) -> bool {
        p.z > self.eye_z
            && self.inside(p) > 0.022 * self.scale
            && self.radius(p - self.centre) < p.distance(self.centre) + 0.003
    }

    /// Shade of the roots on the skin: full where hair grows densely, soft across the hairline.
    pub fn roots(&self, p: Vec3) -> f32 {
        0.75 * step(
            -0.0065,
            0.006,
            self.inside(p) / self.scale + 0.0015 * smooth(p * 260.0),
        )
    }

    pub fn new(head: &Head, masculinity: f32, age: f32) -> Self {
        let marks = &head.landmarks;
        let eye = head.eye.centre;
        let scale = (marks.vertex.position.z - head.menton.z) / 0.225;
        let mut ear = (Vec3::ZERO, 0.0_f32);
        for p in head.points() {
            if p.soft[EAR] > 0.5 && p.at.x > 0.0 {
                ear.0 += p.at;
                ear.1 += 1.0;
            }
        }
        let ear = ear.0 / ear.1.max(1.0);
        let centre = Vec3::new(0.0, ear.y - 0.006, eye.z + 0.022 * scale);
        let mut sum = vec![(0.0_f32, 0.0_f32); AROUND * DOWN];
        for p in head.points() {
            if p.soft[HEAD] > 0.15 && p.soft[EAR] < 0.02 {
                let d = p.at - centre;
                let (i, j) = cell(d);
                let slot =
                    &mut sum[(j.round() as usize).min(DOWN - 1) * AROUND + i.round() as usize % AROUND];
                // The outermost skin counts, not the inside of the mouth.
                if d.length() > slot.0 {
                    *slot = (d.length(), 1.0);
                }
            }
        }
        let mut radius: Vec<f32> = sum.iter().map(|s| if s.1 > 0.0 { s.0 } else { 0.0 }).collect();
        fill(&mut radius);
        let receded = masculinity * step(30.0, 75.0, age);
        Self {
            centre,
            radius,
            eye_z: eye.z,
            scale,
            masculinity,
            receded,
        }
    }

    /// Distance of the skin from the centre in a direction.
    fn radius(&self, d: Vec3) -> f32 {
        let (i, j) = cell(d);
        let (i0, j0) = (i.floor() as usize % AROUND, (j.floor() as usize).min(DOWN - 1));
        let (i1, j1) = ((i0 + 1) % AROUND, (j0 + 1).min(DOWN - 1));
        let (u, v) = (i.fract(), j.fract());
        let at = |i: usize, j: usize| self.radius[j * AROUND + i];
        (at(i0, j0) * (1.0 - u) + at(i1, j0) * u) * (1.0 - v) + (at(i0, j1) * (1.0 - u) + at(i1, j1) * u) * v
    }

    fn skin(&self, d: Vec3) -> Vec3 {
        self.centre + d * self.radius(d)
    }

    fn normal(&self, d: Vec3) -> Vec3 {
        let (a, b) = d.any_orthonormal_pair();
        let e = 0.09;
        let p = |s: f32, t: f32| self.skin((d + a * s + b * t).normalize());
        let n = (p(e, 0.0) - p(-e, 0.0))
            .cross(p(0.0, e) - p(0.0, -e))
            .normalize_or(d);
        if n.dot(d) < 0.0 { -n } else { n }
    }

    /// Metres above the hairline at a place on the skin; negative where no hair grows.
    fn inside(&self, p: Vec3) -> f32 {
        let q = (p - self.centre) / self.scale;
        let angle = q.x.abs().atan2(-q.y);
        let front = 0.066 + 0.004 * self.masculinity;
        let temple = front - 0.004 + self.receded * 0.022;
        let line = [
            (0.0, front + self.receded * 0.012),
            (0.30, front + self.receded * 0.016),
            (0.55, temple),
            (0.80, 0.036 + self.receded * 0.012),
            (1.00, 0.020),
            (1.16, 0.000 - 0.010 * self.masculinity),
            (1.36, -0.006 - 0.012 * self.masculinity),
            (1.48, 0.012),
            (1.62, 0.020),
            (1.80, 0.012),
            (1.98, -0.022),
            (2.30, -0.052),
            (2.70, -0.066),
            (PI, -0.068),
        ];
        let k = line
            .iter()
            .rposition(|l| l.0 <= angle)
            .unwrap_or(0)
            .min(line.len() - 2);
        let t = ((angle - line[k].0) / (line[k + 1].0 - line[k].0)).clamp(0.0, 1.0);
        let height = line[k].1 + (line[k + 1].1 - line[k].1) * t;
        let z = (p.z - self.eye_z) / self.scale;
        (z - height + 0.0025 * smooth(p * 150.0) + 0.002 * smooth(p * 420.0)) * self.scale
    }
}

/// Place of a direction in the table: around from the back, down from the top.
fn cell(d: Vec3) -> (f32, f32) {
    let d = d.normalize_or(Vec3::Z);
    let around = (d.x.atan2(d.y) + PI) / TAU * AROUND as f32;
    let down = d.z.clamp(-1.0, 1.0).acos() / PI * DOWN as f32;
    (around, down)
}

/// Fills empty places from their neighbours and smooths everything a little.
fn fill(table: &mut [f32]) {
    for round in 0..40 {
        let before = table.to_vec();
        for j in 0..DOWN {
            for i in 0..AROUND {
                let k = j * AROUND + i;
                let near = [
                    before[j * AROUND + (i + 1) % AROUND],
                    before[j * AROUND + (i + AROUND - 1) % AROUND],
                    before[(j + 1).min(DOWN - 1) * AROUND + i],
                    before[j.saturating_sub(1) * AROUND + i],
                ];
                let (sum, count) = near
                    .iter()
                    .filter(|r| **r > 0.0)
                    .fold((0.0, 0.0), |s, r| (s.0 + r, s.1 + 1.0));
                if count > 0.0 {
                    if before[k] == 0.0 {
                        table[k] = sum / count;
                    } else if round >= 37 {
                        table[k] = before[k] * 0.5 + sum / count * 0.5;
                    }
                }
            }
        }
    }
}

/// What differs between hair styles.
struct Style {
    /// Thickness of the hair on top and at the sides.
    top: f32,
    side: f32,
    /// Length of locks on top and at the sides.
    long_top: f32,
    long_side: f32,
    locks: u32,
    width: f32,
    steps: u32,
    /// Hair falls to this height, if it is long.
    hangs_to: Option<f32>,
    /// Nothing grows above this height (it is under a cap).
    below: f32,
}

fn style(hair: HairStyle, scalp: &Scalp, head: &Head) -> Option<Style> {
    let s = scalp.scale;
    let man = scalp.masculinity;
    let short = Style {
        top: (0.022 - 0.008 * man) * s,
        side: (0.011 - 0.0055 * man) * s,
        long_top: (0.050 - 0.012 * man) * s,
        long_side: (0.032 - 0.014 * man) * s,
        locks: 5000,
        width: 0.0039 * s,
        steps: 3,
        hangs_to: None,
        below: f32::MAX,
    };
    match hair {
        HairStyle::Bald => None,
        HairStyle::Short => Some(short),
        HairStyle::Cap => Some(Style {
            below: cap_foot(scalp, 0.0) + 0.030 * s,
            locks: 5000,
            ..short
        }),
        HairStyle::Bob => Some(Style {
            top: 0.016 * s,
            side: 0.017 * s,
            long_top: 0.30 * s,
            long_side: 0.30 * s,
            locks: 2300,
            width: 0.0066 * s,
            steps: 10,
            hangs_to: Some(head.menton.z + 0.004),
            below: f32::MAX,
        }),
    }
}

/// Puts hair, and a cap if there is one, into the draft.
pub(super) fn grow(draft: &mut Draft, hair: HairStyle, head: &Head, scalp: &Scalp) {
    if let Some(style) = style(hair, scalp, head) {
        underlay(draft, scalp, &style);
        locks(draft, scalp, &style);
    }
    if hair == HairStyle::Cap {
        cap(draft, scalp);
    }
}

/// Thickness of hair over a place on the skin.
fn thickness(scalp: &Scalp, style: &Style, p: Vec3) -> f32 {
    let up = ((p - scalp.centre).normalize_or(Vec3::Z).z * 1.3).clamp(0.0, 1.0);
    let full = style.side + (style.top - style.side) * up * up;
    let fade = step(-0.002, 0.016, scalp.inside(p) / scalp.scale);
    full * (0.18 + 0.82 * fade)
}

/// A closed dark layer, so that no scalp shows between the locks.
fn underlay(draft: &mut Draft, scalp: &Scalp, style: &Style) {
    const COLUMNS: u32 = 110;
    const ROWS: u32 = 62;
    let base = draft.positions.len() as u32;
    let mut grows = Vec::new();
    for r in 0..=ROWS {
        let polar = r as f32 / ROWS as f32 * 2.3;
        for c in 0..COLUMNS {
            let around = c as f32 / COLUMNS as f32 * TAU;
            let d = Vec3::new(
                polar.sin() * around.sin(),
                polar.sin() * around.cos(),
                polar.cos(),
            );
            let skin = scalp.skin(d);
            let inside = scalp.inside(skin);
            let clumps = 1.0 + 0.25 * smooth(skin * 110.0);
            // At the hairline the layer dives under the skin.
            let sink = step(0.004, -0.004, inside / scalp.scale) * 0.004;
            let out = 0.45 * thickness(scalp, style, skin) * clumps - sink - 0.0006;
            draft.vertex(skin + scalp.normal(d) * out, [0.0; 3], 1.0, 1.0);
            grows.push(inside > -0.006 && skin.z < style.below);
        }
    }
    for r in 0..ROWS {
        for c in 0..COLUMNS {
            let next = (c + 1) % COLUMNS;
            let q = [
                r * COLUMNS + c,
                (r + 1) * COLUMNS + c,
                (r + 1) * COLUMNS + next,
                r * COLUMNS + next,
            ];
            if q.iter().any(|v| grows[*v as usize]) {
                draft.quad(q.map(|v| base + v), Part::Hair);
            }
        }
    }
}

/// The way hair lies at a place: along the skin, away from the crown or the parting.
fn flow(scalp: &Scalp, style: &Style, p: Vec3, d: Vec3) -> Vec3 {
    let q = (p - scalp.centre) / scalp.scale;
    let wanted = if style.hangs_to.is_some() {
        let parting = 0.020;
        let side = (q.x - parting) / 0.03;
        let side = side.clamp(-1.0, 1.0);
        // Hair from the brow is swept back over the temples before it falls.
        let front = step(-0.01, -0.075, q.y);
        Vec3::new(
            side * (1.0 + 0.6 * front),
            0.20 + 0.30 * front,
            -0.9 + 0.55 * front,
        )
    } else {
        let crown = Vec3::new(0.008, 0.055, 0.085);
        let away = (q - crown) * Vec3::new(1.0, 1.0, 0.6);
        let swirl = Vec3::new(-away.y, away.x, 0.0) * 0.35;
        let top = step(0.05, 0.09, q.z);
        let front = step(-0.015, -0.075, q.y) * step(0.03, 0.06, q.z);
        let combed = Vec3::new(-0.9, 0.10, 0.0) * (top * 0.03 + 0.085 * front);
        let away = away * (1.0 - 0.62 * front);
        let down = Vec3::new(0.0, 0.18, -1.0) * (1.0 - top) * 0.10;
        away * 0.7 + swirl + combed + down
    };
    let jitter = Vec3::new(
        smooth(p * 55.0),
        smooth(p * 55.0 + Vec3::splat(9.0)),
        smooth(p * 55.0 + Vec3::splat(17.0)),
    );
    let wanted =
        wanted.normalize_or(Vec3::NEG_Z) + jitter * if style.hangs_to.is_some() { 0.10 } else { 0.38 };
    let n = scalp.normal(d);
    (wanted - n * wanted.dot(n)).normalize_or(Vec3::NEG_Z)
}

/// Locks: curved tapering strips over the underlay.
fn locks(draft: &mut Draft, scalp: &Scalp, style: &Style) {
    let golden = PI * (3.0 - 5.0_f32.sqrt());
    // Directions spread evenly over the upper sphere; those that miss the scalp are passed over.
    let mut index = 0_u32;

    let spread = style.locks;
    while index < spread {
        let z = 1.0 - 1.86 * (index as f32 + 0.5) / spread as f32;
        let around = golden * index as f32;
        index += 1;
        let flat = (1.0 - z * z).max(0.0).sqrt();
        let d = Vec3::new(flat * around.cos(), flat * around.sin(), z);
        let root = scalp.skin(d);
        if scalp.inside(root) < 0.003 * (hash(index * 16 + 9) - 0.6) || root.z > style.below {
            continue;
        }
        lock(draft, scalp, style, d, index);
    }
}

/// How long a lock is: by where it grows and by chance, and shorter at the edge of short hair.
fn lock_length(scalp: &Scalp, style: &Style, start: Vec3, near_edge: f32, chance: f32) -> f32 {
    let up = ((start - scalp.centre).normalize().z * 1.3).clamp(0.0, 1.0);
    let length = (style.long_side + (style.long_top - style.long_side) * up) * (0.75 + 0.5 * chance);
    if style.hangs_to.is_some() {
        length
    } else {
        length * (0.35 + 0.65 * near_edge)
    }
}

/// How high a lock lies over the skin after a share of its length, as a share of the hair's thickness.
fn rise(style: &Style, t: f32) -> f32 {
    let (start, rise) = if style.hangs_to.is_some() {
        (0.6, step(0.0, 0.12, t))
    } else {
        (0.35, step(0.0, 0.5, t) * (1.0 - 0.25 * t))
    };
    start + (1.0 - start) * rise
}

/// Grows one lock from its root.
fn lock(draft: &mut Draft, scalp: &Scalp, style: &Style, root: Vec3, seed: u32) {
    let chance = |k: u32| hash(seed * 16 + k);
    let start = scalp.skin(root);
    let near_edge = step(0.0, 0.02, scalp.inside(start) / scalp.scale);
    let length = lock_length(scalp, style, start, near_edge, chance(0));
    let slender = 0.55 + 0.45 * near_edge;

    let layer = 0.55 + 0.55 * chance(1);
    let steps = style.steps;
    let advance = length / steps as f32;
    let bottom = style
        .hangs_to
        .map(|z| z + (chance(2) - 0.5) * 0.016 * scalp.scale);
    let mut line: Vec<(Vec3, Vec3)> = Vec::new();
    let mut p = start;
    let mut heading = Vec3::ZERO;
    for k in 0..=steps {
        let t = k as f32 / steps as f32;
        let d = (p - scalp.centre).normalize_or(Vec3::Z);
        let skin = scalp.skin(d);
        let n = scalp.normal(d);
        let out = thickness(scalp, style, skin).max(if k > 0 { style.side * 0.45 } else { 0.0 })
            * layer
            * rise(style, t);
        let hanging = bottom.is_some() && (d.z < -0.05 || p.z < scalp.eye_z - 0.005 * scalp.scale);
        let lifted = if hanging {
            let clear = scalp.radius(d) + style.side * (0.35 + 0.5 * layer);
            beside_face(scalp, outside(scalp, p, clear), chance(5))
        } else {
            skin + n * out
        };
        // A fringe ends soon below the hairline; nothing lies across the face.
        if !hanging && d.y < 0.0 && scalp.inside(skin) < -0.008 * scalp.scale {
            break;
        }
        let level = Vec3::new(d.x, d.y, 0.0);
        line.push((lifted, if hanging { level.normalize_or(d) } else { n }));
        if bottom.is_some_and(|b| lifted.z <= b) {
            break;
        }
        heading = if hanging {
            let tip = bottom.map_or(0.0, |b| step(b + 0.05, b, lifted.z));
            let inwards = -level.normalize_or(Vec3::X) * (0.10 + 0.35 * tip);
            (heading * 0.5 + Vec3::NEG_Z * 0.9 + inwards).normalize()
        } else {
            (flow(scalp, style, skin, d) * 0.8 + heading * 0.4).normalize_or(Vec3::NEG_Z)
        };
        let stride = bottom.map_or(advance, |b| advance.min((lifted.z - b).max(0.0) + 0.004));
        p = lifted + heading * stride;
    }
    strip(
        draft,
        &line,
        style.width * slender * (0.7 + 0.6 * chance(3)),
        chance(4),
    );
}

/// Lets hair fall beside the neck, but never into it: no nearer to the head's middle than `clear`.
fn outside(scalp: &Scalp, p: Vec3, clear: f32) -> Vec3 {
    if p.distance(scalp.centre) < clear {
        scalp.centre + (p - scalp.centre).normalize_or(Vec3::Z) * clear
    } else {
        p
    }
}

/// Keeps falling hair out of the face: in front of the ears it is pushed back to the cheek's side.
fn beside_face(scalp: &Scalp, p: Vec3, spread: f32) -> Vec3 {
    let q = p - scalp.centre;
    let least = -(0.040 + 0.016 * spread) * scalp.scale;
    if q.y >= least {
        return p;
    }
    // The same distance from the axis, but further round.
    let reach = q.x.hypot(q.y).max(least.abs() + 0.03);
    let x = (reach * reach - least * least).sqrt() * if q.x < 0.0 { -1.0 } else { 1.0 };
    scalp.centre + Vec3::new(x, least, q.z)
}

/// A strip along a line, pointed at the end.
fn strip(draft: &mut Draft, line: &[(Vec3, Vec3)], width: f32, twist: f32) {
    strip_of(draft, line, width, twist, Part::Hair);
}

fn strip_of(draft: &mut Draft, line: &[(Vec3, Vec3)], width: f32, twist: f32, part: Part) {
    if line.len() < 2 {
        return;
    }
    let base = draft.positions.len() as u32;
    let last = line.len() - 1;
    for (k, &(p, n)) in line.iter().enumerate() {
        let along = (line[(k + 1).min(last)].0 - line[k.saturating_sub(1)].0).normalize_or(Vec3::NEG_Z);
        let side = along.cross(n).normalize_or(Vec3::X);
        let n = side.cross(along).normalize_or(n);
        let side = (side + n * (twist - 0.5) * 0.9).normalize();
        let t = k as f32 / last as f32;
        let half = width / 2.0 * (0.55 + 0.45 * step(0.0, 0.3, t)) * (1.0 - 0.88 * t * t * t);
        for s in [-1.0, 1.0] {
            // Normals lean apart, so that a flat strip catches light like a round tress.
            draft.vertex_with(
                p + side * half * s,
                (n + side * s * 0.8).normalize_or(n),
                [0.0; 3],
                1.0,
                1.0,
            );
        }
    }
    for k in 0..last as u32 {
        let a = base + 2 * k;
        draft.quad([a, a + 1, a + 3, a + 2], part);
    }
}

/// Height of the cap's lower edge; `back` is 0 at the forehead and 1 at the back of the head.
fn cap_foot(scalp: &Scalp, back: f32) -> f32 {
    scalp.eye_z + (0.052 - 0.026 * back) * scalp.scale
}

/// Corners around the cap.
const CAP_SECTORS: u32 = 72;
/// The cap's rings: height above the lower edge, and outwards from the head's own outline there.
const CAP_RINGS: [(f32, f32); 14] = [
    (0.004, 0.0005),
    (0.0, 0.0045),
    (0.002, 0.0062),
    (0.020, 0.0065),
    (0.036, 0.0066),
    (0.038, 0.0078),
    (0.041, 0.0080),
    (0.050, 0.0150),
    (0.060, 0.0215),
    (0.066, 0.0235),
    (0.0695, 0.0222),
    (0.0735, 0.0120),
    (0.0770, -0.0250),
    (0.0790, -0.0600),
];

/// Height of the cap's lower edge all round, and how far the head reaches there, evened out.
fn cap_edge(scalp: &Scalp) -> Vec<(f32, f32)> {
    let s = scalp.scale;
    let outline = |angle: f32| {
        let back = 0.5 - 0.5 * angle.cos();
        let z = cap_foot(scalp, back);
        let mut reach = 0.0_f32;
        // The widest of the head over the band's height.
        for k in 0..5 {
            let height = z + 0.007 * k as f32 * s - scalp.centre.z;
            let flat = Vec3::new(angle.sin(), -angle.cos(), 0.0);
            let mut r = 0.09;
            for _ in 0..6 {
                let d = (flat * r + Vec3::Z * height).normalize();
                r = scalp.radius(d) * (d.x * d.x + d.y * d.y).sqrt();
            }
            reach = reach.max(r);
        }
        (z, reach)
    };
    let mut edge: Vec<(f32, f32)> = (0..CAP_SECTORS)
        .map(|k| outline(k as f32 / CAP_SECTORS as f32 * TAU))
        .collect();
    for _ in 0..4 {
        let before = edge.clone();
        let n = CAP_SECTORS as usize;
        for i in 0..n {
            edge[i].1 = before[i]
                .1
                .max(before[i].1 * 0.5 + (before[(i + 1) % n].1 + before[(i + n - 1) % n].1) * 0.25);
        }
    }
    edge
}

/// A bandsman's peaked cap: band, top that is wider than the band, peak.
fn cap(draft: &mut Draft, scalp: &Scalp) {
    let s = scalp.scale;
    let edge = cap_edge(scalp);
    let mean = edge.iter().map(|e| e.0).sum::<f32>() / CAP_SECTORS as f32;
    let base = draft.positions.len() as u32;
    for (height, out) in CAP_RINGS {
        for (k, (z, reach)) in edge.iter().enumerate() {
            let angle = k as f32 / CAP_SECTORS as f32 * TAU;
            let flat = Vec3::new(angle.sin(), -angle.cos(), 0.0);
            let front = angle.cos();
            // The top stands up at the front and levels off the slope of the band.
            let lift = height * (1.0 + 0.16 * step(0.04, 0.07, height) * front);
            let r = (reach + out * s).max(0.002);
            // Towards the middle the slope of the top runs out evenly from front to back.
            let level = 1.0 - step(0.072, 0.079, height) * (1.0 - (r / (reach + 0.02)).min(1.0));
            let z = mean + (z - mean) * level;
            let lift = height + (lift - height) * level;
            draft.vertex(
                Vec3::new(scalp.centre.x, scalp.centre.y, z + lift * s) + flat * r,
                [0.0; 3],
                1.0,
                1.0,
            );
        }
    }
    let middle = draft.vertex(
        Vec3::new(scalp.centre.x, scalp.centre.y, mean + 0.080 * s),
        [0.0; 3],
        1.0,
        1.0,
    );
    for r in 0..CAP_RINGS.len() as u32 - 1 {
        let part = if (5..6).contains(&r) {
            Part::Trim
        } else {
            Part::Cap
        };
        for k in 0..CAP_SECTORS {
            let next = (k + 1) % CAP_SECTORS;
            let (a, b) = (base + r * CAP_SECTORS + k, base + r * CAP_SECTORS + next);
            draft.quad([a, b, b + CAP_SECTORS, a + CAP_SECTORS], part);
        }
    }
    let top = base + (CAP_RINGS.len() as u32 - 1) * CAP_SECTORS;
    for k in 0..CAP_SECTORS {
        draft.triangle([top + k, top + (k + 1) % CAP_SECTORS, middle], Part::Cap);
    }
    peak(draft, scalp, &edge, s);
}

/// The peak: a curved board, upper and lower side.
fn peak(draft: &mut Draft, scalp: &Scalp, edge: &[(f32, f32)], s: f32) {
    const COLUMNS: u32 = 28;
    const ROWS: u32 = 8;
    let n = edge.len() as f32;
    let mut sides = Vec::new();
    for under in [0.0_f32, 1.0] {
        let base = draft.positions.len() as u32;
        sides.push(base);
        for c in 0..=COLUMNS {
            let across = c as f32 / COLUMNS as f32 * 2.0 - 1.0;
            let angle = across * 0.98;
            let k = (angle / TAU * n).rem_euclid(n);
            let (a, b) = (edge[k as usize % edge.len()], edge[(k as usize + 1) % edge.len()]);
            let (z, reach) = (a.0 + (b.0 - a.0) * k.fract(), a.1 + (b.1 - a.1) * k.fract());
            let flat = Vec3::new(angle.sin(), -angle.cos(), 0.0);
            let reach_out = 0.050 * (1.0 - across.powi(4)).max(0.0).powf(0.7);
            for r in 0..=ROWS {
                let t = r as f32 / ROWS as f32;
                let forward = Vec3::new(flat.x * 0.55, -(flat.y.abs() * 0.75 + 0.35), 0.0).normalize();
                let p = Vec3::new(scalp.centre.x, scalp.centre.y, z)
                    + flat * (reach + 0.0045 * s)
                    + forward * (t * reach_out * s)
                    + Vec3::Z
                        * ((0.003 - 0.020 * t * t - 0.016 * t) * (1.0 - 0.45 * across * across)
                            - 0.0022 * under * (1.0 - 0.5 * t * t))
                        * s;
                draft.vertex(p, [0.0; 3], 1.0, 1.0);
            }
        }
        for c in 0..COLUMNS {
            for r in 0..ROWS {
                let a = base + c * (ROWS + 1) + r;
                let q = [a, a + ROWS + 1, a + ROWS + 2, a + 1];
                draft.quad(if under > 0.5 { q } else { [q[3], q[2], q[1], q[0]] }, Part::Cap);
            }
        }
    }
    // The rim between upper and lower side.
    for c in 0..COLUMNS {
        let (a, b) = (sides[0] + c * (ROWS + 1) + ROWS, sides[1] + c * (ROWS + 1) + ROWS);
        draft.quad([a, b, b + ROWS + 1, a + ROWS + 1], Part::Cap);
    }
}

/// Brow hairs: fine short strips along the brows, steeper near the nose.
pub(super) fn brows(draft: &mut Draft, head: &Head, density: f32) {
    const HAIRS: u32 = 240;
    let eye = head.eye.centre;
    for side in [1.0_f32, -1.0] {
        for k in 0..HAIRS {
            let seed = k * 8 + if side > 0.0 { 40_000 } else { 50_000 };
            let t = (k as f32 + hash(seed + 1)) / HAIRS as f32;
            if hash(seed) > density * (1.0 - 0.6 * step(0.65, 1.0, t)) * (0.45 + 0.55 * step(0.0, 0.12, t)) {
                continue;
            }
            let (at, half) = brow_at(t);
            let (ahead, _) = brow_at((t + 0.04).min(1.0));
            let along = (ahead - at).normalize_or(Vec2::X);
            let place = at + along.perp() * half * (hash(seed + 2) * 2.0 - 1.15) * 0.9;
            // Near the nose hairs stand up; further out those from above lie down and those from below lie up.
            let lean =
                0.85 * step(0.22, 0.0, t) + 0.28 - 0.55 * (place - at).dot(along.perp()) / half.max(0.001);
            let way = Vec2::from_angle(lean * (0.8 + 0.4 * hash(seed + 3))).rotate(along);
            let length =
                (0.0062 - 0.0018 * t) * (0.6 + 0.5 * hash(seed + 4)) * (0.75 + 0.25 * step(0.0, 0.12, t));
            let line: Vec<(Vec3, Vec3)> = (0..=2)
                .filter_map(|s| {
                    let s = s as f32 / 2.0;
                    let q = place + way * length * s;
                    let skin = head.front.at((eye.x + q.x) * side, eye.z + q.y)?;
                    let lift = 0.0002 + 0.0007 * s * (1.0 - 0.4 * s);
                    Some((skin.position + skin.normal * lift, skin.normal))
                })
                .collect();
            strip(draft, &line, 0.0004, 0.5);
        }
    }
}

/// Lashes along the lids of both eyes.
pub(super) fn lashes(draft: &mut Draft, head: &Head, upper: &[Vec3], lower: &[Vec3], length: f32) {
    let centre = head.eye.centre;
    for side in [1.0_f32, -1.0] {
        let flip = Vec3::new(side, 1.0, 1.0);
        for (rim, count, rise, length) in [(upper, 64_u32, 1.0_f32, length), (lower, 34, -0.45, length * 0.5)]
        {
            if rim.len() < 2 {
                continue;
            }
            for k in 0..count {
                let seed = 60_000 + k * 4 + if rise > 0.0 { 0 } else { 1000 };
                let t = (k as f32 + 0.2 + 0.6 * hash(seed)) / count as f32;
                let root = along(rim, 0.2 + 0.79 * t);
                let out = (root - centre).normalize_or(-Vec3::Y);
                let fan = Vec3::X * (t - 0.42) * 0.9;
                let way = (out * Vec3::new(0.5, 1.0, 0.0) + fan).normalize_or(-Vec3::Y);
                let long = length * (0.6 + 0.5 * t) * (0.8 + 0.4 * hash(seed + 1));
                let line: Vec<(Vec3, Vec3)> = (0..=3)
                    .map(|s| {
                        let s = s as f32 / 3.0;
                        let p =
                            root + way * long * s * 0.85 + Vec3::Z * rise * long * (0.75 * s * s - 0.12 * s);
                        (p * flip, Vec3::Z)
                    })
                    .collect();
                strip_of(
                    draft,
                    &line,
                    if rise > 0.0 { 0.00042 } else { 0.00026 },
                    0.5,
                    Part::Lash,
                );
            }
        }
    }
}
