//! Cards: several on one paper, and rows that end on it.

use server::answering::answer;
use server::card::{SetUpOnCard, cards, on_paper};
use sheet::{Language, Made, Voice};
use shoot::Shoot;

fn demo() -> Shoot {
    shoot::parse(shoot::DEMO_NAME, shoot::DEMO).expect("the demo")
}

/// Several set-ups in one file, and on one paper: the same answer twice stands for two.
#[test]
fn several_set_ups_make_one_file() {
    let shoot = demo();
    let answer = answer(&shoot).expect("answered");
    let answered = |title: &'static str| SetUpOnCard {
        title,
        job: &shoot.job,
        answer: &answer,
    };
    let two = cards(
        &[answered("First"), answered("Second")],
        Voice::default(),
        &made(),
    )
    .expect("cards");
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

fn made() -> Made {
    Made {
        year: 2026,
        month: 11,
        day: 25,
        clock: "16:00".to_owned(),
    }
}

/// With the real widths of the typeface, no row of a page runs off it.
#[test]
fn rows_end_on_the_page_they_are_printed_on() {
    let shoot = demo();
    let answer = answer(&shoot).expect("answered");
    let answered = SetUpOnCard {
        title: "A title that is far too long for one row of a page, so that it must be cut at some place or other",
        job: &shoot.job,
        answer: &answer,
    };
    for language in Language::ALL {
        let voice = Voice::new(language, false);
        let cards = cards(std::slice::from_ref(&answered), voice, &made()).expect("cards");
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
}
