//! The place solved finely, for the answer and for its picture.

use crate::place::ambient::{AmbientThere, ambients_there};
use crate::place::boards::{panels_of, stage_with};
use crate::place::meters::{FacePoints, face_points};
use answer::{Aim, Answer, Failure, Job, LightName};
use light::HeadDress;
use scene::{Panel, Stage};
use transport::{Fineness, PlacedFlash, Room, Source};

/// A place solved finely, with the boards that a way brings into it.
pub(crate) struct FinePlace {
    pub stage: Stage,
    pub room: Room,
    pub ambients: Vec<AmbientThere>,
    pub points: FacePoints,
}

impl FinePlace {
    pub fn new(job: &Job, panels: &[Panel], seed: u64) -> Result<FinePlace, Failure> {
        let stage = stage_with(job, panels)?;
        let fineness = Fineness::proof_in(job.place.room.area());
        let room = Room::new(stage.geometry.clone(), fineness, seed);
        let points = face_points(&stage, 0, job.viewpoint.position);
        let ambients = ambients_there(job, &stage, &room, &points);
        Ok(FinePlace {
            stage,
            room,
            ambients,
            points,
        })
    }
}

/// The scene of an answer: the place with its people, lamps and the held board, and the flash aimed.
///
/// # Errors
/// Those of building the scene or the beam.
pub fn scene_of(job: &Job, answer: &Answer) -> Result<(Stage, Source), Failure> {
    let job = &job.as_answered(answer);
    let aim = &answer.aim;
    Ok((
        stage_with(job, &panels_of(job, aim))?,
        aimed(job, aim, answer.flash.zoom_mm, answer.flash.dress)?,
    ))
}

/// The flash as it is aimed.
pub(crate) fn aimed(job: &Job, aim: &Aim, zoom_mm: f64, dress: HeadDress) -> Result<Source, Failure> {
    let beam = job.bag.flash.beam(zoom_mm, dress)?;
    let flash = PlacedFlash::aimed(beam, aim.flash, aim.target, job.bag.flash.window_of(dress));
    Ok(Source::Flash(flash))
}

/// The ambient lights of a job in a room that has been built: each source, its colour and the factor on
/// its unit strength that makes the model agree with the photographer's reading.
pub fn ambient_layers(
    job: &Job,
    stage: &Stage,
    room: &Room,
) -> Vec<(LightName, Source, colour::LightColour, f32)> {
    let points = face_points(stage, 0, job.viewpoint.position);
    ambients_there(job, stage, room, &points)
        .into_iter()
        .map(|there| (there.name, there.source, there.colour, there.scale))
        .collect()
}
