//! Eyeballs and lashes.

use glam::{Vec2, Vec3};

use super::draft::Draft;
use super::noise::{hash, step};
use super::parts::Part;
use super::people::{Group, Joint, People, Shape};

/// Iris radius of an adult in metres (a usual visible iris is just under 12 mm across; from memory) and the pupil in calm room light.
const IRIS: f32 = 0.0059;
const PUPIL: f32 = 0.0021;

/// One eyeball: the ellipsoid that the lids were modelled over.
#[derive(Clone, Copy, Debug)]
pub(super) struct Eye {
    pub centre: Vec3,
    pub radii: Vec3,
    /// Middle of the pupil seen from the front, from the centre.
    gaze: Vec2,
    iris: f32,
}

impl Eye {
    /// The left eye of a shape that still faces straight ahead.
    pub fn left(shape: &Shape, people: &People) -> Self {
        let centre = shape.joint(Joint::Eye);
        let mut low = Vec3::MAX;
        let mut high = Vec3::MIN;
        for (quad, group) in people.quads.iter().zip(&people.groups) {
            for &v in quad {
                let p = shape.positions[v as usize];
                if *group == Group::Eye && !people.is_right(v as usize) {
                    low = low.min(p);
                    high = high.max(p);
                }
            }
        }
        let half = (high - low) / 2.0;
        let radii = Vec3::new(half.x, centre.y - low.y, half.z);
        let size = (half.z / 0.0142).clamp(0.9, 1.05);
        let upper = rim(shape, people, Group::UpperLash);
        let lower = rim(shape, people, Group::LowerLash);
        let near = |rim: &[Vec3]| {
            let middle: Vec<f32> = rim
                .iter()
                .filter(|p| (p.x - centre.x).abs() < 0.005)
                .map(|p| p.z)
                .collect();
            middle.iter().sum::<f32>() / middle.len().max(1) as f32
        };
        // The gaze rests where the lids leave the iris: its top just under the upper lid, its foot on the lower.
        let opening = (near(&upper) + near(&lower)) / 2.0 - centre.z;
        Self {
            centre,
            radii,
            gaze: Vec2::new(0.0, opening + 0.0007),
            iris: IRIS * size,
        }
    }

    pub fn mirrored(&self) -> Self {
        let flip = |v: Vec3| Vec3::new(-v.x, v.y, v.z);
        Self {
            centre: flip(self.centre),
            gaze: Vec2::new(-self.gaze.x, self.gaze.y),
            ..*self
        }
    }

    /// Point on the front of the eyeball at an offset from the pupil, with the bulge of the cornea.
    fn front(&self, offset: Vec2) -> Vec3 {
        let at = self.gaze + offset;
        let inside = 1.0 - (at.x / self.radii.x).powi(2) - (at.y / self.radii.z).powi(2);
        let t = (offset.length() / (self.iris * 1.15)).min(1.0);
        let bulge = 0.0008 * (1.0 - t * t).powi(2);
        self.centre + Vec3::new(at.x, -self.radii.y * inside.max(0.0).sqrt() - bulge, at.y)
    }

    /// Middle of the pupil.
    pub fn pupil(&self) -> Vec3 {
        self.front(Vec2::ZERO)
    }

    /// Distance from the pupil to the eyeball's outline in a direction.
    fn reach(&self, toward: Vec2) -> f32 {
        let r = Vec2::new(self.radii.x, self.radii.z) * 0.992;
        let (a, b) = (toward / r, self.gaze / r);
        let (half, rest) = (a.dot(b), b.length_squared() - 1.0);
        (-half + (half * half - a.length_squared() * rest).sqrt()) / a.length_squared()
    }

    /// The rings of the visible front: a radius around the pupil, then a share of the way on to the eyeball's own
    /// outline.
    fn rings(&self, pupil: f32) -> Vec<(f32, f32)> {
        let mut rings: Vec<(f32, f32)> = [0.0, 0.6, 0.97, 1.0, 1.08]
            .iter()
            .map(|r| (r * pupil, 0.0))
            .collect();
        rings.extend([0.55, 0.7, 0.82, 0.9, 0.95, 1.0, 1.05, 1.12].map(|r| (r * self.iris, 0.0)));
        rings.extend([0.12, 0.3, 0.5, 0.72, 0.9, 1.0].map(|share| (1.12 * self.iris, share)));
        rings
    }

