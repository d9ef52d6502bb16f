//! Windows and doors: pieces that are called so and lie in a wall, or, where nothing is called so, rectangular
//! holes in the walls.

use super::found::{Scan, ScannedThing};
use super::mesh::{Facet, Mesh};
use super::shell::{FACING, Roles};
use super::words::{Role, counted, title, unique};
use crate::{BoxRoom, Face, Material, Opening, OpeningKind};
use colour::Spectrum;
use glam::{Vec2, Vec3};

/// The walls.
const WALLS: [Face; 4] = [Face::Left, Face::Right, Face::BehindCamera, Face::BehindSitter];
/// A window may lie this far from the plane of its wall, in metres (ours: a deep reveal).
const DEEPEST: f32 = 0.5;
/// Side of the cells in which neighbours are looked for, in metres.
const CELL: f32 = 0.05;
/// An opening smaller than this in one direction is left out, in metres (ours).
const SMALLEST: f32 = 0.15;
/// A hole must be this large each way to pass for an opening, in metres (ours).
const SMALLEST_HOLE: f32 = 0.4;
/// As many openings as are kept; a room has fewer (ours).
const MOST: usize = 40;
/// As many pieces are looked at (ours).
const MOST_PIECES: usize = 400;
/// How many points holes may be looked for with.
const SAMPLES: usize = 20_000_000;

/// Lower left and upper right corner on a wall, seen from inside.
#[derive(Clone, Copy, Debug)]
struct Rectangle {
    low: Vec2,
    high: Vec2,
}

impl Rectangle {
    fn size(self) -> Vec2 {
        self.high - self.low
    }

    fn joined(self, other: Self) -> Self {
        Rectangle {
            low: self.low.min(other.low),
            high: self.high.max(other.high),
        }
    }

    fn meets(self, other: Self) -> bool {
        self.low.cmplt(other.high).all() && other.low.cmplt(self.high).all()
    }
}

/// A wall as a plane with coordinates along and up, seen from inside.
struct WallPlane {
    face: Face,
    corner: Vec3,
    along: Vec3,
    size: Vec2,
}

impl WallPlane {
    fn of(room: &BoxRoom, face: Face) -> Self {
        let (corner, along, up) = room.face_frame(face);
        WallPlane {
            face,
            corner,
            along: along.normalize(),
            size: Vec2::new(along.length(), up.length()),
        }
    }

    fn on(&self, point: Vec3) -> Vec2 {
        Vec2::new((point - self.corner).dot(self.along), point.z)
    }

    /// Distance into the room; negative behind the wall.
    fn before(&self, point: Vec3) -> f32 {
        (point - self.corner).dot(self.face.inward())
    }

    fn rectangle(&self, facet: &Facet) -> Rectangle {
        let [a, b, c] = facet.corners.map(|corner| self.on(corner));
        Rectangle {
            low: a.min(b).min(c).max(Vec2::ZERO),
            high: a.max(b).max(c).min(self.size),
        }
    }
}

/// Cells of a wall.
struct Cells {
    columns: usize,
    rows: usize,
    cell: Vec2,
    full: Vec<bool>,
}

impl Cells {
    fn new(size: Vec2) -> Self {
        let (columns, rows) = (
            (size.x / CELL).ceil().max(1.0) as usize,
            (size.y / CELL).ceil().max(1.0) as usize,
        );
        Cells {
            columns,
            rows,
            cell: size / Vec2::new(columns as f32, rows as f32),
            full: vec![false; columns * rows],
        }
    }

    fn at(&self, place: Vec2) -> (usize, usize) {
        let cell = place / self.cell;
        (
            (cell.x.max(0.0) as usize).min(self.columns - 1),
            (cell.y.max(0.0) as usize).min(self.rows - 1),
        )
    }

    /// Fills what a set of rectangles covers, each in a constant time: corners are counted and then summed up.
    fn fill(&mut self, rectangles: &[Rectangle]) {
        let width = self.columns + 1;
        let mut counts = vec![0_i64; width * (self.rows + 1)];
        for rectangle in rectangles {
            let ((left, low), (right, high)) = (self.at(rectangle.low), self.at(rectangle.high));
            counts[low * width + left] += 1;
            counts[low * width + right + 1] -= 1;
            counts[(high + 1) * width + left] -= 1;
            counts[(high + 1) * width + right + 1] += 1;
        }
        for row in 0..=self.rows {
            for column in 1..width {
                counts[row * width + column] += counts[row * width + column - 1];
            }
            for column in 0..width {
                if row > 0 {
                    counts[row * width + column] += counts[(row - 1) * width + column];
                }
                if row < self.rows && column < self.columns && counts[row * width + column] > 0 {
                    self.full[row * self.columns + column] = true;
                }
            }
        }
    }

