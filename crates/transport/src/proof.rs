//! The picture of a scene under one source at unit strength: a layer.
//!
//! The proof looks from every pixel at the surfaces and asks the solved room what shines on them: the
//! flash directly, flat patches through tables made for what the picture shows, and people through a
//! coarse grid at which their faint, smooth light is gathered. Where a surface has gloss or stands close
//! to a patch, its own scattering is sampled too and weighed by the balance heuristic (Veach & Guibas
//! 1995). Light that has bounced more than once comes from the solved
//! patches, which is why a bounced face is clean in seconds; the small bias that this brings is measured
//! against the referee (see the tests and `benches/`). [`Method::Referee`] renders the same picture
//! without that shortcut.

use crate::guide::{GroupTable, Guide, PictureGuide};
use crate::referee::{Referee, camera_path};
use crate::rng::{Rng, stratified};
use crate::room::{Room, SolvedLight};
use crate::scatter::{Scatter, cosine_direction, hemispherical_reflectance};
use crate::source::Source;
use crate::surface::SurfacePoint;
use colour::Spectrum;
use glam::{Vec2, Vec3};
use rayon::prelude::*;
use scene::{ObjectKind, Viewpoint};
use std::f32::consts::PI;

/// A picture of radiance per band of a flat source of unit strength.
#[derive(Clone, Debug)]
pub struct Layer {
    /// Pixels across.
    pub width: usize,
    /// Pixels down.
    pub height: usize,
    /// Radiance, row by row from the top left: cd m⁻² per unit source, or cd s m⁻² for the flash.
    pub pixels: Vec<Spectrum>,
}

/// How a layer is computed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Method {
    /// With the solved room.
    Solved,
    /// Every path to its end.
    Referee,
}

/// When to stop.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Effort {
    /// Most passes over the picture.
    pub most_passes: usize,
    /// Stop when the estimated relative error of the skin's pixels (root mean square) is below this; where
    /// no skin is seen, that of people, or of everything. The proof also plans its rays for this error, so
    /// that a rough picture is soon there. Zero leaves the end to the passes or to the caller.
    pub error: f32,
}

/// How far a rendering is.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Progress {
    /// Passes done.
    pub passes: usize,
    /// Estimated relative error of the skin's pixels, once two passes are done.
    pub error: Option<f32>,
}

/// A look at a rendering while it goes on.
pub struct Glance<'a> {
    /// How far it is.
    pub progress: Progress,
    sum: &'a [Spectrum],
    width: usize,
}

impl Glance<'_> {
    /// The picture as it is now: the mean of all passes so far.
    pub fn layer(&self) -> Layer {
        mean_of(self.sum, self.progress.passes, self.width)
    }
}

/// The mean of passes that were added up.
fn mean_of(sum: &[Spectrum], passes: usize, width: usize) -> Layer {
    let scale = 1.0 / passes.max(1) as f32;
    Layer {
        width,
        height: sum.len() / width.max(1),
        pixels: sum.iter().map(|s| *s * scale).collect(),
    }
}

/// A finished layer with what it cost.
#[derive(Clone, Debug)]
pub struct Rendered {
    /// The picture.
    pub layer: Layer,
    /// Passes and error reached.
    pub progress: Progress,
}

/// Directions drawn from the tables for every camera ray.
const GUIDED: usize = 2;
/// Directions drawn from the surface itself where that is needed.
const OWN: usize = 1;

