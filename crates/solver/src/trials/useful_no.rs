//! Does the first suggested change of a useful no make the ask possible, and would less have done? And how often is an ordinary
//! ask impossible?

use super::{Dice, ROOMS, random_ask, random_job, sitter, white_board};
use crate::choose::search::{best_of, judge_all, sweep};
use crate::decide::anew;
use crate::judge::judged::Judged;
use crate::place::survey::Survey;
use crate::ways::beams::Beams;
use crate::ways::scout::Scout;
use answer::{
    Ambient, AmbientFrom, AmbientLevel, AmbientWish, Job, Judgement, LampShape, MeterFacing, Offer, Side,
    WishKind,
};
use colour::LightColour;
use glam::Vec3;
use transport::Fineness;
use units::{Ev, FNumber, Iso, Kelvin, MiredShift, Stops};

/// Asks of ten demanding kinds in ten rooms, of which five that cannot be met are looked at: each costs a dozen whole answers.
const WANTED: usize = 5;

fn demanding(room: usize, kind: usize) -> Job {
    let mut job = random_job(room);
    let mut dice = Dice::new((2000 + 10 * room + kind) as u64);
    job.title = format!("room {room}, kind {kind}");
    match kind {
        0 => {
            job.ask.aperture = FNumber::new(11.0).ok();
            job.ask.in_hand = Stops(2.0);
        }
        1 => {
            job.ask.iso = Iso::new(100.0).ok();
            job.ask.aperture = FNumber::new(8.0).ok();
            job.bag.boards = vec![white_board()];
        }
        2 => {
            job.ask.cast_limit = MiredShift(1.0);
            job.ask.musts = vec![WishKind::Cast];
        }
        3 => {
            job.ask.key.side = Some(dice.pick(&[Side::Left, Side::Right]));
            job.ask.key.azimuth_deg = 115.0;
            job.ask.key.azimuth_tolerance_deg = 3.0;
            job.ask.musts = vec![WishKind::Direction];
        }
        4 => {
            let beside = job.sitters[0].stand + Vec3::new(0.7, 0.35, 0.0);
            job.sitters.push(sitter("second", beside, 0.0, 1.5));
            job.ask.evenness = Some(Stops(0.1));
            job.ask.musts = vec![WishKind::Evenness];
        }
        5 => {
            job.ask.recycle_s = Some(0.04);
            job.ask.musts = vec![WishKind::Recycle];
        }
        6 => {
            job.ask.background = Some(Stops(3.0));
            job.ask.musts = vec![WishKind::Background];
        }
        7 => {
            job.ambients = vec![Ambient {
                name: "lamps".to_owned(),
                reading: AmbientLevel::Reading(Ev(9.5)),
                facing: MeterFacing::Camera,
                colour: LightColour::planck(Kelvin::new(2900.0).unwrap()),
                kelvin: Kelvin::new(2900.0).unwrap(),
                from: AmbientFrom::AllRound,
                lamp: LampShape::default(),
            }];
            job.ask.ambient = AmbientWish::Out;
            job.ask.musts = vec![WishKind::Ambient];
        }
        8 => {
            job.ask.ratio = "40:1".parse().ok();
            job.ask.musts = vec![WishKind::Ratio];
        }
        _ => {
            job.ask.aperture = FNumber::new(16.0).ok();
            job.ask.recycle_s = Some(0.6);
        }
    }
    job
}

#[test]
fn the_first_change_makes_it_possible_and_no_smaller_one_does() {
    look_at(WANTED, ROOMS);
}

#[test]
#[ignore = "an hour: by hand"]
fn the_first_change_of_sixty_makes_it_possible_and_no_smaller_one_does() {
    look_at(60, 40);
}

/// Looks at so many impossible asks in so many rooms.
fn look_at(wanted: usize, rooms: usize) {
    let mut impossible = 0;
    for number in 0.. {
        let (room, kind) = (number % rooms, (number + number / rooms) % 10);
        assert!(number < 10 * rooms, "only {impossible} asks were impossible");
        impossible += usize::from(check(&demanding(room, kind)));
        if impossible == wanted {
            break;
        }
    }
}

/// Two hundred ordinary asks in forty rooms: nothing is a must but what physics or gear forbids, so hardly any may be impossible.
#[test]
#[ignore = "half an hour: by hand"]
fn ordinary_asks_are_hardly_ever_impossible() {
    let (mut missed, mut impossible) = (0, Vec::new());
    for ask in 0..200 {
        let mut job = random_job(ask % 40);
        job.ask = random_ask(&mut Dice::new(9000 + ask as u64));
        let answer = crate::answer(&job, 1).unwrap();
        missed += usize::from(answer.shortfall.is_some());
        if answer.wishes.iter().any(Judgement::forbids) {
            impossible.push(format!("ask {ask}: {:?}", job.ask));
        }
    }
    let share = format!(
        "of 200 asks {missed} miss a wish, {} are impossible",
        impossible.len()
    );
    assert!(impossible.len() <= 10, "{share}: {impossible:#?}");
}

