//! The lines of an answer in the notation of the trade: camera, flash, and where people move to.

use super::colouring::balance_setting;
use super::nouns::named;
use crate::fitting::shorten;
use crate::voice::{Voice, said};
use answer::{Answer, FlashSetting, GelWorn, Job, Settings};
use glam::Vec3;
use light::HeadDress;
use units::Stops;

/// Between the parts of a line.
const DOT: &str = " · ";
/// Columns of a gel's name in a line.
const GEL: usize = 40;

/// `f/4 · 1/160 · ISO 400 · 5000 K`
pub(crate) fn camera(voice: Voice, settings: &Settings) -> String {
    camera_parts(voice, settings).join(DOT)
}

/// The camera line part by part; the last one, the balance, does not expose.
pub(crate) fn camera_parts(voice: Voice, settings: &Settings) -> Vec<String> {
    let mut parts = exposing_parts(voice, settings);
    parts.push(balance_setting(voice, settings));
    parts
}

/// The part of the camera line that exposes: `f/4 · 1/160 · ISO 400 · ND 3 stops`.
pub(crate) fn exposing(voice: Voice, settings: &Settings) -> String {
    exposing_parts(voice, settings).join(DOT)
}

fn exposing_parts(voice: Voice, settings: &Settings) -> Vec<String> {
    let mut parts = vec![
        settings.aperture.nearest_third().to_string(),
        voice.shutter(settings.shutter),
        format!("ISO {:.0}", settings.iso.value()),
    ];
    if settings.nd.value() > 0.0 {
        parts.push(nd(voice, settings.nd));
    }
    parts
}

/// A filter on the lens: "ND 6 stops".
pub(crate) fn nd(voice: Voice, nd: Stops) -> String {
    format!("ND {}", voice.stops(nd.value()))
}

/// `1/8 +0.7 · zoom 50 · no gel · 2.3 stops in hand`
pub(crate) fn flash(voice: Voice, flash: &FlashSetting, gel: Option<&GelWorn>) -> String {
    let (power, hand) = (flash.power.nearest_third(), in_hand(voice, flash.in_hand));
    format!("{power} · {} · {hand}", wear(voice, flash, gel))
}

/// What does not change with the power: "zoom 50 · umbrella · no gel".
fn wear(voice: Voice, flash: &FlashSetting, gel: Option<&GelWorn>) -> String {
    wear_parts(voice, flash, gel).join(DOT)
}

/// The same part by part.
pub(crate) fn wear_parts(voice: Voice, flash: &FlashSetting, gel: Option<&GelWorn>) -> Vec<String> {
    let zoom = voice.plain(flash.zoom_mm, 0);
    let dress = match flash.dress {
        HeadDress::Bare => None,
        HeadDress::Dome => Some(voice.pick("dome on", "mit weißer Kuppel")),
        HeadDress::BounceCard => Some(voice.pick("card up", "mit ausgezogener Karte")),
        HeadDress::Umbrella(_) => Some(voice.pick("umbrella", "durch den Schirm")),
        HeadDress::Softbox(_) => Some(voice.pick("softbox", "mit Softbox")),
    };
    let gel = gel.map_or_else(
        || voice.pick("no gel", "keine Folie").to_owned(),
        |worn| gel_worn(voice, worn),
    );
    let mut parts = vec![said!(voice; "zoom {zoom}"; "Zoom {zoom}")];
    parts.extend(dress.map(str::to_owned));
    parts.push(gel);
    parts
}

/// "2.3 stops in hand", "0.4 stop short".
pub(crate) fn in_hand(voice: Voice, in_hand: Stops) -> String {
    let hand = in_hand.value();
    let stops = voice.stops(hand);
    if hand < -0.05 {
        said!(voice; "{stops} short"; "{stops} zu wenig")
    } else {
        said!(voice; "{stops} in hand"; "{stops} Reserve")
    }
}

/// `1/2 CTO, +81`: a gel with its shift in mired, or in Duv for one that is green or magenta alone.
fn gel_worn(voice: Voice, worn: &GelWorn) -> String {
    let name = shorten(worn.gel.name(), GEL);
    match (worn.shift, worn.duv) {
        (Some(shift), _) if shift.value().abs() >= 3.0 => {
            format!("{name}, {}", voice.signed(shift.value(), 0))
        }
        (_, Some(duv)) if duv.value().abs() >= 0.001 => {
            format!("{name}, Duv {}", voice.signed(duv.value(), 3))
        }
        _ => name,
    }
}

