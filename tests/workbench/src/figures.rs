//! `cargo figures`: measures what is promised and prints one line a figure.
//!
//! It builds and serves; the measuring is in `core/examples/figures/` (native) and in
//! `tests/figures/` (the page, in Chromium). It is no test and fails nothing but itself.

use crate::cargo::cargo;
use crate::server::Server;
use crate::site::{self, Recipe};
use crate::steps::Steps;
use crate::{browser, tools};
use anyhow::{Result, bail};
use std::process::{Command, Stdio};

/// The two programs that measure, as words for cargo.
const NATIVE: &str = "run --quiet --release --package borewright-core --example figures";
const PAGE: &str = "run --quiet --package borewright-tests --example page-figures";

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
    let mut page = cargo();
    page.args(PAGE.split(' '))
        .env("BOREWRIGHT_SITE", &server.address)
        .env("BOREWRIGHT_FOLDER", &folder)
        .env("CHROME", &programs.chrome)
        .env("CHROMEDRIVER", &programs.driver);
    run(&mut page, "the figures of the page")
}

fn run(command: &mut Command, what: &str) -> Result<()> {
    let status = command.stdin(Stdio::null()).status()?;
    if status.success() {
        Ok(())
    } else {
        bail!("{what} were not all measured; the reason is above")
    }
}
