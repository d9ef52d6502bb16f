//! Camera settings when light that the flash does not make must come out at a level: zones such as the sky,
//! the ambient light, a range of apertures, a filter on the lens.
//!
//! Shutter, aperture, speed and filter are chosen together, because each of them moves what is there, and all
//! but the shutter move the flash as well. The flash's power is never part of it: it fills what is missing at
//! the face, and never stands in for light that falls elsewhere.

use crate::judge::exposure::{aperture, power_for_total, shutters, slow_for_a_person, speeds};
use crate::practice::{HARDLY_THERE, SLOWEST_HAND_HELD_S, SMALLEST_APERTURE, WITHIN_A_CLICK, cost};
use answer::{AmbientWish, Failure, Job, LevelTarget, Note, Settings};
use camera::{ev_of, fastest_clean_shutter};
use units::{Duv, FNumber, Illuminance, Iso, ShutterTime, Stops};

/// Whether this job's settings are chosen here.
pub(crate) fn wanted(job: &Job) -> bool {
    let ask = &job.ask;
    let free = ask.aperture.is_none() && ask.depth.is_none();
    !ask.zones.is_empty()
        || ask.apertures.is_some()
        || !job.bag.nd.is_empty()
        || free && matches!(ask.ambient, AmbientWish::Offset(_))
}

/// Something whose level is wished, by the exposure value that the settings must have for it.
struct Target {
    what: LevelTarget,
    ev: f64,
    /// Whether settings for more light than this will do as well.
    at_least: bool,
}

impl Target {
    /// How far it comes out from the wish at settings for this exposure value; positive is brighter.
    fn off(&self, ev: f64) -> f64 {
        let off = self.ev - ev;
        if self.at_least { off.max(0.0) } else { off }
    }
}

fn targets(job: &Job, ambient_ev: f64) -> Vec<Target> {
    let zones = job.ask.zones.iter().filter_map(|wish| {
        let zone = job.zones.iter().find(|zone| zone.name == wish.name)?;
        Some(Target {
            what: LevelTarget::Zone {
                name: zone.name.clone(),
            },
            ev: (zone.normal - wish.at).value(),
            at_least: false,
        })
    });
    let ambient = |at: f64, at_least| {
        ambient_ev.is_finite().then_some(Target {
            what: LevelTarget::Ambient,
            ev: ambient_ev - at,
            at_least,
        })
    };
    let ambient = match job.ask.ambient {
        AmbientWish::Any => None,
        AmbientWish::Out => ambient(HARDLY_THERE, true),
        AmbientWish::Offset(wish) => ambient(wish.value(), false),
    };
    zones.chain(ambient).collect()
}

/// A setting with its exposure value and what it costs.
struct Candidate {
    aperture: FNumber,
    shutter: ShutterTime,
    iso: Iso,
    nd: Stops,
    ev: f64,
    cost: f64,
}

/// Camera settings for a way that gives this dose at full power (dome, lx s), with what could not be met.
pub(crate) fn settings_at_levels(
    job: &Job,
    ambient: f64,
    dose: f64,
) -> Result<(Settings, Vec<Note>), Failure> {
    let mut notes = Vec::new();
    let ambient_ev = ev_of(Illuminance(ambient)).value();
    let targets = targets(job, ambient_ev);
    let chosen = cheapest(job, &targets, ambient_ev, dose, &mut notes)?;
    notes.extend(
        targets
            .iter()
            .filter_map(|target| missed_note(job, target, &chosen)),
    );
    notes.extend(slow_for_a_person(chosen.shutter));
    let settings = Settings {
        aperture: chosen.aperture,
        shutter: chosen.shutter,
        iso: chosen.iso,
        nd: chosen.nd,
        white_balance: job.bag.flash.colour_temperature(),
        tint: Duv(0.0),
    };
    Ok((settings, notes))
}

