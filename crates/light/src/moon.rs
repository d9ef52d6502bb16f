//! Where the moon stands and how brightly it shines.
//!
//! Position by the short series for the moon's longitude and latitude of Montenbruck & Pfleger 2000 (Astronomy on the
//! Personal Computer, 4th ed., ch. 3; coefficients from memory, held to an ephemeris by the tests), good to about five
//! minutes of arc; distance by the series for the parallax in the Astronomical Almanac's low-precision formulae.

use crate::events::{self, Crossing};
use crate::solar::{direction, obliquity_deg};
use crate::twilight::full_moon_horizontal_lx;
use crate::{Moment, Site};
use glam::DVec3;
use std::f64::consts::TAU;
use units::Illuminance;

/// Radius of the Earth at the equator in km and its flattening (WGS 84).
const EARTH_RADIUS_KM: f64 = 6378.137;
const EARTH_FLATTENING: f64 = 1.0 / 298.257_223_563;
const ARC_SECONDS_PER_RADIAN: f64 = 206_264.806;

/// The moon as seen from a site at a moment.
///
/// ```
/// use light::{Moment, Moon, Site};
/// let london = Site::new(51.5, -0.125)?;
/// let moon = Moon::at(Moment::utc(2025, 1, 13, 23, 0, 0.0)?, london);
/// assert!((moon.elevation_deg - 60.18).abs() < 0.1 && moon.illuminated_fraction > 0.99);
/// # Ok::<(), light::LightError>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Moon {
    /// Bearing in degrees, from north through east.
    pub azimuth_deg: f64,
    /// Height of its centre in degrees, as if there were no air, from where one stands.
    pub elevation_deg: f64,
    /// From the Earth's centre, in km.
    pub distance_km: f64,
    /// From the sun, seen from the Earth's centre, 0 to 180 degrees: 180 is full.
    pub elongation_deg: f64,
    /// Part of the disc that is lit, 0 to 1.
    pub illuminated_fraction: f64,
    /// True from new to full.
    pub waxing: bool,
}

impl Moon {
    /// The moon at a moment from a site.
    pub fn at(moment: Moment, site: Site) -> Self {
        let ecliptic = Ecliptic::of_moon(moment);
        let sun = Ecliptic::of_sun(moment);
        let elongation = ecliptic.direction().dot(sun.direction()).clamp(-1.0, 1.0).acos();
        // The angle at the moon between sun and Earth (Meeus 1998, eq. 48.3).
        let sun_km = sun.distance_km;
        let phase = (sun_km * elongation.sin()).atan2(ecliptic.distance_km - sun_km * elongation.cos());
        let ahead = (ecliptic.longitude - sun.longitude).rem_euclid(TAU);
        let (azimuth_deg, elevation_deg) = horizontal(ecliptic.equatorial_km(moment), moment, site);
        Self {
            azimuth_deg,
            elevation_deg,
            distance_km: ecliptic.distance_km,
            elongation_deg: elongation.to_degrees(),
            illuminated_fraction: (1.0 + phase.cos()) / 2.0,
            waxing: ahead < TAU / 2.0,
        }
    }

    /// Moonlight on the ground under a clear sky.
    ///
    /// Cubics of the Explanatory Supplement; see [`crate::twilight`].
    pub fn horizontal(&self) -> Illuminance {
        let phase = 180.0 - self.elongation_deg;
        let parallax_deg = (EARTH_RADIUS_KM / self.distance_km).asin().to_degrees();
        let log = -8.68e-3 * phase - 2.2e-9 * phase.powi(4) + 2.0 * (parallax_deg / 0.951).log10();
        Illuminance(full_moon_horizontal_lx(self.elevation_deg) * 10f64.powf(log))
    }

    /// Unit vector towards the moon: x east, y north, z up.
    pub fn direction(&self) -> DVec3 {
        direction(self.azimuth_deg, self.elevation_deg)
    }

