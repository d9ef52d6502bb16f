//! How a surface scatters light: a matt base, perhaps under a glossy coat.
//!
//! The coat is a GGX microfacet surface (Walter et al. 2007) with height-correlated Smith shadowing
//! (Heitz 2014) and Fresnel reflection; the base is coupled to it so that light refused by the coat is
//! not lost twice (Kelemen & Szirmay-Kalos 2001): a white base under any coat reflects all it receives.

use crate::fresnel::fresnel_dielectric;
use crate::surface::SurfacePoint;
use colour::Spectrum;
use glam::Vec3;
use std::f32::consts::PI;
use std::sync::OnceLock;

/// Normal distribution of GGX, per steradian. Walter et al. 2007, eq. 33.
///
/// ```
/// // α = 0.05 at the normal: 1 / (π α²) = 127.32 per steradian.
/// assert!((transport::ggx_distribution(0.05, 1.0) - 127.324).abs() < 1e-2);
/// ```
#[inline]
pub fn ggx_distribution(alpha: f32, cos_half: f32) -> f32 {
    if cos_half <= 0.0 {
        return 0.0;
    }
    let a2 = alpha * alpha;
    // Written with sin² so that a nearly smooth surface keeps its digits near the normal.
    let sin2 = (1.0 - cos_half * cos_half).max(0.0);
    let d = a2 * cos_half * cos_half + sin2;
    a2 / (PI * d * d)
}

/// Smith's Λ for GGX. Heitz 2014, eq. 72.
#[inline]
pub fn ggx_lambda(alpha: f32, cos: f32) -> f32 {
    let cos2 = (cos * cos).clamp(1e-8, 1.0);
    let tan2 = (1.0 - cos2) / cos2;
    0.5 * ((1.0 + alpha * alpha * tan2).sqrt() - 1.0)
}

/// Height-correlated masking and shadowing over 4 cos cos: the visibility term. Heitz 2014, eq. 99.
#[inline]
fn ggx_visibility(alpha: f32, cos_out: f32, cos_in: f32) -> f32 {
    1.0 / ((1.0 + ggx_lambda(alpha, cos_out) + ggx_lambda(alpha, cos_in)) * 4.0 * cos_out * cos_in)
}

/// The coat's bidirectional reflectance for two unit directions about a unit normal, per steradian.
#[inline]
pub fn coat_brdf(alpha: f32, index: f32, normal: Vec3, out: Vec3, into: Vec3) -> f32 {
    let (cos_out, cos_in) = (normal.dot(out), normal.dot(into));
    if cos_out <= 0.0 || cos_in <= 0.0 {
        return 0.0;
    }
    let Some(half) = (out + into).try_normalize() else {
        return 0.0;
    };
    ggx_distribution(alpha, normal.dot(half))
        * ggx_visibility(alpha, cos_out, cos_in)
        * fresnel_dielectric(index, out.dot(half).clamp(0.0, 1.0))
}

const ALBEDO_STEPS: usize = 32;
const ALPHA_STEPS: usize = 16;
/// Least and most share of directions that follow a coat, so that neither coat nor base is drawn too seldom for what it
/// may send.
const COAT_SHARE: [f32; 2] = [0.15, 0.85];
/// The smoothest coat of the table; the roughest has a roughness of 1.
const SMOOTHEST: f32 = 0.02;
/// Indices for which the coat's albedo is tabulated; surfaces use the nearest.
const INDICES: [f32; 4] = [1.376, 1.4, 1.5, 1.55];

/// Directional and mean albedo of coats, tabulated once.
struct CoatAlbedo {
    /// Albedo by index, roughness step and cosine step.
    directional: Vec<f32>,
    /// Cosine-weighted mean by index and roughness step.
    mean: Vec<f32>,
}

fn coat_albedo() -> &'static CoatAlbedo {
    static TABLE: OnceLock<CoatAlbedo> = OnceLock::new();
    TABLE.get_or_init(|| {
        let mut table = CoatAlbedo {
            directional: Vec::new(),
            mean: Vec::new(),
        };
        for index in INDICES {
            for a in 0..ALPHA_STEPS {
                let alpha = alpha_of(a);
                let row: Vec<f32> = (0..ALBEDO_STEPS)
                    .map(|c| directional_albedo(alpha, index, (c as f32 + 0.5) / ALBEDO_STEPS as f32))
                    .collect();
                let mean = row
                    .iter()
                    .enumerate()
                    .map(|(c, e)| e * 2.0 * (c as f32 + 0.5) / (ALBEDO_STEPS * ALBEDO_STEPS) as f32)
                    .sum();
                table.directional.extend(row);
                table.mean.push(mean);
            }
        }
        table
    })
}

