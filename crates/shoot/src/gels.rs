//! The gels of the bag, and what is asked of the colour: `colour`, `gel` and `tint` under `[ask]`.

use super::bag::BagRead;
use super::camera::inner;
use super::nearest::{nearest, plain};
use super::parts::BAG_GEL;
use super::problem::Problem;
use super::section::{Entry, Said, Section};
use super::text::bounded;
use super::written::shown;
use colour::{MOST_TINT_STEPS, TINT_STEP_DUV};
use light::{Gel, GelFamily};
use solver::{ColourWish, GelWish};
use std::fs::File;
use std::path::{Component, Path};
use toml::de::DeValue;
use units::{Duv, MiredShift};

/// A set of gels has some dozen sheets; of more than this every pair takes long to try (ours).
const MOST_GELS: usize = 24;
/// Shifts that can be asked for, in mired: the first is what a careful eye sees, the last is beyond the
/// strongest gel (ours).
const SHIFTS: (f64, f64) = (5.0, 200.0);
/// How far "ambient blue" goes when it is not said: about a half blue gel (ours), in mired.
const USUAL_SHIFT: f64 = 80.0;

const FAMILIES: &[(&str, GelFamily)] = &[("straw", GelFamily::Straw), ("amber", GelFamily::Amber)];

/// The gels of a bag and the family that they are spoken of in.
pub(crate) fn read(bag: &Section<'_>) -> Option<(Vec<Gel>, GelFamily)> {
    let said = bag
        .entry("gel_family")
        .map(|entry| entry.word("a family of gels", FAMILIES).map(|said| said.value));
    let family = inner(said)?;
    let own: Vec<Option<Gel>> = bag
        .parts("gel", &BAG_GEL)
        .iter()
        .map(|part| {
            part.close(super::parts::ALL);
            measured(part)
        })
        .collect();
    let named = match bag.entry("gels") {
        Some(entry) => named(&entry, family),
        None => Some(Vec::new()),
    };
    let mut gels = named?;
    gels.extend(own.into_iter().collect::<Option<Vec<_>>>()?);
    if gels.len() > MOST_GELS {
        bag.log.problem(
            Problem::new(format!("more than {MOST_GELS} gels"))
                .at(bag.span.clone(), "in this bag")
                .help("Keep those that you would use."),
        );
        return None;
    }
    Some((gels, family.unwrap_or(GelFamily::Straw)))
}

/// `["1/2 CTO", "full CTB"]`.
fn named(entry: &Entry<'_>, family: Option<GelFamily>) -> Option<Vec<Gel>> {
    let DeValue::Array(items) = entry.value else {
        entry.refuse(
            "gels needs a list in square brackets",
            "not a list",
            "Write it like:  gels = [\"1/2 CTO\", \"1/4 plus green\"]",
        );
        return None;
    };
    let catalogue = Gel::catalogue(family.unwrap_or(GelFamily::Straw));
    let mut gels: Vec<Gel> = Vec::new();
    for item in items {
        let one = entry.item(item);
        let text = one.text("names of gels in quotes", "[\"1/2 CTO\", \"1/4 plus green\"]")?;
        let Some(gel) = catalogue.iter().find(|gel| gel.is_called(text)) else {
            refuse_gel(&one, text, family, catalogue);
            return None;
        };
        if gels.iter().any(|known| known.name() == gel.name()) {
            one.refuse(
                &format!("{} is in the list twice", gel.name()),
                "again",
                "One is enough: two different gels can lie on top of one another, the same one does not.",
            );
            return None;
        }
        gels.push(gel.clone());
    }
    if family.is_none() && gels.iter().any(|gel| gel.name().ends_with("CTO")) {
        entry.log.warn(
            &entry.key_span,
            "gel_family not said, so the warm gels are taken as straw (full +167, 1/2 +81 mired); the other common family is amber (full +159, 1/2 +109)",
        );
    }
    Some(gels)
}

fn refuse_gel(entry: &Entry<'_>, text: &str, family: Option<GelFamily>, catalogue: &[Gel]) {
    let other = GelFamily::ALL
        .into_iter()
        .filter(|other| Some(*other) != family)
        .find(|other| Gel::named(text, *other).is_ok());
    let names = catalogue.iter().map(Gel::name);
    match (other, family) {
        (Some(other), Some(family)) => entry.refuse(
            &format!("the {family} family has no {}", shown(text)),
            "not in this family",
            &format!("It is in the {other} family; the fractions of the two are not the same gels."),
        ),
        _ => entry.unknown_word(text, "a gel", names),
    }
}

