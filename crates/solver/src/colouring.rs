//! Which gel goes on the flash, and what the camera is balanced for.
//!
//! Light is linear and a gel lies over the whole window, so a gel only weighs the flash's light anew: no ray
//! is traced for it. Every gel of the bag, every pair, and none are tried on the best way found; for each the
//! balance that serves best is known in closed form, because faults in mired and Duv add as squares. The
//! least faulty is worn, and everything after it is computed with the gelled flash.

use crate::exposing::{power_for_total, settings_for};
use crate::reading::FaceLight;
use crate::score::full_power;
use crate::survey::{AmbientThere, Survey};
use answer::{
    ColourZone, Colouring, Exposure, Failure, GelTurn, GelWish, GelWorn, Greenness, Job, LightName, Limit,
    Note, PicturePart, Settings, SidesCure, SidesVerdict, SourceColour, SourceName, Wish,
};
use camera::ambient_exposure;
use colour::{LightColour, Spectrum, WhiteBalance, Xyz, cct_duv};
use light::Gel;
use units::{Duv, Illuminance, Kelvin, Mired, MiredShift, Stops};

/// Two lights on one face this far apart can share one balance (common practice: usable), in mired.
pub(crate) const USABLE_MIRED: f64 = 20.0;
/// Further apart than this they cannot (common practice: rejected), in mired.
const REJECTED_MIRED: f64 = 40.0;
/// Green or magenta that begins to show on skin (common practice: good below, usable to twice).
const SEEN_DUV: f64 = 0.002;
/// A lamp this much greener than a glowing body is called greenish (ours).
const GREENISH_DUV: f64 = 0.005;
/// Light this far under does not matter for colour (common practice: three stops).
const IGNORED_STOPS: f64 = -3.0;

/// Weights of the faults (ours): a point is what a careful photographer would call a clear fault.
const SKIN_MIRED: f64 = 20.0;
const SKIN_DUV: f64 = 0.004;
const ROOM_MIRED: f64 = 30.0;
const ROOM_DUV: f64 = 0.008;
const LAMP_MIRED: f64 = 15.0;
const PER_STOP_LOST: f64 = 0.1;
const PER_GEL: f64 = 0.08;
/// A gel that is not in the bag is worth a word when it would spare this many points.
const WORTH_BUYING: f64 = 1.0;

/// Balances that cameras can be set to (common practice), in kelvin.
const BALANCES_K: (f64, f64) = (2500.0, 10_000.0);
/// Cameras step by a hundred kelvin or so.
const BALANCE_STEP_K: f64 = 100.0;

/// The flash's light where colour is judged, per band of a flat flash; only proportions count.
#[derive(Clone, Debug)]
pub(crate) struct FlashZones {
    pub dome: Spectrum,
    pub cheeks: [Spectrum; 2],
    pub background: Spectrum,
}

impl FlashZones {
    /// From a way that was not yet solved finely: cheeks and background get the colour of the dome.
    fn of(light: &FaceLight, colour: &LightColour) -> Self {
        let dose = light.dose(colour).max(1e-12) as f32;
        FlashZones {
            dome: light.dome,
            cheeks: light.cheeks.map(|cheek| light.dome * (cheek / dose)),
            background: light.dome * (light.background / dose),
        }
    }
}

/// What meets in the picture: a flash of some colour and the light that is there, each with its share of an
/// exact exposure at the dome.
struct Mix<'a> {
    flash: &'a LightColour,
    zones: &'a FlashZones,
    ambients: &'a [AmbientThere],
    flash_share: f64,
    ambient_share: f64,
}

/// A colour near white: its place on the mired scale and beside it.
#[derive(Clone, Copy)]
struct Hue {
    mired: f64,
    duv: f64,
}

impl Hue {
    fn of(light: Xyz) -> Option<Self> {
        let (kelvin, duv) = cct_duv(light.chromaticity()?)?;
        Some(Hue {
            mired: kelvin.mired().value(),
            duv: duv.value(),
        })
    }
}

