//! Random edits of the house: levels, walls, openings, rooms, keep-outs, power runs, drawings.

use std::sync::Arc;

use super::dice::Dice;
use crate::plan::edit::Edit;
use crate::plan::{
    Above, Below, Floor, JoistKind, KeepOut, KeepOutId, KeepOutReason, KeepOutShape,
    KnownDimension, LayoutEnd, LayoutSide, Level, LevelId, Lumber, Opening, OpeningId, OpeningKind,
    Placing, Plan, PowerPlace, PowerRun, PowerRunId, Rafters, Role, RoomId, Scan, Trusses, Wall,
    WallId,
};
use crate::shape::{Direction, Point};
use crate::units::{Mm, Size};

/// A side that is not drawn anew, so that the plans of a seed stay what they were.
fn layout(direction: Direction) -> LayoutSide {
    match direction.dx > direction.dy {
        true => LayoutSide::Second,
        false => LayoutSide::First,
    }
}

impl Dice {
    pub(super) fn floor(&mut self) -> Floor {
        let kind = self.one([JoistKind::Sawn, JoistKind::IJoist, JoistKind::OpenWeb]);
        let depth = self.size(180.0, 600.0);
        let spacing = self.size(300.0, 700.0);
        let direction = self.direction();
        Floor {
            kind,
            depth,
            spacing,
            direction,
            layout: layout(direction),
        }
    }

    pub(super) fn level_of(&mut self, plan: &Plan) -> LevelId {
        let levels: Vec<LevelId> = plan.levels.iter().map(|level| level.id).collect();
        self.of(&levels).unwrap_or(LevelId(1))
    }

    pub(super) fn some_wall(&mut self, plan: &Plan) -> (LevelId, Wall) {
        let on = |level: &Level| {
            let id = level.id;
            level
                .walls
                .iter()
                .map(move |w| (id, *w))
                .collect::<Vec<_>>()
        };
        let walls: Vec<(LevelId, Wall)> = plan.levels.iter().flat_map(on).collect();
        let none = Wall::new(
            WallId(0),
            Point::default(),
            Point::new(3000, 0),
            Lumber::TwoByFour,
            Role::Partition,
        );
        self.of(&walls).unwrap_or((LevelId(1), none))
    }

    pub(super) fn offset(&mut self, wall: &Wall) -> Mm {
        self.mm(0, wall.from.distance(wall.to).0)
    }

    pub(super) fn wall(&mut self, plan: &Plan) -> Edit {
        let lumber = match self.below(8) {
            0 => Lumber::Width(self.size(60.0, 300.0)),
            1..=3 => Lumber::TwoBySix,
            4 => Lumber::TwoByEight,
            _ => Lumber::TwoByFour,
        };
        let role = self.one([Role::Exterior, Role::Bearing, Role::Partition]);
        if self.chance(4) {
            let (_, wall) = self.some_wall(plan);
            let to = match self.chance(3) {
                true => self.point(),
                false => wall.to,
            };
            let spacing = Size(self.one([406.4, 609.6, 304.8, 487.68]));
            let layout = self.one([LayoutEnd::First, LayoutEnd::Second]);
            let (top_plates, bottom_plates) = (self.between(1, 3) as u8, self.between(1, 2) as u8);
            let (never_drill, garage) = (self.chance(4), self.chance(4));
            return Edit::SetWall(Wall {
                to,
                lumber,
                role,
                spacing,
                layout,
                top_plates,
                bottom_plates,
                never_drill,
                garage,
                // Not drawn anew, so that the plans of a seed stay what they were.
                doubled: never_drill != garage,
                ..wall
            });
        }
        if self.chance(10) {
            let (level, wall) = self.some_wall(plan);
            let (from, to) = (wall.from, self.point());
            return Edit::MoveCorner { level, from, to };
        }
        Edit::AddWall {
            level: self.level_of(plan),
            from: self.point(),
            to: self.point(),
            lumber,
            role,
        }
    }

    pub(super) fn opening(&mut self, plan: &Plan) -> Opening {
        let (_, wall) = self.some_wall(plan);
        let kind = self.one([OpeningKind::Door, OpeningKind::Window, OpeningKind::Cased]);
        let sill = match kind {
            OpeningKind::Window => self.one([762, 610, 1067, 333]),
            _ => 0,
        };
        Opening {
            id: OpeningId(0),
            wall: wall.id,
            offset: self.offset(&wall),
            width: Mm(self.one([813, 914, 1219, 777])),
            sill: Mm(sill),
            head: Mm(self.one([2032, 2134])),
            kind,
        }
    }

