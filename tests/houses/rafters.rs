//! What hangs on a sloped ceiling: its cable comes along its rafter bay, once somebody said how the rafters run.

use borewright_core::design::Design;
use borewright_core::finding::Severity;
use borewright_core::plan::edit::Edit;
use borewright_core::plan::{Above, DropKind, LevelId, Place, Plan, Rafters, WallId};
use borewright_core::route::{Member, MoveKind, words};
use borewright_core::shape::{Direction, Point};

use crate::places::{every_plan, found, place};

fn roofed(plan: &Plan, rafters: Rafters) -> Plan {
    let top = plan.levels.last().unwrap().id;
    let roof = Above::ClosedRoof(Some(rafters));
    plan.apply(&Edit::SetAbove(top, roof)).unwrap()
}

/// What is not stated is asked, and not guessed: the way depends on it all the way.
#[test]
fn a_sloped_ceiling_asks_how_its_rafters_run() {
    let plan = place("r27_ap_on_vault");
    let told = found(&plan, "no-way:A1");
    assert_eq!(told.len(), 1);
    assert_eq!(told[0].0, Severity::Stop);
    assert!(
        told[0]
            .1
            .ends_with("the roof above is closed, and how its rafters run is not stated."),
        "{told:?}"
    );
    let finding = Design::of(&plan)
        .findings
        .into_iter()
        .find(|finding| finding.key == "no-way:A1");
    let todo = finding.unwrap().todo;
    assert!(
        todo.starts_with("State how the rafters over L1 run"),
        "{todo}"
    );
}

/// By hand, rafters down the sheet, 6 in 12: the bay of A1 at x 4000 rests on W1 and W3, both 2000 away; the
/// closet is in W3. Up the slope 2000 is 2236. From the plates at 2743 down to the lane at 610, 3500 along
/// W3 to x 500, and up to 1524: 2236 + 2133 + 3500 + 914 = 8783, give or take half a bay.
#[test]
fn an_access_point_on_a_vault_is_fed_along_its_rafter_bay() {
    let plan = roofed(
        &place("r27_ap_on_vault"),
        Rafters::along(Direction::ALONG_Y),
    );
    let design = Design::of(&plan);
    let way = &design.ways.ways[0];
    assert_eq!(way.trouble, None);
    assert!(
        (way.length.f64() - 8783.0).abs() < 406.4,
        "{:?}",
        way.length
    );
    let told = words(&plan, &design.framing, &design.ways, way);
    assert!(
        told.contains("along the rafter bay, down through the top plates of W3"),
        "{told}"
    );
    let plates: Vec<_> = (design.ways.crossings.iter())
        .filter(|crossing| matches!(crossing.member, Member::TopPlates(_)))
        .collect();
    assert_eq!(plates.len(), 1);
    assert_eq!(plates[0].wall, Some(WallId(3)));
    assert_eq!(found(&plan, "under-joist"), []);

    // Across the sheet it comes from W4, where the closet is near: 4000 up the slope is 4472.
    let across = roofed(&plan, Rafters::along(Direction::ALONG_X));
    let design = Design::of(&across);
    let told = words(&across, &design.framing, &design.ways, &design.ways.ways[0]);
    assert!(told.contains("down through the top plates of W4"), "{told}");
    let flat = Rafters {
        pitch: 0,
        ..Rafters::along(Direction::ALONG_X)
    };
    let level = Design::of(&roofed(&plan, flat)).ways.ways[0].length.f64();
    let steep = design.ways.ways[0].length.f64();
    assert!((steep - level - 472.0).abs() < 2.0, "{steep} {level}");
}

/// Past the ridge nothing leads: what hangs nearer to W1 comes from W1, though the closet is in W3; and where
/// W1 is never to be drilled it has no way, and says why.
#[test]
fn nothing_passes_the_ridge() {
    let plan = roofed(
        &place("r27_ap_on_vault"),
        Rafters::along(Direction::ALONG_Y),
    );
    let at = Point::new(4100, 1200);
    let moved = plan
        .apply(&Edit::MoveDrop(plan.drops[0].id, Place::Ceiling { at }))
        .unwrap();
    let design = Design::of(&moved);
    let told = words(&moved, &design.framing, &design.ways, &design.ways.ways[0]);
    assert!(told.contains("down through the top plates of W1"), "{told}");
    let wall = *moved.levels[0].wall(WallId(1)).unwrap();
    let never_drill = true;
    let shut = Edit::SetWall(borewright_core::plan::Wall {
        never_drill,
        ..wall
    });
    let shut = moved.apply(&shut).unwrap();
    let told = found(&shut, "no-way:A1");
    assert!(
        told[0]
            .1
            .ends_with("no wall under its rafter bay can be drilled up into it."),
        "{told:?}"
    );
}

