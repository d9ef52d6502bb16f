//! Layers kept as what the sensor's three channels make of them, for developing again and again.

use crate::Settings;
use crate::picture::{Development, Picture, accumulate, develop_rows, raw_weights, speed_of};
use colour::LightColour;
use rayon::prelude::*;
use transport::Layer;

/// A layer under one colour of light, reduced to the sensor's channels for a dose of 1.
///
/// As long as the colour of a light stays, power, shutter, aperture, speed and balance only weigh and convert
/// these three numbers, instead of a number for every band.
#[derive(Clone, Debug, PartialEq)]
pub struct RawLayer {
    pub(crate) width: usize,
    pub(crate) height: usize,
    pub(crate) pixels: Vec<[f32; 3]>,
}

impl RawLayer {
    /// Reduces a layer under a light.
    ///
    /// # Panics
    /// If the layer has not as many pixels as its sides say.
    pub fn new(layer: &Layer, colour: &LightColour) -> Self {
        assert_eq!(layer.pixels.len(), layer.width * layer.height, "a layer is full");
        let weights = raw_weights(colour, 1.0);
        let mut pixels = vec![[0.0f32; 3]; layer.pixels.len()];
        let row = layer.width.max(1);
        pixels
            .par_chunks_mut(row)
            .zip(layer.pixels.par_chunks(row))
            .for_each(|(raw, seen)| {
                for (raw, seen) in raw.iter_mut().zip(seen) {
                    let mut sum = [0.0f32; 4];
                    accumulate(&mut sum, seen, &weights);
                    *raw = [sum[0], sum[1], sum[2]];
                }
            });
        RawLayer {
            width: layer.width,
            height: layer.height,
            pixels,
        }
    }

    /// Pixels across.
    pub fn width(&self) -> usize {
        self.width
    }

    /// Pixels down.
    pub fn height(&self) -> usize {
        self.height
    }
}

/// Develops a picture from reduced layers, each with its dose, as [`crate::develop`] does from whole ones: the two
/// differ by rounding only.
///
/// # Panics
/// If the layers differ in size.
pub fn develop_raw(layers: &[(&RawLayer, f64)], settings: &Settings, development: &Development) -> Picture {
    let (width, height) = layers.first().map_or((0, 0), |(l, _)| (l.width, l.height));
    for (layer, _) in layers {
        assert_eq!(
            (layer.width, layer.height),
            (width, height),
            "layers of one picture"
        );
    }
    let speed = speed_of(settings);
    let lights: Vec<(&[[f32; 3]], f32)> = layers
        .iter()
        .map(|(layer, dose)| (layer.pixels.as_slice(), (speed * dose) as f32))
        .collect();
    develop_rows(width, height, development, |y, pixels| {
        let from = y * width;
        for (layer, weight) in &lights {
            // All channels in one run, so that the processor's vectors are full.
            let raw = layer[from..from + width].as_flattened();
            for (sum, raw) in pixels.as_flattened_mut().iter_mut().zip(raw) {
                *sum += raw * weight;
            }
        }
    })
}
