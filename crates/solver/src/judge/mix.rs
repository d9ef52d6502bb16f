//! How flash and the light that is there mix in colour, and the balance that serves them best.

use crate::place::ambient::{AmbientThere, all_lx};
use crate::place::amounts::Finished;
use crate::practice::{BALANCE_STEP_K, BALANCES_K, colour_fault};
use crate::ways::light::FlashZones;
use crate::ways::scout::Scout;
use answer::Job;
use colour::{LightColour, Spectrum, WhiteBalance, Xyz, cct_duv};
use units::{Duv, Kelvin};

/// What meets in the picture: a flash of some colour and the light that is there, each with its share of an
/// exact exposure at the dome.
pub(crate) struct Mix<'a> {
    pub flash: &'a LightColour,
    pub zones: &'a FlashZones,
    pub ambients: &'a [AmbientThere],
    pub flash_share: f64,
    pub ambient_share: f64,
}

impl<'a> Mix<'a> {
    /// What meets in a finished picture.
    pub fn of(scout: &Scout<'a>, zones: &'a FlashZones, picture: &Finished<'_>) -> Self {
        let flash_share = picture.flash_share();
        Mix {
            flash: scout.job.bag.flash.colour(),
            zones,
            ambients: scout.lights,
            flash_share,
            ambient_share: 1.0 - flash_share,
        }
    }

    /// The light of a zone: the flash's there, and each ambient light's.
    fn light(&self, flash: &Spectrum, ambient: impl Fn(&AmbientThere) -> Spectrum) -> Xyz {
        let at_dome = f64::from(self.flash.luminous(&self.zones.dome)).max(1e-12);
        let mut sum = self.flash.xyz(flash) * (self.flash_share / at_dome);
        let ambient_lx = all_lx(self.ambients);
        if ambient_lx > 0.0 {
            for there in self.ambients {
                sum += there.colour.xyz(&ambient(there)) * (self.ambient_share / ambient_lx);
            }
        }
        sum
    }

    pub fn dome(&self) -> Xyz {
        self.light(&self.zones.dome, |there| there.at.dome)
    }

    /// The lit and the shadow side of the face.
    pub fn cheeks(&self) -> [Xyz; 2] {
        let sides = [0, 1].map(|i| self.light(&self.zones.cheeks[i], |there| there.at.cheeks[i]));
        if sides[0].y >= sides[1].y {
            sides
        } else {
            [sides[1], sides[0]]
        }
    }

    pub fn background(&self) -> Xyz {
        self.light(&self.zones.background, AmbientThere::background)
    }

    /// Colour of the flash alone as it arrives.
    pub fn flash_hue(&self) -> Option<Hue> {
        Hue::of(self.flash.xyz(&self.zones.dome))
    }

    /// Colour of all ambient light as it arrives.
    pub fn ambient_hue(&self) -> Option<Hue> {
        let mut sum = Xyz::default();
        for there in self.ambients {
            sum += there.colour.xyz(&there.at.dome);
        }
        Hue::of(sum)
    }
}

/// A colour near white: its place on the mired scale and beside it.
#[derive(Clone, Copy)]
pub(crate) struct Hue {
    pub mired: f64,
    pub duv: f64,
}

impl Hue {
    pub fn of(light: Xyz) -> Option<Self> {
        let (kelvin, duv) = cct_duv(light.chromaticity()?)?;
        Some(Hue {
            mired: kelvin.mired().value(),
            duv: duv.value(),
        })
    }
}

/// A demand on a zone: where on the mired scale it should lie against the balance, and how much it counts.
pub(crate) struct Demand {
    pub hue: Hue,
    pub wish: f64,
    pub per_mired: f64,
    pub per_duv: f64,
}

/// What is asked of the zones of a mix; none when the skin has no colour temperature.
pub(crate) fn demands(job: &Job, mix: &Mix<'_>) -> Option<Vec<Demand>> {
    let wish = job.ask.colour.unwrap_or_default();
    let mut demands = Vec::new();
    // Neutral skin is neutral on both sides, or as nearly as one balance can make it; a tone that is wished
    // for is that of the side which the eye goes to.
    let [lit, shadow] = mix.cheeks();
    let sides = if wish.skin.value() == 0.0 {
        vec![lit, shadow]
    } else {
        vec![lit]
    };
    let share = (1.0 / sides.len() as f64).sqrt();
    for side in sides {
        demands.push(Demand {
            hue: Hue::of(side)?,
            wish: wish.skin.value(),
            per_mired: share / colour_fault::SKIN_MIRED,
            per_duv: share / colour_fault::SKIN_DUV,
        });
    }
    if let Some(room) = wish.room {
        demands.extend(Hue::of(mix.background()).map(|hue| Demand {
            hue,
            wish: room.value(),
            per_mired: 1.0 / colour_fault::ROOM_MIRED,
            per_duv: 1.0 / colour_fault::ROOM_DUV,
        }));
    }
    Some(demands)
}

/// The balance that serves the demands best, in steps that a camera has.
pub(crate) fn best_balance(job: &Job, demands: &[Demand]) -> Hue {
    let mean = |value: &dyn Fn(&Demand) -> f64, weight: &dyn Fn(&Demand) -> f64| {
        let (sum, all) = demands.iter().fold((0.0, 0.0), |(sum, all), demand| {
            let squared = weight(demand) * weight(demand);
            (sum + squared * value(demand), all + squared)
        });
        sum / all
    };
    let mired = mean(&|d| d.hue.mired - d.wish, &|d| d.per_mired);
    let duv = mean(&|d| d.hue.duv, &|d| d.per_duv);
    let kelvin = job
        .ask
        .white_balance
        .map_or_else(|| in_steps(1e6 / mired.max(1.0)), Kelvin::value);
    let duv = match (job.ask.tint, job.ask.white_balance) {
        (Some(tint), _) => tint.value(),
        // A photographer who insists on kelvin alone has left the tint where it was.
        (None, Some(_)) => 0.0,
        (None, None) => WhiteBalance::nearest_tint(Duv(duv)).value(),
    };
    Hue {
        mired: 1e6 / kelvin,
        duv,
    }
}

pub(crate) fn in_steps(kelvin: f64) -> f64 {
    ((kelvin / BALANCE_STEP_K).round() * BALANCE_STEP_K).clamp(BALANCES_K.0, BALANCES_K.1)
}
