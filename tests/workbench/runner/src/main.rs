//! The test runner of wasm-bindgen, pinned by our own Cargo.lock.
//!
//! `cargo test --target wasm32-unknown-unknown` finds it through `.cargo/config.toml`, so nobody
//! installs a second tool of the right version. It never builds and never looks for a browser: the
//! caller names one in `CHROMEDRIVER`.

fn main() -> anyhow::Result<()> {
    wasm_bindgen_cli::wasm_bindgen_test_runner::run_cli_with_args(std::env::args_os())
}
