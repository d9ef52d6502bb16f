//! Where the camera stands and what it sees.

use glam::{Vec2, Vec3};

/// The camera's place, aim and lens, on a 36 × 24 mm frame held upright unless `landscape`.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Viewpoint {
    /// Position of the lens in metres.
    pub position: Vec3,
    /// The point in the middle of the picture.
    pub look_at: Vec3,
    /// Focal length in millimetres.
    pub focal_mm: f32,
    /// Long side of the frame horizontal.
    pub landscape: bool,
}

impl Viewpoint {
    /// Unit vectors right, up and forward.
    pub fn axes(&self) -> (Vec3, Vec3, Vec3) {
        let forward = (self.look_at - self.position).try_normalize().unwrap_or(Vec3::Y);
        let right = forward.cross(Vec3::Z).try_normalize().unwrap_or(Vec3::X);
        (right, right.cross(forward), forward)
    }

    /// Width and height of the frame in millimetres.
    pub fn frame_mm(&self) -> Vec2 {
        if self.landscape {
            Vec2::new(36.0, 24.0)
        } else {
            Vec2::new(24.0, 36.0)
        }
    }

    /// Width over height of the whole frame.
    ///
    /// ```
    /// use glam::Vec3;
    /// let view = scene::Viewpoint { position: Vec3::ZERO, look_at: Vec3::Y, focal_mm: 50.0, landscape: true };
    /// assert_eq!(view.aspect(), 1.5);
    /// ```
    pub fn aspect(&self) -> f32 {
        let frame = self.frame_mm();
        frame.x / frame.y
    }

    /// Half extents of the view at unit distance for a picture of this aspect (width / height): the
    /// largest rectangle of that shape inside the frame.
    ///
    /// ```
    /// use glam::{Vec2, Vec3};
    /// let view = scene::Viewpoint { position: Vec3::ZERO, look_at: Vec3::Y, focal_mm: 50.0, landscape: true };
    /// assert!((view.half_extent(1.5) - Vec2::new(0.36, 0.24)).length() < 1e-6);
    /// ```
    pub fn half_extent(&self, aspect: f32) -> Vec2 {
        let frame = self.frame_mm();
        let size = if aspect > frame.x / frame.y {
            Vec2::new(frame.x, frame.x / aspect)
        } else {
            Vec2::new(frame.y * aspect, frame.y)
        };
        size / (2.0 * self.focal_mm)
    }

    /// Direction through a point of the picture: `at` from (0, 0) top left to (1, 1) bottom right.
    pub fn direction(&self, at: Vec2, aspect: f32) -> Vec3 {
        let (right, up, forward) = self.axes();
        let half = self.half_extent(aspect);
        let offset = (at * 2.0 - Vec2::ONE) * half;
        (forward + right * offset.x - up * offset.y).normalize()
    }
}
