//! The room solved once: how light that reaches any patch goes on to every other patch.
//!
//! Matt surfaces exchange light linearly. For every patch a fixed fan of rays says which patches it sees,
//! and so B = M + ρ (E + K B), with B the radiosity of the patches, M what they shine with themselves, E
//! what the source sends them directly, ρ their reflectance in 16 bands and K the exchange. Every row of
//! K sums to one in a closed room, so no energy is made or lost whatever the number of rays (Goral et al.
//! 1984; Cohen & Greenberg 1985, with ray-cast form factors).

use crate::leg::Leg;
use crate::outside::Outside;
use crate::patches::{Patch, PatchSample, Patches};
use crate::rng::{Rng, stratified};
use crate::scatter::cosine_direction;
use crate::source::{PlacedFlash, Source};
use crate::surface::LIFT;
use crate::tracer::Tracer;
use colour::Spectrum;
use glam::Vec3;
use rayon::prelude::*;
use scene::Geometry;
use std::f32::consts::{FRAC_1_PI, PI};

/// The patch that a ray met, if it met any: in four bytes, because a room keeps about a million of them.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Target(u32);

impl Target {
    /// What is kept where a ray left the scene; no room has so many patches.
    const NONE: u32 = u32::MAX;

    #[inline]
    pub(crate) fn of(patch: Option<u32>) -> Self {
        Target(patch.unwrap_or(Self::NONE))
    }

    /// The patch's position in the room's list.
    #[inline]
    pub(crate) fn patch(self) -> Option<usize> {
        (self.0 != Self::NONE).then_some(self.0 as usize)
    }
}

/// Light in a room of ρ = 0.97 everywhere has faded to a millionth after this many bounces.
const MOST_BOUNCES: usize = 450;
/// The exchange is solved when one more bounce changes all light by less than this share: a fortieth of a thousandth
/// of a stop.
const SETTLED: f32 = 2e-5;
/// Where light fades evenly, no bounce keeps more of it than this; so a series of bounces has an end even where a
/// room is taken as whiter than any is.
const SLOWEST_FADING: f32 = 0.98;
/// Rays with which a patch looks for open faces, and points at which it looks at each window; squares.
const SKY_SIDE: usize = 12;
const SKY_RAYS: usize = SKY_SIDE * SKY_SIDE;
const WINDOW_SIDE: usize = 6;
const WINDOW_POINTS: usize = WINDOW_SIDE * WINDOW_SIDE;

/// The scene ready for light: geometry, rays, patches and their exchange.
pub struct Room {
    /// Triangles and materials.
    pub geometry: Geometry,
    /// Rays.
    pub tracer: Tracer,
    /// Patches.
    pub patches: Patches,
    /// Patch seen by each ray; `rays` entries per patch.
    targets: Vec<Target>,
    rays: usize,
    seed: u64,
}

/// How finely a room is solved.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Fineness {
    /// Edge of a patch in metres.
    pub pitch_m: f32,
    /// Rays per patch; a square number.
    pub rays: usize,
}

impl Fineness {
    /// For the operator: errors of a few thousandths at a face in an ordinary room.
    pub const OPERATOR: Fineness = Fineness {
        pitch_m: 0.12,
        rays: 64,
    };
    /// For aiming live, thirty pictures a second.
    pub const LIVE: Fineness = Fineness {
        pitch_m: 0.16,
        rays: 36,
    };
    /// For finding out what a small change of the place does: only differences of it are used.
    pub const SKETCH: Fineness = Fineness {
        pitch_m: 0.3,
        rays: 25,
    };
    /// For pictures.
    pub const PROOF: Fineness = Fineness {
        pitch_m: 0.10,
        rays: 64,
    };

    /// [`Fineness::OPERATOR`] for a room of this area in m², coarsened where it would make too many patches.
    pub fn operator_in(area_m2: f32) -> Self {
        Self::OPERATOR.with_at_most(10_000, area_m2)
    }

    /// [`Fineness::LIVE`] for a room of this area in m², coarsened where it would make too many patches.
    pub fn live_in(area_m2: f32) -> Self {
        Self::LIVE.with_at_most(5_000, area_m2)
    }

    /// [`Fineness::PROOF`] for a room of this area in m², coarsened where it would make too many patches.
    pub fn proof_in(area_m2: f32) -> Self {
        Self::PROOF.with_at_most(14_000, area_m2)
    }

    fn with_at_most(self, patches: usize, area_m2: f32) -> Self {
        let pitch = self.pitch_m.max((area_m2 / patches as f32).sqrt());
        Fineness {
            pitch_m: pitch,
            ..self
        }
    }
}

