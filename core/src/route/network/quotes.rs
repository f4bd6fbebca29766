//! What one payer could pay at each crossing near its way, worked out once a search.
//!
//! A search asks for the price of a crossing from both of its ends, and what it needed there is asked
//! once more; the tolls behind the price lie far apart.

use std::cell::Cell;

/// What a payer could pay at a crossing, one way through it and the other.
#[derive(Clone, Copy, Debug, Default)]
pub(super) struct Quote {
    /// By the area.
    pub by_area: u64,
    /// With all it could pay of its own.
    pub most: [u64; 2],
}

/// The quotes of one search.
#[derive(Clone, Debug)]
pub(super) struct Quotes {
    search: u32,
    known: Vec<Cell<(u32, Quote)>>,
}

impl Quotes {
    pub fn new(crossings: usize) -> Self {
        Self {
            search: 0,
            known: vec![Cell::default(); crossings],
        }
    }

    /// Forgets all quotes, for another search.
    pub fn forget(&mut self) {
        self.search = self.search.wrapping_add(1);
        if self.search == 0 {
            self.known.fill(Cell::default());
            self.search = 1;
        }
    }

    /// The quote for a crossing, worked out by `ask` where it is not known yet.
    pub fn at(&self, crossing: u32, ask: impl FnOnce() -> Quote) -> Quote {
        let known = &self.known[crossing as usize];
        let (search, quote) = known.get();
        if search == self.search {
            return quote;
        }
        let quote = ask();
        known.set((self.search, quote));
        quote
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_quote_is_asked_for_once_a_search() {
        let quote = |by_area| Quote {
            by_area,
            most: [0; 2],
        };
        let mut quotes = Quotes::new(3);
        for search in 0..2 {
            quotes.forget();
            assert_eq!(quotes.at(1, || quote(search)).by_area, search);
            assert_eq!(quotes.at(1, || quote(9)).by_area, search, "still known");
        }
        quotes.search = u32::MAX;
        quotes.forget();
        assert_eq!(
            quotes.at(1, || quote(7)).by_area,
            7,
            "no old number comes again"
        );
    }
}
