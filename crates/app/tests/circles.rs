//! Files of a crate use one another in one direction only: where one needs another that needs it, directly or by way of
//! others, what both need belongs in a file of its own.
//!
//! The sources are read as the tokens that the compiler reads, so neither a comment nor a string can look like code. An
//! arrow leads from a file to every file of its crate that it names, by an import or by a path. Declaring a module and
//! handing its names on (`pub use`) is no arrow, unless the file needs such a name itself.

#[allow(dead_code)]
mod house;

use house::{files, root};
use proc_macro2::{Delimiter, Spacing, TokenStream, TokenTree};
use std::collections::{BTreeMap, BTreeSet};

/// The names of a path, such as `crate`, `nearest`, `plain`.
type Names = Vec<String>;

/// A name that a module has from elsewhere.
struct Import {
    name: String,
    path: Names,
    handed_on: bool,
}

/// What one module says.
#[derive(Default)]
struct Module {
    file: String,
    children: BTreeSet<String>,
    /// Modules that only tests have.
    of_tests: BTreeSet<String>,
    imports: Vec<Import>,
    /// Modules of which everything is imported.
    wholes: Vec<Names>,
    defined: BTreeSet<String>,
    paths: Vec<Names>,
    /// Every word outside imports.
    words: BTreeSet<String>,
}

/// The modules of a crate by their paths; the root's path is empty.
#[derive(Default)]
struct Modules {
    all: BTreeMap<Names, Module>,
    /// Files of modules that only tests have.
    of_tests: BTreeSet<String>,
}

/// Follows no path through more imports than this.
const MOST_STEPS: usize = 32;

impl Modules {
    /// Reads the files of a crate, by their paths below `src`, from one root.
    fn read(sources: &BTreeMap<String, String>, root: &str) -> Self {
        let mut modules = Modules::default();
        modules.read_file(sources, root, Names::new());
        modules
    }

    fn read_file(&mut self, sources: &BTreeMap<String, String>, file: &str, at: Names) {
        let source = sources
            .get(file)
            .unwrap_or_else(|| panic!("there is no file {file}"));
        let tokens: TokenStream = source.parse().unwrap_or_else(|error| panic!("{file}: {error}"));
        self.module(file, &at);
        self.walk(tokens, &at, true);
        let children: Vec<String> = self.all[&at]
            .children
            .iter()
            .filter(|child| !self.all.contains_key(&below(&at, child)))
            .cloned()
            .collect();
        for child in children {
            let found = file_of_child(sources, file, &child)
                .unwrap_or_else(|| panic!("{file} declares {child}, which has no file"));
            self.read_file(sources, &found, below(&at, &child));
        }
        let of_tests = self.all[&at].of_tests.iter();
        // What only tests have may lie beside the sources, among the tests.
        let files: Vec<String> = of_tests
            .filter_map(|child| file_of_child(sources, file, child))
            .collect();
        self.of_tests.extend(files);
    }

    /// Whether only tests use a file.
    fn is_of_tests(&self, file: &str) -> bool {
        let is_below = |module: &String| file.starts_with(&format!("{}/", module.trim_end_matches(".rs")));
        self.of_tests.contains(file) || self.of_tests.iter().any(is_below)
    }

    fn module(&mut self, file: &str, at: &Names) -> &mut Module {
        let module = self.all.entry(at.clone()).or_default();
        module.file = file.to_owned();
        module
    }

    fn here(&mut self, at: &Names) -> &mut Module {
        self.all
            .get_mut(at)
            .expect("a module is entered before it is read")
    }

    /// Reads tokens of a module; `top` where they are its own items and not what is inside them.
    fn walk(&mut self, tokens: TokenStream, at: &Names, top: bool) {
        let tokens: Vec<TokenTree> = tokens.into_iter().collect();
        let mut i = 0;
        while i < tokens.len() {
            i = self.step(&tokens, i, at, top);
        }
    }

