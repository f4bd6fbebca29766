//! Random edits of the job: drops, cables, the closet, pins, settings, and removals.

use super::dice::Dice;
use crate::plan::edit::Edit;
use crate::plan::{
    Answer, BoxKind, CableId, CableKindId, CableSpec, Closet, ClosetPlace, Dates, Digest, Drop,
    DropId, DropKind, Entry, Item, KeepOutId, LevelId, Opening, OpeningId, Pin, PinTo, Place, Plan,
    PowerRunId, Reply, RoomId, Said, WallId,
};
use crate::rules::{RuleBook, RuleId};
use crate::units::{Mm, Units};

impl Dice {
    pub(super) fn place(&mut self, plan: &Plan) -> (LevelId, Place) {
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

    pub(super) fn drop(&mut self, plan: &Plan) -> Edit {
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

    pub(super) fn some_cable(&mut self, plan: &Plan) -> CableId {
        let cables: Vec<CableId> = plan.cables().map(|(_, cable)| cable.id).collect();
        self.of(&cables).unwrap_or(CableId(0))
    }

    pub(super) fn cable(&mut self, plan: &Plan) -> Edit {
        let kind = CableKindId(self.below(plan.catalogue.cables.len()) as u16);
        let drop = self.of(&plan.drops).map_or(DropId(0), |drop| drop.id);
        match self.below(3) {
            0 => Edit::SetCable(self.some_cable(plan), kind),
            1 => Edit::RemoveCable(self.some_cable(plan)),
            _ => Edit::AddCable(drop, kind),
        }
    }

    pub(super) fn settings(&mut self, plan: &Plan) -> Edit {
        match self.below(13) {
            0 => Edit::SetTitle(self.text()),
            1 => Edit::SetNote(self.text()),
            2 => Edit::SetUnits(self.one([Units::Imperial, Units::Metric])),
            3 => Edit::SetDate(self.text()),
            4 => Edit::NextRevision,
            5 => match self.below(4) {
                0 => Edit::OwnRules,
                1 => Edit::CopyRules,
                _ => Edit::SetRuleBook(self.of(RuleBook::ALL).unwrap_or_default()),
            },
            6 | 12 => {
                let value = self.one([1.0, 25.0, 33.3, 100.0 / 3.0, 900.0]);
                Edit::SetRule(self.of(RuleId::ALL).unwrap_or(RuleId::Fill), value)
            }
            7 => Edit::SetBits((0..self.below(5)).map(|_| self.size(5.0, 60.0)).collect()),
            8 => self.cable_kind(plan),
            9 if self.chance(4) => Edit::FreezeLabels,
            10 => Edit::Together(vec![
                Edit::NextRevision,
                Edit::SetNote(self.text()),
                Edit::SetDates(Dates {
                    drill: self.text(),
                    cover: self.text(),
                    ..Dates::default()
                }),
            ]),
            _ => Edit::Dismiss {
                key: format!("stud-limit:W{}", self.below(30)),
                reason: self.text(),
            },
        }
    }

    pub(super) fn reply(&mut self) -> Reply {
        let answers = (0..self.below(6)).map(|_| self.answer()).collect();
        let name = self.text();
        Reply {
            job: format!("Plot of {name}"),
            name,
            date: self.text(),
            revision: self.below(9) as u32,
            version: self.digest(),
            answers,
        }
    }

    fn digest(&mut self) -> Digest {
        let roll = self.roll();
        match roll.is_multiple_of(3) {
            true => Digest::Earlier(roll as u32),
            false => Digest::of(&roll.to_le_bytes()),
        }
    }

    fn answer(&mut self) -> Answer {
        let number = 1 + self.below(9) as u32;
        let item = self.one([
            Item::Drop(DropId(number)),
            Item::Wall(WallId(number)),
            Item::Joists(LevelId(number)),
            Item::Closet,
            Item::Date,
            Item::Job,
        ]);
        let said = match self.chance(3) {
            true => Said::Asked(self.text()),
            false => Said::Agreed,
        };
        Answer {
            item,
            digest: self.digest(),
            said,
        }
    }

    pub(super) fn cable_kind(&mut self, plan: &Plan) -> Edit {
        let place = self.below(plan.catalogue.cables.len() + 1);
        let letter = self.one(['d', 'z', 'é', '1']);
        let spec = CableSpec {
            name: self.text(),
            letter,
            twisted_pair: letter != 'z',
            diameter: self.size(3.0, 12.0),
            outdoor: self.chance(3),
            reel: Mm(self.one([304_800, 152_400, 305_000, 100_001])),
            part_reels: (0..self.below(4)).map(|_| self.mm(1, 300_000)).collect(),
            on_hand: self.one([0, 0, 2, 4]),
        };
        Edit::SetCableKind(CableKindId(place as u16), spec)
    }

    pub(super) fn removal(&mut self, plan: &Plan) -> Edit {
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

    pub(super) fn closet_or_pin(&mut self, plan: &Plan) -> Edit {
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
