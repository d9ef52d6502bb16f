//! `[sky]`: where on Earth and when, the weather, the ground, and what stands on the horizon.

use super::camera::inner;
use super::lower_errors;
use super::nearest::{nearest, plain};
use super::parts;
use super::problem::Problem;
use super::quoting::{shorten, shown};
use super::section::{Entry, Said, Section, find_word, number_of};
use super::surface;
use super::words::{Noun, Words, did_you_mean, fixed, write_it_like};
use crate::both;
use colour::Spectrum;
use jiff::civil::{Date, DateTime, Time};
use jiff::tz::{AmbiguousOffset, Offset, TimeZone};
use jiff::{Timestamp, ToSpan};
use light::{Moment, Obstruction, Outdoors, Site, SkyKind, Weather};
use toml::de::DeValue;
use units::{Degrees, Metres};

/// Something on the horizon, with its name and what it is made of.
#[derive(Clone, Debug, PartialEq)]
pub struct Obstacle {
    /// What it is called.
    pub name: String,
    /// Where it stands.
    pub where_it_stands: Obstruction,
    /// Its reflectance.
    pub surface: Spectrum,
}

/// The part `[sky]` of a shoot file.
#[derive(Clone, Debug)]
pub struct SkyRead {
    /// The place.
    pub site: Site,
    /// The date there.
    pub date: Date,
    /// The moment of the picture, in universal time.
    pub moment: Moment,
    /// Name of the time zone, or its offset from universal time.
    pub zone: String,
    /// Bearing in which the camera looks, degrees from north through east: that of the room's length.
    pub camera_looks_deg: f64,
    /// The weather.
    pub weather: Weather,
    /// The sky's pattern, if it was said.
    pub sky: Option<SkyKind>,
    /// What the ground is called.
    pub ground_name: String,
    /// Its reflectance.
    pub ground: Spectrum,
    /// What stands on the horizon.
    pub skyline: Vec<Obstacle>,
    rules: TimeZone,
}

impl SkyRead {
    /// Where and in what one photographs, for the light at any moment.
    pub fn outdoors(&self) -> Outdoors {
        Outdoors {
            site: self.site,
            weather: self.weather,
            sky: self.sky,
            ground: self.ground,
            skyline: self
                .skyline
                .iter()
                .map(|obstacle| obstacle.where_it_stands)
                .collect(),
        }
    }

    /// The light of sun, sky and moon at the moment of the picture, were nothing in the sun's way.
    pub fn daylight(&self) -> light::Daylight {
        self.outdoors().daylight(self.moment)
    }

    /// Beginning and end of the date by local clocks.
    pub fn day(&self) -> (Moment, Moment) {
        let midnight = |date: Date| {
            let at = self.rules.to_ambiguous_timestamp(date.at(0, 0, 0, 0));
            at.compatible()
                .ok()
                .and_then(|timestamp| moment_of(timestamp).ok())
        };
        let from = midnight(self.date).unwrap_or(self.moment);
        let until = self.date.tomorrow().ok().and_then(midnight);
        (from, until.unwrap_or(from.later(86_400.0)))
    }

    /// The local clock at a moment.
    pub fn clock(&self, at: Moment) -> DateTime {
        let timestamp = Timestamp::from_millisecond((at.seconds() * 1000.0).round() as i64);
        self.rules.to_datetime(timestamp.unwrap_or(Timestamp::UNIX_EPOCH))
    }

    /// The local clock to the minute, "16:40".
    pub fn clock_text(&self, at: Moment) -> String {
        // To the nearest minute: an event at 16:39:40 is at 16:40.
        let clock = self.clock(at.later(30.0));
        format!("{:02}:{:02}", clock.hour(), clock.minute())
    }

    /// The place in degrees, with the letters of each language.
    pub(crate) fn place_words(&self) -> Words {
        let side = |degrees: f64, positive: Words, negative: Words| {
            let letter = if degrees < 0.0 { negative } else { positive };
            both!("{} {}", fixed(degrees.abs(), 2), letter; "{}° {}")
        };
        let latitude = side(self.site.latitude_deg(), Words::same("N"), Words::same("S"));
        let longitude = side(self.site.longitude_deg(), both!("E"; "O"), Words::same("W"));
        both!("{}, {}", latitude, longitude; "{}, {}")
    }

