//! What lies around the place: the ground beyond it and what stands on the horizon.

use crate::Material;
use glam::Vec3;
use std::f32::consts::{PI, TAU};

/// The world outside the place, as far as it sends light or takes it away.
///
/// Bearings are in the place's own frame: 0 along the camera's line (+y), clockwise seen from above, in
/// radians.
#[derive(Clone, Debug)]
pub struct Surroundings {
    /// The ground beyond the place, as far as the horizon.
    pub ground: Material,
    /// Buildings, trees and hills that stand before the sky.
    pub skyline: Vec<Obstacle>,
}

/// Something that stands before the sky between two bearings.
#[derive(Clone, Debug)]
pub struct Obstacle {
    /// What the photographer calls it.
    pub name: String,
    /// Where it begins, clockwise, in radians from the camera's line.
    pub from: f32,
    /// Where it ends; beyond `from` in the clockwise sense, so it may pass the camera's line.
    pub to: f32,
    /// How high it reaches above the horizon, in radians.
    pub height: f32,
    /// What it is made of.
    pub material: Material,
}

impl Surroundings {
    /// Open country of one ground.
    pub fn open(ground: Material) -> Self {
        Surroundings {
            ground,
            skyline: Vec::new(),
        }
    }

    /// What hides the sky in a unit direction above the horizon, as an index into the skyline: the tallest where
    /// there are more; `None` where the sky is open.
    ///
    /// ```
    /// use scene::{Material, Obstacle, Surroundings};
    /// let wall = Material::matt("wall", colour::Spectrum::splat(0.3));
    /// let mut around = Surroundings::open(wall.clone());
    /// let (from, to, height) = (-0.5, 0.5, 0.2);
    /// around.skyline.push(Obstacle { name: "barn".into(), from, to, height, material: wall });
    /// let towards = |z: f32| glam::Vec3::new(0.0, 1.0, z).normalize();
    /// assert_eq!(around.hiding(towards(0.1)), Some(0));
    /// assert_eq!(around.hiding(towards(0.3)), None);
    /// ```
    pub fn hiding(&self, direction: Vec3) -> Option<usize> {
        if self.skyline.is_empty() {
            return None;
        }
        let height = direction.z.clamp(-1.0, 1.0).asin();
        let bearing = bearing_of(direction);
        self.skyline
            .iter()
            .enumerate()
            .filter(|(_, obstacle)| height < obstacle.height && obstacle.spans(bearing))
            .max_by(|(_, a), (_, b)| a.height.total_cmp(&b.height))
            .map(|(index, _)| index)
    }
}

impl Obstacle {
    /// Whether a bearing lies between its ends.
    pub fn spans(&self, bearing: f32) -> bool {
        let width = (self.to - self.from).rem_euclid(TAU);
        (bearing - self.from).rem_euclid(TAU) <= width
    }
}

/// Bearing of a direction in the place's frame, −π to π: 0 along +y, clockwise seen from above.
pub fn bearing_of(direction: Vec3) -> f32 {
    direction.x.atan2(direction.y)
}

/// Unit direction of a bearing and a height above the horizon, both in radians.
///
/// ```
/// let right = scene::direction_of(std::f32::consts::FRAC_PI_2, 0.0);
/// assert!((right - glam::Vec3::X).length() < 1e-6);
/// ```
pub fn direction_of(bearing: f32, height: f32) -> Vec3 {
    let (sin, cos) = bearing.rem_euclid(2.0 * PI).sin_cos();
    Vec3::new(sin * height.cos(), cos * height.cos(), height.sin())
}

#[cfg(test)]
mod tests {
    use super::*;
    use colour::Spectrum;

    #[test]
    fn an_obstacle_may_pass_the_line_of_the_camera() {
        let obstacle = Obstacle {
            name: "hedge".into(),
            from: 350f32.to_radians(),
            to: 20f32.to_radians(),
            height: 0.1,
            material: Material::matt("hedge", Spectrum::splat(0.06)),
        };
        let check = |degrees: f32, inside: bool| {
            assert_eq!(obstacle.spans(degrees.to_radians()), inside, "{degrees}°");
        };
        check(355.0, true);
        check(0.0, true);
        check(19.0, true);
        check(21.0, false);
        check(180.0, false);
        check(-5.0, true);
    }

    #[test]
    fn bearings_and_directions_are_each_other_s_inverse() {
        for degrees in [-170.0f32, -90.0, 0.0, 30.0, 90.0, 179.0] {
            for height in [-0.7f32, 0.0, 0.9] {
                let direction = direction_of(degrees.to_radians(), height);
                assert!((bearing_of(direction) - degrees.to_radians()).abs() < 1e-5);
                assert!((direction.z.asin() - height).abs() < 1e-5);
            }
        }
    }
}
