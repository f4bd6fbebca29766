//! The files of the workspace, read and, where they are Rust, parsed.

use quote::ToTokens;
use std::path::{Path, PathBuf};
use syn::visit::Visit;

/// Folders that hold nothing of ours.
const NOT_OURS: [&str; 5] = ["target", "dist", ".git", ".tools", "node_modules"];

/// A Rust file.
pub struct Source {
    /// From the top of the workspace, with `/`.
    pub path: String,
    /// The whole text.
    pub text: String,
    /// Parsed, with everything under `#[cfg(test)]`.
    pub whole: syn::File,
    /// Parsed, without it.
    pub product: syn::File,
}

/// The top of the workspace.
pub fn root() -> PathBuf {
    let package = Path::new(env!("CARGO_MANIFEST_DIR"));
    package.parent().unwrap_or(package).to_path_buf()
}

/// Every file below `folder` whose name ends with `.` and one of `ends`, from the top, sorted.
pub fn paths(folder: &str, ends: &[&str]) -> Vec<String> {
    let mut found = Vec::new();
    gather(&root().join(folder), ends, &mut found);
    found.sort();
    found
}

/// Every Rust file below `folder`.
pub fn rust(folder: &str) -> Vec<Source> {
    let sources: Vec<Source> = paths(folder, &["rs"]).into_iter().map(read).collect();
    assert!(
        !sources.is_empty(),
        "no Rust below `{folder}`: this check looks in the wrong place"
    );
    sources
}

/// The text of a file named from the top.
pub fn text(path: &str) -> String {
    std::fs::read_to_string(root().join(path)).unwrap_or_else(|error| panic!("{path}: {error}"))
}

/// Parses text as a Rust file called `path`.
pub fn parsed(path: &str, text: String) -> Source {
    let whole = syn::parse_file(&text).unwrap_or_else(|error| panic!("{path}: {error}"));
    let mut product = whole.clone();
    product.items.retain(|item| !is_for_tests(item));
    Source {
        path: path.into(),
        text,
        whole,
        product,
    }
}

/// Every path written in a file, as "a::b::c", and every macro called, as "name!".
pub fn names(file: &syn::File) -> Vec<String> {
    let mut names = Names::default();
    names.visit_file(file);
    names.0
}

/// Every piece of text in quotes, doc comments left out.
pub fn literals(file: &syn::File) -> Vec<String> {
    let mut found = Vec::new();
    gather_literals(file.to_token_stream(), &mut found);
    found
}

fn read(path: String) -> Source {
    let text = text(&path);
    let mut source = parsed(&path, text);
    if is_test_module(&path) {
        source.product.items.clear();
    }
    source
}

/// Whether the file's parent declares it under `#[cfg(test)]`, so that none of it is product.
fn is_test_module(path: &str) -> bool {
    let Some((folder, file)) = path.rsplit_once('/') else {
        return false;
    };
    let parent = std::fs::read_to_string(root().join(folder).join("mod.rs"));
    let name = file.trim_end_matches(".rs");
    let declared = ["mod", "pub(crate) mod"].map(|word| format!("#[cfg(test)]\n{word} {name};"));
    parent.is_ok_and(|parent| declared.iter().any(|text| parent.contains(text)))
}

fn gather(folder: &Path, ends: &[&str], found: &mut Vec<String>) {
    for entry in std::fs::read_dir(folder).into_iter().flatten().flatten() {
        let (path, name) = (
            entry.path(),
            entry.file_name().to_string_lossy().into_owned(),
        );
        if path.is_dir() {
            if !NOT_OURS.contains(&name.as_str()) {
                gather(&path, ends, found);
            }
        } else if ends.iter().any(|end| name.ends_with(&format!(".{end}"))) {
            let from_top = path.strip_prefix(root()).unwrap_or(&path);
            found.push(from_top.to_string_lossy().replace('\\', "/"));
        }
    }
}

fn is_for_tests(item: &syn::Item) -> bool {
    let attributes = match item {
        syn::Item::Mod(item) => &item.attrs,
        syn::Item::Fn(item) => &item.attrs,
        syn::Item::Use(item) => &item.attrs,
        syn::Item::Impl(item) => &item.attrs,
        _ => return false,
    };
    attributes.iter().any(|attribute| {
        attribute
            .to_token_stream()
            .to_string()
            .replace(' ', "")
            .starts_with("#[cfg(test)]")
    })
}

#[derive(Default)]
struct Names(Vec<String>);

impl Names {
    fn add_use(&mut self, before: &str, tree: &syn::UseTree) {
        let join = |name: &dyn std::fmt::Display| match before {
            "" => name.to_string(),
            before => format!("{before}::{name}"),
        };
        match tree {
            syn::UseTree::Path(path) => self.add_use(&join(&path.ident), &path.tree),
            syn::UseTree::Group(group) => {
                group
                    .items
                    .iter()
                    .for_each(|item| self.add_use(before, item));
            }
            syn::UseTree::Name(name) => self.0.push(join(&name.ident)),
            syn::UseTree::Rename(name) => self.0.push(join(&name.ident)),
            syn::UseTree::Glob(_) => self.0.push(join(&"*")),
        }
    }
}

impl<'a> Visit<'a> for Names {
    fn visit_item_use(&mut self, item: &'a syn::ItemUse) {
        self.add_use("", &item.tree);
    }

    fn visit_path(&mut self, path: &'a syn::Path) {
        let parts: Vec<String> = path
            .segments
            .iter()
            .map(|part| part.ident.to_string())
            .collect();
        self.0.push(parts.join("::"));
        syn::visit::visit_path(self, path);
    }

    fn visit_macro(&mut self, call: &'a syn::Macro) {
        let name = call.path.segments.last().map(|part| part.ident.to_string());
        self.0.push(format!("{}!", name.unwrap_or_default()));
        syn::visit::visit_macro(self, call);
    }
}

fn gather_literals(tokens: proc_macro2::TokenStream, found: &mut Vec<String>) {
    let mut after_hash = false;
    for token in tokens {
        match token {
            proc_macro2::TokenTree::Group(group) => {
                let is_attribute =
                    after_hash && group.delimiter() == proc_macro2::Delimiter::Bracket;
                if !is_attribute {
                    gather_literals(group.stream(), found);
                }
                after_hash = false;
            }
            proc_macro2::TokenTree::Punct(mark) => {
                after_hash = mark.as_char() == '#' || (after_hash && mark.as_char() == '!');
            }
            proc_macro2::TokenTree::Literal(literal) => {
                if let syn::Lit::Str(text) = syn::Lit::new(literal) {
                    found.push(text.value());
                }
                after_hash = false;
            }
            proc_macro2::TokenTree::Ident(_) => after_hash = false,
        }
    }
}

#[test]
fn sources_are_taken_apart() {
    let text = r#"//! Room.
use crate::plan::{Wall, edit::Edit as E};
/// Says "nothing".
#[must_use = "why"]
fn shown() -> crate::units::Mm { println!("said {}", 1); html! { <b title="hint">{ "text" }</b> } }
#[cfg(test)]
mod tests { use crate::desk::Hidden; }
"#;
    let source = parsed("room.rs", text.into());
    let names = names(&source.product);
    for name in [
        "crate::plan::Wall",
        "crate::plan::edit::Edit",
        "crate::units::Mm",
        "println!",
    ] {
        assert!(
            names.iter().any(|found| found == name),
            "{name} not among {names:?}"
        );
    }
    assert!(!names.iter().any(|name| name.contains("Hidden")));
    assert_eq!(literals(&source.product), ["said {}", "hint", "text"]);
}
