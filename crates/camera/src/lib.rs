//! Arriving light becomes a recorded value.
