//! `rushlight drawing`: the answer from above and from the side.

use super::asked::{load, solve};
use super::failure::Failure;
use crate::cli::DrawingArgs;
use crate::output;

/// Draws an answer and writes it.
///
/// # Errors
/// Mistakes in the shoot file, a place that cannot be lit, or a drawing that could not be written.
pub fn run(args: &DrawingArgs) -> Result<(), Failure> {
    let shoot = load(Some(&args.shoot), args.setup.as_deref())?;
    let voice = args.speech.of(&shoot);
    let answer = solve(&shoot, voice)?;
    let drawing = sheet::drawing_svg(&shoot.job, Some(&answer), voice);
    output::write_file(&args.out, drawing.as_bytes())?;
    Ok(())
}
