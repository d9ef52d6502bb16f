//! The range of every quantity, in one table.
//!
//! The ranges are ours: wide enough for anything a photographer meets, narrow enough that a slipped decimal point or a
//! wrong unit is noticed. They guard what is typed and what is constructed, not what is computed.

use crate::{Examples, Quantity, Reason, UnitError};

/// The accepted range of one quantity, and how to speak of it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Limit {
    /// What it is the range of.
    pub quantity: Quantity,
    /// Smallest accepted number.
    pub lowest: f64,
    /// Largest accepted number.
    pub highest: f64,
    /// The unit that follows a number, with its leading space where one is written.
    pub unit: &'static str,
    /// Spellings that work.
    pub example: Examples,
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
    pub(crate) fn not_understood(&self, given: &str, reason: Reason) -> UnitError {
        UnitError::NotUnderstood {
            quantity: self.quantity,
            given: given.trim().to_owned(),
            reason,
            example: self.example,
        }
    }
}

macro_rules! limits {
    ($($(#[$meta:meta])* $name:ident: $quantity:ident, $lowest:literal to $highest:literal $unit:literal, like $($example:literal),+;)*) => {
        $(
            $(#[$meta])*
            pub const $name: Limit = Limit {
                quantity: Quantity::$quantity,
                lowest: $lowest,
                highest: $highest,
                unit: $unit,
                example: Examples(&[$($example),+]),
            };
        )*
        /// Every range of this table.
        pub const ALL: &[Limit] = &[$($name),*];
    };
}

limits! {
    /// Distances and sizes: from nothing to a far hillside.
    METRES: Length, 0.0 to 10000.0 " m", like "2.6 m", "260 cm", "8 ft 6 in";
    /// A side of a room or panel, which cannot be nothing.
    SIDE: Side, 0.001 to 10000.0 " m", like "5.5 x 4.4 x 2.6 m";
    /// Focal lengths: fisheye to the longest telephoto.
    MILLIMETRES: FocalLength, 1.0 to 3000.0 " mm", like "85 mm";
    /// Directions and beam widths, either sense.
    DEGREES: Angle, -360.0 to 360.0 "°", like "45°", "45 deg";
    /// Relative apertures.
    F_NUMBER: FNumber, 0.5 to 128.0 "", like "f/5.6";
    /// Exposure times: the fastest electronic shutters to an hour on bulb.
    SHUTTER_SECONDS: ShutterTime, 0.000_01 to 3600.0 " s", like "1/160", "2 s";
    /// Waits, such as that of a flash for its next full charge: nothing to an hour.
    SECONDS: Time, 0.0 to 3600.0 " s", like "1.5 s";
    /// Sensitivities, including extended settings.
    ISO: Iso, 0.001 to 6553600.0 "", like "ISO 400";
    /// Stops below full power: 1/1 to 1/1024.
    POWER_STOPS: Power, 0.0 to 10.0 " stops", like "1/4 +0.3";
    /// Differences of exposure.
    STOPS: Stops, -60.0 to 60.0 " stops", like "-1.3", "+1 stop";
    /// Exposure values at ISO 100: starlight to far beyond the sun.
    EV: ExposureValue, -20.0 to 40.0 " EV", like "EV 8";
    /// Illuminances; direct sun is about 130 000 lx.
    ILLUMINANCE: Illuminance, 0.0 to 1.0e9 " lx", like "500 lx";
    /// Luminous exposures.
    LUMINOUS_EXPOSURE: LuminousExposure, 0.0 to 1.0e9 " lx s", like "10 lx s";
    /// Luminances; the sun's disc is about 1.6e9 cd/m2.
    LUMINANCE: Luminance, 0.0 to 1.0e10 " cd/m2", like "100 cd/m2";
    /// Luminous intensities.
    LUMINOUS_INTENSITY: LuminousIntensity, 0.0 to 1.0e9 " cd", like "900 cd";
    /// Intensity integrated over a flash.
    INTENSITY_TIME: FlashIntensity, 0.0 to 1.0e9 " cd s", like "3240 cd s";
    /// Guide numbers in metres at ISO 100: a hearing-aid-sized flash to a flash bulb.
    GUIDE_NUMBER: GuideNumber, 0.5 to 300.0 " m", like "GN 36 m at zoom 50 (measured)";
    /// Zoom settings of a flash head, as the focal length it claims to cover.
    ZOOM: Zoom, 8.0 to 600.0 " mm", like "zoom 50";
    /// Colour temperatures.
    KELVIN: ColourTemperature, 1000.0 to 100000.0 " K", like "5000 K";
    /// Reciprocal colour temperatures of the same range.
    MIRED: ReciprocalTemperature, 10.0 to 1000.0 " mired", like "200 mired";
    /// Differences of reciprocal colour temperature.
    MIRED_SHIFT: MiredShift, -1000.0 to 1000.0 " mired", like "+81 mired";
    /// Distance from the Planckian locus in CIE 1960 uv.
    DUV: Duv, -0.1 to 0.1 "", like "Duv +0.010";
    /// Lighting ratios, (key + fill) to fill.
    RATIO: Ratio, 1.0 to 1000.0 ":1", like "3:1";
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
                let message = limit.check(bad).expect_err("outside").to_string();
                assert!(message.contains(&limit.example.to_string()), "{message}");
            }
            assert_eq!(limit.check(limit.lowest), Ok(limit.lowest));
            assert_eq!(limit.check(limit.highest), Ok(limit.highest));
        }
    }
}
