//! The picture of a scene under one source at unit strength: a layer.
//!
//! The proof looks from every pixel at the surfaces and asks the solved room what shines on them: the
//! flash directly, every patch through the guide's tables, and whatever the surface's own scattering
//! finds, weighed by the balance heuristic. Light that has bounced more than once comes from the solved
//! patches, which is why a bounced face is clean in seconds; the small bias that this brings is measured
//! against the referee (see the tests and `benches/`). [`Method::Referee`] renders the same picture
//! without that shortcut.

use crate::guide::Guide;
use crate::referee::{Referee, camera_path};
use crate::rng::Rng;
use crate::room::{Room, SolvedLight};
use crate::scatter::{Scatter, cosine_direction, hemispherical_reflectance};
use crate::source::{PlacedFlash, Source};
use crate::surface::SurfacePoint;
use colour::Spectrum;
use glam::{Vec2, Vec3};
use rayon::prelude::*;
use scene::Viewpoint;
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
    /// Stop when the estimated relative error of the skin's pixels (root mean square) is below this.
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

/// A finished layer with what it cost.
#[derive(Clone, Debug)]
pub struct Rendered {
    /// The picture.
    pub layer: Layer,
    /// Passes and error reached.
    pub progress: Progress,
}

/// Directions drawn from the guide and from the surface itself, per pixel and pass.
const GUIDED: usize = 4;
const OWN: usize = 2;

/// Renders one source. `go_on` hears of every pass and may stop the rendering by returning false.
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
    go_on: &mut dyn FnMut(Progress) -> bool,
) -> Rendered {
    let guide = Guide::new(room, &light.radiosity);
    let [width, height] = size;
    let lens = Lens::new(view, size);
    let referee = Referee::new(room, source, Some(&guide));
    let mut sum = vec![Spectrum::ZERO; width * height];
    // The two halves of the passes give an estimate of the error without a reference.
    let mut halves = [vec![0.0f32; width * height], vec![0.0f32; width * height]];
    let skin = skin_mask(room, &lens, size);
    let mut progress = Progress {
        passes: 0,
        error: None,
    };
    while progress.passes < effort.most_passes {
        let pass = progress.passes as u32;
        let half = progress.passes % 2;
        sum.par_chunks_mut(width)
            .zip(halves[half].par_chunks_mut(width))
            .enumerate()
            .for_each(|(y, (row, mean))| {
                for (x, (pixel, mean)) in row.iter_mut().zip(mean).enumerate() {
                    let mut steer = Steer::new(seed, (y * width + x) as u64, pass);
                    let direction = lens.direction(Vec2::new(x as f32, y as f32), steer.in_pixel());
                    let value = match method {
                        Method::Solved => {
                            solved_pixel(room, source, light, &guide, lens.origin, direction, &mut steer)
                        }
                        Method::Referee => camera_path(&referee, lens.origin, direction, &mut steer.later),
                    };
                    *pixel += value;
                    *mean += value.mean();
                }
            });
        progress.passes += 1;
        if progress.passes.is_multiple_of(2) {
            progress.error = error_of(&halves, &skin, progress.passes);
        }
        let done = progress.error.is_some_and(|e| e <= effort.error) && progress.passes >= 4;
        if !go_on(progress) || done {
            break;
        }
    }
    let scale = 1.0 / progress.passes.max(1) as f32;
    let pixels = sum.into_iter().map(|s| s * scale).collect();
    Rendered {
        layer: Layer {
            width,
            height,
            pixels,
        },
        progress,
    }
}

/// The numbers that steer one pixel in one pass.
///
/// Each dimension is a Kronecker sequence over the passes (steps from the generalised golden ratio,
/// Roberts 2018, so that pairs and triples spread evenly), started at random per pixel: neighbours are
/// independent, while the passes of a pixel fill the gaps that earlier ones left.
struct Steer {
    pass: u32,
    lens: [f32; 2],
    window: [f32; 2],
    guided: [f32; 3],
    own: [f32; 3],
    /// For what comes after the first surface.
    later: Rng,
}

