//! Is any placement of a flash that may stand anywhere overlooked? The answer against placements by hand: at random about the
//! sitters, straight at them or off a piece of the room, at every zoom and through the umbrella, the best of them read as the
//! answer is.
//!
//! The test looks at a few; the one that is only run by hand (`--ignored`) at sixty asks with twenty thousand placements each.

use super::{Dice, random_ask, random_job, sitter};
use crate::choose::confirm::confirmed;
use crate::decide::decided;
use crate::judge::judged::{Judged, judge, judge_in_passing};
use crate::place::amounts::towards;
use crate::place::flash_places::can_stand;
use crate::place::survey::Survey;
use crate::ways::attempts::{Piece, at_piece, pieces};
use crate::ways::beams::Beams;
use crate::ways::compute::compute_from;
use crate::ways::scout::Scout;
use crate::ways::way::{Attempt, OFF_THE_GRID, Way};
use answer::{FlashStand, Job, Route, Side, Step};
use glam::Vec3;
use light::{HeadDress, SoftFront};
use rayon::prelude::*;
use transport::{AimMap, Fineness};

/// The best placements that are read as finely as the answer.
const BEST: usize = 4;
/// What a placement may be better by: a tenth of the sum, or half of a tenth of a clear fault.
const TENTH: f64 = 0.1;
const NOTHING: f64 = 0.05;
/// Pitch of the pieces that are bounced from, in metres.
const PITCH: f32 = 0.5;

#[test]
fn no_placement_is_overlooked() {
    compare(3, 160);
}

#[test]
#[ignore = "hours: by hand"]
fn no_placement_of_twenty_thousand_is_overlooked() {
    compare(60, 20_000);
}

/// So many asks against so many placements each.
fn compare(asks: usize, count: usize) {
    let mut overlooked = Vec::new();
    for ask in 0..asks {
        let (job, mut dice) = asked(ask);
        let (ours, rival) = (answered(&job), best_placed(&job, &mut dice, count));
        let better = ours.points - rival.points;
        let allowed = (TENTH * ours.points).max(NOTHING);
        let beaten = match (ours.possible(), rival.possible()) {
            (false, true) => true,
            (true, false) => false,
            _ => better > allowed,
        };
        let told = format!(
            "ask {ask}: ours {:.2} {:?} at {:.2}, by hand {:.2} {:?} at {:.2} to {:.2} zoom {} {:?}",
            ours.points,
            ours.way.id(),
            ours.way.flash,
            rival.points,
            rival.way.id(),
            rival.way.flash,
            rival.way.target,
            rival.way.zoom_mm,
            rival.way.dress,
        );
        if beaten {
            overlooked.push(format!(
                "{told}\nours {:?}\nby hand {:?}",
                ours.faults, rival.faults
            ));
        }
    }
    assert!(overlooked.is_empty(), "{overlooked:#?}");
}

/// A job at random in which the flash may stand anywhere: one person or a row, with or without an umbrella and a stand.
fn asked(ask: usize) -> (Job, Dice) {
    let mut job = random_job(ask);
    let mut dice = Dice::new(7000 + ask as u64);
    job.ask = random_ask(&mut dice);
    job.ask.stand = FlashStand::Anywhere;
    job.bag.stand = dice.unit() < 0.7;
    job.bag.helpers = 1;
    if dice.unit() < 0.5 {
        job.bag
            .dresses
            .push(HeadDress::Umbrella(SoftFront::new(1.7, 1.0)));
    }
    if dice.unit() < 0.4 {
        a_row(&mut job, &mut dice);
    }
    (job, dice)
}

/// Two to nine people side by side, as many as fit the room.
fn a_row(job: &mut Job, dice: &mut Dice) {
    let wanted = dice.pick(&[2, 3, 5, 9]);
    let first = job.sitters[0].stand;
    let width = job.place.room.size.x;
    for place in 1..wanted {
        let step = 0.55 * (place as f32 / 2.0).ceil() * if place % 2 == 0 { 1.0 } else { -1.0 };
        let stand = first + Vec3::X * step;
        if (0.4..width - 0.4).contains(&stand.x) {
            let height = dice.within(1.2, 1.7) as f32;
            job.sitters
                .push(sitter(&format!("sitter {place}"), stand, 0.0, height));
        }
    }
    job.viewpoint.focal_mm = 35.0;
    job.ask.key.side = dice.pick(&[None, Some(Side::Left)]);
}

/// What the solver decides.
fn answered(job: &Job) -> Judged {
    let beams = Beams::of(job).unwrap();
    let quietly = |_: Step| true;
    decided(job, &beams, 1, &quietly, |decision| Ok(decision.finished)).unwrap()
}

/// The best of some placements at random, read as finely as an answer.
fn best_placed(job: &Job, dice: &mut Dice, count: usize) -> Judged {
    let beams = Beams::of(job).unwrap();
    let fineness = Fineness::operator_in(job.place.room.area());
    let survey = Survey::new(job, fineness, 1).unwrap();
    let scout = Scout::new(job, &survey, &beams, 1);
    let pieces = pieces(job, PITCH);
    let placed: Vec<(Vec3, Attempt)> = (0..count).map(|_| placement(job, dice, &pieces)).collect();
    let ways: Vec<Way> = placed
        .par_iter()
        .filter_map(|(place, attempt)| {
            let map = AimMap::coarse(&survey.room, &survey.operator, *place);
            compute_from(&scout, &map, attempt)
        })
        .collect();
    let mut judged = judge_in_passing(&scout, &ways.iter().collect::<Vec<_>>()).unwrap();
    judged.sort_by(Judged::by_rank);
    judged.truncate(10 * BEST);
    let mut best: Vec<Judged> = judged
        .into_iter()
        .map(|judged| judge(&scout, judged.way).unwrap())
        .collect();
    best.sort_by(Judged::by_rank);
    best.truncate(BEST);
    confirmed(&scout, &mut best, &mut None).unwrap().0
}

/// A place that the flash can have, and something to point it at from there.
fn placement(job: &Job, dice: &mut Dice, pieces: &[Piece]) -> (Vec3, Attempt) {
    let face = job.sitters[0].face();
    let faces: Vec<Vec3> = job.sitters.iter().map(scene::Sitter::face).collect();
    let middle = faces.iter().sum::<Vec3>() / faces.len() as f32;
    loop {
        let dress = dice.pick(&job.bag.dresses);
        let (azimuth, elevation) = (dice.within(-180.0, 180.0), dice.within(-15.0, 75.0));
        let metres = dice.within(0.6, 4.0) as f32;
        let place = face + towards(job.sitters[0].face_direction(), azimuth, elevation) * metres;
        if !can_stand(job, place, dress) {
            continue;
        }
        let zooms: Vec<f64> = job.bag.flash.zooms().collect();
        let zoom_mm = dice.pick(&zooms);
        let straight = Attempt {
            route: Route::Direct,
            place: OFF_THE_GRID,
            target: dice.pick(&[face, middle]),
            zoom_mm,
            dress,
        };
        return match dress == HeadDress::Bare && dice.unit() < 0.5 {
            true => {
                let any = (dice.unit() * pieces.len() as f64) as usize;
                (place, at_piece(&pieces[any], OFF_THE_GRID, zoom_mm))
            }
            false => (place, straight),
        };
    }
}
