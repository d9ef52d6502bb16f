//! What the photographer wishes, and what the answer makes of it.

use crate::Side;
use schemars::JsonSchema;
use serde::Serialize;
use units::{MiredShift, Ratio, Stops};

/// What a wish is about, which also says the unit of what was found and of how far that is off.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum WishKind {
    /// Light on the face against an exact exposure, in stops; what the flash's power forbids shows here.
    Exposure,
    /// Stops in hand below full power, in stops.
    Power,
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
    /// Eye sockets against the cheeks below them, in stops.
    Eyes,
    /// Width of the light over its distance; how far that is off, in doublings.
    Softness,
    /// Near side of the face over the far side; how far that is off, in stops.
    Ratio,
    /// Spread over the faces, in stops.
    Evenness,
    /// Background against the face, in stops.
    Background,
    /// Ambient against an exact exposure, in stops.
    Ambient,
    /// The flash under the light that is there, in stops.
    Fill,
    /// Light on skin against the balance, in mired.
    SkinColour,
    /// Light on the background against the balance, in mired.
    RoomColour,
    /// A zone against normal, in stops.
    Zone,
}

/// Something wished, with the amount that was asked.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
#[serde(tag = "wish", rename_all = "snake_case")]
#[schemars(deny_unknown_fields)]
pub enum Wish {
    /// A face that is exposed as it should be: neither short of light at full power nor too bright at the least.
    Exposed,
    /// Stops in hand.
    InHand {
        /// At least so many.
        stops: Stops,
    },
    /// A wait between frames.
    Recycle {
        /// At most so many seconds.
        seconds: f64,
    },
    /// Skin that the balance makes neutral where the eye goes to, on the lit side.
    NeutralSkin,
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
    /// Eyes that the light reaches.
    OpenEyes {
        /// Sockets against the cheeks below them, at least so much.
        stops: Stops,
        /// Whether the eye on the lit side decides: a key from far round leaves the other one in the shadow.
        lit_side: bool,
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
    /// The flash as a fill.
    FlashUnder {
        /// So far under the light that is there, positive.
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
    pub fn kind(&self) -> WishKind {
        match self {
            Wish::Exposed => WishKind::Exposure,
            Wish::InHand { .. } => WishKind::Power,
            Wish::Recycle { .. } => WishKind::Recycle,
            Wish::NeutralSkin => WishKind::Cast,
            Wish::NoGreenMagenta => WishKind::GreenMagenta,
            Wish::KeyFrom { .. } => WishKind::Direction,
            Wish::KeyHeight { .. } => WishKind::Height,
            Wish::OpenEyes { .. } => WishKind::Eyes,
            Wish::Soft | Wish::Hard => WishKind::Softness,
            Wish::Ratio { .. } => WishKind::Ratio,
            Wish::FacesWithin { .. } => WishKind::Evenness,
            Wish::Background { .. } => WishKind::Background,
            Wish::AmbientOut | Wish::AmbientAt { .. } => WishKind::Ambient,
            Wish::FlashUnder { .. } => WishKind::Fill,
            Wish::Zone { .. } => WishKind::Zone,
            Wish::Skin { .. } => WishKind::SkinColour,
            Wish::Room { .. } => WishKind::RoomColour,
        }
    }
}

/// How near an answer comes to a wish.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum WishState {
    /// Within the tolerance.
    Kept,
    /// Within twice the tolerance: still recognisable as what was asked (ours).
    Nearly,
    /// Further off than that.
    Missed,
}

/// One wish, and what came of it. The sum of the points of all wishes, and of what it takes to carry a way out, is what
/// the search makes least.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
#[schemars(deny_unknown_fields)]
pub struct Judgement {
    /// What it is about; this says the unit of `found`, `off` and `tolerance`.
    pub kind: WishKind,
    /// What was asked.
    pub asked: Wish,
    /// What was read of the finished picture, in the unit of the kind.
    pub found: f64,
    /// How far that is from what was asked, 0 or more; 0 where at least, or at most, so much was asked and is there.
    pub off: f64,
    /// How far it may be off and still be kept.
    pub tolerance: f64,
    /// What it adds to the sum that the search makes least.
    pub points: f64,
    /// How near it comes.
    pub state: WishState,
    /// Whether nothing but keeping it will do.
    pub must: bool,
}

/// What being off by so many tolerances costs, for a weight of one.
///
/// It grows with the square up to twice the tolerance, for a small difference hardly shows. Beyond that it comes closer
/// and closer to eight: missed is missed, and one hopeless wish must not outweigh all others (a bounded loss as in robust
/// statistics; Hampel 1974, the thought and not the form).
///
/// ```
/// assert_eq!([0.5, 1.0, 2.0].map(answer::loss), [0.25, 1.0, 4.0]);
/// assert!((answer::loss(10.0) - 8.0).abs() < 0.01);
/// ```
pub fn loss(times: f64) -> f64 {
    match times > 2.0 {
        true => 8.0 - 4.0 * (2.0 - times).exp(),
        false => times * times,
    }
}

impl Judgement {
    /// What was asked and found, how far that is off, how far it may be, and what it weighs: the points of a wish that is
    /// off by just its tolerance.
    ///
    /// The points are the weight times the [`loss`]. Those of exposure grow on beyond twice the tolerance, by the weight for
    /// every tolerance more: of two pictures that cannot be had, the one that lacks less light is nearer (ours).
    ///
    /// ```
    /// # use answer::{Judgement, Wish, WishState};
    /// let height = Wish::KeyHeight { elevation_deg: 30.0 };
    /// let seen = Judgement::new(height, 60.0, 30.0, 15.0, 1.0);
    /// assert_eq!((seen.points, seen.state), (4.0, WishState::Nearly));
    /// let dark = |stops: f64| Judgement::new(Wish::Exposed, -stops, stops, 0.25, 1.0).points;
    /// assert!((dark(5.0) - dark(4.0) - 4.0).abs() < 1e-4);
    /// ```
    pub fn new(asked: Wish, found: f64, off: f64, tolerance: f64, weight: f64) -> Self {
        let off = off.max(0.0);
        let times = off / tolerance;
        let more = match asked.kind() {
            WishKind::Exposure => (times - 2.0).max(0.0),
            _ => 0.0,
        };
        let points = weight * (loss(times) + more);
        // A reading that stands right on the edge is inside it, rounding forgiven.
        let state = match times {
            times if times <= 1.0 + 1e-9 => WishState::Kept,
            times if times <= 2.0 + 1e-9 => WishState::Nearly,
            _ => WishState::Missed,
        };
        Judgement {
            kind: asked.kind(),
            asked,
            found,
            off,
            tolerance,
            points,
            state,
            must: false,
        }
    }

    /// The same wish as one that must be kept.
    pub fn as_must(self, must: bool) -> Self {
        Judgement { must, ..self }
    }

    /// Whether a must is not kept: the picture cannot be had like this.
    pub fn forbids(&self) -> bool {
        self.must && self.state != WishState::Kept
    }

    /// Whether it leaves something to look for: a wish that is missed, or a must that is not kept.
    pub fn lacks(&self) -> bool {
        self.state == WishState::Missed || self.forbids()
    }
}
