//! Where people stand, when they may be moved.

use crate::choose::search::{best_of, judge_all, sweep};
use crate::place::survey::Survey;
use crate::practice::effort;
use crate::watch::{Watch, begin};
use crate::ways::beams::Beams;
use crate::ways::scout::Scout;
use answer::{Failure, Job, Step};
use glam::Vec3;
use transport::Fineness;

/// How far, and which way, the people are moved: nowhere, unless that was allowed and serves clearly
/// better. Places about the first are compared on coarse solutions.
pub(crate) fn where_to_stand(job: &Job, beams: &Beams, seed: u64, watch: &Watch) -> Result<Vec3, Failure> {
    let reach = job.ask.may_move_m;
    if reach <= 0.0 || job.sitters.is_empty() {
        return Ok(Vec3::ZERO);
    }
    let mut best: Option<((bool, f64), Vec3)> = None;
    for step in 0..=8 * 2 {
        begin(watch, Step::Standing)?;
        let by = match step {
            0 => Vec3::ZERO,
            _ => {
                let angle = ((step - 1) % 8) as f32 * std::f32::consts::FRAC_PI_4;
                let far = if step > 8 { reach } else { 0.5 * reach };
                Vec3::new(angle.cos(), angle.sin(), 0.0) * far
            }
        };
        let variant = moved(job, by);
        let Ok(survey) = Survey::new(&variant, Fineness::SKETCH, seed) else {
            // No place for people to stand.
            continue;
        };
        let scout = &Scout::new(&variant, &survey, beams, seed);
        let found = best_of(scout, judge_all(scout, &sweep(scout))?)?;
        if let Some(first) = found.first() {
            let (missed, points) = first.rank();
            let rank = (missed, points + effort::OFFERED_MOVE * f64::from(by.length()));
            if best.is_none_or(|(held, _)| rank < held) {
                best = Some((rank, by));
            }
        }
    }
    Ok(best.map_or(Vec3::ZERO, |(_, by)| by))
}

/// A job with everyone, and what the camera looks at, moved.
pub(crate) fn moved(job: &Job, by: Vec3) -> Job {
    let mut moved = job.clone();
    moved.move_everyone(by);
    moved
}