    /// Its phase.
    pub fn phase(&self) -> MoonPhase {
        // A new or full moon is called so for about a day and a half either side: 18 degrees of elongation (ours).
        match (self.elongation_deg, self.waxing) {
            (e, _) if e < 18.0 => MoonPhase::New,
            (e, _) if e > 162.0 => MoonPhase::Full,
            (e, true) if e < 81.0 => MoonPhase::WaxingCrescent,
            (e, false) if e < 81.0 => MoonPhase::WaningCrescent,
            (e, true) if e <= 99.0 => MoonPhase::FirstQuarter,
            (e, false) if e <= 99.0 => MoonPhase::LastQuarter,
            (_, true) => MoonPhase::WaxingGibbous,
            (_, false) => MoonPhase::WaningGibbous,
        }
    }

    /// What the phase is called.
    pub fn phase_name(&self) -> &'static str {
        match self.phase() {
            MoonPhase::New => "new moon",
            MoonPhase::WaxingCrescent => "waxing crescent",
            MoonPhase::FirstQuarter => "first quarter",
            MoonPhase::WaxingGibbous => "waxing gibbous",
            MoonPhase::Full => "full moon",
            MoonPhase::WaningGibbous => "waning gibbous",
            MoonPhase::LastQuarter => "last quarter",
            MoonPhase::WaningCrescent => "waning crescent",
        }
    }
}

/// How much of the moon is lit, and whether that grows.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum MoonPhase {
    /// Next to nothing.
    New,
    /// Less than half, and growing.
    WaxingCrescent,
    /// Half, and growing.
    FirstQuarter,
    /// More than half, and growing.
    WaxingGibbous,
    /// All of it.
    Full,
    /// More than half, and shrinking.
    WaningGibbous,
    /// Half, and shrinking.
    LastQuarter,
    /// Less than half, and shrinking.
    WaningCrescent,
}

/// When the moon's upper edge passes a level horizon between two moments, in order.
///
/// −0.8333°, as for the sun: the two discs are equally wide to a sixteenth.
pub fn passes(site: Site, from: Moment, until: Moment) -> Vec<Crossing> {
    events::crossings(from, until, |moment| {
        Moon::at(moment, site).elevation_deg + 0.8333
    })
}

/// A place on the sky by the ecliptic of the date, from the Earth's centre.
struct Ecliptic {
    longitude: f64,
    latitude: f64,
    distance_km: f64,
}

impl Ecliptic {
    fn of_moon(moment: Moment) -> Self {
        let t = moment.dynamical_centuries();
        let turns = |start: f64, rate: f64| TAU * (start + rate * t).rem_euclid(1.0);
        let mean_longitude = turns(0.606_433, 1_336.855_225);
        let moon = turns(0.374_897, 1_325.552_41);
        let sun = turns(0.993_133, 99.997_361);
        let from_sun = turns(0.827_361, 1_236.853_086);
        let from_node = turns(0.259_086, 1_342.227_825);
        // Amplitude in seconds of arc, then how often each angle enters: moon, sun, from_sun, from_node.
        let longitude_terms: [(f64, [f64; 4]); 14] = [
            (22_640.0, [1.0, 0.0, 0.0, 0.0]),
            (-4586.0, [1.0, 0.0, -2.0, 0.0]),
            (2370.0, [0.0, 0.0, 2.0, 0.0]),
            (769.0, [2.0, 0.0, 0.0, 0.0]),
            (-668.0, [0.0, 1.0, 0.0, 0.0]),
            (-412.0, [0.0, 0.0, 0.0, 2.0]),
            (-212.0, [2.0, 0.0, -2.0, 0.0]),
            (-206.0, [1.0, 1.0, -2.0, 0.0]),
            (192.0, [1.0, 0.0, 2.0, 0.0]),
            (-165.0, [0.0, 1.0, -2.0, 0.0]),
            (148.0, [1.0, -1.0, 0.0, 0.0]),
            (-125.0, [0.0, 0.0, 1.0, 0.0]),
            (-110.0, [1.0, 1.0, 0.0, 0.0]),
            (-55.0, [0.0, 0.0, -2.0, 2.0]),
        ];
        let latitude_terms: [(f64, [f64; 4]); 7] = [
            (-526.0, [0.0, 0.0, -2.0, 1.0]),
            (44.0, [1.0, 0.0, -2.0, 1.0]),
            (-31.0, [-1.0, 0.0, -2.0, 1.0]),
            (-23.0, [0.0, 1.0, -2.0, 1.0]),
            (11.0, [0.0, -1.0, -2.0, 1.0]),
            (-25.0, [-2.0, 0.0, 0.0, 1.0]),
            (21.0, [-1.0, 0.0, 0.0, 1.0]),
        ];
        let series = |terms: &[(f64, [f64; 4])]| -> f64 {
            terms
                .iter()
                .map(|(amplitude, [l, s, d, f])| {
                    amplitude * (l * moon + s * sun + d * from_sun + f * from_node).sin()
                })
                .sum()
        };
        let perturbed = series(&longitude_terms);
        let argument = from_node
            + (perturbed + 412.0 * (2.0 * from_node).sin() + 541.0 * sun.sin()) / ARC_SECONDS_PER_RADIAN;
        let latitude = 18_520.0 * argument.sin() + series(&latitude_terms);
        let parallax_deg = 0.9508
            + 0.0518 * moon.cos()
            + 0.0095 * (moon - 2.0 * from_sun).cos()
            + 0.0078 * (2.0 * from_sun).cos()
            + 0.0028 * (2.0 * moon).cos();
        Self {
            longitude: mean_longitude + perturbed / ARC_SECONDS_PER_RADIAN,
            latitude: latitude / ARC_SECONDS_PER_RADIAN,
            distance_km: EARTH_RADIUS_KM / parallax_deg.to_radians().sin(),
        }
    }

