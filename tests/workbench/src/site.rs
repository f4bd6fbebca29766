//! Puts the site together: a folder of static files that runs from any path of any static host.
//!
//! It follows the same `frontend/index.html` as `trunk build`, so the two give the same page. In a
//! release, names carry a hash of what is inside, so a host may keep them for ever.

use crate::cargo;
use crate::markup::{self, Directive};
use crate::offline;
use crate::steps::Steps;
use anyhow::{Context, Result, bail};
use sha2::{Digest, Sha256};
use std::fs;
use std::path::{Path, PathBuf};

/// How a site is to be built.
#[derive(Clone, Copy)]
pub struct Recipe<'a> {
    /// Small, slow to build, with hashed names.
    pub release: bool,
    /// More for the head of the page, for `cargo serve` only.
    pub head: &'a str,
}

/// Builds the site and returns its folder: `dist/` for a release, else one below `target/`.
///
/// # Errors
/// When something does not compile, or a directive or file is wrong. The old folder then stays.
pub fn build(steps: &Steps, recipe: Recipe) -> Result<PathBuf> {
    let folder = folder(recipe.release);
    let staging = folder.with_extension("new");
    remove(&staging)?;
    fs::create_dir_all(&staging).with_context(|| format!("no folder {}", staging.display()))?;
    let bench = Bench {
        steps,
        recipe,
        staging: &staging,
    };
    fs::write(staging.join("index.html"), bench.page()?)?;
    match recipe.release {
        true => offline::finish(&staging)?,
        false => offline::take_away(&staging)?,
    }
    remove(&folder)?;
    fs::rename(&staging, &folder)?;
    Ok(folder)
}

/// Where [`build`] puts the site.
pub fn folder(release: bool) -> PathBuf {
    if release {
        cargo::root().join("dist")
    } else {
        cargo::target_folder().join("page")
    }
}

fn remove(folder: &Path) -> Result<()> {
    match fs::remove_dir_all(folder) {
        Err(error) if error.kind() != std::io::ErrorKind::NotFound => {
            Err(error).with_context(|| format!("{} cannot be replaced", folder.display()))
        }
        _ => Ok(()),
    }
}

/// One build under way.
struct Bench<'a> {
    steps: &'a Steps,
    recipe: Recipe<'a>,
    staging: &'a Path,
}

