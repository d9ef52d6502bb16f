//! Where to look for light: tables that say which patches matter to a point.
//!
//! A table lists the flat patches of the room with a probability near to what each sends to a reference
//! point. It never changes what is computed, only how soon it settles: every estimate divides by the
//! true density, and whatever the tables miss is found by the surface's own sampling (balance heuristic,
//! Veach & Guibas 1995).
//!
//! There are two kinds: a [`Guide`] serves any point, roughly, as the referee's paths need it; a
//! [`PictureGuide`] serves the points that a picture shows, well.

use crate::leg::{Leg, NO_LENGTH};
use crate::outside::Outside;
use crate::patches::{LEAST_AREA, Patches};
use crate::room::{Room, SolvedLight};
use crate::source::Source;
use crate::surface::SurfacePoint;
use colour::Spectrum;
use glam::{IVec3, Vec2, Vec3};
use rayon::prelude::*;
use std::collections::{BTreeMap, HashMap};
use std::f32::consts::PI;

/// Normal directions for which a person has tables of their own: an octahedral grid of this edge.
const NORMAL_GRID: usize = 10;
/// Edge of the squares of a flat object that share a table, in metres.
const FLAT_CELL: f32 = 0.6;
/// Cosine by which a table of a flat object, and one of a person, lets in patches that lie a little behind the normal
/// that stands for all its points.
const FLAT_SLACK: f32 = 0.1;
const BODY_SLACK: f32 = 0.25;
/// How far below the crown the point lies that stands for a person, in metres: in the face.
const FACE_BELOW_CROWN: f32 = 0.15;
/// What is added to the cosine at a patch, because some of its points may face a point that its middle does not.
const EDGE_ON: f32 = 0.02;
/// A patch nearer than this to a reference point, in metres, counts as this far off: the table serves other points too.
const NEAR: f32 = 0.2;

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
                let leg = Leg::between(from, patch.centre);
                let leaving = (leg.cos_landing(patch.normal) + EDGE_ON).max(0.0);
                let arriving =
                    normal.map_or(1.0, |n| ((leg.cos_leaving(n) + slack) / (1.0 + slack)).max(0.0));
                weight = light.mean() * patch.area * leaving * arriving / leg.distance2.max(NEAR * NEAR);
            }
            sum += weight;
            cumulative.push(sum);
            density.push(weight / patch.area.max(LEAST_AREA));
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
                            references.push((corner + a * u + b * v, normal, FLAT_SLACK));
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
                        references.push((reference, octahedral_normal(at / NORMAL_GRID as f32), BODY_SLACK));
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
            Tables::Body { first } => first + bin_of(point.normal, NORMAL_GRID),
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
    Vec3::new(middle.x, middle.y, (high.z - FACE_BELOW_CROWN).max(middle.z))
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

/// Edge of the cubes in which the surfaces of a picture share tables, in metres.
const CELL: f32 = 0.3;
/// Normal directions within such a cube that have a table of their own: an octahedral grid of this edge.
const FINE_GRID: usize = 20;
/// A patch nearer than this to a surface, in metres, is too near for a table that stands for many points.
const CLOSE: f32 = 0.25;
/// What a table gives at least to a patch that some of its points may see, as a share of the most that
/// they may receive of it. It bounds what a single draw can bring, and so what a speck could be.
const LEAST: f32 = 0.25;
/// Points whose normals differ by less than this lie on one plane: what is left is rounding.
const FLAT_SPREAD: f32 = 1e-3;
/// How far below the lowest of the seen points others may lie, in metres, on a plane and on a curved surface; and by
/// how much more, as a sine, normals may lean there.
const FLAT_DEPTH: f32 = 1e-4;
const CURVED_SLACK: f32 = 0.01;
const CURVED_LEAN: f32 = 0.03;
/// How far beside the seen points others of the group may lie, in metres.
const BETWEEN_POINTS: f32 = 0.02;
/// An emitter that at best is seen, or sees the group, under cosines below these sends nothing worth a draw.
const LEAST_LEAVING: f32 = 1e-4;
const LEAST_ARRIVING: f32 = 1e-3;
/// No emitter counts as nearer to a group than this, in metres, nor, for what it may send at most, than this share of
/// the way between their middles.
const NEAREST: f32 = 0.02;
const NEAREST_SHARE: f32 = 0.3;
/// A normal in a cube that has no table.
const NO_TABLE: u32 = u32::MAX;

