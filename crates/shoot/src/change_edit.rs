//! A change that an answer offers, written into the shoot text.

use super::edit::{self, Edit, Step};
use super::reading::parse_set_up;
use answer::{AmbientLevel, Brought, Change, Job, KeyWish, Side, Softness};
use glam::Vec3;
use serde_json::{Value, json};
use units::{Iso, METRES_PER_FOOT, Stops};

/// The text with a change made, as set-up number `set_up` sees it; `job` is what that set-up asks, and `feet` says how the
/// file writes lengths. `None` where the photographer makes the change by hand, or where the text with it could not be read.
pub fn with_change(text: &str, set_up: usize, job: &Job, change: &Change, feet: bool) -> Option<String> {
    let changed = edit::edit(text, set_up, &edits(change, job, feet)?).ok()?;
    parse_set_up("changed", &changed, set_up)
        .is_ok()
        .then_some(changed)
}

/// The edits that make a change to the text of a job. `None` where nothing in the text says what changes.
fn edits(change: &Change, job: &Job, feet: bool) -> Option<Vec<Edit>> {
    let edits = match change {
        Change::RaiseSpeed { to, .. } => {
            let allowed = (to.value() > job.body.most_iso.value()).then(|| speeds_up_to(*to, job));
            [ask("iso", to.to_string())].into_iter().chain(allowed).collect()
        }
        Change::AllowSpeeds { to, .. } => vec![speeds_up_to(*to, job)],
        Change::LowerSpeed { to, .. } => vec![ask("iso", to.to_string())],
        Change::OpenUp { to, .. } | Change::StopDown { to, .. } => {
            // One aperture and a depth contradict one another.
            let depth = job.ask.depth.map(|_| Edit::remove(["ask", "depth"]));
            let aperture = ask("aperture", to.nearest_third().to_string());
            [aperture].into_iter().chain(depth).collect()
        }
        Change::KeepInHand { to, .. } => vec![ask("in_hand", format!("{:.1} stops", to.value()))],
        // Never less than what was found, which is what makes it possible.
        Change::WaitLonger { to_s, .. } => {
            vec![ask("recycle", format!("{:.2} s", (to_s * 100.0).ceil() / 100.0))]
        }
        Change::DimAmbient { stops } => dimmed(job, stops.value()),
        Change::AllowCast { to, .. } => vec![ask("skin", format!("within {:.0} mired", to.value()))],
        Change::AnySkin => vec![ask("skin", "any")],
        Change::AllowAngle { to_deg, .. } => key(KeyWish {
            azimuth_tolerance_deg: *to_deg,
            ..job.ask.key
        }),
        Change::OtherSide { .. } => key(KeyWish {
            side: None,
            ..job.ask.key
        }),
        Change::KeyHeight { to_deg, .. } => key(KeyWish {
            elevation_deg: *to_deg,
            ..job.ask.key
        }),
        Change::AnySoftness { .. } => vec![ask("softness", word_of(Softness::Any))],
        Change::SettleRatio { to, .. } => vec![ask("ratio", format!("{:.1}:1", to.value()))],
        Change::FacesDiffer { to, .. } => vec![ask("evenness", format!("{:.1} stops", to.value()))],
        Change::SettleBackground { to, .. } => vec![ask("background", format!("{:+.1} stops", to.value()))],
        // A helper who is there already holds the board.
        Change::HoldBoard { .. } if job.bag.helpers > 0 => Vec::new(),
        Change::HoldBoard { .. } => vec![
            Edit::set(["bag", "helpers"], 1),
            Edit::remove(["bag", "assistant"]),
        ],
        Change::FlashOffCamera { bring_stand } | Change::FlashElsewhere { bring_stand } => {
            let stand = (*bring_stand && !job.bag.stand).then(|| Edit::set(["bag", "stand"], true));
            [ask("flash", "anywhere")].into_iter().chain(stand).collect()
        }
        Change::Bring { thing } => brought(*thing, job),
        Change::Both { first, second } => {
            let then = first.apply(job);
            let mut both = edits(first, job, feet)?;
            both.extend(edits(second, &then, feet)?);
            both
        }
        Change::MoveSitter { by, .. } => moved(job, *by, feet),
    };
    (!edits.is_empty()).then_some(edits)
}

fn ask(key: &str, value: impl Into<Value>) -> Edit {
    Edit::set(["ask", key], value)
}