/// Renders one source. `go_on` gets a glance after every pass and may stop the rendering by returning false.
///
/// The same seed gives the same picture whatever the number of threads.
#[allow(
    clippy::too_many_arguments,
    reason = "each is a different thing and none has a sensible default"
)]
pub fn render(
    room: &Room,
    source: &Source,
    light: &SolvedLight,
    view: &Viewpoint,
    size: [usize; 2],
    method: Method,
    effort: Effort,
    seed: u64,
    go_on: &mut dyn FnMut(&Glance) -> bool,
) -> Rendered {
    let [width, height] = size;
    let lens = Lens::new(view, size);
    let survey = Survey::new(room, &lens, size);
    let painter = match method {
        Method::Solved => Painter::Solved(Solved::new(room, source, light, &survey)),
        Method::Referee => Painter::Referee(Guide::new(room, &light.radiosity)),
    };
    let rays = painter.rays(&lens, size, &survey, effort.error, seed);
    let mut sum = vec![Spectrum::ZERO; width * height];
    // The two halves of the passes share no random number, so their difference tells the error without a
    // reference.
    let mut halves = [vec![0.0f32; width * height], vec![0.0f32; width * height]];
    let mut progress = Progress {
        passes: 0,
        error: None,
    };
    while progress.passes < effort.most_passes {
        let pass = progress.passes as u32;
        let half = progress.passes % 2;
        let brush = painter.brush(room, source, &lens, size, seed, pass);
        sum.par_chunks_mut(width)
            .zip(halves[half].par_chunks_mut(width))
            .enumerate()
            .for_each(|(y, (row, mean))| {
                for (x, (pixel, mean)) in row.iter_mut().zip(mean).enumerate() {
                    let place = y * width + x;
                    let count = u32::from(rays[place]);
                    let mut steer = Steer::new(seed, place as u64, pass, count);
                    let mut value = Spectrum::ZERO;
                    for _ in 0..count {
                        let at = Vec2::new(x as f32, y as f32) + Vec2::from(steer.in_pixel());
                        value += brush.pixel(&lens, at, &mut steer);
                        steer.turn += 1;
                    }
                    let value = value * (1.0 / count as f32);
                    *pixel += value;
                    *mean += value.mean();
                }
            });
        progress.passes += 1;
        if progress.passes.is_multiple_of(2) {
            progress.error = error_of(&halves, &survey.judged, progress.passes);
        }
        let done = progress.error.is_some_and(|e| e <= effort.error);
        let glance = Glance {
            progress,
            sum: &sum,
            width,
        };
        if !go_on(&glance) || done {
            break;
        }
    }
    Rendered {
        layer: mean_of(&sum, progress.passes, width),
        progress,
    }
}

/// What is made once for a picture.
enum Painter<'a> {
    Solved(Solved<'a>),
    Referee(Guide),
}

/// What works out the pixels of one pass.
enum Brush<'a> {
    Solved(&'a Solved<'a>, Option<BodyLight>),
    Referee(Referee<'a>),
}

impl<'a> Painter<'a> {
    fn brush(
        &'a self,
        room: &'a Room,
        source: &'a Source,
        lens: &Lens,
        size: [usize; 2],
        seed: u64,
        pass: u32,
    ) -> Brush<'a> {
        match self {
            Painter::Solved(solved) => Brush::Solved(solved, solved.body_light(lens, size, seed, pass)),
            Painter::Referee(guide) => Brush::Referee(Referee::new(room, source, Some(guide))),
        }
    }

    /// Camera rays of every pixel in a pass.
    fn rays(&self, lens: &Lens, size: [usize; 2], survey: &Survey, error: f32, seed: u64) -> Vec<u16> {
        match self {
            Painter::Solved(solved) => solved.rays(lens, size, survey, error, seed),
            Painter::Referee(_) => vec![1; size[0] * size[1]],
        }
    }
}

impl Brush<'_> {
    /// Radiance that arrives through a place of the picture.
    fn pixel(&self, lens: &Lens, at: Vec2, steer: &mut Steer) -> Spectrum {
        match self {
            Brush::Solved(solved, bodies) => solved.pixel(lens, at, bodies.as_ref(), steer),
            Brush::Referee(referee) => {
                camera_path(referee, lens.origin, lens.direction(at), &mut steer.later)
            }
        }
    }
}

/// The numbers that steer the rays of one pixel in one pass.
///
/// Each dimension is a Kronecker sequence (steps from the generalised golden ratio, Roberts 2018, so that
/// pairs and triples spread evenly), started at random per pixel: neighbours are independent, while the
/// passes of a pixel fill the gaps that earlier ones left. Even and odd passes have a sequence each.
struct Steer {
    /// Which ray of the pixel this is, among those of all passes of its half.
    turn: u32,
    lens: [f32; 2],
    window: [f32; 2],
    patch: [f32; 1],
    within: [f32; 2],
    own: [f32; 3],
    /// For what comes after the first surface.
    later: Rng,
}

