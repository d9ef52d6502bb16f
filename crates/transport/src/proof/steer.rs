//! The numbers that steer the rays of a picture: evenly spread, and fixed by the seed.

use super::{GUIDED, OWN};
use crate::rng::Rng;

/// The numbers that steer the rays of one pixel in one pass.
///
/// Each dimension is a Kronecker sequence (steps from the generalised golden ratio, Roberts 2018, so that
/// pairs and triples spread evenly), started at random per pixel: neighbours are independent, while the
/// passes of a pixel fill the gaps that earlier ones left. Even and odd passes have a sequence each.
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

/// Powers of the inverse generalised golden ratio for one, two and three dimensions.
const STEP_1: [f64; 1] = [0.618_033_988_749_895];
pub(crate) const STEP_2: [f64; 2] = [0.754_877_666_246_693, 0.569_840_290_998_053];
const STEP_3: [f64; 3] = [
    0.819_172_513_396_164,
    0.671_043_606_703_789,
    0.549_700_477_901_970,
];

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

/// The `index`-th member of a Kronecker sequence with this start.
#[inline]
pub(crate) fn step<const N: usize>(start: [f32; N], steps: [f64; N], index: u32) -> [f32; N] {
    std::array::from_fn(|i| {
        let value = (f64::from(start[i]) + steps[i] * f64::from(index)).fract();
        (value as f32).min(0.999_999_9)
    })
}
