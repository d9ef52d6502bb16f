//! Sun, sky and moon as lights: how much from where, in which colour, from noon to night.
//!
//! Three published models meet here. Above 20° of the sun levels are those of the IES ([`IesDaylight`]). Below 10° sun and
//! sky together are those of the Explanatory Supplement ([`crate::clear_horizontal_lx`]), and the beam within is
//! that of the spectrum ([`crate::direct_beam`]), so that its strength and its colour agree. From 10° to 20° one goes
//! over into the other smoothly, in stops. The clear sky's colour on the ground is Bird & Riordan's
//! ([`crate::scattered_light`]); how it is spread is told by [`SkyLight`]. The joining is ours, and so are the colours of dusk.

use crate::atmosphere::{Haze, air_mass, direct_beam, refraction_deg, smooth_step};
use crate::scattered::{modelled_horizontal_lx, scattered_light};
use crate::sky_light::ClearAir;
use crate::solar::direction;
use crate::weather::DesignSky;
use crate::{Air, CieSky, Moon, Shade, SkyKind, SkyLight, Sun, Weather, clear_horizontal_lx};
use colour::{LightColour, SpectralCurve, Spectrum, Xyz, cct_duv, daylight_curve};
use glam::{DVec3, Vec3};
use units::{Degrees, Illuminance, Kelvin, Luminance, Stops};

/// What stars and airglow leave on the ground of a clear night without a moon, in lux (Janiczek & DeYoung 1987, USNO Circular
/// 171).
pub const NIGHT_FLOOR_LX: f64 = 0.0005;

/// Illuminance of the sun above the air in lux, as the IES takes it.
const IES_EXTRATERRESTRIAL_LX: f64 = 127_500.0;

/// Daylight of the IES's design days: mean values, of which an instant can be half or twice.
///
/// IES Committee on Calculation Procedures 1984, Journal of the Illuminating Engineering Society 13(4), 381. From 3° of
/// altitude to the zenith; lower the path through the air is no longer 1/sin h.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct IesDaylight {
    /// Sun alone, on a surface that faces it.
    pub direct_normal: Illuminance,
    /// Sky alone, on the ground.
    pub sky_horizontal: Illuminance,
    /// Sun and sky on the ground.
    pub horizontal: Illuminance,
}

impl IesDaylight {
    /// At an altitude of the sun, at its mean distance or on a day of the year (1 to 366); `None` outside 3° to 90°.
    ///
    /// ```
    /// use light::{IesDaylight, Weather};
    /// let altitude = units::Degrees::new(40.0)?;
    /// let noon = IesDaylight::at(Weather::Clear, altitude, None).expect("the sun is up");
    /// assert!((noon.horizontal.value() - 72_341.31).abs() < 0.01);
    /// # Ok::<(), units::UnitError>(())
    /// ```
    pub fn at(weather: Weather, sun_altitude: Degrees, day_of_year: Option<u16>) -> Option<Self> {
        if !(3.0..=90.0).contains(&sun_altitude.value()) {
            return None;
        }
        let nearer = day_of_year.map_or(1.0, |day| {
            1.0 + 0.034 * (std::f64::consts::TAU * (f64::from(day) - 2.0) / 365.0).cos()
        });
        let sine = sun_altitude.radians().sin();
        let design = weather.design();
        let direct_normal = Illuminance(IES_EXTRATERRESTRIAL_LX * nearer * dimming(&design, 1.0 / sine));
        let sky_horizontal = Illuminance(design_sky_lx(&design, sine));
        Some(Self {
            direct_normal,
            sky_horizontal,
            horizontal: direct_normal * sine + sky_horizontal,
        })
    }
}

fn dimming(design: &DesignSky, air_mass: f64) -> f64 {
    design.depth.map_or(0.0, |depth| (-depth * air_mass).exp())
}

fn design_sky_lx(design: &DesignSky, sine: f64) -> f64 {
    let [a, b, c] = design.sky_klx;
    1000.0 * (a + b * sine.powf(c))
}

