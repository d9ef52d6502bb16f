//! Every aim of the flash from one place, as a map of its output sphere.
//!
//! For every small cone of directions the map holds what a flash that shines only there does to every
//! meter, all bounces counted. A flash that is aimed, zoomed or dressed is a pattern over the map, so a
//! candidate costs a sum over the cones inside its beam: microseconds, and no ray.
//!
//! The map is a cube with equiangular faces. Coarser copies, each cone the sum of four, serve beams that
//! are wide.

use crate::held_board::HeldBoard;
use crate::leg::Leg;
use crate::meter::Arrival;
use crate::operator::{COMPONENTS, Operator, last_leg};
use crate::room::Room;
use crate::scatter::{Scatter, hemispherical_reflectance};
use crate::source::PlacedFlash;
use crate::surface::SurfacePoint;
use colour::Spectrum;
use glam::{Vec2, Vec3};
use rayon::prelude::*;
use std::borrow::Cow;
use std::f32::consts::FRAC_PI_4;
use std::sync::Arc;

/// Cones along the edge of a cube face on the finest map: 1.4° each.
const FINEST: usize = 64;
/// The same for a place that is one of many: 2.8° each, which a beam zoomed in all the way just bears.
const FINEST_OF_MANY: usize = 32;
/// The same for a place that is only passed on the way to a better one: 5.6° each.
const FINEST_IN_PASSING: usize = 16;
/// Coarser copies are made down to this: 11°.
const COARSEST: usize = 8;
/// Rays through each finest cone are a grid of this edge.
const RAYS: usize = 2;
/// Cones along the edge of a tile, which is skipped as a whole when the beam misses it.
const TILE: usize = 8;
/// A map is fine enough for a beam when this many cones fit into its narrow half-width.
const CONES_IN_BEAM: f32 = 2.6;
/// A flash nearer than this to a wall lights a spot so small that a patch is too coarse for its last leg,
/// which is then traced from where the light lands, in metres.
const NEAR: f32 = 1.0;
/// Rows are filled up to a multiple of this, so that they are added in whole vectors.
const LANES: usize = 32;
/// What follows the meters in a row: the first bounce at the first meter, and where it comes from.
const EXTRA: usize = COMPONENTS + 4;

/// What every aim from one place does to the meters of an operator.
pub struct AimMap {
    position: Vec3,
    levels: Arc<Vec<Level>>,
    /// Direction to every meter and what of the intensity sent there it reads.
    direct: Vec<(Vec3, f32)>,
    meters: usize,
    objects: usize,
}

/// Numbers in a row for so many meters.
fn width_of(meters: usize) -> usize {
    (meters * COMPONENTS + EXTRA).next_multiple_of(LANES)
}

/// One fineness of the map while it is made: its rows still in full.
struct Draft {
    level: Level,
    rows: Vec<f32>,
}

/// One fineness of the map.
struct Level {
    /// Cones along the edge of a cube face.
    edge: usize,
    tiles: Vec<Tile>,
    /// Middle of each cone.
    directions: Vec<Vec3>,
    /// Solid angle of each cone in sr.
    solid: Vec<f32>,
    /// Object that the middle of the cone meets.
    object: Vec<u32>,
    /// Distance to what the cone meets, in metres.
    reach: Vec<f32>,
    /// Integrals over each cone: the basis coordinates of every meter, then the extras.
    rows: Rows,
}

/// Rows of numbers with eight bits after the point each: enough for sums over hundreds of them, and half the
/// memory to read. (The format is the upper half of a single-precision number, known as bfloat16.)
struct Rows(Vec<u16>);

impl Rows {
    fn of(values: &[f32]) -> Self {
        // Half of the last kept digit is added, so that numbers are rounded and not cut.
        Rows(
            values
                .iter()
                .map(|v| ((v.to_bits() + 0x8000) >> 16) as u16)
                .collect(),
        )
    }