fn alpha_of(step: usize) -> f32 {
    SMOOTHEST + (1.0 - SMOOTHEST) * step as f32 / (ALPHA_STEPS - 1) as f32
}

/// Albedo of a coat alone for light leaving at this cosine: importance sampled on a fixed grid.
pub fn directional_albedo(alpha: f32, index: f32, cos: f32) -> f32 {
    let out = Vec3::new((1.0 - cos * cos).max(0.0).sqrt(), 0.0, cos);
    let (n, mut sum) = (24, 0.0);
    for i in 0..n {
        for j in 0..n {
            let u = [(i as f32 + 0.5) / n as f32, (j as f32 + 0.5) / n as f32];
            let half = sample_visible_half(alpha, out, u);
            let into = half * (2.0 * out.dot(half)) - out;
            if into.z > 0.0 {
                let (shadow_out, shadow_in) = (ggx_lambda(alpha, out.z), ggx_lambda(alpha, into.z));
                // With visible normals the weight is F · G₂ / G₁.
                sum += fresnel_dielectric(index, out.dot(half).clamp(0.0, 1.0)) * (1.0 + shadow_out)
                    / (1.0 + shadow_out + shadow_in);
            }
        }
    }
    sum / (n * n) as f32
}

/// Draws a microfacet normal among those visible from `out`. Heitz 2018, JCGT 7(4), listing 1.
fn sample_visible_half(alpha: f32, out: Vec3, u: [f32; 2]) -> Vec3 {
    let stretched = Vec3::new(alpha * out.x, alpha * out.y, out.z).normalize();
    let across = Vec3::new(-stretched.y, stretched.x, 0.0)
        .try_normalize()
        .unwrap_or(Vec3::X);
    let along = stretched.cross(across);
    let radius = u[0].sqrt();
    let (sin, cos) = (2.0 * PI * u[1]).sin_cos();
    let (p, q) = (radius * cos, radius * sin);
    let lean = 0.5 * (1.0 + stretched.z);
    let q = (1.0 - lean) * (1.0 - p * p).max(0.0).sqrt() + lean * q;
    let n = across * p + along * q + stretched * (1.0 - p * p - q * q).max(0.0).sqrt();
    Vec3::new(alpha * n.x, alpha * n.y, n.z.max(1e-6)).normalize()
}

/// A view at a smaller cosine than this counts as one at it: the coat's terms are divided by it.
const FLATTEST_VIEW: f32 = 1e-4;

/// A surface point ready to scatter for one outgoing direction.
#[derive(Clone, Copy, Debug)]
pub struct Scatter {
    normal: Vec3,
    tangent: Vec3,
    bitangent: Vec3,
    out: Vec3,
    base: Spectrum,
    coat: Option<CoatState>,
}

#[derive(Clone, Copy, Debug)]
struct CoatState {
    alpha: f32,
    index: f32,
    /// First entry of this coat's row in the albedo table.
    row: usize,
    /// 1 − E(cos out), divided by 1 − mean albedo.
    through_out: f32,
    /// Share of samples that follow the coat.
    share: f32,
}

impl CoatState {
    fn new(alpha: f32, index: f32, cos_out: f32, base: f32) -> Self {
        let table = coat_albedo();
        let nearest = (0..INDICES.len())
            .min_by(|&a, &b| (INDICES[a] - index).abs().total_cmp(&(INDICES[b] - index).abs()))
            .unwrap_or(0);
        let step = (((alpha - SMOOTHEST) / (1.0 - SMOOTHEST) * (ALPHA_STEPS - 1) as f32)
            .round()
            .max(0.0) as usize)
            .min(ALPHA_STEPS - 1);
        let cell = nearest * ALPHA_STEPS + step;
        let row = cell * ALBEDO_STEPS;
        let albedo = row_albedo(row, cos_out);
        CoatState {
            alpha,
            index,
            row,
            through_out: (1.0 - albedo) / (1.0 - table.mean[cell]),
            share: (albedo / (albedo + (1.0 - albedo) * base).max(1e-6)).clamp(COAT_SHARE[0], COAT_SHARE[1]),
        }
    }

