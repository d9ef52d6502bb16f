//! The lines of an answer that everything else refers to: camera, flash, aim, face and colours.

use crate::explain::colouring::colouring;
use crate::judge::exposure::{exposure, flash_setting};
use crate::judge::judged::Judged;
use crate::ways::fine::Fine;
use crate::ways::scout::Scout;
use crate::ways::way::aim;
use answer::{Aim, Colouring, Exposure, Failure, FlashSetting, Note};

/// What is set, where the flash points, and what the face gets of it.
pub(crate) struct Lines {
    pub aim: Aim,
    pub flash: FlashSetting,
    pub exposure: Exposure,
    pub colouring: Colouring,
    /// What to know of the colours.
    pub of_colours: Vec<Note>,
}

/// The lines of a way that was judged in its finely solved place.
pub(crate) fn lines(scout: &Scout<'_>, judged: &Judged, fine: &Fine) -> Result<Lines, Failure> {
    let job = scout.job;
    let ambients = &fine.place.ambients;
    let (exposure, power) = exposure(job, ambients, &judged.settings, judged.way.light.dose())?;
    let (colouring, of_colours) = colouring(job, &fine.face.zones, ambients, &exposure, &judged.settings);
    Ok(Lines {
        aim: aim(job, &judged.way),
        flash: flash_setting(
            &judged.way,
            exposure.power_for_total,
            power,
            exposure.total.value(),
        ),
        exposure,
        colouring,
        of_colours,
    })
}
