//! The three settings of a camera: aperture, shutter, sensitivity, each with its series in thirds of a stop.

use crate::reading::{checked_quantity, number_then_rest, strip_word, write_number};
use crate::{Reason, Stops, UnitError, limits};
use std::fmt;
use std::str::FromStr;

/// Engraved f-numbers in thirds of a stop; the k-th stands for 2^(k/6).
const MARKED_F_NUMBERS: [f64; 37] = [
    1.0, 1.1, 1.2, 1.4, 1.6, 1.8, 2.0, 2.2, 2.5, 2.8, 3.2, 3.5, 4.0, 4.5, 5.0, 5.6, 6.3, 7.1, 8.0, 9.0, 10.0,
    11.0, 13.0, 14.0, 16.0, 18.0, 20.0, 22.0, 25.0, 29.0, 32.0, 36.0, 40.0, 45.0, 51.0, 57.0, 64.0,
];

/// A written f-number or shutter time this close to an engraved one, relatively, means the engraved one (ours; a third is
/// 12 % of an f-number, and 26 % of a time).
const MARKED_TOLERANCE: f64 = 0.03;

/// The position of the engraved number that a written one means; `None` for one that lies between them.
fn meant(written: f64, marked: &[f64]) -> Option<usize> {
    marked
        .iter()
        .position(|marked| (written / marked - 1.0).abs() <= MARKED_TOLERANCE)
}

checked_quantity! {
    /// A relative aperture by its true value: `f/5.6` is 2^(5/2) = 5.657. From f/0.5 to f/128.
    ///
    /// A written number within 3 % of an engraved one is taken to mean it; any other is kept as it is.
    /// Thus printing and reading again gives the same value for every third of a stop, and for every value that is not
    /// within 3 % of an engraved number.
    ///
    /// ```
    /// use units::FNumber;
    /// let aperture: FNumber = "f/5.6".parse()?;
    /// assert_eq!(aperture.value(), 2f64.powf(2.5));
    /// assert_eq!(aperture.to_string(), "f/5.6");
    /// assert_eq!(FNumber::new(4.7)?.nearest_third().to_string(), "f/4.5");
    /// # Ok::<(), units::UnitError>(())
    /// ```
    FNumber, F_NUMBER, "the focal length over the entrance pupil"
}

impl FNumber {
    /// The engraved series from f/1 to f/64 in thirds, as true values.
    pub fn series() -> impl Iterator<Item = Self> {
        (0..MARKED_F_NUMBERS.len()).map(|k| Self(true_f_number(k)))
    }

    /// The nearest engraved third between f/1 and f/64.
    pub fn nearest_third(self) -> Self {
        Self(true_f_number(self.nearest_third_index()))
    }

    /// How many stops less light this aperture passes than another: f/8 to f/4 is 2.
    pub fn stops_darker_than(self, other: Self) -> Stops {
        Stops(2.0 * (self.0 / other.0).log2())
    }

    /// The aperture that passes so many stops less light.
    ///
    /// # Errors
    /// Refuses a result outside the range of f-numbers.
    pub fn stopped_down(self, stops: Stops) -> Result<Self, UnitError> {
        Self::new(self.0 * (stops.0 / 2.0).exp2())
    }

    fn nearest_third_index(self) -> usize {
        let last = MARKED_F_NUMBERS.len() - 1;
        (6.0 * self.0.log2()).round().clamp(0.0, last as f64) as usize
    }
}

fn true_f_number(thirds: usize) -> f64 {
    (thirds as f64 / 6.0).exp2()
}

impl FromStr for FNumber {
    type Err = UnitError;
    fn from_str(text: &str) -> Result<Self, UnitError> {
        let limit = &limits::F_NUMBER;
        let Some(number) = strip_word(text, "f/").or_else(|| strip_word(text, "f:")) else {
            return Err(limit.not_understood(text, Reason::NoFStop));
        };
        let (number, rest) = number_then_rest(number, text, limit)?;
        if !rest.is_empty() {
            return Err(limit.not_understood(text, Reason::TooMuch(rest.to_owned())));
        }
        Self::new(meant(number, &MARKED_F_NUMBERS).map_or(number, true_f_number))
    }
}

