//! What the program says, word for word: every example, every set-up of the demo and fourteen odd shoots.
//!
//! The files beside the shoots in `pinned` hold what was said when they were approved. A change that alters a word, a
//! number or the layout fails here and shows where; `RUSHLIGHT_PIN=write` approves it by writing the files anew. Another
//! processor rounds otherwise, so a printed number may differ by one in its last digit, and a number in JSON by a
//! thousandth.

use serde_json::{Value, json};
use std::collections::BTreeSet;
use std::fs;
use std::path::{Path, PathBuf};
use std::process::Command;
use std::sync::Mutex;

const PINNED: &str = concat!(env!("CARGO_MANIFEST_DIR"), "/tests/pinned");
const EXAMPLES: &str = concat!(env!("CARGO_MANIFEST_DIR"), "/../../examples");
/// Rewrites the files instead of comparing with them.
const APPROVE: &str = "RUSHLIGHT_PIN";
/// Differences shown of one file.
const SHOWN: usize = 6;
/// Pieces of the room map kept from its beginning and from its end: all of them make megabytes.
const CELLS: usize = 4;
/// Labels of a drawing kept from its beginning and from its end.
const LABELS: usize = 60;
/// How far a number in JSON may be off, as a share and as an amount.
const OFF: f64 = 1e-3;

/// Something that the program says, in one run, and that is kept in a file or in two.
struct Pin {
    /// The name of each file without its ending.
    name: String,
    shoot: PathBuf,
    says: Says,
}

enum Says {
    /// `answer`, as text and as JSON, of one set-up where the file has several.
    Answer(Option<usize>),
    /// `check`, with what it prints for people beside its exit code.
    Check,
    /// The visible words of the file that this command writes.
    Written {
        command: &'static str,
        ending: &'static str,
    },
}

#[test]
fn the_program_says_what_it_said() {
    let pins = pins();
    let waiting = Mutex::new(pins.iter());
    let faults = Mutex::new(Vec::new());
    let hands = std::thread::available_parallelism().map_or(1, usize::from);
    std::thread::scope(|scope| {
        for _ in 0..hands {
            scope.spawn(|| {
                loop {
                    let next = waiting.lock().expect("no hand panics here").next();
                    let Some(pin) = next else { break };
                    let found = pin.faults();
                    faults.lock().expect("no hand panics here").extend(found);
                }
            });
        }
    });
    let mut faults = faults.into_inner().expect("no hand panics here");
    faults.extend(files_without_a_pin(&pins));
    faults.sort();
    assert!(
        faults.is_empty(),
        "what the program says has changed:\n\n{}\n\nIf that is wanted, write the files anew and read what git shows:\n\
         {APPROVE}=write cargo test --release -p app --test pinned",
        faults.join("\n\n")
    );
}

fn pins() -> Vec<Pin> {
    let mut pins = Vec::new();
    for folder in [EXAMPLES, PINNED] {
        for shoot in shoots(Path::new(folder)) {
            let name = stem(&shoot);
            let text = fs::read_to_string(&shoot).expect("a shoot is text");
            let set_ups: Vec<Option<usize>> =
                match text.lines().filter(|line| line.trim() == "[[setup]]").count() {
                    0 => vec![None],
                    several => (1..=several).map(Some).collect(),
                };
            for set_up in set_ups {
                let named = set_up.map_or(name.clone(), |number| format!("{name}.{number}"));
                pins.push(Pin {
                    name: named,
                    shoot: shoot.clone(),
                    says: Says::Answer(set_up),
                });
            }
        }
    }
    for shoot in shoots(&Path::new(PINNED).join("bad")) {
        pins.push(Pin {
            name: format!("bad/{}", stem(&shoot)),
            shoot,
            says: Says::Check,
        });
    }
    for (shoot, command, ending) in [
        ("feet-ratio-met.toml", "card", "html"),
        ("feet-ratio-met.toml", "drawing", "svg"),
        ("feet-ratio-met.toml", "map", "svg"),
        ("slow-shutter.toml", "card", "html"),
        ("board-and-flag.toml", "drawing", "svg"),
    ] {
        let shoot = Path::new(PINNED).join(shoot);
        pins.push(Pin {
            name: format!("{}.{command}", stem(&shoot)),
            shoot,
            says: Says::Written { command, ending },
        });
    }
    pins
}

