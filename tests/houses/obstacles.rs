//! What stands in the way of cable: keep-outs in walls and overhead, however narrow, and power that
//! runs along. Small houses drawn for the purpose; nothing here is counted by hand.

use borewright_core::bore::Bore;
use borewright_core::design::Design;
use borewright_core::finding::Severity;
use borewright_core::plan::edit::Edit;
use borewright_core::plan::{
    Above, Below, Closet, ClosetPlace, DropKind, Entry, Floor, KeepOut, KeepOutId, KeepOutReason,
    KeepOutShape, LevelId, Lumber, Pin, Place, Plan, PowerPlace, PowerRun, PowerRunId, Role, Side,
    WallId,
};
use borewright_core::route::{Member, MoveKind, NoWay};
use borewright_core::rules::RuleId;
use borewright_core::shape::{Direction, Point, Pos};
use borewright_core::units::Mm;

/// Two ends, each as x and y.
type Ends = ((i32, i32), (i32, i32));

const GROUND: LevelId = LevelId(1);

fn made(plan: &Plan, edits: impl IntoIterator<Item = Edit>) -> Plan {
    edits
        .into_iter()
        .fold(plan.clone(), |plan, edit| plan.apply(&edit).unwrap())
}

fn wall(from: (i32, i32), to: (i32, i32), role: Role) -> Edit {
    Edit::AddWall {
        level: GROUND,
        from: Point::new(from.0, from.1),
        to: Point::new(to.0, to.1),
        lumber: Lumber::TwoBySix,
        role,
    }
}

/// Outside walls round these corners, W1 from the first to the second.
fn around(corners: &[(i32, i32)]) -> Plan {
    let ends = corners.iter().zip(corners.iter().cycle().skip(1));
    let sides = ends.map(|(from, to)| wall(*from, *to, Role::Exterior));
    made(&Plan::new(), sides)
}

/// A house of 12 by 8 metres: W1 above, W2 right, W3 below, W4 left; an outlet in W4 and the panel
/// on W2, both `down` from the upper wall.
fn hall(down: i32) -> Plan {
    let plan = around(&[(0, 0), (12_000, 0), (12_000, 8000), (0, 8000)]);
    let outlet = Edit::AddDrop {
        kind: DropKind::Data,
        level: GROUND,
        place: Place::Wall {
            wall: WallId(4),
            offset: Mm(8000 - down),
            side: Side::Right,
            height: Mm(406),
        },
    };
    let closet = Closet {
        level: GROUND,
        place: ClosetPlace::Wall {
            wall: WallId(2),
            offset: Mm(down),
            side: Side::Right,
        },
        entry: Entry::Either,
        panel_height: Mm(1500),
    };
    made(&plan, [outlet, Edit::SetCloset(Some(closet))])
}

fn kept_clear(corners: [(i32, i32); 4], bottom: i32, top: i32) -> Edit {
    let corners = corners.map(|(x, y)| Point::new(x, y)).to_vec();
    Edit::AddKeepOut(
        GROUND,
        KeepOut {
            id: KeepOutId(0),
            shape: KeepOutShape::Region(corners),
            bottom: Mm(bottom),
            top: Mm(top),
            reason: KeepOutReason::Beam,
        },
    )
}

fn upright(from: i32, to: i32, top: i32, bottom: i32) -> [(i32, i32); 4] {
    [(from, top), (to, top), (to, bottom), (from, bottom)]
}

/// Where the moves of every way outside walls cross a line down the plan.
fn crossed(plan: &Plan, x: f64) -> Vec<f64> {
    let design = Design::of(plan);
    let moves = design.ways.ways.iter().flat_map(|way| {
        assert_eq!(way.trouble, None);
        &way.moves
    });
    let overhead = moves.filter(|step| {
        matches!(
            step.kind,
            MoveKind::AlongStrip { .. } | MoveKind::AcrossStrips { .. }
        )
    });
    let at = |a: Pos, b: Pos| a.y + (b.y - a.y) * (x - a.x) / (b.x - a.x);
    overhead
        .map(|step| (step.from.at, step.to.at))
        .filter(|(a, b)| (a.x - x) * (b.x - x) < 0.0)
        .map(|(a, b)| at(a, b))
        .collect()
}

