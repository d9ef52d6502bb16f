//! What the photographer should do or know, and what could hurt someone.

use crate::judge::clashes::clashes;
use crate::place::amounts::{Amounts, Finished};
use crate::practice::{
    AHEAD_DEG, BALANCE_STEP_K, BLACK_RATIO, CHILDREN_M, CLEAR_DUV, DAZZLES_M, DEEP_EYES_DEG, HARDLY_THERE,
    LIGHTS_SHARE_MIRED, NEAR_FULL_POWER, NO_BALANCE_MIRED, ONE_OF_TWO, ROUNDED_AWAY, SHADING_APART_DEG,
    SIDES_SHARE_MIRED, SMALL_CHILD_YEARS, SPILL_DOUBT, SUNLIT_EV, TEMPTING_DEG, WITHIN_A_CLICK,
};
use answer::{
    Aim, AmbientLevel, AmbientWish, Answer, Caution, Job, Judgement, KeyReading, LightName, Note, Route,
    Side, SourceName, SurfaceVerdict, TemptedLight, Verdict, Wish, WishKind, WishState,
};
use glam::Vec3;
use units::{Iso, Kelvin, MiredShift, ShutterTime, Stops};

/// Notes for an answer, the important ones first; those on its colours are known already.
pub(crate) fn notes(job: &Job, answer: &Answer, of_colours: Vec<Note>) -> Vec<Note> {
    let mut notes = Vec::new();
    notes.extend(light_is_key(answer));
    notes.extend(power_note(job, answer));
    notes.extend(sync_note(job, answer.settings.shutter));
    notes.extend(spill_note(job, &answer.aim, answer.key.spill));
    notes.extend(zoom_note(answer));
    notes.extend(mixed_light_note(job, answer));
    notes.extend(of_colours);
    notes.extend(tempting_wall_note(job, answer));
    notes.extend(eyes_note(answer.key.elevation_deg, &answer.wishes));
    notes.extend(black_shadow(job, answer.key.ratio));
    notes
}

/// Wishes that exclude each other: they come first, for no place and no bag mends them.
pub(crate) fn excluded(job: &Job) -> impl Iterator<Item = Note> {
    clashes(job).into_iter().map(|clash| Note::Excluded { clash })
}

/// A reading of daylight that lies further from what was computed than such skies do.
pub(crate) fn daylight_note(job: &Job, off_computed: Option<Stops>) -> Option<Note> {
    let (outdoors, stops) = (job.outdoors.as_ref()?, off_computed?);
    let spread = outdoors.spread;
    (stops.value().abs() > spread.value()).then_some(Note::DaylightOff { stops, spread })
}

/// Flash and light that is there from so far apart that the shading of the face shows neither alone.
pub(crate) fn two_lights(key: &KeyReading, picture: &Finished<'_>, facing: Vec3) -> Option<Note> {
    let skin = key.skin?;
    let apart = (skin.azimuth_deg - key.azimuth_deg + 180.0).rem_euclid(360.0) - 180.0;
    let dark = Amounts::default();
    let without_flash = Finished {
        flash: &dark,
        ..*picture
    };
    let (there_deg, _) = without_flash.direction(facing);
    let both = (ONE_OF_TWO..1.0 - ONE_OF_TWO).contains(&key.flash.share);
    (both && apart.abs() > SHADING_APART_DEG).then_some(Note::TwoLights {
        flash_deg: key.flash.azimuth_deg,
        there_deg,
    })
}

/// Lights that are there and together bring more to the face than the flash does.
fn light_is_key(answer: &Answer) -> Option<Note> {
    let share = 1.0 - answer.key.flash.share;
    if share <= 0.5 {
        return None;
    }
    let lights = answer
        .colouring
        .sources
        .iter()
        .filter_map(|source| match &source.source {
            SourceName::Flash => None,
            SourceName::Light { light } => Some((light, source.share)),
        });
    let (light, _) = lights.max_by(|a, b| a.1.total_cmp(&b.1))?;
    let key = answer
        .wishes
        .iter()
        .find(|wish| wish.kind == WishKind::Direction)?;
    let not_from = match &key.asked {
        Wish::KeyFrom { side, .. } if key.state == WishState::Missed => {
            side.filter(|side| (*side == Side::Left) == (key.found > 0.0))
        }
        _ => None,
    };
    Some(Note::LightIsKey {
        light: light.clone(),
        share,
        under: Stops((share / answer.key.flash.share.max(1e-6)).log2()),
        not_from,
    })
}

