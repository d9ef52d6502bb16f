//! What bright light does to eyes and nerves, by published limits. Cautions only, never an assessment.
//!
//! ICNIRP, Guidelines on limits of exposure to incoherent visible and infrared radiation, Health Phys. 105(1):74–96
//! (2013); IEC 62471:2006; IEC TR 62778:2014; WCAG 2.2, success criterion 2.3.1. The formulas are from memory and are
//! held to `checks/photobio.json`.

use colour::SpectralCurve;
use units::IntensityTime;

/// Blue-light hazard function B(λ) from 380 to 500 nm in steps of 5 nm (IEC 62471:2006, table 4.2).
const BLUE_LIGHT: [f64; 25] = [
    0.01, 0.013, 0.025, 0.05, 0.1, 0.2, 0.4, 0.8, 0.9, 0.95, 0.98, 1.0, 1.0, 0.97, 0.94, 0.9, 0.8, 0.7, 0.62,
    0.55, 0.45, 0.4, 0.22, 0.16, 0.1,
];

/// Weight of a wavelength by its danger to the retina's chemistry: 0 to 1, nothing outside 380 to 700 nm.
pub fn blue_light_weight(wavelength_nm: f64) -> f64 {
    if (380.0..500.0).contains(&wavelength_nm) {
        let row = (wavelength_nm - 380.0) / 5.0;
        let (below, between) = (row.floor() as usize, row.fract());
        BLUE_LIGHT[below] * (1.0 - between) + BLUE_LIGHT[below + 1] * between
    } else if (500.0..600.0).contains(&wavelength_nm) {
        10f64.powf((450.0 - wavelength_nm) / 50.0)
    } else if (600.0..=700.0).contains(&wavelength_nm) {
        0.001
    } else {
        0.0
    }
}

/// Blue-light hazard of a light per amount of it that is seen, K_B,v, in watts per lumen (IEC TR 62778:2014).
///
/// ```
/// let tungsten = colour::illuminant_curve("A").expect("built in");
/// assert!((light::eye::blue_light_efficacy(tungsten) / 0.000307 - 1.0).abs() < 0.02);
/// ```
pub fn blue_light_efficacy(light: &SpectralCurve) -> f64 {
    let weighted: f64 = (380..=700)
        .map(f64::from)
        .map(|nm| light.at(nm) * blue_light_weight(nm))
        .sum();
    weighted / light.luminous_flux()
}

/// Light that one flash sends from its window towards the eye, as dose of radiance weighted by the blue-light hazard, in
/// J m⁻² sr⁻¹: intensity over the window's area, as if the window shone evenly.
pub fn blue_light_dose(intensity: IntensityTime, window_m2: f64, light: &SpectralCurve) -> f64 {
    intensity.value() / window_m2 * blue_light_efficacy(light)
}

/// Most radiance weighted by the blue-light hazard, in W m⁻² sr⁻¹, that an eye may look into for so many seconds: a dose of
/// 10⁶ J m⁻² sr⁻¹ up to 10⁴ s, then 100 W m⁻² sr⁻¹ (IEC 62471:2006, 4.3.3).
pub fn blue_light_limit(exposure_s: f64) -> f64 {
    1e6 / exposure_s.min(1e4)
}

/// The same for a source too small to be more than a point, below 11 mrad, as irradiance at the eye in W m⁻²
/// (IEC 62471:2006, 4.3.4).
pub fn blue_light_limit_of_a_point(exposure_s: f64) -> f64 {
    100.0 / exposure_s.min(100.0)
}

/// Angle, in milliradians, that a bright window subtends: the mean of its sides over the distance (IEC 62471:2006).
pub fn source_angle_mrad(sides_m: [f64; 2], distance_m: f64) -> f64 {
    1000.0 * 0.5 * (sides_m[0] + sides_m[1]) / distance_m
}

/// A published limit for heating of the retina. The two weigh wavelengths differently and must not be mixed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ThermalLimit {
    /// ICNIRP 2013; the weight of wavelengths is 1 at its highest.
    Icnirp2013,
    /// IEC 62471:2006; the weight of wavelengths is 10 at its highest.
    Iec2006,
}

impl ThermalLimit {
    /// The angle that counts, in milliradians: smaller sources blur to it, and of larger ones no more than it heats one spot
    /// in the time.
    pub fn effective_angle_mrad(self, source_mrad: f64, exposure_s: f64) -> f64 {
        let (least, most) = match self {
            ThermalLimit::Icnirp2013 if exposure_s < 0.625e-3 => (1.5, 5.0),
            ThermalLimit::Icnirp2013 if exposure_s < 0.25 => (1.5, 200.0 * exposure_s.sqrt()),
            ThermalLimit::Icnirp2013 => (1.5, 100.0),
            ThermalLimit::Iec2006 => (1.7, 100.0),
        };
        source_mrad.clamp(least, most)
    }

    /// Most weighted radiance, in W m⁻² sr⁻¹, for an exposure of 1 µs to 10 s.
    ///
    /// ```
    /// use light::eye::ThermalLimit;
    /// assert!((ThermalLimit::Icnirp2013.radiance(10.0, 1.0) - 2.8e6).abs() < 1.0);
    /// ```
    pub fn radiance(self, source_mrad: f64, exposure_s: f64) -> f64 {
        let angle = self.effective_angle_mrad(source_mrad, exposure_s) / 1000.0;
        match self {
            ThermalLimit::Icnirp2013 if exposure_s >= 0.25 => 2.8e4 / angle,
            ThermalLimit::Icnirp2013 => 2e4 / (angle * exposure_s.powf(0.25)),
            ThermalLimit::Iec2006 => 5e4 / (angle * exposure_s.powf(0.25)),
        }
    }
}

/// Whether a rate of flashes is within what is held to be harmless by count alone: three in any second (WCAG 2.3.1).
pub fn flashes_are_few(per_second: f64) -> bool {
    per_second <= 3.0
}

/// Whether a rate of flashes lies where photosensitive seizures are provoked most: 3 to 30 in a second (common practice).
pub fn flashes_may_provoke_seizures(per_second: f64) -> bool {
    (3.0..=30.0).contains(&per_second)
}
