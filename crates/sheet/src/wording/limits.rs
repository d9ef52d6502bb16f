//! What the photographer insists on, what came of it, and by how much that misses.

use super::nouns::{named, quoted};
use crate::voice::{Voice, said};
use answer::{Job, Limit, Side, Wish};
use units::MiredShift;

/// What was asked.
pub(crate) fn asked(voice: Voice, wish: &Wish) -> String {
    match wish {
        Wish::InHand { stops } => {
            let stops = voice.stops(stops.value());
            said!(voice; "{stops} in hand"; "{stops} Reserve")
        }
        Wish::LeastPower => voice
            .pick(
                "no more light than the least power gives",
                "nicht mehr Licht, als die kleinste Leistung gibt",
            )
            .to_owned(),
        Wish::Recycle { seconds } => {
            let seconds = voice.plain(*seconds, 1);
            said!(voice; "{seconds} s between frames"; "{seconds} s von Bild zu Bild")
        }
        Wish::SkinWithin { mired } => {
            let mired = voice.plain(mired.value(), 0);
            said!(voice; "skin within {mired} mired"; "Haut innerhalb von {mired} Mired")
        }
        Wish::NoGreenMagenta => voice
            .pick("skin neither green nor magenta", "Haut weder grün noch magenta")
            .to_owned(),
        Wish::KeyFrom {
            azimuth_deg,
            side,
            tolerance_deg,
        } => key_from(voice, *azimuth_deg, *side, *tolerance_deg),
        Wish::KeyHeight { elevation_deg } => {
            let height = voice.elevation(*elevation_deg);
            said!(voice; "key {height}"; "Hauptlicht {height}")
        }
        Wish::Soft => voice.pick("soft light", "weiches Licht").to_owned(),
        Wish::Hard => voice.pick("hard light", "hartes Licht").to_owned(),
        Wish::Ratio { ratio } => {
            let ratio = voice.ratio(ratio.value());
            said!(voice; "ratio {ratio}"; "Verhältnis {ratio}")
        }
        Wish::FacesWithin { stops } => {
            let stops = voice.stops(stops.value());
            said!(voice; "faces within {stops}"; "Gesichter innerhalb von {stops}")
        }
        Wish::Background { stops } => {
            let stops = voice.signed_stops(stops.value());
            said!(voice; "background {stops} against the face"; "Hintergrund {stops} gegen das Gesicht")
        }
        Wish::AmbientOut => voice
            .pick("ambient out of the picture", "vorhandenes Licht ganz heraus")
            .to_owned(),
        Wish::AmbientAt { stops } => {
            let stops = voice.signed_stops(stops.value());
            said!(voice; "ambient at {stops}"; "vorhandenes Licht bei {stops}")
        }
        Wish::Zone { name, stops } => {
            let (name, stops) = (named(voice, name).bare, voice.signed_stops(stops.value()));
            said!(voice; "{name} at {stops}"; "{name} bei {stops}")
        }
        Wish::Skin { mired, shadow_side } => {
            let skin = colour(voice, voice.pick("skin", "Haut"), *mired);
            match shadow_side {
                true => said!(voice; "{skin}, on the shadow side too"; "{skin}, auch auf der Schattenseite"),
                false => skin,
            }
        }
        Wish::Room { mired } => colour(voice, voice.pick("room", "Raum"), *mired),
    }
}

fn key_from(voice: Voice, azimuth_deg: f64, side: Option<Side>, tolerance_deg: f64) -> String {
    let (azimuth, give) = (voice.plain(azimuth_deg, 0), voice.plain(tolerance_deg, 0));
    let side = side.map_or_else(String::new, |side| {
        let side = side_words(voice, side);
        said!(voice; " from {side}"; ", von {side}")
    });
    said!(
        voice;
        "key {azimuth}° from the nose{side}, give or take {give}°";
        "Hauptlicht {azimuth}° neben der Nase{side}, {give}° mehr oder weniger"
    )
}

/// "camera left"; "kameralinks".
pub(crate) fn side_words(voice: Voice, side: Side) -> &'static str {
    voice.side(match side {
        Side::Left => -1.0,
        Side::Right => 1.0,
    })
}

