//! Other answers that are truly different, each with the one reason to prefer it.

use crate::answer::{Alternative, FlashSetting, Route, Verdict};
use crate::search::{self, Judged};
use crate::survey::Survey;
use crate::{Job, SolverError, words};
use units::Stops;

/// No more than this beside the answer.
const MOST: usize = 2;
/// A difference that is worth a sentence (ours): stops of power, width of the light as a factor, mired,
/// degrees, stops of ratio.
const POWER_STOPS: f64 = 0.67;
const WIDER: f64 = 1.35;
const MIRED: f64 = 10.0;
const DEGREES: f64 = 6.0;
const RATIO_STOPS: f64 = 0.6;

/// The alternatives among the ways that were not chosen, which come best first.
pub(crate) fn alternatives(
    job: &Job,
    survey: &Survey,
    chosen: &Judged,
    rest: &[Judged],
) -> Result<Vec<Alternative>, SolverError> {
    let mut told: Vec<(&Judged, Alternative)> = Vec::new();
    for judged in rest {
        if told.len() == MOST {
            break;
        }
        let serves = search::verdict_of(job, judged, chosen) == Verdict::Possible;
        // An answer that misses the ask is no alternative to one that meets it.
        let as_good = judged.met() || !chosen.met();
        let new = differs(judged, chosen) && told.iter().all(|(other, _)| differs(judged, other));
        if !(serves && as_good && new) {
            continue;
        }
        if let Some(prefer) = reason(job, judged, chosen) {
            told.push((judged, alternative(job, survey, judged, prefer)?));
        }
    }
    Ok(told.into_iter().map(|(_, alternative)| alternative).collect())
}

/// Whether two ways are truly different: carried by something else, or from somewhere else.
fn differs(a: &Judged, b: &Judged) -> bool {
    let carrier = |judged: &Judged| match &judged.way.route {
        Route::Bounce { face, .. } => face.words().to_owned(),
        Route::Standing { name } | Route::HeldBoard { name, .. } => name.clone(),
        Route::Direct => String::new(),
    };
    let apart = (a.key.azimuth_deg - b.key.azimuth_deg).abs();
    carrier(a) != carrier(b) || a.way.dress != b.way.dress || apart > 40.0
}

/// The one reason to prefer a way to the answer: the advantage that is largest for its kind.
fn reason(job: &Job, judged: &Judged, chosen: &Judged) -> Option<String> {
    let (new, old) = (&judged.key, &chosen.key);
    let mut reasons: Vec<(f64, String)> = Vec::new();
    let mut add = |size: f64, unit: f64, words: String| {
        if size >= unit {
            reasons.push((size / unit, words));
        }
    };
    let power = judged.power - chosen.power;
    add(
        power,
        POWER_STOPS,
        format!("{power:.1} stops more in hand: quicker recycling, a cooler flash"),
    );
    let wider = new.softness / old.softness.max(1e-3);
    add(
        wider.log2(),
        WIDER.log2(),
        format!("softer: the light is {wider:.1} times as wide"),
    );
    let cast = old.cast.shift.value().abs() - new.cast.shift.value().abs();
    add(cast, MIRED, format!("cleaner skin: {cast:.0} mired less cast"));
    let wish = job.ask.key.azimuth_deg;
    let off = |azimuth: f64| (azimuth.abs() - wish).abs();
    let nearer = off(old.azimuth_deg) - off(new.azimuth_deg);
    add(
        nearer,
        DEGREES,
        format!("{nearer:.0}° nearer to the angle asked for"),
    );
    let flatter = (old.ratio.max(1e-3) / new.ratio.max(1e-3)).log2();
    add(
        flatter,
        RATIO_STOPS,
        format!("gentler: cheeks {:.1}:1 instead of {:.1}:1", new.ratio, old.ratio),
    );
    add(
        -flatter,
        RATIO_STOPS,
        format!(
            "more drama: cheeks {:.1}:1 instead of {:.1}:1",
            new.ratio, old.ratio
        ),
    );
    if needs_hands(chosen) && !needs_hands(judged) {
        reasons.push((1.5, "nobody has to hold anything".to_owned()));
    }
    if chosen.way.flagged && !judged.way.flagged {
        reasons.push((0.9, "the head needs no flag".to_owned()));
    }
    reasons
        .into_iter()
        .max_by(|a, b| a.0.total_cmp(&b.0))
        .map(|(_, words)| words)
}

fn needs_hands(judged: &Judged) -> bool {
    matches!(judged.way.route, Route::HeldBoard { .. })
}

fn alternative(
    job: &Job,
    survey: &Survey,
    judged: &Judged,
    prefer: String,
) -> Result<Alternative, SolverError> {
    let dose = judged.way.light.dose(job.bag.flash.colour());
    let (settings, _) = crate::exposing::settings_for(job, survey, dose)?;
    let power = crate::exposing::settable_power(job, judged.power)?;
    Ok(Alternative {
        name: words::way_name(&judged.way),
        aim: crate::solve::aim(job, &judged.way),
        settings,
        flash: FlashSetting {
            power,
            exact_stops_below_full: judged.power,
            zoom_mm: judged.way.zoom_mm,
            dress: judged.way.dress,
            in_hand: Stops(judged.power.min(power.stops_below_full())),
        },
        key: judged.key.clone(),
        points: judged.points,
        prefer,
    })
}
