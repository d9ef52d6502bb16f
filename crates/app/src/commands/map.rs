//! `rushlight map`: every aim at the room's surfaces, on the room unrolled.

use super::asked::{load, solve};
use super::failure::Failure;
use crate::cli::MapArgs;
use crate::output;

/// Draws the map of an answer and writes it.
///
/// # Errors
/// Mistakes in the shoot file, a place that cannot be lit, or a map that could not be written.
pub fn run(args: &MapArgs) -> Result<(), Failure> {
    let shoot = load(Some(&args.shoot), args.setup.as_deref())?;
    let voice = args.speech.of(&shoot);
    let answer = solve(&shoot, voice)?;
    let map = sheet::room_map_svg(&shoot.job, &answer, voice);
    output::write_file(&args.out, map.as_bytes())?;
    Ok(())
}
