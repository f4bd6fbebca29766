//! Where cable comes up or down into a space, found again by place. Joins nothing.

use std::collections::BTreeMap;

use super::graph::Node;
use crate::shape::Pos;

/// Plates nearer to one another than this lead to the same place in a space, millimetres. It is also the
/// side of a cell.
const SAME: f64 = 1.0;

/// A place where cable enters a space.
#[derive(Clone, Copy)]
pub(super) struct Port {
    pub node: Node,
    pub at: Pos,
}

/// The ports of one space.
#[derive(Clone, Default)]
pub(super) struct Ports {
    /// In the order in which they were added.
    pub all: Vec<Port>,
    cells: BTreeMap<(i64, i64), Vec<usize>>,
}

impl Ports {
    /// Adds one, whatever is there already.
    pub fn push(&mut self, port: Port) {
        let cell = self.cells.entry(cell(port.at)).or_default();
        cell.push(self.all.len());
        self.all.push(port);
    }

    /// The first port that is the same as one at a place.
    pub fn at(&self, at: Pos) -> Option<&Port> {
        let (column, row) = cell(at);
        let cells = (column - 1..=column + 1)
            .flat_map(|column| (row - 1..=row + 1).map(move |row| (column, row)));
        let near = cells.filter_map(|cell| self.cells.get(&cell)).flatten();
        let same = near.filter(|place| self.all[**place].at.distance(at) < SAME);
        same.min().map(|place| &self.all[*place])
    }
}

fn cell(at: Pos) -> (i64, i64) {
    ((at.x / SAME).floor() as i64, (at.y / SAME).floor() as i64)
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    proptest! {
        /// The rule written out: of all ports the first that is near enough.
        #[test]
        fn the_first_of_the_same_is_found(
            places in prop::collection::vec((-40..40_i32, -40..40_i32), 1..60),
            (x, y) in (-40..40_i32, -40..40_i32),
        ) {
            let pos = |x: i32, y: i32| Pos::new(f64::from(x) * 0.3, f64::from(y) * 0.3);
            let mut ports = Ports::default();
            for (node, (x, y)) in (0..).zip(&places) {
                ports.push(Port { node, at: pos(*x, *y) });
            }
            let at = pos(x, y);
            let first = ports.all.iter().find(|port| port.at.distance(at) < SAME);
            prop_assert_eq!(ports.at(at).map(|port| port.node), first.map(|port| port.node));
        }
    }
}