/// Too little or too much light, or fewer stops in hand than asked: in the numbers of the wishes, with what the light that
/// is there comes to by itself.
fn short_of_power(wishes: &[Judgement], ambient: Option<Stops>) -> Option<Note> {
    let mut off = wishes.iter().filter(|wish| wish.state != WishState::Kept);
    off.find_map(|wish| {
        let stops = Stops(wish.found.abs());
        let ambient = ambient.filter(|ambient| ambient.value() > ROUNDED_AWAY);
        match (wish.kind, ambient) {
            (WishKind::Exposure, _) if wish.found < 0.0 => Some(Note::FallsShort { stops }),
            (WishKind::Exposure, Some(stops)) => Some(Note::ThereTooMuch { stops }),
            (WishKind::Exposure, None) => Some(Note::LeastPowerTooMuch { stops }),
            (WishKind::Power, _) => Some(Note::LittleInHand {
                left: Stops(wish.found),
                fewer: Stops(wish.off),
            }),
            _ => None,
        }
    })
}

/// What to know of the flash's power.
fn power_note(job: &Job, answer: &Answer) -> Option<Note> {
    short_of_power(&answer.wishes, answer.exposure.ambient_alone).or_else(|| {
        let left = answer.flash.power.stops_below_full();
        near_full_power(job, left, answer.settings.iso, answer.exposure.ambient_alone)
    })
}

/// Near full power: what waiting costs, and what a stop of speed would do to flash and ambient alike.
fn near_full_power(job: &Job, left: f64, iso: Iso, ambient: Option<Stops>) -> Option<Note> {
    if left >= NEAR_FULL_POWER {
        return None;
    }
    Some(Note::NearFullPower {
        wait_s: job.bag.flash.recycle_s(left),
        iso: Iso::new(2.0 * iso.value()).ok()?,
        ambient: ambient.map(|ambient| ambient + Stops(1.0)),
    })
}

/// A shutter that the photographer insisted on but that the flash cannot keep up with.
fn sync_note(job: &Job, shutter: ShutterTime) -> Option<Note> {
    let sync = job.body.sync;
    (!camera::within_sync(shutter, sync)).then_some(Note::BeyondSync { shutter, sync })
}

/// Direct spill: how far under, and when to flag the head.
fn spill_note(job: &Job, aim: &Aim, spill: Option<Stops>) -> Option<Note> {
    if matches!(aim.route, Route::Direct) {
        return None;
    }
    let away_deg = angle_from_face(job, aim);
    if aim.flagged {
        return Some(Note::FlagHead { away_deg });
    }
    Some(match spill {
        Some(spill) if spill.value() > HARDLY_THERE + SPILL_DOUBT => Note::BlockSpill { under: -spill },
        Some(spill) => Note::SpillStaysUnder {
            away_deg,
            under: -spill,
        },
        None => Note::SpillMissesFace { away_deg },
    })
}

/// Angle at the flash between the head's axis and the direction to the metered face, in degrees: 90 for a head at the
/// height of the eyes that points along a wall square to the line to the sitter.
fn angle_from_face(job: &Job, aim: &Aim) -> f64 {
    let to_face = job.sitters[0].face() - aim.flash;
    f64::from((aim.target - aim.flash).angle_between(to_face)).to_degrees()
}

/// What the zoom does here: something on a small board, nothing on a wall.
fn zoom_note(answer: &Answer) -> Option<Note> {
    let chosen = answer.surfaces.iter().find(|s| s.verdict == Verdict::Chosen)?;
    let gain = Stops(chosen.zoom_gain?);
    match chosen.route {
        Route::HeldBoard { .. } | Route::Standing { .. } => Some(Note::ZoomHelpsPanel { gain }),
        Route::Bounce { .. } => Some(Note::ZoomHardlyMatters { gain }),
        Route::Direct | Route::Open => None,
    }
}

