//! What is set on the camera and on the flash.

use crate::published::{self, DressName};
use light::HeadDress;
use schemars::JsonSchema;
use serde::Serialize;
use units::{Duv, FNumber, Iso, Kelvin, PowerFraction, ShutterTime, Stops};

/// Settings of the camera.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, JsonSchema)]
#[schemars(deny_unknown_fields)]
pub struct Settings {
    /// Aperture.
    #[serde(rename = "f_number")]
    pub aperture: FNumber,
    /// Shutter, within sync.
    #[serde(rename = "shutter_s")]
    pub shutter: ShutterTime,
    /// Speed.
    pub iso: Iso,
    /// Neutral density filter on the lens, in stops; 0 is none.
    #[serde(rename = "nd_stops")]
    pub nd: Stops,
    /// White balance.
    #[serde(rename = "white_balance_k")]
    pub white_balance: Kelvin,
    /// Green (+) or magenta (−) of the light that the balance makes neutral.
    #[serde(rename = "tint_duv")]
    pub tint: Duv,
}

impl Settings {
    /// The part that exposes: what is left without the balance. A filter on the lens takes from flash and
    /// ambient light alike, as a lower speed would, so it is in the speed here.
    pub fn exposing(&self) -> camera::Settings {
        camera::Settings {
            aperture: self.aperture,
            shutter: self.shutter,
            iso: self.speed(),
        }
    }

    /// The speed that is left behind the filter on the lens.
    pub fn speed(&self) -> Iso {
        Iso::new(self.iso.value() * (-self.nd.value()).exp2()).unwrap_or(self.iso)
    }
}

/// Settings of the flash.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, JsonSchema)]
#[schemars(deny_unknown_fields)]
pub struct FlashSetting {
    /// Nearest settable power.
    #[serde(rename = "stops_below_full")]
    pub power: PowerFraction,
    /// Exact power in stops below 1/1; negative when the flash falls short.
    pub exact_stops_below_full: f64,
    /// Zoom of the head in millimetres.
    pub zoom_mm: f64,
    /// What sits on the head.
    #[serde(serialize_with = "published::dress")]
    #[schemars(with = "DressName")]
    pub dress: HeadDress,
    /// Stops between the power used and full power; negative when the flash falls short.
    #[serde(rename = "in_hand_stops")]
    pub in_hand: Stops,
}
