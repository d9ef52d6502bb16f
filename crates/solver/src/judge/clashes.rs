//! Wishes that exclude each other by what was asked alone, known before anything is searched.

use crate::practice::{EVEN_RATIO, FROM_THE_SIDE_DEG, IN_FRONT_DEG, UNEVEN_RATIO, wish};
use answer::{Clash, Exclusion, FlashStand, GelWish, Job, Softness, WishKind, Yielding};
use scene::Face;

/// Every pair of wishes of which one must give way.
pub(crate) fn clashes(job: &Job) -> Vec<Clash> {
    let found = [
        key_against_ratio(job),
        side_of_the_middle(job),
        deep_gel_on_neutral_skin(job),
        soft_from_a_head(job),
    ];
    found.into_iter().flatten().collect()
}

/// A ratio that the direction of the key rules out: a key from the side leaves the far cheek to the fill, and one in front
/// reaches both. The ratio gives way unless it alone is a must.
fn key_against_ratio(job: &Job) -> Option<Clash> {
    let (ratio, azimuth_deg) = (job.ask.ratio?, job.ask.key.azimuth_deg);
    let because = if azimuth_deg >= FROM_THE_SIDE_DEG && ratio.value() <= EVEN_RATIO {
        Exclusion::EvenFromTheSide { azimuth_deg, ratio }
    } else if azimuth_deg <= IN_FRONT_DEG && ratio.value() >= UNEVEN_RATIO {
        Exclusion::UnevenFromTheFront { azimuth_deg, ratio }
    } else {
        return None;
    };
    let must = |wish: WishKind| job.ask.musts.contains(&wish);
    let gives_way = match must(WishKind::Ratio) && !must(WishKind::Direction) {
        true => Yielding::Direction,
        false => Yielding::Ratio,
    };
    Some(Clash { because, gives_way })
}

/// A side of a pattern that stands over the nose, give and take its tolerance.
fn side_of_the_middle(job: &Job) -> Option<Clash> {
    let key = &job.ask.key;
    let reaches = key.azimuth_deg + key.azimuth_tolerance_deg;
    let side = key.side?;
    (reaches <= IN_FRONT_DEG).then_some(Clash {
        because: Exclusion::SideOfTheMiddle { side },
        gives_way: Yielding::Side,
    })
}

/// A gel that is insisted on and that no balance makes neutral.
fn deep_gel_on_neutral_skin(job: &Job) -> Option<Clash> {
    let GelWish::This(gel) = &job.ask.gel else {
        return None;
    };
    (gel.is_effect() && job.ask.neutral_skin).then(|| Clash {
        because: Exclusion::DeepGelOnNeutralSkin {
            gel: gel.name().to_owned(),
        },
        gives_way: Yielding::NeutralSkin,
    })
}

/// Soft light from a flash that stands where it is, with nothing before its head that is wide enough and nothing to bounce
/// from.
fn soft_from_a_head(job: &Job) -> Option<Clash> {
    if job.ask.softness != Softness::Soft {
        return None;
    }
    let face = job.sitters[0].face();
    let flash = match job.ask.stand {
        FlashStand::OnCamera => job.viewpoint.position,
        FlashStand::At(point) => point,
        FlashStand::Anywhere => return None,
    };
    let place = &job.place;
    let walled = |face: Face| face != Face::Floor && !place.is_open(face);
    let something_stands = !job.bag.boards.is_empty() || !place.panels.is_empty() || !place.blocks.is_empty();
    if something_stands || Face::ALL.into_iter().any(walled) {
        return None;
    }
    let metres = f64::from(flash.distance(face));
    let windows = job
        .bag
        .dresses
        .iter()
        .map(|&dress| job.bag.flash.window_of(dress));
    let widest = windows.fold(0.0, |widest: f64, [width, height]| widest.max(width).max(height));
    // Twice the tolerance is missed; one tolerance is a halving.
    let (soft, tolerance, _) = wish::SOFT;
    (widest / metres < soft * (-2.0 * tolerance).exp2()).then_some(Clash {
        because: Exclusion::SoftFromAHead { metres },
        gives_way: Yielding::Softness,
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::trials::made_up;
    use answer::Side;
    use scene::Opening;
    use units::Ratio;

    /// What is told of the made-up job after a change.
    fn check(change: impl FnOnce(&mut Job), expected: Option<(Exclusion, Yielding)>) {
        let mut job = made_up::job();
        job.ask.ratio = None;
        change(&mut job);
        let expected = expected.map(|(because, gives_way)| Clash { because, gives_way });
        assert_eq!(clashes(&job), Vec::from_iter(expected));
    }

    fn ratio(to_one: f64) -> Ratio {
        Ratio::new(to_one).expect("a ratio")
    }

    #[test]
    fn a_key_from_the_side_shades_and_one_in_front_does_not() {
        let asked = |azimuth_deg: f64, to_one: f64| {
            move |job: &mut Job| {
                job.ask.key.azimuth_deg = azimuth_deg;
                job.ask.key.side = None;
                job.ask.ratio = Some(ratio(to_one));
            }
        };
        let even = |ratio| Exclusion::EvenFromTheSide {
            azimuth_deg: 90.0,
            ratio,
        };
        let uneven = Exclusion::UnevenFromTheFront {
            azimuth_deg: 7.5,
            ratio: ratio(4.0),
        };
        check(asked(90.0, 1.0), Some((even(ratio(1.0)), Yielding::Ratio)));
        check(asked(90.0, 4.0), None);
        check(asked(40.0, 1.0), None);
        check(asked(7.5, 4.0), Some((uneven, Yielding::Ratio)));
        check(asked(7.5, 1.5), None);
        check(
            |job| {
                asked(90.0, 1.0)(job);
                job.ask.musts = vec![WishKind::Ratio];
            },
            Some((even(ratio(1.0)), Yielding::Direction)),
        );
    }

    #[test]
    fn a_key_above_the_nose_has_no_side() {
        let asked = |azimuth_deg: f64, side: Option<Side>| {
            move |job: &mut Job| {
                job.ask.key.azimuth_deg = azimuth_deg;
                job.ask.key.azimuth_tolerance_deg = 5.0;
                job.ask.key.side = side;
            }
        };
        let middle = Exclusion::SideOfTheMiddle { side: Side::Left };
        check(asked(5.0, Some(Side::Left)), Some((middle, Yielding::Side)));
        check(asked(5.0, None), None);
        check(asked(30.0, Some(Side::Left)), None);
    }

    #[test]
    fn a_bare_head_far_away_is_soft_only_where_there_is_something_to_bounce_from() {
        let in_the_open = |dresses: Vec<light::HeadDress>, walls: bool| {
            move |job: &mut Job| {
                job.bag.dresses = dresses;
                job.bag.boards.clear();
                job.place.panels.clear();
                job.place.blocks.clear();
                job.ask.stand = FlashStand::At(job.sitters[0].face() + glam::Vec3::new(0.0, -3.0, 0.0));
                let open = Face::ALL.into_iter().filter(|face| *face != Face::Floor);
                if !walls {
                    job.place.openings = open.map(|face| Opening::whole(&job.place.room, face)).collect();
                }
            }
        };
        let far = Exclusion::SoftFromAHead { metres: 3.0 };
        let umbrella = light::HeadDress::Umbrella(light::SoftFront::new(1.5, 1.0));
        check(
            in_the_open(vec![light::HeadDress::Bare], false),
            Some((far, Yielding::Softness)),
        );
        check(in_the_open(vec![light::HeadDress::Bare], true), None);
        check(in_the_open(vec![umbrella], false), None);
    }
}
