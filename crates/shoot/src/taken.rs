//! A change that an answer suggests, written into the shoot text.

use super::edit::{self, Edit};
use serde_json::{Value, json};
use solver::{AmbientLevel, FlashStand, Job, Side, Softness};

/// The text with a suggested change made: `before` is the job of this set-up of the text, `after` the one with the
/// change. `None` where the difference cannot be written in a line or two, such as a lamp that has no reading.
///
/// Only what [`solver::Change`] changes is looked for: wishes of the ask, the fastest speed, hands and stand of the bag,
/// readings of ambient light, and where a single sitter stands.
pub fn with_change(text: &str, set_up: usize, before: &Job, after: &Job) -> Option<String> {
    let mut edits = of_ask(before, after);
    edits.extend(of_bag(before, after));
    edits.extend(of_light(before, after)?);
    edits.extend(of_sitter(before, after)?);
    if edits.is_empty() {
        return None;
    }
    edit::edit(text, set_up, &edits).ok()
}

fn ask(key: &str, value: impl Into<Value>) -> Edit {
    Edit::set(["ask", key], value)
}

/// Wishes.
fn of_ask(before: &Job, after: &Job) -> Vec<Edit> {
    let (was, now) = (&before.ask, &after.ask);
    let mut edits = Vec::new();
    if let Some(iso) = now.iso.filter(|_| now.iso != was.iso) {
        edits.push(ask("iso", iso.to_string()));
    }
    if after.body.most_iso != before.body.most_iso {
        let range = format!(
            "{:.0} to {:.0}",
            after.body.least_iso.value(),
            after.body.most_iso.value()
        );
        edits.push(Edit::set(["camera", "iso"], range));
    }
    if let Some(aperture) = now.aperture.filter(|_| now.aperture != was.aperture) {
        edits.push(ask("aperture", aperture.nearest_third().to_string()));
        // One aperture and a depth contradict one another.
        if was.depth.is_some() {
            edits.push(Edit::remove(["ask", "depth"]));
        }
    }
    if now.in_hand != was.in_hand {
        edits.push(ask("in_hand", format!("{:.1} stops", now.in_hand.value())));
    }
    if let Some(wait) = now.recycle_s.filter(|_| now.recycle_s != was.recycle_s) {
        // Never less than what was found, which is what makes it possible.
        edits.push(ask("recycle", format!("{:.2} s", (wait * 100.0).ceil() / 100.0)));
    }
    if !now.neutral_skin && was.neutral_skin {
        edits.push(ask("skin", "any"));
    } else if now.cast_limit != was.cast_limit {
        edits.push(ask("skin", format!("within {:.0} mired", now.cast_limit.value())));
    }
    if now.key != was.key {
        edits.push(ask("key", key(after)));
        edits.push(Edit::remove(["ask", "from"]));
    }
    if now.softness != was.softness {
        let word = match now.softness {
            Softness::Soft => "soft",
            Softness::Hard => "hard",
            Softness::Any => "any",
        };
        edits.push(ask("softness", word));
    }
    if let Some(ratio) = now.ratio.filter(|_| now.ratio != was.ratio) {
        edits.push(ask("ratio", format!("{:.1}:1", ratio.value())));
    }
    if let Some(evenness) = now.evenness.filter(|_| now.evenness != was.evenness) {
        edits.push(ask("evenness", format!("{:.1} stops", evenness.value())));
    }
    if let Some(background) = now.background.filter(|_| now.background != was.background) {
        edits.push(ask("background", format!("{:+.1} stops", background.value())));
    }
    if now.stand == FlashStand::Anywhere && was.stand != FlashStand::Anywhere {
        edits.push(ask("flash", "anywhere"));
    }
    edits
}

/// The key as angles.
fn key(job: &Job) -> Value {
    let key = &job.ask.key;
    let from = match key.side {
        Some(Side::Left) => "left",
        Some(Side::Right) => "right",
        None => "either",
    };
    json!({
        "from": from,
        "azimuth": format!("{:.0} deg", key.azimuth_deg),
        "elevation": format!("{:.0} deg", key.elevation_deg),
        "tolerance": format!("{:.0} deg", key.azimuth_tolerance_deg),
    })
}

/// Hands and a stand.
fn of_bag(before: &Job, after: &Job) -> Vec<Edit> {
    let mut edits = Vec::new();
    if after.bag.helpers != before.bag.helpers {
        edits.push(Edit::set(["bag", "helpers"], after.bag.helpers));
        edits.push(Edit::remove(["bag", "assistant"]));
    }
    if after.bag.stand != before.bag.stand {
        edits.push(Edit::set(["bag", "stand"], after.bag.stand));
    }
    edits
}

/// Ambient light by its readings; `None` where a light has none.
fn of_light(before: &Job, after: &Job) -> Option<Vec<Edit>> {
    let changed = before
        .ambients
        .iter()
        .zip(&after.ambients)
        .enumerate()
        .filter(|(_, (was, now))| was.reading != now.reading);
    changed
        .map(|(index, (_, now))| match now.reading {
            AmbientLevel::Reading(level) => Some(Edit::set(
                [edit::Step::from("ambient"), index.into(), "reading".into()],
                format!("EV {:.1}", level.value()),
            )),
            AmbientLevel::Lumens(_) => None,
        })
        .collect()
}

/// Where a single sitter stands; `None` for several, who move together.
fn of_sitter(before: &Job, after: &Job) -> Option<Vec<Edit>> {
    let moved = before
        .sitters
        .iter()
        .zip(&after.sitters)
        .any(|(was, now)| was.stand != now.stand);
    if !moved {
        return Some(Vec::new());
    }
    let [sitter] = &after.sitters[..] else {
        return None;
    };
    let to = |key: &str, metres: f32| {
        let centimetres = (f64::from(metres) * 100.0).round() / 100.0;
        Edit::set(
            [edit::Step::from("sitter"), 0.into(), key.into()],
            format!("{centimetres:.2} m"),
        )
    };
    Some(vec![
        to("from_left", sitter.stand.x),
        to("from_behind", sitter.stand.y),
    ])
}
