//! The ways of lighting that are tried: every surface, every board, and the bare flash.

use crate::answer::Route;
use crate::reading::FaceLight;
use crate::survey::Survey;
use crate::{Job, Side, SolverError};
use glam::{Quat, Vec2, Vec3};
use light::{Beam, HeadDress};
use rayon::prelude::*;
use scene::{Face, ObjectKind};
use std::collections::BTreeMap;
use transport::{LitBoard, PlacedFlash, SolvedMeter};

/// Distance between aim points on a wall in the first sweep, in metres.
const AIM_PITCH: f32 = 0.42;
/// Share of the beam's light that must land on a face before the aim counts as that face's at all.
const OWN_SHARE: f32 = 0.5;
/// Share of the first bounce at the sitter's face from which a face carries the key alone.
const PURE_SHARE: f32 = 0.92;

/// One way of lighting, with what it does.
#[derive(Clone, Debug)]
pub(crate) struct Way {
    pub route: Route,
    pub target: Vec3,
    pub zoom_mm: f64,
    pub dress: HeadDress,
    pub light: FaceLight,
    /// Whether the head is flagged on the sitter's side, because its direct spill would show.
    pub flagged: bool,
    /// Stops gained by zooming from 50 to 105 mm on this route, where both can be set.
    pub zoom_gain: Option<f64>,
}

/// A way of lighting before it has been computed.
#[derive(Clone, Debug)]
pub(crate) struct Attempt {
    pub route: Route,
    pub target: Vec3,
    pub zoom_mm: f64,
    pub dress: HeadDress,
}

/// The beams of the flash, built once for each zoom and dress.
pub(crate) struct Beams<'a> {
    job: &'a Job,
    built: BTreeMap<(u32, u8), Beam>,
}

impl<'a> Beams<'a> {
    pub fn new(job: &'a Job) -> Self {
        Beams {
            job,
            built: BTreeMap::new(),
        }
    }

    /// Builds what is needed for some attempts.
    pub fn prepare(&mut self, attempts: &[Attempt]) -> Result<(), SolverError> {
        for attempt in attempts {
            let key = key(attempt.zoom_mm, attempt.dress);
            if !self.built.contains_key(&key) {
                self.built
                    .insert(key, self.job.bag.flash.beam(attempt.zoom_mm, attempt.dress)?);
            }
        }
        Ok(())
    }

    /// The placed flash of an attempt that was prepared, as a point: its window does not matter to meters.
    pub fn placed(&self, attempt: &Attempt, from: Vec3) -> PlacedFlash {
        let beam = self.built[&key(attempt.zoom_mm, attempt.dress)].clone();
        PlacedFlash::aimed(beam, from, attempt.target, [0.0, 0.0])
    }
}

