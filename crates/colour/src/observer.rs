//! The CIE 1931 observer and the tabulated and computed illuminants.

use crate::bands::CELL_NM;
use crate::tables::Table;
use crate::{Chromaticity, ColourError, SpectralCurve, Xyz};
use std::sync::LazyLock;
use units::Kelvin;

static OBSERVER: LazyLock<Table> =
    LazyLock::new(|| Table::read(include_str!("../data/observer_1931_2deg.csv")));
static ILLUMINANTS: LazyLock<Table> = LazyLock::new(|| Table::read(include_str!("../data/illuminants.csv")));
static DAYLIGHT: LazyLock<Table> =
    LazyLock::new(|| Table::read(include_str!("../data/daylight_components.csv")));

/// Maximum luminous efficacy (lm/W), CIE 15:2018.
const LUMENS_PER_WATT: f64 = 683.002;

/// The colour-matching functions x, y, z of the CIE 1931 2 degree observer, 360 to 830 nm at 5 nm.
pub fn observer_curves() -> [&'static SpectralCurve; 3] {
    let mut curves = OBSERVER.curves();
    std::array::from_fn(|_| curves.next().expect("the built-in observer has three columns"))
}

/// The spectral power of a CIE or ISO illuminant by its name, as tabulated: "A", "D65", "FL11", "LED-B3" and so on.
pub fn illuminant_curve(name: &str) -> Option<&'static SpectralCurve> {
    ILLUMINANTS.curve(name.trim())
}

/// The names that [`illuminant_curve`] knows.
pub fn illuminant_names() -> impl Iterator<Item = &'static str> {
    ILLUMINANTS.names()
}

/// Planck's radiator, relative spectral power 360 to 830 nm at 5 nm, with c2 = 1.4388e-2 m K (CIE 15:2018),
/// scaled to 1 at 560 nm.
pub fn planck_curve(kelvin: Kelvin) -> SpectralCurve {
    let observer = observer_curves()[0];
    observer
        .map(|nm, _| planck(nm, kelvin.value()) / planck(560.0, kelvin.value()))
        .expect("Planck's law is finite")
}

pub(crate) fn planck(wavelength_nm: f64, kelvin: f64) -> f64 {
    const C2: f64 = 1.4388e-2;
    let metres = wavelength_nm * 1e-9;
    metres.powi(-5) / (C2 / (metres * kelvin)).exp_m1()
}

/// Chromaticity of the CIE daylight series at a correlated colour temperature, 4000 to 25 000 K
/// (CIE 15:2018, daylight illuminants).
///
/// ```
/// use units::Kelvin;
/// let d65 = colour::daylight_chromaticity(Kelvin::new(6504.0)?)?;
/// assert!((d65.x - 0.312714).abs() < 1e-6 && (d65.y - 0.329119).abs() < 1e-6);
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
///
/// # Errors
/// Refuses temperatures outside the series.
pub fn daylight_chromaticity(kelvin: Kelvin) -> Result<Chromaticity, ColourError> {
    let t = kelvin.value();
    let x = match t {
        4000.0..=7000.0 => -4.6070e9 / t.powi(3) + 2.9678e6 / t.powi(2) + 99.11 / t + 0.244063,
        7000.0..=25000.0 => -2.0064e9 / t.powi(3) + 1.9018e6 / t.powi(2) + 247.48 / t + 0.237040,
        _ => return Err(ColourError::OutsideDaylight(t)),
    };
    Ok(Chromaticity {
        x,
        y: -3.0 * x * x + 2.870 * x - 0.275,
    })
}

/// The factors M1 and M2 of the daylight components (CIE 15:2018, daylight illuminants).
///
/// ```
/// use units::Kelvin;
/// let d55 = colour::daylight_chromaticity(Kelvin::new(5500.0)?)?;
/// let (m1, m2) = colour::daylight_factors(d55);
/// assert!((m1 + 0.786338).abs() < 1e-6 && (m2 + 0.195381).abs() < 1e-6);
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
pub fn daylight_factors(Chromaticity { x, y }: Chromaticity) -> (f64, f64) {
    let m = 0.0241 + 0.2562 * x - 0.7341 * y;
    (
        (-1.3515 - 1.7703 * x + 5.9114 * y) / m,
        (0.0300 - 31.4424 * x + 30.0717 * y) / m,
    )
}

