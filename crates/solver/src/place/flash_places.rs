//! Where the flash can be, and what would show in the picture.

use crate::practice::{
    DAZZLES_M, HIGHEST_HAND_M, HIGHEST_STAND_M, LEAST_HELD_M, LOWEST_STAND_M, PHOTOGRAPHER_M, SHOE_HEIGHT_M,
};
use answer::{FlashStand, FrameEdge, Job};
use glam::Vec3;
use light::HeadDress;

/// Where the flash is.
pub(crate) fn flash_position(job: &Job) -> Vec3 {
    match job.ask.stand {
        FlashStand::OnCamera => {
            let mut at = job.viewpoint.position + Vec3::Z * SHOE_HEIGHT_M;
            at.z = at.z.min(job.place.room.size.z - 0.05);
            at
        }
        FlashStand::At(point) => point,
        FlashStand::Anywhere => job.viewpoint.position + Vec3::Z * SHOE_HEIGHT_M,
    }
}

/// Places of the flash that are tried: where it is, or all about the room where it may be anywhere.
pub(crate) fn flash_places(job: &Job, at: Vec3) -> Vec<Vec3> {
    let free = job.bag.stand || job.bag.helpers > 0;
    let mut places = vec![at];
    if job.ask.stand != FlashStand::Anywhere || !free {
        return places;
    }
    let face = job.sitters[0].face();
    for azimuth in [
        -135.0f32, -100.0, -70.0, -45.0, -20.0, 20.0, 45.0, 70.0, 100.0, 135.0,
    ] {
        for distance in [1.4f32, 2.4] {
            for height in [1.2f32, 2.0] {
                let level =
                    glam::Quat::from_rotation_z(azimuth.to_radians()) * job.sitters[0].face_direction();
                let place = (face + level * distance).with_z(height);
                if can_stand(job, place, HeadDress::Bare) {
                    places.push(place);
                }
            }
        }
    }
    places
}

/// Whether a flash with this front can be where it is said: held by a stand or a hand, out of the picture, and not too near
/// to anyone's face.
pub(crate) fn can_stand(job: &Job, place: Vec3, dress: HeadDress) -> bool {
    let highest = match job.bag.stand {
        true => HIGHEST_STAND_M,
        false => HIGHEST_HAND_M,
    };
    let least = match dress.soft_front() {
        Some(_) => LEAST_HELD_M,
        None => DAZZLES_M,
    };
    let wide = dress.soft_front().map_or(0.3, |front| front.width_m() as f32);
    let held = (LOWEST_STAND_M..=highest).contains(&place.z);
    let free = job.place.room.contains(place, 0.2) && !inside_furniture(job, place, 0.1);
    let near = |sitter: &scene::Sitter| f64::from(sitter.face().distance(place)) < least;
    held && free && !job.sitters.iter().any(near) && !in_the_picture(job, place, wide)
}

/// Whether a place lies within furniture, or nearer to it than a margin in metres.
pub(crate) fn inside_furniture(job: &Job, place: Vec3, margin: f32) -> bool {
    let inside =
        |block: &scene::Block| (place.cmpge(block.min - margin) & place.cmple(block.max + margin)).all();
    job.place.blocks.iter().any(inside)
}

/// Whether the middle of a beam would end on the photographer, who stands behind the camera. One who looks straight up or down
/// may stand anywhere and is in nobody's way.
pub(crate) fn meets_the_photographer(job: &Job, from: Vec3, to: Vec3) -> bool {
    let view = &job.viewpoint;
    let [behind, radius, above] = PHOTOGRAPHER_M;
    let (_, _, forward) = view.axes();
    let Some(level) = forward.with_z(0.0).try_normalize() else {
        return false;
    };
    let (leg, top) = (to - from, view.position.z + above);
    // Where along the leg, as a share of it, the post begins and ends, seen from above.
    let beside = (from - (view.position - level * behind)).truncate();
    let run = leg.truncate();
    let (a, b) = (run.length_squared(), beside.dot(run));
    let root = b * b - a * (beside.length_squared() - radius * radius);
    if a < 1e-6 || root < 0.0 {
        return false;
    }
    let [enters, leaves] = [-1.0, 1.0].map(|side| ((side * root.sqrt() - b) / a).clamp(0.0, 1.0));
    let height = |share: f32| from.z + leg.z * share;
    enters < leaves && height(enters).min(height(leaves)) < top
}

/// The middle of each edge of the frame, in the plane of the first face.
pub(crate) fn frame_edges(job: &Job) -> [(FrameEdge, Vec3); 4] {
    let view = &job.viewpoint;
    let (right, up, forward) = view.axes();
    let depth = (job.sitters[0].face() - view.position).dot(forward);
    let half = view.half_extent(view.aspect()) * depth;
    let middle = view.position + forward * depth;
    [
        (FrameEdge::Left, middle - right * half.x),
        (FrameEdge::Right, middle + right * half.x),
        (FrameEdge::Top, middle + up * half.y),
        (FrameEdge::Bottom, middle - up * half.y),
    ]
}

/// Whether something of this size at this place would show in the picture.
pub(crate) fn in_the_picture(job: &Job, centre: Vec3, size: f32) -> bool {
    let (right, up, forward) = job.viewpoint.axes();
    let from = centre - job.viewpoint.position;
    let depth = from.dot(forward);
    if depth <= 0.05 {
        return false;
    }
    let half = job.viewpoint.half_extent(job.viewpoint.aspect());
    let margin = 0.4 * size / depth;
    (from.dot(right) / depth).abs() < half.x + margin && (from.dot(up) / depth).abs() < half.y + margin
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::trials::made_up;

    /// A flash on the shoe, its aim turned from the lens axis and tilted up, in degrees.
    fn check(turned_deg: f32, up_deg: f32, expected: bool) {
        let mut job = made_up::job();
        job.viewpoint.look_at = job.sitters[0].face().with_z(job.viewpoint.position.z);
        let (right, up, forward) = job.viewpoint.axes();
        let (turned, tilted) = (turned_deg.to_radians(), up_deg.to_radians());
        let along = (forward * turned.cos() + right * turned.sin()) * tilted.cos() + up * tilted.sin();
        let from = job.viewpoint.position + Vec3::Z * SHOE_HEIGHT_M;
        let meets = meets_the_photographer(&job, from, from + along * 3.0);
        assert_eq!(meets, expected, "turned {turned_deg}°, {up_deg}° up");
    }

    #[test]
    fn a_head_turned_back_points_over_the_photographer_or_past() {
        check(0.0, 0.0, false);
        check(180.0, -10.0, true);
        check(180.0, 15.0, true);
        check(180.0, 45.0, false);
        check(150.0, 0.0, true);
        check(120.0, 0.0, false);
        check(180.0, 90.0, false);
    }
}