impl Mix<'_> {
    /// The light of a zone: the flash's there, and each ambient light's.
    fn light(&self, flash: &Spectrum, ambient: impl Fn(&AmbientThere) -> Spectrum) -> Xyz {
        let at_dome = f64::from(self.flash.luminous(&self.zones.dome)).max(1e-12);
        let mut sum = self.flash.xyz(flash) * (self.flash_share / at_dome);
        let ambient_lx: f64 = self.ambients.iter().map(|there| there.dome_lx).sum();
        if ambient_lx > 0.0 {
            for there in self.ambients {
                sum += there.colour.xyz(&ambient(there)) * (self.ambient_share / ambient_lx);
            }
        }
        sum
    }

    fn dome(&self) -> Xyz {
        self.light(&self.zones.dome, |there| there.dome)
    }

    /// The lit and the shadow side of the face.
    fn cheeks(&self) -> [Xyz; 2] {
        let sides = [0, 1].map(|i| self.light(&self.zones.cheeks[i], |there| there.cheeks[i]));
        if sides[0].y >= sides[1].y {
            sides
        } else {
            [sides[1], sides[0]]
        }
    }

    fn background(&self) -> Xyz {
        self.light(&self.zones.background, |there| there.background)
    }

    /// Colour of the flash alone as it arrives.
    fn flash_hue(&self) -> Option<Hue> {
        Hue::of(self.flash.xyz(&self.zones.dome))
    }

    /// Colour of all ambient light as it arrives.
    fn ambient_hue(&self) -> Option<Hue> {
        let mut sum = Xyz::default();
        for there in self.ambients {
            sum += there.colour.xyz(&there.dome);
        }
        Hue::of(sum)
    }
}

/// A demand on a zone: where on the mired scale it should lie against the balance, and how much it counts.
struct Demand {
    hue: Hue,
    wish: f64,
    per_mired: f64,
    per_duv: f64,
}

/// What is asked of the zones of a mix; none when the skin has no colour temperature.
fn demands(job: &Job, mix: &Mix<'_>) -> Option<Vec<Demand>> {
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
            per_mired: share / SKIN_MIRED,
            per_duv: share / SKIN_DUV,
        });
    }
    if let Some(room) = wish.room {
        demands.extend(Hue::of(mix.background()).map(|hue| Demand {
            hue,
            wish: room.value(),
            per_mired: 1.0 / ROOM_MIRED,
            per_duv: 1.0 / ROOM_DUV,
        }));
    }
    Some(demands)
}

/// The balance that serves the demands best, in steps that a camera has.
fn best_balance(job: &Job, demands: &[Demand]) -> Hue {
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
        // Whoever insists on kelvin alone has left the tint where it was.
        (None, Some(_)) => 0.0,
        (None, None) => WhiteBalance::nearest_tint(Duv(duv)).value(),
    };
    Hue {
        mired: 1e6 / kelvin,
        duv,
    }
}

fn in_steps(kelvin: f64) -> f64 {
    ((kelvin / BALANCE_STEP_K).round() * BALANCE_STEP_K).clamp(BALANCES_K.0, BALANCES_K.1)
}

fn faults_of(demands: &[Demand], balance: Hue) -> f64 {
    demands
        .iter()
        .map(|demand| {
            let warm = (demand.hue.mired - balance.mired - demand.wish) * demand.per_mired;
            let green = (demand.hue.duv - balance.duv) * demand.per_duv;
            warm * warm + green * green
        })
        .sum()
}

/// A gel, or none, tried on a way.
struct Tried {
    gel: Option<Gel>,
    points: f64,
}

/// The gels that are tried: none, each, and each pair; deep colours only when they are insisted on.
fn candidates(gels: &[Gel]) -> Vec<Option<Gel>> {
    let pale: Vec<&Gel> = gels.iter().filter(|gel| !gel.is_effect()).collect();
    let mut all = vec![None];
    all.extend(pale.iter().map(|gel| Some((*gel).clone())));
    for (index, first) in pale.iter().enumerate() {
        all.extend(pale[index + 1..].iter().map(|second| Some(first.with(second))));
    }
    all
}

