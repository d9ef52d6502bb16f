//! How the tests of the words check a sentence: in both languages at once, and neither with a word of the other.

use crate::fixture;
use crate::voice::{Language, Voice};
use answer::{Answer, KeyReading};

/// Words that give a language away. None is a word of the other, nor of the fixture's names for gels.
const ENGLISH: [&str; 34] = [
    "the", "of", "and", "is", "are", "stop", "stops", "with", "from", "than", "light", "flash", "face",
    "wall", "camera", "sitter", "asked", "it", "to", "at", "by", "for", "power", "shutter", "mired", "cast",
    "skin", "key", "cheeks", "not", "brighter", "hand", "board", "ambient",
];
const GERMAN: [&str; 34] = [
    "der",
    "das",
    "den",
    "dem",
    "und",
    "ist",
    "sind",
    "Blende",
    "Blenden",
    "mit",
    "von",
    "als",
    "Licht",
    "Blitz",
    "Gesicht",
    "Wand",
    "Kamera",
    "Person",
    "gewünscht",
    "es",
    "zu",
    "bei",
    "für",
    "Leistung",
    "Verschlusszeit",
    "Mired",
    "Farbstich",
    "Haut",
    "Hauptlicht",
    "Wangen",
    "nicht",
    "Tafel",
    "Folie",
    "vorhandenes",
];

/// The same words in English and in German, in metres.
pub(crate) fn both(say: impl Fn(Voice) -> String) -> [String; 2] {
    Language::ALL.map(|language| say(Voice::new(language, false)))
}

/// Checks what is said in English and in German, and that no word of one stands in the other.
#[track_caller]
pub(crate) fn check(say: impl Fn(Voice) -> String, english: &str, german: &str) {
    let [said_english, said_german] = both(say);
    assert_eq!(said_english, english);
    assert_eq!(said_german, german);
    assert_eq!(leaked(&said_english, &GERMAN), None, "{said_english}");
    assert_eq!(
        leaked(&without_names(&said_german), &ENGLISH),
        None,
        "{said_german}"
    );
}

/// Checks what is said in feet: parts of the English words, and parts that neither language may have.
#[track_caller]
pub(crate) fn check_in_feet(say: impl Fn(Voice) -> String, has: &[&str], has_not: &[&str]) {
    for language in Language::ALL {
        let said = say(Voice::new(language, true)) + " ";
        for part in has {
            assert!(
                said.replace(',', ".").contains(&part.replace(',', ".")),
                "{part} in {said}"
            );
        }
        for part in has_not {
            assert!(!said.contains(part), "{part} in {said}");
        }
    }
}

/// A word of another language.
fn leaked<'a>(text: &'a str, words: &[&str]) -> Option<&'a str> {
    text.split(|c: char| !c.is_alphanumeric())
        .find(|word| words.contains(word))
}

/// German words without the names that the photographer has given, which stand in quotation marks.
fn without_names(text: &str) -> String {
    let mut depth = 0;
    text.chars()
        .filter(|c| {
            depth += i32::from(*c == '„');
            let plain = depth == 0;
            depth -= i32::from(*c == '“');
            plain
        })
        .collect()
}

/// An invented reading of a face.
pub(crate) fn key(azimuth_deg: f64, elevation_deg: f64) -> KeyReading {
    fixture::key(azimuth_deg, elevation_deg)
}

/// An invented answer: off the left wall, from half past seven.
pub(crate) fn answer() -> Answer {
    let mut answer = fixture::bounce_left().answer;
    answer.key = key(-46.0, 17.0);
    answer.aim.light_from_clock = 7.6;
    answer.aim.flagged = false;
    answer
}
