//! How far a way of lighting is from the ask, in points; the least is the answer.
//!
//! The weights stand in `practice`, set so that one point is about what a careful photographer would call a clear
//! fault: 15 degrees of azimuth off a pattern, 30 mired on skin that should be neutral, a stop short of
//! the stops asked in hand.

use crate::judge::outcome::Outcome;
use crate::practice::{
    CLEAR_DUV, COMFORTABLE_BOARD_M, HOLLOW_EYES_DEG, NO_BALANCE_MIRED, NO_SIDE_DEG, UNUSABLE_DUV, fault,
};
use crate::ways::way::Way;
use answer::{Fault, FaultPoints, Job, KeyReading, Route, Side, Softness};

/// The faults of a way with this outcome.
pub(crate) fn faults(job: &Job, way: &Way, outcome: &Outcome) -> Vec<FaultPoints> {
    let mut faults = direction_faults(job, outcome);
    faults.extend(quality_faults(job, way, outcome.key));
    faults.extend(level_faults(job, outcome));
    faults.extend(handling_faults(job, way));
    faults.retain(|fault| fault.points > fault::NONE);
    faults
}

fn of(fault: Fault, points: f64) -> FaultPoints {
    FaultPoints { fault, points }
}

/// Where the key comes from.
fn direction_faults(job: &Job, outcome: &Outcome) -> Vec<FaultPoints> {
    let wish = &job.ask.key;
    let (azimuth_deg, elevation_deg) = outcome.from;
    let off = (azimuth_deg.abs() - wish.azimuth_deg).abs();
    let tolerance = wish.azimuth_tolerance_deg.max(fault::NARROWEST_DEG);
    let wrong_side = match wish.side {
        Some(Side::Left) => azimuth_deg > 0.0,
        Some(Side::Right) => azimuth_deg < 0.0,
        None => false,
    };
    let side = if wrong_side && wish.azimuth_deg > NO_SIDE_DEG {
        fault::WRONG_SIDE
    } else {
        0.0
    };
    let (unit, weight) = fault::HEIGHT;
    let height = weight * ((elevation_deg - wish.elevation_deg) / unit).powi(2);
    let steep = (outcome.key.elevation_deg - HOLLOW_EYES_DEG + fault::HOLLOW_DEG) / fault::HOLLOW_DEG;
    let sockets = fault::SOCKETS - outcome.key.sockets.value();
    vec![
        of(Fault::Direction, (off / tolerance).powi(2)),
        of(Fault::Side, side),
        of(Fault::Height, height),
        of(Fault::HollowEyes, steep.max(0.0) + sockets.max(0.0)),
    ]
}

/// What the light is like: its colour and its edge.
fn quality_faults(job: &Job, way: &Way, key: &KeyReading) -> Vec<FaultPoints> {
    let mut faults = Vec::new();
    if job.ask.neutral_skin {
        let (cast, green) = (key.cast.shift.value(), key.cast.duv.value());
        faults.push(of(Fault::Cast, (cast / fault::CAST_MIRED).powi(2)));
        faults.push(of(Fault::GreenMagenta, (green / CLEAR_DUV).powi(2)));
    }
    match job.ask.softness {
        Softness::Soft => {
            let (wide, points) = fault::SOFT;
            let narrower = (wide - key.softness).max(0.0);
            faults.push(of(Fault::Hardness, points * narrower / wide));
        }
        Softness::Hard => {
            let (narrow, points) = fault::HARD;
            faults.push(of(Fault::Softness, points * (key.softness - narrow).max(0.0)));
        }
        Softness::Any => {}
    }
    if way.flagged {
        faults.push(of(Fault::NeedsFlag, fault::FLAG));
    }
    faults
}

