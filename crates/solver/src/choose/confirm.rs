//! The referee: which of the best ways is the answer, and what the path tracer says of it.

use crate::judge::judged::{Judged, judge, usable};
use crate::judge::settings::{levels_at, picture_at};
use crate::place::boards::panels_of;
use crate::place::fine::FinePlace;
use crate::practice::TOO_CLOSE_POINTS;
use crate::ways::fine::{Fine, fine, fine_in};
use crate::ways::light::FaceLight;
use crate::ways::scout::Scout;
use crate::ways::way::aim;
use answer::{Confirmation, Failure};
use glam::Vec3;
use std::sync::Arc;
use transport::{Guide, Meter, Reading, read_meters};
use units::Stops;

/// Paths of the referee for each meter.
const REFEREE_PATHS: usize = 1 << 14;
/// The referee is asked about this many ways at most.
const MOST_CONFIRMED: usize = 3;

/// Which way is the answer once the referee has been asked about those that are too close to call, and
/// that way in its finely solved room.
pub(crate) fn confirmed(scout: &Scout<'_>, best: &[Judged]) -> Result<(usize, Fine), Failure> {
    let Scout { job, seed, .. } = *scout;
    let first = best.iter().position(|judged| usable(job, judged)).unwrap_or(0);
    let (class, points) = best[first].rank();
    let close: Vec<usize> = (first..best.len())
        .filter(|&i| best[i].rank().0 == class && best[i].rank().1 < points + TOO_CLOSE_POINTS)
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
        referee_light(scout, &fine, &mut way.light);
        let rank = judge(scout, way)?.rank();
        if held.as_ref().is_none_or(|(before, _, _)| rank < *before) {
            held = Some((rank, index, fine));
        }
    }
    let (_, index, fine) = held.expect("at least two were asked about");
    Ok((index, fine))
}

/// What the referee reads of a way at the meters that decide.
fn referee_light(scout: &Scout<'_>, fine: &Fine, light: &mut FaceLight) {
    let points = &fine.place.points;
    let [x, y, z] = points.along;
    let [left, right] = points.cheeks;
    let [dome, x, y, z, left, right] = referee(
        fine,
        [points.dome, x, y, z, left, right],
        REFEREE_PATHS / 2,
        scout.seed,
    );
    let weights = scout.job.bag.flash.colour().luminous_weights();
    let luminous = |reading: &Reading| reading.mean.dot(&weights);
    light.zones.dome = dome.mean;
    light.zones.cheeks = [left.mean, right.mean];
    light.amounts.dome = luminous(&dome);
    light.amounts.vector = Vec3::from_array([x, y, z].map(|along| luminous(&along)));
    light.amounts.cheeks = [left, right].map(|cheek| luminous(&cheek));
}

/// Asks the unbiased path tracer about the chosen aim; `chosen` is what the solved room says of it.
pub(crate) fn confirm(scout: &Scout<'_>, fine: &Fine, chosen: &Judged) -> Confirmation {
    let points = &fine.place.points;
    let [x, y, z] = points.along;
    let [dome, x, y, z] = referee(fine, [points.dome, x, y, z], REFEREE_PATHS, scout.seed);
    let weights = scout.job.bag.flash.colour().luminous_weights();
    let error = f64::from(dome.standard_error.dot(&weights));
    let found = f64::from(dome.mean.dot(&weights)).max(1e-12);
    // The referee traces the flash; the light that is there is the same in both readings.
    let mut way = chosen.way.clone();
    way.light.amounts.vector = Vec3::from_array([x, y, z].map(|along| along.mean.dot(&weights)));
    let levels = levels_at(scout, way.light.dose(), &chosen.settings);
    let picture = picture_at(scout, &way, &levels);
    let (azimuth_deg, elevation_deg) = picture.direction(scout.survey.stage.sitters[0].facing);
    Confirmation {
        difference: Stops((found / chosen.way.light.dose().max(1e-12)).log2()),
        standard_error: (error / found) / std::f64::consts::LN_2,
        azimuth_deg,
        elevation_deg,
    }
}

/// The referee's readings of some meters.
fn referee<const N: usize>(fine: &Fine, meters: [Meter; N], paths: usize, seed: u64) -> [Reading; N] {
    let room = &fine.place.room;
    let guide = Guide::new(room, &fine.light.radiosity);
    let radiosity = Some(fine.light.radiosity.as_slice());
    let read = read_meters(room, &fine.source, Some(&guide), radiosity, &meters, paths, seed);
    read.try_into().expect("one reading for each meter")
}
