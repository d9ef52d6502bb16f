//! You know the result and want the cause: from an ask to settings that work.
//!
//! This crate turns an [`answer::Job`] (place, sitters, bag, ambient light, ask) into an [`answer::Answer`] with its
//! reasons. It has no physics of its own: it only calls forward functions of `transport` and `camera`, compares what
//! they return, and says why, as data. It makes no sentence.

mod changes;
mod choose;
mod decide;
mod explain;
mod judge;
mod later;
mod place;
mod practice;
mod solve;
#[cfg(test)]
mod trials;
mod watch;
mod ways;

pub use later::aiming::{AimReading, Aiming};
pub use later::light::{when_flash_changes, when_light_changes};
pub use later::variations;
pub use place::fine::{AmbientLayer, FinePlace, ambient_layers, scene_of};
pub use solve::{Solved, answer, answer_watched, answer_with_place};
pub use watch::Watch;
