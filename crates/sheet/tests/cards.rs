//! Cards of invented answers: complete, escaped, readable, and saying what the solver says.

mod fixture;

use fixture::{Case, cases};
use glam::Vec3;
use roxmltree::{Document, Node};
use serde_json::Value;
use sheet::{Card, card_html, card_pages, drawing_svg};
use solver::{
    Between, DistanceChange, DistanceStep, LightChange, Variations, when_flash_changes, when_light_changes,
};
use std::collections::BTreeSet;
use units::Stops;

/// Lights as the solver tells them, and invented distances.
fn variations(case: &Case) -> Variations {
    let light = |clicks: i32| when_light_changes(&case.job, &case.answer, Stops(f64::from(clicks) / 3.0));
    let step = |metres: f64, stops: f64| DistanceStep {
        metres,
        flash: Stops(stops),
    };
    Variations {
        lights: (-12..=12).map(light).collect(),
        distances: vec![
            DistanceChange {
                between: Between::FlashAndSpot,
                steps: vec![step(1.6, 0.1), step(2.1, 0.0), step(2.6, -0.15)],
                planned: 1,
            },
            DistanceChange {
                between: Between::SpotAndFace,
                steps: vec![step(2.4, 0.5), step(2.9, 0.0), step(3.15, -0.3), step(3.4, -0.5)],
                planned: 1,
            },
        ],
    }
}

fn card(case: &Case) -> Card {
    Card::new(
        &case.job.title,
        &case.job,
        &case.answer,
        &variations(case),
        case.feet,
        "Made 25 November 2026, 16:00.",
    )
}

/// The file without its style, its script and its data.
fn markup(html: &str) -> String {
    let mut rest = html;
    let mut out = String::new();
    while let Some(at) = rest.find("<s").filter(|_| true) {
        let tag = ["<style>", "<script"]
            .into_iter()
            .find(|tag| rest[at..].starts_with(tag));
        let end = match tag {
            Some("<style>") => rest[at..].find("</style>").map(|end| at + end + 8),
            Some(_) => rest[at..].find("</script>").map(|end| at + end + 9),
            None => None,
        };
        match end {
            Some(end) => {
                out.push_str(&rest[..at]);
                rest = &rest[end..];
            }
            None => {
                out.push_str(&rest[..at + 2]);
                rest = &rest[at + 2..];
            }
        }
    }
    out + rest
}

fn data(html: &str) -> Value {
    let from = html.find("id=\"cards\">").expect("the data") + 11;
    let to = from + html[from..].find("</script>").expect("their end");
    serde_json::from_str(&html[from..to]).expect("JSON")
}

/// Writes the cards to a folder named in the environment, so that a person can look at them.
#[test]
fn cards_can_be_looked_at() {
    let all: Vec<Card> = cases().iter().map(card).collect();
    let html = card_html(&all);
    assert!(html.starts_with("<!DOCTYPE html>"));
    if let Some(folder) = std::env::var_os("RUSHLIGHT_LOOK") {
        std::fs::write(std::path::Path::new(&folder).join("cards.html"), html).expect("a folder to look at");
    }
}

#[test]
fn a_card_has_all_its_parts() {
    for case in cases() {
        let html = markup(&card_html(&[card(&case)]));
        for part in [
            "<html lang=\"en\">",
            "http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'",
            "<h1 ",
            "class=\"line camera\"",
            "class=\"line flash\"",
            "class=\"line where\"",
            "<dt>Stand</dt>",
            "<dt>Height</dt>",
            "<dt>Point</dt>",
            "<dt>Hold</dt>",
            "<dt>Watch</dt>",
            "Light has changed",
            "2 stops darker",
            "Made 25 November 2026, 16:00.",
            "About ",
        ] {
            assert!(html.contains(part), "{}: {part}", case.name);
        }
        assert_eq!(
            html.matches("<svg xmlns").count(),
            2,
            "{}: two drawings",
            case.name
        );
        assert_eq!(html.matches("<dt>").count(), 5, "{}: five lines", case.name);
        for caution in &case.answer.cautions {
            let first: String = caution
                .chars()
                .take_while(|c| c.is_ascii_alphanumeric() || *c == ' ')
                .collect();
            assert!(html.contains(&first), "{}: {first}", case.name);
        }
    }
}

