//! The referee: an unbiased spectral path tracer, one source at unit strength at a time.
//!
//! Every path vertex collects light in three ways that are weighed against each other by the balance
//! heuristic (Veach & Guibas 1995): straight from the flash; by a point that the flash's own beam lights
//! (the lit patch on the wall is known in advance, so it is sampled, not hoped for); and by going on to
//! the next vertex, drawn from the surface's own scattering and from the guide's tables. All bounces
//! follow until Russian roulette ends the path.

use crate::guide::{Guide, Table};
use crate::meter::{Meter, Receptor};
use crate::rng::Rng;
use crate::room::Room;
use crate::scatter::Scatter;
use crate::source::{PlacedFlash, Source};
use crate::surface::SurfacePoint;
use crate::tracer::Hit;
use colour::Spectrum;
use glam::Vec3;
use rayon::prelude::*;

/// Vertices after which a path may be ended by chance.
const ROULETTE_FROM: usize = 4;
/// No path is longer: what would follow is below single precision.
const LONGEST: usize = 200;
/// Share of first vertices that are drawn from the guide where it has a table.
const GUIDED: f32 = 0.5;
/// The same for later vertices. A share g multiplies the weight of a path by up to 1/(1 − g) at every
/// vertex that the guide does not favour, so it must stay small or bright rooms get rare, heavy paths.
const GUIDED_LATER: f32 = 0.2;

/// What a path needs to know.
pub(crate) struct Referee<'a> {
    pub room: &'a Room,
    pub source: &'a Source,
    pub guide: Option<&'a Guide>,
    lamps: Lamps,
}

/// The rectangles that shine with themselves and can be aimed at: openings and lamps. Light from all
/// round is not among them, because every ray finds it; nor are open sides, for the same reason.
struct Lamps {
    rectangles: Vec<(usize, [Vec3; 3])>,
    cumulative: Vec<f32>,
    /// Density per m² of a point drawn evenly from all of them.
    density: f32,
}

impl Lamps {
    fn of(room: &Room, source: &Source) -> Self {
        let objects: Vec<usize> = match source {
            Source::Glowing(objects) => objects.clone(),
            // Any ray finds a portal that fills a face, and few points of it matter.
            Source::Outside(outside) => outside
                .portals()
                .filter(|&object| !outside.is_whole(object))
                .collect(),
            Source::Flash(_) | Source::AllRound => Vec::new(),
        };
        let rectangles: Vec<(usize, [Vec3; 3])> = objects
            .into_iter()
            .filter_map(|object| room.geometry.objects[object].rectangle.map(|r| (object, r)))
            .collect();
        let mut area = 0.0;
        let cumulative = rectangles
            .iter()
            .map(|(_, [_, a, b])| {
                area += a.cross(*b).length();
                area
            })
            .collect();
        Lamps {
            rectangles,
            cumulative,
            density: if area > 0.0 { 1.0 / area } else { 0.0 },
        }
    }

    /// Whether an object is among them.
    fn has(&self, object: usize) -> bool {
        self.rectangles.iter().any(|(known, _)| *known == object)
    }

    /// A point of a lamp, the normal there, the patch it lies on and the object.
    fn draw(&self, room: &Room, rng: &mut Rng) -> Option<(Vec3, Vec3, u32, usize)> {
        let at = rng.unit() * self.cumulative.last()?;
        let index = self
            .cumulative
            .partition_point(|&c| c <= at)
            .min(self.rectangles.len() - 1);
        let (object, [corner, a, b]) = self.rectangles[index];
        let [u, v] = rng.pair();
        let position = corner + a * u + b * v;
        let patch = room
            .patches
            .at(&room.geometry, room.geometry.objects[object].first, position);
        Some((position, a.cross(b).normalize_or_zero(), patch, object))
    }
}

impl<'a> Referee<'a> {
    pub fn new(room: &'a Room, source: &'a Source, guide: Option<&'a Guide>) -> Self {
        Referee {
            room,
            source,
            guide,
            lamps: Lamps::of(room, source),
        }
    }

    /// Radiance with which a point of an object shines of itself along `out`, on the side that is seen.
    fn glow(&self, point: &SurfacePoint, object: usize, out: Vec3) -> Spectrum {
        let front = self.room.geometry.flat_normal(point.triangle).dot(point.flat) > 0.0;
        if front {
            self.emission(object, out)
        } else {
            Spectrum::ZERO
        }
    }

