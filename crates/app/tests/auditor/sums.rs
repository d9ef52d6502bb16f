//! What must add up: exposure, chart, power, shares, controls, faces and the doubt.

use crate::findings::Findings;
use crate::parts::{Camera, Faces, Flash, Reading};
use crate::said::Said;
use crate::shoot::{Level, Shoot};

/// Sums are of numbers that are not rounded.
const EXACT: f64 = 0.005;
/// Half a click, rounded up.
const HALF_A_CLICK: f64 = 0.17;

/// Every sum of an answer.
pub fn check(shoot: &Shoot, said: &Said, findings: &mut Findings) {
    exposure(said, findings);
    chart(said, findings);
    power(shoot, &said.flash(), Some(said.exposure()[2]), findings);
    strength(&said.camera(), &said.reading(), said.exact_powers()[0], findings);
    lights(shoot, said, findings);
    controls(said, findings);
    face(&said.reading(), findings);
    faces(shoot, said, findings);
    referee(said, findings);
    let (within, parts) = said.doubt();
    let spread = parts.iter().map(|part| part * part).sum::<f64>().sqrt();
    // Nine in ten of a normal distribution lie within 1.645 standard deviations.
    findings.same(
        "sum: doubt against its parts",
        "doubt",
        within,
        1.645 * spread,
        0.02,
    );
}

/// Light adds, stops do not.
fn exposure(said: &Said, findings: &mut Findings) {
    let [flash, ambient, total] = said.exposure();
    let there = if ambient.is_nan() { 0.0 } else { ambient.exp2() };
    findings.same(
        "sum: flash and ambient",
        "total",
        total,
        (flash.exp2() + there).log2(),
        EXACT,
    );
    let [for_flash, for_total] = said.exact_powers();
    let set = said.flash();
    findings.same(
        "sum: power for the flash alone",
        "power",
        for_flash,
        set.below_full + flash,
        EXACT,
    );
    if there < 0.98 {
        let rest = for_flash - (1.0 - there).log2();
        findings.same("sum: power for the total", "power", for_total, rest, EXACT);
        findings.same(
            "sum: exact power against the exposure",
            "power",
            set.exact,
            for_total,
            EXACT,
        );
    }
}

fn chart(said: &Said, findings: &mut Findings) {
    let chart = said.chart();
    let [flash, _, total] = said.exposure();
    let Some((last, lines)) = chart.split_last() else {
        return;
    };
    let sum: f64 = lines.iter().map(|line| line.stops).sum();
    findings.same("sum: chart against its result", "chart", last.stops, sum, EXACT);
    findings.same(
        "sum: chart against the exposure",
        "chart",
        last.stops,
        total,
        EXACT,
    );
    let alone: f64 = lines
        .iter()
        .filter(|line| line.item != "ambient")
        .map(|line| line.stops)
        .sum();
    findings.same(
        "sum: chart without ambient against the flash alone",
        "chart",
        alone,
        flash,
        EXACT,
    );
    for line in lines {
        let told = match line.kind.as_str() {
            "start" => true,
            "gain" => line.stops >= 0.0,
            "loss" => line.stops <= 0.0,
            _ => false,
        };
        findings.holds("sum: a chart line of the wrong kind", told, || {
            format!("{line:?}")
        });
    }
    let power = lines
        .iter()
        .find(|line| line.item == "power")
        .map_or(0.0, |line| line.stops);
    findings.same(
        "sum: chart's power against the flash line",
        "power",
        -power,
        said.flash().below_full,
        EXACT,
    );
}

/// The power that is set against the exact one, and what that leaves in hand; `total` is what the face comes to, where that is
/// told.
pub fn power(shoot: &Shoot, flash: &Flash, total: Option<f64>, findings: &mut Findings) {
    let least = f64::from(shoot.bag.least_power);
    let settable = flash.exact.clamp(0.0, least);
    findings.same(
        "power: set against exact",
        "stops below full",
        flash.below_full,
        settable,
        HALF_A_CLICK,
    );
    // What a weak flash lacks is what the face lacks: less than the flash alone would want, for there is other light.
    let (in_hand, within) = match total {
        Some(total) if flash.exact < 0.0 => (total.min(0.0), EXACT),
        None if flash.exact < 0.0 => (0.5 * flash.exact, 0.5 * -flash.exact + HALF_A_CLICK),
        _ => (flash.below_full, EXACT),
    };
    findings.same(
        "power: in hand against the power set",
        "in hand",
        flash.in_hand,
        in_hand,
        within,
    );
}

/// What full power gives against the settings.
pub fn strength(camera: &Camera, reading: &Reading, for_flash_alone: f64, findings: &mut Findings) {
    let over = 2.0 * (reading.full_power_f_number / camera.f_number).log2() + (camera.iso / 100.0).log2()
        - camera.nd;
    findings.same(
        "sum: full power's aperture against the power",
        "power",
        for_flash_alone,
        over,
        0.01,
    );
}

