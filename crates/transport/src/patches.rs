//! The scene cut into patches: the texels that exchange light.
//!
//! Flat rectangles are cut into a grid; a person is cut into clusters of triangles that lie in one small
//! cube and look the same way. Every patch keeps a few sample points that stand for it.

use crate::scatter::hemispherical_reflectance;
use crate::surface::LIFT;
use colour::Spectrum;
use glam::Vec3;
use scene::{Geometry, ObjectKind};
use std::collections::BTreeMap;

/// Edge of the cubes that cut people into patches, in metres and as a share of the flat patches' edge, whichever is
/// more (ours). Head and shoulders light and shade the face from near by; what is below is seen from farther.
const HEAD_CUBE: f32 = 0.06;
const HEAD_SHARE: f32 = 0.3;
const BODY_CUBE: f32 = 0.12;
const BODY_SHARE: f32 = 0.6;
/// How far down from the crown head and shoulders reach, in metres.
const HEAD_REACH: f32 = 0.5;
/// No patch counts as smaller than this, in m²: what is divided by its area stays finite where triangles have none.
pub(crate) const LEAST_AREA: f32 = 1e-9;
/// Sample points of a body patch.
const BODY_SAMPLES: usize = 12;

/// A piece of surface that is treated as evenly bright when it lights something else.
#[derive(Clone, Debug)]
pub struct Patch {
    /// Area in m².
    pub area: f32,
    /// Mean reflectance, coat included.
    pub reflectance: Spectrum,
    /// Object that it belongs to.
    pub object: u32,
    /// Corner and edges for a flat patch.
    pub rectangle: Option<[Vec3; 3]>,
    /// Middle.
    pub centre: Vec3,
    /// Mean unit normal.
    pub normal: Vec3,
    /// First sample point and their number.
    pub samples: (u32, u32),
}

/// A point that stands for part of a patch.
#[derive(Clone, Copy, Debug)]
pub struct PatchSample {
    /// Position in metres.
    pub position: Vec3,
    /// Unit normal.
    pub normal: Vec3,
}

impl PatchSample {
    /// Where its rays start: a little above the surface.
    #[inline]
    pub(crate) fn start(&self) -> Vec3 {
        self.position + self.normal * LIFT
    }
}

/// How an object finds its patches.
#[derive(Clone, Debug)]
enum Lookup {
    /// A grid over a rectangle: first patch, columns, rows, corner, and edges divided by their squared
    /// lengths.
    Grid {
        first: u32,
        columns: u32,
        rows: u32,
        corner: Vec3,
        a: Vec3,
        b: Vec3,
    },
    /// One entry per triangle.
    Triangles { first_triangle: u32, patch: Vec<u32> },
}

/// All patches of a scene.
#[derive(Clone, Debug)]
pub struct Patches {
    /// The patches.
    pub list: Vec<Patch>,
    /// The sample points of all patches.
    pub samples: Vec<PatchSample>,
    lookup: Vec<Lookup>,
}

impl Patches {
    /// Cuts a geometry into patches of about `pitch` metres.
    pub fn new(geometry: &Geometry, pitch: f32) -> Self {
        let mut patches = Patches {
            list: Vec::new(),
            samples: Vec::new(),
            lookup: Vec::new(),
        };
        for (index, object) in geometry.objects.iter().enumerate() {
            let lookup = match object.rectangle {
                Some(rectangle) => {
                    let reflectance = geometry.material_of(object.first).reflectance;
                    let coat = geometry.material_of(object.first).coat;
                    let black = reflectance.max() <= 0.0;
                    let fine = match object.kind {
                        ObjectKind::Panel(_) => 0.6 * pitch,
                        // An open side sends nothing back, and what it sends is known in every direction.
                        ObjectKind::Opening(_) if black => 3.0 * pitch,
                        _ => pitch,
                    };
                    patches.cut_rectangle(
                        rectangle,
                        hemispherical_reflectance(reflectance, coat),
                        index as u32,
                        fine,
                    )
                }
                None => patches.cluster(geometry, index as u32, pitch),
            };
            patches.lookup.push(lookup);
        }
        patches
    }

    fn cut_rectangle(
        &mut self,
        [corner, a, b]: [Vec3; 3],
        reflectance: Spectrum,
        object: u32,
        pitch: f32,
    ) -> Lookup {
        let columns = (a.length() / pitch).round().max(1.0) as u32;
        let rows = (b.length() / pitch).round().max(1.0) as u32;
        let (du, dv) = (a / columns as f32, b / rows as f32);
        let normal = a.cross(b).normalize_or_zero();
        let first = self.list.len() as u32;
        for row in 0..rows {
            for column in 0..columns {
                let low = corner + du * column as f32 + dv * row as f32;
                let start = self.samples.len() as u32;
                for (s, t) in [(0.25, 0.25), (0.75, 0.25), (0.25, 0.75), (0.75, 0.75)] {
                    self.samples.push(PatchSample {
                        position: low + du * s + dv * t,
                        normal,
                    });
                }
                self.list.push(Patch {
                    area: du.cross(dv).length(),
                    reflectance,
                    object,
                    rectangle: Some([low, du, dv]),
                    centre: low + 0.5 * (du + dv),
                    normal,
                    samples: (start, 4),
                });
            }
        }
        Lookup::Grid {
            first,
            columns,
            rows,
            corner,
            a: a / a.length_squared(),
            b: b / b.length_squared(),
        }
    }

