//! The place solved finely, for the answer and for its picture.

use crate::place::ambient::{AmbientThere, ambients_there, sum_of};
use crate::place::amounts::Amounts;
use crate::place::boards::{panels_of, stage_with};
use crate::place::meters::{FacePoints, face_points};
use crate::place::skin::{landmarks_seen, skin_seen};
use answer::{Aim, Answer, Failure, Job, LightName};
use colour::LightColour;
use light::HeadDress;
use scene::{Panel, Stage};
use transport::{Fineness, PlacedFlash, Room, Source};

/// A place solved as finely as a picture needs it, with the boards that a way brings into it.
pub struct FinePlace {
    /// What stands where.
    pub stage: Stage,
    /// The solved room.
    pub room: Room,
    pub(crate) ambients: Vec<AmbientThere>,
    /// All of them together at the meters, in lx.
    pub(crate) ambient: Amounts,
    pub(crate) points: FacePoints,
}

/// One of the lights that are there, in a room that has been built.
pub struct AmbientLayer {
    /// Which of them.
    pub light: LightName,
    /// Where it shines from, at unit strength.
    pub source: Source,
    /// Its colour.
    pub colour: LightColour,
    /// Factor on the unit strength that makes the model agree with the photographer's reading.
    pub scale: f32,
}

impl FinePlace {
    /// The lights that are there.
    pub fn ambient_layers(&self) -> Vec<AmbientLayer> {
        self.ambients.iter().map(AmbientLayer::of).collect()
    }

    pub(crate) fn new(job: &Job, panels: &[Panel], seed: u64) -> Result<FinePlace, Failure> {
        let stage = stage_with(job, panels)?;
        let fineness = Fineness::proof_in(job.place.room.area());
        let room = Room::new(stage.geometry.clone(), fineness, seed);
        let mut points = face_points(&stage, 0, job.viewpoint.position);
        points.skin = skin_seen(job, &stage, &room);
        points.seen = landmarks_seen(job, &room, &points.landmarks);
        let ambients = ambients_there(job, &stage, &room, &points);
        Ok(FinePlace {
            stage,
            room,
            ambient: sum_of(&ambients),
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
        Source::Flash(aimed(job, aim, answer.flash.zoom_mm, answer.flash.dress)?),
    ))
}

/// The flash as it is aimed.
pub(crate) fn aimed(job: &Job, aim: &Aim, zoom_mm: f64, dress: HeadDress) -> Result<PlacedFlash, Failure> {
    let beam = job.bag.flash.beam(zoom_mm, dress)?;
    let window = job.bag.flash.window_of(dress);
    Ok(PlacedFlash::aimed(beam, aim.flash, aim.target, window))
}

/// The ambient lights of a job in a room that has been built.
pub fn ambient_layers(job: &Job, stage: &Stage, room: &Room) -> Vec<AmbientLayer> {
    let points = face_points(stage, 0, job.viewpoint.position);
    let there = ambients_there(job, stage, room, &points);
    there.iter().map(AmbientLayer::of).collect()
}

impl AmbientLayer {
    fn of(there: &AmbientThere) -> Self {
        AmbientLayer {
            light: there.name.clone(),
            source: there.source.clone(),
            colour: there.colour,
            scale: there.scale,
        }
    }
}
