//! The search: everything that the bag allows, once; then closer and closer around the best of each kind.
//!
//! The unknowns are mixed: which place of the flash, which surface or board, which zoom and dress are
//! chosen from lists; where on the surface, and how a board is held, are continuous. So the lists are
//! gone through in full on a coarse grid, and the best of each kind is improved by a compass search: look
//! a step to every side, move where it is better, halve the step where it is not (Kolda, Lewis & Torczon
//! 2003). There is no chance in it: the same job gives the same answer.

use crate::exposing::{power_for_total, settings_for};
use crate::limits::{self, Outcome};
use crate::reasons::why_not;
use crate::score;
use crate::survey::Survey;
use crate::ways::{self, Attempt, Beams, Piece, Way};
use answer::{Failure, FaultPoints, Job, KeyReading, Limit, MapCell, Note, Route, Verdict, WayId};
use glam::Vec3;
use light::HeadDress;
use rayon::prelude::*;
use scene::Face;
use units::Illuminance;

/// Pitch of the pieces of the room that are aimed at from the first place of the flash, in metres.
const PITCH: f32 = 0.3;
/// The same from the other places.
const COARSE_PITCH: f32 = 0.7;
/// Steps of the compass search over a surface, in metres.
const STEPS_M: [f32; 3] = [0.15, 0.075, 0.0375];
/// Steps of the compass search for a board: degrees round and up, metres nearer.
const BOARD_STEPS: [(f64, f64, f32); 2] = [(7.0, 5.0, 0.1), (3.0, 2.0, 0.05)];
/// Moves at one step before the step is halved.
const MOST_MOVES: usize = 6;
/// Stops short of exposure at full power from which a way is called unusable.
const HOPELESS_STOPS: f64 = 3.0;

/// A way with its reading, its faults and what it misses.
#[derive(Clone, Debug)]
pub(crate) struct Judged {
    pub way: Way,
    pub key: KeyReading,
    /// Stops of full power over an exact exposure, flash alone.
    pub full: f64,
    /// Exact power for flash and ambient together, in stops below 1/1.
    pub power: f64,
    pub faults: Vec<FaultPoints>,
    pub points: f64,
    pub limits: Vec<Limit>,
    /// What the camera settings could not meet.
    pub notes: Vec<Note>,
}

impl Judged {
    /// Whether everything insisted on is met.
    pub fn met(&self) -> bool {
        self.limits.iter().all(|limit| limit.met)
    }

    /// What it misses, in points.
    pub fn missed(&self) -> f64 {
        self.limits.iter().map(limits::weight).sum()
    }

    /// Ways that meet the ask come first, then the least faulty; what is missed counts as a fault twice.
    pub fn rank(&self) -> (bool, f64) {
        (!self.met(), self.points + self.missed())
    }

    fn before(&self, other: &Judged) -> bool {
        self.rank() < other.rank()
    }
}

/// Everything that was computed, with the piece of the room that it aims at.
pub(crate) struct Swept {
    pub pieces: Vec<Piece>,
    pub ways: Vec<(Option<usize>, Way)>,
}

/// Computes every way once. It does not depend on camera settings or limits, only on what is there.
pub(crate) fn sweep(job: &Job, survey: &Survey, beams: &Beams) -> Swept {
    let pieces = ways::pieces(job, PITCH);
    let mut attempts: Vec<(Option<usize>, Attempt)> = Vec::new();
    let mut poses = Vec::new();
    for place in 0..survey.maps.len() {
        if job.bag.dresses.contains(&HeadDress::Bare) {
            attempts.extend(bounces(job, &pieces, place));
        }
        attempts.extend(
            ways::others(job, survey, place)
                .into_iter()
                .map(|attempt| (None, attempt)),
        );
        poses.extend(ways::poses(job, survey, place));
    }
    let mut computed: Vec<(Option<usize>, Way)> = attempts
        .par_iter()
        .filter_map(|(piece, attempt)| Some((*piece, ways::compute(job, survey, beams, attempt)?)))
        .collect();
    let zooms = board_zooms(job);
    let boards: Vec<Way> = poses
        .par_iter()
        .flat_map_iter(|pose| ways::compute_board(job, survey, beams, pose, &zooms))
        .collect();
    computed.extend(boards.into_iter().map(|way| (None, way)));
    Swept {
        pieces,
        ways: computed,
    }
}