/// Radiosity of every patch and its parts, for one source at unit strength.
#[derive(Clone, Debug)]
pub struct SolvedLight {
    /// Exitance of each patch, own glow included: lx (or lx s) of a flat spectrum.
    pub radiosity: Vec<Spectrum>,
    /// Irradiance of each patch by way of other patches, and through the openings from all that is outdoors
    /// but the sun's disc.
    pub indirect: Vec<Spectrum>,
    /// Irradiance of each patch straight from the flash or the sun's disc.
    pub direct: Vec<f32>,
    /// What each patch shines with itself, as exitance. For a portal it is what its middle sends to the middle
    /// of the room, which serves to aim rays and not to measure light.
    pub glow: Vec<f32>,
}

impl SolvedLight {
    /// The same light stopped after its first bounce: what the flash lights directly and nothing else.
    pub fn first_bounce(&self, room: &Room) -> SolvedLight {
        let radiosity = room
            .patches
            .list
            .iter()
            .zip(&self.direct)
            .map(|(p, &e)| p.reflectance * e)
            .collect();
        SolvedLight {
            radiosity,
            indirect: vec![Spectrum::ZERO; self.direct.len()],
            direct: self.direct.clone(),
            glow: vec![0.0; self.direct.len()],
        }
    }
}

impl Room {
    /// The patch that a ray meets; `None` where it leaves the scene.
    #[inline]
    pub(crate) fn see(&self, origin: Vec3, direction: Vec3) -> Option<u32> {
        see(&self.geometry, &self.tracer, &self.patches, origin, direction)
    }

    /// Prepares a scene. The same seed always gives the same result, whatever the number of threads.
    pub fn new(geometry: Geometry, fineness: Fineness, seed: u64) -> Self {
        let tracer = Tracer::new(&geometry);
        let patches = Patches::new(&geometry, fineness.pitch_m);
        let rays = fineness.rays;
        let targets = (0..patches.list.len())
            .into_par_iter()
            .flat_map_iter(|index| fan(&geometry, &tracer, &patches, index, rays, seed))
            .collect();
        Room {
            geometry,
            tracer,
            patches,
            targets,
            rays,
            seed,
        }
    }

    /// The seed that the room was solved with.
    pub fn seed(&self) -> u64 {
        self.seed
    }

    /// Direct irradiance of every patch from a flash, in lx s at full power (no spectrum: a flat one).
    pub fn direct_from(&self, flash: &PlacedFlash) -> Vec<f32> {
        self.over_samples(|sample| {
            let leg = Leg::between(sample.position, flash.position);
            let cos = leg.cos_leaving(sample.normal);
            if cos <= 0.0 {
                return 0.0;
            }
            let intensity = flash.intensity(-leg.direction);
            if intensity <= 0.0 || !self.tracer.sees_flash(sample.start(), flash.position) {
                return 0.0;
            }
            intensity * cos / leg.distance2
        })
    }

    /// Mean of a value over the sample points of every patch.
    fn over_samples(&self, value: impl Fn(&PatchSample) -> f32 + Sync) -> Vec<f32> {
        self.patches
            .list
            .par_iter()
            .map(|patch| {
                let samples = self.patches.samples_of(patch);
                samples.iter().map(&value).sum::<f32>() / samples.len() as f32
            })
            .collect()
    }

    /// What every patch shines with itself under a source, as exitance (π times luminance).
    pub fn glow_of(&self, source: &Source) -> Vec<f32> {
        self.patches
            .list
            .iter()
            .map(|patch| {
                let kind = self.geometry.objects[patch.object as usize].kind;
                PI * source.glow(patch.object as usize, kind)
            })
            .collect()
    }

    /// Solves the exchange for one source.
    pub fn solve(&self, source: &Source) -> SolvedLight {
        match source {
            Source::Flash(flash) => self.bounced(self.direct_from(flash), self.glow_of(source)),
            Source::Outside(outside) => self.daylit(outside),
            _ => self.bounced(vec![0.0; self.patches.list.len()], self.glow_of(source)),
        }
    }

    /// Solves the exchange for patches that receive this irradiance from outside and shine with this exitance.
    pub fn bounced(&self, direct: Vec<f32>, glow: Vec<f32>) -> SolvedLight {
        let list = &self.patches.list;
        let first: Vec<Spectrum> = list
            .iter()
            .zip(direct.iter().zip(&glow))
            .map(|(patch, (&e, &m))| patch.reflectance * e + Spectrum::splat(m))
            .collect();
        let (radiosity, indirect) = self.exchange(first);
        SolvedLight {
            radiosity,
            indirect,
            direct,
            glow,
        }
    }