/// "skin neutral", "room warm by 35 mired".
fn colour(voice: Voice, what: &str, mired: MiredShift) -> String {
    let (amount, shift) = (voice.plain(mired.value().abs(), 0), mired.value());
    if shift == 0.0 {
        said!(voice; "{what} neutral"; "{what} neutral")
    } else if shift > 0.0 {
        said!(voice; "{what} warm by {amount} mired"; "{what} {amount} Mired wärmer")
    } else {
        said!(voice; "{what} cool by {amount} mired"; "{what} {amount} Mired kälter")
    }
}

/// What an answer makes of it.
pub(crate) fn found(voice: Voice, limit: &Limit) -> String {
    let found = limit.found;
    let stops = voice.stops(found);
    match &limit.asked {
        Wish::InHand { .. } if found < -0.05 => said!(
            voice;
            "the flash is {stops} short of the exposure";
            "dem Blitz fehlt zur Belichtung {stops}"
        ),
        Wish::InHand { .. } => said!(voice; "{stops} in hand"; "{stops} Reserve"),
        Wish::LeastPower => said!(
            voice;
            "it would take {stops} below full power";
            "es bräuchte {stops} unter voller Leistung"
        ),
        Wish::Recycle { .. } => {
            let seconds = voice.plain(found, 1);
            said!(voice; "{seconds} s at this power"; "{seconds} s bei dieser Leistung")
        }
        Wish::SkinWithin { .. } | Wish::Skin { .. } | Wish::Room { .. } => voice.mired(found),
        Wish::NoGreenMagenta => voice.tint(found),
        Wish::KeyFrom { .. } => voice.azimuth(found),
        Wish::KeyHeight { .. } => voice.elevation(found),
        Wish::Soft | Wish::Hard => {
            let times = voice.plain(found, 2);
            said!(
                voice;
                "the light is {times} times as wide as it is far away";
                "das Licht ist {times}-mal so breit, wie es weit weg ist"
            )
        }
        Wish::Ratio { ratio } => ratio_found(voice, ratio.value(), found),
        Wish::FacesWithin { .. } => {
            said!(voice; "{stops} from face to face"; "{stops} von Gesicht zu Gesicht")
        }
        Wish::Background { .. } => {
            let stops = voice.signed_stops(found);
            said!(voice; "{stops} against the face"; "{stops} gegen das Gesicht")
        }
        Wish::AmbientOut | Wish::AmbientAt { .. } | Wish::Zone { .. } => voice.signed_stops(found),
    }
}

/// The ratio that came of one that was asked, from the stops between the two.
fn ratio_found(voice: Voice, asked: f64, off_stops: f64) -> String {
    voice.ratio(asked * off_stops.exp2())
}

