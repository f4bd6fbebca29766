//! What holds on every page of every plan that is kept: nothing is cut, nothing is left in another
//! tongue, no wood is written over, and nobody is told that all is clear over a bore in what bears.

use std::collections::BTreeSet;
use std::path::Path;

use super::mark::Mark;
use super::*;
use crate::bore;
use crate::picture::{Ink, Shape, Type, best_side, elevation, sample};
use crate::plan::edit::Edit;
use crate::plan::{Dismissal, Wall};

/// Every house that is kept, the demos, the sample, and some drawn at random.
pub(super) fn plans() -> Vec<Plan> {
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("..");
    let kept = [
        "static/demo/demo.json",
        "static/demo/two-storeys.json",
        "tests/plans/house-a.json",
        "tests/plans/house-b.json",
        "tests/plans/house-c.json",
    ];
    let read = |path: &str| {
        let bytes = std::fs::read(root.join(path)).unwrap();
        crate::file::read(&bytes).unwrap().plan
    };
    let random = (0..4).map(|seed| crate::plan::edit::sample::plan(seed, 120));
    let printed = printed(&read("static/demo/demo.json"));
    let kept = kept.map(read).into_iter();
    kept.chain(random)
        .chain([sample::house(), printed])
        .collect()
}

/// A plan whose sheets were printed before a drop was taken out and another placed.
fn printed(plan: &Plan) -> Plan {
    let (rows, sum) = Design::of(plan).on_paper(plan);
    let first = &plan.drops[0];
    let again = Edit::AddDrop {
        kind: first.kind,
        level: first.level,
        place: plan.drops[plan.drops.len() - 1].place,
    };
    let later = [
        Edit::KeepNumbers { rows, sum },
        Edit::RemoveDrop(first.id),
        again,
        Edit::NextRevision,
    ];
    plan.apply(&Edit::Together(later.to_vec())).unwrap()
}

pub(super) fn texts(page: &Page) -> Vec<String> {
    let words = page.marks().filter_map(|mark| match mark {
        Mark::Text { text, .. } => Some(text),
        _ => None,
    });
    words.collect()
}

pub(super) fn stacks() -> impl Iterator<Item = Stack> {
    Stack::FOR.into_iter().chain(Stack::LATER)
}

/// Asks something of every stack of every plan, on letter and on A4.
fn of_every_stack(check: impl Fn(&Plan, &Design, Size, Stack)) {
    for plan in plans() {
        let design = Design::of(&plan);
        for size in [Size::Letter, Size::A4] {
            stacks().for_each(|stack| check(&plan, &design, size, stack));
        }
    }
}

#[test]
fn no_text_is_cut_on_any_page() {
    of_every_stack(|plan, design, size, stack| {
        for page in Sheets::stack(plan, design, &Paper::of(size), stack, None) {
            for text in texts(&page) {
                let cut = text.contains('…');
                assert!(!cut, "{} {} {}: {text}", plan.title, size.name(), page.name);
            }
        }
    });
}

#[test]
fn what_shares_a_page_stays_over_its_foot() {
    let link = Some("https://borewright.example/#Q");
    of_every_stack(|plan, design, size, stack| {
        let drafts = Sheets::drafts(plan, design, &Paper::of(size), stack, link);
        for draft in drafts.iter().filter(|draft| !draft.heading.kind.is_stock()) {
            let body = frame::body(plan, draft.extent, &draft.heading);
            // A date or a name as long as a book leaves a page no room for anything.
            if body.height() < 100.0 {
                continue;
            }
            let low = draft.layers.iter().flat_map(Laid::marks);
            let lowest = low.map(|mark| mark.bottom()).fold(0.0, f64::max);
            let (name, size, foot) = (&draft.heading.name, size.name(), body.high.y);
            assert!(
                lowest <= foot + 1.0,
                "{} {size} {name}: {lowest} under {foot}",
                plan.title
            );
        }
    });
}

