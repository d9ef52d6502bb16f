//! How far a way of lighting is from the ask, in points; the least is the answer.
//!
//! The weights are ours, set so that one point is about what a careful photographer would call a clear
//! fault: 15 degrees of azimuth off a pattern, 30 mired on skin that should be neutral, a stop short of
//! the stops asked in hand.

use crate::judge::outcome::Outcome;
use crate::ways::way::Way;
use answer::{Fault, FaultPoints, Job, KeyReading, Route, Side, Softness};

/// Above this a cast cannot serve skin that should stay neutral (common practice: two lights 40 mired
/// apart are rejected on one face).
pub(crate) const UNUSABLE_CAST_MIRED: f64 = 40.0;
/// Green or magenta that skin does not bear (common practice: 0.008).
pub(crate) const UNUSABLE_CAST_DUV: f64 = 0.008;
/// A light steeper than this leaves deep-set eyes dark (common practice: 50°).
const HOLLOW_EYES_DEG: f64 = 50.0;
/// Direct spill should be at least this far under the bounce (common practice: 3 stops).
pub(crate) const SPILL_LIMIT: f64 = -3.0;
/// Nearer than this a board held by an assistant crowds sitter and frame (common practice: 1.0 to 1.4 m).
const COMFORTABLE_BOARD_M: f64 = 1.2;

/// The faults of a way with this outcome.
pub(crate) fn faults(job: &Job, way: &Way, outcome: &Outcome) -> Vec<FaultPoints> {
    let key = outcome.key;
    let (azimuth_deg, elevation_deg) = outcome.from;
    let power_stops = outcome.power;
    let mut faults = Vec::new();
    let mut add = |fault: Fault, points: f64| {
        if points > 0.004 {
            faults.push(FaultPoints { fault, points });
        }
    };
    let wish = &job.ask.key;
    let off = (azimuth_deg.abs() - wish.azimuth_deg).abs();
    add(
        Fault::Direction,
        (off / wish.azimuth_tolerance_deg.max(5.0)).powi(2),
    );
    let wrong_side = match wish.side {
        Some(Side::Left) => azimuth_deg > 0.0,
        Some(Side::Right) => azimuth_deg < 0.0,
        None => false,
    };
    if wrong_side && wish.azimuth_deg > 12.0 {
        add(Fault::Side, 4.0);
    }
    add(
        Fault::Height,
        0.5 * ((elevation_deg - wish.elevation_deg) / 12.0).powi(2),
    );
    add(
        Fault::HollowEyes,
        ((key.elevation_deg - HOLLOW_EYES_DEG + 8.0) / 8.0).max(0.0) + (-0.8 - key.sockets.value()).max(0.0),
    );
    if job.ask.neutral_skin {
        add(Fault::Cast, (key.cast.shift.value() / 30.0).powi(2));
        add(Fault::GreenMagenta, (key.cast.duv.value() / 0.006).powi(2));
    }
    match job.ask.softness {
        Softness::Soft => add(Fault::Hardness, 2.0 * (0.5 - key.softness).max(0.0) / 0.5),
        Softness::Hard => add(Fault::Softness, 3.0 * (key.softness - 0.2).max(0.0)),
        Softness::Any => {}
    }
    if way.flagged {
        add(Fault::NeedsFlag, 0.2);
    }
    add(
        Fault::Power,
        1.5 * (job.ask.in_hand.value() - power_stops).max(0.0) + 0.08 * (6.0 - power_stops).clamp(0.0, 6.0),
    );
    // Beyond what was asked every third of a stop shows; unasked, half a stop is a clear fault.
    let even = job.ask.evenness.map_or(0.5, |most| most.value().clamp(0.1, 0.5));
    add(Fault::Evenness, (outcome.spread / even).powi(2));
    if let Some(ratio) = job.ask.ratio {
        let off = (key.ratio.max(1e-3) / ratio.value()).log2();
        add(Fault::Ratio, (off / 0.5).powi(2));
    }
    if let Some(wish) = job.ask.background {
        add(
            Fault::Background,
            ((outcome.background - wish.value()) / 0.7).powi(2),
        );
    }
    if let Some(wait) = job.ask.recycle_s {
        let found = job.bag.flash.recycle_s(power_stops);
        add(Fault::Recycle, 1.5 * (found / wait).log2().max(0.0));
    }
    if way.place > 0 && !job.bag.stand {
        add(Fault::NeedsHandForFlash, 0.35);
    } else if way.place > 0 {
        add(Fault::NeedsStand, 0.2);
    }
    if let Route::HeldBoard {
        board,
        centre,
        to_face_m,
        ..
    } = &way.route
    {
        add(Fault::NeedsHands, 0.35);
        // A beam tighter than the board gains little and must be aimed exactly.
        let side = f64::from(job.bag.boards[*board].size.min_element());
        let filling = 18.0 / (0.5 * side / f64::from((*centre - way.flash).length().max(0.2)));
        add(Fault::TightBeam, 0.1 * (way.zoom_mm / filling).log2().max(0.0));
        add(
            Fault::CrowdsSitter,
            2.0 * (COMFORTABLE_BOARD_M - to_face_m).max(0.0) / 0.4,
        );
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
        && (key.cast.shift.value().abs() > job.ask.cast_limit.value().max(UNUSABLE_CAST_MIRED)
            || key.cast.duv.value().abs() > UNUSABLE_CAST_DUV)
}
