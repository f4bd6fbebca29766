//! How long each frame of a drag takes: everything follows from the drop where the hand has it.

use std::path::Path;

use crate::figure::{print, print_absent, print_times};
use borewright_tests::{Page, Size};

/// Drags the drop whose name begins with `arguments[0]` a little farther before each frame, there and
/// back. What a frame takes runs from its beginning, before the page's own work of it, until a message
/// posted in it arrives, which is once the frame has been handed over.
const DRAG: &str = "
    window.dragTook = null;
    const sheet = document.querySelector('[aria-label=\"Sheet\"]');
    const drop = document.querySelector(`[aria-label^=\"${arguments[0]}\"]`).getBoundingClientRect();
    const from = [drop.x + drop.width / 2, drop.y + drop.height / 2];
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
    let page = Page::open("figures-drag", Size::Desk);
    let house = Path::new(env!("CARGO_MANIFEST_DIR")).join("plans/house-c.json");
    page.button("22 drops");
    page.labelled("Job: Quince House, plot 9").tap();
    page.upload("Open a file", &house);
    page.button("46 drops");
    page.see("of the best possible");
    page.button("Drops").tap();
    page.button("Choose").tap();
    page.run(&DRAG.replace("${arguments[0]}", "D3 "));
    let took = page.until_some(|| page.run("return window.dragTook").as_array().cloned());
    page.see("Undo: moved D3");
    let took: Vec<f64> = took
        .iter()
        .flatten()
        .filter_map(|took| took.as_f64())
        .collect();
    let how = "Chromium, release, house C (46 drops): a drop dragged, all of the house following";
    print_worst_of_20(took.clone(), how);
    print_times(&page, "a frame of a drag", took, "-", how);
}

/// The time that 95 of 100 frames keep.
fn print_worst_of_20(mut took: Vec<f64>, how: &str) {
    let name = "a frame of a drag, 95th percentile";
    took.sort_by(f64::total_cmp);
    match took.get(took.len() * 95 / 100) {
        Some(&worst) => print(
            name,
            worst,
            "ms",
            "16.7",
            &format!("{how}; of {}", took.len()),
        ),
        None => print_absent(name, "the page told no such time"),
    }
}
