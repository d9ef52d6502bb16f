//! Our sun and moon against an independent astronomy package and a measured ephemeris.
//!
//! 2000 places and moments made at random (seeded), from 85° south to 85° north and from 1960 to 2049, go to
//! `oracle/sky.py`: Skyfield 1.55 with JPL's ephemeris DE421 (Folkner, Williams & Boggs 2009, IPN Progress Report 42-178).
//! It shares nothing with the algorithms here: positions by numerical integration, the Earth's turn by IAU 2000A and 2006,
//! events by its own search. Both go by the Earth's turn (UT1), which a clock keeps within 0.9 s. Tolerances are ours.

#![allow(clippy::print_stdout, reason = "the largest differences are worth reading")]

mod oracle;

use light::{Air, Moment, Moon, Site, Sun, SunLevel, solar};
use oracle::{Dice, Largest, ask};
use serde_json::{Value, json};

/// A five-hundredth of the disc; a quarter of a second of the Earth's turn.
const ALLOWED_DEG: f64 = 0.001;
/// Two formulae of refraction, of which one goes by the true height and the other by that as it looks.
const ALLOWED_LIFTED_DEG: f64 = 0.01;
/// The air that both formulae were made for. In thinner air they part, by 0.03° on the horizon at 3000 m.
const AIR: Air = Air {
    pressure_hpa: 1010.0,
    temperature_c: 10.0,
};
/// What the moon's short series is said to keep: five minutes of arc.
const ALLOWED_MOON_DEG: f64 = 5.0 / 60.0;
const ALLOWED_MOON_LIT: f64 = 0.001;
/// What the formula of the parallax is said to keep, 0.003° of 0.95°.
const ALLOWED_MOON_DISTANCE: f64 = 0.003 / 0.95;
const ALLOWED_EVENT_S: f64 = 1.0;
/// A sun that passes a level slower than this grazes it: its moment hangs on a fraction of a thousandth of a degree, and
/// only its height is held. On the equator it passes 15° in an hour.
const GRAZING_DEG_PER_HOUR: f64 = 2.0;
/// So near to the ends of a day an event may lie on either side.
const END_S: f64 = 60.0;

const LEVELS: [SunLevel; 2] = [SunLevel::Horizon, SunLevel::Civil];

struct Case {
    site: Site,
    moment: Moment,
}

fn cases(count: usize) -> Vec<Case> {
    let mut dice = Dice(20_480_229);
    let from = Moment::utc(1960, 1, 1, 0, 0, 0.0).expect("a date");
    let until = Moment::utc(2050, 1, 1, 0, 0, 0.0).expect("a date");
    (0..count)
        .map(|_| Case {
            site: Site::new(dice.within(-85.0, 85.0), dice.within(-180.0, 180.0))
                .expect("on the Earth")
                .at_height(dice.within(0.0, 3000.0)),
            moment: from.later(dice.within(0.0, until.since(from))),
        })
        .collect()
}

impl Case {
    fn question(&self) -> Value {
        json!({
            "seconds": self.moment.seconds(),
            "latitude": self.site.latitude_deg(),
            "longitude": self.site.longitude_deg(),
            "height": self.site.height_m(),
            "pressure": AIR.pressure_hpa,
            "celsius": AIR.temperature_c,
        })
    }

    fn end(&self) -> Moment {
        self.moment.later(86_400.0)
    }
}

fn number(theirs: &Value, key: &str) -> f64 {
    theirs[key].as_f64().expect("a number")
}

fn list(theirs: &Value) -> &[Value] {
    theirs.as_array().expect("a list")
}

/// Difference of bearings in degrees of arc on the sky: at a height a degree of bearing is less.
fn bearing_off(ours_deg: f64, theirs_deg: f64, elevation_deg: f64) -> f64 {
    let turned = (ours_deg - theirs_deg + 180.0).rem_euclid(360.0) - 180.0;
    turned * elevation_deg.to_radians().cos()
}