/// What is missed, as words behind "Nearest to it: the left wall, ".
pub(crate) fn missed(voice: Voice, job: &Job, limit: &Limit) -> String {
    let (found, short) = (limit.found, limit.short);
    let asked = asked(voice, &limit.asked);
    let quoted = quoted(voice, &asked);
    let off = |wish: f64| voice.stops(found - wish);
    match &limit.asked {
        Wish::InHand { stops } => {
            let off = off(stops.value());
            said!(voice; "{off} of flash short of {asked}"; "{off} zu wenig Blitz für {quoted}")
        }
        Wish::LeastPower => {
            let off = off(job.bag.flash.least_power_stops());
            said!(
                voice;
                "{off} too bright even at the least power";
                "selbst bei der kleinsten Leistung {off} zu hell"
            )
        }
        Wish::Recycle { seconds } => {
            let (slow, found) = (voice.plain(found - seconds, 1), voice.plain(found, 1));
            said!(
                voice;
                "{slow} s too slow for {asked} ({found} s)";
                "{slow} s zu langsam für {quoted} ({found} s)"
            )
        }
        Wish::SkinWithin { .. } => {
            let (over, found) = (voice.plain(short, 0), voice.signed(found, 0));
            said!(
                voice;
                "{over} mired over {asked} ({found})";
                "{over} Mired zu viel für {quoted} ({found})"
            )
        }
        Wish::NoGreenMagenta => {
            let (hue, found) = (voice.hue(found), voice.signed(found, 3));
            said!(voice; "too {hue} on skin (Duv {found})"; "zu {hue} auf der Haut (Duv {found})")
        }
        Wish::KeyFrom { .. } => {
            let (beyond, found) = (voice.plain(short, 0), voice.azimuth(found));
            said!(voice; "{beyond}° outside {quoted} ({found})"; "{beyond}° neben {quoted} ({found})")
        }
        Wish::KeyHeight { elevation_deg } => {
            let off = voice.plain((found - elevation_deg).abs(), 0);
            let way = match found < *elevation_deg {
                true => voice.pick("low", "tief"),
                false => voice.pick("high", "hoch"),
            };
            let found = voice.elevation(found);
            said!(voice; "{off}° too {way} ({found})"; "{off}° zu {way} ({found})")
        }
        Wish::Soft => {
            let found = voice.plain(found, 2);
            said!(
                voice;
                "not soft light ({found} wide for its distance)";
                "kein weiches Licht (Breite durch Abstand: {found})"
            )
        }
        Wish::Hard => {
            let found = voice.plain(found, 2);
            said!(
                voice;
                "not hard light ({found} wide for its distance)";
                "kein hartes Licht (Breite durch Abstand: {found})"
            )
        }
        Wish::Ratio { ratio } => {
            let (wish, found) = (
                voice.ratio(ratio.value()),
                ratio_found(voice, ratio.value(), found),
            );
            said!(voice; "a ratio of {found} instead of {wish}"; "ein Verhältnis von {found} statt {wish}")
        }
        Wish::FacesWithin { .. } => {
            let (over, found) = (voice.stops(short), voice.plain(found, 1));
            said!(
                voice;
                "{over} too uneven over the faces ({found})";
                "von Gesicht zu Gesicht {over} zu ungleich ({found})"
            )
        }
        Wish::Background { stops } | Wish::AmbientAt { stops } | Wish::Zone { stops, .. } => {
            off_wish(voice, &off(stops.value()), &quoted, found)
        }
        Wish::AmbientOut => off_wish(voice, &voice.stops(short), &quoted, found),
        Wish::Skin { .. } | Wish::Room { .. } => {
            let (beyond, found) = (voice.plain(short, 0), voice.signed(found, 0));
            said!(
                voice;
                "{beyond} mired beyond {quoted} ({found})";
                "{beyond} Mired neben {quoted} ({found})"
            )
        }
    }
}

fn off_wish(voice: Voice, off: &str, quoted: &str, found: f64) -> String {
    let found = voice.signed(found, 1);
    said!(voice; "{off} off {quoted} ({found})"; "{off} neben {quoted} ({found})")
}

