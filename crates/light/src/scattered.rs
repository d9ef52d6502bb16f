//! What a clear sky sends to level ground, by wavelength: the simple spectral model of Bird & Riordan.

use crate::atmosphere::{
    Haze, air_mass, beam_depth, direct_beam, extraterrestrial_beam, ozone_depth, ozone_mass,
    rayleigh_optical_depth,
};
use colour::SpectralCurve;

/// Share of what haze takes from a beam that it scatters and does not swallow, at 400 nm; how that falls with wavelength;
/// and the mean cosine of the scattering: rural haze (Bird & Riordan 1986).
const SCATTERS_400_NM: f64 = 0.945;
const SCATTERS_LESS: f64 = 0.095;
const MEAN_COSINE: f64 = 0.65;

/// The ground that sends light back into the sky: middle grey (ours).
const GROUND: f64 = 0.18;

/// Air masses on the mean path of light that the sky sends back down (Bird & Riordan 1986, eq. 3-8).
const DIFFUSE_MASS: f64 = 1.8;

/// Where the model ends: its air lies in flat layers, so that its sky goes dark as the sun comes to the horizon.
const LOWEST_DEG: f64 = 0.5;

/// A clear sky's light on level ground for a sun at an apparent elevation, in W m⁻² nm⁻¹ at 360 to 830 nm, at the sun's mean
/// distance; below half a degree, that of half a degree.
///
/// Bird & Riordan 1986 (Journal of Climate and Applied Meteorology 25, 87; SERI/TR-215-2436), eq. 3-1 and 3-5 to 3-17. Water
/// vapour and oxygen are left out, as in [`direct_beam`].
pub fn scattered_light(apparent_elevation_deg: f64, haze: Haze) -> SpectralCurve {
    let sky = ClearSky::new(apparent_elevation_deg, haze);
    extraterrestrial_beam()
        .map(|nm, power| power * sky.share(nm))
        .expect("a sky's light is finite")
}

/// Illuminance of level ground under sun and clear sky by this model, in lux.
pub(crate) fn modelled_horizontal_lx(apparent_elevation_deg: f64, haze: Haze) -> f64 {
    let at = apparent_elevation_deg.max(LOWEST_DEG);
    direct_beam(at, haze).luminous_flux() * at.to_radians().sin() + scattered_light(at, haze).luminous_flux()
}

struct ClearSky {
    elevation_deg: f64,
    haze: Haze,
    sine: f64,
    mass: f64,
    /// Share of what haze scatters that goes on downward: of the beam, and of light on the mean path.
    forward: f64,
    forward_diffuse: f64,
}

impl ClearSky {
    fn new(apparent_elevation_deg: f64, haze: Haze) -> Self {
        let elevation_deg = apparent_elevation_deg.clamp(LOWEST_DEG, 90.0);
        let sine = elevation_deg.to_radians().sin();
        let forward = |cosine: f64| {
            let g = (1.0 - MEAN_COSINE).ln();
            let a = g * (1.459 + g * (0.1595 + g * 0.4129));
            let b = g * (0.0783 + g * (-0.3824 - g * 0.5874));
            1.0 - 0.5 * ((a + b * cosine) * cosine).exp()
        };
        Self {
            elevation_deg,
            haze,
            sine,
            mass: air_mass(elevation_deg),
            forward: forward(sine),
            forward_diffuse: forward(1.0 / DIFFUSE_MASS),
        }
    }

    /// Part of the sunlight above the air that the sky sends to level ground.
    fn share(&self, nm: f64) -> f64 {
        let (rayleigh, haze) = (rayleigh_optical_depth(nm), self.haze.depth(nm));
        let scatters = SCATTERS_400_NM * (-SCATTERS_LESS * (nm / 400.0).ln().powi(2)).exp();
        let through = |depth: f64, mass: f64| (-depth * mass).exp();
        let left = |mass: f64| {
            (
                through(rayleigh, mass),
                through(scatters * haze, mass),
                through((1.0 - scatters) * haze, mass),
            )
        };
        let (clear, scattered, swallowed) = left(self.mass);
        let arriving = self.sine * through(ozone_depth(nm), ozone_mass(self.elevation_deg)) * swallowed;
        let by_air = arriving * 0.5 * (1.0 - clear.powf(0.95));
        let by_haze = arriving * clear.powf(1.5) * (1.0 - scattered) * self.forward;
        let straight = self.sine * (-beam_depth(self.elevation_deg, self.haze, nm)).exp();
        let (clear, scattered, swallowed) = left(DIFFUSE_MASS);
        let back =
            swallowed * (0.5 * (1.0 - clear) + (1.0 - self.forward_diffuse) * clear * (1.0 - scattered));
        let from_ground = (straight + by_air + by_haze) * back * GROUND / (1.0 - back * GROUND);
        // Eq. 3-17: what the simple sum lacks below 450 nm.
        let violet = if nm < 450.0 {
            ((nm + 550.0) / 1000.0).powf(1.8)
        } else {
            1.0
        };
        (by_air + by_haze + from_ground) * violet
    }
}
