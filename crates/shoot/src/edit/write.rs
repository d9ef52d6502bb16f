//! Writing and removing values in a document.

use super::change::{EditError, MOST_DEPTH, Step};
use super::places::{Layout, layout_of, part_at};
use crate::both;
use crate::parts::{self, Part};
use crate::text::{MOST_BYTES, is_refused};
use crate::words::Words;
use serde_json::{Map, Value as Json};
use toml_edit::{Array, ArrayOfTables, InlineTable, Item, Table, TableLike, Value};

/// Refuses values that cannot be written, before anything is changed.
pub(super) fn check(value: &Json, path: &str) -> Result<(), EditError> {
    let mut bytes = 0;
    check_at(value, 1, &mut bytes).map_err(|why| match why {
        Some(why) => EditError::BadValue {
            path: path.to_owned(),
            why,
        },
        None => EditError::TooLarge,
    })
}

/// What is wrong; nothing to say of it when it is too large.
fn check_at(value: &Json, depth: usize, bytes: &mut u64) -> Result<(), Option<Words>> {
    if depth > MOST_DEPTH {
        return Err(Some(
            both!("it has lists within lists, deeper than any shoot file"; "darin sind Listen in Listen, tiefer als in jeder Auftragsdatei"),
        ));
    }
    *bytes += 1;
    match value {
        Json::Null => {
            return Err(Some(
                both!("a list has a null in it; leave the item out"; "in einer Liste steht null; lass den Eintrag weg"),
            ));
        }
        Json::Number(number) if number.as_i64().is_none() && !number.as_f64().is_some_and(is_written) => {
            return Err(Some(both!("this number is too large"; "diese Zahl ist zu groß")));
        }
        Json::String(text) => {
            check_text(text)?;
            *bytes += text.len() as u64;
        }
        Json::Array(list) => list
            .iter()
            .try_for_each(|item| check_at(item, depth + 1, bytes))?,
        Json::Object(table) => {
            for (key, item) in table.iter().filter(|(_, item)| !item.is_null()) {
                check_text(key)?;
                *bytes += key.len() as u64;
                check_at(item, depth + 1, bytes)?;
            }
        }
        _ => {}
    }
    if *bytes > MOST_BYTES { Err(None) } else { Ok(()) }
}

/// What the reader would refuse with the whole text is refused here already.
fn check_text(text: &str) -> Result<(), Option<Words>> {
    if text.chars().any(is_refused) {
        return Err(Some(
            both!("it has a line break or an invisible control character in it"; "darin ist ein Zeilenumbruch oder ein unsichtbares Steuerzeichen"),
        ));
    }
    if text.chars().count() > LONGEST_TEXT {
        return Err(Some(
            both!("it is longer than {} letters", LONGEST_TEXT; "es ist länger als {} Zeichen"),
        ));
    }
    Ok(())
}

/// Letters of a text (ours); twice as many could not be shown in a message.
const LONGEST_TEXT: usize = 400;

/// Whole numbers that do not fit are no quantity of a shoot file.
fn is_written(number: f64) -> bool {
    number.is_finite() && number.abs() < 1e18
}

fn bad(path: &str, why: Words) -> EditError {
    EditError::BadPath {
        path: path.to_owned(),
        why,
    }
}

/// Where in the document a change has arrived.
struct Trail<'t> {
    names: Vec<&'t str>,
    path: &'t str,
    /// Inside something that is written in one line.
    in_line: bool,
}

/// Writes a value at a path.
pub(super) fn set(root: &mut Table, steps: &[Step], value: &Json, path: &str) -> Result<(), EditError> {
    let mut trail = Trail {
        names: Vec::new(),
        path,
        in_line: false,
    };
    set_in_table(root, steps, value, &mut trail)
}

