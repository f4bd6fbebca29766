//! Second heights at which a wall is bored: over the headers of its openings through cripples, and past
//! what stops its lane. Each is a lane of its own with its own holes and prices.

use super::graph::Node;
use super::house::House;
use super::lane::second_height;
use super::way::{MoveKind, Place3};
use crate::framing::{BayKind, Header};
use crate::plan::Pin;

/// Bays of a wall in order with the uprights between each two.
type Pair = (usize, usize, Vec<usize>);

/// Nodes of a wall's bays at one height.
struct Shelf {
    height: f64,
    nodes: Vec<(usize, Node)>,
}

impl House<'_> {
    /// Adds the ways of a wall over its openings and past what stops its lane, under a closed roof:
    /// elsewhere cable goes up through the plates, and over, with fewer holes.
    pub(super) fn add_passages(&mut self, place: usize) {
        let wall = &self.walls[place];
        let (framing, is_backwards) = (wall.framing, wall.is_backwards);
        let closed = self.framing.levels[wall.level].above.is_none();
        if wall.wall.never_drill || !closed {
            return;
        }
        let mut headers: Vec<&Header> = framing.headers.iter().collect();
        headers.sort_by(|a, b| a.from.total_cmp(&b.from));
        if is_backwards {
            headers.reverse();
        }
        for header in headers {
            self.add_over(place, header);
        }
        self.add_past(place);
    }

    /// The way over an opening, where the cripples over its header are tall enough to be bored.
    fn add_over(&mut self, place: usize, header: &Header) {
        let framing = self.walls[place].framing;
        let over = |bay: &usize| {
            let bay = &framing.bays[*bay];
            let here = header.from - 1.0 <= bay.from && bay.to <= header.to + 1.0;
            bay.kind == BayKind::OverHeader && here
        };
        let Some(height) = (0..framing.bays.len())
            .find(over)
            .and_then(|bay| framing.bays[bay].bored_at())
        else {
            return;
        };
        // What lies between two openings belongs to the first.
        let is_other = |bay: usize| framing.bays[bay].kind == BayKind::OverHeader && !over(&bay);
        let pairs = framing.neighbours(height).into_iter();
        let is_backwards = self.walls[place].is_backwards;
        let pairs = pairs.filter(|(a, b, _)| {
            let near = if is_backwards { *b } else { *a };
            (over(a) || over(b)) && !is_other(near)
        });
        self.add_shelf(place, height, pairs.collect());
    }

    /// A second lane past what stops the first between two of its bays. A lane that a person pinned has
    /// none.
    fn add_past(&mut self, place: usize) {
        let wall = &self.walls[place];
        let id = wall.wall.id;
        let is_pinned = |pin: &Pin| matches!(pin, Pin::Lane { wall, .. } if *wall == id);
        if self.plan.pins.iter().any(is_pinned) {
            return;
        }
        let framing = wall.framing;
        let stopped = |(a, b, _): &Pair| !self.is_clear(place, (*a, *b), wall.lane);
        let lane = framing.neighbours(wall.lane).into_iter();
        let broken: Vec<(usize, usize)> = lane.filter(stopped).map(|(a, b, _)| (a, b)).collect();
        let stops = |height: f64| {
            let still = broken
                .iter()
                .filter(|pair| !self.is_clear(place, **pair, height));
            still.count()
        };
        let Some(height) = second_height(self.plan, framing, broken.len(), stops) else {
            return;
        };
        let pairs = framing.neighbours(height).into_iter();
        let pairs = pairs.filter(|(a, b, _)| broken.contains(&(*a, *b)));
        self.add_shelf(place, height, pairs.collect());
    }

    /// Whether nothing lies between the middles of two bays at a height.
    fn is_clear(&self, place: usize, (a, b): (usize, usize), height: f64) -> bool {
        let bays = &self.walls[place].framing.bays;
        self.lane_is_clear(place, (bays[a].middle(), bays[b].middle()), height)
    }

    /// Bores between these bays at a height, and the rises to it within each.
    fn add_shelf(&mut self, place: usize, height: f64, mut pairs: Vec<Pair>) {
        // As a wall that was drawn from its other end has them.
        if self.walls[place].is_backwards {
            pairs.reverse();
        }
        let mut shelf = Shelf {
            height,
            nodes: Vec::new(),
        };
        for (a, b, studs) in pairs {
            if !self.is_clear(place, (a, b), height) {
                continue;
            }
            let ends = match self.walls[place].is_backwards {
                true => {
                    let far = self.shelved(place, b, &mut shelf);
                    (self.shelved(place, a, &mut shelf), far)
                }
                false => {
                    let near = self.shelved(place, a, &mut shelf);
                    (near, self.shelved(place, b, &mut shelf))
                }
            };
            self.add_bore(place, (a, b), ends, studs, height);
        }
    }

    /// The node of a bay at the height of a shelf, joined to its hub unless something closes the bay
    /// between the two.
    fn shelved(&mut self, place: usize, bay: usize, shelf: &mut Shelf) -> Node {
        if let Some((_, node)) = shelf.nodes.iter().find(|(known, _)| *known == bay) {
            return *node;
        }
        let node = self.rise(place, bay, shelf.height);
        shelf.nodes.push((bay, node));
        node
    }

    fn rise(&mut self, place: usize, bay: usize, height: f64) -> Node {
        let wall = &self.walls[place];
        let (framing, id, hub) = (wall.framing, wall.wall.id, wall.hubs[bay]);
        let length = (height - hub.height).abs();
        if length < 1.0 {
            return hub.node;
        }
        let middle = framing.bays[bay].middle();
        let at = framing.line.at(middle, 0.0);
        let obstacles = &self.obstacles[wall.level];
        let ends = (hub.height, height);
        let is_closed = obstacles.closes(id, (middle, middle), (at, at), ends);
        let z = self.framing.levels[wall.level].floor + height;
        let node = self.graph.place(Place3 { at, z });
        if !is_closed {
            let kind = MoveKind::InBay { wall: id, bay };
            self.join((hub.node, node), kind, length, None, false);
        }
        self.shelves.push((hub.node, node));
        node
    }
}
