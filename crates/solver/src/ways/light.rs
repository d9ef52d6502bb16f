//! From spectra at the face to what a photographer would say of the light.

use crate::practice::HARDLY_THERE;
use answer::{Cast, KeyReading, LandmarkLevel};
use colour::{LightColour, Spectrum, cct_duv};
use glam::Vec3;
use scene::figure::LandmarkName;
use units::{Duv, Kelvin, Stops};

/// Everything that one way of lighting does to the faces, for the flash at full power.
#[derive(Clone, Debug, Default)]
pub(crate) struct FaceLight {
    /// Dome towards the camera, per band of a flat flash, in lx s.
    pub dome: Spectrum,
    /// The same after the first bounce alone, direct light included for a direct aim.
    pub first: Spectrum,
    /// Light straight from the head at the dome, in lx s.
    pub direct: f32,
    /// Light vector, luminous.
    pub vector: Vec3,
    /// Direction to what carries the key: the lit patch, the board or the head, without the room's fill.
    pub key_direction: Vec3,
    /// The part of the vector that comes straight from the head.
    pub spill_vector: Vec3,
    /// The part of the cheeks' light that comes straight from the head.
    pub spill_cheeks: [f32; 2],
    /// The part of the forehead's light that comes straight from the head.
    pub spill_forehead: f32,
    /// Upper cheeks on the camera's left and right, in lx s.
    pub cheeks: [f32; 2],
    /// Forehead, in lx s.
    pub forehead: f32,
    /// Mean of the eye sockets, in lx s.
    pub sockets: f32,
    /// Mean on what is seen on either side of the head, in lx s.
    pub background: f32,
    /// Dome at every other sitter, in lx s.
    pub others: Vec<f32>,
    /// Width of the light over its distance.
    pub softness: f32,
    /// Landmarks, in lx s; only filled for the finished answer.
    pub landmarks: Vec<(LandmarkName, f32)>,
}

impl FaceLight {
    /// Dome reading in lx s at full power.
    pub fn dose(&self, colour: &LightColour) -> f64 {
        f64::from(colour.luminous(&self.dome))
    }

    /// Whether light straight from the head would show beside the bounce.
    pub fn spills(&self, colour: &LightColour) -> bool {
        let bounced = (self.dose(colour) - f64::from(self.direct)).max(1e-12);
        self.direct > 0.0 && (f64::from(self.direct) / bounced).log2() > HARDLY_THERE
    }

    /// Takes the light straight from the head away, as a flag does. The head is far enough that its light
    /// meets the whole face alike.
    pub fn block_spill(&mut self) {
        self.dome = self.dome.map(|v| (v - self.direct).max(0.0));
        self.vector -= self.spill_vector;
        for (value, spill) in self.cheeks.iter_mut().zip(self.spill_cheeks) {
            *value = (*value - spill).max(0.0);
        }
        self.forehead = (self.forehead - self.spill_forehead).max(0.0);
        self.direct = 0.0;
    }

    /// What a photographer would say of it; `own` is the reflectance of what carries the light, `facing` is the level direction of the nose.
    pub fn reading(&self, colour: &LightColour, own: &Spectrum, facing: Vec3) -> KeyReading {
        let dose = self.dose(colour).max(1e-12);
        let (azimuth_deg, elevation_deg) = angles(self.vector, facing);
        let [left, right] = self.cheeks;
        let (near, far) = if azimuth_deg < 0.0 {
            (left, right)
        } else {
            (right, left)
        };
        let against = |value: f32| Stops((f64::from(value.max(1e-9)) / dose).log2());
        let bounced = (dose - f64::from(self.direct)).max(1e-12);
        KeyReading {
            azimuth_deg,
            elevation_deg,
            full_power_aperture: (dose * 100.0 / light::INCIDENT_CONSTANT).sqrt(),
            near_cheek: against(near),
            far_cheek: against(far),
            ratio: f64::from(near.max(1e-9) / far.max(1e-9)),
            sockets: Stops(f64::from(self.sockets.max(1e-9) / self.forehead.max(1e-9)).log2()),
            cast: cast(colour, &self.dome),
            first_bounce_cast: cast(colour, own),
            softness: f64::from(self.softness),
            spill: (self.direct > 0.0).then(|| Stops((f64::from(self.direct) / bounced).log2())),
            landmarks: self
                .landmarks
                .iter()
                .map(|&(at, value)| LandmarkLevel {
                    at,
                    level: against(value),
                })
                .collect(),
        }
    }
}

/// Azimuth from the nose (positive to the right of a person who faces the sitter) and elevation of a
/// vector, in degrees.
///
/// A light vector that points from the sitter's nose to the camera's right, level:
/// azimuth 90, elevation 0.
pub(crate) fn angles(vector: Vec3, facing: Vec3) -> (f64, f64) {
    let right = Vec3::new(-facing.y, facing.x, 0.0);
    let azimuth = f64::from(vector.dot(right)).atan2(f64::from(vector.dot(facing)));
    let level = f64::from(vector.truncate().length());
    (
        azimuth.to_degrees(),
        f64::from(vector.z).atan2(level).to_degrees(),
    )
}

/// Cast of light that has been through the room against the bare flash.
///
/// Light far from every lamp's colour (a pure red) has no colour temperature; it is judged by the ratio
/// of its long to its short waves instead, which only has to say "far too warm" or "far too cold".
pub(crate) fn cast(flash: &LightColour, transfer: &Spectrum) -> Cast {
    let (bare_kelvin, bare_duv) = flash
        .cct_duv()
        .unwrap_or((Kelvin::new(5600.0).expect("in range"), Duv(0.0)));
    let xyz = flash.xyz(transfer);
    match xyz.chromaticity().and_then(cct_duv) {
        Some((kelvin, duv)) => Cast {
            shift: kelvin.mired() - bare_kelvin.mired(),
            duv: Duv(duv.value() - bare_duv.value()),
            kelvin,
        },
        None => {
            let warm = xyz.x > xyz.z;
            let kelvin = Kelvin::new(if warm { 1700.0 } else { 25_000.0 }).expect("in range");
            Cast {
                shift: kelvin.mired() - bare_kelvin.mired(),
                duv: Duv(0.0),
                kelvin,
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn azimuth_is_measured_from_the_nose() {
        let check = |vector: Vec3, facing: Vec3, expected: (f64, f64)| {
            let (azimuth, elevation) = angles(vector, facing);
            assert!(
                (azimuth - expected.0).abs() < 1e-4 && (elevation - expected.1).abs() < 1e-4,
                "{azimuth} {elevation}"
            );
        };
        check(Vec3::NEG_Y, Vec3::NEG_Y, (0.0, 0.0));
        check(Vec3::X, Vec3::NEG_Y, (90.0, 0.0));
        check(Vec3::new(-1.0, -1.0, 0.0), Vec3::NEG_Y, (-45.0, 0.0));
        check(Vec3::new(0.0, -1.0, 1.0), Vec3::NEG_Y, (0.0, 45.0));
        // A sitter who looks to the camera's right gets light from the camera on their own right.
        check(Vec3::NEG_Y, Vec3::X, (-90.0, 0.0));
    }
}