/// `[[bag.gel]]`: a gel by its measured curve, in a file beside the shoot file.
fn measured(section: &Section<'_>) -> Option<Gel> {
    let name = section.name("own gel");
    let entry = section.need("curve", "\"my-gel.csv\"")?;
    let text = entry.text("the name of a file in quotes", "\"my-gel.csv\"")?;
    let path = Path::new(text);
    let beside =
        path.components().count() == 1 && path.components().all(|part| matches!(part, Component::Normal(_)));
    if !beside {
        entry.refuse(
            &format!("{} is not a file beside this one", shown(text)),
            "only a name belongs here",
            "Put the curve into the folder of the shoot file, and write its name alone.",
        );
        return None;
    }
    let Some(folder) = section.log.folder() else {
        entry.refuse(
            "a curve is read from beside the shoot file, and this one is not on disk",
            "cannot be looked for",
            "Save the shoot file first, or use a named gel.",
        );
        return None;
    };
    let content = match contents(&folder.join(path)) {
        Ok(content) => content,
        Err(reason) => {
            entry.refuse(
                &format!("the curve {} could not be read: {reason}", shown(text)),
                "this file",
                "Put the curve into the folder of the shoot file: a line for each wavelength, such as  550,0.83",
            );
            return None;
        }
    };
    match Gel::from_table(&name.value, &content) {
        Ok(gel) => Some(gel),
        Err(error) => {
            entry.refuse(
                &format!("{}, line {}: {}", shown(text), error.line, error.reason),
                "this curve cannot be a gel",
                &error.remedy,
            );
            None
        }
    }
}

fn contents(path: &Path) -> Result<String, String> {
    let file = File::open(path).map_err(|error| match error.kind() {
        std::io::ErrorKind::NotFound => "there is no such file".to_owned(),
        _ => error.to_string(),
    })?;
    let bytes = bounded(file)
        .map_err(|error| error.to_string())?
        .ok_or("it is larger than 1 MB")?;
    String::from_utf8(bytes).map_err(|_| "it is not a text".to_owned())
}

/// What is asked of the colour.
pub(crate) struct ColourAsked {
    pub colour: Option<ColourWish>,
    pub gel: GelWish,
    pub tint: Option<Duv>,
}

/// Reads all of them, so that every mistake is told; `None` if one was refused.
pub(crate) fn asked(ask: &Section<'_>, bag: Option<&BagRead>, other_light: bool) -> Option<ColourAsked> {
    let colour = ask.entry("colour").map(|entry| colour(&entry, other_light));
    let gel = ask.entry("gel").map(|entry| insisted(&entry, bag?));
    let tint = ask.entry("tint").map(|entry| tint(&entry));
    let (colour, gel, tint) = (inner(colour)?, inner(gel)?, inner(tint)?);
    contradictions(ask, colour.as_ref(), gel.as_ref())?;
    Some(ColourAsked {
        colour: colour.map(|said| said.value),
        gel: gel.unwrap_or_default(),
        tint,
    })
}

fn contradictions(ask: &Section<'_>, colour: Option<&Said<ColourWish>>, gel: Option<&GelWish>) -> Option<()> {
    let Some(Said { value: wish, span }) = colour else {
        return Some(());
    };
    let span = span.clone();
    if let (Some(skin), true) = (ask.entry("skin"), wish.skin.value() != 0.0)
        && skin.value.as_str().is_some_and(|text| plain(text) == "neutral")
    {
        ask.log.problem(
            Problem::new("skin cannot be neutral and not neutral at once")
                .at(skin.span, "neutral")
                .at(span, "not neutral")
                .help("Leave skin out; walls are kept from colouring it all the same."),
        );
        return None;
    }
    let fixed = ask.entry("white_balance").zip(ask.entry("gel"));
    if let (Some((balance, gel_entry)), Some(_)) = (fixed, gel) {
        ask.log.problem(
            Problem::new("gel and white_balance are both fixed, so nothing is left to choose for the colour")
                .at(span, "the wish")
                .at(gel_entry.span, "fixed")
                .at(balance.span, "fixed")
                .help("Leave one of the three lines out."),
        );
        return None;
    }
    Some(())
}

/// A wish: `"neutral"`, `"match the lamps"`, `"skin warm by 35 mired"`, `"room warm by 40 mired"`, `"ambient blue"`.
fn colour(entry: &Entry<'_>, other_light: bool) -> Option<Said<ColourWish>> {
    const EXAMPLES: [&str; 5] = [
        "neutral",
        "match the lamps",
        "skin warm by 35 mired",
        "room warm by 40 mired",
        "ambient blue",
    ];
    let text = entry.text("a wish for the colour in quotes", "\"neutral\"")?;
    let said = |value| {
        Some(Said {
            value,
            span: entry.span.clone(),
        })
    };
    let words = plain(text);
    let wish = match words.as_str() {
        "neutral" => {
            return said(ColourWish {
                room: Some(MiredShift(0.0)),
                ..ColourWish::default()
            });
        }
        "match the lamps" | "match lamps" => Some(ColourWish {
            room: Some(MiredShift(0.0)),
            match_lamps: true,
            ..ColourWish::default()
        }),
        _ => shifted(entry, &words)?,
    };
    let Some(wish) = wish else {
        let meant = nearest(text, EXAMPLES);
        let meant = meant.map_or_else(String::new, |meant| format!("Did you mean \"{meant}\"? "));
        entry.refuse(
            &format!("{} is not a wish for the colour", shown(text)),
            "not known",
            &format!("{meant}Write one of: {}.", EXAMPLES.join(", ")),
        );
        return None;
    };
    if wish.room.is_some() && !other_light {
        entry.refuse(
            "there is no light but the flash, so the room cannot have another colour",
            "no [[ambient]] is described",
            "Describe the light that is there under [[ambient]], or write  colour = \"neutral\"",
        );
        return None;
    }
    said(wish)
}

