//! What another distance does to the flash's light on the face.

use crate::place::amounts::angles;
use crate::place::flash_places::{in_the_picture, inside_furniture};
use crate::place::meters::AtMeters;
use crate::place::survey::Survey;
use crate::practice::LEAST_HELD_M;
use crate::ways::attempts::board_at;
use crate::ways::beams::Beams;
use crate::ways::compute::compute_board;
use crate::ways::light::FaceLight;
use crate::ways::scout::Scout;
use crate::ways::way::{Pose, Way, pose_of};
use answer::{Answer, Between, DistanceChange, DistanceStep, Failure, FlashStand, Job, Route};
use glam::Vec3;
use light::HeadDress;
use rayon::prelude::*;
use transport::{AimMap, Fineness, PlacedFlash};
use units::Stops;

/// Distances to the face are tried at these parts of the planned one: sixths of a stop by the square law, and beyond
/// a stop halves (ours).
const PARTS: [f64; 13] = [
    0.5, 0.595, 0.707, 0.75, 0.794, 0.841, 0.891, 1.122, 1.189, 1.26, 1.414, 1.682, 2.0,
];
/// Steps of flash and sitters about a lit surface, in metres.
const ASIDE_M: [f32; 4] = [-0.5, -0.25, 0.25, 0.5];

/// The distances of an answer that may turn out otherwise, with what each does to the flash's light on the face.
///
/// Light straight at the face and off a held board is given for the distance to the face; light off the room for flash
/// and sitters half a metre to and from the lit spot. Values at which something would stand in a wall or in the
/// picture are left out. The place is solved again coarsely; differences are good to about a sixth of a stop.
///
/// # Errors
/// A place that cannot be built.
pub(crate) fn when_distances_change(
    job: &Job,
    answer: &Answer,
    seed: u64,
) -> Result<Vec<DistanceChange>, Failure> {
    let mut job = job.as_answered(answer);
    job.ask.stand = FlashStand::At(answer.aim.flash);
    // Only the flash is asked about.
    job.ambients.clear();
    job.outdoors = None;
    let again = Again {
        beams: Beams::only(&job, answer.flash.zoom_mm, answer.flash.dress)?,
        survey: Survey::new(&job, Fineness::SKETCH, seed)?,
        job,
        way: way_of(answer),
        seed,
    };
    let Some(planned) = again.dose(&again.survey) else {
        return Ok(Vec::new());
    };
    let found = match answer.aim.route {
        Route::Direct => vec![again.flash_and_face(planned)],
        Route::HeldBoard { .. } => vec![again.board_and_face(planned)],
        Route::Bounce { .. } | Route::Standing { .. } => {
            vec![again.flash_and_spot(planned), again.spot_and_face(planned)]
        }
        Route::Open => Vec::new(),
    };
    Ok(found
        .into_iter()
        .filter(|change| change.steps.len() > 1)
        .collect())
}

/// The way that an answer took.
pub(crate) fn way_of(answer: &Answer) -> Way {
    Way {
        route: answer.aim.route.clone(),
        place: 0,
        flash: answer.aim.flash,
        target: answer.aim.target,
        zoom_mm: answer.flash.zoom_mm,
        dress: answer.flash.dress,
        light: FaceLight::default(),
        flagged: answer.aim.flagged,
        zoom_gain: None,
    }
}

/// The place of an answer, solved again coarsely.
struct Again {
    job: Job,
    way: Way,
    beams: Beams,
    survey: Survey,
    seed: u64,
}

impl Again {
    fn scout_in<'a>(&'a self, survey: &'a Survey) -> Scout<'a> {
        Scout::new(&self.job, survey, &self.beams, self.seed)
    }

    /// What the head does at the dome from its planned place, in lx s at full power.
    fn dose(&self, survey: &Survey) -> Option<f64> {
        match pose_of(&self.way) {
            Some(pose) => self.board_dose(survey, &pose),
            None => self.dose_from(survey, &survey.maps[0]),
        }
    }

