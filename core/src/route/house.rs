//! A house as a graph: bays, lanes, corners and plates.

use super::bits::Bits;
use super::facing::Facing;
use super::graph::{Graph, Node, Step};
use super::lane::lane_height;
use super::obstacle::Obstacles;
use super::port::{Port, Ports};
use super::price::Prices;
use super::studs;
use super::way::{Crossing, Member, MoveKind, Place3};
use super::work::Work;
use crate::framing::{BayKind, Framing, Joint, JointKind, LevelFraming, WallFraming, runs_through};
use crate::plan::{Level, Plan, Wall, WallId};
use crate::shape::Pos;

/// The graph of a house while it is built.
pub(super) struct House<'p> {
    pub plan: &'p Plan,
    pub framing: &'p Framing,
    pub prices: Prices,
    bits: Bits,
    pub graph: Graph,
    /// Walls in an order that does not depend on the order of drawing.
    pub walls: Vec<HouseWall<'p>>,
    /// Where cable comes up or down into each space.
    pub ports: Vec<Ports>,
    /// Obstacles by level, in the order of the plan.
    pub obstacles: Vec<Obstacles<'p>>,
    /// Places of bays at a second height, each after its bay's hub.
    pub shelves: Vec<(Node, Node)>,
    /// Where cable comes up into rafter bays: wall, strip, node.
    pub eaves: Vec<(usize, usize, Node)>,
}

/// A wall in the graph.
pub(super) struct HouseWall<'p> {
    pub level: usize,
    pub wall: &'p Wall,
    pub framing: &'p WallFraming,
    /// Height of its lane above its level's floor.
    pub lane: f64,
    /// One node a bay, at the lane where the bay reaches it.
    pub hubs: Vec<Hub>,
    /// Whether it was drawn against the order of the house.
    pub is_backwards: bool,
}

impl HouseWall<'_> {
    /// Its bays in an order that does not depend on the end it was drawn from.
    pub(super) fn bays(&self) -> Vec<usize> {
        let mut bays: Vec<usize> = (0..self.framing.bays.len()).collect();
        if self.is_backwards {
            bays.reverse();
        }
        bays
    }
}

/// The place in a bay that everything in it connects to.
#[derive(Clone, Copy)]
pub(super) struct Hub {
    pub node: Node,
    /// Above the level's finished floor.
    pub height: f64,
    /// Where the bay's top plates lead, if they lead anywhere, and the hole through them.
    pub up: Option<(Node, usize)>,
    /// Where its bottom plates lead, likewise.
    pub down: Option<(Node, usize)>,
}

impl<'p> House<'p> {
    /// Builds walls, lanes, corners and plates; spaces, drops and closet follow in other files.
    pub fn of(plan: &'p Plan, framing: &'p Framing) -> Self {
        let obstacles: Vec<_> = plan
            .levels
            .iter()
            .map(|level| Obstacles::of(level, &plan.rules))
            .collect();
        let mut house = Self {
            plan,
            framing,
            prices: Prices::of(&plan.rules),
            bits: Bits::of(plan),
            graph: Graph::default(),
            walls: Vec::new(),
            ports: vec![Ports::default(); framing.spaces.len()],
            obstacles,
            shelves: Vec::new(),
            eaves: Vec::new(),
        };
        let facing = Facing::of(plan);
        for place in 0..plan.levels.len() {
            house.add_walls(place, facing);
        }
        for place in 0..house.walls.len() {
            house.add_hubs(place);
            house.add_lane(place);
            house.add_passages(place);
            house.add_plates(place);
        }
        house.add_joints();
        house
    }

    pub fn level(&self, place: usize) -> (&'p Level, &'p LevelFraming) {
        (&self.plan.levels[place], &self.framing.levels[place])
    }

    /// The wall's place in the graph.
    pub fn wall(&self, id: WallId) -> Option<usize> {
        self.walls.iter().position(|wall| wall.wall.id == id)
    }

    fn add_walls(&mut self, place: usize, facing: Facing) {
        let (level, framing) = self.level(place);
        let pairs = framing
            .walls
            .iter()
            .filter_map(|w| level.wall(w.wall).map(|wall| (wall, w)));
        let mut walls: Vec<HouseWall> = pairs
            .map(|(wall, framing)| {
                let lane = lane_height(self.plan, level, framing, &self.obstacles[place]);
                HouseWall {
                    level: place,
                    wall,
                    framing,
                    lane,
                    hubs: Vec::new(),
                    is_backwards: facing.is_backwards(wall),
                }
            })
            .collect();
        walls.sort_by_key(|w| (facing.ends(w.wall), w.wall.id));
        self.walls.extend(walls);
    }

