//! The migrations are read while compiling, which Cargo cannot see by itself.

#[expect(clippy::print_stdout, reason = "this is how Cargo is told")]
fn main() {
    println!("cargo:rerun-if-changed=migrations");
}
