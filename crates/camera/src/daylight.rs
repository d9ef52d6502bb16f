//! Daylight as photographers reckon it: sunny sixteen, and a clear sky by the height of the sun.

use crate::Settings;
use units::{Degrees, FNumber, Illuminance, Iso, ShutterTime, UnitError};

/// Sunny sixteen: f/16 with a shutter time of one over the sensitivity.
///
/// # Errors
/// Refuses a sensitivity whose reciprocal is no shutter time.
///
/// ```
/// let ev = camera::sunny_sixteen("ISO 100".parse()?)?.ev();
/// assert!((camera::illuminance_of(ev).value() - 64_000.0).abs() < 1e-6);
/// # Ok::<(), units::UnitError>(())
/// ```
pub fn sunny_sixteen(iso: Iso) -> Result<Settings, UnitError> {
    Ok(Settings {
        aperture: FNumber::new(16.0)?,
        shutter: ShutterTime::new(1.0 / iso.value())?,
        iso,
    })
}

/// Sun and blue sky on a clear day.
///
/// Mean design values of the IES (1984, Journal of the Illuminating Engineering Society 13(4), 381) at the sun's mean
/// distance: direct 127.5·exp(−0.21/sin h) klx, sky 0.8 + 15.5·√(sin h) klx. An instant can be half or twice as bright.
/// From 3° of altitude to the zenith; lower the path through the air is no longer 1/sin h.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ClearDaylight {
    /// Sun alone, on a surface that faces it.
    pub direct_normal: Illuminance,
    /// Sky alone, on the ground.
    pub sky_horizontal: Illuminance,
    /// Sun and sky on the ground.
    pub horizontal: Illuminance,
}

impl ClearDaylight {
    /// At an altitude of the sun; `None` outside 3° to 90°.
    ///
    /// ```
    /// let noon = camera::ClearDaylight::at(units::Degrees::new(40.0)?).expect("the sun is up");
    /// assert!((noon.horizontal.value() - 72_341.31).abs() < 0.01);
    /// # Ok::<(), units::UnitError>(())
    /// ```
    pub fn at(sun_altitude: Degrees) -> Option<Self> {
        if !(3.0..=90.0).contains(&sun_altitude.value()) {
            return None;
        }
        let sine = sun_altitude.radians().sin();
        let direct_normal = Illuminance(127_500.0 * (-0.21 / sine).exp());
        let sky_horizontal = Illuminance(800.0 + 15_500.0 * sine.sqrt());
        Some(Self {
            direct_normal,
            sky_horizontal,
            horizontal: direct_normal * sine + sky_horizontal,
        })
    }
}
