//! The example that is built in.

/// The shoot that is answered when no file is given, and with which an empty store begins.
pub const DEMO: &str = include_str!(concat!(
    env!("CARGO_MANIFEST_DIR"),
    "/../../examples/brass-band.toml"
));

/// What the example is called in messages.
pub const DEMO_NAME: &str = "brass-band.toml";
