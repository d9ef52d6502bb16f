//! Angles: directions, beam widths, tilts.

use crate::reading::{checked_quantity, number_with_unit, write_number};
use crate::{UnitError, limits};
use std::fmt;
use std::str::FromStr;

checked_quantity! {
    /// An angle in degrees, -360 to 360.
    ///
    /// ```
    /// use units::Degrees;
    /// let tilt: Degrees = "45 deg".parse()?;
    /// assert_eq!(tilt.to_string(), "45°");
    /// assert!((tilt.radians() - 0.785398).abs() < 1e-6);
    /// # Ok::<(), units::UnitError>(())
    /// ```
    Degrees, DEGREES, "degrees"
}

impl Degrees {
    /// The same angle in radians.
    pub fn radians(self) -> f64 {
        self.0.to_radians()
    }

    /// From radians.
    ///
    /// # Errors
    /// Refuses what is not finite or lies beyond a full turn.
    pub fn from_radians(radians: f64) -> Result<Self, UnitError> {
        Self::new(radians.to_degrees())
    }
}

impl FromStr for Degrees {
    type Err = UnitError;
    fn from_str(text: &str) -> Result<Self, UnitError> {
        let number = number_with_unit(text, &["°", "deg", "degree", "degrees"], &limits::DEGREES)?;
        Self::new(number)
    }
}

impl fmt::Display for Degrees {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write_number(f, self.0, 0)?;
        f.write_str("°")
    }
}