    /// Adds a row's numbers, times a factor, to sums.
    #[inline]
    fn add_to(&self, row: std::ops::Range<usize>, factor: f32, sums: &mut [f32]) {
        for (sum, &value) in sums.iter_mut().zip(&self.0[row]) {
            *sum += f32::from_bits(u32::from(value) << 16) * factor;
        }
    }

    #[inline]
    fn get(&self, index: usize) -> f32 {
        f32::from_bits(u32::from(self.0[index]) << 16)
    }
}

/// Cones that lie together: first cone, middle and cosine and sine of the half-angle that holds all.
struct Tile {
    first: usize,
    middle: Vec3,
    cos: f32,
    sin: f32,
}

/// What one aim does.
#[derive(Clone, Debug)]
pub struct Aimed {
    /// Reading of every meter, direct light and all bounces, per band of a flat flash at full power.
    pub meters: Vec<Spectrum>,
    /// The part of each that comes straight from the flash.
    pub direct: Vec<f32>,
    /// First bounce at the first meter.
    pub first_bounce: Spectrum,
    /// How the first bounce arrives at the first meter.
    pub arrival: Option<Arrival>,
    /// For every object of the scene: light of the flash that lands on it, in lm s, and what it sends to
    /// the first meter as first bounce, in the mean over the bands.
    pub carried: Vec<(f32, f32)>,
}

/// What a finest cone adds, before it is sorted into a level.
struct Cone {
    direction: Vec3,
    solid: f32,
    object: u32,
    reach: f32,
    row: Vec<f32>,
}

impl AimMap {
    /// Maps a place of the flash: about 100,000 rays.
    pub fn new(room: &Room, operator: &Operator, position: Vec3) -> Self {
        AimMap::with_edge(room, operator, position, FINEST)
    }

    /// A map with a quarter of the cones, for a place that is one of many to be tried.
    pub fn coarse(room: &Room, operator: &Operator, position: Vec3) -> Self {
        AimMap::with_edge(room, operator, position, FINEST_OF_MANY)
    }

    /// A map with a sixteenth of the cones, for a search that only passes by: what comes straight from the flash is as exact as
    /// ever, and what the room sends back is rough for a beam that is zoomed in.
    pub fn in_passing(room: &Room, operator: &Operator, position: Vec3) -> Self {
        AimMap::with_edge(room, operator, position, FINEST_IN_PASSING)
    }

    fn with_edge(room: &Room, operator: &Operator, position: Vec3, edge: usize) -> Self {
        let meters = operator.meters().len();
        let cones: Vec<Cone> = (0..6 * edge * edge)
            .into_par_iter()
            .map(|index| cone(room, operator, position, index, edge))
            .collect();
        let mut draft = Draft::finest(cones, edge, meters);
        add_skin(room, operator, position, edge, &mut draft.rows);
        let mut levels = Vec::new();
        while draft.level.edge > COARSEST {
            let coarser = draft.coarser(meters);
            levels.push(draft.done());
            draft = coarser;
        }
        levels.push(draft.done());
        AimMap {
            position,
            levels: Arc::new(levels),
            direct: straight_to_meters(room, operator, position),
            meters,
            objects: room.geometry.objects.len(),
        }
    }

    /// A place a step beside this one, for a search that looks about: what comes straight from the flash is as exact as ever,
    /// and what the room sends back is taken to be what it sends back from here.
    pub fn beside(&self, room: &Room, operator: &Operator, position: Vec3) -> Self {
        AimMap {
            position,
            levels: Arc::clone(&self.levels),
            direct: straight_to_meters(room, operator, position),
            ..*self
        }
    }

    /// The place that was mapped.
    pub fn position(&self) -> Vec3 {
        self.position
    }