/// What is brought along, in the bag.
fn brought(thing: Brought, job: &Job) -> Vec<Edit> {
    let stops = |stops: Stops| format!("{:.1} stops", stops.value());
    match thing {
        Brought::Filter { stops: more } => {
            let filters: Vec<String> = job.bag.nd.iter().copied().chain([more]).map(stops).collect();
            vec![Edit::set(["bag", "nd"], filters)]
        }
        Brought::Umbrella { loss, width_m } => vec![
            Edit::set(
                ["bag", "flash", "umbrella"],
                json!({ "loss": stops(loss), "size": format!("{width_m:.2} m") }),
            ),
            Edit::set(["bag", "stand"], true),
            ask("flash", "anywhere"),
        ],
        Brought::Card { width_m, height_m } => {
            let card = json!([{ "name": Brought::CARD, "size": format!("{width_m:.2} x {height_m:.2} m") }]);
            let holder = [
                Edit::set(["bag", "helpers"], 1),
                Edit::remove(["bag", "assistant"]),
            ];
            let alone = job.bag.helpers == 0;
            [Edit::set(["bag", "board"], card)]
                .into_iter()
                .chain(holder.into_iter().filter(|_| alone))
                .collect()
        }
    }
}

/// The speeds that the camera's owner would use, up to a higher one.
fn speeds_up_to(most: Iso, job: &Job) -> Edit {
    let least = job.body.least_iso.value();
    Edit::set(["camera", "iso"], format!("{least:.0} to {:.0}", most.value()))
}

/// Every light that is there, by its reading or by the light of its lamp.
fn dimmed(job: &Job, stops: f64) -> Vec<Edit> {
    let of = |index: usize, key: &str, value: Value| {
        Edit::set([Step::from("ambient"), index.into(), key.into()], value)
    };
    let lights = job.ambients.iter().enumerate();
    lights
        .map(|(index, ambient)| match ambient.reading.dimmed(stops) {
            AmbientLevel::Reading(level) => of(index, "reading", format!("EV {:.1}", level.value()).into()),
            AmbientLevel::Lumens(lumens) => of(index, "lumen", lumens.round().max(1.0).into()),
        })
        .collect()
}

/// The key as angles, its side among them.
fn key(wish: KeyWish) -> Vec<Edit> {
    let from = match wish.side {
        Some(Side::Left) => "left",
        Some(Side::Right) => "right",
        None => "either",
    };
    // The middle of a pattern's range may lie at half a degree.
    let degrees = |angle: f64| format!("{} deg", (angle * 10.0).round() / 10.0);
    let angles = json!({
        "from": from,
        "azimuth": degrees(wish.azimuth_deg),
        "elevation": degrees(wish.elevation_deg),
        "tolerance": degrees(wish.azimuth_tolerance_deg),
    });
    vec![ask("key", angles), Edit::remove(["ask", "from"])]
}

fn word_of(softness: Softness) -> &'static str {
    match softness {
        Softness::Soft => "soft",
        Softness::Hard => "hard",
        Softness::Any => "any",
    }
}

/// Where everyone stands after a step.
fn moved(job: &Job, by: Vec3, feet: bool) -> Vec<Edit> {
    let to = |index: usize, key: &str, metres: f32| {
        Edit::set(
            [Step::from("sitter"), index.into(), key.into()],
            length(f64::from(metres), feet),
        )
    };
    let sitters = job.sitters.iter().enumerate();
    sitters
        .flat_map(|(index, sitter)| {
            let stand = sitter.stand + by;
            [to(index, "from_left", stand.x), to(index, "from_behind", stand.y)]
        })
        .collect()
}

/// A length as a shoot file writes it: to the centimetre, or to half an inch.
fn length(metres: f64, feet: bool) -> String {
    if !feet {
        return format!("{metres:.2} m");
    }
    let half_inches = (metres / METRES_PER_FOOT * 24.0).round();
    let (feet, inches) = ((half_inches / 24.0).floor(), half_inches.rem_euclid(24.0) / 2.0);
    format!("{feet} ft {inches} in")
}

#[cfg(test)]
mod tests {
    use super::*;
    use units::{FNumber, MiredShift, Ratio};

    const TEXT: &str = r#"
[place]
room = "7.5 x 5.5 x 2.4 m"
[camera]
from_left = "2.3 m"
from_behind = "2.6 m"
iso = "100 to 1600"
[[sitter]]
from_left = "2.3 m"
from_behind = "4.7 m"
[[sitter]]
from_left = "3.2 m"
from_behind = "5.0 m"
[[ambient]]
name = "tubes"
reading = "EV 6"
[[ambient]]
name = "bulb"
lumen = 800
from = { from_left = "1.0 m", from_behind = "5.0 m", height = "2.0 m" }
colour = "2700 K"
[bag]
assistant = false
[ask]
key = "loop"
from = "left"
depth = "0.3 m"
evenness = "1/3 stop"
"#;

    /// The job of a text that cannot be read is no job.
    fn job(text: &str) -> Job {
        parse_set_up("test", text, 0).expect("a complete file").job
    }

