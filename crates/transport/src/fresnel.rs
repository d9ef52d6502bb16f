//! Reflection at a smooth boundary (Fresnel).

/// Reflectance of unpolarised light at a dielectric boundary.
///
/// * `index`: refractive index of the far side relative to the near side.
/// * `cos`: cosine of the angle of incidence, 0..1.
///
/// Fresnel's equations (Born & Wolf, Principles of Optics, §1.5.2).
///
/// ```
/// // Glass of n = 1.5 seen square on: 4.00 %.
/// assert!((transport::fresnel_dielectric(1.5, 1.0) - 0.04).abs() < 1e-6);
/// ```
#[inline]
pub fn fresnel_dielectric(index: f32, cos: f32) -> f32 {
    let [s, p] = fresnel_dielectric_sp(f64::from(index), f64::from(cos));
    (0.5 * (s + p)) as f32
}

/// Reflectances of the two polarisations at a dielectric boundary: across (s) and along (p) the plane
/// of incidence. Beyond the critical angle both are 1.
pub fn fresnel_dielectric_sp(index: f64, cos: f64) -> [f64; 2] {
    let cos = cos.clamp(0.0, 1.0);
    let sin_t2 = (1.0 - cos * cos) / (index * index);
    if sin_t2 >= 1.0 {
        return [1.0, 1.0];
    }
    let cos_t = (1.0 - sin_t2).sqrt();
    let s = (cos - index * cos_t) / (cos + index * cos_t);
    let p = (index * cos - cos_t) / (index * cos + cos_t);
    [s * s, p * p]
}

/// Reflectances of the two polarisations (s, p) at a metal of complex index n + i k.
///
/// Born & Wolf, §14.2. Worked value: n = 0.23, k = 3.0 at 75° gives 0.97768 and 0.85193.
///
/// ```
/// let [s, p] = transport::fresnel_conductor_sp(0.23, 3.0, 75f64.to_radians().cos());
/// assert!((s - 0.9776779).abs() < 1e-6 && (p - 0.8519269).abs() < 1e-6);
/// ```
pub fn fresnel_conductor_sp(n: f64, k: f64, cos: f64) -> [f64; 2] {
    let cos2 = cos * cos;
    let sin2 = 1.0 - cos2;
    let inner = n * n - k * k - sin2;
    let a2b2 = (inner * inner + 4.0 * n * n * k * k).sqrt();
    let a = (0.5 * (a2b2 + inner)).max(0.0).sqrt();
    let s = (a2b2 + cos2 - 2.0 * a * cos) / (a2b2 + cos2 + 2.0 * a * cos);
    let p = s * (cos2 * a2b2 + sin2 * sin2 - 2.0 * a * cos * sin2)
        / (cos2 * a2b2 + sin2 * sin2 + 2.0 * a * cos * sin2);
    [s, p]
}
