//! The course of a day at a place: its events, the light from one look to the next, and what the skyline hides.

use crate::events::{Crossing, crossings};
use crate::solar::{self, SunLevel};
use crate::{Daylight, Moment, Moon, Site, SkyKind, Sun, Weather, moon};
use colour::Spectrum;
use units::{Illuminance, Kelvin, Stops};

/// The sun's airless elevations between which light is called golden (common practice).
pub const GOLDEN_DEG: (f64, f64) = (-4.0, 6.0);
/// The sun's airless elevations between which light is called blue (common practice).
pub const BLUE_DEG: (f64, f64) = (-6.0, -4.0);

/// Something on the horizon that may hide the sun: a part of the circle of bearings, up to a height.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Obstruction {
    /// Bearing of its left end, degrees from north through east.
    pub from_deg: f64,
    /// Bearing of its right end; it stands clockwise from the left one.
    pub to_deg: f64,
    /// Its height above the level horizon in degrees.
    pub height_deg: f64,
}

impl Obstruction {
    /// How far a point of the sky stands clear of it, in degrees; negative behind it.
    ///
    /// ```
    /// let church = light::Obstruction { from_deg: 350.0, to_deg: 20.0, height_deg: 15.0 };
    /// assert_eq!(church.clearance_deg(5.0, 10.0), -5.0);
    /// assert_eq!(church.clearance_deg(340.0, 10.0), 10.0);
    /// ```
    pub fn clearance_deg(&self, azimuth_deg: f64, elevation_deg: f64) -> f64 {
        let half = (self.to_deg - self.from_deg).rem_euclid(360.0) / 2.0;
        let from_middle = (azimuth_deg - self.from_deg - half + 180.0).rem_euclid(360.0) - 180.0;
        (elevation_deg - self.height_deg).max(from_middle.abs() - half)
    }

    /// The height in degrees at which something is seen that rises so far above the eye, at a distance.
    pub fn height_seen_deg(height_m: f64, distance_m: f64) -> f64 {
        height_m.atan2(distance_m).to_degrees()
    }

    /// Whether the middle of the sun's disc is behind it.
    pub fn hides(&self, sun: &Sun) -> bool {
        self.clearance_deg(sun.azimuth_deg, sun.apparent_elevation_deg) < 0.0
    }
}

/// Where and in what one photographs.
#[derive(Clone, Debug, PartialEq)]
pub struct Outdoors {
    /// The place.
    pub site: Site,
    /// The weather.
    pub weather: Weather,
    /// The sky's pattern, if it is not the weather's usual one.
    pub sky: Option<SkyKind>,
    /// Reflectance of the ground.
    pub ground: Spectrum,
    /// What stands on the horizon.
    pub skyline: Vec<Obstruction>,
}

/// A stretch of time.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Stretch {
    /// Its beginning; that of the day if it had begun before.
    pub from: Moment,
    /// Its end; that of the day if it goes on.
    pub until: Moment,
}

/// What happens in a day.
#[derive(Clone, Debug, PartialEq)]
pub struct DayEvents {
    /// The sun passes an elevation, in order of time.
    pub levels: Vec<(SunLevel, Crossing)>,
    /// The sun stands highest.
    pub transits: Vec<Moment>,
    /// Golden light.
    pub golden: Vec<Stretch>,
    /// Blue light.
    pub blue: Vec<Stretch>,
    /// The sun goes behind something on the skyline (not rising) or comes out (rising), with its index.
    pub skyline: Vec<(usize, Crossing)>,
    /// The moon rises or sets.
    pub moon: Vec<Crossing>,
    /// The sun never passes the horizon: `Some(true)` if it stays up, `Some(false)` if down.
    pub polar: Option<bool>,
}

/// The light at one moment.
#[derive(Clone, Debug, PartialEq)]
pub struct Look {
    /// The moment.
    pub at: Moment,
    /// Where the sun stands.
    pub sun: Sun,
    /// What hides it, by its place in the skyline.
    pub behind: Option<usize>,
    /// On an upright surface that faces the sun's bearing; without the sun where something hides it.
    pub facing: Illuminance,
    /// Colour of that light.
    pub facing_kelvin: Option<Kelvin>,
    /// On an upright surface that faces away from the sun's bearing.
    pub away: Illuminance,
    /// Colour of that light.
    pub away_kelvin: Option<Kelvin>,
    /// On open level ground, were nothing in the sun's way.
    pub ground: Illuminance,
    /// By how much that falls in five minutes; negative while it rises.
    pub fall: Stops,
    /// Where the moon stands.
    pub moon: Moon,
}

