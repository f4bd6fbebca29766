//! The licences of all that is in the program, as one text that ships beside it.
//!
//! What is linked in is asked of cargo, what an expression allows of a library for SPDX. A part
//! whose licence is not one of [`ACCEPTED`] stops the build: nothing ships that may not.

use crate::cargo::{WASM, root};
use anyhow::{Context, Result, bail};
use cargo_metadata::{DependencyKind, Metadata, MetadataCommand, Node, Package, PackageId};
use spdx::{Expression, Licensee};
use std::collections::{BTreeMap, BTreeSet};
use std::fmt::Write;
use std::fs;
use std::path::{Path, PathBuf};

/// Where the text stands, from the page.
pub const FILE: &str = "licences.txt";

/// Licences that let a part be handed on with its text, the shortest first: where a part offers
/// several, the first of these is taken. Names are those of the SPDX licence list.
const ACCEPTED: [&str; 8] = [
    "MIT",
    "Zlib",
    "ISC",
    "BSD-2-Clause",
    "BSD-3-Clause",
    "Unicode-3.0",
    "CC0-1.0",
    "Apache-2.0",
];

/// Text files of a part that hold its licence begin with one of these.
const NAMES: [&str; 5] = ["LICENSE", "LICENCE", "COPYING", "UNLICENSE", "NOTICE"];

/// Writes the text of [`collected`] into a folder of the site.
///
/// # Errors
/// Those of [`collected`], and when the file cannot be written.
pub fn write(folder: &Path) -> Result<()> {
    let file = folder.join(FILE);
    fs::write(&file, collected()?).with_context(|| file.display().to_string())
}

/// Our own licences, that of the typeface, and those of every part linked into the page.
///
/// # Errors
/// When cargo cannot tell the parts, or one is under no licence of [`ACCEPTED`].
pub fn collected() -> Result<String> {
    let parts = parts()?;
    let mut text = String::from("Licences of Borewright and of everything in it\n\n");
    text += "Borewright is under one of the first two, as you prefer. The typeface is under the third.\n";
    for name in ["LICENSE-MIT", "LICENSE-APACHE", "static/fonts/OFL.txt"] {
        let own = fs::read_to_string(root().join(name)).with_context(|| name.to_string())?;
        section(&mut text, name, &own);
    }
    let mut texts: BTreeMap<String, BTreeSet<String>> = BTreeMap::new();
    text += "\nThe program is built of these parts:\n\n";
    for part in &parts {
        let licences = taken(part)?;
        writeln!(text, "{}", line(part, &licences))?;
        for own in texts_of(part, &licences)? {
            let name = format!("{} {}", part.name, part.version);
            texts.entry(own).or_default().insert(name);
        }
    }
    for (own, names) in &texts {
        let names: Vec<&str> = names.iter().map(String::as_str).collect();
        section(&mut text, &names.join(", "), own);
    }
    Ok(text)
}

fn section(text: &mut String, about: &str, own: &str) {
    let rule = "-".repeat(72);
    *text += &format!("\n{rule}\n{about}\n{rule}\n\n{}\n", own.trim());
}

fn line(part: &Package, licences: &[String]) -> String {
    let by = match part.authors.is_empty() {
        true => String::new(),
        false => format!(", by {}", part.authors.join(", ")),
    };
    format!(
        "{} {}{by}: {}",
        part.name,
        part.version,
        licences.join(" and ")
    )
}

/// The packages linked into the page, by name; what only runs while it is built is none of them.
fn parts() -> Result<Vec<Package>> {
    let metadata = MetadataCommand::new()
        .manifest_path(root().join("Cargo.toml"))
        .other_options(["--locked", "--filter-platform", WASM].map(String::from))
        .exec()
        .context("cargo cannot tell what the page is built of")?;
    let page = metadata
        .workspace_packages()
        .into_iter()
        .find(|package| package.name.as_str() == "borewright-frontend")
        .context("the workspace has no page")?
        .id
        .clone();
    let mut linked = BTreeSet::new();
    link(&metadata, &page, &mut linked)?;
    let is_ours = |package: &Package| package.source.is_none();
    let mut parts: Vec<Package> = metadata
        .packages
        .into_iter()
        .filter(|package| linked.contains(&package.id) && !is_ours(package))
        .collect();
    parts.sort_by(|a, b| (&a.name, &a.version).cmp(&(&b.name, &b.version)));
    Ok(parts)
}

