//! The house is as ARCHITECTURE.md says: its crates, the arrows between them, the files that it names, and
//! what must never be found in a room.

#[allow(dead_code)]
mod house;

use house::{code_spans, files, metadata, packages, read, root, section, table_rows, text};
use serde_json::Value;
use std::collections::{BTreeMap, BTreeSet};
use std::path::Path;

/// The crate that meets the world outside.
const RIM: &str = "app";
/// What other crates may touch of the world outside: one keeps things on a disk, one listens to a network and measures
/// how long work takes.
const ALLOWED: [(&str, &[&str]); 2] = [("store", &["fs"]), ("server", &["net", "Instant"])];

/// For every crate of the workspace, the crates of the workspace that it uses; and everything else it uses.
struct Arrows {
    within: BTreeMap<String, BTreeSet<String>>,
    /// The same, tests and benchmarks included.
    within_tests: BTreeMap<String, BTreeSet<String>>,
    outside: BTreeMap<String, BTreeSet<String>>,
}

impl Arrows {
    fn found() -> Self {
        let metadata = metadata(&["--no-deps"]);
        let crates: BTreeSet<&str> = packages(&metadata)
            .iter()
            .map(|package| text(package, "name"))
            .collect();
        let mut arrows = Arrows {
            within: BTreeMap::new(),
            within_tests: BTreeMap::new(),
            outside: BTreeMap::new(),
        };
        for package in packages(&metadata) {
            let name = text(package, "name").to_owned();
            let targets = |wanted: &dyn Fn(&Value) -> bool| -> BTreeSet<String> {
                let list = package["dependencies"]
                    .as_array()
                    .expect("a list of dependencies");
                list.iter()
                    .filter(|d| wanted(d))
                    .map(|d| text(d, "name").to_owned())
                    .collect()
            };
            let ours = |d: &Value| crates.contains(text(d, "name"));
            arrows
                .within
                .insert(name.clone(), targets(&|d| ours(d) && d["kind"].is_null()));
            arrows.within_tests.insert(name.clone(), targets(&|d| ours(d)));
            arrows
                .outside
                .insert(name, targets(&|d| !ours(d) && d["kind"].is_null()));
        }
        arrows
    }
}

/// The lines of a fenced block, each as what stands before and after its arrow.
fn block<'a>(markdown: &'a str, fence: &str) -> Vec<(&'a str, &'a str)> {
    let opening = format!("```{fence}");
    let mut lines = markdown.lines().skip_while(|line| *line != opening);
    assert!(lines.next().is_some(), "ARCHITECTURE.md has no block {opening}");
    lines
        .take_while(|line| *line != "```")
        .map(|line| {
            line.split_once("->")
                .unwrap_or_else(|| panic!("\"{line}\" is not an arrow"))
        })
        .map(|(from, to)| (from.trim(), to.trim()))
        .collect()
}

/// A fenced block of `name -> a, b` lines.
fn arrows_block(markdown: &str, fence: &str) -> BTreeMap<String, BTreeSet<String>> {
    let targets = |to: &str| {
        to.split(',')
            .map(str::trim)
            .filter(|t| !t.is_empty())
            .map(str::to_owned)
            .collect()
    };
    block(markdown, fence)
        .into_iter()
        .map(|(from, to)| (from.to_owned(), targets(to)))
        .collect()
}

/// The crates of a block in the order of its lines.
fn order_of_block(markdown: &str, fence: &str) -> Vec<String> {
    block(markdown, fence)
        .into_iter()
        .map(|(from, _)| from.to_owned())
        .collect()
}

/// What is wrong with some arrows against a list of allowed ones: arrows that are not allowed, and arrows or
/// crates of the list that do not exist.
fn disagreements(
    found: &BTreeMap<String, BTreeSet<String>>,
    listed: &BTreeMap<String, BTreeSet<String>>,
) -> Vec<String> {
    let none = BTreeSet::new();
    let mut wrong = Vec::new();
    for (from, targets) in found {
        if !listed.contains_key(from) {
            wrong.push(format!("{from} is not in the list"));
        }
        for to in targets.difference(listed.get(from).unwrap_or(&none)) {
            wrong.push(format!("{from} -> {to} is not allowed"));
        }
    }
    for (from, targets) in listed {
        if !found.contains_key(from) {
            wrong.push(format!("{from} is listed but does not exist"));
        }
        for to in targets.difference(found.get(from).unwrap_or(&none)) {
            wrong.push(format!("{from} -> {to} is listed but does not exist"));
        }
    }
    wrong
}

