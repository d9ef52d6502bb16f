//! Sentences are made in one room. Below it there are data: no file of the crates that compute or hold an answer writes
//! prose, apart from what only a developer reads.
//!
//! The sources are read as the tokens that the compiler reads, so that neither a comment nor a name can look like prose.

#[allow(dead_code)]
mod house;

use house::{files, read, root};
use proc_macro2::{TokenStream, TokenTree};
use std::path::PathBuf;

/// The crates below the wording room that once made sentences, and the one that holds their data.
const WITHOUT_PROSE: [&str; 2] = ["answer", "solver"];

/// What follows one of these is read by a developer: a broken promise of the code.
const FOR_DEVELOPERS: [&str; 8] = [
    "expect",
    "panic",
    "assert",
    "assert_eq",
    "debug_assert",
    "unreachable",
    "error",
    "doc",
];

/// Whether a literal is prose: two words of letters with a space between them.
fn is_prose(literal: &str) -> bool {
    let Some(text) = literal.strip_prefix('"').or_else(|| literal.strip_prefix("r\"")) else {
        return false;
    };
    let word =
        |word: &str| word.len() > 1 && word.chars().all(|c| c.is_alphabetic() || ",.;:!?'".contains(c));
    let words: Vec<&str> = text.trim_end_matches('"').split(' ').collect();
    words.windows(2).any(|pair| word(pair[0]) && word(pair[1]))
}

/// The prose of some tokens, apart from that of tests and for developers.
fn prose(tokens: TokenStream, found: &mut Vec<String>) {
    let tokens: Vec<TokenTree> = tokens.into_iter().collect();
    let mut i = 0;
    while i < tokens.len() {
        if is_test_attribute(&tokens[i..]) {
            // What an attribute of tests stands before ends with its first block.
            let block = tokens[i..].iter().position(is_block);
            i += block.map_or(tokens.len(), |at| at + 1);
            continue;
        }
        match &tokens[i] {
            TokenTree::Group(group) if !follows_developers_word(&tokens[..i]) => prose(group.stream(), found),
            TokenTree::Literal(literal) if is_prose(&literal.to_string()) => found.push(literal.to_string()),
            // A comment of documentation is an attribute by now; its text follows a sign of equality.
            TokenTree::Ident(word) if word == "doc" => i += 2,
            _ => {}
        }
        i += 1;
    }
}

fn is_block(token: &TokenTree) -> bool {
    matches!(token, TokenTree::Group(group) if group.delimiter() == proc_macro2::Delimiter::Brace)
}

/// Whether `#[cfg(test)]` begins here.
fn is_test_attribute(tokens: &[TokenTree]) -> bool {
    let [TokenTree::Punct(hash), TokenTree::Group(attribute), ..] = tokens else {
        return false;
    };
    hash.as_char() == '#' && attribute.stream().to_string().replace(' ', "") == "cfg(test)"
}

/// Whether the last word before a group is one after which only developers read.
fn follows_developers_word(before: &[TokenTree]) -> bool {
    let word = before.iter().rev().find_map(|token| match token {
        TokenTree::Ident(word) => Some(Some(word.to_string())),
        TokenTree::Punct(sign) if sign.as_char() == '!' => None,
        _ => Some(None),
    });
    matches!(word, Some(Some(word)) if FOR_DEVELOPERS.contains(&word.as_str()))
}

fn prose_of(source: &str) -> Vec<String> {
    let mut found = Vec::new();
    prose(source.parse().expect("source code"), &mut found);
    found
}

#[test]
fn no_sentence_is_made_below_the_wording_room() {
    for name in WITHOUT_PROSE {
        let mut wrong = Vec::new();
        let folder = root().join(format!("crates/{name}/src"));
        let is_source = |file: &PathBuf| {
            // Trials are tests in files of their own.
            let of_trials = file.components().any(|part| part.as_os_str() == "trials");
            file.starts_with(&folder)
                && file.extension().is_some_and(|end| end == "rs")
                && !(of_trials || file.ends_with("trials.rs"))
        };
        let sources: Vec<PathBuf> = files().into_iter().filter(is_source).collect();
        assert!(sources.len() > 10, "{name} has files");
        for file in sources {
            let path = file.strip_prefix(root()).unwrap_or(&file).display().to_string();
            for sentence in prose_of(&read(&path)) {
                wrong.push(format!("{path}: {sentence}"));
            }
        }
        assert!(wrong.is_empty(), "prose in {name}:\n  {}", wrong.join("\n  "));
    }
}

#[test]
fn prose_is_told_from_what_is_none() {
    let check = |source: &str, expected: usize| assert_eq!(prose_of(source).len(), expected, "{source}");
    check(r#"fn f() -> String { format!("turn the head {side}") }"#, 1);
    check(r#"const WORDS: &[&str] = &["a held board", "ceiling"];"#, 1);
    check(r#"fn f() { notes.push("Mind the eyes.".to_owned()); }"#, 1);
    check(r#"fn f() { found.expect("at least two were asked about"); }"#, 0);
    check(r#"fn f() { assert!(ok, "the sum is whole"); }"#, 0);
    check(r#"#[doc = "A held board."] struct Board;"#, 0);
    check("/// A held board.\nstruct Board;", 0);
    check(r#"#[error("No such thing")] struct Failure;"#, 0);
    check(
        r#"#[cfg(test)] mod tests { const NAME: &str = "a held board"; }"#,
        0,
    );
    check(r#"const UNIT: &str = "snake_case";"#, 0);
}