/// What stands on several pages stands on pages that follow each other: nothing is stapled in between.
#[test]
fn no_section_is_cut_by_another() {
    let link = Some("https://borewright.example/#Q");
    of_every_stack(|plan, design, size, stack| {
        let drafts = Sheets::drafts(plan, design, &Paper::of(size), stack, link);
        let levels: Vec<&str> = plan
            .levels
            .iter()
            .map(|level| level.name.as_str())
            .collect();
        let mut stands: std::collections::BTreeMap<&str, Vec<usize>> = Default::default();
        for (place, draft) in drafts.iter().enumerate() {
            let parts = draft.heading.name.split(" · ");
            let parts: BTreeSet<&str> = parts.filter(|part| !levels.contains(part)).collect();
            for part in parts {
                stands.entry(part).or_default().push(place);
            }
        }
        for (part, places) in stands {
            let together = places.windows(2).all(|pair| pair[1] == pair[0] + 1);
            let (title, size) = (&plan.title, size.name());
            assert!(together, "{title} {size} {stack:?}, {part}: {places:?}");
        }
    });
}

/// The words that a person gave a plan.
fn own_words(plan: &Plan) -> BTreeSet<String> {
    let mut own = vec![plan.title.clone(), plan.note.clone(), plan.date.clone()];
    for level in &plan.levels {
        own.push(level.name.clone());
        own.extend(level.rooms.iter().map(|room| room.name.clone()));
    }
    own.extend(plan.drops.iter().map(|drop| drop.note.clone()));
    own.extend(plan.catalogue.cables.iter().map(|kind| kind.name.clone()));
    own.iter().flat_map(|text| words(text)).collect()
}

/// Words of three letters and more: shorter ones are units and identities.
fn words(text: &str) -> Vec<String> {
    let parts = text.split(|sign: char| !sign.is_alphabetic());
    let long = parts.filter(|word| word.chars().count() > 2);
    long.map(str::to_lowercase).collect()
}

#[test]
fn a_crews_sheets_in_spanish_hold_no_word_that_is_not() {
    let table = include_str!("../tongue/es.txt");
    let lines = table.lines().filter(|line| !line.starts_with('#'));
    let spanish: BTreeSet<String> = lines
        .filter_map(|line| line.split_once(" = "))
        .flat_map(|(_, spanish)| words(spanish))
        .collect();
    let mut missing: BTreeSet<String> = BTreeSet::new();
    for plan in plans() {
        let design = Design::of(&plan);
        let own = own_words(&plan);
        // A name without a space in it is broken where it must be.
        let is_part = |word: &String| own.iter().any(|whole| whole.contains(word.as_str()));
        let version = link::version(&plan).code().unwrap_or_default();
        let version = words(&version);
        let paper = Paper::of(Size::Letter).in_tongue(Tongue::Spanish);
        for page in Sheets::stack(&plan, &design, &paper, Stack::Crew, None) {
            for text in texts(&page) {
                let strange = words(&text).into_iter().find(|word| {
                    !spanish.contains(word)
                        && !is_part(word)
                        && !version.contains(word)
                        && word != "min"
                });
                missing.extend(strange.map(|word| format!("{word}: {}: {text}", page.name)));
            }
        }
    }
    assert!(missing.is_empty(), "{missing:#?}");
}

#[test]
fn another_tongue_changes_the_crews_sheets_and_no_other() {
    let plan = sample::house();
    let design = Design::of(&plan);
    let words = |stack, tongue| {
        let paper = Paper::of(Size::Letter).in_tongue(tongue);
        let pages = Sheets::stack(&plan, &design, &paper, stack, None);
        pages.iter().flat_map(texts).collect::<Vec<_>>()
    };
    for stack in stacks() {
        let english = words(stack, Tongue::English);
        for tongue in [Tongue::Spanish, Tongue::Both] {
            let changed = words(stack, tongue) != english;
            assert_eq!(changed, stack == Stack::Crew, "{stack:?} {tongue:?}");
        }
    }
}

