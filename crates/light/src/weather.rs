//! Kinds of weather and of shade, as photographers name them.

use crate::SkyKind;
use units::Stops;

/// The weather, by what it does to light.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Weather {
    /// Blue sky, sharp shadows.
    Clear,
    /// A veil over a sun that still throws shadows.
    Hazy,
    /// Sun and clouds in turn; levels are the mean of both.
    PartlyCloudy,
    /// An even white sky, no shadows.
    BrightOvercast,
    /// A grey sky.
    HeavyOvercast,
}

/// Levels by day: sky on the ground A + B·sin^C h in klx, and the sun's beam dimmed by exp(−c / sin h).
pub(crate) struct DesignSky {
    /// A, B, C.
    pub sky_klx: [f64; 3],
    /// c; none where the sun does not come through.
    pub depth: Option<f64>,
}

impl Weather {
    /// All, from the brightest.
    pub const ALL: [Self; 5] = [
        Self::Clear,
        Self::Hazy,
        Self::PartlyCloudy,
        Self::BrightOvercast,
        Self::HeavyOvercast,
    ];

    /// Its name.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Clear => "clear",
            Self::Hazy => "hazy",
            Self::PartlyCloudy => "partly cloudy",
            Self::BrightOvercast => "bright overcast",
            Self::HeavyOvercast => "heavy overcast",
        }
    }

    /// By its name; case, hyphens and outer spaces do not matter.
    ///
    /// ```
    /// use light::Weather;
    /// assert_eq!(Weather::named("Partly-cloudy"), Some(Weather::PartlyCloudy));
    /// assert_eq!(Weather::named("raining cats"), None);
    /// ```
    pub fn named(name: &str) -> Option<Self> {
        let wanted = name.trim().to_lowercase().replace('-', " ");
        Self::ALL.into_iter().find(|weather| weather.name() == wanted)
    }

    /// The standard sky that has its pattern (the choice is ours).
    pub fn usual_sky(self) -> SkyKind {
        let number = match self {
            Self::Clear => 12,
            Self::Hazy => 14,
            Self::PartlyCloudy => 10,
            Self::BrightOvercast => 2,
            Self::HeavyOvercast => 1,
        };
        SkyKind::standard(number).expect("a number of the standard")
    }

    /// The weather to which a sky of the standard belongs by its description.
    pub const fn of_sky(kind: SkyKind) -> Self {
        match kind.number() {
            6..=10 => Self::PartlyCloudy,
            11..=13 => Self::Clear,
            14 | 15 => Self::Hazy,
            _ => Self::BrightOvercast,
        }
    }

    /// The constants of the IES for clear, partly cloudy and cloudy skies (1984, Journal of the Illuminating Engineering
    /// Society 13(4), 381; the last two from memory). Hazy and heavy overcast are ours: a hazy sun is a stop under a clear
    /// one, a heavy overcast a stop under the IES's cloudy sky (common practice).
    pub(crate) const fn design(self) -> DesignSky {
        let (sky_klx, depth) = match self {
            Self::Clear => ([0.8, 15.5, 0.5], Some(0.21)),
            Self::Hazy => ([0.5, 26.0, 0.8], Some(1.1)),
            Self::PartlyCloudy => ([0.3, 45.0, 1.0], Some(0.80)),
            Self::BrightOvercast => ([0.3, 21.0, 1.0], None),
            Self::HeavyOvercast => ([0.15, 10.5, 1.0], None),
        };
        DesignSky { sky_klx, depth }
    }

    /// By how much it divides the light of a low sun, of dusk and of the moon.
    ///
    /// 1, 2 and 3 for no cloud, thin veil and average cloud as in Janiczek & DeYoung 1987 (USNO Circular 171). Partly cloudy
    /// is ours, between; heavy overcast is ours, a stop under average cloud, where the circular has 10 for dark stratus.
    pub const fn low_sun_divisor(self) -> f64 {
        match self {
            Self::Clear => 1.0,
            Self::PartlyCloudy => 1.4,
            Self::Hazy => 2.0,
            Self::BrightOvercast => 3.0,
            Self::HeavyOvercast => 6.0,
        }
    }

    /// How far a day of this kind may lie from the level given for it: one standard deviation (ours; the IES says of its mean
    /// values that an instant can be half or double).
    pub const fn spread(self) -> Stops {
        Stops(match self {
            Self::Clear => 0.2,
            Self::Hazy => 0.4,
            Self::PartlyCloudy => 0.7,
            Self::BrightOvercast => 0.5,
            Self::HeavyOvercast => 0.6,
        })
    }
}

/// Where there is shade.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Shade {
    /// Beside a building or a wall, most of the sky open.
    Open,
    /// In a courtyard, a narrow street or a porch, a fifth of the sky open.
    Deep,
    /// Under trees in leaf.
    UnderTrees,
}

impl Shade {
    /// All, from the brightest.
    pub const ALL: [Self; 3] = [Self::Open, Self::Deep, Self::UnderTrees];

    /// Its name.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Open => "open shade",
            Self::Deep => "deep shade",
            Self::UnderTrees => "under trees",
        }
    }

    /// Shares that reach the shaded place: of the sky's light; of all light outside, thrown back by what stands around; and
    /// of all light outside, through leaves.
    ///
    /// Ours, chosen so that a clear day gives EV 12 in open shade and EV 10 to 11 in deep shade, 7000 to 10 000 K (common
    /// practice).
    pub(crate) const fn shares(self) -> [f64; 3] {
        match self {
            Self::Open => [0.65, 0.03, 0.0],
            Self::Deep => [0.20, 0.01, 0.0],
            Self::UnderTrees => [0.15, 0.01, 0.02],
        }
    }
}
