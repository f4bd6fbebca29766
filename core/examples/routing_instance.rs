//! Writes the routing problem of a saved plan, with our answer, as plain JSON for outside solvers.
//!
//! `cargo run -q --release -p borewright-core --example routing_instance -- FILE`
//!
//! The form is that of [`borewright_core::route::network::Instance`].

#![expect(clippy::print_stdout, reason = "printing is what this program is for")]

use std::process::ExitCode;

use borewright_core::file;
use borewright_core::framing::Framing;
use borewright_core::route::Routing;
use borewright_core::route::network::{Effort, Instance, Network, solve};

fn main() -> ExitCode {
    let Some(path) = std::env::args().nth(1) else {
        eprintln!("Name a saved plan: routing_instance FILE");
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
    let plan = file::read(&bytes).map_err(|error| error.to_string())?.plan;
    let framing = Framing::of(&plan);
    let routing = Routing::of(&plan, &framing);
    let mut problem = routing
        .problem()
        .ok_or("There is no closet, so there is nothing to route.")?
        .clone();
    problem.pins.clear();
    let network = Network::new(&problem).map_err(|error| error.to_string())?;
    let answer = Some(solve(&network, Effort::CAREFUL));
    println!("{}", Instance { problem, answer }.write());
    Ok(())
}
