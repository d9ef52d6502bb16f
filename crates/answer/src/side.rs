//! Left and right of a picture.

use schemars::JsonSchema;
use serde::Serialize;

/// A side, seen from the camera.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum Side {
    /// The camera's left.
    Left,
    /// The camera's right.
    Right,
}
