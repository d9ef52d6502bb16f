//! How the tests of the words check a sentence: in both languages at once, and neither with a word of the other.

use crate::fixture;
use crate::fixture::languages::{ENGLISH, GERMAN, leaked, without_names};
use crate::voice::{Language, Voice};
use answer::{Answer, KeyReading};

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
    assert_eq!(leaked(&said_english, GERMAN), None, "{said_english}");
    assert_eq!(
        leaked(&without_names(&said_german), ENGLISH),
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
