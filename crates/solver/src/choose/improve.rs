//! Closer and closer around a way: a compass search.

use crate::choose::kind::kind_of;
use crate::judge::judged::{Judged, judge};
use crate::place::amounts::{angles, towards};
use crate::place::flash_places::can_stand;
use crate::ways::attempts::board_at;
use crate::ways::compute::{compute, compute_board, compute_from};
use crate::ways::scout::Scout;
use crate::ways::way::{Attempt, OFF_THE_GRID, Way, pose_of, with_zoom};
use answer::{Failure, Job, Route};
use glam::Vec3;
use light::HeadDress;
use transport::AimMap;

/// Steps of the compass search over a surface, in metres.
const STEPS_M: [f32; 3] = [0.15, 0.075, 0.0375];
/// Steps of the compass search for a board: degrees round and up, metres nearer.
const BOARD_STEPS: [(f64, f64, f32); 2] = [(7.0, 5.0, 0.1), (3.0, 2.0, 0.05)];
/// Steps of the compass search for a flash off the camera: degrees round and up, metres further.
const STAND_STEPS: [(f64, f64, f32); 3] = [(12.0, 10.0, 0.3), (6.0, 5.0, 0.15), (3.0, 2.5, 0.08)];
/// Moves at one step before the step is halved.
const MOST_MOVES: usize = 6;

/// Compass search around a way.
pub(crate) fn improve(scout: &Scout<'_>, start: Judged) -> Result<Judged, Failure> {
    let job = scout.job;
    // So far it was only judged in passing.
    let start = judge(scout, start.way)?;
    match &start.way.route {
        Route::Bounce { .. } => improve_bounce(scout, start),
        Route::HeldBoard { .. } => improve_board(scout, start),
        Route::Direct if start.way.place > 0 => improve_stand(scout, start),
        Route::Direct | Route::Standing { .. } | Route::Open => {
            let zooms: Vec<f64> = job.bag.flash.zooms().collect();
            let tried = zooms.iter().map(|&zoom| with_zoom(&start.way, zoom));
            better_of(scout, &start, tried.collect()).map(|found| found.unwrap_or(start))
        }
    }
}

/// The best of some attempts, when it is of the same kind as a way and better.
fn better_of(scout: &Scout<'_>, than: &Judged, attempts: Vec<Attempt>) -> Result<Option<Judged>, Failure> {
    let kind = kind_of(&than.way);
    let mut best: Option<Judged> = None;
    for attempt in &attempts {
        let Some(way) = compute(scout, attempt) else {
            continue;
        };
        if kind_of(&way) != kind {
            continue;
        }
        let judged = judge(scout, way)?;
        if judged.before(best.as_ref().unwrap_or(than)) {
            best = Some(judged);
        }
    }
    Ok(best)
}

fn improve_bounce(scout: &Scout<'_>, start: Judged) -> Result<Judged, Failure> {
    let job = scout.job;
    let mut held = start;
    let mut zooms: Vec<f64> = job.bag.flash.zooms().collect();
    zooms.sort_by(f64::total_cmp);
    for step in STEPS_M {
        for _ in 0..MOST_MOVES {
            let mut around = beside(job, &held.way, step);
            let at = zooms.iter().position(|&z| (z - held.way.zoom_mm).abs() < 0.05);
            for next in at
                .into_iter()
                .flat_map(|i| [i.checked_sub(1), Some(i + 1)])
                .flatten()
            {
                if let Some(&zoom) = zooms.get(next) {
                    around.push(with_zoom(&held.way, zoom));
                }
            }
            match better_of(scout, &held, around)? {
                Some(better) => held = better,
                None => break,
            }
        }
    }
    Ok(held)
}

/// The eight aims a step away on the same face.
fn beside(job: &Job, way: &Way, step: f32) -> Vec<Attempt> {
    let Route::Bounce { face, .. } = way.route else {
        return Vec::new();
    };
    let (corner, a, b) = job.place.room.face_frame(face);
    let (along, up) = (a.normalize(), b.normalize());
    let local = way.target - corner;
    let mut attempts = Vec::new();
    for (i, j) in [
        (-1, -1),
        (0, -1),
        (1, -1),
        (-1, 0),
        (1, 0),
        (-1, 1),
        (0, 1),
        (1, 1),
    ] {
        let u = local.dot(along) + step * i as f32;
        let v = local.dot(up) + step * j as f32;
        if (0.0..=a.length()).contains(&u) && (0.0..=b.length()).contains(&v) {
            attempts.push(Attempt {
                route: Route::Bounce {
                    face,
                    corner_with: None,
                },
                place: way.place,
                target: corner + along * u + up * v,
                zoom_mm: way.zoom_mm,
                dress: way.dress,
            });
        }
    }
    attempts
}

