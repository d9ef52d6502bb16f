//! On the day: what to set when the light or a distance is another than planned, with the aim left as it is.
//!
//! The answer stays what it is; only exposure is counted again, by the functions that counted it first. What the
//! light does to the settings is arithmetic. What a distance does to the flash's light is read from the place, solved
//! coarsely with the head, the board or the sitters a little elsewhere, as the difference to the same place as planned.

use crate::balance;
use crate::exposing::{OUT_OF_THE_PICTURE, SLOWEST_HAND_HELD_S, allowed, power_for_total, settable_power};
use crate::reading::{FaceLight, angles};
use crate::survey::{AtMeters, Survey, in_the_picture};
use crate::ways::{self, Beams, Way};
use answer::{
    Adjusted, AmbientWish, Answer, Between, DistanceChange, DistanceStep, Failure, FlashStand, Job,
    LightChange, Loss, Route, Settings, Variations,
};
use camera::add_exposures;
use glam::Vec3;
use light::HeadDress;
use rayon::prelude::*;
use transport::{AimMap, Fineness, PlacedFlash};
use units::{Iso, Stops};

/// One click of a dial, in stops.
const CLICK: f64 = 1.0 / 3.0;
/// Where nothing is asked of the ambient light, it may grow until it is this far under the whole exposure before the
/// camera follows it (ours: the flash then still makes half of the light on the face).
const STILL_A_KEY: f64 = -1.0;
/// A flash that is this far short is nearer to full power than to the click above it.
const HALF_A_CLICK: f64 = 0.5 * CLICK;

/// The settings for another light with the same aim: the shutter follows it, then speed, then aperture, and the power
/// fills what is missing on the face.
///
/// What was wished of the ambient light and the zones is kept where the camera can; where nothing was wished, the
/// camera stays until the ambient light would take the face over.
pub fn when_light_changes(job: &Job, answer: &Answer, by: Stops) -> LightChange {
    let now = &answer.settings;
    if by.value().abs() < 1e-9 {
        return LightChange {
            by,
            then: as_answered(answer),
            instead: None,
            lost: Vec::new(),
        };
    }
    let wanted = to_follow(job, answer, by);
    // As much of the change is followed as leaves the flash strong enough; the rest is lost.
    let floor = answer.flash.in_hand.value().min(0.0) - HALF_A_CLICK;
    let clicks = (wanted.abs() / CLICK).ceil() as u32;
    let followed = (0..=clicks).find_map(|back| {
        let less = (wanted.abs() - f64::from(back) * CLICK).max(0.0);
        let change = less.copysign(wanted);
        let settings = if less == 0.0 {
            *now
        } else {
            balance::followed(job, now, Stops(change), 0.0)?
        };
        let then = adjusted(job, answer, settings, by, Stops(0.0))?;
        (then.in_hand.value() >= floor).then_some((then, wanted - change))
    });
    let unchanged = || adjusted(job, answer, *now, by, Stops(0.0)).unwrap_or_else(|| as_answered(answer));
    let (then, left) = followed.unwrap_or_else(|| (unchanged(), wanted));
    let then = faster_where_short(job, answer, then, by, floor);
    let slow =
        then.settings.shutter.value() > SLOWEST_HAND_HELD_S && now.shutter.value() <= SLOWEST_HAND_HELD_S;
    let instead = (1..=6)
        .filter(|_| slow)
        .filter_map(|stops| balance::followed(job, now, Stops(wanted - left), f64::from(stops)))
        .filter_map(|settings| adjusted(job, answer, settings, by, Stops(0.0)))
        .find(|way| {
            let exposes = way.in_hand.value() >= floor && way.total.value() < CLICK + HALF_A_CLICK;
            exposes && way.settings.shutter.value() <= SLOWEST_HAND_HELD_S
        });
    let lost = losses(job, answer, &then, left, slow && instead.is_none());
    LightChange {
        by,
        then,
        instead,
        lost,
    }
}

