//! The ways of lighting that are tried: every surface, every board, and the bare flash.

use crate::reading::FaceLight;
use crate::survey::{AtMeters, Survey, in_the_picture};
use answer::{Failure, Job, Route, Side, WayId};
use colour::Spectrum;
use glam::{Quat, Vec2, Vec3};
use light::{Beam, HeadDress};
use rayon::prelude::*;
use scene::{Face, ObjectKind};
use std::collections::BTreeMap;
use transport::{Aimed, HeldBoard, PlacedFlash};

/// Share of the beam's light that must land on a face before the aim counts as that face's at all.
const OWN_SHARE: f32 = 0.5;
/// Share of the first bounce at the sitter's face from which a face carries the key alone.
const PURE_SHARE: f32 = 0.92;

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

/// The beams of the flash, built once for each zoom and dress.
pub(crate) struct Beams {
    built: BTreeMap<(u32, HeadDress), Beam>,
}

impl Beams {
    /// Every beam that the bag allows.
    pub fn of(job: &Job) -> Result<Self, Failure> {
        let flash = &job.bag.flash;
        let mut wanted: Vec<(f64, HeadDress)> = Vec::new();
        for zoom in flash.zooms() {
            // The bare head is compared with even where it may not be used.
            wanted.push((zoom, HeadDress::Bare));
            let dressed = job.bag.dresses.iter().filter(|&&d| d != HeadDress::Bare);
            wanted.extend(dressed.map(|&dress| (zoom, dress)));
        }
        let built: Result<Vec<_>, _> = wanted
            .into_par_iter()
            .map(|(zoom, dress)| flash.beam(zoom, dress).map(|beam| (key(zoom, dress), beam)))
            .collect();
        Ok(Beams {
            built: built?.into_iter().collect(),
        })
    }

    /// The one beam of an answer.
    pub fn only(job: &Job, zoom_mm: f64, dress: HeadDress) -> Result<Self, Failure> {
        let beam = job.bag.flash.beam(zoom_mm, dress)?;
        Ok(Beams {
            built: BTreeMap::from([(key(zoom_mm, dress), beam)]),
        })
    }

    /// The placed flash of an attempt, as a point: its window does not matter to meters.
    pub fn placed(&self, zoom_mm: f64, dress: HeadDress, from: Vec3, target: Vec3) -> PlacedFlash {
        let beam = self.built[&key(zoom_mm, dress)].clone();
        PlacedFlash::aimed(beam, from, target, [0.0, 0.0])
    }
}

fn key(zoom_mm: f64, dress: HeadDress) -> (u32, HeadDress) {
    ((zoom_mm * 10.0).round() as u32, dress)
}

/// The settable zoom nearest to a wish.
pub(crate) fn nearest_zoom(job: &Job, wish: f64) -> f64 {
    let zooms: Vec<f64> = job.bag.flash.zooms().collect();
    zooms
        .iter()
        .copied()
        .min_by(|a, b| (a / wish).ln().abs().total_cmp(&(b / wish).ln().abs()))
        .unwrap_or(wish)
}

/// A piece of a face of the room that the flash can be aimed at.
pub(crate) struct Piece {
    pub face: Face,
    pub from: Vec2,
    pub size: Vec2,
    pub target: Vec3,
}

/// The room's faces cut into pieces of about this pitch in metres.
pub(crate) fn pieces(job: &Job, pitch: f32) -> Vec<Piece> {
    let mut pieces = Vec::new();
    // Where there is no wall there is nothing to bounce from.
    for face in Face::ALL.into_iter().filter(|&face| !job.place.is_open(face)) {
        let (corner, a, b) = job.place.room.face_frame(face);
        let (along, up) = (a.normalize(), b.normalize());
        let columns = (a.length() / pitch).round().max(1.0);
        let rows = (b.length() / pitch).round().max(1.0);
        let size = Vec2::new(a.length() / columns, b.length() / rows);
        for row in 0..rows as usize {
            for column in 0..columns as usize {
                let from = size * Vec2::new(column as f32, row as f32);
                let middle = from + 0.5 * size;
                pieces.push(Piece {
                    face,
                    from,
                    size,
                    target: corner + along * middle.x + up * middle.y,
                });
            }
        }
    }
    pieces
}

/// A bare bounce off a piece.
pub(crate) fn at_piece(piece: &Piece, place: usize, zoom_mm: f64) -> Attempt {
    let route = Route::Bounce {
        face: piece.face,
        corner_with: None,
    };
    bare(route, place, piece.target, zoom_mm)
}