/// Whether it is met, before what was found.
pub(crate) fn met(voice: Voice, met: bool) -> &'static str {
    match met {
        true => voice.pick("met", "erfüllt"),
        false => voice.pick("missed", "verfehlt"),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::wording::tests::{check, job};
    use units::{Ratio, Stops};

    fn wishes(wish: Wish, english: &str, german: &str) {
        check(|voice| asked(voice, &wish), english, german);
    }

    fn gets(wish: Wish, was: f64, english: &str, german: &str) {
        let limit = Limit::new(wish, was, 0.0);
        check(|voice| found(voice, &limit), english, german);
    }

    fn misses(wish: Wish, was: f64, short: f64, english: &str, german: &str) {
        let (limit, job) = (Limit::new(wish, was, short), job());
        check(|voice| missed(voice, &job, &limit), english, german);
    }

    fn key() -> Wish {
        Wish::KeyFrom {
            azimuth_deg: 45.0,
            side: Some(Side::Left),
            tolerance_deg: 15.0,
        }
    }

    fn ratio(to_one: f64) -> Wish {
        Wish::Ratio {
            ratio: Ratio::new(to_one).expect("a ratio"),
        }
    }

    #[test]
    fn wishes_are_told_as_they_were_made() {
        wishes(
            Wish::InHand { stops: Stops(1.0) },
            "1 stop in hand",
            "1 Blende Reserve",
        );
        wishes(
            Wish::Recycle { seconds: 2.0 },
            "2.0 s between frames",
            "2,0 s von Bild zu Bild",
        );
        wishes(
            key(),
            "key 45° from the nose from camera left, give or take 15°",
            "Hauptlicht 45° neben der Nase, von kameralinks, 15° mehr oder weniger",
        );
        wishes(
            Wish::KeyHeight { elevation_deg: -50.0 },
            "key 50° below the eyes",
            "Hauptlicht 50° unter den Augen",
        );
        wishes(ratio(4.0), "ratio 4:1", "Verhältnis 4:1");
        wishes(
            Wish::Background { stops: Stops(-1.0) },
            "background −1.0 stop against the face",
            "Hintergrund −1,0 Blende gegen das Gesicht",
        );
        wishes(
            Wish::Zone {
                name: "sky".to_owned(),
                stops: Stops(-2.0),
            },
            "sky at −2.0 stops",
            "„sky“ bei −2,0 Blenden",
        );
        wishes(
            Wish::Skin {
                mired: MiredShift(35.0),
                shadow_side: true,
            },
            "skin warm by 35 mired, on the shadow side too",
            "Haut 35 Mired wärmer, auch auf der Schattenseite",
        );
        wishes(
            Wish::Room {
                mired: MiredShift(0.0),
            },
            "room neutral",
            "Raum neutral",
        );
        wishes(
            Wish::Room {
                mired: MiredShift(-20.0),
            },
            "room cool by 20 mired",
            "Raum 20 Mired kälter",
        );
    }

    #[test]
    fn what_came_of_them_is_told_in_their_own_terms() {
        gets(
            Wish::InHand { stops: Stops(1.0) },
            -0.62,
            "the flash is 0.6 stop short of the exposure",
            "dem Blitz fehlt zur Belichtung 0,6 Blende",
        );
        gets(
            Wish::InHand { stops: Stops(1.0) },
            2.33,
            "2.3 stops in hand",
            "2,3 Blenden Reserve",
        );
        // A ratio comes back as a ratio, whether it is met or not.
        gets(ratio(3.0), 0.05, "3.1:1", "3,1:1");
        gets(ratio(4.0), -1.0, "2:1", "2:1");
        gets(
            key(),
            -46.0,
            "46° camera left of the nose",
            "46° kameralinks von der Nase",
        );
        gets(
            Wish::KeyHeight { elevation_deg: 20.0 },
            -3.0,
            "3° below the eyes",
            "3° unter den Augen",
        );
        gets(
            Wish::Soft,
            0.61,
            "the light is 0.61 times as wide as it is far away",
            "das Licht ist 0,61-mal so breit, wie es weit weg ist",
        );
        gets(
            Wish::Background { stops: Stops(-1.0) },
            -1.2,
            "−1.2 stops against the face",
            "−1,2 Blenden gegen das Gesicht",
        );
        gets(Wish::AmbientOut, -4.3, "−4.3 stops", "−4,3 Blenden");
        gets(
            Wish::SkinWithin {
                mired: MiredShift(40.0),
            },
            f64::NAN,
            "–",
            "–",
        );
    }

    #[test]
    fn what_is_missed_says_by_how_much() {
        misses(
            Wish::InHand { stops: Stops(1.0) },
            -0.62,
            1.45,
            "1.6 stops of flash short of 1 stop in hand",
            "1,6 Blenden zu wenig Blitz für „1 Blende Reserve“",
        );
        misses(
            Wish::LeastPower,
            9.0,
            0.8,
            "2 stops too bright even at the least power",
            "selbst bei der kleinsten Leistung 2 Blenden zu hell",
        );
        misses(
            Wish::Recycle { seconds: 2.0 },
            4.8,
            2.76,
            "2.8 s too slow for 2.0 s between frames (4.8 s)",
            "2,8 s zu langsam für „2,0 s von Bild zu Bild“ (4,8 s)",
        );
        misses(
            key(),
            10.0,
            40.0,
            "40° outside \"key 45° from the nose from camera left, give or take 15°\" (10° camera right of the nose)",
            "40° neben „Hauptlicht 45° neben der Nase, von kameralinks, 15° mehr oder weniger“ (10° kamerarechts von der Nase)",
        );
        misses(
            ratio(4.0),
            -1.0,
            0.5,
            "a ratio of 2:1 instead of 4:1",
            "ein Verhältnis von 2:1 statt 4:1",
        );
        misses(
            Wish::Zone {
                name: "the „old“ sky".to_owned(),
                stops: Stops(-2.0),
            },
            -0.8,
            0.8,
            "1.2 stops off \"the „old“ sky at −2.0 stops\" (−0.8)",
            "1,2 Blenden neben „‚the ‚old‘ sky‘ bei −2,0 Blenden“ (−0,8)",
        );
        misses(
            Wish::NoGreenMagenta,
            -0.009,
            0.003,
            "too magenta on skin (Duv −0.009)",
            "zu magenta auf der Haut (Duv −0,009)",
        );
    }
}
