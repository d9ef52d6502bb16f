//! One gel, or several on top of one another.

use colour::{ColourError, SpectralCurve, cct_duv};
use units::{Duv, Kelvin, MiredShift, Stops};

/// A gel, or several on top of one another.
#[derive(Clone, Debug, PartialEq)]
pub struct Gel {
    name: String,
    transmittance: SpectralCurve,
    pub(super) strong: bool,
    layers: usize,
}

/// What a gel does to the light of a source.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct GelEffect {
    /// Colour temperature behind the gel.
    pub kelvin: Kelvin,
    /// Shift in mired, positive warmer.
    pub shift: MiredShift,
    /// Change of Duv, positive greener.
    pub duv: Duv,
    /// Light lost, in stops, positive.
    pub loss: Stops,
}

/// A gel that is not known or cannot be.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum GelError {
    /// No gel of the family has this name.
    #[error("no gel of this family is called \"{name}\"; there are {known}")]
    Unknown {
        /// As it was written.
        name: String,
        /// The names that there are.
        known: String,
    },
    /// The transmittance leaves 0 to 1.
    #[error("a gel lets through between nothing (0) and everything (1), not {0}")]
    NotATransmittance(f64),
}

impl Gel {
    /// A gel from its transmittance, 0 to 1.
    ///
    /// # Errors
    /// Refuses values outside 0 to 1.
    pub fn from_curve(name: &str, transmittance: SpectralCurve) -> Result<Self, GelError> {
        match transmittance.values().iter().find(|t| !(0.0..=1.0).contains(*t)) {
            Some(value) => Err(GelError::NotATransmittance(*value)),
            None => Ok(Gel {
                name: name.to_owned(),
                transmittance,
                strong: false,
                layers: 1,
            }),
        }
    }

    /// The filter that turns one radiator into another with the least loss: the quotient of their spectra,
    /// scaled so that it lets everything through at its best wavelength within 400 to 700 nm.
    ///
    /// No gel of dyes can be this good along the whole spectrum, but one that absorbs only where it must
    /// may lose less for the same shift.
    pub fn between_radiators(from: Kelvin, to: Kelvin) -> Self {
        let (from, to) = (colour::planck_curve(from), colour::planck_curve(to));
        let quotient = to
            .map(|nm, power| power / from.at(nm))
            .expect("a radiator gives some power at every visible wavelength");
        let best = quotient
            .wavelengths_nm()
            .iter()
            .zip(quotient.values())
            .filter(|(nm, _)| (400.0..=700.0).contains(*nm))
            .fold(0.0, |best: f64, (_, value)| best.max(*value));
        Gel {
            name: "ideal conversion".to_owned(),
            transmittance: quotient
                .map(|_, value| (value / best).min(1.0))
                .expect("a quotient of radiators is finite"),
            strong: false,
            layers: 1,
        }
    }

    /// The name: "1/2 CTO", or "1/2 CTO + 1/4 plus green" for a stack.
    pub fn name(&self) -> &str {
        &self.name
    }

    /// The same gel under another name.
    pub fn called(mut self, name: &str) -> Self {
        name.clone_into(&mut self.name);
        self
    }

    /// Transmittance over wavelength.
    pub fn transmittance(&self) -> &SpectralCurve {
        &self.transmittance
    }

    /// Whether it is a deep colour for an effect, and so nothing for skin.
    pub fn is_effect(&self) -> bool {
        self.strong
    }

    /// How many gels lie on top of one another.
    pub fn layers(&self) -> usize {
        self.layers
    }

    /// This gel with another on top: what passes one meets the other.
    pub fn with(&self, other: &Gel) -> Gel {
        let mut wavelengths: Vec<f64> = self.transmittance.wavelengths_nm().to_vec();
        wavelengths.extend(other.transmittance.wavelengths_nm());
        wavelengths.sort_by(f64::total_cmp);
        wavelengths.dedup();
        let values = wavelengths
            .iter()
            .map(|&nm| self.transmittance.at(nm) * other.transmittance.at(nm))
            .collect();
        Gel {
            name: format!("{} + {}", self.name, other.name),
            transmittance: SpectralCurve::new(wavelengths, values).expect("two curves make a curve"),
            strong: self.strong || other.strong,
            layers: self.layers + other.layers,
        }
    }

    /// The light of a source behind the gel.
    ///
    /// # Errors
    /// None for a source that gives light: kept because the curve is checked again.
    pub fn filter(&self, source: &SpectralCurve) -> Result<SpectralCurve, ColourError> {
        source.map(|nm, power| power * self.transmittance.at(nm))
    }

    /// Part of a source's light that passes, as the eye counts it.
    pub fn passes(&self, source: &SpectralCurve) -> f64 {
        let before = source.light_xyz().y;
        self.filter(source).map_or(0.0, |behind| behind.light_xyz().y) / before
    }

    /// What the gel does to a source; none when either light is too far from white to have a temperature.
    pub fn under(&self, source: &SpectralCurve) -> Option<GelEffect> {
        let (before, duv_before) = cct_duv(source.light_xyz().chromaticity()?)?;
        let behind = self.filter(source).ok()?.light_xyz();
        let (kelvin, duv) = cct_duv(behind.chromaticity()?)?;
        Some(GelEffect {
            kelvin,
            shift: kelvin.mired() - before.mired(),
            duv: Duv(duv.value() - duv_before.value()),
            loss: Stops(-(behind.y / source.light_xyz().y).log2()),
        })
    }
}