/// The shoot files of a folder, in the order of their names.
fn shoots(folder: &Path) -> Vec<PathBuf> {
    let entries = fs::read_dir(folder).expect("a folder of shoots");
    let mut shoots: Vec<PathBuf> = entries
        .map(|entry| entry.expect("a readable folder").path())
        .filter(|path| path.extension().is_some_and(|ending| ending == "toml"))
        .collect();
    shoots.sort();
    shoots
}

fn stem(path: &Path) -> String {
    let stem = path.file_stem().expect("a shoot has a name");
    stem.to_string_lossy().into_owned()
}

/// Files that are compared with nothing, so that they would grow old unseen.
fn files_without_a_pin(pins: &[Pin]) -> Vec<String> {
    let known: BTreeSet<PathBuf> = pins.iter().flat_map(Pin::files).collect();
    let mut left = Vec::new();
    for folder in [Path::new(PINNED).to_owned(), Path::new(PINNED).join("bad")] {
        for entry in fs::read_dir(folder).expect("a folder of pins") {
            let path = entry.expect("a readable folder").path();
            let kept = path
                .extension()
                .is_some_and(|ending| ending == "txt" || ending == "json");
            if kept && !known.contains(&path) {
                left.push(format!("{}: nothing is compared with this file", path.display()));
            }
        }
    }
    left
}

impl Pin {
    /// The kept file with this ending.
    fn file(&self, ending: &str) -> PathBuf {
        Path::new(PINNED).join(format!("{}.{ending}", self.name))
    }

    fn files(&self) -> Vec<PathBuf> {
        let endings: &[&str] = match self.says {
            Says::Answer(_) => &["txt", "json"],
            _ => &["txt"],
        };
        endings.iter().map(|ending| self.file(ending)).collect()
    }

    /// What has changed, in words; writes the files instead when that was asked for.
    fn faults(&self) -> Vec<String> {
        let said = match self.said() {
            Ok(said) => said,
            Err(why) => return vec![format!("{}: {why}", self.name)],
        };
        let files = self.files().into_iter().zip(said);
        files.filter_map(|(file, said)| fault(&file, &said)).collect()
    }

    /// What the program says now, as it is kept, for each file.
    fn said(&self) -> Result<Vec<String>, String> {
        match self.says {
            Says::Answer(number) => {
                let folder = tempfile::tempdir().map_err(|error| error.to_string())?;
                let json = folder.path().join("answer.json");
                let set_up = number.map(|number| ["--setup".to_owned(), number.to_string()]);
                let beside = ["-o".to_owned(), json.to_string_lossy().into_owned()];
                let (code, out, err) = self.run("answer", set_up.into_iter().flatten().chain(beside));
                let text = all_went_well(code, out, &err)?;
                let json = fs::read_to_string(&json).map_err(|error| error.to_string())?;
                let mut report: Value = serde_json::from_str(&json).map_err(|error| error.to_string())?;
                shorten_map(&mut report);
                let json = serde_json::to_string_pretty(&report).map_err(|error| error.to_string())?;
                Ok(vec![text, json + "\n"])
            }
            Says::Check => {
                let (code, out, err) = self.run("check", []);
                Ok(vec![format!("exit code {code:?}\n{out}{err}")])
            }
            Says::Written { command, ending } => {
                let folder = tempfile::tempdir().map_err(|error| error.to_string())?;
                let out = folder.path().join(format!("written.{ending}"));
                let extra = ["-o".to_owned(), out.to_string_lossy().into_owned()];
                let (code, _, err) = self.run(command, extra);
                let written = fs::read_to_string(&out);
                let written = written.map_err(|_| format!("exit code {code:?}, {err}"))?;
                Ok(vec![match ending {
                    "svg" => labels(&written),
                    _ => visible(&written),
                }])
            }
        }
    }

    /// Exit code, what was printed, and what was complained of.
    fn run(&self, command: &str, extra: impl IntoIterator<Item = String>) -> (Option<i32>, String, String) {
        let output = Command::new(env!("CARGO_BIN_EXE_rushlight"))
            .current_dir(self.shoot.parent().expect("a shoot lies in a folder"))
            .arg(command)
            .arg(self.shoot.file_name().expect("a shoot has a name"))
            .args(extra)
            // As many programs run as there are cores; results do not depend on the number of threads.
            .env("RAYON_NUM_THREADS", "1")
            .env("LC_ALL", "C.UTF-8")
            .env("TZ", "UTC")
            .env("NO_COLOR", "1")
            .env("COLUMNS", "100")
            .output()
            .expect("the program runs");
        let text = |bytes: Vec<u8>| String::from_utf8_lossy(&bytes).into_owned();
        (output.status.code(), text(output.stdout), text(output.stderr))
    }
}

