//! The gels of the bag.

use super::camera::inner;
use super::lower_errors;
use super::parts::BAG_GEL;
use super::problem::Problem;
use super::quoting::shown;
use super::section::{Entry, Section};
use super::words::{Noun, write_it_like};
use crate::both;
use light::{Gel, GelFamily};
use std::path::{Component, Path};
use toml::de::DeValue;

/// A set of gels has some dozen sheets; of more than this every pair takes long to try (ours).
const MOST_GELS: usize = 24;
const FAMILIES: &[(&str, GelFamily)] = &[("straw", GelFamily::Straw), ("amber", GelFamily::Amber)];

/// The gels of a bag and the family that they are spoken of in.
pub(crate) fn read(bag: &Section<'_>) -> Option<(Vec<Gel>, GelFamily)> {
    let said = bag.entry("gel_family").map(|entry| {
        entry
            .word(Noun::eine("a family of gels", "Folienfamilie"), FAMILIES)
            .map(|said| said.value)
    });
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
            Problem::new(both!("more than {MOST_GELS} gels"; "mehr als {MOST_GELS} Folien"))
                .at(bag.span.clone(), both!("in this bag"; "in dieser Tasche"))
                .help(both!("Keep those that you would use."; "Die behalten, die zum Einsatz kämen.")),
        );
        return None;
    }
    Some((gels, family.unwrap_or(GelFamily::Straw)))
}

/// `["1/2 CTO", "full CTB"]`.
fn named(entry: &Entry<'_>, family: Option<GelFamily>) -> Option<Vec<Gel>> {
    let DeValue::Array(items) = entry.value else {
        entry.refuse(
            both!("gels needs a list in square brackets"; "zu gels gehört eine Liste in eckigen Klammern"),
            both!("not a list"; "keine Liste"),
            write_it_like("gels = [\"1/2 CTO\", \"1/4 plus green\"]"),
        );
        return None;
    };
    let catalogue = Gel::catalogue(family.unwrap_or(GelFamily::Straw));
    let mut gels: Vec<Gel> = Vec::new();
    for item in items {
        let one = entry.item(item);
        let text = one.text(
            both!("names of gels in quotes"; "eine Liste von Foliennamen in Anführungszeichen"),
            "[\"1/2 CTO\", \"1/4 plus green\"]",
        )?;
        let Some(gel) = catalogue.iter().find(|gel| gel.is_called(text)) else {
            refuse_gel(&one, text, family, catalogue);
            return None;
        };
        if gels.iter().any(|known| known.name() == gel.name()) {
            one.refuse(
                both!("{} is in the list twice", gel.name(); "{} steht zweimal in der Liste"),
                both!("again"; "noch einmal"),
                both!(
                    "One is enough: two different gels can lie on top of one another, the same one does not.";
                    "Eine genügt: Zwei verschiedene Folien können übereinanderliegen, dieselbe nicht."
                ),
            );
            return None;
        }
        gels.push(gel.clone());
    }
    if family.is_none() && gels.iter().any(|gel| gel.name().ends_with("CTO")) {
        entry.log.warn(
            &entry.key_span,
            both!(
                "gel_family not said, so the warm gels are taken as straw (full +167, 1/2 +81 mired); the other common family is amber (full +159, 1/2 +109)";
                "gel_family nicht genannt, darum gelten die warmen Folien als straw (full +167, 1/2 +81 Mired); die andere übliche Familie ist amber (full +159, 1/2 +109)"
            ),
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
            both!("the {family} family has no {}", shown(text); "die Familie {family} hat kein {}"),
            both!("not in this family"; "nicht in dieser Familie"),
            both!(
                "It is in the {other} family; the fractions of the two are not the same gels.";
                "In der Familie {other} gibt es sie; die Bruchteile der beiden sind nicht dieselben Folien."
            ),
        ),
        _ => entry.unknown_word(text, Noun::eine("a gel", "Folie"), names),
    }
}

/// `[[bag.gel]]`: a gel by its measured curve, in a file beside the shoot file.
fn measured(section: &Section<'_>) -> Option<Gel> {
    let name = section.name("own gel");
    let entry = section.need("curve", "\"my-gel.csv\"")?;
    let text = entry.text(
        both!("the name of a file in quotes"; "ein Dateiname in Anführungszeichen"),
        "\"my-gel.csv\"",
    )?;
    let path = Path::new(text);
    let beside =
        path.components().count() == 1 && path.components().all(|part| matches!(part, Component::Normal(_)));
    if !beside {
        entry.refuse(
            both!("{} is not a file beside this one", shown(text); "{} ist keine Datei neben dieser"),
            both!("only a name belongs here"; "hierher gehört nur ein Name"),
            both!(
                "Put the curve into the folder of the shoot file, and write its name alone.";
                "Die Kurve in den Ordner der Auftragsdatei legen, und nur ihren Namen schreiben."
            ),
        );
        return None;
    }
    let Some(neighbours) = section.log.neighbours() else {
        entry.refuse(
            both!(
                "a curve is read from beside the shoot file, and this one is not on disk";
                "eine Kurve wird neben der Auftragsdatei gesucht, und diese liegt auf keinem Datenträger"
            ),
            both!("cannot be looked for"; "lässt sich nicht suchen"),
            both!(
                "Save the shoot file first, or use a named gel.";
                "Erst die Auftragsdatei speichern, oder eine benannte Folie nehmen."
            ),
        );
        return None;
    };
    let content = match neighbours.text(text) {
        Ok(content) => content,
        Err(reason) => {
            entry.refuse(
                both!("the curve {} could not be read: {}", shown(text), reason.words(); "die Kurve {} war nicht zu lesen: {}"),
                both!("this file"; "diese Datei"),
                both!(
                    "Put the curve into the folder of the shoot file: a line for each wavelength, such as  550,0.83";
                    "Die Kurve in den Ordner der Auftragsdatei legen: für jede Wellenlänge eine Zeile, etwa  550,0.83"
                ),
            );
            return None;
        }
    };
    match Gel::from_table(&name.value, &content) {
        Ok(gel) => Some(gel),
        Err(error) => {
            let (fault, remedy) = lower_errors::gel_curve(&error.fault);
            entry.refuse(
                both!("{}, line {}: {}", shown(text), error.line, fault; "{}, Zeile {}: {}"),
                both!("this curve cannot be a gel"; "diese Kurve kann keine Folie sein"),
                remedy,
            );
            None
        }
    }
}