impl Outdoors {
    /// Sun, sky and moon at a moment, were nothing in the sun's way.
    pub fn daylight(&self, at: Moment) -> Daylight {
        let (sun, moon) = (Sun::at(at, self.site), Moon::at(at, self.site));
        Daylight::new(&sun, Some(&moon), self.weather, self.sky)
    }

    /// What hides the sun, by its place in the skyline.
    pub fn sun_behind(&self, sun: &Sun) -> Option<usize> {
        let up = sun.disc_above_horizon() > 0.0;
        self.skyline
            .iter()
            .position(|obstruction| up && obstruction.hides(sun))
    }

    /// The light at a moment.
    pub fn look(&self, at: Moment) -> Look {
        let open = self.daylight(at);
        let (sun, ground) = (open.sun, open.horizontal());
        let behind = self.sun_behind(&sun);
        let seen = if behind.is_some() {
            open.without_sun()
        } else {
            open
        };
        let facing = seen.upright(sun.azimuth_deg, &self.ground);
        let away = seen.upright(sun.azimuth_deg + 180.0, &self.ground);
        let ground_at = |seconds: f64| self.daylight(at.later(seconds)).horizontal();
        Look {
            at,
            sun,
            behind,
            facing: facing.total(),
            facing_kelvin: facing.colour_temperature(),
            away: away.total(),
            away_kelvin: away.colour_temperature(),
            ground,
            fall: Stops::from_factor(ground_at(-150.0) / ground_at(150.0)),
            moon: Moon::at(at, self.site),
        }
    }

    /// What happens between two moments.
    pub fn events(&self, from: Moment, until: Moment) -> DayEvents {
        let site = self.site;
        let mut levels: Vec<(SunLevel, Crossing)> = SunLevel::ALL
            .into_iter()
            .flat_map(|level| {
                solar::passes(site, from, until, level.elevation_deg())
                    .into_iter()
                    .map(move |crossing| (level, crossing))
            })
            .collect();
        levels.sort_by(|(_, a), (_, b)| a.at.seconds().total_cmp(&b.at.seconds()));
        let crosses_horizon = levels.iter().any(|(level, _)| *level == SunLevel::Horizon);
        let up_at_start = Sun::at(from, site).elevation_deg > SunLevel::Horizon.elevation_deg();
        DayEvents {
            levels,
            transits: solar::transits(site, from, until),
            golden: self.stretches(from, until, GOLDEN_DEG),
            blue: self.stretches(from, until, BLUE_DEG),
            skyline: self.skyline_events(from, until),
            moon: moon::passes(site, from, until),
            polar: (!crosses_horizon).then_some(up_at_start),
        }
    }

    /// When the sun stands between two elevations.
    pub fn stretches(&self, from: Moment, until: Moment, (low, high): (f64, f64)) -> Vec<Stretch> {
        let inside = |moment: Moment| {
            let elevation = Sun::at(moment, self.site).elevation_deg;
            (elevation - low).min(high - elevation)
        };
        let mut open = (inside(from) >= 0.0).then_some(from);
        let mut found = Vec::new();
        for crossing in crossings(from, until, inside) {
            match open.take() {
                Some(begun) => found.push(Stretch {
                    from: begun,
                    until: crossing.at,
                }),
                None => open = Some(crossing.at),
            }
        }
        found.extend(open.map(|begun| Stretch { from: begun, until }));
        found
    }

