//! Does a sweep by brute force, with every aim read by the referee, find anything better than the answer?
//!
//! The sweep knows nothing of operators and maps: each of its aims is a beam in the scene, and each meter
//! is read by path tracing. Only where the key comes from and how wide it is are geometry and are taken
//! from the survey. Both the answer and its rivals are then judged by the documented score.

use super::{Dice, ROOMS, random_ask, random_job};
use crate::choose::confirm::confirmed;
use crate::choose::search::{Swept, best_of, judge_all, sweep};
use crate::judge::judged::{Judged, judge};
use crate::place::amounts::Amounts;
use crate::place::meters::AtMeters;
use crate::place::survey::Survey;
use crate::ways::attempts::{at_piece, others, pieces};
use crate::ways::beams::{Beams, nearest_zoom};
use crate::ways::compute::compute;
use crate::ways::light::FlashZones;
use crate::ways::scout::Scout;
use crate::ways::way::{Attempt, Way, with_zoom};
use answer::Ask;
use colour::Spectrum;
use light::HeadDress;
use rayon::prelude::*;
use transport::{Fineness, Guide, Meter, Source, read_meters};

/// Asks in every room: ten in all, for each is a whole answer read again by the referee.
const ASKS: usize = 1;
/// Pitch of the sweep, off the lattice of the search.
const PITCH: f32 = 0.65;
/// Paths for each meter of each aim, and for those of the answer and of its best rivals.
const PATHS: usize = 512;
const CAREFUL_PATHS: usize = 16_384;
/// Rivals that are looked at carefully.
const RIVALS: usize = 3;
/// What a rival may be better by: a tenth of the score, or a third of a stop of power (0.5 points of it).
const TENTH: f64 = 0.1;

#[test]
fn nothing_better_is_overlooked() {
    for room in 0..ROOMS {
        let mut job = random_job(room);
        let fineness = Fineness::operator_in(job.place.room.area());
        let survey = Survey::new(&job, fineness, 1).unwrap();
        let beams = Beams::of(&job).unwrap();
        let scout = Scout::new(&job, &survey, &beams, 1);
        let (rivals, swept) = (swept_by_referee(&scout), sweep(&scout));
        let mut dice = Dice::new(1000 + room as u64);
        for _ in 0..ASKS {
            job.ask = random_ask(&mut dice);
            check(&Scout::new(&job, &survey, &beams, 1), &swept, &rivals);
        }
    }
}

fn check(scout: &Scout<'_>, swept: &Swept, rivals: &[Way]) {
    let job = scout.job;
    let all = judge_all(scout, swept).unwrap();
    let mut best = best_of(scout, all).unwrap();
    let (chosen, _) = confirmed(scout, &mut best, &mut None).unwrap();
    let own = &chosen.way;
    let ours = careful(scout, &with_zoom(own, own.zoom_mm));
    // The rivals' first readings are noisy: the best of them are read again before they may win.
    let mut judged: Vec<Judged> = rivals
        .iter()
        .map(|way| judge(scout, way.clone()).unwrap())
        .collect();
    judged.sort_by(|a, b| a.points.total_cmp(&b.points));
    let best = judged
        .iter()
        .take(RIVALS)
        .filter_map(|rival| careful(scout, &with_zoom(&rival.way, rival.way.zoom_mm)))
        .map(|rival| (rank_points(&rival), rival))
        .min_by(|a, b| a.0.total_cmp(&b.0));
    let ours = ours.expect("the answer is a way that the survey knows");
    let (rival_points, rival) = best.expect("an ordinary room has more than one way");
    let our_points = rank_points(&ours);
    let weaker = (rival.power - ours.power).clamp(0.0, 1.0 / 3.0);
    let allowed = (TENTH * our_points).max(1.5 * weaker).max(0.05);
    let better = our_points - rival_points;
    assert!(
        better <= allowed,
        "{} {:?}: answer {:?} at {:.2} has {our_points:.2} points ({:?}), but {:?} at {:.2} zoom {} has {rival_points:.2} ({:?})",
        job.title,
        job.ask.key,
        ours.way.id(),
        ours.way.target,
        ours.faults,
        rival.way.id(),
        rival.way.target,
        rival.way.zoom_mm,
        rival.faults,
    );
}

/// Points with what is missed on top, as the search ranks.
fn rank_points(judged: &Judged) -> f64 {
    judged.rank().1
}

/// An attempt read by the referee with many paths, and judged.
fn careful(scout: &Scout<'_>, attempt: &Attempt) -> Option<Judged> {
    let way = by_referee(scout, attempt, CAREFUL_PATHS)?;
    Some(judge(scout, way).unwrap())
}

/// A coarse lattice of aims over the whole room at three zooms, and the bare flash.
fn swept_by_referee(scout: &Scout<'_>) -> Vec<Way> {
    let job = scout.job;
    let mut attempts: Vec<Attempt> = Vec::new();
    for zoom in [24.0, 50.0, 105.0] {
        let zoom = nearest_zoom(job, zoom);
        attempts.extend(pieces(job, PITCH).iter().map(|piece| at_piece(piece, 0, zoom)));
    }
    attempts.extend(others(scout, 0));
    attempts
        .par_iter()
        .filter_map(|attempt| by_referee(scout, attempt, PATHS))
        .collect()
}

/// A way whose light is read by path tracing.
fn by_referee(scout: &Scout<'_>, attempt: &Attempt, paths: usize) -> Option<Way> {
    let Scout {
        job, survey, beams, ..
    } = *scout;
    let mut way = compute(scout, attempt)?;
    let flash = beams.placed(attempt.zoom_mm, attempt.dress, way.flash, attempt.target);
    let source = Source::Flash(flash);
    let meters: Vec<Meter> = survey.operator.meters().to_vec();
    let guide: Option<&Guide> = None;
    let readings = read_meters(&survey.room, &source, guide, None, &meters, paths, 99);
    let weights = job.bag.flash.colour().luminous_weights();
    let means: Vec<Spectrum> = readings.iter().map(|reading| reading.mean).collect();
    let read = AtMeters::of(&means);
    // What a flag takes away is known exactly: it is the light straight from the head.
    let direct: Vec<f32> = meters
        .iter()
        .map(|m| match &source {
            Source::Flash(flash) => m.read_direct(&survey.room, flash),
            _ => 0.0,
        })
        .collect();
    let light = &mut way.light;
    light.amounts = Amounts::of(&read, &weights);
    light.zones = FlashZones::of(&read);
    light.spill = Amounts::luminous(&AtMeters::of(&direct));
    if way.flagged {
        light.block_spill();
    }
    debug_assert!(matches!(way.dress, HeadDress::Bare));
    Some(way)
}

/// The random asks are not all alike.
#[test]
fn the_asks_differ() {
    let room = |room: usize| random_ask(&mut Dice::new(1000 + room as u64));
    let asks: Vec<Ask> = (0..ROOMS).map(room).collect();
    assert!(asks.windows(2).all(|pair| pair[0].key != pair[1].key));
}
