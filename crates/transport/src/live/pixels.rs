//! What the camera sees, found once: the samples of every pixel and the receivers that serve them.
//!
//! Light from the room changes slowly over a surface, so it is gathered at a few receivers on a grid of
//! pixels, close on people and wide on flat things, and laid between them by nearness and normal. Light
//! straight from the flash has edges, so it is kept for every sample.

use super::receiver::Receiver;
use crate::leg::Leg;
use crate::room::Room;
use crate::scatter::Scatter;
use crate::source::PlacedFlash;
use crate::surface::SurfacePoint;
use crate::tracer::Hit;
use colour::Spectrum;
use glam::{Vec2, Vec3};
use rayon::prelude::*;
use scene::{Geometry, Viewpoint};
use std::f32::consts::PI;

/// About how many receivers people get, and flat things.
const BODY_RECEIVERS: usize = 6_000;
const FLAT_RECEIVERS: usize = 800;
/// Receivers are never closer than this many pixels.
const CLOSEST: [usize; 2] = [3, 8];
/// Places of the samples in a pixel on an edge: a turned square.
const IN_EDGE: [[f32; 2]; 4] = [[0.375, 0.125], [0.875, 0.375], [0.125, 0.625], [0.625, 0.875]];
/// Neighbouring pixels have an edge between them where the cosine of their normals is below the first of these, their
/// distances differ by more than the second, as a share, or they see shares of the flash that differ by more than the
/// third.
const EDGE_TURN: f32 = 0.85;
const EDGE_STEP: f32 = 0.02;
const EDGE_SHADOW: f32 = 0.3;
/// Width of the tent by which a receiver weighs in the picture, in steps of its grid: a little wider than the grid, so
/// that the sample's own cell never stands alone.
const TENT: f32 = 1.05;
/// Steps of the grid, as lengths on the surface, beyond which a receiver no longer suits a sample.
const FAR_STEPS: f32 = 6.0;
/// Cosine between the normals of a sample and of a receiver from which on the receiver suits it.
const TURNED: f32 = 0.8;
/// What suits badly still comes before nothing.
const LEAST_SUITED: f32 = 1e-3;
/// Points of the window that are asked at first, and in all where these disagree; square numbers.
const WINDOW_FIRST: usize = 2;
const WINDOW_ALL: usize = 5;
/// Pixels between receivers where the room's share changes quickly, by how much it must change between
/// neighbours, and how many such receivers there may be.
const FINE: usize = 2;
const UNEVEN: f32 = 0.06;
const MOST_FINE: usize = 2_500;
/// From this many receivers on, samples take what there is.
const MOST_RECEIVERS: usize = 9_000;
/// Receivers whose weights add up to less than this serve nothing while more can be added.
const TOO_LITTLE: f32 = 0.15;

/// A surface seen in a pixel, ready for light.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Sample {
    pub receivers: [u32; 4],
    pub weights: [f32; 4],
    /// Shares of the material's base and of its three overlays in its reflectance.
    pub paints: [f32; 4],
    /// Unit direction in which the flash sends its light here.
    pub direction: Vec3,
    /// What the base makes of even light from the room, relative to a bare base, and the share of light
    /// from all round that the coat mirrors.
    pub even: f32,
    pub coat: f32,
    /// Radiance per intensity of the flash: of a white base, and of the coat's gloss.
    pub straight: f32,
    pub gloss: f32,
    pub material: u16,
}

/// Samples of all pixels, and the receivers.
pub(crate) struct Pixels {
    pub samples: Vec<Sample>,
    /// First sample of every pixel and, at the end, their number.
    pub first: Vec<u32>,
    pub receivers: Vec<Receiver>,
    /// Material of every receiver.
    pub materials: Vec<u16>,
}

/// The picture while its receivers are being chosen.
pub(crate) struct Choosing {
    size: [usize; 2],
    /// The middle of every pixel.
    seen: Vec<Option<Seen>>,
    /// All samples, and the first of every pixel.
    looked: Vec<Seen>,
    first: Vec<u32>,
    choice: Choice,
}

