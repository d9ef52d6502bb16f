//! What is set on a flash and printed on its box: power, zoom, guide number.

use crate::length::METRES_PER_FOOT;
use crate::reading::{checked_quantity, number_then_rest, strip_word, write_number};
use crate::stops::third_if_spelled_so;
use crate::{Reason, Stops, UnitError, limits};
use std::fmt;
use std::str::FromStr;

/// A flash power as stops below full, 0 to 10, in the notation of the back panel.
///
/// `1/4 +0.3` is a third *more* light than a quarter; `1/4 -0.3` a third less. Thirds are exact: 0.3 is 1/3, 0.7 is 2/3.
/// Powers are printed with a plus, from the whole step below.
///
/// ```
/// use units::PowerFraction;
/// let power: PowerFraction = "1/4 -0.3".parse()?;
/// assert_eq!(power.stops_below_full(), 7.0 / 3.0);
/// assert_eq!(power.to_string(), "1/8 +0.7");
/// assert!((power.fraction() - 0.19843).abs() < 1e-5);
/// # Ok::<(), units::UnitError>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PowerFraction {
    stops_below_full: f64,
}

impl PowerFraction {
    /// Full power, 1/1.
    pub const FULL: Self = Self {
        stops_below_full: 0.0,
    };

    /// From stops below full power.
    ///
    /// # Errors
    /// Refuses what is not finite, more than full power, or more than ten stops below it.
    pub fn from_stops_below_full(stops: f64) -> Result<Self, UnitError> {
        limits::POWER_STOPS
            .check(stops)
            .map(|stops_below_full| Self { stops_below_full })
    }

    /// From thirds of a stop below full power, so that no rounding enters.
    ///
    /// # Errors
    /// Refuses more than ten stops.
    pub fn from_thirds_below_full(thirds: u32) -> Result<Self, UnitError> {
        Self::from_stops_below_full(f64::from(thirds) / 3.0)
    }

    /// From the part of full power, such as 0.25.
    ///
    /// # Errors
    /// Refuses what is not finite, not positive, above 1 or below 1/1024.
    pub fn from_fraction(fraction: f64) -> Result<Self, UnitError> {
        Self::from_stops_below_full(-fraction.log2())
    }

    /// Stops below full power.
    pub const fn stops_below_full(self) -> f64 {
        self.stops_below_full
    }

    /// The part of full power: 1/4 is 0.25.
    pub fn fraction(self) -> f64 {
        (-self.stops_below_full).exp2()
    }

    /// The nearest third of a stop, exactly k/3.
    pub fn nearest_third(self) -> Self {
        Self {
            stops_below_full: (self.stops_below_full * 3.0).round() / 3.0,
        }
    }

    /// This power with more (or, if negative, less) light.
    ///
    /// # Errors
    /// Refuses a result above full power or more than ten stops below it.
    pub fn brighter_by(self, stops: Stops) -> Result<Self, UnitError> {
        Self::from_stops_below_full(self.stops_below_full - stops.0)
    }
}

impl FromStr for PowerFraction {
    type Err = UnitError;
    fn from_str(text: &str) -> Result<Self, UnitError> {
        let limit = &limits::POWER_STOPS;
        let (one, rest) = number_then_rest(text, text, limit)?;
        let Some(denominator) = rest.strip_prefix('/').filter(|_| one == 1.0) else {
            return Err(limit.not_understood(text, Reason::PowerWithoutOne));
        };
        let (denominator, rest) = number_then_rest(denominator, text, limit)?;
        let whole_stops = denominator.log2();
        if denominator < 1.0 || whole_stops.fract() != 0.0 {
            let reason = Reason::NotAPowerStep(denominator);
            return Err(limit.not_understood(text, reason));
        }
        if rest.is_empty() {
            return Self::from_stops_below_full(whole_stops);
        }
        if !rest.starts_with(['+', '-', '\u{2212}']) {
            return Err(limit.not_understood(text, Reason::PartWithoutSign(rest.to_owned())));
        }
        let (change, after) = number_then_rest(rest, text, limit)?;
        if !(after.is_empty() || ["stop", "stops", "EV"].contains(&after)) {
            return Err(limit.not_understood(text, Reason::TooMuch(after.to_owned())));
        }
        if change.abs() > 1.0 {
            return Err(limit.not_understood(text, Reason::PartTooLarge));
        }
        let stops = whole_stops - third_if_spelled_so(rest, change);
        if stops < 0.0 {
            return Err(limit.not_understood(text, Reason::MoreThanFull));
        }
        // 2 - 1/3 is not the same double as 5/3, and thirds are to be exact.
        let thirds = (stops * 3.0).round();
        let stops = if (stops * 3.0 - thirds).abs() < 1e-12 {
            thirds / 3.0
        } else {
            stops
        };
        Self::from_stops_below_full(stops)
    }
}

