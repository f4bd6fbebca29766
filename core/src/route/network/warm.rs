//! Paths from an earlier answer, laid again where they still hold.

use super::graph::Network;
use super::router::{Reach, Router, limit};

/// Lays each cable's earlier path if it still leads from its source past its pins to the sink
/// within its limit. `previous` lists the caller's edges in the caller's order of cables.
pub(super) fn lay_previous(router: &mut Router<'_>, reach: &[Reach], previous: &[Vec<u32>]) {
    for (cable, _) in reach
        .iter()
        .enumerate()
        .filter(|(_, reach)| **reach == Reach::Open)
    {
        let edges = previous.get(router.network.place(cable));
        if let Some(path) = edges.and_then(|edges| path_of(router.network, cable, edges)) {
            router.state.lay(cable, path);
        }
    }
}

/// The arcs along a list of the caller's edges; `None` unless they serve the cable.
pub(super) fn path_of(network: &Network, cable: usize, edges: &[u32]) -> Option<Vec<u32>> {
    let mut node = network.cables[cable].source;
    let mut pins = network.pins[cable].iter().peekable();
    let mut path = Vec::with_capacity(edges.len());
    while pins.next_if_eq(&&node).is_some() {}
    for edge in edges {
        let arc = network.arc_from(node, *edge)?;
        node = network.arcs[arc as usize].to;
        while pins.next_if_eq(&&node).is_some() {}
        path.push(arc);
    }
    let serves = node == network.sink && pins.next().is_none();
    (serves && network.path_length(&path) <= limit(network, cable)).then_some(path)
}

#[cfg(test)]
mod tests {
    use super::super::effort::{Effort, solve, solve_from};
    use super::super::sample::Sample;
    use super::*;

    #[test]
    fn paths_that_hold_stay_and_others_are_laid_anew() {
        let problem = Sample {
            seed: 2,
            width: 7,
            height: 6,
            cables: 5,
            per_bore: 3,
        }
        .problem();
        let network = Network::new(&problem).unwrap();
        let answer = solve(&network, Effort::REPAIR);
        let mut previous = answer.paths();
        previous[0].pop();
        previous[1][0] = 9_999;
        previous[2].clear();
        previous.truncate(4);
        let again = solve_from(&network, &previous, Effort::REPAIR);
        assert_eq!(again.check(&problem), Ok(again.cost));
        assert_eq!(again.ways[3], answer.ways[3]);
        assert!(again.ways.iter().all(|way| way.is_found()));
    }
}
