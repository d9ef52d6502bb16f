//! What each command does.

pub mod answer;
mod asked;
pub mod card;
pub mod check;
pub mod drawing;
mod failure;
mod layers;
pub mod map;
pub mod page;
pub mod proof;
pub mod scan;
pub mod schema;
pub mod sun;

pub use asked::load;
pub use failure::Failure;

use crate::cli::{Cli, Command, PageArgs};

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
