//! What lies beside a shoot file: the files that it names.

use std::fmt::Debug;

/// The folder of a shoot file, or whatever stands for it.
pub trait Beside: Debug {
    /// The text of a file in it, by its name alone.
    ///
    /// # Errors
    /// Why there is none, in a few words: "there is no such file".
    fn text(&self, name: &str) -> Result<String, String>;
}
