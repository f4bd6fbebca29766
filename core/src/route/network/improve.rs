//! Local search: rip up one cable, or the whole bundle beyond a junction, and lay it better.
//!
//! A move is kept only if everything together costs less, so paths that are as good as any stay
//! where they are. Single cables alone are blind to "all five should go the other way"; bundles
//! see it.

use super::graph::{NONE, Network};
use super::random::Random;
use super::router::Router;
use super::state::Bundle;

/// A node where bundles meet, and the cables through it.
struct Junction {
    node: u32,
    cables: Vec<u32>,
}

/// What a bundle's cable did before it was moved: its path up to `kept` stayed.
struct Undo {
    cable: usize,
    kept: usize,
    rest: Vec<u32>,
}

/// Improves the paths: tries every move that is news, and then those that became so, until searches
/// have taken up `most` nodes. False if it was cut short. The estimates must hold for the paths as
/// they lie.
pub(super) fn improve(router: &mut Router<'_>, most: u64) -> bool {
    let stop = router.work() + most;
    loop {
        let before = router.state.cost();
        move_cables(router);
        let done = move_bundles(router, stop);
        if router.state.cost() == before || !done {
            return done;
        }
    }
}

fn move_cables(router: &mut Router<'_>) {
    let through = signatures(router);
    for cable in 0..router.network.cables.len() {
        if router.held[cable] {
            continue;
        }
        let source = router.network.cables[cable].source;
        if is_news(router, &through, cable, cable, source) {
            move_cable(router, cable);
            router.watch.look(cable);
        }
    }
}

fn move_bundles(router: &mut Router<'_>, stop: u64) -> bool {
    let through = signatures(router);
    for junction in junctions(router, &through) {
        if junction
            .cables
            .iter()
            .any(|cable| router.held[*cable as usize])
        {
            continue;
        }
        let item = router.network.cables.len() + junction.node as usize;
        let first = junction.cables.first().map_or(0, |cable| *cable as usize);
        if is_news(router, &through, item, first, junction.node) {
            if router.work() >= stop {
                return false;
            }
            move_bundle(router, &junction);
            router.watch.look(item);
        }
    }
    true
}

/// Whether something changed on a cable's path between a node and the next junction since the move
/// was tried there.
fn is_news(
    router: &Router<'_>,
    through: &[[u64; 2]],
    item: usize,
    cable: usize,
    node: u32,
) -> bool {
    let Some(at) = position(router, cable, node) else {
        return true;
    };
    let path = router.state.paths[cable].as_deref().unwrap_or(&[]);
    let mut meets = false;
    let stretch = path[at..].iter().map_while(|arc| {
        let arc = &router.network.arcs[*arc as usize];
        let go = !meets;
        meets = through[arc.to as usize] != through[arc.from as usize];
        go.then_some(arc.to)
    });
    router
        .watch
        .is_news(item, std::iter::once(node).chain(stretch))
}

fn move_cable(router: &mut Router<'_>, cable: usize) {
    let before = router.state.cost();
    let Some(old) = router.state.lift(cable) else {
        return;
    };
    if let Some(path) = router.best(cable, before - router.state.cost()) {
        router.state.lay(cable, path.clone());
        if router.state.cost() < before {
            router.closed(&old);
            router.opened(&path);
            return;
        }
        router.state.lift(cable);
    }
    router.state.lay(cable, old);
}

/// Every node where the set of cables through it differs from that at the node before.
fn junctions(router: &Router<'_>, through: &[[u64; 2]]) -> Vec<Junction> {
    let mut numbers = vec![NONE; router.network.nodes as usize];
    let mut junctions = Vec::new();
    for_each_visit(router, |_, before, node| {
        let [count, signature] = through[node as usize];
        let fresh = before.is_none_or(|before| through[before as usize][1] != signature);
        if count >= 2 && fresh && numbers[node as usize] == NONE {
            numbers[node as usize] = junctions.len() as u32;
            junctions.push(Junction {
                node,
                cables: Vec::new(),
            });
        }
    });
    for_each_visit(router, |cable, _, node| {
        if let Some(junction) = junctions.get_mut(numbers[node as usize] as usize) {
            junction.cables.push(cable as u32);
        }
    });
    junctions
}

/// For every node the number of cables through it and a sum that tells their sets apart.
fn signatures(router: &Router<'_>) -> Vec<[u64; 2]> {
    let mut through = vec![[0u64; 2]; router.network.nodes as usize];
    for_each_visit(router, |cable, _, node| {
        let [count, signature] = &mut through[node as usize];
        *count += 1;
        *signature = signature.wrapping_add(super::random::Random::new(cable as u64).next());
    });
    through
}

