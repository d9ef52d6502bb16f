//! `[[ambient]]`: the light that is there without the flash.

use super::camera::inner;
use super::nearest::plain;
use super::place::{Clock, PlaceRead, hour, inline_point};
use super::problem::{Problem, Span};
use super::quoting::shown;
use super::section::{Entry, Said, Section};
use super::words::Noun;
use crate::both;
use answer::{Ambient, AmbientFrom, AmbientLevel, LampShape, MeterFacing};
use colour::LightColour;
use light::{Lamp, UsualLevel};
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

pub(crate) fn read(
    section: &Section<'_>,
    place: Option<&PlaceRead>,
    clock: Option<&Clock>,
) -> Option<Said<Ambient>> {
    section.close(super::parts::ALL);
    let name = section.name("ambient");
    let lamp = section.entry("lamp").map(|entry| lamp(&entry));
    let usual = usual(section);
    let facing = facing(section);
    let from = section
        .entry("from")
        .map_or(Some(AmbientFrom::AllRound), |entry| {
            origin(section, &entry, place, clock)
        });
    height_belongs_to_a_direction(section, from);
    let lamp = inner(lamp)?;
    let reading = level(section, lamp, usual, from);
    let through_opening = matches!(from, Some(AmbientFrom::Opening(_)));
    let known = lamp
        .map(|lamp| (lamp.colour.light(), lamp.colour.kelvin()))
        .or_else(|| {
            let kelvin = Kelvin::new(usual?.kelvin).ok()?;
            Some((LightColour::planck(kelvin), kelvin))
        });
    let colour = match known {
        Some(known) if !says_colour(section) => Some(known),
        _ => light_colour(section, through_opening),
    };
    let ((colour, kelvin), reading) = (colour?, reading?);
    let ambient = Ambient {
        name: name.value,
        reading,
        facing: facing?,
        colour,
        kelvin,
        from: from?,
        lamp: lamp.map_or_else(LampShape::default, |lamp| LampShape {
            edge_m: lamp.edge_m as f32,
            facing: lamp.facing,
        }),
    };
    Some(Said {
        value: ambient,
        span: name.span,
    })
}

/// Which way the meter faced; towards the camera when nothing is said.
pub(crate) fn facing(section: &Section<'_>) -> Option<MeterFacing> {
    section
        .entry("metered")
        .map_or(Some(MeterFacing::Camera), |entry| {
            entry
                .word(Noun::eine("a way to meter", "Messrichtung"), FACINGS)
                .map(|said| said.value)
        })
}

pub(crate) fn says_colour(section: &Section<'_>) -> bool {
    ["colour", "duv", "illuminant"]
        .iter()
        .any(|key| section.entry(key).is_some())
}

fn lamp(entry: &Entry<'_>) -> Option<Lamp> {
    let words: Vec<(&str, Lamp)> = Lamp::all().iter().map(|lamp| (lamp.name, *lamp)).collect();
    entry
        .word(Noun::eine("a kind of lamp", "Lampenart"), &words)
        .map(|said| said.value)
}

/// The place whose usual level was named instead of a reading.
fn usual(section: &Section<'_>) -> Option<UsualLevel> {
    let entry = section.entry("reading")?;
    let words = plain(entry.value.as_str()?);
    UsualLevel::all()
        .iter()
        .find(|level| level.name == words)
        .copied()
}

/// How strong it is: metered, taken from the table, or by the lamp's flux.
fn level(
    section: &Section<'_>,
    lamp: Option<Lamp>,
    usual: Option<UsualLevel>,
    from: Option<AmbientFrom>,
) -> Option<AmbientLevel> {
    let lumen = section.entry("lumen");
    match (section.entry("reading"), lumen) {
        (Some(reading), Some(lumen)) => {
            section.log.problem(
                Problem::new(both!(
                    "reading and lumen are both given, but each says how strong the light is";
                    "reading und lumen sind beide angegeben, aber jedes sagt, wie stark das Licht ist"
                ))
                    .at(lumen.key_span, both!("what the lamp gives"; "was die Lampe gibt"))
                    .at(reading.key_span, both!("what arrives at the face"; "was am Gesicht ankommt"))
                    .help(both!(
                        "Keep the reading if it was metered at the face; a lamp's lumens are for when it was not.";
                        "reading behalten, wenn am Gesicht gemessen wurde; die Lumen einer Lampe sind für den anderen Fall."
                    )),
            );
            None
        }
        (Some(entry), None) => match usual {
            Some(usual) => Some(AmbientLevel::Reading(usual.level)),
            None => reading(&entry).map(|said| AmbientLevel::Reading(said.value)),
        },
        (None, Some(lumen)) => {
            let said = lumen.number(
                Noun::ein("the light of a lamp in lumen", "Lichtstrom einer Lampe in Lumen"),
                1.0,
                1e6,
                "800",
            );
            lamp_has_a_place(section, lumen.key_span, from)?;
            said.map(|said| AmbientLevel::Lumens(said.value))
        }
        (None, None) => match lamp {
            Some(lamp) => {
                let span = section
                    .entry("lamp")
                    .map_or(section.span.clone(), |entry| entry.key_span);
                lamp_has_a_place(section, span, from)?;
                Some(AmbientLevel::Lumens(lamp.lumens))
            }
            None => {
                // A misspelt lamp was complained about already.
                if section.entry("lamp").is_none() {
                    section.missing("reading", "\"EV 5\"");
                }
                None
            }
        },
    }
}