fn key(zoom_mm: f64, dress: HeadDress) -> (u32, u8) {
    ((zoom_mm * 10.0).round() as u32, dress as u8)
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

/// The first sweep: a grid of aims on every surface, one on every side of every block and board that
/// stands, boards held at a few places, and the bare flash.
pub(crate) fn first_sweep(job: &Job, survey: &Survey) -> Vec<Attempt> {
    let mut attempts = Vec::new();
    let zoom = nearest_zoom(job, 50.0);
    for face in Face::ALL {
        let route = Route::Bounce {
            face,
            corner_with: None,
        };
        let (corner, a, b) = job.place.room.face_frame(face);
        let columns = (a.length() / AIM_PITCH).ceil().max(1.0) as usize;
        let rows = (b.length() / AIM_PITCH).ceil().max(1.0) as usize;
        for row in 0..rows {
            for column in 0..columns {
                let u = (column as f32 + 0.5) / columns as f32;
                let v = (row as f32 + 0.5) / rows as f32;
                attempts.push(bare(route.clone(), corner + a * u + b * v, zoom));
            }
        }
    }
    for object in &survey.stage.geometry.objects {
        let standing = match object.kind {
            ObjectKind::Block(_) => true,
            ObjectKind::Panel(index) => index < job.place.panels.len(),
            _ => false,
        };
        if let (true, Some([corner, a, b])) = (standing, object.rectangle) {
            let centre = corner + 0.5 * (a + b);
            if (survey.flash - centre).dot(a.cross(b)) > 0.0 {
                let wide = a.length().min(b.length()) / (survey.flash - centre).length().max(0.3);
                let zoom = nearest_zoom(job, f64::from(24.0 / wide.max(0.05)).clamp(24.0, 200.0));
                attempts.push(bare(
                    Route::Standing {
                        name: object.name.clone(),
                    },
                    centre,
                    zoom,
                ));
            }
        }
    }
    attempts.extend(dressed(job, survey));
    attempts.extend(boards(job, survey));
    attempts.extend(direct(job, survey));
    attempts
}

fn bare(route: Route, target: Vec3, zoom_mm: f64) -> Attempt {
    Attempt {
        route,
        target,
        zoom_mm,
        dress: HeadDress::Bare,
    }
}

/// Domes and bounce cards: the head turned up, at a few tilts towards the sitter.
fn dressed(job: &Job, survey: &Survey) -> Vec<Attempt> {
    let towards = (survey.stage.sitters[0].face - survey.flash)
        .with_z(0.0)
        .try_normalize()
        .unwrap_or(Vec3::Y);
    let up = job.place.room.size.z - survey.flash.z;
    let mut attempts = Vec::new();
    for &dress in job.bag.dresses.iter().filter(|&&d| d != HeadDress::Bare) {
        for tilt_deg in [89.0f32, 75.0, 60.0, 45.0] {
            let along = up / tilt_deg.to_radians().tan();
            let target = survey.flash + towards * along + Vec3::Z * up;
            let route = Route::Bounce {
                face: Face::Ceiling,
                corner_with: None,
            };
            attempts.push(Attempt {
                route,
                target,
                zoom_mm: nearest_zoom(job, 50.0),
                dress,
            });
        }
    }
    attempts
}

/// Straight at the face, zoomed to cover everyone.
fn direct(job: &Job, survey: &Survey) -> Option<Attempt> {
    if !job.bag.dresses.contains(&HeadDress::Bare) {
        return None;
    }
    let faces: Vec<Vec3> = survey.stage.sitters.iter().map(|s| s.face).collect();
    let middle = faces.iter().sum::<Vec3>() / faces.len() as f32;
    let axis = (middle - survey.flash).normalize_or_zero();
    let widest = faces
        .iter()
        .map(|f| {
            let ray = *f - survey.flash;
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
    Some(bare(Route::Direct, middle, zoom))
}

/// Boards of the bag, held where the key is wished.
fn boards(job: &Job, survey: &Survey) -> Vec<Attempt> {
    if !job.bag.assistant {
        return Vec::new();
    }
    let mut attempts = Vec::new();
    let zooms = &board_zooms(job);
    for index in 0..job.bag.boards.len() {
        for side in sides(job) {
            for offset in [-15.0, 0.0, 15.0] {
                for elevation in [10.0, 20.0, 30.0] {
                    for distance in [0.8, 1.0, 1.2, 1.4, 1.7] {
                        let azimuth = side * (job.ask.key.azimuth_deg + offset);
                        let placed = board_at(job, survey, index, azimuth, elevation, distance);
                        attempts.extend(placed.into_iter().flat_map(|(route, target)| {
                            zooms.iter().map(move |&zoom| bare(route.clone(), target, zoom))
                        }));
                    }
                }
            }
        }
    }
    attempts
}

/// Zooms that are worth trying on a board.
fn board_zooms(job: &Job) -> Vec<f64> {
    let mut zooms: Vec<f64> = [50.0, 105.0, 200.0]
        .iter()
        .map(|&z| nearest_zoom(job, z))
        .collect();
    zooms.dedup();
    zooms
}

/// Signs of the azimuth that are allowed: −1 is the camera's left.
fn sides(job: &Job) -> Vec<f64> {
    match job.ask.key.side {
        Some(Side::Left) => vec![-1.0],
        Some(Side::Right) => vec![1.0],
        None => vec![-1.0, 1.0],
    }
}

/// A held board at an angle from the nose: its route and the point to aim at, if it can stand there.
pub(crate) fn board_at(
    job: &Job,
    survey: &Survey,
    index: usize,
    azimuth_deg: f64,
    elevation_deg: f64,
    distance: f32,
) -> Option<(Route, Vec3)> {
    let person = &survey.stage.sitters[0];
    let turn = Quat::from_rotation_z(azimuth_deg.to_radians() as f32);
    let level = turn * person.facing;
    let (sin, cos) = (elevation_deg.to_radians() as f32).sin_cos();
    let centre = person.face + (level * cos + Vec3::Z * sin) * distance;
    // Matt boards throw most light along their own normal, so it stands half way between flash and face.
    let to_face = (person.face - centre).normalize();
    let to_flash = (survey.flash - centre).normalize();
    let normal = (to_face + to_flash).try_normalize()?;
    let board = &job.bag.boards[index];
    let (corner, a, b) = board_frame(job, index, centre, normal);
    let fits = [corner, corner + a, corner + b, corner + a + b]
        .into_iter()
        .all(|at| job.place.room.contains(at, 0.0));
    let leans_on_nothing = (centre - survey.flash).length() > 0.5;
    if !fits || !leans_on_nothing || in_the_picture(job, centre, board.size.min_element()) {
        return None;
    }
    if survey.room.tracer.blocked(survey.flash, centre, 1e-3) {
        return None;
    }
    let route = Route::HeldBoard {
        board: index,
        name: board.name.clone(),
        centre,
        normal,
        to_face_m: f64::from(distance),
    };
    Some((route, centre))
}

/// Whether a board of this size at this place would show in the picture.
fn in_the_picture(job: &Job, centre: Vec3, size: f32) -> bool {
    let (right, up, forward) = job.viewpoint.axes();
    let from = centre - job.viewpoint.position;
    let depth = from.dot(forward);
    if depth <= 0.05 {
        return false;
    }
    let half = job
        .viewpoint
        .half_extent(if job.viewpoint.landscape { 1.5 } else { 2.0 / 3.0 });
    let margin = 0.4 * size / depth;
    (from.dot(right) / depth).abs() < half.x + margin && (from.dot(up) / depth).abs() < half.y + margin
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

/// Computes attempts. Aims at a surface are kept only when most of the beam lands there; into a corner
/// they are named for both.
pub(crate) fn compute(job: &Job, survey: &Survey, beams: &Beams, attempts: Vec<Attempt>) -> Vec<Way> {
    attempts
        .into_par_iter()
        .filter_map(|attempt| compute_one(job, survey, beams, attempt))
        .collect()
}

fn compute_one(job: &Job, survey: &Survey, beams: &Beams, attempt: Attempt) -> Option<Way> {
    let flash = beams.placed(&attempt, survey.flash);
    let way = |route: Route, light: FaceLight| Way {
        target: attempt.target,
        zoom_mm: attempt.zoom_mm,
        dress: attempt.dress,
        flagged: light.spills(job.bag.flash.colour()) && !matches!(route, Route::Direct),
        light,
        route,
        zoom_gain: None,
    };
    if let Route::HeldBoard {
        board,
        centre,
        normal,
        ..
    } = &attempt.route
    {
        let key_direction = *centre - survey.stage.sitters[0].face;
        let frame = board_frame(job, *board, *centre, *normal);
        let lit = LitBoard::new(
            &survey.room,
            frame,
            job.bag.boards[*board].material.reflectance,
            &flash,
        );
        let softness = lit.width_over_distance(survey.stage.sitters[0].face);
        let light = with_board(job, survey, &flash, &lit, softness, key_direction);
        return Some(flag(way(attempt.route.clone(), light)));
    }
    let irradiance = survey.view.irradiance(&survey.room, &flash, None);
    let route = match &attempt.route {
        Route::Bounce { face, .. } if attempt.dress == HeadDress::Bare => Route::Bounce {
            face: *face,
            corner_with: landing(survey, &irradiance, *face)?,
        },
        other => other.clone(),
    };
    let light = without_board(job, survey, &flash, &irradiance, &route);
    Some(flag(way(route, light)))
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
fn landing(survey: &Survey, irradiance: &[f32], face: Face) -> Option<Option<Face>> {
    let face_of = |object: u32| match survey.room.geometry.objects[object as usize].kind {
        ObjectKind::RoomFace(at) => Some(at),
        _ => None,
    };
    let (mut aimed, mut total) = (0.0f32, 0.0f32);
    for (patch, e) in survey.room.patches.list.iter().zip(irradiance) {
        let flux = e * patch.area;
        total += flux;
        if face_of(patch.object) == Some(face) {
            aimed += flux;
        }
    }
    if total <= 0.0 || aimed < OWN_SHARE * total {
        return None;
    }
    let mut carried = [0.0f32; 6];
    let mut all = 0.0;
    for (object, light) in survey.face.dome.first_bounce_by_object(&survey.room, irradiance) {
        all += light;
        if let Some(at) = face_of(object) {
            carried[at.index()] += light;
        }
    }
    let brightest = |a: &Face, b: &Face| carried[a.index()].total_cmp(&carried[b.index()]);
    let second = Face::ALL.into_iter().filter(|f| *f != face).max_by(brightest);
    Some(second.filter(|_| carried[face.index()] < PURE_SHARE * all))
}

fn without_board(
    job: &Job,
    survey: &Survey,
    flash: &PlacedFlash,
    irradiance: &[f32],
    route: &Route,
) -> FaceLight {
    let room = &survey.room;
    let read = |meter: &SolvedMeter| meter.read_flash(room, flash, irradiance);
    let spill = |meter: &SolvedMeter| meter.read_direct(room, flash);
    let dome = &survey.face.dome;
    let straight = matches!(route, Route::Direct);
    let first = if straight {
        colour::Spectrum::splat(spill(dome))
    } else {
        dome.read_first_bounce(&room.patches, irradiance)
    };
    let (key_direction, softness) = if straight {
        let [w, h] = job.bag.flash.window_m();
        let to_flash = flash.position - dome.meter.position;
        (to_flash, ((w * h).sqrt() as f32) / to_flash.length().max(0.1))
    } else {
        let arrival = dome.arrival(&room.patches, irradiance);
        arrival.map_or((Vec3::ZERO, 0.0), |a| (a.direction, a.width_over_distance()))
    };
    let carried = Carried {
        first,
        key_direction,
        softness,
    };
    face_light(job, survey, &read, &spill, carried)
}

fn with_board(
    job: &Job,
    survey: &Survey,
    flash: &PlacedFlash,
    board: &LitBoard,
    softness: f32,
    key_direction: Vec3,
) -> FaceLight {
    let room = &survey.room;
    let mut irradiance = survey.view.irradiance(room, flash, Some(board));
    board.throw_onto(room, &mut irradiance);
    let spill = |meter: &SolvedMeter| board.spill(room, &meter.meter, flash);
    let read = |meter: &SolvedMeter| {
        board.read(room, &meter.meter)
            + meter.read_bounced(&room.patches, &irradiance)
            + colour::Spectrum::splat(spill(meter))
    };
    let carried = Carried {
        first: board.read(room, &survey.face.dome.meter),
        key_direction,
        softness,
    };
    face_light(job, survey, &read, &spill, carried)
}

/// What is known of a way's key before the faces are read.
struct Carried {
    first: colour::Spectrum,
    key_direction: Vec3,
    softness: f32,
}

/// Reads all meters of the survey: `read` gives all of the flash's light at a meter, `spill` what of it
/// comes straight from the head.
fn face_light(
    job: &Job,
    survey: &Survey,
    read: &dyn Fn(&SolvedMeter) -> colour::Spectrum,
    spill: &dyn Fn(&SolvedMeter) -> f32,
    carried: Carried,
) -> FaceLight {
    let weights = job.bag.flash.colour().luminous_weights();
    let luminous = |meter: &SolvedMeter| read(meter).dot(&weights);
    let face = &survey.face;
    FaceLight {
        dome: read(&face.dome),
        first: carried.first,
        direct: spill(&face.dome),
        vector: Vec3::from_array(std::array::from_fn(|i| luminous(&face.along[i]))),
        key_direction: carried.key_direction,
        spill_vector: Vec3::from_array(std::array::from_fn(|i| spill(&face.along[i]))),
        cheeks: std::array::from_fn(|i| luminous(&face.cheeks[i])),
        spill_cheeks: std::array::from_fn(|i| spill(&face.cheeks[i])),
        forehead: luminous(&face.forehead),
        spill_forehead: spill(&face.forehead),
        sockets: 0.5 * (luminous(&face.sockets[0]) + luminous(&face.sockets[1])),
        others: survey.others.iter().map(luminous).collect(),
        softness: carried.softness,
        landmarks: Vec::new(),
    }
}

/// Neighbours of a good way: the aim moved a little, other zooms for boards.
pub(crate) fn neighbours(job: &Job, survey: &Survey, way: &Way, step: f32) -> Vec<Attempt> {
    match &way.route {
        Route::Bounce { face, .. } if way.dress == HeadDress::Bare => {
            let (corner, a, b) = job.place.room.face_frame(*face);
            let (along, up) = (a.normalize(), b.normalize());
            let mut attempts = Vec::new();
            for i in -2..=2 {
                for j in -2..=2 {
                    let at = way.target + along * (step * i as f32) + up * (step * j as f32) - corner;
                    let (u, v) = (at.dot(along), at.dot(up));
                    if (0.0..=a.length()).contains(&u) && (0.0..=b.length()).contains(&v) {
                        let target = corner + along * u + up * v;
                        attempts.push(bare(
                            Route::Bounce {
                                face: *face,
                                corner_with: None,
                            },
                            target,
                            way.zoom_mm,
                        ));
                    }
                }
            }
            attempts
        }
        Route::HeldBoard { board, centre, .. } => {
            let face = survey.stage.sitters[0].face;
            let offset = *centre - face;
            let distance = offset.length();
            let (azimuth, elevation) = crate::reading::angles(offset, survey.stage.sitters[0].facing);
            let mut attempts = Vec::new();
            for da in [-7.0, 0.0, 7.0] {
                for de in [-5.0, 0.0, 5.0] {
                    for dd in [-0.1f32, 0.0, 0.1] {
                        let placed = board_at(
                            job,
                            survey,
                            *board,
                            azimuth + da,
                            elevation + de,
                            (distance + dd).max(0.7),
                        );
                        for zoom in job.bag.flash.zooms() {
                            attempts.extend(placed.clone().map(|(route, target)| bare(route, target, zoom)));
                        }
                    }
                }
            }
            attempts
        }
        _ => Vec::new(),
    }
}

/// A way with another zoom, everything else unchanged.
pub(crate) fn with_zoom(way: &Way, zoom_mm: f64) -> Attempt {
    Attempt {
        route: way.route.clone(),
        target: way.target,
        zoom_mm,
        dress: way.dress,
    }
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
        front: scene::Material::matt("black card", colour::Spectrum::splat(0.04)),
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
        let white = Material::matt("white", colour::Spectrum::splat(0.8));
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
