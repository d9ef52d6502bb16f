//! What can go wrong, said to the person who can act.

use crate::document::Document;
use sqlx::{postgres::PgDatabaseError, sqlite::SqliteError};
use std::fmt;

/// The part of a document that an error is about.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Part {
    /// The name, counted in characters.
    Name,
    /// The text, counted in bytes.
    Text,
}

impl fmt::Display for Part {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Part::Name => "name",
            Part::Text => "text",
        })
    }
}

impl Part {
    /// What the length of this part is counted in.
    pub(crate) fn counted_in(self) -> &'static str {
        match self {
            Part::Name => "characters",
            Part::Text => "bytes",
        }
    }
}

/// Why the store did not do what was asked. Whatever the reason, nothing that was saved before is lost.
///
/// `place` is where the documents are kept, as [`Store::describe`](crate::Store::describe) says it: a path,
/// or a database and its server, never with a password.
#[derive(Debug, thiserror::Error)]
pub enum StoreError {
    /// There is no document of that kind with that identifier, or it has no such version.
    #[error("There is no such document here. It may have been saved somewhere else; look through the list.")]
    NotFound,

    /// Another caller saved a newer version in the meantime; nothing was saved now.
    #[error(
        "“{}” was saved by somebody else in the meantime, as version {}. Look at that version, put the two together \
         and save again.", .theirs.name, .theirs.version
    )]
    Conflict {
        /// The newest version, with its text.
        theirs: Document,
    },

    /// The name is empty or only blank.
    #[error("A document needs a name. Give it one and save again.")]
    NoName,

    /// The name or the text is longer than the store keeps.
    #[error("The {part} is too long: {length} {}, and at most {most} fit. Shorten it and save again.", .part.counted_in())]
    TooLong {
        /// Which of the two.
        part: Part,
        /// How long it is, in characters (name) or bytes (text).
        length: usize,
        /// How long it may be, counted the same way.
        most: usize,
    },

    /// The name has a control character, or the text has a NUL.
    #[error("The {part} has a character that cannot be printed ({}, the {at}. character). Take it out and save again.",
        .character.escape_unicode())]
    Unprintable {
        /// Which of the two.
        part: Part,
        /// Where it stands, in characters, counted from 1.
        at: usize,
        /// What it is.
        character: char,
    },

    /// There was no room to save. The same is said when a write is refused by a quota.
    #[error(
        "There is no room left where {place} is kept: the disk is full, or your share of it. Nothing saved before is \
         lost. Free some space and save again."
    )]
    Full {
        /// Where the documents are kept.
        place: String,
    },

    /// Nothing may be written there.
    #[error(
        "{place} can be read but not written. Allow writing to it and to its folder, or copy it to where you may \
         write."
    )]
    ReadOnly {
        /// Where the documents are kept.
        place: String,
    },

    /// Others kept the store busy for too long.
    #[error("{place} is busy with somebody else's work. Try again in a moment.")]
    Busy {
        /// Where the documents are kept.
        place: String,
    },

    /// A later version of the program has changed how things are kept.
    #[error(
        "{place} was written by a later version of this program, and is left as it is. Use that version to open it."
    )]
    Newer {
        /// Where the documents are kept.
        place: String,
    },

    /// It cannot be read as what the store wrote.
    #[error(
        "{place} is damaged ({detail}). It is left untouched. Put back a copy of it; or move it away, keep it, and \
         start with an empty one."
    )]
    Damaged {
        /// Where the documents are kept.
        place: String,
        /// What was found.
        detail: String,
    },

    /// It is in good order, but another program's.
    #[error(
        "{place} belongs to another program, and is left untouched. Name another file, or a database of its own."
    )]
    NotOurs {
        /// Where the documents are kept.
        place: String,
    },

    /// The database did not answer, or refused to let the program in. If this was the answer to a save, it may have been kept
    /// or not; to save the same again is safe.
    #[error("{place} cannot be reached ({detail}). See that it is there and lets you in, then try again.")]
    Unreachable {
        /// Where the documents are kept.
        place: String,
        /// What the system or the server said.
        detail: String,
    },

    /// The disk failed at reading or at writing.
    #[error("{place} could not be used: the disk failed ({detail}). Copy it to another disk.")]
    DiskFailed {
        /// Where the documents are kept.
        place: String,
        /// What the system said.
        detail: String,
    },

    /// Something that this program does not know better than its words.
    #[error("{place} could not be used: {detail}.")]
    Other {
        /// Where the documents are kept.
        place: String,
        /// What was found, and if possible what to do.
        detail: String,
    },
}

