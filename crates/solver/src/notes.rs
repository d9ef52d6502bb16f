//! What the photographer should do or know, and what could hurt someone.

use crate::answer::{Answer, Route, SurfaceVerdict, Verdict};
use crate::colouring::USABLE_MIRED;
use crate::reading::mired_between;
use crate::score::{SPILL_LIMIT, UNUSABLE_CAST_MIRED};
use crate::{Job, Side, words};
use units::Stops;

/// Two lights on one face this far apart can share one balance (common practice: usable).
const ONE_BALANCE_MIRED: f64 = 25.0;
/// Further apart than this they cannot (common practice: rejected).
const NO_BALANCE_MIRED: f64 = 40.0;
/// Stops by which the fine room may disagree with the search about spill before it is worth a word.
const NOT_WORTH_A_FLAG: f64 = 0.25;
/// Turned less than this away from the face, a bare head spills onto it (common practice).
const SPILL_TURN_DEG: f64 = 70.0;
/// Ambient this far under does not matter for colour (common practice: three stops).
const AMBIENT_MATTERS: f64 = -3.0;

/// Notes for an answer, the important ones first.
pub(crate) fn notes(job: &Job, answer: &Answer) -> Vec<String> {
    let mut notes = Vec::new();
    notes.extend(power_note(job, answer));
    notes.extend(sync_note(job, answer));
    notes.extend(spill_note(answer));
    notes.extend(zoom_note(answer));
    notes.extend(mixed_light_note(job, answer));
    notes.extend(answer.colouring.told.iter().cloned());
    notes.extend(tempting_wall_note(job, answer));
    notes.extend(eyes_note(answer));
    notes
}

/// A reading of daylight that lies further from what was computed than such skies do.
pub(crate) fn daylight(job: &Job, off_computed: Option<Stops>) -> Option<String> {
    let (outdoors, off) = (job.outdoors.as_ref()?, off_computed?);
    (off.value().abs() > outdoors.spread.value()).then(|| {
        let brighter = if off.value() > 0.0 { "brighter" } else { "darker" };
        format!(
            "The daylight that you metered is {:.1} stops {brighter} than computed for this sky, and skies like it \
             spread by about {:.1}: look at the weather, the time and what stands before the sky. Your reading is used.",
            off.value().abs(),
            outdoors.spread.value(),
        )
    })
}

/// Short of power, or of the stops asked in hand.
fn power_note(job: &Job, answer: &Answer) -> Option<String> {
    let left = answer.flash.exact_stops_below_full;
    let asked = job.ask.in_hand.value();
    if left < 0.0 {
        return Some(format!(
            "Full power falls {:.1} stops short: open up, raise the ISO, or bring the light nearer.",
            -left
        ));
    }
    let least = job.bag.flash.least_power_stops();
    if left > least + 0.17 {
        return Some(format!(
            "Even the least power is {:.1} stops too much: stop down, lower the ISO, or move the flash away.",
            left - least
        ));
    }
    if left < asked - 0.17 {
        return Some(format!(
            "Only {left:.1} stops are left in hand, {:.1} fewer than asked: recycling will be slow and the flash will get warm.",
            asked - left
        ));
    }
    near_full_power(job, answer)
}

/// Near full power: what waiting costs, and what a stop of speed would do to flash and ambient alike.
fn near_full_power(job: &Job, answer: &Answer) -> Option<String> {
    const NEAR: f64 = 0.75;
    let left = answer.flash.exact_stops_below_full;
    if left >= NEAR {
        return None;
    }
    let wait = job.bag.flash.recycle_s(left);
    let iso = answer.settings.iso.value();
    let ambient = answer.exposure.ambient_alone.map_or_else(String::new, |ambient| {
        format!(
            ", and puts the light that is there at {:+.1}",
            ambient.value() + 1.0
        )
    });
    Some(format!(
        "Near full power: watch the recycling, about {wait:.1} s after each frame. ISO {:.0} leaves a stop more in hand{ambient}.",
        2.0 * iso
    ))
}

/// A shutter that the photographer insisted on but that the flash cannot keep up with.
fn sync_note(job: &Job, answer: &Answer) -> Option<String> {
    (!camera::within_sync(answer.settings.shutter, job.body.sync)).then(|| {
        format!(
            "{} is faster than the sync speed of {}: part of the frame will miss the flash.",
            answer.settings.shutter, job.body.sync
        )
    })
}