/// Powers of the inverse generalised golden ratio for one, two and three dimensions.
const STEP_1: [f64; 1] = [0.618_033_988_749_895];
pub(crate) const STEP_2: [f64; 2] = [0.754_877_666_246_693, 0.569_840_290_998_053];
const STEP_3: [f64; 3] = [
    0.819_172_513_396_164,
    0.671_043_606_703_789,
    0.549_700_477_901_970,
];

impl Steer {
    fn new(seed: u64, pixel: u64, pass: u32, rays: u32) -> Self {
        let half = u64::from(pass % 2);
        let mut start = Rng::new(seed, 2 * pixel + half);
        Steer {
            turn: pass / 2 * rays,
            lens: start.pair(),
            window: start.pair(),
            patch: [start.unit()],
            within: start.pair(),
            own: [start.unit(), start.unit(), start.unit()],
            later: Rng::new(seed.wrapping_add(1 + u64::from(pass)), pixel),
        }
    }

    /// Where in the pixel this pass looks.
    #[inline]
    fn in_pixel(&self) -> [f32; 2] {
        step(self.lens, STEP_2, self.turn)
    }

    /// Which point of the flash's window this pass uses.
    #[inline]
    fn in_window(&self) -> [f32; 2] {
        step(self.window, STEP_2, self.turn)
    }

    /// The numbers of the `index`-th point drawn from a table: which patch, and where on it.
    #[inline]
    fn guided(&self, index: usize) -> (f32, [f32; 2]) {
        let index = self.turn * GUIDED as u32 + index as u32;
        (
            step(self.patch, STEP_1, index)[0],
            step(self.within, STEP_2, index),
        )
    }

    /// The numbers of the `index`-th direction drawn from the surface itself.
    #[inline]
    fn own(&self, index: usize) -> [f32; 3] {
        step(self.own, STEP_3, self.turn * OWN as u32 + index as u32)
    }
}

/// The `index`-th member of a Kronecker sequence with this start.
#[inline]
pub(crate) fn step<const N: usize>(start: [f32; N], steps: [f64; N], index: u32) -> [f32; N] {
    std::array::from_fn(|i| {
        let value = (f64::from(start[i]) + steps[i] * f64::from(index)).fract();
        (value as f32).min(0.999_999_9)
    })
}

/// The viewpoint prepared for a picture of a size.
struct Lens {
    origin: Vec3,
    corner: Vec3,
    step_right: Vec3,
    step_down: Vec3,
}

impl Lens {
    fn new(view: &Viewpoint, [width, height]: [usize; 2]) -> Self {
        let half = view.half_extent(width as f32 / height as f32);
        let (right, up, forward) = view.axes();
        Lens {
            origin: view.position,
            corner: forward - right * half.x + up * half.y,
            step_right: right * (2.0 * half.x / width as f32),
            step_down: -up * (2.0 * half.y / height as f32),
        }
    }

    /// Unit direction through a place of the picture, in pixels from its top left corner.
    #[inline]
    fn direction(&self, at: Vec2) -> Vec3 {
        (self.corner + self.step_right * at.x + self.step_down * at.y).normalize()
    }

    /// Edge of what a pixel shows of a surface square to the ray, in metres.
    #[inline]
    fn footprint(&self, distance: f32) -> f32 {
        self.step_right.length() * distance
    }
}

/// What a first look through the middles of the pixels finds.
struct Survey {
    /// Which pixels the error is judged by: what must be clean first.
    judged: Vec<bool>,
    /// Places and normals of what the picture shows.
    points: Vec<(Vec3, Vec3)>,
}

/// Every second pixel of every second row says enough of what a picture shows.
const SURVEY_STEP: usize = 2;

impl Survey {
    fn new(room: &Room, lens: &Lens, [width, height]: [usize; 2]) -> Self {
        let found: Vec<(Shown, Option<(Vec3, Vec3)>)> = (0..width * height)
            .into_par_iter()
            .map(|index| {
                let (x, y) = (index % width, index / width);
                let direction = lens.direction(Vec2::new(x as f32 + 0.5, y as f32 + 0.5));
                let Some(hit) = room.tracer.closest(lens.origin, direction) else {
                    return (Shown::Other, None);
                };
                let kept = x.is_multiple_of(SURVEY_STEP) && y.is_multiple_of(SURVEY_STEP);
                let point = kept.then(|| {
                    let point = SurfacePoint::new(&room.geometry, &hit, lens.origin, direction);
                    (point.position, point.normal)
                });
                (Shown::of(room, hit.triangle), point)
            })
            .collect();
        let best = found
            .iter()
            .map(|(shown, _)| *shown)
            .max()
            .unwrap_or(Shown::Other);
        Survey {
            judged: found.iter().map(|(shown, _)| *shown == best).collect(),
            points: found.iter().filter_map(|(_, point)| *point).collect(),
        }
    }
}

