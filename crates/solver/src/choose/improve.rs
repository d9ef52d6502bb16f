//! Closer and closer around a way: a compass search.

use crate::choose::kind::kind_of;
use crate::judge::judged::{Judged, judge};
use crate::ways::attempts::board_at;
use crate::ways::compute::{compute, compute_board};
use crate::place::amounts::angles;
use crate::ways::scout::Scout;
use crate::ways::way::{Attempt, Way, pose_of, with_zoom};
use answer::{Failure, Job, Route};
use glam::Vec3;

/// Steps of the compass search over a surface, in metres.
const STEPS_M: [f32; 3] = [0.15, 0.075, 0.0375];
/// Steps of the compass search for a board: degrees round and up, metres nearer.
const BOARD_STEPS: [(f64, f64, f32); 2] = [(7.0, 5.0, 0.1), (3.0, 2.0, 0.05)];
/// Moves at one step before the step is halved.
const MOST_MOVES: usize = 6;

/// Compass search around a way.
pub(crate) fn improve(scout: &Scout<'_>, start: Judged) -> Result<Judged, Failure> {
    let job = scout.job;
    match &start.way.route {
        Route::Bounce { .. } => improve_bounce(scout, start),
        Route::HeldBoard { .. } => improve_board(scout, start),
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