    /// The number of the patch that each cell with a wanted state belongs to, and how many patches there are.
    fn patches(&self, wanted: bool, corners_touch: bool) -> (Vec<u32>, usize) {
        let mut patch = vec![0_u32; self.full.len()];
        let mut count = 0;
        let mut stack = Vec::new();
        for start in 0..self.full.len() {
            if self.full[start] != wanted || patch[start] != 0 {
                continue;
            }
            count += 1;
            patch[start] = count;
            stack.push(start);
            while let Some(here) = stack.pop() {
                let (column, row) = (here % self.columns, here / self.columns);
                for next_row in row.saturating_sub(1)..=(row + 1).min(self.rows - 1) {
                    for next_column in column.saturating_sub(1)..=(column + 1).min(self.columns - 1) {
                        let next = next_row * self.columns + next_column;
                        let straight = next_row == row || next_column == column;
                        if (straight || corners_touch) && self.full[next] == wanted && patch[next] == 0 {
                            patch[next] = count;
                            stack.push(next);
                        }
                    }
                }
            }
        }
        (patch, count as usize)
    }
}

/// A hole that begins lower than this over the floor, in metres, goes down to it (ours).
const HIGHEST_SILL: f32 = 0.15;
/// A hole down to the floor that is higher than this, in metres, is a doorway (ours).
const LOWEST_DOOR: f32 = 1.7;

/// An opening that was found, before it has a name of its own.
struct FoundOpening {
    face: Face,
    rectangle: Rectangle,
    kind: OpeningKind,
    name: String,
}

fn room_of(size: Vec3) -> BoxRoom {
    BoxRoom::uniform(size.into(), Material::matt("", Spectrum::ZERO))
}

/// Pieces that are called windows or doors, grouped in `by_piece`. Those that lie in no wall are given back, to
/// be taken as furniture.
pub(super) fn named(
    mesh: &Mesh,
    roles: &Roles,
    by_piece: &[(usize, &[Facet])],
    scan: &mut Scan,
) -> Vec<usize> {
    let room = room_of(scan.room);
    let walls = WALLS.map(|face| WallPlane::of(&room, face));
    let (mut found, mut elsewhere, mut small) = (Vec::<FoundOpening>::new(), Vec::new(), 0);
    let pieces = by_piece
        .iter()
        .filter_map(|(piece, facets)| match roles.0[*piece] {
            Role::Opening(kind) => Some((*piece, *facets, kind)),
            _ => None,
        })
        .take(MOST_PIECES);
    for (piece, facets, kind) in pieces {
        let name = title(&mesh.pieces[piece], usual_name(kind));
        // A leaf or a deep reveal reaches into the room, so that the piece as a whole decides, unless it spreads
        // over several walls.
        let whole = nearest(&walls, facets);
        let faces: Vec<Option<Face>> = facets
            .iter()
            .map(|facet| whole.or_else(|| nearest(&walls, std::slice::from_ref(facet))))
            .collect();
        if faces.iter().all(Option::is_none) {
            elsewhere.push(piece);
        }
        for wall in &walls {
            let here: Vec<Rectangle> = facets
                .iter()
                .zip(&faces)
                .filter(|(_, face)| **face == Some(wall.face))
                .map(|(facet, _)| wall.rectangle(facet))
                .filter(|rectangle| rectangle.low.cmple(rectangle.high).all())
                .collect();
            for rectangle in apart(wall, &here) {
                if rectangle.size().min_element() < SMALLEST {
                    small += 1;
                    continue;
                }
                found.push(FoundOpening {
                    face: wall.face,
                    rectangle,
                    kind,
                    name: name.clone(),
                });
            }
        }
    }
    if small > 0 {
        scan.told.push(format!(
            "{} called a window or door, but narrower than 15 cm, left out.",
            counted(small, "part was", "parts were")
        ));
    }
    keep(found, scan);
    tell_kinds(scan);
    elsewhere
}

/// What an opening without a name is called.
fn usual_name(kind: OpeningKind) -> &'static str {
    if kind == OpeningKind::Window {
        "window"
    } else {
        "doorway"
    }
}

