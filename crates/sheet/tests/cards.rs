//! Cards of invented answers: complete, escaped, readable, and saying what the solver says.

mod fixture;

use answer::{
    Adjusted, Answer, Between, DistanceChange, DistanceStep, Job, LightChange, Loss, Route, Variations,
};
use fixture::{Case, cases};
use glam::Vec3;
use roxmltree::{Document, Node};
use serde_json::Value;
use sheet::{Card, Language, Made, Voice, card_html, card_pages, drawing_svg};
use std::collections::BTreeSet;
use units::{PowerFraction, ShutterTime, Stops};

/// Settings that follow another light with the shutter; invented, like the answers.
fn adjusted(answer: &Answer, by: f64) -> Adjusted {
    let mut settings = answer.settings;
    let shutter = settings.shutter.value() * (-by).exp2();
    settings.shutter = ShutterTime::new(shutter.clamp(1.0 / 200.0, 4.0)).expect("in range");
    Adjusted {
        settings,
        power: answer.flash.power,
        in_hand: answer.flash.in_hand,
        ambient: answer.exposure.ambient_alone,
        flash: answer.exposure.flash_alone,
        total: answer.exposure.total,
    }
}

/// A flash whose power makes good what a distance has changed; invented as well.
fn flash_change(_: &Job, _: &Answer, picture: &Adjusted, _: Stops, by_flash: Stops) -> Adjusted {
    let below = by_flash.value() - picture.power.fraction().log2();
    Adjusted {
        power: PowerFraction::from_stops_below_full(below.max(0.0)).expect("in range"),
        in_hand: Stops(picture.in_hand.value() + by_flash.value()),
        ..picture.clone()
    }
}

/// Another light: some in which the shutter is slow, some in which something is lost.
fn light(answer: &Answer, clicks: i32) -> LightChange {
    let by = f64::from(clicks) / 3.0;
    LightChange {
        by: Stops(by),
        then: adjusted(answer, by),
        instead: (by < -1.5).then(|| adjusted(answer, -4.0 / 3.0)),
        lost: match by {
            by if by > 2.0 => vec![Loss::AmbientBrighter {
                stops: Stops(by - 2.0),
            }],
            _ => Vec::new(),
        },
    }
}

