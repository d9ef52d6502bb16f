//! What the photographer insists on, and by how much a way of lighting misses it.
//!
//! Faults (see `score`) say which of several ways is nearer to the ask; limits say whether the ask is met
//! at all. A look has soft edges, so a limit is missed only beyond a tolerance that a photographer would
//! call off the ask (ours, where no source is named).

use crate::answer::{KeyReading, Limit, LimitKind, Settings};
use crate::balance;
use crate::exposing::OUT_OF_THE_PICTURE;
use crate::score::UNUSABLE_CAST_DUV;
use crate::{AmbientWish, Job, Side, Softness};

/// A settable power is a third of a stop; half of that is not worth a no.
const CLICK: f64 = 0.17;
/// Height of the key against the wish before it is another look, in degrees.
const HEIGHT_TOLERANCE_DEG: f64 = 25.0;
/// A source narrower than this, over its distance, is not soft.
const LEAST_SOFT: f64 = 0.25;
/// A source wider than this, over its distance, is not hard.
const MOST_HARD: f64 = 0.35;
/// Ratio, background and ambient may be this far from the wish, in stops.
const LEVEL_TOLERANCE: f64 = 0.5;

/// What a way does, as far as limits are concerned.
pub(crate) struct Outcome<'a> {
    pub key: &'a KeyReading,
    /// Azimuth and elevation of what carries the key, in degrees.
    pub from: (f64, f64),
    /// Exact power in stops below 1/1.
    pub power: f64,
    /// Brightest minus darkest face, in stops.
    pub spread: f64,
    /// Background against the face, in stops.
    pub background: f64,
    /// Ambient at the face against an exact exposure, in stops.
    pub ambient: f64,
    /// The camera's settings.
    pub settings: &'a Settings,
}

/// Everything that is insisted on, met or not.
pub(crate) fn limits(job: &Job, outcome: &Outcome) -> Vec<Limit> {
    let ask = &job.ask;
    let mut limits = Vec::new();
    let mut add = |kind, asked: String, found: f64, short: f64| {
        limits.push(Limit {
            kind,
            asked,
            found,
            short: short.max(0.0),
        });
    };
    let hand = ask.in_hand.value();
    add(
        LimitKind::Power,
        format!("{} in hand", stops(hand)),
        outcome.power,
        beyond(hand - outcome.power, CLICK),
    );
    let least = job.bag.flash.least_power_stops();
    if outcome.power > least {
        add(
            LimitKind::LeastPower,
            "no more light than the least power gives".to_owned(),
            outcome.power,
            beyond(outcome.power - least, CLICK),
        );
    }
    if let Some(wait) = ask.recycle_s {
        let found = job.bag.flash.recycle_s(outcome.power);
        add(
            LimitKind::Recycle,
            format!("{wait:.1} s between frames"),
            found,
            beyond(found - wait, 0.02 * wait),
        );
    }
    add_look(job, outcome, &mut add);
    limits
}

