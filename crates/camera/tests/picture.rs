//! Development: what a picture must do whatever it shows.

use camera::{Development, LayerLight, Picture, RAW_CLIP, Settings, ToneCurve, develop, illuminance_of};
use colour::{LightColour, LinearSrgb, Spectrum, WhiteBalance};
use std::f64::consts::PI;
use transport::Layer;
use units::{Duv, Kelvin};

fn settings() -> Settings {
    Settings {
        aperture: "f/5.6".parse().expect("an aperture"),
        shutter: "1/60".parse().expect("a shutter time"),
        iso: "ISO 400".parse().expect("a sensitivity"),
    }
}

fn kelvin(value: f64) -> Kelvin {
    Kelvin::new(value).expect("a colour temperature")
}

fn balance(value: f64, duv: f64) -> WhiteBalance {
    WhiteBalance {
        kelvin: kelvin(value),
        tint: Duv(duv),
    }
}

fn balanced_for(light: &LightColour) -> WhiteBalance {
    WhiteBalance::for_light(light.white()).expect("a light with a temperature")
}

/// A layer of patches in a row, each a radiance per lux of the source: reflectance over π.
fn cards(reflectances: &[Spectrum]) -> Layer {
    Layer {
        width: reflectances.len(),
        height: 1,
        pixels: reflectances.iter().map(|r| *r * (1.0 / PI) as f32).collect(),
    }
}

fn grey(reflectance: f32) -> Spectrum {
    Spectrum::splat(reflectance)
}

/// The dose in lux seconds that these settings call exact.
fn exact_dose() -> f64 {
    (illuminance_of(settings().ev()) * settings().shutter).value()
}

fn shown(lights: &[(&Layer, &LightColour, f64)], balance: WhiteBalance, curve: ToneCurve) -> Picture {
    let lights: Vec<LayerLight> = lights
        .iter()
        .map(|&(layer, colour, exposures)| LayerLight {
            layer,
            colour,
            dose: exposures * exact_dose(),
        })
        .collect();
    develop(&lights, &settings(), &Development { balance, curve })
}

fn assert_near(found: [f32; 3], expected: [f32; 3], tolerance: f32) {
    for (a, b) in found.into_iter().zip(expected) {
        assert!(
            (a - b).abs() <= tolerance,
            "found {found:?}, expected {expected:?}"
        );
    }
}

#[test]
fn a_grey_card_lit_as_metered_is_118_under_every_light_it_is_balanced_for() {
    let layer = cards(&[grey(0.18)]);
    let mut lights: Vec<LightColour> = ["A", "D50", "D65", "FL2", "LED-B1"]
        .iter()
        .map(|name| LightColour::illuminant(name).expect("an illuminant"))
        .collect();
    lights.push(LightColour::flash(kelvin(5600.0)).expect("a flash"));
    lights.push(LightColour::with_duv(kelvin(4000.0), Duv(0.010)).expect("a lamp"));
    for light in &lights {
        for curve in [ToneCurve::Portrait, ToneCurve::Linear] {
            let picture = shown(&[(&layer, light, 1.0)], balanced_for(light), curve);
            assert_near(picture.at(0, 0), [0.18; 3], 2e-4);
            assert_eq!(picture.srgb8(), [118, 118, 118]);
        }
    }
}

#[test]
fn white_is_one_and_settings_count_in_stops() {
    let layer = cards(&[grey(1.0)]);
    let light = LightColour::illuminant("D65").expect("D65");
    let development = Development {
        balance: balanced_for(&light),
        curve: ToneCurve::Linear,
    };
    let value = |settings: Settings, dose: f64| {
        let light = LayerLight {
            layer: &layer,
            colour: &light,
            dose,
        };
        develop(&[light], &settings, &development).at(0, 0)[1]
    };
    let base = settings();
    assert!((value(base, exact_dose()) - 1.0).abs() < 1e-4);
    let closed = Settings {
        aperture: "f/8".parse().expect("an aperture"),
        ..base
    };
    assert!((value(closed, exact_dose()) - 0.5).abs() < 1e-4);
    let slower = Settings {
        iso: "ISO 100".parse().expect("a sensitivity"),
        ..base
    };
    assert!((value(slower, exact_dose()) - 0.25).abs() < 1e-4);
    // The shutter is in the dose already.
    let longer = Settings {
        shutter: "1/30".parse().expect("a shutter time"),
        ..base
    };
    assert_eq!(value(longer, exact_dose()), value(base, exact_dose()));
}

