//! `[[ambient]]`: the light that is there without the flash.

use super::camera::inner;
use super::nearest::plain;
use super::place::{PlaceRead, inline_point};
use super::problem::Problem;
use super::section::{Entry, Said, Section};
use super::written::shown;
use colour::LightColour;
use solver::{Ambient, AmbientFrom, MeterFacing};
use toml::de::DeValue;
use units::{Duv, Ev, Kelvin};

/// Readings that a photographer may meet indoors and out (common practice: candle to full sun on snow).
const READINGS: (f64, f64) = (-6.0, 18.0);

const FACINGS: &[(&str, MeterFacing)] = &[
    ("towards the camera", MeterFacing::Camera),
    ("towards camera", MeterFacing::Camera),
    ("at the camera", MeterFacing::Camera),
    ("camera", MeterFacing::Camera),
    ("towards the light", MeterFacing::Source),
    ("towards light", MeterFacing::Source),
    ("at the light", MeterFacing::Source),
    ("light", MeterFacing::Source),
];

pub(crate) fn read(section: &Section<'_>, place: Option<&PlaceRead>) -> Option<Said<Ambient>> {
    section.close(super::parts::ALL);
    let name = section.name("ambient");
    let reading = section
        .need("reading", "\"EV 5\"")
        .and_then(|entry| reading(&entry));
    let facing = section
        .entry("metered")
        .map_or(Some(MeterFacing::Camera), |entry| {
            entry.word("a way to meter", FACINGS).map(|said| said.value)
        });
    let from = section
        .entry("from")
        .map_or(Some(AmbientFrom::AllRound), |entry| origin(&entry, place));
    let through_opening = matches!(from, Some(AmbientFrom::Opening(_)));
    let colour = light_colour(section, through_opening);
    let ((colour, kelvin), reading) = (colour?, reading?);
    let ambient = Ambient {
        name: name.value,
        reading: reading.value,
        facing: facing?,
        colour,
        kelvin,
        from: from?,
    };
    Some(Said {
        value: ambient,
        span: name.span,
    })
}

fn reading(entry: &Entry<'_>) -> Option<Said<Ev>> {
    let said = entry.quantity::<Ev>()?;
    if !(READINGS.0..=READINGS.1).contains(&said.value.value()) {
        entry.refuse(
            &format!("{} is not a light level that can be worked with", said.value),
            "from EV -6 to EV 18 can be used",
            "Read the incident meter at ISO 100: a lamp-lit room is about EV 5, an overcast window EV 8 to 10.",
        );
        return None;
    }
    Some(said)
}

/// All round, an opening by name, or a lamp at a point.
fn origin(entry: &Entry<'_>, place: Option<&PlaceRead>) -> Option<AmbientFrom> {
    if let DeValue::Table(_) = entry.value {
        return inline_point(entry, place.map(|place| &place.room)).map(|said| AmbientFrom::Lamp(said.value));
    }
    let text = entry.text(
        "\"all round\", the name of an opening, or a point",
        "\"all round\"",
    )?;
    let wanted = plain(text);
    if matches!(wanted.as_str(), "all round" | "everywhere" | "all around") {
        return Some(AmbientFrom::AllRound);
    }
    // Without a readable place there are no openings to compare with, and that was said already.
    let openings = &place?.openings;
    if let Some(index) = openings
        .iter()
        .position(|opening| plain(&opening.value.name) == wanted)
    {
        return Some(AmbientFrom::Opening(index));
    }
    if openings.is_empty() {
        entry.refuse(
            &format!("there is no opening {}", shown(text)),
            "no opening is described",
            "Describe the window under [[place.opening]] with this name, or write  from = \"all round\"",
        );
    } else {
        let names =
            std::iter::once("all round").chain(openings.iter().map(|opening| opening.value.name.as_str()));
        entry.unknown_word(text, "an opening", names);
    }
    None
}

/// The colour in one of its three ways, and the temperature that goes with it.
fn light_colour(section: &Section<'_>, through_opening: bool) -> Option<(LightColour, Kelvin)> {
    let (temperature, illuminant) = (section.entry("colour"), section.entry("illuminant"));
    let duv = section.entry("duv").map(|entry| entry.quantity::<Duv>());
    if let Some(illuminant) = illuminant {
        let other = [("colour", &temperature), ("duv", &section.entry("duv"))];
        if let Some((key, entry)) = other
            .into_iter()
            .find_map(|(key, entry)| Some((key, entry.as_ref()?)))
        {
            section.log.problem(
                Problem::new(format!(
                    "\"illuminant\" already fixes the colour, so \"{key}\" contradicts it"
                ))
                .at(entry.key_span.clone(), "this one")
                .at(illuminant.key_span.clone(), "and this one")
                .help("Keep one of the two lines."),
            );
            return None;
        }
        return from_illuminant(&illuminant);
    }
    let kelvin = temperature.as_ref().map(|entry| entry.quantity::<Kelvin>());
    let (kelvin, duv) = (inner(kelvin)?, inner(duv)?);
    let usual = if through_opening { 6000.0 } else { 2700.0 };
    let kelvin = match kelvin {
        Some(said) => said.value,
        None => {
            section
                .log
                .warn(&section.span, format!("colour not said, so taken as {usual} K"));
            Kelvin::new(usual).ok()?
        }
    };
    let place = temperature.map_or(section.span.clone(), |entry| entry.span);
    if !(1500.0..=25_000.0).contains(&kelvin.value()) {
        section.log.problem(
            Problem::new(format!("{kelvin} is not the colour of any lamp or sky"))
                .at(place, "from 1500 K to 25000 K can be used")
                .help("Candles have about 1900 K, lamps 2700 to 4000 K, overcast sky 6000 to 7000 K."),
        );
        return None;
    }
    if let Some(duv) = duv {
        return match LightColour::with_duv(kelvin, duv.value) {
            Ok(colour) => Some((colour, kelvin)),
            Err(_) => {
                section.log.problem(
                    Problem::new(format!("no lamp of {kelvin} has {}", duv.value))
                        .at(duv.span, "too far from white")
                        .help("Lamps lie between Duv -0.02 and +0.02; positive is greener."),
                );
                None
            }
        };
    }
    // What comes through an opening is taken for daylight, anything else for a glowing body.
    let daylight = through_opening && kelvin.value() >= 4000.0;
    let colour = if daylight {
        LightColour::daylight(kelvin).ok()?
    } else {
        LightColour::planck(kelvin)
    };
    Some((colour, kelvin))
}

fn from_illuminant(entry: &Entry<'_>) -> Option<(LightColour, Kelvin)> {
    let text = entry.text("the name of a standard illuminant", "\"FL2\"")?;
    let known = colour::illuminant_names().find(|name| name.eq_ignore_ascii_case(text.trim()));
    let light = known.and_then(LightColour::illuminant);
    let found = light.and_then(|light| Some((light, light.cct_duv()?.0)));
    if found.is_none() {
        let names: Vec<&str> = colour::illuminant_names().collect();
        entry.unknown_word(text, "a standard illuminant", names.iter().copied());
    }
    found
}
