//! Answers that are not sent yet, kept on this device so that a phone put away loses none.

use gloo::storage::{LocalStorage, Storage};

/// What was kept for this version of a plan.
pub fn read(version: u32) -> Option<String> {
    LocalStorage::get(key(version)).ok()
}

/// Keeps answers to this version of a plan. Where a device keeps nothing they last as long as the
/// page is open.
pub fn write(version: u32, answers: &str) {
    let _ = LocalStorage::set(key(version), answers);
}

fn key(version: u32) -> String {
    format!("borewright answers {version:08x}")
}