    /// Reads what begins at a token, and gives where the next begins.
    fn step(&mut self, tokens: &[TokenTree], i: usize, at: &Names, top: bool) -> usize {
        if let Some(attribute) = attribute(tokens, i) {
            let words = attribute.to_string().replace(' ', "");
            assert!(
                !words.starts_with("path="),
                "modules at another path are not understood here"
            );
            if words == "cfg(test)" {
                return self.skip_test(tokens, i + 2, at);
            }
        }
        match &tokens[i] {
            TokenTree::Group(group) => {
                self.walk(group.stream(), at, false);
                i + 1
            }
            TokenTree::Ident(word) => {
                let next = word_at(tokens, i + 1);
                match (word.to_string().as_str(), next) {
                    ("use", next) if next.is_some() || is_path_mark(tokens, i + 1) => {
                        let end = end_of_statement(tokens, i);
                        let handed_on = i > 0 && is_visibility(tokens, i - 1);
                        self.import(&tokens[i + 1..end], &Names::new(), handed_on, at);
                        end + 1
                    }
                    ("mod", Some(name)) => {
                        self.here(at).children.insert(name.clone());
                        if let Some(TokenTree::Group(body)) = tokens.get(i + 2) {
                            let file = self.here(at).file.clone();
                            let inside = below(at, &name);
                            self.module(&file, &inside);
                            self.walk(body.stream(), &inside, true);
                        }
                        i + 3
                    }
                    (
                        "struct" | "enum" | "union" | "fn" | "const" | "static" | "type" | "trait",
                        Some(name),
                    ) if top => {
                        self.here(at).defined.insert(name);
                        i + 1
                    }
                    _ => self.path(tokens, i, at),
                }
            }
            _ => i + 1,
        }
    }

    /// Skips an item that only tests have, and gives where the next begins.
    fn skip_test(&mut self, tokens: &[TokenTree], from: usize, at: &Names) -> usize {
        let import = (from..tokens.len().min(from + 3))
            .take_while(|&i| i == from || is_visibility(tokens, i - 1))
            .any(|i| word_at(tokens, i).as_deref() == Some("use"));
        for i in from..tokens.len() {
            match &tokens[i] {
                TokenTree::Punct(mark) if mark.as_char() == ';' => {
                    if word_at(tokens, i - 2).as_deref() == Some("mod")
                        && let Some(name) = word_at(tokens, i - 1)
                    {
                        self.here(at).of_tests.insert(name);
                    }
                    return i + 1;
                }
                TokenTree::Group(group) if group.delimiter() == Delimiter::Brace && !import => return i + 1,
                _ => {}
            }
        }
        tokens.len()
    }

    /// Reads one branch of an import.
    fn import(&mut self, tokens: &[TokenTree], before: &Names, handed_on: bool, at: &Names) {
        let mut path = before.clone();
        let mut name = None;
        let mut i = 0;
        if is_path_mark(tokens, 0) {
            // From the list of crates, so never from this one.
            return;
        }
        while i < tokens.len() {
            match &tokens[i] {
                TokenTree::Ident(word) if word == "as" => {
                    name = word_at(tokens, i + 1);
                    break;
                }
                TokenTree::Ident(word) if word == "self" && !path.is_empty() => {}
                TokenTree::Ident(word) => path.push(word.to_string()),
                TokenTree::Punct(mark) if mark.as_char() == '*' => {
                    self.here(at).wholes.push(path);
                    return;
                }
                TokenTree::Group(group) => {
                    let inside: Vec<TokenTree> = group.stream().into_iter().collect();
                    let is_comma =
                        |token: &TokenTree| matches!(token, TokenTree::Punct(mark) if mark.as_char() == ',');
                    for branch in inside.split(is_comma).filter(|branch| !branch.is_empty()) {
                        self.import(branch, &path, handed_on, at);
                    }
                    return;
                }
                _ => {}
            }
            i += 1;
        }
        let Some(name) = name.or_else(|| path.last().cloned()) else {
            return;
        };
        self.here(at).imports.push(Import {
            name,
            path,
            handed_on,
        });
    }

    /// Reads a word, or the path that begins with it, and gives where the next begins.
    fn path(&mut self, tokens: &[TokenTree], from: usize, at: &Names) -> usize {
        let of_a_crate = from >= 2 && is_path_mark(tokens, from - 2);
        let mut names = Names::new();
        let mut i = from;
        while let Some(name) = word_at(tokens, i) {
            names.push(name);
            i += 1;
            if !is_path_mark(tokens, i) || word_at(tokens, i + 2).is_none() {
                break;
            }
            i += 2;
        }
        let module = self.here(at);
        module.words.extend(names.first().cloned());
        if !of_a_crate && names.len() > 1 {
            module.paths.push(names);
        }
        i
    }

