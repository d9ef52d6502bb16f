//! The referee: an unbiased spectral path tracer, one source at unit strength at a time.
//!
//! Every path vertex collects light in three ways that are weighed against each other by the balance
//! heuristic (Veach & Guibas 1995): straight from the flash; by a point that the flash's own beam lights
//! (the lit patch on the wall is known in advance, so it is sampled, not hoped for); and by going on to
//! the next vertex, drawn from the surface's own scattering and from the guide's tables. All bounces
//! follow until Russian roulette ends the path.

use crate::guide::{Guide, Table};
use crate::leg::{Landing, Leg, NO_LENGTH, Straight};
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

/// A path that may be ended goes on with at least this chance, so that none that survives counts for too many.
const LEAST_CHANCE: f32 = 0.05;
/// Points nearer than this, in metres, are not joined: so near, 1/r² grows beyond what any light in a room is.
const TOUCHING: f32 = 1e-4;
/// Cosine by which a meter's table lets in patches that lie a little behind a flat receptor.
const METER_SLACK: f32 = 0.05;

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

    /// A point of a lamp.
    fn draw(&self, room: &Room, rng: &mut Rng) -> Option<LampPoint> {
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
        Some(LampPoint {
            position,
            normal: a.cross(b).normalize_or_zero(),
            patch,
            object,
        })
    }
}

/// A point of a lamp or an opening, at which a path aims.
struct LampPoint {
    position: Vec3,
    normal: Vec3,
    patch: u32,
    object: usize,
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

    /// A point of a lamp that faces a point, and the leg to it. What stands between is not asked yet.
    #[inline]
    fn aim_at_lamp(&self, from: Vec3, rng: &mut Rng) -> Option<(LampPoint, Landing)> {
        let lamp = self.lamps.draw(self.room, rng)?;
        let landing = Leg::between(from, lamp.position).landing(lamp.normal)?;
        Some((lamp, landing))
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
                Table::new(&room.patches, light, meter.position, normal, METER_SLACK)
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
    let held = Held { meter, table };
    // Light that comes straight from the source.
    let mut collected = held.straight(referee, rng);
    // Light by way of a point that the beam is known to light.
    collected += held.by_lit_point(referee, rng);
    // Light from a lamp or an opening, at which the meter aims.
    collected += held.by_lamp(referee, rng);
    // The path goes out to a surface and brings back all that leaves it this way.
    if let Some(step) = held.next(referee.room, rng) {
        collected += step.factor * follow(referee, step.point, -step.direction, Some(step.density), rng);
    }
    collected
}

/// A meter and the table that guides its paths, if there is one.
struct Held<'a> {
    meter: &'a Meter,
    table: Option<&'a Table>,
}

impl Held<'_> {
    /// Density per m² with which [`Held::next`] draws a point.
    fn density(&self, landing: &Landing, patch: Option<u32>) -> f32 {
        let own = landing.per_area(self.meter.receptor.density(landing.direction));
        mixed_density(self.table.map(|t| (t, GUIDED)), patch, own)
    }

    /// Light straight from the flash or the sun's disc.
    fn straight(&self, referee: &Referee, rng: &mut Rng) -> Spectrum {
        let room = referee.room;
        let light = match referee.source {
            Source::Flash(flash) => straight_to_meter(room, flash, self.meter, rng),
            Source::Outside(outside) => {
                outside.straight(&room.geometry, &room.tracer, self.meter.position, rng.pair())
            }
            Source::Glowing(_) | Source::AllRound => None,
        };
        light.map_or(Spectrum::ZERO, |light| {
            Spectrum::splat(self.meter.receptor.weight(light.direction) * light.illuminance)
        })
    }

    /// Light by way of a point that the beam lights, weighed against going there by chance.
    fn by_lit_point(&self, referee: &Referee, rng: &mut Rng) -> Spectrum {
        let room = referee.room;
        let Source::Flash(flash) = referee.source else {
            return Spectrum::ZERO;
        };
        let Some(lit) = LitPoint::draw(room, flash, rng) else {
            return Spectrum::ZERO;
        };
        let Meter { position, receptor } = self.meter;
        let weighed = |from| receptor.weight(from) != 0.0;
        let Some(landing) = connect(room, *position, &lit.point, weighed) else {
            return Spectrum::ZERO;
        };
        let weight = receptor.weight(landing.direction);
        let other = self.density(&landing, flat_patch(room, &lit.point));
        lit.sent_along(&landing, weight) * share_of(lit.density, other)
    }

    /// Light straight from a lamp or opening, weighed against going there by chance.
    fn by_lamp(&self, referee: &Referee, rng: &mut Rng) -> Spectrum {
        let Meter { position, receptor } = self.meter;
        let Some((aim, landing)) = referee.aim_at_lamp(*position, rng) else {
            return Spectrum::ZERO;
        };
        let weight = receptor.weight(landing.direction);
        if weight == 0.0 || !referee.room.tracer.sees_surface(*position, aim.position) {
            return Spectrum::ZERO;
        }
        let other = self.density(&landing, Some(aim.patch));
        referee.emission(aim.object, -landing.direction)
            * (weight * landing.cos / landing.distance2 / (referee.lamps.density + other))
    }

    /// The first vertex that the meter sees.
    fn next(&self, room: &Room, rng: &mut Rng) -> Option<Step<f32>> {
        let from = self.meter.position;
        let (point, landing) = match self.table {
            Some(table) if rng.unit() < GUIDED => {
                let (point, landing, _) = by_table(room, table, from, |_| true, rng)?;
                (point, landing)
            }
            _ => by_ray(room, from, self.meter.receptor.sample(rng.pair()).0)?,
        };
        let density = self.density(&landing, flat_patch(room, &point));
        let weight = self.meter.receptor.weight(landing.direction);
        (density > 0.0).then(|| Step {
            point,
            direction: landing.direction,
            factor: weight * landing.cos / (landing.distance2 * density),
            density,
        })
    }
}