fn for_each_visit(router: &Router<'_>, mut visit: impl FnMut(usize, Option<u32>, u32)) {
    for (cable, path) in router.state.paths.iter().enumerate() {
        let Some(path) = path else { continue };
        visit(cable, None, router.network.cables[cable].source);
        for arc in path {
            let arc = &router.network.arcs[*arc as usize];
            visit(cable, Some(arc.from), arc.to);
        }
    }
}

fn move_bundle(router: &mut Router<'_>, junction: &Junction) {
    let before = router.state.cost();
    let mut undo = lift_bundle(router, junction);
    if undo.len() < 2 {
        return restore(router, undo);
    }
    let bundle = bundle_of(router.network, &undo);
    let budget = budget(router, &undo);
    let under = (before - router.state.cost()) / 4 * 5;
    let Some(tail) = router.tail(junction.node, bundle, budget, under) else {
        return restore(router, undo);
    };
    let touched = touched_nodes(router.network, junction.node, &tail);
    for undo in &mut undo {
        lay_without_loop(router, undo, &tail, &touched);
    }
    if router.state.cost() >= before {
        return restore(router, undo);
    }
    undo.iter().for_each(|undo| router.closed(&undo.rest));
    router.opened(&tail);
}

/// Kicks cables at random: those that pass a node, or those of them that start where one does.
pub(super) fn kick(router: &mut Router<'_>, random: &mut Random, most: u64) {
    if let Some((junction, barred)) = kicked(router, random) {
        kick_off(router, &junction, barred, most);
    }
}

/// Kicks the cables from a source off each of the crossings on the way of one of them, in turn.
pub(super) struct Kicks {
    junction: Junction,
    barred: Vec<u32>,
}

impl Kicks {
    /// Of the cables that start where this one does, as they lie.
    pub fn of(router: &Router<'_>, cable: usize) -> Self {
        let (network, paths) = (router.network, &router.state.paths);
        let node = network.cables[cable].source;
        let from_here = |cable: &usize| network.cables[*cable].source == node;
        let cables = (0..paths.len()).filter(from_here);
        let arcs = paths[cable].iter().flatten();
        let crossings = arcs.map(|arc| network.arcs[*arc as usize].crossing);
        Self {
            junction: Junction {
                node,
                cables: cables.map(|cable| cable as u32).collect(),
            },
            barred: crossings.filter(|crossing| *crossing != NONE).collect(),
        }
    }

    /// The next of them; false if there is none left.
    pub fn next(&mut self, router: &mut Router<'_>, most: u64) -> bool {
        let barred = self.barred.pop();
        barred.inspect(|barred| kick_off(router, &self.junction, *barred, most));
        barred.is_some()
    }
}

/// Sends the cables that pass a node another way than through a crossing they use, whatever that costs, lets
/// all others move to what is best then, and only then them.
fn kick_off(router: &mut Router<'_>, junction: &Junction, barred: u32, most: u64) {
    router.watch.settle();
    let mut undo = lift_bundle(router, junction);
    if undo.is_empty() {
        return;
    }
    undo.iter().for_each(|undo| router.closed(&undo.rest));
    let bundle = bundle_of(router.network, &undo);
    let budget = budget(router, &undo);
    router.barred = barred;
    let tail = router.tail(junction.node, bundle, budget, u64::MAX);
    router.barred = NONE;
    let Some(tail) = tail else {
        return restore(router, undo);
    };
    let touched = touched_nodes(router.network, junction.node, &tail);
    for undo in &mut undo {
        lay_without_loop(router, undo, &tail, &touched);
    }
    router.opened(&tail);
    for undo in &undo {
        router.held[undo.cable] = true;
    }
    improve(router, most);
    router.held.fill(false);
    improve(router, most);
}

/// A node at random on the path of a cable at random, cables through it, and a crossing on their way on.
fn kicked(router: &Router<'_>, random: &mut Random) -> Option<(Junction, u32)> {
    let (network, paths) = (router.network, &router.state.paths);
    let laid: Vec<usize> = (0..paths.len()).filter(|i| paths[*i].is_some()).collect();
    let first = *laid.get(random.below(laid.len()))?;
    let path = paths[first].as_deref()?;
    let own = random.below(2) == 0;
    let at = if own { 0 } else { random.below(path.len()) };
    let node = network.arcs[*path.get(at)? as usize].from;
    let crossings: Vec<u32> = path[at..]
        .iter()
        .map(|arc| network.arcs[*arc as usize].crossing)
        .filter(|crossing| *crossing != NONE)
        .collect();
    let barred = *crossings.get(random.below(crossings.len()))?;
    let cables = laid.into_iter().filter(|cable| match own {
        true => network.cables[*cable].source == node,
        false => position(router, *cable, node).is_some(),
    });
    let cables = cables.map(|cable| cable as u32).collect();
    Some((Junction { node, cables }, barred))
}

