//! What was understood of a shoot file, in lines for a reader.

use crate::{Shoot, SkyRead, compass_point};
use answer::{AmbientFrom, AmbientLevel, AmbientWish, Ask, FlashStand, Job, Side, Softness};
use scene::{Face, Sitter};
use std::fmt::Write as _;
use units::{GuideBasis, Metres, Stops};

/// A shoot in a few lines, as it was understood, under its title and above the notes.
pub fn summary(shoot: &Shoot) -> String {
    let mut lines = vec![shoot.job.title.clone(), String::new()];
    lines.extend(understood(shoot));
    if !shoot.warnings.is_empty() {
        lines.push(String::new());
        lines.extend(shoot.warnings.iter().map(|warning| format!("Note: {warning}.")));
    }
    lines.join("\n") + "\n"
}

/// What was understood of a shoot, a line each.
pub fn understood(shoot: &Shoot) -> Vec<String> {
    let (job, feet) = (&shoot.job, shoot.uses_feet);
    let mut lines = Vec::new();
    let size = job.place.room.size;
    lines.push(format!(
        "Room      {} long, {} wide, ceiling {}",
        length(size.y, feet),
        length(size.x, feet),
        length(size.z, feet)
    ));
    for face in Face::ALL {
        lines.push(format!(
            "          {}: {}",
            face.words(),
            job.place.room.material(face).name
        ));
    }
    lines.extend(things(job).map(|thing| format!("          {thing}")));
    lines.extend(shoot.sky.as_ref().map(sky_line));
    let camera = job.viewpoint.position;
    lines.push(format!(
        "Camera    {} from the left wall, {} from the wall behind it, {} high; {} mm, sync {}",
        length(camera.x, feet),
        length(camera.y, feet),
        length(camera.z, feet),
        job.viewpoint.focal_mm,
        job.body.sync
    ));
    lines.extend(job.sitters.iter().map(|sitter| sitter_line(job, sitter, feet)));
    lines.push(bag_line(job));
    lines.extend(job.ambients.iter().map(|ambient| {
        let from = match ambient.from {
            AmbientFrom::AllRound => "from all round".to_owned(),
            AmbientFrom::Opening(index) => format!("through \"{}\"", job.place.openings[index].name),
            AmbientFrom::Lamp(at) => format!("from a lamp {} high", length(at.z, feet)),
        };
        let level = match ambient.reading {
            AmbientLevel::Reading(level) => level.to_string(),
            AmbientLevel::Lumens(lumens) => format!("{lumens:.0} lm"),
        };
        format!(
            "Ambient   \"{}\": {level}, {:.0}, {from}",
            ambient.name, ambient.kelvin
        )
    }));
    lines.extend(job.zones.iter().map(|zone| {
        let colour = zone
            .kelvin
            .map_or(String::new(), |kelvin| format!(", {kelvin:.0}"));
        format!(
            "Zone      \"{}\": normal at {:.1}{colour}",
            zone.name, zone.normal
        )
    }));
    lines.push(ask_line(job, feet));
    lines.extend(
        job.later
            .iter()
            .map(|later| format!("Later     {}: ambient {}", later.name, later.ambient)),
    );
    lines
}

/// A length in the units of the file.
fn length(metres: f32, feet: bool) -> String {
    // The file's decimals come back, not those of a 32-bit number.
    let rounded = (f64::from(metres) * 1000.0).round() / 1000.0;
    match Metres::new(rounded) {
        Ok(length) if feet => length.to_feet_text(),
        _ => format!("{rounded} m"),
    }
}

fn things(job: &Job) -> impl Iterator<Item = String> + '_ {
    let openings = job
        .place
        .openings
        .iter()
        .filter(|opening| !opening.fills(&job.place.room))
        .map(|opening| format!("\"{}\" in the {}", opening.name, opening.face.words()));
    let furniture = job
        .place
        .blocks
        .iter()
        .map(|block| format!("\"{}\": {}", block.name, block.material.name));
    let boards = job
        .place
        .panels
        .iter()
        .map(|panel| format!("\"{}\": {}", panel.name, panel.front.name));
    openings.chain(furniture).chain(boards)
}

/// Where, when, and where the sun then stands: a wrong letter or zone shows here.
fn sky_line(sky: &SkyRead) -> String {
    let sun = light::Sun::at(sky.moment, sky.site);
    let height = sun.apparent_elevation_deg;
    let side = if height < 0.0 { "below" } else { "above" };
    let behind = sky.outdoors().sun_behind(&sun);
    let behind = behind.map_or(String::new(), |index| {
        format!(", behind \"{}\"", sky.skyline[index].name)
    });
    format!(
        "Sky       {}; {} {}, {}; {} sky; camera looks {}; sun {:.1}° {side} the horizon at {:.0}° ({}){behind}",
        sky.place_text(),
        sky.date,
        sky.clock_text(sky.moment),
        sky.zone,
        sky.weather.name(),
        compass_point(sky.camera_looks_deg),
        height.abs(),
        sun.azimuth_deg,
        compass_point(sun.azimuth_deg)
    )
}

