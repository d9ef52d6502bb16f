//! Time that passes while people wait, as opposed to the time that a shutter is open.

use crate::reading::{checked_quantity, number_with_unit, write_number};
use crate::{UnitError, limits};
use std::fmt;
use std::str::FromStr;

checked_quantity! {
    /// A wait in seconds, nothing to an hour.
    ///
    /// ```
    /// use units::Seconds;
    /// let recycle: Seconds = "2.6 s".parse()?;
    /// assert_eq!(recycle.value(), 2.6);
    /// assert_eq!(recycle.to_string(), "2.6 s");
    /// assert!("2.6".parse::<Seconds>().is_err());
    /// # Ok::<(), units::UnitError>(())
    /// ```
    Seconds, SECONDS, "seconds"
}

impl FromStr for Seconds {
    type Err = UnitError;
    fn from_str(text: &str) -> Result<Self, UnitError> {
        let units = ["s", "sec", "second", "seconds"];
        number_with_unit(text, &units, &limits::SECONDS).map(Self)
    }
}

impl fmt::Display for Seconds {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write_number(f, self.0, 0)?;
        f.write_str(" s")
    }
}