/// Takes out everything beyond the junction of the cables that still pass it.
fn lift_bundle(router: &mut Router<'_>, junction: &Junction) -> Vec<Undo> {
    let mut undo = Vec::with_capacity(junction.cables.len());
    for cable in junction.cables.iter().map(|cable| *cable as usize) {
        let Some(kept) = position(router, cable, junction.node) else {
            continue;
        };
        if undo.last().is_some_and(|undo: &Undo| undo.cable == cable) {
            continue;
        }
        if let Some(rest) = router.state.lift_tail(cable, kept) {
            undo.push(Undo { cable, kept, rest });
        }
    }
    undo
}

/// How many arcs of its path a cable has behind it at a node, once its pins are passed.
fn position(router: &Router<'_>, cable: usize, node: u32) -> Option<usize> {
    let network = router.network;
    let path = router.state.paths[cable].as_ref()?;
    let free = free_from(network, cable, path);
    let at = |i: &usize| match i.checked_sub(1) {
        None => network.cables[cable].source,
        Some(i) => network.arcs[path[i] as usize].to,
    };
    (free..=path.len()).find(|i| at(i) == node)
}

/// How many arcs a cable has behind it when the last of its pins is passed.
fn free_from(network: &Network, cable: usize, path: &[u32]) -> usize {
    let pins = &network.pins[cable];
    let mut passed = 0;
    let mut pass = |node: u32| {
        while pins.get(passed) == Some(&node) {
            passed += 1;
        }
        passed == pins.len()
    };
    if pass(network.cables[cable].source) {
        return 0;
    }
    let last = path
        .iter()
        .position(|arc| pass(network.arcs[*arc as usize].to));
    last.map_or(path.len(), |i| i + 1)
}

fn bundle_of(network: &Network, undo: &[Undo]) -> Bundle {
    let cables = undo.iter().map(|undo| network.bundle(undo.cable));
    cables.fold(Bundle::NONE, Bundle::and)
}

/// The longest tail that keeps every cable of the bundle within its limit.
fn budget(router: &Router<'_>, undo: &[Undo]) -> u64 {
    let network = router.network;
    let left = |undo: &Undo| {
        let head = router.state.paths[undo.cable].as_deref().unwrap_or(&[]);
        super::router::limit(network, undo.cable).saturating_sub(network.path_length(head))
    };
    undo.iter().map(left).min().unwrap_or(u64::MAX)
}

/// For each node of a tail the arcs behind it; sorted by node.
fn touched_nodes(network: &Network, from: u32, tail: &[u32]) -> Vec<(u32, usize)> {
    let ends = tail
        .iter()
        .enumerate()
        .map(|(i, arc)| (network.arcs[*arc as usize].to, i + 1));
    let mut touched: Vec<(u32, usize)> = std::iter::once((from, 0)).chain(ends).collect();
    touched.sort_unstable();
    touched
}

/// Lays the tail from the first node of the cable's head that it touches: a path that would come
/// back to where it was goes on from there at once.
fn lay_without_loop(
    router: &mut Router<'_>,
    undo: &mut Undo,
    tail: &[u32],
    touched: &[(u32, usize)],
) {
    let network = router.network;
    let source = network.cables[undo.cable].source;
    let Some(head) = router.state.paths[undo.cable].as_ref() else {
        return;
    };
    let free = free_from(network, undo.cable, head);
    let node = |i: usize| {
        i.checked_sub(1)
            .map_or(source, |i| network.arcs[head[i] as usize].to)
    };
    let behind = |i: usize| touched.binary_search_by_key(&node(i), |touch| touch.0).ok();
    let meeting = (free..undo.kept).find_map(|i| behind(i).map(|at| (i, touched[at].1)));
    let Some((kept, skipped)) = meeting else {
        return router.state.lay_tail(undo.cable, tail);
    };
    if let Some(mut cut) = router.state.lift_tail(undo.cable, kept) {
        cut.append(&mut undo.rest);
        undo.rest = cut;
        undo.kept = kept;
    }
    router.state.lay_tail(undo.cable, &tail[skipped..]);
}

fn restore(router: &mut Router<'_>, undo: Vec<Undo>) {
    for Undo { cable, kept, rest } in undo {
        router.state.lift_tail(cable, kept);
        router.state.lay_tail(cable, &rest);
    }
}

#[cfg(test)]
mod tests {
    use super::super::problem::{Cable, Crossing, Edge, Problem};
    use super::super::router::Reach;
    use super::super::start;
    use super::*;

