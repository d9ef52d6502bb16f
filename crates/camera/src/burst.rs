//! How long a flash shines, and how much of it a short shutter still catches.

use std::f64::consts::LN_2;
use units::Stops;

/// The course of a flash in time, in seconds.
///
/// Durations follow ISO 2827: t0.5, the time above half of the peak, and t0.1, the time above a tenth. The first is what
/// makers print; the second is what freezes a movement.
///
/// ```
/// let burst = camera::Burst::Decay { tau_s: 400e-6 };
/// // The "three times" rule: ln 10 / ln 2.
/// assert!((burst.total_s() / burst.effective_s() - 3.321928).abs() < 1e-6);
/// ```
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Burst {
    /// Full at once, then fading exponentially: a capacitor emptied through a tube.
    Decay {
        /// Time constant.
        tau_s: f64,
    },
    /// A rise that takes a moment: exp(−t/tail) − exp(−t/rise).
    RiseAndDecay {
        /// Time constant of the rise, less than that of the tail.
        rise_s: f64,
        /// Time constant of the tail.
        tail_s: f64,
    },
    /// A decay that is cut off, as battery flashes do at part power.
    Quenched {
        /// Time constant.
        tau_s: f64,
        /// When it is cut off.
        cut_s: f64,
    },
}

impl Burst {
    /// The burst at a fraction of full power, 0 to 1, of a flash whose full burst lasts `full_s`.
    ///
    /// ```
    /// let eighth = camera::Burst::quenched(300e-6, 1800e-6, 0.125);
    /// assert!((eighth.total_s() - 0.1331773479 * 300e-6).abs() < 1e-12);
    /// ```
    pub fn quenched(tau_s: f64, full_s: f64, fraction: f64) -> Self {
        let whole = -(-full_s / tau_s).exp_m1();
        Self::Quenched {
            tau_s,
            cut_s: -tau_s * (-fraction * whole).ln_1p(),
        }
    }

    /// Time above half of the peak in seconds: t0.5, the effective duration.
    pub fn effective_s(&self) -> f64 {
        self.above_s(0.5)
    }

    /// Time above a tenth of the peak in seconds: t0.1, the total duration.
    pub fn total_s(&self) -> f64 {
        self.above_s(0.1)
    }

    /// Time above a level, 0 to 1 of the peak, in seconds.
    pub fn above_s(&self, level: f64) -> f64 {
        match *self {
            Self::Decay { tau_s } => -tau_s * level.ln(),
            Self::Quenched { tau_s, cut_s } => (-tau_s * level.ln()).min(cut_s),
            Self::RiseAndDecay { rise_s, tail_s } => {
                let shape = |t: f64| (-t / tail_s).exp() - (-t / rise_s).exp();
                let peak = (tail_s / rise_s).ln() * tail_s * rise_s / (tail_s - rise_s);
                let wanted = level * shape(peak);
                // The tail alone bounds the burst from above, so by then it has fallen below the level.
                let late = peak.max(-tail_s * wanted.ln()) + tail_s;
                let rising = crossing(0.0, peak, |t| shape(t) > wanted);
                let falling = crossing(peak, late, |t| shape(t) < wanted);
                falling - rising
            }
        }
    }

    /// The part of the light given within so many seconds of the start, 0 to 1.
    pub fn share_within(&self, seconds: f64) -> f64 {
        let gone = |t: f64, tau: f64| -(-t.max(0.0) / tau).exp_m1();
        match *self {
            Self::Decay { tau_s } => gone(seconds, tau_s),
            Self::Quenched { tau_s, cut_s } => gone(seconds.min(cut_s), tau_s) / gone(cut_s, tau_s),
            Self::RiseAndDecay { rise_s, tail_s } => {
                (tail_s * gone(seconds, tail_s) - rise_s * gone(seconds, rise_s)) / (tail_s - rise_s)
            }
        }
    }

    /// Stops lost when the shutter stays open for only so many seconds after the start (positive).
    ///
    /// ```
    /// let loss = camera::Burst::Decay { tau_s: 0.0008 }.loss_within(0.0005);
    /// assert!((loss.value() - 1.105508707).abs() < 1e-9);
    /// ```
    pub fn loss_within(&self, seconds: f64) -> Stops {
        Stops::from_factor(1.0 / self.share_within(seconds))
    }

    /// The plain decay with this t0.5 in seconds.
    pub fn decay_from_effective(effective_s: f64) -> Self {
        Self::Decay {
            tau_s: effective_s / LN_2,
        }
    }
}

/// Where a condition becomes true between two times, by halving to the last digits.
fn crossing(mut before: f64, mut after: f64, holds: impl Fn(f64) -> bool) -> f64 {
    for _ in 0..80 {
        let middle = 0.5 * (before + after);
        if holds(middle) {
            after = middle;
        } else {
            before = middle;
        }
    }
    0.5 * (before + after)
}