    fn skyline_events(&self, from: Moment, until: Moment) -> Vec<(usize, Crossing)> {
        let mut found: Vec<(usize, Crossing)> = Vec::new();
        for (index, obstruction) in self.skyline.iter().enumerate() {
            let clearance = |moment: Moment| {
                let sun = Sun::at(moment, self.site);
                obstruction.clearance_deg(sun.azimuth_deg, sun.apparent_elevation_deg)
            };
            let passes = crossings(from, until, clearance).into_iter();
            // From behind a building nothing is seen of what happens below the horizon.
            let seen = passes.filter(|pass| Sun::at(pass.at, self.site).disc_above_horizon() > 0.0);
            found.extend(seen.map(|pass| (index, pass)));
        }
        found.sort_by(|(_, a), (_, b)| a.at.seconds().total_cmp(&b.at.seconds()));
        found
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn outdoors(latitude: f64, skyline: Vec<Obstruction>) -> Outdoors {
        Outdoors {
            site: Site::new(latitude, 0.0).expect("a site"),
            weather: Weather::Clear,
            sky: None,
            ground: Spectrum::splat(0.2),
            skyline,
        }
    }

    fn day(month: u32, date: u32) -> (Moment, Moment) {
        let from = Moment::utc(2026, month, date, 0, 0, 0.0).expect("a moment");
        (from, from.later(86_400.0))
    }

    #[test]
    fn a_day_has_its_events_in_order() {
        let (from, until) = day(3, 20);
        let events = outdoors(45.0, Vec::new()).events(from, until);
        let names: Vec<SunLevel> = events.levels.iter().map(|(level, _)| *level).collect();
        let (up, down) = names.split_at(4);
        assert_eq!(up, SunLevel::ALL);
        assert!(down.iter().eq(SunLevel::ALL.iter().rev()));
        assert_eq!((events.transits.len(), events.polar), (1, None));
        assert_eq!((events.golden.len(), events.blue.len()), (2, 2));
        // Common practice: from -4 to -6 degrees takes 11 minutes at 45 degrees of latitude, at the equinox.
        let blue = events.blue[1].until.since(events.blue[1].from) / 60.0;
        assert!((blue - 11.3).abs() < 0.5, "{blue}");
    }

    #[test]
    fn a_polar_day_and_a_polar_night() {
        for (month, expected) in [(6, true), (12, false)] {
            let (from, until) = day(month, 21);
            let events = outdoors(75.0, Vec::new()).events(from, until);
            assert_eq!(events.polar, Some(expected));
        }
    }

    #[test]
    fn the_sun_goes_behind_a_tower_and_comes_out() {
        let tower = Obstruction {
            from_deg: 200.0,
            to_deg: 210.0,
            height_deg: 60.0,
        };
        let place = outdoors(45.0, vec![tower]);
        let (from, until) = day(3, 20);
        let events = place.events(from, until);
        assert_eq!(events.skyline.len(), 2);
        let (behind, out) = (events.skyline[0].1, events.skyline[1].1);
        assert!(!behind.rising && out.rising);
        for (event, bearing) in [(behind, 200.0), (out, 210.0)] {
            let sun = Sun::at(event.at, place.site);
            assert!((sun.azimuth_deg - bearing).abs() < 0.01, "{}", sun.azimuth_deg);
        }
        let middle = behind.at.later(out.at.since(behind.at) / 2.0);
        let (hidden, before) = (place.look(middle), place.look(behind.at.later(-60.0)));
        assert_eq!((hidden.behind, before.behind), (Some(0), None));
        assert!(hidden.facing.value() < before.facing.value() / 4.0);
    }

    #[test]
    fn light_falls_faster_after_sunset() {
        // Common practice at 45 degrees: a stop in 10 to 15 minutes before sunset, in 4 to 7 after it.
        let place = outdoors(45.0, Vec::new());
        let (from, until) = day(3, 20);
        let set = place
            .events(from, until)
            .levels
            .iter()
            .find(|(level, crossing)| *level == SunLevel::Horizon && !crossing.rising)
            .map(|(_, crossing)| crossing.at)
            .expect("a sunset");
        let fall = |minutes: f64| place.look(set.later(minutes * 60.0)).fall.value();
        assert!((5.0 / 15.0..=5.0 / 7.0).contains(&fall(-10.0)), "{}", fall(-10.0));
        assert!((5.0 / 7.0..=5.0 / 4.0).contains(&fall(15.0)), "{}", fall(15.0));
        assert!(fall(25.0) > fall(15.0) && fall(-300.0).abs() < 0.1);
    }
}
