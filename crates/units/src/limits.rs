//! The range of every quantity, in one table.
//!
//! The ranges are ours: wide enough for anything a photographer meets, narrow enough that a slipped decimal point or a
//! wrong unit is noticed. They guard what is typed and what is constructed, not what is computed.

use crate::UnitError;

/// The accepted range of one quantity, and how to speak of it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Limit {
    /// The quantity with its article, as it appears in a sentence.
    pub quantity: &'static str,
    /// Smallest accepted number.
    pub lowest: f64,
    /// Largest accepted number.
    pub highest: f64,
    /// The unit that follows a number, with its leading space where one is written.
    pub unit: &'static str,
    /// A spelling that works.
    pub example: &'static str,
}

impl Limit {
    /// Gives the number back if it is finite and within the range.
    ///
    /// ```
    /// use units::limits;
    /// assert!(limits::METRES.check(2.6).is_ok());
    /// assert!(limits::METRES.check(-2.6).is_err());
    /// assert!(limits::METRES.check(f64::NAN).is_err());
    /// ```
    pub fn check(&self, number: f64) -> Result<f64, UnitError> {
        if !number.is_finite() {
            return Err(UnitError::NotFinite {
                quantity: self.quantity,
                given: number,
                example: self.example,
            });
        }
        if number < self.lowest || number > self.highest {
            return Err(UnitError::OutOfRange {
                quantity: self.quantity,
                given: number,
                lowest: self.lowest,
                highest: self.highest,
                unit: self.unit,
                example: self.example,
            });
        }
        // Negative zero would print as "-0".
        Ok(number + 0.0)
    }

    /// The error for a text that cannot be read as this quantity.
    pub(crate) fn not_understood(&self, given: &str, reason: impl Into<String>) -> UnitError {
        UnitError::NotUnderstood {
            quantity: self.quantity,
            given: given.trim().to_owned(),
            reason: reason.into(),
            example: self.example,
        }
    }
}

macro_rules! limits {
    ($($(#[$meta:meta])* $name:ident: $quantity:literal, $lowest:literal to $highest:literal $unit:literal, like $example:literal;)*) => {
        $(
            $(#[$meta])*
            pub const $name: Limit =
                Limit { quantity: $quantity, lowest: $lowest, highest: $highest, unit: $unit, example: $example };
        )*
        /// Every range of this table.
        pub const ALL: &[Limit] = &[$($name),*];
    };
}

limits! {
    /// Distances and sizes: from nothing to a far hillside.
    METRES: "a length", 0.0 to 10000.0 " m", like "2.6 m, 260 cm or 8 ft 6 in";
    /// A side of a room or panel, which cannot be nothing.
    SIDE: "a side of a size", 0.001 to 10000.0 " m", like "5.5 x 4.4 x 2.6 m";
    /// Focal lengths: fisheye to the longest telephoto.
    MILLIMETRES: "a focal length", 1.0 to 3000.0 " mm", like "85 mm";
    /// Directions and beam widths, either sense.
    DEGREES: "an angle", -360.0 to 360.0 "°", like "45° or 45 deg";
    /// Relative apertures.
    F_NUMBER: "an f-number", 0.5 to 128.0 "", like "f/5.6";
    /// Exposure times: the fastest electronic shutters to an hour on bulb.
    SHUTTER_SECONDS: "a shutter time", 0.000_01 to 3600.0 " s", like "1/160 or 2 s";
    /// Waits, such as that of a flash for its next full charge: nothing to an hour.
    SECONDS: "a time", 0.0 to 3600.0 " s", like "1.5 s";
    /// Sensitivities, including extended settings.
    ISO: "an ISO sensitivity", 0.001 to 6553600.0 "", like "ISO 400";
    /// Stops below full power: 1/1 to 1/1024.
    POWER_STOPS: "a power below full", 0.0 to 10.0 " stops", like "1/4 +0.3";
    /// Differences of exposure.
    STOPS: "a difference in stops", -60.0 to 60.0 " stops", like "-1.3 or +1 stop";
    /// Exposure values at ISO 100: starlight to far beyond the sun.
    EV: "an exposure value", -20.0 to 40.0 " EV", like "EV 8";
    /// Illuminances; direct sun is about 130 000 lx.
    ILLUMINANCE: "an illuminance", 0.0 to 1.0e9 " lx", like "500 lx";
    /// Luminous exposures.
    LUMINOUS_EXPOSURE: "a luminous exposure", 0.0 to 1.0e9 " lx s", like "10 lx s";
    /// Luminances; the sun's disc is about 1.6e9 cd/m2.
    LUMINANCE: "a luminance", 0.0 to 1.0e10 " cd/m2", like "100 cd/m2";
    /// Luminous intensities.
    LUMINOUS_INTENSITY: "a luminous intensity", 0.0 to 1.0e9 " cd", like "900 cd";
    /// Intensity integrated over a flash.
    INTENSITY_TIME: "a flash intensity", 0.0 to 1.0e9 " cd s", like "3240 cd s";
    /// Guide numbers in metres at ISO 100: a hearing-aid-sized flash to a flash bulb.
    GUIDE_NUMBER: "a guide number", 0.5 to 300.0 " m", like "GN 36 m at zoom 50 (measured)";
    /// Zoom settings of a flash head, as the focal length it claims to cover.
    ZOOM: "a flash zoom", 8.0 to 600.0 " mm", like "zoom 50";
    /// Colour temperatures.
    KELVIN: "a colour temperature", 1000.0 to 100000.0 " K", like "5000 K";
    /// Reciprocal colour temperatures of the same range.
    MIRED: "a reciprocal colour temperature", 10.0 to 1000.0 " mired", like "200 mired";
    /// Differences of reciprocal colour temperature.
    MIRED_SHIFT: "a mired shift", -1000.0 to 1000.0 " mired", like "+81 mired";
    /// Distance from the Planckian locus in CIE 1960 uv.
    DUV: "a Duv", -0.1 to 0.1 "", like "Duv +0.010";
    /// Lighting ratios, (key + fill) to fill.
    RATIO: "a lighting ratio", 1.0 to 1000.0 ":1", like "3:1";
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_limit_refuses_what_is_not_a_number_and_what_lies_outside() {
        for limit in ALL {
            let outside = (limit.highest - limit.lowest) * 1e-6;
            for bad in [
                f64::NAN,
                f64::INFINITY,
                f64::NEG_INFINITY,
                limit.lowest - outside,
                limit.highest + outside,
            ] {
                let message = limit.check(bad).expect_err(limit.quantity).to_string();
                assert!(message.contains(limit.example), "{message}");
            }
            assert_eq!(limit.check(limit.lowest), Ok(limit.lowest));
            assert_eq!(limit.check(limit.highest), Ok(limit.highest));
        }
    }
}
