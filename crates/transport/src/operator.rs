//! The room as an operator: what light that leaves any patch does to every meter, all bounces counted.
//!
//! A meter's reading is linear in what leaves the patches, so it is enough to know, once for a place and
//! its people, how much a unit of light leaving each patch matters to each meter. Light goes both ways
//! alike (Helmholtz), so this importance obeys the same balance as light itself:
//!
//! w = g + K ρ w
//!
//! with g what reaches the meter straight from the patch, K the mean over the patch's cosine fan and ρ
//! the reflectance of what the fan meets. g is worked out from the patch's own sample points, each with
//! its shadow ray, so the strongest leg has no noise of its own; the rest is smooth.
//!
//! People are near the meters and curved, so what they send to a meter is followed from the meter: a fan of
//! rays finds the points of skin and cloth that it sees, and from each of them a few rays go on.

use crate::leg::Leg;
use crate::meter::{Meter, Receptor};
use crate::patches::Patch;
use crate::rng::{Rng, stratified};
use crate::room::{Room, still_to_come};
use crate::scatter::{cosine_direction, hemispherical_reflectance};
use crate::source::PlacedFlash;
use crate::surface::{LIFT, SurfacePoint};
use colour::{BANDS, Spectrum};
use glam::Vec3;
use nalgebra::{SMatrix, SymmetricEigen};
use rayon::prelude::*;
use std::f32::consts::PI;
use std::ops::Range;

/// Rays by which a meter finds the people around it.
const BODY_RAYS: usize = 1600;
/// Rays that go on from each point of a person that a meter sees.
const ONWARD_RAYS: usize = 25;
/// Spectra that stand for all sixteen bands: see [`Basis`].
pub(crate) const COMPONENTS: usize = 6;
/// When the last bounce brings less than this share of everything, the rest is summed as a series.
const SMALL_STEP: f32 = 0.02;
/// Meters whose importance is carried back together: a quarter of a kilobyte for each patch.
const TOGETHER: usize = 4;
/// No room needs more bounces than this before its tail is a geometric series.
const MOST_STEPS: usize = 60;
/// An importance below this counts as this much where something is divided by it: it may be nothing.
const NO_IMPORTANCE: f32 = 1e-12;
/// A patch nearer than this many of its own widths is sampled on a finer grid.
const NEAR_WIDTHS: f32 = 5.0;
/// Edge of that finer grid.
const NEAR_GRID: usize = 6;

/// Importance of every patch to every meter.
pub struct Operator {
    meters: Vec<Meter>,
    /// Reading per unit of light leaving a patch by all paths; a row of meters per patch.
    importance: Vec<Spectrum>,
    /// The same by the last leg alone.
    first: Vec<f32>,
    /// For every meter the points of people that it sees.
    skin: Vec<Vec<SkinPoint>>,
    basis: Basis,
}

/// A point of a person that a meter sees.
#[derive(Clone, Copy, Debug)]
pub(crate) struct SkinPoint {
    pub point: SurfacePoint,
    /// Share of the point's irradiance that becomes reading: reflectance included.
    pub weight: Spectrum,
}

impl Operator {
    /// Works out the importance of a room's patches to some meters.
    ///
    /// The cost grows with patches × rays × meters: about half a second on two cores for 20 meters, 7,000
    /// patches and 64 rays.
    pub fn solve(room: &Room, meters: &[Meter]) -> Self {
        let count = meters.len();
        let mut first: Vec<f32> = room
            .patches
            .list
            .par_iter()
            .flat_map_iter(|patch| meters.iter().map(|meter| straight_leg(room, patch, meter)))
            .collect();
        let seen: Vec<(Vec<SkinPoint>, Vec<f32>)> = meters
            .par_iter()
            .enumerate()
            .map(|(place, meter)| people_seen(room, meter, place as u64))
            .collect();
        let flat = first.clone();
        for (index, patch) in room.patches.list.iter().enumerate() {
            if patch.rectangle.is_none() {
                for (meter, (_, weights)) in seen.iter().enumerate() {
                    first[index * count + meter] = weights[index] / patch.area;
                }
            }
        }
        let skin: Vec<Vec<SkinPoint>> = seen.into_iter().map(|(points, _)| points).collect();
        let importance = bounce_all(room, &first, &flat, &by_way_of_people(room, &skin), count);
        let basis = Basis::of(room, &importance, count);
        Operator {
            meters: meters.to_vec(),
            importance,
            first,
            skin,
            basis,
        }
    }

