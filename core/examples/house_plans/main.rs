//! Makes the demo and the plans that tests are run on, by edits, as a hand would draw them:
//! `cargo run -p borewright-core --example house_plans` writes `static/demo/*.json` and
//! `tests/plans/*.json`.
//!
//! House A is read from `tests/plans/house-a.truth.json`, the dimensions its sketch was drawn from;
//! houses B and C are invented here.

mod demo;
mod draft;
mod drawing;
mod house_a;
mod house_b;
mod house_c;
mod snap;
mod two_storeys;

use std::error::Error;
use std::path::Path;

use borewright_core::file;
use borewright_core::plan::Plan;

type Outcome<T> = Result<T, Box<dyn Error>>;

fn main() -> Outcome<()> {
    let top = Path::new(env!("CARGO_MANIFEST_DIR")).join("..");
    save(&top.join("static/demo/demo.json"), &demo::plan()?)?;
    save(
        &top.join("static/demo/two-storeys.json"),
        &two_storeys::plan()?,
    )?;
    let plans = top.join("tests/plans");
    let truth = std::fs::read(plans.join("house-a.truth.json"))?;
    save(&plans.join("house-a.json"), &house_a::plan(&truth)?)?;
    save(&plans.join("house-b.json"), &house_b::plan()?)?;
    save(&plans.join("house-c.json"), &house_c::plan()?)
}

/// Writes a plan, once it reads back as it was.
fn save(path: &Path, plan: &Plan) -> Outcome<()> {
    let bytes = file::write(plan);
    let opened = file::read(&bytes)?;
    if opened.plan != *plan || !opened.losses.is_empty() {
        return Err(format!("{} does not come back whole", path.display()).into());
    }
    std::fs::write(path, bytes)?;
    Ok(())
}