#[test]
fn nothing_is_written_on_wood() {
    for plan in plans() {
        let design = Design::of(&plan);
        let walls = plan.levels.iter().flat_map(|level| &level.walls);
        for wall in walls {
            let side = best_side(&plan, wall.id);
            let sizes = (Type::PAPER, Tongue::English);
            let picture = elevation(&plan, &design, wall.id, side, 48.0, sizes);
            let bounds = |item: &crate::picture::Item| item.shape.bounds(48.0).unwrap();
            let studs = picture.items.iter().filter(|item| {
                matches!(item.ink, Ink::Stud | Ink::Cripple) && matches!(item.shape, Shape::Area(_))
            });
            let studs: Vec<_> = studs.map(bounds).collect();
            let written = picture
                .items
                .iter()
                .filter(|item| matches!(item.shape, Shape::Text(_)) || item.ink == Ink::Paper);
            for item in written {
                let (low, high) = bounds(item);
                let hair = 0.05 * 48.0;
                let on = studs.iter().any(|(from, to)| {
                    low.x + hair < to.x
                        && from.x + hair < high.x
                        && low.y + hair < to.y
                        && from.y + hair < high.y
                });
                assert!(!on, "{} {}: {item:?}", plan.title, wall.label());
            }
        }
    }
}

#[test]
fn nobody_is_told_that_all_is_clear_over_a_bore_in_what_bears() {
    let mut told = 0;
    for plan in plans() {
        let design = Design::of(&plan);
        // Even where every finding is set aside.
        let mut quiet = plan.clone();
        quiet.dismissed = design
            .findings
            .iter()
            .map(|finding| Dismissal {
                key: finding.key.clone(),
                reason: String::from("asked"),
            })
            .collect();
        let design = Design::of(&quiet);
        let bears = bore::bearing_words(&quiet, &design.drill_list).is_some();
        let pages = Sheets::of(&quiet, &design, &Paper::of(Size::Letter));
        let said: String = pages
            .iter()
            .filter(|page| page.kind == Kind::Cover)
            .flat_map(texts)
            .collect::<Vec<_>>()
            .join(" ");
        let clear = said.contains("check is clear");
        let open = design.findings.iter().find(|f| f.dismissed.is_none());
        assert_eq!(
            clear,
            !bears && open.is_none(),
            "{} {bears} {open:?}",
            plan.title
        );
        let told_so = ["go through what bears", "goes through what bears"];
        let told_so = told_so.iter().any(|words| said.contains(words));
        assert_eq!(told_so, bears, "{}", plan.title);
        told += usize::from(bears);
    }
    assert!(told > 4);
}

#[test]
fn every_stack_is_numbered_by_itself_and_all_hold_every_sheet() {
    let plan = sample::house();
    let design = Design::of(&plan);
    let paper = Paper::of(Size::Letter);
    let all: BTreeSet<Kind> = Sheets::of(&plan, &design, &paper)
        .iter()
        .map(|page| page.kind)
        .collect();
    for stack in stacks() {
        let pages = Sheets::stack(&plan, &design, &paper, stack, None);
        let framed = pages.iter().filter(|page| !page.kind.is_stock());
        let count = framed.clone().count();
        for (place, page) in framed.enumerate() {
            let number = format!("{} of {count}", place + 1);
            assert!(
                texts(page).contains(&number),
                "{stack:?} {}: {number}",
                page.name
            );
        }
        for page in &pages {
            let kept = all.contains(&page.kind) || page.kind == Kind::LabelTest;
            assert!(kept, "{stack:?} {:?}", page.kind);
        }
        assert!(!pages.is_empty() || stack == Stack::PunchList, "{stack:?}");
    }
}

