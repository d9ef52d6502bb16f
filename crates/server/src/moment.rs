//! Moments, as people and programs read them. What time it is comes from the caller.

use jiff::ZonedDateTime;
use sheet::Made;

/// What says which moment it is.
pub type Clock = fn() -> ZonedDateTime;

/// A moment as people and programs read it, such as "2026-11-25T16:20:00Z".
pub fn written(ms: i64) -> String {
    jiff::Timestamp::from_millisecond(ms).map_or_else(
        |_| String::new(),
        |moment| moment.strftime("%Y-%m-%dT%H:%M:%SZ").to_string(),
    )
}

/// A moment as the day and the clock of its place, for a card.
pub fn on_card(moment: &ZonedDateTime) -> Made {
    Made {
        year: moment.year(),
        month: moment.month().unsigned_abs(),
        day: moment.day().unsigned_abs(),
        clock: moment.strftime("%H:%M").to_string(),
    }
}

#[cfg(test)]
mod tests {
    use super::written;

    #[test]
    fn moments_are_written_in_universal_time() {
        let check = |ms: i64, expected: &str| assert_eq!(written(ms), expected);
        check(0, "1970-01-01T00:00:00Z");
        check(1_764_087_600_999, "2025-11-25T16:20:00Z");
    }
}