/// The three lines of the card are the three lines of the answer.
#[test]
fn the_three_lines_are_those_of_the_answer() {
    for case in cases() {
        let html = card_html(&[card(&case)]);
        let lines = sheet::answer_lines(&case.answer, case.feet);
        let bare = |class: &str| -> String {
            let from = html
                .find(&format!("<p class=\"line {class}\">"))
                .expect("the line");
            let end = from + html[from..].find("</p>").expect("its end");
            let mut out = String::new();
            let mut inside = false;
            for c in html[from..end].chars() {
                match c {
                    '<' => inside = true,
                    '>' => inside = false,
                    c if !inside => out.push(c),
                    _ => {}
                }
            }
            out.replace('\u{a0}', " ")
                .replace("&#39;", "'")
                .replace("&quot;", "\"")
                .replace("&lt;", "<")
                .replace("&gt;", ">")
                .replace("&amp;", "&")
        };
        assert_eq!(
            bare("camera"),
            format!("Camera: {}", lines.camera),
            "{}",
            case.name
        );
        assert_eq!(
            bare("flash").replace("LOW: ", ""),
            format!("Flash: {}", lines.flash),
            "{}",
            case.name
        );
        let words: String = lines.aim.chars().skip_while(|c| !c.is_alphanumeric()).collect();
        assert_eq!(
            bare("where").trim(),
            format!("Where:  {words}").trim(),
            "{}",
            case.name
        );
    }
}

#[test]
fn no_name_becomes_a_command() {
    for words in [
        "</title><script>alert(1)</script>",
        "\"><img src=x onerror=alert(1)>",
        "</style><style>*{display:none}",
        "</script><!--",
        "' onload='alert(1)",
        "a\u{2028}b\u{0}c\u{202e}d",
    ] {
        let mut case = fixture::hostile_names();
        case.job.title = words.to_owned();
        case.job.sitters[0].name = words.to_owned();
        case.answer.cautions.push(words.to_owned());
        case.answer.aim.words = format!("← at {words}, held at 9 o'clock");
        let html = card_html(&[card(&case), card(&case)]);
        assert_eq!(html.matches("<script").count(), 2, "{words}");
        assert_eq!(html.matches("</script").count(), 2, "{words}");
        assert_eq!(html.matches("<style").count(), 1, "{words}");
        assert_eq!(html.matches("</style").count(), 1, "{words}");
        assert_eq!(
            html.matches("<title").count(),
            1 + 4,
            "{words}: the file's and its drawings'"
        );
        let markup = markup(&html);
        assert!(!markup.contains("<img") && !markup.contains("<!--"), "{words}");
        assert!(!html.contains('\u{202e}') && !html.contains('\u{0}'), "{words}");
        assert_eq!(data(&html).as_array().expect("cards").len(), 2);
        // Every attribute is one of ours: a name that got out of its quotes would bring another.
        for tag in markup
            .split('<')
            .skip(1)
            .filter_map(|piece| piece.split_once('>'))
        {
            assert!(
                !tag.0.contains("onerror") && !tag.0.contains("onload"),
                "{}",
                tag.0
            );
        }
        for page in card_pages(&card(&case), &wide) {
            Document::parse(&page.svg).expect("well-formed");
        }
    }
}

/// Nothing in the file points out of it.
#[test]
fn a_card_asks_nothing_of_any_network() {
    let all: Vec<Card> = cases()
        .iter()
        .filter(|case| case.name != "hostile-names")
        .map(card)
        .collect();
    let html = card_html(&all)
        .replace("http://www.w3.org/2000/svg", "")
        .replace("http-equiv", "");
    for word in [
        "http", "//", "src=", "href", "@import", "<link", "<iframe", "<object", "fetch(", "XMLHttp",
        "import(", "url(",
    ] {
        let found: Vec<&str> = html
            .match_indices(word)
            .map(|(at, _)| &html[at..(at + 40).min(html.len())])
            // The script's comments and the drawings' own marks are no addresses.
            .filter(|found| !found.starts_with("// ") && !found.starts_with("url(#"))
            .collect();
        assert!(found.is_empty(), "{word}: {found:?}");
    }
}

