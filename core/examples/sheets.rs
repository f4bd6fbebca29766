//! Writes the sheets of a saved plan as one PDF, with its link as a code on the cover.
//!
//! `cargo run -q --release -p borewright-core --example sheets -- PLAN OUT.pdf [letter|11x17|a4|a3] [ADDRESS] [STACK]`
//!
//! ADDRESS is where the page lives; the link follows its `#`. STACK is crew, builder, office, owner or
//! labels; without it every sheet is written once.

use std::process::ExitCode;

use borewright_core::design::Design;
use borewright_core::file::{self, link};
use borewright_core::plan::Plan;
use borewright_core::sheet::{Fonts, Paper, Sheets, Size, Stack, pdf};

const REGULAR: &[u8] = include_bytes!("../../static/fonts/borewright-sans-regular.ttf");
const BOLD: &[u8] = include_bytes!("../../static/fonts/borewright-sans-bold.ttf");

/// Stands for wherever the page is served from.
const HERE: &str = "https://borewright.example/";

const USAGE: &str = "Usage: sheets PLAN OUT.pdf [letter|11x17|a4|a3] [ADDRESS] [STACK]";

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
    let [plan, out, rest @ ..] = arguments else {
        return Err(String::from(USAGE));
    };
    let size = rest
        .first()
        .map_or(Ok(Size::default()), |size| named(size))?;
    let address = rest.get(1).map_or(HERE, String::as_str);
    let stack = rest.get(2).map(|stack| stacked(stack)).transpose()?;
    let bytes = std::fs::read(plan).map_err(|error| format!("{plan} cannot be read: {error}."))?;
    let opened = file::read(&bytes).map_err(|error| error.to_string())?;
    for loss in &opened.losses {
        eprintln!("{loss}");
    }
    let design = Design::long(&opened.plan);
    let link = linked(&opened.plan, address)?;
    let (plan, paper) = (&opened.plan, Paper::of(size));
    let pages = match stack {
        Some(stack) => Sheets::stack(plan, &design, &paper, stack, Some(&link)),
        None => Sheets::with_link(plan, &design, &paper, Some(&link)),
    };
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

fn stacked(name: &str) -> Result<Stack, String> {
    match name {
        "crew" => Ok(Stack::Crew),
        "builder" => Ok(Stack::Builder),
        "office" => Ok(Stack::Office),
        "owner" => Ok(Stack::Owner),
        "labels" => Ok(Stack::Labels),
        _ => Err(format!(
            "{name} is no stack known here. Use crew, builder, office, owner or labels."
        )),
    }
}
