//! Ways of an earlier answer, found again in the graph of a plan that has changed a little.
//!
//! A way is followed move by move: from each place by the move of the same kind that ends nearest to
//! where it ended before. So it survives a wall that is dragged, whose bays shift; a cable whose own
//! drop has moved is laid anew. Nothing is weighed here: that is for the network.

use super::Routing;
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
    pub(super) fn paths_again(&self, previous: &Ways) -> Vec<Vec<u32>> {
        let steps = self.steps_at_places();
        let path = |(place, (cable, _)): (usize, &(_, _))| {
            let way = previous.way(*cable)?;
            self.follow(&steps, place, way)
        };
        let cables = self.routed.iter().enumerate();
        cables.map(|one| path(one).unwrap_or_default()).collect()
    }

    /// For each place the steps that start or end there.
    fn steps_at_places(&self) -> Vec<Vec<u32>> {
        let mut at = vec![Vec::new(); self.graph.places.len()];
        for (i, step) in self.graph.steps.iter().enumerate() {
            for end in [step.from, step.to] {
                if let Some(steps) = at.get_mut(end as usize) {
                    steps.push(i as u32);
                }
            }
        }
        at
    }

    fn follow(&self, steps: &[Vec<u32>], place: usize, way: &Way) -> Option<Vec<u32>> {
        let node = self.problem.as_ref()?.cables.get(place)?.source;
        let start = way.moves.first()?.from;
        if apart(start, self.graph.places[node as usize]) > SAME {
            return None;
        }
        let mut trail = Trail {
            routing: self,
            steps,
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
    steps: &'r [Vec<u32>],
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
        for (edge, to) in self.nearest(earlier) {
            if self.left == 0 {
                return false;
            }
            self.left -= 1;
            self.path.push(edge);
            self.been.push(to);
            if self.follow(rest) {
                return true;
            }
            self.path.pop();
            self.been.pop();
        }
        false
    }

    /// The steps from here that are like an earlier move, the likest first, and where they lead.
    fn nearest(&self, earlier: &Move) -> Vec<(u32, u32)> {
        let graph = &self.routing.graph;
        let Some(here) = self.been.last().copied() else {
            return Vec::new();
        };
        let like = self.steps[here as usize].iter().filter_map(|edge| {
            let step = &graph.steps[*edge as usize];
            let to = if step.from == here {
                step.to
            } else {
                step.from
            };
            let off = apart(earlier.to, graph.places[to as usize]);
            let open = alike(step.kind, earlier.kind) && off <= FAR && !self.been.contains(&to);
            let longer = (step.length - earlier.length).abs();
            open.then_some((off, longer, *edge, to))
        });
        let mut like: Vec<_> = like.collect();
        like.sort_by(|a, b| {
            let near = a.0.total_cmp(&b.0).then(a.1.total_cmp(&b.1));
            near.then(a.2.cmp(&b.2))
        });
        like.into_iter().map(|(.., edge, to)| (edge, to)).collect()
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
