//! Single sentences, for programs that show one at a time: a step while an answer is worked out, an aim by hand, a change of light.

use crate::voice::Voice;
use crate::wording::{aim, failures, lines, nouns, steps, variations, why};
use answer::{Aim, Failure, FlashSetting, GelWorn, KeyReading, Loss, Settings, SourceName, Step, Why};
use units::PowerFraction;

/// What is being worked out.
pub fn words_of_step(voice: Voice, step: Step) -> &'static str {
    steps::step(voice, step)
}

/// One of the lights that meet at a face: "flash", "sky", or what the photographer calls it.
pub fn words_of_source(voice: Voice, source: &SourceName) -> String {
    nouns::source(voice, source).bare
}

/// Why there is no answer, and what to do about it.
pub fn words_of_failure(voice: Voice, failure: &Failure) -> String {
    failures::failure(voice, failure)
}

/// Why a way of lighting is the answer, or is not. The answer's own reason is its reading.
pub fn words_of_why(voice: Voice, why: &Why, key: Option<&KeyReading>) -> String {
    why::sentence(voice, why, key)
}

/// Where to point the flash: the third line of an answer.
pub fn words_of_aim(voice: Voice, aim: &Aim) -> String {
    aim::line(voice, aim)
}

/// What other settings cannot keep, in sentences; empty where nothing is lost.
pub fn words_of_losses(voice: Voice, losses: &[Loss]) -> String {
    variations::losses(voice, losses)
}

/// What is touched between two settings of camera and flash, such as "shutter 1/50, all else untouched".
pub fn changed_settings(
    voice: Voice,
    before: (&Settings, PowerFraction),
    after: (&Settings, PowerFraction),
) -> String {
    variations::changed(voice, before, after)
}

/// `f/4 · 1/160 · ISO 400 · 5000 K`
pub fn camera_line(voice: Voice, settings: &Settings) -> String {
    lines::camera(voice, settings)
}

/// `1/8 +0.7 · zoom 50 · no gel · 2.3 stops in hand`
pub fn flash_line(voice: Voice, flash: &FlashSetting, gel: Option<&GelWorn>) -> String {
    lines::flash(voice, flash, gel)
}
