//! Cards as one file for a phone: everything is in it, and nothing is asked of any network.

use super::{Card, Flash, Mark, Setting};
use crate::svg::{Ground, escape};
use std::collections::BTreeSet;
use std::fmt::Write;

const STYLE: &str = include_str!("card.css");
const SCRIPT: &str = include_str!("card.js");

/// The set-ups of a shoot as one self-contained HTML file, the first one shown first.
///
/// The file holds its style, its script, its drawings and, for every light from four stops darker to four brighter
/// and every distance told, what to set. It asks nothing of any network, keeps nothing, and opens from a disk. Names
/// may hold any character. Without a script all set-ups stand below one another, each with a table of likely changes.
pub fn card_html(cards: &[Card]) -> String {
    let title = match cards {
        [one] => one.title.clone(),
        [first, ..] => format!("{} and {} more", first.title, cards.len() - 1),
        [] => "No set-up".to_owned(),
    };
    let mut page = String::new();
    let _ = write!(
        page,
        "<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n\
         <meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'; style-src 'unsafe-inline'; \
         script-src 'unsafe-inline'; base-uri 'none'; form-action 'none'\">\n\
         <meta name=\"viewport\" content=\"width=device-width, initial-scale=1, viewport-fit=cover\">\n\
         <meta name=\"color-scheme\" content=\"light dark\">\n<meta name=\"robots\" content=\"noindex\">\n\
         <title>{}</title>\n<style>\n{STYLE}</style>\n</head>\n<body>\n<main>\n",
        escape(&title)
    );
    for (index, card) in cards.iter().enumerate() {
        set_up(&mut page, card, index, cards.len());
    }
    page.push_str("</main>\n");
    page.push_str(BAR);
    let _ = write!(
        page,
        "<script type=\"application/json\" id=\"cards\">{}</script>\n<script>\n{SCRIPT}</script>\n</body>\n</html>\n",
        data(cards)
    );
    page
}

/// The controls, which only a script brings to life, so it also brings them to light.
const BAR: &str = r#"<section id="change" aria-label="Light or distance has changed" hidden>
<div id="dials"></div>
<p id="told" role="status"></p>
<div class="keys"><button type="button" id="planned">As planned</button><button type="button" id="close">Close</button></div>
</section>
<nav id="bar" aria-label="Set-ups" hidden>
<button type="button" id="back" aria-label="Back to the set-up before"><svg viewBox="0 0 24 24" aria-hidden="true"><path d="M15 4L7 12L15 20"/></svg></button>
<button type="button" id="changed" aria-expanded="false" aria-controls="change">Light has changed</button>
<button type="button" id="next" aria-label="Next set-up"><svg viewBox="0 0 24 24" aria-hidden="true"><path d="M9 4L17 12L9 20"/></svg></button>
</nav>
"#;

fn set_up(page: &mut String, card: &Card, index: usize, all: usize) {
    let number = index + 1;
    let place = if all > 1 {
        format!("{number}/{all} ")
    } else {
        String::new()
    };
    let _ = write!(
        page,
        "<article id=\"setup-{number}\" aria-labelledby=\"name-{number}\">\n<header><h1 id=\"name-{number}\">{place}{}</h1>\
         <button type=\"button\" class=\"ground\" hidden>black / white</button></header>\n",
        escape(&card.title)
    );
    page.push_str("<div class=\"lines\">\n");
    if let Some((setting, flash)) = card.planned() {
        line(
            page,
            "camera",
            "Camera",
            &setting.camera.iter().map(String::as_str).collect::<Vec<_>>(),
            None,
        );
        let parts = card.flash_line(flash);
        line(
            page,
            "flash",
            "Flash",
            &parts.iter().map(String::as_str).collect::<Vec<_>>(),
            Some(flash.mark),
        );
    }
    let _ = writeln!(
        page,
        "<p class=\"line where\"><span class=\"name\">Where: </span>{} {}</p>",
        arrow(card.turn_deg),
        marked(&card.aim)
    );
    page.push_str("</div>\n");
    for words in &card.first {
        let _ = writeln!(page, "<p class=\"first\">{}</p>", escape(words));
    }
    page.push_str("<div class=\"rest\">\n");
    drawings(page, card, index);
    page.push_str("<section class=\"assistant\"><h2>For the assistant</h2>\n<dl>\n");
    for told in &card.assistant {
        let _ = writeln!(
            page,
            "<div><dt>{}</dt><dd>{}</dd></div>",
            told.head,
            escape(&told.words)
        );
    }
    page.push_str("</dl></section>\n");
    if !card.cautions.is_empty() {
        page.push_str("<section class=\"care\"><h2>Take care</h2>\n<ul>\n");
        for words in &card.cautions {
            let _ = writeln!(page, "<li>{}</li>", escape(words));
        }
        page.push_str("</ul></section>\n");
    }
    table(page, card);
    let made = if card.made.is_empty() {
        String::new()
    } else {
        format!(" {}", escape(&card.made))
    };
    let _ = writeln!(page, "<p class=\"about\">{}{made}</p>", escape(&card.about));
    page.push_str("</div>\n</article>\n");
}