/// What a camera ray found.
#[derive(Clone, Copy)]
struct Seen {
    at: Vec2,
    point: SurfacePoint,
    direction: Vec3,
    distance: f32,
    material: u16,
    object: u32,
    flat: bool,
    /// Shares of the material's base and overlays.
    paints: [f32; 4],
    /// Share of the flash's window that it sees, unit direction to it, and squared distance in m².
    open: f32,
    into: Vec3,
    distance2: f32,
    /// Share of the pixel that it stands for.
    share: f32,
}

/// The receivers while they are being chosen.
struct Choice {
    /// Pixels between receivers, on bodies and on flat things.
    step: [usize; 2],
    /// Metres across a pixel at one metre.
    pixel: f32,
    chosen: Vec<Seen>,
    /// Receivers by the cells of the grids of both kinds, which have an empty border.
    cells: [CellGrid; 2],
}

/// Cells of pixels, row by row.
struct CellGrid {
    columns: usize,
    cells: Vec<Vec<u32>>,
}

impl Choosing {
    /// Looks through all pixels and takes receivers on a grid.
    pub fn new(room: &Room, view: &Viewpoint, size: [usize; 2], place: &PlacedFlash) -> Self {
        let seen = look(room, view, size, place);
        let choice = Choice::new(&seen, view, size);
        let (looked, first) = with_edges(room, view, size, place, &seen);
        Choosing {
            size,
            seen,
            looked,
            first,
            choice,
        }
    }

    /// The receivers so far, from the `from`-th on.
    pub fn receivers(&self, from: usize) -> Vec<Receiver> {
        self.choice.chosen[from..].iter().map(receiver).collect()
    }

    /// Takes more receivers on people where the present ones see very different shares of the room: in
    /// hair, at the eyes, under the nose. `open` is that share for each receiver.
    pub fn refine(&mut self, open: &[f32]) {
        let [width, height] = self.size;
        let mut wanted: Vec<(f32, usize)> = (0..width * height)
            .into_par_iter()
            .filter(|pixel| (pixel % width) % FINE == 0 && (pixel / width) % FINE == 0)
            .filter_map(|pixel| {
                let seen = self.seen[pixel].as_ref().filter(|seen| !seen.flat)?;
                let spread = self
                    .choice
                    .near(seen, TOO_LITTLE)
                    .map_or(1.0, |(receivers, weights)| {
                        let counts = |weight: f32| weight > TOO_LITTLE * 0.25;
                        let shares = || {
                            let used = receivers.iter().zip(weights).filter(|(_, w)| counts(*w));
                            used.map(|(&receiver, _)| open[receiver as usize])
                        };
                        shares().fold(0.0, f32::max) - shares().fold(f32::MAX, f32::min)
                    });
                (spread > UNEVEN).then_some((spread, pixel))
            })
            .collect();
        // Where there are too many, the most uneven places come first, and their order is the picture's.
        wanted.sort_by(|a, b| b.0.total_cmp(&a.0).then(a.1.cmp(&b.1)));
        wanted.truncate(MOST_FINE);
        wanted.sort_by_key(|&(_, pixel)| pixel);
        for (_, pixel) in wanted {
            if let Some(seen) = self.seen[pixel] {
                self.choice.add(seen);
            }
        }
    }

    /// Finds for every sample the receivers that serve it, and adds some where there are none.
    pub fn serve(mut self) -> Pixels {
        let served = self.choice.serve(&self.looked);
        let samples = self
            .looked
            .par_iter()
            .zip(served)
            .map(|(seen, (receivers, weights))| sample(seen, receivers, weights))
            .collect();
        Pixels {
            samples,
            first: self.first,
            materials: self.choice.chosen.iter().map(|seen| seen.material).collect(),
            receivers: self.choice.chosen.iter().map(receiver).collect(),
        }
    }
}

/// Looks through the middles of all pixels.
fn look(room: &Room, view: &Viewpoint, size: [usize; 2], place: &PlacedFlash) -> Vec<Option<Seen>> {
    (0..size[0] * size[1])
        .into_par_iter()
        .map(|pixel| {
            let at = Vec2::new((pixel % size[0]) as f32 + 0.5, (pixel / size[0]) as f32 + 0.5);
            see(room, view, size, place, at)
        })
        .collect()
}

