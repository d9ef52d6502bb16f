//! Every wish of an ask against the finished picture: what was read, how far that is off, and what that weighs.
//!
//! There is one judgement. The points of these wishes, with those of what a way takes, are the sum that the search makes
//! least, and the same numbers say what is kept, nearly kept or missed. Tolerances and weights stand in `practice`.

use crate::judge::exposure::{Levels, set_power, total_at};
use crate::judge::zones::zone_wishes;
use crate::place::amounts::Finished;
use crate::practice::{HARDLY_THERE, ROUNDED_AWAY, wish};
use answer::{AmbientWish, Job, Judgement, Side, Softness, Wish};
use units::Stops;

/// What a way comes to at its settings.
pub(crate) struct Outcome<'a> {
    pub picture: Finished<'a>,
    /// Azimuth and height of the key, in degrees.
    pub from: (f64, f64),
    pub levels: Levels<'a>,
    /// Width of the flash's light over its distance.
    pub softness: f64,
}

/// Every wish, and what comes of it. Those of colour are judged apart, for they need the balance.
pub(crate) fn wishes(job: &Job, outcome: &Outcome<'_>) -> Vec<Judgement> {
    let mut all = level_wishes(job, &outcome.levels);
    all.extend(picture_wishes(job, outcome));
    for judgement in &mut all {
        judgement.must |= job.ask.musts.contains(&judgement.kind);
    }
    all
}

/// What is wished of exposure, power, the light that is there, and the zones.
pub(crate) fn level_wishes(job: &Job, levels: &Levels<'_>) -> Vec<Judgement> {
    let ask = &job.ask;
    let mut all = vec![exposed(job, levels), in_hand(job, levels.power)];
    all.extend(ask.recycle_s.map(|seconds| {
        let found = job.bag.flash.recycle_s(set_power(job, levels.power));
        let (share, weight) = wish::RECYCLE;
        let off = found - seconds;
        Judgement::new(Wish::Recycle { seconds }, found, off, share * seconds, weight)
    }));
    all.extend(ambient(ask.ambient, levels.ambient));
    all.extend(ask.fill.map(|stops| {
        let flash = levels.full - set_power(job, levels.power);
        let found = levels.ambient - flash;
        let (tolerance, weight) = wish::FILL;
        let off = (found - stops.value()).abs();
        Judgement::new(Wish::FlashUnder { stops }, found, off, tolerance, weight)
    }));
    let (tolerance, weight) = wish::ZONE;
    for (zone, found) in zone_wishes(job, levels.settings) {
        let off = (found - zone.at).value().abs();
        let asked = Wish::Zone {
            name: zone.name,
            stops: zone.at,
        };
        all.push(Judgement::new(asked, found.value(), off, tolerance, weight));
    }
    all
}

/// A face that is neither short of light at full power nor too bright at the least: the one wish that nothing replaces.
fn exposed(job: &Job, levels: &Levels<'_>) -> Judgement {
    let found = total_at(job, levels);
    let (tolerance, weight) = wish::EXPOSURE;
    // Power comes in clicks: what rounding to one leaves is not held against a way.
    let off = found.abs() - ROUNDED_AWAY;
    Judgement::new(Wish::Exposed, found, off, tolerance, weight).as_must(true)
}

fn in_hand(job: &Job, power: f64) -> Judgement {
    let stops = job.ask.in_hand;
    // A flash that is short has nothing in hand; what the face lacks is told of its exposure.
    let found = set_power(job, power);
    let (tolerance, weight) = wish::IN_HAND;
    Judgement::new(
        Wish::InHand { stops },
        found,
        stops.value() - found,
        tolerance,
        weight,
    )
}

/// What is wished of the light that is there, at this level.
fn ambient(asked: AmbientWish, found: f64) -> Option<Judgement> {
    match asked {
        AmbientWish::Any => None,
        AmbientWish::Out => {
            let (tolerance, weight) = wish::OUT;
            let off = found - HARDLY_THERE;
            Some(Judgement::new(Wish::AmbientOut, found, off, tolerance, weight))
        }
        AmbientWish::Offset(stops) => {
            let (tolerance, weight) = wish::AMBIENT;
            let off = (found - stops.value()).abs();
            Some(Judgement::new(
                Wish::AmbientAt { stops },
                found,
                off,
                tolerance,
                weight,
            ))
        }
    }
}

