//! The light of an evenly bright polygon in closed form.
//!
//! A flat board, a window, a lit patch of wall: whatever is bounded by straight edges and shines evenly
//! lights a small flat receiver by a sum over its edges alone (Lambert 1760, Photometria, in the vector
//! form of Moon 1936). There is no noise in it and no grid, so it serves as the measure for everything
//! that is traced with rays. Nothing is hidden here: what stands in between must be cut away first.

use glam::DVec3;
use std::f64::consts::{PI, TAU};

/// Below this sine two directions count as one line, and the edge between them turns nothing.
const NO_TURN: f64 = 1e-14;

/// The configuration factor from a flat receiver to a polygon: the share of what the receiver would get
/// from a hemisphere of the polygon's luminance, E / (π L). Between 0 and 1, without a unit.
///
/// * `point`, `normal`: the receiver, in metres, and its unit normal.
/// * `polygon`: corners in order, in metres, in one plane and not crossing itself. Both sides shine alike,
///   so the direction of the order does not matter. What lies below the receiver's horizon is cut off.
///
/// F = |Σ βᵢ n · Γᵢ| / 2π with βᵢ the angle between the directions of two neighbouring corners and Γᵢ
/// the unit normal of the plane through the point and that edge (Lambert 1760; Moon 1936).
///
/// A receiver in the polygon's own plane gets nothing. Worked value: a square metre, one metre above a
/// receiver that lies under one of its corners.
///
/// ```
/// use glam::dvec3;
/// let square = [dvec3(0., 0., 1.), dvec3(1., 0., 1.), dvec3(1., 1., 1.), dvec3(0., 1., 1.)];
/// let factor = transport::polygon_factor(glam::DVec3::ZERO, glam::DVec3::Z, &square);
/// assert!((factor - 0.138_531_606).abs() < 1e-9);
/// ```
pub fn polygon_factor(point: DVec3, normal: DVec3, polygon: &[DVec3]) -> f64 {
    let corners = above_horizon(point, normal, polygon);
    // In its own plane a polygon is edge-on, but the angles of its corners need not add up to nothing.
    if corners.iter().all(|c| normal.dot(*c) <= NO_TURN * c.length()) {
        return 0.0;
    }
    let following = corners.iter().cycle().skip(1);
    let sum: f64 = corners
        .iter()
        .zip(following)
        .map(|(&a, &b)| turn(normal, a, b))
        .sum();
    (sum / TAU).abs()
}

/// Illuminance in lx at a flat receiver from a polygon of an even luminance in cd m⁻²: π L F.
///
/// ```
/// use glam::dvec3;
/// // A window-sized square of 1000 cd m⁻² seen from under its corner.
/// let square = [dvec3(0., 0., 2.), dvec3(1., 0., 2.), dvec3(1., 1., 2.), dvec3(0., 1., 2.)];
/// let lux = transport::polygon_illuminance(glam::DVec3::ZERO, glam::DVec3::Z, &square, 1000.0);
/// assert!((lux - 188.0687).abs() < 1e-4);
/// ```
pub fn polygon_illuminance(point: DVec3, normal: DVec3, polygon: &[DVec3], luminance: f64) -> f64 {
    PI * luminance * polygon_factor(point, normal, polygon)
}

