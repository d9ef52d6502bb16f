//! Shoot files on the disk, and the files that they name.

use shoot::{
    Beside, MOST_BYTES, NoNeighbour, Problem, Problems, Shoot, ShootFile, Wanted, Words, both, decode,
    nearest, parse_beside,
};
use std::fs::{self, File};
use std::io::{self, ErrorKind, Read};
use std::path::{Path, PathBuf};

/// Reads every set-up of a shoot file.
///
/// # Errors
/// Everything that is wrong with it, each thing once.
pub fn read_file(path: &Path) -> Result<ShootFile, Box<Problems>> {
    on_disk(path, Wanted::All)
}

/// Reads one set-up of a shoot file, by its name or its number from 1, or the first; mistakes in the others do not matter.
///
/// # Errors
/// Everything that is wrong with it, or that there is no such set-up.
pub fn read(path: &Path, set_up: Option<&str>) -> Result<Shoot, Box<Problems>> {
    on_disk(path, set_up.map_or(Wanted::At(0), Wanted::Called))?.first()
}

fn on_disk(path: &Path, wanted: Wanted<'_>) -> Result<ShootFile, Box<Problems>> {
    let name = path.file_name().unwrap_or(path.as_os_str()).to_string_lossy();
    let text = text_of(path).map_err(|problem| Box::new(Problems::of_file(&name, problem)))?;
    let folder = Folder(folder_of(path).to_owned());
    parse_beside(&name, &text, &folder, wanted)
}

/// The folder that a file lies in.
pub(crate) fn folder_of(path: &Path) -> &Path {
    path.parent()
        .filter(|folder| !folder.as_os_str().is_empty())
        .unwrap_or(Path::new("."))
}

/// A folder on the disk with a shoot file in it.
#[derive(Debug)]
struct Folder(PathBuf);

impl Beside for Folder {
    fn text(&self, name: &str) -> Result<String, NoNeighbour> {
        let refused = |error: io::Error| match error.kind() {
            ErrorKind::NotFound => NoNeighbour::Missing,
            _ => NoNeighbour::Refused(error.to_string()),
        };
        let file = File::open(self.0.join(name)).map_err(refused)?;
        let bytes = bounded(file).map_err(refused)?.ok_or(NoNeighbour::TooLarge)?;
        String::from_utf8(bytes).map_err(|_| NoNeighbour::NotText)
    }
}

/// All of a file, or nothing if it holds more than [`MOST_BYTES`], of which no more is taken in.
fn bounded(file: File) -> io::Result<Option<Vec<u8>>> {
    let mut bytes = Vec::new();
    file.take(MOST_BYTES + 1).read_to_end(&mut bytes)?;
    Ok((bytes.len() as u64 <= MOST_BYTES).then_some(bytes))
}

/// Reads a shoot file as text without ever taking in more than [`MOST_BYTES`].
fn text_of(path: &Path) -> Result<String, Problem> {
    let shown = path.display();
    let file = match File::open(path) {
        Ok(file) => file,
        Err(error) if path.is_dir() || error.kind() == ErrorKind::IsADirectory => {
            return Err(is_a_folder(path));
        }
        Err(error) if error.kind() == ErrorKind::NotFound => {
            let help = match file_of_nearly_this_name(path) {
                Some(name) => both!("Did you mean {name}?"; "Ist {name} gemeint?"),
                None => both!("Check the name and the folder."; "Namen und Ordner prüfen."),
            };
            return Err(
                Problem::new(both!("there is no file {shown}"; "es gibt keine Datei {shown}")).help(help),
            );
        }
        Err(error) if error.kind() == ErrorKind::PermissionDenied => {
            return Err(Problem::new(
                both!("{shown} may not be opened"; "{shown} darf nicht geöffnet werden"),
            )
            .help(both!(
                "Allow yourself to read the file, or copy it to a folder of your own.";
                "Das Lesen der Datei erlauben, oder sie in einen eigenen Ordner kopieren."
            )));
        }
        Err(error) => {
            return Err(Problem::new(both!(
                "{shown} could not be opened: {error}";
                "{shown} ließ sich nicht öffnen: {error}"
            ))
            .help(try_again()));
        }
    };
    if path.is_dir() {
        return Err(is_a_folder(path));
    }
    match bounded(file) {
        Ok(Some(bytes)) => decode(bytes, &shown.to_string()),
        Ok(None) => Err(Problem::new(both!(
            "{shown} is larger than 1 MB, so it is not a shoot file";
            "{shown} ist größer als 1 MB, also keine Auftragsdatei"
        ))
        .help(both!(
            "A shoot file is a short text of a few kilobytes. Is this a picture? Give the .toml file instead.";
            "Eine Auftragsdatei ist ein kurzer Text von ein paar Kilobyte. Ist das ein Bild? Stattdessen die .toml-Datei angeben."
        ))),
        Err(error) => Err(Problem::new(both!(
            "{shown} could not be read: {error}";
            "{shown} war nicht zu lesen: {error}"
        ))
        .help(try_again())),
    }
}

fn try_again() -> Words {
    both!(
        "Check the disk or the connection, then try again.";
        "Datenträger oder Verbindung prüfen, dann noch einmal versuchen."
    )
}

fn is_a_folder(path: &Path) -> Problem {
    let inside = shoot_files_in(path);
    let help = match inside.first() {
        Some(first) => {
            let first = path.join(first).display().to_string();
            both!(
                "Give the file inside it, such as {first}";
                "Die Datei darin angeben, etwa {first}"
            )
        }
        None => both!(
            "Give a shoot file, a text whose name ends in .toml.";
            "Eine Auftragsdatei angeben, einen Text, dessen Name auf .toml endet."
        ),
    };
    let folder = path.display();
    Problem::new(both!(
        "{folder} is a folder, not a shoot file";
        "{folder} ist ein Ordner, keine Auftragsdatei"
    ))
    .help(help)
}

/// Names of the shoot files in a folder, sorted; only the first thousand entries are looked at.
fn shoot_files_in(folder: &Path) -> Vec<String> {
    let Ok(entries) = fs::read_dir(folder) else {
        return Vec::new();
    };
    let mut names: Vec<String> = entries
        .take(1000)
        .filter_map(|entry| entry.ok()?.file_name().into_string().ok())
        .filter(|name| name.ends_with(".toml"))
        .collect();
    names.sort();
    names
}

fn file_of_nearly_this_name(path: &Path) -> Option<String> {
    let folder = folder_of(path);
    let names = shoot_files_in(folder);
    let wanted = path.file_name()?.to_str()?;
    let found = nearest(wanted, names.iter().map(String::as_str))?;
    Some(if folder == Path::new(".") {
        found.to_owned()
    } else {
        folder.join(found).display().to_string()
    })
}
