//! One cheapest way at prices that the caller names, for questions about an answer. Improves nothing.

use super::graph::{NONE, Network};
use super::shortest::field;

/// The caller's edges of the cheapest way from a node to the sink, at a price for each; `None` where
/// there is no way but through edges without a price.
pub(in crate::route) fn cheapest(
    network: &Network,
    from: u32,
    price: impl Fn(u32) -> Option<u64>,
) -> Option<Vec<u32>> {
    /// More than any way costs, and no sum of a few overflows.
    const NEVER: u64 = 1 << 44;
    let priced = |arc: usize| price(network.edge(arc as u32)).unwrap_or(NEVER);
    let field = field(network, network.sink, |arc, _| priced(arc));
    let mut node = from;
    let mut path = Vec::new();
    while node != network.sink {
        let arc = *field.next.get(node as usize)?;
        if arc == NONE || priced(arc as usize) >= NEVER {
            return None;
        }
        path.push(network.edge(arc));
        node = network.arcs[arc as usize].to;
    }
    Some(path)
}
