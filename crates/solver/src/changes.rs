//! A useful no: what is short, and the smallest changes that would make the ask possible.
//!
//! Every kind of change is a ladder of growing amounts. A ladder is climbed until the whole search, run
//! again on the changed job, meets everything that is insisted on. The first rung that does is the
//! smallest change of its kind; changes are then told by how much they ask of the photographer and the
//! picture. How much that is, in points like those of the score, is ours.

use crate::answer::{Change, Limit, LimitKind, Shortfall};
use crate::limits::{missed_words, weight};
use crate::search::{self, Judged, Swept};
use crate::step::{Step, Watch, begin};
use crate::survey::Survey;
use crate::ways::Beams;
use crate::{AmbientWish, FlashStand, Job, Side, Softness, SolverError};
use glam::Vec3;
use light::HeadDress;
use transport::Fineness;
use units::{FNumber, Iso, Metres, Millimetres, MiredShift, Ratio, Stops};

/// Steps in which a sitter is moved, in metres, and the furthest.
const MOVE_STEP_M: f32 = 0.25;
const MOST_MOVED_M: f32 = 1.5;
/// Ways whose misses are considered.
const CONSIDERED: usize = 6;
/// What a way of the sweep may miss, in points, and still be slid into place.
const OUT_OF_REACH: f64 = 1.5;
/// No more changes than this are told.
const MOST_TOLD: usize = 4;

/// One rung: a job that has been changed, and what to call it.
struct Rung {
    job: Job,
    what: String,
    amount: f64,
    unit: &'static str,
    effort: f64,
    cost: String,
}

/// A kind of change with its growing amounts.
struct Ladder {
    rungs: Vec<Rung>,
    /// Whether the place must be solved again, because something in it moves.
    new_place: bool,
    /// Whether every rung allows all that the one below allows, so that the lowest that helps can be found
    /// by halving.
    nested: bool,
}

/// What is there to judge a changed job by.
pub(crate) struct Ground<'a> {
    pub job: &'a Job,
    pub survey: &'a mut Survey,
    pub beams: &'a Beams,
    pub swept: &'a Swept,
    pub seed: u64,
    pub watch: &'a Watch<'a>,
}

/// The shortfall of an ask that none of these ways meets, with the changes that would help.
///
/// `best` holds the best way of each kind, the answer among them. What is said to be short is what the way
/// with the fewest misses misses: that one is nearest to being possible. Changes are sought for whatever any
/// of the better ways misses.
pub(crate) fn shortfall(ground: &mut Ground, best: &[&Judged]) -> Result<Shortfall, SolverError> {
    let mut nearest: Vec<&Judged> = best.to_vec();
    nearest.sort_by(|a, b| {
        let misses = |judged: &Judged| judged.limits.iter().filter(|l| !l.met()).count();
        misses(a).cmp(&misses(b)).then(a.missed().total_cmp(&b.missed()))
    });
    nearest.truncate(CONSIDERED);
    let Some(first) = nearest.first() else {
        return Err(SolverError::NoLight {
            sitter: ground.job.sitters[0].name.clone(),
        });
    };
    let mut binding: Vec<Limit> = first.limits.iter().filter(|l| !l.met()).cloned().collect();
    binding.sort_by(|a, b| weight(b).total_cmp(&weight(a)));
    let missed: Vec<String> = binding.iter().take(2).map(missed_words).collect();
    let words = format!(
        "This ask cannot be met as it stands. Nearest to it: {}, {}.",
        crate::words::way_name(&first.way),
        missed.join(", and ")
    );
    let mut changes = Vec::new();
    let mut tried = Vec::new();
    for ladder in ladders(ground.job, &nearest) {
        match climb(ground, &ladder)? {
            Some(change) => changes.push(change),
            None => tried.extend(ladder.rungs.last().map(|rung| rung.what.clone())),
        }
    }
    changes.sort_by(|a, b| a.effort.total_cmp(&b.effort));
    changes.truncate(MOST_TOLD);
    Ok(Shortfall {
        words,
        binding,
        changes,
        tried,
    })
}

