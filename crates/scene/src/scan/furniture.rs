//! What stands in the room, as boxes square to its walls: each piece that has a name, and the lumps of a
//! scan that is one piece.

use super::found::{Scan, ScannedThing};
use super::mesh::{Facet, Mesh, quantile, sorted_quantile};
use super::shell::{FACING, Roles};
use super::words::{Role, counted, is_named, title, unique};
use glam::{UVec3, Vec2, Vec3};

/// As many boxes are kept (ours).
const MOST: usize = 40;
/// As many are looked at when those that overlap are joined (ours).
const MOST_JOINED: usize = 400;
/// A piece that reaches over this share of the room both ways is not one thing but much of the scan.
const SPREAD: f32 = 0.7;
/// What is nearer than this to floor, wall or ceiling belongs to them, in metres (ours; scanned walls bulge).
const MARGIN: f32 = 0.10;
/// Side of the cells in which lumps are found, in metres, unless the room is so large that there were too many.
const CELL: f32 = 0.05;
/// As many cells as are kept in memory (ours).
const MOST_CELLS: f32 = 4e6;
/// As many points as lumps are looked for with.
const SAMPLES: usize = 20_000_000;
/// A box is at least this thick, in metres.
const THINNEST: f32 = 0.02;
/// Things with less volume in cubic metres, or less wide in two directions in metres, do not matter for the
/// light (ours).
const TINY: (f32, f32) = (0.005, 0.15);
/// Boxes that share this part of the smaller one are joined (ours).
const OVERLAP: f32 = 0.25;

/// What a thing without a name is called.
const UNNAMED: &str = "furniture";
/// A box that begins lower than this over the floor, in metres, stands on it (ours).
const HIGHEST_FEET: f32 = 0.03;
/// As many names as a sentence gives.
const MOST_TOLD: usize = 6;

/// A box with what it is called and its colour.
struct NamedBox {
    min: Vec3,
    max: Vec3,
    name: String,
    paint: Paint,
}

impl NamedBox {
    fn volume(&self) -> f32 {
        (self.max - self.min).max(Vec3::ZERO).element_product()
    }

    /// The box clipped to the room, nowhere thinner than boxes are.
    fn fitted(mut self, room: Vec3) -> Self {
        self.min = self.min.clamp(Vec3::ZERO, room);
        self.max = self.max.clamp(Vec3::ZERO, room);
        for axis in 0..3 {
            let lack = THINNEST - (self.max[axis] - self.min[axis]);
            if lack > 0.0 {
                self.min[axis] = (self.min[axis] - 0.5 * lack).clamp(0.0, room[axis] - THINNEST);
                self.max[axis] = self.min[axis] + THINNEST;
            }
        }
        // Feet that a scan cuts off, and the gap that a plinth leaves.
        if self.min.z < HIGHEST_FEET {
            self.min.z = 0.0;
        }
        self
    }

    fn is_tiny(&self) -> bool {
        let mut sides = (self.max - self.min).to_array();
        sides.sort_by(f32::total_cmp);
        self.volume() < TINY.0 || sides[1] < TINY.1
    }
}

/// A colour, as the mean of surfaces.
#[derive(Clone, Copy, Default)]
pub(super) struct Paint {
    sum: Vec3,
    area: f32,
    all: f32,
}

impl Paint {
    /// Counts a facet.
    pub fn add(&mut self, facet: &Facet) {
        let area = facet.area();
        self.all += area;
        if let Some(colour) = facet.colour {
            self.sum += colour * area;
            self.area += area;
        }
    }

    /// The mean, if at least a fifth of the surface has a colour.
    pub fn mean(&self) -> Option<[f32; 3]> {
        (self.area > 0.2 * self.all && self.area > 0.0).then(|| (self.sum / self.area).to_array())
    }

    /// All of the surface.
    pub fn surface(&self) -> f32 {
        self.all
    }

    fn joined(self, other: Self) -> Self {
        Paint {
            sum: self.sum + other.sum,
            area: self.area + other.area,
            all: self.all + other.all,
        }
    }
}