/// A flat patch that shines.
struct Emitter {
    patch: u32,
    rectangle: [Vec3; 3],
    centre: Vec3,
    normal: Vec3,
    area: f32,
    /// Half its diagonal.
    radius: f32,
    /// Flux per π: what weighs it. Of a portal it is only what it sends back.
    power: f32,
    /// The object, if it is a portal.
    portal: Option<usize>,
}

/// Points of the picture's surfaces that look the same way and lie together.
struct Group {
    centre: Vec3,
    radius: f32,
    /// Mean normal; none when they look all ways.
    normal: Option<Vec3>,
    /// Sine of the largest angle between a normal and the mean.
    spread: f32,
    /// The lowest of the points along the mean normal.
    lowest: f32,
}

/// Probabilities of the emitters for one group, in the emitters' order.
pub(crate) struct GroupTable {
    cumulative: Vec<f32>,
    /// Whether a patch is so near that the surface's own sampling must help.
    pub close: bool,
}

/// Where to look for the light of flat patches from every surface that a picture shows.
///
/// Unlike a [`Guide`] it is made for known points: those that share a cube and a main direction have a
/// table that gives something to every patch that any of them could see. What flat patches send is
/// therefore found by drawing from the table alone, and no draw can be far brighter than the others.
pub(crate) struct PictureGuide {
    emitters: Vec<Emitter>,
    /// Where a patch is among the emitters.
    rank: Vec<u32>,
    cells: HashMap<IVec3, u32>,
    bins: Vec<u32>,
    tables: Vec<GroupTable>,
}

impl PictureGuide {
    /// Tables for points given by position and normal.
    pub(crate) fn new(room: &Room, source: &Source, light: &SolvedLight, seen: &[(Vec3, Vec3)]) -> Self {
        let emitters = emitters(room, source, light);
        let mut rank = vec![u32::MAX; room.patches.list.len()];
        for (place, emitter) in emitters.iter().enumerate() {
            rank[emitter.patch as usize] = place as u32;
        }
        let mut members: BTreeMap<([i32; 3], u32), Vec<u32>> = BTreeMap::new();
        for (index, &(position, normal)) in seen.iter().enumerate() {
            members
                .entry((cell_of(position).to_array(), bin_of(normal, FINE_GRID)))
                .or_default()
                .push(index as u32);
        }
        let mut cells = HashMap::new();
        let mut bins = Vec::new();
        let mut groups = Vec::new();
        for ((cell, bin), members) in members {
            let next = cells.len() as u32;
            let slot = *cells.entry(IVec3::from(cell)).or_insert(next);
            if slot == next {
                bins.resize(bins.len() + FINE_GRID * FINE_GRID, NO_TABLE);
            }
            bins[slot as usize * FINE_GRID * FINE_GRID + bin as usize] = groups.len() as u32;
            groups.push(Group::of(&members, seen));
        }
        if !seen.is_empty() {
            groups.push(Group::anywhere(seen));
        }
        let tables: Vec<GroupTable> = groups
            .par_iter()
            .map(|group| GroupTable::new(&emitters, source.outside(), group))
            .collect();
        PictureGuide {
            emitters,
            rank,
            cells,
            bins,
            tables,
        }
    }

    /// The table for a point; `None` where nothing shines.
    #[inline]
    pub(crate) fn table(&self, position: Vec3, normal: Vec3) -> Option<&GroupTable> {
        let foreseen = self
            .cells
            .get(&cell_of(position))
            .map(|&slot| {
                self.bins[slot as usize * FINE_GRID * FINE_GRID + bin_of(normal, FINE_GRID) as usize]
            })
            .filter(|&table| table != NO_TABLE);
        let table = match foreseen {
            Some(table) => &self.tables[table as usize],
            None => self.tables.last()?,
        };
        (!table.cumulative.is_empty()).then_some(table)
    }

