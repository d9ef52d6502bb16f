//! Where the flash can be, and what would show in the picture.

use crate::practice::{
    DAZZLES_M, HIGHEST_HAND_M, HIGHEST_STAND_M, LEAST_HELD_M, LOWEST_STAND_M, SHOE_HEIGHT_M,
};
use answer::{FlashStand, Job};
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