/// Bare bounces off the pieces of the room: all of them from the first place, fewer from the others.
fn bounces(job: &Job, pieces: &[Piece], place: usize) -> Vec<(Option<usize>, Attempt)> {
    if place == 0 {
        let zooms: Vec<f64> = job.bag.flash.zooms().collect();
        return pieces
            .iter()
            .enumerate()
            .flat_map(|(index, piece)| {
                zooms
                    .iter()
                    .map(move |&zoom| (Some(index), ways::at_piece(piece, place, zoom)))
            })
            .collect();
    }
    let zoom = ways::nearest_zoom(job, 50.0);
    ways::pieces(job, COARSE_PITCH)
        .iter()
        .map(|piece| (None, ways::at_piece(piece, place, zoom)))
        .collect()
}

/// Zooms that are worth trying on a board.
fn board_zooms(job: &Job) -> Vec<f64> {
    let mut zooms: Vec<f64> = [50.0, 105.0, 200.0]
        .iter()
        .map(|&z| ways::nearest_zoom(job, z))
        .collect();
    zooms.dedup();
    zooms
}

/// Judges everything that was computed.
pub(crate) fn judge_all(job: &Job, survey: &Survey, swept: &Swept) -> Result<Vec<Judged>, Failure> {
    swept
        .ways
        .par_iter()
        .map(|(_, way)| judge(job, survey, way.clone()))
        .collect()
}

/// What a photographer would say of a way against this ask.
pub(crate) fn judge(job: &Job, survey: &Survey, way: Way) -> Result<Judged, Failure> {
    let colour = job.bag.flash.colour();
    let facing = survey.stage.sitters[0].facing;
    let dose = way.light.dose(colour);
    let own = crate::solve::own_reflectance(job, &way.route);
    let key = way.light.reading(colour, &own, facing);
    let (settings, notes) = settings_for(job, survey, dose)?;
    let full = score::full_power(dose, settings.aperture, settings.speed());
    let exposing = settings.exposing();
    let ambient_lx = survey.ambient_lx().max(1e-9);
    let ambient = camera::ambient_exposure(Illuminance(ambient_lx), &exposing).value();
    let power = power_for_total(full, ambient);
    let from = crate::reading::angles(way.light.key_direction, facing);
    let spread = score::spread(&way, dose);
    let outcome = Outcome {
        key: &key,
        from,
        power,
        spread,
        background: background(survey, &way, dose, power, settings.shutter.value()),
        ambient,
        settings: &settings,
    };
    let limits = limits::limits(job, &outcome);
    let faults = score::faults(job, &way, &outcome);
    let points = score::sum(&faults);
    Ok(Judged {
        way,
        key,
        full,
        power,
        faults,
        points,
        limits,
        notes,
    })
}

/// Light on the background against the face, in stops, with flash at a power and ambient for a time.
fn background(survey: &Survey, way: &Way, dose: f64, power: f64, shutter_s: f64) -> f64 {
    let flash = (-power.max(0.0)).exp2();
    let there = f64::from(way.light.background) * flash + survey.ambient_background_lx * shutter_s;
    let face = dose * flash + survey.ambient_lx() * shutter_s;
    (there.max(1e-12) / face.max(1e-12)).log2()
}

/// The best way of each kind, improved, the best first.
pub(crate) fn best_of(
    job: &Job,
    survey: &Survey,
    beams: &Beams,
    judged: Vec<Judged>,
) -> Result<Vec<Judged>, Failure> {
    let kinds = best_by_kind(judged);
    let mut best: Vec<Judged> = kinds
        .into_par_iter()
        .map(|start| improve(job, survey, beams, start))
        .collect::<Result<_, _>>()?;
    // Moved aims may have become another kind, such as a corner.
    best = best_by_kind(best);
    best.sort_by(|a, b| {
        let ((a, p), (b, q)) = (a.rank(), b.rank());
        a.cmp(&b).then(p.total_cmp(&q))
    });
    Ok(best)
}

/// The best way of each kind; a face alone and the corners that it shares are two kinds.
fn best_by_kind(judged: Vec<Judged>) -> Vec<Judged> {
    let mut best: Vec<(Kind, Judged)> = Vec::new();
    for candidate in judged {
        let kind = kind_of(&candidate.way);
        match best.iter_mut().find(|(name, _)| *name == kind) {
            Some((_, held)) if !candidate.before(held) => {}
            Some((_, held)) => *held = candidate,
            None => best.push((kind, candidate)),
        }
    }
    best.into_iter().map(|(_, judged)| judged).collect()
}

/// What counts as one kind of way.
#[derive(PartialEq, Eq)]
enum Kind {
    /// The corners of a face, whatever it meets there.
    CornersOf(Face),
    /// Anything else.
    Way(WayId),
}

