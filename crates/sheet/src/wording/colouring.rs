//! The gel on the flash, and how the colours of the picture lie against the balance.

use super::nouns::source;
use crate::fitting::shorten;
use crate::voice::{Voice, said};
use answer::{Cast, ColourZone, Colouring, Settings, SourceColour};
use colour::WhiteBalance;
use units::{Duv, MiredShift};

/// Less green or magenta than this is not worth a word (ours: skin shows it from about here).
pub(crate) const SEEN_DUV: f64 = 0.002;

/// What a gel does to a light: "+81 mired", with the green or magenta where it has any.
pub(crate) fn shift_of_gel(voice: Voice, shift: MiredShift, duv: Duv) -> String {
    let mired = voice.signed(shift.value(), 0);
    let mired = said!(voice; "{mired} mired"; "{mired} Mired");
    if duv.value().abs() < SEEN_DUV {
        return mired;
    }
    format!(
        "{mired}, Duv {} {}",
        voice.signed(duv.value(), 3),
        voice.hue(duv.value())
    )
}

/// How a part of the picture lies against the balance.
pub(crate) fn zone(voice: Voice, zone: &ColourZone) -> String {
    match (zone.shift, zone.duv) {
        (Some(shift), Some(duv)) => format!("{}, {}", voice.mired(shift.value()), voice.tint(duv.value())),
        _ => voice.pick("a deep colour", "eine kräftige Farbe").to_owned(),
    }
}

/// A cast with the temperature of its light.
pub(crate) fn cast(voice: Voice, cast: &Cast) -> String {
    format!(
        "{}, {}; {} K",
        voice.mired(cast.shift.value()),
        voice.tint(cast.duv.value()),
        voice.plain(cast.kelvin.value(), 0)
    )
}

/// The balance that is set. It takes a cast out, so it is set to the colour of the light.
pub(crate) fn balance(voice: Voice, settings: &Settings) -> String {
    let (kelvin, tint) = (
        voice.plain(settings.white_balance.value(), 0),
        settings.tint.value(),
    );
    if tint.abs() < SEEN_DUV {
        return format!("{kelvin} K");
    }
    let (hue, duv) = (voice.hue(tint), voice.signed(tint, 3));
    said!(
        voice;
        "{kelvin} K, and for light that is {hue} by Duv {duv}";
        "{kelvin} K, und für Licht, das um Duv {duv} {hue} ist"
    )
}

/// "5000 K M5", as it is set on the camera.
pub(crate) fn balance_setting(voice: Voice, settings: &Settings) -> String {
    let tint =
        WhiteBalance::tint_setting(settings.tint).map_or_else(String::new, |steps| format!(" {steps}"));
    format!("{} K{tint}", voice.plain(settings.white_balance.value(), 0))
}

/// What each light gives of the light at the face: "flash 95 % of 5250 K, lamps 5 % of 2900 K".
pub(crate) fn shares(voice: Voice, colouring: &Colouring) -> String {
    let each = colouring.sources.iter().map(|light| share(voice, light));
    each.collect::<Vec<_>>().join(", ")
}

fn share(voice: Voice, of: &SourceColour) -> String {
    let (name, share) = (
        shorten(&source(voice, &of.source).bare, 40),
        voice.plain(100.0 * of.share, 0),
    );
    let kelvin = of.kelvin.map_or_else(String::new, |kelvin| {
        let kelvin = voice.plain(kelvin.value(), 0);
        said!(voice; " of {kelvin} K"; " mit {kelvin} K")
    });
    format!("{name} {share} %{kelvin}")
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::wording::tests::{answer, check};

    #[test]
    fn colours_lie_against_the_balance() {
        check(
            |voice| shift_of_gel(voice, MiredShift(-20.0), Duv(-0.012)),
            "−20 mired, Duv −0.012 magenta",
            "−20 Mired, Duv −0,012 magenta",
        );
        let answer = answer();
        check(
            |voice| zone(voice, &answer.colouring.zones[0]),
            "2 mired warm, neither green nor magenta (Duv +0.0005)",
            "2 Mired warm, weder grün noch magenta (Duv +0,0005)",
        );
        check(
            |voice| shares(voice, &answer.colouring),
            "flash 95 % of 5250 K, lamps 5 % of 2900 K",
            "Blitz 95 % mit 5250 K, „lamps“ 5 % mit 2900 K",
        );
        let green = Settings {
            tint: Duv(0.010),
            ..answer.settings
        };
        check(
            |voice| balance(voice, &green),
            "5250 K, and for light that is green by Duv +0.010",
            "5250 K, und für Licht, das um Duv +0,010 grün ist",
        );
        check(|voice| balance_setting(voice, &green), "5250 K M5", "5250 K M5");
    }
}
