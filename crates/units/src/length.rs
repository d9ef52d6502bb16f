//! Lengths: distances and sizes in metres or feet, focal lengths in millimetres.

use crate::reading::{checked_quantity, number_then_rest, number_with_unit, write_number};
use crate::{Reason, UnitError, limits};
use std::fmt;
use std::str::FromStr;

/// The international foot, exactly (1959 yard and pound agreement).
pub const METRES_PER_FOOT: f64 = 0.3048;
/// The international inch, exactly.
pub const METRES_PER_INCH: f64 = 0.0254;

checked_quantity! {
    /// A distance or size in metres, 0 to 10 000.
    ///
    /// ```
    /// use units::Metres;
    /// let ceiling: Metres = "8'6\"".parse()?;
    /// assert!((ceiling.value() - 2.5908).abs() < 1e-12);
    /// assert_eq!(format!("{ceiling:.2}"), "2.59 m");
    /// assert_eq!(ceiling.to_feet_text(), "8 ft 6 in");
    /// # Ok::<(), units::UnitError>(())
    /// ```
    Metres, METRES, "metres"
}

impl Metres {
    /// From feet, for those who think in them.
    ///
    /// # Errors
    /// Refuses what is not finite or lies outside the range of lengths.
    pub fn from_feet(feet: f64) -> Result<Self, UnitError> {
        Self::new(feet * METRES_PER_FOOT)
    }

    /// The same length in feet.
    pub fn feet(self) -> f64 {
        self.0 / METRES_PER_FOOT
    }

    /// Feet and inches to the nearest inch, "8 ft 6 in"; half inches below three feet, where a tape is read closer.
    ///
    /// ```
    /// use units::Metres;
    /// assert_eq!(Metres::new(2.6)?.to_feet_text(), "8 ft 6 in");
    /// assert_eq!(Metres::new(0.3)?.to_feet_text(), "1 ft");
    /// assert_eq!(Metres::new(0.2)?.to_feet_text(), "8 in");
    /// # Ok::<(), units::UnitError>(())
    /// ```
    pub fn to_feet_text(self) -> String {
        let inches = self.0 / METRES_PER_INCH;
        let inches = if inches < 36.0 {
            (inches * 2.0).round() / 2.0
        } else {
            inches.round()
        };
        let feet = (inches / 12.0).floor();
        let inches = inches - feet * 12.0;
        match (feet, inches) {
            (0.0, inches) => format!("{inches} in"),
            (feet, 0.0) => format!("{feet} ft"),
            (feet, inches) => format!("{feet} ft {inches} in"),
        }
    }
}

impl FromStr for Metres {
    type Err = UnitError;
    fn from_str(text: &str) -> Result<Self, UnitError> {
        Self::new(read_length(text, &limits::METRES)?)
    }
}

impl fmt::Display for Metres {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write_number(f, self.0, 2)?;
        f.write_str(" m")
    }
}

checked_quantity! {
    /// A focal length in millimetres, 1 to 3000.
    ///
    /// ```
    /// use units::Millimetres;
    /// let lens: Millimetres = "85mm".parse()?;
    /// assert_eq!(lens.to_string(), "85 mm");
    /// # Ok::<(), units::UnitError>(())
    /// ```
    Millimetres, MILLIMETRES, "millimetres"
}

impl Millimetres {
    /// The same length in metres, as a plain number for geometry.
    pub fn metres(self) -> f64 {
        self.0 / 1000.0
    }
}

impl FromStr for Millimetres {
    type Err = UnitError;
    fn from_str(text: &str) -> Result<Self, UnitError> {
        Self::new(number_with_unit(text, &["mm"], &limits::MILLIMETRES)?)
    }
}

impl fmt::Display for Millimetres {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write_number(f, self.0, 0)?;
        f.write_str(" mm")
    }
}

