//! Chromatic adaptation: how a colour seen under one white looks under another.
//!
//! Von Kries's idea: three responses, each scaled by the ratio of the whites. The transforms differ in which three.

use crate::Xyz;

/// A 3 x 3 matrix, rows first.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Matrix3(pub [[f64; 3]; 3]);

impl Matrix3 {
    /// The matrix that changes nothing.
    pub const IDENTITY: Self = Self([[1.0, 0.0, 0.0], [0.0, 1.0, 0.0], [0.0, 0.0, 1.0]]);

    /// A matrix with these three on its diagonal and nothing else.
    pub const fn diagonal([a, b, c]: [f64; 3]) -> Self {
        Self([[a, 0.0, 0.0], [0.0, b, 0.0], [0.0, 0.0, c]])
    }

    /// The product with a column of three.
    pub fn times(&self, column: [f64; 3]) -> [f64; 3] {
        self.0
            .map(|row| row[0] * column[0] + row[1] * column[1] + row[2] * column[2])
    }

    /// The product with a colour.
    pub fn apply(&self, colour: Xyz) -> Xyz {
        Xyz::from_array(self.times(colour.to_array()))
    }

    /// The inverse; none if there is none.
    pub fn inverse(&self) -> Option<Self> {
        let m = &self.0;
        let cofactor = |row: usize, column: usize| {
            let (r1, r2) = ((row + 1) % 3, (row + 2) % 3);
            let (c1, c2) = ((column + 1) % 3, (column + 2) % 3);
            m[r1][c1] * m[r2][c2] - m[r1][c2] * m[r2][c1]
        };
        let determinant: f64 = (0..3).map(|column| m[0][column] * cofactor(0, column)).sum();
        (determinant.abs() > 1e-300).then(|| {
            Self(std::array::from_fn(|row| {
                std::array::from_fn(|column| cofactor(column, row) / determinant)
            }))
        })
    }
}

impl std::ops::Mul for Matrix3 {
    type Output = Self;
    fn mul(self, right: Self) -> Self {
        Self(std::array::from_fn(|row| {
            std::array::from_fn(|column| (0..3).map(|k| self.0[row][k] * right.0[k][column]).sum())
        }))
    }
}

/// Which three responses are scaled. Degree of adaptation is always complete (D = 1).
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub enum ChromaticTransform {
    /// Lam 1985, as used by ICC profiles.
    #[default]
    Bradford,
    /// CIE 160:2004, CIECAM02.
    Cat02,
    /// Li et al. 2017, Color Research and Application 42, 703, CIECAM16.
    Cat16,
    /// Hunt, Pointer and Estevez cone responses, equal-energy normalised to D65.
    VonKries,
}

impl ChromaticTransform {
    /// From XYZ to the three responses.
    pub const fn matrix(self) -> Matrix3 {
        Matrix3(match self {
            Self::Bradford => [
                [0.8951, 0.2664, -0.1614],
                [-0.7502, 1.7135, 0.0367],
                [0.0389, -0.0685, 1.0296],
            ],
            Self::Cat02 => [
                [0.7328, 0.4296, -0.1624],
                [-0.7036, 1.6975, 0.0061],
                [0.0030, 0.0136, 0.9834],
            ],
            Self::Cat16 => [
                [0.401288, 0.650173, -0.051461],
                [-0.250268, 1.204414, 0.045854],
                [-0.002079, 0.048952, 0.953127],
            ],
            Self::VonKries => [
                [0.40024, 0.7076, -0.08081],
                [-0.2263, 1.16532, 0.0457],
                [0.0, 0.0, 0.91822],
            ],
        })
    }

    /// The matrix from colours under one white to the corresponding colours under another.
    ///
    /// The whites must have positive responses, as every real light has.
    ///
    /// ```
    /// use colour::{ChromaticTransform, Xyz};
    /// let (a, d65) = (Xyz::new(1.0984906, 1.0, 0.35579826), Xyz::new(0.95043005, 1.0, 1.0888065));
    /// let matrix = ChromaticTransform::Bradford.adaptation(a, d65);
    /// let red = matrix.apply(Xyz::new(0.45, 0.35, 0.08));
    /// assert!((red.x - 0.37042).abs() < 2e-5);
    /// ```
    pub fn adaptation(self, from_white: Xyz, to_white: Xyz) -> Matrix3 {
        let to_responses = self.matrix();
        let from_responses = to_responses.inverse().unwrap_or(Matrix3::IDENTITY);
        let source = to_responses.times(from_white.to_array());
        let target = to_responses.times(to_white.to_array());
        let scale = std::array::from_fn(|k| target[k] / source[k]);
        from_responses * Matrix3::diagonal(scale) * to_responses
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_white_becomes_the_other_white() {
        let (from, to) = (Xyz::new(1.1, 1.0, 0.35), Xyz::new(0.95, 1.0, 1.09));
        use ChromaticTransform::*;
        for transform in [Bradford, Cat02, Cat16, VonKries] {
            let seen = transform.adaptation(from, to).apply(from);
            assert!(
                (seen.x - to.x).abs() < 1e-12 && (seen.z - to.z).abs() < 1e-12,
                "{transform:?}"
            );
        }
    }

    #[test]
    fn inverse_undoes() {
        let matrix = ChromaticTransform::Cat16.matrix();
        let product = matrix * matrix.inverse().expect("invertible");
        for (row, expected) in product.0.iter().zip(Matrix3::IDENTITY.0) {
            for (a, b) in row.iter().zip(expected) {
                assert!((a - b).abs() < 1e-12);
            }
        }
        assert_eq!(Matrix3::diagonal([1.0, 0.0, 1.0]).inverse(), None);
    }
}
