//! `rushlight scan`: a scan of a room becomes the part `[place]` of a shoot file.

use super::failure::Failure;
use crate::cli::ScanArgs;
use crate::output;
use scene::scan::{Known, MOST_BYTES, Scan, ScanError, read_scan_knowing};
use shoot::{Language, place_text, words_of_scan_error};
use std::fs::{self, File};
use std::io::{ErrorKind, Read as _};
use std::path::Path;

/// Reads a scan, writes the place and says what was guessed.
///
/// # Errors
/// A file that is no scan of a room, or a place that is there already or cannot be written.
pub fn run(args: &ScanArgs) -> Result<(), Failure> {
    // It may hold an evening's corrections by now.
    if args.out.exists() {
        return Err(Failure::BadScan(format!(
            "{} is there already, perhaps with changes of yours. Name another file after -o, or move this one away",
            args.out.display()
        )));
    }
    let bytes = read(&args.scan)?;
    let name = args
        .scan
        .file_name()
        .map_or_else(String::new, |name| name.to_string_lossy().into_owned());
    let known = Known {
        unit_m: args.unit.map(|unit| unit.metres()),
        up: args.up.map(Into::into),
    };
    let scan = read_scan_knowing(&name, &bytes, known)
        .map_err(|error| refused(&args.scan, &error))?
        .turned(args.turn);
    output::write_file(&args.out, place_text(&scan, &name).as_bytes())?;
    output::print(&summary(&scan, &args.out))?;
    Ok(())
}

/// Why a scan is not read.
fn refused(path: &Path, error: &ScanError) -> Failure {
    let why = words_of_scan_error(error);
    Failure::BadScan(format!(
        "{}: {}",
        path.display(),
        why.in_language(Language::English)
    ))
}

/// The bytes of a file, at most one more than are taken.
fn read(path: &Path) -> Result<Vec<u8>, Failure> {
    let fail = |error: std::io::Error| {
        let why = match error.kind() {
            ErrorKind::NotFound => "there is no such file".to_owned(),
            ErrorKind::PermissionDenied => "reading it is not allowed".to_owned(),
            _ if path.is_dir() => "it is a folder".to_owned(),
            _ => error.to_string(),
        };
        Failure::BadScan(format!("{} cannot be read: {why}", path.display()))
    };
    let size = fs::metadata(path).map_err(fail)?.len();
    if size > MOST_BYTES as u64 {
        return Err(refused(path, &ScanError::TooLarge));
    }
    let mut bytes = Vec::new();
    let file = File::open(path).map_err(fail)?;
    file.take(MOST_BYTES as u64 + 1)
        .read_to_end(&mut bytes)
        .map_err(fail)?;
    Ok(bytes)
}

/// What was found, in a few lines.
fn summary(scan: &Scan, out: &Path) -> String {
    let room = scan.room;
    let mut lines = vec![format!(
        "Room      {:.2} m long, {:.2} m wide, ceiling {:.2} m",
        room.y, room.x, room.z
    )];
    lines.extend(scan.openings.iter().map(|opening| {
        format!(
            "          \"{}\" in the {}: {:.2} x {:.2} m",
            opening.name,
            opening.face.words(),
            opening.size.x,
            opening.size.y
        )
    }));
    lines.extend(scan.furniture.iter().map(|thing| {
        let size = thing.max - thing.min;
        format!(
            "          \"{}\": {:.2} x {:.2} x {:.2} m",
            thing.name, size.x, size.y, size.z
        )
    }));
    lines.push(String::new());
    lines.extend(scan.told.iter().map(|sentence| format!("Note: {sentence}")));
    lines.push(String::new());
    lines.push(format!(
        "{} holds the part [place]. Put it into a shoot file, say what the walls are made of, then ask rushlight check.",
        out.display()
    ));
    lines.join("\n") + "\n"
}
