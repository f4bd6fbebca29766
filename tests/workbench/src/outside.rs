//! Checks against other people's programs: scripts in `tests/outside/`, run in a Python environment
//! that holds exactly what `tests/outside/requirements.txt` names.
//!
//! A script is called `run_<what>.py`, is run from the top of the workspace, says what it compared,
//! and ends with 0 when all of it agreed.

use crate::browser::{apt_get, can_install};
use crate::cargo::{root, target_folder};
use crate::site::short_hash;
use crate::steps::Steps;
use anyhow::{Context, Result, bail};
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};

const PYTHON: &str = "python3";

/// The scripts, in the order of their names.
pub fn scripts() -> Vec<PathBuf> {
    let inside = std::fs::read_dir(root().join("tests/outside"))
        .into_iter()
        .flatten()
        .flatten();
    let mut scripts: Vec<PathBuf> = inside
        .map(|entry| entry.path())
        .filter(|path| is_script(path))
        .collect();
    scripts.sort();
    scripts
}

fn is_script(path: &Path) -> bool {
    let name = path
        .file_name()
        .map(|name| name.to_string_lossy().into_owned())
        .unwrap_or_default();
    name.starts_with("run_") && name.ends_with(".py")
}

/// The Python of an environment with what the scripts need; made anew when the list has changed.
///
/// # Errors
/// When Python is missing or a package cannot be had; says what to install.
pub fn python(steps: &Steps) -> Result<PathBuf> {
    let list = root().join("tests/outside/requirements.txt");
    let wanted = short_hash(&std::fs::read(&list).with_context(|| format!("{}", list.display()))?);
    let folder = target_folder().join("outside");
    let python = folder.join("bin").join(PYTHON);
    let mark = folder.join("holds.txt");
    if python.exists() && std::fs::read_to_string(&mark).is_ok_and(|held| held == wanted) {
        return Ok(python);
    }
    steps.say("Installing the Python packages named in tests/outside/requirements.txt");
    make_environment(&folder)?;
    let pip = [
        "-m",
        "pip",
        "install",
        "--quiet",
        "--disable-pip-version-check",
        "-r",
    ];
    run(
        Command::new(&python).args(pip).arg(&list),
        "pip could not install every package",
    )?;
    std::fs::write(mark, wanted)?;
    Ok(python)
}

fn make_environment(folder: &Path) -> Result<()> {
    let make = || {
        Command::new(PYTHON)
            .args(["-m", "venv", "--clear"])
            .arg(folder)
            .output()
    };
    if make().is_ok_and(|output| output.status.success()) {
        return Ok(());
    }
    if can_install() {
        apt_get(&["update"])?;
        apt_get(&[
            "install",
            "-y",
            "--no-install-recommends",
            "python3",
            "python3-venv",
        ])?;
        if make()?.status.success() {
            return Ok(());
        }
    }
    bail!("the outside checks need python3 with its module venv; install both, then run this again")
}

fn run(command: &mut Command, sentence: &'static str) -> Result<()> {
    let status = command.stdin(Stdio::null()).status().context(sentence)?;
    if status.success() {
        Ok(())
    } else {
        bail!("{sentence}; its own words are above")
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn only_scripts_that_say_so_are_run() {
        assert!(is_script(Path::new("a/run_steiner.py")));
        assert!(!is_script(Path::new("a/shared.py")) && !is_script(Path::new("a/run_x.rs")));
    }
}
