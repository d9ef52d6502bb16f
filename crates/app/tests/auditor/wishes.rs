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

/// A face this far from exact is what rounding the power to a click leaves.
const ROUNDED_AWAY: f64 = 1.0 / 6.0;
/// What was found stands in JSON as it was calculated.
const EXACT: f64 = 0.01;

/// By how much what was found lies off the wish, as SHOOT_FILE.md and the schema have it.
fn off(shoot: &Shoot, wish: &Wish) -> f64 {
    let (asked, found) = (wish.asked, wish.found);
    let off = match &wish.about {
        About::Exposed => found.abs() - ROUNDED_AWAY,
        About::InHand => asked - found,
        About::Recycle => found - asked,
        // Faces that nobody asked to be alike are held against none that differ.
        About::Evenness if shoot.ask.evenness.is_none() => found,
        About::Evenness => found - asked,
        About::SkinCast | About::SkinGreen => found.abs(),
        About::Direction(side, _) => match side.as_deref() {
            Some("left") => round_apart(found, -asked),
            Some("right") => round_apart(found, asked),
            _ => round_apart(found, asked).min(round_apart(found, -asked)),
        },
        About::Height
        | About::Background
        | About::AmbientAt
        | About::FlashUnder
        | About::Zone(_)
        | About::SkinColour
        | About::RoomColour => (found - asked).abs(),
        // What is asked is the edge of being kept, a tolerance below what is plainly open.
        About::OpenEyes(_) => asked + wish.tolerance - found,
        About::Soft => (0.5 / found).log2(),
        About::Hard => (found / 0.2).log2(),
        About::Ratio => (found / asked).log2().abs(),
        About::AmbientOut => found + 3.0,
        About::Other(_) => f64::NAN,
    };
    off.max(0.0)
}

/// Degrees between two directions round the head.
fn round_apart(a: f64, b: f64) -> f64 {
    let apart = (a - b).rem_euclid(360.0);
    apart.min(360.0 - apart)
}

/// Every claim about wishes.
pub fn check(shoot: &Shoot, said: &Said, findings: &mut Findings) {
    let wishes = said.wishes();
    for wish in &wishes {
        state(shoot, wish, findings);
        against_reading(shoot, said, wish, findings);
    }
    asked_of_file(shoot, &wishes, findings);
    headline(said, &wishes, findings);
}

fn state(shoot: &Shoot, wish: &Wish, findings: &mut Findings) {
    let times = wish.off / wish.tolerance;
    let by_number = match times {
        times if times <= 1.0 => State::Kept,
        times if times <= 2.0 => State::Nearly,
        _ => State::Missed,
    };
    // Right on an edge, rounding decides.
    let on_edge = [1.0, 2.0].iter().any(|edge| (times - edge).abs() < 1e-6);
    findings.holds(
        "wish: state against its number",
        by_number == wish.state || on_edge,
        || format!("{wish:?}"),
    );
    let points_say_kept = wish.points <= 0.0;
    findings.holds(
        "wish: points of what is not off",
        points_say_kept == (wish.off <= 0.0),
        || format!("{wish:?}"),
    );
    findings.holds("wish: without a number", wish.found.is_finite(), || {
        format!("{wish:?}")
    });
    findings.same(
        "wish: off against asked and found",
        &format!("{:?}", wish.about),
        wish.off,
        off(shoot, wish),
        EXACT,
    );
    if let About::Direction(_, tolerance) = wish.about {
        findings.same(
            "wish: tolerance of the direction",
            "degrees",
            wish.tolerance,
            tolerance.max(5.0),
            EXACT,
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
        About::InHand => same("wish: in hand against the flash line", flash.below_full, EXACT),
        About::Recycle => {
            let wait = shoot.bag.recycle_s * (-flash.below_full).exp2();
            same("wish: recycle against the power", wait, EXACT);
        }
        About::Exposed => same("wish: exposure against the exposure", said.exposure()[2], EXACT),
        About::OpenEyes(lit_side) => {
            let socket = if *lit_side {
                reading.lit_socket
            } else {
                reading.sockets
            };
            same("wish: eyes against the reading", socket, EXACT);
        }
        About::SkinCast => {
            same("wish: cast against the zones", said.colour_of("lit_side"), MIRED);
        }
        About::Direction(..) => same("wish: direction against the key", reading.azimuth, DEGREES),
        About::Height => same("wish: height against the key", reading.elevation, DEGREES),
        About::Soft | About::Hard => same("wish: softness against the reading", reading.softness, 0.01),
        About::Ratio => same(
            "wish: ratio against the reading",
            reading.ratio,
            0.01 * reading.ratio,
        ),
        About::Evenness => {
            let spread = said.faces().map_or(f64::NAN, |faces| faces.spread);
            same("wish: evenness against the faces", spread, STOPS);
        }
        About::AmbientOut | About::AmbientAt => {
            same("wish: ambient against the exposure", said.exposure()[1], STOPS);
        }
        About::FlashUnder => {
            let [flash, ambient, _] = said.exposure();
            same("wish: fill against the exposure", ambient - flash, STOPS);
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
        About::SkinGreen => same("wish: green against the zones", said.green_of_lit_side(), 0.0005),
        About::Background | About::Other(_) => {}
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
        Skin::Neutral | Skin::Within(_) if ask.colour.is_none() => {
            listed("neutral skin", &|about| *about == About::SkinCast, f64::NAN, 0.0);
        }
        _ => {}
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
    if let Some(under) = ask.fill {
        listed("fill", &|about| *about == About::FlashUnder, under, 0.01);
    }
    if let Some(level) = ask.zone.filter(|_| !shoot.zones.is_empty()) {
        listed("zone", &|about| matches!(about, About::Zone(_)), level, 0.01);
    }
}

/// The shortfall lists exactly what the wishes lack, by their own numbers, and calls the picture impossible only where a
/// must is not kept.
fn headline(said: &Said, wishes: &[Wish], findings: &mut Findings) {
    let forbids = |wish: &Wish| wish.must && wish.state != State::Kept;
    let lacking: Vec<&Wish> = wishes
        .iter()
        .filter(|wish| wish.state == State::Missed || forbids(wish))
        .collect();
    let Some((impossible, missed)) = said.shortfall() else {
        findings.holds(
            "headline: something is missed without a word",
            lacking.is_empty(),
            || format!("{lacking:?}"),
        );
        return;
    };
    findings.holds(
        "headline: impossible against the musts",
        impossible == wishes.iter().any(forbids),
        || format!("{impossible}, {wishes:?}"),
    );
    findings.holds(
        "headline: misses other wishes than the list",
        missed.len() == lacking.len(),
        || format!("{missed:?}, but {lacking:?}"),
    );
    for told in missed {
        let same = lacking.iter().find(|wish| wish.about == told.about);
        findings.same(
            "headline: another number than the wish",
            &format!("{:?}", told.about),
            told.found,
            same.map_or(f64::NAN, |wish| wish.found),
            1e-9,
        );
    }
}
