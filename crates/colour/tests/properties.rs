//! What must hold for every colour.

use colour::{
    ColourError, LightColour, Reflectance, SkinTone, SpectralCurve, Spectrum, WhiteBalance, cct_duv, skin,
    upsample,
};
use proptest::prelude::*;
use units::{Duv, Kelvin};

fn kelvin(value: f64) -> Kelvin {
    Kelvin::new(value).expect("a temperature")
}

fn check_triple(triple: [f64; 3]) {
    let reflectance =
        upsample::reflectance_from_linear_srgb(triple).unwrap_or_else(|error| panic!("{error}"));
    let back = upsample::linear_srgb_of(reflectance.spectrum());
    for (found, wanted) in back.into_iter().zip(triple) {
        assert!((found - wanted).abs() < 1e-3, "{triple:?} came back as {back:?}");
    }
    assert!(reflectance.spectrum().min() >= 0.0 && reflectance.spectrum().max() <= 1.0);
}

#[test]
fn the_whole_cube_of_colours_has_reflectances() {
    for r in 0..=8 {
        for g in 0..=8 {
            for b in 0..=8 {
                check_triple([r, g, b].map(|part| f64::from(part) / 8.0));
            }
        }
    }
}

#[test]
fn dark_saturated_colours_too() {
    for triple in [
        [0.25, 0.03, 0.03],
        [0.003, 0.001, 0.02],
        [0.0, 0.002, 0.0],
        [1e-4, 0.0, 0.0],
    ] {
        check_triple(triple);
    }
}

#[test]
fn greys_are_flat() {
    for step in 0..=20 {
        let value = f64::from(step) / 20.0;
        let grey = upsample::reflectance_from_linear_srgb([value; 3]).expect("a grey");
        assert_eq!(*grey.spectrum(), Spectrum::splat(value as f32));
    }
}

#[test]
fn nearly_grey_is_nearly_flat() {
    let spectrum = *upsample::reflectance_from_linear_srgb([0.5, 0.5, 0.501])
        .expect("near grey")
        .spectrum();
    assert!(spectrum.max() - spectrum.min() < 0.01);
}

#[test]
fn impossible_colours_are_refused_by_their_part() {
    for (triple, part) in [
        ([1.2, 0.5, 0.5], "red"),
        ([0.5, -0.1, 0.5], "green"),
        ([0.5, 0.5, f64::NAN], "blue"),
    ] {
        let message = upsample::reflectance_from_linear_srgb(triple)
            .expect_err("impossible")
            .to_string();
        assert!(message.contains(part), "{message}");
    }
}

#[test]
fn eight_bit_pictures_give_reflectances() {
    let skin = upsample::reflectance_from_srgb8([198, 167, 150]).expect("a skin colour");
    let daylight = LightColour::illuminant("D65").expect("built in");
    assert!((skin.luminous(&daylight) - 0.4186).abs() < 0.01);
}

#[test]
fn flashes_have_their_temperature_and_a_touch_of_green() {
    for temperature in [4500.0, 5000.0, 5600.0, 6000.0, 6500.0, 7500.0] {
        let (found, duv) = LightColour::flash(kelvin(temperature))
            .expect("a flash")
            .cct_duv()
            .expect("white");
        assert!(
            (found.value() / temperature - 1.0).abs() < 0.002,
            "{temperature}: {found}"
        );
        assert!((0.002..0.003).contains(&duv.value()), "{temperature}: {duv}");
    }
    assert_eq!(
        LightColour::flash(kelvin(3000.0)),
        Err(ColourError::OutsideDaylight(3000.0))
    );
}

#[test]
fn lamps_meet_their_temperature_and_duv() {
    for temperature in [2200.0, 2700.0, 3000.0, 4000.0, 5000.0, 6500.0] {
        for duv in [-0.02, -0.006, 0.0, 0.003, 0.010] {
            let lamp = LightColour::with_duv(kelvin(temperature), Duv(duv)).expect("a lamp");
            let (found, found_duv) = lamp.cct_duv().expect("white");
            assert!(
                (found.value() / temperature - 1.0).abs() < 5e-4,
                "{temperature} K, {duv}: {found}"
            );
            assert!(
                (found_duv.value() - duv).abs() < 2e-5,
                "{temperature} K, {duv}: {found_duv}"
            );
            assert!(lamp.bands.min() > 0.0);
        }
    }
    // This point lies outside the spectral locus: x + y is more than 1.
    assert!(LightColour::with_duv(kelvin(2200.0), Duv(0.015)).is_err());
    assert!(LightColour::with_duv(kelvin(4000.0), Duv(0.3)).is_err());
    assert!(LightColour::with_duv(kelvin(4000.0), Duv(f64::NAN)).is_err());
}

#[test]
fn luminous_weights_add_up_to_one() {
    for name in colour::illuminant_names() {
        let light = LightColour::illuminant(name).expect("built in");
        assert!((light.luminous_weights().sum() - 1.0).abs() < 1e-5, "{name}");
        assert!((light.white().y - 1.0).abs() < 1e-5, "{name}");
    }
}

