//! From the job to the answer.

use crate::alternatives::alternatives;
use crate::changes::Ground;
use crate::colouring::FlashZones;
use crate::exposing::{exposure, settings_for};
use crate::reading::{FaceLight, mired_between};
use crate::reasons::why_not;
use crate::score;
use crate::search::{self, Judged};
use crate::sensitivity::{self, Moves};
use crate::survey::{
    AmbientThere, FacePoints, Survey, ZONE_RAYS, ambients_there, background_light, background_points,
    face_points, furnished,
};
use crate::uncertainty::{paint_shares, uncertainty};
use crate::watch::{Watch, begin};
use crate::ways::{self, Beams, Way};
use crate::{balance, changes, colouring, notes};
use answer::{
    AgainstLight, Aim, Answer, ChartItem, ChartKind, ChartLine, Confirmation, Evenness, Exposure, Failure,
    FlashSetting, Job, KeyReading, LightName, RoomMap, Route, Settings, SitterLevel, Step, SurfaceVerdict,
    Verdict, WayId, Why,
};
use colour::Spectrum;
use glam::Vec3;
use light::HeadDress;
use scene::figure::LandmarkName;
use scene::{Panel, Stage, assemble};
use std::sync::Arc;
use transport::{
    Fineness, Guide, Meter, PlacedFlash, Reading, Room, SolvedLight, Source, read_light, read_meters,
};
use units::{LuminousExposure, Stops};

/// Paths of the referee for each meter.
const REFEREE_PATHS: usize = 1 << 14;
/// Ways this close behind the best, in points, are shown to the referee before one is called the answer.
const TOO_CLOSE: f64 = 0.4;
/// The referee is asked about this many ways at most.
const MOST_CONFIRMED: usize = 3;

/// Answers a job. The same job and seed always give the same answer.
///
/// # Errors
/// A place that cannot be built, no sitter in it, or no light that reaches the face. An ask that falls short
/// is answered: the answer says by how much, and what would help.
pub fn answer(job: &Job, seed: u64) -> Result<Answer, Failure> {
    answer_watched(job, seed, &|_| true)
}

/// [`answer`] for a person who waits: `watch` hears of every step and may stop the work by returning false.
///
/// # Errors
/// Those of [`answer`], and [`Failure::Stopped`].
pub fn answer_watched(job: &Job, seed: u64, watch: &Watch) -> Result<Answer, Failure> {
    let job = &colouring::wearing(job, None)?;
    let beams = Beams::of(job)?;
    let by = where_to_stand(job, &beams, seed, watch)?;
    if by != Vec3::ZERO {
        let moved = changes::moved(job, by);
        let mut answer = answer_here(&moved, &beams, seed, watch)?;
        answer.moved = Some(moved.sitters[0].stand);
        return Ok(answer);
    }
    answer_here(job, &beams, seed, watch)
}

/// Answers a job whose people stay where they are.
fn answer_here(job: &Job, beams: &Beams, seed: u64, watch: &Watch) -> Result<Answer, Failure> {
    begin(watch, Step::Solving)?;
    let mut survey = Survey::new(job, Fineness::operator_in(job.place.room.area()), seed)?;
    begin(watch, Step::Sweeping)?;
    let mut searched = searched(job, &survey, beams)?;
    // The gel is chosen on the best way with the bare flash; then every way is weighed anew with it.
    let bare_light = &first_usable(job, &searched.best).way.light;
    let gel = colouring::choose_gel(job, &survey, bare_light)?;
    let (gelled, gelled_beams);
    let (mut job, mut beams) = (job, beams);
    if gel.worn.is_some() {
        begin(watch, Step::Gelling)?;
        gelled = colouring::wearing(job, gel.worn)?;
        gelled_beams = Beams::of(&gelled)?;
        (job, beams) = (&gelled, &gelled_beams);
        searched = self::searched(job, &survey, beams)?;
    }
    let Searched {
        swept,
        judged,
        mut best,
    } = searched;
    zoom_gains(job, &survey, beams, &mut best);
    begin(watch, Step::Confirming)?;
    let (chosen_at, fine) = confirmed(job, &survey, &best, seed)?;
    let chosen = best.remove(chosen_at);
    let cells = search::map_cells(job, &swept, &judged, &chosen);
    begin(watch, Step::Doubting)?;
    let moves = sensitivity::moves(job, beams, &chosen.way, seed)?;
    let mut answer = finish(job, &survey, &chosen, &best, fine, moves, seed)?;
    answer.map.cells = cells;
    answer.notes.extend(gel.to_buy);
    if !chosen.met() {
        let mut ground = Ground {
            job,
            survey: &mut survey,
            beams,
            swept: &swept,
            seed,
            watch,
        };
        let all: Vec<&Judged> = [&chosen].into_iter().chain(&best).collect();
        answer.shortfall = Some(changes::shortfall(&mut ground, &all)?);
    }
    Ok(answer)
}

