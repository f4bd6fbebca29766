//! The load of a plan, which is told before anything is worked out, against the graph that is then made.

use std::rc::Rc;

use borewright_core::agreement::standings;
use borewright_core::design::{Design, Load};
use borewright_core::desk::{Intent, Session, Step};
use borewright_core::file::{self, link};
use borewright_core::framing::Framing;
use borewright_core::picture::{self, Showing, Stress};
use borewright_core::plan::Plan;
use borewright_core::plan::edit::{Edit, sample};
use borewright_core::report::csv::{Table, csv};
use borewright_core::report::report;
use borewright_core::route::Routing;
use borewright_core::schedule::{Phase, room_list, test_lines};
use borewright_core::shape::Point;
use borewright_core::tongue::Tongue;

use crate::crowded::crowded;

/// A graph is this many times as large as it was said to be at most.
const UNDER: u64 = 3;

/// And it was said to be this many times as large as it is at most: of houses, and of plans that no house is
/// like, whose walls lie across each other.
const OVER: u64 = 3;
const OVER_INVENTED: u64 = 10;

/// Smaller graphs are light whatever is estimated of them.
const SMALL: u64 = 600;

/// Plans of the hostile set whose graphs are made in a moment.
const HOSTILE: [&str; 6] = [
    "021-grid-l1-2x2-c6000-d200x26.json",
    "parallel-200.json",
    "panic-walls-8000-608chars.link",
    "rooms-3000.json",
    "freeze-300drops-1725chars.link",
    "freeze-40drops-82walls-567chars.link",
];

/// The others of that set that are not light.
const HEAVY: [&str; 4] = [
    "050-parallel-1mm-1990.json",
    "freeze-1000drops-4883chars.link",
    "freeze-1000x4-5664chars.link",
    "freeze-100drops-202walls-1099chars.link",
];

pub fn hostile(name: &str) -> Plan {
    let path = format!("{}/files/hostile/{name}", env!("CARGO_MANIFEST_DIR"));
    let bytes = std::fs::read(path).unwrap();
    if name.ends_with(".json") {
        return file::read(&bytes).unwrap().plan;
    }
    let text = String::from_utf8(bytes).unwrap();
    let bytes = link::decode_text(text.trim()).unwrap();
    link::read(&bytes).unwrap().plan
}

fn houses() -> Vec<(String, Plan)> {
    let saved = ["house-a", "house-b", "house-c"];
    let mut all: Vec<_> = saved
        .map(|name| (name.to_string(), crate::plan(name)))
        .into();
    for name in ["house-b", "house-c"] {
        all.extend([60, 120, 350].map(|drops| {
            let plan = crowded(crate::plan(name), drops);
            (format!("{name} with {drops} drops"), plan)
        }));
    }
    all
}

fn invented() -> impl Iterator<Item = (String, Plan)> {
    (0..40).map(|seed| (format!("invented {seed}"), sample::plan(seed, 250)))
}

#[test]
fn the_graph_is_as_large_as_it_was_said_to_be() {
    let hostile = HOSTILE.map(|name| (name.to_string(), hostile(name)));
    let all = houses().into_iter().chain(hostile).chain(invented());
    for (name, plan) in all {
        let framing = Framing::of(&plan);
        let routing = Routing::of(&plan, &framing);
        let Some(problem) = routing.problem() else {
            continue;
        };
        let load = Load::of(&plan);
        let pairs = [
            ("places", load.places, u64::from(problem.nodes)),
            ("edges", load.edges, problem.edges.len() as u64),
        ];
        let over = match name.starts_with("invented") {
            true => OVER_INVENTED,
            false => OVER,
        };
        for (what, said, made) in pairs {
            let words = format!("{name}: {made} {what}, said to be {said}");
            assert!(made <= UNDER * said + SMALL, "{words}");
            assert!(said <= over * made + SMALL, "{words}");
        }
    }
}

