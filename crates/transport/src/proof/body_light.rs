//! What people send to the surfaces that a picture shows.

use super::first_look::Lens;
use super::lit_room::LitRoom;
use crate::rng::Rng;
use crate::surface::SurfacePoint;
use colour::Spectrum;
use glam::{Vec2, Vec3};
use rayon::prelude::*;

/// What people send to surfaces: faint and smooth, so it is gathered at a coarse grid of places of the
/// picture and read between them. Every pass has its own grid and its own rays, so that the grid does not
/// show and the noise falls with the passes.
pub(super) struct BodyLight {
    columns: usize,
    /// Pixels from one place to the next.
    spacing: f32,
    /// Where the first place lies, in pixels.
    corner: Vec2,
    places: Vec<Option<GridPlace>>,
}

/// A place of the picture at which the light of people is gathered.
struct GridPlace {
    position: Vec3,
    normal: Vec3,
    irradiance: Spectrum,
    /// How far from the place its irradiance is still true, in metres; `None` when no person is near enough to matter.
    valid: Option<f32>,
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
/// What tells the random numbers of the grid's start, and of its places, from all others of the picture.
const START_SEED: u64 = 0x5eed;
const PLACE_SEED: u64 = 0x6a7e_0000;

impl BodyLight {
    /// Looks from a grid of places of the picture at the people around.
    pub(super) fn gather(
        lit: &LitRoom,
        lens: &Lens,
        [width, height]: [usize; 2],
        seed: u64,
        pass: u32,
    ) -> Self {
        let mut start = Rng::new(seed.wrapping_add(START_SEED), u64::from(pass));
        let seed = seed.wrapping_add(PLACE_SEED + u64::from(pass));
        let spacing = ((width * height) as f32 / PLACES).sqrt().max(1.0);
        let corner = -spacing * Vec2::from(start.pair());
        let columns = (width as f32 / spacing).ceil() as usize + 2;
        let rows = (height as f32 / spacing).ceil() as usize + 2;
        let places = (0..columns * rows)
            .into_par_iter()
            .map(|place| {
                let at = corner + spacing * Vec2::new((place % columns) as f32, (place / columns) as f32);
                GridPlace::look(lit, lens, at, &mut Rng::new(seed, place as u64))
            })
            .collect();
        BodyLight {
            columns,
            spacing,
            corner,
            places,
        }
    }

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
            if height > reach || alike <= 0.0 || place.is_too_far(apart) {
                continue;
            }
            sum += place.irradiance * (weight * alike);
            weights += weight * alike;
        }
        (weights > ENOUGH).then(|| sum * (1.0 / weights))
    }
}

impl GridPlace {
    /// Whether a point that lies so far from the place has another light of people.
    #[inline]
    fn is_too_far(&self, apart: Vec3) -> bool {
        self.valid
            .is_some_and(|valid| apart.length_squared() > valid * valid)
    }

    /// What people send to what the picture shows at a place.
    fn look(lit: &LitRoom, lens: &Lens, at: Vec2, rng: &mut Rng) -> Option<Self> {
        let geometry = &lit.room.geometry;
        let direction = lens.direction(at);
        let hit = lit.room.tracer.closest(lens.origin, direction)?;
        let point = SurfacePoint::new(geometry, &hit, lens.origin, direction);
        let object = geometry.object[point.triangle as usize] as usize;
        let rays = match geometry.objects[object].rectangle {
            None => RAYS_PEOPLE,
            Some(_) => RAYS_REST,
        };
        let people = lit.body_irradiance(&point, rays, rng);
        Some(GridPlace {
            position: point.position,
            normal: point.normal,
            irradiance: people.irradiance,
            valid: people.distance.map(|distance| VALID * distance),
        })
    }
}
