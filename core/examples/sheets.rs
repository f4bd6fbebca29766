//! Writes the sheets of a saved plan as one PDF, with its link as a code on the cover.
//!
//! `cargo run -q --release -p borewright-core --example sheets -- PLAN OUT.pdf [letter|11x17|a4|a3] [ADDRESS]`
//!
//! ADDRESS is where the page lives; the link follows its `#`.

use std::process::ExitCode;

use borewright_core::design::Design;
use borewright_core::file::{self, link};
use borewright_core::plan::Plan;
use borewright_core::sheet::{Fonts, Paper, Sheets, Size, pdf};

const REGULAR: &[u8] = include_bytes!("../../static/fonts/borewright-sans-regular.ttf");
const BOLD: &[u8] = include_bytes!("../../static/fonts/borewright-sans-bold.ttf");

/// Stands for wherever the page is served from.
const HERE: &str = "https://borewright.example/";

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
    let (plan, out, size, address) = match arguments {
        [plan, out] => (plan, out, Size::default(), HERE),
        [plan, out, size] => (plan, out, named(size)?, HERE),
        [plan, out, size, address] => (plan, out, named(size)?, address.as_str()),
        _ => {
            return Err(String::from(
                "Usage: sheets PLAN OUT.pdf [letter|11x17|a4|a3] [ADDRESS]",
            ));
        }
    };
    let bytes = std::fs::read(plan).map_err(|error| format!("{plan} cannot be read: {error}."))?;
    let opened = file::read(&bytes).map_err(|error| error.to_string())?;
    for loss in &opened.losses {
        eprintln!("{loss}");
    }
    let design = Design::long(&opened.plan);
    let link = linked(&opened.plan, address)?;
    let pages = Sheets::with_link(&opened.plan, &design, &Paper::of(size), Some(&link));
    let fonts = Fonts {
        regular: REGULAR,
        bold: BOLD,
    };
    let bytes = pdf(&pages, &fonts).map_err(|error| error.to_string())?;
    std::fs::write(out, bytes).map_err(|error| format!("{out} cannot be written: {error}."))
}

/// A whole address in the spelling that printed codes hold best.
fn linked(plan: &Plan, address: &str) -> Result<String, String> {
    let bytes = link::write(plan, link::Privacy::Everything).map_err(|error| error.to_string())?;
    Ok(format!("{address}#{}", link::encode_qr_text(&bytes)))
}

fn named(size: &str) -> Result<Size, String> {
    let unknown = || format!("{size} is no paper known here. Use letter, 11x17, a4 or a3.");
    Size::named(size).ok_or_else(unknown)
}
