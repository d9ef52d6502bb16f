//! How long it takes to develop a picture again, from whole layers and from reduced ones.
//!
//! 1000 x 1250 pixels, three lights of 16 bands. The ratio is against developing from whole layers, so it can
//! be compared between machines; the time on the wall depends on how busy they are. One JSON line.

#![allow(clippy::print_stdout, reason = "a benchmark reports on standard output")]

#[path = "../../transport/benches/clock/mod.rs"]
mod clock;

use camera::{Development, LayerLight, Picture, RawLayer, Settings, ToneCurve, develop, develop_raw};
use clock::cpu_seconds;
use colour::{LightColour, Spectrum, WhiteBalance};
use serde_json::json;
use std::time::Instant;
use transport::Layer;
use units::{Duv, Kelvin};

const SIZE: [usize; 2] = [1000, 1250];
const ROUNDS: usize = 20;

/// A layer with every value from black to over the clip, smooth as a picture is.
fn layer(phase: f32) -> Layer {
    let pixel = |i: usize| {
        let (x, y) = ((i % SIZE[0]) as f32, (i / SIZE[0]) as f32);
        let value = 0.5 + 0.5 * (0.01 * x + 0.007 * y + phase).sin();
        Spectrum(std::array::from_fn(|band| value * (0.1 + 0.02 * band as f32)))
    };
    Layer {
        width: SIZE[0],
        height: SIZE[1],
        pixels: (0..SIZE[0] * SIZE[1]).map(pixel).collect(),
    }
}

/// Best time on the wall and mean processor time of a round, in milliseconds.
fn time(mut round: impl FnMut() -> Picture) -> [f64; 2] {
    let mut best = f64::INFINITY;
    let before = cpu_seconds();
    for _ in 0..ROUNDS {
        let started = Instant::now();
        let bytes = round().srgb8();
        std::hint::black_box(&bytes);
        best = best.min(started.elapsed().as_secs_f64());
    }
    [1e3 * best, 1e3 * (cpu_seconds() - before) / ROUNDS as f64]
}

fn main() {
    let kelvin = |value| Kelvin::new(value).expect("a colour temperature");
    let colours = [5600.0, 2900.0, 6500.0].map(|k| LightColour::planck(kelvin(k)));
    let layers = [0.0, 1.0, 2.0].map(layer);
    let settings = Settings {
        aperture: "f/4".parse().expect("an aperture"),
        shutter: "1/200".parse().expect("a shutter time"),
        iso: "ISO 100".parse().expect("a sensitivity"),
    };
    let development = Development {
        balance: WhiteBalance {
            kelvin: kelvin(5000.0),
            tint: Duv(0.0),
        },
        curve: ToneCurve::Portrait,
    };
    let dose = 400.0;
    let lights: Vec<LayerLight> = layers
        .iter()
        .zip(&colours)
        .map(|(layer, colour)| LayerLight { layer, colour, dose })
        .collect();
    let reduced: Vec<RawLayer> = lights.iter().map(|l| RawLayer::new(l.layer, l.colour)).collect();
    let raw: Vec<(&RawLayer, f64)> = reduced.iter().map(|layer| (layer, dose)).collect();
    let whole = time(|| develop(&lights, &settings, &development));
    let again = time(|| develop_raw(&raw, &settings, &development));
    println!(
        "{}",
        json!({
            "pixels": SIZE, "lights": lights.len(),
            "whole_ms": whole[0], "whole_cpu_ms": whole[1],
            "reduced_ms": again[0], "reduced_cpu_ms": again[1],
            "ratio": again[1] / whole[1],
        })
    );
}
