//! Writes the sheets of a saved plan as one PDF.
//!
//! `cargo run -q --release -p borewright-core --example sheets -- PLAN OUT.pdf [letter|11x17|a4|a3]`

use std::process::ExitCode;

use borewright_core::design::Design;
use borewright_core::file;
use borewright_core::sheet::{Fonts, Paper, Sheets, Size, pdf};

const REGULAR: &[u8] = include_bytes!("../../static/fonts/borewright-sans-regular.ttf");
const BOLD: &[u8] = include_bytes!("../../static/fonts/borewright-sans-bold.ttf");

fn main() -> ExitCode {
    match run(&std::env::args().skip(1).collect::<Vec<_>>()) {
        Ok(()) => ExitCode::SUCCESS,
        Err(sentence) => {
            eprintln!("{sentence}");
            ExitCode::FAILURE
        }
    }
}

fn run(arguments: &[String]) -> Result<(), String> {
    let (plan, out, size) = match arguments {
        [plan, out] => (plan, out, Size::default()),
        [plan, out, size] => (plan, out, named(size)?),
        _ => {
            return Err(String::from(
                "Usage: sheets PLAN OUT.pdf [letter|11x17|a4|a3]",
            ));
        }
    };
    let bytes = std::fs::read(plan).map_err(|error| format!("{plan} cannot be read: {error}."))?;
    let opened = file::read(&bytes).map_err(|error| error.to_string())?;
    for loss in &opened.losses {
        eprintln!("{loss}");
    }
    let design = Design::of(&opened.plan);
    let pages = Sheets::of(&opened.plan, &design, &Paper::of(size));
    let fonts = Fonts {
        regular: REGULAR,
        bold: BOLD,
    };
    let bytes = pdf(&pages, &fonts).map_err(|error| error.to_string())?;
    std::fs::write(out, bytes).map_err(|error| format!("{out} cannot be written: {error}."))
}

fn named(size: &str) -> Result<Size, String> {
    let unknown = || format!("{size} is no paper known here. Use letter, 11x17, a4 or a3.");
    Size::named(size).ok_or_else(unknown)
}