    /// Reads every meter for one aim, with a board in the way or not.
    pub fn read(&self, operator: &Operator, flash: &PlacedFlash, board: Option<&HeldBoard>) -> Aimed {
        let width = width_of(self.meters);
        let mut sums = vec![0.0f32; width];
        let mut carried = vec![(0.0f32, 0.0f32); self.objects];
        let brightness = (self.meters + 1) * COMPONENTS;
        let add =
            |sums: &mut [f32], carried: &mut [(f32, f32)], level: &Level, cone: usize, intensity: f32| {
                if board.is_some_and(|b| b.shades(self.position, level.directions[cone], level.reach[cone])) {
                    return;
                }
                level
                    .rows
                    .add_to(cone * width..(cone + 1) * width, intensity, sums);
                let there = &mut carried[level.object[cone] as usize];
                there.0 += intensity * level.solid[cone];
                there.1 += intensity * level.rows.get(cone * width + brightness);
            };
        self.over_beam(flash, |level, cone, intensity| {
            add(&mut sums, &mut carried, level, cone, intensity);
        });
        let of_beam = sums[self.meters * COMPONENTS..][..EXTRA].to_vec();
        self.over_scattered(flash, |level, cone, intensity| {
            add(&mut sums, &mut carried, level, cone, intensity);
        });
        let basis = operator.basis();
        let (by_meter, extra) = sums.split_at(self.meters * COMPONENTS);
        let direct: Vec<f32> = self
            .direct
            .iter()
            .zip(operator.meters())
            .map(|(&(direction, factor), meter)| {
                if factor == 0.0 || board.is_some_and(|b| b.between(self.position, meter.position)) {
                    0.0
                } else {
                    flash.intensity(direction) * factor
                }
            })
            .collect();
        let meters = by_meter
            .chunks_exact(COMPONENTS)
            .zip(&direct)
            .map(|(coordinates, &d)| basis.expand(coordinates) + Spectrum::splat(d))
            .collect();
        Aimed {
            meters,
            direct,
            first_bounce: basis.expand(&extra[..COMPONENTS]),
            arrival: arrival_of(&of_beam, extra),
            carried,
        }
    }

    /// Reads every meter for one aim and nothing else: the fast path of a sweep. `readings` has one
    /// spectrum for every meter and is overwritten.
    pub fn read_meters(&self, operator: &Operator, flash: &PlacedFlash, readings: &mut [Spectrum]) {
        let width = width_of(self.meters);
        let used = (self.meters * COMPONENTS).next_multiple_of(LANES);
        let mut sums = vec![0.0f32; used];
        let mut add = |level: &Level, cone: usize, intensity: f32| {
            level
                .rows
                .add_to(cone * width..cone * width + used, intensity, &mut sums);
        };
        self.over_beam(flash, &mut add);
        self.over_scattered(flash, add);
        for ((reading, coordinates), &(direction, factor)) in readings
            .iter_mut()
            .zip(sums.chunks_exact(COMPONENTS))
            .zip(&self.direct)
        {
            *reading = operator.basis().expand(coordinates);
            if factor != 0.0 {
                *reading += Spectrum::splat(flash.intensity(direction) * factor);
            }
        }
    }

    /// Visits the cones that the beam of a flash shines into, on a map that is fine enough for it, with their level and the
    /// intensity.
    #[inline]
    fn over_beam(&self, flash: &PlacedFlash, mut visit: impl FnMut(&Level, usize, f32)) {
        if flash.beam.gathers() {
            let level = self.level_for(flash);
            level.over_beam(flash, |cone, intensity| visit(level, cone, intensity));
        }
    }

    /// Visits the cones of the coarsest map with what the flash scatters into them.
    #[inline]
    fn over_scattered(&self, flash: &PlacedFlash, mut visit: impl FnMut(&Level, usize, f32)) {
        if flash.beam.scatters() {
            let level = &self.levels[self.levels.len() - 1];
            let head_from_world = flash.world_from_head.transpose();
            for (cone, &direction) in level.directions.iter().enumerate() {
                let intensity = flash.beam.scattered(head_from_world * direction);
                if intensity > 0.0 {
                    visit(level, cone, intensity);
                }
            }
        }
    }

