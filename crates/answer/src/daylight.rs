//! Daylight as part of a job: what the sky and the sun give, and what a reading makes of it.

use crate::{LightName, MeterFacing};
use colour::LightColour;
use glam::{DVec3, Quat, Vec3};
use light::{Daylight, SkyLight};
use units::{Ev, Illuminance, Kelvin, Stops};

/// Half the angle that the moon fills, in radians: the sun's at the mean distance, 959.63″ (Astronomical Almanac), for
/// the two look alike from the earth.
const MOON_HALF_ANGLE: f32 = 0.004_652;

/// Colour temperature that stands for a light too far from white to have one: a deep blue sky.
const DEEP_BLUE_K: f64 = 25_000.0;

/// A moon that gives less than this share of the sky's light is not worth a line (ours: ten stops).
const FAINT: f64 = 0.001;

/// The daylight around a place, at one moment.
#[derive(Clone, Debug)]
pub struct DaylightHere {
    /// How the sky's light is spread, in brightness and colour, in the place's own frame: x to the camera's right, y
    /// along its line, z up.
    pub pattern: SkyLight,
    /// The sky's light, as the illuminance of open ground.
    pub sky: DaylightPart,
    /// The sun, or the moon at night; `None` when neither is up.
    pub disc: Option<Disc>,
    /// Where the photographer read a meter, what it said: everything is scaled to agree.
    pub reading: Option<(Ev, MeterFacing)>,
    /// How far a sky like this one may be from what is computed, in stops.
    pub spread: Stops,
}

/// A part of daylight: its strength and its colour.
#[derive(Clone, Debug)]
pub struct DaylightPart {
    /// Sky, sun or moon.
    pub name: LightName,
    /// Of open ground for a sky; of a surface that faces it for a sun.
    pub illuminance: Illuminance,
    /// Colour.
    pub colour: LightColour,
    /// Its colour temperature.
    pub kelvin: Kelvin,
}

/// The sun or the moon.
#[derive(Clone, Debug)]
pub struct Disc {
    /// Unit direction towards it, in the place's own frame.
    pub towards: Vec3,
    /// Half the angle that it fills, in radians.
    pub half_angle: f32,
    /// Its light, on a surface that faces it.
    pub light: DaylightPart,
}

impl DaylightHere {
    /// Daylight around a place whose camera looks along a bearing, in degrees from north through east.
    ///
    /// At night the moon takes the sun's place.
    pub fn new(daylight: &Daylight, camera_looks_deg: f64) -> Self {
        let towards = |direction: DVec3| in_place(direction.as_vec3(), camera_looks_deg);
        let sun = towards(daylight.sun.direction());
        let deep_blue = Kelvin::new(DEEP_BLUE_K).expect("a colour temperature that has a unit");
        let part = |name: LightName, illuminance: Illuminance, colour: LightColour| DaylightPart {
            name,
            illuminance,
            colour,
            kelvin: colour.cct_duv().map_or(deep_blue, |(kelvin, _)| kelvin),
        };
        let disc = if daylight.sun_normal.value() > 0.0 {
            Some(Disc {
                towards: sun,
                half_angle: (0.5 * daylight.sun.angular_diameter_deg()).to_radians() as f32,
                light: part(LightName::Sun, daylight.sun_normal, daylight.sun_colour),
            })
        } else if daylight.moon_normal > daylight.sky_horizontal * FAINT {
            Some(Disc {
                towards: towards(daylight.moon_direction),
                half_angle: MOON_HALF_ANGLE,
                light: part(LightName::Moon, daylight.moon_normal, daylight.moon_colour),
            })
        } else {
            None
        };
        DaylightHere {
            pattern: daylight.sky.with_sun(sun),
            sky: part(LightName::Sky, daylight.sky_horizontal, daylight.sky_colour),
            disc,
            reading: None,
            spread: daylight.spread,
        }
    }
}

/// A direction given by east, north and up, in the frame of a place whose camera looks along a bearing.
///
/// ```
/// // A camera that looks east has the north on its left.
/// let north = answer::in_place(glam::Vec3::Y, 90.0);
/// assert!((north + glam::Vec3::X).length() < 1e-6);
/// ```
pub fn in_place(direction: Vec3, camera_looks_deg: f64) -> Vec3 {
    // Seen from above the place is turned against the world by the camera's bearing.
    Quat::from_rotation_z(camera_looks_deg.to_radians() as f32) * direction
}

#[cfg(test)]
mod tests {
    use super::*;
    use light::{Moment, Moon, Site, Sun, Weather};

    #[test]
    fn a_sun_in_the_south_west_is_before_a_camera_that_looks_there() {
        let site = Site::new(52.0, 5.0).unwrap();
        let moment = Moment::utc(2026, 12, 12, 13, 30, 0.0).unwrap();
        let (sun, moon) = (Sun::at(moment, site), Moon::at(moment, site));
        let daylight = Daylight::new(&sun, Some(&moon), Weather::Clear, None);
        let check = |looks: f64, expected_bearing: f64| {
            let there = DaylightHere::new(&daylight, looks);
            let disc = there.disc.unwrap();
            let bearing = f64::from(scene::bearing_of(disc.towards)).to_degrees();
            let off = (bearing - expected_bearing + 180.0).rem_euclid(360.0) - 180.0;
            assert!(off.abs() < 0.01, "{bearing} instead of {expected_bearing}");
            assert!((f64::from(disc.towards.z) - sun.direction().z).abs() < 1e-6);
        };
        check(0.0, sun.azimuth_deg);
        check(sun.azimuth_deg, 0.0);
        check(sun.azimuth_deg - 90.0, 90.0);
        check(300.0, sun.azimuth_deg - 300.0);
    }
}