    /// Solves the exchange for daylight. What portals send depends on the direction, so it reaches the patches
    /// by rays of its own, and the portals take part in the exchange only with what they send back.
    fn daylit(&self, outside: &Outside) -> SolvedLight {
        let list = &self.patches.list;
        let direct = self.direct_from_disc(outside);
        let through = self.irradiance_through(outside);
        let first = list
            .iter()
            .zip(direct.iter().zip(&through))
            .map(|(patch, (&disc, &sky))| patch.reflectance * (sky + Spectrum::splat(disc)))
            .collect();
        let (mut radiosity, mut indirect) = self.exchange(first);
        let middle = 0.5 * self.patches.extent();
        let glow: Vec<f32> = list
            .iter()
            .map(|patch| {
                let leaving = (middle - patch.centre).normalize_or(patch.normal);
                PI * outside.emission(patch.object as usize, leaving).mean()
            })
            .collect();
        for (index, &shining) in glow.iter().enumerate() {
            radiosity[index] += Spectrum::splat(shining);
            indirect[index] += through[index];
        }
        SolvedLight {
            radiosity,
            indirect,
            direct,
            glow,
        }
    }

    /// Irradiance of every patch straight from the sun's disc, in lx.
    fn direct_from_disc(&self, outside: &Outside) -> Vec<f32> {
        let Some(beam) = outside.beam() else {
            return vec![0.0; self.patches.list.len()];
        };
        self.over_samples(|sample| {
            let cos = beam.towards.dot(sample.normal);
            if cos <= 0.0 {
                return 0.0;
            }
            // The middle of the disc stands for all of it.
            outside
                .straight(&self.geometry, &self.tracer, sample.start(), [0.0, 0.0])
                .map_or(0.0, |light| light.illuminance * cos)
        })
    }

    /// Irradiance of every patch through the portals, without the sun's disc, in lx.
    ///
    /// Portals that fill a face are found by a fan of rays, smaller ones by points spread over them.
    fn irradiance_through(&self, outside: &Outside) -> Vec<Spectrum> {
        let windows: Vec<(usize, [Vec3; 3])> = outside
            .portals()
            .filter(|&object| !outside.is_whole(object))
            .filter_map(|object| Some((object, self.geometry.objects[object].rectangle?)))
            .collect();
        let any_whole = outside.portals().any(|object| outside.is_whole(object));
        self.patches
            .list
            .par_iter()
            .enumerate()
            .map(|(index, patch)| {
                let mut rng = Rng::new(self.seed ^ 0x736b_7900, index as u64);
                let mut sum = Spectrum::ZERO;
                if any_whole {
                    sum += self.through_faces(outside, patch, &mut rng);
                }
                for &(object, rectangle) in &windows {
                    sum += self.through_window(outside, patch, object, rectangle, &mut rng);
                }
                sum
            })
            .collect()
    }

    /// What a fan of rays finds of portals that fill a face.
    fn through_faces(&self, outside: &Outside, patch: &Patch, rng: &mut Rng) -> Spectrum {
        let samples = self.patches.samples_of(patch);
        let mut sum = Spectrum::ZERO;
        for ray in 0..SKY_RAYS {
            let sample = &samples[ray % samples.len()];
            let local = cosine_direction(stratified(ray, SKY_SIDE, SKY_RAYS, rng));
            let (tangent, bitangent) = sample.normal.any_orthonormal_pair();
            let direction = tangent * local.x + bitangent * local.y + sample.normal * local.z;
            let Some(hit) = self.tracer.closest(sample.start(), direction) else {
                continue;
            };
            let object = self.geometry.object[hit.triangle as usize] as usize;
            if outside.is_whole(object) {
                sum += outside.emission(object, -direction);
            }
        }
        sum * (PI / SKY_RAYS as f32)
    }

    /// What points spread over a window send to a patch.
    fn through_window(
        &self,
        outside: &Outside,
        patch: &Patch,
        object: usize,
        [corner, a, b]: [Vec3; 3],
        rng: &mut Rng,
    ) -> Spectrum {
        let samples = self.patches.samples_of(patch);
        let cross = a.cross(b);
        let (area, facing) = (cross.length(), cross.normalize_or_zero());
        let mut sum = Spectrum::ZERO;
        for ray in 0..WINDOW_POINTS {
            let sample = &samples[ray % samples.len()];
            let [u, v] = stratified(ray, WINDOW_SIDE, WINDOW_POINTS, rng);
            let point = corner + a * u + b * v;
            let start = sample.start();
            let leg = Leg::between(start, point);
            let (arriving, leaving) = (leg.cos_leaving(sample.normal), leg.cos_landing(facing));
            if arriving <= 0.0 || leaving <= 0.0 || !self.tracer.sees_surface(start, point) {
                continue;
            }
            sum += outside.emission(object, -leg.direction) * (arriving * leaving / leg.distance2);
        }
        sum * (area / WINDOW_POINTS as f32)
    }