    /// The coarsest map that is fine enough for a beam.
    fn level_for(&self, flash: &PlacedFlash) -> &Level {
        let wanted = flash.beam.detail_rad() / CONES_IN_BEAM;
        let fine_enough = |level: usize| {
            let cone = 2.0 * FRAC_PI_4 / self.levels[level].edge as f32;
            cone <= wanted
        };
        let chosen = (0..self.levels.len())
            .rev()
            .find(|&l| fine_enough(l))
            .unwrap_or(0);
        &self.levels[chosen]
    }
}

/// Direction from a place to every meter, and what of the intensity sent there it reads.
fn straight_to_meters(room: &Room, operator: &Operator, position: Vec3) -> Vec<(Vec3, f32)> {
    let straight = operator.meters().iter().map(|meter| {
        let leg = Leg::between(position, meter.position);
        let weight = meter.receptor.weight(-leg.direction);
        let seen = weight != 0.0 && room.tracer.sees_flash(meter.position, position);
        (leg.direction, if seen { weight / leg.distance2 } else { 0.0 })
    });
    straight.collect()
}

/// How the first bounce arrives, from the sums of the beam alone and from those of all light.
///
/// The beam makes the edge of a shadow where most of the light is its own. The faint skirt that a window scatters all round
/// lifts the shadow and must not count as width: it is a twelfth of the light, a radian away, and would make the spot of a
/// zoomed head look ten times as wide.
fn arrival_of(of_beam: &[f32], of_all: &[f32]) -> Option<Arrival> {
    let sums = match of_beam[COMPONENTS] > 0.5 * of_all[COMPONENTS] {
        true => of_beam,
        false => of_all,
    };
    arrival(sums[COMPONENTS], Vec3::from_slice(&sums[COMPONENTS + 1..EXTRA]))
}

/// Mean direction and spread from the sums of weights and of weighted unit directions.
///
/// The length of the mean of unit directions is 1 − ⟨θ²⟩/2 for a narrow bundle, which gives the root mean
/// square angle.
fn arrival(weight: f32, sum: Vec3) -> Option<Arrival> {
    let direction = sum.try_normalize()?;
    if weight <= 0.0 {
        return None;
    }
    let together = (sum.length() / weight).min(1.0);
    Some(Arrival {
        direction,
        spread_rad: (2.0 * (1.0 - together)).sqrt(),
    })
}

impl Draft {
    /// The finest level: its cones are already in the order of tiles.
    fn finest(cones: Vec<Cone>, edge: usize, meters: usize) -> Self {
        let width = width_of(meters);
        let mut level = Level::empty(edge);
        let mut rows = Vec::with_capacity(cones.len() * width);
        for cone in cones {
            level.directions.push(cone.direction);
            level.solid.push(cone.solid);
            level.object.push(cone.object);
            level.reach.push(cone.reach);
            rows.extend(cone.row);
        }
        level.tiles = tiles(&level.directions, edge);
        Draft { level, rows }
    }

    /// Every four cones made one.
    fn coarser(&self, meters: usize) -> Self {
        let width = width_of(meters);
        let (from, half) = (&self.level, self.level.edge / 2);
        let mut level = Level::empty(half);
        let mut rows = Vec::with_capacity(6 * half * half * width);
        for index in 0..6 * half * half {
            let (face, column, row) = place_of(index, half);
            let four = [(0, 0), (1, 0), (0, 1), (1, 1)]
                .map(|(i, j)| index_of(face, 2 * column + i, 2 * row + j, from.edge));
            let middle: Vec3 = four.iter().map(|&i| from.directions[i] * from.solid[i]).sum();
            level.directions.push(middle.normalize());
            level.solid.push(four.iter().map(|&i| from.solid[i]).sum());
            level.object.push(from.object[four[0]]);
            level
                .reach
                .push(four.iter().map(|&i| from.reach[i]).sum::<f32>() / 4.0);
            let start = rows.len();
            rows.resize(start + width, 0.0);
            for i in four {
                let part = &self.rows[i * width..(i + 1) * width];
                for (sum, value) in rows[start..].iter_mut().zip(part) {
                    *sum += value;
                }
            }
        }
        level.tiles = tiles(&level.directions, half);
        Draft { level, rows }
    }

