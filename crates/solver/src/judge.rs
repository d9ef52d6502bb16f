//! What a photographer would say of a way of lighting: settings, wishes, colours, and what it takes.

pub(crate) mod clashes;
pub(crate) mod colours;
pub(crate) mod exposure;
pub(crate) mod handling;
pub(crate) mod judged;
pub(crate) mod mix;
pub(crate) mod settings;
pub(crate) mod unmet;
pub(crate) mod wishes;
pub(crate) mod zones;