    /// Cuts a person: triangles that share a cube, a main direction and a material make one patch. Brows
    /// and lashes would otherwise darken the skin they stand on.
    fn cluster(&mut self, geometry: &Geometry, object: u32, pitch: f32) -> Lookup {
        let run = &geometry.objects[object as usize];
        let triangles = run.first..run.first + run.count;
        let middle = |triangle: u32| {
            let [a, b, c] = geometry.corners(triangle);
            (a + b + c) / 3.0
        };
        let crown = triangles
            .clone()
            .map(|triangle| middle(triangle).z)
            .fold(f32::MIN, f32::max);
        let head = HEAD_CUBE.max(HEAD_SHARE * pitch);
        let body = BODY_CUBE.max(BODY_SHARE * pitch);
        let mut groups: BTreeMap<([i32; 3], u8, u16), Vec<u32>> = BTreeMap::new();
        for triangle in triangles {
            let at = middle(triangle);
            let edge = if at.z > crown - HEAD_REACH { head } else { body };
            let cube = (at / edge).floor().as_ivec3();
            let side = main_direction(geometry.flat_normal(triangle));
            groups
                .entry((cube.to_array(), side, geometry.material[triangle as usize]))
                .or_default()
                .push(triangle);
        }
        let mut patch = vec![0u32; run.count as usize];
        for members in groups.values() {
            let index = self.list.len() as u32;
            for &triangle in members {
                patch[(triangle - run.first) as usize] = index;
            }
            self.push_cluster(geometry, object, members);
        }
        Lookup::Triangles {
            first_triangle: run.first,
            patch,
        }
    }

    fn push_cluster(&mut self, geometry: &Geometry, object: u32, members: &[u32]) {
        let mut area = 0.0;
        let (mut centre, mut normal, mut reflectance) = (Vec3::ZERO, Vec3::ZERO, Spectrum::ZERO);
        let mut running = Vec::with_capacity(members.len());
        for &triangle in members {
            let [a, b, c] = geometry.corners(triangle);
            let size = 0.5 * (b - a).cross(c - a).length();
            let material = geometry.material_of(triangle);
            area += size;
            running.push(area);
            centre += (a + b + c) / 3.0 * size;
            normal += geometry.flat_normal(triangle) * size;
            reflectance += hemispherical_reflectance(material.reflectance, material.coat) * size;
        }
        let area = area.max(LEAST_AREA);
        let start = self.samples.len() as u32;
        for step in 0..BODY_SAMPLES {
            let at = (step as f32 + 0.5) / BODY_SAMPLES as f32 * area;
            let chosen = running.partition_point(|&sum| sum < at).min(members.len() - 1);
            let [a, b, c] = geometry.corners(members[chosen]);
            let facing = geometry.flat_normal(members[chosen]);
            self.samples.push(PatchSample {
                position: (a + b + c) / 3.0,
                normal: facing,
            });
        }
        self.list.push(Patch {
            area,
            reflectance: reflectance * (1.0 / area),
            object,
            rectangle: None,
            centre: centre / area,
            normal: normal.normalize_or_zero(),
            samples: (start, BODY_SAMPLES as u32),
        });
    }

    /// The patch at a point of a triangle.
    #[inline]
    pub fn at(&self, geometry: &Geometry, triangle: u32, position: Vec3) -> u32 {
        match &self.lookup[geometry.object[triangle as usize] as usize] {
            Lookup::Grid {
                first,
                columns,
                rows,
                corner,
                a,
                b,
            } => {
                let local = position - *corner;
                let column = ((local.dot(*a) * *columns as f32).max(0.0) as u32).min(columns - 1);
                let row = ((local.dot(*b) * *rows as f32).max(0.0) as u32).min(rows - 1);
                first + row * columns + column
            }
            Lookup::Triangles {
                first_triangle,
                patch,
            } => patch[(triangle - first_triangle) as usize],
        }
    }

    /// The grids of the flat objects: first patch, columns and rows; patches run row by row.
    pub(crate) fn grids(&self) -> impl Iterator<Item = (usize, usize, usize)> + '_ {
        self.lookup.iter().filter_map(|lookup| match lookup {
            Lookup::Grid {
                first, columns, rows, ..
            } => Some((*first as usize, *columns as usize, *rows as usize)),
            Lookup::Triangles { .. } => None,
        })
    }

    /// The sample points of a patch.
    pub fn samples_of(&self, patch: &Patch) -> &[PatchSample] {
        &self.samples[patch.samples.0 as usize..(patch.samples.0 + patch.samples.1) as usize]
    }

    /// The corner of the scene that is farthest from the origin.
    pub(crate) fn extent(&self) -> Vec3 {
        self.samples
            .iter()
            .fold(Vec3::ZERO, |most, sample| most.max(sample.position))
    }

    /// Sum of all areas in m².
    pub fn total_area(&self) -> f32 {
        self.list.iter().map(|p| p.area).sum()
    }
}

/// Which of the six axis directions a normal is nearest to.
fn main_direction(normal: Vec3) -> u8 {
    let size = normal.abs();
    let axis = if size.x >= size.y && size.x >= size.z {
        0
    } else if size.y >= size.z {
        1
    } else {
        2
    };
    2 * axis + u8::from(normal[axis as usize] < 0.0)
}
