//! What a ray finds where it meets a surface.

use crate::leg::GRAZING;
use crate::tracer::Hit;
use colour::Spectrum;
use glam::Vec3;
use scene::{Coat, Geometry};

/// A point of a surface, seen from one side.
#[derive(Clone, Copy, Debug)]
pub struct SurfacePoint {
    /// The point on the triangle.
    pub position: Vec3,
    /// The point from which to start rays: lifted onto the smooth surface that the triangles stand for,
    /// so that a coarse mesh does not shade itself near the terminator (Hanika 2021, Ray Tracing Gems II,
    /// chapter 4).
    pub start: Vec3,
    /// Unit normal of the triangle, turned to the side that is seen.
    pub flat: Vec3,
    /// Unit shading normal, turned the same way.
    pub normal: Vec3,
    /// Diffuse reflectance; black for the back of a one-sided surface.
    pub reflectance: Spectrum,
    /// Coat, if any.
    pub coat: Option<Coat>,
    /// The triangle.
    pub triangle: u32,
}

/// How far rays start above a flat surface, in metres: far above the rounding of single precision in a
/// room (about a micrometre), far below anything that shows.
pub(crate) const LIFT: f32 = 2e-5;

impl SurfacePoint {
    /// The surface that a ray from `towards` (unit, pointing away from the surface) sees.
    #[inline]
    pub fn new(geometry: &Geometry, hit: &Hit, origin: Vec3, direction: Vec3) -> Self {
        let triangle = hit.triangle;
        let material = geometry.material_of(triangle);
        let position = origin + direction * hit.distance;
        let geometric = geometry.flat_normal(triangle);
        let front = geometric.dot(direction) < 0.0;
        let side = if front { 1.0 } else { -1.0 };
        let flat = geometric * side;
        let reflectance_black = !front && !material.two_sided;
        if !material.smooth {
            let reflectance = if reflectance_black {
                Spectrum::ZERO
            } else {
                material.reflectance
            };
            return SurfacePoint {
                position,
                start: position + flat * LIFT,
                flat,
                normal: flat,
                reflectance,
                coat: material.coat,
                triangle,
            };
        }
        let corners = geometry.triangles[triangle as usize];
        let weights = [
            1.0 - hit.barycentric[0] - hit.barycentric[1],
            hit.barycentric[0],
            hit.barycentric[1],
        ];
        let mut normal = Vec3::ZERO;
        let mut start = Vec3::ZERO;
        let mut overlay = [0.0f32; 3];
        for (corner, weight) in corners.into_iter().zip(weights) {
            let vertex_normal = geometry.normals[corner as usize] * side;
            let vertex = geometry.positions[corner as usize];
            normal += vertex_normal * weight;
            // Each corner's tangent plane says how high the smooth surface is here; only up counts.
            let height = (position - vertex).dot(vertex_normal).min(0.0);
            start += (position - vertex_normal * height) * weight;
            for (sum, value) in overlay.iter_mut().zip(geometry.overlay[corner as usize]) {
                *sum += value * weight;
            }
        }
        let normal = face_viewer(normal.try_normalize().unwrap_or(flat), flat, -direction);
        SurfacePoint {
            position,
            start: start + flat * LIFT,
            flat,
            normal,
            reflectance: if reflectance_black {
                Spectrum::ZERO
            } else {
                material.reflectance_at(overlay)
            },
            coat: material.coat,
            triangle,
        }
    }

    /// Whether a direction leaves on the lit side of both the triangle and the smooth surface.
    #[inline]
    pub fn above(&self, direction: Vec3) -> bool {
        direction.dot(self.flat) > GRAZING && direction.dot(self.normal) > GRAZING
    }
}

/// Cosine towards the viewer to which a shading normal is bent where it shows less: enough for the surface to be lit.
const LEAST_SHOWN: f32 = 0.02;

/// A shading normal that looks away from the viewer (at a silhouette) is bent back until it does not.
#[inline]
fn face_viewer(normal: Vec3, flat: Vec3, view: Vec3) -> Vec3 {
    let seen = normal.dot(view);
    if seen > LEAST_SHOWN {
        return normal;
    }
    (normal + view * (LEAST_SHOWN - seen))
        .try_normalize()
        .unwrap_or(flat)
}
