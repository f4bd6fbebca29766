//! The first paths: nearest cable first, each at what it costs on top of those before it.

use super::graph::Network;
use super::router::{Reach, Router, limit};
use super::shortest::{self, Field};

/// The factor at which a bore costs its price.
pub(super) const PLAIN: u64 = 256;

/// Lays every cable that can be laid and has no path yet, nearest to the sink first.
pub(super) fn lay_missing(router: &mut Router<'_>, reach: &[Reach]) {
    for cable in nearest_first(router) {
        if reach[cable] == Reach::Open && router.state.paths[cable].is_none() {
            lay_best(router, cable);
        }
    }
}

/// Cheapest ways with a bore at every crossing at its price times its factor / 256.
pub(super) fn tree(network: &Network, factors: &[u64]) -> Field {
    shortest::field(network, network.sink, |_, arc| {
        let bore = network
            .crossings
            .get(arc.crossing as usize)
            .map_or(0, |c| u64::from(c.price));
        let factor = factors.get(arc.crossing as usize).copied().unwrap_or(0);
        u64::from(arc.cost) * PLAIN + bore * factor
    })
}

/// Lays every cable along one tree; a cable that this does not serve goes its best way. Nothing
/// may be laid before.
pub(super) fn lay_tree(router: &mut Router<'_>, reach: &[Reach], tree: &Field) {
    let network = router.network;
    let serves = |cable: usize, path: &Vec<u32>| {
        network.pins[cable].is_empty() && network.path_length(path) <= limit(network, cable)
    };
    let open = (0..network.cables.len()).filter(|cable| reach[*cable] == Reach::Open);
    for cable in open {
        let way = tree.path(network, network.cables[cable].source);
        if let Some(path) = way.filter(|path| serves(cable, path)) {
            router.state.lay(cable, path);
        }
    }
    router.look_ahead();
    lay_missing(router, reach);
}

/// Lays every cable its own cheapest way, as if it were alone. Nothing may be laid before; the
/// router's estimates must be those of that.
pub(super) fn lay_alone(router: &mut Router<'_>, reach: &[Reach]) {
    let open = (0..router.network.cables.len()).filter(|cable| reach[*cable] == Reach::Open);
    let paths: Vec<_> = open
        .map(|cable| (cable, router.best(cable, u64::MAX)))
        .collect();
    for (cable, path) in paths {
        if let Some(path) = path {
            router.state.lay(cable, path);
        }
    }
    router.look_ahead();
}

/// Lays one cable the best way there is.
pub(super) fn lay_best(router: &mut Router<'_>, cable: usize) {
    if let Some(path) = router.best(cable, u64::MAX) {
        router.state.lay(cable, path.clone());
        router.opened(&path);
    }
}

fn nearest_first(router: &Router<'_>) -> Vec<usize> {
    let network = router.network;
    let mut order: Vec<usize> = (0..network.cables.len()).collect();
    let source = |cable: &usize| network.cables[*cable].source as usize;
    order.sort_by_key(|cable| (network.linear.distance[source(cable)], *cable));
    order
}
