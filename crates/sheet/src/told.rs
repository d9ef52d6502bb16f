//! An answer in words, for programs that show it: every sentence beside the data that it is made of, in one language.
//!
//! Lists stand in the order of the answer's own lists, so that the n-th sentence belongs to the n-th piece of data.

use crate::voice::Language;
use schemars::JsonSchema;
use serde::Serialize;

/// An answer in words.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
#[schemars(deny_unknown_fields)]
pub struct Told {
    /// The language of all that follows.
    pub language: Language,
    /// The three lines, and how sure they are.
    pub lines: Lines,
    /// Settings as engraved.
    pub engraved: Engraved,
    /// What carries the light: "left wall", the name of a board or of furniture.
    pub way: String,
    /// Where the sitters should stand instead; null where they stay.
    pub moved: Option<String>,
    /// What is short and what would help; null when all is met.
    pub shortfall: Option<ToldShortfall>,
    /// Everything insisted on.
    pub limits: Vec<ToldLimit>,
    /// Other answers that are truly different.
    pub alternatives: Vec<ToldAlternative>,
    /// What to do or to know, the important things first.
    pub notes: Vec<String>,
    /// Cautions where something could hurt.
    pub cautions: Vec<String>,
    /// The lines of the stops chart.
    pub chart: Vec<String>,
    /// Every way of lighting that was considered.
    pub surfaces: Vec<ToldSurface>,
    /// The gel and the colours.
    pub colour: ToldColour,
    /// The lights that are there, as they are called.
    pub ambient_as_metered: Vec<String>,
    /// What one step of each control is.
    pub controls: Vec<ToldControl>,
    /// Power and zoom of each reach, such as "zoom 50 at 1/4".
    pub reach: Vec<String>,
    /// Settings for each later time.
    pub later: Vec<ToldLater>,
    /// What the doubt is made of.
    pub uncertainty: Vec<ToldGuess>,
    /// What may be a little different.
    pub sensitivities: Vec<String>,
    /// What the path tracer says.
    pub referee: String,
}

/// The answer in three lines, and how sure they are.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, JsonSchema)]
#[schemars(deny_unknown_fields)]
pub struct Lines {
    /// Such as "f/4 · 1/160 · ISO 400 · 5000 K".
    pub camera: String,
    /// Such as "1/8 +0.7 · zoom 50 · no gel · 2.3 stops in hand".
    pub flash: String,
    /// Where to point the flash.
    pub aim: String,
    /// How sure this is, and what to measure to be surer.
    pub about: String,
}

/// Settings as they are engraved on dials.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, JsonSchema)]
#[schemars(deny_unknown_fields)]
pub struct Engraved {
    /// Aperture, such as "f/5.6".
    pub aperture: String,
    /// Shutter, such as "1/160".
    pub shutter: String,
    /// Power, such as "1/8 +0.7".
    pub power: String,
    /// Tint of the balance in steps of the camera's scale, 0.002 Duv each: positive towards magenta, which green light needs.
    pub tint_steps: i32,
}

/// What is short when something insisted on is missed, and what would help.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
#[schemars(deny_unknown_fields)]
pub struct ToldShortfall {
    /// What is short and by how much, in one sentence.
    pub words: String,
    /// The changes that make the ask possible.
    pub changes: Vec<ToldOffer>,
    /// Changes that do not help.
    pub tried: Vec<String>,
}

/// A change that makes the ask possible.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, JsonSchema)]
#[schemars(deny_unknown_fields)]
pub struct ToldOffer {
    /// What to do.
    pub what: String,
    /// What it costs the look.
    pub cost: String,
    /// The answer that it leads to, in one line.
    pub then: String,
}

/// Something insisted on.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, JsonSchema)]
#[schemars(deny_unknown_fields)]
pub struct ToldLimit {
    /// What was asked.
    pub asked: String,
    /// What the answer makes of it.
    pub found: String,
}

/// Another answer.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, JsonSchema)]
#[schemars(deny_unknown_fields)]
pub struct ToldAlternative {
    /// The surface, the board, the bare flash.
    pub name: String,
    /// The one reason to prefer it.
    pub prefer: String,
    /// Its camera line.
    pub camera: String,
    /// Its flash line.
    pub flash: String,
    /// Where it points the flash.
    pub aim: String,
}

/// A way of lighting.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, JsonSchema)]
#[schemars(deny_unknown_fields)]
pub struct ToldSurface {
    /// What it is called.
    pub name: String,
    /// Why, or why not.
    pub why: String,
}

/// The gel and the colours.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, JsonSchema)]
#[schemars(deny_unknown_fields)]
pub struct ToldColour {
    /// The parts of the picture, such as "face, lit side".
    pub zones: Vec<String>,
    /// The lights that meet at the face.
    pub sources: Vec<String>,
}

/// One step of a control.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, JsonSchema)]
#[schemars(deny_unknown_fields)]
pub struct ToldControl {
    /// The control, such as "shutter".
    pub name: String,
    /// The step, such as "1/3 stop slower".
    pub step: String,
}

/// Settings for a later time.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, JsonSchema)]
#[schemars(deny_unknown_fields)]
pub struct ToldLater {
    /// What is touched, such as "shutter 1/50, all else untouched".
    pub then: String,
    /// The same with a shutter that can be held.
    pub instead: Option<String>,
}

/// One guess.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, JsonSchema)]
#[schemars(deny_unknown_fields)]
pub struct ToldGuess {
    /// The input.
    pub input: String,
    /// What is assumed of it.
    pub spread: String,
}