/// Two in one bay share the hole up into it.
#[test]
fn two_in_one_rafter_bay_share_its_hole() {
    let plan = roofed(
        &place("r27_ap_on_vault"),
        Rafters::along(Direction::ALONG_Y),
    );
    let drop = |y| Edit::AddDrop {
        kind: DropKind::CeilingAccessPoint,
        level: LevelId(1),
        place: Place::Ceiling {
            at: Point::new(4100, y),
        },
    };
    let plan = Plan::apply(&plan, &Edit::RemoveDrop(plan.drops[0].id)).unwrap();
    let plan = plan
        .apply(&Edit::Together(vec![drop(2600), drop(3100)]))
        .unwrap();
    let design = Design::of(&plan);
    let up = |member: &Member| matches!(member, Member::TopPlates(_));
    let holes = design
        .ways
        .crossings
        .iter()
        .filter(|crossing| up(&crossing.member));
    let cables: Vec<usize> = holes.map(|crossing| crossing.cables.len()).collect();
    assert_eq!(cables, [2]);
}

/// Three access points more on the ceiling of the highest level; `None` where it has no walls or no room for them.
fn hung(plan: &Plan) -> Option<Plan> {
    let top = plan.levels.last()?;
    let ends = top.walls.iter().flat_map(|wall| [wall.from, wall.to]);
    let (low, high) = ends.clone().min().zip(ends.max())?;
    let on = |part: f64| Place::Ceiling {
        at: Point::new(
            low.x + ((high.x - low.x).abs() as f64 * part) as i32,
            low.y + ((high.y - low.y).abs() as f64 * part) as i32,
        ),
    };
    let drops = [0.2, 0.45, 0.8].map(|part| Edit::AddDrop {
        kind: DropKind::CeilingAccessPoint,
        level: top.id,
        place: on(part),
    });
    plan.apply(&Edit::Together(drops.to_vec())).ok()
}

/// Whatever the plan: under a closed roof whose rafters are stated no rafter is bored, no cable changes its
/// bay in it, every stretch is as long as the slope makes it, and only what hangs on that ceiling is there.
#[test]
fn cable_keeps_to_its_rafter_bay_in_any_plan() {
    let mut seen = 0;
    for (name, plan) in every_plan() {
        let top = plan.levels.last().unwrap().id;
        let Some(hung) = hung(&plan) else {
            continue;
        };
        for direction in [Direction::ALONG_X, Direction::ALONG_Y] {
            let plan = roofed(&hung, Rafters::along(direction));
            let design = Design::of(&plan);
            let framing = &design.framing;
            let Some(index) = framing.levels.last().unwrap().rafters else {
                continue;
            };
            let space = &framing.spaces[index];
            let bored = |member: &Member| matches!(member, Member::Joist { space } | Member::Web { space } if *space == index);
            assert!(
                !design.ways.crossings.iter().any(|c| bored(&c.member)),
                "{name}"
            );
            for way in &design.ways.ways {
                for step in &way.moves {
                    let MoveKind::AlongStrip { space: here } = step.kind else {
                        continue;
                    };
                    if here != index {
                        continue;
                    }
                    seen += 1;
                    let drop = plan.drop(way.drop).unwrap();
                    assert!(
                        matches!(drop.place, Place::Ceiling { .. }),
                        "{name}: {way:?}"
                    );
                    assert_eq!(drop.level, top, "{name}");
                    let (from, to) = (step.from.at, step.to.at);
                    assert_eq!(space.strip_at(from), space.strip_at(to), "{name}: {step:?}");
                    let run = (space.along_of(from) - space.along_of(to)).abs();
                    let rise = step.from.z - step.to.z;
                    // A wall may be drawn off the border: as far as walls may be drawn from meeting.
                    assert!(
                        (rise - run * space.rise).abs() < 320.0 * space.rise + 1.0,
                        "{name}: {step:?}"
                    );
                    assert!(
                        step.length * step.length + 1.0 > rise * rise,
                        "{name}: {step:?}"
                    );
                }
            }
        }
    }
    assert!(seen > 40, "{seen}");
}
