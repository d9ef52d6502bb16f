//! Sixteen numbers, one for each band.

use std::ops::{Add, AddAssign, Mul, MulAssign, Sub, SubAssign};

/// The number of bands.
pub const BANDS: usize = 16;

/// One value for each of the [`crate::bands`]: a reflectance, a transmittance, or what arrives along a path.
///
/// Multiplication is band by band, which is what reflection and filtering do. The type fills one cache line, and its
/// operations are plain loops so that the compiler turns them into vector instructions.
///
/// ```
/// use colour::Spectrum;
/// let twice_bounced = Spectrum::splat(0.8) * Spectrum::splat(0.5);
/// assert!((twice_bounced.mean() - 0.4).abs() < 1e-6);
/// ```
#[derive(Clone, Copy, Debug, PartialEq)]
#[repr(C, align(64))]
pub struct Spectrum(pub [f32; BANDS]);

impl Spectrum {
    /// Nothing in any band.
    pub const ZERO: Self = Self::splat(0.0);
    /// One in every band: a perfect white, or a path that loses nothing.
    pub const ONE: Self = Self::splat(1.0);

    /// The same value in every band.
    #[inline]
    pub const fn splat(value: f32) -> Self {
        Self([value; BANDS])
    }

    /// A value for each band by its index.
    #[inline]
    pub fn from_fn(value: impl FnMut(usize) -> f32) -> Self {
        Self(std::array::from_fn(value))
    }

    /// The sum over the bands.
    #[inline]
    pub fn sum(&self) -> f32 {
        // Four running sums leave the compiler free to use vector additions.
        let mut sums = [0.0f32; 4];
        for four in self.0.chunks_exact(4) {
            for (sum, value) in sums.iter_mut().zip(four) {
                *sum += value;
            }
        }
        (sums[0] + sums[1]) + (sums[2] + sums[3])
    }

    /// The largest value.
    #[inline]
    pub fn max(&self) -> f32 {
        self.0.iter().copied().fold(f32::NEG_INFINITY, f32::max)
    }

    /// The smallest value.
    #[inline]
    pub fn min(&self) -> f32 {
        self.0.iter().copied().fold(f32::INFINITY, f32::min)
    }

    /// The plain mean over the bands (not weighted by their widths).
    #[inline]
    pub fn mean(&self) -> f32 {
        self.sum() / BANDS as f32
    }

    /// The sum over the bands of the products.
    #[inline]
    pub fn dot(&self, other: &Self) -> f32 {
        (*self * *other).sum()
    }

    /// True if no band is infinite or not a number.
    #[inline]
    pub fn is_finite(&self) -> bool {
        self.0.iter().all(|value| value.is_finite())
    }

    /// The function applied to every band.
    #[inline]
    pub fn map(&self, function: impl Fn(f32) -> f32) -> Self {
        Self(self.0.map(function))
    }

    /// The function applied to each pair of bands.
    #[inline]
    pub fn zip(&self, other: &Self, function: impl Fn(f32, f32) -> f32) -> Self {
        Self::from_fn(|band| function(self.0[band], other.0[band]))
    }

    /// Between two spectra: 0 gives this one, 1 the other.
    #[inline]
    pub fn lerp(&self, other: &Self, part: f32) -> Self {
        self.zip(other, |a, b| a + (b - a) * part)
    }
}

impl Default for Spectrum {
    fn default() -> Self {
        Self::ZERO
    }
}

impl Add for Spectrum {
    type Output = Self;
    #[inline]
    fn add(mut self, other: Self) -> Self {
        self += other;
        self
    }
}

impl AddAssign for Spectrum {
    #[inline]
    fn add_assign(&mut self, other: Self) {
        for (value, other) in self.0.iter_mut().zip(other.0) {
            *value += other;
        }
    }
}

impl Sub for Spectrum {
    type Output = Self;
    #[inline]
    fn sub(mut self, other: Self) -> Self {
        self -= other;
        self
    }
}

impl SubAssign for Spectrum {
    #[inline]
    fn sub_assign(&mut self, other: Self) {
        for (value, other) in self.0.iter_mut().zip(other.0) {
            *value -= other;
        }
    }
}

impl Mul for Spectrum {
    type Output = Self;
    #[inline]
    fn mul(mut self, other: Self) -> Self {
        self *= other;
        self
    }
}

impl MulAssign for Spectrum {
    #[inline]
    fn mul_assign(&mut self, other: Self) {
        for (value, other) in self.0.iter_mut().zip(other.0) {
            *value *= other;
        }
    }
}

impl Mul<f32> for Spectrum {
    type Output = Self;
    #[inline]
    fn mul(mut self, factor: f32) -> Self {
        self *= factor;
        self
    }
}

impl Mul<Spectrum> for f32 {
    type Output = Spectrum;
    #[inline]
    fn mul(self, spectrum: Spectrum) -> Spectrum {
        spectrum * self
    }
}

impl MulAssign<f32> for Spectrum {
    #[inline]
    fn mul_assign(&mut self, factor: f32) {
        for value in &mut self.0 {
            *value *= factor;
        }
    }
}

impl std::iter::Sum for Spectrum {
    fn sum<I: Iterator<Item = Self>>(spectra: I) -> Self {
        spectra.fold(Self::ZERO, |total, spectrum| total + spectrum)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn ramp() -> Spectrum {
        Spectrum::from_fn(|band| band as f32)
    }

    #[test]
    fn operations_work_band_by_band() {
        assert_eq!((ramp() + Spectrum::ONE).0[3], 4.0);
        assert_eq!((ramp() - Spectrum::ONE).0[3], 2.0);
        assert_eq!((ramp() * ramp()).0[3], 9.0);
        assert_eq!((2.0 * ramp()).0[3], 6.0);
        assert_eq!(ramp().lerp(&Spectrum::ZERO, 0.5).0[4], 2.0);
    }

    #[test]
    fn summaries() {
        assert_eq!(ramp().sum(), 120.0);
        assert_eq!(ramp().mean(), 7.5);
        assert_eq!(ramp().max(), 15.0);
        assert_eq!(ramp().min(), 0.0);
        assert_eq!(ramp().dot(&Spectrum::splat(2.0)), 240.0);
        assert_eq!([ramp(), ramp()].into_iter().sum::<Spectrum>(), ramp() * 2.0);
    }

    #[test]
    fn one_bad_band_is_noticed() {
        assert!(ramp().is_finite());
        for bad in [f32::NAN, f32::INFINITY] {
            assert!(!Spectrum::from_fn(|band| if band == 9 { bad } else { 0.0 }).is_finite());
        }
    }

    #[test]
    fn one_spectrum_is_one_cache_line() {
        assert_eq!((size_of::<Spectrum>(), align_of::<Spectrum>()), (64, 64));
    }
}