    /// Draws a point; `u` picks the patch, `at` the place on it.
    #[inline]
    pub(crate) fn draw(&self, table: &GroupTable, u: f32, at: [f32; 2]) -> Draw {
        let index = table
            .cumulative
            .partition_point(|&c| c <= u)
            .min(table.cumulative.len() - 1);
        let emitter = &self.emitters[index];
        let [corner, a, b] = emitter.rectangle;
        Draw {
            patch: emitter.patch,
            position: corner + a * at[0] + b * at[1],
            normal: emitter.normal,
            density: table.probability(index) / emitter.area,
        }
    }

    /// Density per m² on a patch.
    #[inline]
    pub(crate) fn density(&self, table: &GroupTable, patch: u32) -> f32 {
        match self.rank[patch as usize] {
            u32::MAX => 0.0,
            rank => table.probability(rank as usize) / self.emitters[rank as usize].area,
        }
    }
}

impl Group {
    fn of(members: &[u32], seen: &[(Vec3, Vec3)]) -> Self {
        let all = || members.iter().map(|&index| seen[index as usize]);
        let centre = all().map(|(position, _)| position).sum::<Vec3>() / members.len() as f32;
        let normal = all().map(|(_, normal)| normal).sum::<Vec3>().normalize_or_zero();
        let radius = all().map(|(p, _)| p.distance(centre)).fold(0.0, f32::max);
        let spread = all().map(|(_, n)| n.cross(normal).length()).fold(0.0, f32::max);
        let lowest = all().map(|(p, _)| p.dot(normal)).fold(f32::MAX, f32::min);
        // Points between those that were seen may lie a little outside, on a surface that is not flat.
        let (slack, lean) = if spread > FLAT_SPREAD {
            (CURVED_SLACK, CURVED_LEAN)
        } else {
            (FLAT_DEPTH, 0.0)
        };
        Group {
            centre,
            radius: radius + BETWEEN_POINTS,
            normal: Some(normal),
            spread: spread + lean,
            lowest: lowest - slack,
        }
    }

    fn anywhere(seen: &[(Vec3, Vec3)]) -> Self {
        let centre = seen.iter().map(|(p, _)| *p).sum::<Vec3>() / seen.len() as f32;
        Group {
            centre,
            radius: seen.iter().map(|(p, _)| p.distance(centre)).fold(0.0, f32::max),
            normal: None,
            spread: 1.0,
            lowest: 0.0,
        }
    }

    /// How much an emitter may matter to the group, and whether it is close to it.
    #[inline]
    fn weight(&self, emitter: &Emitter, outside: Option<&Outside>) -> (f32, bool) {
        let towards = emitter.centre - self.centre;
        let distance = towards.length().max(NO_LENGTH);
        let direction = towards / distance;
        let reach = self.radius + emitter.radius;
        let leaving = -direction.dot(emitter.normal);
        // From the point of the group that is most in front of the patch.
        let most_leaving = (leaving + self.radius / distance).min(1.0);
        let (mut arriving, mut most_arriving) = (1.0, 1.0);
        if let Some(normal) = self.normal {
            let [_, a, b] = emitter.rectangle;
            let highest =
                emitter.centre.dot(normal) + 0.5 * (a.dot(normal).abs() + b.dot(normal).abs()) - self.lowest;
            arriving = direction.dot(normal);
            most_arriving =
                (highest / (distance - reach).max(NEAREST_SHARE * distance) + self.spread).min(1.0);
        }
        if most_leaving <= LEAST_LEAVING || most_arriving <= LEAST_ARRIVING {
            return (0.0, false);
        }
        let away = distance.max(0.5 * reach).max(NEAREST);
        let power = match (outside, emitter.portal) {
            // What a portal sends is known in the direction of these very points.
            (Some(outside), Some(object)) => {
                // The horizon may run through a patch: its brightest part decides, so that no point of it is
                // drawn too seldom for what it sends.
                let [corner, a, b] = emitter.rectangle;
                let brightest = [corner, corner + a, corner + b, corner + a + b, emitter.centre]
                    .into_iter()
                    .map(|point| {
                        let leaving = (self.centre - point).normalize_or(-direction);
                        outside.emission(object, leaving).mean()
                    })
                    .fold(0.0, f32::max);
                emitter.power + PI * emitter.area * brightest
            }
            _ => emitter.power,
        };
        let weight =
            power * leaving.max(LEAST * most_leaving) * arriving.max(LEAST * most_arriving) / (away * away);
        (weight, distance - reach < CLOSE)
    }
}

