//! The part of the report that speaks of gels and of colour against the balance.

use super::{Number, number};
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};
use solver::{ColourZone, Colouring, GelWorn, SourceColour};

/// The gel on the flash, and how the colours of the picture lie against the balance.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct ColourReport {
    /// The gel that the flash wears; null for none.
    pub gel: Option<GelReport>,
    /// Parts of the picture against the set balance: the sides of the face, the background, and each light that is
    /// there by itself.
    pub zones: Vec<ColourZoneReport>,
    /// The lights that meet at the face.
    pub sources: Vec<SourceReport>,
    /// What there is to say of mixed light.
    pub told: Vec<String>,
}

/// A gel on the flash.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct GelReport {
    /// Its name, such as "1/2 CTO", or of both when two lie on top of one another.
    pub name: String,
    /// What it does to the bare flash, positive warmer; null for a colour too deep to have a temperature, as below.
    pub shift_mired: Number,
    /// Change of Duv, positive greener.
    pub shift_duv: Number,
    /// Colour temperature behind it.
    pub temperature_k: Number,
    /// What it costs, in stops.
    pub loss_stops: Number,
}

/// Part of the picture against the balance.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct ColourZoneReport {
    /// What it is.
    pub name: String,
    /// Against the balance, positive warmer; null for a colour without a temperature.
    pub mired: Number,
    /// Against the balance, positive greener.
    pub duv: Number,
}

/// One of the lights that meet at the face.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct SourceReport {
    /// "flash", or the name of the light.
    pub name: String,
    /// Colour temperature as it arrives at the face.
    pub temperature_k: Number,
    /// Duv as it arrives.
    pub duv: Number,
    /// Part of the light at the face, dome towards the camera.
    pub share: Number,
}

impl ColourReport {
    pub(super) fn new(colouring: &Colouring) -> Self {
        Self {
            gel: colouring.gel.as_ref().map(gel),
            zones: colouring.zones.iter().map(zone).collect(),
            sources: colouring.sources.iter().map(source).collect(),
            told: colouring.told.clone(),
        }
    }
}

fn gel(worn: &GelWorn) -> GelReport {
    GelReport {
        name: worn.gel.name().to_owned(),
        shift_mired: worn.shift.and_then(|shift| number(shift.value())),
        shift_duv: worn.duv.and_then(|duv| number(duv.value())),
        temperature_k: worn.kelvin.and_then(|kelvin| number(kelvin.value())),
        loss_stops: number(worn.loss.value()),
    }
}

fn zone(zone: &ColourZone) -> ColourZoneReport {
    ColourZoneReport {
        name: zone.name.clone(),
        mired: zone.shift.and_then(|shift| number(shift.value())),
        duv: zone.duv.and_then(|duv| number(duv.value())),
    }
}

fn source(source: &SourceColour) -> SourceReport {
    SourceReport {
        name: source.name.clone(),
        temperature_k: source.kelvin.and_then(|kelvin| number(kelvin.value())),
        duv: source.duv.and_then(|duv| number(duv.value())),
        share: number(source.share),
    }
}
