//! What holds on every page of any plan: legible sizes, nothing on top of anything else, true
//! scale, and every bore and cable once in each list.

use std::collections::BTreeMap;

use proptest::prelude::*;

use super::mark::Mark;
use super::pen::FINEST;
use super::*;
use crate::picture::font::{self, MM_PER_POINT};
use crate::picture::{Anchor, Ink, Weight, sample};
use crate::plan::edit::Edit;
use crate::units::Units;

fn pages(plan: &Plan, size: Size) -> Vec<Page> {
    Sheets::of(plan, &Design::of(plan), &Paper::of(size))
}

/// The box a text fills on its page, with its words.
fn texts(page: &Page) -> Vec<(String, Area)> {
    let text = |mark: Mark| match mark {
        Mark::Text {
            at,
            anchor,
            size,
            weight,
            text,
            upwards,
        } => {
            let shape = crate::picture::Text {
                at,
                anchor,
                size,
                weight,
                text: text.clone(),
                upwards,
            };
            let (low, high) = shape.bounds(1.0);
            Some((text, Area::new(low, high)))
        }
        _ => None,
    };
    page.marks().filter_map(text).collect()
}

/// Pairs of texts that lie on each other by more than a hair. Descenders may reach into the air
/// over the next line, ink does not.
fn overlaps(page: &Page) -> Vec<(String, String)> {
    let texts = texts(page);
    let inked = |area: &Area| {
        let spare = area.height() * 0.12;
        Area::new(
            area.low + Pos::new(0.05, spare),
            area.high - Pos::new(0.05, spare),
        )
    };
    let mut found = Vec::new();
    for (place, (text, area)) in texts.iter().enumerate() {
        let one = inked(area);
        for (other, area) in &texts[place + 1..] {
            let two = inked(area);
            let apart = one.high.x <= two.low.x
                || two.high.x <= one.low.x
                || one.high.y <= two.low.y
                || two.high.y <= one.low.y;
            if !apart {
                found.push((text.clone(), other.clone()));
            }
        }
    }
    found
}

fn of_kind(pages: &[Page], kind: Kind) -> Vec<(String, usize)> {
    let mut counts: BTreeMap<String, usize> = BTreeMap::new();
    for page in pages.iter().filter(|page| page.kind == kind) {
        for (text, _) in texts(page) {
            *counts.entry(text).or_default() += 1;
        }
    }
    counts.into_iter().collect()
}

fn count(found: &[(String, usize)], text: &str) -> usize {
    found
        .iter()
        .find(|(known, _)| known == text)
        .map_or(0, |(_, count)| *count)
}

#[test]
fn text_is_large_and_lines_are_strong_on_every_page() {
    let plan = sample::house();
    for size in Size::ALL {
        for page in pages(&plan, size) {
            for mark in page.marks() {
                match mark {
                    Mark::Text { size, text, .. } => {
                        assert!(size >= 10.0 * MM_PER_POINT - 1e-9, "{}: {text}", page.name);
                    }
                    Mark::Path { pen, .. } | Mark::Circle { pen, .. } => {
                        assert!(pen.stroke.is_none_or(|weight| weight >= FINEST));
                    }
                }
            }
        }
    }
}

#[test]
fn nothing_leaves_the_paper() {
    for size in Size::ALL {
        stays_on_the_paper(&sample::house(), size);
    }
}

/// Any plan, however it is drawn over: what does not fit is drawn smaller or shortened. On plans a
/// random drop may float outside the house.
#[test]
fn no_list_or_elevation_of_a_random_plan_leaves_the_paper() {
    for seed in 0..10 {
        let plan = crate::plan::edit::sample::plan(seed, 160);
        let mut pages = pages(&plan, Size::Letter);
        pages.retain(|page| !matches!(page.kind, Kind::Level(_)));
        on_the_paper(pages, Size::Letter);
    }
}

fn stays_on_the_paper(plan: &Plan, size: Size) {
    on_the_paper(pages(plan, size), size);
}

