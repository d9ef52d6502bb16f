//! What the camera is balanced for, and how the colours of the picture lie against that.

use crate::judge::mix::{Hue, Mix};
use crate::place::ambient::{AmbientThere, all_lx};
use crate::practice::{GREENISH_DUV, HARDLY_THERE, NO_BALANCE_MIRED, SEEN_DUV, SIDES_SHARE_MIRED};
use crate::ways::light::FlashZones;
use answer::{
    ColourZone, Colouring, Exposure, GelTurn, GelWorn, Greenness, Job, LightName, Note, PicturePart,
    Settings, SidesCure, SidesVerdict, SourceColour, SourceName,
};
use colour::Xyz;
use units::{Duv, Mired, MiredShift, Stops};

/// How the colours lie in a finished way, and what to know about them. `job`'s flash wears its gel, and the settings are
/// balanced.
pub(crate) fn colouring(
    job: &Job,
    zones: &FlashZones,
    ambients: &[AmbientThere],
    exposure: &Exposure,
    settings: &Settings,
) -> (Colouring, Vec<Note>) {
    let mix = Mix {
        flash: job.bag.flash.colour(),
        zones,
        ambients,
        flash_share: exposure.flash_alone.factor(),
        ambient_share: exposure.ambient_alone.map_or(0.0, Stops::factor),
    };
    let balance = Hue {
        mired: settings.white_balance.mired().value(),
        duv: settings.tint.value(),
    };
    let colouring = Colouring {
        gel: worn(job),
        zones: parts_of_the_picture(&mix, balance),
        sources: sources(&mix),
    };
    let notes = colour_notes(&mix, &colouring);
    (colouring, notes)
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
    let ambient_lx = all_lx(mix.ambients);
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
        colour(
            SourceName::Light { light },
            there.colour.xyz(&there.at.dome),
            share,
        )
    }));
    all
}

/// What mixes, and whether it matters.
fn colour_notes(mix: &Mix<'_>, colouring: &Colouring) -> Vec<Note> {
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
    if apart.value() <= SIDES_SHARE_MIRED {
        return None;
    }
    let verdict = if apart.value() > NO_BALANCE_MIRED {
        SidesVerdict::NoBalance
    } else {
        SidesVerdict::Compromise
    };
    let [one, other] = mix.zones.cheeks.map(|cheek| Hue::of(mix.flash.xyz(&cheek)));
    let by_walls = one.zip(other).map_or(0.0, |(a, b)| (a.mired - b.mired).abs());
    let cure = if by_walls > 0.5 * apart.value() {
        SidesCure::CoverWalls
    } else if mix.ambient_share.log2() < HARDLY_THERE {
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
    } else if under < HARDLY_THERE {
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
    use crate::choose::gel::wearing;
    use crate::judge::colours::balanced;
    use crate::place::meters::AtMeters;
    use crate::place::meters::SEEN_BEHIND;
    use crate::trials::plain_ask;
    use answer::{ColourWish, GelWish};
    use colour::{LightColour, Spectrum};
    use light::{FlashUnit, Gel, GelFamily};
    use units::Kelvin;

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
            light: transport::SolvedLight {
                radiosity: Vec::new(),
                indirect: Vec::new(),
                direct: Vec::new(),
                glow: Vec::new(),
            },
            off_computed: None,
            dome_lx: 1.0,
            metered_lx: 1.0,
            at: AtMeters {
                dome: Spectrum::ONE,
                along: [Spectrum::ONE; 3],
                cheeks: [Spectrum::ONE; 2],
                sockets: [Spectrum::ONE; 2],
                below_eyes: [Spectrum::ONE; 2],
                background: [Spectrum::ONE; SEEN_BEHIND],
                others: Vec::new(),
            },
            landmarks: Vec::new(),
            skin: Vec::new(),
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
        let balance = balanced(job, &mix).0;
        let zones = parts_of_the_picture(&mix, balance);
        let colouring = Colouring {
            gel: worn(job),
            sources: sources(&mix),
            zones: zones.clone(),
        };
        (balance, zones, colour_notes(&mix, &colouring))
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
}