    /// The same off a held board.
    fn board_dose(&self, survey: &Survey, pose: &Pose) -> Option<f64> {
        let way = compute_board(&self.scout_in(survey), pose, &[self.way.zoom_mm]).pop()?;
        Some(way.light.dose()).filter(|dose| *dose > 0.0)
    }

    /// The same without a held board, from any place of the flash.
    fn dose_from(&self, survey: &Survey, map: &AimMap) -> Option<f64> {
        let way = &self.way;
        let point = self
            .beams
            .placed(way.zoom_mm, way.dress, map.position(), way.target);
        let aimed = map.read(&survey.operator, &point, None);
        let straight = AtMeters::of(&aimed.direct).dome;
        // The map shines from a point; near a face, an umbrella is far from one.
        let [width, height] = self.job.bag.flash.window_of(way.dress);
        let front = PlacedFlash {
            half_window: [0.5 * width as f32, 0.5 * height as f32],
            ..point
        };
        let from_front = match way.route {
            Route::Direct => survey.meters.dome.read_direct(&survey.room, &front),
            _ if way.flagged => 0.0,
            _ => straight,
        };
        let weights = self.job.bag.flash.colour().luminous_weights();
        let dome = AtMeters::of(&aimed.meters)
            .dome
            .map(|band| (band - straight + from_front).max(0.0));
        let dose = dome.dot(&weights);
        Some(f64::from(dose)).filter(|dose| *dose > 0.0)
    }

    /// The flash at other places, its head turned to the same spot.
    fn moved_flash(&self, places: &[Vec3], planned: f64) -> Vec<Option<Stops>> {
        let read = |&place: &Vec3| {
            let stands =
                self.job.place.room.contains(place, 0.02) && !inside_furniture(&self.job, place, 0.0);
            let map = stands.then(|| AimMap::new(&self.survey.room, &self.survey.operator, place))?;
            let dose = self.dose_from(&self.survey, &map)?;
            Some(Stops((dose / planned).log2()))
        };
        places.par_iter().map(read).collect()
    }

    fn flash_and_face(&self, planned: f64) -> DistanceChange {
        let face = self.job.sitters[0].face();
        let away = self.way.flash - face;
        let places: Vec<Vec3> = PARTS.iter().map(|part| face + away * *part as f32).collect();
        let stops = self.moved_flash(&places, planned);
        // A flash on the camera goes where the camera goes, and one that is planned within the picture is known to be.
        let size = front_size(self.way.dress);
        let hidden =
            !self.job.is_on_camera(self.way.flash) && !in_the_picture(&self.job, self.way.flash, size);
        let length = |place: &Vec3| f64::from((*place - face).length());
        let steps = places.iter().zip(stops).filter_map(|(place, stops)| {
            let seen = hidden && in_the_picture(&self.job, *place, size);
            (length(place) >= LEAST_HELD_M && !seen).then_some((length(place), stops?))
        });
        change(Between::FlashAndFace, f64::from(away.length()), steps)
    }

    fn board_and_face(&self, planned: f64) -> DistanceChange {
        let (Some(pose), person) = (pose_of(&self.way), &self.survey.stage.sitters[0]) else {
            return change(Between::BoardAndFace, 0.0, std::iter::empty());
        };
        let away = pose.centre - person.face;
        let (azimuth, elevation) = angles(away, person.facing);
        let at = f64::from(away.length());
        let steps = PARTS.par_iter().filter_map(|part| {
            let metres = at * part;
            let held = board_at(
                &self.scout_in(&self.survey),
                0,
                pose.board,
                azimuth,
                elevation,
                metres as f32,
            );
            let held = held.filter(|_| metres >= LEAST_HELD_M)?;
            let dose = self.board_dose(&self.survey, &held)?;
            Some((metres, Stops((dose / planned).log2())))
        });
        let steps: Vec<_> = steps.collect();
        change(Between::BoardAndFace, at, steps.into_iter())
    }

