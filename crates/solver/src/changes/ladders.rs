//! Every kind of change, as a ladder of growing amounts.

use crate::judge::exposure::sharp;
use crate::judge::judged::Judged;
use crate::practice::{SMALLEST_OFFERED, brought};
use answer::{Brought, Change, FlashStand, Job, Judgement, Route, Side, Wish, WishKind};
use light::HeadDress;
use units::{FNumber, Iso, MiredShift, Ratio, Stops};

/// Steps in which a sitter is moved, in metres, and the furthest.
const MOVE_STEP_M: f32 = 0.25;
const MOST_MOVED_M: f32 = 1.5;
/// Clicks of the speed that are tried.
const MOST_CLICKS: usize = 12;

/// How much of the search a change brings into question.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(crate) enum Reach {
    /// Settings and power alone: the ways that look best are still those that look best.
    Settings,
    /// Which look is wanted: any way may now be the one.
    Look,
    /// The place itself, because something in it moves.
    Place,
}

/// A kind of change with its growing amounts, the least first.
pub(crate) struct Ladder {
    pub rungs: Vec<Change>,
    pub reach: Reach,
    /// Whether every rung allows all that the one below allows, so that the lowest that helps can be found
    /// by halving.
    pub nested: bool,
}

impl Ladder {
    /// Rungs of which each must be looked at by itself, for it may spoil what the one below allowed.
    fn each(rungs: Vec<Change>) -> Self {
        Ladder {
            rungs,
            reach: Reach::Look,
            nested: false,
        }
    }

    /// Rungs of which each allows all that the one below allows.
    fn nested(rungs: Vec<Change>) -> Self {
        Ladder {
            nested: true,
            ..Ladder::each(rungs)
        }
    }

    /// Rungs that change settings and power alone.
    fn of_settings(self) -> Self {
        Ladder {
            reach: Reach::Settings,
            ..self
        }
    }

    /// Rungs that change the place itself.
    fn elsewhere(rungs: Vec<Change>) -> Self {
        Ladder {
            reach: Reach::Place,
            ..Ladder::each(rungs)
        }
    }
}

/// The ladders that can help with what these ways lack, the answer first. A wish is given up only where it was a must:
/// elsewhere the answer already is what comes nearest to it.
pub(crate) fn ladders(job: &Job, nearest: &[&Judged]) -> Vec<Ladder> {
    let lacking: Vec<&Judgement> = nearest
        .iter()
        .flat_map(|judged| judged.wishes.iter().filter(|wish| wish.lacks()))
        .collect();
    let chosen = nearest[0];
    let lacks = |kind: WishKind| lacking.iter().any(|wish| wish.kind == kind);
    let must = |kind: WishKind| lacking.iter().any(|wish| wish.kind == kind && wish.must);
    let exposed = |sign: f64| {
        let off = |wish: &&&Judgement| wish.kind == WishKind::Exposure && wish.found * sign > 0.0;
        lacking.iter().any(|wish| off(&wish))
    };
    let (dark, bright) = (exposed(-1.0), exposed(1.0));
    let brighter = |wish: &&Judgement| match wish.asked {
        Wish::AmbientOut => true,
        Wish::AmbientAt { stops } => wish.found > stops.value(),
        _ => false,
    };
    let ambient_bright = lacking.iter().any(brighter);
    let mut ladders = Vec::new();
    if dark || lacks(WishKind::Power) || lacks(WishKind::Recycle) {
        ladders.push(Ladder::each(faster(job)).of_settings());
        ladders.push(Ladder::each(wider(job)).of_settings());
        ladders.push(Ladder::nested(less_in_hand(job)).of_settings());
        ladders.push(Ladder::nested(longer_wait(job)).of_settings());
    }
    if bright || ambient_bright {
        ladders.push(Ladder::each(narrower(job)).of_settings());
        ladders.push(Ladder::each(slower(job)).of_settings());
        ladders.push(Ladder::each(filters(job)).of_settings());
    }
    if ambient_bright {
        ladders.push(Ladder::each(dimmer(job)).of_settings());
    }
    if must(WishKind::Cast) {
        ladders.push(Ladder::nested(warmer_skin(job)));
    }
    if must(WishKind::GreenMagenta) {
        ladders.push(Ladder::nested(vec![Change::AnySkin]));
    }
    if must(WishKind::Direction) {
        ladders.push(Ladder::nested(wider_angle(job)));
        ladders.push(Ladder::nested(either_side(job)));
    }
    if must(WishKind::Height) {
        ladders.push(Ladder::each(other_height(job, chosen)));
    }
    if must(WishKind::Softness) {
        let asked = job.ask.softness;
        ladders.push(Ladder::nested(vec![Change::AnySoftness { asked }]));
    }
    if must(WishKind::Ratio) {
        ladders.push(Ladder::each(other_ratio(job, &lacking)));
    }
    if must(WishKind::Evenness) {
        ladders.push(Ladder::nested(less_even(job)));
    }
    if must(WishKind::Background) {
        ladders.push(Ladder::each(other_background(job, &lacking)));
    }
    ladders.push(Ladder::elsewhere(helpers(job)));
    ladders.push(Ladder::elsewhere(off_camera(job)));
    ladders.push(Ladder::elsewhere(moved_sitter(job, chosen)));
    ladders.retain(|ladder| !ladder.rungs.is_empty());
    ladders
}