/// One of the three lines, its numbers large.
fn line(page: &mut String, class: &str, name: &str, parts: &[&str], mark: Option<Mark>) {
    let _ = write!(
        page,
        "<p class=\"line {class}\"><span class=\"name\">{name}: </span>"
    );
    for (index, part) in parts.iter().enumerate() {
        let last = index + 1 == parts.len();
        // No light changes the white balance, nor zoom, dress and gel.
        let settled = match mark {
            None if last => " settled",
            Some(_) if index > 0 && !last => " settled",
            _ => "",
        };
        let little = match mark {
            Some(Mark::Low | Mark::Short) if last => " little",
            _ => "",
        };
        let _ = write!(
            page,
            "<span class=\"part{settled}{little}\">{}</span>",
            marked(part)
        );
        if !last {
            let _ = write!(page, "<span class=\"dot{settled}\">\u{a0}· </span>");
        }
    }
    page.push_str("</p>\n");
}

/// Words with a number in them are set large.
fn marked(words: &str) -> String {
    let mark = |word: &str| match word.contains(|c: char| c.is_ascii_digit()) {
        true => format!("<b>{}</b>", escape(word)),
        false => escape(word),
    };
    words.split(' ').map(mark).collect::<Vec<_>>().join(" ")
}

/// An arrow seen from above: up is towards the sitter.
fn arrow(turn_deg: f64) -> String {
    format!(
        "<svg class=\"arrow\" viewBox=\"-12 -12 24 24\" aria-hidden=\"true\">\
         <path transform=\"rotate({turn_deg:.0})\" d=\"M0 11V-9M-8 -2L0 -10L8 -2\"/></svg>"
    )
}

fn drawings(page: &mut String, card: &Card, index: usize) {
    let ground = |mark: &str| Ground {
        sheet: "var(--paper)",
        body: "var(--body)",
        ink: "var(--ink)",
        line: "var(--soft)",
        glow: "var(--glow)",
        mark: format!("{mark}{index}-"),
    };
    let _ = write!(
        page,
        "<section class=\"plans\"><h2>Drawing</h2>\n<figure>\n{}</figure>\n<figure>\n{}</figure></section>\n",
        card.plans.above(&ground("a")).alone(ground("a")),
        card.plans.side(&ground("s")).alone(ground("s"))
    );
}

/// A few likely changes, for paper and for a browser without a script.
fn table(page: &mut String, card: &Card) {
    page.push_str("<section class=\"likely\"><h2>If the light has changed</h2>\n<table>\n");
    for (light, setting, flash) in card.likely_lights() {
        let besides = light.besides(card.planned_flash());
        let besides: String = besides
            .iter()
            .map(|words| format!(" {}", escape(words)))
            .collect();
        let _ = writeln!(
            page,
            "<tr><th scope=\"row\">{}</th><td>{}, power {}, {}.{besides}</td></tr>",
            escape(&light.by),
            escape(&setting.camera.join(" · ")),
            escape(&flash.power),
            escape(&flash.told())
        );
    }
    page.push_str("</table>\n");
    for (dial, rows) in card.likely_distances() {
        let _ = writeln!(
            page,
            "<h2>If it is another distance from {}</h2>\n<table>",
            escape(&dial.name)
        );
        for (value, flash) in rows {
            let _ = writeln!(
                page,
                "<tr><th scope=\"row\">about {}</th><td>power {}, {}</td></tr>",
                escape(value),
                escape(&flash.power),
                escape(&flash.told())
            );
        }
        page.push_str("</table>\n");
    }
    page.push_str("</section>\n");
}

/// What the script looks up, as JSON that no name can end.
fn data(cards: &[Card]) -> String {
    let cards: Vec<String> = cards.iter().map(card_data).collect();
    format!("[{}]", cards.join(","))
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
        let lost = light.lost.as_deref().map_or("null".to_owned(), string);
        format!(
            "{{\"by\":{},\"ways\":{},\"lost\":{lost}}}",
            string(&light.by),
            list(ways)
        )
    });
    let dials = card.dials.iter().map(|dial| {
        let values = list(dial.values.iter().map(|value| string(value)));
        format!(
            "{{\"name\":{},\"values\":{values},\"planned\":{}}}",
            string(&dial.name),
            dial.planned
        )
    });
    let powers = flashes.iter().map(|flash| {
        let little = u8::from(flash.mark != Mark::Enough);
        format!("[{},{},{little}]", string(&flash.power), string(&flash.told()))
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
        "{{\"camera\":{},\"words\":{},\"flash\":{}}}",
        list(way.camera.iter().map(|part| string(part))),
        string(&way.words),
        list(at.map(|at| at.to_string()))
    )
}

fn list(items: impl Iterator<Item = String>) -> String {
    format!("[{}]", items.collect::<Vec<_>>().join(","))
}

/// A JSON string that neither ends a script nor steers anything: all but plain characters are written as numbers.
fn string(text: &str) -> String {
    let mut out = String::from("\"");
    for c in crate::words::clean(text).chars() {
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
