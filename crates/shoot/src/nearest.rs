//! The known word that a mistyped one was probably meant to be.

use strsim::osa_distance;

/// Longer words than this are not typing mistakes, and comparing them would take long.
const LONGEST: usize = 40;

/// The candidate that differs least from `word`, if it differs little enough to be a slip.
///
/// A slip is an added, missing, changed or swapped letter; one is allowed for every three letters. A word
/// that begins like exactly one candidate counts too.
///
/// ```
/// let walls = ["left", "right", "ceiling"];
/// assert_eq!(shoot::nearest("cieling", walls), Some("ceiling"));
/// assert_eq!(shoot::nearest("ceil", walls), Some("ceiling"));
/// assert_eq!(shoot::nearest("banana", walls), None);
/// ```
pub fn nearest<'a>(word: &str, candidates: impl IntoIterator<Item = &'a str>) -> Option<&'a str> {
    let word = plain(word);
    let length = word.chars().count();
    if length == 0 || length > LONGEST {
        return None;
    }
    let candidates: Vec<&str> = candidates.into_iter().collect();
    let allowed = (length / 3).max(1);
    let best = candidates
        .iter()
        .map(|candidate| (osa_distance(&word, &plain(candidate)), *candidate))
        .filter(|(count, _)| *count <= allowed)
        .min_by_key(|(count, _)| *count);
    if let Some((_, candidate)) = best {
        return Some(candidate);
    }
    let mut alike = candidates.iter().filter(|candidate| {
        let candidate = plain(candidate);
        length >= 3
            && (candidate.starts_with(&word) || (candidate.len() >= 3 && word.starts_with(&candidate)))
    });
    match (alike.next(), alike.next()) {
        (Some(only), None) => Some(only),
        _ => None,
    }
}

/// Small letters, with one space between words, however they were joined.
pub(crate) fn plain(word: &str) -> String {
    let spaced = word.to_lowercase().replace(['_', '-'], " ");
    spaced.split_whitespace().collect::<Vec<_>>().join(" ")
}
