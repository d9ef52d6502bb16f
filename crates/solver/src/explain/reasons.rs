//! Why a way of lighting is not the answer: its worst faults as reasons.

use crate::judge::handling::cast_unusable;
use crate::judge::judged::Judged;
use crate::practice::{BEHIND_DEG, FLAT_DEG, REASON_POINTS, STEEP_DEG, STRENGTH_TOLD};
use answer::{Fault, FaultPoints, Job, KeyReading, Reason, Route, Why, WishKind};
use units::Stops;

/// No more reasons than this are given.
const MOST: usize = 3;

/// Why a way is not the answer, with its light against that of the way that is.
pub(crate) fn why_not(job: &Job, judged: &Judged, chosen: &Judged) -> Why {
    let short = job.ask.in_hand.value() - judged.power;
    // The light itself: each way has settings of its own.
    let stronger = 2.0 * (judged.key.full_power_aperture / chosen.key.full_power_aperture).log2();
    Why::Not {
        reasons: reasons(job, judged, short),
        against_answer: (stronger.abs() > STRENGTH_TOLD).then_some(Stops(stronger)),
        full_power_aperture: judged.key.full_power_aperture,
    }
}

/// Up to three reasons, the worst first; `short` is how many stops of those asked in hand are missing.
fn reasons(job: &Job, judged: &Judged, short: f64) -> Vec<Reason> {
    let mut worst: Vec<&FaultPoints> = judged
        .faults
        .iter()
        .filter(|fault| fault.points > REASON_POINTS)
        .collect();
    worst.sort_by(|a, b| b.points.total_cmp(&a.points));
    let mut reasons = Vec::new();
    if cast_unusable(job, &judged.key) {
        reasons.push(Reason::UnusableCast {
            cast: judged.key.cast,
        });
    }
    for fault in worst {
        // A cast stands first or not at all.
        let found = match fault.fault {
            Fault::Cast | Fault::GreenMagenta if !reasons.is_empty() => None,
            Fault::HollowEyes => Some(hollow_eyes(judged)),
            fault => reason_of(fault, &judged.key, short),
        };
        reasons.extend(found);
        if reasons.len() == MOST {
            break;
        }
    }
    if reasons.is_empty() {
        reasons.push(match judged.way.route {
            Route::HeldBoard { .. } => Reason::AsGoodButHeld,
            _ => Reason::NearlyAsGood,
        });
    }
    reasons
}

/// What a fault says of this key; `None` for a fault of handling, which is no reason against the light.
fn reason_of(fault: Fault, key: &KeyReading, short: f64) -> Option<Reason> {
    let (azimuth_deg, elevation_deg) = (key.azimuth_deg, key.elevation_deg);
    match fault {
        Fault::Cast | Fault::GreenMagenta => Some(Reason::Cast { cast: key.cast }),
        Fault::Direction => Some(direction(key)),
        Fault::Side => Some(Reason::OtherSide { azimuth_deg }),
        Fault::Height => Some(height(elevation_deg)),
        Fault::Hardness => Some(Reason::SmallAndHard),
        Fault::Softness => Some(Reason::TooSoft),
        Fault::Power => (short > 0.0).then_some(Reason::Short { by: Stops(short) }),
        Fault::Evenness => Some(Reason::Uneven),
        Fault::Exposure
        | Fault::Ambient
        | Fault::Fill
        | Fault::Zone
        | Fault::Colour
        | Fault::SlowShutter
        | Fault::HighSpeed
        | Fault::OddAperture
        | Fault::Filter
        | Fault::NeedsFlag
        | Fault::Ratio
        | Fault::Background
        | Fault::Recycle
        | Fault::NeedsHandForFlash
        | Fault::NeedsStand
        | Fault::NeedsHands
        | Fault::TightBeam
        | Fault::CrowdsSitter
        | Fault::HollowEyes => None,
    }
}

/// The sockets that the wish for open eyes is about.
fn hollow_eyes(judged: &Judged) -> Reason {
    let mut eyes = judged.wishes.iter().filter(|wish| wish.kind == WishKind::Eyes);
    let sockets = eyes.next().map_or(judged.key.sockets, |wish| Stops(wish.found));
    Reason::HollowEyes { sockets }
}

