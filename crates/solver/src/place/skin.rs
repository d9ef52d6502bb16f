//! The skin that the camera sees, read point by point: past caps, hair, glasses, collars and hands.

use crate::place::amounts::{Finished, angles};
use crate::place::meters::off_surface;
use answer::{Job, SkinReading};
use glam::{DMat4, DVec4, Vec3};
use scene::figure::LandmarkName;
use scene::{ObjectKind, SitterObject, Stage};
use transport::{Meter, Receptor, Room};
use units::Stops;

/// Columns and rows of looks over the head.
const LOOKS: [usize; 2] = [24, 32];
/// From the middle of the face to the sides of what is looked over, and up and down, in metres (common practice: a head is
/// about 15 cm wide and 23 cm high).
const BESIDE_M: f32 = 0.10;
const ABOVE_M: f32 = 0.16;
const BELOW_M: f32 = 0.15;
/// Ears and neck are no part of a face: what lies further back than this behind the eyes, in metres, or further under the chin
/// (ours, from the figures).
const BEHIND_EYES_M: f32 = 0.075;
const UNDER_CHIN_M: f32 = 0.005;
/// What lies nearer than this over a landmark, in metres, is the skin itself (ours).
const HIDES_M: f32 = 0.004;
/// Fewer points than this say nothing of a face.
const LEAST_POINTS: usize = 40;
/// The lit part is what the brightest quarter lies above, the darkest what a tenth lies below (ours).
const LIT: f64 = 0.75;
const DARKEST: f64 = 0.10;
/// Points that lie less than this part of the way up from the darkest to the lit ones are in shadow, and say nothing of where
/// the light comes from (ours).
const IN_SHADOW: f64 = 0.2;

/// Flat meters on the skin of the first sitter's face, where the camera sees it, with its normals.
pub(crate) fn skin_seen(job: &Job, stage: &Stage, room: &Room) -> Vec<(Vec3, Meter)> {
    let (camera, face) = (job.viewpoint.position, stage.sitters[0].face);
    let (right, up, _) = job.viewpoint.axes();
    let [columns, rows] = LOOKS;
    let share = |index: usize, of: usize| (index as f32 + 0.5) / of as f32;
    let looks = (0..columns * rows).map(|look| {
        let across = BESIDE_M * (2.0 * share(look / rows, columns) - 1.0);
        let along = (ABOVE_M + BELOW_M) * share(look % rows, rows) - BELOW_M;
        face + right * across + up * along
    });
    looks
        .filter_map(|aim| skin_met(room, camera, (aim - camera).normalize()))
        .filter(|(_, meter)| of_the_face(&stage.sitters[0], meter.position))
        .collect()
}

/// The landmarks of the first face that nothing hides from the camera: no hair, cap or hand, and no other part of the head.
pub(crate) fn landmarks_seen(
    job: &Job,
    room: &Room,
    all: &[(LandmarkName, Meter)],
) -> Vec<(LandmarkName, Meter)> {
    let camera = job.viewpoint.position;
    let seen = |meter: &Meter| {
        let leg = meter.position - camera;
        let first = room.tracer.closest(camera, leg.normalize());
        first.is_none_or(|hit| hit.distance > leg.length() - HIDES_M)
    };
    all.iter().filter(|(_, meter)| seen(meter)).copied().collect()
}

/// Whether a point of a head belongs to its face.
fn of_the_face(person: &SitterObject, point: Vec3) -> bool {
    let forward = (point - person.face).dot(person.facing);
    let chin = person.landmark(LandmarkName::Chin);
    let lowest = chin.map_or(f32::MIN, |chin| chin.position.z - UNDER_CHIN_M);
    forward > -BEHIND_EYES_M && point.z > lowest
}

/// A meter on the skin of the first sitter that a look meets first, with the normal there.
fn skin_met(room: &Room, from: Vec3, direction: Vec3) -> Option<(Vec3, Meter)> {
    let geometry = &room.geometry;
    let hit = room.tracer.closest(from, direction)?;
    let object = geometry.object[hit.triangle as usize] as usize;
    // Of all that a person is made of only skin has lips, brows and flush laid over it.
    let skin = geometry.objects[object].kind == ObjectKind::Sitter(0)
        && geometry.material_of(hit.triangle).overlays.is_some();
    let outside = geometry.flat_normal(hit.triangle).dot(direction) < 0.0;
    let (position, normal) = off_surface(room, &hit, from + direction * hit.distance, direction);
    let receptor = Receptor::Flat(normal);
    (skin && outside).then_some((normal, Meter { position, receptor }))
}

