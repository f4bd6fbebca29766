//! The page as a person has it open.

use crate::browser::{Browser, Size};
use serde_json::{Value, json};
use std::cell::{Cell, RefCell};
use std::path::PathBuf;
use std::time::{Duration, Instant};

/// How long anything is waited for before the story stops.
pub const WAIT: Duration = Duration::from_secs(120);

/// Between two looks.
const LOOK_AGAIN: Duration = Duration::from_millis(40);

/// An open page. Closing it (dropping it) fails the story when the console holds an error.
pub struct Page {
    pub(crate) browser: Browser,
    pub(crate) size: Size,
    story: String,
    pictures: Cell<u32>,
    expected: RefCell<Vec<String>>,
}

impl Page {
    /// Opens the served page in a fresh profile. `story` names its pictures.
    pub fn open(story: &str, size: Size) -> Self {
        Self::open_at(story, size, "")
    }

    /// Opens the served page with `more` after its address, for example `#fragment`.
    pub fn open_at(story: &str, size: Size, more: &str) -> Self {
        let page = Self::blank(story, size);
        page.go(more);
        page
    }

    /// A fresh profile with nothing opened yet.
    pub fn blank(story: &str, size: Size) -> Self {
        eprintln!("story `{story}` at {size:?}");
        let page = Self {
            browser: Browser::start(size),
            size,
            story: story.into(),
            pictures: Cell::new(0),
            expected: RefCell::default(),
        };
        page.prepare();
        page
    }

    /// A second person: the served page in another profile, with `more` after its address.
    pub fn visitor(&self, size: Size, more: &str) -> Self {
        Self::open_at(&format!("{}-visitor", self.story), size, more)
    }

    /// The served address, with a slash at the end.
    pub fn site() -> String {
        std::env::var("BOREWRIGHT_SITE")
            .expect("BOREWRIGHT_SITE names the served page; `cargo verify` serves it and sets this")
    }

    /// Goes to the served page with `more` after its address.
    pub fn go(&self, more: &str) {
        self.go_to(&format!("{}{more}", Self::site()));
    }

    /// Goes to a whole address, such as a link that was copied.
    pub fn go_to(&self, address: &str) {
        // An address that differs after `#` alone would not load anything.
        self.visit("about:blank");
        self.visit(address);
    }

    /// Loads the page again, as by the browser's own button.
    pub fn reload(&self) {
        self.browser
            .wait(async |client| client.refresh().await)
            .expect("the page loads again");
    }

    /// Ends the browser and opens the page again with the same profile, as on the next day.
    pub fn reopen(mut self) -> Self {
        self.check_console();
        let size = self.size;
        let fresh = Browser::start(size);
        let used = std::mem::replace(&mut self.browser, fresh);
        self.browser = used.restart(size);
        self.prepare();
        self.go("");
        self
    }

    /// Kills the browser's process, as a dead battery would, and opens the page again with the same
    /// profile. Gives the moment of death.
    pub fn killed(mut self) -> (Self, Instant) {
        let size = self.size;
        let fresh = Browser::start(size);
        let used = std::mem::replace(&mut self.browser, fresh);
        let (browser, at) = used.killed(size);
        self.browser = browser;
        self.prepare();
        self.go("");
        (self, at)
    }

    /// The address in the bar.
    pub fn address(&self) -> String {
        let address = self.browser.wait(async |client| client.current_url().await);
        address.expect("an address").to_string()
    }

    /// The title of the window.
    pub fn title(&self) -> String {
        self.browser
            .wait(async |client| client.title().await)
            .expect("a title")
    }

    /// All text that can be seen.
    pub fn text(&self) -> String {
        let text = self.browser.run("return document.body.innerText", vec![]);
        text.as_str().unwrap_or_default().to_string()
    }

    /// Waits until `words` can be read on the page. Runs of white space count as one space.
    pub fn see(&self, words: &str) {
        let mut last = String::new();
        let seen = self.wait_for(|| {
            last = one_spaced(&self.text());
            last.contains(words)
        });
        assert!(seen, "`{words}` did not appear; the page says: {last}");
    }

    /// Waits until `words` can no longer be read on the page.
    pub fn see_no_more(&self, words: &str) {
        let gone = self.wait_for(|| !one_spaced(&self.text()).contains(words));
        assert!(gone, "`{words}` is still on the page");
    }

    /// Waits for a condition of the story's own; `what` says what was expected.
    pub fn until(&self, what: &str, mut condition: impl FnMut() -> bool) {
        assert!(self.wait_for(&mut condition), "did not happen: {what}");
    }

    /// Waits until there is an answer and returns it; `None` when [`WAIT`] is over.
    pub fn until_some<T>(&self, mut question: impl FnMut() -> Option<T>) -> Option<T> {
        let mut answer = None;
        self.wait_for(|| {
            answer = question();
            answer.is_some()
        });
        answer
    }

    /// Runs JavaScript in the page. For measuring and for what no person does, such as filling
    /// the storage; not a way to find things.
    pub fn run(&self, script: &str) -> Value {
        self.browser.run(script, vec![])
    }