    fn done(self) -> Level {
        Level {
            rows: Rows::of(&self.rows),
            ..self.level
        }
    }
}

impl Level {
    fn empty(edge: usize) -> Self {
        let cones = 6 * edge * edge;
        Level {
            edge,
            tiles: Vec::new(),
            directions: Vec::with_capacity(cones),
            solid: Vec::with_capacity(cones),
            object: Vec::with_capacity(cones),
            reach: Vec::with_capacity(cones),
            rows: Rows(Vec::new()),
        }
    }

    /// Visits the cones inside a beam with the intensity in their middle.
    #[inline]
    fn over_beam(&self, flash: &PlacedFlash, mut visit: impl FnMut(usize, f32)) {
        let axis = flash.world_from_head.z_axis;
        let reach_cos = flash.beam.reach_cos();
        let reach_sin = (1.0 - reach_cos * reach_cos).max(0.0).sqrt();
        let everywhere = reach_cos <= -1.0;
        // What falls outside the reach is as small a share of the light as it is of the intensity.
        let whole = if everywhere { 1.0 } else { 256.0 / 255.0 };
        let head_from_world = flash.world_from_head.transpose();
        let mut intensities = [0.0f32; TILE * TILE];
        let mut local = [[0.0f32; TILE * TILE]; 3];
        for tile in &self.tiles {
            // The tile is out when the angle to its middle is more than both half-angles together.
            let together = reach_cos * tile.cos - reach_sin * tile.sin;
            if !everywhere && tile.middle.dot(axis) < together {
                continue;
            }
            let directions = &self.directions[tile.first..tile.first + TILE * TILE];
            for (index, &direction) in directions.iter().enumerate() {
                let direction = head_from_world * direction;
                for (axis, column) in local.iter_mut().enumerate() {
                    column[index] = direction[axis];
                }
            }
            let [x, y, z] = &local;
            flash.beam.gathered([x, y, z], &mut intensities);
            for (index, &intensity) in intensities.iter().enumerate() {
                if intensity > 0.0 && (everywhere || z[index] >= reach_cos) {
                    visit(tile.first + index, intensity * whole);
                }
            }
        }
    }
}

/// Bounds of the tiles of a level.
fn tiles(directions: &[Vec3], edge: usize) -> Vec<Tile> {
    let cones = TILE * TILE;
    // Half a cone more than its middles: the diagonal of a cone is at most this.
    let margin = 1.5 * FRAC_PI_4 / edge as f32;
    directions
        .chunks_exact(cones)
        .enumerate()
        .map(|(index, chunk)| {
            let middle = chunk.iter().sum::<Vec3>().normalize();
            let widest = chunk
                .iter()
                .map(|d| d.dot(middle).clamp(-1.0, 1.0).acos())
                .fold(0.0, f32::max)
                + margin;
            Tile {
                first: index * cones,
                middle,
                cos: widest.cos(),
                sin: widest.sin(),
            }
        })
        .collect()
}

/// Face, column and row of a cone: cones are stored tile by tile, so that a beam finds them together.
fn place_of(index: usize, edge: usize) -> (usize, usize, usize) {
    let per_face = edge * edge;
    let (face, within) = (index / per_face, index % per_face);
    let (tile, inside) = (within / (TILE * TILE), within % (TILE * TILE));
    let tiles_across = edge / TILE;
    let column = (tile % tiles_across) * TILE + inside % TILE;
    let row = (tile / tiles_across) * TILE + inside / TILE;
    (face, column, row)
}

