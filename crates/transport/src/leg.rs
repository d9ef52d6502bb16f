//! The straight way between two points, which is all that light does in a room.

use glam::Vec3;

/// Two points nearer than this, in metres, are one point: single precision tells nothing finer apart in a room
/// than about a micrometre. Legs are never shorter, so that divisions by their squares stay finite.
pub(crate) const NO_LENGTH: f32 = 1e-7;

/// Cosines up to this count as edge-on, at surfaces and patches alike: such light carries nothing, and rounding
/// decides on which side of the surface it lies.
pub(crate) const GRAZING: f32 = 1e-5;

/// The straight way from one point to another.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Leg {
    /// Unit direction from the first point to the second.
    pub direction: Vec3,
    /// Squared length in m².
    pub distance2: f32,
}

/// A leg that ends on a surface which faces its beginning.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Landing {
    /// Unit direction towards the surface.
    pub direction: Vec3,
    /// Squared length in m².
    pub distance2: f32,
    /// Cosine at the surface, above [`GRAZING`].
    pub cos: f32,
}

/// Light that comes straight from a point of the flash's window, or of the sun's disc, to a point.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Straight {
    /// Unit direction towards it.
    pub direction: Vec3,
    /// Illuminance on a surface that faces it, in lx (lx s from the flash).
    pub illuminance: f32,
}

impl Leg {
    /// The leg between two points.
    #[inline]
    pub(crate) fn between(from: Vec3, to: Vec3) -> Self {
        let towards = to - from;
        let distance2 = towards.length_squared().max(NO_LENGTH * NO_LENGTH);
        Leg {
            direction: towards / distance2.sqrt(),
            distance2,
        }
    }

    /// The leg that a ray has gone.
    #[inline]
    pub(crate) fn along(direction: Vec3, distance: f32) -> Self {
        Leg {
            direction,
            distance2: distance * distance,
        }
    }

    /// Cosine at the first point, on a surface with this unit normal; negative behind it.
    #[inline]
    pub(crate) fn cos_leaving(&self, normal: Vec3) -> f32 {
        self.direction.dot(normal)
    }

    /// Cosine at the second point, on a surface with this unit normal; negative behind it.
    #[inline]
    pub(crate) fn cos_landing(&self, normal: Vec3) -> f32 {
        -self.direction.dot(normal)
    }

    /// The leg as one that ends on a surface with this unit normal, if the surface faces its beginning.
    #[inline]
    pub(crate) fn landing(self, normal: Vec3) -> Option<Landing> {
        let cos = self.cos_landing(normal);
        (cos > GRAZING).then_some(Landing {
            direction: self.direction,
            distance2: self.distance2,
            cos,
        })
    }
}

impl Landing {
    /// Density per m² of the surface with which its point is drawn, when directions are drawn with this density
    /// per steradian.
    #[inline]
    pub(crate) fn per_area(&self, per_steradian: f32) -> f32 {
        per_steradian * self.cos / self.distance2
    }
}