fn see(room: &Room, view: &Viewpoint, size: [usize; 2], place: &PlacedFlash, at: Vec2) -> Option<Seen> {
    let extent = Vec2::new(size[0] as f32, size[1] as f32);
    let direction = view.direction(at / extent, extent.x / extent.y);
    let hit = room.tracer.closest(view.position, direction)?;
    let object = room.geometry.object[hit.triangle as usize];
    let point = SurfacePoint::new(&room.geometry, &hit, view.position, direction);
    let leg = Leg::between(point.position, place.position);
    Some(Seen {
        at,
        point,
        into: leg.direction,
        distance2: leg.distance2,
        direction,
        distance: hit.distance,
        material: room.geometry.material[hit.triangle as usize],
        object,
        flat: room.geometry.objects[object as usize].rectangle.is_some(),
        paints: paints(&room.geometry, &hit, direction),
        open: open_share(room, place, &point, leg.direction),
        share: 1.0,
    })
}

/// The samples of all pixels, several where something ends, and where each pixel's begin.
fn with_edges(
    room: &Room,
    view: &Viewpoint,
    size: [usize; 2],
    place: &PlacedFlash,
    seen: &[Option<Seen>],
) -> (Vec<Seen>, Vec<u32>) {
    let rows: Vec<Vec<(u32, Seen)>> = (0..size[1])
        .into_par_iter()
        .map(|y| {
            let mut row = Vec::with_capacity(size[0] + 64);
            for x in 0..size[0] {
                let pixel = y * size[0] + x;
                if is_edge(seen, size, x, y) {
                    let corner = Vec2::new(x as f32, y as f32);
                    let several =
                        IN_EDGE.map(|within| see(room, view, size, place, corner + Vec2::from(within)));
                    let share = 1.0 / IN_EDGE.len() as f32;
                    row.extend(several.into_iter().flatten().map(|found| {
                        let found = Seen { share, ..found };
                        (pixel as u32, found)
                    }));
                } else if let Some(found) = seen[pixel] {
                    row.push((pixel as u32, found));
                }
            }
            row
        })
        .collect();
    let mut looked = Vec::with_capacity(seen.len() * 5 / 4);
    let mut first = vec![0u32; seen.len() + 1];
    for (pixel, found) in rows.into_iter().flatten() {
        first[pixel as usize + 1] += 1;
        looked.push(found);
    }
    for pixel in 0..seen.len() {
        first[pixel + 1] += first[pixel];
    }
    (looked, first)
}

/// Whether a pixel and its neighbours see different things.
fn is_edge(seen: &[Option<Seen>], size: [usize; 2], x: usize, y: usize) -> bool {
    let here = &seen[y * size[0] + x];
    let beside = [
        (x > 0).then(|| y * size[0] + x - 1),
        (x + 1 < size[0]).then(|| y * size[0] + x + 1),
        (y > 0).then(|| (y - 1) * size[0] + x),
        (y + 1 < size[1]).then(|| (y + 1) * size[0] + x),
    ];
    beside
        .into_iter()
        .flatten()
        .any(|pixel| match (here, &seen[pixel]) {
            (None, None) => false,
            (Some(a), Some(b)) => {
                a.material != b.material
                    || a.object != b.object
                    || a.point.normal.dot(b.point.normal) < EDGE_TURN
                    || (a.distance - b.distance).abs() > EDGE_STEP * a.distance
                    || (a.open - b.open).abs() > EDGE_SHADOW
            }
            _ => true,
        })
}

impl CellGrid {
    fn new(size: [usize; 2], step: usize) -> Self {
        let [columns, rows] = size.map(|pixels| pixels / step + 3);
        CellGrid {
            columns,
            cells: vec![Vec::new(); columns * rows],
        }
    }
}

