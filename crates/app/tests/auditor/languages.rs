//! Both languages say the same numbers.

use crate::findings::Findings;
use crate::said::Said;
use std::collections::BTreeMap;

/// Sentence by sentence, and the data under them.
pub fn sentences(english: &Said, german: &Said, findings: &mut Findings) {
    findings.holds("languages: other data", english.data() == german.data(), || {
        "the JSON without its words is not the same".to_owned()
    });
    let german: BTreeMap<String, String> = german.sentences().into_iter().collect();
    for (at, sentence) in english.sentences() {
        let other = german.get(&at).map(String::as_str);
        findings.holds("languages: a sentence that one lacks", other.is_some(), || {
            format!("{at}: {sentence}")
        });
        if let Some(other) = other {
            let (here, there) = (numbers(&sentence), numbers(other));
            findings.holds("languages: other numbers in a sentence", here == there, || {
                format!("{at}: \"{sentence}\" and \"{other}\"")
            });
        }
    }
}

/// The whole text.
pub fn texts(english: &str, german: &str, findings: &mut Findings) {
    let (here, there) = (numbers(english), numbers(german));
    let more = |a: &BTreeMap<String, usize>, b: &BTreeMap<String, usize>| -> Vec<String> {
        let missing = a
            .iter()
            .filter(|(number, count)| b.get(*number).unwrap_or(&0) < count);
        missing.map(|(number, _)| number.clone()).collect()
    };
    findings.holds("languages: other numbers in the text", here == there, || {
        format!(
            "in English more often {:?}, in German {:?}",
            more(&here, &there),
            more(&there, &here)
        )
    });
}

/// The three lines of the JSON stand at the top of the text as they are.
pub fn top(said: &Said, text: &str, findings: &mut Findings) {
    let flat = |text: &str| text.split_whitespace().collect::<Vec<_>>().join(" ");
    let lines = said.lines();
    let expected = flat(&lines[..3].join(" "));
    findings.holds(
        "languages: the text begins with other lines",
        flat(text).starts_with(&expected),
        || {
            format!(
                "{expected} … {}",
                text.lines().take(4).collect::<Vec<_>>().join(" / ")
            )
        },
    );
}

/// Every number of a text with how often it comes, decimal sign aside.
fn numbers(text: &str) -> BTreeMap<String, usize> {
    let mut all = BTreeMap::new();
    let letters: Vec<char> = text.chars().collect();
    let mut at = 0;
    while at < letters.len() {
        if !letters[at].is_ascii_digit() {
            at += 1;
            continue;
        }
        let begin = at;
        while at < letters.len() && (letters[at].is_ascii_digit() || is_decimal_sign(&letters, at)) {
            at += 1;
        }
        let number: String = letters[begin..at]
            .iter()
            .map(|c| if *c == ',' { '.' } else { *c })
            .collect();
        let before: String = letters[begin.saturating_sub(5)..begin].iter().collect();
        *all.entry(spoken_alike(number, &before)).or_default() += 1;
    }
    all
}

fn is_decimal_sign(letters: &[char], at: usize) -> bool {
    let digit = |c: Option<&char>| c.is_some_and(char::is_ascii_digit);
    matches!(letters[at], '.' | ',') && digit(letters.get(at + 1))
}

/// "halb 8" is half past 7.
fn spoken_alike(number: String, before: &str) -> String {
    match number.parse::<u32>() {
        Ok(1) if before == "halb " => "12".to_owned(),
        Ok(hour) if before == "halb " => (hour - 1).to_string(),
        _ => number,
    }
}

#[test]
fn numbers_are_the_same_in_both_languages() {
    let same = |english: &str, german: &str| assert_eq!(numbers(english), numbers(german));
    same("f/4 · 1/160 · 2.3 stops, 7.", "f/4 · 1/160 · 2,3 Blenden, 7.");
    same("held at half past 7, half past 12", "gehalten auf halb 8, halb 1");
    assert_ne!(numbers("1 stop, 1 stop"), numbers("1 Blende"));
    assert_ne!(numbers("4.62"), numbers("4.6"));
}
