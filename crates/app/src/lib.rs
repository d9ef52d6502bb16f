//! The world outside: command line, shoot files, disk and clock.
//!
//! This crate turns a shoot file into a [`answer::Job`] and an answer into files that people and programs read.
//! It holds no formula: light is computed in the crates below, and drawn in `sheet`.
//!
//! ```
//! let demo = shoot::parse_file("demo.toml", shoot::DEMO).expect("the demo is a good shoot file");
//! assert_eq!(demo.set_ups.len(), 5);
//! assert_eq!(demo.set_ups[0].job.sitters.len(), 1);
//! ```

pub mod cli;
pub mod clock;
pub mod commands;
pub mod day;
pub mod files;
pub mod output;
