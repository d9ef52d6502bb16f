//! Where to look for light: tables that say which patches matter to a point.
//!
//! A table lists the flat patches of the room with a probability near to what each sends to a reference
//! point. It never changes what is computed, only how soon it settles: every estimate divides by the
//! true density, and whatever the tables miss is found by the surface's own sampling (balance heuristic,
//! Veach & Guibas 1995).

use crate::patches::Patches;
use crate::room::Room;
use crate::surface::SurfacePoint;
use colour::Spectrum;
use glam::{Vec2, Vec3};
use rayon::prelude::*;

/// Normal directions for which a person has tables of their own: an octahedral grid of this edge.
const NORMAL_GRID: usize = 10;
/// Edge of the squares of a flat object that share a table, in metres.
const FLAT_CELL: f32 = 0.6;

/// Probabilities of the flat patches for one reference.
pub struct Table {
    cumulative: Vec<f32>,
    /// Probability per m² on each patch.
    density: Vec<f32>,
}

/// A point drawn from a table.
pub(crate) struct Draw {
    pub patch: u32,
    pub position: Vec3,
    pub normal: Vec3,
    /// Density per m².
    pub density: f32,
}

impl Table {
    /// A table for a point; with a normal, patches behind it matter little.
    pub(crate) fn new(
        patches: &Patches,
        radiosity: &[Spectrum],
        from: Vec3,
        normal: Option<Vec3>,
        slack: f32,
    ) -> Self {
        let mut cumulative = Vec::with_capacity(patches.list.len());
        let mut density = Vec::with_capacity(patches.list.len());
        let mut sum = 0.0f32;
        for (patch, light) in patches.list.iter().zip(radiosity) {
            let mut weight = 0.0;
            if patch.rectangle.is_some() {
                let towards = patch.centre - from;
                let distance2 = towards.length_squared().max(0.04);
                let direction = towards / distance2.sqrt();
                let leaving = (-direction.dot(patch.normal) + 0.02).max(0.0);
                let arriving = normal.map_or(1.0, |n| ((direction.dot(n) + slack) / (1.0 + slack)).max(0.0));
                weight = light.mean() * patch.area * leaving * arriving / distance2;
            }
            sum += weight;
            cumulative.push(sum);
            density.push(weight / patch.area.max(1e-9));
        }
        if sum > 0.0 {
            let scale = 1.0 / sum;
            cumulative.iter_mut().for_each(|c| *c *= scale);
            density.iter_mut().for_each(|d| *d *= scale);
        }
        Table { cumulative, density }
    }

    /// Whether there is anything to draw.
    #[inline]
    pub(crate) fn is_dark(&self) -> bool {
        self.cumulative.last().is_none_or(|&last| last <= 0.0)
    }

    /// Draws a point; `u` picks the patch, `at` the place on it.
    #[inline]
    pub(crate) fn draw(&self, patches: &Patches, u: f32, at: [f32; 2]) -> Option<Draw> {
        let index = self
            .cumulative
            .partition_point(|&c| c <= u)
            .min(self.cumulative.len() - 1);
        let patch = &patches.list[index];
        let [corner, a, b] = patch.rectangle?;
        Some(Draw {
            patch: index as u32,
            position: corner + a * at[0] + b * at[1],
            normal: patch.normal,
            density: self.density[index],
        })
    }

    /// Density per m² on a patch.
    #[inline]
    pub(crate) fn density(&self, patch: u32) -> f32 {
        self.density[patch as usize]
    }
}

/// Which tables an object uses.
enum Tables {
    /// A grid over a rectangle.
    Flat {
        first: u32,
        columns: u32,
        rows: u32,
        corner: Vec3,
        a: Vec3,
        b: Vec3,
    },
    /// One table per direction of the normal.
    Body { first: u32 },
}

/// The tables of a scene under one light.
pub struct Guide {
    tables: Vec<Table>,
    objects: Vec<Tables>,
}