fn nothing_wrong(what: &str, wrong: &[String]) {
    assert!(wrong.is_empty(), "{what}:\n  {}", wrong.join("\n  "));
}

#[test]
fn arrows_are_those_of_the_map() {
    let page = read("ARCHITECTURE.md");
    let listed = arrows_block(&page, "arrows");
    let found = Arrows::found();
    nothing_wrong("arrows between crates", &disagreements(&found.within, &listed));
    // Every arrow points back in the order of the list. Tests may use any earlier room, but none that is
    // later: a test that needs more belongs there.
    let order = order_of_block(&page, "arrows");
    let place = |name: &String| order.iter().position(|other| other == name);
    for (from, targets) in &found.within_tests {
        let forwards: Vec<&String> = targets.iter().filter(|to| place(to) >= place(from)).collect();
        assert!(
            forwards.is_empty(),
            "{from} or its tests use {forwards:?}, which come later"
        );
    }
}

#[test]
fn core_crates_use_only_what_is_listed() {
    let listed = arrows_block(&read("ARCHITECTURE.md"), "outside");
    let mut found = Arrows::found().outside;
    found.remove(RIM);
    nothing_wrong("crates from outside in the core", &disagreements(&found, &listed));
}

#[test]
fn a_wrong_arrow_is_found() {
    let map = |lines: &str| arrows_block(&format!("```arrows\n{lines}\n```"), "arrows");
    let listed = map("units ->\ncolour -> units\nlight -> colour, units");
    let check = |found: &str, expected: &[&str]| assert_eq!(disagreements(&map(found), &listed), expected);
    check("units ->\ncolour -> units\nlight -> colour, units", &[]);
    check(
        "units -> colour\ncolour -> units\nlight -> colour, units",
        &["units -> colour is not allowed"],
    );
    check(
        "units ->\ncolour ->\nlight -> colour, units",
        &["colour -> units is listed but does not exist"],
    );
    check(
        "units ->\ncolour -> units",
        &[
            "light is listed but does not exist",
            "light -> colour is listed but does not exist",
            "light -> units is listed but does not exist",
        ],
    );
    check(
        "units ->\ncolour -> units\nlight -> colour, units\nlamp ->",
        &["lamp is not in the list"],
    );
}

#[test]
fn every_crate_has_its_row_and_its_invariant() {
    let page = read("ARCHITECTURE.md");
    let map = section(&page, "## Code map");
    let rows: BTreeSet<String> = table_rows(map)
        .iter()
        .map(|row| row[0].trim_matches('`').to_owned())
        .collect();
    let crates: BTreeSet<String> = Arrows::found().within.into_keys().collect();
    assert_eq!(rows, crates, "rows of the code map, and crates");
    for name in &crates {
        let room = section(map, &format!("### `{name}`"));
        assert!(
            room.contains("**Invariant.**"),
            "ARCHITECTURE.md says no invariant of {name}"
        );
    }
}

/// Whether a piece of code in prose means a file or folder of the repository.
fn is_path(span: &str) -> bool {
    let plain = span
        .chars()
        .all(|c| c.is_ascii_alphanumeric() || "/._-".contains(c));
    let first = span.split('/').next().unwrap_or_default();
    let folders = [
        "crates", "checks", "benches", "tools", "examples", "schema", "docs", ".ci", ".cargo",
    ];
    plain
        && (span.contains('/') && folders.contains(&first) || (span.ends_with(".md") && !span.contains('/')))
}

/// Targets of links and pictures in a Markdown text that are not web addresses.
fn links(markdown: &str) -> Vec<&str> {
    let targets = markdown
        .split("](")
        .skip(1)
        .filter_map(|rest| rest.split(')').next());
    targets
        .map(|target| target.split('#').next().unwrap_or_default())
        .filter(|target| !target.is_empty() && !target.contains("://"))
        .collect()
}

