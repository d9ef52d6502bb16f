//! What a photographer would say of a way of lighting: settings, faults, limits, colours.

pub(crate) mod exposure;
pub(crate) mod judged;
pub(crate) mod levels;
pub(crate) mod limits;
pub(crate) mod mix;
pub(crate) mod outcome;
pub(crate) mod score;
pub(crate) mod settings;
pub(crate) mod zones;