/// A flash that shines straight at the face from a stand or a hand, moved about the face: round, up and down, nearer and
/// further, at every zoom. On the way only what comes straight from it is exact; where it ends everything is read anew.
fn improve_stand(scout: &Scout<'_>, start: Judged) -> Result<Judged, Failure> {
    let Scout { job, survey, .. } = *scout;
    let person = &survey.stage.sitters[0];
    let zooms: Vec<f64> = match start.way.dress {
        HeadDress::Bare => job.bag.flash.zooms().collect(),
        _ => vec![start.way.zoom_mm],
    };
    let mut held = start.clone();
    for (round, up, further) in STAND_STEPS {
        for _ in 0..MOST_MOVES {
            let away = held.way.flash - person.face;
            let (azimuth, elevation) = angles(away, person.facing);
            let moves = [
                (round, 0.0, 0.0),
                (-round, 0.0, 0.0),
                (0.0, up, 0.0),
                (0.0, -up, 0.0),
                (0.0, 0.0, further),
                (0.0, 0.0, -further),
            ];
            let places = moves.into_iter().map(|(da, de, dd)| {
                let metres = away.length() + dd;
                person.face + towards(person.facing, azimuth + da, elevation + de) * metres
            });
            let mut best: Option<Judged> = None;
            for place in places.filter(|place| can_stand(job, *place, held.way.dress)) {
                let map = AimMap::in_passing(&survey.room, &survey.operator, place);
                for judged in from_there(scout, &map, &held.way, &zooms)? {
                    if judged.before(best.as_ref().unwrap_or(&held)) {
                        best = Some(judged);
                    }
                }
            }
            match best {
                Some(better) => held = better,
                None => break,
            }
        }
    }
    let map = AimMap::coarse(&survey.room, &survey.operator, held.way.flash);
    let found = from_there(scout, &map, &held.way, &[held.way.zoom_mm])?.pop();
    Ok(found.filter(|found| found.before(&start)).unwrap_or(start))
}

/// A flash that keeps its target, from the place of a map and at some zooms.
fn from_there(scout: &Scout<'_>, map: &AimMap, way: &Way, zooms: &[f64]) -> Result<Vec<Judged>, Failure> {
    let ways = zooms.iter().filter_map(|&zoom_mm| {
        let attempt = Attempt {
            place: OFF_THE_GRID,
            ..with_zoom(way, zoom_mm)
        };
        compute_from(scout, map, &attempt)
    });
    ways.map(|way| judge(scout, way)).collect()
}

fn improve_board(scout: &Scout<'_>, start: Judged) -> Result<Judged, Failure> {
    let Scout { job, survey, .. } = *scout;
    let person = &survey.stage.sitters[0];
    let zooms: Vec<f64> = job.bag.flash.zooms().collect();
    let mut held = start;
    for (round, up, nearer) in BOARD_STEPS {
        for _ in 0..MOST_MOVES {
            let Some(pose) = pose_of(&held.way) else {
                break;
            };
            let offset: Vec3 = pose.centre - person.face;
            let (azimuth, elevation) = angles(offset, person.facing);
            let mut best: Option<Judged> = None;
            for (da, de, dd) in [
                (0.0, 0.0, 0.0f32),
                (round, 0.0, 0.0),
                (-round, 0.0, 0.0),
                (0.0, up, 0.0),
                (0.0, -up, 0.0),
                (0.0, 0.0, nearer),
                (0.0, 0.0, -nearer),
            ] {
                let distance = (offset.length() + dd).max(0.7);
                let moved = board_at(
                    scout,
                    pose.place,
                    pose.board,
                    azimuth + da,
                    elevation + de,
                    distance,
                );
                for way in moved.iter().flat_map(|pose| compute_board(scout, pose, &zooms)) {
                    let judged = judge(scout, way)?;
                    if judged.before(best.as_ref().unwrap_or(&held)) {
                        best = Some(judged);
                    }
                }
            }
            match best {
                Some(better) => held = better,
                None => break,
            }
        }
    }
    Ok(held)
}