/// The light of sun, sky and moon at one moment.
///
/// ```
/// use light::{Daylight, Sun, Weather};
/// let low = Daylight::new(&Sun::somewhere(240.0, 5.0), None, Weather::Clear, None);
/// // On the ground: the Explanatory Supplement's 4499 lx.
/// assert!((low.horizontal().value() / 4499.0 - 1.0).abs() < 0.01);
/// ```
#[derive(Clone, Debug, PartialEq)]
pub struct Daylight {
    /// The weather that was assumed.
    pub weather: Weather,
    /// Where the sun stands.
    pub sun: Sun,
    /// The sun on a surface that faces it; nothing once it has set.
    pub sun_normal: Illuminance,
    /// The sky on open level ground, moonlit air and stars included.
    pub sky_horizontal: Illuminance,
    /// The moon on a surface that faces it.
    pub moon_normal: Illuminance,
    /// Colour of the sun's beam.
    pub sun_colour: LightColour,
    /// Colour of the sky's light on the ground.
    pub sky_colour: LightColour,
    /// Colour of the moon's beam.
    pub moon_colour: LightColour,
    /// How the sky's light is spread, in brightness and in colour.
    pub sky: SkyLight,
    /// One standard deviation of a level given here.
    pub spread: Stops,
    /// Unit vector towards the moon as it looks: x east, y north, z up; straight down without a moon.
    pub moon_direction: DVec3,
    sun_curve: SpectralCurve,
    sky_curve: SpectralCurve,
}

/// Light on an upright surface.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Upright {
    /// From the sun alone.
    pub sun: Illuminance,
    /// From the sky alone.
    pub sky: Illuminance,
    /// From the moon alone.
    pub moon: Illuminance,
    /// Sent back by the ground.
    pub ground: Illuminance,
    /// All of it, with Y in lux.
    pub xyz: Xyz,
}

impl Upright {
    /// All of it.
    pub fn total(&self) -> Illuminance {
        self.sun + self.sky + self.moon + self.ground
    }

    /// Colour temperature of all of it; none if it is too far from white to have one.
    pub fn colour_temperature(&self) -> Option<Kelvin> {
        Some(cct_duv(self.xyz.chromaticity()?)?.0)
    }
}

/// Light in a shaded place.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Shaded {
    /// On level ground.
    pub horizontal: Illuminance,
    /// Its colour.
    pub colour: LightColour,
}

impl Daylight {
    /// From where sun and moon stand, and the weather; `kind` replaces the weather's usual pattern of the sky.
    pub fn new(sun: &Sun, moon: Option<&Moon>, weather: Weather, kind: Option<SkyKind>) -> Self {
        let nearer = sun.distance_au.powi(-2);
        let split = Split::of(sun.elevation_deg, sun.apparent_elevation_deg, weather);
        let sun_lx = split.beam_lx * nearer * sun.disc_above_horizon();
        let hidden = split.beam_lx * (1.0 - sun.disc_above_horizon()) * split.sine;
        let dusk_lx = (split.sky_lx + hidden) * nearer;
        let floor_lx = NIGHT_FLOOR_LX / weather.low_sun_divisor();
        let moonlight = moon.map_or_else(Moonlight::none, |moon| Moonlight::of(moon, weather));
        // Where dusk falls below the stars' light the two do not simply add: the fit of dusk contains some of it.
        let unlit_lx = dusk_lx.hypot(floor_lx);
        let sky_curve = mixed(&[
            (unlit_lx - floor_lx, &sky_curve(sun, weather)),
            (floor_lx, &of_kelvin(NIGHT_K)),
            (moonlight.sky_lx, &of_kelvin(MOONLIT_AIR_K)),
        ]);
        let sun_curve = split.beam_curve;
        let sky_colour = colour_of(&sky_curve);
        let pattern = CieSky::new(kind.unwrap_or(weather.usual_sky()), sun.direction().as_vec3());
        let air = ClearAir {
            sun_deg: sun.apparent_elevation_deg,
            haze: haze_at(sun.elevation_deg),
            // The glow of the sunset is gone by the end of civil twilight, and the blue hour is blue all round (ours).
            left: blue_by_day(weather) * smooth_step((sun.elevation_deg + 6.0) / 6.0),
        };
        Self {
            weather,
            sun: *sun,
            sun_normal: Illuminance(sun_lx),
            sky_horizontal: Illuminance(unlit_lx + moonlight.sky_lx),
            moon_normal: Illuminance(moonlight.normal_lx),
            sun_colour: colour_of(&sun_curve),
            sky_colour,
            moon_colour: colour_of(&moonlight.curve),
            sky: SkyLight::coloured(pattern, &sky_colour, &air),
            spread: weather.spread() + Stops(0.3 * smooth_step(-sun.elevation_deg / 12.0)),
            moon_direction: moonlight.direction,
            sun_curve,
            sky_curve,
        }
    }