/// The first rung that makes the ask possible.
fn climb(ground: &mut Ground, ladder: &Ladder) -> Result<Option<Change>, SolverError> {
    let mut first: Option<(usize, Judged)> = None;
    if ladder.nested {
        // The highest rung says whether there is anything to look for.
        let (mut low, mut high) = (0, ladder.rungs.len());
        let mut at = high - 1;
        while low < high {
            match met_on(ground, ladder, at)? {
                Some(found) => {
                    first = Some((at, found));
                    high = at;
                }
                None => low = at + 1,
            }
            at = (low + high) / 2;
        }
    } else {
        for index in 0..ladder.rungs.len() {
            if let Some(found) = met_on(ground, ladder, index)? {
                first = Some((index, found));
                break;
            }
        }
    }
    let Some((index, found)) = first else {
        return Ok(None);
    };
    let rung = &ladder.rungs[index];
    Ok(Some(Change {
        what: rung.what.clone(),
        amount: rung.amount,
        unit: rung.unit,
        effort: rung.effort,
        cost: rung.cost.clone(),
        then: then_words(&rung.job, ground.survey, &found)?,
        job: Box::new(rung.job.clone()),
    }))
}

/// The best way on a rung, if it meets everything.
fn met_on(ground: &mut Ground, ladder: &Ladder, index: usize) -> Result<Option<Judged>, SolverError> {
    begin(ground.watch, Step::Changing)?;
    let job = &ladder.rungs[index].job;
    let found = if ladder.new_place {
        best_in_new_place(job, ground)?
    } else {
        best_here(job, ground)?
    };
    Ok(found.filter(Judged::met))
}

/// The best way of a changed job in the same place.
fn best_here(job: &Job, ground: &mut Ground) -> Result<Option<Judged>, SolverError> {
    let dimmed = dimming(ground.job, job);
    ground.survey.scale_ambient(dimmed);
    let judged = search::judge_all(job, ground.survey, ground.swept);
    let best = judged.and_then(|all| {
        // A compass search slides an aim about; it does not make up for much.
        if all.iter().all(|judged| judged.missed() > OUT_OF_REACH) {
            return Ok(Vec::new());
        }
        search::best_of(job, ground.survey, ground.beams, all)
    });
    ground.survey.scale_ambient(1.0 / dimmed);
    Ok(best?.into_iter().next())
}

/// The factor by which a changed job's ambient is weaker.
fn dimming(before: &Job, after: &Job) -> f64 {
    match (before.ambients.first(), after.ambients.first()) {
        (Some(a), Some(b)) => b.reading.stops_over(a.reading).exp2(),
        _ => 1.0,
    }
}

/// The best way where something in the place has changed: tried on a sketch first, then solved in full.
fn best_in_new_place(job: &Job, ground: &Ground) -> Result<Option<Judged>, SolverError> {
    let solve = |fineness: Fineness| -> Result<Option<Judged>, SolverError> {
        let Ok(survey) = Survey::new(job, fineness, ground.seed) else {
            // A place where people cannot stand is no change worth telling.
            return Ok(None);
        };
        let swept = search::sweep(job, &survey, ground.beams);
        let judged = search::judge_all(job, &survey, &swept)?;
        Ok(search::best_of(job, &survey, ground.beams, judged)?
            .into_iter()
            .next())
    };
    match solve(Fineness::SKETCH)? {
        Some(sketch) if sketch.missed() < 1.0 => solve(Fineness::operator_in(job.place.room.area())),
        other => Ok(other.filter(|_| false)),
    }
}

/// "left wall, f/4 · 1/160 · ISO 800, 1/4, 1.2 stops in hand".
fn then_words(job: &Job, survey: &Survey, found: &Judged) -> Result<String, SolverError> {
    let dose = found.way.light.dose(job.bag.flash.colour());
    let (settings, _) = crate::exposing::settings_for(job, survey, dose)?;
    let power = crate::exposing::settable_power(job, found.power)?;
    Ok(format!(
        "{}, {} · {} · {}, {power} at zoom {:.0}, {:.1} stops in hand",
        crate::words::way_name(&found.way),
        settings.aperture,
        settings.shutter,
        crate::balance::speed_words(&settings),
        found.way.zoom_mm,
        found.power.max(0.0),
    ))
}