    /// Reads the text with the change in it: everything but what `apart` takes away must be as the change makes it.
    fn reads_as_changed(text: &str, change: &Change) {
        let before = job(text);
        let text = with_change(text, 0, &before, change, false)
            .unwrap_or_else(|| panic!("{change:?} cannot be written"));
        let (written, mut expected) = (job(&text), change.apply(&before));
        if matches!(change, Change::OpenUp { .. } | Change::StopDown { .. }) {
            expected.ask.depth = None;
        }
        let shown = |job: &Job| {
            let stands: Vec<Vec3> = job
                .sitters
                .iter()
                .map(|sitter| (sitter.stand * 100.0).round())
                .collect();
            let levels: Vec<AmbientLevel> = job.ambients.iter().map(|ambient| ambient.reading).collect();
            let bag = &job.bag;
            let hands = (bag.helpers, bag.stand);
            let boards: Vec<_> = bag
                .boards
                .iter()
                .map(|board| (&board.name, board.size, board.material.reflectance))
                .collect();
            format!(
                "{:?} {:?} {stands:?} {levels:?} {hands:?} {:?} {:?} {boards:?}",
                job.ask, job.body, bag.nd, bag.dresses
            )
        };
        assert_eq!(shown(&written), shown(&expected), "{change:?}");
        assert_ne!(shown(&written), shown(&before), "{change:?}");
    }

    #[test]
    fn a_change_that_is_written_reads_as_the_change() {
        let iso = |speed| Iso::new(speed).expect("a speed");
        let number = |number| FNumber::new(number).expect("an f-number");
        let ratio = |ratio| Ratio::new(ratio).expect("a ratio");
        let all = [
            Change::RaiseSpeed {
                from: iso(100.0),
                to: iso(800.0),
            },
            Change::RaiseSpeed {
                from: iso(100.0),
                to: iso(3200.0),
            },
            Change::AllowSpeeds {
                from: iso(1600.0),
                to: iso(6400.0),
            },
            Change::LowerSpeed {
                from: iso(800.0),
                to: iso(200.0),
            },
            Change::OpenUp {
                from: number(8.0),
                to: number(4.0),
                sharp_m: None,
            },
            Change::StopDown {
                from: number(4.0),
                to: number(8.0),
                sharp_m: None,
            },
            Change::KeepInHand {
                from: Stops(1.0),
                // Text reads tenths as thirds.
                to: Stops(1.0 / 3.0),
                ready_s: [1.0, 2.0],
            },
            Change::WaitLonger {
                from_s: 1.0,
                to_s: 2.25,
            },
            Change::DimAmbient { stops: Stops(1.0) },
            Change::AllowCast {
                from: MiredShift(10.0),
                to: MiredShift(25.0),
            },
            Change::AnySkin,
            Change::AllowAngle {
                from_deg: 10.0,
                to_deg: 30.0,
            },
            Change::OtherSide { side: Side::Right },
            Change::KeyHeight {
                from_deg: 25.0,
                to_deg: 40.0,
            },
            Change::AnySoftness {
                asked: Softness::Soft,
            },
            Change::SettleRatio {
                from: ratio(2.0),
                to: ratio(4.5),
            },
            Change::FacesDiffer {
                from: Stops(0.3),
                to: Stops(0.8),
            },
            Change::SettleBackground {
                from: Stops(0.0),
                to: Stops(-1.5),
            },
            Change::HoldBoard {
                board: "white board".to_owned(),
            },
            Change::FlashOffCamera { bring_stand: true },
            Change::FlashElsewhere { bring_stand: true },
            Change::Bring {
                thing: Brought::Filter { stops: Stops(3.0) },
            },
            Change::Bring {
                thing: Brought::Umbrella {
                    loss: Stops(5.0 / 3.0),
                    width_m: 1.0,
                },
            },
            Change::Bring {
                thing: Brought::Card {
                    width_m: 1.0,
                    height_m: 1.2,
                },
            },
            Change::MoveSitter {
                by: Vec3::new(0.2, -0.3, 0.0),
                right_m: 0.2,
                away_m: -0.3,
            },
        ];
        for change in &all {
            reads_as_changed(TEXT, change);
        }
        // No stand is needed where somebody can hold the flash.
        let helped = TEXT.replace("assistant = false", "assistant = true");
        reads_as_changed(&helped, &Change::FlashOffCamera { bring_stand: false });
    }

    #[test]
    fn what_the_text_has_already_is_not_written() {
        let text = TEXT.replace("assistant = false", "helpers = 2");
        let change = Change::HoldBoard {
            board: "white board".to_owned(),
        };
        assert_eq!(edits(&change, &job(&text), false), None);
        let dark = TEXT.split("[[ambient]]").next().expect("the first part");
        let change = Change::DimAmbient { stops: Stops(1.0) };
        assert_eq!(edits(&change, &job(dark), false), None);
    }

    #[test]
    fn lengths_stay_in_the_unit_of_the_file() {
        let check = |metres: f64, feet: bool, expected: &str| assert_eq!(length(metres, feet), expected);
        check(2.345, false, "2.35 m");
        check(2.0 * METRES_PER_FOOT, true, "2 ft 0 in");
        check(7.0 * METRES_PER_FOOT + 0.0254 * 5.5, true, "7 ft 5.5 in");
        check(6.999 * METRES_PER_FOOT, true, "7 ft 0 in");
    }
}
