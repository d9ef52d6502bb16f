//! What the store promises, tried on both databases.

mod behaviour;
mod crowd;
mod ground;
mod killing;
mod model;
mod part;
mod speed;
