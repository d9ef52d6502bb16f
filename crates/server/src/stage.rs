//! What is being done while work goes on.

use answer::Step;
use sheet::{Language, Voice};
use shoot::both;

/// A stage of long work.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Stage {
    /// The shoot text is read.
    Reading,
    /// An answer is worked out.
    Answering(Step),
    /// A place is made ready for its first picture.
    BeginningPicture,
    /// One light of a picture is computed.
    Lighting {
        /// Which, from 1.
        light: usize,
        /// How many there are.
        of: usize,
    },
    /// Light is followed through a place in which somebody will aim by hand.
    Following,
    /// The picture of aiming by hand is made ready.
    ReadyingView,
}

impl Stage {
    /// The stage in words.
    pub fn words(self, language: Language) -> String {
        let words = match self {
            Stage::Answering(step) => {
                return sheet::words_of_step(Voice::new(language, false), step).to_owned();
            }
            Stage::Reading => both!("reading the shoot"; "der Auftrag wird gelesen"),
            Stage::BeginningPicture => both!("building the picture"; "das Bild wird aufgebaut"),
            Stage::Lighting { light, of } => {
                both!("the picture: light {light} of {of}"; "das Bild: Licht {light} von {of}")
            }
            Stage::Following => both!(
                "working out how light travels here";
                "wie das Licht hier läuft, wird berechnet"
            ),
            Stage::ReadyingView => both!("making the picture ready"; "das Bild wird vorbereitet"),
        };
        words.in_language(language).to_owned()
    }
}