/// How strong the light is, and where.
fn level_faults(job: &Job, outcome: &Outcome) -> Vec<FaultPoints> {
    let ask = &job.ask;
    let short = (ask.in_hand.value() - outcome.power).max(0.0);
    let (upper, each) = fault::USED;
    let used = (upper - outcome.power).clamp(0.0, upper);
    let (finest, unasked) = fault::EVENNESS;
    // Beyond what was asked every third of a stop shows.
    let even = ask
        .evenness
        .map_or(unasked, |most| most.value().clamp(finest, unasked));
    let mut faults = vec![
        of(Fault::Power, fault::SHORT * short + each * used),
        of(Fault::Evenness, (outcome.spread / even).powi(2)),
    ];
    faults.extend(ask.ratio.map(|ratio| {
        let off = (outcome.key.ratio.max(1e-3) / ratio.value()).log2();
        of(Fault::Ratio, (off / fault::RATIO).powi(2))
    }));
    faults.extend(ask.background.map(|wish| {
        let off = outcome.background - wish.value();
        of(Fault::Background, (off / fault::BACKGROUND).powi(2))
    }));
    faults.extend(ask.recycle_s.map(|wait| {
        let found = job.bag.flash.recycle_s(outcome.power);
        of(Fault::Recycle, fault::RECYCLE * (found / wait).log2().max(0.0))
    }));
    faults
}

/// What it takes to hold flash and board.
fn handling_faults(job: &Job, way: &Way) -> Vec<FaultPoints> {
    let mut faults = Vec::new();
    if way.place > 0 {
        faults.push(match job.bag.stand {
            true => of(Fault::NeedsStand, fault::STAND),
            false => of(Fault::NeedsHandForFlash, fault::HANDS),
        });
    }
    if let Route::HeldBoard {
        board,
        centre,
        to_face_m,
        ..
    } = &way.route
    {
        // A beam tighter than the board gains little and must be aimed exactly.
        let side = f64::from(job.bag.boards[*board].size.min_element());
        let filling = 18.0 / (0.5 * side / f64::from((*centre - way.flash).length().max(0.2)));
        let tighter = (way.zoom_mm / filling).log2().max(0.0);
        let (metres, points) = fault::CROWDS;
        let nearer = (COMFORTABLE_BOARD_M - to_face_m).max(0.0);
        faults.push(of(Fault::NeedsHands, fault::HANDS));
        faults.push(of(Fault::TightBeam, fault::TIGHT * tighter));
        faults.push(of(Fault::CrowdsSitter, points * nearer / metres));
    }
    faults
}

/// Sum of the points.
pub(crate) fn sum_of(faults: &[FaultPoints]) -> f64 {
    faults.iter().map(|fault| fault.points).sum()
}

/// Brightest minus darkest face in stops, the first sitter included.
pub(crate) fn spread(way: &Way, dose: f64) -> f64 {
    let all = way.light.others.iter().map(|&o| f64::from(o)).chain([dose]);
    let (low, high) = all.fold((f64::MAX, f64::MIN), |(l, h), v| (l.min(v), h.max(v)));
    (high.max(1e-9) / low.max(1e-9)).log2()
}

