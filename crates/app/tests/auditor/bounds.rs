//! What is set against what the bag holds and the ask allows.

use crate::findings::Findings;
use crate::geometry::distance;
use crate::parts::{Aim, Camera, Flash, Route};
use crate::said::Said;
use crate::shoot::{FlashPlace, Shoot, f_number};

/// A flash on the shoe is not further from the lens than this, however its head is turned, in metres.
const ON_CAMERA_M: f64 = 0.35;
/// Apertures, times and speeds are exact thirds in JSON; the engraved ones differ by less than this, in stops.
const ENGRAVED: f64 = 0.06;
const TINY: f64 = 0.01;

/// Everything that is set for the answer.
pub fn check(shoot: &Shoot, said: &Said, findings: &mut Findings) {
    camera(shoot, &said.camera(), findings);
    flash(shoot, &said.flash(), &said.aim(), findings);
    let worn = said.gel();
    let single = |gel: &str| shoot.bag.gels.contains(&gel);
    let owned = worn.as_deref().is_none_or(|gel| gel.split(" + ").all(single));
    findings.holds("bag: a gel that is not there", owned, || {
        format!("{worn:?} of {:?}", shoot.bag.gels)
    });
    if let Some(asked) = shoot.ask.gel {
        let expected = (asked != "none").then_some(asked);
        findings.holds("ask: another gel", worn.as_deref() == expected, || {
            format!("{worn:?}, asked {asked}")
        });
    }
    if let (Some(to), far) = (said.moved_to(), shoot.ask.may_move_m.unwrap_or(0.0)) {
        let from = shoot.sitters[0].stand;
        let moved = (to[0] - from[0]).hypot(to[1] - from[1]);
        findings.holds("ask: moved further than allowed", moved <= far + TINY, || {
            format!("{moved:.3} m, {far} m")
        });
    }
}

/// The camera line.
pub fn camera(shoot: &Shoot, set: &Camera, findings: &mut Findings) {
    let (ask, body) = (&shoot.ask, &shoot.camera);
    if let Some(third) = ask.aperture {
        let off = 2.0 * (set.f_number / f_number(third)).log2();
        findings.same("ask: aperture", "stops off", off, 0.0, ENGRAVED);
    }
    let widest = f_number(body.widest);
    findings.holds(
        "camera: aperture wider than the lens",
        set.f_number > widest - TINY || ask.aperture.is_some(),
        || format!("f/{:.2}, widest f/{widest:.2}", set.f_number),
    );
    let sync = time(body.sync);
    if let Some(asked) = ask.shutter {
        findings.same(
            "ask: shutter",
            asked,
            (set.shutter_s / time(asked)).log2(),
            0.0,
            0.1,
        );
    }
    let synced = (set.shutter_s / sync).log2() > -ENGRAVED;
    findings.holds("camera: shutter faster than sync", synced, || {
        format!("{:.5} s, {sync:.5} s", set.shutter_s)
    });
    if let Some(iso) = ask.iso {
        findings.same("ask: speed", "ISO", set.iso, iso, 0.5);
    }
    let speeds = body.iso[0] - 0.5..=body.iso[1] + 0.5;
    findings.holds(
        "camera: speed out of its range",
        speeds.contains(&set.iso) || ask.iso.is_some(),
        || format!("ISO {}, {:?}", set.iso, body.iso),
    );
    let filter = set.nd == 0.0 || shoot.bag.nd.iter().any(|nd| (nd - set.nd).abs() < TINY);
    findings.holds("bag: a filter that is not there", filter, || {
        format!("{} of {:?}", set.nd, shoot.bag.nd)
    });
    // A step of tint is 0.002 Duv (SHOOT_FILE.md).
    let steps = set.tint_duv / 0.002;
    findings.same("camera: tint between steps", "steps", steps, steps.round(), TINY);
    if let Some(kelvin) = ask.white_balance {
        findings.same("ask: white balance", "kelvin", set.kelvin, kelvin, 0.5);
    }
}

/// The flash line, and who holds what.
pub fn flash(shoot: &Shoot, set: &Flash, aim: &Aim, findings: &mut Findings) {
    let bag = &shoot.bag;
    let least = f64::from(bag.least_power);
    findings.holds(
        "flash: power that it does not have",
        (-TINY..=least + TINY).contains(&set.below_full),
        || format!("{} stops below full, least {least}", set.below_full),
    );
    findings.same(
        "flash: power between clicks",
        "thirds",
        3.0 * set.below_full,
        (3.0 * set.below_full).round(),
        TINY,
    );
    let owned = match set.dress.as_str() {
        "bare" => true,
        "dome" => bag.dome,
        "bounce_card" => bag.bounce_card,
        "umbrella" => bag.umbrella.is_some(),
        "softbox" => bag.softbox.is_some(),
        _ => false,
    };
    findings.holds("bag: a front that is not there", owned, || set.dress.clone());
    let off_camera = distance(aim.flash, shoot.camera.at) > ON_CAMERA_M;
    match shoot.ask.flash {
        FlashPlace::OnCamera => findings.holds("ask: flash on the camera", !off_camera, || {
            format!("{:?}", aim.flash)
        }),
        FlashPlace::At(point) => findings.same(
            "ask: flash at its place",
            "metres off",
            distance(aim.flash, point),
            0.0,
            TINY,
        ),
        FlashPlace::Anywhere => {}
    }
    let board = matches!(&aim.route, Route::HeldBoard { .. });
    let held_flash = off_camera && !bag.stand && shoot.ask.flash == FlashPlace::Anywhere;
    let hands = u32::from(board) + u32::from(held_flash);
    findings.holds("bag: more hands than helpers", hands <= bag.helpers, || {
        format!("{hands} of {}: board {board}, flash {held_flash}", bag.helpers)
    });
    if let Route::HeldBoard { name, .. } = &aim.route {
        let owned = bag.board.as_ref().is_some_and(|board| board.name == name);
        findings.holds("bag: a board that is not there", owned, || name.clone());
    }
    for (axis, size) in shoot.room.size.iter().enumerate() {
        let inside = (0.0..=*size).contains(&aim.flash[axis]);
        findings.holds("flash: outside the place", inside, || {
            format!("{:?} in {:?}", aim.flash, shoot.room.size)
        });
    }
}

/// Seconds of a shutter time in the file's notation.
fn time(text: &str) -> f64 {
    let below = text.trim_start_matches("1/").parse::<f64>();
    1.0 / below.expect("drawn times are fractions of a second")
}
