//! What the photographer wishes, what came of it, and how far that is off.

use super::nouns::{named, quoted};
use crate::voice::{Voice, said};
use answer::{Judgement, Side, Wish, WishState};
use units::MiredShift;

/// What was asked.
pub(crate) fn asked(voice: Voice, wish: &Wish) -> String {
    match wish {
        Wish::Exposed => voice
            .pick("a face that is exposed right", "ein richtig belichtetes Gesicht")
            .to_owned(),
        Wish::InHand { stops } => {
            let stops = voice.stops(stops.value());
            said!(voice; "{stops} in hand"; "{stops} Reserve")
        }
        Wish::Recycle { seconds } => {
            let seconds = voice.plain(*seconds, 1);
            said!(voice; "{seconds} s between frames"; "{seconds} s von Bild zu Bild")
        }
        Wish::NeutralSkin => voice.pick("neutral skin", "neutrale Haut").to_owned(),
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
        Wish::OpenEyes { .. } => voice
            .pick("eyes that the light reaches", "Augen, in die das Licht reicht")
            .to_owned(),
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
        Wish::FlashUnder { stops } => {
            let stops = voice.stops(stops.value());
            said!(
                voice;
                "flash as a fill, {stops} under the light that is there";
                "Blitz als Aufhellung, {stops} unter dem vorhandenen Licht"
            )
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

/// The eye socket that decides.
fn socket(voice: Voice, lit_side: bool) -> &'static str {
    match lit_side {
        true => voice.pick("the socket on the lit side", "die Augenhöhle der Lichtseite"),
        false => voice.pick("the darker socket", "die dunklere Augenhöhle"),
    }
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
pub(crate) fn found(voice: Voice, wish: &Judgement) -> String {
    let found = wish.found;
    let stops = voice.stops(found);
    match &wish.asked {
        Wish::Exposed => exposed(voice, found, wish.tolerance),
        Wish::InHand { .. } => said!(voice; "{stops} in hand"; "{stops} Reserve"),
        Wish::Recycle { .. } => {
            let seconds = voice.plain(found, 1);
            said!(voice; "{seconds} s at this power"; "{seconds} s bei dieser Leistung")
        }
        Wish::NeutralSkin => {
            let mired = voice.mired(found);
            said!(voice; "{mired} once it is balanced"; "{mired} nach dem Abgleich")
        }
        Wish::Skin { .. } | Wish::Room { .. } => voice.mired(found),
        Wish::NoGreenMagenta => voice.tint(found),
        Wish::KeyFrom { .. } => voice.azimuth(found),
        Wish::KeyHeight { .. } => voice.elevation(found),
        Wish::OpenEyes { lit_side, .. } => {
            let (socket, stops) = (socket(voice, *lit_side), voice.signed_stops(found));
            said!(
                voice;
                "{socket} {stops} against the cheek below it";
                "{socket} {stops} gegen die Wange darunter"
            )
        }
        Wish::FlashUnder { .. } => voice.stops_under(found),
        Wish::Soft | Wish::Hard => {
            let times = voice.plain(found, 2);
            said!(
                voice;
                "the light is {times} times as wide as it is far away";
                "das Licht ist {times}-mal so breit, wie es weit weg ist"
            )
        }
        Wish::Ratio { .. } => voice.ratio(found),
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

/// How a face comes out.
fn exposed(voice: Voice, found: f64, tolerance: f64) -> String {
    let off = voice.stops(found.abs());
    if found.abs() <= tolerance {
        said!(voice; "exposed right"; "richtig belichtet")
    } else if found < 0.0 {
        said!(
            voice;
            "{off} too dark even at full power";
            "selbst bei voller Leistung {off} zu dunkel"
        )
    } else {
        said!(
            voice;
            "{off} too bright even at the least power";
            "selbst bei der kleinsten Leistung {off} zu hell"
        )
    }
}

/// What is lacking, as words in a list of such.
pub(crate) fn missed(voice: Voice, wish: &Judgement) -> String {
    let found = wish.found;
    let asked = asked(voice, &wish.asked);
    let quoted = quoted(voice, &asked);
    match &wish.asked {
        Wish::Exposed => {
            let off = exposed(voice, found, 0.0);
            said!(voice; "the face comes out {off}"; "das Gesicht wird {off}")
        }
        Wish::InHand { .. } => {
            let stops = voice.stops(found);
            said!(voice; "{stops} in hand instead of {asked}"; "{stops} Reserve statt {quoted}")
        }
        Wish::Recycle { seconds } => {
            let (slow, found) = (voice.plain(found - seconds, 1), voice.plain(found, 1));
            said!(
                voice;
                "{slow} s too slow for {asked} ({found} s)";
                "{slow} s zu langsam für {quoted} ({found} s)"
            )
        }
        Wish::NeutralSkin => {
            let found = voice.mired(found);
            said!(voice; "skin {found} once it is balanced"; "Haut nach dem Abgleich {found}")
        }
        Wish::NoGreenMagenta => {
            let (hue, found) = (voice.hue(found), voice.signed(found, 3));
            said!(voice; "too {hue} on skin (Duv {found})"; "zu {hue} auf der Haut (Duv {found})")
        }
        Wish::KeyFrom { .. } => {
            let (off, found) = (voice.plain(wish.off, 0), voice.azimuth(found));
            said!(voice; "{off}° off {quoted} ({found})"; "{off}° neben {quoted} ({found})")
        }
        Wish::KeyHeight { elevation_deg } => {
            let off = voice.plain(wish.off, 0);
            let way = match found < *elevation_deg {
                true => voice.pick("low", "tief"),
                false => voice.pick("high", "hoch"),
            };
            let found = voice.elevation(found);
            said!(voice; "{off}° too {way} ({found})"; "{off}° zu {way} ({found})")
        }
        Wish::OpenEyes { lit_side, .. } => {
            let (socket, stops) = (socket(voice, *lit_side), voice.signed_stops(found));
            said!(
                voice;
                "dark eyes ({socket} {stops} against the cheek below it)";
                "dunkle Augen ({socket} {stops} gegen die Wange darunter)"
            )
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
            let (asked, found) = (voice.ratio(ratio.value()), voice.ratio(found));
            said!(voice; "a ratio of {found} instead of {asked}"; "ein Verhältnis von {found} statt {asked}")
        }
        Wish::FacesWithin { .. } => {
            let (off, found) = (voice.stops(wish.off), voice.plain(found, 1));
            said!(
                voice;
                "{off} too uneven over the faces ({found})";
                "von Gesicht zu Gesicht {off} zu ungleich ({found})"
            )
        }
        Wish::Background { .. } | Wish::AmbientAt { .. } | Wish::AmbientOut | Wish::Zone { .. } => {
            off_wish(voice, &voice.stops(wish.off), &quoted, found)
        }
        Wish::FlashUnder { .. } => {
            let (off, found) = (voice.stops(wish.off), voice.stops_under(found));
            said!(voice; "{off} off {quoted} ({found})"; "{off} neben {quoted} ({found})")
        }
        Wish::Skin { .. } | Wish::Room { .. } => {
            let (off, found) = (voice.plain(wish.off, 0), voice.signed(found, 0));
            said!(voice; "{off} mired off {quoted} ({found})"; "{off} Mired neben {quoted} ({found})")
        }
    }
}

fn off_wish(voice: Voice, off: &str, quoted: &str, found: f64) -> String {
    let found = voice.signed(found, 1);
    said!(voice; "{off} off {quoted} ({found})"; "{off} neben {quoted} ({found})")
}

/// How near an answer comes, before what was found.
pub(crate) fn state(voice: Voice, wish: &Judgement) -> &'static str {
    match wish.state {
        WishState::Kept => voice.pick("kept", "erfüllt"),
        WishState::Nearly => voice.pick("nearly", "fast erfüllt"),
        WishState::Missed => voice.pick("missed", "verfehlt"),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::wording::tests::check;
    use units::{Ratio, Stops};

    fn wishes(wish: Wish, english: &str, german: &str) {
        check(|voice| asked(voice, &wish), english, german);
    }

    fn gets(wish: Wish, was: f64, english: &str, german: &str) {
        let judged = Judgement::new(wish, was, 0.0, 0.34, 1.0);
        check(|voice| found(voice, &judged), english, german);
    }

    fn misses(wish: Wish, was: f64, off: f64, english: &str, german: &str) {
        let judged = Judgement::new(wish, was, off, 0.1, 1.0);
        assert_eq!(judged.state, WishState::Missed);
        check(|voice| missed(voice, &judged), english, german);
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
        gets(Wish::Exposed, 0.1, "exposed right", "richtig belichtet");
        gets(
            Wish::Exposed,
            -0.62,
            "0.6 stop too dark even at full power",
            "selbst bei voller Leistung 0,6 Blende zu dunkel",
        );
        gets(
            Wish::InHand { stops: Stops(1.0) },
            2.33,
            "2.3 stops in hand",
            "2,3 Blenden Reserve",
        );
        gets(ratio(3.0), 3.1, "3.1:1", "3,1:1");
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
            Wish::OpenEyes {
                stops: Stops(-1.5),
                lit_side: false,
            },
            -1.2,
            "the darker socket −1.2 stops against the cheek below it",
            "die dunklere Augenhöhle −1,2 Blenden gegen die Wange darunter",
        );
        gets(
            Wish::OpenEyes {
                stops: Stops(-1.5),
                lit_side: true,
            },
            -0.4,
            "the socket on the lit side −0.4 stop against the cheek below it",
            "die Augenhöhle der Lichtseite −0,4 Blende gegen die Wange darunter",
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
        let fill = Wish::FlashUnder { stops: Stops(1.5) };
        gets(fill.clone(), 1.7, "1.7 stops under", "1,7 Blenden darunter");
        gets(fill, -0.5, "0.5 stop over", "0,5 Blende darüber");
        gets(
            Wish::NeutralSkin,
            f64::NAN,
            "– once it is balanced",
            "– nach dem Abgleich",
        );
    }

    #[test]
    fn what_is_missed_says_by_how_much() {
        misses(
            Wish::Exposed,
            2.0,
            2.0,
            "the face comes out 2 stops too bright even at the least power",
            "das Gesicht wird selbst bei der kleinsten Leistung 2 Blenden zu hell",
        );
        misses(
            Wish::InHand { stops: Stops(1.0) },
            0.0,
            1.0,
            "0 stops in hand instead of 1 stop in hand",
            "0 Blenden Reserve statt „1 Blende Reserve“",
        );
        misses(
            Wish::Recycle { seconds: 2.0 },
            4.8,
            2.8,
            "2.8 s too slow for 2.0 s between frames (4.8 s)",
            "2,8 s zu langsam für „2,0 s von Bild zu Bild“ (4,8 s)",
        );
        misses(
            key(),
            10.0,
            55.0,
            "55° off \"key 45° from the nose from camera left, give or take 15°\" (10° camera right of the nose)",
            "55° neben „Hauptlicht 45° neben der Nase, von kameralinks, 15° mehr oder weniger“ (10° kamerarechts von der Nase)",
        );
        misses(
            ratio(4.0),
            2.0,
            1.0,
            "a ratio of 2:1 instead of 4:1",
            "ein Verhältnis von 2:1 statt 4:1",
        );
        misses(
            Wish::Zone {
                name: "the „old“ sky".to_owned(),
                stops: Stops(-2.0),
            },
            -0.8,
            1.2,
            "1.2 stops off \"the „old“ sky at −2.0 stops\" (−0.8)",
            "1,2 Blenden neben „‚the ‚old‘ sky‘ bei −2,0 Blenden“ (−0,8)",
        );
        misses(
            Wish::NoGreenMagenta,
            -0.009,
            0.9,
            "too magenta on skin (Duv −0.009)",
            "zu magenta auf der Haut (Duv −0,009)",
        );
    }
}
