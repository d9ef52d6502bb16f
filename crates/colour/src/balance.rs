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

/// One step of a camera's green-magenta scale, as Duv.
///
/// Makers do not say what a step is; 0.002 is ours, because it is the least that shows on skin (common
/// practice), and because some nine steps to either side then reach every ordinary lamp.
pub const TINT_STEP_DUV: f64 = 0.002;

/// Steps that cameras have to either side (common practice).
pub const MOST_TINT_STEPS: i32 = 9;

impl WhiteBalance {
    /// The tint nearest to a Duv that a camera can be set to.
    ///
    /// ```
    /// use colour::WhiteBalance;
    /// use units::Duv;
    /// assert!((WhiteBalance::nearest_tint(Duv(0.0093)).value() - 0.010).abs() < 1e-12);
    /// ```
    pub fn nearest_tint(duv: Duv) -> Duv {
        Duv(f64::from(Self::tint_steps(duv)) * TINT_STEP_DUV)
    }

    /// Steps of the green-magenta scale that make light of this Duv neutral: positive towards magenta, which
    /// is what green light needs.
    pub fn tint_steps(duv: Duv) -> i32 {
        let most = f64::from(MOST_TINT_STEPS);
        (duv.value() / TINT_STEP_DUV).round().clamp(-most, most) as i32
    }

    /// The tint in the notation of cameras: "M5" for five steps towards magenta, "G2" towards green; none at zero.
    ///
    /// ```
    /// use colour::WhiteBalance;
    /// use units::Duv;
    /// assert_eq!(WhiteBalance::tint_setting(Duv(0.010)).as_deref(), Some("M5"));
    /// assert_eq!(WhiteBalance::tint_setting(Duv(-0.004)).as_deref(), Some("G2"));
    /// assert_eq!(WhiteBalance::tint_setting(Duv(0.0)), None);
    /// ```
    pub fn tint_setting(duv: Duv) -> Option<String> {
        match Self::tint_steps(duv) {
            0 => None,
            steps if steps > 0 => Some(format!("M{steps}")),
            steps => Some(format!("G{}", -steps)),
        }
    }

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
