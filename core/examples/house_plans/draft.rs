//! A plan being drawn: the few strokes the houses are made of, each an edit.

use std::sync::Arc;

use borewright_core::framing::{Framing, hang_near, hang_of, outside_height};
use borewright_core::plan::edit::Edit;
use borewright_core::plan::{
    CableKindId, Closet, ClosetPlace, Drop, DropId, DropKind, Entry, Floor, KeepOut, KeepOutId,
    KeepOutReason, KeepOutShape, KnownDimension, LevelId, Lumber, Opening, OpeningId, OpeningKind,
    Place, Placing, Plan, Role, Scan, Side, WallId,
};
use borewright_core::rules::RuleId;
use borewright_core::shape::Point;
use borewright_core::units::Mm;

use crate::Outcome;
use crate::snap::{Face, nearest_face};

/// A plan, the level in hand, and the wall drawn last.
pub struct Draft {
    pub plan: Plan,
    pub level: LevelId,
}

/// A stretch in feet, and how far off its ends are picked, pixels.
pub type Known = ((f64, f64), (f64, f64), (f64, f64), (f64, f64));

/// What a wall is: its studs and what it carries.
pub type Kind = (Lumber, Role);

pub const OUTSIDE: Kind = (Lumber::TwoBySix, Role::Exterior);
pub const BEARING: Kind = (Lumber::TwoByFour, Role::Bearing);
pub const PARTITION: Kind = (Lumber::TwoByFour, Role::Partition);

/// A place given in feet.
pub fn feet((x, y): (f64, f64)) -> Point {
    let mm = |feet: f64| (feet * 304.8).round() as i32;
    Point::new(mm(x), mm(y))
}

impl Draft {
    pub fn new(title: &str) -> Outcome<Self> {
        let plan = Plan::new().apply(&Edit::SetTitle(title.to_string()))?;
        let level = plan.levels.first().ok_or("a new plan has a level")?.id;
        Ok(Self { plan, level })
    }

    /// Makes one edit.
    pub fn make(&mut self, edit: Edit) -> Outcome<()> {
        self.plan = self.plan.apply(&edit)?;
        Ok(())
    }

    /// Draws a wall and says its number.
    pub fn wall(&mut self, from: Point, to: Point, (lumber, role): Kind) -> Outcome<WallId> {
        let id = WallId(self.plan.next.wall);
        let level = self.level;
        self.make(Edit::AddWall {
            level,
            from,
            to,
            lumber,
            role,
        })?;
        Ok(id)
    }

    /// Draws a wall between two places in feet.
    pub fn wall_ft(&mut self, from: (f64, f64), to: (f64, f64), kind: Kind) -> Outcome<WallId> {
        self.wall(feet(from), feet(to), kind)
    }

    /// Draws the four walls of a rectangle in feet, clockwise from its upper left corner.
    pub fn box_ft(
        &mut self,
        (left, top): (f64, f64),
        size: (f64, f64),
        kind: Kind,
    ) -> Outcome<[WallId; 4]> {
        let (right, bottom) = (left + size.0, top + size.1);
        Ok([
            self.wall_ft((left, top), (right, top), kind)?,
            self.wall_ft((right, top), (right, bottom), kind)?,
            self.wall_ft((right, bottom), (left, bottom), kind)?,
            self.wall_ft((left, bottom), (left, top), kind)?,
        ])
    }

    /// Puts a drawing under the level and scales it by known stretches in feet, each end picked a
    /// pixel or so off, as a hand does.
    pub fn lay(&mut self, picture: Scan, scanned: &Placing, known: &[Known]) -> Outcome<()> {
        let level = self.level;
        self.make(Edit::PutScan(level, Arc::new(picture), *scanned, vec![]))?;
        let pick = |at: Point, off: (f64, f64)| {
            let (u, v) = scanned.to_pixel(at.pos());
            ((u + off.0).round(), (v + off.1).round())
        };
        for (from, to, off_from, off_to) in known {
            let (from, to) = (feet(*from), feet(*to));
            self.make(Edit::AddKnown(
                level,
                KnownDimension {
                    from: pick(from, *off_from),
                    to: pick(to, *off_to),
                    length: from.distance(to),
                },
            ))?;
        }
        Ok(())
    }