    fn add_hubs(&mut self, place: usize) {
        let wall = &self.walls[place];
        let floor = self.framing.levels[wall.level].floor;
        let closed = self.framing.levels[wall.level].above.is_none();
        let mut hubs = Vec::new();
        for place in wall.bays() {
            let bay = &wall.framing.bays[place];
            let height = match (bay.kind, bay.bored_at()) {
                (BayKind::OverHeader, Some(height)) if closed => height,
                _ => wall.lane.clamp(bay.bottom, bay.top),
            };
            let at = wall.framing.line.at(bay.middle(), 0.0);
            let node = self.graph.place(Place3 {
                at,
                z: floor + height,
            });
            hubs.push(Hub {
                node,
                height,
                up: None,
                down: None,
            });
        }
        if wall.is_backwards {
            hubs.reverse();
        }
        self.walls[place].hubs = hubs;
    }

    /// Bores from bay to bay at the lane.
    fn add_lane(&mut self, place: usize) {
        let wall = &self.walls[place];
        if wall.wall.never_drill {
            return;
        }
        let (framing, lane) = (wall.framing, wall.lane);
        for (a, b, studs) in framing.neighbours(lane) {
            let (from, to) = (framing.bays[a].middle(), framing.bays[b].middle());
            if self.lane_is_clear(place, (from, to), lane) {
                let hubs = &self.walls[place].hubs;
                let ends = (hubs[a].node, hubs[b].node);
                self.add_bore(place, (a, b), ends, studs, lane);
            }
        }
    }

    /// A bore from bay to bay through these uprights at a height.
    pub fn add_bore(
        &mut self,
        place: usize,
        (a, b): (usize, usize),
        ends: (Node, Node),
        studs: Vec<usize>,
        height: f64,
    ) {
        let wall = &self.walls[place];
        let (framing, id) = (wall.framing, wall.wall.id);
        let (from, to) = (framing.bays[a].middle(), framing.bays[b].middle());
        let uprights = studs.iter().map(|stud| &framing.studs[*stud]);
        let offset = uprights.map(|stud| stud.from).fold(f64::INFINITY, f64::min);
        let doubled = studs::count_as_doubled(&self.plan.rules, wall.wall, framing, &studs);
        let crossing = self.wall_crossing(place, Member::Studs(studs), offset, height);
        let beside = self.is_beside_power(place, (from, to), height);
        if let Some(hole) = self.hole(crossing, doubled) {
            let kind = MoveKind::AlongWall { wall: id };
            self.join(ends, kind, to - from, Some(hole), beside);
        }
    }

    /// Whether nothing closes a wall at a height between two offsets.
    pub fn lane_is_clear(&self, place: usize, (from, to): (f64, f64), height: f64) -> bool {
        let wall = &self.walls[place];
        let obstacles = &self.obstacles[wall.level];
        let line = &wall.framing.line;
        let places = (line.at(from, 0.0), line.at(to, 0.0));
        !obstacles.closes(wall.wall.id, (from, to), places, (height, height))
            && obstacles.power_beside(wall.wall.id, from, to, height) < 2
    }

    /// Whether power runs along a stretch of a lane.
    fn is_beside_power(&self, place: usize, (from, to): (f64, f64), height: f64) -> bool {
        let wall = &self.walls[place];
        let obstacles = &self.obstacles[wall.level];
        let id = wall.wall.id;
        obstacles.power_beside(id, from, to, height) > 0
            || obstacles.power_along_lane(id, from, to, height) > 0.0
    }

    pub fn wall_crossing(
        &self,
        place: usize,
        member: Member,
        offset: f64,
        height: f64,
    ) -> Crossing {
        let wall = &self.walls[place];
        let (level, _) = self.level(wall.level);
        Crossing {
            member,
            wall: Some(wall.wall.id),
            level: level.id,
            offset,
            height,
            at: wall.framing.line.at(offset, 0.0),
            cables: Vec::new(),
        }
    }

    /// The hole of a crossing, whose studs count as doubled or not; `None` where no bit is within the limit
    /// of its member.
    pub fn hole(&mut self, crossing: Crossing, doubled: bool) -> Option<usize> {
        let work = Work::of(self.plan, self.framing, &crossing, doubled);
        let tariff = work.tariff(&mut self.bits)?;
        Some(self.graph.share(Some(crossing), tariff))
    }

