//! Chromium and its driver: found, or installed where this machine allows it.

use crate::check::log_folder;
use crate::steps::Steps;
use anyhow::{Result, bail};
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};

/// The two programs that browser checks need.
#[derive(Clone, Debug)]
pub struct Programs {
    /// Chromium or a browser built from it.
    pub chrome: PathBuf,
    /// ChromeDriver of the same version.
    pub driver: PathBuf,
}

const CHROMES: [&str; 4] = [
    "chromium",
    "chromium-browser",
    "google-chrome",
    "google-chrome-stable",
];
const DRIVERS: [&str; 2] = ["chromedriver", "chromium.chromedriver"];
const ABSENT: &str = "the browser checks need Chromium and ChromeDriver of one version: install \
    both (on Debian, as root: apt-get install chromium chromium-driver), or name them in the \
    environment variables CHROME and CHROMEDRIVER";

impl Programs {
    /// What a test compiled to WebAssembly needs in its environment to run in this browser, for at
    /// most so many seconds.
    ///
    /// # Errors
    /// When there is no room for the file that names the browser.
    pub fn for_page_tests(&self, seconds: u32) -> Result<Vec<(&'static str, String)>> {
        let wishes = serde_json::json!({ "goog:chromeOptions": {
            "binary": self.chrome,
            "args": ["--disable-background-networking", "--disable-component-update"],
        }});
        let file = log_folder()?.join("webdriver.json");
        std::fs::write(&file, wishes.to_string())?;
        Ok(vec![
            ("CHROMEDRIVER", self.driver.display().to_string()),
            (
                "WASM_BINDGEN_TEST_WEBDRIVER_JSON",
                file.display().to_string(),
            ),
            ("WASM_BINDGEN_TEST_TIMEOUT", seconds.to_string()),
        ])
    }
}

/// Finds both programs, installing them as root on Debian and its kin.
///
/// # Errors
/// When one is missing and cannot be installed; says what to install.
pub fn ensure(steps: &Steps) -> Result<Programs> {
    if let Some(found) = find()? {
        return Ok(found);
    }
    if !can_install() {
        bail!(ABSENT);
    }
    steps.say("Installing Chromium and ChromeDriver (apt-get)");
    apt_get(&["update"])?;
    apt_get(&[
        "install",
        "-y",
        "--no-install-recommends",
        "chromium",
        "chromium-driver",
    ])?;
    match find()? {
        Some(found) => Ok(found),
        None => bail!(ABSENT),
    }
}

/// Both programs, if both are there.
fn find() -> Result<Option<Programs>> {
    let chrome = named_or_found("CHROME", &CHROMES)?;
    let driver = named_or_found("CHROMEDRIVER", &DRIVERS)?;
    Ok(chrome
        .zip(driver)
        .map(|(chrome, driver)| Programs { chrome, driver }))
}

/// The program named in an environment variable, else the first that lies on the path.
fn named_or_found(variable: &str, names: &[&str]) -> Result<Option<PathBuf>> {
    if let Some(named) = std::env::var_os(variable).filter(|named| !named.is_empty()) {
        let named = PathBuf::from(named);
        if !named.is_file() {
            bail!(
                "{variable} names {}, where there is no program",
                named.display()
            );
        }
        return Ok(Some(named));
    }
    let path = std::env::var_os("PATH").unwrap_or_default();
    let folders: Vec<PathBuf> = std::env::split_paths(&path).collect();
    Ok(first_in(&folders, names))
}

fn first_in(folders: &[PathBuf], names: &[&str]) -> Option<PathBuf> {
    let places = names
        .iter()
        .flat_map(|name| folders.iter().map(move |folder| folder.join(name)));
    places.into_iter().find(|place| place.is_file())
}

/// Whether `apt-get install` may be called here.
pub fn can_install() -> bool {
    let is_root = Command::new("id")
        .arg("-u")
        .output()
        .is_ok_and(|said| said.stdout == b"0\n");
    is_root && Path::new("/usr/bin/apt-get").exists()
}

/// Calls apt-get without questions; its words go to the terminal.
///
/// # Errors
/// When it fails.
pub fn apt_get(words: &[&str]) -> Result<()> {
    let status = Command::new("apt-get")
        .arg("-q")
        .args(words)
        .env("DEBIAN_FRONTEND", "noninteractive")
        .stdin(Stdio::null())
        .status()?;
    if !status.success() {
        bail!(
            "`apt-get {}` failed; its own words are above",
            words.join(" ")
        );
    }
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_first_name_wins_over_the_first_folder() {
        let folder = tempfile::tempdir().unwrap();
        let (a, b) = (folder.path().join("a"), folder.path().join("b"));
        for (place, name) in [(&a, "second"), (&b, "first")] {
            std::fs::create_dir(place).unwrap();
            std::fs::write(place.join(name), "").unwrap();
        }
        let folders = [a, b.clone()];
        assert_eq!(
            first_in(&folders, &["first", "second"]),
            Some(b.join("first"))
        );
        assert_eq!(first_in(&folders, &["third"]), None);
    }
}
