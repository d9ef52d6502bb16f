//! Wrong shoot files: each must be refused by the real program with exit code 2, at the right line, with a
//! remedy, in well under a second, and without a panic.

#[path = "../../shoot/tests/bad/cases.rs"]
mod cases;

use cases::CASES;
use std::fs;
use std::path::{Path, PathBuf};
use std::process::{Command, Output};
use std::time::{Duration, Instant};
use tempfile::TempDir;

/// A file without mistakes; every case spoils one thing in it.
const GOOD: &str = include_str!("../../shoot/tests/bad/good.toml");

/// No wrong file may take longer than this, the start of the program included.
const LONGEST: Duration = Duration::from_secs(1);

/// A folder of our own that goes when the test ends.
struct Folder(TempDir);

impl Folder {
    fn new() -> Self {
        Folder(tempfile::tempdir().expect("a temporary folder"))
    }

    fn file(&self, name: &str, bytes: &[u8]) -> PathBuf {
        let path = self.0.path().join(name);
        fs::write(&path, bytes).expect("a writable folder");
        path
    }
}

/// Runs `rushlight check` and gives what it printed and how long it took.
fn check(path: &Path) -> (Output, Duration) {
    let start = Instant::now();
    let output = Command::new(env!("CARGO_BIN_EXE_rushlight"))
        .arg("check")
        .arg(path)
        .output()
        .expect("the program runs");
    (output, start.elapsed())
}

/// What the program said, without the frame of the snippets and with single spaces, so that a wrapped line is
/// still one sentence.
fn said(output: &Output) -> String {
    let text = String::from_utf8_lossy(&output.stderr);
    let plain: String = text
        .chars()
        .map(|c| {
            if "│╭╰─┬·╯╮▲".contains(c) {
                ' '
            } else {
                c
            }
        })
        .collect();
    plain.split_whitespace().collect::<Vec<_>>().join(" ")
}

/// Complaints about one refusal, none if it is as it should be.
fn faults(path: &Path, phrases: &[&str]) -> Vec<String> {
    let (output, took) = check(path);
    let said = said(&output);
    let mut faults = Vec::new();
    if output.status.code() != Some(2) {
        faults.push(format!("exit code {:?} instead of 2", output.status.code()));
    }
    if said.contains("panicked") {
        faults.push("it panicked".to_owned());
    }
    if took > LONGEST {
        faults.push(format!("it took {took:?}"));
    }
    faults.extend(
        phrases
            .iter()
            .filter(|phrase| !said.contains(**phrase))
            .map(|phrase| format!("does not say: {phrase}")),
    );
    if !faults.is_empty() {
        faults.push(format!("it said: {said}"));
    }
    faults
}

#[test]
fn the_good_file_is_good() {
    let folder = Folder::new();
    let (output, _) = check(&folder.file("good.toml", GOOD.as_bytes()));
    assert_eq!(output.status.code(), Some(0), "{}", said(&output));
    assert!(output.stderr.is_empty(), "{}", said(&output));
}

#[test]
fn every_mistake_is_named_at_its_line_with_a_remedy() {
    assert!(CASES.len() >= 60);
    let folder = Folder::new();
    let mut failed = Vec::new();
    for case in CASES {
        let at = GOOD
            .find(case.old)
            .unwrap_or_else(|| panic!("{}: {:?} is not in the good file", case.name, case.old));
        let text = GOOD.replacen(case.old, case.new, 1);
        let mut line = 1 + GOOD[..at].matches('\n').count() + case.below;
        if case.new.is_empty() {
            // What is missing is shown at the heading of its part.
            line = 1 + GOOD[..GOOD[..at].rfind("\n[").map_or(0, |at| at + 1)]
                .matches('\n')
                .count();
        }
        let path = folder.file("bad.toml", text.as_bytes());
        let place = format!("bad.toml:{line}:");
        let faults = faults(&path, &[&place, case.message, case.help, "help:"]);
        if !faults.is_empty() {
            failed.push(format!("{}:\n  {}", case.name, faults.join("\n  ")));
        }
    }
    assert!(
        failed.is_empty(),
        "{} of {} cases:\n{}",
        failed.len(),
        CASES.len(),
        failed.join("\n\n")
    );
}

