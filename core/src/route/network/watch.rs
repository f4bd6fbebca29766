//! Remembers where paths changed, so that a move is tried again only where it could now help.
//!
//! A move looks at a stretch of path: from a cable's source or a junction to the next junction.
//! Its answer can change for other reasons too, so this is a saving, not a proof.

/// When each node last saw a path laid or taken away, and when each move was last tried.
#[derive(Clone, Debug)]
pub(super) struct Watch {
    now: u32,
    /// Changes up to here count as looked at by every move.
    floor: u32,
    changed: Vec<u32>,
    looked: Vec<u32>,
}

impl Watch {
    /// Moves are numbered: one for each cable and then one for each node.
    pub fn new(nodes: u32, cables: usize) -> Self {
        let changed = vec![0; nodes as usize];
        let looked = vec![0; nodes as usize + cables];
        Self {
            now: 1,
            floor: 0,
            changed,
            looked,
        }
    }

    /// From here on only later changes are news.
    pub fn settle(&mut self) {
        self.floor = self.now;
    }

    /// A path through these nodes was laid or taken away.
    pub fn change(&mut self, nodes: impl Iterator<Item = u32>) {
        self.now += 1;
        for node in nodes {
            self.changed[node as usize] = self.now;
        }
    }

    /// From here on every move is news until it is tried.
    pub fn forget(&mut self) {
        self.floor = 0;
        self.looked.fill(0);
    }

    /// Whether the move was never tried, or one of the nodes changed since it was.
    pub fn is_news(&self, item: usize, mut nodes: impl Iterator<Item = u32>) -> bool {
        let since = self.looked[item].max(self.floor);
        since == 0 || nodes.any(|node| self.changed[node as usize] > since)
    }

    /// The move has been tried.
    pub fn look(&mut self, item: usize) {
        self.looked[item] = self.now;
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_move_is_news_until_tried_and_again_after_a_change() {
        let mut watch = Watch::new(4, 1);
        assert!(watch.is_news(0, [].into_iter()));
        watch.look(0);
        assert!(!watch.is_news(0, [1, 2].into_iter()));
        watch.change([2].into_iter());
        assert!(watch.is_news(0, [1, 2].into_iter()));
        assert!(!watch.is_news(0, [1].into_iter()));
        watch.settle();
        assert!(!watch.is_news(0, [1, 2].into_iter()));
        assert!(
            !watch.is_news(3, [1, 2].into_iter()),
            "settled for every move"
        );
        watch.forget();
        assert!(watch.is_news(0, [1].into_iter()));
    }
}