#[test]
fn the_crews_first_page_has_the_link_as_a_code() {
    let plan = sample::house();
    let design = Design::of(&plan);
    let paper = Paper::of(Size::Letter);
    let link = format!("https://borewright.example/#Q{}", "A1".repeat(60));
    let marks = |link: Option<&str>| {
        let pages = Sheets::stack(&plan, &design, &paper, Stack::Crew, link);
        let first = pages.iter().filter(|page| page.kind == Kind::Day);
        first.map(|page| page.marks().count()).sum::<usize>()
    };
    assert!(marks(Some(&link)) > marks(None) + 100);
}

#[test]
fn rows_in_what_bears_and_no_others_are_marked_to_ask() {
    let mut asked = 0;
    for plan in plans() {
        let design = Design::of(&plan);
        let bearing = design.drill_list.iter();
        let bearing = bearing.filter(|row| row.is_in_what_bears(&plan)).count();
        let pages = Sheets::stack(&plan, &design, &Paper::of(Size::Letter), Stack::Crew, None);
        let marked = pages.iter().flat_map(texts).filter(|text| text == "ask");
        assert_eq!(marked.count(), bearing, "{}", plan.title);
        asked += bearing;
    }
    assert!(asked > 20);
}

#[test]
fn studs_that_are_measured_from_carry_their_numbers() {
    let mut told = 0;
    for plan in plans() {
        let design = Design::of(&plan);
        for wall in plan.levels.iter().flat_map(|level| &level.walls) {
            let sizes = (Type::PAPER, Tongue::English);
            let side = best_side(&plan, wall.id);
            let picture = elevation(&plan, &design, wall.id, side, 96.0, sizes);
            let under = picture.items.iter().filter_map(|item| match &item.shape {
                Shape::Text(text) if item.ink == Ink::Note && text.at.y > 0.0 => Some(&text.text),
                _ => None,
            });
            let numbers: BTreeSet<u32> = under
                .flat_map(|text| text.split(','))
                .filter_map(|number| number.parse().ok())
                .collect();
            let measured = crate::picture::measured(&plan, &design, wall.id);
            assert!(
                measured.is_subset(&numbers),
                "{} {measured:?} {numbers:?}",
                wall.label()
            );
            told += measured.len();
        }
    }
    assert!(told > 100);
}

#[test]
fn a_crews_stack_lists_every_open_finding() {
    let squeezed = |words: &str| words.split_whitespace().collect::<String>();
    let mut told = 0;
    for plan in plans() {
        let design = Design::of(&plan);
        let pages = Sheets::stack(&plan, &design, &Paper::of(Size::Letter), Stack::Crew, None);
        let all: String = pages
            .iter()
            .flat_map(texts)
            .map(|text| squeezed(&text))
            .collect();
        for finding in design.findings.iter().filter(|f| f.dismissed.is_none()) {
            assert!(
                all.contains(&squeezed(finding.what.trim_end_matches('.'))),
                "{}",
                finding.what
            );
            told += 1;
        }
    }
    assert!(told > 30);
}

/// A bare number on a plan is a bore's: how many cables a trunk has is written another way, which the
/// legend explains.
#[test]
fn counts_on_trunks_do_not_look_like_numbers_of_bores() {
    let mut told = 0;
    for plan in plans() {
        let design = Design::of(&plan);
        let paper = Paper::of(Size::Letter);
        let drafts = Sheets::drafts(&plan, &design, &paper, Stack::Crew, None);
        for draft in &drafts {
            let items = draft.layers.iter().flat_map(|laid| &laid.picture.items);
            let written = |item: &crate::picture::Item| match &item.shape {
                Shape::Text(text) => Some((item.ink, text.text.clone())),
                _ => None,
            };
            let texts: Vec<(Ink, String)> = items.filter_map(written).collect();
            let on_trunks = texts.iter().filter(|(ink, _)| *ink == Ink::TrunkCount);
            let counts = on_trunks.filter(|(_, text)| text.contains(|c: char| c.is_ascii_digit()));
            let counts: Vec<&String> = counts.map(|(_, text)| text).collect();
            let bare = counts.iter().find(|count| count.parse::<u32>().is_ok());
            assert_eq!(bare, None, "{} {}", plan.title, draft.heading.name);
            let explained = texts.iter().any(|(_, text)| text.starts_with("trunk, ×"));
            assert!(explained || counts.is_empty(), "{}", draft.heading.name);
            told += counts.len();
        }
    }
    assert!(told > 20, "{told}");
}

