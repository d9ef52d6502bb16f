//! The lights of a proof: what is rendered, each by itself, and what weighs it into the picture.

use colour::LightColour;
use scene::{Geometry, Stage};
use solver::{Answer, Job, SolverError};
use transport::{Fineness, Room, Source};

/// One light of a proof.
pub struct ProofLight {
    /// "flash", or what the photographer calls it.
    pub name: String,
    /// Where it shines from, at unit strength.
    pub source: Source,
    /// Its colour.
    pub colour: LightColour,
    /// What multiplies its layer into a dose: part of full power, or scale times shutter time.
    pub dose: f64,
    /// Whether it is the flash.
    pub is_flash: bool,
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
) -> Result<(Room, Vec<ProofLight>), SolverError> {
    let (stage, flash) = solver::scene_of(job, answer)?;
    let room = solved_room(job, &stage, care, matt, seed);
    let shutter = answer.settings.shutter.value();
    let mut lights = vec![ProofLight {
        name: "flash".to_owned(),
        source: flash,
        colour: *job.bag.flash.colour(),
        dose: answer.flash.power.fraction(),
        is_flash: true,
    }];
    let ambient = solver::ambient_layers(job, &stage, &room);
    lights.extend(
        ambient
            .into_iter()
            .map(|(name, source, colour, scale)| ProofLight {
                name,
                source,
                colour,
                dose: f64::from(scale) * shutter,
                is_flash: false,
            }),
    );
    Ok((room, lights))
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