    /// The same with something in the sun's way: shade under an open sky.
    #[must_use]
    pub fn without_sun(self) -> Self {
        Self {
            sun_normal: Illuminance(0.0),
            ..self
        }
    }

    /// Sun, sky and moon on open level ground.
    pub fn horizontal(&self) -> Illuminance {
        self.sun_horizontal() + self.sky_horizontal + self.moon_horizontal()
    }

    fn sun_horizontal(&self) -> Illuminance {
        self.sun_normal * self.sun.direction().z.max(0.0)
    }

    fn moon_horizontal(&self) -> Illuminance {
        self.moon_normal * self.moon_direction.z.max(0.0)
    }

    /// Luminance of the sky in a direction (x east, y north, z up); nothing below the horizon.
    pub fn sky_luminance(&self, towards: Vec3) -> Luminance {
        let luminous = self.sky_colour.luminous(&self.sky.radiance(towards));
        Luminance(self.sky_horizontal.value() * f64::from(luminous))
    }

    /// Light on an upright surface that faces a bearing, standing free on ground of a reflectance.
    pub fn upright(&self, facing_deg: f64, ground: &Spectrum) -> Upright {
        let facing = direction(facing_deg, 0.0);
        let seen = self.sky_colour.xyz(&self.sky.on_plane(facing.as_vec3()));
        let sun = self.sun_normal * self.sun.direction().dot(facing).max(0.0);
        let moon = self.moon_normal * self.moon_direction.dot(facing).max(0.0);
        let sky = self.sky_horizontal * seen.y;
        // An upright surface sees the ground fill half its view: half of what the ground sends back.
        let returned = (self.sun_colour.xyz(ground) * self.sun_horizontal().value()
            + self.sky_colour.xyz(ground) * self.sky_horizontal.value()
            + self.moon_colour.xyz(ground) * self.moon_horizontal().value())
            * 0.5;
        let xyz = self.sun_colour.white() * sun.value()
            + seen * self.sky_horizontal.value()
            + self.moon_colour.white() * moon.value()
            + returned;
        Upright {
            sun,
            sky,
            moon,
            ground: Illuminance(returned.y),
            xyz,
        }
    }

    /// Light in the shade.
    pub fn in_shade(&self, shade: Shade) -> Shaded {
        let [of_sky, thrown_back, through_leaves] = shade.shares();
        let (sun_lx, sky_lx) = (self.sun_horizontal().value(), self.sky_horizontal.value());
        let parts: [(f64, &SpectralCurve); 4] = [
            (sky_lx * (of_sky + thrown_back), &self.sky_curve),
            (sun_lx * thrown_back, &self.sun_curve),
            (sky_lx * through_leaves, &leaf_lit(&self.sky_curve)),
            (sun_lx * through_leaves, &leaf_lit(&self.sun_curve)),
        ];
        Shaded {
            horizontal: Illuminance(parts.iter().map(|(lx, _)| lx).sum()),
            colour: colour_of(&mixed(&parts)),
        }
    }
}

/// How far the IES's day has taken over from the low sun.
fn high_day(elevation_deg: f64) -> f64 {
    smooth_step((elevation_deg - 10.0) / 10.0)
}

/// Haze of the IES's clear day: the light of its sky is that of the spectral model with so much (ours: 0.10 by its level at
/// noon, and a little more for the same colour as ordinary air).
const HIGH_DAY_HAZE: Haze = Haze {
    depth_500_nm: 0.15,
    exponent: 1.14,
};

/// Haze that gives beam and sky of a height of the sun their colours.
fn haze_at(elevation_deg: f64) -> Haze {
    let (low, high, day) = (Haze::default(), HIGH_DAY_HAZE, high_day(elevation_deg));
    let between = |low: f64, high: f64| low + (high - low) * day;
    Haze {
        depth_500_nm: between(low.depth_500_nm, high.depth_500_nm),
        exponent: between(low.exponent, high.exponent),
    }
}

/// The sun's beam and its sky at mean distance.
struct Split {
    /// On a surface facing the sun, the whole disc over the horizon.
    beam_lx: f64,
    /// On the ground.
    sky_lx: f64,
    /// How much of the beam falls on the ground: sine of the apparent elevation, not below 0.
    sine: f64,
    /// Colour of the beam: its spectrum in clear air.
    beam_curve: SpectralCurve,
}

