//! Something that emits or shapes light, before it is placed anywhere.
//!
//! This crate turns what is printed on a flash (guide numbers against zoom, power steps) into a
//! [`Beam`]: luminous intensity integrated over the burst, in candela seconds, for every direction
//! of the head. Out of doors it says where sun and moon stand ([`Sun`], [`Moon`]), and what they and the sky give
//! ([`Daylight`]). It never knows a room, a camera or a clock.
//!
//! ```
//! use light::{FlashUnit, HeadDress};
//! let flash = FlashUnit::medium();
//! let beam = flash.beam(50.0, HeadDress::Bare).unwrap();
//! // GN 36 m, ISO 100: 36² m² × 250 lx s / 100 = 3240 cd s on the axis.
//! assert!((beam.axis_intensity_time().value() - 3240.0).abs() < 1.0);
//! ```

mod atmosphere;
mod beam;
mod cie_sky;
pub mod course;
mod daylight;
mod error;
pub mod events;
pub mod eye;
mod flash;
mod gel;
mod lamp;
mod moment;
pub mod moon;
mod scattered;
mod sky_light;
pub mod solar;
mod twilight;
mod weather;

pub use atmosphere::{
    Air, Haze, air_mass, direct_beam, extraterrestrial_beam, ozone_mass, rayleigh_optical_depth,
    refraction_deg,
};
pub use beam::{Beam, HeadDress, SoftFront};
pub use cie_sky::{CieSky, SkyKind};
pub use course::{DayEvents, Look, Obstruction, Outdoors, Stretch};
pub use daylight::{Daylight, IesDaylight, NIGHT_FLOOR_LX, Shaded, Upright};
pub use error::{LightError, Misfit};
pub use flash::{
    FlashUnit, GUIDE_CONSTANT_CLAIMED, GUIDE_CONSTANT_MEASURED, GuidePoint, INCIDENT_CONSTANT, LightSpread,
};
pub use gel::{Gel, GelCurveError, GelCurveFault, GelEffect, GelError, GelFamily};
pub use lamp::{Lamp, LampColour, LampFacing, UsualLevel};
pub use moment::{Moment, Site};
pub use moon::{Moon, MoonPhase};
pub use scattered::scattered_light;
pub use sky_light::SkyLight;
pub use solar::{Sun, SunLevel};
pub use twilight::clear_horizontal_lx;
pub use weather::{Shade, Weather};
