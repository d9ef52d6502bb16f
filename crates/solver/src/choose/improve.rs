//! Closer and closer around a way: a compass search.

use crate::choose::kind::kind_of;
use crate::judge::judged::{Judged, judge};
use crate::place::amounts::{angles, towards};
use crate::place::flash_places::can_stand;
use crate::ways::attempts::{board_at, fine_pitch};
use crate::ways::compute::{compute_board, compute_from};
use crate::ways::scout::Scout;
use crate::ways::way::{Attempt, OFF_THE_GRID, Way, pose_of, with_zoom};
use answer::{Failure, Job, Route};
use glam::Vec3;
use light::HeadDress;
use transport::AimMap;

/// The least step of the compass search over a surface, in metres.
const LEAST_STEP_M: f32 = 0.0375;
/// Steps of the compass search for a board: degrees round and up, metres further.
const BOARD_STEPS: [(f64, f64, f32); 2] = [(7.0, 5.0, 0.1), (3.0, 2.0, 0.05)];
/// Steps of the compass search for a flash off the camera: degrees round and up, metres further.
const STAND_STEPS: [(f64, f64, f32); 3] = [(12.0, 10.0, 0.3), (6.0, 5.0, 0.15), (3.0, 2.5, 0.08)];
/// Moves at one step before the step is halved.
const MOST_MOVES: usize = 6;

/// Compass search around a way.
pub(crate) fn improve(scout: &Scout<'_>, start: Judged) -> Result<Judged, Failure> {
    // So far it was only judged in passing.
    let start = judge(scout, start.way)?;
    match &start.way.route {
        Route::HeldBoard { .. } => improve_board(scout, start),
        Route::Direct if start.way.place > 0 => improve_stand(scout, start),
        Route::Bounce { .. } | Route::Direct | Route::Standing { .. } | Route::Open => {
            match map_anew(scout, &start.way) {
                Some(map) => {
                    // Its own reading is as rough as the map that it was found on.
                    let itself = vec![with_zoom(&start.way, start.way.zoom_mm)];
                    let read_anew = of_its_kind(scout, &map, &start, itself)?.pop();
                    improve_aim(scout, &map, read_anew.unwrap_or(start))
                }
                None => improve_aim(scout, &scout.survey.maps[start.way.place], start),
            }
        }
    }
}

/// The best of what a head can do from one place: on a face of the room any aim near by, elsewhere any zoom.
fn improve_aim(scout: &Scout<'_>, map: &AimMap, start: Judged) -> Result<Judged, Failure> {
    match start.way.route {
        Route::Bounce { .. } => improve_bounce(scout, map, start),
        _ => improve_zoom(scout, map, start),
    }
}

/// A finer map of the place that a way was found from, where that is one of many.
pub(crate) fn map_anew(scout: &Scout<'_>, way: &Way) -> Option<AimMap> {
    let survey = scout.survey;
    (way.place > 0).then(|| AimMap::coarse(&survey.room, &survey.operator, way.flash))
}

/// A compass search: the best of what lies around a way takes its place as long as it is better, at each of the steps.
fn compass<S: Copy>(
    start: Judged,
    steps: &[S],
    around: impl Fn(&Judged, S) -> Result<Vec<Judged>, Failure>,
) -> Result<Judged, Failure> {
    let mut held = start;
    for &step in steps {
        for _ in 0..MOST_MOVES {
            match better_than(&held, around(&held, step)?) {
                Some(better) => held = better,
                None => break,
            }
        }
    }
    Ok(held)
}

/// The best of some ways, when it is better than one; the first of equals.
fn better_than(than: &Judged, judged: Vec<Judged>) -> Option<Judged> {
    let better = judged.into_iter().filter(|judged| judged.before(than));
    better.reduce(|best, next| if next.before(&best) { next } else { best })
}

/// Those attempts that are of the same kind as a way, judged.
fn of_its_kind(
    scout: &Scout<'_>,
    map: &AimMap,
    way: &Judged,
    attempts: Vec<Attempt>,
) -> Result<Vec<Judged>, Failure> {
    let kind = kind_of(&way.way);
    let ways = attempts
        .iter()
        .filter_map(|attempt| compute_from(scout, map, attempt));
    ways.filter(|way| kind_of(way) == kind)
        .map(|way| judge(scout, way))
        .collect()
}

