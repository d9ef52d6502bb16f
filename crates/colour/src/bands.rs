//! Where the sixteen bands lie, and how exact they are.
//!
//! Edges were chosen by measurement rather than evenly: narrow where the eye changes fast (around 450, 500 and 600 nm) and
//! where fluorescent lamps have their lines. They fall half-way between the rows of the 5 nm CIE tables, so that every
//! row belongs to one band and band sums add up to the table's own sums. The first and last band also take the
//! observer's tails, in which a reflectance is assumed to continue.
//!
//! Measured against sums over the 5 nm rows, after adaptation to D65, as CIEDE2000 (`tests/band_error.rs` repeats the
//! measurement and holds the figures):
//!
//! | lamps | skin (13 curves) | named surfaces (44) | smooth paints (100) |
//! |---|---|---|---|
//! | 15 smooth: A, D50 to D75, white LEDs, photographic daylight and tungsten | max 0.25, mean 0.10 | max 0.29, mean 0.07 | max 0.90, mean 0.28 |
//! | 5 fluorescent: FL2, FL3, FL7, FL11, FL12 | max 0.62, mean 0.32 | max 0.50, mean 0.10 | max 0.99, mean 0.29 |
//! | 2 discharge: HP1 (sodium), HP5 (metal halide) | max 0.48, mean 0.30 | max 0.88, mean 0.21 | max 2.4, mean 0.58 |
//!
//! The paints are made up, with edges as steep as a strong pigment. Only such a paint under a discharge lamp, whose light
//! lies in a few lines, is off by more than can be seen side by side.

use crate::BANDS;

/// Spacing of the CIE tables (nm): every band is a whole number of these cells.
pub(crate) const CELL_NM: f64 = 5.0;

/// Edges of the bands (nm), seventeen of them.
pub const BAND_EDGES_NM: [f64; BANDS + 1] = [
    407.5, 427.5, 442.5, 462.5, 482.5, 497.5, 512.5, 532.5, 557.5, 572.5, 587.5, 602.5, 617.5, 637.5, 652.5,
    667.5, 692.5,
];

/// The middle of a band (nm).
///
/// ```
/// assert_eq!(colour::bands::centre_nm(0), 417.5);
/// ```
pub const fn centre_nm(band: usize) -> f64 {
    (BAND_EDGES_NM[band] + BAND_EDGES_NM[band + 1]) / 2.0
}

/// The width of a band (nm).
pub const fn width_nm(band: usize) -> f64 {
    BAND_EDGES_NM[band + 1] - BAND_EDGES_NM[band]
}

/// The band that holds a wavelength (nm); the ends hold what lies beyond.
pub fn band_of(wavelength_nm: f64) -> usize {
    BAND_EDGES_NM[1..BANDS].partition_point(|&edge| edge <= wavelength_nm)
}
