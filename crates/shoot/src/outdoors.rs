//! From `[sky]` and what was metered of it to the daylight of a job.

use super::ambient;
use super::camera::inner;
use super::nearest::plain;
use super::place::PlaceRead;
use super::problem::Problem;
use super::section::{Log, Said, Section};
use super::sky::SkyRead;
use crate::both;
use answer::{DaylightHere, Job, LightName, MeterFacing};
use colour::LightColour;
use scene::{Material, OpeningKind, Surroundings};
use toml::de::DeValue;
use units::{Ev, Kelvin};

/// What a photographer metered of the daylight.
#[derive(Clone, Debug)]
pub(crate) struct DaylightReading {
    /// What the photographer calls it.
    name: String,
    /// The reading at the face of the first sitter; `None` when only the colour was said.
    reading: Option<Ev>,
    /// Which way the meter faced.
    facing: MeterFacing,
    /// The colour that was said, instead of the computed one.
    colour: Option<(LightColour, Kelvin)>,
}

/// Words for light that comes from the sky and the sun together.
const DAYLIGHT: [&str; 4] = ["sky", "daylight", "outdoors", "outside"];

/// Whether an ambient light is the daylight of `[sky]`: it says so, or it comes in by an opening that the
/// sky is seen through.
pub(crate) fn is_daylight(section: &Section<'_>, place: Option<&PlaceRead>, has_sky: bool) -> bool {
    let Some(entry) = section.entry("from") else {
        return false;
    };
    let DeValue::String(text) = entry.value else {
        return false;
    };
    let words = plain(text);
    let through = |place: &PlaceRead| {
        place
            .openings
            .iter()
            .any(|opening| plain(&opening.value.name) == words && opening.value.kind != OpeningKind::Doorway)
    };
    DAYLIGHT.contains(&words.as_str()) || (has_sky && place.is_some_and(through))
}

/// Reads what was metered of the daylight.
pub(crate) fn reading(section: &Section<'_>, has_sky: bool) -> Option<Said<DaylightReading>> {
    section.close(super::parts::ALL);
    let name = section.name("ambient");
    if !has_sky {
        let from = section.entry("from")?;
        from.refuse(
            both!(
                "there is no [sky] for this light to come from";
                "es gibt kein [sky], von dem dieses Licht kommen könnte"
            ),
            both!("not described"; "nicht beschrieben"),
            both!(
                "Add a part [sky] with latitude, longitude, date, time and camera_looks, or name an opening, a lamp's point or \"all round\" here.";
                "Einen Teil [sky] mit latitude, longitude, date, time und camera_looks hinzufügen, oder hier eine Öffnung, den Punkt einer Lampe oder \"all round\" nennen."
            ),
        );
        return None;
    }
    for key in ["lamp", "lumen", "height"] {
        if let Some(entry) = section.entry(key) {
            entry.refuse(
                both!(
                    "\"{key}\" belongs to a lamp, and this is daylight";
                    "\"{key}\" gehört zu einer Lampe, und das hier ist Tageslicht"
                ),
                both!("not for daylight"; "nicht für Tageslicht"),
                both!("Leave the line out."; "Die Zeile weglassen."),
            );
        }
    }
    let reading = section.entry("reading").map(|entry| ambient::reading(&entry));
    let facing = ambient::facing(section)?;
    let colour = if ambient::says_colour(section) {
        Some(ambient::light_colour(section, true)?)
    } else {
        None
    };
    Some(Said {
        value: DaylightReading {
            name: name.value,
            reading: inner(reading)?.map(|said| said.value),
            facing,
            colour,
        },
        span: name.span,
    })
}

/// Whether a place has a window or an open side.
pub(crate) fn lets_daylight_in(place: &PlaceRead) -> bool {
    place
        .openings
        .iter()
        .any(|opening| opening.value.kind != OpeningKind::Doorway)
}

/// What only shows when the sky and the place are held against each other.
pub(crate) fn check(log: &Log, place: Option<&PlaceRead>, readings: &[Said<DaylightReading>], has_sky: bool) {
    if let [first, second, ..] = readings {
        log.problem(
            Problem::new(both!("the daylight was metered twice"; "das Tageslicht wurde zweimal gemessen"))
                .at(second.span.clone(), both!("the second reading"; "der zweite Messwert"))
                .at(first.span.clone(), both!("the first one"; "der erste"))
                .help(both!(
                    "Keep one [[ambient]] for the daylight; sky and sun are scaled together to agree with it.";
                    "Ein [[ambient]] für das Tageslicht behalten; Himmel und Sonne werden zusammen darauf abgestimmt."
                )),
        );
    }
    let Some(place) = place else { return };
    if let (true, false, Some(reading)) = (has_sky, lets_daylight_in(place), readings.first()) {
        log.problem(
            Problem::new(both!(
                "daylight was metered, but this place has no window and no open side for it";
                "Tageslicht wurde gemessen, aber dieser Ort hat kein Fenster und keine offene Seite dafür"
            ))
                .at(reading.span.clone(), both!("metered here"; "hier gemessen"))
                .help(both!(
                    "Describe the window under [[place.opening]], or write  ceiling = \"open\"  for a place outdoors.";
                    "Das Fenster unter [[place.opening]] beschreiben, oder  ceiling = \"open\"  für einen Ort im Freien schreiben."
                )),
        );
    }
}

/// Puts the job under its sky.
pub(crate) fn under_the_sky(job: &mut Job, sky: &SkyRead, metered: Option<&DaylightReading>) {
    let mut outdoors = DaylightHere::new(&sky.daylight(), sky.camera_looks_deg);
    if let Some(metered) = metered {
        // With the sun in it the light has two parts, which keep their own names.
        if outdoors.disc.is_none() {
            outdoors.sky.name = LightName::Given {
                name: metered.name.clone(),
            };
        }
        outdoors.reading = metered.reading.map(|reading| (reading, metered.facing));
        if let Some((colour, kelvin)) = metered.colour {
            outdoors.sky.colour = colour;
            outdoors.sky.kelvin = kelvin;
        }
    }
    job.place.surroundings = Some(surroundings(sky));
    job.outdoors = Some(outdoors);
}

/// The ground and the skyline in the place's own frame.
fn surroundings(sky: &SkyRead) -> Surroundings {
    let turned = |bearing_deg: f64| (bearing_deg - sky.camera_looks_deg).to_radians() as f32;
    Surroundings {
        ground: Material::matt(&sky.ground_name, sky.ground),
        skyline: sky
            .skyline
            .iter()
            .map(|obstacle| scene::Obstacle {
                name: obstacle.name.clone(),
                from: turned(obstacle.where_it_stands.from_deg),
                to: turned(obstacle.where_it_stands.to_deg),
                height: obstacle.where_it_stands.height_deg.to_radians() as f32,
                material: Material::matt(&obstacle.name, obstacle.surface),
            })
            .collect(),
    }
}