impl Split {
    fn of(elevation_deg: f64, apparent_deg: f64, weather: Weather) -> Self {
        let design = weather.design();
        let mass = air_mass(apparent_deg);
        let sine = apparent_deg.to_radians().sin().max(0.0);
        // What this weather takes from a clear day's beam.
        let clear_depth = Weather::Clear.design().depth.unwrap_or_default();
        let taken = design
            .depth
            .map_or(0.0, |depth| (-(depth - clear_depth) * mass).exp());
        let beam_curve = direct_beam(apparent_deg, haze_at(elevation_deg));
        let low_beam = direct_beam(apparent_deg, Haze::default()).luminous_flux() * taken;
        let low_total = low_total_lx(elevation_deg, apparent_deg) / weather.low_sun_divisor();
        let day = high_day(elevation_deg);
        if day == 0.0 {
            return Self {
                beam_lx: low_beam,
                sky_lx: low_total - low_beam * sine,
                sine,
                beam_curve,
            };
        }
        let between = |low: f64, high: f64| {
            if low > 0.0 {
                low * (high / low).powf(day)
            } else {
                0.0
            }
        };
        Self {
            beam_lx: between(low_beam, IES_EXTRATERRESTRIAL_LX * dimming(&design, 1.0 / sine)),
            sky_lx: between(low_total - low_beam * sine, design_sky_lx(&design, sine)),
            sine,
            beam_curve,
        }
    }
}

/// The moon's share of the night.
struct Moonlight {
    normal_lx: f64,
    sky_lx: f64,
    curve: SpectralCurve,
    direction: DVec3,
}

impl Moonlight {
    fn none() -> Self {
        Self {
            normal_lx: 0.0,
            sky_lx: 0.0,
            curve: moon_curve(90.0),
            direction: -DVec3::Z,
        }
    }

    /// The air splits moonlight into beam and sky as it splits sunlight at the same height.
    fn of(moon: &Moon, weather: Weather) -> Self {
        let apparent = moon.elevation_deg + refraction_deg(moon.elevation_deg, Air::default());
        let as_sun = Split::of(moon.elevation_deg, apparent, weather);
        let clear = Split::of(moon.elevation_deg, apparent, Weather::Clear);
        let per_lx = moon.horizontal().value() / (clear.beam_lx * clear.sine + clear.sky_lx);
        let above = smooth_step((apparent + 0.27) / 0.54);
        Self {
            normal_lx: as_sun.beam_lx * per_lx * above,
            sky_lx: (as_sun.sky_lx + as_sun.beam_lx * as_sun.sine * (1.0 - above)) * per_lx,
            curve: moon_curve(apparent),
            direction: direction(moon.azimuth_deg, apparent),
        }
    }
}

/// Most that the spectral model counts against the Supplement, the height of the sun at which it does, and the heights at
/// which it no longer counts, in degrees (ours).
const MODEL_COUNTS: f64 = 0.5;
const MODEL_COUNTS_DEG: [f64; 3] = [-0.5, 1.0, 4.0];

/// Sun and clear sky on the ground under a low sun, in lux: the Supplement's, and about 1° the mean in stops of it and the
/// spectral model, which are a stop apart there. The Supplement's single curve knows no haze; the model's flat air is too
/// dark for a sun on the horizon.
fn low_total_lx(elevation_deg: f64, apparent_deg: f64) -> f64 {
    let [from, most, until] = MODEL_COUNTS_DEG;
    let counts = MODEL_COUNTS
        * smooth_step((elevation_deg - from) / (most - from))
        * smooth_step((until - elevation_deg) / (until - most));
    let published = clear_horizontal_lx(elevation_deg);
    if counts == 0.0 {
        return published;
    }
    published * (modelled_horizontal_lx(apparent_deg, Haze::default()) / published).powf(counts)
}

/// Colour temperature of a clear sky's light on the ground by the sun's airless elevation, once the sun is set (ours, within
/// common practice: 8000 to 12 000 K in the blue hour, when ozone has taken the orange out of the long low beam).
const CLEAR_DUSK_K: [(f64, f64); 7] = [
    (-18.0, 7000.0),
    (-12.0, 8500.0),
    (-8.0, 10_500.0),
    (-6.0, 11_000.0),
    (-4.0, 10_500.0),
    (-2.0, 9800.0),
    (0.0, 9500.0),
];
/// Heights of the sun between which dusk's colour gives way to that of the spectral model, in degrees (ours).
const DUSK_ENDS_DEG: [f64; 2] = [-0.8, 1.2];
/// Light through cloud by day: sun and sky mixed and hardly coloured (common practice, 6000 to 7000 K).
const CLOUD_K: f64 = 6500.0;
/// Starlight and airglow, which are warmer than the blue hour (ours).
const NIGHT_K: f64 = 5000.0;
/// Air lit by the moon, as the blue of a clear sky would be with a lamp of 4100 K for its sun (ours).
const MOONLIT_AIR_K: f64 = 6500.0;

