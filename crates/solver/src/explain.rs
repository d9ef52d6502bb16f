//! The chosen way as an answer, with its reasons.

pub(crate) mod alternatives;
pub(crate) mod balance;
pub(crate) mod chart;
pub(crate) mod colouring;
pub(crate) mod following;
pub(crate) mod lines;
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
use crate::explain::lines::lines;
use crate::explain::notes::{balance_notes, cautions, daylight_note, notes};
use crate::explain::sensitivity::Moves;
use crate::explain::uncertainty::{paint_shares, uncertainty};
use crate::explain::verdicts::verdicts;
use crate::judge::judged::Judged;
use crate::ways::fine::Fine;
use crate::ways::light::FaceLight;
use crate::ways::scout::Scout;
use answer::{Answer, Evenness, Failure, Job, RoomMap, SitterLevel, Uncertainty};
use units::Stops;

/// Turns the chosen way into the answer; `rest` are the other ways, the best first. Cells of the map and what would help
/// against a shortfall are not part of it yet.
pub(crate) fn explain(
    scout: &Scout<'_>,
    chosen: &Judged,
    rest: &[Judged],
    fine: &Fine,
    moves: Moves,
) -> Result<Answer, Failure> {
    let job = scout.job;
    let lines = lines(scout, &chosen.way, fine)?;
    let limits = chosen.limits.iter().chain(&lines.colour_limits);
    let mut answer = Answer {
        limits: limits.cloned().collect(),
        balance: balance(job, &lines.aim, &lines.flash, &lines.settings, &lines.exposure),
        chart: chart(job, fine, &lines),
        evenness: evenness(job, &fine.face, lines.dose),
        uncertainty: doubts(job, chosen, fine, &moves, lines.dose, lines.aim.legs_m),
        surfaces: verdicts(scout, chosen, &lines.key, rest, &lines.settings),
        referee: confirm(scout, fine, lines.dose),
        alternatives: alternatives(job, chosen, rest)?,
        settings: lines.settings,
        flash: lines.flash,
        aim: lines.aim,
        key: lines.key,
        colouring: lines.colouring,
        exposure: lines.exposure,
        moved: None,
        shortfall: None,
        sensitivities: moves.sensitivities,
        map: RoomMap {
            flash: chosen.way.flash,
            room: job.place.room.size,
            cells: Vec::new(),
        },
        notes: lines.not_met,
        cautions: Vec::new(),
    };
    let off_computed = fine.place.ambients.iter().find_map(|there| there.off_computed);
    answer.notes.extend(daylight_note(job, off_computed));
    answer.notes.extend(notes(job, &answer, lines.of_colours));
    answer.notes.extend(balance_notes(job, &answer));
    answer.cautions = cautions(job, &answer);
    Ok(answer)
}

/// How far the first frame may be off.
fn doubts(
    job: &Job,
    chosen: &Judged,
    fine: &Fine,
    moves: &Moves,
    dose: f64,
    legs_m: [f64; 2],
) -> Uncertainty {
    let place = &fine.place;
    let colour = job.bag.flash.colour();
    let shares = paint_shares(&place.room, &fine.light, &place.points.dome, colour, dose);
    uncertainty(job, &chosen.way.route, &shares, moves.per_size, legs_m)
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