    /// The clock direction of a bearing as seen in the shoot, in hours: 12 is where the camera looks, 3 its right.
    pub fn hour_of(&self, azimuth_deg: f64) -> f64 {
        (azimuth_deg - self.camera_looks_deg).rem_euclid(360.0) / 30.0
    }
}

fn moment_of(timestamp: Timestamp) -> Result<Moment, light::LightError> {
    Moment::from_seconds(timestamp.as_millisecond() as f64 / 1000.0)
}

const COMPASS: [&str; 16] = [
    "N", "NNE", "NE", "ENE", "E", "ESE", "SE", "SSE", "S", "SSW", "SW", "WSW", "W", "WNW", "NW", "NNW",
];

/// The compass point nearest to a bearing, of sixteen, with the letters of each language.
pub(crate) fn bearing_words(azimuth_deg: f64) -> Words {
    let point = COMPASS[((azimuth_deg / 22.5).round() as i64).rem_euclid(16) as usize];
    let german = point.replace('E', "O");
    both!("{point}"; "{german}")
}

pub(crate) fn read(section: &Section<'_>) -> Option<SkyRead> {
    section.close(parts::ALL);
    let latitude = section
        .need("latitude", "\"52.10 N\"")
        .and_then(|entry| coordinate(&entry, &LATITUDE));
    let longitude = section
        .need("longitude", "\"5.12 E\"")
        .and_then(|entry| coordinate(&entry, &LONGITUDE));
    let date = section
        .need("date", "\"2026-12-12\"")
        .and_then(|entry| date(&entry));
    let time = section.need("time", "\"16:40\"").and_then(|entry| time(&entry));
    let site = latitude
        .zip(longitude)
        .and_then(|(latitude, longitude)| Site::new(latitude, longitude).ok());
    let zone = zone(section, site);
    let moment = match (date, time, &zone) {
        (Some(date), Some(time), Some((_, rules))) => moment(section, date.to_datetime(time), rules),
        _ => None,
    };
    let looks = section
        .need("camera_looks", "\"SW\"")
        .and_then(|entry| bearing(&entry));
    let weather = section
        .entry("weather")
        .map(|entry| entry.word(Noun::ein("a weather", "Wetter"), &weathers()));
    let sky = section.entry("cie_sky").map(|entry| standard_sky(&entry));
    let ground = surface::said_or(section, "ground", "grass");
    let skyline: Vec<Option<Obstacle>> = section
        .parts("skyline", &parts::SKYLINE)
        .iter()
        .map(obstacle)
        .collect();
    let (weather, sky, ground) = (inner(weather)?, inner(sky)?, ground?);
    let (zone, rules) = zone?;
    if weather.is_none() && sky.is_none() {
        section.log.warn(
            &section.span,
            both!(
                "no weather is said, so the sky is taken to be clear";
                "kein Wetter genannt, darum gilt der Himmel als klar"
            ),
        );
    }
    let by_sky = sky.map_or(Weather::Clear, Weather::of_sky);
    Some(SkyRead {
        site: site?,
        date: date?,
        moment: moment?,
        zone,
        camera_looks_deg: looks?,
        weather: weather.map_or(by_sky, |said| said.value),
        sky,
        ground_name: ground.name.clone(),
        ground: ground.reflectance,
        skyline: skyline.into_iter().collect::<Option<_>>()?,
        rules,
    })
}

pub(crate) fn weathers() -> Vec<(&'static str, Weather)> {
    Weather::ALL
        .into_iter()
        .map(|weather| (weather.name(), weather))
        .collect()
}