/// The ladders that can help with what these ways miss, the nearest way first.
fn ladders(job: &Job, nearest: &[&Judged]) -> Vec<Ladder> {
    let missed: Vec<Limit> = nearest
        .iter()
        .flat_map(|judged| judged.limits.iter().filter(|l| !l.met()).cloned())
        .collect();
    let binding = missed.as_slice();
    let chosen = nearest[0];
    let binds = |kinds: &[LimitKind]| binding.iter().any(|l| kinds.contains(&l.kind));
    let mut ladders = Vec::new();
    let mut add = |rungs: Vec<Rung>, nested: bool| {
        if !rungs.is_empty() {
            ladders.push(Ladder {
                rungs,
                new_place: false,
                nested,
            });
        }
    };
    if binds(&[LimitKind::Power, LimitKind::Recycle]) {
        add(faster(job), false);
        add(wider(job), false);
        add(less_in_hand(job), true);
        add(longer_wait(job), true);
    }
    if binds(&[LimitKind::LeastPower]) || (binds(&[LimitKind::Ambient]) && wants_less_ambient(job)) {
        add(narrower(job), false);
        add(slower(job), false);
    }
    if binds(&[LimitKind::Ambient]) {
        add(dimmer(job), false);
    }
    if binds(&[LimitKind::Cast]) {
        add(warmer_skin(job), true);
    }
    if binds(&[LimitKind::GreenMagenta]) {
        add(any_skin(job), true);
    }
    if binds(&[LimitKind::Direction]) {
        add(wider_angle(job), true);
        add(either_side(job), true);
    }
    if binds(&[LimitKind::Height]) {
        add(other_height(job, chosen), false);
    }
    if binds(&[LimitKind::Softness]) {
        add(any_softness(job), true);
    }
    if binds(&[LimitKind::Ratio]) {
        add(other_ratio(job, binding), false);
    }
    if binds(&[LimitKind::Evenness]) {
        add(less_even(job), true);
    }
    if binds(&[LimitKind::Background]) {
        add(other_background(job, binding), false);
    }
    ladders.extend(helpers(job));
    ladders.push(off_camera(job));
    ladders.push(moved_sitter(job, chosen));
    ladders.retain(|ladder| !ladder.rungs.is_empty());
    ladders
}

fn changed(job: &Job, change: impl FnOnce(&mut Job)) -> Job {
    let mut job = job.clone();
    change(&mut job);
    job
}

/// A higher speed: the one insisted on, or the highest that the photographer will use.
fn faster(job: &Job) -> Vec<Rung> {
    let from = job.ask.iso.unwrap_or(job.body.most_iso);
    let rungs = Iso::series().filter(|iso| iso.stops_faster_than(from).value() > 0.1);
    rungs
        .take(12)
        .map(|iso| {
            let stops = iso.stops_faster_than(from).value();
            let grainy = (iso.value() / 1600.0).log2().max(0.0).min(stops);
            Rung {
                job: changed(job, |j| {
                    j.ask.iso = job.ask.iso.map(|_| iso);
                    j.body.most_iso = Iso::new(j.body.most_iso.value().max(iso.value())).unwrap_or(iso);
                }),
                what: if job.ask.iso.is_some() {
                    format!("raise the speed to {iso}")
                } else {
                    format!("allow speeds up to {iso}")
                },
                amount: stops,
                unit: "stops",
                effort: 0.3 * stops + 0.5 * grainy,
                cost: format!(
                    "{stops:.1} stops more noise; the ambient rises with it unless the shutter follows"
                ),
            }
        })
        .collect()
}

/// A lower speed, for too much light.
fn slower(job: &Job) -> Vec<Rung> {
    let Some(from) = job.ask.iso else {
        return Vec::new();
    };
    let mut lower: Vec<Iso> = Iso::series()
        .filter(|iso| {
            iso.stops_faster_than(from).value() < -0.1 && iso.value() >= job.body.least_iso.value() - 0.5
        })
        .collect();
    lower.sort_by(|a, b| b.value().total_cmp(&a.value()));
    lower
        .into_iter()
        .take(12)
        .map(|iso| {
            let stops = -iso.stops_faster_than(from).value();
            Rung {
                job: changed(job, |j| j.ask.iso = Some(iso)),
                what: format!("lower the speed to {iso}"),
                amount: stops,
                unit: "stops",
                effort: 0.2 * stops,
                cost: format!("{stops:.1} stops more of the flash"),
            }
        })
        .collect()
}

