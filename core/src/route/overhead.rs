//! Spaces as graphs: along strips, across joists, and from port to port.

use super::graph::Node;
use super::house::{House, steady};
use super::network;
use super::port::Port;
use super::price::UNLIMITED;
use super::way::{Crossing, Member, MoveKind, Place3};
use crate::framing::{Space, SpaceKind, Strip};
use crate::plan::{JoistKind, Lumber};
use crate::shape::Pos;

/// Distance between the courses along which cable may change strips, millimetres: 24 in.
const COURSE: f64 = 609.6;
/// The most courses a space is given; longer spaces get wider courses.
const MOST_COURSES: f64 = 120.0;
/// Ports nearer than this are also joined straight, millimetres.
const NEAR: f64 = 800.0;
/// The most other ports one is joined to straight. In a house there are a few; walls that lie on each other
/// would else be joined each to each.
const MOST_NEAR: usize = 16;

/// The nodes of one space: strips by courses, `None` outside the house.
struct Grid {
    first: f64,
    course: f64,
    courses: usize,
    nodes: Vec<Option<Node>>,
}

impl House<'_> {
    /// Adds every space with what is needed to run in it. Ports must be there before.
    pub fn add_spaces(&mut self) {
        for space in 0..self.framing.spaces.len() {
            if let Some(grid) = self.grid(space) {
                self.add_along(space, &grid);
                self.add_across(space, &grid);
                self.add_ports(space, &grid);
            }
        }
    }

    fn grid(&mut self, index: usize) -> Option<Grid> {
        let space = &self.framing.spaces[index];
        // What hangs under rafters is led along its own bay only.
        if space.kind == SpaceKind::Rafters {
            return None;
        }
        let corners = || {
            space
                .outline
                .loops
                .iter()
                .flatten()
                .map(|c| space.along_of(*c))
        };
        let low = corners().min_by(f64::total_cmp)?;
        let high = corners().max_by(f64::total_cmp)?;
        let course = COURSE.max((high - low) / MOST_COURSES);
        let courses = ((high - low) / course).round().max(1.0);
        // As far from one end as from the other: a house in a mirror has the same ways.
        let first = (low + high - (courses - 1.0) * course) / 2.0;
        let courses = courses as usize;
        let mut nodes = Vec::new();
        for strip in &space.strips {
            for at in 0..courses {
                let within = clipped(space, strip, first + at as f64 * course);
                let open = within.filter(|at| !self.is_closed(index, *at, *at));
                nodes.push(open.map(|at| self.graph.place(Place3 { at, z: space.z })));
            }
        }
        Some(Grid {
            first,
            course,
            courses,
            nodes,
        })
    }

    /// Whether a keep-out of the level below or above closes a space between two places, or at one.
    pub(super) fn is_closed(&self, space: usize, from: Pos, to: Pos) -> bool {
        let levels = self.framing.levels.iter().zip(&self.obstacles);
        levels.into_iter().any(|(level, obstacles)| {
            (level.is_under(space) && obstacles.closes_overhead(from, to))
                || (level.below == Some(space) && obstacles.closes_underfoot(from, to))
        })
    }

    /// Whether a keep-out lies between two nodes of a space, however narrow it is.
    fn is_parted(&self, space: usize, ends: (Node, Node)) -> bool {
        let at = |node: Node| self.graph.places[node as usize].at;
        self.is_closed(space, at(ends.0), at(ends.1))
    }

    fn add_along(&mut self, space: usize, grid: &Grid) {
        for strip in 0..self.framing.spaces[space].strips.len() {
            for at in 1..grid.courses {
                let pair = (grid.node(strip, at - 1), grid.node(strip, at));
                if let (Some(from), Some(to)) = pair
                    && !self.is_parted(space, (from, to))
                {
                    self.run(
                        space,
                        (from, to),
                        MoveKind::AlongStrip { space },
                        grid.course,
                    );
                }
            }
        }
    }

    fn add_across(&mut self, index: usize, grid: &Grid) {
        let space = &self.framing.spaces[index];
        for strip in 1..space.strips.len() {
            for course in 0..grid.courses {
                let pair = (grid.node(strip - 1, course), grid.node(strip, course));
                let (Some(from), Some(to)) = pair else {
                    continue;
                };
                if self.is_parted(index, (from, to)) {
                    continue;
                }
                let across = |node: Node| space.across_of(self.graph.places[node as usize].at);
                let apart = across(to) - across(from);
                let along = grid.first + course as f64 * grid.course;
                let joist = space.at(along, space.strips[strip].from);
                let kind = MoveKind::AcrossStrips { space: index };
                if space.kind.is_open_across() || (space.hangs && !self.is_over_wall(index, joist))
                {
                    self.run(index, (from, to), kind, apart);
                    continue;
                }
                let places = [from, to].map(|node| self.graph.places[node as usize].at);
                let Some(beside) = self.beside_power(index, places[0], places[1]) else {
                    continue;
                };
                if let Some(hole) = self.joist_hole(index, along, joist) {
                    self.join((from, to), kind, apart, Some(hole), beside);
                }
            }
        }
    }

    /// Whether a wall of the level under a space stands right beneath a place of a joist, so that nothing hangs
    /// there: cable goes through the joist over the wall.
    fn is_over_wall(&self, index: usize, joist: Pos) -> bool {
        let half = Lumber::THICKNESS.0 / 2.0;
        let under = self.walls.iter();
        let mut under = under.filter(|wall| self.framing.levels[wall.level].is_under(index));
        under.any(|wall| {
            let (line, reach) = (&wall.framing.line, half + wall.wall.width().0 / 2.0);
            (-half..=line.length + half).contains(&line.offset_of(joist))
                && line.aside_of(joist).abs() < reach
        })
    }

    /// A stretch in the open of a space, with the supports it wants; dearer beside power, and none
    /// where power runs along nearer than stops it.
    pub(super) fn run(&mut self, space: usize, ends: (Node, Node), kind: MoveKind, length: f64) {
        let places = [ends.0, ends.1].map(|node| self.graph.places[node as usize].at);
        let Some(beside) = self.beside_power(space, places[0], places[1]) else {
            return;
        };
        let support = self.prices.supports(steady(length));
        let support = network::Crossing::poured(support, UNLIMITED);
        let hole = (support.price > 0).then(|| self.graph.share(None, support));
        self.join(ends, kind, length, hole, beside);
    }

    /// Whether cable lies beside power over the level whose ceiling a space lies on; `None` where that
    /// stops it.
    fn beside_power(&self, space: usize, from: Pos, to: Pos) -> Option<bool> {
        let over = self.framing.levels.iter().zip(&self.obstacles);
        let over = over.filter(|(level, _)| level.is_under(space));
        let mut beside = over.filter_map(|(_, obstacles)| obstacles.power_along(from, to));
        match beside.next() {
            Some(power) => (power.near < 2).then_some(true),
            None => Some(false),
        }
    }

    fn joist_hole(&mut self, index: usize, along: f64, at: Pos) -> Option<usize> {
        let space = &self.framing.spaces[index];
        let kind = match space.kind {
            SpaceKind::Floor(kind) | SpaceKind::Crawl(kind) => kind,
            SpaceKind::AtticJoists | SpaceKind::AtticTrusses | SpaceKind::Rafters => return None,
        };
        let member = match kind {
            JoistKind::Sawn => Member::Joist { space: index },
            JoistKind::IJoist => Member::Web { space: index },
            JoistKind::OpenWeb => return None,
        };
        let level = self.worked_from(index)?;
        let (_, framing) = self.level(level);
        let height = space.z - framing.floor;
        let level = framing.level;
        let crossing = Crossing {
            member,
            wall: None,
            level,
            offset: along,
            height,
            at,
            cables: Vec::new(),
        };
        self.hole(crossing, false)
    }

    /// The level a space is worked from: the one under it, or the one over a crawl space.
    fn worked_from(&self, space: usize) -> Option<usize> {
        let levels = &self.framing.levels;
        let under = levels.iter().position(|level| level.is_under(space));
        under.or_else(|| levels.iter().position(|level| level.below == Some(space)))
    }

    fn add_ports(&mut self, index: usize, grid: &Grid) {
        let space = &self.framing.spaces[index];
        let ports = self.ports[index].all.clone();
        for port in &ports {
            self.add_port(index, grid, port);
        }
        let mut lain: Vec<Lain> = ports.iter().map(|port| Lain::of(space, port)).collect();
        lain.sort_by(|a, b| {
            a.along
                .total_cmp(&b.along)
                .then(a.across.total_cmp(&b.across))
        });
        for (place, port) in lain.iter().enumerate() {
            let near = lain[place + 1..]
                .iter()
                .take_while(|o| o.along - port.along < NEAR)
                .filter(|o| (o.across - port.across).abs() < NEAR)
                .take(MOST_NEAR);
            for other in near {
                self.join_ports(index, port, other);
            }
        }
    }

    /// Joins a port to the courses before and after it, on its own strip or, where cable may lie
    /// across, on the strips to both sides, so that no way doubles back.
    fn add_port(&mut self, index: usize, grid: &Grid, port: &Port) {
        let space = &self.framing.spaces[index];
        let along = space.along_of(port.at);
        let place = ((along - grid.first) / grid.course).floor();
        let courses = [place, place + 1.0]
            .into_iter()
            .filter(|c| *c >= 0.0 && *c < grid.courses as f64);
        let courses: Vec<usize> = courses.map(|c| c as usize).collect();
        let reached = |strip: &usize| courses.iter().any(|c| grid.node(*strip, *c).is_some());
        for strip in strips_for(space, port.at, reached) {
            for course in &courses {
                if let Some(node) = grid.node(strip, *course)
                    && !self.is_parted(index, (port.node, node))
                {
                    let length = manhattan(space, port.at, self.graph.places[node as usize].at);
                    self.run(
                        index,
                        (port.node, node),
                        MoveKind::AlongStrip { space: index },
                        length,
                    );
                }
            }
        }
    }

    fn join_ports(&mut self, index: usize, port: &Lain, other: &Lain) {
        let along = (port.along - other.along).abs();
        let length = along + (port.across - other.across).abs();
        let same_strip = port.strip == other.strip;
        let open = self.framing.spaces[index].kind.is_open_across();
        let joined = length < NEAR && (same_strip || open);
        if joined && !self.is_parted(index, (port.node, other.node)) {
            let kind = match same_strip || along * 2.0 > length {
                true => MoveKind::AlongStrip { space: index },
                false => MoveKind::AcrossStrips { space: index },
            };
            self.run(index, (port.node, other.node), kind, length.max(1.0));
        }
    }
}

