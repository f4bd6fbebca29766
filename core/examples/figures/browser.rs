//! Prints what is promised of WebAssembly in a browser: times of whole houses beside a reference
//! library's sweeps in the same program, and how good the ways are after so many milliseconds.
//!
//! Built as a test only because that is what runs in a browser; `cargo figures` calls it, in release
//! and in Chromium. It fails nothing.

#![cfg(target_family = "wasm")]
#![expect(
    clippy::unwrap_used,
    reason = "this prints figures, and may stop at the first surprise"
)]
#![expect(dead_code, reason = "the native program takes more figures of them")]

mod claims;
mod crowded;
mod figure;
mod houses;
mod network;
mod saved;

use wasm_bindgen_test::{wasm_bindgen_test, wasm_bindgen_test_configure};

wasm_bindgen_test_configure!(run_in_browser);

#[wasm_bindgen_test]
fn figures() {
    houses::print_in_a_browser();
    network::print_in_a_browser();
}
