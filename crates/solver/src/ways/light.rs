//! From light at the meters to what a photographer would say of it.

use crate::place::ambient::mean_of;
use crate::place::amounts::{Amounts, Finished};
use crate::place::meters::AtMeters;
use crate::place::skin::skin_reading;
use crate::practice::HARDLY_THERE;
use answer::{Cast, FlashReading, KeyReading, LandmarkLevel, PatternRead};
use colour::{LightColour, Spectrum, cct_duv};
use glam::Vec3;
use units::{Duv, Kelvin, Stops};

/// Everything that one way of lighting does to the faces, for the flash at full power.
#[derive(Clone, Debug, Default)]
pub(crate) struct FaceLight {
    /// At all meters.
    pub amounts: Amounts,
    /// Straight from the head, without a bounce.
    pub spill: Amounts,
    /// Where colour is judged.
    pub zones: FlashZones,
    /// At the dome after the first bounce alone, direct light included for a direct aim, per band of a flat flash.
    pub first: Spectrum,
    /// Direction to what carries the key: the lit patch, the board or the head, without the room's fill.
    pub key_direction: Vec3,
    /// Width of the light over its distance.
    pub softness: f32,
}

/// The flash's light where colour is judged, per band of a flat flash, in lx s at full power.
#[derive(Clone, Debug, Default)]
pub(crate) struct FlashZones {
    pub dome: Spectrum,
    pub cheeks: [Spectrum; 2],
    pub background: Spectrum,
}

impl FlashZones {
    /// What the meters read.
    pub fn of(at: &AtMeters<Spectrum>) -> Self {
        FlashZones {
            dome: at.dome,
            cheeks: at.cheeks,
            background: mean_of(&at.background),
        }
    }

    /// The same light this many times as strong.
    fn times(&self, factor: f32) -> Self {
        FlashZones {
            dome: self.dome * factor,
            cheeks: self.cheeks.map(|cheek| cheek * factor),
            background: self.background * factor,
        }
    }
}

impl FaceLight {
    /// Dome reading in lx s at full power.
    pub fn dose(&self) -> f64 {
        f64::from(self.amounts.dome)
    }

    /// Whether light straight from the head would show beside the bounce.
    pub fn spills(&self) -> bool {
        let bounced = (self.dose() - f64::from(self.spill.dome)).max(1e-12);
        self.spill.dome > 0.0 && (f64::from(self.spill.dome) / bounced).log2() > HARDLY_THERE
    }

    /// Takes the light straight from the head away, as a flag does. Such light has the colour of the bare head.
    pub fn block_spill(&mut self) {
        let without = |light: Spectrum, spill: f32| light.map(|band| (band - spill).max(0.0));
        self.zones.dome = without(self.zones.dome, self.spill.dome);
        for (cheek, spill) in self.zones.cheeks.iter_mut().zip(self.spill.cheeks) {
            *cheek = without(*cheek, spill);
        }
        self.amounts.take(&self.spill);
        self.spill = Amounts::default();
    }

    /// The same light behind a gel that gives the flash this colour and lets this part of it through.
    pub fn behind_gel(&self, gelled: &LightColour, passes: f64) -> Self {
        let dose = f64::from(gelled.luminous(&self.zones.dome)) * passes;
        let stays = (dose / self.dose().max(1e-12)) as f32;
        FaceLight {
            amounts: self.amounts.times(stays),
            spill: self.spill.times(stays),
            zones: self.zones.times(passes as f32),
            ..self.clone()
        }
    }
}

/// The flash of a finished picture alone.
fn flash_reading(picture: &Finished<'_>, facing: Vec3) -> FlashReading {
    let dark = Amounts::default();
    let alone = Finished {
        ambient: &dark,
        ..*picture
    };
    let (azimuth_deg, elevation_deg) = alone.direction(facing);
    FlashReading {
        azimuth_deg,
        elevation_deg,
        ratio: alone.ratio(),
        share: picture.flash_share(),
    }
}

impl Finished<'_> {
    /// What a photographer would say of it: `light` is what the flash brings in its `colour`, `own` the reflectance of what
    /// carries that light, and `facing` the level direction of the nose.
    pub fn reading(
        &self,
        light: &FaceLight,
        colour: &LightColour,
        own: &Spectrum,
        facing: Vec3,
    ) -> KeyReading {
        let dome = self.dome();
        let (azimuth_deg, elevation_deg) = self.direction(facing);
        let [near, far] = self.near_and_far();
        let against = |value: f64| Stops((value / dome).log2());
        let landmarks = self.flash.landmarks.iter().enumerate();
        let there = |at: usize| self.ambient.landmarks.get(at).map_or(0.0, |(_, light)| *light);
        KeyReading {
            azimuth_deg,
            elevation_deg,
            full_power_aperture: (light.dose().max(1e-12) * 100.0 / light::INCIDENT_CONSTANT).sqrt(),
            near_cheek: against(near),
            far_cheek: against(far),
            ratio: near / far,
            sockets: Stops(self.sockets()),
            lit_socket: Stops(self.lit_socket()),
            pattern: PatternRead::of(azimuth_deg, elevation_deg),
            flash: flash_reading(self, facing),
            cast: cast(colour, &light.zones.dome),
            first_bounce_cast: cast(colour, own),
            softness: f64::from(light.softness),
            spill: spill(light),
            skin: skin_reading(self, facing),
            landmarks: landmarks
                .map(|(index, &(at, flash))| LandmarkLevel {
                    at,
                    level: against(f64::from(self.sum(flash, there(index)).max(1e-9))),
                })
                .collect(),
        }
    }
}

/// What comes straight from the head against all else of the flash; `None` when there is none.
fn spill(light: &FaceLight) -> Option<Stops> {
    let direct = f64::from(light.spill.dome);
    let bounced = (light.dose() - direct).max(1e-12);
    (direct > 0.0).then(|| Stops((direct / bounced).log2()))
}

/// Cast of light that has been through the room against the bare flash.
///
/// Light far from every lamp's colour (a pure red) has no colour temperature; it is judged by the ratio
/// of its long to its short waves instead, which only has to say "far too warm" or "far too cold".
pub(crate) fn cast(flash: &LightColour, transfer: &Spectrum) -> Cast {
    let (bare_kelvin, bare_duv) = flash
        .cct_duv()
        .unwrap_or((Kelvin::new(5600.0).expect("in range"), Duv(0.0)));
    let xyz = flash.xyz(transfer);
    match xyz.chromaticity().and_then(cct_duv) {
        Some((kelvin, duv)) => Cast {
            shift: kelvin.mired() - bare_kelvin.mired(),
            duv: Duv(duv.value() - bare_duv.value()),
            kelvin,
        },
        None => {
            let warm = xyz.x > xyz.z;
            let kelvin = Kelvin::new(if warm { 1700.0 } else { 25_000.0 }).expect("in range");
            Cast {
                shift: kelvin.mired() - bare_kelvin.mired(),
                duv: Duv(0.0),
                kelvin,
            }
        }
    }
}
