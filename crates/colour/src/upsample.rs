//! From three numbers to a reflectance curve.
//!
//! A triple is a *linear RGB reflectance with the light's own colour as neutral*: (0.8, 0.8, 0.8) is a flat 0.8 whatever
//! the lamp. Many curves look the same; of these the smoothest is taken, in the sense of Burns 2020, "Numerical methods
//! for smoothest reflectance reconstruction", Color Research and Application 45, 8 (doi:10.1002/col.22437): the least
//! squared slope of the hyperbolic arctangent of the reflectance, which keeps the curve between 0 and 1. The triple is
//! reproduced exactly under D65 on the bands, and a grey triple gives a flat curve.

use crate::bands::centre_nm;
use crate::display::{D65_WHITE, LinearSrgb};
use crate::{BANDS, ColourError, LightColour, Primary, Reflectance, Spectrum, Xyz};
use std::sync::LazyLock;

/// How much each band counts for red, green and blue under D65; each of the three adds up to 1.
static WEIGHTS: LazyLock<[[f64; BANDS]; 3]> = LazyLock::new(|| {
    let light = LightColour::illuminant("D65").expect("D65 is built in");
    let white = LinearSrgb::from_xyz(light.white());
    let by_band: [LinearSrgb; BANDS] = std::array::from_fn(|band| {
        LinearSrgb::from_xyz(light.xyz(&Spectrum::from_fn(|b| f32::from(b == band))))
    });
    // Dividing by the white's own value makes every flat curve exactly grey.
    std::array::from_fn(|channel| by_band.map(|LinearSrgb(rgb)| rgb[channel] / white.0[channel]))
});

/// The linear RGB of a reflectance under D65, with the perfect white as (1, 1, 1): the reverse of upsampling.
///
/// ```
/// use colour::{Spectrum, upsample};
/// let grey = upsample::linear_srgb_of(&Spectrum::splat(0.18));
/// assert!(grey.iter().all(|part| (part - 0.18).abs() < 1e-6));
/// ```
pub fn linear_srgb_of(reflectance: &Spectrum) -> [f64; 3] {
    WEIGHTS.map(|weights| {
        weights
            .iter()
            .zip(reflectance.0)
            .map(|(w, r)| w * f64::from(r))
            .sum()
    })
}

/// XYZ under the sRGB white of such a triple.
pub fn xyz_of_linear_srgb(triple: [f64; 3]) -> Xyz {
    let white = LinearSrgb::from_xyz(D65_WHITE).0;
    LinearSrgb(std::array::from_fn(|k| triple[k] * white[k])).to_xyz()
}

/// The smoothest reflectance with this linear RGB under D65.
///
/// ```
/// use colour::{Spectrum, upsample};
/// let mint = upsample::reflectance_from_linear_srgb([0.55, 0.72, 0.60])?;
/// let back = upsample::linear_srgb_of(mint.spectrum());
/// assert!((back[1] - 0.72).abs() < 1e-5);
/// let grey = upsample::reflectance_from_linear_srgb([0.4; 3])?;
/// assert_eq!(*grey.spectrum(), Spectrum::splat(0.4));
/// # Ok::<(), colour::ColourError>(())
/// ```
///
/// # Errors
/// Refuses parts outside 0 to 1, and the few triples at the very edge that no reflectance has.
pub fn reflectance_from_linear_srgb(triple: [f64; 3]) -> Result<Reflectance, ColourError> {
    for (channel, value) in [Primary::Red, Primary::Green, Primary::Blue]
        .into_iter()
        .zip(triple)
    {
        if !(0.0..=1.0).contains(&value) {
            return Err(ColourError::NotAColour { channel, value });
        }
    }
    if triple[0] == triple[1] && triple[1] == triple[2] {
        return Reflectance::grey(triple[0] as f32);
    }
    smoothest(triple)
        .map(Reflectance::clamped)
        .ok_or(ColourError::NoReflectance(triple))
}

/// The smoothest reflectance with this eight-bit sRGB colour, as read from a picture of an evenly lit surface.
///
/// # Errors
/// As [`reflectance_from_linear_srgb`].
pub fn reflectance_from_srgb8(encoded: [u8; 3]) -> Result<Reflectance, ColourError> {
    reflectance_from_linear_srgb(LinearSrgb::from_srgb8(encoded).0)
}

/// Unknowns: a z for every band with reflectance (1 + tanh z) / 2, and a Lagrange multiplier for every part of the triple.
const UNKNOWNS: usize = BANDS + 3;

/// The smoothest curve for a triple that is not grey.
///
/// A saturated triple is far from where Newton's method may safely start, so it is approached from the grey of the same
/// mean in ever smaller steps of saturation, each beginning where the last one ended.
fn smoothest(triple: [f64; 3]) -> Option<Spectrum> {
    // Black and full parts lie at infinity; this close is invisible.
    let triple = triple.map(|part| part.clamp(1e-5, 1.0 - 1e-5));
    let grey = triple.iter().sum::<f64>() / 3.0;
    let mut unknowns = [0.0; UNKNOWNS];
    unknowns[..BANDS].fill((2.0 * grey - 1.0).atanh());

    let (mut reached, mut step) = (0.0f64, 1.0f64);
    while reached < 1.0 {
        let saturation = (reached + step).min(1.0);
        match newton(unknowns, triple.map(|part| grey + saturation * (part - grey))) {
            Some(found) => {
                (unknowns, reached) = (found, saturation);
                step *= 2.0;
            }
            None if step > 1e-3 => step /= 2.0,
            None => return None,
        }
    }
    Some(Spectrum::from_fn(|band| {
        ((1.0 + unknowns[band].tanh()) / 2.0) as f32
    }))
}