/// Finds what stands in the room. `elsewhere` are pieces called windows or doors that lie in no wall.
pub(super) fn find(
    mesh: &Mesh,
    roles: &Roles,
    by_piece: &[(usize, &[Facet])],
    elsewhere: &[usize],
    scan: &mut Scan,
) {
    let room = scan.room;
    let (mut found, mut loose, mut outside, mut turned) = (Vec::new(), Vec::<&[Facet]>::new(), 0, 0);
    for (piece, facets) in by_piece {
        if roles.0[*piece] != Role::Thing && !elsewhere.contains(piece) {
            continue;
        }
        let (min, max) = level_box(facets);
        let size = max - min;
        // Pieces without names may be cut from the scan anywhere, through walls and things alike.
        let spreads = size.x > SPREAD * room.x && size.y > SPREAD * room.y;
        if spreads || !is_named(&mesh.pieces[*piece]) {
            loose.push(facets);
            continue;
        }
        let middle = 0.5 * (min + max);
        if middle.cmplt(Vec3::ZERO).any() || middle.cmpgt(room).any() {
            outside += 1;
            continue;
        }
        let (min, max, is_turned) = square_box(facets, (min, max));
        let mut paint = Paint::default();
        facets.iter().for_each(|facet| paint.add(facet));
        let thing = NamedBox {
            min,
            max,
            name: title(&mesh.pieces[*piece], UNNAMED),
            paint,
        };
        turned += usize::from(is_turned && !thing.is_tiny());
        found.push(thing);
    }
    if turned > 0 {
        scan.told.push(format!(
            "{} at an angle to the walls and turned to stand square.",
            counted(turned, "thing stood", "things stood")
        ));
    }
    if outside > 0 {
        scan.told.push(format!(
            "{} outside the walls left out.",
            counted(outside, "part", "parts")
        ));
    }
    let lumps = lumps(&loose, room);
    if !lumps.is_empty() {
        scan.told.push(
            "The scan is not cut into things; whatever stands in the room was cut into boxes by its shape. A box has one \
             surface all round."
                .to_owned(),
        );
    }
    found.extend(lumps);
    keep(found, scan);
}

/// Lowest and highest corner.
fn level_box(facets: &[Facet]) -> (Vec3, Vec3) {
    let corners = || facets.iter().flat_map(|facet| facet.corners);
    (
        corners().fold(Vec3::INFINITY, Vec3::min),
        corners().fold(Vec3::NEG_INFINITY, Vec3::max),
    )
}

/// The box of a thing that may stand at an angle, turned about its middle by the shorter way until it is square;
/// and whether it had to be. Its own directions are those in which its outline is smallest.
fn square_box(facets: &[Facet], level: (Vec3, Vec3)) -> (Vec3, Vec3, bool) {
    let step = facets.len().div_ceil(2000).max(1);
    let outline = |degrees: f32, step: usize| {
        let turn = Vec2::from_angle(-degrees.to_radians());
        let (mut low, mut high) = (Vec2::INFINITY, Vec2::NEG_INFINITY);
        for corner in facets.iter().step_by(step).flat_map(|facet| facet.corners) {
            let p = turn.rotate(corner.truncate());
            (low, high) = (low.min(p), high.max(p));
        }
        (low, high)
    };
    let area = |degrees: f32| {
        let (low, high) = outline(degrees, step);
        (high - low).max(Vec2::splat(THINNEST)).element_product()
    };
    let best_of = |angles: &mut dyn Iterator<Item = f32>| {
        angles
            .map(|degrees| (area(degrees), degrees))
            .min_by(|a, b| a.0.total_cmp(&b.0))
            .map_or(0.0, |(_, degrees)| degrees)
    };
    let rough = best_of(&mut (-8..=9).map(|i| i as f32 * 5.0));
    let best = best_of(&mut (-4..=4).map(|i| rough + i as f32));
    // Round things have no direction, and a few degrees are not worth a word.
    if best.abs() < 3.0 || area(best) > 0.92 * area(0.0) {
        return (level.0, level.1, false);
    }
    let (low, high) = outline(best, 1);
    let middle = Vec2::from_angle(best.to_radians()).rotate(0.5 * (low + high));
    let half = 0.5 * (high - low);
    (
        (middle - half).extend(level.0.z),
        (middle + half).extend(level.1.z),
        true,
    )
}