fn standard_sky(entry: &Entry<'_>) -> Option<SkyKind> {
    let number = entry
        .number(
            Noun::eine("the number of a CIE standard sky", "Nummer eines CIE-Normhimmels"),
            1.0,
            15.0,
            "12",
        )?
        .value;
    if number.fract() != 0.0 {
        entry.refuse(
            both!("the CIE standard skies have whole numbers"; "die CIE-Normhimmel haben ganze Nummern"),
            both!("1 to 15"; "1 bis 15"),
            both!(
                "1 is overcast, 5 uniform, 12 clear; or leave this line out and say the weather.";
                "1 ist bedeckt, 5 gleichmäßig, 12 klar; oder diese Zeile weglassen und das Wetter nennen."
            ),
        );
        return None;
    }
    SkyKind::standard(number as u8).ok()
}

/// A circle of coordinates.
struct Circle {
    what: Noun,
    most: f64,
    positive: &'static [&'static str],
    negative: &'static [&'static str],
    example: &'static str,
    /// Said of a number beyond the most.
    beyond: fn() -> Words,
}

/// Beyond this latitude bearings turn by degrees within a few steps (ours): 11 km from a pole.
const MOST_LATITUDE: f64 = 89.9;

const LATITUDE: Circle = Circle {
    what: Noun::eine("a latitude", "geografische Breite"),
    most: MOST_LATITUDE,
    positive: &["n", "north"],
    negative: &["s", "south"],
    example: "52.10 N",
    beyond: || {
        both!(
            "Latitudes go from the equator, 0, to a pole, 90. At a pole itself every direction is south, so no bearing can be told: \
             up to 89.9 can be used. Were latitude and longitude exchanged?";
            "Breiten gehen vom Äquator, 0, bis zum Pol, 90. Am Pol selbst liegt jede Richtung im Süden, also gibt es dort keine \
             Himmelsrichtung: möglich ist bis 89,9. Sind Breite und Länge vertauscht?"
        )
    },
};

const LONGITUDE: Circle = Circle {
    what: Noun::eine("a longitude", "geografische Länge"),
    most: 180.0,
    positive: &["e", "east"],
    negative: &["w", "west"],
    example: "5.12 E",
    beyond: || {
        both!(
            "Longitudes go from Greenwich, 0, to 180 E or 180 W.";
            "Längen gehen von Greenwich, 0, bis 180 E oder 180 W."
        )
    },
};

fn coordinate(entry: &Entry<'_>, circle: &Circle) -> Option<f64> {
    let not_read = |label: Words| {
        entry.refuse(
            both!(
                "\"{}\" is not {} that is understood", entry.key, circle.what.none();
                "\"{}\" ist {}, die verstanden wird"
            ),
            label,
            both!(
                "Write degrees with a letter, as in  {0} = \"{1}\", or degrees and minutes: \"{2} 6' {3}\".",
                entry.key,
                circle.example,
                circle.example.split('.').next().unwrap_or_default(),
                circle.positive[0].to_uppercase();
                "Grad mit einem Buchstaben schreiben, etwa  {0} = \"{1}\", oder Grad und Minuten: \"{2} 6' {3}\"."
            ),
        );
        None
    };
    let degrees = match entry.value {
        DeValue::String(text) => match degrees_of(text, circle) {
            Some(degrees) => degrees,
            None => return not_read(both!("not read"; "nicht zu lesen")),
        },
        _ => match number_of(entry.value) {
            Some(number) if number.is_finite() => number,
            _ => return not_read(both!("not a number of degrees"; "keine Zahl von Grad")),
        },
    };
    if degrees.abs() > circle.most {
        entry.refuse(
            both!("{} degrees cannot be {}", degrees, circle.what.none(); "{} Grad kann {} sein"),
            both!("from -{0} to {0} can be used", circle.most; "möglich: von -{0} bis {0}"),
            (circle.beyond)(),
        );
        return None;
    }
    Some(degrees)
}

