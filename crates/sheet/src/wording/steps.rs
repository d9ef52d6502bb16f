//! What is being worked out, for the person who waits for it.

use crate::voice::Voice;
use answer::Step;

/// A step of an answer, in a few words.
pub(crate) fn step(voice: Voice, step: Step) -> &'static str {
    match step {
        Step::Standing => voice.pick(
            "trying where the sitter could stand",
            "Plätze für die Person werden ausprobiert",
        ),
        Step::Solving => voice.pick(
            "working out how light travels here",
            "der Weg des Lichts wird ausgerechnet",
        ),
        Step::Sweeping => voice.pick("trying every aim", "jedes Ziel wird ausprobiert"),
        Step::Gelling => voice.pick("trying the gels", "die Folien werden ausprobiert"),
        Step::Confirming => voice.pick("asking the path tracer", "die Gegenprobe läuft"),
        Step::Doubting => voice.pick(
            "seeing what if things are a little different",
            "kleine Abweichungen werden durchgespielt",
        ),
        Step::Changing => voice.pick(
            "looking for the smallest change that would help",
            "die kleinste Änderung, die hilft, wird gesucht",
        ),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::wording::tests::check;

    #[test]
    fn every_step_is_told_in_both_languages() {
        let says = |of: Step, english: &str, german: &str| {
            check(|voice| step(voice, of).to_owned(), english, german)
        };
        says(
            Step::Standing,
            "trying where the sitter could stand",
            "Plätze für die Person werden ausprobiert",
        );
        says(
            Step::Solving,
            "working out how light travels here",
            "der Weg des Lichts wird ausgerechnet",
        );
        says(Step::Confirming, "asking the path tracer", "die Gegenprobe läuft");
        says(
            Step::Changing,
            "looking for the smallest change that would help",
            "die kleinste Änderung, die hilft, wird gesucht",
        );
    }
}