    /// The module in which a path ends that is written in module `at`; `None` if it leads out of the crate.
    fn resolve(&self, at: &Names, path: &[String], steps: usize) -> Option<Names> {
        let (first, rest) = path.split_first()?;
        match first.as_str() {
            "crate" => self.follow(Names::new(), rest, steps),
            "self" => self.follow(at.clone(), rest, steps),
            "super" => {
                let mut above = at.clone();
                above.pop();
                if rest.first().is_some_and(|next| next == "super") {
                    self.resolve(&above, rest, steps)
                } else {
                    self.follow(above, rest, steps)
                }
            }
            _ if self.knows(at, first) => self.follow(at.clone(), path, steps),
            _ => None,
        }
    }

    /// Whether a module has a child or an import of this name, or may have it by importing everything of another.
    fn knows(&self, at: &Names, name: &str) -> bool {
        let module = &self.all[at];
        module.children.contains(name) || module.imports.iter().any(|import| import.name == name)
    }

    /// Goes on from a module along a path.
    fn follow(&self, from: Names, path: &[String], steps: usize) -> Option<Names> {
        assert!(steps < MOST_STEPS, "imports lead on and on: {path:?}");
        let Some((name, rest)) = path.split_first() else {
            return Some(from);
        };
        let Some(module) = self.all.get(&from) else {
            return Some(from);
        };
        if module.children.contains(name) {
            return self.follow(below(&from, name), rest, steps);
        }
        // A macro that hands on its own name leads to itself: it is defined here.
        let elsewhere = |import: &&Import| import.name == *name && import.path != [import.name.clone()];
        if let Some(import) = module.imports.iter().find(elsewhere) {
            let target = self.resolve(&from, &import.path, steps + 1)?;
            return self.follow(target, rest, steps + 1);
        }
        if !module.defined.contains(name) {
            for whole in &module.wholes {
                let target = self.resolve(&from, whole, steps + 1);
                if let Some(target) = target.filter(|target| self.has(target, name)) {
                    return self.follow(target, path, steps + 1);
                }
            }
        }
        Some(from)
    }

    fn has(&self, at: &Names, name: &str) -> bool {
        self.all.contains_key(at) && (self.knows(at, name) || self.all[at].defined.contains(name))
    }

    /// From every file to the files that it needs.
    fn arrows(&self) -> BTreeMap<String, BTreeSet<String>> {
        let mut arrows: BTreeMap<String, BTreeSet<String>> = BTreeMap::new();
        for (at, module) in &self.all {
            let needed = module
                .imports
                .iter()
                .filter(|import| !import.handed_on || module.words.contains(&import.name))
                .map(|import| &import.path);
            let targets = needed
                .chain(&module.wholes)
                .chain(&module.paths)
                .filter_map(|path| self.resolve(at, path, 0))
                .filter_map(|target| self.all.get(&target))
                .map(|target| target.file.clone())
                .filter(|file| *file != module.file);
            arrows.entry(module.file.clone()).or_default().extend(targets);
        }
        arrows
    }
}

/// The path of a child.
fn below(at: &Names, child: &str) -> Names {
    let mut path = at.clone();
    path.push(child.to_owned());
    path
}

/// The file of a module that is declared in another.
fn file_of_child(sources: &BTreeMap<String, String>, file: &str, child: &str) -> Option<String> {
    let (folder, name) = file.rsplit_once('/').unwrap_or(("", file));
    let stem = name.trim_end_matches(".rs");
    let mut folder = folder.to_owned();
    if !["lib", "main", "mod"].contains(&stem) {
        folder = format!("{folder}/{stem}");
    }
    let candidates = [format!("{folder}/{child}.rs"), format!("{folder}/{child}/mod.rs")];
    candidates
        .iter()
        .map(|path| path.trim_start_matches('/').to_owned())
        .find(|path| sources.contains_key(path))
}

fn word_at(tokens: &[TokenTree], i: usize) -> Option<String> {
    match tokens.get(i) {
        Some(TokenTree::Ident(word)) => Some(word.to_string()),
        _ => None,
    }
}

/// Whether `::` stands here.
fn is_path_mark(tokens: &[TokenTree], i: usize) -> bool {
    let colon = |token: Option<&TokenTree>, joined: bool| {
        matches!(token, Some(TokenTree::Punct(mark))
            if mark.as_char() == ':' && (!joined || mark.spacing() == Spacing::Joint))
    };
    colon(tokens.get(i), true) && colon(tokens.get(i + 1), false)
}