/// `"room warm by 40 mired"`; the outer `None` when it was refused.
fn shifted(entry: &Entry<'_>, words: &str) -> Option<Option<ColourWish>> {
    let (head, amount) = match words.split_once(" by ") {
        Some((head, amount)) => (head, Some(amount)),
        None => (words, None),
    };
    let Some((what, side)) = head.split_once(' ') else {
        return Some(None);
    };
    let sign = match side {
        "warm" | "warmer" | "golden" | "orange" => 1.0,
        "blue" | "bluer" | "cool" | "cooler" | "cold" => -1.0,
        _ => return Some(None),
    };
    let amount = match amount {
        None => USUAL_SHIFT,
        // It has a side already, so it has no sign.
        Some(amount) => match format!("+{amount}").parse::<MiredShift>() {
            Ok(shift) if (SHIFTS.0..=SHIFTS.1).contains(&shift.value()) => shift.value(),
            _ => {
                entry.refuse(
                    &format!("{} is not an amount that can be asked for", shown(amount)),
                    &format!("from {} to {} mired can be used", SHIFTS.0, SHIFTS.1),
                    &format!("Write it like:  colour = \"{head} by 40 mired\""),
                );
                return None;
            }
        },
    };
    let shift = MiredShift(sign * amount);
    Some(match what {
        "skin" | "face" => Some(ColourWish {
            skin: shift,
            ..ColourWish::default()
        }),
        "room" | "ambient" | "background" => Some(ColourWish {
            room: Some(shift),
            ..ColourWish::default()
        }),
        _ => None,
    })
}

/// `"1/2 CTO"`, `"1/2 CTO + 1/4 plus green"` or `"none"`.
fn insisted(entry: &Entry<'_>, bag: &BagRead) -> Option<GelWish> {
    let text = entry.text("a gel in quotes", "\"1/2 CTO\"")?;
    if matches!(plain(text).as_str(), "none" | "no" | "no gel") {
        return Some(GelWish::None);
    }
    let parts: Vec<&str> = text.split(" + ").map(str::trim).collect();
    if parts.len() > 2 {
        entry.refuse(
            "more than two gels on top of one another",
            "two at most",
            "Three sheets eat the light and melt; choose a stronger pair.",
        );
        return None;
    }
    let gels = &bag.bag.gels;
    let mut layers: Vec<Gel> = Vec::new();
    for part in parts {
        let Some(gel) = gels.iter().find(|gel| gel.is_called(part)) else {
            if gels.is_empty() {
                entry.refuse(
                    &format!("there is no {} in the bag", shown(part)),
                    "the bag has no gels",
                    &format!("Add under [bag]:  gels = [\"{part}\"]"),
                );
            } else {
                entry.unknown_word(part, "a gel of the bag", gels.iter().map(Gel::name));
            }
            return None;
        };
        layers.push(gel.clone());
    }
    let worn = layers.into_iter().reduce(|below, above| below.with(&above));
    worn.map(GelWish::This)
}

/// `"M5"` or `"G2"` as on the camera, `"0"`, or `"Duv +0.010"` of the light that becomes neutral.
fn tint(entry: &Entry<'_>) -> Option<Duv> {
    let text = entry.text("a tint in quotes", "\"M2\"")?;
    let word = text.trim().to_lowercase();
    if word == "0" {
        return Some(Duv(0.0));
    }
    let sign = match word.chars().next() {
        Some('m') => 1.0,
        Some('g') => -1.0,
        _ => return entry.quantity::<Duv>().map(|said| said.value),
    };
    let letters = |c: char| c.is_alphabetic() || c.is_whitespace();
    let steps = word.trim_start_matches(letters).parse::<i32>();
    match steps {
        Ok(steps) if (0..=MOST_TINT_STEPS).contains(&steps) => {
            Some(Duv(sign * f64::from(steps) * TINT_STEP_DUV))
        }
        _ => {
            entry.refuse(
                &format!("{} is not a tint", shown(text)),
                &format!("from M{MOST_TINT_STEPS} to G{MOST_TINT_STEPS} can be used"),
                "Write \"M3\" for three steps towards magenta, \"G3\" towards green, or leave it out.",
            );
            None
        }
    }
}
