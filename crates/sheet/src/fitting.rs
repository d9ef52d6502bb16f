//! Text that must fit: names without steering characters, columns of a terminal, lines of a paragraph.
//!
//! What a character takes in a terminal comes from the Unicode tables of `unicode-width`, and lines are broken by `textwrap`,
//! which counts with the same tables.

use textwrap::{Options, WordSeparator, WordSplitter};
use unicode_width::UnicodeWidthChar;

/// Text that cannot steer a terminal or turn the reading direction of what follows it: control characters, the marks of the
/// bidirectional algorithm (Unicode Standard Annex 9, table 1) and non-characters become spaces.
pub(crate) fn clean(text: &str) -> String {
    let steers = |c: char| {
        c.is_control()
            || matches!(c, '\u{61c}' | '\u{200e}' | '\u{200f}' | '\u{2028}'..='\u{202e}' | '\u{2066}'..='\u{2069}')
            || matches!(c, '\u{feff}' | '\u{fffe}' | '\u{ffff}')
    };
    text.chars().map(|c| if steers(c) { ' ' } else { c }).collect()
}

/// Text with a capital at its head.
pub(crate) fn capitalised(text: &str) -> String {
    let mut rest = text.chars();
    rest.next()
        .map_or_else(String::new, |first| first.to_uppercase().chain(rest).collect())
}

/// At most so many columns of text, the last an ellipsis where something was left off.
pub(crate) fn shorten(text: &str, most_columns: usize) -> String {
    let text = clean(text);
    let text = text.trim();
    if columns(text) <= most_columns {
        return text.to_owned();
    }
    let mut out = String::new();
    let mut used = 0;
    for c in text.chars() {
        used += char_columns(c);
        if used + 1 > most_columns {
            break;
        }
        out.push(c);
    }
    format!("{}…", out.trim_end())
}

/// Columns that a text takes in a terminal, character by character.
pub(crate) fn columns(text: &str) -> usize {
    text.chars().map(char_columns).sum()
}

fn char_columns(c: char) -> usize {
    c.width().unwrap_or(0)
}

/// Lines of at most so many columns; a word longer than a line is cut. There is always a line, be it empty.
pub(crate) fn wrap(text: &str, width: usize) -> Vec<String> {
    // Runs of spaces would survive a break; a sentence has one space between its words.
    let text = text.split_whitespace().collect::<Vec<_>>().join(" ");
    let options = Options::new(width.max(1))
        .word_separator(WordSeparator::AsciiSpace)
        .word_splitter(WordSplitter::NoHyphenation);
    let lines = textwrap::wrap(&text, options);
    lines.into_iter().map(|line| line.into_owned()).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn names_are_cleaned_and_shortened() {
        assert_eq!(clean("a\u{1b}[31mb\u{202e}"), "a [31mb ");
        assert_eq!(clean("\u{61c}a\u{2067}b\nc"), " a b c");
        assert_eq!(shorten("a long name indeed", 7), "a long…");
        assert_eq!(shorten("  short ", 7), "short");
        assert_eq!(columns("🎺e\u{301}"), 3);
        assert_eq!(columns(&shorten(&"🎺".repeat(200), 41)), 41);
        // The measure of the columns is that of the lines.
        assert_eq!(columns("日本 ☀️"), textwrap::core::display_width("日本 ☀️"));
    }

    #[test]
    fn wrapping_loses_nothing_and_stays_within_the_width() {
        let check = |text: &str, width: usize| {
            let lines = wrap(text, width);
            assert!(!lines.is_empty());
            assert!(lines.iter().all(|line| columns(line) <= width), "{lines:?}");
            let squeeze = |text: &str| text.split_whitespace().collect::<String>();
            assert_eq!(squeeze(&lines.join(" ")), squeeze(text));
        };
        check("a few words that have to be set in a narrow column", 12);
        check(&"x".repeat(500), 40);
        check(&"🎺".repeat(60), 15);
        check("", 10);
        // A hyphen of a name is no place to break.
        assert_eq!(wrap("a  half-open door", 10), ["a", "half-open", "door"]);
    }
}
