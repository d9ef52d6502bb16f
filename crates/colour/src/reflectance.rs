//! Reflectances that can exist.

use crate::{BANDS, ColourError, LightColour, SpectralCurve, Spectrum};

/// The part of the light that a matt surface sends back, 0 to 1 in every band.
///
/// ```
/// use colour::{Reflectance, Spectrum};
/// assert!(Reflectance::new(Spectrum::splat(0.18)).is_ok());
/// assert!(Reflectance::new(Spectrum::splat(1.2)).is_err());
/// ```
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Reflectance(Spectrum);

impl Reflectance {
    /// Black: nothing comes back.
    pub const BLACK: Self = Self(Spectrum::ZERO);
    /// The perfect white diffuser.
    pub const WHITE: Self = Self(Spectrum::ONE);

    /// Checks every band.
    ///
    /// # Errors
    /// Refuses what is below 0, above 1 or not a number.
    pub fn new(spectrum: Spectrum) -> Result<Self, ColourError> {
        match (0..BANDS).find(|&band| !(0.0..=1.0).contains(&spectrum.0[band])) {
            Some(band) => Err(ColourError::NotAReflectance {
                band,
                value: spectrum.0[band],
            }),
            None => Ok(Self(spectrum)),
        }
    }

    /// The same in every band: a grey.
    ///
    /// # Errors
    /// Refuses what is below 0, above 1 or not a number.
    pub fn grey(value: f32) -> Result<Self, ColourError> {
        Self::new(Spectrum::splat(value))
    }

    /// Band averages of a measured curve.
    ///
    /// # Errors
    /// Refuses a curve whose averages leave 0 to 1.
    pub fn from_curve(curve: &SpectralCurve) -> Result<Self, ColourError> {
        Self::new(curve.band_average())
    }

    /// Keeps a model's small excursions inside 0 to 1; for values that are reflectances by construction.
    pub(crate) fn clamped(spectrum: Spectrum) -> Self {
        Self(spectrum.map(|value| {
            if value.is_nan() {
                0.0
            } else {
                value.clamp(0.0, 1.0)
            }
        }))
    }

    /// The sixteen values.
    pub const fn spectrum(&self) -> &Spectrum {
        &self.0
    }

    /// The luminous reflectance under a light.
    pub fn luminous(&self, light: &LightColour) -> f64 {
        f64::from(light.luminous(&self.0))
    }

    /// A mixture: 0 gives this one, 1 the other.
    ///
    /// # Errors
    /// Refuses a part outside 0 to 1.
    pub fn mixed(&self, other: &Self, part: f32) -> Result<Self, ColourError> {
        Self::new(self.0.lerp(&other.0, part))
    }
}

impl From<Reflectance> for Spectrum {
    fn from(reflectance: Reflectance) -> Self {
        reflectance.0
    }
}
