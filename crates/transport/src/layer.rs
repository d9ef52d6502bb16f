//! A picture of the transfer of one source.

use colour::Spectrum;

/// A picture of radiance per band of a flat source of unit strength.
#[derive(Clone, Debug)]
pub struct Layer {
    /// Pixels across.
    pub width: usize,
    /// Pixels down.
    pub height: usize,
    /// Radiance, row by row from the top left: cd m⁻² per unit source, or cd s m⁻² for the flash.
    pub pixels: Vec<Spectrum>,
}