/// What is tried from a place of the flash beside the pieces of the room: every side of every block and
/// board that stands, domes and cards, and the bare flash.
pub(crate) fn others(job: &Job, survey: &Survey, place: usize) -> Vec<Attempt> {
    let flash = survey.maps[place].position();
    let mut attempts = Vec::new();
    for object in &survey.stage.geometry.objects {
        let standing = match object.kind {
            ObjectKind::Block(_) => true,
            ObjectKind::Panel(index) => index < job.place.panels.len(),
            _ => false,
        };
        if let (true, Some([corner, a, b])) = (standing, object.rectangle) {
            let centre = corner + 0.5 * (a + b);
            if (flash - centre).dot(a.cross(b)) > 0.0 {
                let wide = a.length().min(b.length()) / (flash - centre).length().max(0.3);
                let zoom = nearest_zoom(job, f64::from(24.0 / wide.max(0.05)).clamp(24.0, 200.0));
                let route = Route::Standing {
                    name: object.name.clone(),
                };
                attempts.push(bare(route, place, centre, zoom));
            }
        }
    }
    attempts.extend(dressed(job, survey, place));
    attempts.extend(direct(job, survey, place));
    attempts
}

fn bare(route: Route, place: usize, target: Vec3, zoom_mm: f64) -> Attempt {
    Attempt {
        route,
        place,
        target,
        zoom_mm,
        dress: HeadDress::Bare,
    }
}

/// Domes and bounce cards: the head turned up, at a few tilts towards the sitter.
fn dressed(job: &Job, survey: &Survey, place: usize) -> Vec<Attempt> {
    let flash = survey.maps[place].position();
    let towards = (survey.stage.sitters[0].face - flash)
        .with_z(0.0)
        .try_normalize()
        .unwrap_or(Vec3::Y);
    let up = job.place.room.size.z - flash.z;
    let mut attempts = Vec::new();
    let turned_up = |dress: &&HeadDress| matches!(dress, HeadDress::Dome | HeadDress::BounceCard);
    for &dress in job.bag.dresses.iter().filter(turned_up) {
        for tilt_deg in [89.0f32, 75.0, 60.0, 45.0] {
            let along = up / tilt_deg.to_radians().tan();
            let target = flash + towards * along + Vec3::Z * up;
            let route = Route::Bounce {
                face: Face::Ceiling,
                corner_with: None,
            };
            attempts.push(Attempt {
                route,
                place,
                target,
                zoom_mm: nearest_zoom(job, 50.0),
                dress,
            });
        }
    }
    attempts
}