/// Spectral power of the CIE daylight series, 360 to 830 nm at 5 nm, 100 at 560 nm.
///
/// # Errors
/// Refuses temperatures outside 4000 to 25 000 K.
pub fn daylight_curve(kelvin: Kelvin) -> Result<SpectralCurve, ColourError> {
    let (m1, m2) = daylight_factors(daylight_chromaticity(kelvin)?);
    let mut components = DAYLIGHT.curves();
    let [s0, s1, s2] = std::array::from_fn(|_| {
        components
            .next()
            .expect("the daylight series has three components")
    });
    s0.map(|nm, mean| mean + m1 * s1.at(nm) + m2 * s2.at(nm))
}

/// Spectral power of a xenon flash tube of a colour temperature, 360 to 830 nm at 5 nm, with Y = 1.
///
/// No measured tube is at hand, so this is ours: three quarters daylight and one quarter Planckian radiator of the
/// same temperature, which gives the smooth near-daylight continuum that handbooks describe, with Duv about +0.0024.
/// The weak lines of xenon near 460 to 490 nm are left out.
///
/// # Errors
/// Refuses temperatures outside 4000 to 25 000 K.
pub fn flash_curve(kelvin: Kelvin) -> Result<SpectralCurve, ColourError> {
    let (daylight, radiator) = (daylight_curve(kelvin)?, planck_curve(kelvin));
    let (day_scale, radiator_scale) = (0.75 / daylight.light_xyz().y, 0.25 / radiator.light_xyz().y);
    daylight.map(|nm, power| power * day_scale + radiator.at(nm) * radiator_scale)
}

impl SpectralCurve {
    /// Tristimulus values of a light, summed over its own rows of 5 nm and not normalised.
    ///
    /// Curves with another spacing are read at the rows of the observer that they span.
    pub fn light_xyz(&self) -> Xyz {
        self.rows()
            .map(|(power, weights)| Xyz::from_array(weights) * power)
            .sum()
    }

    /// Luminous flux of radiation that is given per nanometre, summed over rows of 5 nm: lm for W/nm, lx for W m⁻² nm⁻¹.
    ///
    /// ```
    /// // A hundredth of a watt in every nanometre of the spectrum is 730 lm: the area under V(λ) is 106.9 nm.
    /// let flat = colour::SpectralCurve::regular(360.0, 5.0, vec![0.01; 95])?;
    /// assert!((flat.luminous_flux() - 730.0).abs() < 1.0);
    /// # Ok::<(), colour::ColourError>(())
    /// ```
    pub fn luminous_flux(&self) -> f64 {
        LUMENS_PER_WATT * self.light_xyz().y * CELL_NM
    }

    /// Luminous efficacy of the radiation within the curve's own range (lm/W).
    ///
    /// ```
    /// // Daylight gives about 205 lm for every watt between 380 and 780 nm.
    /// let daylight = colour::illuminant_curve("D55").expect("built in");
    /// assert!((daylight.luminous_efficacy() - 206.3).abs() < 1.0);
    /// ```
    pub fn luminous_efficacy(&self) -> f64 {
        // Every row stands for the stretch half-way to its neighbours, and the outer rows for as much on either side,
        // as in the sums over rows of CIE 15.
        let nm = self.wavelengths_nm();
        let last = nm.len() - 1;
        let stretch = |row: usize| match row {
            0 => nm[1] - nm[0],
            row if row == last => nm[last] - nm[last - 1],
            row => (nm[row + 1] - nm[row - 1]) / 2.0,
        };
        let radiant: f64 = self
            .values()
            .iter()
            .enumerate()
            .map(|(row, power)| power * stretch(row))
            .sum();
        self.luminous_flux() / radiant
    }

    /// Power and observer at each row of the observer within this curve's range.
    fn rows(&self) -> impl Iterator<Item = (f64, [f64; 3])> {
        let [x, y, z] = observer_curves();
        let wavelengths = self.wavelengths_nm();
        let (first, last) = (wavelengths[0], wavelengths[wavelengths.len() - 1]);
        x.wavelengths_nm()
            .iter()
            .enumerate()
            .filter(move |(_, nm)| (first..=last).contains(*nm))
            .map(move |(row, &nm)| (self.at(nm), [x.values()[row], y.values()[row], z.values()[row]]))
    }

    /// The rows with their wavelengths, for band sums.
    pub(crate) fn observed_rows(&self) -> impl Iterator<Item = (f64, f64, [f64; 3])> {
        let wavelengths = self.wavelengths_nm();
        let (first, last) = (wavelengths[0], wavelengths[wavelengths.len() - 1]);
        let observed = observer_curves()[0].wavelengths_nm().iter().copied();
        observed
            .filter(move |nm| (first..=last).contains(nm))
            .zip(self.rows())
            .map(|(nm, (p, w))| (nm, p, w))
    }
}
