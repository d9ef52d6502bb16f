//! Light on the sensor: exposure in its plane, and where it saturates (ISO 12232).

use std::f64::consts::PI;
use units::{FNumber, Iso, Luminance, LuminousExposure, Millimetres, ShutterTime};

/// The linear value of mid-grey, 1 for a perfect white lit as metered: an 18 % card.
pub const MID_GREY: f64 = 0.18;

/// The linear value at which the sensor clips, 1 for a perfect white lit as metered: 7.8 times mid-grey.
///
/// ISO 12232 puts mid-grey at H = 10/S and saturation at 78/S, which is 2.96 stops above an 18 % card.
pub const RAW_CLIP: f64 = MID_GREY * 7.8;

/// Exposure of the sensor at which mid-grey is rendered as 118 of 255 in sRGB: 10/S lx s (ISO 12232, SOS).
///
/// ```
/// assert_eq!(camera::midtone_exposure("ISO 200".parse()?).value(), 0.05);
/// # Ok::<(), units::UnitError>(())
/// ```
pub fn midtone_exposure(iso: Iso) -> LuminousExposure {
    LuminousExposure(10.0 / iso.value())
}

/// Exposure of the sensor at which it saturates: 78/S lx s (ISO 12232, saturation-based speed).
///
/// ```
/// assert_eq!(camera::saturation_exposure("ISO 200".parse()?).value(), 0.39);
/// # Ok::<(), units::UnitError>(())
/// ```
pub fn saturation_exposure(iso: Iso) -> LuminousExposure {
    LuminousExposure(78.0 / iso.value())
}

/// A lens as a carrier of light.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Lens {
    /// Focal length.
    pub focal: Millimetres,
    /// Part of the light that the glass passes, 0 to 1; typically 0.9 (ISO 12232).
    pub transmittance: f64,
    /// Part that vignetting leaves, 0 to 1; typically 0.98 (ISO 12232).
    pub vignetting: f64,
}

impl Lens {
    /// Exposure of the sensor: (π/4)·T·v·cos⁴θ·L·t·(F/i)² / N² (ISO 12232), without flare.
    ///
    /// `distance_m`: object distance in metres, more than the focal length, may be infinite; `off_axis_deg`: angle θ of
    /// the ray from the axis, 0 to 90.
    ///
    /// ```
    /// use camera::Lens;
    /// use units::{Luminance, Millimetres};
    /// let lens = Lens { focal: Millimetres::new(50.0)?, transmittance: 0.9, vignetting: 0.98 };
    /// let h = lens.exposure(Luminance(4000.0), "f/8".parse()?, "1/125".parse()?, 5.0, 10.0);
    /// assert!((h.value() - 0.3118206).abs() < 1e-6);
    /// # Ok::<(), units::UnitError>(())
    /// ```
    pub fn exposure(
        &self,
        luminance: Luminance,
        aperture: FNumber,
        shutter: ShutterTime,
        distance_m: f64,
        off_axis_deg: f64,
    ) -> LuminousExposure {
        // Thin lens: focal length over image distance.
        let nearness = 1.0 - self.focal.metres() / distance_m;
        let passed =
            PI / 4.0 * self.transmittance * self.vignetting * off_axis_deg.to_radians().cos().powi(4);
        let wide_open = nearness.powi(2) / aperture.value().powi(2);
        LuminousExposure(passed * luminance.value() * shutter.value() * wide_open)
    }
}
