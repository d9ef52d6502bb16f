//! What was understood of a shoot file, in lines for a reader.

use crate::place::side_words;
use crate::sky::bearing_words;
use crate::words::{fixed, in_decimals};
use crate::{Shoot, SkyRead, Words, both};
use answer::{AmbientFrom, AmbientLevel, AmbientWish, Ask, FlashStand, Job, Language, Side, Softness};
use light::Weather;
use scene::{Face, Sitter};
use units::{GuideBasis, Metres, Stops};

/// A shoot in a few lines, as it was understood, under its title and above the notes.
pub fn summary(shoot: &Shoot, language: Language) -> String {
    let mut lines = vec![Words::same(&shoot.job.title), Words::default()];
    lines.extend(understood(shoot));
    if !shoot.warnings.is_empty() {
        lines.push(Words::default());
        let notes = shoot.warnings.iter();
        lines.extend(notes.map(|warning| both!("Note: {}.", warning; "Hinweis: {}.")));
    }
    Words::joined(&lines, "\n").in_language(language).to_owned() + "\n"
}

/// What was understood of a shoot, a line each.
pub fn understood(shoot: &Shoot) -> Vec<Words> {
    let (job, feet) = (&shoot.job, shoot.uses_feet);
    let mut lines = Vec::new();
    let size = job.place.room.size;
    let [length_m, width_m, height_m] = [size.y, size.x, size.z].map(|metres| length(metres, feet));
    lines.push(both!(
        "Room      {} long, {} wide, ceiling {}", length_m, width_m, height_m;
        "Raum      {} lang, {} breit, Decke {}"
    ));
    for face in Face::ALL {
        let material = match job.place.is_open(face) {
            true => both!("open"; "offen"),
            false => Words::same(&job.place.room.material(face).name),
        };
        lines.push(both!("          {}: {}", side_words(face), material; "          {}: {}"));
    }
    lines.extend(things(job).map(|thing| both!("          {}", thing; "          {}")));
    lines.extend(shoot.sky.as_ref().map(sky_line));
    let camera = job.viewpoint.position.to_array();
    let [left, behind, high] = camera.map(|metres| length(metres, feet));
    lines.push(both!(
        "Camera    {} from the left wall, {} from the wall behind it, {} high; {} mm, sync {}",
        left, behind, high, job.viewpoint.focal_mm, job.body.sync;
        "Kamera    {} von der linken Wand, {} von der Wand hinter ihr, {} hoch; {} mm, Synchronzeit {}"
    ));
    lines.extend(job.sitters.iter().map(|sitter| sitter_line(job, sitter, feet)));
    lines.push(bag_line(job));
    lines.extend(job.ambients.iter().map(|ambient| {
        let from = match ambient.from {
            AmbientFrom::AllRound => both!("from all round"; "von rundherum"),
            AmbientFrom::Opening(index) => {
                let opening = &job.place.openings[index].name;
                both!("through \"{opening}\""; "durch \"{opening}\"")
            }
            AmbientFrom::Lamp(at) => both!(
                "from a lamp {} high", length(at.z, feet);
                "von einer Lampe auf {} Höhe"
            ),
        };
        let level = match ambient.reading {
            AmbientLevel::Reading(level) => both!("{}", level; "{}"),
            AmbientLevel::Lumens(lumens) => both!("{} lm", fixed(lumens, 0); "{} lm"),
        };
        let (name, kelvin) = (&ambient.name, ambient.kelvin);
        both!(
            "Ambient   \"{name}\": {}, {kelvin:.0}, {}", level, from;
            "Licht     \"{name}\": {}, {kelvin:.0}, {}"
        )
    }));
    lines.extend(job.zones.iter().map(|zone| {
        let colour = zone
            .kelvin
            .map_or(String::new(), |kelvin| format!(", {kelvin:.0}"));
        let (name, normal) = (&zone.name, in_decimals(format!("{:.1}", zone.normal)));
        both!(
            "Zone      \"{name}\": normal at {}{colour}", normal;
            "Zone      \"{name}\": normal bei {}{colour}"
        )
    }));
    lines.push(ask_line(job, feet));
    lines.extend(job.later.iter().map(|later| {
        both!(
            "Later     {}: ambient {}", later.name, later.ambient;
            "Später    {}: vorhandenes Licht {}"
        )
    }));
    lines
}

/// A length in the units of the file.
fn length(metres: f32, feet: bool) -> Words {
    // The file's decimals come back, not those of a 32-bit number.
    let rounded = (f64::from(metres) * 1000.0).round() / 1000.0;
    in_decimals(match Metres::new(rounded) {
        Ok(length) if feet => length.to_feet_text(),
        _ => format!("{rounded} m"),
    })
}

