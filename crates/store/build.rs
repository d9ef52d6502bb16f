//! The migrations are read while compiling, which Cargo cannot see by itself.

fn main() {
    println!("cargo:rerun-if-changed=migrations");
}
