//! Shoots, bags and places kept with every saved version.
//!
//! A document is a name and a plain text. The store never reads the text; it only keeps it, in one SQLite
//! file without any set-up ([`Store::open_file`]) or in a PostgreSQL database for a school or a studio
//! ([`Store::open_url`]).
//!
//! # What is promised
//!
//! - **Said to be saved is on the disk.** A call that changes something returns only after the database has
//!   committed it and asked the disk to write it down. In SQLite that is the write-ahead log with
//!   `synchronous=FULL` (and `fullfsync`, which matters on a Mac): one flush of the log for each save. It
//!   outlives a killed program and, as far as the disk keeps its word when told to flush, a power cut. In
//!   PostgreSQL it is `synchronous_commit`, which the store turns on for its connections where the server has
//!   it off; the server's own `fsync` setting must be on, as it is by default.
//! - **All or nothing.** A save is one transaction. After a crash a version is there whole or not at all; one
//!   that was never confirmed may be either.
//! - **Nobody is overwritten silently.** Whoever saves says which version they started from. If somebody else
//!   was faster, nothing is saved and the answer is [`StoreError::Conflict`] with the other text.
//! - **Nothing is deleted.** Removing is a version that says so, and every earlier version can be restored.
//!
//! A save whose reply was lost can simply be sent again: if the newest version already has that name and
//! text, it is returned and no version is added.
//!
//! An SQLite file belongs on a disk of the same machine. Several programs on that machine may use it at once;
//! from several machines over a network share it may not be used, which is what PostgreSQL is for.

mod error;
mod id;
mod limits;
mod opening;
mod operations;

pub use error::StoreError;
pub use id::DocumentId;
pub use limits::{LONGEST_NAME, LONGEST_TEXT, Part};
pub use operations::{Everything, Store};

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

impl std::fmt::Display for Kind {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
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
    /// What a person calls it; 1 to [`LONGEST_NAME`] characters, none of them a control character. Names need
    /// not differ.
    pub name: String,
    /// Counted from 1, without gaps.
    pub version: i64,
    /// When it was saved, as the caller said: milliseconds since 1970-01-01T00:00Z, UTC.
    pub saved_at_ms: i64,
    /// Whether this version says that the document was removed.
    pub removed: bool,
    /// What was saved, to the byte; at most [`LONGEST_TEXT`] bytes, without NUL.
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
