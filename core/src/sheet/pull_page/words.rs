//! What the pull sheet says of a pull and of a box, in sentences a crew reads once.

use super::super::whither::{destination, room};
use super::cut_of;
use crate::design::Design;
use crate::plan::{CableId, Drop, DropId, Plan};
use crate::schedule::{BoxCourse, Chains, Course, KindOfReels, Parted, Pull, PullTally};
use crate::units::counted;

/// "Cat 6: 41 cables, 3,102 ft; 4 reels to open, no fewer can do."
pub(super) fn of_kind(plan: &Plan, design: &Design, of: &KindOfReels) -> String {
    let kind = plan.catalogue.cable(of.kind);
    let name = kind.map_or("Cable", |spec| spec.name.as_str());
    let (cables, length) = cut_of(design, of.kind);
    let length = plan.units.total(length);
    let proof = match of.is_proved() {
        true => String::from("no fewer can do"),
        false => format!("{} might do", of.fewest_possible),
    };
    let for_pulls = match of.for_pulls {
        0 => String::new(),
        more => format!(
            ", {more} of them only so that the cables of one pull come from different reels"
        ),
    };
    let at_hand = counted(of.at_hand, "reel");
    format!(
        "{name}: {}, {length}; {} to open{for_pulls}, {proof}; {at_hand} to pull from at once.",
        counted(cables, "cable"),
        counted(of.new_reels, "reel"),
    )
}

/// "14 pulls; 397 ft of trunk to walk; 4 set-ups of a reel; no box is visited twice."
pub(super) fn of_all(plan: &Plan, tally: &PullTally) -> String {
    let again = match tally.visited_again {
        0 => String::from("no box is visited twice"),
        boxes => format!(
            "{} visited more than once, having more cables of a kind than there are reels",
            are(boxes, "box", "boxes")
        ),
    };
    format!(
        "{}; {} of trunk to walk; {} of a reel; {again}.",
        counted(tally.pulls, "pull"),
        plan.units.total(tally.walked),
        counted(tally.set_ups, "set-up"),
    )
}

/// "Pull 3 · 3 cables · D8 Bed 2, C23 outdoors".
pub(super) fn title(plan: &Plan, pull: &Pull) -> String {
    let named = |drop: &DropId| {
        let drop = plan.drop(*drop)?;
        let room = room(plan, drop).map_or_else(String::new, |room| format!(" {room}"));
        Some(format!("{}{room}", drop.label()))
    };
    let boxes: Vec<String> = pull.drops.iter().filter_map(named).collect();
    let cables = counted(pull.cables.len(), "cable");
    format!("Pull {} · {cables} · {}", pull.number, boxes.join(", "))
}

/// Which reels to set up, and how the trunk goes.
pub(super) fn instruction(
    plan: &Plan,
    design: &Design,
    pull: &Pull,
    course: &Course,
) -> Vec<String> {
    let trunk = trunk(design, course, told(design, pull, course));
    let first = [reels(design, pull)].into_iter().chain(trunk);
    let first = first.collect::<Vec<_>>().join(" ");
    [first]
        .into_iter()
        .chain(visited_again(plan, design, pull))
        .collect()
}

/// "At the closet set up Cat 6 reel 3; the others stay as they stand." Which cable comes from which reel
/// stands beside the cable.
fn reels(design: &Design, pull: &Pull) -> String {
    let names = |reels: &mut dyn Iterator<Item = &usize>| {
        let reels = reels.filter_map(|reel| design.cut_list.reels.get(*reel));
        listed(&reels.map(|reel| reel.name.clone()).collect::<Vec<_>>())
    };
    let set_up = names(&mut pull.set_up.iter());
    let mut standing = pull.reels.iter().filter(|reel| !pull.set_up.contains(reel));
    match (set_up.is_empty(), standing.next().is_none()) {
        (true, true) => String::from("No reel holds any of these cables: order longer ones."),
        (true, false) => String::from("The reels stay as they stand."),
        (false, true) => format!("At the closet set up {set_up}."),
        (false, false) => format!("At the closet set up {set_up}; the others stay as they stand."),
    }
}

/// The pull before this one that told where the bore of its trunk is.
fn told(design: &Design, pull: &Pull, course: &Course) -> Option<u32> {
    let named = course.holds_all?;
    let chains = Chains::of(&design.bores);
    let before = design.cut_list.pulls.iter();
    let mut before = before.take_while(|other| other.number < pull.number);
    let same = before.find(|other| chains.course(&design.ways, other).holds_all == Some(named));
    same.map(|other| other.number)
}

