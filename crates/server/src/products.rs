//! What long work makes: answers, proofs, and places ready for live aiming.

use super::layers::{Planes, Table};
use super::refusal::Refusal;
use answer::Answer;
use sheet::{Language, Voice};
use shoot::Shoot;
use shoot::both;
use solver::Aiming;
use std::sync::{Arc, PoisonError, RwLock};
use transport::LiveView;

/// What a piece of work made.
#[derive(Clone)]
pub enum Product {
    /// An answer.
    Answer(Arc<Answered>),
    /// A proof.
    Proof(Arc<Proof>),
    /// A place ready for live aiming.
    Live(Arc<LiveSession>),
}

impl Product {
    /// About how much memory it takes.
    pub(crate) fn bytes(&self) -> usize {
        match self {
            Product::Answer(answered) => answered.bytes(),
            Product::Proof(proof) => proof.bytes(),
            Product::Live(session) => session.bytes(),
        }
    }
}

/// An answer with what it answers.
pub struct Answered {
    /// The shoot text.
    pub text: String,
    /// Which of its set-ups.
    pub set_up: usize,
    /// What was understood of it.
    pub shoot: Shoot,
    /// The answer.
    pub answer: Answer,
}

impl Answered {
    /// How it is told in a language: in the unit of its shoot.
    pub fn voice(&self, language: Language) -> Voice {
        Voice::new(language, self.shoot.uses_feet)
    }

    /// About how much memory it takes (measured on the examples: two thirds of it are the map).
    pub fn bytes(&self) -> usize {
        const CELL: usize = 600;
        64 * 1024 + self.text.len() + CELL * self.answer.map.cells.len()
    }
}

/// A proof, finished or growing.
pub struct Proof {
    /// What it is a picture of.
    pub answered: Arc<Answered>,
    /// What weighs its lights.
    pub table: Table,
    newest: RwLock<Option<(u32, Arc<Planes>)>>,
}

impl Proof {
    /// A proof without a picture yet.
    pub(crate) fn begun(answered: Arc<Answered>, table: Table) -> Self {
        Proof {
            answered,
            table,
            newest: RwLock::default(),
        }
    }

    /// About how much memory it takes.
    pub fn bytes(&self) -> usize {
        let newest = self.newest.read().unwrap_or_else(PoisonError::into_inner);
        newest.as_ref().map_or(0, |(_, planes)| planes.size_in_memory())
    }

    /// The newest picture with its number.
    pub(crate) fn newest(&self) -> Result<(u32, Arc<Planes>), Refusal> {
        let newest = self.newest.read().unwrap_or_else(PoisonError::into_inner);
        newest.clone().ok_or_else(|| {
            Refusal::not_found(both!("There is no picture yet."; "Es ist noch kein Bild da.")).hint(
                both!("Follow the proof until there is one."; "Verfolge das Probebild, bis eins da ist."),
            )
        })
    }

    pub(crate) fn put(&self, number: u32, planes: Planes) {
        let mut newest = self.newest.write().unwrap_or_else(PoisonError::into_inner);
        *newest = Some((number, Arc::new(planes)));
    }
}

/// An answer's place ready for live aiming.
pub struct LiveSession {
    pub(crate) answered: Arc<Answered>,
    pub(crate) aiming: Aiming,
    pub(crate) view: LiveView,
    pub(crate) table: Table,
}

impl LiveSession {
    /// About how much memory it takes.
    pub fn bytes(&self) -> usize {
        // A link is a patch and two weights.
        12 * self.view.links() + 256 * self.view.receivers()
    }
}