/// A skin-like reflectance, rising towards red.
fn skin() -> Spectrum {
    Spectrum::from_fn(|band| 0.22 + 0.03 * band as f32)
}

#[test]
fn twice_the_dose_is_twice_the_value() {
    let layer = cards(&[grey(0.05), skin(), grey(0.3)]);
    let light = LightColour::planck(kelvin(3000.0));
    let one = shown(
        &[(&layer, &light, 0.6)],
        balance(4000.0, 0.002),
        ToneCurve::Linear,
    );
    let two = shown(
        &[(&layer, &light, 1.2)],
        balance(4000.0, 0.002),
        ToneCurve::Linear,
    );
    for (one, two) in one.linear.iter().zip(&two.linear) {
        assert_near(*two, one.map(|value| 2.0 * value), 1e-5);
    }
}

#[test]
fn layers_add() {
    let (key, fill) = (cards(&[grey(0.1), skin()]), cards(&[skin(), grey(0.2)]));
    let flash = LightColour::flash(kelvin(5600.0)).expect("a flash");
    let lamp = LightColour::planck(kelvin(2800.0));
    let white = balance(4500.0, 0.0);
    let both = shown(
        &[(&key, &flash, 0.7), (&fill, &lamp, 0.5)],
        white,
        ToneCurve::Linear,
    );
    let flash = shown(&[(&key, &flash, 0.7)], white, ToneCurve::Linear);
    let lamp = shown(&[(&fill, &lamp, 0.5)], white, ToneCurve::Linear);
    for (k, both) in both.linear.iter().enumerate() {
        let sum = std::array::from_fn(|c| flash.linear[k][c] + lamp.linear[k][c]);
        assert_near(*both, sum, 1e-5);
    }
}

#[test]
fn a_layer_without_light_changes_nothing_and_no_layer_is_no_picture() {
    let layer = cards(&[skin()]);
    let light = LightColour::illuminant("D50").expect("D50");
    let white = balanced_for(&light);
    let one = shown(&[(&layer, &light, 1.0)], white, ToneCurve::Portrait);
    let with_dark = shown(
        &[(&layer, &light, 1.0), (&layer, &light, 0.0)],
        white,
        ToneCurve::Portrait,
    );
    assert_eq!(one, with_dark);
    let none = shown(&[], white, ToneCurve::Portrait);
    assert_eq!((none.width, none.height, none.srgb8().len()), (0, 0, 0));
    assert_eq!(none.clipped_share(), 0.0);
}

#[test]
fn the_sensor_clips_at_1404_thousandths() {
    let light = LightColour::illuminant("D65").expect("D65");
    let layer = cards(&[
        grey(0.5),
        grey(RAW_CLIP as f32 * 0.999),
        grey(RAW_CLIP as f32 * 1.001),
        grey(9.0),
    ]);
    let picture = shown(&[(&layer, &light, 1.0)], balanced_for(&light), ToneCurve::Linear);
    assert_eq!(picture.raw_clipped, [false, false, true, true]);
    assert_eq!(picture.clipped_share(), 0.5);
    // However bright, white stays neutral.
    assert_near(picture.at(3, 0), [RAW_CLIP as f32; 3], 1e-3);
}

#[test]
fn bright_white_stays_neutral_under_warm_light_too() {
    let light = LightColour::planck(kelvin(2800.0));
    let layer = cards(&[grey(2.0), grey(4.0), grey(30.0)]);
    let picture = shown(
        &[(&layer, &light, 1.0)],
        balanced_for(&light),
        ToneCurve::Portrait,
    );
    for [r, g, b] in &picture.linear {
        assert!(
            *r > 1.0 && (r - g).abs() < 1e-3 && (g - b).abs() < 1e-3,
            "{r} {g} {b}"
        );
    }
}

