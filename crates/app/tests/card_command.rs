//! `rushlight card`: what is written, and what is refused.

use app::cli::{CardArgs, Speech, Spoken};
use app::commands::card::run;
use shoot::DEMO;
use tempfile::tempdir;

#[test]
fn a_card_is_written_for_a_phone_and_for_paper() {
    let folder = tempdir().expect("a temporary folder");
    let shoot = folder.path().join("band-room.toml");
    std::fs::write(&shoot, DEMO).expect("a writable folder");
    for (ending, begins, language) in [
        ("html", "<!DOCTYPE html>", Spoken::De),
        ("PDF", "%PDF-1.", Spoken::En),
    ] {
        let out = folder.path().join(format!("card.{ending}"));
        let args = CardArgs {
            shoot: shoot.clone(),
            setup: Some("1".to_owned()),
            out: out.clone(),
            speech: Speech { language },
        };
        run(&args).expect("the demo has a card");
        let bytes = std::fs::read(&out).expect("just written");
        assert!(bytes.starts_with(begins.as_bytes()), "{ending}");
        let german = String::from_utf8_lossy(&bytes).contains("lang=\"de\"");
        assert_eq!(german, language == Spoken::De, "{ending}");
        assert!(
            bytes.len() > 20_000 && bytes.len() < 400_000,
            "{ending}: {} bytes",
            bytes.len()
        );
    }
}

#[test]
fn another_ending_is_refused_before_anything_is_computed() {
    let folder = tempdir().expect("a temporary folder");
    for name in ["card.png", "card", "card.html.txt"] {
        let args = CardArgs {
            shoot: folder.path().join("no-such-shoot.toml"),
            setup: None,
            out: folder.path().join(name),
            speech: Speech { language: Spoken::En },
        };
        let refused = run(&args).expect_err("neither HTML nor PDF");
        assert_eq!(refused.exit_code(), 2);
        assert!(refused.to_string().contains("Try  -o card.html"), "{refused}");
    }
}
