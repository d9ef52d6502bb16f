//! `rushlight card`: what is written, and what is refused.

use app::cli::CardArgs;
use app::commands::card::{Answered, cards, on_paper, run};
use app::commands::load;
use shoot::DEMO;
use std::path::PathBuf;

fn folder(name: &str) -> PathBuf {
    let folder = std::env::temp_dir().join(format!("rushlight-card-{name}-{}", std::process::id()));
    std::fs::create_dir_all(&folder).expect("a temporary folder");
    folder
}

#[test]
fn a_card_is_written_for_a_phone_and_for_paper() {
    let folder = folder("written");
    let shoot = folder.join("band-room.toml");
    std::fs::write(&shoot, DEMO).expect("a writable folder");
    for (ending, begins) in [("html", "<!DOCTYPE html>"), ("PDF", "%PDF-1.")] {
        let out = folder.join(format!("card.{ending}"));
        let args = CardArgs {
            shoot: shoot.clone(),
            setup: Some("1".to_owned()),
            out: out.clone(),
        };
        run(&args).expect("the demo has a card");
        let bytes = std::fs::read(&out).expect("just written");
        assert!(bytes.starts_with(begins.as_bytes()), "{ending}");
        assert!(
            bytes.len() > 20_000 && bytes.len() < 400_000,
            "{ending}: {} bytes",
            bytes.len()
        );
    }
    std::fs::remove_dir_all(&folder).expect("our own folder");
}

#[test]
fn another_ending_is_refused_before_anything_is_computed() {
    let folder = folder("refused");
    for name in ["card.png", "card", "card.html.txt"] {
        let args = CardArgs {
            shoot: folder.join("no-such-shoot.toml"),
            setup: None,
            out: folder.join(name),
        };
        let refused = run(&args).expect_err("neither HTML nor PDF");
        assert_eq!(refused.exit_code(), 2);
        assert!(refused.to_string().contains("Try  -o card.html"), "{refused}");
    }
    std::fs::remove_dir_all(&folder).expect("our own folder");
}

/// Several set-ups in one file, and on one paper: the same answer twice stands for two.
#[test]
fn several_set_ups_make_one_file() {
    let shoot = load(None, None).expect("the demo");
    let answer = solver::answer(&shoot.job, 1).expect("answered");
    let answered = |title: &'static str| Answered {
        title,
        job: &shoot.job,
        answer: &answer,
    };
    let two = cards(&[answered("First"), answered("Second")], false, "").expect("cards");
    let html = sheet::card_html(&two);
    assert_eq!(html.matches("<article ").count(), 2);
    assert!(html.contains("1/2 First") && html.contains("2/2 Second"));
    let one = on_paper(&two[..1], "First").expect("printed");
    let both = on_paper(&two, "Both").expect("printed");
    assert!(both.len() > one.len());
    assert_eq!(
        both,
        on_paper(&two, "Both").expect("printed"),
        "no clock in a file"
    );
}

/// With the real widths of the typeface, no row of a page runs off it.
#[test]
fn rows_end_on_the_page_they_are_printed_on() {
    let shoot = load(None, None).expect("the demo");
    let answer = solver::answer(&shoot.job, 1).expect("answered");
    let answered = Answered {
        title: "A title that is far too long for one row of a page, so that it must be cut at some place or other",
        job: &shoot.job,
        answer: &answer,
    };
    let cards = cards(&[answered], false, "Made 25 November 2026, 16:00.").expect("cards");
    let mut rows = 0;
    for page in sheet::card_pages(&cards[0], &print::width_of) {
        for element in page.svg.lines().filter(|line| line.starts_with("<text ")) {
            let value = |name: &str| -> Option<f32> {
                let from = element.find(&format!(" {name}=\""))? + name.len() + 3;
                element[from..].split('"').next()?.parse().ok()
            };
            // The drawings have their own scale; their words are held by their own tests.
            if !element.contains(" font-family=") {
                continue;
            }
            let words = element
                .split('>')
                .nth(1)
                .and_then(|rest| rest.split('<').next())
                .unwrap_or_default();
            let words = words.replace("&#39;", "'").replace("&amp;", "&");
            let (x, size) = (value("x").expect("a place"), value("font-size").expect("a size"));
            let end = x + print::width_of(&words, size, element.contains("font-weight"));
            assert!(
                end <= (page.width_mm - 7.5) * 96.0 / 25.4,
                "{words} ends at {end}"
            );
            rows += 1;
        }
    }
    assert!(rows > 30, "{rows} rows");
}
