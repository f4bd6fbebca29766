//! The harness tried on a small page of its own: what it does arrives as it would from a person,
//! and what it is to notice it notices.

use borewright_tests::{Page, Size};
use std::panic::{AssertUnwindSafe, catch_unwind};

/// Things to use. No script stands in it: the policy of a release would not run it.
const BENCH: &str = r#"
<button id="press">Press  me</button><button>Press me too</button>
<label>Height <input id="height"></label>
<label>Kind <select><option>One</option><option>Two</option></select></label>
<label>Open a drawing <input type="file" id="file"></label>
<a id="list" download="list.txt">Save the list</a>
<button id="copy">Copy</button><button id="paper">Print</button>
<svg id="sheet" role="img" aria-label="Sheet" width="200" height="100" viewBox="0 0 20 10">
<g transform="rotate(90)"><image role="img" aria-label="Scan" width="4" height="2"/></g></svg>
<output id="notes"></output>"#;

/// Notes every event, so that a test can compare.
const NOTING: &str = r"
document.head.innerHTML = '<meta name=viewport content=width=device-width>';
document.body.innerHTML = arguments[0];
const at = (id) => document.getElementById(id);
const note = (text) => { at('notes').value += text + '; ' };
at('press').onclick = () => note('pressed');
at('height').onchange = (e) => note(e.target.value);
at('file').onchange = (e) => note(e.target.files[0].name);
at('list').href = URL.createObjectURL(new Blob(['ten holes']));
at('copy').onclick = () => navigator.clipboard.writeText('a link');
at('paper').onclick = () => print();
let moves = 0;
const sheet = at('sheet');
sheet.style.touchAction = 'none';
sheet.onpointerdown = (e) => { moves = 0; note('down ' + e.pointerType) };
sheet.onpointermove = () => moves++;
sheet.onpointerup = () => note('up after ' + (moves > 5 ? 'many moves' : 'few moves'));
sheet.oncontextmenu = (e) => { e.preventDefault(); note('menu') };
document.onkeydown = (e) => { if (e.ctrlKey && e.key === 'z') note('undo') };
document.ondrop = (e) => note('dropped ' + e.dataTransfer.files[0].name);
document.onpaste = (e) => note('pasted ' + e.clipboardData.files[0].name);";

/// Lays the bench over a page that listens to nothing itself, at the site's address so that the
/// clipboard may be used.
fn bench(size: Size) -> Page {
    let page = Page::blank("hands", size);
    page.go("nothing-here.txt");
    page.expect_error("404 (Not Found)");
    let written = serde_json::json!(BENCH).to_string();
    page.run(&NOTING.replace("arguments[0]", &written));
    page
}

#[test]
#[ignore = "needs the served page: cargo verify"]
fn mouse_and_keys_arrive() {
    let page = bench(Size::Desk);
    page.button("Press me").tap();
    page.field("Height").fill("12'6\n");
    page.see("pressed; 12'6;");
    page.role("combobox", "Kind").choose("Two");
    assert_eq!(page.role("combobox", "Kind").value(), "Two");
    let sheet = page.labelled("Sheet");
    page.drag(sheet.at(0.1, 0.5), sheet.at(0.9, 0.5));
    page.see("down mouse; up after many moves;");
    page.long_press_at(sheet.at(0.5, 0.5));
    page.see("menu;");
    page.press("Control+z");
    page.see("undo;");
}

#[test]
#[ignore = "needs the served page: cargo verify"]
fn fingers_arrive() {
    let page = bench(Size::Phone);
    page.button("Press me").tap();
    let sheet = page.labelled("Sheet");
    page.drag(sheet.at(0.1, 0.5), sheet.at(0.9, 0.5));
    page.see("pressed; down touch; up after many moves;");
    assert_eq!(
        page.run("return matchMedia('(pointer: coarse)').matches"),
        true
    );
    assert_eq!(
        page.run("return [innerWidth, innerHeight]"),
        serde_json::json!([390, 844])
    );
}

#[test]
#[ignore = "needs the served page: cargo verify"]
fn files_and_paper_go_in_and_out() {
    let page = bench(Size::Desk);
    let file = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("Cargo.toml");
    page.upload("Open a drawing", &file);
    page.see("Cargo.toml;");
    page.drop_file(page.labelled("Sheet").at(0.5, 0.5), &file, "text/plain");
    page.see("dropped Cargo.toml;");
    page.paste_file(&file, "text/plain");
    page.see("pasted Cargo.toml;");
    let saved = page.download(|page| page.role("link", "Save the list").tap());
    assert_eq!(std::fs::read_to_string(saved).unwrap(), "ten holes");
    page.button("Copy").tap();
    page.until("the link is copied", || page.copied() == "a link");
    page.button("Print").tap();
    page.until_print_is_asked();
    assert!(
        std::fs::read(page.print_to_pdf())
            .unwrap()
            .starts_with(b"%PDF-")
    );
}

#[test]
#[ignore = "needs the served page: cargo verify"]
fn a_point_in_turned_coordinates_is_found() {
    let page = bench(Size::Desk);
    let sheet = page.labelled("Sheet");
    // Turned by a right angle, (1, -2) in the picture is (2, 1) on the sheet, a tenth of each way.
    let found = page.labelled("Scan").svg_at(1.0, -2.0);
    let expected = sheet.at(0.1, 0.1);
    assert!((found.x - expected.x).abs() < 0.01 && (found.y - expected.y).abs() < 0.01);
}

#[test]
#[ignore = "needs the served page: cargo verify"]
fn an_error_on_the_console_fails_the_story() {
    let page = bench(Size::Desk);
    page.run("console.error('a fault nobody announced')");
    let closed = catch_unwind(AssertUnwindSafe(|| drop(page)));
    assert!(closed.is_err(), "the fault went unnoticed");
    let page = bench(Size::Desk);
    page.expect_error("announced");
    page.run("console.error('a fault that was announced')");
}

#[test]
#[ignore = "needs the served page: cargo verify"]
fn the_profile_outlives_the_browser() {
    let page = Page::open("profile", Size::Desk);
    page.run("localStorage.setItem('hands', 'kept')");
    let visitor = page.visitor(Size::Desk, "");
    assert!(
        visitor
            .run("return localStorage.getItem('hands')")
            .is_null()
    );
    let page = page.reopen();
    assert_eq!(page.run("return localStorage.getItem('hands')"), "kept");
}
