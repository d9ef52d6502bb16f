//! `must` under `[ask]`: the wishes for which nothing but keeping them will do.

use super::section::{Entry, Section, find_word};
use super::words::{Noun, write_it_like};
use crate::both;
use answer::WishKind;
use toml::de::DeValue;

/// The wishes that can be a must, by the keys that ask for them.
const KINDS: &[(&str, &[WishKind])] = &[
    ("key", &[WishKind::Direction, WishKind::Height]),
    ("height", &[WishKind::Height]),
    ("softness", &[WishKind::Softness]),
    ("eyes", &[WishKind::Eyes]),
    ("ratio", &[WishKind::Ratio]),
    ("skin", &[WishKind::Cast, WishKind::GreenMagenta]),
    ("colour", &[WishKind::SkinColour, WishKind::RoomColour]),
    ("evenness", &[WishKind::Evenness]),
    ("background", &[WishKind::Background]),
    ("ambient", &[WishKind::Ambient]),
    ("zone", &[WishKind::Zone]),
    ("in_hand", &[WishKind::Power]),
    ("recycle", &[WishKind::Recycle]),
];

/// Of these the ask must say what is wished before it can be a must.
const ASKED_FIRST: [&str; 6] = ["ratio", "colour", "background", "ambient", "zone", "recycle"];

/// `must = ["ratio", "key"]`, or one word.
pub(crate) fn read(section: &Section<'_>) -> Option<Vec<WishKind>> {
    let Some(entry) = section.entry("must") else {
        return Some(Vec::new());
    };
    let words: Option<Vec<&str>> = match entry.value {
        DeValue::Array(items) => items.iter().map(|item| item.get_ref().as_str()).collect(),
        other => other.as_str().map(|word| vec![word]),
    };
    let Some(words) = words else {
        entry.refuse(
            both!(
                "must needs the names of wishes in square brackets";
                "zu must gehören die Namen von Wünschen in eckigen Klammern"
            ),
            both!("not such a list"; "keine solche Liste"),
            write_it_like("must = [\"ratio\", \"key\"]"),
        );
        return None;
    };
    let kinds: Vec<Option<&[WishKind]>> = words.iter().map(|word| kind(section, &entry, word)).collect();
    let kinds: Option<Vec<&[WishKind]>> = kinds.into_iter().collect();
    Some(kinds?.concat())
}

fn kind(section: &Section<'_>, entry: &Entry<'_>, word: &str) -> Option<&'static [WishKind]> {
    let Some(kinds) = find_word(word, KINDS) else {
        entry.unknown_word(
            word,
            Noun::ein("a wish", "Wunsch"),
            KINDS.iter().map(|(name, _)| *name),
        );
        return None;
    };
    let (name, _) = KINDS.iter().find(|(_, known)| *known == kinds)?;
    if ASKED_FIRST.contains(name) && section.entry(name).is_none() {
        entry.refuse(
            both!("{} must be kept, but nothing is asked of it", name; "{} muss erfüllt werden, ist aber nicht gewünscht"),
            both!("named here"; "hier genannt"),
            both!("Add  {} = …  to [ask], or take it out of must.", name; "{} = … zu [ask] hinzufügen, oder es aus must nehmen."),
        );
        return None;
    }
    Some(kinds)
}
