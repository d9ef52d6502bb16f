//! What can be wrong with a description of a light.

use thiserror::Error;

/// A light that cannot be built from what was said about it.
#[derive(Clone, Debug, Error, PartialEq)]
pub enum LightError {
    /// The flash has no guide number at all.
    #[error(
        "this flash has no guide number, so its strength is unknown; give at least one, such as \"GN 36 m at zoom 50 (measured)\""
    )]
    NoGuideNumber,
    /// The colour of the light cannot be made.
    #[error(transparent)]
    Colour(#[from] colour::ColourError),
    /// Two guide numbers were given for one zoom.
    #[error("two guide numbers are given for zoom {zoom}; keep one of them")]
    RepeatedZoom {
        /// The zoom that appears twice, in millimetres.
        zoom: f64,
    },
    /// Guide numbers must not fall as the head zooms in.
    #[error(
        "the guide number falls from {wide} m at zoom {wide_zoom} to {long} m at zoom {long_zoom}; zooming in makes a beam narrower and stronger, so one of the two is mistyped"
    )]
    FallingGuideNumber {
        /// Guide number at the wider zoom.
        wide: f64,
        /// The wider zoom in millimetres.
        wide_zoom: f64,
        /// Guide number at the longer zoom.
        long: f64,
        /// The longer zoom in millimetres.
        long_zoom: f64,
    },
    /// The zoom asked for lies outside the range of the head.
    #[error("this flash zooms from {from} to {to} mm, so zoom {asked} cannot be set")]
    ZoomOutOfRange {
        /// The zoom that was asked for.
        asked: f64,
        /// The widest setting.
        from: f64,
        /// The longest setting.
        to: f64,
    },
    /// The total light and the guide number do not fit one beam.
    #[error("a total of {total:.0} cd s sr cannot go with GN {guide} m at zoom {zoom}: {reason}")]
    TotalDoesNotFit {
        /// Total light in candela second steradians (lumen seconds).
        total: f64,
        /// Guide number in metres.
        guide: f64,
        /// Zoom in millimetres.
        zoom: f64,
        /// Which way it fails.
        reason: Misfit,
    },
    /// A moment outside the years for which sun and moon are worked out, or a date that does not exist.
    #[error("sun and moon are worked out from 1900 to 2100, for dates and times that exist")]
    OutsideTheYears,
    /// A latitude or longitude that is nowhere.
    #[error(
        "latitude {latitude_deg}, longitude {longitude_deg} is nowhere on Earth; latitudes go from -90 to 90, longitudes from -180 to 180 degrees"
    )]
    NotOnEarth {
        /// Degrees.
        latitude_deg: f64,
        /// Degrees.
        longitude_deg: f64,
    },
    /// A sky that the standard does not have.
    #[error("there is no standard sky {0}; the standard has 1 to 15, and 16 is the traditional overcast sky")]
    NoSuchSky(u8),
}

/// Which way a total of light fails to go with a guide number.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Error)]
pub enum Misfit {
    /// There is more light than the widest beam holds at this strength.
    #[error("the light would have to be spread wider than the whole front of the head")]
    TooMuch,
    /// There is less light than the narrowest beam holds at this strength.
    #[error("even a beam far narrower than the zoom says holds more light")]
    TooLittle,
}
