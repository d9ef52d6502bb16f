//! The chosen way as an answer, with its reasons.

pub(crate) mod balance;
pub(crate) mod beyond_face;
pub(crate) mod chart;
pub(crate) mod colouring;
pub(crate) mod following;
pub(crate) mod highlights;
pub(crate) mod in_picture;
pub(crate) mod lines;
pub(crate) mod map;
pub(crate) mod notes;
pub(crate) mod reasons;
pub(crate) mod sensitivity;
pub(crate) mod separation;
pub(crate) mod uncertainty;
pub(crate) mod verdicts;

use crate::choose::alternatives::alternatives;
use crate::choose::confirm::confirm;
use crate::explain::balance::balance;
use crate::explain::beyond_face::beyond_the_face;
use crate::explain::chart::chart;
use crate::explain::highlights::burns_first;
use crate::explain::in_picture::InPicture;
use crate::explain::lines::lines;
use crate::explain::notes::{balance_notes, cautions, daylight_note, excluded, notes, two_lights};
use crate::explain::sensitivity::Moves;
use crate::explain::separation::{behind, hair_merges};
use crate::explain::uncertainty::{paint_shares, uncertainty};
use crate::explain::verdicts::verdicts;
use crate::judge::judged::Judged;
use crate::judge::settings::{levels_at, picture_at};
use crate::place::amounts::Finished;
use crate::ways::fine::Fine;
use crate::ways::scout::Scout;
use answer::{Answer, Evenness, Failure, Job, RoomMap, SitterLevel, Uncertainty};
use units::Stops;

/// Turns the chosen way into the answer; `rest` are the other ways, the best first. Cells of the map and what would help
/// are not part of it yet.
pub(crate) fn explain(
    scout: &Scout<'_>,
    chosen: &Judged,
    rest: &[Judged],
    fine: &Fine,
    moves: Moves,
) -> Result<Answer, Failure> {
    let job = scout.job;
    let lines = lines(scout, chosen, fine)?;
    let levels = levels_at(scout, chosen.way.light.dose(), &chosen.settings);
    let picture = picture_at(scout, &chosen.way, &levels);
    let seen = InPicture {
        job,
        fine,
        finished: picture,
        total: lines.exposure.total,
    };
    let mut answer = Answer {
        behind: behind(&seen),
        wishes: chosen.wishes.clone(),
        points: chosen.points,
        balance: balance(job, &lines.aim, &lines.flash, &chosen.settings, &lines.exposure),
        chart: chart(job, fine, chosen, &lines),
        evenness: evenness(job, &picture),
        uncertainty: doubts(job, chosen, fine, &moves, lines.aim.legs_m),
        surfaces: verdicts(scout, chosen, rest),
        referee: confirm(scout, fine, chosen),
        alternatives: alternatives(job, chosen, rest)?,
        settings: chosen.settings,
        flash: lines.flash,
        aim: lines.aim,
        key: chosen.key.clone(),
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
        notes: excluded(job).chain(chosen.notes.iter().cloned()).collect(),
        cautions: Vec::new(),
    };
    let off_computed = fine.place.ambients.iter().find_map(|there| there.off_computed);
    answer.notes.extend(daylight_note(job, off_computed));
    answer.notes.extend(notes(job, &answer, lines.of_colours));
    answer.notes.extend(balance_notes(job, &answer));
    let facing = fine.place.stage.sitters[0].facing;
    answer.notes.extend(two_lights(&answer.key, &picture, facing));
    answer
        .notes
        .extend(beyond_the_face(job, &chosen.way, fine, &picture));
    answer.notes.extend(burns_first(&seen));
    answer.notes.extend(hair_merges(&answer.behind));
    answer.cautions = cautions(job, &answer);
    Ok(answer)
}

/// How far the first frame may be off.
fn doubts(job: &Job, chosen: &Judged, fine: &Fine, moves: &Moves, legs_m: [f64; 2]) -> Uncertainty {
    let (place, dose) = (&fine.place, chosen.way.light.dose());
    let colour = job.bag.flash.colour();
    let shares = paint_shares(&place.room, &fine.light, &place.points.dome, colour, dose);
    uncertainty(job, &chosen.way.route, &shares, moves.per_size, legs_m)
}

/// Every sitter against the first; `None` for one sitter alone.
fn evenness(job: &Job, picture: &Finished<'_>) -> Option<Evenness> {
    if job.sitters.len() < 2 {
        return None;
    }
    let dome = picture.dome();
    let all = std::iter::once(dome).chain(picture.others());
    let each: Vec<SitterLevel> = job
        .sitters
        .iter()
        .zip(all)
        .map(|(sitter, there)| SitterLevel {
            name: sitter.name.clone(),
            level: Stops((there / dome).log2()),
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
