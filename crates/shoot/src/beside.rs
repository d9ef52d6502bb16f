//! What lies beside a shoot file: the files that it names.

use super::words::Words;
use crate::both;
use std::fmt::Debug;

/// The folder of a shoot file, or whatever stands for it.
pub trait Beside: Debug {
    /// The text of a file in it, by its name alone.
    ///
    /// # Errors
    /// Why there is none.
    fn text(&self, name: &str) -> Result<String, NoNeighbour>;
}

/// Why a file beside a shoot file was not read.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum NoNeighbour {
    /// There is none of this name.
    Missing,
    /// It is larger than a shoot file can be.
    TooLarge,
    /// It holds something else than text.
    NotText,
    /// The system refused it, in its own words.
    Refused(String),
}

impl NoNeighbour {
    /// In a few words, behind what could not be read.
    pub(crate) fn words(&self) -> Words {
        match self {
            NoNeighbour::Missing => both!("there is no such file"; "es gibt keine solche Datei"),
            NoNeighbour::TooLarge => both!("it is larger than 1 MB"; "sie ist größer als 1 MB"),
            NoNeighbour::NotText => both!("it is not a text"; "sie ist kein Text"),
            NoNeighbour::Refused(words) => Words::same(words),
        }
    }
}