/// What a pixel shows, by how much it matters that it is clean.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
enum Shown {
    Other,
    Person,
    Skin,
}

impl Shown {
    fn of(room: &Room, triangle: u32) -> Self {
        let object = room.geometry.object[triangle as usize] as usize;
        if room.geometry.material_of(triangle).overlays.is_some() {
            Shown::Skin
        } else if matches!(room.geometry.objects[object].kind, ObjectKind::Sitter(_)) {
            Shown::Person
        } else {
            Shown::Other
        }
    }
}

/// Relative error (root mean square over the skin, or over everything when there are none) of the mean
/// of all passes, from the difference of its two halves.
fn error_of(halves: &[Vec<f32>; 2], skin: &[bool], passes: usize) -> Option<f32> {
    let any = skin.iter().any(|&p| p);
    let chosen = || {
        halves[0]
            .iter()
            .zip(&halves[1])
            .zip(skin)
            .filter(move |(_, p)| **p || !any)
            .map(|(h, _)| h)
    };
    let count = chosen().count();
    if count == 0 {
        return None;
    }
    let half = 2.0 / passes as f32;
    let average = chosen()
        .map(|(a, b)| f64::from(0.5 * half * (a + b)))
        .sum::<f64>()
        / count as f64;
    // Very dark pixels are left out: a relative error there says nothing about how the picture looks.
    let floor = (0.1 * average) as f32;
    let (mut sum, mut used) = (0.0f64, 0usize);
    for (a, b) in chosen() {
        let (a, b) = (a * half, b * half);
        let mean = 0.5 * (a + b);
        if mean > floor {
            // A single pixel's halves say little, so the squares are averaged before the root is taken.
            sum += f64::from(0.5 * (a - b) / mean).powi(2);
            used += 1;
        }
    }
    (used > 0).then(|| (sum / used as f64).sqrt() as f32)
}

/// The picture by way of the solved room.
struct Solved<'a> {
    room: &'a Room,
    source: &'a Source,
    light: &'a SolvedLight,
    guide: PictureGuide,
    /// Whether there is anything that is not flat.
    people: bool,
}

impl<'a> Solved<'a> {
    fn new(room: &'a Room, source: &'a Source, light: &'a SolvedLight, survey: &Survey) -> Self {
        Solved {
            room,
            source,
            light,
            guide: PictureGuide::new(room, source, light, &survey.points),
            people: room.geometry.objects.iter().any(|o| o.rectangle.is_none()),
        }
    }

    /// Radiance along one camera ray.
    fn pixel(&self, lens: &Lens, at: Vec2, bodies: Option<&BodyLight>, steer: &mut Steer) -> Spectrum {
        let room = self.room;
        let direction = lens.direction(at);
        let Some(hit) = room.tracer.closest(lens.origin, direction) else {
            return Spectrum::ZERO;
        };
        let point = SurfacePoint::new(&room.geometry, &hit, lens.origin, direction);
        let scatter = Scatter::new(&point, -direction);
        let mut total = own_glow(room, self.source, &point, -direction);
        total += scatter_straight(room, self.source, &point, &scatter, steer.in_window());
        let footprint = lens.footprint(hit.distance);
        let table = self.guide.table(point.position, point.normal);
        let own = if scatter.is_coated() || table.is_some_and(|t| t.close) {
            OWN
        } else {
            0
        };
        if let Some(table) = table {
            total += self.by_tables(table, own, &point, &scatter, steer);
        }
        for index in 0..own {
            total += self.by_itself(table, &point, &scatter, index, steer);
        }
        if let Some(bodies) = bodies {
            // Where the grid says nothing, a few rays of the pixel's own tell.
            let irradiance = bodies
                .at(at, &point, footprint)
                .unwrap_or_else(|| self.body_irradiance(&point, 2, &mut steer.later).0);
            total += scatter.spread(irradiance);
        }
        total
    }

