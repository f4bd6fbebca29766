//! A small invented house for the tests of pictures and sheets.

use crate::plan::edit::Edit;
use crate::plan::{
    Closet, ClosetPlace, DropKind, Entry, KeepOut, KeepOutId, KeepOutReason, KeepOutShape, LevelId,
    Lumber, Opening, OpeningId, OpeningKind, Place, Plan, PowerPlace, PowerRun, PowerRunId, Role,
    Side, WallId,
};
use crate::shape::Point;
use crate::units::Mm;

const GROUND: LevelId = LevelId(1);

type Drawn = ((i32, i32), (i32, i32), Lumber, Role);

/// The walls: ends in millimetres, lumber, role.
const WALLS: [Drawn; 10] = [
    ((0, 0), (12200, 0), Lumber::TwoBySix, Role::Exterior),
    ((12200, 0), (12200, 8800), Lumber::TwoBySix, Role::Exterior),
    ((12200, 8800), (0, 8800), Lumber::TwoBySix, Role::Exterior),
    ((0, 8800), (0, 0), Lumber::TwoBySix, Role::Exterior),
    ((0, 4200), (12200, 4200), Lumber::TwoByFour, Role::Bearing),
    ((4000, 0), (4000, 4200), Lumber::TwoByFour, Role::Partition),
    ((8100, 0), (8100, 4200), Lumber::TwoByFour, Role::Partition),
    (
        (4600, 5500),
        (4600, 8800),
        Lumber::TwoByFour,
        Role::Partition,
    ),
    ((0, 5500), (4600, 5500), Lumber::TwoByFour, Role::Partition),
    (
        (9300, 4200),
        (9300, 8800),
        Lumber::TwoByFour,
        Role::Partition,
    ),
];

/// The house without closet and drops.
pub(crate) fn shell() -> Plan {
    let mut edits = vec![Edit::SetTitle(String::from("Larch Row, lot 3"))];
    for (from, to, lumber, role) in WALLS {
        edits.push(Edit::AddWall {
            level: GROUND,
            from: Point::new(from.0, from.1),
            to: Point::new(to.0, to.1),
            lumber,
            role,
        });
    }
    for (wall, offset, width, sill, kind) in [
        (1, 1200, 1524, 762, OpeningKind::Window),
        (1, 5300, 1524, 762, OpeningKind::Window),
        (1, 9400, 1829, 762, OpeningKind::Window),
        (2, 6000, 1219, 1067, OpeningKind::Window),
        (3, 1100, 914, 1219, OpeningKind::Window),
        (3, 5200, 1829, 0, OpeningKind::Door),
        (4, 1500, 914, 762, OpeningKind::Window),
        (5, 2700, 813, 0, OpeningKind::Door),
        (5, 5000, 813, 0, OpeningKind::Door),
        (5, 9600, 914, 0, OpeningKind::Cased),
        (9, 3300, 813, 0, OpeningKind::Door),
        (10, 600, 762, 0, OpeningKind::Door),
    ] {
        edits.push(Edit::AddOpening(Opening {
            id: OpeningId(0),
            wall: WallId(wall),
            offset: Mm(offset),
            width: Mm(width),
            sill: Mm(sill),
            head: Mm(2032),
            kind,
        }));
    }
    for (name, x, y) in [
        ("Bed 1", 2000, 2100),
        ("Bed 2", 6000, 2100),
        ("Study", 10100, 2100),
        ("Hall", 2200, 4850),
        ("Bath", 2300, 7200),
        ("Living", 6900, 6600),
        ("Kitchen", 10800, 6600),
    ] {
        edits.push(Edit::AddRoom {
            level: GROUND,
            name: String::from(name),
            at: Point::new(x, y),
        });
    }
    apply(Plan::new(), edits)
}

/// The house with a closet, sixteen drops, a keep-out and a power run.
pub(crate) fn house() -> Plan {
    let mut edits = vec![Edit::SetCloset(Some(Closet {
        level: GROUND,
        place: ClosetPlace::Wall {
            wall: WallId(9),
            offset: Mm(700),
            side: Side::Left,
        },
        entry: Entry::Either,
        panel_height: Mm(1524),
    }))];
    edits.extend(inside_drops());
    edits.extend(outside_drops());
    edits.extend(ceiling_drops());
    edits.push(shower());
    edits.push(power());
    apply(shell(), edits)
}

