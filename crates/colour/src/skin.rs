//! Skin.
//!
//! Mean measured reflectances of five classes (Cooksey, Allen and Tsai 2017, J. Res. NIST 122:26, data DOI
//! 10.18434/M38597), classed by the individual typology angle of Chardon et al. 1991. They are of the inner forearm,
//! lighter and less red than a face, and include the shine of the surface. The data hold no dark skin; that class is a
//! model of ours.

use crate::observer::observer_curves;
use crate::tables::Table;
use crate::{ColourError, Lab, Reflectance, SpectralCurve, Xyz, illuminant_curve};
use std::str::FromStr;
use std::sync::LazyLock;

/// A class of skin by its typology angle.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum SkinTone {
    /// ITA above 55 degrees.
    VeryLight,
    /// 41 to 55 degrees.
    Light,
    /// 28 to 41 degrees.
    Intermediate,
    /// 10 to 28 degrees.
    Tan,
    /// -30 to 10 degrees.
    Brown,
    /// Below -30 degrees. A model: the brown mean with its absorbance scaled until L* is 35 (ours).
    Dark,
}

static MEASURED: LazyLock<Table> = LazyLock::new(|| Table::read(include_str!("../data/skin.csv")));

/// Lightness of the modelled dark class; facial skin of this class has L* 30 to 40 (from memory).
const DARK_LIGHTNESS: f64 = 35.0;

/// Lightness that [`with_lightness`] reaches: somewhat beyond the 43 to 74 of the measured subjects.
const LIGHTNESS_RANGE: (f64, f64) = (22.0, 78.0);

impl SkinTone {
    /// From lightest to darkest.
    pub const ALL: [Self; 6] = [
        Self::VeryLight,
        Self::Light,
        Self::Intermediate,
        Self::Tan,
        Self::Brown,
        Self::Dark,
    ];

    /// Its name in words.
    pub const fn name(self) -> &'static str {
        match self {
            Self::VeryLight => "very light",
            Self::Light => "light",
            Self::Intermediate => "intermediate",
            Self::Tan => "tan",
            Self::Brown => "brown",
            Self::Dark => "dark",
        }
    }

    /// The class of a colour measured under D65 (thresholds as in Del Bino and Bernerd 2013).
    ///
    /// ```
    /// use colour::{Lab, SkinTone};
    /// assert_eq!(SkinTone::of(Lab::new(65.0, 10.0, 15.0)), SkinTone::Light);
    /// ```
    pub fn of(colour: Lab) -> Self {
        match typology_angle_degrees(colour) {
            ita if ita > 55.0 => Self::VeryLight,
            ita if ita > 41.0 => Self::Light,
            ita if ita > 28.0 => Self::Intermediate,
            ita if ita > 10.0 => Self::Tan,
            ita if ita > -30.0 => Self::Brown,
            _ => Self::Dark,
        }
    }

    /// The class's mean reflectance as a curve, 380 to 780 nm.
    pub fn curve(self) -> SpectralCurve {
        match self {
            Self::Dark => with_absorbance_for(&Self::Brown.curve(), DARK_LIGHTNESS),
            measured => {
                let column = measured.name().replace(' ', "_");
                MEASURED
                    .curve(&column)
                    .expect("every measured class is in the built-in table")
                    .clone()
            }
        }
    }

    /// The class's mean reflectance on the bands.
    ///
    /// ```
    /// use colour::{LightColour, SkinTone};
    /// let daylight = LightColour::illuminant("D65").expect("built in");
    /// // About a stop and a quarter above the grey card.
    /// assert!((SkinTone::VeryLight.reflectance().luminous(&daylight) - 0.4186).abs() < 0.002);
    /// ```
    pub fn reflectance(self) -> Reflectance {
        Reflectance::clamped(self.curve().band_average())
    }
}

impl FromStr for SkinTone {
    type Err = ColourError;

