//! Our colours against an independent package: the same spectra, and nothing else in common.
//!
//! 500 spectra made at random (seeded) and every gel that leaves a white light, alone and in pairs, under three
//! lights, go to `oracle/spectra.py`. That program sums at 1 nm through its own interpolation and finds the colour
//! temperature by another method (Ohno 2014), so tolerances are not zero; they are ours and stand at the top.

#![allow(clippy::print_stdout, reason = "the largest differences are worth reading")]

use colour::{SpectralCurve, cct_duv};
use light::{Gel, GelFamily};
use serde_json::{Value, json};
use std::io::Write;
use std::process::{Command, Stdio};
use units::Kelvin;

/// X and Z over Y: rows of 5 nm against 1 nm.
const ALLOWED_XZ: f64 = 1e-4;
/// Colour temperature, a twentieth of a per cent: 1 K at 2000 K.
const ALLOWED_KELVIN: f64 = 5e-4;
const ALLOWED_DUV: f64 = 1e-5;
const ALLOWED_MIRED: f64 = 0.05;
const ALLOWED_PASSES: f64 = 1e-5;

/// SplitMix64 (Steele, Lea & Flood 2014): numbers from 0 to 1.
struct Dice(u64);

impl Dice {
    fn unit(&mut self) -> f64 {
        self.0 = self.0.wrapping_add(0x9E37_79B9_7F4A_7C15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
        ((z ^ (z >> 31)) >> 11) as f64 / (1u64 << 53) as f64
    }

    fn within(&mut self, from: f64, to: f64) -> f64 {
        from + (to - from) * self.unit()
    }
}

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

fn ask(request: &Value) -> Value {
    let script = concat!(env!("CARGO_MANIFEST_DIR"), "/tests/oracle/spectra.py");
    let mut child = Command::new("python3")
        .arg(script)
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .spawn()
        .expect("python3 is needed, with  pip install -r requirements-oracle.txt");
    let mut input = child.stdin.take().expect("it was piped");
    input
        .write_all(request.to_string().as_bytes())
        .expect("the program reads");
    drop(input);
    let output = child.wait_with_output().expect("the program ends");
    assert!(
        output.status.success(),
        "the colour package did not run: pip install -r requirements-oracle.txt"
    );
    serde_json::from_slice(&output.stdout).expect("the program answers in JSON")
}

/// The largest difference of a kind, with its tolerance.
struct Largest {
    what: &'static str,
    allowed: f64,
    found: f64,
}

impl Largest {
    fn see(&mut self, ours: f64, theirs: &Value, relative: bool) {
        let theirs = theirs.as_f64().expect("a number");
        let scale = if relative { theirs } else { 1.0 };
        let off = ((ours - theirs) / scale).abs();
        // A difference that is no number must not pass for a small one.
        assert!(off.is_finite(), "{}: {ours} and {theirs}", self.what);
        self.found = self.found.max(off);
    }
}

#[test]
fn an_independent_package_finds_the_same_colours() {
    let (spectra, pairs) = (spectra(), pairs());
    assert!(spectra.len() == 500 && pairs.len() > 100, "{}", pairs.len());
    let answer = ask(&json!({
        "first_nm": 360,
        "spectra": spectra.iter().map(rows).collect::<Vec<_>>(),
        "pairs": pairs.iter().map(|(_, light, gel)| {
            [rows(light), rows(&gel.filter(light).expect("light"))]
        }).collect::<Vec<_>>(),
    }));
    let largest = |what, allowed| Largest {
        what,
        allowed,
        found: 0.0,
    };
    let mut all = [
        largest("X over Y, relative", ALLOWED_XZ),
        largest("Z over Y, relative", ALLOWED_XZ),
        largest("colour temperature, relative", ALLOWED_KELVIN),
        largest("Duv", ALLOWED_DUV),
        largest("shift of a gel in mired", ALLOWED_MIRED),
        largest("light that passes a gel", ALLOWED_PASSES),
    ];
    let theirs = answer["spectra"].as_array().expect("a list");
    assert_eq!(theirs.len(), spectra.len());
    for (light, theirs) in spectra.iter().zip(theirs) {
        let xyz = light.light_xyz();
        let (kelvin, duv) = xyz.chromaticity().and_then(cct_duv).expect("white");
        all[0].see(xyz.x / xyz.y, &theirs["x_over_y"], true);
        all[1].see(xyz.z / xyz.y, &theirs["z_over_y"], true);
        all[2].see(kelvin.value(), &theirs["kelvin"], true);
        all[3].see(duv.value(), &theirs["duv"], false);
    }
    let theirs = answer["pairs"].as_array().expect("a list");
    assert_eq!(theirs.len(), pairs.len());
    for ((_, light, gel), theirs) in pairs.iter().zip(theirs) {
        let effect = gel.under(light).expect("white");
        all[4].see(effect.shift.value(), &theirs["mired"], false);
        all[5].see(gel.passes(light), &theirs["passes"], false);
    }
    println!(
        "{} spectra and {} gelled lights, package version {}",
        spectra.len(),
        pairs.len(),
        answer["version"]
    );
    for Largest { what, allowed, found } in &all {
        println!("largest difference in {what}: {found:.2e} of {allowed:.0e}");
    }
    for Largest { what, allowed, found } in all {
        assert!(found <= allowed, "{what}: {found} is more than {allowed}");
    }
}