/// "Trunk by bore 13: top plates, W6, stud 3 from its W2 end. All together from the closet by bores 14 and
/// 15 side by side, 13, 9." Where a pull before told the place, that pull is named. A pull to one box has its
/// bores with the box.
fn trunk(design: &Design, course: &Course, told: Option<u32>) -> Option<String> {
    let row = |number: u32| design.drill_list.iter().find(|row| row.number == number);
    let named = course.holds_all.and_then(row);
    let holds = named.map(|row| match (told, row.location.is_empty()) {
        (Some(pull), _) => format!("Trunk by bore {}, as in pull {pull}.", row.number),
        (None, true) => format!("Trunk by bore {}: {}.", row.number, row.what),
        (None, false) => format!(
            "Trunk by bore {}: {}, {}.",
            row.number, row.what, row.location
        ),
    });
    let bores: Vec<String> = course
        .trunk
        .iter()
        .map(|bores| side_by_side(bores))
        .collect();
    let is_named = bores.len() == 1 && holds.is_some();
    let all = match bores.is_empty() {
        _ if course.boxes.len() < 2 || is_named => None,
        true => Some(String::from(
            "No bore is shared by all: they go together where the way is open.",
        )),
        false => Some(format!(
            "All together from the closet by {}.",
            of_bores(&bores)
        )),
    };
    let said: Vec<String> = holds.into_iter().chain(all).collect();
    (!said.is_empty()).then(|| said.join(" "))
}

/// Why a box of this pull is in another one, too.
fn visited_again(plan: &Plan, design: &Design, pull: &Pull) -> Vec<String> {
    let pulls = |drop: DropId| {
        let of_drop = design
            .cut_list
            .pulls
            .iter()
            .filter(|other| other.drops.contains(&drop));
        of_drop
            .map(|other| other.number.to_string())
            .collect::<Vec<_>>()
    };
    let said = |drop: &DropId| {
        let pulls = pulls(*drop);
        let label = plan.drop(*drop)?.label();
        let many = pulls.len() > 1;
        many.then(|| {
            format!(
                "{label} has more cables of a kind than there are reels: it is in pulls {}.",
                listed(&pulls)
            )
        })
    };
    pull.drops.iter().filter_map(said).collect()
}

/// "D8, Bed 2, outlet 16 in: leaves the others after bore 10. By bores 9, 10, 13."
pub(super) fn of_box(plan: &Plan, course: &Course, of_box: &BoxCourse) -> Vec<String> {
    let name = plan
        .drop(of_box.drop)
        .map_or_else(String::new, |drop| to_box(plan, drop));
    let alike = |other: &&BoxCourse| other.leaves_after == of_box.leaves_after;
    let parting: Vec<DropId> = course.boxes.iter().filter(alike).map(|b| b.drop).collect();
    let leaves = match (course.boxes.len(), &of_box.leaves_after[..]) {
        (1, _) => String::from("."),
        (_, []) => String::from(": shares no bore with the others."),
        // Two ways from one bore are two runs: the farther one is first.
        (_, bores) if parting.len() > 1 && parting.first() == Some(&of_box.drop) => {
            format!(": goes first from {} on.", bore_words(bores))
        }
        (_, bores) if parting.len() > 1 => {
            format!(": goes next from {} again.", bore_words(bores))
        }
        (_, bores) => format!(": leaves the others after {}.", bore_words(bores)),
    };
    let mut said = vec![format!("{name}{leaves} {}", chains(plan, of_box))];
    said.extend(of_box.parted.as_ref().map(parted));
    said
}

/// "D8, Bed 2, outlet 16 in".
pub(super) fn to_box(plan: &Plan, drop: &Drop) -> String {
    format!("{}, {}", drop.label(), destination(plan, drop))
}