impl Choice {
    fn new(seen: &[Option<Seen>], view: &Viewpoint, size: [usize; 2]) -> Self {
        let count = |flat: bool| seen.iter().flatten().filter(|s| s.flat == flat).count();
        let step = |pixels: usize, wanted: usize, closest: usize| {
            ((pixels as f32 / wanted as f32).sqrt().round() as usize).max(closest)
        };
        let step = [
            step(count(false), BODY_RECEIVERS, CLOSEST[0]),
            step(count(true), FLAT_RECEIVERS, CLOSEST[1]),
        ];
        let mut choice = Choice {
            step,
            pixel: 2.0 * view.half_extent(size[0] as f32 / size[1] as f32).y / size[1] as f32,
            chosen: Vec::new(),
            cells: step.map(|step| CellGrid::new(size, step)),
        };
        for y in 0..size[1] {
            for x in 0..size[0] {
                if let Some(found) = &seen[y * size[0] + x] {
                    let step = choice.step[usize::from(found.flat)];
                    if x % step == step / 2 && y % step == step / 2 {
                        choice.add(*found);
                    }
                }
            }
        }
        choice
    }

    /// Column and row of a cell in the grid of its kind.
    fn cell(&self, seen: &Seen) -> [usize; 2] {
        let step = self.step[usize::from(seen.flat)] as f32;
        [seen.at.x, seen.at.y].map(|at| (at / step) as usize + 1)
    }

    fn add(&mut self, seen: Seen) -> u32 {
        let index = self.chosen.len() as u32;
        self.chosen.push(seen);
        let [column, row] = self.cell(&seen);
        let grid = &mut self.cells[usize::from(seen.flat)];
        grid.cells[row * grid.columns + column].push(index);
        index
    }

    /// Receivers and their weights for every sample. Where none is near enough one is added, in the order
    /// of the samples, so that the choice does not depend on the threads.
    fn serve(&mut self, looked: &[Seen]) -> Vec<([u32; 4], [f32; 4])> {
        let mut served: Vec<Option<([u32; 4], [f32; 4])>> = looked
            .par_iter()
            .map(|seen| self.near(seen, TOO_LITTLE))
            .collect();
        for (seen, served) in looked.iter().zip(&mut served) {
            if served.is_none() {
                let full = self.chosen.len() >= MOST_RECEIVERS;
                *served = self.near(seen, if full { 0.0 } else { TOO_LITTLE }).or_else(|| {
                    let own = self.add(*seen);
                    Some(([own; 4], [1.0, 0.0, 0.0, 0.0]))
                });
            }
        }
        served.into_iter().flatten().collect()
    }

    /// The four receivers that suit a sample best, if they suit it more than `least`.
    fn near(&self, seen: &Seen, least: f32) -> Option<([u32; 4], [f32; 4])> {
        let [column, row] = self.cell(seen);
        let grid = &self.cells[usize::from(seen.flat)];
        let mut best = [(0u32, 0.0f32); 5];
        for row in row - 1..=row + 1 {
            let around = row * grid.columns + column - 1..=row * grid.columns + column + 1;
            for &index in grid.cells[around].iter().flatten() {
                let mut entry = (index, self.suits(seen, &self.chosen[index as usize]));
                for kept in &mut best {
                    if entry.1 > kept.1 {
                        std::mem::swap(kept, &mut entry);
                    }
                }
            }
        }
        // Where receivers are many, the weight of the first that is left out is taken off the others, so
        // that none comes or goes with a jump.
        let sum = |off: f32| best[..4].iter().map(|b| (b.1 - off).max(0.0)).sum::<f32>();
        let off = if sum(best[4].1) > TOO_LITTLE {
            best[4].1
        } else {
            0.0
        };
        let sum = sum(off);
        (sum > least).then(|| {
            (
                std::array::from_fn(|i| best[i].0),
                std::array::from_fn(|i| (best[i].1 - off).max(0.0) / sum),
            )
        })
    }