#[test]
fn what_is_no_light_is_refused() {
    let curve = |values: [f64; 2]| SpectralCurve::new(vec![380.0, 780.0], values.to_vec()).expect("a curve");
    assert_eq!(
        LightColour::from_curve(&curve([0.0, 0.0])),
        Err(ColourError::NoLight)
    );
    assert_eq!(
        LightColour::from_curve(&curve([1.0, -0.1])),
        Err(ColourError::NoLight)
    );
    assert_eq!(LightColour::illuminant("D66"), None);
}

#[test]
fn far_from_white_there_is_no_temperature() {
    for (x, y) in [(0.7, 0.29), (0.1, 0.8), (0.15, 0.05), (f64::NAN, 0.3)] {
        assert_eq!(cct_duv(colour::Chromaticity::new(x, y)), None, "{x} {y}");
    }
}

#[test]
fn a_light_is_neutral_under_the_balance_made_for_it() {
    for name in ["A", "FL2", "D55", "LED-B3"] {
        let light = LightColour::illuminant(name).expect("built in");
        let balance = WhiteBalance::for_light(light.white()).expect("white");
        let shown = balance.to_d65().apply(light.xyz(&Spectrum::splat(0.5)));
        let rgb = colour::LinearSrgb::from_xyz(shown).0;
        assert!(
            rgb.iter().all(|part| (part - 0.5).abs() < 1e-3),
            "{name}: {rgb:?}"
        );
    }
}

#[test]
fn skin_darkens_in_order_and_dark_skin_has_the_stated_lightness() {
    let lightness = SkinTone::ALL.map(|tone| skin::lab_under_d65(&tone.curve()).l);
    assert!(
        lightness.windows(2).all(|pair| pair[0] > pair[1]),
        "{lightness:?}"
    );
    assert!((lightness[5] - 35.0).abs() < 0.01);
    assert_eq!(
        SkinTone::of(skin::lab_under_d65(&SkinTone::Dark.curve())),
        SkinTone::Dark
    );
}

#[test]
fn skin_tones_are_read_by_name() {
    for tone in SkinTone::ALL {
        assert_eq!(tone.name().parse(), Ok(tone));
    }
    assert_eq!("Very-Light".parse(), Ok(SkinTone::VeryLight));
    let message = "pale".parse::<SkinTone>().expect_err("no such class").to_string();
    assert!(
        message.contains("very light, light, intermediate, tan, brown, dark"),
        "{message}"
    );
}

#[test]
fn skin_of_any_lightness() {
    let daylight = LightColour::illuminant("D65").expect("built in");
    for lightness in [22.0, 30.0, 35.0, 43.0, 52.0, 60.0, 66.0, 70.0, 74.0, 78.0] {
        let seen = daylight.xyz(skin::with_lightness(lightness).expect("skin").spectrum());
        let found = seen.to_lab(daylight.white());
        assert!((found.l - lightness).abs() < 0.3, "{lightness}: {found:?}");
        // Skin is never blue or green.
        assert!(found.a > 4.0 && found.b > 6.0, "{found:?}");
    }
    assert!(skin::with_lightness(90.0).is_err());
    assert!(skin::with_lightness(f64::NAN).is_err());
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn any_triple_comes_back(triple in [0.0..=1.0f64, 0.0..=1.0, 0.0..=1.0]) {
        check_triple(triple);
    }

    #[test]
    fn temperature_and_duv_find_the_point_they_name(temperature in 1100.0..40_000.0f64, duv in -0.02..0.02f64) {
        let white = WhiteBalance { kelvin: kelvin(temperature), tint: Duv(duv) }.white();
        let (found, found_duv) = cct_duv(white.chromaticity().expect("light")).expect("near white");
        prop_assert!((found.value() / temperature - 1.0).abs() < 1e-4, "{temperature} {duv}: {found}");
        prop_assert!((found_duv.value() - duv).abs() < 1e-6, "{temperature} {duv}: {found_duv}");
    }

    #[test]
    fn reflectances_outside_0_to_1_are_refused(band in 0..16usize, value in prop_oneof![-5.0..-0.001f32, 1.001..5.0f32]) {
        let spectrum = Spectrum::from_fn(|b| if b == band { value } else { 0.5 });
        prop_assert_eq!(Reflectance::new(spectrum), Err(ColourError::NotAReflectance { band, value }));
    }

    #[test]
    fn seeing_is_linear(a in 0.0..1.0f32, b in 0.0..1.0f32) {
        let light = LightColour::illuminant("FL11").expect("built in");
        let first = *SkinTone::Tan.reflectance().spectrum() * a;
        let second = Spectrum::splat(b);
        let together = light.xyz(&(first + second));
        let apart = light.xyz(&first) + light.xyz(&second);
        prop_assert!((together.x - apart.x).abs() < 1e-6 && (together.z - apart.z).abs() < 1e-6);
    }
}
