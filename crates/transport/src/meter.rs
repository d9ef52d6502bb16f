//! Virtual meters: what is held where, and how it weighs light by direction.

use crate::patches::Patches;
use crate::rng::{Rng, stratified};
use crate::room::{Room, SolvedLight, is_nothing, see};
use crate::scatter::{cosine_direction, sphere_direction};
use crate::source::{PlacedFlash, Source};
use colour::Spectrum;
use glam::Vec3;
use rayon::prelude::*;
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
        let towards = flash.position - self.position;
        let distance2 = towards.length_squared();
        let from = towards / distance2.sqrt();
        let weight = self.receptor.weight(from);
        let intensity = flash.intensity(-from);
        if weight == 0.0 || intensity <= 0.0 || room.tracer.blocked(self.position, flash.position, 1e-5) {
            return 0.0;
        }
        intensity * weight / distance2
    }
}

/// A meter together with what every patch of a room matters to it, all bounces counted.
pub struct SolvedMeter {
    /// The meter.
    pub meter: Meter,
    /// Importance of every patch: reading = Σ y · (ρ E + M).
    importance: Vec<Spectrum>,
    /// Importance of every patch for its last leg only: reading of the first bounce = Σ g · ρ E.
    last_leg: Vec<f32>,
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

impl SolvedMeter {
    /// Solves several meters for a room. `rays` per meter, a square number; 4,096 gives about 1 %.
    pub fn solve(room: &Room, meters: &[Meter], rays: usize) -> Vec<SolvedMeter> {
        meters
            .par_iter()
            .enumerate()
            .map(|(index, meter)| {
                let last_leg = last_leg(room, meter, rays, index as u64);
                SolvedMeter {
                    meter: *meter,
                    importance: room.importance(&last_leg),
                    last_leg,
                }
            })
            .collect()
    }

    /// Reading for a flash: direct light and all bounces, per band of a flat spectrum, at full power.
    pub fn read_flash(&self, room: &Room, flash: &PlacedFlash, patch_irradiance: &[f32]) -> Spectrum {
        self.read_bounced(&room.patches, patch_irradiance) + Spectrum::splat(self.read_direct(room, flash))
    }

    /// Reading of what the patches send on when they receive this irradiance.
    pub fn read_bounced(&self, patches: &Patches, patch_irradiance: &[f32]) -> Spectrum {
        let mut sum = Spectrum::ZERO;
        for ((&e, y), patch) in patch_irradiance.iter().zip(&self.importance).zip(&patches.list) {
            if e > 0.0 {
                sum += *y * patch.reflectance * e;
            }
        }
        sum
    }

    /// Reading of the first bounce alone.
    pub fn read_first_bounce(&self, patches: &Patches, patch_irradiance: &[f32]) -> Spectrum {
        let mut sum = Spectrum::ZERO;
        for ((&e, &g), patch) in patch_irradiance.iter().zip(&self.last_leg).zip(&patches.list) {
            if e > 0.0 && g != 0.0 {
                sum += patch.reflectance * (e * g);
            }
        }
        sum
    }

    /// The first bounce by the object that it comes from, as the mean over the bands.
    pub fn first_bounce_by_object(&self, room: &Room, patch_irradiance: &[f32]) -> Vec<(u32, f32)> {
        let mut by_object = vec![0.0f32; room.geometry.objects.len()];
        for ((&e, &g), patch) in patch_irradiance
            .iter()
            .zip(&self.last_leg)
            .zip(&room.patches.list)
        {
            by_object[patch.object as usize] += patch.reflectance.mean() * (e * g);
        }
        by_object
            .into_iter()
            .enumerate()
            .map(|(object, light)| (object as u32, light))
            .collect()
    }

    /// Reading of what the patches shine with themselves, and all its bounces.
    pub fn read_glow(&self, glow: &[f32]) -> Spectrum {
        let mut sum = Spectrum::ZERO;
        for (&m, y) in glow.iter().zip(&self.importance) {
            if m > 0.0 {
                sum += *y * m;
            }
        }
        sum
    }

    /// Light straight from the flash, in lx s at full power.
    pub fn read_direct(&self, room: &Room, flash: &PlacedFlash) -> f32 {
        let towards = flash.position - self.meter.position;
        let distance2 = towards.length_squared();
        let from = towards / distance2.sqrt();
        let weight = self.meter.receptor.weight(from);
        let intensity = flash.intensity(-from);
        if weight == 0.0 || intensity <= 0.0 || room.tracer.blocked(self.meter.position, flash.position, 1e-5)
        {
            return 0.0;
        }
        intensity * weight / distance2
    }

    /// How the first bounce arrives: its mean direction and how far it spreads about it.
    pub fn arrival(&self, patches: &Patches, patch_irradiance: &[f32]) -> Option<Arrival> {
        let weighed = || {
            self.last_leg
                .iter()
                .zip(patch_irradiance)
                .zip(&patches.list)
                .filter_map(|((&g, &e), patch)| {
                    let weight = g * e * patch.reflectance.mean();
                    (weight > 0.0).then(|| (weight, (patch.centre - self.meter.position).normalize_or_zero()))
                })
        };
        let (total, sum) = weighed().fold((0.0, Vec3::ZERO), |(t, v), (w, d)| (t + w, v + d * w));
        let direction = sum.try_normalize()?;
        let spread = weighed()
            .map(|(w, d)| w * d.dot(direction).clamp(-1.0, 1.0).acos().powi(2))
            .sum::<f32>();
        Some(Arrival {
            direction,
            spread_rad: (spread / total).sqrt(),
        })
    }

    /// What every patch matters to the meter, all bounces counted.
    pub fn importance(&self) -> &[Spectrum] {
        &self.importance
    }
}

/// Reads a meter once under a light that has been solved: cheaper than solving the meter when there is
/// one light and many meters. Direct light of a flash is included. `rays` is a square number.
pub fn read_light(room: &Room, source: &Source, light: &SolvedLight, meter: &Meter, rays: usize) -> Spectrum {
    let weights = last_leg(room, meter, rays, 0);
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

/// How much the radiosity of each patch adds to a meter's reading by its last leg.
pub(crate) fn last_leg(room: &Room, meter: &Meter, rays: usize, place: u64) -> Vec<f32> {
    let mut weights = vec![0.0; room.patches.list.len()];
    let mut rng = Rng::new(room.seed() ^ 0x006d_6574_6572, place);
    let side = (rays as f32).sqrt().round() as usize;
    for ray in 0..rays {
        let (direction, density) = meter.receptor.sample(stratified(ray, side, rays, &mut rng));
        let target = see(
            &room.geometry,
            &room.tracer,
            &room.patches,
            meter.position,
            direction,
        );
        if !is_nothing(target) && density > 0.0 {
            // Radiance of a patch is its radiosity over π.
            weights[target as usize] += meter.receptor.weight(direction) / (density * PI * rays as f32);
        }
    }
    weights
}
