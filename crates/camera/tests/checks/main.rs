//! The published relations of exposure and focus, case by case from the check files.

mod cases;
mod depth;
mod exposure;
