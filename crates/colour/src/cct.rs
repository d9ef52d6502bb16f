//! Correlated colour temperature and Duv, by the nearest point of the Planckian locus in CIE 1960 uv.

use crate::observer::{observer_curves, planck};
use crate::{Chromaticity, Uv, Xyz};
use std::sync::LazyLock;
use units::{Duv, Kelvin};

/// The locus at every whole mired from 10 (100 000 K) to 1000 (1000 K).
static LOCUS: LazyLock<Vec<Uv>> = LazyLock::new(|| {
    (COOLEST..=WARMEST)
        .map(|mired| locus_uv(1e6 / f64::from(mired)))
        .collect()
});
const COOLEST: u32 = 10;
const WARMEST: u32 = 1000;

/// Beyond this Duv, a colour temperature says nothing (CIE 15:2018).
const FARTHEST_DUV: f64 = 0.05;

fn locus_uv(kelvin: f64) -> Uv {
    let [x, y, z] = observer_curves();
    let mut sum = Xyz::default();
    for (row, &nm) in x.wavelengths_nm().iter().enumerate() {
        // Scaling by the value at 560 nm keeps the numbers ordinary at every temperature.
        let power = planck(nm, kelvin) / planck(560.0, kelvin);
        sum += Xyz::new(x.values()[row], y.values()[row], z.values()[row]) * power;
    }
    sum.chromaticity().unwrap_or(Chromaticity { x: 0.0, y: 0.0 }).uv()
}

/// A point of the Planckian locus in CIE 1960 uv.
pub fn planckian_uv(kelvin: Kelvin) -> Uv {
    locus_uv(kelvin.value())
}

/// A point of the Planckian locus as x, y.
///
/// ```
/// use units::Kelvin;
/// let point = colour::planckian_chromaticity(Kelvin::new(2856.0)?);
/// assert!((point.x - 0.447539).abs() < 2e-5 && (point.y - 0.407429).abs() < 2e-5);
/// # Ok::<(), units::UnitError>(())
/// ```
pub fn planckian_chromaticity(kelvin: Kelvin) -> Chromaticity {
    planckian_uv(kelvin).chromaticity()
}

/// The point at a distance from the locus, square to it: what a colour temperature with its Duv means.
pub(crate) fn planckian_normal_offset(kelvin: Kelvin, duv: Duv) -> Uv {
    let mired = kelvin.mired().value();
    let (before, after) = (locus_uv(1e6 / (mired - 0.01)), locus_uv(1e6 / (mired + 0.01)));
    let (du, dv) = (after.u - before.u, after.v - before.v);
    let length = du.hypot(dv);
    let at = locus_uv(kelvin.value());
    Uv {
        u: at.u - duv.value() * dv / length,
        v: at.v + duv.value() * du / length,
    }
}

/// Correlated colour temperature and Duv of a chromaticity (CIE 15:2018; Duv as in Ohno 2014, LEUKOS 10, 47).
///
/// None beyond 1000 to 100 000 K, or farther than 0.05 from the locus, where the temperature has no meaning. The point that a
/// temperature and Duv name is found again to 0.01 % and 1e-6.
///
/// ```
/// use colour::{Chromaticity, cct_duv};
/// let (kelvin, duv) = cct_duv(Chromaticity::new(0.3721, 0.3751)).expect("nearly white");
/// assert!((kelvin.value() - 4223.4).abs() < 1.0 && (duv.value() - 0.00177).abs() < 1e-5);
/// ```
pub fn cct_duv(colour: Chromaticity) -> Option<(Kelvin, Duv)> {
    let Uv { u, v } = colour.uv();
    if !(u.is_finite() && v.is_finite()) {
        return None;
    }
    let locus = &*LOCUS;
    let distance = |at: &usize| (u - locus[*at].u).powi(2) + (v - locus[*at].v).powi(2);
    let nearest = |range: &mut dyn Iterator<Item = usize>| {
        range
            .min_by(|a, b| distance(a).total_cmp(&distance(b)))
            .unwrap_or_default()
    };
    // A coarse look along the whole locus, then a close one: the distance has one minimum near the locus.
    let coarse = nearest(&mut (0..locus.len()).step_by(15));
    let fine = nearest(&mut (coarse.saturating_sub(15)..(coarse + 16).min(locus.len())));
    if fine == 0 || fine == locus.len() - 1 {
        return None;
    }

    // Between three neighbours the locus is a parabola in mired; Newton's method finds where the line to the colour
    // stands square on it.
    let (left, middle, right) = (locus[fine - 1], locus[fine], locus[fine + 1]);
    let (slope_u, slope_v) = ((right.u - left.u) / 2.0, (right.v - left.v) / 2.0);
    let (bend_u, bend_v) = (
        right.u - 2.0 * middle.u + left.u,
        right.v - 2.0 * middle.v + left.v,
    );
    let at = |t: f64| {
        (
            middle.u + t * (slope_u + t * bend_u / 2.0),
            middle.v + t * (slope_v + t * bend_v / 2.0),
        )
    };
    let along = |t: f64| (slope_u + t * bend_u, slope_v + t * bend_v);
    let mut t = 0.0;
    for _ in 0..4 {
        let ((pu, pv), (du, dv)) = (at(t), along(t));
        let square = (u - pu) * du + (v - pv) * dv;
        let slope = (u - pu) * bend_u + (v - pv) * bend_v - du * du - dv * dv;
        t = (t - square / slope).clamp(-1.0, 1.0);
    }
    let ((pu, pv), (du, dv)) = (at(t), along(t));
    // The sign tells the side: above the locus is greener.
    let side = du * (v - pv) - dv * (u - pu);
    let duv = (u - pu).hypot(v - pv).copysign(side);
    let mired = f64::from(COOLEST) + fine as f64 + t;
    let kelvin = Kelvin::new(1e6 / mired).ok()?;
    (duv.abs() <= FARTHEST_DUV).then_some((kelvin, Duv(duv)))
}
