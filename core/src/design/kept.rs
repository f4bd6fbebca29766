//! The long answer of a plan in bytes that a device keeps, so that what was settled is shown at once
//! the next time.
//!
//! Bytes are found again by a name that stands for the routing problem and for the program that
//! solved it: the answer of another problem, or of another program, is not the one that paper shows.
//! What is read is checked as if a stranger had written it.

use miniz_oxide::deflate::compress_to_vec;
use miniz_oxide::inflate::decompress_to_vec_with_limit;

use super::Design;
use crate::framing::Framing;
use crate::plan::Plan;
use crate::route::Routing;
use crate::route::network::{Answer, Problem};

/// How hard it is packed; more gains little.
const LEVEL: u8 = 6;

/// The most that is unpacked, bytes: some hundred times what a house of 100 cables takes.
const LARGEST: usize = 16 << 20;

/// The name that the long answer of a plan is kept under, for a program that goes by this name;
/// `None` for a plan that has no way to seek.
pub fn name(plan: &Plan, program: &str) -> Option<String> {
    let framing = Framing::of(plan);
    let routing = Routing::of(plan, &framing);
    let digest = digest(routing.problem()?);
    let length = plan.cables().count();
    Some(format!("{program} {digest:08x} {length}"))
}

/// An answer in bytes: a checksum, and the packed text.
pub fn write(answer: &Answer) -> Vec<u8> {
    // Numbers and lists of numbers; nothing of it can be refused.
    let text = serde_json::to_vec(answer).unwrap_or_default();
    let mut bytes = crc32fast::hash(&text).to_le_bytes().to_vec();
    bytes.extend(compress_to_vec(&text, LEVEL));
    bytes
}

/// The settled design of a plan, from bytes that were kept for it; `None` if they cannot be read or
/// do not hold for this plan.
///
/// ```
/// use borewright_core::design::{Design, kept};
/// use borewright_core::plan::Plan;
/// assert_eq!(kept::name(&Plan::new(), "this program"), None);
/// assert_eq!(kept::read(&Plan::new(), b"not an answer"), None);
/// ```
pub fn read(plan: &Plan, bytes: &[u8]) -> Option<Design> {
    let (checksum, packed) = bytes.split_first_chunk()?;
    let text = decompress_to_vec_with_limit(packed, LARGEST).ok()?;
    if crc32fast::hash(&text) != u32::from_le_bytes(*checksum) {
        return None;
    }
    let answer: Answer = serde_json::from_slice(&text).ok()?;
    Design::taking(plan, Some(&answer))
}

/// All that the ways follow from, run together into one number.
fn digest(problem: &Problem) -> u32 {
    let mut hasher = crc32fast::Hasher::new();
    let mut add = |figures: &[u64]| {
        figures
            .iter()
            .for_each(|figure| hasher.update(&figure.to_le_bytes()));
    };
    add(&[problem.nodes.into(), problem.sink.into()]);
    add(&[problem.edges.len() as u64, problem.crossings.len() as u64]);
    for edge in &problem.edges {
        let crossing = edge.crossing.map_or(u64::MAX, u64::from);
        add(&[edge.u.into(), edge.v.into(), crossing]);
        add(&[edge.cost.into(), edge.length_mm.into()]);
    }
    for crossing in &problem.crossings {
        add(&[crossing.price.into(), crossing.capacity.into()]);
        let wider = crossing
            .wider
            .map_or(u64::MAX, |_| crossing.kinds().count() as u64);
        add(&[wider]);
        for kind in crossing.kinds().skip(1) {
            add(&[kind.price.into(), kind.capacity.into()]);
        }
    }
    for cable in &problem.cables {
        add(&[cable.id, cable.source.into(), cable.area.into()]);
        add(&[cable.max_length_mm.into()]);
    }
    for pin in &problem.pins {
        add(&[pin.cable, pin.node.into()]);
    }
    hasher.finalize()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::picture::sample;
    use crate::plan::edit::Edit;
    use crate::route::network::Effort;
    use crate::rules::RuleId;

    fn answer(plan: &Plan) -> Answer {
        let framing = Framing::of(plan);
        Routing::of(plan, &framing).answer(Effort::LIVE).unwrap()
    }

    #[test]
    fn what_was_settled_comes_back_whole() {
        let plan = sample::house();
        let answer = answer(&plan);
        let design = read(&plan, &write(&answer));
        assert_eq!(design, Design::taking(&plan, Some(&answer)));
        assert!(design.is_some());
    }

    #[test]
    fn bytes_of_another_plan_or_of_nobody_are_nothing() {
        let plan = sample::house();
        let bytes = write(&answer(&plan));
        let whole = read(&plan, &bytes);
        assert_eq!(read(&Plan::new(), &bytes), None);
        for end in 0..bytes.len() {
            assert_eq!(read(&plan, &bytes[..end]), None);
        }
        for place in 0..bytes.len() {
            let mut spoilt = bytes.clone();
            spoilt[place] ^= 64;
            // The last bits fill up a byte and say nothing.
            let found = read(&plan, &spoilt);
            assert!(found.is_none() || found == whole, "{place}");
        }
    }

    #[test]
    fn what_changes_the_ways_changes_the_name() {
        let plan = sample::house();
        let name = |plan: &Plan| name(plan, "one").unwrap();
        let edited = |edit| name(&plan.apply(&edit).unwrap());
        assert_eq!(name(&plan), edited(Edit::SetTitle("Lot 9".into())));
        let drop = plan.drops[0].id;
        assert_ne!(name(&plan), edited(Edit::RemoveDrop(drop)));
        let minutes = Edit::SetRule(RuleId::BoreMinutes, 9.0);
        assert_ne!(name(&plan), edited(minutes));
        assert_ne!(Some(name(&plan)), super::name(&plan, "two"));
    }
}
