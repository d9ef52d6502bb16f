//! What the air does to sunlight: lifts it, dims it and reddens it.

use colour::SpectralCurve;

/// The air that light passes through.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Air {
    /// Pressure in hPa.
    pub pressure_hpa: f64,
    /// Temperature in °C.
    pub temperature_c: f64,
}

impl Air {
    /// Usual air at a height in metres: pressure of the US standard atmosphere (1976), 10 °C.
    ///
    /// ```
    /// assert!((light::Air::at_height(1500.0).pressure_hpa - 845.6).abs() < 0.1);
    /// ```
    pub fn at_height(height_m: f64) -> Self {
        Self {
            pressure_hpa: 1013.25 * (1.0 - 2.255_77e-5 * height_m).powf(5.255_88),
            temperature_c: 10.0,
        }
    }
}

impl Default for Air {
    fn default() -> Self {
        Self::at_height(0.0)
    }
}

/// Where the formula of refraction ends: the disc's upper edge on the horizon, in degrees.
const LOWEST_REFRACTED_DEG: f64 = -0.8333;

/// How far the air lifts what stands at an airless elevation, in degrees (Reda & Andreas 2003, eq. 42, after Bennett 1982).
///
/// The formula holds down to −0.8333°. Below, where nothing is seen of the sun any more, its last value fades to nothing
/// at −3°: ours, so that no moment of the evening jumps.
///
/// ```
/// let air = light::Air { pressure_hpa: 1010.0, temperature_c: 10.0 };
/// assert!((light::refraction_deg(80.0, air) - 0.00296054).abs() < 1e-6);
/// ```
pub fn refraction_deg(elevation_deg: f64, air: Air) -> f64 {
    let e = elevation_deg.max(LOWEST_REFRACTED_DEG);
    let density = air.pressure_hpa / 1010.0 * (283.0 / (273.0 + air.temperature_c));
    let lift = density * 1.02 / (60.0 * (e + 10.3 / (e + 5.11)).to_radians().tan());
    lift * smooth_step((elevation_deg + 3.0) / (LOWEST_REFRACTED_DEG + 3.0))
}

/// Relative air mass at an apparent elevation (Kasten & Young 1989, Applied Optics 28, 4735): 1 overhead, 37.9 at the
/// horizon, and no more below it.
///
/// ```
/// assert!((light::air_mass(30.0) - 1.9943).abs() < 1e-4);
/// ```
pub fn air_mass(apparent_elevation_deg: f64) -> f64 {
    let e = apparent_elevation_deg.clamp(0.0, 90.0);
    1.0 / (e.to_radians().sin() + 0.505_72 * (e + 6.079_95).powf(-1.6364))
}

/// Rayleigh optical depth of the whole air above sea level (Bodhaine et al. 1999, J. Atmos. Oceanic Technol. 16, 1854,
/// eq. 30).
///
/// ```
/// assert!((light::rayleigh_optical_depth(550.0) - 0.0972).abs() < 0.0005);
/// ```
pub fn rayleigh_optical_depth(wavelength_nm: f64) -> f64 {
    let square = (wavelength_nm / 1000.0).powi(2);
    0.002_152_0 * (1.045_599_6 - 341.290_61 / square - 0.902_308_50 * square)
        / (1.0 + 0.002_705_988_9 / square - 85.968_563 * square)
}

/// Haze of the usual clear day: optical depth at 500 nm, and how it falls with wavelength (Ångström's exponent).
///
/// Ours, within what is ordinary on land (0.1 to 0.2; 0.15 at 550 nm is the continental average of Hess, Koepke & Schult
/// 1998, Bulletin of the American Meteorological Society 79, 831), and chosen so that a sun at 10°, 5° and 2° has the
/// levels that photographers meter.
const CLEAR_HAZE: Haze = Haze {
    depth_500_nm: 0.21,
    exponent: 0.9,
};

/// Ozone of the temperate zones in atm cm.
const OZONE_ATM_CM: f64 = 0.30;

/// How hazy the air is.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Haze {
    /// Optical depth of dust and droplets at 500 nm.
    pub depth_500_nm: f64,
    /// Ångström's exponent, 0 to 2.
    pub exponent: f64,
}

impl Default for Haze {
    fn default() -> Self {
        CLEAR_HAZE
    }
}

impl Haze {
    /// Its optical depth at a wavelength (Ångström 1929).
    pub(crate) fn depth(&self, wavelength_nm: f64) -> f64 {
        self.depth_500_nm * (wavelength_nm / 500.0).powf(-self.exponent)
    }
}

/// Path through the ozone at an apparent elevation, over the path overhead: 1 to 12 (Robinson 1966, as in Bird & Riordan
/// 1986, eq. 2-10).
///
/// Ozone lies 22 km up, where even a level beam crosses it steeply; the path through the air near the ground is three times
/// as long.
///
/// ```
/// assert!((light::ozone_mass(0.0) - 12.1).abs() < 0.1);
/// ```
pub fn ozone_mass(apparent_elevation_deg: f64) -> f64 {
    let height = 22.0 / 6370.0;
    let sine = apparent_elevation_deg.clamp(0.0, 90.0).to_radians().sin();
    (1.0 + height) / (sine * sine + 2.0 * height).sqrt()
}