    /// The meters.
    pub fn meters(&self) -> &[Meter] {
        &self.meters
    }

    /// What a unit of light leaving a patch brings to each meter by all paths.
    ///
    /// `patch` is its position in the room's list; one entry per meter.
    #[inline]
    pub fn importance(&self, patch: usize) -> &[Spectrum] {
        let count = self.meters.len();
        &self.importance[patch * count..(patch + 1) * count]
    }

    /// What a unit of light leaving a patch brings to each meter by the last leg alone.
    #[inline]
    pub(crate) fn first_of(&self, patch: usize) -> &[f32] {
        let count = self.meters.len();
        &self.first[patch * count..(patch + 1) * count]
    }

    /// The points of people that a meter sees.
    pub(crate) fn skin_of(&self, meter: usize) -> &[SkinPoint] {
        &self.skin[meter]
    }

    pub(crate) fn basis(&self) -> &Basis {
        &self.basis
    }

    /// Share of the importance, as a root mean square, that the few spectra of the fast path cannot hold.
    pub fn left_out_by_basis(&self) -> f32 {
        self.basis.left_out
    }

    /// Reading of a meter (by its position in [`Operator::meters`]) of what patches shine with
    /// themselves, in lx, with all bounces; `glow` is their exitance.
    pub fn read_glow(&self, room: &Room, meter: usize, glow: &[f32]) -> Spectrum {
        let mut sum = Spectrum::ZERO;
        for (index, (&exitance, patch)) in glow.iter().zip(&room.patches.list).enumerate() {
            if exitance > 0.0 {
                sum += self.importance(index)[meter] * (exitance * patch.area);
            }
        }
        sum
    }

    /// Reading of a meter for a flash that gives the patches this irradiance: direct light and all bounces, per
    /// band of a flat spectrum, at full power.
    pub fn read_flash(&self, room: &Room, meter: usize, flash: &PlacedFlash, irradiance: &[f32]) -> Spectrum {
        let direct = self.meters[meter].read_direct(room, flash);
        self.read_bounced(room, meter, irradiance) + Spectrum::splat(direct)
    }

    /// Reading of a meter of what the patches send on when they receive this irradiance: all bounces.
    pub fn read_bounced(&self, room: &Room, meter: usize, irradiance: &[f32]) -> Spectrum {
        let mut sum = Spectrum::ZERO;
        for (index, (&e, patch)) in irradiance.iter().zip(&room.patches.list).enumerate() {
            if e > 0.0 {
                sum += self.importance(index)[meter] * patch.reflectance * (e * patch.area);
            }
        }
        sum
    }

    /// Importance of a surface element that is not a patch: what a unit of light leaving it brings to
    /// every meter, and the part of it that goes straight. `rays` is a square number.
    pub(crate) fn gather(
        &self,
        room: &Room,
        at: Vec3,
        normal: Vec3,
        rays: usize,
        place: u64,
    ) -> (Vec<Spectrum>, Vec<f32>) {
        let first: Vec<f32> = self
            .meters
            .iter()
            .map(|meter| last_leg(room, at, normal, meter))
            .collect();
        let mut all: Vec<Spectrum> = first.iter().map(|&g| Spectrum::splat(g)).collect();
        let mut rng = Rng::new(room.seed() ^ 0x0062_6f61_7264, place);
        let side = (rays as f32).sqrt().round() as usize;
        let (tangent, bitangent) = normal.any_orthonormal_pair();
        for ray in 0..rays {
            let u = stratified(ray, side, rays, &mut rng);
            let local = cosine_direction(u);
            let direction = tangent * local.x + bitangent * local.y + normal * local.z;
            if let Some(patch) = room.see(at, direction) {
                let passed = room.patches.list[patch as usize].reflectance * (1.0 / rays as f32);
                for (sum, w) in all.iter_mut().zip(self.importance(patch as usize)) {
                    *sum += *w * passed;
                }
            }
        }
        (all, first)
    }
}