/// Straight at the face: bare and zoomed to cover everyone, or through an umbrella or softbox.
fn direct(job: &Job, survey: &Survey, place: usize) -> Vec<Attempt> {
    let flash = survey.maps[place].position();
    let faces: Vec<Vec3> = survey.stage.sitters.iter().map(|s| s.face).collect();
    let middle = faces.iter().sum::<Vec3>() / faces.len() as f32;
    let axis = (middle - flash).normalize_or_zero();
    let widest = faces
        .iter()
        .map(|f| {
            let ray = *f - flash;
            let along = ray.dot(axis).max(0.1);
            ((ray - axis * along).length() + 0.25) / along
        })
        .fold(0.0f32, f32::max);
    // Everyone inside the nominal beam: the long side covers 18 / zoom to each side.
    let zoom = job
        .bag
        .flash
        .zooms()
        .filter(|z| 18.0 / z >= f64::from(widest))
        .fold(f64::NAN, f64::max);
    let zoom = if zoom.is_nan() {
        nearest_zoom(job, 24.0)
    } else {
        zoom
    };
    let dresses = job.bag.dresses.iter().filter_map(|&dress| {
        let zoom_mm = match dress {
            HeadDress::Bare => zoom,
            // The head fills the front with a wide beam; the loss is stated for this zoom.
            _ if dress.soft_front().is_some() => nearest_zoom(job, 35.0),
            _ => return None,
        };
        Some(Attempt {
            dress,
            ..bare(Route::Direct, place, middle, zoom_mm)
        })
    });
    dresses.collect()
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

/// Boards of the bag, held where the key is wished, for a flash at a place.
pub(crate) fn poses(job: &Job, survey: &Survey, place: usize) -> Vec<Pose> {
    let mut poses = Vec::new();
    if !hands_for_a_board(job, place) {
        return poses;
    }
    for board in 0..job.bag.boards.len() {
        for side in sides(job) {
            for offset in [-15.0, 0.0, 15.0] {
                for elevation in [10.0, 20.0, 30.0] {
                    for distance in [0.8, 1.0, 1.2, 1.4, 1.7] {
                        let azimuth = side * (job.ask.key.azimuth_deg + offset);
                        poses.extend(board_at(job, survey, place, board, azimuth, elevation, distance));
                    }
                }
            }
        }
    }
    poses
}

/// A board needs a pair of hands, and so does a flash off the camera without a stand.
fn hands_for_a_board(job: &Job, place: usize) -> bool {
    let taken = u32::from(place > 0 && !job.bag.stand);
    job.bag.helpers > taken
}

/// Signs of the azimuth that are allowed: −1 is the camera's left.
fn sides(job: &Job) -> Vec<f64> {
    match job.ask.key.side {
        Some(Side::Left) => vec![-1.0],
        Some(Side::Right) => vec![1.0],
        None => vec![-1.0, 1.0],
    }
}

/// A held board at an angle from the nose, if it can be held there.
pub(crate) fn board_at(
    job: &Job,
    survey: &Survey,
    place: usize,
    board: usize,
    azimuth_deg: f64,
    elevation_deg: f64,
    distance: f32,
) -> Option<Pose> {
    let flash = survey.maps[place].position();
    let person = &survey.stage.sitters[0];
    let turn = Quat::from_rotation_z(azimuth_deg.to_radians() as f32);
    let level = turn * person.facing;
    let (sin, cos) = (elevation_deg.to_radians() as f32).sin_cos();
    let centre = person.face + (level * cos + Vec3::Z * sin) * distance;
    // Matt boards throw most light along their own normal, so it stands half way between flash and face.
    let to_face = (person.face - centre).normalize();
    let to_flash = (flash - centre).normalize();
    let normal = (to_face + to_flash).try_normalize()?;
    let (corner, a, b) = board_frame(job, board, centre, normal);
    let fits = [corner, corner + a, corner + b, corner + a + b]
        .into_iter()
        .all(|at| job.place.room.contains(at, 0.0));
    let leans_on_nothing = (centre - flash).length() > 0.5;
    if !fits || !leans_on_nothing || in_the_picture(job, centre, job.bag.boards[board].size.min_element()) {
        return None;
    }
    if survey.room.tracer.blocked(flash, centre, 1e-3) {
        return None;
    }
    Some(Pose {
        place,
        board,
        centre,
        normal,
        to_face_m: distance,
    })
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

/// Corner and edges of a held board.
pub(crate) fn board_frame(job: &Job, index: usize, centre: Vec3, normal: Vec3) -> (Vec3, Vec3, Vec3) {
    held_panel(job, index, centre, normal).frame()
}

/// A held board as a thing in the place.
pub(crate) fn held_panel(job: &Job, index: usize, centre: Vec3, normal: Vec3) -> scene::Panel {
    let board = &job.bag.boards[index];
    scene::Panel {
        name: board.name.clone(),
        centre,
        normal,
        up: Vec3::Z,
        size: board.size,
        front: board.material.clone(),
        back: None,
        held: true,
    }
}

/// Computes an attempt without a held board. Aims at a surface are kept only when most of the beam lands
/// there; into a corner they are named for both.
pub(crate) fn compute(job: &Job, survey: &Survey, beams: &Beams, attempt: &Attempt) -> Option<Way> {
    let map = &survey.maps[attempt.place];
    let flash = beams.placed(attempt.zoom_mm, attempt.dress, map.position(), attempt.target);
    let aimed = map.read(&survey.operator, &flash, None);
    let route = match &attempt.route {
        Route::Bounce { face, .. } if attempt.dress == HeadDress::Bare => Route::Bounce {
            face: *face,
            corner_with: landing(survey, &aimed, *face)?,
        },
        other => other.clone(),
    };
    let light = aimed_light(job, survey, &flash, &aimed, &route);
    Some(flag(Way {
        place: attempt.place,
        flash: map.position(),
        target: attempt.target,
        zoom_mm: attempt.zoom_mm,
        dress: attempt.dress,
        flagged: light.spills(job.bag.flash.colour()) && !matches!(route, Route::Direct),
        light,
        route,
        zoom_gain: None,
    }))
}

/// What the head of a way does in another survey, from its first place and pointed at the same target,
/// whatever it lands on there.
pub(crate) fn light_of(job: &Job, survey: &Survey, beams: &Beams, way: &Way) -> Option<FaceLight> {
    let mut light = match pose_of(way) {
        Some(mut pose) => {
            pose.place = 0;
            compute_board(job, survey, beams, &pose, &[way.zoom_mm])
                .pop()?
                .light
        }
        None => {
            let map = survey.maps.first()?;
            let flash = beams.placed(way.zoom_mm, way.dress, map.position(), way.target);
            let aimed = map.read(&survey.operator, &flash, None);
            aimed_light(job, survey, &flash, &aimed, &way.route)
        }
    };
    if way.flagged && light.direct > 0.0 {
        light.block_spill();
    }
    Some(light)
}

/// Computes a held board at some zooms of the head.
pub(crate) fn compute_board(
    job: &Job,
    survey: &Survey,
    beams: &Beams,
    pose: &Pose,
    zooms: &[f64],
) -> Vec<Way> {
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
                flagged: light.spills(job.bag.flash.colour()),
                light,
                zoom_gain: None,
            })
        })
        .collect()
}