/// Whether a `pub`, with its bounds or without, ends here.
fn is_visibility(tokens: &[TokenTree], i: usize) -> bool {
    let bounded =
        matches!(&tokens[i], TokenTree::Group(group) if group.delimiter() == Delimiter::Parenthesis);
    let at = if bounded { i.checked_sub(1) } else { Some(i) };
    at.is_some_and(|i| word_at(tokens, i).as_deref() == Some("pub"))
}

/// What stands in the brackets of the attribute that begins here.
fn attribute(tokens: &[TokenTree], i: usize) -> Option<TokenStream> {
    match (&tokens[i], tokens.get(i + 1)) {
        (TokenTree::Punct(mark), Some(TokenTree::Group(group)))
            if mark.as_char() == '#' && group.delimiter() == Delimiter::Bracket =>
        {
            Some(group.stream())
        }
        _ => None,
    }
}

/// Where the semicolon of a statement stands.
fn end_of_statement(tokens: &[TokenTree], from: usize) -> usize {
    let is_end = |token: &TokenTree| matches!(token, TokenTree::Punct(mark) if mark.as_char() == ';');
    let end = tokens[from..].iter().position(is_end);
    from + end.expect("an import ends with a semicolon")
}

/// The sets of files that all reach one another.
fn circles(arrows: &BTreeMap<String, BTreeSet<String>>) -> BTreeSet<BTreeSet<String>> {
    let reached = |from: &String| {
        let mut found: BTreeSet<&String> = BTreeSet::new();
        let mut next: Vec<&String> = arrows[from].iter().collect();
        while let Some(file) = next.pop() {
            if found.insert(file) {
                next.extend(&arrows[file]);
            }
        }
        found
    };
    let reach: BTreeMap<&String, BTreeSet<&String>> =
        arrows.keys().map(|file| (file, reached(file))).collect();
    let circle_of = |file: &&String| {
        let together = reach[*file].iter().filter(|other| reach[**other].contains(*file));
        together.map(|other| (*other).clone()).collect::<BTreeSet<_>>()
    };
    arrows
        .keys()
        .map(|file| circle_of(&file))
        .filter(|circle| circle.len() > 1)
        .collect()
}

/// A circle with the arrows in it.
fn shown(name: &str, circle: &BTreeSet<String>, arrows: &BTreeMap<String, BTreeSet<String>>) -> String {
    let lines = circle.iter().map(|file| {
        let inside: Vec<&str> = arrows[file].intersection(circle).map(String::as_str).collect();
        format!("    {file} -> {}", inside.join(", "))
    });
    format!("{name}:\n{}", lines.collect::<Vec<_>>().join("\n"))
}

/// The sources of every crate, by their paths below `src`.
fn crates() -> BTreeMap<String, BTreeMap<String, String>> {
    let folder = root().join("crates");
    let mut crates: BTreeMap<String, BTreeMap<String, String>> = BTreeMap::new();
    for path in files() {
        let Ok(inside) = path.strip_prefix(&folder) else {
            continue;
        };
        let parts: Vec<String> = inside
            .iter()
            .map(|part| part.to_string_lossy().into_owned())
            .collect();
        if parts.get(1).is_some_and(|part| part == "src") && inside.extension().is_some_and(|e| e == "rs") {
            let source = std::fs::read_to_string(&path).expect("a source");
            crates
                .entry(parts[0].clone())
                .or_default()
                .insert(parts[2..].join("/"), source);
        }
    }
    crates
}

#[test]
fn files_of_a_crate_use_one_another_in_one_direction() {
    let mut told = Vec::new();
    let mut seen = 0;
    for (name, sources) in crates() {
        let mut unread: BTreeSet<&str> = sources.keys().map(String::as_str).collect();
        for root in ["lib.rs", "main.rs"]
            .into_iter()
            .filter(|root| sources.contains_key(*root))
        {
            let modules = Modules::read(&sources, root);
            let arrows = modules.arrows();
            seen += arrows.values().map(BTreeSet::len).sum::<usize>();
            unread.retain(|file| !arrows.contains_key(*file) && !modules.is_of_tests(file));
            for circle in circles(&arrows) {
                told.push(shown(&name, &circle, &arrows));
            }
        }
        assert!(unread.is_empty(), "no module of {name} is in {unread:?}");
    }
    assert!(told.is_empty(), "circles between files:\n{}", told.join("\n"));
    assert!(seen > 300, "only {seen} arrows were found");
}