#[test]
fn files_named_in_the_pages_exist() {
    let mut wrong = Vec::new();
    let mut seen = 0;
    let pages = [
        "README.md",
        "ARCHITECTURE.md",
        "DESIGN.md",
        "NOMENCLATURE.md",
        "CONTRIBUTING.md",
        "CHANGELOG.md",
        "SHOOT_FILE.md",
    ];
    for page in pages {
        let markdown = read(page);
        let named = code_spans(&markdown).into_iter().filter(|span| is_path(span));
        for path in named.chain(links(&markdown)) {
            seen += 1;
            if !root().join(path).exists() {
                wrong.push(format!("{page}: {path}"));
            }
        }
    }
    nothing_wrong("named but not there", &wrong);
    assert!(
        seen > 60,
        "only {seen} files are named: the pages or this test have lost them"
    );
}

/// Parts of `std` that only [`RIM`] may touch, and who is in [`ALLOWED`].
const OUTSIDE_WORLD: [&str; 9] = [
    "fs",
    "net",
    "env",
    "process",
    "SystemTime",
    "Instant",
    "stdin",
    "stdout",
    "stderr",
];
/// Other words that mean the outside world or hidden randomness.
const OUTSIDE_WORDS: [&str; 8] = [
    "println!",
    "print!",
    "eprintln!",
    "eprint!",
    "dbg!",
    "thread_rng",
    "from_os_rng",
    "OsRng",
];

/// Source without comments and without the tests at its end.
fn code_only(source: &str) -> String {
    let mut code = String::new();
    let mut lines = source.lines().peekable();
    while let Some(line) = lines.next() {
        let tests_follow = line.trim() == "#[cfg(test)]"
            && lines
                .peek()
                .is_some_and(|next| next.starts_with("mod ") && next.ends_with('{'));
        if tests_follow {
            break;
        }
        // An address in a string is the only other place for two slashes.
        let end = line
            .find("//")
            .filter(|&at| !line[..at].ends_with(':'))
            .unwrap_or(line.len());
        code.push_str(&line[..end]);
        code.push('\n');
    }
    code
}

/// Names in the path that begins with `std::` at the start of some code, braces included.
fn names_of_path(code: &str) -> Vec<&str> {
    let mut depth = 0;
    let end = code
        .char_indices()
        .find(|&(_, c)| {
            match c {
                '{' => depth += 1,
                '}' => depth -= 1,
                _ => {}
            }
            let inside = depth > 0 && (c == ',' || c == '*' || c.is_whitespace());
            !(c.is_alphanumeric() || "_:{}".contains(c) || inside)
        })
        .map_or(code.len(), |(at, _)| at);
    code[..end]
        .split(|c: char| !c.is_alphanumeric() && c != '_')
        .filter(|name| !name.is_empty())
        .collect()
}

/// What of the outside world a source touches.
fn outside_world(source: &str) -> Vec<String> {
    let code = code_only(source);
    let std_names = code
        .match_indices("std::")
        .flat_map(|(at, _)| names_of_path(&code[at..]));
    let touched = std_names
        .filter(|name| OUTSIDE_WORLD.contains(name))
        .map(str::to_owned);
    let words = OUTSIDE_WORDS
        .iter()
        .filter(|word| has_word(&code, word))
        .map(|word| (*word).to_owned());
    touched.chain(words).collect()
}

/// Whether a word stands in some code by itself, not as the end of a longer one.
fn has_word(code: &str, word: &str) -> bool {
    code.match_indices(word).any(|(at, _)| {
        !code[..at]
            .chars()
            .next_back()
            .is_some_and(|c| c.is_alphanumeric() || c == '_')
    })
}