/// Every way that was computed, and the best of each kind.
struct Searched {
    swept: search::Swept,
    judged: Vec<Judged>,
    best: Vec<Judged>,
}

/// Goes through everything once, for the flash as it is.
fn searched(job: &Job, survey: &Survey, beams: &Beams) -> Result<Searched, Failure> {
    let swept = search::sweep(job, survey, beams);
    let judged = search::judge_all(job, survey, &swept)?;
    let best = search::best_of(job, survey, beams, judged.clone())?;
    if best.is_empty() {
        return Err(Failure::NoLight {
            sitter: job.sitters[0].name.clone(),
        });
    }
    Ok(Searched { swept, judged, best })
}

/// The best way that can be the answer, of a list that is not empty.
fn first_usable<'a>(job: &Job, best: &'a [Judged]) -> &'a Judged {
    best.iter()
        .find(|judged| search::usable(job, judged))
        .unwrap_or(&best[0])
}

/// How far, and which way, the people are moved: nowhere, unless that was allowed and serves clearly
/// better. Places about the first are compared on coarse solutions.
fn where_to_stand(job: &Job, beams: &Beams, seed: u64, watch: &Watch) -> Result<Vec3, Failure> {
    /// Points that a metre of moving people costs (ours): furniture, marks on the floor, another background.
    const PER_METRE: f64 = 0.5;
    let reach = job.ask.may_move_m;
    if reach <= 0.0 || job.sitters.is_empty() {
        return Ok(Vec3::ZERO);
    }
    let mut best: Option<((bool, f64), Vec3)> = None;
    for step in 0..=8 * 2 {
        begin(watch, Step::Standing)?;
        let by = match step {
            0 => Vec3::ZERO,
            _ => {
                let angle = ((step - 1) % 8) as f32 * std::f32::consts::FRAC_PI_4;
                let far = if step > 8 { reach } else { 0.5 * reach };
                Vec3::new(angle.cos(), angle.sin(), 0.0) * far
            }
        };
        let variant = changes::moved(job, by);
        let Ok(survey) = Survey::new(&variant, Fineness::SKETCH, seed) else {
            // No place for people to stand.
            continue;
        };
        let judged = search::judge_all(&variant, &survey, &search::sweep(&variant, &survey, beams))?;
        let found = search::best_of(&variant, &survey, beams, judged)?;
        if let Some(first) = found.first() {
            let (missed, points) = first.rank();
            let rank = (missed, points + PER_METRE * f64::from(by.length()));
            if best.is_none_or(|(held, _)| rank < held) {
                best = Some((rank, by));
            }
        }
    }
    Ok(best.map_or(Vec3::ZERO, |(_, by)| by))
}

