//! temp
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};
/// temp
#[derive(Clone, Debug, Serialize, Deserialize, JsonSchema)]
pub struct Geometry {}
impl Geometry {
    /// temp
    pub fn of(_: &super::Shoot) -> Self { Geometry {} }
}
