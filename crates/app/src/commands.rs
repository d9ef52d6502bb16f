//! What each command does.

pub mod answer;
pub mod card;
pub mod check;
pub mod drawing;
mod layers;
pub mod map;
pub mod page;
pub mod proof;
pub mod scan;
pub mod schema;
pub mod sun;

use crate::cli::{Cli, Command, PageArgs};
use crate::files;
use crate::output::WriteError;
use shoot::{DEMO, DEMO_NAME, Problems, Shoot};
use std::path::Path;

/// Why a command did not do what was asked.
#[derive(Debug, thiserror::Error)]
pub enum Failure {
    /// The shoot file has mistakes; whoever wrote it can put them right.
    #[error(transparent)]
    BadShoot(#[from] Box<Problems>),
    /// The shoot file is good, but a part is not there that this command needs.
    #[error("{0}")]
    Missing(String),
    /// A file or the screen could not be written.
    #[error(transparent)]
    Write(#[from] WriteError),
    /// The shoot was read, but the place it describes cannot be lit.
    #[error("{0}")]
    CannotBeLit(#[from] solver::SolverError),
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

/// Answers a shoot.
///
/// # Errors
/// A place that cannot be lit.
pub(crate) fn solve(shoot: &Shoot) -> Result<solver::Answer, Failure> {
    Ok(server::answering::answer(shoot)?)
}

/// Does what the command line asks.
///
/// # Errors
/// Why it could not be done.
pub fn run(cli: &Cli) -> Result<(), Failure> {
    let Some(command) = &cli.command else {
        return page::run(&PageArgs::default());
    };
    match command {
        Command::Page(args) => page::run(args),
        Command::Answer(args) => answer::run(args),
        Command::Proof(args) => proof::run(args),
        Command::Drawing(args) => drawing::run(args),
        Command::Map(args) => map::run(args),
        Command::Card(args) => card::run(args),
        Command::Check(args) => check::run(args),
        Command::Sun(args) => sun::run(args),
        Command::Scan(args) => scan::run(args),
        Command::Schema(args) => schema::run(args),
    }
}

/// One set-up of a file, or of the built-in example: the named one, or the first.
///
/// # Errors
/// Everything that is wrong with the file, or that it has no such set-up.
pub fn load(path: Option<&Path>, set_up: Option<&str>) -> Result<Shoot, Failure> {
    Ok(match (path, set_up) {
        (Some(path), set_up) => files::read(path, set_up)?,
        (None, Some(called)) => shoot::parse_called(DEMO_NAME, DEMO, called)?,
        (None, None) => shoot::parse(DEMO_NAME, DEMO)?,
    })
}