    /// Names the level in hand, and says how high its ceiling is, feet.
    pub fn set_level(&mut self, name: &str, ceiling: f64) -> Outcome<()> {
        let (level, name, ceiling) = (self.level, name.to_string(), Mm::feet(ceiling));
        self.make(Edit::SetLevel {
            level,
            name,
            ceiling,
        })
    }

    /// Keeps stairs clear: a rectangle in feet from one corner to the one across, and how high they
    /// close what is over them, millimetres.
    pub fn stairs_ft(&mut self, from: (f64, f64), to: (f64, f64), top: i32) -> Outcome<()> {
        let corners = [from, (to.0, from.1), to, (from.0, to.1)];
        let stairs = KeepOut {
            id: KeepOutId(0),
            shape: KeepOutShape::Region(corners.map(feet).to_vec()),
            bottom: Mm(0),
            top: Mm(top),
            reason: KeepOutReason::Stair,
        };
        self.make(Edit::AddKeepOut(self.level, stairs))
    }

    /// Marks a wall as one between garage and dwelling.
    pub fn garage_side(&mut self, wall: WallId) -> Outcome<()> {
        let (_, known) = self.plan.wall(wall).ok_or("no such wall")?;
        let wall = borewright_core::plan::Wall {
            garage: true,
            ..*known
        };
        self.make(Edit::SetWall(wall))
    }

    /// Puts a door in a wall, feet from its first end.
    pub fn door_ft(&mut self, wall: WallId, offset: f64, width: f64) -> Outcome<()> {
        self.opening(wall, OpeningKind::Door, (offset, width), (0, 2032))
    }

    /// Puts a cased opening in a wall, feet from its first end.
    pub fn cased_ft(&mut self, wall: WallId, offset: f64, width: f64) -> Outcome<()> {
        self.opening(wall, OpeningKind::Cased, (offset, width), (0, 2134))
    }

    /// Puts a window in a wall, feet from its first end, over a sill in millimetres.
    pub fn window_ft(&mut self, wall: WallId, offset: f64, width: f64, sill: i32) -> Outcome<()> {
        self.opening(wall, OpeningKind::Window, (offset, width), (sill, 2032))
    }

    fn opening(
        &mut self,
        wall: WallId,
        kind: OpeningKind,
        (offset, width): (f64, f64),
        (sill, head): (i32, i32),
    ) -> Outcome<()> {
        self.make(Edit::AddOpening(Opening {
            id: OpeningId(0),
            wall,
            offset: Mm::feet(offset),
            width: Mm::feet(width),
            sill: Mm(sill),
            head: Mm(head),
            kind,
        }))
    }

    /// Names a room at a place in feet.
    pub fn room_ft(&mut self, name: &str, at: (f64, f64)) -> Outcome<()> {
        self.room(name, feet(at))
    }

    /// Names a room.
    pub fn room(&mut self, name: &str, at: Point) -> Outcome<()> {
        let (level, name) = (self.level, name.to_string());
        self.make(Edit::AddRoom { level, name, at })
    }

    /// Places a drop with so many cables where the owner marked it: on the nearest clear face of a
    /// wall, outdoors on the nearest outside face, or on the ceiling at the mark itself.
    pub fn drop(&mut self, kind: DropKind, mark: Point, cables: usize) -> Outcome<DropId> {
        let height = self.height(kind);
        let place = match kind {
            DropKind::CeilingAccessPoint => Place::Ceiling { at: mark },
            _ => {
                let face = self.face(mark, kind.is_outdoors(), height)?;
                let height = match kind.is_outdoors() {
                    true => {
                        let framing = Framing::of(&self.plan);
                        let offset = face.offset.f64();
                        outside_height(&self.plan, &framing, face.wall, offset, height)
                    }
                    false => height,
                };
                on(face, kind.is_outdoors(), height)
            }
        };
        let (id, level) = (DropId(self.plan.next.drop), self.level);
        self.make(Edit::AddDrop { kind, level, place })?;
        self.set_cables(id, cables)?;
        Ok(id)
    }