    /// The visible front of the eyeball as rings around the pupil.
    pub fn build(&self, draft: &mut Draft) {
        const SECTORS: u32 = 48;
        let pupil = PUPIL * self.iris / IRIS;
        let rings = self.rings(pupil);
        let base = draft.positions.len() as u32;
        for (k, &(inner_radius, share)) in rings.iter().enumerate() {
            for s in 0..SECTORS {
                let angle = (s as f32 + 0.5 * (k % 2) as f32) / SECTORS as f32 * std::f32::consts::TAU;
                let toward = Vec2::from_angle(angle);
                let radius = inner_radius + share * (self.reach(toward) - inner_radius);
                let from_centre = radius / self.iris;
                let rim = step(0.72, 1.0, from_centre) * step(1.10, 1.0, from_centre);
                let fibres =
                    0.22 * hash(s * 7 + 3) * step(0.3, 0.5, from_centre) * step(1.0, 0.8, from_centre);
                let inner = 0.35 * step(pupil / self.iris * 1.35, pupil / self.iris, from_centre);
                let veins = 0.22 * step(1.5, 2.1, from_centre);
                let dark = if radius <= pupil * 1.001 {
                    0.0
                } else {
                    (0.62 * rim + fibres + inner).min(1.0)
                };
                draft.vertex(
                    self.front(Vec2::from_angle(angle) * radius),
                    [0.0, dark, veins],
                    1.0,
                    1.0,
                );
            }
        }
        for k in 0..rings.len() as u32 - 1 {
            let (outer, _) = rings[k as usize + 1];
            let part = if outer <= pupil * 1.0001 {
                Part::Pupil
            } else if outer <= self.iris * 1.0001 {
                Part::Iris
            } else {
                Part::Sclera
            };
            for s in 0..SECTORS {
                let next = (s + 1) % SECTORS;
                let (a, b) = (base + k * SECTORS + s, base + k * SECTORS + next);
                let (c, d) = (a + SECTORS, b + SECTORS);
                if k == 0 {
                    if k % 2 == 0 {
                        draft.triangle([base, d, c], part);
                    }
                } else if k % 2 == 0 {
                    draft.triangle([a, b, c], part);
                    draft.triangle([b, d, c], part);
                } else {
                    draft.triangle([a, d, c], part);
                    draft.triangle([a, b, d], part);
                }
            }
        }
    }
}

/// Roots of the lashes along a lid of the left eye, by increasing x.
pub(super) fn rim(shape: &Shape, people: &People, which: Group) -> Vec<Vec3> {
    let centre = shape.joint(Joint::Eye);
    let mut near: std::collections::BTreeMap<u32, Vec<u32>> = std::collections::BTreeMap::new();
    for (quad, _) in people
        .quads
        .iter()
        .zip(&people.groups)
        .filter(|(_, g)| **g == which)
    {
        for c in 0..4 {
            let (a, b) = (quad[c], quad[(c + 1) % 4]);
            near.entry(a).or_default().push(b);
            near.entry(b).or_default().push(a);
        }
    }
    let distance = |v: u32| shape.positions[v as usize].distance(centre);
    let mut roots: Vec<Vec3> = near
        .iter()
        .filter(|(v, list)| {
            !people.is_right(**v as usize) && list.iter().all(|n| distance(*n) >= distance(**v) - 0.0006)
        })
        .map(|(v, _)| shape.positions[*v as usize])
        .collect();
    roots.sort_by(|a, b| a.x.total_cmp(&b.x));
    roots
}

/// A point along a line of points, `t` from 0 to 1.
pub(super) fn along(line: &[Vec3], t: f32) -> Vec3 {
    let s = t.clamp(0.0, 1.0) * (line.len() - 1) as f32;
    let k = (s as usize).min(line.len() - 2);
    line[k].lerp(line[k + 1], s - k as f32)
}