fn wider(job: &Job) -> Vec<Rung> {
    let Some(from) = job.ask.aperture else {
        return Vec::new();
    };
    let mut wider: Vec<FNumber> = FNumber::series()
        .filter(|f| f.stops_darker_than(from).value() < -0.1 && f.value() >= job.body.widest.value() - 0.01)
        .collect();
    wider.sort_by(|a, b| b.value().total_cmp(&a.value()));
    wider
        .into_iter()
        .map(|aperture| {
            let stops = -aperture.stops_darker_than(from).value();
            Rung {
                job: changed(job, |j| j.ask.aperture = Some(aperture)),
                what: format!("open up to {aperture}"),
                amount: stops,
                unit: "stops",
                effort: 0.5 * stops,
                cost: depth_words(job, from, aperture),
            }
        })
        .collect()
}

fn narrower(job: &Job) -> Vec<Rung> {
    let Some(from) = job.ask.aperture else {
        return Vec::new();
    };
    let darker = FNumber::series().filter(|f| {
        let stops = f.stops_darker_than(from).value();
        stops > 0.1 && f.value() <= 22.5
    });
    darker
        .map(|aperture| {
            let stops = aperture.stops_darker_than(from).value();
            Rung {
                job: changed(job, |j| j.ask.aperture = Some(aperture)),
                what: format!("stop down to {aperture}"),
                amount: stops,
                unit: "stops",
                effort: 0.35 * stops,
                cost: format!(
                    "{}; {stops:.1} stops more of the flash",
                    depth_words(job, from, aperture)
                ),
            }
        })
        .collect()
}

/// What another aperture does to the depth that is sharp.
fn depth_words(job: &Job, from: FNumber, to: FNumber) -> String {
    let distance = f64::from((job.sitters[0].face() - job.viewpoint.position).length());
    let depth = |aperture: FNumber| -> Option<f64> {
        let setting = camera::Focus {
            focal: Millimetres::new(f64::from(job.viewpoint.focal_mm)).ok()?,
            aperture,
            distance: Metres::new(distance).ok()?,
        };
        Some(setting.limits(camera::CIRCLE_OF_CONFUSION_MM).depth_m())
    };
    match (depth(from), depth(to)) {
        (Some(a), Some(b)) if a.is_finite() && b.is_finite() => {
            format!("{:.0} cm are sharp instead of {:.0} cm", b * 100.0, a * 100.0)
        }
        _ => "another depth of field".to_owned(),
    }
}

fn less_in_hand(job: &Job) -> Vec<Rung> {
    let from = job.ask.in_hand.value();
    let thirds = (from * 3.0).ceil() as i32;
    (1..=thirds)
        .map(|third| {
            let left = (from - f64::from(third) / 3.0).max(0.0);
            Rung {
                job: changed(job, |j| j.ask.in_hand = Stops(left)),
                what: format!("keep only {left:.1} stops in hand"),
                amount: from - left,
                unit: "stops",
                effort: 0.6 * (from - left),
                cost: format!(
                    "the flash is ready after about {:.1} s instead of {:.1} s, gets warmer, and nothing is left for a cloud or a darker suit",
                    job.bag.flash.recycle_s(left),
                    job.bag.flash.recycle_s(from)
                ),
            }
        })
        .collect()
}

fn longer_wait(job: &Job) -> Vec<Rung> {
    let Some(from) = job.ask.recycle_s else {
        return Vec::new();
    };
    (1..=36)
        .map(|sixth| {
            let factor = (f64::from(sixth) / 6.0).exp2();
            let wait = from * factor;
            Rung {
                job: changed(job, |j| j.ask.recycle_s = Some(wait)),
                what: format!("wait {wait:.1} s between frames"),
                amount: factor.log2(),
                unit: "stops",
                effort: 0.4 * factor.log2(),
                cost: format!("{:.1} s longer between frames", wait - from),
            }
        })
        .collect()
}

fn wants_less_ambient(job: &Job) -> bool {
    !matches!(job.ask.ambient, AmbientWish::Any)
}

fn dimmer(job: &Job) -> Vec<Rung> {
    // Nobody can turn the sky down.
    if job.ambients.is_empty() || job.outdoors.is_some() {
        return Vec::new();
    }
    (1..=18)
        .map(|third| {
            let stops = f64::from(third) / 3.0;
            Rung {
                job: changed(job, |j| {
                    for ambient in &mut j.ambients {
                        ambient.reading = ambient.reading.dimmed(stops);
                    }
                }),
                what: format!("bring the ambient down by {stops:.1} stops: curtains, fewer lamps"),
                amount: stops,
                unit: "stops",
                effort: 0.3 + 0.15 * stops,
                cost: "the room is dimmer to work in; pupils open".to_owned(),
            }
        })
        .collect()
}