/// Optical depth of the ozone overhead.
pub(crate) fn ozone_depth(wavelength_nm: f64) -> f64 {
    OZONE_ATM_CM * ozone_absorption(wavelength_nm)
}

/// Optical depth along the path of the sun's beam at an apparent elevation.
pub(crate) fn beam_depth(apparent_elevation_deg: f64, haze: Haze, wavelength_nm: f64) -> f64 {
    (rayleigh_optical_depth(wavelength_nm) + haze.depth(wavelength_nm)) * air_mass(apparent_elevation_deg)
        + ozone_depth(wavelength_nm) * ozone_mass(apparent_elevation_deg)
}

/// The sun's beam at an apparent elevation, in W m⁻² nm⁻¹ at 360 to 830 nm, at the sun's mean distance.
///
/// Beer's law with Rayleigh scattering, haze and ozone; water vapour and oxygen take little from the visible and are left
/// out.
pub fn direct_beam(apparent_elevation_deg: f64, haze: Haze) -> SpectralCurve {
    extraterrestrial_beam()
        .map(|nm, power| power * (-beam_depth(apparent_elevation_deg, haze, nm)).exp())
        .expect("a beam is finite")
}

/// The sun's beam above the air, in W m⁻² nm⁻¹ (ASTM G173-03).
pub fn extraterrestrial_beam() -> SpectralCurve {
    SpectralCurve::regular(360.0, 5.0, EXTRATERRESTRIAL.to_vec()).expect("the built-in table is a curve")
}

fn ozone_absorption(wavelength_nm: f64) -> f64 {
    let after = OZONE.partition_point(|(nm, _)| *nm <= wavelength_nm);
    if after == 0 || after == OZONE.len() {
        return 0.0;
    }
    let ((left, low), (right, high)) = (OZONE[after - 1], OZONE[after]);
    low + (high - low) * (wavelength_nm - left) / (right - left)
}

/// 0 below 0, 1 above 1, and smooth between.
pub(crate) fn smooth_step(x: f64) -> f64 {
    let x = x.clamp(0.0, 1.0);
    x * x * (3.0 - 2.0 * x)
}

/// Extraterrestrial irradiance of ASTM G173-03 in W m⁻² nm⁻¹ from 360 to 830 nm, the mean over each 5 nm.
const EXTRATERRESTRIAL: [f64; 95] = [
    0.9294, 1.1505, 1.1939, 1.0555, 1.1869, 0.9337, 1.171, 0.9394, 1.6208, 1.7067, 1.7117, 1.7604, 1.726,
    1.7059, 1.4626, 1.7435, 1.7713, 1.9118, 2.0487, 2.0119, 2.0385, 2.0092, 1.9976, 2.0273, 2.061, 1.8836,
    1.9179, 1.974, 1.9004, 1.9338, 1.935, 1.8072, 1.8128, 1.8456, 1.9252, 1.8691, 1.8373, 1.8766, 1.8648,
    1.8578, 1.818, 1.8332, 1.8316, 1.8518, 1.829, 1.836, 1.7544, 1.7912, 1.7544, 1.7627, 1.7312, 1.6789,
    1.7029, 1.6655, 1.6609, 1.6447, 1.6305, 1.6121, 1.5773, 1.4852, 1.5504, 1.555, 1.5325, 1.5087, 1.4942,
    1.4632, 1.4709, 1.4453, 1.4177, 1.4152, 1.3941, 1.3675, 1.3432, 1.3491, 1.3191, 1.3199, 1.2778, 1.29,
    1.2742, 1.2691, 1.2544, 1.2339, 1.2153, 1.208, 1.1971, 1.1869, 1.169, 1.1401, 1.1388, 1.1228, 1.1113,
    1.1109, 1.0744, 1.0733, 1.0603,
];

/// Absorption of ozone in the visible, per atm cm (Leckner 1978, as used by Bird & Riordan 1986, SERI/TR-215-2436).
const OZONE: [(f64, f64); 28] = [
    (440.0, 0.0),
    (450.0, 0.003),
    (460.0, 0.006),
    (470.0, 0.009),
    (480.0, 0.014),
    (490.0, 0.021),
    (500.0, 0.03),
    (510.0, 0.04),
    (520.0, 0.048),
    (530.0, 0.063),
    (540.0, 0.075),
    (550.0, 0.085),
    (570.0, 0.12),
    (593.0, 0.119),
    (610.0, 0.12),
    (630.0, 0.09),
    (656.0, 0.065),
    (667.6, 0.051),
    (690.0, 0.028),
    (710.0, 0.018),
    (718.0, 0.015),
    (724.4, 0.012),
    (740.0, 0.01),
    (752.5, 0.008),
    (757.5, 0.007),
    (762.5, 0.006),
    (767.5, 0.005),
    (780.0, 0.0),
];