/// What a gel does to a way, in points; none when skin would have no colour temperature behind it.
fn try_gel(
    job: &Job,
    survey: &Survey,
    light: &FaceLight,
    gel: Option<Gel>,
) -> Result<Option<Tried>, Failure> {
    let worn = job.bag.flash.clone().with_gel(gel.clone())?;
    let bare = job.bag.flash.colour();
    let zones = FlashZones::of(light, bare);
    // The way was computed bare: behind the gel its light is what the gel lets through.
    let passes = (-worn.gel_loss_stops()).exp2();
    let dose = f64::from(worn.colour().luminous(&light.dome)) * passes;
    let (settings, _) = settings_for(job, survey, dose)?;
    let ambient = ambient_exposure(Illuminance(survey.ambient_lx().max(1e-9)), &settings.exposing()).value();
    let power = power_for_total(full_power(dose, settings.aperture, settings.iso), ambient);
    let ambient_share = ambient.exp2();
    let mix = Mix {
        flash: worn.colour(),
        zones: &zones,
        ambients: &survey.ambients,
        flash_share: (1.0 - ambient_share).max(1e-3),
        ambient_share,
    };
    let Some(demands) = demands(job, &mix) else {
        return Ok(None);
    };
    let mut points = faults_of(&demands, best_balance(job, &demands));
    if job.ask.colour.unwrap_or_default().match_lamps
        && let (Some(flash), Some(lamps)) = (mix.flash_hue(), mix.ambient_hue())
    {
        points +=
            ((flash.mired - lamps.mired) / LAMP_MIRED).powi(2) + ((flash.duv - lamps.duv) / SKIN_DUV).powi(2);
    }
    let layers = gel
        .as_ref()
        .map_or(0, |gel| 1 + gel.name().matches(" + ").count());
    points += PER_STOP_LOST * worn.gel_loss_stops() + PER_GEL * layers as f64;
    points += 1.5 * (job.ask.in_hand.value() - power).max(0.0);
    Ok(Some(Tried { gel, points }))
}

fn least_faulty(
    job: &Job,
    survey: &Survey,
    light: &FaceLight,
    candidates: impl IntoIterator<Item = Option<Gel>>,
) -> Result<Option<Tried>, Failure> {
    let mut best: Option<Tried> = None;
    for gel in candidates {
        if let Some(tried) = try_gel(job, survey, light, gel)?
            && best.as_ref().is_none_or(|held| tried.points < held.points)
        {
            best = Some(tried);
        }
    }
    Ok(best)
}

/// Whether anything is asked of the colour that a gel could serve.
fn minds_colour(job: &Job) -> bool {
    job.ask.neutral_skin || job.ask.colour.is_some()
}

/// Which gel the flash wears, and which would be worth having.
pub(crate) struct GelChoice {
    pub worn: Option<Gel>,
    /// A gel that is not in the bag and would serve much better than what is.
    pub to_buy: Option<Note>,
}

/// The gel for a way that was computed with the bare flash.
pub(crate) fn choose_gel(job: &Job, survey: &Survey, light: &FaceLight) -> Result<GelChoice, Failure> {
    let only = |worn| GelChoice { worn, to_buy: None };
    match &job.ask.gel {
        GelWish::None => return Ok(only(None)),
        GelWish::This(gel) => return Ok(only(Some(gel.clone()))),
        GelWish::Any if !minds_colour(job) => return Ok(only(None)),
        GelWish::Any => {}
    }
    let Some(owned) = least_faulty(job, survey, light, candidates(&job.bag.gels))? else {
        return Ok(only(None));
    };
    let to_buy = if survey.ambient_lx() > 0.0 {
        gel_to_buy(job, survey, light, &owned)?
    } else {
        None
    };
    Ok(GelChoice {
        worn: owned.gel,
        to_buy,
    })
}

