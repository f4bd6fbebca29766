//! Fills reel after reel with the fullest choices of cables, going back where it does not come out.
//!
//! Bin completion after Korf, "A new algorithm for optimal bin packing" (AAAI 2002), from memory:
//! a reel is filled by a choice to which nothing can be added; choices that waste least come first;
//! a choice that wastes more than all reels together may is never looked at. It says `Impossible`
//! only when everything was looked at.

use std::cmp::Ordering;
use std::collections::BTreeMap;

use super::search::Item;

/// Choices kept for one reel; more are dropped, and then nothing is proved.
const MOST_CHOICES: usize = 60;

/// So many looks at an item count as a step more; a house of 100 cables never comes to that.
const LOOKED_THROUGH: usize = 4_096;

/// So many items take as long to be looked through once as a step.
const BEGINNING: usize = 256;

/// How far to look.
#[derive(Clone, Copy, Debug)]
pub(super) struct Steps {
    /// Most steps on the choices for one reel.
    pub(super) a_reel: u64,
    /// Most steps in all.
    pub(super) all: u64,
}

/// What came of a filling.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) enum Outcome {
    /// The reel of each item.
    Found(Vec<usize>),
    /// Proved: there is none.
    Impossible,
    /// The steps ran out first.
    GivenUp,
}

/// One question: these items on these reels.
pub(super) struct Filling<'a> {
    items: &'a [Item],
    /// Lengths in the order they are filled; the last takes what is left over.
    reels: Vec<u64>,
    /// For each of them its place in the question.
    places: Vec<usize>,
    /// From here on, up to the last but one, reels are all new and so alike.
    alike_from: usize,
    /// Whether the last is like those, too.
    last_alike: bool,
    /// What is left on all reels together.
    slack: u64,
}

impl<'a> Filling<'a> {
    /// `parts` of the reels are part reels and stand first; the others are all of one length.
    /// The reels hold the items by length, or nothing is ever found.
    pub(super) fn new(items: &'a [Item], reels: &[u64], parts: usize) -> Self {
        let total: u64 = items.iter().map(|item| item.length).sum();
        let slack = reels.iter().sum::<u64>().checked_sub(total);
        let mut places: Vec<usize> = (0..reels.len()).collect();
        places[..parts.min(reels.len())].sort_by_key(|&place| reels[place]);
        Self {
            items,
            reels: places.iter().map(|&place| reels[place]).collect(),
            places,
            alike_from: parts,
            last_alike: parts < reels.len(),
            slack: slack.unwrap_or(0),
        }
    }

    /// The same question with this reel filled last.
    pub(super) fn keeping(mut self, place: usize) -> Self {
        if let Some(at) = self.places.iter().position(|other| *other == place) {
            self.places.remove(at);
            self.places.push(place);
            let length = self.reels.remove(at);
            self.reels.push(length);
            self.alike_from -= usize::from(at < self.alike_from);
        }
        self
    }

    /// Any way to hold all items.
    pub(super) fn fit_all(&mut self, mut steps: Steps) -> Outcome {
        self.solve(self.slack, self.last_alike, &mut steps)
    }

    /// A way to hold all items with more than `most` left on the last reel.
    pub(super) fn leave_more_than(&mut self, most: u64, steps: &mut Steps) -> Outcome {
        let room = self.reels.last().copied().unwrap_or(0).min(self.slack);
        if room <= most {
            return Outcome::Impossible;
        }
        self.solve(self.slack - most - 1, false, steps)
    }

    /// Fills all reels but the last with at most `spare` wasted on them together.
    fn solve(&self, spare: u64, last_alike: bool, steps: &mut Steps) -> Outcome {
        let Some(last) = self.reels.last() else {
            return if self.items.is_empty() {
                Outcome::Found(vec![])
            } else {
                Outcome::Impossible
            };
        };
        let mut work = Work {
            question: self,
            last_alike,
            last_room: last.saturating_sub(self.slack - spare),
            reel_of: vec![None; self.items.len()],
            steps: *steps,
            whole: true,
        };
        let found = work.fill(0, spare);
        steps.all = work.steps.all;
        match (found, work.whole) {
            (true, _) => Outcome::Found(work.answer()),
            (false, true) => Outcome::Impossible,
            (false, false) => Outcome::GivenUp,
        }
    }
}

/// The state of one search.
struct Work<'a> {
    question: &'a Filling<'a>,
    last_alike: bool,
    /// Length that may go on the last reel.
    last_room: u64,
    reel_of: Vec<Option<usize>>,
    steps: Steps,
    /// Whether nothing was dropped for want of steps.
    whole: bool,
}

