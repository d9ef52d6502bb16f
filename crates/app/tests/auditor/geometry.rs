//! Points, distances and angles in a place.

use crate::shoot::Point;

pub fn minus(a: Point, b: Point) -> Point {
    [0, 1, 2].map(|axis| a[axis] - b[axis])
}

pub fn dot(a: Point, b: Point) -> f64 {
    a.iter().zip(b).map(|(a, b)| a * b).sum()
}

pub fn length(a: Point) -> f64 {
    dot(a, a).sqrt()
}

pub fn distance(a: Point, b: Point) -> f64 {
    length(minus(a, b))
}

/// The bearing of a way seen from above: 0 away from the camera's wall, 90 to the camera's right.
pub fn bearing_deg(way: Point) -> f64 {
    way[0].atan2(way[1]).to_degrees()
}

/// The same angle between -180 and 180 degrees.
pub fn wrapped_deg(angle: f64) -> f64 {
    (angle + 180.0).rem_euclid(360.0) - 180.0
}

/// The angle between two ways.
pub fn between_deg(a: Point, b: Point) -> f64 {
    (dot(a, b) / (length(a) * length(b)))
        .clamp(-1.0, 1.0)
        .acos()
        .to_degrees()
}

#[test]
fn bearings_turn_to_the_right() {
    assert_eq!(bearing_deg([0.0, 1.0, 0.0]), 0.0);
    assert_eq!(bearing_deg([2.0, 0.0, 5.0]), 90.0);
    assert_eq!(wrapped_deg(190.0), -170.0);
    assert!((between_deg([1.0, 0.0, 0.0], [0.0, 0.0, 3.0]) - 90.0).abs() < 1e-9);
}