/// Cells of the room's air.
struct Cells {
    number: UVec3,
    cell: Vec3,
    /// 0 for empty; once lumps are found, one more than the number of the box that a cell belongs to.
    lump: Vec<u32>,
}

/// Cells of one lump, by their place along each axis.
type Lump = Vec<[u16; 3]>;

impl Cells {
    fn new(room: Vec3) -> Self {
        let side = CELL.max((room.element_product() / MOST_CELLS).cbrt());
        let number = (room / side).ceil().max(Vec3::ONE);
        Cells {
            number: number.as_uvec3(),
            cell: room / number,
            lump: vec![0; number.as_uvec3().element_product() as usize],
        }
    }

    fn place(&self, point: Vec3) -> [u16; 3] {
        let cell = (point / self.cell)
            .max(Vec3::ZERO)
            .as_uvec3()
            .min(self.number - 1);
        [cell.x as u16, cell.y as u16, cell.z as u16]
    }

    fn index(&self, [x, y, z]: [u16; 3]) -> usize {
        ((usize::from(z) * self.number.y as usize) + usize::from(y)) * self.number.x as usize + usize::from(x)
    }

    /// Cells that hang together, corners included. Full cells are marked `FULL` before.
    fn lumps(&mut self) -> Vec<Lump> {
        let [columns, rows, layers] = self.number.to_array().map(|number| number as u16);
        let (mut lumps, mut stack) = (Vec::new(), Vec::new());
        for z in 0..layers {
            for y in 0..rows {
                for x in 0..columns {
                    let start = self.index([x, y, z]);
                    if self.lump[start] != FULL {
                        continue;
                    }
                    self.lump[start] = 0;
                    stack.push([x, y, z]);
                    let mut lump = Vec::new();
                    while let Some(here) = stack.pop() {
                        lump.push(here);
                        let [hx, hy, hz] = here;
                        for nz in hz.saturating_sub(1)..=(hz + 1).min(layers - 1) {
                            for ny in hy.saturating_sub(1)..=(hy + 1).min(rows - 1) {
                                for nx in hx.saturating_sub(1)..=(hx + 1).min(columns - 1) {
                                    let next = self.index([nx, ny, nz]);
                                    if self.lump[next] == FULL {
                                        self.lump[next] = 0;
                                        stack.push([nx, ny, nz]);
                                    }
                                }
                            }
                        }
                    }
                    lumps.push(lump);
                }
            }
        }
        lumps
    }
}

const FULL: u32 = u32::MAX;

/// Boxes around what hangs together away from walls, floor and ceiling.
fn lumps(loose: &[&[Facet]], room: Vec3) -> Vec<NamedBox> {
    if loose.is_empty() {
        return Vec::new();
    }
    let mut cells = Cells::new(room);
    let mut budget = SAMPLES;
    let margin = Vec3::splat(MARGIN);
    let is_inside = |p: Vec3| p.cmpgt(margin).all() && p.cmplt(room - margin).all();
    for facet in loose.iter().copied().flatten() {
        facet.sample(0.6 * CELL, &mut budget, |point| {
            if is_inside(point) {
                let index = cells.index(cells.place(point));
                cells.lump[index] = FULL;
            }
        });
    }
    let mut parts: Vec<Lump> = cells
        .lumps()
        .into_iter()
        .flat_map(|lump| split(lump, cells.cell))
        .collect();
    parts.sort_by_key(|part| std::cmp::Reverse(part.len()));
    // Crumbs of a few cells are noise.
    parts.retain(|part| part.len() >= 6);
    parts.truncate(MOST_JOINED);
    for (number, part) in parts.iter().enumerate() {
        for place in part {
            let index = cells.index(*place);
            cells.lump[index] = number as u32 + 1;
        }
    }
    let mut facets: Vec<Vec<&Facet>> = vec![Vec::new(); parts.len()];
    for facet in loose.iter().copied().flatten() {
        let centre = facet.centre();
        if is_inside(centre) {
            let number = cells.lump[cells.index(cells.place(centre))] as usize;
            if let Some(list) = number.checked_sub(1).and_then(|number| facets.get_mut(number)) {
                list.push(facet);
            }
        }
    }
    parts
        .iter()
        .zip(&facets)
        .map(|(part, facets)| {
            let bounds = bounds(part.iter());
            let low = bounds.0.as_vec3() * cells.cell;
            let high = (bounds.1 + 1).as_vec3() * cells.cell;
            boxed(facets, low, high, room)
        })
        .collect()
}

