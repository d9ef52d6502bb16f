//! The gel on the flash, and how the colours of the picture lie against the balance.

use crate::{LightName, published};
use light::Gel;
use schemars::JsonSchema;
use serde::Serialize;
use units::{Duv, Kelvin, MiredShift, Stops};

/// The gel on the flash, and how the colours of the picture lie against the balance.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
#[schemars(deny_unknown_fields)]
pub struct Colouring {
    /// The gel that the flash wears.
    pub gel: Option<GelWorn>,
    /// Zones of the picture against the balance: the lit and the shadow side of the face, the background, and
    /// each light that is there by itself.
    pub zones: Vec<ColourZone>,
    /// The flash and each light that is there.
    pub sources: Vec<SourceColour>,
}

impl Colouring {
    /// How far apart the two sides of the face are; `None` when one has no colour temperature.
    pub fn sides_apart(&self) -> Option<MiredShift> {
        let side = |part: PicturePart| self.zones.iter().find(|zone| zone.part == part)?.shift;
        Some((side(PicturePart::LitSide)? - side(PicturePart::ShadowSide)?).abs())
    }
}

/// A gel on the flash, with what it does there.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
#[schemars(deny_unknown_fields)]
pub struct GelWorn {
    /// The gel, or the stack.
    #[serde(rename = "name", serialize_with = "published::gel")]
    #[schemars(with = "String")]
    pub gel: Gel,
    /// Shift of the flash's light; `None` for a colour too deep to have a temperature, as below.
    #[serde(rename = "shift_mired")]
    pub shift: Option<MiredShift>,
    /// Change of its Duv, positive greener.
    #[serde(rename = "shift_duv")]
    pub duv: Option<Duv>,
    /// Colour temperature behind the gel.
    #[serde(rename = "temperature_k")]
    pub kelvin: Option<Kelvin>,
    /// Light lost, in stops, positive.
    #[serde(rename = "loss_stops")]
    pub loss: Stops,
}

/// A part of the picture that has a colour of its own.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, JsonSchema)]
#[serde(tag = "is", rename_all = "snake_case")]
#[schemars(deny_unknown_fields)]
pub enum PicturePart {
    /// The lit side of the face.
    LitSide,
    /// The shadow side of the face.
    ShadowSide,
    /// The background.
    Background,
    /// What one of the lights that are there lights alone.
    LightAlone {
        /// The light.
        light: LightName,
    },
}

/// Part of the picture, with its light against the balance.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
#[schemars(deny_unknown_fields)]
pub struct ColourZone {
    /// Which part.
    pub part: PicturePart,
    /// Positive is warmer than the balance makes neutral; `None` for a colour without a temperature.
    #[serde(rename = "mired")]
    pub shift: Option<MiredShift>,
    /// Positive is greener than neutral.
    pub duv: Option<Duv>,
}

/// One of the lights that meet at the face, by its name.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, JsonSchema)]
#[serde(tag = "is", rename_all = "snake_case")]
#[schemars(deny_unknown_fields)]
pub enum SourceName {
    /// The flash.
    Flash,
    /// One of the lights that are there.
    Light {
        /// The light.
        light: LightName,
    },
}

/// One of the lights that meet at the face.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
#[schemars(deny_unknown_fields)]
pub struct SourceColour {
    /// The flash, or one of the lights that are there.
    pub source: SourceName,
    /// Colour temperature as it arrives at the face.
    #[serde(rename = "temperature_k")]
    pub kelvin: Option<Kelvin>,
    /// Duv as it arrives.
    pub duv: Option<Duv>,
    /// Part of the light at the face, dome towards the camera.
    pub share: f64,
}

/// Whether one balance serves two sides of a face that are too far apart.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum SidesVerdict {
    /// One balance is a compromise.
    Compromise,
    /// No single balance serves both.
    NoBalance,
}

/// What brings two sides of a face together that are too far apart.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum SidesCure {
    /// Coloured walls do most of it: cover them on the shadow side.
    CoverWalls,
    /// The light that is there is far under but fills the shadow side: a white board or a gel.
    FillShadow,
    /// The lights must be made alike, or the one that is there shut out.
    MatchLights,
}

/// Whether greenish lamps matter at their share of the light, and what cures it.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, JsonSchema)]
#[serde(tag = "is", rename_all = "snake_case")]
#[schemars(deny_unknown_fields)]
pub enum Greenness {
    /// Less than anyone sees.
    BelowSeen,
    /// So little light that it is hardly seen.
    HardlySeen,
    /// The gel on the flash makes both alike.
    GelMatches,
    /// It shows; a gel of this Duv would match.
    Shows {
        /// Duv of the lamps against the flash.
        match_duv: Duv,
    },
}