fn missed_note(job: &Job, target: &Target, chosen: &Candidate) -> Option<Note> {
    let off = target.off(chosen.ev);
    let what = || target.what.clone();
    if off.abs() <= WITHIN_A_CLICK {
        None
    } else if off > 0.0 {
        Some(Note::TooBright {
            target: what(),
            off: Stops(off),
            shutter: fastest_clean_shutter(job.body.sync),
        })
    } else {
        Some(Note::TooDark {
            target: what(),
            off: Stops(-off),
        })
    }
}

/// The cheapest of all settings that the camera, the bag and the ask allow.
fn cheapest(
    job: &Job,
    targets: &[Target],
    ambient_ev: f64,
    dose: f64,
    notes: &mut Vec<Note>,
) -> Result<Candidate, Failure> {
    let clean = fastest_clean_shutter(job.body.sync);
    let shutters: Vec<ShutterTime> = match job.ask.shutter {
        Some(shutter) => vec![shutter],
        None => shutters(clean).collect(),
    };
    let shutters: Vec<(ShutterTime, f64)> = shutters.into_iter().map(|t| (t, -t.value().log2())).collect();
    let speeds = speeds(job);
    let plain = aperture(job, notes)?;
    let filters = std::iter::once(Stops(0.0)).chain(job.bag.nd.iter().copied());
    let flash_ev = (dose.max(1e-12) * 100.0 / light::INCIDENT_CONSTANT).log2();
    let most = targets.iter().map(|t| t.ev).fold(f64::NEG_INFINITY, f64::max);
    let least = targets.iter().map(|t| t.ev).fold(f64::INFINITY, f64::min);
    let mut best: Option<Candidate> = None;
    for nd in filters {
        for aperture in apertures(job, plain) {
            for &iso in &speeds {
                let [av, sv] = [2.0 * aperture.value().log2(), (iso.value() / 100.0).log2()];
                let without_shutter = av - sv + nd.value();
                let (shutter, tv) = nearest_click(&shutters, 0.5 * (most + least) - without_shutter, clean);
                let ev = without_shutter + tv;
                let power = power_for_total(flash_ev - without_shutter, ambient_ev - ev);
                let mut cost = wish_cost(targets, ev) + flash_cost(job, power);
                cost += taste(job, plain, aperture, shutter)
                    + cost::SPEED * (iso.value() / speeds[0].value()).log2();
                cost += if nd.value() > 0.0 { cost::FILTER } else { 0.0 };
                if best.as_ref().is_none_or(|held| cost < held.cost) {
                    best = Some(Candidate {
                        aperture,
                        shutter,
                        iso,
                        nd,
                        ev,
                        cost,
                    });
                }
            }
        }
    }
    // A camera without a single allowed speed still has its highest.
    Ok(best.unwrap_or(Candidate {
        aperture: plain,
        shutter: clean,
        iso: job.body.most_iso,
        nd: Stops(0.0),
        ev: f64::NAN,
        cost: 0.0,
    }))
}

/// The click nearest to a time value; the fastest clean one when nothing is wished.
fn nearest_click(shutters: &[(ShutterTime, f64)], wanted: f64, clean: ShutterTime) -> (ShutterTime, f64) {
    let nearest = shutters.iter().copied().min_by(|a, b| {
        let off = |tv: f64| {
            if wanted.is_finite() {
                (tv - wanted).abs()
            } else {
                -tv
            }
        };
        off(a.1).total_cmp(&off(b.1))
    });
    nearest.unwrap_or((clean, -clean.value().log2()))
}