    /// Radiance with which an object's front shines of itself along `out`.
    fn emission(&self, object: usize, out: Vec3) -> Spectrum {
        self.source
            .emission(object, self.room.geometry.objects[object].kind, out)
    }
}

/// A reading with its standard error, per band of a flat spectrum.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Reading {
    /// Mean.
    pub mean: Spectrum,
    /// Standard error of the mean, per band.
    pub standard_error: Spectrum,
}

/// Reads meters by unbiased path tracing. `paths` is the number of paths per meter.
///
/// The same seed gives the same reading whatever the number of threads.
pub fn read_meters(
    room: &Room,
    source: &Source,
    guide: Option<&Guide>,
    radiosity: Option<&[Spectrum]>,
    meters: &[Meter],
    paths: usize,
    seed: u64,
) -> Vec<Reading> {
    /// Chunks are fixed, so that sums are taken in the same order on any machine.
    const CHUNKS: usize = 64;
    let per_chunk = paths.div_ceil(CHUNKS);
    let referee = Referee::new(room, source, guide);
    meters
        .iter()
        .enumerate()
        .map(|(place, meter)| {
            let table = radiosity.map(|light| {
                let normal = match meter.receptor {
                    Receptor::Flat(normal) => Some(normal),
                    _ => None,
                };
                Table::new(&room.patches, light, meter.position, normal, 0.05)
            });
            let table = table.as_ref().filter(|t| !t.is_dark());
            let sums: Vec<(Spectrum, Spectrum)> = (0..CHUNKS)
                .into_par_iter()
                .map(|chunk| {
                    let mut rng = Rng::new(seed, (place * CHUNKS + chunk) as u64);
                    let (mut sum, mut squares) = (Spectrum::ZERO, Spectrum::ZERO);
                    for _ in 0..per_chunk {
                        let value = meter_path(&referee, table, meter, &mut rng);
                        sum += value;
                        squares += value * value;
                    }
                    (sum, squares)
                })
                .collect();
            let n = (per_chunk * CHUNKS) as f32;
            let (sum, squares) = sums
                .into_iter()
                .fold((Spectrum::ZERO, Spectrum::ZERO), |a, b| (a.0 + b.0, a.1 + b.1));
            let mean = sum * (1.0 / n);
            let variance = (squares * (1.0 / n) - mean * mean).map(|v| v.max(0.0));
            Reading {
                mean,
                standard_error: variance.map(|v| (v / (n - 1.0)).sqrt()),
            }
        })
        .collect()
}

/// Density per m² of the next vertex, drawn in a share of cases from a guide's table and else by the
/// surface's (or meter's) own density `own`. What lies on no flat patch is never in a table.
#[inline]
fn mixed_density(table: Option<(&Table, f32)>, patch: Option<u32>, own: f32) -> f32 {
    match table {
        Some((table, share)) => {
            let guided = patch.map_or(0.0, |patch| table.density(patch));
            share * guided + (1.0 - share) * own
        }
        None => own,
    }
}

/// One path that ends at a meter.
fn meter_path(referee: &Referee, table: Option<&Table>, meter: &Meter, rng: &mut Rng) -> Spectrum {
    let Referee { room, source, .. } = *referee;
    let mut total = Spectrum::ZERO;
    let receptor = &meter.receptor;
    let mix = |direction: Vec3, patch: Option<u32>, cos: f32, distance2: f32| {
        let own = receptor.density(direction) * cos / distance2;
        mixed_density(table.map(|t| (t, GUIDED)), patch, own)
    };
    if let Source::Flash(flash) = source {
        let window = flash.window_point(rng.pair());
        let towards = window - meter.position;
        let distance2 = towards.length_squared();
        let from = towards / distance2.sqrt();
        let (weight, intensity) = (receptor.weight(from), flash.intensity(-from));
        if weight != 0.0 && intensity > 0.0 && !room.tracer.blocked(meter.position, window, 1e-5) {
            total += Spectrum::splat(weight * intensity / distance2);
        }
        if let Some(lit) = lit_point(room, flash, rng)
            && let Some((from, cos, distance2)) = connect(room, meter.position, &lit.point)
        {
            let weight = receptor.weight(from);
            let scatter = Scatter::new(&lit.point, -from);
            let value =
                scatter.response(lit.towards_flash) * (weight * lit.power * cos / (lit.flat_cos * distance2));
            let other = mix(from, flat_patch(room, &lit.point), cos, distance2);
            total += value * (lit.density / (lit.density + other));
        }
    }
    if let Source::Outside(outside) = source
        && let Some((direction, illuminance)) =
            outside.straight(&room.geometry, &room.tracer, meter.position, rng.pair())
    {
        total += Spectrum::splat(receptor.weight(direction) * illuminance);
    }
    if let Some((lamp, normal, patch, object)) = referee.lamps.draw(room, rng) {
        let (direction, cos, distance2) = towards_lamp(meter.position, lamp, normal);
        if cos > 1e-5 && !room.tracer.blocked(meter.position, lamp, 1e-4) {
            let other = mix(direction, Some(patch), cos, distance2);
            let weight = receptor.weight(direction) * cos / distance2;
            total += referee.emission(object, -direction) * (weight / (referee.lamps.density + other));
        }
    }
    let Some((weight, point, cos, direction, distance2)) = next_from_meter(room, table, meter, rng) else {
        return total;
    };
    let reached = mix(direction, flat_patch(room, &point), cos, distance2);
    if reached <= 0.0 {
        return total;
    }
    let onward = follow(referee, point, -direction, reached, rng);
    total + onward * (weight * cos / (distance2 * reached))
}

