//! The ways of lighting that are tried: every surface, every board, and the bare flash.

use crate::place::boards::board_frame;
use crate::place::flash_places::{in_the_picture, meets_the_photographer};
use crate::ways::beams::nearest_zoom;
use crate::ways::scout::Scout;
use crate::ways::way::{Attempt, Pose, bare};
use answer::{Job, Route, Side};
use glam::{Quat, Vec2, Vec3};
use light::HeadDress;
use scene::{Face, ObjectKind};

/// Pitch of the pieces of a small room, in metres.
const PITCH_M: f32 = 0.3;
/// A large room is cut into no more pieces than about this, for a beam has spread out before it gets to most of them.
const MOST_PIECES: f32 = 2500.0;

/// A piece of a face of the room that the flash can be aimed at.
pub(crate) struct Piece {
    pub face: Face,
    pub from: Vec2,
    pub size: Vec2,
    pub target: Vec3,
}

/// Pitch of the pieces of the room that are aimed at from the first place of the flash, in metres.
pub(crate) fn fine_pitch(job: &Job) -> f32 {
    let area: f32 = walls(job).map(|(_, [_, a, b])| a.length() * b.length()).sum();
    PITCH_M.max((area / MOST_PIECES).sqrt())
}

/// The faces of the room with something on them to bounce from: a corner and the two edges from it.
fn walls(job: &Job) -> impl Iterator<Item = (Face, [Vec3; 3])> {
    let there = Face::ALL.into_iter().filter(|&face| !job.place.is_open(face));
    there.map(|face| (face, job.place.room.face_frame(face).into()))
}

/// The room's faces cut into pieces of about this pitch in metres.
pub(crate) fn pieces(job: &Job, pitch: f32) -> Vec<Piece> {
    let mut pieces = Vec::new();
    for (face, [corner, a, b]) in walls(job) {
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
pub(crate) fn others(scout: &Scout<'_>, place: usize) -> Vec<Attempt> {
    let Scout { job, survey, .. } = *scout;
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
    attempts.extend(dressed(scout, place));
    attempts.extend(direct(scout, place));
    attempts
}

/// Domes and bounce cards: the head turned up, at a few tilts towards the sitter.
fn dressed(scout: &Scout<'_>, place: usize) -> Vec<Attempt> {
    let Scout { job, survey, .. } = *scout;
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
fn direct(scout: &Scout<'_>, place: usize) -> Vec<Attempt> {
    let Scout { job, survey, .. } = *scout;
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

/// Boards of the bag, held where the key is wished, for a flash at a place.
pub(crate) fn poses(scout: &Scout<'_>, place: usize) -> Vec<Pose> {
    let job = scout.job;
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
                        poses.extend(board_at(scout, place, board, azimuth, elevation, distance));
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
    scout: &Scout<'_>,
    place: usize,
    board: usize,
    azimuth_deg: f64,
    elevation_deg: f64,
    distance: f32,
) -> Option<Pose> {
    let Scout { job, survey, .. } = *scout;
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
    if survey.room.tracer.blocked(flash, centre, 1e-3) || meets_the_photographer(job, flash, centre) {
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
