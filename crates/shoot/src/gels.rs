//! The gels of the bag.

use super::camera::inner;
use super::parts::BAG_GEL;
use super::problem::Problem;
use super::quoting::shown;
use super::section::{Entry, Section};
use light::{Gel, GelFamily};
use std::path::{Component, Path};
use toml::de::DeValue;

/// A set of gels has some dozen sheets; of more than this every pair takes long to try (ours).
const MOST_GELS: usize = 24;
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
    let Some(neighbours) = section.log.neighbours() else {
        entry.refuse(
            "a curve is read from beside the shoot file, and this one is not on disk",
            "cannot be looked for",
            "Save the shoot file first, or use a named gel.",
        );
        return None;
    };
    let content = match neighbours.text(text) {
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
