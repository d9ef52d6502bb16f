//! What a way of lighting does to the faces, read from the surveyed place.

use crate::place::amounts::Amounts;
use crate::place::boards::board_frame;
use crate::place::flash_places::meets_the_photographer;
use crate::place::meters::AtMeters;
use crate::place::survey::Survey;
use crate::ways::light::{FaceLight, FlashZones};
use crate::ways::scout::Scout;
use crate::ways::way::{Attempt, Pose, Way, pose_of};
use answer::{Job, Route};
use colour::Spectrum;
use glam::Vec3;
use light::HeadDress;
use scene::{Face, ObjectKind};
use transport::{AimMap, Aimed, HeldBoard, PlacedFlash};

/// Share of the beam's light that must land on a face before the aim counts as that face's at all.
const OWN_SHARE: f32 = 0.5;
/// Share of the beam's light that must land on a second face before both carry the key: less is what spills beside any beam.
const SECOND_SHARE: f32 = 0.12;
/// An aim further than this from the second face is no aim at their corner, in metres, however wide the beam (ours).
const INTO_CORNER_M: f32 = 1.2;

/// Computes an attempt without a held board. Aims at a surface are kept only when most of the beam lands
/// there; into a corner they are named for both.
pub(crate) fn compute(scout: &Scout<'_>, attempt: &Attempt) -> Option<Way> {
    compute_from(scout, scout.survey.maps.get(attempt.place)?, attempt)
}

/// The same with the flash where this map has it.
pub(crate) fn compute_from(scout: &Scout<'_>, map: &AimMap, attempt: &Attempt) -> Option<Way> {
    let hidden = meets_the_photographer(scout.job, map.position(), attempt.target);
    (!hidden).then(|| as_aimed(scout, map, attempt)).flatten()
}

/// The same for a head that somebody has aimed already, whoever stands before it.
pub(crate) fn as_aimed(scout: &Scout<'_>, map: &AimMap, attempt: &Attempt) -> Option<Way> {
    let Scout { survey, beams, .. } = *scout;
    let flash = beams.placed(attempt.zoom_mm, attempt.dress, map.position(), attempt.target);
    let aimed = map.read(&survey.operator, &flash, None);
    let route = match &attempt.route {
        Route::Bounce { face, .. } if attempt.dress == HeadDress::Bare => Route::Bounce {
            face: *face,
            corner_with: landing(survey, &aimed, *face)?
                .filter(|second| from_face(scout.job, *second, attempt.target) < INTO_CORNER_M),
        },
        other => other.clone(),
    };
    let light = aimed_light(scout, &flash, &aimed, &route);
    Some(flag(Way {
        place: attempt.place,
        flash: map.position(),
        target: attempt.target,
        zoom_mm: attempt.zoom_mm,
        dress: attempt.dress,
        flagged: light.spills() && !matches!(route, Route::Direct),
        light,
        route,
        zoom_gain: None,
    }))
}

/// What the head of a way does in another survey, from its first place and pointed at the same target,
/// whatever it lands on there.
pub(crate) fn light_of(scout: &Scout<'_>, way: &Way) -> Option<FaceLight> {
    let Scout { survey, beams, .. } = *scout;
    let mut light = match pose_of(way) {
        Some(mut pose) => {
            pose.place = 0;
            compute_board(scout, &pose, &[way.zoom_mm]).pop()?.light
        }
        None => {
            let map = survey.maps.first()?;
            let flash = beams.placed(way.zoom_mm, way.dress, map.position(), way.target);
            let aimed = map.read(&survey.operator, &flash, None);
            aimed_light(scout, &flash, &aimed, &way.route)
        }
    };
    if way.flagged && light.spill.dome > 0.0 {
        light.block_spill();
    }
    Some(light)
}

/// Computes a held board at some zooms of the head.
pub(crate) fn compute_board(scout: &Scout<'_>, pose: &Pose, zooms: &[f64]) -> Vec<Way> {
    let Scout {
        job, survey, beams, ..
    } = *scout;
    let map = &survey.maps[pose.place];
    let face = survey.stage.sitters[0].face;
    let board = HeldBoard::new(
        &survey.room,
        &survey.operator,
        board_frame(job, pose.board, pose.centre, pose.normal),
        job.bag.boards[pose.board].material.reflectance,
        map.position(),
    );
    zooms
        .iter()
        .map(|&zoom_mm| {
            let flash = beams.placed(zoom_mm, HeadDress::Bare, map.position(), pose.centre);
            let lit = board.lit(&flash);
            let aimed = map.read(&survey.operator, &flash, Some(&board));
            let meters: Vec<Spectrum> = aimed
                .meters
                .iter()
                .zip(&lit.readings)
                .map(|(&a, &b)| a + b)
                .collect();
            let (all, spill) = (AtMeters::of(&meters), AtMeters::of(&aimed.direct));
            let carried = Carried {
                first: lit.first,
                key_direction: pose.centre - face,
                softness: lit.width_over_distance(face),
            };
            let light = face_light(job, &all, &spill, carried);
            flag(Way {
                route: route_of(job, pose),
                place: pose.place,
                flash: map.position(),
                target: pose.centre,
                zoom_mm,
                dress: HeadDress::Bare,
                flagged: light.spills(),
                light,
                zoom_gain: None,
            })
        })
        .collect()
}

