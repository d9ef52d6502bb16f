//! The flash's dose: guide numbers, energy, and the aperture that they ask for.

use crate::exposure::{aperture_for_dose, dose_exposure};
use std::f64::consts::PI;
use units::{Degrees, FNumber, IntensityTime, Iso, LuminousExposure, PowerFraction, Stops};

/// How far a flash exposes from an exact incident reading, in stops; minus infinity without light.
///
/// ```
/// use units::{LuminousExposure, Stops};
/// let under = camera::flash_exposure(LuminousExposure(10.0), "f/4".parse()?, "ISO 200".parse()?);
/// assert_eq!(under, Stops(-1.0));
/// # Ok::<(), units::UnitError>(())
/// ```
pub fn flash_exposure(dose: LuminousExposure, aperture: FNumber, iso: Iso) -> Stops {
    dose_exposure(dose, aperture, iso)
}

/// The true f-number that exposes a flash exactly: √(Q·S / C). It may lie beyond any lens.
///
/// ```
/// use units::LuminousExposure;
/// let aperture = camera::aperture_for_flash(LuminousExposure(125.0), "ISO 100".parse()?);
/// assert!((aperture - 7.0710678).abs() < 1e-6);
/// # Ok::<(), units::UnitError>(())
/// ```
pub fn aperture_for_flash(dose: LuminousExposure, iso: Iso) -> f64 {
    aperture_for_dose(dose, iso)
}

/// The guide number in metres of a flash, √(I·S / C): f-number times distance, facing it, with nothing but air between.
///
/// The constant is [`light::GUIDE_CONSTANT_MEASURED`] for what a meter finds, and [`light::GUIDE_CONSTANT_CLAIMED`] for
/// what a maker would print.
///
/// ```
/// use units::IntensityTime;
/// let gn = camera::guide_number_m(IntensityTime(2000.0), "ISO 100".parse()?, light::GUIDE_CONSTANT_MEASURED);
/// assert!((gn - 28.2842712).abs() < 1e-6);
/// # Ok::<(), units::UnitError>(())
/// ```
pub fn guide_number_m(intensity: IntensityTime, iso: Iso, constant: f64) -> f64 {
    (intensity.value() * iso.value() / constant).sqrt()
}

/// A guide number given at ISO 100 and full power, at another sensitivity and power: it goes with the root of both.
///
/// ```
/// use units::PowerFraction;
/// let gn = camera::guide_number_at(36.0, "ISO 400".parse()?, PowerFraction::from_fraction(1.0 / 16.0)?);
/// assert!((gn - 18.0).abs() < 1e-9);
/// # Ok::<(), units::UnitError>(())
/// ```
pub fn guide_number_at(full_at_iso_100: f64, iso: Iso, power: PowerFraction) -> f64 {
    full_at_iso_100 * (iso.value() / 100.0 * power.fraction()).sqrt()
}

/// Solid angle of a cone in steradians from its half angle, 0° to 180°: 2π(1 − cos α).
///
/// ```
/// let cone = camera::cone_solid_angle(units::Degrees::new(15.0)?);
/// assert!((cone - 0.2140943476).abs() < 1e-9);
/// # Ok::<(), units::UnitError>(())
/// ```
pub fn cone_solid_angle(half_angle: Degrees) -> f64 {
    // The sine of the half of it squared keeps its digits for narrow cones.
    4.0 * PI * (half_angle.radians() / 2.0).sin().powi(2)
}

/// A first guess at what a flash can do from the energy of its capacitor, evenly over a cone, in cd s.
///
/// `efficacy_lm_w`: lumens per watt of the tube, 30 to 40 for xenon (from memory); `optics`: the part of the light that
/// leaves the head, 0.7 to 0.8 (common practice).
///
/// ```
/// let intensity = camera::intensity_from_energy(76.0, 30.0, 0.75, units::Degrees::new(25.0)?);
/// assert!((intensity.value() - 2904.776652).abs() < 1e-5);
/// # Ok::<(), units::UnitError>(())
/// ```
pub fn intensity_from_energy(
    joules: f64,
    efficacy_lm_w: f64,
    optics: f64,
    half_angle: Degrees,
) -> IntensityTime {
    IntensityTime(joules * efficacy_lm_w * optics / cone_solid_angle(half_angle))
}
