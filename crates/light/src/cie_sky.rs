//! How bright a sky is from direction to direction: the CIE Standard General Sky (ISO 15469:2004, CIE S 011/E:2003) and the
//! older overcast sky, three times as bright overhead as at the horizon.

use crate::LightError;
use crate::atmosphere::smooth_step;
use glam::{DVec3, Vec3};
use std::f64::consts::{FRAC_PI_2, PI, TAU};
use std::ops::{Add, Mul};

/// a, b, c, d, e of the fifteen standard skies; a and b make the gradation from zenith to horizon, c, d, e the brightening
/// towards the sun.
const STANDARD: [[f64; 5]; 15] = [
    [4.0, -0.70, 0.0, -1.0, 0.0],
    [4.0, -0.70, 2.0, -1.5, 0.15],
    [1.1, -0.8, 0.0, -1.0, 0.0],
    [1.1, -0.8, 2.0, -1.5, 0.15],
    [0.0, -1.0, 0.0, -1.0, 0.0],
    [0.0, -1.0, 2.0, -1.5, 0.15],
    [0.0, -1.0, 5.0, -2.5, 0.30],
    [0.0, -1.0, 10.0, -3.0, 0.45],
    [-1.0, -0.55, 2.0, -1.5, 0.15],
    [-1.0, -0.55, 5.0, -2.5, 0.30],
    [-1.0, -0.55, 10.0, -3.0, 0.45],
    [-1.0, -0.32, 10.0, -3.0, 0.45],
    [-1.0, -0.32, 16.0, -3.0, 0.30],
    [-1.0, -0.15, 16.0, -3.0, 0.30],
    [-1.0, -0.15, 24.0, -2.8, 0.15],
];

/// From what height of the sun to what height its brightening fades, in degrees, and how much of it is lost (ours). Through the
/// long path of its last degrees the sun lights less and less of the air near it, and none once it has set; the standard
/// does not say so, and would make a face before a sun at 1° more than twice as bright as the spectral model that
/// the checks hold to.
const CORONA_FADES_DEG: [f64; 2] = [6.5, -6.0];
const CORONA_LOST: f64 = 0.9;

/// Optical depth of the air that scatters, as the gradation of the standard clear sky has it (b of type 12): overhead a
/// sky is nearly as thin as this, and at the horizon too thick to see through.
const THIN_DEPTH: f64 = 0.32;

/// Which sky.
///
/// ```
/// use light::SkyKind;
/// assert_eq!(SkyKind::standard(12)?.number(), 12);
/// assert!(SkyKind::standard(17).is_err());
/// # Ok::<(), light::LightError>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct SkyKind(u8);

impl SkyKind {
    /// The traditional overcast sky, (1 + 2 sin γ) / 3 (Moon & Spencer 1942); here kind 16.
    pub const TRADITIONAL_OVERCAST: Self = Self(16);

    /// A sky of the standard by its number, 1 to 15, or 16 for the traditional overcast sky.
    ///
    /// # Errors
    /// Refuses other numbers.
    pub fn standard(number: u8) -> Result<Self, LightError> {
        if (1..=16).contains(&number) {
            Ok(Self(number))
        } else {
            Err(LightError::NoSuchSky(number))
        }
    }

    /// Its number.
    pub const fn number(self) -> u8 {
        self.0
    }

    /// What the standard calls it.
    pub const fn description(self) -> &'static str {
        match self.0 {
            1 => "overcast, steep gradation",
            2 => "overcast, steep gradation, slightly brighter towards the sun",
            3 => "overcast, moderately graded",
            4 => "overcast, moderately graded, slightly brighter towards the sun",
            5 => "uniform",
            6 => "partly cloudy, no gradation, slightly brighter towards the sun",
            7 => "partly cloudy, no gradation, brighter around the sun",
            8 => "partly cloudy, no gradation, distinct corona",
            9 => "partly cloudy, sun obscured",
            10 => "partly cloudy, brighter around the sun",
            11 => "white-blue, distinct corona",
            12 => "clear, low turbidity",
            13 => "clear, polluted air",
            14 => "cloudless and turbid, broad corona",
            15 => "white-blue and turbid, broad corona",
            _ => "traditional overcast, 1 to 3",
        }
    }
}