/// The flux of a lamp says nothing about the face before it is known where the lamp is.
fn lamp_has_a_place(section: &Section<'_>, span: Span, from: Option<AmbientFrom>) -> Option<()> {
    match from {
        Some(AmbientFrom::Lamp(_)) => Some(()),
        // What was written was complained about already.
        None => None,
        Some(_) => {
            section.log.problem(
                Problem::new(both!(
                    "a lamp lights the face from somewhere, and it is not said from where";
                    "eine Lampe beleuchtet das Gesicht von irgendwoher, und es ist nicht gesagt, von wo"
                ))
                    .at(span, both!("its light is known, its place is not"; "ihr Licht ist bekannt, ihr Ort nicht"))
                    .help(both!(
                        "Add  from = \"9 o'clock\"  with a height, a point in the room, or a reading at the face instead.";
                        "from = \"9 o'clock\"  mit einer Höhe, einen Punkt im Raum, oder stattdessen einen Messwert am Gesicht hinzufügen."
                    )),
            );
            None
        }
    }
}

pub(crate) fn reading(entry: &Entry<'_>) -> Option<Said<Ev>> {
    let text = entry.value.as_str().unwrap_or("");
    let names = UsualLevel::all().iter().map(|level| level.name);
    // Words without a figure are meant for one of the named places.
    if !text.chars().any(|letter| letter.is_ascii_digit())
        && text
            .trim()
            .chars()
            .filter(|letter| letter.is_alphabetic())
            .count()
            > 3
    {
        entry.unknown_word(text, Noun::eine("a light level", "Lichtstärke"), names);
        return None;
    }
    let said = entry.quantity::<Ev>()?;
    if !(READINGS.0..=READINGS.1).contains(&said.value.value()) {
        entry.refuse(
            both!(
                "{} is not a light level that can be worked with", said.value;
                "mit {} lässt sich als Lichtwert nicht arbeiten"
            ),
            both!("from EV -6 to EV 18 can be used"; "möglich: von EV -6 bis EV 18"),
            both!(
                "Read the incident meter at ISO 100: a lamp-lit room is about EV 5, an overcast window EV 8 to 10.";
                "Mit dem Belichtungsmesser bei ISO 100 messen: Ein Raum bei Lampenlicht hat etwa EV 5, ein Fenster bei bedecktem Himmel EV 8 bis 10."
            ),
        );
        return None;
    }
    Some(said)
}

/// How far from the wall a lamp "over there" hangs (ours), in metres.
const OFF_THE_WALL_M: f32 = 0.3;
/// How high it hangs when that is not said (ours), in metres.
const USUAL_HEIGHT_M: f32 = 2.0;

/// The point in a direction of the sitter's clock where a lamp hangs: near the wall, at its height.
fn over_there(section: &Section<'_>, hour: f32, place: &PlaceRead, clock: &Clock) -> Option<AmbientFrom> {
    let size = place.room.size;
    let height = match section.entry("height") {
        Some(entry) => {
            entry
                .length(
                    Noun::eine("the height of a lamp", "Lampenhöhe"),
                    0.05,
                    f64::from(size.z) - 0.05,
                )?
                .value
        }
        None => USUAL_HEIGHT_M.min(size.z - 0.1),
    };
    let (start, ray) = (clock.middle, clock.direction(hour));
    let reach = [(start.x, ray.x, size.x), (start.y, ray.y, size.y)]
        .into_iter()
        .filter(|(_, step, _)| step.abs() > 1e-6)
        .map(|(at, step, end)| if step > 0.0 { (end - at) / step } else { -at / step })
        .fold(f32::INFINITY, f32::min);
    let at = start + ray * (reach - OFF_THE_WALL_M).max(0.3 * reach);
    Some(AmbientFrom::Lamp(at.with_z(height)))
}

/// A height without a direction would be passed over in silence.
fn height_belongs_to_a_direction(section: &Section<'_>, from: Option<AmbientFrom>) {
    let is_direction = section
        .entry("from")
        .and_then(|entry| entry.value.as_str())
        .is_some_and(|text| hour(text).is_some());
    if let Some(entry) = section.entry("height")
        && from.is_some()
        && !is_direction
    {
        entry.refuse(
            both!(
                "height goes with a direction, and there is none";
                "height gehört zu einer Richtung, und es gibt keine"
            ),
            both!("nothing has this height"; "nichts hat diese Höhe"),
            both!(
                "Add  from = \"9 o'clock\", write the height into the point, or leave it out.";
                "from = \"9 o'clock\" hinzufügen, die Höhe in den Punkt schreiben, oder sie weglassen."
            ),
        );
    }
}

