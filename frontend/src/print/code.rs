//! The address that the printed code on the cover holds: this page, with the whole plan behind `#`.

use borewright_core::file::link::{self, Privacy};
use borewright_core::plan::Plan;

use crate::browser::address;

/// The address with the plan in the letters a printed code holds best; `None` for a plan with more
/// to say than a link holds.
pub fn address_of(plan: &Plan, privacy: Privacy) -> Option<String> {
    Some(spelled(&link::write(plan, privacy).ok()?))
}

/// The address with a link that is written already, in the same letters.
pub fn spelled(link: &[u8]) -> String {
    address::with_fragment(&link::encode_qr_text(link))
}