/// Which way is the answer once the referee has been asked about those that are too close to call, and
/// that way in its finely solved room.
pub(crate) fn confirmed(
    job: &Job,
    survey: &Survey,
    best: &[Judged],
    seed: u64,
) -> Result<(usize, Fine), Failure> {
    let first = best
        .iter()
        .position(|judged| search::usable(job, judged))
        .unwrap_or(0);
    let (class, points) = best[first].rank();
    let close: Vec<usize> = (first..best.len())
        .filter(|&i| best[i].rank().0 == class && best[i].rank().1 < points + TOO_CLOSE)
        .filter(|&i| search::usable(job, &best[i]))
        .take(MOST_CONFIRMED)
        .collect();
    if close.len() < 2 {
        return Ok((first, fine(job, &best[first].way, seed)?));
    }
    let mut held: Option<((bool, f64), usize, Fine)> = None;
    // Ways that bring nothing into the place are read in one and the same.
    let mut bare: Option<Arc<FinePlace>> = None;
    for index in close {
        let mut way = best[index].way.clone();
        let aim = aim(job, &way);
        let panels = panels_of(job, &aim);
        let place = match &bare {
            Some(place) if panels.is_empty() => Arc::clone(place),
            _ => Arc::new(FinePlace::new(job, &panels, seed)?),
        };
        if panels.is_empty() {
            bare = Some(Arc::clone(&place));
        }
        let fine = fine_in(job, place, &way, &aim)?;
        referee_light(job, &fine, &mut way.light, seed);
        let rank = search::judge(job, survey, way)?.rank();
        let better = held
            .as_ref()
            .is_none_or(|(before, _, _)| (rank.0, rank.1) < (before.0, before.1));
        if better {
            held = Some((rank, index, fine));
        }
    }
    let (_, index, fine) = held.expect("at least two were asked about");
    Ok((index, fine))
}

/// What the referee reads of a way at the meters that decide.
fn referee_light(job: &Job, fine: &Fine, light: &mut FaceLight, seed: u64) {
    let points = &fine.place.points;
    let meters: Vec<Meter> = [points.dome]
        .into_iter()
        .chain(points.along)
        .chain(points.cheeks)
        .collect();
    let guide = Guide::new(&fine.place.room, &fine.light.radiosity);
    let radiosity = Some(fine.light.radiosity.as_slice());
    let readings = read_meters(
        &fine.place.room,
        &fine.source,
        Some(&guide),
        radiosity,
        &meters,
        REFEREE_PATHS / 2,
        seed,
    );
    let weights = job.bag.flash.colour().luminous_weights();
    let &[dome, x, y, z, left, right] = &readings[..] else {
        unreachable!("six meters were read")
    };
    let luminous = |reading: Reading| reading.mean.dot(&weights);
    light.dome = dome.mean;
    light.vector = Vec3::from_array([x, y, z].map(luminous));
    light.cheeks = [left, right].map(luminous);
}

/// What zooming from 50 to 105 mm does on each way.
fn zoom_gains(job: &Job, survey: &Survey, beams: &Beams, best: &mut [Judged]) {
    let (wide, long) = (ways::nearest_zoom(job, 50.0), ways::nearest_zoom(job, 105.0));
    if wide == long {
        return;
    }
    let colour = job.bag.flash.colour();
    for judged in best {
        if judged.way.dress != HeadDress::Bare {
            continue;
        }
        let first = |zoom: f64| {
            let way = match ways::pose_of(&judged.way) {
                Some(pose) => ways::compute_board(job, survey, beams, &pose, &[zoom]).pop(),
                None => ways::compute(job, survey, beams, &ways::with_zoom(&judged.way, zoom)),
            };
            way.map_or(f64::NAN, |w| f64::from(colour.luminous(&w.light.first)))
        };
        let gain = (first(long) / first(wide)).log2();
        judged.way.zoom_gain = gain.is_finite().then_some(gain);
    }
}

/// A place solved finely, with the boards that a way brings into it.
pub(crate) struct FinePlace {
    pub stage: Stage,
    pub room: Room,
    pub ambients: Vec<AmbientThere>,
    pub points: FacePoints,
}

impl FinePlace {
    fn new(job: &Job, panels: &[Panel], seed: u64) -> Result<FinePlace, Failure> {
        let stage = stage_with(job, panels)?;
        let fineness = Fineness::proof_in(job.place.room.area());
        let room = Room::new(stage.geometry.clone(), fineness, seed);
        let points = face_points(&stage, 0, job.viewpoint.position);
        let ambients = ambients_there(job, &stage, &room, &points);
        Ok(FinePlace {
            stage,
            room,
            ambients,
            points,
        })
    }
}

