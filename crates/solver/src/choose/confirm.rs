//! Which of the best ways is the answer, read in its finely solved place, and what the referee says of it.

use crate::choose::alternatives::picked;
use crate::judge::judged::{Judged, judge};
use crate::judge::settings::{levels_at, picture_at};
use crate::place::boards::panels_of;
use crate::place::fine::FinePlace;
use crate::practice::{EQUAL_POINTS, TOO_CLOSE_POINTS};
use crate::ways::fine::{Fine, fine_in};
use crate::ways::scout::Scout;
use crate::ways::way::{Way, aim};
use answer::{Confirmation, Failure, Judgement, WishKind};
use glam::Vec3;
use std::sync::Arc;
use transport::{Guide, Meter, PlacedFlash, Reading, Source, read_meters};
use units::Stops;

/// Paths of the referee for each meter.
const REFEREE_PATHS: usize = 1 << 14;
/// Ways that are close to the best are read finely as well, up to so many in all.
const MOST_CLOSE: usize = 4;
/// Ways that the coarse place calls better than the best that was read finely, up to so many in all.
const MOST_READ: usize = 6;
/// Other answers that are read finely until those that are told have been.
const MOST_ALTERNATIVES: usize = 4;

/// A way that was chosen among those that are too close to call, as its finely solved place reads it. It leaves `best`, in
/// which those that were read finely stand by that reading.
///
/// The coarse place cannot tell close ways apart, so they are judged by what is shown in the end: the finely solved place,
/// each with its own boards in it. `plain` is that place with nothing brought into it, once somebody has solved it.
pub(crate) fn confirmed(
    scout: &Scout<'_>,
    best: &mut Vec<Judged>,
    plain: &mut Option<Arc<FinePlace>>,
) -> Result<(Judged, Fine), Failure> {
    let mut held: Option<(usize, Fine)> = None;
    for count in 0..MOST_READ {
        let unread = (0..best.len()).filter(|&at| !best[at].finely());
        let hope = unread.min_by(|&a, &b| best[a].by_rank(&best[b]));
        let next = match (hope, &held) {
            (Some(hope), Some((at, _))) if !worth_reading(&best[hope], &best[*at], count) => break,
            (Some(hope), _) => hope,
            (None, Some(_)) => break,
            (None, None) => 0,
        };
        let fine = read_finely(scout, &best[next].way, plain)?;
        best[next] = finished(scout, &best[next], &fine)?;
        if held
            .as_ref()
            .is_none_or(|(at, _)| preferred(&best[next], &best[*at]))
        {
            held = Some((next, fine));
        }
    }
    let (at, fine) = held.expect("the first is read whatever it is");
    let chosen = best.remove(at);
    best.sort_by(Judged::by_rank);
    Ok((chosen, fine))
}

/// The choice once the other answers are read in their finely solved places as well, so that all that is told of them comes
/// from there. One that turns out better than what was chosen takes its place.
pub(crate) fn with_alternatives(
    scout: &Scout<'_>,
    chosen: (Judged, Fine),
    best: &mut [Judged],
    plain: &mut Option<Arc<FinePlace>>,
) -> Result<(Judged, Fine), Failure> {
    let (mut held, mut held_fine) = chosen;
    for _ in 0..MOST_ALTERNATIVES {
        let picked = picked(scout.job, &held, best).into_iter();
        let Some((at, _)) = picked.into_iter().find(|(at, _)| !best[*at].finely()) else {
            break;
        };
        let fine = read_finely(scout, &best[at].way, plain)?;
        best[at] = finished(scout, &best[at], &fine)?;
        if best[at].before(&held) {
            std::mem::swap(&mut best[at], &mut held);
            held_fine = fine;
        }
        best.sort_by(Judged::by_rank);
    }
    Ok((held, held_fine))
}

/// A way in its finely solved place. Those that bring nothing into it are read in one and the same.
fn read_finely(scout: &Scout<'_>, way: &Way, plain: &mut Option<Arc<FinePlace>>) -> Result<Fine, Failure> {
    let job = scout.job;
    let aim = aim(job, way);
    let panels = panels_of(job, &aim);
    let place = match plain {
        Some(place) if panels.is_empty() => Arc::clone(place),
        _ => Arc::new(FinePlace::new(job, &panels, scout.seed)?),
    };
    if panels.is_empty() {
        *plain = Some(Arc::clone(&place));
    }
    let window = job.bag.flash.window_of(way.dress);
    let beam = scout.beams.beam(way.zoom_mm, way.dress).clone();
    let flash = PlacedFlash::aimed(beam, aim.flash, aim.target, window);
    Ok(fine_in(job, place, way, flash))
}

