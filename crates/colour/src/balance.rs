//! What a camera set to a kelvin and a tint takes for white.

use crate::cct::planckian_normal_offset;
use crate::{ChromaticTransform, D65_WHITE, Matrix3, Xyz};
use units::{Duv, Kelvin};

/// A white balance: a colour temperature and a tint, the tint as distance from the Planckian locus (green positive).
///
/// A light of this temperature and Duv is rendered neutral.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct WhiteBalance {
    /// Colour temperature set.
    pub kelvin: Kelvin,
    /// Tint as Duv of the light that will look neutral.
    pub tint: Duv,
}

impl WhiteBalance {
    /// The white, with Y = 1.
    pub fn white(&self) -> Xyz {
        planckian_normal_offset(self.kelvin, self.tint)
            .chromaticity()
            .xyz()
    }

    /// The matrix from XYZ as lit to XYZ as displayed, with D65 as the display's white (Bradford).
    ///
    /// ```
    /// use colour::{D65_WHITE, WhiteBalance};
    /// use units::{Duv, Kelvin};
    /// let balance = WhiteBalance { kelvin: Kelvin::new(5000.0)?, tint: Duv(0.0) };
    /// let shown = balance.to_d65().apply(balance.white());
    /// assert!((shown.z - D65_WHITE.z).abs() < 1e-9);
    /// # Ok::<(), units::UnitError>(())
    /// ```
    pub fn to_d65(&self) -> Matrix3 {
        ChromaticTransform::Bradford.adaptation(self.white(), D65_WHITE)
    }

    /// The balance that makes a light neutral; none if its colour has no temperature.
    pub fn for_light(white: Xyz) -> Option<Self> {
        let (kelvin, tint) = crate::cct_duv(white.chromaticity()?)?;
        Some(Self { kelvin, tint })
    }
}