fn set_in_table<'t>(
    table: &mut dyn TableLike,
    steps: &'t [Step],
    value: &'t Json,
    trail: &mut Trail<'t>,
) -> Result<(), EditError> {
    let Some((step, rest)) = steps.split_first() else {
        let Json::Object(wanted) = value else {
            return Err(bad(
                trail.path,
                both!("a whole part is written here, with keys of its own"; "hier wird ein ganzer Teil geschrieben, mit eigenen Schlüsseln"),
            ));
        };
        merge(table, wanted, trail);
        return Ok(());
    };
    let Step::Key(key) = step else {
        return Err(bad(
            trail.path,
            both!("this is a part with keys, not a list"; "das ist ein Teil mit Schlüsseln, keine Liste"),
        ));
    };
    trail.names.push(key);
    if let Some(item) = table.get_mut(key) {
        let was_value = item.is_value();
        set_in_item(item, rest, value, trail)?;
        let is_value = item.is_value();
        if is_value != was_value
            && let Some(mut name) = table.key_mut(key)
        {
            // Before an equals sign there is a blank, in a heading there is none.
            name.leaf_decor_mut().set_suffix(if is_value { " " } else { "" });
        }
        return Ok(());
    }
    let value = wrapped(rest, value, trail)?;
    insert(table, key, &value, trail);
    Ok(())
}

fn set_in_item<'t>(
    item: &mut Item,
    steps: &'t [Step],
    value: &'t Json,
    trail: &mut Trail<'t>,
) -> Result<(), EditError> {
    let Some((step, rest)) = steps.split_first() else {
        replace(item, value, trail);
        return Ok(());
    };
    match item {
        Item::Table(table) => set_in_table(table, steps, value, trail),
        Item::ArrayOfTables(list) => {
            let index = index_of(step, list.len(), trail)?;
            if let Some(table) = list.get_mut(index) {
                return set_in_table(table, rest, value, trail);
            }
            let Json::Object(keys) = wrapped(rest, value, trail)? else {
                return Err(bad(
                    trail.path,
                    both!("only a part with keys can be added here"; "hier lässt sich nur ein Teil mit Schlüsseln anfügen"),
                ));
            };
            list.push(table_of(&keys, trail));
            Ok(())
        }
        // A list with nothing in it yet can still be written under headings.
        Item::Value(Value::Array(list)) if list.is_empty() && layout_of(&trail.names) == Layout::Headings => {
            index_of(step, 0, trail)?;
            *item = item_of(&Json::Array(vec![wrapped(rest, value, trail)?]), trail);
            Ok(())
        }
        Item::Value(inner) => set_in_value(inner, steps, value, trail),
        Item::None => Err(bad(trail.path, both!("nothing is there"; "dort ist nichts"))),
    }
}

fn set_in_value<'t>(
    inner: &mut Value,
    steps: &'t [Step],
    value: &'t Json,
    trail: &mut Trail<'t>,
) -> Result<(), EditError> {
    trail.in_line = true;
    let Some((step, rest)) = steps.split_first() else {
        replace_value(inner, value, trail);
        return Ok(());
    };
    match inner {
        Value::InlineTable(table) => set_in_table(table, steps, value, trail),
        Value::Array(list) => {
            let index = index_of(step, list.len(), trail)?;
            if let Some(item) = list.get_mut(index) {
                return set_in_value(item, rest, value, trail);
            }
            append(list, value_of(&wrapped(rest, value, trail)?));
            Ok(())
        }
        _ => Err(bad(
            trail.path,
            both!("a single value stands there, and it has nothing inside"; "dort steht ein einzelner Wert, und der hat nichts in sich"),
        )),
    }
}

fn index_of(step: &Step, length: usize, trail: &Trail<'_>) -> Result<usize, EditError> {
    match step {
        Step::At(index) if *index <= length => Ok(*index),
        Step::At(_) => Err(bad(
            trail.path,
            both!("the list has only {length}"; "die Liste hat nur {length}"),
        )),
        Step::Key(_) => Err(bad(
            trail.path,
            both!("this is a list, and its items are counted from 0"; "das ist eine Liste, und ihre Einträge werden ab 0 gezählt"),
        )),
    }
}

