//! The referee: which of the best ways is the answer, and what the path tracer says of it.

use crate::judge::judged::{Judged, judge, usable};
use crate::place::boards::panels_of;
use crate::place::fine::FinePlace;
use crate::place::survey::Survey;
use crate::ways::fine::{Fine, fine, fine_in};
use crate::ways::light::{FaceLight, angles};
use crate::ways::way::aim;
use answer::{Confirmation, Failure, Job};
use glam::Vec3;
use std::sync::Arc;
use transport::{Guide, Meter, Reading, read_meters};
use units::Stops;

/// Paths of the referee for each meter.
const REFEREE_PATHS: usize = 1 << 14;
/// Ways this close behind the best, in points, are shown to the referee before one is called the answer.
const TOO_CLOSE: f64 = 0.4;
/// The referee is asked about this many ways at most.
const MOST_CONFIRMED: usize = 3;

/// Which way is the answer once the referee has been asked about those that are too close to call, and
/// that way in its finely solved room.
pub(crate) fn confirmed(
    job: &Job,
    survey: &Survey,
    best: &[Judged],
    seed: u64,
) -> Result<(usize, Fine), Failure> {
    let first = best.iter().position(|judged| usable(job, judged)).unwrap_or(0);
    let (class, points) = best[first].rank();
    let close: Vec<usize> = (first..best.len())
        .filter(|&i| best[i].rank().0 == class && best[i].rank().1 < points + TOO_CLOSE)
        .filter(|&i| usable(job, &best[i]))
        .take(MOST_CONFIRMED)
        .collect();
    if close.len() < 2 {
        return Ok((first, fine(job, &best[first].way, seed)?));
    }
    let mut held: Option<((bool, f64), usize, Fine)> = None;
    // Ways that bring nothing into the place are read in one and the same.
    let mut bare: Option<Arc<FinePlace>> = None;
    for index in close {
        let mut way = best[index].way.clone();
        let aim = aim(job, &way);
        let panels = panels_of(job, &aim);
        let place = match &bare {
            Some(place) if panels.is_empty() => Arc::clone(place),
            _ => Arc::new(FinePlace::new(job, &panels, seed)?),
        };
        if panels.is_empty() {
            bare = Some(Arc::clone(&place));
        }
        let fine = fine_in(job, place, &way, &aim)?;
        referee_light(job, &fine, &mut way.light, seed);
        let rank = judge(job, survey, way)?.rank();
        let better = held
            .as_ref()
            .is_none_or(|(before, _, _)| (rank.0, rank.1) < (before.0, before.1));
        if better {
            held = Some((rank, index, fine));
        }
    }
    let (_, index, fine) = held.expect("at least two were asked about");
    Ok((index, fine))
}

/// What the referee reads of a way at the meters that decide.
fn referee_light(job: &Job, fine: &Fine, light: &mut FaceLight, seed: u64) {
    let points = &fine.place.points;
    let meters: Vec<Meter> = [points.dome]
        .into_iter()
        .chain(points.along)
        .chain(points.cheeks)
        .collect();
    let guide = Guide::new(&fine.place.room, &fine.light.radiosity);
    let radiosity = Some(fine.light.radiosity.as_slice());
    let readings = read_meters(
        &fine.place.room,
        &fine.source,
        Some(&guide),
        radiosity,
        &meters,
        REFEREE_PATHS / 2,
        seed,
    );
    let weights = job.bag.flash.colour().luminous_weights();
    let &[dome, x, y, z, left, right] = &readings[..] else {
        unreachable!("six meters were read")
    };
    let luminous = |reading: Reading| reading.mean.dot(&weights);
    light.dome = dome.mean;
    light.vector = Vec3::from_array([x, y, z].map(luminous));
    light.cheeks = [left, right].map(luminous);
}

/// Asks the unbiased path tracer about the chosen aim.
pub(crate) fn confirm(job: &Job, fine: &Fine, dose: f64, facing: Vec3, seed: u64) -> Confirmation {
    let guide = Guide::new(&fine.place.room, &fine.light.radiosity);
    let points = &fine.place.points;
    let meters: Vec<Meter> = [points.dome].into_iter().chain(points.along).collect();
    let weights = job.bag.flash.colour().luminous_weights();
    let light = Some(fine.light.radiosity.as_slice());
    let readings = read_meters(
        &fine.place.room,
        &fine.source,
        Some(&guide),
        light,
        &meters,
        REFEREE_PATHS,
        seed,
    );
    let luminous = |i: usize| f64::from(readings[i].mean.dot(&weights));
    let error = f64::from(readings[0].standard_error.dot(&weights));
    let vector = Vec3::new(luminous(1) as f32, luminous(2) as f32, luminous(3) as f32);
    let (azimuth_deg, elevation_deg) = angles(vector, facing);
    let dome = luminous(0).max(1e-12);
    Confirmation {
        difference: Stops((dome / dose.max(1e-12)).log2()),
        standard_error: (error / dome) / std::f64::consts::LN_2,
        azimuth_deg,
        elevation_deg,
    }
}
