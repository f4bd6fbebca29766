//! What builder and owner can agree to, item by item, and how each item stands.
//!
//! An item is agreed to as it stood: an answer carries a digest of all the item said then, and an
//! item that says anything else now is not yet agreed, whatever was answered. Digests are of the
//! figures, not of the words, so that other units or better words change no agreement. Nothing here
//! changes a plan; replies are kept in it.

mod digest;
mod matter;
mod standing;

pub use matter::{Matter, matters};
pub use standing::{Standing, Tally, Voice, fitting, tally};

use crate::design::{Design, Effort};
use crate::plan::{Item, Plan};

/// What can be agreed to, in the order a person walks: level by level its drops by room, then the
/// holes in what bears; the closet and the date at the end.
///
/// Holes are settled only in a design made with the long [`Effort`]: on both ends of a link it is the
/// same. With any other, items of holes are [`Standing::Unsettled`].
pub fn standings(plan: &Plan, design: &Design) -> Vec<(Matter, Standing)> {
    let settled = design.effort == Effort::Long;
    let matters = matters(plan, design);
    let with = |matter: Matter| {
        let holes = matches!(matter.item, Item::Wall(_) | Item::Joists(_));
        let standing = match holes && !settled {
            true => Standing::Unsettled,
            false => standing::of(&plan.replies, matter.item, matter.digest),
        };
        (matter, standing)
    };
    matters.into_iter().map(with).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::picture::sample;
    use crate::plan::edit::Edit;
    use crate::plan::{Answer, Place, Reply, Said};
    use crate::units::{Mm, Units};

    /// A reply of this person: the same to every matter of a plan.
    fn reply(name: &str, plan: &Plan, said: &Said) -> Reply {
        let design = Design::long(plan);
        let answer = |matter: Matter| Answer {
            item: matter.item,
            digest: matter.digest,
            said: said.clone(),
        };
        Reply {
            name: String::from(name),
            date: String::from("3 June"),
            revision: plan.revision,
            version: 0,
            answers: matters(plan, &design).into_iter().map(answer).collect(),
        }
    }

    fn replied(plan: &Plan, name: &str, said: &Said) -> Plan {
        plan.apply(&Edit::TakeReply(reply(name, plan, said)))
            .unwrap()
    }

    fn standing_of(plan: &Plan) -> Tally {
        tally(&standings(plan, &Design::long(plan)))
    }

    #[test]
    fn every_drop_and_every_bored_bearing_wall_stands_once() {
        let plan = sample::house();
        let design = Design::long(&plan);
        let matters = matters(&plan, &design);
        let mut items: Vec<Item> = matters.iter().map(|matter| matter.item).collect();
        items.sort();
        let count = items.len();
        items.dedup();
        assert_eq!(items.len(), count);
        let drops = items.iter().filter(|item| matches!(item, Item::Drop(_)));
        assert_eq!(drops.count(), plan.drops.len());
        for row in &design.drill_list {
            let bears = row.wall.and_then(|id| plan.wall(id));
            if let Some((_, wall)) = bears.filter(|(_, wall)| wall.role.is_bearing()) {
                let matter = matters.iter().find(|m| m.item == Item::Wall(wall.id));
                let said = matter.unwrap().says.iter();
                assert_eq!(said.filter(|line| line.ends_with(&row.location)).count(), 1);
            }
        }
        assert!(items.contains(&Item::Closet));
        assert!(matters.iter().all(|matter| !matter.says.is_empty()));
    }

    #[test]
    fn what_was_agreed_stays_agreed_until_it_changes() {
        let plan = replied(&sample::house(), "Pat", &Said::Agreed);
        let all = standing_of(&plan);
        assert_eq!((all.asked, all.changed, all.open), (0, 0, 0));
        // Words and units are no change.
        let told = plan.apply(&Edit::Together(vec![
            Edit::SetUnits(Units::Metric),
            Edit::SetTitle("Another name".into()),
        ]));
        assert_eq!(standing_of(&told.unwrap()), all);
        // One drop an inch higher is.
        let drop = plan.drops.iter().find(|drop| drop.height().is_some());
        let drop = drop.unwrap();
        let Place::Wall {
            wall,
            offset,
            side,
            height,
        } = drop.place
        else {
            panic!("the first drop of the sample is on a wall");
        };
        let height = height + Mm(25);
        let place = Place::Wall {
            wall,
            offset,
            side,
            height,
        };
        let later = plan.apply(&Edit::MoveDrop(drop.id, place)).unwrap();
        let standings = standings(&later, &Design::long(&later));
        let of = |item| standings.iter().find(|(m, _)| m.item == item).unwrap();
        assert!(matches!(of(Item::Drop(drop.id)).1, Standing::Changed(_)));
        assert!(matches!(of(Item::Closet).1, Standing::Agreed(_)));
        // Put back, it is as it was agreed to.
        let back = later.apply(&Edit::MoveDrop(drop.id, drop.place)).unwrap();
        assert_eq!(standing_of(&back), all);
        // What is new was never agreed to.
        let kind = drop.kind;
        let level = drop.level;
        let more = plan.apply(&Edit::AddDrop {
            kind,
            level,
            place: drop.place,
        });
        assert_eq!(standing_of(&more.unwrap()).open, 1);
    }

    #[test]
    fn a_question_outweighs_another_persons_agreement_and_ones_own_later_word_counts() {
        let asked = Said::Asked(String::from("Lower, please"));
        let plan = replied(&sample::house(), "Pat", &asked);
        let plan = replied(&plan, "Sam", &Said::Agreed);
        assert_eq!(standing_of(&plan).agreed, 0);
        let settled = replied(&plan, "Pat", &Said::Agreed);
        assert_eq!(standing_of(&settled).asked, 0);
        let (_, standing) = &standings(&settled, &Design::long(&settled))[0];
        assert_eq!(standing.voices().len(), 2);
    }

    #[test]
    fn a_drop_whose_wall_is_gone_is_not_told_to_be_on_the_ceiling() {
        let plan = sample::house();
        let on_wall = |drop: &&crate::plan::Drop| drop.place.on_wall().is_some();
        let drop = plan.drops.iter().find(on_wall).unwrap();
        let (wall, _) = drop.place.on_wall().unwrap();
        let adrift = plan.apply(&Edit::RemoveWall(wall)).unwrap();
        let matters = matters(&adrift, &Design::of(&adrift));
        let matter = matters.iter().find(|m| m.item == Item::Drop(drop.id));
        assert!(matter.unwrap().says[0].starts_with("no place yet"));
    }

    #[test]
    fn holes_are_open_until_the_long_search_is_done() {
        let plan = replied(&sample::house(), "Pat", &Said::Agreed);
        let live = standings(&plan, &Design::of(&plan));
        let unsettled = live.iter().filter(|(_, s)| *s == Standing::Unsettled);
        assert!(unsettled.count() > 0);
    }
}
