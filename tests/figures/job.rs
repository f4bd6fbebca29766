//! How much room a job takes on the device, with a drawing of 12 megapixels.

use crate::figure::{print, print_absent};
use borewright_tests::{Page, Size};

/// Bytes of all that the page's data base holds: texts by their letters, bytes by their length.
const STORED: &str = "
    const opened = await new Promise((done, failed) => {
        const open = indexedDB.open('borewright');
        open.onsuccess = () => done(open.result);
        open.onerror = failed;
    });
    const size = (value) => typeof value === 'string' ? value.length
        : value?.byteLength ?? JSON.stringify(value)?.length ?? 0;
    let all = 0;
    for (const name of opened.objectStoreNames) {
        const values = await new Promise((done) => {
            const asked = opened.transaction(name).objectStore(name).getAll();
            asked.onsuccess = () => done(asked.result);
        });
        all += values.reduce((sum, value) => sum + size(value), 0);
    }
    opened.close();
    return all;";

/// A photograph of 4,000 by 3,000 pixels, as a camera of a phone makes it: noise in every pixel.
const PHOTO: &str = "
    const canvas = new OffscreenCanvas(4000, 3000);
    const context = canvas.getContext('2d');
    const image = context.createImageData(4000, 3000);
    let chance = 1;
    for (let at = 0; at < image.data.length; at += 4) {
        chance = (chance * 1103515245 + 12345) & 0x7fffffff;
        const grey = 200 + (chance >> 16) % 40;
        image.data.set([grey, grey, grey, 255], at);
    }
    context.putImageData(image, 0, 0);
    const blob = await canvas.convertToBlob({ type: 'image/jpeg', quality: 0.85 });
    const files = new DataTransfer();
    files.items.add(new File([blob], 'photo.jpg', { type: 'image/jpeg' }));
    const input = [...document.querySelectorAll('input[type=file]')].at(-1);
    input.files = files.files;
    input.dispatchEvent(new Event('change', { bubbles: true }));
    return blob.size;";

/// Prints the section.
pub fn print_all() {
    let page = Page::open("figures-job", Size::Desk);
    page.button("22 drops");
    page.button("Job: ").tap();
    let photo = page.run(&later(PHOTO)).as_f64().unwrap_or_default();
    page.see("kept on this device");
    page.see_no_more("Unrolling the drawing");
    std::thread::sleep(std::time::Duration::from_secs(3));
    let how = format!(
        "Chromium, the example with a photograph of 4,000 x 3,000 pixels and {:.1} MB in place of its drawing",
        photo / 1e6
    );
    match page.run(&later(STORED)).as_f64() {
        Some(bytes) => print("size of a job on the device", bytes / 1e6, "MB", "-", &how),
        None => print_absent("size of a job on the device", "the data base tells nothing"),
    }
}

/// A script that waits, as one that is waited for.
fn later(script: &str) -> String {
    format!("return (async () => {{ {script} }})()")
}
