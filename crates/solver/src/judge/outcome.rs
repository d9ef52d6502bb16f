//! What a way of lighting comes to, as faults and limits need it.

use answer::{KeyReading, Settings};

/// What a way does, as far as faults and limits are concerned.
pub(crate) struct Outcome<'a> {
    pub key: &'a KeyReading,
    /// Azimuth and elevation of what carries the key, in degrees.
    pub from: (f64, f64),
    /// Exact power in stops below 1/1.
    pub power: f64,
    /// Brightest minus darkest face, in stops.
    pub spread: f64,
    /// Background against the face, in stops.
    pub background: f64,
    /// Ambient at the face against an exact exposure, in stops.
    pub ambient: f64,
    /// The camera's settings.
    pub settings: &'a Settings,
}
