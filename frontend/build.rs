//! Bounds the memory of the program: page and worker each stop before they take more than 500 MB.

/// The most memory, bytes: the last whole page of 64 KiB under 500 MB.
const MOST: u64 = 500_000_000 / 65_536 * 65_536;

fn main() {
    println!("cargo:rerun-if-changed=build.rs");
    if std::env::var("CARGO_CFG_TARGET_FAMILY").is_ok_and(|family| family == "wasm") {
        println!("cargo:rustc-link-arg-bins=--max-memory={MOST}");
    }
}
