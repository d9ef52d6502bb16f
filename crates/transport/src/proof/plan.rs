//! How many rays each pixel gets, and how far a picture still is from the true one.

use super::first_look::{FirstLook, Lens};
use super::solved::Solved;
use super::steer::Steer;
use glam::Vec2;
use rayon::prelude::*;

/// Pixels below this share of the picture's mean do not count for its error: a relative error there says nothing about
/// how the picture looks.
const VERY_DARK: f64 = 0.1;

/// Relative error (root mean square over the skin, or over everything when there are none) of the mean
/// of two independent halves, from their difference. `left_out` is the part of the pixels, the worst, that does not count.
pub(super) fn error_of(halves: &[Vec<f32>; 2], skin: &[bool], left_out: f64) -> Option<f32> {
    let any = skin.iter().any(|&p| p);
    let chosen = || {
        halves[0]
            .iter()
            .zip(&halves[1])
            .zip(skin)
            .filter(move |(_, p)| **p || !any)
            .map(|(h, _)| h)
    };
    let count = chosen().count();
    if count == 0 {
        return None;
    }
    let average = chosen().map(|(a, b)| f64::from(0.5 * (a + b))).sum::<f64>() / count as f64;
    let floor = (VERY_DARK * average) as f32;
    // A single pixel's halves say little, so the squares are averaged before the root is taken.
    let mut squares: Vec<f64> = chosen()
        .map(|(a, b)| (0.5 * (a + b), a - b))
        .filter(|(mean, _)| *mean > floor)
        .map(|(mean, apart)| f64::from(0.5 * apart / mean).powi(2))
        .collect();
    squares.sort_unstable_by(f64::total_cmp);
    squares.truncate(((1.0 - left_out) * squares.len() as f64).ceil() as usize);
    let mean = squares.iter().sum::<f64>() / squares.len().max(1) as f64;
    (!squares.is_empty()).then(|| mean.sqrt() as f32)
}

/// What tells the random numbers of the trial from those of the picture.
const TRIAL_SEED: u64 = 0x7e57;
/// Share of the picture's mean that is added to every pixel's own when rays are planned for its relative error: nearly
/// black pixels are not worth more rays than dark ones.
const DARK: f32 = 0.05;
/// Edge of the squares of pixels that are tried together; each pixel has one ray of the trial.
const TRIAL: usize = 2;
/// How much smaller the variance is than that of as many unrelated rays, about.
const EVENNESS: f32 = 0.5;
/// Passes in which what is judged should get to the error that is asked for. Two are the fewest from
/// which an error can be worked out.
const PLANNED_PASSES: f32 = 2.0;
/// Rays are not planned for a smaller error than this, so that a pass stays short.
const FINEST_PLAN: f32 = 0.01;
/// The error for which rays are planned when none is asked for: a rendering that its caller ends needs
/// short passes, between which it can end.
const OPEN_PLAN: f32 = 0.04;
/// How much larger the error may be where the picture is not judged.
const REST: f32 = 2.5;
/// Most rays of a pixel in a pass.
const MOST_RAYS: f32 = 1024.0;

impl Solved<'_> {
    /// Camera rays of every pixel in a pass: many where the light differs within the pixel or is hard to
    /// find, few where it is even. A trial tells, whose rays are used for nothing else: a number of rays
    /// that knew the values it averages would favour some of them.
    ///
    /// For a mean square error at the least cost, the rays of a pixel go with its standard deviation.
    pub(super) fn rays(
        &self,
        lens: &Lens,
        size: [usize; 2],
        first_look: &FirstLook,
        error: f32,
        seed: u64,
    ) -> Vec<u16> {
        let deviations = self.trial(lens, size, seed.wrapping_add(TRIAL_SEED));
        let plan = |judged: bool, error: f32| {
            let (mut sum, mut count) = (0.0f64, 0);
            for (deviation, _) in deviations
                .iter()
                .zip(&first_look.judged)
                .filter(|(_, j)| **j == judged)
            {
                sum += f64::from(*deviation);
                count += 1;
            }
            let mean = sum as f32 / count.max(1) as f32;
            EVENNESS * mean / (PLANNED_PASSES * error * error)
        };
        let error = if error > 0.0 {
            error.max(FINEST_PLAN)
        } else {
            OPEN_PLAN
        };
        let [rest, judged] = [plan(false, REST * error), plan(true, error)];
        deviations
            .iter()
            .zip(&first_look.judged)
            .map(|(deviation, &is_judged)| {
                let per_deviation = if is_judged { judged } else { rest };
                (deviation * per_deviation).round().clamp(1.0, MOST_RAYS) as u16
            })
            .collect()
    }

    /// Standard deviation of a ray of every pixel, relative to the pixel.
    fn trial(&self, lens: &Lens, [width, height]: [usize; 2], seed: u64) -> Vec<f32> {
        let bodies = self.body_light(lens, [width, height], seed, 0);
        let (columns, rows) = (width.div_ceil(TRIAL), height.div_ceil(TRIAL));
        let squares: Vec<[f32; 2]> = (0..columns * rows)
            .into_par_iter()
            .map(|square| {
                let mut steer = Steer::new(seed, square as u64, 0, 1);
                let corner = Vec2::new((square % columns) as f32, (square / columns) as f32) * TRIAL as f32;
                let (mut sum, mut squares) = (0.0, 0.0);
                for ray in 0..TRIAL * TRIAL {
                    let within = Vec2::new((ray % TRIAL) as f32, (ray / TRIAL) as f32);
                    let at = corner + within + Vec2::from(steer.in_pixel());
                    let value = self.pixel(lens, at, bodies.as_ref(), &mut steer).mean();
                    sum += value;
                    squares += value * value;
                    steer.turn += 1;
                }
                let n = (TRIAL * TRIAL) as f32;
                let mean = sum / n;
                [mean, (squares - mean * sum).max(0.0) / (n - 1.0)]
            })
            .collect();
        let average = squares.iter().map(|[mean, _]| mean).sum::<f32>() / squares.len().max(1) as f32;
        (0..width * height)
            .map(|pixel| {
                let (x, y) = (pixel % width / TRIAL, pixel / width / TRIAL);
                let (mut mean, mut variance, mut weights) = (0.0, 0.0, 0.0);
                for v in y.saturating_sub(1)..(y + 2).min(rows) {
                    for u in x.saturating_sub(1)..(x + 2).min(columns) {
                        let weight = if (u, v) == (x, y) { 4.0 } else { 1.0 };
                        let [m, s] = squares[v * columns + u];
                        mean += weight * m;
                        variance += weight * s;
                        weights += weight;
                    }
                }
                (variance / weights).sqrt() / (mean / weights + DARK * average).max(f32::MIN_POSITIVE)
            })
            .collect()
    }
}
