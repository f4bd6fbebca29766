//! Story: a link carries the plan to somebody else; a link that was harmed on its way says so.

use borewright_core::file::link::encode_text;
use borewright_tests::{Page, Size};

/// Copies the link of the page on the table.
pub fn copied_link(page: &Page) -> String {
    page.button("Sheets").tap();
    page.button("Share").tap();
    page.button("Copy the link").tap();
    page.see("The link is on the clipboard.");
    page.copied()
}

/// Every number of the tally with its words, without the difference that shows for a moment.
pub fn tally(page: &Page) -> Vec<String> {
    page.see("of the best possible");
    let script = "return [...arguments[0].querySelectorAll('button')].map((button) =>
        [...button.querySelectorAll('b, span')].map((part) => part.textContent).join(''))";
    let counts = page.role("group", "Tally").ask(script);
    let counts = counts.as_array().unwrap().iter();
    counts
        .map(|count| count.as_str().unwrap().to_string())
        .collect()
}

#[test]
#[ignore = "needs the served page: cargo verify"]
fn a_visitor_sees_the_same_totals_and_may_take_a_copy() {
    let page = Page::open("visit", Size::Desk);
    page.button("22 drops");
    let counts = tally(&page);
    assert!(counts.len() >= 7, "{counts:?}");
    let link = copied_link(&page);
    let visitor = page.visitor(Size::Desk, "");
    visitor.go_to(&link);
    visitor.see("From a link, to look at.");
    assert_eq!(tally(&visitor), counts);
    // To look at: a tap with an outlet in the hand places nothing.
    visitor.button("Drops").tap();
    visitor.tap_at(visitor.labelled("Sheet").at(0.3155, 0.608));
    visitor.button("22 drops");
    visitor.button("Take over as a copy").tap();
    visitor.press("Escape");
    visitor.button("Show all of it").tap();
    visitor.button("Outlet").tap();
    visitor.tap_at(visitor.labelled("Sheet").at(0.3155, 0.608));
    visitor.button("23 drops");
    // What the sender has stays as it was.
    page.button("22 drops");
    let visitor = visitor.reopen();
    visitor.button("23 drops");
}

#[test]
#[ignore = "needs the served page: cargo verify"]
fn a_harmed_link_is_told_and_loses_nothing() {
    let page = Page::open("harmed", Size::Desk);
    let link = copied_link(&page);
    let (address, fragment) = link.split_once('#').unwrap();
    let mut harmed = fragment.to_string();
    let middle = harmed.len() / 2;
    let other = if harmed.as_bytes()[middle] == b'A' {
        "B"
    } else {
        "A"
    };
    harmed.replace_range(middle..=middle, other);
    let head = |version: u8, contents: &[u8], sum: u32| {
        let length = contents.len() as u32;
        let mut bytes = vec![0xb0 + version];
        bytes.extend(&length.to_le_bytes()[..3]);
        bytes.extend(sum.to_le_bytes());
        bytes.extend(contents);
        encode_text(&bytes)
    };
    let zeros = vec![0; 30 << 20];
    let bomb = miniz_oxide::deflate::compress_to_vec(&zeros, 9);
    let cases = [
        (
            fragment[..fragment.len() - 40].to_string(),
            "This link is cut short.",
        ),
        (harmed, "This link was changed on its way."),
        (
            head(9, b"whatever", 0),
            "This link was made by a newer Borewright.",
        ),
        (
            head(1, &bomb, crc32fast::hash(&zeros)),
            "This is more than a link holds.",
        ),
        (
            "no-plan-at-all".to_string(),
            "This is not a Borewright link.",
        ),
    ];
    for (fragment, sentence) in cases {
        page.go_to(&format!("{address}#{fragment}"));
        page.see(sentence);
        page.see("The address still holds all of it.");
        page.button("0 drops");
    }
}
