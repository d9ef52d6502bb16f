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
    let mut limits = vec![Limit::new(in_hand, outcome.power, short - ROUNDED_AWAY)];
    let least = job.bag.flash.least_power_stops();
    if outcome.power > least {
        let over = outcome.power - least - ROUNDED_AWAY;
        limits.push(Limit::new(Wish::LeastPower, outcome.power, over));
    }
    if let Some(seconds) = ask.recycle_s {
        let found = job.bag.flash.recycle_s(outcome.power);
        let longer = found - seconds - tolerance::RECYCLE * seconds;
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
        Limit::new(Wish::SkinWithin { mired }, cast, cast.abs() - mired.value()),
        Limit::new(Wish::NoGreenMagenta, green, green.abs() - UNUSABLE_DUV),
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
            azimuth_off(job, azimuth) - wish.azimuth_tolerance_deg,
        ),
        Limit::new(height, elevation, steeper - tolerance::HEIGHT_DEG),
    ];
    limits.extend(match ask.softness {
        Softness::Soft => {
            let short = tolerance::LEAST_SOFT - key.softness;
            Some(Limit::new(Wish::Soft, key.softness, short))
        }
        Softness::Hard => {
            let over = key.softness - tolerance::MOST_HARD;
            Some(Limit::new(Wish::Hard, key.softness, over))
        }
        Softness::Any => None,
    });
    limits.extend(ask.ratio.map(|ratio| {
        let off = (key.ratio.max(1e-3) / ratio.value()).log2();
        Limit::new(Wish::Ratio { ratio }, off, off.abs() - tolerance::LEVEL)
    }));
    limits
}