#[test]
fn houses_are_light_and_what_froze_the_page_is_not() {
    for (name, plan) in houses() {
        let load = Load::of(&plan);
        assert!(load.is_light_for_a_frame(), "{name}: {load:?}");
        let cables = plan.cables().count();
        assert!(load.is_light() || cables > 250, "{name}: {load:?}");
    }
    for name in HEAVY {
        let plan = hostile(name);
        let load = Load::of(&plan);
        assert!(
            !load.is_light() && !load.is_light_for_a_frame(),
            "{name}: {load:?}"
        );
        // What is shown of it meanwhile holds its walls and claims nothing.
        let design = Design::at_once(&plan);
        assert!(!design.is_sought() && design.ways.ways.is_empty());
        let walls = design.framing.levels.iter().map(|level| level.walls.len());
        let drawn = plan.levels.iter().map(|level| level.walls.len());
        assert_eq!(walls.collect::<Vec<_>>(), drawn.collect::<Vec<_>>());
    }
}

/// What may be asked of a design that holds nothing, for every plan: it has no way, no hole and no count.
#[test]
fn nothing_is_claimed_of_a_plan_that_is_not_worked_out() {
    let demo = file::read(include_bytes!("../../static/demo/two-storeys.json"));
    let demo = ("demo".to_string(), demo.unwrap().plan);
    for (name, plan) in houses().into_iter().chain(invented()).chain([demo]) {
        let design = Design::unsought(&plan);
        for level in &plan.levels {
            for stress in [
                Stress::Drawing,
                Stress::Framing,
                Stress::Drops,
                Stress::Ways,
                Stress::Site(Phase::RoughIn),
            ] {
                let showing = Showing::on_screen(12.0, stress);
                let picture = picture::level(&plan, &design, level.id, &showing);
                assert!(
                    level.walls.is_empty() || !picture.items.is_empty(),
                    "{name}"
                );
            }
            for wall in &level.walls {
                let side = picture::best_side(&plan, wall.id);
                let words = (picture::Type::SCREEN, Tongue::English);
                let _ = picture::elevation(&plan, &design, wall.id, side, 20.0, words);
            }
        }
        let told = report(&plan, &design);
        assert_eq!(told["effort"], "not sought", "{name}");
        assert!(told["ways"].as_array().is_some_and(|ways| ways.is_empty()));
        for table in Table::ALL {
            let _ = csv(table, &plan, &design);
        }
        let _ = (standings(&plan, &design), room_list(&plan, &design.framing));
        assert!(test_lines(&plan, &design.cut_list).len() <= plan.cables().count());
        assert_eq!((design.totals.bores, design.findings.len()), (0, 0));
        let session = Session::settled(plan, design);
        assert!(!session.lacks(Step::Ways).clear, "{name}");
        assert!(!session.lacks(Step::Sheets).clear, "{name}");
    }
}

#[test]
fn a_heavy_plan_is_edited_while_it_is_worked_out_elsewhere() {
    let opened = Session::of(hostile("parallel-200.json"));
    assert!(!opened.design.is_sought());
    let rename = |title: &str| Intent::Edit(Edit::SetTitle(title.into()));
    let renamed = opened.after(&rename("Lot 9"));
    assert_eq!(renamed.plan.title, "Lot 9");
    assert!(!renamed.design.is_sought());
    let home = Rc::new(Design::of(&renamed.plan));
    let improved = renamed.after(&Intent::Improved(
        Rc::clone(&renamed.plan),
        Rc::clone(&home),
    ));
    assert!(Rc::ptr_eq(&improved.design, &home));
    // Another name changes nothing that is built.
    let named = improved.after(&rename("Lot 10"));
    assert!(Rc::ptr_eq(&named.design, &home));
    // The next change is not worked out here either, and what was is shown again when it comes back.
    let room = Edit::AddRoom {
        level: improved.plan.levels[0].id,
        name: "Den".into(),
        at: Point::new(0, 0),
    };
    let next = improved.after(&Intent::Edit(room));
    assert!(!next.design.is_sought());
    let back = next.after(&Intent::Undo);
    assert!(Rc::ptr_eq(&back.design, &home));
    // What came home too late changes nothing.
    let late = next.after(&Intent::Improved(Rc::clone(&renamed.plan), home));
    assert!(!late.design.is_sought());
}