    /// Light of flat patches, drawn from a table. With `own` directions drawn from the surface itself the
    /// two share what both can find.
    fn by_tables(
        &self,
        table: &GroupTable,
        own: usize,
        point: &SurfacePoint,
        scatter: &Scatter,
        steer: &Steer,
    ) -> Spectrum {
        let mut total = Spectrum::ZERO;
        for index in 0..GUIDED {
            let (u, within) = steer.guided(index);
            let draw = self.guide.draw(table, u, within);
            let towards = draw.position - point.start;
            let distance2 = towards.length_squared();
            let direction = towards / distance2.sqrt();
            let cos = -direction.dot(draw.normal);
            if cos <= 1e-5
                || !point.above(direction)
                || self.room.tracer.blocked(point.start, draw.position, 1e-4)
            {
                continue;
            }
            let mut density = GUIDED as f32 * draw.density;
            if own > 0 {
                density += own as f32 * scatter.density(direction) * cos / distance2;
            }
            let radiance = self.room.leaving(self.source, self.light, draw.patch, -direction);
            total += scatter.response(direction) * radiance * (cos / (distance2 * density));
        }
        total
    }

    /// What one direction drawn from the surface itself finds: flat patches, shared with the table, and
    /// the gloss of people. What people send to a matt surface comes from [`BodyLight`].
    fn by_itself(
        &self,
        table: Option<&GroupTable>,
        point: &SurfacePoint,
        scatter: &Scatter,
        index: usize,
        steer: &mut Steer,
    ) -> Spectrum {
        let direction = scatter.sample(steer.own(index));
        if !point.above(direction) {
            return Spectrum::ZERO;
        }
        let Some(hit) = self.room.tracer.closest(point.start, direction) else {
            return Spectrum::ZERO;
        };
        let own = OWN as f32 * scatter.density(direction);
        if own <= 0.0 {
            return Spectrum::ZERO;
        }
        let geometry = &self.room.geometry;
        let far = SurfacePoint::new(geometry, &hit, point.start, direction);
        let patch = self.room.patches.at(geometry, far.triangle, far.position);
        if self.room.patches.list[patch as usize].rectangle.is_none() {
            let gloss = scatter.coat_response(direction);
            if gloss <= 0.0 {
                return Spectrum::ZERO;
            }
            return self.body_radiance(&far, hit.distance, patch, &mut steer.later) * (gloss / own);
        }
        let cos = -direction.dot(far.flat);
        let front = geometry.flat_normal(far.triangle).dot(far.flat) > 0.0;
        if cos <= 1e-5 || !front {
            return Spectrum::ZERO;
        }
        let guided = table.map_or(0.0, |table| {
            GUIDED as f32 * self.guide.density(table, patch) * hit.distance * hit.distance / cos
        });
        let radiance = self.room.leaving(self.source, self.light, patch, -direction);
        scatter.response(direction) * radiance * (1.0 / (own + guided))
    }
}

/// What a point shines with itself towards the camera. Light from all round has no visible source.
fn own_glow(room: &Room, source: &Source, point: &SurfacePoint, out: Vec3) -> Spectrum {
    if matches!(source, Source::AllRound) {
        return Spectrum::ZERO;
    }
    let object = room.geometry.object[point.triangle as usize] as usize;
    source.emission(object, room.geometry.objects[object].kind, out)
}

/// Light straight from the flash or the sun.
#[inline]
fn scatter_straight(
    room: &Room,
    source: &Source,
    point: &SurfacePoint,
    scatter: &Scatter,
    within: [f32; 2],
) -> Spectrum {
    source
        .straight(&room.geometry, &room.tracer, point, within)
        .map_or(Spectrum::ZERO, |light| {
            scatter.response(light.direction) * (light.intensity / light.distance2)
        })
}

