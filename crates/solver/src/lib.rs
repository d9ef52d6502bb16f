//! You know the result and want the cause: from an ask to settings that work.
//!
//! This crate turns an [`answer::Job`] (place, sitters, bag, ambient light, ask) into an [`answer::Answer`] with its
//! reasons. It has no physics of its own: it only calls forward functions of `transport` and `camera`, compares what
//! they return, and says why, as data. It makes no sentence.

mod adjusting;
mod aiming;
mod alternatives;
mod balance;
mod changes;
mod colouring;
mod exposing;
mod levels;
mod limits;
mod notes;
mod reading;
mod reasons;
mod score;
mod search;
mod sensitivity;
mod solve;
mod survey;
#[cfg(test)]
mod trials;
mod uncertainty;
mod watch;
mod ways;

pub use adjusting::{variations, when_distances_change, when_flash_changes, when_light_changes};
pub use aiming::{AimReading, Aiming};
pub use solve::{ambient_layers, answer, answer_watched, scene_of};
pub use watch::Watch;