fn things(job: &Job) -> impl Iterator<Item = Words> + '_ {
    let openings = job
        .place
        .openings
        .iter()
        .filter(|opening| !opening.fills(&job.place.room))
        .map(|opening| {
            let (name, side) = (&opening.name, side_words(opening.face));
            both!("\"{name}\" in the {}", side; "\"{name}\": {}")
        });
    let furniture = job
        .place
        .blocks
        .iter()
        .map(|block| Words::same(format!("\"{}\": {}", block.name, block.material.name)));
    let boards = job
        .place
        .panels
        .iter()
        .map(|panel| Words::same(format!("\"{}\": {}", panel.name, panel.front.name)));
    openings.chain(furniture).chain(boards)
}

/// Where, when, and where the sun then stands: a wrong letter or zone shows here.
fn sky_line(sky: &SkyRead) -> Words {
    let sun = light::Sun::at(sky.moment, sky.site);
    let height = sun.apparent_elevation_deg;
    let side = if height < 0.0 {
        both!("below"; "unter")
    } else {
        both!("above"; "über")
    };
    let behind = sky.outdoors().sun_behind(&sun);
    let behind = behind.map_or_else(
        Words::default,
        |index| both!(", behind \"{}\"", sky.skyline[index].name; ", hinter \"{}\""),
    );
    let (date, clock, zone) = (sky.date, sky.clock_text(sky.moment), &sky.zone);
    both!(
        "Sky       {}; {date} {clock}, {zone}; {}; camera looks {}; sun {}° {} the horizon at {}° ({}){}",
        sky.place_words(),
        weather(sky.weather),
        bearing_words(sky.camera_looks_deg),
        fixed(height.abs(), 1),
        side,
        fixed(sun.azimuth_deg, 0),
        bearing_words(sun.azimuth_deg),
        behind;
        "Himmel    {}; {date} {clock}, {zone}; {}; Kamera blickt nach {}; Sonne {}° {} dem Horizont bei {}° ({}){}"
    )
}

fn weather(weather: Weather) -> Words {
    let name = weather.name();
    match weather {
        Weather::Clear => both!("{name} sky"; "klarer Himmel"),
        Weather::Hazy => both!("{name} sky"; "dunstiger Himmel"),
        Weather::PartlyCloudy => both!("{name} sky"; "teils bewölkter Himmel"),
        Weather::BrightOvercast => both!("{name} sky"; "hell bedeckter Himmel"),
        Weather::HeavyOvercast => both!("{name} sky"; "dicht bedeckter Himmel"),
    }
}

fn sitter_line(job: &Job, sitter: &Sitter, feet: bool) -> Words {
    let away = job
        .viewpoint
        .position
        .truncate()
        .distance(sitter.stand.truncate());
    let (high, away) = (
        length(sitter.face_height, feet),
        length((away * 100.0).round() / 100.0, feet),
    );
    both!(
        "Sitter    \"{}\": face {} high, {} from the camera", sitter.name, high, away;
        "Person    \"{}\": Gesicht auf {} Höhe, {} von der Kamera"
    )
}

fn bag_line(job: &Job) -> Words {
    let flash = &job.bag.flash;
    // The figure that photographers compare flashes by is the one near zoom 50.
    let nearest = flash
        .zooms()
        .min_by(|a, b| (a - 50.0).abs().total_cmp(&(b - 50.0).abs()));
    let mut line = both!("Bag       {}", flash.name(); "Tasche    {}");
    if let Some((zoom, metres)) = nearest.and_then(|zoom| Some((zoom, flash.guide_number_m(zoom).ok()?))) {
        let claimed = if flash.basis() == GuideBasis::Claimed {
            both!(" (claimed)"; " (laut Hersteller)")
        } else {
            Words::default()
        };
        line += &both!(
            ", GN {metres:.0} m at zoom {}{}", zoom, claimed;
            ", Leitzahl {metres:.0} m bei Zoom {}{}"
        );
    }
    line += &both!(", {} s to recycle", flash.recycle_s(0.0); ", Ladezeit {} s");
    for &nd in &job.bag.nd {
        line += &both!("; ND {}", unsigned(nd); "; Graufilter {}");
    }
    for board in &job.bag.boards {
        line += &Words::same(format!("; {}", board.name));
    }
    if !job.bag.gels.is_empty() {
        let names: Vec<&str> = job.bag.gels.iter().map(light::Gel::name).collect();
        let (family, names) = (job.bag.gel_family, names.join(", "));
        line += &both!("; gels ({family}): {names}"; "; Folien ({family}): {names}");
    }
    if job.bag.stand {
        line += &both!("; a stand"; "; ein Stativ");
    }
    line += &match job.bag.helpers {
        0 => both!("; nobody to help"; "; niemand zum Helfen"),
        1 => both!("; an assistant"; "; jemand zum Helfen"),
        several => both!("; {several} people to help"; "; {several} Leute zum Helfen"),
    };
    line
}