/// What has changed of a kept file; writes it instead when that was asked for.
fn fault(path: &Path, said: &str) -> Option<String> {
    if std::env::var_os(APPROVE).is_some_and(|value| value == "write") {
        fs::write(path, said).expect("a writable folder");
        return None;
    }
    let Ok(kept) = fs::read_to_string(path) else {
        return Some(format!("{}: there is no such file yet", path.display()));
    };
    let differences = match path.extension().is_some_and(|ending| ending == "json") {
        true => match (serde_json::from_str(&kept), serde_json::from_str(said)) {
            (Ok(kept), Ok(said)) => {
                let mut differences = Vec::new();
                compare_values("", &kept, &said, &mut differences);
                differences
            }
            _ => vec!["  one of the two is not JSON".to_owned()],
        },
        false => differing_lines(&kept, said),
    };
    (!differences.is_empty()).then(|| {
        let more = differences.len().saturating_sub(SHOWN);
        let mut shown: Vec<String> = differences.into_iter().take(SHOWN).collect();
        if more > 0 {
            shown.push(format!("  and {more} more"));
        }
        format!("{}:\n{}", path.display(), shown.join("\n"))
    })
}

fn all_went_well(code: Option<i32>, out: String, err: &str) -> Result<String, String> {
    if code == Some(0) {
        Ok(out)
    } else {
        Err(format!("exit code {code:?}, {err}"))
    }
}

/// Keeps of the room map how many pieces it has, and the first and the last few.
fn shorten_map(report: &mut Value) {
    let Some(cells) = report.pointer_mut("/map/cells") else {
        return;
    };
    if let Value::Array(all) = cells
        && all.len() > 2 * CELLS
    {
        *cells = json!({
            "count": all.len(),
            "first": all[..CELLS],
            "last": all[all.len() - CELLS..],
        });
    }
}

/// The words of an SVG's title, description and labels, a line each.
fn labels(svg: &str) -> String {
    let mut found = Vec::new();
    for element in ["<title id=", "<desc", "<text"] {
        let close = format!("</{}>", element[1..].split(' ').next().unwrap_or_default());
        let mut rest = svg;
        while let Some(at) = rest.find(element) {
            let (here, after) = rest[at..].split_once(&close).unwrap_or((&rest[at..], ""));
            found.push(words(here));
            rest = after;
        }
    }
    // The map explains each of its hundreds of squares.
    if found.len() > 2 * LABELS {
        let left_out = found.len() - 2 * LABELS;
        found.splice(LABELS..LABELS + left_out, [format!("({left_out} more labels)")]);
    }
    found.join("\n") + "\n"
}

/// What a reader of an HTML page sees, a line for each piece of text.
fn visible(html: &str) -> String {
    let mut rest = html.to_owned();
    for element in ["style", "script"] {
        while let Some(at) = rest.find(&format!("<{element}")) {
            let close = format!("</{element}>");
            let end = rest[at..]
                .find(&close)
                .map_or(rest.len(), |end| at + end + close.len());
            rest.replace_range(at..end, "");
        }
    }
    let pieces = rest.split('<').map(|piece| match piece.split_once('>') {
        Some((_, text)) => words(text),
        None => words(piece),
    });
    // The clock is no part of what is pinned.
    let pieces = pieces.map(|piece| match piece.find("Made ") {
        Some(at) => piece[..at].trim_end().to_owned(),
        None => piece,
    });
    let pieces = pieces.filter(|piece| !piece.is_empty());
    pieces.collect::<Vec<_>>().join("\n") + "\n"
}

/// Text without tags and entities, with single spaces.
fn words(marked: &str) -> String {
    let mut plain = String::new();
    let mut inside = false;
    for letter in marked.chars() {
        match letter {
            '<' => inside = true,
            '>' if inside => {
                inside = false;
                plain.push(' ');
            }
            _ if inside => {}
            _ => plain.push(letter),
        }
    }
    for (entity, letter) in [
        ("&lt;", "<"),
        ("&gt;", ">"),
        ("&quot;", "\""),
        ("&#39;", "'"),
        ("&amp;", "&"),
    ] {
        plain = plain.replace(entity, letter);
    }
    plain.split_whitespace().collect::<Vec<_>>().join(" ")
}

