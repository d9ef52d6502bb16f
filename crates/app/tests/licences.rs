//! Every dependency may be used under the licences that deny.toml allows, comes from cargo's own registry, and is
//! defended in DESIGN.md. Nothing is fetched.

#[allow(dead_code)]
mod house;

use house::{metadata, packages, read, section, table_rows, text};
use serde_json::Value;
use std::collections::{BTreeMap, BTreeSet};
use std::process::Command;

/// Whether a licence expression can be satisfied with some licences alone.
///
/// The expressions are those of SPDX ("A OR B", "A AND B", "A WITH exception", brackets, OR weakest) and the
/// older "A/B", which means OR. An exception only gives more freedom, so that "A WITH x" is judged as "A".
fn satisfied(expression: &str, allowed: &dyn Fn(&str) -> bool) -> bool {
    let spaced = expression
        .replace('(', " ( ")
        .replace(')', " ) ")
        .replace('/', " OR ");
    let tokens: Vec<&str> = spaced.split_whitespace().collect();
    let mut at = 0;
    let result = either(&tokens, &mut at, allowed);
    assert_eq!(at, tokens.len(), "\"{expression}\" is not a licence expression");
    result
}

fn either(tokens: &[&str], at: &mut usize, allowed: &dyn Fn(&str) -> bool) -> bool {
    let mut result = both(tokens, at, allowed);
    while tokens.get(*at) == Some(&"OR") {
        *at += 1;
        // Both sides are read whatever the first says.
        result |= both(tokens, at, allowed);
    }
    result
}

fn both(tokens: &[&str], at: &mut usize, allowed: &dyn Fn(&str) -> bool) -> bool {
    let mut result = single(tokens, at, allowed);
    while tokens.get(*at) == Some(&"AND") {
        *at += 1;
        result &= single(tokens, at, allowed);
    }
    result
}

fn single(tokens: &[&str], at: &mut usize, allowed: &dyn Fn(&str) -> bool) -> bool {
    let token = tokens[*at];
    *at += 1;
    if token == "(" {
        let result = either(tokens, at, allowed);
        assert_eq!(tokens.get(*at), Some(&")"), "a bracket is missing");
        *at += 1;
        return result;
    }
    if tokens.get(*at) == Some(&"WITH") {
        *at += 2;
    }
    allowed(token)
}

#[test]
fn licence_expressions_are_read() {
    let check = |expression: &str, allowed: &[&str], expected: bool| {
        assert_eq!(
            satisfied(expression, &|licence| allowed.contains(&licence)),
            expected,
            "{expression}"
        );
    };
    check("MIT", &["MIT"], true);
    check("GPL-3.0", &["MIT"], false);
    check("MIT OR GPL-3.0", &["MIT"], true);
    check("GPL-3.0 OR MIT", &["MIT"], true);
    check("MIT/Apache-2.0", &["Apache-2.0"], true);
    check("MIT AND Unicode-3.0", &["MIT"], false);
    check(
        "(MIT OR Apache-2.0) AND Unicode-3.0",
        &["MIT", "Unicode-3.0"],
        true,
    );
    check(
        "(MIT OR Apache-2.0) AND Unicode-3.0",
        &["MIT", "Apache-2.0"],
        false,
    );
    // AND binds more tightly than OR.
    check("MIT OR GPL-3.0 AND Zlib", &["MIT"], true);
    check("Apache-2.0 WITH LLVM-exception OR MIT", &["Apache-2.0"], true);
}

/// What cargo knows about everything that is built on this machine; other platforms' crates need not have
/// been downloaded.
fn resolved() -> Value {
    let version = Command::new(env!("CARGO"))
        .arg("-vV")
        .output()
        .expect("cargo runs");
    let version = String::from_utf8_lossy(&version.stdout).into_owned();
    let host = version
        .lines()
        .find_map(|line| line.strip_prefix("host: "))
        .expect("cargo names its host");
    metadata(&["--filter-platform", host])
}

