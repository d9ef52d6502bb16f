//! Rays against the scene.
//!
//! The six faces of the room are met by one slab test, because almost every ray ends there; everything
//! that stands in the room is in an eight-wide bounding volume hierarchy.

use glam::{Vec3, Vec3A};
use obvhs::BvhBuildParams;
use obvhs::cwbvh::CwBvh;
use obvhs::cwbvh::builder::build_cwbvh_from_tris;
use obvhs::ray::{Ray, RayHit};
use obvhs::rt_triangle::RtTriangle;
use obvhs::triangle::Triangle;
use scene::{Face, Geometry, ObjectKind};
use std::time::Duration;

/// Share of a ray that is left out at both of its ends where it goes between a surface and a flash, whose place is
/// in the air: what lies so near to either is the surface itself.
const FLASH_MARGIN: f32 = 1e-5;
/// The same between a point and a surface, where the far end may lie on its triangles and not above them: ten times
/// as much.
const SURFACE_MARGIN: f32 = 1e-4;
/// Barycentric weights of a hit on a rectangle, where they mean nothing: any point within.
const ANYWHERE: [f32; 2] = [0.25, 0.25];

/// Where a ray met the scene.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Hit {
    /// Distance along the ray in units of its direction's length.
    pub distance: f32,
    /// The triangle.
    pub triangle: u32,
    /// Barycentric weights of the second and third corner.
    pub barycentric: [f32; 2],
}

impl Hit {
    /// A hit on the rectangle whose first triangle this is.
    #[inline]
    pub(crate) fn on_rectangle(first: u32, distance: f32) -> Self {
        Hit {
            distance,
            triangle: first,
            barycentric: ANYWHERE,
        }
    }
}

/// A flat rectangle of a room face, in the face's own coordinates.
#[derive(Clone, Copy, Debug)]
struct Cell {
    low: [f32; 2],
    high: [f32; 2],
    triangle: u32,
}

/// Everything that rays can meet.
pub struct Tracer {
    bvh: CwBvh,
    /// Triangles in the order of the hierarchy's leaves, and which scene triangle each one is.
    triangles: Vec<RtTriangle>,
    scene_triangle: Vec<u32>,
    /// The room's extent and the cells of its faces; `None` outdoors or for bare test geometry.
    room: Option<(Vec3, [Vec<Cell>; 6])>,
}

/// The two coordinates that run along a face.
fn face_axes(face: Face) -> (usize, usize) {
    match face {
        Face::Left | Face::Right => (1, 2),
        Face::BehindCamera | Face::BehindSitter => (0, 2),
        Face::Ceiling | Face::Floor => (0, 1),
    }
}

impl Tracer {
    /// Builds the ray structure of a geometry. The same geometry always gives the same structure.
    pub fn new(geometry: &Geometry) -> Self {
        let room = room_cells(geometry);
        let mut listed = Vec::new();
        let mut scene_triangle = Vec::new();
        for index in 0..geometry.triangles.len() as u32 {
            let object = &geometry.objects[geometry.object[index as usize] as usize];
            if room.is_some() && on_room_face(object.kind, object.rectangle, &room) {
                continue;
            }
            let [v0, v1, v2] = geometry.corners(index).map(Vec3A::from);
            listed.push(Triangle { v0, v1, v2 });
            scene_triangle.push(index);
        }
        let bvh = if listed.is_empty() {
            CwBvh::default()
        } else {
            build_cwbvh_from_tris(&listed, BvhBuildParams::medium_build(), &mut Duration::default())
        };
        let order: Vec<usize> = bvh.primitive_indices.iter().map(|&i| i as usize).collect();
        Tracer {
            triangles: order.iter().map(|&i| RtTriangle::from(&listed[i])).collect(),
            scene_triangle: order.iter().map(|&i| scene_triangle[i]).collect(),
            bvh,
            room,
        }
    }

    /// The nearest thing that a ray meets.
    #[inline]
    pub fn closest(&self, origin: Vec3, direction: Vec3) -> Option<Hit> {
        let wall = self.room.as_ref().map(|room| leave_room(room, origin, direction));
        self.closest_standing(origin, direction, wall.map(|hit| hit.distance))
            .or(wall)
    }

    /// The nearest thing within the room that a ray meets, before the wall behind it where there is one.
    #[inline]
    fn closest_standing(&self, origin: Vec3, direction: Vec3, wall: Option<f32>) -> Option<Hit> {
        if self.triangles.is_empty() {
            return None;
        }
        // Adding zero turns −0 into +0: the hierarchy takes the sign of a slope from the one and the order
        // of its bounds from the other, and would miss everything along −z.
        let direction = direction + Vec3::ZERO;
        let ray = Ray::new(origin.into(), direction.into(), 0.0, wall.unwrap_or(f32::MAX));
        let mut hit = RayHit::none();
        if !self
            .bvh
            .ray_traverse(ray, &mut hit, |ray, id| self.triangles[id].intersect(ray))
        {
            return None;
        }
        let leaf = hit.primitive_id as usize;
        let barycentric = self.triangles[leaf].compute_barycentric(&ray);
        Some(Hit {
            distance: hit.t,
            triangle: self.scene_triangle[leaf],
            barycentric: barycentric.into(),
        })
    }

