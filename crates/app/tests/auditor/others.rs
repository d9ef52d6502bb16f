//! Other answers and other ways: their own numbers, and against the answer.

use crate::findings::Findings;
use crate::geometry::distance;
use crate::parts::{Alternative, Prefer};
use crate::pointing::{self, face_of};
use crate::said::Said;
use crate::shoot::Shoot;
use crate::{bounds, sums};

/// Half a click, rounded up.
const HALF_A_CLICK: f64 = 0.17;
/// Points within which two ways count as equally good ("as good as the answer", NOMENCLATURE).
const AS_GOOD: f64 = 0.5;

/// Alternatives, verdicts and the room map.
pub fn check(shoot: &Shoot, said: &Said, findings: &mut Findings) {
    for (index, other) in said.alternatives().iter().enumerate() {
        findings.about(&format!("alternative {}", index + 1));
        alternative(shoot, said, other, findings);
    }
    findings.about("");
    verdicts(said, findings);
    map(shoot, said, findings);
}

fn alternative(shoot: &Shoot, said: &Said, other: &Alternative, findings: &mut Findings) {
    bounds::camera(shoot, &other.camera, findings);
    bounds::flash(shoot, &other.flash, &other.aim, findings);
    sums::power(shoot, &other.flash, None, findings);
    sums::face(&other.reading, findings);
    pointing::geometry(shoot, face_of(shoot, said), &other.aim, findings);
    findings.holds(
        "alternative: the same way as the answer",
        other.way != said.in_short().way,
        || other.way.clone(),
    );
    if said.exposure()[1].is_nan() {
        sums::strength(&other.camera, &other.reading, other.flash.exact, findings);
    }
    prefer(shoot, said, other, findings);
}

/// The reason to prefer it, by both readings.
fn prefer(shoot: &Shoot, said: &Said, other: &Alternative, findings: &mut Findings) {
    let (answer, flash) = (said.reading(), said.flash());
    let mut same = |what: &str, said: f64, is: f64, within: f64| {
        findings.same(
            "alternative: its reason against both readings",
            what,
            said,
            is,
            within,
        );
    };
    match other.prefer {
        Prefer::MoreInHand(stops) => {
            same(
                "stops more in hand",
                stops,
                other.flash.in_hand - flash.in_hand,
                HALF_A_CLICK,
            );
        }
        Prefer::Softer(times) => same(
            "times as wide",
            times,
            other.reading.softness / answer.softness,
            0.05,
        ),
        Prefer::CleanerSkin(less) => {
            same(
                "mired less",
                less,
                answer.cast_mired.abs() - other.reading.cast_mired.abs(),
                1.0,
            );
        }
        Prefer::Ratio(ratio, instead_of) => {
            same("ratio", ratio.log2(), other.reading.ratio.log2(), 0.1);
            same("ratio of the answer", instead_of.log2(), answer.ratio.log2(), 0.1);
        }
        Prefer::NearerAngle(degrees) => {
            let [asked, ..] = shoot.ask.key.angles();
            let off = |azimuth: f64| match shoot.ask.side {
                Some("left") => (azimuth + asked).abs(),
                Some("right") => (azimuth - asked).abs(),
                _ => (azimuth.abs() - asked).abs(),
            };
            same(
                "degrees nearer",
                degrees,
                off(answer.azimuth) - off(other.reading.azimuth),
                1.0,
            );
        }
        Prefer::Plain => {}
    }
}

/// One way is chosen, it is the answer's, and none that was considered lacks less.
fn verdicts(said: &Said, findings: &mut Findings) {
    let considered = said.considered();
    let chosen: Vec<_> = considered.iter().filter(|way| way.chosen).collect();
    findings.holds("ways: not one chosen", chosen.len() == 1, || {
        format!("{} chosen", chosen.len())
    });
    let [chosen] = chosen[..] else { return };
    let answer = said.reading();
    // Faults too small to list are left out of the way's own.
    findings.same(
        "ways: points of the answer",
        "points",
        said.points(),
        chosen.points,
        0.06,
    );
    if let Some(reading) = &chosen.reading {
        findings.same(
            "ways: the chosen one's azimuth against the key",
            "degrees",
            reading.azimuth,
            answer.azimuth,
            0.5,
        );
        findings.same(
            "ways: the chosen one's ratio against the key",
            "ratio",
            reading.ratio,
            answer.ratio,
            0.05,
        );
    }
    for way in &considered {
        findings.holds(
            "ways: another has fewer points",
            way.points > chosen.points - 0.05,
            || {
                format!(
                    "{} has {:.2} points, the chosen {} {:.2}",
                    way.way, way.points, chosen.way, chosen.points
                )
            },
        );
        let Some(reading) = way.reading.as_ref().filter(|_| !way.against_answer.is_nan()) else {
            continue;
        };
        let stronger = 2.0 * (reading.full_power_f_number / answer.full_power_f_number).log2();
        findings.same(
            "ways: strength against the answer",
            &way.way,
            way.against_answer,
            stronger,
            0.05,
        );
    }
}

/// Where the room map is made from the answer's own place of the flash, no piece of it is better than the answer.
fn map(shoot: &Shoot, said: &Said, findings: &mut Findings) {
    let considered = said.considered();
    let chosen = considered.iter().find(|way| way.chosen);
    let (best, from) = said.best_of_map();
    let comparable = shoot.ask.may_move_m.is_none() && distance(from, said.aim().flash) < 0.01;
    if let Some(chosen) = chosen.filter(|_| comparable && best.is_finite()) {
        findings.holds(
            "map: a piece is better than the answer",
            best > chosen.points - AS_GOOD,
            || format!("a piece has {best:.2} points, the answer {:.2}", chosen.points),
        );
    }
}