fn apertures(job: &Job, plain: FNumber) -> Vec<FNumber> {
    let ask = &job.ask;
    let (from, to) = match ask.apertures {
        _ if ask.aperture.is_some() || ask.depth.is_some() => return vec![plain],
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

fn wish_cost(targets: &[Target], ev: f64) -> f64 {
    let cost = |target: &Target| {
        let off = target.off(ev).abs();
        cost::OFF * off + cost::MISSED * (off - WITHIN_A_CLICK).max(0.0)
    };
    targets.iter().map(cost).sum()
}

/// Points for too little or too much flash, from the exact power in stops below full.
fn flash_cost(job: &Job, power: f64) -> f64 {
    let short = (job.ask.in_hand.value() - power).max(0.0);
    let over = (power - job.bag.flash.least_power_stops()).max(0.0);
    let step = if short > 1e-9 { cost::SHORT.0 } else { 0.0 };
    // Ten stops over stand for "the ambient alone exposes the face", which is no fault of the settings.
    step + cost::SHORT.1 * (short + over.min(1.0))
}

/// Points for leaving the plain aperture and the fastest shutter.
fn taste(job: &Job, plain: FNumber, aperture: FNumber, shutter: ShutterTime) -> f64 {
    let ask = &job.ask;
    let away = match ask.apertures {
        Some(_) => 0.0,
        None => aperture.stops_darker_than(plain).value().abs(),
    };
    let slower = shutter.stops_longer_than(job.body.sync).value().max(0.0);
    let shaky = (shutter.value() / SLOWEST_HAND_HELD_S).log2().max(0.0);
    let step = if shaky > 0.0 { cost::SHAKY.0 } else { 0.0 };
    cost::APERTURE * away + cost::SLOWER * slower + step + cost::SHAKY.1 * shaky
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::trials::made_up;
    use answer::{Zone, ZoneWish};
    use units::Ev;

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

    /// A flash that exposes f/22 at ISO 100, in lx s.
    const DOSE: f64 = 22.0 * 22.0 * 2.5;

    #[test]
    fn a_sky_within_reach_comes_out_as_it_was_wished() {
        let check = |normal: f64, at: f64| {
            let (settings, notes) = settings_at_levels(&under_a_sky(normal, at), 1.0, DOSE).unwrap();
            let level = normal - settings.exposing().ev().value();
            assert!(
                (level - at).abs() <= WITHIN_A_CLICK,
                "sky {normal} at {at}: {level}"
            );
            assert!(notes.is_empty(), "sky {normal} at {at}: {notes:?}");
        };
        check(12.0, 0.0);
        check(12.0, -2.0);
        check(10.0, -1.0);
        check(14.0, 0.0);
    }

    #[test]
    fn a_sky_out_of_reach_is_noted_with_what_is_left() {
        let check = |normal: f64, iso: f64, aperture: &str, expected: f64| {
            let mut job = under_a_sky(normal, 0.0);
            job.ask.iso = Iso::new(iso).ok();
            job.ask.aperture = aperture.parse().ok();
            let (settings, notes) = settings_at_levels(&job, 1.0, DOSE).unwrap();
            let level = normal - settings.exposing().ev().value();
            assert!((level - expected).abs() < 0.05, "{level} instead of {expected}");
            let told = notes.iter().find_map(|note| match note {
                Note::TooBright { off, .. } => Some(off.value()),
                Note::TooDark { off, .. } => Some(-off.value()),
                _ => None,
            });
            assert!(told.is_some_and(|told| (told - level).abs() < 1e-9), "{notes:?}");
        };
        // f/4, 1/160, ISO 100 are EV 11.32; a sync speed of 1/200 gives no clean frame any faster.
        check(14.0, 100.0, "f/4", 14.0 - 11.322);
        // f/16, 2 s, ISO 100 are EV 7.
        check(3.0, 100.0, "f/16", -4.0);
    }

    #[test]
    fn too_dark_and_shaky_cost_more_than_taste() {
        let job = under_a_sky(12.0, 0.0);
        let check = |less: f64, more: f64| assert!(less < more, "{less} and {more}");
        let target = |ev: f64| {
            [Target {
                what: LevelTarget::Ambient,
                ev,
                at_least: false,
            }]
        };
        check(wish_cost(&target(12.0), 12.3), cost::FILTER);
        check(cost::FILTER + cost::SPEED, wish_cost(&target(12.0), 13.0));
        check(flash_cost(&job, 1.0), 1e-9);
        check(cost::SHORT.0, flash_cost(&job, 0.5));
        let plain: FNumber = "f/4".parse().unwrap();
        let at = |shutter: &str| taste(&job, plain, plain, shutter.parse().unwrap());
        check(at("1/200"), at("1/60"));
        check(at("1/60") + cost::SHAKY.0, at("1/30"));
    }
}
