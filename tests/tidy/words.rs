//! Words that a person may read: those of the trade, never those that smell of a program, and
//! none that promises what only the local code can.

use crate::none;
use crate::source::{literals, paths, rust, text};

/// Never written where a person can read it.
const AVOIDED: [&str; 13] = [
    "passes code",
    "workspace",
    "dashboard",
    "canvas",
    "project hub",
    "assembly",
    "stamp",
    "takeoff engine",
    "smart",
    "AI",
    "heat map",
    "heatmap",
    "oops",
];

/// Never written anywhere in the repository: they point outside it.
const OUTSIDE: [&str; 3] = ["../shared", "seed document", "/work/"];

/// This file, which has to spell them out.
const SELF: &str = "tests/tidy/words.rs";

#[test]
fn avoided_words_stay_out_of_sight() {
    let mut faults = Vec::new();
    for folder in ["core/src", "frontend/src"] {
        for source in rust(folder) {
            let shown = literals(&source.product)
                .into_iter()
                .filter(|text| is_prose(text));
            faults.extend(shown.filter_map(|text| fault(&source.path, &text)));
        }
    }
    let kept = paths(
        "static",
        &["html", "css", "svg", "webmanifest", "json", "md", "txt"],
    );
    let pages = ["frontend/index.html", "README.md"].map(String::from);
    for path in kept.into_iter().chain(pages) {
        let lines = if exists(&path) {
            text(&path)
        } else {
            String::new()
        };
        // A picture spelled in letters holds no words.
        let words = lines.lines().filter(|line| !line.contains("\"base64\":"));
        faults.extend(words.filter_map(|line| fault(&path, line)));
    }
    none(faults);
}

#[test]
fn nobody_is_shouted_at() {
    let shouts = ["core/src", "frontend/src"]
        .into_iter()
        .flat_map(rust)
        .flat_map(|source| {
            let loud = literals(&source.product)
                .into_iter()
                .filter(|text| shouts(text));
            loud.map(|text| format!("{}: `{text}` shouts", source.path))
                .collect::<Vec<_>>()
        });
    none(shouts.collect());
}

#[test]
fn nothing_points_outside_the_repository() {
    let ends = [
        "rs", "md", "toml", "html", "css", "json", "py", "txt", "yml", "js",
    ];
    let faults = paths("", &ends)
        .into_iter()
        .filter(|path| path != SELF)
        .flat_map(|path| {
            let text = text(&path);
            let found = OUTSIDE.iter().filter(|word| text.contains(**word));
            found
                .map(|word| format!("{path}: `{word}` points outside"))
                .collect::<Vec<_>>()
        });
    none(faults.collect());
}

fn exists(path: &str) -> bool {
    crate::source::root().join(path).exists()
}

/// Whether a text in quotes is words for a person rather than a name for the program.
fn is_prose(text: &str) -> bool {
    text.contains(' ') || text.starts_with(char::is_uppercase)
}

/// Whether a word ends in an exclamation mark.
fn shouts(text: &str) -> bool {
    text.as_bytes().windows(2).enumerate().any(|(at, pair)| {
        let ends = text
            .as_bytes()
            .get(at + 2)
            .is_none_or(u8::is_ascii_whitespace);
        pair[0].is_ascii_alphabetic() && pair[1] == b'!' && ends
    })
}

fn fault(path: &str, text: &str) -> Option<String> {
    let word = AVOIDED.iter().find(|word| has_word(text, word))?;
    Some(format!("{path}: `{word}` in `{}`", text.trim()))
}

/// Whether the words stand in the text on their own; capitals count only for "AI".
fn has_word(text: &str, word: &str) -> bool {
    let (text, word) = match word {
        "AI" => (text.to_string(), word.to_string()),
        _ => (text.to_lowercase(), word.to_lowercase()),
    };
    text.match_indices(&word).any(|(at, _)| {
        let before = text[..at].chars().next_back();
        let after = text[at + word.len()..].chars().next();
        ![before, after]
            .into_iter()
            .flatten()
            .any(|c| c.is_alphanumeric() || c == '_' || c == '-')
    })
}

#[test]
fn words_are_seen_whole() {
    assert!(has_word("It Passes Code here", "passes code"));
    assert!(has_word("an AI plan", "AI") && !has_word("plain air", "AI"));
    assert!(!has_word("WebAssembly", "assembly") && !has_word("stamped", "stamp"));
    assert!(shouts("Done!") && shouts("No! Not so") && !shouts("!important") && !shouts("a != b"));
}
