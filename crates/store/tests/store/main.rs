//! What the store promises, tried on both databases.

mod behaviour;
mod crowd;
mod damage;
mod ground;
mod killing;
mod model;
mod no_entry;
mod no_room;
mod part;
mod speed;
