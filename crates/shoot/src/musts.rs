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
    ("fill", &[WishKind::Fill]),
    ("zone", &[WishKind::Zone]),
    ("in_hand", &[WishKind::Power]),
    ("recycle", &[WishKind::Recycle]),
];

/// Of these the ask must say what is wished before it can be a must.
const ASKED_FIRST: [&str; 7] = [
    "ratio",
    "colour",
    "background",
    "ambient",
    "fill",
    "zone",
    "recycle",
];

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

#[cfg(test)]
mod tests {
    use crate::reading::parse_set_up;
    use answer::WishKind;

    /// A shoot with this line in its ask.
    fn shoot(line: &str) -> String {
        format!(
            "[place]\nroom = \"4 x 6 x 2.6 m\"\n[camera]\nfrom_left = \"2 m\"\nfrom_behind = \"1.5 m\"\n[[sitter]]\n\
             from_left = \"2 m\"\nfrom_behind = \"3.5 m\"\n[bag.flash]\nkind = \"medium\"\n[ask]\nratio = \"3:1\"\n{line}\n"
        )
    }

    #[test]
    fn wishes_are_marked_by_the_keys_that_ask_for_them() {
        let check = |line: &str, expected: &[WishKind]| {
            let read = parse_set_up("test", &shoot(line), 0).expect("a complete file");
            assert_eq!(read.job.ask.musts, expected, "{line}");
        };
        check("", &[]);
        check("must = \"ratio\"", &[WishKind::Ratio]);
        check(
            "must = [\"Ratio\", \"key\"]",
            &[WishKind::Ratio, WishKind::Direction, WishKind::Height],
        );
    }

    #[test]
    fn what_cannot_be_a_must_is_refused() {
        let check = |line: &str| assert!(parse_set_up("test", &shoot(line), 0).is_err(), "{line}");
        check("must = [\"beauty\"]");
        check("must = 3");
        check("must = [3]");
        // Nothing is asked of the background.
        check("must = [\"background\"]");
    }
}
