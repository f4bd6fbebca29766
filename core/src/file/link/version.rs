//! One number for a whole plan, to tell whether a reply was made for it as it stands.

use super::Privacy;
use super::{privacy, sections};
use crate::plan::Plan;

/// A digest of the plan as a link without names carries it, replies aside: CRC-32 of its contents.
/// The same for the plan itself, for one that came by link, and for one without names.
pub fn version(plan: &Plan) -> u32 {
    let mut plan = privacy::kept(plan, Privacy::WithoutNames);
    plan.replies.clear();
    crc32fast::hash(&sections::write(&plan))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::file::link;
    use crate::plan::edit::{Edit, sample};
    use proptest::prelude::*;

    proptest! {
        #![proptest_config(ProptestConfig::with_cases(100))]

        #[test]
        fn both_ends_of_a_link_have_the_same_version(seed: u64) {
            let plan = sample::plan(seed, 200);
            for privacy in [Privacy::Everything, Privacy::WithoutNames] {
                let bytes = link::write(&plan, privacy).unwrap();
                prop_assert_eq!(version(&link::read(&bytes).unwrap().plan), version(&plan));
            }
            let later = plan.apply(&Edit::NextRevision).unwrap();
            prop_assert_ne!(version(&later), version(&plan));
        }
    }
}