    #[inline]
    fn through_in(&self, cos_in: f32) -> f32 {
        1.0 - row_albedo(self.row, cos_in)
    }
}

/// Albedo of a table row, linear between its entries.
#[inline]
fn row_albedo(row: usize, cos: f32) -> f32 {
    let table = &coat_albedo().directional;
    let at = (cos * ALBEDO_STEPS as f32 - 0.5).clamp(0.0, (ALBEDO_STEPS - 1) as f32);
    let low = (at as usize).min(ALBEDO_STEPS - 2);
    let share = at - low as f32;
    table[row + low] * (1.0 - share) + table[row + low + 1] * share
}

/// Share of light that a coated or bare surface of this diffuse reflectance sends back in all.
pub(crate) fn hemispherical_reflectance(base: Spectrum, coat: Option<scene::Coat>) -> Spectrum {
    match coat {
        None => base,
        Some(coat) => {
            let state = CoatState::new(coat.roughness, coat.index, 1.0, 0.5);
            let mean = coat_albedo().mean[state.row / ALBEDO_STEPS];
            base * (1.0 - mean) + Spectrum::splat(mean)
        }
    }
}

impl Scatter {
    /// Prepares a point for light leaving along the unit direction `out`.
    #[inline]
    pub fn new(point: &SurfacePoint, out: Vec3) -> Self {
        let normal = point.normal;
        let (tangent, bitangent) = normal.any_orthonormal_pair();
        let coat = point
            .coat
            .map(|c| CoatState::new(c.roughness, c.index, normal.dot(out), point.reflectance.mean()));
        Scatter {
            normal,
            tangent,
            bitangent,
            out,
            base: point.reflectance,
            coat,
        }
    }

    /// Share of even light from all round that the coat alone sends along `out`; 0 without a coat.
    pub(crate) fn coat_share(&self) -> f32 {
        self.coat
            .map_or(0.0, |coat| row_albedo(coat.row, self.normal.dot(self.out)))
    }

    /// Bidirectional reflectance times the cosine of the incoming direction.
    #[inline]
    pub fn response(&self, into: Vec3) -> Spectrum {
        let cos_in = self.normal.dot(into);
        if cos_in <= 0.0 {
            return Spectrum::ZERO;
        }
        match &self.coat {
            None => self.base * (cos_in / PI),
            Some(coat) => {
                let base = self.base * (cos_in / PI * coat.through_out * coat.through_in(cos_in));
                base + Spectrum::splat(
                    cos_in * coat_brdf(coat.alpha, coat.index, self.normal, self.out, into),
                )
            }
        }
    }

    /// Radiance that the matt base sends out for an irradiance spread evenly over all directions.
    #[inline]
    pub(crate) fn spread(&self, irradiance: Spectrum) -> Spectrum {
        match &self.coat {
            None => self.base * irradiance * (1.0 / PI),
            Some(coat) => {
                let mean = coat_albedo().mean[coat.row / ALBEDO_STEPS];
                self.base * irradiance * (coat.through_out * (1.0 - mean) / PI)
            }
        }
    }

    /// The coat's part of [`Scatter::response`]; zero without a coat.
    #[inline]
    pub(crate) fn coat_response(&self, into: Vec3) -> f32 {
        let cos_in = self.normal.dot(into);
        match &self.coat {
            Some(coat) if cos_in > 0.0 => {
                cos_in * coat_brdf(coat.alpha, coat.index, self.normal, self.out, into)
            }
            _ => 0.0,
        }
    }

    /// Whether there is a coat.
    #[inline]
    pub(crate) fn is_coated(&self) -> bool {
        self.coat.is_some()
    }

    /// Density per steradian with which [`Scatter::sample`] draws a direction.
    #[inline]
    pub fn density(&self, into: Vec3) -> f32 {
        let cos_in = self.normal.dot(into);
        if cos_in <= 0.0 {
            return 0.0;
        }
        let matt = cos_in / PI;
        let Some(coat) = &self.coat else { return matt };
        let cos_out = self.normal.dot(self.out).max(FLATTEST_VIEW);
        let Some(half) = (self.out + into).try_normalize() else {
            return matt * (1.0 - coat.share);
        };
        let visible = ggx_distribution(coat.alpha, self.normal.dot(half))
            / (1.0 + ggx_lambda(coat.alpha, cos_out))
            / (4.0 * cos_out);
        matt * (1.0 - coat.share) + visible * coat.share
    }

