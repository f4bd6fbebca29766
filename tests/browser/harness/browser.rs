//! One Chromium with a profile of its own, started through one ChromeDriver.

use fantoccini::wd::WebDriverCompatibleCommand;
use fantoccini::{Client, ClientBuilder};
use serde_json::{Value, json};
use std::io::{BufRead, BufReader};
use std::path::{Path, PathBuf};
use std::process::{Child, ChildStdout, Command, Stdio};
use tempfile::TempDir;
use tokio::runtime::Runtime;

/// A window and the hand that uses it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Size {
    /// 1280 x 800, a mouse.
    Desk,
    /// 1024 x 768, touch.
    Tablet,
    /// 390 x 844, touch.
    Phone,
}

impl Size {
    /// Width and height in CSS pixels.
    pub fn pixels(self) -> (u32, u32) {
        match self {
            Self::Desk => (1280, 800),
            Self::Tablet => (1024, 768),
            Self::Phone => (390, 844),
        }
    }

    /// Whether the hand is a finger.
    pub fn is_touch(self) -> bool {
        self != Self::Desk
    }
}

/// A running browser. Dropping it ends the browser and its driver.
pub struct Browser {
    runtime: Runtime,
    client: Client,
    // Dropped after the session has been closed, in this order.
    _driver: Driver,
    folder: TempDir,
}

impl Browser {
    /// Starts a browser with an empty profile.
    pub fn start(size: Size) -> Self {
        Self::start_in(tempfile::tempdir().expect("a temporary folder"), size)
    }

    /// Starts a browser with the profile that lies in `folder`.
    fn start_in(folder: TempDir, size: Size) -> Self {
        let driver = Driver::start();
        let runtime = tokio::runtime::Builder::new_current_thread()
            .enable_all()
            .build()
            .expect("a runtime for the WebDriver client");
        let capabilities = capabilities(folder.path(), size);
        let client = runtime.block_on(async {
            let connector = hyper_util::client::legacy::connect::HttpConnector::new();
            let mut builder = ClientBuilder::new(connector);
            builder.capabilities(capabilities.as_object().cloned().unwrap_or_default());
            builder.connect(&driver.address).await
        });
        let client =
            client.expect("Chromium starts (CHROME and CHROMEDRIVER may name the programs)");
        std::fs::create_dir_all(folder.path().join("downloads")).expect("a folder for downloads");
        Self {
            runtime,
            client,
            _driver: driver,
            folder,
        }
    }

    /// Ends this browser and starts another with the same profile.
    pub fn restart(mut self, size: Size) -> Self {
        let empty = tempfile::tempdir().expect("a temporary folder");
        let folder = std::mem::replace(&mut self.folder, empty);
        drop(self);
        Self::start_in(folder, size)
    }

    /// Kills the browser's process and starts another with the same profile. Gives the moment of death.
    pub fn killed(mut self, size: Size) -> (Self, std::time::Instant) {
        let empty = tempfile::tempdir().expect("a temporary folder");
        let folder = std::mem::replace(&mut self.folder, empty);
        let process = main_process(folder.path());
        let at = std::time::Instant::now();
        let kill = Command::new("kill").args(["-9", &process]).status();
        assert!(kill.expect("kill runs").success(), "{process} was killed");
        let there = Path::new("/proc").join(&process).join("exe");
        while there.exists() {
            std::thread::sleep(std::time::Duration::from_millis(5));
        }
        drop(self);
        (Self::start_in(folder, size), at)
    }

    /// The number of its main process.
    pub fn process(&self) -> String {
        main_process(self.folder.path())
    }

    /// Where downloads arrive.
    pub fn downloads(&self) -> PathBuf {
        self.folder.path().join("downloads")
    }

    /// Waits for one WebDriver command.
    pub fn wait<T, E: std::fmt::Display>(
        &self,
        command: impl AsyncFnOnce(&Client) -> Result<T, E>,
    ) -> Result<T, String> {
        self.runtime
            .block_on(command(&self.client))
            .map_err(|error| error.to_string())
    }

    /// Runs JavaScript in the page and returns what it returns.
    pub fn run(&self, script: &str, arguments: Vec<Value>) -> Value {
        self.wait(async |client| client.execute(script, arguments).await)
            .expect(script)
    }

    /// Sends a command of the DevTools protocol.
    pub fn devtools(&self, method: &str, parameters: Value) -> Result<Value, String> {
        let body = json!({ "cmd": method, "params": parameters });
        self.post("goog/cdp/execute", body)
    }

