//! The colour of a source, ready to meet transfer spectra.

use crate::bands::{BAND_EDGES_NM, band_of};
use crate::cct::{cct_duv, planckian_normal_offset};
use crate::observer::{daylight_curve, illuminant_curve, planck_curve};
use crate::{BANDS, Chromaticity, ColourError, SpectralCurve, Spectrum, Xyz};
use units::{Duv, Kelvin};

/// The observer as one source sees it: XYZ weights for each band, averaged over the band with the source's own power.
///
/// A plain average would be wrong for a lamp with a line at the edge of a band; this way the colour of the lamp itself,
/// and of anything flat within each band, is exact.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct BandObserver {
    /// Weights for X.
    pub x: Spectrum,
    /// Weights for Y.
    pub y: Spectrum,
    /// Weights for Z.
    pub z: Spectrum,
}

/// A source's colour: how much it gives in each band, and its observer.
///
/// The scale is luminous: a transfer spectrum of [`Spectrum::ONE`] has Y = 1, so Y of any transfer is the luminous part
/// that it passes on.
///
/// ```
/// use colour::{LightColour, Spectrum};
/// let lamp = LightColour::illuminant("FL2").expect("a CIE illuminant");
/// let seen = lamp.xyz(&Spectrum::splat(0.5));
/// assert!((seen.y - 0.5).abs() < 1e-6);
/// ```
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct LightColour {
    /// Power in each band.
    pub bands: Spectrum,
    /// The observer averaged with this source.
    pub observer: BandObserver,
}

impl LightColour {
    /// From a curve of spectral power in any unit.
    ///
    /// # Errors
    /// Refuses a curve that is negative somewhere or gives no visible light.
    pub fn from_curve(power: &SpectralCurve) -> Result<Self, ColourError> {
        if power.values().iter().any(|value| *value < 0.0) {
            return Err(ColourError::NoLight);
        }
        let mut energy = [0.0f64; BANDS];
        let mut seen = [[0.0f64; 3]; BANDS];
        let mut luminous = 0.0;
        for (nm, power, weights) in power.observed_rows() {
            let band = band_of(nm);
            // The tails count for what is seen but not for the power in the band, so that `bands` is what a meter of
            // that band would read.
            if (BAND_EDGES_NM[0]..BAND_EDGES_NM[BANDS]).contains(&nm) {
                energy[band] += power;
            }
            for (sum, weight) in seen[band].iter_mut().zip(weights) {
                *sum += power * weight;
            }
            luminous += power * weights[1];
        }
        let visible: f64 = energy.iter().sum();
        if !(luminous > 0.0 && visible > 0.0 && luminous.is_finite()) {
            return Err(ColourError::NoLight);
        }
        // A band without power has no average; it never counts, because its power is zero.
        let weight = |k: usize| {
            Spectrum::from_fn(|b| {
                if energy[b] > 0.0 {
                    (seen[b][k] / energy[b]) as f32
                } else {
                    0.0
                }
            })
        };
        Ok(Self {
            bands: Spectrum::from_fn(|band| (energy[band] / luminous) as f32),
            observer: BandObserver {
                x: weight(0),
                y: weight(1),
                z: weight(2),
            },
        })
    }

    /// A Planckian radiator, such as a tungsten lamp.
    pub fn planck(kelvin: Kelvin) -> Self {
        Self::from_curve(&planck_curve(kelvin)).expect("a radiator of 1000 K and more is visible")
    }

    /// A phase of daylight (CIE daylight series).
    ///
    /// # Errors
    /// Refuses temperatures outside 4000 to 25 000 K.
    pub fn daylight(kelvin: Kelvin) -> Result<Self, ColourError> {
        Self::from_curve(&daylight_curve(kelvin)?)
    }

    /// A CIE or ISO illuminant by name; see [`crate::illuminant_names`].
    pub fn illuminant(name: &str) -> Option<Self> {
        Self::from_curve(illuminant_curve(name)?).ok()
    }

    /// A xenon flash tube of a colour temperature; see [`crate::flash_curve`].
    ///
    /// # Errors
    /// Refuses temperatures outside 4000 to 25 000 K.
    pub fn flash(kelvin: Kelvin) -> Result<Self, ColourError> {
        Self::from_curve(&crate::flash_curve(kelvin)?)
    }