impl fmt::Display for FNumber {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let third = self.nearest_third_index();
        f.write_str("f/")?;
        if (self.0 / true_f_number(third) - 1.0).abs() < 1e-9 {
            write!(f, "{}", MARKED_F_NUMBERS[third])
        } else {
            write_number(f, self.0, 0)
        }
    }
}

/// Engraved shutter times in thirds of a stop; the k-th stands for 2^((k − 39)/3) s.
const MARKED_SHUTTER_TIMES: [f64; 55] = [
    1.0 / 8000.0,
    1.0 / 6400.0,
    1.0 / 5000.0,
    1.0 / 4000.0,
    1.0 / 3200.0,
    1.0 / 2500.0,
    1.0 / 2000.0,
    1.0 / 1600.0,
    1.0 / 1250.0,
    1.0 / 1000.0,
    1.0 / 800.0,
    1.0 / 640.0,
    1.0 / 500.0,
    1.0 / 400.0,
    1.0 / 320.0,
    1.0 / 250.0,
    1.0 / 200.0,
    1.0 / 160.0,
    1.0 / 125.0,
    1.0 / 100.0,
    1.0 / 80.0,
    1.0 / 60.0,
    1.0 / 50.0,
    1.0 / 40.0,
    1.0 / 30.0,
    1.0 / 25.0,
    1.0 / 20.0,
    1.0 / 15.0,
    1.0 / 13.0,
    1.0 / 10.0,
    1.0 / 8.0,
    1.0 / 6.0,
    1.0 / 5.0,
    1.0 / 4.0,
    0.3,
    0.4,
    0.5,
    0.6,
    0.8,
    1.0,
    1.3,
    1.6,
    2.0,
    2.5,
    3.2,
    4.0,
    5.0,
    6.0,
    8.0,
    10.0,
    13.0,
    15.0,
    20.0,
    25.0,
    30.0,
];

checked_quantity! {
    /// An exposure time by its true value in seconds: `1/30` is 2^(-5) = 1/32 s (ISO 516). From 1/100 000 s to an hour.
    ///
    /// A written time within 3 % of an engraved one is taken to mean it; any other is kept as it is.
    /// Thus printing and reading again gives the same value for every third of a stop, and for every value that is not
    /// within 3 % of an engraved time.
    ///
    /// ```
    /// use units::ShutterTime;
    /// let shutter: ShutterTime = "1/30".parse()?;
    /// assert_eq!(shutter.value(), 1.0 / 32.0);
    /// assert_eq!(shutter.to_string(), "1/30");
    /// assert_eq!("0.5 s".parse::<ShutterTime>()?.to_string(), "0.5 s");
    /// # Ok::<(), units::UnitError>(())
    /// ```
    ShutterTime, SHUTTER_SECONDS, "seconds"
}

/// Where one second stands in the series.
const ONE_SECOND: usize = 39;

impl ShutterTime {
    /// The engraved series from 1/8000 s to 30 s in thirds, as true values.
    pub fn series() -> impl Iterator<Item = Self> {
        (0..MARKED_SHUTTER_TIMES.len()).map(|k| Self(true_shutter_time(k)))
    }

    /// The nearest engraved third between 1/8000 s and 30 s.
    pub fn nearest_third(self) -> Self {
        Self(true_shutter_time(self.nearest_third_index()))
    }

    /// How many stops more light this time lets in than another: 1/50 against 1/200 is 2.
    pub fn stops_longer_than(self, other: Self) -> Stops {
        Stops::from_factor(self.0 / other.0)
    }

    /// The engraved time that a written one means, or the written one.
    fn meant(seconds: f64) -> Result<Self, UnitError> {
        Self::new(meant(seconds, &MARKED_SHUTTER_TIMES).map_or(seconds, true_shutter_time))
    }

    fn nearest_third_index(self) -> usize {
        let last = MARKED_SHUTTER_TIMES.len() - 1;
        (3.0 * self.0.log2() + ONE_SECOND as f64)
            .round()
            .clamp(0.0, last as f64) as usize
    }
}

fn true_shutter_time(thirds: usize) -> f64 {
    ((thirds as f64 - ONE_SECOND as f64) / 3.0).exp2()
}

