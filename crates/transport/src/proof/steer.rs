//! The numbers that steer the rays of a picture: evenly spread, and fixed by the seed.

use crate::kronecker::{STEP_1, STEP_2, STEP_3, step};
use crate::rng::Rng;

/// Directions drawn from the tables for every camera ray.
pub(super) const GUIDED: usize = 2;
/// Directions drawn from the surface itself where that is needed.
pub(super) const OWN: usize = 1;

/// The numbers that steer the rays of one pixel in one pass.
///
/// Each dimension is a Kronecker sequence, started at random per pixel: neighbours are independent, while the passes
/// of a pixel fill the gaps that earlier ones left. Even and odd passes have a sequence each.
pub(super) struct Steer {
    /// Which ray of the pixel this is, among those of all passes of its half.
    pub(super) turn: u32,
    lens: [f32; 2],
    window: [f32; 2],
    patch: [f32; 1],
    within: [f32; 2],
    own: [f32; 3],
    /// For what comes after the first surface.
    pub(super) later: Rng,
}

impl Steer {
    pub(super) fn new(seed: u64, pixel: u64, pass: u32, rays: u32) -> Self {
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
    pub(super) fn in_pixel(&self) -> [f32; 2] {
        step(self.lens, STEP_2, self.turn)
    }

    /// Which point of the flash's window this pass uses.
    #[inline]
    pub(super) fn in_window(&self) -> [f32; 2] {
        step(self.window, STEP_2, self.turn)
    }

    /// The numbers of the `index`-th point drawn from a table: which patch, and where on it.
    #[inline]
    pub(super) fn guided(&self, index: usize) -> (f32, [f32; 2]) {
        let index = self.turn * GUIDED as u32 + index as u32;
        (
            step(self.patch, STEP_1, index)[0],
            step(self.within, STEP_2, index),
        )
    }

    /// The numbers of the `index`-th direction drawn from the surface itself.
    #[inline]
    pub(super) fn own(&self, index: usize) -> [f32; 3] {
        step(self.own, STEP_3, self.turn * OWN as u32 + index as u32)
    }
}
