//! Light of a clear sky from day to night, and of the moon: fits of the Explanatory Supplement to the Astronomical Almanac
//! (Seidelmann 1992; Urban & Seidelmann 2013, p. 518 ff.), log₁₀ of lux as cubics of altitude over 90°.
//!
//! They hold for a level plane, sun or moon and sky together, on an ordinary clear day.

use crate::atmosphere::smooth_step;

/// Lowest altitude of a piece in degrees, and its coefficients.
type Piece = (f64, [f64; 4]);

const SUN: [Piece; 6] = [
    (20.0, [3.74, 3.97, -4.07, 1.47]),
    (5.0, [3.05, 13.28, -45.98, 64.33]),
    (-0.8, [2.88, 22.26, -207.64, 1034.3]),
    (-5.0, [2.88, 21.81, -258.11, -858.36]),
    (-12.0, [2.7, 12.17, -431.69, -1899.83]),
    (-18.0, [13.84, 262.72, 1447.42, 2797.93]),
];

const FULL_MOON: [Piece; 3] = [
    (20.0, [-1.95, 4.06, -4.24, 1.56]),
    (5.0, [-2.58, 12.58, -42.58, 59.06]),
    (-0.8, [-2.79, 24.27, -252.95, 1321.29]),
];

/// Width, in degrees above the end of a piece, over which it gives way to the next (ours): at their ends they differ by up to
/// 1.5 %, and a step would show in a table of stops per minute.
const MIXED_DEG: f64 = 0.5;

fn log_of(piece: &Piece, altitude_deg: f64) -> f64 {
    let x = altitude_deg / 90.0;
    let [a, b, c, d] = piece.1;
    a + x * (b + x * (c + x * d))
}

/// Base-ten logarithm of a fit at an altitude that is not below its last piece.
fn log_fit(pieces: &[Piece], altitude_deg: f64) -> f64 {
    let last = pieces.len() - 1;
    let at = pieces
        .iter()
        .position(|piece| altitude_deg >= piece.0)
        .unwrap_or(last);
    let here = log_of(&pieces[at], altitude_deg);
    let into = (altitude_deg - pieces[at].0) / MIXED_DEG;
    if at == last || into >= 1.0 {
        return here;
    }
    let below = log_of(&pieces[at + 1], altitude_deg);
    below + (here - below) * smooth_step(into)
}

/// Sun and clear sky on the ground in lux, for an altitude of the sun's centre, −18° to 90°.
///
/// Which altitude is meant near the horizon, with or without air, the source does not say. The airless one is taken
/// here: at sunset the ground then has 450 lx, which is what photographers meter, and nothing jumps where refraction
/// ends. Below −18° the last slope goes on; see [`crate::NIGHT_FLOOR_LX`] for what remains.
///
/// ```
/// assert!((light::clear_horizontal_lx(-6.0) - 3.41).abs() < 0.02);
/// ```
pub fn clear_horizontal_lx(altitude_deg: f64) -> f64 {
    let lowest = -18.0;
    let at = altitude_deg.clamp(lowest, 90.0);
    let slope = (log_fit(&SUN, lowest + 0.01) - log_fit(&SUN, lowest)) / 0.01;
    10f64.powf(log_fit(&SUN, at) + slope * (altitude_deg - at).min(0.0))
}

/// A full moon at its mean distance, with its sky, on the ground in lux.
///
/// Below −0.8° the fit ends; the light fades to nothing at −4° (ours).
pub(crate) fn full_moon_horizontal_lx(altitude_deg: f64) -> f64 {
    let lit = 10f64.powf(log_fit(&FULL_MOON, altitude_deg.clamp(-0.8, 90.0)));
    lit * smooth_step((altitude_deg + 4.0) / 3.2)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn pieces_meet() {
        for k in -1_790..9_000 {
            let altitude = f64::from(k) / 100.0;
            let (here, next) = (
                clear_horizontal_lx(altitude).log2(),
                clear_horizontal_lx(altitude + 0.01).log2(),
            );
            // A hundredth of a degree is 2.4 s at the equator. The steepest dusk falls by 1.8 stops a degree.
            assert!(next > here && next - here < 0.035, "{altitude}: {here} {next}");
        }
    }

    #[test]
    fn night_goes_on_falling() {
        assert!(clear_horizontal_lx(-25.0) < clear_horizontal_lx(-18.0) / 10.0);
        assert!(clear_horizontal_lx(-90.0) >= 0.0);
    }
}
