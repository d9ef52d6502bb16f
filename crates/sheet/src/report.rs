//! The published report: an answer as data, and the same in words.

use crate::told::Told;
use answer::{Answer, VERSION};
use schemars::generate::SchemaSettings;
use schemars::transform::RecursiveTransform;
use schemars::{JsonSchema, Schema};
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

    /// The published schema (JSON Schema, draft 2020-12). Every number may be null in it, for a value without a finite
    /// number is written so.
    pub fn schema() -> Schema {
        let settings = SchemaSettings::draft2020_12().with_transform(RecursiveTransform(or_null));
        settings.into_generator().into_root_schema_for::<Self>()
    }
}

/// Lets a number be null.
fn or_null(schema: &mut Schema) {
    if schema.get("type").is_some_and(|kind| kind == "number") {
        schema.insert("type".to_owned(), vec!["number", "null"].into());
    }
}