    /// Draws an incoming direction in proportion to what matters. `u` are three numbers in 0..1.
    #[inline]
    pub fn sample(&self, u: [f32; 3]) -> Vec3 {
        let local = match &self.coat {
            Some(coat) if u[2] < coat.share => {
                let out = Vec3::new(
                    self.out.dot(self.tangent),
                    self.out.dot(self.bitangent),
                    self.out.dot(self.normal).max(FLATTEST_VIEW),
                );
                let half = sample_visible_half(coat.alpha, out.normalize(), [u[0], u[1]]);
                half * (2.0 * out.dot(half)) - out
            }
            _ => cosine_direction([u[0], u[1]]),
        };
        (self.tangent * local.x + self.bitangent * local.y + self.normal * local.z).normalize_or_zero()
    }
}

/// A direction about z with density cos θ / π.
#[inline]
pub(crate) fn cosine_direction(u: [f32; 2]) -> Vec3 {
    let radius = u[0].sqrt();
    let (sin, cos) = (2.0 * PI * u[1]).sin_cos();
    Vec3::new(radius * cos, radius * sin, (1.0 - u[0]).max(0.0).sqrt())
}

/// A direction uniform over the sphere.
#[inline]
pub(crate) fn sphere_direction(u: [f32; 2]) -> Vec3 {
    let z = 1.0 - 2.0 * u[0];
    let radius = (1.0 - z * z).max(0.0).sqrt();
    let (sin, cos) = (2.0 * PI * u[1]).sin_cos();
    Vec3::new(radius * cos, radius * sin, z)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn point(base: f32, coat: Option<scene::Coat>) -> SurfacePoint {
        SurfacePoint {
            position: Vec3::ZERO,
            start: Vec3::ZERO,
            flat: Vec3::Z,
            normal: Vec3::Z,
            reflectance: Spectrum::splat(base),
            coat,
            triangle: 0,
        }
    }

    /// White furnace: under uniform light a white base under any coat sends back all that arrives.
    #[test]
    fn a_white_coated_surface_keeps_all_light() {
        for (index, roughness) in [(1.4, 0.38), (1.5, 0.2), (1.376, 0.085), (1.55, 0.412)] {
            for cos in [0.98, 0.7, 0.4, 0.2] {
                let out = Vec3::new((1.0f32 - cos * cos).sqrt(), 0.0, cos);
                let scatter = Scatter::new(&point(1.0, Some(scene::Coat { index, roughness })), out);
                let (n, mut sum) = (200, 0.0);
                for i in 0..n {
                    for j in 0..n {
                        let u = [(i as f32 + 0.5) / n as f32, (j as f32 + 0.5) / n as f32];
                        for pick in [0.0, 0.9999] {
                            let into = scatter.sample([u[0], u[1], pick]);
                            let share = scatter.coat.unwrap().share;
                            let weight = if pick == 0.0 { share } else { 1.0 - share };
                            let density = scatter.density(into);
                            if density > 0.0 {
                                sum += weight * scatter.response(into).0[0] / density;
                            }
                        }
                    }
                }
                let albedo = sum / (n * n) as f32;
                assert!(
                    (albedo - 1.0).abs() < 0.02,
                    "n {index} α {roughness} cos {cos}: {albedo}"
                );
            }
        }
    }

    #[test]
    fn light_and_eye_can_be_exchanged() {
        let coat = Some(scene::Coat {
            index: 1.4,
            roughness: 0.38,
        });
        let (a, b) = (
            Vec3::new(0.5, 0.1, 0.8).normalize(),
            Vec3::new(-0.3, 0.6, 0.5).normalize(),
        );
        let forward = Scatter::new(&point(0.4, coat), a).response(b).0[3] / b.z;
        let backward = Scatter::new(&point(0.4, coat), b).response(a).0[3] / a.z;
        assert!((forward - backward).abs() < 1e-6, "{forward} {backward}");
    }
}
