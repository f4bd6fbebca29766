//! The parts of the Rust toolchain that a fresh machine may lack.
//!
//! Only what `rust-toolchain.toml` names is installed, and only by rustup.

use crate::cargo::{WASM, root};
use crate::steps::Steps;
use anyhow::{Context, Result, bail};
use std::process::{Command, Stdio};

/// Makes sure the page can be compiled and checked.
///
/// # Errors
/// When a part is missing and rustup is absent or fails; says what to install by hand.
pub fn ensure_rust(steps: &Steps) -> Result<()> {
    if !has_target() {
        steps.say("Installing the part of Rust that makes WebAssembly (rustup)");
        rustup(&["target", "add", WASM])?;
    }
    for part in ["rustfmt", "clippy"] {
        if !has_part(part) {
            steps.say(&format!("Installing {part} (rustup)"));
            rustup(&["component", "add", part])?;
        }
    }
    Ok(())
}

/// Whether the standard library for WebAssembly lies where rustc looks for it.
fn has_target() -> bool {
    let asked = Command::new("rustc")
        .args(["--print", "target-libdir", "--target", WASM])
        .current_dir(root())
        .output();
    asked.is_ok_and(|output| {
        let folder = String::from_utf8_lossy(&output.stdout).trim().to_string();
        output.status.success() && std::path::Path::new(&folder).is_dir()
    })
}

fn has_part(part: &str) -> bool {
    let program = if part == "clippy" {
        "cargo-clippy"
    } else {
        part
    };
    let asked = Command::new(program)
        .arg("--version")
        .current_dir(root())
        .output();
    asked.is_ok_and(|output| output.status.success())
}

fn rustup(words: &[&str]) -> Result<()> {
    let status = Command::new("rustup")
        .args(words)
        .current_dir(root())
        .stdin(Stdio::null())
        .status()
        .context("rustup was not found; install it from https://rustup.rs, then run this again")?;
    if !status.success() {
        bail!(
            "`rustup {}` failed; its own words are above",
            words.join(" ")
        );
    }
    Ok(())
}
