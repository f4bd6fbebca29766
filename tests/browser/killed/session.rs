//! One session that ends by the browser's process being killed: outlets are placed, in bursts and at ease,
//! and at a chance moment all is over. Then the page is opened again.

use borewright_tests::{Page, Size};
use std::time::{Duration, Instant};

/// An edit is to be durable after so long.
pub const DURABLE: Duration = Duration::from_millis(100);

/// What came of one session.
#[derive(Clone, Copy, Debug, Default)]
pub struct Outcome {
    /// Edits that were seen on the page.
    pub made: usize,
    /// Those among them that were older than [`DURABLE`] when the process was killed, and are gone.
    pub lost_old: usize,
    /// All that are gone.
    pub lost: usize,
}

/// Numbers without order, the same for the same seed (xorshift, Marsaglia 2003).
pub struct Chance(u64);

impl Chance {
    /// Begins with a seed.
    pub fn new(seed: u64) -> Self {
        Self(seed.wrapping_mul(0x9e37_79b9_7f4a_7c15) | 1)
    }

    /// The next number below `end`.
    pub fn below(&mut self, end: u64) -> u64 {
        self.0 ^= self.0 << 13;
        self.0 ^= self.0 >> 7;
        self.0 ^= self.0 << 17;
        self.0 % end
    }
}

/// Plays one session, in a browser of its own.
pub fn play(seed: u64) -> Outcome {
    let mut chance = Chance::new(seed);
    let page = Page::open("killed", Size::Desk);
    page.button("22 drops");
    page.button("Drops").tap();
    let sheet = page.labelled("Sheet");
    let first = drops(&page);
    let mut seen = vec![(Instant::now(), first)];
    for _ in 0..1 + chance.below(12) {
        let across = 0.265 + chance.below(130) as f64 / 1000.0;
        page.tap_at(sheet.at(across, 0.608));
        let now = drops(&page);
        if seen.last().is_some_and(|(_, last)| *last != now) {
            seen.push((Instant::now(), now));
        }
        let is_burst = chance.below(2) == 0;
        let rest = if is_burst { 0 } else { chance.below(300) };
        std::thread::sleep(Duration::from_millis(rest));
    }
    let (page, at) = page.killed();
    page.until("the job is open again", || drops(&page) > 0);
    let left = drops(&page);
    let old = seen
        .iter()
        .filter(|(when, _)| at.duration_since(*when) >= DURABLE);
    let old = old.map(|(_, drops)| *drops).max().unwrap_or(first);
    let last = seen.iter().map(|(_, drops)| *drops).max().unwrap_or(first);
    Outcome {
        made: last - first,
        lost_old: old.saturating_sub(left),
        lost: last.saturating_sub(left),
    }
}

/// The number of drops in the tally; 0 while there is none.
pub fn drops(page: &Page) -> usize {
    let text = page.text();
    let words: Vec<&str> = text.split_whitespace().collect();
    let counts = words.windows(2).filter(|pair| pair[1] == "drops");
    let mut counts = counts.filter_map(|pair| pair[0].parse().ok());
    counts.next().unwrap_or_default()
}
