//! The chosen way as an answer, with its reasons.

pub(crate) mod alternatives;
pub(crate) mod balance;
pub(crate) mod chart;
pub(crate) mod colouring;
pub(crate) mod following;
pub(crate) mod map;
pub(crate) mod notes;
pub(crate) mod reasons;
pub(crate) mod sensitivity;
pub(crate) mod uncertainty;
pub(crate) mod verdicts;

use crate::choose::confirm::confirm;
use crate::explain::alternatives::alternatives;
use crate::explain::balance::balance;
use crate::explain::chart::chart;
use crate::explain::colouring::colouring;
use crate::explain::notes::{balance_notes, cautions, daylight_note, notes};
use crate::explain::sensitivity::Moves;
use crate::explain::uncertainty::{paint_shares, uncertainty};
use crate::explain::verdicts::verdicts;
use crate::judge::exposure::exposure;
use crate::judge::judged::Judged;
use crate::judge::settings::settings_for;
use crate::place::survey::Survey;
use crate::ways::fine::Fine;
use crate::ways::light::FaceLight;
use crate::ways::way::{aim, own_reflectance};
use answer::{Answer, Evenness, Failure, FlashSetting, Job, RoomMap, SitterLevel};
use units::Stops;

/// Turns the chosen way into the answer.
pub(crate) fn explain(
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
    let (colouring, of_colours) = colouring(job, &fine.zones, ambients, &exposure, &mut settings);
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
    let balance = balance(job, &aim, &flash, &settings, &exposure);
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
    answer.notes.extend(daylight_note(job, off_computed));
    answer.notes.extend(notes(job, &answer, of_colours));
    answer.notes.extend(balance_notes(job, &answer));
    answer.cautions = cautions(job, &answer);
    Ok(answer)
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