/// The arrows between some small files, `a.rs` being declared in `lib.rs` and so on.
fn arrows_of(sources: &[(&str, &str)]) -> Vec<String> {
    let sources = sources
        .iter()
        .map(|(file, source)| ((*file).to_owned(), (*source).to_owned()));
    let arrows = Modules::read(&sources.collect(), "lib.rs").arrows();
    let mut all: Vec<String> = Vec::new();
    for (from, targets) in &arrows {
        let name = |file: &str| file.trim_end_matches(".rs").to_owned();
        all.extend(targets.iter().map(|to| format!("{}>{}", name(from), name(to))));
    }
    all
}

#[test]
fn arrows_between_files_are_recognised() {
    let check = |root: &str, a: &str, expected: &[&str]| {
        let b = "pub fn f() {}\npub mod c;";
        let found = arrows_of(&[
            ("lib.rs", root),
            ("a.rs", a),
            ("b.rs", b),
            ("b/c.rs", "pub fn g() {}"),
        ]);
        assert_eq!(found, expected, "{root} | {a}");
    };
    let plain = "mod a; mod b;";
    check(plain, "use crate::b::f;", &["a>b"]);
    check(plain, "use super::{b::{self, c::g as h}};", &["a>b", "a>b/c"]);
    check(plain, "fn x() { crate::b::c::g() }", &["a>b/c"]);
    check(plain, "fn x() { println!(\"{}\", super::b::f()) }", &["a>b"]);
    check(plain, "mod inner { fn x() { super::super::b::f() } }", &["a>b"]);
    check(plain, "use crate::b::*;", &["a>b"]);
    check(
        plain,
        "// crate::b::f()\n/* use super::b; */ /// [`crate::b`]\nfn x() {}",
        &[],
    );
    check(
        plain,
        "const X: &str = \"crate::b::f()\"; const Y: &str = r#\"use super::b;\"#;",
        &[],
    );
    check(plain, "#[cfg(test)] mod tests { use crate::b::f; }", &[]);
    check(plain, "#[cfg(test)] use crate::b::{f, c}; fn x() {}", &[]);
    check(plain, "use b::f; use ::b::c; use std::b;", &[]);
    check(plain, "fn x() -> impl Sized + use<> { crate::b::f() }", &["a>b"]);
    check("mod a; mod b; pub use b::f;", "use crate::f;", &["a>b"]);
    check(
        "mod a; mod b; use b::c as d;",
        "fn x() { super::d::g() }",
        &["a>b/c", "lib>b/c"],
    );
    check("mod a; mod b; pub use b::*;", "use crate::f;", &["a>b", "lib>b"]);
    check("mod a; mod b; pub use b::f; fn y() { f() }", "", &["lib>b"]);
    check("mod a; mod b; fn y() {}", "use super::y;", &["a>lib"]);
    check(
        "mod a; mod b; fn y() { a::x() }",
        "use super::y;",
        &["a>lib", "lib>a"],
    );
}

#[test]
fn circles_are_recognised() {
    let check = |arrows: &[(&str, &[&str])], expected: &[&[&str]]| {
        let set = |files: &[&str]| {
            files
                .iter()
                .map(|file| (*file).to_owned())
                .collect::<BTreeSet<_>>()
        };
        let arrows = arrows
            .iter()
            .map(|(from, to)| ((*from).to_owned(), set(to)))
            .collect();
        let expected: BTreeSet<BTreeSet<String>> = expected.iter().map(|circle| set(circle)).collect();
        assert_eq!(circles(&arrows), expected);
    };
    check(&[("a", &["b", "c"]), ("b", &["c"]), ("c", &[])], &[]);
    check(&[("a", &["b"]), ("b", &["a", "c"]), ("c", &[])], &[&["a", "b"]]);
    check(
        &[("a", &["b"]), ("b", &["c"]), ("c", &["a"]), ("d", &["a"])],
        &[&["a", "b", "c"]],
    );
    check(
        &[("a", &["b"]), ("b", &["a", "c"]), ("c", &["d"]), ("d", &["c"])],
        &[&["a", "b"], &["c", "d"]],
    );
}
