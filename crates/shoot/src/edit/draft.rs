//! The text of a shoot file while it is being changed.

use super::change::{Edit, EditError, MOST_DEPTH, Step};
use super::{places, write};
use crate::both;
use crate::parts;
use crate::quoting::{presentable, shorten};
use crate::text::{self, LONGEST_LINE, MOST_BYTES};
use crate::words::Words;
use std::fmt::Write as _;
use toml_edit::{DocumentMut, Item, Table, TableLike, Value};

/// A text that is being changed.
pub(super) struct Draft {
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

    /// The document itself, to be looked at.
    pub fn into_document(self) -> DocumentMut {
        self.document
    }

    /// How many set-ups there are; none if the file has no `[[setup]]`.
    pub fn set_ups(&self) -> usize {
        set_ups(self.document.as_table()).len()
    }

    /// Whether a set-up has a part of its own.
    pub fn owns(&self, set_up: usize, part: &str) -> bool {
        let set_ups = set_ups(self.document.as_table());
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
    pub fn copy_common(&mut self, set_up: usize, part: &str) -> Result<bool, EditError> {
        let Some(common) = self.document.get(part).cloned() else {
            return Ok(false);
        };
        let Some(table) = self.set_up(set_up) else {
            return Ok(false);
        };
        places::put(table, part, common);
        Ok(true)
    }

    pub fn make(&mut self, set_up: usize, edit: &Edit) -> Result<(), EditError> {
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
        let words = presentable(&words);
        let mut keys = edit.path.iter().filter_map(|step| match step {
            Step::Key(key) => Some(key),
            Step::At(_) => None,
        });
        let refuse = |why: Words| {
            Err(EditError::BadPath {
                path: words.clone(),
                why,
            })
        };
        if edit.path.len() > MOST_DEPTH {
            return refuse(both!(
                "more than {} steps lead to nothing in a shoot file", MOST_DEPTH;
                "mehr als {} Schritte führen in einer Auftragsdatei ins Leere"
            ));
        }
        if keys.any(|key| key.chars().count() > 60 || key.chars().any(text::is_refused)) {
            return refuse(
                both!("no key of a shoot file is like this"; "so heißt kein Schlüssel einer Auftragsdatei"),
            );
        }
        match edit.path.first() {
            Some(Step::Key(first)) => Ok(Path { first, words }),
            Some(Step::At(_)) => refuse(
                both!("a path begins with the name of a part, such as \"ask\""; "ein Pfad beginnt mit dem Namen eines Teils, etwa \"ask\""),
            ),
            None => refuse(
                both!("the path is empty; it begins with the name of a part, such as \"ask\""; "der Pfad ist leer; er beginnt mit dem Namen eines Teils, etwa \"ask\""),
            ),
        }
    }
}

/// Refuses what is no part that a set-up can have.
pub(super) fn known_part(part: &str) -> Result<(), EditError> {
    let known: Vec<&str> = parts::SETUP
        .keys
        .iter()
        .copied()
        .filter(|key| *key != "name")
        .collect();
    if known.contains(&part) {
        return Ok(());
    }
    let known = known.join(", ");
    Err(EditError::BadPath {
        path: presentable(&shorten(part)),
        why: both!(
            "it is no part of a shoot file; there are {}", known;
            "das ist kein Teil einer Auftragsdatei; es gibt {}"
        ),
    })
}

/// The reason why a text is no TOML, in our words if we have them.
fn not_readable(text: &str, error: &toml_edit::TomlError) -> EditError {
    if let Err(problems) = text::parse("", text)
        && let Some(problem) = problems.list().first()
    {
        return EditError::NotReadable {
            message: Words::in_each(|language| problem.message(language).to_owned()),
            line: problem.place().map(|(line, _)| line),
        };
    }
    let line = error.span().and_then(|span| text.get(..span.start));
    EditError::NotReadable {
        message: Words::same(presentable(error.message())),
        line: line.map(|before| 1 + before.matches('\n').count()),
    }
}

/// The tables of the set-ups.
pub(super) fn set_ups(root: &Table) -> Vec<&dyn TableLike> {
    match root.get("setup") {
        Some(Item::ArrayOfTables(list)) => list.iter().map(|table| table as &dyn TableLike).collect(),
        Some(Item::Value(Value::Array(list))) => list
            .iter()
            .filter_map(|item| item.as_inline_table().map(|table| table as &dyn TableLike))
            .collect(),
        _ => Vec::new(),
    }
}
