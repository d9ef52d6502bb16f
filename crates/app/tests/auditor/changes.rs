//! Every change that is offered, made in the file and answered again.

use crate::findings::Findings;
use crate::parts::{Change, State, Then, Wish};
use crate::program::{Language, Written};
use crate::said::Said;
use crate::shoot::{Board, FlashPlace, Key, Level, Light, Shoot, Skin, nearest_aperture};

/// Answers the shoot again with each of the first offers made, and compares with what the offer says.
pub fn check(shoot: &Shoot, said: &Said, most: usize, findings: &mut Findings) {
    for (index, offer) in said.offers().into_iter().take(most).enumerate() {
        findings.about(&format!("change {} ({:?})", index + 1, offer.change));
        if let Change::Other(name) = &offer.change {
            findings.holds("change: unknown to the auditor", false, || name.clone());
            continue;
        }
        // A lamp that hangs at an hour hangs elsewhere once the person has moved: the file then means another one.
        if matches!(offer.change, Change::MoveSitters(_)) && shoot.lights.iter().any(by_the_clock) {
            continue;
        }
        let made = with(shoot, &offer.change);
        match Written::new(&made).json(Language::English) {
            Ok(again) => compare(&offer.then, &again, findings),
            Err(refused) => findings.holds("change: the changed file is refused", false, || refused),
        }
    }
    findings.about("");
}

fn by_the_clock(light: &Light) -> bool {
    light.from.as_ref().is_some_and(|from| from.contains("o'clock"))
}

/// What an offer says against the answer to the changed file.
fn compare(then: &Then, again: &Said, findings: &mut Findings) {
    let forbids = |wish: &Wish| wish.must && wish.state != State::Kept;
    let missed: Vec<_> = again
        .wishes()
        .into_iter()
        .filter(|wish| wish.state == State::Missed || forbids(wish))
        .collect();
    findings.holds("change: something is missed after it", missed.is_empty(), || {
        format!("{missed:?}")
    });
    let now = again.in_short();
    findings.holds("change: another way after it", then.way == now.way, || {
        format!("{}, but {}", then.way, now.way)
    });
    let (camera, again) = (then.camera, now.camera);
    let stops = |a: f64, b: f64| (a / b).log2();
    let mut same = |what: &str, said: f64, is: f64, within: f64| {
        findings.same("change: other settings after it", what, said, is, within);
    };
    same(
        "stops of aperture",
        2.0 * stops(camera.f_number, again.f_number),
        0.0,
        0.01,
    );
    same(
        "stops of shutter",
        stops(camera.shutter_s, again.shutter_s),
        0.0,
        0.01,
    );
    same("stops of speed", stops(camera.iso, again.iso), 0.0, 0.01);
    same("filter", camera.nd, again.nd, 0.01);
    same("kelvin", camera.kelvin, again.kelvin, 1.0);
    same("power", then.below_full, now.below_full, 0.01);
    same("zoom", then.zoom_mm, now.zoom_mm, 0.5);
    same("in hand", then.in_hand, now.in_hand, 0.1);
}

/// A shoot with a change made.
fn with(shoot: &Shoot, change: &Change) -> Shoot {
    let mut changed = shoot.clone();
    let [azimuth, tolerance, elevation] = shoot.ask.key.angles();
    let key = |tolerance: f64, elevation: f64| Key::Angles {
        azimuth,
        elevation,
        tolerance,
    };
    let (ask, bag) = (&mut changed.ask, &mut changed.bag);
    match *change {
        Change::Speed(iso) => {
            ask.iso = Some(iso);
            changed.camera.iso[1] = changed.camera.iso[1].max(iso);
        }
        Change::AllowSpeeds(most) => changed.camera.iso[1] = changed.camera.iso[1].max(most),
        Change::Aperture(number) => ask.aperture = Some(nearest_aperture(number)),
        Change::KeepInHand(stops) => ask.in_hand = stops,
        Change::WaitLonger(seconds) => ask.recycle_s = Some(seconds),
        Change::DimAmbient(stops) => {
            for light in &mut changed.lights {
                light.level = match light.level {
                    Level::Ev(ev) => Level::Ev(ev - stops),
                    Level::Lumen(lumen) => Level::Lumen(lumen * (-stops).exp2()),
                };
            }
        }
        Change::AllowCast(mired) => ask.skin = Skin::Within(mired),
        Change::AnySkin => ask.skin = Skin::Any,
        Change::AllowAngle(degrees) => ask.key = key(degrees, elevation),
        Change::OtherSide => ask.side = None,
        Change::KeyHeight(degrees) => ask.key = key(tolerance, degrees),
        Change::AnySoftness => ask.softness = "any",
        Change::Ratio(ratio) => ask.ratio = Some(ratio),
        Change::FacesDiffer(stops) => ask.evenness = Some(stops),
        Change::Background(stops) => ask.background = Some(stops),
        Change::HoldBoard => bag.helpers = bag.helpers.max(1),
        Change::FlashOffCamera(bring_stand) => {
            ask.flash = FlashPlace::Anywhere;
            bag.stand |= bring_stand;
        }
        Change::BringFilter(stops) => bag.nd.push(stops),
        Change::BringUmbrella => {
            bag.umbrella = Some("1.7 stops");
            bag.stand = true;
            ask.flash = FlashPlace::Anywhere;
        }
        Change::BringCard([width, height]) => {
            bag.board = Some(Board {
                name: "white card",
                size: format!("{width:.2} x {height:.2} m"),
                surface: "white card",
            });
            bag.helpers = bag.helpers.max(1);
        }
        Change::Both(ref both) => return with(&with(shoot, &both[0]), &both[1]),
        Change::MoveSitters(by) => {
            for sitter in &mut changed.sitters {
                sitter.stand = [sitter.stand[0] + by[0], sitter.stand[1] + by[1]];
            }
        }
        Change::Other(_) => {}
    }
    changed
}
