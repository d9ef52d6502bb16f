//! Colour temperature in kelvin, its reciprocal in mired, and the distance from the Planckian locus.

use crate::reading::{checked_quantity, number_then_rest, number_with_unit, strip_word, write_number};
use crate::{Reason, UnitError, limits};
use std::fmt;
use std::ops::{Add, Neg, Sub};
use std::str::FromStr;

checked_quantity! {
    /// A (correlated) colour temperature in kelvin, 1000 to 100 000.
    ///
    /// ```
    /// use units::{Kelvin, Mired};
    /// let daylight: Kelvin = "5000 K".parse()?;
    /// assert_eq!(daylight.mired(), Mired(200.0));
    /// assert_eq!(daylight.to_string(), "5000 K");
    /// # Ok::<(), units::UnitError>(())
    /// ```
    Kelvin, KELVIN, "kelvin"
}

impl Kelvin {
    /// The reciprocal colour temperature: a million over the kelvin.
    pub fn mired(self) -> Mired {
        Mired(1e6 / self.0)
    }
}

impl From<Kelvin> for Mired {
    fn from(kelvin: Kelvin) -> Self {
        kelvin.mired()
    }
}

impl TryFrom<Mired> for Kelvin {
    type Error = UnitError;
    fn try_from(mired: Mired) -> Result<Self, UnitError> {
        mired.kelvin()
    }
}

impl FromStr for Kelvin {
    type Err = UnitError;
    fn from_str(text: &str) -> Result<Self, UnitError> {
        Self::new(number_with_unit(text, &["K", "kelvin"], &limits::KELVIN)?)
    }
}

impl fmt::Display for Kelvin {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write_number(f, self.0, 0)?;
        f.write_str(" K")
    }
}

/// A reciprocal colour temperature in mired (a million over kelvin): a point on a scale where equal steps look alike.
///
/// The difference of two is a [`MiredShift`], which is what a gel or a coloured wall does.
///
/// ```
/// use units::{Kelvin, MiredShift};
/// let flash = Kelvin::new(5500.0)?;
/// let gelled = (flash.mired() + MiredShift(131.0)).kelvin()?;
/// assert!((gelled.value() - 3196.745).abs() < 1e-3);
/// # Ok::<(), units::UnitError>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq, PartialOrd)]
pub struct Mired(pub f64);

impl Mired {
    /// The number of mired.
    pub const fn value(self) -> f64 {
        self.0
    }

    /// The colour temperature.
    ///
    /// # Errors
    /// Refuses what is not positive or lies outside the range of colour temperatures.
    pub fn kelvin(self) -> Result<Kelvin, UnitError> {
        limits::MIRED
            .check(self.0)
            .and_then(|mired| Kelvin::new(1e6 / mired))
    }
}

impl Sub for Mired {
    type Output = MiredShift;
    fn sub(self, other: Self) -> MiredShift {
        MiredShift(self.0 - other.0)
    }
}

impl Add<MiredShift> for Mired {
    type Output = Self;
    fn add(self, shift: MiredShift) -> Self {
        Self(self.0 + shift.0)
    }
}

impl Sub<MiredShift> for Mired {
    type Output = Self;
    fn sub(self, shift: MiredShift) -> Self {
        Self(self.0 - shift.0)
    }
}

impl FromStr for Mired {
    type Err = UnitError;
    fn from_str(text: &str) -> Result<Self, UnitError> {
        number_with_unit(text, &["mired"], &limits::MIRED).map(Self)
    }
}

impl fmt::Display for Mired {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write_number(f, self.0, 0)?;
        f.write_str(" mired")
    }
}

/// A difference of reciprocal colour temperature: positive is warmer.
///
/// ```
/// use units::MiredShift;
/// let half_orange: MiredShift = "+81 mired".parse()?;
/// assert_eq!(half_orange.to_string(), "+81 mired");
/// # Ok::<(), units::UnitError>(())
/// ```
#[derive(Clone, Copy, Debug, Default, PartialEq, PartialOrd)]
pub struct MiredShift(pub f64);

impl MiredShift {
    /// The number of mired.
    pub const fn value(self) -> f64 {
        self.0
    }

    /// Without its sign.
    pub fn abs(self) -> Self {
        Self(self.0.abs())
    }
}

impl Add for MiredShift {
    type Output = Self;
    fn add(self, other: Self) -> Self {
        Self(self.0 + other.0)
    }
}

impl Sub for MiredShift {
    type Output = Self;
    fn sub(self, other: Self) -> Self {
        Self(self.0 - other.0)
    }
}

impl Neg for MiredShift {
    type Output = Self;
    fn neg(self) -> Self {
        Self(-self.0)
    }
}

impl FromStr for MiredShift {
    type Err = UnitError;
    fn from_str(text: &str) -> Result<Self, UnitError> {
        let limit = &limits::MIRED_SHIFT;
        let number = number_with_unit(text, &["mired"], limit)?;
        let text = text.trim();
        // Without a sign it could be the point on the scale instead of the shift.
        if number != 0.0 && !text.starts_with(['+', '-', '\u{2212}']) {
            return Err(limit.not_understood(text, Reason::ShiftWithoutSign));
        }
        Ok(Self(number))
    }
}

impl fmt::Display for MiredShift {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        if self.0 > 0.0 {
            f.write_str("+")?;
        }
        write_number(f, self.0, 0)?;
        f.write_str(" mired")
    }
}

/// Distance from the Planckian locus in CIE 1960 uv: positive is greener, negative is more magenta.
///
/// ```
/// use units::Duv;
/// let lamp: Duv = "Duv +0.010".parse()?;
/// assert_eq!(lamp, Duv(0.01));
/// assert_eq!(lamp.to_string(), "Duv +0.010");
/// # Ok::<(), units::UnitError>(())
/// ```
#[derive(Clone, Copy, Debug, Default, PartialEq, PartialOrd)]
pub struct Duv(pub f64);

impl Duv {
    /// The number.
    pub const fn value(self) -> f64 {
        self.0
    }
}

impl FromStr for Duv {
    type Err = UnitError;
    fn from_str(text: &str) -> Result<Self, UnitError> {
        let limit = &limits::DUV;
        let number = strip_word(text, "Duv").unwrap_or(text);
        let (number, rest) = number_then_rest(number, text, limit)?;
        if !rest.is_empty() {
            return Err(limit.not_understood(text, Reason::TooMuch(rest.to_owned())));
        }
        limit.check(number).map(Self)
    }
}

impl fmt::Display for Duv {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(if self.0 > 0.0 { "Duv +" } else { "Duv " })?;
        write_number(f, self.0, 3)
    }
}
