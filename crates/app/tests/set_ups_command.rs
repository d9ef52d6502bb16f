//! The commands take the set-up that is named, and `check` reads them all.

use std::process::Command;

/// Three set-ups of one file.
const MILL: &str = r#"shoot = "Mill"
[place]
room = "6.0 x 4.0 x 2.5 m"
[camera]
from_left = "2.0 m"
from_behind = "1.5 m"
[[sitter]]
name = "Kim"
from_left = "2.0 m"
from_behind = "3.6 m"
[[ambient]]
name = "lamps"
reading = "EV 5"
colour = "2700 K"
[ask]
aperture = "f/4"
iso = "ISO 400"
[[setup]]
name = "alone"
[[setup]]
name = "together"
[[setup.sitter]]
name = "Kim"
from_left = "1.7 m"
from_behind = "3.6 m"
[[setup.sitter]]
name = "Sam"
from_left = "2.3 m"
from_behind = "3.6 m"
[[setup]]
ambient = []
"#;

#[test]
fn the_command_line_chooses_a_set_up() {
    let folder = std::env::temp_dir().join(format!("rushlight-set-ups-{}", std::process::id()));
    std::fs::create_dir_all(&folder).expect("a temporary folder");
    let path = folder.join("mill.toml");
    std::fs::write(&path, MILL).expect("a writable folder");
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
    std::fs::remove_dir_all(&folder).expect("our own folder");
}

#[test]
fn a_proof_of_light_that_is_not_there_is_the_users_mistake() {
    let folder = std::env::temp_dir().join(format!("rushlight-dark-{}", std::process::id()));
    std::fs::create_dir_all(&folder).expect("a temporary folder");
    let (path, out) = (folder.join("mill.toml"), folder.join("proof.png"));
    std::fs::write(&path, MILL).expect("a writable folder");
    let output = Command::new(env!("CARGO_BIN_EXE_rushlight"))
        .args(["proof", "--setup", "3", "--light", "ambient", "-o"])
        .args([&out, &path])
        .output()
        .expect("the program runs");
    let said = String::from_utf8_lossy(&output.stderr);
    assert_eq!(output.status.code(), Some(2), "{said}");
    assert!(said.contains("no [[ambient]] light"), "{said}");
    assert!(!out.exists());
    std::fs::remove_dir_all(&folder).expect("our own folder");
}