    fn flash_and_spot(&self, planned: f64) -> DistanceChange {
        let (flash, target) = (self.way.flash, self.way.target);
        let length = |place: Vec3| f64::from((place - target).length());
        let away = (flash - target).with_z(0.0).try_normalize().unwrap_or(Vec3::Z);
        let places = ASIDE_M.map(|step| flash + away * step);
        let stops = self.moved_flash(&places, planned);
        let steps = places
            .iter()
            .zip(stops)
            .filter_map(|(place, stops)| Some((length(*place), stops?)));
        change(Between::FlashAndSpot, length(flash), steps)
    }

    /// Everyone moves, for a group is lit as one; the meters move with them, so the place is solved anew.
    fn spot_and_face(&self, planned: f64) -> DistanceChange {
        let (face, target) = (self.job.sitters[0].face(), self.way.target);
        let length = |face: Vec3| f64::from((face - target).length());
        let away = (face - target).with_z(0.0).try_normalize().unwrap_or(Vec3::Y);
        let steps: Vec<(f64, Stops)> = ASIDE_M
            .par_iter()
            .filter_map(|step| {
                let mut moved = self.job.clone();
                for sitter in &mut moved.sitters {
                    sitter.stand += away * *step;
                }
                let survey = Survey::new(&moved, Fineness::SKETCH, self.seed).ok()?;
                let dose = self.dose(&survey)?;
                Some((length(face + away * *step), Stops((dose / planned).log2())))
            })
            .collect();
        change(Between::SpotAndFace, length(face), steps.into_iter())
    }
}

/// Sorts values by distance and puts the planned one among them.
fn change(between: Between, planned_m: f64, others: impl Iterator<Item = (f64, Stops)>) -> DistanceChange {
    let planned = DistanceStep {
        metres: planned_m,
        flash: Stops(0.0),
    };
    let mut steps: Vec<DistanceStep> = others
        .map(|(metres, flash)| DistanceStep { metres, flash })
        .collect();
    steps.push(planned);
    steps.sort_by(|a, b| a.metres.total_cmp(&b.metres));
    let planned = steps.iter().position(|step| *step == planned).unwrap_or(0);
    DistanceChange {
        between,
        steps,
        planned,
    }
}