fn warmer_skin(job: &Job) -> Vec<Rung> {
    let from = job.ask.cast_limit.value();
    (1..=24)
        .map(|step| {
            let more = 5.0 * f64::from(step);
            Rung {
                job: changed(job, |j| j.ask.cast_limit = MiredShift(from + more)),
                what: format!("let the skin be up to {:.0} mired off", from + more),
                amount: more,
                unit: "mired",
                effort: more / 20.0,
                cost: "a cast on skin that white balance takes out only for all the light together"
                    .to_owned(),
            }
        })
        .collect()
}

fn any_skin(job: &Job) -> Vec<Rung> {
    vec![Rung {
        job: changed(job, |j| j.ask.neutral_skin = false),
        what: "let the skin take the colour of the surface".to_owned(),
        amount: 1.0,
        unit: "wish",
        effort: 3.0,
        cost: "green or magenta on skin".to_owned(),
    }]
}

fn wider_angle(job: &Job) -> Vec<Rung> {
    let from = job.ask.key.azimuth_tolerance_deg;
    (1..=18)
        .map(|step| {
            let more = 5.0 * f64::from(step);
            Rung {
                job: changed(job, |j| j.ask.key.azimuth_tolerance_deg = from + more),
                what: format!("let the key be up to {:.0}° off its angle", from + more),
                amount: more,
                unit: "degrees",
                effort: more / 12.0,
                cost: "another pattern on the face than the one asked for".to_owned(),
            }
        })
        .collect()
}

fn either_side(job: &Job) -> Vec<Rung> {
    let Some(side) = job.ask.key.side else {
        return Vec::new();
    };
    let other = match side {
        Side::Left => "right",
        Side::Right => "left",
    };
    vec![Rung {
        job: changed(job, |j| j.ask.key.side = None),
        what: format!("let the key come from camera {other}"),
        amount: 1.0,
        unit: "side",
        effort: 1.2,
        cost: "the other half of the face is lit".to_owned(),
    }]
}

fn other_height(job: &Job, chosen: &Judged) -> Vec<Rung> {
    let from = job.ask.key.elevation_deg;
    let found = chosen.limits.iter().find(|l| l.kind == LimitKind::Height);
    let towards = found.map_or(1.0, |l| (l.found - from).signum());
    (1..=12)
        .map(|step| {
            let more = 5.0 * f64::from(step);
            Rung {
                job: changed(job, |j| j.ask.key.elevation_deg = from + towards * more),
                what: format!("take the key from {:.0}° above the eyes", from + towards * more),
                amount: more,
                unit: "degrees",
                effort: more / 12.0,
                cost: "shadows fall at another slope than asked".to_owned(),
            }
        })
        .collect()
}

fn any_softness(job: &Job) -> Vec<Rung> {
    vec![Rung {
        job: changed(job, |j| j.ask.softness = Softness::Any),
        what: match job.ask.softness {
            Softness::Hard => "accept soft light".to_owned(),
            _ => "accept hard light".to_owned(),
        },
        amount: 1.0,
        unit: "wish",
        effort: 1.5,
        cost: "another edge to every shadow".to_owned(),
    }]
}

fn other_ratio(job: &Job, binding: &[Limit]) -> Vec<Rung> {
    let (Some(ratio), Some(limit)) = (job.ask.ratio, binding.iter().find(|l| l.kind == LimitKind::Ratio))
    else {
        return Vec::new();
    };
    let towards = limit.found.signum();
    (1..=18)
        .filter_map(|step| {
            let stops = f64::from(step) / 6.0;
            let value = ratio.value() * (towards * stops).exp2();
            let wish = Ratio::new(value.max(1.0)).ok()?;
            Some(Rung {
                job: changed(job, |j| j.ask.ratio = Some(wish)),
                what: format!("settle for a ratio of {value:.1}:1"),
                amount: stops,
                unit: "stops",
                effort: stops / 0.7,
                cost: if towards > 0.0 {
                    "deeper shadows"
                } else {
                    "flatter modelling"
                }
                .to_owned(),
            })
        })
        .collect()
}