/// The pattern of a sky over its directions, for one place of the sun.
///
/// x is east, y north, z up. The standard says nothing of twilight. A sun below the horizon counts as on it, because the glow
/// stays over the place where it went down, and the brightening towards it fades to a fifth at −6° (ours: without the
/// disc behind it the corona is gone, and a metered dusk is that much more even).
///
/// ```
/// use glam::Vec3;
/// use light::{CieSky, SkyKind};
/// let overcast = CieSky::new(SkyKind::TRADITIONAL_OVERCAST, Vec3::Z);
/// assert!((overcast.relative(Vec3::X) - 1.0 / 3.0).abs() < 1e-6);
/// // 7π/9, Moon & Spencer 1942.
/// assert!((overcast.horizontal_over_zenith() - 2.4435).abs() < 1e-3);
/// ```
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct CieSky {
    kind: SkyKind,
    sun: DVec3,
    /// How much of the brightening towards the sun is left, 1 while it is well up.
    corona: f64,
    /// Gradation times indicatrix at the zenith.
    zenith: f64,
}

impl CieSky {
    /// A sky with the sun in a direction, which need not be of unit length.
    pub fn new(kind: SkyKind, sun: Vec3) -> Self {
        let sun = sun.as_dvec3().normalize_or(DVec3::Z);
        let sunk = CORONA_FADES_DEG[0] - sun.z.asin().to_degrees();
        let corona = 1.0 - CORONA_LOST * smooth_step(sunk / (CORONA_FADES_DEG[0] - CORONA_FADES_DEG[1]));
        let flat = DVec3::new(sun.x, sun.y, 0.0);
        let sun = if sun.z < 0.0 {
            flat.normalize_or(DVec3::Y)
        } else {
            sun
        };
        let mut sky = Self {
            kind,
            sun,
            corona,
            zenith: 1.0,
        };
        sky.zenith = sky.unscaled(0.0, sun.z.clamp(-1.0, 1.0).acos());
        sky
    }

    /// Which sky it is.
    pub const fn kind(&self) -> SkyKind {
        self.kind
    }

    /// Luminance in a direction over luminance of the zenith; 0 below the horizon.
    pub fn relative(&self, towards: Vec3) -> f32 {
        self.relative_exactly(towards.as_dvec3().normalize_or_zero()) as f32
    }

    fn relative_exactly(&self, towards: DVec3) -> f64 {
        if towards.z < 0.0 || towards == DVec3::ZERO {
            return 0.0;
        }
        let from_sun = towards.dot(self.sun).clamp(-1.0, 1.0).acos();
        self.relative_at(towards.z.min(1.0).acos(), from_sun)
    }

    /// Luminance over luminance of the zenith, by the angle from the zenith (0 to π/2) and from the sun, in radians.
    pub fn relative_at(&self, from_zenith: f64, from_sun: f64) -> f64 {
        self.unscaled(from_zenith, from_sun) / self.zenith
    }

    fn unscaled(&self, from_zenith: f64, from_sun: f64) -> f64 {
        self.gradation_and_corona(from_zenith, from_sun).0
    }

    /// Gradation times indicatrix, and how much of it is the brightening about the sun.
    fn gradation_and_corona(&self, from_zenith: f64, from_sun: f64) -> (f64, f64) {
        let Some([a, b, c, d, e]) = STANDARD.get(usize::from(self.kind.0) - 1) else {
            return ((1.0 + 2.0 * from_zenith.cos()) / 3.0, 0.0);
        };
        // At the horizon the exponent is minus infinity and the gradation 1, as the standard says.
        let upright = from_zenith.cos().max(1e-9);
        let gradation = 1.0 + a * (b / upright).exp();
        let bright = c * (d * from_sun).exp();
        let indicatrix =
            1.0 + self.corona * (bright - c * (d * FRAC_PI_2).exp() + e * from_sun.cos().powi(2));
        // The clear skies end at exactly nothing where their formula does; a rounding error below would not do.
        let whole = (gradation * indicatrix).max(0.0);
        (whole, (gradation * self.corona * bright).clamp(0.0, whole))
    }

