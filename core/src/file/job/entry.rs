//! The line of a job on the list of jobs: what a person finds it by.
//!
//! Stored as JSON beside the journal. A line that cannot be read costs nothing but itself: the job is
//! listed under a name that says so.

use serde::{Deserialize, Serialize};

use super::sketch;
use crate::plan::Plan;
use crate::plan::edit::tidy_line;
use crate::units::has_words;

/// A deleted job can be brought back for so many days.
pub const DAYS_TO_UNDO: u64 = 30;

const DAY: u64 = 24 * 60 * 60 * 1000;

/// What a stored line says it is.
const FORMAT: &str = "borewright job";

/// A job on the list.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Entry {
    /// The device's own name for it, never shown.
    pub id: String,
    /// What it is called.
    pub title: String,
    /// The first line of its note: who and where.
    pub address: String,
    /// When it was changed last, milliseconds since 1970.
    pub changed: u64,
    /// What is next in it, in a few words.
    pub next: String,
    /// Where it stands.
    pub standing: Standing,
    /// A small picture, as [`sketch`] draws it.
    pub sketch: String,
}

/// Where a job stands on the list.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Standing {
    /// Among the jobs at hand.
    #[default]
    AtHand,
    /// Set aside.
    Aside,
    /// Deleted at this moment, milliseconds since 1970.
    Deleted(u64),
}

/// A line as it is stored.
#[derive(Serialize, Deserialize)]
struct Stored {
    format: String,
    version: u32,
    title: String,
    #[serde(default)]
    address: String,
    #[serde(default)]
    changed: u64,
    #[serde(default)]
    next: String,
    #[serde(default)]
    standing: Standing,
    #[serde(default)]
    sketch: String,
}

impl Entry {
    /// The line of a job at hand, as its plan says.
    pub fn of(id: &str, plan: &Plan, next: String, changed: u64) -> Self {
        Self {
            id: id.to_string(),
            title: plan.title.clone(),
            address: plan.note.lines().next().unwrap_or_default().to_string(),
            changed,
            next,
            standing: Standing::AtHand,
            sketch: sketch(plan),
        }
    }

    /// A stored line. Total: one that cannot be read says so in place of a name.
    pub fn read(id: &str, bytes: &[u8]) -> Self {
        let stored: Option<Stored> = serde_json::from_slice(bytes).ok();
        let Some(stored) = stored.filter(|stored| stored.format == FORMAT) else {
            return Self {
                id: id.to_string(),
                title: String::from("A job whose name cannot be read"),
                address: String::new(),
                changed: 0,
                next: String::from("Open it to see what it is"),
                standing: Standing::AtHand,
                sketch: String::new(),
            };
        };
        Self {
            id: id.to_string(),
            title: tidy_line(&stored.title),
            address: tidy_line(&stored.address),
            changed: stored.changed,
            next: tidy_line(&stored.next),
            standing: stored.standing,
            sketch: match sketch::is_sketch(&stored.sketch) {
                true => stored.sketch,
                false => String::new(),
            },
        }
    }

    /// The line as it is stored.
    pub fn write(&self) -> Vec<u8> {
        let stored = Stored {
            format: FORMAT.to_string(),
            version: 1,
            title: self.title.clone(),
            address: self.address.clone(),
            changed: self.changed,
            next: self.next.clone(),
            standing: self.standing,
            sketch: self.sketch.clone(),
        };
        // Strings and numbers have no way to fail.
        serde_json::to_vec(&stored).unwrap_or_default()
    }

    /// Days left to bring a deleted job back, counted up; `None` for one that is not deleted. A clock
    /// that was set back gives all of them.
    pub fn days_left(&self, now: u64) -> Option<u64> {
        let Standing::Deleted(when) = self.standing else {
            return None;
        };
        let gone = now.saturating_sub(when) / DAY;
        Some(DAYS_TO_UNDO.saturating_sub(gone))
    }

    /// Whether its time to be brought back is over.
    pub fn is_over(&self, now: u64) -> bool {
        self.days_left(now) == Some(0)
    }

    /// Whether every word of a search is in its name, its address or what is next, in any case.
    pub fn answers(&self, search: &str) -> bool {
        let all = format!("{} {} {}", self.title, self.address, self.next);
        has_words(&all, search)
    }
}

/// The lines as they are listed: the job changed last comes first.
pub fn in_order(mut entries: Vec<Entry>) -> Vec<Entry> {
    entries.sort_by(|a, b| b.changed.cmp(&a.changed).then(a.id.cmp(&b.id)));
    entries
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::plan::edit::{Edit, sample};
    use proptest::prelude::*;

    fn entry(title: &str, note: &str) -> Entry {
        let plan = Plan::new().apply(&Edit::SetTitle(title.into())).unwrap();
        let plan = plan.apply(&Edit::SetNote(note.into())).unwrap();
        Entry::of("7", &plan, String::from("Framing: no walls yet"), 5)
    }

    proptest! {
        #[test]
        fn a_line_comes_back(seed: u64, changed: u64, gone: Option<u64>) {
            let mut entry = Entry::of("a", &sample::plan(seed, 60), "Drops".into(), changed);
            entry.standing = gone.map_or(Standing::Aside, Standing::Deleted);
            prop_assert_eq!(Entry::read("a", &entry.write()), entry);
        }

        #[test]
        fn any_bytes_are_a_line(bytes: Vec<u8>) {
            let entry = Entry::read("a", &bytes);
            prop_assert_eq!(entry.id.as_str(), "a");
            prop_assert!(!entry.title.is_empty());
        }
    }

    #[test]
    fn a_deleted_job_stays_thirty_days() {
        let mut entry = entry("Alder Court", "");
        assert!(!entry.is_over(u64::MAX));
        entry.standing = Standing::Deleted(1000);
        let check = |now: u64, left: u64| assert_eq!(entry.days_left(now), Some(left));
        check(0, 30);
        check(1000 + DAY - 1, 30);
        check(1000 + DAY, 29);
        check(1000 + 30 * DAY - 1, 1);
        check(1000 + 30 * DAY, 0);
        assert!(entry.is_over(1000 + 30 * DAY) && !entry.is_over(1000 + 30 * DAY - 1));
    }

    #[test]
    fn a_search_finds_by_name_address_and_what_is_next() {
        let entry = entry("Alder Court, lot 6", "Mill Lane 4\nRing twice");
        assert_eq!(entry.address, "Mill Lane 4");
        for search in ["", "alder", "LOT lane", "framing"] {
            assert!(entry.answers(search), "{search}");
        }
        assert!(!entry.answers("alder twice"));
    }

    #[test]
    fn the_job_changed_last_comes_first() {
        let at = |id: &str, changed| Entry {
            id: id.into(),
            changed,
            ..entry("x", "")
        };
        let listed = in_order(vec![at("b", 1), at("c", 3), at("a", 1)]);
        let ids: Vec<&str> = listed.iter().map(|entry| entry.id.as_str()).collect();
        assert_eq!(ids, ["c", "a", "b"]);
    }
}
