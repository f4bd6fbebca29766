//! The worker's side: takes orders, works, and tells.

use std::cell::Cell;
use std::rc::Rc;

use borewright_core::design::Design;
use borewright_core::file::{self, Opened};
use borewright_core::framing::Framing;
use borewright_core::plan::Plan;
use borewright_core::report::csv::{Table, csv};
use borewright_core::report::report;
use borewright_core::route::network::{Answer, Network};
use borewright_core::route::{Improvement, Routing};
use borewright_core::sheet::{Fonts, Page, Paper, Sheets, pdf};
use gloo::timers::future::TimeoutFuture;
use wasm_bindgen_futures::spawn_local;

use super::bytes::Bytes;
use super::message::{Apart, LaidPage, News, Order, Told, Wanted};
use crate::browser::beside;

/// Between two reports, per cent.
const STRIDE: u8 = 4;

/// How long it works between two looks at its orders, milliseconds.
const STINT: f64 = 40.0;

/// Takes orders, in a worker.
pub fn serve() {
    std::panic::set_hook(Box::new(|fault| {
        gloo::console::error!(fault.to_string());
        tell(0, Told::Fault);
    }));
    let current: Rc<Cell<Option<u32>>> = Rc::default();
    beside::hear(move |bytes| match postcard::from_bytes(&bytes) {
        Ok(Order::Work { job, whole, plan }) => {
            current.set(Some(job));
            spawn_local(work(current.clone(), job, whole, plan.0));
        }
        Ok(Order::Sheets {
            job,
            plan,
            design,
            wanted,
            file,
        }) => lay_out(job, &plan.0, &design, &wanted, file),
        Ok(Order::List {
            job,
            plan,
            design,
            table,
        }) => tell(job, Told::File(listed(&plan.0, &design, table))),
        Ok(Order::Read { job, file }) => tell(job, Told::Opened(opened(&file.0))),
        Ok(Order::Stop) | Err(_) => current.set(None),
    });
}

fn tell(job: u32, told: Told) {
    let news = News { job, told };
    beside::tell(&postcard::to_allocvec(&news).unwrap_or_default());
}

/// Does one job; stops at its next look once it is not the one at hand any more.
async fn work(current: Rc<Cell<Option<u32>>>, job: u32, whole: bool, plan: Vec<u8>) {
    let Ok(opened) = file::read(&plan) else {
        return tell(job, Told::Found(None));
    };
    let plan = opened.plan;
    if whole {
        tell(job, Told::Whole(Box::new(Design::of(&plan))));
    }
    let goes_on = || current.get() == Some(job);
    let report = |done| tell(job, Told::Done(done));
    let Some(answer) = improve(&plan, goes_on, report).await else {
        return;
    };
    match whole {
        true => {
            let design = Design::taking(&plan, answer.as_ref());
            let design = design.unwrap_or_else(|| Design::long(&plan));
            tell(job, Told::Whole(Box::new(design)));
        }
        false => {
            let design = answer
                .as_ref()
                .and_then(|answer| Design::taking(&plan, Some(answer)));
            tell(job, Told::Found(answer.zip(design).map(Box::new)));
        }
    }
}

/// Lays sheets out and tells them page by page, or as one file.
fn lay_out(
    job: u32,
    plan: &[u8],
    design: &Design,
    wanted: &Wanted,
    file: Option<(Vec<usize>, [Bytes; 2])>,
) {
    let Ok(Opened { plan, .. }) = file::read(plan) else {
        return tell(job, Told::LastPage);
    };
    let paper = Paper::of(wanted.size).in_tongue(wanted.tongue);
    let link = wanted.link.as_deref();
    let mut pages = match wanted.stack {
        Some(stack) => Sheets::stack(&plan, design, &paper, stack, link),
        None => Sheets::with_link(&plan, design, &paper, link),
    };
    let Some((left_out, [regular, bold])) = file else {
        let pages = pages.into_iter().map(leaf);
        pages.for_each(|page| tell(job, Told::Page(page)));
        return tell(job, Told::LastPage);
    };
    let mut place = 0..;
    pages.retain(|_| place.next().is_none_or(|place| !left_out.contains(&place)));
    let fonts = Fonts {
        regular: &regular.0,
        bold: &bold.0,
    };
    let bytes = pdf(&pages, &fonts).map(Bytes);
    tell(job, Told::File(bytes.map_err(|error| error.to_string())));
}

fn listed(plan: &[u8], design: &Design, table: Option<usize>) -> Result<Bytes, String> {
    let Opened { plan, .. } = file::read(plan).map_err(|error| error.to_string())?;
    let table = table.and_then(|place| Table::ALL.get(place));
    let text = match table {
        // A spreadsheet takes text for UTF-8 when it begins with this mark.
        Some(table) => format!("\u{feff}{}", csv(*table, &plan, design)),
        None => report(&plan, design).to_string(),
    };
    Ok(Bytes(text.into_bytes()))
}

fn opened(bytes: &[u8]) -> Result<Apart, String> {
    let Opened { plan, losses } = file::read(bytes).map_err(|error| error.to_string())?;
    let (text, scans) = file::apart(&plan);
    let scans = scans.iter().map(|scan| {
        let size = (scan.width, scan.height);
        (scan.media_type.clone(), size, Bytes(scan.bytes.clone()))
    });
    Ok(Apart {
        text: Bytes(text),
        scans: scans.collect(),
        losses,
    })
}

fn leaf(page: Page) -> LaidPage {
    let scale = page.scale.map(|scale| format!("at {}", scale.name));
    LaidPage {
        scale: scale.unwrap_or_default(),
        is_wide: page.extent.width > page.extent.height,
        ink: page.svg(),
        name: page.name,
    }
}

/// The answer for a plan; `None` when stopped.
async fn improve(
    plan: &Plan,
    goes_on: impl Fn() -> bool,
    report: impl Fn(u8),
) -> Option<Option<Answer>> {
    let framing = Framing::of(plan);
    let routing = Routing::of(plan, &framing);
    let Some(network) = routing
        .problem()
        .and_then(|problem| Network::new(problem).ok())
    else {
        return Some(None);
    };
    // A plan that came meanwhile is not kept waiting for the beginning of this search.
    TimeoutFuture::new(0).await;
    if !goes_on() {
        return None;
    }
    let mut improvement = Improvement::new(&network);
    let mut told = 0;
    while stint(&mut improvement) {
        if improvement.done() >= told + STRIDE {
            told = improvement.done();
            report(told);
        }
        TimeoutFuture::new(0).await;
        if !goes_on() {
            return None;
        }
    }
    Some(Some(improvement.answer()))
}

/// Works for a while; false once there is nothing more to do.
fn stint(improvement: &mut Improvement<'_>) -> bool {
    let since = js_sys::Date::now();
    while js_sys::Date::now() - since < STINT {
        if !improvement.step() {
            return false;
        }
    }
    true
}
