//! What people send to the surfaces that a picture shows.

use super::first_look::Lens;
use super::solved::Solved;
use crate::rng::{Rng, stratified};
use crate::room::{Room, SolvedLight};
use crate::scatter::{cosine_direction, hemispherical_reflectance};
use crate::source::Source;
use crate::surface::SurfacePoint;
use colour::Spectrum;
use glam::{Vec2, Vec3};
use rayon::prelude::*;
use std::f32::consts::PI;

/// What people send to surfaces: faint and smooth, so it is gathered at a coarse grid of places of the
/// picture and read between them. Every pass has its own grid and its own rays, so that the grid does not
/// show and the noise falls with the passes.
pub(super) struct BodyLight {
    columns: usize,
    /// Pixels from one place to the next.
    spacing: f32,
    /// Where the first place lies, in pixels.
    corner: Vec2,
    places: Vec<Option<Place>>,
}

/// One place of the grid.
struct Place {
    position: Vec3,
    normal: Vec3,
    irradiance: Spectrum,
    /// How far from the place its irradiance is still true, in metres.
    valid: f32,
}

/// About how many places a picture has.
const PLACES: f32 = 5_000.0;
/// What the places that a point is read from must weigh together.
const ENOUGH: f32 = 0.05;
/// A place's irradiance is true within this share of the harmonic mean distance of what it sees (Ward,
/// Rubinstein & Clear 1988; the share is ours).
const VALID: f32 = 0.3;
/// Rays of a place in every pass, on people and elsewhere; square numbers.
const RAYS_PEOPLE: usize = 36;
const RAYS_REST: usize = 9;

impl BodyLight {
    /// The irradiance between the places around a point of the picture; `None` where too little of what
    /// they see lies on the same surface and near enough.
    #[inline]
    pub(super) fn at(&self, at: Vec2, point: &SurfacePoint, footprint: f32) -> Option<Spectrum> {
        let local = (at - self.corner) / self.spacing;
        let low = local.floor();
        let share = local - low;
        let first = low.y as usize * self.columns + low.x as usize;
        let reach = 0.5 * self.spacing * footprint;
        let (mut sum, mut weights) = (Spectrum::ZERO, 0.0);
        for (place, weight) in [
            (first, (1.0 - share.x) * (1.0 - share.y)),
            (first + 1, share.x * (1.0 - share.y)),
            (first + self.columns, (1.0 - share.x) * share.y),
            (first + self.columns + 1, share.x * share.y),
        ] {
            let Some(Some(place)) = self.places.get(place) else {
                continue;
            };
            let apart = point.position - place.position;
            let height = apart.dot(place.normal).abs().max(apart.dot(point.normal).abs());
            let alike = 2.0 * place.normal.dot(point.normal) - 1.0;
            if height > reach || alike <= 0.0 || apart.length_squared() > place.valid * place.valid {
                continue;
            }
            sum += place.irradiance * (weight * alike);
            weights += weight * alike;
        }
        (weights > ENOUGH).then(|| sum * (1.0 / weights))
    }
}

impl Solved<'_> {
    pub(super) fn body_light(
        &self,
        lens: &Lens,
        [width, height]: [usize; 2],
        seed: u64,
        pass: u32,
    ) -> Option<BodyLight> {
        if !self.people {
            return None;
        }
        let mut start = Rng::new(seed.wrapping_add(0x5eed), u64::from(pass));
        let seed = seed.wrapping_add(0x6a7e_0000 + u64::from(pass));
        let spacing = ((width * height) as f32 / PLACES).sqrt().max(1.0);
        let corner = -spacing * Vec2::from(start.pair());
        let columns = (width as f32 / spacing).ceil() as usize + 2;
        let rows = (height as f32 / spacing).ceil() as usize + 2;
        let places = (0..columns * rows)
            .into_par_iter()
            .map(|place| {
                let at = corner + spacing * Vec2::new((place % columns) as f32, (place / columns) as f32);
                self.place(lens, at, &mut Rng::new(seed, place as u64))
            })
            .collect();
        Some(BodyLight {
            columns,
            spacing,
            corner,
            places,
        })
    }

    /// What people send to what the picture shows at a place.
    fn place(&self, lens: &Lens, at: Vec2, rng: &mut Rng) -> Option<Place> {
        let geometry = &self.room.geometry;
        let direction = lens.direction(at);
        let hit = self.room.tracer.closest(lens.origin, direction)?;
        let point = SurfacePoint::new(geometry, &hit, lens.origin, direction);
        let object = geometry.object[point.triangle as usize] as usize;
        let rays = match geometry.objects[object].rectangle {
            None => RAYS_PEOPLE,
            Some(_) => RAYS_REST,
        };
        let (irradiance, around) = self.body_irradiance(&point, rays, rng);
        Some(Place {
            position: point.position,
            normal: point.normal,
            irradiance,
            valid: VALID * around,
        })
    }

    /// Irradiance that people send to a point, from this many directions, and the harmonic mean distance of
    /// what these meet of people.
    pub(super) fn body_irradiance(
        &self,
        point: &SurfacePoint,
        rays: usize,
        rng: &mut Rng,
    ) -> (Spectrum, f32) {
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
            nearness += 1.0 / hit.distance.max(1e-3);
        }
        (sum * (PI / rays as f32), rays as f32 / nearness.max(1e-3))
    }
}

/// How near a person's surface must be for its patch to be too coarse to stand for it, in metres.
const NEAR: f32 = 0.40;

impl Solved<'_> {
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
            onward(self.room, self.source, self.light, point, rng)
        } else {
            self.light.indirect[patch as usize]
        };
        let direct = if near {
            straight_irradiance(self.room, self.source, point, rng)
        } else {
            self.light.direct[patch as usize]
        };
        irradiance += Spectrum::splat(direct);
        // The patch's own reflectance would mix skin and cloth where they share a cube.
        hemispherical_reflectance(point.reflectance, point.coat) * irradiance * (1.0 / PI)
    }
}

/// Irradiance of a point by way of other surfaces, from one direction drawn by the cosine: in a fold of the
/// neck it is far below what the whole patch receives.
fn onward(
    room: &Room,
    source: &Source,
    light: &SolvedLight,
    point: &SurfacePoint,
    rng: &mut Rng,
) -> Spectrum {
    let local = cosine_direction(rng.pair());
    let (tangent, bitangent) = point.normal.any_orthonormal_pair();
    let direction = tangent * local.x + bitangent * local.y + point.normal * local.z;
    if !point.above(direction) {
        return Spectrum::ZERO;
    }
    let Some(hit) = room.tracer.closest(point.start, direction) else {
        return Spectrum::ZERO;
    };
    let far = SurfacePoint::new(&room.geometry, &hit, point.start, direction);
    let patch = room.patches.at(&room.geometry, far.triangle, far.position);
    room.leaving(source, light, patch, -direction) * PI
}

/// Irradiance straight from the flash, in lx s at full power, or from the sun in lx.
fn straight_irradiance(room: &Room, source: &Source, point: &SurfacePoint, rng: &mut Rng) -> f32 {
    if matches!(source, Source::Glowing(_) | Source::AllRound) {
        return 0.0;
    }
    source
        .straight(&room.geometry, &room.tracer, point, rng.pair())
        .map_or(0.0, |light| {
            light.intensity * point.normal.dot(light.direction) / light.distance2
        })
}