impl fmt::Display for PowerFraction {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let thirds = (self.stops_below_full * 3.0).round();
        if (self.stops_below_full * 3.0 - thirds).abs() < 1e-9 {
            let step = (thirds / 3.0).ceil();
            write!(f, "1/{}", step.exp2())?;
            return match (step * 3.0 - thirds) as u32 {
                0 => Ok(()),
                1 => f.write_str(" +0.3"),
                _ => f.write_str(" +0.7"),
            };
        }
        let step = self.stops_below_full.ceil();
        write!(f, "1/{} +", step.exp2())?;
        write_number(f, step - self.stops_below_full, 0)
    }
}

checked_quantity! {
    /// The zoom setting of a flash head: the focal length, in mm on 36 x 24, that it claims to cover. 8 to 600.
    ///
    /// ```
    /// use units::ZoomMm;
    /// assert_eq!("zoom 50".parse::<ZoomMm>()?, ZoomMm::new(50.0)?);
    /// # Ok::<(), units::UnitError>(())
    /// ```
    ZoomMm, ZOOM, "millimetres"
}

impl FromStr for ZoomMm {
    type Err = UnitError;
    fn from_str(text: &str) -> Result<Self, UnitError> {
        let limit = &limits::ZOOM;
        let Some(number) = strip_word(text, "zoom") else {
            return Err(limit.not_understood(text, Reason::NoZoomWord));
        };
        let (number, rest) = number_then_rest(number, text, limit)?;
        if !matches!(rest, "" | "mm") {
            return Err(limit.not_understood(text, Reason::TooMuch(rest.to_owned())));
        }
        Self::new(number)
    }
}

impl fmt::Display for ZoomMm {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("zoom ")?;
        write_number(f, self.0, 0)
    }
}

/// Where a guide number comes from; printed ones tend to be hopeful (common practice).
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum GuideBasis {
    /// Printed by the maker.
    Claimed,
    /// Read from a flash meter.
    Measured,
}

impl fmt::Display for GuideBasis {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::Claimed => "claimed",
            Self::Measured => "measured",
        })
    }
}

/// A guide number: distance in metres times f-number for a normal exposure at full power and ISO 100, with the zoom it
/// holds for and whether it was claimed or measured.
///
/// ```
/// use units::{GuideBasis, GuideNumber};
/// let guide: GuideNumber = "GN 118 ft at zoom 50 (claimed)".parse()?;
/// assert!((guide.metres - 35.97).abs() < 0.01);
/// assert_eq!(guide.basis, GuideBasis::Claimed);
/// assert_eq!(guide.to_feet_text(), "GN 118 ft at zoom 50 (claimed)");
/// assert_eq!(format!("{guide:.0}"), "GN 36 m at zoom 50 (claimed)");
/// # Ok::<(), units::UnitError>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct GuideNumber {
    /// Metres times f-number at ISO 100; [`GuideNumber::new`] checks it.
    pub metres: f64,
    /// The zoom setting it holds for.
    pub zoom: ZoomMm,
    /// Claimed or measured.
    pub basis: GuideBasis,
}

impl GuideNumber {
    /// Checks the number, in metres at ISO 100, against `limits::GUIDE_NUMBER`.
    ///
    /// # Errors
    /// Refuses what is not finite or lies outside the range.
    pub fn new(metres: f64, zoom: ZoomMm, basis: GuideBasis) -> Result<Self, UnitError> {
        limits::GUIDE_NUMBER
            .check(metres)
            .map(|metres| Self { metres, zoom, basis })
    }

    /// The same in feet, to a tenth: "GN 118 ft at zoom 50 (claimed)".
    pub fn to_feet_text(self) -> String {
        let feet = (self.metres / METRES_PER_FOOT * 10.0).round() / 10.0;
        format!("GN {feet} ft at {} ({})", self.zoom, self.basis)
    }
}

impl FromStr for GuideNumber {
    type Err = UnitError;
    fn from_str(text: &str) -> Result<Self, UnitError> {
        let limit = &limits::GUIDE_NUMBER;
        let Some(number) = strip_word(text, "GN") else {
            return Err(limit.not_understood(text, Reason::NoGn));
        };
        let (number, rest) = number_then_rest(number, text, limit)?;
        let Some((unit, rest)) = rest.split_once("at ") else {
            return Err(limit.not_understood(text, Reason::NoZoom));
        };
        let metres = match unit.trim() {
            "m" => number,
            "ft" => number * METRES_PER_FOOT,
            "" => return Err(limit.not_understood(text, Reason::MetresOrFeet)),
            other => return Err(limit.not_understood(text, Reason::NeitherMetresNorFeet(other.to_owned()))),
        };
        let Some((zoom, basis)) = rest.split_once('(') else {
            return Err(limit.not_understood(text, Reason::NoBasis));
        };
        let basis = match basis.trim().trim_end_matches(')').trim() {
            "claimed" => GuideBasis::Claimed,
            "measured" => GuideBasis::Measured,
            other => {
                return Err(limit.not_understood(text, Reason::UnknownBasis(other.to_owned())));
            }
        };
        Self::new(metres, zoom.parse()?, basis)
    }
}

impl fmt::Display for GuideNumber {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("GN ")?;
        write_number(f, self.metres, 0)?;
        write!(f, " m at {} ({})", self.zoom, self.basis)
    }
}
