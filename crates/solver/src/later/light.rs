//! What to set when the light that is there is another than planned, with the aim left as it is.

use crate::explain::following::followed;
use crate::judge::exposure::{allowed, hand_held, in_hand, power_for_total, settable_power};
use crate::judge::zones::zone_wishes;
use crate::practice::{CLICK, HALF_A_CLICK, HARDLY_THERE, STILL_A_KEY, WITHIN_A_CLICK};
use answer::{Adjusted, AmbientWish, Answer, Job, LightChange, Loss, Settings};
use camera::add_exposures;
use units::{Iso, Stops};

/// The settings for another light with the same aim: the shutter follows it, then speed, then aperture, and the power
/// fills what is missing on the face.
///
/// What was wished of the ambient light and the zones is kept where the camera can; where nothing was wished, the
/// camera stays until the ambient light would take the face over.
pub fn when_light_changes(job: &Job, answer: &Answer, by: Stops) -> LightChange {
    let now = &answer.settings;
    if by.value().abs() < 1e-9 {
        return LightChange {
            by,
            then: as_planned(answer),
            instead: None,
            lost: Vec::new(),
        };
    }
    let wanted = to_follow(job, answer, by);
    // As much of the change is followed as leaves the flash strong enough; the rest is lost.
    let floor = answer.flash.in_hand.value().min(0.0) - HALF_A_CLICK;
    let clicks = (wanted.abs() / CLICK).ceil() as u32;
    let strong_enough = (0..=clicks).find_map(|back| {
        let less = (wanted.abs() - f64::from(back) * CLICK).max(0.0);
        let change = less.copysign(wanted);
        let settings = if less == 0.0 {
            *now
        } else {
            followed(job, now, Stops(change), 0.0)?
        };
        let then = adjusted(job, answer, settings, by, Stops(0.0))?;
        (then.in_hand.value() >= floor).then_some((then, wanted - change))
    });
    let unchanged = || adjusted(job, answer, *now, by, Stops(0.0)).unwrap_or_else(|| as_planned(answer));
    let (then, left) = strong_enough.unwrap_or_else(|| (unchanged(), wanted));
    let then = faster_where_short(job, answer, then, by, floor);
    let slow = !hand_held(then.settings.shutter) && hand_held(now.shutter);
    let instead = (1..=6)
        .filter(|_| slow)
        .filter_map(|stops| followed(job, now, Stops(wanted - left), f64::from(stops)))
        .filter_map(|settings| adjusted(job, answer, settings, by, Stops(0.0)))
        .find(|way| {
            let exposes = way.in_hand.value() >= floor && way.total.value() < CLICK + HALF_A_CLICK;
            exposes && hand_held(way.settings.shutter)
        });
    let lost = losses(job, answer, &then, left, slow && instead.is_none());
    LightChange {
        by,
        then,
        instead,
        lost,
    }
}

/// The flash in an adjusted picture when distances have changed its light on the face by so many stops.
pub fn when_flash_changes(
    job: &Job,
    answer: &Answer,
    picture: &Adjusted,
    by_light: Stops,
    by_flash: Stops,
) -> Adjusted {
    if by_flash.value().abs() < 1e-9 {
        return picture.clone();
    }
    adjusted(job, answer, picture.settings, by_light, by_flash).unwrap_or_else(|| picture.clone())
}

/// How much of a change must be answered by the camera, in stops; positive where the light has become too bright.
fn to_follow(job: &Job, answer: &Answer, by: Stops) -> f64 {
    let ambient = answer.exposure.ambient_alone.map(Stops::value);
    // What is within a click of its wish is left where it is; what could not be had so far may come right now.
    let from_wish = |off: f64| {
        if off.abs() <= WITHIN_A_CLICK {
            by.value()
        } else {
            by.value() + off
        }
    };
    let zones = zone_wishes(job, &answer.settings);
    if !zones.is_empty() {
        let off: f64 = zones
            .iter()
            .map(|(wish, level)| level.value() - wish.at.value())
            .sum();
        return from_wish(off / zones.len() as f64);
    }
    let most = |limit: f64| ambient.map_or(0.0, |now| (now + by.value() - limit.max(now)).max(0.0));
    match job.ask.ambient {
        AmbientWish::Offset(wish) => ambient.map_or(0.0, |now| from_wish(now - wish.value())),
        AmbientWish::Out => most(HARDLY_THERE),
        AmbientWish::Any => most(STILL_A_KEY),
    }
}