fn allowed_licences() -> BTreeSet<String> {
    let rules: toml::Table = read("deny.toml").parse().expect("deny.toml is TOML");
    let list = rules["licenses"]["allow"].as_array().expect("a list of licences");
    list.iter()
        .map(|licence| licence.as_str().expect("a licence").to_owned())
        .collect()
}

/// Packages whose licence cannot be met with some licences alone.
fn refused(metadata: &Value, allowed: &BTreeSet<String>) -> Vec<String> {
    packages(metadata)
        .iter()
        .filter(|package| {
            !satisfied(package["license"].as_str().unwrap_or("none"), &|l| {
                allowed.contains(l)
            })
        })
        .map(|package| format!("{} ({})", text(package, "name"), package["license"]))
        .collect()
}

#[test]
fn every_licence_is_allowed_and_every_allowed_licence_is_needed() {
    let metadata = resolved();
    let allowed = allowed_licences();
    let wrong = refused(&metadata, &allowed);
    assert!(
        wrong.is_empty(),
        "licences that deny.toml does not allow: {wrong:?}"
    );
    for licence in &allowed {
        let fewer: BTreeSet<String> = allowed
            .iter()
            .filter(|other| *other != licence)
            .cloned()
            .collect();
        assert!(
            !refused(&metadata, &fewer).is_empty(),
            "no dependency needs {licence} in deny.toml"
        );
    }
}

#[test]
fn everything_comes_from_one_registry() {
    let lock: toml::Table = read("Cargo.lock").parse().expect("Cargo.lock is TOML");
    let locked = lock["package"].as_array().expect("a list of packages");
    let mut sources: BTreeMap<&str, usize> = BTreeMap::new();
    for package in locked {
        let source = package
            .get("source")
            .map_or("here", |source| source.as_str().expect("a source"));
        *sources.entry(source).or_default() += 1;
        if source != "here" {
            assert!(
                package.get("checksum").is_some(),
                "{} has no checksum",
                package["name"]
            );
        }
    }
    let away: Vec<&str> = sources
        .keys()
        .copied()
        .filter(|source| *source != "here")
        .collect();
    assert!(
        matches!(away[..], [index] if index.starts_with("registry+https://")),
        "{away:?}"
    );
    // cargo names the registry of a dependency only where it is not its own.
    let metadata = metadata(&["--no-deps"]);
    for package in packages(&metadata) {
        for dependency in package["dependencies"].as_array().expect("a list") {
            assert!(dependency["registry"].is_null(), "{dependency}");
        }
    }
    let ours = packages(&metadata).len();
    assert_eq!(
        sources["here"], ours,
        "packages from a folder that are not crates of this workspace"
    );
}

#[test]
fn every_dependency_is_defended() {
    let page = read("DESIGN.md");
    let written: BTreeMap<String, String> = table_rows(section(&page, "## Every dependency, defended"))
        .into_iter()
        .map(|row| {
            assert!(row[2].len() > 20, "{} is not defended in DESIGN.md", row[0]);
            (row[0].trim_matches('`').to_owned(), row[1].clone())
        })
        .collect();
    let metadata = resolved();
    let direct: BTreeSet<&str> = packages(&metadata)
        .iter()
        .filter(|package| package["source"].is_null())
        .flat_map(|package| package["dependencies"].as_array().expect("a list"))
        .filter(|dependency| !dependency["source"].is_null())
        .map(|dependency| text(dependency, "name"))
        .collect();
    let names: BTreeSet<&str> = written.keys().map(String::as_str).collect();
    assert_eq!(
        names, direct,
        "dependencies that DESIGN.md defends, and direct dependencies"
    );
    for package in packages(&metadata) {
        let Some(licence) = written.get(text(package, "name")) else {
            continue;
        };
        let direct_version = package["license"] == licence.as_str();
        // Where two versions of a crate are in use, one of them is the direct one.
        let twice = packages(&metadata)
            .iter()
            .filter(|p| p["name"] == package["name"])
            .count()
            > 1;
        assert!(
            direct_version || twice,
            "{}: {} in DESIGN.md, {} there",
            package["name"],
            licence,
            package["license"]
        );
    }
}
