//! `rushlight answer`: settings, aim and reasons.

use super::asked::{load, solve};
use super::failure::Failure;
use crate::cli::AnswerArgs;
use crate::output;
use server::report::AnswerReport;

/// Answers a shoot.
///
/// # Errors
/// Mistakes in the shoot file, a place that cannot be lit, or an answer that could not be printed.
pub fn run(args: &AnswerArgs) -> Result<(), Failure> {
    let shoot = load(args.shoot.as_deref(), args.setup.as_deref())?;
    let answer = solve(&shoot)?;
    let text = if args.json {
        AnswerReport::new(&shoot.job, &answer)
            .to_json()
            .map_err(|error| Failure::Ours(error.to_string()))?
            + "\n"
    } else {
        sheet::answer_text(&shoot.job, &answer, shoot.uses_feet)
    };
    output::print(&text)?;
    Ok(())
}
