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
    let rays = painter.rays(&lens, size, &first_look, effort.error, seed);
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
        let brush = painter.brush(room, source, &lens, size, seed, pass);
        let paint = |x: usize, y: usize| {
            let place = y * width + x;
            let mut steer = Steer::new(seed, place as u64, pass, u32::from(rays[place]));
            brush.mean(&lens, Vec2::new(x as f32, y as f32), rays[place], &mut steer)
        };
        add_pass(&mut sum, &mut halves[progress.passes % 2], width, paint);
        progress.passes += 1;
        if progress.passes.is_multiple_of(2) {
            progress.error = error_of(&halves, &first_look.judged, progress.passes);
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

/// Adds what every pixel gets in a pass to the picture, and its mean over the bands to the half that the pass belongs
/// to.
fn add_pass(
    sum: &mut [Spectrum],
    half: &mut [f32],
    width: usize,
    paint: impl Fn(usize, usize) -> Spectrum + Sync,
) {
    sum.par_chunks_mut(width)
        .zip(half.par_chunks_mut(width))
        .enumerate()
        .for_each(|(y, (row, means))| {
            for (x, (pixel, mean)) in row.iter_mut().zip(means).enumerate() {
                let value = paint(x, y);
                *pixel += value;
                *mean += value.mean();
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
