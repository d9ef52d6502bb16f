//! The lines of an answer that everything else refers to: camera, flash, aim, face and colours.

use crate::explain::colouring::colouring;
use crate::judge::exposure::{exposure, flash_setting};
use crate::judge::settings::settings_for;
use crate::ways::fine::Fine;
use crate::ways::scout::Scout;
use crate::ways::way::{Way, aim, own_reflectance};
use answer::{Aim, Colouring, Exposure, Failure, FlashSetting, KeyReading, Limit, Note, Settings};

/// What is set, where the flash points, and what the face gets of it.
pub(crate) struct Lines {
    pub aim: Aim,
    pub settings: Settings,
    pub flash: FlashSetting,
    pub key: KeyReading,
    pub exposure: Exposure,
    pub colouring: Colouring,
    /// The flash at full power on the face, dome towards the camera, in lx s.
    pub dose: f64,
    /// What the settings could not meet.
    pub not_met: Vec<Note>,
    /// What was wished of the colours, with what came of it.
    pub colour_limits: Vec<Limit>,
    /// What to know of the colours.
    pub of_colours: Vec<Note>,
}

/// The lines of a way, read from its finely solved place.
pub(crate) fn lines(scout: &Scout<'_>, way: &Way, fine: &Fine) -> Result<Lines, Failure> {
    let job = scout.job;
    let colour = job.bag.flash.colour();
    let facing = scout.survey.stage.sitters[0].facing;
    let ambients = &fine.place.ambients;
    let dose = fine.face.dose(colour);
    let (mut settings, not_met) = settings_for(job, scout.ambient.face, dose)?;
    let (exposure, power) = exposure(job, ambients, &settings, dose)?;
    let (colouring, colour_limits, of_colours) =
        colouring(job, &fine.zones, ambients, &exposure, &mut settings);
    Ok(Lines {
        aim: aim(job, way),
        key: fine
            .face
            .reading(colour, &own_reflectance(job, &way.route), facing),
        flash: flash_setting(way, exposure.power_for_total, power),
        settings,
        exposure,
        colouring,
        dose,
        not_met,
        colour_limits,
        of_colours,
    })
}