impl Work<'_> {
    fn fill(&mut self, reel: usize, spare: u64) -> bool {
        let open: Vec<usize> = (0..self.reel_of.len())
            .filter(|&item| self.reel_of[item].is_none())
            .collect();
        let last = self.question.reels.len() - 1;
        if reel == last {
            return self.put_rest(&open, last);
        }
        // Of reels that are alike, this one may as well be the one with the longest cable.
        let longest_here = reel >= self.question.alike_from && !open.is_empty();
        for choice in self.choices(&open, reel, spare, longest_here) {
            choice
                .items
                .iter()
                .for_each(|&item| self.reel_of[item] = Some(reel));
            if self.fill(reel + 1, spare - choice.waste) {
                return true;
            }
            choice
                .items
                .iter()
                .for_each(|&item| self.reel_of[item] = None);
        }
        longest_here && !self.last_alike && self.fill_with_longest_last(&open, reel, spare)
    }

    /// The longest open cable may also be on the last reel, where that is not alike.
    fn fill_with_longest_last(&mut self, open: &[usize], reel: usize, spare: u64) -> bool {
        let (longest, last) = (open[0], self.question.reels.len() - 1);
        if self.steps.all == 0 {
            self.whole = false;
            return false;
        }
        self.steps.all -= 1;
        if !self.put_rest(&[longest], last) {
            return false;
        }
        if self.fill(reel, spare) {
            return true;
        }
        self.reel_of[longest] = None;
        false
    }

    /// Puts the items on the last reel, if they may go there together.
    fn put_rest(&mut self, rest: &[usize], last: usize) -> bool {
        let items = self.question.items;
        let there = (0..items.len()).filter(|&item| self.reel_of[item] == Some(last));
        let all: Vec<usize> = there.chain(rest.iter().copied()).collect();
        let length: u64 = all.iter().map(|&item| items[item].length).sum();
        let mut groups: Vec<u32> = all.iter().filter_map(|&item| items[item].group).collect();
        let count = groups.len();
        groups.sort_unstable();
        groups.dedup();
        let fits = length <= self.last_room && groups.len() == count;
        if fits {
            rest.iter()
                .for_each(|&item| self.reel_of[item] = Some(last));
        }
        fits
    }

    /// The choices for a reel, least waste first.
    fn choices(&mut self, open: &[usize], reel: usize, spare: u64, longest: bool) -> Vec<Choice> {
        let mut choosing = Choosing::new(self.question.items, open, spare);
        if !choosing.must_feed(&self.reels_free(reel)) {
            return Vec::new();
        }
        // To begin takes as long as many steps where there are thousands of items.
        let begun = (open.len() / BEGINNING) as u64;
        self.steps.all = self.steps.all.saturating_sub(begun);
        choosing.steps = self.steps.all.min(self.steps.a_reel);
        let before = choosing.steps;
        let length = self.question.reels[reel];
        if !longest {
            choosing.explore(0, length);
        } else if let Some(left) = length.checked_sub(self.question.items[open[0]].length) {
            choosing.chosen.push(0);
            choosing.explore(1, left);
        }
        self.steps.all -= before - choosing.steps;
        self.whole &= choosing.whole;
        choosing.sorted()
    }

    /// For a group, the reels from this one on that hold none of it yet.
    fn reels_free(&self, reel: usize) -> impl Fn(u32) -> usize {
        let last = self.question.reels.len() - 1;
        let there = |&item: &usize| self.reel_of[item] == Some(last);
        let items = self.question.items;
        let on_last: Vec<u32> = (0..items.len())
            .filter(there)
            .filter_map(|item| items[item].group)
            .collect();
        move |group| last + 1 - reel - usize::from(on_last.contains(&group))
    }

    fn answer(&self) -> Vec<usize> {
        let place = |reel: &Option<usize>| reel.map_or(0, |reel| self.question.places[reel]);
        self.reel_of.iter().map(place).collect()
    }
}

/// A filling of one reel to which nothing can be added.
struct Choice {
    items: Vec<usize>,
    waste: u64,
}

/// A group of which a cable must be on the reel.
struct Owed {
    group: u32,
    /// Place of its shortest open cable.
    last: usize,
}

/// The search for the choices of one reel.
struct Choosing<'a> {
    items: &'a [Item],
    /// Items on no reel yet, longest first.
    open: &'a [usize],
    /// Length of all open items from a place on.
    from_here: Vec<u64>,
    spare: u64,
    /// Length of the shortest open item.
    shortest: u64,
    /// Groups with as many open cables as reels free: one of each must be chosen.
    owed: Vec<Owed>,
    /// Places in `open`.
    chosen: Vec<usize>,
    choices: Vec<Choice>,
    steps: u64,
    whole: bool,
}

