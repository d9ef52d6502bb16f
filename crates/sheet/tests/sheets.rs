//! What is printed and drawn of invented answers: well-formed, complete, readable, and adding up.

mod fixture;

use answer::{Judgement, Verdict, Wish};
use fixture::languages::{ENGLISH, GERMAN, leaked, without_names};
use fixture::{Case, cases};
use glam::Vec3;
use roxmltree::{Document, Node};
use sheet::{
    Language, Lengths, Told, Voice, answer_text, day_svg, drawing_svg, room_map_svg, stops_chart_svg,
};
use units::Ratio;

/// Every voice: English and German, in metres and in feet.
fn voices() -> impl Iterator<Item = Voice> {
    let each = |language| [false, true].map(|feet| Voice::new(language, feet));
    Language::ALL.into_iter().flat_map(each)
}

/// English, in the case's own unit of length.
fn english(case: &Case) -> Voice {
    Voice::new(Language::English, case.feet)
}

/// Every sheet that is drawn of a case.
fn drawings(case: &Case, voice: Voice) -> Vec<(&'static str, String)> {
    vec![
        ("drawing", drawing_svg(&case.job, Some(&case.answer), voice)),
        ("place", drawing_svg(&case.job, None, voice)),
        ("map", room_map_svg(&case.job, &case.answer, voice)),
        ("chart", stops_chart_svg(&case.answer, voice)),
    ]
}

/// Every sheet that there is, in both languages, with a name for messages and files.
fn all_drawings() -> Vec<(String, String)> {
    let drawn = |language: Language| {
        let code = language.code();
        let of_answers = cases().into_iter().flat_map(move |case| {
            let drawn = drawings(&case, Voice::new(language, case.feet)).into_iter();
            drawn.map(move |(kind, svg)| (format!("{}-{kind}-{code}", case.name), svg))
        });
        let of_days = fixture::days().into_iter().map(move |(name, day)| {
            let svg = day_svg(&day, Voice::new(language, false));
            (format!("{name}-day-{code}"), svg)
        });
        of_answers.chain(of_days)
    };
    Language::ALL.into_iter().flat_map(drawn).collect()
}

/// Writes the sheets to a folder named in the environment, so that a person can look at them.
#[test]
fn sheets_can_be_looked_at() {
    let folder = std::env::var_os("RUSHLIGHT_LOOK");
    for (name, svg) in all_drawings() {
        assert!(svg.starts_with("<svg "), "{name}");
        if let Some(folder) = &folder {
            let file = std::path::Path::new(folder).join(format!("{name}.svg"));
            std::fs::write(file, &svg).expect("the folder to look at can be written to");
        }
    }
    for case in cases() {
        if let Some(folder) = &folder {
            for language in Language::ALL {
                let file = format!("{}-{}.txt", case.name, language.code());
                let file = std::path::Path::new(folder).join(file);
                let text = answer_text(&case.job, &case.answer, Voice::new(language, case.feet));
                std::fs::write(file, text).expect("the folder to look at can be written to");
            }
        }
    }
}

#[test]
fn the_three_lines_come_first_in_the_notation_of_the_trade() {
    let case = fixture::bounce_left();
    let starts = |language, lines: [&str; 3], about: &str| {
        let voice = Voice::new(language, false);
        let text = answer_text(&case.job, &case.answer, voice);
        for (line, start) in text.lines().zip(lines) {
            assert!(line.starts_with(start), "{line}");
        }
        let told = Told::new(&case.job, &case.answer, voice);
        assert_eq!(told.lines.about, about);
        assert!(text.lines().next().is_some_and(|line| line == told.lines.camera));
    };
    starts(
        Language::English,
        [
            "f/4 · 1/160 · ISO 400 · 5250 K",
            "1/8 +0.7 · zoom 50 · no gel · 2.3 stops in hand",
            "← bounce LEFT WALL where it meets the ceiling 2.2 m up",
        ],
        "About 2/3 stop either way until a frame is read; most of it is paint of the left wall. Measure that first.",
    );
    starts(
        Language::German,
        [
            "f/4 · 1/160 · ISO 400 · 5250 K",
            "1/8 +0.7 · Zoom 50 · keine Folie · 2,3 Blenden Reserve",
            "← über die LINKE WAND an der Kante zur Decke, 2,2 m hoch",
        ],
        "Auf etwa 2/3 Blende genau, bis ein erstes Bild da ist; das meiste davon: Anstrich der linken Wand. Miss das zuerst.",
    );
}

