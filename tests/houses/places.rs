//! Where ways, holes and boxes may lie: small plans of a few walls that once came out wrong, each with
//! what is right, and laws over every plan of the tests, the demos and random ones.

use borewright_core::bore::Bore;
use borewright_core::design::Design;
use borewright_core::finding::Severity;
use borewright_core::plan::edit::{Edit, sample};
use borewright_core::plan::{LevelId, Plan, PowerPlace, PowerRun, PowerRunId, WallId};
use borewright_core::route::{Member, MoveKind, NoWay};
use borewright_core::rules::RuleId;
use borewright_core::shape::{Point, Pos, Segment};
use borewright_core::units::Mm;

use crate::plan;

/// A cable and its bore have some width: so much of the distance from power is theirs, millimetres.
const CABLE: f64 = 10.0;

pub fn place(name: &str) -> Plan {
    plan(&format!("places/{name}"))
}

/// Every saved plan there is: houses, places and demos.
pub fn saved() -> Vec<(String, Plan)> {
    let top = concat!(env!("CARGO_MANIFEST_DIR"), "/plans");
    let folders = [
        String::from(top),
        format!("{top}/places"),
        format!("{top}/../../static/demo"),
    ];
    let files = folders.iter().flat_map(|folder| {
        let entries = std::fs::read_dir(folder).unwrap();
        entries.map(|entry| entry.unwrap().path())
    });
    let is_plan = |path: &std::path::PathBuf| {
        let name = path.to_string_lossy();
        name.ends_with(".json") && !name.ends_with(".truth.json")
    };
    let mut files: Vec<_> = files.filter(is_plan).collect();
    files.sort();
    let read = |path: std::path::PathBuf| {
        let plan = borewright_core::file::read(&std::fs::read(&path).unwrap());
        (path.to_string_lossy().into_owned(), plan.unwrap().plan)
    };
    files.into_iter().map(read).collect()
}

/// Every saved plan, and random ones.
pub fn every_plan() -> Vec<(String, Plan)> {
    let random = (0..24).map(|seed| (format!("seed {seed}"), sample::plan(seed, 160)));
    saved().into_iter().chain(random).collect()
}

/// Findings whose key starts like this: severity and words.
pub fn found(plan: &Plan, key: &str) -> Vec<(Severity, String)> {
    let findings = Design::of(plan).findings.into_iter();
    let ours = findings.filter(|finding| finding.key.starts_with(key));
    ours.map(|finding| (finding.severity, finding.what))
        .collect()
}

/// Offset and height of every bore in studs or corners of a wall.
fn bored(design: &Design, wall: u32) -> Vec<(f64, f64)> {
    let crossing = |bore: &Bore| &design.ways.crossings[bore.crossing];
    let upright = |bore: &&Bore| {
        let crossing = crossing(bore);
        let member = matches!(crossing.member, Member::Studs(_) | Member::Corner { .. });
        member && crossing.wall == Some(WallId(wall))
    };
    let bores = design.bores.iter().filter(upright);
    bores.map(|bore| (bore.offset, bore.height)).collect()
}

/// Twenty-six feet of power at 27-1/2 in: the wall is free elsewhere, so the lane is a foot off.
#[test]
fn a_lane_lies_where_no_power_runs_along() {
    let plan = place("p1_lane_power700");
    let design = Design::of(&plan);
    let bores = bored(&design, 3);
    assert!(bores.len() > 10, "{bores:?}");
    let apart = plan.rules.value(RuleId::PowerParallel);
    for (offset, height) in bores {
        assert!((height - 700.0).abs() >= apart, "{offset}: {height}");
    }
    assert_eq!(found(&plan, "power:"), []);
}

#[test]
fn a_lane_pinned_on_power_is_told_by_pin_and_power() {
    let plan = place("p2_pinned_on_power");
    let design = Design::of(&plan);
    let Some(NoWay::Cut(words)) = &design.ways.ways[0].trouble else {
        panic!("{:?}", design.ways.ways[0].trouble);
    };
    let told = "power cable at 24 in stops the lane of W3, which is pinned at 24 in";
    assert!(words.starts_with(told), "{words}");
    let lane = found(&plan, "lane-power:W3");
    assert_eq!(lane.len(), 1);
    assert!(lane[0].1.contains(told), "{lane:?}");
    let free = plan.apply(&Edit::RemovePin(plan.pins[0])).unwrap();
    assert_eq!(found(&free, "lane-power"), []);
    assert_eq!(Design::of(&free).ways.ways[0].trouble, None);
}