/// Width of what sits on the head, in metres, for keeping it out of the picture.
fn front_size(dress: HeadDress) -> f32 {
    dress.soft_front().map_or(0.1, |front| front.width_m() as f32)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::place::boards::panels_of;
    use crate::place::fine::{FinePlace, aimed};
    use crate::solve::answer;
    use crate::trials::{random_job, surface, white_board};
    use crate::ways::fine::{Fine, fine_in};
    use crate::ways::way::aim;
    use answer::{KeyWish, Softness};
    use light::SoftFront;
    use std::sync::Arc;

    const SEED: u64 = 1;

    /// A way in a finely solved place of its own.
    fn fine(job: &Job, way: &Way) -> Fine {
        let aim = aim(job, way);
        let place = FinePlace::new(job, &panels_of(job, &aim), SEED).expect("a place");
        let flash = aimed(job, &aim, way.zoom_mm, way.dress).expect("a beam");
        fine_in(job, Arc::new(place), way, flash)
    }

    /// A face lit through an umbrella in a dark room: the whole answer from another place of the flash.
    #[test]
    fn a_flash_at_another_distance_is_answered_as_if_it_stood_there() {
        let mut job = random_job(2);
        for face in scene::Face::ALL {
            job.place.room.materials[face.index()] = surface("dark grey");
        }
        let face = job.sitters[0].face();
        let towards = glam::Quat::from_rotation_z(0.6) * job.sitters[0].face_direction();
        let place = |metres: f32| face + (towards + Vec3::Z * 0.4).normalize() * metres;
        job.bag.helpers = 1;
        job.ask.softness = Softness::Any;
        job.bag.dresses = vec![HeadDress::Umbrella(SoftFront::new(1.7, 0.8))];
        job.ask.key = KeyWish {
            side: None,
            azimuth_deg: 34.0,
            elevation_deg: 22.0,
            azimuth_tolerance_deg: 25.0,
        };
        job.ask.stand = FlashStand::At(place(1.2));
        let first = answer(&job, SEED).expect("answered");
        assert_eq!(first.aim.route, Route::Direct);
        let changes = when_distances_change(&job, &first, SEED).expect("solved");
        let [change] = &changes[..] else {
            panic!("one distance")
        };
        assert_eq!(change.between, Between::FlashAndFace);
        assert!(change.steps.len() > 8, "{:?}", change.steps);
        assert!((change.steps[change.planned].metres - 1.2).abs() < 1e-3);
        let mut compared = 0;
        for step in change.steps.iter().filter(|step| step.metres < 1.8) {
            job.ask.stand = FlashStand::At(place(step.metres as f32));
            let fresh = answer(&job, SEED).expect("answered");
            assert_eq!(
                (&fresh.aim.route, fresh.flash.zoom_mm),
                (&first.aim.route, first.flash.zoom_mm)
            );
            let found = fresh.exposure.power_for_flash_alone - first.exposure.power_for_flash_alone
                + fresh
                    .settings
                    .aperture
                    .stops_darker_than(first.settings.aperture)
                    .value()
                - fresh.settings.iso.stops_faster_than(first.settings.iso).value();
            assert!(
                (found - step.flash.value()).abs() < 1.0 / 6.0,
                "{step:?}: {found}"
            );
            compared += 1;
        }
        assert!(compared >= 8, "{compared} distances compared");
    }

    /// Sitters and flash about a lit wall: the finely solved room with the same aim.
    #[test]
    fn distances_about_a_lit_surface_agree_with_the_finely_solved_room() {
        let mut compared = 0;
        for room in [0, 1, 2, 5] {
            let job = random_job(room);
            let first = answer(&job, SEED).expect("answered");
            if !matches!(first.aim.route, Route::Bounce { .. }) {
                continue;
            }
            let way = way_of(&first);
            let planned = fine(&job, &way).face.dose();
            let changes = when_distances_change(&job, &first, SEED).expect("solved");
            let sitters = changes
                .iter()
                .find(|change| change.between == Between::SpotAndFace);
            let (face, target) = (job.sitters[0].face(), first.aim.target);
            let away = (face - target).with_z(0.0).normalize();
            for step in &sitters.expect("people can move").steps {
                // The step that leads to this distance, by halving.
                let (mut low, mut high) = (-0.6f32, 0.6f32);
                for _ in 0..30 {
                    let middle = 0.5 * (low + high);
                    let far = f64::from((face + away * middle - target).length());
                    if far < step.metres {
                        low = middle
                    } else {
                        high = middle
                    }
                }
                let mut moved = job.clone();
                moved.sitters[0].stand += away * low;
                let there = fine(&moved, &way).face.dose();
                let found = (there / planned).log2();
                assert!(
                    (found - step.flash.value()).abs() < 1.0 / 6.0,
                    "room {room}, {step:?}: {found}"
                );
                compared += 1;
            }
        }
        assert!(compared >= 8, "{compared} distances compared");
    }

    /// A board nearer to the face gives more light, and the planned distance gives what was planned.
    #[test]
    fn a_held_board_is_listed_from_near_to_far() {
        let mut job = random_job(4);
        job.bag.boards = vec![white_board()];
        job.bag.helpers = 1;
        for face in scene::Face::ALL {
            job.place.room.materials[face.index()] = surface("brick");
        }
        let answer = answer(&job, SEED).expect("answered");
        let Route::HeldBoard { to_face_m, .. } = answer.aim.route else {
            panic!("red walls leave the board: {:?}", answer.aim.route)
        };
        let changes = when_distances_change(&job, &answer, SEED).expect("solved");
        let [change] = &changes[..] else {
            panic!("one distance")
        };
        assert!((change.steps[change.planned].metres - to_face_m).abs() < 1e-3);
        assert_eq!(change.steps[change.planned].flash, Stops(0.0));
        assert!(
            change
                .steps
                .is_sorted_by(|a, b| a.metres < b.metres && a.flash.value() > b.flash.value())
        );
    }
}
