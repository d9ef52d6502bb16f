//! What comes out: as many pages as went in, of their size, with words that can be read again.

use lopdf::Document;
use print::{Page, PrintError, pdf, width_of};

fn page(words: &str) -> Page {
    let svg = format!(
        r#"<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 400 200"><text x="10" y="40" font-size="20" font-family="Inter">{words}</text><text x="10" y="90" font-size="20" font-weight="600">{words}</text></svg>"#
    );
    Page {
        svg,
        width_mm: 100.0,
        height_mm: 50.0,
    }
}

fn words_of(file: &[u8]) -> Vec<String> {
    let document = Document::load_mem(file).expect("a PDF file");
    let pages = document.get_pages();
    // Every letter is placed by itself, and the reader ends a line after each.
    let text = |number: &u32| document.extract_text(&[*number]).expect("text").replace('\n', "");
    pages.keys().map(text).collect()
}

#[test]
fn every_page_has_its_size_and_its_words() {
    let file = pdf(
        &[page("f/4 1/160 ISO 400"), page("zoom 50, no gel")],
        "Band room",
        "en",
    )
    .expect("printed");
    let document = Document::load_mem(&file).expect("a PDF file");
    assert_eq!(document.get_pages().len(), 2);
    for id in document.get_pages().values() {
        let page = document.get_dictionary(*id).expect("a page");
        let media = page
            .get(b"MediaBox")
            .and_then(|media| media.as_array())
            .expect("a size");
        let sides: Vec<f32> = media
            .iter()
            .map(|side| side.as_float().expect("a number"))
            .collect();
        assert!(
            (sides[2] - 283.46).abs() < 0.1 && (sides[3] - 141.73).abs() < 0.1,
            "{sides:?}"
        );
    }
    let words = words_of(&file);
    assert!(words[0].contains("f/4 1/160 ISO 400"), "{words:?}");
    assert!(words[1].contains("zoom 50, no gel"), "{words:?}");
}

#[test]
fn a_file_names_its_language() {
    for code in ["en", "de"] {
        let file = pdf(&[page("1/8 +0.7")], "x", code).expect("printed");
        let document = Document::load_mem(&file).expect("a PDF file");
        let catalog = document.catalog().expect("a catalog");
        let named = catalog.get(b"Lang").and_then(|language| language.as_str());
        assert_eq!(named.expect("a language"), code.as_bytes());
    }
}

#[test]
fn the_same_pages_are_the_same_bytes_and_tell_no_time() {
    let pages = [page("← ↖ ↑ ↗ → ↘ ↓ ↙ − · ° ½ ⅓ ⅔ ¼ ¾ × – ’ “ ” …")];
    let file = pdf(&pages, "Set-up 1", "en").expect("printed");
    assert_eq!(file, pdf(&pages, "Set-up 1", "en").expect("printed"));
    let has = |needle: &[u8]| file.windows(needle.len()).any(|window| window == needle);
    assert!(!has(b"CreationDate") && !has(b"ModDate"));
    assert_ne!(file, pdf(&pages, "Set-up 2", "en").expect("printed"));
}

#[test]
fn the_typeface_is_inside_and_has_the_marks_of_the_trade() {
    let file = pdf(&[page("1/8 +0.7")], "x", "en").expect("printed");
    let document = Document::load_mem(&file).expect("a PDF file");
    let embedded = document.objects.values().filter(|object| {
        object
            .as_dict()
            .is_ok_and(|dict| dict.has(b"FontFile2") || dict.has(b"FontFile3"))
    });
    assert_eq!(embedded.count(), 2, "regular and semibold");
    // A character that is lacking is measured as what stands for it; none of these is.
    for c in "←↖↑↗→↘↓↙−·°½⅓⅔¼¾×–’“”…éñŁž".chars() {
        let width = width_of(&c.to_string(), 1.0, false);
        assert!(width > 0.0 && (width - 0.6).abs() > 1e-6, "{c}: {width}");
    }
}

#[test]
fn what_cannot_be_printed_is_refused_in_words() {
    let check = |pages: &[Page], expected: &str| {
        let error = pdf(pages, "x", "en").expect_err("refused").to_string();
        assert!(error.contains(expected), "{error}");
    };
    check(&[], "no page");
    let mut bad = page("x");
    bad.svg = "<svg".to_owned();
    check(&[page("x"), bad], "page 2");
    for side in [0.0, -1.0, f32::NAN, f32::INFINITY, 1e6] {
        let flat = Page {
            width_mm: side,
            ..page("x")
        };
        assert!(
            matches!(
                pdf(&[flat], "x", "en"),
                Err(PrintError::BadSize { number: 1, .. })
            ),
            "{side}"
        );
    }
}

#[test]
fn characters_that_the_typeface_lacks_leave_a_mark() {
    let file = pdf(&[page("🎺 の")], "x", "en").expect("printed");
    assert!(words_of(&file)[0].contains('?'), "{:?}", words_of(&file));
}

/// A drawing cannot reach for a file.
#[test]
fn pictures_are_not_fetched() {
    let with = |href: &str| Page {
        svg: format!(
            r#"<svg xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink" viewBox="0 0 9 9"><image width="9" height="9" xlink:href="{href}"/></svg>"#
        ),
        width_mm: 10.0,
        height_mm: 10.0,
    };
    let path = std::env::temp_dir().join(format!("rushlight-print-{}.svg", std::process::id()));
    std::fs::write(
        &path,
        r#"<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 9 9"><rect width="9" height="9"/></svg>"#,
    )
    .expect("a temporary file");
    let fetched = pdf(&[with(&path.to_string_lossy())], "x", "en").expect("printed");
    let nothing = pdf(&[with("no-such-file.svg")], "x", "en").expect("printed");
    std::fs::remove_file(&path).expect("our own file");
    assert_eq!(fetched, nothing);
}
