//! One day out of doors, as text, as JSON and for its drawing.

use light::{DayEvents, Look, Moment, Stretch, SunLevel};
use schemars::JsonSchema;
use serde::Serialize;
use sheet::{DayEvent, DayLook, DaySetting, DayTable, Voice};
use shoot::SkyRead;
use units::Illuminance;

/// The course of a day, worked out.
#[derive(Clone, Debug)]
pub struct Day {
    title: String,
    sky: SkyRead,
    events: DayEvents,
    /// The light every so many minutes.
    looks: Vec<Look>,
    /// The light at the moment of the picture.
    now: Look,
}

/// Rows of the printed table stop at the sun's depth where nothing is left to photograph by (ours).
const LOWEST_PRINTED_DEG: f64 = -12.0;

impl Day {
    /// Works out the day of a sky.
    pub fn of(title: String, sky: SkyRead, every_minutes: u32) -> Self {
        let outdoors = sky.outdoors();
        let (from, until) = sky.day();
        let step = f64::from(every_minutes) * 60.0;
        let steps = (until.since(from) / step).ceil() as u32;
        let looks = (0..steps)
            .map(|k| outdoors.look(from.later(f64::from(k) * step)))
            .collect();
        Day {
            title,
            events: outdoors.events(from, until),
            looks,
            now: outdoors.look(sky.moment),
            sky,
        }
    }

    /// What happens, in order of time.
    fn happenings(&self) -> Vec<(Moment, DayEvent)> {
        let mut all: Vec<(Moment, DayEvent)> = Vec::new();
        let levels = self.events.levels.iter();
        all.extend(levels.map(|(level, crossing)| (crossing.at, sun_event(*level, crossing.rising))));
        let golden: fn(bool) -> DayEvent = |begins| DayEvent::Golden { begins };
        let blue: fn(bool) -> DayEvent = |begins| DayEvent::Blue { begins };
        let (from, until) = self.sky.day();
        for (event, stretches) in [(golden, &self.events.golden), (blue, &self.events.blue)] {
            for stretch in stretches {
                all.extend((stretch.from > from).then(|| (stretch.from, event(true))));
                all.extend((stretch.until < until).then(|| (stretch.until, event(false))));
            }
        }
        all.extend(self.events.transits.iter().map(|at| (*at, DayEvent::SunHighest)));
        all.extend(self.events.skyline.iter().map(|(index, crossing)| {
            let hidden = DayEvent::Hidden {
                behind: self.sky.skyline[*index].name.clone(),
                comes_out: crossing.rising,
            };
            (crossing.at, hidden)
        }));
        let moon = self.events.moon.iter();
        all.extend(moon.map(|crossing| {
            (
                crossing.at,
                DayEvent::Moon {
                    rising: crossing.rising,
                },
            )
        }));
        all.sort_by(|(a, _), (b, _)| a.seconds().total_cmp(&b.seconds()));
        all
    }

    fn setting(&self) -> DaySetting {
        let sky = &self.sky;
        DaySetting {
            latitude_deg: sky.site.latitude_deg(),
            longitude_deg: sky.site.longitude_deg(),
            date: sky.date.to_string(),
            zone: sky.zone.clone(),
            weather: sky.weather,
            sky: sky.sky,
            ground: sky.ground_name.clone(),
            camera_looks_deg: sky.camera_looks_deg,
        }
    }

    /// The day as a table.
    pub fn table(&self) -> DayTable {
        let looks = self.looks.iter();
        DayTable {
            title: self.title.clone(),
            setting: self.setting(),
            sun_all_day: self.events.polar,
            events: self
                .happenings()
                .into_iter()
                .map(|(at, event)| (self.sky.clock_text(at), event))
                .collect(),
            moon: self.now.moon,
            looks: looks
                .filter(|look| look.sun.elevation_deg > LOWEST_PRINTED_DEG)
                .map(|look| self.row(look))
                .collect(),
            picture: self.row(&self.now),
        }
    }

