//! The fixed words of a crew's paper in other tongues.
//!
//! Paper is written in English and said in another tongue by a table that lies beside this file, so
//! that whoever speaks it better than we do can mend a line without touching the program. What a
//! person typed, identities and measures stay as they are.

mod phrase;
mod table;

use std::sync::OnceLock;

use serde::{Deserialize, Serialize};

use table::Table;

/// In which tongue the fixed words of a crew's paper stand.
#[derive(
    Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize,
)]
pub enum Tongue {
    /// English.
    #[default]
    English,
    /// Spanish, as spoken on building sites in the United States.
    Spanish,
    /// Both in one line, English first.
    Both,
}

impl Tongue {
    /// Every choice, in the order offered.
    pub const ALL: [Tongue; 3] = [Self::English, Self::Spanish, Self::Both];

    /// What it is called, so that whoever looks for it can read it.
    pub fn name(self) -> &'static str {
        match self {
            Self::English => "English",
            Self::Spanish => "Español",
            Self::Both => "English / Español",
        }
    }

    /// English words in this tongue. Words the table does not know stay English.
    pub fn say(self, words: &str) -> String {
        match self {
            Self::English => words.to_string(),
            Self::Spanish => spanish().say(words, &mut Vec::new()),
            Self::Both => {
                let said = spanish().say(words, &mut Vec::new());
                match said == words {
                    true => said,
                    false => format!("{words} / {said}"),
                }
            }
        }
    }

    /// The pieces of English words that this tongue has no words for: those of a person, and gaps
    /// in the table. None in English.
    pub fn unsaid(self, words: &str) -> Vec<String> {
        let mut unsaid = Vec::new();
        if self != Self::English {
            spanish().say(words, &mut unsaid);
        }
        unsaid
    }
}

fn spanish() -> &'static Table {
    static TABLE: OnceLock<Table> = OnceLock::new();
    TABLE.get_or_init(|| Table::read(include_str!("es.txt")))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_line_of_the_table_is_read() {
        let text = include_str!("es.txt");
        let lines = text
            .lines()
            .filter(|line| !line.trim().is_empty() && !line.starts_with('#'));
        for line in lines {
            let (english, spanish) = line.split_once(" = ").unwrap_or_else(|| panic!("{line}"));
            assert!(!english.is_empty() && !spanish.is_empty(), "{line}");
            let gaps = |text: &str| {
                let mut gaps: Vec<String> = phrase::gaps(text);
                gaps.sort();
                gaps
            };
            assert_eq!(gaps(english), gaps(spanish), "{line}");
        }
    }

    #[test]
    fn no_line_stands_twice() {
        let text = include_str!("es.txt");
        let mut seen = std::collections::BTreeSet::new();
        let lines = text.lines().filter(|line| !line.starts_with('#'));
        for (english, _) in lines.filter_map(|line| line.split_once(" = ")) {
            assert!(seen.insert(english), "`{english}` stands twice");
        }
    }

    #[test]
    fn measures_names_and_identities_stay() {
        for words in [
            "D12A",
            "W7",
            "9' 2-3/4\"",
            "1-3/8 in",
            "2400 mm",
            "Bedroom 2",
            "",
        ] {
            assert_eq!(Tongue::Spanish.say(words), words);
            assert_eq!(Tongue::Both.say(words), words);
        }
    }

    #[test]
    fn both_stand_in_one_line() {
        assert_eq!(Tongue::English.say("Drill list"), "Drill list");
        assert_eq!(Tongue::Spanish.say("Drill list"), "Lista de agujeros");
        assert_eq!(
            Tongue::Both.say("Drill list"),
            "Drill list / Lista de agujeros"
        );
    }

    #[test]
    fn places_are_said_with_their_figures() {
        let say = |words| Tongue::Spanish.say(words);
        assert_eq!(
            say("W6, studs 5 to 9 from its W4 end"),
            "W6, montantes 5 a 9 desde su extremo W4"
        );
        assert_eq!(
            say("joists 3 to 10 from W4, 9' 2-3/4\" in from outside of W1"),
            "viguetas 3 a 10 desde W4, a 9' 2-3/4\" hacia adentro desde el exterior de W1"
        );
    }

    #[test]
    fn what_the_table_lacks_is_told() {
        assert!(Tongue::Spanish.unsaid("Drill list").is_empty());
        assert_eq!(Tongue::Spanish.unsaid("Ground · Drill list"), ["Ground"]);
        assert!(Tongue::English.unsaid("whatever").is_empty());
    }
}