/// "52.10 N", "-52.1", "52° 6' 12\" S".
fn degrees_of(text: &str, circle: &Circle) -> Option<f64> {
    let text = text.trim().to_lowercase().replace('\u{2212}', "-");
    let (number, sign) = match text.find(|c: char| c.is_alphabetic()) {
        None => (text.as_str(), None),
        Some(at) => {
            let (number, word) = text.split_at(at);
            let word = word.trim();
            let word = word.strip_prefix("deg").map_or(word, |rest| {
                rest.trim_start_matches("rees").trim_start_matches("ree").trim()
            });
            if word.is_empty() {
                (number, None)
            } else if circle.positive.contains(&word) {
                (number, Some(1.0))
            } else if circle.negative.contains(&word) {
                (number, Some(-1.0))
            } else {
                return None;
            }
        }
    };
    let parts: Option<Vec<f64>> = number
        .split(['°', '\'', '"', '′', '″', ' '])
        .filter(|part| !part.is_empty())
        .map(|part| part.parse::<f64>().ok().filter(|value| value.is_finite()))
        .collect();
    let parts = parts?;
    let (degrees, rest) = parts.split_first()?;
    let small = rest.len() <= 2 && rest.iter().all(|part| (0.0..60.0).contains(part));
    // A sign and a letter would say the same thing twice, and perhaps not the same.
    if !small || (sign.is_some() && degrees.is_sign_negative()) {
        return None;
    }
    let fraction: f64 = rest
        .iter()
        .zip([60.0, 3600.0])
        .map(|(part, unit)| part / unit)
        .sum();
    let size = degrees.abs() + fraction;
    Some(if degrees.is_sign_negative() { -size } else { size } * sign.unwrap_or(1.0))
}

fn date(entry: &Entry<'_>) -> Option<Date> {
    let text = match entry.value {
        DeValue::Datetime(date) if date.time.is_none() => date.to_string(),
        _ => entry
            .text(
                both!("a date in quotes"; "ein Datum in Anführungszeichen"),
                "\"2026-12-12\"",
            )?
            .trim()
            .to_owned(),
    };
    let numbers: Vec<Option<i32>> = text.split('-').map(|part| part.parse().ok()).collect();
    let &[Some(year), Some(month), Some(day)] = &numbers[..] else {
        entry.refuse(
            both!("{} is not a date", shown(&text); "{} ist kein Datum"),
            both!("year, month and day belong here"; "hierher gehören Jahr, Monat und Tag"),
            write_it_like("date = \"2026-12-12\""),
        );
        return None;
    };
    if !(1900..=2100).contains(&year) {
        entry.refuse(
            both!("the year {year} cannot be worked out"; "das Jahr {year} lässt sich nicht berechnen"),
            both!("from 1900 to 2100 can be used"; "möglich: von 1900 bis 2100"),
            both!(
                "The year comes first, with four digits:  date = \"2026-12-12\"";
                "Das Jahr steht vorn, mit vier Ziffern:  date = \"2026-12-12\""
            ),
        );
        return None;
    }
    let date = i16::try_from(year)
        .ok()
        .zip(i8::try_from(month).ok().zip(i8::try_from(day).ok()))
        .and_then(|(year, (month, day))| Date::new(year, month, day).ok());
    if date.is_none() {
        let month_exists = (1..=12).contains(&month);
        let days =
            Date::new(year as i16, month.clamp(1, 12) as i8, 1).map_or(31, |first| first.days_in_month());
        let help = if month_exists {
            both!("Month {month} of {year} has {days} days."; "Monat {month} von {year} hat {days} Tage.")
        } else {
            both!(
                "Months go from 1 to 12; the year comes first, then the month, then the day.";
                "Monate gehen von 1 bis 12; vorn steht das Jahr, dann der Monat, dann der Tag."
            )
        };
        entry.refuse(
            both!("there is no {}", shown(&text); "{} gibt es nicht"),
            both!("not in the calendar"; "nicht im Kalender"),
            help,
        );
    }
    date
}

