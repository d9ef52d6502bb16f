//! The card: one set-up on one screen or one small page, for the photographer's hand and the assistant's.

mod assistant;
mod html;
mod page;
mod plans;

pub use html::card_html;
pub use page::{CardPage, WidthOf, card_pages};

use crate::text::{about, camera_line, flash_wear, in_hand_words, moved_words};
use crate::words::{Lengths, clean, plain, shorten, stops_in_thirds};
use solver::{Adjusted, Answer, Between, DistanceChange, Job, LightChange, Variations, when_flash_changes};
use units::Stops;

/// Less than this in hand is marked, in stops (one click).
const LITTLE: f64 = 1.0 / 3.0;

/// One set-up as its card tells it: words that are settled, and a table of what may change.
///
/// Nothing on a card is computed when it is looked at; it is only looked up.
#[derive(Clone, Debug)]
pub struct Card {
    title: String,
    made: String,
    /// Third line, without its arrow.
    aim: String,
    /// Turn of the head from the line to the sitter, in degrees, positive to the camera's right.
    turn_deg: f64,
    /// What does not change with the power: zoom, dress, gel.
    wear: Vec<String>,
    /// What must be known before anything else: where people move to, what cannot be had.
    first: Vec<String>,
    assistant: Vec<assistant::Line>,
    cautions: Vec<String>,
    about: String,
    plans: plans::Plans,
    lights: Vec<Light>,
    planned_light: usize,
    dials: Vec<Dial>,
}

/// What is set in one light.
#[derive(Clone, Debug)]
struct Light {
    /// "1 1/3 stops darker".
    by: String,
    /// The fewest changes first; after it one with a shutter that can be held, if the first cannot.
    ways: Vec<Setting>,
    /// What is not kept.
    lost: Option<String>,
}

/// Camera and flash of one way to meet a light.
#[derive(Clone, Debug)]
struct Setting {
    /// `f/4`, `1/160`, `ISO 400`, `5000 K`.
    camera: Vec<String>,
    /// What is touched, in words.
    words: String,
    /// The flash at every combination of the dials' values, the last dial the fastest.
    flash: Vec<Flash>,
}

/// The part of the flash line that changes.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
struct Flash {
    power: String,
    hand: String,
    mark: Mark,
}

/// How much a flash has left.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
enum Mark {
    Enough,
    Low,
    Short,
}

/// A distance that may turn out otherwise.
#[derive(Clone, Debug)]
struct Dial {
    /// "flash to face".
    name: String,
    /// "1.2 m", from the nearest to the furthest.
    values: Vec<String>,
    planned: usize,
}

impl Card {
    /// Makes the card of a set-up.
    ///
    /// `variations` are those of the same job and answer. `made` says when the card was made, in the words of
    /// whoever knows the clock; it may be empty. Lengths are in metres or in feet.
    pub fn new(
        title: &str,
        job: &Job,
        answer: &Answer,
        variations: &Variations,
        feet: bool,
        made: &str,
    ) -> Self {
        let there = job.as_answered(answer);
        let lengths = Lengths::new(feet);
        let words = clean(&lengths.reword(&answer.aim.words));
        let moved = moved_words(job, answer, lengths).map(|words| words + ".");
        let short = answer
            .shortfall
            .as_ref()
            .map(|short| lengths.reword(&short.words));
        let reworded = |text: &String| clean(&lengths.reword(text));
        let wear = flash_wear(&answer.flash, answer.colouring.gel.as_ref());
        let light = |light: &LightChange| Light::new(job, answer, light, &variations.distances, lengths);
        Self {
            title: match title.trim() {
                "" => "Untitled set-up".to_owned(),
                title => shorten(title, 60),
            },
            made: shorten(made, 80),
            aim: words
                .trim_start_matches(|c: char| !c.is_alphanumeric())
                .to_owned(),
            turn_deg: if answer.aim.turn_deg.is_finite() {
                answer.aim.turn_deg
            } else {
                0.0
            },
            wear: wear.split(" · ").map(str::to_owned).collect(),
            first: moved.into_iter().chain(short).collect(),
            assistant: assistant::lines(&there, answer, lengths),
            cautions: answer.cautions.iter().map(reworded).collect(),
            about: about(answer),
            plans: plans::Plans::new(&there, answer, lengths),
            lights: variations.lights.iter().map(light).collect(),
            planned_light: variations.planned_light(),
            dials: variations
                .distances
                .iter()
                .map(|change| Dial::new(change, lengths))
                .collect(),
        }
    }

    /// Camera and flash as planned; a card without a light has none.
    fn planned(&self) -> Option<(&Setting, &Flash)> {
        let setting = self.lights.get(self.planned_light)?.ways.first()?;
        Some((setting, setting.flash.get(self.planned_flash())?))
    }

    /// Position of the planned distances among all combinations.
    fn planned_flash(&self) -> usize {
        self.dials
            .iter()
            .fold(0, |at, dial| at * dial.values.len() + dial.planned)
    }

    /// The planned distances with one of them at another value.
    fn flash_at(&self, dial: usize, value: usize) -> usize {
        self.dials.iter().enumerate().fold(0, |at, (index, other)| {
            at * other.values.len() + if index == dial { value } else { other.planned }
        })
    }