/// Whether an ask is impossible; if so, its first change must make it possible and no smaller one may.
fn check(job: &Job) -> bool {
    let answer = crate::answer(job, 1).unwrap();
    let title = &job.title;
    let Some(short) = answer.shortfall else {
        return false;
    };
    assert!(!short.missed.is_empty(), "{title}");
    let first = short.changes.first().unwrap_or_else(|| {
        panic!(
            "{title}: {:?} Nothing helps; tried {:?}",
            short.missed, short.tried
        )
    });
    let after = crate::answer(&first.job, 1).unwrap();
    assert!(
        after.shortfall.is_none(),
        "{title}: after {:?} it is still short: {:?}",
        first.change,
        after.shortfall.map(|s| s.missed)
    );
    let survey = Survey::new(job, Fineness::operator_in(job.place.room.area()), 1).unwrap();
    let beams = Beams::of(job).unwrap();
    let swept = sweep(&Scout::new(job, &survey, &beams, 1));
    for (what, smaller) in smaller_changes(job, first) {
        let scout = &Scout::new(&smaller, &survey, &beams, 1);
        let found = best_of(scout, judge_all(scout, &swept).unwrap()).unwrap();
        // What the coarse place calls enough is answered before it counts.
        let enough = found.first().is_some_and(Judged::met)
            && anew(&smaller, None, 1, &|_| true).is_ok_and(|answered| answered.met());
        assert!(
            !enough,
            "{title}: \"{what}\" would have done instead of {:?}",
            first.change
        );
    }
    true
}

/// A fine sweep of every single change that asks less than the one suggested: finer steps than those that
/// are offered, up to one step short of it.
fn smaller_changes(job: &Job, first: &Offer) -> Vec<(String, Job)> {
    let mut smaller = Vec::new();
    let mut add = |what: String, effort: f64, step: f64, change: &dyn Fn(&mut Job)| {
        // What lies between two clicks of a dial cannot be set, so a change one step larger is the least.
        if effort + step <= first.effort + 1e-9 {
            let mut changed = job.clone();
            change(&mut changed);
            smaller.push((what, changed));
        }
    };
    for sixth in 1..=12 {
        let stops = f64::from(sixth) / 6.0;
        let step = 1.0 / 3.0;
        if let Some(iso) = job
            .ask
            .iso
            .and_then(|iso| Iso::new(iso.value() * stops.exp2()).ok())
        {
            let grainy = (iso.value() / 1600.0).log2().max(0.0).min(stops);
            add(
                format!("{iso}"),
                0.3 * stops + 0.5 * grainy,
                0.3 * step,
                &move |j| {
                    j.ask.iso = Some(iso);
                    j.body.most_iso = Iso::new(j.body.most_iso.value().max(iso.value())).unwrap();
                },
            );
        }
        if let Some(aperture) = job
            .ask
            .aperture
            .and_then(|f| FNumber::new(f.value() * (-0.5 * stops).exp2()).ok())
            .filter(|f| f.value() >= job.body.widest.value())
        {
            add(format!("{aperture}"), 0.5 * stops, 0.5 * step, &move |j| {
                j.ask.aperture = Some(aperture)
            });
        }
        let left = job.ask.in_hand.value() - stops;
        if left >= 0.0 {
            add(format!("{left:.2} in hand"), 0.6 * stops, 0.6 * step, &move |j| {
                j.ask.in_hand = Stops(left);
            });
        }
        if let Some(wait) = job.ask.recycle_s {
            add(
                format!("{stops:.2} doublings of the wait"),
                0.4 * stops,
                0.4 / 6.0,
                &move |j| {
                    j.ask.recycle_s = Some(wait * stops.exp2());
                },
            );
        }
        if let Some(most) = job.ask.evenness {
            add(
                format!("{stops:.2} less even"),
                stops / 0.5,
                1.0 / 3.0,
                &move |j| {
                    j.ask.evenness = Some(Stops(most.value() + stops));
                },
            );
        }
        for sign in [-1.0, 1.0] {
            if let Some(wish) = job.ask.background {
                add(
                    format!("background {:+.2}", sign * stops),
                    stops / 0.7,
                    0.24,
                    &move |j| {
                        j.ask.background = Some(Stops(wish.value() + sign * stops));
                    },
                );
            }
        }
        let degrees = 4.0 * f64::from(sixth);
        add(
            format!("{degrees:.0} degrees"),
            degrees / 12.0,
            5.0 / 12.0,
            &move |j| {
                j.ask.key.azimuth_tolerance_deg += degrees;
            },
        );
        let mired = 4.0 * f64::from(sixth);
        add(format!("{mired:.0} mired"), mired / 20.0, 0.25, &move |j| {
            j.ask.cast_limit = MiredShift(j.ask.cast_limit.value() + mired);
        });
    }
    smaller
}
