//! One digest for a whole plan, to tell whether paper, page and reply are of the same.

use super::{Privacy, privacy, sections};
use crate::plan::{Digest, Plan};

/// A digest of the plan as a link carries it, replies aside. The same for the plan itself and for one
/// that came by link; a link without names shows another plan, that of [`without_names`].
pub fn version(plan: &Plan) -> Digest {
    let mut plan = privacy::kept(plan, Privacy::Everything);
    plan.replies.clear();
    Digest::of(&sections::write(&plan))
}

/// The plan as whoever has a link without names sees it.
pub fn without_names(plan: &Plan) -> Plan {
    privacy::kept(plan, Privacy::WithoutNames)
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
            let ends = [
                (Privacy::Everything, plan.clone()),
                (Privacy::WithoutNames, without_names(&plan)),
            ];
            for (privacy, here) in ends {
                let bytes = link::write(&plan, privacy).unwrap();
                prop_assert_eq!(version(&link::read(&bytes).unwrap().plan), version(&here));
            }
            let later = plan.apply(&Edit::NextRevision).unwrap();
            prop_assert_ne!(version(&later), version(&plan));
        }
    }
}