    pub fn join(
        &mut self,
        (from, to): (Node, Node),
        kind: MoveKind,
        length: f64,
        hole: Option<usize>,
        beside_power: bool,
    ) {
        let length = steady(length);
        let cost = match beside_power {
            true => self.prices.cable_beside_power(length),
            false => self.prices.cable(length),
        };
        self.graph.step(Step {
            from,
            to,
            kind,
            length,
            cost,
            hole,
        });
    }

    /// Bores through plates, up and down out of every bay.
    fn add_plates(&mut self, place: usize) {
        let level = self.walls[place].level;
        let framed = &self.framing.levels[level];
        let below = framed.below;
        if self.walls[place].wall.never_drill {
            return;
        }
        for bay in self.walls[place].bays() {
            let framing = self.walls[place].framing;
            let (kind, middle) = (framing.bays[bay].kind, framing.bays[bay].middle());
            let at = framing.line.at(middle, 0.0);
            let above = self.framing.space_over(framed, at);
            if let Some(space) = above.filter(|_| kind != BayKind::UnderSill) {
                let port = self.plate(place, bay, space, true);
                self.walls[place].hubs[bay].up = port;
            }
            if let Some(space) = below.filter(|_| kind != BayKind::OverHeader) {
                let port = self.plate(place, bay, space, false);
                self.walls[place].hubs[bay].down = port;
            }
        }
    }

    /// One bay's bore into a space; gives the port it leads to and the hole.
    fn plate(&mut self, place: usize, bay: usize, space: usize, up: bool) -> Option<(Node, usize)> {
        let (wall, hub) = (&self.walls[place], self.walls[place].hubs[bay]);
        let framing = wall.framing;
        let (level, obstacles) = (
            &self.framing.levels[wall.level],
            &self.obstacles[wall.level],
        );
        let middle = framing.bays[bay].middle();
        let at = framing.line.at(middle, 0.0);
        let end = if up { framing.height } else { 0.0 };
        let outside = if up {
            obstacles.closes_overhead(at, at)
        } else {
            obstacles.closes_underfoot(at, at)
        };
        if outside || obstacles.closes(wall.wall.id, (middle, middle), (at, at), (hub.height, end))
        {
            return None;
        }
        let (count, id) = match up {
            true => (wall.wall.top_plates, wall.wall.id),
            false => (wall.wall.bottom_plates, wall.wall.id),
        };
        let member = if up {
            Member::TopPlates(count)
        } else {
            Member::BottomPlates(count)
        };
        let crossing = self.wall_crossing(place, member, middle, end);
        let hole = self.hole(crossing, false)?;
        let z = self.framing.spaces[space].z;
        let length = (z - level.floor - hub.height).abs();
        let kind = match up {
            true => MoveKind::ThroughTopPlates {
                wall: id,
                level: level.level,
            },
            false => MoveKind::ThroughBottomPlates {
                wall: id,
                level: level.level,
            },
        };
        let node = self.port(space, at, z);
        self.join((hub.node, node), kind, length, Some(hole), false);
        Some((node, hole))
    }

    /// Where cable enters a space at a place: the same node for two walls that stand on one another.
    fn port(&mut self, space: usize, at: Pos, z: f64) -> Node {
        if let Some(port) = self.ports[space].at(at) {
            return port.node;
        }
        let node = self.graph.place(Place3 { at, z });
        self.ports[space].push(Port { node, at });
        node
    }

    /// Bores round corners, into tees and across splices.
    fn add_joints(&mut self) {
        for place in 0..self.walls.len() {
            for joint in &self.walls[place].framing.joints {
                let Some(other) = self.wall(joint.other) else {
                    continue;
                };
                let mine = matches!(joint.kind, JointKind::CornerButt | JointKind::TeeButt);
                if mine || (joint.kind == JointKind::Splice && place < other) {
                    self.add_joint(place, other, joint);
                } else if self.is_stopped_by(place, other, joint) {
                    self.add_cross(place, other, joint);
                }
            }
        }
    }