/// What a unit of light leaving a point of a surface brings to a meter straight.
#[inline]
pub(crate) fn last_leg(room: &Room, at: Vec3, normal: Vec3, meter: &Meter) -> f32 {
    let leg = Leg::between(meter.position, at);
    let leaving = leg.cos_landing(normal);
    let weight = meter.receptor.weight(leg.direction);
    if leaving <= 0.0 || weight == 0.0 || !room.tracer.sees_surface(meter.position, at) {
        return 0.0;
    }
    weight * leaving / (PI * leg.distance2)
}

/// The same for a flat patch, as the mean over its sample points; zero for people.
fn straight_leg(room: &Room, patch: &Patch, meter: &Meter) -> f32 {
    let Some([corner, a, b]) = patch.rectangle else {
        return 0.0;
    };
    // A patch behind a flat meter, or a meter behind the patch: nothing to trace.
    let reach = 0.5 * (a + b).length().max((a - b).length());
    if (meter.position - patch.centre).dot(patch.normal) <= 0.0 {
        return 0.0;
    }
    if let Receptor::Flat(normal) = meter.receptor
        && (patch.centre - meter.position).dot(normal) < -reach
    {
        return 0.0;
    }
    let distance = (patch.centre - meter.position).length();
    if distance > NEAR_WIDTHS * reach {
        let samples = room.patches.samples_of(patch);
        let sum: f32 = samples
            .iter()
            .map(|s| last_leg(room, s.start(), s.normal, meter))
            .sum();
        return sum / samples.len() as f32;
    }
    let mut sum = 0.0;
    for i in 0..NEAR_GRID * NEAR_GRID {
        let s = ((i % NEAR_GRID) as f32 + 0.5) / NEAR_GRID as f32;
        let t = ((i / NEAR_GRID) as f32 + 0.5) / NEAR_GRID as f32;
        let at = corner + a * s + b * t + patch.normal * LIFT;
        sum += last_leg(room, at, patch.normal, meter);
    }
    sum / (NEAR_GRID * NEAR_GRID) as f32
}

/// The points of people that a meter sees, and the weight of every patch of a person at it.
fn people_seen(room: &Room, meter: &Meter, place: u64) -> (Vec<SkinPoint>, Vec<f32>) {
    let mut points = Vec::new();
    let mut weights = vec![0.0f32; room.patches.list.len()];
    let mut rng = Rng::new(room.seed() ^ 0x0070_656f_706c, place);
    let side = (BODY_RAYS as f32).sqrt().round() as usize;
    for ray in 0..BODY_RAYS {
        let (direction, density) = meter.receptor.sample(stratified(ray, side, BODY_RAYS, &mut rng));
        let Some(hit) = room.tracer.closest(meter.position, direction) else {
            continue;
        };
        let object = room.geometry.object[hit.triangle as usize] as usize;
        if room.geometry.objects[object].rectangle.is_some() || density <= 0.0 {
            continue;
        }
        let point = SurfacePoint::new(&room.geometry, &hit, meter.position, direction);
        let patch = room.patches.at(&room.geometry, point.triangle, point.position);
        // The radiance of a matt point is its exitance over π.
        let weight = meter.receptor.weight(direction) / (density * PI * BODY_RAYS as f32);
        weights[patch as usize] += weight;
        points.push(SkinPoint {
            point,
            weight: hemispherical_reflectance(point.reflectance, point.coat) * weight,
        });
    }
    (points, weights)
}

/// What a unit of light leaving each patch brings to each meter by way of one point of a person.
fn by_way_of_people(room: &Room, skin: &[Vec<SkinPoint>]) -> Vec<Spectrum> {
    let count = skin.len();
    let columns: Vec<Vec<Spectrum>> = skin
        .par_iter()
        .enumerate()
        .map(|(meter, points)| {
            let mut column = vec![Spectrum::ZERO; room.patches.list.len()];
            let mut rng = Rng::new(room.seed() ^ 0x006f_6e77_6172, meter as u64);
            for seen in points {
                for target in onward(room, &seen.point, &mut rng) {
                    column[target as usize] += seen.weight * (1.0 / ONWARD_RAYS as f32);
                }
            }
            column
        })
        .collect();
    let mut rows = vec![Spectrum::ZERO; count * room.patches.list.len()];
    rows.par_chunks_mut(count)
        .zip(&room.patches.list)
        .enumerate()
        .for_each(|(index, (row, patch))| {
            for (value, column) in row.iter_mut().zip(&columns) {
                *value = column[index] * (1.0 / patch.area);
            }
        });
    rows
}