fn gel_to_buy(job: &Job, survey: &Survey, light: &FaceLight, owned: &Tried) -> Result<Option<Note>, Failure> {
    let sold = Gel::catalogue(job.bag.gel_family)
        .iter()
        .filter(|gel| !gel.is_effect());
    let Some(Tried {
        gel: Some(gel),
        points,
    }) = least_faulty(job, survey, light, sold.cloned().map(Some))?
    else {
        return Ok(None);
    };
    if owned.points - points < WORTH_BUYING {
        return Ok(None);
    }
    let Some(effect) = job.bag.flash.behind(&gel) else {
        return Ok(None);
    };
    Ok(Some(Note::GelToBuy {
        gel: gel.name().to_owned(),
        shift: effect.shift,
        duv: effect.duv,
        than: owned.gel.as_ref().map(|owned| owned.name().to_owned()),
        loss: effect.loss,
    }))
}

/// The job with this gel on its flash.
pub(crate) fn wearing(job: &Job, gel: Option<Gel>) -> Result<Job, Failure> {
    let mut gelled = job.clone();
    gelled.bag.flash = gelled.bag.flash.with_gel(gel)?;
    Ok(gelled)
}

/// How the colours lie in a finished way, with what to know about them. `job`'s flash wears its gel; the balance goes into
/// the settings.
pub(crate) fn colouring(
    job: &Job,
    zones: &FlashZones,
    ambients: &[AmbientThere],
    exposure: &Exposure,
    settings: &mut Settings,
) -> (Colouring, Vec<Note>) {
    let share = |stops: Stops| stops.value().exp2();
    let mix = Mix {
        flash: job.bag.flash.colour(),
        zones,
        ambients,
        flash_share: share(exposure.flash_alone),
        ambient_share: exposure.ambient_alone.map_or(0.0, share),
    };
    let balance = balance(job, &mix);
    settings.white_balance = Kelvin::new(1e6 / balance.mired).unwrap_or(settings.white_balance);
    settings.tint = Duv(balance.duv);
    let zones = parts_of_the_picture(&mix, balance);
    let colouring = Colouring {
        gel: worn(job),
        sources: sources(&mix),
        limits: limits(job, &zones),
        zones,
    };
    let notes = notes(&mix, &colouring);
    (colouring, notes)
}

/// White balance: the photographer's, or what the wish for colour asks, or the light on the face when skin
/// must stay neutral, or the bare flash's.
fn balance(job: &Job, mix: &Mix<'_>) -> Hue {
    let bare = Hue {
        mired: job.bag.flash.colour_temperature().mired().value(),
        duv: job.ask.tint.map_or(0.0, Duv::value),
    };
    let insisted = |kelvin: Kelvin| Hue {
        mired: kelvin.mired().value(),
        ..bare
    };
    if job.ask.colour.is_some() || (job.ask.neutral_skin && job.bag.flash.gel().is_some()) {
        return match demands(job, mix) {
            Some(demands) => best_balance(job, &demands),
            None => job.ask.white_balance.map_or(bare, insisted),
        };
    }
    if let Some(kelvin) = job.ask.white_balance {
        return insisted(kelvin);
    }
    if !job.ask.neutral_skin {
        return bare;
    }
    match WhiteBalance::for_light(mix.dome()) {
        Some(white) => Hue {
            mired: 1e6 / in_steps(white.kelvin.value()),
            duv: job
                .ask
                .tint
                .unwrap_or_else(|| WhiteBalance::nearest_tint(white.tint))
                .value(),
        },
        None => bare,
    }
}

fn worn(job: &Job) -> Option<GelWorn> {
    let flash = &job.bag.flash;
    let gel = flash.gel()?;
    let effect = flash.behind(gel);
    Some(GelWorn {
        gel: gel.clone(),
        shift: effect.map(|effect| effect.shift),
        duv: effect.map(|effect| effect.duv),
        kelvin: effect.map(|effect| effect.kelvin),
        loss: Stops(flash.gel_loss_stops()),
    })
}