    fn row(&self, look: &Look) -> DayLook {
        let sun = &look.sun;
        DayLook {
            clock: self.sky.clock_text(look.at),
            height_deg: sun.apparent_elevation_deg,
            bearing_deg: sun.azimuth_deg,
            hour: self.sky.hour_of(sun.azimuth_deg),
            facing_ev: ev(look.facing),
            facing_k: look.facing_kelvin.map(units::Kelvin::value),
            away_ev: ev(look.away),
            away_k: look.away_kelvin.map(units::Kelvin::value),
            ground_ev: ev(look.ground),
            fall_stops: look.fall.value(),
            behind: look.behind.map(|index| self.sky.skyline[index].name.clone()),
        }
    }

    /// What the drawing shows.
    pub fn drawing(&self) -> sheet::DayDrawing {
        let (from, until) = self.sky.day();
        let hours = |at: Moment| at.since(from) / 3600.0;
        let stretches = |list: &[Stretch]| list.iter().map(|s| (hours(s.from), hours(s.until))).collect();
        let bearing_at = |at: Moment| light::Sun::at(at, self.sky.site);
        sheet::DayDrawing {
            title: self.title.clone(),
            setting: self.setting(),
            hours: hours(until),
            points: self
                .looks
                .iter()
                .map(|look| sheet::DayPoint {
                    hour: hours(look.at),
                    bearing_deg: look.sun.azimuth_deg,
                    height_deg: look.sun.apparent_elevation_deg,
                    facing_ev: ev(look.facing),
                    away_ev: ev(look.away),
                    clear: look.behind.is_none(),
                })
                .collect(),
            golden: stretches(&self.events.golden),
            blue: stretches(&self.events.blue),
            marks: self
                .events
                .levels
                .iter()
                .filter(|(level, _)| *level == SunLevel::Horizon)
                .map(|(level, crossing)| (crossing.at, sun_event(*level, crossing.rising)))
                .chain(std::iter::once((self.sky.moment, DayEvent::Picture)))
                .map(|(at, event)| sheet::DayMark {
                    hour: hours(at),
                    bearing_deg: bearing_at(at).azimuth_deg,
                    height_deg: bearing_at(at).apparent_elevation_deg,
                    event,
                    clock: self.sky.clock_text(at),
                })
                .collect(),
            clock_hours: (0..=hours(until).round() as u32)
                .map(|hour| self.sky.clock_text(from.later(f64::from(hour) * 3600.0)))
                .collect(),
            skyline: self
                .sky
                .skyline
                .iter()
                .map(|obstacle| sheet::DayObstacle {
                    name: obstacle.name.clone(),
                    from_deg: obstacle.where_it_stands.from_deg,
                    to_deg: obstacle.where_it_stands.to_deg,
                    height_deg: obstacle.where_it_stands.height_deg,
                })
                .collect(),
        }
    }
}

fn ev(light: Illuminance) -> f64 {
    camera::ev_of(light).value()
}

fn sun_event(level: SunLevel, rising: bool) -> DayEvent {
    DayEvent::Sun { level, rising }
}

/// An hour of the clock to the half hour: "7:30".
fn clock_hour(hours: f64) -> String {
    let halves = (hours * 2.0).round() as i64;
    let hour = (halves / 2).rem_euclid(12);
    let hour = if hour == 0 { 12 } else { hour };
    format!("{hour}:{}", if halves % 2 == 0 { "00" } else { "30" })
}

/// Version of the day's JSON; it grows when a field changes its meaning or goes.
pub const DAY_FORMAT: u32 = 1;