/// The sides of a room or panel: two or three numbers with `x` or `×` between them.
///
/// A unit after the last number holds for all of them; otherwise each number needs its own.
///
/// ```
/// let sides = |text: &str| -> Vec<f64> {
///     units::parse_size(text).expect(text).iter().map(|side| side.value()).collect()
/// };
/// assert_eq!(sides("5.5 x 4.4 x 2.6 m"), [5.5, 4.4, 2.6]);
/// assert_eq!(sides("90 cm × 1.2 m"), [0.9, 1.2]);
/// ```
///
/// # Errors
/// Refuses one number or more than three, a missing unit, and a side that is nothing.
pub fn parse_size(text: &str) -> Result<Vec<Metres>, UnitError> {
    let limit = &limits::SIDE;
    let parts: Vec<&str> = text.split(['x', 'X', '×']).map(str::trim).collect();
    if !(2..=3).contains(&parts.len()) {
        let reason = Reason::NotASizeOfSides(parts.len());
        return Err(limit.not_understood(text, reason));
    }
    let mut bare = 0;
    for part in &parts {
        if part.is_empty() {
            return Err(limit.not_understood(text, Reason::NoNumberBesideX));
        }
        let (_, unit) = number_then_rest(part, text, limit)?;
        bare += usize::from(unit.is_empty());
    }
    let last = parts[parts.len() - 1];
    let (_, last_unit) = number_then_rest(last, text, limit)?;
    if last_unit.is_empty() {
        return Err(limit.not_understood(text, Reason::NoLastUnit));
    }
    if bare != 0 && bare != parts.len() - 1 {
        return Err(limit.not_understood(text, Reason::SomeUnits));
    }
    if bare > 0 && single_unit(last_unit).is_none() {
        return Err(limit.not_understood(text, Reason::FeetAndInchesOnce));
    }
    parts
        .iter()
        .map(|part| {
            let with_unit = if bare > 0 && *part != last {
                format!("{part} {last_unit}")
            } else {
                (*part).to_owned()
            };
            read_length(&with_unit, limit)
                .and_then(|side| limit.check(side))
                .and_then(Metres::new)
        })
        .collect()
}

/// A unit of length as metres: the first number over the second.
///
/// Dividing by a whole number keeps 260 cm equal to 2.6 m to the last bit, which multiplying by 0.01 does not.
fn single_unit(unit: &str) -> Option<(f64, f64)> {
    Some(match unit.to_ascii_lowercase().as_str() {
        "m" | "metre" | "metres" | "meter" | "meters" => (1.0, 1.0),
        "cm" => (1.0, 100.0),
        "mm" => (1.0, 1000.0),
        "km" => (1000.0, 1.0),
        mark if is_foot(mark) => (METRES_PER_FOOT, 1.0),
        mark if is_inch(mark) => (METRES_PER_INCH, 1.0),
        _ => return None,
    })
}

fn is_foot(mark: &str) -> bool {
    matches!(
        mark.to_ascii_lowercase().as_str(),
        "ft" | "foot" | "feet" | "'" | "′" | "’"
    )
}

fn is_inch(mark: &str) -> bool {
    matches!(
        mark.to_ascii_lowercase().as_str(),
        "in" | "inch" | "inches" | "\"" | "″" | "”"
    )
}

/// A number with a unit of length, or feet followed by inches; in metres, its range not yet checked.
fn read_length(text: &str, limit: &limits::Limit) -> Result<f64, UnitError> {
    let (number, rest) = number_then_rest(text, text, limit)?;
    if rest.is_empty() {
        return Err(limit.not_understood(text, Reason::NoUnit));
    }
    if let Some((metres, per)) = single_unit(rest) {
        return Ok(number * metres / per);
    }
    // Feet and inches: the foot mark stands before a second number.
    let (mark, inches) = rest.split_at(rest.find(|c: char| c.is_ascii_digit()).unwrap_or(rest.len()));
    if !is_foot(mark.trim()) || inches.is_empty() {
        return Err(limit.not_understood(text, Reason::NotALengthUnit(rest.to_owned())));
    }
    let (inches, inch_mark) = number_then_rest(inches, text, limit)?;
    if !is_inch(inch_mark) {
        return Err(limit.not_understood(text, Reason::NoInchMark));
    }
    if inches >= 12.0 {
        return Err(limit.not_understood(text, Reason::TwelveInches));
    }
    // A minus in front belongs to the whole length, which the range then refuses.
    Ok(number.signum() * (number.abs() * METRES_PER_FOOT + inches * METRES_PER_INCH))
}
