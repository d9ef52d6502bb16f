//! One change to a shoot file, and why it could not be made.

use crate::both;
use crate::text::LONGEST_LINE;
use crate::words::Words;
use answer::Language;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};
use serde_json::Value as Json;
use std::fmt;

/// More changes than this at once are no longer somebody's hand (ours).
pub const MOST_EDITS: usize = 200;
/// Steps of a path, and lists and tables within one another in a value; a shoot file needs five.
pub const MOST_DEPTH: usize = 8;

/// One step of a path.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(untagged)]
pub enum Step {
    /// Into a list, counted from 0; the number of its items appends one.
    At(usize),
    /// To a key of a part.
    Key(String),
}

impl From<&str> for Step {
    fn from(key: &str) -> Self {
        Step::Key(key.to_owned())
    }
}

impl From<usize> for Step {
    fn from(index: usize) -> Self {
        Step::At(index)
    }
}

/// One change to a shoot file.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Edit {
    /// Where, beginning at a part: `["ask", "aperture"]`, `["sitter", 0, "from_left"]`, `["place", "furniture", 2]`.
    pub path: Vec<Step>,
    /// What shall stand there; `null` removes what is there.
    #[serde(default)]
    pub value: Option<Json>,
}

impl Edit {
    /// Writes a value.
    pub fn set<S: Into<Step>>(path: impl IntoIterator<Item = S>, value: impl Into<Json>) -> Self {
        Edit {
            path: path.into_iter().map(Into::into).collect(),
            value: Some(value.into()).filter(|value| !value.is_null()),
        }
    }

    /// Removes what is there.
    pub fn remove<S: Into<Step>>(path: impl IntoIterator<Item = S>) -> Self {
        Edit {
            path: path.into_iter().map(Into::into).collect(),
            value: None,
        }
    }
}

/// Why a text was not changed. None of the edits is then made.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum EditError {
    /// The text is larger than a shoot file can be, before or after the change.
    TooLarge,
    /// A line would become too long to be read.
    LongLine,
    /// Too many changes at once.
    TooMany {
        /// How many were sent.
        count: usize,
    },
    /// The text is not TOML, so nothing can be changed in it but by hand.
    NotReadable {
        /// What is wrong.
        message: Words,
        /// In which line, from 1.
        line: Option<usize>,
    },
    /// There is no set-up of this number.
    NoSetUp {
        /// The number from 1.
        number: usize,
        /// How many there are.
        count: usize,
    },
    /// The path leads nowhere.
    BadPath {
        /// The path as it is written.
        path: String,
        /// What is in the way.
        why: Words,
    },
    /// The value cannot be written in a shoot file.
    BadValue {
        /// The path as it is written.
        path: String,
        /// What is wrong with it.
        why: Words,
    },
    /// The part is not there.
    NoPart {
        /// Its heading.
        title: String,
    },
    /// A fault of this program, with what the writer of the file says.
    Ours(String),
}

impl EditError {
    /// Why, in every language: a clause without a mark at its end.
    pub fn words(&self) -> Words {
        match self {
            EditError::TooLarge => both!(
                "this would be larger than 1 MB, and a shoot file is a short text of a few kilobytes";
                "das würde größer als 1 MB, und eine Auftragsdatei ist ein kurzer Text von ein paar Kilobyte"
            ),
            EditError::LongLine => both!(
                "a line of the text would be longer than {} letters; write less into one line", LONGEST_LINE;
                "eine Zeile des Texts würde länger als {} Zeichen; schreib weniger in eine Zeile"
            ),
            EditError::TooMany { count } => both!(
                "{} changes at once are too many; send at most {}", count, MOST_EDITS;
                "{} Änderungen auf einmal sind zu viele; schick höchstens {}"
            ),
            EditError::NotReadable { message, line } => {
                let line =
                    line.map_or_else(Words::default, |line| both!(" (line {line})"; " (Zeile {line})"));
                both!(
                    "the text has a mistake that must be put right by hand first: {}{}", message, line;
                    "im Text ist ein Fehler, der zuerst von Hand zu berichtigen ist: {}{}"
                )
            }
            EditError::NoSetUp { number, count } => both!(
                "there is no set-up {number}; this file has {count}";
                "ein Set-up {number} gibt es nicht; diese Datei hat {count}"
            ),
            EditError::BadPath { path, why } => both!(
                "\"{path}\" cannot be changed: {}", why;
                "\"{path}\" lässt sich nicht ändern: {}"
            ),
            EditError::BadValue { path, why } => both!(
                "this cannot be written at \"{path}\": {}", why;
                "das lässt sich unter \"{path}\" nicht schreiben: {}"
            ),
            EditError::NoPart { title } => both!(
                "this text has no part {title}; add a line that says {title}, and its keys below it";
                "dieser Text hat keinen Teil {title}; füge eine Zeile {title} ein, und darunter die Schlüssel"
            ),
            EditError::Ours(why) => both!(
                "the change could not be written, and that is a fault of this program: {why}. Please report it";
                "die Änderung ließ sich nicht schreiben, und das ist ein Fehler dieses Programms: {why}. Bitte melde ihn"
            ),
        }
    }
}

/// In English, for programs and logs; [`EditError::words`] speaks to people.
impl fmt::Display for EditError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.words().in_language(Language::English))
    }
}

impl std::error::Error for EditError {}