    /// To 0.01° (Astronomical Almanac, low-precision formulae), which is enough for a phase.
    fn of_sun(moment: Moment) -> Self {
        let days = moment.dynamical_centuries() * 36_525.0;
        let anomaly = (357.528 + 0.985_600_3 * days).to_radians();
        let longitude = 280.460 + 0.985_647_4 * days + 1.915 * anomaly.sin() + 0.020 * (2.0 * anomaly).sin();
        Self {
            longitude: longitude.to_radians(),
            latitude: 0.0,
            distance_km: 149_597_870.7
                * (1.00014 - 0.01671 * anomaly.cos() - 0.00014 * (2.0 * anomaly).cos()),
        }
    }

    fn direction(&self) -> DVec3 {
        let (sin_l, cos_l) = self.longitude.sin_cos();
        let (sin_b, cos_b) = self.latitude.sin_cos();
        DVec3::new(cos_l * cos_b, sin_l * cos_b, sin_b)
    }

    fn equatorial_km(&self, moment: Moment) -> DVec3 {
        let DVec3 { x, y, z } = self.direction() * self.distance_km;
        let (sin_e, cos_e) = obliquity_deg(moment).to_radians().sin_cos();
        DVec3::new(x, y * cos_e - z * sin_e, y * sin_e + z * cos_e)
    }
}

/// Bearing and elevation in degrees of a body at an equatorial position (km from the Earth's centre), seen from a site.
fn horizontal(body_km: DVec3, moment: Moment, site: Site) -> (f64, f64) {
    // Greenwich mean sidereal time (IAU 1982).
    let days = moment.days_since_2000();
    let greenwich = 280.460_618_37 + 360.985_647_366_29 * days;
    let sidereal = (greenwich + site.longitude_deg()).to_radians();
    let latitude = site.latitude_deg().to_radians();
    let (sin_s, cos_s) = sidereal.sin_cos();
    let (sin_p, cos_p) = latitude.sin_cos();
    let squeeze = (1.0 - EARTH_FLATTENING).powi(2);
    let curvature = EARTH_RADIUS_KM / (cos_p * cos_p + squeeze * sin_p * sin_p).sqrt();
    let height = site.height_m() / 1000.0;
    let from_axis = (curvature + height) * cos_p;
    let observer = DVec3::new(
        from_axis * cos_s,
        from_axis * sin_s,
        (squeeze * curvature + height) * sin_p,
    );
    let seen = (body_km - observer).normalize();
    let east = DVec3::new(-sin_s, cos_s, 0.0);
    let north = DVec3::new(-sin_p * cos_s, -sin_p * sin_s, cos_p);
    let up = DVec3::new(cos_p * cos_s, cos_p * sin_s, sin_p);
    let azimuth = seen.dot(east).atan2(seen.dot(north)).rem_euclid(TAU);
    (azimuth.to_degrees(), seen.dot(up).asin().to_degrees())
}