impl StoreError {
    /// Says what a database error means for the person.
    pub(crate) fn meaning(place: &str, error: sqlx::Error) -> StoreError {
        let detail = plain(&error);
        match &error {
            sqlx::Error::Database(database) => {
                if let Some(sqlite) = database.try_downcast_ref::<SqliteError>() {
                    of_sqlite(place, sqlite_code(sqlite), detail)
                } else if let Some(postgres) = database.try_downcast_ref::<PgDatabaseError>() {
                    of_postgres(place, postgres.code(), detail)
                } else {
                    StoreError::Other {
                        place: place.into(),
                        detail,
                    }
                }
            }
            sqlx::Error::PoolTimedOut => StoreError::Busy { place: place.into() },
            sqlx::Error::Io(_)
            | sqlx::Error::Tls(_)
            | sqlx::Error::PoolClosed
            | sqlx::Error::WorkerCrashed => StoreError::Unreachable {
                place: place.into(),
                detail,
            },
            _ => StoreError::Other {
                place: place.into(),
                detail,
            },
        }
    }

    /// Says what an error of the file system means for the person.
    pub(crate) fn of_files(place: &str, error: &std::io::Error) -> StoreError {
        use std::io::ErrorKind;
        let place = place.to_owned();
        match error.kind() {
            ErrorKind::PermissionDenied | ErrorKind::ReadOnlyFilesystem => StoreError::ReadOnly { place },
            ErrorKind::StorageFull | ErrorKind::QuotaExceeded => StoreError::Full { place },
            _ => StoreError::Other {
                place,
                detail: error.to_string(),
            },
        }
    }
}

/// The words of the database alone, without those that the library puts before them.
fn plain(error: &sqlx::Error) -> String {
    let said = match error {
        sqlx::Error::Database(database) => database.message().to_owned(),
        sqlx::Error::Io(io) => io.to_string(),
        other => other.to_string(),
    };
    said.trim_end_matches('.').to_owned()
}

/// The extended result code.
pub(crate) fn sqlite_code(error: &SqliteError) -> i32 {
    use sqlx::error::DatabaseError;
    error.code().and_then(|code| code.parse().ok()).unwrap_or(1)
}

/// The meaning of SQLite's result codes (its documentation, "Result and Error Codes").
fn of_sqlite(place: &str, code: i32, detail: String) -> StoreError {
    const IOERR_SHORT_READ: i32 = 10 | 2 << 8;
    const IOERR_WRITE: i32 = 10 | 3 << 8;
    const IOERR_SHMSIZE: i32 = 10 | 19 << 8;
    let place = place.to_owned();
    // SQLite says FULL only for ENOSPC. A quota or a limit on the size of files comes as IOERR_WRITE; a dying
    // disk shows at reading or at flushing instead, because writing only goes to the system's memory.
    match (code & 0xff, code) {
        (5 | 6, _) => StoreError::Busy { place },
        (8, _) => StoreError::ReadOnly { place },
        (13, _) | (_, IOERR_WRITE | IOERR_SHMSIZE) => StoreError::Full { place },
        (11 | 26, _) | (_, IOERR_SHORT_READ) => StoreError::Damaged { place, detail },
        (14, _) => StoreError::Unreachable { place, detail },
        (10, _) => StoreError::DiskFailed { place, detail },
        _ => StoreError::Other { place, detail },
    }
}

/// The meaning of PostgreSQL's error codes (PostgreSQL documentation, appendix A).
fn of_postgres(place: &str, code: &str, detail: String) -> StoreError {
    let place = place.to_owned();
    match code {
        "53100" => StoreError::Full { place },
        // Read-only transaction, as on a standby server; and no right to write.
        "25006" | "42501" => StoreError::ReadOnly { place },
        // Serialisation failure, deadlock, lock not available, too many connections.
        "40001" | "40P01" | "55P03" | "53300" => StoreError::Busy { place },
        // The connection, the person, the database, and a server that stops or starts.
        _ if code.starts_with("08")
            || code.starts_with("28")
            || code.starts_with("57P")
            || code == "3D000" =>
        {
            StoreError::Unreachable { place, detail }
        }
        _ if code.starts_with("XX00") && code != "XX000" => StoreError::Damaged { place, detail },
        _ => StoreError::Other { place, detail },
    }
}
