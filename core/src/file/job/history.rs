//! Undo and redo by snapshots, each with the words of what was done.

/// The most steps that can be taken back.
pub(super) const MOST_STEPS: usize = 200;

/// What can be undone and redone around a present state that is kept elsewhere.
#[derive(Clone, Debug, PartialEq)]
pub struct History<T> {
    past: Vec<Entry<T>>,
    future: Vec<Entry<T>>,
    /// The number of the next change.
    next: u64,
}

/// The state on the far side of one change, and what the change was.
#[derive(Clone, Debug, PartialEq)]
struct Entry<T> {
    /// Which change of this history it is: every change has a number of its own.
    number: u64,
    state: T,
    words: String,
}

impl<T> Default for History<T> {
    fn default() -> Self {
        Self {
            past: Vec::new(),
            future: Vec::new(),
            next: 0,
        }
    }
}

impl<T> History<T> {
    /// A history as it was kept: states before what was done, the oldest first, and states after what
    /// was undone, the next one last, each with the words of its change.
    pub fn of(past: Vec<(T, String)>, future: Vec<(T, String)>) -> Self {
        let mut history = Self::default();
        let entries = |told: Vec<(T, String)>, next: &mut u64| {
            let entry = |(state, words)| {
                let number = *next;
                *next += 1;
                Entry {
                    number,
                    state,
                    words,
                }
            };
            told.into_iter().map(entry).collect()
        };
        history.past = entries(past, &mut history.next);
        history.future = entries(future, &mut history.next);
        history
    }

    /// Notes a change: `before` is the state it led away from. What was undone is forgotten, and
    /// so is the oldest change once there are more than 200.
    pub fn record(&mut self, before: T, words: impl Into<String>) {
        self.future.clear();
        self.past.push(Entry {
            number: self.next,
            state: before,
            words: words.into(),
        });
        self.next += 1;
        if self.past.len() > MOST_STEPS {
            self.past.remove(0);
        }
    }

    /// Takes the last change back: gives the state before it and what the change was.
    pub fn undo(&mut self, now: T) -> Option<(T, String)> {
        cross(&mut self.past, &mut self.future, now)
    }

    /// Makes the last undone change again: gives the state after it and what the change was.
    pub fn redo(&mut self, now: T) -> Option<(T, String)> {
        cross(&mut self.future, &mut self.past, now)
    }

    /// What an undo would take back: "moved D16".
    pub fn undo_words(&self) -> Option<&str> {
        self.past.last().map(|entry| entry.words.as_str())
    }

    /// What a redo would make again.
    pub fn redo_words(&self) -> Option<&str> {
        self.future.last().map(|entry| entry.words.as_str())
    }

    /// The numbers of what can be undone and of what can be redone, the next one last in each.
    pub(super) fn numbers(&self) -> (Vec<u64>, Vec<u64>) {
        let of = |entries: &[Entry<T>]| entries.iter().map(|entry| entry.number).collect();
        (of(&self.past), of(&self.future))
    }

    /// The state before a change that can be undone.
    pub(super) fn before(&self, number: u64) -> Option<&T> {
        let entry = self.past.iter().find(|entry| entry.number == number);
        entry.map(|entry| &entry.state)
    }

    /// The state after a change that can be redone.
    pub(super) fn after(&self, number: u64) -> Option<&T> {
        let entry = self.future.iter().find(|entry| entry.number == number);
        entry.map(|entry| &entry.state)
    }

    /// What a change was; nothing for one that is forgotten.
    pub(super) fn words(&self, number: u64) -> &str {
        let mut all = self.past.iter().chain(&self.future);
        let entry = all.find(|entry| entry.number == number);
        entry.map_or("", |entry| entry.words.as_str())
    }

    /// How many changes can be taken back.
    pub fn len(&self) -> usize {
        self.past.len()
    }

    /// Whether nothing can be taken back.
    pub fn is_empty(&self) -> bool {
        self.past.is_empty()
    }
}

fn cross<T>(from: &mut Vec<Entry<T>>, onto: &mut Vec<Entry<T>>, now: T) -> Option<(T, String)> {
    let Entry {
        number,
        state,
        words,
    } = from.pop()?;
    onto.push(Entry {
        number,
        state: now,
        words: words.clone(),
    });
    Some((state, words))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn goes_back_and_forth_with_words() {
        let mut history = History::default();
        history.record(1, "drew W1");
        history.record(2, "drew W2");
        assert_eq!(history.undo_words(), Some("drew W2"));
        assert_eq!(history.undo(3), Some((2, "drew W2".into())));
        assert_eq!(history.redo_words(), Some("drew W2"));
        assert_eq!(history.redo(2), Some((3, "drew W2".into())));
        assert_eq!(history.undo(3), Some((2, "drew W2".into())));
        assert_eq!(history.undo(2), Some((1, "drew W1".into())));
        assert_eq!(history.undo(1), None);
    }

    #[test]
    fn a_new_change_forgets_what_was_undone() {
        let mut history = History::default();
        history.record(1, "drew W1");
        history.undo(2);
        history.record(1, "placed D1");
        assert_eq!(history.redo(5), None);
        assert_eq!(history.len(), 1);
    }

    #[test]
    fn the_oldest_change_is_forgotten_after_two_hundred() {
        let mut history = History::default();
        for state in 0..250 {
            history.record(state, "moved D1");
        }
        assert_eq!(history.len(), 200);
        while let Some((state, _)) = history.undo(0) {
            assert!(state >= 50);
        }
    }
}