    /// Sends a command of the DevTools protocol, for example to take the network away.
    pub fn devtools(&self, method: &str, parameters: Value) -> Value {
        self.browser.devtools(method, parameters).expect(method)
    }

    /// Takes the network away, or gives it back, for the page and for what works in its service.
    pub fn offline(&self, is_offline: bool) {
        let rates = json!({
            "offline": is_offline, "latency": 0, "downloadThroughput": -1, "uploadThroughput": -1,
        });
        self.devtools("Network.enable", json!({}));
        self.devtools("Network.emulateNetworkConditions", rates.clone());
        for worker in self.service_workers() {
            self.tell_target(&worker, "Network.enable", &json!({}));
            self.tell_target(&worker, "Network.emulateNetworkConditions", &rates);
        }
    }

    /// The browser's own names of the service workers that run.
    fn service_workers(&self) -> Vec<String> {
        let told = self.devtools("Target.getTargets", json!({}));
        let targets = told["targetInfos"].as_array().into_iter().flatten();
        let workers = targets.filter(|target| target["type"] == "service_worker");
        workers
            .filter_map(|target| target["targetId"].as_str().map(String::from))
            .collect()
    }

    /// Sends a command to another target than the page. Its answer does not come back.
    fn tell_target(&self, target: &str, method: &str, parameters: &Value) {
        let told = self.devtools("Target.attachToTarget", json!({ "targetId": target }));
        let message = json!({ "id": 1, "method": method, "params": parameters }).to_string();
        let sent = json!({ "sessionId": told["sessionId"], "message": message });
        self.devtools("Target.sendMessageToTarget", sent);
    }

    /// What keeps the browser from offering to install the page, by the browser's own words.
    pub fn installability_errors(&self) -> Vec<String> {
        let told = self.devtools("Page.getInstallabilityErrors", json!({}));
        let errors = told["installabilityErrors"]
            .as_array()
            .into_iter()
            .flatten();
        errors.map(|error| error["errorId"].to_string()).collect()
    }

    /// Announces a console error that the story brings about; `part` is some of its words.
    pub fn expect_error(&self, part: &str) {
        self.expected.borrow_mut().push(part.into());
    }

    /// Errors on the console since the last look that no story announced.
    pub fn console_errors(&self) -> Vec<String> {
        let log = self
            .browser
            .post("se/log", json!({ "type": "browser" }))
            .expect("the console");
        let expected = self.expected.borrow();
        log.as_array()
            .into_iter()
            .flatten()
            .filter(|entry| entry["level"] == "SEVERE")
            .filter_map(|entry| entry["message"].as_str().map(String::from))
            .filter(|message| !expected.iter().any(|part| message.contains(part.as_str())))
            .collect()
    }

    /// The next file name for this story below `target/screenshots/`.
    pub(crate) fn next_file(&self, end: &str) -> PathBuf {
        let package = std::path::Path::new(env!("CARGO_MANIFEST_DIR"));
        let root = package
            .parent()
            .unwrap_or(package)
            .join("target/screenshots");
        std::fs::create_dir_all(&root).expect("a folder for pictures");
        self.pictures.set(self.pictures.get() + 1);
        root.join(format!("{}-{}.{end}", self.story, self.pictures.get()))
    }

    /// Looks again and again until the condition holds; false when [`WAIT`] is over.
    pub(crate) fn wait_for(&self, mut condition: impl FnMut() -> bool) -> bool {
        let start = Instant::now();
        while !condition() {
            if start.elapsed() > WAIT {
                return false;
            }
            std::thread::sleep(LOOK_AGAIN);
        }
        true
    }

    fn visit(&self, address: &str) {
        self.browser
            .wait(async |client| client.goto(address).await)
            .expect(address);
    }

    /// Has a script run in every page that is opened from now on, before its own.
    pub fn run_first(&self, script: &str) {
        self.devtools(
            "Page.addScriptToEvaluateOnNewDocument",
            json!({ "source": script }),
        );
    }

    /// Lets the page read the clipboard, and notes instead of opening the print window.
    fn prepare(&self) {
        let note_print =
            "window.print = () => { window.printAsked = (window.printAsked ?? 0) + 1 }";
        self.run_first(note_print);
        let rights = json!({ "permissions": ["clipboardReadWrite", "clipboardSanitizedWrite"] });
        self.devtools("Browser.grantPermissions", rights);
    }

    fn check_console(&self) {
        let errors = self.console_errors();
        assert!(
            errors.is_empty(),
            "errors on the console:\n{}",
            errors.join("\n")
        );
    }
}

impl Drop for Page {
    fn drop(&mut self) {
        if !std::thread::panicking() {
            return self.check_console();
        }
        // The story has failed already: leave what helps, and hide nothing by a second failure.
        let story = self.story.clone();
        if let Ok(png) = self.browser.wait(async |client| client.screenshot().await) {
            let file = self.next_file("failed.png");
            let _ = std::fs::write(&file, png);
            eprintln!("story `{story}` failed; picture: {}", file.display());
        }
        if let Ok(log) = self.browser.post("se/log", json!({ "type": "browser" })) {
            eprintln!("console of `{story}`: {log:#}");
        }
    }
}

/// The text with every run of white space as one space.
pub(crate) fn one_spaced(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}