/// The route of a held board.
fn route_of(job: &Job, pose: &Pose) -> Route {
    Route::HeldBoard {
        board: pose.board,
        name: job.bag.boards[pose.board].name.clone(),
        centre: pose.centre,
        normal: pose.normal,
        to_face_m: f64::from(pose.to_face_m),
    }
}

/// A flagged head no longer lights the face directly.
fn flag(mut way: Way) -> Way {
    if way.flagged {
        way.light.block_spill();
    }
    way
}

/// How far a point of the place lies from one of its faces, in metres.
fn from_face(job: &Job, face: Face, point: Vec3) -> f32 {
    let inward = face.inward();
    let on_it = match inward.max_element() > 0.5 {
        true => Vec3::ZERO,
        false => job.place.room.size,
    };
    (point - on_it).dot(inward)
}

/// Which second face shares the key with the aimed one; the outer `None` when less than half of the beam
/// lands where it was aimed.
fn landing(survey: &Survey, aimed: &Aimed, face: Face) -> Option<Option<Face>> {
    let mut total = 0.0;
    let (mut by_face, mut flux_on) = ([0.0f32; 6], [0.0f32; 6]);
    for (object, &(flux, light)) in survey.room.geometry.objects.iter().zip(&aimed.carried) {
        total += flux;
        if let ObjectKind::RoomFace(at) = object.kind {
            by_face[at.index()] += light;
            flux_on[at.index()] += flux;
        }
    }
    if total <= 0.0 || flux_on[face.index()] < OWN_SHARE * total {
        return None;
    }
    let brightest = |a: &Face, b: &Face| by_face[a.index()].total_cmp(&by_face[b.index()]);
    let second = Face::ALL.into_iter().filter(|f| *f != face).max_by(brightest);
    Some(second.filter(|second| flux_on[second.index()] >= SECOND_SHARE * total))
}

/// What an aim without a held board does to the faces.
fn aimed_light(scout: &Scout<'_>, flash: &PlacedFlash, aimed: &Aimed, route: &Route) -> FaceLight {
    let job = scout.job;
    let (all, spill) = (AtMeters::of(&aimed.meters), AtMeters::of(&aimed.direct));
    let carried = carried(scout, flash, aimed, spill.dome, route);
    face_light(job, &all, &spill, carried)
}

/// What is known of a way's key before the faces are read.
struct Carried {
    first: Spectrum,
    key_direction: Vec3,
    softness: f32,
}

/// What carries the key without a held board: the head itself or what it lights first. `direct` is the light straight
/// from the head at the dome.
fn carried(scout: &Scout<'_>, flash: &PlacedFlash, aimed: &Aimed, direct: f32, route: &Route) -> Carried {
    let Scout { job, survey, .. } = *scout;
    if matches!(route, Route::Direct) {
        let [w, h] = job.bag.flash.window_of(flash.beam.dress());
        let to_flash = flash.position - survey.meters.dome.position;
        return Carried {
            first: Spectrum::splat(direct),
            key_direction: to_flash,
            softness: ((w * h).sqrt() as f32) / to_flash.length().max(0.1),
        };
    }
    let (key_direction, softness) = aimed
        .arrival
        .map_or((Vec3::ZERO, 0.0), |a| (a.direction, a.width_over_distance()));
    Carried {
        first: aimed.first_bounce,
        key_direction,
        softness,
    }
}

/// Sorts the readings of the survey's meters into what they say of the faces: `all` of the flash's light,
/// and `spill`, what of it comes straight from the head.
fn face_light(job: &Job, all: &AtMeters<Spectrum>, spill: &AtMeters<f32>, carried: Carried) -> FaceLight {
    FaceLight {
        amounts: Amounts::of(all, &job.bag.flash.colour().luminous_weights()),
        spill: Amounts::luminous(spill),
        zones: FlashZones::of(all),
        first: carried.first,
        key_direction: carried.key_direction,
        softness: carried.softness,
    }
}
