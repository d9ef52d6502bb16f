//! Takes the noise out of a layer, guided by what the picture shows.
//!
//! Every pixel becomes a mean of its neighbours, each weighed by how alike they are: by the light in small patches around both
//! (non-local means, Buades, Coll & Morel 2005, with the noise taken off as in Rousselle, Knaus & Zwicker 2012), and by surface,
//! colour and place (Rousselle, Manzi & Zwicker 2013). Two halves of the picture that share no random number are filtered each
//! with the weights that the other gives, so that no pixel's noise weighs itself, and what they then differ by tells the
//! noise that is left. All bands of a pixel share one weight, and weights come from one layer alone, so that layers stay as they
//! mix.

use colour::Spectrum;
use glam::Vec3;
use rayon::prelude::*;
use std::ops::Range;

/// Neighbours up to so many pixels away.
const REACH: isize = 6;
/// Patches that are compared: from the pixel so many pixels to each side.
const PATCH: usize = 2;
const PATCH_PIXELS: f32 = ((2 * PATCH + 1) * (2 * PATCH + 1)) as f32;
/// Differences of this many standard deviations weigh one e-th (0.45 in Rousselle et al. 2012, for pictures of less noise).
const ALIKE: f32 = 0.6;
/// Differences in relative reflectance, in the direction of the surface (1 is a radian), and in metres across it, that weigh one
/// e-th (ours: lips keep their edge, and a cheek is one surface).
const REFLECTANCE: f32 = 0.08;
const DIRECTION: f32 = 0.2;
const ACROSS_M: f32 = 0.004;
/// Rows that one thread filters at a time.
const ROWS: usize = 16;
/// Noise is taken to be at least this part of a pixel: halves that agree by chance have some.
const LEAST_NOISE: f32 = 0.004;
/// Neighbours that weigh less say nothing.
const NOTHING: f32 = 1e-3;

/// What a pixel shows: the mean over some looks through it.
#[derive(Clone, Copy, Debug, Default)]
pub(crate) struct Shows {
    /// Reflectance in three parts of the spectrum.
    pub reflectance: Vec3,
    /// Normal.
    pub normal: Vec3,
    /// Place in metres.
    pub place: Vec3,
}

/// Two independent halves of a picture, each the mean of its passes.
pub(crate) type Halves = [Vec<Spectrum>; 2];

/// Filters both halves; `shows` has a pixel for each of theirs.
pub(crate) fn filtered(halves: &Halves, shows: &[Shows], width: usize) -> Halves {
    let levels: [Vec<f32>; 2] = [0, 1].map(|half| halves[half].par_iter().map(Spectrum::mean).collect());
    let noise = noise(&levels, width);
    let picture = Picture {
        halves,
        levels: &levels,
        noise: &noise,
        shows,
        width,
        height: shows.len() / width.max(1),
    };
    let strips = picture.height.div_ceil(ROWS);
    let done: Vec<Halves> = (0..strips)
        .into_par_iter()
        .map(|strip| picture.strip(strip))
        .collect();
    let mut all: Halves = [Vec::with_capacity(shows.len()), Vec::with_capacity(shows.len())];
    for [first, second] in done {
        all[0].extend(first);
        all[1].extend(second);
    }
    all
}

/// Variance of a pixel of either half, from what they differ by there and around.
fn noise(levels: &[Vec<f32>; 2], width: usize) -> Vec<f32> {
    let height = levels[0].len() / width.max(1);
    let own = |at: usize| 0.5 * (levels[0][at] - levels[1][at]).powi(2);
    (0..levels[0].len())
        .into_par_iter()
        .map(|at| {
            let (x, y) = (at % width, at / width);
            let (mut sum, mut count) = (0.0, 0.0);
            for v in y.saturating_sub(2)..(y + 3).min(height) {
                for u in x.saturating_sub(2)..(x + 3).min(width) {
                    sum += own(v * width + u);
                    count += 1.0;
                }
            }
            let level = 0.5 * (levels[0][at] + levels[1][at]);
            sum / count + (LEAST_NOISE * level).powi(2) + f32::MIN_POSITIVE
        })
        .collect()
}