/// The picture in the light that was planned.
fn as_planned(answer: &Answer) -> Adjusted {
    Adjusted {
        settings: answer.settings,
        power: answer.flash.power,
        in_hand: answer.flash.in_hand,
        ambient: answer.exposure.ambient_alone,
        flash: answer.exposure.flash_alone,
        total: answer.exposure.total,
    }
}

/// The face at other settings, in another light, with the flash's light on it changed: counted as the answer was.
fn adjusted(
    job: &Job,
    answer: &Answer,
    settings: Settings,
    by_light: Stops,
    by_flash: Stops,
) -> Option<Adjusted> {
    let now = &answer.settings;
    // Against the answer: what the camera takes from flash and from ambient light.
    let on_flash =
        settings.speed().stops_faster_than(now.speed()) - settings.aperture.stops_darker_than(now.aperture);
    let on_ambient = now.exposing().ev() - settings.exposing().ev();
    let full = answer.exposure.power_for_flash_alone + on_flash.value() + by_flash.value();
    let ambient = answer
        .exposure
        .ambient_alone
        .map(|stops| stops + on_ambient + by_light);
    let exact = power_for_total(full, ambient.map_or(f64::NEG_INFINITY, Stops::value));
    let power = settable_power(job, exact).ok()?;
    let flash = Stops(full - power.stops_below_full());
    let parts: Vec<Stops> = ambient.into_iter().chain([flash]).collect();
    let total = add_exposures(&parts).unwrap_or(flash);
    Some(Adjusted {
        in_hand: Stops(in_hand(exact, power.stops_below_full(), total.value())),
        total,
        settings,
        power,
        ambient,
        flash,
    })
}

/// A flash that falls short in less light is helped by speed, as far as the ambient light stays where it was.
fn faster_where_short(job: &Job, answer: &Answer, then: Adjusted, by: Stops, floor: f64) -> Adjusted {
    let before = answer
        .exposure
        .ambient_alone
        .map_or(f64::NEG_INFINITY, Stops::value);
    if then.in_hand.value() >= floor {
        return then;
    }
    let speeds = (1..=9).filter_map(|thirds| {
        let iso = then.settings.iso.value() * (f64::from(thirds) * CLICK).exp2();
        let iso = Iso::new(iso).ok()?.nearest_third();
        let settings = Settings { iso, ..then.settings };
        adjusted(job, answer, settings, by, Stops(0.0)).filter(|_| allowed(job, iso))
    });
    let mut fit = speeds.filter(|way| {
        way.in_hand.value() >= floor
            && way
                .ambient
                .is_none_or(|ambient| ambient.value() <= before + HALF_A_CLICK)
    });
    fit.next().unwrap_or(then)
}

