//! Every row of `low_sun.csv`: an independent spectral model of sun and clear sky, for heights of the sun from 1° to 60°.

use colour::{Spectrum, Xyz, cct_duv};
use light::{Daylight, Sun, Weather};

const FILE: &str = include_str!("low_sun.csv");

const BEARING: f64 = 225.0;

/// Stops and mired that a low sun may be off, and a higher one; up to this height it is low.
const LOW: (f64, f64) = (2.0 / 3.0, 40.0);
const HIGH: (f64, f64) = (1.0 / 3.0, 15.0);
const LOW_DEG: f64 = 5.0;

fn rows() -> impl Iterator<Item = Vec<f64>> {
    FILE.lines()
        .filter(|line| !line.starts_with(['#', 'h']))
        .map(|line| {
            line.split(',')
                .map(|cell| cell.parse().expect("a number"))
                .collect()
        })
}

fn mired(kelvin: f64) -> f64 {
    1e6 / kelvin
}

/// Light on open ground, on a face turned to the sun, and on one turned away.
fn received(height_deg: f64) -> [Xyz; 3] {
    let day = Daylight::new(&Sun::somewhere(BEARING, height_deg), None, Weather::Clear, None);
    let ground = Spectrum::splat(0.18);
    let on_the_ground = day.sun_colour.white() * (day.sun_normal.value() * day.sun.direction().z)
        + day.sky_colour.white() * day.sky_horizontal.value();
    [
        on_the_ground,
        day.upright(BEARING, &ground).xyz,
        day.upright(BEARING + 180.0, &ground).xyz,
    ]
}

#[test]
fn faces_and_ground_from_the_low_sun_to_the_high() {
    assert_eq!(rows().count(), 29);
    for row in rows() {
        let [height, _, values @ ..] = row.as_slice() else {
            panic!("a row of heights and values")
        };
        let (stops, mireds) = if *height <= LOW_DEG { LOW } else { HIGH };
        for ((what, found), expected) in ["ground", "facing", "away"]
            .iter()
            .zip(received(*height))
            .zip(values.chunks(2))
        {
            let kelvin = found.chromaticity().and_then(cct_duv).expect("nearly white").0;
            let off = (found.y / expected[0]).log2();
            assert!(off.abs() <= stops, "{height} {what}: {off} stops");
            let off = mired(kelvin.value()) - mired(expected[1]);
            assert!(off.abs() <= mireds, "{height} {what}: {off} mired, {kelvin:?}");
        }
    }
}

/// Golden light is golden: the model gives a face before a sun at 2° to 7° about 3000 to 3700 K.
#[test]
fn a_low_sun_is_golden() {
    for tenths in 20..=70 {
        let [_, facing, away] = received(f64::from(tenths) / 10.0);
        let kelvin = |xyz: Xyz| {
            xyz.chromaticity()
                .and_then(cct_duv)
                .expect("nearly white")
                .0
                .value()
        };
        assert!(
            (2900.0..3700.0).contains(&kelvin(facing)),
            "{tenths}: {}",
            kelvin(facing)
        );
        assert!(kelvin(away) > 8000.0, "{tenths}: {}", kelvin(away));
    }
}