#[test]
fn no_cable_goes_through_a_beam_that_is_narrower_than_a_strip() {
    let open = hall(2000);
    assert!(crossed(&open, 6000.0).iter().all(|y| *y < 3000.0));
    for at in (5700..6400).step_by(50) {
        let beam = kept_clear(upright(at, at + 40, -200, 6000), 2300, 2900);
        let beside = crossed(&made(&open, [beam]), f64::from(at) + 20.0);
        assert!(!beside.is_empty(), "{at}");
        assert!(beside.iter().all(|y| *y > 6000.0), "{at}: {beside:?}");
    }
}

/// Under a closed roof cable goes round by the walls; a duct a hand wide in each way cuts it off.
#[test]
fn a_duct_in_a_wall_that_is_narrower_than_a_bay_closes_its_lane() {
    let plan = hall(2000);
    let closed = made(&plan, [Edit::SetAbove(GROUND, Above::CLOSED)]);
    let troubled = |plan: &Plan| Design::of(plan).ways.ways[0].trouble.is_some();
    assert!(!troubled(&closed));
    for at in (5700..6400).step_by(50) {
        let duct = |top: i32| kept_clear(upright(at, at + 80, top - 100, top + 100), 0, 2400);
        let one = made(&closed, [duct(0)]);
        assert!(!troubled(&one), "{at}: the other wall is open");
        assert!(troubled(&made(&one, [duct(8000)])), "{at}");
    }
}

fn cut(wall: u32, (from, to): (f64, f64), (bottom, top): (f64, f64)) -> Edit {
    let mm = |length: f64| Mm(length.round() as i32);
    let (wall, from, to) = (WallId(wall), mm(from), mm(to));
    Edit::AddKeepOut(
        GROUND,
        KeepOut {
            id: KeepOutId(0),
            shape: KeepOutShape::Stretch { wall, from, to },
            bottom: mm(bottom),
            top: mm(top),
            reason: KeepOutReason::BoreByOthers,
        },
    )
}

/// Bores in members of this kind in a wall: offset, height and radius of each.
fn bored(design: &Design, wall: u32, is_meant: fn(&Member) -> bool) -> Vec<(f64, f64, f64)> {
    let crossing = |bore: &Bore| &design.ways.crossings[bore.crossing];
    let bores = design.bores.iter().filter(|bore| {
        crossing(bore).wall == Some(WallId(wall)) && is_meant(&crossing(bore).member)
    });
    let place = |bore: &Bore| (bore.offset, bore.height, bore.bit.0 / 2.0);
    bores.map(place).collect()
}

/// One duct stands in the wall up to 1 m, another hangs from 1 m to the reach of an arm; no single height
/// passes both. Cable goes over the one and under the other. Pinned, it stays at its height and is cut off.
#[test]
fn cable_changes_height_where_no_one_height_is_free() {
    let closed = made(&hall(2000), [Edit::SetAbove(GROUND, Above::CLOSED)]);
    let other = *closed.wall(WallId(3)).unwrap().1;
    let shut = Edit::SetWall(borewright_core::plan::Wall {
        never_drill: true,
        ..other
    });
    let low = kept_clear(upright(3000, 4000, -100, 100), 0, 1000);
    let high = kept_clear(upright(7000, 8000, -100, 100), 900, 2400);
    let plan = made(&closed, [shut, low, high]);
    let design = Design::of(&plan);
    assert_eq!(design.ways.ways[0].trouble, None);
    let studs = |member: &Member| matches!(member, Member::Studs(_));
    let at = |from: f64, to: f64| {
        let bores = bored(&design, 1, studs).into_iter();
        let here = bores.filter(move |bore| (from..to).contains(&bore.0));
        here.map(|bore| bore.1).collect::<Vec<f64>>()
    };
    let (over, under) = (at(3100.0, 3900.0), at(7100.0, 7900.0));
    assert!(!over.is_empty() && over.iter().all(|height| *height > 1000.0));
    assert!(!under.is_empty() && under.iter().all(|height| *height < 900.0));
    let pin = Edit::AddPin(Pin::Lane {
        wall: WallId(1),
        height: Mm(610),
    });
    let pinned = Design::of(&made(&plan, [pin]));
    assert!(pinned.ways.ways[0].trouble.is_some());
}

