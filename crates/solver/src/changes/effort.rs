//! What a change asks of the photographer and the picture.

use crate::practice::{GRAINY_ISO, effort};
use answer::Change;

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
        Change::FlashOffCamera { bring_stand: false } => effort::OFF_CAMERA.0,
        Change::FlashOffCamera { bring_stand: true } => effort::OFF_CAMERA.1,
        Change::MoveSitter { by, .. } => effort::MOVE.0 + effort::MOVE.1 * f64::from(by.length()),
    }
}