/// What is wished of the light on the faces and behind them.
pub(crate) fn picture_wishes(job: &Job, outcome: &Outcome<'_>) -> Vec<Judgement> {
    let ask = &job.ask;
    let mut all = key_wishes(job, outcome);
    all.extend(
        match ask.softness {
            Softness::Soft => Some((Wish::Soft, wish::SOFT, -1.0)),
            Softness::Hard => Some((Wish::Hard, wish::HARD, 1.0)),
            Softness::Any => None,
        }
        .map(|(asked, (width, tolerance, weight), sign)| {
            let off = sign * (outcome.softness.max(1e-3) / width).log2();
            Judgement::new(asked, outcome.softness, off, tolerance, weight)
        }),
    );
    all.extend(ask.ratio.map(|ratio| {
        let found = outcome.picture.ratio();
        let off = (found / ratio.value()).log2().abs();
        let (tolerance, weight) = wish::RATIO;
        Judgement::new(Wish::Ratio { ratio }, found, off, tolerance, weight)
    }));
    all.extend(evenness(job, outcome));
    all.extend(ask.background.map(|stops| {
        let found = outcome.picture.background();
        let off = (found - stops.value()).abs();
        let (tolerance, weight) = wish::BACKGROUND;
        Judgement::new(Wish::Background { stops }, found, off, tolerance, weight)
    }));
    all
}

/// Where the key comes from, and whether it reaches the eyes.
fn key_wishes(job: &Job, outcome: &Outcome<'_>) -> Vec<Judgement> {
    let key = &job.ask.key;
    let (azimuth, elevation) = outcome.from;
    let from = Wish::KeyFrom {
        azimuth_deg: key.azimuth_deg,
        side: key.side,
        tolerance_deg: key.azimuth_tolerance_deg,
    };
    let tolerance = key.azimuth_tolerance_deg.max(wish::NARROWEST_DEG);
    let off = azimuth_off(job, azimuth);
    let (high, height) = wish::HEIGHT;
    let (level, dark, eyes) = wish::EYES;
    let steeper = (key.elevation_deg - wish::EYES_UNDER_STEEP_DEG).max(0.0);
    let least = level - steeper / wish::EYES_UNDER_STEEP_DEG;
    // Rembrandt and split light leave the far eye in the shadow by what they are.
    let lit_side = key.azimuth_deg >= wish::LIT_EYE_DEG;
    let sockets = match lit_side {
        true => outcome.picture.lit_socket(),
        false => outcome.picture.sockets(),
    };
    vec![
        Judgement::new(from, azimuth, off, tolerance, wish::DIRECTION),
        Judgement::new(
            Wish::KeyHeight {
                elevation_deg: key.elevation_deg,
            },
            elevation,
            (elevation - key.elevation_deg).abs(),
            high,
            height,
        ),
        Judgement::new(
            Wish::OpenEyes {
                stops: Stops(least - dark),
                lit_side,
            },
            sockets,
            least - sockets,
            dark,
            eyes,
        ),
    ]
}

/// Degrees between an azimuth and the nearest one that was asked for; positive is the camera's right.
pub(crate) fn azimuth_off(job: &Job, azimuth: f64) -> f64 {
    let wished = job.ask.key.azimuth_deg;
    // Round the back of the head is no further than the other way.
    let apart = |other: f64| {
        let off = (azimuth - other).rem_euclid(360.0);
        off.min(360.0 - off)
    };
    match job.ask.key.side {
        Some(Side::Left) => apart(-wished),
        Some(Side::Right) => apart(wished),
        None => apart(wished).min(apart(-wished)),
    }
}

