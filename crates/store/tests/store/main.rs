//! What the store promises, tried on both databases.

mod behaviour;
mod ground;
