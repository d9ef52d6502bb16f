//! Flash against the light that is there: zones, reach, controls and later settings, as printed.

use super::{Page, camera_line, pad};
use crate::words::{clean, columns, plain, shorten, signed};
use solver::{Answer, Control, LaterSettings, LaterWay};

/// Columns of the controls' table: control, step, and each part.
const COLUMNS: (usize, usize, usize) = (16, 26, 9);
/// Zones that the table has room for beside flash, ambient and face.
const MOST_ZONES: usize = 3;

/// "Later" lines: what to change when the light has changed.
pub(super) fn later(page: &mut Page, answer: &Answer) {
    for later in &answer.balance.later {
        page.paragraph("", &later_words(later));
    }
}

fn later_words(later: &LaterSettings) -> String {
    let mut words = format!(
        "Later, {} ({} stops): {}",
        shorten(&later.name, 40),
        signed(later.change.value(), 1),
        later.then.words
    );
    if let Some(instead) = &later.instead {
        words += &format!(
            ". {} is slow for a person; or else: {}",
            later.then.settings.shutter, instead.words
        );
    }
    words + "."
}

/// Shares, zones, reach and depth.
pub(super) fn levels(page: &mut Page, answer: &Answer) {
    let balance = &answer.balance;
    page.heading("Flash and what is there");
    let share = 100.0 * balance.flash_share;
    page.item(
        "of the light on the face",
        &format!(
            "{} % flash, {} % ambient",
            plain(share, 0),
            plain(100.0 - share, 0)
        ),
    );
    page.item(
        "settings are right for",
        &format!("EV {} at ISO 100", plain(balance.settings_ev.value(), 1)),
    );
    for zone in &balance.zones {
        let mut words = format!("{} stops from normal", signed(zone.level.value(), 1));
        if let Some(wish) = zone.wish {
            words += &format!(", wished at {}", signed(wish.value(), 1));
        }
        if let Some(kelvin) = zone.kelvin {
            // The balance decides how the zone looks: warmer than the balance is a positive difference.
            let against = kelvin.mired() - answer.settings.white_balance.mired();
            words += &format!(
                "; {} K looks {} mired against the balance",
                plain(kelvin.value(), 0),
                signed(against.value(), 0)
            );
        }
        page.item(&zone.name, &words);
    }
    if let Some(sharp) = &balance.sharp {
        let depth = sharp.depth_m();
        let words = if depth.is_finite() {
            format!("{} in all", page.lengths.exact(depth))
        } else {
            "to the horizon".to_owned()
        };
        page.item("sharp", &words);
    }
    for (index, reach) in balance.reach.iter().enumerate() {
        let name = if index == 0 { "largest flash distance" } else { "" };
        page.item(
            name,
            &format!(
                "{} at {}, zoom {}",
                page.lengths.exact(reach.metres),
                reach.power,
                plain(reach.zoom_mm, 0)
            ),
        );
    }
}

/// What each control changes, in exact thirds.
pub(super) fn controls(page: &mut Page, answer: &Answer) {
    let controls = &answer.balance.controls;
    let Some(first) = controls.first() else { return };
    page.heading("What each control changes, in stops");
    let zones: Vec<String> = first
        .zones
        .iter()
        .take(MOST_ZONES)
        .map(|(name, _)| shorten(name, COLUMNS.2 - 1))
        .collect();
    let heads = ["flash", "ambient", "face"].map(str::to_owned);
    page.line(&row("", "", heads.into_iter().chain(zones)));
    for control in controls {
        page.line(&row(&control.name, &control.step, cells(control)));
    }
}

fn cells(control: &Control) -> impl Iterator<Item = String> + '_ {
    let zones = control.zones.iter().take(MOST_ZONES).map(|(_, stops)| *stops);
    [control.flash, control.ambient, control.face]
        .into_iter()
        .chain(zones)
        .map(|stops| signed(stops.value(), 2))
}

fn row(name: &str, step: &str, cells: impl Iterator<Item = String>) -> String {
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
    for later in &answer.balance.later {
        page.heading(&format!("Settings for {}", shorten(&later.name, 60)));
        for way in std::iter::once(&later.then).chain(&later.instead) {
            page.paragraph("  - ", &way_words(way));
        }
    }
}

fn way_words(way: &LaterWay) -> String {
    let mut words = format!("{}, power {}", camera_line(&way.settings), way.power);
    words += &format!(": flash {}", signed(way.flash.value(), 2));
    if let Some(ambient) = way.ambient {
        words += &format!(", ambient {}", signed(ambient.value(), 2));
    }
    for (name, stops) in &way.zones {
        words += &format!(", {} {}", clean(name), signed(stops.value(), 2));
    }
    words
}