#[test]
fn text_is_narrow_plain_and_free_of_what_is_not_a_number() {
    for case in cases() {
        for voice in voices() {
            let text = answer_text(&case.job, &case.answer, voice);
            for line in text.lines() {
                let width = columns(line);
                assert!(width <= 100, "{}: {width} columns: {line}", case.name);
                assert!(!line.ends_with(' '), "{}: {line}|", case.name);
            }
            let steers = |c: char| {
                c != '\n' && c.is_control()
                    || matches!(c, '\u{61c}' | '\u{200e}' | '\u{200f}' | '\u{202a}'..='\u{202e}' | '\u{2066}'..='\u{2069}')
            };
            assert!(!text.contains(steers), "{}", case.name);
            for word in ["NaN", "inf", "-0", "lux", "candela", "lx", "cd"] {
                let found = text.split(char::is_whitespace).any(|token| token == word);
                assert!(!found && !text.contains("NaN"), "{}: {word}", case.name);
            }
        }
    }
}

#[test]
fn one_answer_speaks_one_language() {
    for case in cases().into_iter().filter(|case| case.name != "hostile-names") {
        for (language, foreign) in [(Language::English, GERMAN), (Language::German, ENGLISH)] {
            let text = answer_text(&case.job, &case.answer, Voice::new(language, false));
            let leaked = leaked(&without_names(&text), foreign).map(str::to_owned);
            assert_eq!(leaked, None, "{}:\n{text}", case.name);
        }
    }
}

#[test]
fn told_lists_stand_in_the_order_of_the_data() {
    for case in cases() {
        for voice in voices() {
            let (answer, told) = (&case.answer, Told::new(&case.job, &case.answer, voice));
            assert_eq!(told.notes.len(), answer.notes.len());
            assert_eq!(told.wishes.len(), answer.wishes.len());
            assert_eq!(told.chart.len(), answer.chart.len());
            assert_eq!(told.surfaces.len(), answer.surfaces.len());
            assert_eq!(told.sensitivities.len(), answer.sensitivities.len());
            assert_eq!(told.uncertainty.len(), answer.uncertainty.parts.len());
            assert_eq!(
                told.moved.is_some(),
                case.name.starts_with("short"),
                "{}",
                case.name
            );
        }
    }
    let short = fixture::short();
    let told = Told::new(&short.job, &short.answer, Voice::new(Language::German, false));
    assert_eq!(told.way, "linke Wand, an der Kante zur Decke");
    assert_eq!(told.engraved.power, "1/8 +0.7");
    assert_eq!(
        told.moved.as_deref(),
        Some("Rücke „Wilhelmina“ 0,5 m nach kameralinks und 0,3 m näher zur Kamera")
    );
    assert_eq!(told.wishes[9].found, "4.9:1".replace('.', ","));
    assert_eq!(told.surfaces[4].name, "Boden");
    let changes = told.shortfall.expect("it is short").changes;
    assert_eq!(changes[1].cost, "20 cm sind scharf statt 40 cm");
}

#[test]
fn a_ratio_that_was_asked_is_told_as_one() {
    let mut case = fixture::bounce_left();
    let ratio = Ratio::new(3.0).expect("a ratio");
    case.answer.wishes = vec![Judgement::new(Wish::Ratio { ratio }, 3.1, 0.05, 0.5, 1.0)];
    let text = answer_text(&case.job, &case.answer, Voice::default());
    assert!(
        text.contains("ratio 3:1                      kept: 3.1:1"),
        "{text}"
    );
}

/// Columns, with two for each of the wide characters that the fixtures use.
fn columns(line: &str) -> usize {
    line.chars()
        .map(|c| {
            if ('\u{1f300}'..='\u{1faff}').contains(&c) {
                2
            } else {
                1
            }
        })
        .sum()
}