/// The first vertex seen from a meter: the meter's weight of it, the point, the cosine there, the
/// direction to it and the squared distance.
fn next_from_meter(
    room: &Room,
    table: Option<&Table>,
    meter: &Meter,
    rng: &mut Rng,
) -> Option<(f32, SurfacePoint, f32, Vec3, f32)> {
    if let Some(table) = table
        && rng.unit() < GUIDED
    {
        let draw = table.draw(&room.patches, rng.unit(), rng.pair())?;
        let towards = draw.position - meter.position;
        let distance2 = towards.length_squared();
        let direction = towards / distance2.sqrt();
        let cos = -direction.dot(draw.normal);
        if cos <= 1e-4 || room.tracer.blocked(meter.position, draw.position, 1e-4) {
            return None;
        }
        let point = patch_point(room, draw.patch, draw.position, meter.position, direction);
        return Some((meter.receptor.weight(direction), point, cos, direction, distance2));
    }
    let (direction, _) = meter.receptor.sample(rng.pair());
    let hit = room.tracer.closest(meter.position, direction)?;
    let point = SurfacePoint::new(&room.geometry, &hit, meter.position, direction);
    let cos = -direction.dot(point.flat);
    let distance2 = hit.distance * hit.distance;
    (cos > 1e-6 && distance2 > 0.0)
        .then(|| (meter.receptor.weight(direction), point, cos, direction, distance2))
}

/// The point of a flat patch as a ray from `origin` would see it.
fn patch_point(room: &Room, patch: u32, position: Vec3, origin: Vec3, direction: Vec3) -> SurfacePoint {
    let object = room.patches.list[patch as usize].object;
    let triangle = room.geometry.objects[object as usize].first;
    let hit = Hit {
        distance: (position - origin).length(),
        triangle,
        barycentric: [0.25, 0.25],
    };
    SurfacePoint::new(&room.geometry, &hit, origin, direction)
}

/// The flat patch that a point lies on, if it is one.
#[inline]
fn flat_patch(room: &Room, point: &SurfacePoint) -> Option<u32> {
    let object = room.geometry.object[point.triangle as usize] as usize;
    room.geometry.objects[object]
        .rectangle
        .map(|_| room.patches.at(&room.geometry, point.triangle, point.position))
}

/// A point that the beam lights, found by following the beam.
struct Lit {
    point: SurfacePoint,
    towards_flash: Vec3,
    /// Intensity over density: lx s m² that this draw stands for.
    power: f32,
    /// Density per m² of surface with which the beam finds the point.
    density: f32,
    /// Cosine of the beam on the triangle; a response already carries the shading cosine.
    flat_cos: f32,
}

fn lit_point(room: &Room, flash: &PlacedFlash, rng: &mut Rng) -> Option<Lit> {
    let window = flash.window_point(rng.pair());
    let (direction, density) = flash.sample_direction(rng.pair());
    let intensity = flash.intensity(direction);
    if intensity <= 0.0 || density <= 0.0 {
        return None;
    }
    let hit = room.tracer.closest(window, direction)?;
    let point = SurfacePoint::new(&room.geometry, &hit, window, direction);
    let cos = -direction.dot(point.flat);
    if cos <= 1e-5 || hit.distance <= 1e-4 {
        return None;
    }
    let area_density = density * cos / (hit.distance * hit.distance);
    Some(Lit {
        point,
        towards_flash: -direction,
        power: intensity / density,
        density: area_density,
        flat_cos: cos,
    })
}