    /// Puts a level over the one in hand and takes it in hand. A hole that came out through the
    /// soffit would be in the new floor's rim: it is lowered into the bay under the plates.
    pub fn level_over(&mut self, name: &str, floor: Floor) -> Outcome<()> {
        let name = name.to_string();
        self.make(Edit::AddLevel { name, floor })?;
        let framing = Framing::of(&self.plan);
        let (plan, beneath) = (&self.plan, self.level);
        let lowered = |drop: &Drop| match drop.place {
            Place::Outside {
                wall,
                offset,
                side,
                height,
            } if drop.level == beneath => Some(Place::Outside {
                wall,
                offset,
                side,
                height: outside_height(plan, &framing, wall, offset.f64(), height),
            }),
            _ => None,
        };
        let drops = self.plan.drops.iter();
        let moved: Vec<Edit> = drops
            .filter_map(|drop| Some(Edit::MoveDrop(drop.id, lowered(drop)?)))
            .collect();
        for edit in moved {
            self.make(edit)?;
        }
        self.level = self.plan.levels.last().ok_or("no level")?.id;
        Ok(())
    }

    /// As [`Draft::drop`], the mark in feet.
    pub fn drop_ft(&mut self, kind: DropKind, mark: (f64, f64), cables: usize) -> Outcome<DropId> {
        self.drop(kind, feet(mark), cables)
    }

    /// Outlets with two cables each, in feet.
    pub fn outlets_ft(&mut self, marks: &[(f64, f64)]) -> Outcome<()> {
        for mark in marks {
            self.drop_ft(DropKind::Data, *mark, 2)?;
        }
        Ok(())
    }

    /// Moves every box to the nearest side of an upright that holds it, as one that is placed by hand
    /// goes there.
    pub fn hang(&mut self) -> Outcome<()> {
        let framing = Framing::of(&self.plan);
        let hung = |drop: &Drop| {
            hang_of(&self.plan, &framing, drop)?.ok();
            let (at, _) = hang_near(&self.plan, &framing, drop)?;
            let mut place = drop.place;
            if let Place::Wall { offset, .. } = &mut place {
                *offset = at;
            }
            (place != drop.place).then_some(Edit::MoveDrop(drop.id, place))
        };
        let moved: Vec<Edit> = self.plan.drops.iter().filter_map(hung).collect();
        for edit in moved {
            self.make(edit)?;
        }
        Ok(())
    }

    fn set_cables(&mut self, drop: DropId, count: usize) -> Outcome<()> {
        let cables = |plan: &Plan| plan.drop(drop).map_or(0, |drop| drop.cables.len());
        while cables(&self.plan) < count {
            self.make(Edit::AddCable(drop, CableKindId::CAT6))?;
        }
        while cables(&self.plan) > count {
            let last = self.plan.drop(drop).and_then(|drop| drop.cables.last());
            let last = last.ok_or("a drop has a cable")?.id;
            self.make(Edit::RemoveCable(last))?;
        }
        Ok(())
    }

    /// Hangs the closet's panel on the nearest clear face of a wall.
    pub fn closet(&mut self, mark: Point, entry: Entry) -> Outcome<()> {
        let panel_height = self.plan.rules.length(RuleId::PanelHeight);
        let face = self.face(mark, false, panel_height)?;
        self.make(Edit::SetCloset(Some(Closet {
            level: self.level,
            place: ClosetPlace::Wall {
                wall: face.wall,
                offset: face.offset,
                side: face.side,
            },
            entry,
            panel_height,
        })))
    }

    fn face(&self, mark: Point, outside: bool, height: Mm) -> Outcome<Face> {
        let level = self.plan.level(self.level).ok_or("the level is gone")?;
        let face = nearest_face(level, mark, outside, height);
        Ok(face.ok_or("there is no clear wall near a mark")?)
    }

    fn height(&self, kind: DropKind) -> Mm {
        self.plan.rules.length(match kind {
            DropKind::Television => RuleId::TelevisionHeight,
            DropKind::WallAccessPoint => RuleId::AccessPointHeight,
            DropKind::Camera => RuleId::CameraHeight,
            DropKind::Doorbell => RuleId::DoorbellHeight,
            DropKind::Data | DropKind::CeilingAccessPoint | DropKind::Other => RuleId::OutletHeight,
        })
    }
}

fn on(face: Face, outside: bool, height: Mm) -> Place {
    let (wall, offset, side): (WallId, Mm, Side) = (face.wall, face.offset, face.side);
    match outside {
        true => Place::Outside {
            wall,
            offset,
            side,
            height,
        },
        false => Place::Wall {
            wall,
            offset,
            side,
            height,
        },
    }
}