/// The first of the lights that are there which matters for colour.
fn light_that_matters(answer: &Answer) -> Option<&LightName> {
    let mut metered = answer.exposure.ambient_as_metered.iter();
    let matters = metered.find(|there| there.level.value() > HARDLY_THERE)?;
    Some(&matters.light)
}

/// Ambient and key of different colours.
fn mixed_light_note(job: &Job, answer: &Answer) -> Option<Note> {
    light_that_matters(answer)?;
    if !job.ask.neutral_skin {
        return None;
    }
    let sources = &answer.colouring.sources;
    let flash = sources.first()?.kelvin?;
    let (light, apart) = sources
        .iter()
        .filter_map(|source| match &source.source {
            SourceName::Flash => None,
            SourceName::Light { light } => Some((light, (flash.mired() - source.kelvin?.mired()).abs())),
        })
        .max_by(|a, b| a.1.value().total_cmp(&b.1.value()))?;
    let light = light.clone();
    // Where the sides of the face are measurably apart, another note says what to do about it.
    let sides = answer.colouring.sides_apart()?;
    if sides.value() > SIDES_SHARE_MIRED {
        None
    } else if apart.value() > NO_BALANCE_MIRED {
        Some(Note::SharedShares { light, apart, sides })
    } else if apart.value() > LIGHTS_SHARE_MIRED {
        Some(Note::BalanceCompromise { light, apart })
    } else {
        Some(Note::BalanceServes { light, apart })
    }
}

/// A coloured surface that stands where the key is wished: what if it must be used all the same?
fn tempting_wall_note(job: &Job, answer: &Answer) -> Option<Note> {
    if matches!(answer.aim.route, Route::Bounce { .. }) {
        return None;
    }
    let wall = answer
        .surfaces
        .iter()
        .filter(|wall| tempts(job, wall))
        .min_by(|a, b| points_of(a).total_cmp(&points_of(b)))?;
    let key = wall.key.as_ref()?;
    let (all, first) = (key.cast.kelvin.value(), key.first_bounce_cast.kelvin.value());
    let light = light_that_matters(answer).map(|light| TemptedLight {
        light: light.clone(),
        apart: apart_from(wall, light),
    });
    Some(Note::TemptingWall {
        way: wall.way.clone(),
        light,
        balance_k: [stepped(all.min(first))?, stepped(all.max(first))?],
        cast: key.cast,
    })
}

/// The sum of what a surface lacks and takes.
fn points_of(surface: &SurfaceVerdict) -> f64 {
    surface.score.iter().map(|fault| fault.points).sum()
}

/// Whether a coloured wall stands where the key is wished.
fn tempts(job: &Job, wall: &SurfaceVerdict) -> bool {
    let Some(key) = &wall.key else { return false };
    let side = match job.ask.key.side {
        Some(Side::Left) => key.azimuth_deg < 0.0,
        Some(Side::Right) => key.azimuth_deg > 0.0,
        None => true,
    };
    let near = (key.azimuth_deg.abs() - job.ask.key.azimuth_deg).abs() < TEMPTING_DEG;
    let coloured = key.cast.shift.value().abs() > NO_BALANCE_MIRED || key.cast.duv.value().abs() > CLEAR_DUV;
    matches!(wall.route, Route::Bounce { .. }) && wall.verdict != Verdict::Chosen && side && near && coloured
}

/// How far a wall's light lies from one of the lights that are there.
fn apart_from(wall: &SurfaceVerdict, light: &LightName) -> Option<MiredShift> {
    let known = wall.against_ambient.iter().find(|known| known.light == *light)?;
    Some(known.apart.abs())
}

/// A balance as cameras step it.
fn stepped(kelvin: f64) -> Option<Kelvin> {
    Kelvin::new((kelvin / BALANCE_STEP_K).round() * BALANCE_STEP_K).ok()
}

