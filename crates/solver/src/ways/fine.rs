//! What a way of lighting does to the faces, read from the finely solved place.

use crate::place::ambient::{FACE_RAYS, SKIN_RAYS};
use crate::place::amounts::Amounts;
use crate::place::fine::FinePlace;
use crate::place::meters::AtMeters;
use crate::ways::light::{FaceLight, FlashZones};
use crate::ways::way::Way;
use answer::{Job, Route};
use colour::Spectrum;
use rayon::prelude::*;
use std::sync::Arc;
use transport::{Meter, PlacedFlash, SolvedLight, Source, read_light};

/// A way in its finely solved place.
pub(crate) struct Fine {
    pub place: Arc<FinePlace>,
    pub source: Source,
    pub light: SolvedLight,
    pub face: FaceLight,
}

/// A way with its flash in a finely solved place that holds all the boards it brings.
pub(crate) fn fine_in(job: &Job, place: Arc<FinePlace>, way: &Way, flash: PlacedFlash) -> Fine {
    let source = Source::Flash(flash.clone());
    let light = place.room.solve(&source);
    let face = read_face(job, &place, &flash, &light, way);
    Fine {
        place,
        source,
        light,
        face,
    }
}

/// Everything that the flash does to the faces, read from a finely solved room.
fn read_face(job: &Job, place: &FinePlace, flash: &PlacedFlash, light: &SolvedLight, way: &Way) -> FaceLight {
    let FinePlace {
        stage, room, points, ..
    } = place;
    let weights = job.bag.flash.colour().luminous_weights();
    let source = &Source::Flash(flash.clone());
    let read_with = |meter: Meter, rays: usize| read_light(room, source, light, &meter, rays);
    let read = |meter: Meter| read_with(meter, FACE_RAYS);
    let meters = AtMeters::new(job, stage, room, points);
    let (all, straight) = (
        meters.read(read),
        meters.read(|meter| meter.read_direct(room, flash)),
    );
    let first = match way.route {
        Route::Direct => Spectrum::splat(straight.dome),
        _ => read_light(room, source, &light.first_bounce(room), &points.dome, FACE_RAYS)
            .map(|with_spill| (with_spill - straight.dome).max(0.0)),
    };
    let landmarks = points.seen.par_iter();
    let landmarks = landmarks.map(|&(name, meter)| (name, read(meter).dot(&weights)));
    let skin = points.skin.par_iter();
    let skin = skin.map(|&(normal, meter)| (normal, read_with(meter, SKIN_RAYS).dot(&weights)));
    FaceLight {
        amounts: Amounts {
            landmarks: landmarks.collect(),
            skin: skin.collect(),
            ..Amounts::of(&all, &weights)
        },
        spill: Amounts::luminous(&straight),
        zones: FlashZones::of(&all),
        first,
        key_direction: way.light.key_direction,
        softness: way.light.softness,
    }
}
