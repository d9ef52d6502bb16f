//! Evenly spread numbers: Kronecker sequences, whose every further member falls into a gap of the earlier ones.
//!
//! Their steps come from the generalised golden ratio (Roberts 2018), so that pairs and triples spread evenly.

/// Powers of the inverse generalised golden ratio for one, two and three dimensions.
pub(crate) const STEP_1: [f64; 1] = [0.618_033_988_749_895];
pub(crate) const STEP_2: [f64; 2] = [0.754_877_666_246_693, 0.569_840_290_998_053];
pub(crate) const STEP_3: [f64; 3] = [
    0.819_172_513_396_164,
    0.671_043_606_703_789,
    0.549_700_477_901_970,
];

/// No member is larger: rounding to single precision could make it one, which lies outside 0..1.
const BELOW_ONE: f32 = 0.999_999_9;

/// The `index`-th member of a Kronecker sequence with this start.
#[inline]
pub(crate) fn step<const N: usize>(start: [f32; N], steps: [f64; N], index: u32) -> [f32; N] {
    std::array::from_fn(|i| {
        let value = (f64::from(start[i]) + steps[i] * f64::from(index)).fract();
        (value as f32).min(BELOW_ONE)
    })
}