#[test]
fn the_core_never_meets_the_outside_world() {
    let mut wrong = Vec::new();
    let mut seen = 0;
    let crates = root().join("crates");
    for path in files() {
        let Ok(inside) = path.strip_prefix(&crates) else {
            continue;
        };
        let parts: Vec<String> = inside
            .iter()
            .map(|part| part.to_string_lossy().into_owned())
            .collect();
        let is_source = parts[1] == "src"
            && parts
                .last()
                .is_some_and(|n| n.ends_with(".rs") && n != "tests.rs");
        if parts[0] == RIM || !is_source {
            continue;
        }
        seen += 1;
        let source = std::fs::read_to_string(&path).expect("a source");
        let allowed = |name: &str| {
            let allows = |(room, names): &(&str, &[&str])| *room == parts[0] && names.contains(&name);
            ALLOWED.iter().any(allows)
        };
        wrong.extend(
            outside_world(&source)
                .iter()
                .filter(|name| !allowed(name))
                .map(|name| format!("{}: {name}", inside.display())),
        );
    }
    nothing_wrong("the outside world in a core crate", &wrong);
    assert!(seen > 40, "only {seen} sources were read");
}

#[test]
fn the_outside_world_is_recognised() {
    let check = |source: &str, expected: &[&str]| assert_eq!(outside_world(source), expected, "{source}");
    check("use std::time::Duration;\nuse std::fmt;", &[]);
    check("use std::time::{Duration, Instant};", &["Instant"]);
    check(
        "use std::{\n    collections::BTreeMap,\n    fs::{self, File},\n};",
        &["fs"],
    );
    check("let at = std::time::SystemTime::now();", &["SystemTime"]);
    check("fn f(d: std::time::Duration, env: u8) {}", &[]);
    check(
        "/// std::fs is never used\nlet path = env!(\"CARGO_MANIFEST_DIR\");",
        &[],
    );
    check("let x = 1; // std::env\nprintln!(\"{x}\");", &["println!"]);
    check("fn f() {}\n#[cfg(test)]\nmod tests {\n    use std::fs;\n}", &[]);
    check("#[cfg(test)]\nuse std::net::TcpStream;", &["net"]);
}

/// Beginnings of folders that exist on one machine only. Written in two halves, so that this file passes.
const MACHINE_FOLDERS: [&str; 4] = [
    concat!("/wo", "rk/"),
    concat!("/ro", "ot/"),
    concat!("/ho", "me/"),
    concat!("/Use", "rs/"),
];
/// Hosts of package registries.
const REGISTRY_HOSTS: [&str; 6] = [
    concat!("pypi", ".org"),
    concat!("pythonhosted", ".org"),
    concat!("debian", ".org"),
    concat!("npmjs", ".org"),
    concat!("static.crates", ".io"),
    concat!("index.crates", ".io"),
];
/// The one index from which crates come, as cargo spells it.
const CRATES_INDEX: &str = "https://github.com/rust-lang/crates.io-index";
/// Hosts that a text may name: name spaces, licences, papers.
const KNOWN_HOSTS: [&str; 6] = [
    // This machine for itself, and a name that can never be anybody's (RFC 2606).
    "127.0.0.1",
    "pictures.example",
    "www.w3.org",
    "www.apache.org",
    "creativecommons.org",
    "json-schema.org",
];

/// Machine folders and unknown hosts in a text.
fn strange_places(content: &str) -> Vec<String> {
    let content = content.replace(CRATES_INDEX, "");
    let mut strange: Vec<String> = Vec::new();
    for folder in MACHINE_FOLDERS {
        let absolute = content.match_indices(folder).any(|(at, _)| {
            let before = content[..at].chars().next_back();
            !before.is_some_and(|c| c.is_alphanumeric() || "._-}".contains(c))
        });
        if absolute {
            strange.push(folder.to_owned());
        }
    }
    strange.extend(
        REGISTRY_HOSTS
            .iter()
            .filter(|host| content.contains(**host))
            .map(|host| (*host).to_owned()),
    );
    for scheme in ["http://", "https://"] {
        for rest in content.split(scheme).skip(1) {
            let host: String = rest
                .chars()
                .take_while(|c| c.is_alphanumeric() || ".-".contains(*c))
                .collect();
            if host.contains('.') && !KNOWN_HOSTS.contains(&host.as_str()) {
                strange.push(host);
            }
        }
    }
    strange
}

