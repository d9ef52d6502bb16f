//! The page's server: the same answers as the command line, for a browser on this machine and, when it is let in, a
//! phone beside it.
//!
//! It listens on the loopback address alone until somebody at this machine opens it to the local network. Every request
//! passes [`guard`] first. Long work is done by [`jobs`], one piece at a time in a fair order. The routes stand in one table,
//! [`routes`], which serves requests and describes itself as an OpenAPI document.

pub mod answering;
pub mod answers;
mod assets;
pub mod card;
mod describe;
pub mod documents;
pub mod guard;
pub mod jobs;
pub mod layers;
pub mod lights;
pub mod live;
pub mod moment;
pub mod phone;
pub mod png;
pub mod proofs;
pub mod refusal;
pub mod report;
pub mod routes;
pub mod texts;

pub use describe::api_document;
pub use refusal::Refusal;

use guard::Door;
use jobs::Jobs;
use moment::Clock;
use phone::Phone;
use shoot::edit::AsWritten;
use std::net::{Ipv4Addr, SocketAddr};
use std::sync::{Arc, OnceLock};
use store::{Kind, Store};
use tokio::net::TcpListener;

/// Everything that requests share.
pub struct House {
    /// Shoots, bags and places.
    pub store: Store,
    /// Long work.
    pub jobs: Jobs,
    /// The phone's door.
    pub phone: Phone,
    clock: Clock,
    /// Where the loopback door listens.
    here: OnceLock<SocketAddr>,
}

impl House {
    /// A house around a store, with a clock. An empty store gets the demo shoot.
    ///
    /// # Errors
    /// What the store says.
    pub async fn new(store: Store, clock: Clock) -> Result<Arc<Self>, store::StoreError> {
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
            here: OnceLock::new(),
        }))
    }

    /// Milliseconds since 1970 in universal time.
    fn now_ms(&self) -> i64 {
        (self.clock)().timestamp().as_millisecond()
    }

    /// Where the loopback door listens, once it does.
    pub fn here(&self) -> Option<SocketAddr> {
        self.here.get().copied()
    }
}

/// Opens the loopback door at a port (0 for any that is free) and gives its address and what serves it.
///
/// # Errors
/// A port that cannot be had.
pub async fn open(
    house: Arc<House>,
    port: u16,
) -> std::io::Result<(SocketAddr, impl Future<Output = std::io::Result<()>>)> {
    let listener = TcpListener::bind(SocketAddr::from((Ipv4Addr::LOCALHOST, port))).await?;
    let address = listener.local_addr()?;
    let _ = house.here.set(address);
    let router = routes::router(house, Door::Here { at: address });
    let served = async move { axum::serve(listener, router).await };
    Ok((address, served))
}