/// Tells what doors and windows were taken as.
fn tell_kinds(scan: &mut Scan) {
    let doors = scan
        .openings
        .iter()
        .filter(|opening| opening.kind == OpeningKind::Doorway)
        .count();
    if doors > 0 {
        scan.told.push(format!(
            "{} taken as open to a darker room (kind = \"doorway\"). Leave it out if the door is shut, or write \
             kind = \"open\" if it leads outdoors.",
            counted(doors, "door or passage was", "doors or passages were")
        ));
    }
    if doors < scan.openings.len() {
        scan.told.push(
            "Windows were taken as bare double glass; write kind = \"net curtain\" where one hangs before it."
                .to_owned(),
        );
    }
}

/// The wall that all of some facets lie in.
fn nearest(walls: &[WallPlane; 4], facets: &[Facet]) -> Option<Face> {
    let farthest = |wall: &WallPlane| {
        facets
            .iter()
            .flat_map(|facet| facet.corners)
            .map(|corner| wall.before(corner).abs())
            .fold(0.0, f32::max)
    };
    walls
        .iter()
        .map(|wall| (farthest(wall), wall.face))
        .min_by(|a, b| a.0.total_cmp(&b.0))
        .filter(|(distance, _)| *distance <= DEEPEST)
        .map(|(_, face)| face)
}

/// Rectangles around those that touch one another.
fn apart(wall: &WallPlane, rectangles: &[Rectangle]) -> Vec<Rectangle> {
    if rectangles.is_empty() {
        return Vec::new();
    }
    let mut cells = Cells::new(wall.size);
    cells.fill(rectangles);
    let (patch, count) = cells.patches(true, true);
    let mut around: Vec<Option<Rectangle>> = vec![None; count];
    for rectangle in rectangles {
        let (column, row) = cells.at(rectangle.low);
        let number = patch[row * cells.columns + column] as usize;
        if let Some(slot) = number.checked_sub(1).and_then(|number| around.get_mut(number)) {
            *slot = Some(slot.map_or(*rectangle, |known| known.joined(*rectangle)));
        }
    }
    around.into_iter().flatten().collect()
}

/// Joins openings that lie over one another, names them and keeps the largest.
fn keep(mut found: Vec<FoundOpening>, scan: &mut Scan) {
    found.sort_by(|a, b| {
        let area = |found: &FoundOpening| found.rectangle.size().element_product();
        area(b).total_cmp(&area(a))
    });
    let more = found.len().saturating_sub(10 * MOST);
    found.truncate(10 * MOST);
    let mut kept: Vec<FoundOpening> = Vec::new();
    for one in found {
        let mut one = one;
        // A joined rectangle may reach a third one.
        while let Some(at) = kept
            .iter()
            .position(|other| other.face == one.face && other.rectangle.meets(one.rectangle))
        {
            let other = kept.swap_remove(at);
            one = FoundOpening {
                rectangle: one.rectangle.joined(other.rectangle),
                // Glass in a door is still the way that daylight comes.
                kind: if other.kind == one.kind {
                    one.kind
                } else {
                    OpeningKind::Window
                },
                ..other
            };
        }
        kept.push(one);
    }
    let dropped = more + kept.len().saturating_sub(MOST);
    kept.truncate(MOST);
    if dropped > 0 {
        scan.told.push(format!(
            "{} beyond the {MOST} largest left out.",
            counted(dropped, "opening was", "openings were")
        ));
    }
    kept.sort_by(|a, b| {
        a.face
            .cmp(&b.face)
            .then(a.rectangle.low.x.total_cmp(&b.rectangle.low.x))
    });
    let mut taken: Vec<String> = Vec::new();
    for one in kept {
        let name = unique(one.name, &taken);
        taken.push(name.clone());
        scan.openings.push(Opening {
            name,
            face: one.face,
            from: one.rectangle.low,
            size: one.rectangle.size(),
            kind: one.kind,
        });
    }
}

impl FoundOpening {
    /// A hole in a wall, taken by its shape: a doorway where it goes down to the floor and is high enough.
    fn of_hole(face: Face, hole: Rectangle) -> Self {
        let down_to_floor = hole.low.y < HIGHEST_SILL;
        let door = down_to_floor && hole.size().y > LOWEST_DOOR;
        let kind = if door {
            OpeningKind::Doorway
        } else {
            OpeningKind::Window
        };
        FoundOpening {
            face,
            rectangle: Rectangle {
                low: Vec2::new(hole.low.x, if down_to_floor { 0.0 } else { hole.low.y }),
                ..hole
            },
            kind,
            name: usual_name(kind).to_owned(),
        }
    }
}

