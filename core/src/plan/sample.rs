//! Plans made by random edits, for tests that must hold for every plan. The same seed gives the
//! same plan on every machine. Not part of the product: it is built for tests only.

use std::sync::Arc;

use super::edit::Edit;
use super::{
    Above, Below, BoxKind, CableId, CableKindId, CableSpec, Closet, ClosetPlace, Drop, DropId,
    DropKind, Entry, Floor, JoistKind, KeepOut, KeepOutId, KeepOutReason, KeepOutShape,
    KnownDimension, LayoutEnd, Level, LevelId, Lumber, Opening, OpeningId, OpeningKind, Pin, PinTo,
    Place, Placing, Plan, PowerPlace, PowerRun, PowerRunId, Role, RoomId, Scan, Side, Wall, WallId,
};
use crate::rules::{RuleBook, RuleId};
use crate::shape::{Direction, Point};
use crate::units::{Mm, Size, Units};

/// A plan after this many random edits, refused ones included.
pub fn plan(seed: u64, edits: usize) -> Plan {
    let mut dice = Dice(seed);
    let mut plan = Plan::new();
    for turn in 0..edits {
        // Walls first, so that there is something to hang things on.
        let edit = match turn < edits / 4 {
            true => dice.wall(&plan),
            false => dice.edit(&plan),
        };
        if let Ok(next) = plan.apply(&edit) {
            plan = next;
        }
    }
    plan
}

/// A random edit that has some chance of being allowed.
pub fn edit(seed: u64, plan: &Plan) -> Edit {
    Dice(seed).edit(plan)
}

/// SplitMix64 (Steele, Lea and Flood, OOPSLA 2014).
struct Dice(u64);

impl Dice {
    fn roll(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9E37_79B9_7F4A_7C15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
        z ^ (z >> 31)
    }

    fn below(&mut self, bound: usize) -> usize {
        (self.roll() % bound.max(1) as u64) as usize
    }

    fn between(&mut self, low: i32, high: i32) -> i32 {
        low + self.below((high - low).max(0) as usize + 1) as i32
    }

    fn mm(&mut self, low: i32, high: i32) -> Mm {
        Mm(self.between(low, high))
    }

    fn real(&mut self, low: f64, high: f64) -> f64 {
        low + (high - low) * (self.roll() >> 11) as f64 / (1_u64 << 53) as f64
    }

    fn chance(&mut self, one_in: usize) -> bool {
        self.below(one_in) == 0
    }

    fn of<T: Clone>(&mut self, list: &[T]) -> Option<T> {
        list.get(self.below(list.len())).cloned()
    }

    fn one<T: Copy, const N: usize>(&mut self, list: [T; N]) -> T {
        list[self.below(N)]
    }

    fn edit(&mut self, plan: &Plan) -> Edit {
        match self.below(16) {
            0..=2 => self.wall(plan),
            3 | 4 => Edit::AddOpening(self.opening(plan)),
            5..=7 => self.drop(plan),
            8 => self.cable(plan),
            9 => self.room(plan),
            10 => self.site(plan),
            11 => self.settings(plan),
            12 => self.level(plan),
            13 => self.sheet(plan),
            14 => self.removal(plan),
            _ => self.closet_or_pin(plan),
        }
    }

    fn text(&mut self) -> String {
        const TEXTS: [&str; 14] = [
            "",
            "Bedroom",
            "BED 2",
            "Living room",
            "Kitchen",
            "Owner's suite",
            "Hall",
            "Closet",
            "Büro Süd",
            "書斎",
            "two\nlines",
            "<b onclick=\"x()\">&amp;</b>",
            "\\ \" \u{7} \u{202e}",
            "Garage, east bay",
        ];
        let word = self.one(TEXTS);
        match self.chance(12) {
            true => word.repeat(60),
            false => word.to_string(),
        }
    }

    fn point(&mut self) -> Point {
        match self.chance(3) {
            true => Point::new(self.between(-9000, 30_000), self.between(-9000, 30_000)),
            // Points of a coarse net, so that walls meet and lie in line.
            false => Point::new(self.between(0, 12) * 1219, self.between(0, 12) * 1219),
        }
    }

    fn direction(&mut self) -> Direction {
        match self.below(3) {
            0 => Direction::ALONG_X,
            1 => Direction::ALONG_Y,
            _ => Direction {
                dx: self.between(-900, 900),
                dy: self.between(-900, 900),
            },
        }
    }

    fn size(&mut self, low: f64, high: f64) -> Size {
        match self.below(3) {
            0 => Size::inches(((low + high) / 2.0 / 25.4).round()),
            1 => Size::from_micrometres(self.real(low * 1000.0, high * 1000.0) as i64),
            _ => Size(self.real(low, high)),
        }
    }

