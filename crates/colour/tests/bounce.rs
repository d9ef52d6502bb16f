//! One bounce off a coloured wall, with the limits that common practice accepts: pale yellow +52 ± 12 mired, pine
//! +108 ± 20, mint within 10 and Duv +0.0125 ± 0.004. Where common practice names no Duv, the limits are ours and wide.

use colour::{LightColour, Spectrum, cct_duv, upsample};
use units::Kelvin;

/// Mired shift and Duv of a 5600 K flash after one bounce.
fn bounced(triple: [f64; 3]) -> (f64, f64) {
    let flash = LightColour::flash(Kelvin::new(5600.0).expect("a temperature")).expect("a flash");
    let wall = upsample::reflectance_from_linear_srgb(triple).expect("a reflectance");
    let seen = flash.xyz(wall.spectrum()).chromaticity().expect("light");
    let (kelvin, duv) = cct_duv(seen).expect("near white");
    let (direct, _) = flash.cct_duv().expect("white");
    ((kelvin.mired() - direct.mired()).value(), duv.value())
}

fn check(what: &str, triple: [f64; 3], mired: (f64, f64), duv: (f64, f64)) {
    let (shift, green) = bounced(triple);
    assert!((mired.0..=mired.1).contains(&shift), "{what}: {shift} mired");
    assert!((duv.0..=duv.1).contains(&green), "{what}: Duv {green}");
}

#[test]
fn coloured_walls_shift_the_flash_as_common_practice_expects() {
    check("pale yellow", [0.82, 0.72, 0.45], (40.0, 64.0), (-0.02, 0.02));
    check("pine", [0.50, 0.32, 0.16], (88.0, 128.0), (-0.02, 0.02));
    check("mint", [0.55, 0.72, 0.60], (-10.0, 10.0), (0.0085, 0.0165));
    // "Very warm": more than a full orange gel.
    check("red wall", [0.45, 0.16, 0.12], (131.0, 400.0), (-0.05, 0.05));
    check("white", [0.8, 0.8, 0.8], (-0.01, 0.01), (0.002, 0.003));
}

#[test]
fn two_bounces_shift_about_twice() {
    let once = bounced([0.82, 0.72, 0.45]).0;
    let flash = LightColour::flash(Kelvin::new(5600.0).expect("a temperature")).expect("a flash");
    let wall = upsample::reflectance_from_linear_srgb([0.82, 0.72, 0.45]).expect("a reflectance");
    let twice: Spectrum = *wall.spectrum() * *wall.spectrum();
    let (kelvin, _) = cct_duv(flash.xyz(&twice).chromaticity().expect("light")).expect("near white");
    let shift = (kelvin.mired() - flash.cct_duv().expect("white").0.mired()).value();
    assert!((shift / once - 2.0).abs() < 0.3, "{shift} after {once}");
}
