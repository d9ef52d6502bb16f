//! The page in a real browser: its own tests, form and types, and what it weighs.
//!
//! The tests of `web` are run against the program itself, with a store of their own. They need Node and Chromium (Debian:
//! `apt-get install chromium`); without these this test fails and says so.

use std::io::{BufRead, BufReader};
use std::path::{Path, PathBuf};
use std::process::{Child, Command, Stdio};

fn web() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../../web")
}

/// The program, serving its page, until this is dropped.
struct Program {
    child: Child,
    url: String,
    folder: PathBuf,
}

impl Program {
    fn start() -> Self {
        let folder = std::env::temp_dir().join(format!("rushlight-browser-{}", std::process::id()));
        let mut child = Command::new(env!("CARGO_BIN_EXE_rushlight"))
            .args(["page", "--no-browser", "--port", "0", "--store"])
            .arg(folder.join("shoots.sqlite"))
            .stdout(Stdio::piped())
            .spawn()
            .expect("the program starts");
        let out = child.stdout.take().expect("it is piped");
        let line = BufReader::new(out).lines().next().expect("a line").expect("text");
        let url = line
            .split_whitespace()
            .find(|word| word.starts_with("http://"))
            .unwrap_or_else(|| panic!("\"{line}\" says no address"))
            .trim_end_matches('/')
            .to_owned();
        Program { child, url, folder }
    }
}

impl Drop for Program {
    fn drop(&mut self) {
        let _ = self.child.kill();
        let _ = self.child.wait();
        let _ = std::fs::remove_dir_all(&self.folder);
    }
}

/// Runs npm in the page's folder and shows what it said when it failed.
fn npm(arguments: &[&str], environment: &[(&str, &str)]) {
    assert!(
        web().join("node_modules").is_dir(),
        "the page's packages are not installed; install Node 20.19 or newer and build the program once"
    );
    let said = Command::new("npm")
        .arg("run")
        .args(arguments)
        .current_dir(web())
        .envs(environment.iter().copied())
        .output()
        .expect("npm; install Node 20.19 or newer");
    assert!(
        said.status.success(),
        "npm run {} failed:\n{}{}",
        arguments.join(" "),
        String::from_utf8_lossy(&said.stdout),
        String::from_utf8_lossy(&said.stderr)
    );
}

#[test]
fn its_form_and_types_are_right() {
    npm(&["lint"], &[]);
}

#[test]
fn its_types_of_the_api_are_the_published_ones() {
    npm(&["types:check"], &[]);
}

#[test]
fn its_parts_work_by_themselves() {
    npm(&["test"], &[]);
}

#[test]
fn it_works_in_a_browser_at_every_size() {
    let chromium = std::env::var("CHROMIUM").unwrap_or_else(|_| "/usr/bin/chromium".to_owned());
    assert!(
        Path::new(&chromium).exists(),
        "there is no browser at {chromium}: install Chromium (Debian: apt-get install chromium), or say with CHROMIUM where it is"
    );
    let program = Program::start();
    npm(&["e2e"], &[("RUSHLIGHT_URL", &program.url)]);
}

#[test]
fn it_is_light() {
    let files: Vec<(&str, usize)> = page::files().collect();
    assert!(files.len() > 3, "only the plain page is in this build: {files:?}");
    let all: usize = files.iter().map(|(_, bytes)| bytes).sum();
    assert!(all < 400_000, "{all} bytes: {files:?}");
}
