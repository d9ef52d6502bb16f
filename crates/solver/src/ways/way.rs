//! A way of lighting, before and after it has been computed, and where its flash points.

use crate::ways::light::FaceLight;
use answer::{Aim, Job, Route, WayId};
use colour::Spectrum;
use glam::Vec3;
use light::HeadDress;

/// The place of a flash that stands where none of the survey's maps does.
pub(crate) const OFF_THE_GRID: usize = usize::MAX;

/// One way of lighting, with what it does.
#[derive(Clone, Debug)]
pub(crate) struct Way {
    pub route: Route,
    /// Which of the survey's places the flash is at, and where that is.
    pub place: usize,
    pub flash: Vec3,
    pub target: Vec3,
    pub zoom_mm: f64,
    pub dress: HeadDress,
    pub light: FaceLight,
    /// Whether the head is flagged on the sitter's side, because its direct spill would show.
    pub flagged: bool,
    /// Stops gained by zooming from 50 to 105 mm on this route, where both can be set.
    pub zoom_gain: Option<f64>,
}

impl Way {
    /// What it is.
    pub fn id(&self) -> WayId {
        WayId::of(&self.route, self.dress)
    }
}

/// A way of lighting before it has been computed.
#[derive(Clone, Debug)]
pub(crate) struct Attempt {
    pub route: Route,
    pub place: usize,
    pub target: Vec3,
    pub zoom_mm: f64,
    pub dress: HeadDress,
}

pub(crate) fn bare(route: Route, place: usize, target: Vec3, zoom_mm: f64) -> Attempt {
    Attempt {
        route,
        place,
        target,
        zoom_mm,
        dress: HeadDress::Bare,
    }
}

/// An attempt at the same thing with another zoom.
pub(crate) fn with_zoom(way: &Way, zoom_mm: f64) -> Attempt {
    Attempt {
        route: way.route.clone(),
        place: way.place,
        target: way.target,
        zoom_mm,
        dress: way.dress,
    }
}

/// A place where a board of the bag can be held, with the point to aim at.
#[derive(Clone, Debug)]
pub(crate) struct Pose {
    pub place: usize,
    pub board: usize,
    pub centre: Vec3,
    pub normal: Vec3,
    pub to_face_m: f32,
}

/// The pose of a way with a held board.
pub(crate) fn pose_of(way: &Way) -> Option<Pose> {
    let Route::HeldBoard {
        board,
        centre,
        normal,
        to_face_m,
        ..
    } = way.route
    else {
        return None;
    };
    Some(Pose {
        place: way.place,
        board,
        centre,
        normal,
        to_face_m: to_face_m as f32,
    })
}

/// Reflectance of what carries the light on a route; white for light straight from the head.
pub(crate) fn own_reflectance(job: &Job, route: &Route) -> Spectrum {
    match route {
        Route::Bounce { face, .. } => job.place.room.material(*face).reflectance,
        Route::HeldBoard { board, .. } => job.bag.boards[*board].material.reflectance,
        Route::Standing { name } => job
            .place
            .blocks
            .iter()
            .map(|b| (&b.name, &b.material))
            .chain(job.place.panels.iter().map(|p| (&p.name, &p.front)))
            .find(|(known, _)| *known == name)
            .map_or(Spectrum::splat(0.5), |(_, material)| material.reflectance),
        Route::Direct | Route::Open => Spectrum::ONE,
    }
}

/// Where the flash points on a way.
pub(crate) fn aim(job: &Job, way: &Way) -> Aim {
    let (face, facing) = (job.sitters[0].face(), job.sitters[0].face_direction());
    let axis = (way.target - way.flash).try_normalize().unwrap_or(Vec3::Y);
    let to_sitter = (face - way.flash).with_z(0.0).try_normalize().unwrap_or(Vec3::Y);
    let right = to_sitter.cross(Vec3::Z);
    let turn_deg = f64::from(axis.dot(right))
        .atan2(f64::from(axis.dot(to_sitter)))
        .to_degrees();
    let tilt_deg = f64::from(axis.z).clamp(-1.0, 1.0).asin().to_degrees();
    let to_camera = (job.viewpoint.position - face)
        .with_z(0.0)
        .try_normalize()
        .unwrap_or(facing);
    let from_sitter = match way.route {
        Route::Direct => way.flash - face,
        _ => way.target - face,
    };
    let legs_m = match way.route {
        Route::Direct => [f64::from((face - way.flash).length()), 0.0],
        _ => [
            f64::from((way.target - way.flash).length()),
            f64::from((face - way.target).length()),
        ],
    };
    Aim {
        route: way.route.clone(),
        flash: way.flash,
        target: way.target,
        target_above_eyes_m: f64::from(way.target.z - face.z),
        light_from_clock: clock(from_sitter, to_camera),
        turn_deg,
        tilt_deg,
        legs_m,
        flagged: way.flagged,
    }
}

/// Clock hour (0..12) seen from above, sitter in the middle and camera at 6.
///
/// Light from straight behind the camera is 6; from the camera's left is 9.
fn clock(from_sitter: Vec3, to_camera: Vec3) -> f64 {
    let bearing = |v: Vec3| f64::from(v.x).atan2(f64::from(v.y)).to_degrees();
    // Seen from above, clockwise is from y towards x; the camera's bearing is six o'clock.
    (6.0 + (bearing(from_sitter) - bearing(to_camera)) / 30.0).rem_euclid(12.0)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn clock_hours_are_seen_from_above_with_the_camera_at_six() {
        let check = |from: Vec3, expected: f64| {
            let off = (clock(from, Vec3::NEG_Y) - expected + 6.0).rem_euclid(12.0) - 6.0;
            assert!(off.abs() < 1e-5, "{from}: {off}");
        };
        check(Vec3::NEG_Y, 6.0);
        check(Vec3::NEG_X, 9.0);
        check(Vec3::X, 3.0);
        check(Vec3::Y, 0.0);
        check(Vec3::new(-1.0, -1.0, 0.0), 7.5);
    }
}
