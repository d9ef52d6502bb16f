//! `rushlight schema`: the shape of the answer's JSON, or of the page's API.

use super::failure::Failure;
use crate::cli::SchemaArgs;
use crate::output;
use server::api_document;
use sheet::Report;

/// Prints the JSON schema of the answer, or the OpenAPI document of the page's server.
///
/// # Errors
/// A schema that could not be printed.
pub fn run(args: &SchemaArgs) -> Result<(), Failure> {
    let schema = if args.api {
        serde_json::to_string_pretty(&api_document())
    } else {
        serde_json::to_string_pretty(&Report::schema())
    };
    let schema = schema.map_err(|error| Failure::Ours(error.to_string()))?;
    output::print(&(schema + "\n"))?;
    Ok(())
}
