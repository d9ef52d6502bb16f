//! Each wish: its state against its own numbers, its number against the reading, and whether every wish of the file is
//! there.

use crate::findings::Findings;
use crate::parts::{About, State, Wish};
use crate::said::Said;
use crate::shoot::{AmbientWish, Shoot, Skin};

/// Rounding of a printed degree, of a printed tenth of a stop and of a mired: two numbers for one thing may differ by as
/// much.
const DEGREES: f64 = 1.0;
const STOPS: f64 = 0.1;
const MIRED: f64 = 1.0;
/// Half a click, rounded up: the power that is set may differ by as much from the exact one.
const HALF_A_CLICK: f64 = 0.17;

/// How far a wish may be off before it is missed, as the program's numbers of practice have it.
fn tolerance(wish: &Wish) -> f64 {
    match &wish.about {
        About::InHand | About::LeastPower | About::AmbientOut => HALF_A_CLICK,
        About::Recycle => 0.02 * wish.asked,
        About::Direction(_, tolerance) => *tolerance,
        About::Height => 25.0,
        About::Ratio | About::Background | About::AmbientAt => 0.5,
        About::Evenness => 0.05,
        About::Zone(_) => 1.0 / 3.0 + 0.01,
        About::SkinGreen => 0.008,
        About::SkinColour | About::RoomColour => f64::NAN,
        About::SkinCast | About::Soft | About::Hard | About::Other(_) => 0.0,
    }
}

/// By how much what was found lies off the wish, in the direction that matters; NaN where the wish has no such number.
fn off(wish: &Wish) -> f64 {
    let (asked, found) = (wish.asked, wish.found);
    match &wish.about {
        About::InHand => asked - found,
        About::Recycle | About::Evenness => found - asked,
        About::SkinCast => found.abs() - asked,
        About::SkinGreen | About::Ratio => found.abs(),
        About::Direction(side, _) => match side.as_deref() {
            Some("left") => (found + asked).abs(),
            Some("right") => (found - asked).abs(),
            _ => (found.abs() - asked).abs(),
        },
        About::Height | About::Background | About::AmbientAt | About::Zone(_) => (found - asked).abs(),
        About::Soft => 0.25 - found,
        About::Hard => found - 0.35,
        About::AmbientOut => found + 3.0,
        About::LeastPower | About::SkinColour | About::RoomColour | About::Other(_) => f64::NAN,
    }
}

/// Every claim about wishes.
pub fn check(shoot: &Shoot, said: &Said, findings: &mut Findings) {
    let wishes = said.wishes();
    for wish in &wishes {
        state(wish, findings);
        against_reading(shoot, said, wish, findings);
    }
    asked_of_file(shoot, &wishes, findings);
    headline(said, &wishes, findings);
}

fn state(wish: &Wish, findings: &mut Findings) {
    let kept = wish.state == State::Kept;
    findings.holds(
        "wish: state against what is short",
        kept == (wish.short <= 0.0),
        || format!("{wish:?}"),
    );
    findings.holds("wish: without a number", !wish.found.is_nan(), || {
        format!("{wish:?}")
    });
    let (off, tolerance) = (off(wish), tolerance(wish));
    if !(off - tolerance).is_nan() {
        let beyond = (off - tolerance).max(0.0);
        findings.same(
            "wish: short against asked and found",
            &format!("{:?}", wish.about),
            wish.short,
            beyond,
            0.01,
        );
    }
    if let About::Other(name) = &wish.about {
        findings.holds("wish: unknown to the auditor", false, || name.clone());
    }
}

/// One key has one number, and so has everything else.
fn against_reading(shoot: &Shoot, said: &Said, wish: &Wish, findings: &mut Findings) {
    let (reading, flash) = (said.reading(), said.flash());
    let mut same = |claim, other: f64, within: f64| {
        findings.same(claim, &format!("{:?}", wish.about), wish.found, other, within);
    };
    match &wish.about {
        About::InHand => same(
            "wish: in hand against the flash line",
            flash.in_hand,
            HALF_A_CLICK,
        ),
        About::Recycle => {
            let wait = shoot.bag.recycle_s * (-flash.below_full).exp2();
            // The wait goes with the power, which is rounded by half a click.
            same("wish: recycle against the power", wait, 0.13 * wait);
        }
        About::SkinCast => same("wish: cast against the reading", reading.cast_mired, MIRED),
        About::SkinGreen => same("wish: green against the reading", reading.cast_duv, 0.0005),
        About::Direction(..) => same("wish: direction against the key", reading.azimuth, DEGREES),
        About::Height => same("wish: height against the key", reading.elevation, DEGREES),
        About::Soft | About::Hard => same("wish: softness against the reading", reading.softness, 0.01),
        About::Ratio => same(
            "wish: ratio against the reading",
            (reading.ratio / wish.asked).log2(),
            STOPS,
        ),
        About::Evenness => {
            let spread = said.faces().map_or(f64::NAN, |faces| faces.spread);
            same("wish: evenness against the faces", spread, STOPS);
        }
        About::AmbientOut | About::AmbientAt => {
            same("wish: ambient against the exposure", said.exposure()[1], STOPS);
        }
        About::Zone(name) => {
            let zones = said.zones();
            let level = zones
                .iter()
                .find(|zone| zone.0 == *name)
                .map_or(f64::NAN, |zone| zone.1);
            same("wish: zone against the zones", level, 0.01);
        }
        About::SkinColour => {
            let sides = [said.colour_of("lit_side"), said.colour_of("shadow_side")];
            let nearest = sides
                .into_iter()
                .min_by(|a, b| (a - wish.found).abs().total_cmp(&(b - wish.found).abs()));
            same(
                "wish: skin's colour against the zones",
                nearest.unwrap_or(f64::NAN),
                MIRED,
            );
        }
        About::RoomColour => {
            same(
                "wish: room's colour against the zones",
                said.colour_of("background"),
                MIRED,
            );
        }
        About::LeastPower | About::Background | About::Other(_) => {}
    }
}

