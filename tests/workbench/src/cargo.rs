//! Where the workspace is and how cargo is called from inside `cargo run`.

use anyhow::{Context, Result, bail};
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};

/// The target of the page.
pub const WASM: &str = "wasm32-unknown-unknown";

/// The top folder of the workspace.
pub fn root() -> PathBuf {
    let package = std::env::var_os("CARGO_MANIFEST_DIR")
        .map_or_else(|| PathBuf::from(env!("CARGO_MANIFEST_DIR")), PathBuf::from);
    package
        .ancestors()
        .nth(2)
        .map_or_else(|| package.clone(), Path::to_path_buf)
}

/// The folder cargo builds in, which also takes our own left-overs.
pub fn target_folder() -> PathBuf {
    std::env::var_os("CARGO_TARGET_DIR").map_or_else(|| root().join("target"), PathBuf::from)
}

/// Cargo at the top of the workspace, without what the outer `cargo run` put in the environment.
pub fn cargo() -> Command {
    let program = std::env::var_os("CARGO").unwrap_or_else(|| "cargo".into());
    let mut command = Command::new(program);
    command.current_dir(root());
    for (name, _) in std::env::vars_os() {
        if name.to_str().is_some_and(set_by_outer_cargo) {
            command.env_remove(name);
        }
    }
    command
}

fn set_by_outer_cargo(name: &str) -> bool {
    name.starts_with("CARGO_PKG_") || name.starts_with("CARGO_MANIFEST_")
}

/// Builds the page's binary and returns its WebAssembly file.
///
/// # Errors
/// When cargo fails; its own words have then been printed.
pub fn build_page(bin: &str, release: bool) -> Result<PathBuf> {
    let mut command = cargo();
    command.args([
        "build",
        "--package",
        "borewright-frontend",
        "--bin",
        bin,
        "--target",
        WASM,
    ]);
    command.arg("--message-format=json-render-diagnostics");
    if release {
        command.arg("--release");
        // The program that ships tells nobody how the machine it was built on is laid out.
        command.env("CARGO_ENCODED_RUSTFLAGS", remapped().join("\u{1f}"));
    }
    let output = command
        .stdin(Stdio::null())
        .stderr(Stdio::inherit())
        .output();
    let output = output.context("cargo could not be started")?;
    if !output.status.success() {
        bail!("the page did not build; cargo says why above");
    }
    let messages = String::from_utf8_lossy(&output.stdout);
    wasm_of(&messages, bin).with_context(|| format!("cargo built no WebAssembly for `{bin}`"))
}

/// Flags that name sources from the workspace, or from the folder of downloaded packages, wherever
/// these lie.
fn remapped() -> Vec<String> {
    let home = std::env::var_os("CARGO_HOME").map(PathBuf::from);
    let home = home.or_else(|| Some(PathBuf::from(std::env::var_os("HOME")?).join(".cargo")));
    let folders = [(Some(root()), "borewright"), (home, "cargo")];
    folders
        .into_iter()
        .filter_map(|(folder, name)| Some((folder?, name)))
        .map(|(folder, name)| format!("--remap-path-prefix={}={name}", folder.display()))
        .collect()
}

/// Finds the WebAssembly file of a binary among cargo's JSON messages.
fn wasm_of(messages: &str, bin: &str) -> Option<PathBuf> {
    messages
        .lines()
        .filter_map(|line| serde_json::from_str::<serde_json::Value>(line).ok())
        .filter(|message| message["target"]["name"] == bin)
        .filter_map(|message| message["filenames"].as_array().cloned())
        .flatten()
        .filter_map(|name| name.as_str().map(PathBuf::from))
        .rfind(|path| path.extension().is_some_and(|end| end == "wasm"))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_artifact_is_found_among_messages() {
        let messages = concat!(
            "not json\n",
            r#"{"reason":"compiler-artifact","target":{"name":"geo"},"filenames":["/t/geo.rlib"]}"#,
            "\n",
            r#"{"target":{"name":"page"},"filenames":["/t/page.wasm","/t/page.d"]}"#,
        );
        assert_eq!(
            wasm_of(messages, "page"),
            Some(PathBuf::from("/t/page.wasm"))
        );
        assert_eq!(wasm_of(messages, "other"), None);
    }

    #[test]
    fn the_workspace_is_found() {
        assert!(root().join("Cargo.lock").exists());
    }
}