/// Faces alike: within what was asked, or within what is hardly seen.
fn evenness(job: &Job, outcome: &Outcome<'_>) -> Option<Judgement> {
    let found = outcome.picture.spread();
    match job.ask.evenness {
        Some(stops) => {
            let (tolerance, weight) = wish::EVENNESS;
            let off = found - stops.value();
            Some(Judgement::new(
                Wish::FacesWithin { stops },
                found,
                off,
                tolerance,
                weight,
            ))
        }
        None if job.sitters.len() > 1 => {
            let (stops, weight) = wish::EVENNESS_UNASKED;
            let asked = Wish::FacesWithin { stops: Stops(stops) };
            Some(Judgement::new(asked, found, found, stops, weight))
        }
        None => None,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::place::amounts::Amounts;
    use crate::place::meters::SEEN_BEHIND;
    use crate::trials::made_up;
    use answer::{Settings, WishKind, WishState, Zone, ZoneWish};
    use glam::Vec3;
    use units::Ev;

    /// Everything that wishes are judged by, with nothing off.
    struct Case {
        job: Job,
        flash: Amounts,
        from: (f64, f64),
        softness: f64,
        full: f64,
        power: f64,
        ambient: f64,
        settings: Settings,
    }

    fn judged(change: impl FnOnce(&mut Case)) -> Vec<Judgement> {
        let mut case = Case {
            job: made_up::job(),
            flash: made_up::amounts(),
            from: (-40.0, 28.0),
            softness: 0.6,
            full: 2.0,
            power: 2.0,
            ambient: -20.0,
            settings: made_up::settings(),
        };
        change(&mut case);
        let outcome = Outcome {
            picture: Finished {
                flash: &case.flash,
                power: 1.0,
                ambient: &Amounts::default(),
                seconds: 0.005,
            },
            from: case.from,
            softness: case.softness,
            levels: Levels {
                full: case.full,
                power: case.power,
                ambient: case.ambient,
                settings: &case.settings,
            },
        };
        wishes(&case.job, &outcome)
    }

    /// What is off after a change, by how much and how badly, and nothing else.
    fn check(change: impl FnOnce(&mut Case), expected: Option<(WishKind, f64, WishState)>) {
        let all = judged(change);
        let found: Vec<&Judgement> = all.iter().filter(|wish| wish.off > 1e-4).collect();
        match expected {
            None => assert!(found.is_empty(), "{found:?}"),
            Some((kind, off, state)) => {
                let [found] = found[..] else { panic!("{found:?}") };
                assert_eq!((found.kind, found.state), (kind, state), "{found:?}");
                assert!((found.off - off).abs() < 1e-4, "{found:?} instead of {off}");
            }
        }
    }

    #[test]
    fn every_wish_is_listed_even_when_nothing_is_off() {
        let all = judged(|_| {});
        let kinds: Vec<WishKind> = all.iter().map(|wish| wish.kind).collect();
        let expected = [
            WishKind::Exposure,
            WishKind::Power,
            WishKind::Direction,
            WishKind::Height,
            WishKind::Eyes,
            WishKind::Softness,
        ];
        assert_eq!(kinds, expected);
        let kept = |wish: &Judgement| wish.state == WishState::Kept && wish.points < 1e-8;
        assert!(all.iter().all(kept), "{all:?}");
    }

    #[test]
    fn only_exposure_and_what_is_marked_is_a_must() {
        let musts = |change: fn(&mut Case)| -> Vec<WishKind> {
            let all = judged(change);
            let musts = all.iter().filter(|wish| wish.must);
            musts.map(|wish| wish.kind).collect()
        };
        assert_eq!(musts(|_| {}), [WishKind::Exposure]);
        let marked = musts(|case| case.job.ask.musts = vec![WishKind::Height]);
        assert_eq!(marked, [WishKind::Exposure, WishKind::Height]);
    }

    #[test]
    fn a_flash_that_is_too_weak_or_too_strong_leaves_the_face_off() {
        let short = |case: &mut Case| {
            case.job.ask.in_hand = Stops(0.0);
            (case.full, case.power) = (-1.0, -1.0);
        };
        check(
            short,
            Some((WishKind::Exposure, 1.0 - ROUNDED_AWAY, WishState::Missed)),
        );
        let least = made_up::job().bag.flash.least_power_stops();
        let strong = |case: &mut Case| (case.full, case.power) = (least + 0.5, least + 0.5);
        check(
            strong,
            Some((WishKind::Exposure, 0.5 - ROUNDED_AWAY, WishState::Nearly)),
        );
    }

    #[test]
    fn power_and_waits_are_judged_by_what_is_left() {
        let at = |power: f64| move |case: &mut Case| (case.full, case.power) = (power, power);
        // What counts is the power that is set, to the nearest click.
        check(at(0.9), None);
        check(at(0.7), Some((WishKind::Power, 1.0 / 3.0, WishState::Nearly)));
        check(at(0.3), Some((WishKind::Power, 2.0 / 3.0, WishState::Missed)));
        let wait = made_up::job().bag.flash.recycle_s(2.0);
        check(|case| case.job.ask.recycle_s = Some(wait), None);
        check(
            |case| case.job.ask.recycle_s = Some(0.5 * wait),
            Some((WishKind::Recycle, 0.5 * wait, WishState::Missed)),
        );
    }

    #[test]
    fn the_key_is_judged_by_its_tolerances() {
        check(
            |case| case.from.0 = 58.0,
            Some((WishKind::Direction, 18.0, WishState::Kept)),
        );
        check(
            |case| case.from.0 = -65.0,
            Some((WishKind::Direction, 25.0, WishState::Nearly)),
        );
        check(
            |case| case.job.ask.key.side = Some(Side::Right),
            Some((WishKind::Direction, 80.0, WishState::Missed)),
        );
        // From behind the shorter way round counts.
        check(
            |case| {
                case.job.ask.key.side = Some(Side::Left);
                case.from.0 = 175.0;
            },
            Some((WishKind::Direction, 145.0, WishState::Missed)),
        );
        check(
            |case| case.from.1 = 60.0,
            Some((WishKind::Height, 32.0, WishState::Missed)),
        );
        check(
            |case| case.flash.sockets = case.flash.below_eyes.map(|cheek| 0.25 * cheek),
            Some((WishKind::Eyes, 1.0, WishState::Nearly)),
        );
    }

    #[test]
    fn the_edge_is_judged_in_doublings_of_the_width() {
        check(
            |case| case.softness = 0.25,
            Some((WishKind::Softness, 1.0, WishState::Kept)),
        );
        check(
            |case| case.softness = 0.0625,
            Some((WishKind::Softness, 3.0, WishState::Missed)),
        );
        check(
            |case| {
                case.job.ask.softness = Softness::Hard;
                case.softness = 0.4;
            },
            Some((WishKind::Softness, 1.0, WishState::Nearly)),
        );
        check(
            |case| {
                case.job.ask.softness = Softness::Any;
                case.softness = 0.01;
            },
            None,
        );
    }

    #[test]
    fn levels_are_judged_in_stops() {
        // The made-up cheeks are 2:1.
        check(|case| case.job.ask.ratio = "2:1".parse().ok(), None);
        check(
            |case| case.job.ask.ratio = "8:1".parse().ok(),
            Some((WishKind::Ratio, 2.0, WishState::Missed)),
        );
        check(
            |case| {
                case.job.ask.evenness = Some(Stops(0.3));
                case.flash.others = vec![0.5];
            },
            Some((WishKind::Evenness, 0.7, WishState::Missed)),
        );
        check(
            |case| {
                case.job.ask.background = Some(Stops(-1.0));
                case.flash.background = [0.25; SEEN_BEHIND];
            },
            Some((WishKind::Background, 1.0, WishState::Nearly)),
        );
        let faint = |case: &mut Case| {
            case.ambient = -2.0;
            case.full = 2.0 + 0.75f64.log2();
        };
        check(
            |case| {
                faint(case);
                case.job.ask.ambient = AmbientWish::Out;
            },
            Some((WishKind::Ambient, 1.0, WishState::Missed)),
        );
        check(
            |case| {
                faint(case);
                case.job.ask.ambient = AmbientWish::Offset(Stops(-1.0));
            },
            Some((WishKind::Ambient, 1.0, WishState::Nearly)),
        );
    }

    #[test]
    fn a_fill_is_judged_against_the_light_that_is_there() {
        // A quarter of the light from the flash is log2 3 under the rest.
        check(
            |case| {
                (case.ambient, case.full) = (0.75f64.log2(), 0.0);
                case.job.ask.fill = Some(Stops(1.0));
            },
            Some((WishKind::Fill, 3.0f64.log2() - 1.0, WishState::Nearly)),
        );
    }

    #[test]
    fn a_zone_is_kept_within_a_click() {
        let at = |off: f64| {
            move |case: &mut Case| {
                let normal = Ev(case.settings.exposing().ev().value() + off);
                let name = "sky".to_owned();
                case.job.zones = vec![Zone {
                    name: name.clone(),
                    normal,
                    kelvin: None,
                }];
                case.job.ask.zones = vec![ZoneWish { name, at: Stops(0.0) }];
            }
        };
        check(at(0.3), Some((WishKind::Zone, 0.3, WishState::Kept)));
        check(at(-0.6), Some((WishKind::Zone, 0.6, WishState::Nearly)));
        check(at(1.0), Some((WishKind::Zone, 1.0, WishState::Missed)));
    }

    #[test]
    fn directions_are_those_of_the_light_vector() {
        let amounts = made_up::amounts();
        let picture = Finished {
            flash: &amounts,
            power: 1.0,
            ambient: &Amounts::default(),
            seconds: 1.0,
        };
        let (azimuth, elevation) = picture.direction(Vec3::NEG_Y);
        assert!((azimuth + 45.0).abs() < 1e-3 && elevation.abs() < 1e-3);
    }
}