/// Whatever the file asks is among the wishes, with the amount that it asks.
fn asked_of_file(shoot: &Shoot, wishes: &[Wish], findings: &mut Findings) {
    let ask = &shoot.ask;
    let mut listed = |what: &str, is: &dyn Fn(&About) -> bool, amount: f64, within: f64| {
        let found = wishes.iter().find(|wish| is(&wish.about));
        findings.holds("wish: asked in the file and not listed", found.is_some(), || {
            what.to_owned()
        });
        if let Some(wish) = found {
            findings.same("wish: amount against the file", what, wish.asked, amount, within);
        }
    };
    let [azimuth, tolerance, elevation] = ask.key.angles();
    listed("in hand", &|about| *about == About::InHand, ask.in_hand, 0.01);
    let of_key = |about: &About| match about {
        About::Direction(side, listed) => side.as_deref() == ask.side && (listed - tolerance).abs() < 0.01,
        _ => false,
    };
    listed("direction, its side and tolerance", &of_key, azimuth, 0.01);
    listed("height", &|about| *about == About::Height, elevation, 0.01);
    match ask.softness {
        "soft" => listed("soft", &|about| *about == About::Soft, f64::NAN, 0.0),
        "hard" => listed("hard", &|about| *about == About::Hard, f64::NAN, 0.0),
        _ => {}
    }
    match ask.skin {
        Skin::Neutral => listed("neutral skin", &|about| *about == About::SkinCast, 40.0, 0.01),
        Skin::Within(mired) => listed("skin", &|about| *about == About::SkinCast, mired, 0.01),
        Skin::Any => {}
    }
    if let Some(ratio) = ask.ratio {
        listed("ratio", &|about| *about == About::Ratio, ratio, 0.01);
    }
    if let Some(stops) = ask.evenness.filter(|_| shoot.sitters.len() > 1) {
        listed("evenness", &|about| *about == About::Evenness, stops, 0.04);
    }
    if let Some(stops) = ask.background {
        listed("background", &|about| *about == About::Background, stops, 0.01);
    }
    if let Some(seconds) = ask.recycle_s {
        listed("recycle", &|about| *about == About::Recycle, seconds, 0.01);
    }
    match ask.ambient {
        Some(AmbientWish::Out) => listed("ambient out", &|about| *about == About::AmbientOut, f64::NAN, 0.0),
        Some(AmbientWish::At(level)) => listed("ambient", &|about| *about == About::AmbientAt, level, 0.01),
        None => {}
    }
    if let Some(level) = ask.zone.filter(|_| !shoot.zones.is_empty()) {
        listed("zone", &|about| matches!(about, About::Zone(_)), level, 0.01);
    }
}

/// "Cannot be met" is said exactly where something is missed, and of the answer that is shown.
fn headline(said: &Said, wishes: &[Wish], findings: &mut Findings) {
    let missed: Vec<&Wish> = wishes.iter().filter(|wish| wish.state == State::Missed).collect();
    let (nearest, shown) = (said.nearest(), said.in_short().way);
    findings.holds(
        "headline: cannot be met, but nothing is missed",
        nearest.is_none() || !missed.is_empty(),
        || format!("nearest to it: {nearest:?}"),
    );
    findings.holds(
        "headline: something is missed without a word",
        nearest.is_some() || missed.is_empty(),
        || format!("{missed:?}"),
    );
    let Some(nearest) = nearest else { return };
    findings.holds(
        "headline: nearest is another way than the lines",
        nearest == shown,
        || format!("nearest {nearest}, but the lines {shown}"),
    );
    if nearest == shown {
        for binding in said.binding() {
            let same = missed.iter().find(|wish| wish.about == binding.about);
            findings.holds("headline: misses what the wishes keep", same.is_some(), || {
                format!("{binding:?}")
            });
            if let Some(wish) = same {
                let what = format!("{:?}", wish.about);
                findings.same(
                    "headline: another number than the wish",
                    &what,
                    binding.found,
                    wish.found,
                    0.05,
                );
            }
        }
    }
}
