//! The lights of a proof: what is rendered, each by itself, and what weighs it into the picture.

use answer::{Answer, Failure, Job, LightName, SourceName};
use colour::LightColour;
use scene::{Geometry, Stage};
use solver::{AmbientLayer, Solved};
use transport::{Fineness, Room, Source};

/// One light of a proof.
pub struct ProofLight {
    /// The flash, or one of the lights that are there.
    pub name: SourceName,
    /// Where it shines from, at unit strength.
    pub source: Source,
    /// Its colour.
    pub colour: LightColour,
    /// What multiplies its layer into a dose: part of full power, or scale times shutter time.
    pub dose: f64,
}

/// A light that is a small part of the picture may be this many times as noisy, for it may be made stronger afterwards (ours).
const MOST_ALLOWANCE: f64 = 4.0;

impl ProofLight {
    /// Whether it is the flash.
    pub fn is_flash(&self) -> bool {
        self.name == SourceName::Flash
    }

    /// How many times as noisy as the finished picture its layer may be. Noise of independent layers adds by squares, each with
    /// its light's part of what is on the face, so the inverse root of that part keeps the sum at what is wanted.
    pub fn noise_allowance(&self, answer: &Answer) -> f64 {
        let mut sources = answer.colouring.sources.iter();
        let source = sources.find(|source| source.source == self.name);
        source.map_or(1.0, |source| {
            (1.0 / source.share.max(1e-6)).sqrt().clamp(1.0, MOST_ALLOWANCE)
        })
    }
}

/// A light as files of other programs name it: `flash`, `sky`, `sun`, `moon`, or what the photographer calls it.
pub fn written_name(name: &SourceName) -> &str {
    match name {
        SourceName::Flash => "flash",
        SourceName::Light { light } => match light {
            LightName::Sky => "sky",
            LightName::Sun => "sun",
            LightName::Moon => "moon",
            LightName::Given { name } => name,
        },
    }
}

/// How finely a picture's place is solved.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Care {
    /// For a first look: it is there in a moment.
    Sketch,
    /// For a picture.
    Proof,
}

/// The place of an answer, solved for pictures, without gloss when that is asked; and its lights, the flash
/// first. `job` is the one [as answered](Job::as_answered).
///
/// # Errors
/// Those of building the scene.
pub fn lights_of(
    job: &Job,
    answer: &Answer,
    care: Care,
    matt: bool,
    seed: u64,
) -> Result<(Room, Vec<ProofLight>), Failure> {
    let (stage, flash) = solver::scene_of(job, answer)?;
    let room = solved_room(job, &stage, care, matt, seed);
    let ambient = solver::ambient_layers(job, &stage, &room);
    Ok((room, weighed(job, answer, flash, ambient)))
}

/// The lights of an answer in the place that was solved for it, the flash first. `job` is the one
/// [as answered](Job::as_answered).
pub fn lights_in(job: &Job, solved: &Solved) -> Vec<ProofLight> {
    let flash = solved.flash.clone();
    weighed(job, &solved.answer, flash, solved.place.ambient_layers())
}

/// The flash and the lights that are there, each with what makes it a dose.
fn weighed(job: &Job, answer: &Answer, flash: Source, ambient: Vec<AmbientLayer>) -> Vec<ProofLight> {
    let shutter = answer.settings.shutter.value();
    let flash = ProofLight {
        name: SourceName::Flash,
        source: flash,
        colour: *job.bag.flash.colour(),
        dose: answer.flash.power.fraction(),
    };
    let ambient = ambient.into_iter().map(|layer| ProofLight {
        name: SourceName::Light { light: layer.light },
        source: layer.source,
        colour: layer.colour,
        dose: f64::from(layer.scale) * shutter,
    });
    std::iter::once(flash).chain(ambient).collect()
}

/// The room of a picture.
fn solved_room(job: &Job, stage: &Stage, care: Care, matt: bool, seed: u64) -> Room {
    let mut geometry: Geometry = stage.geometry.clone();
    if matt {
        geometry
            .materials
            .iter_mut()
            .for_each(|material| material.coat = None);
    }
    let area = job.place.room.area();
    let fineness = match care {
        Care::Sketch => Fineness::live_in(area),
        Care::Proof => Fineness::proof_in(area),
    };
    Room::new(geometry, fineness, seed)
}