fn beside_cuts(design: &Design) -> usize {
    let findings = design.findings.iter();
    findings
        .filter(|finding| finding.key.starts_with("beside-cut"))
        .count()
}

/// Common practice, no source: 2 in of wood stays between two bores, whoever made them.
#[test]
fn a_lane_leaves_wood_beside_what_another_trade_bored() {
    let plan = made(&hall(2000), [Edit::SetAbove(GROUND, Above::CLOSED)]);
    let studs = |member: &Member| matches!(member, Member::Studs(_));
    let before = Design::of(&plan);
    let lane = bored(&before, 1, studs)[0].1;
    // A hole of 40 mm right in the lane, through every stud from 5 to 7 metres.
    let plumber = cut(1, (5000.0, 7000.0), (lane - 20.0, lane + 20.0));
    let after = Design::of(&made(&plan, [plumber]));
    let bores = bored(&after, 1, studs);
    let there = bores
        .iter()
        .filter(|bore| (5000.0..7000.0).contains(&bore.0));
    assert!(there.clone().count() > 2);
    for (_, height, radius) in there {
        assert!(
            (height - lane).abs() - radius - 20.0 >= 50.8 - 0.05,
            "{height}"
        );
    }
    assert_eq!(beside_cuts(&after), 0);
    // Pinned nearer than that, the lane is closed there.
    let plumber = cut(1, (5000.0, 7000.0), (lane + 45.0, lane + 85.0));
    let height = Mm(lane.round() as i32);
    let pin = Edit::AddPin(Pin::Lane {
        wall: WallId(1),
        height,
    });
    let pinned = Design::of(&made(&plan, [pin.clone()]));
    assert_eq!(beside_cuts(&pinned), 0);
    let told = Design::of(&made(&plan, [pin, plumber]));
    let near = bored(&told, 1, studs);
    let near = near
        .iter()
        .filter(|bore| (5000.0..7000.0).contains(&bore.0));
    assert_eq!(
        near.count(),
        0,
        "a pinned lane is closed there as any other"
    );
}

/// IRC R502.8.1, by way of the rule set: 2 in of wood between two holes of a joist, whoever made them.
#[test]
fn overhead_too_wood_stays_beside_what_another_trade_cut() {
    let plan = hall(2000);
    let x = 6000;
    let before = crossed(&plan, f64::from(x));
    // Beside the way, not in it.
    let y = before[0].round() as i32 + 60;
    let Edit::AddKeepOut(level, keep_out) =
        kept_clear(upright(x - 20, x + 20, y - 20, y + 20), 2743, 3000)
    else {
        panic!("a keep-out is an edit that adds one");
    };
    let notch = KeepOut {
        reason: KeepOutReason::Notch,
        ..keep_out
    };
    let after = crossed(&made(&plan, [Edit::AddKeepOut(level, notch)]), f64::from(x));
    assert!(!after.is_empty());
    for beside in after {
        assert!(
            (beside - f64::from(y)).abs() >= 20.0 + 50.8,
            "{beside} beside {y}"
        );
    }
}

#[test]
fn a_plates_bore_goes_aside_for_another_trades() {
    let plan = hall(2000);
    let plates = |member: &Member| matches!(member, Member::TopPlates(_));
    let before = Design::of(&plan);
    let (at, ..) = bored(&before, 4, plates)[0];
    let plumber = cut(4, (at - 70.0, at - 40.0), (2600.0, 2743.0));
    let after = Design::of(&made(&plan, [plumber]));
    let (offset, _, radius) = bored(&after, 4, plates)[0];
    assert!(
        offset - radius - (at - 40.0) >= 50.8 - 0.05,
        "{at} {offset}"
    );
    assert_eq!(beside_cuts(&after), 0);
    // Where the bay leaves no room for it, that is told.
    let taken = cut(4, (at - 150.0, at - 20.0), (2600.0, 2743.0));
    let and_more = cut(4, (at + 20.0, at + 150.0), (2600.0, 2743.0));
    let full = Design::of(&made(&plan, [taken, and_more]));
    let still = bored(&full, 4, plates);
    let there = still.iter().filter(|bore| (bore.0 - at).abs() < 150.0);
    assert_eq!((there.count(), beside_cuts(&full)), (1, 1));
}