/// A value inside the parts that have to be made for it.
fn wrapped(steps: &[Step], value: &Json, trail: &Trail<'_>) -> Result<Json, EditError> {
    let mut made = value.clone();
    for step in steps.iter().rev() {
        made = match step {
            Step::Key(key) => Json::Object(Map::from_iter([(key.clone(), made)])),
            Step::At(0) => Json::Array(vec![made]),
            Step::At(_) => {
                return Err(bad(
                    trail.path,
                    both!("the list has only 0"; "die Liste hat nur 0"),
                ));
            }
        };
    }
    Ok(made)
}

/// Adds a key that is not there yet.
fn insert(table: &mut dyn TableLike, key: &str, value: &Json, trail: &Trail<'_>) {
    let in_line = trail.in_line;
    let item = item_of(value, trail);
    table.insert(key, item);
    if in_line {
        tidy(table);
    }
}

/// A new item, under headings where the reader has them.
fn item_of(value: &Json, trail: &Trail<'_>) -> Item {
    let kind = if trail.in_line {
        Layout::Line
    } else {
        layout_of(&trail.names)
    };
    match (kind, value) {
        (Layout::Heading, Json::Object(keys)) => Item::Table(table_of(keys, trail)),
        (Layout::Headings, Json::Array(list)) if !list.is_empty() && list.iter().all(Json::is_object) => {
            let tables = list.iter().filter_map(Json::as_object);
            Item::ArrayOfTables(
                tables
                    .map(|keys| table_of(keys, trail))
                    .collect::<ArrayOfTables>(),
            )
        }
        _ => Item::Value(value_of(value)),
    }
}

fn table_of(keys: &Map<String, Json>, trail: &Trail<'_>) -> Table {
    let mut table = Table::new();
    for (key, value) in in_order(keys, part_at(&trail.names)) {
        let inner = trail.then(key);
        table.insert(key, item_of(value, &inner));
    }
    table
}

impl<'t> Trail<'t> {
    fn then<'s>(&self, key: &'s str) -> Trail<'s>
    where
        't: 's,
    {
        let mut names: Vec<&'s str> = self.names.clone();
        names.push(key);
        Trail {
            names,
            path: self.path,
            in_line: self.in_line,
        }
    }
}

/// The keys that say something, in the order in which they are explained.
fn in_order<'k>(keys: &'k Map<String, Json>, part: Option<&Part>) -> Vec<(&'k String, &'k Json)> {
    let mut keys: Vec<_> = keys.iter().filter(|(_, value)| !value.is_null()).collect();
    let known = part.map_or(&[][..], |part| part.keys);
    keys.sort_by_key(|(key, _)| known.iter().position(|known| known == key).unwrap_or(usize::MAX));
    keys
}

/// The part without a heading that has all of these keys.
fn part_with(keys: &Map<String, Json>) -> Option<&'static Part> {
    let lines = parts::ALL
        .iter()
        .copied()
        .filter(|part| !part.title.starts_with('['));
    let mut fitting = lines.filter(|part| keys.keys().all(|key| part.keys.contains(&key.as_str())));
    fitting.next()
}

/// A value in one line; what is null in a table is left out, as it is in TOML.
fn value_of(value: &Json) -> Value {
    match value {
        Json::Null => Value::from(""),
        Json::Bool(value) => Value::from(*value),
        Json::Number(number) => match number.as_i64() {
            Some(whole) => Value::from(whole),
            None => Value::from(number.as_f64().unwrap_or_default()),
        },
        Json::String(text) => Value::from(text.as_str()),
        Json::Array(list) => Value::Array(list.iter().map(value_of).collect::<Array>()),
        Json::Object(keys) => {
            let mut table = InlineTable::new();
            for (key, value) in in_order(keys, part_with(keys)) {
                table.insert(key, value_of(value));
            }
            Value::InlineTable(table)
        }
    }
}