/// Invented lights and distances.
fn variations(case: &Case) -> Variations {
    let step = |metres: f64, stops: f64| DistanceStep {
        metres,
        flash: Stops(stops),
    };
    Variations {
        lights: (-12..=12).map(|clicks| light(&case.answer, clicks)).collect(),
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

fn made() -> Made {
    Made {
        year: 2026,
        month: 11,
        day: 25,
        clock: "16:00".to_owned(),
    }
}

fn card_in(case: &Case, language: Language) -> Card {
    Card::new(
        &case.job.title,
        &case.job,
        &case.answer,
        &variations(case),
        flash_change,
        Voice::new(language, case.feet),
        Some(&made()),
    )
}

fn card(case: &Case) -> Card {
    card_in(case, Language::English)
}

/// What is read of some markup: its text without tags.
fn read(markup: &str) -> String {
    let mut out = String::new();
    let mut inside = false;
    for c in markup.chars() {
        match c {
            '<' => {
                inside = true;
                out.push(' ');
            }
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
}

/// The file without its style, its script and its data.
fn markup(html: &str) -> String {
    let mut rest = html;
    let mut out = String::new();
    while let Some(at) = rest.find("<s") {
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
    for language in Language::ALL {
        let all: Vec<Card> = cases().iter().map(|case| card_in(case, language)).collect();
        let html = card_html(&all);
        assert!(html.starts_with("<!DOCTYPE html>"));
        let Some(folder) = std::env::var_os("RUSHLIGHT_LOOK") else {
            continue;
        };
        let write = |name: &str, text: &str| {
            std::fs::write(std::path::Path::new(&folder).join(name), text).expect("a folder to look at");
        };
        write(&format!("cards-{}.html", language.code()), &html);
        for (case, card) in cases().iter().zip(&all) {
            for (number, page) in card_pages(card, &narrow).iter().enumerate() {
                write(
                    &format!("card-{}-{}-{}.svg", case.name, language.code(), number + 1),
                    &page.svg,
                );
            }
        }
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
        assert_eq!(
            html.contains("<h2>Take care</h2>"),
            !case.answer.cautions.is_empty(),
            "{}: cautions",
            case.name
        );
    }
}

/// A German card has the same parts, and no word of the English ones.
#[test]
fn a_german_card_is_german_throughout() {
    let english = [
        "Camera",
        "Flash",
        "Where",
        "Stand",
        "Height",
        "Hold",
        "Watch",
        "assistant",
        "stop",
        "stops",
        "power",
        "darker",
        "brighter",
        "from",
        "with",
        "the",
        "eyes",
        "flash",
        "aim",
        "about",
        "distance",
        "Made",
    ];
    for case in cases() {
        let html = card_html(&[card_in(&case, Language::German)]);
        let text = read(&markup(&html));
        for part in [
            "Kamera:",
            "Blitz:",
            "Wohin:",
            "Platz",
            "Höhe",
            "Ziel",
            "Halten",
            "Achtung",
            "Das Licht ist anders",
            "2 Blenden dunkler",
            "Gemacht am 25. November 2026, 16:00 Uhr.",
            "Für die Assistenz",
        ] {
            assert!(text.contains(part), "{}: {part}", case.name);
        }
        assert!(html.contains("<html lang=\"de\">"), "{}", case.name);
        if case.name == "hostile-names" {
            continue;
        }
        // What the photographer has named stays as it is.
        let mut own: BTreeSet<&str> = case.job.title.split_whitespace().collect();
        own.extend(
            case.job
                .sitters
                .iter()
                .flat_map(|sitter| sitter.name.split_whitespace()),
        );
        own.extend(
            case.job
                .place
                .blocks
                .iter()
                .flat_map(|block| block.name.split_whitespace()),
        );
        own.extend(
            case.job
                .place
                .openings
                .iter()
                .flat_map(|side| side.name.split_whitespace()),
        );
        own.extend(
            case.job
                .place
                .panels
                .iter()
                .flat_map(|board| board.name.split_whitespace()),
        );
        own.extend(
            case.job
                .bag
                .boards
                .iter()
                .flat_map(|board| board.name.split_whitespace()),
        );
        for word in text.split(|c: char| !c.is_alphanumeric()) {
            assert!(
                !english.contains(&word) || own.contains(word),
                "{}: {word}",
                case.name
            );
        }
        // A decimal point stands in a power only, which is engraved so.
        let letters: Vec<char> = text.chars().collect();
        for (at, around) in letters.windows(3).enumerate() {
            let point = around[0].is_ascii_digit() && around[1] == '.' && around[2].is_ascii_digit();
            // An aperture is engraved with a point too.
            let before: String = letters[at.saturating_sub(2)..=at].iter().collect();
            assert!(
                !point || before.ends_with("+0") || before.starts_with("f/") || before.starts_with('/'),
                "{}: {}",
                case.name,
                letters[at.saturating_sub(8)..(at + 8).min(letters.len())]
                    .iter()
                    .collect::<String>()
            );
        }
    }
}

/// Every word that the script shows is there, in both languages, and the script asks for no other.
#[test]
fn the_script_finds_its_words() {
    let card_of = |language| card_in(&fixture::direct(), language);
    let html = Language::ALL.map(|language| card_html(&[card_of(language)]));
    let [english, german] = html.each_ref().map(|html| data(html)["words"].clone());
    let script = html[0].rsplit("<script>").next().expect("the script");
    let asked: BTreeSet<&str> = script
        .split("words.")
        .skip(1)
        .map(|rest| rest.split(|c: char| !c.is_alphanumeric()).next().expect("a name"))
        .collect();
    let has =
        |words: &Value| -> BTreeSet<String> { words.as_object().expect("words").keys().cloned().collect() };
    assert_eq!(
        has(&english),
        asked.iter().map(|name| (*name).to_owned()).collect()
    );
    assert_eq!(has(&english), has(&german));
    for name in asked {
        assert_ne!(english[name], german[name], "{name}");
        let amounts = |words: &Value| -> BTreeSet<String> {
            let words = words[name].as_str().expect("words");
            words
                .split('{')
                .skip(1)
                .map(|rest| rest.split('}').next().expect("a name").to_owned())
                .collect()
        };
        assert_eq!(amounts(&english), amounts(&german), "{name}");
    }
}

/// The three lines of the card are the three lines of the answer.
#[test]
fn the_three_lines_are_those_of_the_answer() {
    for (case, language) in cases()
        .iter()
        .flat_map(|case| Language::ALL.map(|language| (case, language)))
    {
        let html = card_html(&[card_in(case, language)]);
        let lines = sheet::Told::new(&case.job, &case.answer, Voice::new(language, case.feet)).lines;
        let bare = |class: &str| -> String {
            let from = html
                .find(&format!("<p class=\"line {class}\">"))
                .expect("the line");
            let end = from + html[from..].find("</p>").expect("its end");
            let words = read(&html[from..end]);
            let words = words.split_once(": ").expect("a name").1;
            words.split_whitespace().collect::<Vec<_>>().join(" ")
        };
        let plain = |line: &str| line.split_whitespace().collect::<Vec<_>>().join(" ");
        assert_eq!(bare("camera"), plain(&lines.camera), "{}", case.name);
        let flash = bare("flash").replace("LOW: ", "").replace("KNAPP: ", "");
        assert_eq!(flash, plain(&lines.flash), "{}", case.name);
        let words: String = lines
            .aim
            .chars()
            .skip_while(|c| !c.is_alphanumeric() && *c != '„')
            .collect();
        assert_eq!(bare("where"), plain(&words), "{}", case.name);
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
        case.answer.aim.route = Route::Standing {
            name: words.to_owned(),
        };
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
        assert_eq!(data(&html)["cards"].as_array().expect("cards").len(), 2);
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

/// What the script looks up is what was found, for every light and every distance.
#[test]
fn the_table_is_what_was_found() {
    let mut compared = 0;
    for case in cases().into_iter().filter(|case| case.name != "hostile-names") {
        let variations = variations(&case);
        let data = &data(&card_html(&[card(&case)]))["cards"][0];
        let told = data["lights"].as_array().expect("lights");
        assert_eq!(told.len(), 25);
        assert_eq!(data["planned"], 12);
        for (told, light) in told.iter().zip(&variations.lights) {
            assert_eq!(strings(&told["lost"]).is_empty(), light.lost.is_empty());
            let ways: Vec<_> = std::iter::once(&light.then).chain(&light.instead).collect();
            assert_eq!(told["ways"].as_array().expect("ways").len(), ways.len());
            for (told, way) in told["ways"].as_array().expect("ways").iter().zip(ways) {
                compared += compare(&case, data, told, way, light.by, &variations.distances);
            }
        }
    }
    assert!(compared > 2000, "{compared} entries compared");
}

/// One way at every combination of the distances; returns how many there are.
fn compare(
    case: &Case,
    data: &Value,
    told: &Value,
    way: &Adjusted,
    by: Stops,
    distances: &[DistanceChange],
) -> usize {
    let camera = strings(&told["camera"]);
    assert_eq!(camera[0], way.settings.aperture.nearest_third().to_string());
    assert_eq!(camera[1], way.settings.shutter.to_string());
    assert_eq!(camera[2], way.settings.iso.to_string());
    assert_eq!(told["shutter"], camera[1]);
    let flash = told["flash"].as_array().expect("combinations");
    assert_eq!(flash.len(), 12);
    for (index, at) in flash.iter().enumerate() {
        let moved = distances[0].steps[index / 4].flash + distances[1].steps[index % 4].flash;
        let then = flash_change(&case.job, &case.answer, way, by, moved);
        let entry = &data["flashes"][at.as_u64().expect("a position") as usize];
        assert_eq!(
            entry[0],
            then.power.nearest_third().to_string(),
            "{} {by:?}",
            case.name
        );
        let little = then.in_hand.value() < 1.0 / 3.0 - 1e-6;
        assert_eq!(entry[2], u8::from(little));
        let words = entry[1].as_str().expect("words");
        assert_eq!(
            little,
            words.starts_with("LOW: ") || words.ends_with(" short"),
            "{words}"
        );
    }
    flash.len()
}

/// Little in hand is told by a word, and by a frame, not by colour alone.
#[test]
fn little_in_hand_is_told_by_a_word() {
    let check = |in_hand: f64, english: &str, german: &str, marked: bool| {
        let mut case = fixture::bounce_left();
        case.answer.flash.in_hand = Stops(in_hand);
        for (language, expected) in Language::ALL.into_iter().zip([english, german]) {
            let html = markup(&card_html(&[card_in(&case, language)]));
            let from = html.find("class=\"line flash\"").expect("the line");
            let line = &html[from..from + html[from..].find("</p>").expect("its end")];
            let bare = line.replace("<b>", "").replace("</b>", "");
            assert!(bare.contains(&format!(">{expected}<")), "{bare}");
            assert_eq!(line.contains("part little"), marked, "{line}");
        }
    };
    check(1.0, "1 stop in hand", "1 Blende Reserve", false);
    check(0.2, "LOW: 0.2 stop in hand", "KNAPP: 0,2 Blende Reserve", true);
    check(-0.5, "0.5 stop short", "0,5 Blende zu wenig", true);
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
    for (case, language) in cases()
        .iter()
        .flat_map(|case| Language::ALL.map(|language| (case, language)))
    {
        for width_of in [wide as fn(&str, f32, bool) -> f32, narrow] {
            let pages = card_pages(&card_in(case, language), &width_of);
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
                assert!(rows > 3, "{}: {rows} rows on a page", case.name);
            }
        }
    }
}

/// Every case has one unit of length on card and drawings, whatever the shoot was written in.
#[test]
fn a_card_has_one_unit_of_length() {
    for (case, language) in cases()
        .iter()
        .flat_map(|case| Language::ALL.map(|language| (case, language)))
    {
        if case.name == "hostile-names" {
            continue;
        }
        let html = markup(&card_html(&[card_in(case, language)]));
        let tokens: BTreeSet<&str> = html
            .split(|c: char| c.is_whitespace() || "<>,.;:()\"".contains(c))
            .collect();
        let (there, not_there): (&[&str], &[&str]) = match case.feet {
            true => (&["ft"], &["m", "cm"]),
            false => (&["m"], &["ft", "in"]),
        };
        assert!(there.iter().all(|unit| tokens.contains(unit)), "{}", case.name);
        // "in" is a word of both languages; a length has a number before it.
        let after_number = |unit: &str| {
            html.match_indices(&format!(" {unit}")).any(|(at, found)| {
                let ends = !html[at + found.len()..].starts_with(char::is_alphanumeric);
                ends && html[..at].ends_with(|c: char| c.is_ascii_digit())
            })
        };
        for unit in not_there {
            assert!(!after_number(unit), "{} {unit}", case.name);
        }
    }
}

#[test]
fn the_card_and_the_drawings_agree_on_what_sits_on_the_camera() {
    for metres in [0.1, 0.33, 0.37, 1.0] {
        let mut case = fixture::direct();
        let camera = case.job.viewpoint.position;
        let flash = camera + Vec3::X * metres;
        (case.answer.aim.flash, case.answer.aim.holder) = (flash, case.job.holder(flash, &Route::Direct));
        let on_plan = drawing_svg(
            &case.job,
            Some(&case.answer),
            Voice::new(Language::English, case.feet),
        )
        .contains("camera with the flash");
        // Only a flash that is not on the camera is in somebody's hand or on a stand.
        let html = markup(&card_html(&[card(&case)]));
        let in_hand = html.contains("The flash in your hand") || html.contains("The flash on its stand");
        assert_eq!((on_plan, in_hand), (metres < 0.35, metres >= 0.35), "{metres} m");
    }
}