/// The skin in the finished picture; `None` where hardly any is seen. `facing` is the level direction of the nose.
pub(crate) fn skin_reading(picture: &Finished<'_>, facing: Vec3) -> Option<SkinReading> {
    let there = |at: usize| picture.ambient.skin.get(at).map_or(0.0, |(_, light)| *light);
    let flash = picture.flash.skin.iter().enumerate();
    let points: Vec<(Vec3, f64)> = flash
        .map(|(at, &(normal, light))| (normal, f64::from(picture.sum(light, there(at)).max(1e-9))))
        .collect();
    if points.len() < LEAST_POINTS {
        return None;
    }
    let mut levels: Vec<f64> = points.iter().map(|(_, light)| *light).collect();
    levels.sort_by(f64::total_cmp);
    let level = |share: f64| levels[(share * (levels.len() - 1) as f64).round() as usize];
    let against = |light: f64| Stops((light / picture.dome()).log2());
    let (lit, darkest) = (level(LIT), level(DARKEST));
    let out_of_shadow: Vec<(Vec3, f64)> = points
        .iter()
        .filter(|(_, light)| *light > darkest + IN_SHADOW * (lit - darkest))
        .copied()
        .collect();
    let (azimuth_deg, elevation_deg) = angles(by_shading(&out_of_shadow)?, facing);
    Some(SkinReading {
        points: points.len(),
        lit: against(lit),
        darkest: against(darkest),
        azimuth_deg,
        elevation_deg,
    })
}

/// Where the light on some surfaces comes from, by how it changes with their normals: light from one side goes with the cosine,
/// so the plane that fits best through it leans towards the light (least squares).
fn by_shading(points: &[(Vec3, f64)]) -> Option<Vec3> {
    let row = |normal: Vec3| DVec4::from((normal.as_dvec3(), 1.0));
    let mut square = DMat4::ZERO;
    let mut right = DVec4::ZERO;
    for &(normal, light) in points {
        let row = row(normal);
        square += DMat4::from_cols(row * row.x, row * row.y, row * row.z, row * row.w);
        right += row * light;
    }
    let solved = (square.determinant().abs() > 1e-9).then(|| square.inverse() * right)?;
    solved.truncate().as_vec3().try_normalize()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::place::amounts::{Amounts, towards};

    /// The normals of a head that is seen from the front: those of a ball that faces the camera.
    fn normals() -> impl Iterator<Item = Vec3> {
        let grid = |index: usize| (index as f32 - 9.5) / 10.0;
        let seen = (0..400).map(move |at| (grid(at / 20), grid(at % 20)));
        seen.filter(|(x, z)| x * x + z * z < 0.95)
            .map(|(x, z)| Vec3::new(x, -(1.0 - x * x - z * z).sqrt(), z))
    }

    /// What is read of skin in the light of a full flash alone, which comes to 1 at the dome.
    fn read(skin: Vec<(Vec3, f32)>) -> Option<SkinReading> {
        let flash = Amounts {
            dome: 1.0,
            skin,
            ..Amounts::default()
        };
        let picture = Finished {
            flash: &flash,
            power: 1.0,
            ambient: &Amounts::default(),
            seconds: 0.01,
        };
        skin_reading(&picture, Vec3::NEG_Y)
    }

    /// Light from a direction on a ball, with some from all round, read by its shading.
    fn check(azimuth_deg: f64, elevation_deg: f64, all_round: f32) {
        let from = towards(Vec3::NEG_Y, azimuth_deg, elevation_deg);
        let light = |normal: Vec3| all_round + normal.dot(from).max(0.0);
        let read = read(normals().map(|normal| (normal, light(normal))).collect()).unwrap();
        let off = from.angle_between(towards(Vec3::NEG_Y, read.azimuth_deg, read.elevation_deg));
        assert!(
            off.to_degrees() < 2.0,
            "{azimuth_deg}°, {elevation_deg}° up: read {read:?}"
        );
        assert!(read.lit > read.darkest, "{read:?}");
    }

    #[test]
    fn shading_tells_where_the_light_comes_from() {
        check(0.0, 0.0, 0.0);
        check(-40.0, 25.0, 0.0);
        check(35.0, 30.0, 0.2);
        check(60.0, 10.0, 0.1);
        check(90.0, 10.0, 0.05);
        check(45.0, 40.0, 0.5);
    }

    #[test]
    fn little_skin_says_nothing() {
        assert!(read(vec![(Vec3::NEG_Y, 1.0); LEAST_POINTS - 1]).is_none());
    }
}