/// Curves that no gel can have: each is refused at the line of the shoot file that names it, with the line of the
/// curve and a remedy.
#[test]
fn a_wrong_curve_is_named_with_its_line() {
    let rows = |change: &dyn Fn(u32) -> Option<String>| -> String {
        (380..=720).step_by(10).filter_map(change).collect()
    };
    let plain = |nm: u32| Some(format!("{nm},0.5\n"));
    let curves: [(&str, String, &str, &str); 7] = [
        (
            "percent",
            rows(&|nm| Some(format!("{nm},{}\n", 50 + nm / 100))),
            "line 1",
            "Divide percents by 100",
        ),
        (
            "negative",
            rows(&|nm| Some(format!("{nm},{}\n", if nm == 400 { -0.01 } else { 0.5 }))),
            "line 3",
            "write 0 where nothing is left",
        ),
        (
            "gap",
            rows(&|nm| {
                if (500..=540).contains(&nm) {
                    None
                } else {
                    plain(nm)
                }
            }),
            "line 13",
            "at least every 20 nm",
        ),
        (
            "unsorted",
            rows(&|nm| if nm == 500 { plain(485) } else { plain(nm) }),
            "line 13",
            "Sort the rows",
        ),
        (
            "short",
            rows(&|nm| if nm > 640 { None } else { plain(nm) }),
            "line 27",
            "from 400 to 700 nm",
        ),
        (
            "words",
            "dear Kim,\nthe gel is nice\n".to_owned(),
            "line 2",
            "Write two numbers",
        ),
        ("empty", String::new(), "line 1", "550,0.83"),
    ];
    let folder = Folder::new();
    let old = "assistant = true";
    let named = GOOD.replacen(old, "gel = [{ name = \"mine\", curve = \"mine.csv\" }]", 1);
    let line = 1 + GOOD[..GOOD.find(old).expect("a bag")].matches('\n').count();
    let place = format!("bad.toml:{line}:");
    for (name, curve, curve_line, help) in &curves {
        folder.file("mine.csv", curve.as_bytes());
        let faults = faults(
            &folder.file("bad.toml", named.as_bytes()),
            &[&place, curve_line, help],
        );
        assert!(faults.is_empty(), "{name}: {}", faults.join("\n"));
    }
    folder.file("mine.csv", b"\xFF\xD8\xFF");
    let faults = faults(&folder.file("bad.toml", named.as_bytes()), &["it is not a text"]);
    assert!(faults.is_empty(), "{}", faults.join("\n"));
    folder.file("mine.csv", rows(&plain).as_bytes());
    let (output, _) = check(&folder.file("good.toml", named.as_bytes()));
    assert_eq!(output.status.code(), Some(0), "{}", said(&output));
}

/// Behind a doorway there is no sky, so without a lamp nothing is there to be two stops under.
#[test]
fn a_wish_for_ambient_light_needs_some() {
    let lamp = GOOD.find("[[ambient]]").expect("a lamp");
    let ask = GOOD.find("[ask]").expect("an ask");
    let dark = format!("{}{}", &GOOD[..lamp], &GOOD[ask..])
        .replace("kind = \"window\"", "kind = \"doorway\"")
        .replace("ambient = \"out\"", "ambient = \"-2 stops\"");
    let folder = Folder::new();
    let found = faults(
        &folder.file("bad.toml", dark.as_bytes()),
        &["none is described", "Add a part [[ambient]]"],
    );
    assert!(found.is_empty(), "{}", found.join("\n"));
    // Nor can a flash fill what is not there, or is not to be seen.
    let filled = |text: &str, ambient: &str| {
        text.replace("ambient = \"-2 stops\"", &format!("{ambient}fill = \"-1 stop\""))
    };
    let lit = GOOD.replace("ambient = \"out\"", "ambient = \"-2 stops\"");
    for (text, expected) in [
        (
            filled(&dark, ""),
            "the flash is to fill, but no light that is there is described",
        ),
        (
            filled(&lit, "ambient = \"out\"\n"),
            "the flash cannot fill light that is kept out of the picture",
        ),
    ] {
        let found = faults(&folder.file("bad.toml", text.as_bytes()), &[expected]);
        assert!(found.is_empty(), "{}", found.join("\n"));
    }
    let by_day = dark.replace("kind = \"doorway\"", "kind = \"window\"");
    let (output, _) = check(&folder.file("good.toml", by_day.as_bytes()));
    assert_eq!(output.status.code(), Some(0), "{}", said(&output));
}

