//! A sky's light: how bright it is from direction to direction, and how its colour changes across it.

use crate::CieSky;
use crate::atmosphere::{Haze, beam_depth, rayleigh_optical_depth};
use crate::cie_sky::SkyParts;
use colour::bands::centre_nm;
use colour::{BANDS, LightColour, Spectrum};
use glam::{DVec3, Vec3};

/// A sky that gives open ground 1 lx, with a spectrum for each direction.
///
/// Spectra are relative to the colour of the sky's light on the ground: over the whole sky, as the ground sees it, each band
/// comes to 1, and in each direction their luminous mean is the standard's luminance.
///
/// ```
/// use glam::Vec3;
/// use light::{Daylight, Sun, Weather};
/// let low = Daylight::new(&Sun::somewhere(90.0, 4.0), None, Weather::Clear, None);
/// let (to, from) = (low.sky.radiance(Vec3::new(1.0, 0.0, 0.1)), low.sky.radiance(Vec3::new(-1.0, 0.0, 0.1)));
/// // Redder towards the sun.
/// assert!(to.0[15] / to.0[0] > 2.0 * from.0[15] / from.0[0]);
/// ```
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SkyLight {
    pattern: CieSky,
    /// Luminance of the zenith over illuminance of the ground.
    zenith: f64,
    /// Spectrum of each part; none where the whole sky has one colour.
    tints: Option<SkyParts<Spectrum>>,
}

impl From<CieSky> for SkyLight {
    /// A sky of one colour.
    fn from(pattern: CieSky) -> Self {
        Self {
            pattern,
            zenith: 1.0 / f64::from(pattern.horizontal_over_zenith()),
            tints: None,
        }
    }
}

/// How much redder the aureole is than the sky, in paths of the sun's beam: 1 would be the sky's light dimmed as the beam
/// is. Ours, chosen with [`WHITENING`] so that faces turned to a low sun and away from it have the colours of the spectral model
/// (`tests/checks/low_sun.rs`).
const REDDENING: f64 = 2.0;

/// How much bluer the thin sky overhead is than the thick sky at the horizon, as a power of the optical depth that
/// scatters: under a low sun, whose light is red where the path is long, and under a high one. By single scattering
/// alone it is 1.
const WHITENING: [f64; 2] = [3.4, 0.35];

/// Heights of the sun between which the one goes over into the other, in degrees.
const WHITENING_DEG: [f64; 2] = [1.5, 23.0];

/// Below this height of the sun the colours of the sky's parts no longer change against each other, in degrees.
const LOWEST_DEG: f64 = 1.0;

/// What makes the parts of a clear sky differ in colour.
pub(crate) struct ClearAir {
    /// Where the sun seems to stand.
    pub sun_deg: f64,
    /// The haze.
    pub haze: Haze,
    /// How much of the differences is left under this weather and at this hour, 0 to 1.
    pub left: f64,
}

impl SkyLight {
    /// A sky of a pattern whose light on the ground has a colour.
    pub(crate) fn coloured(pattern: CieSky, ground: &LightColour, air: &ClearAir) -> Self {
        let parts = pattern.plane_parts(Vec3::Z);
        let horizontal = parts.aureole + parts.thin + parts.thick;
        let weights = ground.luminous_weights();
        let at = air.sun_deg.max(LOWEST_DEG);
        let lowness = 1.0
            - crate::atmosphere::smooth_step((at - WHITENING_DEG[0]) / (WHITENING_DEG[1] - WHITENING_DEG[0]));
        let whitening = WHITENING[1] + (WHITENING[0] - WHITENING[1]) * lowness;
        let aureole = divided(&weights, parts.aureole / horizontal, |nm| {
            -REDDENING * air.left * beam_depth(at, air.haze, nm)
        });
        let rest = Spectrum::ONE - aureole;
        let above = (parts.thin + parts.thick).max(f64::MIN_POSITIVE);
        let thin = divided(&(weights * rest), parts.thin / above, |nm| {
            whitening * air.left * (rayleigh_optical_depth(nm) + air.haze.depth(nm)).ln()
        });
        // A part that the sky does not have gives nothing, whatever its colour.
        let tint = |light: Spectrum, part: f64| {
            if part > 0.0 {
                light * (horizontal / part) as f32
            } else {
                Spectrum::ONE
            }
        };
        Self {
            pattern,
            zenith: 1.0 / horizontal,
            tints: Some(SkyParts {
                aureole: tint(aureole, parts.aureole),
                thin: tint(rest * thin, parts.thin),
                thick: tint(rest * (Spectrum::ONE - thin), parts.thick),
            }),
        }
    }

