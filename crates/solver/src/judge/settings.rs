//! Camera settings for a way, by the sum that the search makes least.
//!
//! Shutter, aperture, speed and filter are chosen together, because each of them moves the light that is there, and all
//! but the shutter move the flash as well. The flash's power is never part of it: it fills what is missing at the face,
//! within its range, and never stands in for light that falls elsewhere.

use crate::judge::exposure::{
    Levels, full_power, plain_aperture, power_for_total, set_power, shutters, speeds,
};
use crate::judge::handling::tasteful;
use crate::judge::wishes::{Outcome, level_wishes, picture_wishes};
use crate::place::amounts::Finished;
use crate::practice::{HARDLY_THERE, SLOWEST_HAND_HELD_S, SMALLEST_APERTURE, taste};
use crate::ways::scout::Scout;
use crate::ways::way::Way;
use answer::{AmbientWish, Failure, Job, Settings};
use camera::{ambient_exposure, ev_of, fastest_clean_shutter};
use units::{Duv, FNumber, Illuminance, Iso, ShutterTime, Stops};

/// Stops of speed about the settings of the levels that are tried for the whole picture.
const AROUND_STOPS: f64 = 2.05;

/// Settings for a way that gives this dose at full power (dome, lx s), by exposure, power, the light that is there and the
/// zones alone: those are the same wherever the light comes from.
pub(crate) fn by_levels(scout: &Scout<'_>, dose: f64) -> Result<Settings, Failure> {
    let job = scout.job;
    let plain = plain_aperture(job)?;
    let targets = targets(job, scout.ambient_lx());
    let mut best = Best::new(plain_settings(job, plain));
    for nd in filters(job) {
        for aperture in apertures(job, plain) {
            for iso in speeds(job) {
                let without_shutter = Settings {
                    aperture,
                    iso,
                    nd,
                    ..best.settings
                };
                for shutter in likely_shutters(job, &without_shutter, &targets) {
                    let settings = Settings {
                        shutter,
                        ..without_shutter
                    };
                    best.offer(settings, level_cost(scout, plain, dose, &settings));
                }
            }
        }
    }
    Ok(best.settings)
}

/// Settings for a way by its whole picture, about those that its levels ask for: where light that is there mixes with the
/// flash, the shutter also says where the key comes from and how deep the shadows are.
pub(crate) fn by_the_picture(scout: &Scout<'_>, way: &Way, levels: Settings) -> Result<Settings, Failure> {
    let job = scout.job;
    let there = ambient_exposure(Illuminance(scout.ambient_lx().max(1e-9)), &levels.exposing());
    if there.value() < 2.0 * HARDLY_THERE {
        return Ok(levels);
    }
    let plain = plain_aperture(job)?;
    let dose = way.light.dose();
    let clean = fastest_clean_shutter(job.body.sync);
    let shutters: Vec<ShutterTime> = match job.ask.shutter {
        Some(shutter) => vec![shutter],
        None => shutters(clean).collect(),
    };
    let near = |iso: &Iso| iso.stops_faster_than(levels.iso).value().abs() < AROUND_STOPS;
    let speeds: Vec<Iso> = speeds(job).into_iter().filter(near).collect();
    let mut best = Best::new(levels);
    for iso in speeds {
        for &shutter in &shutters {
            let settings = Settings {
                iso,
                shutter,
                ..levels
            };
            let by_levels = level_cost(scout, plain, dose, &settings);
            // What the levels alone already make worse needs no picture.
            if by_levels < best.cost {
                best.offer(settings, by_levels + picture_cost(scout, way, &settings));
            }
        }
    }
    Ok(best.settings)
}

/// The cheapest settings so far.
struct Best {
    settings: Settings,
    cost: f64,
}

impl Best {
    fn new(settings: Settings) -> Self {
        Best {
            settings,
            cost: f64::INFINITY,
        }
    }

    fn offer(&mut self, settings: Settings, cost: f64) {
        if cost < self.cost {
            *self = Best { settings, cost };
        }
    }
}

/// What settings make of flash and ambient light at the face; `dose` is the flash at full power, in lx s.
pub(crate) fn levels_at<'a>(scout: &Scout<'_>, dose: f64, settings: &'a Settings) -> Levels<'a> {
    let full = full_power(dose, settings.aperture, settings.speed());
    let lux = Illuminance(scout.ambient_lx().max(1e-9));
    let ambient = ambient_exposure(lux, &settings.exposing()).value();
    Levels {
        full,
        power: power_for_total(full, ambient),
        ambient,
        settings,
    }
}

/// The finished picture of a way, with the flash at the power that is set.
pub(crate) fn picture_at<'a>(scout: &'a Scout<'_>, way: &'a Way, levels: &Levels<'_>) -> Finished<'a> {
    Finished {
        flash: &way.light.amounts,
        power: (-set_power(scout.job, levels.power)).exp2() as f32,
        ambient: scout.ambient,
        seconds: (levels.settings.shutter.value() * scout.dimmed) as f32,
    }
}

