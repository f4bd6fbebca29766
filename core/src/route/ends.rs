//! Where cables start and end: drops and the closet.

use super::graph::Node;
use super::house::House;
use super::port::Port;
use super::way::{Member, MoveKind, Place3};
use crate::framing::{OutsideHole, hang_near, hang_of};
use crate::plan::{Closet, ClosetPlace, Drop, Entry, LevelId, Place, WallId};
use crate::shape::{Point, Pos};

impl House<'_> {
    /// Adds every drop's start, in the order of the plan.
    pub fn add_drops(&mut self) {
        let plan = self.plan;
        for drop in &plan.drops {
            let source = self.add_drop(drop);
            self.graph.sources.push(source);
        }
    }

    fn add_drop(&mut self, drop: &Drop) -> Option<Node> {
        match drop.place {
            Place::Wall {
                wall,
                offset,
                height,
                ..
            } => {
                let offset = self.hung(drop, offset.f64());
                self.add_box(wall, offset, height.f64())
            }
            Place::Outside {
                wall,
                offset,
                height,
                ..
            } => self.add_outside(wall, offset.f64(), height.f64()),
            Place::Ceiling { at } => self.add_ceiling(drop.level, at),
            Place::Adrift { .. } => None,
        }
    }

    /// Where along its wall a box is fed: where it is drawn, or, where it cannot hang there, at the
    /// nearest place that holds it, which its finding names.
    fn hung(&self, drop: &Drop, drawn: f64) -> f64 {
        match hang_of(self.plan, self.framing, drop) {
            Some(Err(_)) => {
                let near = hang_near(self.plan, self.framing, drop);
                near.map_or(drawn, |(at, _)| at.f64())
            }
            _ => drawn,
        }
    }

    /// A box in a bay: joined to the bay's hub, and straight to where its plates lead, through the
    /// same holes as everything else in the bay.
    fn add_box(&mut self, wall: WallId, offset: f64, height: f64) -> Option<Node> {
        let place = self.wall(wall)?;
        let framing = self.walls[place].framing;
        let inside = height.clamp(framing.bottom + 1.0, framing.top - 1.0);
        let bay = framing.bay_at(offset, inside)?;
        let hub = self.walls[place].hubs[bay];
        let floor = self.framing.levels[self.walls[place].level].floor;
        let node = self.graph.place(Place3 {
            at: framing.line.at(offset, 0.0),
            z: floor + height,
        });
        let length = (height - hub.height).abs() + (offset - framing.bays[bay].middle()).abs();
        self.join(
            (node, hub.node),
            MoveKind::InBay { wall, bay },
            length,
            None,
            false,
        );
        self.add_straight(place, bay, node, offset, height);
        Some(node)
    }

    /// Joins a box straight to the ports of its bay, where nothing closes the bay on the way.
    fn add_straight(&mut self, place: usize, bay: usize, node: Node, offset: f64, height: f64) {
        let wall = &self.walls[place];
        let (id, framing, hub, level) = (wall.wall.id, wall.framing, wall.hubs[bay], wall.level);
        let aside = (offset - framing.bays[bay].middle()).abs();
        let at = framing.line.at(offset, 0.0);
        let floor = self.framing.levels[level].floor;
        for (port, end) in [(hub.up, framing.height), (hub.down, 0.0)] {
            let Some((port, hole)) = port else { continue };
            if self.obstacles[level].closes(id, (offset, offset), (at, at), (height, end)) {
                continue;
            }
            let length = (self.graph.places[port as usize].z - floor - height).abs() + aside;
            let level = self.framing.levels[level].level;
            let kind = match end > 0.0 {
                true => MoveKind::ThroughTopPlates { wall: id, level },
                false => MoveKind::ThroughBottomPlates { wall: id, level },
            };
            self.join((node, port), kind, length, Some(hole), false);
        }
    }

    /// A drop on an outside face: through the sheathing into its bay, or through the soffit into
    /// the attic where it hangs over the plates.
    fn add_outside(&mut self, wall: WallId, offset: f64, height: f64) -> Option<Node> {
        let place = self.wall(wall)?;
        let framing = self.walls[place].framing;
        let inside = height.clamp(framing.bottom + 1.0, framing.top - 1.0);
        let bay = framing.bay_at(offset, inside)?;
        let hub = self.walls[place].hubs[bay];
        let floor = self.framing.levels[self.walls[place].level].floor;
        let at = framing.line.at(offset, 0.0);
        let node = self.graph.place(Place3 {
            at,
            z: floor + height,
        });
        let half = self.walls[place].wall.width().0 / 2.0;
        let level = self.framing.levels[self.walls[place].level].level;
        let hole = OutsideHole::at(self.plan, self.framing, level, framing, offset, height);
        let soffit = hole.is_over_plates();
        let (target, length) = match hub.up.filter(|_| soffit) {
            Some((up, _)) => {
                let over = (self.graph.places[up as usize].z - floor - height).abs();
                (
                    up,
                    over + (offset - framing.bays[bay].middle()).abs() + half,
                )
            }
            None => (self.add_box(wall, offset, height)?, half),
        };
        let member = match soffit {
            true => Member::Soffit,
            false => Member::Sheathing,
        };
        // The hole out through sheathing and siding, or through the soffit.
        let crossing = self.wall_crossing(place, member, offset, height);
        let hole = self.hole(crossing, false)?;
        self.join(
            (node, target),
            MoveKind::Outside { wall, soffit },
            length,
            Some(hole),
            false,
        );
        Some(node)
    }

    /// A drop on the ceiling: straight down from the space above.
    fn add_ceiling(&mut self, level: LevelId, at: Point) -> Option<Node> {
        let framing = self.framing.level(level)?;
        let Some(space) = self.framing.space_over(framing, at.pos()) else {
            return self.add_under_rafters(level, at.pos());
        };
        let node = self.graph.place(Place3 {
            at: at.pos(),
            z: framing.floor + framing.ceiling,
        });
        self.add_lid(MoveKind::ThroughCeiling { level }, space, node, at.pos());
        Some(node)
    }

    /// Joins a node to a port in the space above or below it.
    fn add_lid(&mut self, kind: MoveKind, space: usize, node: Node, at: Pos) {
        let z = self.framing.spaces[space].z;
        let port = self.graph.place(Place3 { at, z });
        let length = (z - self.graph.places[node as usize].z).abs();
        self.ports[space].push(Port { node: port, at });
        self.join((node, port), kind, length, None, false);
    }

    /// Adds the closet, the end of every cable.
    pub fn add_closet(&mut self) {
        let Some(closet) = self.plan.closet else {
            return;
        };
        self.graph.sink = match closet.place {
            ClosetPlace::Point(at) => {
                let level = closet.level;
                let kind = MoveKind::ThroughCeiling { level };
                Some(self.add_free_closet(&closet, at.pos(), kind))
            }
            ClosetPlace::Wall { wall, offset, .. } => match self.undrilled_face(&closet, wall) {
                Some(at) => Some(self.add_free_closet(&closet, at, MoveKind::OnFace { wall })),
                None => self.add_box(wall, offset.f64(), closet.panel_height.f64()),
            },
        };
    }

    /// Where the panel is on the face of its wall, if that wall is not drilled.
    fn undrilled_face(&self, closet: &Closet, wall: WallId) -> Option<Pos> {
        let (_, wall) = self.plan.wall(wall)?;
        let face = closet.in_front(self.plan, 0.0);
        face.filter(|_| wall.never_drill)
    }

    /// A closet that is in no bay: cable comes straight down to it, or up. It stands free, or its panel
    /// hangs on a board in front of a wall that is not drilled, such as one of concrete.
    fn add_free_closet(&mut self, closet: &Closet, at: Pos, kind: MoveKind) -> Node {
        let level = self.framing.level(closet.level);
        let floor = level.map_or(0.0, |level| level.floor);
        let z = floor + closet.panel_height.f64();
        let node = self.graph.place(Place3 { at, z });
        let above = level.and_then(|level| self.framing.space_over(level, at));
        let below = level.and_then(|level| level.below);
        for (space, other) in [(above, Entry::Below), (below, Entry::Above)] {
            if let Some(space) = space.filter(|_| closet.entry != other) {
                self.add_lid(kind, space, node, at);
            }
        }
        node
    }
}
