//! One session that ends by the browser's process being killed: outlets are placed, in bursts and at ease,
//! and at a chance moment all is over. Then the page is opened again.

use borewright_tests::{Page, Size};
use std::time::{Duration, SystemTime, UNIX_EPOCH};

/// Notes in the page each number of drops that it shows, and when.
const WATCH: &str = "
    window.seen = [];
    const look = () => {
        const now = /(\\d+)\\s*drops/.exec(document.body.textContent);
        if (now && window.seen.at(-1)?.[1] !== Number(now[1])) window.seen.push([Date.now(), Number(now[1])]);
    };
    look();
    new MutationObserver(look).observe(document.body, { subtree: true, childList: true, characterData: true });";

/// Taps these places from within the page, faster than a hand does.
const BURST: &str = "
    const places = PLACES;
    places.forEach(([x, y], at) => setTimeout(() => {
        for (const name of ['pointerdown', 'pointerup']) {
            const pressed = name === 'pointerdown' ? 1 : 0;
            const event = new PointerEvent(name, { bubbles: true, cancelable: true, pointerId: 1, pointerType: 'mouse',
                isPrimary: true, clientX: x, clientY: y, button: 0, buttons: pressed });
            document.elementFromPoint(x, y).dispatchEvent(event);
        }
    }, at * PAUSE));";

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
    /// How old the oldest of those that are gone was.
    pub window: Option<Duration>,
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

/// Plays one session, in a browser of its own: outlets at ease, or at last a burst of them, and its process is
/// killed while it lasts or up to 300 ms after it.
pub fn play(seed: u64) -> Outcome {
    let mut chance = Chance::new(seed);
    let page = Page::open("killed", Size::Desk);
    page.button("22 drops");
    page.button("Drops").tap();
    page.run(WATCH);
    let first = drops(&page);
    let sheet = page.labelled("Sheet");
    let mut place = || sheet.at(0.265 + chance.below(130) as f64 / 1000.0, 0.608);
    let places: Vec<_> = (0..32).map(|_| place()).collect();
    for place in places.iter().take(1 + chance.below(6) as usize) {
        page.tap_at(*place);
        std::thread::sleep(Duration::from_millis(chance.below(300)));
    }
    if chance.below(2) == 0 {
        let places: Vec<[f64; 2]> = places.iter().map(|place| [place.x, place.y]).collect();
        let burst = BURST.replace("PLACES", &format!("{places:?}"));
        page.run(&burst.replace("PAUSE", &(5 + chance.below(25)).to_string()));
        std::thread::sleep(Duration::from_millis(chance.below(600)));
    }
    let seen = seen(&page);
    let (page, at) = page.killed();
    let killed = SystemTime::now() - at.elapsed();
    page.until("the job is open again", || drops(&page) > 0);
    outcome(first, &seen, killed, drops(&page))
}

/// Each number of drops with the moment in which it was shown first.
fn seen(page: &Page) -> Vec<(SystemTime, usize)> {
    let seen = page.run("return window.seen");
    let one = |one: &serde_json::Value| {
        let when = UNIX_EPOCH + Duration::from_millis(one[0].as_u64()?);
        Some((when, one[1].as_u64()? as usize))
    };
    let seen = seen.as_array().into_iter().flatten();
    seen.filter_map(one).collect()
}

fn outcome(first: usize, seen: &[(SystemTime, usize)], killed: SystemTime, left: usize) -> Outcome {
    let age = |when: SystemTime| killed.duration_since(when).unwrap_or_default();
    let old = seen.iter().filter(|(when, _)| age(*when) >= DURABLE);
    let old = old.map(|(_, drops)| *drops).max().unwrap_or(first);
    let last = seen.iter().map(|(_, drops)| *drops).max().unwrap_or(first);
    let gone = seen.iter().filter(|(_, drops)| *drops > left);
    Outcome {
        made: last - first,
        lost_old: old.saturating_sub(left),
        lost: last.saturating_sub(left),
        window: gone.map(|(when, _)| age(*when)).max(),
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