impl Guide {
    /// Builds the tables for a solved light.
    pub fn new(room: &Room, radiosity: &[Spectrum]) -> Self {
        let mut references: Vec<(Vec3, Vec3, f32)> = Vec::new();
        let mut objects = Vec::new();
        for (index, object) in room.geometry.objects.iter().enumerate() {
            let first = references.len() as u32;
            match object.rectangle {
                Some([corner, a, b]) => {
                    let columns = (a.length() / FLAT_CELL).ceil().max(1.0) as u32;
                    let rows = (b.length() / FLAT_CELL).ceil().max(1.0) as u32;
                    let normal = a.cross(b).normalize_or_zero();
                    for row in 0..rows {
                        for column in 0..columns {
                            let u = (column as f32 + 0.5) / columns as f32;
                            let v = (row as f32 + 0.5) / rows as f32;
                            references.push((corner + a * u + b * v, normal, 0.1));
                        }
                    }
                    let (a, b) = (a / a.length_squared(), b / b.length_squared());
                    objects.push(Tables::Flat {
                        first,
                        columns,
                        rows,
                        corner,
                        a,
                        b,
                    });
                }
                None => {
                    let reference = body_reference(room, index);
                    for cell in 0..NORMAL_GRID * NORMAL_GRID {
                        let at = Vec2::new(
                            (cell % NORMAL_GRID) as f32 + 0.5,
                            (cell / NORMAL_GRID) as f32 + 0.5,
                        );
                        references.push((reference, octahedral_normal(at / NORMAL_GRID as f32), 0.25));
                    }
                    objects.push(Tables::Body { first });
                }
            }
        }
        let tables = references
            .par_iter()
            .map(|&(from, normal, slack)| Table::new(&room.patches, radiosity, from, Some(normal), slack))
            .collect();
        Guide { tables, objects }
    }

    /// The table for a point of a surface; `None` where nothing shines.
    #[inline]
    pub(crate) fn table(&self, room: &Room, point: &SurfacePoint) -> Option<&Table> {
        let object = room.geometry.object[point.triangle as usize] as usize;
        let index = match &self.objects[object] {
            Tables::Flat {
                first,
                columns,
                rows,
                corner,
                a,
                b,
            } => {
                let local = point.position - *corner;
                let column = ((local.dot(*a) * *columns as f32).max(0.0) as u32).min(columns - 1);
                let row = ((local.dot(*b) * *rows as f32).max(0.0) as u32).min(rows - 1);
                first + row * columns + column
            }
            Tables::Body { first } => {
                let at = octahedral_point(point.normal) * NORMAL_GRID as f32;
                let column = (at.x as usize).min(NORMAL_GRID - 1);
                let row = (at.y as usize).min(NORMAL_GRID - 1);
                first + (row * NORMAL_GRID + column) as u32
            }
        };
        let table = &self.tables[index as usize];
        (!table.is_dark()).then_some(table)
    }
}

/// The point that stands for a person: high up, where the face is.
fn body_reference(room: &Room, object: usize) -> Vec3 {
    let run = &room.geometry.objects[object];
    let (mut low, mut high) = (Vec3::splat(f32::MAX), Vec3::splat(f32::MIN));
    for triangle in run.first..run.first + run.count {
        for corner in room.geometry.corners(triangle) {
            low = low.min(corner);
            high = high.max(corner);
        }
    }
    let middle = 0.5 * (low + high);
    Vec3::new(middle.x, middle.y, (high.z - 0.15).max(middle.z))
}

/// Unit square to sphere (octahedral map: Meyer et al. 2010).
fn octahedral_normal(at: Vec2) -> Vec3 {
    let p = at * 2.0 - Vec2::ONE;
    let z = 1.0 - p.x.abs() - p.y.abs();
    let fold = (-z).max(0.0);
    Vec3::new(p.x - fold.copysign(p.x), p.y - fold.copysign(p.y), z).normalize()
}

/// Sphere to unit square, the inverse of [`octahedral_normal`].
fn octahedral_point(n: Vec3) -> Vec2 {
    let scale = 1.0 / (n.x.abs() + n.y.abs() + n.z.abs()).max(1e-9);
    let (mut x, mut y) = (n.x * scale, n.y * scale);
    if n.z < 0.0 {
        (x, y) = ((1.0 - y.abs()).copysign(x), (1.0 - x.abs()).copysign(y));
    }
    (Vec2::new(x, y) * 0.5 + 0.5).clamp(Vec2::ZERO, Vec2::splat(0.999_999))
}