/// Puts a value in the place of what is there, and leaves as much of it as it was.
fn replace(item: &mut Item, value: &Json, trail: &Trail<'_>) {
    match (&mut *item, value) {
        (Item::Table(table), Json::Object(keys)) => {
            merge(table, keys, trail);
            keep_heading(table);
        }
        (Item::ArrayOfTables(list), Json::Array(wanted))
            if !wanted.is_empty() && wanted.iter().all(Json::is_object) =>
        {
            while list.len() > wanted.len() {
                list.remove(list.len() - 1);
            }
            for (index, keys) in wanted.iter().filter_map(Json::as_object).enumerate() {
                match list.get_mut(index) {
                    Some(table) => merge(table, keys, trail),
                    None => list.push(table_of(keys, trail)),
                }
            }
        }
        (Item::Value(inner), _)
            if inner.is_inline_table() || !is_part(value) || layout_of(&trail.names) == Layout::Line =>
        {
            replace_value(inner, value, trail);
        }
        _ => *item = item_of(value, trail),
    }
}

/// Gives a part a heading of its own when nothing else would be written of it.
fn keep_heading(table: &mut Table) {
    if table.is_empty() {
        table.set_implicit(false);
        table.set_dotted(false);
    }
}

/// Whether a value has keys, or things with keys in it.
fn is_part(value: &Json) -> bool {
    match value {
        Json::Object(_) => true,
        Json::Array(list) => list.iter().any(Json::is_object),
        _ => false,
    }
}

fn replace_value(inner: &mut Value, value: &Json, trail: &Trail<'_>) {
    match (&mut *inner, value) {
        (Value::InlineTable(table), Json::Object(keys)) => {
            let line = Trail {
                names: trail.names.clone(),
                path: trail.path,
                in_line: true,
            };
            merge(table, keys, &line);
        }
        (Value::Array(list), Json::Array(wanted)) => {
            while list.len() > wanted.len() {
                list.remove(list.len() - 1);
            }
            for (index, item) in wanted.iter().enumerate() {
                match list.get_mut(index) {
                    Some(there) => replace_value(there, item, trail),
                    None => append(list, value_of(item)),
                }
            }
        }
        _ => {
            let decor = inner.decor().clone();
            *inner = value_of(value);
            *inner.decor_mut() = decor;
        }
    }
}

/// Adds an item to a list, laid out as the one before it.
fn append(list: &mut Array, mut value: Value) {
    let before = list.len().checked_sub(1).and_then(|last| list.get(last));
    let lead = before.and_then(|value| value.decor().prefix()?.as_str().map(str::to_owned));
    match lead {
        Some(lead) if list.len() > 1 || lead.contains('\n') => {
            // A remark above the item before it is not said of this one.
            let lead = match lead.rfind('\n') {
                Some(at) if lead.contains('#') => lead[at..].to_owned(),
                _ => lead,
            };
            value.decor_mut().set_prefix(lead);
            list.push_formatted(value);
        }
        _ => list.push(value),
    }
}

/// Makes a part have exactly these keys.
fn merge(table: &mut dyn TableLike, wanted: &Map<String, Json>, trail: &Trail<'_>) {
    let gone: Vec<String> = table
        .iter()
        .map(|(key, _)| key.to_owned())
        .filter(|key| wanted.get(key).is_none_or(Json::is_null))
        .collect();
    for key in gone {
        table.remove(&key);
    }
    let part = part_at(&trail.names).or_else(|| part_with(wanted));
    for (key, value) in in_order(wanted, part) {
        let inner = trail.then(key);
        match table.get_mut(key) {
            Some(item) => replace(item, value, &inner),
            None => insert(table, key, value, &inner),
        }
    }
}

/// Lays out a table in one line anew, unless somebody gave it lines of its own.
fn tidy(table: &mut dyn TableLike) {
    let has_lines = table.iter().any(|(_, item)| {
        let Some(decor) = item.as_value().map(Value::decor) else {
            return true;
        };
        let parts = [decor.prefix(), decor.suffix()];
        parts
            .into_iter()
            .flatten()
            .any(|part| part.as_str().is_none_or(|text| text.contains('\n')))
    });
    if !has_lines {
        table.fmt();
    }
}