/// How much of a stretch lies in a wall, millimetres, felt for at every hundredth of it.
fn in_wall(from: Pos, to: Pos, wall: &Wall) -> f64 {
    let half = wall.width().0 / 2.0;
    let steps = (0..100).map(|step| from + (to - from) * ((f64::from(step) + 0.5) / 100.0));
    let line = wall.line();
    let inside = steps.filter(|at| line.is_some_and(|line| line.distance_to(*at) < half));
    inside.count() as f64 / 100.0 * from.distance(to)
}

/// Nobody sees a leader that runs along in a wall: of those to bores and boxes on plans not one in fourteen
/// does, where there is no other place near.
#[test]
fn leaders_on_plans_do_not_run_along_in_walls() {
    let (mut drawn, mut hidden) = (0, Vec::new());
    for plan in plans() {
        let design = Design::of(&plan);
        let paper = Paper::of(Size::Letter);
        for draft in Sheets::drafts(&plan, &design, &paper, Stack::Crew, None) {
            let Kind::Level(level) = draft.heading.kind else {
                continue;
            };
            let level = plan.level(level).unwrap();
            let pictures = draft.layers.iter().map(|laid| &laid.picture);
            let items = pictures
                .flat_map(|picture| picture.items.windows(2).map(|pair| (picture.scale, pair)));
            for (scale, pair) in items {
                let (Ink::Leader, Shape::Line(ends)) = (pair[0].ink, &pair[0].shape) else {
                    continue;
                };
                if !matches!(pair[1].ink, Ink::BoreName | Ink::DropName) {
                    continue;
                }
                drawn += 1;
                let runs_in =
                    |wall: &&Wall| in_wall(ends[0], ends[1], wall) > wall.width().0 * 1.5 + scale;
                let wall = level.walls.iter().find(runs_in);
                let name = &draft.heading.name;
                hidden.extend(wall.map(|wall| {
                    format!(
                        "{} {name} {}: {:?}",
                        plan.title,
                        wall.label(),
                        pair[1].shape
                    )
                }));
            }
        }
    }
    assert!(drawn > 40, "{drawn}");
    assert!(
        hidden.len() * 14 <= drawn,
        "{} of {drawn}: {hidden:#?}",
        hidden.len()
    );
}

/// What a crew carries: no more pages on letter and on A4 than these, with the codes of plan and walls, from the
/// long search, as sheets are printed.
#[test]
fn a_crews_stack_is_no_thicker_than_it_was_made() {
    let most = [
        ("static/demo/demo.json", [12, 12]),
        ("static/demo/two-storeys.json", [18, 18]),
        ("tests/plans/house-a.json", [13, 13]),
        ("tests/plans/house-b.json", [24, 25]),
        ("tests/plans/house-c.json", [24, 24]),
    ];
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("..");
    for (path, most) in most {
        let bytes = std::fs::read(root.join(path)).unwrap();
        let plan = crate::file::read(&bytes).unwrap().plan;
        let design = Design::long(&plan);
        let link = link::write(&plan, link::Privacy::Everything).unwrap();
        let link = link::encode_qr_text(&link);
        let link = format!("https://borewright.example/#{link}");
        for (size, most) in [Size::Letter, Size::A4].into_iter().zip(most) {
            let paper = Paper::of(size);
            let pages = Sheets::stack(&plan, &design, &paper, Stack::Crew, Some(&link));
            let names: Vec<&str> = pages.iter().map(|page| page.name.as_str()).collect();
            let count = pages.len();
            assert!(count <= most, "{path} {}: {count} {names:#?}", size.name());
        }
    }
}