#[test]
fn all_mistakes_of_a_file_are_told_at_once() {
    let text = GOOD
        .replace("height = \"1.5 m\"", "height = 1.5")
        .replace("left = \"white paint\"", "left = \"wite paint\"")
        .replace("aperture = \"f/4\"", "aperture = \"4\"")
        .replace("skin = \"tan\"", "skim = \"tan\"");
    let folder = Folder::new();
    let faults = faults(
        &folder.file("bad.toml", text.as_bytes()),
        &[
            "white paint",
            "height = \"1.5 m\"",
            "Did you mean \"skin\"?",
            "aperture = \"f/4\"",
            "things to put right in bad.toml",
        ],
    );
    assert!(faults.is_empty(), "{}", faults.join("\n"));
}

#[test]
fn what_is_no_shoot_file_at_all_is_said_in_one_sentence() {
    let folder = Folder::new();
    folder.file("wedding.toml", GOOD.as_bytes());
    let nested = format!("a = {}", "[".repeat(5000));
    let deep = format!("{}\na = {}1{}", GOOD, "[".repeat(300), "]".repeat(300));
    let many: String = (0..20_000).map(|n| format!("key{n} = {n}\n")).collect();
    let sitters = format!("{GOOD}\n{}", "[[sitter]]\n".repeat(60_000));
    let letter = "Dear Kim,\nthe room is nice.\n".repeat(50);
    let band = format!("{GOOD}\n{}", "[[sitter]]\n".repeat(60));
    let huge = vec![b'#'; 50_000_000];
    let files: &[(&str, &[u8], &[&str])] = &[
        (
            "empty.toml",
            b"",
            &["this file is empty", "start from one of the examples"],
        ),
        (
            "spaces.toml",
            b" \n\n \t\n",
            &["this file is empty", "start from one of the examples"],
        ),
        (
            "remarks.toml",
            b"# nothing\n",
            &["the part [place] is missing", "Add a line that says [place]"],
        ),
        ("huge.toml", &huge, &["larger than 1 MB", "Is this a picture?"]),
        (
            "photo.toml",
            b"\xFF\xD8\xFF\xE0\0\x10JFIF\0 and so on",
            &["is a picture or a document", "short text"],
        ),
        ("zeros.toml", &[0; 4096], &["is not a text file", "short text"]),
        (
            "latin.toml",
            b"shoot = \"Sal\xF3n\"\n",
            &["line 1", "not saved as UTF-8", "Save as"],
        ),
        (
            "wide.toml",
            b"\xFF\xFEs\0h\0o\0o\0t\0",
            &["saved as UTF-16", "Save as"],
        ),
        (
            "escape.toml",
            b"shoot = \"x\x1b[31mred\"\n",
            &["escape.toml:1:", "invisible control character", "Delete it"],
        ),
        (
            "nested.toml",
            nested.as_bytes(),
            &["line 1 is longer than", "right file"],
        ),
        ("deep.toml", deep.as_bytes(), &["nested too deeply", "two levels"]),
        (
            "many.toml",
            many.as_bytes(),
            &["the file has no key", "more; they are shown once"],
        ),
        (
            "crowd.toml",
            sitters.as_bytes(),
            &["60001 parts [[sitter]] are too many", "those that matter"],
        ),
        (
            "band.toml",
            band.as_bytes(),
            &["more than 40 sitters", "cannot light a crowd"],
        ),
        (
            "letter.toml",
            letter.as_bytes(),
            &["letter.toml:1:", "neither a heading nor", "and 95 more"],
        ),
        (
            "oneline.toml",
            &[b'a'; 900_000],
            &["line 1 is longer than", "right file"],
        ),
    ];
    let mut failed = Vec::new();
    for (name, bytes, phrases) in files {
        let faults = faults(&folder.file(name, bytes), phrases);
        if !faults.is_empty() {
            failed.push(format!("{name}:\n  {}", faults.join("\n  ")));
        }
    }
    for (path, phrases) in [
        (
            folder.0.path().join("weding.toml"),
            ["there is no file", "wedding.toml?"],
        ),
        (
            folder.0.path().join("no/such/folder.toml"),
            ["there is no file", "Check the name and the folder"],
        ),
        (
            folder.0.path().to_owned(),
            ["is a folder, not a shoot file", "Give the file inside it"],
        ),
    ] {
        let faults = faults(&path, &phrases);
        if !faults.is_empty() {
            failed.push(format!("{}:\n  {}", path.display(), faults.join("\n  ")));
        }
    }
    assert!(failed.is_empty(), "{}", failed.join("\n\n"));
}