/// The flash in an adjusted picture when distances have changed its light on the face by so many stops.
pub fn when_flash_changes(
    job: &Job,
    answer: &Answer,
    picture: &Adjusted,
    by_light: Stops,
    by_flash: Stops,
) -> Adjusted {
    if by_flash.value().abs() < 1e-9 {
        return picture.clone();
    }
    adjusted(job, answer, picture.settings, by_light, by_flash).unwrap_or_else(|| picture.clone())
}

/// How much of a change must be answered by the camera, in stops; positive where the light has become too bright.
fn to_follow(job: &Job, answer: &Answer, by: Stops) -> f64 {
    let ambient = answer.exposure.ambient_alone.map(Stops::value);
    // What is within a click of its wish is left where it is; what could not be had so far may come right now.
    let from_wish = |off: f64| {
        if off.abs() <= balance::ZONE_TOLERANCE {
            by.value()
        } else {
            by.value() + off
        }
    };
    let zones = balance::zone_wishes(job, &answer.settings);
    if !zones.is_empty() {
        let off: f64 = zones
            .iter()
            .map(|(wish, level)| level.value() - wish.at.value())
            .sum();
        return from_wish(off / zones.len() as f64);
    }
    let most = |limit: f64| ambient.map_or(0.0, |now| (now + by.value() - limit.max(now)).max(0.0));
    match job.ask.ambient {
        AmbientWish::Offset(wish) => ambient.map_or(0.0, |now| from_wish(now - wish.value())),
        AmbientWish::Out => most(OUT_OF_THE_PICTURE),
        AmbientWish::Any => most(STILL_A_KEY),
    }
}

/// The picture as answered.
fn as_answered(answer: &Answer) -> Adjusted {
    Adjusted {
        settings: answer.settings,
        power: answer.flash.power,
        in_hand: answer.flash.in_hand,
        ambient: answer.exposure.ambient_alone,
        flash: answer.exposure.flash_alone,
        total: answer.exposure.total,
    }
}

/// The face at other settings, in another light, with the flash's light on it changed: counted as the answer was.
fn adjusted(
    job: &Job,
    answer: &Answer,
    settings: Settings,
    by_light: Stops,
    by_flash: Stops,
) -> Option<Adjusted> {
    let now = &answer.settings;
    // Against the answer: what the camera takes from flash and from ambient light.
    let on_flash =
        settings.speed().stops_faster_than(now.speed()) - settings.aperture.stops_darker_than(now.aperture);
    let on_ambient = now.exposing().ev() - settings.exposing().ev();
    let full = answer.exposure.power_for_flash_alone + on_flash.value() + by_flash.value();
    let ambient = answer
        .exposure
        .ambient_alone
        .map(|stops| stops + on_ambient + by_light);
    let exact = power_for_total(full, ambient.map_or(f64::NEG_INFINITY, Stops::value));
    let power = settable_power(job, exact).ok()?;
    let flash = Stops(full - power.stops_below_full());
    let parts: Vec<Stops> = ambient.into_iter().chain([flash]).collect();
    Some(Adjusted {
        in_hand: Stops(exact.min(power.stops_below_full())),
        total: add_exposures(&parts).unwrap_or(flash),
        settings,
        power,
        ambient,
        flash,
    })
}

/// A flash that falls short in less light is helped by speed, as far as the ambient light stays where it was.
fn faster_where_short(job: &Job, answer: &Answer, then: Adjusted, by: Stops, floor: f64) -> Adjusted {
    let before = answer
        .exposure
        .ambient_alone
        .map_or(f64::NEG_INFINITY, Stops::value);
    if then.in_hand.value() >= floor {
        return then;
    }
    let speeds = (1..=9).filter_map(|thirds| {
        let iso = then.settings.iso.value() * (f64::from(thirds) * CLICK).exp2();
        let iso = Iso::new(iso).ok()?.nearest_third();
        let settings = Settings { iso, ..then.settings };
        adjusted(job, answer, settings, by, Stops(0.0)).filter(|_| allowed(job, iso))
    });
    let mut fit = speeds.filter(|way| {
        way.in_hand.value() >= floor
            && way
                .ambient
                .is_none_or(|ambient| ambient.value() <= before + HALF_A_CLICK)
    });
    fit.next().unwrap_or(then)
}

