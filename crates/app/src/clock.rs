//! The time of day: the only place that asks for it.

use jiff::ZonedDateTime;

/// This moment, as the clocks at this place show it.
pub fn now() -> ZonedDateTime {
    ZonedDateTime::now()
}