fn power(height: i32, from: i32, to: i32) -> Edit {
    let (wall, from, to, height) = (WallId(1), Mm(from), Mm(to), Mm(height));
    let place = PowerPlace::Wall {
        wall,
        from,
        to,
        height,
    };
    let (id, circuits, panel) = (PowerRunId(0), 1, false);
    Edit::AddPowerRun(
        GROUND,
        PowerRun {
            id,
            place,
            circuits,
            panel,
        },
    )
}

/// "Parallel under 12 in for more than 5 ft note": the lane is pinned at 24 in, the power 8 in over it. A
/// lane that nobody pinned lies elsewhere.
#[test]
fn a_long_run_beside_power_in_a_wall_is_noted_and_a_short_one_is_not() {
    let pin = Edit::AddPin(Pin::Lane {
        wall: WallId(1),
        height: Mm(610),
    });
    let closed = made(&hall(2000), [Edit::SetAbove(GROUND, Above::CLOSED), pin]);
    let beside = |edit: Edit| {
        let design = Design::of(&made(&closed, [edit]));
        let found = design.findings.into_iter();
        let power = found.filter(|finding| finding.key.starts_with("power"));
        power.map(|finding| finding.severity).collect::<Vec<_>>()
    };
    assert_eq!(beside(power(813, 1000, 11_000)), [Severity::Note]);
    assert_eq!(beside(power(813, 5000, 6000)), []);
    assert_eq!(beside(power(950, 1000, 11_000)), []);
}

/// A partition that crosses another in mid run: cable turns from one into the other, whichever was
/// drawn as one wall and whichever as two.
#[test]
fn cable_turns_where_two_walls_cross() {
    let walls = |second: &[Ends]| {
        let first = wall((0, 3000), (6000, 3000), Role::Partition);
        let rest = second.iter();
        let rest = rest.map(|(from, to)| wall(*from, *to, Role::Partition));
        let plan = made(&Plan::new(), [first].into_iter().chain(rest));
        let closed = made(&plan, [Edit::SetAbove(GROUND, Above::CLOSED)]);
        let drop = Edit::AddDrop {
            kind: DropKind::Data,
            level: GROUND,
            place: Place::Wall {
                wall: WallId(1),
                offset: Mm(1500),
                side: Side::Right,
                height: Mm(406),
            },
        };
        let last = closed.levels[0].walls.last().unwrap();
        let end = Mm(5000 - last.from.y);
        let closet = Closet {
            level: GROUND,
            place: ClosetPlace::Wall {
                wall: last.id,
                offset: end,
                side: Side::Right,
            },
            entry: Entry::Either,
            panel_height: Mm(1500),
        };
        made(&closed, [drop, Edit::SetCloset(Some(closet))])
    };
    let two = walls(&[((3000, 0), (3000, 3000)), ((3000, 3000), (3000, 6000))]);
    let one = walls(&[((3000, 0), (3000, 6000))]);
    let length = |plan: &Plan| {
        let design = Design::of(plan);
        assert_eq!(design.ways.ways[0].trouble, None);
        design.ways.ways[0].length.f64()
    };
    assert!((length(&one) - length(&two)).abs() < 200.0);
}

/// An ell over a crawl space, its joists along W1 and W3: W1 above, W3 the wall of the notch, whose
/// strip is cut where the wall stands.
fn ell(notch: i32, depth: i32) -> Plan {
    let corners = [
        (0, 0),
        (12_000, 0),
        (12_000, notch),
        (5000, notch),
        (5000, depth),
        (0, depth),
    ];
    let plan = around(&corners);
    let joists = Below::Crawl(Floor::sawn(Direction::ALONG_X));
    let outlet = |wall| Edit::AddDrop {
        kind: DropKind::Data,
        level: GROUND,
        place: Place::Wall {
            wall: WallId(wall),
            offset: Mm(2500),
            side: Side::Right,
            height: Mm(406),
        },
    };
    let closet = Closet {
        level: GROUND,
        place: ClosetPlace::Wall {
            wall: WallId(1),
            offset: Mm(8000),
            side: Side::Right,
        },
        entry: Entry::Either,
        panel_height: Mm(1500),
    };
    let edits = [
        Edit::SetAbove(GROUND, Above::CLOSED),
        Edit::SetBelow(GROUND, joists),
        outlet(3),
        outlet(5),
        Edit::SetCloset(Some(closet)),
    ];
    made(&plan, edits)
}