/// The patches that a cosine fan from a point of a person meets.
fn onward(room: &Room, point: &SurfacePoint, rng: &mut Rng) -> Vec<u32> {
    let (tangent, bitangent) = point.normal.any_orthonormal_pair();
    let side = (ONWARD_RAYS as f32).sqrt().round() as usize;
    (0..ONWARD_RAYS)
        .filter_map(|ray| {
            let local = cosine_direction(stratified(ray, side, ONWARD_RAYS, rng));
            let direction = tangent * local.x + bitangent * local.y + point.normal * local.z;
            if !point.above(direction) {
                return None;
            }
            room.see(point.start, direction)
        })
        .collect()
}

/// [`bounce`] for a few meters at a time, so that what a step reads here and there stays in the processor's cache.
fn bounce_all(
    room: &Room,
    first: &[f32],
    flat: &[f32],
    by_people: &[Spectrum],
    count: usize,
) -> Vec<Spectrum> {
    let mut importance = vec![Spectrum::ZERO; first.len()];
    for start in (0..count).step_by(TOGETHER) {
        let block = start..(start + TOGETHER).min(count);
        let part = bounce(
            room,
            &columns(first, count, &block),
            &columns(flat, count, &block),
            columns(by_people, count, &block),
            block.len(),
        );
        for (row, values) in importance
            .chunks_exact_mut(count)
            .zip(part.chunks_exact(block.len()))
        {
            row[block.clone()].copy_from_slice(values);
        }
    }
    importance
}

/// Some columns of rows of `count` values.
fn columns<T: Copy>(rows: &[T], count: usize, block: &Range<usize>) -> Vec<T> {
    rows.chunks_exact(count)
        .flat_map(|row| &row[block.clone()])
        .copied()
        .collect()
}

/// Carries the last leg back through all bounces: w = g + K ρ w, one bounce at a time, where the second
/// leg by way of people is known already.
///
/// Once a step fades by the same share as the one before it, what is left is a geometric series, which is
/// summed for each meter and band.
fn bounce(room: &Room, first: &[f32], flat: &[f32], by_people: Vec<Spectrum>, count: usize) -> Vec<Spectrum> {
    let straight: Vec<Spectrum> = first.iter().map(|&g| Spectrum::splat(g)).collect();
    let mut total = vec![Spectrum::ZERO; first.len()];
    let mut held = mean_of(room, &straight, count);
    let mut step_before = held.clone();
    let from_flat: Vec<Spectrum> = flat.iter().map(|&g| Spectrum::splat(g)).collect();
    let mut wave = room.average_of(&from_flat, count);
    wave.par_iter_mut()
        .zip(by_people)
        .for_each(|(value, people)| *value += people);
    for _ in 0..MOST_STEPS {
        let step = mean_of(room, &wave, count);
        let mut largest: f32 = 0.0;
        for (sum, new) in held.iter_mut().zip(&step) {
            *sum += *new;
            largest = largest.max(new.zip(sum, |n, s| n / s.max(NO_IMPORTANCE)).max());
        }
        let last = largest < SMALL_STEP;
        let rest = if last {
            remainder(&step, &step_before)
        } else {
            vec![Spectrum::ZERO; count]
        };
        total
            .par_chunks_mut(count)
            .zip(wave.par_chunks(count))
            .for_each(|(sums, news)| {
                for ((sum, new), rest) in sums.iter_mut().zip(news).zip(&rest) {
                    *sum += *new + *new * *rest;
                }
            });
        if last {
            break;
        }
        wave = room.average_of(&wave, count);
        step_before = step;
    }
    smooth(room, &mut total, count);
    total
        .par_iter_mut()
        .zip(straight)
        .for_each(|(sum, straight)| *sum += straight);
    total
}