fn time(entry: &Entry<'_>) -> Option<Time> {
    let text = match entry.value {
        DeValue::Datetime(time) if time.date.is_none() && time.offset.is_none() => time.to_string(),
        _ => entry
            .text(
                both!("a time in quotes"; "eine Uhrzeit in Anführungszeichen"),
                "\"16:40\"",
            )?
            .trim()
            .to_owned(),
    };
    let numbers: Option<Vec<i8>> = text.split(':').map(|part| part.parse().ok()).collect();
    let time = numbers.and_then(|numbers| match numbers[..] {
        [hour, minute] => Time::new(hour, minute, 0, 0).ok(),
        [hour, minute, second] => Time::new(hour, minute, second, 0).ok(),
        _ => None,
    });
    if time.is_none() {
        entry.refuse(
            both!("{} is not a time of day", shown(&text); "{} ist keine Uhrzeit"),
            both!("from 00:00 to 23:59"; "von 00:00 bis 23:59"),
            both!(
                "Write hours and minutes by the local clock, such as  time = \"16:40\"";
                "Stunden und Minuten nach der Uhr am Ort schreiben, etwa  time = \"16:40\""
            ),
        );
    }
    time
}

/// The zone that was said, or that of the place.
fn zone(section: &Section<'_>, site: Option<Site>) -> Option<(String, TimeZone)> {
    let Some(entry) = section.entry("zone") else {
        // Longitude first, then latitude.
        let site = site?;
        let name = tzf_rs::DefaultFinder::new()
            .get_tz_name(site.longitude_deg(), site.latitude_deg())
            .to_owned();
        return match TimeZone::get(&name) {
            Ok(rules) => Some((name, rules)),
            Err(_) => {
                section.missing("zone", "\"UTC\"");
                None
            }
        };
    };
    let text = entry
        .text(
            both!("a time zone in quotes"; "eine Zeitzone in Anführungszeichen"),
            "\"Europe/Amsterdam\"",
        )?
        .trim();
    if let Some(offset) = offset_of(text) {
        return Some((offset_text(offset), TimeZone::fixed(offset)));
    }
    // A name is a path in some data bases; only those that the list has are looked up.
    let names: Vec<String> = jiff::tz::db().available().map(|name| name.to_string()).collect();
    let known = names.iter().find(|name| name.eq_ignore_ascii_case(text));
    if let Some(rules) = known.and_then(|name| TimeZone::get(name).ok()) {
        return Some((known?.clone(), rules));
    }
    let help = match nearest(text, names.iter().map(String::as_str)) {
        Some(meant) => did_you_mean(meant),
        None => both!(
            "Zones are named after a city, such as \"Europe/Amsterdam\", or by their offset, \"+01:00\". Left out, the zone of the place is taken.";
            "Zeitzonen heißen nach einer Stadt, etwa \"Europe/Amsterdam\", oder nach ihrem Abstand, \"+01:00\". Ohne diese Zeile gilt die Zone des Orts."
        ),
    };
    entry.refuse(
        both!("{} is not a time zone", shown(text); "{} ist keine Zeitzone"),
        both!("not known"; "nicht bekannt"),
        help,
    );
    None
}

/// "+01:00", "-3", "UTC", "UTC+1".
fn offset_of(text: &str) -> Option<Offset> {
    let text = text.replace('\u{2212}', "-");
    let rest = text
        .strip_prefix("UTC")
        .or_else(|| text.strip_prefix("utc"))
        .unwrap_or(&text)
        .trim();
    if rest.is_empty() {
        return (!text.is_empty()).then_some(Offset::UTC);
    }
    let (sign, digits) = match rest.split_at_checked(1)? {
        ("+", digits) => (1, digits),
        ("-", digits) => (-1, digits),
        _ => return None,
    };
    let (hours, minutes) = digits.split_once(':').unwrap_or((digits, "0"));
    let (hours, minutes): (i32, i32) = (hours.parse().ok()?, minutes.parse().ok()?);
    ((0..=14).contains(&hours) && (0..60).contains(&minutes))
        .then(|| Offset::from_seconds(sign * (hours * 3600 + minutes * 60)).ok())
        .flatten()
}

fn offset_text(offset: Offset) -> String {
    let seconds = offset.seconds();
    let sign = if seconds < 0 { '-' } else { '+' };
    format!("{sign}{:02}:{:02}", seconds.abs() / 3600, seconds.abs() / 60 % 60)
}