/// Lowest and highest cell.
fn bounds<'a>(cells: impl Iterator<Item = &'a [u16; 3]>) -> (UVec3, UVec3) {
    cells.fold((UVec3::MAX, UVec3::ZERO), |(low, high), place| {
        let place = UVec3::from(place.map(u32::from));
        (low.min(place), high.max(place))
    })
}

/// Cuts a lump that its box fits badly (an L of cupboards, a table with a shelf beside it) where two boxes save
/// most air, while that is worth it, three times over at most.
fn split(lump: Lump, cell: Vec3) -> Vec<Lump> {
    let mut parts = vec![lump];
    for _ in 0..3 {
        let cut: Vec<Lump> = parts.iter().flat_map(|part| cut(part, cell)).collect();
        if cut.len() == parts.len() {
            break;
        }
        parts = cut;
    }
    parts
}

/// One or two lumps. Costs a few steps for each cell.
fn cut(lump: &Lump, cell: Vec3) -> Vec<Lump> {
    let volume = |(low, high): (UVec3, UVec3)| {
        if low.cmpgt(high).any() {
            0.0
        } else {
            ((high - low + 1).as_vec3() * cell).element_product()
        }
    };
    let (low, high) = bounds(lump.iter());
    let whole = volume((low, high));
    let join = |a: (UVec3, UVec3), b: (UVec3, UVec3)| (a.0.min(b.0), a.1.max(b.1));
    let empty = (UVec3::MAX, UVec3::ZERO);
    let (mut best, mut best_at) = (f32::INFINITY, (0, 0));
    for axis in 0..3 {
        let length = (high[axis] - low[axis] + 1) as usize;
        let mut slices = vec![empty; length];
        for place in lump {
            let place = UVec3::from(place.map(u32::from));
            let slice = &mut slices[(place[axis] - low[axis]) as usize];
            *slice = join(*slice, (place, place));
        }
        let mut after = vec![empty; length + 1];
        for at in (0..length).rev() {
            after[at] = join(after[at + 1], slices[at]);
        }
        let mut before = empty;
        for (at, (slice, rest)) in slices.iter().zip(&after[1..]).enumerate().take(length - 1) {
            before = join(before, *slice);
            let both = volume(before) + volume(*rest);
            if both < best {
                (best, best_at) = (both, (axis, low[axis] + at as u32 + 1));
            }
        }
    }
    // A quarter and 100 litres of air less (ours); a chair stays one box.
    if best > 0.75 * whole || whole - best < 0.1 {
        return vec![lump.clone()];
    }
    let (first, second) = lump
        .iter()
        .partition(|place| u32::from(place[best_at.0]) < best_at.1);
    vec![first, second]
}

/// The box of a lump between `low` and `high`: each side where most of the surface that faces that way lies; where
/// none does, where the lump ends, or at the wall or floor that it was cut off from.
fn boxed(facets: &[&Facet], low: Vec3, high: Vec3, room: Vec3) -> NamedBox {
    let (mut min, mut max) = (low, high);
    let mut paint = Paint::default();
    facets.iter().for_each(|facet| paint.add(facet));
    let size = high - low;
    for axis in 0..3 {
        let face = size[(axis + 1) % 3] * size[(axis + 2) % 3];
        let window = (0.5 * size[axis]).min(0.12);
        let mut points: Vec<(f32, f32)> = facets
            .iter()
            .flat_map(|facet| facet.corners.map(|corner| (corner[axis], facet.area())))
            .collect();
        let mut facing: Vec<(f32, f32)> = facets
            .iter()
            .map(|facet| (facet.normal_and_area(), facet.centre()[axis]))
            .filter(|((normal, _), _)| normal[axis].abs() > FACING)
            .map(|((_, area), at)| (at, area))
            .collect();
        let ends = if points.is_empty() {
            (low[axis], high[axis])
        } else {
            (quantile(&mut points, 0.01), sorted_quantile(&points, 0.99))
        };
        facing.sort_unstable_by(|a, b| a.0.total_cmp(&b.0));
        let side = |near: f32, end: f32, limit: f32| {
            let close: Vec<(f32, f32)> = facing
                .iter()
                .copied()
                .filter(|(at, _)| (at - near).abs() <= window)
                .collect();
            let area: f32 = close.iter().map(|(_, area)| area).sum();
            if area > 0.25 * face {
                sorted_quantile(&close, 0.5)
            } else if (near - limit).abs() < MARGIN + 0.06 {
                limit
            } else {
                end
            }
        };
        let (from, to) = (side(low[axis], ends.0, 0.0), side(high[axis], ends.1, room[axis]));
        if to - from > THINNEST {
            (min[axis], max[axis]) = (from, to);
        }
    }
    if min.z < 0.2 {
        min.z = 0.0;
    }
    NamedBox {
        min,
        max,
        name: UNNAMED.to_owned(),
        paint,
    }
}

