//! A day out of doors as text: what happens, and the light from hour to hour.

use super::data::DaySetting;
use crate::voice::Voice;
use crate::wording::on_day::{self, DayEvent};
use light::Moon;

/// A fist at arm's length covers about ten degrees (common practice).
const FIST_DEG: f64 = 10.0;

/// A day from hour to hour; worked out elsewhere.
#[derive(Clone, Debug, PartialEq)]
pub struct DayTable {
    /// Title of the shoot.
    pub title: String,
    /// Where, when and in what weather.
    pub setting: DaySetting,
    /// Whether the sun is up, or down, all day near a pole; `None` where it rises or sets.
    pub sun_all_day: Option<bool>,
    /// What happens, in order of time, each with what the clock shows.
    pub events: Vec<(String, DayEvent)>,
    /// The moon at the moment of the picture.
    pub moon: Moon,
    /// The light in order of time.
    pub looks: Vec<DayLook>,
    /// The light at the moment of the picture.
    pub picture: DayLook,
}

/// The light at one moment.
#[derive(Clone, Debug, PartialEq)]
pub struct DayLook {
    /// What the clock shows.
    pub clock: String,
    /// Height of the sun as it looks, in degrees.
    pub height_deg: f64,
    /// Its bearing in degrees, from north through east.
    pub bearing_deg: f64,
    /// Where it stands as seen in the shoot, in hours of the clock with the camera at 6.
    pub hour: f64,
    /// EV at ISO 100 on an upright surface that faces the sun.
    pub facing_ev: f64,
    /// Colour of that light in kelvin, where it has one.
    pub facing_k: Option<f64>,
    /// EV at ISO 100 on an upright surface that faces away.
    pub away_ev: f64,
    /// Colour of that light in kelvin, where it has one.
    pub away_k: Option<f64>,
    /// EV at ISO 100 on open level ground.
    pub ground_ev: f64,
    /// Stops by which that changes in five minutes, positive where it falls.
    pub fall_stops: f64,
    /// What hides the sun.
    pub behind: Option<String>,
}

/// What `rushlight sun` prints.
pub fn day_text(day: &DayTable, voice: Voice) -> String {
    let setting = &day.setting;
    let mut lines = vec![
        crate::fitting::clean(&day.title),
        setting.place(voice),
        setting.weather(voice),
        on_day::camera_looks(voice, setting.camera_looks_deg, setting.weather.spread().value()),
        String::new(),
    ];
    if let Some(up) = day.sun_all_day {
        lines.extend([on_day::sun_all_day(voice, up).to_owned(), String::new()]);
    }
    let events = day.events.iter();
    lines.extend(events.map(|(clock, event)| format!("  {clock}  {}", event.words(voice))));
    let moon = on_day::moon(voice, day.moon.phase(), day.moon.illuminated_fraction);
    lines.extend([String::new(), moon, String::new()]);
    lines.extend(on_day::table_heads(voice).map(str::to_owned));
    lines.extend(day.looks.iter().map(|look| row(look, voice)));
    lines.extend([String::new(), on_day::at_the_picture(voice).to_owned()]);
    lines.push(row(&day.picture, voice));
    lines.join("\n") + "\n"
}

fn row(look: &DayLook, voice: Voice) -> String {
    let number = |value: f64, decimals| {
        let number = voice.plain(without_sign_of_zero(value, decimals), decimals);
        number.replace('-', "−")
    };
    // To the nearest 50 K, which is finer than anyone sees (ours); a light without a temperature has a nought.
    let kelvin = |kelvin: Option<f64>| number(kelvin.map_or(0.0, |k| (k / 50.0).round() * 50.0), 0);
    let fall = number(look.fall_stops, 1);
    let fall = if fall.starts_with('−') {
        fall
    } else {
        format!("+{fall}")
    };
    let behind = look.behind.as_deref();
    format!(
        "  {}  {:>6}  {:>5}  {:>5} {:<4}  {:>6}  {:>5}  {:>6}  {:>5}  {:>6}  {:>7}  {fall:>7}{}",
        look.clock,
        number(look.height_deg, 1),
        number(look.height_deg / FIST_DEG, 1),
        number(look.bearing_deg, 0),
        on_day::compass(voice, look.bearing_deg),
        clock_hour(look.hour),
        number(look.facing_ev, 1),
        kelvin(look.facing_k),
        number(look.away_ev, 1),
        kelvin(look.away_k),
        number(look.ground_ev, 1),
        behind.map_or_else(String::new, |name| on_day::behind(voice, name)),
    )
}

/// Rounded to so many decimals, without a nought that has a sign.
fn without_sign_of_zero(value: f64, decimals: usize) -> f64 {
    let unit = 10f64.powi(decimals as i32);
    (value * unit).round() / unit + 0.0
}

/// An hour of the clock to the half hour: "7:30".
fn clock_hour(hours: f64) -> String {
    let halves = (hours * 2.0).round() as i64;
    let hour = (halves / 2).rem_euclid(12);
    let hour = if hour == 0 { 12 } else { hour };
    format!("{hour}:{}", if halves % 2 == 0 { "00" } else { "30" })
}
