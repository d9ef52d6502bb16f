//! What the store promises, tried on both databases.

mod behaviour;
mod crowd;
mod ground;
mod model;
mod speed;