/// A way in its finely solved place.
pub(crate) struct Fine {
    pub place: Arc<FinePlace>,
    pub source: Source,
    pub light: SolvedLight,
    pub face: FaceLight,
    pub zones: FlashZones,
}

/// The scene of an answer: the place with its people, lamps and the held board, and the flash aimed.
///
/// # Errors
/// Those of building the scene or the beam.
pub fn scene_of(job: &Job, answer: &Answer) -> Result<(Stage, Source), Failure> {
    let job = &job.as_answered(answer);
    let aim = &answer.aim;
    Ok((
        stage_with(job, &panels_of(job, aim))?,
        aimed(job, aim, answer.flash.zoom_mm, answer.flash.dress)?,
    ))
}

/// The ambient lights of a job in a room that has been built: each source, its colour and the factor on
/// its unit strength that makes the model agree with the photographer's reading.
pub fn ambient_layers(
    job: &Job,
    stage: &Stage,
    room: &Room,
) -> Vec<(LightName, Source, colour::LightColour, f32)> {
    let points = face_points(stage, 0, job.viewpoint.position);
    ambients_there(job, stage, room, &points)
        .into_iter()
        .map(|there| (there.name, there.source, there.colour, there.scale))
        .collect()
}

/// The boards that a way brings into the place: a flag beside the head, and the board that is held.
fn panels_of(job: &Job, aim: &Aim) -> Vec<Panel> {
    let flag = aim
        .flagged
        .then(|| ways::flag_panel(aim.flash, job.sitters[0].face(), job.place.room.size));
    let held = match &aim.route {
        Route::HeldBoard {
            board,
            centre,
            normal,
            ..
        } => Some(ways::held_panel(job, *board, *centre, *normal)),
        _ => None,
    };
    flag.into_iter().chain(held).collect()
}

/// The place of a job with its people, lamps and these boards.
fn stage_with(job: &Job, panels: &[Panel]) -> Result<Stage, Failure> {
    let mut place = furnished(job);
    place.panels.extend_from_slice(panels);
    Ok(assemble(&place, &job.sitters)?)
}

/// The flash as it is aimed.
fn aimed(job: &Job, aim: &Aim, zoom_mm: f64, dress: HeadDress) -> Result<Source, Failure> {
    let beam = job.bag.flash.beam(zoom_mm, dress)?;
    let flash = PlacedFlash::aimed(beam, aim.flash, aim.target, job.bag.flash.window_of(dress));
    Ok(Source::Flash(flash))
}

/// A way in a finely solved place of its own.
pub(crate) fn fine(job: &Job, way: &Way, seed: u64) -> Result<Fine, Failure> {
    let aim = aim(job, way);
    let place = FinePlace::new(job, &panels_of(job, &aim), seed)?;
    fine_in(job, Arc::new(place), way, &aim)
}

/// A way in a finely solved place that holds all the boards it brings.
fn fine_in(job: &Job, place: Arc<FinePlace>, way: &Way, aim: &Aim) -> Result<Fine, Failure> {
    let source = aimed(job, aim, way.zoom_mm, way.dress)?;
    let FinePlace {
        stage, room, points, ..
    } = &*place;
    let light = room.solve(&source);
    let face = read_face(job, stage, room, &source, &light, way, points);
    let zones = FlashZones {
        dome: face.dome,
        cheeks: points
            .cheeks
            .map(|cheek| read_light(room, &source, &light, &cheek, ZONE_RAYS)),
        background: background_light(room, &source, &light, &background_points(job, stage, room)),
    };
    Ok(Fine {
        place,
        source,
        light,
        face,
        zones,
    })
}

