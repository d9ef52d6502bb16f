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