#[test]
fn printed_stops_add_up_as_printed() {
    for case in cases() {
        let voice = english(&case);
        let text = answer_text(&case.job, &case.answer, voice);
        let chart: Vec<i64> = text
            .lines()
            .skip_while(|line| *line != "Where the stops go")
            .skip(1)
            .take_while(|line| !line.is_empty())
            .map(|line| hundredths(&line.chars().skip(49).take(8).collect::<String>()))
            .collect();
        let (result, parts) = chart.split_last().expect("the chart has lines");
        assert_eq!(parts.iter().sum::<i64>(), *result, "{}: {chart:?}", case.name);
        // The drawn chart prints the same numbers.
        let svg = stops_chart_svg(&case.answer, voice);
        let document = Document::parse(&svg).expect("well-formed");
        let drawn: Vec<i64> = document
            .descendants()
            .filter(|node| node.attribute("text-anchor") == Some("end"))
            .map(|node| hundredths(node.text().unwrap_or_default()))
            .collect();
        assert_eq!(drawn, chart, "{}", case.name);
    }
}

fn hundredths(text: &str) -> i64 {
    let text = text.trim().replace('−', "-").replace('.', "");
    if text == "–" {
        0
    } else {
        text.parse()
            .unwrap_or_else(|_| panic!("{text} is a number of stops"))
    }
}

#[test]
fn metres_and_feet_are_never_mixed() {
    for case in cases() {
        // A name may hold anything, so the fixture with odd names says nothing here.
        if case.name == "hostile-names" {
            continue;
        }
        for voice in voices() {
            let feet = voice.lengths == Lengths::Feet;
            let mut words = vec![answer_text(&case.job, &case.answer, voice)];
            words.extend(drawings(&case, voice).into_iter().map(|(_, svg)| {
                let document = Document::parse(&svg).expect("well-formed");
                let texts = document
                    .descendants()
                    .filter(Node::is_text)
                    .filter_map(|node| node.text().map(str::to_owned));
                texts.collect::<Vec<_>>().join("\n")
            }));
            for words in words {
                let tokens: Vec<&str> = words
                    .split(|c: char| c.is_whitespace() || ",.;:()".contains(c))
                    .collect();
                let metres = ["m", "cm"].iter().any(|unit| tokens.contains(unit));
                let in_feet = tokens.contains(&"ft");
                assert!(
                    if feet { !metres } else { !in_feet },
                    "{} with feet = {feet}: {words}",
                    case.name
                );
            }
        }
    }
}

#[test]
fn drawings_are_well_formed_described_and_self_contained() {
    for (name, svg) in all_drawings() {
        let document = Document::parse(&svg).unwrap_or_else(|error| panic!("{name}: {error}"));
        let root = document.root_element();
        let child = |tag: &str| {
            root.children()
                .find(|node| node.has_tag_name(tag))
                .and_then(|node| node.text())
        };
        assert!(
            child("title").is_some_and(|words| !words.trim().is_empty()),
            "{name} has a title"
        );
        assert!(
            child("desc").is_some_and(|words| words.len() > 40),
            "{name} has a description"
        );
        assert_eq!(root.attribute("role"), Some("img"));
        for node in document.descendants() {
            assert!(
                !matches!(
                    node.tag_name().name(),
                    "script" | "image" | "use" | "foreignObject"
                ),
                "{name}"
            );
            for attribute in node.attributes() {
                let value = attribute.value();
                assert!(
                    !value.contains("NaN") && !value.contains("inf"),
                    "{name}: {value}"
                );
                let outside = value.contains("://") && value != "http://www.w3.org/2000/svg";
                assert!(!outside && !attribute.name().starts_with("on"), "{name}: {value}");
            }
        }
    }
}