/// A port as it lies in its space.
struct Lain {
    node: Node,
    along: f64,
    across: f64,
    strip: Option<usize>,
}

impl Lain {
    fn of(space: &Space, port: &Port) -> Self {
        Self {
            node: port.node,
            along: space.along_of(port.at),
            across: space.across_of(port.at),
            strip: space.strip_at(port.at),
        }
    }
}

impl Grid {
    fn node(&self, strip: usize, course: usize) -> Option<Node> {
        self.nodes
            .get(strip * self.courses + course)
            .copied()
            .flatten()
    }
}

/// Distance along and across the joists, not through the air.
fn manhattan(space: &Space, from: Pos, to: Pos) -> f64 {
    (space.along_of(from) - space.along_of(to)).abs()
        + (space.across_of(from) - space.across_of(to)).abs()
}

/// Where a cable lies in a strip at a course: in its middle, or where that is outside the house, in
/// what the outline leaves of it; `None` where it leaves less than a tenth.
fn clipped(space: &Space, strip: &Strip, along: f64) -> Option<Pos> {
    let parts = [0.5, 0.25, 0.75, 0.1, 0.9];
    let places = parts.map(|part| space.at(along, strip.from + (strip.to - strip.from) * part));
    let mut inside = places.into_iter();
    inside.find(|at| space.contains(*at))
}

/// The strips a port may reach without a bore. Over a joist beside which nothing is left of its own
/// strip, that is the strip on the other side.
fn strips_for(space: &Space, at: Pos, reached: impl Fn(&usize) -> bool) -> Vec<usize> {
    let Some(own) = space.strip_at(at) else {
        return Vec::new();
    };
    let beyond = space.across_of(at) > space.strips[own].middle();
    let other = match beyond {
        true => Some(own + 1),
        false => own.checked_sub(1),
    };
    let other = other.filter(|strip| *strip < space.strips.len());
    match (space.kind.is_open_across(), reached(&own)) {
        (false, true) => vec![own],
        _ => [Some(own), other].into_iter().flatten().collect(),
    }
}
