//! `rushlight check`: what was understood of a shoot file.

use super::asked::load;
use super::failure::Failure;
use crate::cli::CheckArgs;
use crate::files;
use crate::output;
use shoot::summary::summary;

/// Reads a shoot file and says what was understood.
///
/// # Errors
/// Mistakes in the shoot file, or a summary that could not be printed.
pub fn run(args: &CheckArgs) -> Result<(), Failure> {
    let set_ups = match &args.setup {
        Some(_) => vec![load(Some(&args.shoot), args.setup.as_deref())?],
        None => files::read_file(&args.shoot)?.set_ups,
    };
    let language = args.speech.language.into();
    let summaries: Vec<String> = set_ups.iter().map(|shoot| summary(shoot, language)).collect();
    output::print(&summaries.join("\n"))?;
    Ok(())
}