#[test]
fn no_file_knows_this_machine() {
    let mut wrong = Vec::new();
    let mut seen = 0;
    for path in files() {
        let Ok(content) = std::fs::read_to_string(&path) else {
            continue;
        };
        seen += 1;
        let shown = path
            .strip_prefix(root())
            .unwrap_or(Path::new("?"))
            .display()
            .to_string();
        // A licence is given word for word, and a lock file names those who may be thanked; neither may name a registry
        // or a folder of this machine.
        let quoted = ["LICENSE.txt", "package-lock.json"]
            .iter()
            .any(|name| path.ends_with(name));
        wrong.extend(
            strange_places(&content)
                .iter()
                .filter(|place| {
                    !quoted
                        || MACHINE_FOLDERS.contains(&place.as_str())
                        || REGISTRY_HOSTS.contains(&place.as_str())
                })
                .map(|place| format!("{shown}: {place}")),
        );
    }
    nothing_wrong("paths of one machine, or hosts that nobody needs", &wrong);
    assert!(seen > 100, "only {seen} texts were read");
}

#[test]
fn strange_places_are_recognised() {
    let [work, root, ..] = MACHINE_FOLDERS;
    let check =
        |content: &str, expected: usize| assert_eq!(strange_places(content).len(), expected, "{content}");
    check(&format!("see {work}main"), 1);
    check(&format!("\"{root}x\" and ({work}y)"), 2);
    check(&format!("a/frame{work} network{work}"), 0);
    check(&format!("source = \"registry+{CRATES_INDEX}\""), 0);
    check(&format!("from https://{}/simple", REGISTRY_HOSTS[0]), 2);
    check("xmlns=\"http://www.w3.org/2000/svg\"", 0);
    check(concat!("ht", "tps://example.com/x"), 1);
}

/// Whether some code uses a crate by its name.
fn uses(code: &str, name: &str) -> bool {
    let name = name.replace('-', "_");
    code.match_indices(name.as_str()).any(|(at, _)| {
        let boundary = !code[..at]
            .chars()
            .next_back()
            .is_some_and(|c| c.is_alphanumeric() || c == '_');
        let rest = &code[at + name.len()..];
        boundary && (rest.starts_with("::") || rest.starts_with('!') || code[..at].ends_with("use "))
    })
}

#[test]
fn every_dependency_is_used() {
    let mut wrong = Vec::new();
    let metadata = metadata(&["--no-deps"]);
    for package in packages(&metadata) {
        let name = text(package, "name");
        let folder = root().join("crates").join(name);
        let of = |wanted: &[&str], bare: bool| -> String {
            let inside = |path: &Path| wanted.iter().any(|part| path.starts_with(folder.join(part)));
            let sources = files()
                .into_iter()
                .filter(|p| inside(p) && p.extension().is_some_and(|e| e == "rs"));
            sources
                .map(|path| std::fs::read_to_string(path).expect("a source"))
                .map(|source| if bare { code_only(&source) } else { source })
                .collect()
        };
        let (code, everything) = (of(&["src"], true), of(&["src", "tests", "benches"], false));
        for dependency in package["dependencies"].as_array().expect("a list") {
            let other = text(dependency, "name");
            let searched = if dependency["kind"].is_null() {
                &code
            } else {
                &everything
            };
            if !uses(searched, other) {
                wrong.push(format!("{name} does not use {other}"));
            }
        }
    }
    // A version that no crate asks for is a leftover as well.
    let manifest: toml::Table = read("Cargo.toml").parse().expect("Cargo.toml is TOML");
    let used: BTreeSet<&str> = packages(&metadata)
        .iter()
        .flat_map(|package| package["dependencies"].as_array().expect("a list"))
        .map(|dependency| text(dependency, "name"))
        .collect();
    for name in manifest["workspace"]["dependencies"]
        .as_table()
        .expect("a table")
        .keys()
    {
        if !used.contains(name.as_str()) {
            wrong.push(format!("no crate uses {name} of the workspace's Cargo.toml"));
        }
    }
    nothing_wrong("dependencies without use", &wrong);
}

#[test]
fn use_of_a_crate_is_recognised() {
    for (code, name, expected) in [
        ("use glam::Vec3;", "glam", true),
        ("let x = rand_pcg::Pcg64::new();", "rand", false),
        ("use rand_pcg::Pcg64;", "rand-pcg", true),
        ("proptest! {}", "proptest", true),
        ("let light = 1;", "light", false),
        ("use light as lamp;", "light", true),
    ] {
        assert_eq!(uses(code, name), expected, "{name} in {code}");
    }
}
