//! A page of plain text that is being set: paragraphs, lists and rows of figures within so many columns.

use crate::fitting::{clean, columns, shorten, wrap};
use crate::voice::Voice;

/// Columns of the printed answer.
pub(super) const WIDTH: usize = 100;
/// Columns of the first column in lists.
const NAME: usize = 30;
/// Columns of what a figure is of, and of the figure.
const FIGURE: (usize, usize) = (47, 7);

/// Text that is being set, in one voice.
pub(super) struct Page {
    out: String,
    pub(super) voice: Voice,
}

impl Page {
    pub(super) fn new(voice: Voice) -> Self {
        Page {
            out: String::new(),
            voice,
        }
    }

    pub(super) fn into_text(self) -> String {
        self.out
    }

    pub(super) fn line(&mut self, text: &str) {
        self.out.push_str(text.trim_end());
        self.out.push('\n');
    }

    pub(super) fn gap(&mut self) {
        self.out.push('\n');
    }

    pub(super) fn heading(&mut self, words: &str) {
        self.gap();
        self.paragraph("", words);
    }

    /// A paragraph behind a mark, its further lines under the first.
    pub(super) fn paragraph(&mut self, mark: &str, words: &str) {
        let indent = columns(mark);
        for (index, line) in wrap(&clean(words), WIDTH - indent).iter().enumerate() {
            let start = if index == 0 {
                mark.to_owned()
            } else {
                " ".repeat(indent)
            };
            self.line(&format!("{start}{line}"));
        }
    }

    /// A name and what there is to say about it.
    pub(super) fn item(&mut self, name: &str, words: &str) {
        let name = shorten(name, WIDTH - 2);
        if columns(&name) > NAME {
            // A long name gets a line of its own rather than losing its end.
            self.line(&format!("  {name}"));
            self.paragraph(&" ".repeat(NAME + 3), words);
        } else {
            self.paragraph(&format!("  {} ", pad(&name, NAME)), words);
        }
    }

    /// A name and a number of stops.
    pub(super) fn figure(&mut self, name: &str, number: &str) {
        self.line(&figure(name, number));
    }
}

/// A name and a number, in columns.
pub(super) fn figure(name: &str, number: &str) -> String {
    let (name_columns, number_columns) = FIGURE;
    let name = pad(&shorten(name, name_columns), name_columns);
    let room = " ".repeat(number_columns.saturating_sub(columns(number)));
    format!("  {name} {room}{number}")
}

/// Text with spaces behind it, up to so many columns.
pub(super) fn pad(text: &str, width: usize) -> String {
    format!("{text}{}", " ".repeat(width.saturating_sub(columns(text))))
}
