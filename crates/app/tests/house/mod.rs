//! What the tests of the house itself share: where the repository is, what cargo says about it, its texts.

use serde_json::Value;
use std::path::{Path, PathBuf};
use std::process::Command;

/// The folder of the whole workspace.
pub fn root() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR"))
        .join("../..")
        .canonicalize()
        .expect("the workspace is two folders up")
}

/// A text of the repository.
pub fn read(path: &str) -> String {
    std::fs::read_to_string(root().join(path)).unwrap_or_else(|error| panic!("{path}: {error}"))
}

/// What `cargo metadata` says. Nothing is fetched.
pub fn metadata(arguments: &[&str]) -> Value {
    let output = Command::new(env!("CARGO"))
        .args(["metadata", "--format-version", "1", "--offline"])
        .args(arguments)
        .current_dir(root())
        .output()
        .expect("cargo runs");
    assert!(
        output.status.success(),
        "cargo metadata: {}",
        String::from_utf8_lossy(&output.stderr)
    );
    serde_json::from_slice(&output.stdout).expect("cargo metadata prints JSON")
}

/// The packages that some metadata lists.
pub fn packages(metadata: &Value) -> &[Value] {
    metadata["packages"].as_array().expect("metadata lists packages")
}

/// A field that is always a string.
pub fn text<'a>(value: &'a Value, field: &str) -> &'a str {
    value[field]
        .as_str()
        .unwrap_or_else(|| panic!("\"{field}\" is missing in {value}"))
}

/// The part of a Markdown text under a heading, up to the next heading that is not deeper.
pub fn section<'a>(markdown: &'a str, heading: &str) -> &'a str {
    let depth = heading.chars().take_while(|c| *c == '#').count();
    let start = markdown
        .lines()
        .position(|line| line.trim_end() == heading)
        .unwrap_or_else(|| panic!("there is no heading \"{heading}\""));
    let mut fenced = false;
    let mut end = markdown.lines().count();
    for (number, line) in markdown.lines().enumerate().skip(start + 1) {
        fenced ^= line.starts_with("```");
        let hashes = line.chars().take_while(|c| *c == '#').count();
        if !fenced && (1..=depth).contains(&hashes) {
            end = number;
            break;
        }
    }
    let offset = |number: usize| {
        markdown
            .split_inclusive('\n')
            .take(number)
            .map(str::len)
            .sum::<usize>()
    };
    &markdown[offset(start + 1)..offset(end)]
}

/// The cells of every row of the tables in a Markdown text, without heads and rules.
pub fn table_rows(markdown: &str) -> Vec<Vec<String>> {
    let lines: Vec<&str> = markdown.lines().map(str::trim).collect();
    let is_row = |line: &str| line.starts_with('|') && line.ends_with('|');
    let is_rule = |line: &str| is_row(line) && line.contains("---");
    let head = |at: usize| lines.get(at + 1).is_some_and(|next| is_rule(next));
    (0..lines.len())
        .filter(|&at| is_row(lines[at]) && !is_rule(lines[at]) && !head(at))
        .map(|at| {
            lines[at]
                .trim_matches('|')
                .split(" | ")
                .map(|cell| cell.trim().to_owned())
                .collect()
        })
        .collect()
}

/// Every piece of a Markdown text that stands between single back-ticks.
pub fn code_spans(markdown: &str) -> Vec<&str> {
    let mut fenced = false;
    let prose = markdown.lines().filter(|line| {
        let fence = line.trim_start().starts_with("```");
        fenced ^= fence;
        !fenced && !fence
    });
    prose
        .flat_map(|line| line.split('`').skip(1).step_by(2))
        .collect()
}

/// All files of the repository, without what tools leave behind.
pub fn files() -> Vec<PathBuf> {
    let mut found = Vec::new();
    visit(&root(), &mut found);
    found.sort();
    found
}

fn visit(folder: &Path, found: &mut Vec<PathBuf>) {
    const LEFT_BEHIND: [&str; 7] = [
        ".git",
        "target",
        "out",
        "__pycache__",
        "node_modules",
        "dist",
        ".venv",
    ];
    for entry in std::fs::read_dir(folder)
        .expect("a folder of the repository")
        .flatten()
    {
        let path = entry.path();
        let name = entry.file_name().to_string_lossy().into_owned();
        if path.is_dir() {
            // Cargo and other tools mark the folders that they may fill and empty at will.
            if !LEFT_BEHIND.contains(&name.as_str()) && !path.join("CACHEDIR.TAG").exists() {
                visit(&path, found);
            }
        } else if !name.ends_with(".part") {
            found.push(path);
        }
    }
}
