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

/// Where the flash stands and points on a way.
pub(crate) fn aim(job: &Job, way: &Way) -> Aim {
    let face = job.sitters[0].face();
    let axis = (way.target - way.flash).try_normalize().unwrap_or(Vec3::Y);
    let [turn_deg, tilt_deg] = job.turn_and_tilt(axis);
    let flash_from_face_m = f64::from(way.flash.distance(face));
    let (source, legs_m) = match way.route {
        Route::Direct => (way.flash, [flash_from_face_m, 0.0]),
        _ => (
            way.target,
            [
                f64::from((way.target - way.flash).length()),
                f64::from((face - way.target).length()),
            ],
        ),
    };
    Aim {
        route: way.route.clone(),
        holder: job.holder(way.flash, &way.route),
        flash: way.flash,
        flash_at_clock: job.hour_of(way.flash),
        flash_from_face_m,
        target: way.target,
        target_above_eyes_m: f64::from(way.target.z - face.z),
        target_from_camera_m: job.from_camera(way.target),
        light_from_clock: job.hour_of(source),
        turn_deg,
        tilt_deg,
        middle: job.beam_middle(way.flash, axis),
        legs_m,
        flagged: way.flagged,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::trials::made_up;
    use answer::{BeamMiddle, Holder};
    use scene::Sitter;

    /// A camera at (2, 1) that looks along a level direction, and a sitter 2 m ahead of it.
    fn looking(along: Vec3) -> Job {
        let mut job = made_up::job();
        job.viewpoint.position = Vec3::new(2.0, 1.0, 1.6);
        job.viewpoint.look_at = job.viewpoint.position + 2.0 * along.normalize();
        job.sitters.truncate(1);
        (job.sitters[0].stand, job.sitters[0].face_height) = (job.viewpoint.look_at.with_z(0.0), 1.6);
        job
    }

    fn near(found: f64, expected: f64) {
        assert!((found - expected).abs() < 1e-3, "{found} for {expected}");
    }

    #[test]
    fn clock_hours_are_seen_from_above_with_the_camera_at_six() {
        let job = looking(Vec3::Y);
        let check = |from: Vec3, expected: f64| {
            let off = (job.hour_of(job.sitters[0].face() + from) - expected + 6.0).rem_euclid(12.0) - 6.0;
            assert!(off.abs() < 1e-5, "{from}: {off}");
        };
        check(Vec3::NEG_Y, 6.0);
        check(Vec3::NEG_X, 9.0);
        check(Vec3::X, 3.0);
        check(Vec3::Y, 0.0);
        check(Vec3::new(-1.0, -1.0, 0.0), 7.5);
    }

    #[test]
    fn turn_and_tilt_are_told_from_the_lens_axis_and_lead_back() {
        let check = |looks: Vec3, points: Vec3, [turn, tilt]: [f64; 2]| {
            let job = looking(looks);
            let found = job.turn_and_tilt(points);
            near((found[0] - turn + 180.0).rem_euclid(360.0), 180.0);
            near(found[1], tilt);
            let axis = job.axis_at(turn, tilt);
            assert!(axis.abs_diff_eq(points.normalize(), 1e-5), "{axis} for {points}");
        };
        let root = std::f32::consts::SQRT_2;
        // The worked value of the documentation: ahead, to camera left, and up.
        check(Vec3::Y, Vec3::new(-1.0, 1.0, root), [-45.0, 45.0]);
        check(Vec3::Y, Vec3::X, [90.0, 0.0]);
        check(Vec3::Y, Vec3::NEG_Y, [180.0, 0.0]);
        check(Vec3::Y, Vec3::NEG_Z, [0.0, -90.0]);
        // The nought goes with the lens, and not with the room; how far the lens looks down does not matter.
        check(Vec3::new(1.0, 1.0, 0.0), Vec3::Y, [-45.0, 0.0]);
        check(Vec3::new(1.0, 1.0, -1.0), Vec3::X, [45.0, 0.0]);
        check(Vec3::NEG_Z, Vec3::Y, [0.0, 0.0]);
    }

    #[test]
    fn an_aim_says_where_the_flash_stands_and_how_its_beam_lies_to_the_faces() {
        let mut job = looking(Vec3::Y);
        (job.bag.stand, job.bag.helpers) = (true, 0);
        let face = job.sitters[0].face();
        // Level with the sitter, 1 m to camera left and 1 m up.
        let mut way = Way {
            route: Route::Direct,
            flash: face + Vec3::new(-1.0, 0.0, 1.0),
            target: face,
            ..made_up::way()
        };
        let found = aim(&job, &way);
        assert_eq!((found.holder, found.middle), (Holder::Stand, BeamMiddle::Face));
        near(found.flash_at_clock, 9.0);
        near(found.flash_from_face_m, 2f64.sqrt());
        near(found.turn_deg, 90.0);
        near(found.tilt_deg, -45.0);
        near(found.target_from_camera_m[0], 0.0);
        near(found.target_from_camera_m[1], 2.0);
        // Feathered to level, it passes the face.
        way.target = way.flash + Vec3::X;
        match aim(&job, &way).middle {
            BeamMiddle::Past { off_deg } => near(off_deg, 45.0),
            other => panic!("{other:?}"),
        }
        let beside = Sitter {
            stand: job.sitters[0].stand + Vec3::X,
            ..job.sitters[0].clone()
        };
        job.sitters.push(beside);
        way.target = face + 0.5 * Vec3::X;
        assert_eq!(aim(&job, &way).middle, BeamMiddle::MiddleOfFaces);
    }

    #[test]
    fn a_flash_is_held_by_what_there_is() {
        let mut job = looking(Vec3::Y);
        let board = Route::HeldBoard {
            board: 0,
            name: String::new(),
            centre: Vec3::ZERO,
            normal: Vec3::X,
            to_face_m: 1.0,
        };
        let mut check = |stand, helpers, route: &Route, expected| {
            (job.bag.stand, job.bag.helpers) = (stand, helpers);
            let away = job.viewpoint.position + Vec3::X;
            assert_eq!(job.holder(away, route), expected);
            let shoe = job.viewpoint.position + 0.12 * Vec3::Z;
            assert_eq!(job.holder(shoe, route), Holder::Camera);
        };
        check(true, 1, &Route::Direct, Holder::Stand);
        check(false, 1, &Route::Direct, Holder::Helper);
        check(false, 0, &Route::Direct, Holder::Placed);
        // One pair of hands holds one thing.
        check(false, 1, &board, Holder::Placed);
        check(false, 2, &board, Holder::Helper);
    }
}