/// Everything that the flash does to the faces, read from a finely solved room.
fn read_face(
    job: &Job,
    stage: &Stage,
    room: &Room,
    source: &Source,
    light: &SolvedLight,
    way: &Way,
    points: &FacePoints,
) -> FaceLight {
    let weights = job.bag.flash.colour().luminous_weights();
    let camera = job.viewpoint.position;
    let Source::Flash(flash) = source else {
        return way.light.clone();
    };
    let read = |meter: &Meter| read_light(room, source, light, meter, 4096);
    let luminous = |meter: &Meter| read(meter).dot(&weights);
    let direct = points.dome.read_direct(room, flash);
    let first_light = light.first_bounce(room);
    let first = match way.route {
        Route::Direct => Spectrum::splat(direct),
        _ => {
            let meter = points.dome;
            let with_spill = read_light(room, source, &first_light, &meter, 4096);
            with_spill.map(|v| (v - direct).max(0.0))
        }
    };
    let landmark = |name: LandmarkName| luminous(&points.landmark(name));
    FaceLight {
        dome: read(&points.dome),
        first,
        direct,
        vector: Vec3::from_array(std::array::from_fn(|i| luminous(&points.along[i]))),
        key_direction: way.light.key_direction,
        spill_vector: Vec3::ZERO,
        spill_cheeks: [0.0; 2],
        spill_forehead: 0.0,
        cheeks: points.cheeks.map(|meter| luminous(&meter)),
        forehead: landmark(LandmarkName::Forehead),
        sockets: 0.5 * (landmark(LandmarkName::EyeSocketLeft) + landmark(LandmarkName::EyeSocketRight)),
        background: way.light.background,
        others: (1..stage.sitters.len())
            .map(|i| luminous(&face_points(stage, i, camera).dome))
            .collect(),
        softness: way.light.softness,
        landmarks: points
            .landmarks
            .iter()
            .map(|(name, meter)| (*name, luminous(meter)))
            .collect(),
    }
}

/// Turns the chosen way into the answer.
fn finish(
    job: &Job,
    survey: &Survey,
    chosen: &Judged,
    rest: &[Judged],
    fine: Fine,
    moves: Moves,
    seed: u64,
) -> Result<Answer, Failure> {
    let colour = job.bag.flash.colour();
    let facing = survey.stage.sitters[0].facing;
    let aim = aim(job, &chosen.way);
    let dose = fine.face.dose(colour);
    let key = fine
        .face
        .reading(colour, &own_reflectance(job, &chosen.way.route), facing);
    let (mut settings, exposing_notes) = settings_for(job, survey, dose)?;
    let ambients = &fine.place.ambients;
    let (exposure, power, exact) = exposure(job, ambients, &settings, dose)?;
    let (colouring, of_colours) = colouring::colouring(job, &fine.zones, ambients, &exposure, &mut settings);
    let flash = FlashSetting {
        power,
        exact_stops_below_full: exact,
        zoom_mm: chosen.way.zoom_mm,
        dress: chosen.way.dress,
        in_hand: Stops(exact.min(power.stops_below_full())),
    };
    let off_computed = fine.place.ambients.iter().find_map(|there| there.off_computed);
    let chart = chart(job, &fine, &aim, &settings, &flash, &exposure, dose);
    let shares = paint_shares(
        &fine.place.room,
        &fine.light,
        &fine.place.points.dome,
        job.bag.flash.colour(),
        dose,
    );
    let uncertainty = uncertainty(job, &chosen.way.route, &shares, moves.per_size, aim.legs_m);
    let referee = confirm(job, &fine, dose, facing, seed);
    let evenness = evenness(job, &fine.face, dose);
    let surfaces = verdicts(job, survey, chosen, &key, rest, &settings);
    let alternatives = alternatives(job, survey, chosen, rest)?;
    let limits = chosen.limits.iter().chain(&colouring.limits).cloned().collect();
    let balance = balance::balance(job, &aim, &flash, &settings, &exposure);
    let mut answer = Answer {
        settings,
        balance,
        flash,
        aim,
        key,
        colouring,
        exposure,
        chart,
        evenness,
        uncertainty,
        surfaces,
        referee,
        moved: None,
        limits,
        shortfall: None,
        alternatives,
        sensitivities: moves.told,
        map: RoomMap {
            flash: chosen.way.flash,
            room: job.place.room.size,
            cells: Vec::new(),
        },
        notes: exposing_notes,
        cautions: Vec::new(),
    };
    answer.notes.extend(notes::daylight(job, off_computed));
    answer.notes.extend(notes::notes(job, &answer, of_colours));
    answer.notes.extend(balance::notes(job, &answer));
    answer.cautions = notes::cautions(job, &answer);
    Ok(answer)
}