/// Removes what is at a path; nothing happens if nothing is there.
pub(super) fn remove(root: &mut Table, steps: &[Step], path: &str) -> Result<(), EditError> {
    let in_set_up = matches!(steps.first(), Some(Step::Key(key)) if key == "setup");
    let removal = Removal {
        path,
        own_part_at: in_set_up.then_some(2),
    };
    removal.in_table(root, steps, 0)
}

/// One removal on its way down.
struct Removal<'r> {
    path: &'r str,
    /// Step that names a part of a set-up's own. When its last key went it is still there: it stands for what is usual.
    own_part_at: Option<usize>,
}

impl Removal<'_> {
    fn in_table(&self, table: &mut dyn TableLike, steps: &[Step], depth: usize) -> Result<(), EditError> {
        let Some((step, rest)) = steps.split_first() else {
            return Ok(());
        };
        let Step::Key(key) = step else {
            return Err(bad(
                self.path,
                both!("this is a part with keys, not a list"; "das ist ein Teil mit Schlüsseln, keine Liste"),
            ));
        };
        if rest.is_empty() {
            table.remove(key);
            return Ok(());
        }
        let Some(item) = table.get_mut(key) else {
            return Ok(());
        };
        if !self.in_item(item, rest, depth + 1)? {
            return Ok(());
        }
        match item {
            // Without it the common part would come back.
            Item::Table(part) if Some(depth) == self.own_part_at => keep_heading(part),
            Item::Value(Value::InlineTable(_)) if Some(depth) == self.own_part_at => {}
            _ => drop(table.remove(key)),
        }
        Ok(())
    }

    /// Removes below an item, and says whether nothing is left of it that means anything.
    fn in_item(&self, item: &mut Item, steps: &[Step], depth: usize) -> Result<bool, EditError> {
        match item {
            Item::Table(table) => {
                self.in_table(table, steps, depth)?;
                let has_heading = !table.is_dotted() && !table.is_implicit();
                Ok(table.is_empty() && !has_heading)
            }
            Item::ArrayOfTables(list) => {
                let (index, rest) = self.indexed(steps, list.len())?;
                if rest.is_empty() {
                    list.remove(index);
                } else if let Some(table) = list.get_mut(index) {
                    self.in_table(table, rest, depth + 1)?;
                }
                Ok(list.is_empty())
            }
            Item::Value(value) => self.in_value(value, steps, depth),
            Item::None => Ok(true),
        }
    }

    fn in_value(&self, value: &mut Value, steps: &[Step], depth: usize) -> Result<bool, EditError> {
        match value {
            Value::InlineTable(table) => {
                let had_keys = !table.is_empty();
                self.in_table(table, steps, depth)?;
                if !table.is_empty() {
                    tidy(table);
                }
                Ok(had_keys && table.is_empty())
            }
            Value::Array(list) => {
                let (index, rest) = self.indexed(steps, list.len())?;
                if rest.is_empty() {
                    list.remove(index);
                } else if let Some(item) = list.get_mut(index)
                    && self.in_value(item, rest, depth + 1)?
                    && !item.is_inline_table()
                {
                    // A part in a list stays without its keys, so that those behind it keep their numbers.
                    list.remove(index);
                }
                Ok(list.is_empty())
            }
            _ => Err(bad(
                self.path,
                both!("a single value stands there, and it has nothing inside"; "dort steht ein einzelner Wert, und der hat nichts in sich"),
            )),
        }
    }

    fn indexed<'s>(&self, steps: &'s [Step], length: usize) -> Result<(usize, &'s [Step]), EditError> {
        match steps.split_first() {
            Some((Step::At(index), rest)) if *index < length => Ok((*index, rest)),
            Some((Step::At(_), _)) => Err(bad(
                self.path,
                both!("the list has only {length}"; "die Liste hat nur {length}"),
            )),
            _ => Err(bad(
                self.path,
                both!("this is a list, and its items are counted from 0"; "das ist eine Liste, und ihre Einträge werden ab 0 gezählt"),
            )),
        }
    }
}