/// The share of the diffuse light leaving one polygon that reaches another.
///
/// * `from`: corners in order; convex, so that spokes from its middle cover it.
/// * `to`: corners in order; both polygons flat, both sides alike, nothing in between.
/// * `nodes`: Gauss points per direction of each spoke triangle; 24 gives about 1e-5 of the factor, also
///   where the two share an edge, and 48 gives 1e-8 when they do not touch.
///
/// The mean of [`polygon_factor`] over `from`. Points are crowded towards the rim, because where two
/// surfaces touch the factor has a kink there (substitution t ↦ t²(3 − 2t); ours).
///
/// ```
/// use glam::dvec3;
/// // Floor and wall of a unit cube: 0.20004.
/// let floor = [dvec3(0., 0., 0.), dvec3(1., 0., 0.), dvec3(1., 1., 0.), dvec3(0., 1., 0.)];
/// let wall = [dvec3(0., 0., 0.), dvec3(1., 0., 0.), dvec3(1., 0., 1.), dvec3(0., 0., 1.)];
/// assert!((transport::exchange_factor(&floor, &wall, 24) - 0.200_044).abs() < 1e-6);
/// ```
pub fn exchange_factor(from: &[DVec3], to: &[DVec3], nodes: usize) -> f64 {
    let middle = from.iter().sum::<DVec3>() / from.len().max(1) as f64;
    let nodes: Vec<(f64, f64)> = gauss_legendre(nodes)
        .into_iter()
        .map(|(t, weight)| (t * t * (3.0 - 2.0 * t), weight * 6.0 * t * (1.0 - t)))
        .collect();
    let (mut sum, mut area) = (0.0, 0.0);
    for (&a, &b) in from.iter().zip(from.iter().cycle().skip(1)) {
        let across = (a - middle).cross(b - middle);
        let size = 0.5 * across.length();
        let Some(normal) = across.try_normalize() else {
            continue;
        };
        area += size;
        for &(along, along_weight) in &nodes {
            for &(aside, aside_weight) in &nodes {
                let point = middle + along * (a - middle + aside * (b - a));
                let weight = 2.0 * size * along * along_weight * aside_weight;
                // Only one side of `from` can see `to`, and which one depends on the order of its corners.
                let factor = polygon_factor(point, normal, to) + polygon_factor(point, -normal, to);
                sum += weight * factor;
            }
        }
    }
    if area > 0.0 { sum / area } else { 0.0 }
}

/// A regular polygon that stands for a disc: of the same area, so that its light differs from the disc's
/// by less than 1e-5 from 64 sides on.
///
/// ```
/// use glam::DVec3;
/// // A disc of 0.5 m seen from its axis one metre away: R² / (R² + h²) = 0.2.
/// let disc = transport::disc_polygon(DVec3::Z, DVec3::Z, 0.5, 256);
/// assert!((transport::polygon_factor(DVec3::ZERO, DVec3::Z, &disc) - 0.2).abs() < 1e-6);
/// ```
pub fn disc_polygon(centre: DVec3, normal: DVec3, radius: f64, sides: usize) -> Vec<DVec3> {
    let (u, v) = normal.normalize().any_orthonormal_pair();
    let step = TAU / sides as f64;
    let reach = radius * (step / step.sin()).sqrt();
    (0..sides)
        .map(|i| {
            let (sin, cos) = (step * i as f64).sin_cos();
            centre + reach * (cos * u + sin * v)
        })
        .collect()
}

/// βn·Γ of one edge, for corners as seen from the receiver.
fn turn(normal: DVec3, a: DVec3, b: DVec3) -> f64 {
    let across = a.cross(b);
    let sine = across.length();
    if sine <= NO_TURN * a.length() * b.length() {
        return 0.0;
    }
    sine.atan2(a.dot(b)) * normal.dot(across) / sine
}

/// The corners as seen from the receiver, without what lies below its horizon (Sutherland & Hodgman 1974,
/// for one plane).
fn above_horizon(point: DVec3, normal: DVec3, polygon: &[DVec3]) -> Vec<DVec3> {
    let mut kept = Vec::with_capacity(polygon.len() + 2);
    for (&a, &b) in polygon.iter().zip(polygon.iter().cycle().skip(1)) {
        let (a, b) = (a - point, b - point);
        let (up_a, up_b) = (normal.dot(a), normal.dot(b));
        if up_a >= 0.0 {
            kept.push(a);
        }
        if (up_a > 0.0 && up_b < 0.0) || (up_a < 0.0 && up_b > 0.0) {
            kept.push(a + (b - a) * (up_a / (up_a - up_b)));
        }
    }
    kept
}