/// Where the flash points on a way.
pub(crate) fn aim(job: &Job, way: &Way) -> Aim {
    let (face, facing) = (job.sitters[0].face(), job.sitters[0].face_direction());
    let axis = (way.target - way.flash).try_normalize().unwrap_or(Vec3::Y);
    let to_sitter = (face - way.flash).with_z(0.0).try_normalize().unwrap_or(Vec3::Y);
    let right = to_sitter.cross(Vec3::Z);
    let turn_deg = f64::from(axis.dot(right))
        .atan2(f64::from(axis.dot(to_sitter)))
        .to_degrees();
    let tilt_deg = f64::from(axis.z).clamp(-1.0, 1.0).asin().to_degrees();
    let to_camera = (job.viewpoint.position - face)
        .with_z(0.0)
        .try_normalize()
        .unwrap_or(facing);
    let from_sitter = match way.route {
        Route::Direct => way.flash - face,
        _ => way.target - face,
    };
    let legs_m = match way.route {
        Route::Direct => [f64::from((face - way.flash).length()), 0.0],
        _ => [
            f64::from((way.target - way.flash).length()),
            f64::from((face - way.target).length()),
        ],
    };
    Aim {
        route: way.route.clone(),
        flash: way.flash,
        target: way.target,
        target_above_eyes_m: f64::from(way.target.z - face.z),
        light_from_clock: clock(from_sitter, to_camera),
        turn_deg,
        tilt_deg,
        legs_m,
        flagged: way.flagged,
    }
}

/// Clock hour (0..12) seen from above, sitter in the middle and camera at 6.
///
/// Light from straight behind the camera is 6; from the camera's left is 9.
fn clock(from_sitter: Vec3, to_camera: Vec3) -> f64 {
    let bearing = |v: Vec3| f64::from(v.x).atan2(f64::from(v.y)).to_degrees();
    // Seen from above, clockwise is from y towards x; the camera's bearing is six o'clock.
    (6.0 + (bearing(from_sitter) - bearing(to_camera)) / 30.0).rem_euclid(12.0)
}