fn inside_drops() -> Vec<Edit> {
    let mut edits = Vec::new();
    for (kind, wall, offset, side, height) in [
        (DropKind::Data, 1, 600, Side::Right, 406),
        (DropKind::Data, 6, 3300, Side::Right, 406),
        (DropKind::Television, 6, 1600, Side::Right, 1219),
        (DropKind::Data, 6, 1600, Side::Right, 406),
        (DropKind::Data, 7, 2800, Side::Right, 406),
        (DropKind::Data, 7, 1400, Side::Left, 406),
        (DropKind::Data, 2, 1500, Side::Right, 406),
        (DropKind::Data, 5, 11600, Side::Right, 1118),
        (DropKind::Television, 10, 2600, Side::Right, 406),
        (DropKind::Data, 10, 3000, Side::Right, 406),
        (DropKind::Data, 3, 9800, Side::Right, 406),
    ] {
        edits.push(Edit::AddDrop {
            kind,
            level: GROUND,
            place: Place::Wall {
                wall: WallId(wall),
                offset: Mm(offset),
                side,
                height: Mm(height),
            },
        });
    }
    edits
}

fn outside_drops() -> Vec<Edit> {
    let mut edits = Vec::new();
    for (wall, offset, kind, height) in [
        (1, 200, DropKind::Camera, 2743),
        (2, 8500, DropKind::Camera, 2743),
        (3, 4800, DropKind::Doorbell, 1143),
    ] {
        edits.push(Edit::AddDrop {
            kind,
            level: GROUND,
            place: Place::Outside {
                wall: WallId(wall),
                offset: Mm(offset),
                side: Side::Left,
                height: Mm(height),
            },
        });
    }
    edits
}

fn ceiling_drops() -> Vec<Edit> {
    let mut edits = Vec::new();
    for (x, y) in [(3200, 4850), (7000, 7600)] {
        edits.push(Edit::AddDrop {
            kind: DropKind::CeilingAccessPoint,
            level: GROUND,
            place: Place::Ceiling {
                at: Point::new(x, y),
            },
        });
    }
    edits
}

fn shower() -> Edit {
    Edit::AddKeepOut(
        GROUND,
        KeepOut {
            id: KeepOutId(0),
            shape: KeepOutShape::Region(
                [(200, 7800), (1800, 7800), (1800, 8600), (200, 8600)]
                    .map(|(x, y)| Point::new(x, y))
                    .to_vec(),
            ),
            bottom: Mm(0),
            top: Mm(2100),
            reason: KeepOutReason::Shower,
        },
    )
}

fn power() -> Edit {
    Edit::AddPowerRun(
        GROUND,
        PowerRun {
            id: PowerRunId(0),
            place: PowerPlace::Wall {
                wall: WallId(7),
                from: Mm(400),
                to: Mm(3600),
                height: Mm(500),
            },
            circuits: 2,
            panel: false,
        },
    )
}

/// The house with drops at given shares along given walls.
pub(crate) fn with_drops(places: &[(usize, f64, bool, usize)]) -> Plan {
    let mut plan = house();
    for (wall, share, right, kind) in places {
        let (from, to, ..) = WALLS[wall % WALLS.len()];
        let length = Point::new(from.0, from.1).distance(Point::new(to.0, to.1));
        let drop = Edit::AddDrop {
            kind: DropKind::ALL[kind % DropKind::ALL.len()],
            level: GROUND,
            place: Place::Wall {
                wall: WallId((wall % WALLS.len()) as u32 + 1),
                offset: Mm::rounded(length.f64() * share),
                side: if *right { Side::Right } else { Side::Left },
                height: Mm(406),
            },
        };
        plan = plan.apply(&drop).unwrap();
    }
    plan
}

fn apply(plan: Plan, edits: Vec<Edit>) -> Plan {
    plan.apply(&Edit::Together(edits)).unwrap()
}