/// The lines in which two texts differ by more than rounding.
fn differing_lines(kept: &str, said: &str) -> Vec<String> {
    let (kept, said): (Vec<&str>, Vec<&str>) = (kept.lines().collect(), said.lines().collect());
    let line = |lines: &[&str], at: usize| {
        lines
            .get(at)
            .map_or("(nothing)".to_owned(), |&line| line.to_owned())
    };
    (0..kept.len().max(said.len()))
        .filter(|&at| match (kept.get(at), said.get(at)) {
            (Some(kept), Some(said)) => !same_words(kept, said),
            _ => true,
        })
        .map(|at| {
            format!(
                "  line {}, kept: {}\n  line {}, said: {}",
                at + 1,
                line(&kept, at),
                at + 1,
                line(&said, at)
            )
        })
        .collect()
}

/// A piece of a line: words with their blanks, or a number as it is printed.
#[derive(Debug, PartialEq)]
enum Piece<'a> {
    Words(&'a str),
    Number {
        sign: Option<char>,
        digits: &'a str,
        step: bool,
    },
}

impl Piece<'_> {
    fn value(&self) -> Option<(f64, f64)> {
        let Piece::Number { sign, digits, .. } = self else {
            return None;
        };
        let decimals = digits.split_once('.').map_or(0, |(_, decimals)| decimals.len());
        let value: f64 = digits.parse().ok()?;
        let value = if matches!(sign, Some('-' | '−')) {
            -value
        } else {
            value
        };
        Some((value, 10f64.powi(-i32::try_from(decimals).ok()?)))
    }
}

fn is_sign(letter: char) -> bool {
    matches!(letter, '+' | '-' | '−')
}

/// Takes a line apart. A number that touches a slash without a decimal point is a step of a dial, as in f/4 and 1/160.
fn pieces(line: &str) -> Vec<Piece<'_>> {
    let mut pieces = Vec::new();
    let mut rest = line;
    let mut before = ' ';
    while let Some(at) = rest.find(|c: char| c.is_ascii_digit()) {
        let tail = &rest[at..];
        let mut end = tail
            .find(|c: char| !c.is_ascii_digit() && c != '.')
            .unwrap_or(tail.len());
        // A point that ends a sentence is no part of the number.
        while tail[..end].ends_with('.') {
            end -= 1;
        }
        let (head, digits) = (&rest[..at], &tail[..end]);
        let sign = head.chars().next_back().filter(|&c| is_sign(c));
        let unsigned = sign.map_or(head, |sign| &head[..head.len() - sign.len_utf8()]);
        // A hyphen between a word or a number and a digit joins them.
        let apart = unsigned.chars().next_back().unwrap_or(before);
        let (words, sign) = match sign {
            Some(sign) if !apart.is_alphanumeric() => (unsigned, Some(sign)),
            _ => (head, None),
        };
        let slash = words.ends_with('/') || tail[end..].starts_with('/');
        pieces.push(Piece::Words(words));
        pieces.push(Piece::Number {
            sign,
            digits,
            step: slash && !digits.contains('.'),
        });
        before = digits.chars().next_back().unwrap_or(' ');
        rest = &tail[end..];
    }
    pieces.push(Piece::Words(rest));
    pieces
}

/// Whether two lines say the same but for rounding. Blanks and bars count where every number is the same.
fn same_words(kept: &str, said: &str) -> bool {
    if kept == said {
        return true;
    }
    let (kept, said) = (pieces(kept), pieces(said));
    let rounded = kept
        .iter()
        .zip(&said)
        .any(|(a, b)| a != b && a.value().is_some() && b.value().is_some());
    let bare = |words: &str| {
        let letters = |c: &char| !c.is_whitespace() && !"█▉▊▋▌▍▎▏▐░▒▓·─│".contains(*c);
        words.chars().filter(letters).collect::<String>()
    };
    rounded
        && kept.len() == said.len()
        && kept.iter().zip(&said).all(|(a, b)| match (a, b) {
            (Piece::Words(a), Piece::Words(b)) => bare(a) == bare(b),
            (
                Piece::Number {
                    sign: sign_a, step, ..
                },
                Piece::Number { sign: sign_b, .. },
            ) => {
                let (Some((x, unit)), Some((y, other_unit))) = (a.value(), b.value()) else {
                    return false;
                };
                let near_nothing = x.abs().max(y.abs()) <= 1.01 * unit;
                let alike = sign_a.is_some_and(|c| c == '+') == sign_b.is_some_and(|c| c == '+');
                let apart = if *step { 0.0 } else { 1.01 * unit };
                unit == other_unit && (x - y).abs() <= apart && (alike || near_nothing)
            }
            _ => false,
        })
}