    /// Five cables reach a fork by holes of their own; one way on from it has a hole for each of
    /// them at a low price, the other one hole for all at a high one.
    fn fork() -> Problem {
        let edge = |u, v, crossing| Edge {
            u,
            v,
            cost: 100,
            length_mm: 100,
            crossing,
        };
        let cable = |id: u64| Cable {
            id,
            source: id as u32,
            area: 100,
            max_length_mm: 9_000,
        };
        let mut edges: Vec<Edge> = (0..5).map(|i| edge(i, 5, None)).collect();
        edges.extend([
            edge(5, 6, Some(0)),
            edge(5, 7, Some(1)),
            edge(6, 8, None),
            edge(7, 8, None),
        ]);
        Problem {
            nodes: 9,
            sink: 8,
            edges,
            crossings: vec![Crossing::poured(1_000, 100), Crossing::poured(3_000, 500)],
            cables: (0..5).map(cable).collect(),
            pins: vec![],
        }
    }

    #[test]
    fn a_bundle_moves_where_no_single_cable_would() {
        let network = Network::new(&fork()).unwrap();
        let mut router = Router::new(&network);
        start::lay_missing(&mut router, &[Reach::Open; 5]);
        assert_eq!(
            router.state.cost(),
            5 * 300 + 5 * 1_000,
            "each took the cheap hole"
        );
        move_cables(&mut router);
        assert_eq!(router.state.cost(), 5 * 300 + 5 * 1_000, "none moves alone");
        assert!(improve(&mut router, 1_000));
        assert_eq!(router.state.cost(), 5 * 300 + 3_000);
    }

    /// Two places with two cables each, and two holes that hold three, in each of which there is one other
    /// cable already: one of the pairs is 300 nearer to the other hole, and so is the other.
    fn swap() -> Problem {
        let edge = |u, v, cost, crossing| Edge {
            u,
            v,
            cost,
            length_mm: cost,
            crossing,
        };
        let cable = |(id, source)| Cable {
            id,
            source,
            area: 100,
            max_length_mm: 90_000,
        };
        Problem {
            nodes: 5,
            sink: 4,
            edges: vec![
                edge(0, 2, 400, None),
                edge(0, 3, 100, None),
                edge(1, 2, 100, None),
                edge(1, 3, 400, None),
                edge(2, 4, 100, Some(0)),
                edge(3, 4, 100, Some(1)),
            ],
            crossings: vec![Crossing::poured(5_000, 300); 2],
            cables: [0, 0, 1, 1, 2, 3]
                .into_iter()
                .enumerate()
                .map(|(id, source)| cable((id as u64, source)))
                .collect(),
            pins: vec![],
        }
    }

    /// By hand: as laid, four cables pay 400 + 100 and two 100, and two holes; swapped, the four pay 100 + 100.
    #[test]
    fn bundles_change_places_where_neither_would_go_alone() {
        let network = Network::new(&swap()).unwrap();
        let mut router = Router::new(&network);
        let previous = [
            vec![0, 4],
            vec![0, 4],
            vec![3, 5],
            vec![3, 5],
            vec![4],
            vec![5],
        ];
        super::super::warm::lay_previous(&mut router, &[Reach::Open; 6], &previous);
        router.look_ahead();
        assert!(improve(&mut router, 1_000));
        assert_eq!(router.state.cost(), 4 * 500 + 2 * 100 + 2 * 5_000, "stuck");
        let mut random = Random::new(0);
        let kicks = (0..20).map(|_| {
            kick(&mut router, &mut random, 1_000);
            assert!(router.held.iter().all(|held| !held) && router.barred == NONE);
            router.state.cost()
        });
        assert_eq!(kicks.min(), Some(4 * 200 + 2 * 100 + 2 * 5_000));
    }

    #[test]
    fn a_search_cut_short_says_so() {
        let network = Network::new(&fork()).unwrap();
        let mut router = Router::new(&network);
        start::lay_missing(&mut router, &[Reach::Open; 5]);
        assert!(!improve(&mut router, 0));
        assert!(improve(&mut router, 1_000));
    }

    #[test]
    fn a_path_that_comes_back_to_itself_is_cut() {
        let network = Network::new(&fork()).unwrap();
        let mut router = Router::new(&network);
        start::lay_missing(&mut router, &[Reach::Open; 5]);
        let kept = router.state.paths[0].as_ref().map_or(0, Vec::len);
        let tail: Vec<u32> = router.state.paths[1].clone().unwrap().split_off(1);
        let rest = Vec::new();
        let mut undo = Undo {
            cable: 0,
            kept,
            rest,
        };
        let touched = touched_nodes(&network, 5, &tail);
        let before = router.state.clone();
        lay_without_loop(&mut router, &mut undo, &tail, &touched);
        assert_eq!(
            router.state.paths, before.paths,
            "cut back to the fork and laid on from it"
        );
        restore(&mut router, vec![undo]);
        assert_eq!(
            (&router.state.paths, router.state.cost()),
            (&before.paths, before.cost())
        );
    }
}
