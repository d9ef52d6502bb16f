//! The published report: an answer as data, and the same in words.

use crate::told::Told;
use answer::{Answer, VERSION};
use schemars::{JsonSchema, Schema, schema_for};
use serde::Serialize;

/// The answer to one set-up, for other programs.
#[derive(Clone, Debug, Serialize, JsonSchema)]
pub struct Report {
    /// Version of this shape.
    pub version: u32,
    /// What the photographer calls the set-up.
    pub title: String,
    /// The answer in words.
    pub told: Told,
    /// The answer as data.
    #[serde(flatten)]
    pub answer: Answer,
}

impl Report {
    /// The report of an answer, with its words.
    pub fn new(title: &str, answer: Answer, told: Told) -> Self {
        Report {
            version: VERSION,
            title: title.to_owned(),
            told,
            answer,
        }
    }

    /// The published schema (JSON Schema, draft 2020-12).
    pub fn schema() -> Schema {
        schema_for!(Self)
    }
}
