//! Exposure in stops: what the settings ask for against what arrives.

use light::INCIDENT_CONSTANT;
use units::{Ev, FNumber, Illuminance, Iso, LuminousExposure, Metres, ShutterTime, Stops};

/// The three settings that decide exposure.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Settings {
    /// Aperture, true value.
    pub aperture: FNumber,
    /// Shutter time.
    pub shutter: ShutterTime,
    /// Sensitivity.
    pub iso: Iso,
}

impl Settings {
    /// The light level, as an exposure value at ISO 100, for which these settings are right:
    /// 2 log₂ N − log₂ t − log₂(S/100) (ISO 2720:1974).
    ///
    /// ```
    /// let sunny = camera::Settings { aperture: "f/16".parse()?, shutter: "1/125".parse()?, iso: "ISO 100".parse()? };
    /// assert!((sunny.ev().value() - 15.0).abs() < 1e-12);
    /// # Ok::<(), units::UnitError>(())
    /// ```
    pub fn ev(&self) -> Ev {
        let [aperture, seconds, speed] = [self.aperture.value(), self.shutter.value(), self.iso.value()];
        Ev(2.0 * aperture.log2() - seconds.log2() - (speed / 100.0).log2())
    }
}

/// The illuminance in lux on a flat receptor that an exposure value at ISO 100 stands for: C/100 · 2^EV = 2.5 · 2^EV
/// (ISO 2720:1974).
///
/// ```
/// assert_eq!(camera::illuminance_of(units::Ev(12.0)).value(), 10240.0);
/// ```
pub fn illuminance_of(ev: Ev) -> Illuminance {
    Illuminance(INCIDENT_CONSTANT / 100.0 * ev.value().exp2())
}

/// The exposure value at ISO 100 of an illuminance on a flat receptor; minus infinity in darkness.
///
/// ```
/// assert!((camera::ev_of(units::Illuminance(40.0)).value() - 4.0).abs() < 1e-12);
/// ```
pub fn ev_of(illuminance: Illuminance) -> Ev {
    Ev((illuminance.value() * 100.0 / INCIDENT_CONSTANT).log2())
}

/// How far steady light exposes from an exact incident reading, in stops; minus infinity in darkness.
pub fn ambient_exposure(illuminance: Illuminance, settings: &Settings) -> Stops {
    dose_exposure(illuminance * settings.shutter, settings.aperture, settings.iso)
}

/// How far a dose exposes from an exact incident reading, whatever it is made of: log₂(Q·S / (C·N²)).
pub(crate) fn dose_exposure(dose: LuminousExposure, aperture: FNumber, iso: Iso) -> Stops {
    Stops::from_factor(dose_factor(dose, aperture, iso))
}

fn dose_factor(dose: LuminousExposure, aperture: FNumber, iso: Iso) -> f64 {
    dose.value() * iso.value() / (INCIDENT_CONSTANT * aperture.value().powi(2))
}

/// The true f-number that exposes steady light exactly: √(E·t·S / C). It may lie beyond any lens.
///
/// ```
/// use units::Illuminance;
/// let aperture = camera::aperture_for_ambient(Illuminance(2560.0), "1/125".parse()?, "ISO 100".parse()?);
/// assert!((aperture - 8f64.sqrt()).abs() < 1e-12);
/// # Ok::<(), units::UnitError>(())
/// ```
pub fn aperture_for_ambient(illuminance: Illuminance, shutter: ShutterTime, iso: Iso) -> f64 {
    aperture_for_dose(illuminance * shutter, iso)
}

pub(crate) fn aperture_for_dose(dose: LuminousExposure, iso: Iso) -> f64 {
    (dose.value() * iso.value() / INCIDENT_CONSTANT).sqrt()
}

/// The linear value of a matt surface in the picture, 1 for a perfect white lit exactly as metered:
/// ρ·Q·S / (C·N²). The reflectance is from 0 to 1.
///
/// ```
/// use units::{FNumber, Iso, LuminousExposure};
/// let grey = camera::linear_value(0.18, LuminousExposure(40.0), FNumber::new(4.0)?, Iso::new(100.0)?);
/// assert!((grey - 0.18).abs() < 1e-12);
/// # Ok::<(), units::UnitError>(())
/// ```
pub fn linear_value(reflectance: f64, dose: LuminousExposure, aperture: FNumber, iso: Iso) -> f64 {
    reflectance * dose_factor(dose, aperture, iso)
}

/// The exposure of several lights together, each given in stops; none if there are none.
///
/// The amounts add, never the stops: two lights at 0 make +1.
///
/// ```
/// use camera::add_exposures;
/// use units::Stops;
/// assert_eq!(add_exposures(&[Stops(0.0), Stops(0.0)]), Some(Stops(1.0)));
/// assert_eq!(add_exposures(&[]), None);
/// ```
pub fn add_exposures(parts: &[Stops]) -> Option<Stops> {
    (!parts.is_empty()).then(|| Stops::from_factor(parts.iter().map(|part| part.factor()).sum()))
}

/// Ambient light and flash in one exposure, each in stops from an exact incident reading.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Mix {
    /// Ambient light alone.
    pub ambient: Stops,
    /// Flash alone.
    pub flash: Stops,
}

impl Mix {
    /// Both together.
    pub fn total(&self) -> Stops {
        Stops::from_factor(self.ambient.factor() + self.flash.factor())
    }

    /// The flash's share of the light, 0 to 1; not a number when there is no light at all.
    ///
    /// ```
    /// use units::Stops;
    /// let mix = camera::Mix { ambient: Stops(-2.0), flash: Stops(0.0) };
    /// assert_eq!(mix.flash_share(), 0.8);
    /// ```
    pub fn flash_share(&self) -> f64 {
        self.flash.factor() / (self.ambient.factor() + self.flash.factor())
    }

    /// Lighting ratio of what both reach to what the ambient light alone reaches, as a number over one.
    pub fn ratio_to_ambient(&self) -> f64 {
        (self.total() - self.ambient).factor()
    }
}

/// The lighting ratio of a face: key side over shadow side, (key + fill) / fill, as a number over one.
///
/// ```
/// use units::Illuminance;
/// assert_eq!(camera::lighting_ratio(Illuminance(2000.0), Illuminance(1000.0)), 3.0);
/// ```
pub fn lighting_ratio(key: Illuminance, fill: Illuminance) -> f64 {
    (key + fill) / fill
}

/// What moving a small light from one distance to another does to the exposure: 2 log₂(from / to).
///
/// ```
/// use units::{Metres, Stops};
/// assert_eq!(camera::inverse_square(Metres::new(4.0)?, Metres::new(1.0)?), Stops(4.0));
/// # Ok::<(), units::UnitError>(())
/// ```
pub fn inverse_square(from: Metres, to: Metres) -> Stops {
    Stops(2.0 * (from.value() / to.value()).log2())
}

/// How much a small light loses over a depth behind its nearest subject, in stops (positive).
///
/// ```
/// use units::Metres;
/// let loss = camera::falloff(Metres::new(2.0)?, Metres::new(1.0)?);
/// assert!((loss.value() - 1.169925).abs() < 1e-6);
/// # Ok::<(), units::UnitError>(())
/// ```
pub fn falloff(nearest: Metres, depth: Metres) -> Stops {
    Stops(2.0 * (1.0 + depth.value() / nearest.value()).log2())
}
