//! What the tests against independent packages share: numbers made at random, the question, and the largest differences.

use serde_json::Value;
use std::io::Write;
use std::process::{Command, Stdio};

/// SplitMix64 (Steele, Lea & Flood 2014): numbers from 0 to 1.
pub struct Dice(pub u64);

impl Dice {
    fn unit(&mut self) -> f64 {
        self.0 = self.0.wrapping_add(0x9E37_79B9_7F4A_7C15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
        ((z ^ (z >> 31)) >> 11) as f64 / (1u64 << 53) as f64
    }

    pub fn within(&mut self, from: f64, to: f64) -> f64 {
        from + (to - from) * self.unit()
    }
}

/// Asks a program of this folder, which works with what is called so.
pub fn ask(script: &str, package: &str, request: &Value) -> Value {
    let folder = concat!(env!("CARGO_MANIFEST_DIR"), "/tests/oracle");
    let mut child = Command::new("python3")
        .arg(format!("{folder}/{script}"))
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .spawn()
        .expect("python3 is needed, with  pip install -r requirements-oracle.txt");
    let mut input = child.stdin.take().expect("it was piped");
    // A program that cannot run closes its input, which is told below.
    let written = input.write_all(request.to_string().as_bytes());
    drop(input);
    let output = child.wait_with_output().expect("the program ends");
    assert!(
        output.status.success() && written.is_ok(),
        "the {package} did not run: pip install -r requirements-oracle.txt"
    );
    serde_json::from_slice(&output.stdout).expect("the program answers in JSON")
}

/// The largest difference of a kind, with its tolerance.
pub struct Largest {
    what: &'static str,
    allowed: f64,
    found: f64,
}

impl Largest {
    pub fn new(what: &'static str, allowed: f64) -> Self {
        Self {
            what,
            allowed,
            found: 0.0,
        }
    }

    /// Takes a difference into account.
    pub fn see(&mut self, off: f64) {
        // A difference that is no number must not pass for a small one.
        assert!(off.is_finite(), "{}: {off}", self.what);
        self.found = self.found.max(off.abs());
    }

    /// Prints all, then holds them.
    #[allow(clippy::print_stdout, reason = "the largest differences are worth reading")]
    pub fn hold(all: &[Self]) {
        for Self { what, allowed, found } in all {
            println!("largest difference in {what}: {found:.2e} of {allowed:.1e}");
        }
        for Self { what, allowed, found } in all {
            assert!(found <= allowed, "{what}: {found} is more than {allowed}");
        }
    }
}