/// Edge of the squares of pixels that are tried together; each pixel has one ray of the trial.
const TRIAL: usize = 2;
/// How much smaller the variance is than that of as many unrelated rays, about.
const EVENNESS: f32 = 0.5;
/// Passes in which what is judged should get to the error that is asked for. Two are the fewest from
/// which an error can be told.
const PLANNED_PASSES: f32 = 2.0;
/// Rays are not planned for a smaller error than this, so that a pass stays short.
const FINEST_PLAN: f32 = 0.01;
/// The error for which rays are planned when none is asked for: a rendering that somebody else ends needs
/// short passes that it can be ended between.
const OPEN_PLAN: f32 = 0.04;
/// How much larger the error may be where the picture is not judged.
const REST: f32 = 2.5;
/// Most rays of a pixel in a pass.
const MOST_RAYS: f32 = 1024.0;

impl Solved<'_> {
    /// Camera rays of every pixel in a pass: many where the light differs within the pixel or is hard to
    /// find, few where it is even. A trial tells, whose rays are used for nothing else: a number of rays
    /// that knew the values it averages would favour some of them.
    ///
    /// For a mean square error at the least cost, the rays of a pixel go with its standard deviation.
    fn rays(&self, lens: &Lens, size: [usize; 2], survey: &Survey, error: f32, seed: u64) -> Vec<u16> {
        let deviations = self.trial(lens, size, seed.wrapping_add(0x7e57));
        let plan = |judged: bool, error: f32| {
            let (mut sum, mut count) = (0.0f64, 0);
            for (deviation, _) in deviations
                .iter()
                .zip(&survey.judged)
                .filter(|(_, j)| **j == judged)
            {
                sum += f64::from(*deviation);
                count += 1;
            }
            let mean = sum as f32 / count.max(1) as f32;
            EVENNESS * mean / (PLANNED_PASSES * error * error)
        };
        let error = if error > 0.0 {
            error.max(FINEST_PLAN)
        } else {
            OPEN_PLAN
        };
        let [rest, judged] = [plan(false, REST * error), plan(true, error)];
        deviations
            .iter()
            .zip(&survey.judged)
            .map(|(deviation, &is_judged)| {
                let per_deviation = if is_judged { judged } else { rest };
                (deviation * per_deviation).round().clamp(1.0, MOST_RAYS) as u16
            })
            .collect()
    }

    /// Standard deviation of a ray of every pixel, relative to the pixel.
    fn trial(&self, lens: &Lens, [width, height]: [usize; 2], seed: u64) -> Vec<f32> {
        let bodies = self.body_light(lens, [width, height], seed, 0);
        let (columns, rows) = (width.div_ceil(TRIAL), height.div_ceil(TRIAL));
        let squares: Vec<[f32; 2]> = (0..columns * rows)
            .into_par_iter()
            .map(|square| {
                let mut steer = Steer::new(seed, square as u64, 0, 1);
                let corner = Vec2::new((square % columns) as f32, (square / columns) as f32) * TRIAL as f32;
                let (mut sum, mut squares) = (0.0, 0.0);
                for ray in 0..TRIAL * TRIAL {
                    let within = Vec2::new((ray % TRIAL) as f32, (ray / TRIAL) as f32);
                    let at = corner + within + Vec2::from(steer.in_pixel());
                    let value = self.pixel(lens, at, bodies.as_ref(), &mut steer).mean();
                    sum += value;
                    squares += value * value;
                    steer.turn += 1;
                }
                let n = (TRIAL * TRIAL) as f32;
                let mean = sum / n;
                [mean, (squares - mean * sum).max(0.0) / (n - 1.0)]
            })
            .collect();
        let average = squares.iter().map(|[mean, _]| mean).sum::<f32>() / squares.len().max(1) as f32;
        (0..width * height)
            .map(|pixel| {
                let (x, y) = (pixel % width / TRIAL, pixel / width / TRIAL);
                let (mut mean, mut variance, mut weights) = (0.0, 0.0, 0.0);
                for v in y.saturating_sub(1)..(y + 2).min(rows) {
                    for u in x.saturating_sub(1)..(x + 2).min(columns) {
                        let weight = if (u, v) == (x, y) { 4.0 } else { 1.0 };
                        let [m, s] = squares[v * columns + u];
                        mean += weight * m;
                        variance += weight * s;
                        weights += weight;
                    }
                }
                // Nearly black pixels are not worth more rays than dark ones.
                (variance / weights).sqrt() / (mean / weights + 0.05 * average).max(1e-30)
            })
            .collect()
    }
}