fn mired_between(a_kelvin: f64, b_kelvin: f64, part: f64) -> f64 {
    1.0 / (1.0 / a_kelvin + (1.0 / b_kelvin - 1.0 / a_kelvin) * part)
}

fn clear_dusk_kelvin(elevation_deg: f64) -> f64 {
    let after = CLEAR_DUSK_K.partition_point(|(edge, _)| *edge <= elevation_deg);
    if after == 0 {
        return CLEAR_DUSK_K[0].1;
    }
    let Some(&(right, warm)) = CLEAR_DUSK_K.get(after) else {
        return CLEAR_DUSK_K[after - 1].1;
    };
    let (left, cold) = CLEAR_DUSK_K[after - 1];
    mired_between(cold, warm, (elevation_deg - left) / (right - left))
}

/// How much of the clear sky's colour is left by day.
fn blue_by_day(weather: Weather) -> f64 {
    match weather {
        Weather::Clear => 1.0,
        Weather::Hazy | Weather::PartlyCloudy => 0.35,
        Weather::BrightOvercast | Weather::HeavyOvercast => 0.0,
    }
}

/// How much of the clear sky's colour is left under cloud: a part by day, most once the sun no longer lights the cloud.
fn blue_left(elevation_deg: f64, weather: Weather) -> f64 {
    let by_day = blue_by_day(weather);
    by_day + (1.0 - by_day) * 0.7 * smooth_step(-elevation_deg / 6.0)
}

/// A clear sky's light on the ground.
fn clear_sky_curve(sun: &Sun) -> SpectralCurve {
    let [from, until] = DUSK_ENDS_DEG;
    let day = smooth_step((sun.elevation_deg - from) / (until - from));
    let dusk = || of_kelvin(clear_dusk_kelvin(sun.elevation_deg));
    let by_day = || scattered_light(sun.apparent_elevation_deg, haze_at(sun.elevation_deg));
    match day {
        0.0 => dusk(),
        1.0 => by_day(),
        part => mixed(&[(1.0 - part, &dusk()), (part, &by_day())]),
    }
}

fn of_kelvin(kelvin: f64) -> SpectralCurve {
    let kelvin = Kelvin::new(kelvin).expect("a colour temperature of this table");
    daylight_curve(kelvin).expect("the daylight series reaches this temperature")
}

fn sky_curve(sun: &Sun, weather: Weather) -> SpectralCurve {
    let blue = blue_left(sun.elevation_deg, weather);
    mixed(&[(blue, &clear_sky_curve(sun)), (1.0 - blue, &of_kelvin(CLOUD_K))])
}

/// Moonlight: sunlight off rock that is redder than grey, through the air. Its reflectance rises about as the wavelength
/// (from memory of lunar albedo spectra, 0.4 to 0.7 µm), which makes a high moon about 4200 K.
fn moon_curve(apparent_deg: f64) -> SpectralCurve {
    direct_beam(apparent_deg, haze_at(apparent_deg))
        .map(|nm, power| power * nm / 555.0)
        .expect("a beam is finite")
}

/// Light that has passed through leaves: a green window in the middle of the spectrum (ours).
fn leaf_lit(light: &SpectralCurve) -> SpectralCurve {
    light
        .map(|nm, power| power * (0.5 + 0.5 * (-0.5 * ((nm - 550.0) / 35.0f64).powi(2)).exp()))
        .expect("a filtered light is finite")
}

/// Lights added by their lux.
fn mixed(parts: &[(f64, &SpectralCurve)]) -> SpectralCurve {
    let scaled: Vec<(f64, &SpectralCurve)> = parts
        .iter()
        .map(|(lx, curve)| (lx / curve.luminous_flux(), *curve))
        .collect();
    let (_, first) = scaled[0];
    first
        .map(|nm, _| scaled.iter().map(|(scale, curve)| scale * curve.at(nm)).sum())
        .expect("a mixture of lights is finite")
}

fn colour_of(curve: &SpectralCurve) -> LightColour {
    LightColour::from_curve(curve).expect("daylight is visible")
}
