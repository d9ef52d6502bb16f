//! An answer's place kept ready, so that any other aim of its flash can be read at once.

use crate::explain::reasons::why_not;
use crate::judge::exposure::settable_power;
use crate::judge::judged::{Judged, judge, verdict_of};
use crate::place::boards::held_panel;
use crate::place::fine::aimed;
use crate::place::survey::Survey;
use crate::ways::beams::{Beams, nearest_zoom};
use crate::ways::compute::as_aimed;
use crate::ways::scout::Scout;
use crate::ways::way::{Attempt, Way, aim};
use answer::{Aim, Answer, Failure, FlashSetting, FlashStand, Job, Route, Verdict, Why};
use glam::Vec3;
use light::HeadDress;
use scene::ObjectKind;
use transport::{Fineness, PlacedFlash, Room};
use units::PowerFraction;

/// How far a beam goes that leaves the place through an open side, in metres: nothing hangs on it.
const OUT_OF_DOORS_M: f32 = 20.0;

/// The place of an answer with its people, solved once for the flash where it stands.
pub struct Aiming {
    job: Job,
    survey: Survey,
    beams: Beams,
    dress: HeadDress,
    seed: u64,
    /// What the answer's own aim does here, against which others are judged.
    chosen: Judged,
}

/// What an aim does.
#[derive(Clone, Debug)]
pub struct AimReading {
    /// Where the flash points, and what its light goes by.
    pub aim: Aim,
    /// The flash, placed and aimed.
    pub flash: PlacedFlash,
    /// Zoom of the head in millimetres: the settable one nearest to what was asked.
    pub zoom_mm: f64,
    /// Exact power in stops below 1/1 for which flash and ambient light expose the face at the answer's settings;
    /// negative when the flash falls short.
    pub exact_stops_below_full: f64,
    /// Nearest power that can be set.
    pub power: PowerFraction,
    /// Direction of the light from the nose, in degrees; positive is the camera's right.
    pub azimuth_deg: f64,
    /// Its height above the eyes, in degrees.
    pub elevation_deg: f64,
    /// Whether it serves beside the answer.
    pub verdict: Verdict,
    /// Why, or why not.
    pub why: Why,
}

impl Aiming {
    /// Makes ready the place of an answer to a job. A board that the answer has held stays where it is.
    ///
    /// # Errors
    /// Those of building the place, and an answer that is not one of this job.
    pub fn new(job: &Job, answer: &Answer, seed: u64) -> Result<Self, Failure> {
        let mut job = job.as_answered(answer);
        job.ask.stand = FlashStand::At(answer.aim.flash);
        if let Route::HeldBoard {
            board,
            centre,
            normal,
            ..
        } = &answer.aim.route
        {
            let panel = held_panel(&job, *board, *centre, *normal);
            job.place.panels.push(panel);
        }
        // The settings stay; only the aim moves.
        job.ask.aperture = Some(answer.settings.aperture);
        job.ask.apertures = None;
        job.ask.shutter = Some(answer.settings.shutter);
        job.ask.iso = Some(answer.settings.iso);
        job.ask.zones.clear();
        let beams = Beams::of(&job)?;
        let survey = Survey::new(&job, Fineness::operator_in(job.place.room.area()), seed)?;
        let scout = &Scout::new(&job, &survey, &beams, seed);
        let FlashSetting { zoom_mm, dress, .. } = answer.flash;
        let chosen = judge(scout, way_at(scout, answer.aim.target, zoom_mm, dress)?)?;
        Ok(Aiming {
            dress,
            job,
            survey,
            beams,
            seed,
            chosen,
        })
    }

    /// The job as it is lit here.
    pub fn job(&self) -> &Job {
        &self.job
    }

    /// The solved place.
    pub fn room(&self) -> &Room {
        &self.survey.room
    }

    /// Where the flash is.
    pub fn place(&self) -> Vec3 {
        self.survey.maps[0].position()
    }

    /// What the head does when it is turned from the lens axis (positive to the camera's right) and tilted above level,
    /// both in degrees as in [`Aim`], at a zoom in millimetres.
    ///
    /// # Errors
    /// Numbers that are no angles, and those of reading an aim.
    pub fn at(&self, turn_deg: f64, tilt_deg: f64, zoom_mm: f64) -> Result<AimReading, Failure> {
        let zoom_mm = nearest_zoom(&self.job, zoom_mm);
        let target = self.target(turn_deg, tilt_deg.clamp(-89.9, 89.9));
        let scout = &Scout::new(&self.job, &self.survey, &self.beams, self.seed);
        let way = way_at(scout, target, zoom_mm, self.dress)?;
        let aim = aim(&self.job, &way);
        let judged = judge(scout, way)?;
        Ok(AimReading {
            flash: aimed(&self.job, &aim, zoom_mm, self.dress)?,
            aim,
            zoom_mm,
            exact_stops_below_full: judged.power,
            power: settable_power(&self.job, judged.power)?,
            azimuth_deg: judged.key.azimuth_deg,
            elevation_deg: judged.key.elevation_deg,
            verdict: verdict_of(&self.job, &judged, &self.chosen),
            why: why_not(&self.job, &judged, &self.chosen),
        })
    }

    /// The point that the middle of the beam meets.
    fn target(&self, turn_deg: f64, tilt_deg: f64) -> Vec3 {
        let from = self.place();
        let axis = self.job.axis_at(turn_deg, tilt_deg);
        let met = self.survey.room.tracer.closest(from, axis);
        from + axis * met.map_or(OUT_OF_DOORS_M, |hit| hit.distance)
    }
}

/// The way of an aim, by what the middle of its beam meets.
fn way_at(scout: &Scout<'_>, target: Vec3, zoom_mm: f64, dress: HeadDress) -> Result<Way, Failure> {
    let Scout { job, survey, .. } = *scout;
    let from = survey.maps[0].position();
    let attempt = |route: Route| Attempt {
        route,
        place: 0,
        target,
        zoom_mm,
        dress,
    };
    let geometry = &survey.room.geometry;
    let axis = (target - from).try_normalize().unwrap_or(Vec3::Y);
    let met = survey.room.tracer.closest(from, axis).map(|hit| {
        let object = geometry.object[hit.triangle as usize] as usize;
        &geometry.objects[object]
    });
    let standing = || match met {
        Some(object) => Route::Standing {
            name: object.name.clone(),
        },
        None => Route::Open,
    };
    let route = match met.map(|object| object.kind) {
        Some(ObjectKind::RoomFace(face)) => Route::Bounce {
            face,
            corner_with: None,
        },
        Some(ObjectKind::Sitter(_)) => Route::Direct,
        _ => standing(),
    };
    let map = &survey.maps[0];
    let found = as_aimed(scout, map, &attempt(route)).or_else(|| {
        // Most of this beam lands elsewhere than its middle, so that no face carries it.
        as_aimed(scout, map, &attempt(standing()))
    });
    found.ok_or_else(|| Failure::NoLight {
        sitter: job.sitters[0].name.clone(),
    })
}
