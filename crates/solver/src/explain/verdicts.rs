//! The chosen way and every other, each with a verdict.

use crate::explain::reasons::why_not;
use crate::judge::exposure::full_power;
use crate::judge::judged::{Judged, verdict_of};
use crate::ways::scout::Scout;
use crate::ways::way::Way;
use answer::{AgainstLight, Route, Settings, SurfaceVerdict, Verdict, Why};
use light::HeadDress;

/// The chosen way and every other, each with one line.
pub(crate) fn verdicts(scout: &Scout<'_>, chosen: &Judged, rest: &[Judged]) -> Vec<SurfaceVerdict> {
    let job = scout.job;
    let settings = &chosen.settings;
    let noted = !chosen.notes.is_empty();
    let mut verdicts = vec![verdict(
        scout,
        chosen,
        Verdict::Chosen,
        Why::Chosen { noted },
        settings,
    )];
    let chosen_face = face_of(&chosen.way);
    for judged in rest {
        let kind = verdict_of(job, judged, chosen);
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
        verdicts.push(verdict(scout, judged, kind, why, settings));
    }
    verdicts
}

fn verdict(
    scout: &Scout<'_>,
    judged: &Judged,
    kind: Verdict,
    why: Why,
    settings: &Settings,
) -> SurfaceVerdict {
    let key = judged.key.clone();
    let against_ambient = scout
        .lights
        .iter()
        .map(|there| AgainstLight {
            light: there.name.clone(),
            apart: key.cast.kelvin.mired() - there.kelvin.mired(),
        })
        .collect();
    let dose = judged.way.light.dose();
    SurfaceVerdict {
        way: judged.way.id(),
        route: judged.way.route.clone(),
        verdict: kind,
        why,
        target: judged.way.target,
        zoom_mm: judged.way.zoom_mm,
        power_for_flash_alone: Some(full_power(dose, settings.aperture, settings.speed())),
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