/// Eyes that the light hardly reaches, or a light so steep that deep-set ones go dark.
fn eyes_note(elevation_deg: f64, wishes: &[Judgement]) -> Option<Note> {
    let dark = |wish: &Judgement| wish.kind == WishKind::Eyes && wish.state != WishState::Kept;
    (elevation_deg > DEEP_EYES_DEG || wishes.iter().any(dark)).then_some(Note::DeepSetEyes)
}

/// A shadow side that prints black where no ratio was asked.
fn black_shadow(job: &Job, ratio: f64) -> Option<Note> {
    (job.ask.ratio.is_none() && ratio > BLACK_RATIO).then_some(Note::BlackShadow { ratio })
}

/// Cautions, short and rare.
pub(crate) fn cautions(job: &Job, answer: &Answer) -> Vec<Caution> {
    let mut cautions = Vec::new();
    let direct = matches!(answer.aim.route, Route::Direct);
    let metres = answer.aim.legs_m[0];
    if direct && metres < DAZZLES_M {
        cautions.push(Caution::Dazzles {
            metres,
            keep_m: DAZZLES_M,
        });
    }
    let ages = job.sitters.iter().map(|sitter| sitter.recipe.age_years);
    let youngest = ages.fold(f32::MAX, f32::min);
    if youngest <= SMALL_CHILD_YEARS && (direct || metres < CHILDREN_M) {
        cautions.push(Caution::SmallChildren { keep_m: CHILDREN_M });
    }
    if sun_ahead(job) {
        cautions.push(Caution::SunAhead);
    }
    if answer.flash.in_hand.value() < WITHIN_A_CLICK {
        cautions.push(Caution::HotFlash);
    }
    cautions
}

/// Whether the camera looks towards the sun.
fn sun_ahead(job: &Job) -> bool {
    let (_, _, forward) = job.viewpoint.axes();
    let disc = job.outdoors.as_ref().and_then(|outdoors| outdoors.disc.as_ref());
    disc.is_some_and(|disc| {
        disc.light.name == LightName::Sun && disc.towards.dot(forward) > AHEAD_DEG.to_radians().cos()
    })
}