/// Powers of the inverse generalised golden ratio for two and for three dimensions.
pub(crate) const STEP_2: [f64; 2] = [0.754_877_666_246_693, 0.569_840_290_998_053];
const STEP_3: [f64; 3] = [
    0.819_172_513_396_164,
    0.671_043_606_703_789,
    0.549_700_477_901_970,
];

impl Steer {
    fn new(seed: u64, pixel: u64, pass: u32) -> Self {
        let mut start = Rng::new(seed, pixel);
        let triple = |rng: &mut Rng| [rng.unit(), rng.unit(), rng.unit()];
        Steer {
            pass,
            lens: start.pair(),
            window: start.pair(),
            guided: triple(&mut start),
            own: triple(&mut start),
            later: Rng::new(seed.wrapping_add(1 + u64::from(pass)), pixel),
        }
    }

    /// Where in the pixel this pass looks.
    #[inline]
    fn in_pixel(&self) -> [f32; 2] {
        step(self.lens, STEP_2, self.pass)
    }

    /// Which point of the flash's window this pass uses.
    #[inline]
    fn in_window(&self) -> [f32; 2] {
        step(self.window, STEP_2, self.pass)
    }

    /// The numbers of the `index`-th direction drawn from the guide.
    #[inline]
    fn guided(&self, index: usize) -> [f32; 3] {
        step(self.guided, STEP_3, self.pass * GUIDED as u32 + index as u32)
    }

