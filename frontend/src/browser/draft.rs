//! Answers that are not sent yet, and receipts of those that were signed, kept on this device so that a
//! phone put away loses none.

use super::notes::Notes;
use super::scope;

/// What is kept of a version of a plan.
#[derive(Clone, Copy)]
pub enum Draft {
    /// Answers.
    Answers,
    /// The receipt of the last reply that was signed.
    Receipt,
}

/// What was kept for this version of a plan.
pub fn read(draft: Draft, version: &str) -> Option<String> {
    let (own, before) = (scope::own(&key(draft, version)), key(draft, version));
    // Before paths had names of their own.
    let notes = Notes::Device;
    notes.read(&own).or_else(|| notes.read(&before))
}

/// Keeps it. Where a device keeps nothing it lasts as long as the page is open.
pub fn write(draft: Draft, version: &str, text: &str) {
    Notes::Device.write(&scope::own(&key(draft, version)), text);
}

fn key(draft: Draft, version: &str) -> String {
    match draft {
        Draft::Answers => format!("borewright answers {version}"),
        Draft::Receipt => format!("borewright receipt {version}"),
    }
}