/// One line for each gain and loss; each is the difference of two computed levels, so that they add up.
fn chart(
    job: &Job,
    fine: &Fine,
    aim: &Aim,
    settings: &Settings,
    flash_line: &FlashSetting,
    exposure: &Exposure,
    dose: f64,
) -> Vec<ChartLine> {
    let level = |q: f64| {
        camera::flash_exposure(
            LuminousExposure(q.max(1e-12)),
            settings.aperture,
            settings.speed(),
        )
        .value()
    };
    let flash = match &fine.source {
        Source::Flash(flash) => flash,
        _ => return Vec::new(),
    };
    let line = |item: ChartItem, stops: f64| ChartLine {
        item,
        stops,
        kind: if stops < 0.0 {
            ChartKind::Loss
        } else {
            ChartKind::Gain
        },
    };
    let way = || WayId::of(&aim.route, flash_line.dress);
    let gel_loss = job.bag.flash.gel_loss_stops();
    let front = flash_line
        .dress
        .soft_front()
        .map_or(0.0, |front| front.loss_stops());
    let one_metre = level(flash.beam.axis_intensity_time().value()) + gel_loss;
    let path = aim.legs_m[0] + aim.legs_m[1];
    let travelled = one_metre - gel_loss - 2.0 * path.log2();
    let mut chart = vec![ChartLine {
        item: ChartItem::FullFlash {
            zoom_mm: flash_line.zoom_mm,
            aperture: settings.aperture,
            iso: settings.iso,
        },
        stops: one_metre + settings.nd.value() + front,
        kind: ChartKind::Start,
    }];
    if front > 0.0 {
        chart.push(line(ChartItem::Front { way: way() }, -front));
    }
    let nd = settings.nd;
    if nd.value() > 0.0 {
        chart.push(line(ChartItem::Filter { nd }, -nd.value()));
    }
    if let Some(gel) = job.bag.flash.gel() {
        let name = gel.name().to_owned();
        chart.push(line(ChartItem::Gel { name }, -gel_loss));
    }
    chart.push(line(
        ChartItem::Travel { metres: path },
        travelled - (one_metre - gel_loss),
    ));
    let whole = level(dose);
    if matches!(aim.route, Route::Direct) {
        let direct = level(f64::from(fine.face.direct));
        chart.push(line(ChartItem::PlaceInBeam, direct - travelled));
        chart.push(line(ChartItem::RoomSendsBack, whole - direct));
    } else {
        let colour = job.bag.flash.colour();
        let first = level(f64::from(colour.luminous(&fine.face.first)));
        let kept = surface_reflectance(job, &aim.route).log2();
        let keeps = ChartItem::Keeps {
            way: way(),
            share: kept.exp2(),
        };
        chart.push(line(keeps, kept));
        chart.push(line(ChartItem::Scatter, first - travelled - kept));
        let spill = f64::from(fine.face.direct);
        let without_spill = level((dose - spill).max(1e-12));
        chart.push(line(ChartItem::LaterBounces, without_spill - first));
        if spill > 0.0 && whole - without_spill > 5e-4 {
            chart.push(line(ChartItem::Spill, whole - without_spill));
        }
    }
    chart.push(line(
        ChartItem::Power {
            power: flash_line.power,
        },
        exposure.flash_alone.value() - whole,
    ));
    if let Some(ambient) = exposure.ambient_alone
        && ambient.value() > -12.0
    {
        // Light adds as amounts, so what a source adds depends on what is there before it; the order is the
        // file's, and the lines add up to the whole.
        let all_lx: f64 = fine.place.ambients.iter().map(|there| there.dome_lx).sum();
        let mut so_far = exposure.flash_alone.value().exp2();
        for there in &fine.place.ambients {
            let more = so_far + ambient.value().exp2() * there.dome_lx / all_lx;
            let light = there.name.clone();
            chart.push(line(ChartItem::Ambient { light }, (more / so_far).log2()));
            so_far = more;
        }
    }
    let sum = chart.iter().map(|l| l.stops).sum();
    chart.push(ChartLine {
        item: ChartItem::AtTheFace,
        stops: sum,
        kind: ChartKind::Result,
    });
    chart
}

