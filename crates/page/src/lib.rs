//! The built page, carried inside the program.
//!
//! `web` holds its sources; `build.rs` has them built by Node when the program is built. This crate only hands out the
//! files by their names; it serves nothing and knows nothing of what is in them.
//!
//! ```
//! let page = page::file("index.html").expect("every build has a page, if only a plain one");
//! assert_eq!(page.kind, "text/html; charset=utf-8");
//! assert_eq!(page::file("../Cargo.toml"), None);
//! ```

mod built {
    include!(concat!(env!("OUT_DIR"), "/files.rs"));
}

/// A file of the page.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct File {
    /// What a browser is told that it is.
    pub kind: &'static str,
    /// What is in it.
    pub bytes: &'static [u8],
}

/// A file by its name below the page's folder, such as `index.html` or `assets/page-1a2b.js`. Only names of the list are
/// known, so no name can lead anywhere else.
pub fn file(name: &str) -> Option<File> {
    built::FILES
        .iter()
        .find(|(known, _, _)| *known == name)
        .map(|&(_, kind, bytes)| File { kind, bytes })
}

/// The names of all files with their sizes in bytes.
pub fn files() -> impl Iterator<Item = (&'static str, usize)> {
    built::FILES.iter().map(|(name, _, bytes)| (*name, bytes.len()))
}
