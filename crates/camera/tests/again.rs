//! Developing again from reduced layers: the same picture, and controls that act linearly.

use camera::{Development, LayerLight, Picture, RawLayer, Settings, ToneCurve, develop, develop_raw};
use colour::{LightColour, Spectrum, WhiteBalance};
use transport::Layer;
use units::{Duv, Kelvin};

fn kelvin(value: f64) -> Kelvin {
    Kelvin::new(value).expect("a colour temperature")
}

fn settings() -> Settings {
    Settings {
        aperture: "f/4".parse().expect("an aperture"),
        shutter: "1/200".parse().expect("a shutter time"),
        iso: "ISO 100".parse().expect("a sensitivity"),
    }
}

fn linear() -> Development {
    Development {
        balance: WhiteBalance {
            kelvin: kelvin(4500.0),
            tint: Duv(0.002),
        },
        curve: ToneCurve::Linear,
    }
}

fn layer(tilt: f32) -> Layer {
    let pixel = |i: usize| {
        let value = 0.02 * (1 + i % 7) as f32;
        Spectrum(std::array::from_fn(|band| value * (1.0 + tilt * band as f32)))
    };
    Layer {
        width: 7,
        height: 5,
        pixels: (0..35).map(pixel).collect(),
    }
}

fn flash_and_sky() -> [(Layer, LightColour); 2] {
    [
        (layer(0.03), LightColour::flash(kelvin(5600.0)).expect("a flash")),
        (layer(-0.02), LightColour::planck(kelvin(9000.0))),
    ]
}

fn reduced() -> [RawLayer; 2] {
    flash_and_sky().map(|(layer, colour)| RawLayer::new(&layer, &colour))
}

/// Both lights with their doses in cd s m⁻².
fn pictured(doses: [f64; 2], settings: &Settings) -> Picture {
    let [flash, sky] = reduced();
    develop_raw(&[(&flash, doses[0]), (&sky, doses[1])], settings, &linear())
}

/// That every channel of every pixel of `b` is `factor` times that of `a`.
fn assert_scaled(a: &Picture, b: &Picture, factor: f32) {
    for (a, b) in a.linear.iter().flatten().zip(b.linear.iter().flatten()) {
        assert!(
            (a * factor - b).abs() < 1e-5 * (1.0 + b.abs()),
            "{a} times {factor} is not {b}"
        );
    }
}

#[test]
fn reduced_layers_develop_to_the_same_picture() {
    let lights = flash_and_sky();
    let doses = [120.0, 40.0];
    let whole: Vec<LayerLight> = lights
        .iter()
        .zip(doses)
        .map(|((layer, colour), dose)| LayerLight { layer, colour, dose })
        .collect();
    let direct = develop(&whole, &settings(), &linear());
    let again = pictured(doses, &settings());
    // Some of it is over the clip and some is not, or this test would prove little.
    let clipped = direct.raw_clipped.iter().filter(|&&clipped| clipped).count();
    assert!(
        clipped > 0 && clipped < direct.raw_clipped.len(),
        "{clipped} clipped"
    );
    assert_eq!(direct.raw_clipped, again.raw_clipped);
    assert_scaled(&direct, &again, 1.0);
    for (a, b) in direct.srgb8().into_iter().zip(again.srgb8()) {
        assert!(a.abs_diff(b) <= 1, "{a} and {b}");
    }
}

#[test]
fn power_moves_the_flash_and_shutter_moves_the_sky() {
    let flash = pictured([20.0, 0.0], &settings());
    let sky = pictured([0.0, 10.0], &settings());
    let both = pictured([20.0, 10.0], &settings());
    for ((f, s), b) in flash.linear.iter().zip(&sky.linear).zip(&both.linear) {
        for k in 0..3 {
            assert!((f[k] + s[k] - b[k]).abs() < 1e-5, "amounts add");
        }
    }
    // One stop of power, and two stops of shutter, each with the other light off.
    assert_scaled(&flash, &pictured([10.0, 0.0], &settings()), 0.5);
    assert_scaled(&sky, &pictured([0.0, 40.0], &settings()), 4.0);
}

#[test]
fn speed_and_aperture_move_both_alike() {
    let base = pictured([10.0, 5.0], &settings());
    let faster = Settings {
        iso: "ISO 200".parse().expect("a sensitivity"),
        ..settings()
    };
    assert_scaled(&base, &pictured([10.0, 5.0], &faster), 2.0);
    let closed = Settings {
        aperture: "f/8".parse().expect("an aperture"),
        ..settings()
    };
    assert_scaled(&base, &pictured([10.0, 5.0], &closed), 0.25);
}
