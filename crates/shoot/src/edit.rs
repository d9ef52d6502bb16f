//! Changing the text of a shoot file in place: remarks, order and layout of everything else stay as they were written.
//!
//! A path begins at a part, as one set-up sees it: `["ask", "aperture"]`, `["sitter", 0, "from_left"]`. The change lands
//! where that part is written: in the set-up if it has the part of its own, else in the common one. An ask is always the
//! set-up's own; if it was not yet, the common one is copied first. `["setup", 2, "name"]` reaches a set-up itself.
//!
//! ```
//! use shoot::edit::{Edit, edit};
//! let text = "[ask]\naperture = \"f/4\" # as wide as it goes\n";
//! let edits = [Edit::set(["ask", "aperture"], "f/2.8"), Edit::remove(["ask", "key"])];
//! let changed = edit(text, 0, &edits).expect("a change that can be made");
//! assert_eq!(changed, "[ask]\naperture = \"f/2.8\" # as wide as it goes\n");
//! ```

mod json;
mod places;
mod write;

pub use json::{AsWritten, PartKind};

use super::parts;
use super::section::shorten;
use super::text::{self, LONGEST_LINE, MOST_BYTES};
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};
use serde_json::Value as Json;
use std::fmt::Write as _;
use toml_edit::{DocumentMut, Item, TableLike, Value};

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

/// Makes the changes, one after the other, as set-up number `set_up` (from 0) sees the file; all of them or none.
///
/// The result is always TOML. Whether it is a good shoot file is another question: it may well be that a value must be
/// put right before it is.
///
/// # Errors
/// A text that is no TOML, a path that leads nowhere, a value that cannot be written, or too much of anything.
pub fn edit(text: &str, set_up: usize, edits: &[Edit]) -> Result<String, EditError> {
    if edits.len() > MOST_EDITS {
        return Err(EditError::TooMany { count: edits.len() });
    }
    let mut draft = Draft::open(text)?;
    for edit in edits {
        draft.make(set_up, edit)?;
    }
    draft.close()
}

/// Gives a set-up its own copy of a common part, remarks included, so that changes to it no longer change the others.
/// Nothing happens if it has one.
///
/// # Errors
/// A text that is no TOML, a set-up or a part that is not there, or a text that grows too large.
pub fn make_own(text: &str, set_up: usize, part: &str) -> Result<String, EditError> {
    let mut draft = Draft::open(text)?;
    let count = draft.set_ups();
    if set_up >= count {
        return Err(EditError::NoSetUp {
            number: set_up.saturating_add(1),
            count,
        });
    }
    known_part(part)?;
    if !draft.owns(set_up, part) && !draft.copy_common(set_up, part)? {
        return Err(EditError::NoPart {
            title: format!("[{part}]"),
        });
    }
    draft.close()
}

/// A text that is being changed.
pub(crate) struct Draft {
    document: DocumentMut,
    mark: bool,
    carriage_returns: bool,
    long_line: bool,
}

impl Draft {
    /// Takes the text apart.
    pub fn open(text: &str) -> Result<Self, EditError> {
        if text.len() as u64 > MOST_BYTES {
            return Err(EditError::TooLarge);
        }
        let (mark, plain) = match text.strip_prefix('\u{feff}') {
            Some(plain) => (true, plain),
            None => (false, text),
        };
        // The writer knows one kind of line end, so that of the file is put back afterwards.
        let carriage_returns = plain.contains("\r\n");
        let plain = plain.replace("\r\n", "\n");
        let document = plain
            .parse::<DocumentMut>()
            .map_err(|error| not_readable(&plain, &error))?;
        Ok(Draft {
            document,
            mark,
            carriage_returns,
            long_line: has_long_line(&plain),
        })
    }

    /// The text with the changes in it.
    pub fn close(mut self) -> Result<String, EditError> {
        places::settle(self.document.as_table_mut());
        let text = self.document.to_string();
        if let Err(error) = text.parse::<DocumentMut>() {
            return Err(EditError::Ours(error.message().to_owned()));
        }
        if !self.long_line && has_long_line(&text) {
            return Err(EditError::LongLine);
        }
        let text = if self.carriage_returns {
            text.replace('\n', "\r\n")
        } else {
            text
        };
        let text = if self.mark {
            format!("\u{feff}{text}")
        } else {
            text
        };
        if text.len() as u64 > MOST_BYTES {
            return Err(EditError::TooLarge);
        }
        Ok(text)
    }

    /// The whole document.
    pub fn document(&mut self) -> &mut DocumentMut {
        &mut self.document
    }

    /// How many set-ups there are; none if the file has no `[[setup]]`.
    pub fn set_ups(&self) -> usize {
        json::set_ups(self.document.as_table()).len()
    }

    /// Whether a set-up has a part of its own.
    pub fn owns(&self, set_up: usize, part: &str) -> bool {
        let set_ups = json::set_ups(self.document.as_table());
        set_ups.get(set_up).is_some_and(|table| table.contains_key(part))
    }

    fn has_common(&self, part: &str) -> bool {
        self.document.contains_key(part)
    }

    /// The table of a set-up.
    pub fn set_up(&mut self, index: usize) -> Option<&mut dyn TableLike> {
        match self.document.get_mut("setup")? {
            Item::ArrayOfTables(list) => list.get_mut(index).map(|table| table as &mut dyn TableLike),
            Item::Value(Value::Array(list)) => match list.get_mut(index)? {
                Value::InlineTable(table) => Some(table as &mut dyn TableLike),
                _ => None,
            },
            _ => None,
        }
    }

