//! Other answers that are truly different, each with the one reason to prefer it.

use crate::judge::exposure::{flash_setting, set_power, settable_power};
use crate::judge::judged::{Judged, verdict_of};
use crate::practice::advantage;
use crate::ways::way::aim;
use answer::{Alternative, Carrier, Failure, Job, Preference, Route, Softness, Verdict};
use units::{MiredShift, Stops};

/// No more than this beside the answer.
const MOST: usize = 2;

/// The alternatives among the ways that were not chosen, which come best first.
pub(crate) fn alternatives(job: &Job, chosen: &Judged, rest: &[Judged]) -> Result<Vec<Alternative>, Failure> {
    let picked = picked(job, chosen, rest).into_iter();
    picked
        .map(|(at, prefer)| alternative(job, &rest[at], prefer))
        .collect()
}

/// Where the alternatives stand among the ways that were not chosen, each with its reason.
pub(crate) fn picked(job: &Job, chosen: &Judged, rest: &[Judged]) -> Vec<(usize, Preference)> {
    let mut found: Vec<(usize, Preference)> = Vec::new();
    for (at, judged) in rest.iter().enumerate() {
        if found.len() == MOST {
            break;
        }
        let serves = verdict_of(job, judged, chosen) == Verdict::Possible;
        // An answer that misses the ask is no alternative to one that meets it.
        let as_good = judged.met() || !chosen.met();
        let new = differs(judged, chosen) && found.iter().all(|(other, _)| differs(judged, &rest[*other]));
        if !(serves && as_good && new) {
            continue;
        }
        found.extend(preference(job, judged, chosen).map(|prefer| (at, prefer)));
    }
    found
}

/// Whether two ways are truly different: carried by something else, or from somewhere else.
fn differs(a: &Judged, b: &Judged) -> bool {
    let carrier = |judged: &Judged| Carrier::of(&judged.way.route);
    let apart = (a.key.azimuth_deg - b.key.azimuth_deg).abs();
    carrier(a) != carrier(b) || a.way.dress != b.way.dress || apart > advantage::ELSEWHERE_DEG
}

/// The one reason to prefer a way to the answer: the advantage that is largest for its kind.
fn preference(job: &Job, judged: &Judged, chosen: &Judged) -> Option<Preference> {
    let (new, old) = (&judged.key, &chosen.key);
    let mut reasons: Vec<(f64, Preference)> = Vec::new();
    let mut add = |size: f64, unit: f64, prefer: Preference| {
        if size >= unit {
            reasons.push((size / unit, prefer));
        }
    };
    let power = set_power(job, judged.power) - set_power(job, chosen.power);
    let stops = Stops(power);
    // Stops in hand are worth something only to who has few of them.
    if chosen.power < job.ask.in_hand.value() + advantage::ENOUGH_IN_HAND {
        add(power, advantage::POWER, Preference::MoreInHand { stops });
    }
    let times = new.softness / old.softness.max(1e-3);
    if job.ask.softness == Softness::Soft {
        add(
            times.log2(),
            advantage::WIDER.log2(),
            Preference::Softer { times },
        );
    }
    let cast = old.cast.shift.value().abs() - new.cast.shift.value().abs();
    let less = MiredShift(cast);
    add(cast, advantage::MIRED, Preference::CleanerSkin { less });
    let wish = job.ask.key.azimuth_deg;
    let off = |azimuth: f64| (azimuth.abs() - wish).abs();
    let degrees = off(old.azimuth_deg) - off(new.azimuth_deg);
    add(degrees, advantage::DEG, Preference::NearerAngle { degrees });
    let flatter = (old.ratio.max(1e-3) / new.ratio.max(1e-3)).log2();
    let (ratio, instead_of) = (new.ratio, old.ratio);
    add(
        flatter,
        advantage::RATIO,
        Preference::Gentler { ratio, instead_of },
    );
    add(
        -flatter,
        advantage::RATIO,
        Preference::MoreDrama { ratio, instead_of },
    );
    if needs_hands(chosen) && !needs_hands(judged) {
        reasons.push((advantage::NO_HANDS, Preference::NoHands));
    }
    if chosen.way.flagged && !judged.way.flagged {
        reasons.push((advantage::NO_FLAG, Preference::NoFlag));
    }
    reasons
        .into_iter()
        .max_by(|a, b| a.0.total_cmp(&b.0))
        .map(|(_, prefer)| prefer)
}

fn needs_hands(judged: &Judged) -> bool {
    matches!(judged.way.route, Route::HeldBoard { .. })
}

fn alternative(job: &Job, judged: &Judged, prefer: Preference) -> Result<Alternative, Failure> {
    let power = settable_power(job, judged.power)?;
    Ok(Alternative {
        way: judged.way.id(),
        aim: aim(job, &judged.way),
        settings: judged.settings,
        flash: flash_setting(&judged.way, judged.power, power, judged.total()),
        key: judged.key.clone(),
        points: judged.points,
        prefer,
    })
}