#[test]
fn balance_moves_the_white_the_right_way() {
    let light = LightColour::planck(kelvin(4000.0));
    let layer = cards(&[grey(0.5)]);
    let value = |kelvin: f64, duv: f64| {
        shown(&[(&layer, &light, 1.0)], balance(kelvin, duv), ToneCurve::Linear).at(0, 0)
    };
    // A camera set for daylight shows a warm lamp warm; set for a candle, blue.
    let [r, _, b] = value(6000.0, 0.0);
    assert!(r > b + 0.1);
    let [r, _, b] = value(2500.0, 0.0);
    assert!(b > r + 0.1);
    // A camera set for a green lamp makes a lamp on the locus pink.
    let [r, g, b] = value(4000.0, 0.01);
    assert!(g < r && g < b);
    assert_near(value(4000.0, 0.0), [0.5; 3], 1e-3);
}

#[test]
fn colours_come_out_as_the_colour_crate_says() {
    let light = LightColour::illuminant("A").expect("A");
    let white = balanced_for(&light);
    let layer = cards(&[skin()]);
    let found = shown(&[(&layer, &light, 0.8)], white, ToneCurve::Linear).at(0, 0);
    let expected = LinearSrgb::from_xyz(white.to_d65().apply(light.xyz(&skin()))).0;
    assert_near(found, expected.map(|value| 0.8 * value as f32), 1e-5);
}

#[test]
fn the_portrait_curve_is_smooth_and_rises() {
    let curve = ToneCurve::Portrait;
    let step = 1e-3f64;
    let values: Vec<f64> = (0..1700)
        .map(|k| f64::from(curve.on_value((f64::from(k) * step) as f32)))
        .collect();
    let slopes: Vec<f64> = values.windows(2).map(|pair| (pair[1] - pair[0]) / step).collect();
    for (k, slope) in slopes.iter().enumerate() {
        let at = k as f64 * step;
        assert!(*slope >= 0.0 && (at > 1.403 || *slope > 0.0), "falls at {at}");
        assert!(*slope < 1.2, "steep at {at}");
    }
    // No corner: the strongest bend is at black, 0.6/0.18 = 3.3 per unit, so 0.0033 over a step; single precision adds
    // a few ten-thousandths.
    for (k, pair) in slopes.windows(2).enumerate() {
        assert!((pair[1] - pair[0]).abs() < 4e-3, "corner at {}", k as f64 * step);
    }
    assert_eq!(curve.on_value(RAW_CLIP as f32), 1.0);
    assert_eq!(curve.on_value(0.0), 0.0);
    assert!(values.iter().all(|value| *value <= 1.0));
}

#[test]
fn between_grey_and_shoulder_nothing_is_touched_and_the_toe_is_slight() {
    for value in [0.18, 0.25, 0.36, 0.5, 0.7] {
        assert_eq!(ToneCurve::Portrait.on_value(value), value);
        assert_eq!(ToneCurve::Portrait.on_colour([value; 3]), [value; 3]);
    }
    let dark = ToneCurve::Portrait.on_value(0.03);
    assert!((0.025..0.03).contains(&dark));
}

/// Direction of a colour around the grey axis, in degrees; red is 0, yellow 60.
fn hue([r, g, b]: [f32; 3]) -> f32 {
    (3f32.sqrt() * (g - b)).atan2(2.0 * r - g - b).to_degrees()
}

#[test]
fn bright_skin_pales_without_turning_yellow() {
    for exposure in [1.0f32, 1.3, 1.6, 1.9] {
        let skin = [0.72, 0.5, 0.4].map(|value| value * exposure);
        let found = ToneCurve::Portrait.on_colour(skin);
        assert!((hue(found) - hue(skin)).abs() < 0.1, "{exposure}");
        let purity = |c: [f32; 3]| 1.0 - c[2] / c[0];
        assert!(purity(found) <= purity(skin) + 1e-6);
    }
    // The same curve on each channel would turn it by many times as much.
    let skin = [1.37, 0.95, 0.76];
    let turned = skin.map(|value| ToneCurve::Portrait.on_value(value));
    assert!(hue(turned) - hue(skin) > 5.0);
}