/// The moment that a local clock shows this.
fn moment(section: &Section<'_>, local: DateTime, rules: &TimeZone) -> Option<Moment> {
    let entry = section.entry("time")?;
    let fold = section.entry("fold").map(|entry| {
        entry.word(
            Noun::eine(
                "which of two equal times",
                "Wahl zwischen zwei gleichen Uhrzeiten",
            ),
            &[("first", true), ("second", false)],
        )
    });
    let fold: Option<Said<bool>> = inner(fold)?;
    let ambiguous = rules.to_ambiguous_timestamp(local);
    let clock = |timestamp: Timestamp| rules.to_datetime(timestamp).strftime("%H:%M").to_string();
    let timestamp = match ambiguous.offset() {
        AmbiguousOffset::Unambiguous { .. } => ambiguous.compatible().ok()?,
        AmbiguousOffset::Gap { before, .. } => {
            // The hour is left out at a change of the rules; both its ends are times that do exist.
            let earlier = before.to_timestamp(local.checked_sub(26.hours()).ok()?).ok()?;
            let change = rules.following(earlier).next()?.timestamp();
            entry.refuse(
                both!(
                    "{} did not exist there on that day", shown(&clock_of(local));
                    "{} gab es dort an diesem Tag nicht"
                ),
                both!("clocks were put forward over it"; "die Uhren wurden darüber hinweg vorgestellt"),
                both!(
                    "The nearest times that exist are {} and {}.", clock(change.checked_sub(1.minute()).ok()?), clock(change);
                    "Die nächsten Zeiten, die es gibt, sind {} und {}."
                ),
            );
            return None;
        }
        AmbiguousOffset::Fold { before, after } => match fold {
            Some(first) if first.value => ambiguous.earlier().ok()?,
            Some(_) => ambiguous.later().ok()?,
            None => {
                entry.refuse(
                    both!(
                        "{} came twice there on that day", shown(&clock_of(local));
                        "{} gab es dort an diesem Tag zweimal"
                    ),
                    both!("clocks were put back over it"; "die Uhren wurden darüber zurückgestellt"),
                    both!(
                        "Say which is meant: fold = \"first\" or fold = \"second\"; or the offset, zone = \"{}\" or zone = \"{}\".", offset_text(before), offset_text(after);
                        "Sagen, welche gemeint ist: fold = \"first\" oder fold = \"second\"; oder den Abstand, zone = \"{}\" oder zone = \"{}\"."
                    ),
                );
                return None;
            }
        },
    };
    match moment_of(timestamp) {
        Ok(moment) => Some(moment),
        Err(error) => {
            entry.refuse(
                lower_errors::light(&error).0,
                both!("outside"; "außerhalb"),
                both!("Take a date nearer to ours."; "Ein näheres Datum wählen."),
            );
            None
        }
    }
}

fn clock_of(local: DateTime) -> String {
    local.strftime("%H:%M").to_string()
}

/// "SW", "south-west", "225 deg".
fn bearing(entry: &Entry<'_>) -> Option<f64> {
    let text = match entry.value {
        DeValue::String(text) => text.trim(),
        _ => return entry.quantity::<Degrees>().map(|said| said.value.value()),
    };
    let words: Vec<(&str, f64)> = COMPASS
        .into_iter()
        .enumerate()
        .map(|(index, point)| (point, index as f64 * 22.5))
        .collect();
    let letters: String = plain(text)
        .replace("north", "n")
        .replace("east", "e")
        .replace("south", "s")
        .replace("west", "w")
        .replace(' ', "");
    if let Some(degrees) = find_word(&letters, &words) {
        return Some(degrees);
    }
    if !text.contains(|c: char| c.is_ascii_digit()) {
        entry.unknown_word(
            text,
            Noun::eine("a bearing", "Himmelsrichtung"),
            words.iter().map(|(word, _)| *word),
        );
        return None;
    }
    let degrees = entry.quantity::<Degrees>()?.value.value();
    if !(0.0..=360.0).contains(&degrees) {
        entry.refuse(
            both!("{} is not a bearing", shown(text); "{} ist keine Himmelsrichtung"),
            both!("from 0 to 360 deg can be used"; "möglich: von 0 bis 360 deg"),
            both!(
                "Bearings go from north, 0, through east, 90, south, 180, and west, 270.";
                "Die Richtungen gehen von Nord, 0, über Ost, 90, Süd, 180, und West, 270."
            ),
        );
        return None;
    }
    Some(degrees.rem_euclid(360.0))
}