    /// Radiance of a patch's front along a unit direction that leaves it, whatever makes it shine.
    #[inline]
    pub(crate) fn leaving(
        &self,
        source: &Source,
        light: &SolvedLight,
        patch: u32,
        direction: Vec3,
    ) -> Spectrum {
        let index = patch as usize;
        let object = self.patches.list[index].object as usize;
        match source.outside() {
            Some(outside) if outside.is_portal(object) => {
                let sent_back = light.radiosity[index] - Spectrum::splat(light.glow[index]);
                outside.emission(object, direction) + sent_back * FRAC_1_PI
            }
            _ => light.radiosity[index] * FRAC_1_PI,
        }
    }

    /// Radiosity, and irradiance by way of other patches, when patches leave this much light of themselves.
    fn exchange(&self, first: Vec<Spectrum>) -> (Vec<Spectrum>, Vec<Spectrum>) {
        let list = &self.patches.list;
        let mut radiosity = first.clone();
        let mut indirect = vec![Spectrum::ZERO; first.len()];
        let mut before = self.flux(&radiosity);
        for _ in 0..MOST_BOUNCES {
            indirect = self.gather_all(&radiosity);
            radiosity = first
                .par_iter()
                .zip(&indirect)
                .zip(list)
                .map(|((&own, &arriving), patch)| own + patch.reflectance * arriving)
                .collect();
            let now = self.flux(&radiosity);
            if (now - before).abs() <= SETTLED * now {
                break;
            }
            before = now;
        }
        (radiosity, indirect)
    }

    /// K applied to a radiosity: the irradiance of every patch by way of the others.
    pub(crate) fn gather_all(&self, radiosity: &[Spectrum]) -> Vec<Spectrum> {
        let share = 1.0 / self.rays as f32;
        self.targets
            .par_chunks(self.rays)
            .map(|row| {
                let mut sum = Spectrum::ZERO;
                for target in row {
                    if let Some(patch) = target.patch() {
                        sum += radiosity[patch];
                    }
                }
                sum * share
            })
            .collect()
    }

    /// K ρ applied to rows of values, one row of `count` per patch: the mean over every patch's fan of
    /// reflectance times value.
    pub(crate) fn average_of(&self, values: &[Spectrum], count: usize) -> Vec<Spectrum> {
        let share = 1.0 / self.rays as f32;
        let mut averages = vec![Spectrum::ZERO; values.len()];
        averages
            .par_chunks_mut(count)
            .zip(self.targets.par_chunks(self.rays))
            .for_each(|(sums, row)| {
                for target in row {
                    let Some(patch) = target.patch() else {
                        continue;
                    };
                    let passed = self.patches.list[patch].reflectance * share;
                    let from = &values[patch * count..(patch + 1) * count];
                    for (sum, value) in sums.iter_mut().zip(from) {
                        *sum += *value * passed;
                    }
                }
            });
        averages
    }

    /// Total flux that leaves the patches, summed over bands.
    fn flux(&self, radiosity: &[Spectrum]) -> f32 {
        self.patches
            .list
            .iter()
            .zip(radiosity)
            .map(|(patch, b)| b.sum() * patch.area)
            .sum()
    }
}

/// What is still to come after a bounce, as a multiple of it, when every bounce keeps this share of the one before.
pub(crate) fn still_to_come(kept: f32) -> f32 {
    let kept = kept.clamp(0.0, SLOWEST_FADING);
    kept / (1.0 - kept)
}

/// The patches that a patch sees along a stratified cosine fan.
fn fan(
    geometry: &Geometry,
    tracer: &Tracer,
    patches: &Patches,
    index: usize,
    rays: usize,
    seed: u64,
) -> Vec<Target> {
    let patch = &patches.list[index];
    let samples = patches.samples_of(patch);
    let mut rng = Rng::new(seed, index as u64);
    let side = (rays as f32).sqrt().round() as usize;
    (0..rays)
        .map(|ray| {
            let sample = &samples[ray % samples.len()];
            let u = stratified(ray, side, rays, &mut rng);
            let (tangent, bitangent) = sample.normal.any_orthonormal_pair();
            let local = cosine_direction(u);
            let direction = tangent * local.x + bitangent * local.y + sample.normal * local.z;
            let position = match patch.rectangle {
                // A flat patch starts its rays anywhere on itself.
                Some([corner, a, b]) => corner + a * rng.unit() + b * rng.unit(),
                None => sample.position,
            };
            let start = position + sample.normal * LIFT;
            Target::of(see(geometry, tracer, patches, start, direction))
        })
        .collect()
}

/// The patch that a ray meets; `None` where it leaves the scene.
fn see(
    geometry: &Geometry,
    tracer: &Tracer,
    patches: &Patches,
    origin: Vec3,
    direction: Vec3,
) -> Option<u32> {
    let hit = tracer.closest(origin, direction)?;
    Some(patches.at(geometry, hit.triangle, origin + direction * hit.distance))
}
