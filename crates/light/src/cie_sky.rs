//! How bright a sky is from direction to direction: three of the CIE's standard skies, for a start.

use crate::LightError;
use glam::Vec3;
use std::f32::consts::{FRAC_PI_2, PI, TAU};

/// Which sky of the CIE Standard General Sky (ISO 15469:2004): 1, 5 or 12.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct SkyKind(u8);

impl SkyKind {
    /// A sky by its number.
    ///
    /// # Errors
    /// Refuses the others.
    pub fn standard(number: u8) -> Result<Self, LightError> {
        [1, 5, 12]
            .contains(&number)
            .then_some(Self(number))
            .ok_or(LightError::NoSuchSky(number))
    }
}

/// A pattern of luminance.
#[derive(Clone, Debug)]
pub struct CieSky {
    numbers: [f32; 5],
    sun: Vec3,
}

impl CieSky {
    /// A sky with its sun in a unit direction, z up.
    pub fn new(kind: SkyKind, sun: Vec3) -> Self {
        let numbers = match kind.0 {
            1 => [4.0, -0.7, 0.0, -1.0, 0.0],
            12 => [-1.0, -0.32, 10.0, -3.0, 0.45],
            _ => [0.0, -1.0, 0.0, -1.0, 0.0],
        };
        CieSky { numbers, sun }
    }

    fn pattern(&self, towards: Vec3) -> f32 {
        let [a, b, c, d, e] = self.numbers;
        let chi = towards.dot(self.sun).clamp(-1.0, 1.0).acos();
        let gradation = 1.0 + a * (b / towards.z.max(1e-3)).exp();
        gradation * (1.0 + c * ((d * chi).exp() - (d * FRAC_PI_2).exp()) + e * chi.cos().powi(2))
    }

    /// Luminance over that of the zenith; 0 below the horizon.
    pub fn relative(&self, towards: Vec3) -> f32 {
        if towards.z <= 0.0 {
            return 0.0;
        }
        self.pattern(towards) / self.pattern(Vec3::Z)
    }

    /// Horizontal illuminance over the zenith's luminance, in sr.
    pub fn horizontal_over_zenith(&self) -> f32 {
        let mut sum = 0.0;
        for ring in 0..128 {
            let z = ((ring as f32 + 0.5) / 128.0).sqrt();
            let level = (1.0 - z * z).sqrt();
            for spoke in 0..256 {
                let turn = TAU * (spoke as f32 + 0.5) / 256.0;
                sum += self.relative(Vec3::new(level * turn.cos(), level * turn.sin(), z));
            }
        }
        sum * PI / (128.0 * 256.0)
    }
}
