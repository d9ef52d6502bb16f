//! Arriving light becomes a recorded value.
//!
//! Illuminance and flash dose go in with the settings of a camera; stops, sharpness and a developed picture come out.
//! One photometric model serves ambient light, flash and meter: N² = E·t·S / C with C = 250 lx s (ISO 2720:1974, flat
//! receptor), [`light::INCIDENT_CONSTANT`]. This crate never traces a ray, never reads a file and never chooses a
//! setting: it only says what a setting does.
//!
//! ```
//! use camera::{Settings, add_exposures, ambient_exposure, flash_exposure};
//! use units::{Illuminance, LuminousExposure};
//! let settings = Settings { aperture: "f/5.6".parse()?, shutter: "1/125".parse()?, iso: "ISO 400".parse()? };
//! // A room at 80 lx is five stops below the flash that was set for this aperture.
//! let ambient = ambient_exposure(Illuminance(80.0), &settings);
//! let flash = flash_exposure(LuminousExposure(20.0), settings.aperture, settings.iso);
//! assert!((ambient.value() + 5.0).abs() < 1e-9 && flash.value().abs() < 1e-9);
//! // Amounts of light add, stops do not: the room lifts the picture by less than a twentieth of a stop.
//! let total = add_exposures(&[ambient, flash]).expect("two parts");
//! assert!((total.value() - 0.0444).abs() < 1e-4);
//! # Ok::<(), units::UnitError>(())
//! ```

mod battery;
mod burst;
mod daylight;
mod depth;
mod exposure;
mod flash_dose;
mod focal_plane;
mod meter;
mod motion;
mod numbers;
mod picture;
mod raw;
mod sync;
mod tone;

pub use battery::{BatteryPack, Capacitor};
pub use burst::Burst;
pub use daylight::sunny_sixteen;
pub use depth::{
    CIRCLE_OF_CONFUSION_MM, DepthLimits, Focus, Frame, airy_disc_um, angle_of_view_deg, aperture_for_depth,
    distance_for_field, hyperfocal_m,
};
pub use exposure::{
    Mix, Settings, add_exposures, ambient_exposure, aperture_for_ambient, ev_of, falloff, illuminance_of,
    inverse_square, lighting_ratio, linear_value,
};
pub use flash_dose::{
    aperture_for_flash, cone_solid_angle, flash_exposure, guide_number_at, guide_number_m,
    intensity_from_energy,
};
pub use focal_plane::{Lens, MID_GREY, RAW_CLIP, midtone_exposure, saturation_exposure};
pub use meter::{REFLECTED_CONSTANT, aperture_for_luminance, incident_meter_offset, luminance_of};
pub use motion::{focal_plane_blur_m, shutter_for_blur};
pub use numbers::{BalanceNumbers, CurveNumbers, SENSOR_LIMIT, sensor_weights};
pub use picture::{Development, LayerLight, Picture, develop, speed_of};
pub use raw::{RawLayer, develop_raw};
pub use sync::{SlitExposure, fastest_clean_shutter, within_sync};
pub use tone::ToneCurve;
