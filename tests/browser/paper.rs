//! Story: the sheets in two sizes of paper, and every list, the same as a machine without a browser
//! works them out.

use crate::links::tally;
use crate::sketch::{everything, plans};
use borewright_core::design::Design;
use borewright_core::file;
use borewright_core::report::{csv, report};
use borewright_tests::{Page, Size};
use std::path::{Path, PathBuf};

fn demo() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../static/demo/demo.json")
}

/// The page (WebAssembly) and this test (native) work out the same, to the last figure.
#[test]
#[ignore = "needs the served page: cargo verify"]
fn lists_are_the_same_in_the_page_and_without_it() {
    let page = Page::open("same", Size::Desk);
    let houses = ["house-a.json", "house-b.json", "house-c.json"];
    for file in [demo()].into_iter().chain(houses.map(plans)) {
        let plan = file::read(&std::fs::read(&file).unwrap()).unwrap().plan;
        page.labelled("Job:").tap();
        page.upload("Open a file", &file);
        page.see(&plan.title);
        let native = report(&plan, &Design::long(&plan));
        assert_eq!(everything(&page), native, "{}", plan.title);
    }
}

#[test]
#[ignore = "needs the served page: cargo verify"]
fn lists_are_saved_as_comma_separated_text() {
    let page = Page::open("lists", Size::Desk);
    let plan = file::read(&std::fs::read(demo()).unwrap()).unwrap().plan;
    let design = Design::long(&plan);
    page.button("Sheets").tap();
    page.button("Lists").tap();
    for table in csv::Table::ALL {
        let saved = page.download(|page| page.button(table.name()).tap());
        let text = std::fs::read_to_string(saved).unwrap();
        let native = csv::csv(table, &plan, &design);
        assert_eq!(
            text.trim_start_matches('\u{feff}'),
            native,
            "{}",
            table.name()
        );
    }
}

#[test]
#[ignore = "needs the served page: cargo verify"]
fn sheets_lie_on_letter_and_on_a4() {
    let page = Page::open("paper", Size::Desk);
    page.see("of the best possible");
    page.see_no_more("improving");
    let counts = on_the_cover(&page);
    page.button("Sheets").tap();
    let papers = [
        ("Letter", 792.0, 612.0, "at 1/8 in = 1 ft"),
        ("A4", 841.9, 595.3, "at 1/8 in = 1 ft"),
    ];
    for (size, width, height, scale) in papers {
        page.button(size).tap();
        page.see("Cover");
        page.see_no_more("The sheets are being laid out.");
        for title in [
            "Print Cover",
            "Print Ground · plan",
            "Print Drill list",
            "Print Cut list and pull sheet",
        ] {
            let is_on = || {
                let ticks = page.all("checkbox");
                let mut named = ticks.iter().filter(|(name, _)| name == title);
                named.any(|(_, tick)| tick.is_on())
            };
            page.until(title, is_on);
        }
        page.see(scale);
        for (words, number) in &counts {
            page.see(&format!("{words} {number}"));
        }
        page.see("This plan on your phone: nothing to install.");
        let saved = page.download(|page| page.button("Save as PDF").tap());
        let bytes = String::from_utf8_lossy(&std::fs::read(saved).unwrap()).into_owned();
        let paper = media_boxes(&bytes);
        assert!(paper.len() > 10, "{size}: {} pages", paper.len());
        for (across, down) in paper {
            let (long, short) = (across.max(down), across.min(down));
            assert!(
                (long - width).abs() < 1.0 && (short - height).abs() < 1.0,
                "{size}: {long} by {short}"
            );
        }
        page.print_to_pdf();
    }
    page.button("Print").tap();
    page.until_print_is_asked();
}

/// Each stack begins with the page of whoever it is for; the crew's can be in another tongue.
#[test]
#[ignore = "needs the served page: cargo verify"]
fn a_stack_for_somebody_is_one_press_away() {
    let page = Page::open("stacks", Size::Desk);
    page.see("of the best possible");
    page.see_no_more("improving");
    page.button("Sheets").tap();
    let begins_with = |name: &str| {
        let wanted = format!("Print {name}");
        page.until(&wanted, || {
            let pages = page.all("checkbox");
            pages.first().is_some_and(|(first, _)| *first == wanted)
        });
    };
    for (stack, first) in [
        ("Crew", "The day in order"),
        ("Builder", "For the builder"),
        ("Office", "Cover"),
        ("Owner", "For the owner"),
    ] {
        page.button(stack).tap();
        begins_with(first);
    }
    page.button("Crew").tap();
    page.button("Español").tap();
    begins_with("El día en orden");
    page.button("English").tap();
    begins_with("The day in order");
    page.button("All").tap();
    begins_with("Cover");
}

/// Counts of the tally in the words of the cover: "drops" and "22", "Cat 6" and "1,183 ft".
fn on_the_cover(page: &Page) -> Vec<(String, String)> {
    let counts = tally(page).into_iter().filter_map(|count| {
        let (number, words) = count.split_once(' ')?;
        match words.strip_prefix("ft ") {
            Some(cable) => Some((cable.to_string(), format!("{number} ft"))),
            None => ["drops", "bores", "nail plates", "hours"]
                .contains(&words)
                .then(|| (words.to_string(), number.to_string())),
        }
    });
    let counts: Vec<_> = counts.collect();
    assert!(counts.len() >= 6, "{counts:?}");
    counts
}

/// Width and height of every page of a PDF, points.
fn media_boxes(pdf: &str) -> Vec<(f64, f64)> {
    let boxes = pdf.split("/MediaBox").skip(1);
    let numbers = boxes.filter_map(|rest| {
        let list = rest.split(['[', ']']).nth(1)?;
        let list: Vec<f64> = list
            .split_whitespace()
            .filter_map(|n| n.parse().ok())
            .collect();
        Some((list.get(2)? - list.first()?, list.get(3)? - list.get(1)?))
    });
    numbers.collect()
}
