//! What is seen behind everyone, and how hair and shoulders stand off against it.

use crate::explain::in_picture::InPicture;
use crate::place::meters::{Met, SEEN_BEHIND, background_points, behind_people, off_surface};
use crate::practice::MERGES;
use answer::{BehindReading, Note};
use glam::Vec3;
use rayon::prelude::*;
use scene::{ObjectKind, SitterColours};
use units::Stops;

/// Columns and rows of looks over head and shoulders.
const LOOKS: [usize; 2] = [40, 40];
/// What is looked over, from the middle of the face to the sides, up and down, in metres (common practice: shoulders are some
/// 45 cm wide, and lie some 25 cm under the eyes).
const BESIDE_M: f32 = 0.30;
const ABOVE_M: f32 = 0.22;
const BELOW_M: f32 = 0.38;
/// Places along an edge that are read, at most.
const READ: usize = 8;
/// An edge that is met in fewer places is none.
const LEAST: usize = 4;

/// Something that has an edge against what is behind it.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Edge {
    Hair,
    Shoulders,
}

/// A place along an edge: what the camera sees of the first sitter there, and right beside it what is behind.
struct Place {
    of: Edge,
    sitter: Met,
    behind: Met,
}

/// Reads what is seen behind everyone.
pub(crate) fn behind(picture: &InPicture<'_>) -> BehindReading {
    let places = places(picture);
    let tones = tones(picture);
    let surfaces = 2 * tones.len() > SEEN_BEHIND;
    BehindReading {
        light: surfaces.then(|| Stops(picture.finished.background())),
        tone: middle(tones).filter(|_| surfaces).map(Stops),
        hair: apart(picture, &places, Edge::Hair),
        shoulders: apart(picture, &places, Edge::Shoulders),
    }
}

/// Hair and what is behind it look alike.
pub(crate) fn hair_merges(behind: &BehindReading) -> Option<Note> {
    let hair = behind.hair.filter(|hair| hair.value().abs() < MERGES)?;
    Some(Note::HairMerges { hair })
}

/// The tones of what is seen behind everyone; sky and windows have none.
fn tones(picture: &InPicture<'_>) -> Vec<f64> {
    let (place, view) = (&picture.fine.place, &picture.job.viewpoint);
    let meters = background_points(picture.job, &place.stage, &place.room);
    let tones = (0..SEEN_BEHIND).filter_map(|part| {
        let finished = &picture.finished;
        let light = finished.sum(finished.flash.background[part], finished.ambient.background[part]);
        let towards = (meters[part].position - view.position).normalize();
        let met = behind_people(&place.room, view.position, towards)?;
        let geometry = &place.room.geometry;
        let object = geometry.object[met.triangle as usize] as usize;
        let surface = !matches!(geometry.objects[object].kind, ObjectKind::Opening(_));
        surface.then(|| picture.tone_of(f64::from(light), lightness(picture, &met)))
    });
    tones.collect()
}

/// How much lighter one edge is than what is seen beside it.
fn apart(picture: &InPicture<'_>, places: &[Place], of: Edge) -> Option<Stops> {
    let places: Vec<&Place> = places.iter().filter(|place| place.of == of).collect();
    if places.len() < LEAST {
        return None;
    }
    let read = places.len().min(READ);
    let spread: Vec<&Place> = (0..read).map(|at| places[at * places.len() / read]).collect();
    let tone = |met: &Met| picture.tone(met.at, met.normal, lightness(picture, met));
    let apart: Vec<f64> = spread
        .par_iter()
        .map(|place| tone(&place.sitter) - tone(&place.behind))
        .collect();
    middle(apart).map(Stops)
}

/// The places where a look meets hair or clothes of the first sitter and the next look beside or above it what is behind.
fn places(picture: &InPicture<'_>) -> Vec<Place> {
    let (job, room) = (picture.job, &picture.fine.place.room);
    let (camera, face) = (job.viewpoint.position, job.sitters[0].face());
    let (right, up, _) = job.viewpoint.axes();
    let [columns, rows] = LOOKS;
    let share = |index: usize, of: usize| (index as f32 + 0.5) / of as f32;
    let towards = |column: usize, row: usize| {
        let across = BESIDE_M * (2.0 * share(column, columns) - 1.0);
        let along = (ABOVE_M + BELOW_M) * share(row, rows) - BELOW_M;
        (face + right * across + up * along - camera).normalize()
    };
    let seen: Vec<Option<(bool, Met)>> = (0..columns * rows)
        .into_par_iter()
        .map(|look| first_met(picture, camera, towards(look / rows, look % rows)))
        .collect();
    let geometry = &room.geometry;
    let colours = &job.sitters[0].colours;
    let mut places = Vec::new();
    for (look, met) in seen.iter().enumerate() {
        let Some((true, sitter)) = met else { continue };
        let Some(of) = edge_of(colours, geometry.material_of(sitter.triangle).reflectance) else {
            continue;
        };
        let (column, row) = (look / rows, look % rows);
        let beside = [
            (column > 0).then(|| look - rows),
            (column + 1 < columns).then(|| look + rows),
            (row + 1 < rows).then(|| look + 1),
        ];
        let behind = beside.into_iter().flatten().find_map(|next| match seen[next] {
            Some((false, met)) if camera.distance(met.at) > camera.distance(face) => Some(met),
            _ => None,
        });
        places.extend(behind.map(|behind| Place {
            of,
            sitter: *sitter,
            behind,
        }));
    }
    places
}