impl FromStr for ShutterTime {
    type Err = UnitError;
    fn from_str(text: &str) -> Result<Self, UnitError> {
        let limit = &limits::SHUTTER_SECONDS;
        let (number, rest) = number_then_rest(text, text, limit)?;
        let Some(denominator) = rest.strip_prefix('/') else {
            if rest.is_empty() {
                let reason = Reason::SecondsOrFraction(number);
                return Err(limit.not_understood(text, reason));
            }
            if !["s", "sec", "second", "seconds"]
                .iter()
                .any(|unit| unit.eq_ignore_ascii_case(rest))
            {
                return Err(limit.not_understood(text, Reason::NotSeconds(rest.to_owned())));
            }
            return Self::meant(number);
        };
        let (denominator, rest) = number_then_rest(denominator, text, limit)?;
        if !matches!(rest, "" | "s" | "sec" | "S") {
            return Err(limit.not_understood(text, Reason::TooMuch(rest.to_owned())));
        }
        if denominator <= 0.0 {
            return Err(limit.not_understood(text, Reason::DividedByZero));
        }
        Self::meant(number / denominator)
    }
}

impl fmt::Display for ShutterTime {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let third = self.nearest_third_index();
        let engraved = (self.0 / true_shutter_time(third) - 1.0).abs() < 1e-9;
        let shown = if engraved {
            MARKED_SHUTTER_TIMES[third]
        } else {
            self.0
        };
        let denominator = (1.0 / shown).round();
        // From about a third of a second on, cameras count in seconds.
        if shown < 0.3 && 1.0 / denominator == shown {
            write!(f, "1/{denominator}")
        } else {
            write_number(f, shown, 0)?;
            f.write_str(" s")
        }
    }
}

/// ISO settings in thirds of a stop.
const ISO_SERIES: [f64; 46] = [
    6.0, 8.0, 10.0, 12.0, 16.0, 20.0, 25.0, 32.0, 40.0, 50.0, 64.0, 80.0, 100.0, 125.0, 160.0, 200.0, 250.0,
    320.0, 400.0, 500.0, 640.0, 800.0, 1000.0, 1250.0, 1600.0, 2000.0, 2500.0, 3200.0, 4000.0, 5000.0,
    6400.0, 8000.0, 10000.0, 12800.0, 16000.0, 20000.0, 25600.0, 32000.0, 40000.0, 51200.0, 64000.0, 80000.0,
    102400.0, 128000.0, 160000.0, 204800.0,
];

checked_quantity! {
    /// A sensitivity setting, ISO 0.001 (a slow film behind eleven stops of filter) to ISO 6 553 600.
    ///
    /// ```
    /// use units::Iso;
    /// let iso: Iso = "ISO 400".parse()?;
    /// assert_eq!(iso.value(), 400.0);
    /// assert_eq!(Iso::new(430.0)?.nearest_third().to_string(), "ISO 400");
    /// # Ok::<(), units::UnitError>(())
    /// ```
    Iso, ISO, "the ISO scale"
}

impl Iso {
    /// The settings from ISO 6 to ISO 204 800 in thirds of a stop.
    pub fn series() -> impl Iterator<Item = Self> {
        ISO_SERIES.into_iter().map(Self)
    }

    /// The nearest setting, in stops.
    pub fn nearest_third(self) -> Self {
        let distance = |iso: f64| (iso / self.0).log2().abs();
        Self(
            ISO_SERIES
                .into_iter()
                .min_by(|a, b| distance(*a).total_cmp(&distance(*b)))
                .unwrap_or(self.0),
        )
    }

    /// How many stops more sensitive than another: ISO 400 against ISO 100 is 2.
    pub fn stops_faster_than(self, other: Self) -> Stops {
        Stops::from_factor(self.0 / other.0)
    }
}

impl FromStr for Iso {
    type Err = UnitError;
    fn from_str(text: &str) -> Result<Self, UnitError> {
        let limit = &limits::ISO;
        let Some(number) = strip_word(text, "ISO") else {
            return Err(limit.not_understood(text, Reason::NoIso));
        };
        let (number, rest) = number_then_rest(number, text, limit)?;
        if !rest.is_empty() {
            return Err(limit.not_understood(text, Reason::TooMuch(rest.to_owned())));
        }
        Self::new(number)
    }
}

impl fmt::Display for Iso {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("ISO ")?;
        write_number(f, self.0, 0)
    }
}