fn add_look(job: &Job, outcome: &Outcome, add: &mut dyn FnMut(LimitKind, String, f64, f64)) {
    let (ask, key) = (&job.ask, outcome.key);
    if ask.neutral_skin {
        let most = ask.cast_limit.value();
        let cast = key.cast.shift.value();
        add(
            LimitKind::Cast,
            format!("skin within {most:.0} mired"),
            cast,
            beyond(cast.abs() - most, 0.0),
        );
        let green = key.cast.duv.value();
        add(
            LimitKind::GreenMagenta,
            "skin neither green nor magenta".to_owned(),
            green,
            beyond(green.abs() - UNUSABLE_CAST_DUV, 0.0),
        );
    }
    let wish = &ask.key;
    let (azimuth, elevation) = outcome.from;
    add(
        LimitKind::Direction,
        format!(
            "key {:.0}° from the nose{}, give or take {:.0}°",
            wish.azimuth_deg,
            match wish.side {
                Some(Side::Left) => " from camera left",
                Some(Side::Right) => " from camera right",
                None => "",
            },
            wish.azimuth_tolerance_deg
        ),
        azimuth,
        beyond(azimuth_off(job, azimuth), wish.azimuth_tolerance_deg),
    );
    add(
        LimitKind::Height,
        format!("key {:.0}° above the eyes", wish.elevation_deg),
        elevation,
        beyond((elevation - wish.elevation_deg).abs(), HEIGHT_TOLERANCE_DEG),
    );
    match ask.softness {
        Softness::Soft => add(
            LimitKind::Softness,
            "soft light".to_owned(),
            key.softness,
            beyond(LEAST_SOFT - key.softness, 0.0),
        ),
        Softness::Hard => add(
            LimitKind::Softness,
            "hard light".to_owned(),
            key.softness,
            beyond(key.softness - MOST_HARD, 0.0),
        ),
        Softness::Any => {}
    }
    if let Some(ratio) = ask.ratio {
        let off = (key.ratio.max(1e-3) / ratio.value()).log2();
        add(
            LimitKind::Ratio,
            format!("ratio {ratio}"),
            off,
            beyond(off.abs(), LEVEL_TOLERANCE),
        );
    }
    if let Some(most) = ask.evenness {
        add(
            LimitKind::Evenness,
            format!("faces within {}", stops(most.value())),
            outcome.spread,
            beyond(outcome.spread, most.value() + 0.05),
        );
    }
    if let Some(wish) = ask.background {
        let off = outcome.background - wish.value();
        add(
            LimitKind::Background,
            format!("background {:+.1} stops against the face", wish.value()),
            outcome.background,
            beyond(off.abs(), LEVEL_TOLERANCE),
        );
    }
    for (wish, found) in balance::zone_wishes(job, outcome.settings) {
        let off = (found - wish.at).value().abs();
        let asked = format!("{} at {:+.1} stops", wish.name, wish.at.value());
        add(
            LimitKind::Zone,
            asked,
            found.value(),
            beyond(off, balance::ZONE_TOLERANCE),
        );
    }
    let (asked, off) = match ask.ambient {
        AmbientWish::Any => return,
        AmbientWish::Out => (
            "ambient out of the picture".to_owned(),
            outcome.ambient - OUT_OF_THE_PICTURE - CLICK,
        ),
        AmbientWish::Offset(wish) => (
            format!("ambient at {:+.1} stops", wish.value()),
            (outcome.ambient - wish.value()).abs() - LEVEL_TOLERANCE,
        ),
    };
    add(LimitKind::Ambient, asked, outcome.ambient, off);
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

fn stops(value: f64) -> String {
    if (value - 1.0).abs() < 1e-9 {
        "1 stop".to_owned()
    } else {
        format!("{value:.1} stops")
    }
}

/// What is missed, as words after "the left wall, ".
pub(crate) fn missed_words(limit: &Limit) -> String {
    let short = limit.short;
    match limit.kind {
        LimitKind::Power => format!("{:.1} stops of flash short of {}", short + CLICK, limit.asked),
        LimitKind::LeastPower => format!("{:.1} stops too bright even at the least power", short + CLICK),
        LimitKind::Recycle => format!("{short:.1} s too slow for {} ({:.1} s)", limit.asked, limit.found),
        LimitKind::Cast => format!("{short:.0} mired over {} ({:+.0})", limit.asked, limit.found),
        LimitKind::GreenMagenta => format!(
            "too {} on skin (Duv {:+.3})",
            if limit.found > 0.0 { "green" } else { "magenta" },
            limit.found
        ),
        LimitKind::Direction => format!(
            "{short:.0}° outside \"{}\" ({:.0}° {})",
            limit.asked,
            limit.found.abs(),
            crate::words::side_words(limit.found)
        ),
        LimitKind::Height => format!("{short:.0}° off in height ({:.0}°)", limit.found),
        LimitKind::Softness => format!("not {} ({:.2} wide for its distance)", limit.asked, limit.found),
        LimitKind::Ratio => format!("{:.1} stops off the {}", limit.found.abs(), limit.asked),
        LimitKind::Evenness => format!("{short:.1} stops too uneven over the faces ({:.1})", limit.found),
        LimitKind::Background => format!(
            "{:.1} stops off \"{}\" ({:+.1})",
            short + LEVEL_TOLERANCE,
            limit.asked,
            limit.found
        ),
        LimitKind::SkinColour | LimitKind::RoomColour => {
            format!(
                "{short:.0} mired beyond \"{}\" ({:+.0})",
                limit.asked, limit.found
            )
        }
        LimitKind::Ambient | LimitKind::Zone => {
            format!("{short:.1} stops off \"{}\" ({:+.1})", limit.asked, limit.found)
        }
    }
}

/// Size of what is missed in points like those of the score, so that the worst comes first (ours).
pub(crate) fn weight(limit: &Limit) -> f64 {
    let unit = match limit.kind {
        LimitKind::Power | LimitKind::LeastPower | LimitKind::Ratio => 0.7,
        LimitKind::Evenness | LimitKind::Background | LimitKind::Ambient | LimitKind::Zone => 0.5,
        LimitKind::Recycle => 1.0,
        LimitKind::Cast | LimitKind::SkinColour | LimitKind::RoomColour => 30.0,
        LimitKind::GreenMagenta => 0.006,
        LimitKind::Direction | LimitKind::Height => 15.0,
        LimitKind::Softness => 0.2,
    };
    limit.short / unit
}
