//! Colours are named once, in `static/styles/tokens.css`.

use crate::none;
use crate::source::{literals, paths, rust, text};

const TOKENS: &str = "static/styles/tokens.css";

/// Functions of CSS that make a colour from numbers.
const FUNCTIONS: [&str; 8] = [
    "rgb(", "rgba(", "hsl(", "hsla(", "hwb(", "lab(", "oklch(", "oklab(",
];

#[test]
fn raw_colours_stand_in_the_tokens_alone() {
    let others = paths("static/styles", &["css"])
        .into_iter()
        .filter(|path| path != TOKENS);
    let in_styles = others.flat_map(|path| {
        let text = text(&path);
        let found = text.lines().enumerate().filter_map(|(at, line)| {
            raw_colour(line).map(|raw| format!("{path}:{}: `{raw}`; name it in {TOKENS}", at + 1))
        });
        found.collect::<Vec<_>>()
    });
    let in_page = rust("frontend/src").into_iter().flat_map(|source| {
        let raw = literals(&source.product)
            .into_iter()
            .filter(|text| raw_colour(text).is_some());
        raw.map(|raw| format!("{}: `{raw}`; name it in {TOKENS}", source.path))
            .collect::<Vec<_>>()
    });
    none(in_styles.chain(in_page).collect());
}

/// The first colour given by numbers, if there is one.
fn raw_colour(line: &str) -> Option<String> {
    let function = FUNCTIONS.iter().find(|name| {
        line.match_indices(*name)
            .any(|(at, _)| !line[..at].ends_with(|c: char| c.is_alphanumeric()))
    });
    if let Some(name) = function {
        return Some((*name).to_string());
    }
    line.match_indices('#').find_map(|(at, _)| {
        let digits: String = line[at + 1..]
            .chars()
            .take_while(|c| c.is_ascii_hexdigit())
            .collect();
        let after = line[at + 1 + digits.len()..].chars().next();
        let ends = !after.is_some_and(|c| c.is_alphanumeric() || c == '-' || c == '_');
        (ends && [3, 4, 6, 8].contains(&digits.len())).then(|| format!("#{digits}"))
    })
}

#[test]
fn a_raw_colour_is_seen() {
    assert_eq!(raw_colour("  color: #33312d;").as_deref(), Some("#33312d"));
    assert_eq!(raw_colour("  fill: rgb(0 0 0)").as_deref(), Some("rgb("));
    assert_eq!(raw_colour("  color: var(--ink);"), None);
    assert_eq!(raw_colour("#face-plate { }"), None);
}
