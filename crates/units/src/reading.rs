//! Reading a number and its unit out of a text, the same way for every quantity.

use crate::limits::Limit;
use crate::{Reason, UnitError};
use std::fmt;

/// Splits "2.6 m" into 2.6 and "m". The number may carry a sign; what follows it is returned trimmed.
///
/// The whole text, of which this may be a part, is for the error to show.
pub(crate) fn number_then_rest<'a>(
    part: &'a str,
    whole: &str,
    limit: &Limit,
) -> Result<(f64, &'a str), UnitError> {
    let part = part.trim();
    let unsigned = part
        .strip_prefix(['+', '-', '\u{2212}'])
        .unwrap_or(part)
        .trim_start();
    let digits = unsigned
        .find(|c: char| !(c.is_ascii_digit() || c == '.'))
        .unwrap_or(unsigned.len());
    let (number, rest) = unsigned.split_at(digits);
    if number.is_empty() {
        let reason = if part.is_empty() {
            Reason::Nothing
        } else {
            Reason::NoNumberFirst
        };
        return Err(limit.not_understood(whole, reason));
    }
    if let Some(after) = rest.strip_prefix(',')
        && after.starts_with(|c: char| c.is_ascii_digit())
    {
        return Err(limit.not_understood(whole, Reason::DecimalComma));
    }
    let magnitude: f64 = number
        .parse()
        .map_err(|_| limit.not_understood(whole, Reason::NotANumber(number.to_owned())))?;
    let negative = part.starts_with(['-', '\u{2212}']);
    Ok((if negative { -magnitude } else { magnitude }, rest.trim()))
}

/// Reads a number followed by one of the given units (compared without regard to case) and checks its range.
pub(crate) fn number_with_unit(text: &str, units: &[&str], limit: &Limit) -> Result<f64, UnitError> {
    let (number, rest) = number_then_rest(text, text, limit)?;
    expect_unit(text, rest, units, limit)?;
    limit.check(number)
}

/// Refuses a unit that is missing or is not among those given.
pub(crate) fn expect_unit(text: &str, found: &str, units: &[&str], limit: &Limit) -> Result<(), UnitError> {
    if units.iter().any(|unit| unit.eq_ignore_ascii_case(found)) {
        Ok(())
    } else if found.is_empty() {
        Err(limit.not_understood(text, Reason::NoUnit))
    } else {
        Err(limit.not_understood(text, Reason::NotItsUnit(found.to_owned())))
    }
}

/// Takes a leading word such as "ISO" or "EV" off, without regard to case.
pub(crate) fn strip_word<'a>(text: &'a str, word: &str) -> Option<&'a str> {
    let text = text.trim();
    let head = text.get(..word.len())?;
    head.eq_ignore_ascii_case(word)
        .then(|| text[word.len()..].trim_start())
}

/// Writes a number exactly, with at least the given decimals, or rounded when the formatter asks for a precision.
pub(crate) fn write_number(f: &mut fmt::Formatter<'_>, number: f64, least_decimals: usize) -> fmt::Result {
    // A rounded "-0.0" would puzzle the reader.
    let plus = if f.sign_plus() { "+" } else { "" };
    if let Some(precision) = f.precision() {
        let text = format!("{number:.precision$}");
        let is_zero = text.bytes().all(|b| matches!(b, b'-' | b'0' | b'.'));
        let text = if is_zero {
            text.trim_start_matches('-')
        } else {
            &text
        };
        return write!(f, "{}{text}", if text.starts_with('-') { "" } else { plus });
    }
    let sign = if number < 0.0 { "" } else { plus };
    let shortest = number.to_string();
    let decimals = shortest.split_once('.').map_or(0, |(_, decimals)| decimals.len());
    if decimals < least_decimals {
        write!(f, "{sign}{number:.least_decimals$}")
    } else {
        write!(f, "{sign}{shortest}")
    }
}

/// A quantity that can only be made within its range, so that its holder may rely on it.
macro_rules! checked_quantity {
    ($(#[$meta:meta])* $name:ident, $limit:ident, $unit:literal) => {
        $(#[$meta])*
        #[derive(Clone, Copy, Debug, PartialEq, PartialOrd)]
        pub struct $name(f64);

        impl $name {
            #[doc = concat!("Checks a number of ", $unit, " against `limits::", stringify!($limit), "`.")]
            ///
            /// # Errors
            /// Refuses what is not finite or lies outside the range.
            pub fn new(value: f64) -> Result<Self, $crate::UnitError> {
                $crate::limits::$limit.check(value).map(Self)
            }

            #[doc = concat!("The number of ", $unit, ".")]
            pub const fn value(self) -> f64 {
                self.0
            }
        }
    };
}

/// A quantity that adds to its own kind and scales: a sum of lights, a part of a dose.
///
/// The field is public because a calculation may arrive at any number; `new` checks what a person gives.
macro_rules! additive_quantity {
    ($(#[$meta:meta])* $name:ident, $limit:ident, $unit:literal) => {
        $(#[$meta])*
        #[derive(Clone, Copy, Debug, Default, PartialEq, PartialOrd)]
        pub struct $name(pub f64);

        impl $name {
            #[doc = concat!("Checks a number of ", $unit, " against `limits::", stringify!($limit), "`.")]
            ///
            /// # Errors
            /// Refuses what is not finite or lies outside the range.
            pub fn new(value: f64) -> Result<Self, $crate::UnitError> {
                $crate::limits::$limit.check(value).map(Self)
            }

            #[doc = concat!("The number of ", $unit, ".")]
            pub const fn value(self) -> f64 {
                self.0
            }
        }

        impl std::ops::Add for $name {
            type Output = Self;
            fn add(self, other: Self) -> Self {
                Self(self.0 + other.0)
            }
        }

        impl std::ops::AddAssign for $name {
            fn add_assign(&mut self, other: Self) {
                self.0 += other.0;
            }
        }

        impl std::ops::Sub for $name {
            type Output = Self;
            fn sub(self, other: Self) -> Self {
                Self(self.0 - other.0)
            }
        }

        impl std::ops::Mul<f64> for $name {
            type Output = Self;
            fn mul(self, factor: f64) -> Self {
                Self(self.0 * factor)
            }
        }

        impl std::ops::Mul<$name> for f64 {
            type Output = $name;
            fn mul(self, quantity: $name) -> $name {
                quantity * self
            }
        }

        impl std::ops::Div<f64> for $name {
            type Output = Self;
            fn div(self, divisor: f64) -> Self {
                Self(self.0 / divisor)
            }
        }

        /// How many times one is the other.
        impl std::ops::Div for $name {
            type Output = f64;
            fn div(self, other: Self) -> f64 {
                self.0 / other.0
            }
        }

        impl std::iter::Sum for $name {
            fn sum<I: Iterator<Item = Self>>(items: I) -> Self {
                items.fold(Self(0.0), |total, item| total + item)
            }
        }
    };
}

pub(crate) use {additive_quantity, checked_quantity};