    /// How well a receiver stands for a sample: near in the picture and in the room, of one material and
    /// turned the same way.
    fn suits(&self, seen: &Seen, receiver: &Seen) -> f32 {
        if seen.material != receiver.material || seen.object != receiver.object {
            return 0.0;
        }
        let step = self.step[usize::from(seen.flat)] as f32;
        let apart = (seen.at - receiver.at).abs() / step;
        let tent = (TENT - apart.x).max(0.0) * (TENT - apart.y).max(0.0);
        if seen.flat {
            return tent;
        }
        let spacing = step * self.pixel * seen.distance;
        let off = seen.point.position.distance(receiver.point.position) / (FAR_STEPS * spacing);
        let turned = (seen.point.normal.dot(receiver.point.normal) - TURNED) / (1.0 - TURNED);
        tent * (1.0 - off).max(LEAST_SUITED) * turned.max(LEAST_SUITED)
    }
}

fn receiver(seen: &Seen) -> Receiver {
    Receiver {
        start: seen.point.start,
        normal: seen.point.normal,
        flat: seen.point.flat,
        out: -seen.direction,
        coat: seen.point.coat,
    }
}

/// Everything about a sample that does not depend on the aim.
fn sample(seen: &Seen, receivers: [u32; 4], weights: [f32; 4]) -> Sample {
    let out = -seen.direction;
    let bare = |value: f32| SurfacePoint {
        reflectance: Spectrum::splat(value),
        ..seen.point
    };
    let (black, white) = (Scatter::new(&bare(0.0), out), Scatter::new(&bare(1.0), out));
    let open = seen.open / seen.distance2;
    let into = seen.into;
    let gloss = black.response(into).0[0];
    let coat = white.coat_share();
    Sample {
        receivers,
        weights,
        paints: seen.paints.map(|p| p * seen.share),
        direction: -into,
        even: 1.0 - coat,
        coat: coat * seen.share,
        straight: (white.response(into).0[0] - gloss) * open,
        gloss: gloss * open * seen.share,
        material: seen.material,
    }
}

/// Shares of a material's base and overlays where a ray met it. A one-sided surface from behind has none.
fn paints(geometry: &Geometry, hit: &Hit, direction: Vec3) -> [f32; 4] {
    let material = geometry.material_of(hit.triangle);
    let front = geometry.flat_normal(hit.triangle).dot(direction) < 0.0;
    if !front && !material.two_sided {
        return [0.0; 4];
    }
    let mut shares = [1.0, 0.0, 0.0, 0.0];
    if material.overlays.is_none() || !material.smooth {
        return shares;
    }
    let [b, c] = hit.barycentric;
    let corners = geometry.triangles[hit.triangle as usize];
    // Later overlays lie over earlier ones, so what is under them shrinks.
    for layer in 0..3 {
        let weight: f32 = corners
            .iter()
            .zip([1.0 - b - c, b, c])
            .map(|(&corner, share)| geometry.overlay[corner as usize][layer] * share)
            .sum();
        let weight = weight.max(0.0);
        shares[..=layer].iter_mut().for_each(|s| *s *= 1.0 - weight);
        shares[layer + 1] = weight;
    }
    shares
}

/// Share of the flash's window that a point sees, the window taken as a disc of the same area that faces
/// the point, because the head turns while its place stays.
fn open_share(room: &Room, place: &PlacedFlash, point: &SurfacePoint, into: Vec3) -> f32 {
    if !point.above(into) {
        return 0.0;
    }
    let radius = (4.0 * place.half_window[0] * place.half_window[1] / PI).sqrt();
    let (across, up) = into.any_orthonormal_pair();
    let share = |side: usize| {
        let open = (0..side * side)
            .filter(|index| {
                let r = radius * (((index / side) as f32 + 0.5) / side as f32).sqrt();
                let turn = 2.0 * PI * ((index % side) as f32 + 0.5 * ((index / side) % 2) as f32);
                let (sin, cos) = (turn / side as f32).sin_cos();
                let target = place.position + across * (r * cos) + up * (r * sin);
                room.tracer.sees_flash(point.start, target)
            })
            .count();
        open as f32 / (side * side) as f32
    };
    if radius == 0.0 {
        return share(1);
    }
    let first = share(WINDOW_FIRST);
    if first == 0.0 || first == 1.0 {
        return first;
    }
    share(WINDOW_ALL)
}