fn on_the_paper(pages: Vec<Page>, size: Size) {
    for page in pages {
        for (text, area) in texts(&page) {
            let inside = area.low.x >= 3.0
                && area.low.y >= 3.0
                && area.high.x <= page.extent.width - 3.0
                && area.high.y <= page.extent.height - 3.0;
            assert!(inside, "{} {}: {text} {area:?}", size.name(), page.name);
        }
    }
}

#[test]
fn every_bore_and_every_cable_stands_once_in_each_list() {
    let plan = sample::house();
    let design = Design::of(&plan);
    let pages = pages(&plan, Size::Letter);
    let drill = of_kind(&pages, Kind::DrillList);
    let ids = |kind| {
        let mut found: BTreeMap<String, usize> = BTreeMap::new();
        for page in pages.iter().filter(|page| page.kind == kind) {
            for mark in page.marks() {
                if let Mark::Text {
                    text,
                    size,
                    weight: Weight::Bold,
                    anchor: Anchor::Start,
                    ..
                } = mark
                    && (size - 13.0 * MM_PER_POINT).abs() < 1e-9
                {
                    *found.entry(text).or_default() += 1;
                }
            }
        }
        found
    };
    let numbers = ids(Kind::DrillList);
    for row in &design.drill_list {
        assert_eq!(
            numbers.get(&row.number.to_string()),
            Some(&1),
            "{}",
            row.number
        );
    }
    assert!(!drill.is_empty());
    for kind in [Kind::PullSheet, Kind::Closet, Kind::TestRecord] {
        let cables = ids(kind);
        for (_, cable) in plan.cables() {
            let label = plan.cable_label(cable.id);
            assert_eq!(cables.get(&label), Some(&1), "{kind:?} {label}");
        }
    }
    for kind in [Kind::RoomList, Kind::TrimOut, Kind::Protection] {
        let drops = ids(kind);
        for drop in &plan.drops {
            assert_eq!(
                drops.get(&drop.label()),
                Some(&1),
                "{kind:?} {}",
                drop.label()
            );
        }
    }
    let labels = of_kind(&pages, Kind::Labels);
    for (_, cable) in plan.cables() {
        // Four strips with it at both ends, and the panel's.
        assert_eq!(count(&labels, &plan.cable_label(cable.id)), 9);
    }
}

#[test]
fn the_scale_bar_and_the_walls_agree() {
    let mut plan = sample::house();
    for units in [Units::Imperial, Units::Metric] {
        plan = plan.apply(&Edit::SetUnits(units)).unwrap();
        for size in Size::ALL {
            let pages = pages(&plan, size);
            let page = pages
                .iter()
                .find(|page| matches!(page.kind, Kind::Level(_)))
                .unwrap();
            let scale = page.scale.unwrap();
            // Centre lines of the outside walls are 12,200 mm apart; each is a 2x6.
            let walls = across(&page.layers[..1], Ink::WallExterior) * scale.ratio;
            assert!((walls - (12_200.0 + 139.7)).abs() < 2.0, "{walls}");
            let bar = across(&page.layers[1..2], Ink::Frame) * scale.ratio;
            let (unit, word) = match units {
                Units::Imperial => (304.8, "ft"),
                Units::Metric => (1000.0, "m"),
            };
            let says = format!("{:.0} {word}", bar / unit);
            assert!((bar / unit - (bar / unit).round()).abs() < 1e-6, "{bar}");
            assert!(texts(page).iter().any(|(text, _)| *text == says), "{says}");
        }
    }
}

/// How far apart the outermost ends of an ink are on paper, along x.
fn across(layers: &[Laid], ink: Ink) -> f64 {
    let xs = layers.iter().flat_map(|laid| {
        let items = laid
            .picture
            .items
            .iter()
            .filter(move |item| item.ink == ink);
        let bounds = items.filter_map(|item| item.shape.bounds(laid.picture.scale));
        bounds.flat_map(|(low, high)| [low.x / laid.picture.scale, high.x / laid.picture.scale])
    });
    let xs: Vec<f64> = xs.collect();
    let low = xs.iter().copied().fold(f64::INFINITY, f64::min);
    xs.iter().copied().fold(f64::NEG_INFINITY, f64::max) - low
}

