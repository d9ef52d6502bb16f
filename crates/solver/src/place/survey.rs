//! The place as the search sees it: the solved room, the meters at the faces, the light that is there.

use crate::place::ambient::{AmbientThere, ambients_there};
use crate::place::boards::furnished;
use crate::place::flash_places::{flash_places, flash_position};
use crate::place::meters::{AtMeters, face_points};
use answer::{Failure, Job};
use scene::{Stage, assemble};
use transport::{AimMap, Fineness, Meter, Operator, Room};

/// The surveyed place.
pub(crate) struct Survey {
    pub stage: Stage,
    pub room: Room,
    pub meters: AtMeters<Meter>,
    /// What light leaving anything does to the meters.
    pub operator: Operator,
    /// The places of the flash that are tried, each with all its aims.
    pub maps: Vec<AimMap>,
    pub ambients: Vec<AmbientThere>,
    /// Illuminance of all ambient light on the background beside the first head, in lx.
    pub ambient_background_lx: f64,
}

impl Survey {
    /// Builds and solves the place of a job.
    pub fn new(job: &Job, fineness: Fineness, seed: u64) -> Result<Survey, Failure> {
        if job.sitters.is_empty() {
            return Err(Failure::NoSitter);
        }
        let flash = flash_position(job);
        if !job.place.room.contains(flash, 0.01) {
            return Err(Failure::FlashOutside);
        }
        let stage = assemble(&furnished(job), &job.sitters)?;
        let room = Room::new(stage.geometry.clone(), fineness, seed);
        let points = face_points(&stage, 0, job.viewpoint.position);
        let meters = AtMeters::new(job, &stage, &room, &points);
        let operator = Operator::solve(&room, &meters.in_order());
        let maps = flash_places(job, flash)
            .into_iter()
            .enumerate()
            .map(|(index, place)| match index {
                0 => AimMap::new(&room, &operator, place),
                _ => AimMap::coarse(&room, &operator, place),
            })
            .collect();
        let ambients = ambients_there(job, &stage, &room, &points);
        let ambient_background_lx = ambients
            .iter()
            .map(|there| f64::from(there.colour.luminous(&there.background)))
            .sum();
        Ok(Survey {
            stage,
            room,
            meters,
            operator,
            maps,
            ambients,
            ambient_background_lx,
        })
    }

    /// Makes all ambient light this many times as strong.
    pub fn scale_ambient(&mut self, factor: f64) {
        for ambient in &mut self.ambients {
            ambient.scale_by(factor);
        }
        self.ambient_background_lx *= factor;
    }

    /// Illuminance of all ambient light at the first face, dome towards the camera, in lx.
    pub fn ambient_lx(&self) -> f64 {
        self.ambients.iter().map(|a| a.dome_lx).sum()
    }
}