/// What can be brought along where neither one change nor two of settings help.
pub(crate) fn to_bring(job: &Job) -> Vec<Vec<Change>> {
    let (loss, width_m) = brought::UMBRELLA;
    let (card_m, high_m) = brought::CARD;
    let soft = job.bag.dresses.iter().any(|dress| dress.soft_front().is_some());
    let umbrella = (!soft).then_some(Brought::Umbrella {
        loss: Stops(loss),
        width_m,
    });
    let card = job.bag.boards.is_empty().then_some(Brought::Card {
        width_m: card_m,
        height_m: high_m,
    });
    let things = umbrella.into_iter().chain(card);
    things.map(|thing| vec![Change::Bring { thing }]).collect()
}

/// Filters for the lens, stronger than any in the bag.
fn filters(job: &Job) -> Vec<Change> {
    let strongest = job.bag.nd.iter().map(|nd| nd.value()).fold(0.0, f64::max);
    let missing = brought::FILTERS
        .into_iter()
        .filter(|stops| *stops > strongest + 0.1);
    missing
        .map(|stops| Change::Bring {
            thing: Brought::Filter { stops: Stops(stops) },
        })
        .collect()
}

/// A higher speed: the one insisted on, or the highest that the photographer will use.
fn faster(job: &Job) -> Vec<Change> {
    let insisted = job.ask.iso.is_some();
    let from = job.ask.iso.unwrap_or(job.body.most_iso);
    Iso::series()
        .filter(|iso| iso.stops_faster_than(from).value() > 0.1)
        .take(MOST_CLICKS)
        .map(|to| match insisted {
            true => Change::RaiseSpeed { from, to },
            false => Change::AllowSpeeds { from, to },
        })
        .collect()
}

/// A lower speed, for too much light.
fn slower(job: &Job) -> Vec<Change> {
    let Some(from) = job.ask.iso else {
        return Vec::new();
    };
    let mut lower: Vec<Iso> = Iso::series()
        .filter(|iso| {
            iso.stops_faster_than(from).value() < -0.1 && iso.value() >= job.body.least_iso.value() - 0.5
        })
        .collect();
    lower.sort_by(|a, b| b.value().total_cmp(&a.value()));
    let rungs = lower.into_iter().take(MOST_CLICKS);
    rungs.map(|to| Change::LowerSpeed { from, to }).collect()
}

fn wider(job: &Job) -> Vec<Change> {
    let Some(from) = job.ask.aperture else {
        return Vec::new();
    };
    let mut wider: Vec<FNumber> = FNumber::series()
        .filter(|f| f.stops_darker_than(from).value() < -0.1 && f.value() >= job.body.widest.value() - 0.01)
        .collect();
    wider.sort_by(|a, b| b.value().total_cmp(&a.value()));
    let open = |to| Change::OpenUp {
        from,
        to,
        sharp_m: sharp_m(job, from, to),
    };
    wider.into_iter().map(open).collect()
}

fn narrower(job: &Job) -> Vec<Change> {
    let Some(from) = job.ask.aperture else {
        return Vec::new();
    };
    FNumber::series()
        .filter(|f| f.stops_darker_than(from).value() > 0.1 && f.value() <= SMALLEST_OFFERED)
        .map(|to| Change::StopDown {
            from,
            to,
            sharp_m: sharp_m(job, from, to),
        })
        .collect()
}

