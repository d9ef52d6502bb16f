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

mod body_light;
mod first_look;
mod lit_room;
mod plan;
mod solved;
mod steer;

use crate::denoise::{Halves, Shows, filtered};
use crate::guide::Guide;
use crate::layer::Layer;
use crate::referee::{Referee, camera_path};
use crate::room::{Room, SolvedLight};
use crate::source::Source;
use body_light::BodyLight;
use colour::Spectrum;
use first_look::{FirstLook, Lens};
use glam::Vec2;
use plan::error_of;
use rayon::prelude::*;
use scene::Viewpoint;
use solved::Solved;
use steer::Steer;

/// How much smaller the noise of a picture is behind the filter, about; rays are planned for that (ours, measured on the demo).
const FILTER_GAIN: f32 = 4.0;

/// The worst pixels of a filtered picture do not count for its error, as a part of all: single ones at lashes and at the roots of
/// hair have no neighbour like themselves, and their noise is not seen (ours).
const LEFT_OUT: f64 = 0.05;

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
    /// Most passes over the picture; there is always one.
    pub most_passes: usize,
    /// Stop when the estimated relative error of the skin's pixels (root mean square, behind the filter without the worst
    /// twentieth) is below this; where
    /// no skin is seen, that of people, or of everything. The proof also plans its rays for this error, so
    /// that a rough picture is soon there. Zero leaves the end to the passes or to the caller.
    pub error: f32,
    /// Leave the noise in: no filter goes over the picture, and `error` is that of the bare rays.
    pub plain: bool,
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
    canvas: &'a Canvas,
}

impl Glance<'_> {
    /// The picture as it is now.
    pub fn layer(&self) -> Layer {
        self.canvas.layer(self.canvas.finished())
    }
}

/// A picture while it is painted.
struct Canvas {
    width: usize,
    /// The sums of two halves of the passes. They share no random number, so their difference tells the error without a
    /// reference.
    halves: Halves,
    passes: usize,
    /// What the pixels show, which guides the filter; nothing where there is none.
    shows: Vec<Shows>,
    /// Which pixels the error is judged by.
    judged: Vec<bool>,
}

impl Canvas {
    /// The halves as they are now, each the mean of its passes and without its noise where a filter is wanted.
    fn finished(&self) -> Halves {
        let second = self.passes / 2;
        let means = [self.passes - second, second].map(|passes| 1.0 / passes.max(1) as f32);
        let mut halves = self.halves.clone();
        for (half, mean) in halves.iter_mut().zip(means) {
            half.par_iter_mut().for_each(|pixel| *pixel *= mean);
        }
        match self.shows.is_empty() || self.passes < 2 {
            true => halves,
            false => filtered(&halves, &self.shows, self.width),
        }
    }

    /// The picture of two finished halves.
    fn layer(&self, [first, second]: Halves) -> Layer {
        let weight = (self.passes / 2) as f32 / self.passes.max(1) as f32;
        let pixels = first.into_iter().zip(second);
        Layer {
            width: self.width,
            height: self.judged.len() / self.width.max(1),
            pixels: pixels.map(|(a, b)| a * (1.0 - weight) + b * weight).collect(),
        }
    }

    fn error(&self, finished: &Halves) -> Option<f32> {
        let levels = [0, 1].map(|half| finished[half].iter().map(Spectrum::mean).collect());
        let left_out = if self.shows.is_empty() { 0.0 } else { LEFT_OUT };
        error_of(&levels, &self.judged, left_out)
    }
}

/// After how many passes a filtered picture is looked at next: about when it should be good enough, for the filter costs as
/// much as a pass.
fn next_look(passes: usize, error: f32, wanted: f32) -> usize {
    let wanted = (passes as f32 * (error / wanted).powi(2)).min(1e6) as usize;
    let next = wanted.clamp(passes + 2, 2 * passes);
    next + next % 2
}

/// A finished layer with what it cost.
#[derive(Clone, Debug)]
pub struct Rendered {
    /// The picture.
    pub layer: Layer,
    /// Passes and error reached.
    pub progress: Progress,
}

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
    let first_look = FirstLook::new(room, &lens, size);
    let painter = match method {
        Method::Solved => Painter::Solved(Solved::new(room, source, light, &first_look)),
        Method::Referee => Painter::Referee(Guide::new(room, &light.radiosity)),
    };
    let planned = match effort.plain {
        true => effort.error,
        false => effort.error * FILTER_GAIN,
    };
    let rays = painter.rays(&lens, size, &first_look, planned, seed);
    let blank = || vec![Spectrum::ZERO; width * height];
    let mut canvas = Canvas {
        width,
        halves: [blank(), blank()],
        passes: 0,
        shows: match effort.plain {
            true => Vec::new(),
            false => first_look::shown(room, &lens, size, seed),
        },
        judged: first_look.judged.clone(),
    };
    let mut progress = Progress {
        passes: 0,
        error: None,
    };
    let mut look = 2;
    loop {
        let pass = progress.passes as u32;
        let brush = painter.brush(room, source, &lens, size, seed, pass);
        let paint = |x: usize, y: usize| {
            let place = y * width + x;
            let mut steer = Steer::new(seed, place as u64, pass, u32::from(rays[place]));
            brush.mean(&lens, Vec2::new(x as f32, y as f32), rays[place], &mut steer)
        };
        add_pass(&mut canvas.halves[progress.passes % 2], width, paint);
        progress.passes += 1;
        canvas.passes = progress.passes;
        let mut finished = None;
        if progress.passes == look {
            let halves = canvas.finished();
            progress.error = canvas.error(&halves);
            finished = Some(halves);
            look = match progress.error {
                Some(error) if !effort.plain => next_look(look, error, effort.error),
                _ => look + 2,
            };
        }
        let done = progress.error.is_some_and(|e| e <= effort.error);
        let glance = Glance {
            progress,
            canvas: &canvas,
        };
        if !go_on(&glance) || done || progress.passes >= effort.most_passes {
            let finished = finished.unwrap_or_else(|| canvas.finished());
            return Rendered {
                layer: canvas.layer(finished),
                progress,
            };
        }
    }
}

/// Adds what every pixel gets in a pass to the half that the pass belongs to.
fn add_pass(half: &mut [Spectrum], width: usize, paint: impl Fn(usize, usize) -> Spectrum + Sync) {
    half.par_chunks_mut(width).enumerate().for_each(|(y, row)| {
        for (x, pixel) in row.iter_mut().enumerate() {
            *pixel += paint(x, y);
        }
    });
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
    fn rays(&self, lens: &Lens, size: [usize; 2], first_look: &FirstLook, error: f32, seed: u64) -> Vec<u16> {
        match self {
            Painter::Solved(solved) => solved.rays(lens, size, first_look, error, seed),
            Painter::Referee(_) => vec![1; size[0] * size[1]],
        }
    }
}

impl Brush<'_> {
    /// Mean radiance of a pixel over its rays of a pass; `corner` is the pixel's own.
    fn mean(&self, lens: &Lens, corner: Vec2, rays: u16, steer: &mut Steer) -> Spectrum {
        let mut sum = Spectrum::ZERO;
        for _ in 0..rays {
            let at = corner + Vec2::from(steer.in_pixel());
            sum += self.pixel(lens, at, steer);
            steer.turn += 1;
        }
        sum * (1.0 / f32::from(rays))
    }

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