/// Points of what hangs on settings and dose alone.
fn level_cost(scout: &Scout<'_>, plain: FNumber, dose: f64, settings: &Settings) -> f64 {
    let job = scout.job;
    let levels = levels_at(scout, dose, settings);
    let cost = |wish: &answer::Judgement| {
        let forbidden = wish.forbids() || (job.ask.musts.contains(&wish.kind) && wish.off > wish.tolerance);
        wish.points + if forbidden { taste::FORBIDDEN } else { 0.0 }
    };
    let wishes: f64 = level_wishes(job, &levels).iter().map(cost).sum();
    let taste: f64 = tasteful(job, plain, settings)
        .iter()
        .map(|fault| fault.points)
        .sum();
    wishes + taste
}

/// Points of what the light looks like at settings.
fn picture_cost(scout: &Scout<'_>, way: &Way, settings: &Settings) -> f64 {
    let levels = levels_at(scout, way.light.dose(), settings);
    let picture = picture_at(scout, way, &levels);
    let outcome = Outcome {
        from: picture.direction(scout.survey.stage.sitters[0].facing),
        levels,
        softness: f64::from(way.light.softness),
        picture,
    };
    let wishes = picture_wishes(scout.job, &outcome);
    wishes.iter().map(|wish| wish.points).sum()
}

/// What the camera is set to before anything is chosen.
fn plain_settings(job: &Job, plain: FNumber) -> Settings {
    Settings {
        aperture: plain,
        shutter: job.ask.shutter.unwrap_or(fastest_clean_shutter(job.body.sync)),
        // A camera without a single allowed speed still has its highest.
        iso: job.ask.iso.unwrap_or(job.body.most_iso),
        nd: Stops(0.0),
        white_balance: job.bag.flash.colour_temperature(),
        tint: Duv(0.0),
    }
}

/// No filter, or each of the bag.
fn filters(job: &Job) -> impl Iterator<Item = Stops> {
    std::iter::once(Stops(0.0)).chain(job.bag.nd.iter().copied())
}

/// Whether the aperture is chosen with the other settings: a range was given, or a level was wished that it may serve.
fn aperture_is_free(job: &Job) -> bool {
    let ask = &job.ask;
    let fixed = ask.aperture.is_some() || ask.depth.is_some();
    let levels = !ask.zones.is_empty()
        || !job.bag.nd.is_empty()
        || ask.fill.is_some()
        || matches!(ask.ambient, AmbientWish::Offset(_));
    ask.apertures.is_some() || (!fixed && levels)
}

fn apertures(job: &Job, plain: FNumber) -> Vec<FNumber> {
    let ask = &job.ask;
    if !aperture_is_free(job) {
        return vec![plain];
    }
    let (from, to) = match ask.apertures {
        Some((from, to)) => (
            from.value().max(job.body.widest.value()) * 0.99,
            to.value() * 1.01,
        ),
        None => (job.body.widest.value() * 0.99, SMALLEST_APERTURE),
    };
    let found: Vec<FNumber> = FNumber::series()
        .filter(|f| (from..=to).contains(&f.value()))
        .collect();
    if found.is_empty() { vec![plain] } else { found }
}

/// Exposure values that settings must have for something to come out as it was wished.
fn targets(job: &Job, ambient_lx: f64) -> Vec<f64> {
    let zones = job.ask.zones.iter().filter_map(|wish| {
        let zone = job.zones.iter().find(|zone| zone.name == wish.name)?;
        Some((zone.normal - wish.at).value())
    });
    let level = match job.ask.ambient {
        AmbientWish::Any => None,
        AmbientWish::Out => Some(HARDLY_THERE),
        AmbientWish::Offset(wish) => Some(wish.value()),
    };
    // A face that is exposed right by what is there and a flash so far under it.
    let filled = job.ask.fill.map(|under| -(1.0 + (-under.value()).exp2()).log2());
    let ambient = level
        .into_iter()
        .chain(filled)
        .filter(|_| ambient_lx > 0.0)
        .map(|level| ev_of(Illuminance(ambient_lx)).value() - level);
    let mut targets: Vec<f64> = zones.chain(ambient).collect();
    if targets.len() > 1 {
        // Between two wishes that exclude each other lies the compromise.
        let (low, high) = targets.iter().fold((f64::MAX, f64::MIN), |(low, high), &ev| {
            (low.min(ev), high.max(ev))
        });
        targets.push(0.5 * (low + high));
    }
    targets
}

