//! What goes in and comes out: files opened, dropped and saved, the clipboard, pictures, paper.

use crate::hand::Point;
use crate::page::Page;
use base64::Engine;
use base64::engine::general_purpose::STANDARD;
use fantoccini::elements::{Element, ElementRef};
use serde_json::json;
use std::path::{Path, PathBuf};

/// Finds the file input that belongs to a name: its own label, or that of the one it lies in.
const FILE_INPUT: &str = r"
    const words = arguments[0];
    const named = (e) => [e.getAttribute('aria-label'), e.title, ...[...(e.labels ?? [])]
        .map((l) => l.textContent), e.parentElement?.textContent].some((t) => t?.includes(words));
    const inputs = [...document.querySelectorAll('input[type=file]')];
    return inputs.find(named) ?? null;
";

/// Lets a file fall on a place of the window, or pastes it.
const GIVE_FILE: &str = r"
    const [how, name, type, text, x, y] = arguments;
    const bytes = Uint8Array.from(atob(text), (c) => c.charCodeAt(0));
    const held = new DataTransfer();
    held.items.add(new File([bytes], name, { type }));
    if (how === 'paste') {
        const event = new ClipboardEvent('paste',
            { bubbles: true, cancelable: true, clipboardData: held });
        return (document.activeElement ?? document.body).dispatchEvent(event);
    }
    const target = document.elementFromPoint(x, y);
    for (const kind of ['dragenter', 'dragover', 'drop']) {
        target.dispatchEvent(new DragEvent(kind,
            { bubbles: true, cancelable: true, composed: true, clientX: x, clientY: y, dataTransfer: held }));
    }
";

impl Page {
    /// Chooses a file in the file input with this name. The input must be in the page, though it
    /// may be hidden behind a button.
    pub fn upload(&self, name: &str, file: &Path) {
        let file = file.canonicalize().expect("the file to open is there");
        let mut found = serde_json::Value::Null;
        let is_there = self.wait_for(|| {
            found = self.browser.run(FILE_INPUT, vec![json!(name)]);
            !found.is_null()
        });
        assert!(is_there, "no file input belongs to `{name}`");
        let id = found["element-6066-11e4-a52e-4f735466cecf"]
            .as_str()
            .expect("an element");
        let given = self.browser.wait(async |client| {
            let element =
                Element::from_element_id(client.clone(), ElementRef::from(id.to_string()));
            element.send_keys(&file.to_string_lossy()).await
        });
        given.expect("the input takes the file");
    }

    /// Drops a file on a place of the window, as from a folder.
    pub fn drop_file(&self, place: Point, file: &Path, media_type: &str) {
        self.give("drop", place, file, media_type);
    }

    /// Pastes a file, as after copying a picture.
    pub fn paste_file(&self, file: &Path, media_type: &str) {
        self.give("paste", Point { x: 0.0, y: 0.0 }, file, media_type);
    }

    fn give(&self, how: &str, place: Point, file: &Path, media_type: &str) {
        let bytes = std::fs::read(file).expect("the file to give is there");
        let name = file
            .file_name()
            .map(|name| name.to_string_lossy().into_owned());
        let arguments = vec![
            json!(how),
            json!(name),
            json!(media_type),
            json!(STANDARD.encode(bytes)),
            json!(place.x),
            json!(place.y),
        ];
        self.browser.run(GIVE_FILE, arguments);
    }

    /// Does something that saves a file, waits for it, and returns where it lies.
    pub fn download(&self, ask: impl FnOnce(&Self)) -> PathBuf {
        let folder = self.browser.downloads();
        let list = || -> Vec<PathBuf> {
            let inside = std::fs::read_dir(&folder).expect("the folder of downloads");
            inside.flatten().map(|entry| entry.path()).collect()
        };
        let before = list();
        ask(self);
        let mut arrived = None;
        let is_done = self.wait_for(|| {
            let partial = |path: &PathBuf| path.extension().is_some_and(|end| end == "crdownload");
            let now = list();
            arrived = now.iter().find(|path| !before.contains(path)).cloned();
            arrived.is_some() && !now.iter().any(partial) && !hidden(arrived.as_deref())
        });
        assert!(is_done, "no file was saved");
        arrived.expect("a file that arrived")
    }

    /// What the clipboard holds as text.
    pub fn copied(&self) -> String {
        let script = "const done = arguments[0]; navigator.clipboard.readText().then(done, done)";
        let text = self
            .browser
            .wait(async |client| client.execute_async(script, vec![]).await);
        text.expect("the clipboard")
            .as_str()
            .expect("text on the clipboard")
            .to_string()
    }

    /// Takes a picture of the window; returns its file, `target/screenshots/<story>-<n>.png`.
    pub fn picture(&self) -> PathBuf {
        let png = self.browser.wait(async |client| client.screenshot().await);
        let file = self.next_file("png");
        std::fs::write(&file, png.expect("a picture")).expect("the picture is kept");
        eprintln!("picture {}", file.display());
        file
    }

    /// Waits until the page asks to be printed (`window.print`), which then opens no window.
    pub fn until_print_is_asked(&self) {
        let asked = "return (window.printAsked ?? 0) > 0";
        self.until("the page asks to print", || self.run(asked) == true);
        self.run("window.printAsked = 0");
    }

    /// Prints as the page's own style sheet says, paper size included; returns the PDF's file,
    /// `target/screenshots/<story>-<n>.pdf`.
    pub fn print_to_pdf(&self) -> PathBuf {
        let how = json!({ "preferCSSPageSize": true, "printBackground": true });
        let answer = self.devtools("Page.printToPDF", how);
        let bytes = STANDARD
            .decode(answer["data"].as_str().expect("a PDF"))
            .expect("base64");
        let file = self.next_file("pdf");
        std::fs::write(&file, bytes).expect("the PDF is kept");
        eprintln!("paper {}", file.display());
        file
    }
}

/// Chromium gives a download a hidden name before its own.
fn hidden(path: Option<&Path>) -> bool {
    let name = path
        .and_then(Path::file_name)
        .map(|name| name.to_string_lossy().into_owned());
    name.is_some_and(|name| name.starts_with('.'))
}
