//! The usual basement: walls of concrete that nobody drills, the closet on one of them, and joists that are
//! open from below or closed.

use borewright_core::design::Design;
use borewright_core::framing::SpaceKind;
use borewright_core::plan::edit::Edit;
use borewright_core::plan::{
    Above, Below, Closet, ClosetPlace, DropKind, Entry, Floor, JoistKind, LevelId, Lumber, Place,
    Plan, Role, Side, Wall, WallId,
};
use borewright_core::route::{Member, MoveKind, words};
use borewright_core::shape::{Direction, Point};
use borewright_core::units::{Mm, Size};

use crate::places::every_plan;

const WIDE: i32 = 10_000;
const DEEP: i32 = 8_000;

fn walls(plan: Plan, level: LevelId, lumber: Lumber) -> Plan {
    let corners = [(0, 0), (WIDE, 0), (WIDE, DEEP), (0, DEEP), (0, 0)];
    let at = |(x, y): (i32, i32)| Point::new(x, y);
    corners.windows(2).fold(plan, |plan, ends| {
        let (from, to, role) = (at(ends[0]), at(ends[1]), Role::Exterior);
        let wall = Edit::AddWall {
            level,
            from,
            to,
            lumber,
            role,
        };
        plan.apply(&wall).unwrap()
    })
}

/// One storey over a basement of concrete, an outlet in each wall upstairs, joists along y; the panel hangs on
/// the concrete of W1, in front of it.
fn basement(kind: JoistKind) -> Plan {
    let mut plan = Plan::new();
    let cellar = plan.levels[0].id;
    plan = walls(plan, cellar, Lumber::Width(Size::inches(8.0)));
    for wall in plan.levels[0].walls.clone() {
        let never_drill = true;
        plan = plan
            .apply(&Edit::SetWall(Wall {
                never_drill,
                ..wall
            }))
            .unwrap();
    }
    let floor = Floor {
        kind,
        ..Floor::sawn(Direction::ALONG_Y)
    };
    let name = String::from("Ground");
    plan = plan.apply(&Edit::AddLevel { name, floor }).unwrap();
    let ground = plan.levels[1].id;
    plan = walls(plan, ground, Lumber::TwoBySix);
    let roof = Edit::SetAbove(ground, Above::CLOSED);
    plan = plan.apply(&roof).unwrap();
    // It touches no other wall: what comes from it goes through the floor.
    plan = partition(plan, ground, (8000, 2000), (8000, 6000));
    for wall in plan.levels[1].walls.clone() {
        let place = Place::Wall {
            wall: wall.id,
            offset: Mm(2200),
            side: Side::Right,
            height: Mm(300),
        };
        let drop = Edit::AddDrop {
            kind: DropKind::Data,
            level: ground,
            place,
        };
        plan = plan.apply(&drop).unwrap();
    }
    closet(plan, cellar, WallId(1), Mm(2000))
}

fn partition(plan: Plan, level: LevelId, from: (i32, i32), to: (i32, i32)) -> Plan {
    let at = |(x, y): (i32, i32)| Point::new(x, y);
    let wall = Edit::AddWall {
        level,
        from: at(from),
        to: at(to),
        lumber: Lumber::TwoByFour,
        role: Role::Partition,
    };
    plan.apply(&wall).unwrap()
}

fn closet(plan: Plan, level: LevelId, wall: WallId, offset: Mm) -> Plan {
    let side = Side::Right;
    let closet = Closet {
        level,
        place: ClosetPlace::Wall { wall, offset, side },
        entry: Entry::Either,
        panel_height: Mm(1500),
    };
    plan.apply(&Edit::SetCloset(Some(closet))).unwrap()
}

fn opened(plan: &Plan) -> Plan {
    let cellar = plan.levels[0].id;
    plan.apply(&Edit::SetAbove(
        cellar,
        Above::Level {
            open: true,
            beside: None,
        },
    ))
    .unwrap()
}

fn joists_bored(design: &Design) -> usize {
    let joist = |member: &Member| matches!(member, Member::Joist { .. } | Member::Web { .. });
    let crossings = design.ways.crossings.iter();
    crossings.filter(|crossing| joist(&crossing.member)).count()
}

/// Nobody drills the concrete: cable comes down its face to a board.
#[test]
fn a_panel_on_concrete_hangs_on_a_board() {
    let plan = basement(JoistKind::Sawn);
    let design = Design::of(&plan);
    for way in &design.ways.ways {
        assert_eq!(way.trouble, None);
        let told = words(&plan, &design.framing, &design.ways, way);
        assert!(
            told.ends_with("down the face of W1, to the closet."),
            "{told}"
        );
        let last = way.moves.last().unwrap();
        assert_eq!(last.kind, MoveKind::OnFace { wall: WallId(1) });
    }
    let drilled = design
        .bores
        .iter()
        .filter_map(|bore| design.ways.crossings[bore.crossing].wall);
    let concrete = |wall| plan.levels[0].walls.iter().any(|known| known.id == wall);
    assert!(!drilled.into_iter().any(concrete));
}

/// Under open joists cable hangs, across them too; under closed ones every joist is bored.
#[test]
fn cable_hangs_under_open_joists() {
    for kind in [JoistKind::Sawn, JoistKind::IJoist] {
        let closed = Design::of(&basement(kind));
        let plan = opened(&basement(kind));
        let open = Design::of(&plan);
        assert!(joists_bored(&closed) >= 5, "{}", joists_bored(&closed));
        assert_eq!(joists_bored(&open), 0, "{kind:?}");
        let told: Vec<String> = open
            .ways
            .ways
            .iter()
            .map(|way| words(&plan, &open.framing, &open.ways, way))
            .collect();
        assert!(
            told.iter().all(|told| told.contains("under the joists")),
            "{told:?}"
        );
        assert!(open.totals.supports > closed.totals.supports);
    }
}