fn less_even(job: &Job) -> Vec<Rung> {
    let Some(from) = job.ask.evenness else {
        return Vec::new();
    };
    (1..=18)
        .map(|step| {
            let more = f64::from(step) / 6.0;
            let most = from.value() + more;
            Rung {
                job: changed(job, |j| j.ask.evenness = Some(Stops(most))),
                what: format!("let the faces differ by {most:.1} stops"),
                amount: more,
                unit: "stops",
                effort: more / 0.5,
                cost: "the faces furthest from the light need lifting afterwards".to_owned(),
            }
        })
        .collect()
}

fn other_background(job: &Job, binding: &[Limit]) -> Vec<Rung> {
    let (Some(from), Some(limit)) = (
        job.ask.background,
        binding.iter().find(|l| l.kind == LimitKind::Background),
    ) else {
        return Vec::new();
    };
    let towards = (limit.found - from.value()).signum();
    (1..=30)
        .map(|step| {
            let stops = f64::from(step) / 6.0;
            let wish = from.value() + towards * stops;
            Rung {
                job: changed(job, |j| j.ask.background = Some(Stops(wish))),
                what: format!("settle for a background at {wish:+.1} stops"),
                amount: stops,
                unit: "stops",
                effort: stops / 0.7,
                cost: if towards > 0.0 {
                    "a brighter background"
                } else {
                    "a darker background"
                }
                .to_owned(),
            }
        })
        .collect()
}

/// Someone to hold a board that is in the bag, or a white board and someone.
fn helpers(job: &Job) -> Vec<Ladder> {
    if job.bag.helpers > 0 || job.bag.boards.is_empty() || !job.bag.dresses.contains(&HeadDress::Bare) {
        return Vec::new();
    }
    let name = job.bag.boards[0].name.clone();
    vec![Ladder {
        rungs: vec![Rung {
            job: changed(job, |j| j.bag.helpers = 1),
            what: format!("have someone hold the {name}"),
            amount: 1.0,
            unit: "helpers",
            effort: 0.7,
            cost: "a pair of hands for as long as it takes".to_owned(),
        }],
        new_place: true,
        nested: false,
    }]
}

/// The flash off the camera.
fn off_camera(job: &Job) -> Ladder {
    let free = job.ask.stand != FlashStand::Anywhere;
    let has_hands = job.bag.stand || job.bag.helpers > 0;
    let rungs = if free {
        vec![Rung {
            job: changed(job, |j| {
                j.ask.stand = FlashStand::Anywhere;
                j.bag.stand = j.bag.stand || !has_hands;
            }),
            what: if has_hands {
                "take the flash off the camera".to_owned()
            } else {
                "put the flash on a stand, off the camera".to_owned()
            },
            amount: 1.0,
            unit: "stand",
            effort: if has_hands { 0.5 } else { 0.8 },
            cost: "a trigger, and a stand to weigh down or a hand to hold it".to_owned(),
        }]
    } else {
        Vec::new()
    };
    Ladder {
        rungs,
        new_place: true,
        nested: false,
    }
}

/// The sitter nearer to what carries the light.
fn moved_sitter(job: &Job, chosen: &Judged) -> Ladder {
    let face = job.sitters[0].face();
    let towards = (chosen.way.target - face)
        .with_z(0.0)
        .try_normalize()
        .unwrap_or(Vec3::ZERO);
    let direct = matches!(chosen.way.route, crate::Route::Direct);
    let steps = (MOST_MOVED_M / MOVE_STEP_M) as usize;
    let rungs = if direct || towards == Vec3::ZERO || job.sitters.len() > 1 {
        Vec::new()
    } else {
        (1..=steps)
            .map(|step| {
                let metres = step as f32 * MOVE_STEP_M;
                Rung {
                    job: moved(job, towards * metres),
                    what: format!(
                        "move the sitter {}",
                        crate::words::way_to_move(job, towards * metres)
                    ),
                    amount: f64::from(metres),
                    unit: "m",
                    effort: 0.5 + 0.6 * f64::from(metres),
                    cost: "another background behind the head; turn the camera with them".to_owned(),
                }
            })
            .collect()
    };
    Ladder {
        rungs,
        new_place: true,
        nested: false,
    }
}

/// A job with everyone, and what the camera looks at, moved.
pub(crate) fn moved(job: &Job, by: Vec3) -> Job {
    changed(job, |j| {
        for sitter in &mut j.sitters {
            sitter.stand += by;
        }
        j.viewpoint.look_at += by;
    })
}