/// Direct spill: how far under, and when to flag the head.
fn spill_note(answer: &Answer) -> Option<String> {
    if matches!(answer.aim.route, Route::Direct) {
        return None;
    }
    let away = angle_from_face(answer);
    let rule = format!(
        "If the head is turned less than about {SPILL_TURN_DEG:.0}° away from the face, block the direct spill with a card or a hand on the sitter's side"
    );
    if answer.aim.flagged {
        return Some(format!(
            "Flag the head: a dark card a hand's length from it, between the head and the face, or its direct spill would show as a hard shadow ({:.0}° away from the face). {rule}.",
            away
        ));
    }
    Some(match answer.key.spill {
        Some(spill) if spill.value() > SPILL_LIMIT + NOT_WORTH_A_FLAG => format!(
            "Block the head on the sitter's side: its direct spill is only {:.1} stops under the bounce. {rule}.",
            -spill.value()
        ),
        Some(spill) => format!(
            "{rule}; here it is turned {away:.0}° away and the spill stays {:.1} stops under.",
            -spill.value()
        ),
        None => format!("{rule}; here it is turned {away:.0}° away and nothing of the beam meets the face."),
    })
}

/// Angle between the head's axis and the direction to the face, in degrees.
fn angle_from_face(answer: &Answer) -> f64 {
    let (turn, tilt) = (answer.aim.turn_deg.to_radians(), answer.aim.tilt_deg.to_radians());
    (turn.cos() * tilt.cos()).clamp(-1.0, 1.0).acos().to_degrees()
}

/// What the zoom does here: something on a small board, nothing on a wall.
fn zoom_note(answer: &Answer) -> Option<String> {
    let chosen = answer.surfaces.iter().find(|s| s.verdict == Verdict::Chosen)?;
    match (&chosen.route, chosen.zoom_gain) {
        (Route::HeldBoard { .. } | Route::Standing { .. }, Some(gain)) => Some(format!(
            "A small panel is better with the head zoomed in (here {gain:+.1} stop from zoom 50 to 105); a wall is not: it becomes the lamp whatever the zoom."
        )),
        (Route::Bounce { .. }, Some(gain)) => Some(format!(
            "The zoom hardly matters on a wall ({gain:+.1} stop from 50 to 105): the wall becomes the lamp. Only a small panel gains from zooming in."
        )),
        _ => None,
    }
}

/// Ambient and key of different colours.
fn mixed_light_note(job: &Job, answer: &Answer) -> Option<String> {
    let sources = &answer.colouring.sources;
    let matters = answer
        .exposure
        .ambient_as_metered
        .iter()
        .any(|(_, level)| level.value() > AMBIENT_MATTERS);
    if !matters || !job.ask.neutral_skin {
        return None;
    }
    let flash = sources.first()?.kelvin?;
    let (name, apart) = sources[1..]
        .iter()
        .filter_map(|source| Some((&source.name, mired_between(source.kelvin?, flash).abs().value())))
        .max_by(|a, b| a.1.total_cmp(&b.1))?;
    // Where the sides of the face are measurably apart, that is told with what to do about it.
    let sides = answer.colouring.sides_apart()?.value();
    Some(if apart > NO_BALANCE_MIRED && sides <= USABLE_MIRED {
        format!(
            "{name} and flash differ by about {apart:.0} mired where they arrive, but reach both sides of the face in such shares that these lie only {sides:.0} mired apart: one balance serves."
        )
    } else if sides > USABLE_MIRED {
        return None;
    } else if apart > ONE_BALANCE_MIRED {
        format!(
            "{name} and flash differ by about {apart:.0} mired: one balance is a compromise, and the two sides of the face will differ a little."
        )
    } else {
        format!(
            "{name} and flash differ by only about {apart:.0} mired, so one white balance serves both sides of the face."
        )
    })
}