    /// Sends a command that the WebDriver client has no name for.
    pub fn post(&self, path: &'static str, body: Value) -> Result<Value, String> {
        self.wait(async |client| client.issue_cmd(Post { path, body }).await)
    }
}

impl Drop for Browser {
    fn drop(&mut self) {
        let _ = self.runtime.block_on(self.client.clone().close());
    }
}

/// A POST below the session.
#[derive(Debug)]
struct Post {
    path: &'static str,
    body: Value,
}

impl WebDriverCompatibleCommand for Post {
    fn endpoint(
        &self,
        base: &url::Url,
        session: Option<&str>,
    ) -> Result<url::Url, url::ParseError> {
        base.join(&format!(
            "session/{}/{}",
            session.unwrap_or_default(),
            self.path
        ))
    }

    fn method_and_body(&self, _: &url::Url) -> (http::Method, Option<String>) {
        (http::Method::POST, Some(self.body.to_string()))
    }
}

/// A running ChromeDriver.
struct Driver {
    process: Child,
    // Held open: the driver may still write to it.
    words: Option<BufReader<ChildStdout>>,
    address: String,
}

impl Driver {
    /// Starts ChromeDriver on a free port. It takes one that is free for one kind of address and may end
    /// because it is not for the other, so it is started again a few times.
    fn start() -> Self {
        let mut tries = (0..STARTS).map(|_| Self::try_start());
        let started = tries.find_map(|driver| driver);
        started.expect("ChromeDriver is ready before it ends")
    }

    fn try_start() -> Option<Self> {
        let program = std::env::var_os("CHROMEDRIVER").unwrap_or_else(|| "chromedriver".into());
        let process = Command::new(&program)
            .arg("--port=0")
            .stdin(Stdio::null())
            .stdout(Stdio::piped())
            .stderr(Stdio::null())
            .spawn()
            .expect("ChromeDriver starts; install it, or name it in CHROMEDRIVER");
        let mut driver = Self {
            process,
            words: None,
            address: String::new(),
        };
        let mut words = BufReader::new(driver.process.stdout.take().expect("its output is piped"));
        driver.address = format!("http://127.0.0.1:{}/", port_told(&mut words)?);
        driver.words = Some(words);
        Some(driver)
    }
}

impl Drop for Driver {
    fn drop(&mut self) {
        let _ = self.process.kill();
        let _ = self.process.wait();
    }
}

/// How often ChromeDriver is started before a story fails for it.
const STARTS: u32 = 5;

/// The port ChromeDriver says it listens on; `None` when it ends before.
fn port_told(words: &mut impl BufRead) -> Option<String> {
    loop {
        let mut line = String::new();
        let length = words
            .read_line(&mut line)
            .expect("ChromeDriver speaks text");
        if length == 0 {
            return None;
        }
        if let Some((_, port)) = line
            .trim()
            .trim_end_matches('.')
            .rsplit_once("successfully on port ")
        {
            return Some(port.to_string());
        }
    }
}

/// The number of the main process of the browser whose profile lies in `folder`: Chromium names it in a
/// link of its own.
fn main_process(folder: &Path) -> String {
    let link = std::fs::read_link(folder.join("profile/SingletonLock"));
    let link = link.expect("a running Chromium names its process");
    let name = link.to_string_lossy().into_owned();
    let (_, process) = name.rsplit_once('-').expect("a host and a number");
    process.to_string()
}

/// What is asked of the browser: no window, own profile, fixed size, and its console kept.
fn capabilities(folder: &Path, size: Size) -> Value {
    let (width, height) = size.pixels();
    let profile = format!("--user-data-dir={}", folder.join("profile").display());
    let mut options = json!({
        "args": [
            "--headless=new", "--no-sandbox", "--disable-dev-shm-usage", "--no-first-run",
            "--disable-background-networking", "--disable-component-update", "--disable-sync",
            "--disable-quic", "--font-render-hinting=none", "--force-color-profile=srgb",
            "--hide-scrollbars", format!("--window-size={width},{height}"), profile,
        ],
        "mobileEmulation": { "deviceMetrics": {
            "width": width, "height": height, "pixelRatio": if size == Size::Phone { 2.0 } else { 1.0 },
            "touch": size.is_touch(), "mobile": size.is_touch(),
        }},
        "prefs": {
            "download.default_directory": folder.join("downloads"),
            "download.prompt_for_download": false,
        },
    });
    if let Some(program) = std::env::var_os("CHROME") {
        options["binary"] = json!(program.to_string_lossy());
    }
    json!({ "goog:chromeOptions": options, "goog:loggingPrefs": { "browser": "ALL" } })
}
