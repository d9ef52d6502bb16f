//! Flash against the light that is there: zones, reach, controls and later settings, as printed.

use super::page::{Page, pad};
use crate::fitting::{columns, shorten};
use crate::voice::Voice;
use crate::wording::balance::{
    control, later_in_full as later_words, reach_with_distance, right_for, shares, sharp, zone,
};
use crate::wording::nouns::named;
use crate::wording::printed::{self, Entry, Heading, control_heads, entry, heading};
use answer::{Answer, ControlLevel};

/// Columns of the controls' table: control, step, and each part.
const COLUMNS: (usize, usize, usize) = (16, 26, 10);
/// Zones that the table has room for beside flash, ambient and face.
const MOST_ZONES: usize = 2;

/// Shares, zones, reach and depth.
pub(super) fn levels(page: &mut Page, answer: &Answer) {
    let (voice, balance) = (page.voice, &answer.balance);
    page.heading(heading(voice, Heading::Levels));
    page.item(entry(voice, Entry::ShareOfFlash), &shares(voice, balance));
    page.item(entry(voice, Entry::RightFor), &right_for(voice, balance));
    for level in &balance.zones {
        page.item(&named(voice, &level.name).bare, &zone(voice, level, answer));
    }
    if let Some(limits) = &balance.sharp {
        page.item(entry(voice, Entry::Sharp), &sharp(voice, limits));
    }
    for (index, reach) in balance.reach.iter().enumerate() {
        let name = if index == 0 {
            entry(voice, Entry::Reach)
        } else {
            ""
        };
        page.item(name, &reach_with_distance(voice, reach));
    }
}

/// What each control changes, in exact thirds.
pub(super) fn controls(page: &mut Page, answer: &Answer) {
    let controls = &answer.balance.controls;
    let Some(first) = controls.first() else { return };
    let voice = page.voice;
    page.heading(heading(voice, Heading::Controls));
    let zones = first.zones.iter().take(MOST_ZONES);
    let zones = zones.map(|level| shorten(&named(voice, &level.name).bare, COLUMNS.2 - 1));
    let heads = control_heads(voice).map(str::to_owned);
    page.line(&table_row("", "", heads.into_iter().chain(zones)));
    for level in controls {
        let (name, step) = control(voice, &level.control);
        page.line(&table_row(&name, &step, cells(voice, level)));
    }
}

fn cells(voice: Voice, level: &ControlLevel) -> impl Iterator<Item = String> {
    let zones = level.zones.iter().take(MOST_ZONES).map(|zone| zone.stops);
    [level.flash, level.ambient, level.face]
        .into_iter()
        .chain(zones)
        .map(move |stops| voice.signed(stops.value(), 2))
}

fn table_row(name: &str, step: &str, cells: impl Iterator<Item = String>) -> String {
    let (first, second, width) = COLUMNS;
    let mut line = format!("  {} {}", pad(name, first), pad(step, second));
    for cell in cells {
        line += &" ".repeat(width.saturating_sub(columns(&cell)));
        line += &cell;
    }
    line
}

/// The whole settings of every later time, with what they leave.
pub(super) fn later_in_full(page: &mut Page, answer: &Answer) {
    let voice = page.voice;
    for later in &answer.balance.later {
        page.heading(&printed::settings_for(voice, &shorten(&later.name, 60)));
        for way in std::iter::once(&later.then).chain(&later.instead) {
            page.paragraph("  - ", &later_words(voice, way));
        }
    }
}