    /// Copies a common part into a set-up; `false` if there is none.
    fn copy_common(&mut self, set_up: usize, part: &str) -> Result<bool, EditError> {
        let Some(common) = self.document.get(part).cloned() else {
            return Ok(false);
        };
        let Some(table) = self.set_up(set_up) else {
            return Ok(false);
        };
        places::put(table, part, common);
        Ok(true)
    }

    fn make(&mut self, set_up: usize, edit: &Edit) -> Result<(), EditError> {
        let path = Path::of(edit)?;
        if let Some(value) = &edit.value {
            write::check(value, &path.words)?;
        }
        let within_set_up = self.lands_in_set_up(set_up, edit, &path)?;
        let mut steps = edit.path.clone();
        if within_set_up {
            steps.splice(0..0, [Step::from("setup"), Step::At(set_up)]);
        }
        match &edit.value {
            Some(value) => write::set(self.document.as_table_mut(), &steps, value, &path.words)?,
            None => {
                write::remove(self.document.as_table_mut(), &steps, &path.words)?;
                self.keep_nothing_own(set_up, edit, within_set_up);
            }
        }
        places::settle(self.document.as_table_mut());
        Ok(())
    }

    /// Whether a change belongs into the set-up's own part; makes that part if it must be there.
    fn lands_in_set_up(&mut self, set_up: usize, edit: &Edit, path: &Path) -> Result<bool, EditError> {
        if matches!(path.first, "setup" | "shoot" | "format") {
            return Ok(false);
        }
        known_part(path.first)?;
        let count = self.set_ups();
        if set_up >= count.max(1) {
            return Err(EditError::NoSetUp {
                number: set_up.saturating_add(1),
                count: count.max(1),
            });
        }
        if count == 0 {
            return Ok(false);
        }
        if self.owns(set_up, path.first) {
            return Ok(true);
        }
        if path.first != "ask" {
            return Ok(false);
        }
        let replaces_it = edit.path.len() == 1;
        if !replaces_it {
            self.copy_common(set_up, "ask")?;
        }
        Ok(true)
    }

    /// A list of the set-up's own from which the last item went says so, where else the common one would come back.
    fn keep_nothing_own(&mut self, set_up: usize, edit: &Edit, within_set_up: bool) {
        let [Step::Key(part), Step::At(_)] = &edit.path[..] else {
            return;
        };
        if within_set_up && !self.owns(set_up, part) && self.has_common(part) {
            let nothing = Item::Value(Value::Array(toml_edit::Array::new()));
            if let Some(table) = self.set_up(set_up) {
                table.insert(part, nothing);
            }
        }
    }
}

/// Whether the reader would refuse the text for the length of a line.
fn has_long_line(text: &str) -> bool {
    text.split('\n').any(|line| line.chars().count() > LONGEST_LINE)
}

/// The path of an edit, checked as far as it can be without the text.
struct Path<'e> {
    first: &'e str,
    words: String,
}

impl<'e> Path<'e> {
    fn of(edit: &'e Edit) -> Result<Self, EditError> {
        let mut words = String::new();
        for step in edit.path.iter().take(MOST_DEPTH) {
            // Writing to a string cannot fail.
            let _ = match step {
                Step::Key(key) if words.is_empty() => write!(words, "{}", shorten(key)),
                Step::Key(key) => write!(words, ".{}", shorten(key)),
                Step::At(index) => write!(words, "[{index}]"),
            };
        }
        let words = text::presentable(&words);
        let mut keys = edit.path.iter().filter_map(|step| match step {
            Step::Key(key) => Some(key),
            Step::At(_) => None,
        });
        let refuse = |why: String| {
            Err(EditError::BadPath {
                path: words.clone(),
                why,
            })
        };
        if edit.path.len() > MOST_DEPTH {
            return refuse(format!(
                "more than {MOST_DEPTH} steps lead to nothing in a shoot file"
            ));
        }
        if keys.any(|key| key.chars().count() > 60 || key.chars().any(text::is_refused)) {
            return refuse("no key of a shoot file is like this".to_owned());
        }
        match edit.path.first() {
            Some(Step::Key(first)) => Ok(Path { first, words }),
            Some(Step::At(_)) => refuse("a path begins with the name of a part, such as \"ask\"".to_owned()),
            None => {
                refuse("the path is empty; it begins with the name of a part, such as \"ask\"".to_owned())
            }
        }
    }
}

/// Refuses what is no part that a set-up can have.
fn known_part(part: &str) -> Result<(), EditError> {
    let known: Vec<&str> = parts::SETUP
        .keys
        .iter()
        .copied()
        .filter(|key| *key != "name")
        .collect();
    if known.contains(&part) {
        return Ok(());
    }
    Err(EditError::BadPath {
        path: text::presentable(&shorten(part)),
        why: format!("it is no part of a shoot file; there are {}", known.join(", ")),
    })
}

/// The reason why a text is no TOML, in our words if we have them.
fn not_readable(text: &str, error: &toml_edit::TomlError) -> EditError {
    if let Err(problems) = text::parse("", text)
        && let Some(problem) = problems.list().first()
    {
        return EditError::NotReadable {
            message: problem.message().to_owned(),
            line: problem.place().map(|(line, _)| line),
        };
    }
    let line = error.span().and_then(|span| text.get(..span.start));
    EditError::NotReadable {
        message: text::presentable(error.message()),
        line: line.map(|before| 1 + before.matches('\n').count()),
    }
}