/// All round, an opening by name, a lamp at a point, or a lamp in a direction of the sitter's clock.
fn origin(
    section: &Section<'_>,
    entry: &Entry<'_>,
    place: Option<&PlaceRead>,
    clock: Option<&Clock>,
) -> Option<AmbientFrom> {
    if let DeValue::Table(_) = entry.value {
        return inline_point(entry, place.map(|place| &place.room)).map(|said| AmbientFrom::Lamp(said.value));
    }
    let text = entry.text(
        both!(
            "\"all round\", the name of an opening, a clock direction, or a point";
            "\"all round\", der Name einer Öffnung, eine Uhrzeigerrichtung oder ein Punkt"
        ),
        "\"all round\"",
    )?;
    let wanted = plain(text);
    if matches!(wanted.as_str(), "all round" | "everywhere" | "all around") {
        return Some(AmbientFrom::AllRound);
    }
    if let Some(hour) = hour(text) {
        return over_there(section, hour, place?, clock?);
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
            both!("there is no opening {}", shown(text); "es gibt keine Öffnung {}"),
            both!("no opening is described"; "keine Öffnung ist beschrieben"),
            both!(
                "Describe the window under [[place.opening]] with this name, or write  from = \"all round\"";
                "Das Fenster unter [[place.opening]] mit diesem Namen beschreiben, oder  from = \"all round\"  schreiben."
            ),
        );
    } else {
        let names =
            std::iter::once("all round").chain(openings.iter().map(|opening| opening.value.name.as_str()));
        entry.unknown_word(text, Noun::eine("an opening", "Öffnung"), names);
    }
    None
}

/// The colour in one of its three ways, and the temperature that goes with it.
pub(crate) fn light_colour(section: &Section<'_>, through_opening: bool) -> Option<(LightColour, Kelvin)> {
    let (temperature, illuminant) = (section.entry("colour"), section.entry("illuminant"));
    let duv = section.entry("duv").map(|entry| entry.quantity::<Duv>());
    if let Some(illuminant) = illuminant {
        let other = [("colour", &temperature), ("duv", &section.entry("duv"))];
        if let Some((key, entry)) = other
            .into_iter()
            .find_map(|(key, entry)| Some((key, entry.as_ref()?)))
        {
            section.log.problem(
                Problem::new(both!(
                    "\"illuminant\" already fixes the colour, so \"{key}\" contradicts it";
                    "\"illuminant\" legt die Farbe schon fest, darum widerspricht \"{key}\""
                ))
                .at(entry.key_span.clone(), both!("this one"; "diese"))
                .at(illuminant.key_span.clone(), both!("and this one"; "und diese"))
                .help(both!("Keep one of the two lines."; "Eine der beiden Zeilen behalten.")),
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
            section.log.warn(
                &section.span,
                both!(
                    "colour not said, so taken as {usual} K";
                    "Farbe nicht genannt, darum als {usual} K angenommen"
                ),
            );
            Kelvin::new(usual).ok()?
        }
    };
    let place = temperature.map_or(section.span.clone(), |entry| entry.span);
    if !(1500.0..=25_000.0).contains(&kelvin.value()) {
        section.log.problem(
            Problem::new(both!("{} is not the colour of any lamp or sky", kelvin; "{} ist die Farbe keiner Lampe und keines Himmels"))
                .at(place, both!("from 1500 K to 25000 K can be used"; "möglich: von 1500 K bis 25000 K"))
                .help(both!(
                    "Candles have about 1900 K, lamps 2700 to 4000 K, overcast sky 6000 to 7000 K.";
                    "Kerzen haben etwa 1900 K, Lampen 2700 bis 4000 K, bedeckter Himmel 6000 bis 7000 K."
                )),
        );
        return None;
    }
    if let Some(duv) = duv {
        return match LightColour::with_duv(kelvin, duv.value) {
            Ok(colour) => Some((colour, kelvin)),
            Err(_) => {
                section.log.problem(
                    Problem::new(
                        both!("no lamp of {} has {}", kelvin, duv.value; "keine Lampe von {} hat {}"),
                    )
                    .at(duv.span, both!("too far from white"; "zu weit von Weiß"))
                    .help(both!(
                        "Lamps lie between Duv -0.02 and +0.02; positive is greener.";
                        "Lampen liegen zwischen Duv -0,02 und +0,02; positiv ist grüner."
                    )),
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
    let text = entry.text(
        both!("the name of a standard illuminant"; "ein Name einer Normlichtart"),
        "\"FL2\"",
    )?;
    let known = colour::illuminant_names().find(|name| name.eq_ignore_ascii_case(text.trim()));
    let light = known.and_then(LightColour::illuminant);
    let found = light.and_then(|light| Some((light, light.cct_duv()?.0)));
    if found.is_none() {
        let names: Vec<&str> = colour::illuminant_names().collect();
        entry.unknown_word(
            text,
            Noun::eine("a standard illuminant", "Normlichtart"),
            names.iter().copied(),
        );
    }
    found
}
