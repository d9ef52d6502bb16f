//! `rushlight scan` from file to file: what it writes is read back by the shoot file's own reader.

use std::fs;
use std::process::{Command, Output};

/// A room of 4 x 5 x 2.5 m in centimetres with z up, a window in its right wall and a cupboard.
fn room() -> String {
    let mut text = String::new();
    let mut points = 0;
    let mut sheet = |name: &str, corners: [[f32; 3]; 4]| {
        text += &format!("o {name}\n");
        for [x, y, z] in corners {
            text += &format!("v {} {} {}\n", x * 100.0, y * 100.0, z * 100.0);
        }
        text += &format!("f {} {} {} {}\n", points + 1, points + 2, points + 3, points + 4);
        points += 4;
    };
    let (x, y, z) = (4.0, 5.0, 2.5);
    sheet("Floor", [[0., 0., 0.], [x, 0., 0.], [x, y, 0.], [0., y, 0.]]);
    sheet("Ceiling", [[0., 0., z], [0., y, z], [x, y, z], [x, 0., z]]);
    sheet("Wall_1", [[0., 0., 0.], [0., y, 0.], [0., y, z], [0., 0., z]]);
    sheet("Wall_2", [[x, 0., 0.], [x, 0., z], [x, y, z], [x, y, 0.]]);
    sheet("Wall_3", [[0., 0., 0.], [0., 0., z], [x, 0., z], [x, 0., 0.]]);
    sheet("Wall_4", [[0., y, 0.], [x, y, 0.], [x, y, z], [0., y, z]]);
    sheet(
        "Window",
        [[x, 2.0, 0.9], [x, 2.0, 2.1], [x, 3.5, 2.1], [x, 3.5, 0.9]],
    );
    for (side, at) in [("front", 1.0), ("back", 0.4)] {
        sheet(
            &format!("Cupboard {side}"),
            [[at, 3.0, 0.], [at, 4.2, 0.], [at, 4.2, 1.8], [at, 3.0, 1.8]],
        );
    }
    text
}

fn rushlight(arguments: &[&str]) -> Output {
    Command::new(env!("CARGO_BIN_EXE_rushlight"))
        .args(arguments)
        .output()
        .expect("the program runs")
}

#[test]
fn a_scan_becomes_a_place_that_check_accepts() {
    let folder = tempfile::tempdir().expect("a temporary folder");
    let (scan, place) = (folder.path().join("room.obj"), folder.path().join("place.toml"));
    fs::write(&scan, room()).expect("a writable folder");
    let arguments = [
        "scan",
        scan.to_str().expect("text"),
        "-o",
        place.to_str().expect("text"),
    ];
    let output = rushlight(&arguments);
    let said = String::from_utf8_lossy(&output.stdout).into_owned();
    assert!(
        output.status.success(),
        "{}",
        String::from_utf8_lossy(&output.stderr)
    );
    for words in [
        "5.00 m long, 4.00 m wide, ceiling 2.50 m",
        "\"Window\" in the right wall: 1.50 x 1.20 m",
        "centimetres",
    ] {
        assert!(said.contains(words), "{words}: {said}");
    }
    let shoot = folder.path().join("shoot.toml");
    let rest = "\n[camera]\nfrom_left = \"2.0 m\"\nfrom_behind = \"1.0 m\"\n[[sitter]]\nfrom_left = \"2.0 m\"\n\
                from_behind = \"2.5 m\"\n[ask]\naperture = \"f/4\"\nkey = \"loop\"\n";
    fs::write(&shoot, fs::read_to_string(&place).expect("just written") + rest).expect("a writable folder");
    let output = rushlight(&["check", shoot.to_str().expect("text")]);
    let said = String::from_utf8_lossy(&output.stdout).into_owned();
    assert!(
        output.status.success(),
        "{}",
        String::from_utf8_lossy(&output.stderr)
    );
    assert!(said.contains("5 m long, 4 m wide"), "{said}");
    // A second time it would write over what may have been changed since.
    let output = rushlight(&arguments);
    assert_eq!(output.status.code(), Some(2));
    assert!(String::from_utf8_lossy(&output.stderr).contains("is there already"));
}

#[test]
fn what_is_no_scan_is_refused_in_a_sentence() {
    let folder = tempfile::tempdir().expect("a temporary folder");
    let path = |name: &str| folder.path().join(name).to_str().expect("text").to_owned();
    fs::write(folder.path().join("text.glb"), "hello").expect("a writable folder");
    for (file, expected) in [
        ("none.glb", "there is no such file"),
        ("text.glb", "neither glTF 2.0"),
        (".", "folder"),
    ] {
        let output = rushlight(&["scan", &path(file), "-o", &path("place.toml")]);
        let said = String::from_utf8_lossy(&output.stderr).into_owned();
        assert_eq!(output.status.code(), Some(2), "{said}");
        assert!(said.contains(expected), "{expected}: {said}");
        assert!(!folder.path().join("place.toml").exists());
    }
}
