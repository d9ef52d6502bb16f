//! The parts of people that light other surfaces, cut finer than the room's patches.
//!
//! The room's patches of a body mix what is seen with what lies under cloth and hair. Near by that shows:
//! a chin lights a neck, a collar a cheek. So these parts are made of the very points that receivers see,
//! apart by material, and their light is worked out in every frame.

use super::reach::Reach;
use super::receiver::Receiver;
use crate::rng::Rng;
use crate::room::{Room, Target};
use crate::scatter::{cosine_direction, hemispherical_reflectance};
use crate::source::PlacedFlash;
use crate::surface::SurfacePoint;
use crate::tracer::Hit;
use colour::Spectrum;
use glam::Vec3;
use rayon::prelude::*;

/// Edge of the cubes that cut bodies into parts, in metres.
const CUBE: f32 = 0.04;
/// Points that stand for a part, and rays that each of them sends into the room.
const POINTS: usize = 8;
const RAYS: usize = 8;

/// Which part of which body: cube, direction and material.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) struct BodyPart {
    cube: [i16; 3],
    side: u8,
    material: u16,
}

/// A point of a body that a receiver sees.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Glimpse {
    pub part: BodyPart,
    pub direction: Vec3,
    pub hit: Hit,
    /// Share of the receiver's hemisphere that it stands for.
    pub weight: f32,
    /// Share of what the receiver's coat mirrors.
    pub gloss: f32,
}

/// All parts of bodies that any receiver sees.
pub(crate) struct Bodies {
    /// In order.
    parts: Vec<BodyPart>,
    reflectance: Vec<Spectrum>,
    reach: Reach,
    /// Patches that each part sees, `POINTS × RAYS` for each.
    targets: Vec<Target>,
}

impl Glimpse {
    pub fn new(
        room: &Room,
        receiver: &Receiver,
        direction: Vec3,
        hit: Hit,
        [weight, gloss]: [f32; 2],
    ) -> Self {
        let at = receiver.start + direction * hit.distance;
        let normal = room.geometry.flat_normal(hit.triangle);
        let size = normal.abs();
        let axis = if size.x >= size.y && size.x >= size.z {
            0
        } else if size.y >= size.z {
            1
        } else {
            2
        };
        Glimpse {
            part: BodyPart {
                cube: (at / CUBE).floor().to_array().map(|c| c as i16),
                side: 2 * axis as u8 + u8::from(normal[axis] < 0.0),
                material: room.geometry.material[hit.triangle as usize],
            },
            direction,
            hit,
            weight,
            gloss,
        }
    }
}

impl Bodies {
    /// Makes the parts from all that receivers saw.
    pub fn new(
        room: &Room,
        place: &PlacedFlash,
        receivers: &[Receiver],
        seen: &[Vec<Glimpse>],
        seed: u64,
    ) -> Self {
        let mut all: Vec<(BodyPart, u32, u32)> = seen
            .iter()
            .enumerate()
            .flat_map(|(receiver, glimpses)| {
                let number =
                    move |(index, glimpse): (usize, &Glimpse)| (glimpse.part, receiver as u32, index as u32);
                glimpses.iter().enumerate().map(number)
            })
            .collect();
        all.par_sort_unstable();
        let groups: Vec<&[(BodyPart, u32, u32)]> = all.chunk_by(|a, b| a.0 == b.0).collect();
        let points: Vec<Vec<SurfacePoint>> = groups
            .par_iter()
            .map(|group| {
                (0..POINTS)
                    .map(|index| {
                        let (_, receiver, glimpse) = group[index * group.len() / POINTS];
                        let glimpse = &seen[receiver as usize][glimpse as usize];
                        let origin = receivers[receiver as usize].start;
                        SurfacePoint::new(&room.geometry, &glimpse.hit, origin, glimpse.direction)
                    })
                    .collect()
            })
            .collect();
        Bodies {
            parts: groups.iter().map(|group| group[0].0).collect(),
            reflectance: points.iter().map(|points| mean_reflectance(points)).collect(),
            reach: Reach::of_points(room, place.position, &points),
            targets: points
                .par_iter()
                .enumerate()
                .flat_map_iter(|(index, points)| fan(room, points, seed, index as u64))
                .collect(),
        }
    }

    /// The number of a part.
    pub fn index(&self, part: &BodyPart) -> Option<usize> {
        self.parts.binary_search(part).ok()
    }

    /// Radiosity of all parts under a flash, when the room's patches have this one.
    pub fn radiosity<'a>(
        &'a self,
        flash: &'a PlacedFlash,
        patches: &'a [Spectrum],
    ) -> impl IndexedParallelIterator<Item = Spectrum> + 'a {
        let share = 1.0 / (POINTS * RAYS) as f32;
        let direct = self.reach.irradiance(flash);
        self.targets
            .par_chunks(POINTS * RAYS)
            .zip(direct)
            .zip(&self.reflectance)
            .map(move |((row, direct), &reflectance)| {
                let mut sum = Spectrum::ZERO;
                for target in row {
                    if let Some(patch) = target.patch() {
                        sum += patches[patch];
                    }
                }
                reflectance * (sum * share + Spectrum::splat(direct))
            })
    }
}

fn mean_reflectance(points: &[SurfacePoint]) -> Spectrum {
    let sum: Spectrum = points
        .iter()
        .map(|point| hemispherical_reflectance(point.reflectance, point.coat))
        .sum();
    sum * (1.0 / points.len() as f32)
}

/// The patches that the points of a part see: one stratum of the cosine for each ray of a point.
fn fan(room: &Room, points: &[SurfacePoint], seed: u64, part: u64) -> Vec<Target> {
    let mut rng = Rng::new(seed ^ 0x0062_6f64_7900, part);
    points
        .iter()
        .enumerate()
        .flat_map(|(row, point)| (0..RAYS).map(move |column| (row, column, point)))
        .map(|(row, column, point)| {
            let [a, b] = rng.pair();
            let u = [
                (column as f32 + a) / RAYS as f32,
                (row as f32 + b) / POINTS as f32,
            ];
            let (tangent, bitangent) = point.normal.any_orthonormal_pair();
            let local = cosine_direction(u);
            let direction = tangent * local.x + bitangent * local.y + point.normal * local.z;
            let above = point.above(direction);
            Target::of(above.then(|| room.see(point.start, direction)).flatten())
        })
        .collect()
}