/// What the new settings cannot keep. `left` is how much of the change the camera has not followed; `shaky` says that
/// no shutter that can be held was found.
fn losses(job: &Job, answer: &Answer, then: &Adjusted, left: f64, shaky: bool) -> Vec<Loss> {
    let mut losses = Vec::new();
    if left > HALF_A_CLICK {
        losses.push(Loss::AmbientBrighter { stops: Stops(left) });
    } else if left < -HALF_A_CLICK {
        losses.push(Loss::AmbientDarker { stops: Stops(-left) });
    }
    if then.in_hand.value() < -HALF_A_CLICK {
        losses.push(Loss::FlashShort { stops: -then.in_hand });
    }
    if then.total.value() > CLICK + HALF_A_CLICK {
        losses.push(Loss::FaceTooBright { stops: then.total });
    }
    let (aperture, instead_of) = (then.settings.aperture, answer.settings.aperture);
    if job.ask.aperture.is_some() && aperture != instead_of {
        losses.push(Loss::OtherAperture { aperture, instead_of });
    }
    if shaky {
        let shutter = then.settings.shutter;
        losses.push(Loss::SlowForAPerson { shutter });
    }
    losses
}

/// The light is varied from four stops darker to four stops brighter, in clicks.
const MOST_CLICKS: i32 = 12;

/// Everything that a card says of another light and other distances.
///
/// # Errors
/// A place that cannot be built.
pub fn variations(job: &Job, answer: &Answer, seed: u64) -> Result<Variations, Failure> {
    let light = |clicks: i32| when_light_changes(job, answer, Stops(f64::from(clicks) / 3.0));
    Ok(Variations {
        lights: (-MOST_CLICKS..=MOST_CLICKS).map(light).collect(),
        distances: when_distances_change(job, answer, seed)?,
    })
}

/// Distances to the face are tried at these parts of the planned one: sixths of a stop by the square law, and beyond
/// a stop halves (ours).
const PARTS: [f64; 13] = [
    0.5, 0.595, 0.707, 0.75, 0.794, 0.841, 0.891, 1.122, 1.189, 1.26, 1.414, 1.682, 2.0,
];
/// Steps of flash and sitters about a lit surface, in metres.
const ASIDE_M: [f32; 4] = [-0.5, -0.25, 0.25, 0.5];
/// Nothing is held nearer to a face than this, in metres (common practice: bare flash 1 m, large fronts nearer).
const LEAST_M: f64 = 0.5;