/// What people send to surfaces: faint and smooth, so it is gathered at a coarse grid of places of the
/// picture and read between them. Every pass has its own grid and its own rays, so that the grid does not
/// show and the noise falls with the passes.
struct BodyLight {
    columns: usize,
    /// Pixels from one place to the next.
    spacing: f32,
    /// Where the first place lies, in pixels.
    corner: Vec2,
    places: Vec<Option<Place>>,
}

/// One place of the grid.
struct Place {
    position: Vec3,
    normal: Vec3,
    irradiance: Spectrum,
    /// How far from the place its irradiance is still true, in metres.
    valid: f32,
}

/// About how many places a picture has.
const PLACES: f32 = 5_000.0;
/// What the places that a point is read from must weigh together.
const ENOUGH: f32 = 0.05;
/// A place's irradiance is true within this share of the harmonic mean distance of what it sees (Ward,
/// Rubinstein & Clear 1988; the share is ours).
const VALID: f32 = 0.3;
/// Rays of a place in every pass, on people and elsewhere; square numbers.
const RAYS_PEOPLE: usize = 36;
const RAYS_REST: usize = 9;

impl BodyLight {
    /// The irradiance between the places around a point of the picture; `None` where too little of what
    /// they see lies on the same surface and near enough.
    #[inline]
    fn at(&self, at: Vec2, point: &SurfacePoint, footprint: f32) -> Option<Spectrum> {
        let local = (at - self.corner) / self.spacing;
        let low = local.floor();
        let share = local - low;
        let first = low.y as usize * self.columns + low.x as usize;
        let reach = 0.5 * self.spacing * footprint;
        let (mut sum, mut weights) = (Spectrum::ZERO, 0.0);
        for (place, weight) in [
            (first, (1.0 - share.x) * (1.0 - share.y)),
            (first + 1, share.x * (1.0 - share.y)),
            (first + self.columns, (1.0 - share.x) * share.y),
            (first + self.columns + 1, share.x * share.y),
        ] {
            let Some(Some(place)) = self.places.get(place) else {
                continue;
            };
            let apart = point.position - place.position;
            let height = apart.dot(place.normal).abs().max(apart.dot(point.normal).abs());
            let alike = 2.0 * place.normal.dot(point.normal) - 1.0;
            if height > reach || alike <= 0.0 || apart.length_squared() > place.valid * place.valid {
                continue;
            }
            sum += place.irradiance * (weight * alike);
            weights += weight * alike;
        }
        (weights > ENOUGH).then(|| sum * (1.0 / weights))
    }
}

