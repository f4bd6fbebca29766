//! Houses against counts made by hand, the path of every cable worked out beside the check (`a`, `b`,
//! `c`), and their holes (`holes`, `holes_b`, `tape`, `whereabouts`); how near their ways are to the best, and that no claim of
//! that is false (`gaps`); that neither
//! the order of drawing (`order`) nor the place on the sheet (`moved`, `mirrored`, `askew`) decides anything; what changes do
//! to every list (`changes`); designs of a drag's frames (`again`) and of the moment after an edit (`live`);
//! how much work a plan is said to be (`load`);
//! that ways cost what their finished holes take (`price`), that printed numbers of holes hold (`numbers`);
//! what stands in the way (`obstacles`, `places`), where boxes hang (`boxes`), why a way is as it is (`why`), how corners are
//! bored (`corners`), what is pulled together (`pulls`), what hangs on a sloped ceiling (`rafters`), how many cables
//! the closet's bay takes (`closet`), where cameras come in (`cameras`), what passes
//! over a bearing wall (`blocking`);
//! and that no two members are in one another (`solid`).

#![expect(clippy::unwrap_used, reason = "a test may stop at the first surprise")]

mod a;
mod again;
mod askew;
mod b;
mod basement;
mod blocking;
mod boxes;
#[path = "../../core/examples/figures/by_length.rs"]
mod by_length;
mod c;
mod cameras;
mod changes;
#[path = "../../core/examples/figures/claims.rs"]
mod claims;
mod closet;
mod corners;
#[path = "../../core/examples/figures/crowded.rs"]
mod crowded;
#[path = "../../core/examples/figures/edits.rs"]
mod edits;
mod gaps;
mod holes;
mod holes_b;
mod live;
mod load;
mod mirrored;
mod moved;
mod numbers;
mod obstacles;
mod order;
mod partly;
mod places;
mod price;
mod pulls;
mod rafters;
mod solid;
mod tape;
mod whereabouts;
mod why;

use borewright_core::design::Design;
use borewright_core::file;
use borewright_core::framing::Framing;
use borewright_core::plan::Plan;
use borewright_core::route::Routing;
use borewright_core::route::network::Effort;

fn plan(name: &str) -> Plan {
    let path = format!("{}/plans/{name}.json", env!("CARGO_MANIFEST_DIR"));
    file::read(&std::fs::read(path).unwrap()).unwrap().plan
}

fn demo(name: &str) -> Plan {
    let path = format!("{}/../static/demo/{name}.json", env!("CARGO_MANIFEST_DIR"));
    file::read(&std::fs::read(path).unwrap()).unwrap().plan
}

/// The houses and both demos, with their names.
fn houses_and_demos() -> Vec<(String, Plan)> {
    let houses = ["house-a", "house-b", "house-c"].map(|name| (name.to_string(), plan(name)));
    let demos = ["demo", "two-storeys"].map(|name| (name.to_string(), demo(name)));
    houses.into_iter().chain(demos).collect()
}

/// What a search of 250 restarts settles at. The page's makes more, which `cargo figures` measures.
fn settled(plan: &Plan) -> Design {
    let framing = Framing::of(plan);
    let answer = Routing::of(plan, &framing).answer(Effort::CAREFUL);
    Design::taking(plan, answer.as_ref()).unwrap()
}

/// A drop, its cables, and how long each is by hand, millimetres.
struct Counted {
    label: &'static str,
    cables: usize,
    length: i32,
}

/// Drop, cables, across (east or west) and along (north or south) to the panel's place, up, down, and
/// aside, millimetres.
type Stretches = (&'static str, usize, i32, i32, i32, i32, i32);

impl Counted {
    fn by_stretches((label, cables, across, along, up, down, aside): Stretches) -> Self {
        Self {
            label,
            cables,
            length: across + along + up + down + aside,
        }
    }
}

/// Holds a house as it settles against its count: each cable within 5 % or 3 ft, whichever is more, and all of
/// them together within 3 %.
fn agrees(house: &str, counts: impl Iterator<Item = Counted>) {
    let plan = plan(house);
    let design = settled(&plan);
    let (mut counted, mut found, mut drops) = (0.0, 0.0, 0);
    let mut wrong = Vec::new();
    for count in counts {
        let (label, by_hand) = (count.label, f64::from(count.length));
        let drop = plan.drops.iter().find(|drop| drop.label() == label);
        let cables = &drop.unwrap().cables;
        assert_eq!(cables.len(), count.cables, "{label}");
        for cable in cables {
            let way = design.ways.way(cable.id).unwrap();
            assert_eq!(way.trouble, None, "{label}");
            let off = (way.length.f64() - by_hand).abs();
            if off > (by_hand * 0.05).max(914.4) {
                wrong.push(format!("{label}: {} not {by_hand}", way.length.0));
            }
            counted += by_hand;
            found += way.length.f64();
        }
        drops += 1;
    }
    assert!(wrong.is_empty(), "{house}: {wrong:#?}");
    assert_eq!(drops, plan.drops.len(), "every drop is counted");
    assert!(
        (found - counted).abs() <= counted * 0.03,
        "{found} not {counted}"
    );
}

/// What must hold for every house: each cable of the plan stands once in the ways and the cut
/// list, its crossings hold it, and each bore stands once in the drill list.
#[test]
fn every_cable_and_every_bore_stands_exactly_once() {
    for house in ["house-a", "house-b", "house-c"] {
        let plan = plan(house);
        let design = Design::of(&plan);
        for (_, cable) in plan.cables() {
            let ways = design
                .ways
                .ways
                .iter()
                .filter(|way| way.cable == cable.id)
                .count();
            let cuts = design
                .cut_list
                .cuts
                .iter()
                .filter(|cut| cut.cable == cable.id)
                .count();
            let label = plan.cable_label(cable.id);
            assert_eq!((ways, cuts), (1, 1), "{house} {label}");
            for step in &design.ways.way(cable.id).unwrap().moves {
                let Some(crossing) = step.crossing else {
                    continue;
                };
                let bores = design.bores.iter().filter(|bore| bore.crossing == crossing);
                let through = bores.filter(|bore| bore.cables.contains(&cable.id)).count();
                assert_eq!(through, 1, "{house} {label} at crossing {crossing}");
            }
        }
        let mut listed: Vec<usize> = design
            .drill_list
            .iter()
            .flat_map(|row| row.bores.clone())
            .collect();
        listed.sort_unstable();
        let all: Vec<usize> = (0..design.bores.len()).collect();
        assert_eq!(listed, all, "{house}");
        assert!(design.bores.iter().all(|bore| bore.within_rules), "{house}");
    }
}