    fn floor(&mut self) -> Floor {
        Floor {
            kind: self.one([JoistKind::Sawn, JoistKind::IJoist, JoistKind::OpenWeb]),
            depth: self.size(180.0, 600.0),
            spacing: self.size(300.0, 700.0),
            direction: self.direction(),
        }
    }

    fn side(&mut self) -> Side {
        self.one([Side::Left, Side::Right])
    }

    fn level_of(&mut self, plan: &Plan) -> LevelId {
        let levels: Vec<LevelId> = plan.levels.iter().map(|level| level.id).collect();
        self.of(&levels).unwrap_or(LevelId(1))
    }

    fn some_wall(&mut self, plan: &Plan) -> (LevelId, Wall) {
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

    fn offset(&mut self, wall: &Wall) -> Mm {
        self.mm(0, wall.from.distance(wall.to).0)
    }

    fn wall(&mut self, plan: &Plan) -> Edit {
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
            return Edit::SetWall(Wall {
                to,
                lumber,
                role,
                spacing: Size(self.one([406.4, 609.6, 304.8, 487.68])),
                layout: self.one([LayoutEnd::First, LayoutEnd::Second]),
                top_plates: self.between(1, 3) as u8,
                bottom_plates: self.between(1, 2) as u8,
                never_drill: self.chance(4),
                garage: self.chance(4),
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

    fn opening(&mut self, plan: &Plan) -> Opening {
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

    fn place(&mut self, plan: &Plan) -> (LevelId, Place) {
        let (level, wall) = self.some_wall(plan);
        let (offset, side) = (self.offset(&wall), self.side());
        let height = Mm(self.one([406, 1524, 1143, 2000, 37]));
        let place = match self.below(5) {
            0 => Place::Ceiling { at: self.point() },
            1 => Place::Outside {
                wall: wall.id,
                offset,
                side,
                height: self.mm(-500, 5000),
            },
            _ => Place::Wall {
                wall: wall.id,
                offset,
                side,
                height,
            },
        };
        (level, place)
    }

    fn drop(&mut self, plan: &Plan) -> Edit {
        let (level, place) = self.place(plan);
        let kind = self.of(&DropKind::ALL).unwrap_or(DropKind::Data);
        match (self.below(5), self.of(&plan.drops)) {
            (0, Some(drop)) => Edit::MoveDrop(drop.id, place),
            (1, Some(drop)) => Edit::SetDrop(Drop {
                kind,
                fixing: self.one([BoxKind::Bracket, BoxKind::ByOthers, BoxKind::None]),
                gangs: self.between(1, 4) as u8,
                aim: (!self.chance(3)).then(|| self.direction()),
                outdoors: self.chance(2),
                buried: self.chance(3),
                spare: self.chance(3),
                note: self.text(),
                ..drop
            }),
            _ => Edit::AddDrop { kind, level, place },
        }
    }

    fn some_cable(&mut self, plan: &Plan) -> CableId {
        let cables: Vec<CableId> = plan.cables().map(|(_, cable)| cable.id).collect();
        self.of(&cables).unwrap_or(CableId(0))
    }

    fn cable(&mut self, plan: &Plan) -> Edit {
        let kind = CableKindId(self.below(plan.catalogue.cables.len()) as u16);
        let drop = self.of(&plan.drops).map_or(DropId(0), |drop| drop.id);
        match self.below(3) {
            0 => Edit::SetCable(self.some_cable(plan), kind),
            1 => Edit::RemoveCable(self.some_cable(plan)),
            _ => Edit::AddCable(drop, kind),
        }
    }

    fn room(&mut self, plan: &Plan) -> Edit {
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

    fn chain(&mut self, least: usize) -> Vec<Point> {
        let more = self.below(5);
        (0..least + more).map(|_| self.point()).collect()
    }

    fn site(&mut self, plan: &Plan) -> Edit {
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

    fn settings(&mut self, plan: &Plan) -> Edit {
        match self.below(12) {
            0 => Edit::SetTitle(self.text()),
            1 => Edit::SetNote(self.text()),
            2 => Edit::SetUnits(self.one([Units::Imperial, Units::Metric])),
            3 => Edit::SetDate(self.text()),
            4 => Edit::NextRevision,
            5 => Edit::SetRuleBook(self.of(RuleBook::ALL).unwrap_or_default()),
            6 => {
                let value = self.one([1.0, 25.0, 33.3, 100.0 / 3.0, 900.0]);
                Edit::SetRule(self.of(RuleId::ALL).unwrap_or(RuleId::Fill), value)
            }
            7 => Edit::SetBits((0..self.below(5)).map(|_| self.size(5.0, 60.0)).collect()),
            8 => self.cable_kind(plan),
            9 if self.chance(4) => Edit::FreezeLabels,
            10 => Edit::Together(vec![Edit::NextRevision, Edit::SetNote(self.text())]),
            _ => Edit::Dismiss {
                key: format!("stud-limit:W{}", self.below(30)),
                reason: self.text(),
            },
        }
    }

    fn cable_kind(&mut self, plan: &Plan) -> Edit {
        let place = self.below(plan.catalogue.cables.len() + 1);
        let spec = CableSpec {
            name: self.text(),
            letter: self.one(['d', 'z', 'é', '1']),
            diameter: self.size(3.0, 12.0),
            outdoor: self.chance(3),
            reel: Mm(self.one([304_800, 152_400, 305_000, 100_001])),
            part_reels: (0..self.below(4)).map(|_| self.mm(1, 300_000)).collect(),
        };
        Edit::SetCableKind(CableKindId(place as u16), spec)
    }

    fn level(&mut self, plan: &Plan) -> Edit {
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
                    0 => Above::ClosedRoof,
                    1 => Above::AtticJoists(self.floor()),
                    _ => Above::AtticTrusses {
                        spacing: self.size(400.0, 700.0),
                        direction: self.direction(),
                    },
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

    fn pixel(&mut self) -> (f64, f64) {
        match self.chance(2) {
            true => (self.real(0.0, 2400.0), self.real(0.0, 1700.0)),
            false => (f64::from(self.between(0, 2400)), 100.5),
        }
    }

    fn sheet(&mut self, plan: &Plan) -> Edit {
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
                Edit::PutScan(level, Arc::new(scan), placing)
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

    fn removal(&mut self, plan: &Plan) -> Edit {
        let (level, wall) = self.some_wall(plan);
        let level = plan.level(level);
        let number = 1 + self.below(9) as u32;
        match self.below(8) {
            0 => Edit::RemoveWall(wall.id),
            1 => Edit::RemoveOpening(OpeningId(number)),
            2 => Edit::RemoveRoom(RoomId(number)),
            3 => Edit::RemoveKeepOut(KeepOutId(number)),
            4 => Edit::RemovePowerRun(PowerRunId(number)),
            5 => Edit::RemoveDrop(DropId(number)),
            6 => match level.and_then(|level| self.of(&level.openings)) {
                Some(opening) => Edit::SetOpening(Opening {
                    offset: self.offset(&wall),
                    ..opening
                }),
                None => Edit::ResetRule(RuleId::Fill),
            },
            _ => match self.of(&plan.pins) {
                Some(pin) => Edit::RemovePin(pin),
                None => Edit::Restore {
                    key: format!("stud-limit:W{number}"),
                },
            },
        }
    }

    fn closet_or_pin(&mut self, plan: &Plan) -> Edit {
        let (level, wall) = self.some_wall(plan);
        let offset = self.offset(&wall);
        let place = match self.chance(3) {
            true => ClosetPlace::Point(self.point()),
            false => ClosetPlace::Wall {
                wall: wall.id,
                offset,
                side: self.side(),
            },
        };
        let to = match self.chance(2) {
            true => PinTo::Overhead { at: self.point() },
            false => PinTo::Bay {
                wall: wall.id,
                offset,
            },
        };
        match self.below(4) {
            0 => Edit::AddPin(Pin::Lane {
                wall: wall.id,
                height: self.mm(60, 2400),
            }),
            1 => Edit::AddPin(Pin::Cable {
                cable: self.some_cable(plan),
                to,
            }),
            2 if self.chance(6) => Edit::SetCloset(None),
            _ => Edit::SetCloset(Some(Closet {
                level,
                place,
                entry: self.one([Entry::Above, Entry::Below, Entry::Either]),
                panel_height: self.mm(0, 2000),
            })),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn plans_are_rich_and_repeat() {
        let plans: Vec<Plan> = (0..40).map(|seed| plan(seed, 200)).collect();
        let most = |count: fn(&Plan) -> usize| plans.iter().map(count).max().unwrap();
        let on = |count: fn(&Level) -> usize| {
            let of = |plan: &Plan| plan.levels.iter().map(count).sum::<usize>();
            plans.iter().map(of).max().unwrap()
        };
        assert!(most(|plan| plan.levels.len()) > 2);
        assert!(most(|plan| plan.drops.len()) > 8);
        assert!(most(|plan| plan.pins.len()) > 2);
        assert!(most(|plan| plan.rules.changed.len()) > 2);
        assert!(most(|plan| plan.catalogue.cables.len()) > 4);
        assert!(on(|level| level.walls.len()) > 20);
        assert!(on(|level| level.openings.len()) > 3);
        assert!(on(|level| level.keep_outs.len()) > 1);
        assert!(on(|level| level.power_runs.len()) > 1);
        assert!(plans.iter().any(|plan| plan.closet.is_some()));
        assert_eq!(plans[7], plan(7, 200));
    }
}