/// What the new settings cannot keep. `left` is how much of the change the camera has not followed; `shaky` says that
/// no shutter that can be held was found.
fn losses(job: &Job, answer: &Answer, then: &Adjusted, left: f64, shaky: bool) -> Vec<Loss> {
    let mut losses = Vec::new();
    if left > HALF_A_CLICK {
        losses.push(Loss::AmbientBrighter { stops: Stops(left) });
    } else if left < -HALF_A_CLICK {
        losses.push(Loss::AmbientDarker { stops: Stops(-left) });
    }
    if then.in_hand.value() < -HALF_A_CLICK {
        losses.push(Loss::FlashShort { stops: -then.in_hand });
    }
    if then.total.value() > CLICK + HALF_A_CLICK {
        losses.push(Loss::FaceTooBright { stops: then.total });
    }
    let (aperture, instead_of) = (then.settings.aperture, answer.settings.aperture);
    if job.ask.aperture.is_some() && aperture != instead_of {
        losses.push(Loss::OtherAperture { aperture, instead_of });
    }
    if shaky {
        let shutter = then.settings.shutter;
        losses.push(Loss::SlowForAPerson { shutter });
    }
    losses
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::solve::answer;
    use crate::trials::random_job;
    use answer::{Ambient, AmbientFrom, AmbientLevel, LampShape, MeterFacing};
    use colour::LightColour;
    use units::{Ev, Kelvin};

    const SEED: u64 = 1;

    /// Light from all round at the face, metered.
    fn lit(job: &Job, ev: f64) -> Job {
        let mut job = job.clone();
        job.ambients = vec![Ambient {
            name: "lamps".to_owned(),
            reading: AmbientLevel::Reading(Ev(ev)),
            facing: MeterFacing::Camera,
            colour: LightColour::planck(Kelvin::new(2856.0).unwrap()),
            kelvin: Kelvin::new(2856.0).unwrap(),
            from: AmbientFrom::AllRound,
            lamp: LampShape::default(),
        }];
        job
    }

    fn clicks(before: &Adjusted, after: &Answer) -> [f64; 4] {
        let (a, b) = (&before.settings, &after.settings);
        [
            b.aperture.stops_darker_than(a.aperture).value(),
            b.shutter.stops_longer_than(a.shutter).value(),
            b.iso.stops_faster_than(a.iso).value(),
            after.flash.power.stops_below_full() - before.power.stops_below_full(),
        ]
    }

    /// With aperture and speed insisted on, another light leaves one answer: the whole answer, given anew for that
    /// light, must come to the same settings within a click.
    #[test]
    fn another_light_is_answered_as_if_it_had_been_asked_for() {
        let mut tried = 0;
        for (wish, ev) in [
            (AmbientWish::Offset(Stops(-2.0)), 5.0),
            (AmbientWish::Out, 4.0),
            (AmbientWish::Any, 5.0),
        ] {
            let mut job = random_job(1);
            job.ask.ambient = wish;
            let first = answer(&lit(&job, ev), SEED).expect("answered");
            for by in [-2.0, 1.0] {
                let fresh = answer(&lit(&job, ev + by), SEED).expect("answered");
                assert_eq!(
                    fresh.aim.route, first.aim.route,
                    "{wish:?} {by}: another aim is another question"
                );
                let told = when_light_changes(&lit(&job, ev), &first, Stops(by));
                let off = clicks(&told.then, &fresh);
                assert!(
                    off.iter().all(|off| off.abs() < CLICK + 0.01),
                    "{wish:?} {by}: {off:?}"
                );
                let ambient = told.then.ambient.unwrap() - fresh.exposure.ambient_alone.unwrap();
                assert!(
                    ambient.value().abs() < CLICK + 0.01,
                    "{wish:?} {by}: ambient {ambient:?}"
                );
                assert!(
                    (told.then.total - fresh.exposure.total).value().abs() < CLICK,
                    "{wish:?} {by}: {:?} and {:?}",
                    told.then.total,
                    fresh.exposure.total
                );
                tried += 1;
            }
        }
        assert_eq!(tried, 6);
    }

    /// The same light is the same answer, down to the last digit.
    #[test]
    fn no_change_changes_nothing() {
        let mut job = lit(&random_job(3), 6.0);
        for wish in [
            AmbientWish::Offset(Stops(-1.0)),
            AmbientWish::Out,
            AmbientWish::Any,
        ] {
            job.ask.ambient = wish;
            let answer = answer(&job, SEED).expect("answered");
            let counted = adjusted(&job, &answer, answer.settings, Stops(0.0), Stops(0.0)).expect("a power");
            assert_eq!(counted.settings, answer.settings);
            assert_eq!(counted.power, answer.flash.power);
            assert!((counted.in_hand - answer.flash.in_hand).value().abs() < 1e-9);
            assert!((counted.total - answer.exposure.total).value().abs() < 1e-9);
            assert_eq!(
                when_light_changes(&job, &answer, Stops(0.0)).then,
                as_planned(&answer)
            );
        }
    }

    /// Over the whole range of a card, either the picture is kept or the card says what is lost, and no setting leaves
    /// the camera's limits.
    #[test]
    fn a_picture_is_kept_or_it_is_said_what_is_lost() {
        let mut lost = 0;
        for room in 0..4 {
            let mut job = lit(&random_job(room), 8.0);
            job.ask.iso = None;
            job.ask.ambient = AmbientWish::Offset(Stops(-1.5));
            let answer = answer(&job, SEED).expect("answered");
            let was = answer.exposure.ambient_alone.unwrap().value();
            // What was wished and could not be had may come right, so the wish is the measure where it is missed.
            let wish = if (was + 1.5).abs() < WITHIN_A_CLICK {
                was
            } else {
                -1.5
            };
            for clicks in -12..=12 {
                let by = Stops(f64::from(clicks) / 3.0);
                let light = when_light_changes(&job, &answer, by);
                for way in std::iter::once(&light.then).chain(&light.instead) {
                    assert!(allowed(&job, way.settings.iso), "{:?}", way.settings);
                    assert!(
                        way.settings.shutter.value()
                            >= answer.settings.shutter.value().min(1.0 / 200.0) - 1e-9
                    );
                    let kept = (way.ambient.unwrap().value() - wish).abs() < CLICK + 0.01
                        && way.total.value().abs() < CLICK
                        && way.in_hand.value() > -HALF_A_CLICK;
                    assert!(kept || !light.lost.is_empty(), "room {room}, {by:?}: {way:?}");
                }
                lost += u32::from(!light.lost.is_empty());
            }
        }
        assert!(lost > 0, "four stops more light are too much for some room");
    }
}
