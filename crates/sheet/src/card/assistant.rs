//! What the assistant looks after in an answer, and where that is.

use crate::voice::Voice;
use crate::wording::for_assistant::{self, Duty, Line, Spot, Work};
use answer::{Answer, Holder, Job, Route};
use glam::Vec3;

/// The five lines for the assistant.
pub(super) fn lines(job: &Job, answer: &Answer, voice: Voice) -> [Line; 5] {
    let work = Work {
        duty: duty(job, answer),
        sitters: &job.sitters,
        aim: &answer.aim,
        zoom_mm: answer.flash.zoom_mm,
        dress: answer.flash.dress,
        gel: answer.colouring.gel.as_ref().map(|worn| worn.gel.name()),
    };
    for_assistant::lines(voice, &work)
}

fn duty(job: &Job, answer: &Answer) -> Duty {
    let aim = &answer.aim;
    match aim.route {
        Route::HeldBoard {
            board,
            centre,
            to_face_m,
            ..
        } => Duty::Board {
            at: spot(job, answer, centre),
            size_m: job
                .bag
                .boards
                .get(board)
                .map(|board| board.size.to_array().map(f64::from)),
            to_face_m,
        },
        _ => match aim.holder {
            Holder::Camera => Duty::Way,
            Holder::Stand | Holder::Helper | Holder::Placed => Duty::Flash {
                at: spot(job, answer, aim.flash),
                holder: aim.holder,
            },
        },
    }
}

/// A place as told from the first sitter's face.
fn spot(job: &Job, answer: &Answer, point: Vec3) -> Spot {
    let face = job.sitters.first().map_or(answer.aim.target, scene::Sitter::face);
    Spot {
        hour: job.hour_of(point),
        far_m: f64::from((point - face).with_z(0.0).length()),
        up_m: f64::from(point.z),
        above_eyes_m: f64::from(point.z - face.z),
    }
}
