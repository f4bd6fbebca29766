//! Two ways out of a local optimum: all paths anew on disturbed prices, and a cluster of cables torn
//! out and laid in another order.
//!
//! Both leave paths that local search has yet to improve.

use super::random::Random;
use super::router::{Reach, Router};
use super::start;
use super::state::State;

/// Lays every cable along one tree of ways at disturbed prices.
pub(super) fn disturb(router: &mut Router<'_>, reach: &[Reach], random: &mut Random) {
    let most = (start::PLAIN as usize * 2) >> random.below(6);
    let crossings = router.network.crossings.len();
    let factors: Vec<u64> = (0..crossings).map(|_| random.below(most) as u64).collect();
    router.clear();
    start::lay_tree(router, reach, &start::tree(router.network, &factors));
    router.watch.forget();
}

/// Tears these cables out and lays them in the order given.
pub(super) fn tear_out(router: &mut Router<'_>, cluster: &[usize]) {
    router.watch.settle();
    for cable in cluster {
        if let Some(path) = router.state.lift(*cable) {
            router.closed(&path);
        }
    }
    for cable in cluster {
        start::lay_best(router, *cable);
    }
}

/// Eight or more of the cables that pass a node of a cable's path, both at random.
pub(super) fn cluster(state: &State<'_>, random: &mut Random) -> Vec<usize> {
    let laid: Vec<usize> = (0..state.paths.len())
        .filter(|i| state.paths[*i].is_some())
        .collect();
    let Some(first) = laid.get(random.below(laid.len())) else {
        return Vec::new();
    };
    let path = state.paths[*first].as_deref().unwrap_or(&[]);
    let Some(arc) = path.get(random.below(path.len())) else {
        return Vec::new();
    };
    let node = state.network.arcs[*arc as usize].from;
    let leaves = |arc: &u32| state.network.arcs[*arc as usize].from == node;
    let passes = |cable: &usize| state.paths[*cable].iter().flatten().any(leaves);
    let mut cluster: Vec<usize> = laid.into_iter().filter(passes).collect();
    random.shuffle(&mut cluster);
    cluster.truncate(8 + random.below(24));
    cluster
}
