//! Cables as they are named in a narrow column: those of one box together.

use crate::plan::{CableId, Plan};

/// "D1A/B", "C19A": the cables of one box that stand beside each other in a list share its name.
pub(super) fn by_box(plan: &Plan, cables: &[CableId]) -> Vec<String> {
    let mut named: Vec<(String, String)> = Vec::new();
    for id in cables {
        let label = plan.cable_label(*id);
        let of_box = plan.cable(*id).map(|(drop, _)| drop.label());
        let own = of_box.and_then(|of_box| {
            let letter = label.strip_prefix(&of_box)?.to_string();
            Some((of_box, letter))
        });
        let (of_box, letter) = own.unwrap_or_else(|| (label.clone(), String::new()));
        match named.last_mut() {
            Some((before, letters)) if *before == of_box => {
                letters.push('/');
                letters.push_str(&letter);
            }
            _ => named.push((of_box, letter)),
        }
    }
    let whole = named.into_iter();
    whole.map(|(of_box, letters)| of_box + &letters).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::picture::sample;

    #[test]
    fn the_cables_of_a_box_share_its_name_and_no_other_does() {
        let plan = sample::house();
        let all: Vec<CableId> = plan.cables().map(|(_, cable)| cable.id).collect();
        let named = by_box(&plan, &all);
        let told: Vec<String> = named
            .iter()
            .flat_map(|words| {
                let mut letters = words.split('/');
                let first = letters.next().unwrap_or_default().to_string();
                let of_box = first[..first.len() - 1].to_string();
                let others = letters.map(move |letter| format!("{of_box}{letter}"));
                [first].into_iter().chain(others).collect::<Vec<_>>()
            })
            .collect();
        let labels: Vec<String> = all.iter().map(|id| plan.cable_label(*id)).collect();
        assert_eq!(told, labels);
        assert!(named.len() < labels.len());
    }

    #[test]
    fn a_cable_that_is_gone_is_told_apart() {
        let plan = sample::house();
        let first = plan.cables().next().unwrap().1.id;
        let named = by_box(&plan, &[first, CableId(u32::MAX)]);
        assert_eq!(named, [plan.cable_label(first), String::from("?")]);
    }
}