/// A flagged head no longer lights the face directly.
fn flag(mut way: Way) -> Way {
    if way.flagged {
        way.light.block_spill();
    }
    way
}

/// Which second face shares the key with the aimed one; the outer `None` when less than half of the beam
/// lands where it was aimed.
fn landing(survey: &Survey, aimed: &Aimed, face: Face) -> Option<Option<Face>> {
    let (mut landed, mut total) = (0.0f32, 0.0f32);
    let mut by_face = [0.0f32; 6];
    let mut all = 0.0;
    for (object, &(flux, light)) in survey.room.geometry.objects.iter().zip(&aimed.carried) {
        total += flux;
        all += light;
        if let ObjectKind::RoomFace(at) = object.kind {
            by_face[at.index()] += light;
            if at == face {
                landed += flux;
            }
        }
    }
    if total <= 0.0 || landed < OWN_SHARE * total {
        return None;
    }
    let brightest = |a: &Face, b: &Face| by_face[a.index()].total_cmp(&by_face[b.index()]);
    let second = Face::ALL.into_iter().filter(|f| *f != face).max_by(brightest);
    Some(second.filter(|_| by_face[face.index()] < PURE_SHARE * all))
}

/// What an aim without a held board does to the faces.
fn aimed_light(job: &Job, survey: &Survey, flash: &PlacedFlash, aimed: &Aimed, route: &Route) -> FaceLight {
    let (all, spill) = (AtMeters::of(&aimed.meters), AtMeters::of(&aimed.direct));
    let carried = carried(job, survey, flash, aimed, spill.dome, route);
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
fn carried(
    job: &Job,
    survey: &Survey,
    flash: &PlacedFlash,
    aimed: &Aimed,
    direct: f32,
    route: &Route,
) -> Carried {
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
    let weights = job.bag.flash.colour().luminous_weights();
    let luminous = |light: Spectrum| light.dot(&weights);
    let mean = |[one, other]: [Spectrum; 2]| 0.5 * (luminous(one) + luminous(other));
    FaceLight {
        dome: all.dome,
        first: carried.first,
        direct: spill.dome,
        vector: Vec3::from_array(all.along.map(luminous)),
        key_direction: carried.key_direction,
        spill_vector: Vec3::from_array(spill.along),
        cheeks: all.cheeks.map(luminous),
        spill_cheeks: spill.cheeks,
        forehead: luminous(all.forehead),
        spill_forehead: spill.forehead,
        sockets: mean(all.sockets),
        background: mean(all.background),
        others: all.others.iter().copied().map(luminous).collect(),
        softness: carried.softness,
        landmarks: Vec::new(),
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

/// A flag: a black card held beside the head between it and the sitter's face, large enough to shade the
/// whole head and shoulders of a person (ours). Under a low ceiling or in a corner it moves aside just far
/// enough to stay in a room of this size.
pub(crate) fn flag_panel(flash: Vec3, face: Vec3, room: Vec3) -> scene::Panel {
    const REACH: f32 = 0.16;
    let towards = (face - flash).try_normalize().unwrap_or(Vec3::Y);
    // At 16 cm from the head, half a person's width at the sitter's distance shrinks by this much.
    let cover = 2.2 * 0.35 * REACH / (face - flash).length().max(0.5);
    let size = cover.clamp(0.08, 0.25);
    // However it leans, no corner is further from the middle than half the diagonal.
    let reach = Vec3::splat(0.5 * std::f32::consts::SQRT_2 * size);
    scene::Panel {
        name: "flag".to_owned(),
        centre: (flash + towards * REACH).clamp(reach, room - reach),
        normal: -towards,
        up: Vec3::Z,
        size: Vec2::splat(size),
        front: scene::Material::matt("black card", Spectrum::splat(0.04)),
        back: None,
        held: true,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use scene::{BoxRoom, Material, Place};

    /// A flag beside a head in a corner, under the ceiling or on the floor stays in the room.
    #[test]
    fn the_flag_stays_in_the_room() {
        let size = Vec3::new(3.0, 4.0, 2.2);
        let white = Material::matt("white", Spectrum::splat(0.8));
        let face = Vec3::new(1.5, 3.0, 1.5);
        for flash in [
            Vec3::new(1.5, 1.0, 2.15),
            Vec3::new(0.02, 0.02, 2.18),
            Vec3::new(2.98, 3.9, 0.02),
            Vec3::new(1.5, 2.7, 1.5),
        ] {
            let mut place = Place::new(BoxRoom::uniform(size.into(), white.clone()));
            place.panels.push(flag_panel(flash, face, size));
            assert_eq!(place.check(), Ok(()), "flash at {flash}");
        }
    }
}
