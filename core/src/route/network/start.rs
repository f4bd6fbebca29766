//! The first paths: nearest cable first, each at what it costs on top of those before it.

use super::graph::Network;
use super::problem::Crossing;
use super::router::{Reach, Router, limit};
use super::shortest::{self, Field};
use super::state::Bundle;

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

/// Factors for [`tree`] at which a crossing in use costs each cable its share, and one out of use its price
/// divided by `among`.
pub(super) fn shares(network: &Network, paths: &[Option<Vec<u32>>], among: u64) -> Vec<u64> {
    let mut through = vec![Bundle::NONE; network.crossings.len()];
    for (cable, path) in paths.iter().enumerate() {
        for arc in path.iter().flatten() {
            let crossing = network.arcs[*arc as usize].crossing;
            if let Some(bundle) = through.get_mut(crossing as usize) {
                *bundle = bundle.and(network.bundle(cable));
            }
        }
    }
    let factor = |(bundle, crossing): (Bundle, &Crossing)| match bundle.count {
        0 => PLAIN / among,
        count => {
            let bores = network.loads.price(crossing, bundle.load);
            bores * PLAIN / u64::from(crossing.price.max(1)) / u64::from(count)
        }
    };
    through
        .into_iter()
        .zip(&network.crossings)
        .map(factor)
        .collect()
}

/// Lays every cable along one tree; a cable that this does not serve goes its best way. Nothing
/// may be laid before.
pub(super) fn lay_tree(router: &mut Router<'_>, reach: &[Reach], tree: &Field) {
    for cable in open(router.network, reach) {
        if let Some(path) = along(router.network, tree, cable) {
            router.state.lay(cable, path);
        }
    }
    router.look_ahead();
    lay_missing(router, reach);
}

/// Lays every cable its own cheapest way, as if it were alone. Nothing may be laid before; the
/// router's estimates must be those of that.
pub(super) fn lay_alone(router: &mut Router<'_>, reach: &[Reach]) {
    let paths: Vec<_> = open(router.network, reach)
        .map(|cable| (cable, best_alone(router, cable)))
        .collect();
    for (cable, path) in paths {
        if let Some(path) = path {
            router.state.lay(cable, path);
        }
    }
    router.look_ahead();
}

/// The cheapest way of a cable on its own. A search does not see that a way which meets one crossing
/// at two places pays there once, so the way along the edges' own costs is weighed against it.
fn best_alone(router: &mut Router<'_>, cable: usize) -> Option<Vec<u32>> {
    let network = router.network;
    let found = router.best(cable, u64::MAX);
    if !network.any_met_twice {
        return found;
    }
    let bundle = network.bundle(cable);
    let plain = along(network, &network.linear, cable);
    let price = |path: &Vec<u32>| router.state.path_price(path, bundle);
    found.into_iter().chain(plain).min_by_key(price)
}

/// The way of a cable along a tree, if that serves it.
fn along(network: &Network, tree: &Field, cable: usize) -> Option<Vec<u32>> {
    let way = tree.path(network, network.cables[cable].source);
    way.filter(|path| {
        network.pins[cable].is_empty() && network.path_length(path) <= limit(network, cable)
    })
}

/// The cables that can be laid.
fn open(network: &Network, reach: &[Reach]) -> impl Iterator<Item = usize> {
    (0..network.cables.len()).filter(|cable| reach[*cable] == Reach::Open)
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