/// Every part of the picture against the balance, and each light that is there by itself.
fn parts_of_the_picture(mix: &Mix<'_>, balance: Hue) -> Vec<ColourZone> {
    let [lit, shadow] = mix.cheeks();
    let mut lights = vec![
        (PicturePart::LitSide, lit),
        (PicturePart::ShadowSide, shadow),
        (PicturePart::Background, mix.background()),
    ];
    for there in mix.ambients {
        let light = there.name.clone();
        lights.push((PicturePart::LightAlone { light }, there.colour.white()));
    }
    lights
        .into_iter()
        .map(|(part, light)| {
            let hue = Hue::of(light);
            ColourZone {
                part,
                shift: hue.map(|hue| MiredShift(hue.mired - balance.mired)),
                duv: hue.map(|hue| Duv(hue.duv - balance.duv)),
            }
        })
        .collect()
}

/// The flash and each light that is there: colour as it arrives, and share of the light at the dome.
fn sources(mix: &Mix<'_>) -> Vec<SourceColour> {
    let whole = mix.flash_share + mix.ambient_share;
    let ambient_lx: f64 = mix.ambients.iter().map(|there| there.dome_lx).sum();
    let colour = |source: SourceName, light: Xyz, share: f64| {
        let hue = Hue::of(light);
        SourceColour {
            source,
            kelvin: hue.and_then(|hue| Mired(hue.mired).kelvin().ok()),
            duv: hue.map(|hue| Duv(hue.duv)),
            share: share / whole.max(1e-12),
        }
    };
    let flash = mix.flash.xyz(&mix.zones.dome);
    let mut all = vec![colour(SourceName::Flash, flash, mix.flash_share)];
    all.extend(mix.ambients.iter().map(|there| {
        let share = mix.ambient_share * there.dome_lx / ambient_lx.max(1e-12);
        let light = there.name.clone();
        colour(SourceName::Light { light }, there.colour.xyz(&there.dome), share)
    }));
    all
}

/// What was wished of the colour, with what came of it.
fn limits(job: &Job, zones: &[ColourZone]) -> Vec<Limit> {
    let Some(wish) = job.ask.colour else {
        return Vec::new();
    };
    let limit = |asked: Wish, wished: MiredShift, found: MiredShift| {
        let over = (found - wished).abs().value() - USABLE_MIRED;
        Limit::new(asked, found.value(), over)
    };
    // Of the two sides the one that is further off decides.
    let off = |zone: &ColourZone| zone.shift.map_or(-1.0, |shift| (shift - wish.skin).abs().value());
    let skin = zones[..2].iter().max_by(|a, b| off(a).total_cmp(&off(b)));
    let skin = skin.and_then(|zone| {
        let asked = Wish::Skin {
            mired: wish.skin,
            shadow_side: zone.part == PicturePart::ShadowSide,
        };
        Some(limit(asked, wish.skin, zone.shift?))
    });
    let room = wish.room.and_then(|mired| {
        let asked = Wish::Room { mired };
        Some(limit(asked, mired, zones[2].shift?))
    });
    skin.into_iter().chain(room).collect()
}

/// What mixes, and whether it matters.
fn notes(mix: &Mix<'_>, colouring: &Colouring) -> Vec<Note> {
    let gel = colouring.gel.as_ref().map(|worn| gel_note(mix, worn));
    let apart = colouring.sides_apart();
    gel.into_iter()
        .chain(apart.and_then(|apart| two_sides(mix, apart)))
        .chain(green_lamps(mix, colouring))
        .collect()
}

/// What the gel on the flash does.
fn gel_note(mix: &Mix<'_>, worn: &GelWorn) -> Note {
    let turns = match (worn.shift, worn.duv, worn.kelvin) {
        (Some(shift), Some(duv), Some(kelvin)) => Some(GelTurn { shift, duv, kelvin }),
        _ => None,
    };
    let lights = mix.flash_hue().zip(mix.ambient_hue());
    Note::GelWorn {
        gel: worn.gel.name().to_owned(),
        turns,
        left: lights.map(|(flash, lamps)| MiredShift((flash.mired - lamps.mired).abs())),
        loss: worn.loss,
    }
}

