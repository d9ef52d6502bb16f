//! What a wall, a board or a cupboard is made of: a known name, or reflectances.

use super::nearest::{nearest, plain};
use super::parts::SURFACE;
use super::problem::Problem;
use super::quoting::shown;
use super::section::{Entry, Section, number_of};
use super::words::{Noun, did_you_mean, write_it_like};
use crate::both;
use colour::{Reflectance, surfaces, upsample};
use scene::Material;
use toml::de::DeValue;

/// Everyday names for surfaces that are known under another.
const OTHER_NAMES: &[(&str, &str)] = &[
    ("white", "white paint"),
    ("white wall", "white paint"),
    ("bright white paint", "fresh white paint"),
    ("white board", "white card"),
    ("foam board", "white card"),
    ("polystyrene", "white card"),
    ("v flat", "white card"),
    ("white cloth", "white card"),
    ("white sheet", "white card"),
    ("tiles", "white tiles"),
    ("cream paint", "cream"),
    ("magnolia paint", "magnolia"),
    ("yellow", "pale yellow"),
    ("pale yellow paint", "pale yellow"),
    ("mint paint", "mint"),
    ("green", "deep green"),
    ("blue grey paint", "blue-grey"),
    ("light grey paint", "light grey"),
    ("grey", "mid grey"),
    ("grey paint", "mid grey"),
    ("gray", "mid grey"),
    ("dark grey paint", "dark grey"),
    ("black", "black paint"),
    ("red brick", "brick"),
    ("bricks", "brick"),
    ("wood", "wood floor"),
    ("wooden floor", "wood floor"),
    ("parquet", "oak"),
    ("furniture", "bookshelf"),
    ("shelf", "bookshelf"),
    ("shelves", "bookshelf"),
    ("books", "bookshelf"),
    ("curtains", "curtain"),
    ("carpet", "carpet grey"),
    ("grey carpet", "carpet grey"),
    ("beige carpet", "carpet beige"),
    ("lino", "linoleum"),
    ("black board", "black cloth"),
    ("flag", "black cloth"),
];

/// More than this comes back from no surface that a photographer meets (ours).
const MOST: f64 = 0.98;

/// A surface known by name.
///
/// # Panics
/// With a name that is not in the lists; only names that a test has tried are passed.
pub(crate) fn known(name: &str) -> Material {
    find(name).expect("a built-in surface")
}

pub(crate) fn find(name: &str) -> Option<Material> {
    let wanted = plain(name);
    let known = OTHER_NAMES
        .iter()
        .find(|(other, _)| *other == wanted)
        .map_or(name, |(_, known)| *known);
    Some(Material::matt(name.trim(), surfaces::named(known)?.into()))
}

/// What was written for a surface; says what is wrong with it otherwise.
pub(crate) fn read(entry: &Entry<'_>) -> Option<Material> {
    match entry.value {
        DeValue::String(text) => find(text).or_else(|| {
            refuse_name(entry, text);
            None
        }),
        DeValue::Table(_) => from_table(&Section::inline(entry, &SURFACE)?, entry),
        _ => {
            entry.refuse(
                both!("\"{}\" needs a surface", entry.key; "zu \"{}\" gehört eine Oberfläche"),
                both!("not a surface"; "keine Oberfläche"),
                both!(
                    "Name it, as in  {0} = \"white paint\", or say how much light comes back:  {0} = {{ name = \"wallpaper\", reflectance = 0.4 }}", entry.key;
                    "Sie nennen, etwa  {0} = \"white paint\", oder sagen, wie viel Licht zurückkommt:  {0} = {{ name = \"wallpaper\", reflectance = 0.4 }}"
                ),
            );
            None
        }
    }
}

/// What is said under a key, or the usual surface where nothing is said.
pub(crate) fn said_or(section: &Section<'_>, key: &'static str, usual: &str) -> Option<Material> {
    match section.entry(key) {
        Some(entry) => read(&entry),
        None => Some(known(usual)),
    }
}

fn refuse_name(entry: &Entry<'_>, text: &str) {
    let names = surfaces::NAMES
        .into_iter()
        .chain(OTHER_NAMES.iter().map(|(name, _)| *name));
    let meant = match nearest(text, names) {
        Some(meant) => did_you_mean(meant),
        None => both!(
            "Some that are: {}.", ["white paint", "cream", "mid grey", "brick", "pine", "bookshelf"].join(", ");
            "Einige bekannte: {}."
        ),
    };
    entry.refuse(
        both!(
            "{} is not a surface that is known by name", shown(text);
            "{} ist als Oberfläche nicht beim Namen bekannt"
        ),
        both!("not known"; "nicht bekannt"),
        both!(
            "{0} Any other can be described:  {1} = {{ name = \"{2}\", rgb = [0.45, 0.16, 0.12] }}",
            meant,
            entry.key,
            super::quoting::shorten(text).replace('"', "'");
            "{0} Jede andere lässt sich beschreiben:  {1} = {{ name = \"{2}\", rgb = [0.45, 0.16, 0.12] }}"
        ),
    );
}

