//! Display values: linear and encoded sRGB (IEC 61966-2-1).

use crate::{Matrix3, Xyz};

/// The white of sRGB, D65 as rounded by that standard (x 0.3127, y 0.3290).
pub const D65_WHITE: Xyz = Xyz::new(0.95047, 1.0, 1.08883);

/// Linear sRGB, 1 for display white. Values outside 0 to 1 are colours the display cannot show.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct LinearSrgb(pub [f64; 3]);

/// From XYZ under D65, with the four decimals of IEC 61966-2-1; its white comes out as 1 to within 2e-4.
const FROM_XYZ: Matrix3 = Matrix3([
    [3.2406, -1.5372, -0.4986],
    [-0.9689, 1.8758, 0.0415],
    [0.0557, -0.2040, 1.0570],
]);

impl LinearSrgb {
    /// From XYZ under D65. Adapt other whites first.
    pub fn from_xyz(colour: Xyz) -> Self {
        Self(FROM_XYZ.times(colour.to_array()))
    }

    /// To XYZ under D65.
    pub fn to_xyz(self) -> Xyz {
        let matrix = FROM_XYZ.inverse().unwrap_or(Matrix3::IDENTITY);
        Xyz::from_array(matrix.times(self.0))
    }

    /// Encoded for a display, clipped to 0 to 1.
    pub fn encode(self) -> [f64; 3] {
        self.0.map(encode_srgb)
    }

    /// Encoded to eight bits, clipped.
    ///
    /// ```
    /// use colour::LinearSrgb;
    /// // Mid-grey.
    /// assert_eq!(LinearSrgb([0.18; 3]).to_srgb8(), [118; 3]);
    /// ```
    pub fn to_srgb8(self) -> [u8; 3] {
        self.encode().map(|value| (value * 255.0).round() as u8)
    }

    /// From eight bits.
    pub fn from_srgb8(encoded: [u8; 3]) -> Self {
        Self(encoded.map(|value| decode_srgb(f64::from(value) / 255.0)))
    }
}

/// A linear value, 0 to 1, as a display expects it; clipped at both ends.
pub fn encode_srgb(linear: f64) -> f64 {
    if linear <= 0.0031308 {
        12.92 * linear.max(0.0)
    } else {
        1.055 * linear.min(1.0).powf(1.0 / 2.4) - 0.055
    }
}

/// The linear value of an encoded one, 0 to 1.
pub fn decode_srgb(encoded: f64) -> f64 {
    if encoded <= 0.04045 {
        encoded / 12.92
    } else {
        ((encoded + 0.055) / 1.055).powf(2.4)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_eight_bit_value_comes_back() {
        for value in 0..=255u8 {
            assert_eq!(LinearSrgb::from_srgb8([value; 3]).to_srgb8(), [value; 3]);
        }
    }

    #[test]
    fn out_of_range_clips() {
        assert_eq!(LinearSrgb([-1.0, 2.0, 0.0]).to_srgb8(), [0, 255, 0]);
    }
}
