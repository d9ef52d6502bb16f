//! Shoot texts: understood, changed, begun; nothing is kept.
use super::refusal::{Code, Refusal};
use super::routes::Said;
use axum::Json;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

/// A set-up of a shoot text.
#[derive(Clone, Debug, Serialize, Deserialize, JsonSchema)]
pub struct TextRequest {
    /// The shoot text.
    pub text: String,
    /// Which of its set-ups, from 0.
    #[serde(default)]
    pub set_up: usize,
}
macro_rules! temp { ($($n:ident),*) => { $(
/// temp
#[derive(Clone, Debug, Serialize, Deserialize, JsonSchema)]
pub struct $n {}
)* } }
temp!(Understood, EditRequest, StartForm, TakeRequest, GiveRequest, PartText, ScanQuery, ScannedPlace, Vocabulary);
macro_rules! temph { ($($n:ident),*) => { $(
/// temp
pub async fn $n() -> Result<Json<Understood>, Refusal> { Err(Refusal::new(Code::Ours, "not yet")) }
)* } }
temph!(understand, edit, begin, take, give, scan, vocabulary);
/// temp
pub async fn unused(Said(_): Said<TextRequest>) {}
