//! Daylight as part of a job: what the sky and the sun give, and what a reading makes of it.

use crate::MeterFacing;
use colour::LightColour;
use glam::Vec3;
use light::CieSky;
use units::{Ev, Illuminance, Kelvin, Stops};

/// The daylight around a place, at one moment.
#[derive(Clone, Debug)]
pub struct Outdoors {
    /// How the sky's luminance is spread, in the place's own frame: x to the camera's right, y along its line,
    /// z up.
    pub pattern: CieSky,
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
    /// "sky", "sun" or "moon".
    pub name: String,
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
