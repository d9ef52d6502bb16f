//! How sure an answer is, what that is made of, and what happens if one thing is different.

use super::nouns::{carrier, named, way};
use crate::voice::{Voice, said};
use answer::{Answer, Assumed, Confirmation, Difference, Guess, Sensitivity, Uncertainty};

/// "About 2/3 stop either way until a frame is read; most of it is paint of the left wall. Measure that first."
pub(crate) fn about(voice: Voice, answer: &Answer) -> String {
    let uncertainty = &answer.uncertainty;
    let within = voice.stops_in_thirds(uncertainty.stops);
    let about = said!(
        voice;
        "About {within} either way until a frame is read";
        "Auf etwa {within} genau, bis ein erstes Bild da ist"
    );
    let hand = answer.flash.in_hand.value();
    let more = match (0.0..uncertainty.stops).contains(&hand) {
        true => voice.pick(
            " That is more than is in hand: should the frame come out dark, raise the ISO.",
            " Das ist mehr als die Reserve: Wird das Bild zu dunkel, erhöhe die ISO-Zahl.",
        ),
        false => "",
    };
    match first_of_all(voice, uncertainty) {
        Some(first) => format!("{about}; {first}{more}"),
        None => format!("{about}.{more}"),
    }
}

/// The largest part of the doubt, and what to do about it.
fn first_of_all(voice: Voice, uncertainty: &Uncertainty) -> Option<String> {
    let first = uncertainty.parts.first()?;
    // Spreads add as squares, so "most" means more than half of the sum of squares.
    let squares: f64 = uncertainty.parts.iter().map(|part| part.stops * part.stops).sum();
    let share = if first.stops * first.stops > 0.5 * squares {
        voice.pick("most of it is", "das meiste davon:")
    } else {
        voice.pick("the largest part is", "der größte Teil davon:")
    };
    // What was not described cannot be measured, but it can be written down.
    let remedy = match first.input {
        Guess::NotDescribed => voice.pick(
            "Write the large pieces into the file",
            "Trage die großen Stücke in die Auftragsdatei ein",
        ),
        _ => voice.pick("Measure that first", "Miss das zuerst"),
    };
    let input = input(voice, &first.input);
    Some(format!("{share} {input}. {remedy}."))
}

/// An input that is not known exactly.
pub(crate) fn input(voice: Voice, guess: &Guess) -> String {
    match guess {
        Guess::FlashStrength => voice
            .pick("strength of the flash", "Stärke des Blitzes")
            .to_owned(),
        Guess::Paint { of } => {
            let whose = carrier(voice, of).whose;
            said!(voice; "paint of {whose}"; "Anstrich {whose}")
        }
        Guess::DistanceToFace => voice
            .pick("distance to the face", "Abstand zum Gesicht")
            .to_owned(),
        Guess::BoardToFace { board } => {
            let board = named(voice, board).dat;
            said!(voice; "distance from {board} to the face"; "Abstand von {board} zum Gesicht")
        }
        Guess::BoardLean { board } => {
            let board = named(voice, board).whose;
            said!(voice; "lean of {board}"; "Neigung {board}")
        }
        Guess::FlashToBoard => voice
            .pick("distance from flash to board", "Abstand vom Blitz zur Tafel")
            .to_owned(),
        Guess::RoomWidth => voice.pick("width of the room", "Breite des Raums").to_owned(),
        Guess::RoomLength => voice.pick("length of the room", "Länge des Raums").to_owned(),
        Guess::CeilingHeight => voice.pick("height of the ceiling", "Höhe der Decke").to_owned(),
        Guess::NotDescribed => voice
            .pick(
                "furniture and people not described",
                "Möbel und Menschen, die nicht beschrieben sind",
            )
            .to_owned(),
    }
}

