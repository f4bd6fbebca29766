//! Reads a saved plan and prints its totals, drill list, cut list, ways, findings and link as JSON.
//!
//! `cargo run -q --release -p borewright-core --example schedules -- FILE`

#![expect(clippy::print_stdout, reason = "printing is what this program is for")]

use std::process::ExitCode;

use borewright_core::design::Design;
use borewright_core::file::{self, link};
use borewright_core::plan::Plan;
use borewright_core::report::report;
use serde_json::{Value, json};

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
    let design = Design::long(&opened.plan);
    let mut lists = report(&opened.plan, &design);
    lists["link"] = linked(&opened.plan)?;
    println!(
        "{}",
        serde_json::to_string_pretty(&lists).map_err(|error| error.to_string())?
    );
    Ok(())
}

/// The link of a plan, as it is spelled for copying, and its size in bytes before that.
fn linked(plan: &Plan) -> Result<Value, String> {
    let bytes = link::write(plan, link::Privacy::Everything).map_err(|error| error.to_string())?;
    Ok(json!({ "bytes": bytes.len(), "text": link::encode_text(&bytes) }))
}
