//! `umbrella` and `softbox` under `[bag.flash]`: large fronts, by what they cost.

use super::parts::SOFT_FRONT;
use super::section::{Entry, Section};
use super::words::Noun;
use crate::both;
use light::{HeadDress, SoftFront};
use toml::de::DeValue;
use units::Stops;

/// Losses on the axis that such a front may have, in stops (common practice: 0.8 to 2.5; double cloths more).
const LOSSES: (f64, f64) = (0.3, 5.0);
/// Widths in metres (ours: a folding box to an umbrella for a whole figure).
const WIDTHS: (f64, f64) = (0.2, 2.5);
/// Width of an umbrella and of a small softbox when nothing is said, in metres.
const USUAL: [f64; 2] = [1.0, 0.6];

/// The fronts that are in the bag; `None` if one of them was refused.
pub(crate) fn read(section: &Section<'_>) -> Option<Vec<HeadDress>> {
    let umbrella = section.entry("umbrella").map(|entry| front(&entry, USUAL[0]));
    let softbox = section.entry("softbox").map(|entry| front(&entry, USUAL[1]));
    let mut fronts = Vec::new();
    if let Some(front) = umbrella {
        fronts.push(HeadDress::Umbrella(front?));
    }
    if let Some(front) = softbox {
        fronts.push(HeadDress::Softbox(front?));
    }
    Some(fronts)
}

/// `"1.7 stops"` or `{ loss = "1.7 stops", size = "1.0 m" }`.
fn front(entry: &Entry<'_>, usual: f64) -> Option<SoftFront> {
    if !matches!(entry.value, DeValue::Table(_)) {
        return Some(SoftFront::new(loss(entry)?, usual));
    }
    let section = Section::inline(entry, &SOFT_FRONT)?;
    section.close(super::parts::ALL);
    let loss = section
        .need("loss", "\"1.7 stops\"")
        .and_then(|entry| loss(&entry));
    let width = match section.entry("size") {
        Some(entry) => entry
            .length(Noun::eine("its width", "Breite"), WIDTHS.0, WIDTHS.1)?
            .value
            .into(),
        None => usual,
    };
    Some(SoftFront::new(loss?, width))
}

fn loss(entry: &Entry<'_>) -> Option<f64> {
    let said = entry.quantity::<Stops>()?;
    if !(LOSSES.0..=LOSSES.1).contains(&said.value.value()) {
        entry.refuse(
            both!("no umbrella or softbox costs {}", said.value; "kein Schirm und keine Softbox kostet {}"),
            both!("from {} to {} stops can be used", LOSSES.0, LOSSES.1; "möglich: von {} bis {} Blenden"),
            both!(
                "It is what is missing on the axis against the bare head at zoom 35, without a sign: a white umbrella takes about \"1.7 stops\", a small softbox \"2 stops\".";
                "Gemeint ist, was auf der Achse gegen den nackten Kopf bei Zoom 35 fehlt, ohne Vorzeichen: Ein weißer Schirm nimmt etwa \"1.7 stops\", eine kleine Softbox \"2 stops\"."
            ),
        );
        return None;
    }
    Some(said.value.value())
}
