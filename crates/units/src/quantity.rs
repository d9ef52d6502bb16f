//! What a written quantity can be, how it is spelled, and what can be wrong with its spelling: kinds, so that each reader words them in
//! its own language.

use std::fmt;

macro_rules! quantities {
    ($($name:ident $words:literal;)*) => {
        /// What a limit is the range of.
        #[derive(Clone, Copy, Debug, PartialEq, Eq)]
        pub enum Quantity {
            $(#[doc = concat!("What English calls ", $words, ".")] $name,)*
        }

        impl fmt::Display for Quantity {
            /// The quantity with its article, as it appears in a sentence.
            fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
                f.write_str(match self {
                    $(Quantity::$name => $words,)*
                })
            }
        }
    };
}

quantities! {
    Length "a length";
    Side "a side of a size";
    FocalLength "a focal length";
    Angle "an angle";
    FNumber "an f-number";
    ShutterTime "a shutter time";
    Time "a time";
    Iso "an ISO sensitivity";
    Power "a power below full";
    Stops "a difference in stops";
    ExposureValue "an exposure value";
    Illuminance "an illuminance";
    LuminousExposure "a luminous exposure";
    Luminance "a luminance";
    LuminousIntensity "a luminous intensity";
    FlashIntensity "a flash intensity";
    GuideNumber "a guide number";
    Zoom "a flash zoom";
    ColourTemperature "a colour temperature";
    ReciprocalTemperature "a reciprocal colour temperature";
    MiredShift "a mired shift";
    Duv "a Duv";
    Ratio "a lighting ratio";
}

/// Spellings that work, at least one.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Examples(pub &'static [&'static str]);

impl fmt::Display for Examples {
    /// "2.6 m, 260 cm or 8 ft 6 in".
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self.0 {
            [] => Ok(()),
            [only] => f.write_str(only),
            [most @ .., last] => write!(f, "{} or {last}", most.join(", ")),
        }
    }
}

/// Why a text cannot be read as a quantity.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum Reason {
    /// A shift of colour temperature without + or -.
    #[error("a shift needs its sign: + is warmer, - is cooler")]
    ShiftWithoutSign,
    /// Something stands behind the quantity.
    #[error("\"{0}\" is one thing too many")]
    TooMuch(String),
    /// An aperture without its f.
    #[error("it must begin with f/")]
    NoFStop,
    /// A sensitivity without its ISO.
    #[error("it must begin with ISO")]
    NoIso,
    /// A zoom without the word.
    #[error("it must begin with zoom")]
    NoZoomWord,
    /// A guide number without its GN.
    #[error("it must begin with GN")]
    NoGn,
    /// A shutter time that cameras show for a fraction, and clocks for seconds.
    #[error("it could be 1/{0} or {0} s")]
    SecondsOrFraction(f64),
    /// Another unit than seconds.
    #[error("\"{0}\" is not seconds")]
    NotSeconds(String),
    /// Nothing below the stroke.
    #[error("nothing can be divided by zero")]
    DividedByZero,
    /// A power that is no fraction.
    #[error("a power begins with 1/")]
    PowerWithoutOne,
    /// A power between the steps of a flash.
    #[error("1/{0} is not a step of a flash; the steps are 1/1, 1/2, 1/4, 1/8 and so on")]
    NotAPowerStep(f64),
    /// What follows a step of power has no sign.
    #[error("\"{0}\" needs + or - before it")]
    PartWithoutSign(String),
    /// What follows a step of power is more than a step.
    #[error("the part after the step is at most one stop")]
    PartTooLarge,
    /// More than full power.
    #[error("no flash gives more than full power, 1/1")]
    MoreThanFull,
    /// A guide number without the zoom that it holds for.
    #[error("the zoom it holds for is missing")]
    NoZoom,
    /// A guide number without its unit.
    #[error("metres or feet? The unit is missing")]
    MetresOrFeet,
    /// A guide number in another unit.
    #[error("\"{0}\" is neither m nor ft")]
    NeitherMetresNorFeet(String),
    /// A guide number that does not say where it is from.
    #[error("say (claimed) or (measured)")]
    NoBasis,
    /// A guide number from elsewhere.
    #[error("\"{0}\" is neither claimed nor measured")]
    UnknownBasis(String),
    /// A size with too few or too many sides.
    #[error("two or three numbers with x between them are needed, not {0}")]
    NotASizeOfSides(usize),
    /// A size with nothing on one side of its x.
    #[error("a number is missing beside an x")]
    NoNumberBesideX,
    /// A size without its unit.
    #[error("the unit is missing after the last number")]
    NoLastUnit,
    /// A size with units after some of its numbers.
    #[error("give one unit at the end, or a unit after every number")]
    SomeUnits,
    /// A size whose feet and inches stand only at its end.
    #[error("feet with inches need the unit after every number")]
    FeetAndInchesOnce,
    /// A number without its unit.
    #[error("the unit is missing")]
    NoUnit,
    /// A length in another unit.
    #[error("\"{0}\" is not a unit of length")]
    NotALengthUnit(String),
    /// Another unit than the quantity has.
    #[error("\"{0}\" is not a unit of it")]
    NotItsUnit(String),
    /// Feet and a second number without its unit.
    #[error("the second number needs \"in\" after it")]
    NoInchMark,
    /// Inches that make a foot.
    #[error("twelve inches or more are written as a foot")]
    TwelveInches,
    /// A ratio with one number.
    #[error("two numbers with a colon between them are needed")]
    NoColon,
    /// A ratio to zero.
    #[error("the second number must be more than nothing")]
    RatioToNothing,
    /// A ratio the wrong way round.
    #[error("the larger number comes first")]
    SmallerFirst,
    /// An empty text.
    #[error("nothing is written")]
    Nothing,
    /// A text that begins with something else than a number.
    #[error("it does not begin with a number")]
    NoNumberFirst,
    /// A decimal comma, or a mark between thousands.
    #[error("decimals are written with a point, and thousands without a mark")]
    DecimalComma,
    /// Digits and points that make no number.
    #[error("\"{0}\" is not a number")]
    NotANumber(String),
    /// An exposure value without its EV.
    #[error("the letters EV are missing")]
    NoEv,
}
