//! What is known of a day out of doors when it is drawn or told.

use crate::voice::Voice;
use crate::wording::on_day::{self, DayEvent};
use light::{SkyKind, Weather};

/// What the drawing of a day shows; worked out elsewhere.
#[derive(Clone, Debug, PartialEq)]
pub struct DayDrawing {
    /// Title of the shoot.
    pub title: String,
    /// Where, when and in what weather.
    pub setting: DaySetting,
    /// Length of the day in hours, mostly 24.
    pub hours: f64,
    /// The sun and its light in order of time.
    pub points: Vec<DayPoint>,
    /// Golden light, from and until, in hours after midnight.
    pub golden: Vec<(f64, f64)>,
    /// Blue light.
    pub blue: Vec<(f64, f64)>,
    /// Moments with a name.
    pub marks: Vec<DayMark>,
    /// What the clock shows at every hour after midnight.
    pub clock_hours: Vec<String>,
    /// What stands on the horizon.
    pub skyline: Vec<DayObstacle>,
}

/// Where, when and in what weather a day is looked at.
#[derive(Clone, Debug, PartialEq)]
pub struct DaySetting {
    /// Degrees, north positive.
    pub latitude_deg: f64,
    /// Degrees, east positive.
    pub longitude_deg: f64,
    /// The date there: "2026-12-12".
    pub date: String,
    /// Name of the time zone, or its offset.
    pub zone: String,
    /// The weather.
    pub weather: Weather,
    /// The sky's pattern, where the shoot says it.
    pub sky: Option<SkyKind>,
    /// What the ground is called.
    pub ground: String,
    /// Bearing of the camera's line, degrees from north through east; it points up in the drawing.
    pub camera_looks_deg: f64,
}

impl DaySetting {
    /// Place, date and zone in words.
    pub(super) fn place(&self, voice: Voice) -> String {
        on_day::place(
            voice,
            self.latitude_deg,
            self.longitude_deg,
            &self.date,
            &self.zone,
        )
    }

    /// Weather and ground in words.
    pub(super) fn weather(&self, voice: Voice) -> String {
        on_day::weather(voice, self.weather, self.sky, &self.ground)
    }
}

/// The sun at one moment.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct DayPoint {
    /// Hours after midnight.
    pub hour: f64,
    /// Bearing in degrees.
    pub bearing_deg: f64,
    /// Height in degrees.
    pub height_deg: f64,
    /// EV at ISO 100, facing the sun.
    pub facing_ev: f64,
    /// EV at ISO 100, facing away.
    pub away_ev: f64,
    /// Whether nothing hides the sun.
    pub clear: bool,
}

/// A moment with a name.
#[derive(Clone, Debug, PartialEq)]
pub struct DayMark {
    /// Hours after midnight.
    pub hour: f64,
    /// Bearing of the sun in degrees.
    pub bearing_deg: f64,
    /// Its height in degrees.
    pub height_deg: f64,
    /// What happens.
    pub event: DayEvent,
    /// What the clock shows.
    pub clock: String,
}

impl DayMark {
    /// What happens and when: "sunset 16:40".
    pub fn words(&self, voice: Voice) -> String {
        format!("{} {}", self.event.words(voice), self.clock)
    }
}

/// Something on the horizon.
#[derive(Clone, Debug, PartialEq)]
pub struct DayObstacle {
    /// Its name.
    pub name: String,
    /// Bearing of its left end in degrees.
    pub from_deg: f64,
    /// Bearing of its right end.
    pub to_deg: f64,
    /// Its height in degrees.
    pub height_deg: f64,
}
