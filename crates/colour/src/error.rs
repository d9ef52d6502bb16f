//! What can go wrong between a curve and a colour.

/// A colour that cannot be worked out or does not exist.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum ColourError {
    /// A reflectance outside 0 to 1, or not a number.
    #[error("a reflectance must lie between 0 and 1 in every band, but band {band} is {value}")]
    NotAReflectance {
        /// Index of the band, 0 to 15.
        band: usize,
        /// Its value.
        value: f32,
    },
    /// A component of a linear RGB reflectance outside 0 to 1, or not a number.
    #[error(
        "each part of a linear RGB reflectance must lie between 0 and 1, but the {channel} part is {value}; a white wall is about (0.8, 0.8, 0.8)"
    )]
    NotAColour {
        /// Which of the three.
        channel: Primary,
        /// Its value.
        value: f64,
    },
    /// No smooth reflectance was found for a linear RGB triple.
    #[error("no smooth reflectance was found for linear RGB ({}, {}, {}); a less saturated colour may do", .0[0], .0[1], .0[2])]
    NoReflectance([f64; 3]),
    /// A colour temperature outside the daylight series.
    #[error(
        "the daylight series holds from 4000 K to 25000 K, and {0} K is outside; use a lamp colour instead"
    )]
    OutsideDaylight(f64),
    /// No positive light has this chromaticity, or none of the family used here.
    #[error(
        "no light of {kelvin} K with Duv {duv} could be made; Duv between -0.02 and +0.02 is usual for lamps"
    )]
    NoSuchLight {
        /// Colour temperature asked for.
        kelvin: f64,
        /// Duv asked for.
        duv: f64,
    },
    /// A curve without two rising wavelengths, or with something that is not a number.
    #[error("a spectral curve needs at least two points with rising wavelengths and finite values: {0}")]
    BadCurve(CurveFault),
    /// A light that gives nothing to see.
    #[error("a light needs some power between 400 and 700 nm and none below zero")]
    NoLight,
    /// A word that names no class of skin.
    #[error("\"{written}\" is not a skin tone; the tones are {known}")]
    NotASkinTone {
        /// As it was written.
        written: String,
        /// The names that there are.
        known: String,
    },
    /// A lightness that the model of skin does not reach.
    #[error("skin of lightness L* {0} is beyond what the data and the model cover, {1} to {2}")]
    OutsideSkin(f64, f64, f64),
}

/// What can be wrong with the points of a curve.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
pub enum CurveFault {
    /// Wavelengths and values do not go together.
    #[error("there are not as many values as wavelengths")]
    NotAsManyValues,
    /// Too few points.
    #[error("there are fewer than two points")]
    TooFewPoints,
    /// Something that is not a number.
    #[error("some number is missing or infinite")]
    NotFinite,
    /// Wavelengths that do not rise.
    #[error("the wavelengths do not rise")]
    NotRising,
}

/// One of the three parts of a linear RGB reflectance.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Primary {
    /// The first.
    Red,
    /// The second.
    Green,
    /// The third.
    Blue,
}

impl std::fmt::Display for Primary {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str(match self {
            Primary::Red => "red",
            Primary::Green => "green",
            Primary::Blue => "blue",
        })
    }
}
