//! Why a command did not do what was asked.

use crate::output::WriteError;
use sheet::{Language, Voice};
use shoot::{Problems, Words};

/// Why a command did not do what was asked.
#[derive(Debug, thiserror::Error)]
pub enum Failure {
    /// The shoot file has mistakes; its writer can put them right.
    #[error(transparent)]
    BadShoot(#[from] Box<Problems>),
    /// Something that this command needs was not given or cannot be had: a part of the shoot, an ending, a port, a folder.
    #[error("{}", .0.in_language(Language::English))]
    Missing(Words),
    /// A file or the screen could not be written.
    #[error(transparent)]
    Write(#[from] WriteError),
    /// The shoot was read, but the place it describes cannot be lit.
    #[error("{0}")]
    CannotBeLit(String),
    /// A layer file that is missing, or not one of ours, or settings that do not go with it.
    #[error("{0}")]
    BadLayers(String),
    /// The store of shoots cannot be used.
    #[error("{0}")]
    Store(String),
    /// A scan that cannot be read, or a place that is there already.
    #[error("{0}")]
    BadScan(String),
    /// Something that is our own fault, in a sentence.
    #[error("{0}")]
    Ours(String),
}

impl Failure {
    /// What makes a failure of one that the solver knows, in words.
    pub(super) fn lighting(voice: Voice) -> impl Fn(answer::Failure) -> Self {
        move |failure| Failure::CannotBeLit(sheet::words_of_failure(voice, &failure))
    }

    /// Exit code: 2 for mistakes in what was given, 1 for failures of our own.
    pub fn exit_code(&self) -> u8 {
        match self {
            Failure::BadShoot(_)
            | Failure::CannotBeLit(_)
            | Failure::BadLayers(_)
            | Failure::BadScan(_)
            | Failure::Missing(_) => 2,
            Failure::Write(_) | Failure::Store(_) | Failure::Ours(_) => 1,
        }
    }
}
