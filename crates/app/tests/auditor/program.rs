//! The built program, by its command line.

use crate::said::Said;
use crate::shoot::Shoot;
use std::path::PathBuf;
use std::process::Command;
use tempfile::TempDir;

/// The languages of the program.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Language {
    English,
    German,
}

/// A shoot as a file on the disk.
pub struct Written {
    folder: TempDir,
    file: PathBuf,
}

impl Written {
    /// Writes a shoot into a folder of its own.
    pub fn new(shoot: &Shoot) -> Self {
        let folder = tempfile::tempdir().expect("a temporary folder");
        let file = folder.path().join("shoot.toml");
        std::fs::write(&file, shoot.text()).expect("a writable folder");
        Written { folder, file }
    }

    /// The answer as JSON, or what the program said instead.
    pub fn json(&self, language: Language) -> Result<Said, String> {
        let text = self.run("answer", &["--json"], language)?;
        Said::read(&text)
    }

    /// The answer as JSON and as text, of one run.
    pub fn both(&self, language: Language) -> Result<(Said, String), String> {
        let beside = self.folder.path().join("answer.json");
        let text = self.run("answer", &["-o", &beside.display().to_string()], language)?;
        let json = std::fs::read_to_string(&beside).map_err(|error| error.to_string())?;
        Ok((Said::read(&json)?, text))
    }

    /// The layers of a small matt proof: the bytes of an OpenEXR file.
    pub fn layers(&self, size: [usize; 2], quality: &str) -> Result<Vec<u8>, String> {
        let path = |name: &str| self.folder.path().join(name).display().to_string();
        let (layers, picture) = (path("layers.exr"), path("proof.png"));
        let size = format!("{}x{}", size[0], size[1]);
        let arguments = [
            "--matt",
            "--size",
            &size,
            "--quality",
            quality,
            "--layers",
            &layers,
            "-o",
            &picture,
        ];
        self.run("proof", &arguments, Language::English)?;
        std::fs::read(&layers).map_err(|error| error.to_string())
    }

    fn run(&self, command: &str, arguments: &[&str], language: Language) -> Result<String, String> {
        let code = match language {
            Language::English => "en",
            Language::German => "de",
        };
        let output = Command::new(env!("CARGO_BIN_EXE_rushlight"))
            .arg(command)
            .arg(&self.file)
            .args(arguments)
            .args(["--language", code])
            .output()
            .expect("the program starts");
        let words = |bytes: &[u8]| String::from_utf8_lossy(bytes).into_owned();
        if output.status.success() {
            Ok(words(&output.stdout))
        } else {
            Err(format!(
                "{command} ended with {}: {}",
                output.status,
                words(&output.stderr).trim()
            ))
        }
    }
}