/// Metres that are sharp at one aperture and at another; `None` where one of them has no end.
fn sharp_m(job: &Job, from: FNumber, to: FNumber) -> Option<[f64; 2]> {
    let depth = |aperture: FNumber| {
        let depth = sharp(job, aperture)?.depth_m();
        depth.is_finite().then_some(depth)
    };
    Some([depth(from)?, depth(to)?])
}

fn less_in_hand(job: &Job) -> Vec<Change> {
    let from = job.ask.in_hand;
    let thirds = (from.value() * 3.0).ceil() as i32;
    let ready = |left: Stops| job.bag.flash.recycle_s(left.value());
    (1..=thirds)
        .map(|third| {
            let to = Stops((from.value() - f64::from(third) / 3.0).max(0.0));
            let ready_s = [ready(from), ready(to)];
            Change::KeepInHand { from, to, ready_s }
        })
        .collect()
}

fn longer_wait(job: &Job) -> Vec<Change> {
    let Some(from_s) = job.ask.recycle_s else {
        return Vec::new();
    };
    (1..=36)
        .map(|sixth| Change::WaitLonger {
            from_s,
            to_s: from_s * (f64::from(sixth) / 6.0).exp2(),
        })
        .collect()
}

fn dimmer(job: &Job) -> Vec<Change> {
    // The sky cannot be turned down.
    if job.ambients.is_empty() || job.outdoors.is_some() {
        return Vec::new();
    }
    (1..=18)
        .map(|third| Change::DimAmbient {
            stops: Stops(f64::from(third) / 3.0),
        })
        .collect()
}

fn warmer_skin(job: &Job) -> Vec<Change> {
    let from = job.ask.cast_limit;
    (1..=24)
        .map(|step| Change::AllowCast {
            from,
            to: MiredShift(from.value() + 5.0 * f64::from(step)),
        })
        .collect()
}

fn wider_angle(job: &Job) -> Vec<Change> {
    let from_deg = job.ask.key.azimuth_tolerance_deg;
    (1..=18)
        .map(|step| Change::AllowAngle {
            from_deg,
            to_deg: from_deg + 5.0 * f64::from(step),
        })
        .collect()
}

fn either_side(job: &Job) -> Vec<Change> {
    let other = job.ask.key.side.map(|side| match side {
        Side::Left => Side::Right,
        Side::Right => Side::Left,
    });
    other.map(|side| Change::OtherSide { side }).into_iter().collect()
}

fn other_height(job: &Job, chosen: &Judged) -> Vec<Change> {
    let from_deg = job.ask.key.elevation_deg;
    let found = chosen.wishes.iter().find(|wish| wish.kind == WishKind::Height);
    let towards = found.map_or(1.0, |wish| (wish.found - from_deg).signum());
    (1..=12)
        .map(|step| Change::KeyHeight {
            from_deg,
            to_deg: from_deg + towards * 5.0 * f64::from(step),
        })
        .collect()
}

/// Ratios towards the one found, down to no difference at all.
fn other_ratio(job: &Job, missed: &[&Judgement]) -> Vec<Change> {
    let (Some(from), Some(wish)) = (job.ask.ratio, of_kind(missed, WishKind::Ratio)) else {
        return Vec::new();
    };
    let towards = (wish.found / from.value()).log2().signum();
    let mut rungs: Vec<Change> = (1..=18)
        .map(|step| from.value() * (towards * f64::from(step) / 6.0).exp2())
        .filter_map(|value| Ratio::new(value.max(1.0)).ok())
        .map(|to| Change::SettleRatio { from, to })
        .collect();
    rungs.dedup();
    rungs
}

fn less_even(job: &Job) -> Vec<Change> {
    let Some(from) = job.ask.evenness else {
        return Vec::new();
    };
    (1..=18)
        .map(|step| Change::FacesDiffer {
            from,
            to: from + Stops(f64::from(step) / 6.0),
        })
        .collect()
}

fn other_background(job: &Job, missed: &[&Judgement]) -> Vec<Change> {
    let (Some(from), Some(wish)) = (job.ask.background, of_kind(missed, WishKind::Background)) else {
        return Vec::new();
    };
    let towards = (wish.found - from.value()).signum();
    (1..=30)
        .map(|step| Change::SettleBackground {
            from,
            to: from + Stops(towards * f64::from(step) / 6.0),
        })
        .collect()
}

