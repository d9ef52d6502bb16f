//! The auditor audited: an answer with one number changed is caught, each time by the claim that the number belongs to.

use crate::findings::Findings;
use crate::program::{Language, Written};
use crate::said::Said;
use crate::shoot::Shoot;
use crate::{answer, drawn, languages};
use std::collections::BTreeSet;

/// A number of the JSON, by how much it is moved, and the claim that must fail.
const LIES: [(&str, f64, &str); 18] = [
    ("/wishes/0/found", 0.5, "wish: exposure against the exposure"),
    ("/wishes/1/off", 0.5, "wish: off against asked and found"),
    ("/wishes/1/asked/stops", 0.5, "wish: amount against the file"),
    ("/wishes/1/points", 0.3, "wish: points of what is not off"),
    ("/exposure/total_stops", 0.1, "sum: flash and ambient"),
    (
        "/exposure/power_for_flash_alone_stops",
        0.1,
        "sum: power for the flash alone",
    ),
    ("/chart/1/stops", 0.1, "sum: chart against its result"),
    ("/camera/iso", 100.0, "line one: against the data"),
    ("/camera/shutter_s", -0.003, "camera: shutter faster than sync"),
    (
        "/flash/in_hand_stops",
        1.0,
        "power: in hand against the power set",
    ),
    ("/flash/stops_below_full", 0.5, "flash: power between clicks"),
    ("/key/ratio", 1.0, "face: ratio against the cheeks"),
    (
        "/key/full_power_aperture",
        0.5,
        "sum: full power's aperture against the power",
    ),
    ("/chosen/turn_deg", 6.0, "pointing: turn"),
    ("/chosen/aim_m/height", 0.3, "pointing: tilt"),
    ("/chosen/legs_m/0", 0.2, "pointing: first leg"),
    ("/chosen/light_from_clock", 1.0, "pointing: clock"),
    ("/uncertainty/within_stops", 0.2, "sum: doubt against its parts"),
];

#[test]
fn a_lie_is_caught() {
    // A plain room and a plain ask.
    let shoot = drawn::portrait(0);
    let honest = Written::new(&shoot).json(Language::English);
    let honest = honest.expect("a drawn shoot has an answer");
    let without = claims(&shoot, &honest);
    for (number, by, claim) in LIES {
        let lying = honest.with_moved(number, by);
        let caught = claims(&shoot, &lying);
        assert!(
            !without.contains(claim) && caught.contains(claim),
            "{number}: {caught:?}"
        );
    }
    let lying = honest.with_moved("/chart/1/stops", 0.1);
    let mut findings = Findings::new(0);
    languages::sentences(&honest, &lying, &mut findings);
    assert_eq!(findings.found.len(), 1, "{:?}", findings.found);
}

/// The claims that do not hold.
fn claims(shoot: &Shoot, said: &Said) -> BTreeSet<&'static str> {
    let mut findings = Findings::new(0);
    answer(shoot, said, &mut findings);
    findings.found.iter().map(|finding| finding.claim).collect()
}
