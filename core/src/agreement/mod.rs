//! What builder and owner can agree to, item by item, and how each item stands.
//!
//! An item is agreed to as it stood: an answer carries a digest of all the item said then, and an
//! item that says anything else now is not yet agreed, whatever was answered. Digests are of the
//! figures and of the words a person gave, such as notes and room names; not of the program's own words
//! and not of units, so that other units or better words change no agreement. Nothing here changes a
//! plan; replies are kept in it.

mod code;
mod digest;
mod fit;
mod matter;
mod receipt;
mod standing;

pub use fit::{Fit, answers_as_it_stands, answers_by_name};
pub use matter::{Matter, matters};
pub use receipt::{NAME_CAUTION, receipt};
pub use standing::{Standing, Tally, Voice, tally, typed};

use crate::design::{Design, Effort};
use crate::plan::{Item, Plan};

/// What can be agreed to, in the order a person walks: level by level its drops by room, then the
/// holes in what bears; the closet, the dates and the job at the end.
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
            false => standing::of(plan, &matter),
        };
        (matter, standing)
    };
    matters.into_iter().map(with).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::file::link;
    use crate::framing::{Hang, hang_of};
    use crate::picture::sample;
    use crate::plan::edit::Edit;
    use crate::plan::{Answer, Place, Reply, Said};
    use crate::units::{Mm, Size, Units};
    use expect_test::expect;

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
            job: plan.title.clone(),
            version: link::version(plan),
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
                let is_its = |line: &&String| {
                    line.ends_with(&row.location)
                        && line.contains(&format!(" hole, {}", row.height))
                };
                assert_eq!(said.filter(is_its).count(), 1);
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
        // Units are no change; another name for the job is one of that alone.
        let told = plan.apply(&Edit::SetUnits(Units::Metric)).unwrap();
        assert_eq!(standing_of(&told), all);
        let told = plan.apply(&Edit::SetTitle("Another name".into())).unwrap();
        let renamed = Tally {
            agreed: all.agreed - 1,
            changed: 1,
            ..all
        };
        assert_eq!(standing_of(&told), renamed);
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
    fn a_job_called_as_a_link_without_names_calls_it_has_its_names() {
        let title = Edit::SetTitle(String::from(link::NAMELESS));
        let plan = sample::house().apply(&title).unwrap();
        let sent = reply("Pat", &plan, &Said::Agreed);
        let there = standings(&plan, &Design::long(&plan));
        let words = Fit::of(&plan, &there, &sent).words(&plan, &sent);
        assert_eq!(words, "It answers this plan as it stands.");
        let plan = plan.apply(&Edit::TakeReply(sent)).unwrap();
        for (matter, standing) in standings(&plan, &Design::long(&plan)) {
            assert_eq!(
                standing.words(),
                "Agreed by “Pat”, 3 June.",
                "{}",
                matter.name
            );
        }
    }

    #[test]
    fn an_agreement_that_comes_in_late_takes_no_later_question_away() {
        let plan = sample::house();
        let dated = |date: &str, said: Said| Reply {
            date: String::from(date),
            ..reply("Pat", &plan, &said)
        };
        let asked = dated(
            "2026-06-05 09:30",
            Said::Asked(String::from("Lower, please")),
        );
        let before = dated("2026-06-05 09:10", Said::Agreed);
        let take =
            |plan: &Plan, reply: &Reply| plan.apply(&Edit::TakeReply(reply.clone())).unwrap();
        let late = standing_of(&take(&take(&plan, &asked), &before));
        assert_eq!((late.agreed, late.asked > 0), (0, true));
        let after = dated("2026-06-05 10:00", Said::Agreed);
        assert_eq!(standing_of(&take(&take(&plan, &asked), &after)).asked, 0);
        // A date that tells nothing counts in the order in which replies came in.
        let undated = dated("", Said::Agreed);
        assert_eq!(standing_of(&take(&take(&plan, &asked), &undated)).asked, 0);
    }

    #[test]
    fn a_name_is_a_name_and_a_date_a_date() {
        let plan = sample::house();
        let forged = Reply {
            name: String::from("Pat”, 2026-06-03.\nAgreed by “Kim"),
            date: String::from("2026-06-03. Agreed by Kim"),
            ..reply("Pat", &plan, &Said::Agreed)
        };
        let taken = plan.apply(&Edit::TakeReply(forged.clone())).unwrap();
        assert_eq!(taken.replies[0].name, "Pat , 2026-06-03. Agreed by Kim");
        assert_eq!(taken.replies[0].date, "");
        let words = standings(&taken, &Design::long(&taken))[0].1.words();
        assert_eq!(words, "Agreed by “Pat , 2026-06-03. Agreed by Kim”.");
        let nobody = Reply {
            name: String::from("\u{2800}"),
            ..forged
        };
        assert!(plan.apply(&Edit::TakeReply(nobody)).is_err());
    }

    #[test]
    fn a_line_break_in_a_title_begins_no_line_of_a_receipt() {
        let mut plan = sample::house();
        plan.note = String::from("first\nAgreed. Price: 9,000 extra");
        let title = "Lot 6\nSigned by Kim (identity verified)";
        let plan = plan.apply(&Edit::SetTitle(title.into())).unwrap();
        assert_eq!(plan.title, "Lot 6 Signed by Kim (identity verified)");
        let sent = reply("Pat", &plan, &Said::Agreed);
        let receipt = receipt(&plan, &matters(&plan, &Design::long(&plan)), &sent);
        assert!(
            !receipt
                .lines()
                .any(|line| line.starts_with("Agreed. Price")),
            "{receipt}"
        );
    }

    #[test]
    fn a_box_that_now_wants_a_crosspiece_is_another() {
        let plan = sample::house();
        let hangs_between = |plan: &Plan| {
            let framing = crate::framing::Framing::of(plan);
            let is = |drop: &&crate::plan::Drop| {
                matches!(hang_of(plan, &framing, drop), Some(Ok(Hang::Between(..))))
            };
            plan.drops
                .iter()
                .filter(is)
                .map(|drop| drop.id)
                .collect::<Vec<_>>()
        };
        let wider = |mut plan: Plan| {
            let walls = plan.levels.iter_mut().flat_map(|level| &mut level.walls);
            walls.for_each(|wall| wall.spacing = Size(609.6));
            plan
        };
        let (before, after) = (hangs_between(&plan), hangs_between(&wider(plan.clone())));
        let news: Vec<_> = after.iter().filter(|id| !before.contains(id)).collect();
        assert!(!news.is_empty());
        let agreed = replied(&plan, "Pat", &Said::Agreed);
        let changed = wider(agreed);
        let standings = standings(&changed, &Design::of(&changed));
        for id in news {
            let of = standings
                .iter()
                .find(|(m, _)| m.item == Item::Drop(*id))
                .unwrap();
            assert!(matches!(of.1, Standing::Changed(_)), "{}", of.0.name);
        }
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

    /// What people have signed stays what it was: these change only with a sample that changes. Those of boxes that
    /// hang on no upright changed once, when crosspieces were found to be shown and not covered.
    #[test]
    fn digests_are_the_same_for_ever() {
        let plan = sample::house();
        let matters = matters(&plan, &Design::long(&plan));
        // Where holes are is the search's; how they are coded stands in `code`.
        let settled = |matter: &&Matter| !matches!(matter.item, Item::Wall(_) | Item::Joists(_));
        let lines = matters.iter().filter(settled).map(|matter| {
            let code = matter.digest.code().unwrap();
            format!("{code} {} {}\n", matter.name, matter.what)
        });
        expect![[r#"
            ZQJD-QSKG-WTXD D1 outlet, Bed 1
            QSSV-LHKG-KJLN T3 television, Bed 1
            LLLL-JDFF-BHJV D4 outlet, Bed 1
            RQBN-VJNG-NSBK D2 outlet, Bed 1
            CBZZ-NJKB-RJBF D5 outlet, Bed 2
            DCXR-KJWZ-VTZD D6 outlet, Study
            GNCH-GCXV-VMZQ D7 outlet, Study
            CNRD-RTSQ-RTHM A15 ceiling access point, Hall
            XHWZ-CDZC-TWLW D11 outlet, Bath
            GBZV-SPVZ-SVRM T9 television, Living
            TTHP-XRCC-GGDD D10 outlet, Living
            FJWS-RBXR-GRGL A16 ceiling access point, Living
            NDMC-RKCK-XVTC D8 outlet, Kitchen
            XZSC-RKCB-XBTZ C12 camera, outdoors
            TBKP-SMZW-PNSC C13 camera, outdoors
            BTMM-NRXN-CPKV B14 doorbell, outdoors
            DNXT-HJRK-QCNR Closet Ground, Hall
            RCHF-CKCS-GZVK Job Larch Row, lot 3
        "#]]
        .assert_eq(&lines.collect::<String>());
    }

    #[test]
    fn a_word_that_changes_is_a_changed_item() {
        let mut plan = sample::house();
        plan.drops[0].note = String::from("nothing extra");
        plan.dates.pull = String::from("12 May");
        let plan = replied(&plan, "Pat", &Said::Agreed);
        let item = Item::Drop(plan.drops[0].id);
        let changed = |change: &dyn Fn(&mut Plan)| {
            let mut plan = plan.clone();
            change(&mut plan);
            let standings = standings(&plan, &Design::long(&plan));
            let changed = standings.into_iter();
            let changed = changed.filter(|(_, s)| matches!(s, Standing::Changed(_)));
            changed.map(|(m, _)| m.item).collect::<Vec<_>>()
        };
        let noted = changed(&|plan| plan.drops[0].note = String::from("900 extra"));
        assert_eq!(noted, [item]);
        let renamed = changed(&|plan| {
            for room in &mut plan.levels[0].rooms {
                room.name.push_str(" of Pat");
            }
        });
        assert!(renamed.contains(&item), "{renamed:?}");
        let cable = changed(&|plan| plan.catalogue.cables[0].name.push('x'));
        assert!(cable.contains(&item) && cable.contains(&Item::Closet));
        assert_eq!(changed(&|plan| plan.note.push('x')), [Item::Job]);
        assert_eq!(changed(&|plan| plan.dates.pull.push('x')), [Item::Date]);
    }

    #[test]
    fn whoever_saw_no_names_agreed_to_what_they_saw() {
        let mut plan = sample::house();
        plan.drops[0].note = String::from("nothing extra");
        let seen = link::without_names(&plan);
        let sent = reply("Pat", &seen, &Said::Agreed);
        let there = standings(&plan, &Design::long(&plan));
        assert_eq!(Fit::of(&plan, &there, &sent), Fit::Now);
        let plan = plan.apply(&Edit::TakeReply(sent)).unwrap();
        let standings = standings(&plan, &Design::long(&plan));
        assert_eq!(tally(&standings).agreed, standings.len());
        let of = |item| standings.iter().find(|(m, _)| m.item == item).unwrap();
        let words = of(Item::Drop(plan.drops[0].id)).1.words();
        assert!(words.contains("without names and notes"), "{words}");
        let words = of(Item::Closet).1.words();
        assert!(words.contains("without names and notes"), "{words}");
    }

    #[test]
    fn a_reply_to_the_house_next_door_is_not_this_ones() {
        let here = sample::house();
        let title = Edit::SetTitle(String::from("Next door"));
        let there = here.apply(&title).unwrap();
        let sent = reply("Pat", &there, &Said::Agreed);
        let standings = standings(&here, &Design::long(&here));
        let fit = Fit::of(&here, &standings, &sent);
        assert_eq!((fit, fit.is_this()), (Fit::Other, false));
        let words = fit.words(&here, &sent);
        assert!(
            words.starts_with("It answers Next door, version "),
            "{words}"
        );
    }

    #[test]
    fn a_receipt_says_what_was_signed() {
        let plan = sample::house();
        let sent = reply("Pat", &plan, &Said::Asked(String::from("Lower?")));
        let matters = matters(&plan, &Design::long(&plan));
        let receipt = receipt(&plan, &matters, &sent);
        let code = link::version(&plan).code().unwrap();
        assert!(receipt.contains(&code), "{receipt}");
        assert!(receipt.contains("Signed by “Pat” (typed name, not verified)"));
        let asked = receipt
            .lines()
            .filter(|line| line.starts_with("Asked: Lower?. "));
        assert_eq!(asked.count(), matters.len());
        assert!(matters.iter().all(|m| receipt.contains(&m.says[0])));
    }

    #[test]
    fn holes_are_open_until_the_long_search_is_done() {
        let plan = replied(&sample::house(), "Pat", &Said::Agreed);
        let live = standings(&plan, &Design::of(&plan));
        let unsettled = live.iter().filter(|(_, s)| *s == Standing::Unsettled);
        assert!(unsettled.count() > 0);
    }
}
