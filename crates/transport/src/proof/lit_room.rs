//! The solved room under one source, and what its people send to other surfaces.

use crate::rng::{Rng, stratified};
use crate::room::{Room, SolvedLight};
use crate::scatter::{cosine_direction, hemispherical_reflectance};
use crate::source::Source;
use crate::surface::SurfacePoint;
use colour::Spectrum;
use glam::Vec3;
use std::f32::consts::PI;

/// How near a person's surface must be for its patch to be too coarse to stand for it, in metres.
const NEAR: f32 = 0.40;
/// A part of a person nearer than this, in metres, counts as this far off in the mean distance of people.
const NEAREST: f32 = 1e-3;

/// A room, a source and the light that it makes there.
#[derive(Clone, Copy)]
pub(super) struct LitRoom<'a> {
    pub(super) room: &'a Room,
    pub(super) source: &'a Source,
    pub(super) light: &'a SolvedLight,
}

/// What people send to a point.
pub(super) struct FromPeople {
    pub(super) irradiance: Spectrum,
    /// Harmonic mean distance of the people whom its directions meet, in metres; `None` when they meet no person.
    pub(super) distance: Option<f32>,
}

impl LitRoom<'_> {
    /// Radiance of a patch's front along a unit direction that leaves it.
    #[inline]
    pub(super) fn leaving(&self, patch: u32, direction: Vec3) -> Spectrum {
        self.room.leaving(self.source, self.light, patch, direction)
    }

    /// What people send to a point, from this many directions.
    pub(super) fn body_irradiance(&self, point: &SurfacePoint, rays: usize, rng: &mut Rng) -> FromPeople {
        let side = (rays as f32).sqrt() as usize;
        let (tangent, bitangent) = point.normal.any_orthonormal_pair();
        let (mut sum, mut nearness) = (Spectrum::ZERO, 0.0);
        for ray in 0..rays {
            let local = cosine_direction(stratified(ray, side, rays, rng));
            let direction = tangent * local.x + bitangent * local.y + point.normal * local.z;
            if !point.above(direction) {
                continue;
            }
            let Some(hit) = self.room.tracer.closest(point.start, direction) else {
                continue;
            };
            let object = self.room.geometry.object[hit.triangle as usize] as usize;
            if self.room.geometry.objects[object].rectangle.is_some() {
                continue;
            }
            let far = SurfacePoint::new(&self.room.geometry, &hit, point.start, direction);
            let patch = self
                .room
                .patches
                .at(&self.room.geometry, far.triangle, far.position);
            sum += self.body_radiance(&far, hit.distance, patch, rng);
            nearness += 1.0 / hit.distance.max(NEAREST);
        }
        FromPeople {
            irradiance: sum * (PI / rays as f32),
            distance: (nearness > 0.0).then(|| rays as f32 / nearness),
        }
    }

    /// Radiance of a person's surface towards another point. Far away its patch stands for it; near by the
    /// flash on it is worked out exactly. Gloss is spread evenly in both: what skin mirrors onto other skin
    /// is faint, and as a sharp reflection it would only ever be found by rare, bright specks.
    pub(super) fn body_radiance(
        &self,
        point: &SurfacePoint,
        distance: f32,
        patch: u32,
        rng: &mut Rng,
    ) -> Spectrum {
        let near = distance <= NEAR;
        let mut irradiance = if near {
            self.onward(point, rng)
        } else {
            self.light.indirect[patch as usize]
        };
        let direct = if near {
            self.straight_irradiance(point, rng)
        } else {
            self.light.direct[patch as usize]
        };
        irradiance += Spectrum::splat(direct);
        // The patch's own reflectance would mix skin and cloth where they share a cube.
        hemispherical_reflectance(point.reflectance, point.coat) * irradiance * (1.0 / PI)
    }

    /// Irradiance of a point by way of other surfaces, from one direction drawn by the cosine: in a fold of the
    /// neck it is far below what the whole patch receives.
    fn onward(&self, point: &SurfacePoint, rng: &mut Rng) -> Spectrum {
        let room = self.room;
        let local = cosine_direction(rng.pair());
        let (tangent, bitangent) = point.normal.any_orthonormal_pair();
        let direction = tangent * local.x + bitangent * local.y + point.normal * local.z;
        if !point.above(direction) {
            return Spectrum::ZERO;
        }
        room.see(point.start, direction)
            .map_or(Spectrum::ZERO, |patch| self.leaving(patch, -direction) * PI)
    }

    /// Irradiance straight from the flash, in lx s at full power, or from the sun in lx.
    fn straight_irradiance(&self, point: &SurfacePoint, rng: &mut Rng) -> f32 {
        if matches!(self.source, Source::Glowing(_) | Source::AllRound) {
            return 0.0;
        }
        self.source
            .straight(&self.room.geometry, &self.room.tracer, point, rng.pair())
            .map_or(0.0, |light| light.illuminance * point.normal.dot(light.direction))
    }
}