/// A run belongs to the level whose ceiling it lies on: over level 1 it moves nothing in the attic
/// over level 2, over level 2 it does.
#[test]
fn power_works_on_its_own_level_only() {
    let under = place("p4_power_over_L1_only");
    let none = place("p4_two_levels");
    let ways = |plan: &Plan| Design::of(plan).ways.ways;
    assert_eq!(ways(&under), ways(&none));
    let run = under.levels[0].power_runs[0].clone();
    let over = none.apply(&Edit::AddPowerRun(LevelId(2), run)).unwrap();
    assert_ne!(ways(&over), ways(&none));
}

/// The row across the joists lies a stop distance off the power that lay in its line.
#[test]
fn a_row_across_joists_keeps_off_power() {
    let plan = place("p5_power_along_bored_row");
    let design = Design::of(&plan);
    let joist = |bore: &&Bore| {
        let member = &design.ways.crossings[bore.crossing].member;
        matches!(member, Member::Joist { .. })
    };
    let apart = |bore: &Bore| (design.ways.crossings[bore.crossing].at.y - 2000.0).abs();
    let rows: Vec<f64> = design.bores.iter().filter(joist).map(apart).collect();
    assert!(rows.len() > 10, "{rows:?}");
    let parallel = plan.rules.value(RuleId::PowerParallel);
    assert!(rows.iter().all(|apart| *apart >= parallel), "{rows:?}");
    assert_eq!(found(&plan, "power:"), []);
}

#[test]
fn power_at_the_height_of_a_box_is_told() {
    let plan = place("p7_power_at_box_height");
    let told = found(&plan, "power-box:");
    assert_eq!(told.len(), 1, "{told:?}");
    assert_eq!(told[0].1, "Power cable lies where the box of D1 is.");
    // The box reaches 47.5 mm up; power an inch above it is nearer than 2 in, power 3 in above it is not.
    let raised = |by: i32| {
        let run = plan.levels[0].power_runs[0].clone();
        let PowerPlace::Wall {
            wall,
            from,
            to,
            height,
        } = run.place
        else {
            panic!("it runs in a wall");
        };
        let height = height + Mm(by);
        let place = PowerPlace::Wall {
            wall,
            from,
            to,
            height,
        };
        let plan = plan.apply(&Edit::RemovePowerRun(run.id)).unwrap();
        let edit = Edit::AddPowerRun(LevelId(1), PowerRun { place, ..run });
        found(&plan.apply(&edit).unwrap(), "power-box:").len()
    };
    assert_eq!([73, 124].map(raised), [1, 0]);
}

#[test]
fn a_closet_at_the_service_panel_is_told() {
    let plan = place("p8_service_panel_at_closet");
    let told = found(&plan, "power-closet");
    assert_eq!(told.len(), 1);
    assert_eq!(told[0].1, "The closet is where the service panel hangs.");
    let moved = |to: i32| {
        let mut closet = plan.closet.unwrap();
        if let borewright_core::plan::ClosetPlace::Wall { offset, .. } = &mut closet.place {
            *offset = Mm(to);
        }
        found(
            &plan.apply(&Edit::SetCloset(Some(closet))).unwrap(),
            "power-closet",
        )
        .len()
    };
    // The panel begins at 7300: 700 mm beside it is nearer than 30 in, 800 mm is not.
    assert_eq!([6600, 6500].map(moved), [1, 0]);
}

/// Bores of uprights over the opening that starts and ends here, and the upper side of its header.
fn over(design: &Design, wall: u32) -> (Vec<f64>, f64) {
    let framed = design.framing.wall(WallId(wall)).unwrap();
    let header = framed.headers[0];
    let here =
        |(offset, _): &(f64, f64)| header.from - 45.0 < *offset && *offset < header.to + 45.0;
    let bores = bored(design, wall).into_iter().filter(here);
    (bores.map(|(_, height)| height).collect(), header.top)
}