fn lights(shoot: &Shoot, said: &Said, findings: &mut Findings) {
    let [flash, ambient, total] = said.exposure();
    let (flash_share, others) = said.shares();
    let all = flash_share + others.iter().sum::<f64>();
    findings.same("sum: shares of the light", "all", all, 1.0, EXACT);
    let of_flash = (flash - total).exp2();
    findings.same(
        "sum: flash's share against the exposure",
        "colour",
        flash_share,
        of_flash,
        0.01,
    );
    findings.same(
        "sum: flash's share against the exposure",
        "balance",
        said.flash_share(),
        of_flash,
        0.01,
    );
    let ev = said.camera().ev();
    findings.same(
        "sum: settings against their exposure value",
        "EV",
        said.settings_ev(),
        ev,
        0.01,
    );
    for (name, level) in said.zones() {
        let zone = shoot.zones.iter().find(|zone| zone.name == name);
        let expected = zone.map_or(f64::NAN, |zone| zone.ev - ev);
        findings.same("sum: zone against its reading", &name, level, expected, 0.01);
    }
    for (name, level) in said.as_metered() {
        let light = shoot.lights.iter().find(|light| light.name == name);
        if let Some(Level::Ev(metered)) = light.map(|light| light.level) {
            findings.same(
                "sum: light as metered against its reading",
                &name,
                level,
                metered - ev,
                0.01,
            );
        }
    }
    // Lights that a dome met add up to the ambient, where there is no computed sky besides.
    if shoot.sky.is_none() && !ambient.is_nan() {
        let sum: f64 = said.as_metered().iter().map(|light| light.1.exp2()).sum();
        findings.same(
            "sum: lights as metered against the ambient",
            "ambient",
            ambient,
            sum.log2(),
            0.05,
        );
    }
}

/// A step of a control moves flash and ambient as it does on a camera.
fn controls(said: &Said, findings: &mut Findings) {
    let [flash, ambient, total] = said.exposure();
    let there = if ambient.is_nan() { 0.0 } else { ambient.exp2() };
    let step = 1.0 / 3.0;
    for (name, [of_flash, of_ambient, of_face]) in said.controls() {
        let expected = match name.as_str() {
            "shutter" => [0.0, step],
            "aperture" | "iso" => [step, step],
            "power" | "distance" => [step, 0.0],
            "gel" => [-step, 0.0],
            _ => continue,
        };
        findings.same("sum: a control's step", &name, of_flash, expected[0], 0.01);
        findings.same(
            "sum: a control's step",
            &name,
            of_ambient,
            if there > 0.0 { expected[1] } else { of_ambient },
            0.01,
        );
        let after = ((flash + of_flash).exp2() + there * of_ambient.exp2()).log2();
        findings.same(
            "sum: a control's step at the face",
            &name,
            of_face,
            after - total,
            0.01,
        );
    }
}

/// The face's own numbers against one another.
pub fn face(reading: &Reading, findings: &mut Findings) {
    let apart = reading.near_cheek - reading.far_cheek;
    if apart.is_finite() && apart < 12.0 {
        findings.same(
            "face: ratio against the cheeks",
            "stops",
            reading.ratio.log2(),
            apart,
            0.02,
        );
    }
    findings.holds(
        "face: far cheek brighter than the near one",
        apart >= -0.01 || apart.is_nan(),
        || format!("{:.2} and {:.2} stops", reading.near_cheek, reading.far_cheek),
    );
    let side =
        |side: &str| reading.at(&format!("eye_socket_{side}")) - reading.at(&format!("cheek_upper_{side}"));
    let against = side("left").min(side("right"));
    if against.is_finite() {
        findings.same(
            "face: sockets against the landmarks",
            "stops",
            reading.sockets,
            against,
            0.05,
        );
        let either = [side("left"), side("right")];
        findings.holds(
            "face: the lit socket is neither of the two",
            either
                .iter()
                .any(|level| (level - reading.lit_socket).abs() < 0.05),
            || format!("{:.2}, {either:?}", reading.lit_socket),
        );
    }
}

fn faces(shoot: &Shoot, said: &Said, findings: &mut Findings) {
    let Some(Faces {
        spread,
        brightest,
        darkest,
        each,
    }) = said.faces()
    else {
        findings.holds(
            "faces: several and no word on them",
            shoot.sitters.len() < 2,
            String::new,
        );
        return;
    };
    let level = |name: &str| {
        each.iter()
            .find(|face| face.0 == name)
            .map_or(f64::NAN, |face| face.1)
    };
    let most = each.iter().map(|face| face.1).fold(f64::NEG_INFINITY, f64::max);
    let least = each.iter().map(|face| face.1).fold(f64::INFINITY, f64::min);
    findings.same("faces: spread against each", "spread", spread, most - least, 0.01);
    findings.same("faces: the brightest", &brightest, level(&brightest), most, 0.01);
    findings.same("faces: the darkest", &darkest, level(&darkest), least, 0.01);
    findings.same(
        "faces: the first against itself",
        "first",
        level(shoot.sitters[0].name),
        0.0,
        0.01,
    );
}

/// The referee reads the same picture: what it says of exposure and key is what the answer says.
fn referee(said: &Said, findings: &mut Findings) {
    let reading = said.reading();
    let [difference, error, azimuth, elevation] = said.referee();
    // The program itself calls a third of a stop agreement.
    findings.same(
        "referee: exposure",
        "stops",
        difference,
        0.0,
        1.0 / 3.0 + 3.0 * error,
    );
    let round = (azimuth - reading.azimuth + 180.0).rem_euclid(360.0) - 180.0;
    // Seen from above, the same angle is narrower the steeper the light comes.
    let round = round * reading.elevation.to_radians().cos();
    findings.same("referee: direction of the key", "degrees round", round, 0.0, 6.0);
    findings.same(
        "referee: height of the key",
        "degrees",
        elevation,
        reading.elevation,
        6.0,
    );
}