/// What reaches a meter straight from a point of the flash's window.
fn straight_to_meter(room: &Room, flash: &PlacedFlash, meter: &Meter, rng: &mut Rng) -> Option<Straight> {
    let window = flash.window_point(rng.pair());
    let leg = Leg::between(meter.position, window);
    let intensity = flash.intensity(-leg.direction);
    let matters = intensity > 0.0 && meter.receptor.weight(leg.direction) != 0.0;
    (matters && room.tracer.sees_flash(meter.position, window)).then(|| Straight {
        direction: leg.direction,
        illuminance: intensity / leg.distance2,
    })
}

/// Share of a way of finding a point in what several ways find, by the balance heuristic: its density against that of
/// all others together.
#[inline]
fn share_of(density: f32, others: f32) -> f32 {
    density / (density + others)
}

/// The next vertex of a path.
struct Step<F> {
    point: SurfacePoint,
    /// Unit direction to it.
    direction: Vec3,
    /// What light that comes from there is multiplied by.
    factor: F,
    /// Density per m² with which it was drawn.
    density: f32,
}

/// A point drawn from a table, if it is seen from `from`, and the patch that it lies on. `above` says which directions
/// count.
#[inline]
fn by_table(
    room: &Room,
    table: &Table,
    from: Vec3,
    above: impl Fn(Vec3) -> bool,
    rng: &mut Rng,
) -> Option<(SurfacePoint, Landing, u32)> {
    let draw = table.draw(&room.patches, rng.unit(), rng.pair())?;
    let landing = Leg::between(from, draw.position).landing(draw.normal)?;
    if !above(landing.direction) || !room.tracer.sees_surface(from, draw.position) {
        return None;
    }
    let point = patch_point(room, draw.patch, draw.position, from, landing.direction);
    Some((point, landing, draw.patch))
}

/// The point of a surface that a ray meets.
#[inline(always)]
fn by_ray(room: &Room, from: Vec3, direction: Vec3) -> Option<(SurfacePoint, Landing)> {
    let hit = room.tracer.closest(from, direction)?;
    if hit.distance <= NO_LENGTH {
        return None;
    }
    let point = SurfacePoint::new(&room.geometry, &hit, from, direction);
    let landing = Leg::along(direction, hit.distance).landing(point.flat)?;
    Some((point, landing))
}