    pub(super) fn room(&mut self, plan: &Plan) -> Edit {
        let rooms: Vec<RoomId> = plan
            .levels
            .iter()
            .flat_map(|l| &l.rooms)
            .map(|r| r.id)
            .collect();
        let (name, at) = (self.text(), self.point());
        match (self.chance(4), self.of(&rooms)) {
            (true, Some(room)) => Edit::SetRoom { room, name, at },
            _ => Edit::AddRoom {
                level: self.level_of(plan),
                name,
                at,
            },
        }
    }

    pub(super) fn chain(&mut self, least: usize) -> Vec<Point> {
        let more = self.below(5);
        (0..least + more).map(|_| self.point()).collect()
    }

    pub(super) fn site(&mut self, plan: &Plan) -> Edit {
        let (level, wall) = self.some_wall(plan);
        let (one, other) = (self.offset(&wall), self.offset(&wall));
        let (wall, from, to) = (wall.id, one.min(other), one.max(other));
        if self.chance(2) {
            let place = match self.chance(2) {
                true => PowerPlace::Overhead(self.chain(2)),
                false => PowerPlace::Wall {
                    wall,
                    from,
                    to,
                    height: self.mm(0, 2500),
                },
            };
            return Edit::AddPowerRun(
                level,
                PowerRun {
                    id: PowerRunId(0),
                    place,
                    circuits: self.between(1, 9) as u8,
                    panel: self.chance(5),
                },
            );
        }
        let shape = match self.chance(2) {
            true => KeepOutShape::Region(self.chain(3)),
            false => KeepOutShape::Stretch { wall, from, to },
        };
        let bottom = self.mm(0, 900);
        Edit::AddKeepOut(
            level,
            KeepOut {
                id: KeepOutId(0),
                shape,
                bottom,
                top: bottom + self.mm(1, 3000),
                reason: self.of(&KeepOutReason::ALL).unwrap_or(KeepOutReason::Other),
            },
        )
    }

    pub(super) fn level(&mut self, plan: &Plan) -> Edit {
        let level = self.level_of(plan);
        match self.below(6) {
            0 => Edit::AddLevel {
                name: self.text(),
                floor: self.floor(),
            },
            1 => Edit::SetLevel {
                level,
                name: self.text(),
                ceiling: self.mm(2000, 3600),
            },
            2 => Edit::SetAbove(
                level,
                match self.below(3) {
                    // A level with another one on it has no roof to close.
                    0 if plan.levels.last().is_some_and(|last| last.id != level) => Above::Level {
                        open: true,
                        beside: None,
                    },
                    0 => {
                        let rafters = Rafters::along(Direction::ALONG_X);
                        Above::ClosedRoof(level.0.is_multiple_of(2).then_some(rafters))
                    }
                    1 => Above::AtticJoists(self.floor()),
                    _ => {
                        let (spacing, direction) = (self.size(400.0, 700.0), self.direction());
                        Above::AtticTrusses(Trusses {
                            spacing,
                            direction,
                            layout: layout(direction),
                        })
                    }
                },
            ),
            3 => Edit::SetBelow(
                level,
                match self.below(3) {
                    0 => Below::Slab,
                    1 => Below::Crawl(self.floor()),
                    _ => Below::Level(self.floor()),
                },
            ),
            4 if self.chance(6) => Edit::RemoveLevel(level),
            _ => Edit::AddRoom {
                level,
                name: self.text(),
                at: self.point(),
            },
        }
    }

    pub(super) fn pixel(&mut self) -> (f64, f64) {
        match self.chance(2) {
            true => (self.real(0.0, 2400.0), self.real(0.0, 1700.0)),
            false => (f64::from(self.between(0, 2400)), 100.5),
        }
    }

    pub(super) fn sheet(&mut self, plan: &Plan) -> Edit {
        let level = self.level_of(plan);
        let placing = Placing {
            origin: (self.real(-900.0, 900.0), -12.25),
            scale: self.real(1.0, 20.0),
            turn: self.one([(1.0, 0.0), (0.0, 1.0), (0.6, 0.8), (0.28, -0.96)]),
            scaled: self.chance(2),
        };
        match self.below(4) {
            0 => {
                let scan = Scan {
                    media_type: self
                        .one(["image/png", "image/jpeg", "image/webp"])
                        .to_string(),
                    width: 2400,
                    height: 1700,
                    bytes: (0..self.below(90)).map(|_| self.roll() as u8).collect(),
                };
                Edit::PutScan(level, Arc::new(scan), placing, Vec::new())
            }
            1 => Edit::RemoveScan(level),
            2 => Edit::SetPlacing(level, placing),
            _ => Edit::AddKnown(
                level,
                KnownDimension {
                    from: self.pixel(),
                    to: self.pixel(),
                    length: self.mm(900, 20_000),
                },
            ),
        }
    }
}
