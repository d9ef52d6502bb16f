//! Meters other than the flat incident one that everything else here is reckoned with.

use light::INCIDENT_CONSTANT;
use units::{Ev, Iso, Luminance, ShutterTime, Stops};

/// The constant K of reflected meters in cd s m⁻² at ISO 100 after multiplying by the speed: N² = L·t·S / K.
///
/// ISO 2720:1974 allows 10.6 to 13.4; 12.5 is in wide use. It is for reading a photographer's spot meter only: together
/// with C = 250 it implies a grey of 15.7 %, so pictures are never rendered from it.
pub const REFLECTED_CONSTANT: f64 = 12.5;

/// The luminance that a reflected meter calls an exposure value at ISO 100: K/100 · 2^EV.
///
/// ```
/// assert_eq!(camera::luminance_of(units::Ev(12.0)).value(), 512.0);
/// ```
pub fn luminance_of(ev: Ev) -> Luminance {
    Luminance(REFLECTED_CONSTANT / 100.0 * ev.value().exp2())
}

/// The true f-number that a reflected meter gives for a luminance: √(L·t·S / K).
///
/// ```
/// use units::Luminance;
/// let aperture = camera::aperture_for_luminance(Luminance(128.0), "1/60".parse()?, "ISO 400".parse()?);
/// assert!((aperture - 8.0).abs() < 1e-12);
/// # Ok::<(), units::UnitError>(())
/// ```
pub fn aperture_for_luminance(luminance: Luminance, shutter: ShutterTime, iso: Iso) -> f64 {
    (luminance.value() * shutter.value() * iso.value() / REFLECTED_CONSTANT).sqrt()
}

/// How much more light an incident meter made with another constant asks for than ours, in stops.
///
/// Domes are usually made with 320 to 340 (ISO 2720:1974 allows 320 to 540).
///
/// ```
/// assert!((camera::incident_meter_offset(340.0).value() - 0.4436067).abs() < 1e-6);
/// ```
pub fn incident_meter_offset(constant: f64) -> Stops {
    Stops::from_factor(constant / INCIDENT_CONSTANT)
}
