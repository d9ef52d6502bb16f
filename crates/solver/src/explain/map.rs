//! The room unrolled, each piece with the best that aiming there can do.

use crate::choose::kind::{Kind, kind_of};
use crate::choose::search::Swept;
use crate::explain::reasons::why_not;
use crate::judge::judged::{Judged, verdict_of, with_colours};
use crate::ways::scout::Scout;
use crate::ways::way::Way;
use answer::{Failure, MapCell};
use rayon::prelude::*;

/// The map of the room from the first place: every piece with the best that aiming at it can do, by the same sum as the
/// answer. `read` are the ways that finely solved places have read: what one of them says more or less than the surveyed place of
/// the best of a kind is taken for every piece of that kind, so that no piece seems better than it was found to be.
///
/// # Errors
/// A balance that no camera has.
pub(crate) fn map_cells(
    scout: &Scout<'_>,
    swept: &Swept,
    judged: &[Judged],
    chosen: &Judged,
    read: &[Judged],
) -> Result<Vec<MapCell>, Failure> {
    let job = scout.job;
    let read: Vec<(Kind, f64)> = std::iter::once(chosen)
        .chain(read)
        .filter_map(|read| Some((kind_of(&read.way), read.points - read.coarsely?)))
        .collect();
    let more = |way: &Way| {
        let kind = kind_of(way);
        read.iter()
            .find(|(known, _)| *known == kind)
            .map_or(0.0, |(_, more)| *more)
    };
    let mut best: Vec<Option<&Judged>> = vec![None; swept.pieces.len()];
    for ((piece, _), candidate) in swept.ways.iter().zip(judged) {
        if let Some(index) = *piece {
            match best[index] {
                Some(held) if !candidate.before(held) => {}
                _ => best[index] = Some(candidate),
            }
        }
    }
    let pieces: Vec<_> = swept.pieces.iter().zip(best).collect();
    pieces
        .into_par_iter()
        .filter_map(|(piece, found)| Some((piece, found?)))
        .map(|(piece, found)| {
            let coarse = with_colours(scout, found)?;
            let found = &Judged {
                points: (coarse.points + more(&coarse.way)).max(0.0),
                ..coarse
            };
            Ok(MapCell {
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
