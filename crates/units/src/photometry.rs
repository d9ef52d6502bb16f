//! Light as a rate and light as a dose.
//!
//! Ambient light is a rate: it arrives for as long as the shutter is open. A flash is a dose: it is over long before the
//! shutter closes. The two do not add until the shutter has turned the rate into a dose.

use crate::reading::{additive_quantity, number_with_unit, write_number};
use crate::{Metres, ShutterTime, UnitError, limits};
use std::fmt;
use std::ops::{Div, Mul};
use std::str::FromStr;

additive_quantity! {
    /// Illuminance in lux: light arriving per second on a surface. A rate.
    ///
    /// It does not add to a dose:
    ///
    /// ```compile_fail
    /// let nonsense = units::Illuminance(100.0) + units::LuminousExposure(2.0);
    /// ```
    ///
    /// ```
    /// use units::{Illuminance, LuminousExposure, ShutterTime};
    /// let lamps: Illuminance = "80 lx".parse()?;
    /// let shutter: ShutterTime = "1/15".parse()?;
    /// assert_eq!(lamps * shutter + LuminousExposure(2.0), LuminousExposure(7.0));
    /// # Ok::<(), units::UnitError>(())
    /// ```
    Illuminance, ILLUMINANCE, "lux"
}

additive_quantity! {
    /// Luminous exposure in lux-seconds: light that has arrived on a surface. A dose.
    ///
    /// ```
    /// use units::LuminousExposure;
    /// let metered: LuminousExposure = "10 lx s".parse()?;
    /// assert_eq!(metered / LuminousExposure(5.0), 2.0);
    /// # Ok::<(), units::UnitError>(())
    /// ```
    LuminousExposure, LUMINOUS_EXPOSURE, "lux-seconds"
}

additive_quantity! {
    /// Luminance in candela per square metre: how bright a surface looks.
    Luminance, LUMINANCE, "candela per square metre"
}

additive_quantity! {
    /// Luminous intensity in candela: how strongly a steady source shines in one direction.
    ///
    /// ```
    /// use units::{Illuminance, LuminousIntensity, Metres};
    /// // Twice the distance, a quarter of the light.
    /// let lamp = LuminousIntensity(900.0);
    /// assert_eq!(lamp.at_distance(Metres::new(3.0)?), Illuminance(100.0));
    /// assert_eq!(lamp.at_distance(Metres::new(6.0)?), Illuminance(25.0));
    /// # Ok::<(), units::UnitError>(())
    /// ```
    LuminousIntensity, LUMINOUS_INTENSITY, "candela"
}

additive_quantity! {
    /// Luminous intensity integrated over a flash, in candela-seconds.
    ///
    /// ```
    /// use units::{IntensityTime, LuminousExposure, Metres};
    /// let flash: IntensityTime = "3240 cd s".parse()?;
    /// assert_eq!(flash.at_distance(Metres::new(18.0)?), LuminousExposure(10.0));
    /// # Ok::<(), units::UnitError>(())
    /// ```
    IntensityTime, INTENSITY_TIME, "candela-seconds"
}

impl LuminousIntensity {
    /// Illuminance at a distance from a small source, facing it, with nothing but air between (inverse square).
    pub fn at_distance(self, distance: Metres) -> Illuminance {
        Illuminance(self.0 / distance.value().powi(2))
    }
}

impl IntensityTime {
    /// Luminous exposure at a distance from a small flash, facing it, with nothing but air between (inverse square).
    pub fn at_distance(self, distance: Metres) -> LuminousExposure {
        LuminousExposure(self.0 / distance.value().powi(2))
    }
}

/// The shutter turns a rate into a dose.
impl Mul<ShutterTime> for Illuminance {
    type Output = LuminousExposure;
    fn mul(self, shutter: ShutterTime) -> LuminousExposure {
        LuminousExposure(self.0 * shutter.value())
    }
}

/// The steady illuminance that would have given this dose.
impl Div<ShutterTime> for LuminousExposure {
    type Output = Illuminance;
    fn div(self, shutter: ShutterTime) -> Illuminance {
        Illuminance(self.0 / shutter.value())
    }
}

macro_rules! spelled {
    ($name:ident, $limit:ident, $printed:literal, $units:expr) => {
        impl FromStr for $name {
            type Err = UnitError;
            fn from_str(text: &str) -> Result<Self, UnitError> {
                number_with_unit(text, &$units, &limits::$limit).map(Self)
            }
        }

        impl fmt::Display for $name {
            fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
                write_number(f, self.0, 0)?;
                f.write_str($printed)
            }
        }
    };
}

spelled!(Illuminance, ILLUMINANCE, " lx", ["lx", "lux"]);
spelled!(
    LuminousExposure,
    LUMINOUS_EXPOSURE,
    " lx s",
    ["lx s", "lx·s", "lux seconds", "lux-seconds"]
);
spelled!(Luminance, LUMINANCE, " cd/m2", ["cd/m2", "cd/m²", "cd m-2"]);
spelled!(LuminousIntensity, LUMINOUS_INTENSITY, " cd", ["cd", "candela"]);
spelled!(
    IntensityTime,
    INTENSITY_TIME,
    " cd s",
    ["cd s", "cd·s", "candela seconds", "candela-seconds"]
);
