//! What a change asks of the photographer and the picture.

use answer::Change;

/// Speeds from which noise shows (common practice).
const GRAINY_ISO: f64 = 1600.0;

/// What a change asks of the photographer and the picture, in points like those of the score (ours).
pub(crate) fn effort(change: &Change) -> f64 {
    match change {
        Change::RaiseSpeed { from, to } | Change::AllowSpeeds { from, to } => {
            let stops = to.stops_faster_than(*from).value();
            let grainy = (to.value() / GRAINY_ISO).log2().clamp(0.0, stops);
            0.3 * stops + 0.5 * grainy
        }
        Change::LowerSpeed { from, to } => 0.2 * from.stops_faster_than(*to).value(),
        Change::OpenUp { from, to, .. } => 0.5 * from.stops_darker_than(*to).value(),
        Change::StopDown { from, to, .. } => 0.35 * to.stops_darker_than(*from).value(),
        Change::KeepInHand { from, to, .. } => 0.6 * (*from - *to).value(),
        Change::WaitLonger { from_s, to_s } => 0.4 * (to_s / from_s).log2(),
        Change::DimAmbient { stops } => 0.3 + 0.15 * stops.value(),
        Change::AllowCast { from, to } => (to.value() - from.value()) / 20.0,
        Change::AnySkin => 3.0,
        Change::AllowAngle { from_deg, to_deg } => (to_deg - from_deg) / 12.0,
        Change::OtherSide { .. } => 1.2,
        Change::KeyHeight { from_deg, to_deg } => (to_deg - from_deg).abs() / 12.0,
        Change::AnySoftness { .. } => 1.5,
        Change::SettleRatio { from, to } => (to.value() / from.value()).log2().abs() / 0.7,
        Change::FacesDiffer { from, to } => (*to - *from).value() / 0.5,
        Change::SettleBackground { from, to } => (*to - *from).value().abs() / 0.7,
        Change::HoldBoard { .. } => 0.7,
        Change::FlashOffCamera { bring_stand: false } => 0.5,
        Change::FlashOffCamera { bring_stand: true } => 0.8,
        Change::MoveSitter { by, .. } => 0.5 + 0.6 * f64::from(by.length()),
    }
}