/// The box of a text as a reader's font might set it, from its attributes.
fn text_box(node: Node) -> Option<[f64; 4]> {
    let number = |name: &str| node.attribute(name).and_then(|value| value.parse::<f64>().ok());
    let (x, y) = (number("x")?, number("y")?);
    let size = number("font-size").unwrap_or(13.0);
    // A plain sans-serif sets about 0.52 em for each character.
    let width = 0.52 * size * node.text()?.chars().count() as f64;
    let left = match node.attribute("text-anchor") {
        Some("middle") => x - 0.5 * width,
        Some("end") => x - width,
        _ => x,
    };
    let (top, bottom) = (y - 0.72 * size, y + 0.16 * size);
    if node
        .attribute("transform")
        .is_some_and(|turn| turn.starts_with("rotate(-90"))
    {
        let (cx, cy) = (x, y - 0.36 * size);
        let half = 0.5 * width;
        return Some([cx - 0.44 * size, cy - half, cx + 0.44 * size, cy + half]);
    }
    Some([left, top, left + width, bottom])
}

/// What a piece of the map says when it is touched: one at a time, in a place that is kept free for it.
fn is_tip(node: Node) -> bool {
    node.parent()
        .is_some_and(|parent| parent.attribute("class") == Some("tip"))
}

#[test]
fn labels_stay_on_the_sheet_and_off_one_another() {
    for (name, svg) in all_drawings() {
        let document = Document::parse(&svg).expect("well-formed");
        let root = document.root_element();
        let size = ["width", "height"].map(|name| {
            root.attribute(name)
                .and_then(|v| v.parse::<f64>().ok())
                .expect("a size")
        });
        let texts: Vec<(String, [f64; 4])> = document
            .descendants()
            .filter(|node| node.has_tag_name("text") && !is_tip(*node))
            .filter_map(|node| Some((node.text()?.to_owned(), text_box(node)?)))
            .collect();
        assert!(texts.len() > 3, "{name}");
        for (index, (words, a)) in texts.iter().enumerate() {
            let inside = a[0] >= 0.0 && a[1] >= 0.0 && a[2] <= size[0] && a[3] <= size[1];
            assert!(
                inside,
                "{name}: \"{words}\" at {a:?} leaves the sheet of {size:?}"
            );
            for (other, b) in &texts[index + 1..] {
                let apart = a[2] <= b[0] || b[2] <= a[0] || a[3] <= b[1] || b[3] <= a[1];
                assert!(apart, "{name}: \"{words}\" {a:?} covers \"{other}\" {b:?}");
            }
        }
    }
}

/// Relative luminance and contrast after WCAG 2.2 (W3C 2023), "contrast ratio".
fn contrast(a: &str, b: &str) -> f64 {
    let luminance = |colour: &str| {
        let part = |at: usize| {
            let value = u8::from_str_radix(&colour[at..at + 2], 16).expect("a hexadecimal colour");
            colour::decode_srgb(f64::from(value) / 255.0)
        };
        0.2126 * part(1) + 0.7152 * part(3) + 0.0722 * part(5)
    };
    let (a, b) = (luminance(a) + 0.05, luminance(b) + 0.05);
    a.max(b) / a.min(b)
}

#[test]
fn all_text_has_a_contrast_of_seven_to_one() {
    // The grounds on which text stands: the sheet, the floor, and things that stand on it.
    let grounds = ["#2e2e2e", "#393939"];
    for (name, svg) in all_drawings() {
        let document = Document::parse(&svg).expect("well-formed");
        for node in document.descendants().filter(|node| node.has_tag_name("text")) {
            let fill = node
                .attribute("fill")
                .expect("every text has a colour of its own");
            if fill == "#2e2e2e" {
                // The number in the head of the sitter who is metered stands on the second ink.
                assert!(contrast(fill, "#d6d2cb") >= 7.0);
                continue;
            }
            for ground in grounds {
                let ratio = contrast(fill, ground);
                assert!(ratio >= 7.0, "{name}: {fill} on {ground} is {ratio:.1}:1");
            }
        }
    }
    // Names of furniture and numbers of sitters stand on the body colour in the first ink.
    assert!(contrast("#f4f2ee", "#484848") >= 7.0);
}