/// The first missed limit of a kind.
fn of_kind<'a>(missed: &[&'a Judgement], kind: WishKind) -> Option<&'a Judgement> {
    missed.iter().copied().find(|wish| wish.kind == kind)
}

/// A helper who holds a board that is in the bag.
fn helpers(job: &Job) -> Vec<Change> {
    if job.bag.helpers > 0 || !job.bag.dresses.contains(&HeadDress::Bare) {
        return Vec::new();
    }
    let board = job.bag.boards.first();
    board
        .map(|board| Change::HoldBoard {
            board: board.name.clone(),
        })
        .into_iter()
        .collect()
}

/// The flash to where it serves best: off the camera, or from the place that was said to another.
fn off_camera(job: &Job) -> Vec<Change> {
    let bring_stand = !job.bag.stand && job.bag.helpers == 0;
    match job.ask.stand {
        FlashStand::Anywhere => Vec::new(),
        FlashStand::At(place) if !job.is_on_camera(place) => vec![Change::FlashElsewhere { bring_stand }],
        FlashStand::OnCamera | FlashStand::At(_) => vec![Change::FlashOffCamera { bring_stand }],
    }
}

/// The sitter nearer to what carries the light.
fn moved_sitter(job: &Job, chosen: &Judged) -> Vec<Change> {
    let face = job.sitters[0].face();
    let towards = (chosen.way.target - face).with_z(0.0).try_normalize();
    // Where moving was offered, the answer has moved the sitter already.
    let stays = job.ask.may_move_m <= 0.0;
    let (false, Some(towards), 1, true) = (
        matches!(chosen.way.route, Route::Direct),
        towards,
        job.sitters.len(),
        stays,
    ) else {
        return Vec::new();
    };
    let (right, _, forward) = job.viewpoint.axes();
    let away = forward.with_z(0.0).normalize_or_zero();
    let steps = (MOST_MOVED_M / MOVE_STEP_M) as usize;
    (1..=steps)
        .map(|step| {
            let by = towards * (step as f32 * MOVE_STEP_M);
            Change::MoveSitter {
                by,
                right_m: by.dot(right),
                away_m: by.dot(away),
            }
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::changes::effort::effort_of;
    use crate::trials::made_up;
    use answer::Softness;
    use glam::Vec3;

    /// The ladders of a job whose best way misses this.
    fn ladders_for(job: &Job, asked: Wish, found: f64) -> Vec<Ladder> {
        let mut judged = made_up::judged(made_up::way(), 1.0);
        judged.wishes = vec![Judgement::new(asked, found, 1.0, 0.1, 1.0).as_must(true)];
        ladders(job, &[&judged])
    }

    fn insistent() -> Job {
        let mut job = made_up::job();
        job.ask.aperture = "f/8".parse().ok();
        job.ask.recycle_s = Some(1.0);
        job.ask.key.side = Some(Side::Left);
        job.ask.ratio = "2:1".parse().ok();
        job.ask.evenness = Some(Stops(0.2));
        job.ask.background = Some(Stops(-1.0));
        job.ask.softness = Softness::Soft;
        job
    }

    #[test]
    fn what_is_missed_says_which_ladders_are_climbed() {
        let job = insistent();
        let check = |asked: Wish, found: f64, expected: &[fn(&Change) -> bool]| {
            let climbed = ladders_for(&job, asked.clone(), found);
            // The last two, a flash off the camera and a moved sitter, are tried whatever is missed.
            assert_eq!(climbed.len(), expected.len() + 2, "{asked:?}");
            for (ladder, expected) in climbed.iter().zip(expected) {
                assert!(
                    ladder.rungs.iter().all(expected),
                    "{asked:?}: {:?}",
                    ladder.rungs[0]
                );
            }
        };
        check(
            Wish::InHand { stops: Stops(1.0) },
            0.0,
            &[
                |change| matches!(change, Change::RaiseSpeed { .. }),
                |change| matches!(change, Change::OpenUp { .. }),
                |change| matches!(change, Change::KeepInHand { .. }),
                |change| matches!(change, Change::WaitLonger { .. }),
            ],
        );
        check(
            Wish::Exposed,
            1.0,
            &[
                |change| matches!(change, Change::StopDown { .. }),
                |change| matches!(change, Change::LowerSpeed { .. }),
                |change| matches!(change, Change::Bring { .. }),
            ],
        );
        check(
            Wish::NeutralSkin,
            60.0,
            &[|change| matches!(change, Change::AllowCast { .. })],
        );
        check(
            Wish::NoGreenMagenta,
            0.01,
            &[|change| matches!(change, Change::AnySkin)],
        );
        check(
            Wish::Soft,
            0.1,
            &[|change| matches!(change, Change::AnySoftness { .. })],
        );
        let stops = Stops(0.2);
        check(
            Wish::FacesWithin { stops },
            0.8,
            &[|change| matches!(change, Change::FacesDiffer { .. })],
        );
    }

    /// What is in the bag already need not be brought.
    #[test]
    fn only_what_is_missing_is_brought() {
        let mut job = made_up::job();
        job.bag.boards.clear();
        job.bag.nd = vec![Stops(3.0)];
        let [umbrella, card] = &to_bring(&job)[..] else {
            panic!("an umbrella and a card")
        };
        let thing = |rungs: &[Change]| match rungs {
            [Change::Bring { thing }] => *thing,
            other => panic!("{other:?}"),
        };
        assert!(matches!(thing(umbrella), Brought::Umbrella { .. }));
        assert!(matches!(thing(card), Brought::Card { .. }));
        let [Change::Bring { thing }] = &filters(&job)[..] else {
            panic!("one stronger filter")
        };
        assert_eq!(*thing, Brought::Filter { stops: Stops(6.0) });
        let with = umbrella[0].apply(&card[0].apply(&job));
        assert_eq!((with.bag.helpers, with.bag.stand), (1, true));
        assert!(to_bring(&with).is_empty());
    }

    #[test]
    fn a_flash_is_taken_off_the_camera_only_where_it_is_on_it() {
        let check = |stand: FlashStand, expected: &[Change]| {
            let mut job = made_up::job();
            (job.ask.stand, job.bag.stand) = (stand, true);
            assert_eq!(off_camera(&job), expected);
        };
        let lens = made_up::job().viewpoint.position;
        let bring_stand = false;
        let off = [Change::FlashOffCamera { bring_stand }];
        check(FlashStand::OnCamera, &off);
        check(FlashStand::At(lens + 0.12 * Vec3::Z), &off);
        check(
            FlashStand::At(lens + Vec3::X),
            &[Change::FlashElsewhere { bring_stand }],
        );
        check(FlashStand::Anywhere, &[]);
    }

    #[test]
    fn every_rung_asks_more_than_the_one_below() {
        let job = insistent();
        let ratio: Ratio = "2:1".parse().unwrap();
        let elevation_deg = 28.0;
        let from = Wish::KeyFrom {
            azimuth_deg: 40.0,
            side: Some(Side::Left),
            tolerance_deg: 20.0,
        };
        for (asked, found) in [
            (Wish::InHand { stops: Stops(1.0) }, 0.0),
            (Wish::Exposed, 1.0),
            (from, 90.0),
            (Wish::KeyHeight { elevation_deg }, 70.0),
            (Wish::Ratio { ratio }, 1.0),
            (Wish::Ratio { ratio }, 4.0),
            (Wish::Background { stops: Stops(-1.0) }, 1.0),
        ] {
            for ladder in ladders_for(&job, asked, found) {
                let efforts: Vec<f64> = ladder.rungs.iter().map(effort_of).collect();
                assert!(
                    efforts.is_sorted_by(|a, b| a < b),
                    "{:?}: {efforts:?}",
                    ladder.rungs[0]
                );
                assert!(efforts[0] > 0.0, "{:?}", ladder.rungs[0]);
            }
        }
    }

    /// A ratio goes down to no difference at all, once.
    #[test]
    fn a_ratio_ends_at_even_sides() {
        let ratio: Ratio = "2:1".parse().unwrap();
        let climbed = ladders_for(&insistent(), Wish::Ratio { ratio }, 0.25);
        let Some(Change::SettleRatio { to, .. }) = climbed[0].rungs.last() else {
            panic!("{:?}", climbed[0].rungs)
        };
        assert!(
            to.value() == 1.0 && climbed[0].rungs.len() == 6,
            "{:?}",
            climbed[0].rungs
        );
    }
}
