//! After the answer, on the day: another light, another distance, another aim.
//!
//! The answer stays what it is; only exposure is counted again, by the functions that counted it first. What the
//! light does to the settings is arithmetic. What a distance does to the flash's light is read from the place, solved
//! coarsely with the head, the board or the sitters a little elsewhere, as the difference to the same place as planned.

pub(crate) mod aiming;
pub(crate) mod distances;
pub(crate) mod light;

use crate::later::distances::when_distances_change;
use crate::later::light::when_light_changes;
use answer::{Answer, Failure, Job, Variations};
use units::Stops;

/// The light is varied from four stops darker to four stops brighter, in clicks.
const MOST_CLICKS: i32 = 12;

/// Everything that a card says of another light and other distances.
///
/// # Errors
/// A place that cannot be built.
pub fn variations(job: &Job, answer: &Answer, seed: u64) -> Result<Variations, Failure> {
    let light = |clicks: i32| when_light_changes(job, answer, Stops(f64::from(clicks) / 3.0));
    Ok(Variations {
        lights: (-MOST_CLICKS..=MOST_CLICKS).map(light).collect(),
        distances: when_distances_change(job, answer, seed)?,
    })
}
