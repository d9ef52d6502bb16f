//! A document and its versions.

use crate::id::DocumentId;
use std::fmt;

/// What a document is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Kind {
    /// A job with its set-ups.
    Shoot,
    /// What the photographer owns.
    Bag,
    /// A room or an outdoor spot.
    Place,
}

impl Kind {
    /// All kinds.
    pub const ALL: [Kind; 3] = [Kind::Shoot, Kind::Bag, Kind::Place];

    /// The word that stands for the kind in the database and in addresses: `shoot`, `bag` or `place`.
    pub fn word(self) -> &'static str {
        match self {
            Kind::Shoot => "shoot",
            Kind::Bag => "bag",
            Kind::Place => "place",
        }
    }

    /// The kind that [`Kind::word`] names, if it names one.
    pub fn from_word(word: &str) -> Option<Kind> {
        Kind::ALL.into_iter().find(|kind| kind.word() == word)
    }
}

impl fmt::Display for Kind {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.word())
    }
}

/// One version of a document, with its text.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Document {
    /// The same for all versions.
    pub id: DocumentId,
    /// The same for all versions.
    pub kind: Kind,
    /// What a person calls it; 1 to [`LONGEST_NAME`](crate::LONGEST_NAME) characters, none of them a control character. Names need
    /// not differ.
    pub name: String,
    /// Counted from 1, without gaps.
    pub version: i64,
    /// When it was saved, as the caller said: milliseconds since 1970-01-01T00:00Z, UTC.
    pub saved_at_ms: i64,
    /// Whether this version says that the document was removed.
    pub removed: bool,
    /// What was saved, to the byte; at most [`LONGEST_TEXT`](crate::LONGEST_TEXT) bytes, without NUL.
    pub text: String,
}

/// One version of a document, without its text.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Listed {
    /// As in [`Document`].
    pub id: DocumentId,
    /// As in [`Document`].
    pub kind: Kind,
    /// As in [`Document`].
    pub name: String,
    /// As in [`Document`].
    pub version: i64,
    /// As in [`Document`].
    pub saved_at_ms: i64,
    /// As in [`Document`].
    pub removed: bool,
}
