//! How different two colours look.

use crate::Lab;

/// CIEDE2000 colour difference with unit parametric factors (ISO/CIE 11664-6; notation of Sharma, Wu and Dalal 2005,
/// Color Research and Application 30, 21, doi:10.1002/col.20070). About 1 is just visible side by side.
///
/// ```
/// use colour::{Lab, delta_e_2000};
/// let difference = delta_e_2000(Lab::new(50.0, 3.1571, -77.2803), Lab::new(50.0, 0.0, -82.7485));
/// assert!((difference - 2.8615).abs() < 1e-4);
/// ```
pub fn delta_e_2000(first: Lab, second: Lab) -> f64 {
    // Grey colours get a stretched a* so that near-neutral differences count as they are seen (their equations 2 to 7).
    let seventh = |chroma: f64| (chroma.powi(7) / (chroma.powi(7) + 25f64.powi(7))).sqrt();
    let mean_chroma = (first.chroma() + second.chroma()) / 2.0;
    let stretch = 1.0 + 0.5 * (1.0 - seventh(mean_chroma));
    let (a1, a2) = (first.a * stretch, second.a * stretch);
    let (c1, c2) = (a1.hypot(first.b), a2.hypot(second.b));
    let hue = |a: f64, b: f64| {
        if a == 0.0 && b == 0.0 {
            0.0
        } else {
            b.atan2(a).to_degrees().rem_euclid(360.0)
        }
    };
    let (h1, h2) = (hue(a1, first.b), hue(a2, second.b));

    // Differences in lightness, chroma and hue (8 to 11); a grey has no hue to differ in.
    let delta_l = second.l - first.l;
    let delta_c = c2 - c1;
    let both_coloured = c1 * c2 != 0.0;
    let turn = match h2 - h1 {
        _ if !both_coloured => 0.0,
        turn if turn > 180.0 => turn - 360.0,
        turn if turn < -180.0 => turn + 360.0,
        turn => turn,
    };
    let delta_h = 2.0 * (c1 * c2).sqrt() * (turn / 2.0).to_radians().sin();

    // Means (12 to 14); the mean hue lies on the shorter arc.
    let mean_l = (first.l + second.l) / 2.0;
    let mean_c = (c1 + c2) / 2.0;
    let mean_h = if !both_coloured {
        h1 + h2
    } else if (h1 - h2).abs() <= 180.0 {
        (h1 + h2) / 2.0
    } else if h1 + h2 < 360.0 {
        (h1 + h2 + 360.0) / 2.0
    } else {
        (h1 + h2 - 360.0) / 2.0
    };

    // Weights (15 to 21) and the rotation that mends the blues.
    let cos = |degrees: f64| degrees.to_radians().cos();
    let t = 1.0 - 0.17 * cos(mean_h - 30.0) + 0.24 * cos(2.0 * mean_h) + 0.32 * cos(3.0 * mean_h + 6.0)
        - 0.20 * cos(4.0 * mean_h - 63.0);
    let off_middle = (mean_l - 50.0).powi(2);
    let weight_l = 1.0 + 0.015 * off_middle / (20.0 + off_middle).sqrt();
    let weight_c = 1.0 + 0.045 * mean_c;
    let weight_h = 1.0 + 0.015 * mean_c * t;
    let rotation_angle = 60.0 * (-((mean_h - 275.0) / 25.0).powi(2)).exp();
    let rotation = -2.0 * seventh(mean_c) * rotation_angle.to_radians().sin();

    let (l, c, h) = (delta_l / weight_l, delta_c / weight_c, delta_h / weight_h);
    // Rounding may leave a tiny negative number under the root.
    (l * l + c * c + h * h + rotation * c * h).max(0.0).sqrt()
}
