//! Something that emits or shapes light, before it is placed anywhere.
//!
//! This crate turns what is printed on a flash (guide numbers against zoom, power steps) into a
//! [`Beam`]: luminous intensity integrated over the burst, in candela seconds, for every direction
//! of the head. It never knows a room, a camera or a clock.
//!
//! ```
//! use light::{FlashUnit, HeadDress};
//! let flash = FlashUnit::medium();
//! let beam = flash.beam(50.0, HeadDress::Bare).unwrap();
//! // GN 36 m, ISO 100: 36² m² × 250 lx s / 100 = 3240 cd s on the axis.
//! assert!((beam.axis_intensity_time().value() - 3240.0).abs() < 1.0);
//! ```

mod beam;
mod error;
mod flash;

pub use beam::{Beam, HeadDress, SoftFront};
pub use error::LightError;
pub use flash::{
    FlashUnit, GUIDE_CONSTANT_CLAIMED, GUIDE_CONSTANT_MEASURED, GuidePoint, INCIDENT_CONSTANT, LightSpread,
};
