//! Numbers by seed: the same seed draws the same shoot on every machine.

/// A generator that needs one number of state (SplitMix64: Steele, Lea and Flood 2014, figure 17).
pub struct Dice(u64);

impl Dice {
    /// Dice of a seed; neighbouring seeds have nothing in common.
    pub fn new(seed: u64) -> Self {
        Dice(seed.wrapping_mul(0x9e37_79b9_7f4a_7c15) ^ 0x5eed_a0d1)
    }

    fn next(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let z = (self.0 ^ (self.0 >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        let z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        z ^ (z >> 31)
    }

    fn unit(&mut self) -> f64 {
        (self.next() >> 11) as f64 / (1u64 << 53) as f64
    }

    /// Between two bounds, in whole steps from the lower one: what a tape measure or a dial gives.
    pub fn steps(&mut self, low: f64, high: f64, step: f64) -> f64 {
        let count = ((high - low) / step + 1e-9).floor() + 1.0;
        let step_back = 1.0 / step;
        let value = low + (self.unit() * count).floor() * step;
        (value * step_back).round() / step_back
    }

    /// True so often.
    pub fn chance(&mut self, share: f64) -> bool {
        self.unit() < share
    }

    /// One of several.
    pub fn pick<T: Copy>(&mut self, from: &[T]) -> T {
        from[((self.unit() * from.len() as f64) as usize).min(from.len() - 1)]
    }

    /// One of several, so often; nothing otherwise.
    pub fn perhaps<T: Copy>(&mut self, share: f64, from: &[T]) -> Option<T> {
        let drawn = self.pick(from);
        self.chance(share).then_some(drawn)
    }
}

#[test]
fn steps_stay_within_their_bounds() {
    let mut dice = Dice::new(7);
    for _ in 0..1000 {
        let value = dice.steps(0.4, 1.2, 0.05);
        assert!((0.4 - 1e-9..=1.2 + 1e-9).contains(&value), "{value}");
    }
}