impl Solved<'_> {
    fn body_light(
        &self,
        lens: &Lens,
        [width, height]: [usize; 2],
        seed: u64,
        pass: u32,
    ) -> Option<BodyLight> {
        if !self.people {
            return None;
        }
        let mut start = Rng::new(seed.wrapping_add(0x5eed), u64::from(pass));
        let seed = seed.wrapping_add(0x6a7e_0000 + u64::from(pass));
        let spacing = ((width * height) as f32 / PLACES).sqrt().max(1.0);
        let corner = -spacing * Vec2::from(start.pair());
        let columns = (width as f32 / spacing).ceil() as usize + 2;
        let rows = (height as f32 / spacing).ceil() as usize + 2;
        let places = (0..columns * rows)
            .into_par_iter()
            .map(|place| {
                let at = corner + spacing * Vec2::new((place % columns) as f32, (place / columns) as f32);
                self.place(lens, at, &mut Rng::new(seed, place as u64))
            })
            .collect();
        Some(BodyLight {
            columns,
            spacing,
            corner,
            places,
        })
    }

    /// What people send to what the picture shows at a place.
    fn place(&self, lens: &Lens, at: Vec2, rng: &mut Rng) -> Option<Place> {
        let geometry = &self.room.geometry;
        let direction = lens.direction(at);
        let hit = self.room.tracer.closest(lens.origin, direction)?;
        let point = SurfacePoint::new(geometry, &hit, lens.origin, direction);
        let object = geometry.object[point.triangle as usize] as usize;
        let rays = match geometry.objects[object].rectangle {
            None => RAYS_PEOPLE,
            Some(_) => RAYS_REST,
        };
        let (irradiance, around) = self.body_irradiance(&point, rays, rng);
        Some(Place {
            position: point.position,
            normal: point.normal,
            irradiance,
            valid: VALID * around,
        })
    }

    /// Irradiance that people send to a point, from this many directions, and the harmonic mean distance of
    /// what these meet of people.
    fn body_irradiance(&self, point: &SurfacePoint, rays: usize, rng: &mut Rng) -> (Spectrum, f32) {
        let side = (rays as f32).sqrt() as usize;
        let (tangent, bitangent) = point.normal.any_orthonormal_pair();
        let (mut sum, mut nearness) = (Spectrum::ZERO, 0.0);
        for ray in 0..rays {
            let local = cosine_direction(stratified(ray, side, rays, rng));
            let direction = tangent * local.x + bitangent * local.y + point.normal * local.z;
            if !point.above(direction) {
                continue;
            }
            let Some(hit) = self.room.tracer.closest(point.start, direction) else {
                continue;
            };
            let object = self.room.geometry.object[hit.triangle as usize] as usize;
            if self.room.geometry.objects[object].rectangle.is_some() {
                continue;
            }
            let far = SurfacePoint::new(&self.room.geometry, &hit, point.start, direction);
            let patch = self
                .room
                .patches
                .at(&self.room.geometry, far.triangle, far.position);
            sum += self.body_radiance(&far, hit.distance, patch, rng);
            nearness += 1.0 / hit.distance.max(1e-3);
        }
        (sum * (PI / rays as f32), rays as f32 / nearness.max(1e-3))
    }
}

/// How near a person's surface must be for its patch to be too coarse to stand for it, in metres.
const NEAR: f32 = 0.40;

impl Solved<'_> {
    /// Radiance of a person's surface towards another point. Far away its patch stands for it; near by the
    /// flash on it is worked out exactly. Gloss is spread evenly in both: what skin mirrors onto other skin
    /// is faint, and as a sharp reflection it would only ever be found by rare, bright specks.
    fn body_radiance(&self, point: &SurfacePoint, distance: f32, patch: u32, rng: &mut Rng) -> Spectrum {
        let near = distance <= NEAR;
        let mut irradiance = if near {
            onward(self.room, self.source, self.light, point, rng)
        } else {
            self.light.indirect[patch as usize]
        };
        let direct = if near {
            straight_irradiance(self.room, self.source, point, rng)
        } else {
            self.light.direct[patch as usize]
        };
        irradiance += Spectrum::splat(direct);
        // The patch's own reflectance would mix skin and cloth where they share a cube.
        hemispherical_reflectance(point.reflectance, point.coat) * irradiance * (1.0 / PI)
    }
}

/// Irradiance of a point by way of other surfaces, from one direction drawn by the cosine: in a fold of the
/// neck it is far below what the whole patch receives.
fn onward(
    room: &Room,
    source: &Source,
    light: &SolvedLight,
    point: &SurfacePoint,
    rng: &mut Rng,
) -> Spectrum {
    let local = cosine_direction(rng.pair());
    let (tangent, bitangent) = point.normal.any_orthonormal_pair();
    let direction = tangent * local.x + bitangent * local.y + point.normal * local.z;
    if !point.above(direction) {
        return Spectrum::ZERO;
    }
    let Some(hit) = room.tracer.closest(point.start, direction) else {
        return Spectrum::ZERO;
    };
    let far = SurfacePoint::new(&room.geometry, &hit, point.start, direction);
    let patch = room.patches.at(&room.geometry, far.triangle, far.position);
    room.leaving(source, light, patch, -direction) * PI
}

/// Irradiance straight from the flash, in lx s at full power, or from the sun in lx.
fn straight_irradiance(room: &Room, source: &Source, point: &SurfacePoint, rng: &mut Rng) -> f32 {
    if matches!(source, Source::Glowing(_) | Source::AllRound) {
        return 0.0;
    }
    source
        .straight(&room.geometry, &room.tracer, point, rng.pair())
        .map_or(0.0, |light| {
            light.intensity * point.normal.dot(light.direction) / light.distance2
        })
}
