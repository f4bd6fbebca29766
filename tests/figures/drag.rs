//! How long each frame of a drag takes: everything follows from where the hand has it.

use crate::crowded::crowded;
use crate::figure::{print, print_absent, print_times};
use borewright_core::file;
use borewright_core::plan::Plan;
use borewright_core::shape::Point;
use borewright_tests::{Page, Size};
use std::time::Duration;

/// The house that is dragged in: with outlets along its walls, up to 60 drops.
const HOUSE: &[u8] = include_bytes!("../plans/house-c.json");
const DROPS: usize = 60;
const HOW: &str = "Chromium, release, house C with outlets up to 60 drops, all of it following";

/// The middle of the drop whose name begins so, on the screen.
const DROP: &str = "
    const drop = document.querySelector('[aria-label^=\"D3 \"]').getBoundingClientRect();
    const from = [drop.x + drop.width / 2, drop.y + drop.height / 2];";

/// A place of the plan on the screen.
const PLACE: &str = "
    const laid = sheet.querySelector(':scope > g').getScreenCTM();
    const corner = new DOMPoint(PLACE_X, PLACE_Y).matrixTransform(laid);
    const from = [corner.x, corner.y];";

/// Drags from there a little farther before each frame, there and back. What a frame takes runs from
/// its beginning, before the page's own work of it, until a message posted in it arrives, which is
/// once the frame has been handed over.
const DRAG: &str = "
    const send = (type, along) => sheet.dispatchEvent(new PointerEvent(type, {
        bubbles: true, cancelable: true, pointerId: 1, pointerType: 'mouse', isPrimary: true,
        clientX: from[0] + along, clientY: from[1],
        button: type === 'pointermove' ? -1 : 0, buttons: type === 'pointerup' ? 0 : 1,
    }));
    const took = [];
    let begun = 0;
    const channel = new MessageChannel();
    channel.port1.onmessage = () => {
        took.push(performance.now() - begun);
        if (took.length < 120) return setTimeout(step, 0);
        send('pointerup', 40);
        window.dragTook = took;
    };
    const step = () => {
        requestAnimationFrame(() => { begun = performance.now(); channel.port2.postMessage(0); });
        send('pointermove', 12 + 40 * Math.abs((took.length % 40) / 20 - 1));
    };
    send('pointerdown', 0);
    step();";

/// Prints the section.
pub fn print_all() {
    let plan = crowded(file::read(HOUSE).expect("a plan").plan, DROPS);
    let page = page_with(&plan);
    page.button("Drops").tap();
    page.button("Choose").tap();
    print_drag(&page, "a drop", DROP, "16.7");
    page.see("Undo: moved D3");
    page.button("Framing").tap();
    page.button("Choose").tap();
    let corner = corner_without_drops(&plan);
    let place = PLACE
        .replace("PLACE_X", &corner.x.to_string())
        .replace("PLACE_Y", &corner.y.to_string());
    print_drag(&page, "a corner of two walls", &place, "33.4");
    page.see("Undo: moved a corner");
}

/// The first corner of walls of the lowest level with nothing near it that a hand would take first.
fn corner_without_drops(plan: &Plan) -> Point {
    let level = &plan.levels[0];
    let drops = plan.drops.iter().filter(|drop| drop.level == level.id);
    let drops: Vec<_> = drops.filter_map(|drop| drop.place.position(plan)).collect();
    let bare = |at: &Point| drops.iter().all(|drop| drop.distance(at.pos()) > 1_200.0);
    let ends = level.walls.iter().flat_map(|wall| [wall.from, wall.to]);
    ends.into_iter().find(bare).expect("a bare corner")
}

fn page_with(plan: &Plan) -> Page {
    let page = Page::open("figures-drag", Size::Desk);
    let house = std::env::temp_dir().join("borewright-60-drops.json");
    std::fs::write(&house, file::write(plan)).expect("room for a file");
    page.button("22 drops");
    page.labelled("Job: Quince House, plot 9").tap();
    page.upload("Open a file", &house);
    page.button("60 drops");
    // The worker is at it for some time in a house of this size; it would slow the drag down.
    let has_ended = "return document.body.innerText.includes('of the best possible')";
    let mut looks = 0..240;
    while page.run(has_ended) != true && looks.next().is_some() {
        std::thread::sleep(Duration::from_millis(500));
    }
    page.see("of the best possible");
    page
}

/// Drags once and prints what its frames took.
fn print_drag(page: &Page, what: &str, from: &str, goal: &str) {
    page.run(&format!(
        "window.dragTook = null;
        const sheet = document.querySelector('[aria-label=\"Sheet\"]');{from}{DRAG}"
    ));
    let took = page.until_some(|| page.run("return window.dragTook").as_array().cloned());
    let took: Vec<f64> = took
        .iter()
        .flatten()
        .filter_map(|took| took.as_f64())
        .collect();
    let name = format!("a frame of dragging {what}");
    print_worst_of_20(&name, took.clone(), goal);
    print_times(page, &name, took, "-", HOW);
}

/// The time that 95 of 100 frames keep.
fn print_worst_of_20(name: &str, mut took: Vec<f64>, goal: &str) {
    let name = format!("{name}, 95th percentile");
    took.sort_by(f64::total_cmp);
    match took.get(took.len() * 95 / 100) {
        Some(&worst) => print(
            &name,
            worst,
            "ms",
            goal,
            &format!("{HOW}; of {}", took.len()),
        ),
        None => print_absent(&name, "the page told no such time"),
    }
}
