//! One change to a shoot file, and why it could not be made.

use crate::text::LONGEST_LINE;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};
use serde_json::Value as Json;

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
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum EditError {
    /// The text is larger than a shoot file can be, before or after the change.
    #[error("this would be larger than 1 MB, and a shoot file is a short text of a few kilobytes")]
    TooLarge,
    /// A line would become too long to be read.
    #[error("a line of the text would be longer than {LONGEST_LINE} letters; write less into one line")]
    LongLine,
    /// Too many changes at once.
    #[error("{count} changes at once are too many; send at most {MOST_EDITS}")]
    TooMany {
        /// How many were sent.
        count: usize,
    },
    /// The text is not TOML, so nothing can be changed in it but by hand.
    #[error("the text has a mistake that must be put right by hand first: {message}{}", at_line(*.line))]
    NotReadable {
        /// What is wrong.
        message: String,
        /// In which line, from 1.
        line: Option<usize>,
    },
    /// There is no set-up of this number.
    #[error("there is no set-up {number}; this file has {count}")]
    NoSetUp {
        /// The number from 1.
        number: usize,
        /// How many there are.
        count: usize,
    },
    /// The path leads nowhere.
    #[error("\"{path}\" cannot be changed: {why}")]
    BadPath {
        /// The path in words.
        path: String,
        /// What is in the way.
        why: String,
    },
    /// The value cannot be written in a shoot file.
    #[error("this cannot be written at \"{path}\": {why}")]
    BadValue {
        /// The path in words.
        path: String,
        /// What is wrong with it.
        why: String,
    },
    /// The part is not there.
    #[error("this text has no part {title}; add a line that says {title}, and its keys below it")]
    NoPart {
        /// Its heading.
        title: String,
    },
    /// A fault of this program.
    #[error("the change could not be written, and that is a fault of this program: {0}. Please report it")]
    Ours(String),
}

fn at_line(line: Option<usize>) -> String {
    line.map_or_else(String::new, |line| format!(" (line {line})"))
}
