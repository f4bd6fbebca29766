//! `cargo figures`: measures what is promised and prints one line a figure.
//!
//! It builds and serves; the measuring is in `core/examples/figures/` (native, and some of it again
//! in Chromium) and in `tests/figures/` (the page). It is no test and fails nothing but itself.

use crate::browser::{self, Programs};
use crate::cargo::cargo;
use crate::server::Server;
use crate::site::{self, Recipe};
use crate::steps::Steps;
use crate::tools;
use anyhow::{Result, bail};
use std::process::{Command, Stdio};

/// The programs that measure, as words for cargo.
const NATIVE: &str =
    "run --quiet --release --package borewright-core --features sample --example figures";
const BROWSER: &str = "test --release --package borewright-core --test browser-figures \
    --target wasm32-unknown-unknown -- --nocapture";
const PAGE: &str = "run --quiet --package borewright-tests --example page-figures";

/// How long the figures in the browser may take.
const MOST_SECONDS: u32 = 600;

/// Measures and prints everything.
///
/// # Errors
/// When something cannot be built, installed or measured.
pub fn figures() -> Result<()> {
    let steps = Steps::begin();
    tools::ensure_rust(&steps)?;
    let programs = browser::ensure(&steps)?;
    let folder = site::build(
        &steps,
        Recipe {
            release: true,
            head: "",
        },
    )?;
    let server = Server::start(&folder, "/", 0)?;
    steps.say("Measuring; leave the machine alone meanwhile");
    println!("\nname | value | unit | goal | how it was measured");
    run(cargo().args(NATIVE.split(' ')), "the native figures")?;
    print_of_the_browser(&programs)?;
    let mut page = cargo();
    page.args(PAGE.split(' '))
        .env("BOREWRIGHT_SITE", &server.address)
        .env("BOREWRIGHT_FOLDER", &folder)
        .env("CHROME", &programs.chrome)
        .env("CHROMEDRIVER", &programs.driver);
    run(&mut page, "the figures of the page")
}

/// The figures that the core takes in the browser stand among the words of a test run.
fn print_of_the_browser(programs: &Programs) -> Result<()> {
    let mut command = cargo();
    command
        .args(BROWSER.split_whitespace())
        .envs(programs.for_page_tests(MOST_SECONDS)?);
    let output = command
        .stdin(Stdio::null())
        .stderr(Stdio::inherit())
        .output()?;
    let words = String::from_utf8_lossy(&output.stdout);
    let figures = words
        .lines()
        .filter(|line| line.matches(" | ").count() == 4);
    figures.for_each(|line| println!("{}", line.trim()));
    match output.status.success() {
        true => Ok(()),
        false => bail!("the figures in the browser were not all measured; its words:\n{words}"),
    }
}

fn run(command: &mut Command, what: &str) -> Result<()> {
    let status = command.stdin(Stdio::null()).status()?;
    if status.success() {
        Ok(())
    } else {
        bail!("{what} were not all measured; the reason is above")
    }
}