/// Inverse of [`place_of`].
fn index_of(face: usize, column: usize, row: usize, edge: usize) -> usize {
    let tiles_across = edge / TILE;
    let tile = (row / TILE) * tiles_across + column / TILE;
    face * edge * edge + tile * TILE * TILE + (row % TILE) * TILE + column % TILE
}

/// Unit direction of a place on a cube face, `at` in 0..1 each way, and solid angle per unit of it.
fn cube_direction(face: usize, at: Vec2) -> (Vec3, f32) {
    let angle = (at * 2.0 - Vec2::ONE) * FRAC_PI_4;
    let (u, v) = (angle.x.tan(), angle.y.tan());
    let sign = if face.is_multiple_of(2) { 1.0 } else { -1.0 };
    let local = match face / 2 {
        0 => Vec3::new(sign, u, v),
        1 => Vec3::new(u, sign, v),
        _ => Vec3::new(u, v, sign),
    };
    let size2 = local.length_squared();
    let stretch = (1.0 + u * u) * (1.0 + v * v) * (2.0 * FRAC_PI_4).powi(2);
    (local / size2.sqrt(), stretch / (size2 * size2.sqrt()))
}

/// The cone that a unit direction lies in: the inverse of [`cube_direction`].
fn cone_at(direction: Vec3, edge: usize) -> usize {
    let size = direction.abs();
    let (axis, u, v) = if size.x >= size.y && size.x >= size.z {
        (0, direction.y / size.x, direction.z / size.x)
    } else if size.y >= size.z {
        (1, direction.x / size.y, direction.z / size.y)
    } else {
        (2, direction.x / size.z, direction.y / size.z)
    };
    let face = 2 * axis + usize::from(direction[axis] < 0.0);
    let cell = |value: f32| {
        let at = (value.atan() / FRAC_PI_4 + 1.0) * 0.5 * edge as f32;
        (at.max(0.0) as usize).min(edge - 1)
    };
    index_of(face, cell(u), cell(v), edge)
}

/// Follows the rays of one finest cone.
fn cone(room: &Room, operator: &Operator, position: Vec3, index: usize, edge: usize) -> Cone {
    let (face, column, row) = place_of(index, edge);
    let meters = operator.meters().len();
    let mut values = vec![0.0f32; width_of(meters)];
    let (mut middle, mut solid, mut reach) = (Vec3::ZERO, 0.0, 0.0);
    let mut object = 0;
    for ray in 0..RAYS * RAYS {
        let within = Vec2::new(
            ((ray % RAYS) as f32 + 0.5) / RAYS as f32,
            ((ray / RAYS) as f32 + 0.5) / RAYS as f32,
        );
        let at = (Vec2::new(column as f32, row as f32) + within) / edge as f32;
        let (direction, per_unit) = cube_direction(face, at);
        let weight = per_unit / (edge * edge * RAYS * RAYS) as f32;
        middle += direction * weight;
        solid += weight;
        let Some(hit) = room.tracer.closest(position, direction) else {
            continue;
        };
        reach += hit.distance / (RAYS * RAYS) as f32;
        object = room.geometry.object[hit.triangle as usize];
        let point = SurfacePoint::new(&room.geometry, &hit, position, direction);
        if let Some(landed) = Landed::new(room, &point, -direction) {
            add_landing(room, operator, &landed, hit.distance, weight, &mut values);
        }
    }
    Cone {
        direction: middle.normalize(),
        solid,
        object,
        reach,
        row: values,
    }
}

/// Where light of the flash lands.
struct Landed<'a> {
    point: &'a SurfacePoint,
    /// The patch that it lies on, in the room's list.
    patch: usize,
    /// Whether that is a flat patch, and not part of a person.
    flat: bool,
    /// What the point sends back of what lands on it.
    reflectance: Spectrum,
    /// The point as a mirror, where it is flat and has a coat.
    gloss: Option<Scatter>,
}

