//! Flash against the light that is there: zones, reach, what each control does, and settings for later.

use super::lines::{camera, nd};
use super::nouns::named;
use super::variations::changed;
use crate::voice::{Voice, said};
use answer::{Answer, Balance, Control, LaterSettings, LaterWay, Reach, ZoneLevel};
use camera::DepthLimits;
use units::MiredShift;

/// A control and one step of it: "shutter" and "1/3 stop slower".
pub(crate) fn control(voice: Voice, control: &Control) -> (String, String) {
    let third = voice.stops_in_thirds(1.0 / 3.0);
    let up = || said!(voice; "{third} up"; "{third} höher");
    match control {
        Control::Shutter => (
            voice.pick("shutter", "Verschlusszeit").to_owned(),
            said!(voice; "{third} slower"; "{third} länger"),
        ),
        Control::Aperture => (
            voice.pick("aperture", "Blende").to_owned(),
            said!(voice; "{third} wider"; "{third} weiter offen"),
        ),
        Control::Iso => ("ISO".to_owned(), up()),
        Control::Power => (voice.pick("power", "Leistung").to_owned(), up()),
        Control::FlashDistance => (
            voice.pick("flash distance", "Blitzabstand").to_owned(),
            said!(voice; "11 % nearer"; "11 % näher"),
        ),
        Control::Gel => (
            voice.pick("gel", "Folie").to_owned(),
            said!(voice; "for each {third} of loss"; "je {third} Verlust"),
        ),
        Control::Filter { nd: filter } => (
            nd(voice, *filter),
            voice.pick("onto the lens", "vor das Objektiv").to_owned(),
        ),
    }
}

/// Power and zoom of a reach: "zoom 50 at 1/4".
pub(crate) fn reach(voice: Voice, reach: &Reach) -> String {
    let (zoom, power) = (voice.plain(reach.zoom_mm, 0), reach.power.nearest_third());
    said!(voice; "zoom {zoom} at {power}"; "Zoom {zoom} bei {power}")
}

/// "4.2 m at 1/1, zoom 50".
pub(crate) fn reach_with_distance(voice: Voice, reach: &Reach) -> String {
    let (far, zoom) = (voice.exact(reach.metres), voice.plain(reach.zoom_mm, 0));
    let power = reach.power.nearest_third();
    said!(voice; "{far} at {power}, zoom {zoom}"; "{far} bei {power}, Zoom {zoom}")
}

/// "95 % flash, 5 % ambient".
pub(crate) fn shares(voice: Voice, balance: &Balance) -> String {
    let share = 100.0 * balance.flash_share;
    let (flash, rest) = (voice.plain(share, 0), voice.plain(100.0 - share, 0));
    said!(voice; "{flash} % flash, {rest} % ambient"; "{flash} % Blitz, {rest} % vorhandenes Licht")
}

/// "EV 9.3 at ISO 100".
pub(crate) fn right_for(voice: Voice, balance: &Balance) -> String {
    let ev = voice.plain(balance.settings_ev.value(), 1);
    said!(voice; "EV {ev} at ISO 100"; "EV {ev} bei ISO 100")
}

/// Where a zone comes out. The balance decides how it looks: warmer than the balance is a positive difference.
pub(crate) fn zone(voice: Voice, zone: &ZoneLevel, answer: &Answer) -> String {
    let level = voice.signed_stops(zone.level.value());
    let mut words = said!(voice; "{level} from normal"; "{level} von normal");
    if let Some(wish) = zone.wish {
        let wish = voice.signed(wish.value(), 1);
        words += &said!(voice; ", wished at {wish}"; ", gewünscht {wish}");
    }
    if let Some(kelvin) = zone.kelvin {
        let against: MiredShift = kelvin.mired() - answer.settings.white_balance.mired();
        let (kelvin, against) = (voice.plain(kelvin.value(), 0), voice.signed(against.value(), 0));
        words += &said!(
            voice;
            "; {kelvin} K looks {against} mired against the balance";
            "; {kelvin} K liegen {against} Mired gegen den Abgleich"
        );
    }
    words
}

/// How deep it is sharp.
pub(crate) fn sharp(voice: Voice, sharp: &DepthLimits) -> String {
    let depth = sharp.depth_m();
    if !depth.is_finite() {
        return voice.pick("to the horizon", "bis zum Horizont").to_owned();
    }
    let depth = voice.exact(depth);
    said!(voice; "{depth} in all"; "{depth} insgesamt")
}

/// "Later, dusk (−2.0 stops): shutter 1/50, all else untouched."
pub(crate) fn later(voice: Voice, later: &LaterSettings, answer: &Answer) -> String {
    let change = voice.signed_stops(later.change.value());
    let (name, then) = (
        named(voice, &later.name).bare,
        touched(voice, &later.then, answer),
    );
    let words = said!(voice; "Later, {name} ({change}): {then}"; "Später, {name} ({change}): {then}");
    match &later.instead {
        None => format!("{words}."),
        Some(instead) => {
            let shutter = voice.shutter(later.then.settings.shutter);
            let instead = touched(voice, instead, answer);
            said!(
                voice;
                "{words}. {shutter} is slow for a person; or else: {instead}.";
                "{words}. {shutter} ist lang für einen Menschen; oder stattdessen: {instead}."
            )
        }
    }
}