/// Whether a cast rules a way out for skin that should stay neutral.
pub(crate) fn cast_unusable(job: &Job, key: &KeyReading) -> bool {
    job.ask.neutral_skin
        && (key.cast.shift.value().abs() > job.ask.cast_limit.value().max(NO_BALANCE_MIRED)
            || key.cast.duv.value().abs() > UNUSABLE_DUV)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::trials::{made_up, white_board};
    use answer::Settings;
    use glam::Vec3;
    use units::{Duv, MiredShift, Stops};

    /// Everything that faults are counted of, free of faults.
    struct Case {
        job: Job,
        way: Way,
        key: KeyReading,
        from: (f64, f64),
        power: f64,
        spread: f64,
        background: f64,
        settings: Settings,
    }

    fn spotless() -> Case {
        Case {
            job: made_up::job(),
            way: made_up::way(),
            key: made_up::key(),
            from: (-40.0, 28.0),
            power: 6.0,
            spread: 0.0,
            background: 0.0,
            settings: made_up::settings(),
        }
    }

    fn check(change: impl FnOnce(&mut Case), expected: &[(Fault, f64)]) {
        let mut case = spotless();
        change(&mut case);
        let outcome = Outcome {
            key: &case.key,
            from: case.from,
            power: case.power,
            spread: case.spread,
            background: case.background,
            ambient: -8.0,
            settings: &case.settings,
        };
        let found = faults(&case.job, &case.way, &outcome);
        let kinds: Vec<Fault> = found.iter().map(|fault| fault.fault).collect();
        let wanted: Vec<Fault> = expected.iter().map(|(fault, _)| *fault).collect();
        assert_eq!(kinds, wanted);
        for (found, (_, points)) in found.iter().zip(expected) {
            assert!(
                (found.points - points).abs() < 1e-6,
                "{found:?} instead of {points}"
            );
        }
    }

    #[test]
    fn what_was_asked_has_no_fault() {
        check(|_| {}, &[]);
    }

    #[test]
    fn direction_counts_by_its_tolerance() {
        check(|case| case.from.0 = -60.0, &[(Fault::Direction, 1.0)]);
        check(|case| case.from.0 = 80.0, &[(Fault::Direction, 4.0)]);
        check(
            |case| case.job.ask.key.side = Some(Side::Right),
            &[(Fault::Side, 4.0)],
        );
        check(|case| case.job.ask.key.side = Some(Side::Left), &[]);
        check(|case| case.from.1 = 40.0, &[(Fault::Height, 0.5)]);
        check(|case| case.key.elevation_deg = 50.0, &[(Fault::HollowEyes, 1.0)]);
        check(|case| case.key.sockets = Stops(-1.8), &[(Fault::HollowEyes, 1.0)]);
    }

    #[test]
    fn colour_counts_on_neutral_skin_alone() {
        check(
            |case| case.key.cast.shift = MiredShift(-30.0),
            &[(Fault::Cast, 1.0)],
        );
        check(
            |case| case.key.cast.duv = Duv(0.006),
            &[(Fault::GreenMagenta, 1.0)],
        );
        check(
            |case| {
                case.job.ask.neutral_skin = false;
                case.key.cast.shift = MiredShift(90.0);
            },
            &[],
        );
    }

    #[test]
    fn the_edge_counts_as_it_was_asked() {
        check(|case| case.key.softness = 0.25, &[(Fault::Hardness, 1.0)]);
        check(
            |case| case.job.ask.softness = Softness::Hard,
            &[(Fault::Softness, 1.2)],
        );
        check(|case| case.job.ask.softness = Softness::Any, &[]);
        check(|case| case.way.flagged = true, &[(Fault::NeedsFlag, 0.2)]);
    }

    #[test]
    fn levels_count_by_what_was_asked() {
        check(|case| case.power = 5.0, &[(Fault::Power, 0.08)]);
        check(|case| case.power = 0.0, &[(Fault::Power, 1.5 + 0.48)]);
        check(|case| case.spread = 0.5, &[(Fault::Evenness, 1.0)]);
        check(
            |case| {
                case.job.ask.evenness = Some(Stops(0.25));
                case.spread = 0.5;
            },
            &[(Fault::Evenness, 4.0)],
        );
        check(
            |case| case.job.ask.ratio = "4:1".parse().ok(),
            &[(Fault::Ratio, 4.0)],
        );
        check(
            |case| case.job.ask.background = Some(Stops(-0.7)),
            &[(Fault::Background, 1.0)],
        );
        let half = 0.5 * made_up::job().bag.flash.recycle_s(6.0);
        check(
            |case| case.job.ask.recycle_s = Some(half),
            &[(Fault::Recycle, 1.5)],
        );
    }

    #[test]
    fn hands_and_stands_count() {
        check(|case| case.way.place = 1, &[(Fault::NeedsHandForFlash, 0.35)]);
        check(
            |case| {
                case.way.place = 1;
                case.job.bag.stand = true;
            },
            &[(Fault::NeedsStand, 0.2)],
        );
        let held = |to_face_m: f64, zoom_mm: f64| {
            move |case: &mut Case| {
                case.job.bag.boards = vec![white_board()];
                case.way.zoom_mm = zoom_mm;
                case.way.route = Route::HeldBoard {
                    board: 0,
                    name: "white board".to_owned(),
                    centre: case.way.flash + Vec3::Y,
                    normal: Vec3::NEG_Y,
                    to_face_m,
                };
            }
        };
        check(held(1.3, 24.0), &[(Fault::NeedsHands, 0.35)]);
        check(
            held(1.0, 24.0),
            &[(Fault::NeedsHands, 0.35), (Fault::CrowdsSitter, 1.0)],
        );
        // A board of 0.7 m one metre away is filled at 18 / 0.35 mm.
        check(
            held(1.3, 2.0 * 18.0 / 0.35),
            &[(Fault::NeedsHands, 0.35), (Fault::TightBeam, 0.1)],
        );
    }
}
