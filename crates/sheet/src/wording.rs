//! Where every sentence about an answer is made, from data, with a voice: English and German side by side.
//!
//! No other part of the program words an answer: the solver hands over identities and amounts, and the server and the page
//! show what is made here. A sentence is a `match` over its data with `said!` in each arm, so that neither a case nor a
//! translation can be missing in a program that compiles.

pub(crate) mod aim;
pub(crate) mod alternatives;
pub(crate) mod balance;
pub(crate) mod cautions;
pub(crate) mod changes;
pub(crate) mod chart;
pub(crate) mod colouring;
pub(crate) mod doubt;
pub(crate) mod failures;
pub(crate) mod for_assistant;
pub(crate) mod lines;
pub(crate) mod notes;
pub(crate) mod nouns;
pub(crate) mod on_card;
pub(crate) mod on_day;
pub(crate) mod on_drawings;
pub(crate) mod on_map;
pub(crate) mod printed;
pub mod refusals;
pub(crate) mod steps;
pub(crate) mod variations;
pub(crate) mod why;

#[cfg(test)]
pub(crate) mod tests;
pub(crate) mod wishes;