impl Bench<'_> {
    /// Carries out every directive and returns the finished page.
    fn page(&self) -> Result<String> {
        let source = source_folder().join("index.html");
        let html = fs::read_to_string(&source)
            .with_context(|| format!("{} cannot be read", source.display()))?;
        let directives = markup::directives(&html)?;
        let texts: Vec<String> = directives
            .iter()
            .map(|directive| self.carry_out(directive))
            .collect::<Result<_>>()?;
        markup::with_head(
            &markup::rewritten(&html, &directives, &texts),
            self.recipe.head,
        )
    }

    /// Does what one directive says and returns the tags to stand in its place.
    fn carry_out(&self, directive: &Directive) -> Result<String> {
        match directive.need("rel")? {
            "rust" => self.program(directive),
            "css" => {
                let name = self.copied_hashed(directive.need("href")?)?;
                Ok(format!(r#"<link rel="stylesheet" href="./{name}" />"#))
            }
            "icon" => {
                let name = self.copied_hashed(directive.need("href")?)?;
                Ok(format!(r#"<link rel="icon" href="./{name}" />"#))
            }
            "copy-file" => self.copied(directive, false),
            "copy-dir" => self.copied(directive, true),
            other => bail!(
                "index.html: rel=\"{other}\" is not one of rust, css, icon, copy-file, copy-dir"
            ),
        }
    }

    /// Copies a file or folder under its own name, or below `data-target-path`.
    fn copied(&self, directive: &Directive, is_folder: bool) -> Result<String> {
        let from = source_folder().join(directive.need("href")?);
        let name = from
            .file_name()
            .with_context(|| format!("{} has no name", from.display()))?;
        let to = match (directive.get("data-target-path"), is_folder) {
            (Some(path), true) => self.staging.join(path),
            (Some(path), false) => self.staging.join(path).join(name),
            (None, _) => self.staging.join(name),
        };
        copy(&from, &to)?;
        Ok(String::new())
    }

    /// Copies a file, with a hash in its name for a release; returns the name.
    fn copied_hashed(&self, href: &str) -> Result<String> {
        let from = source_folder().join(href);
        let bytes = fs::read(&from).with_context(|| format!("index.html names {href}"))?;
        let part = |part: Option<&std::ffi::OsStr>| part.unwrap_or_default().display().to_string();
        let (stem, end) = (part(from.file_stem()), part(from.extension()));
        let name = match self.recipe.release {
            true => format!("{stem}-{}.{end}", short_hash(&bytes)),
            false => format!("{stem}.{end}"),
        };
        fs::write(self.staging.join(&name), bytes)?;
        Ok(name)
    }

    /// Compiles one binary of the frontend and makes its JavaScript; returns the tags that start it.
    fn program(&self, directive: &Directive) -> Result<String> {
        let bin = directive.need("data-bin")?;
        let release = self.recipe.release;
        let kind = if release {
            "small, for release"
        } else {
            "quick, for development"
        };
        self.steps
            .say(&format!("Compiling `{bin}` to WebAssembly ({kind})"));
        let wasm = cargo::build_page(bin, release)?;
        self.steps.say(&format!("Joining `{bin}` to JavaScript"));
        let is_worker = directive.get("data-type") == Some("worker");
        let name = match release && !is_worker {
            true => format!("{bin}-{}", short_hash(&fs::read(&wasm)?)),
            false => bin.to_string(),
        };
        bind(&wasm, &name, self.staging, release)?;
        if is_worker {
            let loader = format!("import init from './{name}.js';\nawait init();\n");
            fs::write(self.staging.join(format!("{name}_loader.js")), loader)?;
            return Ok(String::new());
        }
        Ok(start_tags(&name))
    }
}

/// Runs wasm-bindgen, as a library, over a compiled file.
fn bind(wasm: &Path, name: &str, into: &Path, release: bool) -> Result<()> {
    wasm_bindgen_cli_support::Bindgen::new()
        .input_path(wasm)
        .out_name(name)
        .web(true)?
        .typescript(false)
        .remove_name_section(release)
        .remove_producers_section(release)
        .generate(into)
        .with_context(|| format!("wasm-bindgen refused {}", wasm.display()))
}

/// The tags that fetch both files at once and start the program.
fn start_tags(name: &str) -> String {
    format!(
        r#"<link rel="modulepreload" href="./{name}.js" />
    <link rel="preload" href="./{name}_bg.wasm" as="fetch" type="application/wasm" crossorigin />
    <script type="module">
      import init from './{name}.js';
      await init({{ module_or_path: './{name}_bg.wasm' }});
    </script>"#
    )
}

fn source_folder() -> PathBuf {
    cargo::root().join("frontend")
}

/// Copies a file, or a folder with all that is in it.
fn copy(from: &Path, to: &Path) -> Result<()> {
    let about = || {
        format!(
            "index.html names {}, which cannot be copied",
            from.display()
        )
    };
    if from.is_dir() {
        fs::create_dir_all(to).with_context(about)?;
        for entry in fs::read_dir(from).with_context(about)? {
            let entry = entry?;
            copy(&entry.path(), &to.join(entry.file_name()))?;
        }
        return Ok(());
    }
    to.parent()
        .map(fs::create_dir_all)
        .transpose()
        .with_context(about)?;
    fs::copy(from, to).map(drop).with_context(about)
}

/// Sixteen hexadecimal digits that change with the bytes.
pub fn short_hash(bytes: &[u8]) -> String {
    Sha256::digest(bytes)
        .iter()
        .take(8)
        .map(|byte| format!("{byte:02x}"))
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_hash_is_short_and_follows_the_bytes() {
        // The first eight bytes of SHA-256 of "abc": FIPS 180-2, appendix B.1 (from memory).
        assert_eq!(short_hash(b"abc"), "ba7816bf8f01cfea");
        assert_ne!(short_hash(b"a"), short_hash(b"b"));
    }

    #[test]
    fn folders_are_copied_whole() {
        let folder = tempfile::tempdir().unwrap();
        let (from, to) = (folder.path().join("from"), folder.path().join("x/to"));
        fs::create_dir_all(from.join("deep")).unwrap();
        fs::write(from.join("deep/file"), "kept").unwrap();
        copy(&from, &to).unwrap();
        assert_eq!(fs::read_to_string(to.join("deep/file")).unwrap(), "kept");
        assert!(
            copy(&from.join("absent"), &to)
                .unwrap_err()
                .to_string()
                .contains("absent")
        );
    }

    #[test]
    fn the_page_is_started_by_relative_names() {
        let tags = start_tags("page-1");
        assert!(!tags.contains("=\"/") && !tags.contains("'/"), "{tags}");
    }
}
