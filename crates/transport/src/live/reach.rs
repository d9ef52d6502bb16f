//! How a place of the flash lights surfaces: found once, and weighed by the beam in every frame.

use crate::leg::Leg;
use crate::room::Room;
use crate::source::PlacedFlash;
use crate::surface::SurfacePoint;
use glam::Vec3;
use rayon::prelude::*;

/// Surfaces, receivers or pixels that one thread takes at a time.
pub(super) const AT_A_TIME: usize = 256;

/// The patches' sample points that see the flash.
pub(crate) struct Reach {
    /// First ray of every patch and, at the end, their number.
    first: Vec<u32>,
    /// Unit direction from the flash, and cos θ / r² over the number of the patch's sample points.
    rays: Vec<(Vec3, f32)>,
}

impl Reach {
    pub(super) fn new(room: &Room, place: Vec3) -> Self {
        let per_patch: Vec<Vec<(Vec3, f32)>> = room
            .patches
            .list
            .par_iter()
            .map(|patch| {
                let samples = room.patches.samples_of(patch);
                let share = 1.0 / samples.len() as f32;
                samples
                    .iter()
                    .filter_map(|sample| {
                        ray(room, place, sample.position, sample.start(), sample.normal, share)
                    })
                    .collect()
            })
            .collect();
        Reach::from_rays(per_patch)
    }

    /// The same for surfaces that several points stand for.
    pub(super) fn of_points(room: &Room, place: Vec3, surfaces: &[Vec<SurfacePoint>]) -> Self {
        let per_surface: Vec<Vec<(Vec3, f32)>> = surfaces
            .par_iter()
            .map(|points| {
                let share = 1.0 / points.len() as f32;
                points
                    .iter()
                    .filter(|point| point.above((place - point.position).normalize_or_zero()))
                    .filter_map(|point| ray(room, place, point.position, point.start, point.normal, share))
                    .collect()
            })
            .collect();
        Reach::from_rays(per_surface)
    }

    fn from_rays(runs: Vec<Vec<(Vec3, f32)>>) -> Self {
        Reach {
            first: starts(runs.iter().map(Vec::len)),
            rays: runs.into_iter().flatten().collect(),
        }
    }

    /// Irradiance of every patch from an aim, in lx s at full power.
    pub(super) fn irradiance(&self, flash: &PlacedFlash) -> Vec<f32> {
        let head_from_world = flash.world_from_head.transpose();
        self.first
            .par_windows(2)
            .with_min_len(AT_A_TIME)
            .map(|patch| {
                self.rays[patch[0] as usize..patch[1] as usize]
                    .iter()
                    .map(|&(direction, factor)| flash.beam.intensity(head_from_world * direction) * factor)
                    .sum()
            })
            .collect()
    }
}

/// Direction from the flash to a point and cos θ / r² times `share`, if the flash is seen from there.
fn ray(
    room: &Room,
    place: Vec3,
    position: Vec3,
    start: Vec3,
    normal: Vec3,
    share: f32,
) -> Option<(Vec3, f32)> {
    let leg = Leg::between(place, position);
    let cos = leg.cos_landing(normal);
    let seen = cos > 0.0 && room.tracer.sees_flash(start, place);
    seen.then_some((leg.direction, cos / leg.distance2 * share))
}

/// Where each run begins when runs of these lengths follow each other, and where the last one ends.
pub(super) fn starts(lengths: impl Iterator<Item = usize>) -> Vec<u32> {
    let mut first = vec![0u32];
    let mut end = 0u32;
    for length in lengths {
        end += length as u32;
        first.push(end);
    }
    first
}
