//! The room unrolled, each piece with the best that aiming there can do.

use crate::choose::search::Swept;
use crate::explain::reasons::why_not;
use crate::judge::judged::{Judged, verdict_of};
use answer::{Job, MapCell};

/// The map of the room from the first place: every piece with the best that aiming at it can do.
pub(crate) fn map_cells(job: &Job, swept: &Swept, judged: &[Judged], chosen: &Judged) -> Vec<MapCell> {
    let mut best: Vec<Option<&Judged>> = vec![None; swept.pieces.len()];
    for ((piece, _), candidate) in swept.ways.iter().zip(judged) {
        if let Some(index) = *piece {
            match best[index] {
                Some(held) if !candidate.before(held) => {}
                _ => best[index] = Some(candidate),
            }
        }
    }
    swept
        .pieces
        .iter()
        .zip(best)
        .filter_map(|(piece, found)| {
            let found = found?;
            Some(MapCell {
                face: piece.face,
                from: piece.from,
                size: piece.size,
                target: piece.target,
                azimuth_deg: found.key.azimuth_deg,
                elevation_deg: found.key.elevation_deg,
                zoom_mm: found.way.zoom_mm,
                points: found.points,
                verdict: verdict_of(job, found, chosen),
                why: why_not(job, found, chosen),
            })
        })
        .collect()
}