/// Under a closed roof, over a slab, a door in each of the two walls that lead to the closet: over the
/// header there are cripples.
#[test]
fn cable_goes_over_a_door_through_its_cripples() {
    for name in ["r3_closed_roof_two_doors", "r3b_closed_roof_one_door"] {
        let design = Design::of(&place(name));
        let way = &design.ways.ways[0];
        assert_eq!(way.trouble, None, "{name}");
        // 7 m along the wall, up from its lane over the door and down again, and up to the panel.
        assert!(way.length < Mm(12_500), "{name}: {}", way.length.0);
        let (bores, header) = over(&design, 3);
        assert!(bores.len() >= 3, "{name}: {bores:?}");
        assert!(
            bores.iter().all(|height| *height > header + 50.0),
            "{name}: {bores:?}"
        );
        assert!(design.bores.iter().all(|bore| bore.within_rules), "{name}");
    }
}

/// Bores in uprights that lie in an opening or its header, or nearer to it than a hole keeps from the end
/// of a short stud.
fn in_openings(plan: &Plan) -> Vec<String> {
    let design = Design::of(plan);
    let mut wrong = Vec::new();
    let walls = plan
        .levels
        .iter()
        .flat_map(|level| level.walls.iter().map(move |w| (level, w)));
    for (level, wall) in walls {
        let Some(framed) = design.framing.wall(wall.id) else {
            continue;
        };
        for opening in level.openings_of(wall.id) {
            let header = framed
                .headers
                .iter()
                .find(|header| header.opening == opening.id)
                .unwrap();
            let bores = bored(&design, wall.id.0).into_iter();
            let between = bores.filter(|(offset, _)| header.from < *offset && *offset < header.to);
            let met = between.filter(|(_, height)| {
                opening.sill.f64() - 38.0 < *height && *height < header.top + 20.0
            });
            wrong.extend(met.map(|bore| format!("W{}: {bore:?}", wall.id.0)));
        }
    }
    wrong
}

#[test]
fn no_bore_lies_in_an_opening_or_a_header_in_any_plan() {
    for (name, plan) in every_plan() {
        assert_eq!(in_openings(&plan), [""; 0], "{name}");
    }
}

/// A flush beam drawn to the centre lines of the walls, and one drawn 1 mm farther, part the floor alike.
#[test]
fn nothing_passes_a_flush_beam_at_its_end() {
    let [to_line, farther] = ["r17_flush_beam", "r17c_beam_half_mm"].map(place);
    for plan in [&to_line, &farther] {
        for step in Design::of(plan).ways.ways.iter().flat_map(|way| &way.moves) {
            let (low, high) = (
                step.from.at.y.min(step.to.at.y),
                step.from.at.y.max(step.to.at.y),
            );
            let overhead = matches!(
                step.kind,
                MoveKind::AlongStrip { .. } | MoveKind::AcrossStrips { .. }
            );
            assert!(!overhead || high < 1950.0 || 2050.0 < low, "{step:?}");
        }
    }
    assert_eq!(
        Design::of(&to_line).ways.ways,
        Design::of(&farther).ways.ways
    );
}

/// 6 ft is 1828.8 mm: 1828 and 1829 are both 6 ft, and have the same studs.
#[test]
fn an_opening_is_framed_by_its_nominal_width() {
    let kinds = |name| {
        let framing = Design::of(&place(name)).framing;
        let studs = framing.wall(WallId(3)).unwrap().studs.clone().into_iter();
        studs.map(|stud| stud.kind).collect::<Vec<_>>()
    };
    assert_eq!(kinds("r23_six_foot_jacks"), kinds("r23_six_foot_1828"));
}

/// IRC R302.11 item 1, from memory: a wall of 5.5 m is blocked at 10 ft, and cable that rises in it
/// passes a block.
#[test]
fn a_tall_wall_is_blocked_half_way_up() {
    let plan = place("r9_tall_wall_no_fireblock");
    let told = found(&plan, "fireblock:");
    assert_eq!(told.len(), 1, "{told:?}");
    assert!(told[0].1.contains("1 cable passes a block"), "{told:?}");
    let low = Edit::SetLevel {
        level: LevelId(1),
        name: String::from("L1"),
        ceiling: Mm(3000),
    };
    assert_eq!(found(&plan.apply(&low).unwrap(), "fireblock:"), []);
}