/// Strips are clipped to the outline: however little of one is left beside a wall that runs along
/// the joists, cable comes down into it.
#[test]
fn cable_comes_down_beside_a_wall_along_the_joists_wherever_it_stands() {
    for at in (0..410).step_by(10) {
        let plan = ell(4000 + at, 8000 + at);
        for way in Design::of(&plan).ways.ways {
            assert_eq!(way.trouble, None, "{at}");
            let bored =
                |kind| matches!(kind, MoveKind::AlongWall { .. } | MoveKind::IntoWall { .. });
            let sideways = way.moves.iter().filter(|step| bored(step.kind)).count();
            assert_eq!(sideways, 0, "{at}: {}", way.cable.0);
        }
    }
}

/// ANSI/TIA-568.0-D and 568.2-D limit the permanent link of balanced twisted pair; nothing limits coax. One
/// drop has both, over 12 m of way: with a limit of 10 m the one is too long and the other is not, and what is
/// written for outside solvers says so.
#[test]
fn the_longest_link_is_for_twisted_pair_alone() {
    use borewright_core::framing::Framing;
    use borewright_core::plan::{CableKindId, CableSpec};
    use borewright_core::route::Routing;
    let plan = hall(2000);
    let drop = plan.drops[0].id;
    let plan = made(
        &plan,
        [
            Edit::AddCable(drop, CableKindId::COAX),
            Edit::SetRule(RuleId::LinkLength, 10_000.0),
        ],
    );
    let too_long = |plan: &Plan| {
        let ways = Design::of(plan).ways.ways.into_iter();
        ways.map(|way| matches!(way.trouble, Some(NoWay::TooLong(_))))
            .collect::<Vec<_>>()
    };
    assert_eq!(too_long(&plan), [true, true, false]);
    let framing = Framing::of(&plan);
    let routing = Routing::of(&plan, &framing);
    let limits = routing.problem().unwrap().cables.iter();
    let limits: Vec<u32> = limits.map(|cable| cable.max_length_mm).collect();
    let pair = 10_000 - 3048 - 457;
    assert_eq!(limits, [pair, pair, u32::MAX]);
    // A kind of cable that the name does not tell is what is ticked.
    let coax = plan.catalogue.cable(CableKindId::COAX).unwrap().clone();
    let twisted_pair = true;
    let spec = CableSpec {
        twisted_pair,
        ..coax
    };
    let ticked = made(&plan, [Edit::SetCableKind(CableKindId::COAX, spec)]);
    assert_eq!(too_long(&ticked), [true; 3]);
}

/// 90 m is for the link that stays, so the slack at both ends counts and the waste does not: a way
/// that fills the link with its slack stands, a hand's breadth more does not. The router takes every
/// move in whole millimetres, rounded up: a few more in all.
#[test]
fn a_link_is_as_long_as_its_way_and_the_slack_at_both_ends() {
    let plan = hall(2000);
    let limited = |link: i32| made(&plan, [Edit::SetRule(RuleId::LinkLength, f64::from(link))]);
    let design = Design::of(&limited(90_000));
    let cut = &design.cut_list.cuts[0];
    let link = (cut.path + cut.slack).0;
    assert_eq!(cut.slack, Mm(3048 + 457));
    let trouble = |link: i32| Design::of(&limited(link)).ways.ways[0].trouble.clone();
    assert_eq!(trouble(link + 50), None);
    match trouble(link - 50) {
        Some(NoWay::TooLong(told)) => assert!((link..link + 50).contains(&told.0), "{told:?}"),
        other => panic!("{other:?}"),
    }
}
