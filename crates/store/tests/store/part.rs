//! Parts of tests that need a process of their own: this test program, started again.

use std::process::Command;

const TASK: &str = "RUSHLIGHT_TEST_PART";

/// What a part was started with; nothing if a person runs the ignored tests, who is not to be disturbed.
pub fn task() -> Option<String> {
    std::env::var(TASK).ok()
}

/// A command that runs one ignored test of this program, behind the words of another command if there are
/// any.
pub fn command(before: &[&str], test: &str, task: &str) -> Command {
    let program = std::env::current_exe().expect("a test knows its program");
    let mut command = match before {
        [] => Command::new(program),
        [first, rest @ ..] => {
            let mut command = Command::new(first);
            command.args(rest).arg(program);
            command
        }
    };
    command
        .args([test, "--exact", "--ignored", "--nocapture", "--test-threads=1"])
        .env(TASK, task);
    command
}

/// Runs such a part to its end, which must be a good one.
pub fn run(before: &[&str], test: &str, task: &str) {
    let done = command(before, test, task).output().expect("the part starts");
    let (out, err) = (
        String::from_utf8_lossy(&done.stdout),
        String::from_utf8_lossy(&done.stderr),
    );
    let ran = done.status.success() && out.contains("1 passed");
    assert!(ran, "{before:?} {test}: {}\n{out}\n{err}", done.status);
}
