//! What may be saved. The limits are ours; the schema repeats them, so that no other hand breaks them.

use crate::error::{Part, StoreError};

/// The most characters of a name.
pub const LONGEST_NAME: usize = 200;

/// The most bytes of a text: 1 MiB.
pub const LONGEST_TEXT: usize = 1 << 20;

/// Refuses a name or a text that cannot be kept the same way by both databases.
pub(crate) fn check(name: &str, text: &str) -> Result<(), StoreError> {
    if name.trim().is_empty() {
        return Err(StoreError::NoName);
    }
    fits(Part::Name, name.chars().count(), LONGEST_NAME)?;
    printable(Part::Name, name, char::is_control)?;
    fits(Part::Text, text.len(), LONGEST_TEXT)?;
    printable(Part::Text, text, |character| character == '\0')
}

fn fits(part: Part, length: usize, most: usize) -> Result<(), StoreError> {
    if length > most {
        Err(StoreError::TooLong { part, length, most })
    } else {
        Ok(())
    }
}

fn printable(part: Part, text: &str, bad: impl Fn(char) -> bool) -> Result<(), StoreError> {
    match text.chars().enumerate().find(|&(_, character)| bad(character)) {
        Some((before, character)) => Err(StoreError::Unprintable {
            part,
            at: before + 1,
            character,
        }),
        None => Ok(()),
    }
}
