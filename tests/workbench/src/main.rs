//! The workbench: the commands `cargo serve`, `cargo verify` and `cargo figures`.
//!
//! It finds or installs what a fresh machine lacks, builds the page, serves it, and runs the checks.
//! Nothing of the product lives here, and no check: those are in the packages it calls.

#![expect(
    clippy::print_stdout,
    reason = "this is the command a person runs; what it says goes to the terminal"
)]

mod advisories;
mod browser;
mod cargo;
mod check;
mod figures;
mod licences;
mod markup;
mod offline;
mod options;
mod outside;
mod serve;
mod server;
mod site;
mod steps;
mod tools;
mod verify;
mod watch;

use anyhow::Result;
use options::Command;

fn main() -> std::process::ExitCode {
    match run() {
        Ok(()) => std::process::ExitCode::SUCCESS,
        Err(error) => {
            eprintln!("\nStopped: {error:#}");
            std::process::ExitCode::FAILURE
        }
    }
}

/// Carries out the command named on the command line.
fn run() -> Result<()> {
    match options::read(std::env::args().skip(1))? {
        Command::Help => {
            println!("{}", options::HELP);
            Ok(())
        }
        Command::Nothing => Ok(()),
        Command::Finish { folder } => offline::finish(&folder),
        Command::Build { release } => serve::build_only(release),
        Command::Figures => figures::figures(),
        Command::Verify { word } => verify::verify(word),
        Command::Serve { port, release } => serve::serve(port, release),
    }
}