/// The sides of the face when they are too far apart, and what makes them so: the walls, or the other light.
fn two_sides(mix: &Mix<'_>, apart: MiredShift) -> Option<Note> {
    if apart.value() <= USABLE_MIRED {
        return None;
    }
    let verdict = if apart.value() > REJECTED_MIRED {
        SidesVerdict::NoBalance
    } else {
        SidesVerdict::Compromise
    };
    let [one, other] = mix.zones.cheeks.map(|cheek| Hue::of(mix.flash.xyz(&cheek)));
    let by_walls = one.zip(other).map_or(0.0, |(a, b)| (a.mired - b.mired).abs());
    let cure = if by_walls > 0.5 * apart.value() {
        SidesCure::CoverWalls
    } else if mix.ambient_share.log2() < IGNORED_STOPS {
        SidesCure::FillShadow
    } else {
        SidesCure::MatchLights
    };
    Some(Note::SidesApart { apart, verdict, cure })
}

/// Greenish lamps: whether they matter at this share, and what cures it where they do.
fn green_lamps(mix: &Mix<'_>, colouring: &Colouring) -> Option<Note> {
    let (flash, ambient) = (mix.flash_hue()?, mix.ambient_hue()?);
    let greenish =
        |there: &&AmbientThere| Hue::of(there.colour.white()).is_some_and(|hue| hue.duv > GREENISH_DUV);
    let lamps: Vec<LightName> = mix
        .ambients
        .iter()
        .filter(greenish)
        .map(|there| there.name.clone())
        .collect();
    if lamps.is_empty() {
        return None;
    }
    let mixed = Hue::of(mix.dome())?;
    let (warmer, greener) = (mixed.mired - flash.mired, mixed.duv - flash.duv);
    let under = mix.ambient_share.log2();
    let wears_green = colouring
        .gel
        .as_ref()
        .and_then(|worn| worn.duv)
        .is_some_and(|duv| duv.value() > 0.5 * SEEN_DUV);
    let matters = if greener.abs() < SEEN_DUV {
        Greenness::BelowSeen
    } else if under < IGNORED_STOPS {
        Greenness::HardlySeen
    } else if wears_green {
        Greenness::GelMatches
    } else {
        Greenness::Shows {
            match_duv: Duv(ambient.duv - flash.duv),
        }
    };
    Some(Note::GreenLamps {
        lamps,
        under: Stops(-under),
        share: mix.ambient_share / (mix.flash_share + mix.ambient_share),
        warmer: MiredShift(warmer),
        greener: Duv(greener),
        matters,
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::trials::plain_ask;
    use answer::ColourWish;
    use light::{FlashUnit, GelFamily};

    /// A flat, even mix of a flash and one light, the same on both sides of the face.
    fn mixed(
        flash: &LightColour,
        light: LightColour,
        under: f64,
        job: &Job,
    ) -> (Hue, Vec<ColourZone>, Vec<Note>) {
        let zones = FlashZones {
            dome: Spectrum::ONE,
            cheeks: [Spectrum::ONE; 2],
            background: Spectrum::ONE,
        };
        let there = AmbientThere {
            name: LightName::Given {
                name: "lamps".to_owned(),
            },
            source: transport::Source::AllRound,
            kelvin: light
                .cct_duv()
                .map_or(job.bag.flash.colour_temperature(), |(kelvin, _)| kelvin),
            colour: light,
            scale: 1.0,
            off_computed: None,
            dome_lx: 1.0,
            metered_lx: 1.0,
            dome: Spectrum::ONE,
            cheeks: [Spectrum::ONE; 2],
            background: Spectrum::ONE,
        };
        let ambients = [there];
        let ambient_share = under.exp2();
        let mix = Mix {
            flash,
            zones: &zones,
            ambients: &ambients,
            flash_share: 1.0 - ambient_share,
            ambient_share,
        };
        let balance = balance(job, &mix);
        let zones = parts_of_the_picture(&mix, balance);
        let colouring = Colouring {
            gel: worn(job),
            sources: sources(&mix),
            limits: limits(job, &zones),
            zones: zones.clone(),
        };
        (balance, zones, notes(&mix, &colouring))
    }

    fn job(wish: Option<ColourWish>, gel: Option<&str>) -> Job {
        let mut job = crate::trials::random_job(1);
        job.ask = plain_ask();
        job.ask.colour = wish;
        job.bag.flash = FlashUnit::medium();
        let gel = gel.map(|name| Gel::named(name, GelFamily::Straw).expect("known"));
        job.ask.gel = gel.clone().map_or(GelWish::None, GelWish::This);
        wearing(&job, gel).expect("a light")
    }

    fn kelvin(value: f64) -> Kelvin {
        Kelvin::new(value).expect("in range")
    }

    /// Evening light from a flash with a half warm gel: a balance of 4350 to 4650 K leaves the face 25 to 45
    /// mired warm, and a sky of 9000 K is 111 mired blue against 4500 K (common practice).
    #[test]
    fn a_warm_face_under_a_blue_sky() {
        let wish = ColourWish {
            skin: MiredShift(35.0),
            ..ColourWish::default()
        };
        let job = job(Some(wish), Some("1/2 CTO"));
        let sky = LightColour::daylight(kelvin(9000.0)).expect("daylight");
        let (balance, zones, notes) = mixed(job.bag.flash.colour(), sky, -6.0, &job);
        let set = 1e6 / balance.mired;
        assert!((4350.0..=4650.0).contains(&set), "{set}");
        let face = zones[0].shift.expect("white").value();
        assert!((25.0..=45.0).contains(&face), "{face}");
        let against = |set: f64| zones[3].shift.expect("white").value() + balance.mired - 1e6 / set;
        assert!((against(4500.0) + 111.0).abs() < 2.0, "{}", against(4500.0));
        let [
            Note::GelWorn {
                gel,
                turns: Some(turn),
                ..
            },
            ..,
        ] = &notes[..]
        else {
            panic!("{notes:?}")
        };
        assert!(
            gel == "1/2 CTO" && (turn.shift.value() - 81.0).abs() < 0.5,
            "{notes:?}"
        );
    }

    /// Greenish office lamps of 4000 K and Duv +0.010, 3.82 stops under: 7 % of the light, about +5 mired, and
    /// no green gel (common practice). A stop under they do matter.
    #[test]
    fn green_lamps_matter_only_with_their_share() {
        let job = job(None, None);
        let lamps = LightColour::with_duv(kelvin(4000.0), Duv(0.010)).expect("a lamp");
        let flash = job.bag.flash.colour();
        let lamps_note = |under: f64| {
            let (_, _, notes) = mixed(flash, lamps, under, &job);
            let green = notes.into_iter().find_map(|note| match note {
                Note::GreenLamps {
                    share,
                    warmer,
                    matters,
                    ..
                } => Some((share, warmer.value(), matters)),
                _ => None,
            });
            green.expect("greenish lamps have a note")
        };
        let (share, warmer, matters) = lamps_note(-3.82);
        assert!(
            (share - 0.07).abs() < 0.005 && (warmer - 5.0).abs() < 0.5,
            "{share} {warmer}"
        );
        assert!(
            matches!(matters, Greenness::BelowSeen | Greenness::HardlySeen),
            "{matters:?}"
        );
        let (_, _, matters) = lamps_note(-1.0);
        assert!(matches!(matters, Greenness::Shows { .. }), "{matters:?}");
    }

    /// The balance that was insisted on is kept, with its tint.
    #[test]
    fn an_insisted_balance_is_kept() {
        let mut job = job(Some(ColourWish::default()), None);
        job.ask.white_balance = Some(kelvin(4000.0));
        job.ask.tint = Some(Duv(0.004));
        let lamps = LightColour::planck(kelvin(2800.0));
        let (balance, zones, _) = mixed(job.bag.flash.colour(), lamps, -3.0, &job);
        assert!((1e6 / balance.mired - 4000.0).abs() < 1e-6 && balance.duv == 0.004);
        assert!(zones[0].shift.expect("white").value() < -40.0);
    }

    #[test]
    fn every_pair_is_tried_and_no_deep_colour() {
        let gels = ["1/2 CTO", "1/4 CTO", "1/4 plus green", "red"]
            .map(|name| Gel::named(name, GelFamily::Straw).expect("known"));
        // None, three alone, three pairs.
        assert_eq!(candidates(&gels).len(), 7);
    }
}
