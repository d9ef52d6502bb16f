//! Curves over wavelength become something seen.
//!
//! This crate turns spectra (what a lamp gives, what paint reflects, what a filter lets through) into colours: XYZ,
//! chromaticity, correlated colour temperature and Duv, CIELAB differences, display values. Everything that travels
//! through the program is a [`Spectrum`] of sixteen numbers, one for each of the [`bands`]; tables measured more finely
//! enter as a [`SpectralCurve`] and are averaged once. It knows no named gel or lamp of the trade and no camera setting.
//!
//! White means the light's own colour: a flat reflectance of 0.8 looks like 0.8 grey under any lamp to which the eye or
//! the camera is balanced.
//!
//! ```
//! use colour::{LightColour, cct_duv, surfaces};
//! use units::Kelvin;
//!
//! // A flash bounced once off a pale yellow wall turns warmer by about half an orange gel.
//! let flash = LightColour::flash(Kelvin::new(5600.0)?)?;
//! let wall = surfaces::named("pale yellow").expect("a known surface");
//! let bounced = flash.xyz(wall.spectrum());
//! let (kelvin, _) = cct_duv(bounced.chromaticity().expect("some light")).expect("near white");
//! let (direct, _) = flash.cct_duv().expect("a white light");
//! let shift = kelvin.mired() - direct.mired();
//! assert!((shift.value() - 52.0).abs() < 12.0);
//! # Ok::<(), Box<dyn std::error::Error>>(())
//! ```

pub mod adaptation;
pub mod balance;
pub mod bands;
mod cct;
mod coordinates;
mod curve;
mod difference;
mod display;
mod error;
mod light;
mod observer;
pub mod person;
mod reflectance;
pub mod skin;
mod spectrum;
pub mod surfaces;
mod tables;
pub mod upsample;

pub use adaptation::{ChromaticTransform, Matrix3};
pub use balance::{MOST_TINT_STEPS, TINT_STEP_DUV, WhiteBalance};
pub use cct::{cct_duv, planckian_chromaticity, planckian_uv};
pub use coordinates::{Chromaticity, Lab, Uv, Xyz};
pub use curve::SpectralCurve;
pub use difference::delta_e_2000;
pub use display::{D65_WHITE, LinearSrgb, decode_srgb, encode_srgb};
pub use error::{ColourError, CurveFault, Primary};
pub use light::{BandObserver, LightColour};
pub use observer::{
    daylight_chromaticity, daylight_curve, daylight_factors, flash_curve, illuminant_curve, illuminant_names,
    observer_curves, planck_curve,
};
pub use reflectance::Reflectance;
pub use skin::SkinTone;
pub use spectrum::{BANDS, Spectrum};