impl GroupTable {
    fn new(emitters: &[Emitter], outside: Option<&Outside>, group: &Group) -> Self {
        let mut cumulative = Vec::with_capacity(emitters.len());
        let (mut sum, mut close) = (0.0f64, false);
        for emitter in emitters {
            let (weight, is_close) = group.weight(emitter, outside);
            sum += f64::from(weight);
            close |= is_close;
            cumulative.push(sum);
        }
        let scale = if sum > 0.0 { 1.0 / sum } else { 0.0 };
        GroupTable {
            cumulative: if sum > 0.0 {
                cumulative.into_iter().map(|c| (c * scale) as f32).collect()
            } else {
                Vec::new()
            },
            close,
        }
    }

    /// The probability with which an emitter is drawn: the difference of what is stored, rounding included.
    #[inline]
    fn probability(&self, index: usize) -> f32 {
        let before = if index == 0 {
            0.0
        } else {
            self.cumulative[index - 1]
        };
        self.cumulative[index] - before
    }
}

/// The flat patches that shine, such that neighbours in the list are neighbours in the room: evenly spread
/// numbers then pick evenly spread patches.
fn emitters(room: &Room, source: &Source, light: &SolvedLight) -> Vec<Emitter> {
    let mut emitters = Vec::new();
    let mut keyed: Vec<(u64, u32)> = Vec::new();
    for (index, (patch, radiosity)) in room.patches.list.iter().zip(&light.radiosity).enumerate() {
        let Some([_, du, dv]) = patch.rectangle else {
            continue;
        };
        let Some([corner, _, _]) = room.geometry.objects[patch.object as usize].rectangle else {
            continue;
        };
        if radiosity.mean() <= 0.0 {
            continue;
        }
        let local = patch.centre - corner;
        let column = (local.dot(du) / du.length_squared()).max(0.0) as u32;
        let row = (local.dot(dv) / dv.length_squared()).max(0.0) as u32;
        keyed.push((
            u64::from(patch.object) << 32 | u64::from(along_hilbert(column, row)),
            index as u32,
        ));
    }
    keyed.sort_unstable();
    for (_, index) in keyed {
        let patch = &room.patches.list[index as usize];
        let object = patch.object as usize;
        let portal = source.outside().filter(|o| o.is_portal(object)).map(|_| object);
        if let Some(rectangle) = patch.rectangle {
            emitters.push(Emitter {
                patch: index,
                rectangle,
                centre: patch.centre,
                normal: patch.normal,
                area: patch.area,
                radius: 0.5 * (rectangle[1] + rectangle[2]).length(),
                power: match portal {
                    Some(_) => (light.radiosity[index as usize].mean() - light.glow[index as usize]).max(0.0),
                    None => light.radiosity[index as usize].mean(),
                } * patch.area,
                portal,
            });
        }
    }
    emitters
}

/// Place of a cell of a grid of 65,536 × 65,536 along Hilbert's curve (Hilbert 1891), on which near places
/// are near cells.
fn along_hilbert(mut x: u32, mut y: u32) -> u32 {
    let mut place = 0;
    let mut side = 1 << 15;
    while side > 0 {
        let (right, up) = (u32::from(x & side > 0), u32::from(y & side > 0));
        place += side * side * ((3 * right) ^ up);
        if up == 0 {
            if right == 1 {
                x = !x;
                y = !y;
            }
            std::mem::swap(&mut x, &mut y);
        }
        side >>= 1;
    }
    place
}

#[inline]
fn cell_of(position: Vec3) -> IVec3 {
    (position * (1.0 / CELL)).floor().as_ivec3()
}

/// Cell of an octahedral grid of this edge that a unit normal falls into.
#[inline]
fn bin_of(normal: Vec3, edge: usize) -> u32 {
    let at = octahedral_point(normal) * edge as f32;
    let column = (at.x as usize).min(edge - 1);
    let row = (at.y as usize).min(edge - 1);
    (row * edge + column) as u32
}