/// A step in the place, seen from the camera: "0.5 m to camera left and 0.3 m nearer to the camera"; `None` where it is
/// less than a hand's width, which is not asked of anyone.
pub(crate) fn step(voice: Voice, right_m: f64, away_m: f64) -> Option<String> {
    let worth_it = |metres: f64| metres.abs() >= 0.05;
    let mut parts = Vec::new();
    if worth_it(right_m) {
        let (far, side) = (voice.about(right_m.abs()), voice.side(right_m));
        parts.push(said!(voice; "{far} to {side}"; "{far} nach {side}"));
    }
    if worth_it(away_m) {
        let far = voice.about(away_m.abs());
        parts.push(if away_m < 0.0 {
            said!(voice; "{far} nearer to the camera"; "{far} näher zur Kamera")
        } else {
            said!(voice; "{far} further from the camera"; "{far} weiter weg von der Kamera")
        });
    }
    (!parts.is_empty()).then(|| voice.list(&parts))
}

/// "Move Wilhelmina 0.5 m to camera left" where the answer wants the sitter, or everyone, elsewhere.
pub(crate) fn moved(voice: Voice, job: &Job, answer: &Answer) -> Option<String> {
    let sitter = job.sitters.first()?;
    let way = (answer.moved? - sitter.stand).with_z(0.0);
    let (right, _, forward) = job.viewpoint.axes();
    let along = |axis: Vec3| f64::from(way.dot(axis.with_z(0.0).normalize_or_zero()));
    let step = step(voice, along(right), along(forward))?;
    let who = match job.sitters.len() {
        1 => named(voice, &shorten(&sitter.name, 40)).bare,
        _ => voice.pick("everyone", "alle Personen").to_owned(),
    };
    Some(said!(voice; "Move {who} {step}"; "Rücke {who} {step}"))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::wording::tests::check;
    use light::{Gel, GelFamily};
    use units::{Duv, Kelvin, PowerFraction, ShutterTime};

    fn settings(shutter_s: f64, nd: f64, tint: f64) -> Settings {
        Settings {
            aperture: "f/4".parse().expect("an aperture"),
            shutter: ShutterTime::new(shutter_s).expect("a shutter"),
            iso: "ISO 400".parse().expect("a speed"),
            nd: Stops(nd),
            white_balance: Kelvin::new(5000.0).expect("in range"),
            tint: Duv(tint),
        }
    }

    #[test]
    fn the_camera_line_is_a_notation() {
        let plain = "f/4 · 1/160 · ISO 400 · 5000 K";
        check(
            |voice| camera(voice, &settings(1.0 / 160.0, 0.0, 0.0)),
            plain,
            plain,
        );
        check(
            |voice| camera(voice, &settings(0.5, 3.0, 0.010)),
            "f/4 · 0.5 s · ISO 400 · ND 3 stops · 5000 K M5",
            "f/4 · 0,5 s · ISO 400 · ND 3 Blenden · 5000 K M5",
        );
    }

    #[test]
    fn the_flash_line_says_what_is_worn_and_what_is_left() {
        let set = |dress, in_hand| FlashSetting {
            power: PowerFraction::from_thirds_below_full(7).expect("a power"),
            exact_stops_below_full: 2.4,
            zoom_mm: 50.0,
            dress,
            in_hand: Stops(in_hand),
        };
        let worn = GelWorn {
            gel: Gel::named("1/2 CTO", GelFamily::Straw).expect("a gel"),
            shift: Some(units::MiredShift(81.0)),
            duv: Some(Duv(0.0)),
            kelvin: None,
            loss: Stops(0.7),
        };
        check(
            |voice| flash(voice, &set(HeadDress::Bare, 2.333), None),
            "1/8 +0.7 · zoom 50 · no gel · 2.3 stops in hand",
            "1/8 +0.7 · Zoom 50 · keine Folie · 2,3 Blenden Reserve",
        );
        check(
            |voice| flash(voice, &set(HeadDress::Dome, -0.62), Some(&worn)),
            "1/8 +0.7 · zoom 50 · dome on · 1/2 CTO, +81 · 0.6 stop short",
            "1/8 +0.7 · Zoom 50 · mit weißer Kuppel · 1/2 CTO, +81 · 0,6 Blende zu wenig",
        );
    }

    #[test]
    fn a_step_is_told_from_the_camera() {
        check(
            |voice| step(voice, -0.5, -0.3).expect("a step"),
            "0.5 m to camera left and 0.3 m nearer to the camera",
            "0,5 m nach kameralinks und 0,3 m näher zur Kamera",
        );
        assert_eq!(step(Voice::default(), 0.04, f64::NAN), None);
    }
}