/// `{ name = "brick", rgb = [0.45, 0.16, 0.12] }` or `{ name = "wallpaper", reflectance = 0.4 }`.
fn from_table(section: &Section<'_>, entry: &Entry<'_>) -> Option<Material> {
    section.close(super::parts::ALL);
    let name = section.name("surface");
    let (rgb, grey) = (section.entry("rgb"), section.entry("reflectance"));
    if let (Some(rgb), Some(grey)) = (&rgb, &grey) {
        section.log.problem(
            Problem::new(both!(
                "a surface has either rgb or reflectance, not both";
                "eine Oberfläche hat entweder rgb oder reflectance, nicht beides"
            ))
            .at(rgb.key_span.clone(), both!("colour"; "Farbe"))
            .at(grey.key_span.clone(), both!("grey"; "Grau"))
            .help(both!(
                "Keep rgb for a coloured surface, reflectance for a grey or white one.";
                "rgb für eine farbige Oberfläche behalten, reflectance für eine graue oder weiße."
            )),
        );
        return None;
    }
    if let Some(entry) = rgb {
        return Some(Material::matt(&name.value, rgb_of(&entry)?.into()));
    }
    if let Some(entry) = grey {
        let value = entry
            .number(
                Noun::ein(
                    "the part of the light that comes back",
                    "Anteil zurückgeworfenen Lichts",
                ),
                0.0,
                MOST,
                "0.4",
            )?
            .value;
        return Some(Material::matt(
            &name.value,
            Reflectance::grey(value as f32).ok()?.into(),
        ));
    }
    if let Some(material) = section.entry("name").and_then(|_| find(&name.value)) {
        return Some(material);
    }
    // A misspelt key was told already.
    if section.unknown_keys().next().is_some() {
        return None;
    }
    entry.refuse(
        both!(
            "this surface does not say how much light comes back";
            "diese Oberfläche sagt nicht, wie viel Licht zurückkommt"
        ),
        both!("neither rgb nor reflectance"; "weder rgb noch reflectance"),
        both!(
            "Add reflectance = 0.4 for a grey of 40 %, or rgb = [0.45, 0.16, 0.12] for red, green and blue.";
            "reflectance = 0.4 für ein Grau von 40 % hinzufügen, oder rgb = [0.45, 0.16, 0.12] für Rot, Grün und Blau."
        ),
    );
    None
}

fn rgb_of(entry: &Entry<'_>) -> Option<Reflectance> {
    let numbers: Option<Vec<f64>> = entry
        .value
        .as_array()
        .map(|list| list.iter().filter_map(|item| number_of(item.get_ref())).collect());
    let written = entry.value.as_array().map_or(0, |list| list.len());
    let triple = numbers
        .filter(|numbers| numbers.len() == written)
        .and_then(|list| <[f64; 3]>::try_from(list).ok());
    let Some(triple) = triple.filter(|triple| triple.iter().all(|part| part.is_finite())) else {
        entry.refuse(
            both!(
                "rgb needs three plain numbers in square brackets";
                "zu rgb gehören drei einfache Zahlen in eckigen Klammern"
            ),
            both!("red, green and blue"; "Rot, Grün und Blau"),
            write_it_like("rgb = [0.45, 0.16, 0.12]"),
        );
        return None;
    };
    if triple.iter().any(|part| !(0.0..=MOST).contains(part)) {
        let picture =
            triple.iter().all(|part| (0.0..=255.0).contains(part)) && triple.iter().any(|part| *part > 1.0);
        let help = if picture {
            let [r, g, b] = triple.map(|part| colour::decode_srgb(part / 255.0));
            both!(
                "If these are values from a picture (0 to 255), the reflectances are about rgb = [{r:.2}, {g:.2}, {b:.2}].";
                "Wenn das Werte aus einem Bild sind (0 bis 255), sind die Reflexionsgrade etwa rgb = [{r:.2}, {g:.2}, {b:.2}]."
            )
        } else {
            both!(
                "0 is black, 0.18 a grey card, about 0.8 white paint; nothing gives back more light than it gets.";
                "0 ist schwarz, 0,18 eine Graukarte, etwa 0,8 weiße Farbe; nichts gibt mehr Licht zurück, als es bekommt."
            )
        };
        entry.refuse(
            both!("rgb says how much of the light comes back"; "rgb sagt, wie viel des Lichts zurückkommt"),
            both!("each number is from 0 to {}", MOST; "jede Zahl geht von 0 bis {}"),
            help,
        );
        return None;
    }
    match upsample::reflectance_from_linear_srgb(triple) {
        Ok(reflectance) => Some(reflectance),
        Err(_) => {
            entry.refuse(
                both!("no real surface has this colour"; "keine wirkliche Oberfläche hat diese Farbe"),
                both!("too pure a colour"; "eine zu reine Farbe"),
                both!(
                    "Bring the three numbers a little nearer to one another.";
                    "Die drei Zahlen einander etwas annähern."
                ),
            );
            None
        }
    }
}

#[cfg(test)]
mod tests {
    use super::{OTHER_NAMES, find};

    #[test]
    fn every_other_name_leads_to_a_surface() {
        for (other, known) in OTHER_NAMES {
            let (a, b) = (find(other).expect(other), find(known).expect(known));
            assert_eq!(a.reflectance, b.reflectance, "{other}");
        }
    }
}
