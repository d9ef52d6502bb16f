//! What leaves the program: text on the screen, files on the disk.

use crate::files::folder_of;
use std::fmt;
use std::fs;
use std::io::{self, ErrorKind, Write};
use std::path::{Path, PathBuf};
use tempfile::Builder;

/// Something that could not be written.
#[derive(Debug, thiserror::Error)]
pub struct WriteError {
    path: Option<PathBuf>,
    source: io::Error,
}

impl fmt::Display for WriteError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let why = match self.source.kind() {
            ErrorKind::NotFound => "its folder does not exist".to_owned(),
            ErrorKind::PermissionDenied => "writing there is not allowed".to_owned(),
            ErrorKind::StorageFull => "the disk is full".to_owned(),
            ErrorKind::IsADirectory => "there is a folder of that name".to_owned(),
            _ => self.source.to_string(),
        };
        match &self.path {
            Some(path) => write!(f, "{} could not be written: {why}", path.display()),
            None => write!(f, "the screen could not be written to: {why}"),
        }
    }
}

/// Writes text to standard output.
///
/// The reader may stop early, as `head` does; that is no error.
///
/// # Errors
/// Anything else that keeps the text from being written.
pub fn print(text: &str) -> Result<(), WriteError> {
    let mut out = io::stdout().lock();
    match out.write_all(text.as_bytes()).and_then(|()| out.flush()) {
        Err(error) if error.kind() != ErrorKind::BrokenPipe => Err(WriteError {
            path: None,
            source: error,
        }),
        _ => Ok(()),
    }
}

/// Writes text to standard error; when even that fails no one is left to tell.
pub fn complain(text: &str) {
    let _ = io::stderr().lock().write_all(text.as_bytes());
}

/// Writes a whole file, so that a reader sees either the old one or the new one and never half of it.
///
/// # Errors
/// What keeps the file from being written; an earlier file of that name is then untouched.
pub fn write_file(path: &Path, bytes: &[u8]) -> Result<(), WriteError> {
    let fail = |source| WriteError {
        path: Some(path.to_owned()),
        source,
    };
    if path.is_dir() {
        return Err(fail(ErrorKind::IsADirectory.into()));
    }
    let Some(name) = path.file_name() else {
        return Err(fail(ErrorKind::IsADirectory.into()));
    };
    // In the same folder, because a rename across disks is a copy that can be seen half done.
    let mut part = Builder::new();
    let mut prefix = name.to_owned();
    prefix.push(".");
    part.prefix(&prefix).suffix(".part");
    // A file for others to read, as far as this account lets new files be read.
    #[cfg(unix)]
    part.permissions(std::os::unix::fs::PermissionsExt::from_mode(0o666));
    let mut part = part.tempfile_in(folder_of(path)).map_err(fail)?;
    part.write_all(bytes).map_err(fail)?;
    if let Ok(earlier) = fs::metadata(path) {
        part.as_file()
            .set_permissions(earlier.permissions())
            .map_err(fail)?;
    }
    part.as_file().sync_all().map_err(fail)?;
    part.persist(path).map_err(|error| fail(error.error))?;
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::write_file;
    use std::fs;

    #[test]
    fn a_file_is_replaced_whole_and_leaves_no_part() {
        let folder = tempfile::tempdir().expect("a temporary folder");
        let path = folder.path().join("plan.svg");
        for text in ["first", "second"] {
            write_file(&path, text.as_bytes()).expect("a writable folder");
            assert_eq!(fs::read_to_string(&path).expect("just written"), text);
        }
        assert_eq!(fs::read_dir(folder.path()).expect("still there").count(), 1);
        let missing = write_file(&folder.path().join("no/such/plan.svg"), b"x")
            .expect_err("no folder")
            .to_string();
        assert!(missing.contains("its folder does not exist"), "{missing}");
        let directory = write_file(folder.path(), b"x").expect_err("a folder").to_string();
        assert!(
            directory.contains("there is a folder of that name"),
            "{directory}"
        );
    }

    /// A file that others may not read stays one, and a new one is like any other new file.
    #[cfg(unix)]
    #[test]
    fn a_file_keeps_its_mode() {
        use std::os::unix::fs::PermissionsExt;
        let folder = tempfile::tempdir().expect("a temporary folder");
        let path = folder.path().join("card.html");
        let mode = |path: &std::path::Path| fs::metadata(path).expect("written").permissions().mode() & 0o777;
        write_file(&path, b"first").expect("a writable folder");
        let usual = folder.path().join("usual");
        fs::write(&usual, b"x").expect("a writable folder");
        assert_eq!(mode(&path), mode(&usual));
        fs::set_permissions(&path, fs::Permissions::from_mode(0o640)).expect("our own file");
        write_file(&path, b"second").expect("a writable folder");
        assert_eq!(
            (mode(&path), fs::read(&path).expect("written")),
            (0o640, b"second".to_vec())
        );
    }
}