/// Whether a way may still turn out better than the one that is held.
fn worth_reading(hope: &Judged, held: &Judged, count: usize) -> bool {
    let ((hope_class, hope_points), (class, points)) = (hope.rank(), held.rank());
    let close = hope_class == class && hope_points < points + TOO_CLOSE_POINTS;
    hope.before(held) || (close && count < MOST_CLOSE)
}

/// Whether a way is preferred to another: for fewer points, and of two that are equally good for the key that is nearer to
/// the one that was asked, for that is what a photographer sees first.
fn preferred(one: &Judged, other: &Judged) -> bool {
    let ((class, points), (other_class, other_points)) = (one.rank(), other.rank());
    match class == other_class && (points - other_points).abs() < EQUAL_POINTS {
        true => key_points(one) < key_points(other),
        false => one.before(other),
    }
}

/// Points of where the key comes from.
fn key_points(judged: &Judged) -> f64 {
    let of_key =
        |wish: &&Judgement| matches!(wish.kind, WishKind::Direction | WishKind::Height | WishKind::Eyes);
    judged.wishes.iter().filter(of_key).map(|wish| wish.points).sum()
}

/// A way as its finely solved place reads it, judged there: what is shown comes from this reading and from no other.
fn finished(scout: &Scout<'_>, coarse: &Judged, fine: &Fine) -> Result<Judged, Failure> {
    let mut way = coarse.way.clone();
    way.light = fine.face.clone();
    let judged = judge(&in_fine_place(scout, fine), way)?;
    Ok(Judged {
        coarsely: Some(coarse.points),
        ..judged
    })
}

/// The scout among the lights of a finely solved place.
pub(crate) fn in_fine_place<'a>(scout: &Scout<'a>, fine: &'a Fine) -> Scout<'a> {
    Scout {
        lights: &fine.place.ambients,
        ambient: &fine.place.ambient,
        ..*scout
    }
}

/// Asks the unbiased path tracer about the chosen aim; `chosen` is what the solved room says of it.
pub(crate) fn confirm(scout: &Scout<'_>, fine: &Fine, chosen: &Judged) -> Confirmation {
    let points = &fine.place.points;
    let [x, y, z] = points.along;
    let meters = [points.dome, x, y, z];
    let read = referee(fine, meters, REFEREE_PATHS, scout.seed);
    let weights = scout.job.bag.flash.colour().luminous_weights();
    // The referee has no flag in its scene: what one keeps off is the light straight from the head, which is known exactly.
    let kept_off = |meter: Meter| match &fine.source {
        Source::Flash(flash) if chosen.way.flagged => meter.read_direct(&fine.place.room, flash),
        _ => 0.0,
    };
    let [dome, x, y, z] = std::array::from_fn(|at| read[at].mean.dot(&weights) - kept_off(meters[at]));
    let error = f64::from(read[0].standard_error.dot(&weights));
    let found = f64::from(dome).max(1e-12);
    // The referee traces the flash; the light that is there is the same in both readings.
    let mut way = chosen.way.clone();
    way.light.amounts.vector = Vec3::new(x, y, z);
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

#[cfg(test)]
mod tests {
    use super::*;
    use crate::trials::made_up;
    use answer::Wish;

    fn judged(points: f64, off_deg: f64) -> Judged {
        let mut judged = made_up::judged(made_up::way(), points);
        let asked = Wish::KeyHeight { elevation_deg: 30.0 };
        judged.wishes = vec![Judgement::new(asked, 30.0 + off_deg, off_deg, 15.0, 1.0)];
        judged
    }

    #[test]
    fn of_equally_good_ways_the_one_with_the_better_key_is_preferred() {
        let check = |one: (f64, f64), other: (f64, f64), expected: bool| {
            let [one, other] = [one, other].map(|(points, off_deg)| judged(points, off_deg));
            assert_eq!(preferred(&one, &other), expected, "{one:?} to {other:?}");
        };
        check((1.0, 0.0), (2.0, 0.0), true);
        check((1.02, 2.0), (1.0, 8.0), true);
        check((1.0, 8.0), (1.02, 2.0), false);
        check((1.2, 2.0), (1.0, 8.0), false);
    }
}