    /// Luminance in a direction over luminance of the zenith, in its three parts; nothing below the horizon.
    pub(crate) fn parts(&self, towards: DVec3) -> SkyParts<f64> {
        if towards.z < 0.0 || towards == DVec3::ZERO {
            return SkyParts::default();
        }
        let from_sun = towards.dot(self.sun).clamp(-1.0, 1.0).acos();
        let (whole, aureole) = self.gradation_and_corona(towards.z.min(1.0).acos(), from_sun);
        let depth = THIN_DEPTH / towards.z.clamp(1e-3, 1.0);
        // Of 1 − exp(−x), the light scattered along a path of depth x, the part x·exp(−x) has met nothing else.
        let thin = depth / depth.exp_m1();
        let rest = whole - aureole;
        SkyParts {
            aureole: aureole / self.zenith,
            thin: rest * thin / self.zenith,
            thick: rest * (1.0 - thin) / self.zenith,
        }
    }

    /// Illuminance of the ground over luminance of the zenith, in steradians.
    pub fn horizontal_over_zenith(&self) -> f32 {
        self.plane_over_zenith(Vec3::Z)
    }

    /// Illuminance of a plane facing a direction over luminance of the zenith, in steradians.
    ///
    /// By the midpoint rule over 60 heights and 120 bearings, counted from the sun's so that its peak does not depend on the
    /// bearing: within 0.1 % for every sky.
    pub fn plane_over_zenith(&self, facing: Vec3) -> f32 {
        self.over_plane(facing, |towards| self.relative_exactly(towards)) as f32
    }

    /// The same, part by part.
    pub(crate) fn plane_parts(&self, facing: Vec3) -> SkyParts<f64> {
        self.over_plane(facing, |towards| self.parts(towards))
    }

    fn over_plane<T>(&self, facing: Vec3, luminance: impl Fn(DVec3) -> T) -> T
    where
        T: Default + Add<Output = T> + Mul<f64, Output = T>,
    {
        const HEIGHTS: usize = 60;
        const BEARINGS: usize = 120;
        let facing = facing.as_dvec3().normalize_or(DVec3::Z);
        let sun_bearing = self.sun.y.atan2(self.sun.x);
        let mut sum = T::default();
        for height in 0..HEIGHTS {
            let elevation = (height as f64 + 0.5) / HEIGHTS as f64 * FRAC_PI_2;
            let (up, level) = elevation.sin_cos();
            let mut ring = T::default();
            for bearing in 0..BEARINGS {
                let (sin, cos) = (sun_bearing + (bearing as f64 + 0.5) / BEARINGS as f64 * TAU).sin_cos();
                let towards = DVec3::new(cos * level, sin * level, up);
                let received = towards.dot(facing);
                if received > 0.0 {
                    ring = ring + luminance(towards) * received;
                }
            }
            sum = sum + ring * level;
        }
        sum * ((FRAC_PI_2 / HEIGHTS as f64) * (2.0 * PI / BEARINGS as f64))
    }
}

/// A clear sky's light in three parts, which differ in colour: what is scattered about the sun; what the thin air overhead
/// scatters once; and what comes through so much air, near the horizon, that it has been scattered again and again.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub(crate) struct SkyParts<T> {
    pub aureole: T,
    pub thin: T,
    pub thick: T,
}

impl Add for SkyParts<f64> {
    type Output = Self;

    fn add(self, other: Self) -> Self {
        Self {
            aureole: self.aureole + other.aureole,
            thin: self.thin + other.thin,
            thick: self.thick + other.thick,
        }
    }
}

impl Mul<f64> for SkyParts<f64> {
    type Output = Self;

    fn mul(self, by: f64) -> Self {
        Self {
            aureole: self.aureole * by,
            thin: self.thin * by,
            thick: self.thick * by,
        }
    }
}
