//! What a card says: words that are settled, and a table of what may change.

use super::assistant;
use super::plans::Plans;
use crate::fitting::shorten;
use crate::voice::{Language, Voice};
use crate::wording::for_assistant::Line;
use crate::wording::on_card::{self, Made};
use crate::wording::{aim, cautions, changes, doubt, lines, on_drawings, variations};
use answer::{Adjusted, Answer, Between, DistanceChange, Job, LightChange, Variations};
use units::Stops;

/// Less than this in hand is marked, in stops (one click).
const LITTLE: f64 = 1.0 / 3.0;

/// What the flash is set to in an adjusted picture of an answer when distances have changed its light on the face: the job,
/// the answer, the picture, by how much the light that is there has changed, and by how much the flash's has.
pub type FlashChange = fn(&Job, &Answer, &Adjusted, Stops, Stops) -> Adjusted;

/// One set-up as its card tells it: words that are settled, and a table of what may change.
///
/// Nothing on a card is computed when it is looked at; it is only looked up.
#[derive(Clone, Debug)]
pub struct Card {
    pub(super) voice: Voice,
    pub(super) title: String,
    pub(super) made: Option<String>,
    /// Third line, without its arrow.
    pub(super) aim: String,
    /// Turn of the head from the lens axis, in degrees, positive to the camera's right.
    pub(super) turn_deg: f64,
    /// What does not change with the power: zoom, dress, gel.
    pub(super) wear: Vec<String>,
    /// What must be known before anything else: where people move to, what cannot be had.
    pub(super) first: Vec<String>,
    pub(super) assistant: [Line; 5],
    pub(super) cautions: Vec<String>,
    pub(super) about: String,
    pub(super) plans: Plans,
    pub(super) lights: Vec<Light>,
    pub(super) planned_light: usize,
    pub(super) dials: Vec<Dial>,
}

/// What is set in one light.
#[derive(Clone, Debug)]
pub(super) struct Light {
    /// "1 1/3 stops darker".
    pub(super) by: String,
    /// The fewest changes first; after it one with a shutter that can be held, if the first cannot.
    pub(super) ways: Vec<Setting>,
    /// What is not kept.
    pub(super) lost: Option<String>,
}

/// Camera and flash of one way to meet a light.
#[derive(Clone, Debug)]
pub(super) struct Setting {
    /// `f/4`, `1/160`, `ISO 400`, `5000 K`.
    pub(super) camera: Vec<String>,
    /// The shutter alone.
    pub(super) shutter: String,
    /// The flash at every combination of the dials' values, the last dial the fastest.
    pub(super) flash: Vec<Flash>,
}

/// The part of the flash line that changes.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(super) struct Flash {
    pub(super) power: String,
    /// What is left; what is little is told by a word as well.
    pub(super) hand: String,
    pub(super) mark: Mark,
}

/// How much a flash has left.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Mark {
    Enough,
    Low,
    Short,
}

/// A distance that may turn out otherwise.
#[derive(Clone, Debug)]
pub(super) struct Dial {
    pub(super) between: Between,
    /// "1.2 m", from the nearest to the furthest.
    pub(super) values: Vec<String>,
    pub(super) planned: usize,
}

impl Card {
    /// Makes the card of a set-up.
    ///
    /// `found` tells what other lights and distances ask for of the same job and answer, and `flash_change` belongs to it.
    /// `made` says when the card was made, if it is to say so.
    pub fn new(
        title: &str,
        job: &Job,
        answer: &Answer,
        found: &Variations,
        flash_change: FlashChange,
        voice: Voice,
        made: Option<&Made>,
    ) -> Self {
        let there = job.as_answered(answer);
        let dials = &found.distances;
        let combinations = combinations(dials);
        let setting = |light: &LightChange, way: &Adjusted| Setting {
            camera: lines::camera_parts(voice, &way.settings),
            shutter: voice.shutter(way.settings.shutter),
            flash: combinations
                .iter()
                .map(|by_flash| Flash::new(&flash_change(job, answer, way, light.by, *by_flash), voice))
                .collect(),
        };
        let light = |light: &LightChange| Light {
            by: on_card::light(voice, light.by),
            ways: std::iter::once(&light.then)
                .chain(&light.instead)
                .map(|way| setting(light, way))
                .collect(),
            lost: (!light.lost.is_empty()).then(|| variations::losses(voice, &light.lost)),
        };
        Self {
            voice,
            title: match title.trim() {
                "" => on_drawings::untitled(voice).to_owned(),
                title => shorten(title, 60),
            },
            made: made.map(|made| made.words(voice)),
            aim: aim::words(voice, &answer.aim),
            turn_deg: match answer.aim.turn_deg {
                turn if turn.is_finite() => turn,
                _ => 0.0,
            },
            wear: lines::wear_parts(voice, &answer.flash, answer.colouring.gel.as_ref()),
            first: first(voice, job, answer),
            assistant: assistant::lines(&there, answer, voice),
            cautions: answer
                .cautions
                .iter()
                .map(|caution| cautions::caution(voice, caution))
                .collect(),
            about: doubt::about(voice, answer),
            plans: Plans::new(&there, answer, voice),
            lights: found.lights.iter().map(light).collect(),
            planned_light: found.planned_light(),
            dials: dials.iter().map(|change| Dial::new(change, voice)).collect(),
        }
    }