/// One `[[sky.skyline]]`.
fn obstacle(section: &Section<'_>) -> Option<Obstacle> {
    section.close(parts::ALL);
    let name = section.name("skyline");
    let from = section
        .need("from", "\"200 deg\"")
        .and_then(|entry| bearing(&entry));
    let to = section
        .need("to", "\"230 deg\"")
        .and_then(|entry| bearing(&entry));
    let height = section
        .need("height", "\"12 deg\"")
        .and_then(|entry| height(section, &entry));
    let surface = surface::said_or(section, "surface", "foliage");
    let (from_deg, to_deg) = (from?, to?);
    let width = (to_deg - from_deg).rem_euclid(360.0);
    if width == 0.0 || width > 300.0 {
        section.log.problem(
            Problem::new(both!("\"{}\" goes nearly all the way round", shorten(&name.value); "\"{}\" geht fast rundherum"))
                .at(section.span.clone(), both!(
                    "from its left end clockwise to its right end";
                    "vom linken Ende im Uhrzeigersinn zum rechten"
                ))
                .help(both!(
                    "Exchange from and to if they are the wrong way round; from is its left end as you look at it.";
                    "from und to vertauschen, falls sie verkehrt herum stehen; from ist das linke Ende, wenn man hinsieht."
                )),
        );
        return None;
    }
    Some(Obstacle {
        name: name.value,
        where_it_stands: Obstruction {
            from_deg,
            to_deg,
            height_deg: height?,
        },
        surface: surface?.reflectance,
    })
}

/// "12 deg", or "15 m" with a distance.
fn height(section: &Section<'_>, entry: &Entry<'_>) -> Option<f64> {
    let text = entry.value.as_str().unwrap_or_default().trim();
    let distance = section.entry("distance");
    if text.parse::<Metres>().is_ok() {
        let metres = entry.length(
            Noun::eine(
                "the height of something on the horizon",
                "Höhe von etwas am Horizont",
            ),
            0.1,
            3000.0,
        )?;
        let Some(distance) = distance else {
            section.missing("distance", "\"40 m\"");
            return None;
        };
        let distance = distance.length(
            Noun::eine(
                "the distance of something on the horizon",
                "Entfernung von etwas am Horizont",
            ),
            1.0,
            10_000.0,
        )?;
        return Some(Obstruction::height_seen_deg(
            f64::from(metres.value),
            f64::from(distance.value),
        ));
    }
    let degrees = entry.quantity::<Degrees>()?.value.value();
    if !(0.0..=89.0).contains(&degrees) {
        entry.refuse(
            both!("{} cannot be how high it stands", shown(text); "{} kann nicht sein, wie hoch es steht"),
            both!("from 0 to 89 deg can be used"; "möglich: von 0 bis 89 deg"),
            both!(
                "A fist at arm's length is about 10 deg. Or give its height and its distance in metres.";
                "Eine Faust am ausgestreckten Arm ist etwa 10 deg. Oder Höhe und Entfernung in Metern angeben."
            ),
        );
        return None;
    }
    if let Some(distance) = distance {
        distance.refuse(
            both!("a height in degrees needs no distance"; "eine Höhe in Grad braucht keine Entfernung"),
            both!("one thing too many"; "eins zu viel"),
            both!(
                "Leave this line out, or give the height in metres.";
                "Diese Zeile weglassen, oder die Höhe in Metern angeben."
            ),
        );
        return None;
    }
    Some(degrees)
}
