//! `rushlight answer`: settings, aim and reasons.

use super::asked::{load, solve};
use super::failure::Failure;
use crate::cli::AnswerArgs;
use crate::output;
use sheet::{Report, Told};

/// Answers a shoot.
///
/// # Errors
/// Mistakes in the shoot file, a place that cannot be lit, or an answer that could not be printed.
pub fn run(args: &AnswerArgs) -> Result<(), Failure> {
    let shoot = load(args.shoot.as_deref(), args.setup.as_deref())?;
    let voice = args.speech.of(&shoot);
    let answer = solve(&shoot, voice)?;
    let text = if args.json {
        let told = Told::new(&shoot.job, &answer, voice);
        let report = Report::new(&shoot.job.title, answer, told);
        let json = serde_json::to_string_pretty(&report);
        json.map_err(|error| Failure::Ours(error.to_string()))? + "\n"
    } else {
        sheet::answer_text(&shoot.job, &answer, voice)
    };
    output::print(&text)?;
    Ok(())
}
