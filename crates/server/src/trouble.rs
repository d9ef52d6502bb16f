//! Why a piece of work ended without its result, kept as data until a request asks for it in words.

use super::refusal::{Code, Refusal, RefusalTold};
use answer::Failure;
use sheet::{Language, Lengths, Voice};
use shoot::{Problems, Words, both};

/// Why a piece of work ended without its result.
#[derive(Clone, Debug, PartialEq)]
pub enum Trouble {
    /// It was refused.
    Refused(Refusal),
    /// The shoot text has mistakes.
    BadShoot(Box<Problems>),
    /// The place or the ask is such that nothing can be found.
    Failed(Failure),
}

impl Trouble {
    /// What kind of trouble it is.
    pub fn code(&self) -> Code {
        match self {
            Trouble::Refused(refusal) => refusal.code,
            Trouble::BadShoot(_) => Code::BadShoot,
            Trouble::Failed(failure) => code_of(failure),
        }
    }

    /// The refusal in a language.
    pub fn told(&self, language: Language) -> RefusalTold {
        match self {
            Trouble::Refused(refusal) => refusal.told(language),
            Trouble::BadShoot(problems) => bad_shoot(problems, language),
            Trouble::Failed(failure) => refusal_of(failure, Lengths::Metres).told(language),
        }
    }
}

impl From<Refusal> for Trouble {
    fn from(refusal: Refusal) -> Self {
        Trouble::Refused(refusal)
    }
}

impl From<Box<Problems>> for Trouble {
    fn from(problems: Box<Problems>) -> Self {
        Trouble::BadShoot(problems)
    }
}

impl From<Failure> for Trouble {
    fn from(failure: Failure) -> Self {
        Trouble::Failed(failure)
    }
}

/// A shoot text that could not be read: its first mistake, and how many there are.
fn bad_shoot(problems: &Problems, language: Language) -> RefusalTold {
    let (list, headline) = (problems.list(), problems.headline());
    let first = list.first().map_or(headline.in_language(language), |problem| {
        problem.message(language)
    });
    let message = match list.len() {
        0 | 1 => both!("The shoot has a mistake: {first}."; "Der Auftrag hat einen Fehler: {first}."),
        count => both!(
            "The shoot has {count} mistakes; the first: {first}.";
            "Der Auftrag hat {count} Fehler; der erste: {first}."
        ),
    };
    let remedy = list.first().and_then(|problem| problem.remedy(language));
    RefusalTold {
        code: Code::BadShoot,
        message: message.in_language(language).to_owned(),
        hint: remedy.map(str::to_owned),
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
pub fn refusal_of(failure: &Failure, lengths: Lengths) -> Refusal {
    let told = |language| sheet::words_of_failure(Voice { language, lengths }, failure);
    Refusal::new(code_of(failure), Words::in_each(told))
}
