//! Directions and places as a photographer tells them: turn and tilt of a head against the lens, hours of the clock
//! around the metered sitter, steps from the camera.

use crate::{BeamMiddle, Holder, Job, Route};
use glam::{Quat, Vec3};
use scene::Sitter;

/// A beam whose middle passes a face by less than this is straight at it, in degrees (ours: angles of a head are told to
/// the nearest five).
const STRAIGHT_DEG: f64 = 2.5;

impl Job {
    /// The lens axis made level, and the level direction to its right. A camera that looks straight down or up has its
    /// level direction from where its picture's top or bottom points.
    fn lens(&self) -> [Vec3; 2] {
        let (right, _, _) = self.viewpoint.axes();
        [Vec3::Z.cross(right), right]
    }

    /// Turn and tilt of a head that points along an axis, in degrees.
    ///
    /// The turn is measured level, from the lens axis, and is positive to the camera's right: 0 looks as the lens looks,
    /// −90 to camera left, 180 back past the camera. The tilt is measured from level and is positive upwards. So a head that
    /// points 1 m ahead along the lens, 1 m to camera left and √2 m up is turned by −45 and tilted by 45. A head that points
    /// straight up or down has no turn; its turn is 0.
    pub fn turn_and_tilt(&self, axis: Vec3) -> [f64; 2] {
        let [ahead, right] = self.lens().map(|along| f64::from(axis.dot(along)));
        let level = ahead.hypot(right);
        let turn = if level < 1e-6 { 0.0 } else { right.atan2(ahead) };
        [turn, f64::from(axis.z).atan2(level)].map(f64::to_degrees)
    }

    /// The axis of a head that is turned and tilted so, as a unit vector: the inverse of [`Job::turn_and_tilt`].
    pub fn axis_at(&self, turn_deg: f64, tilt_deg: f64) -> Vec3 {
        let [ahead, _] = self.lens();
        let level = Quat::from_rotation_z(-turn_deg.to_radians() as f32) * ahead;
        let (sin, cos) = (tilt_deg.to_radians() as f32).sin_cos();
        level * cos + Vec3::Z * sin
    }

    /// Clock hour, 0 to 12, at which a point lies seen from above, the metered sitter in the middle and the camera at 6.
    ///
    /// What is straight behind the camera lies at 6, what is to the camera's left of the sitter at 9.
    pub fn hour_of(&self, point: Vec3) -> f64 {
        let Some(sitter) = self.sitters.first() else {
            return f64::NAN;
        };
        let face = sitter.face();
        let to_camera = (self.viewpoint.position - face).with_z(0.0).try_normalize();
        let six = to_camera.unwrap_or(sitter.face_direction());
        let bearing = |v: Vec3| f64::from(v.x).atan2(f64::from(v.y)).to_degrees();
        // Seen from above, clockwise is from y towards x; the camera's bearing is six o'clock.
        (6.0 + (bearing(point - face) - bearing(six)) / 30.0).rem_euclid(12.0)
    }

    /// How far a point lies to the camera's right and ahead of it along the lens axis, both level and in metres; negative
    /// to the left and behind.
    pub fn from_camera(&self, point: Vec3) -> [f64; 2] {
        let [ahead, right] = self.lens();
        [right, ahead].map(|along| f64::from((point - self.viewpoint.position).dot(along)))
    }

    /// What holds a flash that is here, on a route.
    pub fn holder(&self, flash: Vec3, route: &Route) -> Holder {
        let hands = u32::from(matches!(route, Route::HeldBoard { .. }));
        if self.is_on_camera(flash) {
            Holder::Camera
        } else if self.bag.stand {
            Holder::Stand
        } else if self.bag.helpers > hands {
            Holder::Helper
        } else {
            Holder::Placed
        }
    }

    /// How the middle of a beam that leaves the flash along an axis lies to the faces.
    pub fn beam_middle(&self, flash: Vec3, axis: Vec3) -> BeamMiddle {
        let faces = self.sitters.iter().map(Sitter::face);
        let middle = faces.sum::<Vec3>() / self.sitters.len().max(1) as f32;
        let off_deg = f64::from(axis.angle_between(middle - flash)).to_degrees();
        match self.sitters.len() {
            1 if off_deg < STRAIGHT_DEG => BeamMiddle::Face,
            2.. if off_deg < STRAIGHT_DEG => BeamMiddle::MiddleOfFaces,
            _ => BeamMiddle::Past { off_deg },
        }
    }
}