/// Where two JSON values differ by more than rounding.
fn compare_values(at: &str, kept: &Value, said: &Value, differences: &mut Vec<String>) {
    let mut differ = |kept: &dyn std::fmt::Display, said: &dyn std::fmt::Display| {
        differences.push(format!("  {at}, kept: {kept}\n  {at}, said: {said}"));
    };
    match (kept, said) {
        (Value::Object(a), Value::Object(b)) => {
            let names: BTreeSet<&String> = a.keys().chain(b.keys()).collect();
            for name in names {
                let nothing = Value::String("(no such field)".to_owned());
                let field = |fields: &serde_json::Map<String, Value>| fields.get(name).cloned();
                let (a, b) = (field(a).unwrap_or(nothing.clone()), field(b).unwrap_or(nothing));
                compare_values(&format!("{at}/{name}"), &a, &b, differences);
            }
        }
        (Value::Array(a), Value::Array(b)) if a.len() == b.len() => {
            for (index, (a, b)) in a.iter().zip(b).enumerate() {
                compare_values(&format!("{at}/{index}"), a, b, differences);
            }
        }
        (Value::Array(a), Value::Array(b)) => {
            differ(&format!("{} of them", a.len()), &format!("{} of them", b.len()));
        }
        (Value::Number(a), Value::Number(b)) => {
            let (Some(x), Some(y)) = (a.as_f64(), b.as_f64()) else {
                return differ(a, b);
            };
            if (x - y).abs() > OFF * x.abs().max(y.abs()).max(1.0) {
                differ(a, b);
            }
        }
        (Value::String(a), Value::String(b)) => {
            if !same_words(a, b) {
                differ(a, b);
            }
        }
        (a, b) => {
            if a != b {
                differ(a, b);
            }
        }
    }
}

#[test]
fn rounding_is_forgiven_and_nothing_else() {
    let same = |kept: &str, said: &str| assert!(same_words(kept, said), "{kept} | {said}");
    let other = |kept: &str, said: &str| assert!(!same_words(kept, said), "{kept} | {said}");
    same("f/4 · 1/160 · ISO 400", "f/4 · 1/160 · ISO 400");
    same("the key comes 34° down", "the key comes 35° down");
    same("cast +0.0 mired.", "cast -0.0 mired.");
    same("cast  9.9 mired", "cast 10.0 mired");
    same("spill stays 3.1 stops under.", "spill stays 3.2 stops under.");
    other("the key comes 34° down", "the key comes 36° down");
    other("f/4 · 1/160", "f/5 · 1/160");
    other("1/4 +0.3", "1/4 +0.7");
    other("1/4 in hand", "1/3 in hand");
    other("spill stays 3.1 stops under", "spill stays 3.1 stops over");
    other("spill stays 3.1 stops", "spill stays 3.2 stop");
    other("cast +2 mired", "cast 2 mired");
    other("cast +2 mired", "cast -2 mired");
    other("cast 9.9 mired", "cast  9.9 mired");
    other("3.1 m", "3.15 m");
    other("50-105", "50 105");
}

#[test]
fn values_are_compared_to_a_thousandth() {
    let differences = |kept: Value, said: Value| {
        let mut differences = Vec::new();
        compare_values("", &kept, &said, &mut differences);
        differences.len()
    };
    assert_eq!(
        differences(json!({"a": [1.0, 2000.0]}), json!({"a": [1.0005, 2001.0]})),
        0
    );
    assert_eq!(differences(json!({"a": 1.0}), json!({"a": 1.003})), 1);
    assert_eq!(differences(json!({"a": 1.0}), json!({"b": 1.0})), 2);
    assert_eq!(differences(json!([1, 2]), json!([1])), 1);
    assert_eq!(differences(json!({"a": null}), json!({"a": 0.0})), 1);
    assert_eq!(differences(json!("34 stops"), json!("34 stop")), 1);
}

#[test]
fn words_are_found_in_pages_and_drawings() {
    let page = "<style>p { }</style><p>f/4 <b>1/160</b> &lt;x&gt; &amp;amp;</p><script>a < b</script>";
    assert_eq!(visible(page), "f/4\n1/160\n<x> &amp;\n");
    let drawing = "<svg><title id=\"t\">Plan</title><g><title>cell</title></g><text x=\"1\">2 <tspan>m</tspan></text></svg>";
    assert_eq!(labels(drawing), "Plan\n2 m\n");
}