fn direction(key: &KeyReading) -> Reason {
    let azimuth_deg = key.azimuth_deg.abs();
    if azimuth_deg < FLAT_DEG {
        let ratio = key.ratio;
        Reason::Flat { azimuth_deg, ratio }
    } else if azimuth_deg > BEHIND_DEG {
        Reason::FromBehind { azimuth_deg }
    } else {
        Reason::Beside { azimuth_deg }
    }
}

fn height(elevation_deg: f64) -> Reason {
    if elevation_deg < 0.0 {
        Reason::FromBelow {
            below_deg: -elevation_deg,
        }
    } else if elevation_deg > STEEP_DEG {
        Reason::Steep { elevation_deg }
    } else {
        Reason::Above { elevation_deg }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::trials::made_up;
    use units::MiredShift;

    /// The reasons for a way with these faults, changed at will.
    fn check(faults: &[(Fault, f64)], change: impl FnOnce(&mut Judged), expected: &[Reason]) {
        let mut judged = made_up::judged(made_up::way(), 1.0);
        judged.faults = faults
            .iter()
            .map(|&(fault, points)| FaultPoints { fault, points })
            .collect();
        change(&mut judged);
        let chosen = made_up::judged(made_up::way(), 0.0);
        let Why::Not { reasons, .. } = why_not(&made_up::job(), &judged, &chosen) else {
            panic!("it is not the answer")
        };
        assert_eq!(reasons, expected);
    }

    #[test]
    fn the_worst_faults_are_the_reasons_and_no_more_than_three() {
        check(
            &[
                (Fault::Hardness, 0.5),
                (Fault::Evenness, 2.0),
                (Fault::Softness, 1.0),
                (Fault::Height, 0.4),
            ],
            |_| {},
            &[Reason::Uneven, Reason::TooSoft, Reason::SmallAndHard],
        );
        check(&[(Fault::Evenness, 0.2)], |_| {}, &[Reason::NearlyAsGood]);
    }

    #[test]
    fn a_cast_stands_first_or_not_at_all() {
        let cast = made_up::key().cast;
        check(
            &[(Fault::GreenMagenta, 0.5), (Fault::Cast, 1.0)],
            |_| {},
            &[Reason::Cast { cast }],
        );
        check(
            &[(Fault::Evenness, 2.0), (Fault::Cast, 1.0)],
            |_| {},
            &[Reason::Uneven],
        );
        let warm = answer::Cast {
            shift: MiredShift(70.0),
            ..cast
        };
        check(
            &[(Fault::Cast, 4.0), (Fault::Evenness, 1.0)],
            |judged| judged.key.cast = warm,
            &[Reason::UnusableCast { cast: warm }, Reason::Uneven],
        );
    }

    #[test]
    fn direction_and_height_are_told_by_where_they_are() {
        let from = |azimuth_deg: f64| move |judged: &mut Judged| judged.key.azimuth_deg = azimuth_deg;
        let fault = &[(Fault::Direction, 1.0)];
        let ratio = made_up::key().ratio;
        let azimuth_deg = 10.0;
        check(fault, from(-10.0), &[Reason::Flat { azimuth_deg, ratio }]);
        check(fault, from(60.0), &[Reason::Beside { azimuth_deg: 60.0 }]);
        check(fault, from(-150.0), &[Reason::FromBehind { azimuth_deg: 150.0 }]);
        let above = |elevation_deg: f64| move |judged: &mut Judged| judged.key.elevation_deg = elevation_deg;
        let fault = &[(Fault::Height, 1.0)];
        check(fault, above(-5.0), &[Reason::FromBelow { below_deg: 5.0 }]);
        check(fault, above(12.0), &[Reason::Above { elevation_deg: 12.0 }]);
        check(fault, above(44.0), &[Reason::Steep { elevation_deg: 44.0 }]);
    }

    #[test]
    fn power_is_a_reason_only_where_it_is_short_of_the_ask() {
        let fault = &[(Fault::Power, 1.0)];
        let by = Stops(0.5);
        check(fault, |judged| judged.power = 0.5, &[Reason::Short { by }]);
        check(fault, |judged| judged.power = 2.0, &[Reason::NearlyAsGood]);
    }
}