/// Evens out what the fans' rays left uneven between neighbours on a flat object: what comes by more than
/// one leg changes little from one patch to the next. The mean over each patch and those around it, by the
/// weights 1, 2, 1 each way.
fn smooth(room: &Room, values: &mut [Spectrum], count: usize) {
    for (first, columns, rows) in room.patches.grids() {
        let here = first * count..(first + columns * rows) * count;
        let before = values[here.clone()].to_vec();
        values[here]
            .par_chunks_mut(count)
            .enumerate()
            .for_each(|(index, row)| {
                let (column, line) = (index % columns, index / columns);
                let (mut sums, mut weights) = (vec![Spectrum::ZERO; count], 0.0);
                for near_line in line.saturating_sub(1)..=(line + 1).min(rows - 1) {
                    for near in column.saturating_sub(1)..=(column + 1).min(columns - 1) {
                        let weight =
                            (2.0 - near.abs_diff(column) as f32) * (2.0 - near_line.abs_diff(line) as f32);
                        let from = (near_line * columns + near) * count;
                        for (sum, value) in sums.iter_mut().zip(&before[from..from + count]) {
                            *sum += *value * weight;
                        }
                        weights += weight;
                    }
                }
                for (value, sum) in row.iter_mut().zip(sums) {
                    *value = sum * (1.0 / weights);
                }
            });
    }
}

/// What follows a step, as a multiple of it, when every step fades by the same share.
fn remainder(step: &[Spectrum], before: &[Spectrum]) -> Vec<Spectrum> {
    step.iter()
        .zip(before)
        .map(|(new, old)| new.zip(old, |n, o| still_to_come(n / o.max(NO_IMPORTANCE))))
        .collect()
}

/// Area-weighted mean size of each meter's importance.
fn mean_of(room: &Room, wave: &[Spectrum], count: usize) -> Vec<Spectrum> {
    let mut sums = vec![Spectrum::ZERO; count];
    for (row, patch) in wave.chunks_exact(count).zip(&room.patches.list) {
        for (sum, w) in sums.iter_mut().zip(row) {
            // A light vector's weights have both signs: it is their size that must fade.
            *sum += w.map(f32::abs) * patch.area;
        }
    }
    sums
}

/// A few spectra that stand for all sixteen bands.
///
/// What a room does to light is a product of a few smooth reflectances, so the importances of all its
/// patches lie very nearly in a space of few dimensions: the leading eigenvectors of their sixteen by
/// sixteen matrix of products (principal components without centring). What is left out is known.
#[derive(Clone, Debug)]
pub(crate) struct Basis {
    /// Orthonormal spectra.
    spectra: [Spectrum; COMPONENTS],
    /// Root mean square share of what they leave out.
    left_out: f32,
}

impl Basis {
    fn of(room: &Room, importance: &[Spectrum], count: usize) -> Self {
        let mut products = [[0.0f64; BANDS]; BANDS];
        for (row, patch) in importance.chunks_exact(count).zip(&room.patches.list) {
            for w in row {
                let value = *w * patch.reflectance;
                let area = f64::from(patch.area);
                for (i, line) in products.iter_mut().enumerate() {
                    let vi = f64::from(value.0[i]) * area;
                    for (sum, vj) in line.iter_mut().zip(&value.0) {
                        *sum += vi * f64::from(*vj);
                    }
                }
            }
        }
        let matrix = SMatrix::<f64, BANDS, BANDS>::from_fn(|i, j| products[i][j]);
        let eigen = SymmetricEigen::new(matrix);
        let mut order: Vec<usize> = (0..BANDS).collect();
        order.sort_by(|&a, &b| eigen.eigenvalues[b].total_cmp(&eigen.eigenvalues[a]));
        let spectra =
            std::array::from_fn(|k| Spectrum::from_fn(|band| eigen.eigenvectors[(band, order[k])] as f32));
        let all: f64 = eigen.eigenvalues.iter().map(|v| v.max(0.0)).sum();
        let kept: f64 = order[..COMPONENTS]
            .iter()
            .map(|&k| eigen.eigenvalues[k].max(0.0))
            .sum();
        let left_out = if all > 0.0 {
            ((all - kept).max(0.0) / all).sqrt() as f32
        } else {
            0.0
        };
        Basis { spectra, left_out }
    }

    /// Coordinates of a spectrum.
    #[inline]
    pub fn project(&self, value: &Spectrum) -> [f32; COMPONENTS] {
        std::array::from_fn(|k| self.spectra[k].dot(value))
    }

    /// The spectrum of some coordinates.
    #[inline]
    pub fn expand(&self, coordinates: &[f32]) -> Spectrum {
        let mut sum = Spectrum::ZERO;
        for (spectrum, &c) in self.spectra.iter().zip(coordinates) {
            sum += *spectrum * c;
        }
        sum
    }
}