/// What is assumed of it.
pub(crate) fn assumed(voice: Voice, assumed: Assumed) -> String {
    let percent = |share: f64| voice.plain(100.0 * share, 0);
    match assumed {
        Assumed::MeasuredGuide => voice
            .pick("guide number measured by its owner", "Leitzahl, selbst gemessen")
            .to_owned(),
        Assumed::ClaimedGuide => voice
            .pick(
                "guide number as printed by its maker",
                "Leitzahl, wie der Hersteller sie angibt",
            )
            .to_owned(),
        Assumed::ByEye { share } => {
            let share = percent(share);
            said!(voice; "judged by eye, about {share} %"; "nach Augenmaß, etwa {share} %")
        }
        Assumed::Paced { share } => {
            let share = percent(share);
            said!(voice; "paced, about {share} %"; "abgeschritten, etwa {share} %")
        }
        Assumed::HeldAt { metres } => {
            let wander = voice.short(metres);
            said!(
                voice;
                "held by hand, {wander} either way";
                "von Hand gehalten, {wander} hin oder her"
            )
        }
        Assumed::HeldLeaning { degrees } => {
            let lean = voice.plain(degrees, 0);
            said!(voice; "held by hand, about {lean}°"; "von Hand gehalten, etwa {lean}°")
        }
        Assumed::OrdinaryRoom => voice
            .pick("an ordinary furnished room", "ein Raum, möbliert wie üblich")
            .to_owned(),
    }
}

/// One thing that may be different.
pub(crate) fn difference(voice: Voice, difference: &Difference) -> String {
    match difference {
        Difference::Darker { carrier: of } => {
            let name = carrier(voice, of).bare;
            said!(voice; "{name} a third darker"; "{name} um ein Drittel dunkler")
        }
        Difference::SitterNearer { to, metres } => {
            let (far, to) = (voice.about(*metres), way(voice, to).to);
            said!(voice; "sitter {far} nearer {to}"; "Person {far} näher {to}")
        }
        Difference::CeilingLower { metres } => {
            let far = voice.short(*metres);
            said!(voice; "ceiling {far} lower"; "Decke {far} tiefer")
        }
    }
}

/// How far the key goes aside and up or down, in whole degrees.
pub(crate) fn turn(voice: Voice, change: &Sensitivity) -> String {
    if !(change.azimuth_deg.is_finite() && change.elevation_deg.is_finite()) {
        return "–".to_owned();
    }
    let part = |degrees: f64, [ahead, back]: [&str; 2]| {
        let side = if degrees > 0.0 { ahead } else { back };
        (degrees.abs() >= 0.5).then(|| format!("{}° {side}", voice.plain(degrees.abs(), 0)))
    };
    let aside = [voice.pick("right", "rechts"), voice.pick("left", "links")];
    let up = [voice.pick("up", "hoch"), voice.pick("down", "hinunter")];
    let parts = [part(change.azimuth_deg, aside), part(change.elevation_deg, up)];
    let parts: Vec<String> = parts.into_iter().flatten().collect();
    if parts.is_empty() {
        voice.pick("stays", "bleibt").to_owned()
    } else {
        parts.join(", ")
    }
}