/// What a look meets first, and whether that is the first sitter; nothing where it is somebody else.
fn first_met(picture: &InPicture<'_>, from: Vec3, direction: Vec3) -> Option<(bool, Met)> {
    let room = &picture.fine.place.room;
    let hit = room.tracer.closest(from, direction)?;
    let object = room.geometry.object[hit.triangle as usize] as usize;
    let first = match room.geometry.objects[object].kind {
        ObjectKind::Sitter(0) => true,
        ObjectKind::Sitter(_) | ObjectKind::Opening(_) => return None,
        _ => false,
    };
    let (at, normal) = off_surface(room, &hit, from + direction * hit.distance, direction);
    let met = Met {
        at,
        normal,
        triangle: hit.triangle,
    };
    Some((first, met))
}

/// Which edge a part of a person belongs to, by what it is made of.
fn edge_of(colours: &SitterColours, reflectance: colour::Spectrum) -> Option<Edge> {
    match reflectance {
        is if is == colours.hair => Some(Edge::Hair),
        is if is == colours.top => Some(Edge::Shoulders),
        _ => None,
    }
}

fn lightness(picture: &InPicture<'_>, met: &Met) -> f64 {
    let geometry = &picture.fine.place.room.geometry;
    picture.lightness(&geometry.material_of(met.triangle).reflectance)
}

/// The value that half of some lie above.
fn middle(mut values: Vec<f64>) -> Option<f64> {
    values.sort_by(f64::total_cmp);
    let half = values.len() / 2;
    match values.len() {
        0 => None,
        even if even % 2 == 0 => Some(0.5 * (values[half - 1] + values[half])),
        _ => Some(values[half]),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::decide::decided;
    use crate::judge::settings::{levels_at, picture_at};
    use crate::trials::{made_up, surface};
    use crate::ways::beams::Beams;
    use colour::Spectrum;
    use scene::BoxRoom;

    /// What is read behind a sitter with hair of this reflectance in a room that is all of one paint.
    fn read(hair: f32, wall: &str) -> (BehindReading, f64) {
        let mut job = made_up::job();
        job.place.room = BoxRoom::uniform(job.place.room.size.into(), surface(wall));
        let reflectance = job.place.room.materials[0].reflectance;
        job.sitters[0].colours.hair = Spectrum::splat(hair);
        let beams = Beams::of(&job).unwrap();
        decided(&job, &beams, 1, &|_| true, |decision| {
            let (chosen, fine) = (&decision.finished, &decision.fine);
            let levels = levels_at(&decision.scout, chosen.way.light.dose(), &chosen.settings);
            let picture = InPicture {
                job: &job,
                fine,
                finished: picture_at(&decision.scout, &chosen.way, &levels),
                total: Stops(0.0),
            };
            Ok((behind(&picture), picture.lightness(&reflectance)))
        })
        .unwrap()
    }

    #[test]
    fn lighter_hair_stands_off_by_how_much_lighter_it_is() {
        let [(black, _), (white, _)] = [0.05, 0.4].map(|hair| read(hair, "light grey"));
        let more = white.hair.unwrap().value() - black.hair.unwrap().value();
        // Three stops by itself; what the light hair throws on itself by way of the wall adds a little.
        assert!((2.8..3.4).contains(&more), "{black:?} {white:?}");
    }

    #[test]
    fn the_tone_of_one_wall_is_its_light_and_its_reflectance() {
        let (read, reflectance) = read(0.1, "white paint");
        let expected = read.light.unwrap().value() + (reflectance / camera::MID_GREY).log2();
        assert!(
            (read.tone.unwrap().value() - expected).abs() < 0.3,
            "{read:?}, {expected}"
        );
    }

    #[test]
    fn only_hair_that_looks_like_what_is_behind_it_is_told() {
        let check = |hair: Option<f64>, told: bool| {
            let behind = BehindReading {
                hair: hair.map(Stops),
                ..BehindReading::default()
            };
            assert_eq!(hair_merges(&behind).is_some(), told, "{hair:?}");
        };
        check(Some(0.1), true);
        check(Some(-0.3), true);
        check(Some(1.0), false);
        check(Some(-2.0), false);
        check(None, false);
    }
}
