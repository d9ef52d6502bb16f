//! What a way of lighting does to the faces, read from the finely solved place.

use crate::place::ambient::{FACE_RAYS, ZONE_RAYS, background_light};
use crate::place::boards::panels_of;
use crate::place::fine::{FinePlace, aimed};
use crate::place::meters::{background_points, face_points};
use crate::ways::light::FaceLight;
use crate::ways::way::{Way, aim};
use answer::{Aim, Failure, Job, Route};
use colour::{LightColour, Spectrum};
use glam::Vec3;
use scene::figure::LandmarkName;
use std::sync::Arc;
use transport::{Meter, PlacedFlash, SolvedLight, Source, read_light};

/// A way in its finely solved place.
pub(crate) struct Fine {
    pub place: Arc<FinePlace>,
    pub source: Source,
    pub light: SolvedLight,
    pub face: FaceLight,
    pub zones: FlashZones,
}

/// A way in a finely solved place of its own.
pub(crate) fn fine(job: &Job, way: &Way, seed: u64) -> Result<Fine, Failure> {
    let aim = aim(job, way);
    let place = FinePlace::new(job, &panels_of(job, &aim), seed)?;
    fine_in(job, Arc::new(place), way, &aim)
}

/// A way in a finely solved place that holds all the boards it brings.
pub(crate) fn fine_in(job: &Job, place: Arc<FinePlace>, way: &Way, aim: &Aim) -> Result<Fine, Failure> {
    let flash = aimed(job, aim, way.zoom_mm, way.dress)?;
    let source = Source::Flash(flash.clone());
    let light = place.room.solve(&source);
    let face = read_face(job, &place, &flash, &light, way);
    let FinePlace {
        stage, room, points, ..
    } = &*place;
    let zones = FlashZones {
        dome: face.dome,
        cheeks: points
            .cheeks
            .map(|cheek| read_light(room, &source, &light, &cheek, ZONE_RAYS)),
        background: background_light(room, &source, &light, &background_points(job, stage, room)),
    };
    Ok(Fine {
        place,
        source,
        light,
        face,
        zones,
    })
}

/// Everything that the flash does to the faces, read from a finely solved room.
fn read_face(job: &Job, place: &FinePlace, flash: &PlacedFlash, light: &SolvedLight, way: &Way) -> FaceLight {
    let FinePlace {
        stage, room, points, ..
    } = place;
    let weights = job.bag.flash.colour().luminous_weights();
    let source = &Source::Flash(flash.clone());
    let read = |meter: &Meter| read_light(room, source, light, meter, FACE_RAYS);
    let luminous = |meter: &Meter| read(meter).dot(&weights);
    let landmark = |name: LandmarkName| luminous(&points.landmark(name));
    let direct = points.dome.read_direct(room, flash);
    let first = match way.route {
        Route::Direct => Spectrum::splat(direct),
        _ => read_light(room, source, &light.first_bounce(room), &points.dome, FACE_RAYS)
            .map(|with_spill| (with_spill - direct).max(0.0)),
    };
    let others = 1..stage.sitters.len();
    FaceLight {
        dome: read(&points.dome),
        first,
        direct,
        vector: Vec3::from_array(points.along.map(|along| luminous(&along))),
        key_direction: way.light.key_direction,
        spill_vector: Vec3::ZERO,
        spill_cheeks: [0.0; 2],
        spill_forehead: 0.0,
        cheeks: points.cheeks.map(|meter| luminous(&meter)),
        forehead: landmark(LandmarkName::Forehead),
        sockets: 0.5 * (landmark(LandmarkName::EyeSocketLeft) + landmark(LandmarkName::EyeSocketRight)),
        background: way.light.background,
        others: others
            .map(|i| luminous(&face_points(stage, i, job.viewpoint.position).dome))
            .collect(),
        softness: way.light.softness,
        landmarks: points
            .landmarks
            .iter()
            .map(|(name, meter)| (*name, luminous(meter)))
            .collect(),
    }
}

/// The flash's light where colour is judged, per band of a flat flash; only proportions count.
#[derive(Clone, Debug)]
pub(crate) struct FlashZones {
    pub dome: Spectrum,
    pub cheeks: [Spectrum; 2],
    pub background: Spectrum,
}

impl FlashZones {
    /// From a way that was not yet solved finely: cheeks and background get the colour of the dome.
    pub fn of(light: &FaceLight, colour: &LightColour) -> Self {
        let dose = light.dose(colour).max(1e-12) as f32;
        FlashZones {
            dome: light.dome,
            cheeks: light.cheeks.map(|cheek| light.dome * (cheek / dose)),
            background: light.dome * (light.background / dose),
        }
    }
}