impl<'a> Choosing<'a> {
    fn new(items: &'a [Item], open: &'a [usize], spare: u64) -> Self {
        let mut from_here = vec![0; open.len() + 1];
        for place in (0..open.len()).rev() {
            from_here[place] = from_here[place + 1] + items[open[place]].length;
        }
        Self {
            items,
            open,
            from_here,
            spare,
            shortest: open.last().map_or(0, |&item| items[item].length),
            owed: Vec::new(),
            chosen: Vec::new(),
            choices: Vec::new(),
            steps: 0,
            whole: true,
        }
    }

    /// Notes the groups with as many open cables as reels free; false when one has more.
    fn must_feed(&mut self, free: &impl Fn(u32) -> usize) -> bool {
        let mut open: BTreeMap<u32, (usize, usize)> = BTreeMap::new();
        for place in 0..self.open.len() {
            if let Some(group) = self.item(place).group {
                let (count, last) = open.entry(group).or_default();
                (*count, *last) = (*count + 1, place);
            }
        }
        for (group, (count, last)) in open {
            match count.cmp(&free(group)) {
                Ordering::Greater => return false,
                Ordering::Equal => self.owed.push(Owed { group, last }),
                Ordering::Less => {}
            }
        }
        true
    }

    /// Whether one of every group owed is chosen, or can still be from this place on.
    fn can_feed(&self, from: usize, left: u64) -> bool {
        let mut needed = 0;
        for owed in &self.owed {
            let fed = self
                .chosen
                .iter()
                .any(|&place| self.item(place).group == Some(owed.group));
            if fed {
                continue;
            }
            if owed.last < from {
                return false;
            }
            needed += self.item(owed.last).length;
        }
        needed <= left
    }

    fn item(&self, place: usize) -> &Item {
        &self.items[self.open[place]]
    }

    /// Whether the item may join those chosen, `left` being free.
    fn may_join(&self, place: usize, left: u64) -> bool {
        let item = self.item(place);
        let apart = |group| {
            self.chosen
                .iter()
                .all(|&other| self.item(other).group != Some(group))
        };
        item.length <= left && item.group.is_none_or(apart)
    }

    fn explore(&mut self, from: usize, left: u64) {
        if self.steps == 0 {
            self.whole = false;
            return;
        }
        self.steps = self.steps.saturating_sub(self.a_step());
        if left > self.spare + self.from_here[from] || !self.can_feed(from, left) {
            return;
        }
        if left < 2 * self.shortest {
            return self.add_last(from, left);
        }
        let mut rest = from.max(self.fitting(left))..self.open.len();
        let Some(next) = rest.find(|&place| self.may_join(place, left)) else {
            return self.note(left);
        };
        self.chosen.push(next);
        self.explore(next + 1, left - self.item(next).length);
        self.chosen.pop();
        self.explore(self.after(next), left);
    }

    /// The place of the first item that is no longer than what is left; they are in order of length.
    fn fitting(&self, left: u64) -> usize {
        self.open
            .partition_point(|&item| self.items[item].length > left)
    }

    /// What a step counts: one, and more where thousands of items are looked through for it.
    fn a_step(&self) -> u64 {
        1 + (self.open.len() * (self.chosen.len() + 1) / LOOKED_THROUGH) as u64
    }

    /// Where one more cable fits at most: none, or one that wastes little enough.
    fn add_last(&mut self, from: usize, left: u64) {
        self.note(left);
        let mut place = self.fitting(left).max(from);
        while place < self.open.len() && self.item(place).length + self.spare >= left {
            self.steps = self.steps.saturating_sub(1);
            if self.may_join(place, left) {
                self.chosen.push(place);
                self.note(left - self.item(place).length);
                self.chosen.pop();
            }
            place = self.after(place);
        }
    }

    /// The next item that cannot stand for this one.
    fn after(&self, place: usize) -> usize {
        let kind = |place: usize| (self.item(place).length, self.item(place).group);
        (place + 1..self.open.len())
            .find(|&other| kind(other) != kind(place))
            .unwrap_or(self.open.len())
    }

    /// Keeps the choice if it wastes little enough, feeds every group owed, and is full.
    fn note(&mut self, left: u64) {
        let none = self.open.len();
        let joins = |place: usize| self.may_join(place, left) && !self.chosen.contains(&place);
        if left > self.spare || !self.can_feed(none, left) || (self.fitting(left)..none).any(joins)
        {
            return;
        }
        let items = self.chosen.iter().map(|&place| self.open[place]).collect();
        self.choices.push(Choice { items, waste: left });
        if self.choices.len() > 4 * MOST_CHOICES {
            self.keep_best();
        }
    }

    fn keep_best(&mut self) {
        self.choices.sort_by_key(|choice| choice.waste);
        if self.choices.len() > MOST_CHOICES {
            self.choices.truncate(MOST_CHOICES);
            self.whole = false;
        }
    }

    fn sorted(mut self) -> Vec<Choice> {
        self.keep_best();
        self.choices
    }
}
