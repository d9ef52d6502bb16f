//! Movement during the exposure.

use units::{Metres, Millimetres, ShutterTime, UnitError};

/// Length of the smear on the sensor in metres of something that moves across: v·t·f / (d − f).
///
/// `seconds` is how long it is lit: the shutter time, or the flash's duration when the flash does all the work.
///
/// ```
/// use units::{Metres, Millimetres};
/// let blur = camera::focal_plane_blur_m(1.5, 0.005, Millimetres::new(50.0)?, Metres::new(3.0)?);
/// assert!((blur - 127.1186441e-6).abs() < 1e-12);
/// # Ok::<(), units::UnitError>(())
/// ```
pub fn focal_plane_blur_m(speed_across_m_s: f64, seconds: f64, focal: Millimetres, distance: Metres) -> f64 {
    speed_across_m_s * seconds * focal.metres() / (distance.value() - focal.metres())
}

/// The longest time in which such a thing smears no more than `blur_m` on the sensor.
///
/// # Errors
/// Refuses what no shutter can do, such as a still thing.
///
/// ```
/// use units::{Metres, Millimetres};
/// let time = camera::shutter_for_blur(1.5, 30e-6, Millimetres::new(50.0)?, Metres::new(3.0)?)?;
/// assert!((time.value() - 0.00118).abs() < 1e-9);
/// # Ok::<(), units::UnitError>(())
/// ```
pub fn shutter_for_blur(
    speed_across_m_s: f64,
    blur_m: f64,
    focal: Millimetres,
    distance: Metres,
) -> Result<ShutterTime, UnitError> {
    ShutterTime::new(blur_m / focal_plane_blur_m(speed_across_m_s, 1.0, focal, distance))
}