/// The shutters that one would try with these settings: the fastest clean one, the slowest that can be held, and the
/// clicks nearest to what each level asks.
fn likely_shutters(job: &Job, settings: &Settings, targets: &[f64]) -> Vec<ShutterTime> {
    if let Some(shutter) = job.ask.shutter {
        return vec![shutter];
    }
    let clean = fastest_clean_shutter(job.body.sync);
    let mut likely = vec![clean];
    if targets.is_empty() {
        return likely;
    }
    let one_second = Settings {
        shutter: clean,
        ..*settings
    }
    .exposing()
    .ev()
    .value()
        + clean.value().log2();
    let nearest = |seconds: f64| {
        let held = seconds.clamp(clean.value(), crate::practice::SLOWEST_S);
        ShutterTime::new(held)
            .map(ShutterTime::nearest_third)
            .ok()
            .filter(|shutter| shutter.value() >= clean.value() - 1e-9)
    };
    let wished = targets.iter().map(|target| (one_second - target).exp2());
    for shutter in wished.chain([SLOWEST_HAND_HELD_S]).filter_map(nearest) {
        if !likely.contains(&shutter) {
            likely.push(shutter);
        }
    }
    likely
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::place::survey::Survey;
    use crate::practice::WITHIN_A_CLICK;
    use crate::trials::made_up;
    use crate::ways::beams::Beams;
    use answer::{Zone, ZoneWish};
    use transport::Fineness;
    use units::Ev;

    /// A flash that exposes f/22 at ISO 100, in lx s.
    const DOSE: f64 = 22.0 * 22.0 * 2.5;

    /// A job with a sky that is wished at a level.
    fn under_a_sky(normal: f64, at: f64) -> Job {
        let mut job = made_up::job();
        job.zones = vec![Zone {
            name: "sky".to_owned(),
            normal: Ev(normal),
            kelvin: None,
        }];
        job.ask.zones = vec![ZoneWish {
            name: "sky".to_owned(),
            at: Stops(at),
        }];
        job.ask.aperture = None;
        job.ask.iso = None;
        job
    }

    /// What is set for such a dose in a place without any other light.
    fn settings_for(job: &Job) -> Settings {
        let survey = Survey::new(&made_up::job(), Fineness::SKETCH, 1).unwrap();
        let beams = Beams::only(&made_up::job(), 50.0, light::HeadDress::Bare).unwrap();
        by_levels(&Scout::new(job, &survey, &beams, 1), DOSE).unwrap()
    }

    #[test]
    fn a_sky_within_reach_comes_out_as_it_was_wished() {
        let check = |normal: f64, at: f64| {
            let settings = settings_for(&under_a_sky(normal, at));
            let level = normal - settings.exposing().ev().value();
            assert!(
                (level - at).abs() <= WITHIN_A_CLICK,
                "sky {normal} at {at}: {level} with {settings:?}"
            );
        };
        check(12.0, 0.0);
        check(12.0, -2.0);
        check(10.0, -1.0);
        check(14.0, 0.0);
    }

    #[test]
    fn a_sky_that_the_sync_keeps_in_comes_as_near_as_it_can() {
        let mut job = under_a_sky(14.0, 0.0);
        job.ask.iso = Iso::new(100.0).ok();
        job.ask.aperture = "f/4".parse().ok();
        let level = 14.0 - settings_for(&job).exposing().ev().value();
        // f/4, 1/160, ISO 100 are EV 11.32; a sync speed of 1/200 gives no clean frame any faster.
        assert!((level - (14.0 - 11.322)).abs() < 0.05, "{level}");
    }

    #[test]
    fn nothing_is_changed_without_a_reason() {
        let mut job = made_up::job();
        job.ask.iso = None;
        let settings = settings_for(&job);
        assert_eq!(settings.aperture, job.ask.aperture.unwrap());
        assert_eq!(settings.shutter, fastest_clean_shutter(job.body.sync));
        // This flash is strong enough for the lowest speed.
        assert_eq!(settings.iso, job.body.least_iso);
        assert_eq!(settings.nd, Stops(0.0));
    }

    #[test]
    fn a_strong_flash_at_a_low_speed_goes_before_a_grey_film_of_ambient() {
        // f/5.6 with a flash that exposes f/2 at ISO 100: the ambient light rises with the speed.
        let mut job = made_up::job();
        job.ask.iso = None;
        job.ask.aperture = "f/5.6".parse().ok();
        job.ask.ambient = AmbientWish::Out;
        let survey = Survey::new(&made_up::job(), Fineness::SKETCH, 1).unwrap();
        let beams = Beams::only(&made_up::job(), 50.0, light::HeadDress::Bare).unwrap();
        let ambient = crate::place::amounts::Amounts {
            // EV 6 at the face.
            dome: 160.0,
            ..Default::default()
        };
        let scout = Scout {
            ambient: &ambient,
            ..Scout::new(&job, &survey, &beams, 1)
        };
        let settings = by_levels(&scout, 2.0 * 2.0 * 2.5).unwrap();
        assert!((900.0..=1700.0).contains(&settings.iso.value()), "{settings:?}");
        assert_eq!(settings.shutter, fastest_clean_shutter(job.body.sync));
    }
}
