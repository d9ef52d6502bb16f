//! What is understood of a text while it is being written: mistakes with their places, a drawing of what was described,
//! the parts as plain values, and where everything stands. Nothing is computed that takes time.

mod begin;
mod geometry;

pub use begin::{StartForm, begin};
pub use geometry::{BoardAt, FurnitureAt, Geometry, LampAt, OpeningAt, Point, RoomSize, SitterAt, WallName};

use crate::edit::{AsWritten, PartKind};
use crate::summary::understood;
use crate::{Problem, Problems, Shoot, Words};
use answer::Language;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};
use serde_json::{Map, Value};

/// What a text is called in messages, which are shown beside it.
pub const NAME: &str = "shoot.toml";

/// The name of a set-up.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
pub struct SetUpName {
    /// What it is called.
    pub name: String,
}

/// Something that is wrong with a text.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
pub struct Mistake {
    /// The line, from 1; null if it has no place.
    pub line: Option<usize>,
    /// The letter in the line, from 1.
    pub column: Option<usize>,
    /// What is wrong.
    pub message: String,
    /// A few words on what stands there.
    pub why: Option<String>,
    /// What to do about it.
    pub remedy: Option<String>,
}

impl Mistake {
    fn of(problem: &Problem, language: Language) -> Self {
        let place = problem.place();
        Mistake {
            line: place.map(|(line, _)| line),
            column: place.map(|(_, column)| column),
            message: problem.message(language).to_owned(),
            why: problem.why(language).map(str::to_owned),
            remedy: problem.remedy(language).map(str::to_owned),
        }
    }

    /// All that is wrong with a text, in its order.
    pub fn all(problems: &Problems, language: Language) -> Vec<Self> {
        let list = problems.list().iter();
        list.map(|problem| Self::of(problem, language)).collect()
    }
}

/// What was understood of the text of a shoot, as one set-up sees it.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Understood {
    /// The text.
    pub text: String,
    /// The set-ups in the order of the file; one, with the shoot's title, if it has no `[[setup]]`.
    pub set_ups: Vec<SetUpName>,
    /// Which of them this is about, from 0.
    pub set_up: usize,
    /// Whether this set-up can be answered.
    pub ok: bool,
    /// What is wrong with it, in the order of the file.
    pub problems: Vec<Mistake>,
    /// What was assumed, or looks odd.
    pub warnings: Vec<String>,
    /// What was understood, a line each.
    pub summary: Vec<String>,
    /// The parts of this set-up as plain values, exactly as written; empty if the text cannot be taken apart.
    pub form: Map<String, Value>,
    /// The parts that this set-up has of its own.
    pub owned: Vec<String>,
    /// The place from above and from the side, an SVG; null while something is wrong.
    pub drawing: Option<String>,
    /// Where everything stands; null while something is wrong.
    pub geometry: Option<Geometry>,
}

/// Reads the text of a shoot as set-up number `set_up`, from 0, sees it, and says in a language what is understood; `draw`
/// draws what was read.
pub fn understand(
    text: &str,
    set_up: usize,
    language: Language,
    draw: impl FnOnce(&Shoot) -> String,
) -> Understood {
    let read = crate::parse_set_up(NAME, text, set_up);
    let written = AsWritten::open(text);
    let shoot = read.as_ref().ok();
    Understood {
        set_ups: set_ups(written.as_ref(), shoot),
        set_up,
        ok: shoot.is_some(),
        problems: read
            .as_ref()
            .err()
            .map_or_else(Vec::new, |problems| Mistake::all(problems, language)),
        warnings: shoot.map_or_else(Vec::new, |shoot| told(&shoot.warnings, language)),
        summary: shoot.map_or_else(Vec::new, |shoot| told(&understood(shoot), language)),
        form: written
            .as_ref()
            .map_or_else(Map::new, |written| written.form(set_up)),
        owned: written
            .as_ref()
            .map_or_else(Vec::new, |written| written.owned(set_up)),
        drawing: shoot.map(draw),
        geometry: shoot.map(Geometry::of),
        text: text.to_owned(),
    }
}

fn told(words: &[Words], language: Language) -> Vec<String> {
    words
        .iter()
        .map(|words| words.in_language(language).to_owned())
        .collect()
}

fn set_ups(written: Option<&AsWritten>, shoot: Option<&Shoot>) -> Vec<SetUpName> {
    let names = written.map_or_else(Vec::new, AsWritten::set_ups);
    if !names.is_empty() {
        return names.into_iter().map(|name| SetUpName { name }).collect();
    }
    let title = written.and_then(AsWritten::title).map(str::to_owned);
    let name = title.or_else(|| shoot.map(|shoot| shoot.job.title.clone()));
    vec![SetUpName {
        name: name.unwrap_or_else(|| "shoot".to_owned()),
    }]
}

/// What was understood of a bag or a place that is kept by itself.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct UnderstoodPart {
    /// The text.
    pub text: String,
    /// Whether a shoot can take it.
    pub ok: bool,
    /// What is wrong with it, in the order of the text.
    pub problems: Vec<Mistake>,
    /// What was assumed.
    pub warnings: Vec<String>,
    /// The part as plain values, under its key; empty if the text cannot be taken apart.
    pub form: Map<String, Value>,
}

/// Reads the text of a bag or a place that is kept by itself, and says in a language what is understood.
pub fn understand_part(kind: PartKind, text: &str, language: Language) -> UnderstoodPart {
    let read = crate::parse_part(&format!("{}.toml", kind.key()), text, kind);
    let form = AsWritten::open(text).map_or_else(Map::new, |written| written.whole());
    let (ok, problems, warnings) = match read {
        Ok(warnings) => (true, Vec::new(), told(&warnings, language)),
        Err(problems) => (false, Mistake::all(&problems, language), Vec::new()),
    };
    UnderstoodPart {
        text: text.to_owned(),
        ok,
        problems,
        warnings,
        form,
    }
}