/// A coloured surface that stands where the key is wished: what if it must be used all the same?
fn tempting_wall_note(job: &Job, answer: &Answer) -> Option<String> {
    if matches!(answer.aim.route, Route::Bounce { .. }) {
        return None;
    }
    let wanted = |s: &&SurfaceVerdict| {
        let Some(key) = &s.key else { return false };
        let side = match job.ask.key.side {
            Some(Side::Left) => key.azimuth_deg < 0.0,
            Some(Side::Right) => key.azimuth_deg > 0.0,
            None => true,
        };
        let near = (key.azimuth_deg.abs() - job.ask.key.azimuth_deg).abs() < 25.0;
        let coloured =
            key.cast.shift.value().abs() > UNUSABLE_CAST_MIRED || key.cast.duv.value().abs() > 0.006;
        matches!(s.route, Route::Bounce { .. }) && s.verdict != Verdict::Chosen && side && near && coloured
    };
    let wall = answer.surfaces.iter().filter(wanted).min_by(|a, b| {
        let points = |s: &SurfaceVerdict| s.score.iter().map(|(_, p)| p).sum::<f64>();
        points(a).total_cmp(&points(b))
    })?;
    let key = wall.key.as_ref()?;
    let first = &key.first_bounce_cast;
    let (cool, warm) = (
        key.cast.kelvin.value().min(first.kelvin.value()),
        key.cast.kelvin.value().max(first.kelvin.value()),
    );
    let hundreds = |k: f64| (k / 100.0).round() * 100.0;
    let tint = if key.cast.duv.value() > 0.002 {
        " with a little magenta"
    } else if key.cast.duv.value() < -0.002 {
        " with a little green"
    } else {
        ""
    };
    let ambient = answer
        .exposure
        .ambient_as_metered
        .iter()
        .find(|(_, level)| level.value() > AMBIENT_MATTERS);
    let apart = ambient.and_then(|(name, _)| wall.against_ambient.iter().find(|(known, _)| known == name));
    let mixed = apart.map_or(String::new(), |(name, apart)| {
        format!(
            " ({name} and this bounce would be about {:.0} mired apart: no single balance serves both)",
            apart.value().abs()
        )
    });
    let shut = ambient.map_or("gel the look on purpose".to_owned(), |(name, _)| {
        format!("shut out the {name} or gel the look on purpose")
    });
    let range = if hundreds(cool) == hundreds(warm) {
        format!("{:.0} K", hundreds(cool))
    } else {
        format!("{:.0} to {:.0} K", hundreds(cool), hundreds(warm))
    };
    Some(format!(
        "If the {} must be used all the same{mixed}: {shut}, then one white balance near {range}{tint}. Its cast: {}.",
        wall.name,
        words::cast_words(key.cast.shift.value(), key.cast.duv.value())
    ))
}

fn eyes_note(answer: &Answer) -> Option<String> {
    (answer.key.elevation_deg > 45.0 || answer.key.sockets.value() < -1.0).then(|| {
        "Deep-set eyes will go dark under so steep a light: chin up a little, or a white card at the chest.".to_owned()
    })
}

/// Cautions, short and rare.
pub(crate) fn cautions(job: &Job, answer: &Answer) -> Vec<String> {
    let mut cautions = Vec::new();
    let direct = matches!(answer.aim.route, Route::Direct);
    let near = answer.aim.legs_m[0];
    if direct && near < 1.0 {
        cautions.push(format!(
            "A bare flash {near:.1} m from open eyes dazzles: keep 1 m or more, and say when it will fire."
        ));
    }
    let youngest = job
        .sitters
        .iter()
        .map(|s| s.recipe.age_years)
        .fold(f32::MAX, f32::min);
    if youngest <= 4.0 && (direct || near < 1.5) {
        cautions.push("Small children: bounce the flash or keep 1.5 m away, use the lowest power that serves, and stop when they turn away or a parent asks.".to_owned());
    }
    if sun_ahead(job) {
        cautions.push("The sun stands ahead of the lens: do not look at it through an optical finder, and do not leave the lens pointed at it.".to_owned());
    }
    if answer.flash.in_hand.value() < 0.34 {
        cautions.push("Near full power the flash gets hot and recycles slowly: rest it as its maker says, and stop if it smells.".to_owned());
    }
    cautions
}

/// Whether the sun stands within this of the camera's line, in degrees (ours: a portrait lens sees about 30).
const AHEAD_DEG: f32 = 25.0;

/// Whether the camera looks towards the sun.
fn sun_ahead(job: &Job) -> bool {
    let (_, _, forward) = job.viewpoint.axes();
    let disc = job.outdoors.as_ref().and_then(|outdoors| outdoors.disc.as_ref());
    disc.is_some_and(|disc| {
        disc.light.name == "sun" && disc.towards.dot(forward) > AHEAD_DEG.to_radians().cos()
    })
}