fn kind_of(way: &Way) -> Kind {
    match way.id() {
        WayId::Corner { face, .. } => Kind::CornersOf(face),
        id => Kind::Way(id),
    }
}

/// Compass search around a way.
fn improve(job: &Job, survey: &Survey, beams: &Beams, start: Judged) -> Result<Judged, Failure> {
    match &start.way.route {
        Route::Bounce { .. } => improve_bounce(job, survey, beams, start),
        Route::HeldBoard { .. } => improve_board(job, survey, beams, start),
        Route::Direct | Route::Standing { .. } | Route::Open => {
            let zooms: Vec<f64> = job.bag.flash.zooms().collect();
            let tried = zooms.iter().map(|&zoom| ways::with_zoom(&start.way, zoom));
            better_of(job, survey, beams, &start, tried.collect()).map(|found| found.unwrap_or(start))
        }
    }
}

/// The best of some attempts, when it is of the same kind as a way and better.
fn better_of(
    job: &Job,
    survey: &Survey,
    beams: &Beams,
    than: &Judged,
    attempts: Vec<Attempt>,
) -> Result<Option<Judged>, Failure> {
    let kind = kind_of(&than.way);
    let mut best: Option<Judged> = None;
    for attempt in &attempts {
        let Some(way) = ways::compute(job, survey, beams, attempt) else {
            continue;
        };
        if kind_of(&way) != kind {
            continue;
        }
        let judged = judge(job, survey, way)?;
        if judged.before(best.as_ref().unwrap_or(than)) {
            best = Some(judged);
        }
    }
    Ok(best)
}

fn improve_bounce(job: &Job, survey: &Survey, beams: &Beams, start: Judged) -> Result<Judged, Failure> {
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
                    around.push(ways::with_zoom(&held.way, zoom));
                }
            }
            match better_of(job, survey, beams, &held, around)? {
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

fn improve_board(job: &Job, survey: &Survey, beams: &Beams, start: Judged) -> Result<Judged, Failure> {
    let person = &survey.stage.sitters[0];
    let zooms: Vec<f64> = job.bag.flash.zooms().collect();
    let mut held = start;
    for (round, up, nearer) in BOARD_STEPS {
        for _ in 0..MOST_MOVES {
            let Some(pose) = ways::pose_of(&held.way) else {
                break;
            };
            let offset: Vec3 = pose.centre - person.face;
            let (azimuth, elevation) = crate::reading::angles(offset, person.facing);
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
                let moved = ways::board_at(
                    job,
                    survey,
                    pose.place,
                    pose.board,
                    azimuth + da,
                    elevation + de,
                    distance,
                );
                for way in moved
                    .iter()
                    .flat_map(|pose| ways::compute_board(job, survey, beams, pose, &zooms))
                {
                    let judged = judge(job, survey, way)?;
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

/// Whether a way can be the answer at all.
pub(crate) fn usable(job: &Job, judged: &Judged) -> bool {
    !score::cast_unusable(job, &judged.key) && judged.full > -HOPELESS_STOPS
}

/// A way this many points behind the answer would spoil the look.
pub(crate) const POOR_FROM: f64 = 2.5;

/// Whether a way serves beside the answer.
pub(crate) fn verdict_of(job: &Job, judged: &Judged, chosen: &Judged) -> Verdict {
    if !usable(job, judged) {
        Verdict::Unusable
    } else if judged.points > chosen.points + POOR_FROM {
        Verdict::Poor
    } else {
        Verdict::Possible
    }
}

/// The map of the room from the first place: every piece with the best that aiming at it can do.
pub(crate) fn map_cells(job: &Job, swept: &Swept, judged: &[Judged], chosen: &Judged) -> Vec<MapCell> {
    let mut best: Vec<Option<&Judged>> = vec![None; swept.pieces.len()];
    for ((piece, _), candidate) in swept.ways.iter().zip(judged) {
        if let Some(index) = *piece {
            match best[index] {
                Some(held) if !candidate.before(held) => {}
                _ => best[index] = Some(candidate),
            }
        }
    }
    swept
        .pieces
        .iter()
        .zip(best)
        .filter_map(|(piece, found)| {
            let found = found?;
            Some(MapCell {
                face: piece.face,
                from: piece.from,
                size: piece.size,
                target: piece.target,
                azimuth_deg: found.key.azimuth_deg,
                elevation_deg: found.key.elevation_deg,
                zoom_mm: found.way.zoom_mm,
                points: found.points,
                verdict: verdict_of(job, found, chosen),
                why: why_not(job, found, chosen),
            })
        })
        .collect()
}
