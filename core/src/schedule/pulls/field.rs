//! What the grouping is about, without a house: boxes, the stretches of trunk their cables take, and how
//! many cables of a kind reels can feed at once.

/// A box, or one of several shares of a box with more cables than there are reels.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub(super) struct Stop {
    /// The way of its farthest cable, millimetres.
    pub far: u64,
    /// The stretches of trunk its cables take, each once, rising.
    pub stretches: Vec<usize>,
    /// Its cables: the kind, and the length to cut in millimetres.
    pub cables: Vec<(usize, u64)>,
}

/// The trunk and the reels.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub(super) struct Field {
    /// Length of each stretch, millimetres.
    pub lengths: Vec<u64>,
    /// The reels of each kind.
    pub feeds: Vec<Feed>,
}

/// The reels of a kind that one pull can draw from.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub(super) struct Feed {
    /// Part reels, millimetres.
    pub parts: Vec<u64>,
    /// Length of a new reel, millimetres.
    pub new_reel: u64,
    /// New reels at hand.
    pub at_hand: usize,
}

impl Feed {
    /// How many reels hold a cable of this length.
    pub fn reels(&self, length: u64) -> usize {
        let parts = self.parts.iter().filter(|part| **part >= length).count();
        parts
            + if self.new_reel >= length {
                self.at_hand
            } else {
                0
            }
    }

    /// Whether each of these can have a reel of its own. A reel that holds a long cable holds a shorter
    /// one, so the longest choose first. A cable that no reel holds waits for another and takes none.
    pub fn feeds(&self, lengths: &mut [u64]) -> bool {
        lengths.sort_unstable_by(|a, b| b.cmp(a));
        let held = lengths.iter().filter(|length| self.reels(**length) > 0);
        held.enumerate()
            .all(|(place, length)| self.reels(*length) > place)
    }
}

/// A pull while it is put together.
#[derive(Clone, Debug)]
pub(super) struct Load<'f> {
    field: &'f Field,
    stops: &'f [Stop],
    /// Its stops.
    pub on_it: Vec<usize>,
    /// How many of its stops take each stretch.
    through: Vec<usize>,
    /// The length of trunk walked for it, millimetres.
    pub walked: u64,
}

impl<'f> Load<'f> {
    pub fn new(field: &'f Field, stops: &'f [Stop]) -> Self {
        Self {
            field,
            stops,
            on_it: Vec::new(),
            through: vec![0; field.lengths.len()],
            walked: 0,
        }
    }

    pub fn of(field: &'f Field, stops: &'f [Stop], on_it: &[usize]) -> Self {
        let mut load = Self::new(field, stops);
        on_it.iter().for_each(|stop| load.add(*stop));
        load
    }

    /// Whether a stop may go along: its cables can be fed beside the others, and there is a stretch that
    /// all take.
    pub fn takes(&self, stop: usize) -> bool {
        self.shares_with_all(stop) && self.feeds(stop)
    }

    fn shares_with_all(&self, stop: usize) -> bool {
        let all = self.on_it.len();
        let mut stretches = self.stops[stop].stretches.iter();
        all == 0 || stretches.any(|stretch| self.through[*stretch] == all)
    }

    fn feeds(&self, stop: usize) -> bool {
        let kinds = self.stops[stop].cables.iter().map(|(kind, _)| *kind);
        kinds.into_iter().all(|kind| {
            let on_it = self.on_it.iter().chain([&stop]);
            let cables = on_it.flat_map(|stop| &self.stops[*stop].cables);
            let of_kind = cables.filter(|(other, _)| *other == kind);
            let mut lengths: Vec<u64> = of_kind.map(|(_, length)| *length).collect();
            self.field.feeds[kind].feeds(&mut lengths)
        })
    }

    pub fn add(&mut self, stop: usize) {
        for &stretch in &self.stops[stop].stretches {
            if self.through[stretch] == 0 {
                self.walked += self.field.lengths[stretch];
            }
            self.through[stretch] += 1;
        }
        self.on_it.push(stop);
    }

    pub fn remove(&mut self, stop: usize) {
        self.on_it.retain(|other| *other != stop);
        for &stretch in &self.stops[stop].stretches {
            self.through[stretch] -= 1;
            if self.through[stretch] == 0 {
                self.walked -= self.field.lengths[stretch];
            }
        }
    }

    /// How much of a stop's trunk is walked for the pull anyway, millimetres.
    pub fn shared(&self, stop: usize) -> u64 {
        let stretches = self.stops[stop].stretches.iter();
        let walked = stretches.filter(|stretch| self.through[**stretch] > 0);
        walked.map(|stretch| self.field.lengths[*stretch]).sum()
    }

    /// How much trunk is walked for this pull and for another, millimetres.
    pub fn shared_with(&self, other: &Self) -> u64 {
        let both = self.through.iter().zip(&other.through);
        let lengths = both.zip(&self.field.lengths);
        let shared = lengths.filter(|((mine, theirs), _)| **mine > 0 && **theirs > 0);
        shared.map(|(_, length)| *length).sum()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_longest_cables_choose_their_reels_first() {
        let feed = Feed {
            parts: vec![20],
            new_reel: 100,
            at_hand: 1,
        };
        assert!(feed.feeds(&mut [15, 50]));
        assert!(!feed.feeds(&mut [50, 30]));
        assert!(!feed.feeds(&mut [15, 15, 15]));
        // One that no reel holds takes none.
        assert!(feed.feeds(&mut [15, 50, 300]));
    }

    #[test]
    fn a_stretch_is_walked_once_a_pull() {
        let field = Field {
            lengths: vec![10, 4, 3],
            feeds: vec![Feed {
                at_hand: 2,
                new_reel: 99,
                ..Feed::default()
            }],
        };
        let stop = |stretches: &[usize]| Stop {
            far: 0,
            stretches: stretches.to_vec(),
            cables: vec![(0, 9)],
        };
        let stops = [stop(&[0, 1]), stop(&[0, 2]), stop(&[2])];
        let mut load = Load::of(&field, &stops, &[0]);
        assert!(load.takes(1) && !load.takes(2));
        assert_eq!((load.walked, load.shared(1)), (14, 10));
        load.add(1);
        assert_eq!(load.walked, 17);
        // Two reels feed two cables, and no stretch holds all three.
        assert!(!load.takes(2));
        load.remove(0);
        assert_eq!((load.walked, load.on_it.clone()), (13, vec![1]));
    }
}
