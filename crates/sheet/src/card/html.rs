//! Cards as one file for a phone: everything is in it, and nothing is asked of any network.

use super::content::{Card, Flash, Mark, Setting};
use crate::fitting::clean;
use crate::svg::Ground;
use crate::voice::Voice;
use crate::wording::on_card;
use maud::{DOCTYPE, Markup, PreEscaped, html};
use std::collections::BTreeSet;
use std::fmt::Write;

const STYLE: &str = include_str!("card.css");
const SCRIPT: &str = include_str!("card.js");
/// What the file may do: its own style and script, and nothing else.
const POLICY: &str = "default-src 'none'; style-src 'unsafe-inline'; script-src 'unsafe-inline'; base-uri 'none'; form-action 'none'";

/// The set-ups of a shoot as one self-contained HTML file, the first one shown first.
///
/// The file holds its style, its script, its drawings and, for every light from four stops darker to four brighter
/// and every distance told, what to set. It asks nothing of any network, keeps nothing, and opens from a disk. Names
/// may hold any character. Without a script all set-ups stand below one another, each with a table of likely changes.
/// Its language is that of the first card.
pub fn card_html(cards: &[Card]) -> String {
    let voice = cards.first().map_or_else(Voice::default, |card| card.voice);
    let title = match cards {
        [one] => one.title.clone(),
        [first, ..] => on_card::several(voice, &first.title, cards.len() - 1),
        [] => on_card::no_set_up(voice).to_owned(),
    };
    let page = html! {
        (DOCTYPE)
        html lang=(voice.language.code()) {
            head {
                meta charset="utf-8";
                meta http-equiv="Content-Security-Policy" content=(POLICY);
                meta name="viewport" content="width=device-width, initial-scale=1, viewport-fit=cover";
                meta name="color-scheme" content="light dark";
                meta name="robots" content="noindex";
                title { (clean(&title)) }
                style { (PreEscaped(STYLE)) }
            }
            body {
                main {
                    @for (index, card) in cards.iter().enumerate() {
                        (set_up(card, index, cards.len()))
                    }
                }
                (bar(voice))
                script type="application/json" id="cards" { (PreEscaped(data(cards, voice))) }
                script { (PreEscaped(SCRIPT)) }
            }
        }
    };
    page.into_string()
}

/// The controls, which only a script brings to life, so it also brings them to light.
fn bar(voice: Voice) -> Markup {
    let words = on_card::controls(voice);
    let arrow = |d: &str| html! { svg viewBox="0 0 24 24" aria-hidden="true" { path d=(d) {} } };
    html! {
        section id="change" aria-label=(words.change) hidden {
            div id="dials" {}
            p id="told" role="status" {}
            div class="keys" {
                button type="button" id="planned" { (words.planned) }
                button type="button" id="close" { (words.close) }
            }
        }
        nav id="bar" aria-label=(words.set_ups) hidden {
            button type="button" id="back" aria-label=(words.before) { (arrow("M15 4L7 12L15 20")) }
            button type="button" id="changed" aria-expanded="false" aria-controls="change" { (words.changed) }
            button type="button" id="next" aria-label=(words.next) { (arrow("M9 4L17 12L9 20")) }
        }
    }
}

fn set_up(card: &Card, index: usize, all: usize) -> Markup {
    let voice = card.voice;
    let number = index + 1;
    let [camera, flash, place] = on_card::three_lines(voice);
    html! {
        article id={ "setup-" (number) } aria-labelledby={ "name-" (number) } {
            header {
                h1 id={ "name-" (number) } {
                    @if all > 1 { (number) "/" (all) " " }
                    (clean(&card.title))
                }
                button type="button" class="ground" hidden { (on_card::controls(voice).ground) }
            }
            div class="lines" {
                @if let Some((setting, now)) = card.planned() {
                    (line("camera", camera, &setting.camera, None))
                    (line("flash", flash, &card.flash_line(now), Some(now.mark)))
                }
                p class="line where" {
                    span class="name" { (place) ": " } (arrow(card.turn_deg)) " " (marked(&card.aim))
                }
            }
            @for words in &card.first { p class="first" { (clean(words)) } }
            div class="rest" {
                (drawings(card, index))
                section class="assistant" {
                    h2 { (on_card::for_the_assistant(voice)) }
                    dl {
                        @for told in &card.assistant {
                            div { dt { (told.head) } dd { (clean(&told.words)) } }
                        }
                    }
                }
                @if !card.cautions.is_empty() {
                    section class="care" {
                        h2 { (on_card::take_care(voice)) }
                        ul { @for words in &card.cautions { li { (clean(words)) } } }
                    }
                }
                (table(card))
                p class="about" { (clean(&card.about)) @if let Some(made) = &card.made { " " (clean(made)) } }
            }
        }
    }
}

/// One of the three lines, its numbers large.
fn line(class: &str, name: &str, parts: &[String], mark: Option<Mark>) -> Markup {
    let last = parts.len().saturating_sub(1);
    // No light changes the white balance, nor zoom, dress and gel.
    let settled = |index: usize| match mark {
        None => index == last,
        Some(_) => index > 0 && index < last,
    };
    let little = |index: usize| index == last && matches!(mark, Some(Mark::Low | Mark::Short));
    html! {
        p class={ "line " (class) } {
            span class="name" { (name) ": " }
            @for (index, part) in parts.iter().enumerate() {
                span.part.settled[settled(index)].little[little(index)] { (marked(part)) }
                @if index < last { span.dot.settled[settled(index)] { "\u{a0}· " } }
            }
        }
    }
}

