//! `rushlight schema`: the shape of the answer's JSON.

use super::Failure;
use crate::output;
use crate::report::AnswerReport;

/// Prints the JSON schema of the answer.
///
/// # Errors
/// A schema that could not be printed.
pub fn run() -> Result<(), Failure> {
    let schema = serde_json::to_string_pretty(&AnswerReport::schema())
        .map_err(|error| Failure::Ours(error.to_string()))?;
    output::print(&(schema + "\n"))?;
    Ok(())
}