    /// Its luminances.
    pub const fn pattern(&self) -> &CieSky {
        &self.pattern
    }

    /// The same sky seen from a place that is turned: the sun, as high as before, stands in another direction.
    #[must_use]
    pub fn with_sun(self, sun: Vec3) -> Self {
        Self {
            pattern: CieSky::new(self.pattern.kind(), sun),
            ..self
        }
    }

    /// Radiance in a direction; nothing below the horizon.
    pub fn radiance(&self, towards: Vec3) -> Spectrum {
        match &self.tints {
            None => Spectrum::splat(self.pattern.relative(towards) * self.zenith as f32),
            Some(tints) => self.tinted(
                tints,
                self.pattern.parts(towards.as_dvec3().normalize_or(DVec3::ZERO)),
            ),
        }
    }

    /// Irradiance of a plane that faces a direction, from the sky alone.
    pub fn on_plane(&self, facing: Vec3) -> Spectrum {
        match &self.tints {
            None => Spectrum::splat(self.pattern.plane_over_zenith(facing) * self.zenith as f32),
            Some(tints) => self.tinted(tints, self.pattern.plane_parts(facing)),
        }
    }

    fn tinted(&self, tints: &SkyParts<Spectrum>, parts: SkyParts<f64>) -> Spectrum {
        let amount = |part: f64| (part * self.zenith) as f32;
        tints.aureole * amount(parts.aureole)
            + tints.thin * amount(parts.thin)
            + tints.thick * amount(parts.thick)
    }
}

/// The part of each band that goes to one of two lights, whose odds follow a curve and whose luminous share is given.
///
/// With odds neither light can take more than there is, whatever the curve.
fn divided(weights: &Spectrum, share: f64, log_odds: impl Fn(f64) -> f64) -> Spectrum {
    let odds: [f64; BANDS] = std::array::from_fn(|band| log_odds(centre_nm(band)));
    let part = |lift: f64| Spectrum::from_fn(|band| (1.0 / (1.0 + (-(odds[band] + lift)).exp())) as f32);
    let whole = f64::from(weights.sum());
    let found = |lift: f64| f64::from(weights.dot(&part(lift))) / whole;
    let (mut low, mut high) = (-200.0, 200.0);
    for _ in 0..60 {
        let middle = 0.5 * (low + high);
        if found(middle) < share {
            low = middle;
        } else {
            high = middle;
        }
    }
    part(0.5 * (low + high))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{Daylight, Sun, Weather};

    #[test]
    fn the_parts_add_up_to_the_ground_and_to_the_standard() {
        for (elevation, weather) in [
            (-4.0, Weather::Clear),
            (1.0, Weather::Clear),
            (6.0, Weather::Hazy),
            (40.0, Weather::Clear),
        ] {
            let day = Daylight::new(&Sun::somewhere(200.0, elevation), None, weather, None);
            let ground = day.sky.on_plane(Vec3::Z);
            for band in ground.0 {
                assert!((band - 1.0).abs() < 1e-3, "{elevation}: {band}");
            }
            for facing in [Vec3::X, Vec3::NEG_Y, Vec3::new(0.3, 0.5, 0.2)] {
                let luminous = day.sky_colour.luminous(&day.sky.on_plane(facing));
                let pattern = day.sky.pattern();
                let expected = pattern.plane_over_zenith(facing) / pattern.horizontal_over_zenith();
                assert!(
                    (luminous / expected - 1.0).abs() < 1e-3,
                    "{elevation}: {luminous} {expected}"
                );
                assert!(day.sky.radiance(facing).min() > 0.0);
            }
        }
    }

    #[test]
    fn an_overcast_sky_has_one_colour() {
        let day = Daylight::new(&Sun::somewhere(200.0, 30.0), None, Weather::BrightOvercast, None);
        for band in day.sky.radiance(Vec3::new(0.5, 0.1, 0.4)).0.windows(2) {
            assert!((band[0] / band[1] - 1.0).abs() < 1e-4);
        }
    }
}