/// Direction to another surface point, the cosine there and the squared distance, if it is visible.
#[inline]
fn connect(room: &Room, from: Vec3, to: &SurfacePoint) -> Option<(Vec3, f32, f32)> {
    let towards = to.position - from;
    let distance2 = towards.length_squared();
    if distance2 < 1e-8 {
        return None;
    }
    let direction = towards / distance2.sqrt();
    let cos = -direction.dot(to.flat);
    if cos <= 1e-5 || direction.dot(to.normal) >= 0.0 {
        return None;
    }
    (!room.tracer.blocked(from, to.start, 1e-4)).then_some((direction, cos, distance2))
}

/// Radiance that leaves a surface point along `out`, own glow included.
///
/// `reached` is the density per m² with which the point was drawn (infinite when it could not have been
/// reached by the beam's own sampling from the vertex before, as for a camera ray).
pub(crate) fn follow(
    referee: &Referee,
    start: SurfacePoint,
    out: Vec3,
    reached: f32,
    rng: &mut Rng,
) -> Spectrum {
    let Referee {
        room, source, guide, ..
    } = *referee;
    let mut total = Spectrum::ZERO;
    let mut throughput = Spectrum::ONE;
    let (mut point, mut out, mut reached) = (start, out, reached);
    for depth in 0..LONGEST {
        let seen_by_camera = depth == 0 && reached.is_infinite();
        if !(seen_by_camera && matches!(source, Source::AllRound)) {
            let object = room.geometry.object[point.triangle as usize] as usize;
            let glow = referee.glow(&point, object, out);
            if glow.max() > 0.0 {
                // Aiming at lamps could have found this point too, except from the camera, and except what
                // is never aimed at.
                let share = if seen_by_camera || !referee.lamps.has(object) {
                    1.0
                } else {
                    reached / (reached + referee.lamps.density)
                };
                total += throughput * glow * share;
            }
        }
        let scatter = Scatter::new(&point, out);
        let table = guide.and_then(|g| g.table(room, &point));
        let table = table.map(|t| (t, if seen_by_camera { GUIDED } else { GUIDED_LATER }));
        match source {
            Source::Flash(flash) => {
                total += throughput * straight(room, flash, &point, &scatter, reached, rng);
                total += throughput * by_lit_point(room, flash, &point, &scatter, table, rng);
            }
            // No ray meets the sun's disc by chance, so nothing shares this way of finding it.
            Source::Outside(_) => {
                if let Some(light) = source.straight(&room.geometry, &room.tracer, &point, rng.pair()) {
                    total += throughput * scatter.response(light.direction) * light.intensity;
                }
            }
            Source::Glowing(_) | Source::AllRound => {}
        }
        total += throughput * by_lamp(referee, &point, &scatter, table, rng);
        let Some((next, direction, factor, density)) = next_vertex(room, &point, &scatter, table, rng) else {
            break;
        };
        throughput *= factor;
        if depth >= ROULETTE_FROM {
            let survive = throughput.max().clamp(0.05, 1.0);
            if rng.unit() >= survive {
                break;
            }
            throughput *= 1.0 / survive;
        }
        if throughput.max() <= 0.0 {
            break;
        }
        point = next;
        out = -direction;
        reached = density;
    }
    total
}

/// Light straight from the flash, weighed against the beam's own way of finding this point.
fn straight(
    room: &Room,
    flash: &PlacedFlash,
    point: &SurfacePoint,
    scatter: &Scatter,
    reached: f32,
    rng: &mut Rng,
) -> Spectrum {
    let Some(light) = flash.straight(&room.tracer, point, rng.pair()) else {
        return Spectrum::ZERO;
    };
    let mut share = 1.0;
    if reached.is_finite() {
        let beam =
            flash.direction_density(-light.direction) * light.direction.dot(point.flat) / light.distance2;
        share = reached / (reached + beam);
    }
    scatter.response(light.direction) * (light.intensity / light.distance2 * share)
}