/// Clips boxes to the room, drops the tiny ones, joins those that overlap and keeps the largest.
fn keep(found: Vec<NamedBox>, scan: &mut Scan) {
    let room = scan.room;
    let fitted = found.into_iter().map(|one| one.fitted(room));
    let (tiny, mut boxes): (Vec<NamedBox>, Vec<NamedBox>) = fitted.partition(NamedBox::is_tiny);
    tell_tiny(&tiny, scan);
    boxes.sort_by(|a, b| b.volume().total_cmp(&a.volume()));
    let mut dropped = boxes.len().saturating_sub(MOST_JOINED);
    boxes.truncate(MOST_JOINED);
    let before = boxes.len();
    let mut kept = joined(boxes);
    if kept.len() < before {
        scan.told.push(format!(
            "{} overlapped others and made one box with them.",
            counted(before - kept.len(), "box", "boxes")
        ));
    }
    kept.sort_by(|a, b| b.volume().total_cmp(&a.volume()));
    dropped += kept.len().saturating_sub(MOST);
    kept.truncate(MOST);
    if dropped > 0 {
        scan.told.push(format!(
            "{} beyond the {MOST} largest left out.",
            counted(dropped, "thing", "things")
        ));
    }
    let mut taken: Vec<String> = Vec::new();
    for one in kept {
        let name = unique(one.name, &taken);
        taken.push(name.clone());
        scan.furniture.push(ScannedThing {
            name,
            min: one.min,
            max: one.max,
            colour: one.paint.mean(),
        });
    }
}

/// Tells of things that are too small, with a few of their names.
fn tell_tiny(tiny: &[NamedBox], scan: &mut Scan) {
    if tiny.is_empty() {
        return;
    }
    let names: Vec<&str> = tiny
        .iter()
        .map(|one| one.name.as_str())
        .filter(|name| *name != UNNAMED)
        .take(MOST_TOLD)
        .collect();
    let which = if names.is_empty() {
        String::new()
    } else {
        format!(" ({})", names.join(", "))
    };
    scan.told.push(format!(
        "{} too small to matter for the light left out{which}.",
        counted(tiny.len(), "thing", "things")
    ));
}

/// Joins boxes that overlap, until none does.
fn joined(boxes: Vec<NamedBox>) -> Vec<NamedBox> {
    let mut kept: Vec<NamedBox> = Vec::new();
    for mut one in boxes {
        while let Some(at) = kept.iter().position(|other| overlap(&one, other)) {
            let other = kept.swap_remove(at);
            one = NamedBox {
                min: one.min.min(other.min),
                max: one.max.max(other.max),
                paint: one.paint.joined(other.paint),
                name: if other.name == UNNAMED {
                    one.name
                } else {
                    other.name
                },
            };
        }
        kept.push(one);
    }
    kept
}

/// Whether two boxes share a good part of the smaller one.
fn overlap(a: &NamedBox, b: &NamedBox) -> bool {
    let shared = (a.max.min(b.max) - a.min.max(b.min))
        .max(Vec3::ZERO)
        .element_product();
    shared > OVERLAP * a.volume().min(b.volume())
}
