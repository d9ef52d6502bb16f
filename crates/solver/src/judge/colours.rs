//! What the camera is balanced for, and what is wished of the colours against that.

use crate::judge::mix::{Hue, Mix, best_balance, demands, in_steps};
use crate::practice::{NO_BALANCE_MIRED, UNUSABLE_DUV, wish};
use answer::{Job, Judgement, Settings, Wish, loss};
use colour::WhiteBalance;
use units::{Duv, Kelvin};

/// What a camera is balanced for.
#[derive(Clone, Copy)]
pub(crate) struct Balanced(pub Hue);

impl Balanced {
    /// Sets the camera to it.
    pub fn set(self, settings: &mut Settings) {
        settings.white_balance = Kelvin::new(1e6 / self.0.mired).unwrap_or(settings.white_balance);
        settings.tint = Duv(self.0.duv);
    }
}

/// White balance: the photographer's, or what the wish for colour asks, or the light on the lit side of the face when skin
/// must stay neutral, or the bare flash's.
pub(crate) fn balanced(job: &Job, mix: &Mix<'_>) -> Balanced {
    let bare = Hue {
        mired: job.bag.flash.colour_temperature().mired().value(),
        duv: job.ask.tint.map_or(0.0, Duv::value),
    };
    let insisted = |kelvin: Kelvin| Hue {
        mired: kelvin.mired().value(),
        ..bare
    };
    if job.ask.colour.is_some() || (job.ask.neutral_skin && job.bag.flash.gel().is_some()) {
        return Balanced(match demands(job, mix) {
            Some(demands) => best_balance(job, &demands),
            None => job.ask.white_balance.map_or(bare, insisted),
        });
    }
    if let Some(kelvin) = job.ask.white_balance {
        return Balanced(insisted(kelvin));
    }
    if !job.ask.neutral_skin {
        return Balanced(bare);
    }
    // Skin is to be neutral where the eye goes to: on the lit side, in the steps of a camera.
    let [lit, _] = mix.cheeks().map(Hue::of);
    Balanced(lit.map_or(bare, |lit| {
        Hue {
            mired: 1e6 / in_steps(1e6 / lit.mired),
            duv: job
                .ask
                .tint
                .unwrap_or_else(|| WhiteBalance::nearest_tint(Duv(lit.duv)))
                .value(),
        }
    }))
}

/// What was wished of the colours, with what came of it once the camera is balanced.
pub(crate) fn colour_wishes(job: &Job, mix: &Mix<'_>, balance: Balanced) -> Vec<Judgement> {
    let mut all = match (job.ask.colour, job.ask.neutral_skin) {
        (Some(_), _) => wished_colours(job, mix, balance.0),
        (None, true) => neutral_skin(job, mix, balance.0),
        (None, false) => Vec::new(),
    };
    for judgement in &mut all {
        judgement.must |= job.ask.musts.contains(&judgement.kind);
    }
    all
}

/// Skin that is neutral where the eye goes to: on the lit side. Light without a colour temperature is as far off as
/// anything gets.
fn neutral_skin(job: &Job, mix: &Mix<'_>, balance: Hue) -> Vec<Judgement> {
    let [lit, _] = mix.cheeks().map(Hue::of);
    let mired = lit.map_or(wish::LOST_MIRED, |lit| lit.mired - balance.mired);
    let duv = lit.map_or(0.0, |lit| lit.duv - balance.duv);
    // Half of what skin bears is hardly seen; what it bears is the edge of being missed.
    let tolerance = (0.5 * job.ask.cast_limit.value()).max(wish::FINEST_MIRED);
    let (green, green_weight) = wish::GREEN;
    vec![
        Judgement::new(Wish::NeutralSkin, mired, mired.abs(), tolerance, wish::CAST),
        Judgement::new(Wish::NoGreenMagenta, duv, duv.abs(), green, green_weight),
    ]
}

/// Points of a shadow side in another colour than the lit one. Where both are equally bright they are those of any wish; they
/// go with the fourth power of the shadow's part of the light, for in a shadow a stop down colour counts a fifth, and two
/// stops down it is hardly seen (ours).
pub(crate) fn sides_apart_points(mix: &Mix<'_>) -> f64 {
    let sides = mix.cheeks();
    let part = sides[1].y / (sides[0].y + sides[1].y).max(1e-12);
    match sides.map(Hue::of) {
        [Some(lit), Some(shadow)] => {
            let mired = (lit.mired - shadow.mired) / NO_BALANCE_MIRED;
            let duv = (lit.duv - shadow.duv) / UNUSABLE_DUV;
            (2.0 * part).powi(4) * loss(mired.hypot(duv))
        }
        _ => 0.0,
    }
}

/// The colours that were wished of skin and room.
fn wished_colours(job: &Job, mix: &Mix<'_>, balance: Hue) -> Vec<Judgement> {
    let colour = job.ask.colour.unwrap_or_default();
    let shift = |light| Hue::of(light).map(|hue| hue.mired - balance.mired);
    let [lit, shadow] = mix.cheeks().map(shift);
    let off = |shift: Option<f64>| shift.map_or(-1.0, |shift| (shift - colour.skin.value()).abs());
    // A tone that is wished for is that of the side which the eye goes to; neutral skin is neutral on both.
    let shadow_side = colour.skin.value() == 0.0 && off(shadow) > off(lit);
    let skin = if shadow_side { shadow } else { lit };
    let (tolerance, weight) = wish::SKIN;
    let skin = skin.map(|found| {
        let asked = Wish::Skin {
            mired: colour.skin,
            shadow_side,
        };
        Judgement::new(asked, found, off(Some(found)), tolerance, weight)
    });
    let (tolerance, weight) = wish::ROOM;
    let room = colour.room.and_then(|mired| {
        let found = shift(mix.background())?;
        let off = (found - mired.value()).abs();
        Some(Judgement::new(
            Wish::Room { mired },
            found,
            off,
            tolerance,
            weight,
        ))
    });
    skin.into_iter().chain(room).collect()
}