/// What is touched for a later time: "shutter 1/50, all else untouched".
pub(crate) fn touched(voice: Voice, way: &LaterWay, answer: &Answer) -> String {
    let before = (&answer.settings, answer.flash.power);
    changed(voice, before, (&way.settings, way.power))
}

/// The whole settings of a later time, with what they leave.
pub(crate) fn later_in_full(voice: Voice, way: &LaterWay) -> String {
    let (camera, power) = (camera(voice, &way.settings), way.power.nearest_third());
    let flash = voice.signed(way.flash.value(), 2);
    let mut words = said!(
        voice;
        "{camera}, power {power}: flash {flash}";
        "{camera}, Leistung {power}: Blitz {flash}"
    );
    if let Some(ambient) = way.ambient {
        let ambient = voice.signed(ambient.value(), 2);
        words += &said!(voice; ", ambient {ambient}"; ", vorhandenes Licht {ambient}");
    }
    for zone in &way.zones {
        let (name, stops) = (named(voice, &zone.name).bare, voice.signed(zone.stops.value(), 2));
        words += &format!(", {name} {stops}");
    }
    words
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::wording::tests::{answer, check, check_in_feet};
    use answer::ZoneStops;
    use units::{Kelvin, PowerFraction, ShutterTime, Stops};

    #[test]
    fn controls_say_what_one_step_is() {
        let says = |of: Control, english: [&str; 2], german: [&str; 2]| {
            check(|voice| control(voice, &of).0, english[0], german[0]);
            check(|voice| control(voice, &of).1, english[1], german[1]);
        };
        says(
            Control::Shutter,
            ["shutter", "1/3 stop slower"],
            ["Verschlusszeit", "1/3 Blende länger"],
        );
        says(
            Control::Aperture,
            ["aperture", "1/3 stop wider"],
            ["Blende", "1/3 Blende weiter offen"],
        );
        says(Control::Iso, ["ISO", "1/3 stop up"], ["ISO", "1/3 Blende höher"]);
        says(
            Control::Power,
            ["power", "1/3 stop up"],
            ["Leistung", "1/3 Blende höher"],
        );
        says(
            Control::FlashDistance,
            ["flash distance", "11 % nearer"],
            ["Blitzabstand", "11 % näher"],
        );
        says(
            Control::Gel,
            ["gel", "for each 1/3 stop of loss"],
            ["Folie", "je 1/3 Blende Verlust"],
        );
        says(
            Control::Filter { nd: Stops(6.0) },
            ["ND 6 stops", "onto the lens"],
            ["ND 6 Blenden", "vor das Objektiv"],
        );
    }

    #[test]
    fn levels_are_told_against_normal() {
        let answer = answer();
        let sky = ZoneLevel {
            name: "sky".to_owned(),
            level: Stops(-1.9),
            wish: Some(Stops(-2.0)),
            kelvin: Some(Kelvin::new(9000.0).expect("in range")),
        };
        check(
            |voice| zone(voice, &sky, &answer),
            "−1.9 stops from normal, wished at −2.0; 9000 K looks −79 mired against the balance",
            "−1,9 Blenden von normal, gewünscht −2,0; 9000 K liegen −79 Mired gegen den Abgleich",
        );
        let far = Reach {
            zoom_mm: 50.0,
            power: PowerFraction::from_thirds_below_full(0).expect("a power"),
            metres: 4.25,
        };
        check(|voice| reach(voice, &far), "zoom 50 at 1/1", "Zoom 50 bei 1/1");
        check(
            |voice| reach_with_distance(voice, &far),
            "4.25 m at 1/1, zoom 50",
            "4,25 m bei 1/1, Zoom 50",
        );
        check_in_feet(|voice| reach_with_distance(voice, &far), &["13 ft 11"], &[" m "]);
        let endless = DepthLimits {
            near_m: 2.0,
            far_m: f64::INFINITY,
        };
        check(
            |voice| sharp(voice, &endless),
            "to the horizon",
            "bis zum Horizont",
        );
    }

    #[test]
    fn later_settings_touch_as_little_as_they_can() {
        let answer = answer();
        let way = |shutter: f64| LaterWay {
            settings: answer::Settings {
                shutter: ShutterTime::new(shutter).expect("a shutter"),
                ..answer.settings
            },
            power: answer.flash.power,
            ambient: Some(Stops(-2.0)),
            flash: Stops(0.1),
            zones: vec![ZoneStops {
                name: "sky".to_owned(),
                stops: Stops(-1.0),
            }],
        };
        let dusk = LaterSettings {
            name: "dusk".to_owned(),
            change: Stops(-2.0),
            then: way(1.0 / 50.0),
            instead: Some(way(1.0 / 160.0)),
        };
        check(
            |voice| later(voice, &dusk, &answer),
            "Later, dusk (−2.0 stops): shutter 1/50, all else untouched. 1/50 is slow for a person; or else: nothing to change.",
            "Später, „dusk“ (−2,0 Blenden): Verschlusszeit 1/50, alles andere bleibt. 1/50 ist lang für einen Menschen; oder \
             stattdessen: nichts zu ändern.",
        );
        check(
            |voice| later_in_full(voice, &dusk.then),
            "f/4 · 1/50 · ISO 400 · 5250 K, power 1/8 +0.7: flash +0.10, ambient −2.00, sky −1.00",
            "f/4 · 1/50 · ISO 400 · 5250 K, Leistung 1/8 +0.7: Blitz +0,10, vorhandenes Licht −2,00, „sky“ −1,00",
        );
    }
}