/// Two runs of power through a house at the usual lane of each wall and over each level.
fn wired(plan: &Plan) -> Plan {
    let mut edits = Vec::new();
    let run = |level: LevelId, place| {
        let (id, circuits, panel) = (PowerRunId(0), 3, false);
        Edit::AddPowerRun(
            level,
            PowerRun {
                id,
                place,
                circuits,
                panel,
            },
        )
    };
    for level in &plan.levels {
        for wall in &level.walls {
            let Some(line) = wall.line() else { continue };
            let (from, to) = (Mm(200), Mm::rounded(line.length - 200.0));
            let (wall, height) = (wall.id, Mm(610));
            if to > from {
                edits.push(run(
                    level.id,
                    PowerPlace::Wall {
                        wall,
                        from,
                        to,
                        height,
                    },
                ));
            }
        }
        let ends = level.walls.iter().map(|wall| wall.from);
        let points: Vec<Point> = ends.take(4).collect();
        edits.push(run(level.id, PowerPlace::Overhead(points)));
    }
    let apply = |plan: Plan, edit: &Edit| plan.apply(edit).unwrap_or(plan);
    edits.iter().fold(plan.clone(), apply)
}

/// How far of a stretch lies nearer than this to a run in its direction, in steps of an inch.
fn along(from: Pos, to: Pos, run: &Segment, near: f64) -> f64 {
    let Some(stretch) = Segment::between(from, to) else {
        return 0.0;
    };
    if stretch.along.cross(run.along).abs() > 0.02 {
        return 0.0;
    }
    let steps = (stretch.length / 25.4) as u32;
    let at = |step: u32| stretch.at(f64::from(step) * 25.4, 0.0);
    let close = (0..=steps).filter(|step| run.distance_to(at(*step)) < near);
    close.count() as f64 * 25.4
}

/// Bores and stretches that lie nearer to power than stops a way.
fn on_power(plan: &Plan) -> Vec<String> {
    let design = Design::of(plan);
    let stop = plan.rules.value(RuleId::PowerStop);
    let mut wrong = Vec::new();
    for (place, level) in plan.levels.iter().enumerate() {
        let above = design.framing.levels[place].above;
        for run in &level.power_runs {
            match &run.place {
                PowerPlace::Wall {
                    wall,
                    from,
                    to,
                    height,
                } if to > from => {
                    let bores = bored(&design, wall.0).into_iter();
                    let span = from.f64()..=to.f64();
                    let bores = bores.filter(|(offset, at)| {
                        span.contains(offset) && (at - height.f64()).abs() < stop
                    });
                    wrong.extend(bores.map(|bore| format!("W{}: {bore:?}", wall.0)));
                }
                PowerPlace::Wall { .. } => {}
                PowerPlace::Overhead(points) => {
                    let runs = points.windows(2);
                    let runs: Vec<Segment> = runs
                        .filter_map(|pair| Segment::between(pair[0].pos(), pair[1].pos()))
                        .collect();
                    for step in design.ways.ways.iter().flat_map(|way| &way.moves) {
                        let here = match step.kind {
                            MoveKind::AlongStrip { space } | MoveKind::AcrossStrips { space } => {
                                Some(space) == above
                            }
                            _ => false,
                        };
                        let (a, b) = (step.from.at, step.to.at);
                        let far = |run: &Segment| along(a, b, run, stop + CABLE - 1.0);
                        if here && runs.iter().map(far).fold(0.0, f64::max) > 80.0 {
                            wrong.push(format!("over {}: {a:?} to {b:?}", level.name));
                        }
                    }
                }
            }
        }
    }
    wrong
}

#[test]
fn no_way_lies_on_power_in_any_plan() {
    for (name, plan) in every_plan() {
        assert_eq!(on_power(&plan), [""; 0], "{name}");
        let wired = wired(&plan);
        assert_eq!(on_power(&wired), [""; 0], "{name}, wired");
    }
}

/// What the law asks can fail: a stretch 20 mm beside power in its direction is seen, one 60 mm beside
/// it is not.
#[test]
fn a_stretch_on_power_is_seen() {
    let run = Segment::between(Pos::new(0.0, 0.0), Pos::new(4000.0, 0.0)).unwrap();
    let beside = |y: f64| along(Pos::new(0.0, y), Pos::new(600.0, y), &run, 34.0);
    assert!(beside(20.0) > 500.0);
    assert_eq!(beside(60.0), 0.0);
}
