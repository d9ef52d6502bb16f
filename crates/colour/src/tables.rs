//! Reading the tables that are built into the program.

use crate::SpectralCurve;

/// A table of curves over a common wavelength scale.
pub(crate) struct Table {
    columns: Vec<(String, SpectralCurve)>,
}

impl Table {
    /// Reads a CSV text: comment lines, then a header, then rows that begin with the wavelength.
    ///
    /// Only our own files come here, so a fault in one is a fault of the program; the tests read every one.
    pub(crate) fn read(text: &str) -> Self {
        let mut lines = text.lines().filter(|line| !line.starts_with('#'));
        let header = lines.next().unwrap_or_default();
        let rows: Vec<Vec<f64>> = lines
            .map(|line| {
                line.split(',')
                    .map(|cell| cell.trim().parse().unwrap_or(f64::NAN))
                    .collect()
            })
            .collect();
        let wavelengths: Vec<f64> = rows.iter().map(|row| row[0]).collect();
        let columns = header
            .split(',')
            .enumerate()
            .skip(1)
            .filter_map(|(index, name)| {
                let values = rows.iter().map(|row| row[index]).collect();
                SpectralCurve::new(wavelengths.clone(), values)
                    .ok()
                    .map(|curve| (name.to_owned(), curve))
            })
            .collect();
        Self { columns }
    }

    /// The curve of a column, its name compared without regard to case.
    pub(crate) fn curve(&self, name: &str) -> Option<&SpectralCurve> {
        self.columns
            .iter()
            .find(|(column, _)| column.eq_ignore_ascii_case(name))
            .map(|(_, curve)| curve)
    }

    /// The column names in order.
    pub(crate) fn names(&self) -> impl Iterator<Item = &str> {
        self.columns.iter().map(|(name, _)| name.as_str())
    }

    /// The curves in order.
    pub(crate) fn curves(&self) -> impl Iterator<Item = &SpectralCurve> {
        self.columns.iter().map(|(_, curve)| curve)
    }
}