impl<'a> Landed<'a> {
    /// `None` at the back of a flat patch, from which nothing goes on.
    #[inline]
    fn new(room: &Room, point: &'a SurfacePoint, towards_flash: Vec3) -> Option<Self> {
        let index = room.patches.at(&room.geometry, point.triangle, point.position) as usize;
        let patch = &room.patches.list[index];
        let flat = patch.rectangle.is_some();
        if flat && point.flat.dot(patch.normal) < 0.0 {
            return None;
        }
        Some(Landed {
            point,
            patch: index,
            flat,
            // A person's patch mixes skin and cloth; the point knows which it is.
            reflectance: if flat {
                patch.reflectance
            } else {
                hemispherical_reflectance(point.reflectance, point.coat)
            },
            gloss: (flat && point.coat.is_some()).then(|| Scatter::new(point, towards_flash)),
        })
    }

    /// What a unit of light that leaves the point brings to every meter by its last leg: that of its patch, or, where
    /// the flash is so near that its spot is smaller than the patch, the point's own.
    #[inline]
    fn last_legs<'o>(&self, room: &Room, operator: &'o Operator, distance: f32) -> Cow<'o, [f32]> {
        if self.flat && distance < NEAR {
            let meters = operator.meters().iter();
            meters
                .map(|meter| last_leg(room, self.point.start, self.point.flat, meter))
                .collect()
        } else {
            Cow::Borrowed(operator.first_of(self.patch))
        }
    }

    /// What a unit of light that lands here brings to a meter by all paths, when its last leg brings `straight`; the
    /// pair is the importance of its patch and the part of it that goes straight.
    #[inline]
    fn by_all_paths(
        &self,
        room: &Room,
        operator: &Operator,
        meter: usize,
        (&importance, &first): (&Spectrum, &f32),
        straight: f32,
    ) -> Spectrum {
        let mut value = if self.flat {
            importance + Spectrum::splat(straight - first)
        } else {
            // What people send straight to a meter is added from the meter's side: see `add_skin`.
            importance - Spectrum::splat(straight)
        } * self.reflectance;
        if let Some(scatter) = &self.gloss {
            // A coat is a lobe for the first bounce and spread evenly after it.
            value += lobe(room, operator, meter, self.point, scatter) - self.reflectance * straight;
        }
        value
    }

    /// The same by the first bounce alone.
    #[inline]
    fn by_one_bounce(&self, room: &Room, operator: &Operator, meter: usize, straight: f32) -> Spectrum {
        match &self.gloss {
            Some(scatter) => lobe(room, operator, meter, self.point, scatter),
            None => self.reflectance * straight,
        }
    }
}

/// Adds what light of unit flux per `weight` that lands on a point does to every meter.
fn add_landing(
    room: &Room,
    operator: &Operator,
    landed: &Landed,
    distance: f32,
    weight: f32,
    values: &mut [f32],
) {
    let basis = operator.basis();
    let straight = landed.last_legs(room, operator, distance);
    let of_patch = operator
        .importance(landed.patch)
        .iter()
        .zip(operator.first_of(landed.patch));
    for (meter, (of_patch, &straight)) in of_patch.zip(straight.iter()).enumerate() {
        let value = landed.by_all_paths(room, operator, meter, of_patch, straight);
        let slot = &mut values[meter * COMPONENTS..(meter + 1) * COMPONENTS];
        for (sum, coordinate) in slot.iter_mut().zip(basis.project(&value)) {
            *sum += coordinate * weight;
        }
    }
    let extra = operator.meters().len() * COMPONENTS;
    let first = landed.by_one_bounce(room, operator, 0, straight[0]);
    for (sum, coordinate) in values[extra..].iter_mut().zip(basis.project(&first)) {
        *sum += coordinate * weight;
    }
    let brightness = first.mean() * weight;
    let from = (landed.point.position - operator.meters()[0].position).normalize_or_zero();
    values[extra + COMPONENTS] += brightness;
    for axis in 0..3 {
        values[extra + COMPONENTS + 1 + axis] += brightness * from[axis];
    }
}