fn ask_line(job: &Job, feet: bool) -> Words {
    let ask = &job.ask;
    let side = match ask.key.side {
        Some(Side::Left) => both!("camera left"; "kameralinks"),
        Some(Side::Right) => both!("camera right"; "kamerarechts"),
        None => both!("either side"; "einer der beiden Seiten"),
    };
    let softness = match ask.softness {
        Softness::Soft => both!("soft"; "weich"),
        Softness::Hard => both!("hard"; "hart"),
        Softness::Any => both!("soft or hard"; "weich oder hart"),
    };
    let ambient = match ask.ambient {
        AmbientWish::Out => both!("ambient out of the picture"; "vorhandenes Licht nicht im Bild"),
        AmbientWish::Offset(stops) => both!("ambient at {}", stops; "vorhandenes Licht bei {}"),
        AmbientWish::Any => both!("ambient as it comes"; "vorhandenes Licht, wie es kommt"),
    };
    let (azimuth, elevation) = (ask.key.azimuth_deg, ask.key.elevation_deg);
    // No minus stands before a word that says as much.
    let height = match elevation {
        0.0 => both!("level with the eyes"; "in Augenhöhe"),
        below if below < 0.0 => both!("{}° below the eyes", -below; "{}° unter den Augen"),
        above => both!("{}° up", above; "{}° hoch"),
    };
    let mut line = both!(
        "Ask       key from {}, {}° from the nose and {}, {}; {}; {} in hand",
        side, azimuth, height, softness, ambient, unsigned(ask.in_hand);
        "Wunsch    Hauptlicht von {}, {}° von der Nase und {}, {}; {}; {} Reserve"
    );
    let settings = [
        ask.aperture.map(|aperture| both!("{}", aperture; "{}")),
        ask.apertures
            .map(|(from, to)| both!("{} to {}", from, to; "{} bis {}")),
        ask.depth.map(|depth| {
            let depth = length(depth.value() as f32, feet);
            both!("{} sharp", depth; "{} scharf")
        }),
        ask.shutter.map(|shutter| both!("{}", shutter; "{}")),
        ask.iso.map(|iso| both!("{}", iso; "{}")),
        ask.white_balance.map(|kelvin| both!("{}", kelvin; "{}")),
    ];
    let zones = ask
        .zones
        .iter()
        .map(|wish| both!("{} at {}", wish.name, wish.at; "{} bei {}"));
    for wish in zones
        .chain(settings.into_iter().flatten())
        .chain(limit_words(ask, feet))
    {
        line += &both!("; {}", wish; "; {}");
    }
    match ask.stand {
        FlashStand::OnCamera => {}
        FlashStand::Anywhere => {
            line += &both!("; flash wherever serves best"; "; Blitz, wo er am besten dient");
        }
        FlashStand::At(at) => {
            line += &both!("; flash {} high", length(at.z, feet); "; Blitz auf {} Höhe");
        }
    }
    line
}

/// Stops that have no direction.
fn unsigned(stops: Stops) -> Words {
    both!("{}", stops; "{}").each(|text| text.trim_start_matches('+').to_owned())
}

/// What the answer is held to, in words.
fn limit_words(ask: &Ask, feet: bool) -> impl Iterator<Item = Words> {
    let words = [
        ask.neutral_skin.then(|| {
            both!(
                "skin neutral within {} mired", ask.cast_limit.value();
                "Haut neutral innerhalb von {} Mired"
            )
        }),
        ask.ratio.map(|ratio| both!("ratio {}", ratio; "Verhältnis {}")),
        ask.evenness
            .map(|most| both!("faces within {}", unsigned(most); "Gesichter innerhalb von {}")),
        ask.background.map(|wish| {
            if wish.value() == 0.0 {
                both!("background as light as the face"; "Hintergrund so hell wie das Gesicht")
            } else {
                both!("background {} against the face", wish; "Hintergrund {} gegen das Gesicht")
            }
        }),
        ask.fill.map(|under| {
            both!(
                "flash as a fill, {} under the light that is there", unsigned(under);
                "Blitz als Aufhellung, {} unter dem vorhandenen Licht"
            )
        }),
        ask.recycle_s.map(|wait| {
            both!(
                "{} s between frames at most", wait;
                "höchstens {} s zwischen zwei Bildern"
            )
        }),
        (ask.may_move_m > 0.0).then(|| {
            both!(
                "the sitter may move {}", length(ask.may_move_m, feet);
                "die Person darf {} rücken"
            )
        }),
    ];
    words.into_iter().flatten()
}
