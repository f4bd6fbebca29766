//! Finishes a release: keeps it for use without a network, and forbids what the page never does.
//!
//! It works on a built folder, whoever built it: `site.rs` beside this, or `trunk build`.

use crate::cargo::root;
use crate::licences;
use crate::site::short_hash;
use anyhow::{Context, Result};
use base64::Engine;
use sha2::{Digest, Sha256};
use std::fs;
use std::path::Path;

/// Name of the service worker, which the page registers; it stays from release to release.
const WORKER: &str = "sw.js";

/// Served while developing: takes away a worker that a release left at this address.
const TAKE_AWAY: &str = "\
self.addEventListener('install', () => self.skipWaiting());
self.addEventListener('activate', (event) => event.waitUntil((async () => {
  for (const name of await caches.keys()) {
    if (name.startsWith('borewright ')) await caches.delete(name);
  }
  await self.registration.unregister();
  for (const page of await self.clients.matchAll()) page.navigate(page.url);
})()));
";

/// Adds the licences, the service worker and the content security policy to the release in `folder`.
///
/// # Errors
/// When a file cannot be read or written, or the page has no head.
pub fn finish(folder: &Path) -> Result<()> {
    let page = folder.join("index.html");
    let html = fs::read_to_string(&page).with_context(|| page.display().to_string())?;
    let html = finished(&html)?;
    fs::write(&page, &html)?;
    licences::write(folder)?;
    let mut files = Vec::new();
    list(folder, folder, &mut files)?;
    files.sort();
    let template = fs::read_to_string(root().join("static").join(WORKER))?;
    fs::write(folder.join(WORKER), worker(&template, &files))?;
    Ok(())
}

/// Puts into a folder for development the licences, and a worker that takes an older one away.
///
/// # Errors
/// When one of them cannot be written.
pub fn take_away(folder: &Path) -> Result<()> {
    licences::write(folder)?;
    Ok(fs::write(folder.join(WORKER), TAKE_AWAY)?)
}

/// The page with its policy said first.
fn finished(html: &str) -> Result<String> {
    let (before, after) = html
        .split_once("<head>")
        .context("index.html has no <head>")?;
    let policy = policy(html);
    Ok(format!(
        "{before}<head>\n    <meta http-equiv=\"Content-Security-Policy\" content=\"{policy}\" />{after}"
    ))
}

/// Everything is from the page's own folder; nothing is sent anywhere; only our scripts run
/// (Content Security Policy Level 3).
fn policy(html: &str) -> String {
    let hashes: String = inline_scripts(html)
        .map(|script| base64::engine::general_purpose::STANDARD.encode(Sha256::digest(script)))
        .map(|hash| format!(" 'sha256-{hash}'"))
        .collect();
    format!(
        "default-src 'none'; script-src 'self' 'wasm-unsafe-eval'{hashes}; style-src 'self'; \
         img-src 'self' blob: data:; font-src 'self'; connect-src 'self'; manifest-src 'self'; \
         worker-src 'self'; base-uri 'none'; form-action 'none'"
    )
}

/// The text of every script that stands in the page itself.
fn inline_scripts(html: &str) -> impl Iterator<Item = &str> {
    html.split("<script").skip(1).filter_map(|tag| {
        let (attributes, rest) = tag.split_once('>')?;
        let script = rest.split("</script>").next()?;
        (!attributes.contains("src=")).then_some(script)
    })
}

/// The service worker for these files, each a path from the page and the hash of what is inside.
fn worker(template: &str, files: &[(String, String)]) -> String {
    let together: String = files
        .iter()
        .map(|(name, hash)| format!("{name} {hash}\n"))
        .collect();
    let version = short_hash(format!("{together}{template}").as_bytes());
    let names: Vec<String> = files.iter().map(|(name, _)| address(name)).collect();
    let names = serde_json::Value::from(names).to_string();
    template
        .replace("__VERSION__", &version)
        .replace("__FILES__", &names)
}

/// How the page names one of its files; itself it names as its folder.
fn address(name: &str) -> String {
    if name == "index.html" {
        "./".into()
    } else {
        format!("./{name}")
    }
}

/// Every file but the worker itself.
fn list(top: &Path, at: &Path, files: &mut Vec<(String, String)>) -> Result<()> {
    for entry in fs::read_dir(at)? {
        let path = entry?.path();
        if path.is_dir() {
            list(top, &path, files)?;
            continue;
        }
        let name = path.strip_prefix(top)?.to_string_lossy().replace('\\', "/");
        if name != WORKER {
            files.push((name, short_hash(&fs::read(&path)?)));
        }
    }
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::*;

    const PAGE: &str = "<html><head><script type=\"module\">go()</script>\
        <script src=\"./a.js\"></script></head></html>";

    #[test]
    fn every_script_in_the_page_is_allowed_by_its_hash() {
        let scripts: Vec<&str> = inline_scripts(PAGE).collect();
        assert_eq!(scripts, ["go()"]);
        let html = finished(PAGE).unwrap();
        let allowed = html.matches("'sha256-").count();
        assert_eq!(allowed, inline_scripts(&html).count());
        let policy_at = html.find("Content-Security-Policy").unwrap();
        assert!(
            policy_at < html.find("<script").unwrap(),
            "the policy must come first"
        );
    }

    #[test]
    fn a_changed_file_makes_a_new_version() {
        let files = |hash: &str| {
            [
                ("index.html".into(), "1".into()),
                ("a.js".into(), hash.into()),
            ]
        };
        let template = "const VERSION = \"__VERSION__\"; const FILES = __FILES__;";
        let (first, second) = (worker(template, &files("2")), worker(template, &files("3")));
        assert!(first.contains(r#"["./","./a.js"]"#), "{first}");
        assert_ne!(first, second);
    }

    #[test]
    fn the_worker_does_not_keep_itself() {
        let folder = tempfile::tempdir().unwrap();
        fs::write(folder.path().join("index.html"), PAGE).unwrap();
        fs::create_dir(folder.path().join("fonts")).unwrap();
        fs::write(folder.path().join("fonts/a.ttf"), "font").unwrap();
        finish(folder.path()).unwrap();
        let worker = fs::read_to_string(folder.path().join(WORKER)).unwrap();
        assert!(worker.contains("./fonts/a.ttf") && !worker.contains("./sw.js\""));
    }
}