/// The point of a flat patch as a ray from `origin` would see it.
fn patch_point(room: &Room, patch: u32, position: Vec3, origin: Vec3, direction: Vec3) -> SurfacePoint {
    let object = room.patches.list[patch as usize].object;
    let first = room.geometry.objects[object as usize].first;
    let hit = Hit::on_rectangle(first, (position - origin).length());
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
struct LitPoint {
    point: SurfacePoint,
    towards_flash: Vec3,
    /// Intensity over density: lx s m² that this draw stands for.
    power: f32,
    /// Density per m² of surface with which the beam finds the point.
    density: f32,
    /// Cosine of the beam on the triangle; a response already carries the shading cosine.
    flat_cos: f32,
}

impl LitPoint {
    fn draw(room: &Room, flash: &PlacedFlash, rng: &mut Rng) -> Option<Self> {
        let window = flash.window_point(rng.pair());
        let (direction, density) = flash.sample_direction(rng.pair());
        let intensity = flash.intensity(direction);
        if intensity <= 0.0 || density <= 0.0 {
            return None;
        }
        let (point, landing) = by_ray(room, window, direction)?;
        (landing.distance2 > TOUCHING * TOUCHING).then(|| LitPoint {
            point,
            towards_flash: -direction,
            power: intensity / density,
            density: landing.per_area(density),
            flat_cos: landing.cos,
        })
    }

    /// What the point sends back along a leg that lands on it, with a weight or a response at the other end.
    #[inline]
    fn sent_along(&self, landing: &Landing, weight: f32) -> Spectrum {
        let scatter = Scatter::new(&self.point, -landing.direction);
        scatter.response(self.towards_flash)
            * (weight * self.power * landing.cos / (self.flat_cos * landing.distance2))
    }
}

/// The leg to another surface point, if it is visible. `counts` says in which directions light matters: the ray, which
/// costs most, is not followed in others.
#[inline]
fn connect(room: &Room, from: Vec3, to: &SurfacePoint, counts: impl Fn(Vec3) -> bool) -> Option<Landing> {
    let landing = Leg::between(from, to.position).landing(to.flat)?;
    let apart = landing.distance2 > TOUCHING * TOUCHING;
    let faces = landing.direction.dot(to.normal) < 0.0 && counts(landing.direction);
    (apart && faces && room.tracer.sees_surface(from, to.start)).then_some(landing)
}

/// Radiance that leaves a surface point along `out`, own glow included.
///
/// `reached` is the density per m² with which the point was drawn; `None` for a camera ray, whose point could not have
/// been found in any other way.
pub(crate) fn follow(
    referee: &Referee,
    start: SurfacePoint,
    out: Vec3,
    reached: Option<f32>,
    rng: &mut Rng,
) -> Spectrum {
    let mut collected = Spectrum::ZERO;
    // The path begins with all the light that its first surface sends along `out`.
    let mut carried = Spectrum::ONE;
    let (mut point, mut out, mut reached) = (start, out, reached);
    for depth in 0..LONGEST {
        let vertex = Vertex::new(referee, &point, out, reached);
        // The surface may shine with itself; aiming at lamps could have found that too, and each way has its share.
        collected += carried * vertex.own_glow();
        // Light comes to it straight from the flash or the sun,
        collected += carried * vertex.straight(rng);
        // by way of a point that the beam is known to light,
        collected += carried * vertex.by_lit_point(rng);
        // and from a lamp or an opening at which the path aims.
        collected += carried * vertex.by_lamp(rng);
        // All other light comes from a further surface, in a direction drawn from the surface or from the guide.
        let Some(step) = vertex.next(rng) else {
            break;
        };
        // What is found there counts by what this surface sends on of it, over the density of the draw.
        carried *= step.factor;
        // A long path goes on only by chance, and counts for those that were ended.
        let Some(weight) = survival(depth, carried, rng) else {
            break;
        };
        carried *= weight;
        // A path that carries nothing has nothing to find.
        if carried.max() <= 0.0 {
            break;
        }
        (point, out, reached) = (step.point, -step.direction, Some(step.density));
    }
    collected
}

/// By how much a path counts more because it went on, if it does.
#[inline]
fn survival(depth: usize, carried: Spectrum, rng: &mut Rng) -> Option<f32> {
    if depth < ROULETTE_FROM {
        return Some(1.0);
    }
    let chance = carried.max().clamp(LEAST_CHANCE, 1.0);
    (rng.unit() < chance).then_some(1.0 / chance)
}

/// A surface point of a path.
struct Vertex<'a> {
    referee: &'a Referee<'a>,
    point: &'a SurfacePoint,
    /// Unit direction in which its light is wanted.
    out: Vec3,
    /// Density per m² with which it was drawn; `None` where the camera sees it.
    reached: Option<f32>,
    scatter: Scatter,
    /// The guide's table there, and the share of further vertices that are drawn from it.
    table: Option<(&'a Table, f32)>,
}

impl<'a> Vertex<'a> {
    #[inline]
    fn new(referee: &'a Referee<'a>, point: &'a SurfacePoint, out: Vec3, reached: Option<f32>) -> Self {
        let table = referee.guide.and_then(|guide| guide.table(referee.room, point));
        let share = if reached.is_none() { GUIDED } else { GUIDED_LATER };
        Vertex {
            referee,
            point,
            out,
            reached,
            scatter: Scatter::new(point, out),
            table: table.map(|table| (table, share)),
        }
    }

    /// Density per m² with which [`Vertex::next`] draws a point.
    #[inline(always)]
    fn density(&self, landing: &Landing, patch: Option<u32>) -> f32 {
        mixed_density(
            self.table,
            patch,
            landing.per_area(self.scatter.density(landing.direction)),
        )
    }

    /// What the point shines with itself, weighed against aiming at lamps.
    #[inline]
    fn own_glow(&self) -> Spectrum {
        let Referee {
            room, source, lamps, ..
        } = self.referee;
        match source {
            // No surface of the scene is the flash,
            Source::Flash(_) => return Spectrum::ZERO,
            // and light from all round has no source that a picture could show.
            Source::AllRound if self.reached.is_none() => return Spectrum::ZERO,
            Source::AllRound | Source::Glowing(_) | Source::Outside(_) => {}
        }
        let object = room.geometry.object[self.point.triangle as usize] as usize;
        let glow = self.referee.glow(self.point, object, self.out);
        match self.reached {
            Some(reached) if glow.max() > 0.0 && lamps.has(object) => glow * share_of(reached, lamps.density),
            _ => glow,
        }
    }

    /// Light straight from the flash, weighed against the beam's own way of finding this point, or from the sun, which
    /// no ray meets by chance.
    #[inline]
    fn straight(&self, rng: &mut Rng) -> Spectrum {
        let room = self.referee.room;
        let light = match self.referee.source {
            Source::Flash(flash) => flash.straight(&room.tracer, self.point, rng.pair()).map(|light| {
                let Straight {
                    direction,
                    illuminance,
                } = light.straight();
                let share = self.reached.map_or(1.0, |reached| {
                    let cos = light.leg.cos_leaving(self.point.flat);
                    share_of(
                        reached,
                        flash.direction_density(-direction) * cos / light.leg.distance2,
                    )
                });
                Straight {
                    direction,
                    illuminance: illuminance * share,
                }
            }),
            source @ Source::Outside(_) => {
                source.straight(&room.geometry, &room.tracer, self.point, rng.pair())
            }
            Source::Glowing(_) | Source::AllRound => None,
        };
        light.map_or(Spectrum::ZERO, |light| {
            self.scatter.response(light.direction) * light.illuminance
        })
    }

    /// Light by way of a point that the beam lights, weighed against going there by chance.
    #[inline]
    fn by_lit_point(&self, rng: &mut Rng) -> Spectrum {
        let room = self.referee.room;
        let Source::Flash(flash) = self.referee.source else {
            return Spectrum::ZERO;
        };
        let Some(lit) = LitPoint::draw(room, flash, rng) else {
            return Spectrum::ZERO;
        };
        let above = |direction| self.point.above(direction);
        let Some(landing) = connect(room, self.point.start, &lit.point, above) else {
            return Spectrum::ZERO;
        };
        let other = self.density(&landing, flat_patch(room, &lit.point));
        self.scatter.response(landing.direction)
            * lit.sent_along(&landing, 1.0)
            * share_of(lit.density, other)
    }

    /// Light straight from a lamp or opening, weighed against going there by chance.
    #[inline]
    fn by_lamp(&self, rng: &mut Rng) -> Spectrum {
        let Some((aim, landing)) = self.referee.aim_at_lamp(self.point.start, rng) else {
            return Spectrum::ZERO;
        };
        let direction = landing.direction;
        let tracer = &self.referee.room.tracer;
        if !self.point.above(direction) || !tracer.sees_surface(self.point.start, aim.position) {
            return Spectrum::ZERO;
        }
        let other = self.density(&landing, Some(aim.patch));
        self.scatter.response(direction)
            * self.referee.emission(aim.object, -direction)
            * (landing.cos / (landing.distance2 * (self.referee.lamps.density + other)))
    }

    /// The next vertex.
    #[inline]
    fn next(&self, rng: &mut Rng) -> Option<Step<Spectrum>> {
        let room = self.referee.room;
        let above = |direction| self.point.above(direction);
        let (point, landing, patch) = match self.table {
            Some((table, share)) if rng.unit() < share => {
                let (point, landing, patch) = by_table(room, table, self.point.start, above, rng)?;
                (point, landing, Some(patch))
            }
            _ => {
                let direction = self.scatter.sample([rng.unit(), rng.unit(), rng.unit()]);
                if !above(direction) {
                    return None;
                }
                let (point, landing) = by_ray(room, self.point.start, direction)?;
                // Without a table it does not matter which patch the point lies on.
                let patch = self.table.and_then(|_| flat_patch(room, &point));
                (point, landing, patch)
            }
        };
        let density = self.density(&landing, patch);
        (density > 0.0).then(|| Step {
            point,
            direction: landing.direction,
            factor: self.scatter.response(landing.direction) * (landing.cos / (landing.distance2 * density)),
            density,
        })
    }
}

/// Radiance along a camera ray.
pub(crate) fn camera_path(referee: &Referee, origin: Vec3, direction: Vec3, rng: &mut Rng) -> Spectrum {
    let room = referee.room;
    room.tracer
        .closest(origin, direction)
        .map_or(Spectrum::ZERO, |hit| {
            let point = SurfacePoint::new(&room.geometry, &hit, origin, direction);
            follow(referee, point, -direction, None, rng)
        })
}
