//! Changing the text of a shoot file in place: remarks, order and layout of everything else stay as they were written.
//!
//! A path begins at a part, as one set-up sees it: `["ask", "aperture"]`, `["sitter", 0, "from_left"]`. The change lands
//! where that part is written: in the set-up if it has the part of its own, else in the common one. An ask is always the
//! set-up's own; if it was not yet, the common one is copied first. `["setup", 2, "name"]` reaches a set-up itself.
//!
//! ```
//! use shoot::edit::{Edit, edit};
//! let text = "[ask]\naperture = \"f/4\" # as wide as it goes\n";
//! let edits = [Edit::set(["ask", "aperture"], "f/2.8"), Edit::remove(["ask", "key"])];
//! let changed = edit(text, 0, &edits).expect("a change that can be made");
//! assert_eq!(changed, "[ask]\naperture = \"f/2.8\" # as wide as it goes\n");
//! ```

mod change;
mod draft;
mod json;
mod places;
mod write;

pub use change::{Edit, EditError, MOST_DEPTH, MOST_EDITS, Step};
pub use json::{AsWritten, PartKind};

use draft::{Draft, known_part};

/// Makes the changes, one after the other, as set-up number `set_up` (from 0) sees the file; all of them or none.
///
/// The result is always TOML. Whether it is a good shoot file is another question: it may well be that a value must be
/// put right before it is.
///
/// # Errors
/// A text that is no TOML, a path that leads nowhere, a value that cannot be written, or too much of anything.
pub fn edit(text: &str, set_up: usize, edits: &[Edit]) -> Result<String, EditError> {
    if edits.len() > MOST_EDITS {
        return Err(EditError::TooMany { count: edits.len() });
    }
    let mut draft = Draft::open(text)?;
    for edit in edits {
        draft.make(set_up, edit)?;
    }
    draft.close()
}

/// Gives a set-up its own copy of a common part, remarks included, so that changes to it no longer change the others.
/// Nothing happens if it has one.
///
/// # Errors
/// A text that is no TOML, a set-up or a part that is not there, or a text that grows too large.
pub fn make_own(text: &str, set_up: usize, part: &str) -> Result<String, EditError> {
    let mut draft = Draft::open(text)?;
    let count = draft.set_ups();
    if set_up >= count {
        return Err(EditError::NoSetUp {
            number: set_up.saturating_add(1),
            count,
        });
    }
    known_part(part)?;
    if !draft.owns(set_up, part) && !draft.copy_common(set_up, part)? {
        return Err(EditError::NoPart {
            title: format!("[{part}]"),
        });
    }
    draft.close()
}
