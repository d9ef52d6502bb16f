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
//! - **No work is overwritten silently.** A caller who saves says which version they started from. If another
//!   was faster, nothing is saved and the answer is [`StoreError::Conflict`] with the other text.
//! - **Nothing is deleted.** Removing is a version that says so, and every earlier version can be restored.
//!
//! A save whose reply was lost can simply be sent again: if the newest version already has that name and
//! text, it is returned and no version is added.
//!
//! An SQLite file belongs on a disk of the same machine. Several programs on that machine may use it at once;
//! from several machines over a network share it may not be used, which is what PostgreSQL is for.

mod document;
mod error;
mod id;
mod limits;
mod opening;
mod operations;

pub use document::{Document, Kind, Listed};
pub use error::{Part, StoreError};
pub use id::DocumentId;
pub use limits::{LONGEST_NAME, LONGEST_TEXT};
pub use operations::{Everything, Store};
