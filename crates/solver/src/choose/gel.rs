//! Which gel goes on the flash.
//!
//! Light is linear and a gel lies over the whole window, so a gel only weighs the flash's light anew: no ray
//! is traced for it. Every gel of the bag, every pair, and none are tried on the best way found; for each the
//! balance that serves best is known in closed form, because faults in mired and Duv add as squares. The
//! least faulty is worn, and everything after it is computed with the gelled flash.

use crate::judge::judged::{Judged, judge};
use crate::judge::mix::Mix;
use crate::practice::{WORTH_BUYING_POINTS, colour_fault, taste};
use crate::ways::scout::Scout;
use crate::ways::way::Way;
use answer::{Failure, GelWish, Job, Note};
use light::Gel;

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

/// What a gel does to a way: the sum that the search makes least, with what the gel costs.
fn try_gel(scout: &Scout<'_>, way: &Way, gel: Option<Gel>) -> Result<Tried, Failure> {
    let job = &wearing(scout.job, gel.clone())?;
    let worn = &job.bag.flash;
    // The way was computed bare: behind the gel its light is what the gel lets through.
    let passes = (-worn.gel_loss_stops()).exp2();
    let mut way = way.clone();
    way.light = way.light.behind_gel(worn.colour(), passes);
    let judged = judge(&Scout { job, ..*scout }, way)?;
    let layers = gel.as_ref().map_or(0, Gel::layers);
    let costs = colour_fault::PER_STOP_LOST * worn.gel_loss_stops() + colour_fault::PER_GEL * layers as f64;
    let forbidden = if judged.possible() { 0.0 } else { taste::FORBIDDEN };
    Ok(Tried {
        points: judged.points + costs + forbidden + unlike_the_lamps(job, scout, &judged),
        gel,
    })
}

/// How far flash and lamps are apart, where they should be alike above all.
fn unlike_the_lamps(job: &Job, scout: &Scout<'_>, judged: &Judged) -> f64 {
    if !job.ask.colour.unwrap_or_default().match_lamps {
        return 0.0;
    }
    let mix = Mix {
        flash: job.bag.flash.colour(),
        zones: &judged.way.light.zones,
        ambients: scout.lights,
        flash_share: 1.0,
        ambient_share: 0.0,
    };
    match (mix.flash_hue(), mix.ambient_hue()) {
        (Some(flash), Some(lamps)) => {
            ((flash.mired - lamps.mired) / colour_fault::LAMP_MIRED).powi(2)
                + ((flash.duv - lamps.duv) / colour_fault::SKIN_DUV).powi(2)
        }
        _ => 0.0,
    }
}

fn least_faulty(
    scout: &Scout<'_>,
    way: &Way,
    candidates: impl IntoIterator<Item = Option<Gel>>,
) -> Result<Option<Tried>, Failure> {
    let mut best: Option<Tried> = None;
    for gel in candidates {
        let tried = try_gel(scout, way, gel)?;
        if best.as_ref().is_none_or(|held| tried.points < held.points) {
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
pub(crate) fn choose_gel(scout: &Scout<'_>, way: &Way) -> Result<GelChoice, Failure> {
    let job = scout.job;
    let only = |worn| GelChoice { worn, to_buy: None };
    match &job.ask.gel {
        GelWish::None => return Ok(only(None)),
        GelWish::This(gel) => return Ok(only(Some(gel.clone()))),
        GelWish::Any if !minds_colour(job) => return Ok(only(None)),
        GelWish::Any => {}
    }
    let Some(owned) = least_faulty(scout, way, candidates(&job.bag.gels))? else {
        return Ok(only(None));
    };
    let to_buy = if scout.ambient_lx() > 0.0 {
        gel_to_buy(scout, way, &owned)?
    } else {
        None
    };
    Ok(GelChoice {
        worn: owned.gel,
        to_buy,
    })
}

fn gel_to_buy(scout: &Scout<'_>, way: &Way, owned: &Tried) -> Result<Option<Note>, Failure> {
    let job = scout.job;
    let sold = Gel::catalogue(job.bag.gel_family)
        .iter()
        .filter(|gel| !gel.is_effect());
    let Some(Tried {
        gel: Some(gel),
        points,
    }) = least_faulty(scout, way, sold.cloned().map(Some))?
    else {
        return Ok(None);
    };
    if owned.points - points < WORTH_BUYING_POINTS {
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

#[cfg(test)]
mod tests {
    use super::*;
    use light::GelFamily;

    #[test]
    fn every_pair_is_tried_and_no_deep_colour() {
        let gels = ["1/2 CTO", "1/4 CTO", "1/4 plus green", "red"]
            .map(|name| Gel::named(name, GelFamily::Straw).expect("known"));
        // None, three alone, three pairs.
        assert_eq!(candidates(&gels).len(), 7);
    }
}
