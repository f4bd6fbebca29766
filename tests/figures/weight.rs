//! How much the page weighs on the way to a person: every file, compressed as hosts do.

use crate::figure::print;
use std::collections::BTreeMap;
use std::path::{Path, PathBuf};

const HOW: &str = "brotli, quality 11, window 22, of the release";

/// Bytes after compression by the path of each file, from the top of the site.
pub type Weights = BTreeMap<String, u64>;

/// Prints every file from 1 kB and the total of all.
pub fn print_weights(weights: &Weights) {
    for (name, bytes) in weights.iter().filter(|(_, bytes)| **bytes >= 1000) {
        print(
            &format!("weight of {}", without_hash(name)),
            kilobytes(*bytes),
            "kB",
            "-",
            HOW,
        );
    }
    let total = kilobytes(weights.values().sum());
    print(
        "weight of every file",
        total,
        "kB",
        "-",
        &format!("{HOW}; {} files", weights.len()),
    );
}

/// Weighs and prints; returns the weights.
pub fn print_all() -> Weights {
    let folder =
        std::env::var("BOREWRIGHT_FOLDER").expect("BOREWRIGHT_FOLDER names the built site");
    let folder = PathBuf::from(folder);
    let mut weights = Weights::new();
    weigh(&folder, &folder, &mut weights);
    print_weights(&weights);
    weights
}

/// Thousands of bytes.
pub fn kilobytes(bytes: u64) -> f64 {
    bytes as f64 / 1000.0
}

fn weigh(top: &Path, at: &Path, weights: &mut Weights) {
    for entry in std::fs::read_dir(at)
        .expect("the folder of the site")
        .flatten()
    {
        let path = entry.path();
        if path.is_dir() {
            weigh(top, &path, weights);
            continue;
        }
        let name = path
            .strip_prefix(top)
            .unwrap_or(&path)
            .to_string_lossy()
            .into_owned();
        weights.insert(
            name,
            compressed(&std::fs::read(&path).expect("a file of the site")),
        );
    }
}

fn compressed(bytes: &[u8]) -> u64 {
    let parameters = brotli::enc::BrotliEncoderParams {
        quality: 11,
        lgwin: 22,
        ..Default::default()
    };
    let mut into = Vec::new();
    brotli::BrotliCompress(&mut &*bytes, &mut into, &parameters).expect("memory takes all bytes");
    into.len() as u64
}

/// The name without the sixteen digits that a release puts into it.
fn without_hash(name: &str) -> String {
    let is_hash = |part: &str| part.len() == 16 && part.bytes().all(|b| b.is_ascii_hexdigit());
    let Some((before, rest)) = name
        .split_once('-')
        .filter(|(_, rest)| rest.get(..16).is_some_and(is_hash))
    else {
        return name.to_string();
    };
    format!("{before}{}", rest.get(16..).unwrap_or_default())
}