#[test]
fn the_check_bar_is_a_hundred_millimetres_on_every_framed_page() {
    let plan = sample::house();
    for page in pages(&plan, Size::A4) {
        let bars = page.marks().filter(|mark| match mark {
            Mark::Path { points, .. } => {
                points.len() == 2 && (points[0].distance(points[1]) - 100.0).abs() < 1e-9
            }
            _ => false,
        });
        let wanted = usize::from(!page.kind.is_stock());
        assert_eq!(bars.count(), wanted, "{}", page.name);
    }
}

#[test]
fn an_empty_plan_still_gives_every_sheet() {
    let plan = Plan::new();
    let pages = pages(&plan, Size::Letter);
    assert!(pages.iter().any(|page| page.kind == Kind::Cover));
    assert!(pages.iter().all(|page| overlaps(page).is_empty()));
}

#[test]
fn a_link_is_a_code_on_the_cover_or_behind_it() {
    let plan = sample::house();
    let design = Design::of(&plan);
    let paper = Paper::of(Size::Letter);
    for length in [60, 1200] {
        let link = format!("https://borewright.example/#Q{}", "A1".repeat(length));
        let pages = Sheets::with_link(&plan, &design, &paper, Some(&link));
        let without = Sheets::of(&plan, &design, &paper);
        let modules = |pages: &[Page]| {
            let covers = pages.iter().filter(|page| page.kind == Kind::Cover);
            covers.map(|page| page.marks().count()).sum::<usize>()
        };
        assert!(modules(&pages) > modules(&without) + 100, "{length}");
        assert!(pages.iter().all(|page| overlaps(page).is_empty()));
    }
}

#[test]
fn a_line_to_write_on_gives_way_before_the_code_takes_a_page() {
    let note = "Ask the builder about the garage. ".repeat(4);
    let plan = sample::house().apply(&Edit::SetNote(note)).unwrap();
    let design = Design::of(&plan);
    let paper = Paper::of(Size::Letter);
    let covers = |length: usize| {
        let link = format!("https://borewright.example/#Q{}", "A1".repeat(length));
        let pages = Sheets::with_link(&plan, &design, &paper, Some(&link));
        let is_cover = |page: &Page| page.kind == Kind::Cover;
        let covers: Vec<Page> = pages.into_iter().filter(is_cover).collect();
        let rules = covers[0].layers[0]
            .picture
            .items
            .iter()
            .filter(|item| item.ink == Ink::Rule);
        (covers.len(), rules.count())
    };
    let found: Vec<_> = (10..600).step_by(10).map(covers).collect();
    let lines = found.iter().map(|(_, lines)| *lines).max().unwrap();
    let (few, far) = ((1, lines - 1), (2, lines));
    assert!(found.contains(&few) && found.contains(&far), "{found:?}");
    assert!(found.iter().all(|one| [(1, lines), few, far].contains(one)));
}

#[test]
fn long_names_are_shortened_rather_than_run_over() {
    let plan = sample::house();
    let long = "The very long name of a job on a very long street ".repeat(6);
    let plan = plan
        .apply(&Edit::SetTitle(long.trim().to_string()))
        .unwrap();
    for page in pages(&plan, Size::Letter) {
        assert_eq!(overlaps(&page), vec![], "{}", page.name);
        for (text, area) in texts(&page) {
            assert!(area.high.x < page.extent.width, "{text}");
        }
    }
    assert!(font::width("m", Weight::Regular) > 0.0);
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(12))]
    #[test]
    fn no_text_lies_on_text_on_any_page(
        places in prop::collection::vec(
            (0_usize..10, 0.02..0.98, any::<bool>(), 0_usize..7), 0..20),
        size in prop::sample::select(Size::ALL.to_vec()),
    ) {
        for page in pages(&sample::with_drops(&places), size) {
            prop_assert_eq!(overlaps(&page), vec![], "{}", page.name);
        }
    }
}
