//! Ways of an earlier answer, found again in the graph of a plan that has changed a little.
//!
//! A way is followed move by move: from each place by the move of the same kind that ends nearest to
//! where it ended before. So it survives a wall that is dragged, whose bays shift; a cable whose own
//! drop has moved is laid anew. Nothing is weighed here: that is for the network.

use std::cmp::Ordering;

use super::Routing;
use super::graph::Node;
use super::network::Network;
use super::way::{Move, MoveKind, Place3, Way, Ways};

/// A move may end so far from where it ended before, millimetres; farther is another move.
const FAR: f64 = 1_500.0;

/// A place nearer than this is the same, millimetres.
const SAME: f64 = 0.5;

/// A way that is not found in so many steps is given up.
const TRIES: u32 = 400;

impl Routing<'_> {
    /// For each cable of the problem the steps of its earlier way, as far as it can be followed from
    /// its drop to the closet; none for a cable that is new, had no way, or whose drop moved.
    pub(super) fn paths_again(&self, network: &Network, previous: &Ways) -> Vec<Vec<u32>> {
        let path = |(place, (cable, _)): (usize, &(_, _))| {
            let way = previous.way(*cable)?;
            self.follow(network, place, way)
        };
        let cables = self.routed.iter().enumerate();
        cables.map(|one| path(one).unwrap_or_default()).collect()
    }

    fn follow(&self, network: &Network, place: usize, way: &Way) -> Option<Vec<u32>> {
        let node = self.problem.as_ref()?.cables.get(place)?.source;
        let start = way.moves.first()?.from;
        if apart(start, self.graph.places[node as usize]) > SAME {
            return None;
        }
        let mut trail = Trail {
            routing: self,
            network,
            been: vec![node],
            path: Vec::with_capacity(way.moves.len()),
            left: TRIES,
        };
        trail.follow(&way.moves).then_some(trail.path)
    }
}

/// A way as far as it is followed.
struct Trail<'r, 'p> {
    routing: &'r Routing<'p>,
    network: &'r Network,
    been: Vec<u32>,
    path: Vec<u32>,
    left: u32,
}

impl Trail<'_, '_> {
    /// Follows the rest of a way; goes back a step where two places are equally near, as those of
    /// two walls that stand on one another, and the first leads nowhere.
    fn follow(&mut self, moves: &[Move]) -> bool {
        let Some((earlier, rest)) = moves.split_first() else {
            return self.been.last().copied() == self.routing.graph.sink;
        };
        let mut tried = None;
        while let Some(next) = self.likest(earlier, tried) {
            if self.left == 0 {
                return false;
            }
            self.left -= 1;
            self.path.push(next.edge);
            self.been.push(next.to);
            if self.follow(rest) {
                return true;
            }
            self.path.pop();
            self.been.pop();
            tried = Some(next);
        }
        false
    }

    /// The step from here that is likest to an earlier move, of those less like it than `tried`.
    fn likest(&self, earlier: &Move, tried: Option<Like>) -> Option<Like> {
        let graph = &self.routing.graph;
        let here = self.been.last().copied()?;
        let like = self.network.edges_from(here).filter_map(|(edge, to)| {
            let step = graph.steps.get(edge as usize)?;
            if !alike(step.kind, earlier.kind) {
                return None;
            }
            let off = apart(earlier.to, graph.places[to as usize]);
            let like = Like {
                off,
                longer: (step.length - earlier.length).abs(),
                edge,
                to,
            };
            (off <= FAR && !self.been.contains(&to)).then_some(like)
        });
        let mut least: Option<Like> = None;
        for like in like.filter(|like| tried.is_none_or(|tried| tried.order(like).is_lt())) {
            if least.is_none_or(|least| like.order(&least).is_lt()) {
                least = Some(like);
            }
            if like.is_the_same() {
                break;
            }
        }
        least
    }
}

/// A step like an earlier move: how far from it it ends, how much longer or shorter it is.
#[derive(Clone, Copy)]
struct Like {
    off: f64,
    longer: f64,
    edge: u32,
    to: Node,
}

impl Like {
    /// Nothing can be likelier. Of two such the first is as good.
    fn is_the_same(&self) -> bool {
        self.off == 0.0 && self.longer == 0.0
    }

    /// The likest first; of two that are equally like, that of the lower number.
    fn order(&self, other: &Self) -> Ordering {
        let near = self.off.total_cmp(&other.off);
        let long = self.longer.total_cmp(&other.longer);
        near.then(long).then(self.edge.cmp(&other.edge))
    }
}

/// Bays are counted anew when a wall changes, so their numbers are not compared.
fn alike(a: MoveKind, b: MoveKind) -> bool {
    match (a, b) {
        (MoveKind::InBay { wall, .. }, MoveKind::InBay { wall: other, .. }) => wall == other,
        _ => a == b,
    }
}

fn apart(a: Place3, b: Place3) -> f64 {
    a.at.distance(b.at) + (a.z - b.z).abs()
}
