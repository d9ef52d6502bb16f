//! What a change asks of the photographer and the picture.

use crate::practice::{GRAINY_ISO, effort};
use answer::{Brought, Change};

/// What a change asks of the photographer and the picture, in points like those of the score.
pub(crate) fn effort_of(change: &Change) -> f64 {
    match change {
        Change::RaiseSpeed { from, to } | Change::AllowSpeeds { from, to } => {
            let stops = to.stops_faster_than(*from).value();
            let grainy = (to.value() / GRAINY_ISO).log2().clamp(0.0, stops);
            effort::SPEED.0 * stops + effort::SPEED.1 * grainy
        }
        Change::LowerSpeed { from, to } => effort::SLOWER_SPEED * from.stops_faster_than(*to).value(),
        Change::OpenUp { from, to, .. } => effort::OPEN * from.stops_darker_than(*to).value(),
        Change::StopDown { from, to, .. } => effort::CLOSE * to.stops_darker_than(*from).value(),
        Change::KeepInHand { from, to, .. } => effort::IN_HAND * (*from - *to).value(),
        Change::WaitLonger { from_s, to_s } => effort::WAIT * (to_s / from_s).log2(),
        Change::DimAmbient { stops } => effort::DIM.0 + effort::DIM.1 * stops.value(),
        Change::AllowCast { from, to } => (to.value() - from.value()) / effort::CAST_MIRED,
        Change::AnySkin => effort::ANY_SKIN,
        Change::AllowAngle { from_deg, to_deg } => (to_deg - from_deg) / effort::DEG,
        Change::OtherSide { .. } => effort::OTHER_SIDE,
        Change::KeyHeight { from_deg, to_deg } => (to_deg - from_deg).abs() / effort::DEG,
        Change::AnySoftness { .. } => effort::ANY_EDGE,
        Change::SettleRatio { from, to } => (to.value() / from.value()).log2().abs() / effort::LEVEL,
        Change::FacesDiffer { from, to } => (*to - *from).value() / effort::EVENNESS,
        Change::SettleBackground { from, to } => (*to - *from).value().abs() / effort::LEVEL,
        Change::HoldBoard { .. } => effort::HELPER,
        Change::FlashOffCamera { bring_stand } | Change::FlashElsewhere { bring_stand } => {
            match bring_stand {
                false => effort::OFF_CAMERA.0,
                true => effort::OFF_CAMERA.1,
            }
        }
        Change::Bring { thing } => match thing {
            Brought::Filter { stops } => effort::BRING_FILTER.0 + effort::BRING_FILTER.1 * stops.value(),
            Brought::Umbrella { .. } => effort::BRING.0,
            Brought::Card { .. } => effort::BRING.1,
        },
        Change::Both { first, second } => effort_of(first) + effort_of(second),
        Change::MoveSitter { by, .. } => effort::MOVE.0 + effort::MOVE.1 * f64::from(by.length()),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use answer::Side;
    use units::{Iso, Stops};

    #[test]
    fn efforts_are_those_of_the_page() {
        let check = |change: Change, expected: f64| {
            let found = effort_of(&change);
            assert!(
                (found - expected).abs() < 1e-6,
                "{change:?}: {found} instead of {expected}"
            );
        };
        let iso = |value: f64| Iso::new(value).unwrap();
        let speed = |from: f64, to: f64| Change::RaiseSpeed {
            from: iso(from),
            to: iso(to),
        };
        // Noise shows from ISO 1600 on, and never counts for more stops than are asked.
        check(speed(400.0, 800.0), 0.3);
        check(speed(800.0, 3200.0), 2.0 * 0.3 + 0.5);
        check(speed(3200.0, 6400.0), 0.3 + 0.5);
        let (from, to) = (iso(400.0), iso(100.0));
        check(Change::LowerSpeed { from, to }, 0.4);
        let (from, to) = (Stops(2.0), Stops(0.5));
        let ready_s = [1.0, 3.0];
        check(Change::KeepInHand { from, to, ready_s }, 0.9);
        let (from_s, to_s) = (1.0, 4.0);
        check(Change::WaitLonger { from_s, to_s }, 0.8);
        check(Change::DimAmbient { stops: Stops(2.0) }, 0.6);
        check(Change::OtherSide { side: Side::Left }, 1.2);
        let (from_deg, to_deg) = (30.0, 18.0);
        check(Change::KeyHeight { from_deg, to_deg }, 1.0);
        check(Change::FlashOffCamera { bring_stand: true }, 0.8);
        check(Change::FlashElsewhere { bring_stand: true }, 0.8);
        let thing = Brought::Filter { stops: Stops(3.0) };
        check(Change::Bring { thing }, 0.65);
    }
}
