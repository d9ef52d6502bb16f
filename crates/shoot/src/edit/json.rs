//! A shoot file as plain JSON, exactly as it is written.

use super::change::EditError;
use super::draft::{Draft, known_part, set_ups};
use super::places;
use crate::parts::SETUP;
use crate::set_ups::usual_name;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};
use serde_json::{Map, Number, Value as Json};
use toml_edit::{DocumentMut, Item, TableLike, Value};

/// A text that was taken apart, to be looked at.
#[derive(Clone, Debug)]
pub struct AsWritten(DocumentMut);

impl AsWritten {
    /// Takes a text apart; `None` if it is no TOML.
    pub fn open(text: &str) -> Option<Self> {
        Draft::open(text)
            .ok()
            .map(|draft| AsWritten(draft.into_document()))
    }

    /// What the shoot is called, if it says so.
    pub fn title(&self) -> Option<&str> {
        self.0
            .get("shoot")?
            .as_str()
            .map(str::trim)
            .filter(|title| !title.is_empty())
    }

    /// The names of the set-ups; empty if the file has no `[[setup]]`.
    pub fn set_ups(&self) -> Vec<String> {
        let named = |(index, table): (usize, &dyn TableLike)| {
            let name = table.get("name").and_then(Item::as_str).map(str::trim);
            let name = name.filter(|name| !name.is_empty());
            name.map_or_else(|| usual_name(index + 1), str::to_owned)
        };
        set_ups(self.0.as_table())
            .into_iter()
            .enumerate()
            .map(named)
            .collect()
    }

    /// The parts that a set-up, counted from 0, has of its own.
    pub fn owned(&self, set_up: usize) -> Vec<String> {
        let set_ups = set_ups(self.0.as_table());
        let own = set_ups.get(set_up);
        let parts = SETUP.keys.iter().filter(|key| **key != "name");
        parts
            .filter(|key| own.is_some_and(|table| table.contains_key(key)))
            .map(|key| (*key).to_owned())
            .collect()
    }

    /// The parts of a set-up, counted from 0, as plain JSON: its own, and the common ones where it has none. Numbers that
    /// JSON does not have, and dates, become texts.
    pub fn form(&self, set_up: usize) -> Map<String, Json> {
        let mut form = object(self.0.as_table());
        form.remove("setup");
        let set_ups = set_ups(self.0.as_table());
        if let Some(own) = set_ups.get(set_up) {
            let own = own
                .iter()
                .filter(|(key, _)| *key != "name" && SETUP.keys.contains(key));
            form.extend(own.map(|(key, item)| (key.to_owned(), plain(item))));
        }
        form
    }

    /// The whole text as plain JSON.
    pub fn whole(&self) -> Map<String, Json> {
        object(self.0.as_table())
    }
}

fn object(table: &dyn TableLike) -> Map<String, Json> {
    table
        .iter()
        .map(|(key, item)| (key.to_owned(), plain(item)))
        .collect()
}

fn plain(item: &Item) -> Json {
    match item {
        Item::None => Json::Null,
        Item::Value(value) => plain_value(value),
        Item::Table(table) => Json::Object(object(table)),
        Item::ArrayOfTables(list) => {
            Json::Array(list.iter().map(|table| Json::Object(object(table))).collect())
        }
    }
}

fn plain_value(value: &Value) -> Json {
    match value {
        Value::String(text) => Json::String(text.value().clone()),
        Value::Integer(number) => Json::from(*number.value()),
        Value::Float(number) => Number::from_f64(*number.value())
            .map_or_else(|| Json::String(number.value().to_string()), Json::Number),
        Value::Boolean(value) => Json::Bool(*value.value()),
        Value::Datetime(date) => Json::String(date.value().to_string()),
        Value::Array(list) => Json::Array(list.iter().map(plain_value).collect()),
        Value::InlineTable(table) => Json::Object(object(table)),
    }
}

/// A part that is kept by itself, for many shoots.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "lowercase")]
pub enum PartKind {
    /// `[bag]`: what one owns.
    Bag,
    /// `[place]`: a room that one comes back to.
    Place,
}

impl PartKind {
    /// Its key in a shoot file.
    pub fn key(self) -> &'static str {
        match self {
            PartKind::Bag => "bag",
            PartKind::Place => "place",
        }
    }

    /// Its heading.
    pub fn title(self) -> String {
        format!("[{}]", self.key())
    }

    /// Puts the part of `text` into a shoot, in the place of the one that this set-up, counted from 0, uses.
    ///
    /// # Errors
    /// A text that is no TOML, one without the part, or a set-up that is not there.
    pub fn take(self, shoot_text: &str, set_up: usize, text: &str) -> Result<String, EditError> {
        let part = Draft::open(text)?
            .document()
            .remove(self.key())
            .ok_or_else(|| self.missing())?;
        let mut draft = Draft::open(shoot_text)?;
        let count = draft.set_ups();
        if set_up >= count.max(1) {
            return Err(EditError::NoSetUp {
                number: set_up.saturating_add(1),
                count: count.max(1),
            });
        }
        known_part(self.key())?;
        let table: &mut dyn TableLike = if draft.owns(set_up, self.key()) {
            match draft.set_up(set_up) {
                Some(table) => table,
                None => return Err(self.missing()),
            }
        } else {
            draft.document().as_table_mut()
        };
        places::put_instead(table, self.key(), part);
        draft.close()
    }

    /// The part that a set-up, counted from 0, uses, as a text of its own.
    ///
    /// # Errors
    /// A text that is no TOML, one without the part, or a set-up that is not there.
    pub fn give(self, shoot_text: &str, set_up: usize) -> Result<String, EditError> {
        let mut draft = Draft::open(shoot_text)?;
        let count = draft.set_ups();
        if set_up >= count.max(1) {
            return Err(EditError::NoSetUp {
                number: set_up.saturating_add(1),
                count: count.max(1),
            });
        }
        let part = if draft.owns(set_up, self.key()) {
            draft.set_up(set_up).and_then(|table| table.remove(self.key()))
        } else {
            draft.document().remove(self.key())
        };
        let mut alone = Draft::open("")?;
        alone
            .document()
            .insert(self.key(), part.ok_or_else(|| self.missing())?);
        // The blank line above its heading parted it from what stood there.
        Ok(alone.close()?.trim_start_matches('\n').to_owned())
    }

    fn missing(self) -> EditError {
        EditError::NoPart { title: self.title() }
    }
}
