//! What every stack of every plan that is kept has to carry: which revision it is, a place for each wall's photo,
//! and for the builder every wall that bears and is bored.

use std::collections::BTreeSet;

use super::laws::{plans, stacks, texts};
use super::*;
use crate::plan::WallId;

#[test]
fn every_page_says_of_when_and_of_which_version_it_is() {
    let mut pages_seen = 0;
    for mut plan in plans() {
        plan.date = String::from("3 March");
        plan.revision = 7;
        let design = Design::of(&plan);
        let version = link::version(&plan).code().unwrap();
        for stack in stacks() {
            let pages = Sheets::stack(&plan, &design, &Paper::of(Size::Letter), stack, None);
            for page in pages.iter().filter(|page| !page.kind.is_stock()) {
                let texts = texts(page);
                let has = |words: &str| texts.iter().any(|text| text.contains(words));
                let name = (&plan.title, stack, &page.name);
                assert!(has("rev 7"), "{name:?}");
                assert!(has(&format!("version {version}")), "{name:?}");
                assert!(has("3 March"), "{name:?}");
                pages_seen += 1;
            }
        }
    }
    assert!(pages_seen > 300, "{pages_seen}");
}

/// The walls that are worked on, by what is drilled in them and what hangs on them.
fn worked(plan: &Plan, design: &Design) -> BTreeSet<WallId> {
    let bored = design.drill_list.iter().filter_map(|row| row.wall);
    let hung = plan.drops.iter().filter_map(|drop| drop.place.on_wall());
    let closet = plan.closet.and_then(|closet| closet.on_wall());
    let all = bored.chain(hung.map(|(wall, _)| wall)).chain(closet);
    all.filter(|wall| plan.wall(*wall).is_some()).collect()
}

/// Text in the outer margin of elevation pages: names of walls, and what is to be written there.
fn in_the_margin(drafts: &[Draft], plan: &Plan) -> Vec<String> {
    let pages = drafts
        .iter()
        .filter(|draft| matches!(draft.heading.kind, Kind::Elevations(_)));
    let texts = pages.flat_map(|draft| {
        let right = frame::body(plan, draft.extent, &draft.heading).high.x;
        let marks = draft.layers.iter().flat_map(Laid::marks);
        marks.filter_map(move |mark| match mark {
            Mark::Text { at, text, .. } if at.x > right => Some(text),
            _ => None,
        })
    });
    texts.collect()
}

#[test]
fn every_wall_that_is_worked_on_has_a_place_for_its_photo_and_a_code() {
    let mut walls = 0;
    let link = Some("https://borewright.example/#Q");
    for plan in plans() {
        let design = Design::of(&plan);
        let of = |link| Sheets::drafts(&plan, &design, &Paper::of(Size::Letter), Stack::Crew, link);
        let drafts = of(link);
        let margin = in_the_margin(&drafts, &plan);
        let worked = worked(&plan, &design);
        for wall in &worked {
            let label = format!("W{}", wall.0);
            let count = margin.iter().filter(|text| **text == label).count();
            assert_eq!(count, 1, "{} {label}", plan.title);
        }
        let photos = margin.iter().filter(|text| *text == "photo").count();
        assert_eq!(photos, worked.len(), "{}", plan.title);
        // A code is hundreds of marks: with an address every wall has one more than without.
        let marks = |drafts: &[Draft]| -> usize {
            let pages = drafts.iter();
            let pages = pages.filter(|draft| matches!(draft.heading.kind, Kind::Elevations(_)));
            pages
                .flat_map(|draft| draft.layers.iter().flat_map(Laid::marks))
                .count()
        };
        let more = marks(&drafts).saturating_sub(marks(&of(None)));
        assert!(more >= worked.len(), "{} {more}", plan.title);
        walls += worked.len();
    }
    assert!(walls > 60, "{walls}");
}

#[test]
fn the_builder_sees_every_bearing_wall_that_is_bored_and_what_each_bore_takes_of_its_limit() {
    let (mut seen, mut rows) = (0, 0);
    for plan in plans() {
        let design = Design::of(&plan);
        let drafts = Sheets::drafts(&plan, &design, &Paper::of(Size::A4), Stack::Builder, None);
        let margin = in_the_margin(&drafts, &plan);
        let bored = design.drill_list.iter().filter_map(|row| row.wall);
        let bearing = bored.filter(|wall| plan.wall(*wall).unwrap().1.role.is_bearing());
        for wall in bearing.collect::<BTreeSet<_>>() {
            assert!(
                margin.contains(&format!("W{}", wall.0)),
                "{} W{}",
                plan.title,
                wall.0
            );
            seen += 1;
        }
        let pages = Sheets::stack(&plan, &design, &Paper::of(Size::A4), Stack::Builder, None);
        let list = pages.iter().filter(|page| page.kind == Kind::Builder);
        let told: Vec<String> = list.flat_map(texts).collect();
        let bearing = design
            .drill_list
            .iter()
            .filter(|row| row.is_in_what_bears(&plan));
        let bearing: Vec<String> = bearing.map(|row| row.number.to_string()).collect();
        assert!(
            bearing.iter().all(|number| told.contains(number)),
            "{}",
            plan.title
        );
        let shares = told
            .iter()
            .filter(|text| text.ends_with(" %") || ["no figure", "no"].contains(&text.as_str()));
        assert!(shares.count() >= bearing.len(), "{}", plan.title);
        assert!(
            told.iter()
                .any(|text| text.starts_with("Seen by the builder or the engineer"))
        );
        rows += bearing.len();
    }
    assert!(seen > 20 && rows > 60, "{seen} {rows}");
}