/// Newton's method on the conditions for least slope (Burns 2020, the "LHTSS" problem).
fn newton(mut unknowns: [f64; UNKNOWNS], triple: [f64; 3]) -> Option<[f64; UNKNOWNS]> {
    let weights = &*WEIGHTS;
    let mut residual = conditions(&unknowns, triple, weights);
    for _ in 0..40 {
        let size = norm(&residual);
        if size < 1e-9 {
            return Some(unknowns);
        }
        let step = solve(jacobian(&unknowns, weights), residual)?;
        // A full Newton step may overshoot far from the solution; halve it until the conditions are better met.
        let mut part = (4.0 / step[..BANDS].iter().fold(4.0, |most: f64, s| most.max(s.abs()))).min(1.0);
        loop {
            let tried: [f64; UNKNOWNS] = std::array::from_fn(|k| unknowns[k] - part * step[k]);
            let left = conditions(&tried, triple, weights);
            if norm(&left) < size || part < 1e-4 {
                (unknowns, residual) = (tried, left);
                break;
            }
            part /= 2.0;
        }
    }
    None
}

fn norm(vector: &[f64; UNKNOWNS]) -> f64 {
    vector.iter().map(|value| value * value).sum::<f64>().sqrt()
}

/// How strongly neighbouring bands pull on each other: the squared slope goes with the inverse of their distance.
fn stiffness(band: usize) -> f64 {
    20.0 / (centre_nm(band + 1) - centre_nm(band))
}

/// First and second derivative of (1 + tanh z) / 2.
fn derivatives(z: f64) -> (f64, f64) {
    let sech2 = 1.0 / z.cosh().powi(2);
    (sech2 / 2.0, -sech2 * z.tanh())
}

/// What must vanish: the gradient of the Lagrangian, and the miss of the triple.
fn conditions(unknowns: &[f64; UNKNOWNS], triple: [f64; 3], weights: &[[f64; BANDS]; 3]) -> [f64; UNKNOWNS] {
    let mut left = [0.0; UNKNOWNS];
    for band in 0..BANDS - 1 {
        let pull = 2.0 * stiffness(band) * (unknowns[band + 1] - unknowns[band]);
        left[band] -= pull;
        left[band + 1] += pull;
    }
    for band in 0..BANDS {
        let (first, _) = derivatives(unknowns[band]);
        for channel in 0..3 {
            left[band] += first * weights[channel][band] * unknowns[BANDS + channel];
            left[BANDS + channel] += weights[channel][band] * (1.0 + unknowns[band].tanh()) / 2.0;
        }
    }
    for channel in 0..3 {
        left[BANDS + channel] -= triple[channel];
    }
    left
}

fn jacobian(unknowns: &[f64; UNKNOWNS], weights: &[[f64; BANDS]; 3]) -> [[f64; UNKNOWNS]; UNKNOWNS] {
    let mut matrix = [[0.0; UNKNOWNS]; UNKNOWNS];
    for band in 0..BANDS - 1 {
        let pull = 2.0 * stiffness(band);
        matrix[band][band] += pull;
        matrix[band + 1][band + 1] += pull;
        matrix[band][band + 1] -= pull;
        matrix[band + 1][band] -= pull;
    }
    for band in 0..BANDS {
        let (first, second) = derivatives(unknowns[band]);
        for channel in 0..3 {
            matrix[band][band] += second * weights[channel][band] * unknowns[BANDS + channel];
            matrix[band][BANDS + channel] = first * weights[channel][band];
            matrix[BANDS + channel][band] = first * weights[channel][band];
        }
    }
    matrix
}

/// Gaussian elimination with row exchange; none if the matrix has no inverse.
fn solve(mut matrix: [[f64; UNKNOWNS]; UNKNOWNS], mut right: [f64; UNKNOWNS]) -> Option<[f64; UNKNOWNS]> {
    for column in 0..UNKNOWNS {
        let pivot = (column..UNKNOWNS)
            .max_by(|a, b| matrix[*a][column].abs().total_cmp(&matrix[*b][column].abs()))?;
        matrix.swap(column, pivot);
        right.swap(column, pivot);
        let pivot_row = matrix[column];
        if !pivot_row[column].is_finite() || pivot_row[column].abs() < 1e-300 {
            return None;
        }
        for row in column + 1..UNKNOWNS {
            let factor = matrix[row][column] / pivot_row[column];
            for (value, pivot_value) in matrix[row].iter_mut().zip(pivot_row) {
                *value -= factor * pivot_value;
            }
            right[row] -= factor * right[column];
        }
    }
    let mut solution = [0.0; UNKNOWNS];
    for row in (0..UNKNOWNS).rev() {
        let known: f64 = (row + 1..UNKNOWNS).map(|k| matrix[row][k] * solution[k]).sum();
        solution[row] = (right[row] - known) / matrix[row][row];
    }
    Some(solution)
}
