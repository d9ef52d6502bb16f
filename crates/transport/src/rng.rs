//! Random numbers whose seed is always an argument.

use rand_pcg::Pcg32;
use rand_pcg::rand_core::Rng as _;

/// A small random sequence, fixed by a seed and the place where it is used.
pub(crate) struct Rng(Pcg32);

impl Rng {
    /// The sequence of a seed at a place (pixel, patch, receiver); different places never share one.
    #[inline]
    pub(crate) fn new(seed: u64, place: u64) -> Self {
        let mut rng = Pcg32::new(mix(seed ^ mix(place)), mix(place.wrapping_add(seed)));
        rng.next_u32();
        Rng(rng)
    }

    /// A number in 0..1.
    #[inline]
    pub(crate) fn unit(&mut self) -> f32 {
        (self.0.next_u32() >> 8) as f32 * (1.0 / 16_777_216.0)
    }

    /// Two numbers in 0..1.
    #[inline]
    pub(crate) fn pair(&mut self) -> [f32; 2] {
        [self.unit(), self.unit()]
    }
}

/// Scrambles 64 bits (the finaliser of SplitMix64: Steele, Lea & Flood 2014).
#[inline]
fn mix(mut x: u64) -> u64 {
    x = (x ^ (x >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
    x = (x ^ (x >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
    x ^ (x >> 31)
}

/// The `index`-th of `count` points: one in each cell of a `side` × `side` grid, plain beyond it.
#[inline]
pub(crate) fn stratified(index: usize, side: usize, count: usize, rng: &mut Rng) -> [f32; 2] {
    let [a, b] = rng.pair();
    if index < side * side && side * side <= count {
        let step = 1.0 / side as f32;
        [
            ((index % side) as f32 + a) * step,
            ((index / side) as f32 + b) * step,
        ]
    } else {
        [a, b]
    }
}
