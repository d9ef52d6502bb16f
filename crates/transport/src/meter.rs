//! Virtual meters: what is held where, and how it weighs light by direction.

use crate::leg::Leg;
use crate::outside::Outside;
use crate::rng::{Rng, stratified};
use crate::room::{Room, SolvedLight};
use crate::scatter::{cosine_direction, sphere_direction};
use crate::source::{PlacedFlash, Source};
use colour::Spectrum;
use glam::Vec3;
use std::f32::consts::PI;

/// How a meter weighs light that arrives from a direction.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Receptor {
    /// A flat cosine receptor with this unit normal: illuminance.
    Flat(Vec3),
    /// A dome about this unit axis, scaled so that light along the axis reads as on the flat receptor:
    /// weight (1 + cos θ) / 2, a beam's mean over the hemisphere times two.
    Dome(Vec3),
    /// One component of the light vector along this unit direction: weight is the cosine with its sign.
    Along(Vec3),
    /// All directions alike: scalar illuminance.
    Sphere,
}

impl Receptor {
    /// Weight of light that arrives from the unit direction `from`.
    ///
    /// ```
    /// use glam::Vec3;
    /// use transport::Receptor;
    /// // A dome lit square from the side reads half.
    /// assert!((Receptor::Dome(Vec3::Z).weight(Vec3::X) - 0.5).abs() < 1e-6);
    /// ```
    #[inline]
    pub fn weight(&self, from: Vec3) -> f32 {
        match self {
            Receptor::Flat(normal) => normal.dot(from).max(0.0),
            Receptor::Dome(axis) => 0.5 * (1.0 + axis.dot(from)),
            Receptor::Along(direction) => direction.dot(from),
            Receptor::Sphere => 1.0,
        }
    }

    /// Draws a direction from which light may arrive, and its density per steradian.
    #[inline]
    pub(crate) fn sample(&self, u: [f32; 2]) -> (Vec3, f32) {
        match self {
            Receptor::Flat(normal) => {
                let (tangent, bitangent) = normal.any_orthonormal_pair();
                let local = cosine_direction(u);
                let direction = tangent * local.x + bitangent * local.y + *normal * local.z;
                (direction, self.density(direction))
            }
            _ => (sphere_direction(u), 0.25 / PI),
        }
    }

    /// Density per steradian of [`Receptor::sample`].
    #[inline]
    pub(crate) fn density(&self, direction: Vec3) -> f32 {
        match self {
            Receptor::Flat(normal) => normal.dot(direction).max(0.0) / PI,
            _ => 0.25 / PI,
        }
    }
}

/// A meter held at a point.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Meter {
    /// Where it is held, in metres. A point on a surface should be lifted off it a little.
    pub position: Vec3,
    /// How it weighs directions.
    pub receptor: Receptor,
}

impl Meter {
    /// Light straight from the flash, in lx s at full power.
    pub fn read_direct(&self, room: &Room, flash: &PlacedFlash) -> f32 {
        flash.over_window(|point| {
            let leg = Leg::between(self.position, point);
            let weight = self.receptor.weight(leg.direction);
            let intensity = flash.intensity(-leg.direction);
            if weight == 0.0 || intensity <= 0.0 || !room.tracer.sees_flash(self.position, point) {
                return 0.0;
            }
            intensity * weight / leg.distance2
        })
    }
}

/// How the first bounce arrives at a meter.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Arrival {
    /// Mean unit direction towards the lit surfaces.
    pub direction: Vec3,
    /// Root mean square angle about that direction, in radians.
    pub spread_rad: f32,
}

impl Arrival {
    /// Width of an even disc that would spread its light as far, over its distance: for a disc of
    /// diameter D at distance d the root mean square angle is D / (2√2 d) while it is small.
    pub fn width_over_distance(&self) -> f32 {
        2.0 * std::f32::consts::SQRT_2 * self.spread_rad
    }
}

/// Reads a meter once under a light that has been solved: cheaper than an [`crate::Operator`] when there is one
/// light. Direct light of a flash is included. `rays` is a square number.
pub fn read_light(room: &Room, source: &Source, light: &SolvedLight, meter: &Meter, rays: usize) -> Spectrum {
    if let Source::Outside(outside) = source {
        return read_daylight(room, source, outside, light, meter, rays);
    }
    let weights = last_leg(room, meter, rays);
    let mut sum = Spectrum::ZERO;
    for (weight, radiosity) in weights.iter().zip(&light.radiosity) {
        if *weight != 0.0 {
            sum += *radiosity * *weight;
        }
    }
    match source {
        Source::Flash(flash) => sum + Spectrum::splat(meter.read_direct(room, flash)),
        _ => sum,
    }
}

/// Points of the sun's disc that a meter looks at.
const DISC_POINTS: usize = 16;

/// Reads a meter under daylight, where what a portal sends depends on the direction.
fn read_daylight(
    room: &Room,
    source: &Source,
    outside: &Outside,
    light: &SolvedLight,
    meter: &Meter,
    rays: usize,
) -> Spectrum {
    let mut rng = Rng::new(room.seed() ^ 0x6461_7900, 0);
    let side = (rays as f32).sqrt().round() as usize;
    let mut sum = Spectrum::ZERO;
    for ray in 0..rays {
        let (direction, density) = meter.receptor.sample(stratified(ray, side, rays, &mut rng));
        let Some(hit) = room.tracer.closest(meter.position, direction) else {
            continue;
        };
        if density > 0.0 {
            let at = meter.position + direction * hit.distance;
            let patch = room.patches.at(&room.geometry, hit.triangle, at);
            let radiance = room.leaving(source, light, patch, -direction);
            sum += radiance * (meter.receptor.weight(direction) / (density * rays as f32));
        }
    }
    let mut disc = 0.0;
    for point in 0..DISC_POINTS {
        let u = stratified(point, 4, DISC_POINTS, &mut rng);
        if let Some(light) = outside.straight(&room.geometry, &room.tracer, meter.position, u) {
            disc += meter.receptor.weight(light.direction) * light.illuminance / DISC_POINTS as f32;
        }
    }
    sum + Spectrum::splat(disc)
}

/// How much the radiosity of each patch adds to a meter's reading by its last leg.
fn last_leg(room: &Room, meter: &Meter, rays: usize) -> Vec<f32> {
    let mut weights = vec![0.0; room.patches.list.len()];
    let mut rng = Rng::new(room.seed() ^ 0x006d_6574_6572, 0);
    let side = (rays as f32).sqrt().round() as usize;
    for ray in 0..rays {
        let (direction, density) = meter.receptor.sample(stratified(ray, side, rays, &mut rng));
        if let Some(patch) = room.see(meter.position, direction)
            && density > 0.0
        {
            // Radiance of a patch is its radiosity over π.
            weights[patch as usize] += meter.receptor.weight(direction) / (density * PI * rays as f32);
        }
    }
    weights
}
