//! The places of a picture at which light from the room is gathered.

use crate::scatter::coat_brdf;
use glam::Vec3;
use scene::Coat;
use std::f32::consts::PI;

/// Where a receiver is.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Receiver {
    /// From where its rays start.
    pub start: Vec3,
    /// Unit shading normal.
    pub normal: Vec3,
    /// Unit normal of its triangle.
    pub flat: Vec3,
    /// Unit direction towards the camera.
    pub out: Vec3,
    pub coat: Option<Coat>,
}

impl Receiver {
    /// What the coat mirrors from a direction towards the camera, relative to a white matt surface.
    pub(super) fn gloss(&self, direction: Vec3) -> f32 {
        self.coat.map_or(0.0, |coat| {
            PI * coat_brdf(coat.roughness, coat.index, self.normal, self.out, direction)
        })
    }
}
