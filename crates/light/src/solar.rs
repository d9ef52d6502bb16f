//! Where the sun stands, and when it rises, sets and passes the twilights.
//!
//! Positions are those of the Solar Position Algorithm (Reda & Andreas 2003, NREL/TP-560-34302, revised 2008), which
//! holds within 0.0003° from the year −2000 to 6000.

use crate::atmosphere::{Air, refraction_deg};
use crate::events::{self, Crossing};
use crate::{Moment, Site};
use glam::DVec3;
use solar_positioning::SolarPositions;

/// Metres in an astronomical unit, IAU 2012.
const ASTRONOMICAL_UNIT_M: f64 = 149_597_870_700.0;
/// Nominal radius of the sun in metres, IAU 2015.
const SUN_RADIUS_M: f64 = 695_700_000.0;

/// The sun as seen from a site at a moment.
///
/// ```
/// use light::{Moment, Site, Sun};
/// // The worked example of the algorithm's report: Golden, Colorado, 2003-10-17, 12:30:30 by mountain time.
/// let site = Site::new(39.742476, -105.1786)?.at_height(1830.14);
/// let sun = Sun::at(Moment::utc(2003, 10, 17, 19, 30, 30.0)?, site);
/// assert!((sun.azimuth_deg - 194.34024).abs() < 1e-4);
/// # Ok::<(), light::LightError>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Sun {
    /// Bearing in degrees, 0 to 360, from north through east.
    pub azimuth_deg: f64,
    /// Height of its centre above the level horizon in degrees, as if there were no air.
    pub elevation_deg: f64,
    /// The same as it looks, lifted by the air.
    pub apparent_elevation_deg: f64,
    /// Distance in astronomical units.
    pub distance_au: f64,
    /// Geocentric right ascension in degrees.
    pub right_ascension_deg: f64,
    /// Geocentric declination in degrees.
    pub declination_deg: f64,
    /// How far the true sun is ahead of a clock of mean local time, in minutes.
    pub equation_of_time_min: f64,
}

impl Sun {
    /// Through air of the usual pressure at the site's height and 10 °C.
    pub fn at(moment: Moment, site: Site) -> Self {
        Self::through(moment, site, Air::at_height(site.height_m()))
    }

    /// Through air of a known pressure and temperature.
    pub fn through(moment: Moment, site: Site, air: Air) -> Self {
        let prepared = SolarPositions::new()
            .for_time_from_julian(moment.julian())
            .expect("a moment lies within the algorithm's years");
        let seen = prepared
            .at(site.location(), site.height_m(), None)
            .expect("a site lies on the Earth");
        let elevation_deg = 90.0 - seen.zenith_angle();
        Self {
            azimuth_deg: seen.azimuth(),
            elevation_deg,
            apparent_elevation_deg: elevation_deg + refraction_deg(elevation_deg, air),
            distance_au: prepared.earth_radius_vector().unwrap_or(1.0),
            right_ascension_deg: prepared.right_ascension(),
            declination_deg: prepared.declination(),
            equation_of_time_min: equation_of_time_min(moment, prepared.right_ascension()),
        }
    }

    /// At a bearing and an airless elevation, at its mean distance: a sun of no particular day.
    pub fn somewhere(azimuth_deg: f64, elevation_deg: f64) -> Self {
        Self {
            azimuth_deg,
            elevation_deg,
            apparent_elevation_deg: elevation_deg + refraction_deg(elevation_deg, Air::default()),
            distance_au: 1.0,
            right_ascension_deg: 0.0,
            declination_deg: 0.0,
            equation_of_time_min: 0.0,
        }
    }

    /// Unit vector towards the sun as it looks: x east, y north, z up.
    pub fn direction(&self) -> DVec3 {
        direction(self.azimuth_deg, self.apparent_elevation_deg)
    }

    /// Width of the disc in degrees.
    pub fn angular_diameter_deg(&self) -> f64 {
        2.0 * self.angular_radius().to_degrees()
    }

    /// Solid angle of the disc in steradians.
    pub fn solid_angle_sr(&self) -> f64 {
        2.0 * std::f64::consts::PI * (1.0 - self.angular_radius().cos())
    }

    fn angular_radius(&self) -> f64 {
        (SUN_RADIUS_M / (self.distance_au * ASTRONOMICAL_UNIT_M)).asin()
    }