    /// A lamp known only by its colour temperature and Duv, such as "4000 K, Duv +0.010".
    ///
    /// A Planckian radiator is multiplied by a smooth curve, exp(a g + b t) with g a bump in the green and t a straight
    /// tilt, whose two numbers are found by Newton's method so that both figures are met. The shape is ours: of the many
    /// lamps with these figures it is a smooth one.
    ///
    /// # Errors
    /// Refuses what no such lamp can reach.
    pub fn with_duv(kelvin: Kelvin, duv: Duv) -> Result<Self, ColourError> {
        let impossible = || ColourError::NoSuchLight {
            kelvin: kelvin.value(),
            duv: duv.value(),
        };
        if duv.value().is_nan() || duv.value().abs() > 0.05 {
            return Err(impossible());
        }
        let radiator = planck_curve(kelvin);
        let target = planckian_normal_offset(kelvin, duv);
        let lamp = |green: f64, tilt: f64| {
            radiator.map(|nm, power| {
                let bump = (-0.5 * ((nm - 545.0) / 45.0f64).powi(2)).exp();
                power * (green * bump + tilt * (nm - 560.0) / 100.0).exp()
            })
        };
        let miss = |green: f64, tilt: f64| -> Option<[f64; 2]> {
            let uv = lamp(green, tilt).ok()?.light_xyz().chromaticity()?.uv();
            Some([uv.u - target.u, uv.v - target.v])
        };
        let (mut green, mut tilt) = (0.0, 0.0);
        for _ in 0..30 {
            let at = miss(green, tilt).ok_or_else(impossible)?;
            if at[0].hypot(at[1]) < 1e-10 {
                return Self::from_curve(&lamp(green, tilt)?);
            }
            let step = 1e-5;
            let by_green = miss(green + step, tilt).ok_or_else(impossible)?.map(|m| m / step);
            let by_tilt = miss(green, tilt + step).ok_or_else(impossible)?.map(|m| m / step);
            let base = at.map(|m| m / step);
            let (a, c) = (by_green[0] - base[0], by_green[1] - base[1]);
            let (b, d) = (by_tilt[0] - base[0], by_tilt[1] - base[1]);
            let determinant = a * d - b * c;
            // Short steps keep Newton's method from leaping into lamps that do not exist.
            let limit = |change: f64| change.clamp(-1.0, 1.0);
            green -= limit((at[0] * d - at[1] * b) / determinant);
            tilt -= limit((at[1] * a - at[0] * c) / determinant);
        }
        Err(impossible())
    }

    /// What is seen of this light after a transfer: reflections, filters, falloff.
    pub fn xyz(&self, transfer: &Spectrum) -> Xyz {
        let arriving = self.bands * *transfer;
        let weigh = |weights: &Spectrum| -> f64 {
            arriving
                .0
                .iter()
                .zip(weights.0)
                .map(|(power, weight)| f64::from(*power) * f64::from(weight))
                .sum()
        };
        Xyz::new(
            weigh(&self.observer.x),
            weigh(&self.observer.y),
            weigh(&self.observer.z),
        )
    }

    /// The luminous part that a transfer passes on: Y alone, quickly.
    #[inline]
    pub fn luminous(&self, transfer: &Spectrum) -> f32 {
        self.luminous_weights().dot(transfer)
    }

    /// How much each band counts for luminance under this light; they add up to 1.
    #[inline]
    pub fn luminous_weights(&self) -> Spectrum {
        self.bands * self.observer.y
    }

    /// The light's own colour with Y = 1.
    pub fn white(&self) -> Xyz {
        self.xyz(&Spectrum::ONE)
    }

    /// The light's chromaticity.
    pub fn chromaticity(&self) -> Chromaticity {
        let Xyz { x, y, z } = self.white();
        Chromaticity {
            x: x / (x + y + z),
            y: y / (x + y + z),
        }
    }

    /// Colour temperature and Duv; none if the light is too far from white to have one.
    pub fn cct_duv(&self) -> Option<(Kelvin, Duv)> {
        cct_duv(self.chromaticity())
    }
}
