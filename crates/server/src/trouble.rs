//! Why a piece of work ended without its result, kept as data until it is told to somebody.

use super::refusal::{Code, Refusal};
use answer::Failure;
use sheet::{Language, Voice};

/// Why a piece of work ended without its result.
#[derive(Clone, Debug, PartialEq)]
pub enum Trouble {
    /// It was refused.
    Refused(Refusal),
    /// The place or the ask is such that nothing can be found.
    Failed(Failure),
}

impl Trouble {
    /// What kind of trouble it is.
    pub fn code(&self) -> Code {
        match self {
            Trouble::Refused(refusal) => refusal.code,
            Trouble::Failed(failure) => code_of(failure),
        }
    }

    /// The refusal in a language.
    pub fn told(&self, language: Language) -> Refusal {
        match self {
            Trouble::Refused(refusal) => refusal.clone(),
            Trouble::Failed(failure) => refusal_of(failure, Voice::new(language, false)),
        }
    }
}

impl From<Refusal> for Trouble {
    fn from(refusal: Refusal) -> Self {
        Trouble::Refused(refusal)
    }
}

impl From<Failure> for Trouble {
    fn from(failure: Failure) -> Self {
        Trouble::Failed(failure)
    }
}

fn code_of(failure: &Failure) -> Code {
    match failure {
        Failure::Stopped => Code::Stopped,
        Failure::Scene(_)
        | Failure::Light(_)
        | Failure::Unit(_)
        | Failure::NoSitter
        | Failure::FlashOutside
        | Failure::NoLight { .. } => Code::BadShoot,
    }
}

/// A failure as a refusal, in words.
pub fn refusal_of(failure: &Failure, voice: Voice) -> Refusal {
    Refusal::new(code_of(failure), sheet::words_of_failure(voice, failure))
}
