//! The table of a tongue: `english = other` lines, some with gaps.

use std::collections::BTreeMap;

use super::phrase::{self, Gap, Phrase, Piece};

/// What is said apart where a whole text is not in the table, from the widest piece to the smallest.
const APART: [&str; 6] = [" · ", "; ", ". ", ": ", ", ", " / "];

/// A tongue's table.
pub(super) struct Table {
    whole: BTreeMap<&'static str, &'static str>,
    phrases: Vec<(Phrase, Phrase)>,
}

impl Table {
    /// Reads a table. A line that starts with `#` is a remark.
    pub fn read(text: &'static str) -> Self {
        let mut table = Self {
            whole: BTreeMap::new(),
            phrases: Vec::new(),
        };
        let lines = text.lines().filter(|line| !line.starts_with('#'));
        for (english, other) in lines.filter_map(|line| line.split_once(" = ")) {
            let phrase = phrase::read(english);
            match phrase.iter().any(|piece| matches!(piece, Piece::Gap(_))) {
                true => table.phrases.push((phrase, phrase::read(other))),
                false => {
                    table.whole.insert(english, other);
                }
            }
        }
        table
    }

    /// Words in this tongue; `unsaid` gets those pieces that have letters and that the table lacks.
    pub fn say(&self, words: &str, unsaid: &mut Vec<String>) -> String {
        if let Some(other) = self.whole.get(words) {
            return (*other).to_string();
        }
        if let Some(said) = self.phrase(words, unsaid) {
            return said;
        }
        if let Some(rest) = words.strip_prefix("· ") {
            return format!("· {}", self.say(rest, unsaid));
        }
        if let Some(said) = words.strip_suffix('.').filter(|said| !said.is_empty()) {
            return format!("{}.", self.say(said, unsaid));
        }
        for between in APART {
            if words.contains(between) {
                let said = words.split(between).map(|part| self.say(part, unsaid));
                return said.collect::<Vec<_>>().join(between);
            }
        }
        if !is_figures(words) {
            unsaid.push(words.to_string());
        }
        words.to_string()
    }

    /// The first phrase that a text is, its gaps filled.
    fn phrase(&self, words: &str, unsaid: &mut Vec<String>) -> Option<String> {
        let (other, found) = self.phrases.iter().find_map(|(phrase, other)| {
            let found = phrase::matched(phrase, words)?;
            Some((other, found))
        })?;
        let mut filled: Vec<Option<(Gap, &str)>> = found.into_iter().map(Some).collect();
        let mut said = String::new();
        for piece in other {
            let gap = match piece {
                Piece::Fixed(letters) => {
                    said.push_str(letters);
                    continue;
                }
                Piece::Gap(gap) => *gap,
            };
            // Gaps of one kind are filled in the order of the English.
            let next = filled
                .iter_mut()
                .find(|slot| slot.is_some_and(|(kind, _)| kind == gap));
            match next.and_then(Option::take) {
                Some((Gap::Words, words)) => said.push_str(&self.say(words, unsaid)),
                Some((_, words)) => said.push_str(words),
                None => {}
            }
        }
        Some(said)
    }
}

/// Whether words are a measure, a number or an identity, which are the same in every tongue.
fn is_figures(words: &str) -> bool {
    let unit = |part: &str| matches!(part, "in" | "ft" | "mm" | "m" | "%" | "h" | "min");
    words.split([' ', '/', '-', '=', ':']).all(|part| {
        let letters = part.chars().filter(|sign| sign.is_alphabetic()).count();
        let digits = part.chars().any(|sign| sign.is_ascii_digit());
        letters == 0 || unit(part) || (digits && letters <= 2)
    })
}
