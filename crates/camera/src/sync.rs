//! The focal-plane shutter and the flash: sync, and what is left of the light beyond it.

use units::{ShutterTime, Stops};

/// True if the whole frame is open at once at this shutter time, so that a flash reaches all of it.
///
/// ```
/// let sync = "1/200".parse()?;
/// assert!(camera::within_sync("1/160".parse()?, sync) && camera::within_sync(sync, sync));
/// assert!(!camera::within_sync("1/250".parse()?, sync));
/// # Ok::<(), units::UnitError>(())
/// ```
pub fn within_sync(shutter: ShutterTime, sync: ShutterTime) -> bool {
    shutter.value() >= sync.value() * (1.0 - 1e-9)
}

/// The fastest shutter time that is safe with a radio trigger: at least a third of a stop slower than sync.
///
/// Triggers take a moment, and the curtain then shadows an edge of the frame at exactly the sync time (common practice).
/// A sync time at the long end of the series is returned as it is.
///
/// ```
/// let shutter = camera::fastest_clean_shutter("1/200".parse()?);
/// assert_eq!(shutter.to_string(), "1/160");
/// # Ok::<(), units::UnitError>(())
/// ```
pub fn fastest_clean_shutter(sync: ShutterTime) -> ShutterTime {
    // The margin is for rounding alone: thirds are exact.
    ShutterTime::series()
        .find(|time| time.stops_longer_than(sync) > Stops(1.0 / 3.0 - 1e-9))
        .unwrap_or(sync)
}

/// High-speed sync: a slit travels over the frame while the flash shines on evenly.
///
/// Constant light over the whole travel is assumed, and the same energy as one normal pulse.
///
/// ```
/// let slit = camera::SlitExposure { curtain_travel_s: 1.0 / 256.0, shutter: "1/1000".parse()? };
/// assert!((slit.loss().value() - 2.321928).abs() < 1e-6);
/// # Ok::<(), units::UnitError>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SlitExposure {
    /// Time a curtain takes to cross the frame, in seconds.
    pub curtain_travel_s: f64,
    /// Shutter time, for which each row is open.
    pub shutter: ShutterTime,
}

impl SlitExposure {
    /// How long the flash must shine, in seconds.
    pub fn pulse_s(&self) -> f64 {
        self.curtain_travel_s + self.shutter.value()
    }

    /// The part of the light that each row of the frame receives.
    pub fn share(&self) -> f64 {
        self.shutter.value() / self.pulse_s()
    }

    /// Stops lost against one normal pulse of the same energy (positive).
    pub fn loss(&self) -> Stops {
        Stops::from_factor(1.0 / self.share())
    }
}