/// Light by way of a point that the beam lights, weighed against going there by chance.
fn by_lit_point(
    room: &Room,
    flash: &PlacedFlash,
    point: &SurfacePoint,
    scatter: &Scatter,
    table: Option<(&Table, f32)>,
    rng: &mut Rng,
) -> Spectrum {
    let Some(lit) = lit_point(room, flash, rng) else {
        return Spectrum::ZERO;
    };
    let Some((direction, cos, distance2)) = connect(room, point.start, &lit.point) else {
        return Spectrum::ZERO;
    };
    if !point.above(direction) {
        return Spectrum::ZERO;
    }
    let far = Scatter::new(&lit.point, -direction);
    let value = scatter.response(direction)
        * far.response(lit.towards_flash)
        * (lit.power * cos / (lit.flat_cos * distance2));
    let own = scatter.density(direction) * cos / distance2;
    let other = mixed_density(table, flat_patch(room, &lit.point), own);
    value * (lit.density / (lit.density + other))
}

/// Direction to a point of a lamp, the cosine there and the squared distance.
fn towards_lamp(from: Vec3, lamp: Vec3, normal: Vec3) -> (Vec3, f32, f32) {
    let towards = lamp - from;
    let distance2 = towards.length_squared().max(1e-12);
    let direction = towards / distance2.sqrt();
    (direction, -direction.dot(normal), distance2)
}

/// Light straight from a lamp or opening, weighed against going there by chance.
fn by_lamp(
    referee: &Referee,
    point: &SurfacePoint,
    scatter: &Scatter,
    table: Option<(&Table, f32)>,
    rng: &mut Rng,
) -> Spectrum {
    let Some((lamp, normal, patch, object)) = referee.lamps.draw(referee.room, rng) else {
        return Spectrum::ZERO;
    };
    let (direction, cos, distance2) = towards_lamp(point.start, lamp, normal);
    if cos <= 1e-5 || !point.above(direction) || referee.room.tracer.blocked(point.start, lamp, 1e-4) {
        return Spectrum::ZERO;
    }
    let own = scatter.density(direction) * cos / distance2;
    let other = mixed_density(table, Some(patch), own);
    scatter.response(direction)
        * referee.emission(object, -direction)
        * (cos / (distance2 * (referee.lamps.density + other)))
}

/// The next vertex: the point, the direction to it, the factor it brings and the density per m² with
/// which it was drawn.
fn next_vertex(
    room: &Room,
    point: &SurfacePoint,
    scatter: &Scatter,
    table: Option<(&Table, f32)>,
    rng: &mut Rng,
) -> Option<(SurfacePoint, Vec3, Spectrum, f32)> {
    let (next, direction, cos, distance2, patch) = match table {
        Some((table, share)) if rng.unit() < share => {
            let draw = table.draw(&room.patches, rng.unit(), rng.pair())?;
            let towards = draw.position - point.start;
            let distance2 = towards.length_squared();
            let direction = towards / distance2.sqrt();
            let cos = -direction.dot(draw.normal);
            if cos <= 1e-4 || !point.above(direction) || room.tracer.blocked(point.start, draw.position, 1e-4)
            {
                return None;
            }
            let next = patch_point(room, draw.patch, draw.position, point.start, direction);
            (next, direction, cos, distance2, Some(draw.patch))
        }
        _ => {
            let direction = scatter.sample([rng.unit(), rng.unit(), rng.unit()]);
            if !point.above(direction) {
                return None;
            }
            let hit = room.tracer.closest(point.start, direction)?;
            let next = SurfacePoint::new(&room.geometry, &hit, point.start, direction);
            let cos = -direction.dot(next.flat);
            if cos <= 1e-6 || hit.distance <= 1e-7 {
                return None;
            }
            let patch = table.and_then(|_| flat_patch(room, &next));
            (next, direction, cos, hit.distance * hit.distance, patch)
        }
    };
    let own = scatter.density(direction) * cos / distance2;
    let density = mixed_density(table, patch, own);
    if density <= 0.0 {
        return None;
    }
    Some((
        next,
        direction,
        scatter.response(direction) * (cos / (distance2 * density)),
        density,
    ))
}

/// Radiance along a camera ray.
pub(crate) fn camera_path(referee: &Referee, origin: Vec3, direction: Vec3, rng: &mut Rng) -> Spectrum {
    let room = referee.room;
    match room.tracer.closest(origin, direction) {
        Some(hit) => {
            let point = SurfacePoint::new(&room.geometry, &hit, origin, direction);
            follow(referee, point, -direction, f32::INFINITY, rng)
        }
        None => Spectrum::ZERO,
    }
}