#[test]
fn a_day_names_each_moment_once_and_marks_it_in_the_chart() {
    for (name, day) in fixture::days() {
        let svg = day_svg(&day, Voice::default());
        let document = Document::parse(&svg).expect("well-formed");
        let texts: Vec<&str> = document
            .descendants()
            .filter(|node| node.has_tag_name("text"))
            .filter_map(|node| node.text())
            .collect();
        for mark in &day.marks {
            let words = format!("{} {}", mark.event.words(Voice::default()), mark.clock);
            let times = texts.iter().filter(|text| **text == words).count();
            assert_eq!(times, 1, "{name}: {words}");
        }
        for letter in ["N", "E", "S", "W"] {
            assert!(texts.contains(&letter), "{name}: {letter}");
        }
        // Each moment stands in the chart where its hour is, between midnight and midnight.
        let number = |node: &Node, key: &str| node.attribute(key).and_then(|text| text.parse::<f64>().ok());
        let mut lines: Vec<f64> = document
            .descendants()
            .filter(|node| node.attribute("stroke-dasharray") == Some("3 4"))
            .filter_map(|node| number(&node, "x1"))
            .collect();
        lines.sort_by(f64::total_cmp);
        let mut hours: Vec<f64> = day.marks.iter().map(|mark| mark.hour).collect();
        hours.sort_by(f64::total_cmp);
        assert_eq!(lines.len(), hours.len(), "{name}");
        for pair in lines.iter().zip(&hours).collect::<Vec<_>>().windows(2) {
            let (moved, later) = (pair[1].0 - pair[0].0, pair[1].1 - pair[0].1);
            // 515 pixels are a day.
            assert!((moved - 515.0 * later / day.hours).abs() < 0.2, "{name}: {moved}");
        }
    }
}

#[test]
fn what_could_not_be_named_in_the_drawing_is_named_below_it() {
    let case = fixture::nine_in_rows();
    let svg = drawing_svg(&case.job, Some(&case.answer), Voice::default());
    for sitter in &case.job.sitters {
        assert!(svg.contains(&sitter.name), "{} is named", sitter.name);
    }
}

#[test]
fn every_piece_of_the_map_says_its_reason_to_pointer_and_finger() {
    for case in cases() {
        let svg = room_map_svg(&case.job, &case.answer, english(&case));
        let document = Document::parse(&svg).expect("well-formed");
        let pieces: Vec<Node> = document
            .descendants()
            .filter(|node| node.attribute("class") == Some("cell"))
            .collect();
        assert_eq!(pieces.len(), case.answer.map.cells.len(), "{}", case.name);
        assert!(!pieces.is_empty());
        for (piece, cell) in pieces.iter().zip(&case.answer.map.cells) {
            let title = piece
                .children()
                .find(|node| node.has_tag_name("title"))
                .and_then(|node| node.text())
                .expect("a piece has a title");
            assert!(title.starts_with(cell.face.words()), "{title}");
            assert!(title.contains("Zoom 50") || title.contains("zoom 50"), "{title}");
            // The lines under the head say the same, whole.
            let tip: Vec<&str> = piece
                .descendants()
                .filter(|node| node.has_tag_name("text"))
                .filter_map(|node| node.text())
                .collect();
            assert_eq!(tip.join(" "), title, "{}", case.name);
            // No mark is the same for two verdicts: a disc, a ring, a stroke or a cross.
            let d = piece
                .descendants()
                .find(|node| node.has_tag_name("path"))
                .and_then(|node| node.attribute("d"))
                .unwrap_or_default();
            let disc = piece.descendants().any(|node| node.has_tag_name("circle"));
            let count = |letter| d.matches(letter).count();
            let mark = (disc, count('A'), count('L'));
            let expected: &[(bool, usize, usize)] = match cell.verdict {
                Verdict::Chosen => &[(true, 0, 0)],
                Verdict::Possible => &[(true, 0, 0), (false, 2, 0)],
                Verdict::Poor => &[(false, 0, 1)],
                Verdict::Unusable => &[(false, 0, 2)],
            };
            assert!(expected.contains(&mark), "{}: {mark:?} for {title}", case.name);
        }
    }
}