#[test]
fn ids_are_unique_whatever_stands_beside() {
    let all: Vec<Card> = cases().iter().map(card).collect();
    let html = markup(&card_html(&all));
    let mut seen = BTreeSet::new();
    for piece in html.split(" id=\"").skip(1) {
        let id = piece.split('"').next().expect("an id");
        assert!(seen.insert(id.to_owned()), "{id} stands twice");
    }
    for piece in html.split("url(#").skip(1) {
        let id = piece.split(')').next().expect("an id");
        assert!(seen.contains(id), "{id} is pointed at and is not there");
    }
}

fn strings(value: &Value) -> Vec<String> {
    let list = value.as_array().expect("a list");
    list.iter()
        .map(|item| item.as_str().expect("words").to_owned())
        .collect()
}

/// What the script looks up is what the solver says, for every light and every distance.
#[test]
fn the_table_is_what_the_solver_says() {
    let mut compared = 0;
    for case in cases().into_iter().filter(|case| case.name != "hostile-names") {
        let variations = variations(&case);
        let data = &data(&card_html(&[card(&case)]))[0];
        assert_eq!(data["lights"].as_array().expect("lights").len(), 25);
        assert_eq!(data["planned"], 12);
        for (told, light) in data["lights"]
            .as_array()
            .expect("lights")
            .iter()
            .zip(&variations.lights)
        {
            let again: LightChange = when_light_changes(&case.job, &case.answer, light.by);
            assert_eq!(told["lost"].is_null(), again.lost.is_none());
            let ways: Vec<_> = std::iter::once(&again.then).chain(&again.instead).collect();
            assert_eq!(told["ways"].as_array().expect("ways").len(), ways.len());
            for (told, way) in told["ways"].as_array().expect("ways").iter().zip(ways) {
                let camera = strings(&told["camera"]);
                assert_eq!(camera[0], way.settings.aperture.nearest_third().to_string());
                assert_eq!(camera[1], way.settings.shutter.to_string());
                assert_eq!(camera[2], way.settings.iso.to_string());
                let flash = told["flash"].as_array().expect("combinations");
                assert_eq!(flash.len(), 12);
                for (index, at) in flash.iter().enumerate() {
                    let [a, b] = [index / 4, index % 4];
                    let moved =
                        variations.distances[0].steps[a].flash + variations.distances[1].steps[b].flash;
                    let then = when_flash_changes(&case.job, &case.answer, way, light.by, moved);
                    let entry = &data["flashes"][at.as_u64().expect("a position") as usize];
                    assert_eq!(
                        entry[0],
                        then.power.nearest_third().to_string(),
                        "{} {:?}",
                        case.name,
                        light.by
                    );
                    let little = then.in_hand.value() < 1.0 / 3.0 - 1e-6;
                    assert_eq!(entry[2], u8::from(little));
                    let words = entry[1].as_str().expect("words");
                    assert_eq!(
                        little,
                        words.starts_with("LOW: ") || words.ends_with(" short"),
                        "{words}"
                    );
                    compared += 1;
                }
            }
        }
    }
    assert!(compared > 2000, "{compared} entries compared");
}

/// Little in hand is told by a word, and by a frame, not by colour alone.
#[test]
fn little_in_hand_is_told_by_a_word() {
    let check = |in_hand: f64, expected: &str, marked: bool| {
        let mut case = fixture::bounce_left();
        case.answer.flash.in_hand = Stops(in_hand);
        let html = markup(&card_html(&[card(&case)]));
        let from = html.find("class=\"line flash\"").expect("the line");
        let line = &html[from..from + html[from..].find("</p>").expect("its end")];
        let bare = line.replace("<b>", "").replace("</b>", "");
        assert!(bare.contains(expected), "{bare}");
        assert_eq!(line.contains("part little"), marked, "{line}");
    };
    check(1.0, ">1 stop in hand<", false);
    check(0.2, ">LOW: 0.2 stop in hand<", true);
    check(-0.5, ">0.5 stop short<", true);
}

