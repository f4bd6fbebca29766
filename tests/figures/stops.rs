//! The longest that the page stands still over the hostile set: while it opens each file and link, while a person
//! changes it, drags it, and goes through its steps; and the most memory that its program takes.

use crate::figure::{print, print_absent};
use borewright_tests::{Page, Size};
use std::path::{Path, PathBuf};
use std::time::Duration;

/// Notes every task over 50 ms (Long Tasks, W3C), and how much memory each program of WebAssembly has.
const WATCH: &str = "
    window.longest = [];
    new PerformanceObserver((list) => {
        for (const task of list.getEntries()) window.longest.push(task.duration);
    }).observe({ type: 'longtask', buffered: true });
    const instantiate = (name) => {
        const whole = WebAssembly[name];
        WebAssembly[name] = async (...all) => {
            const made = await whole.apply(WebAssembly, all);
            window.programMemory = (made.instance ?? made).exports.memory;
            return made;
        };
    };
    ['instantiate', 'instantiateStreaming'].forEach(instantiate);";

/// The longest task since the last look, milliseconds; 0 where none took 50.
const LONGEST: &str = "const all = window.longest; window.longest = [];
    return all.length ? Math.max(...all) : 0";

const HOW: &str = "Chromium, release, Long Tasks API";

/// Prints the section.
pub fn print_all() {
    let (mut worst, mut memory, mut process) = (0.0_f64, 0.0_f64, 0.0_f64);
    let mut inputs = hostile();
    inputs.sort();
    for path in inputs {
        let name = path.file_name().and_then(|name| name.to_str());
        let name = name.unwrap_or_default().to_string();
        let page = watched();
        let (doing, longest) = visit(&page, &path);
        worst = worst.max(longest);
        print(
            &format!("longest stop with {name}"),
            longest,
            "ms",
            "200",
            &format!("{HOW}; {doing}"),
        );
        let bytes = page.run("return window.programMemory?.buffer.byteLength ?? null");
        match bytes.as_f64() {
            Some(bytes) => memory = memory.max(bytes),
            None => print_absent("memory of the page's program", "it could not be watched"),
        }
        process = process.max(page.most_memory().unwrap_or_default() as f64);
    }
    print("longest stop over the hostile set", worst, "ms", "200", HOW);
    let how = "the page's own WebAssembly memory at its largest; a worker's is bounded by the same 500 MB";
    print(
        "memory of the page's program at worst",
        memory / 1e6,
        "MB",
        "500",
        how,
    );
    let how = "the most that a process held which shows a page: its programs with all workers, what they draw, and the engine";
    print("memory of a tab at worst", process / 1e6, "MB", "-", how);
}

fn watched() -> Page {
    let page = Page::blank("figures-stops", Size::Desk);
    page.run_first(WATCH);
    page.go("");
    page.button("22 drops");
    rest();
    page.run(LONGEST);
    page
}

/// Opens one input and works with it; gives what was being done when the page stood still longest.
fn visit(page: &Page, path: &Path) -> (String, f64) {
    let mut worst = (String::from("nothing over 50 ms"), 0.0);
    let mut look = |doing: &str| {
        rest();
        let longest = page.run(LONGEST).as_f64().unwrap_or_default();
        if longest > worst.1 {
            worst = (doing.to_string(), longest);
        }
    };
    match path.extension().and_then(|end| end.to_str()) {
        Some("json") => {
            page.button("Job: ").tap();
            page.upload("Open a file", path);
        }
        _ => {
            let text = std::fs::read_to_string(path).expect("a link");
            page.go(&format!("#{}", text.trim()));
        }
    }
    look("opening it");
    page.until("it is worked out, or told why not", || {
        !page.text().contains("being worked out beside the page")
    });
    look("what follows comes home");
    if page.has("button", "Take over as a copy") {
        page.button("Take over as a copy").tap();
        look("taking it over");
    }
    for step in ["Drawing", "Framing", "Drops", "Ways", "Sheets", "Site"] {
        page.button(step).tap();
        look(&format!("the step {step}"));
    }
    on_site(page, &mut look);
    page.button("Job: ").tap();
    for list in ["Agreements", "finding"] {
        if tapped(page, |name| name.contains(list)) {
            look(&format!("the list of {list}"));
        }
    }
    page.press("Escape");
    page.button("Framing").tap();
    page.button("Choose").tap();
    let sheet = page.labelled("Sheet");
    page.drag(sheet.at(0.4, 0.4), sheet.at(0.45, 0.42));
    look("a drag");
    page.press("Control+z");
    look("an undo");
    worst
}

/// Every part of the work on site, a note, and its undo.
fn on_site(page: &Page, look: &mut impl FnMut(&str)) {
    if page.all("checkbox").is_empty() {
        return;
    }
    for part in [
        "Protection",
        "Trim-out",
        "Test",
        "Punch list",
        "Handover",
        "Rough-in",
    ] {
        page.button(part).tap();
        look(&format!("the part {part}"));
    }
    if tapped(page, |name| {
        name.starts_with("Show ") && name.ends_with(" more")
    }) {
        look("another part of the list");
    }
    let ticks = page.all("checkbox");
    let tick = ticks.iter().find(|(name, _)| name.ends_with(" pulled"));
    if let Some((_, tick)) = tick {
        tick.tap();
        look("a tick");
        page.press("Control+z");
        look("a tick taken back");
    }
}

/// Taps the first button with such a name; false where there is none.
fn tapped(page: &Page, is_meant: impl Fn(&str) -> bool) -> bool {
    let buttons = page.all("button");
    let found = buttons.iter().find(|(name, _)| is_meant(name));
    found.map(|(_, button)| button.tap()).is_some()
}

fn rest() {
    std::thread::sleep(Duration::from_millis(700));
}

fn hostile() -> Vec<PathBuf> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("files/hostile");
    let entries = std::fs::read_dir(folder).expect("the hostile set");
    entries.flatten().map(|entry| entry.path()).collect()
}
