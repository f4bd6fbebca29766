//! `cargo verify`: every check there is, in the order in which a fault is found soonest.
//!
//! It decides what is run and counted; what is right and wrong is decided by the checks themselves.

use crate::browser::{self, Programs};
use crate::cargo::{WASM, cargo, root};
use crate::check::{Check, Outcome, log_folder, table};
use crate::server::Server;
use crate::steps::Steps;
use crate::{advisories, outside, site, tools};
use anyhow::{Result, bail};
use std::cell::OnceCell;
use std::path::PathBuf;
use std::process::Command;

/// Where the site is served for the stories: a host may put it below any path.
const DEEP_PATH: &str = "/some/deep/path/";

/// One run of the command.
struct Verify {
    steps: Steps,
    logs: PathBuf,
    /// Only checks whose name has this in it; all when empty.
    word: String,
    outcomes: Vec<Outcome>,
    programs: OnceCell<Programs>,
}

/// Runs every check, or those whose name has `word` in it, and prints the table.
///
/// # Errors
/// When a check failed, none has that name, or something could not be run at all.
pub fn verify(word: String) -> Result<()> {
    let steps = Steps::begin();
    tools::ensure_rust(&steps)?;
    let mut verify = Verify {
        steps,
        logs: log_folder()?,
        word,
        outcomes: vec![],
        programs: OnceCell::new(),
    };
    verify.all()?;
    if verify.outcomes.is_empty() {
        bail!("no check has `{}` in its name", verify.word);
    }
    println!("\n{}", table(&verify.outcomes));
    match verify.outcomes.iter().any(|one| one.failed > 0) {
        true => bail!("not everything passed"),
        false => Ok(()),
    }
}

impl Verify {
    fn all(&mut self) -> Result<()> {
        self.cargo("format", "every file is formatted", "fmt --all --check")?;
        // The runner is one line over a large library; building that for a lint is not worth it.
        let lint = "clippy --workspace --exclude borewright-runner --all-targets -- -D warnings";
        self.cargo("lints", "no warning in any package", lint)?;
        let lint =
            format!("clippy -p borewright-frontend --all-targets --target {WASM} -- -D warnings");
        self.cargo("page lints", "no warning in the page as WebAssembly", &lint)?;
        self.documents()?;
        let test = "test --workspace --exclude borewright-runner --no-fail-fast";
        self.tests(
            "tests",
            "units, documents, goldens, properties, tidiness",
            test,
        )?;
        self.page_tests()?;
        let build = "run --quiet --package borewright-workbench -- build --release";
        self.cargo("site", "the release of the site builds", build)?;
        self.stories()?;
        self.outside()?;
        self.advisories()
    }

    /// No part of the program is known to be unsafe or kept by nobody; where that cannot be asked, the reason
    /// is said. Licences of all parts are held to a list wherever the site is built.
    fn advisories(&mut self) -> Result<()> {
        let name = "advisories";
        if !name.contains(&self.word) {
            return Ok(());
        }
        match advisories::reason_not_to() {
            None => self.cargo(name, "no part has a known fault", advisories::WORDS),
            Some(reason) if self.word == name => bail!("{reason}"),
            Some(reason) => {
                self.steps.say(&format!("{name}: not asked here: {reason}"));
                Ok(())
            }
        }
    }

    /// A check that is one call of cargo.
    fn cargo(&mut self, name: &str, about: &str, words: &str) -> Result<()> {
        self.run(name, about, words, false, |_| Ok(vec![]))
    }

    /// The same for a call that runs tests.
    fn tests(&mut self, name: &str, about: &str, words: &str) -> Result<()> {
        self.run(name, about, words, true, |_| Ok(vec![]))
    }

    /// The reference of the core is written without a dead link.
    fn documents(&mut self) -> Result<()> {
        let words = "doc -p borewright-core --no-deps";
        self.run("documents", "no dead link in them", words, false, |_| {
            Ok(vec![("RUSTDOCFLAGS", "-D warnings".into())])
        })
    }

    /// Tests compiled to WebAssembly, in a browser.
    fn page_tests(&mut self) -> Result<()> {
        let words = format!("test -p borewright-frontend --target {WASM}");
        self.run(
            "page tests",
            "WebAssembly tests in Chromium",
            &words,
            true,
            |verify| verify.programs()?.for_page_tests(120),
        )
    }

    /// What a person does, on the release of the site.
    fn stories(&mut self) -> Result<()> {
        let words = "test -p borewright-tests --test browser -- --ignored --test-threads=2";
        self.run(
            "stories",
            "what a person does, in Chromium",
            words,
            true,
            |verify| {
                let programs = verify.programs()?;
                let folder = site::folder(true);
                if !folder.join("index.html").exists() {
                    bail!("{} is not there; run: cargo verify site", folder.display());
                }
                let server = Server::start(&folder, DEEP_PATH, 0)?;
                verify
                    .steps
                    .say(&format!("The site is served at {}", server.address));
                Ok(vec![
                    ("BOREWRIGHT_SITE", server.address),
                    ("CHROME", programs.chrome.display().to_string()),
                    ("CHROMEDRIVER", programs.driver.display().to_string()),
                ])
            },
        )
    }

    /// Checks against other people's programs.
    fn outside(&mut self) -> Result<()> {
        for script in outside::scripts() {
            let stem = script
                .file_stem()
                .unwrap_or_default()
                .to_string_lossy()
                .replace("run_", "");
            let name = format!("outside {stem}");
            if !name.contains(&self.word) {
                continue;
            }
            let mut command = Command::new(outside::python(&self.steps)?);
            command.arg(&script).current_dir(root());
            let about = "agrees with other people's programs";
            self.check(
                &name,
                about,
                command,
                format!("cargo verify '{name}'"),
                false,
            )?;
        }
        Ok(())
    }

    /// Runs cargo with what `prepare` puts in the environment, unless the name is not asked for.
    fn run(
        &mut self,
        name: &str,
        about: &str,
        words: &str,
        has_tests: bool,
        prepare: impl FnOnce(&Self) -> Result<Vec<(&'static str, String)>>,
    ) -> Result<()> {
        if !name.contains(&self.word) {
            return Ok(());
        }
        let environment = prepare(self)?;
        let set: String = environment
            .iter()
            .map(|(key, value)| format!("{key}={value} "))
            .collect();
        let again = format!("{set}cargo {words}\n      or: cargo verify '{name}'");
        let mut command = cargo();
        command.args(words.split(' ')).envs(environment);
        self.check(name, about, command, again, has_tests)
    }

    fn check(
        &mut self,
        name: &str,
        about: &str,
        command: Command,
        again: String,
        has_tests: bool,
    ) -> Result<()> {
        let check = Check {
            name,
            about,
            again,
            has_tests,
        };
        self.outcomes
            .push(check.run(&self.steps, command, &self.logs)?);
        Ok(())
    }

    fn programs(&self) -> Result<Programs> {
        if let Some(programs) = self.programs.get() {
            return Ok(programs.clone());
        }
        let programs = browser::ensure(&self.steps)?;
        Ok(self.programs.get_or_init(|| programs).clone())
    }
}
