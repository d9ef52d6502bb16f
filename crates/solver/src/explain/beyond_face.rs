//! What a flash that shines straight at the face does to the rest of the picture: where its beam falls off, and where it
//! throws the sitter's own shadow.

use crate::place::amounts::Finished;
use crate::place::flash_places::{frame_edges, in_the_picture};
use crate::place::meters::{Met, SEEN_BEHIND, SKIN_LIFT, behind_people};
use crate::practice::{BEAM_FALLS_OFF, CAST_SHADOW_TOLD};
use crate::ways::fine::Fine;
use crate::ways::way::Way;
use answer::{FrameEdge, FrameFall, Job, Note, Route, Side};
use glam::{Vec2, Vec3};
use light::HeadDress;
use transport::{Meter, PlacedFlash, Receptor, Source, read_light};
use units::Stops;

/// Rays of the meter that is held in the shadow.
const RAYS: usize = 1024;
/// Half the width of a head, in metres (common practice: heads are about 15 cm wide).
const HALF_A_HEAD_M: f32 = 0.075;
/// A point so far beside the middle of a head still lies well inside it, in metres.
const INSIDE_A_HEAD_M: f32 = 0.05;

/// Notes on a flash that shines straight at the face, in the finished picture.
pub(crate) fn beyond_the_face(job: &Job, way: &Way, fine: &Fine, picture: &Finished<'_>) -> Vec<Note> {
    let &Way { zoom_mm, dress, .. } = way;
    let (Route::Direct, Source::Flash(flash)) = (&way.route, &fine.source) else {
        return Vec::new();
    };
    let falls = frame_falls(job, flash);
    let widest = job.bag.flash.zooms().fold(f64::MAX, f64::min);
    let may_zoom = dress == HeadDress::Bare && zoom_mm > widest + 0.5;
    let falls_off = (!falls.is_empty()).then_some(Note::BeamFallsOff { falls, may_zoom });
    falls_off
        .into_iter()
        .chain(cast_shadow(job, fine, flash, picture))
        .collect()
}

/// The edges of the frame, in the plane of the first face, where the flash is clearly weaker than at the face.
fn frame_falls(job: &Job, flash: &PlacedFlash) -> Vec<FrameFall> {
    let at_face = level(flash, job.sitters[0].face());
    let fall = |(edge, at): (FrameEdge, Vec3)| FrameFall {
        edge,
        under: Stops(-(level(flash, at).max(1e-6) / at_face.max(1e-6)).log2()),
    };
    let falls = frame_edges(job).into_iter().map(fall);
    falls.filter(|fall| fall.under.value() > BEAM_FALLS_OFF).collect()
}

/// Light straight from the flash on a surface that faces it, in lx s at full power.
fn level(flash: &PlacedFlash, at: Vec3) -> f64 {
    let leg = at - flash.position;
    f64::from(flash.intensity(leg.normalize_or_zero()) / leg.length_squared().max(1e-4))
}

/// The shadow of the first head on what stands behind it, where the camera sees it.
fn cast_shadow(job: &Job, fine: &Fine, flash: &PlacedFlash, picture: &Finished<'_>) -> Option<Note> {
    let (right, up, _) = job.viewpoint.axes();
    let face = job.sitters[0].face();
    // The middle of the shadow may hide behind the head; its sides are the next that show.
    let parts = [Vec2::ZERO, Vec2::NEG_X, Vec2::X, Vec2::Y]
        .map(|by| face + (right * by.x + up * by.y) * INSIDE_A_HEAD_M);
    let Met { at, normal, .. } = parts.into_iter().find_map(|part| {
        let shadowed = behind_people(
            &fine.place.room,
            flash.position,
            (part - flash.position).normalize(),
        )?;
        let behind = shadowed.at.distance(flash.position) > face.distance(flash.position);
        (behind && shows(job, fine, shadowed.at)).then_some(shadowed)
    })?;
    let meter = Meter {
        position: at,
        receptor: Receptor::Flat(normal),
    };
    let weights = job.bag.flash.colour().luminous_weights();
    let there = read_light(&fine.place.room, &fine.source, &fine.light, &meter, RAYS);
    let from_flash = (flash.position - at).normalize();
    let kept_off = level(flash, at) * f64::from(from_flash.dot(normal).max(0.0))
        - f64::from(meter.read_direct(&fine.place.room, flash));
    // The light that is there hardly changes beside the head, so the mean behind it serves.
    let in_shadow = f64::from(picture.sum(
        there.dot(&weights),
        picture.ambient.background.iter().sum::<f32>() / SEEN_BEHIND as f32,
    ));
    let full = in_shadow + f64::from(picture.power) * kept_off.max(0.0);
    let deep = Stops((full / in_shadow.max(1e-9)).log2());
    (deep.value() > CAST_SHADOW_TOLD).then(|| Note::CastShadow {
        side: side_of(job, at),
        deep,
        behind_m: f64::from(at.distance(face)),
    })
}

/// Whether the camera sees a point, in its frame and past everyone.
fn shows(job: &Job, fine: &Fine, at: Vec3) -> bool {
    let leg = at - job.viewpoint.position;
    let first = fine
        .place
        .room
        .tracer
        .closest(job.viewpoint.position, leg.normalize());
    in_the_picture(job, at, 0.0) && first.is_none_or(|hit| hit.distance > leg.length() - 10.0 * SKIN_LIFT)
}

/// The side of the head that a point shows on; `None` where it is neither.
fn side_of(job: &Job, at: Vec3) -> Option<Side> {
    let view = &job.viewpoint;
    let (right, _, forward) = view.axes();
    let across = |point: Vec3| {
        let leg = point - view.position;
        leg.dot(right) / leg.dot(forward).max(1e-3)
    };
    let face = job.sitters[0].face();
    let beside = (across(at) - across(face)) * (face - view.position).dot(forward);
    match beside {
        beside if beside < -HALF_A_HEAD_M => Some(Side::Left),
        beside if beside > HALF_A_HEAD_M => Some(Side::Right),
        _ => None,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::trials::made_up;

    /// The edges at which a flash on the camera, at a zoom, leaves a tall frame 2 m wide dark.
    fn check(zoom_mm: f64, focal_mm: f32, expected: &[FrameEdge]) {
        let mut job = made_up::job();
        job.viewpoint.focal_mm = focal_mm;
        job.viewpoint.look_at = job.sitters[0].face();
        let beam = job.bag.flash.beam(zoom_mm, HeadDress::Bare).expect("a beam");
        let flash = PlacedFlash::aimed(beam, job.viewpoint.position, job.viewpoint.look_at, [0.07, 0.045]);
        let edges: Vec<FrameEdge> = frame_falls(&job, &flash)
            .into_iter()
            .map(|fall| fall.edge)
            .collect();
        assert_eq!(edges, expected, "zoom {zoom_mm} for {focal_mm} mm");
    }

    #[test]
    fn a_beam_tighter_than_the_frame_leaves_its_edges_dark() {
        // A head zoomed to the lens covers its frame; one zoomed past it does not.
        check(24.0, 85.0, &[]);
        check(
            200.0,
            35.0,
            &[
                FrameEdge::Left,
                FrameEdge::Right,
                FrameEdge::Top,
                FrameEdge::Bottom,
            ],
        );
    }
}
