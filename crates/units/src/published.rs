//! How quantities stand in data that other programs read: as plain numbers in the unit that their type says.
//!
//! A value that is not finite (no light at all, a loss without end) is `null`, because JSON knows no infinity.

use crate::{Duv, Ev, FNumber, Iso, Kelvin, Metres, MiredShift, PowerFraction, Ratio, ShutterTime, Stops};
use schemars::{JsonSchema, Schema, SchemaGenerator, json_schema};
use serde::{Serialize, Serializer};
use std::borrow::Cow;

/// Serialises a quantity as its number and describes it so.
macro_rules! published {
    ($($quantity:ident => $value:expr, $means:literal;)*) => {$(
        impl Serialize for $quantity {
            fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
                let value: fn($quantity) -> f64 = $value;
                let value = value(*self);
                if value.is_finite() {
                    serializer.serialize_f64(value)
                } else {
                    serializer.serialize_none()
                }
            }
        }

        impl JsonSchema for $quantity {
            fn schema_name() -> Cow<'static, str> {
                stringify!($quantity).into()
            }

            fn json_schema(_: &mut SchemaGenerator) -> Schema {
                json_schema!({ "description": $means, "type": ["number", "null"] })
            }
        }
    )*};
}

published! {
    Duv => Duv::value, "Distance from the Planckian locus in CIE 1960 uv: positive is greener.";
    Ev => Ev::value, "Exposure value at ISO 100.";
    FNumber => FNumber::value, "F-number: exact, such as 5.657 for f/5.6.";
    Iso => Iso::value, "Speed on the ISO scale.";
    Kelvin => Kelvin::value, "Kelvin.";
    Metres => Metres::value, "Metres.";
    MiredShift => MiredShift::value, "A difference of mired: positive is warmer.";
    PowerFraction => PowerFraction::stops_below_full, "Power of a flash in stops below full: positive is less light.";
    Ratio => Ratio::value, "The larger part of a ratio to one.";
    ShutterTime => ShutterTime::value, "Seconds.";
    Stops => Stops::value, "Stops: positive is more light.";
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn quantities_are_plain_numbers_and_what_is_not_finite_is_null() {
        let check = |given: serde_json::Value, expected: &str| assert_eq!(given.to_string(), expected);
        let json = |stops: f64| serde_json::to_value(Stops(stops)).expect("a number");
        check(json(-1.5), "-1.5");
        check(json(f64::NEG_INFINITY), "null");
        check(json(f64::NAN), "null");
        let aperture = FNumber::new(8.0).expect("an f-number");
        check(serde_json::to_value(aperture).expect("a number"), "8.0");
        let power = PowerFraction::from_stops_below_full(2.0).expect("a power");
        check(serde_json::to_value(power).expect("a number"), "2.0");
    }
}