#[test]
fn the_map_shows_where_to_aim_and_what_else_would_do() {
    let has = |case: &Case, words: &str| {
        let svg = room_map_svg(&case.job, &case.answer, english(case));
        let document = Document::parse(&svg).expect("well-formed");
        let texts = document
            .descendants()
            .filter(|node| node.has_tag_name("text") && !is_tip(*node));
        let shown: Vec<&str> = texts.filter_map(|node| node.text()).collect();
        // A line may break anywhere.
        let shown = shown.join(" ");
        assert!(shown.contains(words), "{}: {words} in {shown}", case.name);
    };
    let short = fixture::short();
    for words in [
        "the answer aims here",
        "another answer: ceiling",
        "another answer: wall behind",
        "the flash, seen from above window doorway",
        "left wall",
        "up is →",
        "not from here",
    ] {
        has(&short, words);
    }
    has(&fixture::held_board(), "The answer aims at no face of the room");
    has(&fixture::direct(), "straight at the face.");
    // The map is seen from one place of the flash; an answer from another place says so.
    let mut elsewhere = fixture::ceiling();
    elsewhere.answer.aim.flash += Vec3::new(-1.5, 0.6, 0.2);
    has(&elsewhere, "the answer's flash: from there the map is another");
    has(&elsewhere, "the answer's flash, 1.9 m up");
}

#[test]
fn a_missed_ask_is_told_right_under_the_three_lines() {
    let case = fixture::short();
    let text = answer_text(&case.job, &case.answer, Voice::default());
    let place = |words: &str| {
        text.find(words)
            .unwrap_or_else(|| panic!("\"{words}\" is missing in\n{text}"))
    };
    let order = [
        "f/4 · 1/160",
        "bounce LEFT WALL",
        "Move Wilhelmina 0.5 m to camera left and 0.3 m nearer to the camera",
        "This picture cannot be had as it was asked: the face comes out 0.6 stop too dark",
        "What would help, the least first",
        "  1. raise the speed to ISO 1600",
        "     costs: 2 stops more noise",
        "     then:  left wall, f/4 · 1/160 · ISO 1600, 1/2 at zoom 50, 1 stop in hand",
        "  2. open up to f/2.2",
        "     costs: 20 cm are sharp instead of 40 cm",
        "  3. have someone hold the white board",
        "What would not help",
        "About 2/3 stop either way",
        "To know",
        "Other answers",
        "  1. ceiling: 1.1 stops more in hand",
        "     ↖ bounce CEILING",
        "  2. wall behind the camera",
        "Where the stops go",
        "What you asked for, and what you get",
        "rushlight map SHOOT.toml -o map.svg",
        "If things are a little different",
        "The sums",
    ];
    let places = order.map(place);
    assert!(places.is_sorted(), "{places:?} in\n{text}");
    let first_part = &text[..place("What would help")];
    assert!(
        !first_part.contains("soft light"),
        "what is met is not told first:\n{text}"
    );
    // An answer that meets everything says nothing of the kind.
    let good = fixture::bounce_left();
    let text = answer_text(&good.job, &good.answer, Voice::default());
    for words in ["missed", "help", "Move", "Other answers", "different"] {
        assert!(!text.contains(words), "{words} in\n{text}");
    }
}

#[test]
fn when_nothing_helps_alone_that_is_said() {
    let mut case = fixture::short();
    let shortfall = case.answer.shortfall.as_mut().expect("it is short");
    shortfall.changes.clear();
    let text = answer_text(&case.job, &case.answer, Voice::default());
    assert!(
        text.contains("No single change helps; these were tried\n  - wait 128.0 s between frames"),
        "{text}"
    );
}

#[test]
fn small_differences_are_a_table_in_stops_degrees_and_mired() {
    let case = fixture::short();
    let text = answer_text(&case.job, &case.answer, Voice::default());
    let row = |start: &str| {
        text.lines()
            .find(|line| line.trim_start().starts_with(start))
            .unwrap_or_else(|| panic!("{start} is missing in\n{text}"))
            .split_whitespace()
            .collect::<Vec<_>>()
            .join(" ")
    };
    assert_eq!(
        row("left wall a third"),
        "left wall a third darker −0.41 3° right, 1° up 2 mired warm"
    );
    assert_eq!(row("ceiling 20 cm"), "ceiling 20 cm lower −0.06 stays no shift");
    // A long name goes on below.
    assert_eq!(
        row("sitter 0.5 m nearer"),
        "sitter 0.5 m nearer to the left wall with +0.18 4° left, 2° up 1 mired warm"
    );
    assert_eq!(row("the wall behind"), "the wall behind the camera");
}