/// What is filtered.
struct Picture<'a> {
    halves: &'a Halves,
    /// Mean over the bands.
    levels: &'a [Vec<f32>; 2],
    noise: &'a [f32],
    shows: &'a [Shows],
    width: usize,
    height: usize,
}

impl Picture<'_> {
    /// A strip of rows, filtered.
    fn strip(&self, strip: usize) -> Halves {
        let rows = strip * ROWS..((strip + 1) * ROWS).min(self.height);
        let first = rows.start * self.width;
        let count = rows.len() * self.width;
        // Every pixel is its own neighbour.
        let mut sums: Halves = [0, 1].map(|half| self.halves[half][first..first + count].to_vec());
        let mut weights = [vec![1.0f32; count], vec![1.0f32; count]];
        for down in -REACH..=REACH {
            for right in -REACH..=REACH {
                let inside = down * down + right * right <= REACH * REACH;
                if !inside || (down, right) == (0, 0) {
                    continue;
                }
                self.add_neighbours([right, down], rows.clone(), &mut sums, &mut weights);
            }
        }
        for (sums, weights) in sums.iter_mut().zip(&weights) {
            for (sum, weight) in sums.iter_mut().zip(weights) {
                *sum *= 1.0 / weight;
            }
        }
        sums
    }

    /// Adds to every pixel of some rows its neighbour at an offset.
    fn add_neighbours(
        &self,
        offset: [isize; 2],
        rows: Range<usize>,
        sums: &mut Halves,
        weights: &mut [Vec<f32>; 2],
    ) {
        let alike = self.alike(offset, rows.clone());
        let first = rows.start;
        let columns = overlap(0..self.width, offset[0], self.width);
        for y in overlap(rows, offset[1], self.height) {
            let there_row = (y as isize + offset[1]) as usize * self.width;
            for x in columns.clone() {
                let place = (y - first) * self.width + x;
                let [one, other] = [alike[0][place], alike[1][place]];
                if one.max(other) < NOTHING {
                    continue;
                }
                let there = there_row + (x as isize + offset[0]) as usize;
                let surface = self.same_surface(y * self.width + x, there);
                // Each half is weighed by the other.
                for (half, alike) in [other, one].into_iter().enumerate() {
                    let weight = surface.min(alike);
                    if weight > NOTHING {
                        sums[half][place] += self.halves[half][there] * weight;
                        weights[half][place] += weight;
                    }
                }
            }
        }
    }

    /// How alike the patches around every pixel of some rows and around its neighbour are, by each half.
    fn alike(&self, offset: [isize; 2], rows: Range<usize>) -> [Vec<f32>; 2] {
        let width = self.width;
        let with_patches = rows.start.saturating_sub(PATCH)..(rows.end + PATCH).min(self.height);
        [0, 1].map(|half| {
            // Differences of single pixels, added up along the rows and then down the columns.
            let mut across = vec![0.0f32; with_patches.len() * width];
            let mut row = vec![0.0f32; width + 2 * PATCH];
            for y in overlap(with_patches.clone(), offset[1], self.height) {
                self.apart(half, y, offset, &mut row[PATCH..PATCH + width]);
                let sums = &mut across[(y - with_patches.start) * width..][..width];
                for (x, sum) in sums.iter_mut().enumerate() {
                    *sum = row[x..x + 2 * PATCH + 1].iter().sum();
                }
            }
            let mut alike = vec![0.0f32; rows.len() * width];
            for (y, found) in rows.clone().zip(alike.chunks_mut(width)) {
                let patch = y.saturating_sub(PATCH)..(y + PATCH + 1).min(self.height);
                for line in patch {
                    let sums = &across[(line - with_patches.start) * width..][..width];
                    found.iter_mut().zip(sums).for_each(|(found, sum)| *found += sum);
                }
                for found in found {
                    *found = weight(*found / PATCH_PIXELS);
                }
            }
            alike
        })
    }

    /// How far the pixels of a row and their neighbours are apart beyond their noise; nought where there is no neighbour.
    fn apart(&self, half: usize, y: usize, offset: [isize; 2], row: &mut [f32]) {
        row.fill(0.0);
        let columns = overlap(0..self.width, offset[0], self.width);
        let here = y * self.width + columns.start;
        let there =
            ((y as isize + offset[1]) * self.width as isize + columns.start as isize + offset[0]) as usize;
        let count = columns.len();
        let level = |from: usize| &self.levels[half][from..from + count];
        let noise = |from: usize| &self.noise[from..from + count];
        let levels = level(here).iter().zip(level(there));
        let noises = noise(here).iter().zip(noise(there));
        for ((found, (a, b)), (own, other)) in row[columns].iter_mut().zip(levels).zip(noises) {
            let beyond = (a - b) * (a - b) - (own + own.min(*other));
            *found = beyond / (ALIKE * ALIKE * (own + other));
        }
    }

    /// Whether two pixels show the same surface, 0 to 1.
    fn same_surface(&self, here: usize, there: usize) -> f32 {
        let (here, there) = (&self.shows[here], &self.shows[there]);
        let brightness = 0.5 * (here.reflectance.element_sum() + there.reflectance.element_sum());
        let edge = (REFLECTANCE * brightness.max(1e-3)).powi(2);
        let colour = here.reflectance.distance_squared(there.reflectance) / edge;
        let turned = here.normal.distance_squared(there.normal) / (DIRECTION * DIRECTION);
        let across = ((there.place - here.place).dot(here.normal) / ACROSS_M).powi(2);
        weight(colour.max(turned).max(across))
    }
}

