//! `rushlight sun`: the day of a shoot out of doors.

use super::asked::load;
use super::failure::Failure;
use crate::cli::SunArgs;
use crate::day::{Day, DayReport};
use crate::output;
use shoot::{Shoot, both};

/// Works out the day, prints it, and draws it if asked.
///
/// # Errors
/// Mistakes in the shoot file, one without a sky, or something that could not be written.
pub fn run(args: &SunArgs) -> Result<(), Failure> {
    let shoot = load(Some(&args.shoot), args.setup.as_deref())?;
    let voice = args.speech.of(&shoot);
    let day = day_of(&shoot, args.every)?;
    if let Some(path) = &args.out {
        output::write_file(path, sheet::day_svg(&day.drawing(), voice).as_bytes())?;
    }
    let text = if args.json {
        let json = serde_json::to_string_pretty(&DayReport::of(&day, voice));
        json.map_err(|error| Failure::Ours(error.to_string()))? + "\n"
    } else {
        sheet::day_text(&day.table(), voice)
    };
    output::print(&text)?;
    Ok(())
}

/// The day of a shoot, looked at every so many minutes.
///
/// # Errors
/// A shoot that does not say where on Earth and when it is.
pub fn day_of(shoot: &Shoot, every_minutes: u32) -> Result<Day, Failure> {
    let Some(sky) = shoot.sky.clone() else {
        return Err(Failure::Missing(both!(
            "this shoot file does not say where on Earth and when it is. Add a part [sky] with latitude, longitude, date, \
             time and camera_looks; SHOOT_FILE.md explains it";
            "diese Auftragsdatei sagt nicht, wo auf der Erde und wann es ist. Einen Teil [sky] mit latitude, longitude, date, \
             time und camera_looks hinzufügen; SHOOT_FILE.md erklärt ihn"
        )));
    };
    Ok(Day::of(shoot.job.title.clone(), sky, every_minutes))
}