    /// How much of the disc stands above a level horizon, 0 to 1.
    pub fn disc_above_horizon(&self) -> f64 {
        let x = (self.apparent_elevation_deg.to_radians() / self.angular_radius()).clamp(-1.0, 1.0);
        ((-x).acos() + x * (1.0 - x * x).sqrt()) / std::f64::consts::PI
    }
}

/// Unit vector of a bearing and an elevation in degrees: x east, y north, z up.
pub fn direction(azimuth_deg: f64, elevation_deg: f64) -> DVec3 {
    let (sin_a, cos_a) = azimuth_deg.to_radians().sin_cos();
    let (sin_e, cos_e) = elevation_deg.to_radians().sin_cos();
    DVec3::new(sin_a * cos_e, cos_a * cos_e, sin_e)
}

/// Nutation in longitude and in obliquity, in degrees (Meeus 1998, Astronomical Algorithms, ch. 22, the short form,
/// good to half a second of arc).
pub fn nutation_deg(moment: Moment) -> (f64, f64) {
    let t = moment.dynamical_centuries();
    let node = (125.04452 - 1934.136261 * t).to_radians();
    let sun = (280.4665 + 36_000.769_8 * t).to_radians();
    let moon = (218.3165 + 481_267.881_3 * t).to_radians();
    let longitude = -17.20 * node.sin() - 1.32 * (2.0 * sun).sin() - 0.23 * (2.0 * moon).sin()
        + 0.21 * (2.0 * node).sin();
    let obliquity =
        9.20 * node.cos() + 0.57 * (2.0 * sun).cos() + 0.10 * (2.0 * moon).cos() - 0.09 * (2.0 * node).cos();
    (longitude / 3600.0, obliquity / 3600.0)
}

/// Tilt of the Earth's axis against its orbit, nutation included, in degrees (Meeus 1998, eq. 22.2).
pub fn obliquity_deg(moment: Moment) -> f64 {
    let t = moment.dynamical_centuries();
    23.439_291_1 - 0.013_004_17 * t + nutation_deg(moment).1
}

/// Reda & Andreas 2003, eq. A.1, with the sun's mean longitude of eq. A.2.
fn equation_of_time_min(moment: Moment, right_ascension_deg: f64) -> f64 {
    let t = moment.dynamical_centuries() / 10.0;
    let mean = 280.466_456_7 + 360_007.698_277_9 * t + 0.030_320_28 * t * t;
    let nutation = nutation_deg(moment).0 * obliquity_deg(moment).to_radians().cos();
    let degrees = (mean - 0.005_718_3 - right_ascension_deg + nutation + 180.0).rem_euclid(360.0) - 180.0;
    4.0 * degrees
}

/// The airless elevations of the sun's centre at which something is said to happen.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum SunLevel {
    /// −18°: beyond it the sky is as dark as it gets.
    Astronomical,
    /// −12°.
    Nautical,
    /// −6°.
    Civil,
    /// −0.8333°: the upper edge of the disc on a level horizon, lifted by the usual air.
    Horizon,
}

impl SunLevel {
    /// All, from night to day.
    pub const ALL: [Self; 4] = [Self::Astronomical, Self::Nautical, Self::Civil, Self::Horizon];

    /// Degrees.
    pub const fn elevation_deg(self) -> f64 {
        match self {
            Self::Astronomical => -18.0,
            Self::Nautical => -12.0,
            Self::Civil => -6.0,
            Self::Horizon => -0.8333,
        }
    }
}

/// When the sun passes an airless elevation between two moments, in order.
///
/// Empty if it stays above or below throughout, as it does for weeks near the poles.
pub fn passes(site: Site, from: Moment, until: Moment, elevation_deg: f64) -> Vec<Crossing> {
    events::crossings(from, until, |moment| {
        Sun::at(moment, site).elevation_deg - elevation_deg
    })
}

/// When the sun passes the meridian between two moments, above the pole's side or not.
pub fn transits(site: Site, from: Moment, until: Moment) -> Vec<Moment> {
    // East of the meridian the sine of the bearing is positive, west of it negative; at the lower transit it is the
    // other way round.
    events::crossings(from, until, |moment| {
        Sun::at(moment, site).azimuth_deg.to_radians().sin()
    })
    .into_iter()
    .filter(|crossing| !crossing.rising)
    .map(|crossing| crossing.at)
    .collect()
}
