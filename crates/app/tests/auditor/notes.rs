//! Notes and cautions against the numbers that they are about.

use crate::findings::Findings;
use crate::parts::{About, Caution, Note, State};
use crate::said::Said;
use crate::shoot::Shoot;

/// Half a click, rounded up.
const HALF_A_CLICK: f64 = 0.17;
/// Less in hand than this is near full power, in stops, as the program's numbers of practice have it.
const NEAR_FULL_POWER: f64 = 0.75;
const EXACT: f64 = 0.02;

/// Every note and caution that tells a number or a state.
pub fn check(shoot: &Shoot, said: &Said, findings: &mut Findings) {
    for note in said.notes() {
        numbers(shoot, said, &note, findings);
    }
    power(shoot, said, findings);
    let flash = said.flash();
    let hot = said
        .cautions()
        .iter()
        .any(|caution| matches!(caution, Caution::HotFlash));
    findings.holds(
        "caution: hot flash with power left",
        !hot || flash.below_full < 1.0,
        || format!("{} stops below full", flash.below_full),
    );
}

/// The numbers of one note.
fn numbers(shoot: &Shoot, said: &Said, note: &Note, findings: &mut Findings) {
    let (flash, camera, reading) = (said.flash(), said.camera(), said.reading());
    let [_, ambient, total] = said.exposure();
    let asked = shoot.ask.in_hand;
    let what = format!("{note:?}");
    let mut same = |claim, told: f64, is: f64| findings.same(claim, &what, told, is, EXACT);
    match note {
        Note::FallsShort(stops) => same("note: falls short", *stops, -total),
        Note::LeastPowerTooMuch(stops) => same("note: least power too much", *stops, total),
        Note::ThereTooMuch(stops) => same("note: light that is there too much", *stops, ambient),
        Note::LittleInHand { left, fewer } => {
            findings.same("note: left in hand", &what, *left, flash.below_full, EXACT);
            let missing = asked - flash.below_full;
            findings.same("note: fewer in hand than asked", &what, *fewer, missing, EXACT);
        }
        Note::NearFullPower { wait_s, iso } => {
            same(
                "note: wait near full power",
                *wait_s,
                shoot.bag.recycle_s * (-flash.below_full).exp2(),
            );
            same("note: speed near full power", *iso, 2.0 * camera.iso);
        }
        Note::SlowForAPerson(seconds) => same("note: slow shutter", *seconds, camera.shutter_s),
        Note::FilterTakesBoth(stops) => {
            same("note: filter on the lens", *stops, camera.nd);
            findings.holds("note: a filter that is not on the lens", camera.nd > 0.0, || what);
        }
        Note::AmbientStays(under) => same("note: ambient that stays", *under, -ambient),
        Note::GelWorn(gel) => {
            let worn = said.gel();
            findings.holds("note: another gel", worn.as_ref() == Some(gel), || {
                format!("{gel}, {worn:?}")
            });
        }
        Note::DeepSetEyes => {
            let steep = reading.elevation > 45.0 || reading.sockets < -1.0;
            findings.holds("note: deep-set eyes of a light that is not steep", steep, || {
                format!("{:.0} degrees, sockets {:.2}", reading.elevation, reading.sockets)
            });
        }
        Note::FlagHead(_) | Note::SpillStaysUnder(_) | Note::SpillMissesFace(_) | Note::Other => {}
    }
}

/// What is left of the flash, by the notes, the flash line and the wish.
fn power(shoot: &Shoot, said: &Said, findings: &mut Findings) {
    let (asked, in_hand) = (shoot.ask.in_hand, said.flash().in_hand);
    let notes = said.notes();
    let short_told = notes
        .iter()
        .any(|note| matches!(note, Note::LittleInHand { .. } | Note::FallsShort(_)));
    let near_told = notes
        .iter()
        .any(|note| matches!(note, Note::NearFullPower { .. }));
    let left = || format!("{in_hand:.3} in hand");
    let near = in_hand < NEAR_FULL_POWER - EXACT;
    findings.holds(
        "note: near full power without a word",
        short_told || near_told || !near,
        left,
    );
    findings.holds(
        "note: near full power with power left",
        !near_told || in_hand < NEAR_FULL_POWER + EXACT,
        left,
    );
    let wish = said.wishes().into_iter().find(|wish| wish.about == About::InHand);
    let Some(wish) = wish else { return };
    // What the face itself lacks is told of its exposure.
    let short = in_hand.max(0.0) < asked - HALF_A_CLICK - EXACT;
    let state = || format!("asked {asked}, {wish:?}, flash line {in_hand:.3} in hand");
    let kept = wish.state == State::Kept;
    findings.holds(
        "note: little in hand, but the wish is kept",
        !short_told || !kept,
        state,
    );
    findings.holds(
        "wish: in hand kept, but the flash line has less",
        !short || !kept,
        state,
    );
}
