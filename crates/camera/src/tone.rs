//! The tone curve: how recorded values become displayed ones.

use crate::focal_plane::{self, RAW_CLIP};

/// How linear values are brought to the display.
///
/// The portrait curve is ours. On a value v (1 = perfect white lit as metered):
///
/// * below mid-grey m = 0.18 a slight toe, v·(1 − 0.15·(1 − v/m)²), so that black cloth looks black;
/// * from mid-grey to the shoulder at k = 0.7 the value as it is, so that a grey card stays at 118 and the modelling of
///   a face is not touched;
/// * above, 1 − (1 − k)·(1 − x/p)^p with x = (v − k)/(1 − k) and p = (1.404 − k)/(1 − k): it leaves the straight part
///   with slope 1 and arrives level at white just where the sensor clips. A perfect white lands at 0.918, code 246.
///
/// It is smooth (no corner), rises everywhere and never exceeds 1.
///
/// A curve on each channel alone turns bright skin yellow, because red bends first and green catches up. So the curve is
/// applied to the largest channel and the others keep their proportion to it, which keeps the hue. Such a highlight would
/// look like coloured plastic, so above the shoulder all channels are drawn towards their largest, up to half way at the
/// point of clipping: it pales without turning.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum ToneCurve {
    /// Slight toe and soft shoulder.
    #[default]
    Portrait,
    /// Values as recorded, cut off at 1.
    Linear,
}

const MID_GREY: f32 = focal_plane::MID_GREY as f32;
const TOE: f32 = 0.15;
pub(crate) const SHOULDER: f32 = 0.7;
pub(crate) const WHITE: f32 = RAW_CLIP as f32;
pub(crate) const PALING: f32 = 0.5;

impl ToneCurve {
    /// The curve on one value; 0 for negative ones.
    ///
    /// ```
    /// use camera::ToneCurve;
    /// assert_eq!(ToneCurve::Portrait.on_value(0.18), 0.18);
    /// assert!((ToneCurve::Portrait.on_value(1.0) - 0.9185).abs() < 1e-4);
    /// assert_eq!(ToneCurve::Linear.on_value(1.2), 1.0);
    /// ```
    #[inline]
    pub fn on_value(self, value: f32) -> f32 {
        let value = value.max(0.0);
        if self == Self::Linear {
            return value.min(1.0);
        }
        if value < MID_GREY {
            let below = 1.0 - value / MID_GREY;
            value * (1.0 - TOE * below * below)
        } else if value <= SHOULDER {
            value
        } else {
            const POWER: f32 = (WHITE - SHOULDER) / (1.0 - SHOULDER);
            let left = 1.0 - ((value - SHOULDER) / (WHITE - SHOULDER)).min(1.0);
            1.0 - (1.0 - SHOULDER) * left.powf(POWER)
        }
    }

    /// The curve on a colour in balanced linear sRGB; the result lies within 0 to 1.
    #[inline]
    pub fn on_colour(self, colour: [f32; 3]) -> [f32; 3] {
        let largest = colour[0].max(colour[1]).max(colour[2]);
        if self == Self::Linear || largest <= 0.0 {
            return colour.map(|value| value.clamp(0.0, 1.0));
        }
        let shown = self.on_value(largest);
        let scale = shown / largest;
        let over = ((largest - SHOULDER) / (WHITE - SHOULDER)).clamp(0.0, 1.0);
        let paling = PALING * over * over;
        colour.map(|value| {
            let kept = (value * scale).max(0.0);
            kept + paling * (shown - kept)
        })
    }
}
