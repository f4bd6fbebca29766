//! Whether a part of the program is known to be unsafe or is kept by nobody any more. That is told by a data
//! base on the net, so it is asked only where that can be reached.

use std::process::{Command, Stdio};

/// The data base of advisories on Rust's packages.
const DATA: &str = "https://github.com/rustsec/advisory-db";

/// What is asked, of cargo.
pub const WORDS: &str = "deny --workspace check advisories";

/// Why it is not asked here; `None` where it can be.
pub fn reason_not_to() -> Option<String> {
    if !succeeds(Command::new("cargo").args(["deny", "--version"])) {
        let how = "cargo install --locked cargo-deny";
        return Some(format!("cargo-deny is not installed; run: {how}"));
    }
    let ask = ["ls-remote", DATA, "HEAD"];
    let mut git = Command::new("git");
    let reached = succeeds(git.args(ask).env("GIT_TERMINAL_PROMPT", "0"));
    (!reached).then(|| format!("{DATA} cannot be reached from here; run it where it can"))
}

fn succeeds(command: &mut Command) -> bool {
    let quiet = command
        .stdin(Stdio::null())
        .stdout(Stdio::null())
        .stderr(Stdio::null());
    quiet.status().is_ok_and(|status| status.success())
}