    /// Lights that are told on paper: one and two stops either way.
    fn likely_lights(&self) -> Vec<(&Light, &Setting, &Flash)> {
        let told = [-6isize, -3, 3, 6].into_iter().filter_map(|clicks| {
            let light = self.lights.get(self.planned_light.checked_add_signed(clicks)?)?;
            let setting = light.ways.first()?;
            Some((light, setting, setting.flash.get(self.planned_flash())?))
        });
        told.collect()
    }

    /// Distances that are told on paper: four other values of each, the ends among them.
    fn likely_distances(&self) -> Vec<(&Dial, Vec<(&str, &Flash)>)> {
        let Some((planned, _)) = self.planned() else {
            return Vec::new();
        };
        self.dials
            .iter()
            .enumerate()
            .map(|(index, dial)| {
                let (last, middle) = (dial.values.len().saturating_sub(1), dial.planned);
                let mut told = vec![0, middle / 2, middle + (last - middle).div_ceil(2), last];
                told.dedup();
                told.retain(|at| *at != middle);
                let row = |value: usize| {
                    let flash = planned.flash.get(self.flash_at(index, value))?;
                    Some((dial.values[value].as_str(), flash))
                };
                (dial, told.into_iter().filter_map(row).collect())
            })
            .collect()
    }

    /// The whole flash line in parts.
    fn flash_line(&self, flash: &Flash) -> Vec<String> {
        let mut parts = vec![flash.power.clone()];
        parts.extend(self.wear.iter().cloned());
        parts.push(flash.told());
        parts
    }
}

impl Light {
    fn new(
        job: &Job,
        answer: &Answer,
        light: &LightChange,
        distances: &[DistanceChange],
        lengths: Lengths,
    ) -> Self {
        let setting = |way: &Adjusted| Setting {
            camera: camera_line(&way.settings)
                .split(" · ")
                .map(str::to_owned)
                .collect(),
            words: way.words.clone(),
            flash: combinations(distances)
                .into_iter()
                .map(|by_flash| Flash::new(&when_flash_changes(job, answer, way, light.by, by_flash)))
                .collect(),
        };
        Self {
            by: light_words(light.by),
            ways: std::iter::once(&light.then)
                .chain(&light.instead)
                .map(setting)
                .collect(),
            lost: light.lost.as_ref().map(|words| lengths.reword(words)),
        }
    }
}

impl Light {
    /// What else is to be said of a light at some distances: another way for a shutter that is slow, and what is lost.
    fn besides(&self, flash_at: usize) -> Vec<String> {
        let mut told = Vec::new();
        if let [first, other, ..] = &self.ways[..]
            && let Some(flash) = other.flash.get(flash_at)
            && let Some(shutter) = first.camera.get(1)
        {
            let kept = other.camera.len().saturating_sub(1);
            let camera = other.camera[..kept].join(" · ");
            told.push(format!(
                "{shutter} is slow for a person; or {camera}, power {}, {}.",
                flash.power,
                flash.told()
            ));
        }
        told.extend(self.lost.clone());
        told
    }
}

/// What every combination of distances does to the flash's light on the face, the last distance the fastest. Each
/// was found by itself, so together they are told as the sum.
fn combinations(distances: &[DistanceChange]) -> Vec<Stops> {
    distances.iter().fold(vec![Stops(0.0)], |sums, change| {
        let with = |sum: Stops| change.steps.iter().map(move |step| sum + step.flash);
        sums.into_iter().flat_map(with).collect()
    })
}

/// "as planned", "1 1/3 stops darker".
fn light_words(by: Stops) -> String {
    match by.value() {
        stops if stops.abs() < 0.01 => "as planned".to_owned(),
        stops if stops < 0.0 => format!("{} darker", stops_in_thirds(stops)),
        stops => format!("{} brighter", stops_in_thirds(stops)),
    }
}

impl Flash {
    fn new(way: &Adjusted) -> Self {
        let hand = way.in_hand.value();
        Self {
            power: way.power.nearest_third().to_string(),
            hand: in_hand_words(way.in_hand),
            mark: if hand < -0.05 {
                Mark::Short
            } else if hand < LITTLE - 1e-6 {
                Mark::Low
            } else {
                Mark::Enough
            },
        }
    }

    /// "low: 0.2 stop in hand": what is little is told by a word as well.
    fn told(&self) -> String {
        match self.mark {
            Mark::Low => format!("LOW: {}", self.hand),
            Mark::Enough | Mark::Short => self.hand.clone(),
        }
    }
}

impl Dial {
    fn new(change: &DistanceChange, lengths: Lengths) -> Self {
        Self {
            name: match change.between {
                Between::FlashAndFace => "flash to face".to_owned(),
                Between::BoardAndFace => "board to face".to_owned(),
                Between::FlashAndSpot => "flash to lit spot".to_owned(),
                Between::SpotAndFace => "lit spot to face".to_owned(),
            },
            values: change
                .steps
                .iter()
                .map(|step| distance_words(lengths, step.metres))
                .collect(),
            planned: change.planned,
        }
    }
}

/// To five centimetres, or to the inch, so that neighbours differ.
fn distance_words(lengths: Lengths, metres: f64) -> String {
    match lengths {
        Lengths::Metres => format!("{} m", plain((metres * 20.0).round() / 20.0, 2)),
        Lengths::Feet => lengths.about(metres),
    }
}
