//! Stops, the photographer's logarithm, and exposure values.

use crate::reading::{expect_unit, number_then_rest, strip_word, write_number};
use crate::{Reason, UnitError, limits};
use std::fmt;
use std::ops::{Add, AddAssign, Mul, Neg, Sub, SubAssign};
use std::str::FromStr;

/// A difference of exposure in stops: +1 is twice the light, -1 half.
///
/// Thirds are spelled as on a camera: `-1.3` is a stop and a third, `+0.7` two thirds.
///
/// ```
/// use units::Stops;
/// let under: Stops = "-1.3".parse()?;
/// assert_eq!(under, Stops(-4.0 / 3.0));
/// assert_eq!(under.to_string(), "-1.3 stops");
/// assert_eq!(Stops(2.0).factor(), 4.0);
/// assert_eq!(Stops::from_factor(0.5), Stops(-1.0));
/// # Ok::<(), units::UnitError>(())
/// ```
#[derive(Clone, Copy, Debug, Default, PartialEq, PartialOrd)]
pub struct Stops(pub f64);

impl Stops {
    /// The number of stops.
    pub const fn value(self) -> f64 {
        self.0
    }

    /// How many times the light: 2^stops.
    pub fn factor(self) -> f64 {
        self.0.exp2()
    }

    /// The stops that make up a factor of light; minus infinity for none, not a number for a negative factor.
    pub fn from_factor(factor: f64) -> Self {
        Self(factor.log2())
    }

    /// The nearest third of a stop, exactly k/3.
    pub fn nearest_third(self) -> Self {
        Self((self.0 * 3.0).round() / 3.0)
    }

    /// Without its sign.
    pub fn abs(self) -> Self {
        Self(self.0.abs())
    }
}

impl Add for Stops {
    type Output = Self;
    fn add(self, other: Self) -> Self {
        Self(self.0 + other.0)
    }
}

impl AddAssign for Stops {
    fn add_assign(&mut self, other: Self) {
        self.0 += other.0;
    }
}

impl Sub for Stops {
    type Output = Self;
    fn sub(self, other: Self) -> Self {
        Self(self.0 - other.0)
    }
}

impl SubAssign for Stops {
    fn sub_assign(&mut self, other: Self) {
        self.0 -= other.0;
    }
}

impl Neg for Stops {
    type Output = Self;
    fn neg(self) -> Self {
        Self(-self.0)
    }
}

impl Mul<f64> for Stops {
    type Output = Self;
    fn mul(self, factor: f64) -> Self {
        Self(self.0 * factor)
    }
}

impl FromStr for Stops {
    type Err = UnitError;
    fn from_str(text: &str) -> Result<Self, UnitError> {
        let limit = &limits::STOPS;
        let (mut number, mut rest) = number_then_rest(text, text, limit)?;
        // "2/3 stop": the thirds as a fraction.
        if let Some(divisor) = rest.strip_prefix('/') {
            let (by, after) = number_then_rest(divisor, text, limit)?;
            if by <= 0.0 {
                return Err(limit.not_understood(text, Reason::DividedByZero));
            }
            (number, rest) = (number / by, after);
        } else {
            number = third_if_spelled_so(text, number);
        }
        if !rest.is_empty() {
            expect_unit(text, rest, &["stop", "stops", "EV"], limit)?;
        }
        limit.check(number).map(Self)
    }
}

impl fmt::Display for Stops {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        if self.0 > 0.0 {
            f.write_str("+")?;
        }
        if f.precision().is_none() && is_third(self.0) {
            write!(f, "{:.1}", self.0)?;
        } else {
            write_number(f, self.0, 0)?;
        }
        let one = self.0 != 0.0 && self.0.abs() <= 1.0;
        f.write_str(if one { " stop" } else { " stops" })
    }
}

/// True for k/3 that is no whole number, as computed by one division.
fn is_third(number: f64) -> bool {
    let thirds = (number * 3.0).round();
    number.fract() != 0.0 && thirds / 3.0 == number
}

/// "1.3", "1.33" and "1.7", "1.67" mean thirds of a stop, because that is how cameras and flashes round them.
pub(crate) fn third_if_spelled_so(text: &str, number: f64) -> f64 {
    let Some((_, after_point)) = text.split_once('.') else {
        return number;
    };
    let decimals: &str = after_point
        .split(|c: char| !c.is_ascii_digit())
        .next()
        .unwrap_or("");
    let one_third = !decimals.is_empty() && decimals.bytes().all(|b| b == b'3');
    let sixes = decimals.trim_end_matches('7');
    let two_thirds = (decimals == "7" || !sixes.is_empty())
        && sixes.bytes().all(|b| b == b'6')
        && (1..=15).contains(&decimals.len())
        && decimals != "6"
        && decimals.len() - sixes.len() <= 1;
    if one_third && decimals.len() < 16 || two_thirds {
        (number * 3.0).round() / 3.0
    } else {
        number
    }
}

/// An exposure value at ISO 100: a point on the scale of light levels.
///
/// The difference of two is a number of [`Stops`]; their sum means nothing, so it does not exist:
///
/// ```compile_fail
/// let nonsense = units::Ev(8.0) + units::Ev(9.0);
/// ```
///
/// ```
/// use units::{Ev, Stops};
/// let room: Ev = "EV 5".parse()?;
/// assert_eq!(Ev(9.0) - room, Stops(4.0));
/// assert_eq!(room + Stops(4.0), Ev(9.0));
/// assert_eq!(room.to_string(), "EV 5");
/// # Ok::<(), units::UnitError>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq, PartialOrd)]
pub struct Ev(pub f64);

impl Ev {
    /// The number.
    pub const fn value(self) -> f64 {
        self.0
    }
}

impl Sub for Ev {
    type Output = Stops;
    fn sub(self, other: Self) -> Stops {
        Stops(self.0 - other.0)
    }
}

impl Add<Stops> for Ev {
    type Output = Self;
    fn add(self, stops: Stops) -> Self {
        Self(self.0 + stops.0)
    }
}

impl Sub<Stops> for Ev {
    type Output = Self;
    fn sub(self, stops: Stops) -> Self {
        Self(self.0 - stops.0)
    }
}

impl FromStr for Ev {
    type Err = UnitError;
    fn from_str(text: &str) -> Result<Self, UnitError> {
        let limit = &limits::EV;
        // A bare "8" could be stops, so the letters are required, before or after.
        let (number, rest) = match strip_word(text, "EV") {
            Some(number) => number_then_rest(number, text, limit)?,
            None => {
                let (number, rest) = number_then_rest(text, text, limit)?;
                match strip_word(rest, "EV") {
                    Some(after) => (number, after),
                    None => return Err(limit.not_understood(text, Reason::NoEv)),
                }
            }
        };
        if !rest.is_empty() {
            return Err(limit.not_understood(text, Reason::TooMuch(rest.to_owned())));
        }
        limit.check(number).map(Self)
    }
}

impl fmt::Display for Ev {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("EV ")?;
        write_number(f, self.0, 0)
    }
}
