//! What the photographer insists on, and by how much a way of lighting misses it.
//!
//! Faults (see `score`) say which of several ways is nearer to the ask; limits say whether the ask is met
//! at all. A look has soft edges, so a limit is missed only beyond a tolerance that a photographer would
//! call off the ask (ours, where no source is named).

use crate::judge::outcome::Outcome;
use crate::judge::zones::zone_wishes;
use crate::practice::{CLEAR_DUV, HARDLY_THERE, ROUNDED_AWAY, UNUSABLE_DUV, WITHIN_A_CLICK, miss, tolerance};
use answer::{AmbientWish, Job, KeyReading, Limit, LimitKind, Side, Softness, Wish};

/// Everything that is insisted on, met or not.
pub(crate) fn limits(job: &Job, outcome: &Outcome) -> Vec<Limit> {
    let mut limits = power_limits(job, outcome);
    limits.extend(skin_limits(job, outcome.key));
    limits.extend(key_limits(job, outcome));
    limits.extend(level_limits(job, outcome));
    limits
}

/// What is insisted on of the flash's power.
fn power_limits(job: &Job, outcome: &Outcome) -> Vec<Limit> {
    let ask = &job.ask;
    let in_hand = Wish::InHand { stops: ask.in_hand };
    let short = ask.in_hand.value() - outcome.power;
    let mut limits = vec![Limit::new(in_hand, outcome.power, beyond(short, ROUNDED_AWAY))];
    let least = job.bag.flash.least_power_stops();
    if outcome.power > least {
        let over = beyond(outcome.power - least, ROUNDED_AWAY);
        limits.push(Limit::new(Wish::LeastPower, outcome.power, over));
    }
    if let Some(seconds) = ask.recycle_s {
        let found = job.bag.flash.recycle_s(outcome.power);
        let longer = beyond(found - seconds, tolerance::RECYCLE * seconds);
        limits.push(Limit::new(Wish::Recycle { seconds }, found, longer));
    }
    limits
}

/// What neutral skin insists on.
fn skin_limits(job: &Job, key: &KeyReading) -> Vec<Limit> {
    if !job.ask.neutral_skin {
        return Vec::new();
    }
    let mired = job.ask.cast_limit;
    let (cast, green) = (key.cast.shift.value(), key.cast.duv.value());
    vec![
        Limit::new(
            Wish::SkinWithin { mired },
            cast,
            beyond(cast.abs() - mired.value(), 0.0),
        ),
        Limit::new(
            Wish::NoGreenMagenta,
            green,
            beyond(green.abs() - UNUSABLE_DUV, 0.0),
        ),
    ]
}

/// What is insisted on of the key's direction, height, softness and ratio.
fn key_limits(job: &Job, outcome: &Outcome) -> Vec<Limit> {
    let (ask, key) = (&job.ask, outcome.key);
    let wish = &ask.key;
    let (azimuth, elevation) = outcome.from;
    let from = Wish::KeyFrom {
        azimuth_deg: wish.azimuth_deg,
        side: wish.side,
        tolerance_deg: wish.azimuth_tolerance_deg,
    };
    let height = Wish::KeyHeight {
        elevation_deg: wish.elevation_deg,
    };
    let steeper = (elevation - wish.elevation_deg).abs();
    let mut limits = vec![
        Limit::new(
            from,
            azimuth,
            beyond(azimuth_off(job, azimuth), wish.azimuth_tolerance_deg),
        ),
        Limit::new(height, elevation, beyond(steeper, tolerance::HEIGHT_DEG)),
    ];
    limits.extend(match ask.softness {
        Softness::Soft => {
            let short = beyond(tolerance::LEAST_SOFT - key.softness, 0.0);
            Some(Limit::new(Wish::Soft, key.softness, short))
        }
        Softness::Hard => {
            let over = beyond(key.softness - tolerance::MOST_HARD, 0.0);
            Some(Limit::new(Wish::Hard, key.softness, over))
        }
        Softness::Any => None,
    });
    limits.extend(ask.ratio.map(|ratio| {
        let off = (key.ratio.max(1e-3) / ratio.value()).log2();
        Limit::new(Wish::Ratio { ratio }, off, beyond(off.abs(), tolerance::LEVEL))
    }));
    limits
}

/// What is insisted on of levels: of the faces against one another, of the background, the zones and the light that is
/// there.
fn level_limits(job: &Job, outcome: &Outcome) -> Vec<Limit> {
    let ask = &job.ask;
    let mut limits = Vec::new();
    limits.extend(ask.evenness.map(|stops| {
        let over = beyond(outcome.spread, stops.value() + tolerance::EVENNESS);
        Limit::new(Wish::FacesWithin { stops }, outcome.spread, over)
    }));
    limits.extend(ask.background.map(|stops| {
        let off = (outcome.background - stops.value()).abs();
        Limit::new(
            Wish::Background { stops },
            outcome.background,
            beyond(off, tolerance::LEVEL),
        )
    }));
    for (wish, found) in zone_wishes(job, outcome.settings) {
        let off = (found - wish.at).value().abs();
        let asked = Wish::Zone {
            name: wish.name,
            stops: wish.at,
        };
        limits.push(Limit::new(asked, found.value(), beyond(off, WITHIN_A_CLICK)));
    }
    limits.extend(match ask.ambient {
        AmbientWish::Any => None,
        AmbientWish::Out => {
            let over = outcome.ambient - HARDLY_THERE - ROUNDED_AWAY;
            Some(Limit::new(Wish::AmbientOut, outcome.ambient, over))
        }
        AmbientWish::Offset(stops) => {
            let off = (outcome.ambient - stops.value()).abs() - tolerance::LEVEL;
            Some(Limit::new(Wish::AmbientAt { stops }, outcome.ambient, off))
        }
    });
    limits
}

/// Degrees between an azimuth and the nearest one that was asked for; positive is the camera's right.
fn azimuth_off(job: &Job, azimuth: f64) -> f64 {
    let wish = job.ask.key.azimuth_deg;
    match job.ask.key.side {
        Some(Side::Left) => (azimuth + wish).abs(),
        Some(Side::Right) => (azimuth - wish).abs(),
        None => (azimuth.abs() - wish).abs(),
    }
}

/// How far a value is over its tolerance.
fn beyond(value: f64, tolerance: f64) -> f64 {
    (value - tolerance).max(0.0)
}

/// Size of what is missed in points like those of the score, so that the worst comes first (ours).
pub(crate) fn weight(limit: &Limit) -> f64 {
    let unit = match limit.kind {
        LimitKind::Power | LimitKind::LeastPower | LimitKind::Ratio => miss::POWER,
        LimitKind::Evenness | LimitKind::Background | LimitKind::Ambient | LimitKind::Zone => miss::LEVEL,
        LimitKind::Recycle => miss::WAIT_S,
        LimitKind::Cast | LimitKind::SkinColour | LimitKind::RoomColour => miss::MIRED,
        LimitKind::GreenMagenta => CLEAR_DUV,
        LimitKind::Direction | LimitKind::Height => miss::DEG,
        LimitKind::Softness => miss::WIDTH,
    };
    limit.short / unit
}