/// Luminous reflectance, under the flash, of what carries the light.
fn surface_reflectance(job: &Job, route: &Route) -> f64 {
    f64::from(job.bag.flash.colour().luminous(&own_reflectance(job, route))).max(1e-4)
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

/// Asks the unbiased path tracer about the chosen aim.
fn confirm(job: &Job, fine: &Fine, dose: f64, facing: Vec3, seed: u64) -> Confirmation {
    let guide = Guide::new(&fine.place.room, &fine.light.radiosity);
    let points = &fine.place.points;
    let meters: Vec<Meter> = [points.dome].into_iter().chain(points.along).collect();
    let weights = job.bag.flash.colour().luminous_weights();
    let light = Some(fine.light.radiosity.as_slice());
    let readings = read_meters(
        &fine.place.room,
        &fine.source,
        Some(&guide),
        light,
        &meters,
        REFEREE_PATHS,
        seed,
    );
    let luminous = |i: usize| f64::from(readings[i].mean.dot(&weights));
    let error = f64::from(readings[0].standard_error.dot(&weights));
    let vector = Vec3::new(luminous(1) as f32, luminous(2) as f32, luminous(3) as f32);
    let (azimuth_deg, elevation_deg) = crate::reading::angles(vector, facing);
    let dome = luminous(0).max(1e-12);
    Confirmation {
        difference: Stops((dome / dose.max(1e-12)).log2()),
        standard_error: (error / dome) / std::f64::consts::LN_2,
        azimuth_deg,
        elevation_deg,
    }
}

/// Every sitter against the first; `None` for one sitter alone.
fn evenness(job: &Job, face: &FaceLight, dose: f64) -> Option<Evenness> {
    if face.others.is_empty() {
        return None;
    }
    let doses = std::iter::once(dose).chain(face.others.iter().map(|&other| f64::from(other)));
    let each: Vec<SitterLevel> = job
        .sitters
        .iter()
        .zip(doses)
        .map(|(sitter, there)| SitterLevel {
            name: sitter.name.clone(),
            level: Stops((there.max(1e-12) / dose.max(1e-12)).log2()),
        })
        .collect();
    let by_level = |a: &&SitterLevel, b: &&SitterLevel| a.level.value().total_cmp(&b.level.value());
    let brightest = each.iter().max_by(by_level)?;
    let darkest = each.iter().min_by(by_level)?;
    Some(Evenness {
        spread: brightest.level - darkest.level,
        brightest: brightest.name.clone(),
        darkest: darkest.name.clone(),
        each,
    })
}

/// The chosen way and every other, each with one line.
fn verdicts(
    job: &Job,
    survey: &Survey,
    chosen: &Judged,
    key: &KeyReading,
    rest: &[Judged],
    settings: &Settings,
) -> Vec<SurfaceVerdict> {
    let mut verdicts = vec![verdict(
        job,
        survey,
        chosen,
        key.clone(),
        Verdict::Chosen,
        Why::Chosen {
            noted: !chosen.notes.is_empty(),
        },
        settings,
    )];
    let chosen_face = face_of(&chosen.way);
    for judged in rest {
        let kind = search::verdict_of(job, judged, chosen);
        let face = face_of(&judged.way);
        let same_face = face.is_some() && face == chosen_face;
        // A corner is another way of using its face: beside that face it is only worth a line when it would do.
        let beside_its_face = is_corner(&judged.way)
            && rest
                .iter()
                .any(|other| face_of(&other.way) == face && !is_corner(&other.way));
        if same_face || (beside_its_face && kind != Verdict::Possible) {
            continue;
        }
        let why = why_not(job, judged, chosen);
        verdicts.push(verdict(
            job,
            survey,
            judged,
            judged.key.clone(),
            kind,
            why,
            settings,
        ));
    }
    verdicts
}

fn verdict(
    job: &Job,
    survey: &Survey,
    judged: &Judged,
    key: KeyReading,
    kind: Verdict,
    why: Why,
    settings: &Settings,
) -> SurfaceVerdict {
    let against_ambient = survey
        .ambients
        .iter()
        .map(|there| AgainstLight {
            light: there.name.clone(),
            apart: mired_between(there.kelvin, key.cast.kelvin),
        })
        .collect();
    let dose = judged.way.light.dose(job.bag.flash.colour());
    SurfaceVerdict {
        way: judged.way.id(),
        route: judged.way.route.clone(),
        verdict: kind,
        why,
        target: judged.way.target,
        zoom_mm: judged.way.zoom_mm,
        power_for_flash_alone: Some(score::full_power(dose, settings.aperture, settings.speed())),
        zoom_gain: judged.way.zoom_gain,
        against_ambient,
        score: judged.faults.clone(),
        key: Some(key),
    }
}

/// Whether two faces share the key of a way.
fn is_corner(way: &Way) -> bool {
    matches!(
        way.route,
        Route::Bounce {
            corner_with: Some(_),
            ..
        }
    )
}

/// The face that a bare bounce aims at.
fn face_of(way: &Way) -> Option<scene::Face> {
    match (&way.route, way.dress) {
        (Route::Bounce { face, .. }, HeadDress::Bare) => Some(*face),
        _ => None,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn clock_hours_are_seen_from_above_with_the_camera_at_six() {
        let check = |from: Vec3, expected: f64| {
            let off = (clock(from, Vec3::NEG_Y) - expected + 6.0).rem_euclid(12.0) - 6.0;
            assert!(off.abs() < 1e-5, "{from}: {off}");
        };
        check(Vec3::NEG_Y, 6.0);
        check(Vec3::NEG_X, 9.0);
        check(Vec3::X, 3.0);
        check(Vec3::Y, 0.0);
        check(Vec3::new(-1.0, -1.0, 0.0), 7.5);
    }
}
