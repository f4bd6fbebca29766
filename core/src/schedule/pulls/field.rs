//! What the grouping is about, without a house: boxes, the stretches of trunk their cables take, and how
//! many cables of a kind reels can feed at once.

use std::collections::BTreeMap;

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

    /// Whether that many cables, none longer than this, can each have a reel of their own; `None` where it
    /// takes their lengths to say.
    fn feeds_at_a_glance(&self, count: usize, longest: u64) -> Option<bool> {
        if longest <= self.new_reel && count <= self.at_hand {
            return Some(true);
        }
        let is_held = longest <= self.new_reel && self.at_hand > 0;
        (is_held && count > self.at_hand + self.parts.len()).then_some(false)
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

/// The same trunk with stretches that the same stops take as one: between two branches there is nothing to
/// tell them apart. Stretches that no stop takes are left out.
pub(super) fn merged(field: &Field, stops: &[Stop]) -> (Field, Vec<Stop>) {
    let mut taken: Vec<Vec<usize>> = vec![Vec::new(); field.lengths.len()];
    for (place, stop) in stops.iter().enumerate() {
        stop.stretches
            .iter()
            .for_each(|stretch| taken[*stretch].push(place));
    }
    let mut alike: BTreeMap<Vec<usize>, u64> = BTreeMap::new();
    for (stops, length) in taken.into_iter().zip(&field.lengths) {
        if !stops.is_empty() {
            *alike.entry(stops).or_default() += length;
        }
    }
    let mut merged: Vec<Stop> = stops.to_vec();
    merged.iter_mut().for_each(|stop| stop.stretches.clear());
    for (stretch, stops) in alike.keys().enumerate() {
        stops
            .iter()
            .for_each(|stop| merged[*stop].stretches.push(stretch));
    }
    let field = Field {
        lengths: alike.into_values().collect(),
        feeds: field.feeds.clone(),
    };
    (field, merged)
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
    /// How many cables of each kind it has, and how long the longest is that was ever added.
    cables: Vec<(usize, u64)>,
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
            cables: vec![(0, 0); field.feeds.len()],
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
        let cables = &self.stops[stop].cables;
        let of_kind = |kind: usize| cables.iter().filter(move |(other, _)| *other == kind);
        (0..self.field.feeds.len()).all(|kind| {
            let more = of_kind(kind).count();
            if more == 0 {
                return true;
            }
            let (count, longest) = self.cables[kind];
            let longest = of_kind(kind).fold(longest, |most, (_, length)| most.max(*length));
            let feed = &self.field.feeds[kind];
            let told = feed.feeds_at_a_glance(count + more, longest);
            told.unwrap_or_else(|| self.feeds_by_length(kind, stop))
        })
    }

    fn feeds_by_length(&self, kind: usize, stop: usize) -> bool {
        let on_it = self.on_it.iter().chain([&stop]);
        let cables = on_it.flat_map(|stop| &self.stops[*stop].cables);
        let of_kind = cables.filter(|(other, _)| *other == kind);
        let mut lengths: Vec<u64> = of_kind.map(|(_, length)| *length).collect();
        self.field.feeds[kind].feeds(&mut lengths)
    }

    pub fn add(&mut self, stop: usize) {
        for &stretch in &self.stops[stop].stretches {
            if self.through[stretch] == 0 {
                self.walked += self.field.lengths[stretch];
            }
            self.through[stretch] += 1;
        }
        for &(kind, length) in &self.stops[stop].cables {
            let (count, longest) = self.cables[kind];
            self.cables[kind] = (count + 1, longest.max(length));
        }
        self.on_it.push(stop);
    }

    pub fn remove(&mut self, stop: usize) {
        self.on_it.retain(|other| *other != stop);
        for &(kind, _) in &self.stops[stop].cables {
            self.cables[kind].0 -= 1;
        }
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
    fn stretches_between_two_branches_are_one() {
        let stop = |stretches: &[usize]| Stop {
            stretches: stretches.to_vec(),
            ..Stop::default()
        };
        let field = Field {
            lengths: vec![5, 4, 3, 2, 1],
            feeds: Vec::new(),
        };
        let (field, stops) = merged(&field, &[stop(&[0, 1, 2]), stop(&[0, 1, 4])]);
        let length =
            |stop: &Stop| -> u64 { stop.stretches.iter().map(|s| field.lengths[*s]).sum() };
        assert_eq!(field.lengths.iter().sum::<u64>(), 13);
        assert_eq!((field.lengths.len(), stops[0].stretches.len()), (3, 2));
        assert_eq!((length(&stops[0]), length(&stops[1])), (12, 10));
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