/// Adds light that the flash throws onto the points of people that the meters see.
fn add_skin(room: &Room, operator: &Operator, position: Vec3, edge: usize, rows: &mut [f32]) {
    let meters = operator.meters().len();
    let width = width_of(meters);
    let added: Vec<Vec<(usize, [f32; COMPONENTS])>> = (0..meters)
        .into_par_iter()
        .map(|meter| {
            let seen = operator.skin_of(meter).iter().filter_map(|skin| {
                let leg = Leg::between(skin.point.position, position);
                if !skin.point.above(leg.direction) || !room.tracer.sees_flash(skin.point.start, position) {
                    return None;
                }
                let value = skin.weight * (leg.cos_leaving(skin.point.normal) / leg.distance2);
                Some((cone_at(-leg.direction, edge), operator.basis().project(&value)))
            });
            seen.collect()
        })
        .collect();
    for (meter, list) in added.into_iter().enumerate() {
        for (cone, coordinates) in list {
            let start = cone * width + meter * COMPONENTS;
            for (sum, value) in rows[start..start + COMPONENTS].iter_mut().zip(coordinates) {
                *sum += value;
            }
        }
    }
}

/// What a unit of light landing on a coated flat point brings to a meter by one reflection, lobe and all.
fn lobe(room: &Room, operator: &Operator, meter: usize, point: &SurfacePoint, scatter: &Scatter) -> Spectrum {
    let meter = &operator.meters()[meter];
    let leg = Leg::between(point.start, meter.position);
    let weight = meter.receptor.weight(-leg.direction);
    if weight == 0.0 || !point.above(leg.direction) || !room.tracer.sees_surface(meter.position, point.start)
    {
        return Spectrum::ZERO;
    }
    scatter.response(leg.direction) * (weight / leg.distance2)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn cones_cover_the_sphere_once() {
        let mut total = 0.0f64;
        for index in 0..6 * FINEST * FINEST {
            let (face, column, row) = place_of(index, FINEST);
            assert_eq!(index_of(face, column, row, FINEST), index);
            let at = (Vec2::new(column as f32, row as f32) + 0.5) / FINEST as f32;
            assert_eq!(cone_at(cube_direction(face, at).0, FINEST), index);
            total += f64::from(cube_direction(face, at).1) / (FINEST * FINEST) as f64;
        }
        assert!(
            (total / (4.0 * std::f64::consts::PI) - 1.0).abs() < 1e-3,
            "{total}"
        );
    }

    #[test]
    fn a_narrow_bundle_tells_its_spread() {
        let sum: Vec3 = [-0.1f32, 0.1]
            .iter()
            .map(|a| Vec3::new(a.sin(), 0.0, a.cos()))
            .sum();
        let found = arrival(2.0, sum).unwrap();
        assert!((found.spread_rad - 0.1).abs() < 1e-3, "{}", found.spread_rad);
        assert!(found.direction.dot(Vec3::Z) > 0.999_99);
    }

    /// A narrow beam with a skirt is as wide as the beam; a dome, which has none, as all of its light.
    #[test]
    fn a_skirt_is_no_width() {
        let sums = |parts: &[(f32, Vec3)]| {
            let mut sums = vec![0.0; EXTRA];
            for (weight, direction) in parts {
                sums[COMPONENTS] += weight;
                for (sum, part) in sums[COMPONENTS + 1..EXTRA].iter_mut().zip(direction.to_array()) {
                    *sum += weight * part;
                }
            }
            sums
        };
        let (beam, skirt) = ((0.9, Vec3::Z), (0.1, Vec3::X));
        let spread = |of_beam: &[f32], of_all: &[f32]| arrival_of(of_beam, of_all).unwrap().spread_rad;
        assert!(spread(&sums(&[beam]), &sums(&[beam, skirt])) < 1e-3);
        assert!(spread(&sums(&[]), &sums(&[beam, skirt])) > 0.3);
    }
}