/// What to know about flash against the light that is there.
pub(crate) fn balance_notes(job: &Job, answer: &Answer) -> Vec<Note> {
    let mut notes = Vec::new();
    let wished = !job.ask.zones.is_empty() || matches!(job.ask.ambient, AmbientWish::Offset(_));
    if wished {
        notes.push(Note::ShutterLeavesFlash);
    }
    let nd = answer.settings.nd;
    if nd.value() > 0.0 {
        notes.extend([Note::FilterTakesBoth { nd }, Note::NoHighSpeedSync]);
    }
    let bright = job.zones.iter().map(|zone| zone.normal.value());
    let lights = job.ambients.iter().filter_map(|ambient| match ambient.reading {
        AmbientLevel::Reading(level) => Some(level.value()),
        AmbientLevel::Lumens(_) => None,
    });
    let sun = job.outdoors.iter().filter_map(|outdoors| {
        let disc = outdoors.disc.as_ref()?;
        Some(camera::ev_of(disc.light.illuminance).value())
    });
    if bright.chain(lights).chain(sun).any(|ev| ev > SUNLIT_EV) {
        notes.push(Note::OpenShade);
    }
    notes
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::trials::made_up;
    use glam::Vec3;

    #[test]
    fn power_has_a_note_when_there_is_too_little_or_too_much_of_it() {
        let asked = Wish::InHand { stops: Stops(1.0) };
        let check = |asked: &Wish, ambient: f64, found: f64, off: f64, expected: Option<Note>| {
            let wishes = [Judgement::new(asked.clone(), found, off, 0.2, 1.0)];
            assert_eq!(short_of_power(&wishes, Some(Stops(ambient))), expected);
        };
        let stops = Stops(0.5);
        // What is told is what the picture comes to, with the half click that is not held against it.
        check(&Wish::Exposed, -3.0, -0.5, 0.33, Some(Note::FallsShort { stops }));
        check(
            &Wish::Exposed,
            -3.0,
            0.5,
            0.33,
            Some(Note::LeastPowerTooMuch { stops }),
        );
        let there = Note::ThereTooMuch { stops: Stops(0.4) };
        check(&Wish::Exposed, 0.4, 0.5, 0.33, Some(there));
        let little = Note::LittleInHand {
            left: stops,
            fewer: stops,
        };
        check(&asked, -3.0, 0.5, 0.5, Some(little));
        // What is kept has no note.
        check(&asked, -3.0, 0.8, 0.2, None);
    }

    #[test]
    fn a_flash_near_full_power_makes_one_wait() {
        let (job, iso) = (made_up::job(), Iso::new(400.0).unwrap());
        let note = near_full_power(&job, 0.2, iso, Some(Stops(-4.0)));
        let expected = Note::NearFullPower {
            wait_s: job.bag.flash.recycle_s(0.2),
            iso: Iso::new(800.0).unwrap(),
            ambient: Some(Stops(-3.0)),
        };
        assert_eq!(note, Some(expected));
        assert_eq!(near_full_power(&job, 2.0, iso, None), None);
    }

    #[test]
    fn spill_has_a_note_by_how_far_under_it_is() {
        let job = made_up::job();
        let check = |flagged: bool, spill: Option<f64>, expected: fn(&Note) -> bool| {
            let aim = Aim {
                flagged,
                ..made_up::aim(&job)
            };
            let note = spill_note(&job, &aim, spill.map(Stops));
            assert!(
                note.as_ref().is_some_and(expected),
                "{flagged} {spill:?}: {note:?}"
            );
        };
        check(true, Some(-1.0), |note| matches!(note, Note::FlagHead { .. }));
        check(false, Some(-1.0), |note| matches!(note, Note::BlockSpill { .. }));
        check(false, Some(-5.0), |note| {
            matches!(note, Note::SpillStaysUnder { .. })
        });
        check(false, None, |note| matches!(note, Note::SpillMissesFace { .. }));
        let direct = Aim {
            route: Route::Direct,
            ..made_up::aim(&job)
        };
        assert_eq!(spill_note(&job, &direct, Some(Stops(0.0))), None);
    }

    #[test]
    fn the_angle_from_the_face_is_that_between_the_beam_and_the_face() {
        let job = made_up::job();
        let face = job.sitters[0].face();
        let check = |flash: Vec3, points: Vec3, expected: f64| {
            let aim = Aim {
                flash,
                target: flash + points,
                ..made_up::aim(&job)
            };
            let found = angle_from_face(&job, &aim);
            assert!((found - expected).abs() < 1e-3, "{found} for {expected}");
        };
        // From camera left of the sitter, where the lens axis and the line to the face are 90 degrees apart.
        let left = face - Vec3::X;
        check(left, Vec3::X, 0.0);
        check(left, Vec3::NEG_Y, 90.0);
        check(left, Vec3::Z, 90.0);
        check(left, Vec3::new(-1.0, 0.0, 1.0), 135.0);
        // A head above the face that points level is not straight at it.
        check(face + Vec3::new(-1.0, 0.0, 1.0), Vec3::X, 45.0);
    }

    #[test]
    fn steep_light_and_dark_sockets_are_noted() {
        let check = |elevation_deg: f64, darker: f64, noted: bool| {
            let stops = Stops(-1.5);
            let eyes = [Judgement::new(
                Wish::OpenEyes {
                    stops,
                    lit_side: false,
                },
                -1.0 - darker,
                darker,
                0.5,
                1.0,
            )];
            assert_eq!(
                eyes_note(elevation_deg, &eyes).is_some(),
                noted,
                "{elevation_deg} {darker}"
            );
        };
        check(28.0, 0.3, false);
        check(46.0, 0.3, true);
        check(28.0, 0.8, true);
    }

    #[test]
    fn a_shutter_beyond_sync_is_noted() {
        let job = made_up::job();
        let check = |shutter: &str, noted: bool| {
            assert_eq!(
                sync_note(&job, shutter.parse().unwrap()).is_some(),
                noted,
                "{shutter}"
            );
        };
        check("1/200", false);
        check("1/60", false);
        check("1/500", true);
    }
}