/// "D8A, D8B: 9, 10, 13." Cables with one chain are named together.
fn chains(plan: &Plan, of_box: &BoxCourse) -> String {
    let mut alike: Vec<(Vec<String>, &[u32])> = Vec::new();
    let label = |cable: &CableId| plan.cable_label(*cable);
    for (cable, chain) in &of_box.chains {
        match alike.iter_mut().find(|(_, other)| *other == &chain[..]) {
            Some((labels, _)) => labels.push(label(cable)),
            None => alike.push((vec![label(cable)], chain)),
        }
    }
    let said = alike.iter().map(|(labels, chain)| {
        let bores: Vec<String> = chain.iter().map(u32::to_string).collect();
        match bores.is_empty() {
            true => format!("{}: no bore.", labels.join(" ")),
            false => format!("{}: {}.", labels.join(" "), bores.join(", ")),
        }
    });
    said.collect::<Vec<_>>().join(" ")
}

fn parted(parted: &Parted) -> String {
    match parted {
        Parted::SideBySide { bores } => format!(
            "They part at {}: the bundle is split there, and no one of these has room for all.",
            bore_words(bores)
        ),
        Parted::OtherWays { after: Some(bore) } => format!(
            "They part after bore {bore}: by your rates two ways are less work there than one."
        ),
        Parted::OtherWays { after: None } => {
            String::from("They part at the box: by your rates two ways are less work than one.")
        }
    }
}

/// "bore 9", "bores 14 and 15".
fn bore_words(bores: &[u32]) -> String {
    let numbers: Vec<String> = bores.iter().map(u32::to_string).collect();
    match bores.len() {
        1 => format!("bore {}", numbers.join("")),
        _ => format!("bores {}", listed(&numbers)),
    }
}

/// "bore 9", "bores 14 and 15 side by side, 13".
fn of_bores(named: &[String]) -> String {
    match named {
        [one] if !one.contains(' ') => format!("bore {one}"),
        _ => format!("bores {}", named.join(", ")),
    }
}

/// "9", "14 and 15 side by side".
fn side_by_side(bores: &[u32]) -> String {
    let numbers: Vec<String> = bores.iter().map(u32::to_string).collect();
    match bores.len() {
        1 => numbers.join(""),
        _ => format!("{} side by side", listed(&numbers)),
    }
}

/// "a", "a and b", "a, b and c".
fn listed(words: &[String]) -> String {
    match words {
        [] => String::new(),
        [one] => one.clone(),
        [first @ .., last] => format!("{} and {last}", first.join(", ")),
    }
}

/// "1 box is", "3 boxes are".
fn are(count: usize, one: &str, many: &str) -> String {
    match count {
        1 => format!("1 {one} is"),
        _ => format!("{count} {many} are"),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn bores_are_told_as_a_crew_reads_them() {
        assert_eq!(bore_words(&[9]), "bore 9");
        assert_eq!(bore_words(&[14, 15, 16]), "bores 14, 15 and 16");
        let named = |bores: &[&[u32]]| {
            of_bores(
                &bores
                    .iter()
                    .map(|bores| side_by_side(bores))
                    .collect::<Vec<_>>(),
            )
        };
        assert_eq!(named(&[&[9]]), "bore 9");
        assert_eq!(
            named(&[&[14, 15], &[13]]),
            "bores 14 and 15 side by side, 13"
        );
        assert_eq!(are(1, "box", "boxes"), "1 box is");
    }

    #[test]
    fn what_parts_says_where_and_why() {
        let bores = vec![14, 15];
        let said = parted(&Parted::SideBySide { bores });
        assert!(
            said.starts_with("They part at bores 14 and 15: the bundle is split"),
            "{said}"
        );
        let said = parted(&Parted::OtherWays { after: Some(3) });
        assert!(said.starts_with("They part after bore 3"), "{said}");
    }

    /// On the sample house each box of each pull names its cables with their bores, box to closet.
    #[test]
    fn every_cable_has_its_chain() {
        let plan = crate::picture::sample::house();
        let design = Design::of(&plan);
        let bores = Chains::of(&design.bores);
        let mut cables = 0;
        for pull in &design.cut_list.pulls {
            let course = bores.course(&design.ways, pull);
            for of_box in &course.boxes {
                let said = super::of_box(&plan, &course, of_box).join(" ");
                for (cable, chain) in &of_box.chains {
                    cables += 1;
                    let numbers: Vec<String> = chain.iter().map(u32::to_string).collect();
                    assert!(said.contains(&plan.cable_label(*cable)), "{said}");
                    assert!(said.contains(&numbers.join(", ")), "{said}");
                }
            }
        }
        assert_eq!(cables, plan.cables().count());
    }
}