/// The distances of an answer that may turn out otherwise, with what each does to the flash's light on the face.
///
/// Light straight at the face and off a held board is told for the distance to the face; light off the room for flash
/// and sitters half a metre to and from the lit spot. Values at which something would stand in a wall or in the
/// picture are left out. The place is solved again coarsely; differences are good to about a sixth of a stop.
///
/// # Errors
/// A place that cannot be built.
pub fn when_distances_change(job: &Job, answer: &Answer, seed: u64) -> Result<Vec<DistanceChange>, Failure> {
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
    let Some(planned) = again.dose(&again.survey, 0, &again.way) else {
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
fn way_of(answer: &Answer) -> Way {
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
    /// What the head does at the dome from one of the survey's places, in lx s at full power.
    fn dose(&self, survey: &Survey, place: usize, way: &Way) -> Option<f64> {
        let colour = self.job.bag.flash.colour();
        if let Some(mut pose) = ways::pose_of(way) {
            pose.place = place;
            let way = ways::compute_board(&self.job, survey, &self.beams, &pose, &[way.zoom_mm]).pop()?;
            return Some(way.light.dose(colour)).filter(|dose| *dose > 0.0);
        }
        let map = &survey.maps[place];
        self.dose_from(survey, map, way)
    }

    /// The same without a held board, from any place of the flash.
    fn dose_from(&self, survey: &Survey, map: &AimMap, way: &Way) -> Option<f64> {
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
            let stands = self.job.place.room.contains(place, 0.02) && !inside_furniture(&self.job, place);
            let map = stands.then(|| AimMap::new(&self.survey.room, &self.survey.operator, place))?;
            let dose = self.dose_from(&self.survey, &map, &self.way)?;
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
            (length(place) >= LEAST_M && !seen).then_some((length(place), stops?))
        });
        change(Between::FlashAndFace, f64::from(away.length()), steps)
    }

    fn board_and_face(&self, planned: f64) -> DistanceChange {
        let (Some(pose), person) = (ways::pose_of(&self.way), &self.survey.stage.sitters[0]) else {
            return change(Between::BoardAndFace, 0.0, std::iter::empty());
        };
        let away = pose.centre - person.face;
        let (azimuth, elevation) = angles(away, person.facing);
        let at = f64::from(away.length());
        let steps = PARTS.par_iter().filter_map(|part| {
            let metres = at * part;
            let held = ways::board_at(
                &self.job,
                &self.survey,
                0,
                pose.board,
                azimuth,
                elevation,
                metres as f32,
            );
            let colour = self.job.bag.flash.colour();
            let held = held.filter(|_| metres >= LEAST_M)?;
            let way = ways::compute_board(&self.job, &self.survey, &self.beams, &held, &[self.way.zoom_mm])
                .pop()?;
            let dose = Some(way.light.dose(colour)).filter(|dose| *dose > 0.0)?;
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
                let dose = self.dose(&survey, 0, &self.way)?;
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

fn inside_furniture(job: &Job, place: Vec3) -> bool {
    let inside = |block: &scene::Block| (place.cmpge(block.min) & place.cmple(block.max)).all();
    job.place.blocks.iter().any(inside)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::answer;
    use crate::solve::fine;
    use crate::trials::{random_job, surface, white_board};
    use ::answer::{Ambient, AmbientFrom, AmbientLevel, KeyWish, LampShape, MeterFacing, Softness};
    use colour::LightColour;
    use light::SoftFront;
    use units::{Ev, Kelvin};

    const SEED: u64 = 1;

    /// Light from all round at the face, metered.
    fn lit(job: &Job, ev: f64) -> Job {
        let mut job = job.clone();
        job.ambients = vec![Ambient {
            name: "lamps".to_owned(),
            reading: AmbientLevel::Reading(Ev(ev)),
            facing: MeterFacing::Camera,
            colour: LightColour::planck(Kelvin::new(2856.0).unwrap()),
            kelvin: Kelvin::new(2856.0).unwrap(),
            from: AmbientFrom::AllRound,
            lamp: LampShape::default(),
        }];
        job
    }

    fn clicks(before: &Adjusted, after: &Answer) -> [f64; 4] {
        let (a, b) = (&before.settings, &after.settings);
        [
            b.aperture.stops_darker_than(a.aperture).value(),
            b.shutter.stops_longer_than(a.shutter).value(),
            b.iso.stops_faster_than(a.iso).value(),
            after.flash.power.stops_below_full() - before.power.stops_below_full(),
        ]
    }

    /// With aperture and speed insisted on, another light leaves one answer: the whole answer, given anew for that
    /// light, must come to the same settings within a click.
    #[test]
    fn another_light_is_answered_as_if_it_had_been_asked_for() {
        let mut tried = 0;
        for (wish, ev) in [
            (AmbientWish::Offset(Stops(-2.0)), 5.0),
            (AmbientWish::Out, 4.0),
            (AmbientWish::Any, 5.0),
        ] {
            let mut job = random_job(1);
            job.ask.ambient = wish;
            let first = answer(&lit(&job, ev), SEED).expect("answered");
            for by in [-2.0, -1.0, 0.0, 1.0, 2.0] {
                let fresh = answer(&lit(&job, ev + by), SEED).expect("answered");
                assert_eq!(
                    fresh.aim.route, first.aim.route,
                    "{wish:?} {by}: another aim is another question"
                );
                let told = when_light_changes(&lit(&job, ev), &first, Stops(by));
                let off = clicks(&told.then, &fresh);
                assert!(
                    off.iter().all(|off| off.abs() < CLICK + 0.01),
                    "{wish:?} {by}: {off:?}"
                );
                let ambient = told.then.ambient.unwrap() - fresh.exposure.ambient_alone.unwrap();
                assert!(
                    ambient.value().abs() < CLICK + 0.01,
                    "{wish:?} {by}: ambient {ambient:?}"
                );
                assert!(
                    (told.then.total - fresh.exposure.total).value().abs() < CLICK,
                    "{wish:?} {by}: {:?} and {:?}",
                    told.then.total,
                    fresh.exposure.total
                );
                tried += 1;
            }
        }
        assert_eq!(tried, 15);
    }

    /// The same light is the same answer, down to the last digit.
    #[test]
    fn no_change_changes_nothing() {
        let mut job = lit(&random_job(3), 6.0);
        for wish in [
            AmbientWish::Offset(Stops(-1.0)),
            AmbientWish::Out,
            AmbientWish::Any,
        ] {
            job.ask.ambient = wish;
            let answer = answer(&job, SEED).expect("answered");
            let counted = adjusted(&job, &answer, answer.settings, Stops(0.0), Stops(0.0)).expect("a power");
            assert_eq!(counted.settings, answer.settings);
            assert_eq!(counted.power, answer.flash.power);
            assert!((counted.in_hand - answer.flash.in_hand).value().abs() < 1e-9);
            assert!((counted.total - answer.exposure.total).value().abs() < 1e-9);
            assert_eq!(
                when_light_changes(&job, &answer, Stops(0.0)).then,
                as_answered(&answer)
            );
        }
    }

    /// Over the whole range of a card, either the picture is kept or the card says what is lost, and no setting leaves
    /// the camera's limits.
    #[test]
    fn a_picture_is_kept_or_it_is_said_what_is_lost() {
        let mut lost = 0;
        for room in 0..4 {
            let mut job = lit(&random_job(room), 8.0);
            job.ask.iso = None;
            job.ask.ambient = AmbientWish::Offset(Stops(-1.5));
            let answer = answer(&job, SEED).expect("answered");
            let was = answer.exposure.ambient_alone.unwrap().value();
            // What was wished and could not be had may come right, so the wish is the measure where it is missed.
            let wish = if (was + 1.5).abs() < balance::ZONE_TOLERANCE {
                was
            } else {
                -1.5
            };
            for clicks in -12..=12 {
                let by = Stops(f64::from(clicks) / 3.0);
                let light = when_light_changes(&job, &answer, by);
                for way in std::iter::once(&light.then).chain(&light.instead) {
                    assert!(allowed(&job, way.settings.iso), "{:?}", way.settings);
                    assert!(
                        way.settings.shutter.value()
                            >= answer.settings.shutter.value().min(1.0 / 200.0) - 1e-9
                    );
                    let kept = (way.ambient.unwrap().value() - wish).abs() < CLICK + 0.01
                        && way.total.value().abs() < CLICK
                        && way.in_hand.value() > -HALF_A_CLICK;
                    assert!(kept || !light.lost.is_empty(), "room {room}, {by:?}: {way:?}");
                }
                lost += u32::from(!light.lost.is_empty());
            }
        }
        assert!(lost > 0, "four stops more light are too much for some room");
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
            let colour = job.bag.flash.colour();
            let planned = fine(&job, &way, SEED).expect("solved").face.dose(colour);
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
                let there = fine(&moved, &way, SEED).expect("solved").face.dose(colour);
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
    fn a_held_board_is_told_from_near_to_far() {
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
