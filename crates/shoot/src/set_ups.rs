//! `[[setup]]`: several pictures of one shoot, each with parts of its own in the place of the common ones.

use super::checks;
use super::nearest::{nearest, plain};
use super::parts::{self, SETUP};
use super::problem::Problem;
use super::quoting::shown;
use super::section::{Said, Section};
use super::words::did_you_mean_first;
use crate::both;
use toml::de::DeValue;

/// More pictures than this are not made on one day with one flash (ours).
pub const MOST_SET_UPS: usize = 40;

/// Which set-ups of a file are read; the parts of the others are not looked at.
#[derive(Clone, Copy, Debug)]
pub enum Wanted<'w> {
    /// Every one, and what can be wrong between them.
    All,
    /// The one at this position, from 0.
    At(usize),
    /// The one of this name, or of this number, from 1.
    Called(&'w str),
}

impl Wanted<'_> {
    /// What was asked for, as it is counted or called.
    pub(crate) fn words(&self) -> String {
        match self {
            Wanted::All => String::new(),
            Wanted::At(index) => index.saturating_add(1).to_string(),
            Wanted::Called(name) => (*name).to_owned(),
        }
    }
}

/// One set-up before its parts are read.
#[derive(Clone)]
pub(crate) struct SetUp<'a> {
    pub section: Section<'a>,
    pub name: Said<String>,
}

/// The set-ups of a file; none if it has no `[[setup]]`. What is wrong with their number is noted.
pub(crate) fn find<'a>(root: &Section<'a>) -> Vec<SetUp<'a>> {
    let Some(entry) = root.entry("setup") else {
        return Vec::new();
    };
    if let DeValue::Array(list) = entry.value
        && list.len() > MOST_SET_UPS
    {
        let extra = list
            .get(MOST_SET_UPS)
            .map_or(entry.span.clone(), |item| item.span());
        root.log.problem(
            Problem::new(both!("more than {MOST_SET_UPS} set-ups"; "mehr als {MOST_SET_UPS} Bilder"))
                .at(extra, both!("one too many"; "eins zu viel"))
                .help(both!(
                    "Write a second shoot file for the rest of them.";
                    "Für die übrigen eine zweite Auftragsdatei schreiben."
                )),
        );
        return Vec::new();
    }
    let sections = root.parts("setup", &SETUP).into_iter();
    let named = sections.map(|section| SetUp {
        name: name(&section),
        section,
    });
    named.collect()
}

fn name(section: &Section<'_>) -> Said<String> {
    let said = section.entry("name").map(|entry| {
        let is_name = entry.value.as_str().is_some_and(|text| !text.trim().is_empty());
        (is_name, section.name("set-up"))
    });
    match said {
        Some((true, name)) => name,
        // Set-ups without names are counted, the first among them.
        _ => Said {
            value: usual_name(section.number()),
            span: section.span.clone(),
        },
    }
}

/// What a set-up without a name is called; its number is from 1.
pub(crate) fn usual_name(number: usize) -> String {
    format!("set-up {number}")
}

/// The set-ups that are wanted, checked by themselves; empty with a problem noted if there is no such one.
pub(crate) fn chosen<'a>(root: &Section<'a>, all: Vec<SetUp<'a>>, wanted: Wanted<'_>) -> Vec<SetUp<'a>> {
    let chosen = match wanted {
        Wanted::All => {
            checks::names(
                root.log,
                &both!("set-ups"; "Set-ups"),
                all.iter().map(|set_up| &set_up.name),
            );
            all
        }
        Wanted::At(index) => {
            let found = all.get(index).cloned();
            if found.is_none() {
                refuse(root, &wanted.words(), &all);
            }
            found.into_iter().collect()
        }
        Wanted::Called(name) => {
            let called = all
                .iter()
                .position(|set_up| plain(&set_up.name.value) == plain(name));
            let counted = || name.trim().parse::<usize>().ok()?.checked_sub(1);
            let found = called.or_else(counted).and_then(|index| all.get(index)).cloned();
            if found.is_none() {
                refuse(root, &wanted.words(), &all);
            }
            found.into_iter().collect()
        }
    };
    chosen.iter().for_each(|set_up| set_up.section.close(parts::ALL));
    chosen
}

/// Says that there is no such set-up, and which there are.
pub(crate) fn refuse(root: &Section<'_>, wanted: &str, all: &[SetUp<'_>]) {
    let names: Vec<&str> = all.iter().map(|set_up| set_up.name.value.as_str()).collect();
    let help = if names.is_empty() {
        both!(
            "This file has only one set-up, so none has to be chosen.";
            "Diese Datei hat nur ein Bild, es ist also keins zu wählen."
        )
    } else {
        let meant = did_you_mean_first(nearest(wanted, names.iter().copied()));
        let list = names.iter().enumerate();
        let list: Vec<String> = list
            .map(|(index, name)| format!("{} \"{name}\"", index + 1))
            .collect();
        both!("{}This file has: {}.", meant, list.join(", "); "{}Diese Datei hat: {}.")
    };
    root.log.problem(
        Problem::new(both!("there is no set-up {}", shown(wanted); "es gibt kein Bild {}")).help(help),
    );
}

/// Says which common parts no set-up reads, because each has its own.
pub(crate) fn warn_of_unread(root: &Section<'_>, all: &[SetUp<'_>]) {
    let replaced = SETUP.keys.iter().copied().filter(|key| *key != "name");
    for key in replaced {
        let is_everywhere = !all.is_empty() && all.iter().all(|set_up| set_up.section.entry(key).is_some());
        if let (true, Some(entry)) = (is_everywhere, root.entry(key)) {
            root.log.warn(
                &entry.key_span,
                both!(
                    "every set-up has its own \"{key}\", so this common one is not read";
                    "jedes Bild hat sein eigenes \"{key}\", darum wird dieses gemeinsame nicht gelesen"
                ),
            );
        }
    }
}

/// The parts without which nothing can be worked out, and that none of these set-ups has from anywhere.
pub(crate) fn lacked_by_all(root: &Section<'_>, chosen: &[SetUp<'_>]) -> Vec<&'static str> {
    let needed = ["place", "camera", "sitter"].into_iter();
    let lacked = needed.filter(|key| {
        root.entry(key).is_none() && chosen.iter().all(|set_up| set_up.section.entry(key).is_none())
    });
    lacked.collect()
}