/// Points and weights of Gauss and Legendre on 0..1: Newton's method on the Legendre polynomial.
fn gauss_legendre(count: usize) -> Vec<(f64, f64)> {
    let n = count as f64;
    (0..count)
        .map(|i| {
            let mut x = (PI * (i as f64 + 0.75) / (n + 0.5)).cos();
            let mut slope = 1.0;
            for _ in 0..100 {
                let (mut before, mut value) = (1.0, x);
                for k in 2..=count {
                    let k = k as f64;
                    (before, value) = (value, ((2.0 * k - 1.0) * x * value - (k - 1.0) * before) / k);
                }
                slope = n * (x * value - before) / (x * x - 1.0);
                let step = value / slope;
                x -= step;
                if step.abs() < 1e-15 {
                    break;
                }
            }
            (0.5 * (1.0 - x), 1.0 / ((1.0 - x * x) * slope * slope))
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use glam::dvec3;

    #[test]
    fn gauss_points_integrate_what_they_should() {
        for count in [1, 2, 5, 24] {
            for power in 0..2 * count {
                let sum: f64 = gauss_legendre(count)
                    .iter()
                    .map(|(t, w)| w * t.powi(power as i32))
                    .sum();
                let exact = 1.0 / (power as f64 + 1.0);
                assert!(
                    (sum - exact).abs() < 1e-13,
                    "{count} points, power {power}: {sum}"
                );
            }
        }
    }

    #[test]
    fn a_closed_box_fills_the_hemisphere() {
        // The six faces of a box around the receiver add up to one, horizon and all.
        let corner = |i: usize| {
            dvec3(
                [-1.0, 2.0][i & 1],
                [-0.5, 1.5][i >> 1 & 1],
                [-0.7, 0.9][i >> 2 & 1],
            )
        };
        let faces = [
            [0, 1, 3, 2],
            [4, 5, 7, 6],
            [0, 1, 5, 4],
            [2, 3, 7, 6],
            [0, 2, 6, 4],
            [1, 3, 7, 5],
        ];
        for normal in [DVec3::Z, dvec3(0.6, 0.0, 0.8), dvec3(-0.3, 0.5, -0.2).normalize()] {
            let sum: f64 = faces
                .iter()
                .map(|f| polygon_factor(DVec3::ZERO, normal, &f.map(corner)))
                .sum();
            assert!((sum - 1.0).abs() < 1e-12, "{normal}: {sum}");
        }
    }

    #[test]
    fn what_lies_below_the_horizon_or_in_the_plane_adds_nothing() {
        let square =
            |z: f64| [(0., 0.), (1., 0.), (1., 1.), (0., 1.)].map(|(x, y): (f64, f64)| dvec3(x, y, z));
        for (z, point) in [
            (-1.0, DVec3::ZERO),
            (0.0, dvec3(2.0, 0.5, 0.0)),
            (0.0, dvec3(1.0, 0.3, 0.0)),
        ] {
            assert_eq!(polygon_factor(point, DVec3::Z, &square(z)), 0.0, "z {z} {point}");
        }
        assert_eq!(polygon_factor(DVec3::ZERO, DVec3::Z, &[]), 0.0);
        assert_eq!(polygon_factor(DVec3::ZERO, DVec3::Z, &[DVec3::Z; 4]), 0.0);
    }

    #[test]
    fn exchange_is_reciprocal() {
        let small = [(0., 0.), (0.4, 0.), (0.4, 0.7), (0., 0.7)].map(|(x, y)| dvec3(x, y, 0.0));
        let large = [(-1., 0.), (2., 0.), (2., 1.5), (-1., 1.5)].map(|(x, z)| dvec3(x, 1.0, z));
        let there = 0.28 * exchange_factor(&small, &large, 48);
        let back = 4.5 * exchange_factor(&large, &small, 48);
        assert!((there / back - 1.0).abs() < 1e-7, "{there} {back}");
    }
}
