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
pub mod door;
pub mod guard;
pub mod house;
pub mod jobs;
pub mod layers;
pub mod lights;
pub mod live;
pub mod moment;
pub mod pairing;
pub mod phone;
pub mod png;
pub mod products;
pub mod proofs;
pub mod refusal;
pub mod requests;
pub mod routes;
pub mod stage;
pub mod texts;
pub mod trouble;

pub use describe::api_document;
pub use house::House;
pub use refusal::Refusal;

use door::Door;
use moment::Clock;
use std::net::{Ipv4Addr, SocketAddr};
use std::sync::Arc;
use store::{Store, StoreError};
use tokio::net::TcpListener;

/// A house around a store, with a clock. An empty store gets the demo shoot.
///
/// # Errors
/// What the store says.
pub async fn house(store: Store, clock: Clock) -> Result<Arc<House>, StoreError> {
    House::new(store, clock, routes::router).await
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
    let router = house.router(Door::Here { at: address });
    let served = async move { axum::serve(listener, router).await };
    Ok((address, served))
}