#[test]
fn nothing_that_commands_a_terminal_is_printed() {
    let folder = Folder::new();
    // Raw, and as TOML may spell it in a word that is repeated in the message.
    for (old, new) in [
        ("shoot = \"Workshop\"", "shoot = \"\x1b]0;title\x07\""),
        ("skin = \"tan\"", "skin = \"ta\\en\""),
        ("skin = \"tan\"", "skin = \"ta\\u001bn\""),
        ("skin = \"tan\"", "\"sk\\u009bin\" = \"tan\""),
        ("skin = \"tan\"", "skin = \"ta\\u202en\""),
    ] {
        let text = GOOD.replacen(old, new, 1);
        let (output, _) = check(&folder.file("bad.toml", text.as_bytes()));
        assert_eq!(output.status.code(), Some(2), "{new:?}");
        let shown = String::from_utf8(output.stderr).expect("messages are UTF-8");
        let bad = |c: char| c.is_control() && c != '\n' || ('\u{202a}'..='\u{202e}').contains(&c);
        assert!(!shown.chars().any(bad), "{new:?}: {shown:?}");
    }
}

#[test]
fn a_wrong_command_line_is_a_mistake_of_its_writer() {
    for arguments in [
        vec!["light"],
        vec!["answer", "--jsn"],
        vec!["proof", "a.toml"],
        vec!["proof", "a.toml", "-o", "p.png", "--size", "8"],
        vec![
            "proof",
            "a.toml",
            "-o",
            "p.png",
            "--quality",
            "2%",
            "--seconds",
            "3",
        ],
        vec!["page", "--port", "seventy"],
    ] {
        let output = Command::new(env!("CARGO_BIN_EXE_rushlight"))
            .args(&arguments)
            .output()
            .expect("the program runs");
        assert_eq!(output.status.code(), Some(2), "{arguments:?}: {}", said(&output));
        assert!(!said(&output).contains("panicked"), "{arguments:?}");
    }
}

#[test]
fn a_reader_who_stops_early_is_no_error() {
    use std::process::Stdio;
    let folder = Folder::new();
    let path = folder.file("good.toml", GOOD.as_bytes());
    let mut child = Command::new(env!("CARGO_BIN_EXE_rushlight"))
        .arg("check")
        .arg(&path)
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .expect("the program runs");
    drop(child.stdout.take());
    let output = child.wait_with_output().expect("it ends");
    assert_eq!(output.status.code(), Some(0), "{}", said(&output));
    assert!(output.stderr.is_empty(), "{}", said(&output));
}
