//! Sixteen bands against the 5 nm tables: what colour error do they cost?

use colour::{
    ChromaticTransform, D65_WHITE, LightColour, SkinTone, SpectralCurve, Xyz, delta_e_2000, illuminant_curve,
    illuminant_names, observer_curves, surfaces,
};

/// High-pressure sodium and metal halide: a few lines hold most of their light.
const DISCHARGE: [&str; 2] = ["HP1", "HP5"];

/// Measured skin: class means and the subjects of the check data, and the modelled dark class.
fn skins() -> Vec<SpectralCurve> {
    let path = concat!(env!("CARGO_MANIFEST_DIR"), "/../../checks/skin.json");
    let text = std::fs::read_to_string(path).expect("the check data are readable");
    let data: serde_json::Value = serde_json::from_str(&text).expect("the check data are JSON");
    let cases = data["cases"].as_array().expect("a list of cases");
    let subjects = cases
        .iter()
        .filter_map(|case| case["reflectance_10nm_380_780"].as_array())
        .map(|values| {
            let values = values.iter().filter_map(serde_json::Value::as_f64).collect();
            SpectralCurve::regular(380.0, 10.0, values).expect("a curve")
        });
    let curves: Vec<_> = subjects.chain(SkinTone::ALL.map(SkinTone::curve)).collect();
    assert!(curves.len() > 10);
    curves
}

fn regular(value: impl Fn(f64) -> f64) -> SpectralCurve {
    SpectralCurve::regular(
        360.0,
        5.0,
        (0..95).map(|k| value(360.0 + 5.0 * f64::from(k))).collect(),
    )
    .expect("a curve")
}

/// Smooth paints made up for this test: humps of two widths, and edges as steep as a strong red or yellow pigment.
fn paints() -> Vec<SpectralCurve> {
    let mut paints = Vec::new();
    for step in 0..25 {
        let middle = 415.0 + 12.0 * f64::from(step);
        for width in [30.0, 60.0] {
            paints.push(regular(|nm| {
                0.1 + 0.6 * (-0.5 * ((nm - middle) / width).powi(2)).exp()
            }));
        }
        for sense in [-1.0, 1.0] {
            paints.push(regular(|nm| {
                0.05 + 0.8 / (1.0 + (sense * (nm - middle) / 12.0).exp())
            }));
        }
    }
    paints
}

/// The named surfaces, as smooth curves through their band values.
fn named_surfaces() -> Vec<SpectralCurve> {
    surfaces::NAMES
        .iter()
        .map(|name| {
            let spectrum = *surfaces::named(name).expect("a known surface").spectrum();
            let centres = (0..colour::BANDS).map(colour::bands::centre_nm).collect();
            SpectralCurve::new(centres, spectrum.0.iter().map(|v| f64::from(*v)).collect()).expect("a curve")
        })
        .collect()
}

/// Both ways of seeing a reflectance under a lamp, adapted to D65, as a CIEDE2000 difference.
fn error(lamp: &str, reflectance: &SpectralCurve) -> f64 {
    let power = illuminant_curve(lamp).expect("built in");
    let [x, y, z] = observer_curves();
    let (mut exact, mut white) = (Xyz::default(), Xyz::default());
    for (&nm, &power) in power.wavelengths_nm().iter().zip(power.values()) {
        let row = Xyz::new(x.at(nm), y.at(nm), z.at(nm)) * power;
        white += row;
        exact += row * reflectance.at(nm);
    }
    let (exact, white) = (exact * (1.0 / white.y), white * (1.0 / white.y));
    let light = LightColour::illuminant(lamp).expect("built in");
    let banded = light.xyz(&reflectance.band_average());
    let lab = |seen: Xyz, white: Xyz| {
        ChromaticTransform::Bradford
            .adaptation(white, D65_WHITE)
            .apply(seen)
            .to_lab(D65_WHITE)
    };
    delta_e_2000(lab(exact, white), lab(banded, light.white()))
}

/// Largest and mean error over lamps and reflectances.
fn errors(lamps: &[&str], reflectances: &[SpectralCurve]) -> (f64, f64) {
    let all: Vec<f64> = lamps
        .iter()
        .flat_map(|lamp| reflectances.iter().map(|reflectance| error(lamp, reflectance)))
        .collect();
    (
        all.iter().copied().fold(0.0, f64::max),
        all.iter().sum::<f64>() / all.len() as f64,
    )
}

fn lamps(keep: impl Fn(&str) -> bool) -> Vec<&'static str> {
    let lamps: Vec<&str> = illuminant_names().filter(|name| keep(name)).collect();
    assert!(!lamps.is_empty());
    lamps
}

/// The stated bound and the measured figure, so that the figures in `bands.rs` stay true.
fn check(what: &str, lamps: &[&str], reflectances: &[SpectralCurve], most: f64, mean: f64) {
    let (found_most, found_mean) = errors(lamps, reflectances);
    assert!(
        found_most <= most,
        "{what}: largest error {found_most:.3}, stated {most}"
    );
    assert!(
        found_mean <= mean,
        "{what}: mean error {found_mean:.3}, stated {mean}"
    );
}

#[test]
fn every_smooth_and_fluorescent_lamp_stays_under_one() {
    let lamps = lamps(|name| !DISCHARGE.contains(&name));
    assert_eq!(lamps.len(), 20);
    check("skin", &lamps, &skins(), 1.0, 1.0);
    check("surfaces", &lamps, &named_surfaces(), 1.0, 1.0);
    check("paints", &lamps, &paints(), 1.0, 1.0);
}

#[test]
fn figures_stated_in_the_documentation() {
    let smooth = lamps(|name| !name.starts_with("FL") && !DISCHARGE.contains(&name));
    let fluorescent = lamps(|name| name.starts_with("FL"));
    assert_eq!((smooth.len(), fluorescent.len()), (15, 5));
    let (skins, surfaces, paints) = (skins(), named_surfaces(), paints());
    assert_eq!((skins.len(), surfaces.len(), paints.len()), (13, 44, 100));

    check("skin, smooth", &smooth, &skins, 0.25, 0.10);
    check("surfaces, smooth", &smooth, &surfaces, 0.29, 0.07);
    check("paints, smooth", &smooth, &paints, 0.90, 0.29);
    check("skin, fluorescent", &fluorescent, &skins, 0.62, 0.32);
    check("surfaces, fluorescent", &fluorescent, &surfaces, 0.50, 0.10);
    check("paints, fluorescent", &fluorescent, &paints, 0.99, 0.29);
    check("skin, discharge", &DISCHARGE, &skins, 0.48, 0.30);
    check("surfaces, discharge", &DISCHARGE, &surfaces, 0.88, 0.21);
    check("paints, discharge", &DISCHARGE, &paints, 2.4, 0.58);
}
