//! The numbers of a development, for programs that weigh layers anew without this crate: a display at its own rate.
//!
//! Everything here is what [`crate::develop`] uses itself, laid open: what the sensor's channels make of each band, what
//! a white balance does to them, and the tone curve in samples.

use crate::focal_plane::RAW_CLIP;
use crate::picture::{Converter, raw_weights};
use crate::tone::{PALING, SHOULDER, WHITE};
use crate::{RawLayer, ToneCurve};
use colour::{BANDS, LightColour, WhiteBalance};

/// Red, green and blue of the sensor for a unit of radiance in each band under a light: what turns a pixel of a layer
/// into the channels of a [`RawLayer`] at a dose of 1; times [`crate::speed_of`] they are those of a picture.
pub fn sensor_weights(colour: &LightColour) -> [[f32; BANDS]; 3] {
    let weights = raw_weights(colour, 1.0);
    std::array::from_fn(|channel| std::array::from_fn(|band| weights[band][channel]))
}

/// What a white balance does to the sensor's channels.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct BalanceNumbers {
    /// What each channel is multiplied by.
    pub multipliers: [f32; 3],
    /// Where the multiplied channels are cut.
    pub cut: f32,
    /// From cut channels to linear sRGB, rows first.
    pub to_srgb: [[f32; 3]; 3],
}

impl BalanceNumbers {
    /// For a balance.
    pub fn new(balance: &WhiteBalance) -> Self {
        let converter = Converter::new(balance);
        BalanceNumbers {
            multipliers: converter.multipliers,
            cut: converter.neutral_clip,
            to_srgb: converter.to_srgb,
        }
    }
}

/// A tone curve in samples.
#[derive(Clone, Debug, PartialEq)]
pub struct CurveNumbers {
    /// The value of the last sample; the first is at 0 and all stand evenly.
    pub top: f32,
    /// The curve on the largest channel.
    pub values: Vec<f32>,
    /// From where to where the channels are drawn towards the largest one, and how far at most.
    pub paling: [f32; 3],
}

impl CurveNumbers {
    /// The portrait curve in this many samples, at least two.
    ///
    /// ```
    /// use camera::CurveNumbers;
    /// let curve = CurveNumbers::portrait(1025);
    /// assert_eq!(curve.values.first(), Some(&0.0));
    /// assert_eq!(curve.values.last(), Some(&1.0));
    /// ```
    pub fn portrait(samples: usize) -> Self {
        let last = samples.max(2) - 1;
        let values = (0..=last)
            .map(|index| ToneCurve::Portrait.on_value(WHITE * index as f32 / last as f32))
            .collect();
        CurveNumbers {
            top: WHITE,
            values,
            paling: [SHOULDER, WHITE, PALING],
        }
    }
}

/// The value at which a channel of the sensor is at its limit.
pub const SENSOR_LIMIT: f64 = RAW_CLIP;

impl RawLayer {
    /// A layer from the sensor's channels, row by row from the top left; `None` unless there are as many as the sides
    /// say.
    pub fn of_channels(width: usize, height: usize, pixels: Vec<[f32; 3]>) -> Option<Self> {
        (pixels.len() == width * height).then_some(RawLayer {
            width,
            height,
            pixels,
        })
    }

    /// The sensor's channels, row by row from the top left.
    pub fn channels(&self) -> &[[f32; 3]] {
        &self.pixels
    }
}