#[test]
fn an_ephemeris_sees_sun_and_moon_where_we_do() {
    let cases = cases(2000);
    let questions: Vec<Value> = cases.iter().map(Case::question).collect();
    let answer = ask(
        "sky.py",
        "astronomy package",
        &json!({ "moments": questions, "days": [], "levels": [] }),
    );
    let theirs = list(&answer["moments"]);
    assert_eq!(theirs.len(), cases.len());
    let mut all = [
        Largest::new("bearing of the sun, degrees", ALLOWED_DEG),
        Largest::new("height of the sun without air, degrees", ALLOWED_DEG),
        Largest::new("height of the risen sun as it looks, degrees", ALLOWED_LIFTED_DEG),
        Largest::new("bearing of the moon, degrees", ALLOWED_MOON_DEG),
        Largest::new("height of the moon without air, degrees", ALLOWED_MOON_DEG),
        Largest::new("lit part of the moon", ALLOWED_MOON_LIT),
        Largest::new("distance of the moon, relative", ALLOWED_MOON_DISTANCE),
    ];
    let mut risen = 0;
    for (case, theirs) in cases.iter().zip(theirs) {
        let (sun, moon) = (
            Sun::through(case.moment, case.site, AIR),
            Moon::at(case.moment, case.site),
        );
        let azimuth = number(theirs, "azimuth");
        all[0].see(bearing_off(sun.azimuth_deg, azimuth, sun.elevation_deg));
        all[1].see(sun.elevation_deg - number(theirs, "elevation"));
        // Below, nothing is seen of the sun, and formulae of refraction mean nothing.
        if sun.elevation_deg > SunLevel::Horizon.elevation_deg() {
            all[2].see(sun.apparent_elevation_deg - number(theirs, "lifted"));
            risen += 1;
        }
        let azimuth = number(theirs, "moon_azimuth");
        all[3].see(bearing_off(moon.azimuth_deg, azimuth, moon.elevation_deg));
        all[4].see(moon.elevation_deg - number(theirs, "moon_elevation"));
        all[5].see(moon.illuminated_fraction - number(theirs, "moon_lit"));
        all[6].see(moon.distance_km / number(theirs, "moon_km") - 1.0);
    }
    println!(
        "{} places and moments, the sun up at {risen}, package version {}",
        cases.len(),
        answer["version"]
    );
    assert!(risen > 800, "{risen}");
    Largest::hold(&all);
}

/// A passage of a level, by us or by them.
struct Passage {
    level_deg: f64,
    rising: bool,
    at: Moment,
    degrees_per_hour: f64,
}

impl Passage {
    fn theirs(theirs: &Value) -> Self {
        Self {
            level_deg: number(theirs, "level"),
            rising: theirs["rising"].as_bool().expect("yes or no"),
            at: Moment::from_seconds(number(theirs, "seconds")).expect("a moment"),
            degrees_per_hour: number(theirs, "degrees_per_hour"),
        }
    }

    fn ours(case: &Case) -> Vec<Self> {
        let mut all = Vec::new();
        for level_deg in LEVELS.map(SunLevel::elevation_deg) {
            for crossing in solar::passes(case.site, case.moment, case.end(), level_deg) {
                let height = |later: f64| Sun::at(crossing.at.later(later), case.site).elevation_deg;
                all.push(Self {
                    level_deg,
                    rising: crossing.rising,
                    at: crossing.at,
                    degrees_per_hour: (height(60.0) - height(-60.0)) * 30.0,
                });
            }
        }
        all
    }

    fn grazes(&self) -> bool {
        self.degrees_per_hour.abs() < GRAZING_DEG_PER_HOUR
    }

    fn near_an_end(&self, case: &Case) -> bool {
        self.at.since(case.moment) < END_S || case.end().since(self.at) < END_S
    }

    /// Seconds to the nearest of the same kind.
    fn apart(&self, others: &[Self]) -> f64 {
        others
            .iter()
            .filter(|other| other.rising == self.rising && other.level_deg == self.level_deg)
            .map(|other| self.at.since(other.at).abs())
            .fold(f64::INFINITY, f64::min)
    }
}

/// What either finds, the other must find, unless the sun grazes the level or the event lies at the end of the day.
#[test]
fn an_ephemeris_has_the_sun_rise_and_set_when_we_do() {
    let cases = cases(300);
    let questions: Vec<Value> = cases.iter().map(Case::question).collect();
    let levels = LEVELS.map(SunLevel::elevation_deg);
    let answer = ask(
        "sky.py",
        "astronomy package",
        &json!({ "moments": [], "days": questions, "levels": levels }),
    );
    let theirs = list(&answer["days"]);
    assert_eq!(theirs.len(), cases.len());
    let mut all = [
        Largest::new("time of rise and set, seconds", ALLOWED_EVENT_S),
        Largest::new("time of civil dawn and dusk, seconds", ALLOWED_EVENT_S),
        Largest::new("our height of the sun at their events, degrees", ALLOWED_DEG),
    ];
    let (mut held, mut grazing) = (0, 0);
    for (case, theirs) in cases.iter().zip(theirs) {
        let theirs: Vec<Passage> = list(theirs).iter().map(Passage::theirs).collect();
        let ours = Passage::ours(case);
        for passage in &theirs {
            all[2].see(Sun::at(passage.at, case.site).elevation_deg - passage.level_deg);
            grazing += usize::from(passage.grazes());
        }
        let both = theirs.iter().map(|passage| (passage, &ours));
        for (passage, others) in both.chain(ours.iter().map(|passage| (passage, &theirs))) {
            if !passage.grazes() && !passage.near_an_end(case) {
                let twilight = passage.level_deg == SunLevel::Civil.elevation_deg();
                all[usize::from(twilight)].see(passage.apart(others));
                held += 1;
            }
        }
    }
    println!("{held} events held, found by them or by us; {grazing} of theirs graze");
    assert!(held > 1600 && grazing > 0, "{held}, {grazing}");
    Largest::hold(&all);
}
