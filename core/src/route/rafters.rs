//! Drops on the sloped ceiling under a closed roof: cable comes up out of the wall that the rafters rest on and
//! along one rafter bay. No other cable goes that way, for the bay is insulated shut.

use super::graph::Node;
use super::house::House;
use super::way::{Member, MoveKind, Place3};
use crate::framing::{BayKind, Space};
use crate::plan::{LevelId, Lumber};
use crate::rules::trade::NARROWEST_BAY;
use crate::shape::Pos;

/// A rafter rests on a wall whose centre line is no farther from where it ends, millimetres: as far as outside
/// walls may be drawn from meeting.
const ON_WALL: f64 = 320.0;
/// Nearer than this to the ridge cable may come up from both sides, millimetres: half a bay.
const AT_RIDGE: f64 = 203.2;

/// An end of a rafter bay: where it rests, and how far that is from a drop on the plan.
#[derive(Clone, Copy)]
struct Eave {
    at: Pos,
    run: f64,
}

/// Where cable comes up into a rafter bay.
struct Entry {
    wall: usize,
    bay: usize,
    offset: f64,
}

impl House<'_> {
    /// A drop on a sloped ceiling, joined to where its rafter bay is entered from the nearer of the walls it
    /// rests on: past the ridge nothing leads. Half way between both it is the one nearer to the closet.
    pub(super) fn add_under_rafters(&mut self, level: LevelId, at: Pos) -> Option<Node> {
        let framing = self.framing.level(level)?;
        let (index, ceiling) = (framing.rafters?, framing.floor + framing.ceiling);
        let space = &self.framing.spaces[index];
        let strip = space.strip_at(at)?;
        let in_bay = space.at(space.along_of(at), space.strips[strip].middle());
        let eave = self.eave(space, in_bay)?;
        let entry = self.entry(level, space, strip, eave)?;
        let aside = self.walls[entry.wall].framing.line.at(entry.offset, 0.0);
        if self.is_closed(index, aside, at) {
            return None;
        }
        let across = (space.across_of(aside) - space.across_of(at)).abs();
        let slope = (1.0 + space.rise * space.rise).sqrt();
        let z = ceiling + eave.run * space.rise;
        let port = self.eave_port(&entry, strip, ceiling)?;
        let node = self.graph.place(Place3 { at, z });
        let length = eave.run * slope + across;
        let kind = MoveKind::AlongStrip { space: index };
        self.run(index, (node, port), kind, length);
        Some(node)
    }

    /// The end of a rafter bay from which cable comes to a place in it.
    fn eave(&self, space: &Space, at: Pos) -> Option<Eave> {
        let (back, forth) = space.outline.reach(at, space.along)?;
        let end = |run: f64, way: f64| Eave {
            at: at + space.along * (run * way),
            run,
        };
        let ends = [end(back, -1.0), end(forth, 1.0)];
        let nearer = back.min(forth);
        let home = self
            .plan
            .closet
            .and_then(|closet| closet.in_front(self.plan, 0.0));
        let to_closet = |eave: &Eave| home.map_or(0.0, |home| eave.at.distance(home));
        let reached = ends
            .into_iter()
            .filter(|eave| eave.run < nearer + 2.0 * AT_RIDGE);
        reached.min_by(|a, b| to_closet(a).total_cmp(&to_closet(b)))
    }

    /// The bay of the wall under the end of a rafter bay that reaches farthest beside its rafters.
    fn entry(&self, level: LevelId, space: &Space, strip: usize, eave: Eave) -> Option<Entry> {
        let half = Lumber::THICKNESS.0 / 2.0;
        let strip = &space.strips[strip];
        let (low, high) = (strip.from + half, strip.to - half);
        let rests = |wall: &usize| {
            let line = &self.walls[*wall].framing.line;
            let here = self.framing.levels[self.walls[*wall].level].level == level;
            here && line.along.dot(space.along).abs() < 0.5 && line.distance_to(eave.at) < ON_WALL
        };
        let away = |wall: &usize| self.walls[*wall].framing.line.distance_to(eave.at);
        let walls = (0..self.walls.len()).filter(rests);
        let wall = walls.min_by(|a, b| away(a).total_cmp(&away(b)))?;
        if self.walls[wall].wall.never_drill {
            return None;
        }
        let framing = self.walls[wall].framing;
        let mut best: Option<(f64, Entry)> = None;
        for bay in self.walls[wall].bays() {
            let framed = &framing.bays[bay];
            if framed.kind == BayKind::UnderSill {
                continue;
            }
            let ends = [framed.from, framed.to]
                .map(|offset| space.across_of(framing.line.at(offset, 0.0)));
            let from = ends[0].min(ends[1]).max(low);
            let room = ends[0].max(ends[1]).min(high) - from;
            let middle = from + room / 2.0;
            let part = (middle - ends[0]) / (ends[1] - ends[0]);
            let offset = framed.from + framed.width() * part;
            if room
                > best
                    .as_ref()
                    .map_or(NARROWEST_BAY, |(known, _)| *known + 1.0)
            {
                best = Some((room, Entry { wall, bay, offset }));
            }
        }
        best.map(|(_, entry)| entry)
    }

    /// The hole up out of a bay into a rafter bay, once for all that hangs in it.
    fn eave_port(&mut self, entry: &Entry, strip: usize, z: f64) -> Option<Node> {
        let same =
            |(wall, known, _): &&(usize, usize, Node)| (*wall, *known) == (entry.wall, strip);
        if let Some((_, _, node)) = self.eaves.iter().find(same) {
            return Some(*node);
        }
        let (wall, hub) = (
            &self.walls[entry.wall],
            self.walls[entry.wall].hubs[entry.bay],
        );
        let (id, framing, level) = (wall.wall.id, wall.framing, wall.level);
        let at = framing.line.at(entry.offset, 0.0);
        let stretch = (hub.height, framing.height);
        let (offset, top) = (entry.offset, framing.height);
        if self.obstacles[level].closes(id, (offset, offset), (at, at), stretch) {
            return None;
        }
        let plates = Member::TopPlates(wall.wall.top_plates);
        let middle = framing.bays[entry.bay].middle();
        let crossing = self.wall_crossing(entry.wall, plates, middle, top);
        let hole = self.hole(crossing, false)?;
        let aside = (offset - middle).abs();
        let node = self.graph.place(Place3 { at, z });
        let level = self.framing.levels[level].level;
        let kind = MoveKind::ThroughTopPlates { wall: id, level };
        let length = top - hub.height + aside;
        self.join((hub.node, node), kind, length, Some(hole), false);
        self.eaves.push((entry.wall, strip, node));
        Some(node)
    }
}