/// A wall from one side to the other right beneath a joist is in the way of what hangs: there, and only
/// there, cable goes through the joist.
#[test]
fn what_hangs_goes_through_the_joist_over_a_wall() {
    let plan = opened(&basement(JoistKind::Sawn));
    let level = plan.levels[0].id;
    let space = &Design::of(&plan).framing.spaces[0];
    let joists = space
        .strips
        .iter()
        .map(|strip| space.at(0.0, strip.from).x.round() as i32);
    let x = joists.min_by_key(|x| (x - 5000).abs()).unwrap();
    let plan = partition(plan, level, (x, 0), (x, DEEP));
    let design = Design::of(&plan);
    let joists: Vec<f64> = (design.ways.crossings.iter())
        .filter(|crossing| matches!(crossing.member, Member::Joist { .. }))
        .map(|crossing| crossing.at.x)
        .collect();
    assert!(!joists.is_empty());
    assert!(
        joists.iter().all(|at| (at - f64::from(x)).abs() < 1.0),
        "{joists:?}"
    );
}

/// One storey of a crawl space: an outlet in each wall and the closet in W1, under a closed roof.
fn over_a_crawl_space(kind: JoistKind) -> Plan {
    let mut plan = Plan::new();
    let ground = plan.levels[0].id;
    plan = walls(plan, ground, Lumber::TwoBySix);
    let floor = Floor {
        kind,
        ..Floor::sawn(Direction::ALONG_Y)
    };
    for edit in [
        Edit::SetBelow(ground, Below::Crawl(floor)),
        Edit::SetAbove(ground, Above::CLOSED),
    ] {
        plan = plan.apply(&edit).unwrap();
    }
    // It touches no other wall: what comes from it goes through the floor.
    plan = partition(plan, ground, (8000, 2000), (8000, 6000));
    let place = Place::Wall {
        wall: WallId(5),
        offset: Mm(2200),
        side: Side::Right,
        height: Mm(300),
    };
    let kind = DropKind::Data;
    let drop = Edit::AddDrop {
        kind,
        level: ground,
        place,
    };
    closet(plan.apply(&drop).unwrap(), ground, WallId(1), Mm(2000))
}

/// Nobody closes the underside of a floor over a crawl space: cable hangs across its joists, from the plates
/// of one wall to those of another, by their depth and the subfloor lower than the floor.
#[test]
fn cable_hangs_under_the_joists_of_a_crawl_space() {
    for kind in [JoistKind::Sawn, JoistKind::IJoist, JoistKind::OpenWeb] {
        let plan = over_a_crawl_space(kind);
        let design = Design::of(&plan);
        assert_eq!(joists_bored(&design), 0, "{kind:?}");
        let way = &design.ways.ways[0];
        let told = words(&plan, &design.framing, &design.ways, way);
        assert!(told.contains("under the joists"), "{told}");
        let low = way.moves.iter().map(|step| step.to.z).fold(0.0, f64::min);
        assert!((low + 234.95 + 19.05).abs() < 0.1, "{low}");
        assert!(design.totals.supports > 0);
    }
}

/// Whatever the plan, no joist over a crawl space is bored.
#[test]
fn no_joist_over_a_crawl_space_is_bored_in_any_plan() {
    let mut seen = 0;
    for (name, plan) in every_plan() {
        let design = Design::of(&plan);
        let crawl = |space: usize| matches!(design.framing.spaces[space].kind, SpaceKind::Crawl(_));
        let bored = design.ways.crossings.iter().any(|crossing| {
            matches!(crossing.member, Member::Joist { space } | Member::Web { space } if crawl(space))
        });
        assert!(!bored, "{name}");
        let under = |kind| match kind {
            MoveKind::AlongStrip { space } | MoveKind::AcrossStrips { space } => crawl(space),
            _ => false,
        };
        let moves = design.ways.ways.iter().flat_map(|way| &way.moves);
        seen += moves.filter(|step| under(step.kind)).count();
    }
    assert!(seen > 20, "{seen}");
}

/// Where nothing comes to the closet the closet is to blame, not the drops.
#[test]
fn a_closet_that_nothing_reaches_is_named() {
    let mut alone = Plan::new();
    let level = alone.levels[0].id;
    alone = walls(alone, level, Lumber::TwoBySix);
    let walls_known = alone.levels[0].walls.clone();
    let never_drill = true;
    alone = alone
        .apply(&Edit::SetWall(Wall {
            never_drill,
            ..walls_known[0]
        }))
        .unwrap();
    alone = alone.apply(&Edit::SetAbove(level, Above::CLOSED)).unwrap();
    let place = Place::Wall {
        wall: WallId(3),
        offset: Mm(4000),
        side: Side::Right,
        height: Mm(300),
    };
    alone = alone
        .apply(&Edit::AddDrop {
            kind: DropKind::Data,
            level,
            place,
        })
        .unwrap();
    let alone = closet(alone, level, WallId(1), Mm(2000));
    let design = Design::of(&alone);
    let told = words(&alone, &design.framing, &design.ways, &design.ways.ways[0]);
    assert_eq!(
        told,
        "No way to the closet: nothing comes to the closet, for W1, where it hangs, is never to be drilled \
         and the roof above is closed."
    );
}
