//! The commands take the set-up that is named, and `check` reads them all.

#[path = "../../shoot/tests/mill/mod.rs"]
mod mill;

use mill::{OWN, SHARED};
use std::path::PathBuf;
use std::process::Command;
use tempfile::TempDir;

/// The shoot with its three set-ups, in a folder that goes when the test ends.
fn mill() -> (TempDir, PathBuf) {
    let folder = tempfile::tempdir().expect("a temporary folder");
    let path = folder.path().join("mill.toml");
    std::fs::write(&path, format!("{SHARED}{OWN}")).expect("a writable folder");
    (folder, path)
}

#[test]
fn the_command_line_chooses_a_set_up() {
    let (_folder, path) = mill();
    let run = |arguments: &[&str]| {
        let output = Command::new(env!("CARGO_BIN_EXE_rushlight"))
            .arg("check")
            .arg(&path)
            .args(arguments)
            .output()
            .expect("the program runs");
        let text = String::from_utf8(if output.status.success() {
            output.stdout
        } else {
            output.stderr
        });
        (output.status.code(), text.expect("messages are UTF-8"))
    };
    let titles = |text: &str| text.lines().filter(|line| line.starts_with("Mill: ")).count();
    let (code, all) = run(&[]);
    assert_eq!((code, titles(&all)), (Some(0), 3), "{all}");
    let (code, one) = run(&["--setup", "together"]);
    assert_eq!((code, titles(&one)), (Some(0), 1), "{one}");
    assert!(
        one.starts_with("Mill: together") && one.contains("\"Sam\""),
        "{one}"
    );
    let (code, second) = run(&["--setup", "2"]);
    assert_eq!((code, second), (Some(0), one));
    let (code, wrong) = run(&["--setup", "5"]);
    assert_eq!(code, Some(2), "{wrong}");
    assert!(wrong.contains("there is no set-up \"5\""), "{wrong}");
}

#[test]
fn a_proof_of_light_that_is_not_there_is_the_users_mistake() {
    let (folder, path) = mill();
    let out = folder.path().join("proof.png");
    let output = Command::new(env!("CARGO_BIN_EXE_rushlight"))
        .args(["proof", "--setup", "3", "--light", "ambient", "-o"])
        .args([&out, &path])
        .output()
        .expect("the program runs");
    let said = String::from_utf8_lossy(&output.stderr);
    assert_eq!(output.status.code(), Some(2), "{said}");
    assert!(said.contains("no [[ambient]] light"), "{said}");
    assert!(!out.exists());
}