    /// Reads a name such as "very light"; the error lists the names.
    fn from_str(text: &str) -> Result<Self, ColourError> {
        let wanted = text.trim().to_lowercase().replace(['-', '_'], " ");
        let tone = Self::ALL.into_iter().find(|tone| tone.name() == wanted);
        tone.ok_or_else(|| ColourError::NotASkinTone {
            written: text.to_owned(),
            known: SkinTone::ALL.map(SkinTone::name).join(", "),
        })
    }
}

/// Individual typology angle, atan2(L* - 50, b*) in degrees (Chardon et al. 1991).
///
/// ```
/// use colour::{Lab, skin};
/// assert!((skin::typology_angle_degrees(Lab::new(65.0, 10.0, 15.0)) - 45.0).abs() < 1e-9);
/// ```
pub fn typology_angle_degrees(colour: Lab) -> f64 {
    ((colour.l - 50.0) / colour.b).atan().to_degrees()
}

/// Skin of a given lightness L* under D65, 22 to 78.
///
/// Between two classes their absorbances are mixed; beyond the classes the last one's absorbance is scaled (ours).
///
/// # Errors
/// Refuses a lightness outside 22 to 78.
pub fn with_lightness(lightness: f64) -> Result<Reflectance, ColourError> {
    let (darkest, lightest) = LIGHTNESS_RANGE;
    if !(darkest..=lightest).contains(&lightness) {
        return Err(ColourError::OutsideSkin(lightness, darkest, lightest));
    }
    let classes: Vec<(f64, SpectralCurve)> = SkinTone::ALL
        .iter()
        .map(|tone| tone.curve())
        .map(|curve| (lab_under_d65(&curve).l, curve))
        .collect();
    let between = classes
        .windows(2)
        .find(|pair| (pair[1].0..=pair[0].0).contains(&lightness));
    let curve = match between {
        Some([(_, light), (_, dark)]) => solve_for_lightness(lightness, 0.0, 1.0, |part| {
            light.map(|nm, value| value.powf(1.0 - part) * dark.at(nm).powf(part))
        }),
        _ if lightness > classes[0].0 => with_absorbance_for(&classes[0].1, lightness),
        _ => with_absorbance_for(&classes[5].1, lightness),
    };
    Ok(Reflectance::clamped(curve.band_average()))
}

/// The curve with all its absorbances, -ln R, scaled alike until it has a lightness.
fn with_absorbance_for(curve: &SpectralCurve, lightness: f64) -> SpectralCurve {
    solve_for_lightness(lightness, 0.2, 5.0, |scale| {
        curve.map(|_, value| value.powf(scale))
    })
}

/// Bisection on a family that darkens from `lightest` to `darkest`.
fn solve_for_lightness(
    lightness: f64,
    lightest: f64,
    darkest: f64,
    family: impl Fn(f64) -> Result<SpectralCurve, ColourError>,
) -> SpectralCurve {
    let member = |parameter: f64| family(parameter).expect("powers of reflectances are finite");
    let (mut low, mut high) = (lightest, darkest);
    for _ in 0..40 {
        let middle = (low + high) / 2.0;
        if lab_under_d65(&member(middle)).l > lightness {
            low = middle
        } else {
            high = middle
        }
    }
    member((low + high) / 2.0)
}

/// CIELAB of a reflectance curve under D65, summed over the 5 nm rows.
pub fn lab_under_d65(curve: &SpectralCurve) -> Lab {
    let light = illuminant_curve("D65").expect("D65 is built in");
    let [x, y, z] = observer_curves();
    let (mut colour, mut white) = (Xyz::default(), Xyz::default());
    for (&nm, &power) in light.wavelengths_nm().iter().zip(light.values()) {
        let row = Xyz::new(x.at(nm), y.at(nm), z.at(nm)) * power;
        white += row;
        colour += row * curve.at(nm);
    }
    colour.to_lab(white)
}