    /// The numbers of the `index`-th direction drawn from the surface itself.
    #[inline]
    fn own(&self, index: usize) -> [f32; 3] {
        step(self.own, STEP_3, self.pass * OWN as u32 + index as u32)
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

    /// Unit direction through a place in a pixel.
    #[inline]
    fn direction(&self, pixel: Vec2, within: [f32; 2]) -> Vec3 {
        let at = pixel + Vec2::from(within);
        (self.corner + self.step_right * at.x + self.step_down * at.y).normalize()
    }
}

/// Which pixels show skin, by their middles: what must be clean first.
fn skin_mask(room: &Room, lens: &Lens, [width, height]: [usize; 2]) -> Vec<bool> {
    (0..width * height)
        .into_par_iter()
        .map(|index| {
            let pixel = Vec2::new((index % width) as f32, (index / width) as f32);
            let direction = lens.direction(pixel, [0.5, 0.5]);
            room.tracer
                .closest(lens.origin, direction)
                .is_some_and(|hit| room.geometry.material_of(hit.triangle).overlays.is_some())
        })
        .collect()
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

/// Radiance along one camera ray with the solved room.
fn solved_pixel(
    room: &Room,
    source: &Source,
    light: &SolvedLight,
    guide: &Guide,
    origin: Vec3,
    direction: Vec3,
    steer: &mut Steer,
) -> Spectrum {
    let Some(hit) = room.tracer.closest(origin, direction) else {
        return Spectrum::ZERO;
    };
    let point = SurfacePoint::new(&room.geometry, &hit, origin, direction);
    let scatter = Scatter::new(&point, -direction);
    let mut total = own_glow(room, source, &point);
    if let Source::Flash(flash) = source {
        total += scatter_straight(room, flash, &point, &scatter, steer.in_window());
    }
    total + arriving(room, source, light, guide, &point, &scatter, steer)
}

/// What a point shines with itself towards the camera. Light from all round has no visible source.
fn own_glow(room: &Room, source: &Source, point: &SurfacePoint) -> Spectrum {
    if matches!(source, Source::AllRound) {
        return Spectrum::ZERO;
    }
    let object = room.geometry.object[point.triangle as usize] as usize;
    Spectrum::splat(source.glow(object, room.geometry.objects[object].kind))
}

/// Light straight from the flash.
#[inline]
fn scatter_straight(
    room: &Room,
    flash: &PlacedFlash,
    point: &SurfacePoint,
    scatter: &Scatter,
    within: [f32; 2],
) -> Spectrum {
    flash
        .straight(&room.tracer, point, within)
        .map_or(Spectrum::ZERO, |light| {
            scatter.response(light.direction) * (light.intensity / light.distance2)
        })
}

/// Light that arrives by way of other surfaces.
fn arriving(
    room: &Room,
    source: &Source,
    light: &SolvedLight,
    guide: &Guide,
    point: &SurfacePoint,
    scatter: &Scatter,
    steer: &mut Steer,
) -> Spectrum {
    let mut total = Spectrum::ZERO;
    let table = guide.table(room, point);
    if let Some(table) = table {
        for index in 0..GUIDED {
            let [u, s, t] = steer.guided(index);
            let Some(draw) = table.draw(&room.patches, u, [s, t]) else {
                continue;
            };
            let towards = draw.position - point.start;
            let distance2 = towards.length_squared();
            let direction = towards / distance2.sqrt();
            let cos = -direction.dot(draw.normal);
            if cos <= 1e-4 || !point.above(direction) || room.tracer.blocked(point.start, draw.position, 1e-4)
            {
                continue;
            }
            let own = scatter.density(direction) * cos / distance2;
            let density = GUIDED as f32 * draw.density + OWN as f32 * own;
            let radiance = light.radiosity[draw.patch as usize] * (1.0 / PI);
            total += scatter.response(direction) * radiance * (cos / (distance2 * density));
        }
    }
    for index in 0..OWN {
        let direction = scatter.sample(steer.own(index));
        if !point.above(direction) {
            continue;
        }
        let Some(hit) = room.tracer.closest(point.start, direction) else {
            continue;
        };
        let far = SurfacePoint::new(&room.geometry, &hit, point.start, direction);
        let own = scatter.density(direction);
        let patch = room.patches.at(&room.geometry, far.triangle, far.position);
        let cos = -direction.dot(far.flat);
        if own <= 0.0 || cos <= 1e-6 {
            continue;
        }
        let flat = room.patches.list[patch as usize].rectangle.is_some();
        let (radiance, guided) = if flat {
            let front = room.geometry.flat_normal(far.triangle).dot(far.flat) > 0.0;
            let radiance = if front {
                light.radiosity[patch as usize] * (1.0 / PI)
            } else {
                Spectrum::ZERO
            };
            (
                radiance,
                table.map_or(0.0, |t| t.density(patch)) * hit.distance * hit.distance / cos,
            )
        } else {
            (
                body_radiance(room, source, light, &far, hit.distance, patch, &mut steer.later),
                0.0,
            )
        };
        total += scatter.response(direction) * radiance * (1.0 / (OWN as f32 * own + GUIDED as f32 * guided));
    }
    total
}

/// How near a person's surface must be for its patch to be too coarse to stand for it, in metres.
const NEAR: f32 = 0.20;

/// Radiance of a person's surface towards another point. Far away its patch stands for it; near by the
/// flash on it is worked out exactly. Gloss is spread evenly in both: what skin mirrors onto other skin
/// is faint, and as a sharp reflection it would only ever be found by rare, bright specks.
fn body_radiance(
    room: &Room,
    source: &Source,
    light: &SolvedLight,
    point: &SurfacePoint,
    distance: f32,
    patch: u32,
    rng: &mut Rng,
) -> Spectrum {
    let near = distance <= NEAR;
    let mut irradiance = if near {
        onward(room, light, point, rng)
    } else {
        light.indirect[patch as usize]
    };
    if let Source::Flash(flash) = source {
        let direct = if near {
            straight_irradiance(room, flash, point, rng.pair())
        } else {
            light.direct[patch as usize]
        };
        irradiance += Spectrum::splat(direct);
    }
    // The patch's own reflectance would mix skin and cloth where they share a cube.
    hemispherical_reflectance(point.reflectance, point.coat) * irradiance * (1.0 / PI)
}

/// Irradiance of a point by way of other surfaces, from one direction drawn by the cosine: in a fold of the
/// neck it is far below what the whole patch receives.
fn onward(room: &Room, light: &SolvedLight, point: &SurfacePoint, rng: &mut Rng) -> Spectrum {
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
    light.radiosity[room.patches.at(&room.geometry, far.triangle, far.position) as usize]
}

/// Irradiance straight from the flash, in lx s at full power.
fn straight_irradiance(room: &Room, flash: &PlacedFlash, point: &SurfacePoint, within: [f32; 2]) -> f32 {
    flash.straight(&room.tracer, point, within).map_or(0.0, |light| {
        light.intensity * point.normal.dot(light.direction) / light.distance2
    })
}
