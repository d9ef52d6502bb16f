//! Quantities as a shoot file writes them.

use std::str::FromStr;
use units::limits::{self, Limit};
use units::{
    Degrees, Duv, Ev, FNumber, Iso, Kelvin, Millimetres, PowerFraction, Ratio, Seconds, ShutterTime, Stops,
    UnitError,
};

/// A quantity that can be read from the trade's notation and proposed for a number that lacks it.
pub(crate) trait Written: Sized {
    /// Its range and words for it.
    const LIMIT: Limit;
    /// A spelling that works.
    const EXAMPLE: &'static str;
    /// Reads it.
    fn read(text: &str) -> Result<Self, UnitError>;
    /// A bare number with what was probably meant around it.
    fn with_unit(number: &str) -> String;
}

macro_rules! written {
    ($($name:ty: $limit:ident, $example:literal, $with_unit:expr;)*) => {
        $(impl Written for $name {
            const LIMIT: Limit = limits::$limit;
            const EXAMPLE: &'static str = $example;
            fn read(text: &str) -> Result<Self, UnitError> {
                Self::from_str(text)
            }
            fn with_unit(number: &str) -> String {
                ($with_unit)(number)
            }
        })*
    };
}

written! {
    FNumber: F_NUMBER, "f/4", |n| format!("f/{n}");
    Iso: ISO, "ISO 400", |n| format!("ISO {n}");
    Kelvin: KELVIN, "5600 K", |n| format!("{n} K");
    Millimetres: MILLIMETRES, "85 mm", |n| format!("{n} mm");
    Ev: EV, "EV 5", |n| format!("EV {n}");
    Degrees: DEGREES, "45 deg", |n| format!("{n} deg");
    Duv: DUV, "Duv +0.006", |n| format!("Duv {n}");
    ShutterTime: SHUTTER_SECONDS, "1/160", shutter_with_unit;
    PowerFraction: POWER_STOPS, "1/128", |n| format!("1/{n}");
    Stops: STOPS, "1 stop", |n| format!("{n} stops");
    Ratio: RATIO, "3:1", |n| format!("{n}:1");
    Seconds: SECONDS, "1.5 s", |n| format!("{n} s");
}

/// Cameras show 1/160 as 160, so a number above one is taken for a fraction.
fn shutter_with_unit(number: &str) -> String {
    match number.parse::<f64>() {
        Ok(value) if value >= 2.0 => format!("1/{number}"),
        _ => format!("{number} s"),
    }
}
