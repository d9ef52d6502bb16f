//! What the camera's settings could not meet.

use crate::judge::exposure::{depth_is_out_of_reach, slow_for_a_person};
use answer::{Job, Judgement, LevelTarget, Note, Settings, Wish, WishState};
use camera::fastest_clean_shutter;
use units::Stops;

/// Notes on levels that settings do not reach, on a depth that no aperture gives, and on a shutter too slow to hold.
pub(crate) fn unmet(job: &Job, wishes: &[Judgement], settings: &Settings) -> Vec<Note> {
    let depth = depth_is_out_of_reach(job);
    let levels = wishes.iter().filter_map(|wish| level(job, wish, settings));
    depth
        .into_iter()
        .chain(levels)
        .chain(slow_for_a_person(settings.shutter))
        .collect()
}

fn level(job: &Job, wish: &Judgement, settings: &Settings) -> Option<Note> {
    if wish.state == WishState::Kept {
        return None;
    }
    let shutter = settings.shutter;
    let fastest = shutter.value() < 1.01 * fastest_clean_shutter(job.body.sync).value();
    let (target, asked) = match &wish.asked {
        Wish::AmbientOut => {
            let under = Stops(-wish.found);
            return Some(Note::AmbientStays {
                under,
                shutter,
                fastest,
            });
        }
        Wish::AmbientAt { stops } => (LevelTarget::Ambient, *stops),
        Wish::Zone { name, stops } => (LevelTarget::Zone { name: name.clone() }, *stops),
        _ => return None,
    };
    let off = wish.found - asked.value();
    Some(if off > 0.0 {
        let off = Stops(off);
        Note::TooBright {
            target,
            off,
            shutter,
            fastest,
        }
    } else {
        let off = Stops(-off);
        Note::TooDark { target, off }
    })
}
