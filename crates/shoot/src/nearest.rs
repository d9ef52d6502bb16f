//! The known word that a mistyped one was probably meant to be.

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
        .map(|candidate| (slips(&word, &plain(candidate)), *candidate))
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

/// Optimal string alignment distance: insertions, deletions, changes, and swaps of neighbours.
fn slips(a: &str, b: &str) -> usize {
    let (a, b): (Vec<char>, Vec<char>) = (a.chars().collect(), b.chars().collect());
    let mut before: Vec<usize> = Vec::new();
    let mut above: Vec<usize> = (0..=b.len()).collect();
    for i in 1..=a.len() {
        let mut row = vec![i];
        for j in 1..=b.len() {
            let change = usize::from(a[i - 1] != b[j - 1]);
            let mut least = (above[j] + 1).min(row[j - 1] + 1).min(above[j - 1] + change);
            if i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1] {
                least = least.min(before[j - 2] + 1);
            }
            row.push(least);
        }
        before = std::mem::replace(&mut above, row);
    }
    above[b.len()]
}

#[cfg(test)]
mod tests {
    use super::slips;

    #[test]
    fn counts_slips_of_the_finger() {
        for (a, b, expected) in [
            ("height", "height", 0),
            ("hieght", "height", 1),
            ("heigt", "height", 1),
            ("heightt", "height", 1),
            ("neight", "height", 1),
            ("", "abc", 3),
            ("abc", "", 3),
            ("lens", "sync", 3),
        ] {
            assert_eq!(slips(a, b), expected, "{a} {b}");
        }
    }
}
