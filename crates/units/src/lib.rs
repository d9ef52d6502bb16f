//! Quantities with their units and the trade's spelling: `f/4`, `1/160`, `1/4 +0.3`, `5000 K`, `5.5 x 4.4 x 2.6 m`.
//!
//! This crate turns what a photographer writes into numbers that cannot be confused with one another, and such
//! numbers back into what a photographer reads. It knows no wavelengths and no formula from a paper, and it never
//! guesses: a text that does not say its unit is refused, with the reason and an example of the right spelling.
//!
//! Two ideas run through it. A *point* (an exposure value, a colour temperature) is not a *difference* (stops, a mired
//! shift), and a *rate* (illuminance) is not a *dose* (luminous exposure), so the operations that would mix them do not
//! exist.
//!
//! Printing without a precision is exact: `parse(print(x)) == x`. Printing with one, as in `{:.1}`, rounds.
//!
//! ```
//! use units::{FNumber, Illuminance, PowerFraction, ShutterTime, parse_size};
//!
//! let room = parse_size("5.5 x 4.4 x 2.6 m")?;
//! assert_eq!(room[2].value(), 2.6);
//!
//! // f/5.6 is the engraved name of 2^(5/2), and 1/125 that of 2^(-7) s.
//! let aperture: FNumber = "f/5.6".parse()?;
//! assert!((aperture.value() - 5.657).abs() < 0.001);
//!
//! // Only the shutter turns a rate of light into a dose.
//! let shutter: ShutterTime = "1/125".parse()?;
//! let dose = Illuminance(256.0) * shutter;
//! assert_eq!(dose.to_string(), "2 lx s");
//!
//! // A third more light than a quarter of full power.
//! let power: PowerFraction = "1/4 +0.3".parse()?;
//! assert!((power.stops_below_full() - 5.0 / 3.0).abs() < 1e-12);
//! # Ok::<(), units::UnitError>(())
//! ```

mod angle;
mod colour_temperature;
mod error;
mod exposure;
mod flash;
mod length;
pub mod limits;
mod photometry;
mod published;
mod quantity;
mod ratio;
mod reading;
mod seconds;
mod stops;

pub use angle::Degrees;
pub use colour_temperature::{Duv, Kelvin, Mired, MiredShift};
pub use error::UnitError;
pub use exposure::{FNumber, Iso, ShutterTime};
pub use flash::{GuideBasis, GuideNumber, PowerFraction, ZoomMm};
pub use length::{METRES_PER_FOOT, METRES_PER_INCH, Metres, Millimetres, parse_size};
pub use photometry::{Illuminance, IntensityTime, Luminance, LuminousExposure, LuminousIntensity};
pub use quantity::{Examples, Quantity, Reason};
pub use ratio::Ratio;
pub use seconds::Seconds;
pub use stops::{Ev, Stops};
