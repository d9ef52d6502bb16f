//! The search: everything that the bag allows, once; then closer and closer around the best of each kind.
//!
//! The unknowns are mixed: which place of the flash, which surface or board, which zoom and dress are
//! chosen from lists; where on the surface, and how a board is held, are continuous. So the lists are
//! gone through in full on a coarse grid, and the best of each kind is improved by a compass search: look
//! a step to every side, move where it is better, halve the step where it is not (Kolda, Lewis & Torczon
//! 2003). There is no chance in it: the same job gives the same answer.

use crate::choose::improve::{improve, map_anew};
use crate::choose::kind::{Kind, kind_of};
use crate::judge::judged::{Judged, judge_in_passing};
use crate::practice::COMPARED_ZOOMS_MM;
use crate::ways::attempts::{Piece, at_piece, fine_pitch, others, pieces, poses};
use crate::ways::beams::nearest_zoom;
use crate::ways::compute::{compute, compute_board, compute_from};
use crate::ways::scout::Scout;
use crate::ways::way::{Attempt, Way, pose_of, with_zoom};
use answer::{Failure, Job, Route};
use light::HeadDress;
use rayon::prelude::*;

/// Pitch of the pieces of the room that are aimed at from all but the first place of the flash, in metres.
const COARSE_PITCH: f32 = 0.7;
/// Places of a flash off the camera that a compass search starts from, for each front, and how far they are apart, in metres.
const MOST_STANDS: usize = 4;
const STANDS_APART_M: f32 = 1.0;

/// Everything that was computed, with the piece of the room that it aims at.
pub(crate) struct Swept {
    pub pieces: Vec<Piece>,
    pub ways: Vec<(Option<usize>, Way)>,
}

/// Computes every way once. It does not depend on camera settings or limits, only on what is there.
pub(crate) fn sweep(scout: &Scout<'_>) -> Swept {
    let job = scout.job;
    let fine = pieces(job, fine_pitch(job));
    let mut attempts: Vec<(Option<usize>, Attempt)> = Vec::new();
    let mut held = Vec::new();
    for place in 0..scout.survey.maps.len() {
        if job.bag.dresses.contains(&HeadDress::Bare) {
            attempts.extend(bounces(job, &fine, place));
        }
        attempts.extend(others(scout, place).into_iter().map(|attempt| (None, attempt)));
        held.extend(poses(scout, place));
    }
    let mut computed: Vec<(Option<usize>, Way)> = attempts
        .par_iter()
        .filter_map(|(piece, attempt)| Some((*piece, compute(scout, attempt)?)))
        .collect();
    let zooms = board_zooms(job);
    let boards: Vec<Way> = held
        .par_iter()
        .flat_map_iter(|pose| compute_board(scout, pose, &zooms))
        .collect();
    computed.extend(boards.into_iter().map(|way| (None, way)));
    Swept {
        pieces: fine,
        ways: computed,
    }
}

/// Bare bounces off the pieces of the room: all of them from the first place, fewer from the others.
fn bounces(job: &Job, fine: &[Piece], place: usize) -> Vec<(Option<usize>, Attempt)> {
    if place == 0 {
        let zooms: Vec<f64> = job.bag.flash.zooms().collect();
        return fine
            .iter()
            .enumerate()
            .flat_map(|(index, piece)| {
                zooms
                    .iter()
                    .map(move |&zoom| (Some(index), at_piece(piece, place, zoom)))
            })
            .collect();
    }
    let zoom = nearest_zoom(job, 50.0);
    pieces(job, COARSE_PITCH)
        .iter()
        .map(|piece| (None, at_piece(piece, place, zoom)))
        .collect()
}

/// Zooms that are worth trying on a board.
fn board_zooms(job: &Job) -> Vec<f64> {
    let mut zooms: Vec<f64> = [50.0, 105.0, 200.0]
        .iter()
        .map(|&z| nearest_zoom(job, z))
        .collect();
    zooms.dedup();
    zooms
}

/// Judges everything that was computed, in passing.
pub(crate) fn judge_all(scout: &Scout<'_>, swept: &Swept) -> Result<Vec<Judged>, Failure> {
    let ways: Vec<&Way> = swept.ways.iter().map(|(_, way)| way).collect();
    judge_in_passing(scout, &ways)
}

/// The best way of each kind, improved, the best first.
pub(crate) fn best_of(scout: &Scout<'_>, judged: Vec<Judged>) -> Result<Vec<Judged>, Failure> {
    let stands = stands(&judged);
    let mut starts = best_by_kind(judged);
    starts.retain(|start| !stands_apart(start));
    starts.extend(stands);
    let mut best: Vec<Judged> = starts
        .into_par_iter()
        .map(|start| improve(scout, start))
        .collect::<Result<_, _>>()?;
    // Moved aims may have become another kind, such as a corner.
    best = best_by_kind(best);
    best.sort_by(Judged::by_rank);
    Ok(best)
}

/// Whether a flash off the camera shines straight at the face.
fn stands_apart(judged: &Judged) -> bool {
    judged.way.place > 0 && matches!(judged.way.route, Route::Direct)
}