fn sitter_line(job: &Job, sitter: &Sitter, feet: bool) -> String {
    let away = job
        .viewpoint
        .position
        .truncate()
        .distance(sitter.stand.truncate());
    format!(
        "Sitter    \"{}\": face {} high, {} from the camera",
        sitter.name,
        length(sitter.face_height, feet),
        length((away * 100.0).round() / 100.0, feet)
    )
}

fn bag_line(job: &Job) -> String {
    let flash = &job.bag.flash;
    // The figure that photographers compare flashes by is the one near zoom 50.
    let nearest = flash
        .zooms()
        .min_by(|a, b| (a - 50.0).abs().total_cmp(&(b - 50.0).abs()));
    let mut line = format!("Bag       {}", flash.name());
    if let Some((zoom, metres)) = nearest.and_then(|zoom| Some((zoom, flash.guide_number_m(zoom).ok()?))) {
        let claimed = if flash.basis() == GuideBasis::Claimed {
            " (claimed)"
        } else {
            ""
        };
        let _ = write!(line, ", GN {metres:.0} m at zoom {zoom}{claimed}");
    }
    let _ = write!(line, ", {} s to recycle", flash.recycle_s(0.0));
    for &nd in &job.bag.nd {
        let _ = write!(line, "; ND {}", nd.to_string().trim_start_matches('+'));
    }
    for board in &job.bag.boards {
        let _ = write!(line, "; {}", board.name);
    }
    if !job.bag.gels.is_empty() {
        let names: Vec<&str> = job.bag.gels.iter().map(light::Gel::name).collect();
        let _ = write!(line, "; gels ({}): {}", job.bag.gel_family, names.join(", "));
    }
    if job.bag.stand {
        line += "; a stand";
    }
    match job.bag.helpers {
        0 => line + "; nobody to help",
        1 => line + "; an assistant",
        several => format!("{line}; {several} people to help"),
    }
}

fn ask_line(job: &Job, feet: bool) -> String {
    let ask = &job.ask;
    let side = match ask.key.side {
        Some(Side::Left) => "camera left",
        Some(Side::Right) => "camera right",
        None => "either side",
    };
    let softness = match ask.softness {
        Softness::Soft => "soft",
        Softness::Hard => "hard",
        Softness::Any => "soft or hard",
    };
    let ambient = match ask.ambient {
        AmbientWish::Out => "ambient out of the picture".to_owned(),
        AmbientWish::Offset(stops) => format!("ambient at {stops}"),
        AmbientWish::Any => "ambient as it comes".to_owned(),
    };
    let mut line = format!(
        "Ask       key from {side}, {}° from the nose and {}° up, {softness}; {ambient}; {} in hand",
        ask.key.azimuth_deg,
        ask.key.elevation_deg,
        ask.in_hand.to_string().trim_start_matches('+')
    );
    let settings = [
        ask.aperture.map(|aperture| aperture.to_string()),
        ask.apertures.map(|(from, to)| format!("{from} to {to}")),
        ask.depth
            .map(|depth| format!("{} sharp", length(depth.value() as f32, feet))),
        ask.shutter.map(|shutter| shutter.to_string()),
        ask.iso.map(|iso| iso.to_string()),
        ask.white_balance.map(|kelvin| kelvin.to_string()),
    ];
    for wish in &ask.zones {
        let _ = write!(line, "; {} at {}", wish.name, wish.at);
    }
    for setting in settings.into_iter().flatten().chain(limit_words(ask, feet)) {
        let _ = write!(line, "; {setting}");
    }
    match ask.stand {
        FlashStand::OnCamera => line,
        FlashStand::Anywhere => line + "; flash wherever serves best",
        FlashStand::At(at) => format!("{line}; flash {} high", length(at.z, feet)),
    }
}

/// What the answer is held to, in words.
fn limit_words(ask: &Ask, feet: bool) -> impl Iterator<Item = String> {
    let unsigned = |stops: Stops| stops.to_string().trim_start_matches('+').to_owned();
    let words = [
        ask.neutral_skin
            .then(|| format!("skin neutral within {} mired", ask.cast_limit.value())),
        ask.ratio.map(|ratio| format!("ratio {ratio}")),
        ask.evenness
            .map(|most| format!("faces within {}", unsigned(most))),
        ask.background.map(|wish| {
            if wish.value() == 0.0 {
                "background as light as the face".to_owned()
            } else {
                format!("background {wish} against the face")
            }
        }),
        ask.recycle_s
            .map(|wait| format!("{wait} s between frames at most")),
        (ask.may_move_m > 0.0).then(|| format!("the sitter may move {}", length(ask.may_move_m, feet))),
    ];
    words.into_iter().flatten()
}
