//! Differences in stops, whose direction must be said.

use super::quoting::shown;
use super::section::{Entry, number_of};
use super::words::{Noun, Words};
use crate::both;
use units::Stops;
use units::limits::STOPS;

/// Words behind a number of stops that say which way it goes.
const WAYS: &[(&str, f64)] = &[
    ("under", -1.0),
    ("below", -1.0),
    ("down", -1.0),
    ("darker", -1.0),
    ("over", 1.0),
    ("above", 1.0),
    ("up", 1.0),
    ("brighter", 1.0),
];

/// A difference in stops whose direction is said, by its sign or by a word behind it; one without is refused,
/// because half of its readers would mean the other.
pub(crate) fn difference(entry: &Entry<'_>, what: Noun, than: &Words, words: &[&str]) -> Option<Stops> {
    let Some(text) = entry.value.as_str() else {
        return difference_without_quotes(entry, than);
    };
    if let Some(stops) = by_word(text) {
        return Some(stops);
    }
    let is_signed = text.trim().starts_with(['+', '-', '\u{2212}']);
    match text.parse::<Stops>() {
        Ok(stops) if is_signed || stops.value() == 0.0 => Some(stops),
        Ok(_) => {
            entry.refuse(
                both!("{} could mean darker or brighter", shown(text); "{} kann dunkler oder heller heißen"),
                both!("without a sign"; "ohne Vorzeichen"),
                both!(
                    "Write \"-{0}\" for darker than {1}, \"+{0}\" for brighter.", text.trim(), than;
                    "\"-{0}\" für dunkler als {1} schreiben, \"+{0}\" für heller."
                ),
            );
            None
        }
        Err(_) => {
            entry.unknown_word(text, what, words.iter().copied());
            None
        }
    }
}

/// A bare number gets its unit proposed, and both directions if it has none.
fn difference_without_quotes(entry: &Entry<'_>, than: &Words) -> Option<Stops> {
    let number = number_of(entry.value);
    let word = if number == Some(1.0) { "stop" } else { "stops" };
    match number {
        // A number that is out of range anyway is refused as any other.
        Some(number) if number > 0.0 && number <= STOPS.highest => entry.refuse(
            both!(
                "\"{}\" says a number, but not of what", entry.key;
                "\"{}\" nennt eine Zahl, aber nicht wovon"
            ),
            both!(
                "a difference in stops belongs here, in quotes";
                "hierher gehört ein Unterschied in Blenden, in Anführungszeichen"
            ),
            both!(
                "Write \"-{number} {word}\" for darker than {}, \"+{number} {word}\" for brighter.", than;
                "\"-{number} {word}\" für dunkler als {} schreiben, \"+{number} {word}\" für heller."
            ),
        ),
        _ => {
            entry.quantity::<Stops>()?;
        }
    }
    None
}

/// "2 stops under"; a sign in front must say the same as the word.
fn by_word(text: &str) -> Option<Stops> {
    let lower = text.trim().to_lowercase();
    let (amount, way) = WAYS
        .iter()
        .find_map(|(word, way)| Some((lower.strip_suffix(word)?.trim_end(), way)))?;
    let stops = amount.parse::<Stops>().ok()?.value();
    if amount.starts_with(['+', '-', '\u{2212}']) {
        return (stops * way >= 0.0).then_some(Stops(stops));
    }
    // Nothing darker is nothing, and not minus nothing.
    Some(Stops(stops * way + 0.0))
}
