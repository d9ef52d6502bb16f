//! `rushlight answer`: settings, aim and reasons.

use super::asked::{load, solve};
use super::failure::Failure;
use crate::cli::AnswerArgs;
use crate::output;
use answer::Answer;
use sheet::{Report, Told, Voice};
use shoot::Shoot;

/// Answers a shoot.
///
/// # Errors
/// Mistakes in the shoot file, a place that cannot be lit, or an answer that could not be printed or written.
pub fn run(args: &AnswerArgs) -> Result<(), Failure> {
    let shoot = load(args.shoot.as_deref(), args.setup.as_deref())?;
    let voice = args.speech.of(&shoot);
    let answer = solve(&shoot, voice)?;
    if let Some(path) = &args.out {
        output::write_file(path, json(&shoot, &answer, voice)?.as_bytes())?;
    }
    let text = match args.json {
        true => json(&shoot, &answer, voice)?,
        false => sheet::answer_text(&shoot.job, &answer, voice),
    };
    output::print(&text)?;
    Ok(())
}

/// The answer for other programs.
fn json(shoot: &Shoot, answer: &Answer, voice: Voice) -> Result<String, Failure> {
    let told = Told::new(&shoot.job, answer, voice);
    let report = Report::new(&shoot.job.title, answer.clone(), told);
    let json = serde_json::to_string_pretty(&report);
    Ok(json.map_err(|error| Failure::Ours(error.to_string()))? + "\n")
}