    /// The language that the card speaks.
    pub fn language(&self) -> Language {
        self.voice.language
    }

    /// Camera and flash as planned; a card without a light has none.
    pub(super) fn planned(&self) -> Option<(&Setting, &Flash)> {
        let setting = self.lights.get(self.planned_light)?.ways.first()?;
        Some((setting, setting.flash.get(self.planned_flash())?))
    }

    /// Position of the planned distances among all combinations.
    pub(super) fn planned_flash(&self) -> usize {
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

    /// Lights that are told on paper, each with what is set then: one and two stops either way.
    pub(super) fn likely_lights(&self) -> Vec<(&str, String)> {
        let told = [-6isize, -3, 3, 6].into_iter().filter_map(|clicks| {
            let light = self.lights.get(self.planned_light.checked_add_signed(clicks)?)?;
            Some((light.by.as_str(), light.told(self.planned_flash(), self.voice)?))
        });
        told.collect()
    }

    /// Distances that are told on paper: four other values of each, the ends among them.
    pub(super) fn likely_distances(&self) -> Vec<(&Dial, Vec<(&str, &Flash)>)> {
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
    pub(super) fn flash_line(&self, flash: &Flash) -> Vec<String> {
        let mut parts = vec![flash.power.clone()];
        parts.extend(self.wear.iter().cloned());
        parts.push(flash.hand.clone());
        parts
    }
}

impl Light {
    /// Everything to be said of a light at some distances: what is set, and what else must be known.
    fn told(&self, flash_at: usize, voice: Voice) -> Option<String> {
        let setting = self.ways.first()?;
        let flash = setting.flash.get(flash_at)?.words(voice);
        let mut told = vec![format!("{}, {flash}.", setting.camera.join(" · "))];
        told.extend(self.besides(flash_at, voice));
        Some(told.join(" "))
    }

    /// What else is to be said of a light at some distances: another way for a shutter that is slow, and what is lost.
    fn besides(&self, flash_at: usize, voice: Voice) -> Vec<String> {
        let mut told = Vec::new();
        if let [first, other, ..] = &self.ways[..]
            && let Some(flash) = other.flash.get(flash_at)
        {
            let camera = other.exposure_line();
            told.push(on_card::or_hand_held(
                voice,
                &first.shutter,
                &camera,
                &flash.words(voice),
            ));
        }
        told.extend(self.lost.clone());
        told
    }
}

impl Setting {
    /// The camera line without the balance, which no light changes.
    fn exposure_line(&self) -> String {
        let kept = self.camera.len().saturating_sub(1);
        self.camera[..kept].join(" · ")
    }
}

/// What must be known before anything else.
fn first(voice: Voice, job: &Job, answer: &Answer) -> Vec<String> {
    let moved = lines::moved(voice, job, answer).map(|words| words + ".");
    let short = answer
        .shortfall
        .as_ref()
        .map(|short| changes::shortfall(voice, short));
    moved.into_iter().chain(short).collect()
}

/// What every combination of distances does to the flash's light on the face, the last distance the fastest. Each
/// was found by itself, so together they are told as the sum.
fn combinations(distances: &[DistanceChange]) -> Vec<Stops> {
    distances.iter().fold(vec![Stops(0.0)], |sums, change| {
        let with = |sum: Stops| change.steps.iter().map(move |step| sum + step.flash);
        sums.into_iter().flat_map(with).collect()
    })
}

impl Flash {
    fn new(way: &Adjusted, voice: Voice) -> Self {
        let hand = lines::in_hand(voice, way.in_hand);
        let (mark, hand) = match way.in_hand.value() {
            left if left < -0.05 => (Mark::Short, hand),
            left if left < LITTLE - 1e-6 => (Mark::Low, on_card::low(voice, &hand)),
            _ => (Mark::Enough, hand),
        };
        Self {
            power: way.power.nearest_third().to_string(),
            hand,
            mark,
        }
    }

    /// "power 1/8 +0.7, 2.3 stops in hand".
    pub(super) fn words(&self, voice: Voice) -> String {
        on_card::power(voice, &self.power, &self.hand)
    }
}

impl Dial {
    fn new(change: &DistanceChange, voice: Voice) -> Self {
        Self {
            between: change.between,
            values: change
                .steps
                .iter()
                .map(|step| on_card::distance(voice, step.metres))
                .collect(),
            planned: change.planned,
        }
    }
}
