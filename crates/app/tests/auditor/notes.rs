//! Notes and cautions against the numbers that they are about.

use crate::findings::Findings;
use crate::said::{About, Said, State};
use crate::shoot::Shoot;

/// Half a click, rounded up.
const HALF_A_CLICK: f64 = 0.17;
/// Less in hand than this is near full power, in stops, as the program's numbers of practice have it.
const NEAR_FULL_POWER: f64 = 0.75;
const EXACT: f64 = 0.02;

/// Every note and caution that tells a number or a state.
pub fn check(shoot: &Shoot, said: &Said, findings: &mut Findings) {
    let (flash, camera, reading) = (said.flash(), said.camera(), said.reading());
    let [_, ambient, _] = said.exposure();
    let asked = shoot.ask.in_hand;
    let has = |name: &str| said.notes().iter().any(|note| note.name == name);
    for note in said.notes() {
        let mut same = |claim, field: &str, other: f64| {
            findings.same(
                claim,
                &format!("{} {field}", note.name),
                note.number(field),
                other,
                EXACT,
            );
        };
        match note.name.as_str() {
            "falls_short" => same("note: falls short", "stops", -flash.exact),
            "least_power_too_much" => {
                same(
                    "note: least power too much",
                    "stops",
                    flash.exact - f64::from(shoot.bag.least_power),
                );
            }
            "little_in_hand" => {
                same("note: left in hand", "left", flash.in_hand);
                same("note: fewer in hand than asked", "fewer", asked - flash.in_hand);
            }
            "near_full_power" => {
                same(
                    "note: wait near full power",
                    "wait_s",
                    shoot.bag.recycle_s * (-flash.exact).exp2(),
                );
                same("note: speed near full power", "iso", 2.0 * camera.iso);
            }
            "slow_for_a_person" => same("note: slow shutter", "shutter_s", camera.shutter_s),
            "filter_takes_both" => same("note: filter on the lens", "nd_stops", camera.nd),
            "ambient_stays" => same("note: ambient that stays", "under", -ambient),
            _ => {}
        }
        if note.name == "gel_worn" {
            let (told, worn) = (note.word("gel"), said.gel());
            findings.holds("note: another gel", worn.as_ref() == Some(&told), || {
                format!("{told}, {worn:?}")
            });
        }
    }
    in_hand(said, asked, &has, findings);
    let near = flash.in_hand < NEAR_FULL_POWER - 0.01;
    let told = has("near_full_power") || has("little_in_hand") || has("falls_short");
    findings.holds("note: near full power without a word", told || !near, || {
        format!("{} in hand", flash.in_hand)
    });
    findings.holds(
        "note: near full power with power left",
        !has("near_full_power") || flash.in_hand < NEAR_FULL_POWER + EXACT,
        || format!("{} in hand", flash.in_hand),
    );
    let hot = said.cautions().iter().any(|caution| caution.name == "hot_flash");
    findings.holds(
        "caution: hot flash with power left",
        !hot || flash.below_full < 1.0,
        || format!("{} stops below full", flash.below_full),
    );
    let filter = has("filter_takes_both");
    findings.holds(
        "note: a filter that is not on the lens",
        !filter || camera.nd > 0.0,
        String::new,
    );
    let worn = said.gel().is_some();
    findings.holds(
        "note: a gel that is not worn",
        worn || !has("gel_worn"),
        String::new,
    );
    let steep = reading.elevation > 45.0 || reading.sockets < -1.0;
    findings.holds(
        "note: deep-set eyes of a light that is not steep",
        steep || !has("deep_set_eyes"),
        || format!("{:.0} degrees, sockets {:.2}", reading.elevation, reading.sockets),
    );
}

/// "Little in hand" and the wish to have some in hand are about one number.
fn in_hand(said: &Said, asked: f64, has: &dyn Fn(&str) -> bool, findings: &mut Findings) {
    let wish = said.wishes().into_iter().find(|wish| wish.about == About::InHand);
    let Some(wish) = wish else { return };
    let short = said.flash().in_hand < asked - HALF_A_CLICK - EXACT;
    let told_short = has("little_in_hand") || has("falls_short");
    let state = || {
        format!(
            "asked {asked}, wish {wish:?}, flash line {:.3} in hand",
            said.flash().in_hand
        )
    };
    findings.holds(
        "note: little in hand, but the wish is kept",
        !told_short || wish.state == State::Missed,
        state,
    );
    findings.holds(
        "wish: in hand kept, but the flash line has less",
        !short || wish.state == State::Missed,
        state,
    );
}