/// What the path tracer found when it was asked about the chosen aim.
pub(crate) fn confirmation(voice: Voice, found: &Confirmation) -> String {
    // A tenth is less than anyone sees and a third is what a dial can do; both limits are ours.
    let verdict = match found.difference.value().abs() {
        off if off <= 0.1 => voice.pick("confirms the answer", "bestätigt die Antwort"),
        off if off <= 1.0 / 3.0 => voice.pick(
            "agrees within a third of a stop",
            "stimmt auf eine drittel Blende überein",
        ),
        off if off.is_finite() => voice.pick(
            "differs; trust the frame more than the answer",
            "weicht ab; traue dem ersten Bild mehr als der Antwort",
        ),
        _ => voice.pick("has not been asked", "fehlt"),
    };
    let off = voice.signed(found.difference.value(), 2);
    let error = voice.plain(found.standard_error, 2);
    let key = voice.told_from_nose(found.azimuth_deg, found.elevation_deg);
    said!(
        voice;
        "The path tracer {verdict}: {off} stop at the face (± {error}), key {key}.";
        "Die Gegenprobe {verdict}: {off} Blende im Gesicht (± {error}), Hauptlicht {key}."
    )
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::wording::tests::{check, check_in_feet};
    use answer::{Carrier, WayId};
    use scene::Face;
    use units::{MiredShift, Stops};

    #[test]
    fn guesses_say_what_they_are_and_what_is_assumed() {
        let says = |guess: Guess, of: Assumed, english: [&str; 2], german: [&str; 2]| {
            check(|voice| input(voice, &guess), english[0], german[0]);
            check(|voice| assumed(voice, of), english[1], german[1]);
        };
        let by_eye = Assumed::ByEye { share: 0.2 };
        let held = Assumed::HeldAt { metres: 0.1 };
        says(
            Guess::FlashStrength,
            Assumed::ClaimedGuide,
            ["strength of the flash", "guide number as printed by its maker"],
            ["Stärke des Blitzes", "Leitzahl, wie der Hersteller sie angibt"],
        );
        says(
            Guess::Paint {
                of: Carrier::Face { face: Face::Left },
            },
            by_eye,
            ["paint of the left wall", "judged by eye, about 20 %"],
            ["Anstrich der linken Wand", "nach Augenmaß, etwa 20 %"],
        );
        says(
            Guess::Paint {
                of: Carrier::Named {
                    name: "piano".to_owned(),
                },
            },
            by_eye,
            ["paint of the piano", "judged by eye, about 20 %"],
            ["Anstrich von „piano“", "nach Augenmaß, etwa 20 %"],
        );
        let board = Guess::BoardToFace {
            board: "white board".to_owned(),
        };
        check_in_feet(|voice| assumed(voice, held), &["4 in"], &[" cm"]);
        says(
            board,
            held,
            [
                "distance from the white board to the face",
                "held by hand, 10 cm either way",
            ],
            [
                "Abstand von „white board“ zum Gesicht",
                "von Hand gehalten, 10 cm hin oder her",
            ],
        );
        says(
            Guess::BoardLean {
                board: "white board".to_owned(),
            },
            Assumed::HeldLeaning { degrees: 8.0 },
            ["lean of the white board", "held by hand, about 8°"],
            ["Neigung von „white board“", "von Hand gehalten, etwa 8°"],
        );
        says(
            Guess::RoomWidth,
            Assumed::Paced { share: 0.06 },
            ["width of the room", "paced, about 6 %"],
            ["Breite des Raums", "abgeschritten, etwa 6 %"],
        );
    }

    #[test]
    fn differences_and_what_they_do() {
        let says = |what: Difference, english: &str, german: &str| {
            check(|voice| difference(voice, &what), english, german);
            check_in_feet(|voice| difference(voice, &what), &[], &[" m ", " cm "]);
        };
        says(
            Difference::Darker {
                carrier: Carrier::Face { face: Face::Ceiling },
            },
            "ceiling a third darker",
            "Decke um ein Drittel dunkler",
        );
        says(
            Difference::SitterNearer {
                to: WayId::Face { face: Face::Left },
                metres: 0.5,
            },
            "sitter 0.5 m nearer to the left wall",
            "Person 0,5 m näher zur linken Wand",
        );
        says(
            Difference::SitterNearer {
                to: WayId::Direct,
                metres: 0.5,
            },
            "sitter 0.5 m nearer to the flash",
            "Person 0,5 m näher zum Blitz",
        );
        says(
            Difference::CeilingLower { metres: 0.2 },
            "ceiling 20 cm lower",
            "Decke 20 cm tiefer",
        );
        let moved = |azimuth_deg, elevation_deg| Sensitivity {
            what: Difference::CeilingLower { metres: 0.2 },
            exposure: Stops(0.0),
            azimuth_deg,
            elevation_deg,
            cast: MiredShift(0.0),
        };
        check(
            |voice| turn(voice, &moved(3.2, 1.1)),
            "3° right, 1° up",
            "3° rechts, 1° hoch",
        );
        check(|voice| turn(voice, &moved(-6.4, 0.2)), "6° left", "6° links");
        check(|voice| turn(voice, &moved(0.1, -0.2)), "stays", "bleibt");
        check(|voice| turn(voice, &moved(f64::NAN, 0.0)), "–", "–");
    }

    #[test]
    fn the_path_tracer_agrees_or_not() {
        let found = |difference| Confirmation {
            difference: Stops(difference),
            standard_error: 0.02,
            azimuth_deg: -45.0,
            elevation_deg: 16.0,
        };
        check(
            |voice| confirmation(voice, &found(0.03)),
            "The path tracer confirms the answer: +0.03 stop at the face (± 0.02), key 45° camera \
             left of the nose, 16° above the eyes.",
            "Die Gegenprobe bestätigt die Antwort: +0,03 Blende im Gesicht (± 0,02), Hauptlicht 45° \
             kameralinks von der Nase, 16° über den Augen.",
        );
        for (off, english, german) in [
            (
                -0.2,
                "agrees within a third of a stop",
                "stimmt auf eine drittel Blende überein",
            ),
            (
                0.6,
                "differs; trust the frame",
                "weicht ab; traue dem ersten Bild",
            ),
            (f64::NAN, "has not been asked", "fehlt"),
        ] {
            let [en, de] = crate::wording::tests::both(|voice| confirmation(voice, &found(off)));
            assert!(en.contains(english) && de.contains(german), "{en} {de}");
        }
    }
}
