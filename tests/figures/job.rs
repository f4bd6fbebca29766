//! How much room a job takes on the device, with a drawing of 12 megapixels.

use crate::figure::{print, print_absent};
use borewright_tests::{Page, Size};

/// Bytes of all that the page's data base holds: texts by their letters, bytes by their length.
const STORED: &str = "
    const all = await indexedDB.databases();
    const { name } = all.find((base) => base.name.startsWith('borewright'));
    const opened = await new Promise((done, failed) => {
        const open = indexedDB.open(name);
        open.onsuccess = () => done(open.result);
        open.onerror = failed;
    });
    const size = (value) => typeof value === 'string' ? value.length
        : value?.byteLength ?? JSON.stringify(value)?.length ?? 0;
    let bytes = 0;
    for (const name of opened.objectStoreNames) {
        const values = await new Promise((done) => {
            const asked = opened.transaction(name).objectStore(name).getAll();
            asked.onsuccess = () => done(asked.result);
        });
        bytes += values.reduce((sum, value) => sum + size(value), 0);
    }
    opened.close();
    return bytes;";

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

/// Counts from now on what is written: texts by their letters, bytes by their length.
const COUNT: &str = "
    window.written = 0;
    const whole = IDBObjectStore.prototype.put;
    IDBObjectStore.prototype.put = function (value, key) {
        window.written += value?.byteLength ?? JSON.stringify(value)?.length ?? 0;
        return whole.call(this, value, key);
    };";

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
    print_tick(&page);
}

/// Prints how much one tick on site writes of that job.
fn print_tick(page: &Page) {
    page.press("Escape");
    page.button("Site").tap();
    page.run(COUNT);
    page.role("checkbox", "D1A pulled").tap();
    page.see("1 in the wall");
    page.until("it is kept", || {
        page.run("return window.written").as_f64() > Some(0.0)
            && page.text().contains("kept on this device")
    });
    let bytes = page.run("return window.written").as_f64();
    let how = "the same job: its line on the list and a record of its journal, all that is put into the data base";
    print(
        "written by a tick",
        bytes.unwrap_or_default(),
        "bytes",
        "-",
        how,
    );
}

/// A script that waits, as one that is waited for.
fn later(script: &str) -> String {
    format!("return (async () => {{ {script} }})()")
}