/// The weight of a squared distance: nearly exp(-d), by squaring.
#[inline]
fn weight(distance: f32) -> f32 {
    let mut power = 1.0 + distance.max(0.0) * (1.0 / 16.0);
    for _ in 0..4 {
        power *= power;
    }
    1.0 / power
}

/// The part of a range whose neighbours at an offset lie within a size.
fn overlap(range: Range<usize>, offset: isize, size: usize) -> Range<usize> {
    let start = range.start.max((-offset).max(0) as usize);
    let end = range.end.min((size as isize - offset.max(0)).max(0) as usize);
    start..end.max(start)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::rng::Rng;

    const SIZE: usize = 64;

    /// Two noisy halves of a picture, with the picture itself; `level` is its light at a place, `noise` relative.
    fn noisy(level: impl Fn(usize, usize) -> f32, noise: f32, seed: u64) -> (Halves, Vec<f32>) {
        let truth: Vec<f32> = (0..SIZE * SIZE).map(|at| level(at % SIZE, at / SIZE)).collect();
        let halves = [0, 1].map(|half| {
            let mut rng = Rng::new(seed, half);
            truth
                .iter()
                .map(|level| {
                    // The sum of twelve even numbers is nearly normal with a variance of one.
                    let normal: f32 = (0..6).map(|_| rng.pair()).map(|[a, b]| a + b).sum::<f32>() - 6.0;
                    Spectrum::splat((level * (1.0 + noise * normal)).max(0.0))
                })
                .collect()
        });
        (halves, truth)
    }

    fn one_surface() -> Vec<Shows> {
        let shows = Shows {
            reflectance: Vec3::splat(0.4),
            normal: Vec3::Y,
            place: Vec3::ZERO,
        };
        vec![shows; SIZE * SIZE]
    }

    fn mean_of(halves: &Halves) -> Vec<f32> {
        let pairs = halves[0].iter().zip(&halves[1]);
        pairs.map(|(a, b)| 0.5 * (a.mean() + b.mean())).collect()
    }

    /// Root of the mean square of the relative differences in some columns.
    fn off(found: &[f32], truth: &[f32], columns: Range<usize>) -> f32 {
        let mut squares = Vec::new();
        for at in 0..found.len() {
            if columns.contains(&(at % SIZE)) {
                squares.push((found[at] / truth[at] - 1.0).powi(2));
            }
        }
        (squares.iter().sum::<f32>() / squares.len() as f32).sqrt()
    }

    #[test]
    fn noise_goes_from_an_even_surface_and_nothing_else_does() {
        let check = |level: &dyn Fn(usize, usize) -> f32, most: f32| {
            let (halves, truth) = noisy(level, 0.10, 1);
            let before = off(&mean_of(&halves), &truth, 0..SIZE);
            let after = filtered(&halves, &one_surface(), SIZE);
            let left = off(&mean_of(&after), &truth, 0..SIZE);
            assert!(left < most * before, "{before} became {left}");
            let light = |picture: &[f32]| picture.iter().sum::<f32>() / picture.len() as f32;
            let kept = light(&mean_of(&after)) / light(&truth);
            assert!((kept - 1.0).abs() < 0.003, "{kept} of the light is left");
        };
        check(&|_, _| 1.0, 0.25);
        check(&|x, _| 1.0 + 0.01 * x as f32, 0.3);
        check(
            &|x, y| 1.0 + 0.3 * (0.1 * x as f32).sin() * (0.1 * y as f32).cos(),
            0.35,
        );
    }

    #[test]
    fn an_edge_of_light_keeps_its_width() {
        let (halves, truth) = noisy(|x, _| if x < SIZE / 2 { 1.0 } else { 0.4 }, 0.08, 2);
        let found = mean_of(&filtered(&halves, &one_surface(), SIZE));
        let beside = SIZE / 2 - 1..SIZE / 2 + 1;
        assert!(off(&found, &truth, beside) < 0.04, "the edge is blurred");
    }

    #[test]
    fn what_is_seen_keeps_its_edges_however_faint_their_light() {
        let (halves, truth) = noisy(|x, _| if x < SIZE / 2 { 1.0 } else { 0.95 }, 0.10, 3);
        let mut shows = one_surface();
        for (at, shows) in shows.iter_mut().enumerate() {
            if at % SIZE >= SIZE / 2 {
                shows.reflectance = Vec3::splat(0.3);
            }
        }
        let found = mean_of(&filtered(&halves, &shows, SIZE));
        let [left, right] = [SIZE / 2 - 1, SIZE / 2].map(|column| {
            let rows = (0..SIZE).map(|row| found[row * SIZE + column]);
            rows.sum::<f32>() / SIZE as f32
        });
        assert!((left - right - 0.05).abs() < 0.02, "{left} beside {right}");
        assert!(off(&found, &truth, 0..SIZE) < 0.03);
    }

    #[test]
    fn halves_that_agree_stay_as_they_are() {
        let (halves, truth) = noisy(|x, y| if (x / 4 + y / 4) % 2 == 0 { 1.0 } else { 0.5 }, 0.0, 4);
        let found = mean_of(&filtered(&halves, &one_surface(), SIZE));
        assert!(off(&found, &truth, 0..SIZE) < 0.002);
    }

    #[test]
    fn layers_mix_after_the_filter_as_before() {
        let (halves, _) = noisy(|x, _| 1.0 + 0.02 * x as f32, 0.1, 5);
        let bright: Halves = [0, 1].map(|half| halves[half].iter().map(|pixel| *pixel * 7.0).collect());
        let [once, brighter] =
            [&halves, &bright].map(|halves| mean_of(&filtered(halves, &one_surface(), SIZE)));
        for (once, brighter) in once.iter().zip(&brighter) {
            assert!(
                (7.0 * once / brighter - 1.0).abs() < 1e-3,
                "{once} and {brighter}"
            );
        }
    }
}