/// Contrast by WCAG 2.1: (lighter + 0.05) / (darker + 0.05) of relative luminances.
#[test]
fn every_ink_has_contrast_on_its_ground() {
    let html = card_html(&[card(&fixture::direct())]);
    let luminance = |hex: &str| -> f64 {
        let hex = hex.trim().trim_start_matches('#');
        let full: String = match hex.len() {
            3 => hex.chars().flat_map(|c| [c, c]).collect(),
            _ => hex.to_owned(),
        };
        let channel = |at: usize| {
            let value = f64::from(u8::from_str_radix(&full[at..at + 2], 16).expect("a colour")) / 255.0;
            if value <= 0.04045 {
                value / 12.92
            } else {
                ((value + 0.055) / 1.055).powf(2.4)
            }
        };
        0.2126 * channel(0) + 0.7152 * channel(2) + 0.0722 * channel(4)
    };
    let mut grounds = 0;
    for block in html.split("--ink:").skip(1) {
        let block = format!("--ink:{}", block.split('}').next().unwrap_or_default());
        let of = |name: &str| {
            let from = block.find(name).unwrap_or_else(|| panic!("{name} in {block}")) + name.len();
            luminance(block[from..].split(';').next().expect("a value"))
        };
        let paper = of("--paper:");
        for ink in ["--ink:", "--soft:", "--glow:", "--little:"] {
            let (a, b) = (of(ink).max(paper), of(ink).min(paper));
            let contrast = (a + 0.05) / (b + 0.05);
            assert!(contrast >= 7.0, "{ink} {contrast:.2} in {block}");
        }
        grounds += 1;
    }
    assert_eq!(
        grounds, 5,
        "white, dark by wish of the system, white and black by the switch, paper"
    );
}

/// A typeface that is wider than ours.
fn wide(words: &str, size: f32, bold: bool) -> f32 {
    words.chars().count() as f32 * size * if bold { 0.75 } else { 0.7 }
}

fn narrow(words: &str, size: f32, bold: bool) -> f32 {
    0.7 * wide(words, size, bold)
}

/// Every row of a page ends on it, whatever the typeface, and rows never stand over one another.
#[test]
fn no_row_of_a_page_is_wider_than_the_page() {
    for case in cases() {
        for width_of in [wide as fn(&str, f32, bool) -> f32, narrow] {
            let pages = card_pages(&card(&case), &width_of);
            assert!(
                (1..=4).contains(&pages.len()),
                "{}: {} pages",
                case.name,
                pages.len()
            );
            for page in pages {
                let document = Document::parse(&page.svg).expect("well-formed");
                let most = page.width_mm * 96.0 / 25.4;
                let deepest = page.height_mm * 96.0 / 25.4;
                let number = |node: &Node, name: &str| -> f32 {
                    node.attribute(name)
                        .and_then(|value| value.parse().ok())
                        .expect("a number")
                };
                let mut rows = 0;
                for node in document
                    .root_element()
                    .children()
                    .filter(|node| node.has_tag_name("text"))
                {
                    let words = node.text().unwrap_or_default();
                    let bold = node.attribute("font-weight").is_some();
                    let end = number(&node, "x") + width_of(words, number(&node, "font-size"), bold);
                    assert!(end <= most - 20.0, "{}: {words} ends at {end}", case.name);
                    assert!(number(&node, "y") < deepest - 20.0, "{}: {words}", case.name);
                    rows += 1;
                }
                assert!(rows > 3);
            }
        }
    }
}

#[test]
fn a_card_in_feet_has_no_metres() {
    for case in cases().into_iter().filter(|case| case.feet) {
        let html = markup(&card_html(&[card(&case)]));
        let tokens: Vec<&str> = html
            .split(|c: char| c.is_whitespace() || "<>,.;:()".contains(c))
            .collect();
        assert!(!tokens.contains(&"m") && tokens.contains(&"ft"), "{}", case.name);
    }
}

#[test]
fn the_card_and_the_drawings_agree_on_what_sits_on_the_camera() {
    for metres in [0.1, 0.37, 0.43, 1.0] {
        let mut case = fixture::direct();
        let camera = case.job.viewpoint.position;
        case.answer.aim.flash = camera + Vec3::X * metres;
        let on_plan = drawing_svg(&case.job, Some(&case.answer), case.feet).contains("camera with the flash");
        // Only a flash that is not on the camera is in somebody's hand or on a stand.
        let html = markup(&card_html(&[card(&case)]));
        let in_hand = html.contains("The flash in your hand") || html.contains("The flash on its stand");
        assert_eq!((on_plan, in_hand), (metres < 0.4, metres >= 0.4), "{metres} m");
    }
}