#[test]
fn more_light_never_darkens_a_channel() {
    for colour in [
        [1.0, 0.7, 0.55],
        [0.2, 0.3, 1.0],
        [1.0, 0.05, 0.0],
        [0.4, 1.0, 0.9],
    ] {
        let mut last = [0.0f32; 3];
        for k in 0..600 {
            let light = k as f32 * 0.0025;
            let found = ToneCurve::Portrait.on_colour(colour.map(|value| value * light));
            for (now, before) in found.iter().zip(last) {
                assert!(*now >= before - 1e-6 && *now <= 1.0, "{colour:?} at {light}");
            }
            last = found;
        }
    }
}

#[test]
fn codes_agree_with_the_exact_encoding() {
    let reflectances: Vec<Spectrum> = (0..1000).map(|k| grey(k as f32 * 1.2e-3)).collect();
    let layer = cards(&reflectances);
    let light = LightColour::illuminant("D65").expect("D65");
    let picture = shown(
        &[(&layer, &light, 1.0)],
        balanced_for(&light),
        ToneCurve::Portrait,
    );
    let mut differing = 0;
    for (bytes, pixel) in picture.srgb8().chunks(3).zip(&picture.linear) {
        let exact = LinearSrgb(picture.curve.on_colour(*pixel).map(f64::from)).to_srgb8();
        for (byte, exact) in bytes.iter().zip(exact) {
            assert!(byte.abs_diff(exact) <= 1);
            differing += usize::from(*byte != exact);
        }
    }
    // Only values next to the border of two codes may fall on the other side.
    assert!(differing < 60, "{differing} of 3000");
}

#[test]
fn the_plain_curve_cuts_at_one() {
    assert_eq!(ToneCurve::Linear.on_colour([1.3, 0.5, -0.1]), [1.0, 0.5, 0.0]);
}

#[test]
fn a_perfect_white_lands_at_246() {
    let light = LightColour::illuminant("D65").expect("D65");
    let picture = shown(
        &[(&cards(&[grey(1.0)]), &light, 1.0)],
        balanced_for(&light),
        ToneCurve::Portrait,
    );
    assert_eq!(picture.srgb8(), [246; 3]);
}

#[test]
fn even_an_impossible_balance_gives_a_picture() {
    let light = LightColour::illuminant("D65").expect("D65");
    let layer = cards(&[grey(0.5)]);
    for (value, duv) in [(1000.0, 0.1), (1000.0, -0.1), (100_000.0, 0.1), (100_000.0, -0.1)] {
        let picture = shown(&[(&layer, &light, 1.0)], balance(value, duv), ToneCurve::Portrait);
        assert!(
            picture.at(0, 0).iter().all(|channel| channel.is_finite()),
            "{value} K {duv}"
        );
    }
}

#[test]
fn what_the_sensor_loses_does_not_depend_on_the_balance() {
    let light = LightColour::planck(kelvin(3200.0));
    let layer = cards(&(0..60).map(|k| grey(0.05 * k as f32)).collect::<Vec<_>>());
    let lost =
        |value: f64| shown(&[(&layer, &light, 1.0)], balance(value, 0.0), ToneCurve::Linear).raw_clipped;
    assert_eq!(lost(3200.0), lost(6500.0));
    assert!(lost(3200.0).contains(&true) && lost(3200.0).contains(&false));
}

#[test]
#[should_panic(expected = "layers of one picture")]
fn layers_of_different_sizes_are_a_mistake() {
    let light = LightColour::illuminant("D65").expect("D65");
    let (one, two) = (cards(&[grey(0.1)]), cards(&[grey(0.1); 2]));
    shown(
        &[(&one, &light, 1.0), (&two, &light, 1.0)],
        balanced_for(&light),
        ToneCurve::Linear,
    );
}