/// Words with a number in them are set large.
fn marked(words: &str) -> Markup {
    html! {
        @for (index, word) in words.split(' ').enumerate() {
            @if index > 0 { " " }
            @if word.contains(|c: char| c.is_ascii_digit()) { b { (clean(word)) } } @else { (clean(word)) }
        }
    }
}

/// An arrow seen from above: up is where the lens looks.
fn arrow(turn_deg: f64) -> Markup {
    let turn = format!("rotate({turn_deg:.0})");
    html! {
        svg class="arrow" viewBox="-12 -12 24 24" aria-hidden="true" {
            path transform=(turn) d="M0 11V-9M-8 -2L0 -10L8 -2" {}
        }
    }
}

fn drawings(card: &Card, index: usize) -> Markup {
    let ground = |mark: &str| Ground {
        sheet: "var(--paper)",
        body: "var(--body)",
        ink: "var(--ink)",
        line: "var(--soft)",
        glow: "var(--glow)",
        mark: format!("{mark}{index}-"),
    };
    let above = card.plans.above(&ground("a")).alone(ground("a"));
    let side = card.plans.side(&ground("s")).alone(ground("s"));
    html! {
        section class="plans" {
            h2 { (on_card::drawing(card.voice)) }
            figure { (PreEscaped(above)) }
            figure { (PreEscaped(side)) }
        }
    }
}

/// A few likely changes, for paper and for a browser without a script.
fn table(card: &Card) -> Markup {
    let voice = card.voice;
    html! {
        section class="likely" {
            h2 { (on_card::if_the_light_has_changed(voice)) }
            table {
                @for (by, then) in card.likely_lights() {
                    tr {
                        th scope="row" { (clean(by)) }
                        td { (clean(&then)) }
                    }
                }
            }
            @for (dial, rows) in card.likely_distances() {
                h2 { (on_card::if_another_distance(voice, dial.between)) }
                table {
                    @for (value, flash) in rows {
                        tr {
                            th scope="row" { (on_card::about_so_far(voice, value)) }
                            td { (clean(&flash.words(voice))) }
                        }
                    }
                }
            }
        }
    }
}

/// What the script looks up, as JSON that no name can end: its words, and the table of every card.
fn data(cards: &[Card], voice: Voice) -> String {
    let words = on_card::of_the_script(voice).into_iter();
    let words: Vec<String> = words
        .map(|(name, words)| format!("{}:{}", string(name), string(&words)))
        .collect();
    let cards = list(cards.iter().map(card_data));
    format!("{{\"words\":{{{}}},\"cards\":{cards}}}", words.join(","))
}

fn card_data(card: &Card) -> String {
    let flashes: BTreeSet<&Flash> = card
        .lights
        .iter()
        .flat_map(|light| light.ways.iter().flat_map(|way| &way.flash))
        .collect();
    let flashes: Vec<&Flash> = flashes.into_iter().collect();
    let lights = card.lights.iter().map(|light| {
        let ways = light.ways.iter().map(|way| setting_data(way, &flashes));
        format!(
            "{{\"by\":{},\"ways\":{},\"lost\":{}}}",
            string(&light.by),
            list(ways),
            list(light.lost.iter().map(|words| string(words)))
        )
    });
    let dials = card.dials.iter().map(|dial| {
        let values = list(dial.values.iter().map(|value| string(value)));
        format!(
            "{{\"name\":{},\"values\":{values},\"planned\":{}}}",
            string(on_card::dial(card.voice, dial.between)),
            dial.planned
        )
    });
    let powers = flashes.iter().map(|flash| {
        let little = u8::from(flash.mark != Mark::Enough);
        format!("[{},{},{little}]", string(&flash.power), string(&flash.hand))
    });
    format!(
        "{{\"planned\":{},\"wear\":{},\"flashes\":{},\"dials\":{},\"lights\":{}}}",
        card.planned_light,
        list(card.wear.iter().map(|part| string(part))),
        list(powers),
        list(dials),
        list(lights)
    )
}

fn setting_data(way: &Setting, flashes: &[&Flash]) -> String {
    let at = way
        .flash
        .iter()
        .filter_map(|flash| flashes.binary_search(&flash).ok());
    format!(
        "{{\"camera\":{},\"shutter\":{},\"flash\":{}}}",
        list(way.camera.iter().map(|part| string(part))),
        string(&way.shutter),
        list(at.map(|at| at.to_string()))
    )
}

fn list(items: impl Iterator<Item = String>) -> String {
    format!("[{}]", items.collect::<Vec<_>>().join(","))
}

/// A JSON string that neither ends a script nor steers anything: all but plain characters are written as numbers.
fn string(text: &str) -> String {
    let mut out = String::from("\"");
    for c in clean(text).chars() {
        match c {
            'a'..='z' | 'A'..='Z' | '0'..='9' | ' ' | '.' | ',' | ':' | ';' | '/' | '+' | '-' | '(' | ')' => {
                out.push(c)
            }
            c => {
                let mut units = [0; 2];
                for unit in c.encode_utf16(&mut units) {
                    let _ = write!(out, "\\u{unit:04x}");
                }
            }
        }
    }
    out.push('"');
    out
}
