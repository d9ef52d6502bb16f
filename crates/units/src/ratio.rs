//! Lighting ratios.

use crate::reading::{checked_quantity, number_then_rest, write_number};
use crate::{Reason, Stops, UnitError, limits};
use std::fmt;
use std::str::FromStr;

checked_quantity! {
    /// A lighting ratio, (key + fill) to fill, as the larger number over one: `3:1`. From 1:1 to 1000:1.
    ///
    /// ```
    /// use units::Ratio;
    /// let ratio: Ratio = "3:1".parse()?;
    /// assert_eq!(ratio.value(), 3.0);
    /// assert!((ratio.stops().value() - 1.585).abs() < 1e-3);
    /// # Ok::<(), units::UnitError>(())
    /// ```
    Ratio, RATIO, "to one"
}

impl Ratio {
    /// The same ratio in stops.
    pub fn stops(self) -> Stops {
        Stops::from_factor(self.0)
    }
}

impl FromStr for Ratio {
    type Err = UnitError;
    fn from_str(text: &str) -> Result<Self, UnitError> {
        let limit = &limits::RATIO;
        let (larger, rest) = number_then_rest(text, text, limit)?;
        let Some(after) = rest.strip_prefix(':').or_else(|| rest.strip_prefix("to ")) else {
            return Err(limit.not_understood(text, Reason::NoColon));
        };
        let (smaller, rest) = number_then_rest(after, text, limit)?;
        if !rest.is_empty() {
            return Err(limit.not_understood(text, Reason::TooMuch(rest.to_owned())));
        }
        if smaller <= 0.0 {
            return Err(limit.not_understood(text, Reason::RatioToNothing));
        }
        if larger < smaller {
            return Err(limit.not_understood(text, Reason::SmallerFirst));
        }
        Self::new(larger / smaller)
    }
}

impl fmt::Display for Ratio {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write_number(f, self.0, 0)?;
        f.write_str(":1")
    }
}
