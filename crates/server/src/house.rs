//! The house that requests come to, with all that they share.

use super::door::Door;
use super::jobs::Jobs;
use super::moment::Clock;
use super::pairing::Phone;
use super::products::{Answered, LiveSession, Product, Proof};
use super::refusal::Refusal;
use axum::Router;
use jiff::ZonedDateTime;
use shoot::both;
use shoot::edit::AsWritten;
use std::sync::Arc;
use store::{Kind, Store};

/// What makes the routes behind a door of a house.
pub(crate) type MakeRouter = fn(Arc<House>, Door) -> Router;

/// Everything that requests share.
pub struct House {
    /// Shoots, bags and places.
    pub store: Store,
    /// Long work.
    pub jobs: Jobs,
    /// The phone's door.
    pub phone: Phone,
    clock: Clock,
    router: MakeRouter,
}

impl House {
    /// A house around a store, with a clock and what makes its routes. An empty store gets the demo shoot.
    pub(crate) async fn new(
        store: Store,
        clock: Clock,
        router: MakeRouter,
    ) -> Result<Arc<Self>, store::StoreError> {
        if store.is_empty().await? {
            let written = AsWritten::open(shoot::DEMO);
            let name = written
                .as_ref()
                .and_then(AsWritten::title)
                .unwrap_or("Demo")
                .to_owned();
            store
                .create(
                    Kind::Shoot,
                    &name,
                    shoot::DEMO,
                    clock().timestamp().as_millisecond(),
                )
                .await?;
        }
        Ok(Arc::new(House {
            store,
            jobs: Jobs::start(),
            phone: Phone::default(),
            clock,
            router,
        }))
    }

    /// The routes behind a door.
    pub(crate) fn router(self: &Arc<Self>, door: Door) -> Router {
        (self.router)(Arc::clone(self), door)
    }

    /// This moment.
    pub(crate) fn now(&self) -> ZonedDateTime {
        (self.clock)()
    }

    /// Milliseconds since 1970 in universal time.
    pub(crate) fn now_ms(&self) -> i64 {
        self.now().timestamp().as_millisecond()
    }

    /// A finished answer.
    ///
    /// # Errors
    /// Nothing of that name, or nothing finished.
    pub fn answered(&self, id: &str) -> Result<Arc<Answered>, Refusal> {
        match self.jobs.found(id)? {
            Product::Answer(answered) => Ok(answered),
            _ => Err(Refusal::not_found(
                both!("This is no answer."; "Das ist keine Antwort."),
            )),
        }
    }

    /// A proof that has begun.
    ///
    /// # Errors
    /// Nothing of that name, or nothing to be seen yet.
    pub fn proof(&self, id: &str) -> Result<Arc<Proof>, Refusal> {
        match self.jobs.found(id)? {
            Product::Proof(proof) => Ok(proof),
            _ => Err(Refusal::not_found(
                both!("This is no proof."; "Das ist kein Probebild."),
            )),
        }
    }

    /// A place that is ready for live aiming.
    ///
    /// # Errors
    /// Nothing of that name, or not ready yet.
    pub fn live(&self, id: &str) -> Result<Arc<LiveSession>, Refusal> {
        match self.jobs.found(id)? {
            Product::Live(session) => Ok(session),
            _ => Err(Refusal::not_found(
                both!("This is not ready for live aiming."; "Das ist noch nicht bereit zum Zielen von Hand."),
            )),
        }
    }
}