/// Adds a package and all it links in.
fn link(metadata: &Metadata, from: &PackageId, linked: &mut BTreeSet<PackageId>) -> Result<()> {
    let is_macro = |package: &Package| package.targets.iter().any(|target| target.is_proc_macro());
    let package = metadata.packages.iter().find(|package| package.id == *from);
    let package = package.context("cargo names a package it does not tell of")?;
    if is_macro(package) || !linked.insert(from.clone()) {
        return Ok(());
    }
    for next in linked_by(node(metadata, from)?) {
        link(metadata, next, linked)?;
    }
    Ok(())
}

fn node<'m>(metadata: &'m Metadata, package: &PackageId) -> Result<&'m Node> {
    let graph = metadata.resolve.as_ref().context("cargo tells no graph")?;
    let mut nodes = graph.nodes.iter();
    nodes
        .find(|node| node.id == *package)
        .context("cargo's graph lacks a package")
}

fn linked_by(node: &Node) -> impl Iterator<Item = &PackageId> {
    let is_linked = |kinds: &[cargo_metadata::DepKindInfo]| {
        kinds.iter().any(|one| one.kind == DependencyKind::Normal)
    };
    let linked = node
        .deps
        .iter()
        .filter(move |dep| is_linked(&dep.dep_kinds));
    linked.map(|dep| &dep.pkg)
}

/// The licences a part is taken under.
fn taken(part: &Package) -> Result<Vec<String>> {
    let Some(expression) = &part.license else {
        bail!("{} names no licence; leave it out", part.name);
    };
    let accepted: Vec<Licensee> = ACCEPTED
        .iter()
        .map(|name| Licensee::parse(name))
        .collect::<Result<_, _>>()?;
    // Some old packages write a stroke for "or".
    let read = Expression::parse_mode(expression, spdx::ParseMode::LAX)
        .with_context(|| format!("{}: {expression}", part.name))?;
    let needed = read.minimized_requirements(accepted.iter());
    let needed = needed.with_context(|| {
        format!(
            "{} is under {expression}, which is not accepted; leave it out",
            part.name
        )
    })?;
    Ok(needed.iter().map(ToString::to_string).collect())
}

/// The licence texts a part brings, or else the usual text of each licence it is taken under.
fn texts_of(part: &Package, licences: &[String]) -> Result<Vec<String>> {
    let files = files_of(part)?;
    let named = |file: &&PathBuf| {
        let name = name_of(file);
        licences.iter().any(|licence| {
            let word = licence.split(['-', ' ']).next().unwrap_or_default();
            name.contains(&word.to_uppercase()) || name.starts_with("NOTICE")
        })
    };
    let chosen: Vec<&PathBuf> = match files.iter().any(|file| named(&file)) {
        true => files.iter().filter(named).collect(),
        false => files.iter().collect(),
    };
    if chosen.is_empty() {
        return licences.iter().map(|name| usual_text(name)).collect();
    }
    let read = |file: &PathBuf| {
        fs::read_to_string(file)
            .map(|text| tidied(&text))
            .with_context(|| file.display().to_string())
    };
    chosen.into_iter().map(read).collect()
}

/// Line ends and trailing spaces differ between copies of one text.
fn tidied(text: &str) -> String {
    let lines: Vec<&str> = text.lines().map(str::trim_end).collect();
    lines.join("\n").trim().to_string()
}

fn usual_text(name: &str) -> Result<String> {
    let known = spdx::license_id(name.split(' ').next().unwrap_or_default());
    let known = known.with_context(|| format!("no text is known of {name}"))?;
    Ok(tidied(known.text()))
}

fn files_of(part: &Package) -> Result<Vec<PathBuf>> {
    let folder = part
        .manifest_path
        .parent()
        .context("a package without a folder")?;
    let mut files = Vec::new();
    for entry in fs::read_dir(folder).with_context(|| folder.to_string())? {
        let path = entry?.path();
        let name = name_of(&path);
        if path.is_file() && NAMES.iter().any(|begin| name.starts_with(begin)) {
            files.push(path);
        }
    }
    files.sort();
    Ok(files)
}

fn name_of(path: &Path) -> String {
    let name = path.file_name().unwrap_or_default().to_string_lossy();
    name.to_uppercase()
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Fails when a part comes in whose licence is not accepted.
    #[test]
    fn every_part_of_the_page_may_be_handed_on_and_is_named() {
        let text = collected().unwrap();
        for name in ["\nyew ", "\ngeo ", "\nserde_json ", "\nwasm-bindgen "] {
            assert!(text.contains(name), "{name}");
        }
        assert!(text.contains("SIL OPEN FONT LICENSE") && text.contains("Apache License"));
        // What only runs while the page is built is not handed on.
        assert!(!text.contains("\nsyn ") && !text.contains("\nfantoccini "));
        let folder = root();
        let machine = folder.parent().unwrap().display().to_string();
        assert!(!text.contains(&machine), "a path of this machine");
    }
}
