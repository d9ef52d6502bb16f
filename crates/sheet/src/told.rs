//! An answer in words, for programs that show it: every sentence beside the data that it is made of, in one language.
//!
//! Lists stand in the order of the answer's own lists, so that the n-th sentence belongs to the n-th piece of data.

use crate::voice::{Language, Voice};
use crate::wording::nouns::{light, part, source, way};
use crate::wording::{
    aim, alternatives, balance, cautions, changes, chart, doubt, lines, notes, why, wishes,
};
use answer::{Alternative, Answer, ControlLevel, Job, LaterSettings, Shortfall, SurfaceVerdict};
use colour::WhiteBalance;
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
    /// What the way of the light is called: "left wall", "white board, held".
    pub way: String,
    /// Where the sitters should stand instead; null where they stay.
    pub moved: Option<String>,
    /// What is lacking and what would help; null when nothing is.
    pub shortfall: Option<ToldShortfall>,
    /// Every wish.
    pub wishes: Vec<ToldWish>,
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

/// A wish.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, JsonSchema)]
#[schemars(deny_unknown_fields)]
pub struct ToldWish {
    /// What was asked.
    pub asked: String,
    /// What the answer makes of it.
    pub found: String,
    /// How near that comes.
    pub state: String,
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

impl Told {
    /// An answer in the words of a voice.
    pub fn new(job: &Job, answer: &Answer, voice: Voice) -> Self {
        let surface = |surface: &SurfaceVerdict| ToldSurface {
            name: way(voice, &surface.way).bare,
            why: why::sentence(voice, &surface.why, surface.key.as_ref()),
        };
        let control = |level: &ControlLevel| {
            let (name, step) = balance::control(voice, &level.control);
            ToldControl { name, step }
        };
        let later = |later: &LaterSettings| ToldLater {
            then: balance::touched(voice, &later.then, answer),
            instead: later
                .instead
                .as_ref()
                .map(|instead| balance::touched(voice, instead, answer)),
        };
        Told {
            language: voice.language,
            lines: Lines::new(answer, voice),
            engraved: Engraved::new(answer, voice),
            way: way(voice, &answer.way()).bare,
            moved: lines::moved(voice, job, answer),
            shortfall: answer
                .shortfall
                .as_ref()
                .map(|short| ToldShortfall::new(short, voice)),
            wishes: each(&answer.wishes, |wish| ToldWish {
                asked: wishes::asked(voice, &wish.asked),
                found: wishes::found(voice, wish),
                state: wishes::state(voice, wish).to_owned(),
            }),
            alternatives: each(&answer.alternatives, |other| {
                ToldAlternative::new(answer, other, voice)
            }),
            notes: each(&answer.notes, |note| notes::note(voice, note)),
            cautions: each(&answer.cautions, |caution| cautions::caution(voice, caution)),
            chart: each(&answer.chart, |line| chart::label(voice, &line.item)),
            surfaces: each(&answer.surfaces, surface),
            colour: ToldColour {
                zones: each(&answer.colouring.zones, |zone| part(voice, &zone.part)),
                sources: each(&answer.colouring.sources, |light| {
                    source(voice, &light.source).bare
                }),
            },
            ambient_as_metered: each(&answer.exposure.ambient_as_metered, |level| {
                light(voice, &level.light).bare
            }),
            controls: each(&answer.balance.controls, control),
            reach: each(&answer.balance.reach, |reach| balance::reach(voice, reach)),
            later: each(&answer.balance.later, later),
            uncertainty: each(&answer.uncertainty.parts, |part| ToldGuess {
                input: doubt::input(voice, &part.input),
                spread: doubt::assumed(voice, part.assumed),
            }),
            sensitivities: each(&answer.sensitivities, |change| {
                doubt::difference(voice, &change.what)
            }),
            referee: doubt::confirmation(voice, &answer.referee),
        }
    }
}

/// The words of each piece of data, in their order.
fn each<Data, Words>(all: &[Data], tell: impl Fn(&Data) -> Words) -> Vec<Words> {
    all.iter().map(tell).collect()
}

impl Lines {
    /// The three lines of an answer, in the notation of the trade, and how sure they are.
    pub fn new(answer: &Answer, voice: Voice) -> Self {
        Lines {
            camera: lines::camera(voice, &answer.settings),
            flash: lines::flash(voice, &answer.flash, answer.colouring.gel.as_ref()),
            aim: aim::line(voice, &answer.aim),
            about: doubt::about(voice, answer),
        }
    }
}

impl Engraved {
    fn new(answer: &Answer, voice: Voice) -> Self {
        let settings = &answer.settings;
        Engraved {
            aperture: settings.aperture.nearest_third().to_string(),
            shutter: voice.shutter(settings.shutter),
            power: answer.flash.power.nearest_third().to_string(),
            tint_steps: WhiteBalance::tint_steps(settings.tint),
        }
    }
}

impl ToldShortfall {
    fn new(shortfall: &Shortfall, voice: Voice) -> Self {
        ToldShortfall {
            words: changes::shortfall(voice, shortfall),
            changes: each(&shortfall.changes, |offer| ToldOffer {
                what: changes::what(voice, &offer.change),
                cost: changes::cost(voice, &offer.change),
                then: changes::then(voice, &offer.then),
            }),
            tried: each(&shortfall.tried, |change| changes::what(voice, change)),
        }
    }
}

impl ToldAlternative {
    fn new(answer: &Answer, other: &Alternative, voice: Voice) -> Self {
        ToldAlternative {
            name: way(voice, &other.way).bare,
            prefer: alternatives::prefer(voice, &other.prefer),
            camera: lines::camera(voice, &other.settings),
            flash: lines::flash(voice, &other.flash, answer.colouring.gel.as_ref()),
            aim: aim::line(voice, &other.aim),
        }
    }
}
