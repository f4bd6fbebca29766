//! Reads a saved plan and prints its totals, drill list, cut list, ways and findings as JSON.
//!
//! `cargo run -q --release -p borewright-core --example schedules -- FILE`

#![expect(clippy::print_stdout, reason = "printing is what this program is for")]

use std::process::ExitCode;

use borewright_core::design::Design;
use borewright_core::{file, schedule};

fn main() -> ExitCode {
    let Some(path) = std::env::args().nth(1) else {
        eprintln!("Name a saved plan: schedules FILE");
        return ExitCode::FAILURE;
    };
    match print(&path) {
        Ok(()) => ExitCode::SUCCESS,
        Err(sentence) => {
            eprintln!("{path}: {sentence}");
            ExitCode::FAILURE
        }
    }
}

fn print(path: &str) -> Result<(), String> {
    let bytes = std::fs::read(path).map_err(|error| error.to_string())?;
    let opened = file::read(&bytes).map_err(|error| error.to_string())?;
    for loss in &opened.losses {
        eprintln!("{path}: {loss}");
    }
    let design = Design::of(&opened.plan);
    let report = schedule::report(&opened.plan, &design);
    println!(
        "{}",
        serde_json::to_string_pretty(&report).map_err(|error| error.to_string())?
    );
    Ok(())
}
