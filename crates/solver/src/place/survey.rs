//! The place as the search sees it: the solved room, the meters at the faces, the light that is there.

use crate::place::ambient::{AmbientThere, ambients_there, sum_of};
use crate::place::amounts::Amounts;
use crate::place::boards::stage_with;
use crate::place::flash_places::{flash_places, flash_position};
use crate::place::meters::{AtMeters, face_points};
use answer::{Failure, Job};
use scene::Stage;
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
    /// All of them together at the meters, in lx.
    pub ambient: Amounts,
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
        let stage = stage_with(job, &[])?;
        let room = Room::new(stage.geometry.clone(), fineness, seed);
        let points = face_points(&stage, 0, job.viewpoint.position);
        let meters = AtMeters::new(job, &stage, &room, &points);
        let operator = Operator::solve(&room, &meters.in_order());
        let maps = flash_places(job, flash)
            .into_iter()
            .enumerate()
            .map(|(index, place)| match index {
                0 => AimMap::new(&room, &operator, place),
                // One of many: those that come to something are mapped again.
                _ => AimMap::in_passing(&room, &operator, place),
            })
            .collect();
        let ambients = ambients_there(job, &stage, &room, &points);
        Ok(Survey {
            stage,
            room,
            meters,
            operator,
            maps,
            ambient: sum_of(&ambients),
            ambients,
        })
    }
}