/// What is insisted on of levels: of the faces against one another, of the background, the zones and the light that is
/// there.
fn level_limits(job: &Job, outcome: &Outcome) -> Vec<Limit> {
    let ask = &job.ask;
    let mut limits = Vec::new();
    limits.extend(ask.evenness.map(|stops| {
        let over = outcome.spread - (stops.value() + tolerance::EVENNESS);
        Limit::new(Wish::FacesWithin { stops }, outcome.spread, over)
    }));
    limits.extend(ask.background.map(|stops| {
        let off = (outcome.background - stops.value()).abs();
        let asked = Wish::Background { stops };
        Limit::new(asked, outcome.background, off - tolerance::LEVEL)
    }));
    for (wish, found) in zone_wishes(job, outcome.settings) {
        let off = (found - wish.at).value().abs();
        let asked = Wish::Zone {
            name: wish.name,
            stops: wish.at,
        };
        limits.push(Limit::new(asked, found.value(), off - WITHIN_A_CLICK));
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

#[cfg(test)]
mod tests {
    use super::*;
    use crate::trials::made_up;
    use answer::{Settings, Zone, ZoneWish};
    use units::{Duv, Ev, MiredShift, Stops};

    /// Everything that limits are taken of, with nothing missed.
    struct Case {
        job: Job,
        key: KeyReading,
        from: (f64, f64),
        power: f64,
        spread: f64,
        background: f64,
        ambient: f64,
        settings: Settings,
    }

    fn limits_of(change: impl FnOnce(&mut Case)) -> Vec<Limit> {
        let mut case = Case {
            job: made_up::job(),
            key: made_up::key(),
            from: (-40.0, 28.0),
            power: 2.0,
            spread: 0.0,
            background: 0.0,
            ambient: -8.0,
            settings: made_up::settings(),
        };
        change(&mut case);
        let outcome = Outcome {
            key: &case.key,
            from: case.from,
            power: case.power,
            spread: case.spread,
            background: case.background,
            ambient: case.ambient,
            settings: &case.settings,
        };
        limits(&case.job, &outcome)
    }

    /// What is missed by how much after a change, and nothing else.
    fn check(change: impl FnOnce(&mut Case), missed: Option<(LimitKind, f64)>) {
        let limits = limits_of(change);
        let found: Vec<&Limit> = limits.iter().filter(|limit| !limit.met).collect();
        match missed {
            None => assert!(found.is_empty(), "{found:?}"),
            Some((kind, short)) => {
                assert!(found.len() == 1 && found[0].kind == kind, "{found:?}");
                assert!(
                    (found[0].short - short).abs() < 1e-6,
                    "{found:?} instead of {short}"
                );
            }
        }
    }

    #[test]
    fn what_is_insisted_on_is_listed_even_when_it_is_met() {
        let limits = limits_of(|_| {});
        let kinds: Vec<LimitKind> = limits.iter().map(|limit| limit.kind).collect();
        let expected = [
            LimitKind::Power,
            LimitKind::Cast,
            LimitKind::GreenMagenta,
            LimitKind::Direction,
            LimitKind::Height,
            LimitKind::Softness,
        ];
        assert_eq!(kinds, expected);
        assert!(limits.iter().all(|limit| limit.met && limit.short == 0.0));
    }

    #[test]
    fn power_is_missed_beyond_half_a_click() {
        check(|case| case.power = 0.9, None);
        check(
            |case| case.power = 0.5,
            Some((LimitKind::Power, 0.5 - ROUNDED_AWAY)),
        );
        let least = made_up::job().bag.flash.least_power_stops();
        check(
            |case| case.power = least + 1.0,
            Some((LimitKind::LeastPower, 1.0 - ROUNDED_AWAY)),
        );
        let wait = made_up::job().bag.flash.recycle_s(2.0);
        check(|case| case.job.ask.recycle_s = Some(wait), None);
        check(
            |case| case.job.ask.recycle_s = Some(0.5 * wait),
            Some((LimitKind::Recycle, 0.5 * wait - 0.01 * wait)),
        );
    }

    #[test]
    fn skin_is_missed_as_soon_as_it_is_off() {
        check(|case| case.key.cast.shift = MiredShift(-39.0), None);
        check(
            |case| case.key.cast.shift = MiredShift(-45.0),
            Some((LimitKind::Cast, 5.0)),
        );
        check(
            |case| case.key.cast.duv = Duv(-0.010),
            Some((LimitKind::GreenMagenta, 0.002)),
        );
        check(
            |case| {
                case.job.ask.neutral_skin = false;
                case.key.cast.shift = MiredShift(90.0);
            },
            None,
        );
    }

    #[test]
    fn the_key_is_missed_beyond_its_tolerances() {
        check(|case| case.from.0 = 58.0, None);
        check(|case| case.from.0 = -65.0, Some((LimitKind::Direction, 5.0)));
        // From the other side the nearest angle is the wish there.
        check(
            |case| case.job.ask.key.side = Some(Side::Right),
            Some((LimitKind::Direction, 60.0)),
        );
        check(|case| case.from.1 = 60.0, Some((LimitKind::Height, 7.0)));
        check(|case| case.key.softness = 0.2, Some((LimitKind::Softness, 0.05)));
        check(
            |case| case.job.ask.softness = Softness::Hard,
            Some((LimitKind::Softness, 0.25)),
        );
        check(|case| case.job.ask.ratio = "2:1".parse().ok(), None);
        check(
            |case| case.job.ask.ratio = "8:1".parse().ok(),
            Some((LimitKind::Ratio, 1.5)),
        );
    }

    #[test]
    fn a_ratio_is_found_as_stops_off_the_wish() {
        let limits = limits_of(|case| case.job.ask.ratio = "4:1".parse().ok());
        let ratio = limits.iter().find(|limit| limit.kind == LimitKind::Ratio);
        assert!((ratio.expect("it was asked").found + 1.0).abs() < 1e-9);
    }

    #[test]
    fn levels_are_missed_beyond_their_tolerances() {
        check(
            |case| {
                case.job.ask.evenness = Some(Stops(0.3));
                case.spread = 0.5;
            },
            Some((LimitKind::Evenness, 0.15)),
        );
        check(
            |case| case.job.ask.background = Some(Stops(-1.0)),
            Some((LimitKind::Background, 0.5)),
        );
        check(
            |case| {
                case.job.ask.ambient = AmbientWish::Out;
                case.ambient = -2.0;
            },
            Some((LimitKind::Ambient, 1.0 - ROUNDED_AWAY)),
        );
        check(
            |case| {
                case.job.ask.ambient = AmbientWish::Offset(Stops(-2.0));
                case.ambient = -3.0;
            },
            Some((LimitKind::Ambient, 0.5)),
        );
    }

    #[test]
    fn a_zone_is_missed_beyond_a_click() {
        let at = |off: f64| {
            move |case: &mut Case| {
                let normal = Ev(case.settings.exposing().ev().value() + off);
                let name = || "sky".to_owned();
                case.job.zones = vec![Zone {
                    name: name(),
                    normal,
                    kelvin: None,
                }];
                case.job.ask.zones = vec![ZoneWish {
                    name: name(),
                    at: Stops(0.0),
                }];
            }
        };
        check(at(0.3), None);
        check(at(-1.0), Some((LimitKind::Zone, 1.0 - WITHIN_A_CLICK)));
    }
}
