//! Our colours against an independent package: the same spectra, and nothing else in common.
//!
//! 500 spectra made at random (seeded) and every gel that leaves a white light, alone and in pairs, under three
//! lights, go to `oracle/spectra.py`. That program sums at 1 nm through its own interpolation and finds the colour
//! temperature by another method (Ohno 2014), so tolerances are not zero; they are ours and stand at the top.

#![allow(clippy::print_stdout, reason = "the largest differences are worth reading")]

mod oracle;

use colour::{SpectralCurve, cct_duv};
use light::{Gel, GelFamily};
use oracle::{Dice, Largest, ask};
use serde_json::{Value, json};
use units::Kelvin;

/// X and Z over Y: rows of 5 nm against 1 nm.
const ALLOWED_XZ: f64 = 1e-4;
/// Colour temperature, a twentieth of a per cent: 1 K at 2000 K.
const ALLOWED_KELVIN: f64 = 5e-4;
const ALLOWED_DUV: f64 = 1e-5;
const ALLOWED_MIRED: f64 = 0.05;
const ALLOWED_PASSES: f64 = 1e-5;

/// A glowing body seen through something smooth and something with three bumps.
fn spectrum(dice: &mut Dice) -> SpectralCurve {
    let kelvin = 1e6 / dice.within(60.0, 480.0);
    let bumps: Vec<(f64, f64, f64)> = (0..3)
        .map(|_| {
            (
                dice.within(400.0, 700.0),
                dice.within(15.0, 80.0),
                dice.within(-0.5, 0.5),
            )
        })
        .collect();
    colour::planck_curve(Kelvin::new(kelvin).expect("in range"))
        .map(|nm, power| {
            let bent: f64 = bumps
                .iter()
                .map(|(at, wide, high)| high * (-0.5 * ((nm - at) / wide).powi(2)).exp())
                .sum();
            power * bent.exp()
        })
        .expect("a curve")
}

/// Light of nearly white colour: where a temperature means something, and both methods are at home.
fn spectra() -> Vec<SpectralCurve> {
    let mut dice = Dice(20_240_229);
    let mut found = Vec::new();
    while found.len() < 500 {
        let light = spectrum(&mut dice);
        let white = light.light_xyz().chromaticity().and_then(cct_duv);
        if white.is_some_and(|(kelvin, duv)| {
            (1600.0..20_000.0).contains(&kelvin.value()) && duv.value().abs() < 0.03
        }) {
            found.push(light);
        }
    }
    found
}

/// Every pale gel, and each with the next, under flash, tungsten and daylight.
fn pairs() -> Vec<(String, SpectralCurve, Gel)> {
    let kelvin = |value| Kelvin::new(value).expect("in range");
    let lights = [
        colour::flash_curve(kelvin(5600.0)).expect("daylight"),
        colour::planck_curve(kelvin(3200.0)),
        colour::daylight_curve(kelvin(6500.0)).expect("daylight"),
    ];
    let mut all = Vec::new();
    for family in GelFamily::ALL {
        let pale: Vec<&Gel> = Gel::catalogue(family)
            .iter()
            .filter(|gel| !gel.is_effect())
            .collect();
        let stacks = pale.windows(2).map(|two| two[0].with(two[1]));
        for gel in pale.iter().map(|gel| (*gel).clone()).chain(stacks) {
            for light in &lights {
                let effect = gel.under(light);
                if effect.is_some_and(|effect| (1600.0..20_000.0).contains(&effect.kelvin.value())) {
                    all.push((format!("{family} {}", gel.name()), light.clone(), gel.clone()));
                }
            }
        }
    }
    all
}

/// Rows at 5 nm from 360 to 830 nm.
fn rows(curve: &SpectralCurve) -> Vec<f64> {
    (0..=94).map(|k| curve.at(360.0 + 5.0 * f64::from(k))).collect()
}

fn number(theirs: &Value) -> f64 {
    theirs.as_f64().expect("a number")
}

fn off(ours: f64, theirs: &Value) -> f64 {
    ours - number(theirs)
}

#[test]
fn an_independent_package_finds_the_same_colours() {
    let (spectra, pairs) = (spectra(), pairs());
    assert!(spectra.len() == 500 && pairs.len() > 100, "{}", pairs.len());
    let request = json!({
        "first_nm": 360,
        "spectra": spectra.iter().map(rows).collect::<Vec<_>>(),
        "pairs": pairs.iter().map(|(_, light, gel)| {
            [rows(light), rows(&gel.filter(light).expect("light"))]
        }).collect::<Vec<_>>(),
    });
    let answer = ask("spectra.py", "colour package", &request);
    let mut all = [
        Largest::new("X over Y, relative", ALLOWED_XZ),
        Largest::new("Z over Y, relative", ALLOWED_XZ),
        Largest::new("colour temperature, relative", ALLOWED_KELVIN),
        Largest::new("Duv", ALLOWED_DUV),
        Largest::new("shift of a gel in mired", ALLOWED_MIRED),
        Largest::new("light that passes a gel", ALLOWED_PASSES),
    ];
    let theirs = answer["spectra"].as_array().expect("a list");
    assert_eq!(theirs.len(), spectra.len());
    for (light, theirs) in spectra.iter().zip(theirs) {
        let xyz = light.light_xyz();
        let (kelvin, duv) = xyz.chromaticity().and_then(cct_duv).expect("white");
        all[0].see(off(xyz.x / xyz.y, &theirs["x_over_y"]) / number(&theirs["x_over_y"]));
        all[1].see(off(xyz.z / xyz.y, &theirs["z_over_y"]) / number(&theirs["z_over_y"]));
        all[2].see(off(kelvin.value(), &theirs["kelvin"]) / number(&theirs["kelvin"]));
        all[3].see(off(duv.value(), &theirs["duv"]));
    }
    let theirs = answer["pairs"].as_array().expect("a list");
    assert_eq!(theirs.len(), pairs.len());
    for ((_, light, gel), theirs) in pairs.iter().zip(theirs) {
        let effect = gel.under(light).expect("white");
        all[4].see(off(effect.shift.value(), &theirs["mired"]));
        all[5].see(off(gel.passes(light), &theirs["passes"]));
    }
    println!(
        "{} spectra and {} gelled lights, package version {}",
        spectra.len(),
        pairs.len(),
        answer["version"]
    );
    Largest::hold(&all);
}