    /// Whether a point on or above a surface, or a meter, sees a point of a flash.
    #[inline]
    pub(crate) fn sees_flash(&self, point: Vec3, flash: Vec3) -> bool {
        !self.blocked(point, flash, FLASH_MARGIN)
    }

    /// Whether a point sees a point of a surface.
    #[inline]
    pub(crate) fn sees_surface(&self, point: Vec3, surface: Vec3) -> bool {
        !self.blocked(point, surface, SURFACE_MARGIN)
    }

    /// Whether anything stands between two points. Both ends are shortened by `margin` (a share of the
    /// distance), so that the surfaces they lie on do not shade them.
    #[inline]
    pub fn blocked(&self, from: Vec3, to: Vec3, margin: f32) -> bool {
        if self.triangles.is_empty() {
            return false;
        }
        let ray = Ray::new(from.into(), (to - from).into(), margin, 1.0 - margin);
        !self
            .bvh
            .ray_traverse_miss(ray, |ray, id| self.triangles[id].intersect(ray))
    }
}

/// Collects the rectangles of the room's faces, if the geometry has a whole room.
fn room_cells(geometry: &Geometry) -> Option<(Vec3, [Vec<Cell>; 6])> {
    let mut size = Vec3::ZERO;
    let mut seen = [false; 6];
    for object in &geometry.objects {
        // An open side has no wall, but it closes the box all the same.
        if let (ObjectKind::RoomFace(_) | ObjectKind::Opening(_), Some([corner, a, b])) =
            (object.kind, object.rectangle)
        {
            seen[face_of(a.cross(b)).index()] = true;
            size = size
                .max(corner)
                .max(corner + a + b)
                .max(corner + a)
                .max(corner + b);
        }
    }
    if seen != [true; 6] {
        return None;
    }
    let room = Some((size, std::array::from_fn(|_| Vec::new())));
    let (_, mut cells) = room.clone()?;
    for object in &geometry.objects {
        if !on_room_face(object.kind, object.rectangle, &room) {
            continue;
        }
        let [corner, a, b] = object.rectangle?;
        let face = face_of(a.cross(b));
        let (u, v) = face_axes(face);
        let opposite = corner + a + b;
        cells[face.index()].push(Cell {
            low: [corner[u].min(opposite[u]), corner[v].min(opposite[v])],
            high: [corner[u].max(opposite[u]), corner[v].max(opposite[v])],
            triangle: object.first,
        });
    }
    Some((size, cells))
}

/// The face whose inward normal this is.
fn face_of(normal: Vec3) -> Face {
    Face::ALL
        .into_iter()
        .max_by(|a, b| a.inward().dot(normal).total_cmp(&b.inward().dot(normal)))
        .unwrap_or(Face::Floor)
}

/// Whether an object is part of the room's shell: a face or an opening in one.
fn on_room_face(
    kind: ObjectKind,
    rectangle: Option<[Vec3; 3]>,
    room: &Option<(Vec3, [Vec<Cell>; 6])>,
) -> bool {
    room.is_some() && rectangle.is_some() && matches!(kind, ObjectKind::RoomFace(_) | ObjectKind::Opening(_))
}

/// Where a ray from inside the room meets its shell.
#[inline]
fn leave_room(room: &(Vec3, [Vec<Cell>; 6]), origin: Vec3, direction: Vec3) -> Hit {
    let (size, cells) = room;
    let mut nearest = f32::MAX;
    let mut axis = 2;
    for i in 0..3 {
        if direction[i] != 0.0 {
            let wall = if direction[i] > 0.0 { size[i] } else { 0.0 };
            let distance = ((wall - origin[i]) / direction[i]).max(0.0);
            if distance < nearest {
                nearest = distance;
                axis = i;
            }
        }
    }
    let positive = direction[axis] > 0.0;
    let face = match (axis, positive) {
        (0, false) => Face::Left,
        (0, true) => Face::Right,
        (1, false) => Face::BehindCamera,
        (1, true) => Face::BehindSitter,
        (_, true) => Face::Ceiling,
        (_, false) => Face::Floor,
    };
    let list = &cells[face.index()];
    let mut triangle = list[0].triangle;
    if list.len() > 1 {
        let point = origin + direction * nearest;
        let (u, v) = face_axes(face);
        if let Some(cell) = list.iter().find(|c| {
            (c.low[0]..=c.high[0]).contains(&point[u]) && (c.low[1]..=c.high[1]).contains(&point[v])
        }) {
            triangle = cell.triangle;
        }
    }
    Hit::on_rectangle(triangle, nearest)
}
