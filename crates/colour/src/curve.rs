//! A curve over wavelength, as measured or tabulated.

use crate::bands::{BAND_EDGES_NM, CELL_NM};
use crate::{BANDS, ColourError, CurveFault, Spectrum};

/// Values at rising wavelengths (nm), evenly spaced or not, with straight lines between.
///
/// Beyond its ends a curve keeps its last value, as CIE 15:2018 allows when nothing better is known.
///
/// ```
/// use colour::SpectralCurve;
/// let ramp = SpectralCurve::new(vec![400.0, 700.0], vec![0.0, 0.6])?;
/// assert!((ramp.at(550.0) - 0.3).abs() < 1e-12);
/// assert_eq!(ramp.at(800.0), 0.6);
/// # Ok::<(), colour::ColourError>(())
/// ```
#[derive(Clone, Debug, PartialEq)]
pub struct SpectralCurve {
    wavelengths_nm: Vec<f64>,
    values: Vec<f64>,
}

impl SpectralCurve {
    /// From wavelengths (nm) and as many values.
    ///
    /// # Errors
    /// Refuses fewer than two points, unequal lengths, wavelengths that do not rise, and values that are not finite.
    pub fn new(wavelengths_nm: Vec<f64>, values: Vec<f64>) -> Result<Self, ColourError> {
        let refuse = |fault| Err(ColourError::BadCurve(fault));
        if wavelengths_nm.len() != values.len() {
            return refuse(CurveFault::NotAsManyValues);
        }
        if values.len() < 2 {
            return refuse(CurveFault::TooFewPoints);
        }
        if !wavelengths_nm
            .iter()
            .chain(&values)
            .all(|number| number.is_finite())
        {
            return refuse(CurveFault::NotFinite);
        }
        if wavelengths_nm.windows(2).any(|pair| pair[0] >= pair[1]) {
            return refuse(CurveFault::NotRising);
        }
        Ok(Self {
            wavelengths_nm,
            values,
        })
    }

    /// From values at evenly spaced wavelengths (nm).
    ///
    /// # Errors
    /// As [`SpectralCurve::new`].
    pub fn regular(first_nm: f64, step_nm: f64, values: Vec<f64>) -> Result<Self, ColourError> {
        let wavelengths = (0..values.len()).map(|k| first_nm + step_nm * k as f64).collect();
        Self::new(wavelengths, values)
    }

    /// The wavelengths (nm).
    pub fn wavelengths_nm(&self) -> &[f64] {
        &self.wavelengths_nm
    }

    /// The values.
    pub fn values(&self) -> &[f64] {
        &self.values
    }

    /// The value at a wavelength (nm), on the straight line between its neighbours.
    pub fn at(&self, wavelength_nm: f64) -> f64 {
        let after = self.wavelengths_nm.partition_point(|&nm| nm <= wavelength_nm);
        if after == 0 {
            return self.values[0];
        }
        if after == self.values.len() {
            return self.values[after - 1];
        }
        let (left, right) = (self.wavelengths_nm[after - 1], self.wavelengths_nm[after]);
        let part = (wavelength_nm - left) / (right - left);
        self.values[after - 1] + (self.values[after] - self.values[after - 1]) * part
    }

    /// The same wavelengths with changed values.
    ///
    /// # Errors
    /// Refuses values that are not finite.
    pub fn map(&self, change: impl Fn(f64, f64) -> f64) -> Result<Self, ColourError> {
        let values = self
            .wavelengths_nm
            .iter()
            .zip(&self.values)
            .map(|(&nm, &value)| change(nm, value))
            .collect();
        Self::new(self.wavelengths_nm.clone(), values)
    }

    /// The mean over each band, for reflectances and transmittances.
    ///
    /// The mean is of the values at the 5 nm cells of the CIE tables that make up the band, so that a flat curve stays
    /// exactly flat.
    pub fn band_average(&self) -> Spectrum {
        let mut means = [0.0; BANDS];
        for (band, mean) in means.iter_mut().enumerate() {
            let cells = ((BAND_EDGES_NM[band + 1] - BAND_EDGES_NM[band]) / CELL_NM).round() as usize;
            let first = BAND_EDGES_NM[band] + CELL_NM / 2.0;
            let sum: f64 = (0..cells)
                .map(|cell| self.at(first + CELL_NM * cell as f64))
                .sum();
            *mean = (sum / cells as f64) as f32;
        }
        Spectrum(means)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn flat_stays_flat() {
        let flat = SpectralCurve::new(vec![300.0, 900.0], vec![0.18, 0.18]).expect("a curve");
        assert_eq!(flat.band_average(), Spectrum::splat(0.18));
    }

    #[test]
    fn a_straight_line_averages_to_the_band_centre() {
        let line = SpectralCurve::new(vec![300.0, 900.0], vec![0.3, 0.9]).expect("a curve");
        for (band, value) in line.band_average().0.iter().enumerate() {
            assert!((f64::from(*value) - crate::bands::centre_nm(band) / 1000.0).abs() < 1e-6);
        }
    }

    #[test]
    fn nonsense_is_refused() {
        for (nm, values) in [
            (vec![400.0], vec![1.0]),
            (vec![400.0, 400.0], vec![1.0, 1.0]),
            (vec![500.0, 400.0], vec![1.0, 1.0]),
            (vec![400.0, 500.0], vec![1.0, f64::NAN]),
            (vec![400.0, 500.0, 600.0], vec![1.0, 1.0]),
        ] {
            assert!(SpectralCurve::new(nm, values).is_err());
        }
    }
}
