//! When and where: a moment in universal time, and a site on the Earth. No clock is read and no zone is known here.

use crate::LightError;
use solar_positioning::{Location, delta_t, time::JulianDate};

/// Julian date of 1970-01-01 00:00 UTC.
const EPOCH_JULIAN: f64 = 2_440_587.5;
const SECONDS_A_DAY: f64 = 86_400.0;

/// A moment in coordinated universal time: seconds since 1970-01-01 00:00, leap seconds not counted.
///
/// From 1900 to 2100, where the sun and the moon are known to far better than is asked here. Universal time by the
/// Earth's turn (UT1) is taken to be the same; it differs by less than a second, which is 0.004° of the sky's turn.
///
/// ```
/// let noon = light::Moment::utc(2026, 12, 12, 12, 0, 0.0)?;
/// assert_eq!(noon.seconds(), 1_797_076_800.0);
/// assert_eq!(noon.later(90.0).since(noon), 90.0);
/// # Ok::<(), light::LightError>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq, PartialOrd)]
pub struct Moment(f64);

impl Moment {
    /// From seconds since 1970-01-01 00:00 UTC.
    ///
    /// # Errors
    /// Refuses what lies outside the years 1900 to 2100.
    pub fn from_seconds(seconds: f64) -> Result<Self, LightError> {
        // 1900-01-01 and 2101-01-01.
        if (-2_208_988_800.0..4_133_980_800.0).contains(&seconds) {
            Ok(Self(seconds))
        } else {
            Err(LightError::OutsideTheYears)
        }
    }

    /// From a date of the Gregorian calendar and a time of day, in universal time.
    ///
    /// # Errors
    /// Refuses dates and times that do not exist, and years outside 1900 to 2100.
    pub fn utc(
        year: i32,
        month: u32,
        day: u32,
        hour: u32,
        minute: u32,
        second: f64,
    ) -> Result<Self, LightError> {
        let date = JulianDate::from_utc(year, month, day, 0, 0, 0.0, 0.0)
            .map_err(|_| LightError::OutsideTheYears)?;
        if hour > 23 || minute > 59 || !(0.0..60.0).contains(&second) {
            return Err(LightError::OutsideTheYears);
        }
        // Days are exact in a Julian date, seconds are not: they are added afterwards.
        let days = (date.julian_date() - EPOCH_JULIAN).round();
        Self::from_seconds(days * SECONDS_A_DAY + f64::from(hour * 3600 + minute * 60) + second)
    }

    /// Seconds since 1970-01-01 00:00 UTC.
    pub const fn seconds(self) -> f64 {
        self.0
    }

    /// So many seconds later; earlier if negative.
    pub fn later(self, seconds: f64) -> Self {
        Self(self.0 + seconds)
    }

    /// Seconds from another moment to this one.
    pub fn since(self, other: Self) -> f64 {
        self.0 - other.0
    }

    /// Days since the epoch J2000.0, universal time.
    pub(crate) fn days_since_2000(self) -> f64 {
        self.0 / SECONDS_A_DAY + EPOCH_JULIAN - 2_451_545.0
    }

    /// Centuries since J2000.0 in the even time of the planets (terrestrial time).
    pub(crate) fn dynamical_centuries(self) -> f64 {
        (self.days_since_2000() + self.delta_t() / SECONDS_A_DAY) / 36_525.0
    }

    /// How far the even time of the planets is ahead of the Earth's turn, in seconds.
    fn delta_t(self) -> f64 {
        let year = 2000.0 + self.days_since_2000() / 365.25;
        delta_t::estimate(year).unwrap_or(69.0)
    }

    pub(crate) fn julian(self) -> JulianDate {
        let date = self.0 / SECONDS_A_DAY + EPOCH_JULIAN;
        JulianDate::new(date, self.delta_t()).expect("a moment is finite")
    }
}

/// A place on the Earth.
///
/// ```
/// let greenwich = light::Site::new(51.48, 0.0)?;
/// assert_eq!(greenwich.latitude_deg(), 51.48);
/// assert!(light::Site::new(0.0, 181.0).is_err());
/// # Ok::<(), light::LightError>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Site {
    latitude_deg: f64,
    longitude_deg: f64,
    height_m: f64,
}

impl Site {
    /// At sea level, from a latitude (north positive) and a longitude (east positive) in degrees.
    ///
    /// # Errors
    /// Refuses latitudes beyond 90° and longitudes beyond 180°.
    pub fn new(latitude_deg: f64, longitude_deg: f64) -> Result<Self, LightError> {
        if !(-90.0..=90.0).contains(&latitude_deg) || !(-180.0..=180.0).contains(&longitude_deg) {
            return Err(LightError::NotOnEarth {
                latitude_deg,
                longitude_deg,
            });
        }
        Ok(Self {
            latitude_deg,
            longitude_deg,
            height_m: 0.0,
        })
    }

    /// The same place at a height above the sea, −500 to 9000 m; nearer values are taken for farther ones.
    pub fn at_height(self, height_m: f64) -> Self {
        Self {
            height_m: height_m.clamp(-500.0, 9000.0),
            ..self
        }
    }

    /// Degrees, north positive.
    pub const fn latitude_deg(&self) -> f64 {
        self.latitude_deg
    }

    /// Degrees, east positive.
    pub const fn longitude_deg(&self) -> f64 {
        self.longitude_deg
    }

    /// Metres above the sea.
    pub const fn height_m(&self) -> f64 {
        self.height_m
    }

    pub(crate) fn location(&self) -> Location {
        Location {
            latitude: self.latitude_deg,
            longitude: self.longitude_deg,
        }
    }
}