/// The best zoom of a head that points where it points.
fn improve_zoom(scout: &Scout<'_>, map: &AimMap, start: Judged) -> Result<Judged, Failure> {
    let zooms = scout.job.bag.flash.zooms();
    let tried = zooms.map(|zoom| with_zoom(&start.way, zoom)).collect();
    let judged = of_its_kind(scout, map, &start, tried)?;
    Ok(better_than(&start, judged).unwrap_or(start))
}

fn improve_bounce(scout: &Scout<'_>, map: &AimMap, start: Judged) -> Result<Judged, Failure> {
    let job = scout.job;
    let mut zooms: Vec<f64> = job.bag.flash.zooms().collect();
    zooms.sort_by(f64::total_cmp);
    compass(start, &steps_over_a_surface(job), |held, step| {
        let mut around = beside(job, &held.way, step);
        let at = zooms.iter().position(|&z| (z - held.way.zoom_mm).abs() < 0.05);
        let next = at.into_iter().flat_map(|i| [i.checked_sub(1), Some(i + 1)]);
        let next = next.flatten().filter_map(|i| zooms.get(i));
        around.extend(next.map(|&zoom| with_zoom(&held.way, zoom)));
        of_its_kind(scout, map, held, around)
    })
}

/// Steps from half a piece down to the least, in metres.
fn steps_over_a_surface(job: &Job) -> Vec<f32> {
    let halved = |step: &f32| Some(0.5 * step).filter(|&half| half > 0.99 * LEAST_STEP_M);
    std::iter::successors(Some(0.5 * fine_pitch(job)), halved).collect()
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
    let dress = start.way.dress;
    let zooms: Vec<f64> = match dress {
        HeadDress::Bare => job.bag.flash.zooms().collect(),
        _ => vec![start.way.zoom_mm],
    };
    let found = compass(start.clone(), &STAND_STEPS, |held, (round, up, further)| {
        let away = held.way.flash - person.face;
        let (azimuth, elevation) = angles(away, person.facing);
        let places = six_ways(round, up, further).map(|(round, up, further)| {
            let metres = away.length() + further;
            person.face + towards(person.facing, azimuth + round, elevation + up) * metres
        });
        let here = AimMap::in_passing(&survey.room, &survey.operator, held.way.flash);
        let mut around = Vec::new();
        for place in places.into_iter().filter(|&place| can_stand(job, place, dress)) {
            let map = here.beside(&survey.room, &survey.operator, place);
            around.extend(from_there(scout, &map, &held.way, &zooms)?);
        }
        Ok(around)
    })?;
    let map = AimMap::coarse(&survey.room, &survey.operator, found.way.flash);
    let read_anew = from_there(scout, &map, &found.way, &[found.way.zoom_mm])?;
    Ok(better_than(&start, read_anew).unwrap_or(start))
}

/// A step round either way, up and down, and further and nearer.
fn six_ways(round: f64, up: f64, further: f32) -> [(f64, f64, f32); 6] {
    [
        (round, 0.0, 0.0),
        (-round, 0.0, 0.0),
        (0.0, up, 0.0),
        (0.0, -up, 0.0),
        (0.0, 0.0, further),
        (0.0, 0.0, -further),
    ]
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
    compass(start, &BOARD_STEPS, |held, (round, up, further)| {
        let Some(pose) = pose_of(&held.way) else {
            return Ok(Vec::new());
        };
        let offset: Vec3 = pose.centre - person.face;
        let (azimuth, elevation) = angles(offset, person.facing);
        // The board where it is, too: at another zoom.
        let steps = std::iter::once((0.0, 0.0, 0.0)).chain(six_ways(round, up, further));
        let moved = steps.filter_map(|(round, up, further)| {
            let metres = (offset.length() + further).max(0.7);
            board_at(
                scout,
                pose.place,
                pose.board,
                azimuth + round,
                elevation + up,
                metres,
            )
        });
        let ways = moved.flat_map(|pose| compute_board(scout, &pose, &zooms));
        ways.map(|way| judge(scout, way)).collect()
    })
}