/// The cells of a wall, those that the scan shows full; `None` where it shows nothing of the wall.
fn scanned(mesh: &Mesh, wall: &WallPlane, budget: &mut usize) -> Option<Cells> {
    let axis = if wall.face.inward().x != 0.0 { 0 } else { 1 };
    let mut cells = Cells::new(wall.size);
    let mut seen = false;
    for facet in &mesh.facets {
        let centre = facet.centre();
        if wall.before(centre).abs() > 0.12 || facet.normal_and_area().0[axis].abs() < FACING {
            continue;
        }
        seen = true;
        facet.sample(0.4 * CELL, budget, |point| {
            let (column, row) = cells.at(wall.on(point));
            cells.full[row * cells.columns + column] = true;
        });
    }
    seen.then_some(cells)
}

/// What stands so near before a wall that the scan may not show the wall behind it.
fn shadows_on(wall: &WallPlane, furniture: &[ScannedThing]) -> Vec<Rectangle> {
    furniture
        .iter()
        .filter(|thing| wall.before(thing.min).min(wall.before(thing.max)) < 0.8)
        .map(|thing| {
            let (a, b) = (wall.on(thing.min), wall.on(thing.max));
            Rectangle {
                low: a.min(b).max(Vec2::ZERO),
                high: a.max(b).min(wall.size),
            }
        })
        .collect()
}

/// Rectangular holes in the walls, which a scan without names has where it saw through glass or a door. What
/// stands before a wall hides it and makes no hole.
pub(super) fn holes(mesh: &Mesh, scan: &mut Scan) {
    let room = room_of(scan.room);
    let mut budget = SAMPLES;
    let mut found = Vec::new();
    let mut ragged = 0;
    for face in WALLS {
        let wall = WallPlane::of(&room, face);
        let Some(mut cells) = scanned(mesh, &wall, &mut budget) else {
            continue;
        };
        cells.fill(&shadows_on(&wall, &scan.furniture));
        let (holes, rough) = rectangular(&wall, &cells);
        ragged += rough;
        found.extend(holes.into_iter().map(|hole| FoundOpening::of_hole(face, hole)));
    }
    let before = scan.openings.len();
    keep(found, scan);
    if scan.openings.len() > before {
        scan.told.push(format!(
            "No part of the scan is called a window or door; {} in the walls taken as such, by shape: down to the floor \
             a doorway into a darker room, otherwise a window. Check their kind.",
            counted(scan.openings.len() - before, "rectangular hole was", "rectangular holes were")
        ));
    }
    if ragged > 0 {
        scan.told.push(format!(
            "{} in the walls taken as not scanned, and closed.",
            counted(ragged, "other gap was", "other gaps were")
        ));
    }
}

/// Holes that are rectangles away from the edges of the wall, and how many other large gaps there are.
fn rectangular(wall: &WallPlane, cells: &Cells) -> (Vec<Rectangle>, usize) {
    let (patch, count) = cells.patches(false, false);
    let mut extents = vec![(usize::MAX, usize::MAX, 0, 0, 0_usize); count];
    for (index, number) in patch.iter().enumerate() {
        let Some(extent) = (*number as usize)
            .checked_sub(1)
            .and_then(|number| extents.get_mut(number))
        else {
            continue;
        };
        let (column, row) = (index % cells.columns, index / cells.columns);
        *extent = (
            extent.0.min(column),
            extent.1.min(row),
            extent.2.max(column),
            extent.3.max(row),
            extent.4 + 1,
        );
    }
    let (mut holes, mut ragged) = (Vec::new(), 0);
    for (left, low, right, high, number) in extents {
        let rectangle = Rectangle {
            low: Vec2::new(left as f32, low as f32) * cells.cell,
            high: Vec2::new((right + 1) as f32, (high + 1) as f32) * cells.cell,
        };
        let size = rectangle.size();
        let area = number as f32 * cells.cell.element_product();
        let fills = area > 0.85 * size.element_product();
        let at_edge = left == 0 || right + 1 == cells.columns || high + 1 == cells.rows;
        let large = area > 0.6 * wall.size.element_product();
        if fills && !at_edge && !large && size.min_element() >= SMALLEST_HOLE {
            holes.push(rectangle);
        } else if area > SMALLEST_HOLE * SMALLEST_HOLE {
            ragged += 1;
        }
    }
    (holes, ragged)
}