/// The best places of a flash that shines straight at the face from a stand or a hand, well apart from one another: a compass
/// search from one of them need not find what lies on the other side of the sitter.
fn stands(judged: &[Judged]) -> Vec<Judged> {
    let mut all: Vec<&Judged> = judged.iter().filter(|judged| stands_apart(judged)).collect();
    all.sort_by(|a, b| a.by_rank(b));
    let mut taken: Vec<Judged> = Vec::new();
    for candidate in all {
        let alike = |other: &&Judged| other.way.dress == candidate.way.dress;
        let apart = |other: &Judged| other.way.flash.distance(candidate.way.flash) > STANDS_APART_M;
        let of_dress: Vec<&Judged> = taken.iter().filter(alike).collect();
        if of_dress.len() < MOST_STANDS && of_dress.into_iter().all(apart) {
            taken.push(candidate.clone());
        }
    }
    taken
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

/// Every way that was computed, and the best of each kind.
pub(crate) struct Searched {
    pub swept: Swept,
    pub judged: Vec<Judged>,
    pub best: Vec<Judged>,
}

/// Goes through everything once, for the flash as it is.
pub(crate) fn searched(scout: &Scout<'_>) -> Result<Searched, Failure> {
    let job = scout.job;
    let swept = sweep(scout);
    let judged = judge_all(scout, &swept)?;
    let best = best_of(scout, judged.clone())?;
    if best.is_empty() {
        return Err(Failure::NoLight {
            sitter: job.sitters[0].name.clone(),
        });
    }
    Ok(Searched { swept, judged, best })
}

/// What zooming from 50 to 105 mm does on each way.
pub(crate) fn zoom_gains(scout: &Scout<'_>, best: &mut [Judged]) {
    let zooms = COMPARED_ZOOMS_MM.map(|zoom| nearest_zoom(scout.job, zoom));
    if zooms[0] == zooms[1] {
        return;
    }
    best.par_iter_mut()
        .filter(|judged| judged.way.dress == HeadDress::Bare)
        .for_each(|judged| judged.way.zoom_gain = zoom_gain(scout, &judged.way, zooms));
}

/// What zooming in does to the first bounce of a way, in stops; `None` where one of the zooms does something else.
fn zoom_gain(scout: &Scout<'_>, way: &Way, zooms: [f64; 2]) -> Option<f64> {
    let ways: Vec<Way> = match pose_of(way) {
        Some(pose) => compute_board(scout, &pose, &zooms),
        None => {
            let swept = scout.survey.maps.get(way.place)?;
            let made = map_anew(scout, way);
            let map = made.as_ref().unwrap_or(swept);
            let zoomed = zooms
                .iter()
                .filter_map(|&zoom| compute_from(scout, map, &with_zoom(way, zoom)));
            zoomed.collect()
        }
    };
    let [wide, long] = &ways[..] else {
        return None;
    };
    let colour = scout.job.bag.flash.colour();
    let first = |way: &Way| f64::from(colour.luminous(&way.light.first));
    let gain = (first(long) / first(wide)).log2();
    gain.is_finite().then_some(gain)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::trials::made_up;
    use answer::{Judgement, Route, Wish};
    use scene::Face;

    fn off(face: Face, corner_with: Option<Face>) -> Way {
        Way {
            route: Route::Bounce { face, corner_with },
            ..made_up::way()
        }
    }

    /// Points of the best of each kind, in the order in which the kinds turned up.
    fn check(ways: Vec<(Way, f64)>, expected: &[f64]) {
        let judged = ways.into_iter().map(|(way, points)| made_up::judged(way, points));
        let best = best_by_kind(judged.collect());
        let points: Vec<f64> = best.iter().map(|judged| judged.points).collect();
        assert_eq!(points, expected);
    }

    #[test]
    fn the_best_of_each_kind_is_kept() {
        let left = || off(Face::Left, None);
        check(vec![(left(), 2.0), (left(), 1.0), (left(), 3.0)], &[1.0]);
        check(vec![(left(), 2.0), (off(Face::Ceiling, None), 1.0)], &[2.0, 1.0]);
    }

    #[test]
    fn a_face_and_its_corners_are_two_kinds() {
        let corner = |with| off(Face::Left, Some(with));
        check(
            vec![
                (off(Face::Left, None), 3.0),
                (corner(Face::Ceiling), 2.0),
                (corner(Face::BehindCamera), 1.0),
            ],
            &[3.0, 1.0],
        );
    }

    #[test]
    fn furniture_called_like_a_face_is_no_face() {
        let furniture = Way {
            route: Route::Standing {
                name: "left wall".to_owned(),
            },
            ..made_up::way()
        };
        check(vec![(off(Face::Left, None), 2.0), (furniture, 1.0)], &[2.0, 1.0]);
    }

    #[test]
    fn a_way_that_can_be_had_goes_before_one_with_fewer_points() {
        let had = made_up::judged(made_up::way(), 5.0);
        let mut forbidden = made_up::judged(made_up::way(), 1.0);
        forbidden.wishes = vec![Judgement::new(Wish::Exposed, -1.0, 1.0, 0.34, 1.0).as_must(true)];
        assert!(had.before(&forbidden) && !forbidden.before(&had));
        // What is merely missed is weighed by its points alone.
        forbidden.wishes[0].must = false;
        assert!(forbidden.before(&had) && !had.before(&forbidden));
    }
}
