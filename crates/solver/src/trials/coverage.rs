//! Is the truth within the stated error as often as it says: nine times in ten?
//!
//! The inputs of ten rooms are disturbed by their stated spreads, fifty times each: paint, the three
//! sizes of the room, the strength of the flash, and furniture that was not described. The answer's flash,
//! aimed and set as it was, is then read in the disturbed place.

use super::{Dice, ROOMS, random_job, surface};
use crate::explain::sensitivity::scaled_by;
use crate::later::distances::way_of;
use crate::place::survey::Survey;
use crate::practice::spread;
use crate::ways::beams::Beams;
use crate::ways::compute::light_of;
use crate::ways::light::FaceLight;
use crate::ways::scout::Scout;
use crate::ways::way::Way;
use answer::Job;
use glam::Vec3;
use rayon::prelude::*;
use scene::Block;
use transport::Fineness;

const DRAWS: usize = 50;

#[test]
fn nine_in_ten_lie_within_the_stated_error() {
    let mut inside = 0;
    let mut report = Vec::new();
    for room in 0..ROOMS {
        let (within, stated, spread) = check(room);
        report.push(format!("{within} (stated {stated:.2}, found {spread:.2})"));
        inside += within;
    }
    let share = inside as f64 / (ROOMS * DRAWS) as f64;
    assert!(
        (0.80..=0.97).contains(&share),
        "within the stated error: {:.1} % of all; by room: {}",
        100.0 * share,
        report.join(", ")
    );
}

/// How many draws of a room lie within the stated error, that error, and the standard deviation found.
fn check(room: usize) -> (usize, f64, f64) {
    let job = random_job(room);
    let answer = crate::answer(&job, 1).unwrap();
    let beams = Beams::of(&job).unwrap();
    let way = way_of(&answer);
    let read = |variant: &Job, way: &Way| -> Option<FaceLight> {
        let survey = Survey::new(variant, Fineness::SKETCH, 1).ok()?;
        light_of(&Scout::new(variant, &survey, &beams, 1), way)
    };
    let expected = read(&job, &way).unwrap().dose();
    let guide = job.bag.flash.spread().guide_stops;
    let off: Vec<f64> = (0..DRAWS)
        .into_par_iter()
        .map(|draw| {
            let mut dice = Dice::new((10_000 + room * DRAWS + draw) as u64);
            let strength = guide * dice.normal();
            let variant = disturbed(&job, &mut dice);
            let ratio = variant.place.room.size / job.place.room.size;
            let mut way = way.clone();
            way.target *= Vec3::new(ratio.x, ratio.y, 1.0);
            let light = read(&variant, &way).unwrap();
            (light.dose() / expected).log2() + strength
        })
        .collect();
    let within = off.iter().filter(|o| o.abs() <= answer.uncertainty.stops).count();
    let mean = off.iter().sum::<f64>() / DRAWS as f64;
    let spread = (off.iter().map(|o| (o - mean).powi(2)).sum::<f64>() / DRAWS as f64).sqrt();
    (within, answer.uncertainty.stops, spread)
}

/// The job with every input a little different, as a photographer's guesses are.
fn disturbed(job: &Job, dice: &mut Dice) -> Job {
    let mut variant = job.clone();
    for axis in 0..2 {
        variant = scaled_by(
            &variant,
            axis,
            (1.0 + spread::DISTANCE * dice.normal()).clamp(0.82, 1.18) as f32,
        );
    }
    let tall = job.sitters[0].face_height + 0.25;
    let height = job.place.room.size.z * (1.0 + spread::DISTANCE * dice.normal()) as f32;
    variant.place.room.size.z = height.max(tall).max(job.viewpoint.position.z + 0.25);
    for material in &mut variant.place.room.materials {
        let factor = (spread::PAINT * dice.normal()).exp() as f32;
        material.reflectance = material.reflectance.map(|r| (r * factor).min(0.95));
    }
    for piece in 0..3 {
        furnish(&mut variant, dice, piece);
    }
    variant
}

/// A piece of furniture by a wall, out of the way of sitter and camera.
fn furnish(job: &mut Job, dice: &mut Dice, piece: usize) {
    let room = job.place.room.size;
    let (wide, deep) = (dice.within(0.5, 1.8) as f32, dice.within(0.35, 0.9) as f32);
    let high = dice.within(0.4, 1.9) as f32;
    let at_left = dice.unit() < 0.5;
    let along = dice.within(0.05, f64::from((room.y - wide - 0.05).max(0.06))) as f32;
    let (low, top) = if at_left {
        (0.02, 0.02 + deep)
    } else {
        (room.x - deep - 0.02, room.x - 0.02)
    };
    let block = Block {
        name: format!("furniture {piece}"),
        min: Vec3::new(low, along, 0.0),
        max: Vec3::new(top, along + wide, high),
        material: surface(dice.pick(&["oak", "pine", "deep green", "dark wood", "curtain", "light grey"])),
    };
    let near = |point: Vec3| {
        let nearest = point.clamp(block.min, block.max);
        (nearest - point).truncate().length() < 0.6
    };
    if !near(job.sitters[0].stand) && !near(job.viewpoint.position) {
        job.place.blocks.push(block);
    }
}
