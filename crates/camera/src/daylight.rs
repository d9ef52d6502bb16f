//! Daylight as photographers reckon it: sunny sixteen. What sun and sky give is in [`light::Daylight`].

use crate::Settings;
use units::{FNumber, Iso, ShutterTime, UnitError};

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