    /// Connects the bay of a wall nearest to a joint with the bays of the other wall beside it.
    fn add_joint(&mut self, place: usize, other: usize, joint: &Joint) {
        let wall = &self.walls[place];
        let Some(bay) = nearest_bay(wall, joint.at) else {
            return;
        };
        let here = wall.framing.line.at(joint.at, 0.0);
        let there = self.walls[other].framing.line.offset_of(here);
        for beside in bays_beside(&self.walls[other], there) {
            self.turn(place, bay, other, beside, joint);
        }
    }

    /// Whether a wall that is drawn on past another stops on both sides of it: where two cross.
    fn is_stopped_by(&self, place: usize, other: usize, joint: &Joint) -> bool {
        let (wall, beyond) = (self.walls[place].wall, &self.walls[other]);
        let past = |joint: &Joint| joint.kind == JointKind::TeeThrough;
        let mut back = beyond.framing.joints.iter();
        let crosses = past(joint) && back.any(|back| back.other == wall.id && past(back));
        crosses && runs_through(beyond.wall, wall)
    }

    /// Connects the bays on both sides of a cross with those of the other wall beside it.
    fn add_cross(&mut self, place: usize, other: usize, joint: &Joint) {
        let here = self.walls[place].framing.line.at(joint.at, 0.0);
        let there = self.walls[other].framing.line.offset_of(here);
        for bay in bays_beside(&self.walls[place], joint.at) {
            for beside in bays_beside(&self.walls[other], there) {
                self.turn(place, bay, other, beside, joint);
            }
        }
    }

    fn turn(&mut self, place: usize, bay: usize, other: usize, beside: usize, joint: &Joint) {
        let (a, b) = (&self.walls[place], &self.walls[other]);
        if a.wall.never_drill || b.wall.never_drill {
            return;
        }
        let (hub, far) = (a.hubs[bay], b.hubs[beside]);
        let (from, to) = (
            a.framing.bays[bay].middle(),
            b.framing.bays[beside].middle(),
        );
        let corner = b.framing.line.offset_of(a.framing.line.at(joint.at, 0.0));
        let (here, there) = ((from, joint.at), (to, corner));
        if !self.lane_is_clear(place, here, a.lane) || !self.lane_is_clear(other, there, b.lane) {
            return;
        }
        let length =
            (from - joint.at).abs() + (to - corner).abs() + (hub.height - far.height).abs();
        let bored = |wall: &HouseWall, bay: usize, end: f64| {
            let face = wall.framing.bays[bay].face_towards(end);
            wall.framing.bored_between((face, end), hub.height).len() as u32
        };
        let count = bored(a, bay, joint.at) + bored(b, beside, corner);
        let member = Member::Corner {
            count,
            to: b.wall.id,
        };
        let ids = (a.wall.id, b.wall.id);
        let crossing = self.wall_crossing(place, member, joint.at, hub.height);
        let Some(hole) = self.hole(crossing, false) else {
            return;
        };
        let kind = MoveKind::IntoWall {
            from: ids.0,
            to: ids.1,
        };
        self.join((hub.node, far.node), kind, length, Some(hole), false);
    }
}

/// A length in whole 64ths of a millimetre, so that where on the sheet a house is drawn, and from
/// which end its walls, does not show in the last digit and tip the scales.
pub(super) fn steady(length: f64) -> f64 {
    (length * 64.0).round() / 64.0
}

/// The bay nearest to an offset that reaches the lane, if it is within a spacing and a half.
fn nearest_bay(wall: &HouseWall, at: f64) -> Option<usize> {
    let bays = wall
        .framing
        .bays
        .iter()
        .enumerate()
        .filter(|(_, bay)| bay.reaches(wall.lane));
    let apart = |bay: &crate::framing::Bay| (bay.from - at).max(at - bay.to).max(0.0);
    let nearest = bays.min_by(|a, b| apart(a.1).total_cmp(&apart(b.1)))?;
    (apart(nearest.1) < 200.0).then_some(nearest.0)
}

/// The bays of a wall just before and just after an offset that reach its lane and are near it.
fn bays_beside(wall: &HouseWall, at: f64) -> Vec<usize> {
    let reaching = || {
        wall.framing
            .bays
            .iter()
            .enumerate()
            .filter(|(_, bay)| bay.reaches(wall.lane))
    };
    let before = reaching()
        .rev()
        .find(|(_, bay)| bay.middle() <= at && at - bay.to < 250.0);
    let after = reaching().find(|(_, bay)| bay.middle() > at && bay.from - at < 250.0);
    before
        .into_iter()
        .chain(after)
        .map(|(place, _)| place)
        .collect()
}
