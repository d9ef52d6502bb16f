//! Fixed irregularity: the same place always gives the same value.

use glam::Vec3;

/// A number in 0..1 from an index, well mixed (a multiply-xorshift hash; constants as in common use).
pub(super) fn hash(index: u32) -> f32 {
    let mut x = index.wrapping_mul(0x9E37_79B9) ^ 0x85EB_CA6B;
    x = (x ^ (x >> 16)).wrapping_mul(0x7FEB_352D);
    x = (x ^ (x >> 15)).wrapping_mul(0x846C_A68B);
    ((x ^ (x >> 16)) >> 8) as f32 / (1 << 24) as f32
}

/// Smooth noise in about -1..1 with features of about one unit.
pub(super) fn smooth(p: Vec3) -> f32 {
    let cell = p.floor();
    let f = p - cell;
    let f = f * f * (Vec3::splat(3.0) - 2.0 * f);
    let corner = |dx: i32, dy: i32, dz: i32| {
        let (x, y, z) = (cell.x as i32 + dx, cell.y as i32 + dy, cell.z as i32 + dz);
        let mixed =
            (x.wrapping_mul(73_856_093) ^ y.wrapping_mul(19_349_663) ^ z.wrapping_mul(83_492_791)) as u32;
        hash(mixed) * 2.0 - 1.0
    };
    let along = |dy, dz| corner(0, dy, dz) * (1.0 - f.x) + corner(1, dy, dz) * f.x;
    let across = |dz| along(0, dz) * (1.0 - f.y) + along(1, dz) * f.y;
    across(0) * (1.0 - f.z) + across(1) * f.z
}

/// 0 below `low`, 1 above `high`, smooth between (also with `low` above `high`).
pub(super) fn step(low: f32, high: f32, x: f32) -> f32 {
    let t = ((x - low) / (high - low)).clamp(0.0, 1.0);
    t * t * (3.0 - 2.0 * t)
}