/// The day as JSON: what `rushlight sun --json` prints.
#[derive(Clone, Debug, Serialize, JsonSchema)]
pub struct DayReport {
    /// Version of this shape.
    pub format: u32,
    /// Title of the shoot.
    pub shoot: String,
    /// Degrees, north positive.
    pub latitude_deg: f64,
    /// Degrees, east positive.
    pub longitude_deg: f64,
    /// Local date.
    pub date: String,
    /// Time zone, by its name or offset.
    pub zone: String,
    /// The weather.
    pub weather: String,
    /// Bearing of the camera's line in degrees, from north through east.
    pub camera_looks_deg: f64,
    /// `"up"` or `"down"` all day near the poles; absent where the sun rises or sets.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub sun_all_day: Option<String>,
    /// Name of the moon's phase.
    pub moon_phase: String,
    /// Part of the moon that is lit, 0 to 1.
    pub moon_lit: f64,
    /// One standard deviation of the levels, in stops.
    pub spread_stops: f64,
    /// What happens, in order of time.
    pub events: Vec<EventReport>,
    /// The light at the moment of the picture.
    pub picture: LookReport,
    /// The light every so many minutes.
    pub rows: Vec<LookReport>,
}

/// One thing that happens.
#[derive(Clone, Debug, Serialize, JsonSchema)]
pub struct EventReport {
    /// Local clock, to the second.
    pub time: String,
    /// What happens.
    pub what: String,
}

/// The light at one moment.
#[derive(Clone, Debug, Serialize, JsonSchema)]
pub struct LookReport {
    /// Local clock.
    pub time: String,
    /// The sun's height as it looks, in degrees.
    pub sun_height_deg: f64,
    /// Its bearing in degrees, from north through east.
    pub sun_bearing_deg: f64,
    /// Where it stands as seen in the shoot, in hours of the clock with the camera at 6.
    pub sun_clock: String,
    /// What hides it.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub behind: Option<String>,
    /// EV at ISO 100 on an upright surface that faces the sun's bearing.
    pub facing_ev: f64,
    /// Colour of that light in kelvin.
    pub facing_kelvin: Option<f64>,
    /// EV at ISO 100 on an upright surface that faces away from it.
    pub away_ev: f64,
    /// Colour of that light in kelvin.
    pub away_kelvin: Option<f64>,
    /// EV at ISO 100 on open level ground.
    pub ground_ev: f64,
    /// Stops by which that falls in five minutes.
    pub fall_stops: f64,
}

impl DayReport {
    /// Of a day; what happens is told by a voice.
    pub fn of(day: &Day, voice: Voice) -> Self {
        let sky = &day.sky;
        let time = |at: Moment| sky.clock(at).strftime("%Y-%m-%d %H:%M:%S").to_string();
        let hundredths = |value: f64| (value * 100.0).round() / 100.0;
        let look = |look: &Look| LookReport {
            time: time(look.at),
            sun_height_deg: hundredths(look.sun.apparent_elevation_deg),
            sun_bearing_deg: hundredths(look.sun.azimuth_deg),
            sun_clock: clock_hour(sky.hour_of(look.sun.azimuth_deg)),
            behind: look.behind.map(|index| sky.skyline[index].name.clone()),
            facing_ev: hundredths(ev(look.facing)),
            facing_kelvin: look.facing_kelvin.map(|kelvin| kelvin.value().round()),
            away_ev: hundredths(ev(look.away)),
            away_kelvin: look.away_kelvin.map(|kelvin| kelvin.value().round()),
            ground_ev: hundredths(ev(look.ground)),
            fall_stops: hundredths(look.fall.value()),
        };
        DayReport {
            format: DAY_FORMAT,
            shoot: day.title.clone(),
            latitude_deg: sky.site.latitude_deg(),
            longitude_deg: sky.site.longitude_deg(),
            date: sky.date.to_string(),
            zone: sky.zone.clone(),
            weather: sky.weather.name().to_owned(),
            camera_looks_deg: sky.camera_looks_deg,
            sun_all_day: day
                .events
                .polar
                .map(|up| if up { "up" } else { "down" }.to_owned()),
            moon_phase: day.now.moon.phase_name().to_owned(),
            moon_lit: hundredths(day.now.moon.illuminated_fraction),
            spread_stops: sky.weather.spread().value(),
            events: day
                .happenings()
                .into_iter()
                .map(|(at, event)| EventReport {
                    time: time(at),
                    what: event.words(voice),
                })
                .collect(),
            picture: look(&day.now),
            rows: day.looks.iter().map(look).collect(),
        }
    }
}
