//! Thousands of requests that the API's document allows, and as many that it forbids, by a program that knows only the
//! document: none may make the server fail.
//!
//! The program is schemathesis (a Python package, see `requirements-oracle.txt`); without it the test fails and says so.

#[allow(dead_code)]
mod served;

use served::Served;
use std::process::Command;

#[test]
fn no_request_makes_the_server_fail() {
    let served = Served::new();
    let document = concat!(env!("CARGO_MANIFEST_DIR"), "/../../schema/api.json");
    let folder = std::env::temp_dir().join(format!("rushlight-strange-{}", std::process::id()));
    std::fs::create_dir_all(&folder).expect("a temporary folder");
    let said = Command::new("schemathesis")
        .args(["run", document, "--url", &format!("http://{}", served.at)])
        // Opening the door to the local network is tried in its own test.
        .args(["--exclude-path", "/api/phone"])
        .args([
            "--checks",
            "not_a_server_error,status_code_conformance,content_type_conformance,response_schema_conformance",
        ])
        .args([
            "--phases",
            "examples,coverage,fuzzing",
            "--max-examples",
            "10",
            "--seed",
            "1",
            // Two at once upset Python 3.11, whose trees of code are not made for threads (its issue 106905).
            "--workers",
            "1",
        ])
        .args([
            "--request-timeout",
            "60",
            "--no-color",
            "--generation-database",
            "none",
        ])
        .current_dir(&folder)
        .output()
        .expect("schemathesis; install it with: pip install -r requirements-oracle.txt");
    let _ = std::fs::remove_dir_all(&folder);
    assert!(
        said.status.success(),
        "{}{}",
        String::from_utf8_lossy(&said.stdout),
        String::from_utf8_lossy(&said.stderr)
    );
    // It is still there, and still answers.
    assert_eq!(served.ask("GET", "/api/about", None).status, 200);
}
