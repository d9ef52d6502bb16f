//! What the photographer insists on, and what the answer makes of it.

use crate::Side;
use schemars::JsonSchema;
use serde::Serialize;
use units::{MiredShift, Ratio, Stops};

/// What a limit is about, which also says the unit of what was found and of what is short.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum LimitKind {
    /// Stops in hand below full power, in stops.
    Power,
    /// Too much light even at the least power, in stops.
    LeastPower,
    /// Wait between two frames, in seconds.
    Recycle,
    /// Cast on skin, in mired.
    Cast,
    /// Green or magenta on skin, in Duv.
    GreenMagenta,
    /// Angle of the key from the nose, in degrees.
    Direction,
    /// Height of the key over the eyes, in degrees.
    Height,
    /// Width of the light over its distance.
    Softness,
    /// Near side of the face over the far side, in stops between asked and found.
    Ratio,
    /// Spread over the faces, in stops.
    Evenness,
    /// Background against the face, in stops.
    Background,
    /// Ambient against an exact exposure, in stops.
    Ambient,
    /// Light on skin against the balance, in mired.
    SkinColour,
    /// Light on the background against the balance, in mired.
    RoomColour,
    /// A zone against normal, in stops.
    Zone,
}

/// Something insisted on, with the amount that was asked.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
#[serde(tag = "wish", rename_all = "snake_case")]
#[schemars(deny_unknown_fields)]
pub enum Wish {
    /// Stops in hand.
    InHand {
        /// At least so many.
        stops: Stops,
    },
    /// No more light than the least power gives.
    LeastPower,
    /// A wait between frames.
    Recycle {
        /// At most so many seconds.
        seconds: f64,
    },
    /// Skin that stays neutral.
    SkinWithin {
        /// The largest cast.
        mired: MiredShift,
    },
    /// Skin that is neither green nor magenta.
    NoGreenMagenta,
    /// The key from an angle beside the nose.
    KeyFrom {
        /// Degrees from the nose.
        azimuth_deg: f64,
        /// The side, if it matters.
        side: Option<Side>,
        /// Degrees either way.
        tolerance_deg: f64,
    },
    /// The key from a height.
    KeyHeight {
        /// Degrees above the eyes.
        elevation_deg: f64,
    },
    /// Soft light.
    Soft,
    /// Hard light.
    Hard,
    /// A ratio of the sides of the face.
    Ratio {
        /// To one.
        ratio: Ratio,
    },
    /// Faces alike in brightness.
    FacesWithin {
        /// At most so far apart.
        stops: Stops,
    },
    /// A level of the background.
    Background {
        /// Against the face.
        stops: Stops,
    },
    /// The light that is there out of the picture.
    AmbientOut,
    /// The light that is there at a level.
    AmbientAt {
        /// Against an exact exposure.
        stops: Stops,
    },
    /// A zone at a level.
    Zone {
        /// Its name.
        name: String,
        /// Against normal.
        stops: Stops,
    },
    /// A colour of the light on skin.
    Skin {
        /// Against the balance, positive warmer; 0 is neutral.
        mired: MiredShift,
        /// Whether the shadow side decides, being further off than the lit one.
        shadow_side: bool,
    },
    /// A colour of the light on the background.
    Room {
        /// Against the balance, positive warmer; 0 is neutral.
        mired: MiredShift,
    },
}

impl Wish {
    /// What it is about.
    pub fn kind(&self) -> LimitKind {
        match self {
            Wish::InHand { .. } => LimitKind::Power,
            Wish::LeastPower => LimitKind::LeastPower,
            Wish::Recycle { .. } => LimitKind::Recycle,
            Wish::SkinWithin { .. } => LimitKind::Cast,
            Wish::NoGreenMagenta => LimitKind::GreenMagenta,
            Wish::KeyFrom { .. } => LimitKind::Direction,
            Wish::KeyHeight { .. } => LimitKind::Height,
            Wish::Soft | Wish::Hard => LimitKind::Softness,
            Wish::Ratio { .. } => LimitKind::Ratio,
            Wish::FacesWithin { .. } => LimitKind::Evenness,
            Wish::Background { .. } => LimitKind::Background,
            Wish::AmbientOut | Wish::AmbientAt { .. } => LimitKind::Ambient,
            Wish::Zone { .. } => LimitKind::Zone,
            Wish::Skin { .. } => LimitKind::SkinColour,
            Wish::Room { .. } => LimitKind::RoomColour,
        }
    }
}

/// Something insisted on, and what came of it.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
#[schemars(deny_unknown_fields)]
pub struct Limit {
    /// What it is about; this says the unit of `found` and `short`.
    pub kind: LimitKind,
    /// What was asked.
    pub asked: Wish,
    /// What the answer makes of it, in the unit of the kind.
    pub found: f64,
    /// By how much it is missed beyond its tolerance, in the unit of the kind; 0 when it is met.
    pub short: f64,
    /// Whether it is met.
    pub met: bool,
}

impl Limit {
    /// What was asked, what was found, and by how much that misses its tolerance (0 or less when it does not).
    pub fn new(asked: Wish, found: f64, short: f64) -> Self {
        Limit {
            kind: asked.kind(),
            asked,
            found,
            short: short.max(0.0),
            met: short <= 0.0,
        }
    }
}
