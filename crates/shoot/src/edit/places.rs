//! Where in the text new headings stand: below what they belong to, and never inside another set-up.

use crate::parts::{self, Part};
use toml_edit::{ArrayOfTables, Item, Table, TableLike};

/// How a part is written.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Layout {
    /// Under a heading in single brackets.
    Heading,
    /// Under a heading in double brackets for each.
    Headings,
    /// In one line.
    Line,
}

/// The part that has its heading at these keys.
pub(super) fn part_at(names: &[&str]) -> Option<&'static Part> {
    let names = match names {
        ["setup", rest @ ..] if !rest.is_empty() => rest,
        all => all,
    };
    let name = names.join(".");
    let heading = |title: &str| title.trim_start_matches('[').trim_end_matches(']') == name;
    let mut parts = parts::ALL.iter().copied();
    parts.find(|part| part.title.starts_with('[') && heading(part.title))
}

/// How what stands at these keys is written, by the headings of the reader.
pub(super) fn layout_of(names: &[&str]) -> Layout {
    match part_at(names) {
        Some(part) if part.title.starts_with("[[") => Layout::Headings,
        Some(_) => Layout::Heading,
        None => Layout::Line,
    }
}

/// Puts an item that was written elsewhere under a key; its headings find a new place.
pub(crate) fn put(table: &mut dyn TableLike, key: &str, mut item: Item) {
    forget_item(&mut item);
    bare(&mut item);
    table.insert(key, item);
}

/// Puts an item that was written elsewhere in the place of the one under this key, with the remarks that stand above it.
pub(super) fn put_instead(table: &mut dyn TableLike, key: &str, mut item: Item) {
    let old = table.get(key).and_then(Item::as_table);
    let (Some(old), Item::Table(new)) = (old, &mut item) else {
        return put(table, key, item);
    };
    forget(new);
    new.set_position(old.position());
    *new.decor_mut() = old.decor().clone();
    table.insert(key, item);
}

/// Takes away the blank lines and remarks above a heading, which stay where they were written.
fn bare(item: &mut Item) {
    match item {
        Item::Table(table) => table.decor_mut().clear(),
        Item::ArrayOfTables(list) => {
            if let Some(first) = list.get_mut(0) {
                first.decor_mut().clear();
            }
        }
        _ => {}
    }
}

/// Makes an item forget where it stood.
pub(crate) fn forget_item(item: &mut Item) {
    match item {
        Item::Table(table) => forget(table),
        Item::ArrayOfTables(list) => list.iter_mut().for_each(forget),
        _ => {}
    }
}

fn forget(table: &mut Table) {
    table.set_position(None);
    table.iter_mut().for_each(|(_, item)| forget_item(item));
}

/// Gives every new heading a place: below all that belongs to what it is added to.
pub(super) fn settle(root: &mut Table) {
    let first_set_up = root.get("setup").and_then(|item| extreme(item, false));
    let common = root
        .iter()
        .filter(|(key, _)| *key != "setup")
        .filter_map(|(_, item)| extreme(item, true))
        .filter(|place| first_set_up.is_none_or(|first| *place < first))
        .max();
    // A common part goes above the set-ups, even where it is the first.
    let below_common = common.or(first_set_up.map(|first| first - 1)).unwrap_or(0);
    let below_all = extreme_of(root, true).unwrap_or(0);
    for (key, item) in root.iter_mut() {
        let below = if key.get() == "setup" {
            below_all
        } else {
            below_common
        };
        settle_item(item, below);
    }
}

fn settle_item(item: &mut Item, below: isize) {
    match item {
        Item::Table(table) => settle_table(table, below),
        Item::ArrayOfTables(list) => settle_list(list, below),
        _ => {}
    }
}

fn settle_list(list: &mut ArrayOfTables, below: isize) {
    let mut below = list
        .iter()
        .filter_map(|table| extreme_of(table, true))
        .max()
        .unwrap_or(below);
    for table in list.iter_mut() {
        settle_table(table, below);
        below = below.max(extreme_of(table, true).unwrap_or(below));
    }
}

fn settle_table(table: &mut Table, below: isize) {
    if table.position().is_none() && !table.is_dotted() {
        // A part of which only lower headings were written comes before them.
        let place = extreme_of(table, false).unwrap_or(below);
        table.set_position(Some(place));
    }
    let below = extreme_of(table, true).unwrap_or(below);
    for (_, item) in table.iter_mut() {
        settle_item(item, below);
    }
}

/// The last, or the first, place of a heading in an item.
fn extreme(item: &Item, last: bool) -> Option<isize> {
    match item {
        Item::Table(table) => extreme_of(table, last),
        Item::ArrayOfTables(list) => {
            let places = list.iter().filter_map(|table| extreme_of(table, last));
            if last { places.max() } else { places.min() }
        }
        _ => None,
    }
}

fn extreme_of(table: &Table, last: bool) -> Option<isize> {
    let below = table.iter().filter_map(|(_, item)| extreme(item, last));
    let places = table.position().into_iter().chain(below);
    if last { places.max() } else { places.min() }
}
